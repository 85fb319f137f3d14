"""/v1/kits: What a crew takes: tools, cords and adapters, in revisions that never change."""

from ampwright.api.catalogue_entries import entry_operations
from ampwright.contract.catalogue import KitRevision, NewKit, NewKitRevision

operations = entry_operations(
    tag="Kits",
    says="What a crew takes: tools, cords and adapters, in revisions that never change.",
    path="/v1/kits",
    kind="kit",
    stem="kit",
    new=NewKit,
    new_revision=NewKitRevision,
    answer=KitRevision,
)
