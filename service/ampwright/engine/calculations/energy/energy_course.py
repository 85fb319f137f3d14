"""How does the day go: when is the reserve reached, what is done by then, what eats how much, where does it fail?

Taken from the draws themselves, because each of these follows one day from stretch to stretch.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.energy.energy_figures import energy, percentiles
from ampwright.engine.calculations.energy.energy_findings import hours_needed_s, last_reserve_j, time_for
from ampwright.engine.calculations.energy.energy_judgement import rounded_j, verdict_of
from ampwright.engine.calculations.energy.energy_packs import packs_done
from ampwright.engine.calculations.energy.energy_plan import PERCENTILES, Outcome, quantile
from ampwright.engine.calculations.energy.energy_result import (
    CurvePoint,
    Duty,
    Percentiles,
    PosteriorResult,
    Reserve,
    StopResult,
    Use,
    WorkDone,
)
from ampwright.engine.calculations.energy.energy_settle import SettledDay
from ampwright.engine.physics.compressor_duty import starts_per_s
from ampwright.engine.physics.day_energy import RESERVE_AT, UNSERVED
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Site

FloatArray = npt.NDArray[np.float64]


def reserve_of(settled: SettledDay, outcome: Outcome) -> Reserve | None:
    """What must be left, and when it is reached."""
    if not settled.plan.limited:
        return None
    at_s = outcome.out[RESERVE_AT]
    reached = at_s[np.isfinite(at_s)]
    ratio = round(len(reached) / len(at_s), 4)
    outcome_name = "holds" if ratio <= 0.1 else "may_be_reached" if ratio <= 0.5 else "reached"
    drive = outcome.use_j[:, -1]
    return Reserve(
        outcome_name,
        rounded_j(last_reserve_j(settled, outcome)),
        rounded_j(settled.plan.arrival_j),
        energy(drive) if drive.any() else None,
        ratio,
        percentiles(reached, 0) if len(reached) else None,
    )


def work_done(site: Site, day: EnergyDay, settled: SettledDay, outcome: Outcome) -> tuple[WorkDone, ...]:
    """How much of each counted work is done before the reserve is reached, if it is spread evenly over its stops."""
    at_s = outcome.out[RESERVE_AT]
    found: list[WorkDone] = []
    people = site.people or 1
    needed = hours_needed_s(site, day, settled)
    for work in day.work:
        ratio = np.zeros_like(at_s)
        column = next(j for j, load in enumerate(settled.plan.loads) if load.name == work.id and load.kind == "work")
        for g, item in enumerate(settled.plan.stretches):
            if item.is_work and work.amount > 0.0 and settled.plan.loads[column].able:
                each_s = settled.plan.share[g, column] / work.amount
                # what the source's power cannot feed, and what comes after the reserve is reached, is not done
                ratio += each_s * outcome.fed[:, g] * np.clip(at_s - item.start_s, 0.0, item.duration_s)
        ratio = np.minimum(ratio, 1.0)
        if work.unit == "pack" and work.amount > 0.0:
            ratio = np.minimum(ratio, packs_done(work, time_for(work, settled)) / work.amount)
        pace = settled.pace_s.get(work.id)
        time = None
        found_at = [quantile(ratio, p) for p in PERCENTILES]
        if pace is not None and needed is not None:
            # slow days of the people and poor days of the energy are taken to coincide, the wide side
            found_at = [
                min(value, settled.shift_s / slow_s) if slow_s > 0.0 else value
                for value, slow_s in zip(found_at, reversed(needed), strict=True)
            ]
            time = Percentiles(*(round(work.amount * pace.at(i) / people, 0) for i in range(3)))
        done = Percentiles(*(round(value, 4) for value in found_at))
        amounts = Percentiles(*(round(value * work.amount, 2) for value in found_at))
        found.append(WorkDone(work.id, work.unit, work.amount, amounts, done, time))
    return tuple(found)


def curve_of(settled: SettledDay, outcome: Outcome) -> tuple[CurvePoint, ...]:
    """What is left at the start, at every full hour and at every change of place."""
    if not settled.plan.limited:
        return ()
    plan = settled.plan
    found = [CurvePoint(0.0, "start", energy(outcome.course_j[:, 0]))]
    for i, item in enumerate(plan.stretches):
        doing = plan.stops[item.stop] if item.is_work else "drive"
        at_s = round(item.start_s + item.duration_s, 0)
        found.append(CurvePoint(at_s, doing, energy(outcome.course_j[:, i + 1])))
    return tuple(found)


def uses_of(settled: SettledDay, outcome: Outcome) -> tuple[Use, ...]:
    """What eats most first. What is asked counts, served or not."""
    labels = [(load.name, load.kind) for load in settled.plan.loads]
    labels += [("awake", "awake"), ("conversion", "conversion"), ("drive", "drive")]
    columns: dict[tuple[str, str], FloatArray] = {}
    for j, label in enumerate(labels):
        columns[label] = columns.get(label, np.zeros(len(outcome.use_j))) + outcome.use_j[:, j]
    total = float(outcome.use_j.sum(axis=1).mean())
    found = [
        Use(name, kind, energy(column), round(float(column.mean()) / total, 4) if total > 0.0 else 0.0)
        for (name, kind), column in columns.items()
        if column.any()
    ]
    return tuple(sorted(found, key=lambda item: (-item.share_ratio, item.kind, item.name)))


def stops_of(settled: SettledDay, outcome: Outcome) -> tuple[StopResult, ...]:
    """Where the day fails: each stop with what is left on leaving it against what must be."""
    plan = settled.plan
    if not plan.limited:
        return ()
    found: list[StopResult] = []
    for k, name in enumerate(plan.stops):
        places = [i for i, item in enumerate(plan.stretches) if item.is_work and item.stop == k]
        if not places:
            continue
        last = places[-1]
        left = outcome.course_j[:, last + 1]
        # as in the kernel: while the store fills, only what is there on leaving counts
        margin = outcome.course_j[:, last + 1] - outcome.reserve_j[last]
        for i in places[:-1]:
            after = outcome.course_j[:, i + 1]
            margin = np.minimum(margin, np.where(after > outcome.course_j[:, i], np.inf, after - outcome.reserve_j[i]))
        ends = plan.stretches[last].start_s + plan.stretches[last].duration_s
        # outlets that went off at the floor leave a content above zero and work undone
        margin = np.where(outcome.out[UNSERVED] > 0.0, np.minimum(margin, _served_to(outcome, ends)), margin)
        verdict = verdict_of(quantile(margin, 0.1), quantile(margin, 0.5))
        found.append(
            StopResult(
                name, round(plan.stretches[places[0]].start_s, 0), round(ends, 0), energy(left),
                rounded_j(float(outcome.reserve_j[last])), verdict,
            )
        )  # fmt: skip
    return tuple(found)


def _served_to(outcome: Outcome, end_s: float) -> FloatArray:
    """Below zero where the reserve was reached by then."""
    return np.where(outcome.out[RESERVE_AT] < end_s - 1e-6, -1e3, np.inf)


def duties_of(day: EnergyDay, settled: SettledDay, outcome: Outcome) -> tuple[Duty, ...]:
    """How each tool runs that does not follow counted work."""
    found: list[Duty] = []
    work_s = sum(item.duration_s for item in settled.plan.stretches if item.is_work)
    for tool in sorted({tool for tool in settled.tool_of.values() if tool is not None}):
        power = settled.power_w[tool].typical
        mine = [
            j for j, load in enumerate(settled.plan.loads) if load.kind == "work" and settled.tool_of[load.name] == tool
        ]
        if power > 0.0 and work_s > 0.0:
            used = outcome.use_j[:, mine].sum(axis=1)  # nothing where the source cannot run the tool
            tens = [band for work, band in settled.ten_minutes.items() if settled.tool_of[work] == tool]
            ten = max(tens, key=lambda band: band.typical) if tens else None
            minutes = Percentiles(*(round(ten.at(i), 4) for i in range(3))) if ten is not None else None
            running = np.minimum(used / (power * work_s), 1.0)
            found.append(Duty(tool, percentiles(running, 4), energy(used), None, minutes))
    for j, load in enumerate(settled.plan.loads):
        if load.kind != "tool" or not settled.plan.figures[load.time].key.startswith("running:"):
            continue
        air = next((item.air for item in day.duties if item.tool == load.name and item.air is not None), None)
        starts = None
        if air is not None and air.tank_m3 and air.cut_in_pa and air.cut_out_pa and air.delivery_m3_per_s:
            use = air.delivery_m3_per_s.typical * settled.plan.figures[load.time].band.typical
            each = starts_per_s(
                air.tank_m3, air.cut_in_pa, air.cut_out_pa, air.delivery_m3_per_s.typical, 0.0, use, 101_325.0
            )
            starts = round(each * 3600.0, 1)
        running = percentiles(outcome.value[:, load.time] * float(load.able), 4)
        found.append(Duty(load.name, running, energy(outcome.use_j[:, j]), starts))
    return tuple(found)


def posteriors_of(day: EnergyDay, settled: SettledDay) -> tuple[PosteriorResult, ...]:
    units = {work.id: work.unit for work in day.work}

    def band(item: object) -> Percentiles:
        return Percentiles(*(round(item.at(i), 1) for i in range(3)))  # type: ignore[attr-defined]

    return tuple(
        PosteriorResult(
            item.work, units[item.work], band(item.before), band(item.after), item.observations, item.agrees
        )
        for item in settled.posteriors
    )
