"""Is every device that cannot be refused with all its faults, and are the bands ordered between standards?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.breaker_bands import IEC_60898_INSTANTANEOUS, UL_489_POINTS
from ampwright.engine.physics.protective_device import (
    Device,
    DeviceTable,
    UnfitDevice,
    band_of,
    device_faults,
    play,
)
from ampwright.engine.physics.trip_band import tau_through_hot_point_s, tau_through_s
from ampwright.engine.physics.trip_curve import USUAL_MULTIPLES, trip_curve
from ampwright.engine.standards.loader import table


@pytest.mark.parametrize(
    ("device", "members"),
    [
        (Device("ul_498", 20.0), ["standard"]),
        (Device("ul_489", 0.0), ["rating_a"]),
        (Device("ul_489", math.nan), ["rating_a"]),
        (Device("ul_489", math.inf), ["rating_a"]),
        (Device("ul_489", 400.0), ["rating_a"]),
        (Device("ul_489", 20.0, "C"), ["curve"]),
        (Device("iec_60898_1", 16.0), ["curve"]),
        (Device("iec_60898_1", 160.0, "C"), ["rating_a"]),
        (Device("bs_1362", 20.0), ["rating_a"]),
        (Device("bs_1362", 13.0, compensated=True), ["compensated"]),
        (Device("iec_60269_gg", 17.0), ["rating_a"]),
        (Device("ul_489", 20.0, ambient_c=math.nan), ["ambient_c"]),
        (Device("iec_60898_1", -1.0, "K", ambient_c=300.0), ["rating_a", "ambient_c", "curve"]),
    ],
    ids=str,
)
def test_an_unfit_device_names_every_fault(device, members):
    assert [member for member, _ in device_faults(device)] == members
    with pytest.raises(UnfitDevice) as refused:
        band_of(device)
    assert [member for member, _ in refused.value.faults] == members


@pytest.mark.parametrize(
    ("durations", "currents"),
    [((1.0,), (1.0, 2.0)), ((-1.0,), (1.0,)), ((math.nan,), (1.0,)), ((1.0,), (math.inf,)), ((1.0,), (-1.0,)),
     ((math.inf, 1.0), (1.0, 1.0)), ((1.0,), (math.nan,))],
)  # fmt: skip
def test_a_history_that_is_none_is_refused(durations, currents):
    with pytest.raises(ValueError, match="history 0"):
        play(Device("ul_489", 20.0), durations, currents)


def devices():
    for up_to_a, *_ in UL_489_POINTS:
        yield Device("ul_489", up_to_a)
    yield Device("ul_489", 20.0)
    for rating_a in (6.0, 32.0, 40.0, 63.0, 80.0, 125.0):
        for curve in IEC_60898_INSTANTANEOUS:
            yield Device("iec_60898_1", rating_a, curve)
    yield Device("ul_1077", 15.0)
    yield Device("iec_60934", 15.0)
    for rating_a in (1.0, 3.0, 5.0, 13.0):
        yield Device("bs_1362", rating_a)
    for rating_a in (16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0):
        yield Device("iec_60269_gg", rating_a)


@pytest.mark.parametrize("device", list(devices()), ids=str)
@pytest.mark.parametrize("ambient_c", [-40.0, -5.0, None, 40.0, 85.0])
def test_every_number_of_the_earliest_edge_lies_below_the_latest(device, ambient_c):
    # What the quantile of assumption B-09 needs to rise with time.
    placed = Device(device.standard, device.rating_a, device.curve, ambient_c)
    edges = DeviceTable.of([placed]).edges[0]
    assert (edges[0] <= edges[1]).all()
    assert (edges[:, :4] > 0.0).all()


@pytest.mark.parametrize("device", list(devices()), ids=str)
def test_a_curve_falls_and_stays_in_order(device):
    points = trip_curve(device)
    assert [point.multiple for point in points] == sorted(USUAL_MULTIPLES)
    for name in ("earliest_s", "latest_guaranteed_s", "latest_assumed_s"):
        falling = [getattr(point, name) for point in points]
        assert falling == sorted(falling, reverse=True)
    assert all(point.earliest_s <= point.latest_assumed_s <= point.latest_guaranteed_s for point in points)
    assert all(point.current_a == pytest.approx(point.multiple * device.rating_a) for point in points)


def test_a_supplementary_protector_is_wider_than_a_branch_breaker():
    # The curve of UL 1077 is the maker's (05-0045: no branch-circuit device), so less may be promised on either side.
    multiples = np.linspace(0.5, 45.0, 300)
    branch = trip_curve(Device("ul_489", 15.0), multiples)
    supplementary = trip_curve(Device("ul_1077", 15.0), multiples)
    for narrow, wide in zip(branch, supplementary, strict=True):
        assert wide.earliest_s <= narrow.earliest_s
        assert wide.latest_assumed_s >= narrow.latest_assumed_s
        assert wide.latest_guaranteed_s == math.inf


def test_a_compensated_device_does_not_feel_the_air():
    hot = trip_curve(Device("ul_489", 20.0, ambient_c=60.0, compensated=True))
    assert hot == trip_curve(Device("ul_489", 20.0))


def test_time_constants_go_through_their_points():
    # Put back into the differential equation's closed form.
    tau_s = tau_through_s(2.0, 120.0, 1.9)
    assert 4.0 * (1.0 - math.exp(-120.0 / tau_s)) == pytest.approx(1.9)
    tau_s = tau_through_hot_point_s(1.13, 3600.0, 1.45, 3600.0, 1.9)
    left = math.exp(-3600.0 / tau_s)
    before = 1.13**2 * (1.0 - left)
    assert 1.45**2 + (before - 1.45**2) * left == pytest.approx(1.9)
    with pytest.raises(ValueError, match="never opens"):
        tau_through_s(1.2, 60.0, 1.5)


def demanded(key, demand):
    for row in table(key):
        if row.text("demand") == demand:
            top_a = row.number_or_none("rating_to_a")
            yield row.number("rating_above_a"), math.inf if top_a is None else top_a, row


def test_points_agree_with_the_cited_tables():
    # Two copies of one number must not drift; that the number is right is the published rows' matter.
    for key, standard, curve, end_a in (
        ("ul-489_points", "ul_489", "", 225.0),
        ("iec-60898-1_t7", "iec_60898_1", "B", 125.0),
        ("bs-1362_points", "bs_1362", "", 13.0),
        ("iec-60934_points", "iec_60934", "", 30.0),
    ):
        found = 0
        for above_a, to_a, row in demanded(key, "trips within"):
            for rating_a in (above_a * 1.01 + 0.5, min(to_a, end_a)):
                points = band_of(Device(standard, rating_a, curve)).points
                assert (row.number("multiple"), row.number("seconds")) in [(p.multiple, p.seconds) for p in points]
                found += 1
        assert found
