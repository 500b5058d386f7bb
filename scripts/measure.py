"""Measure what a reader waits for, and write the figures where readers can see them."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import datetime
import functools
import gzip
import json
import os
import platform
import shutil
import statistics
import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from scripts import _browsers, _environment, _node, _setup, reading_time, visits

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

SITE = _setup.WORK / "measure-site"
UNTOUCHED = _setup.WORK / "measure-untouched"
REPORT = _setup.ROOT / "docs" / "about" / "measured.md"
CHANGES = 40
LIVE = ".ys[data-engine=ready]"
EXACT = {"implement_mass": "500 lb", "cg_distance": "34 in"}
UNKNOWN = (
    "tractor_mass",
    "implement_mass",
    "wheelbase",
    "hitch_distance",
    "front_share",
    "cg_height",
)

# What a page does that takes the runtime as it comes: its own loader, its own index, its whole
# library, and the package unpacked by Python, once the page has been read.
PLAIN_WORKER = """
async function start(folder) {
  importScripts(folder + 'pyodide.js');
  const python = await loadPyodide({ indexURL: folder });
  const packages = await (await fetch(folder + 'packages.zip')).arrayBuffer();
  python.unpackArchive(packages, 'zip', { extractDir: '/lib/python3.13/site-packages' });
  return python.pyimport('calc.render.live');
}
const ready = start(new URL('.', location.href).href);
ready.then(() => postMessage({ kind: 'ready' }));
onmessage = async ({ data }) => {
  const { respond } = await ready;
  postMessage({ kind: 'answer', id: data.id, response: respond(data.request) });
};
"""


def _zipped(data: bytes) -> int:
    return len(gzip.compress(data, compresslevel=9, mtime=0))


def _build() -> None:
    """Build the site, and the same site on the untouched runtime with the same package."""
    from scripts import build, client, runtime

    shutil.rmtree(SITE, ignore_errors=True)
    build.build(SITE)
    made = runtime.build()
    shutil.rmtree(UNTOUCHED, ignore_errors=True)
    shutil.copytree(SITE, UNTOUCHED)
    place = UNTOUCHED / "assets" / str(made.manifest["folder"])
    npm = _node.ensure_npm_packages() / "pyodide"
    untouched = ("pyodide.asm.js", "pyodide.asm.wasm", "pyodide.js", "python_stdlib.zip")
    for name in (*untouched, "pyodide-lock.json"):
        shutil.copyfile(npm / name, place / name)
    (place / "packages.zip").write_bytes(runtime.package_sources())
    (place / "worker.js").write_text(PLAIN_WORKER, encoding="utf-8")
    for page in UNTOUCHED.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        page.write_text(
            text.replace(f"<script>{client.first_script()}</script>", ""), encoding="utf-8"
        )


def _bytes(browser: Browser) -> dict[str, Any]:
    """Return what a visit to one page loads, by what it is; the page gzipped."""
    asked: set[str] = set()
    context = browser.new_context()
    page = context.new_page()
    with visits.served(SITE) as address:
        # What the worker loads is read from the folder: not every browser reports it.
        page.on("request", lambda request: asked.add(request.url.split("#")[0]))
        page.goto(f"{address}pairing/")
        page.wait_for_selector(LIVE, state="attached", timeout=60_000)
        context.close()
        places = {url: SITE / url.removeprefix(address) for url in asked if "/runtime/" not in url}
    loaded = {
        url: (path / "index.html" if path.is_dir() else path).read_bytes()
        for url, path in places.items()
    }
    runtime = next((SITE / "assets" / "runtime").iterdir())
    pages = (".html", "/", ".css", ".js")
    return {
        "runtime": visits.wire(runtime),
        "reading": visits.wire(runtime, "")["brotli"],
        "memory": (runtime / "memory.gz").stat().st_size,
        "page": sum(_zipped(data) for url, data in loaded.items() if url.endswith(pages)),
    }


def _changes(browser: Browser) -> dict[str, Any]:
    """Return the milliseconds from a change of one field to its answer on the screen."""
    context = browser.new_context()
    page = context.new_page()
    with visits.served(SITE) as address:
        page.goto(f"{address}pairing/#{visits.given(**EXACT)}")
        page.wait_for_selector(LIVE, state="attached", timeout=60_000)
        _change(page, "working_width", "47 in")
        exact = [_change(page, "working_width", f"{40 + n / 2:g} in")[-1] for n in range(CHANGES)]
        for name in UNKNOWN:
            _change(page, name, "")
        unknown = [_change(page, "working_width", f"{40 + n} in") for n in range(10)]
    context.close()
    return {
        "exact, median, ms": statistics.median(exact),
        "exact, 95th percentile, ms": statistics.quantiles(exact, n=20)[-1],
        "six unknown, first part, median, ms": statistics.median(each[0] for each in unknown),
        "six unknown, whole, median, ms": statistics.median(each[-1] for each in unknown),
        "six unknown, whole, longest, ms": max(each[-1] for each in unknown),
    }


def _change(page: Page, name: str, value: str) -> list[float]:
    page.wait_for_timeout(200)  # a change on its own, not one of a burst
    return visits.changed(page, name, value)


def _matrix() -> dict[str, Any]:
    """Return the time per cell of a matrix of the demo machines, repeated to the size."""
    from calc import machines, matrix

    tractors, implements = machines.demo("tractor"), machines.demo("implement")

    def per_cell(size: int) -> float:
        rows = [tractors[n % len(tractors)] for n in range(size)]
        columns = [implements[n % len(implements)] for n in range(size)]
        start = time.perf_counter()
        matrix.build(rows, columns)
        return (time.perf_counter() - start) / size**2 * 1000

    small, large = per_cell(10), per_cell(30)
    return {"10 x 10, ms a cell": small, "30 x 30, ms a cell": large, "growth": large / small}


def _computes() -> dict[str, Any]:
    """Return the longest time that one run of a calculator's sums takes, and which it is. [ms]"""
    from timeit import repeat

    from calc import model, search, worksheets

    taken = {}
    for name in worksheets.names():
        sheet = worksheets.load(name)
        box = search.read_box(sheet, {}, example=True)
        point = box.point({dim.name: dim.middle for dim in box.dimensions})

        def once(sheet: model.Worksheet = sheet, point: model.Inputs = point) -> None:
            sheet.compute(point, model.Work(on=False))

        taken[name] = min(repeat(once, number=20, repeat=5)) / 20 * 1000
    slowest = max(taken, key=lambda name: taken[name])
    return {"slowest": slowest, "ms": taken[slowest]}


