"""What a customer sends back, in and under our own words, is read without loss and without more."""

import textwrap

import pytest

from calc import model, reading, search, tables, worksheets
from calc.quantities import Reading
from calc.render.asking_back import ask_back, wanted
from calc.render.reply import reply

ASKS = sorted({(row["worksheet"], row["ask"]) for row in tables.rows("words/questions")})


def same(item, one, other):
    """Whether a field reads the same of two texts."""
    a, b = item.read(one), item.read(other)
    if isinstance(a, Reading):
        return (a.low, a.high) == pytest.approx((b.low, b.high))
    return a == b


def value(sheet, item):
    """What a customer may say of a field, as he sees it and as the field takes it."""
    if isinstance(item, model.Choice):
        return item.options[0].label, item.options[0].value
    return (sheet.examples()[item.name],) * 2


def wrapped(text, width=68):
    """A text as a mail program quotes it."""
    lines = [part for line in text.split("\n") for part in textwrap.wrap(line, width) or [""]]
    return "\n".join(f"> {line}" for line in lines)


def others(question, given):
    """What a question takes that nobody gave."""
    sheet = worksheets.load(question.worksheet)
    return {
        name: text
        for name, text in question.inputs.items()
        if name not in given or not same(sheet.field(name), given[name], text)
    }


@pytest.mark.parametrize(("worksheet", "ask"), ASKS[::4])
def test_values_in_and_under_the_lines_of_an_ask_back(worksheet, ask):
    sheet = worksheets.load(worksheet)
    answer = search.answer(sheet, {}, ask=ask)
    items = [item for item in wanted(answer) if value(sheet, item)[0]]
    asking = ask_back(answer)
    shown = {item.name: value(sheet, item)[0] for item in items}
    given = {item.name: value(sheet, item)[1] for item in items}
    lines = [f"- {item.label.rstrip('?')}: {shown[item.name]}" for item in items]
    written = "\n".join([f"> {answer.ask.question}", *(f"> {line}" for line in lines)])
    under = [f"> {line}" for line in asking.split("\n")]
    for item in items:
        label = item.label.rstrip("?")
        place = next(i for i, line in enumerate(under) if line.startswith(f"> - {label}:"))
        under.insert(place + 1, shown[item.name])
    for text in (written, "\n".join(under)):
        questions = reading.read(text).questions
        if items and questions[0].worksheet == worksheet:  # two ask it in the same words
            assert others(questions[0], given) == {}
            assert set(questions[0].inputs) == set(given)
    for question in reading.read(wrapped(asking)).questions:
        assert others(question, {}) == {}


@pytest.mark.parametrize(("worksheet", "ask"), ASKS[1::6])
@pytest.mark.parametrize("quoted", [True, False])
def test_nothing_that_a_reply_says_by_itself_is_the_customers(worksheet, ask, quoted):
    sheet = worksheets.load(worksheet)
    answer = search.answer(sheet, {}, ask=ask)
    text = f"{answer.ask.question}\n{reply(answer)}"
    above = "Thanks, here it is.\n\nOn Monday you wrote:\n"
    message = above + (wrapped(text) if quoted else text)
    for question in reading.read(message).questions:
        assert others(question, {}) == {}


def test_each_of_two_questions_has_its_own_values():
    power = worksheets.load("pairing").field("pto_power").help
    run = worksheets.load("lamp-wiring").field("run").help
    text = (
        "My tractor weighs 2100 lb.\n\nYou wrote:\n"
        "> Can this tractor run this implement?\n"
        "> Can't tell yet: it takes 12 to 40 hp.\n"
        "> Take care: Wear the belt.\n> Could you tell me:\n"
        f"> - PTO power: {power}\n21 hp\n\n"
        "> What wire and fuse do these lamps need?\n"
        "> Can't tell yet: 14 to 20 gauge.\n"
        "> Take care: Put the fuse at the battery.\n> Could you tell me:\n"
        f"> - Length of the wire, one way: {run}\n18 ft\n"
    )
    first, wire = reading.read(text).questions
    assert (first.worksheet, first.inputs) == (
        "pairing",
        {"tractor_mass": "2100 lb", "pto_power": "21 hp"},
    )
    assert (wire.worksheet, wire.inputs) == ("lamp-wiring", {"run": "18 ft"})


def test_what_a_customer_says_to_take_care_of_stays():
    (question,) = reading.read("Take it easy. 30 pto hp, 6 ft tiller, will it run").questions
    assert question.inputs["pto_power"] == "30 hp"
