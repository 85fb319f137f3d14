"""Does an induction motor start on this engine set, and how far do voltage and frequency fall meanwhile?

As motor_start.py, but the electromotive force is the set's flux (generator_response.py) and the frequency moves, so
the march is over time: Runge-Kutta of order 4 over speed, flux, field, frequency and engine together. It ends early
once all of them stand still, or the engine dies: then nothing flows any more until somebody starts it again.
Source: one-axis alternator model, J dw/dt = T - T_load.
Not here: inverter sets and other limiting sources (motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import add_to_history
from ampwright.engine.physics.generator_response import (
    FLOW_CURRENT_A,
    FLOWS,
    GENERATOR_DIES_PU,
    GENERATOR_VOLTAGE_V,
    STATE_FIELD_PU,
    STATE_FLUX_PU,
    STATE_FREQUENCY_PU,
    STATES,
    generator_at_rest,
    generator_flow,
    generator_slopes,
)
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
    SOURCE_OTHER_CONDUCTANCE_S,
    SOURCE_OTHER_SUSCEPTANCE_S,
    SOURCE_REACTANCE_OHM,
    SOURCE_RESISTANCE_OHM,
)
from ampwright.engine.physics.start_outcome import (
    COLLAPSES,
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
    STALLS,
    STARTS,
    STARTS_SLOWLY,
)

_STEP_S = 0.002
_HUNTING_OPENINGS = 4
# Below this share of its voltage a set has collapsed.
_COLLAPSED_PU = 0.35
_STILL_PER_S = 1e-3

# What flows at one state, beside the set's own figures.
_LOAD_A = 0
_COMMON_V = 1
_LOAD_V = 2
_TORQUE_NM = 3
_SPEED_SLOPE = 4
_R_OVER_X = 5
_WORK = 6


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64[::1], float64, float64[::1], boolean, "
    "float64[::1], float64[::1])"
)
def _solve(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    generator: NDArray[np.float64],
    speed_pu: float,
    state: NDArray[np.float64],
    closed: bool,
    flow: NDArray[np.float64],
    work: NDArray[np.float64],
) -> None:
    f = state[STATE_FREQUENCY_PU]
    y, _, torque_per_v2 = motor_at_speed(motor, speed_pu, f, closed)
    branch = complex(source[SOURCE_CORD_RESISTANCE_OHM], source[SOURCE_CORD_REACTANCE_OHM] * f) + 1.0 / y
    together = 1.0 / branch + complex(source[SOURCE_OTHER_CONDUCTANCE_S], source[SOURCE_OTHER_SUSCEPTANCE_S] / f)
    wiring = complex(source[SOURCE_RESISTANCE_OHM], source[SOURCE_REACTANCE_OHM] * f)
    terminals = wiring + 1.0 / together
    generator_flow(generator, state[STATE_FLUX_PU], f, terminals, flow)
    common_v = flow[FLOW_CURRENT_A] / abs(together)
    load_a = common_v / abs(branch)
    load_v = load_a / abs(y)
    torque = torque_per_v2 * load_v * load_v
    against = load_torque_nm(load, speed_pu) + motor[MOTOR_LOSS_TORQUE_NM] * speed_pu * speed_pu
    slope = (torque - against) / (load[LOAD_INERTIA_KG_M2] * motor[MOTOR_SYNCHRONOUS_RAD_PER_S])
    if speed_pu <= 0.0 and slope < 0.0:
        slope = 0.0
    work[_LOAD_A] = load_a
    work[_COMMON_V] = common_v
    work[_LOAD_V] = load_v
    work[_TORQUE_NM] = torque
    work[_SPEED_SLOPE] = slope
    work[_R_OVER_X] = terminals.real / max(abs(terminals.imag), 1e-12)


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[:, ::1], "
    "float64[:, ::1], float64[:, ::1])"
)
def _one_start(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    generator: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
    space: NDArray[np.float64],
    slope: NDArray[np.float64],
) -> None:
    state = space[0, :STATES]
    trial = space[1, :STATES]
    flow = space[2, :FLOWS]
    work = space[3, :_WORK]
    segment[:] = 0.0
    result[:] = 0.0
    result[RESULT_TIME_TO_SPEED_S] = np.inf
    result[RESULT_OFF_AT_S] = np.inf
    result[RESULT_LEAST_VOLTAGE_V] = np.inf
    result[RESULT_LEAST_LOAD_VOLTAGE_V] = np.inf
    result[RESULT_LEAST_FREQUENCY_PU] = np.inf
    horizon = setting[SETTING_HORIZON_S]
    goal = setting[SETTING_GOAL_SPEED_PU]
    opens = motor[MOTOR_SWITCH_OPENS_PU]
    recloses = motor[MOTOR_SWITCH_RECLOSES_PU]
    cycle_s = 1.0 / motor[MOTOR_FREQUENCY_HZ]
    speed = load[LOAD_FIRST_SPEED_PU]
    single = motor[MOTOR_PHASES] < 2.0
    closed = single and speed < opens
    running = complex(source[SOURCE_OTHER_CONDUCTANCE_S], source[SOURCE_OTHER_SUSCEPTANCE_S])
    before_ohm = complex(1e9, 0.0)
    if abs(running) > 0.0:
        before_ohm = 1.0 / running + complex(source[SOURCE_RESISTANCE_OHM], source[SOURCE_REACTANCE_OHM])
    generator_at_rest(generator, before_ohm, state)
    field_at_rest = state[STATE_FIELD_PU]
    time = 0.0
    count = 0
    lag_left = START_LAG_CYCLES * cycle_s
    still, dead = False, False
    slope[:] = 0.0
    speed_slope = np.zeros(4)
    while time < horizon:
        step = min(_STEP_S, horizon - time)
        for stage in range(4):
            ahead = step * (0.0 if stage == 0 else (1.0 if stage == 3 else 0.5))
            tried = speed
            if stage > 0:
                tried = max(speed + ahead * speed_slope[stage - 1], 0.0)
            for k in range(STATES):
                trial[k] = state[k] + (ahead * slope[stage - 1, k] if stage > 0 else 0.0)
            _solve(motor, load, source, generator, tried, trial, closed, flow, work)
            generator_slopes(generator, trial, field_at_rest, flow, slope[stage])
            # Torque is late by a fraction of a cycle at the very start: the speed waits, the set does not.
            speed_slope[stage] = work[_SPEED_SLOPE] if lag_left <= 0.0 else 0.0
            if stage == 0:
                load_a = work[_LOAD_A]
                source_a = flow[FLOW_CURRENT_A]
                common_v = work[_COMMON_V]
                load_v = work[_LOAD_V]
                if time == 0.0:
                    offset = 1.0 + np.exp(-np.pi * work[_R_OVER_X])
                    result[RESULT_FIRST_CREST_A] = np.sqrt(2.0) * source_a * offset
                motion = abs(work[_SPEED_SLOPE])
                for k in range(STATES):
                    motion = max(motion, abs(slope[0, k]))
                still = motion < _STILL_PER_S and lag_left <= 0.0
        if still:
            step = horizon - time
        lag_left -= step
        before_speed = result[RESULT_TIME_TO_SPEED_S] == np.inf
        count = add_to_history(segment, count, step, load_a, source_a)
        result[RESULT_PEAK_CURRENT_A] = max(result[RESULT_PEAK_CURRENT_A], load_a)
        result[RESULT_PEAK_SOURCE_CURRENT_A] = max(result[RESULT_PEAK_SOURCE_CURRENT_A], source_a)
        result[RESULT_LEAST_VOLTAGE_V] = min(result[RESULT_LEAST_VOLTAGE_V], common_v)
        result[RESULT_LEAST_LOAD_VOLTAGE_V] = min(result[RESULT_LEAST_LOAD_VOLTAGE_V], load_v)
        result[RESULT_LEAST_FREQUENCY_PU] = min(result[RESULT_LEAST_FREQUENCY_PU], state[STATE_FREQUENCY_PU])
        for index in range(4):
            if common_v < setting[SETTING_BELOW_1_V + index]:
                result[RESULT_BELOW_1_S + index] += step
        result[RESULT_FINAL_CURRENT_A] = load_a
        result[RESULT_FINAL_VOLTAGE_V] = common_v
        if before_speed:
            result[RESULT_CURRENT_SQUARED_TIME_A2S] += load_a * load_a * step
        if still:
            time = horizon
            break
        was = speed
        speed += step / 6.0 * (speed_slope[0] + 2.0 * speed_slope[1] + 2.0 * speed_slope[2] + speed_slope[3])
        speed = max(speed, 0.0)
        for k in range(STATES):
            state[k] += step / 6.0 * (slope[0, k] + 2.0 * slope[1, k] + 2.0 * slope[2, k] + slope[3, k])
        state[STATE_FREQUENCY_PU] = max(state[STATE_FREQUENCY_PU], 0.05)
        state[STATE_FLUX_PU] = max(state[STATE_FLUX_PU], 0.0)
        if before_speed and was < goal <= speed:
            result[RESULT_TIME_TO_SPEED_S] = time + step * (goal - was) / (speed - was)
        time += step
        if state[STATE_FREQUENCY_PU] < generator[GENERATOR_DIES_PU]:
            dead = True
            break
        if closed and speed >= opens:
            closed = False
            result[RESULT_SWITCH_OPENINGS] += 1.0
            _solve(motor, load, source, generator, speed, state, closed, flow, work)
            lost_nms = SWITCH_LOSS_CYCLES * cycle_s * work[_TORQUE_NM]
            speed -= lost_nms / (load[LOAD_INERTIA_KG_M2] * motor[MOTOR_SYNCHRONOUS_RAD_PER_S])
        if single and not closed and speed <= recloses:
            closed = True
    if dead:
        count = add_to_history(segment, count, horizon - time, 0.0, 0.0)
        result[RESULT_OFF_AT_S] = time
        result[RESULT_LEAST_VOLTAGE_V] = result[RESULT_LEAST_LOAD_VOLTAGE_V] = 0.0
        result[RESULT_FINAL_CURRENT_A] = result[RESULT_FINAL_VOLTAGE_V] = 0.0
        for index in range(4):
            result[RESULT_BELOW_1_S + index] += horizon - time
        speed = 0.0
    result[RESULT_FINAL_SPEED_PU] = speed
    result[RESULT_SEGMENTS] = count
    started = result[RESULT_TIME_TO_SPEED_S] < np.inf
    runs = speed >= setting[SETTING_RUNNING_SPEED_PU] * state[STATE_FREQUENCY_PU]
    collapsed = result[RESULT_FINAL_VOLTAGE_V] < _COLLAPSED_PU * generator[GENERATOR_VOLTAGE_V]
    if collapsed:
        result[RESULT_OUTCOME] = COLLAPSES
    elif started and runs:
        slow = result[RESULT_TIME_TO_SPEED_S] > setting[SETTING_SLOW_S]
        result[RESULT_OUTCOME] = STARTS_SLOWLY if slow else STARTS
    elif runs and (not closed or not single or opens > 1.0):
        result[RESULT_TIME_TO_SPEED_S] = horizon
        result[RESULT_OUTCOME] = STARTS_SLOWLY
    elif result[RESULT_SWITCH_OPENINGS] >= _HUNTING_OPENINGS:
        result[RESULT_OUTCOME] = HUNTS
    else:
        result[RESULT_OUTCOME] = STALLS


@kernel(
    "void(float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], "
    "float64[:, :, ::1])"
)
def generator_start(
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    generator: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
) -> None:
    """Run motors up on engine sets, one row each.

    Parameters
    ----------
    motor : (n, MOTOR_COLUMNS) circuits, motor_circuit.py [ohm, V, N m]
    load : (n, LOAD_COLUMNS) load_torque.py [N m, kg m2]
    source : (n, SOURCE_COLUMNS) source_limit_state.py; of it only wiring, cord and other load [ohm, S]
    generator : (n, GENERATOR_COLUMNS) generator_response.py [-, s, VA, V]
    setting : (n, SETTING_COLUMNS) start_outcome.py [s, -, V]
    result : (n, RESULT_COLUMNS) out, start_outcome.py
    segment : (n, SEGMENTS, SEGMENT_COLUMNS) out [s, A, A], current_history.py

    Errors: none; NaN in gives STALLS with NaN figures, so validate first.
    Source: one-axis alternator model; J dw/dt = T - T_load. Checked in tests/published/starts.
    """
    space = np.empty((4, 8))
    slope = np.empty((4, STATES))
    for row in range(motor.shape[0]):
        _one_start(
            motor[row], load[row], source[row], generator[row], setting[row], result[row], segment[row], space, slope
        )
