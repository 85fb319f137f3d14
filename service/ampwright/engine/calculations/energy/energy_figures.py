"""What does a day come to: left, used, done, fuel, money, CO2?

Figures of one day alone and of one among ten thousand are made by the same lines from the same percentiles, so that
they are the same to the last digit. Figures are rounded to the resolution of their unit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.energy.energy_judgement import verdict_of
from ampwright.engine.calculations.energy.energy_plan import PERCENTILES, Outcome, quantile
from ampwright.engine.calculations.energy.energy_result import Cost, DayFigures, Fuel, Left, Percentiles
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.calculations.energy.energy_source import fuel_kind, rated_power_w
from ampwright.engine.physics.day_energy import (
    DONE,
    ENOUGH,
    LEFT_AFTER_WORK,
    LEFT_AT_END,
    LEFT_RATIO,
    LOAD,
    MARGIN,
    METRICS,
    RESERVE_AT,
    TIME_LEFT,
    USED,
)
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.use import Site
from ampwright.engine.standards.fuel_carbon import carbon_kg_per_m3

FloatArray = npt.NDArray[np.float64]
LONGEST_TIME_S = 1e7


@dataclass(frozen=True, slots=True)
class Rows:
    """Percentiles of every metric of one day, (METRICS, 3) at PERCENTILES, and how often the reserve is reached."""

    values: FloatArray
    reached: float


def rows_of(outcome: Outcome) -> Rows:
    """The percentiles of one day that was evaluated alone."""
    values = np.array([[quantile(outcome.out[m], p) for p in PERCENTILES] for m in range(METRICS)])
    return Rows(values, float(np.isfinite(outcome.out[RESERVE_AT]).sum() / outcome.out.shape[1]))


def percentiles(values: FloatArray, digits: int) -> Percentiles:
    """P10, P50 and P90, rounded to so many digits after the point; below zero before it."""

    def at(probability: float) -> float:
        value = quantile(values, probability)
        return round(value, digits) + 0.0 if math.isfinite(value) else LONGEST_TIME_S

    return Percentiles(at(0.1), at(0.5), at(0.9))


def energy(values: FloatArray) -> Percentiles:
    return percentiles(values, -2)


def figures_of(site: Site, day: EnergyDay, settled: SettledDay, rows: Rows) -> DayFigures:
    """What one day comes to."""
    values, plan = rows.values, settled.plan
    enough = verdict_of(float(values[MARGIN, 0]), float(values[ENOUGH, 1])) if plan.limited else "pass"
    left, time_left = None, None
    if plan.limited:
        ratio = scaled(values[LEFT_RATIO], 4) if settled.capacity_j is not None else None
        left = Left(
            enough,
            scaled(values[LEFT_AFTER_WORK], -2),
            scaled(values[LEFT_AT_END], -2),
            scaled(values[MARGIN], -2),
            ratio,
        )
        if np.isfinite(values[TIME_LEFT]).any():
            time_left = scaled(values[TIME_LEFT], 0)
    return DayFigures(
        left, time_left, round(rows.reached, 4), scaled(values[DONE], 4), scaled(values[USED], -2),
        _fuel(site, settled, values), _cost(day, settled, values), _carbon(site, day, settled, values),
    )  # fmt: skip


def scaled(row: FloatArray, digits: int, factor: float = 1.0) -> Percentiles:
    """P10, P50 and P90 times a factor, rounded to so many digits after the point; never is LONGEST_TIME_S."""

    def at(value: float) -> float:
        return round(value * factor, digits) + 0.0 if math.isfinite(value) else LONGEST_TIME_S

    return Percentiles(at(float(row[0])), at(float(row[1])), at(float(row[2])))


def _fuel(site: Site, settled: SettledDay, values: FloatArray) -> Fuel | None:
    heat = settled.heat_j_per_m3
    if heat is None:
        return None
    rated = rated_power_w(site.source, Ledger()).typical
    work_s = math.fsum(item.duration_s for item in settled.plan.stretches if item.is_work)
    mean_w = float(values[LOAD, 1]) / work_s if work_s > 0.0 else 0.0
    return Fuel(
        scaled(values[USED], 6, 1.0 / heat),
        scaled(values[LEFT_AT_END], 6, 1.0 / heat),
        round(mean_w / rated, 4) if rated > 0.0 else 0.0,
    )


def _cost(day: EnergyDay, settled: SettledDay, values: FloatArray) -> Cost | None:
    """What it costs, where a price was given for what is used."""
    price = day.electricity_price if settled.heat_j_per_m3 is None else day.fuel_price
    if price is None:
        return None
    return Cost(scaled(values[USED], 2, price.amount / (settled.heat_j_per_m3 or 1.0)), price.currency)


def _carbon(site: Site, day: EnergyDay, settled: SettledDay, values: FloatArray) -> Percentiles | None:
    """[kg] CO2, by the factor given, or of the fuel burnt."""
    if settled.heat_j_per_m3 is not None:
        factor = day.carbon_kg_per_m3
        if factor is None:
            factor = carbon_kg_per_m3(fuel_kind(site.source, day, Ledger())).value
        return scaled(values[USED], 3, factor / settled.heat_j_per_m3)
    return scaled(values[USED], 3, day.carbon_kg_per_j) if day.carbon_kg_per_j is not None else None
