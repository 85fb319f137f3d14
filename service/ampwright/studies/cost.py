"""How dear is a request, before any work starts?

Pure functions of counts: the most that a request can cost, which a sound kit stays far below. A cost unit is about a
microsecond of one core on the machine this was measured on (2 to 20 tools, known and unknown figures, factor of three;
`ampwright bench cost` prints it anew).
"""

from __future__ import annotations

from collections.abc import Collection
from math import comb

from ampwright.engine.calculations.cord_sizing.cord_sizing_question import USUAL_AWG, CordQuestion
from ampwright.engine.calculations.cord_sizing.cord_sizing_questions import MOST_TRIED as MOST_TRIED_OF_CORDS
from ampwright.engine.calculations.cord_sizing.cord_sizing_runs import MOST_RUNS
from ampwright.engine.calculations.load_check.load_check import MOST_TRIED, MOST_WORK, WORK_OF_A_START
from ampwright.engine.calculations.network.cases import MOST_COMBINATIONS, MOST_TOOLS_PUSHED
from ampwright.engine.calculations.network.tools_together import MOST_EXACT
from ampwright.engine.calculations.reverse.break_even_outcome import MOST_POSTED, MOST_WORK_POSTED
from ampwright.engine.calculations.reverse.break_evens import MOST_EVALUATIONS
from ampwright.engine.calculations.reverse.largest_motor import MOST_PLACES as MOST_MOTOR_PLACES
from ampwright.engine.calculations.reverse.largest_sets import MOST_SETS, MOST_WORK_OF_SETS
from ampwright.engine.calculations.reverse.longest_cord import MOST_CORDS
from ampwright.engine.calculations.reverse.spare_load import MOST_PLACES, STEPS
from ampwright.engine.calculations.shift.shift_use import DRAWS, MOST_STEPS, USUAL_SHIFT_S
from ampwright.engine.calculations.starts.start_order import MOST_CASES, MOST_ORDERED
from ampwright.engine.calculations.starts.starts import MOST_STARTS
from ampwright.engine.site.load_classes import LOAD_CLASSES
from ampwright.engine.site.use import Site

# an evaluation: what it takes anyhow, for each tool and cord that is settled, for each row, for each start; measured
_PER_EVALUATION, _PER_THING, _PER_ROW, _PER_START = 2000, 200, 180, 150
_PER_ROW_AND_ITEM = 3  # of large sites, where a row is long
_PER_SET_AND_ITEM = 15  # one set of tools that may run together
_PER_ORDER = 80  # one tool more in an order of starting
_PER_STEP = 0.15  # of a shift that is played
_ASKED_OF_A_TOOL = 6  # assumptions that have another side, about a tool and what feeds it

# a cord run held once against every rule, its start included; measured
_PER_RUN = 1000
_EVALUATIONS_OF_A_REACH = 30  # two bisections of about fifteen lengths


class TooMuchWork(Exception):
    """The request costs more than is answered at once."""

    def __init__(self, cost_units: int, limit_units: int) -> None:
        super().__init__(f"{cost_units} cost units, {limit_units} are answered at once")
        self.cost_units = cost_units
        self.limit_units = limit_units


def load_check_cost_units(site: Site) -> int:
    """Cost of one load check: one evaluation, and one for every assumption and set of them that may be tried."""
    sizes = _sizes(site)
    return _evaluation(site, sizes, sum(sizes)) + _taken_both_ways(site, sizes, MOST_WORK)


