"""How do the contract's schemas become Structs that are pleasant to read and quick to import?

A general generator makes the Structs; what it cannot know is changed in its syntax tree: members stand in the order of
the contract, lists that an answer may leave out are empty lists, words have names, and answers can say how they came.
"""

from __future__ import annotations

import ast
import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from prepared_document import Prepared, Schema, word_key

_FLAGS = (
    "--input-file-type=openapi",
    "--openapi-scopes=schemas",
    "--output-model-type=msgspec.Struct",
    "--use-msgspec-tagged-unions",
    "--keyword-only",
    "--disable-timestamp",
    "--formatters=builtin",
    "--use-schema-description",
    "--use-field-description",
    "--enum-field-as-literal=all",
    "--target-python-version=3.11",
    "--use-union-operator",
    "--use-standard-collections",
)


def word_source(prepared: Prepared) -> str:
    """Source of the lists of words.

    To a type checker they are closed, so that a misspelt word is seen before anything is sent; while running they are
    plain text, so that a word which a newer service adds can be read.
    """
    lists = prepared.listed.items()
    literal = [f"    {name}: TypeAlias = Literal[{', '.join(map(repr, words))}]" for name, words in lists]
    plain = [f"    {name} = {type(words[0]).__name__}" for name, words in lists]
    listed = ", ".join(repr(name) for name in prepared.listed)
    return "\n".join(
        [
            "from typing import TYPE_CHECKING, Literal, TypeAlias",
            f"__all__ = [{listed}]",
            "if TYPE_CHECKING:",
            *literal,
            "else:",
            *plain,
            "",
        ]
    )


def model_source(prepared: Prepared) -> str:
    """Source of the Structs."""
    tree = ast.parse(_structs(prepared))
    body: list[ast.stmt] = []
    names: list[str] = []
    for statement in tree.body:
        match statement:
            case ast.ClassDef():
                body.append(_class(statement, prepared))
                names.append(statement.name)
            case ast.AnnAssign(target=ast.Name(id=name), value=ast.expr()):  # a union
                _Types(prepared).generic_visit(statement)
                body.append(statement)
                names.append(name)
            case ast.ImportFrom() | ast.Expr(value=ast.Constant()):  # what a union is stands in the contract
                continue
            case _:
                raise ValueError(f"the model generator wrote something new: {ast.unparse(statement)[:200]}")
    missing = set(prepared.schemas) - set(names)
    if missing:
        raise ValueError(f"the model generator left out {sorted(missing)}")
    source = ast.unparse(ast.Module(body=body, type_ignores=[]))
    used = [name for name in ("Any", "TypeAlias") if name in source]
    header = [
        "from __future__ import annotations",
        f"from typing import {', '.join(used)}" if used else "",
        "from msgspec import UNSET, Struct, UnsetType" + (", field" if "field(" in source else ""),
        "from ampwright_client.reply import Answer",
        f"from ampwright_client._generated.words import {', '.join(prepared.listed)}",
        f"__all__ = {sorted(names)!r}",
    ]
    return "\n".join(header) + "\n" + source + "\n"


def struct_members(models: str) -> dict[str, list[tuple[str, str, bool, str]]]:
    """(name, annotation, needed, description) of every member of every Struct, from the finished source."""
    found: dict[str, list[tuple[str, str, bool, str]]] = {}
    for statement in ast.parse(models).body:
        if isinstance(statement, ast.ClassDef):
            found[statement.name] = list(_members(statement))
    return found


def _members(statement: ast.ClassDef) -> Iterator[tuple[str, str, bool, str]]:
    for here, after in zip(statement.body, [*statement.body[1:], None], strict=True):
        if isinstance(here, ast.AnnAssign) and isinstance(here.target, ast.Name):
            needed = here.value is None or (isinstance(here.value, ast.Call) and len(here.value.keywords) == 1)
            says = ""
            if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant):
                says = str(after.value.value).strip()
            yield here.target.id, ast.unparse(here.annotation), needed, says


