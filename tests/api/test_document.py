"""Does the document say what the service does?"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import msgspec
import pytest
from ampwright import app
from ampwright.api import schemas
from ampwright.api.examples import FOLDER
from ampwright.api.openapi import openapi_document
from ampwright.api.operations import Call, Operations
from ampwright.api.problems import ProblemError
from api import trial_resource
from api.replayed_examples import OPERATIONS
from api.trial_resource import Item, TrialAnswer, TrialRequest
from litestar.testing import TestClient
from schemathesis.specs.openapi.definitions import OPENAPI_31_VALIDATOR

RELEASED = Path(__file__).parents[2] / "openapi" / "ampwright-v1.json"


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    unions = schemas.named_unions(trial_resource)  # type: ignore[arg-type]
    return json.loads(openapi_document([trial_resource.operations], version="0", unions=unions))


def _references(node: Any) -> set[str]:
    if isinstance(node, dict):
        own = {node["$ref"]} if isinstance(node.get("$ref"), str) else set()
        own |= set(node.get("discriminator", {}).get("mapping", {}).values()) if "oneOf" in node else set()
        return own.union(*(_references(one) for one in node.values()))
    if isinstance(node, list):
        return set().union(*(_references(one) for one in node))
    return set()


@pytest.mark.parametrize("whole", [False, True])
def test_document_is_openapi_3_1(document: dict[str, Any], whole: bool) -> None:
    """Held against the published schema of OpenAPI 3.1, which schemathesis carries."""
    shown = json.loads(app.document()) if whole else document
    OPENAPI_31_VALIDATOR.validate(shown)
    for name, schema in shown["components"]["schemas"].items():
        jsonschema.Draft202012Validator.check_schema(schema)
        assert name == schema["title"]
    for reference in _references(shown):
        kind, name = reference.removeprefix("#/components/").split("/")
        assert name in shown["components"][kind], reference


def test_document_is_the_released_file() -> None:
    """A change of the contract is seen in review. To accept it: ampwright openapi --output FILE."""
    assert RELEASED.is_file()
    assert app.document() == RELEASED.read_bytes()


def test_document_is_served(client: TestClient) -> None:
    served = client.get("/openapi.json")
    assert served.content == app.document((trial_resource.operations,))
    again = client.get("/openapi.json", headers={"if-none-match": served.headers["etag"]})
    assert again.status_code == 304


def test_bytes_do_not_depend_on_hashing() -> None:
    """Two processes with other hash seeds print the same bytes."""
    runs = [
        subprocess.run(
            [sys.executable, "-m", "ampwright.cli", "openapi"],
            env={"PYTHONHASHSEED": seed, "PATH": "/usr/bin:/bin", "HOME": str(Path.home())},
            capture_output=True,
            check=True,
            timeout=120,
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1] == app.document()
    assert runs[0].endswith(b"}\n")


def test_struct_is_shown_whole(document: dict[str, Any]) -> None:
    shown = document["components"]["schemas"]
    assert shown["TrialRequest"]["description"] == "Things to count."
    assert shown["TrialRequest"]["additionalProperties"] is False
    # Answers may gain members without breaking a caller.
    assert "additionalProperties" not in shown["TrialAnswer"]
    assert list(shown["Item"]["properties"]) == ["id", "laid", "ratio", "mode", "flags"]
    # As declared, not sorted.
    assert shown["Item"]["properties"]["mode"] == {
        "type": "string",
        "enum": ["working", "idle", "heavy"],
        "default": "idle",
    }
    assert shown["Reel"]["properties"]["kind"] == {"type": "string", "const": "reel"}
    assert shown["Reel"]["properties"]["layers"]["maximum"] == 6


def test_union_has_its_name_and_discriminator(document: dict[str, Any]) -> None:
    shown = document["components"]["schemas"]
    assert shown["Item"]["properties"]["laid"] == {"$ref": "#/components/schemas/Laid"}
    assert shown["TrialAnswer"]["properties"]["laid"]["items"] == {"$ref": "#/components/schemas/Laid"}
    assert shown["Laid"] == {
        "title": "Laid",
        "oneOf": [{"$ref": "#/components/schemas/Reel"}, {"$ref": "#/components/schemas/Straight"}],
        "discriminator": {
            "propertyName": "kind",
            "mapping": {"reel": "#/components/schemas/Reel", "straight": "#/components/schemas/Straight"},
        },
    }


def test_parameters_and_statuses_are_shown(document: dict[str, Any]) -> None:
    put = document["paths"]["/v1/entries/{slug}"]["put"]
    by_name = {one["name"]: one for one in put["parameters"]}
    assert by_name["slug"]["in"] == "path"
    assert by_name["If-Match"]["required"] is True
    pattern = by_name["If-Match"]["schema"]["pattern"]
    assert re.search(pattern, '"r3"')
    assert not any(re.search(pattern, garbage) for garbage in ("r3", '"r0"', '"r3" ', "*", '"r9999999999"'))
    assert sorted(put["responses"]) == sorted(
        ["200", "201", "400", "401", "403", "406", "408", "412", "413", "414", "415", "422", "428", "431", "500", "503"]
    )  # fmt: skip
    get = document["paths"]["/v1/entries/{slug}"]["get"]
    assert "304" in get["responses"]
    assert "ETag" in get["responses"]["200"]["headers"]
    assert [one["required"] for one in get["parameters"]] == [True, False, False]
    assert document["paths"]["/v1/given-up"]["get"]["deprecated"] is True
    assert "Retry-After" in put["responses"]["503"]["headers"]
    for operations in document["paths"].values():
        for operation in operations.values():
            for status, response in operation["responses"].items():
                if status >= "400":
                    assert list(response["content"]) == ["application/problem+json"]


ACCEPTED_OR_NOT: list[tuple[Any, bool]] = [
    ({"items": [{"id": "a"}]}, True),
    ({"items": [{"id": "a", "laid": {"kind": "reel", "layers": 6}}]}, True),
    ({"items": [{"id": "a", "laid": {"kind": "reel", "layers": 7}}]}, False),
    ({"items": [{"id": "a", "laid": {"kind": "straight", "layers": 6}}]}, False),
    ({"items": [{"id": "a", "laid": {"kind": "straight", "length": "5 m"}}]}, True),
    ({"items": [{"id": "a", "laid": {"kind": "straight", "length": "5"}}]}, False),
    ({"items": [{"id": "a", "mode": "heavy", "ratio": 1.0, "flags": []}]}, True),
    ({"items": [{"id": "a", "mode": "Heavy"}]}, False),
    ({"items": [{"id": "a", "ratio": None}]}, False),
    ({"items": [{"id": "a"}], "more": 1}, False),
    ({"items": []}, False),
    ({}, False),
    ([], False),
]


@pytest.mark.parametrize(("value", "accepted"), ACCEPTED_OR_NOT)
def test_schema_and_service_agree(document: dict[str, Any], client: TestClient, value: Any, accepted: bool) -> None:
    """What the schema calls valid is accepted, and nothing else; the judge of the schema is jsonschema."""
    schema = {"$ref": "#/components/schemas/TrialRequest", "components": document["components"]}
    assert jsonschema.Draft202012Validator(schema).is_valid(value) is accepted
    assert (client.post("/v1/trials", json=value).status_code == 200) is accepted


def test_examples_come_from_files(tmp_path: Path) -> None:
    folder = tmp_path / "create_trial"
    folder.mkdir()
    (folder / "one.json").write_text(
        json.dumps({"summary": "One thing", "request": {"items": [{"id": "a"}]}, "response": {"count": 1, "laid": []}})
    )
    (folder / "two-of-one-name.json").write_text(
        json.dumps({"summary": "A contradiction", "request": {"items": []}, "status": 422, "response": {"status": 422}})
    )
    shown = json.loads(openapi_document([trial_resource.operations], version="0", examples=tmp_path))
    trial = shown["paths"]["/v1/trials"]["post"]
    content = trial["requestBody"]["content"]["application/json"]
    assert list(content["examples"]) == ["one", "two-of-one-name"]
    assert list(trial["responses"]["200"]["content"]["application/json"]["examples"]) == ["one"]
    assert list(trial["responses"]["422"]["content"]["application/problem+json"]["examples"]) == ["two-of-one-name"]
    (folder / "bad.json").write_text('{"summry": "misspelt"}')
    with pytest.raises(ValueError, match=r"bad\.json"):
        openapi_document([trial_resource.operations], version="0", examples=tmp_path)


def test_no_example_belongs_to_nothing() -> None:
    assert {file.name for file in FOLDER.iterdir() if file.is_dir()} <= set(OPERATIONS)


def test_declaration_that_cannot_be_is_refused() -> None:
    operations = Operations("Wrong")

    async def in_no_lane(call: Call) -> TrialAnswer:
        """Answer."""
        raise AssertionError

    def strange(thing: Item) -> TrialAnswer:
        """Answer."""
        raise AssertionError(thing)

    def nameless(body: TrialRequest) -> TrialAnswer:
        raise AssertionError(body)

    for handler, options in (
        (in_no_lane, {"lane": "calculation"}),
        (strange, {"lane": "calculation"}),
        (strange, {}),
        (nameless, {"lane": "calculation"}),
        (in_no_lane, {"problems": ("no-such-problem",)}),
    ):
        with pytest.raises(TypeError):
            operations.get("/wrong", "wrong", **options)(handler)
    with pytest.raises(KeyError):
        ProblemError("no-such-problem")
    assert list(operations) == []


def test_problem_example_is_a_problem(document: dict[str, Any], client: TestClient) -> None:
    """A real problem validates against the schema that is published for it."""
    schema = {"$ref": "#/components/schemas/Problem", "components": document["components"]}
    for response in (client.get("/nowhere"), client.post("/v1/trials", json={})):
        jsonschema.Draft202012Validator(schema).validate(msgspec.json.decode(response.content))
