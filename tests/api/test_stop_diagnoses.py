"""Does POST /v1/stop-diagnoses, and `include` of a load check, answer over HTTP, and refuse what contradicts itself?"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from ampwright.catalogue.demo_data import demo_requests
from ampwright.contract.load_checks import LoadCheckAnswer
from ampwright.contract.stop_diagnoses import StopDiagnosisAnswer
from litestar.testing import TestClient
from service_with_demo import demo_client

REQUEST = json.loads(demo_requests()["j1-shelter-frame-van-panel"])
WORDS = ["break_evens", "faults", "largest_sets", "shift", "trip_curves"]


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("stop-diagnoses")) as opened:
        yield opened


def test_a_stop_is_diagnosed(client: TestClient) -> None:
    seen = {"running": ["compressor", "saw"], "after": "4 min", "returned": "at_the_breaker"}
    answer = client.post("/v1/stop-diagnoses", json={**REQUEST, "stopped": seen})
    assert answer.status_code == 200, answer.text
    found = msgspec.json.decode(answer.content, type=StopDiagnosisAnswer)
    assert found.causes[0].cause == "circuit_overload"
    assert found.before_anything
    assert found.catalogue_release == 1
    assert client.post("/v1/stop-diagnoses", json={**REQUEST, "stopped": seen}).content == answer.content


@pytest.mark.parametrize(
    ("stopped", "status", "pointer"),
    [
        ({"running": ["drum"]}, 422, "/stopped/running/0"),
        ({"running": ["saw"], "heavy": "drill"}, 422, "/stopped/heavy"),
        ({"running": ["saw"], "after": "4"}, 422, "/stopped/after"),
        ({"running": []}, 422, "/stopped/running"),
        ({"running": ["saw"], "returned": "by_magic"}, 422, "/stopped/returned"),
    ],
)
def test_faults_point_at_what_was_seen(client: TestClient, stopped: dict[str, Any], status: int, pointer: str) -> None:
    answer = client.post("/v1/stop-diagnoses", json={**REQUEST, "stopped": stopped})
    assert answer.status_code in (400, status), answer.text
    assert pointer in {error["pointer"] for error in answer.json()["errors"]}


def test_parts_are_there_only_when_asked_for(client: TestClient) -> None:
    plain = client.post("/v1/load-checks", json=REQUEST).json()
    asked = client.post("/v1/load-checks", json={**REQUEST, "include": WORDS, "shift": "4 h"})
    assert asked.status_code == 200, asked.text
    found = msgspec.json.decode(asked.content, type=LoadCheckAnswer)
    parts = {"spare", "faults", "shift", "largest_sets", "trip_curves"}
    assert not parts & plain.keys()
    assert parts <= asked.json().keys()
    assert asked.json()["shift"]["shift_s"] == 14400.0
    assert any(finding.break_even for finding in found.findings)
    assert all(not finding["break_even"] for finding in plain["findings"])
    assert client.post("/v1/load-checks", json={**REQUEST, "include": WORDS, "shift": "4 h"}).content == asked.content


@pytest.mark.parametrize("include", [["everything"], "shift", [1]])
def test_unknown_parts_are_refused(client: TestClient, include: Any) -> None:
    answer = client.post("/v1/load-checks", json={**REQUEST, "include": include})
    assert answer.status_code in (400, 422)
    assert answer.json()["errors"][0]["pointer"].startswith("/include")


@pytest.mark.parametrize("path", ["/v1/energy-budgets", "/v1/stop-diagnoses"])
def test_other_questions_have_no_such_parts(client: TestClient, path: str) -> None:
    stopped = {"stopped": {"running": ["saw"]}} if path.endswith("diagnoses") else {}
    answer = client.post(path, json={**REQUEST, "include": ["shift"], **stopped})
    assert answer.status_code == 422
    assert ("/include", "not_included_here") in {(error["pointer"], error["code"]) for error in answer.json()["errors"]}


def test_a_shift_of_a_week_is_out_of_range(client: TestClient) -> None:
    answer = client.post("/v1/load-checks", json={**REQUEST, "include": ["shift"], "shift": "100 h"})
    assert answer.status_code in (400, 422)
    assert answer.json()["errors"][0]["pointer"] == "/shift"
