"""Does each rule layer ask of cords and tools what its document asks, by the clause of its edition?

Clauses are those of 29 CFR 1926 subparts I and K (public text), of NFPA 70 as public summaries give them, and of
IEC 60364 and BS 7671 from memory; beside each test stands which. Ratings at the edge come from the clause, not from us.
"""

from __future__ import annotations

import pytest
from code_request import by_plate, codes_of, corded, places_of, site_supply, under_code
from site_of import check, finding_of


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
    request = corded(basis)
    if kind is None:
        del request["cords"][0]["type"]
    else:
        request["cords"][0]["type"] = kind
    result = check(request)
    assert {"cord_not_hard_usage", "cord_type_unknown"} & codes_of(result) == ({code} if code else set())
    open_or_failed = {None: ("pass", "fail"), "cord_type_unknown": ("unknown",), "cord_not_hard_usage": ("fail",)}
    assert result.verdict.code in open_or_failed[code]
    assert not {"cord_not_hard_usage", "cord_type_unknown"} & codes_of(check({**request, "code_basis": []}))


def test_a_site_asks_for_three_wires() -> None:
    # 29 CFR 1926.405(a)(2)(ii)(J)
    assert "cord_two_wire" in codes_of(check(corded("osha-1926", conductors=2)))
    assert "cord_two_wire" not in codes_of(check(corded("osha-1926", conductors=3)))
    assert "cord_two_wire" not in codes_of(check(corded("nec-2023", conductors=2)))


def test_a_worn_cord_fails_where_the_law_says_so() -> None:
    # 29 CFR 1926.416(e)(1): worn or frayed cords are not used (memory)
    worn = check(corded("osha-1926", plug_state="worn"))
    assert worn.verdict.code == "fail"
    assert ("416(e)(1)", "memory") in places_of(worn, "cord_end_worn")
    assert check(corded("nec-2023", plug_state="worn")).verdict.code == "pass"
    assert check(corded("osha-1926")).verdict.code == "pass"
    assert check(corded("osha-1926", plug_state="damaged")).verdict.code == "fail"
    assert finding_of(check(corded("osha-1926", plug_state="damaged")), "cord_end_worn") is None


@pytest.mark.parametrize(
    ("basis", "marked", "place"),
    [
        ("nec-2023", "13 A", "240.5(B)"),  # public text
        ("iec-60364-de", "13 A", "433.1"),  # memory
        ("osha-1926", "13 A", None),
    ],
)
def test_the_breaker_does_not_protect_a_lesser_cord(basis: str, marked: str, place: str | None) -> None:
    result = check(corded(basis, marked=marked))
    if place is None:
        assert "device_does_not_protect_cord" not in codes_of(result)
    else:
        assert place in [found for found, _ in places_of(result, "device_does_not_protect_cord")]
    # on a 15 A circuit a cord marked 15 A is as good as its device
    request = corded(basis, marked="15 A", plug="5-15P", outlets={"type": "5-15R"})
    request["source"]["receptacles"][0]["type"] = "5-15R"
    assert "device_does_not_protect_cord" not in codes_of(check(request))


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
    tools = [by_plate("6 A", load_class, switch=switch, restart_protection=True)]
    result = check(under_code("osha-1926", tools=tools))
    assert ("switch_kind_not_allowed" in codes_of(result)) != allowed
    assert result.verdict.code == ("pass" if allowed else "fail")
    assert "switch_kind_not_allowed" not in codes_of(check(under_code("nec-2023", tools=tools)))


def test_restart_by_itself_has_its_clause_where_the_source_is_said_to_come_back() -> None:
    # NFPA 70 430.43 (memory); 29 CFR 1910.213(b)(3) speaks of woodworking machines (OSHA letter)
    tools = [by_plate("9 A", "table_saw", switch="positive_on_off", restart_protection=False)]
    request = under_code("osha-1926", "nec-2023", source=site_supply(reset={"how": "automatic"}), tools=tools)
    result = check(request)
    assert {"430.43", "213(b)(3)", "300(d)"} <= {place for place, _ in places_of(result, "restart_without_warning")}
    assert (result.verdict.code, result.verdict.safety) == ("marginal", "fail")
    tools[0]["load_class"] = "router"
    places = {place for place, _ in places_of(check(request), "restart_without_warning")}
    assert "213(b)(3)" not in places
    # whole documents stand in only where no clause does
    assert "300(d)" in places
    whole = check({**request, "code_basis": []})
    assert [item.document for item in whole.basis if item.place.startswith("clauses")] == ["29 CFR 1926"]
    # IEC 60204-1 7.5 is for machines, IEC 62841-1 21.18 for hand tools (memory)
    request["code_basis"] = ["iec-60364-de"]
    assert "21.18" in {place for place, _ in places_of(check(request), "restart_without_warning")}
    tools[0]["load_class"] = "table_saw"
    assert {place for place, _ in places_of(check(request), "restart_without_warning")} == {"7.5"}
    request["code_basis"] = ["osha-1926", "nec-2023"]
    tools[0]["load_class"] = "heat_gun"  # no motor
    assert check(request).verdict.code == "pass"
    tools[0]["load_class"] = "router"
    for reset in ({"how": "manual"}, None):
        request["source"]["reset"] = reset
        if reset is None:
            del request["source"]["reset"]  # not said: a question of safety, not of the code
        assert check(request).verdict.code == "pass"
