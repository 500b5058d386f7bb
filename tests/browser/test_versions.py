"""A version that changes in mid-visit, two at once, a wrong clock, a dead service worker."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from scripts import _setup, finish
from tests.browser.conftest import LIVE, PATIENCE, SAVES_DATA
from tests.browser.hosted import Host, hosted, next_version, substituting
from tests.browser.talk import ANSWERED, field, finding, settle
from tests.browser.test_without_network import (
    KEPT,
    LATER,
    host,
    stop_worker,
    visit,
    visitor,
)

__all__ = ["host", "visitor"]
NEWER_BUILD = "f" * 16
BUILD = re.compile(r'<meta name="yardstick-build" content="(\w+)">')


def build_of(site: Path) -> str:
    """The build that a site's pages carry."""
    found = BUILD.search((site / "pairing" / "index.html").read_text(encoding="utf-8"))
    assert found is not None
    return found[1]


@pytest.fixture(scope="session")
def plain(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site as it is when the readers' devices don't keep it."""
    target = tmp_path_factory.mktemp("plain") / "site"
    shutil.copytree(site, target)
    for path in target.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        path.write_text(finish.MARK.sub("<html ", text, count=1), encoding="utf-8")
    finish.finish(target, kept=False)
    return target


@pytest.fixture(scope="session")
def rebuilt(plain: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A later build of it: other scripts, another folder for Python, another heading."""
    target = tmp_path_factory.mktemp("rebuilt") / "site"
    shutil.copytree(plain, target)
    [folder] = (target / "assets" / "runtime").iterdir()
    later = folder.name[::-1]
    folder.rename(folder.with_name(later))
    for path in [*target.rglob("*.html"), target / "assets" / "yardstick.js"]:
        text = path.read_text(encoding="utf-8")
        text = text.replace(folder.name, later).replace(build_of(plain), NEWER_BUILD)
        path.write_text(text.replace("<h1", f"<p>{LATER}</p><h1", 1), encoding="utf-8")
    finish.finish(target, kept=False)
    return target


@pytest.fixture
def plain_host(plain: Path) -> Iterator[Host]:
    """A host of it."""
    with hosted(plain) as running:
        yield running


def test_a_start_after_the_version_changed_says_so_and_keeps_what_was_typed(
    page: Page, plain_host: Host, rebuilt: Path
) -> None:
    # Nothing starts by itself, as for a reader who saves data.
    page.add_init_script(SAVES_DATA)
    page.goto(f"{plain_host.address}pairing/")
    page.wait_for_selector("section.ys[data-live]")
    plain_host.exchange(rebuilt)
    field(page, "working_width").fill("48 in")
    said = page.locator(".ys-failed")
    expect(said).to_contain_text("This site has a newer version than this page")
    expect(page.locator(".ys-stale")).to_contain_text("Your numbers have no answer.")
    said.get_by_role("button", name="Reload").click()
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    expect(page.get_by_text(LATER).first).to_be_attached()
    assert field(page, "working_width").input_value() == "48 in"
    assert finding(page) != "over"


def test_a_page_of_another_build_is_never_put_into_this_one(
    page: Page, plain_host: Host, rebuilt: Path
) -> None:
    page.goto(f"{plain_host.address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    field(page, "working_width").fill("48 in")
    settle(page)
    page.evaluate("window.same = true")
    plain_host.exchange(rebuilt)
    page.get_by_role("link", name="Post hole digger").first.click()
    page.wait_for_url("**/fit/post-hole-digger/")
    expect(page.get_by_text(LATER).first).to_be_attached()
    page.wait_for_selector(LIVE, state="attached")
    assert page.evaluate("window.same") is None
    page.go_back()
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    assert field(page, "working_width").input_value() == "48 in"
    assert page.evaluate("document.querySelector('meta[name=yardstick-build]').content") == (
        NEWER_BUILD
    )


@pytest.mark.parametrize("kept", ["pairing/index.html", "assets/yardstick.js"])
def test_a_page_and_a_script_of_two_builds_come_together(
    page: Page, plain: Path, rebuilt: Path, kept: str
) -> None:
    """A browser may have kept the one and not the other."""
    old = substituting(f"/{kept.removesuffix('index.html')}", (plain / kept).read_bytes())
    with hosted(rebuilt, old) as running:
        page.goto(f"{running.address}pairing/#working_width=48+in")
        page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
        expect(page.get_by_text(LATER).first).to_be_attached()
        assert field(page, "working_width").input_value() == "48 in"
        expect(page.locator(".ys-failed")).to_have_count(0)


def test_a_page_in_use_is_left_alone_when_another_tab_changes_the_version(
    visitor: BrowserContext, host: Host, site: Path, tmp_path: Path
) -> None:
    with _setup.one_at_a_time():
        later = next_version(site, tmp_path / "later", LATER)
    page = visit(visitor, host)
    typing = visit(visitor, host)
    renaming = visit(visitor, host)
    host.exchange(later)
    renaming.get_by_role("button", name="Save this tractor").click()
    renaming.get_by_label("Name for this tractor").fill("Half a na")
    renaming.evaluate("document.activeElement.blur()")
    typing.bring_to_front()
    field(typing, "working_width").click()
    typing.keyboard.type("4")
    page.evaluate("navigator.serviceWorker.getRegistration().then((each) => each.update())")
    page.locator(".ys-newer").get_by_role("button", name="Reload").click()
    expect(page.get_by_text(LATER).first).to_be_attached()
    # Nobody pulls the page from under a reader's hands.
    for each in (typing, renaming):
        expect(each.locator(".ys-newer")).to_contain_text("of an earlier version")
        assert LATER not in each.content()
    assert renaming.get_by_label("Name for this tractor").input_value() == "Half a na"
    typing.keyboard.type("8 in")
    before = field(typing, "working_width").input_value()
    assert "48 in" in before
    typing.locator(".ys-newer").get_by_role("button", name="Reload").click()
    expect(typing.get_by_text(LATER).first).to_be_attached()
    expect(field(typing, "working_width")).to_have_value(before)


@pytest.mark.parametrize("time", ["1985-01-01T00:00:00Z", "2099-12-31T23:59:59Z"])
def test_a_wrong_clock_changes_nothing(visitor: BrowserContext, host: Host, time: str) -> None:
    page = visitor.new_page()
    page.clock.set_fixed_time(time)
    page.goto(f"{host.address}pairing/")
    expect(page.locator(".ys-kept")).to_contain_text(KEPT, timeout=PATIENCE)
    field(page, "working_width").fill("48 in")
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    page.get_by_role("button", name="Save this tractor").click()
    page.get_by_label("Name for this tractor").fill("Mine")
    page.get_by_label("Name for this tractor").press("Enter")
    expect(page.locator(".ys-pick").first).to_contain_text("is saved on this device")
    page.wait_for_url("**/#v=2&working_width=48+in")
    with host.unplugged():
        page.reload()
        page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
        assert finding(page) != "over"


def test_a_service_worker_that_died_costs_nobody_anything(
    visitor: BrowserContext, host: Host
) -> None:
    page = visit(visitor, host)
    field(page, "working_width").fill("48 in")
    stop_worker(page)
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    page.wait_for_url("**/#v=2&working_width=48+in")
    with host.unplugged():
        stop_worker(page)
        page.reload()
        page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
        assert field(page, "working_width").input_value() == "48 in"
        expect(page.locator(".ys-kept")).to_contain_text(KEPT)


def test_a_browser_that_cannot_open_what_it_keeps_still_has_the_network(
    visitor: BrowserContext, site: Path, tmp_path: Path
) -> None:
    broken = tmp_path / "broken"
    shutil.copytree(site, broken)
    worker = broken / "service-worker.js"
    fault = (
        "let works = true;"
        "{ const open = caches.open.bind(caches); caches.open = (name) => works ? open(name) :"
        "Promise.reject(new DOMException('damaged', 'UnknownError')); }"
        "addEventListener('message', ({data}) => { if (data === 'break') works = false; });"
    )
    worker.write_text(fault + worker.read_text(encoding="utf-8"), encoding="utf-8")
    with hosted(broken) as running:
        page = visit(visitor, running, "tires/swap/")
        page.evaluate("navigator.serviceWorker.controller.postMessage('break')")
        page.goto(f"{running.address}pairing/#working_width=48+in")
        page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
        expect(page.locator(".ys-kept")).to_contain_text("the browser's storage does not work")


def test_what_was_typed_into_the_second_calculator_survives_a_reload(
    page: Page, address: str
) -> None:
    # A page with two of them, as anybody may write one.
    other = page.request.get(f"{address}road/rail-crossing/").text()
    more = re.search(r'<section class="ys".*</section>', other, re.S)
    assert more is not None

    def both(route: Route) -> None:
        answer = route.fetch()
        route.fulfill(
            response=answer, body=answer.text().replace("</section>", f"</section>{more[0]}", 1)
        )

    page.route(f"{address}road/closing/", both)
    page.goto(f"{address}road/closing/")
    page.wait_for_selector(LIVE, state="attached")
    second = page.locator("section.ys").nth(1)
    name = second.locator("input[name]").first.get_attribute("name") or ""
    control = second.locator(f"[name={name}]")
    usual = control.input_value()
    control.fill("not a number")
    expect(second.locator(".ys-summary")).to_be_visible()
    page.reload()
    assert control.input_value() == "not a number"
    # Its own error is there as well, and the first calculator has its example.
    expect(second.locator(".ys-summary")).to_be_visible()
    # Somebody who comes to the page afresh finds the example.
    page.goto(f"{address}road/towing/")
    page.goto(f"{address}road/closing/")
    assert control.input_value() == usual
