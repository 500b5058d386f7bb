"""What holds for every page: complete without a script, no other origin, fit for all."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from scripts import _node
from tests.browser.conftest import LIVE, SAVES_DATA
from tests.browser.talk import ANSWERED, field, finding, settle, until

CHECKER = _node.NPM / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
JAVA = shutil.which("java") or ""
AXE = _node.NPM / "node_modules" / "axe-core" / "axe.min.js"
PHONE: ViewportSize = {"width": 360, "height": 740}
DESK: ViewportSize = {"width": 1280, "height": 720}
FITS_A_PHONE = "document.documentElement.scrollWidth <= 360"
LOADS = re.compile(
    r"""<(?:script|link|img|iframe|source|audio|video|embed|object)\b[^>]*?"""
    r"""(?:src|href|data)=["']?((?:https?:)?//[^"'\s>]+)""",
    re.I,
)


def _pages(site: Path) -> list[str]:
    """The addresses of the site's pages, relative to its top."""
    found = [
        path.parent.relative_to(site).as_posix() + "/"
        for path in sorted(site.rglob("index.html"))
        if "assets" not in path.parts
    ]
    return ["" if name == "./" else name for name in found]


def test_no_page_loads_anything_from_another_origin(site: Path, offline: Path) -> None:
    loads = {
        (path.name, url)
        for folder in (site, offline)
        for path in folder.rglob("*.html")
        for url in LOADS.findall(path.read_text(encoding="utf-8"))
        if "canonical" not in url
    }
    assert loads == set()
    for sheet in site.rglob("*.css"):
        assert not re.search(r"url\(\s*[\"']?(?:https?:)?//", sheet.read_text(encoding="utf-8"))


def test_our_pages_bring_no_inline_handlers(site: Path) -> None:
    for path in site.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"<[^>]+\son[a-z]+=", text), path


def test_every_page_asks_its_own_site_alone_and_fits_a_phone(
    page: Page, context: BrowserContext, address: str, site: Path
) -> None:
    origins: set[str] = set()
    context.on("request", lambda request: origins.add(urlsplit(request.url).netloc))
    page.goto(f"{address}pairing/#working_width=48+in")
    page.wait_for_selector(ANSWERED)
    page.keyboard.press("/")
    page.keyboard.type("lift")
    page.wait_for_selector(".md-search-result__item")
    page.add_init_script(SAVES_DATA)
    page.set_viewport_size(PHONE)
    wide = []
    for name in _pages(site):
        page.goto(address + name)
        if not page.evaluate(FITS_A_PHONE):
            page.wait_for_timeout(1000)  # the page may still be putting its tables in place
            if not page.evaluate(FITS_A_PHONE):
                wide.append(name)
    assert wide == []
    assert origins - {""} == {urlsplit(address).netloc}


def test_the_search_reads_its_index_when_it_is_opened(page: Page, address: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    assert not any("search_index" in url for url in asked)
    page.keyboard.press("/")
    page.keyboard.type("coupler")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    assert any("search_index" in url for url in asked)


def test_without_javascript_every_worksheet_shows_its_whole_answer(
    browser: Browser, address: str, site: Path
) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=PHONE)
    page = context.new_page()
    shown = 0
    for name in _pages(site):
        page.goto(address + name)
        assert page.evaluate(FITS_A_PHONE), name
        # Without a script there is nothing that could be tried or started.
        assert not page.locator("a.ys-try:visible, .ys .ys-button:visible").count(), name
        for section in page.locator("section.ys").all():
            shown += 1
            assert section.locator(".ys-finding").is_visible(), name
            assert section.locator(".ys-form").is_visible(), name
    assert shown > 0
    context.close()


# Everything opened, nothing that fades from one color to the next, and of a long table the rows
# that stand for the others.
AT_REST = """
document.querySelectorAll('details').forEach((each) => each.open = true);
document.querySelectorAll('tbody > tr:nth-child(n + 20)').forEach((each) => each.remove());
const still = document.createElement('style');
still.textContent = '* { transition: none !important; }';
document.head.append(still);
"""
VIOLATIONS = """
(rules) => axe.run(document, { resultTypes: ["violations"], ...rules }).then((result) =>
  result.violations.map((each) => each.id + ": " +
    each.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | ")))
"""
COLORS = {"runOnly": ["color-contrast", "link-in-text-block"]}


