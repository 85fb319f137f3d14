"""Which parts of the contract does the client's code rest on?

The service checks bounds and patterns and says where they are broken, so the client does not repeat them: an older
client must read the answers of a newer service that knows more members, and more words in a list.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
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
# Schemas with fewer members are no base of those that happen to have all of them.
_FEWEST = 4
Words = tuple[str | int, ...]
WordKey = frozenset[str | int]  # the order in which a list says them means nothing


@dataclass(frozen=True)
class Prepared:
    """The contract, reduced to what the client needs.

    schemas : for the model generator; words : name of every list of words, by its words; listed : the words, by name;
    answers : names of schemas that are the body of an answer; read : names of all that can be part of one; told : those
    whose members the code describes: what a caller writes, and what an answer or a line of one has. The document tells
    the rest, and the wheel stays small.
    """

    document: Schema
    schemas: dict[str, Schema]
    words: dict[WordKey, str]
    listed: dict[str, Words]
    answers: frozenset[str]
    read: frozenset[str]
    told: frozenset[str]


def prepare(document: Schema, released: Schema | None = None) -> Prepared:
    """released : the last released contract, so that answers of a service of that time can be read."""
    schemas: dict[str, Schema] = document["components"]["schemas"]
    strange = sorted(name for name in schemas if not name.isidentifier())
    if strange:
        raise ValueError(f"schemas whose names are none in Python, as where two have the same name: {strange}")
    answers = frozenset(_answer_names(document))
    listed = _named_words(document)
    read = _reachable(answers, schemas)
    if released is not None:
        schemas = schemas | {name: _as_old(schemas[name], name, released) for name in sorted(read)}
    told = answers | _reachable(frozenset(_body_names(document)), schemas)
    reduced = {
        name: _reduced(schema) | ({} if name in told else _whole_text(schema)) for name, schema in schemas.items()
    }
    return Prepared(
        document=document,
        schemas={name: _told_once(schema, reduced, told) for name, schema in reduced.items()},
        words={word_key(words): name for name, words in listed.items()},
        listed=listed,
        answers=answers - {"Problem"},
        read=read,
        told=told,
    )


def _as_old(schema: Schema, name: str, released: Schema) -> Schema:
    """The schema of an answer with only those members required that an older service gives for sure."""
    old = released["components"]["schemas"].get(name)
    if old is None or "required" not in schema:
        return schema
    return schema | {"required": [one for one in schema["required"] if one in old.get("required", ())]}


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


def word_key(words: Iterable[str | int]) -> WordKey:
    return frozenset(words)


def pascal(name: str) -> str:
    return "".join(part[:1].upper() + part[1:] for part in re.split(r"[^A-Za-z0-9]+", name) if part)


def first_sentence(text: str) -> str:
    """What a docstring says of a member; the document says the rest."""
    return re.split(r"(?<=[.!?])\s", text.strip(), maxsplit=1)[0]


def _told_once(schema: Schema, schemas: Mapping[str, Schema], told: frozenset[str]) -> Schema:
    """The schema without what one that it extends says already: a stored vehicle has the members of a vehicle."""
    members: Schema = schema.get("properties", {})
    said: dict[str, str] = {}
    for name in sorted(told):
        smaller: Schema = schemas[name].get("properties", {})
        if len(smaller) >= _FEWEST and smaller.keys() < members.keys():
            said |= {member: shown.get("description", "") for member, shown in smaller.items()}
    if not said:
        return schema
    left = {
        member: {key: value for key, value in shown.items() if key != "description" or value != said.get(member)}
        for member, shown in members.items()
    }
    return schema | {"properties": left}


def _whole_text(schema: Schema) -> Schema:
    """What a schema is, unabridged: where its members are not described, this describes them."""
    return {"description": schema["description"]} if "description" in schema else {}


def _reduced(schema: Any, *, names: bool = False) -> Any:
    """`names` : the keys of this mapping are the caller's own, not keywords."""
    if isinstance(schema, dict):
        return {
            key: first_sentence(value)
            if key == "description" and not names
            else _reduced(value, names=not names and key in {"properties", "$defs"})
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


def _body_names(document: Schema) -> Iterator[str]:
    for _, _, described in operations(document):
        for media in described.get("requestBody", {}).get("content", {}).values():
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


def _named_words(document: Schema) -> dict[str, Words]:
    """Lists of words by name: the member's, or the owner's and the member's where that would be ambiguous."""
    uses: dict[WordKey, list[tuple[str, str]]] = {}
    shown: dict[WordKey, Words] = {}

    def used(owner: str, member: str, schema: Any) -> None:
        for words in _enums(schema):
            uses.setdefault(word_key(words), []).append((owner, member))
            shown.setdefault(word_key(words), words)

    for owner, schema in document["components"]["schemas"].items():
        for member, described in schema.get("properties", {}).items():
            used(owner, member, described)
    for _, _, described in operations(document):
        for parameter in described.get("parameters", []):
            used(pascal(described["operationId"]), parameter["name"], parameter["schema"])
    by_member: dict[str, set[WordKey]] = {}
    for key, places in uses.items():
        for _, member in places:
            by_member.setdefault(member, set()).add(key)
    named: dict[str, Words] = {}
    taken = set(document["components"]["schemas"])
    for key, places in uses.items():
        if len(key) == 1:
            continue
        chosen = next((_NAMES[f"{o}.{m}"] for o, m in places if f"{o}.{m}" in _NAMES), None)
        owner, member = places[0]
        if chosen is None and len(by_member[member]) == 1 and pascal(member) not in taken:
            chosen = pascal(member)
        name = chosen or owner + pascal(member)
        if name in taken:
            raise ValueError(f"{name} names two things; add an entry for {owner}.{member} to _NAMES")
        taken.add(name)
        named[name] = shown[key]
    return dict(sorted(named.items()))


def _enums(schema: Any) -> Iterator[Words]:
    if isinstance(schema, dict):
        if "enum" in schema:
            yield tuple(schema["enum"])
        for value in schema.values():
            yield from _enums(value)
    elif isinstance(schema, list):
        for one in schema:
            yield from _enums(one)
