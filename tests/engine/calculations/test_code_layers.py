"""Is a rule layer asked only when it was named, and what is said where none decides?

Clauses are those of 29 CFR 1926 subparts I and K (public text), of NFPA 70 as public summaries give them, and of
IEC 60364 and BS 7671 from memory; beside each test stands which. Ratings at the edge come from the clause, not from us.
"""

from __future__ import annotations

import msgspec
import pytest
from ampwright.contract.load_checks import CODE_BASES, LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.standards.rule_layers import code_bases
from code_request import codes_of, places_of, protected_by, site_supply, under_code
from site_of import check, finding_of


def test_the_code_verdict_is_open_until_a_layer_is_named_and_left_out_where_none_is_wanted() -> None:
    request = under_code()
    none_wanted = check(request)
    assert none_wanted.verdict.code is None
    assert "code_rules" not in none_wanted.not_assessed
    del request["code_basis"]
    omitted = check(request)
    assert omitted.verdict.code == "unknown"
    assert omitted.verdict.overall == "unknown"
    assert "code_rules" in omitted.not_assessed
    assert next(item for item in omitted.assumptions if item.id == omitted.question).code == "code_basis"
    asked = check(under_code("osha-1926"))
    assert asked.verdict.code == "pass"
    assert "code_rules" not in asked.not_assessed


def test_every_layer_that_has_clauses_may_be_asked_for() -> None:
    assert code_bases() == CODE_BASES
    for key in CODE_BASES:
        assert check(under_code(key)).verdict.code in ("pass", "marginal", "unknown", "fail")


def test_iec_alone_decides_nothing_and_asks_for_the_country() -> None:
    # IEC 60364 is no law; each country adopts its own text of it (the HD 60364 series, BS 7671, DIN VDE 0100)
    result = check(under_code("iec-60364", source=protected_by("none")))
    finding = finding_of(result, "code_basis_needs_country")
    assert finding is not None
    assert finding.pointer == "/code_basis/0"
    assert result.verdict.code == "unknown"
    assert "ground_fault_protection_missing" not in codes_of(result)
    # another layer beside it still decides
    assert check(under_code("iec-60364", "osha-1926", source=protected_by("none"))).verdict.code == "fail"


@pytest.mark.parametrize(("text", "hint"), [("nec-2032", "nec-2023"), ("OSHA 1926", "osha-1926")])
def test_an_unknown_layer_is_a_fault_with_what_may_be_meant(text: str, hint: str) -> None:
    _, faults = read_site(msgspec.convert(under_code(text), LoadCheckRequest))
    assert [(item.pointer, item.code, item.did_you_mean) for item in faults] == [
        ("/code_basis/0", "unknown_code_basis", hint)
    ]


def test_the_law_of_job_sites_is_named_beside_the_nec() -> None:
    # 29 CFR 1910.5, 1926.1: the construction standards apply whichever edition a town adopted
    assert "job_site_law_not_asked" in codes_of(check(under_code("nec-2023")))
    assert "job_site_law_not_asked" not in codes_of(check(under_code("nec-2023", "osha-1926")))


def test_branch_circuit_rules_reach_a_vehicle_by_analogy_only() -> None:
    # NFPA 70 90.2 leaves vehicles out; power export came in with 625.60 of 2020 (public summaries)
    van = site_supply(kind="vehicle", limits=[{"id": "inverter", "continuous": "2400 W"}], neutral_bond="bonded")
    assert [place for place, _ in places_of(check(under_code("nec-2017", source=van)), "code_by_analogy")] == [
        "90.2(B)(1)"
    ]
    assert "625.60" in [place for place, _ in places_of(check(under_code("nec-2020", source=van)), "code_by_analogy")]
    assert "code_by_analogy" not in codes_of(check(under_code("nec-2023")))
