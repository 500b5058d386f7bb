"""Machines: the tractors and implements of a list, each a name and the texts of its fields.

A list is a CSV file whose first row names fields of the vocabulary, by name or by label, with a
`name` column; a heading may carry the unit of its bare numbers. A blank cell is unknown, and so is
a field whose column is left out. A cell that can't be used is left out alone.
"""

from __future__ import annotations

import contextlib
import csv
import io
import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from calc import quantities, tables
from calc.errors import InputError
from calc.machines import reviews, vocabulary
from calc.machines.cells import Column, cell, column, is_blank, lift_and_place, unit_beside
from calc.mechanics import pto_power
from calc.model import AnyField

if TYPE_CHECKING:
    from pathlib import Path  # its caller has it; the browser, which reads no files, does without

ROLES = ("tractor", "implement")
MOST_ROWS = 2000
LONGEST_NAME = 80
LARGEST_FILE = 10_000_000  # bytes; the most rows with every cell filled take a tenth of it
# Columns that say something about a row and fill no field.
BESIDE = ("name", "source", "stock_number", "price", "note")
DELIMITERS = ",;\t"


@dataclass(frozen=True, slots=True)
class Machine:
    """One machine: its name, its role, and the texts of the fields that it gives."""

    name: str
    role: str
    inputs: dict[str, str]
    beside: dict[str, str] = field(default_factory=dict)  # stock number, price and the like

    @property
    def told(self) -> str:
        """What is said of it beside its name: "stock 4411, $18,500"."""
        number = self.beside.get("stock_number", "")
        stock = f"stock {number}" if number else ""
        price = self.beside.get("price", "")
        plain = price.replace(",", "")
        if plain.isdecimal():  # a bare number in a column of prices
            price = quantities.show(float(plain), "money")
        return ", ".join(filter(None, [stock, price]))

    def fill(self, names: Iterable[str]) -> dict[str, str]:
        """Return the texts that it gives for the fields of `names`; the others stay unknown.

        Of an engine's power so much is given as reaches the PTO, to what asks for that alone.
        """
        wanted = list(names)
        found = {name: self.inputs[name] for name in wanted if name in self.inputs}
        engine = self.inputs.get("engine_power")
        if engine and "pto_power" in wanted and not {"pto_power", "engine_power"} & {*found}:
            found["pto_power"] = f"{reaching_shaft(engine, 'hp')} hp"
        return found


def reaching_shaft(engine_power: str, symbol: str) -> str:
    """Return what of an engine's power reaches the PTO, as a range in the same unit.

    >>> reaching_shaft("35 hp", "hp")
    '27.1 to 31.5'
    """
    read = quantities.parse(engine_power, "power")
    assert read is not None
    unit = quantities.base(f"1 {symbol}", "power")
    drag = pto_power.pump_drag("hydrostatic")[1]
    low, _ = pto_power.at_pto(read.low, drag)
    _, high = pto_power.at_pto(read.high, drag)
    return f"{low / unit:.3g} to {high / unit:.3g}"


