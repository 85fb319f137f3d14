"""How much of the time does an air compressor run, how often does it start, and does it keep up?

A tank between cut-in and cut-out holds so much free air; tools draw it, the pump puts it back. Air is ideal and the
tank stays at the temperature of the air around it. Delivery falls with pressure on a straight line, as the two plate
figures (at 40 and 90 psi, say) give it; all flows are of free air, at the pressure around.

    V/p0 dp/dt = delivery(p) - use,    delivery(p) = delivery0 - slope p

The first fill begins with an empty tank and no head pressure; every later start is against the head pressure unless
the unloader has vented (motor_start.py).
"""

import math

from ampwright.engine.physics.compile import kernel

KEEPS_UP = 0
"""`keeping_up`: the pump stops at cut-out, the tank cycles."""
RUNS_ON = 1
"""`keeping_up`: the pump never reaches cut-out but holds the cut-in pressure."""
FALLS_BEHIND = 2
"""`keeping_up`: the pressure falls below cut-in although the pump runs."""


@kernel("float64(float64, float64, float64, float64)")
def stored_air_m3(tank_m3: float, low_pa: float, high_pa: float, atmosphere_pa: float) -> float:
    """How much free air is between two pressures of a tank?

    Parameters
    ----------
    tank_m3 : [m3], > 0
    low_pa : [Pa], gauge
    high_pa : [Pa], gauge
    atmosphere_pa : [Pa], > 0, absolute, around

    Returns
    -------
    air_m3 : [m3], free air

    Errors: none. NaN in, NaN out.
    Source: Boyle's law.
    """
    return tank_m3 * (high_pa - low_pa) / atmosphere_pa


@kernel("float64(float64, float64, float64, float64, float64, float64, float64)")
def pump_time_s(
    tank_m3: float,
    from_pa: float,
    to_pa: float,
    delivery_m3_per_s: float,
    slope_m3_per_s_pa: float,
    use_m3_per_s: float,
    atmosphere_pa: float,
) -> float:
    """How long does the pump take from one tank pressure to another while tools draw air?

    Parameters
    ----------
    tank_m3 : [m3], > 0
    from_pa : [Pa], gauge
    to_pa : [Pa], gauge, >= from_pa
    delivery_m3_per_s : [m3/s], free air at no gauge pressure, on the line through the plate figures
    slope_m3_per_s_pa : [m3/(s Pa)], >= 0, how much delivery falls with pressure; 0 for one plate figure
    use_m3_per_s : [m3/s], free air, drawn meanwhile
    atmosphere_pa : [Pa], > 0, absolute

    Returns
    -------
    time_s : [s]; inf where that pressure is never reached

    Errors: none. inf is an outcome ("never"): name it before it leaves the engine.
    Source: linear first-order equation of the module docstring, closed form.
    """
    if to_pa <= from_pa:
        return 0.0
    surplus_from = delivery_m3_per_s - slope_m3_per_s_pa * from_pa - use_m3_per_s
    surplus_to = delivery_m3_per_s - slope_m3_per_s_pa * to_pa - use_m3_per_s
    if surplus_from <= 0.0 or surplus_to <= 0.0:
        return math.inf
    capacity = tank_m3 / atmosphere_pa
    fall = (surplus_from - surplus_to) / surplus_from
    if fall == 0.0:
        return capacity * (to_pa - from_pa) / surplus_from
    return -capacity / slope_m3_per_s_pa * math.log1p(-fall)


@kernel("float64(float64, float64, float64, float64, float64)")
def rest_time_s(
    tank_m3: float, cut_in_pa: float, cut_out_pa: float, use_m3_per_s: float, atmosphere_pa: float
) -> float:
    """How long does the pump rest until tools have drawn the tank down to cut-in?

    Parameters
    ----------
    tank_m3 : [m3], > 0
    cut_in_pa : [Pa], gauge
    cut_out_pa : [Pa], gauge, >= cut_in_pa
    use_m3_per_s : [m3/s], >= 0, free air
    atmosphere_pa : [Pa], > 0, absolute

    Returns
    -------
    time_s : [s]; inf for no use (leaks are use)

    Errors: none. inf is an outcome ("does not start again"): name it before it leaves the engine.
    Source: Boyle's law.
    """
    if use_m3_per_s == 0.0:
        return math.inf
    return stored_air_m3(tank_m3, cut_in_pa, cut_out_pa, atmosphere_pa) / use_m3_per_s