def _taken_both_ways(site: Site, sizes: list[int], most_work: int) -> int:
    """Cost of an evaluation for every assumption and set of them that may be tried within some work."""
    work = _rows(sizes) * _items(site) + WORK_OF_A_START * min(sum(sizes), MOST_STARTS)
    # a try without a network to solve counts a third of its work; where no case runs there is none
    tries = min(2 * MOST_TRIED, 2 * (_ASKED_OF_A_TOOL * len(site.tools) + 10), 2 * (most_work // max(work, 1)) + 1)
    return tries * _evaluation(site, sizes, sum(sizes))


def included_cost_units(site: Site, words: Collection[str], shift_s: float | None) -> int:
    """Cost of the parts that a request asks for beside the check itself; `shift_s` [s]."""
    if not words:
        return 0
    items, sizes = _items(site), _sizes(site)
    whole = _evaluation(site, sizes, sum(sizes))
    cost = whole
    if "break_evens" in words:
        # each finding tries every tool and a dozen changes of every cord; findings share most of their tries
        tries = min(MOST_EVALUATIONS, 4 * (len(site.tools) + 8 * len(site.cords) + 4))
        places = min(MOST_PLACES, len(site.source.receptacles or ()) * len(site.cases or (1,)))
        # ratings of motors and lengths of cords are searched by halves, with starts; outputs of welders without
        motors = min(MOST_MOTOR_PLACES, places) * 2 * 5
        lengths = min(MOST_CORDS, len(site.cords)) * 20
        with_starts = _evaluation(site, sizes, max(sizes, default=0))
        # a spare load that holds by its steady figures is looked at as a whole, seldom searched again
        spare = places * (2 * with_starts + STEPS * _evaluation(site, sizes, 0))
        cost += (tries + motors + lengths) * with_starts + spare
        # what is told is checked as it is posted again, with what is not known taken both ways
        cost += min(MOST_POSTED, tries) * whole + _taken_both_ways(site, sizes, MOST_WORK_POSTED)
    if "shift" in words or "largest_sets" in words:
        sets = 1 << min(len(site.tools), MOST_EXACT) if len(site.tools) <= MOST_EXACT else len(site.tools) ** 2
        cost += sets * items * _PER_SET_AND_ITEM
    if "largest_sets" in words:
        ordered = [len(case.running) for case in site.cases or () if len(case.running) <= MOST_ORDERED]
        ordered = ordered if site.cases is not None else [min(len(site.tools), MOST_ORDERED)] * MOST_CASES
        cost += sum((1 << size) * size * _PER_ORDER + whole for size in ordered[:MOST_CASES])
        named = [len(site.tools)] * MOST_SETS
        cost += _evaluation(site, named, sum(named)) + _taken_both_ways(site, named, MOST_WORK_OF_SETS)
    if "shift" in words:
        # a switching of one tool every half a minute, played on a few devices at three estimates
        steps = DRAWS * (USUAL_SHIFT_S if shift_s is None else shift_s) / 30.0 * len(site.tools)
        cost += int(min(steps, MOST_STEPS) * _PER_STEP)
    return cost


def _evaluation(site: Site, sizes: list[int], starts: int) -> int:
    """Cost of settling a site, solving its rows, running `starts` starts, and judging all."""
    things = len(site.tools) + len(site.cords)
    return (
        _PER_EVALUATION + things * _PER_THING + _rows(sizes) * _PER_ROW + min(starts, MOST_STARTS) * _PER_START
        + _rows(sizes) * _items(site) * _PER_ROW_AND_ITEM
    )  # fmt: skip


def _items(site: Site) -> int:
    return len(site.tools) + len(site.cords) + len(site.source.receptacles or ()) + len(site.source.circuits or ()) + 1


def _sizes(site: Site) -> list[int]:
    """How many tools run in each case; where none is asked for, alone, and as many hand tools as there are people."""
    if site.cases is not None:
        return [len(case.running) for case in site.cases]
    tools = len(site.tools)
    operated = [tool.operated or LOAD_CLASSES[tool.load_class or "other"].operated for tool in site.tools]
    by_hand = operated.count("by_hand")
    hands = min(site.people or 1, by_hand)
    sets = min(comb(by_hand, hands), MOST_COMBINATIONS) if by_hand < 40 else MOST_COMBINATIONS
    return [1] * tools + [tools - by_hand + hands] * sets


def _rows(sizes: list[int]) -> int:
    return sum(1 + (size if size <= MOST_TOOLS_PUSHED else 0) for size in sizes)


def cord_sizing_cost_units(question: CordQuestion) -> int:
    """Cost of one cord sizing: every single cord and size with its reach, runs of several, and what is tried anew."""
    alone = len(question.at_hand) + (len(question.sizes) or len(USUAL_AWG))
    several = MOST_RUNS if len(question.at_hand) > 1 and question.distance_m is not None else 0
    tried = MOST_TRIED_OF_CORDS // 4  # few fail, and each try is of those that fail
    return _PER_RUN * (alone * _EVALUATIONS_OF_A_REACH + (alone + several) * (1 + tried))
