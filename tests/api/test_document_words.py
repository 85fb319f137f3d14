"""Does the document say enough, and say it truly, to those who have nothing else?"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
from ampwright import app
from ampwright.api.examples import load_examples
from ampwright.api.problems import PROBLEM_TYPES
from api.replayed_examples import NAMES, OPERATIONS, Replay
from msgspec import UNSET

LINES = "application/x-ndjson"


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return json.loads(app.document())


@pytest.fixture(scope="module")
def replay(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Replay]:
    made = Replay(tmp_path_factory.mktemp("words"))
    yield made
    made.close()


def described(document: dict[str, Any]) -> list[dict[str, Any]]:
    return [operation for item in document["paths"].values() for operation in item.values()]


def fits(document: dict[str, Any], schema: dict[str, Any], value: Any) -> list[str]:
    """What a value has against a schema; the judge is jsonschema."""
    judge = jsonschema.Draft202012Validator({**schema, "components": document["components"]})
    return [f"{error.json_path}: {error.message[:200]}" for error in judge.iter_errors(value)]


def test_every_operation_is_named_and_told(document: dict[str, Any]) -> None:
    names = [one["operationId"] for one in described(document)]
    assert sorted(names) == sorted(OPERATIONS)
    assert [name for name in names if not re.fullmatch(r"[a-z]+(_[a-z]+)*", name)] == []
    assert [one["operationId"] for one in described(document) if not one.get("summary")] == []
    tags = {tag["name"]: tag.get("description", "") for tag in document["tags"]}
    assert {name for one in described(document) for name in one["tags"]} == set(tags)
    assert [name for name, text in tags.items() if not text] == []


def test_a_probability_is_bounded_as_one(document: dict[str, Any]) -> None:
    """Kolmogorov's axioms: a probability lies between 0 and 1; so does a part of a whole."""
    found = 0
    for schema in document["components"]["schemas"].values():
        for name, member in schema.get("properties", {}).items():
            if re.search(r"(probability|share)_ratio$", name) and member.get("type") == "number":
                found += 1
                assert (member["minimum"], member["maximum"]) == (0, 1), name
    assert found >= 8


def test_nothing_is_said_twice_in_one_breath(document: dict[str, Any]) -> None:
    def told(part: Any, at: str) -> Iterator[tuple[str, str]]:
        for name, value in part.items() if isinstance(part, dict) else enumerate(part):
            if name == "description" and isinstance(value, str):
                yield at, value
            elif isinstance(value, dict | list):
                yield from told(value, f"{at}/{name}")

    found = list(told({key: value for key, value in document.items() if key != "info"}, ""))
    assert len(found) > 1000
    for at, text in found:
        sentences = re.split(r"(?<=[.;]) ", text)
        assert len(set(sentences)) == len(sentences), at


def test_every_problem_has_its_page(document: dict[str, Any]) -> None:
    told = set(re.findall(r"\(/problems/([a-z-]+)\)", json.dumps(document)))
    assert told <= set(PROBLEM_TYPES)
    links = re.findall(r"\]\((/[^)]*)\)", json.dumps(document))
    assert {link for link in links if not link.startswith(("/problems/", "/guides/"))} == set()


def test_examples_of_the_document_fit_their_schemas(document: dict[str, Any]) -> None:
    """Programs send what they find among examples, and make test data of it."""
    against: list[str] = []
    for operation in described(document):
        name = operation["operationId"]
        shown = [(f"{name} {one['name']}", one) for one in operation.get("parameters", [])]
        body = operation.get("requestBody", {}).get("content", {})
        shown += [(f"{name} body", content) for content in body.values()]
        for status, response in operation["responses"].items():
            shown += [(f"{name} {status} {kind}", content) for kind, content in response.get("content", {}).items()]
        for where, one in shown:
            for example, content in one.get("examples", {}).items():
                against += [f"{where} {example}: {it}" for it in fits(document, one["schema"], content["value"])]
    assert against == []


@pytest.mark.parametrize(("operation_id", "name"), NAMES, ids=["/".join(one) for one in NAMES])
def test_misspelt_examples_are_misspelt(document: dict[str, Any], operation_id: str, name: str) -> None:
    example = load_examples(operation_id)[name]
    if example.request is UNSET:
        assert not example.misspelt
        return
    operation = OPERATIONS[operation_id]
    body = document["paths"][operation.path][operation.method.lower()]["requestBody"]["content"]["application/json"]
    against = fits(document, body["schema"], example.request)
    assert bool(against) is example.misspelt, f"say `misspelt` in the example where, and only where, it is: {against}"


@pytest.mark.parametrize(
    ("operation_id", "name"),
    [
        (operation_id, name)
        for operation_id, name in NAMES
        if load_examples(operation_id)[name].response is UNSET or load_examples(operation_id)[name].excerpt
    ],
    ids=lambda one: one,
)
def test_answers_that_are_too_long_to_show_fit_too(
    replay: Replay, document: dict[str, Any], operation_id: str, name: str
) -> None:
    response = replay.answer(operation_id, name)
    operation = OPERATIONS[operation_id]
    answers = document["paths"][operation.path][operation.method.lower()]["responses"]
    media_type = response.headers.get("content-type", "").partition(";")[0]
    if not media_type:
        assert "content" not in answers[str(response.status_code)]
        return
    schema = answers[str(response.status_code)]["content"][media_type]["schema"]
    if media_type == LINES and "$ref" in schema:
        values = [json.loads(line) for line in response.text.splitlines()]
    else:
        values = [response.json() if media_type.endswith("json") else response.text]
    assert [it for value in values for it in fits(document, schema, value)] == []
