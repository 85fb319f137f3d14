"""What is asked of an outlet plan beside the site: where work is done, what matters most, what belongs together?

Not here: what the plan is (outlet_plan.py).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ampwright.engine.site.band import Band
from ampwright.engine.site.nearest import listing, nearest, shown
from ampwright.engine.site.use import Fault, Site

USUAL_PRIORITY = 3
MOST_TOOLS, MOST_RECEPTACLES, MOST_CORDS = 40, 20, 40


@dataclass(frozen=True, slots=True)
class DistanceFrom:
    """The way [m] from one receptacle, along which a cord would lie."""

    receptacle: str
    distance_m: Band
    pointer: str


@dataclass(frozen=True, slots=True)
class WorkPosition:
    """A place where tools are used. `distance_m` is the way from every receptacle that `ways` does not name; None: a
    receptacle without a way of its own is not used for this place."""

    id: str
    pointer: str
    distance_m: Band | None = None
    ways: tuple[DistanceFrom, ...] = ()

    def distance_from(self, receptacle: str) -> Band | None:
        """The way from a receptacle, None where it is not known."""
        return next((way.distance_m for way in self.ways if way.receptacle == receptacle), self.distance_m)


@dataclass(frozen=True, slots=True)
class ToolWish:
    """What is settled of one tool before planning. priority : 1 is the last to stay off, 9 the first."""

    tool: str
    pointer: str
    position: str | None = None
    priority: int | None = None
    into: str | None = None
    supply_option: str | None = None
    own_cord_m: Band | None = None


@dataclass(frozen=True, slots=True)
class ToolGroup:
    """Tools that must be able to run at the same time: all of them get an outlet, or none."""

    id: str
    pointer: str
    tools: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlanQuestion:
    """A site whose tools are plugged in nowhere yet, and what is asked of the plan.

    site : its `connections` are None; its cords are the spare cords. plans : how many are wanted.
    """

    site: Site
    positions: tuple[WorkPosition, ...] = ()
    wishes: tuple[ToolWish, ...] = ()
    groups: tuple[ToolGroup, ...] = ()
    plans: int = 3

    def wish(self, tool: str) -> ToolWish:
        """What is asked of one tool; nothing where it is not named."""
        return next((wish for wish in self.wishes if wish.tool == tool), ToolWish(tool, ""))

    def priority(self, tool: str) -> int:
        """Priority of a tool, the usual one where none is said."""
        return self.wish(tool).priority or USUAL_PRIORITY


def plan_faults(question: PlanQuestion) -> tuple[Fault, ...]:
    """What the question contradicts beside its site: names that are not there, things said twice, too much at once."""
    return (*_sizes(question), *_positions(question), *_wishes(question), *_groups(question))


def _sizes(question: PlanQuestion) -> Iterator[Fault]:
    site = question.site
    if site.connections is not None:
        yield Fault(
            "/connections",
            "member_does_not_apply",
            "A plan finds the connections; a tool that must stay where it is names its outlet by `wishes`, `into`.",
        )
    if site.source.receptacles is None:
        at = f"{site.source.pointer}/receptacles"
        yield Fault(at, "receptacles_not_listed", "A plan needs the receptacles of the source, [] where it has none.")
    for at, what, count, most in (
        ("/tools", "tools", len(site.tools), MOST_TOOLS),
        ("/source/receptacles", "receptacles", len(site.source.receptacles or ()), MOST_RECEPTACLES),
        ("/cords", "cords", len(site.cords), MOST_CORDS),
    ):
        if count > most:
            yield Fault(at, "too_many_items", f"There are {count} {what}; a plan is made of at most {most}.")


def _positions(question: PlanQuestion) -> Iterator[Fault]:
    receptacles = [item.id for item in question.site.source.receptacles or ()]
    seen: set[str] = set()
    for position in question.positions:
        if position.id in seen:
            message = f"There are two positions {shown(position.id)}."
            yield Fault(f"{position.pointer}/id", "repeated_id", message)
        seen.add(position.id)
        named: set[str] = set()
        for way in position.ways:
            if way.receptacle not in receptacles:
                yield Fault(
                    f"{way.pointer}/receptacle",
                    "unknown_receptacle",
                    *_unknown("receptacle", way.receptacle, receptacles),
                )
            elif way.receptacle in named:
                message = f"The way from {shown(way.receptacle)} is given twice."
                yield Fault(f"{way.pointer}/receptacle", "repeated_member", message)
            named.add(way.receptacle)


def _wishes(question: PlanQuestion) -> Iterator[Fault]:
    site = question.site
    tools = {tool.id: tool for tool in site.tools}
    outlets = [item.id for item in site.source.receptacles or ()] + [cord.id for cord in site.cords]
    positions = [position.id for position in question.positions]
    seen: set[str] = set()
    for wish in question.wishes:
        if wish.tool not in tools:
            yield Fault(f"{wish.pointer}/tool", "unknown_tool", *_unknown("tool", wish.tool, list(tools)))
            continue
        if wish.tool in seen:
            yield Fault(f"{wish.pointer}/tool", "repeated_member", f"There are two wishes for {shown(wish.tool)}.")
        seen.add(wish.tool)
        if wish.position is not None and wish.position not in positions:
            yield Fault(f"{wish.pointer}/position", "unknown_position", *_unknown("position", wish.position, positions))
        if wish.into is not None and wish.into not in outlets:
            yield Fault(
                f"{wish.pointer}/into", "unknown_receptacle", *_unknown("receptacle or cord", wish.into, outlets)
            )
        options = [option.id for option in tools[wish.tool].supply_options]
        if wish.supply_option is not None and wish.supply_option not in options:
            at = f"{wish.pointer}/supply_option"
            yield Fault(at, "unknown_supply_option", *_unknown("supply option", wish.supply_option, options))


def _groups(question: PlanQuestion) -> Iterator[Fault]:
    tools = [tool.id for tool in question.site.tools]
    seen: set[str] = set()
    for group in question.groups:
        if group.id in seen:
            yield Fault(f"{group.pointer}/id", "repeated_id", f"There are two groups {shown(group.id)}.")
        seen.add(group.id)
        inside: set[str] = set()
        for place, name in enumerate(group.tools):
            at = f"{group.pointer}/tools/{place}"
            if name not in tools:
                yield Fault(at, "unknown_tool", *_unknown("tool", name, tools))
            elif name in inside:
                yield Fault(at, "repeated_member", f"{shown(name)} is in this group twice.")
            inside.add(name)


def _unknown(what: str, name: str, known: list[str]) -> tuple[str, str | None]:
    there = f"there are {listing(known)}" if known else "there is none"
    return f"No {what} {shown(name)}; {there}.", nearest(name, known)
