"""How is the client's code made from the contract?

    python client/generator/generate.py           writes client/src/ampwright_client/_generated
    python client/generator/generate.py --check   changes nothing; exits 1 where the code is not what would be made

A member that answers have only since the last released contract (openapi/released/) may be missing, so that the client
of today reads a service of then. The same contracts give the same bytes. Needs the lint extra of the service's project
(model generator, ruff).
"""

from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
import sys
import textwrap
from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path

import jinja2
from call_table import Row, call_rows
from model_source import model_source, struct_members, word_source
from prepared_document import Prepared, prepare

HERE = Path(__file__).resolve().parent
CONTRACT = HERE.parent.parent / "openapi" / "ampwright-v1.json"
OUTPUT = HERE.parent / "src" / "ampwright_client" / "_generated"
_INDENT = " " * 8
_SORTED = 'lint.isort.known-first-party = ["ampwright_client"]'
# Structs that builders take the members of, and the members that a builder takes in its own way.
BUILT: Mapping[str, frozenset[str]] = {
    "BatteryStation": frozenset({"voltage", "receptacles"}),
    "CatalogueSource": frozenset({"entry"}),
    "CordInUse": frozenset({"id", "length", "size"}),
    "EngineGenerator": frozenset({"voltage", "receptacles"}),
    "LoadCheckRequest": frozenset({"source", "tools", "cords", "connections"}),
    "Receptacle": frozenset({"id"}),
    "SiteSupply": frozenset({"voltage", "receptacles"}),
    "SupplyOption": frozenset({"voltage"}),
    "ToolInUse": frozenset({"id", "supply_options"}),
    "Vehicle": frozenset({"voltage", "receptacles"}),
}


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description="Make the client's code from the contract.")
    parser.add_argument("--contract", type=Path, default=CONTRACT, help="the OpenAPI document")
    parser.add_argument("--output", type=Path, default=OUTPUT, help="folder of the code")
    parser.add_argument("--check", action="store_true", help="compare only; 1 where something differs")
    given = parser.parse_args(arguments)
    files = generated(given.contract.read_bytes(), last_released(given.contract.parent / "released"))
    there = {path.name: path.read_text() for path in sorted(given.output.glob("*.py"))}
    stale = sorted(name for name in files.keys() | there.keys() if files.get(name) != there.get(name))
    if given.check:
        for name in stale:
            print(f"{given.output / name} is not what {given.contract} gives", file=sys.stderr)
        return 1 if stale else 0
    given.output.mkdir(parents=True, exist_ok=True)
    for name in stale:
        if name in files:
            (given.output / name).write_text(files[name])
        else:
            (given.output / name).unlink()
    print(f"{len(files)} files, {len(stale)} changed")
    return 0


def last_released(folder: Path) -> bytes | None:
    """The contract that was released last; None before the first."""
    files = sorted(folder.glob("*.json"), key=lambda file: tuple(int(part) for part in file.stem.split(".")))
    return files[-1].read_bytes() if files else None


def generated(contract: bytes, released: bytes | None = None) -> dict[str, str]:
    """Text of every file, by name. Raises ValueError where the contract holds what the generator does not know."""
    prepared = prepare(json.loads(contract), None if released is None else json.loads(released))
    digest = hashlib.sha256(contract).hexdigest()
    models = model_source(prepared)
    members = struct_members(models)
    rows = call_rows(prepared, members)
    files = {
        "__init__.py": _about(prepared, digest),
        "words.py": '"""Which words does the contract know?"""\n' + word_source(prepared),
        "models.py": '"""Which parts do requests and answers have?"""\n' + models,
        "members.py": _typed_members(prepared, members),
        "client.py": _calls(rows, "client"),
        "async_client.py": _calls(rows, "async_client"),
    }
    top = f"# Made by client/generator/generate.py from the contract with SHA-256 {digest}. Do not edit.\n"
    return {name: _formatted(top + source) for name, source in sorted(files.items())}


