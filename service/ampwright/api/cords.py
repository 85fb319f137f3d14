"""/v1/cords: Flexible cords with their ends and marks, in revisions that never change."""

from ampwright.api.catalogue_entries import entry_operations
from ampwright.contract.catalogue import CordRevision, NewCord, NewCordRevision

operations = entry_operations(
    tag="Cords",
    says="Flexible cords with their ends and marks, in revisions that never change.",
    path="/v1/cords",
    kind="cord",
    stem="cord",
    new=NewCord,
    new_revision=NewCordRevision,
    answer=CordRevision,
)
