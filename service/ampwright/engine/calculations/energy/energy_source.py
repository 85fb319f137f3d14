"""What does a source hold for the day, what does it draw for itself, and what does the way home take?

Three kinds of store: a battery (capacity x health x cold x charge), a tank (fuel x heating value), an allowance of a
supply. What is drawn from it is a straight line of the load: awake or idling, plus so much for each watt.

Figures from memory or common practice are marked where they stand; each default goes through the ledger.
Sources: AFDC/GREET heating values; CEC inverter list (a proxy, marked so); IEEE 485 for lead acid in the cold; the
road load equation for wind (physics/drive_energy.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ampwright.engine.calculations.energy.energy_frost import stored_ratio
from ampwright.engine.calculations.energy.energy_plan import PlanBuilder
from ampwright.engine.physics.drive_energy import road_load_j_per_m
from ampwright.engine.physics.engine_fuel import willans_slope_w_per_w
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, RunTime, WayHome
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.source import PowerSource
from ampwright.engine.site.thin_air import power_left, stated_rating_w
from ampwright.engine.standards.engine_fuel_line import full_load_efficiency_ratio, no_load_ratio
from ampwright.engine.standards.fuel_energy import lower_heating_value_j_per_m3
from ampwright.engine.standards.lead_acid_temperature import cell_size_factor
from ampwright.engine.standards.loader import CitedValue

KWH_J = 3.6e6
BEST_EFFICIENCY = 0.5  # of electricity over heat; no engine set has more. Common practice, no source
ROUNDING = 1.05  # of two figures of one tank; common practice, no source
# --- common practice, no source, unless a line says otherwise ---
BATTERY_J = {
    "vehicle": Band(40 * KWH_J, 68 * KWH_J, 110 * KWH_J),
    "battery_station": Band(0.5 * KWH_J, 1.0 * KWH_J, 2.0 * KWH_J),
}
CHARGE = Band(0.5, 0.8, 1.0)
HEALTH = Band(0.8, 0.92, 0.99)
FADE_PER_ROOT_YEAR = Band(0.01, 0.025, 0.05)
FLOOR = {"vehicle": Band(0.0, 0.1, 0.2), "battery_station": Band(0.0, 0.0, 0.0)}
AWAKE_W = {"vehicle": Band(100.0, 220.0, 500.0), "battery_station": Band(10.0, 20.0, 40.0)}
EFFICIENCY = Band(0.82, 0.91, 0.965)  # of each further watt; the high end by the best tenth of the CEC inverter list
WALL_TO_BATTERY = Band(0.85, 0.9, 0.94)
COLD_C = (-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 60.0)
COLD_RATIO = (
    Band(0.3, 0.45, 0.65),
    Band(0.45, 0.6, 0.75),
    Band(0.58, 0.7, 0.85),
    Band(0.72, 0.83, 0.93),
    Band(0.85, 0.93, 0.98),
    Band(1.0, 1.0, 1.0),
    Band(1.0, 1.0, 1.0),
)
DRIVE_C = (-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0, 45.0)
DRIVE_COLD = (
    Band(1.35, 1.65, 2.1),
    Band(1.25, 1.5, 1.9),
    Band(1.15, 1.35, 1.6),
    Band(1.08, 1.2, 1.4),
    Band(1.02, 1.08, 1.18),
    Band(1.0, 1.0, 1.0),
    Band(1.0, 1.03, 1.08),
    Band(1.03, 1.1, 1.2),
)
ENERGY_J_PER_M = Band(650.0, 950.0, 1450.0)  # 180, 264, 400 Wh/km
DRIVE_LOADED = {True: Band(1.04, 1.1, 1.2), False: Band(1.0, 1.0, 1.0), None: Band(1.0, 1.05, 1.15)}
DRIVE_TOWING = Band(1.5, 1.9, 2.5)
DRIVE_WIND = Band(1.0, 1.03, 1.1)
WAY_HOME_M = Band(10e3, 30e3, 60e3)
ARRIVE_WITH = 0.1
DRIVING_M_PER_S = 50.0 / 3.6
# a laden van on a country road, for the ratio that wind makes
VAN = {
    "speed_m_per_s": 20.0,
    "mass_kg": 2800.0,
    "rolling_coefficient": 0.011,
    "drag_area_m2": 2.1,
    "air_density_kg_per_m3": 1.2,
    "efficiency": 0.82,
    "auxiliary_w": 600.0,
}
VAN_HEIGHT_M, FORECAST_HEIGHT_M, ROUGHNESS_M = 1.3, 10.0, 0.03
TANK_M3 = Band(0.004, 0.012, 0.025)
RATED_W = Band(1800.0, 4000.0, 6500.0)
FUEL_NAMES = {"gasoline": "gasoline (E0)", "diesel": "low-sulfur diesel", "propane": "propane"}
ENOUGH_J = 1e13
"""[J] stands for a supply without an end."""


def spread(typical: float, *bands: Band) -> Band:
    """The band of a product whose logarithms' spreads add as squares; `typical` is its median."""
    down = math.sqrt(sum(math.log(band.typical / band.low) ** 2 for band in bands))
    up = math.sqrt(sum(math.log(band.high / band.typical) ** 2 for band in bands))
    return Band(typical * math.exp(-down), typical, typical * math.exp(up))


