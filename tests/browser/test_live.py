"""The main flow: a fresh page, a live answer, a change, a link, a reply."""

from __future__ import annotations

import json
import re
from urllib.parse import parse_qsl

from playwright.sync_api import Page, Route, expect

from calc.render import live
from tests.browser.conftest import LIVE
from tests.browser.talk import ANSWERED, field, finding, inputs, link, native, settle, until


def test_a_fresh_page_counts_bytes_and_becomes_live(page: Page, address: str) -> None:
    page.add_init_script(
        "window.seen = []; new MutationObserver(() => {"
        "const text = document.querySelector('.ys-progress')?.textContent;"
        "if (text) window.seen.push(text); }).observe(document, {subtree: true, childList: true,"
        "characterData: true});"
    )
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    seen = page.evaluate("window.seen")
    assert not any(re.search(r"\b0\.0 of", text) for text in seen)  # "10.0 of" may come
    assert len({text for text in seen if " MB" in text}) > 2
    expect(page.locator(".ys-progress")).to_be_hidden()


def test_the_example_is_over_a_limit_and_48_in_changes_the_finding(pairing: Page) -> None:
    assert finding(pairing) == "over"
    field(pairing, "working_width").fill("48 in")
    settle(pairing)
    assert finding(pairing) != "over"
    assert "working_width=48+in" in pairing.url


def test_a_link_with_inputs_starts_python_before_the_page_is_read(page: Page, address: str) -> None:
    page.route("**/yardstick.js", lambda route: None)  # never answered
    with page.expect_request("**/worker.js"):
        page.goto(link(address, working_width="48 in"), wait_until="commit")
    page.goto("about:blank")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{address}pairing/", wait_until="commit")
    page.locator(".md-footer").wait_for()
    page.wait_for_timeout(500)
    assert not any("/runtime/" in url for url in asked)


def test_the_example_is_not_taken_for_a_links_answer(page: Page, address: str) -> None:
    """Until Python answers, the page says whose answer stands there."""
    held: list[Route] = []
    page.route("**/assets/runtime/**", lambda route: held.append(route))
    page.goto(link(address, working_width="48 in"))
    expect(page.locator(".ys-stale")).to_contain_text("What stands below is for the example.")
    for route in held:
        route.continue_()
    page.unroute("**/assets/runtime/**")
    page.wait_for_selector(ANSWERED)
    expect(page.locator(".ys-stale")).to_be_hidden()
    assert finding(page) == "close"


def test_the_page_shows_byte_for_byte_what_native_python_says(page: Page, address: str) -> None:
    page.add_init_script(
        "const post = Worker.prototype.postMessage; window.asked = []; window.answers = [];"
        "Worker.prototype.postMessage = function (message) { if (!this.heard) { this.heard = true;"
        "this.addEventListener('message', (event) => event.data.kind === 'answer' &&"
        "window.answers.push(event.data.response)); }"
        "if (message.request) window.asked.push(message.request);"
        "return post.call(this, message); };"
    )
    page.goto(link(address, working_width="48 in", implement_mass="450 to 520 lb"))
    page.wait_for_selector(ANSWERED)
    answers = page.evaluate("window.answers")
    assert len(answers) >= 2
    asked = page.evaluate("window.asked")[: len(answers)]
    assert answers == [live.respond(request) for request in asked]


def test_typing_keeps_focus_caret_and_text(pairing: Page) -> None:
    control = field(pairing, "working_width")
    control.click()
    control.press("Home")
    control.press("Delete")
    pairing.keyboard.type("5", delay=30)
    settle(pairing)
    pairing.keyboard.type("4", delay=30)
    assert control.input_value() == "540 in"
    focused = "[document.activeElement.name, document.activeElement.selectionStart]"
    assert pairing.evaluate(focused) == ["working_width", 2]
    # The answer has come meanwhile, and the field was left alone.
    pairing.wait_for_selector("#pairing-working_width-error:not([hidden])")
    assert pairing.evaluate(focused) == ["working_width", 2]
    assert control.input_value() == "540 in"


def test_the_newest_of_many_changes_wins(pairing: Page) -> None:
    control = field(pairing, "working_width")
    for width in range(40, 60):
        control.fill(f"{width} in")
        pairing.wait_for_timeout(15)
    control.fill("42 in")
    settle(pairing)
    assert "working_width=42+in" in pairing.url


# Each stage of the answer as it comes, with whether its depth stands there, and its passing words.
STAGES = """
window.stages = [];
new MutationObserver(() => {
  const answer = document.querySelector('.ys-answer');
  const stage = answer?.dataset.stage;
  if (!stage || window.stages.at(-1)?.[0] === stage) return;
  const shown = ['.ys-depth', '.ys-passing'].map((part) => answer.querySelector(part) !== null);
  window.stages.push([stage, ...shown]);
}).observe(document, {subtree: true, attributes: true, attributeFilter: ['data-stage']});
"""


def test_ranges_show_how_it_stands_first(page: Page, address: str) -> None:
    """A first look takes the place of the verdict alone."""
    page.add_init_script(STAGES)
    page.goto(link(address, tractor_mass="", wheelbase="", implement_mass=""))
    page.wait_for_selector(ANSWERED)
    assert page.evaluate("window.stages") == [["exact", True, True], ["full", True, False]]


