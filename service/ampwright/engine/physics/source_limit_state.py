"""How much current does a source let through at this moment of a start, and when does that change?

A source is an electromotive force behind an impedance, with an optional electronic limit: a continuous value, up to
three tiers above it (an amount for a time), and a crest limit. A tier's clock runs while the current is above the level
below it, is not reset within a start, and each tier has its own (independent timers). What happens when a tier is used
up, or more is asked than the highest, is the response.
A limit acts on the effective current of a sine; a crest limit is taken as its value over sqrt(2), the way a linear load
meets it.
Not here: engine sets (generator_start.py), the bands between timer policies (the caller asks twice).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

# Response to more current than is allowed.
STIFF = 0  # no limit
LIMITS = 1  # folds the voltage back, steps down as tiers are used up, never switches off
LIMITS_FOR_A_TIME = 2  # folds back at the highest tier, switches off when a tier that is needed is used up
SHUTS_DOWN = 3  # switches off at once above the highest tier, and when a tier that is needed is used up

SOURCE_EMF_V = 0  # effective, per phase (line to neutral for three phases)
SOURCE_RESISTANCE_OHM = 1  # up to the point where the loads part
SOURCE_REACTANCE_OHM = 2
SOURCE_RESPONSE = 3
SOURCE_CONTINUOUS_A = 4
SOURCE_TIER_1_A = 5  # ascending; 0: no such tier
SOURCE_TIER_1_S = 6
SOURCE_TIER_2_A = 7
SOURCE_TIER_2_S = 8
SOURCE_TIER_3_A = 9
SOURCE_TIER_3_S = 10
SOURCE_CREST_A = 11  # 0: none
SOURCE_OTHER_CONDUCTANCE_S = 12  # what runs beside, at the common point, as an admittance
SOURCE_OTHER_SUSCEPTANCE_S = 13  # negative for a lagging load
SOURCE_CORD_RESISTANCE_OHM = 14  # from the common point to the motor, out and back
SOURCE_CORD_REACTANCE_OHM = 15
SOURCE_COLUMNS = 16

TIERS = 3


@kernel("float64(float64[::1], float64[::1])")
def allowed_current_a(source: NDArray[np.float64], used_s: NDArray[np.float64]) -> float:
    """Effective current that the source lets through now.

    Parameters
    ----------
    source : (SOURCE_COLUMNS,)
    used_s : (TIERS,) [s] time already spent on each tier

    Returns
    -------
    allowed_a : [A] infinity where nothing limits

    Errors: none.
    Source: definition of the tiers above; the timer policy is an assumption.
    """
    allowed = np.inf
    if source[SOURCE_RESPONSE] != STIFF:
        allowed = source[SOURCE_CONTINUOUS_A]
        for tier in range(TIERS):
            amount = source[SOURCE_TIER_1_A + 2 * tier]
            if not amount > 0.0 or used_s[tier] >= source[SOURCE_TIER_1_S + 2 * tier]:
                break
            allowed = amount
    if source[SOURCE_CREST_A] > 0.0:
        allowed = min(allowed, source[SOURCE_CREST_A] / np.sqrt(2.0))
    return allowed


@kernel("boolean(float64[::1], float64[::1], float64)")
def switches_off(source: NDArray[np.float64], used_s: NDArray[np.float64], asked_a: float) -> bool:
    """Whether the source switches off now, asked for this current.

    Parameters
    ----------
    source : (SOURCE_COLUMNS,)
    used_s : (TIERS,) [s]
    asked_a : [A] effective current that would flow without a limit

    Returns
    -------
    off : True where it does

    Errors: none.
    Source: definition of the responses above.
    """
    if source[SOURCE_RESPONSE] == SHUTS_DOWN:
        return asked_a > allowed_current_a(source, used_s)
    if source[SOURCE_RESPONSE] != LIMITS_FOR_A_TIME:
        return False
    spent = False
    top = source[SOURCE_CONTINUOUS_A]
    for tier in range(TIERS):
        amount = source[SOURCE_TIER_1_A + 2 * tier]
        if not amount > 0.0:
            break
        if used_s[tier] >= source[SOURCE_TIER_1_S + 2 * tier]:
            spent = True
            break
        top = amount
    return spent and asked_a > top


@kernel("float64(float64[::1], float64[::1], float64)")
def time_to_next_limit_s(source: NDArray[np.float64], used_s: NDArray[np.float64], current_a: float) -> float:
    """Time until a tier is used up, if this current goes on.

    Parameters
    ----------
    source : (SOURCE_COLUMNS,)
    used_s : (TIERS,) [s]
    current_a : [A] effective, flowing

    Returns
    -------
    time_s : [s] infinity if none

    Errors: none.
    Source: definition of the tiers above.
    """
    least = np.inf
    if source[SOURCE_RESPONSE] == STIFF:
        return least
    below = source[SOURCE_CONTINUOUS_A]
    for tier in range(TIERS):
        amount = source[SOURCE_TIER_1_A + 2 * tier]
        left = source[SOURCE_TIER_1_S + 2 * tier] - used_s[tier]
        if not amount > 0.0 or left <= 0.0:
            break
        if current_a > below * (1.0 + 1e-9):
            least = min(least, left)
        below = amount
    return least


@kernel("void(float64[::1], float64[::1], float64, float64)")
def spend_tiers(source: NDArray[np.float64], used_s: NDArray[np.float64], current_a: float, duration_s: float) -> None:
    """Let the tiers' clocks run.

    Parameters
    ----------
    source : (SOURCE_COLUMNS,)
    used_s : (TIERS,) [s] in and out
    current_a : [A] effective, flowing
    duration_s : [s]

    Errors: none.
    Source: definition of the tiers above.
    """
    if source[SOURCE_RESPONSE] == STIFF:
        return
    below = source[SOURCE_CONTINUOUS_A]
    for tier in range(TIERS):
        amount = source[SOURCE_TIER_1_A + 2 * tier]
        if not amount > 0.0:
            break
        if current_a > below * (1.0 + 1e-9):
            used_s[tier] += duration_s
            # A clock that is at its end up to rounding is at its end: else the next event comes after no time.
            if source[SOURCE_TIER_1_S + 2 * tier] - used_s[tier] < 1e-9:
                used_s[tier] = max(used_s[tier], source[SOURCE_TIER_1_S + 2 * tier])
        below = amount
