"""What does one observation ("140 cuts took 9 %") say about the energy of a cut?

Bayes on a grid over the energy of one unit. Before: the range of the work unit. Likelihood: the display steps evenly
within half a step of what it shows, and all other figures of the observation (capacity, health, conversion, awake draw)
are drawn as in the budget itself and averaged over. Several observations of one work multiply.

The other figures keep their ranges: that an observation in percent ties the energy of a cut to the battery's size, so
that errors of the latter cancel on the day, is left out. This is the wide side.
Source: Bayes' theorem; the even step is the definition of a rounded display.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from ampwright.engine.calculations.energy.energy_plan import Plan, evaluate
from ampwright.engine.physics.day_energy import CAPACITY, COLD, HEALTH, IDLE, SLOPE
from ampwright.engine.physics.drawn_values import OUTER_Z
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, Observation

FloatArray = npt.NDArray[np.float64]
GRID = 400
DRAWS = 800
SEED = 7_072_026
USUAL_STEP = {"ratio": 0.01, "j": 0.1 * 3.6e6}  # of displays: a percent, a tenth of a kWh
SMALLEST = 0.01
SHARPEST = 1e-3
"""[-] least spread of the logarithm of a likelihood, so that a grid point always lies under it."""


@dataclass(frozen=True, slots=True)
class Posterior:
    """Energy of one unit of a work [J], before and after what was observed. `agrees` False: outside the range."""

    work: str
    pointer: str
    figure: int
    before: Band
    after: Band
    observations: int
    agrees: bool


def calibrated(plan: Plan, day: EnergyDay) -> tuple[Plan, tuple[Posterior, ...]]:
    """The plan with narrowed energies, and what the observations said."""
    found: list[Posterior] = []
    for work in day.work:
        told = [item for item in day.observations if item.work == work.id and item.amount > 0.0]
        place = next((i for i, item in enumerate(plan.figures) if item.key == f"each:{work.id}"), None)
        if not told or place is None or not plan.figures[place].uncertain:
            continue
        posterior = _posterior(plan, place, work.id, told)
        if posterior is not None:
            found.append(posterior)
            plan = plan.with_band(place, posterior.after, f"work_observed:{posterior.pointer}")
    return plan, tuple(found)


def _posterior(plan: Plan, place: int, work: str, told: list[Observation]) -> Posterior | None:
    stated = plan.figures[place].band
    if stated.typical <= 0.0:
        return None
    # logarithms need something above zero: a band from zero begins at a hundredth of its middle
    before = Band(max(stated.low, SMALLEST * stated.typical), stated.typical, stated.high)
    value = evaluate(plan, SEED, DRAWS).value
    full_j = value[:, CAPACITY] * value[:, HEALTH] * value[:, COLD]
    # a grid even in the prior's own measure, and beyond its ends, where an observation may well lie
    reach = max(np.log(before.high / before.typical), np.log(before.typical / before.low))
    log_each = np.linspace(np.log(before.low) - 3.0 * reach, np.log(before.high) + 3.0 * reach, GRID)
    log_likelihood = np.zeros(GRID)
    for one in told:
        log_likelihood += np.log(_likelihood(one, value, full_j, np.exp(log_each)) + 1e-300)
    side = log_each - np.log(before.typical)
    z = OUTER_Z * np.where(
        side > 0.0, side / np.log(before.high / before.typical), side / np.log(before.typical / before.low)
    )
    log_after = log_likelihood - 0.5 * z * z
    weight = np.exp(log_after - log_after.max())
    cumulative = np.cumsum(0.5 * (weight[1:] + weight[:-1]))
    if not cumulative[-1] > 0.0:
        return None
    share = np.concatenate(([0.0], cumulative / cumulative[-1]))
    low, typical, high = (float(np.exp(np.interp(p, share, log_each))) for p in (0.1, 0.5, 0.9))
    best = float(z[int(np.argmax(log_likelihood))])
    return Posterior(
        work, told[0].pointer, place, before, Band(low, typical, high), len(told), bool(0.001 < ndtr(best) < 0.999)
    )


def _likelihood(one: Observation, value: FloatArray, full_j: FloatArray, each_j: FloatArray) -> FloatArray:
    """How likely the display's figure is for each energy of a unit, over the draws of everything else."""
    if one.took_ratio is not None:
        took_j, step_j = one.took_ratio * full_j, (one.step or USUAL_STEP["ratio"]) * full_j
    else:
        took_j = np.full_like(full_j, one.took_j or 0.0)
        step_j = np.full_like(full_j, one.step or USUAL_STEP["j"])
    took_j = took_j - value[:, IDLE] * (one.over_s or 0.0)
    # two readings, each within half a step: their difference is a triangle a step to either side
    asked_j = one.amount * np.outer(each_j, value[:, SLOPE])
    distance = np.abs(asked_j - took_j) / np.maximum(step_j, SHARPEST * asked_j)
    return np.asarray(np.mean(np.maximum(1.0 - distance, 0.0), axis=1))
