"""Halving: how near it comes, and when it may stop."""

import math

from hypothesis import given
from hypothesis import strategies as st

from calc.search.bisection import BISECTIONS, last_met


@given(st.floats(0.0, 100.0))
def test_it_ends_beside_the_edge_on_the_side_that_is_met(edge):
    found = last_met(lambda value: value <= edge, 0.0, 101.0)
    assert edge - 101.0 / 2**BISECTIONS <= found <= edge


@given(st.floats(0.0, 100.0), st.sampled_from([1.0, 5.0, 25.0]))
def test_it_is_as_near_as_what_is_made_of_it_wants(edge, step):
    """The whole step is the one that an exact edge gives, and it takes fewer tries to find it."""
    tried = []

    def met(value):
        tried.append(value)
        return value <= edge

    found = last_met(met, 0.0, 101.0, lambda value: math.floor(value / step))
    assert math.floor(found / step) == math.floor(last_met(lambda v: v <= edge, 0.0, 101.0) / step)
    assert len(tried) <= BISECTIONS
    beside = min(edge % step, step - edge % step)  # how far the edge is from a whole step
    if beside > 0.05 * step:
        assert len(tried) <= math.ceil(math.log2(101.0 / (0.05 * step)))
