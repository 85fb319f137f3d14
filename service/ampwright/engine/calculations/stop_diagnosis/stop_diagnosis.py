"""Why did it stop, and what is the smallest change that makes it hold?

From what ran when power went and what was seen then: for each cause the physics says how well it explains a stop after
that long (the device's band under the currents of the load check, the tiers of the source, the summed leakage, the
least power, the charge), and the signs say how usual they are for it (stop_causes.py). The product, brought to a sum
of one, ranks the causes; it orders a search and is no measurement. Changes are break-evens of the load check of what
ran, so that each holds when it is posted again.

Not here: what a source really is, from many stops (field diagnosis).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.load_check.load_check_result import BreakEven, Change, FigureBand, Finding, Verdicts
from ampwright.engine.calculations.network.circuit_trip import protective_device
from ampwright.engine.calculations.reverse.break_even_candidates import subjects_of
from ampwright.engine.calculations.reverse.break_evens import break_evens
from ampwright.engine.calculations.rules.safety_rules import leakage_behind_a
from ampwright.engine.calculations.starts.own_protector import BY_HAND, BY_ITSELF, protector_of
from ampwright.engine.calculations.starts.start_finding_codes import START_FINDING_CODES
from ampwright.engine.calculations.stop_diagnosis.stop_causes import BEFORE_ANYTHING, EXTENTS, RETURNED, STOP_CAUSES
from ampwright.engine.calculations.stop_diagnosis.stop_observation import StopObservation
from ampwright.engine.calculations.stop_diagnosis.stop_starts import (
    WEIGHTS,
    darkens_the_source,
    opens_the_device,
    stands_still,
    start_of,
    starters,
)
from ampwright.engine.calculations.stop_diagnosis.stop_suspects import Suspect, circuit_named, shorts
from ampwright.engine.physics.limit_events import Limit, UnfitLimit, play_limit
from ampwright.engine.physics.protective_device import Device, UnfitDevice
from ampwright.engine.physics.trip_probability import trip_probability
from ampwright.engine.site.band import HIGH, LOW, TYPICAL
from ampwright.engine.site.settle_source import USUAL_SLEEP_W
from ampwright.engine.site.settled import SettledCircuit, SettledLimit
from ampwright.engine.site.thin_air import AT_ALTITUDE
from ampwright.engine.site.use import Case, Site

STOPPED = "stopped"
HARDLY = 0.002  # a cause that the figures speak against is not ruled out by figures that are 20 % off
SLEEPS_BETWEEN = 0.3  # a load that switches itself is off part of the time; common practice, no source
TOLD_FROM = 0.01
MOST_TOLD = 3  # changes of one cause
SOONER, LATER = 1.0 / 3.0, 1.5  # how far a remembered time may be off; common practice, no source
# an engine asked for a tenth more than it gives hangs low, dies or opens its breaker; common practice, no source
ENGINE_SPARE_RATIO, ENGINE_DIES = 1.1, 0.4
WARM_C = 35.0
_COOLED = {
    BY_ITSELF: "It starts again by itself when it cools.",
    BY_HAND: "It stays off until it has cooled and somebody resets it; then it starts.",
    None: "Unless its protector is one that a person resets, it starts again by itself when it cools.",
}
STALLED_HEATS_S = 3.0  # a protector opens within seconds on a motor that stands; common practice, no source
LEAKAGE_BAND_A = {"gfci_class_a": (0.004, 0.006), "rcd": (0.015, 0.030)}  # UL 943; IEC 61008-1 (half from memory)


@dataclass(frozen=True, slots=True)
class RankedCause:
    """A cause at one place, how likely it is among those looked at, and what to look at safely.

    figure, values, limit : what speaks for it, in the unit of the name. holds_with : changes that make it hold.
    """

    cause: str
    pointer: str
    likelihood_share_ratio: float
    text: str
    safe_checks: tuple[str, ...]
    figure: str | None = None
    values: FigureBand | None = None
    limit: float | None = None
    holds_with: tuple[BreakEven, ...] = ()


@dataclass(frozen=True, slots=True)
class StopDiagnosisResult:
    """Causes, most likely first; `verdict` is that of the load check of what ran. findings: documents that all of this
    rests on although they were withdrawn."""

    verdict: Verdicts
    before_anything: str
    findings: tuple[Finding, ...]
    causes: tuple[RankedCause, ...]


def diagnose_stop(
    site: Site, seen: StopObservation, withdrawn: tuple[tuple[str, str, str], ...] = ()
) -> StopDiagnosisResult:
    """Ranked causes of a stop of a sound site. Errors: none.

    withdrawn : (pointer, name, reason) of catalogue documents in it that were withdrawn; each is a finding.
    """
    asked = replace(site, cases=(Case(STOPPED, seen.running, "/stopped"),))
    base = evaluate(asked, frozenset())
    result = check_load(asked, withdrawn)
    findings = break_evens(asked, result.findings, withdrawn)
    suspects = [*_circuits(base, seen), *_limits(base, seen), *_starts_at_source(base, seen)]
    suspects += [
        *_ground_faults(asked, base),
        *shorts(base, seen),
        *_sleep(base),
        *_charge(asked, seen),
        *_motors(base, seen),
    ]
    weights = [
        STOP_CAUSES[one.cause].prior * max(one.explains, HARDLY) * _signs(one.cause, base, seen) for one in suspects
    ]
    whole = sum(weights) or 1.0
    ranked: list[RankedCause] = []
    for weight, one in sorted(zip(weights, suspects, strict=True), key=lambda item: (-item[0], item[1].pointer)):
        if weight / whole < TOLD_FROM:
            continue
        cause = STOP_CAUSES[one.cause]
        holds = tuple(
            _posted(even, seen)
            for finding in findings
            if finding.code in cause.findings and _is_about(base, finding, one)
            for even in finding.break_even
            if even.then != "fail"
        )
        ranked.append(
            RankedCause(
                one.cause,
                one.pointer,
                round(weight / whole, 2),
                " ".join(
                    cause.says.format(subject=one.subject, tool=one.tool, then=one.then).split()
                ),  # a source without a name
                cause.safe_checks,
                one.figure,
                one.values,
                one.limit,
                _each_once(holds)[:MOST_TOLD],
            )
        )
    rests_on = tuple(finding for finding in findings if finding.code == "entry_withdrawn")
    return StopDiagnosisResult(result.verdict, BEFORE_ANYTHING, rests_on, tuple(ranked))


def _each_once(holds: tuple[BreakEven, ...]) -> tuple[BreakEven, ...]:
    return tuple({even.text: even for even in reversed(holds)}.values())[::-1]


def _is_about(base: Evaluation, finding: Finding, one: Suspect) -> bool:
    """Whether a finding of the load check is about what is suspected: its tool, its place, else anything."""
    if one.tool and finding.code in START_FINDING_CODES:
        return one.tool in subjects_of(base, finding)
    return finding.pointer == one.pointer or finding.code != "low_voltage_at_tool"


def _posted(even: BreakEven, seen: StopObservation) -> BreakEven:
    """A tool that is left out can neither be pushed nor switched on: what said so goes with it."""
    left_out = {
        seen.running[int(step.path.rsplit("/", 1)[1])]
        for step in even.change
        if step.op == "remove" and step.path.startswith("/stopped/running/")
    }
    more = tuple(
        Change("remove", f"/stopped/{name}")
        for name, tool in (("heavy", seen.heavy), ("switched_on", seen.switched_on))
        if tool in left_out
    )
    return replace(even, change=(*even.change, *more)) if more else even


def _signs(cause: str, base: Evaluation, seen: StopObservation) -> float:
    known = STOP_CAUSES[cause]
    found = 1.0
    if seen.returned is not None:
        found *= known.returned[RETURNED.index(seen.returned)]
    if seen.extent is not None:
        in_use = {base.settled.source.receptacles[p.receptacle].circuit for p in base.settled.placements}
        places = [EXTENTS.index(seen.extent)]
        if len(in_use) == 1 and seen.extent in ("one_circuit", "everything"):
            places = [2, 3]  # with one circuit in use the two look the same
        found *= max(known.extent[place] for place in places)
    return found


def _row(base: Evaluation, seen: StopObservation) -> int:
    """The row of what ran, with the tool pushed that was said to be."""
    for r, row in enumerate(base.rows):
        if row.pushed is not None and base.settled.placements[row.pushed].tool.id == seen.heavy:
            return r
    return 0


def _window(low_s: float, after_s: float | None, device: Device, amps: float) -> float:
    """Probability that the device opens about then: between a third and one and a half of the time told."""
    if after_s is None:
        return trip_probability(device, (3600.0,), (amps,), 3600.0)
    upper = trip_probability(device, (LATER * after_s,), (amps,), LATER * after_s)
    lower = trip_probability(device, (SOONER * after_s,), (amps,), SOONER * after_s) if low_s > 0.0 else 0.0
    return max(0.0, upper - lower)


def _circuits(base: Evaluation, seen: StopObservation) -> list[Suspect]:
    found: list[Suspect] = []
    source = base.settled.source
    r = _row(base, seen)
    read = dict(seen.readings)
    for i, circuit in enumerate(source.circuits):
        band = base.figures.circuit_a[r, :, i].tolist()
        if circuit.id in read:
            band = [read[circuit.id].at(k) for k in range(3)]
        if band[HIGH] <= 0.0:
            continue
        device = _device(base, circuit)
        values, name = _band(band), circuit_named(base, i)
        try:
            explains = sum(weight * _window(1.0, seen.after_s, device, band[k]) for k, weight in WEIGHTS)
        except UnfitDevice:
            explains = 0.5 if band[TYPICAL] > circuit.rating_a else HARDLY
        found.append(
            Suspect(
                "circuit_overload",
                circuit.pointer,
                name,
                explains,
                "current_a",
                values,
                circuit.rating_a,
            )
        )
        found += _starts_at(base, seen, i, circuit, device, band)
        warm = base.settled.ambient_c.high >= WARM_C and (seen.after_s is None or seen.after_s >= 300.0)
        near = 0.8 * circuit.rating_a < band[HIGH] and band[TYPICAL] <= circuit.rating_a
        if warm and near:
            found.append(Suspect("hot_device", circuit.pointer, name, 0.3, "current_a", values, circuit.rating_a))
    return found


def _device(base: Evaluation, circuit: SettledCircuit) -> Device:
    stated = protective_device(circuit.device, circuit.rating_a)
    if stated is not None:
        return stated
    if base.settled.source.leg_voltage_v > 150.0:
        return Device("iec_60898_1", circuit.rating_a, "C")
    return Device("ul_489", circuit.rating_a)


def _band(values: list[float]) -> FigureBand:
    return FigureBand(round(min(values), 3), round(values[TYPICAL], 3), round(max(values), 3))


def _starts_at(
    base: Evaluation, seen: StopObservation, i: int, circuit: SettledCircuit, device: Device, running_a: list[float]
) -> list[Suspect]:
    found: list[Suspect] = []
    for starter in starters(base, seen):
        placement = base.settled.placements[starter.placement]
        if base.settled.source.receptacles[placement.receptacle].circuit != i:
            continue
        explains = opens_the_device(base, starter.placement, i, device, running_a)
        one = start_of(base, starter.placement)
        peak = None if one is None else _band([estimate.peak_a for estimate in one.estimates])
        found.append(
            Suspect(
                "start_at_circuit", circuit.pointer, circuit_named(base, i), explains * starter.fits,
                "peak_a" if peak else None, peak, circuit.rating_a if peak else None, placement.tool.id,
            )
        )  # fmt: skip
    return found


def _starts_at_source(base: Evaluation, seen: StopObservation) -> list[Suspect]:
    """Limits that a start goes beyond, and a set that collapses under one."""
    found: list[Suspect] = []
    source = base.settled.source.source
    for starter in starters(base, seen):
        one = start_of(base, starter.placement)
        if one is None:
            continue
        name = base.settled.placements[starter.placement].tool.id
        peak = _band([estimate.peak_a for estimate in one.estimates])
        for k in sorted({estimate.limit for estimate in one.estimates}):
            explains = darkens_the_source(one, k) * starter.fits
            if k < 0 and explains <= 0.0:
                continue  # nothing of the source stands in the way of this start
            limit = base.starts.starting.limits[k] if k >= 0 else None
            most = None
            if limit is not None:
                most = max((amps for tiers in limit.tiers for amps, _ in tiers), default=limit.continuous_a)
            found.append(
                Suspect(
                    "start_at_source", limit.pointer if limit is not None else source.pointer,
                    "" if limit is None or limit.id == "assumed-output" else limit.id, explains, "peak_a", peak,
                    None if most is None else round(most, 3), name,
                )
            )  # fmt: skip
    return found


def _limits(base: Evaluation, seen: StopObservation) -> list[Suspect]:
    found: list[Suspect] = []
    r = _row(base, seen)
    figures = base.figures
    for i, limit in enumerate(base.settled.source.limits):
        unit = {"kVA": "VA", "kW": "W"}.get(limit.unit, limit.unit)
        amount = {"VA": figures.limit_va, "W": figures.limit_w, "A": figures.limit_a}[unit][r, :, i].tolist()
        if amount[HIGH] <= 0.0:
            continue
        name = {"VA": "apparent_power_va", "W": "power_w", "A": "current_a"}[unit]
        subject = "" if limit.id in ("assumed-output", AT_ALTITUDE) else limit.id
        explains = _refuses(base, limit, amount, seen)
        found.append(
            Suspect("source_overload", limit.pointer, subject, explains, name, _band(amount), limit.continuous)
        )
    return found


def _refuses(base: Evaluation, limit: SettledLimit, amount: list[float], seen: StopObservation) -> float:
    """How well the source's tiers explain a stop then."""
    stated = next((item for item in base.settled.source.source.limits or () if item.id == limit.id), None)
    tiers: tuple[tuple[float, float], ...] | None = None
    if stated is not None and stated.tiers is not None:
        same = [tier for tier in stated.tiers if tier.amount.unit == limit.unit]
        tiers = tuple(sorted((tier.amount.band.typical, tier.lasts_s.typical) for tier in same))
    if amount[HIGH] <= limit.continuous or limit.response == "current_limiting":
        return HARDLY
    if limit.response == "voltage_dip":
        return ENGINE_DIES if amount[TYPICAL] > ENGINE_SPARE_RATIO * limit.continuous else 0.05
    model = Limit(limit.continuous, tiers, limit.response or "shutdown")
    try:
        first = play_limit(model, (math.inf,), (amount[HIGH],)).trips_earliest_s
        last = play_limit(model, (math.inf,), (max(amount[TYPICAL], limit.continuous * 1.001),)).trips_latest_s
    except UnfitLimit:
        return 0.3
    if seen.after_s is None:
        return 0.7
    if SOONER * first <= seen.after_s <= max(last, first) * LATER:
        return 0.9
    # how long it bears too much is a guess where nobody said it; a time that does not fit then says little
    return 0.05 if tiers is not None else 0.4


