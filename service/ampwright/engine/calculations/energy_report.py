"""How is an evaluated day told: figures by percentile, findings, assumptions, words?

Figures are rounded to the resolution of their unit; sentences carry two significant digits and never promise more than
was computed: what is left is rounded down.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.energy_findings import (
    Told,
    hours_needed_s,
    last_reserve_j,
    mean_load_w,
    name_of,
)
from ampwright.engine.calculations.energy_judgement import Influence, rounded_j, verdict_of
from ampwright.engine.calculations.energy_plan import Outcome, quantile
from ampwright.engine.calculations.energy_result import (
    Cost,
    CurvePoint,
    Duty,
    EnergyAssumption,
    Fuel,
    Left,
    Percentiles,
    PosteriorResult,
    Reserve,
    StopResult,
    Use,
    WorkDone,
)
from ampwright.engine.calculations.energy_settle import SettledDay
from ampwright.engine.calculations.energy_source import rated_power_w
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.load_check_result import BreakEven, CrewLine, Finding
from ampwright.engine.calculations.wording import two_digits, with_unit
from ampwright.engine.physics.compressor_duty import starts_per_s
from ampwright.engine.physics.day_energy import (
    LEFT_AFTER_WORK,
    LEFT_AT_END,
    MARGIN,
    RESERVE_AT,
    TIME_LEFT,
    UNSERVED,
    USED,
)
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.use import Site
from ampwright.engine.standards.citations import Basis, basis

FloatArray = npt.NDArray[np.float64]
KWH_J = 3.6e6
SEVERITIES = ("danger", "caution", "info")
ASPECTS = ("safety", "capacity", "code")
LONGEST_TIME_S = 1e7
JUDGED = ("reserve_at_risk", "energy_runs_out", "fuel_runs_out")
"""Findings that the verdict of the energy itself stands behind; their break-evens are the changes."""
CARBON_KG_PER_M3 = {"gasoline": 2347.7, "diesel": 2689.3, "propane": 1510.0}
"""[kg/m3] CO2 of burnt fuel: 8,887 and 10,180 g a gallon (US EPA), propane 5.72 kg a gallon; all from memory."""


class BasisList:
    """Citations in the order they are first leaned on, `b1`, `b2`, ..."""

    def __init__(self) -> None:
        self._found: dict[str, str] = {}
        self._lines: list[Basis] = []

    def refer(self, key: str) -> str:
        if key not in self._found:
            name = self._found[key] = f"b{len(self._found) + 1}"
            line = basis(key)
            self._lines.append(Basis(name, line.document, line.place, line.edition, line.status))
        return self._found[key]

    @property
    def items(self) -> tuple[Basis, ...]:
        return tuple(self._lines)


def percentiles(values: FloatArray, digits: int) -> Percentiles:
    """P10, P50 and P90, rounded to so many digits after the point; below zero before it."""

    def at(probability: float) -> float:
        value = quantile(values, probability)
        return round(value, digits) + 0.0 if math.isfinite(value) else LONGEST_TIME_S

    return Percentiles(at(0.1), at(0.5), at(0.9))


def energy(values: FloatArray) -> Percentiles:
    return percentiles(values, -2)


def left_of(settled: SettledDay, outcome: Outcome) -> Left | None:
    """What is left, None for a supply without an end."""
    if not settled.plan.limited:
        return None
    ratio = None
    if settled.capacity_j is not None:
        ratio = percentiles(outcome.course_j[:, -1] / outcome.value[:, 0], 4)
    return Left(
        energy(outcome.out[LEFT_AFTER_WORK]), energy(outcome.out[LEFT_AT_END]), energy(outcome.out[MARGIN]), ratio
    )


def time_left(settled: SettledDay, outcome: Outcome) -> Percentiles | None:
    """How much longer the last stop could go on; None where nothing runs out."""
    if not settled.plan.limited or not np.isfinite(outcome.out[TIME_LEFT]).any():
        return None
    return percentiles(np.minimum(outcome.out[TIME_LEFT], LONGEST_TIME_S), 0)


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
        total = np.zeros_like(at_s)
        whole = 0.0
        for item in settled.plan.stretches:
            if item.is_work and work.stop in (None, settled.plan.stops[item.stop]):
                whole += item.duration_s
                total += np.clip(at_s - item.start_s, 0.0, item.duration_s)
        ratio = total / whole if whole > 0.0 else total
        pace = settled.pace_s.get(work.id)
        time = None
        if pace is not None and needed is not None:
            if needed[1] > settled.shift_s:
                ratio = np.minimum(ratio, settled.shift_s / needed[1])
            time = Percentiles(*(round(work.amount * pace.at(i) / people, 0) for i in range(3)))
        done = percentiles(ratio, 4)
        amounts = Percentiles(*(round(value * work.amount, 3) for value in (done.p10, done.p50, done.p90)))
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
        margin = np.minimum.reduce([outcome.course_j[:, i + 1] - outcome.reserve_j[i] for i in places])
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


def fuel_of(site: Site, settled: SettledDay, outcome: Outcome) -> Fuel | None:
    """Fuel burnt and left, of an engine set."""
    heat = settled.heat_j_per_m3
    if heat is None:
        return None
    rated = rated_power_w(site.source, Ledger()).typical
    return Fuel(
        percentiles(outcome.out[USED] / heat, 6),
        percentiles(outcome.out[LEFT_AT_END] / heat, 6),
        round(mean_load_w(settled, outcome)[1] / rated, 4) if rated > 0.0 else 0.0,
    )


def cost_of(day: EnergyDay, settled: SettledDay, outcome: Outcome) -> Cost | None:
    """What it costs, where a price was given for what is used."""
    price = day.electricity_price if settled.heat_j_per_m3 is None else day.fuel_price
    if price is None:
        return None
    amount = outcome.out[USED] / (settled.heat_j_per_m3 or 1.0) * price.amount
    return Cost(percentiles(amount, 2), price.currency)


def carbon_of(day: EnergyDay, settled: SettledDay, outcome: Outcome, kind: str | None) -> Percentiles | None:
    """[kg] CO2, by the factor given, or of the fuel burnt."""
    if settled.heat_j_per_m3 is not None:
        factor = day.carbon_kg_per_m3 if day.carbon_kg_per_m3 is not None else CARBON_KG_PER_M3[kind or "gasoline"]
        return percentiles(outcome.out[USED] / settled.heat_j_per_m3 * factor, 3)
    if day.carbon_kg_per_j is None:
        return None
    return percentiles(outcome.out[USED] * day.carbon_kg_per_j, 3)


def duties_of(day: EnergyDay, settled: SettledDay, outcome: Outcome) -> tuple[Duty, ...]:
    """How each tool runs that does not follow counted work."""
    found: list[Duty] = []
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
        running = percentiles(outcome.value[:, load.time], 4)
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


def findings(told: list[Told], cheapest: tuple[BreakEven, ...], leaned_on: BasisList) -> tuple[Finding, ...]:
    """Worst first."""
    found: list[Finding] = []
    for item in told:
        code = FINDING_CODES[item.code]
        severity = "caution" if code.severity == "danger" and item.verdict in ("marginal", "unknown") else code.severity
        text = code.text.format(
            subject=item.subject,
            value=_said(item.value, item.unit),
            limit=_said(item.limit, item.unit),
            value_text=item.text,
        )
        found.append(
            Finding(
                item.code, severity, code.aspect, item.pointer, text[0].upper() + text[1:],
                code.what_to_do.format(subject=item.subject), (),
                code.figure if item.value is not None else None, item.value, item.limit,
                tuple(leaned_on.refer(key) for key in code.basis),
                cheapest if item.code in JUDGED else (),
            )
        )  # fmt: skip
    found.sort(key=lambda f: (SEVERITIES.index(f.severity), ASPECTS.index(f.aspect), f.code, f.pointer))
    return tuple(found)


def _said(value: float | None, unit: str) -> str:
    if value is None:
        return ""
    if unit == "J":
        return said_energy(value)
    if unit == "l":
        return f"{two_digits(1000.0 * value)} l"
    if unit == "h":
        return f"{two_digits(value / 3600.0)} h"
    if unit == "%":
        return f"{two_digits(100.0 * value)} %"
    return with_unit(value, unit) if unit else f"{value:g}"


def said_energy(value_j: float, down: bool = False) -> str:
    """`3.1 kWh`, `240 Wh`; with `down` never more than the value."""
    wh = value_j / 3600.0
    for unit, size in (("kWh", 1000.0), ("Wh", 1.0)):
        if abs(wh) >= size or unit == "Wh":
            value = wh / size
            if down and value > 0.0:
                places = 1 - math.floor(math.log10(value))
                value = math.floor(value * 10.0**places + 1e-9) / 10.0**places
            return f"{two_digits(value)} {unit}"
    return ""


def assumptions(
    settled: SettledDay, influence: tuple[Influence, ...], verdict: str, leaned_on: BasisList
) -> tuple[EnergyAssumption, ...]:
    """By influence; those without a figure last, in the order of the site."""
    order = {item.key: i for i, item in enumerate(influence)}
    by_key = {item.key: item for item in influence}
    ranked = sorted(settled.assumptions, key=lambda item: order.get(item.key, len(order)))
    found: list[EnergyAssumption] = []
    for n, item in enumerate(ranked, start=1):
        code = ASSUMPTION_CODES[item.code]
        moved = by_key.get(item.key)
        swings = moved.verdict_then if moved and verdict == "fail" and moved.verdict_then != "fail" else None
        found.append(
            EnergyAssumption(
                f"a{n}", item.code, item.pointer, item.value, code.why, code.how_to_find_out,
                f"the {moved.better_end} end of the range" if moved else None, swings,
                rounded_j(moved.spread_j) if moved else None,
                (leaned_on.refer(code.basis),) if code.basis else (),
            )
        )  # fmt: skip
    return tuple(found)


def crew_card(
    site: Site,
    settled: SettledDay,
    outcome: Outcome,
    verdict: str,
    changes: tuple[BreakEven, ...],
    uses: tuple[Use, ...],
    question: str | None,
) -> tuple[CrewLine, ...]:
    """At most five lines in plain words."""
    lines: list[CrewLine] = []
    if settled.plan.limited:
        at_end = site.source.kind == "vehicle"
        left = quantile(outcome.out[LEFT_AT_END if at_end else LEFT_AFTER_WORK], 0.2)
        when = "at home" if at_end else "after work"
        if site.source.kind == "engine_generator" and settled.heat_j_per_m3:
            litres = left / settled.heat_j_per_m3 * 1000.0
            said = f"{two_digits(math.floor(litres * 10.0) / 10.0)} l of fuel"
        else:
            said = said_energy(max(left, 0.0), down=True)
        if said.startswith("0 "):
            lines.append(CrewLine("card_nothing_left", f"In 2 or more days of 10 nothing is left {when}."))
        else:
            lines.append(CrewLine("card_left", f"In 8 of 10 days at least {said} is left {when}."))
        reached = quantile(outcome.out[RESERVE_AT], 0.1)
        if math.isfinite(reached) and verdict != "pass":
            lines.append(_reserve_line(site, settled, reached))
    if uses:
        share = round(100.0 * uses[0].share_ratio)
        lines.append(CrewLine("card_eats_most", f"Most goes into {_use_name(uses[0], site)}: {share} %."))
    if verdict != "pass" and changes:
        lines.append(CrewLine("card_change", f"Makes the day: {changes[0].text}."))
    if question is not None:
        lines.append(CrewLine("card_ask", question))
    return tuple(lines[:5])


def _reserve_line(site: Site, settled: SettledDay, reached_s: float) -> CrewLine:
    begins_s = next((item.start_s for item in settled.plan.stretches if item.is_work), 0.0)
    hours = f"{two_digits(reached_s / 3600.0)} h"
    if site.source.kind != "vehicle":
        return CrewLine("card_runs_out", f"In 1 day of 10 {name_of(site)} runs out after {hours}.")
    if reached_s < begins_s + 60.0:
        return CrewLine("card_no_work", "In 1 day of 10 there is nothing for work: all is needed to get home.")
    return CrewLine("card_reserve", f"In 1 day of 10 the reserve is reached after {hours}: stop work then.")


def _use_name(use: Use, site: Site) -> str:
    return {
        "awake": "idling" if site.source.kind == "engine_generator" else f"keeping {name_of(site)} awake",
        "conversion": "heat of the engine" if site.source.kind == "engine_generator" else "conversion",
        "drive": "driving",
    }.get(use.kind, use.name)
