"""Does each rule layer ask for the ground-fault protection that its document asks for, by the clause of its edition?

Clauses are those of 29 CFR 1926 subparts I and K (public text), of NFPA 70 as public summaries give them, and of
IEC 60364 and BS 7671 from memory; beside each test stands which. Ratings at the edge come from the clause, not from us.
"""

from __future__ import annotations

from typing import Any

import pytest
from code_request import by_plate, codes_of, places_of, protected_by, site_supply, under_code
from site_of import check, finding_of, resistive


@pytest.mark.parametrize(
    ("basis", "place"),
    [
        ("osha-1926", "404(b)(1)(ii)"),  # 29 CFR 1926, public text
        ("nec-2023", "590.6(A)(1)"),  # public summaries
        ("iec-60364-de", "704.410.3.10"),  # IEC 60364-7-704, from memory
        ("bs-7671", "704.410.3.10"),  # from memory
    ],
)
def test_missing_protection_that_a_layer_asks_for_is_a_danger(basis: str, place: str) -> None:
    result = check(under_code(basis, source=protected_by("none")))
    finding = finding_of(result, "ground_fault_protection_missing")
    assert finding is not None
    assert (finding.severity, finding.pointer) == ("danger", "/source/receptacles/0/ground_fault")
    assert place in finding.text
    assert place in [found for found, _ in places_of(result, "ground_fault_protection_missing")]
    assert (result.verdict.safety, result.verdict.code, result.cases[0].verdict) == ("fail", "fail", "fail")
    # a crew reads no clauses
    assert result.crew_card[0].text == "Do not run heater: R1 has no ground-fault protection, and must have it."
    # not asked for, the same receptacle is a caution
    silent = check(under_code(source=protected_by("none")))
    assert "ground_fault_protection_missing" not in codes_of(silent)
    assert "ground_fault_protection_absent" in codes_of(silent)
    assert silent.verdict.safety == "marginal"


@pytest.mark.parametrize(
    ("basis", "kind", "asked"),
    [
        ("osha-1926", "5-20R", True),  # 15 and 20 A at 120 V: 29 CFR 1926.404(b)(1)(ii)
        ("osha-1926", "L5-30R", False),
        ("nec-2023", "L5-30R", True),  # 15, 20 and 30 A at 125 V: 590.6(A)(1)
    ],
)
def test_a_layer_asks_only_for_the_receptacles_that_it_names(basis: str, kind: str, asked: bool) -> None:
    result = check(under_code(basis, source=protected_by("none", kind)))
    assert ("ground_fault_protection_missing" in codes_of(result)) == asked
    assert ("ground_fault_protection_absent" in codes_of(result)) != asked


def test_unknown_protection_leaves_the_code_open_and_names_the_question() -> None:
    result = check(under_code("osha-1926", source=protected_by(None)))
    assert result.verdict.code == "unknown"
    assert next(item for item in result.assumptions if item.id == result.question).pointer == (
        "/source/receptacles/0/ground_fault"
    )
    assert ("404(b)(1)(ii)", "verified") in places_of(result, "ground_fault_protection_unknown")


def test_a_residual_current_device_of_30_ma_is_no_class_a_interrupter() -> None:
    # UL 943 class A trips at 4 to 6 mA; IEC 60364-7-704 asks for 30 mA
    source = protected_by("rcd_30ma_type_a")
    american = check(under_code("nec-2023", source=source))
    assert "ground_fault_protection_other_kind" in codes_of(american)
    assert (american.verdict.safety, american.verdict.code) == ("pass", "fail")
    assert "ground_fault_protection_other_kind" not in codes_of(check(under_code("iec-60364-de", source=source)))
    # and the other way round 6 mA satisfies what asks for at most 30 mA
    assert "ground_fault_protection_other_kind" not in codes_of(check(under_code("iec-60364-de")))


def test_indoors_the_clause_of_outdoor_sockets_stays_away() -> None:
    # IEC 60364-4-41 411.3.3: mobile equipment outdoors (memory); a site asks by 7-704 either way
    def places(place: str) -> set[str]:
        request = under_code("iec-60364-de", source=protected_by("none"), conditions={"place": place})
        return {found for found, _ in places_of(check(request), "ground_fault_protection_missing")}

    assert places("open_air") == {"704.410.3.10", "411.3.3"}
    assert places("indoors") == {"704.410.3.10"}


def test_missing_protection_is_no_matter_of_another_open_question() -> None:
    # an unknown reset alone would leave the saw's restart a question; the missing interrupter fails whatever it is
    tools = [by_plate("9 A", "table_saw", switch="positive_on_off", restart_protection=False)]
    source = protected_by("none")
    del source["reset"]
    assert check(under_code("osha-1926", source=source, tools=tools)).cases[0].verdict == "fail"
    source["receptacles"][0]["ground_fault"] = "gfci_class_a"
    assert check(under_code("osha-1926", source=source, tools=tools)).cases[0].verdict == "unknown"


