"""Not working says so and mends itself: the runtime, its worker, and the frame around them."""

from __future__ import annotations

import gzip
import re
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Frame, Page, Route, expect

from scripts import serve
from tests.browser.conftest import LIVE, PLAIN
from tests.browser.hosted import Handler, hosted, substituting
from tests.browser.talk import ANSWERED, field, finding, inputs, link, settle, without_memory

SAID = ".ys-failed"
WAITING = "Your numbers are being worked out."
WITHOUT = "Your numbers have no answer. What stands below is for"
# A page with one calculator takes its share of the library, and all of it where that can't be had.
LIBRARY = "library*.gz"
SHARE = "library-pairing.gz"
WHOLE = "library.gz"
PARTS = ["pyodide.asm.wasm", LIBRARY, "worker.js"]
# Runs in front of the worker's own script, and puts "FAULT" in the place of each answer.
FAULTY = """
{
  const post = self.postMessage.bind(self);
  let asked = "";
  addEventListener("message", (event) => { asked = event.data.request; });
  self.postMessage = (message) => {
    if (message.kind === "answer") { FAULT; }
    post(message);
  };
}
"""
HANGS = "for (;;);"
DIES = "throw new Error('out of order')"
CLOSES = "return close()"


def break_worker(page: Page, fault: str, times: int | None = None) -> list[str]:
    """Give the next workers (`times` of them, or all) a fault; returns the log of the loads."""
    loads: list[str] = []

    def serve_it(route: Route) -> None:
        response = route.fetch()
        script = response.text()
        faulty = times is None or sum(each == "faulty" for each in loads) < times
        loads.append("faulty" if faulty else "sound")
        body = FAULTY.replace("FAULT", fault) + script if faulty else script
        route.fulfill(response=response, body=body)

    page.route("**/worker.js", serve_it)
    return loads


def no_words_for_objects(page: Page) -> None:
    """No message is the browser's word for an object."""
    assert "[object" not in page.locator("body").inner_text()


@pytest.fixture
def lenient(context: BrowserContext) -> Page:
    """A page on which a worker may throw."""
    return context.new_page()


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("fragment", ["", "#working_width=48+in"])
def test_a_part_that_is_missing_is_said_and_had_once_it_is_there(
    page: Page, address: str, part: str, fragment: str
) -> None:
    if part == LIBRARY:
        without_memory(page)
    asked: list[str] = []

    def missing(route: Route) -> None:
        asked.append(route.request.url)
        route.fulfill(status=404, body="no such file")

    page.route(f"**/{part}", missing)
    page.goto(f"{address}pairing/{fragment}")
    said = page.locator(SAID)
    expect(said).to_contain_text("could not be loaded")
    expect(said).to_contain_text("404")
    assert len(asked) == (4 if part == LIBRARY else 2)
    no_words_for_objects(page)
    stale = page.locator(".ys-stale")
    if fragment:
        expect(stale).to_have_text(f"{WITHOUT} the example.")
    else:
        expect(stale).to_be_hidden()
    # Still missing: it is said again, and nothing piles up.
    said.get_by_role("button", name="Try again").click()
    expect(said).to_contain_text("404")
    assert len(asked) == (6 if part == LIBRARY else 4)
    page.evaluate("window.same = true")
    page.unroute(f"**/{part}")
    said.get_by_role("button", name="Try again").click()
    page.wait_for_selector(LIVE, state="attached")
    expect(said).to_have_count(0)
    if fragment:
        page.wait_for_selector(ANSWERED)
        expect(stale).to_be_hidden()
        assert finding(page) != "over"
    field(page, "working_width").fill("42 in")
    settle(page)
    assert page.evaluate("window.same") is True


