"""How much energy must be left to drive home?

Energy per distance times distance, times what load, cold, wind and towing make of it, plus what should be left on
arrival, and never less than a floor. Each factor is a ratio to the stated figure (1 changes nothing) and is best as a
band; practice is to plan with the high end (energy left at P10).

Stated figures are of two kinds that must not be mixed: of the battery while driving, or from the wall (labels in MPGe
or kWh/100 mi include the losses of charging; standards/charging_signals.py reads them). `battery_per_wall` converts.

Road load gives the factors from physics where mass, speed or wind are known; without such figures: cold 1.1 to 1.4,
tow 1.5 to 2.5, load 1.0 to 1.2, common practice, no source.
"""

import math

from ampwright.engine.physics.compile import kernel

GRAVITY_M_PER_S2 = 9.80665
"""Standard gravity [m/s2]. Source: 3rd CGPM (1901)."""


@kernel("float64(float64, float64, float64, float64, float64, float64, float64)")
def drive_energy_j(
    distance_m: float,
    energy_j_per_m: float,
    battery_per_wall: float,
    load_factor: float,
    cold_factor: float,
    wind_factor: float,
    tow_factor: float,
) -> float:
    """How much battery energy does this drive take?

    Parameters
    ----------
    distance_m : [m], >= 0
    energy_j_per_m : [J/m], >= 0, stated
    battery_per_wall : [-], 0 to 1, 1 where the figure is of the battery; 0.85 to 0.92 for a label, common practice
    load_factor : [-], > 0
    cold_factor : [-], > 0
    wind_factor : [-], > 0
    tow_factor : [-], > 0

    Returns
    -------
    energy_j : [J], from the battery

    Errors: none. NaN in, NaN out.
    Source: product; that the factors multiply is an assumption (cold heats the cabin by time, not by distance).
    """
    stated_j = distance_m * energy_j_per_m * battery_per_wall
    return stated_j * load_factor * cold_factor * wind_factor * tow_factor


@kernel("float64(float64, float64, float64)")
def reserve_j(drive_j: float, arrival_j: float, floor_j: float) -> float:
    """How much must be left in the battery when work stops?

    Parameters
    ----------
    drive_j : [J], >= 0 (`drive_energy_j`), at its high end
    arrival_j : [J], >= 0, to be left on arrival
    floor_j : [J], >= 0, least reserve whatever the distance

    Returns
    -------
    reserve_j : [J]

    Errors: none. NaN in the drive gives NaN.
    Source: common practice, no source.
    """
    needed_j = drive_j + arrival_j
    return floor_j if needed_j < floor_j else needed_j


@kernel("float64(float64, float64, float64, float64, float64, float64, float64, float64, float64)")
def road_load_j_per_m(
    speed_m_per_s: float,
    headwind_m_per_s: float,
    mass_kg: float,
    rolling_coefficient: float,
    drag_area_m2: float,
    grade: float,
    air_density_kg_per_m3: float,
    efficiency: float,
    auxiliary_w: float,
) -> float:
    """How much battery energy does a metre of road take at a steady speed?

    Parameters
    ----------
    speed_m_per_s : [m/s], > 0
    headwind_m_per_s : [m/s], against positive
    mass_kg : [kg], > 0, vehicle, load and trailer
    rolling_coefficient : [-], >= 0
    drag_area_m2 : [m2], >= 0, drag coefficient times frontal area
    grade : [-], rise over distance, downhill negative
    air_density_kg_per_m3 : [kg/m3], > 0
    efficiency : [-], > 0 to 1, battery to wheels
    auxiliary_w : [W], >= 0, heating, cooling, electronics

    Returns
    -------
    energy_j_per_m : [J/m], at least what the auxiliaries take (no energy is won back downhill: the safe side)

    Errors: none. NaN in, NaN out. Stops, starts and bends are not in it.
    Source: road load equation, SAE J1263 and J2951 in this form from memory; factors are ratios of two such figures.
    """
    relative = speed_m_per_s + headwind_m_per_s
    drag_n = 0.5 * air_density_kg_per_m3 * drag_area_m2 * relative * abs(relative)
    along = 1.0 / math.hypot(1.0, grade)
    weight_n = mass_kg * GRAVITY_M_PER_S2
    force_n = drag_n + weight_n * along * (rolling_coefficient + grade)
    return max(force_n, 0.0) / efficiency + auxiliary_w / speed_m_per_s


@kernel("float64(float64, float64, float64, float64)")
def reach_m(energy_j: float, reserve_floor_j: float, energy_j_per_m: float, factor: float) -> float:
    """How far does this energy drive?

    Parameters
    ----------
    energy_j : [J], in the battery
    reserve_floor_j : [J], >= 0, to be left on arrival
    energy_j_per_m : [J/m], > 0, of the battery
    factor : [-], > 0, product of load, cold, wind and tow

    Returns
    -------
    distance_m : [m], 0 where nothing is above the floor

    Errors: none. NaN in, NaN out.
    Source: inverse of `drive_energy_j`.
    """
    above_j = energy_j - reserve_floor_j
    return 0.0 if above_j <= 0.0 else above_j / (energy_j_per_m * factor)
