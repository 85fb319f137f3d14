"""What must be told of a day beside its figures: risk to the reserve, sleep, cold packs, exhaust, hot refuelling?

Each finding points at the member that would settle it. Those with a figure take it from the rounded figures.
Source: practice of the trade; derating by engine_derating.py (from memory, marked so).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

from ampwright.engine.calculations.energy.energy_figures import Rows
from ampwright.engine.calculations.energy.energy_finding import Told, name_of
from ampwright.engine.calculations.energy.energy_frost import charged_cold_c
from ampwright.engine.calculations.energy.energy_judgement import rounded_j
from ampwright.engine.calculations.energy.energy_loads import compressor_running
from ampwright.engine.calculations.energy.energy_packs import packs_done
from ampwright.engine.calculations.energy.energy_plan import Outcome, quantile
from ampwright.engine.calculations.energy.energy_power_findings import asked_w, power_told, tools_told
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.calculations.energy.energy_sleep import threshold_w
from ampwright.engine.calculations.energy.energy_source import (
    FUEL_NAMES,
    TANK_M3,
    fuel_kind,
    overfull,
    rated_power_w,
    sound_run_times,
)
from ampwright.engine.calculations.rules.place_rules import exhaust_checks
from ampwright.engine.calculations.wording import and_list
from ampwright.engine.physics.day_energy import ENOUGH, LEFT_AFTER_WORK, LOAD, MARGIN, RESERVE_AT
from ampwright.engine.physics.pack_charging import LITHIUM_COLDEST_CHARGE_C
from ampwright.engine.site.energy_day import EnergyDay, Work
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settle_source import USUAL_SLEEP_W
from ampwright.engine.site.use import Site
from ampwright.engine.site.work_units import WORK_UNITS
from ampwright.engine.standards.fuel_energy import lower_heating_value_j_per_m3
from ampwright.engine.standards.loader import CitedValue

LOW_LOAD = 0.3  # of the rating; common practice, no source
AWAKE_SHARE = 0.25  # of what is used; worth telling
_UNWATCHED = ("float", "thermostat")
_CYCLES = ("pressure", "float", "thermostat")


def judged_of(
    site: Site, day: EnergyDay, settled: SettledDay, rows: Rows, draws: Callable[[], Outcome], busiest_w: float | None
) -> list[Told]:
    """What bears on the verdict of a day beside its energy, the same of one day alone and of one among many.

    draws : the draws of the day, asked for only where percentiles do not say enough; busiest_w : for the words.
    """
    return [
        *_pace(site, day, settled),
        *_packs(day, settled),
        *_air(day),
        *_rated(day, settled, draws),
        *tools_told(site, settled),
        *power_told(site, settled, rows, busiest_w),
        *_exhaust(site),
        *_sleep(site, settled),
        *_must_not_stop(site, settled, rows),
        *_cold(site, day, settled),
        *_chargers(site, settled),
    ]


def findings_of(
    site: Site, day: EnergyDay, settled: SettledDay, outcome: Outcome, rows: Rows, verdict: str
) -> list[Told]:
    """Everything that is told of one day."""
    return [
        *_reserve(site, settled, outcome, verdict),
        *judged_of(site, day, settled, rows, lambda: outcome, asked_w(settled, outcome)),
        *_engine(site, settled, rows),
        *_fuel_said(site, day),
        *_awake(site, settled, outcome),
        *(
            Told("observation_disagrees", item.pointer, item.work, "pass")
            for item in settled.posteriors
            if not item.agrees
        ),
    ]


def short_of(site: Site) -> str:
    """Code of the finding that says that the energy does not do."""
    kind = site.source.kind
    return {"vehicle": "reserve_at_risk", "engine_generator": "fuel_runs_out"}.get(kind, "energy_runs_out")


def _reserve(site: Site, settled: SettledDay, outcome: Outcome, verdict: str) -> list[Told]:
    if verdict == "pass" or not settled.plan.limited:
        return []
    code = short_of(site)
    if site.source.kind == "vehicle":
        left = max(rounded_j(outcome.at(LEFT_AFTER_WORK, 0.1)), 0.0)
        reserve = rounded_j(last_reserve_j(settled, outcome))
        why = " for the way home" if reserve > rounded_j(settled.plan.arrival_j) else ""
        if left >= reserve:
            why += ", and before that its outlets go off with work undone"
        return [Told(code, "/way_home", name_of(site), verdict, left, reserve, "J", why)]
    missing = -rounded_j(outcome.at(MARGIN, 0.1))
    if settled.heat_j_per_m3 is not None:
        missing_m3 = round(missing / settled.heat_j_per_m3, 6)
        return [Told(code, "/fuel/in_tank", name_of(site), verdict, missing_m3, None, "l")]
    at = "/charge" if site.source.kind == "battery_station" else "/allowance"
    return [Told(code, at, name_of(site), verdict, missing, None, "J")]


def last_reserve_j(settled: SettledDay, outcome: Outcome) -> float:
    """[J] what must be left when work ends."""
    places = [i for i, item in enumerate(settled.plan.stretches) if item.is_work]
    return float(outcome.reserve_j[places[-1]]) if places else settled.plan.arrival_j


def hours_needed_s(site: Site, day: EnergyDay, settled: SettledDay) -> tuple[float, float, float] | None:
    """[s] of one crew for the counted work that keeps people busy, P10, P50, P90; None where there is none.

    Sums of the bands: the paces of different works are taken as rising and falling together, the wide side.
    """
    parts = [(work.amount, settled.pace_s[work.id]) for work in day.work if work.id in settled.pace_s]
    if not parts:
        return None
    people = site.people or 1
    sums = [math.fsum(amount * pace.at(i) for amount, pace in parts) / people for i in range(3)]
    return sums[0], sums[1], sums[2]


def _pace(site: Site, day: EnergyDay, settled: SettledDay) -> list[Told]:
    needed = hours_needed_s(site, day, settled)
    if needed is None or needed[1] <= settled.shift_s:
        # what only the slow tenth of crews overruns is told by the figures of work done
        return []
    verdict = "fail" if needed[0] > settled.shift_s else "marginal"
    return [Told("work_longer_than_shift", "/work", "", verdict, round(needed[1], 0), settled.shift_s, "h")]


def _packs(day: EnergyDay, settled: SettledDay) -> list[Told]:
    found: list[Told] = []
    for work in day.work:
        pack = work.pack
        if work.unit != "pack" or pack is None or pack.charger_w is None:
            continue
        done = packs_done(work, time_for(work, settled))
        if done < work.amount:
            where = member_of(work.pointer, "amount")
            found.append(Told("packs_not_done", where, work.id, "fail", work.amount, done, ""))
    return found


def time_for(work: Work, settled: SettledDay) -> float:
    """[s] at the stops where a work is done, the source awake."""
    return math.fsum(
        item.duration_s
        for item in settled.plan.stretches
        if item.is_work and item.awake > 0.0 and work.stop in (None, settled.plan.stops[item.stop])
    )


def _air(day: EnergyDay) -> list[Told]:
    return [
        Told("compressor_falls_behind", duty.pointer, duty.tool, "fail" if band.low >= 1.0 else "marginal")
        for duty in day.duties
        if duty.air is not None and (band := compressor_running(duty.air)).typical >= 1.0
    ]


def _rated(day: EnergyDay, settled: SettledDay, draws: Callable[[], Outcome]) -> list[Told]:
    """A duty cycle exceeded: in the ten minutes in which somebody works without a pause, or on average over the day."""
    found: list[Told] = []
    work_s = math.fsum(item.duration_s for item in settled.plan.stretches if item.is_work)
    for duty in day.duties:
        power = settled.power_w[duty.tool].typical
        if duty.rated_ratio is None or work_s <= 0.0 or power <= 0.0:
            continue
        of_tool = [
            j
            for j, load in enumerate(settled.plan.loads)
            if load.kind != "standby" and duty.tool in (load.name, settled.tool_of.get(load.name))
        ]
        running = draws().use_j[:, of_tool].sum(axis=1) / (power * work_s)
        typical, high = (quantile(running, 0.5), quantile(running, 0.9)) if of_tool else (0.0, 0.0)
        for work, band in settled.ten_minutes.items():
            if settled.tool_of.get(work) == duty.tool:
                typical, high = max(typical, band.typical), max(high, band.high)
        if high > duty.rated_ratio:
            # the rest that it then needs is in the time of the work: what is lost is time, not the tool
            verdict = "fail" if typical > duty.rated_ratio else "marginal"
            found.append(
                Told("duty_cycle_exceeded", duty.pointer, duty.tool, verdict, round(high, 4), duty.rated_ratio, "%")
            )
    return found


def _exhaust(site: Site) -> list[Told]:
    if site.source.kind != "engine_generator":
        return []
    return [
        Told(
            check.code,
            check.pointer,
            check.subject,
            check.verdict,
            check.value,
            check.limit,
            check.unit,
            check.value_text,
        )
        for check in exhaust_checks(site)
    ]


def _engine(site: Site, settled: SettledDay, rows: Rows) -> list[Told]:
    """What is told of an engine without being judged."""
    if site.source.kind != "engine_generator":
        return []
    name, at = name_of(site), site.source.pointer
    found: list[Told] = []
    empty_at = float(rows.values[RESERVE_AT, 0])
    if empty_at < math.inf:
        found.append(Told("refuelling_hot", "/fuel/in_tank", name, "pass", round(empty_at, 0), None, "h"))
    rated = rated_power_w(site.source, Ledger()).typical
    work_s = math.fsum(item.duration_s for item in settled.plan.stretches if item.is_work)
    typical = float(rows.values[LOAD, 1]) / work_s if work_s > 0.0 else 0.0
    if typical < LOW_LOAD * rated:
        where = member_of(at, "running")
        found.append(Told("low_load_running", where, name, "pass", round(typical / rated, 4), LOW_LOAD, "%"))
    return found


def _fuel_said(site: Site, day: EnergyDay) -> list[Told]:
    """Figures of an engine's fuel that contradict each other: the safe side was counted with."""
    if site.source.kind != "engine_generator":
        return []
    found: list[Told] = []
    tank, fuel = site.source.tank_m3, day.fuel.in_tank_m3
    if tank is not None and fuel is not None and overfull(tank, fuel):
        found.append(
            Told("fuel_more_than_tank", "/fuel/in_tank", name_of(site), "pass", fuel.typical, tank.typical, "l")
        )
    per_m3 = lower_heating_value_j_per_m3(FUEL_NAMES[fuel_kind(site.source, day, Ledger())])
    if isinstance(per_m3, CitedValue) and day.fuel.run_times:
        rated_w = rated_power_w(site.source, Ledger()).typical
        tank_j = (tank or TANK_M3).typical * per_m3.value
        sound = sound_run_times(rated_w, day.fuel.run_times, tank_j)
        falls = any(more_w < less_w for (_, less_w), (_, more_w) in itertools.pairwise(sound))
        if len(sound) < len(day.fuel.run_times) or falls:
            found.append(Told("run_times_contradict", "/fuel/run_times", name_of(site), "pass"))
    return found


