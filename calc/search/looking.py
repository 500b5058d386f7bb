"""Finding what holds for everything the inputs may be, and solving for remedies.

How the box of possible values is searched:

1. the middle, and each input moved alone to each of its ends, which shows what each check
   hangs on and in which direction;
2. for each check the corner that this predicts to be worst, and the one predicted best; then
   one input after another is flipped there, and a flip that makes it worse (or better) is kept;
3. every corner of the inputs that sway the deciding check most (all of the box's corners when
   there are at most `CORNER_INPUTS` inputs), the others held at the worst corner found;
4. `SAMPLES` points that fill the space evenly, from a fixed seed (see `evenly`), and as many of
   the box's corners, for what only a few ends together bring about.

A check is met only when it is met at every point computed; the answer is "can't tell yet"
when the points disagree. The search is deterministic: the same inputs give the same answer.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from calc import model
from calc.model import Outcome, Worksheet
from calc.search.box import Box, Dimension

CORNER_INPUTS = 6
SAMPLES = 48
SEED = 0.5


class Search:
    """Computes points of a box, each once, and keeps the extremes of every check and output."""

    def __init__(self, sheet: Worksheet, box: Box) -> None:
        self.sheet = sheet
        self.box = box
        self.silent = model.Work(on=False)
        self._seen: dict[tuple[Any, ...], Outcome] = {}
        self.worst: dict[str, tuple[float, dict[str, Any], model.Check]] = {}
        self.best: dict[str, tuple[float, dict[str, Any], model.Check]] = {}
        self.present: dict[str, int] = {}
        self.values: dict[str, list[float]] = {}
        self.limits: dict[str, list[float]] = {}
        self.outputs: dict[str, list[float]] = {}
        self.open: dict[tuple[str, str], model.Unchecked] = {}
        self.middle = {dim.name: dim.middle for dim in box.dimensions}
        self.middle_outcome = self.at(self.middle)
        self._nominal = {check.name: check for check in self.middle_outcome.checks}

    @property
    def count(self) -> int:
        """How many points were computed."""
        return len(self._seen)

    def at(self, values: Mapping[str, Any]) -> Outcome:
        """Return the outcome at one point of the box."""
        key = tuple(values[dim.name] for dim in self.box.dimensions)
        outcome = self._seen.get(key)
        if outcome is None:
            outcome = self.sheet.compute(self.box.point(values), self.silent)
            self._seen[key] = outcome
            self._keep(outcome, dict(values))
        return outcome

    def _keep(self, outcome: Outcome, values: dict[str, Any]) -> None:
        for check in outcome.checks:
            name, margin = check.name, check.margin
            self.present[name] = self.present.get(name, 0) + 1
            if name not in self.worst:
                self.worst[name] = self.best[name] = (margin, values, check)
                self.values[name] = [check.value, check.value]
                self.limits[name] = [check.limit, check.limit]
                continue
            if margin < self.worst[name][0]:
                self.worst[name] = (margin, values, check)
            if margin > self.best[name][0]:
                self.best[name] = (margin, values, check)
            _stretch(self.values[name], check.value)
            _stretch(self.limits[name], check.limit)
        for left in outcome.unchecked:
            self.open.setdefault((left.name, left.field), left)
        for name, value in outcome.amounts():
            if name in self.outputs:
                _stretch(self.outputs[name], value)
            else:
                self.outputs[name] = [value, value]

    # What the points say.

    def ends(self, key: tuple[str, str]) -> tuple[float, float]:
        """Return the least and greatest that a number had at the points."""
        what, name = key
        if what == "margin":
            return self.worst[name][0], self.best[name][0]
        low, high = {"value": self.values, "limit": self.limits, "output": self.outputs}[what][name]
        return low, high

    def shown(self) -> list[tuple[str, str]]:
        """Return the numbers whose ends an answer shows."""
        checks = [(what, name) for name in self.worst for what in ("margin", "value", "limit")]
        return [*checks, *(("output", name) for name in self.outputs)]

    def finding(self, name: str) -> tuple[str, float]:
        """Return the finding that the points give a check, and below which margin it is close."""
        margin_low, _, check = self.worst[name]
        finding = model.finding_over(margin_low, self._greatest(name), check.close_band)
        return finding, check.close_band

    def _greatest(self, name: str) -> float:
        """A check's greatest margin; where it doesn't apply somewhere, it isn't broken there."""
        greatest = self.best[name][0]
        return max(greatest, 0.0) if self.absent_somewhere(name) else greatest

    def margins(self, name: str) -> tuple[float, float]:
        """Return the least and greatest margin that an answer tells of a check."""
        return self.worst[name][0], self._greatest(name)

    def nominal(self, name: str) -> model.Check:
        """Return a check as the middle makes it, or as it was worst where the middle doesn't."""
        return self._nominal.get(name) or self.worst[name][2]

    def absent_somewhere(self, name: str) -> bool:
        """Whether a check doesn't apply at some of the points."""
        return self.present[name] < self.count

    def points_without(self, name: str, most: int) -> list[dict[str, Any]]:
        """Return some of the points at which a check doesn't apply."""
        keys = [key for key, outcome in self._seen.items() if outcome.check(name) is None]
        names = [dim.name for dim in self.box.dimensions]
        return [
            dict(zip(names, key, strict=True)) for key in keys[:: -(-len(keys) // most) or 1][:most]
        ]

    def margin_at(self, name: str, values: Mapping[str, Any]) -> float | None:
        """Return a check's margin at one point, or None where it doesn't apply."""
        check = self.at(values).check(name)
        return check.margin if check else None

    # The four parts of the search, in the order that the module describes.

    def run(self, names: Iterable[str] | None = None) -> None:
        """Search the whole box, for the checks named or for all of them."""
        if not self.box.dimensions:
            return
        sways = self._one_at_a_time(self.middle)
        for name in list(self.worst if names is None else names):
            around, sway = self.middle, sways
            if self.middle_outcome.check(name) is None and name in self.worst:
                # What the middle doesn't make is walked from where it was met.
                around = dict(self.worst[name][1])
                sway = self._one_at_a_time(around)
            self._walk(name, around, sway.get(name, {}), worst=True)
            self._walk(name, around, sway.get(name, {}), worst=False)
        if self.worst:
            self._corners(sways)
        else:
            self._output_corners()
        self._fill()

    def _output_corners(self) -> None:
        """Without checks, go to the corners where each output is predicted lowest and highest."""
        alone = {
            dim.name: [(end, self.at({**self.middle, dim.name: end})) for end in dim.ends]
            for dim in self.box.dimensions
        }
        for output in self.middle_outcome.outputs:
            for pick in (min, max):
                corner = {}
                for name, ends in alone.items():
                    reached = [
                        (one.value, end)
                        for end, outcome in ends
                        for one in outcome.outputs
                        if one.name == output.name
                    ]
                    found = pick(reached, key=lambda pair: pair[0], default=None)
                    corner[name] = found[1] if found else self.middle[name]
                self.at(corner)

    def around(self) -> None:
        """Compute the middle with each input moved alone to each of its ends."""
        self._one_at_a_time(self.middle)

    def _one_at_a_time(
        self, around: Mapping[str, Any]
    ) -> dict[str, dict[str, list[tuple[float, Any]]]]:
        """Return, for each check and input, the margins at the input's ends."""
        sways: dict[str, dict[str, list[tuple[float, Any]]]] = {}
        middle = {check.name: check.margin for check in self.at(around).checks}
        for dim in self.box.dimensions:
            for end in dim.ends:
                outcome = self.at({**around, dim.name: end})
                for check in outcome.checks:
                    if check.margin != middle.get(check.name):
                        entry = sways.setdefault(check.name, {}).setdefault(dim.name, [])
                        entry.append((check.margin, end))
        return sways

    def _walk(
        self,
        name: str,
        around: Mapping[str, Any],
        sway: Mapping[str, list[tuple[float, Any]]],
        *,
        worst: bool,
    ) -> None:
        """Go to the predicted worst (or best) corner of a check, then flip what improves on it."""
        pick = min if worst else max
        corner = dict(around)
        for dim_name, ends in sway.items():
            corner[dim_name] = pick(ends, key=lambda end: end[0])[1]
        reached = self.margin_at(name, corner)
        for dim in self.box.dimensions:
            if dim.name not in sway:
                continue
            for end in dim.ends:
                if end == corner[dim.name]:
                    continue
                flipped = {**corner, dim.name: end}
                margin = self.margin_at(name, flipped)
                if margin is not None and (
                    reached is None or (margin < reached if worst else margin > reached)
                ):
                    corner, reached = flipped, margin

    def _corners(self, sways: Mapping[str, Mapping[str, list[tuple[float, Any]]]]) -> None:
        chosen = list(self.box.dimensions)
        start = dict(self.middle)
        if len(chosen) > CORNER_INPUTS:
            name = min(self.worst, key=lambda check: self.worst[check][0])
            start = dict(self.worst[name][1])
            sway = sways.get(name, {})

            def reach(dim: Dimension) -> float:
                margins = [end[0] for end in sway.get(dim.name, [])]
                return max(margins) - min(margins) if margins else 0.0

            chosen = sorted(chosen, key=reach, reverse=True)[:CORNER_INPUTS]
        for ends in itertools.product(*[dim.ends for dim in chosen]):
            self.at({**start, **{dim.name: end for dim, end in zip(chosen, ends, strict=True)}})

    def _fill(self) -> None:
        for shares in evenly(len(self.box.dimensions), SAMPLES):
            self.at(self._place(shares))
        for shares in evenly(len(self.box.dimensions), SAMPLES, SAMPLES):
            ends = zip(self.box.dimensions, shares, strict=True)
            corner = {d.name: d.at(s if d.options else float(s >= 0.5)) for d, s in ends}
            self.at(corner)

    def _place(self, shares: Sequence[float]) -> dict[str, Any]:
        """Return the values that lie those shares of the way along each dimension."""
        return {
            dim.name: dim.at(share) for dim, share in zip(self.box.dimensions, shares, strict=True)
        }

    def unchecked(self) -> list[model.Unchecked]:
        """Return what could not be checked somewhere in the box for want of a number."""
        return list(self.open.values())

    def odds(self, asked: Sequence[str] = ()) -> model.Odds:
        """Return how many of the evenly filled box's points meet every check but advice.

        With `asked` only the checks of these names count.
        """
        points = evenly(len(self.box.dimensions), SAMPLES)
        met = sum(self.at(self._place(shares)).margin(asked) >= 0 for shares in points)
        return model.Odds(met, len(points))


def _stretch(ends: list[float], value: float) -> None:
    if value < ends[0]:
        ends[0] = value
    elif value > ends[1]:
        ends[1] = value


def evenly(dimensions: int, count: int, after: int = 0) -> list[list[float]]:
    """Return points that fill the unit cube evenly, the same each time; those after so many.

    The j-th coordinate of the i-th point is the fractional part of SEED + i times the square
    root of the j-th prime number, which no fraction approximates well.

    References
    ----------
    .. [1] R. D. Richtmyer's sequence, one of the additive recurrences. Any low-discrepancy
       sequence would do.
    """
    steps: list[float] = []
    candidate = 2
    while len(steps) < dimensions:
        if all(candidate % divisor for divisor in range(2, int(candidate**0.5) + 1)):
            steps.append(candidate**0.5)
        candidate += 1
    return [
        [(SEED + i * step) % 1.0 for step in steps] for i in range(after + 1, after + count + 1)
    ]
