"""Which calls does the client offer, and what does each take and give?

One row for every operation of the contract, ready for the template.
"""

from __future__ import annotations

import keyword
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from prepared_document import Prepared, Schema, WordKey, operations, ref_name, word_key

JSON = "application/json"
LINES = "application/x-ndjson"
# What a rendering is called in a call's name.
_RENDERINGS = {
    "text/plain": "text",
    "text/csv": "csv",
    "text/html": "html",
    "text/markdown": "markdown",
    "image/svg+xml": "svg",
}
# Member of a page that says where the next one begins, and the parameter that takes it.
_GO_ON = {"next_cursor": "cursor", "next_before": "before", "next_after": "after"}
_RESERVED = frozenset({"self", "options"})
_PLAIN = {"string": "str", "integer": "int", "number": "float", "boolean": "bool"}


@dataclass(frozen=True)
class Argument:
    """One argument of a call. `wire` : its name in the contract."""

    name: str
    wire: str
    type: str
    needed: bool
    says: str

    @property
    def declared(self) -> str:
        return f"{self.name}: {self.type}" if self.needed else f"{self.name}: {self.type} | UnsetType = UNSET"


@dataclass(frozen=True)
class Pages:
    """How a paged list goes on. `position` : the argument; `following` : the member of a page; `row` : type of item."""

    name: str
    position: str
    following: str
    row: str


@dataclass(frozen=True)
class Row:
    """One operation. `answer` is the model's name; `rendering` the media type where the answer is text."""

    name: str
    method: str
    path: str
    summary: str
    says: str
    path_arguments: list[Argument]
    query: list[Argument]
    headers: list[Argument]
    body: str = ""
    members: list[Argument] = field(default_factory=list)
    answer: str = ""
    rendering: str = ""
    lines: bool = False
    pages: Pages | None = None
    safe: bool = False
    keeps: bool = False
    problems: str = ""
    deprecated: bool = False

    @property
    def arguments(self) -> list[Argument]:
        """All but the path's and the body's."""
        return [*self.query, *self.headers]

    @property
    def gives(self) -> str:
        return "str" if self.rendering else f"models.{self.answer}" if self.answer else "None"


def call_rows(prepared: Prepared, members: Mapping[str, list[tuple[str, str, bool, str]]]) -> list[Row]:
    """All calls, sorted by name. Raises ValueError where the contract asks for what the client cannot do yet."""
    rows: list[Row] = []
    for path, method, described in operations(prepared.document):
        rows += _rows(path, method, described, prepared, members)
    names = [row.name for row in rows] + [row.pages.name for row in rows if row.pages]
    doubled = sorted({name for name in names if names.count(name) > 1 or keyword.iskeyword(name)})
    if doubled:
        raise ValueError(f"calls that cannot be named: {doubled}")
    return sorted(rows, key=lambda row: row.name)


def _rows(path: str, method: str, described: Schema, prepared: Prepared, members: Mapping[str, Any]) -> list[Row]:
    name = re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", described["operationId"]).lower()
    success = {int(status): one for status, one in described["responses"].items() if status.startswith("2")}
    contents = {media: shown for response in success.values() for media, shown in response.get("content", {}).items()}
    arguments: dict[str, list[Argument]] = {"path": [], "query": [], "header": []}
    for parameter in described.get("parameters", []):
        arguments[parameter["in"]].append(_argument(parameter, prepared.words))
    body, flat = "", []
    if "requestBody" in described:
        body = ref_name(described["requestBody"]["content"][JSON]["schema"])
        flat = [
            Argument(n, n, _qualified(t, prepared), needed, _with_default(says, prepared.schemas[body], n))
            for n, t, needed, says in members[body]
        ]
        taken = {a.name for group in arguments.values() for a in group} | _RESERVED
        clash = sorted(taken & {a.name for a in flat})
        if clash:
            raise ValueError(f"{name}: {clash} stand in the body and beside it")
    common: dict[str, Any] = {
        "method": method,
        "path": path,
        "summary": described["summary"],
        "says": described.get("description", ""),
        "path_arguments": arguments["path"],
        "query": arguments["query"],
        "headers": arguments["header"],
        "body": body,
        "members": flat,
        "safe": method == "GET" or (method == "POST" and _calculates(described, success, arguments, prepared)),
        "keeps": "304" in described["responses"],
        "problems": _problems(described),
        "deprecated": bool(described.get("deprecated")),
    }
    rows: list[Row] = []
    if JSON in contents or not contents:
        answer = ref_name(contents[JSON]["schema"]) if contents else ""
        rows.append(Row(name=name, answer=answer, pages=_pages(name, answer, arguments["query"], prepared), **common))
    if "$ref" in contents.get(LINES, {}).get("schema", {}):
        rows.append(
            Row(
                name=name if not rows else f"{name}_lines",
                answer=ref_name(contents[LINES]["schema"]),
                lines=True,
                **common | {"keeps": False},
            )
        )
    texts = {**_RENDERINGS, LINES: "ndjson"}  # lines without a model are text to be kept as it is
    for media, stem in texts.items():
        if media in contents and "$ref" not in contents[media]["schema"] and path.startswith("/v1/"):
            rows.append(Row(name=f"{name}_{stem}", rendering=media, **common | {"keeps": False}))
    return rows


