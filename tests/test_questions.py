"""Each question leads to a filled-in page that answers."""

from pathlib import Path

import pytest

from calc import links, search, tables, worksheets
from calc.render.index import GROUP_WORDS, index_block, question_link

ROOT = Path(__file__).parents[1]
ROWS = tables.rows("words/questions")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["question"])
def test_question_opens_a_page_that_answers(row):
    sheet = worksheets.load(row["worksheet"])
    page = row["page"] or sheet.page
    assert (ROOT / "docs" / f"{page}.md").is_file()
    link = links.read(question_link(sheet, row))
    assert set(link.inputs) <= set(sheet.examples())
    assert search.answer(sheet, link.inputs, example=link.example, ask=link.ask).finding
    assert row["group"] in GROUP_WORDS
    assert row["question"].endswith("?")


def test_no_question_twice():
    assert len({row["question"] for row in ROWS}) == len(ROWS)


def test_every_worksheet_has_a_question():
    assert {row["worksheet"] for row in ROWS} == set(worksheets.names())


def test_index_holds_them_all():
    html = index_block(lambda page: f"{page}/")
    assert html.count("<li>") == len(ROWS)
    assert html.count("<details") == len({row["group"] for row in ROWS})
