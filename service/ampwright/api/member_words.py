"""What is a member of the contract, where its Struct does not say so: in which unit, in which range?

The words stand in ``contract/member_words.toml``, by the member's name. A Struct's own description goes before a word
that holds for all; a type that only says how its text is written (``"15 A"``) has the word put before it. The unit is
read off the end of the name, so that no description can say another.
"""

from __future__ import annotations

import tomllib
import typing
from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib import resources
from typing import Any

import msgspec

import ampwright.contract
from ampwright.api.schemas import REF, Schema
from ampwright.contract import (
    after_trip,
    comparison_quantities,
    document_parts,
    energy_quantities,
    parts,
    quantities,
    reference,
)

# Longest first where one ends in another.
UNITS = {
    "_per_hour": "per hour",
    "_per_day": "a day, in the currency beside it",
    "_ratio": "as a ratio: 1 is the whole",
    "_va": "in VA",
    "_kg": "in kg",
    "_db": "in dB",
    "_m3": "in cubic metres",
    "_a": "in A",
    "_v": "in V",
    "_w": "in W",
    "_s": "in s",
    "_m": "in m",
    "_j": "in J",
    "_h": "in h",
    "_c": "in degrees Celsius",
}
# Types that tell how a text is written, not what it is there for.
_GENERAL_MODULES = (comparison_quantities, document_parts, energy_quantities, parts, quantities)
_BANDS = frozenset({"Estimates", "FigureBand", "Percentiles"})


@dataclass(frozen=True)
class MemberWords:
    """Words by member; `only` by schema and member, before those; `ranges`: bounds of numbers, by member; `schemas`:
    what those are that have no docstring; `unitless`: those whose numbers have no unit, whatever their names end in."""

    members: Mapping[str, str] = field(default_factory=dict)
    only: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    ranges: Mapping[str, list[float]] = field(default_factory=dict)
    schemas: Mapping[str, str] = field(default_factory=dict)
    unitless: list[str] = field(default_factory=list)


# Bounds from here on say no more than that a figure is finite (`Amount`, `EnergyFigure`).
_OF_ANY_FIGURE = 1e9


def load_member_words() -> MemberWords:
    """The words of the contract."""
    text = resources.files(ampwright.contract).joinpath("member_words.toml").read_text("utf-8")
    return MemberWords(**tomllib.loads(text))


def with_member_words(schemas: Mapping[str, Schema], words: MemberWords) -> dict[str, Schema]:
    """The schemas with every member described, as far as there are words for it."""
    general = _general_descriptions()
    told: dict[str, Schema] = {}
    for name, schema in schemas.items():
        members = {
            member: _described(name, member, dict(shown), words, general)
            for member, shown in schema.get("properties", {}).items()
        }
        whole = {**schema, "properties": members} if members else dict(schema)
        if "description" not in whole and name in words.schemas:
            whole = {"title": name, "description": words.schemas[name]} | whole
        told[name] = whole
    return told


def unit_of(member: str) -> str:
    """What the end of a member's name says of its unit; empty where it says nothing."""
    return next((says for ending, says in UNITS.items() if member.endswith(ending)), "")


def is_number(shown: Schema) -> bool:
    """Whether a member is a number, several, or the estimates of one."""
    if shown.get("$ref", "").removeprefix(REF) in _BANDS:
        return True
    if shown.get("type") == "array":
        return is_number(shown.get("items", {}))
    return shown.get("type") in ("integer", "number")


def _described(schema: str, member: str, shown: Schema, words: MemberWords, general: frozenset[str]) -> Schema:
    own = shown.pop("description", "")
    word = words.only.get(schema, {}).get(member, "")
    if not word and (not own or own in general):
        word = words.members.get(member, "")
    unit = unit_of(member) if is_number(shown) and schema not in words.unitless else ""
    parts = [word, own if own != word else "", f"{unit[0].upper()}{unit[1:]}." if unit else ""]
    description = " ".join(part for part in parts if part)
    return ({"description": description} if description else {}) | _bounded(member, shown, words)


def _bounded(member: str, shown: Schema, words: MemberWords) -> Schema:
    """The member with the bounds of its number, where its Struct has none, or only those that any figure has."""
    bounds = words.ranges.get(member, [])
    if shown.get("type") == "array" and shown.get("items", {}).get("type") in ("integer", "number"):
        return shown | {"items": _bounded(member, shown["items"], words)}
    if shown.get("type") not in ("integer", "number"):
        return shown
    named = dict(zip(("minimum", "maximum"), bounds, strict=False))
    return shown | {key: value for key, value in named.items() if abs(shown.get(key, _OF_ANY_FIGURE)) >= _OF_ANY_FIGURE}


def _general_descriptions() -> frozenset[str]:
    found: set[str] = {_description(reference.Key), _description(after_trip.Word)}
    for module in _GENERAL_MODULES:
        found |= {_description(value) for value in vars(module).values()}
    return frozenset(found - {""})


def _description(value: Any) -> str:
    if typing.get_origin(value) is not typing.Annotated:
        return ""
    told = [one.description for one in value.__metadata__ if isinstance(one, msgspec.Meta)]
    return next((one for one in told if one), "")