def inverse(band: Band) -> Band:
    """The band of one over a figure."""
    return Band(1.0 / band.high, 1.0 / band.typical, 1.0 / band.low)


def band_of(values: Sequence[float]) -> Band:
    """A band of low, typical and high."""
    low, typical, high = values
    return Band(low, typical, high)


def rows_at(at: float, points: tuple[float, ...], bands: tuple[Band, ...]) -> Band:
    """A band between rows; beyond the ends the end's."""
    if at <= points[0]:
        return bands[0]
    for (low, before), (high, after) in zip(
        zip(points, bands, strict=True), zip(points[1:], bands[1:], strict=True), strict=False
    ):
        if at <= high:
            share = (at - low) / (high - low)
            return band_of([before.at(i) + share * (after.at(i) - before.at(i)) for i in range(3)])
    return bands[-1]


def percent(band: Band) -> str:
    """`70..80..95 %`."""
    return "..".join(f"{100.0 * value:.3g}" for value in _ends(band)) + " %"


def shown(band: Band, unit: str, factor: float = 1.0) -> str:
    """`40..68..110 kWh`."""
    return "..".join(f"{value / factor:.3g}" for value in _ends(band)) + f" {unit}"


def _ends(band: Band) -> tuple[float, ...]:
    return (band.typical,) if band.low == band.high else (band.low, band.typical, band.high)


def settled(
    builder: PlanBuilder, name: str, band: Band, kind: int | None, ledger: Ledger, code: str, at: str, said: str
) -> int:
    """Add a default: a figure of the plan and a line of the ledger."""
    ledger.assume(code, at, band, said)
    return builder.add(name, band, kind, f"{code}:{at}")


def add_battery(builder: PlanBuilder, source: PowerSource, day: EnergyDay, ambient: Band, ledger: Ledger) -> float:
    """The first eight figures of a battery. Gives its typical capacity in J."""
    battery = day.battery
    at = source.pointer
    capacity = source.battery_j
    if capacity is None:
        capacity = BATTERY_J[source.kind]
        where = member_of(at, "battery")
        settled(builder, "capacity", capacity, None, ledger, "battery_capacity", where, shown(capacity, "kWh", KWH_J))
    builder.add("capacity", capacity)
    _add_health(builder, day, ledger)
    _add_cold(builder, day, ambient, ledger)
    if day.charge_ratio is None:
        settled(builder, "charge", CHARGE, 1, ledger, "battery_charge", "/charge", percent(CHARGE))
    builder.share("charge", day.charge_ratio or CHARGE)
    _add_floor(builder, source, day, ledger)
    awake = source.awake_draw_w
    if awake is None:
        awake = AWAKE_W[source.kind]
        where = member_of(at, "awake_draw")
        settled(builder, "idle", awake, None, ledger, "awake_draw", where, shown(awake, "W"))
    builder.add("idle", awake)
    efficiency = battery.efficiency_ratio
    if efficiency is None:
        slope = inverse(EFFICIENCY)
        where = "/battery/efficiency"
        settled(builder, "slope", slope, None, ledger, "inverter_efficiency", where, percent(EFFICIENCY))
    else:
        slope = inverse(efficiency)
    builder.add("slope", slope)
    builder.share("gain", stored_ratio(source, day, ambient, WALL_TO_BATTERY))
    return capacity.typical


