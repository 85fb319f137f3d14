"""Is a change that would break a caller told, a harmless one let pass, and nothing broken since the last release?"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from contract.breaking_changes import breaking_changes

OPENAPI = Path(__file__).parents[2] / "openapi"
NOW = json.loads((OPENAPI / "ampwright-v1.json").read_text("utf-8"))
RELEASED = sorted((OPENAPI / "released").glob("*.json"))
Change = Callable[[dict[str, Any]], Any]


def _schemas(document: dict[str, Any]) -> dict[str, Any]:
    schemas: dict[str, Any] = document["components"]["schemas"]
    return schemas


def _load_check(document: dict[str, Any]) -> dict[str, Any]:
    operation: dict[str, Any] = document["paths"]["/v1/load-checks"]["post"]
    return operation


BREAKING: dict[str, Change] = {
    "an operation goes": lambda it: it["paths"].pop("/v1/load-checks"),
    "an operation is renamed": lambda it: _load_check(it).update(operationId="another"),
    "a member becomes required": lambda it: _schemas(it)["LoadCheckRequest"]["required"].append("people"),
    "a member of a request goes": lambda it: _schemas(it)["LoadCheckRequest"]["properties"].pop("people"),
    "a member of an answer goes": lambda it: _schemas(it)["LoadCheckAnswer"]["properties"].pop("crew_card"),
    "a member of an answer may be missing": lambda it: _schemas(it)["LoadCheckAnswer"]["required"].remove("verdict"),
    "a list takes fewer": lambda it: _schemas(it)["LoadCheckRequest"]["properties"]["tools"].update(maxItems=1),
    "a pattern narrows": lambda it: _schemas(it)["LoadCheckRequest"]["properties"]["people"].update(pattern="^x$"),
    "a kind is no longer taken": lambda it: _schemas(it)["Vehicle"]["properties"]["kind"].update(const="car"),
    "a status goes": lambda it: _load_check(it)["responses"].pop("200"),
    "a required parameter comes": lambda it: _load_check(it).update(
        parameters=[{"in": "query", "name": "mode", "required": True, "schema": {"type": "string"}}]
    ),
    "a type of an answer changes": lambda it: _schemas(it)["CrewLine"]["properties"].update(text={"type": "integer"}),
}
HARMLESS: dict[str, Change] = {
    "an operation comes": lambda it: it["paths"].update({"/v1/new": {"get": {"operationId": "x", "responses": {}}}}),
    "an optional member of a request comes": lambda it: _schemas(it)["LoadCheckRequest"]["properties"].update(
        mood={"type": "string"}
    ),
    "a member of an answer comes": lambda it: _schemas(it)["LoadCheckAnswer"]["properties"].update(
        mood={"type": "string"}
    ),
    "a list takes more": lambda it: _schemas(it)["LoadCheckRequest"]["properties"]["tools"].update(maxItems=100_000),
    "words of a description": lambda it: _load_check(it).update(description="Other words."),
}


@pytest.mark.parametrize("name", BREAKING)
def test_breaking_change_is_told(name: str) -> None:
    changed = copy.deepcopy(NOW)
    BREAKING[name](changed)
    assert breaking_changes(NOW, changed)


@pytest.mark.parametrize("name", HARMLESS)
def test_harmless_change_is_let_pass(name: str) -> None:
    changed = copy.deepcopy(NOW)
    HARMLESS[name](changed)
    assert breaking_changes(NOW, changed) == []


def test_a_word_more_in_an_answer_breaks_and_in_a_request_does_not() -> None:
    """Lists of requests may grow; closed lists of answers may not."""
    document = {"openapi": "3.1.0", "paths": {"/a": {"post": {
        "operationId": "a",
        "requestBody": {"content": {"application/json": {"schema": {"enum": ["x"]}}}},
        "responses": {"200": {"content": {"application/json": {"schema": {"enum": ["x"]}}}}},
    }}}}  # fmt: skip
    more = copy.deepcopy(document)
    operation: Any = more["paths"]
    operation["/a"]["post"]["requestBody"]["content"]["application/json"]["schema"]["enum"].append("y")
    assert breaking_changes(document, more) == []
    assert breaking_changes(more, document)
    operation["/a"]["post"]["responses"]["200"]["content"]["application/json"]["schema"]["enum"].append("y")
    assert breaking_changes(document, more)


def _of_start(document: dict[str, Any]) -> list[dict[str, Any]]:
    kinds: list[dict[str, Any]] = _schemas(document)["Start"]["oneOf"]
    return kinds


def test_what_is_given_back_as_it_was_sent_may_grow_and_may_not_shrink() -> None:
    more = copy.deepcopy(NOW)
    _of_start(more).append({"$ref": "#/components/schemas/ClutchStart"})
    _schemas(more)["ClutchStart"] = copy.deepcopy(_schemas(more)["ResistiveStart"])
    _schemas(more)["ToolProfile"]["properties"]["load_class"]["enum"].append("chop_saw")
    assert breaking_changes(NOW, more) == []
    assert breaking_changes(more, NOW)
    # what only answers hold stays closed: their lines, and their verdicts
    _schemas(more)["EnergyBatchLine"]["oneOf"].append({"$ref": "#/components/schemas/ClutchStart"})
    assert any("ClutchStart" in line for line in breaking_changes(NOW, more))
    words = copy.deepcopy(NOW)
    _schemas(words)["CaseResult"]["properties"]["verdict"]["enum"].append("perhaps")
    assert any("verdict" in line for line in breaking_changes(NOW, words))


@pytest.mark.parametrize("file", RELEASED, ids=lambda file: file.stem)
def test_nothing_that_was_released_is_broken(file: Path) -> None:
    assert breaking_changes(json.loads(file.read_text("utf-8")), NOW) == []
