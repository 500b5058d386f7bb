"""What is proved over a box is so, and what isn't so is shown by a point."""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings

from calc import arith, model, search, worksheets
from calc.search import enclosing
from calc.search.forks import Forks
from calc.search.parts import Part
from calc.search.proof import Proof
from calc.search.question import SHARE
from calc.search.standing import BEYOND, Standing, numbers, prove
from tests.search.test_intervals import boxes, formulas, three

KEY = ("output", "only")


def proof_of(formula, ranges, choices=None, effort=3000.0):
    """A proof about one number of a formula."""

    def run(values, check):
        made = formula(**{**values, **{name: values[name] for name in choices or {}}})
        return {} if made is None else {KEY: made}

    def at(values, key):
        return run(values, None).get(key)

    return Proof(run, at, {}, ranges, choices or {}, effort)


@pytest.mark.parametrize(
    ("formula", "least"),
    [
        (lambda x, y: x * y - x, -4.0),  # both inputs of mixed sign
        (lambda x, y: (x - 1.0) ** 2 + y**2, 0.0),  # inside the box, at no corner
        (lambda x, y: arith.max(x, y) if x > y - 1.0 else 5.0, -1.0),
        (lambda x, y: arith.sin(4.0 * x) + y, -2.0),
        (lambda x, y: 3.0 if x < -0.9 and y < -0.9 else 7.0, 3.0),  # a hundredth of the box
    ],
)
def test_least_is_the_true_least(formula, least):
    found = proof_of(formula, {"x": (-1.0, 2.0), "y": (-1.0, 1.5)}).least(
        KEY, (math.inf, -math.inf), 3000.0
    )
    assert found.settled
    assert found.value == pytest.approx(least, abs=0.02)
    assert found.value >= least - 1e-9


def test_a_goal_just_below_the_least_is_proved_and_one_just_above_is_contradicted():
    ranges = {"x": (0.0, 2.0), "y": (0.0, 3.0)}

    def formula(x, y):  # least -1, at x = 1
        return x**2 - 2.0 * x + arith.sqrt(y)

    below = proof_of(formula, ranges).at_least(KEY, -1.0001, 3000.0)
    above = proof_of(formula, ranges).at_least(KEY, -0.9999, 3000.0)
    assert (below.settled, below.failed) == (True, False)
    assert (above.settled, above.failed) == (True, True)
    assert formula(above.point["x"], above.point["y"]) < -0.9999


def test_a_number_that_is_not_made_everywhere_is_not_proved_everywhere():
    formula = lambda x: 5.0 if x < 9.9 else None  # noqa: E731
    anywhere = proof_of(formula, {"x": (0.0, 10.0)}).at_least(KEY, 4.0, 3000.0)
    everywhere = proof_of(formula, {"x": (0.0, 10.0)}).at_least(KEY, 4.0, 3000.0, everywhere=True)
    assert (anywhere.settled, anywhere.failed) == (True, False)
    assert everywhere.failed
    assert everywhere.point["x"] >= 9.9


def test_a_refusal_within_the_box_leaves_no_slopes():
    """Where some inputs are refused, two points may lie on either side of the gap."""

    def gapped(x):
        if 1.0 < x < 2.0:
            raise ValueError("Not between 1 and 2.")
        return {KEY: x * 2.0}

    found = enclosing.enclosed(lambda values: gapped(**values), {}, {"x": (0.0, 3.0)}, Forks())
    assert found[KEY].slopes is None
    assert (found[KEY].low, found[KEY].high) == (0.0, 6.0)


def test_what_refuses_all_inputs_is_refused():
    def refuses(x):
        raise ValueError("Never.")

    with pytest.raises(ValueError, match="Never"):
        enclosing.enclosed(lambda values: refuses(**values), {}, {"x": (0.0, 3.0)}, Forks())


def test_every_choice_is_gone_through():
    choices = {"kind": ("a", "b", "c")}
    formula = lambda x, kind: x - (5.0 if kind == "c" else 0.0)  # noqa: E731
    found = proof_of(formula, {"x": (1.0, 2.0)}, choices).least(KEY, (math.inf, -math.inf), 900.0)
    assert found.value == -4.0
    assert found.point["kind"] == "c"


