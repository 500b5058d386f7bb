"""Which numbers would settle an answer, and from where.

Each uncertain input is put in at one value after another of its range, as if somebody had given
it: what others usually are narrows with it. At the corners that were worst and best for the open
checks it is noted whether all of these then lie on one side. What settles most often is named
first; among equals, and where no single number settles anything, what narrows most.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc import model
from calc.search.bisection import last_met
from calc.search.box import Box, Dimension, Known
from calc.search.giving import Giving
from calc.search.looking import Search

MOST = 2  # how many numbers to find next are named
CLOSER = 4  # inputs, the best so far, that are put in at more values
CHECKS = 3  # open checks of which it is said how far one narrows, the deciding one first
CORNERS = 2  # the deciding check's best and worst, where open choices are made otherwise as well
WITHOUT = 3  # points looked at, of those where a check doesn't apply
ENDS, MIDDLE = (1 / 6, 5 / 6), (1 / 2,)  # where in its range an input is put in
BETWEEN = (1 / 18, 17 / 18, 5 / 18, 13 / 18)
NARROWED = 3  # of these values, at which a further check's width is looked at
LEAST = 1e-9  # of a check's width, which rounding takes


def settles_of(
    search: Search, verdicts: Sequence[model.Verdict], known: Known, among: Sequence[str] = ()
) -> tuple[model.Settle, ...]:
    """Return the inputs whose true value would settle the open checks most often.

    Parameters
    ----------
    verdicts : sequence of Verdict
        The open checks, the deciding one first.
    known : Known
        What was given, of which the box that was searched was made.
    among : sequence of str
        The inputs that are asked for where any of them is open; all for none.

    Returns
    -------
    tuple of Settle
        At most `MOST`, the best first, each with from where its check is met. Empty where no
        input narrows any of the checks: they run from wholly broken to wholly met whatever
        single number is known.
    """
    hard = [verdict for verdict in verdicts if verdict.check.grade != model.ADVICE]
    open_ = [verdict for verdict in hard or verdicts if _width(search, verdict)]
    return _Settling(search, open_, known).named(among) if open_ else ()


def _width(search: Search, verdict: model.Verdict) -> float:
    """How far a check's margin runs over the box."""
    name = verdict.check.name
    return search.best[name][0] - search.worst[name][0]


@dataclass
class _Given:
    """An input, and what came of giving it."""

    dim: Dimension
    boxes: list[Box] = field(default_factory=list)
    settled: list[bool] = field(default_factory=list)
    narrowed: list[float] = field(default_factory=list)  # of the deciding check's width

    @property
    def narrows(self) -> float:
        """The share of the deciding check's width that goes with it."""
        return sum(self.narrowed) / max(1, len(self.narrowed))

    @property
    def share(self) -> float:
        """The share of its values that settle the open checks."""
        return sum(self.settled) / max(1, len(self.settled))

    def order(self) -> tuple[float, float]:
        """What is least for the input that is named first."""
        return -self.share, -round(self.narrows, 9)