# A spreadsheet takes a cell that begins so for a formula, and would carry it out.
# Some programs take the wide forms of these signs for them.
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def as_text(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula: an apostrophe marks it as text."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell


def from_text(cell: str) -> str:
    """Return a cell without the apostrophe that `as_text` put before it."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(FORMULA) else cell


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


def read_text(path: Path) -> str:
    """Return the text of a file that somebody wrote.

    Raises
    ------
    InputError
        When it can't be read, with the file, and where it can be told the line.
    """
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise InputError(f"{path} is larger than {LARGEST_FILE:,} bytes.")
        content = path.read_bytes()
    except OSError as error:
        raise InputError(f"{path} can't be read: {error.strerror}.") from None
    except ValueError as error:
        raise InputError(f"{str(path)!r} can't be the name of a file: {error}.") from None
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise InputError(
            f"{path}, line {line}: it isn't UTF-8 text; save it as “CSV UTF-8”."
        ) from None


def read_machines(
    content: str, role: str, where: str = "", system: str = "us"
) -> tuple[tuple[Machine, ...], tuple[str, ...]]:
    """Return the machines of a list, and a sentence for each cell or column that can't be used.

    A bad cell is left out and its row is used without it; a row without a name of its own is left
    out whole.

    Parameters
    ----------
    content
        The CSV text; commas, semicolons or tabs between the cells.
    role
        "tractor" or "implement".
    where
        The name of the file, for the sentences.
    system
        "us" or "metric": the units of bare numbers where no heading names one.
    """
    where = where or f"{role}s.csv"
    text = content.lstrip("\ufeff")
    top = "\n".join(text.split("\n", TITLES)[:TITLES])
    delimiter = max(DELIMITERS, key=top.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    problems: list[str] = []
    lines = read_lines(reader, where, problems)
    header = _header(lines, role)
    if problems:
        return (), tuple(problems)
    if not any(cell.strip() for cell in header):
        return (), (f"{where} is empty: its first line names the columns.",)
    columns, wrong = _columns(header, role, where)
    problems += wrong
    if not {each.name for each in columns} & {"name", "stock_number"}:
        return (), (*problems, f"{where}, line 1: there is no column called “name”.")
    machines: dict[str, Machine] = {}
    rows = list(itertools.islice(lines, MOST_ROWS + 1))
    columns = [
        each
        if each.name in BESIDE
        else replace(each, beside=unit_beside(each.name, _texts(rows, at)))
        for at, each in enumerate(columns)
    ]
    for count, (line, row) in enumerate(rows, 1):
        if count > MOST_ROWS:
            problems.append(f"{where}: only the first {MOST_ROWS:,} machines are used.")
            break
        if any(cell.strip() for cell in row):
            place = f"{where}, line {line}"
            machine, bad = _machine(row, columns, role, place, system)
            problems += bad
            if machine is not None and machine.name in machines:
                problems.append(
                    f"{place}, column name: “{machine.name}” stands in the list already; give "
                    "each machine a name of its own."
                )
            elif machine is not None:
                machines[machine.name] = machine
    return tuple(machines.values()), tuple(problems)


def read_lines(
    reader: Iterator[list[str]], where: str, problems: list[str]
) -> Iterator[tuple[int, list[str]]]:
    """Give every row with the line that it begins in, up to one that is no CSV."""
    while True:
        line = reader.line_num + 1  # type: ignore[attr-defined]
        try:
            row = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            why = str(error)
            if "field limit" in why:
                limit = f"{csv.field_size_limit():,}"
                why = f"a cell has more than {limit} characters; is a double quote left open"
            problems.append(f"{where}, line {line}: {why}; the list is read no further.")
            return
        yield line, row


TITLES = 5  # lines above the one that names the columns, such as the shop's name


def _header(lines: Iterator[tuple[int, list[str]]], role: str) -> list[str]:
    """Return the row that names the columns: the first that knows two, else the first there is.

    Above it some programs put a title, and empty lines.
    """
    named = fields(role)
    first: list[str] = []
    for _, row in itertools.islice(lines, TITLES):
        filled = [cell.strip() for cell in row if cell.strip()]
        first = first or row
        known = {column(cell, role, named, BESIDE).name for cell in filled}
        if len(known - {""}) > 1 or (first is row and "name" in known):
            return row
        if len(filled) > 1:
            break
    return first


def _columns(header: Sequence[str], role: str, where: str) -> tuple[list[Column], list[str]]:
    """Return what each column fills (nothing, for a name of ""), and what is wrong with them."""
    named = fields(role)
    exact = {heading.strip().lower() for heading in header} & set(BESIDE)
    columns: list[Column] = []
    problems: list[str] = []
    for heading in header:
        written = heading.strip()
        told = quantities.shorten(written)
        found = column(written, role, named, BESIDE) if written else Column("")
        if found.name in exact and written.lower() == role == "implement":
            found = Column("implement_kind")  # "Implement" beside a column of names
        if found.name in exact and written.lower() != found.name:
            columns.append(Column(""))  # "Model" beside a column that is called "name"
            problems.append(
                f"{where}, line 1, column {told}: the column {found.name} says that already; "
                "the column is left out."
            )
            continue
        if written and not found.name:
            a = "an" if role == "implement" else "a"
            problems.append(
                f"{where}, line 1, column {told}: no field of {a} {role} is called that; "
                "the column is left out."
            )
        elif found.name and found.name in {each.name for each in columns}:
            problems.append(f"{where}, line 1: the column {told} stands there twice.")
            found = Column("")
        columns.append(found)
    return columns, problems


def _machine(
    row: Sequence[str], columns: Sequence[Column], role: str, where: str, system: str
) -> tuple[Machine | None, list[str]]:
    """Return the machine of one row without its bad cells, and what is wrong with it.

    None when it has no name, or when its cells stand in other columns than they should.
    """
    cells = {c: text.strip() for c, text in zip(columns, row, strict=False) if c.name}
    texts = {c.name: text for c, text in cells.items()}
    # A yard that names nothing has its stock numbers: "land plane 4411".
    stock = f"{texts.get('implement_kind', '')} {texts.get('stock_number', '')}"
    called = texts.get("name", stock if texts.get("stock_number") else "")
    name = " ".join(called.split())
    bad: list[str] = []
    if not name:
        bad.append(f"{where}, column name: the machine has no name.")
    elif len(name) > LONGEST_NAME:
        bad.append(f"{where}, column name: it is longer than {LONGEST_NAME} characters.")
    if len(row) > len(columns):  # the cells are shifted, so none of them can be trusted
        bad.append(
            f"{where}: more cells than columns ({len(row)} and {len(columns)}); put a text with a "
            "comma in it between double quotes."
        )
    if bad:
        return None, bad
    given: dict[str, str] = {}
    for c, text in cells.items():
        if is_blank(text) or c.name in BESIDE:
            continue
        try:
            if c.name == "lift_capacity":
                text, place = lift_and_place(text)
                if place:
                    given["lift_rated_at"] = cell("lift_rated_at", place, "", system)
            said = cell(c.name, text, c.unit, system, c.beside)
        except InputError as error:
            bad.append(f"{where}, column {c.name}: {error}")
            continue
        if said:
            given[c.name] = said
    for c in cells:
        if c.rated_at and c.name in given:
            given.setdefault("lift_rated_at", c.rated_at)
    _by_kind(given, name, role)
    given, without = _without_contradictions(given, system)
    bad += [f"{where}, column {c}: {sentence}" for c, sentence in without.items()]
    beside = {c: " ".join(texts[c].split()) for c in BESIDE[2:] if texts.get(c)}
    return Machine(name, role, given, beside), bad


def _by_kind(given: dict[str, str], name: str, role: str) -> None:
    """Read an implement's kind off its name where no column told it, and a digger's width."""
    if role == "implement" and "implement_kind" not in given:
        with contextlib.suppress(InputError):
            given["implement_kind"] = cell("implement_kind", name, "", "")
    if given.get("implement_kind") == "post_hole_digger" and "working_width" in given:
        given.setdefault("auger_diameter", given.pop("working_width"))  # the only one it has


def _texts(rows: Iterable[tuple[int, Sequence[str]]], at: int) -> Iterator[str]:
    """Give what stands in a column, row by row."""
    return (row[at] for _, row in rows if at < len(row))


def _without_contradictions(
    given: dict[str, str], system: str
) -> tuple[dict[str, str], dict[str, str]]:
    """Return a row's texts without the figures that can't stand beside each other."""
    known = {name: vocabulary.field(name).read(text, system) for name, text in given.items()}
    known.setdefault("lift_rated_at", "unstated")  # a lift figure has to say where it was measured
    wrong = reviews.review(known)
    dropped = {name for field in wrong for name in reviews.TOGETHER[field]}
    return {name: text for name, text in given.items() if name not in dropped}, wrong
