"""What would a look at the source show, or another source give, and how is that written to be posted again?

Most of these are answers to a question (`if R1 turns out to ...`); nothing makes a device larger or a label higher.
Not here: edits of cords, cases and places (site_edits.py), of tools (tool_edits.py).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ampwright.engine.calculations.load_check.load_check_result import Change
from ampwright.engine.calculations.reverse.site_edits import band_text, members_set
from ampwright.engine.site.band import Band
from ampwright.engine.site.pointers import is_from_reference
from ampwright.engine.site.source import Capacity, CapacityLimit, Reset, Tier
from ampwright.engine.site.use import Site


@dataclass(frozen=True, slots=True)
class ReceptacleEdit:
    """What a look at one receptacle may show: its circuit, what it is marked, its ground-fault protection."""

    receptacle: str
    text: str
    circuit: str | None = None
    marked_a: float | None = None
    ground_fault: str | None = None

    def site(self, site: Site) -> Site:
        found = []
        for item in site.source.receptacles or ():
            if item.id == self.receptacle:
                item = replace(
                    item,
                    circuit=self.circuit or item.circuit,
                    marked_a=Band.exactly(self.marked_a) if self.marked_a is not None else item.marked_a,
                    ground_fault=self.ground_fault or item.ground_fault,
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
        if self.ground_fault is not None:
            said["ground_fault"] = self.ground_fault
        return members_set(item.pointer, "/source/receptacles", bool(listed), self.receptacle, said)


@dataclass(frozen=True, slots=True)
class Overload:
    """An overload that a limit allows: [A], [VA] or [W] by `unit`, for [s]."""

    amount: float
    unit: str
    lasts_s: float

    @property
    def tier(self) -> Tier:
        return Tier(Capacity(Band.exactly(self.amount), self.unit), Band.exactly(self.lasts_s))


OUTPUT = "output"


@dataclass(frozen=True, slots=True)
class LimitStated:
    """What a limit of the source allows: of the one named, or of the whole output where the request has no limit.

    continuous : amount and unit (A, VA, W). if_new : the same, for an output that no earlier edit has stated. more :
    one overload beside those stated. A limit that is not there is left alone.
    """

    text: str
    limit: str | None = None
    continuous: tuple[float, str] | None = None
    if_new: tuple[float, str] | None = None
    overloads: tuple[Overload, ...] | None = None
    more: Overload | None = None
    response: str | None = None
    peak_a: float | None = None

    def _found(self, site: Site) -> CapacityLimit | None:
        wanted = self.limit if self.limit is not None else OUTPUT
        return next((item for item in site.source.limits or () if item.id == wanted), None)

    def site(self, site: Site) -> Site:
        found = self._found(site)
        if found is not None:
            limits = tuple(self._stated(one, None) if one is found else one for one in site.source.limits or ())
        elif self.limit is None:
            limits = (self._stated(CapacityLimit(OUTPUT, "/source/limits/0"), self.if_new),)
        else:
            return site
        return replace(site, source=replace(site.source, limits=limits))

    def _stated(self, limit: CapacityLimit, if_new: tuple[float, str] | None) -> CapacityLimit:
        tiers = limit.tiers
        if self.overloads is not None:
            tiers = tuple(one.tier for one in self.overloads)
        if self.more is not None:
            tiers = (*(tiers or ()), self.more.tier)
        amount = self.continuous or if_new
        return replace(
            limit,
            continuous=Capacity(Band.exactly(amount[0]), amount[1]) if amount is not None else limit.continuous,
            tiers=tiers,
            response=self.response or limit.response,
            peak_a=Band.exactly(self.peak_a) if self.peak_a is not None else limit.peak_a,
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        found = self._found(site)
        if found is None and self.limit is not None:
            return ()
        amount = self.continuous or (self.if_new if found is None else None)
        said: dict[str, object] = {}
        if amount is not None:
            said["continuous"] = f"{amount[0]:g} {amount[1]}"
        if self.overloads is not None or self.more is not None:
            # a list without ids is written whole: part of it may lie in a catalogue document
            tiers = self._stated(found or CapacityLimit(OUTPUT, ""), None).tiers or ()
            said["tiers"] = [
                {"amount": band_text(tier.amount.band, tier.amount.unit), "lasts": band_text(tier.lasts_s, "s")}
                for tier in tiers
            ]
        if self.response is not None:
            said["response"] = self.response
        if self.peak_a is not None:
            said["peak"] = f"{self.peak_a:g} A"
        if found is None:
            return (Change("add", "/source/limits", [{"id": OUTPUT, **said}]),)
        listed = any(not is_from_reference(item.pointer) for item in site.source.limits or ())
        return members_set(found.pointer, "/source/limits", listed, found.id, said)


@dataclass(frozen=True, slots=True)
class SourceStated:
    """Plain members of the source: how it comes back, its technology, wave and neutral, below which load it sleeps."""

    text: str
    reset: str | None = None
    technology: str | None = None
    waveform: str | None = None
    neutral_bond: str | None = None
    sleeps_below_w: float | None = None

    def site(self, site: Site) -> Site:
        source = site.source
        sleeps = Band.exactly(self.sleeps_below_w) if self.sleeps_below_w is not None else source.sleeps_below_w
        return replace(
            site,
            source=replace(
                source,
                reset=Reset(self.reset) if self.reset is not None else source.reset,
                technology=self.technology or source.technology,
                waveform=self.waveform or source.waveform,
                neutral_bond=self.neutral_bond or source.neutral_bond,
                sleeps_below_w=sleeps,
            ),
        )

    def changes(self, _: Site, /) -> tuple[Change, ...]:
        every = {
            "reset": {"how": self.reset} if self.reset is not None else None,
            "technology": self.technology,
            "waveform": self.waveform,
            "neutral_bond": self.neutral_bond,
            "sleeps_below": f"{self.sleeps_below_w:g} W" if self.sleeps_below_w is not None else None,
        }
        # beside a reference they correct what it brings, member by member
        return tuple(Change("add", f"/source/{name}", value) for name, value in every.items() if value is not None)


@dataclass(frozen=True, slots=True)
class ResetStated:
    """How one limit, or the device of one circuit, comes back; exactly one of `limit` and `circuit`, by its id.

    A circuit that a reference brought has no item of its own to correct: none is offered for it.
    """

    text: str
    how: str
    limit: str | None = None
    circuit: str | None = None

    def site(self, site: Site) -> Site:
        source = site.source
        limits = tuple(
            replace(one, reset=Reset(self.how)) if one.id == self.limit else one for one in source.limits or ()
        )
        circuits = tuple(
            replace(one, device=replace(one.device, reset=Reset(self.how)))
            if one.id == self.circuit and one.device is not None
            else one
            for one in source.circuits or ()
        )
        return replace(
            site,
            source=replace(
                source,
                limits=limits if source.limits is not None else None,
                circuits=circuits if source.circuits is not None else None,
            ),
        )

    def changes(self, site: Site) -> tuple[Change, ...]:
        said = {"how": self.how}
        if self.circuit is not None:
            circuit = next(one for one in site.source.circuits or () if one.id == self.circuit)
            return (Change("add", f"{circuit.pointer}/device/reset", said),)
        listed = any(not is_from_reference(item.pointer) for item in site.source.limits or ())
        limit = next(one for one in site.source.limits or () if one.id == self.limit)
        return members_set(limit.pointer, "/source/limits", listed, limit.id, {"reset": said})


@dataclass(frozen=True, slots=True)
class DeviceStated:
    """What the electronic limit of a circuit does: its overloads, and what comes after them. circuit : its id."""

    text: str
    circuit: str
    overloads: tuple[Overload, ...] | None = None
    response: str | None = None

    def site(self, site: Site) -> Site:
        circuits = []
        for one in site.source.circuits or ():
            if one.id == self.circuit and one.device is not None:
                device = one.device
                if self.overloads is not None:
                    device = replace(device, tiers=tuple(item.tier for item in self.overloads))
                one = replace(one, device=replace(device, response=self.response or device.response))
            circuits.append(one)
        return replace(site, source=replace(site.source, circuits=tuple(circuits)))

    def changes(self, site: Site) -> tuple[Change, ...]:
        at = next(one for one in site.source.circuits or () if one.id == self.circuit).pointer
        said: dict[str, object] = {}
        if self.overloads is not None:
            said["tiers"] = [
                {"amount": f"{item.amount:g} {item.unit}", "lasts": f"{item.lasts_s:g} s"} for item in self.overloads
            ]
        if self.response is not None:
            said["response"] = self.response
        return tuple(Change("add", f"{at}/device/{name}", value) for name, value in said.items())