def test_axe_finds_nothing(browser: Browser, address: str, site: Path) -> None:
    """No rule is broken on any page, best practices included, with all that is folded opened.

    In the dark only the colors are others; there they are looked at as a phone shows them.
    """
    context = browser.new_context(bypass_csp=True, service_workers="block")
    context.add_init_script(SAVES_DATA)
    page = context.new_page()
    found: dict[str, list[str]] = {}
    for name in [*_pages(site), "404.html"]:
        page.emulate_media(color_scheme="light")
        page.set_viewport_size(DESK)
        page.goto(address + name)
        page.evaluate(AT_REST)
        page.add_script_tag(path=AXE)
        violations = page.evaluate(VIOLATIONS, {})
        page.emulate_media(color_scheme="dark")
        page.set_viewport_size(PHONE)
        until(page, "document.body.dataset.mdColorScheme === 'slate'")
        violations += page.evaluate(VIOLATIONS, COLORS)
        if violations:
            found[name] = violations
    assert found == {}
    context.close()


# What the theme writes into every page: its switches and the labels that work them.
OF_THE_THEME = (
    "Bad value “” for attribute “tabindex” on element “label”",
    "Attribute “autocomplete” is only allowed when the input type is",
)


def _html_errors(place: Path) -> list[str]:
    """What the Nu checker says of the pages in a folder, but for what the theme writes."""
    checker = [JAVA, "-jar", str(CHECKER), "--errors-only", "--skip-non-html", "--format", "gnu"]
    done = subprocess.run([*checker, str(place)], capture_output=True, text=True)
    lines = [line for line in done.stderr.splitlines() if line.strip()]
    return [line for line in lines if not any(known in line for known in OF_THE_THEME)]


needs_java = pytest.mark.skipif(JAVA == "", reason="There is no java to run the HTML checker.")


@needs_java
def test_html_is_valid(site: Path) -> None:
    assert _html_errors(site) == []


@needs_java
def test_the_checker_sees_what_is_wrong(tmp_path: Path) -> None:
    page = "<!doctype html><html lang=en><title>a</title><p><div>b</div></p><h1>c</h1><h3>d</h3>"
    (tmp_path / "page.html").write_text(page, encoding="utf-8")
    errors = "\n".join(_html_errors(tmp_path))
    assert "p" in errors and "skipping" in errors


def test_the_finding_is_carried_by_a_word_and_a_shape(pairing: Page) -> None:
    word = pairing.locator(".ys-finding-word")
    expect(word).to_contain_text("Over a limit")
    expect(word.locator("svg.ys-mark")).to_be_visible()


def test_the_whole_flow_with_the_keyboard_alone(page: Page, address: str) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(".ys[data-live]", state="attached")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # the link that skips to the calculator
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.name") == "working_width":
            break
    else:
        pytest.fail("Tab never reached the working width.")
    page.keyboard.press("Control+a")
    page.keyboard.type("48 in")
    page.wait_for_selector(LIVE, state="attached")
    settle(page)
    assert finding(page) == "unknown"
    reached = set()
    for _ in range(40):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.textContent.trim().slice(0, 40)"))
        if "Copy link" in reached:
            break
    assert any(re.match(r"\d+ more", text) for text in reached)
    assert "Copy link" in reached


def test_focus_is_seen(pairing: Page) -> None:
    field(pairing, "working_width").focus()
    pairing.keyboard.press("Tab")
    style = "getComputedStyle(document.activeElement)"
    assert pairing.evaluate(f"parseFloat({style}.outlineWidth)") >= 2
    assert pairing.evaluate(f"{style}.outlineStyle") != "none"


def test_a_wrong_address_has_a_way_back(page: Page, address: str) -> None:
    page.goto(f"{address}404.html")
    page.locator("main").get_by_role("link", name="front page").click()
    expect(page).to_have_url(address)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
