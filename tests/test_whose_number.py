"""An example's value never takes part in an answer to given inputs, whatever was given."""

from dataclasses import replace

import pytest

from calc import model, search, worksheets
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
