"""Two lists, of tractors and of implements: a finding for every pairing."""

from __future__ import annotations

import csv
import io
from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING

from calc import links, model, search, worksheets
from calc.machines import Machine, lists, read_machines
from calc.model import Worksheet, check_text, sentences

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

# The job that a list is shown in where nobody says one; the page says it in words.
JOB = {"material": "light", "slope": "5 %", "ground_speed": "3 mph", "altitude": "500 ft"}
# Pairings that one task works out: enough that handing them out costs nothing beside them.
BLOCK = 100
# Tasks that are handed out before the first of them is needed: enough for a cluster, while what
# waits to be taken stays small however long the lists are.
AHEAD = 64


@dataclass(frozen=True, slots=True)
class Cell:
    """The finding of one pairing, its deciding check, and the inputs of its link."""

    finding: str
    check: str  # its name
    title: str
    sentence: str
    inputs: dict[str, str]
    loader: str = ""  # "on" or "off" where that was said or tried
    other: Cell | None = None  # the same with the loader off, where that is another finding


@dataclass(frozen=True, slots=True)
class Matrix:
    """Every pairing of two lists."""

    tractors: tuple[Machine, ...]
    implements: tuple[Machine, ...]
    cells: tuple[tuple[Cell, ...], ...]


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
    if not inputs.get("implement_kind"):
        # A row whose kind couldn't be read is no "other implement": it may be anything.
        said = sentences.missing_sentence([sheet.field("implement_kind")])
        return Cell(model.UNKNOWN, "", "", said, inputs, inputs.get("loader", ""))
    if inputs.get("loader"):
        return _Pairing(sheet, inputs, system).cell()
    on, off = (_Pairing(sheet, {**inputs, "loader": state}, system) for state in ("on", "off"))
    cell, finding = on.cell(), off.finding()
    return cell if cell.finding == finding else replace(cell, other=off.cell())


class _Pairing:
    """One set of inputs: its finding first, and its cell where somebody wants it."""

    def __init__(self, sheet: Worksheet, inputs: dict[str, str], system: str) -> None:
        self._sheet, self._inputs, self._system = sheet, inputs, system
        self._foremost: search.Foremost | None = None
        self._refused = ""
        try:
            box = search.read_box(sheet, inputs)
        except search.BadInputs as bad:
            self._refused = " ".join(bad.errors.values())
            return
        if box.missing:
            self._refused = sentences.missing_sentence(box.missing)
            return
        with model.checks_alone():
            self._foremost = search.Foremost(search.Search(sheet, box))

    def finding(self) -> str:
        """Return the finding."""
        return self._foremost.finding if self._foremost else model.UNKNOWN

    def cell(self) -> Cell:
        """Return the finding with what decides it."""
        loader = self._inputs.get("loader", "")
        if self._foremost is None:
            return Cell(model.UNKNOWN, "", "", self._refused, self._inputs, loader)
        with model.checks_alone():
            deciding = self._foremost.verdict()
        open_ = self._foremost.search.unchecked()
        finding = model.finding_of([deciding], open_)
        if finding == model.UNKNOWN and deciding.finding != model.UNKNOWN:
            # All that could be made is met: what is told is what a limit waits for.
            waits = next(item for item in open_ if item.governs and not item.if_asked)
            said = sentences.missing_sentence([self._sheet.field(waits.field)])
            return Cell(finding, waits.name, waits.title, said, self._inputs, loader)
        return Cell(
            finding,
            deciding.check.name,
            deciding.check.heading(finding),
            check_text.check_sentence(deciding, self._system),
            self._inputs,
            loader,
        )


def _cells(
    tractor: Machine, implements: Sequence[Machine], system: str, job: Mapping[str, str] | None
) -> tuple[Cell, ...]:
    """Return the pairings of one tractor with some implements."""
    sheet = worksheets.load("pairing")
    return tuple(pair(tractor, implement, sheet, system, job) for implement in implements)


