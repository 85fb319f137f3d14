"""Which circuit and which driven load stand behind a start, easy, typical and hard?

Three estimates of one start: LOW is the easy one (strong motor, light load, light letter), HIGH the hard one, because a
verdict passes only what holds at HIGH. A nameplate's circuit is fitted once and kept: the fit is a pure function of it.
A motor that is sold starts its own load at 90 % of its plate voltage (NEMA MG 1 12.44 promises operation there), so a
weaker starting torque than that is left out.
Source: PLATE_ASSUMPTIONS, LOAD_RATIOS, INERTIA_TIME_S, TOOL_ASSUMPTIONS of engine/physics.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.counter_random import triangular, uniform_rows
from ampwright.engine.physics.load_torque import (
    INERTIA_TIME_S,
    LOAD_BREAKAWAY_NM,
    LOAD_COLUMNS,
    LOAD_CONSTANT_NM,
    LOAD_INERTIA_KG_M2,
    LOAD_QUADRATIC_NM,
    LOAD_RATIOS,
)
from ampwright.engine.physics.motor_circuit import MOTOR_COLUMNS, MOTOR_RATED_TORQUE_NM, MOTOR_SYNCHRONOUS_RAD_PER_S
from ampwright.engine.physics.motor_nameplate import (
    CAPACITOR_START,
    FIT_COLUMNS,
    PERMANENT_SPLIT,
    PLATE_COLUMNS,
    SPLIT_PHASE,
    THREE_PHASE,
    fit_motor,
)
from ampwright.engine.physics.motor_plate_assumptions import PLATE_ASSUMPTIONS, assumed_efficiency
from ampwright.engine.physics.universal_motor import (
    TOOL_ASSUMPTIONS,
    TOOL_COLUMNS,
    TOOL_FIT_COLUMNS,
    TOOL_INERTIA_TIME_S,
    UNIVERSAL_COLUMNS,
    UNIVERSAL_NO_LOAD_RAD_PER_S,
    UNIVERSAL_RATED_TORQUE_NM,
    fit_universal,
)
from ampwright.engine.site.settle_start import SettledStart

Real = npt.NDArray[np.float64]

KINDS = {
    "capacitor_start": CAPACITOR_START,
    "split_phase": SPLIT_PHASE,
    "permanent_split": PERMANENT_SPLIT,
    "three_phase": THREE_PHASE,
}
AGAINST = {
    "nothing": "idle_tool",
    "fan": "fan_or_blade",
    "pump": "pump",
    "head_pressure": "compressor_against_pressure",
    "vented": "compressor_unloaded",
    "loaded_drum": "loaded_mixer",
    "loaded": "loaded_mixer",
}
# a motor that is sold for a load starts it at nine tenths of its voltage with a tenth of torque to spare; common
# practice, no source
STARTS_AT_VOLTAGE_RATIO = 0.9
TORQUE_TO_SPARE = 1.1
POLES = 4
NO_LOAD_RAD_PER_S = 2000.0  # of a series motor; only its product with inertia counts
_STREAM_PLATE, _STREAM_LOAD = 11, 12


def plate_rows(start: SettledStart) -> Real:
    """(3, PLATE_COLUMNS) of an induction motor: easy, typical, hard."""
    kind = KINDS[start.motor]
    assumed = PLATE_ASSUMPTIONS[kind]
    least = _least_torque_ratio(start)
    rows = np.empty((3, PLATE_COLUMNS))
    efficiency = assumed_efficiency(kind, start.shaft_power_w)
    for e in range(3):
        weak = 2 - e  # the hard estimate takes the weak end of what turns the load
        locked = start.locked_rotor_a.at(e) if start.locked_rotor_a else 0.0
        per_w = start.locked_rotor_va_per_w.at(e) if start.locked_rotor_va_per_w else 0.0
        rows[e] = (
            kind, start.shaft_power_w, start.voltage_v, start.current_a, locked, start.frequency_hz, POLES,
            efficiency[1], assumed["power_factor"][1], max(assumed["locked_rotor_torque_ratio"][weak], least),
            assumed["breakdown_torque_ratio"][weak], assumed["switch_opens_pu"][1], assumed["switch_recloses_pu"][1],
            per_w,
        )  # fmt: skip
    return rows


def _least_torque_ratio(start: SettledStart) -> float:
    """Locked-rotor over rated torque that a motor of such a load has at least; common practice, no source."""
    constant, _, breakaway = LOAD_RATIOS[AGAINST[start.against]][2]
    return TORQUE_TO_SPARE * (constant + breakaway) / STARTS_AT_VOLTAGE_RATIO**2


def load_rows(start: SettledStart) -> Real:
    """(3, LOAD_COLUMNS) over rated torque, inertia as its time [s]: easy, typical, hard."""
    rows = np.zeros((3, LOAD_COLUMNS))
    for e in range(3):
        constant, quadratic, breakaway = LOAD_RATIOS[AGAINST[start.against]][e]
        rows[e, LOAD_CONSTANT_NM], rows[e, LOAD_QUADRATIC_NM], rows[e, LOAD_BREAKAWAY_NM] = (
            constant, quadratic, breakaway,
        )  # fmt: skip
        rows[e, LOAD_INERTIA_KG_M2] = INERTIA_TIME_S[AGAINST[start.against]][e]
    return rows


def _scaled(load: Real, motor: Real) -> None:
    rated = motor[:, MOTOR_RATED_TORQUE_NM]
    for column in (LOAD_CONSTANT_NM, LOAD_QUADRATIC_NM, LOAD_BREAKAWAY_NM):
        load[:, column] *= rated
    load[:, LOAD_INERTIA_KG_M2] *= rated / motor[:, MOTOR_SYNCHRONOUS_RAD_PER_S]


@lru_cache(maxsize=1024)
def induction_rows(start: SettledStart) -> tuple[Real, Real]:
    """Fitted circuits (3, MOTOR_COLUMNS) and driven loads (3, LOAD_COLUMNS): easy, typical, hard. Read only."""
    motor, fit = np.empty((3, MOTOR_COLUMNS)), np.empty((3, FIT_COLUMNS))
    fit_motor(plate_rows(start), motor, fit)
    load = load_rows(start)
    _scaled(load, motor)
    return _kept(motor), _kept(load)


@lru_cache(maxsize=256)
def induction_draws(start: SettledStart, seed: int, draws: int) -> tuple[Real, Real]:
    """Circuits and loads drawn triangular and independently over what the plate leaves open. Read only."""
    plate_band, load_band = np.sort(plate_rows(start), axis=0), np.sort(load_rows(start), axis=0)
    plate, load = np.empty((draws, PLATE_COLUMNS)), np.empty((draws, LOAD_COLUMNS))
    uniform_rows(np.uint64(seed), np.uint64(_STREAM_PLATE), np.uint64(0), plate)
    uniform_rows(np.uint64(seed), np.uint64(_STREAM_LOAD), np.uint64(0), load)
    triangular(plate_band, plate)
    triangular(load_band, load)
    motor, fit = np.empty((draws, MOTOR_COLUMNS)), np.empty((draws, FIT_COLUMNS))
    fit_motor(plate, motor, fit)
    _scaled(load, motor)
    return _kept(motor), _kept(load)


def _tool_rows(start: SettledStart) -> tuple[Real, Real]:
    rows, inertia_s = np.empty((3, TOOL_COLUMNS)), np.empty(3)
    soft_s = TOOL_ASSUMPTIONS["soft_start_s"] if start.soft_start else (0.0, 0.0, 0.0)
    for e in range(3):
        ratio = TOOL_ASSUMPTIONS["start_ratio"][e]
        if start.peak_a is not None and not start.soft_start:
            ratio = max(start.peak_a.at(e) / start.current_a, 1.5)
        rows[e] = (
            start.voltage_v, start.current_a, TOOL_ASSUMPTIONS["power_factor"][1], ratio,
            TOOL_ASSUMPTIONS["idle_ratio"][1], TOOL_ASSUMPTIONS["saturation_ratio"][1], NO_LOAD_RAD_PER_S,
            soft_s[2 - e], TOOL_ASSUMPTIONS["soft_first"][e],
        )  # fmt: skip
        inertia_s[e] = TOOL_INERTIA_TIME_S[e]
    return rows, inertia_s


def _universal(tool: Real, inertia_s: Real) -> tuple[Real, Real]:
    universal, fit = np.empty((len(tool), UNIVERSAL_COLUMNS)), np.empty((len(tool), TOOL_FIT_COLUMNS))
    fit_universal(tool, universal, fit)
    load = np.zeros((len(tool), LOAD_COLUMNS))
    rated = universal[:, UNIVERSAL_RATED_TORQUE_NM]
    load[:, LOAD_INERTIA_KG_M2] = inertia_s * rated / universal[:, UNIVERSAL_NO_LOAD_RAD_PER_S]
    return _kept(universal), _kept(load)


@lru_cache(maxsize=1024)
def universal_rows(start: SettledStart) -> tuple[Real, Real]:
    """Series motors (3, UNIVERSAL_COLUMNS) and what they spin up (3, LOAD_COLUMNS). Read only."""
    return _universal(*_tool_rows(start))


@lru_cache(maxsize=256)
def universal_draws(start: SettledStart, seed: int, draws: int) -> tuple[Real, Real]:
    """Series motors and loads drawn over what the plate leaves open. Read only."""
    rows, inertia_s = _tool_rows(start)
    band = np.sort(np.column_stack([rows, inertia_s]), axis=0)
    drawn = np.empty((draws, TOOL_COLUMNS + 1))
    uniform_rows(np.uint64(seed), np.uint64(_STREAM_PLATE), np.uint64(0), drawn)
    triangular(np.ascontiguousarray(band), drawn)
    return _universal(np.ascontiguousarray(drawn[:, :TOOL_COLUMNS]), drawn[:, TOOL_COLUMNS])


def _kept(rows: Real) -> Real:
    rows.setflags(write=False)
    return rows
