"""Does an induction motor start from this source, how long does it take, and what do the others feel meanwhile?

Quasi-steady: at each speed the motor is an admittance (motor_circuit.py), the source an electromotive force behind an
impedance with a limit (source_limit_state.py), other running load an admittance at the common point. All that is linear
in voltage, so a limit only scales it. The run-up marches over speed, not over time: between two speeds the acceleration
is taken as a straight line, for which the time is exact, and a change of its sign between them is a speed at which the
motor settles. Time matters only to the source's tiers, whose ends cut a march step.
Electrical transients are not integrated. Their two effects that matter are put in as they come out of the transient
equations on six motors: torque is late by a fifth of a cycle at the start, and at the opening of the start switch 0.4
cycle of the torque is lost (between -0.05 and 0.8, by the point of the wave). What is left is measured in
tests/published/starts.
Source: J dw/dt = T - T_load; circuit theory.
Not here: engine sets, whose voltage and frequency move (generator_start.py); series motors (universal_motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import add_to_history
from ampwright.engine.physics.load_torque import LOAD_FIRST_SPEED_PU, LOAD_INERTIA_KG_M2, load_torque_nm
from ampwright.engine.physics.motor_circuit import (
    MOTOR_FREQUENCY_HZ,
    MOTOR_LOSS_TORQUE_NM,
    MOTOR_PHASES,
    MOTOR_SWITCH_OPENS_PU,
    MOTOR_SWITCH_RECLOSES_PU,
    MOTOR_SYNCHRONOUS_RAD_PER_S,
    START_LAG_CYCLES,
    SWITCH_LOSS_CYCLES,
    motor_at_speed,
)
from ampwright.engine.physics.source_limit_state import (
    SOURCE_CORD_REACTANCE_OHM,
    SOURCE_CORD_RESISTANCE_OHM,
    SOURCE_CREST_A,
    SOURCE_EMF_V,
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_REACTANCE_OHM,
    SOURCE_RESISTANCE_OHM,
    TIERS,
    allowed_current_a,
    spend_tiers,
    switches_off,
    time_to_next_limit_s,
)
from ampwright.engine.physics.start_outcome import (
    HUNTS,
    RESULT_BELOW_1_S,
    RESULT_CURRENT_SQUARED_TIME_A2S,
    RESULT_FINAL_CURRENT_A,
    RESULT_FINAL_SPEED_PU,
    RESULT_FINAL_VOLTAGE_V,
    RESULT_FIRST_CREST_A,
    RESULT_LEAST_FREQUENCY_PU,
    RESULT_LEAST_LOAD_VOLTAGE_V,
    RESULT_LEAST_VOLTAGE_V,
    RESULT_LIMITED_AT_END,
    RESULT_LIMITED_S,
    RESULT_OFF_AT_S,
    RESULT_OUTCOME,
    RESULT_PEAK_CURRENT_A,
    RESULT_PEAK_SOURCE_CURRENT_A,
    RESULT_SEGMENTS,
    RESULT_SWITCH_OPENINGS,
    RESULT_TIME_TO_SPEED_S,
    SETTING_BELOW_1_V,
    SETTING_GOAL_SPEED_PU,
    SETTING_HORIZON_S,
    SETTING_RUNNING_SPEED_PU,
    SETTING_SLOW_S,
    SHUTS_OFF,
    SOURCE_LIMITS,
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)

_STEP_PU = 0.02
_MOST_STEPS = 20000
# Openings of the start switch after which a run-up counts as hunting.
_HUNTING_OPENINGS = 4

# One speed, solved: columns of the working array. "Asked" is without a limit.
_ACCELERATION = 0  # [1/s] of speed over synchronous speed
_LOAD_A = 1
_SOURCE_A = 2
_COMMON_V = 3
_LOAD_V = 4
_ASKED_A = 5
_R_OVER_X = 6  # resistance over reactance of the whole loop
_TORQUE_NM = 7  # at the air gap
_WORK = 8


@kernel("void(float64[::1], float64[::1], float64[::1], float64, boolean, float64, float64[::1])")
def _at_speed(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    speed_pu: float,
    start_winding_in: bool,
    allowed_a: float,
    work: NDArray[np.float64],
) -> None:
    y, _, torque_per_v2 = motor_at_speed(motor, speed_pu, 1.0, start_winding_in)
    branch = complex(source[SOURCE_CORD_RESISTANCE_OHM], source[SOURCE_CORD_REACTANCE_OHM]) + 1.0 / y
    together = 1.0 / branch + complex(source[SOURCE_OTHER_CONDUCTANCE_S], source[SOURCE_OTHER_SUSCEPTANCE_S])
    loop = complex(source[SOURCE_RESISTANCE_OHM], source[SOURCE_REACTANCE_OHM]) + 1.0 / together
    asked = source[SOURCE_EMF_V] / abs(loop)
    flows = min(asked, allowed_a)
    common_v = flows / abs(together)
    load_a = common_v / abs(branch)
    load_v = load_a / abs(y)
    torque = torque_per_v2 * load_v * load_v
    against = load_torque_nm(load, speed_pu) + motor[MOTOR_LOSS_TORQUE_NM] * speed_pu * speed_pu
    if speed_pu <= 0.0 and torque < against:
        torque = against  # at rest a load holds, it does not drive backwards
    work[_ACCELERATION] = (torque - against) / (load[LOAD_INERTIA_KG_M2] * motor[MOTOR_SYNCHRONOUS_RAD_PER_S])
    work[_LOAD_A] = load_a
    work[_SOURCE_A] = flows
    work[_COMMON_V] = common_v
    work[_LOAD_V] = load_v
    work[_ASKED_A] = asked
    work[_R_OVER_X] = loop.real / max(abs(loop.imag), 1e-12)
    work[_TORQUE_NM] = torque


@kernel("int64(float64, float64[::1], float64[::1], float64, boolean, float64[::1], float64[:, ::1], int64)")
def _record(
    duration_s: float,
    here: NDArray[np.float64],
    there: NDArray[np.float64],
    allowed_a: float,
    before_speed: bool,
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
    count: int,
) -> int:
    """Lay one step into the answer; inside it the squares of the currents run as of straight lines."""
    if not duration_s > 0.0:
        return count
    load_a2 = (here[_LOAD_A] * here[_LOAD_A] + here[_LOAD_A] * there[_LOAD_A] + there[_LOAD_A] * there[_LOAD_A]) / 3.0
    source_a2 = here[_SOURCE_A] * here[_SOURCE_A] + here[_SOURCE_A] * there[_SOURCE_A]
    source_a2 = (source_a2 + there[_SOURCE_A] * there[_SOURCE_A]) / 3.0
    result[RESULT_PEAK_CURRENT_A] = max(result[RESULT_PEAK_CURRENT_A], here[_LOAD_A], there[_LOAD_A])
    result[RESULT_PEAK_SOURCE_CURRENT_A] = max(result[RESULT_PEAK_SOURCE_CURRENT_A], here[_SOURCE_A], there[_SOURCE_A])
    result[RESULT_LEAST_VOLTAGE_V] = min(result[RESULT_LEAST_VOLTAGE_V], here[_COMMON_V], there[_COMMON_V])
    result[RESULT_LEAST_LOAD_VOLTAGE_V] = min(result[RESULT_LEAST_LOAD_VOLTAGE_V], here[_LOAD_V], there[_LOAD_V])
    if before_speed:
        result[RESULT_CURRENT_SQUARED_TIME_A2S] += load_a2 * duration_s
    if here[_ASKED_A] > allowed_a * (1.0 + 1e-9):
        result[RESULT_LIMITED_S] += duration_s
    return add_to_history(segment, count, duration_s, np.sqrt(load_a2), np.sqrt(source_a2))


@kernel("void(float64, float64[::1], float64[::1], float64[::1], float64[::1])")
def _time_below(
    duration_s: float,
    here: NDArray[np.float64],
    there: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
) -> None:
    first = here[_COMMON_V]
    last = there[_COMMON_V]
    for index in range(4):
        threshold = setting[SETTING_BELOW_1_V + index]
        if first < threshold and last < threshold:
            share = 1.0
        elif first >= threshold and last >= threshold:
            share = 0.0
        else:
            share = (threshold - min(first, last)) / abs(last - first)
        result[RESULT_BELOW_1_S + index] += share * duration_s


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64[::1], "
    "float64[::1], float64[:, ::1], float64[:, ::1], float64[::1])"
)
def _one_start(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
    work: NDArray[np.float64],
    used_s: NDArray[np.float64],
) -> None:
    here = work[0]
    there = work[1]
    used_s[:] = 0.0
    segment[:] = 0.0
    result[:] = 0.0
    result[RESULT_TIME_TO_SPEED_S] = np.inf
    result[RESULT_OFF_AT_S] = np.inf
    result[RESULT_LEAST_VOLTAGE_V] = np.inf
    result[RESULT_LEAST_LOAD_VOLTAGE_V] = np.inf
    result[RESULT_LEAST_FREQUENCY_PU] = 1.0
    horizon = setting[SETTING_HORIZON_S]
    goal = setting[SETTING_GOAL_SPEED_PU]
    opens = motor[MOTOR_SWITCH_OPENS_PU]
    recloses = motor[MOTOR_SWITCH_RECLOSES_PU]
    speed = load[LOAD_FIRST_SPEED_PU]
    closed = motor[MOTOR_PHASES] < 2.0 and speed < opens
    time = 0.0
    count = 0
    settled = False
    settled_at = np.inf
    cycle_s = 1.0 / motor[MOTOR_FREQUENCY_HZ]
    lag_s = min(START_LAG_CYCLES * cycle_s, horizon)
    # where `there` was solved: the next step begins there, unless the source or the switch has moved meanwhile
    solved_speed = np.nan
    solved_closed = False
    solved_allowed = np.nan
    for step in range(_MOST_STEPS):
        allowed = allowed_current_a(source, used_s)
        if speed == solved_speed and closed == solved_closed and allowed == solved_allowed:
            here[:] = there
        else:
            _at_speed(motor, load, source, speed, closed, allowed, here)
        if step == 0:
            offset = 1.0 + np.exp(-np.pi * here[_R_OVER_X])
            result[RESULT_FIRST_CREST_A] = np.sqrt(2.0) * min(here[_ASKED_A] * offset, allowed)
            if source[SOURCE_CREST_A] > 0.0:
                result[RESULT_FIRST_CREST_A] = min(here[_ASKED_A] * offset * np.sqrt(2.0), source[SOURCE_CREST_A])
        result[RESULT_FINAL_CURRENT_A] = here[_LOAD_A]
        result[RESULT_FINAL_VOLTAGE_V] = here[_COMMON_V]
        result[RESULT_LIMITED_AT_END] = 1.0 if here[_ASKED_A] > allowed * (1.0 + 1e-9) else 0.0
        if switches_off(source, used_s, here[_ASKED_A]):
            result[RESULT_OFF_AT_S] = time
            result[RESULT_LIMITED_AT_END] = 0.0
            result[RESULT_FINAL_CURRENT_A] = 0.0
            result[RESULT_FINAL_VOLTAGE_V] = 0.0
            break
        if time >= horizon:
            break
        event = min(time_to_next_limit_s(source, used_s, here[_SOURCE_A]), horizon - time)
        before_speed = result[RESULT_TIME_TO_SPEED_S] == np.inf
        first = here[_ACCELERATION]
        if first == 0.0 or settled or step == 0:
            # Holds this speed until the source changes its mind, or for good; at the very start, until torque is there.
            if step == 0 and first != 0.0:
                event = min(event, lag_s)
            elif not settled_at < np.inf:
                settled_at = time
            count = _record(event, here, here, allowed, before_speed, result, segment, count)
            _time_below(event, here, here, setting, result)
            spend_tiers(source, used_s, here[_SOURCE_A], event)
            time += event
            settled = False
            there[:] = here
            solved_speed = speed
            solved_closed = closed
            solved_allowed = allowed
            continue
        settled_at = np.inf
        if first > 0.0:
            target = speed + _STEP_PU
            if closed and speed < opens:
                target = min(target, opens)
            if speed < goal:
                target = min(target, goal)
        else:
            target = max(speed - _STEP_PU, 0.0)
            if not closed and speed > recloses and motor[MOTOR_PHASES] < 2.0:
                target = max(target, recloses)
        _at_speed(motor, load, source, target, closed, allowed, there)
        last = there[_ACCELERATION]
        whole = target - speed
        if first * last <= 0.0:
            # Settles between: takes three time constants for it, then holds.
            slope = (last - first) / whole
            settled = True
            settles_at = speed - first / slope
            duration = -3.0 / slope
            lower, at_lower, upper, at_upper = speed, first, target, last
            side = 0
            for _ in range(8):
                _at_speed(motor, load, source, settles_at, closed, allowed, there)
                if abs(there[_ACCELERATION]) < 1e-6 * abs(first):
                    break
                if (there[_ACCELERATION] > 0.0) == (first > 0.0):
                    lower, at_lower = settles_at, there[_ACCELERATION]
                    if side == 1:
                        at_upper *= 0.5
                    side = 1
                else:
                    upper, at_upper = settles_at, there[_ACCELERATION]
                    if side == -1:
                        at_lower *= 0.5
                    side = -1
                settles_at = lower - at_lower * (upper - lower) / (at_upper - at_lower)
            _at_speed(motor, load, source, settles_at, closed, allowed, there)
            solved_speed = settles_at
            if duration > event:
                duration = event
                settles_at = speed - first / slope * (1.0 - np.exp(slope * event))
                settled = False
            target = settles_at
        else:
            solved_speed = target
            bend = (last - first) / first
            duration = whole / first
            if abs(bend) > 1e-6:
                duration *= np.log1p(bend) / bend
            if duration > event:
                slope = (last - first) / whole
                target = speed + first * event
                if abs(slope * event) > 1e-9:
                    target = speed + first * np.expm1(slope * event) / slope
                duration = event
                _at_speed(motor, load, source, target, closed, allowed, there)
                solved_speed = target
        solved_closed = closed
        solved_allowed = allowed
        count = _record(duration, here, there, allowed, before_speed, result, segment, count)
        _time_below(duration, here, there, setting, result)
        spend_tiers(source, used_s, 0.5 * (here[_SOURCE_A] + there[_SOURCE_A]), duration)
        time += duration
        speed = target
        if closed and speed >= opens:
            closed = False
            result[RESULT_SWITCH_OPENINGS] += 1.0
            _at_speed(motor, load, source, speed, closed, allowed, there)
            solved_speed = speed
            solved_closed = closed
            lost_nms = SWITCH_LOSS_CYCLES * cycle_s * there[_TORQUE_NM]
            speed -= lost_nms / (load[LOAD_INERTIA_KG_M2] * motor[MOTOR_SYNCHRONOUS_RAD_PER_S])
            if speed <= recloses:
                speed = recloses
                closed = True
        elif not closed and speed <= recloses and motor[MOTOR_PHASES] < 2.0:
            closed = True
        if before_speed and speed >= goal:
            result[RESULT_TIME_TO_SPEED_S] = time
    result[RESULT_FINAL_SPEED_PU] = speed
    result[RESULT_SEGMENTS] = count
    if result[RESULT_LEAST_VOLTAGE_V] == np.inf:  # switched off at once
        result[RESULT_LEAST_VOLTAGE_V] = 0.0
        result[RESULT_LEAST_LOAD_VOLTAGE_V] = 0.0
    started = result[RESULT_TIME_TO_SPEED_S] < np.inf
    off = result[RESULT_OFF_AT_S] < np.inf
    if not started and not off and settled_at < np.inf and speed >= setting[SETTING_RUNNING_SPEED_PU]:
        result[RESULT_TIME_TO_SPEED_S] = settled_at
        result[RESULT_OUTCOME] = STARTS_SLOWLY
    elif started and (off or speed >= setting[SETTING_RUNNING_SPEED_PU]):
        slow = result[RESULT_TIME_TO_SPEED_S] > setting[SETTING_SLOW_S]
        result[RESULT_OUTCOME] = STARTS_SLOWLY if slow else STARTS
    elif off:
        result[RESULT_OUTCOME] = SHUTS_OFF
    elif result[RESULT_SWITCH_OPENINGS] >= _HUNTING_OPENINGS:
        result[RESULT_OUTCOME] = HUNTS
    elif first > 0.0 and not settled_at < np.inf and result[RESULT_LIMITED_AT_END] > 0.0:
        result[RESULT_OUTCOME] = SOURCE_LIMITS
    else:
        result[RESULT_OUTCOME] = STALLS


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, :, ::1])")
def motor_start(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
) -> None:
    """Run motors up, one row each.

    Parameters
    ----------
    motor : (n, MOTOR_COLUMNS) circuits, motor_circuit.py [ohm, V, N m]
    load : (n, LOAD_COLUMNS) load_torque.py [N m, kg m2]
    source : (n, SOURCE_COLUMNS) source_limit_state.py [V, ohm, A, s, S]; phase values for three phases
    setting : (n, SETTING_COLUMNS) start_outcome.py [s, -, V]
    result : (n, RESULT_COLUMNS) out, start_outcome.py
    segment : (n, SEGMENTS, SEGMENT_COLUMNS) out [s, A, A], history of currents, current_history.py

    Errors: none; NaN in gives STALLS with NaN figures, so validate first.
    Source: J dw/dt = T - T_load; circuit theory. Checked in tests/published/starts.
    """
    work = np.empty((2, _WORK))
    used_s = np.empty(TIERS)
    for row in range(motor.shape[0]):
        _one_start(motor[row], load[row], source[row], setting[row], result[row], segment[row], work, used_s)