def _sleep(site: Site, settled: SettledDay) -> list[Told]:
    source = site.source
    if source.kind not in ("vehicle", "battery_station") or not site.tools:
        return []
    if any(settled.asleep):
        return _asleep(site, settled)
    stated = source.sleeps_below_w or threshold_w(source)
    threshold = stated.high if stated is not None else USUAL_SLEEP_W
    steady = 0.0
    for tool in site.tools:
        load_class = settled.classes[tool.id]
        control = tool.control or load_class.control
        by_itself = (tool.operated or load_class.operated) == "by_itself"
        if by_itself and control not in _CYCLES:
            steady += settled.power_w[tool.id].low
    # A crew wakes a source by hand when it needs it; what nobody watches is what gets lost. Where nobody said that the
    # source sleeps at all, only such loads are worth the word.
    lost = _CYCLES if stated is not None else _UNWATCHED
    cycling = [t for t in site.tools if (t.control or settled.classes[t.id].control) in lost or t.must_return]
    if threshold <= 0.0 or steady >= threshold or not cycling:
        return []
    where = member_of(source.pointer, "sleeps_below")
    return [Told("energy_source_may_sleep", where, name_of(site), "marginal", round(steady, 1), threshold, "W")]


def _asleep(site: Site, settled: SettledDay) -> list[Told]:
    """When the source falls asleep, and who gets nothing from then on."""
    where = member_of(site.source.pointer, "sleeps_below")
    found: list[Told] = []
    for name, sleep in zip(settled.plan.stops, settled.asleep, strict=True):
        if sleep is None:
            continue
        at = "" if len(settled.plan.stops) == 1 else f" at {name}"
        if sleep.after_s is None:
            ratio = round(1.0 - sleep.awake_ratio, 4)
            found.append(Told("source_sleeps_between", where, name_of(site), "pass", ratio, None, "%", at))
        elif sleep.lost:
            lost = and_list(sleep.lost)
            told = f"{lost} {'gets' if len(sleep.lost) == 1 else 'get'} nothing from then on"
            found.append(Told("source_falls_asleep", where, name_of(site), "fail", sleep.after_s, None, "h", told))
    return found


