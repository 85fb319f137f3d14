"""Does POST /v1/energy-budget-batches give every scenario its row, the same as it has alone?"""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from api.trial_resource import assert_problem
from litestar.testing import TestClient
from service_with_demo import demo_client

VAN: dict[str, Any] = {
    "source": {"kind": "catalogue", "entry": "van-panel"},
    "tools": [{"id": "saw", "entry": "circular-saw-185mm"}, {"id": "chargers", "entry": "charger-dual-pack"}],
    "people": 2,
    "charge": "60 %",
    "work": [{"id": "cuts", "unit": "cut", "amount": 140, "tool": "saw"}],
    "shift": "6 h",
    "way_home": {"distance": "40 km", "towing": False, "loaded": True},
    "conditions": {"place": "open_air", "ambient": "-5..3 degC"},
    "electricity_price": "0.32 EUR/kWh",
    "carbon": "0.35 kg/kWh",
    "draws": 300,
}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("energy-batches")) as opened:
        yield opened


def post(client: TestClient, budget: dict[str, Any], scenarios: list[dict[str, Any]]) -> Any:
    return client.post("/v1/energy-budget-batches", json={"budget": budget, "scenarios": scenarios})


def lines_of(answer: Any) -> list[dict[str, Any]]:
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "application/x-ndjson"
    return [msgspec.json.decode(line) for line in answer.text.splitlines()]


def change(path: str, value: Any, op: str = "replace") -> dict[str, Any]:
    return {"op": op, "path": path, "value": value}


SCENARIOS: list[dict[str, Any]] = [
    {"id": "as-it-is"},
    {"id": "full", "change": [change("/charge", "100 %")]},
    {"id": "far", "change": [change("/way_home/distance", "90 km")]},
    {"id": "no-saw", "change": [{"op": "remove", "path": "/work"}, {"op": "remove", "path": "/tools/0"}]},
    {"id": "more", "change": [change("/work/-", {"id": "packs", "unit": "pack", "amount": 6}, "add")]},
    {"id": "two-stops", "change": [
        {"op": "remove", "path": "/shift"},
        change("/stops", [{"id": "a", "distance": "9 km", "lasts": "3 h"}, {"id": "b", "lasts": "2 h"}], "add")]},
    {"id": "certain-charge", "change": [change("/seed", 7, "add")]},
]  # fmt: skip


def changed(budget: dict[str, Any], scenario: dict[str, Any]) -> dict[str, Any]:
    """By hand, apart from the service: RFC 6902 on these few shapes."""
    made: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(budget))
    for step in scenario.get("change", []):
        *way, last = step["path"].split("/")[1:]
        at: Any = made
        for name in way:
            at = at[int(name)] if isinstance(at, list) else at[name]
        if step["op"] == "remove":
            del at[int(last) if isinstance(at, list) else last]
        elif last == "-":
            at.append(step["value"])
        else:
            at[last] = step["value"]
    return made


def test_a_row_is_what_the_budget_is_alone_to_the_last_digit(client: TestClient) -> None:
    lines = lines_of(post(client, VAN, SCENARIOS))
    assert [line["kind"] for line in lines] == ["head", *["row"] * len(SCENARIOS), "end"]
    assert lines[0]["rows_in_all"] == len(SCENARIOS)
    assert "no permission to energise" in lines[0]["notice"]
    assert lines[-1] == {"kind": "end", "rows": len(SCENARIOS), "without_answer": 0}
    for n, (scenario, row) in enumerate(zip(SCENARIOS, lines[1:-1], strict=True)):
        assert (row["index"], row["scenario"]) == (n, scenario["id"])
        alone = client.post("/v1/energy-budgets", json=changed(VAN, scenario)).json()
        for name in (
            "left", "time_left_s", "used_j", "done_ratio", "cost", "carbon_kg", "request_digest",
            "catalogue_release", "withdrawals_as_of",
        ):  # fmt: skip
            assert row.get(name) == alone.get(name), (scenario["id"], name)
        assert row["verdict"] == alone["verdict"] or row["left"]["enough"] == "fail"
        assert set(row["because"]) <= {item["code"] for item in alone["findings"]}
        assert row["reached_probability_ratio"] == alone["reserve"]["reached_probability_ratio"]


