"""Proving what a number is at least, or at most, over a whole box of inputs.

One run of the formulae on intervals (`calc.search.intervals`) gives ends for every number that
they make. Where those are too wide to decide:

1. an input whose slopes have one sign is held at its worst end, which is no loss: most numbers
   are then one exact point;
2. the corner that the slopes predict to be worst is computed as it stands: it may be a
   counterexample;
3. the middle less what the slopes allow on the way to the sides may be enough;
4. else the box is cut in two, across the input that matters most, and each half is proved.

A choice that is open is gone through, option by option, where a run reads it: what a number
doesn't hang on costs nothing. The effort is counted, in runs and points, never by the clock, so
the same inputs have the same answer on every machine.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc import arith
from calc.search import functions, intervals
from calc.search.intervals import ANY_SLOPE, INF, Forks, NotProvable, Slopes, TooManyWays
from calc.search.looking import evenly

Key = tuple[str, str]  # what of a check or output, and its name: ("margin", "front_axle")
Ranges = Mapping[str, tuple[float, float]]
Numbers = Mapping[Key, Any]

SHARE = 0.005  # of its width, as near as a shown end comes to the true one
ROUNDING = 1e-9
PROBES = 8  # corners computed of a part, of the inputs that leave comparisons open


class OutOfEffort(Exception):
    """The effort that was allowed is spent."""


class NeedsChoice(Exception):
    """A run reads a choice that is open: the proof goes on for each of its options."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


class Choosing(dict[str, Any]):
    """The values of a run, without the choices that are still open."""

    def __init__(self, values: Mapping[str, Any], left: Sequence[str]) -> None:
        super().__init__(values)
        self.left = left

    def __missing__(self, name: str) -> Any:
        if name in self.left:
            raise NeedsChoice(name)
        raise KeyError(name)


@dataclass(slots=True)
class Enclosure:
    """What one number may be over a box.

    `slopes` hold over the whole box; None when different ways made it by different formulae.
    `leaning` are the slopes of all ways, good for guessing only. `always` is False when some
    way doesn't make the number.
    """

    low: float
    high: float
    slopes: Slopes | None
    leaning: Slopes
    number: Any
    ways: int = 1
    always: bool = True
    blame: Mapping[str, int] = field(default_factory=dict)

    def take(self, value: Any) -> None:
        """Hold what another way made as well."""
        low, high, slopes, number = intervals.parts(value)
        self.low, self.high = min(self.low, low), max(self.high, high)
        self.leaning = intervals.spanned(self.leaning, slopes)
        self.slopes = self.leaning if self.slopes is not None and number == self.number else None
        self.ways += 1


def enclosed(
    run: Callable[[dict[str, Any]], Numbers], given: Mapping[str, Any], ranges: Ranges, forks: Forks
) -> dict[Key, Enclosure]:
    """Return what each number that `run` makes may be, while inputs lie in their ranges.

    A way on which the formulae refuse the inputs makes nothing; when all ways do, the refusal
    is raised. Whatever else goes wrong on intervals is `NotProvable`.
    """
    found: dict[Key, Enclosure] = {}
    refusal: Exception | None = None
    done = 0
    intervals.begin(forks)
    with arith.using(functions.FUNCTIONS):
        while forks.next():
            ranged = {name: intervals.variable(name, *ends) for name, ends in ranges.items()}
            try:
                numbers = run({**given, **ranged})
            except (ValueError, ZeroDivisionError) as error:
                refusal = error
                continue
            except (TypeError, AttributeError, KeyError, IndexError, OverflowError) as error:
                raise NotProvable(str(error)) from error
            done += 1
            for key, value in numbers.items():
                if key in found:
                    found[key].take(value)
                else:
                    low, high, slopes, number = intervals.parts(value)
                    found[key] = Enclosure(low, high, slopes, slopes, number)
    if refusal is not None and not done:
        raise refusal
    for one in found.values():
        one.always, one.blame = one.ways == done, forks.blame
        if refusal is not None or not one.always:
            one.slopes = None
    return found


