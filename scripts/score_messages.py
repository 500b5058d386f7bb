"""Score the reader of messages on a file of messages with what should be found in them.

    python3 scripts/score_messages.py tests/data/messages_learn.csv [--show]
    python3 scripts/score_messages.py --write

A field counts as right where the question that was found takes the same value; a wrong field is
one that the message doesn't give, or not so. With --write the figures go onto the page about
measurements.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import csv
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from calc import reading, worksheets
from calc.machines.lists import reaching_shaft
from calc.quantities import Reading
from scripts import sections

DATA = Path(__file__).resolve().parent.parent / "tests" / "data"
REPORT = Path(__file__).resolve().parent.parent / "docs" / "about" / "measured.md"
HEADING = "## Reading messages"


@dataclass
class Score:
    """What was found of what should be, over a file."""

    right: int = 0
    wrong: int = 0
    missed: int = 0
    questions_right: int = 0
    questions_wrong: int = 0
    questions_missed: int = 0
    times: list[float] = field(default_factory=list)
    shown: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        times = sorted(self.times)
        found = self.right + self.wrong
        return (
            f"{len(times)} messages. Fields: {self.right} right, {self.wrong} wrong, "
            f"{self.missed} missed (precision {self.right / max(1, found):.1%}, found "
            f"{self.right / max(1, self.right + self.missed):.1%}). Questions: "
            f"{self.questions_right} right, {self.questions_wrong} wrong, "
            f"{self.questions_missed} missed. Time: {1e3 * times[len(times) // 2]:.2f} ms at the "
            f"middle, {1e3 * times[-1]:.1f} ms at most."
        )


def _names(worksheet: str) -> set[str]:
    return {item.name for item in worksheets.load(worksheet).fields}


def _same(worksheet: str, name: str, one: str, other: str) -> bool:
    item = worksheets.load(worksheet).field(name)
    a, b = item.read(one), item.read(other)
    if isinstance(a, Reading) and isinstance(b, Reading):
        slack = 1e-6 * max(1.0, abs(a.low))
        return abs(a.low - b.low) <= slack and abs(a.high - b.high) <= slack
    return bool(a == b)


def _wanted(row: dict[str, str], got: list[str]) -> tuple[list[set[str]], dict[str, str]]:
    """Return the questions that should be found, and the fields that those found can take."""
    questions = [set(each.split("/")) for each in row["questions"].split(";") if each]
    pool = [n for each in questions for n in ([g for g in got if g in each] or sorted(each))]
    parts = [part.split("=", 1) for part in row["fields"].split("; ") if part]
    # Where the engine's power isn't asked for, what of it reaches the PTO is given.
    parts += [
        ["pto_power", f"{reaching_shaft(text, 'hp')} hp"]
        for name, text in parts
        if name == "engine_power" and not any(name in _names(p) for p in pool)
    ]
    fields = {name: text for name, text in parts if any(name in _names(p) for p in pool)}
    return questions, fields


def score(path: Path) -> Score:
    """Score one file."""
    total = Score()
    with path.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            started = time.perf_counter()
            message = reading.read(row["message"])
            total.times.append(time.perf_counter() - started)
            _add(total, row, message)
    return total


def _add(total: Score, row: dict[str, str], message: reading.Message) -> None:
    got = [question.worksheet for question in message.questions]
    questions, fields = _wanted(row, got)
    hits = sum(any(g in each for g in got) for each in questions)
    extra = sum(not any(g in each for each in questions) for g in got)
    total.questions_right += hits
    total.questions_missed += len(questions) - hits
    total.questions_wrong += extra
    found: dict[str, bool] = {}
    for question in message.questions:
        for name, text in question.inputs.items():
            right = name in fields and _same(question.worksheet, name, fields[name], text)
            found[name] = found.get(name, True) and right
    missed = [name for name in fields if name not in found]
    wrong = [name for name, right in found.items() if not right]
    total.right += sum(found.values())
    total.wrong += len(wrong)
    total.missed += len(missed)
    if missed or wrong or extra or hits < len(questions):
        total.shown.append(f"{row['message']}\n    found {got}; missed {missed}; wrong {wrong}")


def _row(said: str, total: Score) -> str:
    return (
        f"| {said} | {total.right} | {total.wrong} | {total.missed} | {total.questions_right} | "
        f"{total.questions_wrong} | {total.questions_missed} |"
    )


def report() -> str:
    """Return the section of the page about measurements."""
    learn, kept = (score(DATA / f"messages_{name}.csv") for name in ("learn", "kept"))
    with (DATA / "messages_kept_first.csv").open(encoding="utf-8", newline="") as lines:
        counts: dict[str, Any] = {k: int(n) for k, n in next(csv.DictReader(lines)).items()}
        first = Score(**counts)
    middle = 1e3 * sorted(learn.times)[len(learn.times) // 2]
    rows = [
        _row("120 messages that the rules were made from", learn),
        _row("80 kept aside, scored once", first),
        _row("The same 80, once the rules that they showed wrong were mended", kept),
    ]
    return f"""{HEADING}

Written by `python3 scripts/score_messages.py --write`. The messages are of our own writing, with
what a careful person would find in them; they were split before the reader was written. A field is
*right* where it takes the value that the message gives, *wrong* where the message doesn't give it
or gives another, *missed* where it stays empty. The second row is the honest one.

| Messages | Fields right | Wrong | Missed | Questions right | Wrong | Missed |
| --- | --- | --- | --- | --- | --- | --- |
{chr(10).join(rows)}

Reading one took {middle:.1f} ms at the middle, in native Python; `python3 scripts/measure.py` times
it in the browser. Of 300 messages made from random sets of fields, each with its label before its
value, at least 98 in 100 are read back whole (`tests/reading/test_round_trip.py`).
"""


def main(words: list[str] | None = None) -> int:
    """Score the files that are named, and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="*", type=Path)
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    parser.add_argument("--show", action="store_true", help="print every message read otherwise")
    options = parser.parse_args(words)
    for path in options.files:
        total = score(path)
        for text in total.shown if options.show else []:
            print(text)
        print(f"{path.name}: {total}")
    if options.write:
        sections.put(REPORT, HEADING, report())
    return 0


if __name__ == "__main__":
    sys.exit(main())
