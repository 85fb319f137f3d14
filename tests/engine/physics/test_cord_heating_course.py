"""Does cord temperature over time meet an ODE solver, its closed forms and the memory of what flowed before?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.cord_heating import steady_copper_temperature_c
from ampwright.engine.physics.cord_heating_course import (
    allowed_duty_current_a,
    copper_history_c,
    copper_temperature_after_c,
    duty_copper_temperature_c,
    time_to_heat_s,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

CALIBRATION = (30.0, 60.0)  # rated ambient and copper [C], BS 7671 table 4F3A
ALPHA = 0.00393  # IEC 60028


def after_c(start_c, duration_s, current_a, ambient_c=30.0, rated_a=18.0, limit_c=90.0, lay=1.0, tau_s=545.0):
    return copper_temperature_after_c(
        start_c, duration_s, current_a, ambient_c, rated_a, *CALIBRATION, limit_c, lay, tau_s
    )


def heat_s(start_c, target_c, current_a, ambient_c=30.0, rated_a=18.0, limit_c=90.0, lay=1.0, tau_s=545.0):
    return time_to_heat_s(start_c, target_c, current_a, ambient_c, rated_a, *CALIBRATION, limit_c, lay, tau_s)


def duty_c(current_a, duration_s, ambient_c=30.0, rated_a=18.0, limit_c=90.0, lay=1.0, tau_s=545.0):
    out_c = np.empty(len(current_a))
    duty_copper_temperature_c(
        np.array(current_a), np.array(duration_s), ambient_c, rated_a, *CALIBRATION, limit_c, lay, tau_s, out_c
    )
    return out_c


@pytest.mark.parametrize("current_a", [0.0, 10.0, 18.0, 30.0, 45.0, 56.4, 80.0])
@pytest.mark.parametrize("start_c", [-10.0, 30.0, 85.0, 90.0, 140.0])
@pytest.mark.parametrize("lay", [1.0, 0.49])
def test_meets_an_ode_solver_through_the_limit(start_c, current_a, lay):
    # scipy's LSODA on the heat balance in watts, with the lay entering as the loss per kelvin.
    ohm_per_m_20 = 3.14e-3 / 0.3048 / (1.0 + ALPHA * 55.0)
    loss_w_per_m_k = lay**2 * 18.0**2 * ohm_per_m_20 * (1.0 + ALPHA * 40.0) / 30.0
    capacity_j_per_m_k = 545.0 * loss_w_per_m_k / lay**2

    def rate(_t, y):
        heat = current_a**2 * ohm_per_m_20 * (1.0 + ALPHA * (np.minimum(y, 90.0) - 20.0))
        return (heat - loss_w_per_m_k * (y - 30.0)) / capacity_j_per_m_k

    times_s = np.array([1.0, 60.0, 600.0, 3000.0])
    solved = solve_ivp(rate, (0.0, 3000.0), [start_c], "LSODA", times_s, rtol=1e-10, atol=1e-9, max_step=20.0)
    for time_s, reference_c in zip(times_s, solved.y[0], strict=True):
        # 1e-6 relative: the solver steps over the kink at the limit.
        assert after_c(start_c, time_s, current_a, lay=lay) == pytest.approx(reference_c, rel=1e-6, abs=1e-5)


def test_without_temperature_coefficient_it_is_the_textbook_exponential():
    # Above the limit the resistance is constant: T = T_end + (T0 - T_end) exp(-t/tau), any textbook.
    end_c = steady_copper_temperature_c(30.0, 65.0, 18.0, 30.0, 60.0, 60.0, 1.0)
    expected_c = end_c + (70.0 - end_c) * math.exp(-300.0 / 545.0)
    assert after_c(70.0, 300.0, 30.0, ambient_c=65.0, limit_c=60.0) == pytest.approx(expected_c, abs=1e-9)


def test_it_settles_at_the_steady_temperature_and_no_time_changes_nothing():
    for current_a in (0.0, 12.0, 18.0, 27.0, 70.0):
        steady_c = steady_copper_temperature_c(current_a, 30.0, 18.0, 30.0, 60.0, 90.0, 1.0)
        assert after_c(30.0, 1e6, current_a) == pytest.approx(steady_c, abs=1e-6)
        assert after_c(47.0, 0.0, current_a) == 47.0


def test_copper_at_its_limit_that_may_cool_cools_as_below_the_limit():
    assert after_c(90.0, 60.0, 0.0) == pytest.approx(30.0 + 60.0 * math.exp(-60.0 / 545.0), abs=1e-9)


@given(
    currents_a=st.lists(st.floats(0.0, 90.0), min_size=1, max_size=6),
    cut=st.floats(0.0, 1.0),
    start_c=st.floats(-20.0, 150.0),
    lay=st.floats(0.35, 1.0),
)
@settings(max_examples=150, deadline=None)
def test_memory_a_stretch_cut_in_two_is_the_same_stretch(currents_a, cut, start_c, lay):
    whole_c = np.empty(len(currents_a))
    durations = np.linspace(40.0, 900.0, len(currents_a))
    rest = (start_c, 30.0, 18.0, *CALIBRATION, 90.0, lay, 545.0)
    copper_history_c(np.array(currents_a), durations, *rest, whole_c)
    halves_a = np.repeat(currents_a, 2)
    halves_s = np.column_stack([durations * cut, durations * (1.0 - cut)]).ravel()
    halves_c = np.empty(2 * len(currents_a))
    copper_history_c(halves_a, halves_s, *rest, halves_c)
    np.testing.assert_allclose(halves_c[1::2], whole_c, rtol=1e-8, atol=1e-7)
    assert after_c(start_c, durations[0], currents_a[0], lay=lay) == whole_c[0]


@given(
    start_c=st.floats(-20.0, 70.0),
    target_c=st.floats(40.0, 160.0),
    current_a=st.floats(0.0, 120.0),
    lay=st.floats(0.35, 1.0),
)
@settings(max_examples=300, deadline=None)
def test_time_to_heat_is_the_inverse_of_temperature_after(start_c, target_c, current_a, lay):
    time_s = heat_s(start_c, target_c, current_a, lay=lay)
    if start_c >= target_c:
        assert time_s == 0.0
    elif time_s < 20_000.0:  # later than that the last hair before the asymptote is rounding
        assert after_c(start_c, time_s, current_a, lay=lay) == pytest.approx(target_c, abs=1e-5)
    elif math.isinf(time_s):
        assert after_c(start_c, 1e7, current_a, lay=lay) <= target_c + 1e-6


def test_never_is_inf_and_already_is_zero():
    assert heat_s(30.0, 60.0, 17.9) == math.inf
    assert heat_s(30.0, 60.0, 0.0) == math.inf
    assert heat_s(60.0, 60.0, 0.0) == 0.0
    assert heat_s(30.0, 61.0, 18.0) == math.inf


@pytest.mark.parametrize("tau_s", [427.0, 527.0])
def test_28_a_takes_16_awg_past_60_c_in_minutes(tau_s):
    # 28 A against 13 A (NFPA 70 table 400.5(A)(1) column B; 13 A from memory), from 30 C. Common practice, no source:
    # "minutes". By hand: rise 30 (28/13)^2 0.898/(1 - 0.473) = 237 K at tau/0.527, so 30 K after 0.257 tau.
    time_s = heat_s(30.0, 60.0, 28.0, rated_a=13.0, limit_c=60.0, tau_s=tau_s)
    assert 60.0 < time_s < 600.0
    assert time_s == pytest.approx(0.257 * tau_s, rel=0.005)


def test_short_overload_starts_at_the_adiabatic_rate_whatever_the_lay():
    # dT/dt at the start is I^2 R / C: the loss, so the lay, does not enter yet.
    straight_c = after_c(30.0, 0.01, 100.0, lay=1.0)
    drum_c = after_c(30.0, 0.01, 100.0, lay=0.38)
    by_hand_k = 30.0 * (100.0 / 18.0) ** 2 * (1.0 + ALPHA * 10.0) / (1.0 + ALPHA * 40.0) / 545.0 * 0.01
    assert straight_c - 30.0 == pytest.approx(by_hand_k, rel=1e-4)
    assert drum_c - 30.0 == pytest.approx(by_hand_k, rel=1e-4)


@pytest.mark.parametrize(("on_s", "off_s"), [(60.0, 60.0), (180.0, 420.0), (2000.0, 30.0)])
def test_duty_cycle_meets_its_closed_form(on_s, off_s):
    # Below the limit both parts are affine in the start; on-part growth E1 to T1, off-part decay E2 to ambient. Fixed
    # point of T -> ambient + (T1 + (T - T1) E1 - ambient) E2, solved by hand.
    rise_20_k = 30.0 * (20.0 / 18.0) ** 2 / (1.0 + ALPHA * 40.0)
    end_c = (30.0 + rise_20_k * (1.0 - 20.0 * ALPHA)) / (1.0 - ALPHA * rise_20_k)
    decay_on = math.exp(-on_s * (1.0 - ALPHA * rise_20_k) / 545.0)
    decay_off = math.exp(-off_s / 545.0)
    start_c = (30.0 + (end_c * (1.0 - decay_on) - 30.0) * decay_off) / (1.0 - decay_on * decay_off)
    peak_c = end_c + (start_c - end_c) * decay_on
    out_c = duty_c([20.0, 0.0], [on_s, off_s])
    assert out_c[0] == pytest.approx(peak_c, abs=1e-8)
    assert out_c[1] == pytest.approx(start_c, abs=1e-8)


@given(
    currents_a=st.lists(st.floats(0.0, 120.0), min_size=1, max_size=5),
    ambient_c=st.floats(-20.0, 70.0),
    limit_c=st.sampled_from([60.0, 90.0]),
)
@settings(max_examples=100, deadline=None)
def test_duty_cycle_repeats_itself_and_is_where_long_running_ends(currents_a, ambient_c, limit_c):
    durations = np.linspace(200.0, 700.0, len(currents_a))
    out_c = duty_c(currents_a, durations, ambient_c=ambient_c, limit_c=limit_c)
    again_c = np.empty_like(out_c)
    copper_history_c(
        np.array(currents_a), durations, out_c[-1], ambient_c, 18.0, *CALIBRATION, limit_c, 1.0, 545.0, again_c
    )
    np.testing.assert_allclose(again_c, out_c, rtol=1e-9, atol=1e-8)
    cycles = 400
    long_c = np.empty(cycles * len(currents_a))
    copper_history_c(
        np.tile(currents_a, cycles),
        np.tile(durations, cycles),
        ambient_c,
        ambient_c,
        18.0,
        *CALIBRATION,
        limit_c,
        1.0,
        545.0,
        long_c,
    )
    np.testing.assert_allclose(long_c[-len(currents_a) :], out_c, rtol=1e-6, atol=1e-5)


def test_a_constant_duty_is_steady():
    steady_c = steady_copper_temperature_c(25.0, 30.0, 18.0, 30.0, 60.0, 90.0, 1.0)
    assert duty_c([25.0, 25.0], [100.0, 50.0]).tolist() == pytest.approx([steady_c, steady_c], abs=1e-8)
    assert duty_c([0.0], [100.0]).tolist() == [30.0]


@given(
    on_s=st.floats(1.0, 3600.0),
    off_s=st.floats(0.0, 3600.0),
    idle_share=st.floats(0.0, 0.9),
    ambient_c=st.floats(-20.0, 45.0),
    lay=st.floats(0.35, 1.0),
)
@settings(max_examples=100, deadline=None)
def test_allowed_duty_current_peaks_at_its_target(on_s, off_s, idle_share, ambient_c, lay):
    idle_a = idle_share * 18.0 * lay * math.sqrt((60.0 - ambient_c) / 30.0)  # below what holds 60 C in this air
    current_a = allowed_duty_current_a(on_s, off_s, idle_a, 60.0, ambient_c, 18.0, *CALIBRATION, lay, 545.0)
    peak_c = duty_c([current_a, idle_a], [on_s, off_s], ambient_c, limit_c=60.0, lay=lay)[0]
    assert peak_c == pytest.approx(60.0, abs=1e-5)


def test_allowed_duty_current_limits():
    # No pause: the steady current. Air too warm, or a pause that alone heats too much: nothing.
    assert allowed_duty_current_a(60.0, 0.0, 0.0, 60.0, 40.0, 18.0, *CALIBRATION, 1.0, 545.0) == pytest.approx(
        18.0 * math.sqrt(20.0 / 30.0), abs=1e-9
    )
    assert allowed_duty_current_a(60.0, 60.0, 0.0, 60.0, 60.0, 18.0, *CALIBRATION, 1.0, 545.0) == 0.0
    assert allowed_duty_current_a(60.0, 60.0, 19.0, 60.0, 30.0, 18.0, *CALIBRATION, 1.0, 545.0) == 0.0
