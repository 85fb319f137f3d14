"""Does the safety list name what somebody should look at, and nothing else?

Expected lines follow from the request by the three questions of the list: 29 CFR 1926.300(d) for switches, and what
nobody said counts on the safe side.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from typing import Any

import pytest
from litestar.testing import TestClient
from service_with_demo import demo_client

PATH = "/v1/safety-lists"
SOURCE: dict[str, Any] = {
    "kind": "vehicle",
    "voltage": "120 V",
    "receptacles": [{"id": "A", "ground_fault": "gfci_class_a"}, {"id": "B", "ground_fault": "none"}],
    "reset": {"how": "automatic"},
}
GRINDER = {"id": "grinder", "load_class": "angle_grinder", "switch": "momentary_lock_on", "restart_protection": False}
HARMLESS = [
    {"id": "protected", "load_class": "angle_grinder", "switch": "positive_on_off", "restart_protection": True},
    {"id": "held", "load_class": "circular_saw", "switch": "constant_pressure"},
    {"id": "light", "load_class": "led_light", "switch": "positive_on_off"},
]


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("safety-lists")) as opened:
        yield opened


def lines(client: TestClient[Any], source: dict[str, Any], *tools: Any, **members: Any) -> list[dict[str, Any]]:
    body = {"sources": [{"id": "s", "source": source, **members}], "kits": [{"id": "k", "tools": list(tools)}]}
    answer = client.post(PATH, json=body)
    assert answer.status_code == 200, answer.text
    found: list[dict[str, Any]] = answer.json()["lines"]
    return found


def test_a_tool_that_stays_on_where_power_comes_back(client: TestClient[Any]) -> None:
    [line] = lines(client, SOURCE, GRINDER, *HARMLESS)
    assert (line["code"], line["severity"], line["parts"], line["stated"]) == (
        "restart_without_warning", "danger", ["grinder"], True,
    )  # fmt: skip
    assert line["pointers"] == ["/kits/0/tools/0/switch"]
    for how in ("manual", "remote"):
        assert lines(client, {**SOURCE, "reset": {"how": how}}, GRINDER) == []


def test_what_nobody_said_is_a_question(client: TestClient[Any]) -> None:
    unsaid = {name: value for name, value in SOURCE.items() if name != "reset"}
    [line] = lines(client, unsaid, GRINDER)
    assert (line["severity"], line["stated"]) == ("caution", False)
    assert line["how_to_find_out"]
    [line] = lines(client, SOURCE, {"id": "old", "load_class": "angle_grinder"})
    assert (line["severity"], line["stated"], line["parts"]) == ("caution", False, ["old"])


def test_receptacles_that_nobody_looked_at(client: TestClient[Any]) -> None:
    source = {**SOURCE, "receptacles": [{"id": "A", "ground_fault": "none"}, {"id": "B"}, {"id": "C"}]}
    [line] = lines(client, source)
    assert (line["code"], line["parts"]) == ("ground_fault_protection_unknown", ["B", "C"])
    assert line["pointers"] == [f"/sources/0/source/receptacles/{n}/ground_fault" for n in (1, 2)]
    direct = {"kind": "battery_station", "voltage": "48 V DC", "waveform": "dc", "reset": {"how": "manual"}}
    assert lines(client, {**direct, "receptacles": [{"id": "A"}]}) == []


def test_engines_and_their_places(client: TestClient[Any]) -> None:
    engine = {**SOURCE, "kind": "engine_generator", "name": "set 4"}
    [line] = lines(client, engine)
    assert (line["code"], line["severity"], line["pointers"]) == (
        "exhaust_place_unknown", "caution", ["/sources/0/place"],
    )  # fmt: skip
    assert lines(client, engine, place="open_air") == []
    for place in ("indoors", "enclosed", "trench", "near_opening"):
        [line] = lines(client, engine, place=place)
        assert (line["code"], line["severity"]) == ("exhaust_near_people", "danger")
    assert lines(client, SOURCE, place="indoors") == []  # no engine


def test_the_whole_fleet_agrees_with_its_load_checks(client: TestClient[Any]) -> None:
    """Each pair's tools are those that the pair's own load check warns of; both ways."""
    answer = client.post(PATH, json={"code_basis": ["osha-1926"]}).json()
    assert answer["sources"] == 8
    assert answer["kits"] == 6
    assert answer["not_looked_at"] == []
    told = {(one["source"], one["kit"]): one for one in answer["lines"] if one["code"] == "restart_without_warning"}
    for unit in ("elw-04", "elw-07", "elw-11", "elw-31"):
        for kit in ("j1-shelter-frame", "j3-slab-cut", "j4-night-leak"):
            request = {"source": {"kind": "catalogue", "unit": unit}, "kit": {"entry": kit}, "code_basis": []}
            check = client.post("/v1/load-checks", json=request).json()
            warned = [one["text"] for one in check["findings"] if one["code"] == "restart_without_warning"]
            parts = told[unit, kit]["parts"] if (unit, kit) in told else []
            assert len(warned) == len(parts), (unit, kit)
            assert all(any(f"while {part} is" in text for text in warned) for part in parts)
    assert {tuple(one["pointers"]) for one in answer["lines"]} <= {("/sources",), ("/kits",)}
    named = {one["id"] for one in answer["basis"]}
    assert all(set(one["basis"]) <= named for one in answer["lines"])
    assert any(one["place"] == "300(d)" for one in answer["basis"])
    severities = [one["severity"] for one in answer["lines"]]
    assert severities == sorted(severities, key=["danger", "caution", "info"].index)
    assert sum(one["lines"] for one in answer["counts"]) == len(answer["lines"])


def test_the_digest_proves_which_list_was_given(client: TestClient[Any]) -> None:
    one, same = (client.post(PATH, json={}).json() for _ in range(2))
    assert one == same
    other = client.post(PATH, json={"kits": [{"id": "k", "entry": "j1-shelter-frame"}]}).json()
    assert other["answer_digest"] != one["answer_digest"]
    sheet = client.post(PATH, json={}, headers={"accept": "text/csv"})
    rows = list(csv.DictReader(io.StringIO(sheet.text)))
    assert [row["code"] for row in rows] == [line["code"] for line in one["lines"]]
    assert {row["answer_digest"] for row in rows} == {one["answer_digest"]}


def test_what_cannot_be_looked_at_is_named(client: TestClient[Any]) -> None:
    body = {
        "sources": [{"id": "s", "source": {"kind": "catalogue", "unit": "ELW-99"}}, {"id": "t", "source": SOURCE}],
        "kits": [{"id": "k", "entry": "j9"}, {"id": "l", "tools": [GRINDER]}],
    }
    answer = client.post(PATH, json=body).json()
    assert [(one["id"], one["errors"][0]["pointer"]) for one in answer["not_looked_at"]] == [
        ("s", "/sources/0/source/unit"),
        ("k", "/kits/0/entry"),
    ]
    assert [line["id"] for line in answer["lines"]] == ["restart_without_warning/t/l"]
    # by definition: who reads the sheet alone must not take what was not looked at for clean
    sheet = client.post(PATH, json=body, headers={"accept": "text/csv"})
    rows = list(csv.DictReader(io.StringIO(sheet.text)))
    assert [(row["code"], row["source"], row["kit"]) for row in rows] == [
        ("not_looked_at", "s", ""),
        ("not_looked_at", "", "k"),
        ("restart_without_warning", "t", "l"),
    ]
    assert all(row["text"] for row in rows)
    twice = client.post(PATH, json={**body, "kits": body["kits"][1:] * 2})
    assert twice.status_code == 422
    assert twice.json()["errors"][0]["code"] == "repeated_id"
