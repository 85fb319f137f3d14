"""Does every member of a day that a caller can write arrive in the engine, and every result on the wire?

One request says everything that can be said of a day. Each member is left out in turn: if the day does not change, the
member is not read. A member added to a struct and not to the request here fails the first test.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import fields
from typing import Any

import msgspec
import pytest
from ampwright.contract import energy_budgets as wire
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_energy import read_day
from ampwright.engine.calculations.energy import energy_result as result

AIR = {
    "tank": "24 l", "cut_in": "6 bar", "cut_out": "8 bar", "delivery": "110 l/min", "use": "40 l/min",
    "nails": "6 /min",
}  # fmt: skip
PACK = {"capacity": "90 Wh", "start": "20 %", "target": "95 %", "charger": "200 W", "chargers": 2}
DAY: dict[str, Any] = {
    "charge": "70 %",
    "battery": {
        "chemistry": "lead_acid", "health": "90 %", "age_years": 3.0, "cells": "5 degC", "stops_at": "12 %",
        "efficiency": "91 %", "largest_discharge": "3 kW",
    },
    "fuel": {
        "kind": "diesel", "in_tank": "7 l", "run_times": [{"load": "50 %", "lasts": "8 h"}], "altitude": "800 m",
    },
    "allowance": "9 kWh",
    "shift": "7 h",
    "pattern": "concrete",
    "duties": [{"tool": "t", "running": "30 %", "air": AIR, "rated": "60 %"}],
    "work": [
        {
            "id": "w", "unit": "pack", "amount": 9, "tool": "t", "energy_each": "3 Wh", "head": "4 m", "pack": PACK,
            "stop": "s",
        }
    ],
    "stops": [{"id": "s", "distance": "9 km", "lasts": "3 h", "running": ["t"], "recharge": "2 kW"}],
    "way_home": {
        "distance": "30 km", "headwind": "5 m/s", "towing": True, "loaded": False, "arrive_with": "15 %",
        "figure_of": "wall",
    },
    "solar": ["100 W"],
    "observations": [{"work": "w", "amount": 5.0, "took": "2 %", "step": "1 %", "over": "1 h"}],
    "electricity_price": "0.3 EUR/kWh",
    "fuel_price": "1.8 EUR/l",
    "carbon": "0.4 kg/kWh",
    "seed": 9,
    "draws": 700,
}  # fmt: skip
SOURCE = {"source": {"kind": "vehicle", "voltage": "120 V"}}
REQUIRED = ("id", "unit", "amount", "tool", "work", "load", "lasts")
STRUCTS = (
    wire.BatteryConditions, wire.RunTime, wire.FuelConditions, wire.CompressedAir, wire.ToolDuty, wire.PackCharging,
    wire.WorkAmount, wire.DayStop, wire.WayHome, wire.WorkObservation, wire.EnergyBudgetRequest,
)  # fmt: skip


def paths(value: Any, at: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(value, dict):
        for name, item in value.items():
            yield (*at, name)
            yield from paths(item, (*at, name))
    elif isinstance(value, list):
        for place, item in enumerate(value):
            yield from paths(item, (*at, place))


def without(path: tuple[str | int, ...]) -> dict[str, Any]:
    made = copy.deepcopy(DAY)
    here: Any = made
    for step in path[:-1]:
        here = here[step]
    del here[path[-1]]
    return made


def test_the_request_says_everything() -> None:
    said = {path[-1] for path in paths(DAY)} | {"took_energy"}  # the other way to say what something took
    of_load_checks = set(LoadCheckRequest.__struct_fields__)
    assert "shift" in of_load_checks  # it is read here too
    asked = {name for struct in STRUCTS for name in struct.__struct_fields__} - of_load_checks
    assert asked <= said


@pytest.mark.parametrize("path", list(paths(DAY)), ids=lambda path: "/".join(map(str, path)))
def test_a_member_left_out_changes_the_day(path: tuple[str | int, ...]) -> None:
    whole, _ = read_day(msgspec.convert({**SOURCE, **DAY}, wire.EnergyBudgetRequest))
    try:
        request = msgspec.convert({**SOURCE, **without(path)}, wire.EnergyBudgetRequest)
    except msgspec.ValidationError:
        assert path[-1] in REQUIRED, path
        return
    assert read_day(request)[0] != whole


STAMPED = {"used_entries", "notice", "engine_version", "catalogue_release", "withdrawals_as_of", "request_digest"}
PAIRS = [
    (result.EnergyBudgetResult, wire.EnergyBudgetAnswer),
    (result.Percentiles, wire.Percentiles),
    (result.EnergyAssumption, wire.EnergyAssumption),
    (result.Left, wire.EnergyLeft),
    (result.Reserve, wire.EnergyReserve),
    (result.WorkDone, wire.WorkDone),
    (result.CurvePoint, wire.EnergyCurvePoint),
    (result.Use, wire.EnergyUse),
    (result.StopResult, wire.StopResult),
    (result.Fuel, wire.FuelResult),
    (result.Cost, wire.CostResult),
    (result.Duty, wire.DutyResult),
    (result.PosteriorResult, wire.WorkPosterior),
    (result.Method, wire.BudgetMethod),
    (result.EnergyFinding, wire.EnergyFinding),
]


@pytest.mark.parametrize(("made", "sent"), PAIRS, ids=lambda one: one.__name__)
def test_a_result_and_its_answer_have_the_same_members(made: Any, sent: Any) -> None:
    stamped = STAMPED if sent is wire.EnergyBudgetAnswer else set()
    told = {item.name for item in fields(made) if item.metadata.get("told", True)}
    assert told | stamped == set(sent.__struct_fields__)
