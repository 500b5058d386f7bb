"""What a reader waits for until the first answer: at first, later, and on a slow link."""

from __future__ import annotations

import gzip
import statistics
import tempfile
import threading
import time
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from scripts import _node, serve

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

STARTS = 7
SLOW_STARTS = 3
SETTLING = 1500
PATIENCE = 120.0
# A phone with one bar.
BITS_A_SECOND = 1.6e6
LATENCY = 0.15
PIECE = 4096

# The moment at which each answer stands on the screen: the first frame after it was put in place.
WATCH = """
window.shown = [];
new MutationObserver(() => {
  const { stage, final } = document.querySelector('.ys-answer')?.dataset ?? {};
  if (stage) requestAnimationFrame(() => window.shown.push([performance.now(), stage, final]));
}).observe(document, { subtree: true, childList: true, attributes: true,
                       attributeFilter: ['data-stage', 'data-final'] });
"""
SHOWN = "window.shown.some((each) => each[2] === 'true')"
KEPT = "document.querySelector('.ys-kept')?.textContent.startsWith('Kept on this device')"
READABLE = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0"

# Resolves with the times at which each part of the answer to a change stands on the screen. [ms]
CHANGE = """
([name, value]) => new Promise((resolve) => {
  const control = document.querySelector(`.ys-form [name=${name}]`);
  const answer = document.querySelector('.ys-answer');
  const start = performance.now();
  const times = [];
  const watch = new MutationObserver(() => {
    const { final } = answer.dataset;
    requestAnimationFrame(() => {
      times.push(performance.now() - start);
      if (final === 'true') { watch.disconnect(); resolve(times); }
    });
  });
  watch.observe(answer, { childList: true, subtree: true });
  control.value = value;
  control.dispatchEvent(new Event('input', { bubbles: true }));
})
"""


# Node has the compression that Python's own library has not.
BROTLI = """
const { readFileSync, writeFileSync } = require("node:fs");
const { brotliCompressSync } = require("node:zlib");
writeFileSync(process.argv[2], brotliCompressSync(readFileSync(process.argv[1])));
"""


def brotli(data: bytes) -> bytes:
    """Return bytes as a host sends them that compresses with brotli."""
    with tempfile.TemporaryDirectory() as folder:
        plain, packed = Path(folder) / "plain", Path(folder) / "packed"
        plain.write_bytes(data)
        _node.node("-e", BROTLI, plain, packed)
        return packed.read_bytes()


@contextmanager
def served(folder: Path, kind: type[serve.Handler] | None = None) -> Iterator[str]:
    """Serve a folder on the loopback address, and yield the address."""
    serving = serve.server(folder)
    if kind:
        serving.RequestHandlerClass = lambda *given: kind(*given, directory=str(folder))
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{serving.server_address[1]}/"
    finally:
        serving.shutdown()
        serving.server_close()


class Slow(serve.Handler):
    """A host that compresses with brotli, behind a link on which what is sent waits its turn."""

    turn: ClassVar[threading.Lock] = threading.Lock()
    packed: ClassVar[dict[str, bytes]] = {}

    def do_GET(self) -> None:
        """Send the file at the speed of the link, after its latency; not what the browser has."""
        time.sleep(LATENCY)
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        body = path.read_bytes()
        tag = f'"{zlib.crc32(body):08x}"'
        known = self.headers["If-None-Match"] == tag
        self.send_response(304 if known else 200)
        self.send_header("ETag", tag)
        if known:
            self.end_headers()
            return
        if path.suffix not in (".gz", ".png", ".woff2"):
            if str(path) not in self.packed:
                self.packed[str(path)] = brotli(body)
            body = self.packed[str(path)]
            self.send_header("Content-Encoding", "br")
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        for at in range(0, len(body), PIECE):
            piece = body[at : at + PIECE]
            with self.turn:
                time.sleep(len(piece) * 8 / BITS_A_SECOND)
            self.wfile.write(piece)


def given(**typed: str) -> str:
    """Return what a link says that gives the numbers of the pairing's example, and these.

    All of them: a page that still waits for a number has little to work out.
    """
    from calc import links, worksheets

    return links.write({**worksheets.load("pairing").examples(), **typed})


