"""Does each finding about a site appear with its cause and go with it?

Causes and severities are the trade's (common practice, no source) unless a document is named beside the test. Each
finding is tried on both sides of its cause.
"""

from __future__ import annotations

import ast
import itertools
import math
import string
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from ampwright.engine import calculations
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from ampwright.engine.calculations.rules.safety_rules import CORD_CAPACITANCE_F_PER_M, WET_LEAKAGE_FACTOR
from ampwright.engine.calculations.wording import against
from ampwright.engine.site.use import Adapter
from ampwright.engine.standards.loader import citations
from ampwright.engine.standards.rule_layers import RULES
from site_of import check, finding_of, resistive, site_of


def _source(**members: Any) -> dict[str, Any]:
    return {
        "kind": "battery_station",
        "voltage": "120 V",
        "limits": [{"id": "inverter", "continuous": "2400 VA"}],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded_upstream",
        "sleeps_below": "0 W",
        **members,
    }


def _request(source: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    return {
        "source": source or _source(),
        "tools": [resistive("heater", "600 W", insulation="class_ii")],
        "connections": [{"plug": "heater", "into": "R1"}],
        "code_basis": [],
        **members,
    }


def _codes(result: LoadCheckResult) -> set[str]:
    return {item.code for item in result.findings}


def _severity(result: LoadCheckResult, code: str) -> str | None:
    finding = finding_of(result, code)
    return finding.severity if finding else None


def _tool(load_class: str, name: str = "heater", **members: Any) -> dict[str, Any]:
    return {
        "id": name,
        "load_class": load_class,
        "supply_options": [{"voltage": "120 V", "current": "5 A"}],
        "switch": "constant_pressure",
        "restart_protection": True,
        "insulation": "class_ii",
        **members,
    }


def test_a_request_without_a_fault_has_no_findings() -> None:
    result = check(_request())
    assert result.findings == ()
    assert (result.verdict.overall, result.verdict.safety) == ("pass", "pass")


# --- protection, earth, neutral -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("state", "wet", "codes"),
    [
        ("gfci_class_a", True, {"wet_place"}),
        ("none", True, {"wet_place", "wet_without_ground_fault_protection", "ground_fault_protection_absent"}),
        ("none", False, {"ground_fault_protection_absent"}),
        ("gfci_class_a", False, set()),
    ],
)
def test_the_wet_asks_for_ground_fault_protection(state: str, wet: bool, codes: set[str]) -> None:
    request = _request(conditions={"wet": wet})
    request["source"]["receptacles"][0]["ground_fault"] = state
    result = check(request)
    assert _codes(result) == codes
    if "wet_without_ground_fault_protection" in codes:
        assert _severity(result, "wet_without_ground_fault_protection") == "danger"
        assert result.verdict.safety == "fail"


@pytest.mark.parametrize(
    ("voltage", "state", "wet", "severity"),
    [
        # 29 CFR 1926.405(a)(2)(ii)(G): 12 V or less, or behind an interrupter
        ("120 V", "none", True, "danger"),
        ("120 V", "gfci_class_a", True, None),
        ("120 V", None, True, "caution"),
        ("120 V", "none", False, None),
        ("12 V DC", "none", True, None),
    ],
)
def test_portable_lamps_in_the_wet(voltage: str, state: str | None, wet: bool, severity: str | None) -> None:
    lamp = {**resistive("heater", "60 W", voltage), "load_class": "filament_light"}
    receptacle = {"id": "R1", "marked": "20 A", "circuit": "C1", **({"ground_fault": state} if state else {})}
    source = _source(voltage=voltage, receptacles=[receptacle])
    assert _severity(check(_request(source, tools=[lamp], conditions={"wet": wet})), "lamp_in_the_wet") == severity


def test_reduced_low_voltage_in_the_wet_needs_no_device() -> None:
    # BS 7671 411.8: 55 V to earth is itself the protection (memory)
    receptacle = {"id": "R1", "marked": "16 A", "circuit": "C1", "ground_fault": "none"}
    source = _source(kind="site_supply", voltage="55-0-55 V", receptacles=[receptacle])
    for member in ("sleeps_below", "limits", "neutral_bond"):
        del source[member]
    tool = resistive("heater", "600 W", "110 V", insulation="class_ii")
    assert _codes(check(_request(source, tools=[tool], conditions={"wet": True}))) == {"wet_place"}


