"""Does each rule layer ask of circuits and receptacles what its document asks, by the clause of its edition?

Clauses are those of 29 CFR 1926 subparts I and K (public text), of NFPA 70 as public summaries give them, and of
IEC 60364 and BS 7671 from memory; beside each test stands which. Ratings at the edge come from the clause, not from us.
"""

from __future__ import annotations

from typing import Any

import pytest
from code_request import by_plate, codes_of, corded, places_of, protected_by, site_supply, under_code
from site_of import check, finding_of, resistive


def _two_receptacles(rating: str | None = "20 A", kind: str = "5-20R") -> dict[str, Any]:
    made = site_supply(
        receptacles=[
            {"id": name, "type": kind, "circuit": "C1", "ground_fault": "gfci_class_a"} for name in ("R1", "R2")
        ],
    )
    if rating:
        made["circuits"] = [{"id": "C1", "device": {"kind": "breaker", "rating": rating}}]
    return made


@pytest.mark.parametrize(
    ("basis", "place", "status"),
    [
        ("nec-2017", "210.23(A)(1)", "verified"),
        ("nec-2020", "210.23(A)(1)", "verified"),
        # the 10 A circuit of 2023 moved it (memory)
        ("nec-2023", "210.23(B)(1)", "memory"),
    ],
)
def test_the_share_of_one_appliance_is_told_by_the_clause_of_its_edition(basis: str, place: str, status: str) -> None:
    result = check(under_code(basis, source=_two_receptacles(), tools=[by_plate("16.1 A")]))
    assert (place, status) in places_of(result, "one_appliance_share")
    finding = finding_of(result, "one_appliance_share")
    assert finding is not None
    assert (finding.severity, finding.value, finding.limit) == ("info", 16.1, 16.0)  # 80 % of 20 A
    assert result.verdict.code == "pass"


@pytest.mark.parametrize(
    ("basis", "source", "current", "limit"),
    [
        ("nec-2023", _two_receptacles(), "16 A", None),
        ("nec-2023", _two_receptacles(kind="5-15R"), "12.1 A", 12.0),  # table 210.21(B)(2): 15 A on 20 A: 12 A
        ("osha-1926", _two_receptacles(kind="5-15R"), "12.1 A", 12.0),  # table K-4 (memory)
        ("nec-2023", _two_receptacles("30 A", "L5-30R"), "24.1 A", 24.0),
        ("nec-2023", site_supply(), "16.1 A", None),  # a circuit of its own
        ("nec-2023", {"outlets": 3}, "16.1 A", 16.0),  # no longer one when a cord splits it
        ("iec-60364-de", _two_receptacles(), "16.1 A", None),  # 433.1 knows no such share
    ],
)
def test_the_share_of_one_plug_at_its_edge(
    basis: str, source: dict[str, Any], current: str, limit: float | None
) -> None:
    request = under_code(basis, source=source, tools=[by_plate(current)])
    if "outlets" in source:
        request = {**corded(basis, outlets={"count": source["outlets"]}), "tools": request["tools"]}
    finding = finding_of(check(request), "one_appliance_share")
    assert (finding.limit if finding else None) == limit


@pytest.mark.parametrize(
    ("basis", "power", "load_class", "told"),
    [
        ("nec-2023", "1920 W", "heater", False),  # 16 A x 1.25 = 20 A: NFPA 70 210.20(A)
        ("nec-2023", "1932 W", "heater", True),  # 16.1 A x 1.25 = 20.1 A
        ("nec-2023", "1932 W", "heat_gun", False),  # nobody holds one for three hours: article 100
        ("iec-60364-de", "1932 W", "heater", False),  # 433.1 has no 125 %: IEC 60364-4-43, from memory
        ("nec-2023", "2500 W", "heater", False),  # 20.8 A: the circuit itself is over, told elsewhere
    ],
)
def test_loads_of_three_hours_count_with_a_quarter_on_top(basis: str, power: str, load_class: str, told: bool) -> None:
    tool = {**resistive("heater", power), "load_class": load_class, "restart_protection": True}
    result = check(under_code(basis, tools=[tool]))
    assert ("continuous_load_share" in codes_of(result)) == told
    assert result.verdict.code == "pass"


