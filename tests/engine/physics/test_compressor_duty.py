"""Does the compressor's duty follow from Boyle's law and its plate, and does it say when it falls behind?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.compressor_duty import (
    FALLS_BEHIND,
    KEEPS_UP,
    RUNS_ON,
    delivery_slope_m3_per_s_pa,
    keeping_up,
    pump_time_s,
    rest_time_s,
    running_ratio,
    starts_per_s,
    stored_air_m3,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

PSI_PA = 6894.757
CFM = 0.3048**3 / 60.0
TANK_M3 = 6 * 231 * 0.0254**3  # 6 US gallons
IN_PA, OUT_PA = 90 * PSI_PA, 120 * PSI_PA
P0 = 101_325.0  # ISO 2533


def cycle(use, delivery=2.6 * CFM, slope=0.0, tank=TANK_M3):
    return tank, IN_PA, OUT_PA, delivery, slope, use, P0


def test_air_stored_between_cut_in_and_cut_out():
    # Boyle: 6 gal is 0.802 ft3, 30 psi over 14.696 psi: 1.637 ft3 of free air. Arithmetic.
    assert stored_air_m3(TANK_M3, IN_PA, OUT_PA, P0) / 0.3048**3 == pytest.approx(1.637, abs=0.0005)


def test_nailing_by_hand():
    # 20 nails a minute at 0.05 ft3 each: 1 CFM against 2.6 CFM at the tank. Rests 1.637 min, runs 1.023 min.
    use = 20 * 0.05 * CFM
    assert rest_time_s(TANK_M3, IN_PA, OUT_PA, use, P0) / 60.0 == pytest.approx(1.637, abs=0.0005)
    assert pump_time_s(*cycle(use)) / 60.0 == pytest.approx(1.637 / 1.6, abs=0.0005)
    assert running_ratio(*cycle(use)) == pytest.approx(1.0 / 2.6, rel=1e-12)
    assert 3600.0 * starts_per_s(*cycle(use)) == pytest.approx(60.0 / (1.637 + 1.023), abs=0.02)


@given(share=st.floats(0.01, 0.99), tank=st.floats(0.005, 0.5))
@settings(max_examples=100, deadline=None)
def test_duty_is_use_over_delivery_where_delivery_does_not_fall(share, tank):
    assert running_ratio(*cycle(share * 2.6 * CFM, tank=tank)) == pytest.approx(share, rel=1e-9)


@given(share=st.floats(0.01, 0.99))
@settings(max_examples=100, deadline=None)
def test_starts_are_most_frequent_at_half_the_delivery(share):
    # Textbook: starts ~ u (1 - u/q), largest at u = q/2; a quarter of q p0/(V dp).
    most = starts_per_s(*cycle(0.5 * 2.6 * CFM))
    assert most == pytest.approx(2.6 * CFM / 4.0 / stored_air_m3(TANK_M3, IN_PA, OUT_PA, P0), rel=1e-12)
    assert starts_per_s(*cycle(share * 2.6 * CFM)) <= most * (1 + 1e-12)


@pytest.mark.parametrize("use_cfm", [0.0, 0.7, 1.6])
def test_filling_with_falling_delivery_meets_an_ode_solver(use_cfm):
    # 3.5 CFM at 40 psi and 2.6 CFM at 90 psi on the plate; scipy's LSODA from empty to cut-out.
    slope = delivery_slope_m3_per_s_pa(40 * PSI_PA, 3.5 * CFM, 90 * PSI_PA, 2.6 * CFM)
    free = 3.5 * CFM + slope * 40 * PSI_PA

    def rate(_t, p):
        return [P0 / TANK_M3 * (free - slope * p[0] - use_cfm * CFM)]

    def full(_t, p):
        return p[0] - OUT_PA

    full.terminal = True
    solved = solve_ivp(rate, (0.0, 3600.0), [0.0], "LSODA", events=full, rtol=1e-10, atol=1e-3)
    ours = pump_time_s(TANK_M3, 0.0, OUT_PA, free, slope, use_cfm * CFM, P0)
    if solved.t_events[0].size:
        assert ours == pytest.approx(solved.t_events[0][0], rel=1e-6)
    else:
        assert ours == math.inf


def test_little_fall_tends_to_none():
    use = 1.0 * CFM
    assert pump_time_s(*cycle(use, slope=1e-18)) == pytest.approx(pump_time_s(*cycle(use)), rel=1e-6)


def test_slope_of_a_plate_that_contradicts_itself_is_none():
    assert delivery_slope_m3_per_s_pa(40 * PSI_PA, 2.6 * CFM, 90 * PSI_PA, 3.5 * CFM) == 0.0


def test_no_use_and_too_much_use():
    slope = delivery_slope_m3_per_s_pa(40 * PSI_PA, 3.5 * CFM, 90 * PSI_PA, 2.6 * CFM)
    free = 3.5 * CFM + slope * 40 * PSI_PA
    at_out_cfm = 2.6 - 30 / 50 * 0.9  # on the plate's line at 120 psi: 2.06 CFM
    assert running_ratio(*cycle(0.0)) == 0.0
    assert starts_per_s(*cycle(0.0)) == 0.0
    assert rest_time_s(TANK_M3, IN_PA, OUT_PA, 0.0, P0) == math.inf
    for use_cfm, state in [(at_out_cfm - 0.01, KEEPS_UP), (at_out_cfm + 0.01, RUNS_ON), (2.61, FALLS_BEHIND)]:
        assert keeping_up(IN_PA, OUT_PA, free, slope, use_cfm * CFM) == state
        cycles = running_ratio(*cycle(use_cfm * CFM, free, slope)) < 1.0
        assert cycles == (state == KEEPS_UP)
        assert (starts_per_s(*cycle(use_cfm * CFM, free, slope)) > 0.0) == (state == KEEPS_UP)
    assert keeping_up(IN_PA, OUT_PA, free, slope, math.nan) == FALLS_BEHIND


@given(use=st.floats(0.01, 2.0), more=st.floats(0.0, 0.6))
@settings(max_examples=100, deadline=None)
def test_more_use_never_runs_less(use, more):
    slope = delivery_slope_m3_per_s_pa(40 * PSI_PA, 3.5 * CFM, 90 * PSI_PA, 2.6 * CFM)
    free = 3.5 * CFM + slope * 40 * PSI_PA
    ratios = [running_ratio(*cycle(u * CFM, free, slope)) for u in (use, use + more)]
    assert np.all(np.diff(ratios) >= -1e-12)
