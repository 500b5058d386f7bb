"""Questions of the counter, typed on a phone into the first page's box: the first hit answers."""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from calc import worksheets
from tests.browser import talk
from tests.browser.conftest import PATIENCE

DATA = Path(__file__).parents[1] / "data" / "counter_questions.csv"
with DATA.open(encoding="utf-8", newline="") as lines:
    ROWS = list(csv.DictReader(lines))
# Every second one: all of them are read natively, in tests/reading.
TYPED = ROWS[::2] + ROWS[1::6]
PHONE = {"width": 390, "height": 844}
BOX = "document.querySelector('#ys-find') && !document.querySelector('#ys-find').hidden"
READ = "document.querySelector('#ys-found')?.dataset.read === 'true'"
FINAL = ".ys-answer[data-final=true]:not([data-stale])"
LEAD = f"document.querySelector('{FINAL} .ys-lead')"
SECTION = "document.querySelector('section.ys').dataset.worksheet"


@pytest.fixture(scope="module")
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """A phone on the first page."""
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(address)
    yield page
    context.close()


def spoken(page: Page) -> str:
    """The leading sentence without the marks of its notes."""
    text: str = page.evaluate(
        f"(() => {{ const lead = {LEAD}.cloneNode(true);"
        " lead.querySelectorAll('sup').forEach((mark) => mark.remove());"
        " return lead.textContent.replace(/\\s+/g, ' ').trim(); })()"
    )
    return text


@pytest.mark.parametrize("row", TYPED, ids=[row["message"] for row in TYPED])
def test_the_first_hit_answers(phone: Page, row: dict[str, str]) -> None:
    phone.evaluate("document.querySelector('a.md-logo').click()")
    talk.until(phone, BOX)
    phone.locator("#ys-find-text").fill(row["message"])
    talk.until(phone, READ)
    phone.locator("#ys-found a").first.click()
    talk.until(phone, f"!document.querySelector('#ys-find') && {LEAD}")
    assert phone.evaluate(SECTION) == row["worksheet"]
    assert f"ask={row['ask']}" in phone.url or row["ask"] == first_ask(row["worksheet"])
    given = {name: text for name, text in talk.inputs(phone).items() if text}
    wanted = json.loads(talk.native(given, row["worksheet"], ask=row["ask"]))
    talk.until(phone, f"{LEAD}.textContent.includes({json.dumps(wanted['lead'][:40])})")
    assert spoken(phone) == wanted["lead"]


def first_ask(worksheet: str) -> str:
    """The question that a page leads with by itself."""

    return worksheets.load(worksheet).asks[0].key


def test_enough_of_them_are_typed() -> None:
    assert len(TYPED) >= 28
    assert len({row["worksheet"] for row in ROWS}) >= 15