@pytest.mark.parametrize(
    ("bond", "code"),
    [("floating", "floating_neutral"), ("bonded", "bonded_neutral"), (None, "neutral_bond_unknown")],
)
def test_the_neutral_bond_is_told_with_what_a_tester_shows(bond: str | None, code: str) -> None:
    # NFPA 70 445.20 knows (A) floating and (B) bonded; a plug-in tester needs a bond to read one (common practice)
    source = _source()
    del source["neutral_bond"]
    if bond:
        source["neutral_bond"] = bond
    result = check(_request(source))
    assert _codes(result) == {code}
    finding = finding_of(result, code)
    assert finding is not None
    assert bond == "bonded" or "tester" in finding.text + finding.what_to_do
    assert result.verdict.safety == ("pass" if bond else "marginal")
    # never as advice: a plug that bonds the neutral
    assert "no remedy" in finding.what_to_do or "bonds" not in finding.what_to_do


@pytest.mark.parametrize(
    ("conductors", "insulation", "code"),
    [
        (2, "class_i", "ground_path_missing"),
        (2, None, "ground_path_unknown"),
        (2, "class_ii", None),  # double insulated: 29 CFR 1926.404(f)(7)(iv)
        (3, "class_i", None),
    ],
)
def test_a_two_wire_cord_and_the_tool_behind_it(conductors: int, insulation: str | None, code: str | None) -> None:
    request = _corded({"conductors": conductors})
    request["tools"][0].pop("insulation")
    if insulation:
        request["tools"][0]["insulation"] = insulation
    result = check(request)
    assert _codes(result) & {"ground_path_missing", "ground_path_unknown"} == ({code} if code else set())
    waits = next((item.code for item in result.assumptions if item.id == result.cases[0].waits_for), None)
    assert waits == ("insulation" if code == "ground_path_unknown" else None)


# --- plugging -----------------------------------------------------------------------------------------------------


def _corded(*cords: dict[str, Any], **members: Any) -> dict[str, Any]:
    """Cords one into the next, the heater at the end."""
    made = [
        {"id": f"cord{n}", "size": "12 AWG", "length": "25 ft", "laid": "straight", "marked": "15 A", **cord}
        for n, cord in enumerate(cords, start=1)
    ]
    chain = ["R1", *(cord["id"] for cord in made), "heater"]
    connections = [{"plug": plug, "into": into} for into, plug in itertools.pairwise(chain)]
    return _request(cords=made, connections=connections, **members)


def test_a_cord_in_a_cord_is_told() -> None:
    single, chained = check(_corded({})), check(_corded({}, {}))
    assert _codes(single) == set()
    assert _codes(chained) == {"cords_in_series"}
    assert chained.verdict.safety == "marginal"


@pytest.mark.parametrize(("size", "mixed"), [("12 AWG", False), ("14 AWG", True), ("10 AWG", True)])
def test_sizes_in_one_run_are_compared(size: str, mixed: bool) -> None:
    finding = finding_of(check(_corded({}, {"size": size})), "mixed_cord_sizes")
    assert (finding is not None) == mixed
    if finding:
        # the higher gauge number is the thinner wire
        assert finding.pointer == ("/cords/1/size" if size == "14 AWG" else "/cords/0/size")


@pytest.mark.parametrize(
    ("through", "code"),
    [
        ("door", "cord_through_opening"),
        ("window", "cord_through_opening"),
        ("road", "cord_on_roadway"),
        ("none", None),
        (None, None),
    ],
)
def test_cords_led_through_openings(through: str | None, code: str | None) -> None:
    # 29 CFR 1926.405(a)(2)(ii)(I): doorways and other pinch points, protection is to be provided
    request = _corded({"led_through": through} if through else {})
    assert _codes(check(request)) == ({code} if code else set())
    # a cord that stays in the van is led through nothing
    request["connections"] = [{"plug": "heater", "into": "R1"}]
    assert _codes(check(request)) == set()


