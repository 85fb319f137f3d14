"""How dear is a request, before any work starts?

One pure function of counts. A cost unit is about a microsecond of one core on the machine this was measured on, so the
number says when to split a request, not how long it takes.
"""

from __future__ import annotations

from math import comb

from ampwright.engine.calculations.cases import MOST_COMBINATIONS, MOST_TOOLS_PUSHED
from ampwright.engine.calculations.load_check import MOST_TRIED
from ampwright.engine.site.use import Site

_PER_ROW_AND_ITEM = 12  # a row of one tool, its cord, circuit and receptacle, three estimates
_EVALUATIONS_OF_A_FAILING_CHECK = 6  # of MOST_TRIED assumptions few touch the network


class TooMuchWork(Exception):
    """The request costs more than is answered at once."""

    def __init__(self, cost_units: int, limit_units: int) -> None:
        super().__init__(f"{cost_units} cost units, {limit_units} are answered at once")
        self.cost_units = cost_units
        self.limit_units = limit_units


def load_check_cost_units(site: Site) -> int:
    """Cost of one load check: rows x items x evaluations."""
    tools = len(site.tools)
    if site.cases is not None:
        sizes = [len(case.running) for case in site.cases]
    else:
        combinations = comb(tools, min(site.people or 1, tools)) if tools < 40 else MOST_COMBINATIONS
        sizes = [1] * tools + [tools] * min(combinations, MOST_COMBINATIONS)
    rows = sum(1 + (size if size <= MOST_TOOLS_PUSHED else 0) for size in sizes)
    items = tools + len(site.cords) + len(site.source.receptacles or ()) + len(site.source.circuits or ()) + 1
    return rows * items * _PER_ROW_AND_ITEM * min(MOST_TRIED, _EVALUATIONS_OF_A_FAILING_CHECK)
