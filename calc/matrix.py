"""Two lists, of tractors and of implements: a finding for every pairing.

A list is a CSV file whose first row names fields of the vocabulary, with a `name` column.
Blank cells are unknown; a column that is left out has the pairing's default only where that
is about the job, and is unknown where it is about the machine.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote_plus

from calc import explore, worksheets
from calc import worksheet as ws
from calc.errors import InputError
from calc.render import text
from calc.worksheet import Worksheet

GROUPS = {"tractor": "Tractor", "implement": "Implement"}
MOST_ROWS = 2000


@dataclass(frozen=True, slots=True)
class Machine:
    """One row of a list: its name and the texts of the fields that it gives."""

    name: str
    inputs: dict[str, str]


@dataclass(frozen=True, slots=True)
class Cell:
    """The finding of one pairing, its deciding check, and the inputs of its link."""

    finding: str
    check: str
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


def read_machines(
    content: str, role: str, where: str = ""
) -> tuple[tuple[Machine, ...], tuple[str, ...]]:
    """Return the machines of a list, and a sentence for each row or column that can't be used.

    Parameters
    ----------
    content
        The CSV text.
    role
        "tractor" or "implement".
    where
        The name of the file, for the sentences.
    """
    sheet = worksheets.load("pairing")
    fields = {item.name: item for item in sheet.fields if item.group == GROUPS[role]}
    where = where or f"{role}s.csv"
    rows = list(csv.reader(io.StringIO(content.lstrip("\ufeff"))))
    if not rows:
        return (), (f"{where} is empty: its first line names the columns.",)
    columns = [column.strip() for column in rows[0]]
    if "name" not in columns:
        return (), (f"{where}, line 1: there is no column called “name”.",)
    problems = [
        f"{where}, line 1: no field of {'a tractor' if role == 'tractor' else 'an implement'} is "
        f"called “{column}”; the column is left out."
        for column in columns
        if column not in fields and column not in ("name", "source", "")
    ]
    machines: list[Machine] = []
    for line, row in enumerate(rows[1 : MOST_ROWS + 1], 2):
        if not any(cell.strip() for cell in row):
            continue
        given = {c: cell.strip() for c, cell in zip(columns, row, strict=False) if c in fields}
        name = dict(zip(columns, row, strict=False)).get("name", "").strip()
        bad = [] if name else [f"{where}, line {line}, column name: the machine has no name."]
        if len(row) > len(columns):
            bad.append(
                f"{where}, line {line}: it has {len(row)} cells and there are {len(columns)} "
                "columns; put a number with a comma between double quotes."
            )
        for column, value in given.items():
            try:
                fields[column].read(value)
            except InputError as error:
                bad.append(f"{where}, line {line}, column {column}: {error}")
        problems += bad
        if not bad:
            unknown = {name: "" for name in fields if _blank_when_absent(fields[name])}
            machines.append(Machine(name, {**unknown, **given}))
    if len(rows) - 1 > MOST_ROWS:
        problems.append(f"{where}: only the first {MOST_ROWS:,} machines are used.")
    return tuple(machines), tuple(problems)


def _blank_when_absent(item: ws.AnyField) -> bool:
    return isinstance(item, ws.Field) and item.name not in ("front_ballast", "remotes_needed")


def pair(tractor: Machine, implement: Machine, sheet: Worksheet | None = None) -> Cell:
    """Return the finding of one pairing."""
    sheet = sheet or worksheets.load("pairing")
    inputs = {**tractor.inputs, **implement.inputs}
    try:
        box = explore.read_box(sheet, inputs)
    except explore.BadInputs as bad:
        return Cell(ws.UNKNOWN, "", 0.0, " ".join(bad.errors.values()), inputs)
    search = explore.Search(sheet, box)
    search.run()
    deciding = search.verdicts()[0]
    return Cell(
        deciding.finding,
        deciding.check.name,
        deciding.margin_low,
        text.check_sentence(deciding, "us"),
        inputs,
    )


def build(tractors: Sequence[Machine], implements: Sequence[Machine]) -> Matrix:
    """Return every pairing of two lists."""
    sheet = worksheets.load("pairing")
    cells = tuple(
        tuple(pair(tractor, implement, sheet) for implement in implements) for tractor in tractors
    )
    return Matrix(tuple(tractors), tuple(implements), cells, ())


def from_text(tractors: str, implements: str) -> Matrix:
    """Return every pairing of two CSV texts, with what was wrong in them."""
    first, first_problems = read_machines(tractors, "tractor")
    second, second_problems = read_machines(implements, "implement")
    built = build(first, second)
    return Matrix(first, second, built.cells, (*first_problems, *second_problems))


def link(cell: Cell) -> str:
    """Return the part of a link after the # that opens the filled-in pairing."""
    defaults = worksheets.load("pairing").defaults()
    differing = {k: v for k, v in cell.inputs.items() if v != defaults.get(k)}
    return "&".join(f"{quote_plus(k)}={quote_plus(v)}" for k, v in differing.items())


def as_csv(matrix: Matrix) -> str:
    """Return a matrix as CSV: one line for each pairing."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["tractor", "implement", "finding", "deciding_check", "sentence", "link"])
    for tractor, row in zip(matrix.tractors, matrix.cells, strict=True):
        for implement, cell in zip(matrix.implements, row, strict=True):
            words = ws.FINDING_WORDS[cell.finding]
            writer.writerow(
                [tractor.name, implement.name, words, cell.check, cell.sentence, f"#{link(cell)}"]
            )
    return out.getvalue()
