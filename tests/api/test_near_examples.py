"""Does a request that is nearly right get an answer as the document promises it, or a refusal that points into it?

`AMPWRIGHT_TEST_FUZZ=long pytest -n 2 tests/api/test_near_examples.py` sends fifty times as many.
"""

from __future__ import annotations

import json
import math
from collections import Counter
from typing import Any

import pytest
import schemathesis
from ampwright.app import create_app, document
from ampwright.settings import Settings
from api.fuzzed_service import CONFIG, KEY
from api.near_examples import near
from api.replayed_examples import OPERATIONS
from fuzzed_cases import ANSWERED, EXTENT, NEAR, SENT, same_each_time
from hypothesis import Phase, given
from service_with_demo import demo_database

EXAMPLES = {"gate": 20, "long": 1000, "all": 2000}[EXTENT]
CALCULATIONS = [name for name, operation in OPERATIONS.items() if operation.scope == "calculate"]


@pytest.fixture(scope="module")
def schema(tmp_path_factory: pytest.TempPathFactory) -> Any:
    KEY.clear()  # this database has none
    url = demo_database(f"sqlite:///{tmp_path_factory.mktemp('near') / 'demo.db'}")
    made = schemathesis.openapi.from_dict(json.loads(document()), config=CONFIG)
    made.app = create_app(Settings(database_url=url))
    return made


def points_into(pointer: str, sent: Any) -> bool:
    """Whether a JSON Pointer (RFC 6901) names something that was sent, or a member that is not there of what was."""
    steps = [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
    for place, step in enumerate(steps):
        if isinstance(sent, list) and step.isdigit() and int(step) < len(sent):
            sent = sent[int(step)]
        elif isinstance(sent, dict) and step in sent:
            sent = sent[step]
        else:
            return isinstance(sent, dict) and place == len(steps) - 1
    return True


@pytest.mark.parametrize("operation_id", CALCULATIONS)
def test_nearly_right_is_answered_as_promised(schema: Any, operation_id: str, record_property: Any) -> None:
    operation = schema[OPERATIONS[operation_id].path]["POST"]
    answered: Counter[str] = Counter()

    @same_each_time(max_examples=EXAMPLES, phases=[Phase.generate, Phase.shrink])
    @given(body=near(operation_id))
    def promises_are_kept(body: Any) -> None:
        response = operation.Case(body=body, media_type="application/json").call_and_validate()
        answered[NEAR] += 1
        answered[ANSWERED] += response.status_code < 300
        assert response.status_code in (200, 400, 404, 422), response.text
        if response.status_code != 200:
            said = response.json()
            assert said.get("errors") or said["type"] == "/problems/too-much-work", "it lists its faults"
            for fault in said.get("errors", ()):
                assert points_into(fault["pointer"], body), (fault, body)
        else:
            for line in response.text.splitlines():
                assert all(math.isfinite(number) for number in _numbers(json.loads(line)))

    promises_are_kept()
    assert answered[ANSWERED], "they are near enough for some to be answered"
    record_property(SENT, dict(answered))


def _numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [number for inner in value.values() for number in _numbers(inner)]
    if isinstance(value, list):
        return [number for inner in value for number in _numbers(inner)]
    return [value] if isinstance(value, int | float) else []
