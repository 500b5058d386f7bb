"""Try everything that can be typed, linked or brought in a file, and look for what must never be.

    python3 scripts/fuzz.py SEED COUNT [--only NAME] [--workers N] [--write]

For every worksheet in turn random inputs: each field blank, a value near a limit or anywhere, a
range, an option or a hostile text; any of its asks, either system of units. Then links, lists of
machines, round-ups and settings of shops, both broken and made whole. What must hold:

- never an exception, and JSON without NaN;
- no page, picture or reply with "nan" or "inf" in it, or with what rounding left as a number;
- what is refused is refused in whole sentences;
- what a remedy puts in to be tried is taken by its field, and inside its limits.

What fails is cut down to the fewest inputs that still fail, and printed once for each kind of
fault; the same seed and count do the same again, with any number of workers. NAME is a worksheet,
"links", "lists" or "shops".
With --write the figures go onto the page about testing.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from typing import Any

import hypothesis

from calc import quantities, worksheets
from scripts import sections
from scripts.faults import Tally, kind_of, thrown
from scripts.fuzz_files import OTHERS
from scripts.fuzz_worksheets import fuzz_worksheet

SUBJECTS = (*worksheets.names(), *OTHERS)


def fuzz(name: str, seed: int, count: int) -> Tally:
    """Try so many cases of one subject, and return what was wrong."""
    cases, attempt = OTHERS.get(name) or fuzz_worksheet(name)
    tally = Tally()

    @hypothesis.seed(f"{seed} {name}")
    @hypothesis.settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[hypothesis.Phase.generate],
        suppress_health_check=list(hypothesis.HealthCheck),
    )
    @hypothesis.given(cases)
    def every(case: Any) -> None:
        tally.count += 1
        try:
            attempt(case, tally)
        except Exception as error:
            tally.note(kind_of(thrown(error)), case)

    every()
    return tally


def run(seed: int, count: int, only: str = "", workers: int = 1) -> dict[str, Tally]:
    """Try so many cases, spread over all subjects, and print what was wrong."""
    names = [only] if only else list(SUBJECTS)
    shares = [count // len(names) + (place < count % len(names)) for place, _ in enumerate(names)]
    tallies = {}
    with ProcessPoolExecutor(workers) as pool:
        found = pool.map(_fuzz, zip(names, [seed] * len(names), shares, strict=True))
        for name, tally in zip(names, found, strict=True):
            tallies[name] = tally
            print(f"{name:<14} {tally.count:>8,} tried {tally.taken:>8,} taken", flush=True)
            for fault, case in tally.faults.items():
                print(f"    {fault}\n        {case[:600]}", flush=True)
    return tallies


def _fuzz(share: tuple[str, int, int]) -> Tally:
    """One subject's share, with its cases as text, which passes between processes."""
    name, seed, count = share
    tally = fuzz(name, seed, count) if count else Tally()
    return replace(tally, faults={fault: str(case) for fault, case in tally.faults.items()})


PAGE = Path(__file__).resolve().parent.parent / "docs" / "about" / "testing.md"
HEADING = "## Random and hostile inputs"


def report(tallies: Mapping[str, Tally], asked: argparse.Namespace) -> str:
    """The section of the page about testing."""
    parts = {name: tallies[name].count for name in OTHERS if name in tallies}
    typed = sum(tally.count for name, tally in tallies.items() if name not in OTHERS)
    taken = sum(tally.taken for name, tally in tallies.items() if name not in OTHERS)
    faults = sum(len(tally.faults) for tally in tallies.values())
    brought = quantities.joined([f"{count:,} of {name}" for name, count in parts.items()])
    return f"""{HEADING}

Written by `python3 scripts/fuzz.py {asked.seed} {asked.count} --write`. Every calculator is given
what somebody might type and what nobody should: blanks, ranges, values at the limits and far past
them, every question, both systems of units, texts that aren't numbers. Links, lists of machines and
folders of shops are made up and broken in the same way. Nothing may break off; no page or reply may
show what is no number; what is refused is refused in sentences; what a remedy puts in is taken.

Tried: {typed:,} sets of inputs, of which {taken:,} were answered and the others refused, and
{brought}. Kinds of fault found: {faults}.
"""


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("seed", type=int)
    parser.add_argument("count", type=int)
    parser.add_argument("--only", default="", choices=("", *SUBJECTS))
    parser.add_argument("--workers", type=int, default=1, help="so many processes")
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    given = parser.parse_args()
    found = run(given.seed, given.count, given.only, given.workers)
    wrong = sum(len(tally.faults) for tally in found.values())
    tried = sum(tally.count for tally in found.values())
    print(f"Seed {given.seed}: {tried:,} tried, {wrong} kinds of fault.")
    if given.write:
        sections.put(PAGE, HEADING, report(found, given))
    sys.exit(bool(wrong))
