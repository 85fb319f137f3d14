"""Is the house what DEVELOPERS.md says it is?

Not here: import contracts (lint-imports), kernels (tests/engine/physics/test_compile.py), docstrings of standards.
"""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import subprocess
import types
import typing
from pathlib import Path
from typing import Annotated, Any

import ampwright.contract
import msgspec
import pytest
from ampwright.app import RESOURCES
from msgspec import Meta, Struct

ROOT = Path(__file__).parents[2]
MODULES = [
    importlib.import_module(found.name)
    for found in pkgutil.walk_packages(ampwright.contract.__path__, "ampwright.contract.")
]
STRUCTS = sorted(
    {
        one
        for module in MODULES
        for one in vars(module).values()
        if isinstance(one, type) and issubclass(one, Struct) and one.__module__.startswith("ampwright.contract.")
    },
    key=lambda one: (one.__module__, one.__name__),
)


def test_no_two_structs_share_a_name_or_take_one_of_typing() -> None:
    # the document's schemas are named after structs, and a generated client imports typing beside them
    names = [one.__name__ for one in STRUCTS]
    assert sorted({name for name in names if names.count(name) > 1}) == []
    assert sorted(set(names) & set(dir(typing))) == []


def bodies() -> list[type[Struct]]:
    found: dict[type[Struct], None] = {}
    for operations in RESOURCES:
        for operation in operations:
            for one in (operation.body, operation.path_parameters, operation.query, operation.headers):
                if one is not None:
                    gather(one, found)
    return sorted(found, key=lambda one: (one.__module__, one.__name__))


def gather(annotation: Any, found: dict[type[Struct], None]) -> None:
    if isinstance(annotation, type) and issubclass(annotation, Struct):
        if annotation not in found:
            found[annotation] = None
            for hint in typing.get_type_hints(annotation, include_extras=True).values():
                gather(hint, found)
        return
    for part in typing.get_args(annotation):
        if not isinstance(part, Meta | str):
            gather(part, found)


def unbounded(annotation: Any, meta: tuple[Meta, ...] = ()) -> list[str]:
    """What a caller could send without bound: numbers, texts and lists."""
    origin = typing.get_origin(annotation)
    if origin is Annotated:
        base, *extras = typing.get_args(annotation)
        return unbounded(base, (*meta, *(one for one in extras if isinstance(one, Meta))))
    if origin in (typing.Union, types.UnionType):
        return [fault for part in typing.get_args(annotation) for fault in unbounded(part, meta)]
    if annotation in (int, float):
        low = any(one.ge is not None or one.gt is not None for one in meta)
        high = any(one.le is not None or one.lt is not None for one in meta)
        return [] if low and high else ["a number without both bounds"]
    if annotation is str:
        return (
            []
            if any(one.max_length is not None or one.pattern is not None for one in meta)
            else ["a text without length"]
        )
    if origin is list:
        own = [] if any(one.max_length is not None for one in meta) else ["a list without length"]
        return own + unbounded(typing.get_args(annotation)[0])
    return []


@pytest.mark.parametrize("struct", bodies(), ids=lambda one: one.__name__)
def test_everything_a_caller_sends_is_bounded_and_unknown_members_are_refused(struct: type[Struct]) -> None:
    hints = typing.get_type_hints(struct, include_extras=True)
    loose = {field.name: faults for field in msgspec.structs.fields(struct) if (faults := unbounded(hints[field.name]))}
    assert loose == {}
    if struct.__module__.startswith("ampwright.contract."):
        assert struct.__struct_config__.forbid_unknown_fields


@pytest.mark.parametrize("struct", STRUCTS, ids=lambda one: f"{one.__module__}.{one.__name__}")
def test_every_struct_is_frozen(struct: type[Struct]) -> None:
    assert struct.__struct_config__.frozen


def tracked(pattern: str) -> list[Path]:
    listed = subprocess.run(["git", "ls-files", pattern], cwd=ROOT, capture_output=True, check=False, text=True).stdout
    return [ROOT / name for name in listed.splitlines() if (ROOT / name).is_file()]


def test_every_module_of_the_service_asks_its_question() -> None:
    silent = [
        str(path.relative_to(ROOT))
        for path in tracked("service/ampwright/**.py")
        if path.read_text("utf-8").strip() and not ast.get_docstring(ast.parse(path.read_text("utf-8")))
    ]
    assert silent == []


def test_the_lock_names_no_host() -> None:
    assert "://" not in (ROOT / "requirements.lock").read_text("utf-8")


def test_every_setting_and_command_is_documented_where_a_reader_looks() -> None:
    runbook = (ROOT / "deploy" / "RUNBOOK.md").read_text("utf-8")
    settings = (ROOT / "service/ampwright/settings.py").read_text("utf-8")
    for name in re.findall(r"AMPWRIGHT_[A-Z_]+", runbook):
        assert name in settings, f"the runbook names {name}, which is no setting"
