"""Ranges and unknowns: what holds for everything the inputs may be."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search


def field(name, low="0", high="100", **more):
    return model.Field(
        name,
        "count",
        low,
        high,
        label=name.title(),
        help="Count them.",
        example="1",
        typical=model.Typical(0.0, 10.0, "hitch/DERIVED"),
        **more,
    )


def sheet(compute, *fields, advise=None):
    return model.Worksheet(
        "toy",
        "Toy",
        "Toy?",
        fields,
        compute,
        advise or (lambda v, o, s: model.Advice()),
        lambda v, o: None,
    )


def limit(value, most=10.0):
    return model.Outcome([model.at_most("only", "Only", value, most, "count", "hitch/DERIVED")])


@pytest.mark.parametrize(
    ("typed", "finding"),
    [
        ("5", "within"),
        ("9.5", "close"),
        ("11", "over"),
        ("5 to 8", "within"),
        ("5 to 9.5", "close"),
        ("5 to 11", "unknown"),
        ("11 to 12", "over"),
        ("", "close"),
    ],
)
def test_findings(typed, finding):
    toy = sheet(lambda v, w: limit(v.a), field("a"))
    assert search.answer(toy, {"a": typed}, example=True).finding == finding


def test_worst_inside_the_corners_is_not_needed_for_monotone_checks():
    """x y with signs: the corner walk finds both extremes of an interaction."""
    toy = sheet(lambda v, w: limit((v.a - 5) * (v.b - 5), 24.0), field("a"), field("b"))
    answer = search.answer(toy, {"a": "", "b": ""}, example=True)
    assert answer.verdicts[0].value_high == pytest.approx(25.0)
    assert answer.verdicts[0].value_low == pytest.approx(-25.0)
    assert answer.finding == "unknown"


def test_settle_names_the_input_that_narrows_most_and_from_where():
    toy = sheet(lambda v, w: limit(v.a + 0.1 * v.b, 5.0), field("a"), field("b"))
    answer = search.answer(toy, {"a": "", "b": ""}, example=True)
    assert answer.settle is not None
    assert answer.settle.field.name == "a"
    assert answer.settle.low is None
    assert answer.settle.high == pytest.approx(4.0, abs=1e-5)


def test_choice_that_is_not_sure_must_hold_for_each():
    choice = model.Choice(
        "c",
        (model.Option("small", "Small"), model.Option("big", "Big")),
        label="C",
        help="Look.",
        example="small",
        unsure=("small", "big"),
    )
    toy = sheet(lambda v, w: limit(5.0 if v.c == "small" else 20.0), choice)
    assert search.answer(toy, {"c": "small"}, example=True).finding == "within"
    assert search.answer(toy, {"c": "big"}, example=True).finding == "over"
    assert search.answer(toy, {"c": ""}, example=True).finding == "unknown"


def test_first_pass_says_that_more_is_to_come():
    toy = sheet(lambda v, w: limit(v.a), field("a"))
    assert not search.answer(toy, {"a": "1 to 20"}, full=False, example=True).final
    assert search.answer(toy, {"a": "2"}, full=False, example=True).final
    assert search.answer(toy, {"a": "1 to 20"}, example=True).final


def test_limits_and_names_are_refused_with_a_sentence_each():
    toy = sheet(lambda v, w: limit(v.a), field("a", low="1"), field("b"))
    with pytest.raises(search.BadInputs) as caught:
        search.answer(toy, {"a": "-3", "b": "200", "zzz": "1"}, example=True)
    errors = caught.value.errors
    assert "must be more than zero" in errors["a"]
    assert "must lie between 0 and 100" in errors["b"]
    assert "has no field called" in errors["zzz"]


def test_solver_finds_edges():
    toy = sheet(lambda v, w: limit(v.a**2 + v.b, 30.0), field("a"), field("b"))
    solver = search.Solver(toy, model.Inputs({"a": 9.0, "b": 5.0}))
    assert solver.largest("a", 0.0, 9.0) == pytest.approx(5.0, abs=1e-5)
    assert solver.smallest("b", 0.0, 9.0) is None
    assert solver.largest("a", 6.0, 9.0) is None
    assert solver.largest("a", 0.0, 9.0, b=lambda a: 0.0) == pytest.approx(math.sqrt(30), abs=1e-5)


@given(st.integers(min_value=1, max_value=20))
def test_sample_fills_the_cube(dimensions):
    points = search.evenly(dimensions, 64)
    assert all(0 <= x < 1 for point in points for x in point)
    for axis in range(dimensions):
        values = sorted(point[axis] for point in points)
        gaps = [b - a for a, b in itertools.pairwise(values)]
        assert max(gaps) < 0.1
    assert points == search.evenly(dimensions, 64)


weights = st.lists(st.floats(-3, 3), min_size=4, max_size=4)
shares = st.lists(st.floats(0, 1), min_size=4, max_size=4)


@settings(max_examples=60)
@given(weights, weights, st.floats(-20, 20), st.lists(shares, min_size=5, max_size=5))
def test_never_claims_what_a_point_of_the_box_denies(linear, cross, most, points):
    """Sums of terms linear in each input: the finding holds at points picked by the test."""

    def compute(v, work):
        x = (v.a, v.b, v.c, v.d)
        value = sum(w * xi for w, xi in zip(linear, x, strict=True))
        value += sum(w * x[i] * x[(i + 1) % 4] / 10 for i, w in enumerate(cross))
        return limit(value, most or 1.0)

    toy = sheet(compute, *(field(name) for name in "abcd"))
    answer = search.answer(toy, dict.fromkeys("abcd", ""), example=True)
    for point in points:
        at = model.Inputs({name: 10 * share for name, share in zip("abcd", point, strict=True)})
        margin = compute(at, None).checks[0].margin
        if answer.finding in ("within", "close"):
            assert margin >= -1e-9
        if answer.finding == "over":
            assert margin <= 1e-9


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("10", -10, -10), ("-10", -10, -10), ("5 to 10", -10, -5), ("-10 to -5", -10, -5)],
)
def test_what_is_only_below_nothing_needs_no_minus(text, low, high):
    """A downgrade is said as "10 %", and a field that takes downgrades alone knows what it is."""
    read = field("a", low="-25", high="0").read(text)
    assert (read.low, read.high) == (low, high)
