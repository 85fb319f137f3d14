"""Are callers of the last released document served by the service of today?"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from ampwright.app import document
from contract.released_calls import broken_promises
from service_with_demo import demo_database

FOLDER = Path(__file__).parents[2] / "openapi" / "released"
Json = dict[str, Any]


def by_number(file: Path) -> tuple[int, ...]:
    return tuple(int(part) for part in file.stem.split("."))


LAST = sorted(FOLDER.glob("*.json"), key=by_number)[-1:]  # none before the first release
NOW: Json = json.loads(document())


@pytest.fixture(scope="module")
def database_url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return demo_database(f"sqlite:///{tmp_path_factory.mktemp('released') / 'demo.db'}")


@pytest.mark.parametrize("file", LAST, ids=lambda file: file.stem)
def test_the_last_released_document_is_still_true(file: Path, database_url: str) -> None:
    assert broken_promises(json.loads(file.read_text("utf-8")), database_url) == []


def _answer(changed: Json, name: str) -> Json:
    found: Json = changed["components"]["schemas"][name]
    return found


PLANTED: dict[str, Callable[[Json], object]] = {
    "an answer had a member that is gone": lambda it: _answer(it, "Liveness").update(
        required=["status", "since"],
        properties={**_answer(it, "Liveness")["properties"], "since": {"type": "string"}},
    ),
    "an answer had another type": lambda it: _answer(it, "Liveness")["properties"].update(status={"type": "integer"}),
    "a word is new in a closed list": lambda it: _answer(it, "Liveness")["properties"].update(
        status={"enum": ["living"]}
    ),
    "an address is gone": lambda it: it["paths"].update({"/v0/livez": it["paths"].pop("/livez")}),
}


def liveness() -> Json:
    """A document of one operation, as if it had been released."""
    made = copy.deepcopy(NOW)
    made["paths"] = {"/livez": made["paths"]["/livez"]}
    return made


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_break_is_found(name: str, database_url: str) -> None:
    released = liveness()
    assert broken_promises(released, database_url) == []
    PLANTED[name](released)
    assert broken_promises(released, database_url)


def load_check_of(**more: str) -> Json:
    """A document of one operation, as if it had been released: it took one source, and may have taken `more`.

    It promises that nothing which it allows is refused, so only its example is sent: what is generated is also wrong
    on purpose.
    """
    released = copy.deepcopy(NOW)
    released["paths"] = {"/v1/load-checks": released["paths"]["/v1/load-checks"]}
    operation = released["paths"]["/v1/load-checks"]["post"]
    source = {"kind": "vehicle", "voltage": "120 V"}
    operation["requestBody"]["content"]["application/json"] = {
        "schema": {
            "type": "object",
            "additionalProperties": False,
            "required": ["source", *more],
            "properties": {"source": {"enum": [source]}, **{name: {"enum": [value]} for name, value in more.items()}},
        },
        "examples": {"once": {"value": {"source": source, **more}}},
    }
    operation["responses"].pop("422")
    return released


def test_a_narrower_request_is_found(database_url: str) -> None:
    """The released document took a member that is refused now; the same request without it is taken as ever."""
    assert broken_promises(load_check_of(), database_url, examples=0) == []
    [broken] = broken_promises(load_check_of(weather_of_1999="fine"), database_url, examples=0)
    assert broken.startswith("check_load: ")
    assert "422" in broken
