"""How does one point at a member of a part of the site, in the request as it was sent?

Every part carries its RFC 6901 pointer. What a catalogue entry or a kit brought is not in the request: such a part
points at the reference that brought it (`/source/entry`, `/kit/entry`), and so do its members.
"""

from __future__ import annotations

REFERENCE = "/entry"


def member_of(pointer: str, *steps: str | int) -> str:
    """Pointer to a member of the part at `pointer`, or to the reference that brought the part."""
    if pointer.endswith(REFERENCE):
        return pointer
    for step in steps:
        name = str(step)
        # next to no name has either, and a site asks for hundreds of pointers
        if "~" in name or "/" in name:
            name = name.replace("~", "~0").replace("/", "~1")
        pointer = f"{pointer}/{name}"
    return pointer


def is_from_reference(pointer: str) -> bool:
    """Whether the part came from the catalogue and is not in the request as sent."""
    return pointer.endswith(REFERENCE)


def in_document_order(pointer: str) -> tuple[tuple[int, int, str], ...]:
    """Sort key of a pointer: item 10 comes after item 9."""
    return tuple((0, int(step), "") if step.isdecimal() else (1, 0, step) for step in pointer.split("/"))
