"""What does a request become when some of its members are changed?

The operations add, replace and remove of RFC 6902 on plain dicts and lists; only what lies on the way to a change is
copied, so ten thousand variants of one request share the rest.
Source: RFC 6902 (JSON Patch), RFC 6901 (JSON Pointer).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from msgspec import UNSET

_INDEX = re.compile(r"(?:0|[1-9][0-9]{0,8})\Z", re.ASCII)


class UnfitChange(ValueError):
    """A step does not fit the request. `step` is its place, `message` says why."""

    def __init__(self, step: int, message: str) -> None:
        super().__init__(message)
        self.step = step
        self.message = message


def patched(document: Any, steps: Iterable[tuple[str, str, Any]]) -> Any:
    """The document with every step (op, path, value) made in order; the given one stays as it is.

    value : UNSET where there is none. Errors: UnfitChange.
    """
    for place, (op, path, value) in enumerate(steps):
        names = [name.replace("~1", "/").replace("~0", "~") for name in path.split("/")[1:]]
        if not names:
            raise UnfitChange(place, "A path names a member, so it begins with `/`.")
        if op != "remove" and (value is UNSET or value is None):
            raise UnfitChange(place, f"`{op}` needs a value; `null` is none.")
        document = _made(document, names, op, value, place)
    return document


def _made(parent: Any, names: list[str], op: str, value: Any, place: int) -> Any:
    name, rest = names[0], names[1:]
    if isinstance(parent, dict):
        if rest or op != "add":
            _there(name in parent, name, place)
        changed = dict(parent)
        if rest:
            changed[name] = _made(parent[name], rest, op, value, place)
        elif op == "remove":
            del changed[name]
        else:
            changed[name] = value
        return changed
    if isinstance(parent, list):
        if name == "-" and op == "add" and not rest:
            return [*parent, value]
        _there(_INDEX.match(name) is not None, name, place)
        at = int(name)
        _there(at < len(parent) or (at == len(parent) and op == "add" and not rest), name, place)
        if rest:
            return [*parent[:at], _made(parent[at], rest, op, value, place), *parent[at + 1 :]]
        if op == "add":
            return [*parent[:at], value, *parent[at:]]
        return [*parent[:at], *([] if op == "remove" else [value]), *parent[at + 1 :]]
    raise UnfitChange(place, f"{name[:48]!r} is looked for in what has no members.")


def _there(found: bool, name: str, place: int) -> None:
    if not found:
        raise UnfitChange(place, f"There is no {name[:48]!r} there; only `add` makes one, in an object that is there.")
