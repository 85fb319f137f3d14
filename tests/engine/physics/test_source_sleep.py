"""Does a source that sleeps under a light load do so after its delay, and wake only when it should?"""

import numpy as np
import pytest
from ampwright.engine.physics.source_sleep import awake_time_s
from hypothesis import given, settings
from hypothesis import strategies as st


def awake(load_w, duration_s, below_w=12.0, delay_s=300.0, wakes=0):
    out_s = np.empty(len(load_w))
    awake_time_s(np.array(load_w, dtype=float), np.array(duration_s, dtype=float), below_w, delay_s, wakes, out_s)
    return out_s.tolist()


def test_a_refrigerator_between_cycles_is_lost():
    # 150 W for 10 min, 2 W for 20 min, by turns; sleeps below 12 W after 5 min (common practice, no source: 8 to 15 W).
    cycle = [150.0, 2.0, 150.0, 2.0], [600.0, 1200.0, 600.0, 1200.0]
    assert awake(*cycle) == [600.0, 300.0, 0.0, 0.0]
    assert awake(*cycle, wakes=1) == [600.0, 300.0, 600.0, 300.0]


def test_light_stretches_add_up_and_a_load_in_between_starts_afresh():
    assert awake([5.0, 3.0, 5.0], [200.0, 200.0, 10.0]) == [200.0, 100.0, 0.0]
    assert awake([5.0, 20.0, 5.0], [200.0, 1.0, 200.0]) == [200.0, 1.0, 200.0]
    assert awake([5.0], [300.0]) == [300.0]


def test_a_source_that_never_sleeps():
    assert awake([0.0, 5.0], [1e5, 1e5], below_w=0.0) == [1e5, 1e5]


@given(
    day=st.lists(st.tuples(st.integers(0, 30), st.integers(0, 9)), min_size=1, max_size=12),
    delay_s=st.integers(0, 12),
    wakes=st.sampled_from([0, 1]),
)
@settings(max_examples=200, deadline=None)
def test_against_second_by_second_counting(day, delay_s, wakes):
    load_w, duration_s = zip(*day, strict=True)
    counted = []
    light, asleep = 0, False
    for load, duration in day:
        up = 0
        for _ in range(duration):
            if load >= 12:
                light = 0
                asleep = asleep and not wakes
            else:
                asleep = asleep or light >= delay_s
                light += 1
            up += not asleep
        counted.append(float(up))
    assert awake(load_w, duration_s, delay_s=float(delay_s), wakes=wakes) == pytest.approx(counted)