def test_a_choice_that_is_not_read_costs_nothing():
    """Of a thousand combinations a number that hangs on one choice takes that one's options."""
    choices = {f"choice_{place}": tuple("abcdefghij") for place in range(3)}

    def run(values, check):
        return {KEY: values["x"] + (1.0 if values["choice_1"] == "j" else 2.0)}

    proof = Proof(run, lambda v, _: run(v, None)[KEY], {}, {"x": (0.0, 1.0)}, choices, 60.0)
    found = proof.least(KEY, (math.inf, -math.inf), 60.0)
    assert (found.settled, found.value, found.point["choice_1"]) == (True, 1.0, "j")
    assert proof.combinations == 1000


def test_every_option_that_is_read_is_proved():
    """A number that only one of a thousand combinations breaks is not said to hold."""
    choices = {f"choice_{place}": tuple("abcdefghij") for place in range(3)}

    def run(values, check):
        bad = all(values[name] == "j" for name in choices)
        return {KEY: values["x"] - (9.0 if bad else 0.0)}

    proof = Proof(run, lambda v, _: run(v, None)[KEY], {}, {"x": (1.0, 2.0)}, choices, 3000.0)
    found = proof.at_least(KEY, 0.0, 3000.0)
    assert found.failed
    assert {found.point[name] for name in choices} == {"j"}


def test_what_has_no_interval_is_left_open():
    found = proof_of(lambda x: math.sqrt(x), {"x": (1.0, 2.0)}).at_least(KEY, 0.0, 900.0)
    assert not found.settled


def test_effort_ends():
    busy = lambda x, y: arith.sin(50.0 * x * y) * arith.cos(31.0 * x) + x - y  # noqa: E731
    proof = proof_of(busy, {"x": (0.0, 9.0), "y": (0.0, 9.0)}, effort=30.0)
    assert not proof.at_least(KEY, -9.9, 30.0).settled
    assert proof.effort < 30.0


@settings(max_examples=150, deadline=None)
@given(formula=formulas, box=boxes, shares=three)
def test_no_point_contradicts_what_is_proved(formula, box, shares):
    def safe(x, y):
        return arith.number(formula(x, y))

    proof = proof_of(safe, box, effort=300.0)
    point = {
        name: low + share * (high - low)
        for (name, (low, high)), share in zip(box.items(), shares, strict=False)
    }
    try:
        low = proof.least(KEY, (math.inf, -math.inf), 150.0)
        high = proof.least(KEY, (math.inf, -math.inf), 150.0, sign=-1)
        value = safe(**point)
    except (ValueError, ZeroDivisionError, OverflowError):
        return
    if low.settled and high.settled and low.value is not None and math.isfinite(value):
        room = 2.0 * SHARE * (high.value - low.value) + 1e-7 * max(1.0, abs(value))
        assert low.value - room <= value <= high.value + room


# --- the enclosures of every worksheet ----------------------------------------------------------


def enclosed(standing, part):
    forks = Forks()
    return enclosing.enclosed(
        lambda values: standing._run(values, None), part.given, part.ranges, forks
    )


def picked(proof, place):
    """The whole box, with the first or the last option of each choice."""
    whole = proof._whole
    for name in proof.choices:
        whole = whole.picked(name)[place]
    return whole


def around(sheet, rng):
    """A small random box of a worksheet: its example, some of it unknown or rough."""
    typed = {}
    for item in sheet.fields:
        if isinstance(item, model.Field) and rng.random() < 0.4:
            typed[item.name] = ""
    try:
        return search.read_box(sheet, typed, example=True)
    except search.BadInputs:
        return None


