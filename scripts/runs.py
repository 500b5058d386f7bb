"""Find which functions of the runtime run, and write them to scripts/wasm/runs.json.

All worksheets, with good inputs and bad, ranges and messages, are answered by a runtime that notes
what it calls, under node and in Chromium, from its library and from its memory. What isn't called
goes into a file of its own that hardly anybody loads. To be run again when the runtime is of
another version; until then the build keeps that one in one file.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import hashlib
import json
import shutil
from collections.abc import Iterable

from scripts import _environment, _setup

PLACE = _setup.WORK / "runs"
# As the client's worker does it, but with every request in hand.
WORKER = """
importScripts("python.js");
const folder = new URL(".", location.href).href;
let running;
for (const way of ["instantiate", "instantiateStreaming"]) {
  const usual = WebAssembly[way];
  WebAssembly[way] = async (given, imports) => {
    const made = await usual.call(WebAssembly, given, imports);
    if (imports?.env && made.instance) running = made.instance.exports;
    return made;
  };
}
const bytes = async (name) => new Uint8Array(await (await fetch(folder + name)).arrayBuffer());
(async () => {
  const memory = location.hash ? { _loadSnapshot: await bytes("memory") } : {};
  const python = await loadPyodide({
    indexURL: folder, stdLibURL: folder + "library.zip", lockFileContents: INDEX, ...memory,
  });
  python.pyimport("dataclass_methods");
  const { respond } = python.pyimport("calc.render.live");
  for (const request of await (await fetch(folder + "requests.json")).json()) respond(request);
  const ran = Object.keys(running).filter((name) => /^hit\\d+$/.test(name) && running[name].value);
  postMessage(ran.map((name) => Number(name.slice(3))));
})().catch((problem) => postMessage(String(problem)));
"""
ASK = """
(way) => new Promise((resolve) => {
  new Worker("/worker.js" + way).onmessage = ({ data }) => resolve(data);
})
"""


def requests(number: int | None) -> list[str]:
    """Return what is asked: the requests of `scripts/vectors.py` and some drawn.

    Of those that are no probes about `number`, if given. What a page adds is added to some.
    """
    from scripts import vectors

    shown = {
        "link": "https://yard.test/#a=b",
        "short_link": "https://yard.test/#a",
        "about": "The small one",
        "sender": "The yard",
    }
    probes = vectors.probes()
    others = [text for text in vectors.requests() if text not in probes] + vectors.fresh(1, 200)
    for text in probes:
        if '"inputs"' in text:
            asked = json.loads(text)
            others += [
                json.dumps({**asked, **shown, "stage": stage}) for stage in ("effects", "replies")
            ]
    # A reader who has given one number so far.
    for text in probes:
        asked = json.loads(text) if '"stage": "exact"' in text else {}
        for name, value in asked.get("inputs", {}).items():
            others += [
                json.dumps({**asked, **shown, "inputs": {name: value}, "stage": stage})
                for stage in ("exact", "full")
            ]
    step = max(1, len(others) // number) if number else 1
    # First a visit: what is kept from one question to the next changes what runs for another.
    return [*_visits(shown), *probes, *others[::step]]


def _visits(shown: dict[str, str]) -> list[str]:
    """Return what the page asks for that shows all numbers of its example, and then for changes."""
    from calc import worksheets

    sheet = worksheets.load("pairing")
    examples = {name: text for name, text in sheet.examples().items() if text}
    asked = {**shown, "worksheet": "pairing", "ask": sheet.asks[0].key, "example": False}
    return [
        json.dumps({**asked, "inputs": {**examples, "working_width": width}, "stage": stage})
        for width in ("48 in", "44 to 50 in", "72 in")
        for stage in ("exact", "full", "odds", "effects", "replies")
    ]


def as_ranges(numbers: Iterable[int]) -> str:
    """Return numbers as text, those in a row by the first and the last ("3 5-7")."""
    rows: list[list[int]] = []
    for number in sorted(set(numbers)):
        if rows and number == rows[-1][-1] + 1:
            rows[-1][1:] = [number]
        else:
            rows.append([number])
    return " ".join("-".join(map(str, row)) for row in rows)


def numbers(text: str) -> set[int]:
    """Return the numbers that `as_ranges` wrote."""
    found: set[int] = set()
    for row in text.split():
        first, _, last = row.partition("-")
        found |= set(range(int(first), int(last or first) + 1))
    return found


def _prepare(number: int | None) -> None:
    """Put the runtime, with one that notes what it calls, into `PLACE`."""
    import gzip

    from scripts import runtime, smaller

    with _setup.one_at_a_time():
        built = runtime.build()
    shutil.rmtree(PLACE, ignore_errors=True)
    PLACE.mkdir(parents=True)
    for name in (runtime.SCRIPT, runtime.LIBRARY):
        shutil.copyfile(built.folder / name, PLACE / name)
    for name, packed in (("library.zip", runtime.LIBRARY), ("memory", runtime.SNAPSHOT)):
        (PLACE / name).write_bytes(gzip.decompress((built.folder / packed).read_bytes()))
    smaller.instrumented(PLACE / runtime.SCRIPT, PLACE / smaller.WASM)
    (PLACE / "manifest.json").write_text(json.dumps({**built.manifest, "cold": None}))
    (PLACE / "requests.json").write_text(json.dumps(requests(number)))
    index = json.dumps(built.manifest["index"])
    (PLACE / "worker.js").write_text(WORKER.replace("INDEX", index))
    (PLACE / "index.html").write_text("<!doctype html><title>What runs</title>")


def _in_node() -> set[int]:
    """Return the functions that run under node."""
    from scripts import _node, runtime

    found: set[int] = set()
    for memory in ([], [PLACE / "memory"]):
        files = [PLACE / name for name in (runtime.SCRIPT, "manifest.json", "requests.json")]
        printed = _node.node(runtime.PROBE, "ran", *files, *memory)
        found |= set(json.loads(printed.strip().splitlines()[-1]))
    return found


def _in_chromium() -> set[int]:
    """Return the functions that run in a browser."""
    from playwright.sync_api import sync_playwright

    from scripts import _browsers, visits

    found: set[int] = set()
    with sync_playwright() as driver, visits.served(PLACE) as address:
        browser = driver.chromium.launch(
            executable_path=_browsers.find_shell(), args=["--no-sandbox"]
        )
        for way in ("", "#memory"):
            page = browser.new_page()
            page.set_default_timeout(0)
            page.goto(address)
            ran = page.evaluate(ASK, way)
            if not isinstance(ran, list):
                raise _setup.SetupError(f"Chromium could not run it: {ran}")
            found |= set(ran)
        browser.close()
    return found


def main() -> int:
    """Run everything, and write or compare what was called."""
    from scripts import smaller

    parser = argparse.ArgumentParser(prog="scripts/runs.py", description=__doc__)
    parser.add_argument("--write", action="store_true", help="write what was found")
    parser.add_argument("--requests", type=int, metavar="N", help="ask about so many, not all")
    options = parser.parse_args()
    _environment.ensure_environment()
    _prepare(options.requests)
    ways = {"node": _in_node(), "Chromium": _in_chromium()}
    sha256 = hashlib.sha256(smaller.whole()[smaller.WASM]).hexdigest()
    noted = json.loads(smaller.RUNS.read_text()) if smaller.RUNS.is_file() else {}
    known = numbers(noted["functions"]) if noted.get("sha256") == sha256 else set()
    for name, ran in ways.items():
        _setup.say(f"{name}: {len(ran)} functions run.")
    ran = set().union(*ways.values())
    _setup.say(f"Together {len(ran)}, of which {len(ran - known)} are new.")
    if options.write:
        # What ran once stays: when memory is tidied up, for one, hangs on the machine.
        said = {"sha256": sha256, "functions": as_ranges(ran | known)}
        smaller.RUNS.write_text(json.dumps(said, indent=1) + "\n", encoding="utf-8")
    elif ran - known:
        _setup.say(
            f"New are {as_ranges(ran - known)}; --write adds them to scripts/wasm/runs.json."
        )
    return 0


if __name__ == "__main__":
    _setup.command(main)
