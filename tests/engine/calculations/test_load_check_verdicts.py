"""Does a load check judge as it says it does?

The rules under test are the project's own verdict arithmetic (service/ampwright/engine/calculations/capacity_rules and
DEVELOPERS.md); what stands outside is the arithmetic of the numbers in each request, worked out beside each test.
"""

from __future__ import annotations

from typing import Any

import pytest
from site_of import check, finding_of, resistive, row_of


def _van(**members: Any) -> dict[str, Any]:
    return {
        "kind": "vehicle",
        "voltage": "120 V",
        "resistance": "0.0001 ohm",
        "limits": [{"id": "inverter", "continuous": "8000 VA"}],
        "circuits": [
            {
                "id": "C1",
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            },
            {
                "id": "C2",
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"},
            },
        ],
        "receptacles": [
            {"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"},
            {"id": "R2", "type": "5-20R", "circuit": "C2", "ground_fault": "gfci_class_a"},
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
        **members,
    }


def _heater(tool: str, working: str, heavy: str | None = None, **members: Any) -> dict[str, Any]:
    made = resistive(tool, "1200 W", **members)
    made["load_states"][0]["power"] = working
    made["load_states"][1]["power"] = heavy or working
    return made


def _request(tools: list[dict[str, Any]], into: list[str], **members: Any) -> dict[str, Any]:
    return {
        "source": _van(),
        "tools": tools,
        "connections": [{"plug": tool["id"], "into": at} for tool, at in zip(tools, into, strict=True)],
        "cases": [{"id": "all", "running": [tool["id"] for tool in tools]}],
        "code_basis": [],
        **members,
    }


@pytest.mark.parametrize(
    ("working", "heavy", "verdict"),
    [
        ("1800..2000..2300 W", None, "pass"),  # 19.2 A at the high estimate on 20 A
        ("1800..2000..2600 W", None, "marginal"),  # 16.7 A typical, 21.7 A high
        ("1800..2500..2600 W", None, "fail"),  # 20.8 A typical
        ("1800..2000..2300 W", "2600 W", "marginal"),  # only the push exceeds the label
    ],
)
def test_high_passes_typical_is_marginal_and_only_a_push_is_marginal(
    working: str, heavy: str | None, verdict: str
) -> None:
    result = check(_request([_heater("heater", working, heavy)], ["R1"]))
    assert result.verdict.capacity == verdict
    if heavy:
        assert row_of(result, "all").verdict == "pass"
        # a push above the source's label is never tolerated in its own row
        assert row_of(result, "all", "heater").verdict == "fail"


def test_several_circuits_behind_one_limit_each_hold_and_the_limit_does_not() -> None:
    request = _request([_heater("one", "1900 W"), _heater("two", "1900 W")], ["R1", "R2"])
    request["source"]["limits"] = [{"id": "inverter", "continuous": "3000 VA"}]
    result = check(request)
    # 15.8 A on each 20 A circuit, 3.8 kVA behind a limit of 3.0 kVA
    assert finding_of(result, "circuit_over_rating") is None
    over = finding_of(result, "limit_over_continuous")
    assert over is not None
    assert over.value == pytest.approx(3800.0, rel=0.01)


@pytest.mark.parametrize(("unit", "amount"), [("W", "3000 W"), ("A", "25 A"), ("VA", "3000 VA")])
def test_a_limit_may_be_in_watts_amperes_or_volt_amperes(unit: str, amount: str) -> None:
    request = _request([_heater("one", "1900 W"), _heater("two", "1900 W")], ["R1", "R2"])
    request["source"]["limits"] = [{"id": "inverter", "continuous": amount}]
    over = finding_of(check(request), "limit_over_continuous")
    assert over is not None
    assert over.value == pytest.approx({"W": 3800.0, "VA": 3800.0, "A": 3800.0 / 120.0}[unit], rel=0.01)


def test_receptacles_share_a_circuit_until_somebody_says_otherwise() -> None:
    request = _request([_heater("one", "1700 W"), _heater("two", "1700 W")], ["R1", "R2"])
    for receptacle in request["source"]["receptacles"]:
        del receptacle["circuit"]
    del request["source"]["circuits"]
    result = check(request)
    case = result.cases[0]
    assert case.verdict == "unknown"
    asked = next(item for item in result.assumptions if item.id == case.waits_for)
    assert (asked.code, asked.pointer, asked.swings_verdict_to) == (
        "circuit_shared",
        "/source/receptacles/1/circuit",
        "pass",
    )
    # said to be separate, the same tools pass: 14.2 A on each
    request["source"]["receptacles"][0]["circuit"] = "A"
    request["source"]["receptacles"][1]["circuit"] = "B"
    assert check(request).cases[0].verdict == "pass"


def test_two_questions_that_decide_only_together_leave_fail_and_are_named() -> None:
    request = _request([_heater("one", "1700 W"), _heater("two", "1700 W")], ["R1", "R2"])
    for receptacle in request["source"]["receptacles"]:
        del receptacle["circuit"]
    del request["source"]["circuits"]
    del request["source"]["limits"]  # 2.4 kVA is counted on, 3.4 kVA asked: separate circuits alone do not help
    case = check(request).cases[0]
    assert case.verdict == "fail"
    names = {item.id: item.code for item in check(request).assumptions}
    assert {names[item] for item in case.hangs_on} == {"circuit_shared", "limit_continuous"}


def test_a_maintained_switch_on_a_source_that_resets_itself_is_a_danger() -> None:
    grinder = {
        "id": "grinder",
        "load_class": "angle_grinder",
        "supply_options": [{"voltage": "120 V", "current": "8 A"}],
        "switch": "momentary_lock_on",
        "restart_protection": False,
    }
    request = _request([grinder], ["R1"])
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
    request = _request([grinder], ["R1"])
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
    request = _request([_heater("heater", "1000 W")], ["R1"])
    request["source"] = {**_van(), "kind": "engine_generator", "technology": "avr", "running": "6000 W"}
    if place:
        request["conditions"] = {"place": place}
    result = check(request)
    assert result.verdict.safety == safety
    assert {item.code for item in result.findings} & {"exhaust_place_unknown", "exhaust_near_people"} == (
        {code} if code else set()
    )


def test_a_tool_of_another_voltage_is_a_clear_verdict() -> None:
    welder = {
        "id": "welder",
        "load_class": "welder",
        "supply_options": [{"voltage": "240 V", "plug": "6-50P", "current": "29 A"}],
    }
    result = check(_request([welder], ["R1"]))
    assert result.cases[0].verdict == "fail"
    assert finding_of(result, "voltage_does_not_match") is not None


def test_a_dual_voltage_tool_takes_the_option_that_is_there() -> None:
    welder = {
        "id": "welder",
        "load_class": "welder",
        "supply_options": [
            {"id": "high", "voltage": "240 V", "plug": "6-50P", "current": "29 A"},
            {"id": "low", "voltage": "120 V", "plug": "5-20P", "current": "19 A"},
        ],
    }
    result = check(_request([welder], ["R1"]))
    assert row_of(result, "all").tools[0].supply_option == "low"


def test_a_welders_output_as_its_supply_is_noticed() -> None:
    welder = {"id": "welder", "load_class": "welder", "supply_options": [{"voltage": "120 V", "current": "220 A"}]}
    result = check(_request([welder], ["R1"]))
    assert finding_of(result, "output_given_as_supply") is not None
    assert result.verdict.capacity == "fail"


def test_a_plate_that_gives_more_than_it_takes_is_noticed() -> None:
    # 3 hp are 2237 W (745.7 W each); 120 V x 15 A are 1800 VA
    tool = {
        "id": "saw",
        "load_class": "table_saw",
        "shaft_power": "3 hp",
        "supply_options": [{"voltage": "120 V", "current": "15 A"}],
    }
    assert finding_of(check(_request([tool], ["R1"])), "plate_contradicts_itself") is not None


def test_a_coiled_cord_gets_hot_where_a_straight_one_does_not() -> None:
    request = _request([_heater("heater", "1700 W")], ["reel"])
    request["cords"] = [
        {
            "id": "reel",
            "length": "80 ft",
            "size": "14 AWG",
            "plug": "5-15P",
            "marked": "15 A",
            "outlets": {"type": "5-15R"},
            "laid": "drum",
            "drum_layers": 3,
        }
    ]
    request["connections"].append({"plug": "reel", "into": "R1"})
    wound = check(request)
    assert finding_of(wound, "cord_overheats") is not None
    assert wound.verdict.safety == "fail"
    request["cords"][0] |= {"laid": "straight"}
    del request["cords"][0]["drum_layers"]
    assert finding_of(check(request), "cord_overheats") is None


def test_people_bound_what_runs_together() -> None:
    tools = [
        {
            "id": name,
            "load_class": "angle_grinder",
            "supply_options": [{"voltage": "120 V", "current": "6 A"}],
            "switch": "constant_pressure",
        }
        for name in ("one", "two")
    ]
    request = _request(tools, ["R1", "R2"])
    few = finding_of(check(request), "too_few_people")
    assert few is not None
    assert (few.value, few.limit) == (2.0, 1.0)
    assert finding_of(check({**request, "people": 2}), "too_few_people") is None
    del request["cases"]
    alone = [case.running for case in check(request).cases]
    assert ("one", "two") not in alone
    assert ("one", "two") in [case.running for case in check({**request, "people": 2}).cases]


def test_what_starts_is_not_assessed_and_keeps_the_verdict_from_passing() -> None:
    pump = {
        "id": "pump",
        "load_class": "pump",
        "supply_options": [{"voltage": "120 V", "current": "6 A"}],
        "switch": "automatic",
    }
    result = check(_request([pump], ["R1"]))
    assert "start" in result.not_assessed
    assert result.verdict.capacity == "pass"
    assert result.verdict.overall == "unknown"


def test_a_row_alone_equals_the_row_among_many_bit_for_bit() -> None:
    tools = [_heater(f"h{n}", f"{400 + 37 * n} W") for n in range(4)]
    request = _request(tools, ["R1", "R2", "R1", "R2"])
    request["source"]["receptacles"] = [
        {"id": f"R{n}", "type": "5-20R", "circuit": f"C{n % 2 + 1}", "ground_fault": "gfci_class_a"}
        for n in range(1, 5)
    ]
    request["connections"] = [{"plug": f"h{n}", "into": f"R{n + 1}"} for n in range(4)]
    many = [{"id": f"c{n}", "running": [f"h{k}" for k in range(4) if n >> k & 1]} for n in range(1, 16)]
    whole = check({**request, "cases": many})
    for case in many:
        alone = check({**request, "cases": [case]})
        assert alone.cases[0].results == next(item for item in whole.cases if item.id == case["id"]).results
