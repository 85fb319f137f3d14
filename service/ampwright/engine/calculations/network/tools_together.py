"""What do all the sets of tools that may be on at once draw, and which of them hold?

Who may be on: as many hand tools as there are people; what follows a tool runs with it; everything else as it likes.
Up to 12 tools that run of themselves every allowed set is solved in the network, so nothing is added up that does not
add up; `MOST_EXACT` is where the number of sets (4,096) ends being small.

Not here: how often each set is on (shift_use.py), which sets are largest (largest_sets.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.network.cases import operated
from ampwright.engine.calculations.network.load_network import Row, RowFigures, solve_rows
from ampwright.engine.calculations.rules.capacity_rules import SHORT_PUSH_S
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.site.band import HIGH
from ampwright.engine.site.settled import SettledSite

MOST_EXACT = 12
ROWS_AT_ONCE = 512

Real = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Group:
    """A tool that is switched by somebody or by itself, and what follows it: indices of placements, leader first."""

    placements: tuple[int, ...]
    takes_hands: bool


@dataclass(frozen=True, slots=True)
class SetFigures:
    """What sets draw, axes (set, estimate, item): currents [A] of circuits, amounts of limits in the limit's own unit.

    holds : (set, estimate) whether every figure is within its limit at that estimate and all voltages are.
    collapsed : (set, estimate).
    """

    circuit_a: Real
    limit_amount: Real
    holds: npt.NDArray[np.bool_]
    collapsed: npt.NDArray[np.bool_]


def groups_of(settled: SettledSite) -> tuple[Group, ...]:
    """Tools with what follows them; a follower of a tool that is not plugged in stands alone."""
    index = {placement.tool.id: i for i, placement in enumerate(settled.placements)}
    leads: dict[int, list[int]] = {}
    for i in range(len(settled.placements)):
        leader = _leader(i, settled, index)
        followers = leads.setdefault(leader, [])
        if leader != i:
            followers.append(i)
    return tuple(
        Group((i, *followers), operated(settled.placements[i]) == "by_hand") for i, followers in sorted(leads.items())
    )


def _leader(i: int, settled: SettledSite, index: dict[str, int]) -> int:
    seen = {i}
    here = i
    while True:
        follows = settled.placements[here].tool.follows
        if follows is None or follows not in index or index[follows] in seen:
            return here
        here = index[follows]
        seen.add(here)


def members(mask: int, groups: tuple[Group, ...]) -> tuple[int, ...]:
    """Placements that run where the groups of a bit mask are on."""
    return tuple(sorted(i for bit, group in enumerate(groups) if mask >> bit & 1 for i in group.placements))


def solve_sets(settled: SettledSite, sets: list[tuple[int, ...]]) -> SetFigures:
    """Figures of sets of placements, all at work and nobody pushed."""
    parts = [_solved(settled, sets[at : at + ROWS_AT_ONCE]) for at in range(0, len(sets), ROWS_AT_ONCE)]
    return SetFigures(
        np.concatenate([part.circuit_a for part in parts]),
        np.concatenate([part.limit_amount for part in parts]),
        np.concatenate([part.holds for part in parts]),
        np.concatenate([part.collapsed for part in parts]),
    )


def _solved(settled: SettledSite, sets: list[tuple[int, ...]]) -> SetFigures:
    rows = [Row(n, running, None, n) for n, running in enumerate(sets)]
    # a minute and more in heavy is steady use, and has to hold as well
    rows += [
        Row(n, running, i, n)
        for n, running in enumerate(sets)
        for i in running
        if settled.placements[i].state("heavy").lasts_s >= SHORT_PUSH_S
    ]
    figures = solve_rows(settled, rows)
    collapsed = np.isin(figures.outcome, (COLLAPSED, NOT_CONVERGED))
    amount = _limit_amounts(settled, figures)
    each = _holds(settled, rows, figures, amount) & ~collapsed
    holds = each[: len(sets)].copy()
    for row, ok in zip(rows[len(sets) :], each[len(sets) :], strict=True):
        holds[row.case] &= ok
    count = len(sets)
    return SetFigures(figures.circuit_a[:count], amount[:count], holds, collapsed[:count])


def _limit_amounts(settled: SettledSite, figures: RowFigures) -> Real:
    by_unit = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}
    columns = [
        by_unit[{"kVA": "VA", "kW": "W"}.get(limit.unit, limit.unit)][:, :, i]
        for i, limit in enumerate(settled.source.limits)
    ]
    shape = figures.outcome.shape
    return np.stack(columns, axis=2) if columns else np.zeros((*shape, 0))


def _holds(settled: SettledSite, rows: list[Row], figures: RowFigures, amount: Real) -> npt.NDArray[np.bool_]:
    """The load check's own limits, on every set at once."""
    source = settled.source

    def within(values: Real, limits: list[float]) -> npt.NDArray[np.bool_]:
        ok: npt.NDArray[np.bool_] = np.all(values <= np.array(limits)[None, None, :], axis=2)
        return ok

    lowest = np.array([item.lowest_voltage_v for item in settled.placements])
    runs = np.zeros((len(rows), len(settled.placements)), np.bool_)
    for r, row in enumerate(rows):
        runs[r, list(row.running)] = True
    unfit = np.array([placement.option is None or bool(placement.misfits) for placement in settled.placements])
    resistive = np.array([placement.load_class.start == "resistive" for placement in settled.placements])
    fine = (figures.tool_v >= lowest[None, None, :]) | ~runs[:, None, :] | resistive[None, None, :]
    every = np.stack(
        [
            within(figures.circuit_a, [item.rating_a for item in source.circuits]),
            within(figures.circuit_neutral_a, [item.rating_a for item in source.circuits]),
            within(figures.receptacle_a, [item.rating_a for item in source.receptacles]),
            within(figures.cord_a, [item.capacity_a for item in settled.cords]),
            within(figures.cord_c, [item.insulation_c for item in settled.cords]),
            within(amount, [item.continuous for item in source.limits]),
            fine.all(axis=2),
            np.broadcast_to(~(runs & unfit[None, :]).any(axis=1)[:, None], figures.outcome.shape),
        ]
    )
    found: npt.NDArray[np.bool_] = np.array(every.all(axis=0))
    # the lowest voltage may belong to any estimate, and the high estimate stands for the worst of all
    found[:, HIGH] = np.array(found.all(axis=1))
    return found