@pytest.mark.parametrize("name", worksheets.names())
def test_enclosures_hold_what_random_points_give(name):
    """Numbers and secants of random points of random sub-boxes lie in what intervals gave."""
    sheet, rng = worksheets.load(name), random.Random(7)
    tried = ranged = 0
    for _ in range(8):
        box = around(sheet, rng)
        if box is None or not box.dimensions:
            continue
        standing = Standing(search.Search(sheet, box))
        for whole in (picked(standing.proof, 0), picked(standing.proof, -1)):
            ranged += bool(whole.ranges)
            ranges = {}
            for key, (low, high) in whole.ranges.items():
                ends = sorted(rng.uniform(low, high) for _ in range(2))
                ranges[key] = tuple(ends) if rng.random() < 0.7 else (low, high)
            part = Part(whole.given, ranges, whole.picks)
            try:
                found = enclosed(standing, part)
            except search.NotProvable:
                continue
            tried += 1
            for _ in range(6):
                check_point(sheet, part, found, rng)
    assert tried or not ranged or name in FORKS_TOO_MUCH


FORKS_TOO_MUCH = {"drive"}  # halves inside its sums


def told(found, key):
    """Whether a number is enclosed on every way that makes its check, as `made_with` asks it.

    What is beyond a limit is left out on ways on which the margin is far from it.
    """
    if key[0] not in BEYOND:
        return True
    return key in found and found[key].ways == found["margin", key[1]].ways


def check_point(sheet, part, found, rng):
    silent = model.Work(on=False)

    def at(values):
        return numbers(sheet.compute(model.Inputs({**part.given, **values}), silent))

    point = {
        name: rng.choice((low, high)) if rng.random() < 0.3 else rng.uniform(low, high)
        for name, (low, high) in part.ranges.items()
    }
    made = at(point)
    for key, value in made.items():
        if not told(found, key):
            continue
        one = found[key]
        room = 1e-9 * max(1.0, abs(value))
        assert one.low - room <= value <= one.high + room, (key, value, one)
    for key, one in found.items():
        assert key in made or not one.always, key
    if not part.ranges:
        return
    moved = rng.choice(list(part.ranges))
    low, high = part.ranges[moved]
    other = {**point, moved: rng.uniform(low, high)}
    gap = other[moved] - point[moved]
    if not gap:
        return
    for key, value in at(other).items():
        if not told(found, key):
            continue
        slopes = found[key].slopes
        if slopes is not None and key in made and math.isfinite(value):
            secant = (value - made[key]) / gap
            least, greatest = slopes.get(moved, (0.0, 0.0))
            room = 1e-6 * max(abs(secant), 1e-9) + 1e-12 * max(1.0, abs(value)) / abs(gap)
            assert least - room <= secant <= greatest + room, (key, moved)


# --- what an answer says of itself --------------------------------------------------------------


def toy(compute, *names):
    fields = tuple(
        model.Field(
            name,
            "count",
            "-100",
            "100",
            label=name.title(),
            help="Count.",
            example="1",
            typical=model.Typical(0.0, 10.0, "hitch/DERIVED"),
        )
        for name in names
    )
    return model.Worksheet(
        "toy", "Toy", "Toy?", fields, compute, lambda v, o, s: model.Advice(), lambda v, o: None
    )


def limited(value, most):
    check = model.at_most("only", "Only", value, most, "count", "hitch/DERIVED")
    return model.Outcome([check], [model.Output("out", "Out", value, "count")])


@pytest.mark.parametrize(
    ("a", "finding", "standing"),
    [
        ("1 to 4", "within", "proved"),
        ("1 to 9.5", "close", "proved"),
        ("1 to 11", "unknown", "shown"),
        ("11 to 12", "over", "proved"),
    ],
)
def test_standing_of_what_can_be_proved(a, finding, standing):
    answer = search.answer(toy(lambda v, w: limited(v.a, 10.0), "a"), {"a": a})
    assert (answer.finding, answer.standing) == (finding, standing)
    assert answer.verdicts[0].standing == standing
    assert not answer.verdicts[0].about
    assert not answer.outputs[0].about


def test_standing_of_what_can_only_be_searched():
    answer = search.answer(toy(lambda v, w: limited(math.sqrt(v.a), 10.0), "a"), {"a": "1 to 4"})
    assert (answer.finding, answer.standing) == ("within", "sampled")
    assert answer.verdicts[0].about
    assert answer.outputs[0].about


