"""Is every example of the document what the service answers, and does every operation have two?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.api.examples import Example, load_examples
from api.replayed_examples import NAMES, OPERATIONS, Replay, content_of
from msgspec import UNSET


@pytest.fixture(scope="module")
def replay(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Replay]:
    made = Replay(tmp_path_factory.mktemp("examples"))
    yield made
    made.close()


def test_every_operation_has_two() -> None:
    assert [operation_id for operation_id in OPERATIONS if len(load_examples(operation_id)) < 2] == []


@pytest.mark.parametrize(("operation_id", "name"), NAMES, ids=["/".join(one) for one in NAMES])
def test_example_is_what_the_service_answers(replay: Replay, operation_id: str, name: str) -> None:
    example = load_examples(operation_id)[name]
    response = replay.answer(operation_id, name)
    assert response.status_code == example.status, response.text
    if example.response is not UNSET:
        assert shown_of(content_of(response), example) == example.response


def shown_of(content: Any, example: Example) -> Any:
    """What an example shows of an answer: of a list that grows some rows, each as it is."""
    if not example.excerpt:
        return content
    assert isinstance(example.response, dict)
    assert example.response["items"]
    return content | {"items": [row for row in content["items"] if row in example.response["items"]]}
