"""Do the links of the document lead to where they say?

Source: OpenAPI Specification 3.1.0, 4.8.20 (Link Object) and 4.8.20.4 (runtime expressions).
"""

from __future__ import annotations

import functools
import json
from pathlib import Path
from typing import Any

import pytest
from ampwright.api.examples import load_examples
from ampwright.app import document
from api.replayed_examples import OPERATIONS, send
from litestar.testing import TestClient
from service_with_demo import demo_client

DOCUMENT = json.loads(document())
BY_ID = {
    operation["operationId"]: (path, method, operation)
    for path, item in DOCUMENT["paths"].items()
    for method, operation in item.items()
}
LINKS = [
    pytest.param(operation_id, status, name, id=f"{operation_id}-{status}-{name}")
    for operation_id, (_, _, operation) in BY_ID.items()
    for status, response in operation["responses"].items()
    for name in response.get("links", {})
]


def evaluated(expression: str, response: Any) -> Any:
    """A runtime expression, of those that the document uses."""
    place, _, what = expression.removeprefix("$response.").partition("#" if "#" in expression else ".")
    if place == "body":
        return functools.reduce(lambda value, name: value[name], what[1:].split("/"), response.json())
    assert place == "header", expression
    return response.headers[what]


def test_writing_leads_to_reading() -> None:
    """What adds something says which operations take its key."""
    found = {param.values[0] for param in LINKS}
    assert found >= {name for name, (_, _, operation) in BY_ID.items() if "201" in operation["responses"]} - {
        name for name in BY_ID if name.startswith(("withdraw_", "import_"))
    }


@pytest.mark.parametrize(("operation_id", "status", "name"), LINKS)
def test_a_link_fits_its_target(operation_id: str, status: str, name: str) -> None:
    link = BY_ID[operation_id][2]["responses"][status]["links"][name]
    _, _, target = BY_ID[link["operationId"]]
    own = {row["name"] for row in target["parameters"]}
    needed = {row["name"] for row in target["parameters"] if row["required"]}
    assert needed <= set(link["parameters"]) <= own


@pytest.mark.parametrize("operation_id", sorted({param.values[0] for param in LINKS if param.values[1] == "201"}))
def test_what_was_written_is_found_by_its_links(operation_id: str, tmp_path: Path) -> None:
    example = next(one for one in load_examples(operation_id).values() if one.status == 201)
    links = BY_ID[operation_id][2]["responses"]["201"]["links"]
    with demo_client(tmp_path) as client:
        for step in example.given:
            of, _, which = step.partition("/")
            send(client, OPERATIONS[of], load_examples(of)[which])
        written = send(client, OPERATIONS[operation_id], example)
        assert written.status_code == 201, written.text
        for link in links.values():
            assert _followed(client, link, written).status_code in (200, 201), link


def _followed(client: TestClient[Any], link: dict[str, Any], written: Any) -> Any:
    """The call that a link describes, with an example of its target for what the link leaves open."""
    path, method, target = BY_ID[link["operationId"]]
    given = {name: evaluated(expression, written) for name, expression in link["parameters"].items()}
    headers = {row["name"]: given[row["name"]] for row in target["parameters"] if row["in"] == "header"}
    if key := written.json().get("secret"):  # once there is a key, one is asked for
        headers["Authorization"] = f"Bearer {key}"
    bodies = [one.request for one in load_examples(link["operationId"]).values() if one.status in (200, 201)]
    body = {"json": bodies[0]} if "requestBody" in target else {}
    return client.request(method, path.format_map(given), headers=headers, **body)
