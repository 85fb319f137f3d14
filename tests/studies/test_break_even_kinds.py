"""Does every kind of finding of a load check have its reverse answers, or a reason why it has none?

The codes are those that the rules of the load check can give, found by the syntax of their sources, and those of the
list. What is promised for a code is held against what findings carry: of the demo's requests, of the sites of the trade
facts, and of one small site for each code that these do not show. Which changes help is judgement of the trade
(common practice, no source); that they hold when they are posted is held in test_break_even_changes.py.
"""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from ampwright.engine import calculations
from ampwright.engine.calculations.cord_sizing.cord_sizing_finding_codes import CORD_SIZING_FINDING_CODES
from ampwright.engine.calculations.energy.energy_finding_codes import ENERGY_FINDING_CODES
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_result import Finding
from ampwright.engine.calculations.reverse.break_even_kinds import KINDS, NOTHING_TOLD, REVERSE_ANSWERS, WHY_NONE
from ampwright.engine.calculations.reverse.break_evens import break_evens
from ampwright.studies.reference import finding_codes
from change_requests import REQUESTS, site_of_request
from engine.calculations.test_trade_facts import breakers, limiting, on
from finding_sites import FINDING_SITES
from site_of import site_of

TRADE: dict[str, dict[str, Any]] = {
    "saw on a 15 A limit": on(limiting("15 A"), "saw"),
    "compressor on a 15 A limit": on(limiting("15 A"), "compressor"),
    "compressor on a 15 A breaker": on(breakers("15 A"), "compressor"),
    "compressor and saw on 20 A": on(breakers("20 A"), "compressor", "saw"),
    "compressor and saw on 15 A": on(breakers("15 A"), "compressor", "saw"),
    "three together": on(breakers("20 A"), "compressor", "saw", "grinder"),
}
# findings of these sites that no single change mends, by the reason; a finding that is not here has a change
NONE_HELPS: dict[str, set[tuple[str, str]]] = {
    "all outlets are taken, and what is on them is needed": {
        ("j1-shelter-frame-van-city", "not_plugged_in"),
        ("j2-railing-weld-van-panel", "plug_does_not_fit"),
        ("j2-railing-weld-van-panel", "lights_on_tool_circuit"),
        ("j4-night-leak-gen-frame-6k", "lights_on_tool_circuit"),
        ("j4-night-leak-station-2k", "lights_on_tool_circuit"),
        ("j6-market-day-truck-flatbed", "lights_on_tool_circuit"),
        ("j6-market-day-van-panel", "lights_on_tool_circuit"),
    },
    "the source is far too small: one change leaves another thing of its kind too much": {
        ("j1-shelter-frame-van-city", "stalls_without_trip"),
        ("j1-shelter-frame-van-city", "circuit_over_rating"),
        ("j1-shelter-frame-van-city", "cord_over_marked_rating"),
        ("j1-shelter-frame-van-city", "does_not_start"),
        ("j1-shelter-frame-van-city", "limit_over_continuous"),
        ("j1-shelter-frame-van-panel", "does_not_start"),
        ("little", "does_not_start"),
        ("little", "stalls_when_power_returns"),
        ("unsaid", "does_not_start"),
    },
    "ends of 15 A hold the mark of any thicker cord down, and the tool is alone on it": {
        ("j1-shelter-frame-van-panel", "cord_over_marked_rating"),
        ("j3-slab-cut-gen-frame-6k", "cord_over_marked_rating"),
        ("j5-kiosk-fitout-site-box", "cord_over_marked_rating"),
        ("j5-kiosk-fitout-van-panel", "cord_over_marked_rating"),
    },
    "a source that comes back by itself starts another tool without warning, or trips again": {
        ("j2-railing-weld-truck-flatbed", "must_not_stop"),
        ("j4-night-leak-station-2k", "must_not_stop"),
    },
    "a source that makes no try by itself does not become one that does": {
        ("j6-market-day-truck-flatbed", "must_not_stop"),
    },
    "a source that stays off keeps off what must come back": {
        ("j6-market-day-van-panel", "restarts_by_itself"),
    },
    "its motor starts at its best only, behind no cord and beside nothing that matters": {
        ("j3-slab-cut-gen-frame-6k", "starts_only_if"),
    },
    "the tool alone asks more than the circuit or the source is good for": {
        ("saw on a 15 A limit", "circuit_over_rating"),
        ("saw on a 15 A limit", "low_voltage_at_tool"),
        ("saw on a 15 A limit", "starts_slowly"),
        ("compressor on a 15 A limit", "stalls_without_trip"),
        ("compressor on a 15 A limit", "circuit_over_rating"),
        ("compressor on a 15 A limit", "does_not_start"),
        ("compressor on a 15 A limit", "limit_over_continuous"),
        ("compressor on a 15 A breaker", "circuit_over_rating"),
    },
    "a device of a circuit is never told to be larger, and the tool is alone on it": {
        ("electronic", "stalls_without_trip"),
        ("electronic", "does_not_start"),
    },
}
SILENT = {one for some in NONE_HELPS.values() for one in some}


