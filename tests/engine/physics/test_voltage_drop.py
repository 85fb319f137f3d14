"""Do cord drops meet Ohm, Kirchhoff, phasors and the trade's own figures?"""

import cmath
import math

import numpy as np
import pytest
from ampwright.engine.physics.conductor_impedance import FLEXIBLE_CORD_REACTANCE_OHM_PER_M
from ampwright.engine.physics.voltage_drop import (
    conductor_drop_v,
    copper_resistance_ohm_per_m,
    current_can_flow,
    load_voltage_v,
    longest_run_m,
    open_neutral_voltages_v,
    run_loss_w,
    split_phase_voltages_v,
    three_phase_drop_v,
    two_wire_drop_v,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

FT = 0.3048
# NFPA 70 ch. 9 table 8, stranded uncoated copper, ohm/kft at 75 C. 14, 12: rows 01-0074, 01-0077, verified; 16, 10:
# the same table, the values of rows 03-0019 and 03-0024 (formula rows on it).
T8_OHM_PER_KFT = {16: 4.99, 14: 3.14, 12: 1.98, 10: 1.24}


def split_phase(leg_v, angle, ia, pfa, ib, pfb, line, neutral, line_b=None):
    out = np.empty(4)
    split_phase_voltages_v(leg_v, angle, ia, pfa, ib, pfb, line, neutral, line if line_b is None else line_b, out)
    return out


@pytest.mark.parametrize(("awg", "drop_v"), [(16, 28.0), (14, 18.0), (12, 11.0), (10, 7.0)])
def test_28_a_through_100_ft_drops_28_18_11_7_v(awg, drop_v):
    # Common practice, no source: a compressor's heavy moment on a long cord, copper at 75 C. Whole volts.
    ohm = T8_OHM_PER_KFT[awg] * 1e-3 * 100.0
    assert two_wire_drop_v(28.0, 1.0, ohm, 0.0) == pytest.approx(drop_v, abs=0.5)


def test_temperature_moves_resistance_as_the_table_s_note_says():
    # NFPA 70 ch. 9 table 8 note 2, row 01-0125, verified: R2 = R1 (1 + 0.00323 (T2 - 75)); 0.00323 to three figures.
    for temperature_c in (-20.0, 20.0, 25.0, 60.0, 90.0):
        noted = 1.0 + 0.00323 * (temperature_c - 75.0)
        assert copper_resistance_ohm_per_m(1.0, 75.0, temperature_c) == pytest.approx(noted, abs=0.000005 * 100)
    assert copper_resistance_ohm_per_m(0.0103, 75.0, 75.0) == 0.0103


def test_reactance_of_a_flexible_cord_is_that_of_two_close_wires():
    # X = f mu0 (ln(D/r) + 1/4), any field text: 14 AWG strands of 1.85 mm, 3.4 mm apart; between 50 and 60 Hz.
    for_one_hz = 4e-7 * math.pi * (math.log(3.4 / 0.925) + 0.25)
    assert 50.0 * for_one_hz * 0.95 < FLEXIBLE_CORD_REACTANCE_OHM_PER_M < 60.0 * for_one_hz


def test_no_load_no_drop_no_length_no_drop():
    assert two_wire_drop_v(0.0, 0.8, 1.0, 1.0) == 0.0
    assert two_wire_drop_v(16.0, 0.8, 0.0, 0.0) == 0.0
    assert load_voltage_v(120.0, 0.0, 0.8, 1.0, 1.0) == 120.0
    assert longest_run_m(3.6, 0.0, 1.0, 0.01, 0.0) == math.inf
    assert longest_run_m(0.0, 10.0, 1.0, 0.01, 0.0) == 0.0


@given(
    source_v=st.floats(12.0, 480.0),
    share=st.floats(0.0, 0.5),
    power_factor=st.floats(0.1, 1.0),
    angle=st.floats(0.0, 1.2),
)
@settings(max_examples=200, deadline=None)
def test_load_voltage_closes_the_phasor_triangle(source_v, share, power_factor, angle):
    # Kirchhoff in complex numbers, from the load back to the source.
    impedance = share * source_v / 10.0 * cmath.exp(1j * angle)
    voltage = load_voltage_v(source_v, 10.0, power_factor, impedance.real, impedance.imag)
    phasor = 10.0 * cmath.exp(-1j * math.acos(power_factor))
    assert abs(voltage + impedance * phasor) == pytest.approx(source_v, rel=1e-9)
    assert voltage > 0.0


def test_standards_formula_is_the_exact_one_to_a_thousandth_at_five_percent():
    # 15 A, 0.2 + j0.01 ohm each way, pf 0.8 on 120 V: about 5 V.
    near = two_wire_drop_v(15.0, 0.8, 0.2, 0.01)
    exact = 120.0 - load_voltage_v(120.0, 15.0, 0.8, 0.4, 0.02)
    assert near == pytest.approx(exact, abs=0.12)
    assert near != exact


def test_more_current_than_the_run_passes_is_said_and_not_guessed():
    # 120 V through 1 ohm shorted is 120 A.
    assert current_can_flow(120.0, 119.9, 1.0, 0.0)
    assert not current_can_flow(120.0, 120.0, 1.0, 0.0)
    assert not current_can_flow(120.0, math.nan, 1.0, 0.0)
    assert load_voltage_v(120.0, 121.0, 1.0, 1.0, 0.0) == 0.0
    assert load_voltage_v(120.0, 500.0, 0.8, 1.0, 0.5) == 0.0


def test_three_phase_against_phasors():
    # Line-to-line drop of a balanced load is sqrt 3 times that of one line: 400 V, 32 A, pf 0.85, 0.3 + j0.02 ohm.
    phase_v = load_voltage_v(400.0 / math.sqrt(3.0), 32.0, 0.85, 0.3, 0.02)
    exact_v = 400.0 - math.sqrt(3.0) * phase_v
    assert three_phase_drop_v(32.0, 0.85, 0.3, 0.02) == pytest.approx(exact_v, abs=0.001 * 400.0)


def test_iec_annex_g_formula_with_its_own_defaults():
    # IEC 60364-5-52 annex G, rows 03-0009 to 03-0013: rho 0.0225, cos 0.8, sin 0.6, 0.08 mohm/m (memory); b = 2 and 1.
    ohm, reactance = 0.0225 * 50.0 / 2.5, 0.08e-3 * 50.0
    by_hand = (0.0225 * 50.0 / 2.5 * 0.8 + 0.08e-3 * 50.0 * 0.6) * 16.0
    assert two_wire_drop_v(16.0, 0.8, ohm, reactance) == pytest.approx(2.0 * by_hand, rel=1e-12)
    assert conductor_drop_v(16.0, 0.8, ohm, reactance) == pytest.approx(by_hand, rel=1e-12)


@given(
    ia=st.floats(0.0, 30.0),
    ib=st.floats(0.0, 30.0),
    pfa=st.floats(0.5, 1.0),
    pfb=st.floats(0.5, 1.0),
    angle=st.sampled_from([math.pi, 2.0 * math.pi / 3.0, 0.0]),
    ohm=st.floats(0.01, 0.5),
)
@settings(max_examples=150, deadline=None)
def test_split_phase_obeys_kirchhoff(ia, ib, pfa, pfb, angle, ohm):
    line, neutral = complex(ohm, 0.02), complex(ohm, 0.02)
    va, vb, neutral_a, solved = split_phase(120.0, angle, ia, pfa, ib, pfb, line, neutral)
    assert solved == 1.0
    # Rebuild from the load side: find the two load angles that give back the source phasors.
    ea, eb = 120.0 + 0j, 120.0 * cmath.exp(-1j * angle)

    def currents(ta, tb):
        return ia * cmath.exp(1j * (ta - math.acos(pfa))), ib * cmath.exp(1j * (tb - math.acos(pfb)))

    ta, tb = 0.0, -angle
    for _ in range(200):
        ca, cb = currents(ta, tb)
        ta, tb = cmath.phase(ea - line * ca - neutral * (ca + cb)), cmath.phase(eb - line * cb - neutral * (ca + cb))
    ca, cb = currents(ta, tb)
    assert abs(va * cmath.exp(1j * ta) + line * ca + neutral * (ca + cb) - ea) < 1e-6
    assert abs(vb * cmath.exp(1j * tb) + line * cb + neutral * (ca + cb) - eb) < 1e-6
    assert neutral_a == pytest.approx(abs(ca + cb), abs=1e-6)


def test_split_phase_limits():
    # Balanced opposite legs: no neutral current, each leg drops one conductor. In phase: the neutral carries the sum.
    va, vb, neutral_a, solved = split_phase(120.0, math.pi, 10.0, 1.0, 10.0, 1.0, 0.198 + 0j, 0.198 + 0j)
    assert (va, vb, solved) == (pytest.approx(118.02, abs=1e-9), pytest.approx(118.02, abs=1e-9), 1.0)
    assert neutral_a == pytest.approx(0.0, abs=1e-9)
    va, vb, neutral_a, _ = split_phase(120.0, 0.0, 16.0, 1.0, 16.0, 1.0, 0.1 + 0j, 0.1 + 0j)
    assert neutral_a == pytest.approx(32.0, abs=1e-9)
    assert va == pytest.approx(120.0 - 1.6 - 3.2, abs=1e-9)
    assert vb == pytest.approx(va, abs=1e-9)
    assert split_phase(120.0, math.pi, 500.0, 1.0, 0.0, 1.0, 0.3 + 0j, 0.3 + 0j)[3] == 0.0


def test_one_leg_loaded_alone_is_the_two_wire_run():
    va, vb, _, _ = split_phase(120.0, math.pi, 16.0, 0.8, 0.0, 1.0, 0.2 + 0.01j, 0.2 + 0.01j)
    assert va == pytest.approx(load_voltage_v(120.0, 16.0, 0.8, 0.4, 0.02), abs=1e-9)
    assert vb > 120.0  # the drop of the shared neutral lifts the idle leg


def test_lost_neutral_puts_53_and_187_v_on_legs_of_14_and_4_a():
    # Voltage divider by hand: 240 x 4/18 and 240 x 14/18. Common practice, no source: "53 V and 187 V".
    out = np.empty(2)
    open_neutral_voltages_v(240.0, complex(120.0 / 14.0, 0.0), complex(120.0 / 4.0, 0.0), out)
    assert out.tolist() == [pytest.approx(53.0, abs=0.5), pytest.approx(187.0, abs=0.5)]


def test_loss_is_drop_times_current_for_a_resistive_load():
    assert run_loss_w(12.0, 0.3, 2.0) == pytest.approx(12.0 * two_wire_drop_v(12.0, 1.0, 0.3, 0.1), rel=1e-12)


@given(
    current_a=st.floats(0.1, 40.0),
    length_m=st.floats(1.0, 150.0),
    longer=st.floats(1.0, 3.0),
    area_mm2=st.floats(0.5, 16.0),
    more_copper=st.floats(1.0, 4.0),
    temperature_c=st.floats(-30.0, 90.0),
    warmer_k=st.floats(0.0, 60.0),
    power_factor=st.floats(0.3, 1.0),
)
@settings(max_examples=200, deadline=None)
def test_more_copper_shorter_or_cooler_never_drops_more(
    current_a, length_m, longer, area_mm2, more_copper, temperature_c, warmer_k, power_factor
):
    def drop_v(area, length, temperature):
        ohm_per_m = copper_resistance_ohm_per_m(17.241e-9 / (area * 1e-6), 20.0, temperature)
        return two_wire_drop_v(current_a, power_factor, ohm_per_m * length, 1e-4 * length)

    here_v = drop_v(area_mm2, length_m, temperature_c)
    assert drop_v(area_mm2 * more_copper, length_m, temperature_c) <= here_v * (1 + 1e-12)
    assert drop_v(area_mm2, length_m * longer, temperature_c) >= here_v * (1 - 1e-12)
    assert drop_v(area_mm2, length_m, temperature_c + warmer_k) >= here_v * (1 - 1e-12)


@pytest.mark.parametrize(
    ("awg", "area_mm2", "near_mm2", "t3_ohm_per_km"),
    # AWG areas by ASTM B258 (rows 01-0049, 01-0055, 01-0065); IEC 60228 table 3, class 5 plain, 20 C (rows 01-0173,
    # 01-0176, 01-0167), all verified. Per area of copper the two systems must agree: both allow for the lay of strands.
    [(14, 2.081, 2.5, 7.98), (12, 3.309, 2.5, 7.98), (14, 2.081, 1.5, 13.3)],
)
def test_awg_and_mm2_agree_at_equal_area(awg, area_mm2, near_mm2, t3_ohm_per_km):
    us_ohm_per_m = copper_resistance_ohm_per_m(T8_OHM_PER_KFT[awg] * 1e-3 / FT, 75.0, 20.0)
    metric_ohm_per_m = t3_ohm_per_km * 1e-3 * near_mm2 / area_mm2
    # IEC 60228 prints a maximum, 15 to 16 % above the metal at nominal area because a real class 5 conductor may have
    # less copper than its nominal size says; table 8 prints a nominal, 2 % above. So metric may be up to 15 % more.
    assert us_ohm_per_m < metric_ohm_per_m < 1.16 * us_ohm_per_m


@given(drop_v=st.floats(0.5, 12.0), current_a=st.floats(0.5, 30.0), power_factor=st.floats(0.3, 1.0))
@settings(max_examples=100, deadline=None)
def test_longest_run_costs_what_is_allowed(drop_v, current_a, power_factor):
    length_m = longest_run_m(drop_v, current_a, power_factor, 8.5e-3, 1e-4)
    back_v = two_wire_drop_v(current_a, power_factor, 8.5e-3 * length_m, 1e-4 * length_m)
    assert back_v == pytest.approx(drop_v, rel=1e-12)


def test_drop_solves_for_the_current_a_given_voltage_leaves():
    # Root finder against the closed form: which current leaves 103.5 V (115 V less 10 %) after 100 ft of 12 AWG?
    ohm = 2 * 1.98e-3 * 100.0
    current_a = brentq(lambda i: load_voltage_v(120.0, i, 0.7, ohm, 0.006) - 103.5, 0.0, 100.0)
    impedance = complex(ohm, 0.006)
    assert abs(103.5 + impedance * current_a * cmath.exp(-1j * math.acos(0.7))) == pytest.approx(120.0, abs=1e-6)
