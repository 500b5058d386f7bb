"""The round-up of a shop: questions that its customers ask, with the answer under each.

A file of it has a row for each question: the question in the shop's words, the worksheet and the
ask that answer it, the inputs as they stand in a link, and a note.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import htpy as h

from calc import links, model, search, worksheets
from calc.errors import YardstickError
from calc.machines import lists
from calc.model import sentences

COLUMNS = ("question", "worksheet", "ask", "inputs", "note")
MOST, LONGEST = 200, 400


@dataclass(frozen=True, slots=True)
class Kept:
    """One question of a round-up."""

    question: str
    worksheet: str
    ask: str
    inputs: dict[str, str]
    note: str

    @property
    def answer(self) -> model.Answer:
        """What the worksheet answers; without inputs, to the page's example."""
        sheet = worksheets.load(self.worksheet)
        return search.answer(sheet, self.inputs, ask=self.ask, example=not self.inputs)

    @property
    def fragment(self) -> str:
        """The part of an address that opens it."""
        own = worksheets.on_page(worksheets.load(self.worksheet).page)
        sheet = self.worksheet if len(own) > 1 else ""
        return links.write(self.inputs, ask=self.ask, sheet=sheet, example=not self.inputs)


def read(text: str, where: str) -> tuple[tuple[Kept, ...], tuple[str, ...]]:
    """Return the questions of a file, and a sentence for each row that can't be used."""
    found: list[Kept] = []
    problems: list[str] = []
    rows = lists.read_lines(csv.reader(io.StringIO(text, newline="")), where, problems)
    _, columns = next(rows, (1, []))
    if not set(COLUMNS[:2]) <= set(columns):
        wanted = f"{where}: the first line names the columns {', '.join(COLUMNS)}."
        return (), (*problems, wanted)
    for line, cells in rows:
        if not cells:
            continue
        row = dict(zip(columns, cells, strict=False))
        place = f"{where}, line {line}"
        if len(found) >= MOST:
            problems.append(f"{where}: only the first {MOST} questions are used.")
            break
        given = {name: " ".join(lists.from_text(row.get(name, "")).split()) for name in COLUMNS}
        if not given["question"] or max(map(len, given.values())) > 10 * LONGEST:
            problems.append(f"{place}: a question of up to {LONGEST} characters is expected.")
            continue
        inputs = dict(links.read(given["inputs"]).inputs)
        kept = Kept(given["question"], given["worksheet"], given["ask"], inputs, given["note"])
        try:
            _ = kept.answer
        except search.BadInputs as bad:
            problems += [f"{place}, {name}: {said}" for name, said in bad.errors.items()]
        except YardstickError as error:
            problems.append(f"{place}: {error}")
        else:
            found.append(kept)
    return tuple(found), tuple(problems)


def block(entries: Sequence[Kept], href: Callable[[str], str], system: str = "us") -> str:
    """Return a page's questions, each with its answer and the way to one's own numbers."""
    if not entries:
        return str(h.p["This site has no round-up yet."])
    return str(h.div(".ys-round-up-page")[[_entry(each, href, system) for each in entries]])


def _entry(kept: Kept, href: Callable[[str], str], system: str) -> h.Element:
    answer = kept.answer
    sheet = answer.worksheet
    given = [
        f"{item.label}: {item.shown(text) if isinstance(item, model.Choice) else text}"
        for name, text in kept.inputs.items()
        for item in [sheet.field(name)]
    ]
    checks = [sentences.check_sentence(verdict, system) for verdict in answer.verdicts[:2]]
    return h.section[
        h.h2[kept.question],
        h.p[sentences.lead(answer, system)],
        h.ul[[h.li[each] for each in checks]] if checks else None,
        h.p[kept.note] if kept.note else None,
        h.p[h.small["For: ", "; ".join(given), "."]] if given else None,
        h.p[h.a(href=f"{href(sheet.page)}#{kept.fragment}")["Put your own numbers in"]],
    ]
