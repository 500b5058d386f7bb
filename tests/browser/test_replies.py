"""Replies to copy: rich text for mail, plain text beside it, short text for a message."""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import quote_plus

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.conftest import LIVE
from tests.browser.talk import ANSWERED, field, finding, inputs, native, settle, until
from tests.browser.test_machines import picker

COPIED = """async () => {
    const [item] = await navigator.clipboard.read();
    const forms = {};
    for (const type of item.types) forms[type] = await (await item.getType(type)).text();
    return forms;
}"""


@pytest.fixture
def visited(context: BrowserContext, page: Page, address: str) -> Page:
    """The pairing page, with leave to use the clipboard."""
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    return page


def test_a_reply_is_copied_rich_and_plain(visited: Page) -> None:
    field(visited, "tractor_mass").fill("1,720 lb")
    settle(visited)
    visited.get_by_role("button", name="Copy reply").click()
    expect(visited.get_by_role("button", name="Reply copied")).to_be_visible()
    forms = visited.evaluate(COPIED)
    wanted = json.loads(native(inputs(visited), stage="replies", link=visited.url))
    assert forms["text/plain"] == wanted["reply"]
    assert visited.url in wanted["reply"] and wanted["lead"] in wanted["reply"]
    assert "".join(forms["text/html"].split()) == "".join(wanted["reply_html"].split())


def test_a_reply_names_the_machines_that_the_form_describes(visited: Page) -> None:
    picker(visited, "tractor").select_option(label="Compact, 35 hp")
    visited.get_by_role("button", name="Copy reply").click()
    expect(visited.get_by_role("button", name="Reply copied")).to_be_visible()
    forms = visited.evaluate(COPIED)
    assert forms["text/plain"].split("\n")[1] == "Tractor: Compact, 35 hp."
    assert "Tractor: Compact, 35 hp." in forms["text/html"]


def test_a_reply_before_any_answer_was_computed(visited: Page) -> None:
    visited.get_by_role("button", name="Copy reply").click()
    expect(visited.get_by_role("button", name="Reply copied")).to_be_visible()
    assert visited.evaluate(COPIED)["text/plain"].endswith("/pairing/")


def test_a_reply_is_never_about_what_the_form_held_before(visited: Page) -> None:
    field(visited, "working_width").fill("46 in")
    settle(visited)
    field(visited, "working_width").fill("44 in")
    visited.get_by_role("button", name="Copy reply").click()
    expect(visited.get_by_role("button", name="Reply copied")).to_be_visible()
    copied = visited.evaluate(COPIED)["text/plain"]
    visited.wait_for_url("**working_width=44+in")
    assert copied == json.loads(native(inputs(visited), stage="replies", link=visited.url))["reply"]
    assert "working_width=44+in" in copied


def test_short_text_is_short_with_its_link(visited: Page) -> None:
    field(visited, "working_width").fill("66 in")
    settle(visited)
    visited.get_by_role("button", name="Copy short text").click()
    expect(visited.get_by_role("button", name="Short text copied")).to_be_visible()
    copied = visited.evaluate("navigator.clipboard.readText()")
    assert len(copied) < 320 and copied.isascii()
    wanted = native(inputs(visited), stage="replies", link=visited.url, short_link=visited.url)
    assert copied == json.loads(wanted)["short"] and visited.url in copied


def test_short_text_names_listed_machines_instead_of_all_their_numbers(
    visited: Page, context: BrowserContext
) -> None:
    picker(visited, "tractor").select_option(label="Compact, 35 hp")
    picker(visited, "implement").select_option(label="72 in rotary cutter, standard duty")
    field(visited, "material").select_option("heavy")
    settle(visited)
    visited.get_by_role("button", name="Copy short text").click()
    expect(visited.get_by_role("button", name="Short text copied")).to_be_visible()
    copied = visited.evaluate("navigator.clipboard.readText()")
    assert len(copied) < 320
    link = copied[copied.index("http") :]
    assert "tractor=Compact%2C+35+hp" in link and "material=heavy" in link
    assert len(link) < len(visited.url) / 2
    other = context.new_page()
    other.goto(link)
    other.wait_for_selector(ANSWERED)
    assert inputs(other) == inputs(visited)
    for part in (".ys-finding", ".ys-depth"):
        assert other.locator(part).inner_html() == visited.locator(part).inner_html()


