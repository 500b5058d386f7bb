"""A built site, a server for it, and a browser. Without a browser these tests fail."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright

from scripts import _browsers, _setup, build, serve
from tests.browser.talk import given, settle

# A name of this machine that browsers don't trust as they trust localhost.
PLAIN = "yard.test"
FLAGS = [
    f"--host-resolver-rules=MAP {PLAIN} 127.0.0.1",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    # A second, slower compiler pays only in visits longer than a test.
    "--js-flags=--liftoff-only --wasm-lazy-compilation",
]
LIVE = ".ys[data-engine=ready]"
# Of a reader who saves data: Python starts when the form is touched, and not before.
SAVES_DATA = "Object.defineProperty(navigator, 'connection', { value: { saveData: true } });"
PATIENCE = 60_000
WINDOW = {"width": 1300, "height": 900}

# The machine may be busy with other tests; how fast things are is measured elsewhere.
expect.set_options(timeout=20_000)


@pytest.fixture(scope="session")
def site() -> Path:
    """The built site, with its offline copy beside it."""
    given = os.environ.get("YARDSTICK_TEST_SITE")
    folder = Path(given) if given else _setup.TESTED
    if not given:
        build.build(folder, offline=True)
    if not (folder / "index.html").is_file():
        pytest.fail(f"The site was not built: there is no {folder / 'index.html'}.")
    return folder


@pytest.fixture(scope="session")
def offline(site: Path) -> Path:
    """The offline copy's folder."""
    return site.with_name(f"{site.name}-offline")


@pytest.fixture
def copy(offline: Path, tmp_path: Path) -> Path:
    """A copy of the offline copy, which a test may damage."""
    place = tmp_path / "copy"
    shutil.copytree(offline, place)
    return place


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """The address at which the site is served."""
    serving = serve.server(site)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{serving.server_address[1]}/"
    serving.shutdown()
    serving.server_close()


@pytest.fixture(scope="session")
def driver() -> Iterator[Playwright]:
    """What drives a Chromium; a second one in the same process would not start."""
    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def browser(driver: Playwright) -> Iterator[Browser]:
    """A Chromium; one without a window where it can be had."""
    path = _browsers.find_shell()
    if path is None:
        pytest.fail("There is no browser to test with; scripts/test.py installs one.")
    running = driver.chromium.launch(executable_path=path, args=FLAGS)
    yield running
    running.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A fresh visitor: nothing kept from before."""
    fresh = browser.new_context(viewport=WINDOW, service_workers="block")  # type: ignore[arg-type]
    fresh.set_default_timeout(PATIENCE)
    yield fresh
    fresh.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A page on which any error of a script fails the test."""
    fresh = context.new_page()
    errors: list[str] = []
    fresh.on("pageerror", lambda error: errors.append(str(error)))
    yield fresh
    assert errors == []


@pytest.fixture(scope="module")
def warm(browser: Browser, address: str) -> Iterator[Page]:
    """A pairing page with Python running behind it, kept for the tests of one file."""
    context = browser.new_context(viewport=WINDOW, service_workers="block")  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    yield page
    context.close()


@pytest.fixture
def pairing(warm: Page) -> Iterator[Page]:
    """The live pairing page, with the numbers of its example given."""
    errors: list[str] = []
    note = errors.append
    warm.on("pageerror", lambda error: note(str(error)))
    warm.emulate_media(media="screen")
    warm.get_by_role("button", name="US", exact=True).click()
    # Said by hand as well: the browser says nothing of a hash that stands there already.
    warm.evaluate(
        "(hash) => { location.hash = hash; window.dispatchEvent(new Event('hashchange')); }",
        given(),
    )
    settle(warm)
    warm.evaluate("document.activeElement.blur()")
    yield warm
    assert errors == []
