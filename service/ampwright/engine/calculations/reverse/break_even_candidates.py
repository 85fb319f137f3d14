"""Which single changes could make a finding go away?

Only what the finding is about is offered, in the order in which a crew would do it: unroll, look, another cord or tool
of the kind, another receptacle, another place. Whether one helps, and what is then, is found by a whole evaluation
(break_evens.py). Lengths of cords, welds and what is unplugged are searched along, not listed.

Never offered: adapters, larger devices, use above a label, an order of starting. break_even_kinds.py says of every
finding which kinds of change are tried, and of which none is right.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ampwright.engine.calculations.after_trip.after_trip_finding_codes import AFTER_TRIP_FINDING_CODES
from ampwright.engine.calculations.load_check.load_check import LIFTS
from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation
from ampwright.engine.calculations.load_check.load_check_result import Finding
from ampwright.engine.calculations.reverse.assumption_edits import assumption_edit, own_circuit
from ampwright.engine.calculations.reverse.break_even_after_trip import after_trip_changes
from ampwright.engine.calculations.reverse.site_edits import (
    AnyOrder,
    CordEdit,
    Edit,
    Move,
    OneCord,
    People,
    Place,
    PlugIn,
)
from ampwright.engine.calculations.reverse.source_edits import LimitStated, Overload, ReceptacleEdit, SourceStated
from ampwright.engine.calculations.reverse.tool_edits import ToolStated, start_edit
from ampwright.engine.calculations.starts.start_finding_codes import START_FINDING_CODES
from ampwright.engine.calculations.wording import with_unit
from ampwright.engine.site.band import HIGH
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.use import Site
from ampwright.engine.standards.conductor_sizes import conductor_size, sizes
from ampwright.engine.standards.cord_ratings import ampacity_a, end_rating_a, marked_rating_a
from ampwright.engine.standards.loader import CitedValue
from ampwright.engine.standards.plugs import configuration

LOW_VOLTAGE_V = 150.0
STEPS_THICKER = 3
THICKEST_M2 = 10.6e-6  # 7 AWG: thicker cords are not carried by hand to a tool; common practice, no source
ENDS_A = 15.0
FOOT_M = 0.3048
OUTDOOR_CORD = {True: "SJTW", False: "H07RN-F"}  # by whether the supply is of low leg voltage
EARTHED_PLUG = {"1-15P": "5-15P"}
NO_PROTECTION = (
    "ground_fault_protection_unknown",
    "ground_fault_protection_absent",
    "ground_fault_protection_missing",
    "wet_without_ground_fault_protection",
    "lamp_in_the_wet",
)
MISFITS = ("plug_does_not_fit", "voltage_does_not_match")
RESTARTS = ("restart_without_warning", "restarts_if_held", "power_sent_back_unseen")
OTHER_KIND = "ground_fault_protection_other_kind"
OTHER_KINDS = ("gfci_class_a", "rcd_30ma_type_a")
# by what is asked for a start, and what is then asked again where the source is no stiff one: amount, time
MORE_SURGE = ((1.0, 1.0), (1.1, 1.5), (1.3, 2.5))


def subjects_of(base: Evaluation, finding: Finding) -> tuple[str, ...]:
    """What a finding is about; those of one catalogue reference share a pointer and are told apart by its text."""
    every = {
        check.subject
        for checks in (base.site_checks, *base.case_checks, *base.row_checks)
        for check in checks
        if (check.code, check.pointer) == (finding.code, finding.pointer)
    }
    words = {word.strip(".,:;") for word in finding.text.split()}
    return tuple(sorted(every & words)) or tuple(sorted(every))


def single_changes(site: Site, base: Evaluation, finding: Finding) -> Iterator[Edit]:
    """Edits that could lift a finding, each by itself."""
    subjects = subjects_of(base, finding)
    yield from _cords(site, base, finding, subjects)
    yield from _protection(site, base, finding, subjects)
    yield from _tools(site, base, finding, subjects)
    yield from found_out(site, base, finding)
    yield from _place(site, finding)
    yield from _source(finding)
    yield from after_trip_changes(site, base, finding, subjects)
    yield from _surges(site, base, finding, subjects)
    yield from _larger(site, base, finding, subjects)
    yield from _plugged_in(site, base, finding, subjects)
    yield from _moves(site, base, finding, subjects)
    if finding.code == "too_few_people":
        needed = max((running.hands_needed for running in base.sets if running.id in finding.cases), default=0)
        if needed > (site.people or 1):
            yield People(needed, f"{needed} people")
    if finding.code == "order_matters":
        yield AnyOrder(finding.cases, "started as it comes")


# --- cords, tools, protection ----------------------------------------------------------------------------------------


def _cords(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    code = finding.code
    ours = {cord.id: cord for cord in site.cords}
    for i, cord in enumerate(base.settled.cords):
        if cord.laid != "straight" and code in ("cord_overheats", "cord_over_marked_rating"):
            yield CordEdit(cord.id, f"unroll all of the cord {cord.id}", laid="straight")
        if cord.id not in subjects:
            continue
        if code in ("cord_end_damaged", "cord_end_worn"):
            yield CordEdit(cord.id, f"a cord like {cord.id} with sound ends", sound=True)
        elif code in ("ground_path_missing", "ground_path_unknown", "cord_two_wire"):
            plug = configuration(cord.plug) if cord.plug else None
            earthed = None if plug is None or plug.has_earth else EARTHED_PLUG.get(cord.plug or "")
            yield CordEdit(cord.id, f"a cord like {cord.id} with an earth conductor", earthed=True, plug=earthed)
        elif code in ("cord_through_opening", "cord_on_roadway"):
            yield CordEdit(cord.id, f"another way for the cord {cord.id}", led_through="none")
        elif code in ("cord_not_for_outdoors", "cord_not_hard_usage", "cord_type_unknown"):
            kind = OUTDOOR_CORD[base.settled.source.leg_voltage_v <= LOW_VOLTAGE_V]
            text = f"{cord.id} of type {kind}, made for {'outdoors' if code == 'cord_not_for_outdoors' else 'sites'}"
            if code == "cord_type_unknown":
                text = f"if {cord.id} turns out to be of type {kind}"
            yield CordEdit(cord.id, text, type=kind)
        elif code == "cords_in_series" and base.settled.cord_parents[i][0] == "cord":
            inner = base.settled.cords[base.settled.cord_parents[i][1]]
            imperial = (ours[inner.id].size or "AWG").endswith("AWG")
            unit_m, unit = (FOOT_M, "ft") if imperial else (1.0, "m")
            whole = math.ceil(round((cord.length_m.high + inner.length_m.high) / unit_m, 6))
            text = f"one cord {inner.id} of {whole} {unit} instead of two"
            yield OneCord(cord.id, inner.id, text, whole * unit_m, f"{whole} {unit}")


def _tools(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    for placement in base.settled.placements:
        name = placement.tool.id
        at = f"{finding.pointer}/".startswith(f"{placement.tool.pointer}/") and not finding.pointer.endswith("/entry")
        if name not in subjects and not at:
            continue
        if finding.code in RESTARTS:
            # another tool of its kind is brought; nothing is built into this one
            yield ToolStated(name, f"a {name} that stays off when power returns", restart_protection=True)
        elif finding.code == "switch_kind_not_allowed":
            # the one kind that every clause allows
            text = f"a {name} whose switch stops it when it is let go"
            yield ToolStated(name, text, switch="constant_pressure")
        elif finding.code == "ground_path_unknown":
            yield ToolStated(name, f"if {name} turns out to be double insulated", insulation="class_ii")
        elif finding.code in START_FINDING_CODES and finding.code != "sag_upsets_tool":
            yield from _easier_start(site, base, name)


def _easier_start(site: Site, base: Evaluation, name: str) -> Iterator[Edit]:
    """A tank that is vented, a tool with a soft start: where it was said to be otherwise."""
    place = next(i for i, placement in enumerate(base.settled.placements) if placement.tool.id == name)
    placement, start = base.settled.placements[place], base.starts.starting.starts[place]
    assumed = {item.code for item in base.assumptions}
    edit: Edit | None = None
    if start is None:
        return
    if start.against == "head_pressure" and "head_pressure" not in assumed:
        edit = start_edit(site, placement, "induction_motor", f"{name} vented before each start", against="vented")
    elif start.model == "universal" and not start.soft_start and "soft_start" not in assumed:
        edit = start_edit(site, placement, "universal_motor", f"a {name} with a soft start", soft_start=True)
    if edit is not None:
        yield edit


def _protection(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    if finding.code not in (*NO_PROTECTION, OTHER_KIND):
        return
    kind = OTHER_KINDS[base.settled.source.leg_voltage_v > LOW_VOLTAGE_V]
    given = {item.id: item for item in site.source.receptacles or ()}
    for receptacle in base.settled.source.receptacles:
        if receptacle.id not in given:
            continue
        behind = any(
            placement.tool.id in subjects and base.settled.source.receptacles[placement.receptacle].id == receptacle.id
            for placement in base.settled.placements
        )
        if receptacle.id not in subjects and not behind:
            continue
        if finding.code == OTHER_KIND:
            for one in OTHER_KINDS:
                if one != given[receptacle.id].ground_fault:
                    name = "class A device" if one == "gfci_class_a" else "30 mA residual current device of type A"
                    yield ReceptacleEdit(receptacle.id, f"a portable {name} at {receptacle.id}", ground_fault=one)
            continue
        if given[receptacle.id].ground_fault is None:
            text = f"if {receptacle.id} turns out to have ground-fault protection"
        else:
            text = f"a portable ground-fault device at {receptacle.id}"
        yield ReceptacleEdit(receptacle.id, text, ground_fault=kind)


# --- place, source, plugging ----------------------------------------------------------------------------------------


def _place(site: Site, finding: Finding) -> Iterator[Edit]:
    if finding.code in ("exhaust_near_people", "exhaust_place_unknown"):
        yield Place("the engine in the open, far from every opening", place="open_air")
    elif finding.code in ("backfeed", "feeds_through_transfer_equipment") and site.fixed_wiring is not None:
        yield Place("feeding no fixed wiring", fixed_wiring="none")


def _source(finding: Finding) -> Iterator[Edit]:
    if finding.code == "neutral_bond_unknown":
        yield SourceStated("if its neutral turns out to be bonded to its frame", neutral_bond="bonded")
    elif finding.code == "source_may_sleep":
        yield SourceStated("with the source set to stay awake", sleeps_below_w=0.0)
    elif finding.code == "modified_sine_load":
        yield SourceStated("on a source that gives a sine", waveform="sine")


def _surges(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """A source that gives, for as long, what a start needs."""
    if finding.code not in START_FINDING_CODES:
        return
    source = base.settled.source
    limits = {limit.id: limit for limit in source.limits}
    stated = {limit.id for limit in site.source.limits or ()}
    for one in base.starts.tools:
        name = base.settled.placements[one.tool].tool.id
        need = base.start_needs.get((one.case, one.tool))
        if name not in subjects or base.sets[one.case].id not in finding.cases:
            continue
        if need is None or need.must_give_a is None or need.must_give_s is None:
            continue
        timed = base.starts.starting.limits[one.estimates[HIGH].limit]
        limit = limits.get(timed.id)
        if limit is None or (limit.id not in stated and (limit.id != "assumed-output" or stated)):
            continue
        legs = {
            leg for pair in base.settled.placements[one.tool].lines for leg in pair if leg < len(source.leg_angles_rad)
        }
        for more, longer in MORE_SURGE:
            amps = more * need.must_give_a
            amount = amps if limit.unit == "A" else amps * len(legs) * source.leg_voltage_v
            overload = Overload(_up(amount), limit.unit, _up(max(longer * need.must_give_s, 0.1)))
            beside = "" if limit.unit == "A" else f" ({with_unit(amps, 'A')})"
            text = f"on a source that gives {overload.amount:g} {overload.unit}{beside} for {overload.lasts_s:g} s"
            if limit.id in stated:
                yield LimitStated(text, limit.id, more=overload)
            else:
                yield LimitStated(text, None, if_new=(limit.continuous, limit.unit), more=overload)
        return


def _larger(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """Another source that gives without end what is asked in these cases, at most by what may be asked."""
    stated = {limit.id for limit in site.source.limits or ()}
    if finding.code != "limit_over_continuous":
        return
    for i, limit in enumerate(base.settled.source.limits):
        if limit.id not in subjects or limit.id not in stated:
            continue
        amounts = {"VA": base.figures.limit_va, "W": base.figures.limit_w, "A": base.figures.limit_a}[limit.unit]
        of_cases = [r for r, row in enumerate(base.rows) if base.sets[row.case].id in finding.cases]
        asked = max((float(amounts[r, HIGH, i]) for r in of_cases), default=0.0)
        if asked > limit.continuous:
            most = _up(asked)
            yield LimitStated(f"on a source that gives {most:g} {limit.unit} in all", limit.id, (most, limit.unit))


def _up(value: float) -> float:
    """The next figure of two digits that is no smaller."""
    scale = 10.0 ** (math.floor(math.log10(value)) - 1)
    return float(f"{math.ceil(round(value / scale, 9)) * scale:.6g}")


def _plugged_in(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    if finding.code != "not_plugged_in":
        return
    taken = {one.into for one in site.connections or ()}
    connected = {one.plug for one in site.connections or ()}
    for tool in site.tools:
        if tool.id in subjects and tool.id not in connected:
            for receptacle in base.settled.source.receptacles:
                if receptacle.id not in taken and receptacle.id != "assumed-receptacle":
                    yield PlugIn(tool.id, receptacle.id, f"{tool.id} into {receptacle.id}")


def _moves(site: Site, base: Evaluation, finding: Finding, subjects: tuple[str, ...]) -> Iterator[Edit]:
    """Every plug that sits in a receptacle, into every free one of another circuit, or that fits."""
    if site.connections is None:
        return
    settled = base.settled.source
    index = {item.id: item for item in settled.receptacles}
    taken = {one.into for one in site.connections}
    for one in site.connections:
        if one.into not in index:
            continue
        for free in settled.receptacles:
            if free.id in taken:
                continue
            elsewhere = free.circuit != index[one.into].circuit
            if elsewhere:
                yield Move(one.plug, free.id, f"{one.plug} into {free.id}, on another circuit")
            elif finding.code in MISFITS or (finding.code in NO_PROTECTION and one.into in subjects):
                yield Move(one.plug, free.id, f"{one.plug} into {free.id}")


# --- what nobody said ----------------------------------------------------------------------------------------------


def found_out(site: Site, base: Evaluation, finding: Finding | None = None) -> Iterator[Edit]:
    """What nobody said, said the other way, where a request can say it and it could lift the finding."""
    receptacles = {item.id: item for item in site.source.receptacles or ()}
    for item in base.assumptions:
        if item.if_instead is None or (finding is not None and not _may_lift(item.code, finding.code)):
            continue
        if item.code == "circuit_shared":
            flipped = settle(site, Ledger(frozenset({item.key}))).source
            for name in receptacles:
                own = f"own-{name}"
                there = next(one for one in flipped.receptacles if one.id == name)
                if flipped.circuits[there.circuit].id == own and len(own) <= 64:
                    yield ReceptacleEdit(name, own_circuit(name), circuit=own)
            continue
        edit = assumption_edit(site, base.settled, item)
        if edit is not None:
            yield edit


def _may_lift(assumption: str, finding: str) -> bool:
    lifts = LIFTS.get(assumption)
    if lifts is None or finding in lifts or finding in AFTER_TRIP_FINDING_CODES:
        return True  # what opens, and what starts again then, hangs on nearly all of them
    return finding in ("starts_only_if", "starts_slowly", "weak_tool") and "does_not_start" in lifts


# --- cords, thicker -------------------------------------------------------------------------------------------------


def thicker(size: str) -> list[str]:
    """The next sizes of the same kind that are still carried by hand."""
    found = conductor_size(size)
    if found is None:
        return []
    unit = size.rsplit(maxsplit=1)[-1]
    known = [conductor_size(name) for name in sizes() if name.endswith(f" {unit}")]
    above = sorted(
        (one.area_m2, one.size)
        for one in known
        if one is not None
        and found.area_m2 < one.area_m2 <= THICKEST_M2
        and isinstance(ampacity_a(one.size, 2), CitedValue)
        and (unit != "AWG" or int(one.size.split()[0].split("/")[0]) % 2 == 0)
    )
    return [name for _, name in above[:STEPS_THICKER]]


def usual_mark_a(size: str, length_m: float, plug: str | None, outlet: str | None) -> float | None:
    """[A] what a listed set of this size and length with these ends is marked."""
    rated = [end_rating_a(name) for name in (plug, outlet) if name]
    ends = min((one.value for one in rated if isinstance(one, CitedValue)), default=ENDS_A)
    mark = marked_rating_a(size, length_m, ends)
    return mark.value if isinstance(mark, CitedValue) else None
