"""How likely is a start, given what a nameplate leaves open?

Seeded Monte Carlo: every column of plate, driven load and source is a band (low, typical, high), drawn triangular and
independently; each draw is fitted and run up. The share that starts comes with its 95 % interval (Wilson).
Independence is an assumption: efficiency and starting torque of one motor do hang together.
Source: counter_random.py; E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209, interval.
Not here: probability of a trip (trip_probability.py).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.counter_random import triangular, uniform_rows
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.load_torque import (
    LOAD_BREAKAWAY_NM,
    LOAD_COLUMNS,
    LOAD_CONSTANT_NM,
    LOAD_INERTIA_KG_M2,
    LOAD_QUADRATIC_NM,
)
from ampwright.engine.physics.motor_circuit import (
    MOTOR_COLUMNS,
    MOTOR_RATED_TORQUE_NM,
    MOTOR_SYNCHRONOUS_RAD_PER_S,
)
from ampwright.engine.physics.motor_nameplate import FIT_COLUMNS, PLATE_COLUMNS, fit_motor
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.source_limit_state import SOURCE_COLUMNS
from ampwright.engine.physics.start_outcome import RESULT_COLUMNS, RESULT_OUTCOME, STARTS_SLOWLY

_STREAM_PLATE = 1
_STREAM_LOAD = 2
_STREAM_SOURCE = 3
_NORMAL_95 = 1.959963984540054


@dataclass(frozen=True, slots=True)
class StartProbability:
    """Share of draws that start, its 95 % interval, and what every draw came to."""

    starts_ratio: float
    low_ratio: float
    high_ratio: float
    results: NDArray[np.float64]  # (draws, RESULT_COLUMNS)
    segments: NDArray[np.float64]  # (draws, SEGMENTS, SEGMENT_COLUMNS), for devices to judge


def start_probability(
    plate_band: NDArray[np.float64],
    load_band: NDArray[np.float64],
    source_band: NDArray[np.float64],
    setting: NDArray[np.float64],
    seed: int,
    draws: int,
) -> StartProbability:
    """Share of starts over a band of nameplates, loads and sources.

    Parameters
    ----------
    plate_band : (3, PLATE_COLUMNS) low, typical, high; motor_nameplate.py
    load_band : (3, LOAD_COLUMNS) torques over rated torque [-], inertia as its time [s] (rated torque x time over
        synchronous speed), first speed [-]
    source_band : (3, SOURCE_COLUMNS) source_limit_state.py
    setting : (SETTING_COLUMNS,) start_outcome.py
    seed : below 2^64
    draws : at least 1

    Returns
    -------
    probability : StartProbability

    Errors: ValueError for shapes, draws below 1, or a band out of order.
    Source: Wilson 1927 for the interval.
    """
    if draws < 1:
        raise ValueError(f"draws is {draws}; at least 1 is needed")
    plate = _drawn(plate_band, PLATE_COLUMNS, "plate_band", seed, _STREAM_PLATE, draws)
    load = _drawn(load_band, LOAD_COLUMNS, "load_band", seed, _STREAM_LOAD, draws)
    source = _drawn(source_band, SOURCE_COLUMNS, "source_band", seed, _STREAM_SOURCE, draws)
    motor = np.empty((draws, MOTOR_COLUMNS))
    fit = np.empty((draws, FIT_COLUMNS))
    fit_motor(plate, motor, fit)
    rated = motor[:, MOTOR_RATED_TORQUE_NM]
    for column in (LOAD_CONSTANT_NM, LOAD_QUADRATIC_NM, LOAD_BREAKAWAY_NM):
        load[:, column] *= rated
    load[:, LOAD_INERTIA_KG_M2] *= rated / motor[:, MOTOR_SYNCHRONOUS_RAD_PER_S]
    settings = np.ascontiguousarray(np.broadcast_to(setting, (draws, setting.size)))
    result = np.empty((draws, RESULT_COLUMNS))
    segment = np.empty((draws, SEGMENTS, SEGMENT_COLUMNS))
    motor_start(motor, load, source, settings, result, segment)
    started = int(np.count_nonzero(result[:, RESULT_OUTCOME] <= STARTS_SLOWLY))
    share = started / draws
    z2 = _NORMAL_95 * _NORMAL_95
    centre = (share + z2 / (2 * draws)) / (1 + z2 / draws)
    half = _NORMAL_95 * np.sqrt(share * (1 - share) / draws + z2 / (4 * draws * draws)) / (1 + z2 / draws)
    return StartProbability(share, float(max(0.0, centre - half)), float(min(1.0, centre + half)), result, segment)


def _drawn(
    band: NDArray[np.float64], columns: int, name: str, seed: int, stream: int, draws: int
) -> NDArray[np.float64]:
    if band.shape != (3, columns):
        raise ValueError(f"{name} has shape {band.shape}; ({3}, {columns}) is needed")
    if not np.all((band[0] <= band[1]) & (band[1] <= band[2])):
        raise ValueError(f"{name} is not low <= typical <= high in every column")
    unit = np.empty((draws, columns))
    uniform_rows(np.uint64(seed), np.uint64(stream), np.uint64(0), unit)
    triangular(np.ascontiguousarray(band, dtype=np.float64), unit)
    return unit
