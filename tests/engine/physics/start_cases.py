"""Rows for the start kernels from readable arguments; inputs only, nothing expected."""

from __future__ import annotations

from typing import Any

import numpy as np
from ampwright.engine.physics import motor_nameplate as plate_of
from ampwright.engine.physics import universal_motor
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.load_torque import LOAD_COLUMNS
from ampwright.engine.physics.motor_circuit import (
    MOTOR_COLUMNS,
    MOTOR_PHASES,
    MOTOR_RATED_TORQUE_NM,
    MOTOR_SYNCHRONOUS_RAD_PER_S,
    MOTOR_VOLTAGE_V,
)
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.source_limit_state import SOURCE_COLUMNS, STIFF
from ampwright.engine.physics.start_outcome import RESULT_COLUMNS
from ampwright.engine.physics.universal_motor_start import universal_motor_start

# efficiency, power factor, locked-rotor and breakdown torque over rated: typical of each kind
TYPICAL = {
    plate_of.CAPACITOR_START: (0.74, 0.82, 2.85, 2.2),
    plate_of.SPLIT_PHASE: (0.62, 0.68, 1.6, 2.0),
    plate_of.PERMANENT_SPLIT: (0.70, 0.93, 0.6, 1.8),
    plate_of.THREE_PHASE: (0.80, 0.80, 1.9, 2.5),
}
HORSEPOWER_W = 745.7


def plate(
    kind: int,
    horsepower: float,
    voltage_v: float,
    current_a: float,
    kva_per_hp: float,
    *,
    torque_ratio: float | None = None,
    frequency_hz: float = 60.0,
) -> np.ndarray:
    efficiency, power_factor, locked, breakdown = TYPICAL[kind]
    row = np.zeros(plate_of.PLATE_COLUMNS)
    row[:] = [
        kind, horsepower * HORSEPOWER_W, voltage_v, current_a, 0.0, frequency_hz, 4, efficiency, power_factor,
        torque_ratio or locked, breakdown, 0.75, 0.5, kva_per_hp * 1000 / HORSEPOWER_W,
    ]  # fmt: skip
    return row


def fitted(row: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    motor, fit = np.empty((1, MOTOR_COLUMNS)), np.empty((1, plate_of.FIT_COLUMNS))
    plate_of.fit_motor(row.reshape(1, -1), motor, fit)
    return motor[0], fit[0]


def load(
    motor: np.ndarray, constant: float, quadratic: float = 0.0, breakaway: float = 0.0, inertia_s: float = 0.5
) -> np.ndarray:
    rated = motor[MOTOR_RATED_TORQUE_NM]
    row = np.zeros(LOAD_COLUMNS)
    inertia = inertia_s * rated / motor[MOTOR_SYNCHRONOUS_RAD_PER_S]
    row[:] = [constant * rated, quadratic * rated, breakaway * rated, inertia, 0.0]
    return row


def source(
    emf_v: float,
    resistance_ohm: float = 0.1,
    reactance_ohm: float = 0.0,
    *,
    response: int = STIFF,
    continuous_a: float = 0.0,
    tiers: tuple[tuple[float, float], ...] = (),
    crest_a: float = 0.0,
    other_s: complex = 0j,
    cord_ohm: complex = 0j,
) -> np.ndarray:
    row = np.zeros(SOURCE_COLUMNS)
    flat = [figure for tier in tiers for figure in tier]
    flat += [0.0] * (6 - len(flat))
    row[:] = [
        emf_v, resistance_ohm, reactance_ohm, response, continuous_a, *flat, crest_a, other_s.real, other_s.imag,
        cord_ohm.real, cord_ohm.imag,
    ]  # fmt: skip
    return row


def setting(
    phase_v: float, *, horizon_s: float = 10.0, goal: float = 0.93, slow_s: float = 3.0, running: float = 0.8
) -> np.ndarray:
    return np.array([horizon_s, goal, slow_s, running, 0.9 * phase_v, 0.8 * phase_v, 0.7 * phase_v, 0.5 * phase_v])


def run(motors: Any, loads: Any, sources: Any, settings: Any) -> tuple[np.ndarray, np.ndarray]:
    rows = [np.atleast_2d(np.ascontiguousarray(part, dtype=float)) for part in (motors, loads, sources, settings)]
    n = rows[0].shape[0]
    result, segment = np.empty((n, RESULT_COLUMNS)), np.empty((n, SEGMENTS, SEGMENT_COLUMNS))
    motor_start(*rows, result, segment)
    return result, segment


def start(motor: np.ndarray, load_row: np.ndarray, source_row: np.ndarray, **keys: float) -> np.ndarray:
    phase_v = motor[MOTOR_VOLTAGE_V] / (np.sqrt(3) if motor[MOTOR_PHASES] > 2 else 1.0)
    return run(motor, load_row, source_row, setting(phase_v, **keys))[0][0]


def tool(
    voltage_v: float, current_a: float, *, start_ratio: float = 5.0, soft_start_s: float = 0.0
) -> tuple[np.ndarray, np.ndarray]:
    typical = {name: band[1] for name, band in universal_motor.TOOL_ASSUMPTIONS.items()}
    row = np.array(
        [[voltage_v, current_a, typical["power_factor"], start_ratio, typical["idle_ratio"],
          typical["saturation_ratio"], 523.6, soft_start_s, typical["soft_first"]]]
    )  # fmt: skip
    universal = np.empty((1, universal_motor.UNIVERSAL_COLUMNS))
    fit = np.empty((1, universal_motor.TOOL_FIT_COLUMNS))
    universal_motor.fit_universal(row, universal, fit)
    return universal[0], fit[0]


def tool_load(
    universal: np.ndarray, constant: float = 0.0, inertia_s: float = 0.8, first_pu: float = 0.0
) -> np.ndarray:
    rated = universal[universal_motor.UNIVERSAL_RATED_TORQUE_NM]
    inertia = inertia_s * rated / universal[universal_motor.UNIVERSAL_NO_LOAD_RAD_PER_S]
    return np.array([constant * rated, 0.0, 0.0, inertia, first_pu])


def tool_start(
    universal: np.ndarray, load_row: np.ndarray, source_row: np.ndarray, **keys: float
) -> tuple[np.ndarray, np.ndarray]:
    result, segment = np.empty((1, RESULT_COLUMNS)), np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    settings = setting(universal[universal_motor.UNIVERSAL_VOLTAGE_V], running=0.7, **keys)
    universal_motor_start(universal[None], load_row[None], source_row[None], settings[None], result, segment)
    return result[0], segment[0]
