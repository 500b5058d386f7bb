"""An answer on paper: one sheet, with room to write and to sign, and its link as a code."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from calc import worksheets
from scripts import _node
from tests.browser.conftest import LIVE
from tests.browser.talk import field, settle

READER = _node.NPM / "node_modules" / "jsqr" / "dist" / "jsQR.js"
PAGES = sorted({worksheets.load(name).page for name in worksheets.names()})


def sheets(page: Page, paper: str) -> int:
    """How many pages the print takes; two are one sheet of paper."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format=paper)))


def on_paper(page: Page) -> None:
    """Show the page as it is printed."""
    page.emulate_media(media="print")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")


def decoded(page: Page) -> str | None:
    """What a camera reads off the code on the page."""
    # The site's headers allow no script of anybody else's in the page.
    page.evaluate(f"() => {{ {READER.read_text(encoding='utf-8')} }}")
    read: str | None = page.evaluate(
        """async () => {
            const picture = document.querySelector('.ys-code').cloneNode(true);
            const size = 900;
            picture.setAttribute('width', size);
            picture.setAttribute('height', size);
            const image = new Image();
            const text = new XMLSerializer().serializeToString(picture);
            image.src = `data:image/svg+xml,${encodeURIComponent(text)}`;
            await image.decode();
            const canvas = new OffscreenCanvas(size, size).getContext('2d');
            canvas.fillStyle = 'white';
            canvas.fillRect(0, 0, size, size);
            canvas.drawImage(image, 0, 0);
            return jsQR(canvas.getImageData(0, 0, size, size).data, size, size)?.data ?? null;
        }"""
    )
    return read


@pytest.mark.parametrize("where", PAGES)
def test_every_example_fits_one_sheet_of_paper(page: Page, address: str, where: str) -> None:
    page.goto(f"{address}{where}/")
    page.wait_for_selector(".ys[data-live]", state="attached")
    answers = page.locator(".ys[data-live]").count()
    for paper in ("Letter", "A4"):
        assert sheets(page, paper) <= 2 * answers


def test_the_pairing_takes_one_sheet(page: Page, address: str) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    assert (sheets(page, "Letter"), sheets(page, "A4")) <= (2, 2)


def test_an_example_says_on_paper_that_it_is_one(page: Page, address: str) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    on_paper(page)
    note = page.locator(".ys-example")
    expect(note).to_contain_text("An example")
    expect(note).to_be_visible()
    expect(note.locator(".ys-button")).to_be_hidden()


def test_everything_stands_on_the_paper(pairing: Page) -> None:
    field(pairing, "tractor_mass").fill("1,720 lb")
    settle(pairing)
    on_paper(pairing)
    expect(pairing.locator(".ys-example")).to_be_hidden()
    given = pairing.locator(".ys-print-inputs")
    expect(given).to_contain_text("1,720 lb")
    expect(given).to_contain_text("60 in rotary cutter, light duty")
    expect(given).to_contain_text("Rotary cutter, light duty")
    unknown = given.locator("div", has_text="Implement mass").locator(".ys-blank")
    expect(unknown).to_contain_text("usual ")
    assert "such as" not in given.inner_text()
    for part in (
        ".ys-finding",
        ".ys-picture >> nth=0",
        ".ys-working ol",
        ".ys-sources ol",
        ".ys-care",
        ".ys-blanks",
    ):
        expect(pairing.locator(part)).to_be_visible()
    for label in ("Measured by", "Date", "Machine's number"):
        expect(pairing.locator(".ys-blanks")).to_contain_text(label)
    for part in (".ys-form", ".ys-tools", ".md-header", ".ys-pick >> nth=0"):
        expect(pairing.locator(part)).to_be_hidden()
    pairing.evaluate("window.dispatchEvent(new Event('afterprint'))")
    pairing.emulate_media(media="screen")
    expect(pairing.locator(".ys-print")).to_have_count(0)
    expect(pairing.locator(".ys-working")).not_to_have_attribute("open", "")


def test_paper_shows_the_ink_of_a_dark_screen_as_black(page: Page, address: str) -> None:
    page.emulate_media(color_scheme="dark")
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    on_paper(page)
    colors = page.locator(".ys-finding").evaluate(
        "(box) => [getComputedStyle(box).color, getComputedStyle(document.body).backgroundColor]"
    )
    assert colors[0] == "rgb(0, 0, 0)" and colors[1] in ("rgb(255, 255, 255)", "rgba(0, 0, 0, 0)")


def test_a_camera_reads_the_link_off_the_paper(pairing: Page) -> None:
    pairing.get_by_role("button", name="Clear all fields").click()
    field(pairing, "working_width").fill("4 ft 6 in")
    field(pairing, "material").select_option("heavy")
    settle(pairing)
    on_paper(pairing)
    assert decoded(pairing) == pairing.url
    assert "working_width=4+ft+6+in" in pairing.url


def test_a_camera_reads_the_longest_link_that_is_drawn(page: Page, address: str) -> None:
    start = f"{address}pairing/#v=2&working_width="
    page.goto(start + "7" * (800 - len(start) - len("+in")) + "+in")
    page.wait_for_selector(".ys[data-live]", state="attached")
    on_paper(page)
    assert decoded(page) == page.url and len(page.url) == 800


def test_a_link_that_is_too_long_for_a_code_is_written_out(page: Page, address: str) -> None:
    page.goto(f"{address}pairing/#working_width={'7' * 800}")
    page.wait_for_selector(".ys[data-live]", state="attached")
    on_paper(page)
    expect(page.locator(".ys-code")).to_have_count(0)
    expect(page.locator(".ys-print-link")).to_contain_text("7777")
