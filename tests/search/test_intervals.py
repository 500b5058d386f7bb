"""Intervals hold every value their inputs allow, and their slopes every secant."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc import arith
from calc.search import functions, intervals
from calc.search.forks import Forks, NotProvable, TooManyWays, begin
from calc.search.intervals import Interval

ENDS = st.floats(-8.0, 8.0).map(lambda x: round(x, 3) + 0.0)  # no negative zero
SHARES = st.floats(0.0, 1.0)

ONE = {
    "neg": lambda x: -x,
    "abs": abs,
    "square": lambda x: x**2,
    "cube": lambda x: x**3,
    "inverse square": lambda x: x**-2,
    "root": lambda x: arith.sqrt(abs(x)),
    "power": lambda x: arith.pow(abs(x) + 0.1, 2.2),
    "power down": lambda x: (abs(x) + 0.1) ** -0.7,
    "base": lambda x: 1.7**x,
    "exp": lambda x: arith.exp(x / 4.0),
    "expm1": lambda x: arith.expm1(x / 4.0),
    "log": lambda x: arith.log(abs(x) + 0.2),
    "log base": lambda x: arith.log(abs(x) + 0.2, 3.0),
    "log1p": lambda x: arith.log1p(abs(x)),
    "sin": lambda x: arith.sin(x),
    "cos": lambda x: arith.cos(x),
    "tan": lambda x: arith.tan(x / 6.0),
    "atan": lambda x: arith.atan(x),
    "asin": lambda x: arith.asin(arith.max(-1.0, arith.min(1.0, x))),
    "acos": lambda x: arith.acos(arith.max(-1.0, arith.min(1.0, x / 3.0))),
    "degrees": lambda x: arith.degrees(x),
    "radians": lambda x: arith.radians(x),
    "floor": lambda x: arith.floor(x),
    "ceil": lambda x: arith.ceil(x),
    "round": lambda x: arith.round(x),
    "round 1": lambda x: arith.round(x, 1),
    "trunc": lambda x: arith.trunc(x),
    "mod": lambda x: x % 3.0,
    "whole": lambda x: x // 2.0,
    "less 2": lambda x: x - 2.0,
    "from 2": lambda x: 2.0 - x,
    "third": lambda x: x / -3.0,
    "over": lambda x: 3.0 / x,
    "times": lambda x: x * -1.5,
    "if": lambda x: x * 2.0 if x > 1.0 else 3.0 - x,
    "window": lambda x: 1.0 if -1.0 <= x <= 2.0 else x,
    "same": lambda x: x - x + x / x + x * x,
    "along": lambda x: arith.along(x, [-2.0, 0.5, 3.0], [1.0, -1.0, 4.0]),
    "or zero": lambda x: arith.or_zero(x) + 1.0,
    "multiples": lambda x: x * 3.0 - x / 4.0 + (x * 0.5 + x),
    "multiples over": lambda x: (x * 3.0) / (x / 2.0),
    "both forms": lambda x: arith.same(x * (1.0 - x), lambda: x - x**2),
    "truth": lambda x: x if x else 5.0,
}
TWO = {
    "+": lambda x, y: x + y,
    "-": lambda x, y: x - y,
    "*": lambda x, y: x * y,
    "/": lambda x, y: x / y,
    "power": lambda x, y: (abs(x) + 0.2) ** (y / 4.0),
    "min": lambda x, y: arith.min(x, y),
    "max": lambda x, y: arith.max([x, y, 0.5]),
    "below": lambda x, y: arith.below(x, y),
    "where": lambda x, y: arith.where(arith.below(x, 1.0), x * 2.0, y - x),
    "atan2": lambda x, y: arith.atan2(x, y),
    "hypot": lambda x, y: arith.hypot(x, y, 1.0),
    "fsum": lambda x, y: arith.fsum([x, y, x]),
    "if": lambda x, y: x if x < y else y * 2.0,
    "if not": lambda x, y: x + 1.0 if x >= y else y,
    "equal": lambda x, y: 4.0 if x == y else x,
    "bare min": min,
}

leaf = st.sampled_from([lambda x, y: x, lambda x, y: y])


def _one(inner):
    return st.builds(
        lambda name, part: lambda x, y: ONE[name](part(x, y)), st.sampled_from(sorted(ONE)), inner
    )


def _two(inner):
    return st.builds(
        lambda name, left, right: lambda x, y: TWO[name](left(x, y), right(x, y)),
        st.sampled_from(sorted(TWO)),
        inner,
        inner,
    )


formulas = st.recursive(leaf, lambda inner: _one(inner) | _two(inner), max_leaves=6)


def ways(formula, box):
    """What a formula gives on each way through its open comparisons."""
    forks, found = Forks(), []
    begin(forks)
    with arith.using(functions.FUNCTIONS):
        while forks.next():
            given = {name: intervals.variable(name, *ends) for name, ends in box.items()}
            try:
                found.append(formula(**given))
            except (ValueError, ZeroDivisionError):
                found.append(None)
    return found


def at(formula, point):
    try:
        value = formula(**point)
    except (ValueError, ZeroDivisionError, OverflowError):
        return None
    return value if isinstance(value, int | float) and math.isfinite(value) else None


def holds(low, value, high):
    slack = 1e-9 * max(1.0, abs(value))
    return low - slack <= value <= high + slack


def check(formula, box, shares):
    """The value at two points that differ in x alone lies in the hull, and so does the secant."""
    try:
        found = ways(formula, box)
    except TooManyWays:
        assume(False)
    (x0, x1), (y0, y1) = box["x"], box["y"]
    one = {"x": x0 + shares[0] * (x1 - x0), "y": y0 + shares[1] * (y1 - y0)}
    other = {"x": x0 + shares[2] * (x1 - x0), "y": one["y"]}
    values = [at(formula, one), at(formula, other)]
    known = [intervals.parts(way) for way in found if way is not None]
    for value in values:
        if value is not None:
            assert any(holds(low, value, high) for low, high, _, _ in known)
    same = len({number for _, _, _, number in known}) == 1 and None not in found
    gap = other["x"] - one["x"]
    if same and None not in values and abs(gap) > 1e-6:
        low = min(slopes.get("x", (0.0, 0.0))[0] for _, _, slopes, _ in known)
        high = max(slopes.get("x", (0.0, 0.0))[1] for _, _, slopes, _ in known)
        secant = (values[1] - values[0]) / gap
        slack = 1e-6 * max(abs(secant), 1.0) + 1e-12 * max(map(abs, values)) / abs(gap)
        assert low - slack <= secant <= high + slack


boxes = st.builds(
    lambda a, b, c, d: {"x": (min(a, b), max(a, b)), "y": (min(c, d), max(c, d))},
    ENDS,
    ENDS,
    ENDS,
    ENDS,
)
three = st.tuples(SHARES, SHARES, SHARES)


@pytest.mark.parametrize("name", sorted(ONE))
@settings(max_examples=60, deadline=None)
@given(box=boxes, shares=three)
def test_each_function_of_one_number_is_enclosed(name, box, shares):
    check(lambda x, y: ONE[name](x), box, shares)


@pytest.mark.parametrize("name", sorted(TWO))
@settings(max_examples=60, deadline=None)
@given(box=boxes, shares=three)
def test_each_function_of_two_numbers_is_enclosed(name, box, shares):
    check(lambda x, y: TWO[name](x, y), box, shares)


@settings(max_examples=400, deadline=None)
@given(formula=formulas, box=boxes, shares=three)
def test_whole_formulas_are_enclosed(formula, box, shares):
    check(formula, box, shares)


def test_a_zero_has_no_sign_for_the_direction_of_a_point():
    """A product with 0 is -0 at some points, and the direction of (-0, 0) would be half a turn."""
    box = {"x": (-1.0, 0.0), "y": (0.0, 0.0)}
    check(lambda x, y: arith.atan2(y, x * y), box, (0.0, 0.5, 1.0))


def test_numbers_tell_formulas_apart():
    """-1 and -2 have one hash in Python; a + 5 and a + (the fifth expression) are two things."""
    begin(Forks())
    x = intervals.variable("x", 0.0, 1.0)
    assert isinstance(x * -1.0 - x * -2.0, Interval)
    made = [x + step for step in range(1, 40)]
    for step in range(1, 40):
        for other in made:
            if other is not made[step - 1]:
                assert (x + step).number != other.number
            assert (x + other).number != (x + step).number


def test_an_open_comparison_goes_both_ways_and_narrows():
    seen = []
    forks = Forks()
    begin(forks)
    while forks.next():
        x = intervals.variable("x", 0.0, 10.0)
        less = x < 4.0
        seen.append((less, x.low, x.high))
    assert seen == [(True, 0.0, 4.0), (False, 4.0, 10.0)]


def test_slopes_across_a_jump_have_no_end():
    (found,) = ways(
        lambda x, y: arith.where(arith.below(x, 1.0), 5.0, 0.0), {"x": (0.0, 2.0), "y": (0.0, 0.0)}
    )
    assert found.slopes["x"] == (-math.inf, 0.0)
    (found,) = ways(lambda x, y: arith.floor(x), {"x": (0.5, 1.5), "y": (0.0, 0.0)})
    assert found.slopes["x"] == (0.0, math.inf)


def test_too_many_open_comparisons_stop():
    forks = Forks(most=8)
    begin(forks)
    with pytest.raises(TooManyWays):
        while forks.next():
            x = [intervals.variable(f"x{i}", 0.0, 1.0) for i in range(5)]
            _ = [one < 0.5 for one in x]
    assert set(forks.blame) == {f"x{i}" for i in range(5)}


def test_what_needs_a_float_is_refused():
    begin(Forks())
    x = intervals.variable("x", 0.0, 1.0)
    for use in (math.sqrt, float, int, range):
        with pytest.raises(NotProvable):
            use(x)


def test_a_marked_function_needs_its_ends_only():
    @arith.rising
    def searched(x):
        assert isinstance(x, float)
        return x**3 + x

    (found,) = ways(lambda x, y: searched(x), {"x": (1.0, 2.0), "y": (0.0, 1.0)})
    assert (found.low, found.high) == (2.0, 10.0)
    assert found.slopes["x"][0] == 0.0


def test_nothing_of_intervals_is_kept():
    calls = []

    @arith.cache
    def kept(x):
        calls.append(x)
        return x * 2.0

    assert kept(3.0) == kept(3.0) == 6.0
    assert len(calls) == 1
    for _ in range(2):
        ways(lambda x, y: kept(x), {"x": (1.0, 2.0), "y": (0.0, 1.0)})
    assert len(calls) == 3


def test_arithmetic_is_back_after_a_proof_that_failed():
    with pytest.raises(RuntimeError), arith.using(functions.FUNCTIONS):
        assert arith.sqrt is functions.sqrt
        raise RuntimeError
    assert arith.sqrt is math.sqrt


def test_what_is_divided_by_next_to_nothing_still_rises_and_falls_as_it_does():
    """x / y for x from 1 to 2 and y down to 0: it has no greatest, and yet slopes of one sign."""
    begin(Forks(1))
    x, y = intervals.variable("x", 1.0, 2.0), intervals.variable("y", 0.0, 4.0)
    over = x / y
    assert (over.low, over.high) == (0.25, math.inf)
    assert over.slopes["x"] == (0.25, math.inf)
    assert over.slopes["y"][1] < 0.0
    assert (x / (0.0 - y)).slopes["x"] == (-math.inf, -0.25)


def test_what_only_words_hang_on_is_followed_one_way_alone():
    forks = Forks(2)
    begin(forks)
    assert forks.next()
    with arith.using(functions.FUNCTIONS):
        x = intervals.variable("x", -1.0, 1.0)
        assert arith.perhaps(arith.below(0.0, x))
        assert not arith.perhaps(arith.below(2.0, x))
    assert not forks.next()
