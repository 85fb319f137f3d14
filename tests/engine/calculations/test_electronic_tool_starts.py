"""Does a tool whose electronics run its motor up start as constant power behind a source does?

Outside: current is power over volts and power factor; the energy of a linear ramp is half its peak times its time; a
source that gives less than that current leaves constant power no point of rest (circuit theory).
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_result import StartFigure
from site_of import row_of, site_of


def _request(limit: str, response: str, **start: Any) -> dict[str, Any]:
    states = [
        {"id": name, "power": "900 W", "power_factor": 0.96, "crest_factor": 1.5} for name in ("working", "heavy")
    ]
    return {
        "source": {
            "kind": "battery_station",
            "voltage": "120 V",
            "resistance": "0.0001 ohm",
            "limits": [{"id": "inverter", "continuous": limit, "tiers": [], "response": response, "peak": "500 A"}],
            "circuits": [
                {
                    "id": "C1",
                    "resistance": "0.0001 ohm",
                    "device": {"kind": "breaker", "standard": "ul_489", "rating": "15 A"},
                }
            ],
            "receptacles": [{"id": "R1", "type": "5-15R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
            "reset": {"how": "manual"},
        },
        "tools": [
            {
                "id": "grinder",
                "load_class": "electronic_tool",
                "supply_options": [{"voltage": "120 V", "current": "7.8125 A"}],
                "load_states": states,
                "switch": "constant_pressure",
                "start": {"kind": "electronic_motor", "corrected": True, **start},
            }
        ],
        "connections": [{"plug": "grinder", "into": "R1"}],
        "cases": [{"id": "grind", "running": ["grinder"]}],
    }


def _start(request: dict[str, Any]) -> StartFigure:
    found = row_of(check_load(site_of(request)), "grind").tools[0].start
    assert found is not None
    return found


def test_on_a_stiff_source_the_ramp_is_all_there_is() -> None:
    found = _start(_request("5000 VA", "shutdown", peak="13 A", lasts="1 s"))
    assert found.outcome == "starts"
    assert found.outcomes is None or {found.outcomes.low, found.outcomes.high} == {"starts"}
    # a ramp delivers its energy when it ends; one step of 5 ms, and copper of a few metres
    assert found.lasts_s == pytest.approx(1.0, abs=0.02)
    # the crest of a corrected current of 13 A
    assert found.peak_a == pytest.approx(13.0 * 1.5, rel=0.02)


def test_a_source_that_limits_below_the_peak_leaves_no_point_of_rest() -> None:
    # 13 A asked, 10 A given: folds back at its easiest, gives up by the usual estimate
    found = _start(_request("1200 VA", "current_limiting", peak="13 A", lasts="1 s"))
    assert found.outcome == "collapses"
    assert found.outcomes is not None
    assert found.outcomes.low in ("starts", "starts_slowly")
    result = check_load(site_of(_request("1200 VA", "current_limiting", peak="13 A", lasts="1 s")))
    assert any(one.code == "does_not_start" for one in result.findings)


def test_a_source_that_switches_off_does_so_at_the_peak_and_not_below_it() -> None:
    assert _start(_request("1500 VA", "shutdown", peak="13 A", lasts="1 s")).outcome == "shuts_off"
    assert _start(_request("1600 VA", "shutdown", peak="13 A", lasts="1 s")).outcome == "starts"


def test_of_a_tool_of_that_kind_no_start_is_left_open() -> None:
    request = _request("5000 VA", "shutdown")
    del request["tools"][0]["start"]
    assert "start" not in check_load(site_of(request)).not_assessed
    assert _start(request).outcome == "starts"
