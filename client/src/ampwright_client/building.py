"""How is a site written down in code so that it reads like the site?

    saw = tool("saw", supply("120 V", current="15 A", plug="5-15P"), load_class="circular_saw")
    long = cord("long", "100 ft", "14 AWG", marked="13 A")
    request = load_check(
        vehicle("120 V", receptacle("R1", marked="20 A"), receptacle("R2", marked="20 A")),
        plug(saw).through(long).into("R2"),
        people=2,
    )

Quantities are texts with a unit, as they stand on a plate. What is not known is left out. Every function takes the
members of what it makes as keywords; the parts are those of `models` and can be made without any of this.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from msgspec import UNSET, Struct, UnsetType

from ampwright_client._generated.models import (
    AnySource,
    BatteryStation,
    Case,
    CatalogueSource,
    Connection,
    CordInUse,
    EngineGenerator,
    LoadCheckRequest,
    Receptacle,
    SiteSupply,
    SupplyOption,
    ToolInUse,
    Vehicle,
)

if TYPE_CHECKING:
    from typing import Unpack

    from ampwright_client._generated.members import (
        BatteryStationMembers,
        CatalogueSourceMembers,
        CordInUseMembers,
        EngineGeneratorMembers,
        LoadCheckRequestMembers,
        ReceptacleMembers,
        SiteSupplyMembers,
        SupplyOptionMembers,
        ToolInUseMembers,
        VehicleMembers,
    )

S = TypeVar("S", bound=Struct)

__all__ = [
    "Plug",
    "Plugged",
    "battery_station",
    "case",
    "catalogue_source",
    "cord",
    "engine_generator",
    "load_check",
    "plug",
    "receptacle",
    "site_supply",
    "supply",
    "tool",
    "vehicle",
]


def vehicle(voltage: str, *receptacles: Receptacle, **members: Unpack[VehicleMembers]) -> Vehicle:
    """Outlets of a work vehicle. voltage : of the supply, `"120 V"`, `"120/240 V"`."""
    return Vehicle(voltage=voltage, receptacles=_some(receptacles), **members)


def battery_station(voltage: str, *receptacles: Receptacle, **members: Unpack[BatteryStationMembers]) -> BatteryStation:
    """A portable battery with an inverter."""
    return BatteryStation(voltage=voltage, receptacles=_some(receptacles), **members)


def engine_generator(
    voltage: str, *receptacles: Receptacle, **members: Unpack[EngineGeneratorMembers]
) -> EngineGenerator:
    """An engine set. Its `technology` decides what a start does to the voltage."""
    return EngineGenerator(voltage=voltage, receptacles=_some(receptacles), **members)


def site_supply(voltage: str, *receptacles: Receptacle, **members: Unpack[SiteSupplyMembers]) -> SiteSupply:
    """A temporary supply from the network."""
    return SiteSupply(voltage=voltage, receptacles=_some(receptacles), **members)


def catalogue_source(entry: str, **members: Unpack[CatalogueSourceMembers]) -> CatalogueSource:
    """A source of the catalogue; members beside `entry` correct its document for this request."""
    return CatalogueSource(entry=entry, **members)


def receptacle(id: str, **members: Unpack[ReceptacleMembers]) -> Receptacle:
    """One outlet of a source. `marked` : the current on its face; receptacles with the same `circuit` share it."""
    return Receptacle(id=id, **members)


def supply(voltage: str, **members: Unpack[SupplyOptionMembers]) -> SupplyOption:
    """One way to feed a tool, as its plate says."""
    return SupplyOption(voltage=voltage, **members)


def tool(id: str, *supply_options: SupplyOption, **members: Unpack[ToolInUseMembers]) -> ToolInUse:
    """A tool: inline, or `entry=` of the catalogue with corrections beside it."""
    return ToolInUse(id=id, supply_options=_some(supply_options), **members)


def cord(
    id: str, length: str | UnsetType = UNSET, size: str | UnsetType = UNSET, **members: Unpack[CordInUseMembers]
) -> CordInUse:
    """A cord: by length and conductor size (`"14 AWG"`, `"2.5 mm2"`), or `entry=` of the catalogue."""
    return CordInUse(id=id, length=length, size=size, **members)


def case(id: str, *running: ToolInUse | str) -> Case:
    """Tools that run together. A tool of a kit is named by its id."""
    return Case(id=id, running=[_id(one) for one in running])


class Plugged:
    """A tool or cord with all that lies between it and its outlet."""

    def __init__(self, parts: Iterable[ToolInUse | CordInUse], connections: Iterable[Connection]) -> None:
        self.parts = tuple(parts)
        self.connections = tuple(connections)


class Plug:
    """A plug in the hand."""

    def __init__(self, chain: tuple[ToolInUse | CordInUse | str, ...]) -> None:
        self._chain = chain

    def through(self, *cords: CordInUse | str) -> Plug:
        """By way of these cords, from the tool to the source."""
        return Plug((*self._chain, *cords))

    def into(self, outlet: Receptacle | CordInUse | str) -> Plugged:
        """Into a receptacle of the source, or into a cord that is plugged in elsewhere."""
        ids = [*map(_id, self._chain), _id(outlet)]
        between = [outlet] if isinstance(outlet, CordInUse) else []
        parts = [part for part in (*self._chain, *between) if not isinstance(part, str)]
        return Plugged(parts, [Connection(plug=a, into=b) for a, b in pairwise(ids)])


def plug(what: ToolInUse | CordInUse | str) -> Plug:
    """Take the plug of a tool or cord, or of a part of a kit by its id."""
    return Plug((what,))


def load_check(
    source: AnySource, *used: Plugged | ToolInUse, **members: Unpack[LoadCheckRequestMembers]
) -> LoadCheckRequest:
    """A request for a load check.

    used : tools with the way to their outlet, or tools alone: without any connection all stand on one circuit, with no
    cord between. Each tool and cord is listed once, however often it is named.
    Raises ValueError where one id means two things, or one plug is in two outlets.
    """
    parts: dict[str, ToolInUse | CordInUse] = {}
    into: dict[str, Connection] = {}
    for one in used:
        plugged = Plugged([one], []) if isinstance(one, ToolInUse) else one
        for part in plugged.parts:
            if parts.setdefault(part.id, part) != part:
                raise ValueError(f"{part.id!r} is the id of two different parts")
        for connection in plugged.connections:
            other = into.setdefault(connection.plug, connection)
            if other != connection:
                raise ValueError(f"{connection.plug!r} is plugged into {other.into!r} and into {connection.into!r}")
    return LoadCheckRequest(
        source=source,
        tools=_some(part for part in parts.values() if isinstance(part, ToolInUse)),
        cords=_some(part for part in parts.values() if isinstance(part, CordInUse)),
        connections=_some(into.values()),
        **members,
    )


def _id(part: ToolInUse | CordInUse | Receptacle | str) -> str:
    return part if isinstance(part, str) else part.id


def _some(parts: Iterable[S]) -> list[S] | UnsetType:
    """An empty list says that there is none; leaving it out says that it is not known."""
    return list(parts) or UNSET