def test_a_copied_link_opens_the_same_inputs_and_the_same_answer(
    pairing: Page,
) -> None:
    pairing.context.grant_permissions(["clipboard-read", "clipboard-write"])
    field(pairing, "working_width").fill("4 ft 6 in")
    field(pairing, "implement_mass").fill("500 to 560 lb")
    field(pairing, "pto_power").fill("")
    field(pairing, "material").select_option("heavy")
    settle(pairing)
    pairing.get_by_role("button", name="Copy link").click()
    expect(pairing.get_by_role("button", name="Link copied")).to_be_visible()
    copied = pairing.evaluate("navigator.clipboard.readText()")
    other = pairing.context.new_page()
    other.goto(copied)
    other.wait_for_selector(ANSWERED)
    assert inputs(other) == inputs(pairing)
    for same in (".ys-finding", ".ys-depth"):
        assert other.locator(same).inner_html() == pairing.locator(same).inner_html()
    other.close()


def test_copy_reply_gives_the_reply_with_its_link(pairing: Page) -> None:
    pairing.context.grant_permissions(["clipboard-read", "clipboard-write"])
    field(pairing, "working_width").fill("50 in")
    settle(pairing)
    pairing.get_by_role("button", name="Copy reply").click()
    expect(pairing.get_by_role("button", name="Reply copied")).to_be_visible()
    copied = pairing.evaluate("navigator.clipboard.readText()")
    assert json.loads(native(inputs(pairing)))["lead"] in copied
    assert pairing.url in copied


def test_a_refused_clipboard_offers_the_text_to_select(page: Page, address: str) -> None:
    page.add_init_script(
        "Object.defineProperty(navigator, 'clipboard', {value: {writeText: () =>"
        "Promise.reject(new Error('refused'))}});"
    )
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    page.get_by_role("button", name="Copy link").click()
    area = page.get_by_label("Text to copy")
    assert area.input_value() == page.url
    assert page.evaluate("getSelection().toString()") == page.url


def test_a_remedy_sets_its_fields_and_keeps_the_others(pairing: Page) -> None:
    before = inputs(pairing)
    remedy = pairing.locator("a.ys-try[href*=working_width]").first
    sets = dict(parse_qsl((remedy.get_attribute("href") or "").lstrip("#")))
    remedy.focus()
    pairing.keyboard.press("Enter")
    settle(pairing)
    assert inputs(pairing) == {**before, **sets}
    assert finding(pairing) != "over"
    # Focus was on a link that is gone; it stays within the answer.
    assert pairing.evaluate("document.activeElement.matches('.ys-answer')")


def test_units_are_switched_and_remembered(pairing: Page) -> None:
    pairing.get_by_role("button", name="Metric").click()
    until(pairing, "/\\d kg/.test(document.querySelector('.ys-answer').textContent)")
    assert "units=metric" in pairing.url
    other = pairing.context.new_page()
    other.goto(pairing.url.split("#")[0])
    until(other, "/\\d kg/.test(document.querySelector('.ys-answer').textContent)")
    pressed = other.get_by_role("button", name="Metric")
    assert pressed.get_attribute("aria-pressed") == "true"
    other.close()


def test_a_blank_form_says_what_to_find_out_first(pairing: Page) -> None:
    pairing.get_by_role("button", name="Clear all fields").click()
    settle(pairing)
    assert finding(pairing) == "unknown"
    assert field(pairing, "tractor_mass").get_attribute("placeholder")
    pairing.get_by_role("button", name="Show the example").click()
    settle(pairing)
    assert finding(pairing) == "over"


def test_instant_navigation_keeps_the_worker(pairing: Page, address: str) -> None:
    asked: list[str] = []
    pairing.on("request", lambda request: asked.append(request.url))
    pairing.evaluate("window.sameVisit = true")
    pairing.locator(".md-header a.md-logo").click()
    pairing.wait_for_url(address)
    pairing.wait_for_selector("section.ys", state="detached")
    pairing.go_back()
    pairing.wait_for_selector(LIVE, state="attached")
    assert pairing.evaluate("window.sameVisit") is True
    field(pairing, "working_width").fill("48 in")
    settle(pairing)
    assert not [url for url in asked if "/runtime/" in url]


def test_an_answer_that_is_replaced_is_forgotten(pairing: Page) -> None:
    """Each has some hundred nodes; what remembers one of them keeps all of them."""
    session = pairing.context.new_cdp_session(pairing)
    session.send("Performance.enable")

    def nodes() -> float:
        session.send("HeapProfiler.collectGarbage")
        found = session.send("Performance.getMetrics")["metrics"]
        return next(each["value"] for each in found if each["name"] == "Nodes")

    def change(width: int) -> None:
        field(pairing, "working_width").fill(f"{width} in")
        settle(pairing)

    change(50)
    before = nodes()
    for width in range(51, 59):
        change(width)
    assert nodes() - before < 8 * 100
    session.detach()