def where_made(v, w):
    """A value that is over wherever its check is made, and a corner where it isn't."""
    checks = [model.at_most("only", "Only", v.a, 10.0, "count", "hitch/DERIVED")]
    return model.Outcome(checks if not (v.b > 9.9 and v.c < 0.1) else [])


def test_a_corner_without_the_check_is_found():
    """No slope of the value points to where the check isn't made: 1 in 10,000 of the box."""
    given = {"a": "11 to 12", "b": "0 to 10", "c": "0 to 10"}
    answer = search.answer(toy(where_made, "a", "b", "c"), given)
    assert (answer.finding, answer.standing) == ("unknown", "shown")


@pytest.mark.parametrize("limit", [1.63, 2.9])
def test_what_the_middle_does_not_make_is_proved(limit):
    """One check is made at one end of a range only: no point meets it before it is proved."""

    def compute(v, w):
        first = model.at_most("first", "First", v.a, 20.0, "count", "hitch/DERIVED")
        curved = 0.5 * v.b * (1.0 - v.b / 10.0)  # at most 1.25
        second = model.at_most("second", "Second", curved, limit, "count", "hitch/DERIVED")
        return model.Outcome([first, second] if v.a > 9.0 else [first])

    answer = search.answer(toy(compute, "a", "b"), {"a": "0 to 10", "b": "0 to 10"})
    second = next(v for v in answer.verdicts if v.check.name == "second")
    assert (second.finding, second.standing) == ("within", "proved")


def test_a_check_of_another_question_that_differs_leaves_an_answer_proved():
    """What was asked for is met by every machine; what was not asked differs."""

    def compute(v, w):
        asked = model.at_most("asked", "Asked", v.a, 10.0, "count", "hitch/DERIVED")
        other = model.at_most("other", "Other", v.b, 5.0, "count", "hitch/DERIVED")
        return model.Outcome([asked, other])

    sheet = toy(compute, "a", "b")
    sheet = replace(sheet, asks=(replace(sheet.ask(""), checks=("asked",)),))
    answer = search.answer(sheet, {"a": "1 to 4", "b": "0 to 10"})
    assert (answer.finding, answer.standing) == ("within", "proved")


def test_a_break_too_narrow_for_points_is_found():
    """A window of a thousandth of the range: 48 points and the ends miss it, halving doesn't."""
    sheet = toy(lambda v, w: limited(10.5 - 1e4 * abs(v.a - 3.3333), 10.0), "a")
    answer = search.answer(sheet, {"a": "0 to 10"})
    assert (answer.finding, answer.standing) == ("unknown", "shown")
    assert -0.05 <= answer.verdicts[0].margin_low < 0.0


def test_a_check_that_no_point_met_is_found():
    def compute(v, work):
        outcome = limited(v.a, 100.0)
        if 3.3332 < v.a < 3.3334:
            outcome.checks.append(model.at_most("rare", "Rare", 2.0, 1.0, "count", "hitch/DERIVED"))
        return outcome

    answer = search.answer(toy(compute, "a"), {"a": "0 to 10"})
    assert answer.finding == "unknown"
    assert answer.deciding.check.name == "rare"


def test_the_same_inputs_have_the_same_answer():
    sheet = worksheets.load("closing")
    typed = dict.fromkeys(list(sheet.examples())[:4], "")
    one, other = (search.answer(sheet, typed, example=True) for _ in range(2))
    assert (one.verdicts, one.outputs, one.searched) == (
        other.verdicts,
        other.outputs,
        other.searched,
    )


def test_a_run_for_one_check_ends_when_it_is_made():
    seen = []

    def compute(v, work):
        seen.append("before")
        first = model.at_most("only", "Only", v.a, 10.0, "count", "hitch/DERIVED")
        seen.append("after")
        return model.Outcome([first])

    check = model.run_for("only", lambda: compute(model.Inputs({"a": 4.0}), None))
    assert (check.margin, seen) == (0.6, ["before"])
    assert model.run_for("other", lambda: compute(model.Inputs({"a": 4.0}), None)) is None


def test_prove_leaves_an_exact_box_alone():
    seen = search.Search(
        worksheets.load("closing"),
        search.read_box(worksheets.load("closing"), {}, example=True),
    )
    assert prove(seen).proof.runs == 0
