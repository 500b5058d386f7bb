"""The whole answer of a worksheet for what was typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from calc import model
from calc.model import Worksheet
from calc.search.box import read_box
from calc.search.looking import Search
from calc.search.settling import settle
from calc.search.solver import Solver
from calc.search.standing import Standing, prove
from calc.search.verdicts import of_all
from calc.search.verdicts import verdicts as verdicts_of


def answer(
    sheet: Worksheet, typed: Mapping[str, str], system: str = "us", *, full: bool = True
) -> model.Answer:
    """Return the answer of a worksheet for what was typed.

    With `full` False only the middle of the box is computed, for a first quick look; the
    answer's `final` then says whether a full pass would say more.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used.
    """
    box = read_box(sheet, typed, system)
    search = Search(sheet, box)
    standing = prove(search) if full else None
    verdicts = verdicts_of(search, standing)
    deciding = verdicts[0] if verdicts else None
    finding = deciding.finding if deciding else model.COMPARED
    work = model.Work()
    middle = box.point(search.middle)
    outcome = sheet.compute(middle, work)
    point = middle
    if deciding and box.dimensions:
        point = box.point(search.worst[deciding.check.name][1])
    at_point = outcome if point is middle else sheet.compute(point, model.Work(on=False))
    assumed = frozenset(item.field.name for item in box.assumed)
    solver = Solver(sheet, point, assumed, ranged=bool(box.dimensions))
    advice = sheet.advise(point, at_point, solver)
    outputs = [_with_range(output, search, standing) for output in outcome.outputs]
    drawn = sheet.picture(middle, replace(outcome, outputs=outputs))
    pictures = () if drawn is None else (tuple(drawn) if isinstance(drawn, Sequence) else (drawn,))
    return model.Answer(
        sheet,
        dict(typed),
        finding,
        deciding,
        verdicts,
        outputs,
        work.steps,
        advice,
        box.assumed,
        settle(search, deciding) if full and deciding and finding == model.UNKNOWN else None,
        pictures,
        search.count,
        final=full or not box.dimensions,
        standing=of_all(search, standing, deciding),
    )


def _with_range(output: model.Output, search: Search, standing: Standing | None) -> model.Output:
    key = ("output", output.name)
    low, high = search.ends(key)
    about = standing is not None and bool(search.box.dimensions) and not standing.known(key)
    if low == high:
        return replace(output, about=about) if about else output
    return replace(output, low=low, high=high, about=about)
