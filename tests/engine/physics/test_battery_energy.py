"""Does battery energy obey circuit laws, conserve energy and run out when simple counting says so?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.battery_energy import (
    cell_power_w,
    energy_course_j,
    health_ratio,
    largest_power_w,
    peukert_time_s,
    power_at_voltage_limit_w,
    time_until_drawn_s,
    usable_energy_at_least_j,
    usable_energy_j,
)
from hypothesis import given, settings
from hypothesis import strategies as st

KWH_J = 3.6e6
shares = st.floats(0.0, 1.0)


def test_usable_energy_by_hand():
    # 100 kWh, 95 % health, 80 % charged, floor 20 %, a third lost to frost: 100 x 0.95 x 0.6 x 0.67 = 38.19 kWh; taken
    # from the bottom 100 x 0.95 x (0.6 - 0.33) = 25.65 kWh. Arithmetic.
    assert usable_energy_j(100 * KWH_J, 0.95, 0.8, 0.2, 0.67) == pytest.approx(38.19 * KWH_J)
    assert usable_energy_at_least_j(100 * KWH_J, 0.95, 0.8, 0.2, 0.67) == pytest.approx(25.65 * KWH_J)


@given(charge=shares, floor=shares, cold=shares, health=shares, more=shares)
@settings(max_examples=200, deadline=None)
def test_more_charge_warmth_and_health_never_give_less(charge, floor, cold, health, more):
    for energy_j in (usable_energy_j, usable_energy_at_least_j):
        here = energy_j(1e6, health, charge, floor, cold)
        slack = -1e-6
        assert here >= 0.0
        assert energy_j(1e6, health, charge + (1 - charge) * more, floor, cold) - here >= slack
        assert energy_j(1e6, health, charge, floor, cold + (1 - cold) * more) - here >= slack
        assert energy_j(1e6, health + (1 - health) * more, charge, floor, cold) - here >= slack
        assert energy_j(1e6, health, charge, floor * more, cold) - here >= slack
    at_least = usable_energy_at_least_j(1e6, health, charge, floor, cold)
    assert at_least <= usable_energy_j(1e6, health, charge, floor, cold) + 1e-6


def test_health_by_hand_and_never_below_nothing():
    # 4 years at 3 % a root year and 500 cycles at 0.02 %: 1 - 0.06 - 0.10. Arithmetic.
    assert health_ratio(4.0, 500.0, 0.03, 0.0002) == pytest.approx(0.84)
    assert health_ratio(0.0, 0.0, 0.03, 0.0002) == 1.0
    assert health_ratio(100.0, 1e5, 0.03, 0.0002) == 0.0


@given(share=st.floats(0.0, 1.0), volts=st.floats(10.0, 800.0), ohm=st.floats(0.001, 1.0))
@settings(max_examples=200, deadline=None)
def test_battery_power_closes_the_circuit(share, volts, ohm):
    # From the current back to terminals: E I = P + R I^2, I <= E/2R. Ohm's law.
    terminal_w = share * largest_power_w(volts, ohm)
    total_w = cell_power_w(terminal_w, volts, ohm)
    current_a = total_w / volts
    assert (volts - ohm * current_a) * current_a == pytest.approx(terminal_w, rel=1e-9, abs=1e-9)
    assert current_a <= volts / (2.0 * ohm) * (1 + 1e-9)


def test_battery_power_limits():
    # 48 V behind 0.1 ohm: 5,760 W at 24 V, nothing more; at 40 V 80 A, 3,200 W.
    assert largest_power_w(48.0, 0.1) == pytest.approx(5760.0)
    assert cell_power_w(5760.1, 48.0, 0.1) == math.inf
    assert cell_power_w(1000.0, 48.0, 0.0) == 1000.0
    assert power_at_voltage_limit_w(48.0, 0.1, 40.0) == pytest.approx(3200.0)
    assert power_at_voltage_limit_w(48.0, 0.1, 10.0) == pytest.approx(5760.0)
    assert power_at_voltage_limit_w(48.0, 0.1, 48.0) == 0.0


def test_peukert_at_the_rated_time_and_by_hand():
    # 100 Ah at 20 h: 5 A lasts 20 h; 25 A with exponent 1.2: 20 x 0.2^1.2 = 2.90 h. Arithmetic on Peukert's law.
    assert peukert_time_s(360_000.0, 72_000.0, 5.0, 1.2) == pytest.approx(72_000.0)
    assert peukert_time_s(360_000.0, 72_000.0, 25.0, 1.2) / 3600.0 == pytest.approx(2.90, abs=0.005)
    assert peukert_time_s(360_000.0, 72_000.0, 25.0, 1.0) == pytest.approx(14_400.0)


def test_time_until_drawn_by_hand():
    # 1,200 W for 10 min, 300 W for 50 min: 450 Wh an hour. 1 kWh: two whole hours (900 Wh), then 100 Wh at 1,200 W.
    pattern = (np.array([1200.0, 300.0]), np.array([600.0, 3000.0]))
    assert time_until_drawn_s(*pattern, KWH_J) == pytest.approx(7200.0 + 300.0)
    assert time_until_drawn_s(*pattern, 0.0) == 0.0
    assert time_until_drawn_s(*pattern, -1.0) == 0.0
    assert time_until_drawn_s(np.array([0.0]), np.array([10.0]), 5.0) == math.inf
    # Used up exactly as the drawing part ends: not after the rest that follows.
    assert time_until_drawn_s(np.array([100.0, 0.0]), np.array([10.0, 90.0]), 2000.0) == pytest.approx(110.0)


@given(
    pattern=st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=5),
    energy_j=st.integers(1, 2000),
)
@settings(max_examples=200, deadline=None)
def test_time_until_drawn_against_counting(pattern, energy_j):
    # Second by second, in whole numbers.
    power_w, duration_s = (np.array(side, dtype=float) for side in zip(*pattern, strict=True))
    seconds = np.repeat(power_w, duration_s.astype(int))
    if seconds.sum() == 0.0:
        assert time_until_drawn_s(power_w, duration_s, float(energy_j)) == math.inf
        return
    drawn = np.cumsum(np.tile(seconds, int(energy_j / seconds.sum()) + 2))
    last = int(np.searchsorted(drawn, energy_j))
    before = drawn[last - 1] if last else 0.0
    counted_s = last + (energy_j - before) / (drawn[last] - before)
    assert time_until_drawn_s(power_w, duration_s, float(energy_j)) == pytest.approx(counted_s, rel=1e-9)


def course(draw, gain, duration, start, floor, full):
    arrays = [np.array(a, dtype=float) for a in (draw, gain, duration)]
    outs = [np.empty(len(draw)) for _ in range(3)]
    energy_course_j(*arrays, start, floor, full, *outs)
    return outs


def test_energy_course_by_hand():
    # 100 J, floor 20, full 120: 10 W for 5 s, then 10 W for 5 s (30 J over what is left), then +5 W for 30 s.
    left, unserved, spilled = course([10, 10, 0], [0, 0, 5], [5, 5, 30], 70.0, 20.0, 120.0)
    assert left.tolist() == [20.0, 20.0, 120.0]
    assert unserved.tolist() == [0.0, 50.0, 0.0]
    assert spilled.tolist() == [0.0, 0.0, 50.0]


def test_a_battery_below_its_floor_serves_nothing_but_charges():
    left, unserved, _ = course([10, 0], [0, 4], [5, 5], 10.0, 20.0, 120.0)
    assert left.tolist() == [10.0, 30.0]
    assert unserved.tolist() == [50.0, 0.0]


stretch = st.tuples(st.floats(0.0, 5000.0), st.floats(0.0, 5000.0), st.floats(0.0, 7200.0))


@given(day=st.lists(stretch, min_size=1, max_size=24), start=shares, floor=st.floats(0.0, 0.5))
@settings(max_examples=200, deadline=None)
def test_energy_is_conserved_to_1e_9_and_stays_between_floor_and_full(day, start, floor):
    full_j = 2e7
    draw, gain, duration = zip(*day, strict=True)
    left, unserved, spilled = course(draw, gain, duration, start * full_j, floor * full_j, full_j)
    flows = np.array(gain) * duration - np.array(draw) * duration + unserved - spilled
    scale = full_j + np.sum((np.array(gain) + draw) * duration)
    assert abs(start * full_j + flows.sum() - left[-1]) <= 1e-9 * scale
    assert np.all(unserved >= -1e-6)
    assert np.all(spilled >= -1e-6)
    assert np.all(left >= min(start, floor) * full_j - 1e-6)
    assert np.all(left <= full_j + 1e-6)
