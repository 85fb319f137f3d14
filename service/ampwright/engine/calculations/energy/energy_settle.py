"""How does what a caller says of a day become a plan with every figure settled?

Stretches are cut at every full hour, so that the curve has a point for each. Outlets are off while the vehicle drives;
a socket or the sun at a stop charges only while work lasts there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ampwright.engine.calculations.energy.energy_calibration import Posterior, calibrated
from ampwright.engine.calculations.energy.energy_cold_power import cold_limit_w, with_cold
from ampwright.engine.calculations.energy.energy_loads import Loads
from ampwright.engine.calculations.energy.energy_packs import packs_share
from ampwright.engine.calculations.energy.energy_plan import Plan, PlanBuilder, Stretch, in_use
from ampwright.engine.calculations.energy.energy_powered import NO_LIMIT_W, Powered, groups_of, limit_w, powered
from ampwright.engine.calculations.energy.energy_sleep import Sleep, sleep_at
from ampwright.engine.calculations.energy.energy_source import (
    ARRIVE_WITH,
    DRIVING_M_PER_S,
    WAY_HOME_M,
    add_battery,
    add_drive,
    add_engine,
    add_supply,
    derating,
    rated_power_w,
    settled,
    shown,
)
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, Stop, WayHome, Work
from ampwright.engine.site.ledger import Assumption, Ledger
from ampwright.engine.site.load_classes import LoadClass
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle import AMBIENT_C
from ampwright.engine.site.use import Site

HOUR_S = 3600.0
SHIFT_S = 8.0 * HOUR_S  # common practice, no source
BATTERY_TOO_COLD = "battery_too_cold"
"""Why a tool does not run whose power is above all that cells so cold may give."""
# without a part where counted work decides the energy of a tool
_OF_PLATES = ("working_load", "power_factor", "plate_unknown", "plate_from_shaft_power", "meter_over_range")
# settled on the way to a tool's power, without a part in its energy
_NOT_OF_ENERGY = ("heavy_load", "crest_factor")


@dataclass(frozen=True, slots=True)
class SettledDay:
    """A plan with what else an answer needs.

    heat_j_per_m3 : of the fuel, None where none is burnt. capacity_j : typical, of a battery. posteriors : of what was
    observed. asleep : per stop, None where the source stays awake. ten_minutes : per work, the share of ten minutes
    that its tool runs while somebody works. cold_w : what cold cells give, where that is less than the source does.
    warm_limit_w : what the source gives with warm cells.
    """

    plan: Plan
    assumptions: tuple[Assumption, ...]
    stops: tuple[Stop, ...]
    heat_j_per_m3: float | None
    capacity_j: float | None
    posteriors: tuple[Posterior, ...]
    pace_s: dict[str, Band]
    classes: dict[str, LoadClass]
    power_w: dict[str, Band]
    tool_of: dict[str, str | None]
    ambient_c: Band
    shift_s: float
    able: Powered
    asleep: tuple[Sleep | None, ...]
    ten_minutes: dict[str, Band]
    cold_w: Band | None = None
    warm_limit_w: Band | None = None

    def running_ratio(self, tool: str) -> float:
        """[-] share of the time at work that a tool runs, typical; by counted work where that decides it."""
        plan = self.plan
        work_s = math.fsum(item.duration_s for item in plan.stretches if item.is_work)
        power = self.power_w[tool].typical
        if work_s <= 0.0 or power <= 0.0:
            return 0.0
        energy = 0.0
        for j, load in enumerate(plan.loads):
            if load.kind != "standby" and tool in (load.name, self.tool_of.get(load.name)):
                each = plan.figures[load.power].band.typical * plan.figures[load.time].band.typical
                amount = math.fsum(plan.share[g, j] * s.duration_s for g, s in enumerate(plan.stretches) if s.is_work)
                energy += each * amount
        return min(energy / (power * work_s), 1.0)


def settle_day(site: Site, day: EnergyDay, able: Powered | None = None) -> SettledDay:
    """The plan of a sound site and day. able : which tools the source can feed, where that is known already."""
    ledger = Ledger()
    builder = PlanBuilder()
    source = site.source
    ambient = site.ambient_c
    if ambient is None:
        ambient = ledger.assume("ambient", "/conditions/ambient", AMBIENT_C, "10..40 degC")
    if site.people is None:
        ledger.assume("people", "/people", 1, "1")
    heat: float | None = None
    capacity: float | None = None
    limited = True
    if source.kind in ("vehicle", "battery_station"):
        capacity = add_battery(builder, source, day, ambient, ledger)
    elif source.kind == "engine_generator":
        heat = add_engine(builder, source, day, ledger)
        if day.fuel.altitude_m is None:
            ledger.assume("altitude", "/fuel/altitude", 0.0, "0 m")
    else:
        limited = add_supply(builder, day, ledger)
    add_drive(builder, source, day, ambient, ledger)
    rated = rated_power_w(source, ledger) if source.kind == "engine_generator" else None
    whose = f"engine_rating:{member_of(source.pointer, 'running')}"
    assumed = whose if any(item.key == whose for item in ledger.assumptions) else None
    limit = limit_w(source, rated, derating(source, day, ambient))
    cold = cold_limit_w(builder, source, day, ambient, None if limit.typical >= NO_LIMIT_W else limit, ledger)
    warm_limit = limit
    binds = cold is not None and cold[0].low < limit.low
    if cold is not None and binds:
        limit, assumed = with_cold(limit, cold[0]), cold[1]
    builder.add("limit", limit, None, assumed)
    able = able if able is not None else powered(site, groups_of(day), derating(source, day, ambient))
    most_w = cold[0].high if cold is not None and binds else math.inf
    loads = Loads(site, day, builder, ledger, frozenset(able.never), most_w)
    too_cold = {tool: BATTERY_TOO_COLD for tool in loads.too_strong if tool not in able.never}
    if too_cold:
        able = replace(able, never={**able.never, **too_cold})
    loads.add_work()
    stops, shift_s = _stops(day, ledger)
    asleep = tuple(sleep_at(site, day, loads, stop, ledger) for stop in stops)
    stretches = _stretches(site, day, stops, asleep, builder, ledger)
    met = binds and cold is not None and _asked_at_most_w(day, loads, shift_s) > cold[0].low
    names = tuple(stop.id for stop in stops)
    plan = Plan(
        tuple(builder.figures), tuple(loads.found), _share(stretches, stops, loads, day), stretches, names,
        _arrival_j(site, day, capacity, ledger), limited,
    )  # fmt: skip
    replaced = {item.key: item.assumption for item in plan.figures}
    plan, posteriors = calibrated(plan, day)
    for posterior in posteriors:
        ledger.assume("work_observed", posterior.pointer, posterior.after, shown(posterior.after, "Wh each", 3600.0))
    used = set(in_use(plan))
    of_use = {item.assumption for i, item in enumerate(plan.figures) if i in used}
    idle = {item.assumption for item in plan.figures} - of_use - {None}
    observed = {replaced[f"each:{posterior.work}"] for posterior in posteriors}
    idle_plates = tuple(
        f"{tool.pointer}/" for tool in site.tools if f"power:{tool.id}" not in builder.places and tool.id in loads.busy
    )
    assumptions = tuple(
        item
        for item in ledger.assumptions
        if item.code not in _NOT_OF_ENERGY
        and (met or item.code != "battery_cold_power")
        and item.key not in observed | idle
        and not (item.code in _OF_PLATES and item.pointer.startswith(idle_plates))
    )
    return SettledDay(
        plan, assumptions, stops, heat, capacity, posteriors, loads.pace_s, loads.classes, loads.power_w,
        loads.tool_of, ambient, shift_s, able, asleep,
        {work.id: band for work in day.work if (band := loads.in_ten_minutes(work)) is not None},
        cold[0] if cold is not None and met else None, warm_limit,
    )  # fmt: skip


def _asked_at_most_w(day: EnergyDay, loads: Loads, shift_s: float) -> float:
    """[W] of all tools at a time, and of work that no tool does."""
    tools = math.fsum(band.high for band in loads.power_w.values())
    counted = math.fsum(
        work.amount * loads.builder.figures[loads.builder.places[f"each:{work.id}"]].band.high
        for work in day.work
        if loads.tool_of[work.id] is None
    )
    return tools + (counted / shift_s if shift_s > 0.0 else 0.0)


def _stops(day: EnergyDay, ledger: Ledger) -> tuple[tuple[Stop, ...], float]:
    """Stops with a length each, and all of their time together."""
    stops = day.stops or (Stop("site", ""),)
    shift = day.shift_s
    open_stops = [stop for stop in stops if stop.lasts_s is None]
    stated = math.fsum(stop.lasts_s for stop in stops if stop.lasts_s is not None)
    if shift is None and open_stops:
        shift = ledger.assume("shift", "/shift", SHIFT_S, "8 h")
    each = max((shift or 0.0) - stated, 0.0) / len(open_stops) if open_stops else 0.0
    settled_stops = tuple(replace(stop, lasts_s=each) if stop.lasts_s is None else stop for stop in stops)
    return settled_stops, math.fsum(stop.lasts_s or 0.0 for stop in settled_stops)


def _share(
    stretches: tuple[Stretch, ...], stops: tuple[Stop, ...], loads: Loads, day: EnergyDay
) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """How much of each load runs in each stretch.

    Counted work is spread evenly over the time at its stops; packs go on chargers one after the other, with taper.
    What is asked of a source that is asleep stands here too, and is not fed.
    """
    share = np.zeros((len(stretches), len(loads.found)))
    work = {item.id: item for item in day.work}
    for j, rate in enumerate(loads.rates):
        (name,) = loads.running[j]
        counted = work.get(name)
        at = [g for g, item in enumerate(stretches) if item.is_work and _runs(name, counted, stops[item.stop])]
        if counted is None:
            share[at, j] = rate
            continue
        total_s = math.fsum(stretches[g].duration_s for g in at)
        if counted.unit == "pack" and loads.found[j].kind == "work" and rate > 0.0:
            done = 0.0
            passed_s = 0.0
            for g in at:
                passed_s += stretches[g].duration_s
                by_then = packs_share(counted, passed_s, total_s)
                share[g, j] = rate * (by_then - done) / stretches[g].duration_s
                done = by_then
        elif total_s > 0.0:
            share[at, j] = rate / total_s
    return share


def _runs(name: str, counted: Work | None, stop: Stop) -> bool:
    if counted is not None:
        return counted.stop in (None, stop.id)
    return stop.running is None or name in stop.running


def _stretches(
    site: Site,
    day: EnergyDay,
    stops: tuple[Stop, ...],
    asleep: tuple[Sleep | None, ...],
    builder: PlanBuilder,
    ledger: Ledger,
) -> tuple[Stretch, ...]:
    found: list[Stretch] = []
    clock_s = 0.0

    def drive(name: str, distance: Band, assumption: str | None = None) -> None:
        nonlocal clock_s
        lasts_s = distance.typical / DRIVING_M_PER_S
        place = builder.add(f"distance:{name}", distance, None, assumption)
        found.append(Stretch(False, 0, clock_s, lasts_s, 0.0, place))
        clock_s += lasts_s

    for k, stop in enumerate(stops):
        if site.source.kind == "vehicle" and stop.distance_m is not None and stop.distance_m.high > 0.0:
            drive(f"to:{stop.id}", stop.distance_m)
        left_s = stop.lasts_s or 0.0
        sleep = asleep[k]
        awake, until_s = 1.0, math.inf
        if sleep is not None:
            awake = sleep.awake_ratio
            until_s = clock_s + sleep.after_s if sleep.after_s is not None else math.inf
        while left_s > 1e-6:
            if clock_s >= until_s - 1e-6:
                awake, until_s = 0.0, math.inf
            hour = math.floor(clock_s / HOUR_S + 1e-9)
            lasts_s = min(left_s, (hour + 1) * HOUR_S - clock_s, until_s - clock_s)
            sun_w = day.solar_w[hour] if hour < len(day.solar_w) else 0.0
            socket_w = stop.recharge_w.typical if stop.recharge_w else 0.0
            found.append(Stretch(True, k, clock_s, lasts_s, sun_w + socket_w, -1, awake))
            clock_s += lasts_s
            left_s -= lasts_s
    if site.source.kind == "vehicle":
        home = day.way_home or WayHome("/way_home")
        if home.distance_m is None:
            where = "/way_home/distance" if day.way_home is not None else "/way_home"
            said = shown(WAY_HOME_M, "km", 1000.0)
            settled(builder, "distance:home", WAY_HOME_M, None, ledger, "way_home", where, said)
            drive("home", WAY_HOME_M, f"way_home:{where}")
        elif home.distance_m.high > 0.0:
            drive("home", home.distance_m)
    return tuple(found)


def _arrival_j(site: Site, day: EnergyDay, capacity_j: float | None, ledger: Ledger) -> float:
    """What must be left when the day is over: as said, else a tenth of a vehicle's battery."""
    if site.source.kind != "vehicle" or capacity_j is None:
        return 0.0
    ratio = day.way_home.arrive_with_ratio if day.way_home else None
    if ratio is None:
        ratio = ledger.assume("reserve_floor", "/way_home/arrive_with", ARRIVE_WITH, f"{100.0 * ARRIVE_WITH:g} %")
    return ratio * capacity_j
