"""The capability sheet of every tractor of a list: what it can run, lift and tow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc import links, model, search, worksheets
from calc.machines import Machine, read_machines
from calc.model import figures, leading, sentences


@dataclass(frozen=True, slots=True)
class Sheet:
    """One tractor's sheet: its name, the answer, or why there is none, and the inputs."""

    name: str
    answer: model.Answer | None
    trouble: str
    inputs: dict[str, str]


# The job of a list where nobody says one; the page says it in words.
JOB = {"slope": "5 %", "altitude": "500 ft"}


def of_machine(tractor: Machine, job: Mapping[str, str] | None = None, system: str = "us") -> Sheet:
    """Return the sheet of one tractor; its loader counts as on unless the list says otherwise."""
    sheet = worksheets.load("capability")
    names = [item.name for item in sheet.fields]
    known = {name: text for name, text in (job or {}).items() if name in names}
    inputs = {"loader": "on", **JOB, **tractor.fill(names), **known}
    try:
        answer = search.answer(sheet, inputs, system)
    except search.BadInputs as bad:
        return Sheet(tractor.name, None, " ".join(bad.errors.values()), inputs)
    if answer.missing:
        return Sheet(tractor.name, None, sentences.missing_sentence(answer.missing), inputs)
    return Sheet(tractor.name, answer, "", inputs)


def build(
    tractors: Sequence[Machine], job: Mapping[str, str] | None = None, system: str = "us"
) -> tuple[Sheet, ...]:
    """Return the sheet of every tractor of a list."""
    return tuple(of_machine(tractor, job, system) for tractor in tractors)


def from_text(
    tractors: str, job: Mapping[str, str] | None = None, where: str = "", system: str = "us"
) -> tuple[tuple[Sheet, ...], tuple[str, ...]]:
    """Return the sheets of a CSV text, and what was wrong in it.

    Raises
    ------
    search.BadInputs
        When the job can't be read.
    """
    search.read_box(worksheets.load("capability"), job or {})
    machines, problems = read_machines(tractors, "tractor", where)
    return build(machines, job, system), problems


def link(sheet: Sheet) -> str:
    """Return the part of a link after the # that opens the filled-in sheet."""
    return links.write(sheet.inputs)


def as_text(sheet: Sheet, system: str = "us") -> str:
    """Return a sheet as plain text with a line for each row."""
    if sheet.answer is None:
        return f"{sheet.name}\n{sheet.trouble}"
    lines = [sheet.name, leading.lead(sheet.answer, system)]
    for table in sheet.answer.advice.tables:
        lines += ["", table.title]
        rows = [[figures.cell_text(cell, system) for cell in row] for row in table.rows]
        wide = [max(len(row[i]) for row in [list(table.columns), *rows]) for i in (0,)]
        for row in [list(table.columns), *rows]:
            rest = "; ".join(text for text in row[1:] if text)
            lines.append(f"  {row[0]:<{wide[0]}}  {rest}")
    lines += ["", *(caution.text for caution in sheet.answer.advice.cautions)]
    return "\n".join(lines)
