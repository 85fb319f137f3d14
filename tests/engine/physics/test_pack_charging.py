"""Does pack charging meet its differential equation, its inverse and simple counting?"""

import math

import pytest
from ampwright.engine.physics.pack_charging import (
    LITHIUM_COLDEST_CHARGE_C,
    charge_after_ratio,
    charging_power_w,
    may_charge,
    packs_charged,
    taper_time_constant_s,
    time_to_charge_s,
    wall_energy_j,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

ONE_C_PER_S = 1.0 / 3600.0
plates = {
    "start": st.floats(0.0, 1.0),
    "rate": st.floats(0.2, 4.0),
    "taper": st.floats(0.5, 1.0),
    "cut": st.floats(0.01, 0.5),
}


def test_at_1_c_the_even_part_takes_its_share_of_an_hour():
    # 0 to 80 % at 1C is 48 min. Then 20 % down to 5 % of the current: tau = 0.2/0.95 h, tau ln 20 = 37.8 min.
    assert time_to_charge_s(0.0, 0.8, ONE_C_PER_S, 0.8, 0.05) / 60.0 == pytest.approx(48.0)
    assert time_to_charge_s(0.8, 1.0, ONE_C_PER_S, 0.8, 0.05) / 60.0 == pytest.approx(
        60.0 * 0.2 / 0.95 * math.log(20.0)
    )
    assert time_to_charge_s(0.0, 1.0, ONE_C_PER_S, 1.0, 0.05) == pytest.approx(3600.0)


@pytest.mark.parametrize("start", [0.0, 0.3, 0.8, 0.93])
@pytest.mark.parametrize(("taper", "cut"), [(0.8, 0.05), (0.6, 0.2)])
def test_meets_an_ode_solver(start, taper, cut):
    # scipy's LSODA on current as a function of charge: full to the taper, then falling evenly with the charge from full
    # to the cut-off share (what an exponential in time is).
    def rate(_t, q):
        share = max(0.0, (q[0] - taper) / (1.0 - taper))
        return [ONE_C_PER_S * (1.0 - (1.0 - cut) * share)]  # goes on past full, where the charger stops

    times_s = [60.0, 900.0, 2400.0]
    solved = solve_ivp(rate, (0.0, 2400.0), [start], "LSODA", times_s, rtol=1e-9, atol=1e-11, max_step=20.0)
    for time_s, charge in zip(times_s, solved.y[0], strict=True):
        ours = charge_after_ratio(start, time_s, ONE_C_PER_S, taper, cut)
        assert ours == pytest.approx(min(charge, 1.0), abs=1e-7)


@given(target=st.floats(0.0, 1.0), **plates)
@settings(max_examples=300, deadline=None)
def test_time_and_charge_are_each_other_s_inverse(start, target, rate, taper, cut):
    time_s = time_to_charge_s(start, target, rate * ONE_C_PER_S, taper, cut)
    if start >= target:
        assert time_s == 0.0
    else:
        assert charge_after_ratio(start, time_s, rate * ONE_C_PER_S, taper, cut) == pytest.approx(target, abs=1e-9)


@given(**plates, later_s=st.floats(0.0, 5000.0))
@settings(max_examples=100, deadline=None)
def test_charge_never_falls_nor_passes_full(start, rate, taper, cut, later_s):
    here = charge_after_ratio(start, 600.0, rate * ONE_C_PER_S, taper, cut)
    there = charge_after_ratio(start, 600.0 + later_s, rate * ONE_C_PER_S, taper, cut)
    assert start - 1e-12 <= here <= 1.0
    assert here - 1e-12 <= there <= 1.0


def test_power_integrates_to_the_energy_stored():
    # A pack of 180 Wh at 2C: full power 360 W at the pack; integral of power over the time from empty to full.
    rate = 2.0 * ONE_C_PER_S
    full_s = time_to_charge_s(0.0, 1.0, rate, 0.8, 0.05)
    stored, _ = quad(
        lambda t: charging_power_w(charge_after_ratio(0.0, t, rate, 0.8, 0.05), 360.0, 0.8, 0.05),
        0.0,
        full_s * (1.0 - 1e-12),
        points=[0.8 / rate],
        epsrel=1e-10,
    )
    assert stored == pytest.approx(180.0 * 3600.0, rel=1e-8)
    assert wall_energy_j(180.0 * 3600.0, 0.0, 1.0, 0.8) == pytest.approx(225.0 * 3600.0)
    assert wall_energy_j(180.0 * 3600.0, 0.9, 0.5, 0.8) == 0.0


def test_power_at_the_ends():
    assert charging_power_w(0.1, 360.0, 0.8, 0.05) == 360.0
    assert charging_power_w(0.8, 360.0, 0.8, 0.05) == 360.0
    assert charging_power_w(1.0 - 1e-12, 360.0, 0.8, 0.05) == pytest.approx(18.0)
    assert charging_power_w(1.0, 360.0, 0.8, 0.05) == 0.0


def test_full_packs_and_chargers_without_a_taper_or_a_cut_off():
    assert charge_after_ratio(1.0, 100.0, ONE_C_PER_S, 0.8, 0.05) == 1.0
    assert charge_after_ratio(0.5, 3600.0, ONE_C_PER_S, 1.0, 0.05) == 1.0
    assert time_to_charge_s(0.0, 1.0, ONE_C_PER_S, 0.8, 0.0) == math.inf
    assert charge_after_ratio(0.0, 1e6, ONE_C_PER_S, 0.8, 0.0) == pytest.approx(1.0, abs=1e-12)
    assert taper_time_constant_s(ONE_C_PER_S, 1.0, 0.05) == 0.0


def test_packs_of_a_shift():
    # 8 h, 55 min a pack, two chargers, 5 min to swap: 8 whole hours each, the last swap is not needed.
    assert packs_charged(8 * 3600.0, 3300.0, 2, 300.0) == 16.0
    assert packs_charged(3300.0, 3300.0, 1, 300.0) == 1.0
    assert packs_charged(3299.0, 3300.0, 1, 300.0) == 0.0
    assert packs_charged(6.0 * 0.1, 0.1, 1, 0.0) == 6.0  # 0.6000000000000001 and 0.5999999999999999 alike
    assert packs_charged(0.7 - 0.1, 0.1, 1, 0.0) == 6.0


def test_no_charging_below_freezing():
    assert may_charge(0.0, LITHIUM_COLDEST_CHARGE_C)
    assert not may_charge(-0.1, LITHIUM_COLDEST_CHARGE_C)
    assert not may_charge(math.nan, LITHIUM_COLDEST_CHARGE_C)