def _machine(browser: Browser) -> str:
    model = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.is_file():
        names = [line for line in info.read_text().splitlines() if line.startswith("model name")]
        model = names[0].split(":", 1)[1].strip() if names else model
    memory = ""
    if hasattr(os, "sysconf") and "SC_PHYS_PAGES" in os.sysconf_names:
        pages = os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE")
        memory = f", {pages / 2**30:.0f} GiB of memory"
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return (
        f"{model}, {cores} cores{memory}; {platform.system()}; "
        f"Chromium {browser.version}; Python {platform.python_version()}"
    )


Row = tuple[str, str, str]


def _rows(found: dict[str, dict[str, Any]]) -> list[Row]:
    """Return each figure in words, with what is wanted of it."""
    parts = ("start", "slow", "bytes", "change", "reading", "matrix", "computes")
    start, slow, size, change, reading, cells, sums = (found[name] for name in parts)
    wire = size["runtime"]
    return [
        (
            f"Page start to the first answer computed in the browser, median of {visits.STARTS}",
            f"{start['first']:.2f} s",
            "",
        ),
        (
            "The same on the untouched runtime with the same package",
            f"{start['untouched']:.2f} s",
            "",
        ),
        ("Ratio of the two (it was 0.41)", f"{start['ratio']:.2f}", "at most 0.28"),
        ("Page start to the whole answer, ranges searched", f"{start['whole']:.2f} s", ""),
        (
            "A later visit, the site kept on the device: page start to the first answer",
            f"{start['again']:.2f} s",
            "",
        ),
        ("The same on the untouched runtime", f"{start['untouched again']:.2f} s", ""),
        (
            "Ratio of the two (it was 0.38 to 0.45)",
            f"{start['ratio again']:.2f}",
            "at most 0.25",
        ),
        (
            "At 1.6 Mbit/s with 150 ms of latency, from a host with brotli: readable page with its "
            "example's answer",
            f"{slow['readable']:.1f} s",
            "at most 0.6 s",
        ),
        ("The same: first answer (it was 22 s)", f"{slow['first']:.1f} s", "at most 12 s"),
        ("The same: reloaded (it was 1.8 s)", f"{slow['reload']:.1f} s", "at most 1.2 s"),
        (
            "Bytes of Python on a slow link, from a host that compresses with brotli (it was 4.14)",
            f"{wire['brotli'] / 1e6:.2f} MB",
            "at most 2.5 MB",
        ),
        (
            "The same, gzip (it was 4.74)",
            f"{wire['gzip'] / 1e6:.2f} MB",
            "at most 3.2 MB",
        ),
        ("The same, no compression", f"{wire['nothing'] / 1e6:.2f} MB", "at most 3.5 MB"),
        (
            "For a page that reads messages or has several calculators, brotli",
            f"{size['reading'] / 1e6:.2f} MB",
            "",
        ),
        (
            "Memory of a started Python, in the library's place on a quick link",
            f"{size['memory'] / 1e6:.2f} MB",
            "",
        ),
        (
            "HTML, CSS and scripts of the pairing page, gzipped",
            f"{size['page'] / 1e3:.0f} kB",
            "at most 200 kB",
        ),
        (
            "One field changed to the new answer on screen, exact inputs, median (it was 28)",
            f"{change['exact, median, ms']:.0f} ms",
            "at most 16 ms",
        ),
        (
            "The same, 95th percentile (it was 47)",
            f"{change['exact, 95th percentile, ms']:.0f} ms",
            "at most 33 ms",
        ),
        (
            "With six unknown inputs: the first part on screen, median (it was 23)",
            f"{change['six unknown, first part, median, ms']:.0f} ms",
            "at most 16 ms",
        ),
        (
            "With six unknown inputs: the whole answer, longest of 10 (it was 166)",
            f"{change['six unknown, whole, longest, ms']:.0f} ms",
            "at most 100 ms",
        ),
        (
            "A customer's message read in the browser, median of those kept aside",
            f"{reading['median, ms']:.0f} ms",
            "at most 50 ms",
        ),
        ("The same, 95th percentile", f"{reading['95th percentile, ms']:.0f} ms", "at most 50 ms"),
        (
            "A 10 by 10 matrix, native, for each cell (it was 7.9)",
            f"{cells['10 x 10, ms a cell']:.2f} ms",
            "at most 0.7 ms",
        ),
        (
            "A 30 by 30 matrix, native, for each cell",
            f"{cells['30 x 30, ms a cell']:.2f} ms",
            "",
        ),
        ("Growth of the time for each cell", f"{cells['growth']:.2f} times", ""),
        (
            f"One run of the sums, native, of the slowest calculator ({sums['slowest']})",
            f"{sums['ms']:.2f} ms",
            "at most 0.30 ms",
        ),
    ]


