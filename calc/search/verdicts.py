"""The verdicts: each check over everything that the inputs may be, and what stands behind it."""

from __future__ import annotations

from calc import model
from calc.search.looking import Search
from calc.search.standing import Standing, prove, settle_values


def verdicts(search: Search, standing: Standing | None = None) -> list[model.Verdict]:
    """Return a verdict for each check met anywhere in the box, what is broken first."""
    nominal = {check.name: check for check in search.middle_outcome.checks}
    found = []
    for name, (_, _, worst_check) in search.worst.items():
        finding, _ = search.finding(name)
        low, high = search.ends(("margin", name))
        verdict = model.Verdict(
            nominal.get(name, worst_check),
            finding,
            *search.ends(("value", name)),
            low,
            max(high, 0.0) if search.absent_somewhere(name) else high,
            *search.ends(("limit", name)),
            standing=_stands(search, standing, name, finding),
            about=not _exact(search, standing, ("value", name)),
        )
        found.append(verdict)
    return sorted(found, key=model.rank)


def foremost(search: Search) -> model.Verdict:
    """Return the deciding verdict alone: for a list of many answers, of which one line is shown."""
    standing = prove(search, values=False)
    name = verdicts(search, standing)[0].check.name
    settle_values(standing, [(what, name) for what in ("margin", "value", "limit")])
    return next(v for v in verdicts(search, standing) if v.check.name == name)


def of_all(search: Search, standing: Standing | None, deciding: model.Verdict | None) -> str:
    """Return what stands behind the finding of the whole answer.

    What is over, or differs, shows in the deciding check alone; that all is well, in all of them.
    A check that differs without deciding was asked by another question, and its machines are shown.
    """
    if deciding is None or not search.box.dimensions:
        return model.PROVED
    if deciding.finding in (model.OVER, model.UNKNOWN) or standing is None:
        return deciding.standing
    held = all(
        _stands(search, standing, name, search.finding(name)[0]) != model.SAMPLED
        for name in search.worst
    )
    return model.PROVED if held and standing.complete else model.SAMPLED


def _exact(search: Search, standing: Standing | None, key: tuple[str, str]) -> bool:
    if not search.box.dimensions:
        return True
    return standing is not None and standing.known(key)


def _stands(search: Search, standing: Standing | None, name: str, finding: str) -> str:
    if not search.box.dimensions:
        return model.PROVED
    if finding == model.UNKNOWN:
        return model.SHOWN
    held = standing is not None and standing.held.get(name) == finding
    return model.PROVED if held else model.SAMPLED
