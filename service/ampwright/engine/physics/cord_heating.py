"""How warm does the copper of a flexible cord get in the end, and which current holds it at a temperature?

Heat balance of one conductor:

    T - ambient = (rated_copper - rated_ambient) * (I / (lay_factor * I_rated))^2 * r(T) / r(rated_copper)
    r(T)        = 1 + alpha20 * (min(T, limit) - 20)

Calibration: the rated current at the rated ambient gives exactly the rated copper temperature. For flexible cord that
is 60 C at 30 C whatever the jacket is marked: the cord table has one set of values for all insulations
(NFPA 70, 2023, table 400.5(A)(1); the ambient factors of BS 7671 table 4F3A follow sqrt((60 - Ta)/30)). A mark of
90 or 105 C moves `limit_c`, never the calibration.

Copper whose resistance rises with its temperature has no equilibrium above about three times the rated current. The
rise of resistance therefore ends at `limit_c`, what the insulation bears: every temperature stays finite, one above
the limit is a LOWER bound, and `heating_state` says which of the three cases holds.

A coil or drum sheds heat worse, which the lay factor (allowed current wound / allowed current straight) carries: the
heat loss scales with its square. Factors from the trade are weak: DIN VDE 0298-4 (0.80, 0.61, 0.49,
0.42, 0.38 for 1 to 5 layers) and ICEA S-75-381 (0.85, 0.65, 0.45, 0.35 for 1 to 4) are both from memory and disagree
by up to a sixth, so the factor is an argument and its status goes with the answer.

Not here: how the temperature gets there (cord_heating_course.py), overloads of seconds, where the copper runs ahead of
its jacket (cord_short_overload.py), volts lost (voltage_drop.py).
"""

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel
from ampwright.engine.physics.conductor_impedance import COPPER_ALPHA20_PER_K

FloatArray = npt.NDArray[np.float64]

RATED_AMBIENT_C = 30.0
"""Ambient of the flexible cord tables [C]. Source: NFPA 70 (2023) table 400.5(A)(1); BS 7671 table 4F3A."""

RATED_COPPER_C = 60.0
"""Copper temperature at rated current and ambient [C]. Source: BS 7671 table 4F3A (60 C cord, 30 C ambient)."""

WITHIN_LIMIT = 0
"""`heating_state`: the copper settles at or below the insulation's limit."""
OVER_LIMIT = 1
"""`heating_state`: the copper would settle above the limit; the temperature given is a lower bound."""
RUNAWAY = 2
"""`heating_state`: no temperature at which copper settles at all; the temperature given is a lower bound."""

# A hundredth of the finest step any answer shows (0.001): rated current must not land above its own rating by rounding.
_LIMIT_SLACK_K = 1e-5


@kernel("float64(float64)")
def copper_resistance_ratio(temperature_c: float) -> float:
    """How much more does copper resist than at 20 C?

    Parameters
    ----------
    temperature_c : [C], above -230

    Returns
    -------
    ratio : [-], 1 at 20 C

    Errors: none. NaN in, NaN out.
    Source: IEC 60028, alpha20 = 0.00393/K; linear, good to 1 % from -60 to 200 C (IEC 60228 annex B uses 0.004).
    """
    return 1.0 + COPPER_ALPHA20_PER_K * (temperature_c - 20.0)


@kernel("float64(float64, float64, float64, float64, float64)")
def rise_at_20_c_k(
    current_a: float, rated_current_a: float, rated_ambient_c: float, rated_copper_c: float, lay_factor: float
) -> float:
    """What rise would this current end at if the copper kept its resistance of 20 C?

    Parameters
    ----------
    current_a : [A], RMS, >= 0
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C], above `rated_ambient_c`
    lay_factor : [-], in (0, 1]

    Returns
    -------
    rise_k : [K]; times `copper_resistance_ratio` it is the driving term of every equation here

    Errors: none. NaN in, NaN out.
    Source: heat balance at rated current, NFPA 70 (2023) table 400.5(A)(1) at 60 C.
    """
    load = current_a / (lay_factor * rated_current_a)
    return (rated_copper_c - rated_ambient_c) * load * load / copper_resistance_ratio(rated_copper_c)


