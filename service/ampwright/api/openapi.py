"""Which document describes the service to programs?

OpenAPI 3.1, drawn from the declarations that the router works by (operations.py). The same service gives the same
bytes: components and paths are sorted, members keep the order in which they are declared.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import msgspec
from msgspec import UNSET, Struct

from ampwright.api import examples as example_files
from ampwright.api.examples import Example, load_examples
from ampwright.api.member_words import MemberWords, with_member_words
from ampwright.api.negotiation import JSON, LINES
from ampwright.api.operations import Operation, Operations
from ampwright.api.problems import PROBLEM_MEDIA_TYPE, PROBLEM_TYPES, Problem
from ampwright.api.schemas import REF, Schema, components

OPENAPI_VERSION = "3.1.0"
# Of the contract, not of the service: raised by what the document changes.
CONTRACT_VERSION = "1.1.0"
# Characters of an answer that the document shows; tests replay longer ones too, a reader has the shorter ones.
_LONGEST_SHOWN = 30_000

# What any operation can answer, and what more it can answer where it reads a body, runs in a lane, has parameters.
_ALWAYS = ("not-acceptable", "address-too-long", "headers-too-large", "internal-error")
_WITH_BODY = ("malformed-body", "body-timeout", "body-too-large", "unsupported-media-type", "invalid-request")
_WITH_LANE = ("overloaded",)
_WITH_PARAMETERS = ("invalid-request",)
_WITH_SCOPE = ("unauthenticated", "forbidden", "not-ready")
_WITH_PRECONDITION = ("precondition-failed", "precondition-required")

_HEADERS: dict[str, Schema] = {
    "ETag": {
        "description": "Entity tag; send it as If-None-Match to be answered 304 while nothing has changed.",
        "schema": {"type": "string"},
    },
    "Location": {
        "description": "Where what was written is read again.",
        "schema": {"type": "string", "format": "uri-reference"},
    },
    "Retry-After": {
        "description": "Wait this long [s] before the next try.",
        "schema": {"type": "integer", "minimum": 1},
    },
    "WWW-Authenticate": {
        "description": "The challenge of RFC 6750, 3.",
        "schema": {"type": "string"},
    },
    "X-Request-Id": {
        "description": "Id of this request in the service's log: the caller's own X-Request-Id, or a new one.",
        "schema": {"type": "string"},
    },
}
_KEY: Schema = {
    "type": "http",
    "scheme": "bearer",
    "description": "An access key, `ampw_...`. A service on its own machine that has no keys asks for none.",
}
_ENTITY_TAG, _LOCATION, _RETRY_AFTER, _CHALLENGE, _REQUEST_ID = (
    {"$ref": f"#/components/headers/{name}"} for name in sorted(_HEADERS)
)


def openapi_document(
    resources: Iterable[Operations],
    *,
    version: str,
    unions: Mapping[str, Any] | None = None,
    examples: Path = example_files.FOLDER,
    words: MemberWords | None = None,
) -> bytes:
    """The document as bytes of JSON, ended by a newline.

    resources : what the service answers; version : of the contract; unions : names of tagged unions
    (schemas.named_unions); examples : folder of the example files; words : what members are called (member_words.py).
    """
    resources = list(resources)
    operations = [operation for resource in resources for operation in resource if operation.documented]
    document = {
        "openapi": OPENAPI_VERSION,
        "info": {
            "title": "Ampwright",
            "version": version,
            "summary": "Which tools run on which mobile power source, by calculation.",
            "description": (
                'Quantities in a request are strings with a unit (`"15 A"`, `"100 ft"`); quantities in an answer '
                "are numbers in SI whose unit is in their name (`voltage_v`). A member that is left out is unknown "
                "and becomes a stated assumption on the safe side; `null` is not accepted. Errors are problem details "
                "(RFC 9457). Answers may gain members: ignore those that you do not know."
            ),
            "license": {"name": "Apache License 2.0", "identifier": "Apache-2.0"},
        },
        "servers": [{"url": "/", "description": "The service that sent this document."}],
        "tags": _tags(resources),
    }
    kinds: list[Any] = [Problem]
    for operation in operations:
        kinds += [kind for kind in (operation.body, operation.answer, operation.line) if kind is not None]
    drawn, schemas = components(kinds, unions or {})
    schema_of = {id(kind): schema for kind, schema in zip(kinds, drawn, strict=True)}
    paths: dict[str, dict[str, Schema]] = {}
    for operation in operations:
        found = load_examples(operation.operation_id, examples)
        paths.setdefault(operation.path, {})[operation.method.lower()] = _operation(
            operation, schema_of, found, schemas
        )
    document["paths"] = dict(sorted(paths.items()))
    document["components"] = {
        "headers": _HEADERS,
        "securitySchemes": {"key": _KEY},
        "schemas": with_member_words(dict(sorted(schemas.items())), words or MemberWords()),
    }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def problems_of(operation: Operation) -> tuple[str, ...]:
    """Codes of all problems that an operation can answer with, sorted."""
    codes = {*_ALWAYS, *operation.problems}
    if operation.body is not None:
        codes.update(_WITH_BODY)
    if operation.scope is not None:
        codes.update(_WITH_SCOPE)
    if operation.lane is not None or operation.scope is not None:
        codes.update(_WITH_LANE)
    if operation.path_parameters is not None or operation.query is not None:
        codes.update(_WITH_PARAMETERS)
    if operation.headers is not None:
        codes.update(_WITH_PARAMETERS)
        if _has_precondition(operation.headers):
            codes.update(_WITH_PRECONDITION)
    return tuple(sorted(codes))


def _has_precondition(headers: type[Struct]) -> bool:
    return any(
        field.required and field.encode_name.lower() in ("if-match", "if-none-match")
        for field in msgspec.structs.fields(headers)
    )


def _tags(resources: list[Operations]) -> list[Schema]:
    tags: dict[str, str] = {}
    for resource in resources:
        if any(operation.documented for operation in resource):
            tags[resource.tag] = tags.get(resource.tag) or resource.description
    return [{"name": name, "description": text} if text else {"name": name} for name, text in tags.items()]


def _operation(
    operation: Operation, schema_of: Mapping[int, Schema], found: Mapping[str, Example], schemas: dict[str, Schema]
) -> Schema:
    described: Schema = {
        "operationId": operation.operation_id,
        "tags": [operation.tag],
        "summary": operation.summary,
    }
    if operation.description:
        described["description"] = operation.description
    if operation.deprecation is not None:
        described["deprecated"] = True
    # Either a key or, where the deployment asks for none, nothing; never a key for what is open to everybody.
    described["security"] = [] if operation.scope is None else [{"key": []}, {}]
    parameters = _parameters(operation, found, schemas)
    if parameters:
        described["parameters"] = parameters
    if operation.body is not None:
        content: Schema = {"schema": schema_of[id(operation.body)]}
        shown = {
            name: _example(one, one.request)
            for name, one in found.items()
            if one.request is not UNSET and not one.misspelt
        }
        if shown:
            content["examples"] = shown
        described["requestBody"] = {"required": True, "content": {JSON: content}}
    described["responses"] = _responses(operation, schema_of, found)
    return described


def _shown(operation: Operation, found: Mapping[str, Example], status: int) -> dict[str, dict[str, Schema]]:
    """Examples of answers with a status, by media type."""
    long = _too_long(found)
    shown: dict[str, dict[str, Schema]] = {}
    for name, one in found.items():
        if one.status != status or one.response is UNSET or name in long:
            continue
        accept = next((value for key, value in one.headers.items() if key.lower() == "accept"), "")
        own = JSON if operation.answer is not None else next(iter(operation.sends or ()), JSON)
        media_type = accept if accept in (*operation.renderings, *operation.streams, LINES) else own
        if media_type == LINES and operation.line is not None:
            shown.setdefault(LINES, {}).update(_lines_shown(name, one))
        else:
            shown.setdefault(media_type, {})[name] = _example(one, one.response)
    return shown


def _too_long(found: Mapping[str, Example]) -> frozenset[str]:
    """Examples whose answers the document leaves out, but never so many that fewer than two are left."""
    sizes = {name: len(json.dumps(one.response)) for name, one in found.items() if one.response is not UNSET}
    longest_first = sorted(sizes, key=lambda name: (-sizes[name], name))[: max(len(sizes) - 2, 0)]
    return frozenset(name for name in longest_first if sizes[name] > _LONGEST_SHOWN)


def _lines_shown(name: str, example: Example) -> dict[str, Schema]:
    """The first line of each kind: the schema is that of one line."""
    shown: dict[str, Schema] = {}
    for text in str(example.response).splitlines():
        line = json.loads(text)
        one: Schema = {"summary": f"{example.summary}: a line of kind `{line['kind']}`", "value": line}
        shown.setdefault(f"{name}-{line['kind']}", one)
    return shown


def _example(example: Example, value: Any) -> Schema:
    shown: Schema = {"summary": example.summary}
    if example.description:
        shown["description"] = example.description
    return shown | {"value": value}


def _parameters(operation: Operation, found: Mapping[str, Example], schemas: dict[str, Schema]) -> list[Schema]:
    rows = []
    for place, struct in (
        ("path", operation.path_parameters),
        ("query", operation.query),
        ("header", operation.headers),
    ):
        if struct is None:
            continue
        [_], drawn = components([struct], {})
        own = drawn.pop(struct.__name__)
        schemas.update(drawn)
        for name, schema in own["properties"].items():
            schema = dict(schema)
            row: Schema = {"name": name, "in": place, "required": place == "path" or name in own.get("required", [])}
            if description := schema.pop("description", ""):
                row["description"] = description
            row["schema"] = schema
            given = {one: getattr(example, "headers" if place == "header" else place) for one, example in found.items()}
            shown = {
                one: _example(found[one], _typed(values[name], schema))
                for one, values in given.items()
                if name in values
            }
            if shown:
                row["examples"] = shown
            rows.append(row)
    return rows


def _typed(text: str, schema: Schema) -> Any:
    """The value of a parameter, which an example writes as it stands in the address."""
    kind = schema.get("type")
    if kind in ("integer", "number"):
        return json.loads(text)
    if kind == "boolean" and text in ("true", "false"):
        return text == "true"
    return [text] if kind == "array" else text


def _responses(operation: Operation, schema_of: Mapping[int, Schema], found: Mapping[str, Example]) -> Schema:
    responses: dict[str, Schema] = {}
    for status, meaning in operation.statuses.items():
        headers: dict[str, Schema] = {"X-Request-Id": _REQUEST_ID}
        for name, text in operation.answer_headers.items():
            headers[name] = {"description": text, "schema": {"type": "string"}}
        if operation.entity_tag:
            headers["ETag"] = _ENTITY_TAG
        if status == 201:
            headers["Location"] = _LOCATION
        response: Schema = {"description": meaning, "headers": dict(sorted(headers.items()))}
        schemas = _answer_schemas(operation, schema_of)
        shown = _shown(operation, found, status)
        if schemas:
            response["content"] = {
                media_type: {"schema": schema} | ({"examples": shown[media_type]} if media_type in shown else {})
                for media_type, schema in schemas.items()
            }
        if operation.links:
            response["links"] = {
                target: {"operationId": target, "parameters": dict(parameters)}
                for target, parameters in operation.links.items()
            }
        responses[str(status)] = response
    if operation.entity_tag and operation.method == "GET":
        responses["304"] = {
            "description": "Nothing has changed since the ETag that If-None-Match names.",
            "headers": {"ETag": _ENTITY_TAG, "X-Request-Id": _REQUEST_ID},
        }
    responses |= _problem_responses(operation, found)
    return dict(sorted(responses.items()))


def _answer_schemas(operation: Operation, schema_of: Mapping[int, Schema]) -> dict[str, Schema]:
    """Schema of each media type of an answer; text is a string."""
    schemas: dict[str, Schema] = {}
    if operation.answer is not None:
        schemas[JSON] = schema_of[id(operation.answer)]
        schemas |= {media_type: {"type": "string"} for media_type in (*operation.renderings, *operation.streams)}
    else:
        schemas |= {media_type: {"type": "string"} for media_type in operation.sends or ()}
    if operation.line is not None:
        # one value of the schema a line; OpenAPI 3.1 has no word for a sequence of them
        lines = (LINES,) if operation.answer is not None else operation.sends or ()
        schemas |= {media_type: schema_of[id(operation.line)] for media_type in lines}
    return schemas


def _problem_responses(operation: Operation, found: Mapping[str, Example]) -> dict[str, Schema]:
    by_status: dict[int, list[str]] = {}
    for code in problems_of(operation):
        by_status.setdefault(PROBLEM_TYPES[code].status, []).append(code)
    responses = {}
    for status, codes in sorted(by_status.items()):
        headers = {"X-Request-Id": _REQUEST_ID}
        if status == 503:
            headers = {"Retry-After": _RETRY_AFTER} | headers
        if status in (401, 403):
            headers = {"WWW-Authenticate": _CHALLENGE} | headers
        content: Schema = {"schema": {"$ref": REF + "Problem"}}
        shown = {
            name: _example(one, one.response)
            for name, one in found.items()
            if one.status == status and one.response is not UNSET
        }
        if shown:
            content["examples"] = shown
        meanings = [f"[{PROBLEM_TYPES[code].title}](/problems/{code})" for code in codes]
        responses[str(status)] = {
            "description": "; ".join(meanings) + ".",
            "headers": headers,
            "content": {PROBLEM_MEDIA_TYPE: content},
        }
    return responses
