"""What would a crew change, and how is that change written so that the request can be posted again?

One edit is both a changed site, to be evaluated, and steps of RFC 6902 on the request as it was sent. What a catalogue
entry or a kit brought is not in the request: it is corrected by an item with its id beside the reference, so every
edit can be sent. `add` replaces a member that is there and makes one that is not.
Not here: which edit is worth telling (break_evens.py).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from ampwright.engine.calculations.load_check_result import Change
from ampwright.engine.site.band import Band
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.source import Capacity, CapacityLimit, Reset
from ampwright.engine.site.use import Case, Connection, Site


class Edit(Protocol):
    """A change of a site."""

    @property
    def text(self) -> str: ...

    def site(self, site: Site, /) -> Site: ...

    def changes(self, site: Site, /) -> tuple[Change, ...]: ...


def _members(pointer: str, at: str, listed: bool, item: str, members: dict[str, object]) -> tuple[Change, ...]:
    """Set members of the item at `pointer`; of one that a reference brought, by an item with its id in the list `at`.

    listed : whether the list is in the request and holds something.
    """
    if not is_from_reference(pointer):
        return tuple(Change("add", f"{pointer}/{name}", value) for name, value in members.items())
    correction = {"id": item, **members}
    return (Change("add", f"{at}/-", correction),) if listed else (Change("add", at, [correction]),)


@dataclass(frozen=True, slots=True)
class CordEdit:
    """Members of one cord: `size`, `length` with its text, `marked_a`, `laid`."""

    cord: str
    text: str
    size: str | None = None
    length_m: float | None = None
    length_text: str | None = None
    marked_a: float | None = None
    laid: str | None = None

    def site(self, site: Site) -> Site:
        cords = []
        for cord in site.cords:
            if cord.id == self.cord:
                cord = replace(
                    cord,
                    size=self.size or cord.size,
                    length_m=Band.exactly(self.length_m) if self.length_m is not None else cord.length_m,
                    marked_a=Band.exactly(self.marked_a) if self.marked_a is not None else cord.marked_a,
                    laid=self.laid or cord.laid,
                    drum_layers=None if self.laid == "straight" else cord.drum_layers,
                )
            cords.append(cord)
        return replace(site, cords=tuple(cords))

    def changes(self, site: Site) -> tuple[Change, ...]:
        cord = next(item for item in site.cords if item.id == self.cord)
        said: dict[str, object] = {}
        if self.size is not None:
            said["size"] = self.size
        if self.length_text is not None:
            said["length"] = self.length_text
        if self.marked_a is not None:
            said["marked"] = f"{self.marked_a:g} A"
        if self.laid is not None:
            said["laid"] = self.laid
        listed = any(item.pointer.startswith("/cords/") for item in site.cords)
        steps = _members(cord.pointer, "/cords", listed, self.cord, said)
        if self.laid == "straight" and cord.drum_layers is not None:
            steps = (*steps, Change("remove", f"{cord.pointer}/drum_layers"))
        return steps


@dataclass(frozen=True, slots=True)
class ToolProtected:
    """A tool of the same kind that stays off when power returns."""

    tool: str
    text: str

    def site(self, site: Site) -> Site:
        return replace(
            site,
            tools=tuple(replace(t, restart_protection=True) if t.id == self.tool else t for t in site.tools),
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        tool = next(item for item in site.tools if item.id == self.tool)
        listed = any(item.pointer.startswith("/tools/") for item in site.tools)
        return _members(tool.pointer, "/tools", listed, self.tool, {"restart_protection": True})


@dataclass(frozen=True, slots=True)
class Unplug:
    """Tools left out of cases; `cases` are those concerned, (id, who runs) as they would run by themselves."""

    tools: tuple[str, ...]
    cases: tuple[tuple[str, tuple[str, ...]], ...]
    text: str

    def site(self, site: Site) -> Site:
        if site.cases is None:
            return replace(
                site,
                cases=tuple(
                    Case(name, tuple(one for one in running if one not in self.tools), f"/cases/{n}")
                    for n, (name, running) in enumerate(self.cases)
                ),
            )
        names = {name for name, _ in self.cases}
        return replace(site, cases=tuple(self._without(case) if case.id in names else case for case in site.cases))

    def _without(self, case: Case) -> Case:
        order = case.start_order
        return replace(
            case,
            running=tuple(one for one in case.running if one not in self.tools),
            start_order=None if order is None else tuple(one for one in order if one not in self.tools),
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        if site.cases is None:
            left = [
                {"id": name, "running": [x for x in running if x not in self.tools]} for name, running in self.cases
            ]
            return (Change("add", "/cases", left),)
        names = {name for name, _ in self.cases}
        steps: list[Change] = []
        for case in site.cases:
            if case.id not in names:
                continue
            for member, listed in (("running", case.running), ("start_order", case.start_order or ())):
                # from the end, so that the places of the others stand
                places = [place for place, one in enumerate(listed) if one in self.tools]
                steps += [Change("remove", f"{case.pointer}/{member}/{place}") for place in reversed(places)]
        return tuple(steps)


@dataclass(frozen=True, slots=True)
class Move:
    """A plug that goes into another receptacle."""

    plug: str
    into: str
    text: str

    def site(self, site: Site) -> Site:
        return replace(
            site,
            connections=tuple(
                replace(one, into=self.into, leg=None) if one.plug == self.plug else one
                for one in site.connections or ()
            ),
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        one = next(item for item in site.connections or () if item.plug == self.plug)
        steps = [Change("replace", f"{one.pointer}/into", self.into)]
        if one.leg is not None:
            steps.append(Change("remove", f"{one.pointer}/leg"))
        return tuple(steps)


@dataclass(frozen=True, slots=True)
class Spread:
    """Tools that nobody said where to plug, each in the receptacle named here: (tool, receptacle)."""

    places: tuple[tuple[str, str], ...]
    text: str

    def site(self, site: Site) -> Site:
        found = tuple(Connection(tool, into, f"/connections/{n}") for n, (tool, into) in enumerate(self.places))
        return replace(site, connections=found)

    def changes(self, _: Site, /) -> tuple[Change, ...]:
        return (Change("add", "/connections", [{"plug": tool, "into": into} for tool, into in self.places]),)


@dataclass(frozen=True, slots=True)
class ReceptacleEdit:
    """What a look at one receptacle may show: its circuit, or what it is marked."""

    receptacle: str
    text: str
    circuit: str | None = None
    marked_a: float | None = None

    def site(self, site: Site) -> Site:
        found = []
        for item in site.source.receptacles or ():
            if item.id == self.receptacle:
                item = replace(
                    item,
                    circuit=self.circuit or item.circuit,
                    marked_a=Band.exactly(self.marked_a) if self.marked_a is not None else item.marked_a,
                )
            found.append(item)
        return replace(site, source=replace(site.source, receptacles=tuple(found)))

    def changes(self, site: Site) -> tuple[Change, ...]:
        listed = [item for item in site.source.receptacles or () if not is_from_reference(item.pointer)]
        item = next(one for one in site.source.receptacles or () if one.id == self.receptacle)
        said: dict[str, object] = {}
        if self.circuit is not None:
            said["circuit"] = self.circuit
        if self.marked_a is not None:
            said["marked"] = f"{self.marked_a:g} A"
        return _members(item.pointer, "/source/receptacles", bool(listed), self.receptacle, said)


@dataclass(frozen=True, slots=True)
class OutputStated:
    """A source whose whole output is stated, where no limit was."""

    output_va: float
    text: str

    def site(self, site: Site) -> Site:
        limit = CapacityLimit("output", "/source/limits/0", None, Capacity(Band.exactly(self.output_va), "VA"))
        return replace(site, source=replace(site.source, limits=(limit,)))

    def changes(self, _: Site, /) -> tuple[Change, ...]:
        return (Change("add", "/source/limits", [{"id": "output", "continuous": f"{self.output_va:g} VA"}]),)


@dataclass(frozen=True, slots=True)
class StaysOff:
    """A source that is known to stay off after a trip, where nobody said what it does."""

    text: str

    def site(self, site: Site) -> Site:
        return replace(site, source=replace(site.source, reset=Reset("manual")))

    def changes(self, _: Site, /) -> tuple[Change, ...]:
        return (Change("add", "/source/reset", {"how": "manual"}),)


@dataclass(frozen=True, slots=True)
class Place:
    """Where the engine stands."""

    place: str
    text: str

    def site(self, site: Site) -> Site:
        return replace(site, place=self.place)

    def changes(self, site: Site) -> tuple[Change, ...]:
        stated = (site.place, site.wet, site.ambient_c, site.fixed_wiring)
        if all(item is None for item in stated):
            return (Change("add", "/conditions", {"place": self.place}),)
        return (Change("add", "/conditions/place", self.place),)


@dataclass(frozen=True, slots=True)
class People:
    """How many work."""

    people: int
    text: str

    def site(self, site: Site) -> Site:
        return replace(site, people=self.people)

    def changes(self, _: Site, /) -> tuple[Change, ...]:
        return (Change("add", "/people", self.people),)


@dataclass(frozen=True, slots=True)
class Several:
    """Edits that are made together, one after another."""

    edits: tuple[Edit, ...]

    @property
    def text(self) -> str:
        return " and ".join((self.edits[0].text, *(edit.text.removeprefix("if ") for edit in self.edits[1:])))

    def site(self, site: Site) -> Site:
        for edit in self.edits:
            site = edit.site(site)
        return site

    def changes(self, site: Site) -> tuple[Change, ...]:
        steps: list[Change] = []
        for edit in self.edits:
            steps += edit.changes(site)
            site = edit.site(site)
        return tuple(steps)
