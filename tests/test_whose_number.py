"""An example's value never takes part in an answer to given inputs, whatever was given."""

from dataclasses import replace

import pytest

from calc import model, quantities, search, worksheets
from calc.errors import InputError
from calc.model import sentences
from calc.render import data
from calc.render.answer import answer_html

FIELDS = [
    (name, item.name)
    for name in worksheets.names()
    for item in worksheets.load(name).fields
    if item.example
]


def without_examples(sheet):
    """The same worksheet with no example at all."""
    return replace(sheet, fields=tuple(replace(item, example="") for item in sheet.fields))


@pytest.mark.parametrize("name", worksheets.names())
def test_no_example_joins_what_was_given(name):
    """Each field alone, then every second one: the answer knows nothing of the examples."""
    sheet = worksheets.load(name)
    bare = without_examples(sheet)
    filled = {item.name: item.example for item in sheet.fields if item.example}
    names = list(filled)
    for given in [
        {},
        *({each: filled[each]} for each in names),
        {n: filled[n] for n in names[::2]},
    ]:
        answers = []
        for each in (sheet, bare):
            try:
                answers.append(search.answer(each, given, full=False))
            except search.BadInputs as bad:
                answers.append(bad.errors)
        one, other = answers
        if isinstance(one, dict):
            assert one == other
            continue
        assert not one.is_example and set(one.given) <= set(given)
        assert data.data(one) == data.data(other), given
        assert answer_html(one) == answer_html(other)


@pytest.mark.parametrize("name", worksheets.names())
def test_every_choice_can_be_left_open(name):
    for item in worksheets.load(name).fields:
        if isinstance(item, model.Choice):
            assert item.read("") is None and item.read("not sure") is None


@pytest.mark.parametrize(("name", "field"), FIELDS)
def test_a_value_that_shows_is_taken_back(name, field):
    """What stands in a field of the page, in either system, can be typed into it."""
    sheet = worksheets.load(name)
    item = sheet.field(field)
    for system in ("us", "metric"):
        item.read(item.example, system)


LB = 0.45359237  # [kg]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("up to 1500", 300, 1500),  # the field takes 300 to 20,000 lb
        ("no more than 1500 lb", 300, 1500),
        ("1500 lb max", 300, 1500),
        ("at least 1500 lb", 1500, 20_000),
        ("1500 lb or more", 1500, 20_000),
    ],
)
def test_of_one_end_the_other_is_the_limit_of_the_field(text, low, high):
    reading = worksheets.load("ballast").field("tractor_mass").read(text)
    assert (reading.low / LB, reading.high / LB) == pytest.approx((low, high))


def test_of_a_way_down_the_most_is_the_steepest():
    field = worksheets.load("road-towing").field("grade")
    for text in ("up to 12 %", "up to -12 %"):
        reading = field.read(text)
        assert (reading.low, reading.high) == pytest.approx((-0.12, 0))
    assert field.read("at least 12 %").high == pytest.approx(-0.12)


@pytest.mark.parametrize("text", ["up to 1000 to 2000 lb", "up to 30000 lb", "at least 100 lb"])
def test_one_end_that_is_none_or_lies_outside_is_refused(text):
    with pytest.raises(InputError):
        worksheets.load("ballast").field("tractor_mass").read(text)


def test_a_power_says_whose_it_is():
    sheet = worksheets.load("pto")
    pto, engine = sheet.field("pto_power"), sheet.field("engine_power")
    assert pto.read("25 PTO hp").low == pto.read("25 hp").low
    assert engine.read("35 engine horsepower").low == engine.read("35 hp").low
    for field, text in ((pto, "35 engine hp"), (engine, "25 PTO hp")):
        with pytest.raises(InputError, match="needed here"):
            field.read(text)


def test_what_was_given_stands_in_its_own_unit():
    sheet = worksheets.load("road-towing")
    given = {"towed_mass": "3 ton", "grade": "12 deg", "tractor_mass": "2600 lb"}
    answer = search.answer(sheet, given)
    said = {name: sentences.given_text(answer, name, "us") for name in given}
    assert said == {
        "towed_mass": "3 ton (6,000 lb)",
        "grade": "-12 deg (-21.3 %)",
        "tractor_mass": "2,600 lb",
    }


@pytest.mark.parametrize("system", quantities.SYSTEMS)
@pytest.mark.parametrize("name", worksheets.names())
def test_every_value_that_a_field_shows_is_taken_back(name, system):
    """Its limits, its example and what is usual of it, each as the page writes it."""
    sheet = worksheets.load(name)
    for item in sheet.fields:
        if not isinstance(item, model.Field):
            continue
        shown = [item.limits_text(system), *(item.example and [item.example])]
        ends = [quantities.base(end, item.kind) for end in (item.low, item.high)]
        typical = item.typical_for({})
        ends += [typical.low, typical.high] if typical else []
        unit = item.unit(system)
        shown += [quantities.show(end, item.kind, system, unit=unit) for end in ends]
        read = [item.read(text, system) for text in shown]
        assert all(read), (item.name, shown)
        for end, reading in zip(reversed(ends), reversed(read), strict=False):
            # Three figures, and whole degrees of heat.
            assert reading.middle == pytest.approx(end, rel=0.006, abs=1e-9), item.name


@pytest.mark.parametrize(("text", "taken"), [("4,540 kg", True), ("4,550 kg", False)])
def test_a_limit_reaches_as_far_as_it_is_shown(text, taken):
    """The limit is 10,000 lb, which is 4,536 kg; where it is said, 4,540 kg stands."""
    field = worksheets.load("ballast").field("front_axle_mass")
    assert field.limits_text("metric").endswith("4,540 kg")
    if taken:
        assert field.read(text, "metric").low == pytest.approx(4540)
    else:
        with pytest.raises(InputError, match="must lie between"):
            field.read(text, "metric")


@pytest.mark.parametrize(("text", "high"), [("90 min", 1.5), ("90 min.", 1.5), ("90 h min", 3000)])
def test_minutes_are_no_minimum(text, high):
    reading = worksheets.load("drive").field("hours_per_year").read(text)
    assert reading.high / 3600 == pytest.approx(high)


@pytest.mark.parametrize(
    ("typed", "shown"),
    [("7/8", "7/8 in"), ("1-1/8 in", "1-1/8 in"), ("0.875", "0.875 in"), ("about 7/8 in", "")],
)
def test_a_fraction_of_an_inch_is_said_as_it_was_typed(typed, shown):
    answer = search.answer(worksheets.load("hitch"), {"lower_pin": typed}, ask="category")
    said = sentences.given_text(answer, "lower_pin", "us")
    assert said == shown if shown else " to " in said
