"""Questions as they are asked at a counter: each leads to its page, its ask and its numbers."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from calc import reading, search, worksheets
from calc.model import leading
from calc.quantities import Reading
from tests.reading.questions import first

DATA = Path(__file__).parents[1] / "data" / "counter_questions.csv"
with DATA.open(encoding="utf-8", newline="") as lines:
    ROWS = list(csv.DictReader(lines))
# What a sentence says that has no number to say yet.
WITHOUT_NUMBER = re.compile(
    r"^(Say|Read|Only if|Most likely|Look along|A wrong lead|It depends)|\?$"
)


@pytest.mark.parametrize("row", ROWS, ids=[row["message"] for row in ROWS])
def test_a_question_is_read_with_its_numbers(row):
    question = first(row["message"])
    assert (question.worksheet, question.ask) == (row["worksheet"], row["ask"])
    sheet = worksheets.load(question.worksheet)
    for part in filter(None, row["fields"].split("; ")):
        name, text = part.split("=", 1)
        given = sheet.field(name).read(question.inputs[name])
        wanted = sheet.field(name).read(text)
        if isinstance(wanted, Reading):
            assert (given.low, given.high) == pytest.approx((wanted.low, wanted.high))
        else:
            assert given == wanted


@pytest.mark.parametrize("row", ROWS, ids=[row["message"] for row in ROWS])
def test_its_first_sentence_answers_it(row):
    question = first(row["message"])
    sheet = worksheets.load(question.worksheet)
    answer = search.answer(sheet, question.inputs, ask=question.ask)
    lead = leading.lead(answer, "us")
    assert len(lead) <= leading.LONGEST_LEAD
    assert re.search(r"\d", lead) or answer.finding != "unknown" or WITHOUT_NUMBER.search(lead), (
        lead
    )


@pytest.mark.parametrize(
    "message",
    [
        "how strong a chain do I need to drag logs, 8000 lb",
        "pulling 2000 lb logs with a chain on my tractor, how strong a chain",
        "how big a chain to pull a stump with a 5000 lb tractor",
        "what grade chain to pull my 4000 lb tractor out when its stuck",
    ],
)
def test_a_log_chain_is_not_the_safety_chain_of_a_trailer(message):
    found = reading.read(message)
    assert all(question.ask != "chain" for question in found.questions)
    assert not any("2000 lb" in question.inputs.values() for question in found.questions)


@pytest.mark.parametrize(
    "message",
    ["what size safety chains for a 6000 lb trailer", "log trailer 6000 lb, which safety chain"],
)
def test_a_safety_chain_is_asked_for_by_the_load(message):
    question = first(message)
    assert (question.worksheet, question.ask) == ("road-towing", "chain")
    assert question.inputs["towed_mass"] == "6000 lb"
    assert "chain_rating" not in question.inputs


@pytest.mark.parametrize(
    ("message", "worksheet", "ask"),
    [
        ("wire size for two 27 watt led lights 15 feet away", "lamp-wiring", "wire"),
        ("should i repaint it before selling, parts 300 and 10 hours", "resale", "repair"),
        ("what would 35000 cost me a month over 84 months", "resale", "payments"),
        ("what does a month of sitting on the lot cost me", "resale", "month"),
        ("is 12 degrees too steep to pull a drag mat", "lawn", "slope"),
        ("what tire pressure so i don't leave tracks in the yard", "lawn", "pressure"),
        ("can i run LED bulbs with the old flasher can", "lamp-wiring", "flasher"),
        ("cars go 55 past a curve, can i pull out left", "closing", "pull"),
    ],
)
def test_what_is_asked_in_other_words(message, worksheet, ask):
    found = reading.read(message).questions
    assert [(question.worksheet, question.ask) for question in found] == [(worksheet, ask)]


def test_who_has_no_triangle_asks_about_it():
    question = first("can i drive on the road in Ohio without a triangle")
    assert (question.worksheet, question.ask) == ("road", "emblem")
    assert question.inputs["emblem"] == "no"
    assert "emblem" not in first("do i need the triangle in Ohio").inputs


def test_what_a_new_one_costs_is_for_what_is_asked():
    worth = first("what is a 10 year old tractor with 1200 hours worth if a new one is $30,000")
    assert worth.inputs["like_new_price"] == "$30,000"
    trade = first("they offer $9,000 on trade, the new one is $31,000, trade or sell it myself")
    assert trade.inputs["new_price"] == "$31,000"


def test_the_length_of_a_wagon_is_not_how_far_one_sees():
    message = "how far do i need to see to pull out with a 50 ft hay wagon"
    question = first(message)
    assert (question.worksheet, question.ask) == ("closing", "view")
    assert "entrance_sight" not in question.inputs
    seen = first("i see 500 ft each way, can i pull out with a hay wagon")
    assert seen.inputs["entrance_sight"] == "500 ft"


def test_a_number_without_a_unit_that_finds_no_field_is_shown():
    found = reading.read("should i repair it or sell it as it is, the body shop wants 800 for it")
    (question,) = found.questions
    assert not question.inputs
    shown = [*found.lost, *(span for each in question.unclear for span in each.spans)]
    assert "800" in [found.text[start:end] for start, end in shown]
