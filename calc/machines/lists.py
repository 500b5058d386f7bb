"""Machines: the tractors and implements of a list, each a name and the texts of its fields.

A list is a CSV file whose first row names fields of the vocabulary, by name or by label, with a
`name` column. A blank cell is unknown, and so is a field whose column is left out.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc import tables
from calc.errors import InputError
from calc.machines import vocabulary
from calc.model import AnyField

ROLES = ("tractor", "implement")
MOST_ROWS = 2000
LONGEST_NAME = 80
# Columns that say something about a row and fill no field.
BESIDE = ("name", "source")
DELIMITERS = ",;\t"


@dataclass(frozen=True, slots=True)
class Machine:
    """One machine: its name, its role, and the texts of the fields that it gives."""

    name: str
    role: str
    inputs: dict[str, str]

    def fill(self, names: Iterable[str]) -> dict[str, str]:
        """Return a text for each of `names` that describes this kind of machine."""
        return {
            name: self.inputs.get(name, vocabulary.absent(name))
            for name in names
            if vocabulary.role(name) == self.role
        }


def fields(role: str) -> dict[str, AnyField]:
    """Return every field of the vocabulary that describes a tractor or an implement."""
    return {n: vocabulary.field(n) for n in vocabulary.names() if vocabulary.role(n) == role}


def demo(role: str) -> tuple[Machine, ...]:
    """Return the invented machines that every site shows."""
    return tuple(
        Machine(
            row["name"],
            role,
            {name: text for name, text in row.items() if text and name not in BESIDE},
        )
        for row in tables.rows(f"machines/demo_{role}s")
    )


def read_machines(
    content: str, role: str, where: str = ""
) -> tuple[tuple[Machine, ...], tuple[str, ...]]:
    """Return the machines of a list, and a sentence for each row or column that can't be used.

    Parameters
    ----------
    content
        The CSV text; commas, semicolons or tabs between the cells.
    role
        "tractor" or "implement".
    where
        The name of the file, for the sentences.
    """
    where = where or f"{role}s.csv"
    text = content.lstrip("\ufeff")
    first_line = text.partition("\n")[0]
    delimiter = max(DELIMITERS, key=first_line.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    header = next(reader, [])
    if not any(cell.strip() for cell in header):
        return (), (f"{where} is empty: its first line names the columns.",)
    columns, problems = _columns(header, role, where)
    if "name" not in columns:
        return (), (*problems, f"{where}, line 1: there is no column called “name”.")
    machines: dict[str, Machine] = {}
    line = reader.line_num + 1
    for count, row in enumerate(reader, 1):
        if count > MOST_ROWS:
            problems.append(f"{where}: only the first {MOST_ROWS:,} machines are used.")
            break
        if any(cell.strip() for cell in row):
            machine, bad = _machine(row, columns, role, f"{where}, line {line}")
            if machine.name in machines:
                bad.append(
                    f"{where}, line {line}, column name: “{machine.name}” stands in the list "
                    "already; give each machine a name of its own."
                )
            problems += bad
            if not bad:
                machines[machine.name] = machine
        line = reader.line_num + 1
    return tuple(machines.values()), tuple(problems)


def _columns(header: Sequence[str], role: str, where: str) -> tuple[list[str], list[str]]:
    """Return the field that each column fills ("" for none), and what is wrong with them."""
    named = fields(role)
    labels = {item.label.lower(): name for name, item in named.items()}
    columns: list[str] = []
    problems: list[str] = []
    for cell in header:
        written = cell.strip()
        plain = written.lower()
        name = labels.get(plain, plain.replace(" ", "_"))
        if name not in named and name not in BESIDE:
            if written:
                a = "an" if role == "implement" else "a"
                problems.append(
                    f"{where}, line 1, column {written}: no field of {a} {role} is called that; "
                    "the column is left out."
                )
            name = ""
        elif name in columns:
            problems.append(f"{where}, line 1: the column {written} stands there twice.")
            name = ""
        columns.append(name)
    return columns, problems


def _machine(
    row: Sequence[str], columns: Sequence[str], role: str, where: str
) -> tuple[Machine, list[str]]:
    """Return the machine of one row, and what is wrong with it."""
    cells = {c: cell.strip() for c, cell in zip(columns, row, strict=False) if c}
    name = " ".join(cells.get("name", "").split())
    given = {c: text for c, text in cells.items() if text and c not in BESIDE}
    bad: list[str] = []
    if not name:
        bad.append(f"{where}, column name: the machine has no name.")
    elif len(name) > LONGEST_NAME:
        bad.append(f"{where}, column name: it is longer than {LONGEST_NAME} characters.")
    if len(row) > len(columns):
        bad.append(
            f"{where}: more cells than columns ({len(row)} and {len(columns)}); put a text with a "
            "comma in it between double quotes."
        )
    known = {}
    for column, text in given.items():
        try:
            known[column] = vocabulary.field(column).read(text)
        except InputError as error:
            bad.append(f"{where}, column {column}: {error}")
    known.setdefault("lift_rated_at", "unstated")
    bad += [
        f"{where}, column {column}: {sentence}"
        for column, sentence in vocabulary.review_lift(known).items()
    ]
    return Machine(name, role, given), bad
