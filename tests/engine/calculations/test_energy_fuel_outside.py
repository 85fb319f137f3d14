"""Does the fuel line of a set that nobody described hold what was published of engines and sets, read after it was set?

The bands of gasoline and propane sets are held against specific fuel of engines over their test cycle (US EPA,
NONROAD2008a) and against four points of single sets; those of diesel sets against another chart than the one they
were drawn with, the same EPA file, and sets in the field. What falls out is said below, with its reason.
"""

from __future__ import annotations

from typing import Any

import pytest
from ampwright.engine.calculations.energy.energy_plan import evaluate
from ampwright.engine.calculations.energy.energy_powered import Powered
from ampwright.engine.calculations.energy.energy_settle import settle_day
from ampwright.engine.physics.day_energy import USED
from ampwright.engine.standards.engine_fuel_line import HELD_AGAINST
from day_of import budget, day_of, steady
from published.reference_rows import published

# Mean load of the test cycles: six modes of 40 CFR part 1054 for sets, D2 of ISO 8178-4 for diesel sets; both from
# memory: weights 9, 20, 29, 30, 7 and 5 %, and 5, 25, 30, 30 and 10 %, of loads 100, 75, 50, 25, 10 and 0 %.
CYCLE_LOAD = 0.47
# Electricity over brake work of an alternator: common practice, no source.
ALTERNATOR = {"gasoline": 0.80, "propane": 0.80, "diesel": 0.88}
# Lower heating value by mass, J/kg: 18,679, 18,320 and 19,904 Btu/lb (GREET, from memory).
HEAT_J_PER_KG = {"gasoline": 43.45e6, "diesel": 42.61e6, "propane": 46.30e6}
KILOGRAM_PER_J = 0.45359237 / (745.7 * 3600.0)
# A set that such an engine drives: brake power, less the alternator's part, less what a set keeps in hand.
SET_KW = {("gasoline", "0"): 2.5, ("gasoline", "6"): 5.0, ("gasoline", "25"): 20.0, ("propane", "0"): 2.5,
          ("propane", "25"): 20.0, ("diesel", "0"): 30.0, ("diesel", "100"): 100.0}  # fmt: skip

SPECIFIC = [row for row in published().values() if row.kind == "fuel_specific"]
SMALL = [row for row in published().values() if row.kind == "fuel_part_load_small"]
FIELD = [row for row in published().values() if row.kind == "fuel_field"]
PRIVATE = [row for row in published().values() if row.kind == "fuel_private"]
CUBIC_METRE_PER_GALLON = 3.785411784e-3


def day(kind: str, kilowatts: float, load_w: float) -> dict[str, Any]:
    return {
        "source": {"kind": "engine_generator", "voltage": "230/400 V", "running": f"{kilowatts:g} kW", "tank": "500 l"},
        "fuel": {"kind": kind, "in_tank": "500 l"},
        "tools": [steady("load", f"{max(load_w, 1e-3):g} W")],
        "duties": [{"tool": "load", "running": "100 %"}],
        "conditions": {"place": "open_air", "ambient": "20 degC"},
        "shift": "1 h",
        "people": 1,
    }


def burnt_w(kind: str, kilowatts: float, load_w: float) -> tuple[float, float, float]:
    """P10, P50 and P90 of the heat of fuel that a set burns, of which only its rating and fuel are said."""
    site, read = day_of(day(kind, kilowatts, load_w))
    outcome = evaluate(settle_day(site, read, Powered({}, {})).plan, read.seed, read.draws)
    return outcome.at(USED, 0.1) / 3600.0, outcome.at(USED, 0.5) / 3600.0, outcome.at(USED, 0.9) / 3600.0


def heat_of_litres_w(kind: str, cubic_metres_per_s: float) -> float:
    """AFDC/GREET lower heating values, rows 08-0049, 08-0053 and 08-0055."""
    btu = {"gasoline": 116_090, "diesel": 128_488, "propane": 84_250}[kind]
    return cubic_metres_per_s * btu * 1055.05585262 / CUBIC_METRE_PER_GALLON


