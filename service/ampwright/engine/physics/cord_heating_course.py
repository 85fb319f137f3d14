"""How warm is the copper of a flexible cord after a while, over a duty cycle, and when does it pass a temperature?

First-order model of one conductor, with the steady heat balance of cord_heating.py on the right:

    tau dT/dt = rise(T) - (T - ambient),    tau wound = tau straight / lay_factor^2

Below the insulation's limit the resistance rises with temperature, above it no longer, so that each side is a linear
equation: exact for current that is constant in stretches, with memory, whatever the length of a stretch. Every
`time_constant_s` here is that of the cord laid straight (cord_time_constant.py); the band between its two ends is
the uncertainty of a time.

Not here: overloads of seconds, where the copper runs ahead of its jacket (cord_short_overload.py).
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.conductor_impedance import COPPER_ALPHA20_PER_K
from ampwright.engine.physics.cord_heating import (
    allowed_current_a,
    copper_resistance_ratio,
    rise_at_20_c_k,
    steady_copper_temperature_c,
)

FloatArray = npt.NDArray[np.float64]


@kernel("float64(float64, float64, float64)")
def _time_along_s(gap_k: float, rate_k_per_s: float, decay_per_s: float) -> float:
    """Time [s] a solution of y' = rate - decay*y, y(0) = 0, takes to reach `gap_k`; inf if it never does."""
    if gap_k == 0.0:
        return 0.0
    if rate_k_per_s == 0.0:
        return math.inf
    straight_s = gap_k / rate_k_per_s
    if straight_s < 0.0:
        return math.inf
    share = decay_per_s * straight_s
    if share >= 1.0:  # the asymptote is on this side of the gap
        return math.inf
    if share == 0.0:
        return straight_s
    return -math.log1p(-share) / decay_per_s


@kernel("float64(float64, float64, float64)")
def _moved_k(duration_s: float, rate_k_per_s: float, decay_per_s: float) -> float:
    """Where the same solution is [K] after `duration_s`."""
    exponent = decay_per_s * duration_s
    if exponent == 0.0:
        return rate_k_per_s * duration_s
    return rate_k_per_s * (-math.expm1(-exponent) / decay_per_s)


@kernel("float64(float64, float64, float64, float64, float64, float64)")
def _advanced_c(
    start_c: float, duration_s: float, ambient_c: float, rise_k: float, limit_c: float, tau_s: float
) -> float:
    """Temperature [C] after one stretch of constant current.

    A scalar autonomous equation moves one way only, so the limit is crossed at most once and each side is linear:
    exact, no steps.
    """
    decay_below = (1.0 - COPPER_ALPHA20_PER_K * rise_k) / tau_s
    rate = (rise_k * copper_resistance_ratio(min(start_c, limit_c)) - (start_c - ambient_c)) / tau_s
    if start_c < limit_c or (start_c == limit_c and rate < 0.0):
        crossing_s = _time_along_s(limit_c - start_c, rate, decay_below) if start_c < limit_c else math.inf
        if crossing_s >= duration_s:
            return start_c + _moved_k(duration_s, rate, decay_below)
        rate = (rise_k * copper_resistance_ratio(limit_c) - (limit_c - ambient_c)) / tau_s
        return limit_c + _moved_k(duration_s - crossing_s, rate, 1.0 / tau_s)
    crossing_s = _time_along_s(limit_c - start_c, rate, 1.0 / tau_s) if start_c > limit_c else math.inf
    if crossing_s >= duration_s:
        return start_c + _moved_k(duration_s, rate, 1.0 / tau_s)
    rate = (rise_k * copper_resistance_ratio(limit_c) - (limit_c - ambient_c)) / tau_s
    return limit_c + _moved_k(duration_s - crossing_s, rate, decay_below)


