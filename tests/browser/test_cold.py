"""The part of the runtime that is hardly ever called: had when it is, and what if it can't be."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.hosted import hosted, substituting
from tests.browser.talk import ANSWERED, field, finding, given, inputs, link, settle, without_memory

# In front of the worker's own script: each question calls for that part, as a function of it would.
CALLS = """
{
  const usual = WebAssembly.instantiate;
  let load;
  WebAssembly.instantiate = (module, imports) => {
    load = imports?.cold?.load ?? load;
    return usual.call(WebAssembly, module, imports);
  };
  addEventListener("message", ({ data }) => {
    if (data.kind !== "ask" || !load) return;
    // Whoever calls from compiled code may catch what is thrown as well.
    try { load(); } catch { /* but it is noted */ }
    load = undefined;
  });
}
"""


def calling(page: Page) -> list[str]:
    """Let the workers call for that part; returns the names of what is asked for from then on."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1]))

    def serve_it(route: Route) -> None:
        response = route.fetch()
        route.fulfill(response=response, body=CALLS + response.text())

    page.route("**/worker.js", serve_it)
    return asked


def is_answered(page: Page) -> None:
    """The page has an answer for its numbers, and no trouble to tell."""
    page.wait_for_selector(f"{ANSWERED}:not([data-stale])")
    assert finding(page) != "over"
    assert inputs(page)["working_width"] == "48 in"
    expect(page.locator(".ys-failed")).to_have_count(0)


def test_a_usual_visit_does_without_it(page: Page, address: str) -> None:
    """Starting from the library too: from the memory there is less to do."""
    without_memory(page)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1]))
    page.goto(link(address, working_width="48 in"))
    is_answered(page)
    field(page, "working_width").fill("44 to 50 in")
    settle(page)
    assert "pyodide.asm.wasm" in asked
    assert not {"cold.wasm", "whole.wasm.gz"} & set(asked)


def test_it_is_had_when_it_is_called(page: Page, address: str) -> None:
    asked = calling(page)
    page.goto(link(address, working_width="48 in"))
    is_answered(page)
    assert "cold.wasm" in asked
    assert "whole.wasm.gz" not in asked


@pytest.mark.parametrize("fault", ["missing", "damaged", "gone"])
def test_without_it_all_of_the_runtime_is_taken(page: Page, address: str, fault: str) -> None:
    def serve_it(route: Route) -> None:
        if fault == "gone":
            route.abort()
        elif fault == "missing":
            route.fulfill(status=404, body="no such file")
        else:
            response = route.fetch()
            body = bytearray(response.body())
            body[len(body) // 2] ^= 1
            route.fulfill(response=response, body=bytes(body))

    page.route("**/cold.wasm", serve_it)
    asked = calling(page)
    page.goto(link(address, working_width="48 in"))
    is_answered(page)
    assert "whole.wasm.gz" in asked
    assert asked.index("cold.wasm") < asked.index("whole.wasm.gz")


def test_what_was_kept_damaged_is_had_anew(page: Page, site: Path) -> None:
    [part] = site.glob("assets/runtime/*/cold.wasm")
    with hosted(site, substituting("/cold.wasm", part.read_bytes()[:1000])) as host:
        asked = calling(page)
        page.goto(link(host.address, working_width="48 in"))
        is_answered(page)
    assert host.handler.sent > 1  # type: ignore[attr-defined]
    assert "whole.wasm.gz" not in asked


def test_without_both_it_is_said_and_tried_again(page: Page, address: str) -> None:
    for name in ("cold.wasm", "whole.wasm.gz"):
        page.route(f"**/{name}", lambda route: route.fulfill(status=404, body="no such file"))
    asked = calling(page)
    page.goto(link(address, working_width="48 in"))
    said = page.locator(".ys-failed")
    expect(said).to_contain_text("a part of it is missing. (whole.wasm.gz: 404)")
    page.unroute("**/cold.wasm")
    asked.clear()
    said.get_by_role("button", name="Try again").click()
    is_answered(page)
    assert "whole.wasm.gz" not in asked


def test_the_offline_copy_has_it_at_hand(page: Page, copy: Path) -> None:
    carried = copy / "assets" / "carried.js"
    text = carried.read_text(encoding="utf-8")
    opening = 'window.yardstickCarried = {"worker": "'
    assert text.startswith(opening)
    # A worker that can't have it never answers: it would start anew, and again need it.
    carried.write_text(opening + json.dumps(CALLS)[1:-1] + text[len(opening) :], encoding="utf-8")
    page.goto(f"{(copy / 'pairing.html').as_uri()}#{given(working_width='48 in')}")
    is_answered(page)


def test_the_offline_copy_without_it_says_that_it_is_damaged(page: Page, copy: Path) -> None:
    carried = copy / "assets" / "carried.js"
    text = carried.read_text(encoding="utf-8")
    assert '"cold.wasm": "' in text
    carried.write_text(text.replace('"cold.wasm": "', '"cold.wasm": "AAAA'), encoding="utf-8")
    page.goto(f"{(copy / 'pairing.html').as_uri()}#{given(working_width='48 in')}")
    expect(page.locator(".ys-failed")).to_contain_text("arrived damaged")