@dataclass(slots=True)
class Part:
    """A part of the box: what is exact in it, the ranges of the rest, and the choices made.

    A choice of which no option was picked yet stands in `given` with one that it may be.
    """

    given: Mapping[str, Any]
    ranges: Ranges
    picks: Mapping[str, Any] = field(default_factory=dict)

    def place(self) -> tuple[Any, ...]:
        """Which part this is."""
        return tuple(self.picks.items()), *self.ranges.values()

    def picked(self, name: str, options: Sequence[Any]) -> list[Part]:
        """This part for each option of a choice."""
        return [
            Part({**self.given, name: option}, self.ranges, {**self.picks, name: option})
            for option in options
        ]

    def open(self) -> list[str]:
        """The inputs that still have a range."""
        return [name for name, (low, high) in self.ranges.items() if low < high]

    def middle(self) -> dict[str, float]:
        """The middle of each range."""
        return {name: (low + high) / 2.0 for name, (low, high) in self.ranges.items()}

    def held(self, fixed: Mapping[str, float]) -> Part:
        """This part with some inputs held."""
        exact = {name: (value, value) for name, value in fixed.items()}
        return Part(self.given, {**self.ranges, **exact}, self.picks)

    def halves(self, name: str) -> tuple[Part, Part]:
        """The two halves of this part."""
        low, high = self.ranges[name]
        middle = (low + high) / 2.0
        if not low < middle < high:
            raise OutOfEffort
        return (
            Part(self.given, {**self.ranges, name: (low, middle)}, self.picks),
            Part(self.given, {**self.ranges, name: (middle, high)}, self.picks),
        )


@dataclass(slots=True)
class Found:
    """How a question about the box went: settled or left open, and where it was worst.

    `failed` says that it isn't so, as `point` shows. `value` is the least (or greatest) of the
    points computed, None when there was none; `bound` is what sign times the number is at least
    all over the box, when it is settled.
    """

    settled: bool
    failed: bool = False
    value: float | None = None
    bound: float = -INF
    point: Mapping[str, Any] | None = None


