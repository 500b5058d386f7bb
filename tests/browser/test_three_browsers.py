"""The main flows in Chromium, Firefox and WebKitGTK: over HTTP, and opened from a folder."""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from scripts import _browsers
from tests.browser import talk, webdriver
from tests.browser.hosted import hosted

FINAL = "document.querySelector('.ys-answer[data-final=true]:not([data-stale])')"
MESSAGE = (
    "Hi, got a 2600 lb tractor with 1400 lb lift at 24 in. Can it lift a 560 lb 5 ft bush cutter?"
)
KEPT = "Kept on this device for use without signal"
FIELDS = (
    "return Object.fromEntries([...document.querySelector('.ys-form').elements]"
    ".filter((each) => each.name).map((each) => [each.name, each.value]))"
)


@pytest.fixture(scope="module", params=list(webdriver.BROWSERS))
def window(request: pytest.FixtureRequest, driver: Playwright) -> Iterator[webdriver.Window]:
    """A window of each browser, with nothing kept from before."""
    missing = _browsers.missing_browsers()
    if request.param in missing:
        # The command that tests ends by naming what was not tried.
        pytest.skip(f"{request.param} was not tried: {missing[request.param]}")
    with (
        tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as home,
        webdriver.BROWSERS[request.param](Path(home), driver) as opened,
    ):
        yield opened


@pytest.fixture(scope="module")
def folder(offline: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The offline copy where a person may put it; the address of its top, with a slash."""
    place = tmp_path_factory.mktemp("Höfe & Äcker") / "Kopie für unterwegs, 100 %"
    shutil.copytree(offline, place)
    return f"{place.as_uri()}/"


@pytest.fixture(params=["over HTTP", "from a folder"])
def page(request: pytest.FixtureRequest, address: str) -> tuple[str, str]:
    """The address of the site's top, and how the address of a page ends."""
    if request.param == "over HTTP":
        return address, "/"
    return request.getfixturevalue("folder"), ".html"


def _is_answered(window: webdriver.Window) -> None:
    """The whole answer to what the form holds, as native Python gives it, stands on the page."""
    window.until(FINAL)
    wanted = json.loads(talk.native(window.run(FIELDS)))
    lead = json.dumps(wanted["lead"])
    window.until(f"{FINAL}.textContent.includes({lead})")


def test_a_link_is_answered_a_change_as_well_and_what_is_wrong_gets_a_sentence(
    window: webdriver.Window, page: tuple[str, str]
) -> None:
    top, end = page
    window.open(f"{top}pairing{end}#{talk.given(working_width='48 in')}")
    _is_answered(window)
    window.fill("[name=working_width]", "72 in")
    window.until("location.hash.includes('working_width=72+in')")
    _is_answered(window)
    window.fill("[name=working_width]", "48 lb")
    window.until(
        "document.querySelector('#pairing-working_width-error')?.textContent.endsWith('.')"
    )
    assert window.run("return document.querySelector('[name=working_width]').value") == "48 lb"
    window.fill("[name=working_width]", "48 in")
    _is_answered(window)


def test_the_box_leads_to_an_answer(window: webdriver.Window, page: tuple[str, str]) -> None:
    top, end = page
    window.open(f"{top}index.html" if end == ".html" else top)
    window.until("!document.querySelector('#ys-find').hidden")
    window.fill("#ys-find-text", "will a 60 in rotary cutter run on 20 pto hp")
    window.until("document.querySelector('#ys-found')?.dataset.read === 'true'")
    window.click("#ys-found > a")
    window.until("location.pathname.includes('pairing')")
    window.until(FINAL)
    assert window.run("return document.querySelector('[name=working_width]').value") == "60 in"


def test_a_machine_is_kept_and_picked(window: webdriver.Window, page: tuple[str, str]) -> None:
    top, end = page
    window.open(f"{top}pairing{end}#{talk.given(tractor_mass='1,650 lb')}")
    _is_answered(window)
    window.click("[data-role=tractor] > .ys-button")
    window.fill("[data-role=tractor] .ys-pick-save input", "The small one")
    window.click("[data-role=tractor] .ys-pick-save .ys-button")
    window.until("document.body.textContent.includes('“The small one” is saved')")
    window.open(f"{top}lift/lift-and-ballast{end}")
    window.until("document.querySelector('.ys-pick select')?.textContent.includes('The small one')")
    window.run(
        "const list = document.querySelector('[data-role=tractor] select');"
        "list.value = [...list.options].find((each) => each.label === 'The small one').value;"
        "list.dispatchEvent(new Event('change', {bubbles: true}));"
    )
    window.until("document.querySelector('[name=tractor_mass]').value === '1,650 lb'")
    window.until(FINAL)


def test_a_message_is_read_and_replied_to(window: webdriver.Window, page: tuple[str, str]) -> None:
    top, end = page
    window.open(f"{top}messages{end}")
    window.until("document.querySelector('#ys-message')")
    window.fill("#ys-message", MESSAGE)
    window.until("/2,?600 lb/.test(document.querySelector('#ys-reply')?.value)")
    window.until("document.querySelector('#ys-reply').dataset.final === 'true'")
    assert "2,600 lb" in window.run("return document.querySelector('#ys-reply').value")


def test_what_is_kept_answers_when_the_server_is_gone(window: webdriver.Window, site: Path) -> None:
    with hosted(site) as host:
        window.open(f"{host.address}pairing/#{talk.given(working_width='48 in')}")
        _is_answered(window)
        window.until(f"document.querySelector('.ys-kept')?.textContent.includes({KEPT!r})")
        with host.unplugged():
            window.open(f"{host.address}pairing/#{talk.given(working_width='72 in')}")
            _is_answered(window)
            window.open(f"{host.address}tires/swap/")
            window.until("document.querySelector('.ys-form')")
