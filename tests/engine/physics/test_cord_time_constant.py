"""Is a cord's time constant the heat of what it is made of over the loss its rating implies?"""

import math

import pytest
from ampwright.engine.physics.cord_time_constant import (
    COPPER_ALONE,
    COPPER_HEAT_J_PER_M3_K,
    PVC_HEAT_J_PER_M3_K,
    WHOLE_CORD,
    heat_capacity_j_per_m_k,
    outside_diameter_m,
    time_constant_s,
)


def test_copper_heat_is_density_times_specific_heat():
    # 8.96 g/cm3 and 0.385 J/(g K), handbook values from memory: 3.45 MJ/(m3 K). Half the last printed digit.
    assert pytest.approx(8960.0 * 385.0, abs=0.005e6) == COPPER_HEAT_J_PER_M3_K


@pytest.mark.parametrize(
    ("conductors", "cores_across"),
    # Circles packed round: 1, 2, 1 + 2/sqrt 3, 1 + sqrt 2, 1 + 1/sin 36 deg (five in a ring). Geometry.
    [(1, 1.0), (2, 2.0), (3, 2.1547), (4, 2.4142), (5, 1.0 + 1.0 / math.sin(math.pi / 5.0))],
)
def test_bundle_of_round_cores(conductors, cores_across):
    strand_m = math.sqrt(4.0 * 2.081e-6 / (0.75 * math.pi))
    expected_m = cores_across * (strand_m + 2 * 0.76e-3) + 2 * 0.76e-3
    assert outside_diameter_m(2.081e-6, conductors, 0.76e-3, 0.76e-3) == pytest.approx(expected_m, rel=1e-4)


@pytest.mark.parametrize(
    ("area_mm2", "published_mm"),
    # Three-conductor hard-service "junior" cord of 16, 14, 12 AWG: 0.315, 0.35, 0.40 in outside, handbook values from
    # memory, which differ by 5 % between makers: that is the tolerance.
    [(1.309, 8.0), (2.081, 8.9), (3.309, 10.2)],
)
def test_outside_diameter_is_about_that_of_a_real_cord(area_mm2, published_mm):
    assert 1e3 * outside_diameter_m(area_mm2 * 1e-6, 3, 0.76e-3, 0.76e-3) == pytest.approx(published_mm, rel=0.05)


def test_a_cord_of_six_or_no_conductors_is_refused():
    for conductors in (0, 6, -1):
        with pytest.raises(ValueError, match="1 to 5"):
            outside_diameter_m(1e-6, conductors, 1e-3, 1e-3)


def test_copper_alone_is_copper_alone_and_the_whole_cord_is_the_sum():
    # By hand: 2 x 2.081 mm2 x 3.45; then 3 x 2.081 mm2 of copper and the rest of 9 mm outside as PVC.
    copper = heat_capacity_j_per_m_k(2.081e-6, 2, 9e-3, PVC_HEAT_J_PER_M3_K, COPPER_ALONE)
    assert copper == pytest.approx(14.36, abs=0.005)
    whole = heat_capacity_j_per_m_k(2.081e-6, 3, 9e-3, PVC_HEAT_J_PER_M3_K, WHOLE_CORD)
    assert whole == pytest.approx(3 * 2.081 * 3.45 + (63.617 - 3 * 2.081) * 1.7, rel=1e-4)
    assert heat_capacity_j_per_m_k(2.081e-6, 3, 1e-3, PVC_HEAT_J_PER_M3_K, WHOLE_CORD) == pytest.approx(
        3 * 2.081 * 3.45, rel=1e-6
    )


def test_time_constant_of_14_awg_is_some_minutes_and_copper_alone_about_one():
    # 18 A (row 02-0006), 3.14 ohm/kft at 75 C (row 01-0074) taken to 60 C, both verified; common practice, no source:
    # small flexible cords follow their load in 5 to 15 minutes.
    ohm_per_m = 3.14e-3 / 0.3048 * (1.0 - 0.00323 * 15.0)
    loss_w_per_m_k = 2 * 18.0**2 * ohm_per_m / 30.0
    whole_s = time_constant_s(93.0 + 21.5, 2, 18.0, ohm_per_m, 30.0, 60.0)
    assert whole_s == pytest.approx(114.5 / loss_w_per_m_k, rel=1e-12)
    assert 5 * 60 < whole_s < 15 * 60
    assert 50.0 < time_constant_s(14.36, 2, 18.0, ohm_per_m, 30.0, 60.0) < 90.0
