"""When does an electronic source stop giving what the loads ask, at the earliest and at the latest?

A limit has a continuous value and tiers above it: (amount, seconds) in ascending amounts and descending seconds. What
the maker's timers do is not on the label, so two readings bound it; both are stated here because "independent timers"
bounds nothing until counting and reset of each timer are said:

Earliest, a shared budget: one budget for all tiers; a load inside tier k uses dt / seconds_k of it, a load beyond the
top tier is refused at once. The budget is whole again after `recovery_s` without a break at or below the continuous
value, and not before.
Latest, independent timers: timer k counts while the load is above the amount below tier k (the continuous value for
the first) and falls to zero the moment it is not. A load beyond the top tier is borne for the top tier's time. With
`own_band` true timer k counts only while the load lies inside tier k (the last also beyond), and leaving the band
either way resets it: then a load that swings between two tiers is never refused, and more load may act later.

A load that lasts exactly as long as its tier is still borne. No tiers: anything above the continuous value is refused
at once, in both readings. What "refused" means (shutdown, limiting without end, a voltage dip) is the response of the
source: limit_events.py. The peak limit is apart: it acts when crest times current passes it, whatever the tiers say.

Amounts are in the unit of the limit, A, VA or W, the same for load and limit. +inf: does not happen.

Source: definition of a tier; policies are assumptions L-01 to L-03 (limit_events.py).
Not here: thermal devices (trip_time.py), the voltage a limiting source then gives (the network).
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

BUDGET_STATE_LENGTH = 2
OUTPUTS = 6
OVER_CONTINUOUS, REFUSED_EARLIEST, REFUSED_LATEST, OVER_TOP, OVER_PEAK_EARLIEST, OVER_PEAK_LATEST = range(OUTPUTS)

_SLACK = 1e-9


@kernel("float64(float64[::1], float64[::1], float64, float64[:,::1], float64, float64[::1])")
def budget_out_s(
    duration_s: FloatArray,
    load_amount: FloatArray,
    continuous_amount: float,
    tiers: FloatArray,
    recovery_s: float,
    state: FloatArray,
) -> float:
    """Time at which one budget shared by all tiers is used up; `state` is carried on in place.

    Parameters
    ----------
    duration_s : (m,) [s], the last may be +inf
    load_amount : (m,) [A, VA or W], >= 0
    continuous_amount : [same unit]
    tiers : (k, 2) [same unit, s], ascending amounts, descending seconds > 0; amounts of +inf are padding
    recovery_s : [s] at or below the continuous value that make the budget whole
    state : (2,) [ratio used, s at rest], in and out

    Returns
    -------
    refused_s : [s] from the start, +inf where never; the state goes on as if it had been borne

    Errors: none. Source: assumption L-01 (limit_events.py).
    """
    refused_s = math.inf
    start_s = 0.0
    count = 0
    while count < tiers.shape[0] and tiers[count, 0] < math.inf:
        count += 1
    for i in range(duration_s.shape[0]):
        step_s = duration_s[i]
        load = load_amount[i]
        if load <= continuous_amount * (1.0 + _SLACK):
            state[1] += step_s
            if state[1] >= recovery_s:
                state[0] = 0.0
        elif step_s > 0.0:
            state[1] = 0.0
            k = 0
            while k < count and load > tiers[k, 0] * (1.0 + _SLACK):
                k += 1
            if k == count:
                refused_s = min(refused_s, start_s)
                state[0] = 1.0
            else:
                seconds = tiers[k, 1]
                left_s = max(1.0 - state[0], 0.0) * seconds
                if step_s > left_s + _SLACK * seconds:
                    refused_s = min(refused_s, start_s + left_s)
                state[0] = min(state[0] + step_s / seconds, 1.0)
        start_s += step_s
    return refused_s


@kernel("float64(float64[::1], float64[::1], float64, float64[:,::1], boolean, float64[::1])")
def timers_out_s(
    duration_s: FloatArray,
    load_amount: FloatArray,
    continuous_amount: float,
    tiers: FloatArray,
    own_band: bool,
    state: FloatArray,
) -> float:
    """Time at which the first of independent timers runs out; `state` is carried on in place.

    Parameters
    ----------
    duration_s : (m,) [s], the last may be +inf
    load_amount : (m,) [A, VA or W]
    continuous_amount : [same unit]
    tiers : (k, 2) [same unit, s], see budget_out_s
    own_band : whether timer k counts only while the load lies inside tier k
    state : (k,) [s] of each timer, in and out

    Returns
    -------
    refused_s : [s] from the start, +inf where never

    Errors: none. Source: assumption L-02 (limit_events.py).
    """
    refused_s = math.inf
    start_s = 0.0
    count = 0
    while count < tiers.shape[0] and tiers[count, 0] < math.inf:
        count += 1
    for i in range(duration_s.shape[0]):
        step_s = duration_s[i]
        load = load_amount[i]
        if count == 0 and step_s > 0.0 and load > continuous_amount * (1.0 + _SLACK):
            refused_s = min(refused_s, start_s)
        for k in range(count):
            floor = continuous_amount if k == 0 else tiers[k - 1, 0]
            counts = load > floor * (1.0 + _SLACK)
            if own_band and k < count - 1 and load > tiers[k, 0] * (1.0 + _SLACK):
                counts = False
            if not counts:
                state[k] = 0.0
            else:
                left_s = max(tiers[k, 1] - state[k], 0.0)
                if step_s > left_s + _SLACK * tiers[k, 1]:
                    refused_s = min(refused_s, start_s + left_s)
                state[k] += step_s
        start_s += step_s
    return refused_s


@kernel("float64(float64[::1], float64[::1], float64)")
def first_above_s(duration_s: FloatArray, amount: FloatArray, level_amount: float) -> float:
    """Start of the first step that lies above a level.

    Parameters
    ----------
    duration_s : (m,) [s]
    amount : (m,) [any unit]
    level_amount : [same unit]

    Returns
    -------
    start_s : [s], +inf where none does

    Errors: none. Source: definition.
    """
    start_s = 0.0
    for i in range(duration_s.shape[0]):
        if duration_s[i] > 0.0 and amount[i] > level_amount * (1.0 + _SLACK):
            return start_s
        start_s += duration_s[i]
    return math.inf


@kernel(
    "void(int64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[:,:,:,::1], float64[::1],"
    " boolean[::1], float64[:,::1], float64[:,::1], float64[:,::1], float64[:,::1])"
)
def limit_times_s(
    first_step: IntArray,
    duration_s: FloatArray,
    load_amount: FloatArray,
    peak_a: FloatArray,
    continuous_amount: FloatArray,
    tiers: FloatArray,
    recovery_s: FloatArray,
    own_band: BoolArray,
    peak_limit_a: FloatArray,
    budget_state: FloatArray,
    timer_state: FloatArray,
    times_s: FloatArray,
) -> None:
    """Everything that happens at many limits under one ragged history each.

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step; the last is m
    duration_s : (m,) [s]
    load_amount : (m,) [A, VA or W]
    peak_a : (m,) [A] peak of the current; 0 where unknown
    continuous_amount : (n,) [same unit as the load]
    tiers : (n, 2, k, 2) [same unit, s] for the earliest and the latest reading, padded with +inf
    recovery_s : (n,) [s]
    own_band : (n,) whether a timer of the latest reading counts only inside its tier
    peak_limit_a : (n, 2) [A] lowest and highest plausible, +inf where there is none
    budget_state : (n, 2) [ratio, s], in and out
    timer_state : (n, k) [s], in and out
    times_s : (n, 6) [s], out: over continuous, refused earliest, refused latest, beyond the highest tier of the latest
        reading, over the lowest peak limit, over the highest

    Returns
    -------
    nothing; `times_s` and both states are written. Refused latest never lies before refused earliest

    Errors: none. Source: as budget_out_s and timers_out_s.
    """
    for n in range(continuous_amount.shape[0]):
        steps = slice(first_step[n], first_step[n + 1])
        durations = duration_s[steps]
        loads = load_amount[steps]
        peaks = peak_a[steps]
        continuous = continuous_amount[n]
        early = budget_out_s(durations, loads, continuous, tiers[n, 0], recovery_s[n], budget_state[n])
        late = timers_out_s(durations, loads, continuous, tiers[n, 1], own_band[n], timer_state[n])
        top = continuous
        for k in range(tiers.shape[2]):
            if tiers[n, 1, k, 0] < math.inf:
                top = tiers[n, 1, k, 0]
        times_s[n, 0] = first_above_s(durations, loads, continuous)
        times_s[n, 1] = early
        times_s[n, 2] = max(early, late)
        times_s[n, 3] = first_above_s(durations, loads, top)
        times_s[n, 4] = first_above_s(durations, peaks, peak_limit_a[n, 0])
        times_s[n, 5] = first_above_s(durations, peaks, peak_limit_a[n, 1])
