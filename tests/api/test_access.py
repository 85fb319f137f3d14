"""Who is let in, and what is a stranger told?"""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from ampwright.app import create_app
from ampwright.catalogue.database import Database
from ampwright.catalogue.keys import make_key, revoke_key
from ampwright.catalogue.migrate import upgrade
from ampwright.settings import Settings
from api import trial_resource
from api.test_serve_command import command, environment
from api.trial_resource import assert_problem
from litestar import Litestar
from litestar.testing import TestClient

GOOD = {"items": [{"id": "saw"}]}


@pytest.fixture
def database_url(tmp_path: Path) -> str:
    url = f"sqlite:///{tmp_path / 'catalogue.db'}"
    upgrade(url)
    return url


@pytest.fixture
def database(database_url: str) -> Iterator[Database]:
    opened = Database.at(database_url)
    yield opened
    opened.close()


def served(database_url: str, **settings: object) -> TestClient[Litestar]:
    chosen = Settings(database_url=database_url, **settings)  # type: ignore[arg-type]
    return TestClient(create_app(chosen, resources=(trial_resource.operations,)))


def make(database: Database, *scopes: str) -> str:
    return make_key(database, scopes=scopes, note="a test", who="test").text


def bearer(text: str) -> dict[str, str]:
    return {"authorization": f"Bearer {text}"}


def test_loopback_without_keys_is_open(database_url: str) -> None:
    with served(database_url) as client:
        assert client.post("/v1/trials", json=GOOD).status_code == 200


def test_first_key_closes_the_door(database_url: str, database: Database) -> None:
    text = make(database, "calculate")
    with served(database_url) as client:
        refused = client.post("/v1/trials", json=GOOD)
        assert_problem(refused, 401, "unauthenticated")
        # RFC 9110, 15.5.2: 401 must carry a challenge; RFC 6750, 3: no error code where nothing was shown.
        assert refused.headers["www-authenticate"] == "Bearer"
        assert client.post("/v1/trials", json=GOOD, headers=bearer(text)).status_code == 200
        assert client.post("/v1/trials", json=GOOD, headers={"authorization": f"bearer {text}"}).status_code == 200
        # Open to all: probes, documentation, problem pages.
        for path in ("/livez", "/docs", "/openapi.json", "/problems", refused.json()["type"]):
            assert client.get(path, headers={"accept": "*/*"}).status_code == 200


def test_the_last_key_that_goes_does_not_open_the_door(database_url: str, database: Database) -> None:
    """Else whoever waits until a key has expired gets in without one."""
    gone = make_key(database, scopes=["keys"], note="a test", who="test")
    with served(database_url) as client:
        revoke_key(database, gone.key.id, who="test")
        assert_problem(client.post("/v1/trials", json=GOOD), 401, "unauthenticated")
        assert_problem(client.post("/v1/trials", json=GOOD, headers=bearer(gone.text)), 401, "unauthenticated")
    with served(database_url) as client:
        assert_problem(client.post("/v1/trials", json=GOOD), 401, "unauthenticated")
        text = make(database, "calculate")  # as the command does
    with served(database_url) as client:
        assert client.post("/v1/trials", json=GOOD, headers=bearer(text)).status_code == 200


def test_other_address_is_closed_without_keys(database_url: str) -> None:
    with served(database_url, host="192.0.2.1") as client:
        assert_problem(client.post("/v1/trials", json=GOOD), 401, "unauthenticated")
    with served(database_url, host="192.0.2.1", allow_open_address=True) as client:
        assert client.post("/v1/trials", json=GOOD).status_code == 200


@pytest.mark.parametrize(
    "shown",
    [
        "",
        "Bearer",
        "Bearer ",
        "Bearer x",
        "Basic dXNlcjpwYXNz",
        "Bearer ampw_000000000000_" + "a" * 43,
        "Bearer " + "a" * 5000,
    ],
)
def test_what_is_no_key_is_refused(database_url: str, database: Database, shown: str) -> None:
    make(database, "calculate")
    with served(database_url) as client:
        refused = client.post("/v1/trials", json=GOOD, headers={"authorization": shown})
        assert_problem(refused, 401, "unauthenticated")
        assert refused.headers["www-authenticate"] == 'Bearer error="invalid_token"'


