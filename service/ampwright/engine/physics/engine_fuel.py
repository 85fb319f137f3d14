"""How much fuel does an engine set burn at part load, and how long does a tank last?

Fuel against load is a straight line that does not go through zero (Willans): an engine at no load burns a quarter to a
half of what it burns at full load, so light loads are dear. Heating values are lower ones and arguments, taken from
the fuel tables (standards/fuel_energy.py) together with their status.

Not here: what is left of the rating up high and in heat (standards/engine_derating.py), what the generator does when a
motor starts (generator_start.py).
"""

import math

from ampwright.engine.physics.compile import kernel


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