def cut(data: bytes) -> bytes:
    """Lose the second half."""
    return data[: len(data) // 2]


def altered(data: bytes) -> bytes:
    """Change one byte of the content, and leave everything else in order."""
    packed = data[:2] == b"\x1f\x8b"
    content = bytearray(gzip.decompress(data) if packed else data)
    content[len(content) // 2] ^= 1
    return gzip.compress(bytes(content)) if packed else bytes(content)


def damaging(site: Path, part: str, damage: Callable[[bytes], bytes], times: int) -> type[Handler]:
    """Return a host that sends one part damaged, so often.

    Packed for the way: of what comes as it is a page whose link seems slow, on a busy machine
    too, takes another file instead, which is in order.
    """
    [built] = site.glob(f"assets/runtime/*/{part}")
    body = damage(built.read_bytes())
    if part.endswith(".gz"):
        return substituting(f"/{part}", body, times)
    return substituting(f"/{part}", gzip.compress(body), times, encoding="gzip")


@pytest.mark.parametrize("damage", [cut, altered])
@pytest.mark.parametrize("part", [PARTS[0], WHOLE])
@pytest.mark.parametrize("times", [1, 2])
def test_a_download_that_is_not_what_was_built_is_fetched_once_more_then_said(
    page: Page, site: Path, part: str, damage: Callable[[bytes], bytes], times: int
) -> None:
    """Past the browser's own copy, which the host's headers have it keep for a year."""
    if part == WHOLE:
        without_memory(page)
        page.route(f"**/{SHARE}", lambda route: route.abort())
    with hosted(site, damaging(site, part, damage, times)) as host:
        page.goto(link(host.address, working_width="48 in"))
        if times == 2:
            expect(page.locator(SAID)).to_contain_text("arrived damaged, twice")
            assert host.handler.sent == 2
            page.locator(SAID).get_by_role("button", name="Try again").click()
        page.wait_for_selector(ANSWERED)
        assert finding(page) != "over"


@pytest.mark.parametrize("fragment", ["", "#working_width=48+in"])
def test_a_worker_that_was_cut_is_fetched_anew(lenient: Page, site: Path, fragment: str) -> None:
    with hosted(site, damaging(site, "worker.js", cut, 1)) as host:
        lenient.goto(f"{host.address}pairing/{fragment}")
        lenient.wait_for_selector(ANSWERED if fragment else LIVE, state="attached")
        expect(lenient.locator(SAID)).to_have_count(0)


def test_where_browsers_work_out_no_digests_a_damaged_download_is_found_too(
    page: Page, site: Path
) -> None:
    """Over plain http, as in a yard's own network."""
    without_memory(page)
    page.route(f"**/{SHARE}", lambda route: route.abort())
    for times in (1, 2):
        with hosted(site, damaging(site, WHOLE, altered, times)) as host:
            page.goto(link(host.address.replace("127.0.0.1", PLAIN), working_width="48 in"))
            assert page.evaluate("window.isSecureContext") is False
            if times == 1:
                page.wait_for_selector(ANSWERED)
            else:
                expect(page.locator(SAID)).to_contain_text("arrived damaged, twice")
            assert host.handler.sent == 2


def test_a_network_that_is_gone_is_said_and_its_return_noticed(page: Page, address: str) -> None:
    without_memory(page)
    page.route(f"**/{LIBRARY}", lambda route: route.abort())
    page.goto(link(address, working_width="48 in"))
    expect(page.locator(SAID)).to_contain_text("there is no network, or it broke off")
    page.unroute(f"**/{LIBRARY}")
    page.evaluate("window.dispatchEvent(new Event('online'))")
    page.wait_for_selector(ANSWERED)
    expect(page.locator(SAID)).to_have_count(0)


def test_a_start_that_stalls_is_said_and_can_be_begun_anew(page: Page, address: str) -> None:
    without_memory(page)
    page.clock.install()
    held: list[Route] = []
    page.route(f"**/{SHARE}", lambda route: route.fallback() if held else held.append(route))
    with page.expect_request(f"**/{SHARE}"):
        page.goto(link(address, working_width="48 in"))
    # The rest has come.
    expect(page.locator(".ys-progress")).to_contain_text(re.compile(r"Loading.*: [1-9]"))
    page.clock.run_for(15_000)
    expect(page.locator(".ys-slow")).to_have_count(0)
    page.clock.run_for(7_000)
    expect(page.locator(".ys-slow")).to_contain_text("Nothing has arrived for a while")
    page.locator(".ys-slow").get_by_role("button", name="Try again").click()
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    expect(page.locator(".ys-slow")).to_have_count(0)


def test_a_worker_that_never_runs_is_said(page: Page, address: str) -> None:
    script = "throw new Error('no calculator here')"
    kind = "text/javascript"
    page.route("**/worker.js", lambda route: route.fulfill(content_type=kind, body=script))
    page.goto(link(address, working_width="48 in"))
    expect(page.locator(SAID)).to_contain_text("could not start in this browser")
    expect(page.locator(SAID)).to_contain_text("no calculator here")
    expect(page.locator(".ys-stale")).to_have_text(f"{WITHOUT} the example.")


@pytest.mark.parametrize("fault", [DIES, CLOSES, HANGS])
def test_a_worker_that_breaks_off_is_started_once_more_with_the_same_question(
    lenient: Page, address: str, fault: str
) -> None:
    lenient.clock.install()
    loads = break_worker(lenient, fault, times=1)
    lenient.goto(f"{address}pairing/")
    lenient.wait_for_selector(LIVE, state="attached")
    field(lenient, "working_width").fill("48 in")
    lenient.clock.run_for(1_000)
    if fault != DIES:
        expect(lenient.locator(".ys-stale")).to_contain_text(WAITING)
        lenient.clock.run_for(31_000)
    lenient.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    assert finding(lenient) != "over"
    assert loads == ["faulty", "sound"]
    expect(lenient.locator(SAID)).to_have_count(0)


@pytest.mark.parametrize(
    ("fault", "words"),
    [(DIES, "broke down over these inputs, twice"), (HANGS, "took too long over these inputs")],
)
def test_what_breaks_off_twice_is_said_and_tried_again_on_the_readers_word(
    lenient: Page, address: str, fault: str, words: str
) -> None:
    lenient.clock.install()
    loads = break_worker(lenient, fault, times=2)
    lenient.goto(f"{address}pairing/")
    lenient.wait_for_selector(LIVE, state="attached")
    field(lenient, "working_width").fill("48 in")
    if fault == HANGS:
        # The first may take half a minute, the second a whole one.
        for limit in (30_000, 60_000):
            lenient.wait_for_selector(LIVE, state="attached")
            lenient.clock.run_for(limit - 2_000)
            assert lenient.locator(SAID).count() == 0
            lenient.clock.run_for(4_000)
    said = lenient.locator(SAID)
    expect(said).to_contain_text(words)
    lenient.clock.run_for(1_000)
    expect(lenient.locator(".ys-stale")).to_have_text(f"{WITHOUT} the example.")
    no_words_for_objects(lenient)
    assert loads == ["faulty"] * 2
    said.get_by_role("button", name="Try again").click()
    lenient.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    assert finding(lenient) != "over"
    assert inputs(lenient)["working_width"] == "48 in"
    assert loads == ["faulty", "faulty", "sound"]


def test_other_inputs_are_answered_although_some_broke_it(lenient: Page, address: str) -> None:
    fault = "if (asked.includes('43 in')) throw new Error('not these')"
    break_worker(lenient, fault)
    lenient.goto(f"{address}pairing/#working_width=43+in")
    expect(lenient.locator(SAID)).to_contain_text("broke down over these inputs, twice")
    field(lenient, "working_width").fill("48 in")
    lenient.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    expect(lenient.locator(SAID)).to_have_count(0)
    assert finding(lenient) != "over"


@pytest.mark.parametrize("body", [None, "syntax error here", "throw new Error('early')"])
def test_a_page_without_its_script_says_so(lenient: Page, address: str, body: str | None) -> None:
    asked: list[str] = []

    def broken(route: Route) -> None:
        asked.append(route.request.url)
        if body is None:
            route.fulfill(status=404, body="")
        else:
            route.fulfill(content_type="text/javascript", body=body)

    lenient.route("**/yardstick.js", broken)
    lenient.goto(link(address, working_width="48 in"))
    said = lenient.locator(SAID)
    expect(said).to_contain_text("could not be loaded, so what stands below is the example alone")
    # The page's own, and past the cache; a third is the browser's, which runs what came.
    assert len(asked) <= 3
    lenient.unroute("**/yardstick.js")
    said.get_by_role("button", name="Try again").click()
    lenient.wait_for_selector(ANSWERED)
    expect(lenient.locator(SAID)).to_have_count(0)
    assert inputs(lenient)["working_width"] == "48 in"


@pytest.fixture
def sandbox(address: str, tmp_path: Path) -> Iterator[str]:
    """A page elsewhere that frames a calculator and gives it scripts, but no origin of its own."""
    (tmp_path / "index.html").write_text(
        f'<iframe sandbox="allow-scripts" src="{address}embed/pairing/#working_width=48+in">'
        "</iframe>",
        encoding="utf-8",
    )
    serving = serve.server(tmp_path)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{serving.server_address[1]}/"
    serving.shutdown()
    serving.server_close()


def test_a_sandboxed_frame_says_that_it_lets_nothing_run(page: Page, sandbox: str) -> None:
    page.goto(sandbox)
    frame: Frame = page.frames[1]
    said = frame.locator(SAID)
    expect(said).to_contain_text("does not run inside this frame")
    whole = said.get_by_role("link", name="open this page by itself")
    assert (whole.get_attribute("href") or "").endswith("embed/pairing/#working_width=48+in")
    expect(frame.locator(".ys-stale")).to_have_text(f"{WITHOUT} the example.")
    # Touching the form changes nothing of that, and breaks nothing.
    frame.locator("[name=working_width]").fill("50 in")
    expect(said).to_have_count(1)


def test_the_offline_copy_says_that_it_is_not_whole(page: Page, copy: Path) -> None:
    carried = copy / "assets" / "carried.js"
    whole = carried.read_text(encoding="utf-8")
    carried.unlink()
    page.goto((copy / "pairing.html").as_uri())
    expect(page.locator(SAID)).to_contain_text("a part of it is missing")
    # One letter of the library is another.
    at = whole.rindex('"library.gz"') + 5000
    other = "A" if whole[at] != "A" else "B"
    carried.write_text(f"{whole[:at]}{other}{whole[at + 1 :]}", encoding="utf-8")
    page.locator(SAID).get_by_role("button", name="Try again").click()
    expect(page.locator(SAID)).to_contain_text("arrived damaged")
    carried.write_text(whole, encoding="utf-8")
    page.reload()
    page.wait_for_selector(LIVE, state="attached")
