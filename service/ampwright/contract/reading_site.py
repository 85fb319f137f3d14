"""What does the engine make of a whole request? One site in SI, and every text that could not be read.

The request has no references left: studies/references.py has put the catalogue's documents in their place.
Contradictions between parts are another question (engine/site/validation.py).
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import UNSET, UnsetType

from ampwright.contract.documents import KitAdapter
from ampwright.contract.load_checks import CODE_BASES, Conditions, LoadCheckRequest
from ampwright.contract.places import AS_SENT, Places
from ampwright.contract.power_source_members import CatalogueSource
from ampwright.contract.quantities import LENGTH, TEMPERATURE
from ampwright.contract.reading import Reading, given
from ampwright.contract.reading_cord import read_cord
from ampwright.contract.reading_source import read_source
from ampwright.contract.reading_tool import read_tool
from ampwright.engine.site.band import Band
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.use import Adapter, Case, Connection, Fault, Site


def read_site(
    request: LoadCheckRequest,
    places: Places = AS_SENT,
    adapters: Sequence[tuple[KitAdapter, str]] = (),
) -> tuple[Site, tuple[Fault, ...]]:
    """The site of a resolved request, and what could not be read of it, with pointers into the request as sent.

    places : where the parts of the resolved request came from. adapters : those of the kit, with their pointers.
    With faults the site is only good for finding more faults. Raises TypeError for a request that still refers to a
    catalogue source.
    """
    if isinstance(request.source, CatalogueSource):
        raise TypeError("references must be resolved before a request is read")
    reading = Reading(places)
    conditions = Conditions() if request.conditions is UNSET else request.conditions
    site = Site(
        source=read_source(request.source, reading),
        tools=tuple(
            read_tool(tool, reading, f"/tools/{place}")
            for place, tool in enumerate(() if request.tools is UNSET else request.tools)
        ),
        cords=tuple(
            read_cord(cord, reading, f"/cords/{place}")
            for place, cord in enumerate(() if request.cords is UNSET else request.cords)
        ),
        adapters=tuple(read_adapter(adapter, reading, pointer) for adapter, pointer in adapters),
        connections=None
        if request.connections is UNSET
        else tuple(
            Connection(one.plug, one.into, reading.place(f"/connections/{place}"), given(one.leg))
            for place, one in enumerate(request.connections)
        ),
        cases=None
        if request.cases is UNSET
        else tuple(
            Case(
                one.id,
                tuple(one.running),
                reading.place(f"/cases/{place}"),
                None if one.start_order is UNSET else tuple(one.start_order),
            )
            for place, one in enumerate(request.cases)
        ),
        people=given(request.people),
        place=given(conditions.place),
        wet=given(conditions.wet),
        ambient_c=_ambient(conditions, reading),
        altitude_m=reading.band(conditions.altitude, LENGTH, "/conditions/altitude", above_zero=False),
        fixed_wiring=given(conditions.fixed_wiring),
        code_basis=_code_basis(request.code_basis, reading),
    )
    return site, reading.faults


def read_adapter(adapter: KitAdapter, reading: Reading, at: str) -> Adapter:
    """An adapter of a kit; an unreadable end is left as it was written, and noted."""
    plug = reading.plug(adapter.plug, f"{at}/plug")
    receptacle = reading.receptacle(adapter.receptacle, f"{at}/receptacle")
    return Adapter(
        id=adapter.id,
        pointer=reading.place(at),
        plug=plug or adapter.plug,
        receptacle=receptacle or adapter.receptacle,
        count=1 if adapter.count is UNSET else adapter.count,
    )


def _ambient(conditions: Conditions, reading: Reading) -> Band | None:
    return reading.band(conditions.ambient, TEMPERATURE, "/conditions/ambient", above_zero=False)


def _code_basis(bases: list[str] | UnsetType, reading: Reading) -> tuple[str, ...] | None:
    if bases is UNSET:
        return None
    found: list[str] = []
    for place, text in enumerate(bases):
        at = f"/code_basis/{place}"
        name = reading.listed(text, CODE_BASES, at, "unknown_code_basis", "rule layer")
        if name is not None and name in found:
            reading.fault(at, "repeated_member", f"{shown(name)} is listed twice.")
        elif name is not None:
            found.append(name)
    return tuple(found)