def _structs(prepared: Prepared) -> str:
    """What the general generator makes of the schemas."""
    reduced = {
        "openapi": prepared.document["openapi"],
        "info": {"title": "", "version": ""},
        "paths": {},
        "components": {"schemas": prepared.schemas},
    }
    with tempfile.TemporaryDirectory() as folder:
        document, output = Path(folder, "contract.json"), Path(folder, "models.py")
        document.write_text(json.dumps(reduced))
        command = [sys.executable, "-m", "datamodel_code_generator", "--input", str(document), "--output", str(output)]
        # Where it finds a pyproject.toml it takes settings from there.
        done = subprocess.run([*command, *_FLAGS], cwd=folder, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise ValueError(f"the model generator failed: {done.stderr[-2000:]}")
        return output.read_text()


def _class(statement: ast.ClassDef, prepared: Prepared) -> ast.ClassDef:
    schema = prepared.schemas[statement.name]
    is_answer = statement.name in prepared.answers
    is_read = statement.name in prepared.read
    members: dict[str, list[ast.stmt]] = {}
    lead: list[ast.stmt] = []
    for part in statement.body:
        match part:
            case ast.AnnAssign(target=ast.Name(id=name)):
                part.annotation = _Types(prepared).visit(part.annotation)
                _set_default(part, schema["properties"].get(name, {}), is_read=is_read)
                members[name] = [part]
            case ast.Expr(value=ast.Constant(value=str())) if members and statement.name not in prepared.told:
                continue
            case ast.Expr(value=ast.Constant(value=str(text))):
                part.value = ast.Constant(value=text.strip())
                (members[next(reversed(members))] if members else lead).append(part)
            case ast.Pass():
                pass
            case _:
                raise ValueError(f"the model generator wrote something new: {ast.unparse(part)[:200]}")
    if is_answer and "reply" in members:
        raise ValueError(f"{statement.name}.reply hides how the answer came")
    order = {name: place for place, name in enumerate(schema.get("properties", {}))}
    # A member that was renamed to be a name of Python's keeps its place at the end.
    ordered = sorted(members.items(), key=lambda pair: order.get(pair[0], len(order)))
    statement.body = [*lead, *(part for _, parts in ordered for part in parts)] or [ast.Pass()]
    if is_answer:
        statement.bases = [ast.Name(id="Answer")]
    return statement


def _set_default(member: ast.AnnAssign, schema: Schema, *, is_read: bool) -> None:
    """What a member is where it is left out."""
    if member.value is None or _is_unset(member.value):
        return
    if not is_read:
        # What a request leaves out the service fills in, and it may come to fill in something else.
        member.value = ast.Name(id="UNSET")
        return
    if schema.get("default") == []:
        member.value = ast.List(elts=[])  # msgspec makes a new list each time
    if isinstance(member.annotation, ast.BinOp):
        member.annotation = _without_unset(member.annotation)


def _is_unset(value: ast.expr) -> bool:
    if isinstance(value, ast.Call):  # field(name=..., default=UNSET)
        return any(k.arg == "default" and ast.unparse(k.value) == "UNSET" for k in value.keywords)
    return isinstance(value, ast.Name) and value.id == "UNSET"


def _without_unset(annotation: ast.BinOp) -> ast.expr:
    if ast.unparse(annotation.right) == "UnsetType":
        return annotation.left
    return annotation


class _Types(ast.NodeTransformer):
    """Literals become named words, annotations lose what is only for documents."""

    def __init__(self, prepared: Prepared) -> None:
        self._words = prepared.words

    def visit_Subscript(self, node: ast.Subscript) -> ast.AST:
        name = ast.unparse(node.value)
        if name == "Annotated" and isinstance(node.slice, ast.Tuple):
            kept: ast.AST = self.visit(node.slice.elts[0])
            return kept
        if name == "Literal":
            parts = node.slice.elts if isinstance(node.slice, ast.Tuple) else [node.slice]
            words = tuple(ast.literal_eval(part) for part in parts)
            return ast.Name(id=type(words[0]).__name__ if len(words) == 1 else self._words[word_key(words)])
        return self.generic_visit(node)
