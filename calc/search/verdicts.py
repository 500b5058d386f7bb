"""The verdicts: each check over everything that the inputs may be, and what stands behind it."""

from __future__ import annotations

from calc import model
from calc.search.looking import Search
from calc.search.standing import Standing, prove, settle_values

EVERYTHING = model.Ask("", "")  # a question about all that is checked


def verdicts(search: Search, standing: Standing | None = None) -> list[model.Verdict]:
    """Return a verdict for each check met anywhere in the box, what is broken first."""
    return sorted((_verdict(search, standing, name) for name in search.worst), key=model.rank)


def _verdict(search: Search, standing: Standing | None, name: str) -> model.Verdict:
    finding, _ = search.finding(name)
    return model.Verdict(
        search.nominal(name),
        finding,
        *search.ends(("value", name)),
        *search.margins(name),
        *search.ends(("limit", name)),
        standing=_stands(search, standing, name, finding),
        about=not _exact(search, standing, ("value", name)),
    )


def settle_order(search: Search, standing: Standing, asked: model.Ask = EVERYTHING) -> None:
    """Find how far from their limits the checks are that may decide: the worst of them does.

    Which one that is would hang, without it, on the points that happened to be computed. What
    counts for the question `asked` is as for `model.counting`.
    """
    if not search.box.dimensions:
        return
    equals = _equals(search, asked)
    for _ in range(len(equals)):
        if len(equals) < 2:
            return
        leader = min(equals, key=lambda name: _rank(search, name))
        if standing.leads(leader, [name for name in equals if name != leader]):
            return
        before, equals = equals, _equals(search, asked)
        if equals == before and leader == min(equals, key=lambda name: _rank(search, name)):
            break
    standing.settle_margins(equals)


def _equals(search: Search, asked: model.Ask) -> list[str]:
    """Return the checks of the gravest finding and grade: the margin decides among them."""
    ranks = {
        name: _rank(search, name)
        for name in search.worst
        if not asked.checks or name in asked.checks or _counts(search, name, asked)
    }
    first = min(ranks.values(), default=(0, 0, 0.0))[:2]
    return [name for name, rank in ranks.items() if rank[:2] == first]


def _counts(search: Search, name: str, asked: model.Ask) -> bool:
    grade = search.nominal(name).grade
    return model.counts(search.finding(name)[0], grade, alone=asked.alone)


def _rank(search: Search, name: str) -> model.Rank:
    finding, _ = search.finding(name)
    return model.rank_of(finding, search.nominal(name).grade, *search.margins(name))


class Foremost:
    """What decides, alone: for a list of many answers, of which one line is shown."""

    def __init__(self, search: Search) -> None:
        self.search = search
        self._standing = prove(search, values=False)

    @property
    def finding(self) -> str:
        """The finding of the whole answer; which of the checks with this one decides is open."""
        deciding = _verdict(self.search, self._standing, self._first())
        return model.finding_of([deciding], self.search.unchecked())

    def verdict(self) -> model.Verdict:
        """Return the deciding verdict, with the true ends of what its sentence shows."""
        settle_order(self.search, self._standing)
        name = self._first()
        settle_values(self._standing, [("value", name), ("limit", name)])
        return _verdict(self.search, self._standing, name)

    def _first(self) -> str:
        return min(self.search.worst, key=lambda name: _rank(self.search, name))


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