def _ground_faults(site: Site, base: Evaluation) -> list[Suspect]:
    found: list[Suspect] = []
    running = base.sets[0].placements
    for r in sorted({base.settled.placements[i].receptacle for i in running}):
        receptacle = base.settled.source.receptacles[r]
        if receptacle.ground_fault == "none":
            continue
        low, high = LEAKAGE_BAND_A["rcd" if (receptacle.ground_fault or "").startswith("rcd") else "gfci_class_a"]
        leaks = leakage_behind_a(site, base.settled, r, running)
        healthy = min(1.0, max(0.0, (leaks - low) / (high - low)))
        # a fault is always possible where a device is, more so in the wet; common practice, no source
        faulty = 0.2 if site.wet else 0.06
        explains = max(healthy, faulty) * (0.4 if receptacle.ground_fault is None else 1.0)
        found.append(
            Suspect(
                "ground_fault",
                receptacle.pointer,
                receptacle.id,
                explains,
                "leakage_a",
                FigureBand(0.0, round(0.5 * leaks, 6), leaks),
                low,
            )
        )
    return found


def _sleep(base: Evaluation) -> list[Suspect]:
    source = base.settled.source.source
    if source.kind not in ("vehicle", "battery_station"):
        return []
    below = source.sleeps_below_w.high if source.sleeps_below_w is not None else USUAL_SLEEP_W
    running = base.sets[0].placements
    least = sum(
        base.settled.placements[i]
        .state("idle" if base.settled.placements[i].load_class.control != "none" else "working")
        .power_va[LOW]
        .real
        for i in running
    )
    if below <= 0.0:
        return []
    explains = 0.8 if least < below else 0.1 if least < 3.0 * below else HARDLY
    working = sum(base.settled.placements[i].state("working").power_va[LOW].real for i in running)
    if explains > SLEEPS_BETWEEN and working >= below:
        explains = SLEEPS_BETWEEN  # only while everything that switches itself is off at once
    name = source.name or "The source"
    return [
        Suspect("source_asleep", source.pointer, name, explains, "power_w", FigureBand(*(round(least, 1),) * 3), below)
    ]