def test_a_short_link_to_a_machine_that_is_gone_says_so_and_claims_nothing(
    page: Page, address: str
) -> None:
    gone = "Sold <b>last</b> week"
    page.goto(f"{address}pairing/#tractor={quote_plus(gone)}&working_width=60+in")
    page.wait_for_selector(ANSWERED)
    expect(page.locator(".ys-notice")).to_contain_text(f"names the tractor “{gone}”")
    now = inputs(page)
    assert now["tractor_mass"] == now["pto_power"] == now["tractor_kind"] == ""
    assert now["working_width"] == "60 in"
    assert finding(page) == "unknown"


def test_short_text_says_when_the_link_is_too_long(visited: Page) -> None:
    for name in ("tractor_mass", "lift_capacity", "implement_mass", "pto_power"):
        unit = "hp" if name == "pto_power" else "lb"
        low, high = ("20", "21") if unit == "hp" else ("1100", "1200")
        zeros = "0" * 24
        field(visited, name).fill(f"between {low}.{zeros} {unit} and {high}.{zeros} {unit}")
    settle(visited)
    until(visited, "location.href.length > 320")
    visited.get_by_role("button", name="Copy short text").click()
    expect(visited.get_by_role("button", name="too long for a message")).to_be_visible()
    copied = visited.evaluate("navigator.clipboard.readText()")
    assert len(copied) < 320 and "The link is too long" in copied and "http" not in copied


def test_a_bad_field_is_said_instead_of_copied(visited: Page) -> None:
    field(visited, "tractor_mass").fill("heavy")
    visited.get_by_role("button", name="Copy reply").click()
    expect(visited.locator(".ys-summary")).to_contain_text("“heavy” is not a mass")
    assert field(visited, "tractor_mass").input_value() == "heavy"


def test_the_offline_copy_sends_no_link_to_this_device(
    context: BrowserContext, page: Page, offline: Path
) -> None:
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto((offline / "pairing.html").as_uri())
    page.wait_for_selector(LIVE, state="attached")
    field(page, "working_width").fill("54 in")
    settle(page)
    page.get_by_role("button", name="Copy reply").click()
    expect(page.get_by_role("button", name="Reply copied")).to_be_visible()
    assert "file:" not in page.evaluate(COPIED)["text/plain"]
    page.get_by_role("button", name="Copy short text").click()
    expect(page.get_by_role("button", name="Short text copied")).to_be_visible()
    assert "file:" not in page.evaluate("navigator.clipboard.readText()")


@pytest.mark.parametrize(
    ("file", "page_of_the_site"),
    [("pairing.html", "pairing/"), ("lift/lift-and-ballast.html", "lift/lift-and-ballast/")],
)
def test_the_offline_copy_sends_the_sites_link_when_it_knows_the_site(
    context: BrowserContext, page: Page, offline: Path, file: str, page_of_the_site: str
) -> None:
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.add_init_script(
        "let lists; Object.defineProperty(window, 'yardstickLists', {get: () => lists,"
        "set(given) { lists = {...given, address: 'https://yard.example/base/'}; }});"
    )
    page.goto((offline / file).as_uri())
    page.wait_for_selector(LIVE, state="attached")
    field(page, "implement_mass").fill("510 lb")
    page.get_by_role("button", name="Copy link").click()
    expect(page.get_by_role("button", name="Link copied")).to_be_visible()
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied == f"https://yard.example/base/{page_of_the_site}#v=2&implement_mass=510+lb"
