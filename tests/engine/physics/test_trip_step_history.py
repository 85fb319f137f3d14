"""Do step histories add up to the same charge and heat, and do devices in one path get their own currents?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.limit_events import Limit
from ampwright.engine.physics.protective_device import Device
from ampwright.engine.physics.step_history import history_until, summed_history
from ampwright.engine.physics.trip_order import order_in_path
from hypothesis import given
from hypothesis import strategies as st

FOREVER = math.inf
history = st.lists(st.tuples(st.floats(0.0, 9.0), st.floats(0.0, 50.0)), max_size=8).map(
    lambda steps: (tuple(d for d, _ in steps), tuple(a for _, a in steps))
)


def value_at(steps, time_s):
    ends = np.cumsum(steps[0])
    after = np.nonzero(ends > time_s)[0]
    return steps[1][after[0]] if after.size else 0.0


@given(st.lists(history, max_size=4), st.floats(0.0, 80.0))
def test_the_sum_is_the_sum_at_every_time(histories, time_s):
    total = summed_history(histories)
    assert value_at(total, time_s) == pytest.approx(sum(value_at(h, time_s) for h in histories), abs=1e-9)
    # The integral is kept: ampere seconds of the parts.
    parts = sum(float(np.dot(*h)) for h in histories)
    assert float(np.dot(*total)) == pytest.approx(parts, abs=1e-6)


def test_a_last_step_may_last_for_ever():
    assert summed_history([((1.0, FOREVER), (5.0, 2.0)), ((FOREVER,), (3.0,))]) == ((1.0, FOREVER), (8.0, 5.0))
    assert summed_history([]) == ((), ())


@given(history, st.floats(0.0, 60.0))
def test_a_cut_history_is_the_same_until_then(steps, end_s):
    kept = history_until(*steps, end_s)
    assert sum(kept[0]) == pytest.approx(min(sum(steps[0]), end_s))
    assert kept[1] == steps[1][: len(kept[0])]


@pytest.mark.parametrize(
    "steps", [((1.0,), ()), ((-1.0,), (1.0,)), ((FOREVER, 1.0), (1.0, 1.0)), ((math.nan,), (1.0,))]
)
def test_nonsense_is_refused(steps):
    with pytest.raises(ValueError, match="history 0"):
        summed_history([steps])


def test_two_circuits_behind_one_limit():
    # 16 A each on two 20 A circuits is under each breaker and over an inverter that gives 25 A: it goes, they stay.
    load = ((FOREVER,), (16.0,))
    order = order_in_path(
        [Device("ul_489", 20.0)] * 2, [load, load], [Limit(25.0, (), "shutdown")], [summed_history([load, load])]
    )
    assert order.places == ("holds", "holds", "surely_first")


def test_a_plug_fuse_and_the_breaker_upstream():
    # 25 A through a 13 A plug fuse on a 32 A circuit: 78 % of the breaker, 1.92 In of the fuse, sure within half an
    # hour (BS 1362: 1.9 In within 30 min). At 200 A both may act in the first half cycle.
    pair = [Device("bs_1362", 13.0), Device("iec_60898_1", 32.0, "B")]
    overload = order_in_path(pair, [((FOREVER,), (25.0,))] * 2, guaranteed=True)
    assert overload.places == ("surely_first", "holds")
    assert overload.something_opens_latest_s == pytest.approx(1800.0)
    assert order_in_path(pair, [((FOREVER,), (200.0,))] * 2).places == ("may_be_first", "may_be_first")