@pytest.mark.parametrize(
    ("kind", "conditions", "told"),
    [
        # W in the letters is weather resistant: NFPA 70 table 400.4 (memory)
        ("SJT", {"place": "open_air"}, True),
        ("SJT", {"wet": True}, True),
        ("SJT", {"place": "indoors"}, False),
        ("SJTW", {"place": "open_air", "wet": True}, False),
    ],
)
def test_cords_outdoors_are_of_an_outdoor_type(kind: str, conditions: dict[str, Any], told: bool) -> None:
    result = check(_corded({"type": kind}, conditions=conditions))
    assert ("cord_not_for_outdoors" in _codes(result)) == told


@pytest.mark.parametrize(
    ("state", "severity"), [("good", None), ("worn", "caution"), ("damaged", "danger"), (None, None)]
)
def test_the_ends_of_a_cord(state: str | None, severity: str | None) -> None:
    result = check(_corded({"outlets": {"type": "5-15R", **({"state": state} if state else {})}}))
    found = {item.code: item.severity for item in result.findings if item.code.startswith("cord_end")}
    assert found == ({f"cord_end_{state}": severity} if severity else {})
    assert result.verdict.safety == {None: "pass", "caution": "marginal", "danger": "fail"}[severity]


@pytest.mark.parametrize(
    ("feeds", "code", "safety"),
    [
        ("direct", "backfeed", "fail"),
        ("transfer_equipment", "feeds_through_transfer_equipment", "marginal"),
        ("none", None, "pass"),
    ],
)
def test_fixed_wiring_is_fed_through_transfer_equipment_or_not_at_all(
    feeds: str, code: str | None, safety: str
) -> None:
    # NFPA 70 702.5 (memory)
    result = check(_request(conditions={"fixed_wiring": feeds}))
    assert _codes(result) == ({code} if code else set())
    assert result.verdict.safety == safety


@pytest.mark.parametrize(
    ("plug", "outlet", "code"),
    [
        ("5-20P", "6-20R", "sources_combined"),  # 125 V into 250 V: NEMA WD 6
        ("5-15P", "14-30R", "sources_combined"),
        ("L5-30P", "5-20R", "adapter_defeats_rating"),
        ("5-15P", "5-20R", None),
        ("CEE 7/7", "IEC 60309 16 A 2P+E blue", None),
    ],
)
def test_adapters_that_give_away_joined_outlets_or_a_lost_rating(plug: str, outlet: str, code: str | None) -> None:
    site = replace(site_of(_request()), adapters=(Adapter("odd", "/kit", plug, outlet),))
    assert _codes(check_load(site)) == ({code} if code else set())


# --- leakage ------------------------------------------------------------------------------------------------------


def _chargers(count: int, kind: str = "gfci_class_a", **members: Any) -> dict[str, Any]:
    chargers = [
        {**resistive(f"c{n}", "100 W", insulation="class_ii", leakage="1 mA"), "load_class": "battery_charger"}
        for n in range(count)
    ]
    request = _request(
        tools=chargers,
        cords=[{"id": "strip", "length": "3 ft", "size": "12 AWG", "laid": "straight", "outlets": {"count": 8}}],
        connections=[{"plug": "strip", "into": "R1"}, *({"plug": item["id"], "into": "strip"} for item in chargers)],
        cases=[{"id": "all", "running": [item["id"] for item in chargers]}],
        **members,
    )
    request["source"]["receptacles"][0]["ground_fault"] = kind
    return request


def test_four_chargers_use_up_a_class_a_device() -> None:
    # UL 943: a class A device may trip from 4 mA; IEC 61008-1: one of 30 mA from 15 mA
    assert finding_of(check(_chargers(3)), "ground_fault_nuisance") is None
    four = finding_of(check(_chargers(4)), "ground_fault_nuisance")
    assert four is not None
    assert four.limit == 0.004
    assert four.value == pytest.approx(0.004, rel=0.01)
    assert finding_of(check(_chargers(4, "rcd_30ma_type_a")), "ground_fault_nuisance") is None
    assert finding_of(check(_chargers(4, "none")), "ground_fault_nuisance") is None