@pytest.mark.parametrize(
    ("rating", "kind", "count", "wrong"),
    [
        # NFPA 70 table 210.21(B)(3)
        ("20 A", "5-15R", 2, False),
        ("20 A", "5-20R", 2, False),
        ("15 A", "5-20R", 2, True),
        ("30 A", "5-20R", 2, True),
        ("30 A", "L5-30R", 2, False),
        # 210.21(B)(1): a single receptacle on its own circuit has at least its rating
        ("20 A", "5-15R", 1, True),
        ("15 A", "5-20R", 1, False),
    ],
)
def test_receptacles_belong_on_their_circuit(rating: str, kind: str, count: int, wrong: bool) -> None:
    source = _two_receptacles(rating, kind)
    source["receptacles"] = source["receptacles"][:count]
    result = check(under_code("nec-2023", source=source))
    assert ("receptacle_not_for_circuit" in codes_of(result)) == wrong
    assert result.verdict.code == ("fail" if wrong else "pass")
    assert "receptacle_not_for_circuit" not in codes_of(check(under_code("iec-60364-de", source=source)))


def test_a_splitter_puts_small_outlets_on_a_large_circuit() -> None:
    # OSHA letter of 1995: the end of an extension set counts as an outlet; table K-5 and 210.21(B)(3)
    request = under_code(
        "osha-1926",
        source=site_supply(
            receptacles=[{"id": "R1", "type": "L5-30R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
            circuits=[{"id": "C1", "device": {"kind": "breaker", "rating": "30 A"}}],
        ),
        cords=[
            {"id": "box", "type": "SOOW", "size": "10 AWG", "plug": "L5-30P", "outlets": {"type": "5-20R", "count": 3}}
        ],
        connections=[{"plug": "box", "into": "R1"}, {"plug": "heater", "into": "box"}],
    )  # fmt: skip
    finding = finding_of(check(request), "receptacle_not_for_circuit")
    assert finding is not None
    assert finding.pointer == "/cords/0/outlets"
    request["cords"][0]["outlets"]["type"] = "L5-30R"
    assert "receptacle_not_for_circuit" not in codes_of(check(request))


def test_lights_and_tools_do_not_share_a_circuit_on_a_site() -> None:
    # NFPA 70 590.4(D)(1), public summaries; 29 CFR 1926.405(a)(2)(ii)(C) (memory)
    light = {**resistive("lamp", "200 W"), "load_class": "led_light"}
    request = under_code(
        "nec-2023",
        source=_two_receptacles(),
        tools=[resistive("heater", "600 W"), light],
        connections=[{"plug": "heater", "into": "R1"}, {"plug": "lamp", "into": "R2"}],
    )
    shared = check(request)
    assert ("590.4(D)(1)", "verified") in places_of(shared, "lights_on_tool_circuit")
    assert shared.verdict.code == "marginal"
    del request["source"]["circuits"]
    request["source"]["receptacles"][1]["circuit"] = "C2"
    assert "lights_on_tool_circuit" not in codes_of(check(request))
    assert "lights_on_tool_circuit" not in codes_of(check({**request, "source": _two_receptacles(), "code_basis": []}))


def test_a_welder_gets_no_larger_device_on_a_portable_outlet() -> None:
    # NFPA 70 630.11 and 630.12: for an individual circuit
    def welder(current: str) -> dict[str, Any]:
        return under_code("nec-2023", tools=[by_plate(current, "welder")])

    result = check(welder("20.5 A"))
    assert [place for place, _ in places_of(result, "welder_circuit_rules")] == ["630.11(A)", "630.12(A)"]
    assert "welder_circuit_rules" not in codes_of(check(welder("20 A")))


def test_a_supplementary_protector_is_told_from_a_breaker() -> None:
    # NFPA 70 240.10
    source = _two_receptacles()
    assert "supplementary_protector_only" not in codes_of(check(under_code("nec-2023", source=source)))
    source["circuits"][0]["device"]["kind"] = "supplementary_protector"
    assert "supplementary_protector_only" in codes_of(check(under_code("nec-2023", source=source)))


def test_british_sites_use_industrial_sockets_and_prefer_110_v() -> None:
    # BS 7671 704.511.1 and 411.8 (memory)
    source = protected_by("rcd_30ma_type_a", "BS 1363", voltage="230 V")
    tool = resistive("heater", "600 W", "230 V", operated="by_hand", insulation="class_ii")
    domestic = check(under_code("bs-7671", source=source, tools=[tool]))
    assert {"socket_not_site_type", "reduced_low_voltage_preferred"} <= codes_of(domestic)
    assert domestic.verdict.code == "fail"
    source["receptacles"][0]["type"] = "IEC 60309 16 A 2P+E blue"
    tool["operated"] = "by_itself"
    assert not {"socket_not_site_type", "reduced_low_voltage_preferred"} & codes_of(
        check(under_code("bs-7671", source=source, tools=[tool]))
    )
