"""Is the longer cord that a comparison offers one with which the job is done, by whoever brings it?

A kit is changed as told, and posted again. Lengths are arithmetic: a cord and the tool's own 6 ft (common practice, no
source) must be as long as the way. Marks: UL 817, table 12.1, as in engine/standards/cord_ratings.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.contract.json_steps import apply_steps
from litestar.testing import TestClient
from service_with_demo import demo_client

PATH = "/v1/source-comparisons"
FOOT_M = 0.3048
SET = {
    "kind": "engine_generator",
    "voltage": "120 V",
    "technology": "inverter",
    "running": "4000 VA",
    "receptacles": [
        {"id": "A", "type": "5-20R", "marked": "20 A", "circuit": "C1", "ground_fault": "gfci_class_a"},
        {"id": "B", "type": "5-20R", "marked": "20 A", "circuit": "C2", "ground_fault": "gfci_class_a"},
    ],
    "reset": {"how": "manual"},
    "neutral_bond": "floating",
}
HEATER = {
    "id": "heater",
    "load_class": "heater",
    "supply_options": [{"voltage": "120 V", "power": "1200 W", "plug": "5-15P"}],
    "switch": "positive_on_off",
    "operated": "by_itself",
}
JOB: dict[str, Any] = {
    "id": "warm",
    "cases": [{"id": "warm", "running": ["heater"]}],
    "conditions": {"place": "open_air", "wet": False, "ambient": "5..25 degC"},
    "code_basis": [],
}


def cord(length: str, size: str, **members: Any) -> dict[str, Any]:
    return {"id": "c", "length": length, "size": size, "laid": "straight", **members}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("longer-cords")) as opened:
        yield opened


def ask(client: TestClient[Any], kit: dict[str, Any], distance: str, **job: Any) -> dict[str, Any]:
    body = {
        "sources": [{"id": "s", "source": SET, **job.pop("source", {})}],
        "kits": [{"id": "k", **kit}],
        "jobs": [{**JOB, "distance": distance, **job}],
        "include": ["changes"],
    }
    answer = client.post(PATH, json=body)
    assert answer.status_code == 200, answer.text
    [row] = answer.json()["rows"]
    assert row["errors"] == []
    found: dict[str, Any] = row
    return found


STATED = [{"plug": "c", "into": "A"}, {"plug": "heater", "into": "c"}]
KITS: dict[str, tuple[dict[str, Any], str, float]] = {
    "planned": ({"tools": [HEATER], "cords": [cord("25 ft", "12 AWG")]}, "90 ft", 90.0),
    "stated": ({"tools": [HEATER], "cords": [cord("25 ft", "12 AWG")], "connections": STATED}, "30 m", 30.0 / FOOT_M),
    "no cord at all": ({"tools": [HEATER]}, "90 ft", 90.0),
    "of an entry": ({"entry": "j1-shelter-frame", "tools": [HEATER]}, "140 ft", 140.0),
    "metric": ({"tools": [HEATER], "cords": [cord("10 m", "2.5 mm2")]}, "28 m", 28.0 / FOOT_M),
}


@pytest.mark.parametrize("name", KITS)
def test_the_kit_with_the_cord_does_the_job(client: TestClient[Any], name: str) -> None:
    kit, distance, far_ft = KITS[name]
    row = ask(client, kit, distance)
    assert row["verdict"] == "fail"
    assert "longer_cord" in {one["item"] for one in row["missing"]}
    told = row["cheapest_change"]
    assert told["of"] == "kit"
    assert told["verdict"] != "fail"
    changed = apply_steps(copy.deepcopy(kit), [(one["op"], one["path"], one.get("value")) for one in told["change"]])
    assert changed is not None
    after = ask(client, changed, distance)
    assert after["verdict"] == told["verdict"]
    assert after["load_check"]["verdict"] == told["then"]
    assert after["missing"] == [] or "longer_cord" not in {one["item"] for one in after["missing"]}
    [length] = [
        one["length"]
        for one in changed["cords"]
        if one.get("length") != "25 ft" and one.get("length") != "10 m" and "length" in one
    ]
    number, unit = length.split()
    assert float(number) * (1.0 if unit == "ft" else 1.0 / FOOT_M) + 6.0 >= far_ft - 0.1


def test_a_cord_that_is_too_thin_for_the_length_is_thicker_as_well(client: TestClient[Any]) -> None:
    """10 A through 16 AWG: marked 13 A up to 50 ft and 10 A beyond; 1440 W are 12 A, so that 100 ft must be thicker."""
    heater = {**HEATER, "supply_options": [{"voltage": "120 V", "power": "1440 W", "plug": "5-15P"}]}
    row = ask(client, {"tools": [heater], "cords": [cord("50 ft", "16 AWG")]}, "100 ft")
    members = {step["path"].rsplit("/", 1)[-1]: step["value"] for step in row["cheapest_change"]["change"]}
    assert members["length"] == "100 ft"
    assert int(members["size"].split()[0]) < 16


def test_the_mark_of_the_cord_left_at_home_is_not_that_of_the_longer_one(client: TestClient[Any]) -> None:
    """A 16 AWG set of 50 ft is marked 13 A, one of 100 ft 10 A: 12 A are not carried because the old one said 13 A."""
    heater = {**HEATER, "supply_options": [{"voltage": "120 V", "power": "1440 W", "plug": "5-15P"}]}
    kit = {"tools": [heater], "cords": [cord("50 ft", "16 AWG", marked="13 A")], "connections": STATED}
    members = {
        step["path"].rsplit("/", 1)[-1]: step["value"]
        for step in ask(client, kit, "100 ft")["cheapest_change"]["change"]
    }
    assert float(members["marked"].split()[0]) >= 12.0
    assert int(members["size"].split()[0]) < 16


def test_no_cord_is_offered_that_does_not_make_it_hold(client: TestClient[Any]) -> None:
    sound = {"tools": [HEATER], "cords": [cord("25 ft", "12 AWG")]}
    # nobody carries a cord of half a mile; a tool that is not there is not brought by a cord; nor is a full tank
    assert "cheapest_change" not in ask(client, sound, "2600 ft")
    cases = [{"id": "warm", "running": ["heater", "pump"]}]
    assert "cheapest_change" not in ask(client, sound, "90 ft", cases=cases)
    dry = {"fuel": {"in_tank": "0.1 l"}}
    day = {"shift": "10 h", "draws": 200}
    found = ask(client, sound, "90 ft", source=dry, day=day)
    assert found["verdict"] == "fail"
    assert "cheapest_change" not in found