def test_reduced_low_voltage_needs_no_residual_current_device() -> None:
    # BS 7671 704.410.3.10 names it as an alternative (memory)
    source = protected_by("none", "IEC 60309 16 A 2P+E yellow", voltage="55-0-55 V")
    tool = resistive("heater", "600 W", "110 V", insulation="class_ii")
    result = check(under_code("bs-7671", source=source, tools=[tool]))
    assert result.verdict.code == "pass"
    assert not {"ground_fault_protection_missing", "ground_fault_protection_absent"} & codes_of(result)


def _set(**members: Any) -> dict[str, Any]:
    return protected_by("none", **{"kind": "engine_generator", "technology": "avr", "running": "5000 W", **members})


@pytest.mark.parametrize(
    ("members", "exempt"),
    [
        ({"neutral_bond": "floating"}, True),
        ({"neutral_bond": "floating", "running": "5001 W"}, False),
        ({"neutral_bond": "bonded"}, False),
        ({}, False),  # not known: never exempt
        ({"neutral_bond": "floating", "voltage": "120/240 V"}, False),  # three wires
    ],
)
def test_osha_exempts_small_two_wire_floating_sets_and_the_nec_does_not(members: dict[str, Any], exempt: bool) -> None:
    # 29 CFR 1926.404(b)(1)(ii): two-wire, single-phase, not more than 5 kW, conductors insulated from the frame
    outdoors = {"conditions": {"place": "open_air"}}
    source = {**_set(), **members}
    federal = check(under_code("osha-1926", source=source, **outdoors))
    assert ("ground_fault_exempted" in codes_of(federal)) == exempt
    assert ("ground_fault_protection_missing" in codes_of(federal)) != exempt
    # NFPA 70 590.6(A)(3) has no such exemption (memory): with both asked for, both are shown
    both = check(under_code("osha-1926", "nec-2023", source=source, **outdoors))
    assert "ground_fault_protection_missing" in codes_of(both)
    assert ("ground_fault_exempted" in codes_of(both)) == exempt
    assert both.verdict.code == "fail"


def test_a_set_above_15_kw_leaves_the_clause_of_sets() -> None:
    # NFPA 70 590.6(A)(3) speaks of sets to 15 kW (memory); (A)(1) asks of any 125 V receptacle
    def places(running: str) -> list[str]:
        result = check(under_code("nec-2023", source=_set(running=running), conditions={"place": "open_air"}))
        return [place for place, _ in places_of(result, "ground_fault_protection_missing")]

    assert places("15 kW") == ["590.6(A)(1)", "590.6(A)(3)"]
    assert places("15.1 kW") == ["590.6(A)(1)"]


@pytest.mark.parametrize(("bond", "said"), [("floating", "is floating"), ("bonded", "is bonded"), (None, "not known")])
def test_both_readings_of_the_neutral_bond_are_shown_and_none_is_decided(bond: str | None, said: str) -> None:
    # 29 CFR 1926.404(f)(3)(iii) public text; NFPA 70 445.20 (A) floating and (B) bonded, public text of 2017
    source = {**_set(), "receptacles": site_supply()["receptacles"]}
    if bond:
        source["neutral_bond"] = bond
    result = check(under_code("osha-1926", "nec-2017", source=source, conditions={"place": "open_air"}))
    finding = finding_of(result, "neutral_bond_readings")
    assert finding is not None
    assert said in finding.text
    assert {"404(f)(3)(iii)", "445.20", "250.34(C), 250.30"} <= {
        place for place, _ in places_of(result, "neutral_bond_readings")
    }
    assert result.verdict.code == "pass"
    european = check(under_code("iec-60364-de", source=source, conditions={"place": "open_air"}))
    assert "neutral_bond_readings" not in codes_of(european)  # 551.4 leaves it to the earthing of the set (memory)


def test_a_vehicle_frame_has_a_clause_of_its_own() -> None:
    # NFPA 70 250.34(B) and 29 CFR 1926.404(f)(3)(ii) (memory)
    van = site_supply(kind="vehicle", limits=[{"id": "inverter", "continuous": "2400 W"}])
    result = check(under_code("osha-1926", "nec-2023", source=van))
    assert {"404(f)(3)(ii)", "250.34(B)"} <= {place for place, _ in places_of(result, "neutral_bond_readings")}


def test_a_source_that_limits_its_current_leaves_clearing_to_the_residual_device() -> None:
    # IEC 60364-4-41 411.3.2: 0.4 s (memory)
    station = site_supply(kind="battery_station", neutral_bond="bonded")
    asked = check(under_code("iec-60364-de", source=station))
    assert "fault_cleared_by_residual_device" in codes_of(asked)
    assert "fault_cleared_by_residual_device" not in codes_of(check(under_code("iec-60364-de")))
    assert "fault_cleared_by_residual_device" not in codes_of(check(under_code("nec-2023", source=station)))