def _add_health(builder: PlanBuilder, day: EnergyDay, ledger: Ledger) -> None:
    battery = day.battery
    if battery.health_ratio is not None:
        builder.share("health", battery.health_ratio)
        return
    if battery.age_years is not None:
        root = math.sqrt(battery.age_years)
        fade = FADE_PER_ROOT_YEAR
        health = band_of([max(1.0 - value * root, 0.3) for value in (fade.high, fade.typical, fade.low)])
    else:
        health = HEALTH
    settled(builder, "health", health, 1, ledger, "battery_health", "/battery/health", percent(health))


def _add_cold(builder: PlanBuilder, day: EnergyDay, ambient: Band, ledger: Ledger) -> None:
    cells = day.battery.cells_c or ambient
    if day.battery.chemistry == "lead_acid":
        factors = [cell_size_factor(celsius) for celsius in (cells.low, cells.typical, cells.high)]
        ratios = [1.0 / one.value if isinstance(one, CitedValue) else None for one in factors]
        if all(ratio is not None for ratio in ratios):
            cold = band_of([min(ratio, 1.0) for ratio in ratios if ratio is not None])
        else:  # outside the standard's table: as wide as lithium in the cold
            cold = rows_at(cells.typical, COLD_C, COLD_RATIO)
    else:
        ends = [rows_at(celsius, COLD_C, COLD_RATIO) for celsius in (cells.low, cells.typical, cells.high)]
        cold = Band(ends[0].low, ends[1].typical, ends[2].high)
    if cold.low == cold.high == 1.0:
        builder.share("cold", cold)
        return
    settled(builder, "cold", cold, 1, ledger, "battery_cold", "/battery/cells", percent(cold))


def _add_floor(builder: PlanBuilder, source: PowerSource, day: EnergyDay, ledger: Ledger) -> None:
    stated = [item.at for item in source.availability if item.when == "charge_below" and not item.works]
    if day.battery.stops_at_ratio is not None:
        builder.share("stops_at", day.battery.stops_at_ratio)
    elif stated and stated[0] is not None:
        builder.share("stops_at", Band.exactly(stated[0]))
    elif source.kind == "vehicle":
        floor = FLOOR["vehicle"]
        settled(builder, "stops_at", floor, 1, ledger, "battery_floor", "/battery/stops_at", percent(floor))
    else:
        builder.share("stops_at", FLOOR["battery_station"])


def fuel_kind(source: PowerSource, day: EnergyDay, ledger: Ledger) -> str:
    """gasoline, diesel or propane; a set above 10 kW is taken for a diesel."""
    if day.fuel.kind is not None:
        return day.fuel.kind
    rated = source.running.band.typical if source.running else 0.0
    usual = "diesel" if rated > 10_000.0 else "gasoline"
    return ledger.assume("fuel_kind", "/fuel/kind", usual, usual)


def rated_power_w(source: PowerSource, ledger: Ledger) -> Band:
    """[W] running power of a set; a rating in VA counts as W, one in A at the leg voltage."""
    stated = stated_rating_w(source)
    if stated is not None:
        return stated
    return ledger.assume("engine_rating", member_of(source.pointer, "running"), RATED_W, shown(RATED_W, "kW", 1000.0))


