"""The site in a folder of a host, with exactly the headers that the build writes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from scripts import headers
from tests.browser.conftest import LIVE
from tests.browser.hosted import FOLDER, Host, hosted
from tests.browser.talk import ANSWERED, field, finding, link, settle, until

VIOLATIONS = (
    "window.violations = []; addEventListener('securitypolicyviolation', (event) =>"
    "window.violations.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`));"
)


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    """The site on a host, in a folder."""
    with hosted(site) as running:
        yield running


def test_everything_works_in_a_folder_under_these_headers(page: Page, host: Host) -> None:
    requests: list[str] = []
    complaints: list[str] = []
    page.on("request", lambda request: requests.append(request.url))
    page.on("console", lambda each: complaints.append(each.text) if each.type == "error" else None)
    page.add_init_script(VIOLATIONS)
    page.goto(link(host.address, working_width="48 in"))
    page.wait_for_selector(ANSWERED)
    settle(page)
    assert finding(page) != "over"
    field(page, "working_width").fill("60 in")
    settle(page)
    assert finding(page) == "over"
    # To another page without a reload, and Python is still there.
    page.evaluate("window.same = true")
    page.get_by_role("link", name="Post hole digger").first.click()
    page.wait_for_url("**/fit/post-hole-digger/")
    page.wait_for_selector("#ys-digger")
    assert page.evaluate("window.same") is True
    page.wait_for_selector(LIVE, state="attached")
    page.keyboard.press("/")
    page.keyboard.type("ballast")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    assert page.evaluate("window.violations") == []
    assert complaints == []
    assert {url for url in requests if not url.startswith((host.address, "data:"))} == set()


def test_the_headers_are_sent_and_each_answers_its_purpose(page: Page, host: Host) -> None:
    first = page.goto(f"{host.address}pairing/")
    assert first is not None
    sent = first.all_headers()
    assert "'unsafe-eval'" not in sent["content-security-policy"]
    assert "'unsafe-inline'" not in sent["content-security-policy"]
    assert "frame-ancestors 'self'" in sent["content-security-policy"]
    assert sent["cache-control"] == "no-cache"
    script = page.evaluate("document.querySelector('script[src*=bundle]').src")
    bundled = page.request.get(script)
    assert "immutable" in bundled.headers["cache-control"]
    framed = page.request.get(f"{host.address}embed/pairing/")
    assert "frame-ancestors *" in framed.headers["content-security-policy"]
    # An inline script that the build did not write is refused.
    page.add_init_script(VIOLATIONS)
    page.goto(f"{host.address}pairing/")
    page.evaluate(
        "() => { const made = document.createElement('script');"
        "made.textContent = 'window.slipped = true'; document.body.append(made); }"
    )
    until(page, "window.violations.length")
    assert page.evaluate("window.slipped") is None


def test_every_file_has_one_rule_and_that_rule_is_whole(site: Path) -> None:
    """Whatever a host makes of two rules for one address: there is none with two."""
    rules = headers.read((site / headers.FILE).read_text(encoding="utf-8"))
    wanted = {
        *("Content-Security-Policy", "Cache-Control", "Permissions-Policy", "Referrer-Policy"),
        "X-Content-Type-Options",
    }
    paths = [path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()]
    addresses = [f"/{path}" for path in paths if not path.startswith(".")]
    pages = [each.removesuffix("index.html") for each in addresses if each.endswith("index.html")]
    assert len(pages) > 30
    for address in [*addresses, *pages]:
        found = headers.matching(address, rules)
        assert len(found) == 1, (address, found)
        assert set(found[0][1]) == wanted
        framed = "frame-ancestors *" in found[0][1]["Content-Security-Policy"]
        assert framed == address.startswith("/embed/")
    # Some hosts read no more of a line.
    assert max(len(line) for line in headers.written(rules).splitlines()) < 2000


def test_the_page_about_hosting_shows_the_same_headers(page: Page, host: Host, site: Path) -> None:
    page.goto(f"{host.address}about/hosting/")
    text = (site / headers.FILE).read_text(encoding="utf-8")
    shown = page.locator("pre code").all_text_contents()
    assert text in shown
    assert headers.written(headers.read(text)) == text


def test_the_manifest_leads_to_the_folder_and_its_icons(page: Page, host: Host) -> None:
    page.goto(f"{host.address}tires/swap/")
    address = page.evaluate("document.querySelector('link[rel=manifest]').href")
    found = page.request.get(address)
    assert found.headers["content-type"] == "application/manifest+json"
    manifest = found.json()
    assert manifest["start_url"] == "./"
    assert address == f"{host.address}manifest.webmanifest"
    for icon in manifest["icons"]:
        image = page.request.get(f"{host.address}{icon['src']}")
        # The width stands at this place of every PNG.
        assert f"{int.from_bytes(image.body()[16:20])}x" in icon["sizes"]
    assert page.request.get(f"{host.address.removesuffix(FOLDER + '/')}/pairing/").status == 404
