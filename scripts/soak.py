"""Use one page for long, and bring hostile links and files to it: what wears out, what breaks?

    python3 scripts/soak.py CHANGES HOSTILE [--seed N] [--write]

In a headless browser one page takes so many changes of its fields, each waited for until the whole
answer stands there: what the page's process holds in memory, and how long an answer takes, are
compared between the second and the last tenth. Then so many hostile links are put into the address
of pages of every calculator, and a tenth as many files of machines are brought in: nothing of
theirs may run, no script may fail, and the page must still answer a link that is in order. With
--write the figures go onto the page about testing.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import json
import random
import statistics
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import batched
from typing import TYPE_CHECKING
from urllib.parse import quote

from scripts import _browsers, _environment, _setup, sections

if TYPE_CHECKING:
    from playwright.sync_api import Browser, FilePayload, Page

SITE = _setup.TESTED
PAGE = _setup.ROOT / "docs" / "about" / "testing.md"
HEADING = "## A long visit"
PARTS = 10
A_PAGE = 50  # hostile links until the next page is opened
FIELDS = {
    "working_width": ("in", 36, 96),
    "implement_mass": ("lb", 200, 1200),
    "tractor_mass": ("lb", 1500, 6000),
    "cg_distance": ("in", 15, 50),
    "pto_power": ("hp", 12, 60),
}
READY = ".ys[data-engine=ready]"
ANSWERED = """
document.querySelector('.ys-answer[data-final=true]:not([data-stale])') !== null &&
  document.querySelector('[name=working_width]').value === '48 in'
"""
# What of a hostile text would have run, or would stand in the page as markup.
HARM = """
() => [window.hacked, Object.prototype.polluted, {}.hacked].some(Boolean) ||
  document.querySelectorAll('.ys img, .ys script, .ys iframe, .ys svg [onload]').length > 0
"""
MARKUP = "<img src=x onerror='window.hacked=1'><script>window.hacked=1</script>"


@dataclass
class Found:
    """What was seen."""

    times: list[float] = field(default_factory=list)  # ms, of each change
    memory: list[int] = field(default_factory=list)  # bytes, at the end of each part
    links: int = 0
    files: int = 0
    faults: list[str] = field(default_factory=list)

    def _of(self, part: int) -> float:
        size = len(self.times) // PARTS
        return statistics.median(self.times[part * size : (part + 1) * size])

    @property
    def slower(self) -> float:
        """The median time of the last tenth to that of the second."""
        return self._of(PARTS - 1) / self._of(1)

    @property
    def larger(self) -> float:
        """The memory after the last tenth to that after the second."""
        return self.memory[-1] / self.memory[1]


def _held() -> int:
    """What the largest process that shows a page holds in memory. [bytes]"""
    found = [0]
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            if "--type=renderer" in (folder / "cmdline").read_text():
                pages = int((folder / "statm").read_text().split()[1])
                found.append(pages * 4096)
        except OSError:  # it has ended
            continue
    return max(found)


def _changes(page: "Page", count: int, draw: random.Random, found: Found) -> None:
    from scripts.visits import changed

    shown: dict[str, str] = {}
    for part in range(PARTS):
        for _ in range(count // PARTS):
            name = draw.choice(list(FIELDS))
            unit, low, high = FIELDS[name]
            value = shown.get(name)
            while value == shown.get(name):
                value = f"{draw.randint(low, high)} {unit}"
            shown[name] = value or ""
            found.times.append(changed(page, name, shown[name])[-1])
        found.memory.append(_held())
        print(f"{part + 1}/{PARTS}: {found.memory[-1] / 1e6:.0f} MB", flush=True)


def _texts(draw: random.Random) -> Iterator[str]:
    """Yield texts that no field is made for."""
    from scripts.hostile import HOSTILE

    own = (MARKUP, "javascript:window.hacked=1", "\u202e48 in", "9" * 3000, "%", "&&==", "nan lb")
    while True:
        yield draw.choice((*own, *map(str, HOSTILE)))


def _hostile_link(names: list[str], draw: random.Random, texts: Iterator[str]) -> str:
    """Return what stands behind the # of a link."""
    pairs = []
    for _ in range(draw.randint(1, 6)):
        key = draw.choice((*names, *names, "ask", "units", "v", "__proto__", next(texts)))
        text = next(texts).encode("utf-8", "replace")
        pairs.append(f"{quote(key.encode('utf-8', 'replace'))}={quote(text)}")
    return draw.choice(("", "&", "#")) + draw.choice(("&", "&", ";")).join(pairs)