def add_engine(builder: PlanBuilder, source: PowerSource, day: EnergyDay, ledger: Ledger) -> float:
    """The first eight figures of a set. Gives the heat of a m3 of its fuel in J."""
    kind = fuel_kind(source, day, ledger)
    heat = lower_heating_value_j_per_m3(FUEL_NAMES[kind])
    assert isinstance(heat, CitedValue)
    per_m3 = heat.value
    at = source.pointer
    tank = source.tank_m3
    fuel = day.fuel.in_tank_m3
    if fuel is not None and tank is not None and overfull(tank, fuel):
        builder.add("capacity", tank.times(per_m3))  # the safe side of two figures; energy_findings.py tells it
    elif fuel is not None:
        builder.add("capacity", fuel.times(per_m3))
    elif tank is not None:
        ledger.assume("fuel_in_tank", "/fuel/in_tank", tank, shown(tank, "l", 1e-3))
        builder.add("capacity", tank.times(per_m3))
    else:
        where = member_of(at, "tank")
        settled(builder, "capacity", TANK_M3.times(per_m3), None, ledger, "tank_size", where, shown(TANK_M3, "l", 1e-3))
    for name in ("health", "cold", "charge"):
        builder.share(name, Band.exactly(1.0))
    builder.share("stops_at", Band.exactly(0.0))
    rated = rated_power_w(source, ledger)
    whole_tank_j = (tank or TANK_M3).typical * per_m3
    idle, slope, key = _fuel_line(rated, kind, day.fuel.run_times, whole_tank_j, ledger)
    builder.add("idle", idle, None, key)
    builder.add("slope", slope, None, key)
    builder.share("gain", Band.exactly(1.0))
    return per_m3


def overfull(tank: Band, fuel: Band) -> bool:
    """Whether more is said to be in a tank [m3] than it holds, apart from rounding."""
    return fuel.low > tank.high * ROUNDING


def sound_run_times(rated_w: float, run_times: Sequence[RunTime], tank_j: float) -> list[tuple[float, float]]:
    """Load and heat [W] of the run times that an engine can have, rising; tank_j : [J] heat of a full tank."""
    points = sorted((item.load_ratio * rated_w, tank_j / item.lasts_s) for item in run_times)
    return [(load_w, heat_w) for load_w, heat_w in points if load_w <= BEST_EFFICIENCY * heat_w]


def _fuel_line(
    rated: Band, kind: str, run_times: tuple[RunTime, ...], tank_j: float, ledger: Ledger
) -> tuple[Band, Band, str | None]:
    """Heat at no load [W], heat for each further watt [-], and the ledger's key where it is a default."""
    points = sound_run_times(rated.typical, run_times, tank_j)
    if len(points) >= 2 and points[-1][0] > points[0][0]:
        slope = willans_slope_w_per_w(*points[0], *points[-1])
        idle = points[0][1] - slope * points[0][0]
        if slope > 0.0 and idle >= 0.0:
            return Band.exactly(idle), Band.exactly(slope), None
    size_w = rated.typical
    share, efficiency = band_of(no_load_ratio(kind, size_w)), band_of(full_load_efficiency_ratio(kind, size_w))
    said = f"{percent(share)} of full-load fuel at no load"
    if points:
        load_w, heat_w = points[0]
        full = heat_w / (share.typical + (1.0 - share.typical) * load_w / rated.typical)
        full_band = Band.exactly(full)
    else:
        full = rated.typical / efficiency.typical
        full_band = spread(full, inverse(efficiency))
        said += f", {percent(efficiency)} efficiency at full load"
    ledger.assume("fuel_curve", "/fuel/run_times", share, said)
    idle_w = share.typical * full
    slope_w = (1.0 - share.typical) * full / rated.typical
    return (
        spread(idle_w, full_band.times(share.typical), share, rated),
        spread(slope_w, full_band, Band(1.0 - share.high, 1.0 - share.typical, 1.0 - share.low)),
        "fuel_curve:/fuel/run_times",
    )


def derating(source: PowerSource, day: EnergyDay, ambient: Band) -> Band:
    """[-] what altitude and a warm intake leave of an engine's rating; 1 for what has no engine.

    Source: rules of thumb, from memory (standards/engine_derating.py); a maker's table goes before them.
    """
    if source.kind != "engine_generator":
        return Band.exactly(1.0)
    return power_left(Band.exactly(day.fuel.altitude_m or 0.0), ambient)