@cache
def told_of(name: str) -> tuple[Finding, ...]:
    if name in REQUESTS:
        site = site_of_request(REQUESTS[name])
    else:
        site = site_of(TRADE[name] if name in TRADE else FINDING_SITES[name])
    return break_evens(site, check_load(site).findings)


SITES = (*REQUESTS, *TRADE, *FINDING_SITES)


def _codes_of_rules() -> set[str]:
    """Every code that a module which makes checks of a load check writes down."""
    found: set[str] = set()
    for path in sorted(Path(calculations.__file__).parent.rglob("*.py")):
        if path.name.startswith("cord_sizing"):
            continue
        tree = ast.parse(path.read_text())
        makes = {
            node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }
        if not makes & {"Check", "Finding"}:
            continue
        found |= {
            node.value
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in FINDING_CODES
        }
    return found - set(ENERGY_FINDING_CODES)


def test_every_code_of_a_load_check_stands_in_one_of_two_lists() -> None:
    listed = set(REVERSE_ANSWERS) | set(NOTHING_TOLD)
    assert not set(REVERSE_ANSWERS) & set(NOTHING_TOLD)
    of_load_checks = set(FINDING_CODES) - set(ENERGY_FINDING_CODES) - set(CORD_SIZING_FINDING_CODES)
    assert of_load_checks | {"fault_not_cleared", "fault_clearing_unknown"} == listed  # of shorts, as a sizing tells
    assert _codes_of_rules() <= listed
    assert {finding.code for name in SITES for finding in told_of(name)} <= listed
    assert all(kinds and set(kinds) <= set(KINDS) for kinds in REVERSE_ANSWERS.values())
    assert all(len(reason) >= 10 for reason in NOTHING_TOLD.values())
    # a danger, and what fails capacity, is never without a way out but where the way is no change of a request
    silent = {code for code in NOTHING_TOLD if FINDING_CODES[code].verdict == "fail"}
    assert silent == {"sources_combined", "trips_in_shift", "receptacle_not_for_circuit", "socket_not_site_type"}


def test_the_reference_serves_both_lists() -> None:
    rows = {row.code: row for row in finding_codes().items}
    assert {code: tuple(row.break_even_kinds) for code, row in rows.items() if row.break_even_kinds} == REVERSE_ANSWERS
    assert {code: row.no_break_even for code, row in rows.items() if isinstance(row.no_break_even, str)} == NOTHING_TOLD


@pytest.mark.parametrize("name", SITES)
def test_a_finding_carries_what_its_code_promises_or_says_why_not(name: str) -> None:
    for finding in told_of(name):
        promised = REVERSE_ANSWERS.get(finding.code, ())
        assert {even.kind for even in finding.break_even} <= set(promised), finding.code
        assert bool(finding.break_even) == (finding.no_break_even is None), finding.code
        assert finding.no_break_even is None or finding.no_break_even in WHY_NONE
        if finding.code in NOTHING_TOLD or finding.severity == "info":
            assert finding.no_break_even == "no_change"
        elif not finding.break_even:
            assert finding.no_break_even == "none_helps", finding.code
            assert (name, finding.code) in SILENT, finding.code


@pytest.mark.parametrize("code", list(REVERSE_ANSWERS))
def test_every_promise_is_kept_somewhere(code: str) -> None:
    kept = {even.kind for name in SITES for one in told_of(name) if one.code == code for even in one.break_even}
    assert kept, code


@pytest.mark.parametrize("code", list(FINDING_SITES))
def test_a_site_made_for_a_finding_shows_it_with_a_change(code: str) -> None:
    mine = [finding for finding in told_of(code) if finding.code == code]
    assert mine
    assert all(finding.break_even for finding in mine)


def test_every_kind_of_change_is_told_somewhere() -> None:
    assert {even.kind for name in SITES for one in told_of(name) for even in one.break_even} == set(KINDS)


def test_what_needs_no_listing_any_more_is_taken_out() -> None:
    silent = {(name, one.code) for name in SITES for one in told_of(name) if one.no_break_even == "none_helps"}
    assert silent == SILENT
