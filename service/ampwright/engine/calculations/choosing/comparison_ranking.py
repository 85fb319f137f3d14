"""Which of some sources comes first, how firmly, and which of them nobody need look at?

Sources are put in order by verdict first: one that fails never stands before one that does not, whatever the weights.
Of those that fail, one on which somebody may be hurt stands behind those that only do not carry the work, or that only
a label or a rule forbids. Among equals in both the score counts: each criterion is brought between 0 (the worst of
those compared) and 1 (the best), and the weighted mean is taken. Compared are those that do not fail, where there are
any: a source that nobody will take must not turn the order of the others. One that fails is held against their scale. A
figure that is not known counts as the worst. A source is in the Pareto set where no other is at least as good by every
criterion, verdict and danger among them, and better by one.

An order is firm where no small change of one weight or one figure puts another source first; else what would is told.
Source: weighted sums and Pareto dominance as in every textbook of decision analysis; the sizes of the steps are common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ampwright.engine.calculations.verdicts import ORDER

WEIGHT_STEP = 0.2
VALUE_STEP = 0.1
MOST_DECIDING = 8
# criterion -> whether more is better; the meaning of each is told by the contract
CRITERIA: dict[str, bool] = {
    "spare_a": True,
    "start_outcome": True,
    "independent_circuits": True,
    "restart_hazards": False,
    "hours_failing": False,
    "reserve_reached_ratio": False,
    "cost_per_day": False,
    "mass_kg": False,
    "noise_db": False,
    "exhaust": False,
    "extra_gear": False,
}
# figures that can be a little off; counts and yes or no are right or wrong
MEASURED = ("spare_a", "hours_failing", "reserve_reached_ratio", "cost_per_day", "mass_kg", "noise_db")


@dataclass(frozen=True, slots=True)
class Candidate:
    """One source: its verdict, a figure for each of CRITERIA that is known, and whether somebody may be hurt."""

    verdict: str
    figures: Mapping[str, float]
    danger: bool = False

    @property
    def standing(self) -> tuple[int, bool]:
        """What counts before any score, better first; a danger stands behind among those that fail."""
        return ORDER.index(self.verdict), self.danger and self.verdict == "fail"


@dataclass(frozen=True, slots=True)
class Deciding:
    """A small change that puts another source first.

    kind : weight or figure. candidate : whose figure, None for a weight. change_ratio : of the weight or figure.
    then_first : index of the source that comes first then.
    """

    kind: str
    criterion: str
    candidate: int | None
    change_ratio: float
    then_first: int


@dataclass(frozen=True, slots=True)
class Ranked:
    """By candidate: its rank from 1, its score, and the indices of those that are better all round."""

    ranks: tuple[int, ...]
    scores: tuple[float, ...]
    beaten_by: tuple[tuple[int, ...], ...]
    deciding: tuple[Deciding, ...]


def rank(candidates: Sequence[Candidate], weights: Mapping[str, float]) -> Ranked:
    """The order of some sources.

    weights : for each criterion from 0; what is not named counts 0. Errors: ValueError for a criterion that is none.
    """
    if strange := sorted(set(weights) - set(CRITERIA)):
        raise ValueError(f"no such criterion: {', '.join(strange)}")
    scores = scores_of(candidates, weights)
    order = _order(candidates, scores)
    ranks = [0] * len(candidates)
    for place, i in enumerate(order, start=1):
        ranks[i] = place
    beaten = tuple(
        tuple(other for other in range(len(candidates)) if other != i and dominates(candidates[other], candidates[i]))
        for i in range(len(candidates))
    )
    return Ranked(tuple(ranks), scores, beaten, _deciding(candidates, weights, order))


def scores_of(candidates: Sequence[Candidate], weights: Mapping[str, float]) -> tuple[float, ...]:
    """Weighted mean of the criteria, each between 0 and 1; 0 where no weight is above 0."""
    total = sum(weights.values())
    if total <= 0.0:
        return tuple(0.0 for _ in candidates)
    shares = {name: _shares(candidates, name) for name, weight in weights.items() if weight > 0.0}
    return tuple(
        round(sum(weights[name] * share[i] for name, share in shares.items()) / total, 4)
        for i in range(len(candidates))
    )


def _shares(candidates: Sequence[Candidate], name: str) -> list[float]:
    here = [one for one in candidates if name in one.figures]
    known = [one.figures[name] for one in here if one.verdict != "fail"] or [one.figures[name] for one in here]
    if not known:
        return [0.0] * len(candidates)
    best, worst = (max(known), min(known)) if CRITERIA[name] else (min(known), max(known))

    def share(value: float) -> float:
        if best == worst:
            return 1.0 if value == best or (value > best) == CRITERIA[name] else 0.0
        return min(1.0, max(0.0, (value - worst) / (best - worst)))

    return [share(one.figures[name]) if name in one.figures else 0.0 for one in candidates]


def _order(candidates: Sequence[Candidate], scores: Sequence[float]) -> list[int]:
    return sorted(range(len(candidates)), key=lambda i: (candidates[i].standing, -scores[i], i))


def dominates(one: Candidate, other: Candidate) -> bool:
    """Whether one is at least as good by every criterion and better by one; unknown is worse than any figure."""
    pairs = [(-float(mine), -float(theirs)) for mine, theirs in zip(one.standing, other.standing, strict=True)]
    for name, more_is_better in CRITERIA.items():
        sign = 1.0 if more_is_better else -1.0
        mine, theirs = one.figures.get(name), other.figures.get(name)
        pairs.append(
            (
                float("-inf") if mine is None else sign * mine,
                float("-inf") if theirs is None else sign * theirs,
            )
        )
    return all(mine >= theirs for mine, theirs in pairs) and any(mine > theirs for mine, theirs in pairs)


def _deciding(
    candidates: Sequence[Candidate], weights: Mapping[str, float], order: Sequence[int]
) -> tuple[Deciding, ...]:
    found: list[Deciding] = []
    if len(order) < 2 or sum(weights.values()) <= 0.0:
        return ()
    first = order[0]
    rivals = [i for i in order if candidates[i].standing == candidates[first].standing]
    if len(rivals) < 2:
        return ()
    for name in CRITERIA:
        if weights.get(name, 0.0) <= 0.0:
            continue
        for step in (-WEIGHT_STEP, WEIGHT_STEP):
            moved = {**weights, name: weights[name] * (1.0 + step)}
            then = _order(candidates, scores_of(candidates, moved))[0]
            if then != first:
                found.append(Deciding("weight", name, None, step, then))
        if name not in MEASURED:
            continue
        for i in rivals:
            value = candidates[i].figures.get(name)
            if value is None or value == 0.0:
                continue
            for step in (-VALUE_STEP, VALUE_STEP):
                changed = list(candidates)
                changed[i] = replace(candidates[i], figures={**candidates[i].figures, name: value * (1.0 + step)})
                then = _order(changed, scores_of(changed, weights))[0]
                if then != first:
                    found.append(Deciding("figure", name, i, step, then))
    return tuple(found[:MOST_DECIDING])
