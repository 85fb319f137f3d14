"""After a trip: does power come back, how often, and does a warm device hold less than a cold one?"""

import math

import pytest
from ampwright.engine.physics.limit_events import Limit
from ampwright.engine.physics.power_return import (
    MOST_TRIES_SHOWN,
    PowerReturn,
    Reset,
    after_device_trip,
    after_limit_trip,
    after_trip,
)
from ampwright.engine.physics.protective_device import Device

FOREVER = math.inf


@pytest.mark.parametrize("how", ["manual", "remote"])
def test_a_person_has_to_come(how):
    after = after_trip(Reset(how), 3.0, ())
    assert (after.ending, after.returns, after.off_since_s) == ("waits_for_person", (), 3.0)


def test_tries_are_counted_and_then_it_locks_out():
    after = after_trip(Reset("automatic", 2.0, 2), 10.0, (0.5,))
    assert after.returns == (PowerReturn(12.0, 12.5), PowerReturn(14.5, 15.0))
    assert (after.ending, after.off_since_s) == ("locked_out", 15.0)


def test_no_tries_lock_out_at_once():
    assert after_trip(Reset("automatic", 2.0, 0), 10.0, ()).ending == "locked_out"


def test_a_try_that_holds_stays_on():
    after = after_trip(Reset("automatic", 5.0, 3), 1.0, (0.5, FOREVER))
    assert after.returns == (PowerReturn(6.0, 6.5), PowerReturn(11.5, FOREVER))
    assert after.ending == "stays_on"


def test_without_a_lock_out_it_goes_on_and_off():
    after = after_trip(Reset("automatic", 2.0), 0.0, (1.0,))
    assert (after.ending, len(after.returns), after.off_since_s) == ("goes_on_and_off", MOST_TRIES_SHOWN, FOREVER)


def test_an_unknown_reset_is_taken_as_automatic():
    assert after_trip(Reset("unknown", 2.0), 0.0, (FOREVER,)).ending == "stays_on"


def test_readings_of_a_limit_can_end_differently():
    # Overload unknown: nothing is borne (earliest) or twice the value for 5 s (latest): a 3 s restart of 1.5 times the
    # value locks out by the one and stays on by the other.
    earliest, latest = after_limit_trip(
        Reset("automatic", 2.0, 2), Limit(20.0, None, "shutdown"), 4.0, (3.0, FOREVER), (30.0, 15.0)
    )
    assert (earliest.ending, latest.ending) == ("locked_out", "stays_on")


def test_a_device_that_resets_itself_is_still_warm():
    # Two images decay and rise by exponentials: the second hold is shorter than the first, and the third no longer.
    device = Device("ul_1077", 15.0)
    overload = ((FOREVER,), (30.0,))
    earliest, latest = after_device_trip(Reset("automatic", 20.0, 3), device, overload, overload)
    for after in (earliest, latest):
        first_s = after.returns[0].power_back_s - 20.0
        holds = [r.trips_again_s - r.power_back_s for r in after.returns]
        assert after.ending == "locked_out"
        assert holds[0] < first_s
        assert holds == sorted(holds, reverse=True)
    cold = after_device_trip(Reset("automatic", 1e6, 1), device, overload, overload)[1]
    assert cold.returns[0].trips_again_s - cold.returns[0].power_back_s == pytest.approx(
        cold.returns[0].power_back_s - 1e6, rel=1e-9
    )


def test_an_edge_that_holds_has_nothing_to_follow():
    mild = ((FOREVER,), (16.5,))
    earliest, latest = after_device_trip(Reset("automatic", 20.0, 3), Device("ul_489", 15.0), mild, mild)
    assert earliest is not None
    assert latest is None


@pytest.mark.parametrize(
    ("reset", "trip_s", "hold_s"),
    [
        (Reset("by_itself"), 1.0, (1.0,)),
        (Reset("automatic", -1.0), 1.0, (1.0,)),
        (Reset("automatic", 1.0, -1), 1.0, (1.0,)),
        (Reset("automatic", 1.0), math.inf, (1.0,)),
        (Reset("automatic", 1.0), 1.0, ()),
        (Reset("automatic", 1.0), 1.0, (-1.0,)),
    ],
)
def test_nonsense_is_refused(reset, trip_s, hold_s):
    with pytest.raises(ValueError, match=r"reset|trip|try"):
        after_trip(reset, trip_s, hold_s)
