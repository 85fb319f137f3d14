"""Is every finding, unit of work and kind of source that an energy budget speaks of reached by a request?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from ampwright.engine.site.work_units import WORK_UNIT_NAMES
from litestar.testing import TestClient
from service_with_demo import demo_client

VAN = {"kind": "vehicle", "voltage": "120 V", "battery": "60 kWh", "awake_draw": "150 W"}
STATION = {"kind": "battery_station", "voltage": "120 V", "battery": "2 kWh"}
SET = {"kind": "engine_generator", "voltage": "120 V", "running": "3 kW", "tank": "12 l"}
OPEN = {"place": "open_air", "ambient": "15..25 degC"}


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with demo_client(tmp_path_factory.mktemp("energy-reached")) as opened:
        yield opened


def ask(client: TestClient, **request: Any) -> Any:
    answer = client.post("/v1/energy-budgets", json=request)
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert body["method"]["energy_conserved"]
    return body


def heater(watts: str, **members: Any) -> dict[str, Any]:
    return {"id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": watts}], **members}


def charger(watts: str = "200 W") -> dict[str, Any]:
    return {
        "id": "charger", "load_class": "battery_charger", "supply_options": [{"voltage": "120 V", "power": watts}],
    }  # fmt: skip


COOL = {
    "id": "cool", "load_class": "refrigerator", "must_return": True,
    "supply_options": [{"voltage": "120 V", "power": "90 W"}],
}  # fmt: skip
ALWAYS = [{"tool": "heater", "running": "100 %"}]
# 2.2 kW of 2.4 kW, and of 1.4 kW at 3500 m (3.5 % a 1000 ft, widely printed, from memory)
SMALL_SET = {**SET, "running": "2400 W"}
TWO: dict[str, Any] = {
    "tools": [heater("1100 W"), {**heater("1100 W"), "id": "other"}],
    "duties": [*ALWAYS, {"tool": "other", "running": "100 %"}],
}
FINDINGS: dict[str, tuple[str, dict[str, Any]]] = {
    "reserve at risk": ("reserve_at_risk", {"source": VAN, "charge": "20 %", "way_home": {"distance": "90 km"}}),
    "source sleeps under low load": (
        "source_falls_asleep", {"source": {**STATION, "sleeps_below": "12 W"}, "tools": [COOL], "charge": "100 %"},
    ),
    "charger that cannot start on this source": (
        "charger_cannot_start", {"source": {**STATION, "waveform": "modified_sine"}, "tools": [charger()]},
    ),
    "charging below freezing": (
        "charging_below_freezing",
        {"source": VAN, "work": [{"id": "p", "unit": "pack", "amount": 2}], "conditions": {"ambient": "-9..-3 degC"}},
    ),
    "exhaust indoors": ("exhaust_near_people", {"source": SET, "conditions": {"place": "indoors"}}),
    "exhaust near openings": ("exhaust_distance", {"source": SET, "conditions": OPEN}),
    "refuelling hot": (
        "refuelling_hot", {"source": SET, "tools": [heater("1200 W")], "duties": ALWAYS, "conditions": OPEN},
    ),
    "load that must not stop": (
        "load_must_not_stop",
        {"source": STATION, "charge": "60 %", "tools": [COOL, heater("300 W")], "duties": ALWAYS},
    ),
    "low load running": ("low_load_running", {"source": SET, "tools": [heater("100 W")], "conditions": OPEN}),
    "thin air": (
        "engine_overloaded", {"source": SMALL_SET, **TWO, "conditions": OPEN, "fuel": {"altitude": "3500 m"}},
    ),
    "battery too cold": (
        "battery_stops_tool",
        {"source": STATION, "tools": [heater("1200 W")], "duties": ALWAYS, "battery": {"cells": "-18 degC"}},
    ),
    "not together": (
        "not_together",
        {
            "source": {**VAN, "limits": [{"id": "out", "continuous": "1500 W"}]},
            "tools": [heater("1000 W"), {**heater("1000 W"), "id": "other"}],
            "duties": [*ALWAYS, {"tool": "other", "running": "100 %"}],
        },
    ),
    "awake for nothing": ("awake_for_nothing", {"source": VAN, "shift": "10 h", "way_home": {"distance": "1 km"}}),
}  # fmt: skip


@pytest.mark.parametrize("named", FINDINGS)
def test_a_finding_is_reached(client: TestClient, named: str) -> None:
    code, request = FINDINGS[named]
    body = ask(client, **request)
    assert code in [item["code"] for item in body["findings"]], [item["code"] for item in body["findings"]]


SOURCES = {
    "vehicle": VAN,
    "battery_station": {**STATION, "battery": "8 kWh"},
    "engine_generator": SET,
    "site_supply": {"kind": "site_supply", "voltage": "120 V"},
}


@pytest.mark.parametrize("kind", SOURCES)
@pytest.mark.parametrize("unit", WORK_UNIT_NAMES)
def test_every_unit_of_work_is_counted_on_every_kind_of_source(client: TestClient, kind: str, unit: str) -> None:
    request: dict[str, Any] = {"source": SOURCES[kind], "work": [{"id": "w", "unit": unit, "amount": 4}]}
    if kind == "site_supply":
        request["allowance"] = "4 kWh"
    one, more = ask(client, **request), ask(client, **{**request, "work": [{**request["work"][0], "amount": 8}]})
    (done,) = more["work_done"]
    assert (done["unit"], done["asked"]) == (unit, 8.0)
    assert done["done"]["p90"] <= 8.0
    # twice the work takes more, of charge, fuel or allowance
    assert more["used_j"]["p50"] > one["used_j"]["p50"]


def test_a_pump_on_an_engine_set_lifts_water_for_fuel(client: TestClient) -> None:
    # 60,000 l by 12 m: 60 t x 9.80665 m/s2 x 12 m = 7.06 MJ of water, at least that much of electricity
    pump = {"id": "pump", "load_class": "pump", "supply_options": [{"voltage": "120 V", "power": "900 W"}]}
    work = [{"id": "pit", "unit": "litre_pumped", "amount": 60_000, "head": "12 m", "tool": "pump"}]
    body = ask(client, source=SET, tools=[pump], work=work, conditions=OPEN, fuel={"kind": "gasoline"})
    use = next(item for item in body["uses"] if item["name"] == "pit")
    assert use["energy_j"]["p10"] > 60_000 * 9.80665 * 12.0
    assert body["fuel"]["burnt_m3"]["p10"] > 0.0
    assert body["carbon_kg"]["p50"] > 0.0
    # twice as high takes twice as much
    higher = ask(client, source=SET, tools=[pump], work=[{**work[0], "head": "24 m"}], conditions=OPEN,
                 fuel={"kind": "gasoline"})  # fmt: skip
    twice = next(item for item in higher["uses"] if item["name"] == "pit")
    assert twice["energy_j"]["p50"] == pytest.approx(2.0 * use["energy_j"]["p50"], abs=200.0)  # figures of 100 J


def test_a_welder_on_an_engine_set(client: TestClient) -> None:
    welder = {"id": "welder", "load_class": "welder", "supply_options": [{"voltage": "120 V", "current": "20 A"}]}
    body = ask(
        client, source={**SET, "running": "6 kW"}, tools=[welder], conditions=OPEN,
        work=[{"id": "beads", "unit": "weld_metre", "amount": 5, "tool": "welder"}],
        duties=[{"tool": "welder", "rated": "20 %"}],
    )  # fmt: skip
    assert body["work_done"][0]["unit"] == "weld_metre"
    assert any(item["tool"] == "welder" for item in body["duties"])


def test_what_is_left_is_said_in_words(client: TestClient) -> None:
    """The words give the P10 of the figures, rounded down to two digits."""
    body = ask(client, source=VAN, charge="80 %", way_home={"distance": "20 km"}, conditions=OPEN)
    (line,) = [item["text"] for item in body["crew_card"] if item["code"] == "card_left"]
    kilowatt_hours = body["left"]["at_end_j"]["p10"] / 3.6e6
    said = float(line.removeprefix("In 8 of 10 days at least ").split(" kWh")[0])
    assert line.endswith(" kWh is left at home.")
    assert said <= kilowatt_hours < said * 1.1


def test_the_sun_fills_a_battery_hour_by_hour(client: TestClient) -> None:
    dark = ask(client, source=STATION, charge="30 %", tools=[heater("150 W")], duties=ALWAYS, shift="6 h")
    sun = ["0 W", "100 W", "250 W", "250 W", "100 W", "0 W"]
    lit = ask(client, source=STATION, charge="30 %", tools=[heater("150 W")], duties=ALWAYS, shift="6 h", solar=sun)
    assert lit["left"]["after_work_j"]["p50"] > dark["left"]["after_work_j"]["p50"]
    gained = [b["left_j"]["p50"] - a["left_j"]["p50"] for a, b in zip(dark["curve"], lit["curve"], strict=True)]
    assert gained[0] == gained[1] == 0.0  # nothing before the sun
    assert gained[2] > 0.0


def test_thin_air_leaves_less_of_an_engine(client: TestClient) -> None:
    request = {"source": SMALL_SET, **TWO, "conditions": OPEN}
    low, high = ask(client, **request), ask(client, **request, fuel={"altitude": "3500 m"})
    assert high["done_ratio"]["p50"] < low["done_ratio"]["p50"]


def test_a_vehicle_charges_packs_while_a_compressor_cycles(client: TestClient) -> None:
    """A mix of counted work, a machine that cycles, a socket and the drive; parts add up to the whole."""
    compressor = {
        "id": "comp", "load_class": "air_compressor", "supply_options": [{"voltage": "120 V", "current": "12 A"}],
    }  # fmt: skip
    air = {"tank": "24 l", "cut_in": "6 bar", "cut_out": "8 bar", "delivery": "110 l/min", "nails": "5 /min"}
    body = ask(
        client, source=VAN, tools=[compressor, charger()], charge="90 %", people=2,
        work=[{"id": "packs", "unit": "pack", "amount": 6, "tool": "charger", "pack": {"capacity": "90 Wh"}}],
        duties=[{"tool": "comp", "air": air}],
        stops=[
            {"id": "yard", "distance": "12 km", "lasts": "3 h", "recharge": "1.4 kW"},
            {"id": "roof", "distance": "8 km", "lasts": "4 h"},
        ],
        way_home={"distance": "15 km"}, conditions=OPEN,
    )  # fmt: skip
    kinds = {item["kind"] for item in body["uses"]}
    assert {"tool", "work", "awake", "conversion", "drive"} <= kinds
    assert sum(item["share_ratio"] for item in body["uses"]) == pytest.approx(1.0, abs=1e-3)
    assert [item["stop"] for item in body["stops"]] == ["yard", "roof"]
    assert any(item["starts_per_hour"] for item in body["duties"] if item["tool"] == "comp")