@kernel("int64(float64, float64, float64, float64, float64)")
def keeping_up(
    cut_in_pa: float, cut_out_pa: float, delivery_m3_per_s: float, slope_m3_per_s_pa: float, use_m3_per_s: float
) -> int:
    """Does the compressor keep up with its tools?

    Parameters
    ----------
    cut_in_pa : [Pa], gauge
    cut_out_pa : [Pa], gauge
    delivery_m3_per_s : [m3/s], free air at no gauge pressure, on the line through the plate figures
    slope_m3_per_s_pa : [m3/(s Pa)], >= 0
    use_m3_per_s : [m3/s], >= 0, free air

    Returns
    -------
    state : KEEPS_UP, RUNS_ON or FALLS_BEHIND

    Errors: none. NaN gives FALLS_BEHIND.
    Source: delivery against use at cut-out and at cut-in.
    """
    if use_m3_per_s < delivery_m3_per_s - slope_m3_per_s_pa * cut_out_pa:
        return KEEPS_UP
    if use_m3_per_s <= delivery_m3_per_s - slope_m3_per_s_pa * cut_in_pa:
        return RUNS_ON
    return FALLS_BEHIND


@kernel("float64(float64, float64, float64, float64, float64, float64, float64)")
def running_ratio(
    tank_m3: float,
    cut_in_pa: float,
    cut_out_pa: float,
    delivery_m3_per_s: float,
    slope_m3_per_s_pa: float,
    use_m3_per_s: float,
    atmosphere_pa: float,
) -> float:
    """Which share of the time does the motor run, once the tank cycles?

    Parameters
    ----------
    tank_m3 : [m3], > 0; the share hardly depends on it, the starts an hour do
    cut_in_pa : [Pa], gauge
    cut_out_pa : [Pa], gauge, > cut_in_pa
    delivery_m3_per_s : [m3/s], free air at no gauge pressure, on the line through the plate figures
    slope_m3_per_s_pa : [m3/(s Pa)], >= 0
    use_m3_per_s : [m3/s], >= 0, free air, mean over a cycle
    atmosphere_pa : [Pa], > 0, absolute

    Returns
    -------
    ratio : [-], 0 for no use, 1 where it runs on; use over delivery where delivery does not fall

    Errors: none. NaN in gives 1.
    Source: running time over running and resting time.
    """
    if use_m3_per_s == 0.0:
        return 0.0
    on_s = pump_time_s(
        tank_m3, cut_in_pa, cut_out_pa, delivery_m3_per_s, slope_m3_per_s_pa, use_m3_per_s, atmosphere_pa
    )
    if not on_s < math.inf:
        return 1.0
    return on_s / (on_s + rest_time_s(tank_m3, cut_in_pa, cut_out_pa, use_m3_per_s, atmosphere_pa))


@kernel("float64(float64, float64, float64, float64, float64, float64, float64)")
def starts_per_s(
    tank_m3: float,
    cut_in_pa: float,
    cut_out_pa: float,
    delivery_m3_per_s: float,
    slope_m3_per_s_pa: float,
    use_m3_per_s: float,
    atmosphere_pa: float,
) -> float:
    """How often does the motor start?

    Parameters
    ----------
    tank_m3 : [m3], > 0
    cut_in_pa : [Pa], gauge
    cut_out_pa : [Pa], gauge, > cut_in_pa
    delivery_m3_per_s : [m3/s], free air at no gauge pressure, on the line through the plate figures
    slope_m3_per_s_pa : [m3/(s Pa)], >= 0
    use_m3_per_s : [m3/s], >= 0, free air, mean over a cycle
    atmosphere_pa : [Pa], > 0, absolute

    Returns
    -------
    rate_per_s : [1/s]; 0 for no use and where it runs on

    Errors: none. NaN in gives 0.
    Source: one over the cycle's length.
    """
    if use_m3_per_s == 0.0:
        return 0.0
    on_s = pump_time_s(
        tank_m3, cut_in_pa, cut_out_pa, delivery_m3_per_s, slope_m3_per_s_pa, use_m3_per_s, atmosphere_pa
    )
    if not on_s < math.inf:
        return 0.0
    return 1.0 / (on_s + rest_time_s(tank_m3, cut_in_pa, cut_out_pa, use_m3_per_s, atmosphere_pa))


@kernel("float64(float64, float64, float64, float64)")
def delivery_slope_m3_per_s_pa(
    first_pa: float, first_m3_per_s: float, second_pa: float, second_m3_per_s: float
) -> float:
    """How much does delivery fall with pressure, by two plate figures?

    Parameters
    ----------
    first_pa : [Pa], gauge, of the lower plate figure (40 psi)
    first_m3_per_s : [m3/s], free air
    second_pa : [Pa], gauge, > first_pa, of the higher plate figure (90 psi)
    second_m3_per_s : [m3/s], free air

    Returns
    -------
    slope_m3_per_s_pa : [m3/(s Pa)]; 0 where the plate contradicts itself (more at the higher pressure)

    Errors: none. NaN in, NaN out.
    Source: straight line through two points; common practice, no source, that it is one.
    """
    slope = (first_m3_per_s - second_m3_per_s) / (second_pa - first_pa)
    return 0.0 if slope < 0.0 else slope
