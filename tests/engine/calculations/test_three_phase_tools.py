"""Is a tool on three phases taken to have a motor that runs on three phases, whatever its class usually has?

A series motor runs on one phase: a saw whose plate asks for three has an induction motor, whose locked rotor draws
several times the plate. IEC 60034-12:2016 table 1 (from memory): at most 13 VA a watt of rated output up to 6.3 kW.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from site_of import check

PLATE_A, SHAFT_W = 6.5, 3000.0


def _start(load_class: str, **members: Any) -> Any:
    result = check(
        {
            "source": {
                "kind": "site_supply",
                "voltage": "230/400 V",
                "resistance": "0.1 ohm",
                "receptacles": [{"id": "S1", "type": "IEC 60309 16 A 3P+N+E red", "circuit": "c"}],
            },
            "tools": [
                {
                    "id": "saw",
                    "load_class": load_class,
                    "shaft_power": f"{SHAFT_W:g} W",
                    "supply_options": [{"voltage": "230/400 V", "current": f"{PLATE_A:g} A"}],
                    **members,
                }
            ],
            "connections": [{"plug": "saw", "into": "S1"}],
        }
    )
    return result.cases[0].results[0].tools[0].start


def test_a_saw_on_three_phases_starts_as_an_induction_motor_does() -> None:
    start = _start("table_saw")
    assert 3.5 * PLATE_A < start.peak_a <= 13.0 * SHAFT_W / (math.sqrt(3.0) * 400.0)
    assert start.outcome == "starts"


def test_whatever_its_class_the_same_plate_starts_alike() -> None:
    assert _start("table_saw").peak_a == pytest.approx(_start("stationary_saw").peak_a, rel=0.02)
