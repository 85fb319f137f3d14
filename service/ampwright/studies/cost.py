"""How dear is a request, before any work starts?

Pure functions of counts: the most that a request can cost, which a sound kit stays far below. A cost unit is within a
factor of ten of a microsecond of one core on the machine this was measured on (2 to 30 tools, all figures unknown).
"""

from __future__ import annotations

from collections.abc import Collection
from math import comb

from ampwright.engine.calculations.break_evens import MOST_EVALUATIONS
from ampwright.engine.calculations.cases import MOST_COMBINATIONS, MOST_TOOLS_PUSHED
from ampwright.engine.calculations.cord_sizing_question import USUAL_AWG, CordQuestion
from ampwright.engine.calculations.cord_sizing_questions import MOST_TRIED as MOST_TRIED_OF_CORDS
from ampwright.engine.calculations.cord_sizing_runs import MOST_RUNS
from ampwright.engine.calculations.largest_motor import MOST_PLACES as MOST_MOTOR_PLACES
from ampwright.engine.calculations.load_check import MOST_TRIED, MOST_WORK
from ampwright.engine.calculations.longest_cord import MOST_CORDS
from ampwright.engine.calculations.shift_use import DRAWS, MOST_STEPS, USUAL_SHIFT_S
from ampwright.engine.calculations.spare_load import MOST_PLACES, STEPS
from ampwright.engine.calculations.start_order import MOST_CASES, MOST_ORDERED
from ampwright.engine.calculations.tools_together import MOST_EXACT
from ampwright.engine.site.use import Site

_PER_ROW_AND_ITEM = 15  # a row of one tool, its cord, circuit and receptacle, three estimates; measured


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
    """Cost of one load check: rows x items, once and for every assumption that may be tried."""
    once = _rows_and_items(site)
    return (once + min(MOST_TRIED * once, MOST_WORK + once)) * _PER_ROW_AND_ITEM


def included_cost_units(site: Site, words: Collection[str], shift_s: float | None) -> int:
    """Cost of the parts that a request asks for beside the check itself; `shift_s` [s]."""
    items = _items(site)
    cost = 0
    if "break_evens" in words:
        # each finding tries every tool and a dozen changes of every cord; findings share most of their tries
        tries = min(MOST_EVALUATIONS, 4 * (len(site.tools) + 8 * len(site.cords) + 4))
        places = min(MOST_PLACES, len(site.source.receptacles or ()) * len(site.cases or (1,)))
        each = _rows_and_items(site) * _PER_ROW_AND_ITEM // max(1, len(site.cases or (1,)))
        # ratings of motors and lengths of cords are searched by halves, with starts; outputs of welders without
        motors = min(MOST_MOTOR_PLACES, places) * 2 * 5
        lengths = min(MOST_CORDS, len(site.cords)) * 20
        cost += (tries + places * STEPS + motors + lengths) * each
    if "shift" in words or "largest_sets" in words:
        sets = 1 << min(len(site.tools), MOST_EXACT) if len(site.tools) <= MOST_EXACT else len(site.tools) ** 2
        cost += sets * items * _PER_ROW_AND_ITEM
    if "largest_sets" in words:
        ordered = [len(case.running) for case in site.cases or () if len(case.running) <= MOST_ORDERED]
        ordered = ordered if site.cases is not None else [min(len(site.tools), MOST_ORDERED)] * MOST_CASES
        cost += sum((1 << size) * (size * 500 + items * _PER_ROW_AND_ITEM) for size in ordered[:MOST_CASES])
    if "shift" in words:
        # a switching of one tool every half a minute, played on a few devices at three estimates
        steps = DRAWS * (USUAL_SHIFT_S if shift_s is None else shift_s) / 30.0 * len(site.tools)
        cost += int(min(steps, MOST_STEPS) * 0.7)
    return cost


def _items(site: Site) -> int:
    return len(site.tools) + len(site.cords) + len(site.source.receptacles or ()) + len(site.source.circuits or ()) + 1


def _rows_and_items(site: Site) -> int:
    tools = len(site.tools)
    if site.cases is not None:
        sizes = [len(case.running) for case in site.cases]
    else:
        combinations = comb(tools, min(site.people or 1, tools)) if tools < 40 else MOST_COMBINATIONS
        sizes = [1] * tools + [tools] * min(combinations, MOST_COMBINATIONS)
    rows = sum(1 + (size if size <= MOST_TOOLS_PUSHED else 0) for size in sizes)
    return rows * _items(site)


def cord_sizing_cost_units(question: CordQuestion) -> int:
    """Cost of one cord sizing: every single cord and size with its reach, runs of several, and what is tried anew."""
    alone = len(question.at_hand) + (len(question.sizes) or len(USUAL_AWG))
    several = MOST_RUNS if len(question.at_hand) > 1 and question.distance_m is not None else 0
    tried = MOST_TRIED_OF_CORDS // 4  # few fail, and each try is of those that fail
    return _PER_RUN * (alone * _EVALUATIONS_OF_A_REACH + (alone + several) * (1 + tried))
