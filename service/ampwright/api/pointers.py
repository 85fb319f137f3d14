"""Which member of the body does a decoder's complaint mean, and what was probably meant?

msgspec names a place as ``$.tools[1].switch``; RFC 6901 writes ``/tools/1/switch``. Of an unknown or a missing member
msgspec names the parent only, so the member's own name is added here. Not here: faults across members (studies).
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from typing import Any

import msgspec
from msgspec import UNSET, UnsetType, inspect

from ampwright.api.problems import ProblemFault

_PLACE = re.compile(r" - at `(?P<place>\$[^`]*)`\Z")
_STEP = re.compile(r"\.([^.\[\]]+)|\[(\d+)\]")
_UNKNOWN = re.compile(r"\AObject contains unknown field `(?P<name>.*)`\Z", re.DOTALL)
_MISSING = re.compile(r"\AObject missing required field `(?P<name>[^`]*)`\Z")
_NOT_LISTED = re.compile(r"\AInvalid (?:enum )?value (?P<value>.*)\Z", re.DOTALL)
LONGEST_MESSAGE = 300


def escape(step: str) -> str:
    """One reference token of a JSON Pointer."""
    return step.replace("~", "~0").replace("/", "~1")


def fault_of(error: msgspec.ValidationError, wanted: Any, value: Any = UNSET) -> ProblemFault:
    """The fault that a ValidationError tells of.

    wanted : the type that was decoded; value : the same JSON without a type, to find which member of a union was meant.
    """
    text = str(error)
    place = _PLACE.search(text)
    steps: list[str] = []
    if place:
        text = text[: place.start()]
        steps = [name or index for name, index in _STEP.findall(place["place"])]
    code, message, hint = "wrong_type", text, None
    if found := _UNKNOWN.match(text):
        name = found["name"]
        known = sorted(_member_names(wanted, steps, value))
        steps.append(name)
        hint = _nearest(name, known)
        code, message = "unknown_member", f"There is no member {_short(name)!r} here." + _one_of("Members", known)
    elif found := _MISSING.match(text):
        steps.append(found["name"])
        code, message = "missing_member", f"The member {found['name']!r} is required."
    elif found := _NOT_LISTED.match(text):
        listed = sorted(_listed_values(wanted, steps, value))
        hint = _nearest(found["value"].strip("'"), listed)
        code, message = (
            "not_listed",
            f"{_short(found['value'])} is not one of the accepted values." + _one_of("Accepted", listed),
        )
    elif " matching regex " in text:
        code, message = "wrong_form", "The text does not have the right form." + _help_at(wanted, steps, value)
    elif re.search(r" (of length )?[<>]=? ?[-\d]|out of range|multiple of|length", text):
        code = "out_of_range"
    pointer = "".join("/" + escape(step) for step in steps)
    return ProblemFault(
        code=code, message=_short(message, LONGEST_MESSAGE), pointer=pointer, did_you_mean=hint or UNSET
    )


def _short(text: str, longest: int = 80) -> str:
    return text if len(text) <= longest else text[: longest - 3] + "..."


def _one_of(label: str, words: list[str]) -> str:
    return f" {label}: {', '.join(words)}." if words else ""


def _nearest(word: str, known: list[str]) -> str | None:
    # Longer words than any of ours cannot be meant; difflib would spend seconds on a megabyte.
    return next(iter(difflib.get_close_matches(word, known, n=1)), None) if len(word) <= 100 else None


def _member_names(wanted: Any, steps: list[str], value: Any) -> set[str]:
    names: set[str] = set()
    for kind in _types_at(wanted, steps, value):
        if isinstance(kind, inspect.StructType):
            names |= {field.encode_name for field in kind.fields}
            if kind.tag_field:
                names.add(kind.tag_field)
    return names


def _listed_values(wanted: Any, steps: list[str], value: Any) -> set[str]:
    values: set[str] = set()
    for kind in _types_at(wanted, steps, value):
        if isinstance(kind, inspect.EnumType):
            values |= {str(member.value) for member in kind.cls}
        elif isinstance(kind, inspect.LiteralType):
            values |= {str(value) for value in kind.values}
    if not values and steps:  # the tag of a union is no field of its structs
        for kind in _types_at(wanted, steps[:-1], UNSET):
            if isinstance(kind, inspect.StructType) and kind.tag_field == steps[-1]:
                values.add(str(kind.tag))
    return values


def _alternatives(kind: inspect.Type) -> Iterator[inspect.Type]:
    if isinstance(kind, inspect.Metadata):
        yield from _alternatives(kind.type)
    elif isinstance(kind, inspect.UnionType):
        for one in kind.types:
            yield from _alternatives(one)
    else:
        yield kind


def _help_at(wanted: Any, steps: list[str], value: Any) -> str:
    """What the schema says of a member: a pattern alone helps no person."""
    if not steps:
        return ""
    for parent in _types_at(wanted, steps[:-1], value):
        members: list[inspect.Type] = []
        if isinstance(parent, inspect.StructType):
            members = [field.type for field in parent.fields if field.encode_name == steps[-1]]
        elif isinstance(parent, inspect.ListType):
            members = [parent.item_type]
        for member in members:
            for shown in _shown(member):
                examples = ", ".join(str(one) for one in shown.get("examples", ()))
                return f" {shown.get('description', '')}".rstrip() + (f" For example: {examples}" if examples else "")
    return ""


def _shown(kind: inspect.Type) -> Iterator[dict[str, Any]]:
    if isinstance(kind, inspect.Metadata):
        if kind.extra_json_schema:
            yield kind.extra_json_schema
        yield from _shown(kind.type)
    elif isinstance(kind, inspect.UnionType):
        for one in kind.types:
            yield from _shown(one)


def _types_at(wanted: Any, steps: list[str], value: Any) -> list[inspect.Type]:
    """Types that may stand at a place; a union is narrowed by the tag that stands there."""
    here = _narrow(list(_alternatives(inspect.type_info(wanted))), value)
    for step in steps:
        there: list[inspect.Type] = []
        for kind in here:
            if isinstance(kind, inspect.StructType):
                there += [
                    one for field in kind.fields if field.encode_name == step for one in _alternatives(field.type)
                ]
            elif isinstance(kind, inspect.ListType | inspect.VarTupleType):
                there += _alternatives(kind.item_type)
        value = _step_into(value, step)
        here = _narrow(there, value)
    return here


def _narrow(kinds: list[inspect.Type], value: Any) -> list[inspect.Type]:
    if not isinstance(value, dict):
        return kinds
    narrowed: list[inspect.Type] = [
        kind
        for kind in kinds
        if isinstance(kind, inspect.StructType) and kind.tag_field and value.get(kind.tag_field) == kind.tag
    ]
    return narrowed or kinds


def _step_into(value: Any, step: str) -> Any | UnsetType:
    if isinstance(value, dict):
        return value.get(step, UNSET)
    if isinstance(value, list) and step.isdigit() and int(step) < len(value):
        return value[int(step)]
    return UNSET