def _report(rows: list[Row], machine: str) -> str:
    table = "\n".join(f"| {name} | {figure} | {wanted or '—'} |" for name, figure, wanted in rows)
    return f"""---
title: Measured
---

# How fast it is, and how large

These figures were written by `python3 scripts/measure.py` in one run on one machine. Files came
over the loopback address, so a real network adds its own time for the bytes listed. The untouched
runtime is the npm package as it comes, in the same pages: its whole script and library, calc as
source, unpacked by Python, and begun when the page has been read. A first visit is one in a browser
that has nothing of the site, with inputs in the address. What a figure was, before the runtime was
made lighter, stands behind it.

- Date: {datetime.date.today().isoformat()}
- Machine: {machine}

| What | Measured | Wanted |
| --- | --- | --- |
{table}
"""


def measure() -> tuple[list[Row], str, dict[str, Any]]:
    """Build, measure everything, and return the rows, the machine, and the raw figures."""
    from playwright.sync_api import sync_playwright

    _build()
    steps: dict[str, Callable[[Any], dict[str, Any]]] = {
        "start": lambda browser: visits.starts(browser, SITE, UNTOUCHED),
        "slow": lambda browser: visits.slow(browser, SITE),
        "bytes": _bytes,
        "change": _changes,
        "reading": lambda browser: reading_time.times(browser, SITE),
        "matrix": lambda _: _matrix(),
        "computes": lambda _: _computes(),
    }
    found: dict[str, Any] = {}
    with sync_playwright() as driver:
        launch = functools.partial(driver.chromium.launch, executable_path=_browsers.find_browser())
        browser = launch(args=["--no-sandbox", "--disable-gpu"])
        machine = _machine(browser)
        for name, step in steps.items():
            _setup.say(f"Measuring: {name} ...")
            found[name] = step(browser)
        browser.close()
    return _rows(found), machine, found


def main() -> int:
    """Measure, print, and write the page."""
    parser = argparse.ArgumentParser(prog="scripts/measure.py", description=__doc__)
    parser.add_argument("--print", action="store_true", help="leave the page in docs/ alone")
    options = parser.parse_args()
    _environment.ensure_environment("test")
    _browsers.ensure_browser()
    rows, machine, found = measure()
    print(machine)
    for name, figure, wanted in rows:
        print(f"{figure:>12}  {name}" + (f"  ({wanted})" if wanted else ""))
    print(json.dumps(found))
    if not options.print:
        # What other scripts measured stands below, each under its own heading.
        _, heading, others = REPORT.read_text(encoding="utf-8").partition("\n## ")
        REPORT.write_text(_report(rows, machine) + heading + others, encoding="utf-8")
        _setup.say(f"Wrote {REPORT.relative_to(_setup.ROOT)}")
    return 0


if __name__ == "__main__":
    _setup.command(main)
