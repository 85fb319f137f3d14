"""Does an engine's fuel follow its line, and its tank run dry when counted?"""

import math

import pytest
from ampwright.engine.physics.engine_fuel import (
    fuel_heat_w,
    fuel_rate_m3_per_s,
    set_efficiency,
    tank_time_s,
    willans_slope_w_per_w,
)
from hypothesis import given, settings
from hypothesis import strategies as st

GASOLINE_J_PER_M3 = 116_090 * 1055.056 / 3.785412e-3  # AFDC/GREET, row 08-0049, verified


def test_two_plate_figures_fix_the_line():
    # 6.6 gal, 8 h at half of 6 kW, 5 h at full (a made-up plate): burns 0.825 and 1.32 gal/h.
    half_w, full_w = (6.6 * 116_090 * 1055.056 / (hours * 3600.0) for hours in (8.0, 5.0))
    slope = willans_slope_w_per_w(3000.0, half_w, 6000.0, full_w)
    idle = (half_w - slope * 3000.0) / 6000.0
    for load_w, hours in ((3000.0, 8.0), (6000.0, 5.0)):
        rate = fuel_rate_m3_per_s(fuel_heat_w(load_w, 6000.0, idle, slope), GASOLINE_J_PER_M3)
        assert tank_time_s(6.6 * 3.785412e-3, rate) / 3600.0 == pytest.approx(hours, rel=1e-6)
    # No load by the line: 0.33 gal/h, 20 h. A quarter of full-load burn: light loads are dear.
    idle_rate = fuel_rate_m3_per_s(fuel_heat_w(0.0, 6000.0, idle, slope), GASOLINE_J_PER_M3)
    assert tank_time_s(6.6 * 3.785412e-3, idle_rate) / 3600.0 == pytest.approx(20.0, rel=1e-6)


@given(load=st.floats(0.0, 1.0), more=st.floats(0.0, 1.0), idle=st.floats(0.1, 2.0), slope=st.floats(2.5, 6.0))
@settings(max_examples=100, deadline=None)
def test_more_load_burns_more_and_never_less_efficiently(load, more, idle, slope):
    here, there = load * 5000.0, (load + more) * 5000.0
    assert fuel_heat_w(there, 5000.0, idle, slope) >= fuel_heat_w(here, 5000.0, idle, slope)
    assert set_efficiency(there, 5000.0, idle, slope) >= set_efficiency(here, 5000.0, idle, slope) - 1e-12
    assert set_efficiency(there, 5000.0, idle, slope) < 1.0 / slope


def test_no_load_and_no_burn():
    assert set_efficiency(0.0, 5000.0, 1.0, 3.0) == 0.0
    assert set_efficiency(0.0, 5000.0, 0.0, 3.0) == 0.0
    assert tank_time_s(0.02, 0.0) == math.inf
