"""What is just enough for a start: how many amperes must the source give, how long may the cord be?

Bisection over one column of the source's or the load's row, between a value that starts and one that does not. The
answer is on the starting side. At the break-even itself a start takes for ever, so what a source must give is stated a
little above it, with the time that takes.
Source: bisection; the margin is an assumption.
Not here: the start itself (motor_start.py, universal_motor_start.py).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.current_history import SEGMENT_COLUMNS, SEGMENTS
from ampwright.engine.physics.motor_start import motor_start
from ampwright.engine.physics.source_limit_state import (
    LIMITS,
    SOURCE_COLUMNS,
    SOURCE_CONTINUOUS_A,
    SOURCE_CREST_A,
    SOURCE_RESPONSE,
    SOURCE_TIER_1_A,
    SOURCE_TIER_2_A,
    SOURCE_TIER_3_A,
    STIFF,
)
from ampwright.engine.physics.start_outcome import (
    RESULT_COLUMNS,
    RESULT_OUTCOME,
    RESULT_PEAK_SOURCE_CURRENT_A,
    RESULT_TIME_TO_SPEED_S,
    STARTS_SLOWLY,
)
from ampwright.engine.physics.universal_motor_start import universal_motor_start

INDUCTION = 0
UNIVERSAL = 1

IN_SOURCE = 0
IN_LOAD = 1

MUST_GIVE_BREAK_EVEN_A = 0  # below it no start, however long
MUST_GIVE_CURRENT_A = 1  # the margin above it
MUST_GIVE_TIME_S = 2  # how long the source limits or gives it, until running speed
MUST_GIVE_COLUMNS = 3

# Above the break-even by this much the time is finite and short. Assumption.
_MARGIN = 1.1
_HALVINGS = 40


@kernel(
    "boolean(int64, float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], "
    "float64[:, :, ::1])"
)
def _starts(
    machine: int,
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    result: NDArray[np.float64],
    segment: NDArray[np.float64],
) -> bool:
    if machine == UNIVERSAL:
        universal_motor_start(motor, load, source, setting, result, segment)
    else:
        motor_start(motor, load, source, setting, result, segment)
    return bool(result[0, RESULT_OUTCOME] <= STARTS_SLOWLY)


@kernel("float64(int64, float64[::1], float64[::1], float64[::1], float64[::1], int64, int64, float64, float64)")
def start_break_even(
    machine: int,
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    where: int,
    column: int,
    starts_at: float,
    fails_at: float,
) -> float:
    """Value of one input at which a start just succeeds.

    Parameters
    ----------
    machine : INDUCTION (motor is a MOTOR row) or UNIVERSAL (motor is a UNIVERSAL row)
    motor, load, source, setting : one row each, as for the start kernels [their units]
    where : IN_SOURCE or IN_LOAD
    column : column there
    starts_at : value that is thought to start [unit of the column]
    fails_at : value that is thought not to

    Returns
    -------
    value : on the starting side, within 1e-9 of the span; NaN where `starts_at` does not start; `fails_at` where that
        starts too

    Errors: none.
    Source: bisection. Between the two a single change from start to no start is assumed.
    """
    motors = motor.copy().reshape((1, motor.size))
    loads = load.copy().reshape((1, load.size))
    sources = source.copy().reshape((1, source.size))
    settings = setting.copy().reshape((1, setting.size))
    result = np.empty((1, RESULT_COLUMNS))
    segment = np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    changed = sources if where == IN_SOURCE else loads
    changed[0, column] = starts_at
    if not _starts(machine, motors, loads, sources, settings, result, segment):
        return np.nan
    changed[0, column] = fails_at
    if _starts(machine, motors, loads, sources, settings, result, segment):
        return fails_at
    good = starts_at
    bad = fails_at
    for _ in range(_HALVINGS):
        middle = 0.5 * (good + bad)
        changed[0, column] = middle
        if _starts(machine, motors, loads, sources, settings, result, segment):
            good = middle
        else:
            bad = middle
        if abs(good - bad) <= 1e-9 * abs(starts_at - fails_at):
            break
    return good


@kernel("void(int64, float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1])")
def source_must_give(
    machine: int,
    motor: NDArray[np.float64],
    load: NDArray[np.float64],
    source: NDArray[np.float64],
    setting: NDArray[np.float64],
    answer: NDArray[np.float64],
) -> None:
    """How many amperes, and for how long, a source must give for a start; its own limits are left aside.

    Parameters
    ----------
    machine : INDUCTION or UNIVERSAL
    motor, load, source, setting : (n, ...) rows, as for the start kernels
    answer : (n, MUST_GIVE_COLUMNS) out [A, A, s]; NaN where even without a limit it does not start

    Errors: none.
    Source: bisection; margin of 10 % over the break-even (assumption).
    """
    result = np.empty((1, RESULT_COLUMNS))
    segment = np.empty((1, SEGMENTS, SEGMENT_COLUMNS))
    one = np.empty((1, SOURCE_COLUMNS))
    for row in range(motor.shape[0]):
        one[0] = source[row]
        one[0, SOURCE_RESPONSE] = STIFF
        one[0, SOURCE_CREST_A] = 0.0
        one[0, SOURCE_TIER_1_A] = 0.0
        one[0, SOURCE_TIER_2_A] = 0.0
        one[0, SOURCE_TIER_3_A] = 0.0
        this_motor = motor[row : row + 1]
        this_load = load[row : row + 1]
        this_setting = setting[row : row + 1]
        if not _starts(machine, this_motor, this_load, one, this_setting, result, segment):
            answer[row] = np.nan
            continue
        most = result[0, RESULT_PEAK_SOURCE_CURRENT_A]
        one[0, SOURCE_RESPONSE] = LIMITS
        least = start_break_even(
            machine, motor[row], load[row], one[0], setting[row], IN_SOURCE, SOURCE_CONTINUOUS_A, most, 1e-3 * most
        )
        gives = min(_MARGIN * least, most)
        one[0, SOURCE_CONTINUOUS_A] = gives
        _starts(machine, this_motor, this_load, one, this_setting, result, segment)
        answer[row, MUST_GIVE_BREAK_EVEN_A] = least
        answer[row, MUST_GIVE_CURRENT_A] = gives
        answer[row, MUST_GIVE_TIME_S] = result[0, RESULT_TIME_TO_SPEED_S]
