"""Try to contradict what is found over ranges: random boxes, then many points in each.

    python3 scripts/soundness.py SEED BOXES POINTS [--only NAME] [--write]

For every worksheet in turn: a box in which each field is blank, a range, a value or a choice, by
chance; what the project finds of it; then that many points of the box, half of their values at
the ends. A point contradicts when it has a check missed that was found met (or met that was found
missed, or close where it was found clear), or a number outside the ends that were shown as true.
Contradictions are printed with what makes them again; with --write the figures go onto the page
about measurements.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import random
import time
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from calc import model, quantities, search, worksheets
from scripts import sections

SILENT = model.Work(on=False)
SEEN_ONLY = f"({model.SAMPLED})"
SLACK = 1e-8  # of a margin: what binary arithmetic may lose
SHORT = 0.01  # of a number's width: how far a point may lie outside ends shown as true


def _base_units() -> Mapping[str, str]:
    """The unit of each kind in which the package computes."""
    from calc import tables

    units: dict[str, str] = {}
    for row in tables.rows("words/units"):
        if float(row["factor"]) == 1.0 and not float(row.get("offset") or 0.0):
            units.setdefault(row["kind"], row["unit"])
    return units


def _typed(item: model.Field, rng: random.Random, *, exact: bool) -> str:
    """A value, or a range, of a field as somebody would type it."""
    low, high = quantities.base(item.low, item.kind), quantities.base(item.high, item.kind)
    usual = item.typical_for({}) if not callable(item.typical) else None
    try:
        reading = quantities.parse(item.example, item.kind) if item.example else None
    except ValueError:
        reading = None
    if reading is not None and (usual is None or rng.random() < 0.6):
        middle = reading.middle * rng.uniform(0.7, 1.4)
    elif usual is not None:
        middle = rng.uniform(usual.low, usual.high)
    else:
        return item.example
    spread = 0.0 if exact else abs(middle) * rng.choice((0.01, 0.05, 0.15, 0.3)) * rng.random()
    ends = [min(max(end, low), high) for end in (middle - spread, middle + spread)]
    times, unit = (100.0, "%") if item.kind in ("fraction", "slope") else (1.0, UNITS[item.kind])
    texts = [f"{end * times:.6g}" for end in ends]
    text = texts[0] if texts[0] == texts[1] else " to ".join(texts)
    return f"{text} {unit}".strip()


def random_inputs(sheet: model.Worksheet, rng: random.Random) -> dict[str, str]:
    """What somebody might give a worksheet: some of it, roughly."""
    share = rng.choice((0.15, 0.3, 0.5))  # of fields left blank
    inputs: dict[str, str] = {}
    for item in sheet.fields:
        draw = rng.random()
        if isinstance(item, model.Choice):
            if item.needed or draw < 0.5:
                inputs[item.name] = rng.choice(item.options).value
            elif draw < 0.6:
                inputs[item.name] = ""
        elif draw < share and not item.needed:
            inputs[item.name] = ""
        elif isinstance(item, model.Entry):
            inputs[item.name] = item.example
        elif isinstance(item, model.Field) and draw < share + 0.4:
            inputs[item.name] = _typed(item, rng, exact=draw < share + 0.15)
    return inputs


def boxes(sheet: model.Worksheet, rng: random.Random, count: int) -> Iterator[dict[str, str]]:
    """Give so many sets of inputs that the worksheet takes and that have a range."""
    tries = 0
    while count and tries < 40 * count + 400:
        tries += 1
        inputs = random_inputs(sheet, rng)
        try:
            box = search.read_box(sheet, inputs)
        except search.BadInputs:
            continue
        if box.dimensions:
            count -= 1
            yield inputs


def random_point(box: search.Box, rng: random.Random) -> dict[str, Any]:
    """A point of a box; about half of its values at their ends."""
    ends = rng.choice((0.2, 0.5, 1.0))
    return {
        dim.name: rng.choice(dim.options)
        if dim.options
        else rng.choice((dim.low, dim.high))
        if rng.random() < ends
        else rng.uniform(dim.low, dim.high)
        for dim in box.dimensions
    }


def contradictions(
    verdicts: Mapping[str, model.Verdict],
    outputs: Mapping[str, model.Output],
    outcome: model.Outcome,
) -> Iterator[str]:
    """Say what of an answer one point contradicts."""
    made = {check.name: check for check in outcome.checks}
    sampled = any(verdict.standing == model.SAMPLED for verdict in verdicts.values())
    whole = SEEN_ONLY if sampled else ""
    for name, verdict in verdicts.items():
        check = made.get(name)
        if verdict.finding == model.OVER and (check is None or check.margin >= 0.0):
            yield f"{name} ({verdict.standing}) is not over"
        elif check is not None and verdict.finding in (model.WITHIN, model.CLOSE):
            within = verdict.finding == model.WITHIN
            if check.margin < (check.close_band if within else 0.0) - SLACK:
                margin = f"{check.margin:.6g}"
                yield f"{name} ({verdict.standing}) is not {verdict.finding}: {margin}"
        shown = (verdict.value_low, verdict.value_high)
        if check is not None and not verdict.about and _outside(check.value, *shown):
            yield f"{name} shows {shown[0]:.6g} to {shown[1]:.6g}, not {check.value:.6g}"
    for name, check in made.items():
        if name not in verdicts and check.margin < -SLACK:
            yield f"{name} {whole} was not met and is over: {check.margin:.6g}"
    for one in outcome.outputs:
        output = outputs.get(one.name)
        if output is not None and not output.about:
            low = output.value if output.low is None else output.low
            high = output.value if output.high is None else output.high
            if _outside(one.value, low, high):
                yield f"output {one.name} shows {low:.6g} to {high:.6g}, not {one.value:.6g}"


def _outside(value: float, low: float, high: float) -> bool:
    room = SHORT * (high - low) + 1e-9 * max(abs(low), abs(high), 1e-9)
    return value < low - room or value > high + room


@dataclass
class Tally:
    """What was found of one worksheet's boxes."""

    boxes: int = 0
    standing: Counter[str] = field(default_factory=Counter)
    verdicts: Counter[str] = field(default_factory=Counter)
    about: int = 0
    numbers: int = 0
    points: int = 0
    seconds: list[float] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)  # of what was said to be proved, or exact
    missed: list[str] = field(default_factory=list)  # of what was said to be seen only

    def add(self, other: "Tally") -> None:
        """Add the tally of another worksheet."""
        self.boxes += other.boxes
        self.standing += other.standing
        self.about += other.about
        self.numbers += other.numbers
        self.points += other.points
        self.seconds += other.seconds
        self.wrong += other.wrong
        self.missed += other.missed

    @property
    def times(self) -> tuple[float, float, float]:
        """The median, the 95th percentile and the longest time of a search. [ms]"""
        times = sorted(self.seconds) or [0.0]
        shares = len(times) // 2, int(len(times) * 0.95), -1
        return tuple(1e3 * times[place] for place in shares)  # type: ignore[return-value]

    def row(self, name: str) -> str:
        """The tally as a line of text."""
        standing = " ".join(f"{self.standing[one]:>6}" for one in model.STANDINGS)
        times = " ".join(f"{one:>8.2f}" for one in self.times)
        return (
            f"{name:<14} {self.boxes:>6} {standing} {self.about / max(self.numbers, 1):>7.2%} "
            f"{self.points / max(self.boxes, 1):>7.0f} {times} {len(self.wrong):>5} "
            f"{len(self.missed):>6}"
        )

    def cells(self, name: str) -> str:
        """The tally as a row of a table."""
        shares = [f"{self.standing[one] / max(self.boxes, 1):.1%}" for one in model.STANDINGS]
        about = f"{self.about / max(self.numbers, 1):.1%}"
        times = [f"{one:.1f}" for one in self.times]
        found = [str(len(self.wrong)), str(len(self.missed))]
        return f"| {' | '.join([name, f'{self.boxes:,}', *shares, about, *times, *found])} |"


