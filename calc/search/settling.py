"""Which numbers would settle an answer, and from where."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model
from calc.search.bisection import last_met
from calc.search.box import Dimension
from calc.search.looking import Search

MOST = 2  # how many numbers to find next are named


def settles_of(search: Search, verdict: model.Verdict) -> tuple[model.Settle, ...]:
    """Return the inputs whose fixing narrows the deciding margin most, and where it is met."""
    name = verdict.check.name
    worst, best = search.worst[name], search.best[name]
    width = worst[0] - best[0]
    if not width:
        return ()
    found: list[tuple[float, Dimension]] = []
    for dim in search.box.dimensions:
        fixed_low = search.margin_at(name, {**worst[1], dim.name: dim.middle})
        fixed_high = search.margin_at(name, {**best[1], dim.name: dim.middle})
        if fixed_low is None or fixed_high is None:
            continue
        narrows = 1 - (fixed_high - fixed_low) / -width
        if narrows > 1e-9:
            found.append((narrows, dim))
    found.sort(key=lambda pair: -round(pair[0], 9))
    # A window can be left on either side: what mends its worst corner may break the other one.
    one_sided = verdict.check.sense != "between"
    settles = []
    for narrows, dim in found[:MOST]:
        ends = (
            _thresholds(search, name, dim, worst[1])
            if one_sided and not dim.options
            else (None, None)
        )
        settles.append(model.Settle(search.sheet.field(dim.name), *ends, narrows))
    return tuple(settles)


def _thresholds(
    search: Search, name: str, dim: Dimension, worst: Mapping[str, Any]
) -> tuple[float | None, float | None]:
    """Return from which value up, or down, a check is met with everything else at its worst."""

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
