"""/v1/source-units: Vehicles, generators, stations and supplies of the fleet, one by one."""

from ampwright.api.catalogue_entries import entry_operations
from ampwright.contract.catalogue import NewSourceUnit, NewSourceUnitRevision, SourceUnitRevision

operations = entry_operations(
    tag="Source units",
    says=(
        "Vehicles, generators, stations and supplies of the fleet, one by one: of which kind each is, where it "
        "differs, and what was seen of it."
    ),
    path="/v1/source-units",
    kind="source-unit",
    stem="source_unit",
    new=NewSourceUnit,
    new_revision=NewSourceUnitRevision,
    answer=SourceUnitRevision,
)
