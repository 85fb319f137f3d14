"""Does a set carry its own label, and is it said who brings power back where its engine dies under a start?

A set is sold by what it carries: rated volt-amperes at power factor 0.8 lagging (ISO 8528-1, from memory), within a
tenth of its voltage (common practice, no source). Held against the course in time of generator_response.
"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.calculations.load_check.load_check import check_load
from ampwright.engine.calculations.load_check.load_check_evaluation import evaluate
from ampwright.engine.calculations.starts import start_set
from ampwright.engine.calculations.starts.start_network import Seen
from ampwright.engine.physics.generator_response import (
    GENERATOR_COMPOUNDING,
    GENERATOR_RATED_VA,
    GENERATOR_VOLTAGE_V,
    generator_load_step,
)
from engine.calculations.test_set_size import asked
from site_of import site_of


def alone() -> Seen:
    """One leg of a source of 120 V with nothing on it."""
    nothing, one = np.zeros((1, 1, 3), np.complex128), np.array([[1.0, 0.0, 0.0]], np.complex128)
    return Seen(
        np.array([120.0 + 0j]), np.array([0.01 + 0j]), np.array([[120.0 + 0j]]), np.array([[0.01 + 0j]]), nothing,
        one[:, None, :].copy(), one,
    )  # fmt: skip


def row(estimate: int, reactance: str | None) -> np.ndarray:
    request = asked("capacitor_regulated", 3000, "fan")
    if reactance is not None:
        request["source"]["transient_reactance"] = reactance
    settled = evaluate(site_of(request), frozenset()).settled
    _, generator = start_set.generator_row(settled, "capacitor_regulated", estimate, alone(), 0, 0.0)
    return generator


@pytest.mark.parametrize("reactance", [None, "0.15 pu", "0.3 pu"])
@pytest.mark.parametrize("estimate", range(3))
def test_a_set_without_a_regulator_carries_its_label_whatever_its_reactance(
    estimate: int, reactance: str | None
) -> None:
    generator = row(estimate, reactance)
    assert generator[GENERATOR_RATED_VA] == 3000.0
    rated_ohm = generator[GENERATOR_VOLTAGE_V] ** 2 / generator[GENERATOR_RATED_VA]
    series = np.empty((8000, 3))
    generator_load_step(generator, 1e9 + 0j, rated_ohm * complex(0.8, 0.6), 0.001, series)
    assert series[-1, 0] / 120.0 > 0.89
    # what it is wound for is not what a large lagging load takes: it still gives way under one
    generator_load_step(generator, 1e9 + 0j, 0.15 * rated_ohm * complex(0.4, 0.917), 0.001, series)
    assert series[-1, 0] / 120.0 < 0.6


def test_compounding_grows_with_the_reactance_that_it_makes_up_for() -> None:
    rows = [row(estimate, None) for estimate in range(3)]
    needed = [start_set.label_compounding(one) for one in rows]
    assert needed == sorted(needed)
    assert all(one[GENERATOR_COMPOUNDING] >= least for one, least in zip(rows, needed, strict=True))


def test_a_dead_engine_is_told_as_one_that_somebody_starts_again() -> None:
    """The engine of a set of 2.1 kW dies under a compressor of 1.5 hp against its pressure (test_set_size.py)."""
    found = {item.code: item for item in check_load(site_of(asked("avr", 2101, "compressor-under-pressure"))).findings}
    text = found["does_not_start"].text
    assert "engine of the set dies" in text
    assert "somebody has to start the engine again" in text
    assert "voltage collapses" not in text


def test_an_engine_that_may_die_is_told_beside_the_condition() -> None:
    found = {item.code: item for item in check_load(site_of(asked("avr", 3365, "mixer"))).findings}
    assert "may die under it" in found["starts_only_if"].text