@pytest.mark.parametrize("row", SPECIFIC, ids=lambda row: row.id)
def test_an_engine_over_its_test_cycle_lies_within_the_band(row: Any) -> None:
    """A straight line over a weighted cycle burns what it burns at the cycle's mean load, whatever its slope."""
    fuel, from_hp, technology = row.parts(r"(\w+) engine of (\d+) to \w+ hp, (.*)")
    kilowatts = SET_KW[(fuel, from_hp)]
    load_w = CYCLE_LOAD * kilowatts * 1e3
    heat_w = row.number * KILOGRAM_PER_J * HEAT_J_PER_KG[fuel] * load_w / ALTERNATOR[fuel]
    low, middle, high = burnt_w(fuel, kilowatts, load_w)
    if technology == "side valves, before 1997":
        assert heat_w > high  # older than sets at work today, and thirstier than the band says
    elif (fuel, from_hp) == ("diesel", "100"):
        assert heat_w < middle  # a large set burns less for its size: what is said errs on the thirsty side
    else:
        assert low <= heat_w <= high


@pytest.mark.parametrize("row", PRIVATE, ids=lambda row: row.id)
def test_a_set_that_somebody_measured_lies_within_the_band(row: Any) -> None:
    fuel, kilowatts, load_w = row.parts(r"(\w+) set of ([\d.]+) kW at (\d+) W")
    low, _, high = burnt_w(fuel, float(kilowatts), float(load_w))
    assert low <= heat_of_litres_w(fuel, row.number * CUBIC_METRE_PER_GALLON / 3600.0) <= high


@pytest.mark.parametrize("row", SMALL, ids=lambda row: row.id)
def test_small_diesel_sets_of_another_chart_lie_within_the_band(row: Any) -> None:
    kilowatts, load = row.parts(r"small diesel set of (\d+) kW at (1/2|3/4|full) load")
    load_w = float(kilowatts) * 1e3 * {"1/2": 0.5, "3/4": 0.75, "full": 1.0}[load]
    low, _, high = burnt_w("diesel", float(kilowatts), load_w)
    assert low <= heat_of_litres_w("diesel", row.number * CUBIC_METRE_PER_GALLON / 3600.0) <= high


@pytest.mark.parametrize("row", FIELD, ids=lambda row: row.id)
def test_diesel_sets_in_the_field_lie_within_the_band_but_for_the_worst_kept(row: Any) -> None:
    kva, load, how = row.parts(r"diesel set of (\d+) kVA at ([\d.]+) of its rating, (\w+)")
    kilowatts = 0.8 * float(kva)  # rated at a power factor of 0.8, as such sets are
    low, middle, high = burnt_w("diesel", kilowatts, kilowatts * 1e3 * float(load))
    # the working paper counts its load in kVA, as if each were a kW
    heat_w = heat_of_litres_w("diesel", row.number * 1e-3 / 3600.0 * float(kva) * float(load))
    if (kva, how) == ("25", "measured"):
        assert heat_w > high  # "serious fuel inefficiency likely due to issues of generator maintenance"
    elif how == "modelled" and float(load) < 0.25:
        assert (
            heat_w < middle
        )  # the authors draw sheets for half load and more on down: thriftier than anybody measured
    else:
        assert low <= heat_w <= high


def test_an_answer_names_what_its_fuel_line_was_held_against() -> None:
    for fuel, documents in HELD_AGAINST.items():
        named = {line.document for line in budget(day(fuel, 4.0, 400.0)).basis}
        assert "common practice" in named
        assert len(named) > len(documents)
    plate = day("gasoline", 4.0, 400.0)
    plate["fuel"]["run_times"] = [{"load": "50 %", "lasts": "8 h"}, {"load": "100 %", "lasts": "5 h"}]
    assert not any("EPA, NONROAD" in line.document for line in budget(plate).basis)


def test_a_fuel_line_that_decides_is_the_question() -> None:
    """Nothing but the line is open: a tank that a thrifty set makes last and a thirsty one does not."""
    # Half of 4 kW for 8 h: 0.69 of full-load heat, 21 kW, at the middle of the band and 0.63 of 15 kW at its better
    # end make 116 and 77 kWh of fuel, 12.9 and 8.6 l.
    asked = {**day("gasoline", 4.0, 2000.0), "shift": "8 h"}
    asked["fuel"]["in_tank"] = "10.5 l"
    asked["source"]["voltage"] = "120 V"
    found = budget(asked)
    decides = next(item for item in found.assumptions if item.code == "fuel_curve")
    assert decides.swings_verdict_to in ("pass", "marginal")
    assert found.question == decides.id
    assert found.verdict.capacity == "unknown"
    assert "plate" in decides.how_to_find_out
