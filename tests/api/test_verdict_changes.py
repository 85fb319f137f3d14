"""Does a release that changes a figure tell which kits it changes, and which figure it was?"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient
from service_with_demo import demo_client

HEATER = {
    "name": "heater",
    "origin": "nameplate",
    "load_class": "heater",
    "switch": "positive_on_off",
    "operated": "by_itself",
}


def document(client: TestClient[Any], power: str, revision: str | None) -> None:
    option = [{"voltage": "120 V", "power": power, "plug": "5-15P"}]
    body = {"document": {**HEATER, "supply_options": option}, "why": "test", "by": "desk"}
    if revision is None:
        made = client.post("/v1/tool-profiles", json={"entry": "site-heater", **body}, headers={"if-none-match": "*"})
    else:
        made = client.post("/v1/tool-profiles/site-heater/revisions", json=body, headers={"if-match": revision})
    assert made.status_code == 201, made.text
    assert client.post("/v1/catalogue-releases", json={"note": "test", "by": "desk"}).status_code == 201


def test_a_figure_that_changes_a_verdict(tmp_path: Path) -> None:
    """600 W and then 1900 W on a set of 1500 VA: by arithmetic the first holds, and the second does not."""
    source = {
        "kind": "engine_generator",
        "voltage": "120 V",
        "technology": "inverter",
        "running": "1500 VA",
        "receptacles": [
            {"id": "A", "type": "5-20R", "marked": "20 A", "circuit": "C1", "ground_fault": "gfci_class_a"}
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "floating",
    }
    with demo_client(tmp_path) as client:
        document(client, "600 W", None)  # release 2
        document(client, "1900 W", '"r1"')  # release 3
        body = {
            "from_release": 2,
            "to_release": 3,
            "sources": [{"id": "set", "source": source}],
            "kits": [
                {"id": "warm", "tools": [{"id": "heater", "entry": "site-heater"}]},
                {"id": "saws", "tools": [{"id": "saw", "entry": "circular-saw-185mm"}]},
            ],
            "jobs": [{"id": "j", "code_basis": []}],
        }
        answer = client.post("/v1/verdict-changes", json=body)
        assert answer.status_code == 200, answer.text
        told = answer.json()
        assert told["unchanged"] == 1
        [change] = told["changes"]
        assert (change["id"], change["turned"]) == ("j/warm/set", "worse")
        assert change["after"]["verdict"] == "fail"
        [entry] = change["entries"]
        assert (entry["kind"], entry["entry"], entry["old_revision"], entry["new_revision"]) == (
            "tool-profile", "site-heater", 1, 2,
        )  # fmt: skip
        assert any("1900 W" in text and "600 W" in text for text in entry["differences"])
        for side, release in (("before", 2), ("after", 3)):
            asked = {name: body[name] for name in ("sources", "kits", "jobs")} | {"catalogue_release": release}
            validated = client.post("/v1/kit-validations", json=asked).json()["rows"][0]
            assert change[side]["verdict"] == validated["verdict"]
            assert change[side]["load_check_digest"] == validated["load_check"]["request_digest"]
        back = client.post("/v1/verdict-changes", json={**body, "from_release": 3, "to_release": 2}).json()
        assert [one["turned"] for one in back["changes"]] == ["better"]
        gone = client.post("/v1/verdict-changes", json={**body, "to_release": 1}).json()
        assert [one["turned"] for one in gone["changes"]] == ["no_longer_answered"]
        assert gone["changes"][0]["after"]["errors"][0]["code"] == "unknown_entry"
        same = client.post("/v1/verdict-changes", json={**body, "from_release": 3}).json()
        assert (same["changes"], same["unchanged"], same["without_answer"]) == ([], 2, [])
        lost = {**body, "kits": [*body["kits"], {"id": "gone", "entry": "no-such-kit"}]}  # type: ignore[misc]
        told = client.post("/v1/verdict-changes", json=lost).json()
        assert (len(told["changes"]), told["unchanged"]) == (1, 1)
        [nowhere] = told["without_answer"]
        assert nowhere["id"] == "j/gone/set"
        for side in ("before", "after"):
            assert [(one["code"], one["pointer"]) for one in nowhere[side]] == [("unknown_entry", "/kits/2/entry")]
        odd = {**body, "kits": [{"id": "warm", "tols": []}, *body["kits"]]}  # type: ignore[misc]
        told = client.post("/v1/verdict-changes", json=odd).json()
        assert [one["id"] for one in told["changes"]] == ["j/warm/set"]
        assert [one["id"] for one in told["without_answer"]] == ["j/warm#0/set"]


@pytest.mark.parametrize(("releases", "status"), [((1, 99), 404), ((0, 1), 422)])
def test_releases_that_are_not_there(tmp_path: Path, releases: tuple[int, int], status: int) -> None:
    with demo_client(tmp_path) as client:
        body = {
            "from_release": releases[0],
            "to_release": releases[1],
            "sources": [{"id": "s", "source": {"kind": "catalogue", "unit": "ELW-04"}}],
            "kits": [{"id": "k", "entry": "j1-shelter-frame"}],
        }
        assert client.post("/v1/verdict-changes", json=body).status_code == status