def test_what_is_wrong_with_one_stands_in_its_row_and_the_others_go_on(client: TestClient) -> None:
    scenarios = [
        {"id": "sound"},
        {"id": "no-such-member", "change": [change("/way_home/wind", "3 m/s")]},
        {"id": "unit", "change": [change("/charge", "60")]},
        {"id": "schema", "change": [change("/tools/0/swich", "off", "add")]},
        {"id": "null", "change": [{"op": "add", "path": "/charge"}]},
        {"id": "unknown-tool", "change": [change("/work/0/tool", "sow")]},
        {"id": "no-such-release", "change": [change("/catalogue_release", 99, "add")]},
        {"id": "dear", "change": [change("/shift", "336 h"), change("/draws", 20000),
                                  change("/work", [{"id": f"w{n}", "unit": "cut", "amount": 1} for n in range(60)])]},
        {"id": "whole", "change": [change("", {})]},
        {"id": "list", "change": [change("/tools/9/id", "x")]},
        {"id": "last"},
    ]  # fmt: skip
    lines = lines_of(post(client, VAN, scenarios))
    rows = {row["scenario"]: row for row in lines[1:-1]}
    assert lines[-1] == {"kind": "end", "rows": len(scenarios), "without_answer": len(scenarios) - 2}
    told = {
        name: (row["errors"][0]["pointer"], row["errors"][0]["code"]) for name, row in rows.items() if row["errors"]
    }
    assert told == {
        "no-such-member": ("/change/0/path", "change_does_not_fit"),
        "unit": ("/charge", "unit_missing"),
        "schema": ("/tools/0", "invalid_change"),
        "null": ("/change/0/path", "change_does_not_fit"),
        "unknown-tool": ("/work/0/tool", "unknown_tool"),
        "no-such-release": ("/catalogue_release", "unknown_release"),
        "dear": ("", "too_much_work"),
        "whole": ("/change/0/path", "change_does_not_fit"),
        "list": ("/change/0/path", "change_does_not_fit"),
    }
    assert rows["unknown-tool"]["errors"][0]["did_you_mean"] == "saw"
    assert rows["sound"]["left"] == rows["last"]["left"]


def test_enough_energy_is_no_pass_where_the_source_falls_asleep(client: TestClient) -> None:
    """A cool box on a station that sleeps leaves the station full, and the food warm."""
    budget = {
        "source": {
            "kind": "battery_station", "voltage": "120 V", "battery": "2 kWh", "sleeps_below": "12 W",
            "limits": [{"id": "out", "continuous": "1800 W"}],
        },
        "tools": [{
            "id": "cool-box", "load_class": "refrigerator", "must_return": True,
            "supply_options": [{"voltage": "120 V", "power": "90 W"}],
        }],
        "charge": "100 %", "shift": "14 h", "draws": 300,
    }  # fmt: skip
    (row,) = lines_of(post(client, budget, [{"id": "night"}]))[1:-1]
    assert row["left"]["enough"] == "pass"
    assert row["done_ratio"]["p90"] < 0.1
    assert row["verdict"] == {"overall": "fail", "capacity": "fail", "safety": "fail"}
    assert row["because"] == ["load_must_not_stop", "source_falls_asleep"]


