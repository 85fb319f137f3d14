"""How does a result of the engine become an answer on the wire?

Results and answers have the same member names; what a result leaves None is left out of the answer. A test holds every
pair of types against each other, so that a member can be missing on neither side.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

import msgspec

from ampwright.engine.calculations.load_check.load_check_result import Change

S = TypeVar("S", bound=msgspec.Struct)


def to_wire(result: object, wanted: type[S], **stamp: Any) -> S:
    """The struct with the members of a dataclass, and those of `stamp` beside them.

    Raises msgspec.ValidationError where a figure is outside what the contract promises, as NaN or infinity is.
    """
    plain = _plain(result)
    plain.update(stamp)
    return msgspec.convert(plain, wanted)


def parts_to_wire(parts: object) -> dict[str, Any]:
    """The members of a dataclass that are there, as `to_wire` takes them to stamp an answer with."""
    plain: dict[str, Any] = _plain(parts)
    return plain


def _plain(value: Any) -> Any:
    if isinstance(value, Change) and value.value is not None:
        # any JSON value may stand in a change, so the contract carries it as it will be sent
        return {"op": value.op, "path": value.path, "value": msgspec.Raw(msgspec.json.encode(value.value))}
    if is_dataclass(value) and not isinstance(value, type):
        return {
            item.name: _plain(member)
            for item in fields(value)
            if item.metadata.get("told", True) and (member := getattr(value, item.name)) is not None
        }
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value
