"""Does each rule layer ask what its document asks, by the clause of its edition, and only when it was asked for?

Clauses are those of 29 CFR 1926 subparts I and K (public text), of NFPA 70 as public summaries give them, and of
IEC 60364 and BS 7671 from memory; beside each test stands which. Ratings at the edge come from the clause, not from us.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from ampwright.contract.load_checks import CODE_BASES, LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.load_check_result import LoadCheckResult
from ampwright.engine.standards.rule_layers import code_bases
from site_of import check, finding_of, resistive


def _source(**members: Any) -> dict[str, Any]:
    return {
        "kind": "site_supply",
        "voltage": "120 V",
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        "reset": {"how": "manual"},
        **members,
    }


def _request(*bases: str, source: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    return {
        "source": source or _source(),
        "tools": [resistive("heater", "600 W", insulation="class_ii")],
        "connections": [{"plug": "heater", "into": "R1"}],
        "code_basis": list(bases),
        **members,
    }


def _codes(result: LoadCheckResult) -> set[str]:
    return {item.code for item in result.findings}


def _places(result: LoadCheckResult, code: str) -> list[tuple[str, str]]:
    """(place, status) of the clauses behind a finding."""
    finding = finding_of(result, code)
    assert finding is not None, (code, _codes(result))
    lines = {item.id: item for item in result.basis}
    return [(lines[name].place, lines[name].status) for name in finding.basis]


def _protected_by(state: str | None, outlet: str = "5-20R", **members: Any) -> dict[str, Any]:
    receptacle = {"id": "R1", "type": outlet, "circuit": "C1"}
    if state is not None:
        receptacle["ground_fault"] = state
    return _source(receptacles=[receptacle], **members)


# --- which layer --------------------------------------------------------------------------------------------------


def test_the_code_verdict_is_open_until_a_layer_is_named_and_left_out_where_none_is_wanted() -> None:
    request = _request()
    none_wanted = check(request)
    assert none_wanted.verdict.code is None
    assert "code_rules" not in none_wanted.not_assessed
    del request["code_basis"]
    omitted = check(request)
    assert omitted.verdict.code == "unknown"
    assert omitted.verdict.overall == "unknown"
    assert "code_rules" in omitted.not_assessed
    assert next(item for item in omitted.assumptions if item.id == omitted.question).code == "code_basis"
    asked = check(_request("osha-1926"))
    assert asked.verdict.code == "pass"
    assert "code_rules" not in asked.not_assessed


def test_every_layer_that_has_clauses_may_be_asked_for() -> None:
    assert code_bases() == CODE_BASES
    for key in CODE_BASES:
        assert check(_request(key)).verdict.code in ("pass", "marginal", "unknown", "fail")


def test_iec_alone_decides_nothing_and_asks_for_the_country() -> None:
    # IEC 60364 is no law; each country adopts its own text of it (the HD 60364 series, BS 7671, DIN VDE 0100)
    result = check(_request("iec-60364", source=_protected_by("none")))
    finding = finding_of(result, "code_basis_needs_country")
    assert finding is not None
    assert finding.pointer == "/code_basis/0"
    assert result.verdict.code == "unknown"
    assert "ground_fault_protection_missing" not in _codes(result)
    # another layer beside it still decides
    assert check(_request("iec-60364", "osha-1926", source=_protected_by("none"))).verdict.code == "fail"


@pytest.mark.parametrize(("text", "hint"), [("nec-2032", "nec-2023"), ("OSHA 1926", "osha-1926")])
def test_an_unknown_layer_is_a_fault_with_what_may_be_meant(text: str, hint: str) -> None:
    _, faults = read_site(msgspec.convert(_request(text), LoadCheckRequest))
    assert [(item.pointer, item.code, item.did_you_mean) for item in faults] == [
        ("/code_basis/0", "unknown_code_basis", hint)
    ]


def test_the_law_of_job_sites_is_named_beside_the_nec() -> None:
    # 29 CFR 1910.5, 1926.1: the construction standards apply whichever edition a town adopted
    assert "job_site_law_not_asked" in _codes(check(_request("nec-2023")))
    assert "job_site_law_not_asked" not in _codes(check(_request("nec-2023", "osha-1926")))


def test_branch_circuit_rules_reach_a_vehicle_by_analogy_only() -> None:
    # NFPA 70 90.2 leaves vehicles out; power export came in with 625.60 of 2020 (public summaries)
    van = _source(kind="vehicle", limits=[{"id": "inverter", "continuous": "2400 W"}], neutral_bond="bonded")
    assert [place for place, _ in _places(check(_request("nec-2017", source=van)), "code_by_analogy")] == ["90.2(B)(1)"]
    assert "625.60" in [place for place, _ in _places(check(_request("nec-2020", source=van)), "code_by_analogy")]
    assert "code_by_analogy" not in _codes(check(_request("nec-2023")))


# --- ground-fault protection --------------------------------------------------------------------------------------


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
    result = check(_request(basis, source=_protected_by("none")))
    finding = finding_of(result, "ground_fault_protection_missing")
    assert finding is not None
    assert (finding.severity, finding.pointer) == ("danger", "/source/receptacles/0/ground_fault")
    assert place in finding.text
    assert place in [found for found, _ in _places(result, "ground_fault_protection_missing")]
    assert (result.verdict.safety, result.verdict.code, result.cases[0].verdict) == ("fail", "fail", "fail")
    # a crew reads no clauses
    assert result.crew_card[0].text == "Do not run heater: R1 has no ground-fault protection, and must have it."
    # not asked for, the same receptacle is a caution
    silent = check(_request(source=_protected_by("none")))
    assert "ground_fault_protection_missing" not in _codes(silent)
    assert "ground_fault_protection_absent" in _codes(silent)
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
    result = check(_request(basis, source=_protected_by("none", kind)))
    assert ("ground_fault_protection_missing" in _codes(result)) == asked
    assert ("ground_fault_protection_absent" in _codes(result)) != asked


def test_unknown_protection_leaves_the_code_open_and_names_the_question() -> None:
    result = check(_request("osha-1926", source=_protected_by(None)))
    assert result.verdict.code == "unknown"
    assert next(item for item in result.assumptions if item.id == result.question).pointer == (
        "/source/receptacles/0/ground_fault"
    )
    assert ("404(b)(1)(ii)", "verified") in _places(result, "ground_fault_protection_unknown")


def test_a_residual_current_device_of_30_ma_is_no_class_a_interrupter() -> None:
    # UL 943 class A trips at 4 to 6 mA; IEC 60364-7-704 asks for 30 mA
    source = _protected_by("rcd_30ma_type_a")
    american = check(_request("nec-2023", source=source))
    assert "ground_fault_protection_other_kind" in _codes(american)
    assert (american.verdict.safety, american.verdict.code) == ("pass", "fail")
    assert "ground_fault_protection_other_kind" not in _codes(check(_request("iec-60364-de", source=source)))
    # and the other way round 6 mA satisfies what asks for at most 30 mA
    assert "ground_fault_protection_other_kind" not in _codes(check(_request("iec-60364-de")))


def test_indoors_the_clause_of_outdoor_sockets_stays_away() -> None:
    # IEC 60364-4-41 411.3.3: mobile equipment outdoors (memory); a site asks by 7-704 either way
    def places(place: str) -> set[str]:
        request = _request("iec-60364-de", source=_protected_by("none"), conditions={"place": place})
        return {found for found, _ in _places(check(request), "ground_fault_protection_missing")}

    assert places("open_air") == {"704.410.3.10", "411.3.3"}
    assert places("indoors") == {"704.410.3.10"}


def test_missing_protection_is_no_matter_of_another_open_question() -> None:
    # an unknown reset alone would leave the saw's restart a question; the missing interrupter fails whatever it is
    tools = [_plate("9 A", "table_saw", switch="positive_on_off", restart_protection=False)]
    source = _protected_by("none")
    del source["reset"]
    assert check(_request("osha-1926", source=source, tools=tools)).cases[0].verdict == "fail"
    source["receptacles"][0]["ground_fault"] = "gfci_class_a"
    assert check(_request("osha-1926", source=source, tools=tools)).cases[0].verdict == "unknown"


def test_reduced_low_voltage_needs_no_residual_current_device() -> None:
    # BS 7671 704.410.3.10 names it as an alternative (memory)
    source = _protected_by("none", "IEC 60309 16 A 2P+E yellow", voltage="55-0-55 V")
    tool = resistive("heater", "600 W", "110 V", insulation="class_ii")
    result = check(_request("bs-7671", source=source, tools=[tool]))
    assert result.verdict.code == "pass"
    assert not {"ground_fault_protection_missing", "ground_fault_protection_absent"} & _codes(result)


def _set(**members: Any) -> dict[str, Any]:
    return _protected_by("none", **{"kind": "engine_generator", "technology": "avr", "running": "5000 W", **members})


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
    federal = check(_request("osha-1926", source=source, **outdoors))
    assert ("ground_fault_exempted" in _codes(federal)) == exempt
    assert ("ground_fault_protection_missing" in _codes(federal)) != exempt
    # NFPA 70 590.6(A)(3) has no such exemption (memory): with both asked for, both are shown
    both = check(_request("osha-1926", "nec-2023", source=source, **outdoors))
    assert "ground_fault_protection_missing" in _codes(both)
    assert ("ground_fault_exempted" in _codes(both)) == exempt
    assert both.verdict.code == "fail"


def test_a_set_above_15_kw_leaves_the_clause_of_sets() -> None:
    # NFPA 70 590.6(A)(3) speaks of sets to 15 kW (memory); (A)(1) asks of any 125 V receptacle
    def places(running: str) -> list[str]:
        result = check(_request("nec-2023", source=_set(running=running), conditions={"place": "open_air"}))
        return [place for place, _ in _places(result, "ground_fault_protection_missing")]

    assert places("15 kW") == ["590.6(A)(1)", "590.6(A)(3)"]
    assert places("15.1 kW") == ["590.6(A)(1)"]


@pytest.mark.parametrize(("bond", "said"), [("floating", "is floating"), ("bonded", "is bonded"), (None, "not known")])
def test_both_readings_of_the_neutral_bond_are_shown_and_none_is_decided(bond: str | None, said: str) -> None:
    # 29 CFR 1926.404(f)(3)(iii) public text; NFPA 70 445.20 (A) floating and (B) bonded, public text of 2017
    source = {**_set(), "receptacles": _source()["receptacles"]}
    if bond:
        source["neutral_bond"] = bond
    result = check(_request("osha-1926", "nec-2017", source=source, conditions={"place": "open_air"}))
    finding = finding_of(result, "neutral_bond_readings")
    assert finding is not None
    assert said in finding.text
    assert {"404(f)(3)(iii)", "445.20", "250.34(C), 250.30"} <= {
        place for place, _ in _places(result, "neutral_bond_readings")
    }
    assert result.verdict.code == "pass"
    european = check(_request("iec-60364-de", source=source, conditions={"place": "open_air"}))
    assert "neutral_bond_readings" not in _codes(european)  # 551.4 leaves it to the earthing of the set (memory)


def test_a_vehicle_frame_has_a_clause_of_its_own() -> None:
    # NFPA 70 250.34(B) and 29 CFR 1926.404(f)(3)(ii) (memory)
    van = _source(kind="vehicle", limits=[{"id": "inverter", "continuous": "2400 W"}])
    result = check(_request("osha-1926", "nec-2023", source=van))
    assert {"404(f)(3)(ii)", "250.34(B)"} <= {place for place, _ in _places(result, "neutral_bond_readings")}


def test_a_source_that_limits_its_current_leaves_clearing_to_the_residual_device() -> None:
    # IEC 60364-4-41 411.3.2: 0.4 s (memory)
    station = _source(kind="battery_station", neutral_bond="bonded")
    asked = check(_request("iec-60364-de", source=station))
    assert "fault_cleared_by_residual_device" in _codes(asked)
    assert "fault_cleared_by_residual_device" not in _codes(check(_request("iec-60364-de")))
    assert "fault_cleared_by_residual_device" not in _codes(check(_request("nec-2023", source=station)))


# --- circuits -----------------------------------------------------------------------------------------------------


def _two_receptacles(rating: str | None = "20 A", kind: str = "5-20R") -> dict[str, Any]:
    made = _source(
        receptacles=[
            {"id": name, "type": kind, "circuit": "C1", "ground_fault": "gfci_class_a"} for name in ("R1", "R2")
        ],
    )
    if rating:
        made["circuits"] = [{"id": "C1", "device": {"kind": "breaker", "rating": rating}}]
    return made


def _plate(current: str, load_class: str = "heat_gun", **members: Any) -> dict[str, Any]:
    return {
        "id": "heater",
        "load_class": load_class,
        "supply_options": [{"voltage": "120 V", "current": current}],
        "switch": "positive_on_off",
        "restart_protection": True,
        **members,
    }


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
    result = check(_request(basis, source=_two_receptacles(), tools=[_plate("16.1 A")]))
    assert (place, status) in _places(result, "one_appliance_share")
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
        ("nec-2023", _source(), "16.1 A", None),  # a circuit of its own
        ("nec-2023", {"outlets": 3}, "16.1 A", 16.0),  # no longer one when a cord splits it
        ("iec-60364-de", _two_receptacles(), "16.1 A", None),  # 433.1 knows no such share
    ],
)
def test_the_share_of_one_plug_at_its_edge(
    basis: str, source: dict[str, Any], current: str, limit: float | None
) -> None:
    request = _request(basis, source=source, tools=[_plate(current)])
    if "outlets" in source:
        request = {**_corded(basis, outlets={"count": source["outlets"]}), "tools": request["tools"]}
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
    result = check(_request(basis, tools=[tool]))
    assert ("continuous_load_share" in _codes(result)) == told
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
    result = check(_request("nec-2023", source=source))
    assert ("receptacle_not_for_circuit" in _codes(result)) == wrong
    assert result.verdict.code == ("fail" if wrong else "pass")
    assert "receptacle_not_for_circuit" not in _codes(check(_request("iec-60364-de", source=source)))


def test_a_splitter_puts_small_outlets_on_a_large_circuit() -> None:
    # OSHA letter of 1995: the end of an extension set counts as an outlet; table K-5 and 210.21(B)(3)
    request = _request(
        "osha-1926",
        source=_source(
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
    assert "receptacle_not_for_circuit" not in _codes(check(request))


def test_lights_and_tools_do_not_share_a_circuit_on_a_site() -> None:
    # NFPA 70 590.4(D)(1), public summaries; 29 CFR 1926.405(a)(2)(ii)(C) (memory)
    light = {**resistive("lamp", "200 W"), "load_class": "led_light"}
    request = _request(
        "nec-2023",
        source=_two_receptacles(),
        tools=[resistive("heater", "600 W"), light],
        connections=[{"plug": "heater", "into": "R1"}, {"plug": "lamp", "into": "R2"}],
    )
    shared = check(request)
    assert ("590.4(D)(1)", "verified") in _places(shared, "lights_on_tool_circuit")
    assert shared.verdict.code == "marginal"
    del request["source"]["circuits"]
    request["source"]["receptacles"][1]["circuit"] = "C2"
    assert "lights_on_tool_circuit" not in _codes(check(request))
    assert "lights_on_tool_circuit" not in _codes(check({**request, "source": _two_receptacles(), "code_basis": []}))


def test_a_welder_gets_no_larger_device_on_a_portable_outlet() -> None:
    # NFPA 70 630.11 and 630.12: for an individual circuit
    def welder(current: str) -> dict[str, Any]:
        return _request("nec-2023", tools=[_plate(current, "welder")])

    result = check(welder("20.5 A"))
    assert [place for place, _ in _places(result, "welder_circuit_rules")] == ["630.11(A)", "630.12(A)"]
    assert "welder_circuit_rules" not in _codes(check(welder("20 A")))


def test_a_supplementary_protector_is_told_from_a_breaker() -> None:
    # NFPA 70 240.10
    source = _two_receptacles()
    assert "supplementary_protector_only" not in _codes(check(_request("nec-2023", source=source)))
    source["circuits"][0]["device"]["kind"] = "supplementary_protector"
    assert "supplementary_protector_only" in _codes(check(_request("nec-2023", source=source)))


def test_british_sites_use_industrial_sockets_and_prefer_110_v() -> None:
    # BS 7671 704.511.1 and 411.8 (memory)
    source = _protected_by("rcd_30ma_type_a", "BS 1363", voltage="230 V")
    tool = resistive("heater", "600 W", "230 V", operated="by_hand", insulation="class_ii")
    domestic = check(_request("bs-7671", source=source, tools=[tool]))
    assert {"socket_not_site_type", "reduced_low_voltage_preferred"} <= _codes(domestic)
    assert domestic.verdict.code == "fail"
    source["receptacles"][0]["type"] = "IEC 60309 16 A 2P+E blue"
    tool["operated"] = "by_itself"
    assert not {"socket_not_site_type", "reduced_low_voltage_preferred"} & _codes(
        check(_request("bs-7671", source=source, tools=[tool]))
    )


# --- cords and tools ----------------------------------------------------------------------------------------------


def _corded(*bases: str, **members: Any) -> dict[str, Any]:
    cord = {"id": "cord", "type": "SJTW", "size": "12 AWG", "length": "25 ft", "laid": "straight", **members}
    return _request(
        *bases, cords=[cord], connections=[{"plug": "cord", "into": "R1"}, {"plug": "heater", "into": "cord"}]
    )


@pytest.mark.parametrize(
    ("basis", "kind", "code"),
    [
        # usage by NFPA 70 table 400.4 and EN 50525 (memory)
        ("osha-1926", "SJTW", None),
        ("osha-1926", "SOOW", None),
        ("osha-1926", "SPT-2", "cord_not_hard_usage"),
        ("osha-1926", None, "cord_type_unknown"),
        ("nec-2023", "SVT", "cord_not_hard_usage"),
        ("iec-60364-de", "H07RN-F", None),
        ("bs-7671", "H05VV-F", "cord_not_hard_usage"),
    ],
)
def test_cords_on_a_site_are_for_hard_usage(basis: str, kind: str | None, code: str | None) -> None:
    request = _corded(basis)
    if kind is None:
        del request["cords"][0]["type"]
    else:
        request["cords"][0]["type"] = kind
    result = check(request)
    assert {"cord_not_hard_usage", "cord_type_unknown"} & _codes(result) == ({code} if code else set())
    open_or_failed = {None: ("pass", "fail"), "cord_type_unknown": ("unknown",), "cord_not_hard_usage": ("fail",)}
    assert result.verdict.code in open_or_failed[code]
    assert not {"cord_not_hard_usage", "cord_type_unknown"} & _codes(check({**request, "code_basis": []}))


def test_a_site_asks_for_three_wires() -> None:
    # 29 CFR 1926.405(a)(2)(ii)(J)
    assert "cord_two_wire" in _codes(check(_corded("osha-1926", conductors=2)))
    assert "cord_two_wire" not in _codes(check(_corded("osha-1926", conductors=3)))
    assert "cord_two_wire" not in _codes(check(_corded("nec-2023", conductors=2)))


def test_a_worn_cord_fails_where_the_law_says_so() -> None:
    # 29 CFR 1926.416(e)(1): worn or frayed cords are not used (memory)
    worn = check(_corded("osha-1926", plug_state="worn"))
    assert worn.verdict.code == "fail"
    assert ("416(e)(1)", "memory") in _places(worn, "cord_end_worn")
    assert check(_corded("nec-2023", plug_state="worn")).verdict.code == "pass"
    assert check(_corded("osha-1926")).verdict.code == "pass"
    assert check(_corded("osha-1926", plug_state="damaged")).verdict.code == "fail"
    assert finding_of(check(_corded("osha-1926", plug_state="damaged")), "cord_end_worn") is None


@pytest.mark.parametrize(
    ("basis", "marked", "place"),
    [
        ("nec-2023", "13 A", "240.5(B)"),  # public text
        ("iec-60364-de", "13 A", "433.1"),  # memory
        ("osha-1926", "13 A", None),
    ],
)
def test_the_breaker_does_not_protect_a_lesser_cord(basis: str, marked: str, place: str | None) -> None:
    result = check(_corded(basis, marked=marked))
    if place is None:
        assert "device_does_not_protect_cord" not in _codes(result)
    else:
        assert place in [found for found, _ in _places(result, "device_does_not_protect_cord")]
    # on a 15 A circuit a cord marked 15 A is as good as its device
    request = _corded(basis, marked="15 A", plug="5-15P", outlets={"type": "5-15R"})
    request["source"]["receptacles"][0]["type"] = "5-15R"
    assert "device_does_not_protect_cord" not in _codes(check(request))


@pytest.mark.parametrize(
    ("load_class", "switch", "allowed"),
    [
        # 29 CFR 1926.300(d)(3): circular and chain saws constant pressure; (d)(2): drills, grinders, reciprocating saws
        # momentary, which may lock on; (d)(1): planers and routers positive on-off
        ("circular_saw", "momentary_lock_on", False),
        ("circular_saw", "constant_pressure", True),
        ("chain_saw", "positive_on_off", False),
        ("angle_grinder", "positive_on_off", False),
        ("angle_grinder", "momentary_lock_on", True),
        ("hand_drill", "constant_pressure", True),
        ("reciprocating_saw", "positive_on_off", False),
        ("router", "positive_on_off", True),
    ],
)
def test_the_law_names_the_switch_of_a_tool(load_class: str, switch: str, allowed: bool) -> None:
    tools = [_plate("6 A", load_class, switch=switch, restart_protection=True)]
    result = check(_request("osha-1926", tools=tools))
    assert ("switch_kind_not_allowed" in _codes(result)) != allowed
    assert result.verdict.code == ("pass" if allowed else "fail")
    assert "switch_kind_not_allowed" not in _codes(check(_request("nec-2023", tools=tools)))


def test_restart_by_itself_has_its_clause_where_the_source_is_said_to_come_back() -> None:
    # NFPA 70 430.43 (memory); 29 CFR 1910.213(b)(3) speaks of woodworking machines (OSHA letter)
    tools = [_plate("9 A", "table_saw", switch="positive_on_off", restart_protection=False)]
    request = _request("osha-1926", "nec-2023", source=_source(reset={"how": "automatic"}), tools=tools)
    result = check(request)
    assert {"430.43", "213(b)(3)", "300(d)"} <= {place for place, _ in _places(result, "restart_without_warning")}
    assert (result.verdict.code, result.verdict.safety) == ("marginal", "fail")
    tools[0]["load_class"] = "router"
    places = {place for place, _ in _places(check(request), "restart_without_warning")}
    assert "213(b)(3)" not in places
    # whole documents stand in only where no clause does
    assert "300(d)" in places
    whole = check({**request, "code_basis": []})
    assert [item.document for item in whole.basis if item.place.startswith("clauses")] == ["29 CFR 1926"]
    # IEC 60204-1 7.5 is for machines, IEC 62841-1 21.18 for hand tools (memory)
    request["code_basis"] = ["iec-60364-de"]
    assert "21.18" in {place for place, _ in _places(check(request), "restart_without_warning")}
    tools[0]["load_class"] = "table_saw"
    assert {place for place, _ in _places(check(request), "restart_without_warning")} == {"7.5"}
    request["code_basis"] = ["osha-1926", "nec-2023"]
    tools[0]["load_class"] = "heat_gun"  # no motor
    assert check(request).verdict.code == "pass"
    tools[0]["load_class"] = "router"
    for reset in ({"how": "manual"}, None):
        request["source"]["reset"] = reset
        if reset is None:
            del request["source"]["reset"]  # not said: a question of safety, not of the code
        assert check(request).verdict.code == "pass"
