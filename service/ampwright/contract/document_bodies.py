"""Which struct is a stored body, by its kind and format?

A stored body names the format it was written in, so that a later reading of the structs cannot change what it meant.
"""

from __future__ import annotations

import msgspec

from ampwright.contract.documents import DOCUMENT_TYPES, FORMAT


class UnknownFormat(ValueError):
    """A body of a kind or format that this version does not know."""


def decode_document(kind: str, body_format: int, body: bytes) -> msgspec.Struct:
    """The document in a body. Raises UnknownFormat, and msgspec.ValidationError for bytes that are no such document."""
    wanted = DOCUMENT_TYPES.get(kind)
    if wanted is None or body_format != FORMAT:
        raise UnknownFormat(f"{kind} in format {body_format}")
    document: msgspec.Struct = msgspec.json.decode(body, type=wanted)
    return document
