"""Is each rule looked up in the layer and edition that applies, and does nobody get a clause that is not there?"""

import pytest
from ampwright.engine.standards import rule_layers
from ampwright.engine.standards.ground_fault_rules import ground_fault_demands
from ampwright.engine.standards.loader import table
from ampwright.engine.standards.plugs import configuration
from ampwright.engine.standards.rule_layers import RULES, CodeBasis, UnknownCodeBasis, clause, clauses, code_basis


def test_an_unknown_edition_is_an_error_that_lists_what_is_known():
    for key in ("nec-2026", "nec", "NEC-2023", "", "iec-60364-us", "bs-7671-1992"):
        found = code_basis(key)
        assert isinstance(found, UnknownCodeBasis)
        assert "nec-2023" in found.known
        assert clause("continuous_load", key) == found
        with pytest.raises(ValueError, match="there are"):
            clauses("continuous_load", (key,))


def test_a_rule_nobody_defined_is_a_mistake_of_the_program():
    with pytest.raises(KeyError):
        clause("no_such_rule", "nec-2023")


def test_clauses_move_between_editions():
    # The 10 A circuit of 2023 pushed 210.23(A) to (B): from memory for 2023, read for the earlier ones.
    found = [clause("one_appliance_share", f"nec-{year}") for year in (2017, 2020, 2023)]
    assert [each.place for each in found] == ["210.23(A)(1)", "210.23(A)(1)", "210.23(B)(1)"]
    assert [each.status for each in found] == ["verified", "verified", "memory"]
    # Power export came in 2020.
    assert clause("vehicle_export", "nec-2017") is None
    assert clause("vehicle_export", "nec-2020").place == "625.60"


def test_only_the_nec_has_the_125_percent_rule():
    for key in ("iec-60364", "iec-60364-de", "bs-7671", "osha-1926"):
        assert clause("continuous_load", key) is None
    assert "no 125 %" in clause("overload_coordination", "iec-60364").asks
    assert "no trip limit" in clause("continuous_load", "nec-2023").asks


def test_iec_alone_decides_nothing():
    assert not code_basis("iec-60364").decides
    german = code_basis("iec-60364-de")
    assert isinstance(german, CodeBasis)
    assert german.decides
    assert german.country == "DE"
    assert german.document.startswith("DIN VDE")
    # A country's own text was not read: never surer than memory.
    for rule in RULES:
        found = clause(rule, "iec-60364-de")
        assert found is None or found.status == "memory"
    assert isinstance(code_basis("iec-60364-gb"), UnknownCodeBasis)  # it has bs-7671


def test_layers_are_told_in_the_order_asked_for():
    found = clauses("ground_fault_protection", ("nec-2023", "osha-1926", "iec-60364"))
    assert [each.code_basis for each in found] == ["nec-2023", "osha-1926", "iec-60364"]
    assert found[1].basis().document == "29 CFR 1926"
    assert found[1].basis().id == "osha-1926/ground_fault_protection"


@pytest.mark.parametrize("key", rule_layers.code_bases())
def test_every_clause_answers_a_rule(key):
    rules = [row.text("rule") for row in table(code_basis(key).table)]
    assert len(rules) == len(set(rules))
    assert set(rules) <= set(RULES)
    for found in rule_layers.clauses_of(key):
        assert found.place
        assert 20 < len(found.asks) < 400


def test_every_rule_has_a_clause_somewhere():
    for rule in RULES:
        assert any(clause(rule, key) is not None for key in rule_layers.code_bases()), rule


def test_osha_and_the_nec_disagree_on_a_small_floating_set():
    outlet = configuration("5-20R")
    osha = ground_fault_demands("osha-1926", outlet, "engine_generator", 3000.0, "floating")
    nec = ground_fault_demands("nec-2023", outlet, "engine_generator", 3000.0, "floating")
    assert osha[0].exempted_by.rule == "ground_fault_exemption"
    assert {each.clause.place for each in nec} == {"590.6(A)(1)", "590.6(A)(3)"}
    assert all(each.exempted_by is None for each in nec)


def test_an_unknown_set_is_taken_as_small_and_bonded():
    outlet = configuration("L14-30R")
    # Power not known: the clause for sets to 15 kW counts; at 20 kW it does not.
    unknown = ground_fault_demands("nec-2023", outlet, "engine_generator")
    large = ground_fault_demands("nec-2023", outlet, "engine_generator", 20000.0)
    assert "590.6(A)(3)" in {each.clause.place for each in unknown}
    assert {each.clause.place for each in large} == {"590.6(B)"}
    osha = ground_fault_demands("osha-1926", configuration("5-20R"), "engine_generator", 3000.0)
    assert osha[0].exempted_by is None


def test_europe_asks_for_30_ma_to_32_a():
    small, large = configuration("IEC 60309 32 A red"), configuration("IEC 60309 63 A red")
    for key in ("iec-60364", "iec-60364-fr", "bs-7671"):
        by_place = {each.clause.rule: each for each in ground_fault_demands(key, small, "site_supply")}
        assert by_place["ground_fault_protection"].rated_trip_a == 0.03
        by_place = {each.clause.rule: each for each in ground_fault_demands(key, large, "site_supply")}
        assert by_place["ground_fault_larger"].rated_trip_a == 0.5
        assert "ground_fault_protection" not in by_place


def test_an_unknown_basis_has_no_demands_to_give():
    found = ground_fault_demands("nec-1999", configuration("5-20R"), "vehicle")
    assert isinstance(found, UnknownCodeBasis)
