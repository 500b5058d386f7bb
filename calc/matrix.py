"""Two lists, of tractors and of implements: a finding for every pairing."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from calc import links, model, search, worksheets
from calc.machines import Machine, lists, read_machines
from calc.model import Worksheet, sentences

if TYPE_CHECKING:
    from concurrent.futures import Executor

# The job that a list is shown in where nobody says one; the page says it in words.
JOB = {"material": "light", "slope": "5 %", "ground_speed": "3 mph", "altitude": "500 ft"}


@dataclass(frozen=True, slots=True)
class Cell:
    """The finding of one pairing, its deciding check, and the inputs of its link."""

    finding: str
    check: str  # its name
    title: str
    margin: float
    sentence: str
    inputs: dict[str, str]
    loader: str = ""  # "on" or "off" where that was said or tried
    other: Cell | None = None  # the same with the loader off, where that is another finding


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
    """Return the finding of one pairing, in the job given; what nobody gave is unknown.

    Where nobody said whether the loader is on, it is tried both ways.
    """
    sheet = sheet or worksheets.load("pairing")
    names = [item.name for item in sheet.fields]
    known = {name: text for name, text in (job or {}).items() if name in names}
    inputs = {**tractor.fill(names), **implement.fill(names), **known}
    if inputs.get("loader"):
        return _cell(sheet, inputs, system)
    on, off = (_cell(sheet, {**inputs, "loader": state}, system) for state in ("on", "off"))
    return on if on.finding == off.finding else replace(on, other=off)


def _cell(sheet: Worksheet, inputs: dict[str, str], system: str) -> Cell:
    """Return the finding of one set of inputs."""
    loader = inputs.get("loader", "")
    try:
        box = search.read_box(sheet, inputs)
    except search.BadInputs as bad:
        return Cell(model.UNKNOWN, "", "", 0.0, " ".join(bad.errors.values()), inputs, loader)
    if box.missing:
        said = sentences.missing_sentence(box.missing)
        return Cell(model.UNKNOWN, "", "", 0.0, said, inputs, loader)
    looked = search.Search(sheet, box)
    deciding = search.foremost(looked)
    finding = model.finding_of([deciding], looked.unchecked())
    return Cell(
        finding,
        deciding.check.name,
        deciding.check.heading(finding),
        deciding.margin_low,
        sentences.check_sentence(deciding, system),
        inputs,
        loader,
    )


def _cells(
    tractor: Machine, implements: Sequence[Machine], system: str, job: Mapping[str, str] | None
) -> tuple[Cell, ...]:
    """Return the pairings of one tractor."""
    sheet = worksheets.load("pairing")
    return tuple(pair(tractor, implement, sheet, system, job) for implement in implements)


def build(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str = "us",
    job: Mapping[str, str] | None = None,
    executor: Executor | None = None,
) -> Matrix:
    """Return every pairing of two lists.

    With an `executor` (of processes on this machine, or of whatever else has the interface of
    `concurrent.futures`) the tractors are shared out, each with all implements; the outcome is
    the same. Without one everything is done here.
    """
    task = partial(_cells, implements=tuple(implements), system=system, job=dict(job or {}))
    rows = (executor.map if executor else map)(task, tractors)
    return Matrix(tuple(tractors), tuple(implements), tuple(rows), ())


def from_text(
    tractors: str,
    implements: str,
    job: Mapping[str, str] | None = None,
    where: tuple[str, str] = ("", ""),
    executor: Executor | None = None,
) -> Matrix:
    """Return every pairing of two CSV texts, with what was wrong in them.

    `where` names their files, for the sentences; `executor` is as for `build`.

    Raises
    ------
    search.BadInputs
        When the job can't be read.
    """
    search.read_box(worksheets.load("pairing"), job or {})
    first, first_problems = read_machines(tractors, "tractor", where[0])
    second, second_problems = read_machines(implements, "implement", where[1])
    built = build(first, second, job=job, executor=executor)
    return Matrix(first, second, built.cells, (*first_problems, *second_problems))


def link(cell: Cell) -> str:
    """Return the part of a link after the # that opens the filled-in pairing."""
    return links.write(cell.inputs)


def as_csv(matrix: Matrix) -> str:
    """Return a matrix as CSV: one line for each pairing."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    columns = ["tractor", "implement", "loader", "finding", "deciding_check", "sentence", "link"]
    writer.writerow([*columns, "finding_loader_off"])
    for tractor, row in zip(matrix.tractors, matrix.cells, strict=True):
        for implement, cell in zip(matrix.implements, row, strict=True):
            words = model.FINDING_WORDS[cell.finding]
            off = cell.other or (cell if cell.loader == "off" else None)
            off_words = model.FINDING_WORDS[(off or cell).finding] if cell.loader else ""
            found = (cell.loader, words, cell.check, cell.sentence, f"#{link(cell)}", off_words)
            writer.writerow(
                [lists.as_text(text) for text in (tractor.name, implement.name, *found)]
            )
    return out.getvalue()