@dataclass
class Proof:
    """Proves over one box.

    `run(values, check)` makes the numbers at values that may be intervals: those of one check,
    or with None all of them. Open choices are missing from the values: to read one by its name
    raises `NeedsChoice`. `at(values, key)` is one number at a point, None where it isn't made.
    `effort` is what all questions together may cost, in points.
    """

    run: Callable[[dict[str, Any], str | None], Numbers]
    at: Callable[[Mapping[str, Any], Key], float | None]
    given: Mapping[str, Any]
    ranges: Ranges
    choices: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    effort: float = 2000.0
    ways: int = 96
    runs: int = field(default=0, init=False)
    complete: bool = field(default=False, init=False)
    _forks: Forks = field(default_factory=Forks, init=False)
    _kept: dict[Any, dict[Key, Enclosure] | str] = field(default_factory=dict, init=False)

    def __post_init__(self) -> None:
        self._probed = 0
        self._width = {name: high - low for name, (low, high) in self.ranges.items()}
        first = {name: options[0] for name, options in self.choices.items()}
        self._whole = Part({**self.given, **first}, dict(self.ranges))

    @property
    def combinations(self) -> int:
        """How many combinations the open choices have."""
        return math.prod(len(options) for options in self.choices.values())

    # What a part of the box and a point of it cost.

    def _enclose(self, part: Part, key: Key | None) -> dict[Key, Enclosure]:
        """Enclose the numbers of a part: those of the key's check, or all of them."""
        group = None if key is None or key[0] == "output" else key[1]
        place = part.place()
        known = self._kept.get((place, None))
        if known is None or isinstance(known, str):  # all numbers may read what one doesn't
            known = self._kept.get((place, group))
        if isinstance(known, str):
            raise NeedsChoice(known)
        if known is not None:
            return known
        self._forks = Forks(self.ways, self.effort)
        left = [name for name in self.choices if name not in part.picks]
        exact = {name: value for name, value in part.given.items() if name not in left}
        try:
            known = enclosed(
                lambda values: self.run(Choosing(values, left), group),
                exact,
                part.ranges,
                self._forks,
            )
        except NeedsChoice as choice:
            self._kept[place, group] = choice.name
            raise
        finally:
            self.runs += 1
            self._spend(self._forks.cost())
        self._kept[place, group] = known
        return known

    def _cut(self, part: Part, key: Key | None) -> dict[Key, Enclosure] | list[Part]:
        """Enclose the numbers of a part, or cut it as its formulae need it."""
        try:
            return self._enclose(part, key)
        except NeedsChoice as choice:
            return part.picked(choice.name, self.choices[choice.name])
        except TooManyWays:
            return list(part.halves(self._most_blamed(part)))

    def _spend(self, effort: float) -> None:
        self.effort -= effort
        if self.effort < 0:
            raise OutOfEffort

    def _allow(self, most: float) -> float:
        """Leave that effort at most, and return what is put aside."""
        rest = self.effort - min(most, self.effort)
        self.effort -= rest
        return rest

    def look(self, most: float) -> set[Key]:
        """Enclose everything over the whole box, once for all questions; the numbers found.

        `complete` says afterwards whether that was possible, so that no number is missing.
        """
        found: set[Key] = set()
        rest, left = self._allow(most), [self._whole]
        self.complete = False
        try:
            while left:
                known = self._cut(left.pop(), None)
                if isinstance(known, list):
                    left += known
                else:
                    found |= known.keys()
            self.complete = True
        except (OutOfEffort, NotProvable):
            pass
        finally:
            self.effort = rest + max(self.effort, 0.0)
        return found

    # Questions.

    def at_least(
        self, key: Key, goal: float, most: float, *, sign: int = 1, everywhere: bool = False
    ) -> Found:
        """Settle whether sign times a number is `goal` or more wherever it is made, and, with
        `everywhere`, that it is made all over the box; with at most that effort."""
        return self._ask(_Question(key, sign, goal, everywhere), most)

    def least(self, key: Key, ends: tuple[float, float], most: float, *, sign: int = 1) -> Found:
        """Find the least of sign times a number, to `SHARE` of its width, with at most that
        effort. `ends` are the least and greatest of it that are known already."""
        question = _Question(key, sign, None, False)
        question.value, question.top = ends
        return self._ask(question, most)

    def _ask(self, question: _Question, most: float) -> Found:
        rest = self._allow(most)
        try:
            self._settle(question)
        except (OutOfEffort, NotProvable):
            return question.found(question.failed)
        finally:
            self.effort = rest + max(self.effort, 0.0)
        return question.found(True)

    def _settle(self, asked: _Question) -> None:
        order = itertools.count()
        heap = [(-INF, next(order), self._whole)]
        while heap and not asked.failed:
            bound, _, part = heapq.heappop(heap)
            if asked.passes(bound) and not asked.everywhere:
                continue
            known = self._cut(part, asked.key)
            if isinstance(known, list):
                if known[0].picks == part.picks:  # cut since too many ways were open
                    self._probe(asked, part, part.middle(), self._blamed(part, self._forks.blame))
                parts = [(bound, piece) for piece in known]
            else:
                parts = list(self._reduced(asked, part, known))
            for bound, part in parts:
                heapq.heappush(heap, (bound, next(order), part))

    def _reduced(
        self, asked: _Question, part: Part, known: Mapping[Key, Enclosure]
    ) -> Iterator[tuple[float, Part]]:
        """Give the parts that are left to look at, with what the number is at least there."""
        one = known.get(asked.key)
        if one is None:
            if asked.everywhere:
                self._point(asked, part, part.middle())
            return
        bound = one.low if asked.sign > 0 else -one.high
        if (one.always or not asked.everywhere) and asked.passes(bound):
            return
        slopes = intervals.scaled(one.slopes or one.leaning, asked.sign, asked.sign)
        corner, fixed = _worst_corner(part, slopes, certain=one.slopes is not None)
        self._point(asked, part, corner)
        left = [name for name in part.open() if name not in fixed]
        if asked.failed or not left or (not asked.everywhere and asked.passes(bound)):
            return
        if fixed:
            yield bound, part.held(fixed)
            return
        if one.slopes is not None:
            value = self._point(asked, part, part.middle())
            if asked.failed:
                return
            reach = sum(_reach(slopes.get(name), *part.ranges[name]) for name in left)
            if value is not None and asked.passes(value - reach):
                return
            if value is not None:
                bound = max(bound, value - reach)
        across = self._widest(part, left, slopes)
        blamed = [] if one.slopes is not None else self._blamed(part, one.blame)
        if blamed and not self._slopes_explain(asked, part, one, slopes):
            across = blamed[0]
            self._probe(asked, part, corner, blamed)
            if asked.failed:
                return
        for half in part.halves(across):
            yield bound, half

    def _slopes_explain(self, asked: _Question, part: Part, one: Enclosure, slopes: Slopes) -> bool:
        """Whether what the number changes along its ways may be why it isn't settled.

        If not, it is that some way is taken, or that one doesn't make the number.
        """
        if asked.everywhere and not one.always:
            return False
        reach = sum(_reach(slopes.get(name), *part.ranges[name]) for name in part.open())
        return 2.0 * reach >= SHARE * (one.high - one.low)

    def _probe(
        self, asked: _Question, part: Part, corner: Mapping[str, float], names: Sequence[str]
    ) -> None:
        """Compute corners of these inputs, other ones each time, until one contradicts."""
        corners = evenly(len(names), PROBES, self._probed)
        self._probed += PROBES
        for shares in corners:
            drawn = {
                name: part.ranges[name][share >= 0.5]
                for name, share in zip(names, shares, strict=True)
            }
            self._point(asked, part, {**corner, **drawn})
            if asked.failed:
                return

    def _point(self, asked: _Question, part: Part, values: Mapping[str, float]) -> float | None:
        point = {**part.given, **values}
        self._spend(1)
        value = self.at(point, asked.key)
        asked.meet(value, point)
        return None if value is None else asked.sign * value

    def _widest(self, part: Part, left: Sequence[str], slopes: Slopes) -> str:
        """The input across which to cut: where the number changes most over its range."""

        def weight(name: str) -> tuple[float, float]:
            low, high = part.ranges[name]
            share = (high - low) / self._width[name]
            reach = _reach(slopes.get(name), low, high)
            return (reach if reach < INF else 1e300 * share), share

        return max(left, key=weight)

    def _most_blamed(self, part: Part) -> str:
        left = part.open()
        if not left:
            raise OutOfEffort
        return next(iter(self._blamed(part, self._forks.blame)), left[0])

    def _blamed(self, part: Part, blame: Mapping[str, int]) -> list[str]:
        """The inputs that left comparisons open, those first that did so most."""

        def weight(name: str) -> float:
            low, high = part.ranges[name]
            return (high - low) / self._width[name] * blame.get(name, 0)

        return sorted((name for name in part.open() if blame.get(name)), key=weight, reverse=True)


