"""Do the constants of physics agree, row for row, with the tables that an answer cites for them?

Kernels may read no table, so that physics keeps points of devices and coefficients of copper of its own. Every point a
table prints has its twin there, and none is there that no table prints; a point is no surer there than its row is.
"""

from __future__ import annotations

import math

import pytest
from ampwright.engine.physics import conductor_impedance, cord_heating, cord_short_overload
from ampwright.engine.physics.breaker_bands import (
    IEC_60898_INSTANTANEOUS,
    IEC_60934_POINTS,
    UL_489_POINTS,
    iec_60898_band,
)
from ampwright.engine.physics.protective_device import Device, band_of
from ampwright.engine.physics.trip_band import Band
from ampwright.engine.standards import conductor_sizes
from ampwright.engine.standards.breaker_points import DevicePoint, DeviceStandard, device_points, instantaneous_band
from ampwright.engine.standards.loader import STATUSES

# one rating inside every range that a table prints, and the edges of the ranges
RATINGS_A = (6.0, 15.0, 20.0, 30.0, 32.0, 40.0, 50.0, 63.0, 70.0, 100.0, 125.0, 150.0, 225.0)
Point = tuple[float, float]


def _must_trip(standard: DeviceStandard, rating_a: float) -> dict[Point, DevicePoint]:
    return {
        (point.multiple, point.time_s): point
        for point in device_points(standard, rating_a)
        if point.demand == "trips within" and point.time_s is not None
    }


def _kept(band: Band) -> dict[Point, str]:
    return {(point.multiple, point.seconds): point.status for point in band.points}


def _no_surer(kept: dict[Point, str], printed: dict[Point, DevicePoint]) -> None:
    for at, status in kept.items():
        assert STATUSES.index(status) >= STATUSES.index(printed[at].status), (at, status, printed[at].status)


@pytest.mark.parametrize("rating_a", RATINGS_A)
def test_ul_489_points_are_the_rows_of_its_table(rating_a: float) -> None:
    printed = _must_trip("UL 489", rating_a)
    kept = _kept(band_of(Device("ul_489", rating_a)))
    assert set(kept) == set(printed)
    _no_surer(kept, printed)


def test_ul_489_ranges_end_where_its_table_does() -> None:
    # the same steps on both sides of every edge
    for up_to_a, *_ in UL_489_POINTS:
        for rating_a in (up_to_a, up_to_a + 0.5):
            if rating_a > UL_489_POINTS[-1][0]:
                assert (2.0, 600.0) not in _must_trip("UL 489", rating_a)
            else:
                assert set(_kept(band_of(Device("ul_489", rating_a)))) == set(_must_trip("UL 489", rating_a))


@pytest.mark.parametrize("rating_a", [rating for rating in RATINGS_A if rating <= 125.0])
@pytest.mark.parametrize("curve", ["B", "C", "D"])
def test_iec_60898_points_are_the_rows_of_table_7(rating_a: float, curve: str) -> None:
    at_once = instantaneous_band(curve)  # type: ignore[arg-type]
    assert IEC_60898_INSTANTANEOUS[curve] == (at_once.holds, at_once.trips)
    band = iec_60898_band(rating_a, curve)
    printed = _must_trip("IEC 60898-1", rating_a)
    kept = {point: status for point, status in _kept(band).items() if point != (at_once.trips, 0.1)}
    assert set(kept) == set(printed)
    # the 1.45 test follows straight after the 1.13 test, and is counted with it
    hot = next(point for point in band.points if point.multiple == 1.45)
    held = next(point for point in device_points("IEC 60898-1", rating_a) if point.multiple == 1.13)
    assert printed[1.45, hot.seconds].start == "from the 1.13 test"
    assert held.time_s is not None
    assert (hot.before_multiple, hot.before_seconds) == (held.multiple, held.time_s + hot.seconds)


def test_iec_60934_points_are_the_rows_of_its_table() -> None:
    printed = _must_trip("IEC 60934", 10.0)
    (kept,) = IEC_60934_POINTS
    assert {(kept.multiple, kept.seconds)} == set(printed)
    held = next(point for point in device_points("IEC 60934", 10.0) if point.demand == "holds")
    assert held.time_s is not None
    assert (kept.before_multiple, kept.before_seconds) == (held.multiple, held.time_s + kept.seconds)
    assert kept.status == printed[kept.multiple, kept.seconds].status


@pytest.mark.parametrize("rating_a", [3.0, 5.0, 10.0, 13.0])
def test_bs_1362_points_of_its_table_are_kept(rating_a: float) -> None:
    # The zone of the 3 A and the 13 A fuse is kept in physics alone; the two multiples of rating are in the table.
    assert set(_must_trip("BS 1362", rating_a)) <= set(_kept(band_of(Device("bs_1362", rating_a))))


@pytest.mark.parametrize("standard", ["UL 489", "IEC 60898-1", "UL 1077", "BS 1362"])
def test_no_device_may_open_where_its_table_says_it_holds(standard: DeviceStandard) -> None:
    # IEC 60934 is left out: its earliest edge is that of UL 1077 on purpose, earlier than the standard has it (memory).
    names = {
        "UL 489": ("ul_489", ""),
        "IEC 60898-1": ("iec_60898_1", "B"),
        "UL 1077": ("ul_1077", ""),
        "BS 1362": ("bs_1362", ""),
    }
    name, curve = names[standard]
    held = [point for point in device_points(standard, 10.0) if point.demand == "holds"]
    assert held
    for point in held:
        # from cold, at the earliest edge: the slow image never gets to its level, or not in the time that is printed
        edge = band_of(Device(name, 10.0, curve)).earliest
        for level, tau_s in ((edge.level_slow_ratio, edge.tau_slow_s), (edge.level_fast_ratio, edge.tau_fast_s)):
            reached = point.multiple**2
            if point.time_s is not None:
                reached *= 1.0 - math.exp(-point.time_s / tau_s)
            assert reached <= level * (1.0 + 1e-9), (standard, point, level)


def test_copper_is_one_metal() -> None:
    # IEC 60028: 0.00393/K at 20 C, which NFPA 70 chapter 9 table 8 note 2 prints as 0.00323/K at 75 C.
    assert conductor_impedance.COPPER_ALPHA20_PER_K == conductor_sizes.COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K
    for temperature_c in (-40.0, 0.0, 20.0, 60.0, 75.0, 105.0, 160.0):
        ratio = conductor_sizes.copper_resistance_ratio(temperature_c)
        assert cord_heating.copper_resistance_ratio(temperature_c) == pytest.approx(ratio, rel=1e-12)
        assert float(conductor_impedance.conductor_resistance_ohm_per_m(1.0, temperature_c)) == pytest.approx(
            ratio, rel=1e-12
        )
    at_75 = conductor_sizes.COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K / conductor_sizes.copper_resistance_ratio(75.0)
    assert at_75 == pytest.approx(0.00323, abs=0.5e-5)


def test_short_time_limits_are_of_the_insulations_that_cords_have() -> None:
    assert set(cord_short_overload.SHORT_TIME_LIMITS) >= {"pvc_70", "rubber_60"}