def _calculates(
    described: Schema, success: Mapping[int, Schema], arguments: Mapping[str, Any], prepared: Prepared
) -> bool:
    """Whether a POST changes nothing.

    A calculation answers 200 and never 201, asks for no precondition, and stamps its answer with the digest of the
    request; one that gives rows only can be too much work. What lacks this may be a write, and is not sent again.
    """
    if set(success) != {200} or arguments["header"]:
        return False
    shown = success[200].get("content", {}).get(JSON)
    if shown is None:
        return "too-much-work" in _problems(described)
    return "request_digest" in prepared.schemas[ref_name(shown["schema"])].get("properties", {})


def _argument(parameter: Schema, words: Mapping[WordKey, str]) -> Argument:
    wire = parameter["name"]
    name = re.sub(r"[^a-z0-9]+", "_", wire.lower()).strip("_")
    if keyword.iskeyword(name) or name in _RESERVED:
        name += "_"
    says = _with_default(parameter.get("description", ""), {"properties": {wire: parameter["schema"]}}, wire)
    return Argument(name, wire, _plain_type(parameter["schema"], words), parameter["required"], says)


def _with_default(says: str, schema: Schema, member: str) -> str:
    """What the service takes where a member is left out, said beside what it is."""
    default = schema["properties"].get(member, {}).get("default")
    return says if default in (None, "", []) else f"{says} Left out: {default}.".strip()


def _plain_type(schema: Schema, words: Mapping[WordKey, str]) -> str:
    if "enum" in schema and len(schema["enum"]) > 1:
        return f"words.{words[word_key(schema['enum'])]}"
    if "const" in schema or "enum" in schema:
        return type(schema.get("const") or schema["enum"][0]).__name__
    if schema.get("type") == "array":
        return f"list[{_plain_type(schema['items'], words)}]"
    return _PLAIN[schema["type"]]


def _qualified(annotation: str, prepared: Prepared) -> str:
    """A member's type as seen from the module of calls, without what says that it may be left out."""
    inside = annotation.removesuffix(" | UnsetType")
    named = set(prepared.listed)

    def qualify(match: re.Match[str]) -> str:
        name = match[0]
        if name in named:
            return f"words.{name}"
        return f"models.{name}" if name in prepared.schemas else name

    return re.sub(r"[A-Za-z_][A-Za-z0-9_]*", qualify, inside)


def _pages(name: str, answer: str, query: list[Argument], prepared: Prepared) -> Pages | None:
    properties = prepared.schemas.get(answer, {}).get("properties", {})
    positions = {argument.name for argument in query}
    for following, position in _GO_ON.items():
        if following in properties and position in positions and "items" in properties:
            row = f"models.{ref_name(properties['items']['items'])}"
            return Pages(name.replace("list_", "iterate_", 1), position, following, row)
    return None


def _problems(described: Schema) -> str:
    codes: list[str] = []
    for status, response in sorted(described["responses"].items()):
        if status[0] in "45":
            codes += re.findall(r"/problems/([a-z0-9-]+)", response["description"])
    return ", ".join(codes)