@kernel("float64(float64, float64, float64, float64, float64, float64, float64, float64, float64, float64)")
def copper_temperature_after_c(
    start_c: float,
    duration_s: float,
    current_a: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
    time_constant_s: float,
) -> float:
    """How warm is the copper after this current has flowed for this long?

    Parameters
    ----------
    start_c : [C], copper temperature at the beginning (the memory)
    duration_s : [s], >= 0
    current_a : [A], RMS, >= 0, constant over `duration_s`
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    limit_c : [C], what the insulation bears; resistance stops rising here
    lay_factor : [-], in (0, 1]
    time_constant_s : [s], > 0, of the cord laid straight (cord_time_constant.py)

    Returns
    -------
    temperature_c : [C]; above `limit_c` a lower bound

    Errors: none. NaN in, NaN out.
    Source: exact solution of the first-order heat balance, each side of the limit in closed form.
    """
    rise_k = rise_at_20_c_k(current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    return _advanced_c(start_c, duration_s, ambient_c, rise_k, limit_c, time_constant_s / (lay_factor * lay_factor))


@kernel("float64(float64, float64, float64, float64, float64, float64, float64, float64, float64, float64)")
def time_to_heat_s(
    start_c: float,
    target_c: float,
    current_a: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
    time_constant_s: float,
) -> float:
    """How long until the copper is at least this warm?

    Parameters
    ----------
    start_c : [C], copper temperature at the beginning
    target_c : [C], temperature asked for
    current_a : [A], RMS, >= 0, constant
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    limit_c : [C], what the insulation bears; resistance stops rising here
    lay_factor : [-], in (0, 1]
    time_constant_s : [s], > 0, of the cord laid straight

    Returns
    -------
    time_s : [s]; 0 where it is that warm already, inf where it never will be. Above `limit_c` an upper bound.

    Errors: none. inf is an outcome ("never"): name it before it leaves the engine.
    Source: closed form of the first-order heat balance.
    """
    if start_c >= target_c:
        return 0.0
    rise_k = rise_at_20_c_k(current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    tau_s = time_constant_s / (lay_factor * lay_factor)
    below_s = 0.0
    if start_c < limit_c:
        rate = (rise_k * copper_resistance_ratio(start_c) - (start_c - ambient_c)) / tau_s
        decay = (1.0 - COPPER_ALPHA20_PER_K * rise_k) / tau_s
        below_s = _time_along_s(min(target_c, limit_c) - start_c, rate, decay)
    if target_c <= limit_c or below_s == math.inf:
        return below_s
    from_c = max(start_c, limit_c)
    rate = (rise_k * copper_resistance_ratio(limit_c) - (from_c - ambient_c)) / tau_s
    return below_s + _time_along_s(target_c - from_c, rate, 1.0 / tau_s)


@kernel(
    "void(float64[::1], float64[::1], float64, float64, float64, float64, float64, float64, float64, float64, "
    "float64[::1])"
)
def copper_history_c(
    current_a: FloatArray,
    duration_s: FloatArray,
    start_c: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
    time_constant_s: float,
    out_c: FloatArray,
) -> None:
    """How warm is the copper at the end of each stretch of a working day?

    Parameters
    ----------
    current_a : (n,) [A], RMS, >= 0, constant over each stretch
    duration_s : (n,) [s], >= 0
    start_c : [C], copper temperature before the first stretch
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    limit_c : [C], what the insulation bears
    lay_factor : [-], in (0, 1]
    time_constant_s : [s], > 0, of the cord laid straight
    out_c : (n,) [C], written: temperature at the end of each stretch

    Returns
    -------
    Nothing. Within a stretch the temperature moves one way, so the hottest moment is one of `start_c`, `out_c`.

    Errors: none.
    Source: exact solution of the first-order heat balance with memory.
    """
    temperature_c = start_c
    for i in range(current_a.shape[0]):
        rise_k = rise_at_20_c_k(current_a[i], rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
        temperature_c = _advanced_c(
            temperature_c, duration_s[i], ambient_c, rise_k, limit_c, time_constant_s / (lay_factor * lay_factor)
        )
        out_c[i] = temperature_c


@kernel("void(float64[::1], float64[::1], float64, float64, float64, float64, float64, float64, float64, float64[::1])")
def duty_copper_temperature_c(
    current_a: FloatArray,
    duration_s: FloatArray,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
    time_constant_s: float,
    out_c: FloatArray,
) -> None:
    """How warm is the copper at the end of each part of a duty cycle that has gone on long enough to repeat itself?

    Parameters
    ----------
    current_a : (n,) [A], RMS, >= 0, the parts of one cycle
    duration_s : (n,) [s], >= 0, not all 0
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    limit_c : [C], what the insulation bears
    lay_factor : [-], in (0, 1]
    time_constant_s : [s], > 0, of the cord laid straight
    out_c : (n,) [C], written: temperature at the end of each part; its last is also the cycle's start

    Returns
    -------
    Nothing. The hottest moment of the cycle is the largest of `out_c`.

    Errors: none.
    Source: fixed point of the exact cycle map. Each part's heat balance is concave in temperature, so is the map; it
    lies above the diagonal at ambient and below it at the hottest steady temperature, hence one fixed point, bisected.
    """
    low_c = ambient_c
    high_c = ambient_c
    for i in range(current_a.shape[0]):
        high_c = max(
            high_c,
            steady_copper_temperature_c(
                current_a[i], ambient_c, rated_current_a, rated_ambient_c, rated_copper_c, limit_c, lay_factor
            ),
        )
    for _ in range(200):
        middle_c = low_c + 0.5 * (high_c - low_c)
        if middle_c in (low_c, high_c):
            break
        copper_history_c(
            current_a,
            duration_s,
            middle_c,
            ambient_c,
            rated_current_a,
            rated_ambient_c,
            rated_copper_c,
            limit_c,
            lay_factor,
            time_constant_s,
            out_c,
        )
        if out_c[-1] > middle_c:
            low_c = middle_c
        else:
            high_c = middle_c
    copper_history_c(
        current_a,
        duration_s,
        high_c,
        ambient_c,
        rated_current_a,
        rated_ambient_c,
        rated_copper_c,
        limit_c,
        lay_factor,
        time_constant_s,
        out_c,
    )


@kernel("float64(float64, float64, float64, float64, float64, float64, float64, float64, float64, float64)")
def allowed_duty_current_a(
    on_s: float,
    off_s: float,
    idle_current_a: float,
    target_c: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    lay_factor: float,
    time_constant_s: float,
) -> float:
    """Which current may flow for `on_s` of every `on_s + off_s` without the copper passing this temperature?

    Parameters
    ----------
    on_s : [s], > 0
    off_s : [s], >= 0
    idle_current_a : [A], >= 0, during `off_s`
    target_c : [C], warmest the copper may get; also the limit of the resistance rise
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    lay_factor : [-], in (0, 1]
    time_constant_s : [s], > 0, of the cord laid straight

    Returns
    -------
    current_a : [A]; 0 where ambient or the idle current alone already passes the target

    Errors: none.
    Source: closed form. The cycle that peaks at the target cools from it over `off_s`; the current that brings it
    back in `on_s` is bisected on the exact heating curve, which is monotone in the current.
    """
    tau_s = time_constant_s / (lay_factor * lay_factor)
    idle_k = rise_at_20_c_k(idle_current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    cooled_c = _advanced_c(target_c, off_s, ambient_c, idle_k, target_c, tau_s)
    if target_c <= ambient_c or cooled_c > target_c:
        return 0.0
    low_a = allowed_current_a(target_c, ambient_c, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    # Without loss, the heat of the coldest resistance would lift the copper in on_s: no larger current can be right.
    coldest = copper_resistance_ratio(min(cooled_c, target_c))
    rated_k = rise_at_20_c_k(rated_current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    needed_k = ((target_c - cooled_c) * tau_s / on_s + (target_c - ambient_c)) / coldest
    high_a = rated_current_a * math.sqrt(needed_k / rated_k)
    for _ in range(200):
        middle_a = low_a + 0.5 * (high_a - low_a)
        if middle_a <= low_a or middle_a >= high_a:
            break
        rise_k = rise_at_20_c_k(middle_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
        if _advanced_c(cooled_c, on_s, ambient_c, rise_k, target_c, tau_s) > target_c:
            high_a = middle_a
        else:
            low_a = middle_a
    return low_a
