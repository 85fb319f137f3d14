"""Is what is plugged into what a forest: every plug in one place, every contact with one plug, no circles?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Set

from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.use import Connection, Fault, Site


def connection_faults(site: Site) -> Iterator[Fault]:
    """Contradictions among the connections, none where none are given."""
    tools = {tool.id for tool in site.tools}
    cords = {cord.id: cord for cord in site.cords}
    receptacles = {one.id for one in site.source.receptacles or ()}
    connections = site.connections or ()
    where: dict[str, str] = {}
    used: Counter[str] = Counter()
    for one in connections:
        yield from _name_faults(one, tools, cords.keys(), receptacles)
        yield from _leg_faults(one, site)
        if one.plug in where:
            yield Fault(
                member_of(one.pointer, "plug"),
                "plugged_in_twice",
                f"{shown(one.plug)} is already plugged into {shown(where[one.plug])}, and it has one plug.",
            )
        else:
            where[one.plug] = one.into
        used[one.into] += 1
        if one.into in receptacles and used[one.into] > 1:
            yield Fault(
                member_of(one.pointer, "into"),
                "receptacle_taken",
                f"Receptacle {shown(one.into)} takes one plug and already has one.",
                _free_receptacle(site),
            )
        if one.into in cords:
            outlets = cords[one.into].outlets
            count = outlets.count if outlets is not None and outlets.count is not None else 1
            if used[one.into] > count:
                said = "" if outlets is not None and outlets.count is not None else " where outlets.count is not given"
                yield Fault(
                    member_of(one.pointer, "into"),
                    "cord_outlets_taken",
                    f"Cord {shown(one.into)} has {count} {'outlet' if count == 1 else 'outlets'}{said}, all taken.",
                )
    yield from _circle_faults(connections, where)
    for one in connections:
        if one.into in cords and one.into not in where:
            yield Fault(
                member_of(one.pointer, "into"),
                "cord_not_plugged_in",
                f"Cord {shown(one.into)} is itself plugged in nowhere.",
            )


def _name_faults(one: Connection, tools: set[str], cords: Set[str], receptacles: set[str]) -> Iterator[Fault]:
    if one.plug not in tools and one.plug not in cords:
        at = member_of(one.pointer, "plug")
        if one.plug in receptacles:
            yield Fault(at, "has_no_plug", f"{shown(one.plug)} is a receptacle; `plug` names a tool or a cord.")
        else:
            plugs = sorted(tools | cords)
            there = f"there are {listing(plugs)}" if plugs else "none is listed"
            yield Fault(at, "unknown_plug", f"No tool or cord {shown(one.plug)}; {there}.", nearest(one.plug, plugs))
    if one.into not in receptacles and one.into not in cords:
        at = member_of(one.pointer, "into")
        if one.into in tools:
            yield Fault(
                at,
                "has_no_outlet",
                f"{shown(one.into)} is a tool; `into` names a receptacle of the source or a cord.",
            )
        else:
            outlets = sorted(receptacles | cords)
            there = f"there are {listing(outlets)}" if outlets else "the source lists no receptacles"
            yield Fault(
                at,
                "unknown_receptacle",
                f"No receptacle or cord {shown(one.into)}; {there}.",
                nearest(one.into, outlets),
            )


def _leg_faults(one: Connection, site: Site) -> Iterator[Fault]:
    legs = site.source.supply.legs
    if one.leg is not None and one.leg not in legs:
        yield Fault(
            member_of(one.pointer, "leg"),
            "unknown_leg",
            f"A {site.source.supply.text} supply has {listing(legs)}, not {one.leg}.",
            legs[-1],
        )


def _free_receptacle(site: Site) -> str | None:
    taken = {one.into for one in site.connections or ()}
    free = [one.id for one in site.source.receptacles or () if one.id not in taken]
    return free[0] if len(free) == 1 else None


def _circle_faults(connections: tuple[Connection, ...], where: dict[str, str]) -> Iterator[Fault]:
    in_circle: set[str] = set()
    settled: set[str] = set()
    for start in where:
        path: dict[str, None] = {}  # keeps its order and looks up at once
        here: str | None = start
        while here is not None and here in where and here not in settled and here not in path:
            path[here] = None
            here = where[here]
        if here is not None and here in path:
            steps = list(path)
            in_circle.update(steps[steps.index(here) :])
        settled.update(path)
    for one in connections:
        if one.plug in in_circle and where.get(one.plug) == one.into:
            yield Fault(
                member_of(one.pointer, "into"),
                "plugged_in_circle",
                f"Following {shown(one.into)} leads back to {shown(one.plug)}; no receptacle feeds them.",
            )
