"""A number without a unit means what the form showed when it was typed, whoever reads it."""

from __future__ import annotations

from playwright.sync_api import BrowserContext, Page

from tests.browser.talk import ANSWERED, field, inputs, link, settle, until

CHOSE_METRIC = "localStorage.setItem('yardstick.units', 'metric')"


def lead(page: Page) -> str:
    """The leading sentence."""
    return page.locator(".ys-lead").inner_text()


def test_other_units_change_no_number_that_was_typed(page: Page, address: str) -> None:
    page.goto(link(address, working_width="48 in"))
    page.wait_for_selector(ANSWERED)
    field(page, "tractor_mass").fill("1700")
    field(page, "working_width").fill("50 to 54")
    settle(page)
    before = lead(page)
    assert inputs(page)["tractor_mass"] == "1700"  # what stands in a field stays as it was typed
    assert "tractor_mass=1700+lb" in page.url and "working_width=50+to+54+in" in page.url
    page.get_by_role("button", name="Metric").click()
    until(page, "/\\d kg/.test(document.querySelector('.ys-answer').textContent)")
    assert inputs(page)["tractor_mass"] == "1700 lb"
    page.get_by_role("button", name="US", exact=True).click()
    until(page, "/\\d lb/.test(document.querySelector('.ys-answer').textContent)")
    settle(page)
    assert lead(page) == before


def test_a_number_typed_in_metric_units_stays_one(page: Page, address: str) -> None:
    page.add_init_script(CHOSE_METRIC)
    page.goto(f"{address}pairing/")
    page.wait_for_selector(".ys[data-live]", state="attached")
    field(page, "tractor_mass").fill("900")
    until(page, "location.hash.includes('tractor_mass=900+kg')")
    page.get_by_role("button", name="US", exact=True).click()
    until(page, "document.querySelector('[name=tractor_mass]').value === '900 kg'")


def test_a_link_without_units_means_the_same_to_a_reader_of_others(
    page: Page, context: BrowserContext, address: str
) -> None:
    context.add_init_script(CHOSE_METRIC)
    page.goto(f"{address}pairing/#v=1&tractor_mass=1650&working_width=48+in")
    page.wait_for_selector(ANSWERED)
    assert inputs(page)["tractor_mass"] == "1650 lb"
    page.goto(f"{address}")
    page.goto(f"{address}pairing/#v=1&units=metric&tractor_mass=750")
    page.wait_for_selector(ANSWERED)
    assert inputs(page)["tractor_mass"] == "750"


def test_a_machine_is_saved_with_its_units(page: Page, address: str) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(".ys[data-live]", state="attached")
    field(page, "tractor_mass").fill("1650")
    page.get_by_role("button", name="Save this tractor").click()
    page.locator("[data-role=tractor] .ys-pick-save input").fill("The small one")
    page.locator("[data-role=tractor] .ys-pick-save .ys-button").first.click()
    until(page, "document.body.textContent.includes('“The small one” is saved')")
    assert inputs(page)["tractor_mass"] == "1650 lb"
