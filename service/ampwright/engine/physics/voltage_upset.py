"""Does a sag upset electronics, and does it drop a contactor?

Electronics: a tolerance curve is a list of levels, each with the time a voltage may stay beyond it. A history upsets
the equipment when it stays below a level (or above one) longer than that, without a break. For one rectangular event
this is the curve itself. The lists are arguments: the ITI curve is given here, the levels of other standards fit the
same shape. Staying exactly for the time, or exactly at a level, is inside the curve.

Contactor: drops surely below its lower drop-out limit, surely holds above the upper one (IEC 60947-4-1: 20 % and 75 %
of rated coil voltage, AC, from memory; usual samples hold to 50-60 %, common practice, no source), and needs about half
a cycle to do so (assumption V-01: 10 ms).

Source: ITI (CBEMA) curve application note, 2000 (0 V for 20 ms, 70 % for 0.5 s, 90 % and 110 % steady read in public
texts; 80 % for 10 s, 140 % for 3 ms and 120 % for 0.5 s from memory).
Not here: motors that stall in a sag (motor modules), the sag itself (network).
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

OK, UPSET, OVERVOLTAGE = 0, 1, 2
"""Outcome codes: inside the curve, below it, above it."""

# (level as a ratio of nominal, seconds that the voltage may stay below it)
ITI_BELOW = ((0.9, 10.0), (0.8, 0.5), (0.7, 0.02))
# (level, seconds that it may stay above it)
ITI_ABOVE = ((1.1, 0.5), (1.2, 0.003), (1.4, 0.001))

CONTACTOR_DROPS_BELOW_RATIO = 0.20
CONTACTOR_HOLDS_ABOVE_RATIO = 0.75
CONTACTOR_NEEDS_S = 0.01  # V-01

HOLDS, MAY_DROP, DROPS = 0, 1, 2
"""Contactor codes."""

_SLACK = 1e-9


@kernel("void(int64[::1], float64[::1], float64[::1], float64[:,::1], float64[:,::1], int64[::1], float64[::1])")
def voltage_upset(
    first_step: IntArray,
    duration_s: FloatArray,
    voltage_ratio: FloatArray,
    below: FloatArray,
    above: FloatArray,
    outcome: IntArray,
    at_s: FloatArray,
) -> None:
    """First time at which each voltage history leaves a tolerance curve.

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step; the last is m
    duration_s : (m,) [s], >= 0, the last of a case may be +inf
    voltage_ratio : (m,) [ratio of nominal], >= 0
    below : (k, 2) [ratio, s] the voltage may stay below the level for so long
    above : (j, 2) [ratio, s] the same above
    outcome : (n,) out: OK, UPSET (below) or OVERVOLTAGE, whichever comes first
    at_s : (n,) [s] from the start, out; +inf where inside

    Returns
    -------
    nothing; `outcome` and `at_s` are written

    Errors: none. Source: definition of a tolerance curve; levels from the standard that the caller chose.
    """
    for n in range(outcome.shape[0]):
        outcome[n] = OK
        at_s[n] = math.inf
        for side in range(2):
            levels = below if side == 0 else above
            for k in range(levels.shape[0]):
                level = levels[k, 0]
                allowed_s = levels[k, 1]
                run_s = 0.0
                start_s = 0.0
                for i in range(first_step[n], first_step[n + 1]):
                    ratio = voltage_ratio[i]
                    beyond = ratio < level * (1.0 - _SLACK) if side == 0 else ratio > level * (1.0 + _SLACK)
                    if beyond:
                        if run_s + duration_s[i] > allowed_s * (1.0 + _SLACK):
                            leaves_s = start_s + max(allowed_s - run_s, 0.0)
                            if leaves_s < at_s[n]:
                                at_s[n] = leaves_s
                                outcome[n] = UPSET if side == 0 else OVERVOLTAGE
                            break
                        run_s += duration_s[i]
                    else:
                        run_s = 0.0
                    start_s += duration_s[i]


@kernel("void(int64[::1], float64[::1], float64[::1], float64, float64, float64, int64[::1])")
def contactor_outcome(
    first_step: IntArray,
    duration_s: FloatArray,
    voltage_ratio: FloatArray,
    drops_below_ratio: float,
    holds_above_ratio: float,
    needs_s: float,
    outcome: IntArray,
) -> None:
    """Does each voltage history drop a contactor?

    Parameters
    ----------
    first_step : (n + 1,) index of each case's first step; the last is m
    duration_s : (m,) [s]
    voltage_ratio : (m,) [ratio of rated coil voltage]
    drops_below_ratio : [ratio] below which it surely drops
    holds_above_ratio : [ratio] from which it surely holds
    needs_s : [s] below that level, without a break, that it needs to drop
    outcome : (n,) out: HOLDS, MAY_DROP, DROPS

    Returns
    -------
    nothing; `outcome` is written. A sag shorter than needs_s may drop it still (half a cycle is half a cycle)

    Errors: none. Source: IEC 60947-4-1 operating limits, from memory; assumption V-01.
    """
    for n in range(outcome.shape[0]):
        outcome[n] = HOLDS
        run_s = 0.0
        for i in range(first_step[n], first_step[n + 1]):
            ratio = voltage_ratio[i]
            if ratio < holds_above_ratio and duration_s[i] > 0.0:
                outcome[n] = max(outcome[n], MAY_DROP)
            if ratio < drops_below_ratio:
                run_s += duration_s[i]
                if run_s >= needs_s:
                    outcome[n] = DROPS
            else:
                run_s = 0.0
