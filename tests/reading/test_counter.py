"""Questions as they are asked at a counter: each leads to its page, its ask and its numbers."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from calc import reading, search, worksheets
from calc.model import sentences
from calc.quantities import Reading

DATA = Path(__file__).parents[1] / "data" / "counter_questions.csv"
with DATA.open(encoding="utf-8", newline="") as lines:
    ROWS = list(csv.DictReader(lines))
# What a sentence says that has no number to say yet.
WITHOUT_NUMBER = re.compile(
    r"^(Say|Read|Only if|Most likely|Look along|A wrong lead|It depends)|\?$"
)


def read(row):
    """The first question of a message."""
    return reading.read(row["message"]).questions[0]


@pytest.mark.parametrize("row", ROWS, ids=[row["message"] for row in ROWS])
def test_a_question_is_read_with_its_numbers(row):
    question = read(row)
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
    question = read(row)
    sheet = worksheets.load(question.worksheet)
    answer = search.answer(sheet, question.inputs, ask=question.ask)
    lead = sentences.lead(answer, "us")
    assert len(lead) <= sentences.LONGEST_LEAD
    assert re.search(r"\d", lead) or answer.finding != "unknown" or WITHOUT_NUMBER.search(lead), (
        lead
    )