def _still_answers(page: "Page", address: str, found: Found) -> None:
    from scripts.visits import given, until

    page.goto("about:blank")
    page.goto(f"{address}pairing/#{given(working_width='48 in')}")
    try:
        until(page, ANSWERED)
    except TimeoutError:
        found.faults.append("A link that is in order is not answered any more.")


def _links(page: "Page", address: str, count: int, draw: random.Random, found: Found) -> None:
    from calc import worksheets

    texts = _texts(draw)
    names = worksheets.names()
    for some in batched(range(count), A_PAGE):
        sheet = worksheets.load(draw.choice(names))
        page.goto(f"{address}{sheet.page}/")
        page.wait_for_selector(READY, state="attached")
        fields = [item.name for item in sheet.fields]
        for _ in some:
            link = _hostile_link(fields, draw, texts)
            page.evaluate("(link) => { location.hash = link; }", link)
            page.wait_for_timeout(20)
            found.links += 1
            if page.evaluate(HARM):
                found.faults.append(f"{sheet.name}: {link[:200]}")
        _still_answers(page, address, found)


def _files(page: "Page", address: str, count: int, draw: random.Random, found: Found) -> None:
    from scripts.visits import until

    texts = _texts(draw)
    page.goto(f"{address}machines/")
    until(page, "document.querySelector('#ys-machines input[type=file]') !== null")
    for _ in range(count):
        machine = {
            "name": next(texts),
            "role": draw.choice(("tractor", "implement", "constructor", 7, None)),
            "inputs": {draw.choice((*FIELDS, "__proto__", next(texts))): next(texts)},
        }
        whole = {"format": "yardstick-machines", "version": 1, "machines": [machine] * 3}
        text = json.dumps(whole)
        content = draw.choice((text, text[: draw.randint(0, len(text))], next(texts)))
        data = content.encode("utf-8", "replace")
        file: FilePayload = {"name": "in.json", "mimeType": "application/json", "buffer": data}
        page.set_input_files("#ys-machines input[type=file]", file)
        page.wait_for_timeout(20)
        found.files += 1
        if page.evaluate(HARM):
            found.faults.append(f"machines: {content[:200]}")


def soak(browser: "Browser", changes: int, hostile: int, seed: int) -> Found:
    """Do it all; what goes wrong is in the faults."""
    from scripts.visits import given, served

    draw = random.Random(seed)
    found = Found()
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.on("pageerror", lambda error: found.faults.append(f"A script fails: {error}"))
    page.on("dialog", lambda dialog: found.faults.append(f"A dialog: {dialog.message}"))
    with served(SITE) as address:
        if changes:
            page.goto(f"{address}pairing/#{given(working_width='48 in')}")
            page.wait_for_selector(READY, state="attached")
            _still_answers(page, address, found)
            _changes(page, changes, draw, found)
        _links(page, address, hostile, draw, found)
        _files(page, address, hostile // 10, draw, found)
        _still_answers(page, address, found)
    context.close()
    return found


def report(found: Found, asked: argparse.Namespace) -> str:
    """The section of the page about testing."""
    return f"""{HEADING}

Written by `python3 scripts/soak.py {asked.changes} {asked.hostile} --write`, in a headless browser.
One page took {len(found.times):,} changes of its fields, one after the other. From the second tenth
of them to the last the median time until the whole answer stood there went to
{found.slower:.2f} times, and what the page's process holds in memory to {found.larger:.2f} times.
Then {found.links:,} hostile links were put into the addresses of pages of all calculators, and
{found.files:,} hostile files of machines were brought in. Faults found: {len(found.faults)}.
"""


def main() -> int:
    """Run it, and say what was found."""
    parser = argparse.ArgumentParser(description="Use one page for long, and be hostile to it.")
    parser.add_argument("changes", type=int)
    parser.add_argument("hostile", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    asked = parser.parse_args()
    _environment.ensure_environment("test")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        path = _browsers.find_browser()
        browser = driver.chromium.launch(executable_path=path, args=["--no-sandbox"])
        found = soak(browser, asked.changes, asked.hostile, asked.seed)
        browser.close()
    for fault in found.faults[:20]:
        print(fault)
    if found.times:
        print(f"Time {found.slower:.2f} times, memory {found.larger:.2f} times.")
    print(f"{found.links:,} links, {found.files:,} files, {len(found.faults)} faults.")
    if asked.write:
        sections.put(PAGE, HEADING, report(found, asked))
    return int(bool(found.faults))


if __name__ == "__main__":
    _setup.command(main)
