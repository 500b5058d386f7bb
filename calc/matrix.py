"""Two lists, of tractors and of implements: a finding for every pairing."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc import links, model, search, worksheets
from calc.machines import Machine, read_machines
from calc.model import Worksheet, sentences


@dataclass(frozen=True, slots=True)
class Cell:
    """The finding of one pairing, its deciding check, and the inputs of its link."""

    finding: str
    check: str  # its name
    title: str
    margin: float
    sentence: str
    inputs: dict[str, str]


@dataclass(frozen=True, slots=True)
class Matrix:
    """Every pairing of two lists, and what was wrong with them, line and column named."""

    tractors: tuple[Machine, ...]
    implements: tuple[Machine, ...]
    cells: tuple[tuple[Cell, ...], ...]
    problems: tuple[str, ...]


def pair(
    tractor: Machine,
    implement: Machine,
    sheet: Worksheet | None = None,
    system: str = "us",
    job: Mapping[str, str] | None = None,
) -> Cell:
    """Return the finding of one pairing, in the job given; what nobody gave is unknown."""
    sheet = sheet or worksheets.load("pairing")
    names = [item.name for item in sheet.fields]
    known = {name: text for name, text in (job or {}).items() if name in names}
    inputs = {**tractor.fill(names), **implement.fill(names), **known}
    try:
        box = search.read_box(sheet, inputs)
    except search.BadInputs as bad:
        return Cell(model.UNKNOWN, "", "", 0.0, " ".join(bad.errors.values()), inputs)
    if box.missing:
        return Cell(model.UNKNOWN, "", "", 0.0, sentences.missing_sentence(box.missing), inputs)
    deciding = search.foremost(search.Search(sheet, box))
    return Cell(
        deciding.finding,
        deciding.check.name,
        deciding.check.title,
        deciding.margin_low,
        sentences.check_sentence(deciding, system),
        inputs,
    )


def build(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str = "us",
    job: Mapping[str, str] | None = None,
) -> Matrix:
    """Return every pairing of two lists."""
    sheet = worksheets.load("pairing")
    cells = tuple(
        tuple(pair(tractor, implement, sheet, system, job) for implement in implements)
        for tractor in tractors
    )
    return Matrix(tuple(tractors), tuple(implements), cells, ())


def from_text(
    tractors: str,
    implements: str,
    job: Mapping[str, str] | None = None,
    where: tuple[str, str] = ("", ""),
) -> Matrix:
    """Return every pairing of two CSV texts, with what was wrong in them.

    `where` names their files, for the sentences.

    Raises
    ------
    search.BadInputs
        When the job can't be read.
    """
    search.read_box(worksheets.load("pairing"), job or {})
    first, first_problems = read_machines(tractors, "tractor", where[0])
    second, second_problems = read_machines(implements, "implement", where[1])
    built = build(first, second, job=job)
    return Matrix(first, second, built.cells, (*first_problems, *second_problems))


def link(cell: Cell) -> str:
    """Return the part of a link after the # that opens the filled-in pairing."""
    return links.write(cell.inputs)


# A spreadsheet takes a cell that begins so for a formula, and would carry it out.
# Some programs take the wide forms of these signs for them.
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def _as_text(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula: an apostrophe marks it as text."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell


def as_csv(matrix: Matrix) -> str:
    """Return a matrix as CSV: one line for each pairing."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["tractor", "implement", "finding", "deciding_check", "sentence", "link"])
    for tractor, row in zip(matrix.tractors, matrix.cells, strict=True):
        for implement, cell in zip(matrix.implements, row, strict=True):
            words = model.FINDING_WORDS[cell.finding]
            found = (words, cell.check, cell.sentence, f"#{link(cell)}")
            writer.writerow([_as_text(text) for text in (tractor.name, implement.name, *found)])
    return out.getvalue()
