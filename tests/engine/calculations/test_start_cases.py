"""Is a start judged in its case: beside which others, in which order, and with the same bits every time?

Outside the project: Ohm's law and Thevenin's theorem worked out beside each test, NFPA 70 table 430.7(B) for code
letters, the points of UL 489 and IEC 60898-1. Rules of the project's own verdict arithmetic are named as such.
"""

from __future__ import annotations

from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.starts.starts import check_starts
from ampwright.engine.site.ledger import Ledger
from site_of import check, resistive, site_of
from start_request import TYPICAL, evaluated, inverter, laptop, mains, motor, request, series, tool_of


def test_without_an_order_each_tool_is_the_last_to_start() -> None:
    found = evaluated(request(mains(circuits=3), series("a"), series("b"), series("c")))
    assert [(one.tool, one.beside) for one in found.starts.tools] == [(0, (1, 2)), (1, (0, 2)), (2, (0, 1))]


def test_with_an_order_each_starts_beside_those_before_it_and_the_case_is_at_best_marginal() -> None:
    asked = request(mains(circuits=3), series("a", "4 A"), series("b", "4 A"), series("c", "4 A"))
    assert check(asked).cases[0].verdict == "pass"
    asked["cases"][0]["start_order"] = ["c", "a", "b"]
    found = evaluated(asked)
    assert sorted((one.tool, one.beside) for one in found.starts.tools) == [(0, (2,)), (1, (0, 2)), (2, ())]
    assert check(asked).cases[0].verdict == "marginal"


def test_a_kind_of_load_that_is_not_known_stays_open() -> None:
    unknown = {"id": "thing", "supply_options": [{"voltage": "120 V", "current": "5 A"}], "switch": "always_on"}
    result = check(request(mains(), unknown))
    assert {"start", "sag"} <= set(result.not_assessed)
    assert tool_of(result, "thing").start is not None
    assert tool_of(result, "thing").start.outcome == "not_assessed"  # type: ignore[union-attr]


def test_a_heater_has_no_start_to_fail() -> None:
    result = check(request(mains(), resistive("heater", "1200 W")))
    assert tool_of(result, "heater").start is None
    assert "start" not in result.not_assessed


def test_more_than_sixty_tools_in_a_case_get_steady_figures_only() -> None:
    tools = [series(f"t{n}", "0.1 A") for n in range(61)]
    result = check(request(mains(), *tools))
    assert {"start", "sag"} <= set(result.not_assessed)
    assert result.verdict.overall != "pass"


def test_a_case_alone_gives_the_same_bits_as_among_others() -> None:
    tools = [motor("c"), series("a", "8 A"), laptop()]
    source = inverter("40 A", response="current_limiting")
    both = request(source, *tools)
    both["cases"] = [
        {"id": "one", "running": ["c"]}, {"id": "two", "running": ["c", "a"]},
        {"id": "all", "running": ["c", "a", "laptop"]},
    ]  # fmt: skip
    among = check(both)
    for n, case in enumerate(both["cases"]):
        alone = check({**both, "cases": [case]})
        assert alone.cases[0].results == among.cases[n].results


def test_the_same_request_gives_the_same_answer() -> None:
    asked = request(inverter("20 A"), motor("c"), series("a"), laptop())
    site = site_of(asked)
    assert check_load(site) == check_load(site)


def test_a_probability_is_told_where_the_estimates_differ_and_lies_between_nought_and_one() -> None:
    source = inverter("28 A", tiers=[], response="current_limiting")
    source["circuits"][0]["device"]["rating"] = "60 A"
    one = tool_of(check(request(source, motor("compressor"))), "compressor").start
    assert one is not None
    assert one.outcomes is not None
    assert one.probability_ratio is not None
    assert 0.0 < one.probability_ratio < 1.0


def test_a_restart_in_mid_run_is_no_easier_than_the_start() -> None:
    """A compressor that vents before each start has full head pressure when power returns in mid-run."""
    tool = motor("compressor", restart={"kind": "induction_motor", "code_letter": "J", "against": "head_pressure"})
    source = inverter("40 A", tiers=[], response="current_limiting")
    source["circuits"][0]["device"]["rating"] = "60 A"
    found = evaluated(request(source, tool))
    again = check_starts(found.settled, Ledger(), found.sets, found.rows, found.figures, again=True)
    assert found.starts.tools[0].outcomes[TYPICAL] in ("starts", "starts_slowly")
    assert again.tools[0].outcomes[TYPICAL] == "stalls"
