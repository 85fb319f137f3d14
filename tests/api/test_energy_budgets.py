"""Does POST /v1/energy-budgets answer every request with an answer or a problem that points at the fault?"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest
from ampwright.catalogue.demo_data import demo_requests
from litestar.testing import TestClient
from service_with_demo import demo_client

SMALLEST: dict[str, Any] = {"source": {"kind": "vehicle", "voltage": "120 V"}}
ENGINE: dict[str, Any] = {"kind": "engine_generator", "voltage": "120 V"}
DAY: dict[str, Any] = {
    "source": {"kind": "catalogue", "entry": "van-panel"},
    "tools": [
        {"id": "saw", "entry": "circular-saw-185mm"},
        {"id": "compressor", "entry": "compressor-24l-1.5hp"},
        {"id": "chargers", "entry": "charger-dual-pack"},
    ],
    "people": 2,
    "pattern": "framing",
    "charge": "55..60 %",
    "duties": [
        {
            "tool": "compressor",
            "air": {
                "tank": "24 l", "cut_in": "6 bar", "cut_out": "8 bar", "delivery": "90..120 l/min", "nails": "6 /min"
            },
        }
    ],
    "work": [
        {"id": "cuts", "unit": "cut", "amount": 140, "tool": "saw", "stop": "shelter"},
        {"id": "packs", "unit": "pack", "amount": 8, "tool": "chargers", "pack": {"capacity": "90 Wh"}},
    ],
    "stops": [
        {"id": "shelter", "distance": "18 km", "lasts": "4 h"},
        {"id": "railing", "distance": "6 km", "lasts": "3 h", "running": ["compressor"]},
    ],
    "way_home": {"distance": "22 mi", "headwind": "20..40 km/h", "towing": False, "loaded": True},
    "conditions": {"place": "open_air", "ambient": "-2..6 degC"},
    "observations": [{"work": "cuts", "amount": 140, "took": "1 %", "over": "1 h"}],
    "electricity_price": "0.32 EUR/kWh",
    "carbon": "0.35 kg/kWh",
}  # fmt: skip


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("energy-budgets")) as opened:
        yield opened


def post(client: TestClient, request: dict[str, Any]) -> Any:
    return client.post("/v1/energy-budgets", json=request)


def test_a_whole_day_is_answered_with_all_that_was_asked(client: TestClient) -> None:
    answer = post(client, DAY)
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert next(iter(body)) == "verdict"
    assert [stop["stop"] for stop in body["stops"]] == ["shelter", "railing"]
    assert {item["work"] for item in body["work_done"]} == {"cuts", "packs"}
    assert body["posteriors"][0]["work"] == "cuts"
    assert body["cost"]["currency"] == "EUR"
    # money and CO2 of the same energy: 0.32 against 0.35
    assert body["carbon_kg"]["p50"] / body["cost"]["amount"]["p50"] == pytest.approx(0.35 / 0.32, abs=0.01)
    assert body["catalogue_release"] == 1
    assert {item["entry"] for item in body["used_entries"]} >= {"van-panel", "circular-saw-185mm"}
    assert "no permission to energise" in body["notice"]
    assert len(body["crew_card"]) <= 5
    ids = {line["id"] for line in body["basis"]}
    assert {name for item in body["assumptions"] for name in item["basis"]} <= ids
    times = [point["at_s"] for point in body["curve"]]
    assert times == sorted(times)
    assert max(b - a for a, b in pairwise(times)) <= 3600.0


def test_one_request_has_one_answer_and_a_seed_changes_it_little(client: TestClient) -> None:
    first = post(client, DAY)
    again = client.post(
        "/v1/energy-budgets",
        content=json.dumps(DAY, sort_keys=True),
        headers={"Content-Type": "application/json"},
    )
    assert first.content == again.content
    assert first.json()["method"] == {"method": "monte_carlo", "seed": 1, "draws": 4000, "energy_conserved": True}
    other = post(client, {**DAY, "seed": 2}).json()
    assert other["request_digest"] != first.json()["request_digest"]
    left, then = first.json()["left"]["after_work_j"]["p50"], other["left"]["after_work_j"]["p50"]
    assert left != then
    assert left == pytest.approx(then, rel=0.03)


@pytest.mark.parametrize("name", sorted(demo_requests()))
def test_every_demo_job_has_a_budget(client: TestClient, name: str) -> None:
    answer = client.post(
        "/v1/energy-budgets", content=demo_requests()[name], headers={"Content-Type": "application/json"}
    )
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert body["used_entries"]
    ranks = [["danger", "caution", "info"].index(item["severity"]) for item in body["findings"]]
    assert ranks == sorted(ranks)


def test_little_is_enough(client: TestClient) -> None:
    body = post(client, SMALLEST).json()
    assert body["assumptions"][0]["influence_j"] > 0.0
    assert {item["code"] for item in body["assumptions"]} >= {"battery_capacity", "battery_charge", "way_home", "shift"}
    assert body["not_assessed"] == []


def test_posting_a_change_gives_the_verdict_that_it_promised(client: TestClient) -> None:
    request = {**DAY, "charge": "32 %", "observations": [], "way_home": {"distance": "9 km", "headwind": "0 m/s"}}
    body = post(client, request).json()
    assert body["verdict"]["capacity"] != "pass"
    change = next(item for item in body["changes"] if item["change"])
    for step in change["change"]:
        request[step["path"].strip("/")] = step["value"]
    then = post(client, request).json()
    assert then["left"]["enough"] == "pass"
    assert then["verdict"]["capacity"] == change["then"]


ONCE = "member_does_not_apply"


@pytest.mark.parametrize(
    ("members", "pointer", "code", "meant"),
    [
        ({"charge": "80"}, "/charge", "unit_missing", "80 %"),
        ({"charge": "120 %"}, "/charge", "out_of_range", None),
        ({"charge": "60..50 %"}, "/charge", "band_out_of_order", None),
        ({"way_home": {"distance": "40"}}, "/way_home/distance", "unit_missing", None),
        ({"way_home": {"headwind": "30 kmh"}}, "/way_home/headwind", "not_a_quantity", "30 km/h"),
        ({"work": [{"id": "w", "unit": "cuts", "amount": 3}]}, "/work/0/unit", "unknown_work_unit", "cut"),
        ({"work": [{"id": "w", "unit": "cut", "amount": 3, "tool": "sow"}]}, "/work/0/tool", "unknown_tool", "saw"),
        ({"work": [{"id": "w", "unit": "cut", "amount": 3, "stop": "x"}]}, "/work/0/stop", "unknown_stop", None),
        ({"work": [{"id": "saw", "unit": "cut", "amount": 3}]}, "/work/0/id", "ambiguous_id", None),
        ({"work": [{"id": "w", "unit": "cut", "amount": 3}] * 2}, "/work/1/id", "repeated_id", None),
        ({"duties": [{"tool": "sow", "running": "20 %"}]}, "/duties/0/tool", "unknown_tool", "saw"),
        ({"stops": [{"id": "a", "running": ["sow"]}]}, "/stops/0/running/0", "unknown_tool", "saw"),
        ({"observations": [{"work": "w", "amount": 3, "took": "9 %"}]}, "/observations/0/work", "unknown_work", None),
        ({"pattern": "frame"}, "/pattern", "unknown_pattern", "framing"),
        ({"fuel": {"kind": "diesel"}}, "/fuel", "member_does_not_apply", None),
        ({"work": [{"id": "w", "unit": "cut", "amount": 3, "head": "5 m"}]}, "/work/0/head", ONCE, None),
        ({"work": [{"id": "w", "unit": "cut", "amount": 3, "pack": {}}]}, "/work/0/pack", ONCE, None),
        (
            {"work": [{"id": "w", "unit": "litre_pumped", "amount": 3, "head": "5 m", "energy_each": "1 Wh"}]},
            "/work/0/head",
            ONCE,
            None,
        ),
        (
            {"work": [{"id": "w", "unit": "pack", "amount": 3, "pack": {"start": "90 %", "target": "20 %"}}]},
            "/work/0/pack/start",
            "out_of_range",
            None,
        ),
        (
            {"work": [{"id": "w", "unit": "pack", "amount": 3, "pack": {"start": "100 %"}}]},
            "/work/0/pack/start",
            "out_of_range",
            None,
        ),
        (
            {
                "work": [{"id": "w", "unit": "cut", "amount": 3, "tool": "saw"}],
                "duties": [{"tool": "saw", "running": "20 %"}],
            },
            "/duties/0/running",
            ONCE,
            None,
        ),
        ({"duties": [{"tool": "saw", "air": {"tank": "24 l"}}]}, "/duties/0/air", ONCE, None),
        ({"battery": {"cells": "200 degC"}}, "/battery/cells", "out_of_range", None),
        ({"allowance": "3 kWh"}, "/allowance", "member_does_not_apply", None),
        ({"battery": {"largest_discharge": "5 A"}}, "/battery/largest_discharge", "wrong_unit", None),
        ({"source": ENGINE, "battery": {"cells": "5 degC"}}, "/battery", "member_does_not_apply", None),
        ({"electricity_price": "0.3 EUR/l"}, "/electricity_price", "wrong_unit", None),
        ({"fuel_price": "cheap"}, "/fuel_price", "not_a_quantity", None),
        ({"carbon": "2 kg/l"}, "/carbon", "wrong_unit", None),
        ({"shift": "400 h"}, "/shift", "out_of_range", None),
        ({"shift": "0 h"}, "/shift", "not_above_zero", None),
    ],
)
def test_a_fault_is_pointed_at_with_what_was_meant(
    client: TestClient, members: dict[str, Any], pointer: str, code: str, meant: str | None
) -> None:
    request = {**SMALLEST, "tools": [{"id": "saw", "load_class": "circular_saw"}], **members}
    answer = post(client, request)
    assert answer.status_code == 422, answer.text
    found = next((fault for fault in answer.json()["errors"] if fault["pointer"] == pointer), None)
    assert found is not None, answer.json()["errors"]
    assert found["code"] == code
    if meant is not None:
        assert found["did_you_mean"] == meant


@pytest.mark.parametrize("member", ["null", "1e999", "{}", "-1", "true", '"\\u0000"'])
@pytest.mark.parametrize("name", ["charge", "shift", "seed", "draws", "work", "stops", "way_home", "solar"])
def test_a_member_of_another_kind_is_a_problem(client: TestClient, name: str, member: str) -> None:
    content = f'{{"source": {{"kind": "vehicle", "voltage": "120 V"}}, "{name}": {member}}}'
    answer = client.post("/v1/energy-budgets", content=content, headers={"Content-Type": "application/json"})
    if (name, member) == ("way_home", "{}"):
        assert answer.status_code == 200
        return
    assert answer.status_code in (400, 422), answer.text
    assert answer.headers["content-type"] == "application/problem+json"


LOAD_CLASSES = (
    "circular_saw", "air_compressor", "refrigerator", "battery_charger", "led_light", "welder", "other", "pump",
    "dust_extractor",
)  # fmt: skip


def any_request(chance: random.Random) -> dict[str, Any]:
    """A sound request of odd extremes: zeros, wide bands, nothing to do, too much to do."""
    kind = chance.choice(["vehicle", "battery_station", "engine_generator", "site_supply"])
    source: dict[str, Any] = {"kind": kind, "voltage": chance.choice(["120 V", "120/240 V", "230/400 V", "48 V DC"])}
    request: dict[str, Any] = {"source": source, "draws": 100, "seed": chance.randrange(10**6)}

    def maybe(into: dict[str, Any], name: str, *values: Any) -> None:
        if chance.random() < 0.5:
            into[name] = chance.choice(values)

    shares = ("0 %", "100 %", "0..100 %", "0.000001 %", "30..50..60 %")
    if kind in ("vehicle", "battery_station"):
        maybe(source, "battery", "0.001 Wh", "200000 kWh", "2..50 kWh", ">=3 kWh")
        maybe(source, "awake_draw", "0 W", "9 kW", "0..400 W")
        maybe(source, "sleeps_below", "0 W", "100 W")
        maybe(request, "charge", *shares)
        maybe(request, "solar", ["0 W"], ["5 kW"] * 100)
        battery: dict[str, Any] = {}
        maybe(battery, "health", "100 %", "1..100 %")
        maybe(battery, "age_years", 0.0, 40.0)
        maybe(battery, "chemistry", "lithium", "lead_acid")
        maybe(battery, "cells", "-80 degC", "55 degC", "-20..30 degC")
        maybe(battery, "stops_at", *shares)
        maybe(battery, "efficiency", "1 %", "100 %", "10..100 %")
        maybe(request, "battery", battery)
    if kind == "vehicle":
        maybe(source, "energy_per_distance", "1 Wh/km", "900 Wh/km")
        home: dict[str, Any] = {}
        maybe(home, "distance", "0 km", "1999 km", "0..50 km")
        maybe(home, "headwind", "0 m/s", "0..150 km/h")
        maybe(home, "towing", True, False)
        maybe(home, "arrive_with", *shares)
        maybe(request, "way_home", home)
    if kind == "engine_generator":
        maybe(source, "running", "1 W", "9000 kW", "20 A", "2..4 kVA")
        maybe(source, "tank", "0.001 l", "900 l")
        fuel: dict[str, Any] = {}
        maybe(fuel, "kind", "diesel", "propane", "gasoline")
        maybe(fuel, "in_tank", "0 l", "0..5 l", "90000 l")
        maybe(fuel, "altitude", "0 m", "90000 m")
        maybe(
            fuel, "run_times", [{"load": "0 %", "lasts": "1 h"}], [{"load": "50 %", "lasts": "8 h"}] * 2,
            [{"load": "10 %", "lasts": "1 h"}, {"load": "100 %", "lasts": "9 h"}],
        )  # fmt: skip
        maybe(request, "fuel", fuel)
        maybe(request, "fuel_price", "0 EUR/l", "999999999 USD/gal_us")
        maybe(request, "carbon", "0 g/l", "999999999 kg/l")
    if kind == "site_supply":
        maybe(request, "allowance", "0 Wh", "200000 kWh", "1..2 kWh")
    tools = [
        {"id": f"t{n}", "load_class": chance.choice(LOAD_CLASSES)} for n in range(chance.randrange(5))
    ]  # fmt: skip
    for tool in tools:
        maybe(
            tool, "supply_options", [{"voltage": "120 V", "power": "0.001 W"}], [{"voltage": "120 V", "current": "9 A"}]
        )
        if tool is not tools[0]:
            maybe(tool, "follows", tools[0]["id"])
        maybe(tool, "on", "1 s", "5..60 s")
        maybe(tool, "off", "0 s", "0..900 s")
        maybe(tool, "must_return", True)
    if tools:
        request["tools"] = tools
        air = {"tank": "1 l", "delivery": "0.001 l/min", "use": "0..900 m3/h"}
        maybe(
            request, "duties", [{"tool": "t0", "running": "0..100 %"}], [{"tool": "t0", "air": {}}],
            [{"tool": "t0", "air": air}],
        )  # fmt: skip
    units = ["cut", "nail", "litre_pumped", "pack", "light_hour", "tool_hour", "weld_metre"]
    request["work"] = [
        {"id": f"w{n}", "unit": chance.choice(units), "amount": chance.choice([0, 1, 140, 1e7])}
        for n in range(chance.randrange(4))
    ]
    for work in request["work"]:
        maybe(work, "tool", *(tool["id"] for tool in tools), *([] if tools else ["none"]))
        if work.get("tool") == "none":
            del work["tool"]
        maybe(work, "energy_each", "0 Wh", "0..9 Wh", "3 kWh")
        if work["unit"] == "litre_pumped" and "energy_each" not in work:
            maybe(work, "head", "0.01 m", "300 m")
        if work["unit"] == "pack":
            maybe(work, "pack", {}, {"start": "9 %", "target": "10 %", "charger": "1 W"}, {"charger": "90 kW"})
    done_by = {work.get("tool") for work in request["work"] if work["amount"] > 0}
    for duty in request.get("duties", ()):
        if duty["tool"] in done_by or ("air" in duty and tools[0]["load_class"] != "air_compressor"):
            del request["duties"]  # said twice, or air of what gives none
    if kind in ("vehicle", "battery_station") and request["work"]:
        maybe(
            request, "observations", [{"work": "w0", "amount": 1, "took": "100 %"}],
            [{"work": "w0", "amount": 1e7, "took": "0 %", "over": "20 h"}],
            [{"work": "w0", "amount": 0.001, "took_energy": "90 kWh"}],
        )  # fmt: skip
    maybe(request, "shift", "0.001 s", "336 h", "1..9 h")
    maybe(request, "conditions", {"ambient": "-90 degC"}, {"ambient": "-20..60 degC", "place": "trench"})
    maybe(request, "people", 1, 200)
    maybe(request, "stops", [{"id": "a"}, {"id": "b", "lasts": "1 s"}], [{"id": "a", "lasts": "300 h", "running": []}])
    if len(request.get("stops", ())) == 1 or request.get("shift") == "0.001 s":
        request.pop("shift" if "stops" in request else "none", None)  # stops longer than the shift contradict it
    return request


@pytest.mark.parametrize("seed", range(250))
def test_no_sound_request_is_too_odd_for_an_answer(client: TestClient, seed: int) -> None:
    """Every figure of every answer is a number (msgspec refuses NaN and infinity by its bounds), in order."""
    request = any_request(random.Random(seed))
    answer = post(client, request)
    assert answer.status_code == 200, (answer.text[:500], request)
    body = answer.json()
    assert body["method"]["energy_conserved"]
    bands = [body["used_j"], *(use["energy_j"] for use in body["uses"]), *(point["left_j"] for point in body["curve"])]
    for band in bands:
        assert band["p10"] <= band["p50"] <= band["p90"]


def test_what_costs_too_much_is_refused_with_the_way_out(client: TestClient) -> None:
    tools = [{"id": f"t{n}", "load_class": "led_light"} for n in range(400)]
    answer = post(client, {**SMALLEST, "tools": tools, "shift": "336 h", "draws": 20000})
    assert answer.status_code == 422
    assert answer.json()["type"] == "/problems/too-much-work"


def test_the_document_knows_it(client: TestClient) -> None:
    document = client.get("/openapi.json").json()
    operation = document["paths"]["/v1/energy-budgets"]["post"]
    assert operation["operationId"] == "budget_energy"