class _Settling:
    """What comes of giving the inputs of one box, each alone."""

    def __init__(self, search: Search, open_: Sequence[model.Verdict], known: Known) -> None:
        self.search = search
        self.giving = Giving(search.sheet, search.box, known)
        self.names = [verdict.check.name for verdict in open_]
        self.tried = open_[:CHECKS]
        points = list(self._points())
        self.points = [*points[:CORNERS], *self._telling(points[CORNERS:])]
        self.corners = [self._margins(search.box, values) for values in self.points[:CORNERS]]

    def _points(self) -> Iterator[Mapping[str, Any]]:
        """The points that tell most: each check's best and worst, and some where it isn't made."""
        for name in self.names:
            yield self.search.best[name][1]
            yield self.search.worst[name][1]
            if self.search.absent_somewhere(name):
                yield from self.search.points_without(name, WITHOUT)

    def _telling(self, points: list[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
        """Order points: where least is broken and where most is, in turn; they contradict soonest.

        What one number settles is contradicted by a point at which everything is met and one at
        which something is broken, and these are the ones that stay so once it is known.
        """
        ordered = sorted(points, key=lambda values: self._broken(self.search.at(values)))
        half = len(ordered) // 2
        first, last = ordered[: len(ordered) - half], ordered[len(ordered) - half :]
        turns = itertools.zip_longest(first, reversed(last))
        return [values for pair in turns for values in pair if values is not None]

    def _broken(self, outcome: model.Outcome) -> int:
        """Return how many of the open checks are broken."""
        return sum(c.margin < 0.0 for c in outcome.checks if c.name in self.names)

    def named(self, among: Sequence[str]) -> tuple[model.Settle, ...]:
        """Return the best inputs, the first first."""
        dimensions = self.search.box.dimensions
        own = [dim for dim in dimensions if dim.name in among]
        found = [_Given(dim) for dim in own or dimensions]
        for one in found:
            self._give(one, ENDS)
        found.sort(key=_Given.order)
        for one in found[:CLOSER]:
            self._give(one, (*MIDDLE, *BETWEEN) if 0.0 < one.share < 1.0 else MIDDLE)
        found[:CLOSER] = sorted(found[:CLOSER], key=_Given.order)
        settles = [(one.share, self._settle(one)) for one in found[:MOST]]
        return tuple(each for share, each in settles if share > 0.0 or each.narrows > LEAST)

    def _settle(self, one: _Given) -> model.Settle:
        """What is said of an input: how far it narrows a check, and from where that is met."""
        narrowed = [(self._narrowed(one, verdict), verdict) for verdict in self.tried]
        narrows, verdict = max(narrowed, key=lambda pair: round(pair[0], 9))
        ends = _ends(self.search, verdict, one.dim)
        return model.Settle(self.search.sheet.field(one.dim.name), *ends, narrows)

    def _give(self, one: _Given, places: Sequence[float]) -> None:
        """Put an input in at more values; all options of a choice at once."""
        if one.dim.options and one.boxes:
            return
        for box in self.giving.given(one.dim, places):
            corners = [self._margins(box, values) for values in self.points[:CORNERS]]
            one.boxes.append(box)
            one.settled.append(self._settles(box, corners))
            one.narrowed.append(self._narrows(self.tried[0], corners))
            led = one.dim.options or one.dim.name in self.giving.leading
            if corners == self.corners and not led:
                return  # nothing at the deciding check's corners hangs on it

    def _margins(self, box: Box, values: Mapping[str, Any], **changed: Any) -> dict[str, float]:
        """The margins of the open checks that are made at a point, in a box with an input known."""
        point = self.giving.point(box, values, **changed)
        outcome = self.search.sheet.compute(point, self.search.silent)
        return {check.name: check.margin for check in outcome.checks if check.name in self.names}

    def _settles(self, box: Box, corners: Sequence[dict[str, float]]) -> bool:
        """Whether the open checks are settled, as far as the points tell.

        One that is broken at all of them settles the answer, and so do all that are met.
        """
        broken, met = set(self.names), True
        for margins in itertools.chain(corners, self._looks(box)):
            under = {name for name, margin in margins.items() if margin < 0.0}
            broken &= under
            met = met and not under
            if not met and not broken:
                return False
        return True

    def _looks(self, box: Box) -> Iterator[dict[str, float]]:
        """The margins at the further points, then with open choices made otherwise at corners."""
        for values in self.points[CORNERS:]:
            yield self._margins(box, values)
        choices = [dim for dim in box.dimensions if dim.options]
        for values in self.points[:CORNERS]:
            for dim in choices:
                for option in dim.options:
                    if option != values.get(dim.name):
                        yield self._margins(box, values, **{dim.name: option})

    def _narrowed(self, one: _Given, verdict: model.Verdict) -> float:
        """Return the share of a check's width that goes with an input known, over its range."""
        if verdict is self.tried[0]:
            return one.narrows
        name = verdict.check.name
        ends = self.search.best[name][1], self.search.worst[name][1]
        shares = [
            self._narrows(verdict, [self._margins(box, values) for values in ends])
            for box in one.boxes[:NARROWED]
        ]
        return sum(shares) / max(1, len(shares))

    def _narrows(self, verdict: model.Verdict, corners: Sequence[Mapping[str, float]]) -> float:
        """Return the share of a check's width that is gone at its best and worst corner."""
        name = verdict.check.name
        # Where it doesn't apply it is met, whatever else is.
        met = max(self.search.best[name][0], 0.0)
        best, worst = (margins.get(name, met) for margins in corners)
        return 1.0 - (best - worst) / _width(self.search, verdict)


def _ends(
    search: Search, verdict: model.Verdict, dim: Dimension
) -> tuple[float | None, float | None]:
    """Return from which value up, or down, a check is met with everything else at its worst."""
    # A window can be left on either side: what mends its worst corner may break the other one.
    if dim.options or verdict.check.sense == "between":
        return None, None
    name = verdict.check.name
    worst: Mapping[str, Any] = search.worst[name][1]

    def met(value: float) -> bool:
        point = search.box.point({**worst, dim.name: value})
        check = model.run_for(name, lambda: search.sheet.compute(point, search.silent))
        return check is None or check.margin >= 0

    met_low, met_high = met(dim.low), met(dim.high)
    if met_low == met_high:
        return None, None
    if met_high:
        return last_met(met, dim.high, dim.low), None
    return None, last_met(met, dim.low, dim.high)
