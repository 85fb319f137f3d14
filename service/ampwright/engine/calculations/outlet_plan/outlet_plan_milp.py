"""Which choice of slots is worth most, and among those costs least?

A mixed integer linear programme, solved by branch and bound (HiGHS, through scipy). First the worth of what is on is
made as large as it can be, then, with that worth held, the cost as small as it can be. A bound on a sum of phasors is
approached from outside by planes that touch it: a solution that still passes the bound gives the next plane, so the
answer is exact and every excluded choice was really too much. The largest sum over any `hands` of the hand tools is the
dual of a small programme: hands x theta + the excess of each tool over theta.

Limits are counts of nodes, never seconds: the same question has the same answer on a slow machine.
Source: outer approximation, Duran and Grossmann 1986; the dual of a sum of largest, Ogryczak and Tamir 2003 (both from
memory).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.outlet_plan.outlet_plan_model import (
    Bound,
    Choice,
    Directions,
    PlanModel,
    RunningTogether,
    counts_hold,
    first_passed,
    tangent,
    worth,
)

if TYPE_CHECKING:
    # where they are used, too: the optimiser takes a fifth of a second and 20 MB, and only a plan needs it
    from scipy.optimize import LinearConstraint

NODE_LIMIT = 2000  # of one solve
LARGE = 600  # columns from which cost is settled within a gap, and how even circuits are is left out of it
LARGE_GAP = 0.1
MOST_PLANES = 60  # rounds of planes for one choice
OPTIMAL, LIMIT_REACHED = 0, 1
# (tool, slot) pairs of which never one of every tool is chosen
Cut = frozenset[tuple[int, int]]
Plane = tuple[int, int, Directions]  # bound, running, direction


@dataclass(slots=True)
class Master:
    """A model with all that was learnt about it: planes that touch its bounds, and sets that do not go together."""

    model: PlanModel
    wanted: Callable[[], None] = lambda: None
    node_limit: int = NODE_LIMIT
    planes: dict[Plane, None] = field(default_factory=dict)
    cuts: dict[Cut, None] = field(default_factory=dict)
    solves: int = 0
    nodes: int = 0

    def __post_init__(self) -> None:
        for b, bound in enumerate(self.model.bounds):
            for r in range(len(self.model.running)):
                self.planes[b, r, _usual_direction(bound)] = None


@dataclass(frozen=True, slots=True)
class Solved:
    """choice : None where there is none. gap_ratio : how much better the best could be; proven : nothing is."""

    choice: Choice | None
    gap_ratio: float
    proven: bool


def solve(
    master: Master,
    must: frozenset[int] = frozenset(),
    only: frozenset[int] | None = None,
    *,
    cheapest: bool = True,
) -> Solved:
    """The best choice under all that is known.

    must : tools that have to be on. only : tools that may be on. cheapest : of the choices of that worth the one that
    costs least, else any. Errors: whatever `master.wanted` raises.
    """
    model = master.model
    gap = 0.0
    proven = True
    for _ in range(MOST_PLANES):
        first = _stage(master, must, only, None)
        if first.choice is None:
            return first
        second = _stage(master, must, only, worth(model, first.choice)) if cheapest else first
        choice = second.choice if second.choice is not None else first.choice
        gap, proven = max(first.gap_ratio, second.gap_ratio), first.proven and second.proven
        over = first_passed(model, choice)
        if not over:
            return Solved(choice, gap, proven)
        fresh = [(b, r, tangent(model.bounds[b], choice, who)) for b, r, who in over]
        before = len(master.planes)
        master.planes.update(dict.fromkeys(fresh))
        if len(master.planes) == before:
            # a plane that is there already and is passed by a rounding of the solver: forbid the tools themselves
            master.cuts[frozenset((t, s) for t in over[0][2] if (s := choice[t]) is not None)] = None
    return Solved(None, gap, False)


def _usual_direction(bound: Bound) -> Directions:
    """Where the sum of everything points."""
    count = len(next(iter(bound.parts.values()), (0j,)))
    sums = [sum(parts[n] for parts in bound.parts.values()) for n in range(count)]
    if bound.real_only:
        return tuple(1.0 + 0j for _ in sums)
    return tuple(value / abs(value) if abs(value) > 0.0 else 1.0 + 0j for value in sums)


@dataclass(slots=True)
class _Rows:
    """Constraints as they are gathered: low <= a x <= high."""

    columns: list[int] = field(default_factory=list)
    rows: list[int] = field(default_factory=list)
    values: list[float] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def add(self, terms: Mapping[int, float], low: float, high: float) -> None:
        for column, value in terms.items():
            if value != 0.0:
                self.columns.append(column)
                self.rows.append(len(self.low))
                self.values.append(value)
        self.low.append(low)
        self.high.append(high)

    def matrix(self, width: int) -> LinearConstraint:
        from scipy.optimize import LinearConstraint
        from scipy.sparse import csr_array

        a = csr_array((self.values, (self.rows, self.columns)), shape=(len(self.low), width))
        return LinearConstraint(a, np.array(self.low), np.array(self.high))


def _stage(master: Master, must: frozenset[int], only: frozenset[int] | None, held: int | None) -> Solved:
    """One solve: for worth, or with the worth held for least cost."""
    master.wanted()
    model = master.model
    there = range(len(model.weights)) if only is None else sorted(only)
    pairs = [(t, s) for t in there for s in sorted(model.allowed[t])]
    column = {pair: n for n, pair in enumerate(pairs)}
    names = list[object](pairs)
    rows = _Rows()
    objective: dict[int, float] = {}

    def more(name: object) -> int:
        names.append(name)
        return len(names) - 1

    by_tool: list[list[int]] = [[] for _ in model.weights]
    for (t, _), n in column.items():
        by_tool[t].append(n)
    for t, columns in enumerate(by_tool):
        rows.add(dict.fromkeys(columns, 1.0), 1.0 if t in must else 0.0, 1.0)
    for group in model.together:
        for other in group[1:]:
            terms = dict.fromkeys(by_tool[group[0]], 1.0)
            for n in by_tool[other]:
                terms[n] = terms.get(n, 0.0) - 1.0
            rows.add(terms, 0.0, 0.0)
    for alike in model.same:
        for first, second in pairwise(t for t in alike if by_tool[t]):
            # of equal tools the first is on first, and in the lower slot: their exchange is no other plan
            rows.add({**dict.fromkeys(by_tool[second], 1.0), **dict.fromkeys(by_tool[first], -1.0)}, -np.inf, 0.0)
            top = len(model.uses)
            order = {column[t, s]: float(s) for t, s in pairs if t == first}
            order |= {column[t, s]: float(top - s) for t, s in pairs if t == second}
            rows.add(order, -np.inf, float(top))
    mounts = _mounts(model, pairs, more)
    _counts(model, column, mounts, rows, more)
    _lights(model, column, rows, more)
    integers = len(names)
    for cut in master.cuts:
        rows.add({column[pair]: 1.0 for pair in cut if pair in column}, -np.inf, len({t for t, _ in cut}) - 1.0)
    for b, r, directions in master.planes:
        _plane(model.bounds[b], model.running[r], directions, column, rows, more)
    if held is None:
        for (t, _), n in column.items():
            objective[n] = -float(model.weights[t])
    else:
        rows.add({n: float(model.weights[t]) for (t, _), n in column.items()}, held - 0.5, np.inf)
        for (t, s), n in column.items():
            objective[n] = float(model.allowed[t][s])
        if len(pairs) < LARGE:
            _spread(model, column, rows, objective, more)
        for m, ways in mounts.items():
            for n in ways.values():
                objective[n] = float(model.shared_costs[m])
    return _run(master, names, pairs, integers, rows, objective, relative=held is None)


def _run(
    master: Master,
    names: list[object],
    pairs: list[tuple[int, int]],
    integers: int,
    rows: _Rows,
    objective: Mapping[int, float],
    *,
    relative: bool,
) -> Solved:
    from scipy.optimize import Bounds, milp

    width = len(names)
    if not pairs:
        # nothing can be put anywhere, and nothing has to be unless a tool must
        empty = all(low <= 0.0 <= high for low, high in zip(rows.low, rows.high, strict=True))
        return Solved((None,) * len(master.model.weights) if empty else None, 0.0, True)
    goal = np.zeros(width)
    for n, value in objective.items():
        goal[n] = value
    large = len(pairs) >= LARGE
    kinds = np.zeros(width)
    kinds[:integers] = 1
    top = np.full(width, np.inf)
    top[:integers] = 1.0
    found = milp(
        goal,
        integrality=kinds,
        bounds=Bounds(np.zeros(width), top),
        constraints=rows.matrix(width),
        options={
            "node_limit": master.node_limit,
            "mip_rel_gap": 0.0 if relative else LARGE_GAP if large else 1e-6,
            "presolve": True,
        },
    )
    master.solves += 1
    master.nodes += int(found.mip_node_count or 0)
    if found.x is None:
        return Solved(None, 0.0 if found.status == 2 else 1.0, found.status == 2)
    choice = _choice(found.x, pairs, len(master.model.weights))
    if not counts_hold(master.model, choice):
        raise ArithmeticError("the solver's answer breaks a count of the model")
    gap = float(found.mip_gap) if found.mip_gap is not None and np.isfinite(found.mip_gap) else 0.0
    shown = round(gap, 4) if found.status == LIMIT_REACHED or large else 0.0
    return Solved(choice, shown, found.status == OPTIMAL and shown == 0.0)


def _choice(x: npt.NDArray[np.float64], pairs: list[tuple[int, int]], tools: int) -> Choice:
    found: list[int | None] = [None] * tools
    for n, (t, s) in enumerate(pairs):
        if x[n] > 0.5:
            found[t] = s
    return tuple(found)


def _mounts(model: PlanModel, pairs: list[tuple[int, int]], more: Callable[[object], int]) -> dict[int, dict[int, int]]:
    """Per shared cord and slot, the column that says it hangs there."""
    found: dict[int, dict[int, int]] = {}
    for s in sorted({s for _, s in pairs}):
        m = model.uses[s].shared
        if m is not None:
            found.setdefault(m, {})[s] = more(("mount", m, s))
    return found


def _counts(
    model: PlanModel,
    column: Mapping[tuple[int, int], int],
    mounts: Mapping[int, Mapping[int, int]],
    rows: _Rows,
    more: Callable[[object], int],
) -> None:
    plugs: list[dict[int, float]] = [{} for _ in model.plugs]
    singles: list[dict[int, float]] = [{} for _ in model.singles]
    users = [(n, model.uses[s]) for (_, s), n in column.items() if model.uses[s].shared is None]
    users += [(n, model.uses[s]) for ways in mounts.values() for s, n in ways.items()]
    for n, use in users:
        plugs[use.place][n] = 1.0
        for k in use.singles:
            singles[k][n] = singles[k].get(n, 0.0) + 1.0
    for place, terms in enumerate(plugs):
        rows.add(terms, -np.inf, float(model.plugs[place]))
    for k, terms in enumerate(singles):
        rows.add(terms, -np.inf, float(model.singles[k]))
    for m, ways in mounts.items():
        rows.add(dict.fromkeys(ways.values(), 1.0), -np.inf, 1.0)
        where: dict[str, int] = {}
        for s, mount in ways.items():
            on = {n: 1.0 for (_, other), n in column.items() if other == s}
            rows.add({**on, mount: -float(model.shared[m].outlets)}, -np.inf, 0.0)
            for n in on:
                rows.add({n: 1.0, mount: -1.0}, -np.inf, 0.0)
        for (t, s), n in column.items():
            place_of_work = model.positions[t]
            if s in ways and place_of_work is not None:
                if place_of_work not in where:
                    where[place_of_work] = more(("led to", m, place_of_work))
                rows.add({n: 1.0, where[place_of_work]: -1.0}, -np.inf, 0.0)
        if len(where) > 1:
            rows.add(dict.fromkeys(where.values(), 1.0), -np.inf, 1.0)


def _lights(
    model: PlanModel, column: Mapping[tuple[int, int], int], rows: _Rows, more: Callable[[object], int]
) -> None:
    if not model.lights or not model.others:
        return
    switch: dict[int, int] = {}
    for (t, s), n in column.items():
        if t not in model.lights and t not in model.others:
            continue
        circuit = model.circuit_of[model.uses[s].place]
        if circuit not in switch:
            switch[circuit] = more(("lights", circuit))
        if t in model.lights:
            rows.add({n: 1.0, switch[circuit]: -1.0}, -np.inf, 0.0)
        else:
            rows.add({n: 1.0, switch[circuit]: 1.0}, -np.inf, 1.0)


def _plane(
    bound: Bound,
    running: RunningTogether,
    directions: Directions,
    column: Mapping[tuple[int, int], int],
    rows: _Rows,
    more: Callable[[object], int],
) -> None:
    terms: dict[int, float] = {}
    hand: dict[int, dict[int, float]] = {}
    for pair, parts in bound.parts.items():
        n = column.get(pair)
        if n is None:
            continue
        value = sum((part * way.conjugate()).real for part, way in zip(parts, directions, strict=True))
        if pair[0] in running.always:
            terms[n] = value
        elif pair[0] in running.by_hand:
            hand.setdefault(pair[0], {})[n] = value
    if hand and running.hands >= len(hand):
        for values in hand.values():
            terms.update({n: max(value, 0.0) for n, value in values.items()})
    elif hand and running.hands > 0:
        theta = more("theta")
        terms[theta] = float(running.hands)
        for values in hand.values():
            excess = more("excess")
            terms[excess] = 1.0
            rows.add({**values, theta: -1.0, excess: -1.0}, -np.inf, 0.0)
    if terms:
        rows.add(terms, -np.inf, bound.limit)


def _spread(
    model: PlanModel,
    column: Mapping[tuple[int, int], int],
    rows: _Rows,
    objective: dict[int, float],
    more: Callable[[object], int],
) -> None:
    typical: dict[int, dict[int, float]] = {}
    high: dict[int, dict[int, float]] = {}
    for pair, (circuit, usual, most) in model.loads.items():
        n = column.get(pair)
        if n is not None:
            typical.setdefault(circuit, {})[n] = usual
            high.setdefault(circuit, {})[n] = most
    peak, over = more("peak"), more("over")
    objective[peak], objective[over] = model.spread_cost, model.over_cost
    for terms in typical.values():
        rows.add({**terms, peak: -1.0}, -np.inf, 0.0)
    for terms in high.values():
        rows.add({**terms, over: -1.0}, -np.inf, 1.0)
