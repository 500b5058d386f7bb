"""A site that was built for a dealer: lists, lines, region, units, the matrix and its cells."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from calc import tables
from scripts import _setup, build, serve
from tests.browser.conftest import LIVE
from tests.browser.talk import field, finding, inputs, settle, until
from tests.browser.test_machines import picked, picker

SHOP = _setup.ROOT / "scripts" / "example-shop"
NAME, CONTACT = "Example Yard", "Counter: 555-0142"


@pytest.fixture(scope="module")
def shop_address(site: Path) -> Iterator[str]:
    """The address of the site, built by the command that a dealer uses."""
    folder = _setup.WORK / "tested-shop"
    assert build.main(["--shop", str(SHOP), "--strict", "--out", str(folder)]) == 0
    serving = serve.server(folder)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{serving.server_address[1]}/"
    serving.shutdown()
    serving.server_close()


@pytest.fixture
def shop_pairing(page: Page, shop_address: str) -> Page:
    """The pairing page of the shop's site."""
    page.goto(f"{shop_address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    return page


def test_the_shops_machines_come_before_the_examples(shop_pairing: Page) -> None:
    groups = picker(shop_pairing, "tractor").locator("optgroup")
    labels = groups.evaluate_all("(all) => all.map((each) => each.label)")
    assert labels == [NAME, "Examples"]
    picker(shop_pairing, "tractor").select_option(label="Stock 12: compact, 33 hp, gear")
    picker(shop_pairing, "implement").select_option(label="Lot B: 60 in cutter")
    settle(shop_pairing)
    now = inputs(shop_pairing)
    assert (now["tractor_mass"], now["implement_mass"]) == ("2,900 lb", "500 lb")
    assert finding(shop_pairing) != "over"


@pytest.mark.parametrize("where", ["", "pairing/", "lift/lift-and-ballast/", "machines/"])
def test_name_and_contact_stand_on_every_page(page: Page, shop_address: str, where: str) -> None:
    page.goto(shop_address + where)
    expect(page.locator(".ys-shop")).to_contain_text(NAME)
    expect(page.locator(".ys-shop")).to_contain_text(CONTACT)
    stocked = page.locator(".ys-shop", has_text="suitcase weights")
    expect(stocked).to_have_count(1 if where.startswith("lift/") else 0)


def test_name_and_contact_close_the_reply_and_head_the_paper(
    context: BrowserContext, shop_pairing: Page
) -> None:
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    shop_pairing.get_by_role("button", name="Copy reply").click()
    expect(shop_pairing.get_by_role("button", name="Reply copied")).to_be_visible()
    copied = shop_pairing.evaluate("navigator.clipboard.readText()")
    assert copied.splitlines()[-1].startswith(f"{NAME} · {CONTACT}")
    shop_pairing.emulate_media(media="print")
    expect(shop_pairing.locator(".ys-shop-line")).to_be_visible()


def test_every_kind_of_cell_opens_the_pairing_that_it_speaks_of(
    page: Page, shop_address: str
) -> None:
    page.goto(f"{shop_address}matrix/")
    cells = page.locator(".ys-matrix td[data-finding]")
    assert cells.count() == 12
    page.wait_for_selector(".ys-matrix", state="attached")
    shown = cells.evaluate_all(
        "(all) => all.map((cell) => [cell.dataset.finding, cell.querySelector('small').textContent,"
        " cell.querySelector('a').href, cell.querySelectorAll('svg').length])"
    )
    seen: dict[str, list[str]] = {}
    for kind, check, link, shapes in shown:
        assert shapes == 1 and check
        seen.setdefault(kind, [check, link])
    assert len(seen) >= 2
    for kind, (check, link) in seen.items():
        page.goto("about:blank")
        page.goto(link)
        page.wait_for_selector(LIVE, state="attached")
        settle(page)
        assert finding(page) == kind
        expect(page.locator(".ys-checks tbody tr").first).to_contain_text(check)
        assert picked(page, "tractor").startswith("Stock")
        assert picked(page, "implement").startswith("Lot")


def test_a_cell_can_be_opened_with_the_keyboard_after_a_change_of_page(
    page: Page, shop_address: str
) -> None:
    page.goto(f"{shop_address}matrix/")
    link = page.locator(".ys-matrix td a").nth(5)
    link.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(LIVE, state="attached")
    settle(page)
    assert picked(page, "tractor").startswith("Stock")


def test_the_road_pages_open_in_the_shops_region(page: Page, browser: Browser) -> None:
    """Told by the list that the build writes; the example shop is where the page opens anyway."""
    folder = _setup.WORK / "tested-shop"
    written = (folder / "assets" / "machines.js").read_text(encoding="utf-8")
    elsewhere = written.replace('"region": "OH"', '"region": "TX"').replace(
        '"units": "us"', '"units": "metric"'
    )
    assert elsewhere != written
    serving = serve.server(folder)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    address = f"http://127.0.0.1:{serving.server_address[1]}/"
    page.route(
        "**/assets/machines.js",
        lambda route: route.fulfill(body=elsewhere, content_type="text/javascript"),
    )
    page.goto(f"{address}road/lighting/")
    page.wait_for_selector(LIVE, state="attached")
    assert field(page, "place").input_value() == "TX"
    expect(page.get_by_role("button", name="Metric")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="US", exact=True).click()
    page.reload()
    page.wait_for_selector(LIVE, state="attached")
    expect(page.get_by_role("button", name="US", exact=True)).to_have_attribute(
        "aria-pressed", "true"
    )
    page.goto("about:blank")
    page.goto(f"{address}road/lighting/#place=WI")
    page.wait_for_selector(LIVE, state="attached")
    assert field(page, "place").input_value() == "WI"
    serving.shutdown()
    serving.server_close()


def test_the_sites_own_matrix_shows_the_examples(page: Page, address: str) -> None:
    page.goto(f"{address}matrix/")
    cells = page.locator(".ys-matrix td[data-finding]")
    tractors, implements = (
        len(tables.rows(f"machines/demo_{role}s")) for role in ("tractor", "implement")
    )
    assert cells.count() == tractors * implements
    heads = page.locator(".ys-matrix tbody th")
    expect(heads.first).to_have_text("Subcompact, 22 hp")
    assert page.locator(".ys-shop").count() == 0


def test_the_matrix_works_without_a_script(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}matrix/")
    expect(page.locator(".ys-matrix td[data-finding=over]").first).to_contain_text("Over a limit")
    page.goto(f"{address}pairing/")
    assert page.locator(".ys-pick").first.is_hidden()
    context.close()


@pytest.mark.parametrize("width", [360, 1280])
def test_the_new_pages_do_not_scroll_sideways(page: Page, shop_address: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    for where in ("matrix/", "machines/", "pairing/", "about/your-own-machines/"):
        page.goto(shop_address + where)
        # The page may still be putting its tables in place.
        until(
            page,
            "document.documentElement.scrollWidth <= document.documentElement.clientWidth",
        )


def test_the_round_up_is_a_page_and_found_by_the_box(page: Page, shop_address: str) -> None:
    page.goto(f"{shop_address}round-up/")
    expect(page.locator(".ys-round-up-page section")).to_have_count(2)
    page.get_by_role("link", name="The whole page").first.click()
    page.wait_for_selector(".ys-answer[data-final=true]")
    assert page.locator("[name=implement_mass]").input_value() == "480 lb"
    page.goto(shop_address)
    page.locator("#ys-find-text").fill("front end stay down five foot cutter")
    expect(page.locator("#ys-found > a").first).to_contain_text("five foot cutter")
