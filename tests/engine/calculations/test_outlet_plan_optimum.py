"""Is the best choice the best of all choices? Every choice is looked at by hand, in arithmetic that shares no code.

The outside check is enumeration: with two to four tools and a few slots each there are at most some hundred choices.
What a choice is worth, costs and may do is written here a second time, from the words of outlet_plan_model.py.
"""

from __future__ import annotations

import cmath
import itertools
import random
from typing import Any

import pytest
from ampwright.engine.calculations.outlet_plan.outlet_plan_milp import Master, solve
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import (
    Bound,
    PlanModel,
    RunningTogether,
    SharedCord,
    SlotUse,
    cost,
    worth,
)

CASES, BATCHES = 500, 10


def random_model(draw: random.Random) -> PlanModel:
    tools = draw.choice([2, 2, 3, 3, 4])
    places = draw.choice([1, 2, 3])
    circuit_of = tuple(draw.randrange(2) for _ in range(places))
    plugs = tuple(draw.choice([1, 1, 2]) for _ in range(places))
    singles = tuple(draw.choice([1, 2]) for _ in range(draw.choice([0, 1])))
    shared = tuple(SharedCord(draw.choice([2, 3])) for _ in range(draw.choice([0, 1])))
    uses = [SlotUse(p) for p in range(places)]
    uses += [SlotUse(p, (k,)) for p in range(places) for k in range(len(singles))]
    uses += [SlotUse(p, (), m) for p in range(places) for m in range(len(shared))]
    allowed = [
        {s: draw.choice([0, 0, 20, 115]) for s in range(len(uses)) if draw.random() < 0.75} for _ in range(tools)
    ]
    current = [cmath.rect(draw.uniform(2.0, 16.0), -draw.uniform(0.0, 1.0)) for _ in range(tools)]
    bounds = []
    for c in range(2):
        parts = {(t, s): (current[t],) for t in range(tools) for s in allowed[t] if circuit_of[uses[s].place] == c}
        if parts:
            bounds.append(Bound("circuit", c, draw.choice([12.0, 15.0, 20.0]), parts))
    # an output in VA over two legs: every other tool is on the second
    legs = {
        (t, s): (120 * current[t], 0j) if t % 2 else (0j, 120 * current[t]) for t in range(tools) for s in allowed[t]
    }
    if legs:
        bounds.append(Bound("limit", 0, draw.choice([2400.0, 3600.0, 9000.0]), legs))
        if draw.random() < 0.3:
            watts = {pair: (sum(part),) for pair, part in legs.items()}
            bounds.append(Bound("limit", 1, draw.choice([1800.0, 3000.0]), watts, True))
    for m in range(len(shared)):
        parts = {(t, s): (current[t],) for t in range(tools) for s in allowed[t] if uses[s].shared == m}
        if parts:
            bounds.append(Bound("cord", m, draw.choice([10.0, 15.0]), parts))
    by_hand = frozenset(t for t in range(tools) if draw.random() < 0.6)
    running = [RunningTogether(frozenset(range(tools)) - by_hand, by_hand, draw.choice([1, 2, 4]))]
    together: tuple[tuple[int, ...], ...] = ()
    if draw.random() < 0.25:
        together = ((0, tools - 1),)
        running.append(RunningTogether(frozenset(together[0])))
    lights = frozenset({0}) if draw.random() < 0.2 else frozenset()
    return PlanModel(
        tuple(draw.choice([1, 1, 2, 5]) for _ in range(tools)),
        tuple(uses),
        tuple(allowed),
        plugs,
        singles,
        shared,
        tuple(draw.choice([110, 130]) for _ in shared),
        circuit_of,
        tuple(bounds),
        tuple(running),
        together,
        lights,
        frozenset(range(tools)) - lights if lights else frozenset(),
        tuple(draw.choice([None, None, "roof", "yard"]) for _ in range(tools)),
        {
            (t, s): (circuit_of[uses[s].place], abs(current[t]) / 20.0, abs(current[t]) / 16.0)
            for t in range(tools)
            for s in allowed[t]
        },
    )


def stands(model: PlanModel, choice: tuple[int | None, ...]) -> bool:
    """All that a choice must keep to, one rule after another."""
    on = {t: model.uses[s] for t, s in enumerate(choice) if s is not None}
    hangs: dict[int, Any] = {}
    for use in on.values():
        if use.shared is not None and hangs.setdefault(use.shared, use) != use:
            return False
    plugs = [use for use in on.values() if use.shared is None] + list(hangs.values())
    if any(sum(use.place == p for use in plugs) > n for p, n in enumerate(model.plugs)):
        return False
    if any(sum(use.singles.count(k) for use in plugs) > n for k, n in enumerate(model.singles)):
        return False
    for m, cord in enumerate(model.shared):
        users = [t for t, use in on.items() if use.shared == m]
        if len(users) > cord.outlets or len({model.positions[t] for t in users} - {None}) > 1:
            return False
    for group in model.together:
        if 0 < sum(t in on for t in group) < len(group):
            return False
    for first, second in itertools.product(on, on):
        apart = first in model.lights and second in model.others
        if apart and model.circuit_of[on[first].place] == model.circuit_of[on[second].place]:
            return False
    for running in model.running:
        hands = [t for t in on if t in running.by_hand]
        for size in range(min(running.hands, len(hands)) + 1):
            for some in itertools.combinations(hands, size):
                works = [t for t in on if t in running.always or t in some]
                for bound in model.bounds:
                    there = [bound.parts[t, choice[t]] for t in works if (t, choice[t]) in bound.parts]  # type: ignore[index]
                    width = len(next(iter(bound.parts.values())))
                    sums = [sum((part[n] for part in there), 0j) for n in range(width)]
                    seen = sum(x.real for x in sums) if bound.real_only else sum(abs(x) for x in sums)
                    if seen > bound.limit * (1 + 1e-6) + 1e-9:
                        return False
    return True


def price(model: PlanModel, choice: tuple[int | None, ...]) -> float:
    total = 0.0
    usual, most = [0.0, 0.0], [0.0, 0.0]
    cords = set()
    for t, s in enumerate(choice):
        if s is None:
            continue
        total += model.allowed[t][s]
        cords.add(model.uses[s].shared)
        circuit, typical, high = model.loads[t, s]
        usual[circuit] += typical
        most[circuit] += high
    total += sum(model.shared_costs[m] for m in cords if m is not None)
    return total + 100.0 * max(usual) + 300.0 * max(0.0, max(most) - 1.0)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_the_best_choice_is_the_best_of_all(batch: int) -> None:
    for number in range(CASES // BATCHES):
        model = random_model(random.Random(1000 * batch + number))
        found = solve(Master(model)).choice
        assert found is not None
        choices = itertools.product(*([None, *slots] for slots in model.allowed))
        sound = [choice for choice in choices if stands(model, choice)]
        best_worth = max(sum(w for w, s in zip(model.weights, c, strict=True) if s is not None) for c in sound)
        best_price = min(
            price(model, c)
            for c in sound
            if sum(w for w, s in zip(model.weights, c, strict=True) if s is not None) == best_worth
        )
        assert stands(model, found), (batch, number)
        assert worth(model, found) == best_worth, (batch, number)
        # the solver may stop within a millionth of the best
        assert price(model, found) == pytest.approx(best_price, rel=1e-5, abs=1e-4), (batch, number)
        assert cost(model, found) == pytest.approx(price(model, found), abs=1e-9)


def test_the_same_model_has_the_same_choice() -> None:
    for seed in range(12):
        first, second = (solve(Master(random_model(random.Random(seed)))) for _ in range(2))
        assert first == second
