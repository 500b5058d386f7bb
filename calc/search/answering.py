"""The whole answer of a worksheet for what was given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache

from calc import model
from calc.errors import InputError
from calc.model import Worksheet
from calc.search.bearing import bearing
from calc.search.box import Box, Known, box_of, read
from calc.search.giving import told_by
from calc.search.looking import Search
from calc.search.settling import MOST, settles_of
from calc.search.solver import Solver
from calc.search.standing import Standing, prove, settle_values
from calc.search.verdicts import of_all, settle_order
from calc.search.verdicts import verdicts as verdicts_of


def answer(
    sheet: Worksheet,
    typed: Mapping[str, str],
    system: str = "us",
    *,
    full: bool = True,
    example: bool | Mapping[str, str] = False,
    ask: str = "",
) -> model.Answer:
    """Return the answer of a worksheet for what was given.

    Parameters
    ----------
    sheet
        The worksheet.
    typed
        The texts of the inputs that somebody gave, by field name; the others are unknown.
    system
        "us" or "metric": the units of sentences, and of numbers typed without a unit.
    full
        False computes the middle of the box alone, for a first quick look: how it stands, with
        nothing drawn or offered. The answer's `final` then says whether a full pass says more.
    example
        True starts from the page's example, and what was given replaces its values; so do the
        texts of another example, by field name.
    ask
        Which of the worksheet's questions leads; the first when empty.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used.
    """
    return answer_known(sheet, read(sheet, typed, system, example=example), full=full, ask=ask)


def answer_known(
    sheet: Worksheet, known: Known, *, full: bool = True, ask: str = ""
) -> model.Answer:
    """Return the answer for inputs that were read already.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used.
    """
    asked = sheet.ask(ask).about(known.given)
    sheet = sheet.asked(asked, known.given)
    box = box_of(sheet, known)
    if not (box.example or asked.starts_with(box.given)):
        wanted = [item for item in sheet.fields if item.name in asked.first]
        box = replace(box, missing=tuple(dict.fromkeys((*box.missing, *wanted))))
    if box.missing:
        return _unanswered(sheet, asked, box)
    search = Search(sheet, box)
    standing = prove(search, values=False) if full else None
    # What decides is settled before the ends of what is shown: a list of cells stops there.
    if standing is not None:
        settle_order(search, standing, asked)
    first = model.deciding_of(
        verdicts_of(search, standing), asked.checks, asked.until_told, alone=asked.alone
    )
    if standing is not None:
        settle_values(standing, search.shown())
    verdicts = verdicts_of(search, standing)
    open_ = search.unchecked()
    unchecked = [item for item in open_ if not item.if_asked or item.name in asked.checks]
    finding = model.finding_of(verdicts, unchecked, asked.checks, alone=asked.alone)
    deciding = next((v for v in verdicts if first and v.check.name == first.check.name), None)
    work = model.Work()
    middle = box.point(search.middle)
    outcome = sheet.compute(middle, work)
    point = middle
    if deciding and box.dimensions:
        point = box.point(search.worst[deciding.check.name][1])
    at_point = outcome if point is middle else sheet.compute(point, model.Work(on=False))
    final = full or not box.dimensions
    solver = Solver.after(search, verdicts, point, lambda: told_by(sheet, known), offers=final)
    advice = sheet.advise(point, at_point, solver)
    advice = replace(advice, remedies=[r for r in advice.remedies if _taken(sheet, known, r)])
    outputs = [_with_range(output, search, standing) for output in outcome.outputs]
    drawn = sheet.picture(middle, replace(outcome, outputs=outputs)) if final else None
    pictures = () if drawn is None else (tuple(drawn) if isinstance(drawn, Sequence) else (drawn,))
    open_ended = full and finding == model.UNKNOWN
    found = model.Answer(
        worksheet=sheet,
        ask=asked,
        given=box.given,
        example=box.example,
        finding=finding,
        deciding=deciding,
        verdicts=verdicts,
        unchecked=unchecked,
        outputs=outputs,
        working=work.steps,
        advice=advice,
        assumed=box.assumed,
        settles=(
            _settles(search, verdicts, unchecked, deciding, known, asked) if open_ended else ()
        ),
        pictures=pictures,
        searched=search.count,
        final=final,
        standing=of_all(search, standing, deciding),
        find_odds=cache(lambda: _odds(search, asked, verdicts) if open_ended else None),
        bearing=cache(lambda: bearing(search, asked, deciding, known)) if full else frozenset,
    )
    # What was asked about is helped first.
    first_helped = sorted(advice.remedies, key=lambda remedy: not found.concerns(remedy))
    return replace(found, advice=replace(advice, remedies=first_helped))


def _odds(search: Search, asked: model.Ask, verdicts: Sequence[model.Verdict]) -> model.Odds | None:
    """Of how many it holds; where money is compared, of how many what was asked pays."""
    if not search.box.dimensions:
        return None
    names = asked.checks if search.sheet.compares_money else ()
    made = [v for v in verdicts if not names or v.check.name in names]
    return search.odds(names) if made else None


def _taken(sheet: Worksheet, known: Known, remedy: model.Remedy) -> bool:
    """Whether the fields take what a remedy puts in, beside everything else that was given."""
    try:
        tried = {name: sheet.field(name).read(text) for name, text in remedy.set.items()}
    except InputError:
        return False
    return not tried or not sheet.review({**known.values, **tried})


def _settles(
    search: Search,
    verdicts: Sequence[model.Verdict],
    unchecked: Sequence[model.Unchecked],
    deciding: model.Verdict | None,
    known: Known,
    asked: model.Ask,
) -> tuple[model.Settle, ...]:
    """Return the numbers that would settle the open checks, what was asked about first.

    Where all that was checked is in order, or nothing of what was asked could be, it is the
    number for want of which that wasn't. A page of money holds questions of their own, and asks
    for what its question names: who trades in isn't asked for the parts of a repair.
    """
    checks = asked.checks
    wanted = [u for u in unchecked if u.governs and (not checks or u.name in checks)]
    none_made = bool(checks) and not any(v.check.name in checks for v in verdicts)
    if deciding is None or deciding.finding != model.UNKNOWN or (wanted and none_made):
        fields = dict.fromkeys(u.field for u in wanted)
        settles = [model.Settle(search.sheet.field(name), None, None, 1.0) for name in fields]
        return tuple(settles[:MOST])
    counted = model.counting(verdicts, checks, alone=asked.alone)
    open_ = sorted(
        (v for v in counted if v.finding == model.UNKNOWN),
        key=lambda v: (
            bool(checks) and v.check.name not in checks,
            v is not deciding,
            *model.rank(v),
        ),
    )
    among = asked.fields if search.sheet.compares_money else ()
    return settles_of(search, open_, known, among)


def _with_range(output: model.Output, search: Search, standing: Standing | None) -> model.Output:
    key = ("output", output.name)
    low, high = search.ends(key)
    about = standing is not None and bool(search.box.dimensions) and not standing.known(key)
    if low == high:
        return replace(output, about=about) if about else output
    return replace(output, low=low, high=high, about=about)


def _unanswered(sheet: Worksheet, asked: model.Ask, box: Box) -> model.Answer:
    """Return the answer while a needed field is blank: it says which."""
    return model.Answer(
        worksheet=sheet,
        ask=asked,
        given=box.given,
        example=box.example,
        finding=model.UNKNOWN,
        deciding=None,
        verdicts=(),
        unchecked=(),
        outputs=(),
        working=(),
        advice=model.Advice(),
        assumed=box.assumed,
        settles=(),
        pictures=(),
        searched=0,
        missing=box.missing,
    )
