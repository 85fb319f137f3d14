"""Is a day told when its battery is too cold for what is asked of it at a time, and not only for its energy?"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from ampwright.engine.calculations.energy.energy_budget_batch import budget_many
from ampwright.engine.calculations.energy.energy_cold_power import power_ratio
from ampwright.engine.calculations.energy.energy_result import EnergyBudgetResult
from ampwright.engine.physics.battery_energy import (
    activation_j_per_mol,
    cold_power_ratio,
    power_at_voltage_limit_w,
)
from day_of import budget, certain, day_of, steady
from published.reference_rows import published


def station(cells: str, watts: str = "1500 W", **battery: Any) -> dict[str, Any]:
    """Half an hour of one heater on a station whose outlets are labelled 2 kW."""
    request = certain(
        tools=[steady("heater", watts)],
        duties=[{"tool": "heater", "running": "100 %"}],
        source={
            "kind": "battery_station", "voltage": "120 V", "battery": "5 kWh", "awake_draw": "0 W",
            "limits": [{"id": "out", "continuous": "2000 W"}],
            "receptacles": [{"id": "R1", "marked": "20 A"}],
        },
        battery={"cells": cells, **battery},
        shift="30 min",
    )  # fmt: skip
    del request["way_home"]
    return request


def told(found: EnergyBudgetResult, code: str) -> Any:
    return next((item for item in found.findings if item.code == code), None)


def test_power_at_a_voltage_limit_falls_as_resistance_rises() -> None:
    """Row 09-0122 and 09-0123: three to five times the resistance at -20 C leaves a fifth to a third of the power."""
    for row in (item for item in published().values() if item.kind == "lithium_cold_resistance"):
        energy = activation_j_per_mol(row.number, -20.0, 25.0)
        # Ohm's law: 54 V open, 44 V least
        warm, cold = (power_at_voltage_limit_w(54.0, ohm, 44.0) for ohm in (0.05, 0.05 * row.number))
        assert cold_power_ratio(energy, -20.0, 25.0) == pytest.approx(cold / warm, rel=1e-12)
    band = power_ratio("lithium", -20.0)
    assert band.low < 1.0 / 5.0 < band.typical < 1.0 / 3.0 < band.high
    assert power_ratio("lithium", 25.0).low == power_ratio("lithium", 60.0).low == 1.0
    assert cold_power_ratio(20e3, -273.0, 25.0) >= 0.0
    assert math.isnan(cold_power_ratio(math.nan, 0.0, 25.0))


@pytest.mark.parametrize(
    "row", [row for row in published().values() if row.kind == "lead_acid_cold_power"], ids=lambda row: row.id
)
def test_lead_acid_keeps_the_printed_share(row: Any) -> None:
    (fahrenheit,) = row.parts(r"power available of a starter battery at (-?\d+) F")
    band = power_ratio("lead_acid", (float(fahrenheit) - 32.0) / 1.8)
    assert band.typical == pytest.approx(row.number / 100.0, abs=1e-9)
    assert band.low <= band.typical <= band.high


def test_a_load_that_a_warm_battery_feeds_may_be_too_much_for_a_cold_one() -> None:
    warm = budget(station("25 degC"))
    assert warm.verdict.capacity == "pass"
    assert told(warm, "battery_overloaded") is None
    cold = budget(station("-20 degC"))
    assert cold.verdict.capacity == "unknown"  # nobody said what the battery gives when cold
    assert told(cold, "battery_stops_tool").value == 1500.0
    assert told(cold, "battery_overloaded").limit < 1500.0
    assert told(cold, "battery_overloaded").pointer == "/battery/cells"
    assert any(item.code == "battery_cold_power" for item in cold.assumptions)
    assert any(item.text.startswith("the battery kept warm") for item in cold.changes)
    assert any("explanation of battery" in line.document for line in cold.basis)
    # nearly the label at the edge of the cold: in one draw of ten it is too much
    assert budget(station("3 degC", "1900 W")).verdict.capacity == "marginal"
    # a tenth of the label runs at any temperature
    assert budget(station("-20 degC", "100 W")).verdict.capacity == "pass"


def test_what_the_manual_says_of_the_cold_goes_before_the_band() -> None:
    enough = budget(station("-20 degC", largest_discharge="2500 W"))
    assert told(enough, "battery_stops_tool") is None
    assert not any(item.code == "battery_cold_power" for item in enough.assumptions)
    short = budget(station("-20 degC", largest_discharge="600 W"))
    assert short.verdict.capacity == "fail"
    finding = told(short, "battery_stops_tool")
    assert (finding.value, finding.limit, finding.pointer) == (1500.0, 600.0, "/battery/largest_discharge")
    assert told(short, "tool_not_powered") is None  # one finding, not two of the same
    # a tool that the battery switches off takes nothing and does nothing
    assert short.used_j.p50 == 0.0
    assert short.done_ratio.p50 == 0.0
    assert any(line.code == "card_not_powered" for line in short.crew_card)


def test_lead_acid_and_lithium_differ_and_colder_is_never_stronger() -> None:
    for chemistry in ("lithium", "lead_acid"):
        ratios = [power_ratio(chemistry, float(celsius)) for celsius in range(-40, 40, 2)]
        for colder, warmer in pairwise(ratios):
            assert colder.low <= warmer.low
            assert colder.typical <= warmer.typical
            assert colder.high <= warmer.high <= 1.0
    assert power_ratio("lithium", -20.0).typical < power_ratio("lead_acid", -20.0).typical


def test_the_cells_of_a_vehicle_have_power_to_spare() -> None:
    # 40 kWh at -20 C give some 26 kW (2.5 times its energy an hour, a quarter of it): outlets of 2 kW never see it.
    strong = {**certain()["source"], "battery": "40 kWh", "limits": [{"id": "out", "continuous": "2000 W"}]}
    day = certain(
        source=strong,
        tools=[steady("heater", "1500 W")],
        duties=[{"tool": "heater", "running": "100 %"}],
        battery={"cells": "-20 degC"},
    )
    found = budget(day)
    assert told(found, "battery_stops_tool") is None
    assert not any(item.code == "battery_cold_power" for item in found.assumptions)  # no load comes near it


def test_a_cold_day_of_a_batch_is_the_day_alone() -> None:
    days = [station("-20 degC"), station("25 degC"), station("-20 degC", largest_discharge="600 W")]
    for day, row in zip(days, budget_many([day_of(day) for day in days]), strict=True):
        alone = budget(day)
        assert row.done_ratio == alone.done_ratio
        assert row.verdict == alone.verdict
        assert row.because is not None
        assert ("battery_stops_tool" in row.because) == (told(alone, "battery_stops_tool") is not None)
