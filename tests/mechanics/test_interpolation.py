"""Values between the points of a table, beside what numpy reads from the same points."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import interpolation

POINTS = [(1.0, 10.0), (2.0, 30.0), (5.0, 0.0)]


@st.composite
def tables(draw):
    """Points at rising abscissas, and where to read them."""
    steps = draw(st.lists(st.floats(0.01, 10.0), min_size=1, max_size=6))
    xs = np.cumsum(steps).tolist()
    size = len(xs)
    ys = draw(st.lists(st.floats(-100.0, 100.0), min_size=size, max_size=size))
    return list(zip(xs, ys, strict=True)), draw(st.floats(-5.0, 70.0))


@given(tables())
def test_both_read_as_numpy_does(case):
    points, x = case
    xs, ys = zip(*points, strict=True)
    wanted = pytest.approx(float(np.interp(x, xs, ys)), abs=1e-9)
    assert interpolation.held(points, x) == wanted
    assert interpolation.inside(points, x) == (wanted if xs[0] <= x <= xs[-1] else None)


def test_a_point_is_its_own_value():
    for x, y in POINTS:
        assert interpolation.held(POINTS, x) == y
        assert interpolation.inside(POINTS, x) == y


def test_beyond_the_ends_the_end_holds_or_nothing_is_known():
    assert interpolation.held(POINTS, 0.0) == 10.0
    assert interpolation.held(POINTS, 9.0) == 0.0
    assert interpolation.inside(POINTS, 0.999) is None
    assert interpolation.inside(POINTS, 5.001) is None
    assert interpolation.inside([], 1.0) is None


def test_what_rounding_left_beyond_an_end_is_still_inside():
    assert interpolation.inside(POINTS, 1.0 - 1e-9) == pytest.approx(10.0)
    assert interpolation.inside(POINTS, 5.0 + 1e-9) == 0.0
