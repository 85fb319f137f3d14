"""What does a request become when a change that an answer proposes is made?

Source: RFC 6902 (JSON Patch), the operations add, replace and remove; RFC 6901 (JSON Pointer).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, TypeVar

import msgspec
from msgspec import UNSET, Struct

from ampwright_client._generated.models import Change
from ampwright_client.reading import UnknownMembers, is_list, unread

__all__ = ["with_changes"]

S = TypeVar("S", bound=Struct)


def with_changes(request: S, changes: Iterable[Change]) -> S:
    """A new request with the changes made, in their order; the given one stays as it is.

    Raises ValueError where a change does not fit the request, because it was proposed for another one, and
    UnknownMembers where a newer service proposes what this version does not know.
    """
    document: Any = msgspec.to_builtins(request)
    for change in changes:
        document = _changed(document, change)
    try:
        changed = msgspec.convert(document, type(request))
    except msgspec.ValidationError as error:
        raise ValueError(f"changed, it is no {type(request).__name__}: {error}") from error
    lost = list(unread(document, msgspec.to_builtins(changed)))
    if lost:
        raise UnknownMembers(lost)
    return changed


def _changed(document: Any, change: Change) -> Any:
    steps = [step.replace("~1", "/").replace("~0", "~") for step in change.path.split("/")[1:]]
    try:
        if not change.path.startswith("/"):
            raise ValueError(change.path)
        parent = document
        for step in steps[:-1]:
            parent = parent[int(step) if is_list(parent) else step]
        change_part = _change_list if is_list(parent) else _change_object
        change_part(parent, steps[-1], change)
    except (KeyError, IndexError, TypeError, ValueError) as error:
        raise ValueError(f"{change.op} {change.path} does not fit the request") from error
    return document


def _change_object(parent: dict[str, Any], name: str, change: Change) -> None:
    if change.op != "add":
        del parent[name]  # there must be something to replace or remove
    if change.op != "remove":
        parent[name] = _value(change)


def _change_list(parent: list[Any], place: str, change: Change) -> None:
    at = len(parent) if place == "-" and change.op == "add" else int(place)
    if not 0 <= at <= len(parent):
        raise IndexError(place)
    if change.op != "add":
        del parent[at]
    if change.op != "remove":
        parent.insert(at, _value(change))


def _value(change: Change) -> Any:
    if change.value is UNSET:
        raise ValueError("no value")
    return change.value