@kernel("float64(float64, float64, float64, float64, float64, float64, float64)")
def steady_copper_temperature_c(
    current_a: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
) -> float:
    """What temperature does the copper settle at?

    Parameters
    ----------
    current_a : [A], RMS, >= 0, in the hottest loaded conductor (see `heating_current_a`)
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C], RATED_AMBIENT_C for flexible cord tables
    rated_copper_c : [C], RATED_COPPER_C for flexible cord tables
    limit_c : [C], what the insulation bears; resistance stops rising here
    lay_factor : [-], in (0, 1], 1 laid straight

    Returns
    -------
    temperature_c : [C]; above `limit_c` a lower bound (`heating_state` tells)

    Errors: none. NaN in, NaN out. Ranges are checked before the engine is asked.
    Source: heat balance calibrated on NFPA 70 (2023) table 400.5(A)(1) at 60 C; alpha20 of IEC 60028.
    """
    rise_k = rise_at_20_c_k(current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    capped_c = ambient_c + rise_k * copper_resistance_ratio(limit_c)
    if capped_c > limit_c:
        return capped_c
    return (ambient_c + rise_k * copper_resistance_ratio(0.0)) / (1.0 - COPPER_ALPHA20_PER_K * rise_k)


@kernel("int64(float64, float64, float64, float64, float64, float64, float64)")
def heating_state(
    current_a: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    limit_c: float,
    lay_factor: float,
) -> int:
    """Does the copper settle within its insulation's limit, above it, or nowhere?

    Parameters
    ----------
    current_a : [A], RMS, >= 0, in the hottest loaded conductor
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    limit_c : [C], what the insulation bears
    lay_factor : [-], in (0, 1]

    Returns
    -------
    state : WITHIN_LIMIT, OVER_LIMIT or RUNAWAY

    Errors: none. A NaN among the arguments gives OVER_LIMIT, never WITHIN_LIMIT.
    Source: the same heat balance; it has no solution where alpha20 times the rise at 20 C reaches 1.
    """
    rise_k = rise_at_20_c_k(current_a, rated_current_a, rated_ambient_c, rated_copper_c, lay_factor)
    if ambient_c + rise_k * copper_resistance_ratio(limit_c) <= limit_c + _LIMIT_SLACK_K:
        return WITHIN_LIMIT
    if COPPER_ALPHA20_PER_K * rise_k >= 1.0:
        return RUNAWAY
    return OVER_LIMIT


@kernel("float64(float64, float64, float64, float64, float64, float64)")
def allowed_current_a(
    target_c: float,
    ambient_c: float,
    rated_current_a: float,
    rated_ambient_c: float,
    rated_copper_c: float,
    lay_factor: float,
) -> float:
    """Which steady current holds the copper at this temperature?

    Parameters
    ----------
    target_c : [C], copper temperature asked for
    ambient_c : [C], air around the cord
    rated_current_a : [A], > 0, ampacity laid straight at `rated_ambient_c`
    rated_ambient_c : [C]
    rated_copper_c : [C]
    lay_factor : [-], in (0, 1]

    Returns
    -------
    current_a : [A]; 0 where the air is already as warm as the target

    Errors: none. NaN in, NaN out.
    Source: the heat balance solved for the current. At target = rated copper it is the published ambient factor
    sqrt((Tc - Ta)/(Tc - Tr)) (NFPA 70, 2023, table 310.15(B)(1)(1); BS 7671 table 4F3A).
    """
    if target_c <= ambient_c:
        return 0.0
    rise_ratio = (target_c - ambient_c) / (rated_copper_c - rated_ambient_c)
    resistance_ratio = copper_resistance_ratio(rated_copper_c) / copper_resistance_ratio(target_c)
    return lay_factor * rated_current_a * math.sqrt(rise_ratio * resistance_ratio)


@kernel("float64(float64[::1], int64)")
def heating_current_a(conductor_current_a: FloatArray, rated_conductors: int) -> float:
    """Which single current stands for the unequal currents of a cord's conductors?

    The ampacity of a cord with `rated_conductors` loaded means each of them at that current. The cord as a whole
    must not be heated more than that, nor any one conductor be loaded more: the larger of both is taken. A neutral
    that carries the sum of two legs in phase counts with its full current.

    Parameters
    ----------
    conductor_current_a : (n,) [A], RMS, >= 0, each conductor, neutral included, protective conductor not
    rated_conductors : count of loaded conductors of the ampacity column used, >= 1

    Returns
    -------
    current_a : [A]

    Errors: none. An empty array gives 0.
    Source: I^2 R summed over the conductors; NFPA 70 (2023) 400.5 on which conductors count.
    """
    largest_a = 0.0
    squares = 0.0
    for i in range(conductor_current_a.shape[0]):
        largest_a = max(largest_a, conductor_current_a[i])
        squares += conductor_current_a[i] * conductor_current_a[i]
    return max(largest_a, math.sqrt(squares / rated_conductors))


@kernel(
    "void(float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], float64[::1], "
    "float64[::1])"
)
def steady_copper_temperatures_c(
    current_a: FloatArray,
    ambient_c: FloatArray,
    rated_current_a: FloatArray,
    rated_ambient_c: FloatArray,
    rated_copper_c: FloatArray,
    limit_c: FloatArray,
    lay_factor: FloatArray,
    out_c: FloatArray,
) -> None:
    """What temperatures does the copper of many cords settle at? One row equals `steady_copper_temperature_c`.

    Parameters
    ----------
    current_a : (n,) [A], RMS, >= 0
    ambient_c : (n,) [C]
    rated_current_a : (n,) [A], > 0
    rated_ambient_c : (n,) [C]
    rated_copper_c : (n,) [C]
    limit_c : (n,) [C]
    lay_factor : (n,) [-], in (0, 1]
    out_c : (n,) [C], written

    Returns
    -------
    Nothing.

    Errors: none. NaN in, NaN out.
    Source: as `steady_copper_temperature_c`.
    """
    for i in range(current_a.shape[0]):
        out_c[i] = steady_copper_temperature_c(
            current_a[i],
            ambient_c[i],
            rated_current_a[i],
            rated_ambient_c[i],
            rated_copper_c[i],
            limit_c[i],
            lay_factor[i],
        )
