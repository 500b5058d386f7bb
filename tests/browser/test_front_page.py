"""The front page: the box that finds, the pictures, the folded index."""

from __future__ import annotations

from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.talk import ANSWERED, until

PHONE = {"width": 390, "height": 844}


def typed(page: Page, text: str) -> list[str]:
    """What the box finds before Python has read the text."""
    page.locator("#ys-find-text").fill(text)
    return page.locator("#ys-found > a").all_inner_texts()


def read(page: Page, text: str) -> None:
    """Type a text, and wait until Python has read it."""
    page.locator("#ys-find-text").fill(text)
    until(page, "document.querySelector('#ys-found')?.dataset.read === 'true'")


@pytest.fixture
def front(page: Page, address: str) -> Page:
    page.goto(address)
    page.wait_for_selector("#ys-find:not([hidden])")
    return page


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("12 ft wide", "too wide for the road"),
        ("does my triangle have to come off", "orange triangle"),
        ("front feels light with the loader full", "front"),
        ("48 in shaft how much overlap", "PTO"),
        ("brake", "stop"),
        ("air conditioning", "cab"),
        ("tiler on a subcompact", "tiller"),
        ("beet juice weight", "liquid"),
    ],
)
def test_found_at_once(front: Page, text: str, found: str) -> None:
    assert any(found in each for each in typed(front, text)[:3])


def test_links_carry_the_numbers(front: Page) -> None:
    read(front, "60 inch bush cutter on my 1650 lb tractor, 20 pto hp")
    first = front.locator("#ys-found > a").first
    assert "1650 lb" in first.inner_text()
    given = parse_qs(urlsplit(first.get_attribute("href") or "").fragment)
    assert given["v"] == ["2"]
    assert given["tractor_mass"] == ["1650 lb"] and given["working_width"] == ["60 in"]
    assert "wheelbase" not in given


def test_first_result_opens_by_the_keyboard(front: Page) -> None:
    read(front, "will a 60 in rotary cutter run on 20 pto hp")
    front.keyboard.press("Enter")
    front.wait_for_selector(ANSWERED)
    assert front.locator("[name=working_width]").input_value() == "60 in"


def test_a_machine_of_the_list_is_found(front: Page) -> None:
    assert any("Large compact, 50 hp" in each for each in typed(front, "large compact"))


def test_nothing_alike_is_said(front: Page) -> None:
    assert typed(front, "zzzz qqqq") == []
    assert "No question" in front.locator("#ys-find-said").inner_text()


def test_a_picture_shows_its_questions(front: Page) -> None:
    tiles = front.locator(".ys-subject")
    assert tiles.count() == 8
    tiles.filter(has_text="Tires and wheels").click()
    shown = front.locator("#ys-found > a").all_inner_texts()
    assert any("turf tires" in each for each in shown)
    assert front.url.endswith("/")


def test_without_a_script_the_index_is_there(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=PHONE)  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(address)
    assert not page.locator("#ys-find").is_visible()
    group = page.locator(".ys-questions-group").first
    group.locator("summary").click()
    assert group.locator("a").first.is_visible()
    assert page.locator(".ys-subject").first.is_visible()
    context.close()


def test_on_a_phone(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector("#ys-find:not([hidden])")
    box = page.locator("#ys-find-text").bounding_box()
    assert box and box["y"] + box["height"] < PHONE["height"] / 2 and box["height"] >= 48
    for link in page.locator(".ys-subject, .ys-questions summary").all():
        size = link.bounding_box()
        assert size and size["height"] >= 48
    read(page, "overlap of my pto shaft")
    for link in page.locator("#ys-found > a").all():
        size = link.bounding_box()
        assert size and size["height"] >= 48
    screens = page.evaluate("document.documentElement.scrollHeight") / PHONE["height"]
    assert screens <= 5
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= PHONE["width"]
    context.close()


def test_found_in_the_offline_copy(page: Page, offline) -> None:
    page.goto((offline / "index.html").as_uri())
    page.wait_for_selector("#ys-find:not([hidden])")
    assert any("triangle" in each for each in typed(page, "does my triangle have to come off"))
    first = page.locator("#ys-found > a").first
    assert ".html#" in (first.get_attribute("href") or "")
