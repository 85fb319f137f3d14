"""Does a ground-fault device trip on the leakage of healthy tools, and how fast on a fault?

Leakage adds up over everything behind one device. Its phase is seldom known: at most it adds in magnitude; at least,
leakages of legs at an angle cancel as the phasors of their legs do, at their low estimates.

Class A (UL 943): must not trip below 4 mA, must trip at 6 mA, no later than T = (20 / I)^1.43 s with I in mA, from 6
to 264 mA; above, no later than at 264 mA (25 ms). Between 4 and 6 mA it may. It may do so from the first cycle on
(assumption G-01: 20 ms).
Residual-current device (IEC 61008-1 table 1): must not trip at half its rating, must trip at its rating within 0.3 s,
at 2 times within 0.15 s, at 5 times within 0.04 s; selective ones later, and not before a stated time.

Source: UL 943; IEC 61008-1 / 61009-1 table 1. The points enter as arguments.
Not here: the body current of a person, where a device is asked for (rule layers), type A, F, B waveforms.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

FloatArray = NDArray[np.float64]

CLASS_A_HOLDS_BELOW_A = 0.004  # UL 943, read in public texts
CLASS_A_TRIPS_FROM_A = 0.006  # UL 943, read in public texts
CLASS_A_FORMULA_TO_A = 0.264  # UL 943, read in public texts
FIRST_CYCLE_S = 0.02  # G-01: common practice, no source

# (multiple of rated residual current, trips within [s]). IEC 61008-1 table 1: 1 x read, 2 x and 5 x from memory.
RCD_GENERAL_WITHIN = ((1.0, 0.3), (2.0, 0.15), (5.0, 0.04))
# Selective (type S): 1 x and 5 x from public texts, 2 x from memory.
RCD_SELECTIVE_WITHIN = ((1.0, 0.5), (2.0, 0.2), (5.0, 0.15))
# (multiple, does not trip before [s]): 5 x from public texts, the others from memory.
RCD_SELECTIVE_NOT_BEFORE = ((1.0, 0.13), (2.0, 0.06), (5.0, 0.05))
RCD_HOLDS_TO_RATIO = 0.5  # IEC 61008-1, from memory


@kernel("void(float64[::1], float64[::1], float64[::1], float64[::1])")
def summed_leakage_a(low_a: FloatArray, high_a: FloatArray, angle_rad: FloatArray, total_a: FloatArray) -> None:
    """Least and greatest leakage of several tools together.

    Parameters
    ----------
    low_a : (n,) [A] low estimate of each
    high_a : (n,) [A] high estimate of each
    angle_rad : (n,) [rad] angle of the leg that each hangs on, NaN where unknown or between two legs
    total_a : (2,) [A], out: low, high

    Returns
    -------
    nothing; `total_a` is written. One of unknown angle may cancel its own size from the low sum

    Errors: none. Source: Kirchhoff's current law; the phases are unknown, so both ends are bounds.
    """
    real = 0.0
    imaginary = 0.0
    unknown = 0.0
    largest_unknown = 0.0
    total_a[1] = 0.0
    for n in range(low_a.shape[0]):
        total_a[1] += high_a[n]
        if math.isnan(angle_rad[n]):
            unknown += low_a[n]
            largest_unknown = max(largest_unknown, low_a[n])
        else:
            real += low_a[n] * math.cos(angle_rad[n])
            imaginary += low_a[n] * math.sin(angle_rad[n])
    known = math.sqrt(real * real + imaginary * imaginary)
    # The least a sum of phasors of free angle can be: none, unless one is larger than all others together.
    total_a[0] = max(known - unknown, 2.0 * largest_unknown - unknown - known, 0.0)


@kernel("void(float64[::1], float64[:,::1])")
def class_a_trip_s(residual_a: FloatArray, band_s: FloatArray) -> None:
    """When does a class A device trip at a residual current?

    Parameters
    ----------
    residual_a : (n,) [A], >= 0
    band_s : (n, 2) [s], out: earliest, latest; +inf where it holds

    Returns
    -------
    nothing; `band_s` is written

    Errors: none. Source: UL 943, T = (20 / I_mA)^1.43 from 6 to 264 mA; above 264 mA its last value; assumption G-01.
    """
    for n in range(residual_a.shape[0]):
        residual = residual_a[n]
        band_s[n, 0] = math.inf
        band_s[n, 1] = math.inf
        if residual >= CLASS_A_TRIPS_FROM_A:
            band_s[n, 1] = (20.0 / (1000.0 * min(residual, CLASS_A_FORMULA_TO_A))) ** 1.43
        if residual >= CLASS_A_HOLDS_BELOW_A:
            band_s[n, 0] = min(FIRST_CYCLE_S, band_s[n, 1])


@kernel("void(float64[::1], float64[::1], float64, float64[:,::1], float64[:,::1], float64[:,::1])")
def rcd_trip_s(
    residual_a: FloatArray,
    rated_a: FloatArray,
    holds_to_ratio: float,
    within: FloatArray,
    not_before: FloatArray,
    band_s: FloatArray,
) -> None:
    """When does a residual-current device trip?

    Parameters
    ----------
    residual_a : (n,) [A], >= 0
    rated_a : (n,) [A] rated residual operating current
    holds_to_ratio : [ratio] up to which it must not trip
    within : (k, 2) [ratio, s] ascending multiples, trips within
    not_before : (j, 2) [ratio, s] ascending multiples, does not trip before; (0, 2) for the general type
    band_s : (n, 2) [s], out: earliest, latest; +inf where it holds

    Returns
    -------
    nothing; `band_s` is written. Between two multiples the lower one's latest time and the higher one's earliest stand

    Errors: none. Source: IEC 61008-1 table 1; assumption G-01 where no earliest time is given.
    """
    for n in range(residual_a.shape[0]):
        multiple = residual_a[n] / rated_a[n] * (1.0 + 1e-9)
        band_s[n, 0] = math.inf
        band_s[n, 1] = math.inf
        for k in range(within.shape[0]):
            if multiple >= within[k, 0]:
                band_s[n, 1] = within[k, 1]
        if residual_a[n] > holds_to_ratio * rated_a[n] * (1.0 + 1e-9):
            earliest_s = FIRST_CYCLE_S if not_before.shape[0] == 0 else not_before[not_before.shape[0] - 1, 1]
            for j in range(not_before.shape[0] - 1, -1, -1):
                if multiple <= not_before[j, 0] * (1.0 + 2e-9):
                    earliest_s = not_before[j, 1]
            band_s[n, 0] = min(earliest_s, band_s[n, 1])
