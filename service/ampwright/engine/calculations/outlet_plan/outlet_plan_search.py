"""Which is the best plan that its load check lets stand?

The programme proposes the best choice that its counts allow, the load check judges it, and what fails is learnt: the
smallest part of it that fails by itself is never proposed again, nor its images on equal circuits. So each proposal is
the best of all that were not shown to fail, and the first that holds is the best there is (logic-based Benders
decomposition, Hooker and Ottosson 2003, from memory). Everything is bounded by counts.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, field

from ampwright.engine.calculations.load_check.load_check_result import Finding, LoadCheckResult
from ampwright.engine.calculations.outlet_plan.outlet_plan_check import Checks
from ampwright.engine.calculations.outlet_plan.outlet_plan_milp import Cut, Master, solve
from ampwright.engine.calculations.outlet_plan.outlet_plan_model import Choice
from ampwright.engine.calculations.outlet_plan.outlet_plan_slots import Slots, alike

MOST_PROPOSED = 40
MOST_FOR_A_PART = 14  # load checks to find the smallest part that fails
MOST_IMAGES = 60


@dataclass(frozen=True, slots=True)
class Proposal:
    """A choice with its load check. gap_ratio, proven : of the programme, as far as it got."""

    choice: Choice
    result: LoadCheckResult
    gap_ratio: float
    proven: bool


@dataclass(frozen=True, slots=True)
class Failure:
    """A proposal that failed, the part of it that fails by itself, and the first finding."""

    choice: Choice
    part: Choice
    finding: Finding | None


@dataclass(slots=True)
class Search:
    """One question's programme and load checks. complete : nothing was given up for want of checks or nodes."""

    master: Master
    checks: Checks
    failures: list[Failure] = field(default_factory=list)
    reasons: dict[Cut, Finding | None] = field(default_factory=dict)
    complete: bool = True

    def best(
        self,
        must: frozenset[int] = frozenset(),
        only: frozenset[int] | None = None,
        most: int = MOST_PROPOSED,
        *,
        cheapest: bool = True,
    ) -> Proposal | None:
        """The best plan that holds; None where there is none, or `complete` is false.

        must : tools that have to be on. only : tools that may be on. most : proposals looked at.
        cheapest : of the plans of that worth the one that costs least, else any.
        """
        for _ in range(most):
            solved = solve(self.master, must, only, cheapest=cheapest)
            if solved.choice is None:
                self.complete = self.complete and solved.proven
                return None
            result = self.checks.of(solved.choice)
            if result is None:
                break
            if not self.checks.fails(result):
                return Proposal(solved.choice, result, solved.gap_ratio, solved.proven)
            part = self.checks.smallest(solved.choice, result, MOST_FOR_A_PART)
            told = self.checks.of(part, as_one_case=True) if part != solved.choice else result
            finding = self.checks.first_finding(told if told is not None else result)
            self.failures.append(Failure(solved.choice, part, finding))
            self.forbid(part, finding)
        self.complete = False
        return None

    def forbid(self, part: Choice, finding: Finding | None) -> None:
        """Never propose these slots together again, nor the same on equal circuits."""
        for cut in images(self.checks.slots, part):
            if all(slot in self.master.model.allowed[t] for t, slot in cut):
                self.master.cuts[cut] = None
                self.reasons[cut] = finding


def images(slots: Slots, part: Choice) -> list[Cut]:
    """The part itself, and where circuits are equal the same part on others of them."""
    pairs = [(t, slot) for t, slot in enumerate(part) if slot is not None]
    index = {(slot.place, slot.singles, slot.shared): n for n, slot in enumerate(slots.slots)}
    kinds = _circuit_kinds(slots)
    used = sorted({slots.circuit(slot) for _, slot in pairs})
    targets = [kinds[c] for c in used]
    found: dict[Cut, None] = {frozenset(pairs): None}
    for image in itertools.islice(_images(used, targets), MOST_IMAGES):
        to = dict(zip(used, image, strict=True))
        moved: list[tuple[int, int]] = []
        for t, n in pairs:
            slot = slots.slots[n]
            place = _same_place(slots, slot.place, to[slots.circuit(n)])
            if place is None:
                break
            moved.append((t, index[place, slot.singles, slot.shared]))
        else:
            found[frozenset(moved)] = None
    return list(found)


def alike_choices(slots: Slots, choice: Choice) -> list[Cut]:
    """What would be no other plan to a crew: the same tools through the same cords on the same circuits, whichever
    receptacle of a circuit, and whichever circuit where their ratings are equal."""
    on = [(t, n) for t, n in enumerate(choice) if n is not None]
    rating = [circuit.rating_a for circuit in slots.source.circuits]
    used = sorted({slots.circuit(n) for _, n in on})
    targets = [[other for other, amps in enumerate(rating) if amps == rating[c]] for c in used]
    found: dict[Cut, None] = {}
    for image in itertools.islice(_images(used, targets), MOST_IMAGES):
        to = dict(zip(used, image, strict=True))
        pairs = frozenset(
            (t, other)
            for t, n in on
            for other, slot in enumerate(slots.slots)
            if slots.circuit(other) == to[slots.circuit(n)]
            and (slot.singles, slot.shared) == (slots.slots[n].singles, slots.slots[n].shared)
        )
        if len({t for t, _ in pairs}) == len(on):
            found[pairs] = None
    return list(found)


def _images(used: list[int], targets: list[list[int]]) -> Iterator[tuple[int, ...]]:
    """Ways of putting one circuit for another, no two on one, as they are first."""
    if not used:
        yield ()
        return
    ordered = sorted(targets[0], key=lambda other: (other != used[0], other))
    for first in ordered:
        for rest in _images(used[1:], [[other for other in some if other != first] for some in targets[1:]]):
            yield (first, *rest)


def _circuit_kinds(slots: Slots) -> list[list[int]]:
    """For each circuit those that nobody could tell from it, itself among them."""
    source = slots.source
    keys = []
    for c, circuit in enumerate(source.circuits):
        behind = tuple(
            sorted(
                repr((*alike(source.receptacles[members[0]]), len(members), slots.ways[p]))
                for p, members in enumerate(slots.places)
                if source.receptacles[members[0]].circuit == c
            )
        )
        limits = tuple(i for i, limit in enumerate(source.limits) if c in limit.circuits)
        electric = (circuit.legs, circuit.rating_a, circuit.rating_low_a, circuit.resistance_ohm, circuit.device)
        keys.append(repr((electric, behind, limits)))
    return [[other for other, key in enumerate(keys) if key == keys[c]] for c in range(len(keys))]


def _same_place(slots: Slots, place: int, circuit: int) -> int | None:
    source = slots.source
    wanted = (alike(source.receptacles[slots.places[place][0]]), len(slots.places[place]), slots.ways[place])
    for p, members in enumerate(slots.places):
        one = source.receptacles[members[0]]
        if one.circuit == circuit and (alike(one), len(members), slots.ways[p]) == wanted:
            return p
    return None
