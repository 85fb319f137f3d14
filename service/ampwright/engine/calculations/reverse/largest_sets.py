"""Which largest sets of tools run together here?

A set counts where all of it works and every figure is within its limit at the typical estimate; its verdicts are then
those of a load check of it: starts, each tool in turn pushed, what follows a trip, and what is not known taken both
ways. Largest means that nothing can be added. Exact to 12 tools that
run of themselves (every set is looked at); above, each tool in turn is joined by the smallest loads that still hold,
which may miss a set, and the answer says so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check import MOST_WORK, Withdrawn, judge
from ampwright.engine.calculations.network.tools_together import MOST_EXACT, Group, groups_of, members, solve_sets
from ampwright.engine.calculations.verdicts import ORDER
from ampwright.engine.site.band import TYPICAL
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Case, Site

MOST_SETS = 12
MOST_WORK_OF_SETS = MOST_WORK // 4  # on what is not known; past it a set that would be `unknown` says `fail`


@dataclass(frozen=True, slots=True)
class LargestSet:
    """Tools that run together, and the verdicts of all of them; `method` is exact or heuristic.

    verdict : of capacity. safety : of what may hurt people while this set runs, the site as a whole included.
    """

    tools: tuple[str, ...]
    verdict: str
    safety: str
    method: str


def largest_sets(site: Site, settled: SettledSite, withdrawn: Withdrawn = ()) -> tuple[LargestSet, ...]:
    """Sets that nothing can be added to, those of most tools first. withdrawn : as of the load check."""
    groups = groups_of(settled)
    exact = len(groups) <= MOST_EXACT
    found = maximal(_holding(settled, groups) if exact else _grown(settled, groups))
    named = sorted(
        (tuple(settled.placements[i].tool.id for i in members(mask, groups)) for mask in found if mask),
        key=lambda tools: (-len(tools), tools),
    )[:MOST_SETS]
    if not named:
        return ()
    asked = replace(site, cases=tuple(Case(f"set-{n}", tools, "/cases") for n, tools in enumerate(named)))
    verdicts = judge(asked, withdrawn, MOST_WORK_OF_SETS).verdicts
    told = [
        LargestSet(tools, verdicts[n, "capacity"], verdicts[n, "safety"], "exact" if exact else "heuristic")
        for n, tools in enumerate(named)
    ]
    return tuple(sorted(told, key=lambda item: (-len(item.tools), ORDER.index(item.verdict), item.tools)))


def maximal(masks: list[int]) -> list[int]:
    """The sets that are part of no other, ascending."""
    found: list[int] = []
    for mask in sorted(set(masks), key=lambda one: (-one.bit_count(), one)):
        if not any(mask & larger == mask for larger in found):
            found.append(mask)
    return sorted(found)


def _allowed(mask: int, groups: tuple[Group, ...], people: int) -> bool:
    return sum(group.takes_hands for bit, group in enumerate(groups) if mask >> bit & 1) <= people


def _holding(settled: SettledSite, groups: tuple[Group, ...]) -> list[int]:
    masks = [mask for mask in range(1, 1 << len(groups)) if _allowed(mask, groups, settled.people)]
    if not masks:
        return []
    figures = solve_sets(settled, [members(mask, groups) for mask in masks])
    return [mask for mask, ok in zip(masks, figures.holds[:, TYPICAL].tolist(), strict=True) if ok]


def _grown(settled: SettledSite, groups: tuple[Group, ...]) -> list[int]:
    size = [sum(abs(settled.placements[i].state("working").power_va[TYPICAL]) for i in g.placements) for g in groups]
    order = sorted(range(len(groups)), key=lambda bit: (size[bit], bit))
    grown = [1 << bit for bit in range(len(groups))]
    alive = [True] * len(grown)
    for turn in range(-1, len(order)):
        tried = [mask if turn < 0 else mask | 1 << order[turn] for mask in grown]
        wanted = [n for n, mask in enumerate(tried) if alive[n] and _allowed(mask, groups, settled.people)]
        if not wanted:
            continue
        holds = solve_sets(settled, [members(tried[n], groups) for n in wanted]).holds[:, TYPICAL].tolist()
        for n, ok in zip(wanted, holds, strict=True):
            if ok:
                grown[n] = tried[n]
            elif turn < 0:
                alive[n] = False
    return [mask for n, mask in enumerate(grown) if alive[n]]
