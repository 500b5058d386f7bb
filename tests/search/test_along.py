"""Tables read along straight lines, beside what numpy reads from the same points."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import arith
from calc.mechanics import tire_load

XS, YS = [1.0, 2.0, 5.0], [10.0, 30.0, 0.0]
POINTS = list(zip(XS, YS, strict=True))


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
    assert arith.along(x, xs, ys) == wanted
    assert tire_load.interpolate(points, x) == (wanted if xs[0] <= x <= xs[-1] else None)


def test_a_point_is_its_own_value():
    for x, y in POINTS:
        assert arith.along(x, XS, YS) == y
        assert tire_load.interpolate(POINTS, x) == y


def test_beyond_the_ends_the_end_holds_or_nothing_is_known():
    assert arith.along(0.0, XS, YS) == 10.0
    assert arith.along(9.0, XS, YS) == 0.0
    assert tire_load.interpolate(POINTS, 0.999) is None
    assert tire_load.interpolate(POINTS, 5.001) is None
    assert tire_load.interpolate([], 1.0) is None


def test_what_rounding_left_beyond_an_end_is_still_inside():
    assert tire_load.interpolate(POINTS, 1.0 - 1e-9) == pytest.approx(10.0)
    assert tire_load.interpolate(POINTS, 5.0 + 1e-9) == 0.0
