"""Which device opens first: does interval arithmetic say neither too much nor too little?"""

import math

import pytest
from ampwright.engine.physics.limit_events import Limit, play_limit
from ampwright.engine.physics.protective_device import Device, play
from ampwright.engine.physics.trip_order import trip_order
from hypothesis import given
from hypothesis import strategies as st

NEVER = math.inf
interval = st.tuples(st.floats(0.0, 100.0), st.floats(0.0, 100.0)).map(sorted)


def test_bands_apart_are_in_order():
    assert trip_order([1.0, 20.0], [10.0, 30.0]).places == ("surely_first", "not_first")


def test_bands_that_overlap_leave_it_open():
    order = trip_order([1.0, 5.0, 40.0], [10.0, 30.0, NEVER])
    assert order.places == ("may_be_first", "may_be_first", "not_first")
    assert (order.something_opens_earliest_s, order.something_opens_latest_s) == (1.0, 10.0)


def test_what_holds_is_not_in_the_order_and_one_device_alone_is_first():
    assert trip_order([NEVER, 3.0], [NEVER, NEVER]).places == ("holds", "may_be_first")
    assert trip_order([3.0], [4.0]).places == ("surely_first",)
    assert trip_order([], []).places == ()


@given(st.lists(interval, min_size=1, max_size=6), st.data())
def test_every_outcome_that_is_possible_is_allowed(bands, data):
    # Draw one time inside each band: the smallest must be a device that may be first, and nobody else if one is sure.
    drawn = [data.draw(st.floats(low, high)) for low, high in bands]
    places = trip_order([b[0] for b in bands], [b[1] for b in bands]).places
    first = [k for k, time_s in enumerate(drawn) if time_s == min(drawn)]
    assert all(places[k] in ("surely_first", "may_be_first") for k in first)
    if "surely_first" in places:
        assert first == [places.index("surely_first")]


def test_nonsense_is_refused():
    with pytest.raises(ValueError, match="before its earliest"):
        trip_order([2.0], [1.0])
    with pytest.raises(ValueError, match="1 earliest and 2 latest"):
        trip_order([2.0], [1.0, 2.0])


def test_a_shutdown_spares_the_breaker_and_a_stiff_supply_does_not():
    # A short through a long cord: an inverter that gives twice its 20 A for half a second is off before a 20 A
    # breaker at 200 % can act (its earliest is seconds); from a stiff supply the same breaker is the only device.
    breaker = play(Device("ul_489", 20.0), (NEVER,), (40.0,))
    inverter = play_limit(Limit(20.0, ((40.0, 0.5),), "shutdown"), (NEVER,), (40.0,))
    order = trip_order(
        [breaker.earliest_s, inverter.trips_earliest_s], [breaker.latest_assumed_s, inverter.trips_latest_s]
    )
    assert order.places == ("not_first", "surely_first")
