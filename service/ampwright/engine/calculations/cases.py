"""Which sets of tools are checked together?

As asked; else each tool alone, then all that the people there can run: one person runs one hand tool, tools that run
by themselves all run.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from ampwright.engine.calculations.load_network import Row
from ampwright.engine.site.settled import Placement, SettledSite
from ampwright.engine.site.use import Site

MOST_COMBINATIONS = 12
MOST_TOOLS_PUSHED = 60  # beyond this, only steady figures


@dataclass(frozen=True, slots=True)
class RunningSet:
    """A case: ids as asked, and the indices of the placements that run."""

    id: str
    running: tuple[str, ...]
    placements: tuple[int, ...]
    pointer: str
    start_order: tuple[str, ...] | None
    hands_needed: int


def running_sets(site: Site, settled: SettledSite) -> tuple[RunningSet, ...]:
    """The cases of a check, in the order they are reported."""
    index = {placement.tool.id: i for i, placement in enumerate(settled.placements)}

    def make(case_id: str, running: tuple[str, ...], pointer: str, order: tuple[str, ...] | None) -> RunningSet:
        chosen = tuple(sorted(index[name] for name in running if name in index))
        hands = sum(operated(settled.placements[i]) == "by_hand" for i in chosen)
        return RunningSet(case_id, running, chosen, pointer, order, hands)

    if site.cases is not None:
        return tuple(make(case.id, case.running, case.pointer, case.start_order) for case in site.cases)
    names = [placement.tool.id for placement in settled.placements]
    found = [make(f"alone-{name}", (name,), "/cases", None) for name in names]
    for number, running in enumerate(_together(settled), start=1):
        if len(running) > 1:
            found.append(make(f"together-{number}", running, "/cases", None))
    return tuple(found)


def operated(placement: Placement) -> str:
    """by_hand, attended or by_itself: as said, else as the load class is used."""
    return placement.tool.operated or placement.load_class.operated


def _together(settled: SettledSite) -> list[tuple[str, ...]]:
    """Everything that runs by itself, with as many hand tools as there are people; the heaviest combinations first."""
    names = [placement.tool.id for placement in settled.placements]
    by_hand = [placement for placement in settled.placements if operated(placement) == "by_hand"]
    if len(by_hand) <= settled.people:
        return [tuple(names)]
    heavy = sorted(by_hand, key=lambda item: (-abs(item.state("working").power_va[2]), item.tool.id))
    found: list[tuple[str, ...]] = []
    for chosen in itertools.islice(itertools.combinations(heavy, settled.people), MOST_COMBINATIONS):
        held = {item.tool.id for item in by_hand} - {item.tool.id for item in chosen}
        found.append(tuple(name for name in names if name not in held))
    return found


def rows_of(sets: tuple[RunningSet, ...], settled: SettledSite) -> tuple[Row, ...]:
    """For each case the row where all work, then one row for each tool that can be pushed beyond its working draw."""
    rows: list[Row] = []
    for case, running in enumerate(sets):
        base = len(rows)
        rows.append(Row(case, running.placements, None, base))
        if len(running.placements) > MOST_TOOLS_PUSHED:
            continue
        for i in running.placements:
            placement = settled.placements[i]
            working, heavy = placement.state("working").power_va, placement.state("heavy").power_va
            if any(abs(heavy[k]) > abs(working[k]) * 1.001 for k in range(3)):
                rows.append(Row(case, running.placements, i, base))
    return tuple(rows)
