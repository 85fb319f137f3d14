"""Are figures of a day's fuel that contradict each other told, and is the safe side of them counted?

Outside the project stand: a tank holds no more than it holds; no engine gives more electricity than half of its fuel's
heat (common practice, no source; the first law alone forbids more than all of it); gasoline has 116,090 Btu a US gallon
(lower heating value; Alternative Fuels Data Center, fuel properties), which is 32.36 MJ a litre.
"""

from __future__ import annotations

from typing import Any

import pytest
from day_of import budget

GASOLINE_J_PER_L = 116_090 * 1055.056 / 3.785412


def _set(fuel: dict[str, Any], *, tank: str = "10 l") -> dict[str, Any]:
    return {
        "source": {
            "kind": "engine_generator",
            "voltage": "120 V",
            "technology": "avr",
            "running": "3000 W",
            "tank": tank,
        },
        "tools": [
            {
                "id": "heater",
                "load_class": "heater",
                "supply_options": [{"voltage": "120 V", "power": "1500 W"}],
                "load_states": [{"id": "working", "power": "1500 W", "power_factor": 1.0}],
            }
        ],
        "duties": [{"tool": "heater", "running": "100 %"}],
        "shift": "8 h",
        "fuel": {"kind": "gasoline", **fuel},
        "conditions": {"place": "open_air", "ambient": "20 degC"},
    }


def _codes(request: dict[str, Any]) -> set[str]:
    return {item.code for item in budget(request).findings}


@pytest.mark.parametrize(
    ("in_tank", "told"), [("9 l", False), ("10 l", False), ("10.2 l", False), ("8..12 l", False), ("20 l", True)]
)
def test_a_tank_holds_what_it_holds(in_tank: str, told: bool) -> None:
    assert ("fuel_more_than_tank" in _codes(_set({"in_tank": in_tank}))) == told


def test_what_does_not_go_into_a_tank_is_not_counted() -> None:
    plate = {"run_times": [{"load": "50 %", "lasts": "5 h"}]}
    full, over = (budget(_set({"in_tank": litres, **plate})) for litres in ("10 l", "20 l"))
    # 10 l last 5 h at 1500 W by the plate: short in an 8 h day, whatever is said of 20 l
    assert (full.verdict.capacity, over.verdict.capacity) == ("fail", "fail")
    assert over.left == full.left


@pytest.mark.parametrize(
    ("lasts_h", "told"),
    [
        (5.0, False),
        # half its heat: 1500 W for as long as 10 l x 32.36 MJ/l / 3000 W
        (0.99 * 10.0 * GASOLINE_J_PER_L / 3000.0 / 3600.0, False),
        (1.01 * 10.0 * GASOLINE_J_PER_L / 3000.0 / 3600.0, True),
        (100.0, True),
    ],
)
def test_a_run_time_that_no_engine_has_is_told_and_left_out(lasts_h: float, told: bool) -> None:
    request = _set({"in_tank": "10 l", "run_times": [{"load": "50 %", "lasts": f"{lasts_h:.4f} h"}]})
    assert ("run_times_contradict" in _codes(request)) == told
    if told:
        assert budget(request).left == budget(_set({"in_tank": "10 l"})).left


def test_running_longer_on_more_load_is_told() -> None:
    times = [{"load": "50 %", "lasts": "8 h"}, {"load": "100 %", "lasts": "9 h"}]
    assert "run_times_contradict" in _codes(_set({"in_tank": "10 l", "run_times": times}))
    times[1]["lasts"] = "5 h"
    assert "run_times_contradict" not in _codes(_set({"in_tank": "10 l", "run_times": times}))


def test_outlets_that_go_off_are_told_beside_a_reserve_that_holds() -> None:
    van = {
        "kind": "vehicle",
        "voltage": "120 V",
        "battery": "60 kWh",
        "awake_draw": "200 W",
        "energy_per_distance": "200 Wh/km",
        "sleeps_below": "0 W",
    }
    request = {
        **_set({}),
        "source": van,
        "charge": "80 %",
        # outlets that are off below nine tenths are off from the beginning; the drive of 10 km takes 2 kWh of 48
        "battery": {"stops_at": "90 %", "health": "100 %"},
        "way_home": {"distance": "10 km", "arrive_with": "10 %"},
    }
    del request["fuel"]
    found = budget(request)
    told = next(item for item in found.findings if item.code == "reserve_at_risk")
    assert found.verdict.capacity == "fail"
    assert told.value > told.limit
    assert "its outlets go off" in told.text
