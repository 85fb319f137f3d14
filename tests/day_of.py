"""How does a test say a day? As a request would, in JSON members, read through the contract."""

from __future__ import annotations

from typing import Any

import msgspec
from ampwright.contract.energy_budgets import EnergyBudgetRequest
from ampwright.contract.reading_energy import read_day
from ampwright.contract.reading_site import read_site
from ampwright.engine.calculations.energy.energy_budget import budget_energy
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.site.energy_day import EnergyDay
from ampwright.engine.site.use import Site
from ampwright.engine.site.validation import validate
from ampwright.engine.site.validation_energy import day_faults

WH_J = 3600.0
KWH_J = 3.6e6

# Nothing open: a battery of 10 kWh, full, warm and new, that loses nothing and drives nowhere.
CERTAIN: dict[str, Any] = {
    "source": {
        "kind": "vehicle",
        "voltage": "120 V",
        "battery": "10 kWh",
        "awake_draw": "0 W",
        "energy_per_distance": "200 Wh/km",
    },
    "charge": "100 %",
    "battery": {"health": "100 %", "stops_at": "0 %", "efficiency": "100 %", "cells": "25 degC"},
    "way_home": {
        "distance": "0 km",
        "arrive_with": "0 %",
        "loaded": False,
        "towing": False,
        "headwind": "0 m/s",
    },
    "conditions": {"ambient": "20 degC"},
    "shift": "5 h",
    "people": 1,
}


def certain(**members: Any) -> dict[str, Any]:
    """The certain day with members put in or replaced; a dict joins the one that is there."""
    made: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(CERTAIN))
    for name, value in members.items():
        if isinstance(value, dict) and isinstance(made.get(name), dict) and "kind" not in value:
            made[name] = {**made[name], **value}
        else:
            made[name] = value
    return made


def steady(tool: str, power: str) -> dict[str, Any]:
    """A load that draws exactly this power; how much of the time, `duties` say."""
    return {
        "id": tool,
        "load_class": "heater",
        "supply_options": [{"voltage": "120 V", "power": power}],
        "load_states": [{"id": name, "power": power, "power_factor": 1.0} for name in ("working", "heavy")],
    }


def day_of(request: dict[str, Any]) -> tuple[Site, EnergyDay]:
    """A sound site and day; faulty ones fail the test that asked for them."""
    read = msgspec.convert(request, EnergyBudgetRequest)
    site, unread = read_site(read)
    day, unread_day = read_day(read)
    faults = (*unread, *unread_day, *validate(site), *day_faults(site, day))
    assert not faults, faults
    return site, day


def budget(request: dict[str, Any]) -> EnergyBudgetResult:
    """The energy budget of a request in JSON members."""
    return budget_energy(*day_of(request))
