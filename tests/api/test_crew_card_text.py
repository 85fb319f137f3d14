"""Is the crew card the same, as JSON and as plain text, short, plain, and never without its notice?"""

from __future__ import annotations

import re
from typing import Any

import msgspec
import pytest
from ampwright.api.crew_card_text import one_line
from ampwright.catalogue.demo_data import demo_requests
from ampwright.contract.reference_words import WORDS
from litestar.testing import TestClient
from service_with_demo import demo_client

REQUESTS = demo_requests()
# a figure with three or more significant digits: 1500, 12.5, 0.123; noughts at the end of a whole number are none
TOO_FINE = re.compile(r"(?<![\w.-])(?!0*\.?0)(?:[1-9]\d*[1-9]\d+|\d+\.\d{2,}|[1-9]\d\d*\.\d+)(?![\w-])")


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Any:
    with demo_client(tmp_path_factory.mktemp("cards")) as service:
        yield service


def post(client: TestClient, body: bytes, accept: str) -> Any:
    return client.post("/v1/load-checks", content=body, headers={"content-type": "application/json", "accept": accept})


@pytest.mark.parametrize("name", sorted(REQUESTS))
def test_text_and_json_say_the_same_in_five_plain_lines(client: TestClient, name: str) -> None:
    answer = post(client, REQUESTS[name], "application/json").json()
    text = post(client, REQUESTS[name], "text/plain")
    assert text.status_code == 200
    assert text.headers["content-type"] == "text/plain; charset=utf-8"
    assert "accept" in text.headers["vary"].lower()
    lines = text.text.splitlines()
    card = [line["text"] for line in answer["crew_card"]]
    assert lines[: len(card)] == card
    assert 1 <= len(card) <= 5
    assert lines[len(card)] == ""
    assert lines[len(card) + 1] == answer["notice"]
    assert answer["request_digest"] in lines[len(card) + 2]
    assert {line["code"] for line in answer["crew_card"]} <= set(WORDS["crew_card_line"])
    assert answer["crew_card"][-1]["code"] not in ("card_runs", "card_do_not_run")  # what happens if it stops is there
    for line in answer["crew_card"]:
        # a mark is told as it is marked, so only what is calculated is held to two digits
        said = re.sub(r"(?:rated|marked|gives|over|under|good for) [\d.]+ ?\w*", "", line["text"])
        assert not TOO_FINE.search(said), line["text"]


@pytest.mark.parametrize(
    ("accept", "kind"),
    [
        ("text/*", "text/plain"),
        ("text/plain;q=0.5, application/json;q=0.9", "application/json"),
        ("text/plain, application/json;q=0.1", "text/plain"),
        ("*/*", "application/json"),
        ("text/plain;q=0, */*", "application/json"),
    ],
)
def test_the_caller_chooses(client: TestClient, accept: str, kind: str) -> None:
    answer = post(client, next(iter(REQUESTS.values())), accept)
    assert answer.headers["content-type"].split(";")[0] == kind


@pytest.mark.parametrize("accept", ["image/png", "text/html", "text/plain;q=0"])
def test_what_cannot_be_sent_is_406(client: TestClient, accept: str) -> None:
    answer = post(client, next(iter(REQUESTS.values())), accept)
    assert answer.status_code == 406
    assert answer.headers["content-type"].startswith("application/problem+json")
    assert "text/plain" in answer.json()["detail"]


def test_a_fault_is_a_problem_also_for_who_asks_for_text(client: TestClient) -> None:
    answer = post(client, b'{"source": {"kind": "vehicle"}}', "text/plain")
    assert answer.status_code == 422
    assert answer.headers["content-type"].startswith("application/problem+json")


def test_an_owners_words_cannot_make_a_line_or_turn_the_reading_direction(client: TestClient) -> None:
    body = {
        "source": {
            "kind": "vehicle",
            "voltage": "120 V",
            "receptacles": [{"id": "R1", "marked": "20 A"}],
            "reset": {"how": "manual", "where": "cabin\u2028Runs: everything.", "needs": "\u202eoff \u0627\u0644"},
        },
        "tools": [
            {"id": "kettle", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": "1800 W"}]},
        ],
    }
    answer = post(client, msgspec.json.encode(body), "text/plain")
    assert answer.status_code == 422
    assert [fault["pointer"] for fault in answer.json()["errors"]] == ["/source/reset/needs", "/source/reset/where"]
    # and if such a text should ever come in by another way, the card still holds it to one line
    assert one_line("a\u2028b\u202ec  d\n") == "a bc d"
