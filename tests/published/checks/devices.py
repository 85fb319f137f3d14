"""Published points of overcurrent and ground-fault devices against the trip model and our tables."""

import math

import numpy as np
from ampwright.engine.physics.ground_fault_trip import class_a_trip_s
from ampwright.engine.physics.protective_device import Device, play
from ampwright.engine.standards import breaker_points, ground_fault_devices
from ampwright.engine.standards.loader import OutsideTable, table

HOUR_S = 3600.0


def _steady(standard, rating_a, multiple, curve="", seconds=math.inf):
    return play(Device(standard, rating_a, curve), (seconds,), (multiple * rating_a,))


def ul_489_holds(row):
    assert row.value == "holds"
    for rating in (15.0, 20.0, 30.0, 50.0, 100.0):
        assert _steady("ul_489", rating, 1.0).outcome == "holds"
    point = breaker_points.device_points("UL 489", 20.0)[0]
    assert (point.multiple, point.demand, point.time_s) == (1.0, "holds", None)


def ul_489_trips(row):
    """Minutes within which every rating of the class must have tripped: the model's guaranteed and assumed edge."""
    percent, band = row.parts(r"(\d+) % trip within, (.*)")
    ratings = {"> 50 A": (60, 100), "<= 30 A": (15, 20, 30), "31-50 A": (40, 50), "51-100 A": (60, 100)}.get(band)
    ratings = ratings or {"101-150 A": (125, 150), "151-225 A": (175, 225)}[band]
    multiple, limit_s = float(percent) / 100.0, row.number * 60.0
    for rating in ratings:
        trip = _steady("ul_489", float(rating), multiple)
        assert math.isclose(trip.latest_guaranteed_s, limit_s)
        assert trip.latest_assumed_s <= limit_s * (1 + 1e-9)
        assert breaker_points.trip_latest_guaranteed_s("UL 489", rating, multiple * rating) == limit_s
        point = next(p for p in breaker_points.device_points("UL 489", rating) if p.multiple == multiple)
        assert point.status == row.status


def continuous_marking(row):
    row.is_served(100 * breaker_points.continuous_limit_ratio().value)


def nema_ab_4(row):
    """Field-test maximum at 300 %: no standard's demand, but the assumed latest edge stays under it."""
    (band,) = row.parts(r"300 % field test maximum trip time, (\S+) A.*")
    for rating in {"0-30": (15.0, 30.0), "31-50": (40.0, 50.0), "51-100": (60.0, 100.0)}[band]:
        assert _steady("ul_489", rating, 3.0).latest_assumed_s <= row.number
        (point,) = breaker_points.device_points("NEMA AB 4", rating)
        row.is_served(point.time_s)


def iec_60898_holds(row):
    for rating, hours in ((16.0, 1), (63.0, 1), (100.0, 2)):
        points = breaker_points.device_points("IEC 60898-1", rating)
        assert (points[0].multiple, points[0].demand, points[0].time_s) == (row.number, "holds", hours * HOUR_S)
        for curve in "BCD":
            assert _steady("iec_60898_1", rating, row.number, curve).earliest_s >= hours * HOUR_S


def iec_60898_255(row):
    ratings = (6.0, 16.0, 32.0) if "<= 32 A" in row.item else (40.0, 63.0)
    low, high = (float(part) for part in row.value.split(" < t < "))
    for rating in ratings:
        points = [p for p in breaker_points.device_points("IEC 60898-1", rating) if p.multiple == 2.55]
        assert sorted(p.time_s for p in points) == [low, high]
        for curve in "BCD":
            trip = _steady("iec_60898_1", rating, 2.55, curve)
            assert low <= trip.earliest_s * (1 + 1e-9)
            assert trip.latest_guaranteed_s <= high * (1 + 1e-9)


def iec_60898_instant(row):
    curve, demand = row.parts(r"type ([BCD]) (no instantaneous trip at|instantaneous trip by)")
    band = breaker_points.instantaneous_band(curve)
    if demand.startswith("no"):
        row.is_served(band.holds)
        # Not within 0.1 s at this multiple, whatever the edge.
        assert _steady("iec_60898_1", 16.0, row.number, curve).earliest_s >= 0.1
    else:
        row.is_served(band.trips)
        assert _steady("iec_60898_1", 16.0, row.number, curve).latest_guaranteed_s < 0.1 + 1e-9


def class_a_time(row):
    (milliamperes,) = row.parts(r"class A GFCI maximum trip time at (\d+) mA")
    row.rounds_to(ground_fault_devices.class_a_latest_trip_s(float(milliamperes) / 1e3).value)
    band = np.empty((1, 2))
    class_a_trip_s(np.array([float(milliamperes) / 1e3]), band)
    row.rounds_to(band[0, 1])


def class_a_range(row):
    low, high = (float(part) / 1e3 for part in row.value.split(".."))
    for inside in (low, high):
        assert not isinstance(ground_fault_devices.class_a_latest_trip_s(inside), OutsideTable)
    for outside in (low * 0.99, high * 1.01):
        assert isinstance(ground_fault_devices.class_a_latest_trip_s(outside), OutsideTable)


def class_a_holds(row):
    row.is_served(1e3 * ground_fault_devices.class_a_holds_below_a().value)
    band = np.empty((1, 2))
    class_a_trip_s(np.array([(row.number - 0.01) / 1e3]), band)
    assert np.isinf(band).all()


def gfpe(row):
    row.is_served(table("ul-1053").rows[0].number("value"))


def _rcd(row, kind, multiple):
    return next(p for p in ground_fault_devices.residual_times(kind) if p.multiple == multiple)


def rcd_general(row):
    multiple = 2.0 if "2 IdN" in row.item else 1.0
    found = _rcd(row, "rcd_general", multiple)
    row.is_served(found.trips_within_s)
    assert found.status == row.status


def rcd_selective(row):
    multiple = float(row.item[row.item.index(" at ") + 4 :].split(" ")[0])
    found = _rcd(row, "rcd_selective", multiple)
    if ".." in row.value:
        assert (found.holds_for_s, found.trips_within_s) == tuple(float(part) for part in row.value.split(".."))
    else:
        row.is_served(found.holds_for_s if "non-actuating" in row.item else found.trips_within_s)
    # A selective device waits longer than a general one takes.
    assert found.trips_within_s > _rcd(row, "rcd_general", multiple).trips_within_s


def rcd_holds(row):
    row.is_served(ground_fault_devices.rcd_holds_at_ratio().value)


def supplementary(row):
    assert row.value == "no"
    assert breaker_points.protects_branch_circuit("UL 1077").value == 0.0
    assert breaker_points.protects_branch_circuit("UL 489").value == 1.0


def interrupting(row):
    row.is_served(breaker_points.smallest_interrupting_rating_a().value)


def overload_test(row):
    row.is_served(table("ul-489_limits").at(quantity="overload test current").number("value"))
