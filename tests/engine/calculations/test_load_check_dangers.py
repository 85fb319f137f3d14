"""Does a load check tell what can hurt somebody: power that comes back, an engine near people?

The rules under test are the project's own verdict arithmetic (DEVELOPERS.md); what stands outside is the arithmetic of
the numbers in each request, worked out beside each test.
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, finding_of
from van_request import heater_drawing, van, van_request


def test_a_maintained_switch_on_a_source_that_resets_itself_is_a_danger() -> None:
    grinder = {
        "id": "grinder",
        "load_class": "angle_grinder",
        "supply_options": [{"voltage": "120 V", "current": "8 A"}],
        "switch": "momentary_lock_on",
        "restart_protection": False,
    }
    request = van_request([grinder], ["R1"])
    request["source"]["reset"] = {"how": "automatic", "after": "5 s"}
    finding = finding_of(check(request), "restart_without_warning")
    assert finding is not None
    assert finding.severity == "danger"
    assert check(request).verdict.safety == "fail"
    grinder["restart_protection"] = True
    assert finding_of(check(request), "restart_without_warning") is None
    grinder["restart_protection"] = False
    grinder["switch"] = "constant_pressure"
    held = finding_of(check(request), "restarts_if_held")
    assert held is not None
    assert held.severity == "caution"


def test_an_unknown_reset_is_a_question_and_not_a_guess() -> None:
    grinder = {
        "id": "grinder",
        "load_class": "angle_grinder",
        "supply_options": [{"voltage": "120 V", "current": "8 A"}],
        "switch": "momentary_lock_on",
        "restart_protection": False,
    }
    request = van_request([grinder], ["R1"])
    del request["source"]["reset"]
    result = check(request)
    assert result.cases[0].verdict == "unknown"
    assert next(item for item in result.assumptions if item.id == result.question).code == "reset"


@pytest.mark.parametrize(
    ("place", "code", "safety"),
    [
        (None, "exhaust_place_unknown", "unknown"),
        ("enclosed", "exhaust_near_people", "fail"),
        ("open_air", None, "pass"),
    ],
)
def test_an_engine_is_asked_where_it_runs(place: str | None, code: str | None, safety: str) -> None:
    request = van_request([heater_drawing("heater", "1000 W")], ["R1"])
    request["source"] = {**van(), "kind": "engine_generator", "technology": "avr", "running": "6000 W"}
    if place:
        request["conditions"] = {"place": place}
    result = check(request)
    assert result.verdict.safety == safety
    assert {item.code for item in result.findings} & {"exhaust_place_unknown", "exhaust_near_people"} == (
        {code} if code else set()
    )


def _grinder(tool: str = "grinder", **members: Any) -> dict[str, Any]:
    return {
        "id": tool,
        "load_class": "angle_grinder",
        "supply_options": [{"voltage": "120 V", "current": "8 A"}],
        "switch": "momentary_lock_on",
        "restart_protection": False,
        **members,
    }


def test_a_danger_of_the_site_counts_also_where_nothing_runs() -> None:
    result = check({"source": van(), "conditions": {"fixed_wiring": "direct"}, "code_basis": []})
    assert finding_of(result, "backfeed") is not None
    assert result.verdict.safety == "fail"
    assert result.verdict.overall == "fail"
    empty = check({"source": van(), "code_basis": []})
    assert empty.verdict.capacity == "unknown"  # nothing ran that could hold


def test_one_stated_reset_does_not_stand_for_the_others() -> None:
    # the limit is reset by hand, of the breakers nothing is said: one of them may come back by itself
    request = van_request([_grinder()], ["R1"])
    del request["source"]["reset"]
    request["source"]["limits"] = [{"id": "inverter", "continuous": "8000 VA", "reset": {"how": "manual"}}]
    result = check(request)
    assert result.cases[0].verdict == "unknown"
    assert next(item for item in result.assumptions if item.id == result.question).code == "reset"
    for circuit in request["source"]["circuits"]:
        circuit["device"]["reset"] = {"how": "manual"}
    assert check(request).cases[0].verdict == "pass"


@pytest.mark.parametrize("switch", ["always_on", "automatic", "positive_on_off"])
def test_every_switch_that_stays_on_is_a_danger_on_a_source_that_comes_back(switch: str) -> None:
    request = van_request([_grinder(switch=switch)], ["R1"])
    request["source"]["reset"] = {"how": "automatic"}
    assert finding_of(check(request), "restart_without_warning") is not None


def test_a_reset_from_a_distance_is_told() -> None:
    request = van_request([_grinder()], ["R1"])
    request["source"]["reset"] = {"how": "remote"}
    told = finding_of(check(request), "power_sent_back_unseen")
    assert told is not None
    assert told.severity == "caution"


def test_a_pressure_switch_starts_its_motor_after_a_reset_from_a_distance_too() -> None:
    # common practice, no source: a pressure switch restarts without warning, whatever the source does
    compressor = {
        "id": "compressor",
        "load_class": "air_compressor",
        "supply_options": [{"voltage": "120 V", "current": "5 A"}],
        "control": "pressure",
    }
    request = van_request([compressor], ["R1"])
    request["source"]["reset"] = {"how": "remote"}
    told = finding_of(check(request), "restarts_by_itself")
    assert told is not None
    assert told.severity == "caution"