def until(page: Page, expression: str) -> None:
    """Wait until an expression is true; the site's headers refuse the browser's own way to poll."""
    started = time.monotonic()
    while not page.evaluate(expression):
        if time.monotonic() - started > PATIENCE:
            raise TimeoutError(expression)
        page.wait_for_timeout(20)


def changed(page: Page, name: str, value: str) -> list[float]:
    """Change one field; return when each part of the answer stood there, the whole last. [ms]"""
    times: list[float] = page.evaluate(CHANGE, [name, value])
    return times


def _visit(context: BrowserContext, address: str) -> tuple[Page, float, float]:
    """Return a page opened by a link, and when its first and its whole answer stood there. [s]"""
    page = context.new_page()
    page.add_init_script(WATCH)
    # A new window loads parts of the browser itself, which is no part of the page's start.
    page.wait_for_timeout(SETTLING)
    page.goto(f"{address}pairing/#{given(working_width='48 in')}")
    until(page, SHOWN)
    shown = page.evaluate("window.shown")
    whole = next(each[0] for each in shown if each[2] == "true")
    return page, shown[0][0] / 1000, whole / 1000


def _twice(browser: Browser, address: str, kept: bool) -> tuple[float, float, float]:
    """Return the first and the whole answer of a first visit, and the first of a later one. [s]"""
    context = browser.new_context()
    page, first, whole = _visit(context, address)
    if kept:
        until(page, KEPT)
    page.close()
    _, again, _ = _visit(context, address)
    context.close()
    return first, whole, again


def starts(browser: Browser, site: Path, untouched: Path) -> dict[str, float]:
    """Return the medians of visits to the two, one after the other; ratios are of the medians."""
    found: dict[str, list[tuple[float, float, float]]] = {"site": [], "untouched": []}
    with served(site) as ours, served(untouched) as theirs:
        _twice(browser, ours, True)  # warms the machine up, not the visit: each is a fresh one
        for _ in range(STARTS):
            found["untouched"].append(_twice(browser, theirs, False))
            found["site"].append(_twice(browser, ours, True))

    def middle(name: str, which: int) -> float:
        return statistics.median(each[which] for each in found[name])

    return {
        "first": middle("site", 0),
        "whole": middle("site", 1),
        "again": middle("site", 2),
        "untouched": middle("untouched", 0),
        "untouched again": middle("untouched", 2),
        "ratio": middle("site", 0) / middle("untouched", 0),
        "ratio again": middle("site", 2) / middle("untouched", 2),
    }


def slow(browser: Browser, site: Path) -> dict[str, float]:
    """Return the medians over a slow link. [s]"""
    found = []
    with served(site, Slow) as address:
        for _ in range(1 + SLOW_STARTS):  # in the first the host compresses what it is asked for
            context = browser.new_context()
            page, first, _ = _visit(context, address)
            readable = page.evaluate(READABLE) / 1000
            page.evaluate("window.shown.length = 0")
            page.reload()
            until(page, SHOWN)
            again = page.evaluate("window.shown[0][0]") / 1000
            found.append((readable, first, again))
            context.close()
    readable, first, again = (statistics.median(each[n] for each in found[1:]) for n in range(3))
    return {"readable": readable, "first": first, "reload": again}


def wire(runtime: Path, worksheet: str = "pairing") -> dict[str, int]:
    """Return the bytes of Python for a first visit on a slow link, by what the host compresses.

    To the page of one calculator ("": to one that may ask about all of them).
    """
    from scripts import runtime as made
    from scripts import shares, smaller

    library = shares.name_of(worksheet) if worksheet else made.LIBRARY
    later = {made.SNAPSHOT, smaller.COLD, smaller.WHOLE}
    later |= {path.name for path in runtime.glob("library*.gz")} - {library}
    parts = {path.name: path.read_bytes() for path in runtime.iterdir() if path.name not in later}
    # What a host that compresses nothing is asked for in the place of a larger file.
    packed = {name: parts.pop(f"{name}.gz") for name in list(parts) if f"{name}.gz" in parts}
    total = dict.fromkeys(("brotli", "gzip", "nothing"), 0)
    for name, data in parts.items():
        # A host sends a file that is gzipped already as it is.
        ready = name.endswith(".gz")
        total["nothing"] += len(packed.get(name, data))
        total["gzip"] += len(data if ready else gzip.compress(data, compresslevel=9))
        total["brotli"] += len(data if ready else brotli(data))
    return total
