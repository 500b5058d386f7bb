"""Measure whether the number named first is the one to find: it, or another, given truly.

    python3 scripts/settling.py SEED BOXES TRUTHS [--only NAME] [--write]

Random boxes of every worksheet whose answer can't be told yet and names a number to find next.
For each, some machines of the box are taken for the true one. Of each, every uncertain number in
turn is given its true value, alone, and it is noted whether the answer is then settled. With
--write the figures go onto the page about measurements.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import random
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc import model, search, worksheets
from scripts import sections, soundness

HEADING = "## The number to find next"
SECONDS = 15.0  # of processor time, after which no further box of a worksheet is begun
TRIED = 4  # boxes looked at for each that is wanted: some worksheets leave few answers open


@dataclass
class Tally:
    """What came of giving one number."""

    boxes: int = 0
    truths: int = 0
    first: int = 0  # settled by the number named first
    either: int = 0  # by one or the other of the two that are named, each alone
    others: float = 0.0  # by another number, on the mean over all others
    best: int = 0  # by the best of the others, found by trying all on the same truths
    most: int = 0  # boxes in which no other number settles more often than the first named
    settled: int = 0  # boxes that any single number ever settles

    def add(self, other: "Tally") -> None:
        """Add the tally of another worksheet."""
        for name, value in vars(other).items():
            setattr(self, name, getattr(self, name) + value)

    def shares(self) -> tuple[float, float, float, float, float]:
        """First, either, mean of the others, best other in hindsight; boxes it is the most in."""
        of, boxes = max(self.truths, 1), max(self.settled, 1)
        parts = (self.first, self.either, self.others, self.best)
        return (*(part / of for part in parts), self.most / boxes)  # type: ignore[return-value]


def _text(dim: Any, value: Any, kind: str) -> str:
    """A true value as it would be typed."""
    if dim.options:
        return str(value)
    times, unit = (100.0, "%") if kind in ("fraction", "slope") else (1.0, soundness.UNITS[kind])
    return f"{value * times:.9g} {unit}".strip()


def _open(sheet: model.Worksheet, inputs: Mapping[str, str]) -> bool | None:
    """Whether the answer can't be told; None where the inputs are refused together."""
    try:
        box = search.read_box(sheet, inputs)
    except search.BadInputs:
        return None
    seen = search.Search(sheet, box)
    found = search.verdicts(seen, search.prove(seen, values=False))
    return model.finding_of(found, seen.unchecked(), sheet.ask("").checks) == model.UNKNOWN


def _boxes(
    sheet: model.Worksheet, rng: random.Random, count: int
) -> Iterator[tuple[dict[str, str], model.Answer]]:
    """Boxes whose answer names a number to find next."""
    start = time.process_time()
    for inputs in soundness.boxes(sheet, rng, TRIED * count):
        if time.process_time() - start > SECONDS:
            return
        if not _open(sheet, inputs):
            continue
        answer = search.answer_known(sheet, search.read(sheet, inputs))
        governed = any(item.governs for item in answer.unchecked)
        if answer.settles and not governed and answer.finding == model.UNKNOWN:
            count -= 1
            yield inputs, answer
        if not count:
            return


def _settled(
    sheet: model.Worksheet, inputs: Mapping[str, str], box: search.Box, truth: Mapping[str, Any]
) -> dict[str, bool]:
    """Whether each number of a true machine, given alone, settles the answer."""
    found: dict[str, bool] = {}
    for dim in box.dimensions:
        item = sheet.field(dim.name)
        text = _text(dim, truth[dim.name], getattr(item, "kind", ""))
        left = _open(sheet, {**inputs, dim.name: text})
        if left is not None:
            found[dim.name] = not left
    return found


def measure(sheet: model.Worksheet, rng: random.Random, count: int, truths: int) -> Tally:
    """Try so many boxes of a worksheet, as far as there are so many."""
    tally = Tally()
    for inputs, answer in _boxes(sheet, rng, count):
        box = search.read_box(sheet, inputs)
        named = [settle.field.name for settle in answer.settles]
        counts = {dim.name: 0 for dim in box.dimensions}
        either = 0
        for _ in range(truths):
            truth = {
                dim.name: rng.choice(dim.options) if dim.options else rng.uniform(dim.low, dim.high)
                for dim in box.dimensions
            }
            settled = _settled(sheet, inputs, box, truth)
            either += any(settled.get(name, False) for name in named)
            for name, yes in settled.items():
                counts[name] += yes
        others = [times for name, times in counts.items() if name != named[0]]
        tally.boxes += 1
        tally.truths += truths
        tally.first += counts[named[0]]
        tally.either += either
        tally.others += sum(others) / len(others) if others else 0.0
        tally.best += max(others, default=0)
        if any(counts.values()):
            tally.settled += 1
            tally.most += counts[named[0]] >= max(others, default=0)
    return tally


def run(seed: int, count: int, truths: int, only: str = "") -> dict[str, Tally]:
    """Try so many boxes, spread over all worksheets."""
    names = [name for name in worksheets.names() if not only or name == only]
    tallies: dict[str, Tally] = {}
    for name in names:
        rng = random.Random(f"settling {seed} {name}")
        tallies[name] = measure(worksheets.load(name), rng, -(-count // len(names)), truths)
        print(row(name, tallies[name]), flush=True)
    return tallies


def row(name: str, tally: Tally) -> str:
    """The tally as a row of a table."""
    shares = [f"{share:.1%}" for share in tally.shares()]
    return f"| {' | '.join([name, str(tally.boxes), *shares])} |"


def report(tallies: Mapping[str, Tally], given: argparse.Namespace) -> str:
    """The section of the page about measurements."""
    total = Tally()
    for tally in tallies.values():
        total.add(tally)
    rows = "\n".join(row(name, tally) for name, tally in tallies.items() if tally.boxes)
    return f"""{HEADING}

Written by `python3 scripts/settling.py {given.seed} {given.boxes} {given.truths} --write`. Random
sets of inputs whose answer can't be told yet and names what to find next. Of {given.truths}
machines in each, taken for the true one, every uncertain number in turn is given truly, alone.
*First*: how often the number named first settles the answer. *Either*: one of the two named, each
alone. *Others*: another number, on the mean. *Best other*: the best of the others, chosen by
trying all of them on the same machines. A calculator's
sets end after {SECONDS:.0f} s. *First is most*: sets, of those that a single number ever
settles, in which no other number settles more often.

| Calculator | Sets | First | Either | Others | Best other | First is most |
| --- | --- | --- | --- | --- | --- | --- |
{rows}
{row("All", total)}
"""


if __name__ == "__main__":
    given = soundness.arguments(__doc__, ("seed", "boxes", "truths"))
    tallies = run(given.seed, given.boxes, given.truths, given.only)
    if given.write:
        sections.put(soundness.REPORT, HEADING, report(tallies, given))
