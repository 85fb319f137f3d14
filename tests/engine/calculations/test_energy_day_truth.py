"""Does a day promise nothing that another figure of the same answer denies?

Expected values are sums done by hand beside each test, or follow from what the words mean.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.energy.energy_budget_batch import budget_many
from day_of import KWH_J, budget, certain, day_of, steady

HEATER = steady("heater", "2000 W")
ALWAYS = [{"tool": "heater", "running": "100 %"}]


def codes(found: Any) -> set[str]:
    return {item.code for item in found.findings}


def words(found: Any) -> str:
    return " ".join(line.text for line in found.crew_card)


def test_what_a_source_cannot_run_is_asked_and_not_done() -> None:
    # Half a kilowatt of lamp and two of a heater for another voltage: a fifth of what is asked is fed.
    heater = {**HEATER, "supply_options": [{"voltage": "240 V", "power": "2000 W"}]}
    lamp = steady("lamp", "500 W")
    duties = [{"tool": name, "running": "100 %"} for name in ("heater", "lamp")]
    found = budget(certain(tools=[heater, lamp], duties=duties, shift="2 h"))
    assert "tool_not_powered" in codes(found)
    assert found.verdict.capacity == "fail"
    assert found.done_ratio.p50 == pytest.approx(500.0 / 2500.0, abs=1e-3)
    assert found.used_j.p50 == pytest.approx(1.0 * KWH_J, abs=200.0)
    assert {duty.tool: duty.running_ratio.p90 for duty in found.duties} == {"heater": 0.0, "lamp": 1.0}


def test_what_may_not_run_leaves_the_day_open() -> None:
    # 2 kW on an outlet of which nothing is said: a panel of 15 A may trip (80 % of 15 A at 120 V are 1.44 kW).
    found = budget(certain(tools=[HEATER], duties=ALWAYS, shift="2 h"))
    assert found.left is not None
    assert found.left.enough == "pass"
    assert "tool_may_not_run" in codes(found)
    assert found.verdict.capacity == "unknown"
    assert "It is not sure that heater runs" in words(found)


def test_charge_below_the_floor_makes_up_for_nothing() -> None:
    # 10 kWh, outlets off below 100 %: 5 kWh lie in it and nothing can be done.
    lamp = steady("lamp", "100 W")
    duties = [{"tool": "lamp", "running": "100 %"}]
    found = budget(certain(tools=[lamp], duties=duties, charge="50 %", battery={"stops_at": "100 %"}))
    assert found.done_ratio.p90 == 0.0
    assert found.verdict.capacity == "fail"
    assert "On most days there is nothing for work" in words(found)


def test_a_store_that_fills_while_work_goes_on_holds_its_reserve_on_leaving() -> None:
    # 1 kWh of 10, 4 kWh for 20 km home and nothing on arrival. 1.1 kW asked and 2.3 kW put in, of which 85 to 94 %
    # arrive, leave at least 0.85 kW: after 5 h 5.2 kWh and more.
    stops = [{"id": "yard", "lasts": "5 h", "recharge": "2.3 kW"}]
    lamp = steady("lamp", "1100 W")
    duties = [{"tool": "lamp", "running": "100 %"}]
    day = certain(tools=[lamp], duties=duties, charge="10 %", stops=stops, way_home={"distance": "20 km"})
    found = budget(day)
    assert found.left is not None
    assert found.left.above_reserve_j.p10 > 0.2 * KWH_J
    assert found.left.enough == "pass"
    assert found.done_ratio.p10 == 1.0
    assert found.stops[0].verdict == "pass"
    # at 3 h 3.55 kWh at least are there of 4: what must be left is not there on leaving
    short = budget({**day, "stops": [{**stops[0], "lasts": "3 h"}], "shift": "3 h"})
    assert short.left is not None
    assert short.left.enough != "pass"
    assert short.stops[0].verdict != "pass"


def test_what_happens_every_day_is_not_said_of_one_in_ten() -> None:
    # 10 kWh at 2 kW last 5 of 8 hours, on every day.
    request = {
        "source": {"kind": "site_supply", "voltage": "120 V"},
        "allowance": "10 kWh",
        "tools": [HEATER],
        "duties": ALWAYS,
        "shift": "8 h",
    }
    said = words(budget(request))
    assert "On most days the supply runs out after 5.0 h." in said
    assert "1 day of 10" not in said
    assert "On most days nothing is left after work." in said
    empty = {**request, "source": {"kind": "battery_station", "voltage": "120 V", "battery": "1 kWh"}, "charge": "0 %"}
    del empty["allowance"]
    assert "On most days there is nothing for work: the battery is empty." in words(budget(empty))


def test_one_tool_at_fault_is_not_hidden_by_another_that_is_less_so() -> None:
    # Two chargers with the same finding, one of them beyond what the source gives: the worse one counts.
    source = {
        "kind": "battery_station",
        "voltage": "120 V",
        "battery": "3 kWh",
        "waveform": "sine",
        "limits": [{"id": "out", "continuous": "1000 W"}],
    }
    chargers = [
        steady(name, watts) | {"load_class": "battery_charger"} for name, watts in (("a", "1500 W"), ("b", "60 W"))
    ]
    both = budget({"source": source, "charge": "100 %", "tools": chargers, "shift": "1 h"})
    alone = budget({"source": source, "charge": "100 %", "tools": chargers[:1], "shift": "1 h"})
    assert both.verdict.safety == alone.verdict.safety
    assert alone.verdict.safety == "fail"


COOL = {"id": "cool", "load_class": "refrigerator", "supply_options": [{"voltage": "120 V", "power": "90 W"}]}
STATION = {"kind": "battery_station", "voltage": "120 V", "battery": "2 kWh"}
WELDER = steady("welder", "1200 W") | {"load_class": "welder"}
ROWS: list[dict[str, Any]] = [
    {"source": {**STATION, "sleeps_below": "12 W"}, "tools": [{**COOL, "must_return": True}], "charge": "100 %"},
    {"source": STATION, "tools": [COOL], "charge": "100 %"},
    {"source": STATION, "tools": [HEATER], "duties": ALWAYS, "charge": "100 %", "shift": "30 min"},
    {"source": STATION, "tools": [], "work": [{"id": "w", "unit": "cut", "amount": 9000}], "charge": "100 %"},
    {
        "source": {**STATION, "battery": "90 kWh", "limits": [{"id": "out", "continuous": "1500 W"}]},
        "tools": [WELDER],
        "duties": [{"tool": "welder", "rated": "15 %"}],
        "work": [{"id": "w", "unit": "weld_metre", "amount": 3, "tool": "welder"}],
        "charge": "100 %",
    },
    {
        "source": {"kind": "engine_generator", "voltage": "120 V", "running": "3 kW", "tank": "90 l"},
        "tools": [steady("a", "1700 W"), steady("b", "1700 W")],
        "duties": [{"tool": name, "running": "100 %"} for name in ("a", "b")],
    },
    {"source": STATION, "work": [{"id": "p", "unit": "pack", "amount": 2}], "conditions": {"ambient": "-5 degC"}},
    certain(tools=[steady("lamp", "100 W")]),
]


@pytest.mark.parametrize("request_", ROWS, ids=range(len(ROWS)))
def test_a_day_among_many_has_the_verdict_that_it_has_alone(request_: dict[str, Any]) -> None:
    """But that one default decides an energy that fails is asked of a day alone only."""
    day = {"shift": "8 h", "draws": 400, **request_}
    (row,) = budget_many([day_of(day)])
    alone = budget(day)
    assert row.verdict is not None
    assert row.because is not None
    assert row.verdict.safety == alone.verdict.safety
    if row.left is not None and row.left.enough == "fail" and alone.question is not None:
        assert (row.verdict.capacity, alone.verdict.capacity) == ("fail", alone.verdict.capacity)
    else:
        assert row.verdict == alone.verdict
    assert set(row.because) <= codes(alone)
    assert bool(row.because) == (row.verdict.overall != "pass")
