"""Does reading a table agree with an independent one, and is a question outside it told apart?"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.table_lookup import inside_table, table_value
from hypothesis import given, settings
from hypothesis import strategies as st


@given(
    at=st.floats(-20.0, 120.0),
    points=st.lists(st.integers(0, 100), min_size=1, max_size=8, unique=True),
)
@settings(max_examples=200, deadline=None)
def test_between_points_it_is_numpy_interp(at, points):
    xs = np.array(sorted(points), dtype=float)
    ys = np.sin(xs)
    assert table_value(at, xs, ys) == pytest.approx(np.interp(at, xs, ys), abs=1e-12)


def test_outside_is_told_apart():
    xs = np.array([0.0, 10.0])
    assert inside_table(0.0, xs)
    assert inside_table(10.0, xs)
    assert not inside_table(-1e-9, xs)
    assert not inside_table(10.1, xs)
    assert not inside_table(math.nan, xs)
    assert math.isnan(table_value(math.nan, xs, np.array([1.0, 2.0])))