@pytest.mark.parametrize(("leakage", "trips"), [("4 mA", True), ("3.9 mA", False)])
def test_a_class_a_device_may_trip_from_4_ma(leakage: str, trips: bool) -> None:
    # UL 943
    tool = resistive("heater", "600 W", insulation="class_ii", leakage=leakage)
    assert ("ground_fault_nuisance" in _codes(check(_request(tools=[tool])))) == trips


def test_long_wet_cords_leak_through_their_capacitance() -> None:
    # I = 2 pi f C V (any textbook of circuits); 150 pF/m and three times as much in the wet: common practice, no source
    request = _chargers(3)
    request["cords"][0]["length"] = "100 m"
    assert finding_of(check(request), "ground_fault_nuisance") is None
    request["conditions"] = {"wet": True}
    wet = finding_of(check(request), "ground_fault_nuisance")
    assert wet is not None
    cord_a = 2 * math.pi * 60 * 150e-12 * 100 * 120 * 3
    assert (CORD_CAPACITANCE_F_PER_M, WET_LEAKAGE_FACTOR) == (150e-12, 3)
    assert wet.value == pytest.approx(0.003 + cord_a, abs=1e-6)


# --- place --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "code", "severity"),
    [
        (None, "exhaust_place_unknown", "caution"),
        ("indoors", "exhaust_near_people", "danger"),
        ("enclosed", "exhaust_near_people", "danger"),
        ("trench", "exhaust_near_people", "danger"),
        ("near_opening", "exhaust_near_people", "danger"),
        ("open_air", "exhaust_distance", "info"),
    ],
)
def test_exhaust_is_asked_about_until_it_is_in_the_open(place: str | None, code: str, severity: str) -> None:
    # 25 ft: a NIST study quoted by a town notice; 1 ft is 0.3048 m
    source = _source(kind="engine_generator", technology="inverter", running="2000 W")
    for member in ("sleeps_below", "limits"):
        del source[member]
    result = check(_request(source, conditions={"place": place} if place else {}))
    exhaust = {item.code: item.severity for item in result.findings if item.code.startswith("exhaust")}
    assert exhaust == {code: severity}
    assert result.verdict.safety == {"caution": "unknown", "danger": "fail", "info": "pass"}[severity]
    assert "refuel_cold" in _codes(result)
    told = finding_of(result, "exhaust_distance")
    if told is not None:
        assert told.limit == pytest.approx(25 * 0.3048)
    assert "refuel_cold" not in _codes(check(_request()))


def test_a_vehicle_can_be_driven_off_and_welds_have_a_return() -> None:
    welder = _tool("welder")
    van, station = _source(kind="vehicle"), _source()
    assert "vehicle_may_drive_off" in _codes(check(_request(van)))
    assert "vehicle_may_drive_off" not in _codes(check(_request(station)))
    told = finding_of(check(_request(van, tools=[welder])), "welding_from_vehicle")
    assert told is not None
    assert "return clamp on the work" in told.what_to_do
    assert "welding_from_vehicle" not in _codes(check(_request(station, tools=[welder])))
    assert "welding_from_vehicle" not in _codes(check(_request(van)))


# --- habits of a source -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("load_class", "waveform", "told"),
    [
        ("pump", "modified_sine", True),
        ("battery_charger", "modified_sine", True),
        ("hand_drill", "modified_sine", False),  # a series motor
        ("heater", "modified_sine", False),
        ("pump", "sine", False),
    ],
)
def test_a_stepped_wave_is_told_to_capacitor_motors_and_chargers(load_class: str, waveform: str, told: bool) -> None:
    result = check(_request(_source(waveform=waveform), tools=[_tool(load_class)]))
    assert ("modified_sine_load" in _codes(result)) == told
    assert ("modified_sine_ground_fault" in _codes(result)) == (waveform == "modified_sine")