class _Question:
    """What is asked of one number, and the worst that was met."""

    __slots__ = ("bound", "everywhere", "failed", "goal", "key", "point", "sign", "top", "value")

    def __init__(self, key: Key, sign: int, goal: float | None, everywhere: bool) -> None:
        self.key, self.sign, self.goal, self.everywhere = key, sign, goal, everywhere
        self.value, self.top, self.bound = INF, -INF, INF
        self.point: Mapping[str, Any] | None = None
        self.failed = False

    @property
    def enough(self) -> float:
        """A part on which the number is at least this needs no closer look."""
        if self.goal is not None:
            return self.goal
        if not -INF < self.value < INF:
            return self.value
        width = self.top - self.value
        near = SHARE * width if 0.0 < width < INF else 0.0
        return self.value - near - ROUNDING * abs(self.value)

    def passes(self, bound: float) -> bool:
        """Whether a part on which the number is at least that needs no closer look."""
        if not bound >= self.enough:
            return False
        self.bound = min(self.bound, bound)
        return True

    def meet(self, value: float | None, point: Mapping[str, Any]) -> None:
        """Take note of a point."""
        if value is None:
            if self.everywhere:
                self.failed, self.point = True, point
            return
        signed = self.sign * value
        self.top = max(self.top, signed)
        if signed < self.value:
            self.value, self.point = signed, point
            self.failed = self.goal is not None and signed < self.goal

    def found(self, settled: bool) -> Found:
        """The outcome."""
        value = None if self.value == INF else self.sign * self.value
        return Found(settled, self.failed, value, min(self.value, self.bound), self.point)


def _reach(slope: tuple[float, float] | None, low: float, high: float) -> float:
    """How far a number may fall between the middle of a range and its ends."""
    least, greatest = slope or (0.0, 0.0)
    return max(-least, greatest, 0.0) * (high - low) / 2.0


def _worst_corner(
    part: Part, slopes: Slopes, *, certain: bool
) -> tuple[dict[str, float], dict[str, float]]:
    """Return the corner where a number is predicted least, and what is certain of it."""
    corner, fixed = {}, {}
    for name, (low, high) in part.ranges.items():
        least, greatest = slopes.get(name, (0.0, 0.0))
        if certain and low < high and (least >= 0.0 or greatest <= 0.0):
            fixed[name] = corner[name] = low if least >= 0.0 else high
        else:
            lean = 0.0 if (least, greatest) == ANY_SLOPE else least + greatest
            corner[name] = low if lean > 0.0 else high if lean < 0.0 else (low + high) / 2.0
    return corner, fixed
