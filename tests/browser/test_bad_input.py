"""Bad input gets its own sentence; nothing typed is lost; nothing hostile runs."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import LIVE
from tests.browser.talk import (
    ANSWERED,
    field,
    finding,
    given,
    inputs,
    link,
    settle,
    until,
    without_memory,
)

HOSTILE = "<img src=x onerror=window.hacked=1><script>window.hacked=1</script>"


@pytest.mark.parametrize(
    "typed",
    [
        "0 in",
        "-48 in",
        "1e300 in",
        "wide",
        "48 lb",
        "60 to 48 in",
        "48 furlongs",
        HOSTILE,
        "9" * 390,
    ],
)
def test_each_bad_input_gets_a_sentence_and_the_last_answer_stays(
    pairing: Page, typed: str
) -> None:
    before = pairing.locator(".ys-answer").inner_html()
    control = field(pairing, "working_width")
    control.fill(typed)
    control.blur()
    error = pairing.locator("#pairing-working_width-error")
    expect(error).to_be_visible()
    sentence = error.inner_text()
    assert sentence.endswith(".") and "Traceback" not in sentence
    assert control.get_attribute("aria-invalid") == "true"
    assert "pairing-working_width-error" in (control.get_attribute("aria-describedby") or "")
    assert control.input_value() == typed
    expect(pairing.locator(".ys-stale")).to_be_visible()
    assert pairing.locator(".ys-answer").inner_html() == before
    assert pairing.evaluate("window.hacked") is None
    # The summary leads back to the field.
    pairing.locator(".ys-summary a").click()
    assert pairing.evaluate("document.activeElement.name") == "working_width"
    control.fill("48 in")
    settle(pairing)
    expect(error).to_be_hidden()
    expect(pairing.locator(".ys-stale")).to_be_hidden()
    assert control.get_attribute("aria-invalid") is None


def test_several_bad_fields_are_all_named(pairing: Page) -> None:
    field(pairing, "working_width").fill("x")
    field(pairing, "pto_power").fill("y")
    field(pairing, "tractor_mass").fill("z")
    field(pairing, "tractor_mass").blur()
    expect(pairing.locator(".ys-summary li")).to_have_count(3)


def test_a_half_typed_value_is_not_scolded_at_once(pairing: Page) -> None:
    control = field(pairing, "working_width")
    control.fill("4 f")
    pairing.wait_for_timeout(400)
    expect(pairing.locator("#pairing-working_width-error")).to_be_hidden()
    expect(pairing.locator("#pairing-working_width-error")).to_be_visible(timeout=5000)


def test_unknown_fields_of_a_link_are_named_and_the_rest_is_taken(page: Page, address: str) -> None:
    page.goto(link(address, working_width="48 in", horn_length="2 in"))
    page.wait_for_selector(ANSWERED)
    expect(page.locator(".ys-notice")).to_contain_text("“horn_length”")
    assert inputs(page)["working_width"] == "48 in"


def test_a_choice_that_is_not_offered_is_named(page: Page, address: str) -> None:
    page.goto(link(address, material="concrete", working_width="48 in"))
    page.wait_for_selector(ANSWERED)
    expect(page.locator(".ys-notice")).to_contain_text("“concrete”")
    assert inputs(page)["material"] == ""


def test_a_link_of_100_kilobytes_is_refused_in_its_own_words(page: Page, address: str) -> None:
    page.goto(link(address, working_width="9" * 101_000))
    page.wait_for_selector(LIVE, state="attached")
    expect(page.locator(".ys-notice")).to_contain_text("too long")
    assert inputs(page)["working_width"] == "60 in"
    assert finding(page) == "over"


def test_a_hostile_link_is_inert(page: Page, address: str) -> None:
    page.goto(
        link(
            address, working_width=HOSTILE, material=HOSTILE, **{HOSTILE: HOSTILE, "units": HOSTILE}
        )
    )
    expect(page.locator(".ys-summary")).to_be_visible()
    assert inputs(page)["working_width"] == HOSTILE
    assert page.locator(".ys img, .ys script").count() == 0
    assert page.evaluate("window.hacked") is None
    assert page.evaluate("Object.prototype.polluted") is None


def test_names_that_javascript_knows_are_only_names(page: Page, address: str) -> None:
    page.goto(link(address, __proto__="1", constructor="2", working_width="48 in"))
    page.wait_for_selector(ANSWERED)
    expect(page.locator(".ys-notice")).to_contain_text("constructor")


def test_a_changed_address_is_taken_without_a_reload(pairing: Page) -> None:
    pairing.evaluate("(hash) => { location.hash = hash; }", given(working_width="50 in"))
    until(pairing, "document.querySelector('[name=working_width]').value === '50 in'")
    settle(pairing)
    # A plain anchor is not a set of inputs and changes nothing.
    pairing.evaluate("location.hash = 'somewhere'")
    pairing.wait_for_timeout(200)
    assert inputs(pairing)["working_width"] == "50 in"


def test_a_runtime_that_does_not_load_is_said(page: Page, address: str) -> None:
    without_memory(page)
    page.route("**/library*.gz", lambda route: route.abort())
    page.goto(link(address, working_width="48 in"))
    expect(page.locator(".ys-failed")).to_contain_text("could not be loaded")
    assert page.locator(".ys-answer .ys-finding").is_visible()
