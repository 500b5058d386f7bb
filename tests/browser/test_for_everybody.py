"""For eyes, ears and hands of every kind: colors, what is said aloud, what stands still."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.talk import ANSWERED, field, given, settle, until

SCHEME = "document.body.dataset.mdColorScheme"
SIZES = ((1300, 900), (390, 844))
# How far a page may jump by itself to be good, https://web.dev/articles/cls (2024): 0.1 at most.
# These pages stand stiller than that.
JUMP = 0.05
JUMPS = """
window.jumps = [];
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) if (!entry.hadRecentInput) window.jumps.push(entry.value);
}).observe({ type: "layout-shift", buffered: true });
"""
LOUD = """
window.said = [];
new MutationObserver(() => {
  const text = document.querySelector(".ys-status").textContent;
  if (text) window.said.push(text);
}).observe(document.querySelector(".ys-status"), {
  childList: true, characterData: true, subtree: true,
});
"""


@pytest.fixture
def dark(browser: Browser) -> Iterator[Page]:
    """A page of a device that is set to dark."""
    context = browser.new_context(color_scheme="dark", service_workers="block")
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("path", ["pairing/", "", "embed/pairing/"])
def test_dark_follows_the_device(dark: Page, address: str, path: str) -> None:
    dark.goto(address + path)
    until(dark, f"{SCHEME} === 'slate'")
    dark.emulate_media(color_scheme="light")
    until(dark, f"{SCHEME} === 'default'")
    dark.reload()
    until(dark, f"{SCHEME} === 'default'")
    dark.emulate_media(color_scheme="dark")
    dark.reload()
    until(dark, f"{SCHEME} === 'slate'")


def test_what_the_reader_chose_stays(dark: Page, address: str) -> None:
    dark.goto(f"{address}pairing/")
    dark.get_by_title("Switch to dark").click()
    dark.get_by_title("Switch to light").click()
    until(dark, f"{SCHEME} === 'default'")
    dark.reload()
    until(dark, f"{SCHEME} === 'default'")
    dark.goto(f"{address}about/testing/")
    until(dark, f"{SCHEME} === 'default'")
    dark.get_by_title("Follow the device").click()
    until(dark, f"{SCHEME} === 'slate'")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_forced_colors_reach_the_picture(pairing: Page, scheme: str) -> None:
    pairing.emulate_media(color_scheme=scheme, forced_colors="active")  # type: ignore[arg-type]
    colors = pairing.evaluate(
        """() => {
            const probe = document.body.appendChild(document.createElement("p"));
            const named = (color) => {
                probe.style.color = color;
                return getComputedStyle(probe).color;
            };
            const [ink, paper, link] = ["CanvasText", "Canvas", "LinkText"].map(named);
            const found = { ink, paper, link };
            probe.remove();
            const of = (part, what) => [...document.querySelectorAll(`.ys-picture ${part}`)]
                .map((each) => getComputedStyle(each)[what]);
            return { ...found, lines: of(".ys-line", "stroke"), texts: of(".ys-text", "fill") };
        }"""
    )
    pairing.emulate_media(color_scheme="light", forced_colors="none")
    assert colors["ink"] != colors["paper"]
    assert colors["lines"] and colors["texts"]
    assert set(colors["lines"]) <= {colors["ink"], colors["link"]}
    assert set(colors["texts"]) <= {colors["ink"], colors["link"]}


def test_the_verdict_is_said_once_and_in_sentences(pairing: Page) -> None:
    pairing.evaluate(LOUD)
    for width in ("48 in to 60 in", "72 in"):
        pairing.evaluate("window.said.length = 0")
        field(pairing, "working_width").fill(width)
        settle(pairing)
        said = pairing.evaluate("window.said")
        assert len(said) == 1, said
        word = pairing.locator(".ys-finding-word").inner_text().strip()
        lead = pairing.locator(".ys-lead").evaluate(
            "(e) => { const c = e.cloneNode(true);"
            " c.querySelectorAll('sup').forEach((s) => s.remove());"
            " return c.textContent.replace(/\\s+/g, ' ').trim(); }"
        )
        assert said[0].startswith(f"{word}. {lead}"), said


@pytest.mark.parametrize("role", ["tractor", "implement"])
def test_escape_in_saving_returns_to_its_button(pairing: Page, role: str) -> None:
    button = pairing.get_by_role("button", name=f"Save this {role}")
    button.focus()
    pairing.keyboard.press("Enter")
    pairing.keyboard.type("a name")
    pairing.keyboard.press("Escape")
    expect(button).to_be_focused()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    "path",
    ["pairing/", "", "messages/", "machines/", "lift/lift-and-ballast/", "embed/pairing/"],
)
def test_a_page_stands_still(
    browser: Browser, address: str, path: str, size: tuple[int, int]
) -> None:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, service_workers="block"
    )
    page = context.new_page()
    page.add_init_script(JUMPS)
    page.goto(address + path)
    page.wait_for_load_state("networkidle")
    # A framed calculator starts Python only when it is touched.
    if page.locator(".ys").count() and "embed" not in path:
        page.wait_for_selector(".ys[data-engine=ready]", state="attached")
    assert sum(page.evaluate("window.jumps")) <= JUMP
    context.close()


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("ballast", "lift/lift-and-ballast/"),
        ("pto power", "buy/pto-power/"),
        ("driveline", "fit/driveline/"),
        ("duals", "tires/duals/"),
        ("dual", "tires/duals/"),
        ("hitch", "fit/hitch-categories/"),
        ("railroad crossing", "road/rail-crossing/"),
        ("wire", "road/lamp-wiring/"),
        ("cab", "fit/cab-cooling/"),
        ("post hole", "fit/post-hole-digger/"),
        ("aerator", "lawn/lawn-implements/"),
        ("offline", "about/offline/"),
    ],
)
def test_the_search_leads_with_the_page_that_answers(
    page: Page, address: str, words: str, first: str
) -> None:
    page.goto(f"{address}pairing/")
    page.keyboard.press("/")
    page.keyboard.type(words)
    link = page.locator(".md-search-result__item > a").first
    expect(link).to_be_visible()
    until(page, f"document.querySelector('.md-search-result__item > a').href.includes('{first}')")


def test_the_first_page_is_not_named_twice(page: Page, address: str) -> None:
    page.goto(address)
    assert page.title().count("Yardstick") == 1


def test_the_links_of_an_answer_are_reached(page: Page, address: str) -> None:
    """Headings lead from the title to the verdict, and from there to what would help."""
    page.goto(f"{address}pairing/#{given()}")
    page.wait_for_selector(ANSWERED)
    levels = page.locator("article :is(h1, h2, h3)").evaluate_all(
        "(all) => all.filter((each) => each.checkVisibility())"
        ".map((each) => Number(each.nodeName[1]))"
    )
    assert levels[:2] == [1, 2]
    assert all(after <= before + 1 for before, after in pairwise(levels))
