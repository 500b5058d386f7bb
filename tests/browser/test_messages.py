"""The dealer's page, from paste to copy; the customer's return."""

from __future__ import annotations

import functools
import threading
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from calc.render import round_up
from scripts import serve
from tests.browser.talk import ANSWERED, until

MESSAGE = (
    "Hi, got a 2600 lb tractor with 1400 lb lift at 24 in. Can it lift a 560 lb 5 ft bush cutter? "
    "Also what lights do I need on the road in Ohio?"
)
DONE = "document.querySelector('#ys-reply')?.dataset.final === 'true'"


@pytest.fixture
def dealer(page: Page, address: str) -> Page:
    page.goto(f"{address}messages/")
    page.wait_for_selector("#ys-message")
    return page


def paste(page: Page, text: str) -> None:
    page.locator("#ys-message").fill(text)
    until(page, DONE)


def test_questions_verdicts_and_one_reply(dealer: Page) -> None:
    paste(dealer, MESSAGE)
    cards = dealer.locator(".ys-question")
    assert cards.count() == 2
    assert cards.nth(0).get_attribute("data-finding")
    assert "Not said" in cards.nth(0).inner_text()
    reply = dealer.locator("#ys-reply").input_value()
    assert reply.index("1. ") < reply.index("2. ")
    links = [word for word in reply.split() if "#" in word]
    assert len(links) == 2
    given = parse_qs(urlsplit(links[0]).fragment)
    assert given["tractor_mass"] == ["2600 lb"] and given["lift_rated_at"] == ["610"]
    assert "Ohio" not in reply.split("2. ")[0]
    # The words of the message go into no link.
    assert "Hi" not in links[0] and "+got+" not in links[0]


def test_a_field_is_linked_to_its_words(dealer: Page) -> None:
    paste(dealer, MESSAGE)
    row = dealer.locator(".ys-question-row[data-field=implement_mass]")
    row.locator(".ys-from").click()
    assert dealer.locator("mark.ys-pointed").all_inner_texts() == ["560 lb"]


def test_corrected_with_one_tap(dealer: Page) -> None:
    paste(dealer, MESSAGE)
    row = dealer.locator(".ys-question-row[data-field=implement_mass]")
    row.locator("button.ys-button").click()
    until(dealer, "!document.querySelector('#ys-reply').value.includes('implement_mass')")
    row.locator("input").fill("700 lb")
    row.locator("input").press("Tab")
    until(dealer, "document.querySelector('#ys-reply').value.includes('implement_mass=700+lb')")


def test_what_may_be_two_things_is_asked(dealer: Page) -> None:
    paste(dealer, "5 ft or 6 ft bush cutter on 22 pto hp, will my tractor run it?")
    unclear = dealer.locator(".ys-unclear").first
    assert "which" in unclear.inner_text()
    unclear.get_by_role("button", name="6 ft").click()
    until(dealer, "document.querySelector('#ys-reply').value.includes('working_width=6+ft')")


def test_an_edited_reply_is_kept(dealer: Page) -> None:
    paste(dealer, MESSAGE)
    dealer.locator("#ys-reply").fill("My own words.")
    dealer.locator(".ys-question").nth(1).get_by_role("button", name="Not asked").click()
    dealer.wait_for_timeout(300)
    assert dealer.locator("#ys-reply").input_value() == "My own words."
    dealer.get_by_role("button", name="Write it anew").click()
    reply = dealer.locator("#ys-reply").input_value()
    assert "2600" in reply and "2. " not in reply


def test_three_taps_from_paste_to_copy(dealer: Page) -> None:
    dealer.context.grant_permissions(["clipboard-read", "clipboard-write"])
    paste(dealer, MESSAGE)
    dealer.get_by_role("button", name="Copy", exact=True).click()
    until(
        dealer,
        "document.querySelector('.ys-message-reply [role=status]').textContent === 'Copied.'",
    )
    copied = dealer.evaluate("navigator.clipboard.readText()")
    assert copied == dealer.locator("#ys-reply").input_value()


def test_nothing_of_ours(dealer: Page) -> None:
    dealer.locator("#ys-message").fill("do you have seat covers in stock?")
    dealer.get_by_text("No question of this site").wait_for()
    assert not dealer.locator("#ys-reply").is_visible()


def test_kept_from_the_front_page(page: Page, address: str) -> None:
    page.goto(address)
    page.locator("#ys-find-text").fill(MESSAGE)
    page.get_by_text("Read it as a message").click()
    until(page, DONE)
    assert page.locator("#ys-message").input_value() == MESSAGE
    assert page.url.endswith("messages/")


def copied_back(customer: Page) -> str:
    """What the customer sends back."""
    customer.get_by_role("button", name="Copy to send back").click()
    customer.get_by_text("Copied.").wait_for()
    back: str = customer.evaluate("navigator.clipboard.readText()")
    return back


