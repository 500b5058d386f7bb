"""One calculator in the page of another site, which knows nothing but its height."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from scripts import embeds, serve
from tests.browser.hosted import Host, hosted
from tests.browser.talk import until


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    """The site that is embedded, with its own headers."""
    with hosted(site) as running:
        yield running


@pytest.fixture
def outside(host: Host, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """The address of a page on another origin that holds the snippet."""
    monkeypatch.setenv("YARDSTICK_SITE_URL", host.address)
    page = f"<!doctype html><title>A shop</title><h1>Our tractors</h1>{embeds.snippet('pairing')}"
    heard = "<script>heard = []; addEventListener('message', (e) => heard.push(e.data))</script>"
    (tmp_path / "index.html").write_text(page + heard, encoding="utf-8")
    serving = serve.server(tmp_path)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{serving.server_address[1]}/"
    serving.shutdown()
    serving.server_close()


def test_the_frame_answers_and_grows_with_its_content(page: Page, host: Host, outside: str) -> None:
    page.goto(outside)
    frame = page.frame_locator("iframe")
    expect(frame.locator(".ys-answer")).to_contain_text("Lift")
    height = "document.querySelector('iframe').clientHeight"
    until(page, f"{height} > 800")
    # Nothing is fetched for Python until the form is touched.
    assert not [each for each in host.asked if each.endswith(".wasm")]
    field = frame.locator("[name=working_width]")
    before = frame.locator(".ys-answer .ys-body").get_attribute("data-finding")
    assert before == "over"
    field.fill("48 in")
    expect(frame.locator(".ys-answer[data-final=true] .ys-body")).not_to_have_attribute(
        "data-finding", "over"
    )
    shown = page.evaluate(height)
    frame.locator(".ys-answer details").first.evaluate("(each) => { each.open = !each.open; }")
    until(page, f"(was) => {height} !== was", shown)
    # The frame never scrolls by itself, and says nothing but its height.
    inside = frame.locator("html").evaluate("(each) => each.scrollHeight - each.clientHeight")
    assert inside <= 1
    heard = page.evaluate("heard")
    assert {tuple(sorted(each)) for each in heard} == {("height", "yardstick")}
    assert {each["yardstick"] for each in heard} == {"height"}
    assert "/service-worker.js" not in host.asked


def test_the_frame_leads_to_the_whole_page_with_the_same_inputs(
    page: Page, host: Host, outside: str
) -> None:
    page.goto(outside)
    frame = page.frame_locator("iframe")
    frame.locator("[name=working_width]").fill("48 in")
    expect(frame.locator(".ys-answer[data-final=true]")).to_be_visible()
    with page.context.expect_page() as opened:
        # By the keyboard: the frame may still be growing, and a click would fall beside the link.
        frame.locator(".ys-embed-full").press("Enter")
    assert opened.value.url == f"{host.address}pairing/#v=2&working_width=48+in"


def test_without_scripts_the_frame_shows_the_whole_answer(
    browser: Browser, host: Host, outside: str
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(outside)
    frame = page.frame_locator("iframe")
    expect(frame.locator(".ys-answer .ys-finding")).to_be_visible()
    expect(frame.locator(".ys-answer")).to_contain_text("Take care")
    expect(frame.locator(".ys-embed-foot")).to_contain_text("does not replace")
    context.close()


def test_no_other_page_of_the_site_can_be_framed(page: Page, host: Host, outside: str) -> None:
    page.goto(outside)
    page.evaluate(
        "(address) => { const made = document.createElement('iframe'); made.id = 'whole';"
        "made.src = address; document.body.append(made); }",
        f"{host.address}pairing/",
    )
    page.wait_for_timeout(1000)
    expect(page.frame_locator("#whole").locator(".ys-answer")).to_have_count(0)


def test_no_frame_is_wider_than_a_phone(browser: Browser, host: Host) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    wide = []
    for name in embeds.titles():
        page.goto(f"{host.address}embed/{name}/")
        if page.evaluate("document.documentElement.scrollWidth") > 360:
            wide.append(name)
    assert wide == []
    context.close()


def test_every_worksheet_has_its_frame(site: Path) -> None:
    assert {path.name for path in (site / embeds.FOLDER).iterdir()} == set(embeds.titles())
    for name in embeds.titles():
        page = (site / embeds.FOLDER / name / "index.html").read_text(encoding="utf-8")
        assert page.count('class="ys-answer"') == 1
        assert "ys-embed-foot" in page and "md-header" not in page