def _about(prepared: Prepared, digest: str) -> str:
    return f'''"""Which contract is this code made from?"""
CONTRACT_SHA256 = "{digest}"
CONTRACT_VERSION = "{prepared.document["info"]["version"]}"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
'''


def _typed_members(prepared: Prepared, members: Mapping[str, list[tuple[str, str, bool, str]]]) -> str:
    """Keyword arguments of the builders, for type checkers only."""
    parts = []
    for struct, own in sorted(BUILT.items()):
        parts.append(f"class {struct}Members(TypedDict, total=False):")
        shown = [(name, kind) for name, kind, _, _ in members[struct] if name not in own]
        unknown = own - {name for name, *_ in members[struct]}
        if unknown:
            raise ValueError(f"{struct} has no {sorted(unknown)}")
        parts += [f"    {name}: {kind}" for name, kind in shown]
    source = "\n".join(parts)
    used = sorted(name for name in prepared.schemas if f"{name}" in _words_of(source))
    used_words = sorted(name for name in prepared.listed if name in _words_of(source))
    return f'''"""Which members can a builder be given?"""
from __future__ import annotations
from typing import TypedDict
from msgspec import UnsetType
from ampwright_client._generated.models import {", ".join(used)}
from ampwright_client._generated.words import {", ".join(used_words)}
__all__ = {sorted(f"{struct}Members" for struct in BUILT)!r}
{source}
'''


def _words_of(source: str) -> set[str]:
    return set("".join(c if c.isalnum() or c == "_" else " " for c in source).split())


def _calls(rows: Sequence[Row], module: str) -> str:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(HERE / "templates"),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        autoescape=False,
    )
    of_any = set.intersection(*(set(row.problems.split(", ")) for row in rows))
    environment.filters["documentation"] = partial(_documentation, of_any=of_any)
    environment.filters["reference"] = _reference
    return environment.get_template(f"{module}.py.jinja").render(rows=rows)


def _documentation(row: Row, of_any: set[str]) -> str:
    """Text of a call's docstring: what it does, what each argument means, which problems it can raise beyond those
    that any call can."""
    arguments = [*row.path_arguments, *row.arguments]
    parts = [f"{row.summary}."]
    # The first paragraph; the document has the rest.
    parts += [_wrapped(part) for part in row.says.split("\n\n")[:1] if part]
    parts.append("\n".join(_wrapped(f"{one.name} : {one.says}") for one in arguments if one.says))
    if row.body:
        parts.append(_wrapped(f"Takes a `models.{row.body}`, or its members as keywords."))
    own = [code for code in row.problems.split(", ") if code and code not in of_any]
    parts.append(_wrapped(f"Problems: {', '.join(own)}.") if own else "")
    text = "\n\n".join(part for part in parts if part)
    text = _escaped(text)
    return text if "\n" not in text else text + "\n        "


def _reference(row: Row) -> str:
    """Docstring of the call for asyncio: the other client says it all, and a wheel need not hold it twice."""
    return f"{_escaped(row.summary)}: see `Client.{row.name}`."


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"""', "'''")


def _wrapped(text: str) -> str:
    return textwrap.fill(text, 110, initial_indent=_INDENT, subsequent_indent=_INDENT, break_on_hyphens=False)


def _formatted(source: str) -> str:
    """Isolated: no setting of the folder it happens to run in may change the bytes."""
    for command in (
        ["check", "--isolated", "--config", _SORTED, "--select", "I,F401", "--fix", "--quiet"],
        ["format", "--isolated", "--quiet"],
    ):
        done = subprocess.run(
            [sys.executable, "-m", "ruff", *command, "--line-length", "120", "--stdin-filename", "generated.py", "-"],
            input=source,
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode != 0:
            raise ValueError(f"ruff: {done.stderr[-2000:]}\n{source[:500]}")
        source = done.stdout
    return source


if __name__ == "__main__":
    sys.exit(main())