HEAD = (
    f"{'worksheet':<14} {'boxes':>6} proved  shown sampled  {'about':>6} {'points':>6} "
    f"{'median':>8} {'95 %':>8} {'longest':>8} wrong missed   (milliseconds)"
)


def attack(
    sheet: model.Worksheet, inputs: Mapping[str, str], points: int, rng: random.Random, tally: Tally
) -> None:
    """Find what the project finds of one box, then try to contradict it."""
    box = search.read_box(sheet, inputs)
    start = time.process_time()
    seen = search.Search(sheet, box)
    standing = search.prove(seen)
    found = search.verdicts(seen, standing)
    tally.seconds.append(time.process_time() - start)
    verdicts = {verdict.check.name: verdict for verdict in found}
    answer = search.answer(sheet, inputs)
    outputs = {output.name: output for output in answer.outputs}
    tally.boxes += 1
    tally.standing[answer.standing] += 1
    tally.verdicts.update(verdict.standing for verdict in found)
    tally.about += sum(verdict.about for verdict in found) + sum(o.about for o in answer.outputs)
    tally.numbers += len(found) + len(outputs)
    tally.points += seen.count
    for _ in range(points):
        values = random_point(box, rng)
        wrong = list(contradictions(verdicts, outputs, sheet.compute(box.point(values), SILENT)))
        if wrong:
            seen_only = all(SEEN_ONLY in text for text in wrong)
            kept = tally.missed if seen_only else tally.wrong
            kept.append(f"{sheet.name} {dict(inputs)} at {values}: {'; '.join(wrong)}")
            return


