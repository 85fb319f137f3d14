"""Does what is said of a day contradict the site or itself?"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ampwright.engine.site.energy_day import LONGEST_DAY_S, EnergyDay
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.use import Fault, Site

_OF_BATTERIES = ("vehicle", "battery_station")


def day_faults(site: Site, day: EnergyDay) -> Iterator[Fault]:
    """Contradictions of a day that could be read."""
    yield from _name_faults(site, day)
    yield from _kind_faults(site, day)
    yield from _length_faults(day)


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