def test_ten_thousand_scenarios_come_in_one_call(client: TestClient) -> None:
    """A sweep of the charge: rows in order, and more charge never leaves less."""
    budget = {
        "source": {"kind": "vehicle", "voltage": "120 V", "battery": "60 kWh"},
        "charge": "50 %", "shift": "4 h", "draws": 100, "way_home": {"distance": "30 km"},
    }  # fmt: skip
    scenarios = [{"id": f"s{n}", "change": [{"path": "/charge", "value": f"{n / 100:.2f} %"}]} for n in range(10_000)]
    began = time.monotonic()
    lines = lines_of(post(client, budget, scenarios))
    took_s = time.monotonic() - began
    rows = [line for line in lines if line["kind"] == "row"]
    assert [row["scenario"] for row in rows] == [f"s{n}" for n in range(10_000)]
    left = [row["left"]["above_reserve_j"]["p10"] for row in rows]
    assert left == sorted(left)
    assert rows[0]["left"]["enough"] == "fail"
    assert rows[-1]["left"]["enough"] == "pass"
    assert lines[-1] == {"kind": "end", "rows": 10_000, "without_answer": 0}
    assert took_s < 300.0  # far more than it takes, so that a busy machine does not fail it


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ({"budget": VAN, "scenarios": []}, "invalid-request"),
        ({"budget": VAN}, "invalid-request"),
        ({"budget": {}, "scenarios": [{"id": "a"}]}, "invalid-request"),
        ({"budget": VAN, "scenarios": {"id": "a"}}, "invalid-request"),
        (
            {"budget": {**VAN, "draws": 20000, "shift": "336 h"}, "scenarios": [{"id": f"s{n}"} for n in range(9999)]},
            "too-much-work",
        ),
    ],
)
def test_what_is_wrong_with_all_is_a_problem_before_the_first_line(
    client: TestClient, body: dict[str, Any], code: str
) -> None:
    assert_problem(client.post("/v1/energy-budget-batches", json=body), 422, code)


BAD_SCENARIOS: list[tuple[bytes, str, str, str]] = [
    (b'{"id":"b","change":[{"op":"move","path":"/a"}]}', "b", "not_listed", "/scenarios/1/change/0/op"),
    (b'{"id":"b","chnge":[]}', "b", "unknown_member", "/scenarios/1/chnge"),
    (b'{"id":"a"}', "a#1", "repeated_id", "/scenarios/1/id"),
    (b'{"change":[]}', "#1", "missing_member", "/scenarios/1/id"),
    (b'{"id":7}', "#1", "wrong_type", "/scenarios/1/id"),
    (b"null", "#1", "wrong_type", "/scenarios/1"),
    (b'{"id":"b","change":[{"path":"/charge","value":1e999}]}', "b", "out_of_range", "/scenarios/1/change/0/value"),
]


@pytest.mark.parametrize(("scenario", "name", "code", "pointer"), BAD_SCENARIOS)
def test_a_scenario_that_cannot_be_read_has_its_row_and_the_others_theirs(
    client: TestClient, scenario: bytes, name: str, code: str, pointer: str
) -> None:
    sound = lines_of(post(client, VAN, [{"id": "a"}, {"id": "c"}]))
    body = b'{"budget":%s,"scenarios":[{"id":"a"},%s,{"id":"c"}]}' % (msgspec.json.encode(VAN), scenario)
    answer = client.post("/v1/energy-budget-batches", content=body, headers={"content-type": "application/json"})
    head, first, wrong, last, end = lines_of(answer)
    assert (first, last) == (sound[1], {**sound[2], "index": 2})
    assert (wrong["index"], wrong["scenario"]) == (1, name)
    assert [(one["code"], one["pointer"]) for one in wrong["errors"]] == [(code, pointer)]
    assert "verdict" not in wrong
    assert (end["rows"], end["without_answer"]) == (3, 1)
    assert head["request_digest"] != sound[0]["request_digest"]


def test_the_document_says_what_a_line_is(client: TestClient) -> None:
    document = client.get("/openapi.json").json()
    answer = document["paths"]["/v1/energy-budget-batches"]["post"]["responses"]["200"]["content"]
    assert list(answer) == ["application/x-ndjson"]
    assert answer["application/x-ndjson"]["schema"] == {"$ref": "#/components/schemas/EnergyBatchLine"}
    assert set(document["components"]["schemas"]["EnergyBatchLine"]["discriminator"]["mapping"]) == {
        "head", "row", "progress", "end",
    }  # fmt: skip