def answered(dealer: Page, back: str) -> tuple[str, dict[str, list[str]]]:
    """The reply to what came back, and the inputs of its link."""
    dealer.locator("#ys-message").fill(back)
    dealer.wait_for_selector("[data-field=lift_capacity] .ys-from")
    until(dealer, DONE)
    final = dealer.locator("#ys-reply").input_value()
    (link,) = [word for word in final.split() if "#" in word]
    return final, parse_qs(urlsplit(link).fragment)


def test_from_paste_to_the_final_reply(dealer: Page, address: str) -> None:
    """The dealer asks back, the customer fills in and sends back, the dealer answers."""
    paste(dealer, "can my 2600 lb tractor lift a 560 lb bush cutter?")
    reply = dealer.locator("#ys-reply").input_value()
    (link,) = [word for word in reply.split() if "#" in word]
    wanted = parse_qs(urlsplit(link).fragment)["wanted"][0].split(",")
    assert "lift_capacity" in wanted and "tractor_mass" not in wanted
    customer = dealer.context.new_page()
    customer.goto(link)
    customer.wait_for_selector(ANSWERED)
    asked = customer.locator(".ys-asked [name]").evaluate_all("(all) => all.map((e) => e.name)")
    assert asked == wanted
    customer.locator("[name=lift_capacity]").fill("1,400 lb")
    customer.locator("[name=lift_rated_at]").select_option("610")
    dealer.context.grant_permissions(["clipboard-read", "clipboard-write"])
    back = copied_back(customer)
    assert "Hitch lift capacity: 1,400 lb" in back
    customer.close()
    _, given = answered(dealer, back)
    assert given["lift_capacity"] == ["1,400 lb"] and given["tractor_mass"] == ["2600 lb"]
    assert given["lift_rated_at"] == ["610"] and given["implement_kind"] == ["rotary_cutter"]


WORDS = "what lights do I need on the road in Ohio"


def share(page: Page, target: str, text: str) -> None:
    """Post a text as the share menu of a device does: a form of no page of the site."""
    page.goto("about:blank")
    page.set_content(
        f'<form method="post" enctype="multipart/form-data" action="{target}">'
        f'<input name="title" value=""><input name="text" value="{text}"></form>'
    )
    page.evaluate("document.forms[0].submit()")


