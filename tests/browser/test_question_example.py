"""A question of the index opens with numbers of an example: nobody's, until somebody gives one."""

from __future__ import annotations

from urllib.parse import parse_qs, urlsplit

from playwright.sync_api import Page, expect

from calc import worksheets
from calc.render.index import numbers_of, question_link
from calc.tables import rows
from tests.browser import talk

QUESTION = "Is a 5 ft box blade too heavy for a subcompact?"
[ROW] = [row for row in rows("words/questions") if row["question"] == QUESTION]
SAID, EXAMPLE = numbers_of(ROW)
NOTE = ".ys-example p"


def opened(page: Page, address: str) -> None:
    """Open the question as the index does, and wait for its answer."""
    sheet = worksheets.load(ROW["worksheet"])
    page.goto(f"{address}{sheet.page}#{question_link(sheet, ROW)}")
    page.wait_for_selector(talk.ANSWERED)


def given(page: Page) -> list[str]:
    rows = "[...document.querySelectorAll('.ys-row.ys-given')]"
    names: list[str] = page.evaluate(f"{rows}.map((row) => row.querySelector('[name]').name)")
    return names


def test_its_numbers_are_an_examples_until_somebody_gives_one(page: Page, address: str) -> None:
    opened(page, address)
    assert isinstance(EXAMPLE, dict) and "tractor_mass" in EXAMPLE
    expect(page.locator(NOTE)).to_be_visible()
    expect(page.locator(NOTE)).to_contain_text("how the question is answered")
    assert sorted(given(page)) == sorted(SAID)
    assert talk.field(page, "tractor_mass").input_value() == EXAMPLE["tractor_mass"]
    page.reload()
    page.wait_for_selector(talk.ANSWERED)
    expect(page.locator(NOTE)).to_be_visible()
    assert sorted(given(page)) == sorted(SAID)
    talk.field(page, "implement_mass").fill("600 lb")
    expect(page.locator(NOTE)).to_be_hidden()
    assert sorted(given(page)) == sorted([*SAID, "implement_mass"])
    assert talk.field(page, "tractor_mass").input_value() == ""
    talk.until(page, "!location.hash.includes('example=')")
    link = parse_qs(urlsplit(page.url).fragment)
    assert "example" not in link and set(link) - {"v", "ask"} == {*SAID, "implement_mass"}


def test_one_may_start_with_what_the_question_says(page: Page, address: str) -> None:
    opened(page, address)
    page.get_by_role("button", name="Start with my numbers").click()
    assert sorted(given(page)) == sorted(SAID)
    page.get_by_role("button", name="Show the example").click()
    expect(page.locator(NOTE)).to_contain_text(worksheets.load(ROW["worksheet"]).example)
    assert not given(page)


def test_a_reply_says_that_it_is_an_example(page: Page, address: str) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    opened(page, address)
    page.get_by_role("button", name="Copy reply").click()
    talk.until(page, "document.querySelector('.ys-status').textContent.includes('opied')")
    text = page.evaluate("navigator.clipboard.readText()")
    assert "What you didn't give is an example, not your machine." in text
