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
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from calc import model, quantities, search, worksheets

SILENT = model.Work(on=False)
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
        reading = quantities.parse(item.default, item.kind) if item.default else None
    except ValueError:
        reading = None
    if reading is not None and (usual is None or rng.random() < 0.6):
        middle = reading.middle * rng.uniform(0.7, 1.4)
    elif usual is not None:
        middle = rng.uniform(usual.low, usual.high)
    else:
        return item.default
    spread = 0.0 if exact else abs(middle) * rng.choice((0.01, 0.05, 0.15, 0.3)) * rng.random()
    ends = [min(max(end, low), high) for end in (middle - spread, middle + spread)]
    times, unit = (100.0, "%") if item.kind in ("fraction", "slope") else (1.0, _UNITS[item.kind])
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
            if draw < 0.5:
                inputs[item.name] = rng.choice(item.options).value
            elif draw < 0.6:
                inputs[item.name] = ""
        elif draw < share:
            inputs[item.name] = ""
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
    verdicts: Mapping[str, model.Verdict], outputs: Mapping[str, model.Output],
    outcome: model.Outcome,
) -> Iterator[str]:  # fmt: skip
    """Say what of an answer one point contradicts."""
    made = {check.name: check for check in outcome.checks}
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
            yield f"{name} was not seen and is over: {check.margin:.6g}"
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
    wrong: list[str] = field(default_factory=list)

    def row(self, name: str) -> str:
        """The tally as a line of text."""
        times = sorted(self.seconds) or [0.0]
        shares = " ".join(f"{self.standing[one]:>5}" for one in ("proved", "shown", "sampled"))
        return (
            f"{name:<14} {self.boxes:>5} {shares} {self.about / max(self.numbers, 1):>7.2%} "
            f"{self.points / max(self.boxes, 1):>7.0f} {1e3 * times[len(times) // 2]:>8.2f} "
            f"{1e3 * times[int(len(times) * 0.95)]:>8.1f} {1e3 * times[-1]:>8.1f} "
            f"{len(self.wrong):>5}"
        )


HEAD = (
    f"{'worksheet':<14} {'boxes':>5} proved shown sampl. {'about':>6} {'points':>7} {'median':>8} "
    f"{'95 %':>8} {'longest':>8} wrong   (milliseconds)"
)


def attack(sheet: model.Worksheet, inputs: Mapping[str, str], points: int, rng: random.Random,
           tally: Tally) -> None:  # fmt: skip
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
            tally.wrong.append(f"{sheet.name} {dict(inputs)} at {values}: {'; '.join(wrong)}")
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
        for wrong in tally.wrong[:3]:
            print("   ", wrong, flush=True)
    return tallies


_UNITS = _base_units()

if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name in ("seed", "boxes", "points"):
        parser.add_argument(name, type=int)
    parser.add_argument("--only", default="")
    given = parser.parse_args()
    tallies = run(given.seed, given.boxes, given.points, given.only)
    total = Tally()
    for tally in tallies.values():
        total.boxes += tally.boxes
        total.standing += tally.standing
        total.about += tally.about
        total.numbers += tally.numbers
        total.points += tally.points
        total.seconds += tally.seconds
        total.wrong += tally.wrong
    print(total.row("all"))
    sys.exit(1 if total.wrong else 0)
