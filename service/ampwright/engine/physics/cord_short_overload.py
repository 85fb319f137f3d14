"""What does a short, heavy current do to a cord before heat can leave the copper?

Adiabatic heating: all heat stays in the copper, whose resistance rises with it, so that

    I^2 t = S^2 * K^2 * ln((final + beta) / (initial + beta)) = k^2 S^2

k of the installation standards is this expression at the temperatures printed beside it. The standards apply it up to
5 s (IEC 60364-4-43 cl. 434.5.2, from memory); past that it errs to the safe side, because heat does leave.

Not here: the current of a fault and how long it lasts (fault_loop.py); overloads of minutes (cord_heating.py).
"""

import math

from ampwright.engine.physics.compile import kernel

COPPER_K_A_S05_PER_MM2 = 226.0
"""Material constant of copper [A s^0.5/mm2]. Source: IEC 60364-5-54 (2011) annex A table A.54.1, from memory."""

COPPER_BETA_K = 234.5
"""Reciprocal of copper's temperature coefficient at 0 C [K]. Source: same table, from memory."""

# insulation: (initial C, final C, k printed). Read as (what it is at full load, what it bears for 5 s, k).
# IEC 60364-4-43 (2008) table 43A and IEC 60364-5-54 (2011) tables A.54.2 to A.54.5; all from memory, and each k is
# checked against the formula in the tests.
SHORT_TIME_LIMITS = {
    "pvc_70": (70.0, 160.0, 115.0),
    "pvc_90": (90.0, 160.0, 100.0),
    "rubber_60": (60.0, 200.0, 141.0),
    "rubber_85": (85.0, 220.0, 134.0),
    "epr_xlpe_90": (90.0, 250.0, 143.0),
}
"""Start and end temperatures [C] and printed k [A s^0.5/mm2] by insulation. Status: memory, formula agrees."""


@kernel("float64(float64, float64)")
def adiabatic_k_a_s05_per_mm2(initial_c: float, final_c: float) -> float:
    """Which k belongs to these two temperatures of copper?

    Parameters
    ----------
    initial_c : [C], copper before the overload
    final_c : [C], warmest its insulation bears

    Returns
    -------
    k : [A s^0.5/mm2]; 0 where the copper is that warm already

    Errors: none. NaN in, NaN out.
    Source: IEC 60364-5-54 (2011) annex A; IEC 60949.
    """
    if final_c <= initial_c:
        return 0.0
    return COPPER_K_A_S05_PER_MM2 * math.sqrt(math.log((final_c + COPPER_BETA_K) / (initial_c + COPPER_BETA_K)))


@kernel("float64(float64, float64)")
def withstand_a2s(k_a_s05_per_mm2: float, conductor_area_mm2: float) -> float:
    """How much let-through does a conductor bear?

    Parameters
    ----------
    k_a_s05_per_mm2 : [A s^0.5/mm2], >= 0
    conductor_area_mm2 : [mm2], > 0

    Returns
    -------
    withstand_a2s : [A2 s]

    Errors: none. NaN in, NaN out.
    Source: IEC 60364-4-43 (2008) cl. 434.5.2, k^2 S^2.
    """
    return k_a_s05_per_mm2 * k_a_s05_per_mm2 * conductor_area_mm2 * conductor_area_mm2


@kernel("float64(float64, float64, float64)")
def adiabatic_temperature_c(initial_c: float, let_through_a2s: float, conductor_area_mm2: float) -> float:
    """How warm is the copper after this let-through, if no heat leaves it?

    Parameters
    ----------
    initial_c : [C], copper before
    let_through_a2s : [A2 s], >= 0, integral of I^2 dt
    conductor_area_mm2 : [mm2], > 0

    Returns
    -------
    temperature_c : [C]; inf where the exponent leaves the number range (long past melting, 1085 C)

    Errors: none. NaN in, NaN out.
    Source: IEC 60949, solved for the final temperature.
    """
    density = COPPER_K_A_S05_PER_MM2 * conductor_area_mm2
    exponent = let_through_a2s / (density * density)
    if exponent > 700.0:  # e^709 is the largest number there is
        return math.inf
    return (initial_c + COPPER_BETA_K) * math.exp(exponent) - COPPER_BETA_K


@kernel("float64(float64, float64, float64, float64)")
def adiabatic_time_s(current_a: float, initial_c: float, final_c: float, conductor_area_mm2: float) -> float:
    """How long may this current flow before the copper is this warm, if no heat leaves it?

    Parameters
    ----------
    current_a : [A], RMS, >= 0, constant
    initial_c : [C], copper before
    final_c : [C], warmest its insulation bears
    conductor_area_mm2 : [mm2], > 0

    Returns
    -------
    time_s : [s]; inf for no current, 0 where the copper is that warm already. Beyond 5 s a safe (early) figure.

    Errors: none. inf is an outcome ("holds"): name it before it leaves the engine.
    Source: IEC 60364-4-43 (2008) cl. 434.5.2, t = (k S / I)^2.
    """
    k = adiabatic_k_a_s05_per_mm2(initial_c, final_c)
    if k == 0.0:
        return 0.0
    if current_a == 0.0:
        return math.inf
    return withstand_a2s(k, conductor_area_mm2) / (current_a * current_a)


@kernel("float64(float64, float64, float64, float64)")
def adiabatic_current_a(duration_s: float, initial_c: float, final_c: float, conductor_area_mm2: float) -> float:
    """Which current, held this long, just brings the copper to this temperature, if no heat leaves it?

    Parameters
    ----------
    duration_s : [s], > 0
    initial_c : [C], copper before
    final_c : [C], warmest its insulation bears
    conductor_area_mm2 : [mm2], > 0

    Returns
    -------
    current_a : [A], RMS

    Errors: none. NaN in, NaN out.
    Source: IEC 60364-4-43 (2008) cl. 434.5.2, I = k S / sqrt(t).
    """
    return adiabatic_k_a_s05_per_mm2(initial_c, final_c) * conductor_area_mm2 / math.sqrt(duration_s)
