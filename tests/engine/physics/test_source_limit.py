"""Do electronic limits keep their two readings, and does every response say what it does?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.limit_events import (
    Limit,
    UnfitLimit,
    assumed_peak_limit_a,
    headroom,
    limit_faults,
    play_limit,
    play_limits,
)
from hypothesis import given, settings
from hypothesis import strategies as st

FOREVER = math.inf
# 20 A for ever, 25 A for 10 s, 40 A for 0.5 s
TIERED = Limit(20.0, ((25.0, 10.0), (40.0, 0.5)), "shutdown", recovery_s=60.0)

tiers_given = st.lists(st.tuples(st.floats(1.05, 1.5), st.floats(0.1, 0.9)), min_size=0, max_size=4)
histories = st.lists(st.tuples(st.floats(0.01, 40.0), st.floats(0.0, 80.0)), min_size=1, max_size=12)


def built(steps, response="shutdown", own_band=False):
    amount, seconds, tiers = 20.0, 30.0, []
    for factor, shrink in steps:
        amount, seconds = amount * factor, seconds * shrink
        tiers.append((amount, seconds))
    return Limit(20.0, tuple(tiers), response, own_band=own_band)


def refused(limit, durations, loads, state=None):
    events = play_limit(limit, durations, loads, None, state)
    return events.refused_earliest_s, events.refused_latest_s


def test_the_continuous_value_is_borne_for_ever():
    assert play_limit(TIERED, (FOREVER,), (20.0,)).outcome == "holds"
    assert refused(TIERED, (FOREVER,), (0.0,)) == (math.inf, math.inf)


@pytest.mark.parametrize(("load", "seconds"), [(20.1, 10.0), (25.0, 10.0), (25.1, 0.5), (40.0, 0.5)])
def test_a_constant_load_is_refused_after_its_tier(load, seconds):
    # Definition of a tier. Both readings agree on one constant load.
    assert refused(TIERED, (FOREVER,), (load,)) == (pytest.approx(seconds), pytest.approx(seconds))


def test_exactly_the_tiers_time_is_still_borne():
    assert refused(TIERED, (10.0, FOREVER), (25.0, 20.0)) == (math.inf, math.inf)
    assert refused(TIERED, [0.5] * 20, [25.0] * 20) == (math.inf, math.inf)
    assert refused(TIERED, (10.001, FOREVER), (25.0, 20.0))[0] == pytest.approx(10.0)


def test_beyond_the_top_tier_it_may_be_off_at_once_or_bear_the_top_tiers_time():
    assert refused(TIERED, (FOREVER,), (41.0,)) == (0.0, pytest.approx(0.5))


def test_no_tiers_refuse_at_once():
    assert refused(Limit(20.0, ()), (5.0, FOREVER), (20.0, 20.1)) == (5.0, 5.0)


def test_an_unknown_overload_spans_none_to_twice_for_five_seconds():
    # practice of the trade for an unlabelled overload: low 1.0 x, high 2 x for 5 s. Common practice, no source.
    assert refused(Limit(20.0), (FOREVER,), (39.0,)) == (0.0, pytest.approx(5.0))


def test_the_shared_budget_adds_what_independent_timers_forget():
    # 6 s of 25 A, a breath, 6 s of 25 A: 12 s of a 10 s budget, while a timer that resets at once saw 6 s twice.
    durations, loads = (6.0, 1.0, 6.0), (25.0, 10.0, 25.0)
    assert refused(TIERED, durations, loads) == (pytest.approx(11.0), math.inf)


def test_the_budget_is_whole_after_the_recovery_and_not_before():
    assert refused(TIERED, (6.0, 60.0, 6.0), (25.0, 10.0, 25.0))[0] == math.inf
    assert refused(TIERED, (6.0, 59.0, 6.0), (25.0, 10.0, 25.0))[0] == pytest.approx(6.0 + 59.0 + 4.0)


def test_tiers_mix_in_the_budget_by_their_shares():
    # 5 s of 10 s uses half, so 0.25 s of 0.5 s uses the rest: closed form of the shares.
    assert refused(TIERED, (5.0, 10.0), (25.0, 40.0))[0] == pytest.approx(5.25)
    assert refused(TIERED, (5.0, 10.0), (25.0, 40.0))[1] == pytest.approx(5.5)


def test_timers_that_count_only_in_their_own_band_bound_nothing():
    # Design's warning: a load that swings between two tiers resets both, so it is never refused.
    swinging = ([0.4] * 400, [25.0, 40.0] * 200)
    assert refused(TIERED, *swinging)[1] == pytest.approx(10.0)
    own = Limit(20.0, TIERED.tiers, "shutdown", own_band=True)
    assert refused(own, *swinging)[1] == math.inf


@pytest.mark.parametrize(
    ("response", "trips", "limits"),
    [
        ("shutdown", (10.0, 10.0), (math.inf, math.inf)),
        ("current_limiting", (math.inf, math.inf), (10.0, 10.0)),
        ("voltage_dip", (math.inf, math.inf), (10.0, 10.0)),
        ("unknown", (10.0, math.inf), (10.0, math.inf)),
    ],
)
def test_each_response_says_what_it_does(response, trips, limits):
    events = play_limit(Limit(20.0, TIERED.tiers, response), (FOREVER,), (25.0,))
    assert (events.trips_earliest_s, events.trips_latest_s) == pytest.approx(trips)
    assert (events.limits_earliest_s, events.limits_latest_s) == pytest.approx(limits)
    assert events.refused_latest_s == pytest.approx(10.0)


def test_limiting_without_end_never_trips():
    # A source that folds back holds a motor below its torque for ever: no trip at any load.
    for load in (21.0, 200.0, 1e6):
        events = play_limit(Limit(20.0, (), "current_limiting"), (FOREVER,), (load,))
        assert (events.trips_earliest_s, events.trips_latest_s) == (math.inf, math.inf)
        assert events.outcome == "limits"


def test_the_peak_limit_acts_where_the_effective_value_does_not():
    # practice of the trade: 20 A effective at a crest factor of 2.8 peaks at 56 A, as a 40 A sine does. A 30 A source
    # (42 A peak) bears 20 A effective for ever and this peak not at all. Common practice, no source.
    limit = Limit(30.0, (), "shutdown", peak_limit_a=assumed_peak_limit_a(Limit(30.0, ())))
    events = play_limit(limit, (FOREVER,), (20.0,), (2.8 * 20.0,))
    assert events.refused_earliest_s == math.inf
    assert (events.trips_earliest_s, events.trips_latest_s) == (0.0, math.inf)
    assert (events.clips_earliest_s, events.outcome) == (0.0, "may_trip")
    sine = play_limit(limit, (FOREVER,), (20.0,), (math.sqrt(2.0) * 20.0,))
    assert sine.outcome == "holds"


@settings(max_examples=80, deadline=None)
@given(tiers_given, histories, st.floats(1.0, 3.0))
def test_more_load_is_never_refused_later(steps, history, factor):
    durations, loads = zip(*history, strict=True)
    limit = built(steps)
    less = refused(limit, durations, loads)
    more = refused(limit, durations, [load * factor for load in loads])
    assert less[0] <= less[1]
    assert all(m <= le + 1e-6 for m, le in zip(more, less, strict=True))


@settings(max_examples=80, deadline=None)
@given(tiers_given, histories, st.integers(2, 5), st.booleans())
def test_cutting_a_history_changes_nothing(steps, history, pieces, own_band):
    durations, loads = zip(*history, strict=True)
    limit = built(steps, own_band=own_band)
    whole = refused(limit, durations, loads)
    fine = refused(limit, [d / pieces for d in durations for _ in range(pieces)], np.repeat(loads, pieces))
    for a, b in zip(whole, fine, strict=True):
        assert a == (b if math.isinf(b) else pytest.approx(b, abs=1e-6))
    middle = len(durations) // 2
    first = play_limit(limit, durations[:middle], loads[:middle])
    second = play_limit(limit, durations[middle:], loads[middle:], None, first.state)
    offset_s = sum(durations[:middle])
    joined = min(first.refused_earliest_s, second.refused_earliest_s + offset_s)
    assert whole[0] == (joined if math.isinf(joined) else pytest.approx(joined, abs=1e-6))


def test_a_batch_gives_each_row_the_bits_of_a_single_call():
    rng = np.random.default_rng(3)
    limits = [TIERED, Limit(20.0), Limit(15.0, (), "current_limiting"), Limit(30.0, peak_limit_a=(42.0, 85.0))]
    many = [(rng.uniform(0.0, 8.0, 25), rng.uniform(0.0, 45.0, 25)) for _ in limits]
    peaks = [loads * 1.7 for _, loads in many]
    together = play_limits(limits, many, peaks)
    alone = [play_limit(li, *h, p) for li, h, p in zip(limits, many, peaks, strict=True)]
    assert list(together) == alone


def test_headroom_falls_with_what_was_used():
    used = play_limit(TIERED, (6.0,), (25.0,)).state
    fresh, after = headroom(TIERED, (25.0,))[0], headroom(TIERED, (25.0,), used)[0]
    assert (fresh.earliest_s, fresh.latest_s) == (pytest.approx(10.0), pytest.approx(10.0))
    assert (after.earliest_s, after.latest_s) == (pytest.approx(4.0), pytest.approx(4.0))
    assert headroom(TIERED, (20.0,), used)[0].latest_s == math.inf


@pytest.mark.parametrize(
    ("limit", "members"),
    [
        (Limit(0.0), ["continuous_amount"]),
        (Limit(math.nan, ()), ["continuous_amount"]),
        (Limit(20.0, (), "folds"), ["response"]),
        (Limit(20.0, ((19.0, 1.0),)), ["tiers/0"]),
        (Limit(20.0, ((25.0, 1.0), (30.0, 2.0))), ["tiers/1"]),
        (Limit(20.0, ((25.0, 0.0),)), ["tiers/0"]),
        (Limit(20.0, (), peak_limit_a=(50.0, 40.0)), ["peak_limit_a"]),
        (Limit(20.0, (), recovery_s=-1.0), ["recovery_s"]),
    ],
    ids=str,
)
def test_a_limit_that_contradicts_itself_names_every_fault(limit, members):
    assert [member for member, _ in limit_faults(limit)] == members
    with pytest.raises(UnfitLimit):
        play_limit(limit, (1.0,), (1.0,))
