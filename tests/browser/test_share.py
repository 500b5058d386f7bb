"""A page with one calculator takes of the library what that can reach, while it is enough."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser import talk
from tests.browser.conftest import LIVE
from tests.browser.hosted import hosted, substituting

SHARE, WHOLE = "library-pairing.gz", "library.gz"


@pytest.fixture
def asked(page: Page) -> list[str]:
    """The names of what is asked for, from a link on which no memory comes."""
    talk.without_memory(page)
    names: list[str] = []
    page.on("request", lambda request: names.append(request.url.rsplit("/", 1)[-1]))
    return names


def is_answered_as_natively(page: Page, worksheet: str) -> None:
    """The page's answer is the one that native Python gives."""
    page.wait_for_selector(f"{talk.ANSWERED}:not([data-stale])")
    wanted = json.loads(talk.native(talk.inputs(page), worksheet))
    expect(page.locator(".ys-answer")).to_contain_text(wanted["lead"])
    expect(page.locator(".ys-failed")).to_have_count(0)


@pytest.mark.parametrize("way", ["by a link", "by hand"])
def test_one_calculator_takes_its_share_alone(
    page: Page, address: str, asked: list[str], way: str
) -> None:
    if way == "by a link":
        page.goto(talk.link(address, working_width="48 in"))
    else:
        page.goto(f"{address}pairing/")
        page.wait_for_selector(LIVE, state="attached")
        talk.field(page, "working_width").fill("48 in")
        talk.settle(page)
    is_answered_as_natively(page, "pairing")
    assert SHARE in asked
    assert WHOLE not in asked


@pytest.mark.parametrize("fault", [b"damaged", b""])
def test_a_share_that_is_not_what_was_built_is_no_trouble(
    page: Page, site: Path, asked: list[str], fault: bytes
) -> None:
    with hosted(site, substituting(f"/{SHARE}", fault, 9)) as host:
        page.goto(talk.link(host.address, working_width="48 in"))
        is_answered_as_natively(page, "pairing")
        assert WHOLE in asked


def test_the_next_page_asks_about_another(page: Page, address: str, asked: list[str]) -> None:
    """Without a reload: this Python has only what the first page's calculator takes."""
    page.goto(talk.link(address, working_width="48 in"))
    is_answered_as_natively(page, "pairing")
    assert WHOLE not in asked
    page.evaluate("window.same = true")
    page.get_by_role("link", name="Post hole digger").first.click()
    page.wait_for_url("**/fit/post-hole-digger/")
    talk.field(page, "auger_diameter").fill("9 in")
    is_answered_as_natively(page, "digger")
    assert page.evaluate("window.same") is True
    assert WHOLE in asked


def test_the_front_page_takes_all(page: Page, address: str, asked: list[str]) -> None:
    page.goto(address)
    page.locator("#ys-find-text").fill("60 inch bush cutter on my 1650 lb tractor, 20 pto hp")
    talk.until(page, "document.querySelector('#ys-found')?.dataset.read === 'true'")
    assert WHOLE in asked
    assert not [name for name in asked if name.startswith("library-")]
