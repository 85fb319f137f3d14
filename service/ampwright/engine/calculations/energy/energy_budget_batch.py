"""What do many days come to, through the same kernel as one?

Days of one shape (the same tools, works, stops and unknowns) go through the compiled kernel in one call. What a day
comes to does not depend on what stands beside it: its random numbers go by the names of its figures, and its method is
the one that it would have alone.
Each row has a verdict from the same rules as a day alone; only that one default decides is not asked, so that `fail`
here may be `unknown` there.
Not here: the words of findings, questions and changes, which are asked of one day (energy_budget.py).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from ampwright.engine.calculations.energy.energy_figures import Rows, figures_of
from ampwright.engine.calculations.energy.energy_findings import judged_of, short_of
from ampwright.engine.calculations.energy.energy_plan import (
    PERCENTILES,
    Plan,
    evaluate,
    percentiles_of_many,
    uncertain_places,
)
from ampwright.engine.calculations.energy.energy_powered import Group, Powered, groups_of, powered
from ampwright.engine.calculations.energy.energy_result import DayFigures
from ampwright.engine.calculations.energy.energy_settle import SettledDay, settle_day
from ampwright.engine.calculations.energy.energy_source import derating
from ampwright.engine.calculations.energy.energy_told import verdicts_of, withdrawn_told
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.settle import AMBIENT_C
from ampwright.engine.site.use import Site

MOST_REMEMBERED = 256


@dataclass(slots=True)
class PoweredSites:
    """What each source can feed, worked out once for all days on the same site with the same tools at their stops."""

    _known: dict[tuple[Site, tuple[Group, ...], Band], Powered] = field(default_factory=dict)

    def of(self, site: Site, day: EnergyDay) -> Powered:
        """Which tools of a site can run, alone and together."""
        groups = groups_of(day)
        left = derating(site.source, day, site.ambient_c or AMBIENT_C)
        found = self._known.get((site, groups, left))
        if found is None:
            if len(self._known) >= MOST_REMEMBERED:
                self._known.clear()
            found = self._known[(site, groups, left)] = powered(site, groups, left)
        return found


def budget_many(
    scenarios: Sequence[tuple[Site, EnergyDay]],
    sites: PoweredSites | None = None,
    check: Callable[[], object] = lambda: None,
    withdrawn: Sequence[tuple[tuple[str, str, str], ...]] | None = None,
) -> tuple[DayFigures, ...]:
    """What each day comes to, in order.

    withdrawn : by scenario, as `budget_energy` takes them; None where nothing was.
    sites : what is known of sites from earlier calls; check : called between pieces of work, may raise to give up.
    """
    sites = sites or PoweredSites()
    settled: list[SettledDay] = []
    for site, day in scenarios:
        check()
        settled.append(settle_day(site, day, sites.of(site, day)))
    groups: dict[tuple[object, ...], list[int]] = {}
    for i, one in enumerate(settled):
        groups.setdefault(_shape(one.plan, scenarios[i][1]), []).append(i)
    found: dict[int, DayFigures] = {}
    for places in groups.values():
        check()
        day = scenarios[places[0]][1]
        plans = [settled[i].plan for i in places]
        values, reached = percentiles_of_many(plans, day.seed, day.draws, PERCENTILES)
        for n, i in enumerate(places):
            gone = withdrawn[i] if withdrawn is not None else ()
            found[i] = _judged(*scenarios[i], settled[i], Rows(values[n], float(reached[n])), gone)
    return tuple(found[i] for i in range(len(scenarios)))


def _judged(
    site: Site, day: EnergyDay, settled: SettledDay, rows: Rows, withdrawn: tuple[tuple[str, str, str], ...]
) -> DayFigures:
    """The figures of one day with its verdict and what stands behind it."""
    figures = figures_of(site, day, settled, rows)
    energy = figures.left.enough if figures.left is not None else "pass"
    told = judged_of(site, day, settled, rows, lambda: evaluate(settled.plan, day.seed, day.draws), None)
    told += withdrawn_told(withdrawn)
    wanting = [(item.verdict, item.code) for item in told if item.verdict != "pass"]
    if energy != "pass":
        wanting.append((energy, short_of(site)))
    wanting.sort(key=lambda item: (-ORDER.index(item[0]), item[1]))
    because = tuple(dict.fromkeys(code for _, code in wanting))
    return replace(figures, verdict=verdicts_of(told, energy, settled.able.left_out), because=because)


def _shape(plan: Plan, day: EnergyDay) -> tuple[object, ...]:
    """What two plans must share to go through the kernel in one call with the same random numbers as alone."""
    uncertain = uncertain_places(plan)
    # where at most one figure is uncertain, its percentiles are taken evenly: only its like may stand beside it
    method = tuple(uncertain) if len(uncertain) < 2 else None
    return (
        day.seed,
        day.draws,
        method,
        tuple((item.key, item.kind) for item in plan.figures),
        tuple((item.power, item.time) for item in plan.loads),
        tuple((item.is_work, item.distance) for item in plan.stretches),
    )
