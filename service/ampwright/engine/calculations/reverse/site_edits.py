"""What would a crew change, and how is that change written so that the request can be posted again?

One edit is both a changed site, to be evaluated, and steps of RFC 6902 on the request as it was sent. What a catalogue
entry or a kit brought is not in the request: it is corrected by an item with its id beside the reference, so every
edit can be sent. `add` replaces a member that is there and makes one that is not.
Not here: which edit is worth telling (break_evens.py).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from ampwright.engine.calculations.load_check.load_check_result import Change
from ampwright.engine.site.band import Band
from ampwright.engine.site.cord import CordOutlets
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.use import Case, Connection, Site

EARTHED_CONDUCTORS = 3


class Edit(Protocol):
    """A change of a site."""

    @property
    def text(self) -> str: ...

    def site(self, site: Site, /) -> Site: ...

    def changes(self, site: Site, /) -> tuple[Change, ...]: ...


def members_set(pointer: str, at: str, listed: bool, item: str, members: dict[str, object]) -> tuple[Change, ...]:
    """Set members of the item at `pointer`; of one that a reference brought, by an item with its id in the list `at`.

    listed : whether the list is in the request and holds something.
    """
    if not is_from_reference(pointer):
        return tuple(Change("add", f"{pointer}/{name}", value) for name, value in members.items())
    correction = {"id": item, **members}
    return (Change("add", f"{at}/-", correction),) if listed else (Change("add", at, [correction]),)


def band_text(band: Band, unit: str) -> str:
    """A figure as a request writes it."""

    def number(value: float) -> str:
        return f"{value:.6f}".rstrip("0").rstrip(".")

    if band.open_top:
        return f">={number(band.low)} {unit}"
    if band.low == band.high:
        return f"{number(band.low)} {unit}"
    return f"{number(band.low)}..{number(band.typical)}..{number(band.high)} {unit}"


@dataclass(frozen=True, slots=True)
class CordEdit:
    """Members of one cord: `size`, `length` with its text, `marked_a`, `laid`, `led_through`, `type`.

    earthed : with an earth conductor, on `plug` where the old one has no earth contact. sound : with good ends.
    """

    cord: str
    text: str
    size: str | None = None
    length_m: float | None = None
    length_text: str | None = None
    marked_a: float | None = None
    laid: str | None = None
    led_through: str | None = None
    type: str | None = None
    earthed: bool = False
    plug: str | None = None
    sound: bool = False

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
                    led_through=self.led_through or cord.led_through,
                    type=self.type or cord.type,
                    conductors=EARTHED_CONDUCTORS if self.earthed else cord.conductors,
                    plug=self.plug or cord.plug,
                    plug_state="good" if self.sound and cord.plug_state is not None else cord.plug_state,
                    outlets=self._outlets(cord.outlets),
                )
            cords.append(cord)
        return replace(site, cords=tuple(cords))

    def _outlets(self, outlets: CordOutlets | None) -> CordOutlets | None:
        if not self.sound or outlets is None or outlets.state is None:
            return outlets
        return replace(outlets, state="good")

    def changes(self, site: Site) -> tuple[Change, ...]:
        cord = next(item for item in site.cords if item.id == self.cord)
        said: dict[str, object] = {}
        if self.size is not None:
            said["size"] = self.size
        if self.length_text is not None:
            said["length"] = self.length_text
        if self.marked_a is not None:
            said["marked"] = f"{self.marked_a:g} A"
        plain = {"laid": self.laid, "led_through": self.led_through, "type": self.type, "plug": self.plug}
        said |= {name: value for name, value in plain.items() if value is not None}
        if self.earthed:
            said["conductors"] = EARTHED_CONDUCTORS
        if self.sound and cord.plug_state is not None:
            said["plug_state"] = "good"
        if self.sound and cord.outlets is not None and cord.outlets.state is not None:
            said["outlets"] = _outlets_written(cord.outlets) | {"state": "good"}
        listed = any(item.pointer.startswith("/cords/") for item in site.cords)
        steps = members_set(cord.pointer, "/cords", listed, self.cord, said)
        if self.laid == "straight" and cord.drum_layers is not None:
            steps = (*steps, Change("remove", f"{cord.pointer}/drum_layers"))
        return steps


def _outlets_written(outlets: CordOutlets) -> dict[str, object]:
    """Whole, since part of them may lie in a catalogue document beside."""
    rating = band_text(outlets.rating_a, "A") if outlets.rating_a is not None else None
    every = {"type": outlets.type, "rating": rating, "count": outlets.count}
    return {name: value for name, value in every.items() if value is not None}


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
class Place:
    """Where the engine stands, and whether fixed wiring is fed."""

    text: str
    place: str | None = None
    fixed_wiring: str | None = None

    def site(self, site: Site) -> Site:
        return replace(site, place=self.place or site.place, fixed_wiring=self.fixed_wiring or site.fixed_wiring)

    def changes(self, site: Site) -> tuple[Change, ...]:
        every = {"place": self.place, "fixed_wiring": self.fixed_wiring}
        said = {name: value for name, value in every.items() if value is not None}
        stated = (site.place, site.wet, site.ambient_c, site.fixed_wiring)
        if all(item is None for item in stated):
            return (Change("add", "/conditions", said),)
        return tuple(Change("add", f"/conditions/{name}", value) for name, value in said.items())


@dataclass(frozen=True, slots=True)
class PlugIn:
    """A plug that hung nowhere goes into a free receptacle."""

    plug: str
    into: str
    text: str

    def site(self, site: Site) -> Site:
        more = Connection(self.plug, self.into, f"/connections/{len(site.connections or ())}")
        return replace(site, connections=(*(site.connections or ()), more))

    def changes(self, site: Site) -> tuple[Change, ...]:
        one = {"plug": self.plug, "into": self.into}
        return (
            Change("add", "/connections", [one]) if site.connections is None else Change("add", "/connections/-", one),
        )


@dataclass(frozen=True, slots=True)
class AnyOrder:
    """Cases that are started as it comes."""

    cases: tuple[str, ...]
    text: str

    def site(self, site: Site) -> Site:
        cases = site.cases or ()
        return replace(
            site, cases=tuple(replace(case, start_order=None) if case.id in self.cases else case for case in cases)
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        ordered = [case for case in site.cases or () if case.id in self.cases and case.start_order is not None]
        return tuple(Change("remove", f"{case.pointer}/start_order") for case in ordered)


@dataclass(frozen=True, slots=True)
class OneCord:
    """A cord that was plugged into another: the other as long as both, and what hung on it plugged in there."""

    outer: str
    inner: str
    text: str
    length_m: float
    length_text: str

    def site(self, site: Site) -> Site:
        cords = tuple(
            replace(cord, length_m=Band.exactly(self.length_m)) if cord.id == self.inner else cord
            for cord in site.cords
        )
        connections = tuple(
            replace(one, into=self.inner) if one.into == self.outer else one
            for one in site.connections or ()
            if one.plug != self.outer
        )
        return replace(site, cords=cords, connections=connections)

    def changes(self, site: Site) -> tuple[Change, ...]:
        edit = CordEdit(self.inner, self.text, length_m=self.length_m, length_text=self.length_text)
        steps = list(edit.changes(site))
        gone: list[Change] = []
        for one in site.connections or ():
            if one.plug == self.outer:
                gone.append(Change("remove", one.pointer))
            elif one.into == self.outer:
                steps.append(Change("replace", f"{one.pointer}/into", self.inner))
        return (*steps, *gone)


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
        return " and ".join((*(e.text for e in self.edits[:1]), *(e.text.removeprefix("if ") for e in self.edits[1:])))

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
