"""Does steady cord heating meet its calibration, its inverse and what no cord may do?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.cord_heating import (
    OVER_LIMIT,
    RATED_AMBIENT_C,
    RATED_COPPER_C,
    RUNAWAY,
    WITHIN_LIMIT,
    allowed_current_a,
    copper_resistance_ratio,
    heating_current_a,
    heating_state,
    steady_copper_temperature_c,
    steady_copper_temperatures_c,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

# NFPA 70 (2023) table 400.5(A)(1), 30 C, columns A and B: rows 02-0001 to 02-0018, verified.
AMPACITIES_A = {
    "18 AWG": (7.0, 10.0),
    "14 AWG": (15.0, 18.0),
    "12 AWG": (20.0, 25.0),
    "8 AWG": (35.0, 40.0),
    "6 AWG": (45.0, 55.0),
    "2 AWG": (80.0, 95.0),
}
# BS 7671 table 4F3A, 60 C cord at 30 C, single-phase: rows 02-0151 to 02-0173, verified.
AMPACITIES_MM2_A = {"0.5 mm2": 3.0, "1 mm2": 10.0, "1.25 mm2": 13.0, "2.5 mm2": 25.0, "4 mm2": 32.0}


def settled_c(current_a, ambient_c=30.0, rated_a=18.0, limit_c=60.0, lay=1.0):
    return steady_copper_temperature_c(current_a, ambient_c, rated_a, RATED_AMBIENT_C, RATED_COPPER_C, limit_c, lay)


def state(current_a, ambient_c=30.0, rated_a=18.0, limit_c=60.0, lay=1.0):
    return heating_state(current_a, ambient_c, rated_a, RATED_AMBIENT_C, RATED_COPPER_C, limit_c, lay)


@pytest.mark.parametrize("limit_c", [60.0, 75.0, 90.0, 105.0])
@pytest.mark.parametrize(
    "rated_a", sorted({a for pair in AMPACITIES_A.values() for a in pair} | set(AMPACITIES_MM2_A.values()))
)
def test_rated_current_at_rated_ambient_gives_60_c_whatever_the_jacket_is_marked(rated_a, limit_c):
    # The cord tables are headed 60 C conductor, 30 C ambient (BS 7671 table 4F3A); NFPA 70 400.5 has one table for all.
    assert settled_c(rated_a, rated_a=rated_a, limit_c=limit_c) == pytest.approx(60.0, abs=1e-9)
    assert state(rated_a, rated_a=rated_a, limit_c=limit_c) == WITHIN_LIMIT


def test_no_current_is_ambient_temperature():
    assert settled_c(0.0, ambient_c=-20.0) == -20.0


@pytest.mark.parametrize("current_a", [5.0, 18.0, 25.0, 40.0, 56.0])
def test_settles_where_heat_in_equals_heat_out(current_a):
    # Independent of the closed form: root of the balance written with a 14 AWG cord's ohms (NFPA 70 ch. 9 table 8,
    # row 01-0074, verified: 3.14 ohm/kft at 75 C) and the loss per kelvin that 18 A at 60 C and 30 C asks for.
    ohm_per_m_75 = 3.14e-3 / 0.3048

    def ohm_per_m(temperature_c):
        return ohm_per_m_75 * (1.0 + 0.00323 * (temperature_c - 75.0))  # note 2 of that table

    loss_w_per_m_k = 18.0**2 * ohm_per_m(60.0) / 30.0
    limit_c = 105.0
    balanced_c = brentq(
        lambda t: current_a**2 * ohm_per_m(min(t, limit_c)) - loss_w_per_m_k * (t - 30.0), 0.0, 2000.0, xtol=1e-10
    )
    # 0.00323 is printed to three figures (0.003232): over 45 K that is 1e-4 of the resistance, so of the rise.
    assert settled_c(current_a, limit_c=limit_c) - 30.0 == pytest.approx(balanced_c - 30.0, rel=3e-4)


@pytest.mark.parametrize(
    ("current_a", "expected"), [(18.0, WITHIN_LIMIT), (18.1, OVER_LIMIT), (56.0, OVER_LIMIT), (57.0, RUNAWAY)]
)
def test_three_states_of_a_60_c_cord(current_a, expected):
    # alpha20 30 K (I/18)^2 / 1.1572 = 1 at I = 56.4 A: no equilibrium beyond (algebra on the balance).
    assert state(current_a) == expected
    assert math.isfinite(settled_c(current_a))


def test_runaway_is_a_finite_lower_bound_above_the_limit():
    for current_a in (60.0, 200.0, 5000.0):
        assert state(current_a) == RUNAWAY
        assert 60.0 < settled_c(current_a) < math.inf


def test_40_a_through_14_awg_is_4_9_times_its_rated_heat():
    # (40/18)^2: arithmetic on NFPA 70 table 400.5(A)(1), row 02-0006, verified. Heat at equal resistance is rise.
    rise_k = settled_c(40.0, limit_c=60.0) - 30.0
    assert rise_k / 30.0 == pytest.approx(4.9, abs=0.05)


@pytest.mark.parametrize(
    ("ambient_c", "factor"),
    # NFPA 70 (2023) table 310.15(B)(1)(1), 60 C column, upper end of each band; rows 02-0033 to 02-0039, verified.
    [(25.0, 1.08), (35.0, 0.91), (40.0, 0.82), (50.0, 0.58), (55.0, 0.41)],
)
def test_allowed_current_is_the_published_ambient_factor(ambient_c, factor):
    allowed_a = allowed_current_a(60.0, ambient_c, 18.0, 30.0, 60.0, 1.0)
    assert allowed_a / 18.0 == pytest.approx(factor, abs=0.005)


def test_allowed_current_is_zero_in_air_as_warm_as_the_target():
    assert allowed_current_a(60.0, 60.0, 18.0, 30.0, 60.0, 1.0) == 0.0
    assert allowed_current_a(60.0, 71.0, 18.0, 30.0, 60.0, 1.0) == 0.0


@given(
    target_c=st.floats(31.0, 105.0),
    ambient_c=st.floats(-40.0, 30.0),
    rated_a=st.floats(3.0, 100.0),
    lay=st.floats(0.35, 1.0),
)
@settings(max_examples=200, deadline=None)
def test_allowed_current_is_the_inverse_of_the_steady_temperature(target_c, ambient_c, rated_a, lay):
    current_a = allowed_current_a(target_c, ambient_c, rated_a, 30.0, 60.0, lay)
    # 1e-6 K: near the edge of runaway a rounding of the current is amplified by 1/(1 - alpha rise).
    assert settled_c(current_a, ambient_c, rated_a, 105.0, lay) == pytest.approx(target_c, abs=1e-6)


@pytest.mark.parametrize("factor", [0.8, 0.61, 0.49, 0.42, 0.38])
def test_a_drum_at_its_factor_times_the_rated_current_is_as_warm_as_a_straight_cord_at_rated(factor):
    # DIN VDE 0298-4 table for wound cables, rows 02-0196 to 02-0200, memory: what a factor means, not whether it is so.
    assert settled_c(factor * 18.0, lay=factor) == pytest.approx(60.0, abs=1e-9)


@given(
    current_a=st.floats(0.0, 200.0),
    more_a=st.floats(0.0, 50.0),
    ambient_c=st.floats(-40.0, 80.0),
    warmer_k=st.floats(0.0, 30.0),
    rated_a=st.floats(3.0, 100.0),
    larger=st.floats(1.0, 4.0),
    limit_c=st.sampled_from([60.0, 75.0, 90.0, 105.0]),
    lay=st.floats(0.35, 1.0),
)
@settings(max_examples=300, deadline=None)
def test_more_copper_less_current_cooler_air_and_unrolling_never_heat(
    current_a, more_a, ambient_c, warmer_k, rated_a, larger, limit_c, lay
):
    here_c = settled_c(current_a, ambient_c, rated_a, limit_c, lay)
    slack_k = 1e-9 * max(1.0, abs(here_c))
    assert settled_c(current_a + more_a, ambient_c, rated_a, limit_c, lay) >= here_c - slack_k
    assert settled_c(current_a, ambient_c + warmer_k, rated_a, limit_c, lay) >= here_c - slack_k
    assert settled_c(current_a, ambient_c, rated_a * larger, limit_c, lay) <= here_c + slack_k
    assert settled_c(current_a, ambient_c, rated_a, limit_c, 1.0) <= here_c + slack_k


def test_nan_is_never_called_within_the_limit():
    assert math.isnan(settled_c(math.nan))
    assert state(math.nan) != WITHIN_LIMIT


def test_resistance_ratio_of_the_75_c_table_note():
    # NFPA 70 ch. 9 table 8 note 2, row 01-0125, verified: R2 = R1 (1 + 0.00323 (T2 - 75)).
    per_k = (copper_resistance_ratio(76.0) - copper_resistance_ratio(75.0)) / copper_resistance_ratio(75.0)
    assert per_k == pytest.approx(0.00323, abs=0.000005)


@pytest.mark.parametrize(
    ("currents_a", "rated_conductors", "expected_a"),
    [
        ([15.0, 15.0], 2, 15.0),  # two wires: the current itself
        ([14.0, 4.0, 10.0], 2, 14.0),  # opposite legs: neutral carries the difference, the heavy leg decides
        ([16.0, 16.0, 32.0], 2, 32.0),  # legs in phase: the neutral carries the sum and decides
        ([18.0, 18.0, 18.0], 2, 18.0 * math.sqrt(1.5)),  # three loaded in a column for two: I^2 R of the whole
        ([0.0, 0.0], 2, 0.0),
    ],
)
def test_heating_current_of_unequal_conductors(currents_a, rated_conductors, expected_a):
    # Kirchhoff for the neutral, sum of I^2 R for the whole.
    assert heating_current_a(np.array(currents_a), rated_conductors) == pytest.approx(expected_a, rel=1e-12)


def test_a_batch_equals_its_rows_bit_for_bit():
    current_a = np.array([0.0, 5.0, 18.0, 40.0, 60.0])
    rest = [np.full(5, value) for value in (30.0, 18.0, 30.0, 60.0, 75.0, 0.8)]
    out_c = np.empty(5)
    steady_copper_temperatures_c(current_a, *rest, out_c)
    one_by_one = [steady_copper_temperature_c(i, 30.0, 18.0, 30.0, 60.0, 75.0, 0.8) for i in current_a]
    assert out_c.tolist() == one_by_one
