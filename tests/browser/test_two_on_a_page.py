"""Two calculators on one page: each has its own numbers, its own answer, and its own links."""

from __future__ import annotations

import re
from urllib.parse import parse_qsl
from urllib.request import urlopen

import pytest
from playwright.sync_api import Locator, Page, expect

from calc import links
from tests.browser.talk import until

FIRST, SECOND = "tires/rollout/", "fit/driveline/"
SECTION = re.compile(r'<section class="ys".*?</section>', re.DOTALL)


def _read(address: str) -> str:
    with urlopen(address) as response:
        return str(response.read().decode())


@pytest.fixture
def both(page: Page, address: str) -> Page:
    """The first one's page, with the second one's calculator below its own."""
    first, second = _read(address + FIRST), SECTION.search(_read(address + SECOND))
    own = SECTION.search(first)
    assert own and second
    joined = first[: own.end()] + second[0] + first[own.end() :]
    page.route(
        lambda url: url.split("#")[0] == address + FIRST,
        lambda route: route.fulfill(body=joined, content_type="text/html"),
    )
    page.goto(address + FIRST)
    return page


def _of(page: Page, name: str) -> Locator:
    return page.locator(f"section.ys[data-worksheet={name}]")


def _answered(page: Page, name: str) -> None:
    until(
        page,
        "(name) => document.querySelector(`section.ys[data-worksheet=${name}] "
        ".ys-answer[data-final=true]:not([data-stale])`)",
        name,
    )


def _type(page: Page, name: str, field: str, text: str) -> None:
    _of(page, name).locator(f".ys-form [name={field}]").fill(text)
    _answered(page, name)


def _value(page: Page, name: str, field: str) -> str:
    return _of(page, name).locator(f".ys-form [name={field}]").input_value()


def test_each_has_its_own_numbers_and_a_reload_forgets_neither(both: Page) -> None:
    _type(both, "rollout", "old_front_ten_turns", "76 ft")
    _type(both, "driveline", "raised_distance", "40 in")
    assert (
        _value(both, "rollout", "old_rear_ten_turns") == ""
    )  # the first of them ended the example
    until(both, "location.hash.includes('old_front_ten_turns')")
    assert "raised_distance" not in both.url
    both.reload()
    _answered(both, "rollout")
    _answered(both, "driveline")
    assert _value(both, "rollout", "old_front_ten_turns") == "76 ft"
    assert _value(both, "driveline", "raised_distance") == "40 in"


def test_their_links_cant_be_mistaken_for_each_other(both: Page, address: str) -> None:
    both.context.grant_permissions(["clipboard-read", "clipboard-write"])
    _type(both, "rollout", "old_front_ten_turns", "76 ft")
    _type(both, "driveline", "raised_distance", "40 in")
    copied = {}
    for name in ("rollout", "driveline"):
        tools = _of(both, name)
        tools.get_by_role("button", name="Copy link").click()
        expect(tools.get_by_role("button", name="Link copied")).to_be_visible()
        copied[name] = str(both.evaluate("navigator.clipboard.readText()"))
    first, second = (dict(parse_qsl(copied[n].split("#")[1])) for n in ("rollout", "driveline"))
    assert first["old_front_ten_turns"] == "76 ft" and "raised_distance" not in first
    assert second["raised_distance"] == "40 in" and "old_front_ten_turns" not in second
    assert links.read(copied["driveline"].split("#")[1]).sheet == "driveline"
    # A reader who comes afresh finds the numbers in the one that they are for.
    both.goto("about:blank")
    both.goto(copied["driveline"])
    _answered(both, "driveline")
    assert _value(both, "driveline", "raised_distance") == "40 in"
    assert _of(both, "rollout").get_attribute("data-example") is not None


def test_units_chosen_in_one_keep_what_was_typed_in_both(both: Page) -> None:
    _type(both, "rollout", "old_front_ten_turns", "76")
    _type(both, "driveline", "raised_distance", "40")
    _of(both, "driveline").get_by_role("button", name="Metric").click()
    _answered(both, "driveline")
    # What a bare number meant stands in it from now on.
    assert _value(both, "driveline", "raised_distance") == "40 in"
    both.reload()
    _answered(both, "rollout")
    _answered(both, "driveline")
    assert _value(both, "driveline", "raised_distance") == "40 in"
    assert _value(both, "rollout", "old_front_ten_turns") in ("76", "76 ft")
    given = _of(both, "rollout").locator(".ys-depth").text_content() or ""
    assert "76 ft" in given
