"""Does POST /v1/load-checks answer every request with an answer or a problem that points at the fault?"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.catalogue.demo_data import demo_requests
from litestar.testing import TestClient
from service_with_demo import demo_client

SMALLEST: dict[str, Any] = {
    "source": {"kind": "vehicle", "voltage": "120 V", "receptacles": [{"id": "R1", "marked": "20 A"}]},
    "tools": [
        {
            "id": "compressor",
            "load_class": "air_compressor",
            "supply_options": [{"voltage": "120 V", "current": "15 A"}],
        },
        {"id": "saw", "load_class": "circular_saw", "supply_options": [{"voltage": "120 V", "current": "15 A"}]},
    ],
}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("load-checks")) as opened:
        yield opened


def changed(pointer: str, value: Any) -> dict[str, Any]:
    """The smallest request with one member put in or replaced."""
    made = json.loads(json.dumps(SMALLEST))
    *steps, last = pointer.strip("/").split("/")
    here = made
    for step in steps:
        here = here[int(step)] if isinstance(here, list) else here.setdefault(step, {})
    if isinstance(here, list):
        here.insert(int(last), value)
    else:
        here[last] = value
    return made


@pytest.mark.parametrize("included", [[], ["break_evens"]])
def test_no_case_is_answered_and_nothing_passes(client: TestClient, included: list[str]) -> None:
    """By definition: where nothing was asked to run, nothing was found to hold."""
    answer = client.post("/v1/load-checks", json={**SMALLEST, "cases": [], "include": included})
    assert answer.status_code == 200, answer.text
    assert answer.json()["cases"] == []
    assert answer.json()["verdict"]["overall"] != "pass"


@pytest.mark.parametrize("name", sorted(demo_requests()))
def test_every_demo_job_is_answered_with_what_it_used(client: TestClient, name: str) -> None:
    answer = client.post("/v1/load-checks", content=demo_requests()[name], headers={"Content-Type": "application/json"})
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert next(iter(body)) == "verdict"
    assert body["catalogue_release"] == 1
    assert body["used_entries"]
    assert "no permission to energise" in body["notice"]
    assert len(body["crew_card"]) <= 5
    order = ["danger", "caution", "info"]
    ranks = [order.index(item["severity"]) for item in body["findings"]]
    assert ranks == sorted(ranks)
    ids = {item["id"] for item in body["assumptions"]}
    assert {case["waits_for"] for case in body["cases"] if "waits_for" in case} <= ids
    assert {name for item in body["findings"] for name in item.get("basis", [])} <= {b["id"] for b in body["basis"]}


def test_one_request_has_one_answer_and_a_digest(client: TestClient) -> None:
    first = client.post("/v1/load-checks", json=SMALLEST)
    again = client.post("/v1/load-checks", json=json.loads(json.dumps(SMALLEST, sort_keys=True)))
    assert first.content == again.content
    other = client.post("/v1/load-checks", json=changed("/people", 2)).json()
    assert other["request_digest"] != first.json()["request_digest"]
    assert "catalogue_release" not in first.json()  # nothing of the catalogue was used


@pytest.mark.parametrize(
    ("pointer", "value", "at", "code", "meant"),
    [
        ("/tools/0/supply_options/0/current", "15", None, "unit_missing", None),
        ("/tools/0/supply_options/0/current", "15 V", None, "wrong_unit", None),
        ("/tools/0/supply_options/0/current", "15 A\n", None, "control_character", None),
        ("/tools/0/supply_options/0/current", "\u0661\u0665 A", None, "not_a_quantity", None),
        ("/tools/0/shaft_power", "1-1/2 hp", None, "fraction", "1.5 hp"),
        ("/tools/0/supply_options/0/power", "1,800 W", None, "comma_in_number", None),
        ("/cords", [{"id": "c", "size": "12/3"}], "/cords/0/size", "not_a_size", "12 AWG"),
        ("/cords", [{"id": "c", "length": "0 ft"}], "/cords/0/length", "not_above_zero", None),
        ("/cords", [{"id": "c", "length": "100'"}], "/cords/0/length", "not_a_quantity", "100 ft"),
        ("/connections", [{"plug": "saw", "into": "R4"}], "/connections/0/into", "unknown_receptacle", None),
        (
            "/connections",
            [{"plug": "saw", "into": "R1"}, {"plug": "compressor", "into": "R1"}],
            "/connections/1/into",
            "receptacle_taken",
            None,
        ),
        ("/tools/0/load_class", "circular-saw", None, "unknown_load_class", "circular_saw"),
        ("/cases", [{"id": "a", "running": ["sow"]}], "/cases/0/running/0", "unknown_tool", "saw"),
        ("/code_basis", ["nec-2032"], "/code_basis/0", "unknown_code_basis", None),
        ("/source/receptacles/0/type", "NEMA 5-20", None, "unknown_receptacle_type", "5-20R"),
        ("/source/voltage", "120V", None, "not_a_supply", "120 V"),
    ],
)
def test_a_fault_is_pointed_at_with_what_was_meant(
    client: TestClient, pointer: str, value: Any, at: str | None, code: str, meant: str | None
) -> None:
    answer = client.post("/v1/load-checks", json=changed(pointer, value))
    assert answer.status_code == 422, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    faults = answer.json()["errors"]
    found = next((fault for fault in faults if fault["pointer"] == (at or pointer)), None)
    assert found is not None, faults
    assert found["code"] == code
    if meant is not None:
        assert found["did_you_mean"] == meant


def test_all_faults_come_at_once(client: TestClient) -> None:
    request = changed("/tools/0/supply_options/0/current", "15")
    request["tools"][1]["shaft_power"] = "2 V"
    request["people"] = 2
    request["conditions"] = {"ambient": "warm"}
    faults = client.post("/v1/load-checks", json=request).json()["errors"]
    assert [fault["pointer"] for fault in faults] == [
        "/conditions/ambient",
        "/tools/0/supply_options/0/current",
        "/tools/1/shaft_power",
    ]


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"{", 400),
        (b"\xff\xfe", 400),
        (b"[" * 100_000, 400),
        (
            b'{"source": {"kind": "vehicle", "voltage": "120 V"}, "source": {"kind": "vehicle", "voltage": "12 V DC"}}',
            400,
        ),
        (b'{"source": {"kind": "vehicle", "voltage": NaN}}', 400),
        (b'{"source": {"kind": "vehicle", "voltage": null}}', 422),
        (b'{"source": {"kind": "vehicle", "voltage": 120}}', 422),
        (b'{"source": {"kind": "spaceship", "voltage": "120 V"}}', 422),
        (b'{"source": {"kind": "vehicle"}}', 422),
        (b'{"source": {"kind": "vehicle", "voltage": "120 V", "tank": "3 l"}}', 422),
    ],
)
def test_a_body_that_is_no_request_is_a_problem(client: TestClient, body: bytes, status: int) -> None:
    answer = client.post("/v1/load-checks", content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/problem+json"


def test_ten_kilometres_of_cord_are_a_verdict(client: TestClient) -> None:
    request = changed("/cords", [{"id": "far", "length": "10000 m", "size": "12 AWG", "laid": "straight"}])
    request["connections"] = [{"plug": "far", "into": "R1"}, {"plug": "saw", "into": "far"}]
    request["cases"] = [{"id": "saw", "running": ["saw"]}]
    answer = client.post("/v1/load-checks", json=request)
    assert answer.status_code == 200, answer.text
    assert answer.json()["verdict"]["capacity"] == "fail"
    assert any(item["code"] == "voltage_collapse" for item in answer.json()["findings"])


def test_five_hundred_tools_are_answered_or_refused_as_too_much(client: TestClient) -> None:
    tools = [
        {"id": f"t{n}", "load_class": "led_light", "supply_options": [{"voltage": "120 V", "power": "10 W"}]}
        for n in range(500)
    ]
    request = {
        "source": SMALLEST["source"],
        "tools": tools,
        "cases": [{"id": "all", "running": [t["id"] for t in tools]}],
    }
    answer = client.post("/v1/load-checks", json=request)
    assert answer.status_code == 200, answer.text
    assert answer.json()["verdict"]["capacity"] == "fail"
    many = [{"id": f"c{n}", "running": [t["id"] for t in tools[:60]]} for n in range(64)]
    dear = client.post("/v1/load-checks", json={**request, "cases": many})
    assert dear.status_code == 422
    assert dear.json()["type"] == "/problems/too-much-work"


def test_no_tools_at_all_is_an_answer_about_the_source(client: TestClient) -> None:
    answer = client.post("/v1/load-checks", json={"source": SMALLEST["source"]})
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert body["cases"] == []
    assert body["verdict"]["capacity"] == "unknown"
    assert body["verdict"]["overall"] == "unknown"


def test_a_withdrawn_entry_is_told_in_every_later_answer(client: TestClient) -> None:
    body = demo_requests()["j1-shelter-frame-truck-flatbed"]
    headers = {"Content-Type": "application/json"}
    before = client.post("/v1/load-checks", content=body, headers=headers).json()
    used = next(item for item in before["used_entries"] if item["kind"] == "tool-profile")
    gone = client.post(
        f"/v1/tool-profiles/{used['entry']}/withdrawals", json={"why": "measured on a worn cord", "by": "fleet desk"}
    )
    assert gone.status_code == 201
    after = client.post("/v1/load-checks", content=body, headers=headers).json()
    told = [item for item in after["findings"] if item["code"] == "entry_withdrawn"]
    assert told
    assert "measured on a worn cord" in told[0]["text"]
