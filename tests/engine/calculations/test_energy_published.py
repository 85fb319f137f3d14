"""Do energy budgets meet what others have published: heating values, part load, cold, labels, worked energy?

Each check names the row of the reference values and its source. A budget is made of certain figures, so that what comes
out is one number.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from ampwright.engine.calculations.energy.energy_loads import compressor_running, litre_j, pack_j
from ampwright.engine.calculations.energy.energy_settle import settle_day
from ampwright.engine.calculations.energy.energy_source import EFFICIENCY, wind_factor
from ampwright.engine.physics.inverter_efficiency import input_power_w
from ampwright.engine.site.band import Band
from ampwright.engine.site.energy_day import CompressedAir, Pack
from day_of import KWH_J, budget, certain, day_of, steady
from published.reference_rows import published

HOUR_S = 3600.0


def engine_day(fuel: str, litres: float, **members: object) -> dict[str, object]:
    # A set of 1 kW that burns 3 kWh of heat an hour at full load and 1 kWh at none: hours at both loads on 8.988 l.
    return {
        "source": {"kind": "engine_generator", "voltage": "120 V", "running": "1000 W", "tank": "10 l"},
        "fuel": {"kind": fuel, "in_tank": f"{litres:g} l", **members},
        "conditions": {"place": "open_air", "ambient": "20 degC"},
        "people": 1,
    }


@pytest.mark.parametrize(("row", "fuel"), [("08-0050", "gasoline"), ("08-0054", "diesel"), ("08-0056", "propane")])
def test_a_tank_holds_its_heating_value(row: str, fuel: str) -> None:
    # AFDC/GREET lower heating values, in kWh a litre. 1 kW for 10 h at a heat rate that a plate fixes:
    # 10 l last 10 h at full load: the heat rate is a litre an hour, so after 10 h nothing is left.
    per_litre = published()[row].number
    request = engine_day(fuel, 10.0, run_times=[{"load": "100 %", "lasts": "10 h"}, {"load": "0 %", "lasts": "30 h"}])
    request |= {"shift": "6 h", "tools": [steady("lamp", "1000 W")], "duties": [{"tool": "lamp", "running": "100 %"}]}
    found = budget(request)  # type: ignore[arg-type]
    assert found.method.method == "certain"
    assert found.fuel is not None
    assert found.fuel.burnt_m3.p50 == pytest.approx(6e-3, abs=1e-6)
    # conversion takes what is not electricity: 6 h x (litre an hour x heating value) - 6 kWh - idling
    total_kwh = sum(use.energy_j.p50 for use in found.uses) / KWH_J
    assert total_kwh == pytest.approx(6.0 * per_litre, abs=6.0 * published()[row].half_digit + 1e-4)


def test_a_half_loaded_set_burns_between_its_plate_figures() -> None:
    # Willans line: a straight line through the two run times of the plate. 10 l: 10 h at full load, 20 h at none
    # make 1 l/h and 0.5 l/h; half load is 0.75 l/h.
    request = engine_day(
        "gasoline", 10.0, run_times=[{"load": "100 %", "lasts": "10 h"}, {"load": "0 %", "lasts": "20 h"}]
    )
    request |= {"shift": "8 h", "tools": [steady("lamp", "500 W")], "duties": [{"tool": "lamp", "running": "100 %"}]}
    found = budget(request)  # type: ignore[arg-type]
    assert found.fuel is not None
    assert found.fuel.burnt_m3.p50 == pytest.approx(6e-3, abs=1e-6)
    assert found.fuel.left_m3.p50 == pytest.approx(4e-3, abs=1e-6)
    # CO2 of gasoline: 0.125 mmBtu a US gallon at 70.22 kg a mmBtu (40 CFR 98, table C-1)
    assert found.carbon_kg is not None
    assert found.carbon_kg.p50 == pytest.approx(6.0 / 3.785411784 * 0.125 * 70.22, abs=1e-3)


@pytest.mark.parametrize("quantile", ["P10", "P90"])
def test_a_straight_line_of_load_meets_published_part_load(quantile: str) -> None:
    # Rows 09-0043 to 09-0063, CEC inverter list 2019-03-05, P10 and P90 of 400 inverters, verified (a proxy). A line of
    # input power through the rows at 5 and 100 % load meets the rows between within 2 %: that is the error of taking
    # draw as a straight line of load, small beside the band of efficiency.
    rows = {}
    for row in published().values():
        if row.kind == "cec_partload" and f", {quantile} of" in row.item:
            percent = float(row.parts(r"inverter efficiency at (\d+) % of rated AC, P\d+ of .*")[0])
            rows[percent / 100.0] = row.number
    ends = np.array([0.05, 1.0])
    inputs = np.array([0.05 / rows[0.05], 1.0 / rows[1.0]])
    slope = (inputs[1] - inputs[0]) / (ends[1] - ends[0])
    line = np.array([0.0, *ends]), np.array([inputs[0] - slope * ends[0], *inputs])
    for load, efficiency in rows.items():
        asked = input_power_w(load, *line)
        assert asked == pytest.approx(load / efficiency, rel=0.02)
    # and the band that stands for an inverter nobody measured begins below the worst tenth of them and ends no better
    # than the best tenth: each further watt of those is turned at the slope of the line
    assert EFFICIENCY.low < 1.0 / slope
    if quantile == "P90":
        assert EFFICIENCY.high < 1.0 / slope


@pytest.mark.parametrize(("row", "fahrenheit"), [("09-0008", 25.0), ("09-0009", 40.0), ("09-0010", 60.0)])
def test_a_cold_lead_acid_battery_holds_one_over_its_size_factor(row: str, fahrenheit: float) -> None:
    # IEEE 485 table 1, from memory.
    celsius = (fahrenheit - 32.0) / 1.8
    request = certain(battery={"chemistry": "lead_acid", "cells": f"{celsius:.6f} degC"})
    request["source"] = {"kind": "battery_station", "voltage": "120 V", "battery": "1 kWh", "awake_draw": "0 W"}
    del request["way_home"]
    found = budget(request)
    assert found.left is not None
    assert found.left.at_end_j.p50 == pytest.approx(KWH_J / published()[row].number, rel=1e-3)


@pytest.mark.parametrize("row", ["09-0036", "09-0037", "09-0039", "09-0040"])
def test_a_drive_takes_its_energy_per_distance(row: str) -> None:
    # EPA labels in kWh/100 km (wall energy, so an upper figure for a battery), formula rows.
    label = published()[row]
    request = certain(
        source={**certain()["source"], "battery": "90 kWh", "energy_per_distance": f"{label.value} kWh/100km"},
        way_home={"distance": "100 km"},
    )
    found = budget(request)
    assert found.left is not None
    assert 90.0 - found.left.at_end_j.p50 / KWH_J == pytest.approx(label.number, abs=1e-4)


def test_a_computer_for_a_year() -> None:
    # Row 11-0016, US DOE method: 270 W, 4 h a day, 365 days make 394 kWh.
    row = published()["11-0016"]
    given = row.given
    request = {
        "source": {"kind": "site_supply", "voltage": "120 V"},
        "tools": [steady("computer", f"{given['W']} W")],
        "duties": [{"tool": "computer", "running": "100 %"}],
        "shift": f"{given['h_per_day']} h",
        "electricity_price": "0.11 USD/kWh",
    }
    found = budget(request)
    a_year = found.used_j.p50 / KWH_J * given["days"]
    assert a_year == pytest.approx(float(row.value.split(" kWh")[0]), abs=0.5)
    assert found.cost is not None
    assert found.cost.amount.p50 == pytest.approx(0.12, abs=0.005)


def test_a_refrigerator_runs_a_third_of_the_time() -> None:
    # Row 10-0091, US DOE: time plugged in over three.
    request = {
        "source": {"kind": "site_supply", "voltage": "120 V"},
        "tools": [
            {"id": "box", "load_class": "refrigerator", "supply_options": [{"voltage": "120 V", "power": "90 W"}]}
        ],
    }
    plan = settle_day(*day_of(request)).plan
    running = plan.figures[plan.index("running:box")]
    assert running.band.typical == published()["10-0091"].number
    assert running.assumption == "refrigerator_running:/tools/0/on"


def test_water_is_lifted_by_its_weight() -> None:
    # m g h over the efficiency: a litre weighs 9.80665 N (3rd CGPM); 10 m at an efficiency of 0.3 take 327 J.
    assert litre_j(Band.exactly(10.0)).typical == pytest.approx(9.80665 * 10.0 / 0.3, rel=1e-12)


def test_a_pack_takes_what_goes_in_over_the_efficiency() -> None:
    # 100 Wh from 20 to 100 % at 0.82: 97.6 Wh; the efficiency is common practice, no source.
    found = pack_j(Pack(Band.exactly(100 * 3600.0), Band.exactly(0.2), Band.exactly(1.0)))
    assert found.typical == pytest.approx(80 * 3600.0 / 0.82, rel=1e-12)


def test_a_compressor_runs_for_the_share_of_its_delivery_that_is_used() -> None:
    # Conservation of air: what the pump delivers while it runs is what the tools take all the time.
    air = CompressedAir("", 0.024, 6e5, 8e5, Band.exactly(0.002), Band.exactly(0.0005))
    assert compressor_running(air).typical == pytest.approx(0.25, rel=1e-12)
    over = CompressedAir("", 0.024, 6e5, 8e5, Band.exactly(0.002), Band.exactly(0.003))
    assert compressor_running(over).typical == 1.0


def test_wind_raises_drag_by_the_square_of_air_speed() -> None:
    # The road load equation by hand: drag 0.5 rho CdA (v+w)^2, rolling m g c, auxiliaries over speed. Of a forecast for
    # 10 m, ln(1.3/0.03)/ln(10/0.03) = 0.649 blows at 1.3 m over open country (logarithmic wind profile).
    def per_m(wind: float) -> float:
        drag = 0.5 * 1.2 * 2.1 * (20.0 + wind) ** 2
        rolling = 2800.0 * 9.80665 * 0.011
        return (drag + rolling) / 0.82 + 600.0 / 20.0

    assert wind_factor(10.0) == pytest.approx(per_m(6.49) / per_m(0.0), rel=1e-3)
    assert wind_factor(0.0) == 1.0


def test_an_observation_narrows_to_what_it_says() -> None:
    """With everything else certain: 90 kJ in 100 units is 900 J each, within the step of the display."""
    request = certain(
        work=[{"id": "cuts", "unit": "cut", "amount": 140}],
        # 140 cuts took 9 % of 10 kWh: 23.1 kJ each, on a display of whole percents: 8 to 10 %
        observations=[{"work": "cuts", "amount": 140, "took": "9 %"}],
    )
    (posterior,) = budget(request).posteriors
    middle = 0.09 * 10 * KWH_J / 140
    assert 0.08 / 0.09 * middle < posterior.after_j.p10 < posterior.after_j.p50 < posterior.after_j.p90 < middle / 0.9
    # a triangle one step to either side has its 10th and 90th percentile 0.553 steps from the middle
    # (1 - sqrt(0.2)), and the prior, falling there, may only shift them down a little
    step = 0.01 / 0.09 * middle
    assert posterior.after_j.p50 == pytest.approx(middle, abs=0.25 * step)
    width = posterior.after_j.p90 - posterior.after_j.p10
    assert width == pytest.approx(2.0 * (1.0 - math.sqrt(0.2)) * step, rel=0.1)


def test_more_observations_narrow_more_and_awake_time_is_taken_off() -> None:
    base = certain(
        work=[{"id": "cuts", "unit": "cut", "amount": 140}], source={**certain()["source"], "awake_draw": "200 W"}
    )
    one = {"work": "cuts", "amount": 70, "took_energy": "0.5 kWh", "over": "0.5 h"}
    (once,) = budget({**base, "observations": [one]}).posteriors
    (thrice,) = budget({**base, "observations": [one] * 3}).posteriors
    assert thrice.after_j.p90 - thrice.after_j.p10 < once.after_j.p90 - once.after_j.p10
    # 0.5 kWh less half an hour awake at 200 W is 0.4 kWh for 70 cuts
    assert thrice.after_j.p50 == pytest.approx(0.4 * KWH_J / 70, rel=0.1)
