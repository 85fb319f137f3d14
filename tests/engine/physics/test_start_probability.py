"""Does the probability of a start turn where the break-even lies, and come out the same every time?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics import motor_nameplate as plate_of
from ampwright.engine.physics.load_torque import INERTIA_TIME_S, LOAD_RATIOS
from ampwright.engine.physics.source_limit_state import LIMITS
from ampwright.engine.physics.start_probability import StartProbability, start_probability
from engine.physics.start_cases import plate, setting, source


def compressor_on(limit_a: float, *, draws: int = 300, seed: int = 5, kind: str = "compressor_against_pressure"):
    low, typical, high = (
        plate(plate_of.CAPACITOR_START, 1.5, 120, 15, kva, torque_ratio=torque)
        for kva, torque in ((7.1, 2.5), (7.545, 2.85), (7.99, 3.25))
    )
    loads = [[*ratios, inertia, 0.0] for ratios, inertia in zip(LOAD_RATIOS[kind], INERTIA_TIME_S[kind], strict=True)]
    feed = source(120, 0.05, response=LIMITS, continuous_a=limit_a)
    return start_probability(
        np.array([low, typical, high]), np.array(loads), np.array([feed] * 3), setting(120.0), seed, draws
    )


def test_turns_between_the_break_evens() -> None:
    # Break-evens 49-63 A with rated torque against the motor; the band of loads (0.8 to 1.2) widens that by sqrt.
    assert compressor_on(49.0 * np.sqrt(0.8) - 1.0).starts_ratio == 0.0
    assert compressor_on(63.2 * np.sqrt(1.2) + 1.5).starts_ratio == 1.0
    middle = compressor_on(56.0)
    assert 0.2 < middle.starts_ratio < 0.8
    assert middle.low_ratio < middle.starts_ratio < middle.high_ratio


def test_same_seed_same_answer_and_a_prefix_is_a_prefix() -> None:
    once, again, longer = compressor_on(56.0), compressor_on(56.0), compressor_on(56.0, draws=400)
    assert once.results.tobytes() == again.results.tobytes()
    assert once.results.tobytes() == longer.results[:300].tobytes()
    assert once.results.tobytes() != compressor_on(56.0, seed=6).results.tobytes()


def test_interval_of_wilson() -> None:
    # Wilson 1927; 0 of n starts: upper end z^2 / (n + z^2)
    nothing = compressor_on(20.0, draws=100)
    z2 = 1.959964**2
    assert nothing.low_ratio == pytest.approx(0.0, abs=1e-12)
    assert nothing.high_ratio == pytest.approx(z2 / (100 + z2), rel=1e-5)


def test_bands_out_of_order_and_no_draws_are_refused() -> None:
    rows = np.array([plate(plate_of.CAPACITOR_START, 1.5, 120, 15, 7.5)] * 3)
    loads = np.array([[1.0, 0, 0, 0.5, 0]] * 3)
    feeds = np.array([source(120, 0.1)] * 3)
    with pytest.raises(ValueError, match="draws"):
        start_probability(rows, loads, feeds, setting(120.0), 1, 0)
    with pytest.raises(ValueError, match="low <= typical <= high"):
        start_probability(rows, loads * np.array([[2.0], [1.0], [1.0]]), feeds, setting(120.0), 1, 10)
    with pytest.raises(ValueError, match="shape"):
        start_probability(rows, loads[:2], feeds, setting(120.0), 1, 10)
    assert isinstance(start_probability(rows, loads, feeds, setting(120.0), 1, 3), StartProbability)
