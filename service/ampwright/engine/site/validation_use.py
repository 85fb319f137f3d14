"""Do names, followed tools and cases contradict the site?

Tools, cords and receptacles share one space of names, because `connections` names them without saying which is meant.
"""

from __future__ import annotations

from collections.abc import Iterator

from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.use import Case, Fault, Site


def name_faults(site: Site) -> Iterator[Fault]:
    """Ids that a reference could not tell apart."""
    first: dict[str, str] = {one.id: "receptacle" for one in site.source.receptacles or ()}
    for what, items in (("tool", site.tools), ("cord", site.cords)):
        for item in items:
            if item.id in first:
                other = first[item.id]
                message = (
                    f"There are two {what}s {shown(item.id)}."
                    if other == what
                    else f"A {other} is also called {shown(item.id)}; connections could not tell them apart."
                )
                code = "repeated_id" if other == what else "ambiguous_id"
                yield Fault(member_of(item.pointer, "id"), code, message)
            first.setdefault(item.id, what)
    seen: set[str] = set()
    for case in site.cases or ():
        if case.id in seen:
            yield Fault(member_of(case.pointer, "id"), "repeated_id", f"There are two cases {shown(case.id)}.")
        seen.add(case.id)


def follow_faults(site: Site) -> Iterator[Fault]:
    """`follows` that names no tool, the tool itself, or goes round in a circle."""
    tools = {tool.id: tool for tool in site.tools}
    for tool in site.tools:
        if tool.follows is None:
            continue
        at = member_of(tool.pointer, "follows")
        if tool.follows not in tools:
            yield Fault(at, "unknown_tool", *_unknown_tool(site, tool.follows))
            continue
        seen, here = {tool.id}, tool.follows
        while here not in seen:
            seen.add(here)
            after = tools[here].follows
            if after is None or after not in tools:
                break
            here = after
        else:
            if here == tool.id:
                what = "itself" if tool.follows == tool.id else "in a circle"
                yield Fault(at, "follows_in_circle", f"{shown(tool.id)} follows {what}.")


def _unknown_tool(site: Site, name: str) -> tuple[str, str | None]:
    ids = [tool.id for tool in site.tools]
    what = ""
    if any(cord.id == name for cord in site.cords):
        what = " (a cord has this id)"
    elif any(one.id == name for one in site.source.receptacles or ()):
        what = " (a receptacle has this id)"
    there = f"there are {listing(ids)}" if ids else "there are no tools"
    return f"No tool {shown(name)}{what}; {there}.", nearest(name, ids)


def case_faults(site: Site) -> Iterator[Fault]:
    """Cases that run what is not there, twice, or not plugged in, and orders that are no order of them."""
    ids = {tool.id for tool in site.tools}
    plugged = None if site.connections is None else {one.plug for one in site.connections}
    for case in site.cases or ():
        seen: set[str] = set()
        for place, name in enumerate(case.running):
            at = member_of(case.pointer, "running", place)
            if name not in ids:
                yield Fault(at, "unknown_tool", *_unknown_tool(site, name))
            elif name in seen:
                yield Fault(at, "repeated_member", f"{shown(name)} runs twice in this case.")
            elif plugged is not None and name not in plugged:
                yield Fault(at, "tool_not_plugged_in", f"{shown(name)} runs in this case and is plugged in nowhere.")
            seen.add(name)
        yield from _order_faults(case)


def _order_faults(case: Case) -> Iterator[Fault]:
    if case.start_order is None:
        return
    running, seen = set(case.running), set[str]()
    for place, name in enumerate(case.start_order):
        at = member_of(case.pointer, "start_order", place)
        if name not in running:
            message = f"{shown(name)} does not run in this case; {listing(case.running)} do."
            yield Fault(at, "start_order_not_of_case", message, nearest(name, case.running))
        elif name in seen:
            yield Fault(at, "repeated_member", f"{shown(name)} is started twice.")
        seen.add(name)
    missing = [name for name in dict.fromkeys(case.running) if name not in seen]
    if missing:
        yield Fault(
            member_of(case.pointer, "start_order"),
            "start_order_not_of_case",
            f"The order leaves out {listing(missing)}; it must name every tool of the case once.",
        )