def test_nothing_that_is_shared_reaches_the_host(browser: Browser, site: Path) -> None:
    """Every request that arrives is looked at, with its body: from the second visit on, none."""
    heard: list[str] = []

    class Listening(serve.Handler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
            heard.append(f"POST {self.path} {body.decode(errors='replace')}")
            self.send_error(405)

        def parse_request(self) -> bool:
            found = super().parse_request()
            heard.append(f"{self.command} {self.path} {self.headers}" if found else "")
            return found

    handler = functools.partial(Listening, directory=str(site))
    serving = serve.Server(("127.0.0.1", 0), handler)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    address = f"http://127.0.0.1:{serving.server_address[1]}/"
    page = browser.new_context().new_page()
    try:
        target = page.request.get(f"{address}manifest.webmanifest").json()["share_target"]
        assert target["method"] == "POST" and target["action"] == "./messages/"
        assert target["enctype"] == "multipart/form-data"
        assert target["params"] == {"title": "title", "text": "text"}
        page.goto(f"{address}about/offline/")
        page.get_by_text("Kept on this device for use").first.wait_for()
        until(page, "!!navigator.serviceWorker.controller")
        before = len(heard)
        share(page, f"{address}messages/", WORDS)
        until(page, DONE)
        assert page.locator("#ys-message").input_value() == WORDS
        assert page.url == f"{address}messages/"
        assert "Ohio" not in "".join(heard) and "lights" not in "".join(heard[before:])
        # The test hears a post when there is no worker: what it looks for does arrive then.
        page.evaluate("navigator.serviceWorker.getRegistration().then((each) => each.unregister())")
        page.close()
        page = browser.new_context().new_page()
        share(page, f"{address}messages/", WORDS)
        until(page, "document.readyState === 'complete'")
        posts = [each for each in heard if each.startswith("POST /messages/ ") and "Ohio" in each]
        assert posts and "Ohio" not in posts[0].split(" ")[1]
    finally:
        page.context.close()
        serving.shutdown()
        serving.server_close()


def test_three_questions_on_a_phone_from_paste_to_the_final_reply(
    browser: Browser, address: str
) -> None:
    """Paste, correct, copy in three ways; the customer's own device; back, and the last reply."""
    counter = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    counter.grant_permissions(["clipboard-read", "clipboard-write"])
    dealer = counter.new_page()
    dealer.goto(f"{address}messages/")
    paste(
        dealer,
        "Got a 2600 lb tractor, 22 pto hp. Can it lift a 560 lb 5 ft bush cutter? "
        "What lights do I need on the road in Ohio? "
        "And can I put bigger tires on it?",
    )
    cards = dealer.locator(".ys-question")
    assert cards.count() == 3
    # One tap takes out what was read wrong.
    row = dealer.locator(".ys-question-row[data-field=implement_mass]").first
    row.locator("button.ys-button").tap()
    until(dealer, "!document.querySelector('#ys-reply').value.includes('implement_mass')")
    row.locator("input").fill("600 lb")
    row.locator("input").press("Tab")
    until(dealer, "document.querySelector('#ys-reply').value.includes('implement_mass=600+lb')")
    copies = {}
    for name in ("Copy", "Copy for mail", "Copy short"):
        dealer.evaluate("navigator.clipboard.writeText('')")
        dealer.get_by_role("button", name=name, exact=True).tap()
        until(dealer, "navigator.clipboard.readText().then((text) => text.length > 40)")
        copies[name] = dealer.evaluate("navigator.clipboard.readText()")
    assert copies["Copy"] == copies["Copy for mail"] == dealer.locator("#ys-reply").input_value()
    assert len(copies["Copy short"].splitlines()) == 3 < len(copies["Copy"].splitlines())
    assert all("#" in line for line in copies["Copy short"].splitlines())
    over = dealer.evaluate(
        "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    )
    assert over <= 0
    # Which questions were asked, and what they lacked, is counted on this device.
    told = dealer.evaluate("JSON.parse(localStorage.getItem('yardstick.asked'))")
    assert len(told["asked"]) == 3 and set(told["asked"].values()) == {1}
    assert told["lacking"] and "Implement mass" not in told["lacking"]

    link = next(word for word in copies["Copy"].split() if "#" in word)
    wanted = parse_qs(urlsplit(link).fragment)["wanted"][0].split(",")
    home = browser.new_context(viewport={"width": 390, "height": 844})
    home.grant_permissions(["clipboard-read", "clipboard-write"])
    customer = home.new_page()
    customer.goto(link)
    customer.wait_for_selector(ANSWERED)
    asked = customer.locator(".ys-asked [name]").evaluate_all("(all) => all.map((e) => e.name)")
    assert asked == wanted and "lift_capacity" in wanted
    customer.locator("[name=lift_capacity]").fill("1,400 lb")
    customer.locator("[name=lift_rated_at]").select_option("610")
    back = copied_back(customer)
    home.close()

    final, given = answered(dealer, back)
    assert given["lift_capacity"] == ["1,400 lb"] and given["implement_mass"] == ["600 lb"]
    assert given["lift_rated_at"] == ["610"] and given["tractor_mass"] == ["2600 lb"]
    assert "Could you tell me" not in final
    dealer.locator(".ys-round-up > summary").tap()
    expect(dealer.locator(".ys-counts")).to_contain_text("Asked most: ")
    expect(dealer.locator(".ys-counts")).to_contain_text("Most often lacking: ")
    counter.close()


def test_a_round_up_is_kept_ordered_and_saved(dealer: Page) -> None:
    paste(dealer, MESSAGE)
    for card in dealer.locator(".ys-question").all():
        card.get_by_role("button", name="Keep").click()
    dealer.context.grant_permissions(["clipboard-read", "clipboard-write"])
    dealer.get_by_role("button", name="Copy", exact=True).click()
    dealer.reload()
    dealer.get_by_text("Your round-up: 2 kept").click()
    questions = dealer.get_by_label("The question, in your words")
    questions.nth(0).fill("Will the front stay down?")
    questions.nth(0).press("Tab")
    dealer.get_by_label("A note of your own").nth(0).fill("Weigh it here, then say.")
    dealer.get_by_label("A note of your own").nth(0).press("Tab")
    dealer.get_by_label("Move down: Will the front stay down?").click()
    with dealer.expect_download() as download:
        dealer.get_by_role("button", name="Save for the shop's site").click()
    text = download.value.path().read_text(encoding="utf-8")
    kept, problems = round_up.read(text, "round_up.csv")
    assert problems == () and download.value.suggested_filename == "round_up.csv"
    assert [each.question for each in kept][1] == "Will the front stay down?"
    assert kept[1].note == "Weigh it here, then say."
    assert kept[1].inputs["tractor_mass"] == "2600 lb"
    assert "Hi" not in text
    dealer.get_by_role("button", name="Copy as an outline").click()
    dealer.get_by_text("Outline copied.").wait_for()
    outline = dealer.evaluate("navigator.clipboard.readText()")
    assert "2. Will the front stay down?" in outline and "Show: " in outline
    dealer.get_by_label("Take out: Will the front stay down?").click()
    dealer.get_by_text("Your round-up: 1 kept").wait_for()
