"""How much fuel does an engine set burn at part load, how long does a tank last, what is left of its rating up high?

Fuel against load is a straight line that does not go through zero (Willans): an engine at no load burns a quarter to a
half of what it burns at full load, so light loads are dear. Heating values are lower ones and arguments, taken from
the fuel tables (AFDC/GREET, California Energy Commission) together with their status.

Not here: what the generator does when a motor starts (generator_start.py).
"""

import math

from ampwright.engine.physics.compile import kernel

REFERENCE_PRESSURE_PA = 100e3
"""Reference conditions of engine ratings [Pa]. Source: ISO 3046-1 (2002) clause 5, ISO 8528-1; from memory."""
REFERENCE_TEMPERATURE_K = 298.15
"""Reference conditions of engine ratings [K]. Source: as above; the standard prints 298 K."""
MECHANICAL_EFFICIENCY = 0.8
"""Where the maker states none [-]. Source: ISO 3046-1 (2002) clause 10.3, from memory."""
SPARK_IGNITION_EXPONENTS = (1.0, 0.5)
"""Exponents of pressure and temperature, naturally aspirated spark ignition. Source: ISO 3046-1 table 2, memory."""
DIESEL_EXPONENTS = (1.0, 0.75)
"""Exponents of pressure and temperature, naturally aspirated diesel limited by excess air. Source: as above, memory."""


@kernel("float64(float64)")
def standard_pressure_pa(altitude_m: float) -> float:
    """What is the air pressure at this altitude?

    Parameters
    ----------
    altitude_m : [m], above sea level, -500 to 11,000

    Returns
    -------
    pressure_pa : [Pa], absolute, of the standard atmosphere

    Errors: none. NaN in, NaN out; beyond 44,330 m NaN.
    Source: ISO 2533 (1975): 101325 Pa, 288.15 K, 6.5 K/km, g/(R L) = 5.25588.
    """
    return float(101325.0 * (1.0 - 0.0065 * altitude_m / 288.15) ** 5.25588)


@kernel("float64(float64, float64, float64, float64, float64)")
def rating_ratio(
    pressure_pa: float,
    intake_k: float,
    pressure_exponent: float,
    temperature_exponent: float,
    mechanical_efficiency: float,
) -> float:
    """How much of its rating does an engine keep in this air?

    Parameters
    ----------
    pressure_pa : [Pa], > 0, absolute
    intake_k : [K], > 0
    pressure_exponent : [-], m of the standard's table
    temperature_exponent : [-], n of the standard's table
    mechanical_efficiency : [-], 0 to 1, MECHANICAL_EFFICIENCY where none is stated

    Returns
    -------
    ratio : [-], 0 or more; above 1 in cold low air, where no maker promises more than the plate: use at most 1

    Errors: none. NaN in, NaN out.
    Source: ISO 3046-1 (2002): k = (p/p0)^m (T0/T)^n, ratio = k - 0.7 (1 - k)(1/eta - 1); dry air; from memory.
    """
    k = (pressure_pa / REFERENCE_PRESSURE_PA) ** pressure_exponent * (
        REFERENCE_TEMPERATURE_K / intake_k
    ) ** temperature_exponent
    ratio = k - 0.7 * (1.0 - k) * (1.0 / mechanical_efficiency - 1.0)
    return float(max(ratio, 0.0))


@kernel("float64(float64, float64, float64, float64)")
def fuel_heat_w(load_w: float, rated_w: float, idle_w_per_w: float, slope_w_per_w: float) -> float:
    """How much heat of fuel does the set burn at this load?

    Parameters
    ----------
    load_w : [W], >= 0, electrical
    rated_w : [W], > 0, electrical
    idle_w_per_w : [-], >= 0, heat burned at no load over rated power
    slope_w_per_w : [-], > 0, heat for each watt more

    Returns
    -------
    heat_w : [W], lower heating value

    Errors: none. NaN in, NaN out. Above the rating the line goes on: the load check says that it must not.
    Source: Willans line; Skarstein and Uhlen, Wind Engineering 13(2), 1989, from memory (its constants are remembered
    in two orders of digits and are not used).
    """
    return idle_w_per_w * rated_w + slope_w_per_w * load_w


@kernel("float64(float64, float64, float64, float64)")
def willans_slope_w_per_w(lower_load_w: float, lower_heat_w: float, upper_load_w: float, upper_heat_w: float) -> float:
    """How much more heat does each watt cost, by two points of a plate ("8 h at half load, 5 h at full")?

    Parameters
    ----------
    lower_load_w : [W], electrical
    lower_heat_w : [W], of fuel: tank times heating value over run time
    upper_load_w : [W], > lower_load_w
    upper_heat_w : [W]

    Returns
    -------
    slope_w_per_w : [-]; the no-load heat is lower_heat_w - slope * lower_load_w

    Errors: none. NaN in, NaN out; equal loads give inf or NaN.
    Source: straight line through two points.
    """
    return (upper_heat_w - lower_heat_w) / (upper_load_w - lower_load_w)


@kernel("float64(float64, float64)")
def fuel_rate_m3_per_s(heat_w: float, heating_value_j_per_m3: float) -> float:
    """How much fuel is that?

    Parameters
    ----------
    heat_w : [W], of fuel
    heating_value_j_per_m3 : [J/m3], > 0, lower

    Returns
    -------
    rate_m3_per_s : [m3/s], liquid

    Errors: none. NaN in, NaN out.
    Source: definition of the heating value.
    """
    return heat_w / heating_value_j_per_m3


@kernel("float64(float64, float64)")
def tank_time_s(tank_m3: float, rate_m3_per_s: float) -> float:
    """How long does a tank last?

    Parameters
    ----------
    tank_m3 : [m3], >= 0, usable
    rate_m3_per_s : [m3/s], >= 0

    Returns
    -------
    time_s : [s]; inf for an engine that is off

    Errors: none. inf is an outcome ("not burning"): name it before it leaves the engine.
    Source: definition.
    """
    if rate_m3_per_s == 0.0:
        return math.inf
    return tank_m3 / rate_m3_per_s


@kernel("float64(float64, float64, float64, float64)")
def set_efficiency(load_w: float, rated_w: float, idle_w_per_w: float, slope_w_per_w: float) -> float:
    """Which share of the fuel's heat becomes electricity at this load?

    Parameters
    ----------
    load_w : [W], >= 0, electrical
    rated_w : [W], > 0, electrical
    idle_w_per_w : [-], >= 0
    slope_w_per_w : [-], > 0

    Returns
    -------
    efficiency : [-], 0 at no load

    Errors: none. NaN in, NaN out.
    Source: definition of efficiency.
    """
    heat_w = fuel_heat_w(load_w, rated_w, idle_w_per_w, slope_w_per_w)
    return 0.0 if heat_w == 0.0 else load_w / heat_w
