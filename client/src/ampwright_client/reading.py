"""Does a text hold more than was read from it?

The client passes over members that it does not know, so that it can read a newer service. Where that would lose
something (a misspelt member of a request that was written by hand, a document that is read, changed and written back)
it must be seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeVar

import msgspec
from msgspec import Struct

__all__ = ["UnknownMembers", "read_request", "unknown_members"]

S = TypeVar("S", bound=Struct)


class UnknownMembers(ValueError):
    """A text has members that this version of the client does not know. `pointers` : where (RFC 6901)."""

    def __init__(self, pointers: list[str]) -> None:
        super().__init__(f"not known: {', '.join(pointers)}")
        self.pointers = pointers


def read_request(kind: type[S], text: bytes | str) -> S:
    """A request from JSON, such as a file.

    Raises UnknownMembers, and msgspec.ValidationError or DecodeError for what is no such request.
    """
    request = msgspec.json.decode(text, type=kind)
    unknown = unknown_members(text, request)
    if unknown:
        raise UnknownMembers(unknown)
    return request


def unknown_members(text: bytes | str, read: Struct) -> list[str]:
    """Pointers to the members of `text` that were not read into `read`; for an answer, `text` is its `reply.body`."""
    return list(unread(msgspec.json.decode(text), msgspec.to_builtins(read)))


def unread(there: object, known: object, at: str = "") -> Iterator[str]:
    """Pointers to what one tree of builtins has and the other has not."""
    if type(there) is not type(known) or not isinstance(there, (dict, list)):
        return
    members = _members(known)
    for name, value in _members(there).items():
        here = f"{at}/{name.replace('~', '~0').replace('/', '~1')}"
        if name in members:
            yield from unread(value, members[name], here)
        else:
            yield here


def _members(value: Any) -> dict[str, object]:
    """Members of an object by name, of a list by place."""
    return {str(place): item for place, item in enumerate(value)} if is_list(value) else value


def is_list(value: object) -> bool:
    """Told apart, not narrowed: what is in the list is not known yet."""
    return isinstance(value, list)
