"""Does what is said of a day contradict the site or itself?"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ampwright.engine.site.energy_day import LONGEST_DAY_S, EnergyDay
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.work_units import WORK_UNITS

_OF_BATTERIES = ("vehicle", "battery_station")
HOTTEST_CELLS_C = 80.0  # protections open below it; common practice, no source


def day_faults(site: Site, day: EnergyDay) -> Iterator[Fault]:
    """Contradictions of a day that could be read."""
    yield from _name_faults(site, day)
    yield from _kind_faults(site, day)
    yield from _length_faults(day)
    yield from _work_faults(day)
    yield from _duty_faults(site, day)


def _name_faults(site: Site, day: EnergyDay) -> Iterator[Fault]:
    tools = [tool.id for tool in site.tools]
    works = [work.id for work in day.work]
    stops = [stop.id for stop in day.stops or ()]
    for what, items in (
        ("work", [(item.id, item.pointer) for item in day.work]),
        ("stop", [(item.id, item.pointer) for item in day.stops or ()]),
        ("duty", [(item.tool, item.pointer) for item in day.duties]),
    ):
        seen: set[str] = set()
        for name, pointer in items:
            if name in seen:
                member = "tool" if what == "duty" else "id"
                yield Fault(member_of(pointer, member), "repeated_id", f"There are two of {what} {shown(name)}.")
            seen.add(name)
    for work in day.work:
        if work.id in tools:
            yield Fault(member_of(work.pointer, "id"), "ambiguous_id", f"A tool is also called {shown(work.id)}.")
        if work.tool is not None and work.tool not in tools:
            yield _unknown_tool(work.tool, tools, member_of(work.pointer, "tool"))
        if work.stop is not None and work.stop not in stops:
            message = f"No stop {shown(work.stop)}; there are {listing(stops) or 'none'}."
            yield Fault(member_of(work.pointer, "stop"), "unknown_stop", message, nearest(work.stop, stops))
    for duty in day.duties:
        if duty.tool not in tools:
            yield _unknown_tool(duty.tool, tools, member_of(duty.pointer, "tool"))
    for stop in day.stops or ():
        for place, name in enumerate(stop.running or ()):
            if name not in tools:
                yield _unknown_tool(name, tools, member_of(stop.pointer, "running", place))
    for one in day.observations:
        if one.work not in works:
            message = f"No work {shown(one.work)}; there are {listing(works) or 'none'}."
            yield Fault(member_of(one.pointer, "work"), "unknown_work", message, nearest(one.work, works))


def _unknown_tool(name: str, tools: list[str], pointer: str) -> Fault:
    there = f"there are {listing(tools)}" if tools else "there are no tools"
    return Fault(pointer, "unknown_tool", f"No tool {shown(name)}; {there}.", nearest(name, tools))


def _kind_faults(site: Site, day: EnergyDay) -> Iterator[Fault]:
    kind = site.source.kind
    says = kind.replace("_", " ")
    if day.charge_ratio is not None and kind not in _OF_BATTERIES:
        yield Fault("/charge", "member_does_not_apply", f"A {says} has no charge.")
    if day.battery != type(day.battery)() and kind not in _OF_BATTERIES:
        yield Fault("/battery", "member_does_not_apply", f"A {says} has no battery to work from.")
    if day.fuel != type(day.fuel)() and kind != "engine_generator":
        yield Fault("/fuel", "member_does_not_apply", f"A {says} burns no fuel.")
    if day.allowance_j is not None and kind != "site_supply":
        yield Fault("/allowance", "member_does_not_apply", "Only a site supply has an allowance.")
    if day.way_home is not None and kind != "vehicle":
        yield Fault("/way_home", "member_does_not_apply", f"A {says} does not drive home.")
    if day.solar_w and kind not in _OF_BATTERIES:
        yield Fault("/solar", "member_does_not_apply", f"A {says} stores no solar energy.")
    for stop in day.stops or ():
        if stop.distance_m is not None and kind != "vehicle":
            yield Fault(member_of(stop.pointer, "distance"), "member_does_not_apply", f"A {says} does not drive.")
        if stop.recharge_w is not None and kind not in _OF_BATTERIES:
            yield Fault(member_of(stop.pointer, "recharge"), "member_does_not_apply", f"A {says} is not recharged.")
    for place, one in enumerate(day.observations):
        if one.took_ratio is not None and kind not in _OF_BATTERIES:
            yield Fault(
                member_of(f"/observations/{place}", "took"), "member_does_not_apply", "A share needs a battery."
            )


def _length_faults(day: EnergyDay) -> Iterator[Fault]:
    total = math.fsum(stop.lasts_s for stop in day.stops or () if stop.lasts_s is not None)
    if day.shift_s is not None and day.shift_s > LONGEST_DAY_S:
        yield Fault("/shift", "out_of_range", "A plan is looked at for 14 days at most.")
    if day.shift_s is not None and day.stops is not None:
        open_stops = [stop.id for stop in day.stops if stop.lasts_s is None]
        if total > day.shift_s * (1.0 + 1e-9) or (open_stops and total >= day.shift_s):
            left = f", and leave no time for {listing(open_stops)}" if open_stops else ""
            message = f"The stops last {total / 3600.0:.4g} h, the shift {day.shift_s / 3600.0:.4g} h{left}."
            yield Fault("/shift", "stops_longer_than_shift", message)
    if total > LONGEST_DAY_S:
        yield Fault("/stops", "out_of_range", "A plan is looked at for 14 days at most.")


def _work_faults(day: EnergyDay) -> Iterator[Fault]:
    """Members that a kind of work has no use for, and packs that charge downwards."""
    for work in day.work:
        needs = WORK_UNITS[work.unit].needs
        for member, given in (("head", work.head_m), ("pack", work.pack)):
            if given is not None and needs != member:
                message = f"A {work.unit} has no {member}."
                yield Fault(member_of(work.pointer, member), "member_does_not_apply", message)
        if work.head_m is not None and work.energy_each_j is not None and needs == "head":
            message = "Give the lift or the energy of a litre, not both."
            yield Fault(member_of(work.pointer, "head"), "member_does_not_apply", message)
        pack = work.pack
        if pack is None or pack.from_ratio is None:
            continue
        target = pack.to_ratio.typical if pack.to_ratio is not None else 1.0
        if pack.from_ratio.typical >= target:
            message = f"A pack is charged upwards: its start is at or above {100.0 * target:g} %."
            yield Fault(member_of(work.pointer, "pack", "start"), "out_of_range", message)


def _duty_faults(site: Site, day: EnergyDay) -> Iterator[Fault]:
    """A running time that is said twice, and air asked of what gives none."""
    classes = {tool.id: tool.load_class for tool in site.tools}
    does = {work.tool: work.id for work in day.work if work.tool is not None and work.amount > 0.0}
    for duty in day.duties:
        if duty.running_ratio is not None and duty.tool in does:
            message = f"How much {shown(duty.tool)} runs follows from the work {shown(does[duty.tool])}."
            yield Fault(member_of(duty.pointer, "running"), "member_does_not_apply", message)
        if duty.air is None:
            continue
        where = member_of(duty.pointer, "air")
        load_class = classes.get(duty.tool)
        if load_class is not None and load_class != "air_compressor":
            message = f"{shown(duty.tool)} is a {load_class}, and gives no air."
            yield Fault(where, "member_does_not_apply", message)
        elif duty.running_ratio is not None or duty.tool in does:
            message = "How much it runs is said already; leave out the air."
            yield Fault(where, "member_does_not_apply", message)
        if duty.air.use_m3_per_s is not None and duty.air.nails_per_s is not None:
            message = "Give the flow of air that is used, or the nails."
            yield Fault(member_of(where, "nails"), "member_does_not_apply", message)
    cells = day.battery.cells_c
    if cells is not None and cells.high > HOTTEST_CELLS_C:
        message = f"Cells above {HOTTEST_CELLS_C:g} degC are not plausible."
        yield Fault("/battery/cells", "out_of_range", message)
