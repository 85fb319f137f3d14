"""Do the reverse questions have the answers that closed forms give, and does what they name hold when it is posted?

Outside: the conventional load line of IEC 60974-1 solved for the output (efficiencies 0.75 and 0.815 common practice,
no source), I1eff = I1max times the root of the duty (IEC 60974-1), heat with the square of the current.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.reverse.highest_weld import HighestWeld, highest_welds
from ampwright.engine.calculations.reverse.largest_motor import RATINGS_HP, largest_motors
from ampwright.engine.calculations.reverse.longest_cord import longest_cords
from ampwright.engine.standards.code_letters import HORSEPOWER_W
from site_of import resistive, site_of

ORDER = ("pass", "marginal", "unknown", "fail")


def _source(limit_va: float = 50000.0) -> dict[str, Any]:
    return {
        "kind": "vehicle",
        "voltage": "120/240 V",
        "resistance": "0.0001 ohm",
        "limits": [
            {"id": "inverter", "continuous": f"{limit_va:g} VA", "tiers": [], "peak": "900 A", "response": "shutdown"}
        ],
        "circuits": [
            {
                "id": name,
                "legs": legs,
                "resistance": "0.0001 ohm",
                "device": {"kind": "breaker", "standard": "ul_489", "rating": rating},
            }
            for name, legs, rating in (("W", ["L1", "L2"], "50 A"), ("S", ["L1"], "20 A"))
        ],
        "receptacles": [
            {"id": "R50", "type": "14-50R", "circuit": "W", "ground_fault": "gfci_class_a"},
            {"id": "R1", "type": "5-20R", "circuit": "S", "ground_fault": "gfci_class_a"},
            {"id": "R2", "type": "5-20R", "circuit": "S", "ground_fault": "gfci_class_a"},
        ],
        "reset": {"how": "manual"},
        "neutral_bond": "bonded",
        "sleeps_below": "0 W",
    }


def _welder(**plate: Any) -> dict[str, Any]:
    states = [{"id": name, "power_factor": 1.0, "crest_factor": 1.42} for name in ("working", "heavy")]
    return {
        "id": "welder",
        "load_class": "welder",
        "supply_options": [{"voltage": "240 V", "output": "200 A", **plate}],
        "load_states": states,
        "switch": "constant_pressure",
        "start": {"kind": "resistive"},
    }


def _weld(limit_va: float, **plate: Any) -> HighestWeld:
    site = site_of(
        {
            "source": _source(limit_va),
            "tools": [_welder(**plate)],
            "connections": [{"plug": "welder", "into": "R50"}],
            "cases": [{"id": "weld", "running": ["welder"]}],
        }
    )
    (found,) = highest_welds(site, evaluate(site, frozenset(), with_after=True))
    return found


def _stick_output_a(arc_w: float) -> float:
    # (20 + 0.04 I) I = P, IEC 60974-1 below 44 V
    return (math.sqrt(400.0 + 0.16 * arc_w) - 20.0) / 0.08


@pytest.mark.parametrize("limit_va", [2000.0, 4000.0, 6000.0])
def test_the_highest_weld_is_the_load_line_solved_for_the_output(limit_va: float) -> None:
    found = _weld(limit_va)
    assert found.passes_a is not None
    assert found.at_most_a is not None
    # whole amperes, rounded down
    assert found.passes_a == pytest.approx(_stick_output_a(0.75 * limit_va) - 0.5, abs=0.6)
    assert found.at_most_a == pytest.approx(_stick_output_a(0.815 * limit_va) - 0.5, abs=0.6)
    assert found.limited_by == "limit_over_continuous"
    assert found.welding_in_ten_minutes_s is None  # the plate says nothing of duty


def test_a_weld_that_the_source_bears_is_limited_by_the_welder() -> None:
    found = _weld(50000.0)
    assert (found.passes_a, found.at_most_a, found.limited_by) == (200.0, 200.0, None)


def test_a_source_too_weak_for_any_weld_says_so() -> None:
    found = _weld(100.0)
    assert (found.passes_a, found.at_most_a) == (None, None)
    assert found.limited_by == "limit_over_continuous"


def test_duty_and_effective_current_follow_from_the_plate() -> None:
    # I1max 32 A, I1eff 16 A: a quarter of ten minutes at 200 A; at less current in proportion to the square
    found = _weld(4000.0, current="32 A", effective_current="16 A")
    assert found.at_most_a is not None
    assert found.supply_current_a is not None
    duty = min(1.0, 0.25 * (200.0 / found.at_most_a) ** 2)
    assert found.welding_in_ten_minutes_s == pytest.approx(600.0 * duty, abs=0.1)
    assert found.effective_current_a == pytest.approx(found.supply_current_a * math.sqrt(duty), rel=1e-3)


def _motor_request(hp: float, against: str) -> dict[str, Any]:
    load_class = "air_compressor" if against == "head_pressure" else "stationary_saw"
    return {
        "source": _source(),
        "tools": [
            resistive("heater", "600 W"),
            {
                "id": "motor",
                "load_class": load_class,
                "shaft_power": f"{hp * HORSEPOWER_W:.3f} W",
                "supply_options": [{"voltage": "120 V"}],
                "start": {"kind": "induction_motor", "motor": "capacitor_start", "against": against},
                "operated": "by_itself",
            },
        ],
        "connections": [{"plug": "heater", "into": "R1"}, {"plug": "motor", "into": "R2"}],
        "cases": [{"id": "warm", "running": ["heater", "motor"]}],
    }


@pytest.mark.parametrize("against", ["head_pressure", "nothing"])
def test_the_largest_motor_posted_holds_and_the_next_does_not(against: str) -> None:
    request = _motor_request(1.0, against)
    without = {**request, "tools": request["tools"][:1], "connections": request["connections"][:1]}
    without["cases"] = [{"id": "warm", "running": ["heater"]}]
    site = site_of(without)
    found = next(
        one for one in largest_motors(site, evaluate(site, frozenset(), with_after=True)) if one.against == against
    )
    assert found.holds_w is not None
    assert found.at_most_w is not None
    assert found.limited_by is not None
    verdicts = [check_load(site_of(_motor_request(hp, against))).verdict.capacity for hp in RATINGS_HP]
    for edge, most in ((found.holds_w, "pass"), (found.at_most_w, "marginal")):
        held = [ORDER.index(verdict) <= ORDER.index(most) for verdict in verdicts]
        last = max(n for n, one in enumerate(held) if one)
        assert all(held[: last + 1])
        assert edge == pytest.approx(RATINGS_HP[last] * HORSEPOWER_W, abs=0.1)


def test_the_longest_cord_holds_and_a_foot_more_does_not() -> None:
    def request(feet: float) -> dict[str, Any]:
        grinder = {
            "id": "grinder",
            "load_class": "angle_grinder",
            "supply_options": [{"voltage": "120 V", "current": "12 A"}],
            "switch": "constant_pressure",
        }
        cord = {"id": "lead", "length": f"{feet:g} ft", "size": "12 AWG", "laid": "straight", "plug": "5-15P"}
        return {
            "source": _source(),
            "tools": [grinder],
            "cords": [cord],
            "connections": [{"plug": "lead", "into": "R1"}, {"plug": "grinder", "into": "lead"}],
            "cases": [{"id": "grind", "running": ["grinder"]}],
        }

    site = site_of(request(50.0))
    (found,) = longest_cords(site, evaluate(site, frozenset(), with_after=True))
    feet = round(found.length_m / 0.3048)
    assert feet > 50
    now = check_load(site)
    assert check_load(site_of(request(feet))).verdict.capacity == now.verdict.capacity
    beyond = check_load(site_of(request(feet + 1)))
    assert found.limited_by in {one.code for one in beyond.findings} - {one.code for one in now.findings}
