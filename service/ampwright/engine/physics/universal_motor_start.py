"""Does a hand tool with a series motor run up on this source, how fast, and how fast does it end?

Quasi-steady, as motor_start.py, but the motor saturates, so at each speed its current is found by false position: that
which the source's electromotive force drives, or that which its limit lets through. A soft start is a share of the
voltage that rises with time; it is taken as lossless and sinusoidal, which leaves out the harmonics of phase control.
A series motor has no synchronous speed: 1 is its no-load speed at plate voltage, and a weak source lets it end slower.
Its own fan and gear are part of the load, a fifth of their torque constant and the rest quadratic (assumption).
Source: J dw/dt = T - T_load; series motor phasor (universal_motor.py).
Not here: electronic (brushless) tools (electronic_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import add_to_history
from ampwright.engine.physics.load_torque import LOAD_FIRST_SPEED_PU, LOAD_INERTIA_KG_M2, load_torque_nm
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
from ampwright.engine.physics.universal_motor import (
    UNIVERSAL_IDLE_TORQUE_NM,
    UNIVERSAL_NO_LOAD_RAD_PER_S,
    UNIVERSAL_SOFT_FIRST,
    UNIVERSAL_SOFT_START_S,
    universal_impedance,
    universal_torque_nm,
)

_STEP_PU = 0.02
_MOST_STEPS = 20000
_IDLE_CONSTANT_SHARE = 0.2
_RAMP_STEPS = 40

_ACCELERATION = 0
_LOAD_A = 1
_SOURCE_A = 2
_COMMON_V = 3
_LOAD_V = 4
_ASKED_A = 5
_R_OVER_X = 6
_WORK = 7


@kernel("void(float64[::1], float64[::1], float64, float64, float64, float64[::1])")
def _flow(
    universal: NDArray[np.float64],
    source: NDArray[np.float64],
    speed_pu: float,
    share: float,
    current_a: float,
    work: NDArray[np.float64],
) -> None:
    """What the source must give for this motor current; a soft start works as a lossless transformer `share` : 1."""
    motor_ohm = universal_impedance(universal, current_a, speed_pu)
    # Seen from the line the motor's impedance is larger by share^-2 and its current smaller by share.
    line_a = current_a * share
    branch = complex(source[SOURCE_CORD_RESISTANCE_OHM], source[SOURCE_CORD_REACTANCE_OHM])
    branch += motor_ohm / (share * share)
    together = 1.0 / branch + complex(source[SOURCE_OTHER_CONDUCTANCE_S], source[SOURCE_OTHER_SUSCEPTANCE_S])
    common_v = line_a * abs(branch)
    work[_LOAD_A] = line_a
    work[_COMMON_V] = common_v
    work[_SOURCE_A] = common_v * abs(together)
    work[_LOAD_V] = line_a * abs(motor_ohm) / (share * share)
    loop = complex(source[SOURCE_RESISTANCE_OHM], source[SOURCE_REACTANCE_OHM]) + 1.0 / together
    work[_ASKED_A] = work[_SOURCE_A] * abs(loop)  # the electromotive force that this needs; replaced by the caller
    work[_R_OVER_X] = loop.real / max(abs(loop.imag), 1e-12)


@kernel("float64(float64[::1], float64[::1], float64, float64, int64, float64, float64, float64[::1])")
def _current_for(
    universal: NDArray[np.float64],
    source: NDArray[np.float64],
    speed_pu: float,
    share: float,
    column: int,
    wanted: float,
    highest_a: float,
    work: NDArray[np.float64],
) -> float:
    """Motor current at which a column of `_flow`, which rises with it, has the wanted value; false position, halved."""
    low = 0.0
    at_low = -wanted
    high = highest_a
    _flow(universal, source, speed_pu, share, high, work)
    at_high = work[column] - wanted
    if at_high <= 0.0:
        return high
    current = high
    side = 0
    for _ in range(60):
        current = low - at_low * (high - low) / (at_high - at_low)
        _flow(universal, source, speed_pu, share, current, work)
        miss = work[column] - wanted
        if abs(miss) < 1e-10 * wanted:
            break
        if miss > 0.0:
            high, at_high = current, miss
            if side == 1:
                at_low *= 0.5
            side = 1
        else:
            low, at_low = current, miss
            if side == -1:
                at_high *= 0.5
            side = -1
    return current


@kernel("void(float64[::1], float64[::1], float64[::1], float64, float64, float64, float64[::1])")
def _at_speed(
    universal: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    speed_pu: float,
    share: float,
    allowed_a: float,
    work: NDArray[np.float64],
) -> None:
    high = source[SOURCE_EMF_V] / universal_impedance(universal, 0.0, 0.0).real / share
    current = _current_for(universal, source, speed_pu, share, _ASKED_A, source[SOURCE_EMF_V], high, work)
    asked = work[_SOURCE_A]
    if asked > allowed_a:
        current = _current_for(universal, source, speed_pu, share, _SOURCE_A, allowed_a, current, work)
    work[_ASKED_A] = asked
    torque = universal_torque_nm(universal, current)
    own = universal[UNIVERSAL_IDLE_TORQUE_NM]
    own *= _IDLE_CONSTANT_SHARE + (1.0 - _IDLE_CONSTANT_SHARE) * speed_pu * speed_pu
    against = load_torque_nm(load, speed_pu) + own
    if speed_pu <= 0.0 and torque < against:
        torque = against
    work[_ACCELERATION] = (torque - against) / (load[LOAD_INERTIA_KG_M2] * universal[UNIVERSAL_NO_LOAD_RAD_PER_S])


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[:, ::1], float64[:, ::1], "
    "float64[::1])"
)
def _one_start(
    universal: NDArray[np.float64],
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
    soft_s = universal[UNIVERSAL_SOFT_START_S]
    speed = load[LOAD_FIRST_SPEED_PU]
    time = 0.0
    count = 0
    settled = False
    settled_at = np.inf
    # `there` of the step before is `here` of this one, unless the source or the soft start has moved meanwhile
    solved_share = np.nan
    solved_allowed = np.nan
    for step in range(_MOST_STEPS):
        ramp_left = soft_s - time if soft_s > 0.0 else 0.0
        ramps = ramp_left > 1e-9
        share = 1.0
        ramp_step = np.inf
        if ramps:
            ramp_step = min(soft_s / _RAMP_STEPS, ramp_left)
            first_share = universal[UNIVERSAL_SOFT_FIRST]
            share = first_share + (1.0 - first_share) * min((time + 0.5 * ramp_step) / soft_s, 1.0)
        allowed = allowed_current_a(source, used_s)
        if share == solved_share and allowed == solved_allowed:
            here[:] = there
        else:
            _at_speed(universal, load, source, speed, share, allowed, here)
        if step == 0:
            offset = 1.0 + np.exp(-np.pi * here[_R_OVER_X])
            crest = np.sqrt(2.0) * allowed
            if source[SOURCE_CREST_A] > 0.0:
                crest = source[SOURCE_CREST_A]
            result[RESULT_FIRST_CREST_A] = min(np.sqrt(2.0) * here[_ASKED_A] * offset, crest)
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
        event = min(event, ramp_step)
        before_speed = result[RESULT_TIME_TO_SPEED_S] == np.inf
        first = here[_ACCELERATION]
        if first == 0.0 or settled:
            if not settled_at < np.inf:
                settled_at = time
            duration = event
            there[:] = here
            settled = False
            target = speed
        else:
            settled_at = np.inf
            target = speed + _STEP_PU if first > 0.0 else max(speed - _STEP_PU, 0.0)
            if first > 0.0 and speed < goal:
                target = min(target, goal)
            _at_speed(universal, load, source, target, share, allowed, there)
            last = there[_ACCELERATION]
            whole = target - speed
            if first * last <= 0.0:
                slope = (last - first) / whole
                duration = -3.0 / slope
                settled = True
                target = speed - first / slope
                if duration > event:
                    duration = event
                    target = speed - first / slope * (1.0 - np.exp(slope * event))
                    settled = False
                _at_speed(universal, load, source, target, share, allowed, there)
            else:
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
                    _at_speed(universal, load, source, target, share, allowed, there)
        solved_share = share
        solved_allowed = allowed
        load_a2 = here[_LOAD_A] * here[_LOAD_A] + here[_LOAD_A] * there[_LOAD_A] + there[_LOAD_A] * there[_LOAD_A]
        load_a2 /= 3.0
        source_a2 = here[_SOURCE_A] * here[_SOURCE_A] + here[_SOURCE_A] * there[_SOURCE_A]
        source_a2 = (source_a2 + there[_SOURCE_A] * there[_SOURCE_A]) / 3.0
        result[RESULT_PEAK_CURRENT_A] = max(result[RESULT_PEAK_CURRENT_A], here[_LOAD_A], there[_LOAD_A])
        result[RESULT_PEAK_SOURCE_CURRENT_A] = max(
            result[RESULT_PEAK_SOURCE_CURRENT_A], here[_SOURCE_A], there[_SOURCE_A]
        )
        result[RESULT_LEAST_VOLTAGE_V] = min(result[RESULT_LEAST_VOLTAGE_V], here[_COMMON_V], there[_COMMON_V])
        result[RESULT_LEAST_LOAD_VOLTAGE_V] = min(result[RESULT_LEAST_LOAD_VOLTAGE_V], here[_LOAD_V], there[_LOAD_V])
        if before_speed:
            result[RESULT_CURRENT_SQUARED_TIME_A2S] += load_a2 * duration
        if here[_ASKED_A] > allowed * (1.0 + 1e-9):
            result[RESULT_LIMITED_S] += duration
        middle_v = 0.5 * (here[_COMMON_V] + there[_COMMON_V])
        for index in range(4):
            if middle_v < setting[SETTING_BELOW_1_V + index]:
                result[RESULT_BELOW_1_S + index] += duration
        count = add_to_history(segment, count, duration, np.sqrt(load_a2), np.sqrt(source_a2))
        spend_tiers(source, used_s, 0.5 * (here[_SOURCE_A] + there[_SOURCE_A]), duration)
        time += duration
        speed = target
        if before_speed and speed >= goal:
            result[RESULT_TIME_TO_SPEED_S] = time
    result[RESULT_FINAL_SPEED_PU] = speed
    result[RESULT_SEGMENTS] = count
    if result[RESULT_LEAST_VOLTAGE_V] == np.inf:
        result[RESULT_LEAST_VOLTAGE_V] = 0.0
        result[RESULT_LEAST_LOAD_VOLTAGE_V] = 0.0
    started = result[RESULT_TIME_TO_SPEED_S] < np.inf
    off = result[RESULT_OFF_AT_S] < np.inf
    runs = speed >= setting[SETTING_RUNNING_SPEED_PU]
    if started and (off or runs):
        slow = result[RESULT_TIME_TO_SPEED_S] > setting[SETTING_SLOW_S]
        result[RESULT_OUTCOME] = STARTS_SLOWLY if slow else STARTS
    elif off:
        result[RESULT_OUTCOME] = SHUTS_OFF
    elif settled_at < np.inf and runs:
        result[RESULT_TIME_TO_SPEED_S] = settled_at
        result[RESULT_OUTCOME] = STARTS_SLOWLY
    elif not settled_at < np.inf and result[RESULT_LIMITED_AT_END] > 0.0:
        result[RESULT_OUTCOME] = SOURCE_LIMITS
    else:
        result[RESULT_OUTCOME] = STALLS


@kernel("void(float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, :, ::1])")
def universal_motor_start(
    universal: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
) -> None:
    """Run series motors up, one row each. With a load of work and a first speed it tells where a cut ends.

    Parameters
    ----------
    universal : (n, UNIVERSAL_COLUMNS) universal_motor.py [ohm, V s/A, A, rad/s, V, N m, s]
    load : (n, LOAD_COLUMNS) load_torque.py [N m, kg m2], on top of the tool's own idle torque
    source : (n, SOURCE_COLUMNS) source_limit_state.py [V, ohm, A, s, S]
    setting : (n, SETTING_COLUMNS) start_outcome.py [s, -, V]; the goal is over no-load speed
    result : (n, RESULT_COLUMNS) out, start_outcome.py
    segment : (n, SEGMENTS, SEGMENT_COLUMNS) out [s, A, A], current_history.py

    Errors: none; NaN in gives STALLS with NaN figures, so validate first.
    Source: J dw/dt = T - T_load; series motor phasor. Checked against its time-domain equations in
    tests/published/starts.
    """
    work = np.empty((2, _WORK))
    used_s = np.empty(TIERS)
    for row in range(universal.shape[0]):
        _one_start(universal[row], load[row], source[row], setting[row], result[row], segment[row], work, used_s)