def _charge(site: Site, seen: StopObservation) -> list[Suspect]:
    source = site.source
    if source.kind not in ("vehicle", "battery_station"):
        return []
    floor = next((item.at for item in source.availability if item.when == "charge_below" and not item.works), None)
    charge = seen.charge_ratio
    if charge is None:
        explains = 0.03  # nobody says that it was low
    elif floor is not None:
        explains = 0.9 if charge <= floor + 0.03 else HARDLY
    else:
        explains = 0.6 if charge <= 0.25 else HARDLY
    values = None if charge is None else FigureBand(charge, charge, charge)
    name = source.name or "the source"
    return [Suspect("charge_floor", source.pointer, name, explains, "charge_ratio" if values else None, values, floor)]


def _motors(base: Evaluation, seen: StopObservation) -> list[Suspect]:
    found: list[Suspect] = []
    r = _row(base, seen)
    for i in base.sets[0].placements:
        placement = base.settled.placements[i]
        if not placement.load_class.is_motor or placement.option is None or placement.tool.motor_protector == "none":
            continue
        volts = base.figures.tool_v[r, :, i].tolist()
        low = min(volts) < placement.lowest_voltage_v
        explains = 0.4 if low or placement.tool.id == seen.heavy else 0.05
        if seen.after_s is not None and seen.after_s < 30.0:
            explains *= 0.1  # a winding that turns does not heat that fast
        if seen.switched_on in (None, placement.tool.id) and (seen.after_s is None or seen.after_s >= STALLED_HEATS_S):
            explains = max(explains, 0.6 * stands_still(start_of(base, i)))
        found.append(
            Suspect(
                "motor_protector",
                placement.tool.pointer,
                placement.tool.id,
                explains,
                "voltage_v",
                _band(volts),
                round(placement.lowest_voltage_v, 3),
                then=_COOLED.get(protector_of(placement), _COOLED[None]),
            )
        )
    return found
