"""The number named first settles the answer more often than another would."""

from dataclasses import replace

import pytest

from calc import model, search, worksheets


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


def with_choice(compute):
    """The toy of numbers, and a choice of whether a check applies that nobody made."""
    sheet = toy(compute, "a", "b")
    options = (model.Option("yes", "Yes"), model.Option("no", "No"))
    choice = model.Choice("pipes", options, label="Pipes", unsure=("yes", "no"))
    return replace(sheet, fields=(*sheet.fields, choice))


def test_a_choice_that_does_away_with_an_open_check_is_first():
    # Two depths over the pipes, each open by itself: neither settles both. No pipes, no check.
    def compute(v, w):
        checks = [most("deep", v.a, 5.0), most("deeper", v.b, 5.0)]
        return model.Outcome(checks if v.pipes == "yes" else [])

    assert named(with_choice(compute))[0] == "pipes"


def test_what_is_broken_only_where_it_applies_is_not_settled():
    # A depth above 2 is too deep for pipes, and right where there are none.
    def compute(v, w):
        return model.Outcome([most("deep", v.a + v.b / 10, 2.0)] if v.pipes == "yes" else [])

    assert named(with_choice(compute))[0] == "pipes"


def test_a_number_by_which_others_narrow_is_put_in_with_what_follows():
    # Who says a knows b nearly: what is usual of b hangs on it. Alone, neither sways enough.
    def usual(known):
        if known.get("a") is None:
            return model.Typical(0.0, 10.0, "hitch/DERIVED")
        return model.Typical(known["a"].low, known["a"].high + 0.5, "hitch/DERIVED")

    sheet = toy(lambda v, w: model.Outcome([most("sum", v.a + 1.1 * v.b, 10.0)]), "a", "b")
    told = replace(sheet.fields[1], typical=usual)
    assert named(sheet)[0] == "b"
    assert named(replace(sheet, fields=(sheet.fields[0], told)))[0] == "a"


def test_every_open_check_counts_not_the_first_few():
    # A d above 5 breaks three checks, a smaller one meets these and leaves the fourth open: half
    # of its values settle. A c above 3 breaks the fourth: seven tenths do.
    def compute(v, w):
        checks = [most(name, v.d - 4.0, 1.0) for name in ("one", "two", "three")]
        return model.Outcome([*checks, most("four", v.c, 3.0)])

    assert named(toy(compute, "c", "d"))[0] == "c"


def test_what_is_met_with_a_choice_made_one_way_only_is_not_settled():
    def compute(v, w):
        limit = 9.0 if v.pipes == "yes" else 4.0
        return model.Outcome([most("deep", v.a / 100 + v.b, limit)])

    assert named(with_choice(compute))[0] == "b"


def test_a_number_for_want_of_which_nothing_was_checked_is_asked_for() -> None:
    found = search.answer(
        worksheets.load("pairing"),
        {
            "tractor_kind": "utility",
            "pto_power": "60 hp",
            "implement_kind": "trailer",
            "implement_mass": "900 lb",
            "tractor_mass": "6000 lb",
        },
    )
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "load_carried"
