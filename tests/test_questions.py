"""Each question leads to a filled-in page that answers."""

import re
from functools import cache
from pathlib import Path

import pytest

from calc import links, model, search, tables, worksheets
from calc.model import leading
from calc.render.index import GROUP_WORDS, index_block, numbers_of, question_link
from calc.render.reply import reply
from calc.render.text_message import plain, short

ROOT = Path(__file__).parents[1]
ROWS = tables.rows("words/questions")


LONGEST_LEAD = 200  # characters: about what is said in one breath
IN_WORDS = {"1": "an acre", "2": "two", "4": "four"}


@cache
def answered(question):
    """The answer that a question of the index opens."""
    [row] = [row for row in ROWS if row["question"] == question]
    said, example = numbers_of(row)
    sheet = worksheets.load(row["worksheet"])
    return search.answer(sheet, said, example=example, ask=row["ask"])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["question"])
def test_question_opens_a_page_that_answers(row):
    sheet = worksheets.load(row["worksheet"])
    page = row["page"] or sheet.page
    assert (ROOT / "docs" / f"{page}.md").is_file()
    assert set(links.read(question_link(sheet, row)).inputs) <= set(sheet.examples())
    assert answered(row["question"]).finding
    assert row["group"] in GROUP_WORDS
    assert row["question"].endswith("?")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["question"])
def test_a_question_gives_only_what_its_words_say(row):
    """All other numbers are an example's, and go with the first that a reader gives."""
    sheet = worksheets.load(row["worksheet"])
    said, example = numbers_of(row)
    for name, text in said.items():
        if not isinstance(sheet.field(name), model.Field):
            continue
        number = re.match(r"-?[$]?([\d,./-]+)", text).group(1).replace(",", "")
        words = row["question"].replace(",", "")
        assert number in words or IN_WORDS[number] in words, (name, text)
    link = links.read(question_link(sheet, row))
    given = {name: text for name, text in link.inputs.items() if name not in link.examples}
    assert (given, link.example) == (said, example is True)
    if link.examples:
        assert {name: link.inputs[name] for name in link.examples} == example


def test_no_question_twice():
    assert len({row["question"] for row in ROWS}) == len(ROWS)


def test_every_ask_has_a_question():
    asks = {(name, ask.key) for name in worksheets.names() for ask in worksheets.load(name).asks}
    assert {(row["worksheet"], row["ask"]) for row in ROWS} == asks


def test_index_holds_them_all():
    html = index_block(lambda page: f"{page}/")
    assert html.count("<li>") == len(ROWS)
    assert html.count("<details") == len({row["group"] for row in ROWS})


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["question"])
def test_the_answer_leads_with_what_was_asked(row):
    """The ask's own sentence stands first in the answer, the reply and the short text."""
    sheet = worksheets.load(row["worksheet"])
    assert row["ask"] in {item.key for item in sheet.asks}
    answer = answered(row["question"])
    lead = leading.lead(answer, "us")
    assert lead and not answer.missing and len(lead) <= LONGEST_LEAD
    assert reply(answer).split("\n")[0] == lead
    assert short(answer).startswith(plain(lead)[:60])
    # A number answers, unless what was asked is whether something fits, or which one.
    decides = answer.deciding
    assert re.search(r"\d", lead) or decides is None or decides.check.sense == "fits"