def run(seed: int, count: int, points: int, only: str = "") -> dict[str, Tally]:
    """Attack so many boxes, spread over all worksheets."""
    names = [name for name in worksheets.names() if not only or name == only]
    tallies: dict[str, Tally] = {}
    print(HEAD)
    for place, name in enumerate(names):
        tally = tallies[name] = Tally()
        sheet = worksheets.load(name)
        rng = random.Random(f"{seed} {name}")
        share = count // len(names) + (place < count % len(names))
        for inputs in boxes(sheet, rng, share):
            attack(sheet, inputs, points, rng, tally)
        print(tally.row(name), flush=True)
        for text in tally.wrong + tally.missed[:2]:
            print("   ", text, flush=True)
    return tallies


REPORT = Path(__file__).resolve().parent.parent / "docs" / "about" / "measured.md"
HEADING = "## Findings over ranges"
_COLUMNS = (
    "| Calculator | Sets | Proved | Shown | Seen | About "
    "| Median, ms | 95 % | Longest | Wrong | Missed |"
)


def report(tallies: Mapping[str, Tally], total: Tally, given: argparse.Namespace) -> str:
    """The section of the page about measurements."""
    rows = "\n".join(tally.cells(name) for name, tally in tallies.items())
    return f"""{HEADING}

Written by `python3 scripts/soundness.py {given.seed} {given.boxes} {given.points} --write`.
For each calculator, random sets of inputs, each field blank, a range, a value or a choice; then
{given.points:,} random points and corners of each, to contradict what was found. *Proved*:
the finding holds for every machine in the ranges. *Shown*: two machines in them differ, both
computed. *Seen*: so it was at every point computed, and no more is said. *About*: of the numbers
shown, those whose ends are not known to be the last ones. *Wrong*: sets in which a point
contradicts what was proved or shown as exact. *Missed*: sets in which a point contradicts what was
only seen. An answer that compares and has no limit, such as all of drive, has no finding to prove
and counts as proved. Times are of processor time for the proof and the search, native.

{_COLUMNS}
{"| --- " * _COLUMNS.count(" | ")}| --- |
{rows}
{total.cells("All")}
"""


UNITS = _base_units()


def arguments(told: str | None, numbers: Sequence[str]) -> argparse.Namespace:
    """Return the command's words: some numbers, --only and --write."""
    parser = argparse.ArgumentParser(description=(told or "").partition("\n")[0])
    for name in numbers:
        parser.add_argument(name, type=int)
    parser.add_argument("--only", default="", help="one worksheet")
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    return parser.parse_args()


if __name__ == "__main__":
    given = arguments(__doc__, ("seed", "boxes", "points"))
    tallies, total = run(given.seed, given.boxes, given.points, given.only), Tally()
    for tally in tallies.values():
        total.add(tally)
    print(total.row("all"))
    if given.write:
        sections.put(REPORT, HEADING, report(tallies, total, given))
    sys.exit(1 if total.wrong or total.missed else 0)
