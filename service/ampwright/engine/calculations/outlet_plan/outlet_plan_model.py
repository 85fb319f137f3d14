"""What must a plan keep to, in figures that can be counted: plugs, cords, amperes, volt-amperes, who works?

A plain model, apart from how it is solved (outlet_plan_milp.py) and from what it stands for (outlet_plan_slots.py). A
choice gives each tool a slot or none. Its bounds are those of the load check with every tool at work at its typical
estimate: each leg of each circuit, each limit of the source, each cord that is shared. What a bound holds is the
largest sum of phasors over the tools that may be on at once: all that run by themselves, with as many hand tools as
there are people, or those of a case. `value_of` is exact; the linear programme approaches it from outside.

Not here: sags, starts, trips, heat (the load check looks at those before a plan is told).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import comb

Choice = tuple[int | None, ...]  # slot index by tool
Directions = tuple[complex, ...]  # one unit phasor per part of a bound
MOST_EXACT_SETS = 5000
TOLERANCE = 1e-6  # of a limit, above which it counts as passed; the load check rounds to 0.001 A


@dataclass(frozen=True, slots=True)
class SlotUse:
    """What a slot takes up: a plug of a place, one cord of each class of `singles`, an outlet of a shared cord."""

    place: int
    singles: tuple[int, ...] = ()
    shared: int | None = None


@dataclass(frozen=True, slots=True)
class SharedCord:
    """A cord with several outlets; all that hang on it are used in one place."""

    outlets: int


@dataclass(frozen=True, slots=True)
class Bound:
    """kind : circuit, limit or cord. parts : what a tool adds at a slot, one phasor for each sum whose modulus counts.
    real_only : whether the real part counts, as for watts. limit : what the sum of moduli may come to."""

    kind: str
    index: int
    limit: float
    parts: Mapping[tuple[int, int], tuple[complex, ...]]
    real_only: bool = False


@dataclass(frozen=True, slots=True)
class RunningTogether:
    """Tools that may be on at once: `always`, with at most `hands` of `by_hand`."""

    always: frozenset[int]
    by_hand: frozenset[int] = frozenset()
    hands: int = 0


@dataclass(frozen=True, slots=True)
class PlanModel:
    """weights : what it is worth that a tool is on. allowed : slot index to cost, per tool. plugs : per place how many.

    singles : per class how many cords. together : sets of tools that are all on or all off. circuit_of : per place.
    lights, others : tools that may not share a circuit; both empty where no rule asks. positions : per tool where it
    is used. loads : (tool, slot) to (circuit, share of its rating at typical and at high), for an even spread.
    shared_costs : of each shared cord in use, wherever it hangs. same : tools that nobody could tell apart, in order.
    """

    weights: tuple[int, ...]
    uses: tuple[SlotUse, ...]
    allowed: tuple[Mapping[int, int], ...]
    plugs: tuple[int, ...]
    singles: tuple[int, ...]
    shared: tuple[SharedCord, ...]
    shared_costs: tuple[int, ...]
    circuit_of: tuple[int, ...]
    bounds: tuple[Bound, ...]
    running: tuple[RunningTogether, ...]
    together: tuple[tuple[int, ...], ...] = ()
    lights: frozenset[int] = frozenset()
    others: frozenset[int] = frozenset()
    positions: tuple[str | None, ...] = ()
    loads: Mapping[tuple[int, int], tuple[int, float, float]] = field(default_factory=dict)
    same: tuple[tuple[int, ...], ...] = ()
    spread_cost: float = 100.0
    over_cost: float = 300.0


def worth(model: PlanModel, choice: Choice) -> int:
    """Sum of the weights of what is on."""
    return sum(weight for weight, slot in zip(model.weights, choice, strict=True) if slot is not None)


def cost(model: PlanModel, choice: Choice) -> float:
    """What a choice costs beside its worth: cords, joints, and how unevenly it loads the circuits."""
    total = float(sum(model.allowed[t][slot] for t, slot in enumerate(choice) if slot is not None))
    used = {model.uses[slot].shared for slot in choice if slot is not None} - {None}
    total += sum(model.shared_costs[m] for m in used if m is not None)
    typical: dict[int, float] = {}
    high: dict[int, float] = {}
    for t, slot in enumerate(choice):
        if slot is not None and (t, slot) in model.loads:
            circuit, usual, most = model.loads[t, slot]
            typical[circuit] = typical.get(circuit, 0.0) + usual
            high[circuit] = high.get(circuit, 0.0) + most
    total += model.spread_cost * max(typical.values(), default=0.0)
    return total + model.over_cost * max(0.0, max(high.values(), default=0.0) - 1.0)


def counts_hold(model: PlanModel, choice: Choice) -> bool:
    """Whether there are plugs, cords and outlets enough, groups are whole, lights apart, places of work in one."""
    on = [(t, model.uses[slot]) for t, slot in enumerate(choice) if slot is not None]
    plugs, singles = [0] * len(model.plugs), [0] * len(model.singles)
    mounts: dict[int, set[SlotUse]] = {}
    for _, use in on:
        if use.shared is not None:
            mounts.setdefault(use.shared, set()).add(use)
            continue
        plugs[use.place] += 1
        for k in use.singles:
            singles[k] += 1
    for m, ways in mounts.items():
        use = next(iter(ways))
        plugs[use.place] += 1
        for k in use.singles:
            singles[k] += 1
        users = [t for t, other in on if other.shared == m]
        where = {model.positions[t] for t in users} - {None}
        if len(ways) > 1 or len(users) > model.shared[m].outlets or len(where) > 1:
            return False
    if any(n > most for n, most in zip((*plugs, *singles), (*model.plugs, *model.singles), strict=True)):
        return False
    if any(len({choice[t] is None for t in group}) > 1 for group in model.together):
        return False
    lit = {model.circuit_of[use.place] for t, use in on if t in model.lights}
    return not lit & {model.circuit_of[use.place] for t, use in on if t in model.others}


def running_of(bound: Bound, running: RunningTogether, choice: Choice) -> tuple[float, tuple[int, ...]]:
    """The largest sum that a bound can see while these run, and the tools that make it."""
    here = {t: bound.parts[t, slot] for t, slot in enumerate(choice) if slot is not None and (t, slot) in bound.parts}
    fixed = [t for t in sorted(here) if t in running.always]
    hand = [t for t in sorted(here) if t in running.by_hand]
    some = min(running.hands, len(hand))
    if comb(len(hand), some) > MOST_EXACT_SETS:
        return _grown(bound, here, fixed, hand, some)
    best, who = 0.0, tuple(fixed)
    for size in range(some, -1, -1):
        for chosen in itertools.combinations(hand, size):
            value = value_of(bound, [here[t] for t in (*fixed, *chosen)])
            if value > best:
                best, who = value, (*fixed, *chosen)
        if not bound.real_only and _one_sided(here.values()):
            break  # every addition adds, so only the largest sets count
    return best, tuple(sorted(who))


def _one_sided(parts: Iterable[tuple[complex, ...]]) -> bool:
    """Whether the phasors of each sum lie in one quarter of the plane, so that each addition makes it larger."""
    for column in zip(*parts, strict=True):
        for values in ([value.real for value in column], [value.imag for value in column]):
            if min(values) < 0.0 < max(values):
                return False
    return True


def _grown(
    bound: Bound, here: dict[int, tuple[complex, ...]], fixed: list[int], hand: list[int], some: int
) -> tuple[float, tuple[int, ...]]:
    """Too many sets to look at each: the hand tools that are largest by themselves, which may miss a little."""
    order = sorted(hand, key=lambda t: (-value_of(bound, [here[t]]), t))[:some]
    who = (*fixed, *order)
    return value_of(bound, [here[t] for t in who]), tuple(sorted(who))


def value_of(bound: Bound, parts: Sequence[tuple[complex, ...]]) -> float:
    """What a bound sees of these additions: the sum of the moduli of their sums, or their real part."""
    if not parts:
        return 0.0
    sums = [sum(column) for column in zip(*parts, strict=True)]
    return float(sum(value.real if bound.real_only else abs(value) for value in sums))


def passed(bound: Bound, value: float) -> bool:
    """Whether a value is above the bound's limit."""
    return value > bound.limit * (1.0 + TOLERANCE) + 1e-9


def first_passed(model: PlanModel, choice: Choice) -> list[tuple[int, int, tuple[int, ...]]]:
    """Every bound that a choice passes: (bound, running, tools that do it)."""
    found = []
    for b, bound in enumerate(model.bounds):
        for r, running in enumerate(model.running):
            value, who = running_of(bound, running, choice)
            if passed(bound, value):
                found.append((b, r, who))
    return found


def tangent(bound: Bound, choice: Choice, who: Sequence[int]) -> Directions:
    """The direction in which the sum of these tools points: the plane that touches the bound there."""
    parts = [bound.parts[t, slot] for t in who if (slot := choice[t]) is not None]
    sums = [sum(column) for column in zip(*parts, strict=True)]
    return tuple(value / abs(value) if abs(value) > 0.0 else 1.0 + 0j for value in sums)
