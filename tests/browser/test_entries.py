"""The page of a shop's round-up: built answers that become live, one Python for all of them."""

from __future__ import annotations

import json
import re
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from calc.render import live
from tests.browser.talk import until
from tests.browser.test_shop import shop_address as shop_address

FIRST, SECOND = "section.ys-entry >> nth=0", "section.ys-entry >> nth=1"


@pytest.fixture
def entries(page: Page, shop_address: str) -> Page:
    page.goto(f"{shop_address}round-up/")
    page.wait_for_selector(".ys-entry .ys-reply-tools", state="attached")
    return page


def lead(page: Page, place: int) -> str:
    return page.locator(".ys-entry .ys-lead").nth(place).inner_text()


def said(worksheet: str, inputs: dict[str, str]) -> str:
    asked = {"worksheet": worksheet, "inputs": inputs, "units": "us", "stage": "full"}
    return str(json.loads(live.respond(json.dumps(asked)))["lead"])


def test_an_entry_answers_as_one_types(entries: Page) -> None:
    built = lead(entries, 1)
    entries.locator(SECOND).get_by_text("Try your own numbers").click()
    link = entries.locator(SECOND).locator(".ys-entry-page")
    given = {
        k: v[0] for k, v in parse_qs(urlsplit(link.get_attribute("href") or "").fragment).items()
    }
    entries.locator(SECOND).locator("[name=road_speed]").fill("8 mph")
    inputs = {**{k: v for k, v in given.items() if k != "v"}, "road_speed": "8 mph"}
    wanted = said("road-towing", inputs)
    assert wanted != built
    expect(entries.locator(".ys-entry .ys-lead").nth(1)).to_have_text(wanted)
    expect(link).to_have_attribute("href", re.compile(r"road_speed=8\+mph"))
    # The other question of the page stays as it was, and its link too.
    assert "road_speed" not in (
        entries.locator(FIRST).locator(".ys-entry-page").get_attribute("href") or ""
    )
    entries.locator(SECOND).get_by_role("button", name="As it was").click()
    expect(entries.locator(".ys-entry .ys-lead").nth(1)).to_have_text(built)
    assert entries.locator(SECOND).locator("[name=road_speed]").input_value() == "15 mph"


def test_python_starts_with_the_first_opening_and_once(page: Page, shop_address: str) -> None:
    workers: list[str] = []
    page.on("worker", lambda made: workers.append(made.url) if "/runtime/" in made.url else None)
    page.goto(f"{shop_address}round-up/")
    page.wait_for_selector(".ys-entry .ys-reply-tools", state="attached")
    page.wait_for_timeout(2500)
    assert workers == []
    for place in (FIRST, SECOND):
        page.locator(place).get_by_text("Try your own numbers").click()
        page.locator(place).locator("input").first.fill("2,000 lb")
        until(page, "document.querySelectorAll('.ys-entry-answer[data-final=true]').length > 0")
    until(page, "document.querySelectorAll('.ys-entry-answer[data-final=true]').length === 2")
    assert len(workers) == 1


def test_what_cannot_be_read_is_said_at_its_field(entries: Page) -> None:
    entries.locator(SECOND).get_by_text("Try your own numbers").click()
    speed = entries.locator(SECOND).locator("[name=road_speed]")
    speed.fill("fast")
    expect(entries.locator(SECOND).locator(".ys-stale")).to_contain_text("last numbers")
    assert speed.get_attribute("aria-invalid") == "true"
    speed.fill("9 mph")
    expect(entries.locator(SECOND).locator(".ys-stale")).to_be_hidden()
    assert speed.get_attribute("aria-invalid") is None


def test_what_was_typed_outlives_a_reload(entries: Page) -> None:
    entries.locator(SECOND).get_by_text("Try your own numbers").click()
    entries.locator(SECOND).locator("[name=road_speed]").fill("8 mph")
    expect(entries.locator(SECOND).locator(".ys-entry-page")).to_have_attribute(
        "href", re.compile(r"road_speed=8\+mph")
    )
    now = lead(entries, 1)
    entries.reload()
    expect(entries.locator(SECOND).locator("[name=road_speed]")).to_have_value("8 mph")
    expect(entries.locator(".ys-entry .ys-lead").nth(1)).to_have_text(now)


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_scrolls_sideways(entries: Page, width: int) -> None:
    entries.set_viewport_size({"width": width, "height": 800})
    for place in (FIRST, SECOND):
        entries.locator(place).get_by_text("Try your own numbers").click()
    over = entries.evaluate(
        "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    )
    assert over <= 0


def test_without_a_script_the_built_answers_stand(browser: Browser, shop_address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{shop_address}round-up/")
    assert page.locator(".ys-entry .ys-lead").count() == 2
    assert page.locator(".ys-entry-numbers").first.is_hidden()
    expect(page.locator(".ys-entry-for").first).to_be_visible()
    context.close()
