"""The offline copy, opened as a double-click opens it."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.talk import ANSWERED, field, finding, given, link, settle


@pytest.fixture
def copy(page: Page, offline: Path) -> Page:
    """The offline copy's first page."""
    page.goto((offline / "index.html").as_uri())
    return page


def test_the_pairing_is_live_from_a_file(page: Page, offline: Path) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto((offline / "pairing.html").as_uri() + f"#{given(working_width='48 in')}")
    page.wait_for_selector(ANSWERED)
    settle(page)
    assert finding(page) != "over"
    field(page, "working_width").fill("60 in")
    settle(page)
    assert finding(page) == "over"
    assert {url.split(":")[0] for url in asked} <= {"file", "blob", "data"}


def test_the_offline_answer_is_the_online_one(page: Page, offline: Path, address: str) -> None:
    typed = {"working_width": "54 in", "implement_mass": "480 to 560 lb"}
    page.goto(link(address, **typed))
    page.wait_for_selector(ANSWERED)
    parts = (".ys-finding", ".ys-depth")
    online = [page.locator(part).inner_html() for part in parts]
    page.goto(link(f"{offline.as_uri()}/", **typed).replace("pairing/#", "pairing.html#"))
    page.wait_for_selector(ANSWERED)
    assert [page.locator(part).inner_html() for part in parts] == online


def test_every_link_of_the_copy_leads_to_a_file(offline: Path, copy: Page) -> None:
    missing = []
    for path in sorted(offline.rglob("*.html")):
        if path.name == "404.html":
            continue
        copy.goto(path.as_uri())
        links = copy.evaluate("[...document.links].map((each) => each.href.split('#')[0])")
        for target in {each for each in links if each.startswith("file:")}:
            if not Path(target.removeprefix("file://")).is_file():
                missing.append((path.name, target))
    assert missing == []


def test_search_works_from_a_file(copy: Page) -> None:
    copy.keyboard.press("/")
    copy.keyboard.type("tractor")
    expect(copy.locator(".md-search-result__item").first).to_be_visible()


def test_the_zip_holds_the_folder_and_the_site_offers_it(site: Path, offline: Path) -> None:
    zipped = offline.with_name(f"{offline.name}.zip")
    with zipfile.ZipFile(zipped) as archive:
        names = set(archive.namelist())
    files = [path for path in offline.rglob("*") if path.is_file()]
    assert names == {f"yardstick-offline/{p.relative_to(offline).as_posix()}" for p in files}
    assert (site / "assets" / "yardstick-offline.zip").read_bytes() == zipped.read_bytes()
    assert zipped.stat().st_size < 10e6
