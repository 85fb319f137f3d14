"""/v1/tool-profiles: What is known of kinds of tools, in revisions that never change."""

from ampwright.api.catalogue_entries import entry_operations
from ampwright.contract.catalogue import NewToolProfile, NewToolProfileRevision, ToolProfileRevision

operations = entry_operations(
    tag="Tool profiles",
    says="What is known of kinds of tools, in revisions that never change.",
    path="/v1/tool-profiles",
    kind="tool-profile",
    stem="tool_profile",
    new=NewToolProfile,
    new_revision=NewToolProfileRevision,
    answer=ToolProfileRevision,
)
