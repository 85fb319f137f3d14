"""/v1/power-sources: Vehicles, stations, generators and site supplies, in revisions that never change."""

from ampwright.api.catalogue_entries import entry_operations
from ampwright.contract.catalogue import NewPowerSource, NewPowerSourceRevision, PowerSourceRevision

operations = entry_operations(
    tag="Power sources",
    says="Vehicles, stations, generators and site supplies, in revisions that never change.",
    path="/v1/power-sources",
    kind="power-source",
    stem="power_source",
    new=NewPowerSource,
    new_revision=NewPowerSourceRevision,
    answer=PowerSourceRevision,
)
