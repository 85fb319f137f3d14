"""What does the catalogue store: which document of which kind, in which format?

The members of each kind are in power_source_members.py, tool_members.py and cord_members.py, since a request may carry
them inline too, or name an entry and correct some of them.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.cord_members import (
    CordMembers,
)
from ampwright.contract.document_parts import (
    ConfigurationText,
    DateText,
    Origin,
    ProvenanceList,
)
from ampwright.contract.parts import (
    MOST_ITEMS,
    Count,
    Identifier,
    Request,
    Revision,
    Slug,
    Words,
)
from ampwright.contract.power_source_members import (
    BatteryStation,
    EngineGenerator,
    SiteSupply,
    SourceCorrections,
    Vehicle,
)
from ampwright.contract.quantities import (
    CurrentText,
    DurationText,
    PowerText,
    VoltageText,
)
from ampwright.contract.tool_members import (
    ToolMembers,
)


class ToolProfile(ToolMembers, frozen=True, kw_only=True):
    """A stored tool profile."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class CordDocument(CordMembers, frozen=True, kw_only=True):
    """A stored cord."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class VehicleDocument(Vehicle, frozen=True, kw_only=True, tag="vehicle", tag_field="kind"):
    """A stored vehicle."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class BatteryStationDocument(BatteryStation, frozen=True, kw_only=True, tag="battery_station", tag_field="kind"):
    """A stored battery station."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class EngineGeneratorDocument(EngineGenerator, frozen=True, kw_only=True, tag="engine_generator", tag_field="kind"):
    """A stored engine generator."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


class SiteSupplyDocument(SiteSupply, frozen=True, kw_only=True, tag="site_supply", tag_field="kind"):
    """A stored site supply."""

    name: Words
    origin: Origin
    provenance: ProvenanceList | UnsetType = UNSET


PowerSourceDocument = VehicleDocument | EngineGeneratorDocument | BatteryStationDocument | SiteSupplyDocument


class KitItem(Request, frozen=True, kw_only=True):
    """One line of a kit: so many of this entry, under this id."""

    id: Identifier
    entry: Slug
    revision: Revision | UnsetType = UNSET
    count: Count | UnsetType = UNSET


class KitAdapter(Request, frozen=True, kw_only=True):
    """An adapter in the kit. It is counted, never advised."""

    id: Identifier
    plug: ConfigurationText
    receptacle: ConfigurationText
    count: Count | UnsetType = UNSET


class KitDocument(Request, frozen=True, kw_only=True):
    """The tools, cords and adapters that a crew takes."""

    name: Words
    origin: Origin
    tools: Annotated[list[KitItem], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    cords: Annotated[list[KitItem], Meta(max_length=MOST_ITEMS)] | UnsetType = UNSET
    adapters: Annotated[list[KitAdapter], Meta(max_length=100)] | UnsetType = UNSET
    provenance: ProvenanceList | UnsetType = UNSET


class Observation(Request, frozen=True, kw_only=True):
    """What somebody saw a source unit do. Stored and shown beside answers; no figure is ever raised by it."""

    on_date: DateText
    what: Annotated[
        Literal["held", "tripped", "shut_down", "sagged", "stalled_tool", "reset_by_itself", "inspected", "other"],
        Meta(description="What the unit did."),
    ]
    receptacle: Identifier | UnsetType = UNSET
    current: CurrentText | UnsetType = UNSET
    power: PowerText | UnsetType = UNSET
    voltage: VoltageText | UnsetType = UNSET
    lasted: DurationText | UnsetType = UNSET
    instrument: Words | UnsetType = UNSET
    note: Words | UnsetType = UNSET
    by: Words | UnsetType = UNSET


class SourceUnit(Request, frozen=True, kw_only=True):
    """One vehicle, generator, station or supply of the fleet; its key is its fleet id.

    `entry` (with `revision`, else the release decides) is the kind of source that it is; `corrections` say where this
    one differs, as on a plate of its own or after a repair.
    """

    name: Words
    origin: Origin
    entry: Slug
    revision: Revision | UnsetType = UNSET
    corrections: SourceCorrections | UnsetType = UNSET
    observations: Annotated[list[Observation], Meta(max_length=200)] | UnsetType = UNSET
    provenance: ProvenanceList | UnsetType = UNSET


FORMAT = 1  # number of the stored format; a stored body names the format it was written in
DOCUMENT_TYPES = {
    "tool-profile": ToolProfile,
    "power-source": PowerSourceDocument,
    "cord": CordDocument,
    "kit": KitDocument,
    "source-unit": SourceUnit,
}