def _must_not_stop(site: Site, settled: SettledDay, rows: Rows) -> list[Told]:
    """A load that must keep running: on a source that sleeps, cannot feed it, or runs out."""
    p10, p50 = float(rows.values[MARGIN, 0]), float(rows.values[ENOUGH, 1])
    lost = {tool for sleep in settled.asleep if sleep is not None and sleep.after_s is not None for tool in sleep.lost}
    found: list[Told] = []
    for tool in site.tools:
        if not tool.must_return:
            continue
        why, verdict = "", ""
        if tool.id in settled.able.never:
            why, verdict = "this source cannot feed it", "fail"
        elif tool.id in lost:
            why, verdict = "the source falls asleep between its cycles", "fail"
        elif settled.plan.limited and rounded_j(p10) < 0.0:
            why = "the source may run out before the day is over"
            verdict = "fail" if rounded_j(p50) < 0.0 else "marginal"
        if verdict:
            at = member_of(tool.pointer, "must_return")
            found.append(Told("load_must_not_stop", at, tool.id, verdict, text=why))
    return found


def _cold(site: Site, day: EnergyDay, settled: SettledDay) -> list[Told]:
    found: list[Told] = []
    cells = charged_cold_c(site.source, day, settled.ambient_c)
    if cells is not None:
        where = "/battery/cells" if day.battery.cells_c is not None else "/conditions/ambient"
        told = (name_of(site), "marginal", cells.low, LITHIUM_COLDEST_CHARGE_C, "degC")
        found.append(Told("source_charged_below_freezing", where, *told))
    charging = [work.pointer for work in day.work if work.unit == "pack"]
    charging += [tool.pointer for tool in site.tools if settled.classes[tool.id].name == "battery_charger"]
    coldest = site.ambient_c.low if site.ambient_c is not None else None
    if not charging or coldest is None or coldest >= LITHIUM_COLDEST_CHARGE_C:
        return found
    packs = ("", "marginal", coldest, LITHIUM_COLDEST_CHARGE_C, "degC")
    return [*found, Told("charging_below_freezing", "/conditions/ambient", *packs)]


