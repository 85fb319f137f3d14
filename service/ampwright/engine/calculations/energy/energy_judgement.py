"""Is there enough energy, how sure is that, and which unknown decides?

Pass: in nine days of ten what is left covers a drive as hard as the worst of ten, and all that is asked is served.
Marginal: in five of ten the day ends with what must be left. Fail: not even then.
Unknown: it would fail, but one default alone, at its better end, makes it hold; the answer asks for that one.
Figures are rounded first, so that the verdict and what is shown agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ampwright.engine.calculations.energy.energy_plan import Plan, evaluate_many
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.physics.day_energy import ENOUGH, MARGIN, UNPOWERED

ENERGY_STEP_J = 100.0
TRY_DRAWS = 1000
JUDGED_AT = (0.1, 0.5, 0.9)


def rounded_j(energy_j: float) -> float:
    """[J] to the resolution of an answer."""
    return round(energy_j / ENERGY_STEP_J) * ENERGY_STEP_J + 0.0


def verdict_of(margin_p10_j: float, enough_p50_j: float) -> str:
    """Verdict of what is left: above the planned reserve at P10, above what must be left on arrival at P50."""
    if rounded_j(margin_p10_j) >= 0.0:
        return "pass"
    return "marginal" if rounded_j(enough_p50_j) >= 0.0 else "fail"


@dataclass(frozen=True, slots=True)
class Influence:
    """What one default does: P10 of the margin at its worse and better end, and the verdict at the better one."""

    key: str
    spread_j: float
    better: str
    better_end: str
    verdict_then: str


def margins(plans: Sequence[Plan], seed: int, draws: int) -> list[tuple[float, float]]:
    """P10 of the margin and P50 of what is enough, of each plan, in one call."""
    if not plans:
        return []
    found = evaluate_many(plans, seed, draws, JUDGED_AT)
    return [(float(row[MARGIN, 0]), float(row[ENOUGH, 1])) for row in found]


def hold(plans: Sequence[Plan], seed: int, draws: int) -> list[bool]:
    """Whether each plan passes: energy in nine days of ten, and power enough for what it asks in as many."""
    if not plans:
        return []
    found = evaluate_many(plans, seed, draws, JUDGED_AT)
    return [
        rounded_j(float(row[UNPOWERED, 2])) <= 0.0
        and (not plan.limited or verdict_of(float(row[MARGIN, 0]), float(row[ENOUGH, 1])) == "pass")
        for plan, row in zip(plans, found, strict=True)
    ]


def influences(settled: SettledDay, seed: int, draws: int) -> tuple[Influence, ...]:
    """Every default that has a figure, largest influence first; ties in the order of the ledger."""
    plan = settled.plan
    places: dict[str, list[int]] = {}
    for i, figure in enumerate(plan.figures):
        if figure.assumption is not None and figure.uncertain:
            places.setdefault(figure.assumption, []).append(i)
    keys = list(places)
    tried: list[Plan] = []
    for key in keys:
        tried += [plan.pinned(places[key], "low"), plan.pinned(places[key], "high")]
    found = margins(tried, seed, min(draws, TRY_DRAWS))
    result: list[Influence] = []
    for n, key in enumerate(keys):
        low, high = found[2 * n], found[2 * n + 1]
        better, end = (low, "low") if low[0] > high[0] else (high, "high")
        band = plan.figures[places[key][0]].band
        result.append(Influence(key, abs(high[0] - low[0]), f"{getattr(band, end):.4g}", end, verdict_of(*better)))
    return tuple(sorted(result, key=lambda item: -rounded_j(item.spread_j)))