def add_supply(builder: PlanBuilder, day: EnergyDay, ledger: Ledger) -> bool:
    """The first eight figures of a supply from the network. Gives whether it is limited in energy."""
    limited = day.allowance_j is not None
    if not limited:
        ledger.assume("allowance", "/allowance", None, "no limit")
    builder.add("capacity", day.allowance_j or Band.exactly(ENOUGH_J))
    for name in ("health", "cold", "charge"):
        builder.share(name, Band.exactly(1.0))
    builder.share("stops_at", Band.exactly(0.0))
    builder.add("idle", Band.exactly(0.0))
    builder.add("slope", Band.exactly(1.0))
    builder.share("gain", Band.exactly(1.0))
    return limited


def add_drive(builder: PlanBuilder, source: PowerSource, day: EnergyDay, ambient: Band, ledger: Ledger) -> None:
    """The five figures of driving; of no use, and certain, for a source that does not drive."""
    one = Band.exactly(1.0)
    if source.kind != "vehicle":
        for name in ("per_distance", "drive_load", "drive_cold", "drive_wind", "drive_tow"):
            builder.add(name, one)
        return
    per_distance = source.energy_per_distance_j_per_m
    if per_distance is None:
        per_distance = ENERGY_J_PER_M
        where = member_of(source.pointer, "energy_per_distance")
        said = shown(per_distance, "Wh/km", 3.6)
        settled(builder, "per_distance", per_distance, None, ledger, "energy_per_distance", where, said)
    home = day.way_home or WayHome("/way_home")
    if home.figure_of == "wall":
        per_distance = spread(per_distance.typical * WALL_TO_BATTERY.typical, per_distance, WALL_TO_BATTERY)
    builder.add("per_distance", per_distance)
    load = DRIVE_LOADED[home.loaded]
    if home.loaded is None:
        settled(builder, "drive_load", load, None, ledger, "drive_load", "/way_home/loaded", shown(load, "x"))
    builder.add("drive_load", load)
    ends = [rows_at(celsius, DRIVE_C, DRIVE_COLD) for celsius in (ambient.low, ambient.typical, ambient.high)]
    cold = Band(min(e.low for e in ends), ends[1].typical, max(e.high for e in ends))
    if cold.high > 1.0:
        settled(builder, "drive_cold", cold, None, ledger, "drive_cold", "/conditions/ambient", shown(cold, "x"))
    builder.add("drive_cold", cold)
    if home.headwind_m_per_s is None:
        where = "/way_home/headwind"
        settled(builder, "drive_wind", DRIVE_WIND, None, ledger, "drive_wind", where, shown(DRIVE_WIND, "x"))
    else:
        builder.add("drive_wind", home.headwind_m_per_s.map(wind_factor))
    if home.towing is None:
        ledger.assume("towing", "/way_home/towing", False, "no trailer")
    if home.towing:
        settled(
            builder, "drive_tow", DRIVE_TOWING, None, ledger, "drive_tow", "/way_home/towing", shown(DRIVE_TOWING, "x")
        )
    builder.add("drive_tow", one)


def wind_factor(headwind_m_per_s: float) -> float:
    """[-] energy per distance against this wind over that in still air, of a laden van on a country road.

    headwind_m_per_s : as forecasts give it, 10 m above open ground. Half way up a van less of it blows: logarithmic
    wind profile, roughness 0.03 m of open country (World Meteorological Organization, guide no. 8, from memory).
    """

    def per_m(wind: float) -> float:
        return road_load_j_per_m(
            VAN["speed_m_per_s"],
            wind,
            VAN["mass_kg"],
            VAN["rolling_coefficient"],
            VAN["drag_area_m2"],
            0.0,
            VAN["air_density_kg_per_m3"],
            VAN["efficiency"],
            VAN["auxiliary_w"],
        )

    at_van = math.log(VAN_HEIGHT_M / ROUGHNESS_M) / math.log(FORECAST_HEIGHT_M / ROUGHNESS_M)
    return per_m(headwind_m_per_s * at_van) / per_m(0.0)
