"""Which sets of tools are checked together?

As asked; else each tool alone, then all that the people there can run: one person runs one hand tool, tools that run
by themselves all run.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from math import comb

from ampwright.engine.calculations.network.load_network import Row
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


def running_sets(site: Site, settled: SettledSite) -> tuple[tuple[RunningSet, ...], bool]:
    """The cases of a check, in the order they are reported, and whether these are all that the people there can run."""
    index = {placement.tool.id: i for i, placement in enumerate(settled.placements)}

    def make(case_id: str, running: tuple[str, ...], pointer: str, order: tuple[str, ...] | None) -> RunningSet:
        chosen = tuple(sorted(index[name] for name in running if name in index))
        hands = sum(operated(settled.placements[i]) == "by_hand" for i in chosen)
        return RunningSet(case_id, running, chosen, pointer, order, hands)

    if site.cases is not None:
        return tuple(make(case.id, case.running, case.pointer, case.start_order) for case in site.cases), True
    names = [placement.tool.id for placement in settled.placements]
    found = [make(f"alone-{name}", (name,), "/cases", None) for name in names]
    together, all_of_them = _together(settled)
    for number, running in enumerate(together, start=1):
        if len(running) > 1:
            found.append(make(f"together-{number}", running, "/cases", None))
    return tuple(found), all_of_them


def operated(placement: Placement) -> str:
    """by_hand, attended or by_itself: as said, else as the load class is used."""
    return placement.tool.operated or placement.load_class.operated


def _together(settled: SettledSite) -> tuple[list[tuple[str, ...]], bool]:
    """Everything that runs by itself, with as many hand tools as there are people.

    Where there are too many combinations, those that load one circuit or one cord most come first, because that is
    where a limit is met; then the heaviest over all.
    """
    hand_tools = [i for i, placement in enumerate(settled.placements) if operated(placement) == "by_hand"]
    people = min(settled.people, len(hand_tools))
    if len(hand_tools) <= settled.people:
        return [tuple(placement.tool.id for placement in settled.placements)], True
    weight = {i: abs(settled.placements[i].state("heavy").power_va[2]) for i in hand_tools}
    heaviest = sorted(hand_tools, key=lambda i: (-weight[i], i))
    chosen: dict[frozenset[int], None] = {}
    for behind in _shared_parts(settled, hand_tools):
        first = [i for i in heaviest if i in behind]
        others = [i for i in heaviest if i not in behind]
        chosen[frozenset((*first, *others)[:people] if len(first) < people else first[:people])] = None
    count = comb(len(hand_tools), people)
    for some in itertools.islice(itertools.combinations(heaviest, people), 4 * MOST_COMBINATIONS):
        if len(chosen) >= MOST_COMBINATIONS:
            break
        chosen[frozenset(some)] = None
    found = []
    for together in chosen:
        held = set(hand_tools) - together
        found.append(tuple(one.tool.id for i, one in enumerate(settled.placements) if i not in held))
    return found, len(found) >= count


def _shared_parts(settled: SettledSite, hand_tools: list[int]) -> list[set[int]]:
    """The hand tools behind each circuit and each cord that several of them share, the whole site last."""
    behind: dict[tuple[str, int], set[int]] = {}
    for i in hand_tools:
        placement = settled.placements[i]
        circuit = settled.source.receptacles[placement.receptacle].circuit
        behind.setdefault(("circuit", circuit), set()).add(i)
        for cord in placement.cords:
            behind.setdefault(("cord", cord), set()).add(i)
    return [tools for _, tools in sorted(behind.items()) if len(tools) > 1] + [set(hand_tools)]


def rows_of(sets: tuple[RunningSet, ...], settled: SettledSite, cases: frozenset[int] | None = None) -> tuple[Row, ...]:
    """For each case the row where all work, then one row for each tool that can be pushed beyond its working draw.

    cases : those that are asked for, all where None.
    """
    rows: list[Row] = []
    for case, running in enumerate(sets):
        if cases is not None and case not in cases:
            continue
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
