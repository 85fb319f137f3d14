"""What are the bytes of a document or request, whoever wrote it and in whatever order?

Canonical form: the typed value, omitted members left out, strings in NFC (UAX 15), members sorted, no white space.
Stored bodies are made once in this form and never made again: a later version of the structs would make other bytes.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterator
from typing import Any

import msgspec

_ENCODER = msgspec.json.Encoder(order="sorted")
# Controls, surrogates, unassigned characters, line and paragraph separators, and overrides of the writing direction
# make a sheet say something else than was stored, and one database refuses some of them.
_REFUSED = frozenset({"Cc", "Cs", "Cn", "Zl", "Zp"})
_BIDIRECTIONAL = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class UnsoundText(ValueError):
    """A text that must not be stored. `pointer` says where, `character` which (`U+0000`)."""

    def __init__(self, pointer: str, character: str) -> None:
        super().__init__(f"{pointer}: holds {character}, which is refused")
        self.pointer = pointer
        self.character = character


def canonical_bytes(value: msgspec.Struct) -> bytes:
    """The canonical form of a struct. Raises UnsoundText for a control character."""
    return _ENCODER.encode(_sound(msgspec.to_builtins(value), ""))


def request_digest(request: msgspec.Struct) -> str:
    """`sha256:` and 64 hexadecimal digits over the canonical form of the request as it was sent.

    No text is refused here, because a request that is refused has no answer to carry the digest.
    """
    body = _ENCODER.encode(request)
    if not body.isascii():
        body = _ENCODER.encode(_sound(msgspec.to_builtins(request), "", refuse=False))
    return "sha256:" + hashlib.sha256(body).hexdigest()


def unsound_texts(value: msgspec.Struct) -> tuple[tuple[str, str], ...]:
    """(pointer, character as `U+0000`) of every text in a struct that holds one which must be neither stored nor told.

    A name goes into an answer, onto a card and a printed sheet, where an override of the writing direction makes it
    say something else.
    """
    body = _ENCODER.encode(value)
    if body.isascii() and b"\\" not in body:
        return ()
    return tuple(_unsound(msgspec.to_builtins(value), ""))


def _unsound(value: Any, pointer: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        if character := unsound_character(value):
            yield pointer, character
    elif isinstance(value, dict):
        for name, item in value.items():
            yield from _unsound(item, f"{pointer}/{name}")
    elif isinstance(value, list):
        for place, item in enumerate(value):
            yield from _unsound(item, f"{pointer}/{place}")


def unsound_character(text: str) -> str:
    """The first character of `text` that must not be stored, as `U+0000`; empty where all are sound."""
    if text.isascii() and text.isprintable():
        return ""
    for character in text:
        if unicodedata.category(character) in _REFUSED or character in _BIDIRECTIONAL:
            return f"U+{ord(character):04X}"
    return ""


def _sound(value: Any, pointer: str, *, refuse: bool = True) -> Any:
    if isinstance(value, str):
        if refuse and (character := unsound_character(value)):
            raise UnsoundText(pointer, character)
        return unicodedata.normalize("NFC", value)
    if isinstance(value, dict):
        return {name: _sound(item, f"{pointer}/{name}", refuse=refuse) for name, item in value.items()}
    if isinstance(value, list):
        return [_sound(item, f"{pointer}/{place}", refuse=refuse) for place, item in enumerate(value)]
    return value
