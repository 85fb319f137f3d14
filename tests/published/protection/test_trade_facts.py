"""Do the devices behave as the trade has seen them behave? Common practice, no source, unless a row is named."""

import math

import pytest
from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.protective_device import Device, play
from ampwright.engine.physics.trip_probability import trip_probability

FOREVER = math.inf


def test_142_percent_of_a_20_a_breaker_may_hold_from_half_a_minute_to_an_hour():
    band = play(Device("ul_489", 20.0), (FOREVER,), (28.4,))
    assert 20.0 <= band.earliest_s <= 40.0
    assert band.latest_guaranteed_s == 3600.0
    assert trip_probability(Device("ul_489", 20.0), (30.0,), (28.4,)) < 0.05
    # So a short hold proves nothing: tens of seconds leave most devices closed.
    assert trip_probability(Device("ul_489", 20.0), (60.0,), (28.4,)) < 0.5


def test_28_a_on_20_a_holds_at_first_and_surely_opens_within_the_hour():
    band = play(Device("ul_489", 20.0), (FOREVER,), (28.0,))
    assert band.earliest_s > 20.0
    assert band.latest_guaranteed_s == 3600.0


def test_106_percent_never_trips_at_once():
    for device in (Device("ul_489", 30.0), Device("ul_1077", 30.0), Device("iec_60898_1", 32.0, "C")):
        assert play(device, (FOREVER,), (1.06 * device.rating_a,)).earliest_s > 60.0


def test_31_7_a_on_40_a_holds():
    for ambient_c in (None, 40.0):
        assert play(Device("ul_489", 40.0, ambient_c=ambient_c), (FOREVER,), (31.7,)).outcome == "holds"


def test_a_compressor_on_a_15_a_breaker_trips_often_not_always():
    # 14 to 17 A while running, 93 to 104 A for under a second to start (code J at 1.5 hp), for an hour of cycles.
    cycle = ([0.6, 240.0, 120.0], [98.0, 16.5, 0.0])
    chance = trip_probability(Device("ul_489", 15.0, ambient_c=30.0), cycle[0] * 10, cycle[1] * 10)
    assert 0.0 < chance < 1.0


def test_a_20_a_source_that_trips_in_seconds_is_no_breaker_but_a_tier():
    # The same 28.3 A trips another source within seconds: below the earliest of a thermal-magnetic device, inside a
    # tier that ends between the load and the label.
    breaker = play(Device("ul_489", 20.0), (FOREVER,), (28.3,))
    inverter = play_limit(Limit(20.0, ((23.0, 10.0), (33.0, 4.0)), "shutdown"), (FOREVER,), (28.3,))
    assert inverter.trips_latest_s == pytest.approx(4.0)
    assert inverter.trips_latest_s < breaker.earliest_s


def test_a_weld_on_a_30_a_source_is_off_at_once_by_its_peak():
    # 31.7 A effective is 106 %: no thermal device acts at once, a peak limit does (crest factor 2.5 and more without
    # power factor correction), at partial output already.
    limit = Limit(30.0, ((36.0, 5.0),), "shutdown", peak_limit_a=(math.sqrt(2.0) * 30.0, math.sqrt(2.0) * 36.0))
    full = play_limit(limit, (FOREVER,), (31.7,), (2.5 * 31.7,))
    partial = play_limit(limit, (FOREVER,), (21.0,), (2.5 * 21.0,))
    assert full.trips_earliest_s == 0.0
    assert (partial.refused_earliest_s, partial.clips_latest_s) == (math.inf, 0.0)


def test_an_inverter_cannot_trip_its_breaker_magnetically():
    # A far short on a source that holds 40 A gives 200 % of a 20 A breaker: up to two minutes (05-0004, verified), and
    # seconds at the earliest. 132 A from a stiff source may act at once but is sure only later.
    weak = play(Device("ul_489", 20.0), (FOREVER,), (40.0,))
    stiff = play(Device("ul_489", 20.0), (FOREVER,), (132.0,))
    assert weak.earliest_s > 5.0
    assert weak.latest_guaranteed_s == 120.0
    assert stiff.earliest_s < 0.1
    assert 0.4 < stiff.latest_assumed_s < 20.0


def test_a_13_a_plug_fuse_carries_20_a_for_a_long_time():
    assert play(Device("bs_1362", 13.0), (1800.0,), (20.0,)).outcome == "holds"


def test_a_warm_breaker_trips_on_a_start_that_a_cold_one_bears():
    device = Device("iec_60898_1", 16.0, "B")
    start = ((0.9,), (40.0,))
    assert play(device, *start).outcome == "holds"
    warm = play(device, (3600.0,), (16.0,)).state
    assert play(device, *start, warm).outcome == "may_trip"
