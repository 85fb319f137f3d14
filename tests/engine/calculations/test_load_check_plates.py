"""Does a load check read plates and plugs as they are meant, and notice where they contradict each other?

The rules under test are the project's own verdict arithmetic (DEVELOPERS.md); what stands outside is the arithmetic of
the numbers in each request, worked out beside each test.
"""

from __future__ import annotations

import pytest
from site_of import check, finding_of, resistive, row_of
from van_request import heater_drawing, van_request


def test_a_tool_of_another_voltage_is_a_clear_verdict() -> None:
    welder = {
        "id": "welder",
        "load_class": "welder",
        "supply_options": [{"voltage": "240 V", "plug": "6-50P", "current": "29 A"}],
    }
    result = check(van_request([welder], ["R1"]))
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
    result = check(van_request([welder], ["R1"]))
    assert row_of(result, "all").tools[0].supply_option == "low"


def test_a_welders_output_as_its_supply_is_noticed() -> None:
    welder = {"id": "welder", "load_class": "welder", "supply_options": [{"voltage": "120 V", "current": "220 A"}]}
    result = check(van_request([welder], ["R1"]))
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
    assert finding_of(check(van_request([tool], ["R1"])), "plate_contradicts_itself") is not None


def test_a_three_phase_plate_gives_line_current() -> None:
    # 10 A on the plate of a 230/400 V tool are 10 A in each line (IEC 60034-1: rated current is line current)
    source = {
        "kind": "site_supply",
        "voltage": "230/400 V",
        "resistance": "0.0001 ohm",
        "circuits": [{"id": "C1", "legs": ["L1", "L2", "L3"], "resistance": "0.0001 ohm",
                      "device": {"kind": "breaker", "standard": "iec_60898_c", "rating": "16 A"}}],
        "receptacles": [{"id": "R1", "type": "IEC 60309 16 A 3P+N+E red", "circuit": "C1"}],
        "reset": {"how": "manual"},
    }  # fmt: skip
    for option in ({"voltage": "230/400 V"}, {"voltage": "400 V", "phases": 3}):
        tool = {
            "id": "saw",
            "load_class": "heater",
            "supply_options": [{**option, "current": "10 A"}],
            "load_states": [{"id": "working", "current": "10 A", "power_factor": 1.0}],
        }
        result = check(
            {"source": source, "tools": [tool], "connections": [{"plug": "saw", "into": "R1"}], "code_basis": []}
        )
        current = row_of(result, "alone-saw").tools[0].current_a
        assert current is not None
        assert current.typical == pytest.approx(10.0, rel=0.01)


def test_a_plug_larger_than_the_mark_of_an_unknown_receptacle_does_not_fit() -> None:
    heater = heater_drawing("heater", "1000 W")
    heater["supply_options"][0]["plug"] = "TT-30P"
    request = van_request([heater], ["R1"])
    request["source"]["receptacles"][0] = {
        "id": "R1",
        "marked": "20 A",
        "circuit": "C1",
        "ground_fault": "gfci_class_a",
    }
    assert finding_of(check(request), "plug_does_not_fit") is not None
    heater["supply_options"][0]["plug"] = "5-15P"
    result = check(request)
    assert finding_of(result, "plug_does_not_fit") is None
    assert any(item.code == "receptacle_type" for item in result.assumptions)


@pytest.mark.parametrize(
    "plate",
    [
        {"current": "5 A", "power": "3000 W"},  # 3000 W are 25 A at 120 V
        {"current": "5 A", "apparent_power": "3 kVA"},
        {"current": "24 A", "power": "1 W"},
    ],
)
def test_a_plate_that_contradicts_itself_is_judged_by_its_larger_draw(plate: dict[str, str]) -> None:
    tool = {"id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", **plate}]}
    assert check(van_request([tool], ["R1"])).verdict.capacity == "fail"


def test_a_state_with_watts_and_amps_is_judged_by_the_larger_draw() -> None:
    tool = heater_drawing("heater", "600 W")
    tool["load_states"][0] |= {"power": "600 W", "current": "10 A", "power_factor": 1.0}
    current = row_of(check(van_request([tool], ["R1"])), "all").tools[0].current_a
    assert current is not None
    assert current.typical == pytest.approx(10.0, rel=0.01)


def test_a_welder_of_which_only_the_output_is_known_draws_what_its_arc_takes() -> None:
    # IEC 60974-1 conventional load voltage: U2 = 14 + 0.05 I (wire) to 20 + 0.04 I (stick); at 220 A 25 to 28.8 V, over
    # efficiencies of 0.85 and 0.75: 6.5 to 8.4 kW, 54 A and more at 120 V
    welder = {"id": "welder", "load_class": "welder", "supply_options": [{"voltage": "120 V", "output": "220 A"}]}
    result = check(van_request([welder], ["R1"]))
    assert result.verdict.capacity == "fail"
    assert any(item.code == "welder_input" for item in result.assumptions)


def test_a_tool_that_is_plugged_in_nowhere_is_told() -> None:
    request = van_request([heater_drawing("one", "600 W"), heater_drawing("two", "600 W")], ["R1", "R2"])
    request["connections"] = request["connections"][:1]
    request["cases"] = [{"id": "one", "running": ["one"]}]
    result = check(request)
    told = finding_of(result, "not_plugged_in")
    assert told is not None
    assert told.pointer == "/tools/1"
    assert result.verdict.capacity == "unknown"


def test_a_source_said_to_have_no_receptacles_has_none() -> None:
    request = van_request([heater_drawing("heater", "600 W")], ["R1"])
    request["source"]["receptacles"] = []
    del request["connections"], request["cases"]
    result = check(request)
    assert finding_of(result, "not_plugged_in") is not None
    assert result.verdict.capacity == "unknown"


def test_an_untyped_receptacle_on_several_legs_may_give_what_its_circuit_has() -> None:
    heater = resistive("heater", "2400 W", "240 V")
    source = {
        "kind": "site_supply",
        "voltage": "120/240 V",
        "circuits": [{"id": "C1", "legs": ["L1", "L2"], "device": {"kind": "breaker", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "marked": "20 A", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
    }
    result = check(
        {"source": source, "tools": [heater], "connections": [{"plug": "heater", "into": "R1"}], "code_basis": []}
    )
    assert finding_of(result, "voltage_does_not_match") is None
    assert any(item.code == "receptacle_type" for item in result.assumptions)


def test_a_rating_is_said_as_it_is_marked() -> None:
    request = van_request([heater_drawing("heater", "2000 W")], ["R1"])
    request["source"]["circuits"][0]["device"]["rating"] = "12.5 A"
    told = finding_of(check(request), "circuit_over_rating")
    assert told is not None
    assert "12.5 A" in told.text
