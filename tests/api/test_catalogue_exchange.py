"""Does a catalogue get from one service to another byte for byte, and only whole?"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.catalogue.exchange import export_lines
from ampwright.catalogue.keys import make_key
from api.trial_resource import assert_problem
from catalogue_service import SAW, VAN, new, opened, revised, servers, serving, url
from databases import Servers

__all__ = ["servers", "url"]
EXPORT, IMPORT = "/v1/catalogue-export", "/v1/catalogue-imports"


def fill(service: Any) -> None:
    service.post("/v1/tool-profiles", json=new("saw", {**SAW, "name": "Kreissäge"}))
    service.post("/v1/tool-profiles/saw/revisions", json=revised({**SAW, "name": "2"}), headers={"if-match": '"r1"'})
    service.post("/v1/power-sources", json=new("van", VAN))
    service.post("/v1/source-units", json=new("van-07", {"name": "7", "origin": "nameplate", "entry": "van"}))
    service.post("/v1/catalogue-releases", json={"note": "first", "by": "desk"})
    service.post("/v1/tool-profiles/saw/withdrawals", json={"why": "wrong", "by": "safety", "revision": 1})


def test_export_import_export_is_equal_between_services_of_both_databases(servers: Servers, url: str) -> None:
    other = servers.migrated_url("postgresql" if url.startswith("sqlite") else "sqlite")
    with serving(url) as one, serving(other) as two:
        fill(one)
        exported = one.get(EXPORT)
        assert exported.headers["content-type"] == "application/x-ndjson"
        body = {"ndjson": exported.text, "by": "desk"}
        taken = two.post(IMPORT, json=body)
        assert taken.json() == {
            "revisions": 4,
            "releases": 1,
            "withdrawals": 1,
            "new_revisions": 4,
            "new_releases": 1,
            "new_withdrawals": 1,
        }
        assert two.get(EXPORT).content == exported.content
        assert two.post(IMPORT, json=body).json()["new_revisions"] == 0
        # what was brought in is used like what was written here
        check = {"source": {"kind": "catalogue", "unit": "van-07"}, "tools": [{"id": "s", "entry": "saw"}]}
        answers = [each.post("/v1/load-checks", json=check) for each in (one, two)]
        assert answers[0].status_code == 200
        assert answers[0].content == answers[1].content
    servers.give_back(other)


def test_a_damaged_export_is_refused_whole(servers: Servers, url: str) -> None:
    other = servers.migrated_url("sqlite")
    with serving(url) as one, serving(other) as two:
        fill(one)
        lines = one.get(EXPORT).text
        for damaged in ("", "x", lines[: len(lines) // 2], lines.replace("15 A", "16 A"), lines + lines, lines[:-40]):
            refused = two.post(IMPORT, json={"ndjson": damaged, "by": "desk"})
            assert_problem(refused, 422, "contradictory-request")
            assert refused.json()["errors"][0]["pointer"] == "/ndjson"
        assert two.get("/v1/tool-profiles").json()["items"] == []
        assert two.get("/v1/audit").json()["items"] == []
    servers.give_back(other)


def test_an_import_may_be_longer_than_other_bodies_and_beyond_that_is_told_what_to_do(servers: Servers) -> None:
    one_url, other = servers.migrated_url("sqlite"), servers.migrated_url("sqlite")
    with (
        serving(one_url) as one,
        serving(other, body_limit_bytes=1_000, import_limit_bytes=20_000) as two,
    ):
        fill(one)
        lines = one.get(EXPORT).text
        assert 1_000 < len(lines.encode()) < 15_000
        assert_problem(
            two.post("/v1/tool-profiles", json=new("saw", {**SAW, "name": "x" * 1_000})), 413, "body-too-large"
        )
        refused = two.post(IMPORT, json={"ndjson": lines + " " * 20_000, "by": "desk"})
        assert_problem(refused, 413, "body-too-large")
        assert "ampwright import" in refused.json()["detail"]
        sheet = {"csv": "x" * 20_000, "why": "bought", "by": "desk"}
        refused = two.post("/v1/catalogue-sheets/cord", json=sheet)
        assert_problem(refused, 413, "body-too-large")
        assert "in parts" in refused.json()["detail"]
        assert two.post(IMPORT, json={"ndjson": lines, "by": "desk"}).json()["new_revisions"] == 4
    for each in (one_url, other):
        servers.give_back(each)


def test_an_export_is_streamed_from_a_file(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ampwright.api.catalogue_exchange.KEPT_IN_MEMORY_BYTES", 100)
    monkeypatch.setattr("ampwright.api.routing.PIECE_BYTES", 64)
    with serving(url) as service, opened(url) as database:
        fill(service)
        expected = b"".join(export_lines(database))
        whole = service.get(EXPORT)
        assert whole.content == expected
        assert whole.headers["content-length"] == str(len(expected))
        head = service.head(EXPORT)
        assert (head.status_code, head.content) == (200, b"")
        assert head.headers["content-length"] == str(len(expected))
        assert_problem(service.get(EXPORT, headers={"accept": "application/json"}), 406, "not-acceptable")


def test_an_import_needs_both_scopes(url: str) -> None:
    with opened(url) as database:
        texts = {
            scopes: make_key(database, scopes=scopes, note="x", who="y").text
            for scopes in (("release",), ("catalogue:write",), ("catalogue:write", "release"))
        }
    with serving(url) as service:
        for scopes, text in texts.items():
            answer = service.post(IMPORT, json={"ndjson": ""}, headers={"authorization": f"Bearer {text}"})
            assert answer.status_code == (422 if len(scopes) == 2 else 403)
