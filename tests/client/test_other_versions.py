"""Can the client be used with an older service, and with a newer one?

An older service is one that answers as the last released document says; a newer one has more members and more words.
Until a first document is released, an older one is planted: what is held against it must be found to break.
"""

from __future__ import annotations

import copy
import importlib
import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import msgspec
import pytest
from ampwright_client import models

ROOT = Path(__file__).resolve().parents[2]
CONTRACT = ROOT / "openapi" / "ampwright-v1.json"
REF = "#/components/schemas/"
Json = dict[str, Any]


def by_number(file: Path) -> tuple[int, ...]:
    return tuple(int(part) for part in file.stem.split("."))


LAST = sorted((ROOT / "openapi" / "released").glob("*.json"), key=by_number)[-1:]  # none before the first release
NOW: Json = json.loads(CONTRACT.read_text("utf-8"))


def answers(document: Json) -> Iterator[tuple[str, str, Any]]:
    """Operation and example, name of the schema, and an answer or line of one, of all that a document shows."""
    for item in document["paths"].values():
        for operation in item.values():
            for status, response in operation["responses"].items():
                for content in response.get("content", {}).values():
                    name = content.get("schema", {}).get("$ref", "").removeprefix(REF)
                    for example, shown in content.get("examples", {}).items() if name else ():
                        yield f"{operation['operationId']} {status} {example}", name, shown["value"]


def unread(document: Json, structs: ModuleType = models) -> list[str]:
    """What of a document's answers the client's Structs cannot read, one line each."""
    against = []
    for where, name, value in answers(document):
        kind = getattr(structs, name, None)
        if kind is None:
            against.append(f"{where}: there is no {name}")
            continue
        try:
            msgspec.json.decode(msgspec.json.encode(value), type=kind)
        except msgspec.ValidationError as error:
            against.append(f"{where}: {error}")
    return against


def later(value: Any, schema: Json, *, words: bool) -> Any:
    """The same as a service of 2031 might say it: a new member in every object, a new word (`words`) in every list.

    What the contract leaves open (any JSON, such as the value of a step of RFC 6902) stays as it is.
    """
    if "$ref" in schema:
        return later(value, NOW["components"]["schemas"][schema["$ref"].removeprefix(REF)], words=words)
    if "oneOf" in schema and isinstance(value, dict):
        tag = schema["discriminator"]["propertyName"]
        return later(value, {"$ref": schema["discriminator"]["mapping"][value[tag]]}, words=words)
    if isinstance(value, list) and "items" in schema:
        return [later(one, schema["items"], words=words) for one in value]
    if isinstance(value, dict) and "properties" in schema:
        members = schema["properties"]
        told = {key: later(one, members[key], words=words) if key in members else one for key, one in value.items()}
        return told | {"member_of_2031": {"deep": [1]}}
    return "word_of_2031" if words and isinstance(value, str) and "enum" in schema else value


@pytest.mark.parametrize("file", LAST, ids=lambda file: file.stem)
def test_a_service_of_the_last_release_is_read(file: Path) -> None:
    assert unread(json.loads(file.read_text("utf-8"))) == []


def test_a_service_of_today_is_read() -> None:
    assert sum(1 for _ in answers(NOW)) > 150
    assert unread(NOW) == []


@pytest.mark.parametrize(
    ("name", "value"), [(name, value) for _, name, value in answers(NOW)], ids=[where for where, *_ in answers(NOW)]
)
def test_a_newer_service_is_read(name: str, value: Any) -> None:
    """More members change nothing; more words are read as text."""
    kind, schema = getattr(models, name), NOW["components"]["schemas"][name]
    known = msgspec.json.decode(msgspec.json.encode(value), type=kind)
    more_members = msgspec.json.encode(later(value, schema, words=False))
    assert b"member_of_2031" in more_members
    assert msgspec.json.decode(more_members, type=kind) == known
    msgspec.json.decode(msgspec.json.encode(later(value, schema, words=True)), type=kind)


def test_new_words_are_really_put_in() -> None:
    value = {"verdict": {"overall": "pass", "capacity": "pass", "safety": "fail"}, "crew_card": []}
    changed = later(value, NOW["components"]["schemas"]["LoadCheckAnswer"], words=True)
    assert changed["verdict"].pop("member_of_2031")
    assert set(changed["verdict"].values()) == {"word_of_2031"}


def _schema(document: Json, name: str) -> Json:
    found: Json = document["components"]["schemas"][name]
    return found


# What a service of then did not give, or gave otherwise.
OTHERWISE: dict[str, Callable[[Json], object]] = {
    "a member is missing": lambda answer: answer.pop("notice"),
    "a member has another type": lambda answer: answer.update(notice=[1]),
    "a verdict has another form": lambda answer: answer.update(verdict="pass"),
}


@pytest.mark.parametrize("name", OTHERWISE)
def test_an_answer_that_cannot_be_read_is_found(name: str) -> None:
    older = copy.deepcopy(NOW)
    content = older["paths"]["/v1/load-checks"]["post"]["responses"]["200"]["content"]["application/json"]
    OTHERWISE[name](next(iter(content["examples"].values()))["value"])
    [found] = unread(older)
    assert found.startswith("check_load 200 ")


# --- the next release: a member that answers did not have then --------------------------------------------------------


@pytest.fixture(scope="module")
def generate() -> Iterator[Any]:
    pytest.importorskip("datamodel_code_generator", reason="needs the lint extra")
    folder = str(ROOT / "client" / "generator")
    sys.path.insert(0, folder)
    try:
        yield importlib.import_module("generate")
    finally:
        sys.path.remove(folder)


def grown() -> Json:
    """A contract of later: load checks have one more member, always."""
    more = copy.deepcopy(NOW)
    schema = _schema(more, "LoadCheckAnswer")
    schema["properties"]["weather"] = {"type": "string", "description": "The weather it was worked out for."}
    schema["required"].append("weather")
    return more


def structs_of(generate: Any, folder: Path, released: Json | None, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The Structs made of that contract, where `released` was released before it."""
    package = folder / f"later_{released is not None}"
    package.mkdir()
    files = generate.generated(
        json.dumps(grown()).encode(), None if released is None else json.dumps(released).encode()
    )
    for name in ("models.py", "words.py"):
        (package / name).write_text(files[name].replace("ampwright_client._generated", package.name))
    (package / "__init__.py").write_text("")
    monkeypatch.syspath_prepend(str(folder))
    return importlib.import_module(f"{package.name}.models")


def test_a_member_that_is_new_may_be_missing(generate: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Made with the released contract beside it, the client of then reads the service of now; without, it does not."""
    beside = structs_of(generate, tmp_path, NOW, monkeypatch)
    assert unread(NOW, beside) == []
    assert beside.LoadCheckAnswer.__annotations__["weather"] == "str | UnsetType"
    alone = structs_of(generate, tmp_path, None, monkeypatch)
    broken = unread(NOW, alone)
    assert broken
    assert all("weather" in one for one in broken)


def test_the_last_release_is_that_of_the_highest_number(generate: Any, tmp_path: Path) -> None:
    assert generate.last_released(tmp_path) is None
    for number in ("1.9.0", "1.10.0", "1.2.3"):
        (tmp_path / f"{number}.json").write_text(f'"{number}"')
    assert generate.last_released(tmp_path) == b'"1.10.0"'
