"""The number named first settles the answer more often than another would."""

import pytest

from calc import model, search


def toy(compute, *names):
    """A worksheet of inputs that run from 0 to 10 when they aren't known."""
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


def most(name, value, limit, **more):
    return model.at_most(name, name.title(), value, limit, "count", "hitch/DERIVED", **more)


def named(sheet):
    answer = search.answer(sheet, {})
    assert answer.finding == model.UNKNOWN
    return [settle.field.name for settle in answer.settles]


def test_of_one_check_the_number_that_sways_it_most_is_first():
    sheet = toy(lambda v, w: model.Outcome([most("sum", v.a / 4 + 2 * v.b, 12.0)]), "a", "b")
    assert named(sheet)[0] == "b"


def test_a_number_of_another_open_check_is_first_where_it_alone_can_settle():
    # Neither a nor c settles the sum: each leaves it open or leaves b. A b above 8 is over.
    def compute(v, w):
        return model.Outcome([most("sum", v.a + v.c, 11.9), most("alone", v.b, 8.0)])

    assert named(toy(compute, "a", "b", "c"))[0] == "b"


def test_what_only_an_advice_hangs_on_is_not_named():
    def compute(v, w):
        checks = [most("hard", v.a, 5.0), most("mild", v.b, 5.0, grade=model.ADVICE)]
        return model.Outcome(checks)

    assert named(toy(compute, "a", "b")) == ["a"]


@pytest.mark.parametrize(("typed", "low", "high"), [("0 to 10", None, 5.0)])
def test_from_where_it_is_met_is_said(typed, low, high):
    sheet = toy(lambda v, w: model.Outcome([most("only", v.a, 5.0)]), "a")
    (settle,) = search.answer(sheet, {"a": typed}).settles
    assert settle.low is low
    assert settle.high == pytest.approx(high, rel=0.01)
