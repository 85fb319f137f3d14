"""Is a set held to what altitude and heat leave of its plate?

Expected: 3.5 % of a spark-ignition engine's power a 1000 ft and 1 % each 10 F above 77 F (widely printed rules, from
memory); air pressure over that at sea level by ISO 2533.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_result import LoadCheckResult
from ampwright.engine.site.band import Band
from ampwright.engine.site.thin_air import power_left
from ampwright.engine.standards.engine_derating import pressure_ratio
from change_requests import site_of_request

WORST = ("pass", "marginal", "unknown", "fail")


def checked(heater: str, *, kind: str = "engine_generator", **conditions: Any) -> LoadCheckResult:
    """A heater on a set of 2000 W (or another source of as much) that nothing else is amiss with."""
    output: dict[str, Any] = (
        {"running": "2000 W", "technology": "avr"}
        if kind == "engine_generator"
        else {"limits": [{"id": "output", "continuous": "2000 W"}]}
    )
    source = {
        "kind": kind,
        "voltage": "120 V",
        "resistance": "0.01 ohm",
        "circuits": [{"id": "C1", "device": {"kind": "breaker", "standard": "ul_489", "rating": "20 A"}}],
        "receptacles": [{"id": "R1", "type": "5-20R", "circuit": "C1", "ground_fault": "gfci_class_a"}],
        **output,
    }
    tool = {"id": "heater", "load_class": "heater", "supply_options": [{"voltage": "120 V", "power": heater}]}
    request = {
        "source": source,
        "tools": [tool],
        "connections": [{"plug": "heater", "into": "R1"}],
        "people": 1,
        "conditions": {"place": "open_air", "wet": False, **conditions},
    }
    return check_load(site_of_request(request))


def test_a_load_between_the_plate_and_what_is_left_fails() -> None:
    # 2000 m are 6562 ft: 2000 W x (1 - 0.035 x 6.562) = 1541 W
    assert checked("1700 W", ambient="20 degC").verdict.capacity == "pass"
    found = checked("1700 W", ambient="20 degC", altitude="2000 m")
    assert found.verdict.capacity == "fail"
    (finding,) = (one for one in found.findings if one.code == "limit_over_continuous")
    assert finding.pointer == "/conditions/altitude"
    assert finding.limit == pytest.approx(1541.0, abs=0.5)
    assert "at this altitude and heat" in finding.text
    assert checked("1400 W", ambient="20 degC", altitude="2000 m").verdict.capacity == "pass"


def test_heat_takes_too_where_the_height_is_said() -> None:
    # 40 C are 104 F, 27 F above 77 F: 2000 W x (1 - 0.027) = 1946 W
    finding = next(
        one
        for one in checked("2100 W", ambient="40 degC", altitude="0 m").findings
        if one.code == "limit_over_continuous" and one.pointer == "/conditions/altitude"
    )
    assert finding.limit == pytest.approx(1946.0, abs=0.5)


@pytest.mark.parametrize("kind", ["vehicle", "battery_station", "site_supply"])
def test_what_has_no_engine_gives_the_same_anywhere(kind: str) -> None:
    low, high = checked("1700 W", kind=kind), checked("1700 W", kind=kind, altitude="4000 m")
    assert low.verdict == high.verdict
    assert [one.text for one in low.findings] == [one.text for one in high.findings]


@pytest.mark.parametrize("heater", ["900 W", "1200 W", "1500 W", "1800 W"])
def test_higher_is_never_better(heater: str) -> None:
    levels = [WORST.index(checked(heater, altitude=f"{height} m").verdict.capacity) for height in range(0, 4500, 500)]
    assert levels == sorted(levels)


def test_a_height_that_is_not_said_is_told() -> None:
    told = {one.code: one for one in checked("1500 W").assumptions}
    assert told["altitude"].value == "0 m"
    assert "altitude" not in {one.code for one in checked("1500 W", altitude="300 m").assumptions}
    assert "altitude" not in {one.code for one in checked("1500 W", kind="vehicle").assumptions}


@pytest.mark.parametrize("altitude_m", [0.0, 500.0, 1000.0, 2000.0, 3000.0, 4000.0])
def test_the_rule_is_near_the_air_that_there_is(altitude_m: float) -> None:
    """An engine's power follows the air it breathes; the rule leaves a thousandth more at most, and little less."""
    left = power_left(Band.exactly(altitude_m), Band.exactly(20.0)).typical
    assert pressure_ratio(altitude_m) - 0.08 <= left <= pressure_ratio(altitude_m) + 1e-3
