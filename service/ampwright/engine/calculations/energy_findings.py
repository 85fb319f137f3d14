"""What must be told of a day beside its figures: risk to the reserve, sleep, cold packs, exhaust, hot refuelling?

Each finding points at the member that would settle it. Those with a figure take it from the rounded figures.
Source: practice of the trade; derating by engine_derating.py (from memory, marked so).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ampwright.engine.calculations.energy_judgement import rounded_j
from ampwright.engine.calculations.energy_loads import compressor_running
from ampwright.engine.calculations.energy_plan import Outcome, quantile
from ampwright.engine.calculations.energy_settle import SettledDay
from ampwright.engine.calculations.energy_source import rated_power_w
from ampwright.engine.calculations.place_rules import exhaust_checks
from ampwright.engine.physics.day_energy import ENOUGH, LEFT_AFTER_WORK, MARGIN, RESERVE_AT
from ampwright.engine.physics.pack_charging import LITHIUM_COLDEST_CHARGE_C, packs_charged, time_to_charge_s
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import EnergyDay, Work
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle_source import USUAL_SLEEP_W, member
from ampwright.engine.site.use import Site
from ampwright.engine.site.work_units import (
    PACK_CUT_OFF,
    PACK_EFFICIENCY,
    PACK_FROM,
    PACK_J,
    PACK_TAPER_FROM,
    WORK_UNITS,
)
from ampwright.engine.standards.engine_derating import altitude_factor_by_rule, temperature_factor_by_rule

LOW_LOAD = 0.3  # of the rating; common practice, no source
AWAKE_SHARE = 0.25  # of what is used; worth telling
SWAP_S = 600.0  # until somebody changes a pack; common practice, no source
_UNWATCHED = ("float", "thermostat")
_CYCLES = ("pressure", "float", "thermostat")


@dataclass(frozen=True, slots=True)
class Told:
    """A finding before its words: `verdict` as it counts in its aspect."""

    code: str
    pointer: str
    subject: str
    verdict: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    text: str = ""


def findings_of(site: Site, day: EnergyDay, settled: SettledDay, outcome: Outcome, verdict: str) -> list[Told]:
    """Everything that is told of one day."""
    return [
        *_reserve(site, settled, outcome, verdict),
        *_pace(site, day, settled),
        *_packs(day, settled),
        *_air(day),
        *_rated(day, settled, outcome),
        *_engine(site, day, settled, outcome),
        *_sleep(site, settled),
        *_must_not_stop(site, outcome),
        *_cold(site, day, settled),
        *_chargers(site, settled),
        *_awake(site, settled, outcome),
        *(
            Told("observation_disagrees", item.pointer, item.work, "pass")
            for item in settled.posteriors
            if not item.agrees
        ),
    ]


def name_of(site: Site) -> str:
    """What a sentence calls the source."""
    return site.source.name or {
        "vehicle": "the vehicle", "battery_station": "the battery", "engine_generator": "the generator",
    }.get(site.source.kind, "the supply")  # fmt: skip


def _reserve(site: Site, settled: SettledDay, outcome: Outcome, verdict: str) -> list[Told]:
    if verdict == "pass" or not settled.plan.limited:
        return []
    if site.source.kind == "vehicle":
        left = max(rounded_j(outcome.at(LEFT_AFTER_WORK, 0.1)), 0.0)
        reserve = rounded_j(last_reserve_j(settled, outcome))
        why = " for the way home" if reserve > rounded_j(settled.plan.arrival_j) else ""
        return [Told("reserve_at_risk", "/way_home", name_of(site), verdict, left, reserve, "J", why)]
    missing = -rounded_j(outcome.at(MARGIN, 0.1))
    if settled.heat_j_per_m3 is not None:
        missing_m3 = round(missing / settled.heat_j_per_m3, 6)
        return [Told("fuel_runs_out", "/fuel/in_tank", name_of(site), verdict, missing_m3, None, "l")]
    at = "/charge" if site.source.kind == "battery_station" else "/allowance"
    return [Told("energy_runs_out", at, name_of(site), verdict, missing, None, "J")]


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
        done = packs_done(work, settled.shift_s)
        if done < work.amount:
            found.append(Told("packs_not_done", member(work.pointer, "amount"), work.id, "fail", work.amount, done, ""))
    return found


def packs_done(work: Work, shift_s: float) -> float:
    """Whole packs that the chargers take in the time, with their taper; typical figures."""
    pack = work.pack
    assert pack is not None
    assert pack.charger_w is not None
    capacity = (pack.capacity_j or PACK_J).typical
    start = (pack.from_ratio or PACK_FROM).typical
    target = min(pack.to_ratio.typical if pack.to_ratio else 1.0, 1.0)
    rate = pack.charger_w.typical * PACK_EFFICIENCY.typical / capacity
    each_s = time_to_charge_s(start, target, rate, PACK_TAPER_FROM, PACK_CUT_OFF)
    if each_s <= 0.0:
        return work.amount
    return packs_charged(shift_s, each_s, pack.chargers or 1, SWAP_S)


def _air(day: EnergyDay) -> list[Told]:
    return [
        Told("compressor_falls_behind", duty.pointer, duty.tool, "fail" if band.low >= 1.0 else "marginal")
        for duty in day.duties
        if duty.air is not None and (band := compressor_running(duty.air)).typical >= 1.0
    ]


def _rated(day: EnergyDay, settled: SettledDay, outcome: Outcome) -> list[Told]:
    """A duty cycle exceeded on average over the day: it would be so in some ten minutes of it for sure."""
    found: list[Told] = []
    work_s = math.fsum(item.duration_s for item in settled.plan.stretches if item.is_work)
    for duty in day.duties:
        if duty.rated_ratio is None or work_s <= 0.0:
            continue
        of_tool = [
            j
            for j, load in enumerate(settled.plan.loads)
            if load.kind != "standby" and duty.tool in (load.name, settled.tool_of.get(load.name))
        ]
        power = settled.power_w[duty.tool].typical
        if not of_tool or power <= 0.0:
            continue
        running = outcome.use_j[:, of_tool].sum(axis=1) / (power * work_s)
        typical, high = quantile(running, 0.5), quantile(running, 0.9)
        if high > duty.rated_ratio:
            verdict = "fail" if typical > duty.rated_ratio else "marginal"
            found.append(
                Told("duty_cycle_exceeded", duty.pointer, duty.tool, verdict, round(high, 4), duty.rated_ratio, "%")
            )
    return found


def mean_load_w(settled: SettledDay, outcome: Outcome) -> tuple[float, float, float]:
    """[W] mean of what runs over the time at work, P10, P50, P90."""
    work_s = math.fsum(item.duration_s for item in settled.plan.stretches if item.is_work)
    loads = outcome.use_j[:, : len(settled.plan.loads)].sum(axis=1)
    if work_s <= 0.0:
        return 0.0, 0.0, 0.0
    return quantile(loads, 0.1) / work_s, quantile(loads, 0.5) / work_s, quantile(loads, 0.9) / work_s


def _engine(site: Site, day: EnergyDay, settled: SettledDay, outcome: Outcome) -> list[Told]:
    if site.source.kind != "engine_generator":
        return []
    name, at = name_of(site), site.source.pointer
    found = [
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
    empty_at = quantile(outcome.out[RESERVE_AT], 0.1)
    if empty_at < math.inf:
        found.append(Told("refuelling_hot", "/fuel/in_tank", name, "pass", round(empty_at, 0), None, "h"))
    rated = rated_power_w(site.source, Ledger()).typical
    _, typical, high = mean_load_w(settled, outcome)
    factor = altitude_factor_by_rule(day.fuel.altitude_m or 0.0).value
    factor *= temperature_factor_by_rule(settled.ambient_c.high).value
    limit = round(rated * max(factor, 0.0), 1)
    where = member(at, "running")
    if high > limit:
        verdict = "fail" if typical > limit else "marginal"
        found.append(Told("engine_overloaded", where, name, verdict, round(high, 1), limit, "W"))
    elif typical < LOW_LOAD * rated:
        found.append(Told("low_load_running", where, name, "pass", round(typical / rated, 4), LOW_LOAD, "%"))
    return found


def _sleep(site: Site, settled: SettledDay) -> list[Told]:
    source = site.source
    if source.kind not in ("vehicle", "battery_station") or not site.tools:
        return []
    stated = source.sleeps_below_w
    told = [item.at for item in source.availability if item.when == "load_below" and not item.works]
    if stated is None and told and told[0] is not None:
        stated = Band.exactly(told[0])
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
    where = member(source.pointer, "sleeps_below")
    return [Told("energy_source_may_sleep", where, name_of(site), "marginal", round(steady, 1), threshold, "W")]


def _must_not_stop(site: Site, outcome: Outcome) -> list[Told]:
    p10, p50 = outcome.at(MARGIN, 0.1), outcome.at(ENOUGH, 0.5)
    if rounded_j(p10) >= 0.0:
        return []
    verdict = "fail" if rounded_j(p50) < 0.0 else "marginal"
    return [
        Told("load_must_not_stop", member(tool.pointer, "must_return"), tool.id, verdict)
        for tool in site.tools
        if tool.must_return
    ]


def _cold(site: Site, day: EnergyDay, settled: SettledDay) -> list[Told]:
    charging = [work.pointer for work in day.work if work.unit == "pack"]
    charging += [tool.pointer for tool in site.tools if settled.classes[tool.id].name == "battery_charger"]
    coldest = site.ambient_c.low if site.ambient_c is not None else None
    if not charging or coldest is None or coldest >= LITHIUM_COLDEST_CHARGE_C:
        return []
    return [
        Told(
            "charging_below_freezing", "/conditions/ambient", "", "marginal", coldest, LITHIUM_COLDEST_CHARGE_C, "degC"
        )
    ]


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
    where = member(site.source.pointer, "awake_draw")
    return [Told("awake_for_nothing", where, name_of(site), "pass", round(awake / total, 4), None, "%")]


def unit_name(work: Work) -> str:
    """`cuts`."""
    return WORK_UNITS[work.unit].plural