def _chargers(site: Site, settled: SettledDay) -> list[Told]:
    """Chargers that look at their supply before they start: a stepped wave, or more than the source gives."""
    found: list[Told] = []
    limits = [
        item.continuous.band.typical * (site.source.supply.leg_voltage_v if item.continuous.unit == "A" else 1.0)
        for item in site.source.limits or ()
        if item.continuous is not None
    ]
    for tool in site.tools:
        if settled.classes[tool.id].name != "battery_charger":
            continue
        power = settled.power_w[tool.id].high
        if site.source.waveform == "modified_sine":
            found.append(Told("charger_cannot_start", tool.pointer, tool.id, "marginal", text="its wave is stepped"))
        elif limits and power > max(limits):
            found.append(
                Told("charger_cannot_start", tool.pointer, tool.id, "fail", text="it takes more than the source gives")
            )
        elif site.source.kind == "engine_generator" and site.source.neutral_bond == "floating" and power > 1000.0:
            found.append(
                Told(
                    "charger_cannot_start", tool.pointer, tool.id, "marginal",
                    text="its neutral floats, and chargers of vehicles look for earth",
                )
            )  # fmt: skip
    return found


def _awake(site: Site, settled: SettledDay, outcome: Outcome) -> list[Told]:
    if site.source.kind not in ("vehicle", "battery_station"):
        return []
    total = float(outcome.use_j.sum(axis=1).mean())
    awake = float(outcome.use_j[:, len(settled.plan.loads)].mean())
    if total <= 0.0 or awake < AWAKE_SHARE * total:
        return []
    where = member_of(site.source.pointer, "awake_draw")
    return [Told("awake_for_nothing", where, name_of(site), "pass", round(awake / total, 4), None, "%")]


def unit_name(work: Work) -> str:
    """`cuts`."""
    return WORK_UNITS[work.unit].plural