@pytest.mark.parametrize(
    ("power", "sleeps_below", "told"),
    [
        ("9..10..12 W", "10 W", True),  # it may draw 9 W
        ("10..11..12 W", "10 W", False),
        ("14 W", None, True),  # 8 to 15 W, common practice
        ("15 W", None, False),
        ("9..10..12 W", "8..10 W", True),  # and it may sleep already below 10 W
        ("9..10..12 W", "0 W", False),  # said never to sleep
    ],
)
def test_a_source_that_sleeps_is_told_of_a_light_load(power: str, sleeps_below: str | None, told: bool) -> None:
    source = _source()
    del source["sleeps_below"]
    if sleeps_below:
        source["sleeps_below"] = sleeps_below
    lamp = resistive("heater", power, insulation="class_ii", control="none")
    finding = finding_of(check(_request(source, tools=[lamp])), "source_may_sleep")
    assert (finding is not None) == told


def test_a_refrigerator_is_lost_between_two_cycles() -> None:
    cool_box = _tool("refrigerator", switch="always_on")
    assert "source_may_sleep" in _codes(check(_request(_source(sleeps_below="30 W"), tools=[cool_box])))
    lamp = resistive("lamp", "40 W", insulation="class_ii", control="none")
    kept = _request(
        _source(sleeps_below="30 W", receptacles=[
            {"id": name, "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"} for name in ("R1", "R2")
        ]),
        tools=[cool_box, lamp],
        connections=[{"plug": "heater", "into": "R1"}, {"plug": "lamp", "into": "R2"}],
        cases=[{"id": "both", "running": ["heater", "lamp"]}],
    )  # fmt: skip
    assert "source_may_sleep" not in _codes(check(kept))


# --- words --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "limit", "unit", "said"),
    [
        (20.3, 20.0, "A", "just over 20 A"),
        (19.8, 20.0, "A", "just under 20 A"),
        (20.0, 20.0, "A", "20 A"),
        (26.0, 20.0, "A", "26 A"),
        (107.8, 108.0, "V", "just under 108 V"),
        (15.47, 15.0, "A", "just over 15 A"),  # more than 3 % away, and two digits still print the limit
        (4040.0, 4000.0, "VA", "just over 4000 VA"),
    ],
)
def test_a_figure_never_reads_like_its_own_limit(value: float, limit: float, unit: str, said: str) -> None:
    assert against(value, limit, unit) == said


def test_a_circuit_just_over_its_rating_says_so() -> None:
    # 2436 W at 120 V are 20.3 A
    source = _source(resistance="0.0001 ohm", limits=[{"id": "inverter", "continuous": "8000 VA"}])
    finding = finding_of(check(_request(source, tools=[resistive("heater", "2450 W")])), "circuit_over_rating")
    assert finding is not None
    assert finding.text.startswith("Just over 20 A on the circuit")


FIELDS = {"subject", "value", "limit", "value_text", "limit_text", "other", "case"}


@pytest.mark.parametrize("code", sorted(FINDING_CODES))
def test_every_code_can_be_told_on_a_reference_page(code: str) -> None:
    found = FINDING_CODES[code]
    assert 20 < len(found.meaning) < 160
    assert found.meaning.endswith(".")
    assert "{" not in found.meaning
    assert found.severity in ("danger", "caution", "info")
    assert found.severity != "danger" or found.verdict == "fail"
    assert found.severity != "info" or found.verdict == "pass"
    assert {name for _, name, _, _ in string.Formatter().parse(found.text) if name} <= FIELDS
    assert {name for _, name, _, _ in string.Formatter().parse(found.what_to_do) if name} <= {"subject"}
    assert set(found.rules) <= set(RULES)
    assert set(found.basis) <= set(citations())


def test_every_code_that_a_rule_gives_is_listed() -> None:
    """Reads the calls `Check("code", ...)` out of the modules."""
    given: set[str] = set()
    for path in Path(next(iter(calculations.__path__))).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Check" and node.args:
                first = node.args[0]
                if isinstance(first, ast.Constant):
                    given.add(first.value)
    assert len(given) > 40
    assert given <= set(FINDING_CODES)
