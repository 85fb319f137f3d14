"""Does an engine's fuel follow its line, its tank run dry when counted, its rating shrink as the standard says?

Published rows: tests/published/energy.
"""

import math

import pytest
from ampwright.engine.physics.engine_fuel import (
    DIESEL_EXPONENTS,
    MECHANICAL_EFFICIENCY,
    REFERENCE_PRESSURE_PA,
    REFERENCE_TEMPERATURE_K,
    SPARK_IGNITION_EXPONENTS,
    fuel_heat_w,
    fuel_rate_m3_per_s,
    rating_ratio,
    set_efficiency,
    standard_pressure_pa,
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


def test_reference_conditions_keep_the_rating():
    for exponents in (SPARK_IGNITION_EXPONENTS, DIESEL_EXPONENTS):
        ratio = rating_ratio(REFERENCE_PRESSURE_PA, REFERENCE_TEMPERATURE_K, *exponents, MECHANICAL_EFFICIENCY)
        assert ratio == pytest.approx(1.0, rel=1e-12)


def test_rating_of_the_standard_by_hand():
    # ISO 3046-1, row 08-0048, memory: k = 0.8 and eta 0.8 give 0.8 - 0.7 x 0.2 x 0.25 = 0.765.
    assert rating_ratio(80e3, REFERENCE_TEMPERATURE_K, 1.0, 0.5, 0.8) == pytest.approx(0.765, rel=1e-12)
    # 40 C: (298.15/313.15)^0.5 = 0.97576; less 0.7 x 0.02424 x 0.25.
    assert rating_ratio(100e3, 313.15, 1.0, 0.5, 0.8) == pytest.approx(0.97151, abs=5e-6)
    assert rating_ratio(1.0, 313.15, 1.0, 0.5, 0.8) == 0.0


def test_standard_atmosphere_at_its_published_points():
    # ISO 2533 tables, from memory: 89,875 Pa at 1000 m, 54,020 Pa at 5000 m, printed to 10 Pa.
    assert standard_pressure_pa(0.0) == pytest.approx(101_325.0)
    assert standard_pressure_pa(1000.0) == pytest.approx(89_875.0, abs=5.0)
    assert standard_pressure_pa(5000.0) == pytest.approx(54_020.0, abs=5.0)


@given(low_m=st.floats(0.0, 4000.0), up_m=st.floats(0.0, 2000.0), warm_k=st.floats(0.0, 30.0))
@settings(max_examples=100, deadline=None)
def test_higher_or_warmer_never_gives_more(low_m, up_m, warm_k):
    def ratio(altitude_m, intake_k):
        return rating_ratio(standard_pressure_pa(altitude_m), intake_k, *SPARK_IGNITION_EXPONENTS, 0.8)

    assert ratio(low_m + up_m, 298.15) <= ratio(low_m, 298.15) + 1e-12
    assert ratio(low_m, 298.15 + warm_k) <= ratio(low_m, 298.15) + 1e-12
