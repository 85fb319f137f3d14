"""Is the right key let in, and no other?"""

import hashlib
import re
from datetime import UTC, datetime, timedelta

import pytest
from ampwright.catalogue import models
from ampwright.catalogue.audit import list_audit
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import BadValue
from ampwright.catalogue.keys import KeyRing, NoSuchKey, list_keys, make_key, revoke_key
from sqlalchemy import select


def test_a_key_is_let_in_with_its_scopes(database: Database) -> None:
    made = make_key(database, scopes=["release", "calculate", "calculate"], note="the office", who="tester")
    found = KeyRing(database).check(made.text)
    assert found == made.key
    assert found is not None
    assert found.scopes == ("calculate", "release")
    assert (found.note, found.created_by) == ("the office", "tester")


def test_the_text_is_random_and_not_stored(database: Database) -> None:
    texts = {make_key(database, scopes=["calculate"], note="n", who="t").text for _ in range(5)}
    assert len(texts) == 5
    with database.read() as connection:
        rows = connection.execute(select(*models.access_key.c)).all()
    for text in texts:
        # 32 bytes in base64url without padding are 43 characters (RFC 4648)
        assert re.fullmatch(r"ampw_[0-9a-f]{12}_[A-Za-z0-9_-]{43}", text)
        secret = text.split("_", maxsplit=2)[2]
        assert secret not in repr(rows)
        assert hashlib.sha256(text.encode()).hexdigest() in repr(rows)


def test_no_other_text_is_let_in(database: Database) -> None:
    made = make_key(database, scopes=["calculate"], note="n", who="t")
    other = make_key(database, scopes=["keys"], note="n", who="t")
    ring = KeyRing(database)
    _, key_id, secret = made.text.split("_", maxsplit=2)
    for text in (
        "",
        key_id,
        secret,
        made.text[:-1],
        made.text + "A",
        made.text + "\n",
        " " + made.text,
        made.text.upper(),
        made.text.replace(secret, secret[::-1]),
        f"ampw_{other.key.id}_{secret}",
        f"ampw_000000000000_{secret}",
        "ampw_" + "\u0660" * 12 + "_" + secret,
        "\x00",
        "\ud800",
        "x" * 100_000,
    ):
        assert ring.check(text) is None


def test_a_revoked_key_is_refused_for_good(database: Database) -> None:
    made = make_key(database, scopes=["calculate"], note="n", who="t")
    seconds = [0.0]
    ring = KeyRing(database, monotonic_s=lambda: seconds[0])
    assert ring.check(made.text) is not None
    revoked = revoke_key(database, made.key.id, who="boss")
    assert revoked.revoked_by == "boss"
    assert revoke_key(database, made.key.id, who="another") == revoked
    seconds[0] = 1.0  # another worker sees it within a second
    assert ring.check(made.text) is None
    assert not ring.any_live()
    assert list_keys(database) == (revoked,)
    assert [line.action for line in list_audit(database)] == ["revoke key", "make key"]


def test_the_worker_that_revokes_sees_it_at_once(database: Database) -> None:
    made = make_key(database, scopes=["calculate"], note="n", who="t")
    ring = KeyRing(database, monotonic_s=lambda: 0.0)
    assert ring.any_live()
    revoke_key(database, made.key.id, who="boss")
    ring.forget()
    assert ring.check(made.text) is None


def test_a_key_expires(database: Database) -> None:
    now = [datetime(2027, 1, 14, 9, tzinfo=UTC)]
    dated = Database(database.engine, clock=lambda: now[0])
    made = make_key(dated, scopes=["calculate"], note="n", who="t", expires_at=now[0] + timedelta(hours=1))
    ring = KeyRing(dated)
    assert ring.check(made.text) is not None
    now[0] += timedelta(hours=1)
    assert ring.check(made.text) is None
    assert not ring.any_live()
    with pytest.raises(BadValue):
        make_key(dated, scopes=["calculate"], note="n", who="t", expires_at=now[0])


@pytest.mark.parametrize(
    "change", [{"scopes": []}, {"scopes": ["all"]}, {"note": ""}, {"note": "a\x00"}, {"who": ""}, {"who": "x" * 201}]
)
def test_keys_that_cannot_be_made(unwritten_database: Database, change: dict[str, object]) -> None:
    with pytest.raises(BadValue):
        make_key(unwritten_database, **{"scopes": ["keys"], "note": "n", "who": "t", **change})  # type: ignore[arg-type]
    assert list_keys(unwritten_database) == ()


@pytest.mark.parametrize("key_id", ["", "0" * 12, "\x00", "' OR 1=1", "x" * 1000])
def test_keys_that_are_not_there(unwritten_database: Database, key_id: str) -> None:
    with pytest.raises(NoSuchKey):
        revoke_key(unwritten_database, key_id, who="t")


def test_the_audit_trail_goes_on_page_by_page(database: Database) -> None:
    for _ in range(5):
        make_key(database, scopes=["calculate"], note="n", who="t")
    pages = []
    before = None
    while page := list_audit(database, before=before, limit=2):
        pages.append(len(page))
        before = page[-1].number
    assert pages == [2, 2, 1]
    key_id = list_keys(database)[0].id
    assert [line.subject for line in list_audit(database, subject=f"key/{key_id}")] == [f"key/{key_id}"]
    assert list_audit(database, subject="\x00") == ()
