"""Which parts of the contract does the client's code rest on?

The service checks bounds and patterns and says where they are broken, so the client does not repeat them: an older
client must read the answers of a newer service that knows more members, and more words in a list.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

Schema = dict[str, Any]
REF = "#/components/schemas/"
_DROPPED = frozenset(
    {
        "title",
        "examples",
        "pattern",
        "minLength",
        "maxLength",
        "minimum",
        "maximum",
        "exclusiveMinimum",
        "exclusiveMaximum",
        "multipleOf",
        "minItems",
        "maxItems",
        "uniqueItems",
        "format",
        "additionalProperties",
    }
)
# Lists of words whose member's name says too little, by "Schema.member".
_NAMES = {
    "Availability.when": "SourceState",
    "Change.op": "ChangeOperation",
    "Conditions.place": "Place",
    "CordInUse.laid": "CordLay",
    "CordOutlets.state": "EndState",
    "EntryRow.status": "EntryStatus",
    "InductionMotorStart.against": "StartsAgainst",
    "InductionMotorStart.motor": "MotorKind",
    "Leg.id": "LegName",
    "LoadState.id": "LoadStateName",
    "NewToolProfile.status": "WrittenStatus",
    "ReleaseMember.kind": "EntryKind",
    "Reset.how": "ResetMethod",
    "Verdicts.overall": "Verdict",
}
Words = tuple[str | int, ...]


@dataclass(frozen=True)
class Prepared:
    """The contract, reduced to what the client needs.

    schemas : for the model generator; words : name of every list of words, by its words; answers : names of schemas
    that are the body of an answer; read : names of all schemas that can be part of an answer.
    """

    document: Schema
    schemas: dict[str, Schema]
    words: dict[Words, str]
    answers: frozenset[str]
    read: frozenset[str]


def prepare(document: Schema) -> Prepared:
    schemas: dict[str, Schema] = document["components"]["schemas"]
    answers = frozenset(_answer_names(document))
    return Prepared(
        document=document,
        schemas={name: _reduced(schema) for name, schema in schemas.items()},
        words=_named_words(document),
        answers=answers - {"Problem"},
        read=_reachable(answers, schemas),
    )


def operations(document: Schema) -> Iterator[tuple[str, str, Schema]]:
    """Path, method and description of every operation, in the document's order."""
    for path, methods in document["paths"].items():
        for method, described in methods.items():
            if method in {"get", "post", "put", "patch", "delete"}:
                yield path, method.upper(), described


def ref_name(schema: Mapping[str, Any]) -> str:
    """Name of the schema that is referred to. Raises ValueError for anything else than a reference."""
    ref = str(schema.get("$ref", ""))
    if not ref.startswith(REF):
        raise ValueError(f"bodies and answers must be named schemas, not {dict(schema)}")
    return ref.removeprefix(REF)


def pascal(name: str) -> str:
    return "".join(part[:1].upper() + part[1:] for part in re.split(r"[^A-Za-z0-9]+", name) if part)


def _reduced(schema: Any, *, names: bool = False) -> Any:
    """`names` : the keys of this mapping are the caller's own, not keywords."""
    if isinstance(schema, dict):
        return {
            key: _reduced(value, names=not names and key in {"properties", "$defs"})
            for key, value in schema.items()
            if names or key not in _DROPPED
        }
    if isinstance(schema, list):
        return [_reduced(one) for one in schema]
    return schema


def _answer_names(document: Schema) -> Iterator[str]:
    for _, _, described in operations(document):
        for response in described["responses"].values():
            for media in response.get("content", {}).values():
                if "$ref" in media.get("schema", {}):
                    yield ref_name(media["schema"])


def _reachable(names: frozenset[str], schemas: Mapping[str, Schema]) -> frozenset[str]:
    found: set[str] = set()
    waiting = sorted(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += [one for one in _refs(schemas[name]) if one not in found]
    return frozenset(found)


def _refs(schema: Any) -> Iterator[str]:
    if isinstance(schema, dict):
        if isinstance(schema.get("$ref"), str):
            yield schema["$ref"].removeprefix(REF)
        for value in schema.values():
            yield from _refs(value)
    elif isinstance(schema, list):
        for one in schema:
            yield from _refs(one)


def _named_words(document: Schema) -> dict[Words, str]:
    """A name for every list of words: the member's, or the owner's and the member's where that would be ambiguous."""
    uses: dict[Words, list[tuple[str, str]]] = {}
    for owner, schema in document["components"]["schemas"].items():
        for member, described in schema.get("properties", {}).items():
            for words in _enums(described):
                uses.setdefault(words, []).append((owner, member))
    for _, _, described in operations(document):
        for parameter in described.get("parameters", []):
            for words in _enums(parameter["schema"]):
                uses.setdefault(words, []).append((pascal(described["operationId"]), parameter["name"]))
    by_member: dict[str, set[Words]] = {}
    for words, places in uses.items():
        for _, member in places:
            by_member.setdefault(member, set()).add(words)
    named: dict[Words, str] = {}
    taken = set(document["components"]["schemas"])
    for words, places in uses.items():
        if len(words) == 1:
            continue
        chosen = next((_NAMES[f"{o}.{m}"] for o, m in places if f"{o}.{m}" in _NAMES), None)
        owner, member = places[0]
        if chosen is None and len(by_member[member]) == 1 and pascal(member) not in taken:
            chosen = pascal(member)
        name = chosen or owner + pascal(member)
        if name in taken:
            raise ValueError(f"{name} names two things; add an entry for {owner}.{member} to _NAMES")
        taken.add(name)
        named[words] = name
    return dict(sorted(named.items(), key=lambda pair: pair[1]))


def _enums(schema: Any) -> Iterator[Words]:
    if isinstance(schema, dict):
        if "enum" in schema:
            yield tuple(schema["enum"])
        for value in schema.values():
            yield from _enums(value)
    elif isinstance(schema, list):
        for one in schema:
            yield from _enums(one)
