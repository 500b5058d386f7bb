"""What is chosen in a list is read whole, however narrow the screen."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from calc import worksheets
from tests.browser import talk
from tests.browser.conftest import PATIENCE

PHONE = {"width": 360, "height": 740}
# Of each list in sight: what is chosen, what is written over it, and how far that is cut off.
LISTS = """() => [...document.querySelectorAll(".ys-rows select")]
  .filter((list) => list.getClientRects().length)
  .map((list) => {
    const words = list.previousElementSibling;
    const [inner, outer] = [words.getBoundingClientRect(), list.getBoundingClientRect()];
    const cut = Math.max(words.scrollWidth - words.clientWidth, outer.top - inner.top,
      inner.bottom - outer.bottom, outer.left - inner.left, inner.right - outer.right);
    return [list.selectedOptions[0].label, words.textContent, cut];
  })"""
SAME = f"({LISTS})().every(([chosen, shown]) => chosen === shown)"


@pytest.mark.parametrize("name", ["pairing", "road", "lamp-wiring"])
def test_what_is_chosen_is_read_whole(browser: Browser, address: str, name: str) -> None:
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(f"{address}{worksheets.load(name).page}/")
    page.wait_for_selector(f"#ys-{name}[data-live]", state="attached")
    page.locator(".ys-more > summary").click()
    talk.until(page, SAME)
    found = page.evaluate(LISTS)
    assert len(found) >= 5
    assert max(cut for _, _, cut in found) <= 1
    before = [chosen for chosen, _, _ in found]
    page.get_by_role("button", name="Start with my numbers").click()
    talk.until(page, SAME)
    assert [chosen for chosen, _, _ in page.evaluate(LISTS)] != before
    context.close()


def test_another_question_and_another_choice_are_written(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(f"{address}pairing/")
    page.wait_for_selector("#ys-pairing[data-live]", state="attached")
    chooser = page.locator(".ys-ask-row select")
    chooser.select_option(index=2)
    label = chooser.evaluate("(list) => list.selectedOptions[0].label")
    expect(page.locator(".ys-ask-row .ys-chosen")).to_have_text(label)
    tractor = page.locator(".ys-pick[data-role=tractor] select")
    tractor.select_option(index=1)
    picked = tractor.evaluate("(list) => list.selectedOptions[0].label")
    expect(page.locator(".ys-pick[data-role=tractor] .ys-chosen")).to_have_text(picked)
    context.close()