def test_wrong_key_is_refused_even_where_none_is_asked_for(database_url: str) -> None:
    """A caller that shows a key believes it has one; to let it in would hide that the key is gone."""
    with served(database_url) as client:
        assert_problem(client.post("/v1/trials", json=GOOD, headers=bearer("x")), 401, "unauthenticated")


def test_changed_revoked_and_expired_keys_are_refused(database_url: str, database: Database) -> None:
    text = make(database, "calculate")
    gone = make_key(database, scopes=["calculate"], note="a test", who="test")
    revoke_key(database, gone.key.id, who="test")
    short = make_key(
        database,
        scopes=["calculate"],
        note="a test",
        who="test",
        expires_at=datetime.now(UTC) + timedelta(seconds=1),
    )
    changed = text[:-1] + ("A" if text[-1] != "A" else "B")
    with served(database_url) as client:
        assert client.post("/v1/trials", json=GOOD, headers=bearer(short.text)).status_code == 200
        for wrong in (changed, gone.text, text.upper(), text + "A"):
            assert_problem(client.post("/v1/trials", json=GOOD, headers=bearer(wrong)), 401, "unauthenticated")
        while datetime.now(UTC) < short.key.expires_at:  # type: ignore[operator]
            pass
        assert_problem(client.post("/v1/trials", json=GOOD, headers=bearer(short.text)), 401, "unauthenticated")


def test_key_opens_only_what_it_was_made_for(database_url: str, database: Database) -> None:
    reader, writer, calculator = (make(database, one) for one in ("catalogue:read", "catalogue:write", "calculate"))
    entry = {"id": "saw"}
    match = {"if-match": '"r3"'}
    with served(database_url) as client:
        assert client.get("/v1/entries/a", headers=bearer(reader)).status_code == 200
        assert client.put("/v1/entries/a", json=entry, headers=bearer(writer) | match).status_code == 201
        for refused in (
            client.get("/v1/entries/a", headers=bearer(calculator)),
            client.put("/v1/entries/a", json=entry, headers=bearer(reader) | match),
            client.post("/v1/trials", json=GOOD, headers=bearer(writer)),
        ):
            assert_problem(refused, 403, "forbidden")
            assert 'error="insufficient_scope"' in refused.headers["www-authenticate"]


def test_stranger_is_refused_before_the_body_is_read(database_url: str, database: Database) -> None:
    make(database, "calculate")
    with served(database_url) as client:
        assert_problem(client.post("/v1/trials", content=b"{", headers={}), 401, "unauthenticated")


def test_everything_under_v1_names_a_scope() -> None:
    from ampwright.app import RESOURCES

    for resource in (trial_resource.operations, *RESOURCES):
        for operation in resource:
            assert operation.scope is not None, operation.operation_id


def test_key_made_by_the_command_opens_the_door(database_url: str, tmp_path: Path) -> None:
    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command("keys", *arguments),
            env=environment(tmp_path),
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )

    made = run("make", "--scope", "calculate", "--note", "the van", "--by", "test")
    text = made.stdout.strip()
    assert made.returncode == 0, made.stderr
    with served(database_url) as client:
        assert client.post("/v1/trials", json=GOOD, headers=bearer(text)).status_code == 200
    listed = run("list").stdout
    assert text.split("_")[1] in listed
    assert text not in listed
    assert run("revoke", text.split("_")[1], "--by", "test").returncode == 0
    assert "revoked" in run("list").stdout
    assert run("revoke", "0" * 12, "--by", "test").returncode == 2
    assert (
        run("make", "--scope", "calculate", "--note", "x", "--by", "y", "--expires", "2001-01-01T00:00:00Z").returncode
        == 2
    )
    assert run("make", "--scope", "calculate", "--note", "x", "--by", "y", "--expires", "tomorrow").returncode == 2
