"""Which small wire types do documents, requests and answers share?"""

from __future__ import annotations

from typing import Annotated, Any

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

MOST_ITEMS = 500  # length of any list in a request
Omitted = UnsetType  # an omitted member is unknown; there is no null

Identifier = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=64,
        pattern=r"^[A-Za-z0-9](?:[A-Za-z0-9_.\-]{0,62}[A-Za-z0-9])?$(?!\n)",
        description="A name within its list: letters, digits, `-`, `_`, `.`.",
        examples=["compressor"],
    ),
]
Slug = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=80,
        pattern=r"^[a-z0-9](?:[a-z0-9.\-]{0,78}[a-z0-9])?$(?!\n)",
        description="Key of a catalogue entry: lower-case letters, digits, `-`, `.`.",
        examples=["circular-saw-185mm"],
    ),
]
Revision = Annotated[int, Meta(ge=1, le=1_000_000, description="Revision of a catalogue entry, from 1.", examples=[1])]
ReleaseNumber = Annotated[
    int, Meta(ge=1, le=1_000_000, description="Number of a catalogue release, from 1.", examples=[1])
]
# No control characters: one database refuses NUL where the other keeps it, and a name ends up on a printed sheet.
Words = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=200,
        pattern=r"^[^\u0000-\u001f\u007f-\u009f]*$(?!\n)",
        description="Plain text in one line.",
        examples=["checked on site"],
    ),
]
Pointer = Annotated[
    str,
    Meta(
        max_length=300,
        pattern=r"^(?:/(?:[^/~\u0000-\u001f]|~0|~1)*)*$(?!\n)",
        description="JSON Pointer (RFC 6901).",
        examples=["/tools/0/plug"],
    ),
]
Count = Annotated[int, Meta(ge=1, le=100, description="How many.", examples=[2])]


class Request(Struct, kw_only=True, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    """What a caller sends: unknown members are refused, because a misspelt member would be an unknown figure."""


class Answer(Struct, kw_only=True, frozen=True):
    """What the service says: clients allow members that they do not know. A list is there also when it is empty."""


def text_list(names: tuple[str, ...], says: str, example: str | None = None) -> Any:
    """Metadata of a string whose values come from a list that requests may use and the content pass checks."""
    return Meta(
        max_length=64,
        description=says,
        examples=[example or names[0]],
        extra_json_schema={"enum": list(names)},
    )


__all__ = ["UNSET", "Answer", "Identifier", "Meta", "Omitted", "Request", "Struct", "msgspec"]