def _blocks(
    tractors: Sequence[Machine], implements: Sequence[Machine], start: int
) -> Iterator[tuple[Machine, Sequence[Machine]]]:
    """Return the pairings from the one numbered `start` on, in pieces that are handed out."""
    row, column = divmod(start, max(len(implements), 1))
    for tractor in tractors[row:]:
        for first in range(column, len(implements), BLOCK):
            yield tractor, implements[first : first + BLOCK]
        column = 0


def stream(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str = "us",
    job: Mapping[str, str] | None = None,
    executor: Executor | None = None,
    start: int = 0,
) -> Iterator[tuple[Machine, Machine, Cell]]:
    """Yield every pairing of two lists, tractor by tractor, in order; none is kept.

    With an `executor` (of processes on this machine, or of whatever else has the interface of
    `concurrent.futures`) blocks of pairings are shared out, a few ahead of the one that is
    next; in whatever order they are done, what is yielded is the same. Without one everything is
    done here, as it is asked for. `start` leaves out as many pairings at the beginning.
    """
    blocks = _blocks(tractors, implements, start)
    task = partial(_cells, system=system, job=dict(job or {}))
    if executor is None:
        for tractor, some in blocks:
            for implement in some:
                yield tractor, implement, task(tractor, (implement,))[0]
        return
    waiting: deque[tuple[Machine, Sequence[Machine], Future[tuple[Cell, ...]]]] = deque()
    try:
        while True:
            for tractor, some in islice(blocks, AHEAD - len(waiting)):
                waiting.append((tractor, some, executor.submit(task, tractor, some)))
            if not waiting:
                return
            tractor, some, future = waiting.popleft()
            for implement, cell in zip(some, future.result(), strict=True):
                yield tractor, implement, cell
    finally:
        for _, _, future in waiting:
            future.cancel()


def build(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str = "us",
    job: Mapping[str, str] | None = None,
    executor: Executor | None = None,
) -> Matrix:
    """Return every pairing of two lists, all at once; `executor` is as for `stream`."""
    cells = (cell for _, _, cell in stream(tractors, implements, system, job, executor))
    rows = tuple(tuple(islice(cells, len(implements))) for _ in tractors)
    return Matrix(tuple(tractors), tuple(implements), rows)


def read(
    tractors: str, implements: str, where: tuple[str, str] = ("", "")
) -> tuple[tuple[Machine, ...], tuple[Machine, ...], tuple[str, ...]]:
    """Return the machines of two CSV texts, and what was wrong in them.

    `where` names their files, for the sentences.
    """
    first, first_problems = read_machines(tractors, "tractor", where[0])
    second, second_problems = read_machines(implements, "implement", where[1])
    return first, second, (*first_problems, *second_problems)


def check(job: Mapping[str, str]) -> None:
    """Look whether a job can be read.

    Raises
    ------
    search.BadInputs
        When it can't.
    """
    search.read_box(worksheets.load("pairing"), job)


def link(cell: Cell) -> str:
    """Return the part of a link after the # that opens the filled-in pairing."""
    return links.write(cell.inputs)


def csv_lines(pairings: Iterable[tuple[Machine, Machine, Cell]]) -> Iterator[str]:
    """Yield the CSV line of each pairing; HEADING goes before them."""
    for tractor, implement, cell in pairings:
        words = model.FINDING_WORDS[cell.finding]
        off = cell.other or (cell if cell.loader == "off" else None)
        off_words = model.FINDING_WORDS[(off or cell).finding] if cell.loader else ""
        found = (cell.loader, words, cell.check, cell.sentence, f"#{link(cell)}", off_words)
        yield _csv_line(lists.as_text(text) for text in (tractor.name, implement.name, *found))


def _csv_line(cells: Iterable[str]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerow(cells)
    return out.getvalue()


HEADING = _csv_line(
    (
        *("tractor", "implement", "loader", "finding", "deciding_check", "sentence", "link"),
        "finding_loader_off",
    )
)


def as_csv(matrix: Matrix) -> str:
    """Return a matrix as CSV: one line for each pairing."""
    pairings = (
        (tractor, implement, cell)
        for tractor, row in zip(matrix.tractors, matrix.cells, strict=True)
        for implement, cell in zip(matrix.implements, row, strict=True)
    )
    return "".join([HEADING, *csv_lines(pairings)])
