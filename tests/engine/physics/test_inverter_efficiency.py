"""Does a source draw its no-load power for nothing, and its table in between?

Published inverters: tests/published/energy.
"""

import numpy as np
import pytest
from ampwright.engine.physics.inverter_efficiency import (
    battery_draw_w,
    input_power_points_w,
    input_power_w,
    output_power_w,
)
from hypothesis import given, settings
from hypothesis import strategies as st


def points(loads=(500.0, 1000.0, 2000.0), efficiency=(0.88, 0.92, 0.90), no_load=30.0):
    xs, ys = np.empty(len(loads) + 1), np.empty(len(loads) + 1)
    input_power_points_w(np.array(loads), np.array(efficiency), no_load, xs, ys)
    return xs, ys


def test_no_load_draws_the_no_load_figure_and_a_table_point_its_efficiency():
    table = points()
    assert input_power_w(0.0, *table) == 30.0
    assert input_power_w(1000.0, *table) == pytest.approx(1000.0 / 0.92)
    assert output_power_w(30.0, *table) == 0.0
    assert output_power_w(10.0, *table) == 0.0


def test_a_quadratic_loss_is_met_between_its_points():
    # Loss 30 + 0.04 P + 2e-5 P^2 (no load, switching, resistance: the usual form). A chord of a parabola errs by at
    # most c h^2/4 = 2e-5 x 500^2 / 4 = 1.25 W on steps of 500 W.
    def truth_w(output_w):
        return output_w + 30.0 + 0.04 * output_w + 2e-5 * output_w**2

    loads = np.array([500.0, 1000.0, 1500.0, 2000.0])
    table = points(loads, loads / truth_w(loads), 30.0)
    for output_w in np.linspace(0.0, 2000.0, 41):
        assert 0.0 <= input_power_w(output_w, *table) - truth_w(output_w) + 1e-9 <= 1.25 + 2e-9


@given(output_w=st.floats(0.0, 3000.0), more_w=st.floats(0.0, 1000.0))
@settings(max_examples=100, deadline=None)
def test_more_output_never_draws_less_and_the_inverse_returns(output_w, more_w):
    table = points()
    input_w = input_power_w(output_w, *table)
    assert input_w > output_w
    assert input_power_w(output_w + more_w, *table) >= input_w
    assert output_power_w(input_w, *table) == pytest.approx(output_w, rel=1e-9, abs=1e-9)


def test_left_awake_all_day_costs_what_awake_draw_says():
    # 200 W awake (common practice, no source: 100 to 500 W) for 8 h and nothing plugged in: 1.6 kWh, with the inverter
    # on (30 W) 1.84 kWh. Arithmetic.
    table = points()
    assert 8 * battery_draw_w(0.0, 200.0, 0.0, *table) == pytest.approx(1600.0)
    assert 8 * battery_draw_w(0.0, 200.0, 1.0, *table) == pytest.approx(1840.0)
