"""Does a winding that stands still get as hot as its heat balance says, once and try after try?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.stalled_winding import LOCKED_RISE_K_PER_S, winding_rise_k
from scipy.integrate import solve_ivp

CASES = [
    # rate [K/s], current ratio, time constant [s], on [s], off [s], tries
    (6.0, 1.0, 120.0, 4.0, 5.0, 2),
    (6.0, 0.7, 120.0, 0.5, 5.0, 12),
    (10.0, 1.0, 300.0, 10.0, 60.0, 5),
    (3.0, 0.35, 60.0, 20.0, 240.0, 3),
]


@pytest.mark.parametrize(("rate", "ratio", "tau", "on_s", "off_s", "tries"), CASES)
def test_it_is_the_solution_of_its_heat_balance(rate, ratio, tau, on_s, off_s, tries):
    # d(rise)/dt = rate ratio^2 (on) or 0 (off) - rise/tau, by Runge-Kutta of order 8: another way to the same figure
    rise = 0.0
    for number in range(tries):
        for seconds, heated in ((on_s, 1.0), (off_s, 0.0)):
            if number == tries - 1 and not heated:
                break
            slope = heated * rate * ratio**2
            found = solve_ivp(
                lambda _t, y, slope=slope: slope - y / tau,
                (0.0, seconds),
                [rise],
                method="DOP853",
                rtol=1e-10,
                atol=1e-10,
            )
            rise = float(found.y[0, -1])
    assert winding_rise_k(rate, ratio, tau, on_s, off_s, tries) == pytest.approx(rise, rel=1e-7)


def test_limits_have_known_answers():
    # under voltage for ever: rate times the time constant; no try, no rise; without an end: above any number of tries
    assert winding_rise_k(6.0, 1.0, 120.0, math.inf, 5.0, 1) == 720.0
    assert winding_rise_k(6.0, 0.5, 120.0, math.inf, 5.0, math.inf) == 180.0
    assert winding_rise_k(6.0, 1.0, 120.0, 3.0, 5.0, 0) == 0.0
    assert winding_rise_k(6.0, 1.0, 120.0, 0.0, 5.0, 4) == 0.0
    many = [winding_rise_k(6.0, 1.0, 120.0, 3.0, 5.0, n) for n in (1, 10, 100, 1000)]
    without_end = winding_rise_k(6.0, 1.0, 120.0, 3.0, 5.0, math.inf)
    assert np.all(np.diff(many) >= 0.0)
    assert without_end == pytest.approx(many[-1], rel=1e-9)
    # a pause without an end forgets: each try is the first
    assert winding_rise_k(6.0, 1.0, 120.0, 3.0, 1e9, 50) == pytest.approx(winding_rise_k(6.0, 1.0, 120.0, 3.0, 0.0, 1))


def test_a_first_second_is_adiabatic_copper():
    # 5 A/mm2 at work (common practice, no source), six times that at standstill; copper when hot: 2.1e-8 ohm m and
    # 3.45e6 J/(m3 K) (handbook values, from memory): the assumed rates lie on both sides of it.
    rate = (6.0 * 5e6) ** 2 * 2.1e-8 / 3.45e6
    assert LOCKED_RISE_K_PER_S[0] < rate < LOCKED_RISE_K_PER_S[2]
    assert winding_rise_k(rate, 1.0, 120.0, 0.1, 0.0, 1) == pytest.approx(0.1 * rate, rel=1e-3)


@pytest.mark.parametrize(
    ("tau", "on_s", "off_s", "tries"), [(0.0, 1.0, 1.0, 1), (60.0, -1.0, 1.0, 1), (60.0, 1.0, -1.0, 1)]
)
def test_nonsense_is_refused(tau, on_s, off_s, tries):
    with pytest.raises(ValueError, match="time constant"):
        winding_rise_k(6.0, 1.0, tau, on_s, off_s, tries)
