"""Do fault currents, their decay and their heat meet Ohm, the machine equations and the trade's example?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.cord_heating import steady_copper_temperature_c
from ampwright.engine.physics.cord_short_overload import adiabatic_time_s, withstand_a2s
from ampwright.engine.physics.fault_loop import (
    decrement_current_a,
    decrement_let_through_a2s,
    electronic_fault_current_a,
    engine_set_decrement,
    fault_heat_j,
    stiff_fault_current_a,
    time_available_s,
)
from ampwright.engine.physics.voltage_drop import copper_resistance_ohm_per_m
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

# NFPA 70 ch. 9 table 8, ohm/kft at 75 C: rows 01-0074 and 01-0077, verified.
LOOP_75_C_OHM = 2 * (100 * 3.14 + 50 * 1.98) * 1e-3


def decrement(
    emf=120.0,
    sub=0.7,
    transient=1.2,
    direct=12.0,
    quadrature=6.0,
    sub_s=0.02,
    transient_s=1.5,
    ohm=0.5,
    reactance=0.01,
    field=1.0,
    speed=1.0,
):
    out = np.empty(5)
    engine_set_decrement(emf, sub, transient, direct, quadrature, sub_s, transient_s, ohm, reactance, field, speed, out)
    return out


def test_132_a_at_the_end_of_100_ft_of_14_awg_and_50_ft_of_12_awg():
    # Common practice, no source: "132 A from a stiff source". The cords alone give 145 A with copper at 75 C (Ohm on
    # the rows above) and 132 A with copper at 105 C, the warmest a common jacket bears.
    assert stiff_fault_current_a(120.0, LOOP_75_C_OHM, 0.0) == pytest.approx(145.0, abs=0.5)
    hot_ohm = copper_resistance_ohm_per_m(LOOP_75_C_OHM, 75.0, 105.0)
    assert stiff_fault_current_a(120.0, hot_ohm, 0.0) == pytest.approx(132.0, abs=0.5)


def test_reactance_adds_at_a_right_angle():
    assert stiff_fault_current_a(230.0, 0.3, 0.4) == pytest.approx(460.0, rel=1e-12)  # 3-4-5


def test_an_inverter_that_holds_40_a_gives_40_a_and_a_long_cord_gives_less():
    assert electronic_fault_current_a(120.0, LOOP_75_C_OHM, 0.0, 40.0) == 40.0
    assert electronic_fault_current_a(120.0, 6.0, 0.0, 40.0) == 20.0
    assert electronic_fault_current_a(120.0, 0.0, 0.0, 40.0) == 40.0


def test_held_40_a_leaves_14_awg_at_4_9_times_its_rated_heat_and_twice_a_20_a_device():
    # (40/18)^2 = 4.94 with NFPA 70 table 400.5(A)(1), row 02-0006, verified; 40/20 = 200 %.
    held_a = electronic_fault_current_a(120.0, LOOP_75_C_OHM, 0.0, 40.0)
    rise_k = steady_copper_temperature_c(held_a, 30.0, 18.0, 30.0, 60.0, 60.0, 1.0) - 30.0
    assert rise_k / 30.0 == pytest.approx(4.9, abs=0.05)
    assert held_a / 20.0 == 2.0


def machine_reference(emf, transient, direct, quadrature, open_s, ohm, reactance, field, times_s):
    """Two-axis machine with one field winding, integrated: state is the voltage behind the transient reactance."""
    xd, xdt, xq = direct + reactance, transient + reactance, quadrature + reactance

    def axes(e):
        # e = xdt Id + R Iq ; 0 = xq Iq - R Id
        return np.linalg.solve(np.array([[xdt, ohm], [-ohm, xq]]), np.array([e, 0.0]))

    def rate(_t, y):
        i_d, _ = axes(y[0])
        return [(field * emf - (y[0] + (xd - xdt) * i_d)) / open_s]

    solved = solve_ivp(rate, (0.0, times_s[-1]), [emf], "LSODA", times_s, rtol=1e-10, atol=1e-10)
    return [math.hypot(*axes(e)) for e in solved.y[0]]


@pytest.mark.parametrize("field", [0.0, 1.0, 3.0])
@pytest.mark.parametrize("ohm", [0.02, 0.4, 1.5])
def test_transient_part_meets_the_machine_equations_integrated(ohm, field):
    # scipy's LSODA on the standard two-axis equations (T'd0 dE'/dt = Ef - E' - (Xd - X'd) Id, Kundur, Power System
    # Stability and Control, 1994, from memory). Subtransient switched off by X'' = X'.
    times_s = np.array([1e-6, 0.05, 0.3, 1.0, 5.0])
    parts = decrement(sub=1.2, ohm=ohm, reactance=0.05, field=field)
    expected = machine_reference(120.0, 1.2, 12.0, 6.0, 1.5, ohm, 0.05, field, times_s)
    for time_s, current_a in zip(times_s, expected, strict=True):
        assert decrement_current_a(parts, time_s) == pytest.approx(current_a, rel=1e-6, abs=1e-6)


def test_bolted_at_the_terminals_it_is_the_textbook_machine():
    # E/X''d, E/X'd, E/Xd and T' = T'd0 X'd/Xd, T'' = T''d0 X''d/X'd without external impedance (IEC 60034-4, memory).
    parts = decrement(ohm=0.0, reactance=0.0)
    assert decrement_current_a(parts, 0.0) == pytest.approx(120.0 / 0.7, rel=1e-12)
    assert parts[2] + parts[4] == pytest.approx(120.0 / 1.2, rel=1e-12)
    assert parts[4] == pytest.approx(120.0 / 12.0, rel=1e-12)
    assert parts[1] == pytest.approx(0.02 * 0.7 / 1.2, rel=1e-12)
    assert parts[3] == pytest.approx(1.5 * 1.2 / 12.0, rel=1e-12)


def test_a_set_that_excites_itself_dies_away_and_a_forced_one_rises_again():
    assert decrement_current_a(decrement(field=0.0), 60.0) == pytest.approx(0.0, abs=1e-6)
    forced = decrement(field=3.0, ohm=1.5)
    assert decrement_current_a(forced, 30.0) == pytest.approx(3.0 * decrement(ohm=1.5)[4], rel=1e-6)


def test_a_long_cord_makes_any_source_a_resistor():
    # R far above every reactance: the machine's reactances cannot matter, Ohm's law does.
    parts = decrement(ohm=1000.0)
    assert decrement_current_a(parts, 0.0) == pytest.approx(0.12, rel=1e-4)
    assert decrement_current_a(parts, 1000.0) == pytest.approx(0.12, rel=1e-4)


@given(
    field=st.floats(0.0, 3.0),
    ohm=st.floats(0.01, 5.0),
    until_s=st.floats(0.01, 20.0),
)
@settings(max_examples=60, deadline=None)
def test_let_through_is_the_integral_of_the_squared_current(field, ohm, until_s):
    parts = decrement(field=field, ohm=ohm)
    integral, _ = quad(
        lambda t: decrement_current_a(parts, t) ** 2,
        0.0,
        until_s,
        points=[min(until_s, 0.05)],
        epsabs=0.0,
        epsrel=1e-10,
    )
    assert decrement_let_through_a2s(parts, until_s) == pytest.approx(integral, rel=1e-8)


@given(field=st.floats(0.0, 3.0), ohm=st.floats(0.1, 3.0), area_mm2=st.floats(0.5, 6.0))
@settings(max_examples=100, deadline=None)
def test_time_available_uses_up_the_withstand(field, ohm, area_mm2):
    parts = decrement(field=field, ohm=ohm)
    bears = withstand_a2s(115.0, area_mm2)
    time_s = time_available_s(parts, bears, 3600.0)
    if math.isinf(time_s):
        assert decrement_let_through_a2s(parts, 3600.0) <= bears
    else:
        assert decrement_let_through_a2s(parts, time_s) == pytest.approx(bears, rel=1e-9)
    assert time_available_s(parts, 1.1 * bears, 3600.0) >= time_s


def test_constant_current_is_a_decrement_too():
    # 40 A held: I^2 t, and the time is (k S/I)^2 of IEC 60364-4-43 cl. 434.5.2 (from memory): 115 x 2.081/40, squared.
    held = np.array([0.0, 1.0, 0.0, 1.0, 40.0])
    assert decrement_let_through_a2s(held, 7.0) == pytest.approx(11200.0, rel=1e-12)
    by_hand_s = (115.0 * 2.081 / 40.0) ** 2
    assert time_available_s(held, withstand_a2s(115.0, 2.081), 3600.0) == pytest.approx(by_hand_s, rel=1e-9)
    assert adiabatic_time_s(40.0, 70.0, 160.0, 2.081) == pytest.approx(by_hand_s, rel=1e-3)
    assert time_available_s(held, withstand_a2s(115.0, 2.081), 10.0) == math.inf
    assert time_available_s(held, 0.0, 10.0) == 0.0


def test_heat_of_a_fault_in_a_contact():
    # 132 A for 0.1 s through 10 milliohm: I^2 R t = 17.4 J.
    assert fault_heat_j(132.0**2 * 0.1, 0.01) == pytest.approx(17.4, abs=0.05)


@given(more_m=st.floats(0.0, 100.0), length_m=st.floats(1.0, 100.0), warmer_k=st.floats(0.0, 80.0))
@settings(max_examples=100, deadline=None)
def test_a_longer_or_hotter_run_never_gives_more_fault_current(more_m, length_m, warmer_k):
    def current_a(length, temperature):
        per_m = copper_resistance_ohm_per_m(3.14e-3 / 0.3048, 75.0, temperature)
        return stiff_fault_current_a(120.0, 0.05 + 2 * per_m * length, 0.02 + 2e-4 * length)

    assert current_a(length_m + more_m, 20.0) <= current_a(length_m, 20.0) * (1 + 1e-12)
    assert current_a(length_m, 20.0 + warmer_k) <= current_a(length_m, 20.0) * (1 + 1e-12)
