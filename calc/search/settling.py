"""Which numbers would settle an answer, and from where.

The few inputs that sway the open checks most are tried in turn: an input is fixed at one value
after another from its range, and it is noted whether every open check then lies on one side at
the worst and the best corner found for it. What settles most often is named first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from calc import model
from calc.search.bisection import last_met
from calc.search.box import Dimension
from calc.search.looking import Search

MOST = 2  # how many numbers to find next are named
TRIED = 5  # inputs that are tried
CHECKS = 3  # open checks that they are tried on, the deciding one first
WITHOUT = 6  # points looked at, of those where a check doesn't apply
PLACES = (1 / 6, 1 / 2, 5 / 6)  # where in its range an input is fixed


def settles_of(search: Search, verdicts: Sequence[model.Verdict]) -> tuple[model.Settle, ...]:
    """Return the inputs whose true value would settle the open checks most often.

    Parameters
    ----------
    verdicts : sequence of Verdict
        The open checks, the deciding one first.

    Returns
    -------
    tuple of Settle
        At most `MOST`, the best first, each with from where its check is met. Empty where no
        input narrows any of the checks: they run from wholly broken to wholly met whatever
        single number is known.
    """
    hard = [verdict for verdict in verdicts if verdict.check.grade != model.ADVICE]
    open_ = [verdict for verdict in hard or verdicts if _width(search, verdict)][:CHECKS]
    found: list[tuple[float, float, Dimension, model.Verdict]] = []
    for dim in _swaying(search, open_):
        fixed = [[_corners(search, v, dim, dim.at(place)) for v in open_] for place in PLACES]
        columns = zip(*fixed, strict=True)
        narrowed = [(_narrows(search, v, by), v) for v, by in zip(open_, columns, strict=True)]
        share, verdict = max(narrowed, key=lambda pair: round(pair[0], 9))
        if share > 1e-9:
            found.append((_settled(fixed), share, dim, verdict))
    found.sort(key=lambda one: (-one[0], -round(one[1], 9)))
    return tuple(
        model.Settle(search.sheet.field(dim.name), *_ends(search, verdict, dim), share)
        for _, share, dim, verdict in found[:MOST]
    )


def _width(search: Search, verdict: model.Verdict) -> float:
    """How far a check's margin runs over the box."""
    name = verdict.check.name
    return search.best[name][0] - search.worst[name][0]


def _swaying(search: Search, verdicts: Sequence[model.Verdict]) -> list[Dimension]:
    """Return the inputs that, each moved alone from the middle, sway an open check most."""
    reached: list[tuple[float, Dimension]] = []
    for dim in search.box.dimensions:
        most = 0.0
        for verdict in verdicts:
            around = search.middle
            if search.middle_outcome.check(verdict.check.name) is None:
                around = search.worst[verdict.check.name][1]
            margins = [_margin(search, verdict, {**around, dim.name: end}) for end in dim.ends]
            most = max(most, (max(margins) - min(margins)) / _width(search, verdict))
        if most:
            reached.append((most, dim))
    reached.sort(key=lambda pair: -round(pair[0], 9))
    return [dim for _, dim in reached[:TRIED]]


def _margin(search: Search, verdict: model.Verdict, values: Mapping[str, Any]) -> float:
    """Return a check's margin at one point; where it doesn't apply it is met, whatever else is."""
    margin = search.margin_at(verdict.check.name, values)
    return max(search.best[verdict.check.name][0], 0.0) if margin is None else margin


def _corners(
    search: Search, verdict: model.Verdict, dim: Dimension, value: Any
) -> tuple[float, float]:
    """Return a check's margin at its worst and best corner with one input fixed."""
    name = verdict.check.name
    worst = _margin(search, verdict, {**search.worst[name][1], dim.name: value})
    best = _margin(search, verdict, {**search.best[name][1], dim.name: value})
    if best < 0 and search.absent_somewhere(name):
        # Broken wherever it applies; what keeps it from applying may be open still.
        spared = search.points_without(name, WITHOUT)
        if any(search.margin_at(name, {**point, dim.name: value}) is None for point in spared):
            best = 0.0
    return worst, best


def _narrows(search: Search, verdict: model.Verdict, fixed: Sequence[tuple[float, float]]) -> float:
    """Return the share of a check's width that goes with an input known, over its range."""
    left = sum(best - worst for worst, best in fixed) / len(fixed)
    return 1 - left / _width(search, verdict)


def _settled(fixed: Sequence[Sequence[tuple[float, float]]]) -> float:
    """Return the share of an input's values at which the open checks are settled.

    One that is broken from its worst to its best corner settles the answer, and so does every
    one being met from its worst corner on.
    """
    count = sum(
        any(best < 0 for _, best in corners) or all(worst >= 0 for worst, _ in corners)
        for corners in fixed
    )
    return count / len(fixed)


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
        check = search.sheet.compute(
            search.box.point({**worst, dim.name: value}), search.silent
        ).check(name)
        return check is None or check.margin >= 0

    met_low, met_high = met(dim.low), met(dim.high)
    if met_low == met_high:
        return None, None
    if met_high:
        return last_met(met, dim.high, dim.low), None
    return None, last_met(met, dim.low, dim.high)
