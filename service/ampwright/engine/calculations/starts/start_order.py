"""In which order do the tools of a case start best, and does it need an order at all?

Every tool is started beside every set of the others (exact to 8 tools that run), and the order is the one whose worst
start is best: by verdict, then by peak current at the hard estimate. People do not keep to an order for long, and an
automatic compressor breaks it: a case that only an order saves is marginal, never pass.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.starts.start_outcomes import STARTED
from ampwright.engine.calculations.starts.starts import ToolStart
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.band import HIGH, TYPICAL
from ampwright.engine.site.use import Case, Site

MOST_ORDERED = 8
MOST_CASES = 4

Badness = tuple[int, float]  # place in ORDER, peak [A]


@dataclass(frozen=True, slots=True)
class StartOrder:
    """The best order of one case. `any_order` : verdict of its starts whatever the order; `in_order` : in this one.

    `verdict` is marginal at best where only an order helps. largest_peak_a : [A] highest of the starts in this order.
    """

    case: str
    order: tuple[str, ...]
    any_order: str
    in_order: str
    verdict: str
    largest_peak_a: float


def start_orders(site: Site, base: Evaluation) -> tuple[StartOrder, ...]:
    """For cases of two to eight tools, the first four of them."""
    asked = [running for running in base.sets if 2 <= len(running.running) <= MOST_ORDERED][:MOST_CASES]
    return tuple(found for running in asked if (found := _best(site, running.id, running.running)) is not None)


def _best(site: Site, case: str, tools: tuple[str, ...]) -> StartOrder | None:
    badness: dict[tuple[frozenset[str], str], Badness] = {}
    for size in range(1, len(tools) + 1):
        # one evaluation for every size, so that no answer leaves starts out for their number
        chosen = list(itertools.combinations(tools, size))
        asked = replace(site, cases=tuple(Case(f"s-{n}", some, "/cases") for n, some in enumerate(chosen)))
        after = evaluate(asked, frozenset())
        if after.starts.too_many:
            return None
        names = [placement.tool.id for placement in after.settled.placements]
        for one in after.starts.tools:
            badness[frozenset(chosen[one.case]), names[one.tool]] = _badness(one)
    order, worst_start = best_order(tools, badness)
    alone: Badness = max(badness.values(), default=(0, 0.0))
    any_order, in_order = ORDER[alone[0]], ORDER[worst_start[0]]
    verdict = any_order
    if worst_start[0] < alone[0]:
        verdict = ORDER[max(worst_start[0], ORDER.index("marginal"))]
    # the worst start need not be the largest: one that goes dark at once draws nothing
    steps = [(frozenset(order[: n + 1]), tool) for n, tool in enumerate(order)]
    peak_a = max((badness[step][1] for step in steps if step in badness), default=0.0)
    return StartOrder(case, order, any_order, in_order, verdict, round(peak_a, 1))


def _badness(one: ToolStart) -> Badness:
    if one.outcomes[TYPICAL] not in STARTED:
        verdict = "fail"
    else:
        verdict = "pass" if one.outcomes[HIGH] in STARTED else "marginal"
    return ORDER.index(verdict), one.estimates[HIGH].peak_a


def best_order(
    tools: tuple[str, ...], badness: dict[tuple[frozenset[str], str], Badness]
) -> tuple[tuple[str, ...], Badness]:
    """The order whose worst start is best, by sets: exact for every number of tools, 2^n of them.

    badness : of starting a tool, by (set with it, tool); a start that is not there costs nothing. Among equals the
    earlier tools go first.
    """
    best: dict[frozenset[str], tuple[Badness, tuple[str, ...]]] = {frozenset(): ((0, 0.0), ())}
    for size in range(1, len(tools) + 1):
        for some in itertools.combinations(tools, size):
            here = frozenset(some)
            best[here] = min(
                (
                    max(best[here - {last}][0], badness.get((here, last), (0, 0.0))),
                    (*best[here - {last}][1], last),
                )
                for last in some
            )
    worst, order = best[frozenset(tools)]
    return order, worst
