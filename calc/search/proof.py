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
doesn't hang on costs nothing. Where a run only looks a number up by it, the choice is an input
like the others, whose range are its options (`calc.search.options`). The effort is counted, in
runs and points, never by the clock, so the same inputs have the same answer on every machine.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc import model
from calc.search.enclosing import Enclosure, Key, Numbers, Ranges, enclosed
from calc.search.forks import Forks, NotProvable, TooManyWays
from calc.search.looking import evenly
from calc.search.parts import Choosing, OutOfEffort, Part
from calc.search.question import SHARE, Found, Question
from calc.search.slopes import ANY_SLOPE, INF, Slopes, scaled

Group = str | tuple[str, ...] | None  # what a run is for: one check, a group, or everything
PROBES = 8  # corners computed of a part, of the inputs that leave comparisons open


WHATS = ("margin", "value", "limit", "left", "inside", "output")  # what is known by a name
LOOK = "everything"  # what a run is kept as that left groups out


@dataclass(slots=True)
class Kept:
    """What a run gave for a part: its numbers, or the choice that it needs made.

    `left` are the groups that a look left out, each with the open choice that it reads, "" for a
    comparison.
    """

    found: dict[Key, Enclosure]
    choice: str = ""
    left: Mapping[tuple[str, ...], str] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether what isn't found isn't made anywhere in the part."""
        return not self.choice and not self.left


@dataclass
class Proof:
    """Proves over one box.

    `run(values, group)` makes the numbers at values that may be intervals: those of one check or
    of a group, or with None all of them. Open choices are missing from the values: to read one by
    its name raises `OpenChoice`. `at(values, key)` is one number at a point, None where it isn't
    made.
    `effort` is what all questions together may cost, in points.
    """

    run: Callable[[dict[str, Any], Group], Numbers]
    at: Callable[[Mapping[str, Any], Key], float | None]
    given: Mapping[str, Any]
    ranges: Ranges
    choices: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    effort: float = 2000.0
    ways: int = 96
    runs: int = field(default=0, init=False)
    complete: bool = field(default=False, init=False)
    _forks: Forks = field(default_factory=Forks, init=False)
    _kept: dict[Any, Kept] = field(default_factory=dict, init=False)
    _looked: dict[Key, Enclosure] = field(default_factory=dict, init=False)  # over the whole box
    _group_of: dict[Key, tuple[str, ...]] = field(default_factory=dict, init=False)

    def __post_init__(self) -> None:
        self._probed = 0
        several = {n: (0, len(options) - 1) for n, options in self.choices.items() if options[1:]}
        ranges = {**self.ranges, **several}
        self._width = {name: high - low for name, (low, high) in ranges.items()}
        first = {name: options[0] for name, options in self.choices.items()}
        self._whole = Part({**self.given, **first}, ranges, {}, self.choices)

    @property
    def combinations(self) -> int:
        """How many combinations the open choices have."""
        return math.prod(len(options) for options in self.choices.values())

    # What a part of the box and a point of it cost.

    def _enclose(self, part: Part, key: Key) -> dict[Key, Enclosure]:
        """Enclose the numbers of a part: those of the key's group at least."""
        group = self._group_of.get(key, None if key[0] == "output" else key[1])
        place = part.place()
        for kept_as in (LOOK, group):
            known = self._kept.get((place, kept_as))
            if known is not None and (key in known.found or known.whole):
                return known.found
        if known is not None and known.choice:
            raise model.OpenChoice(known.choice)
        return self._made(part, group, group).found

    def _made(self, part: Part, group: Group, kept_as: Group) -> Kept:
        """Run for a group, and keep what it gives."""
        self._forks = Forks(self.ways, self.effort)
        left = part.left()
        exact = {name: value for name, value in part.given.items() if name not in left}
        try:
            found = enclosed(
                lambda values: self.run(Choosing(values, left), group),
                exact,
                part.numbers(),
                self._forks,
            )
        except model.OpenChoice as choice:
            self._kept[part.place(), kept_as] = Kept({}, choice.name)
            raise
        finally:
            self.runs += 1
            self._spend(self._forks.cost())
        self._kept[part.place(), kept_as] = known = Kept(found)
        return known

    def _cut(self, part: Part, key: Key) -> dict[Key, Enclosure] | list[Part]:
        """Enclose the numbers of a part, or cut it as its formulae need it."""
        try:
            return self._enclose(part, key)
        except (model.OpenChoice, TooManyWays) as need:
            return self._pieces(part, need)

    def _pieces(self, part: Part, need: Exception) -> list[Part]:
        """Cut a part for what a run of it needs."""
        if isinstance(need, model.OpenChoice):
            return part.picked(need.name)
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

    def look(self, most: float, met: Collection[str] = ()) -> set[Key]:
        """Enclose everything over the whole box, once for all questions; the numbers found.

        `complete` says afterwards whether that was possible, so that no number is missing. `met`
        are what is known to be made: a group of these alone is left until it is asked for.
        """
        found: set[Key] = set()
        rest = self._allow(most)
        todo: list[tuple[Part, Group]] = [(self._whole, None)]
        self.complete = False
        try:
            while todo:
                part, group = todo.pop()
                known = self._look_at(part, group)
                if isinstance(known, Kept):
                    self._note_groups(known, group, found)
                    found |= known.found.keys()
                    for names, choice in known.left.items():
                        if choice:
                            self._kept[part.place(), names] = Kept({}, choice)
                        if not all(name in met for name in names):
                            pieces = part.picked(choice) if choice else [part]
                            todo += [(piece, names) for piece in pieces]
                else:
                    todo += [(piece, group) for piece in known]
            self.complete = True
        except (OutOfEffort, NotProvable):
            pass
        finally:
            self.effort = rest + max(self.effort, 0.0)
        return found

    def _look_at(self, part: Part, group: Group) -> Kept | list[Part]:
        """Look at a part, or cut it: at all but the groups that read a choice, or at one group."""
        try:
            if group is not None:
                return self._made(part, group, group)
            with model.looking() as left:
                known = self._made(part, None, LOOK)
            known.left = left
            # What was left out on one way may have been made on another.
            partly = {name for names in left for name in names}
            for key in [key for key in known.found if key[1] in partly]:
                del known.found[key]
            if part is self._whole:
                self._looked = known.found
            return known
        except (model.OpenChoice, TooManyWays) as need:
            return self._pieces(part, need)

    def _note_groups(self, known: Kept, group: Group, found: set[Key]) -> None:
        """Note which numbers a look left to a group: what it found itself is of none."""
        if isinstance(group, tuple):
            self._group_of.update(dict.fromkeys(known.found.keys() - found, group))
        for names in known.left:
            for name in names:
                keys = [(what, name) for what in WHATS]
                self._group_of.update(dict.fromkeys(keys, names))

    # Questions.

    def made_with(self, key: Key, other: Key) -> bool:
        """Whether a look showed that `other`, of the same check, is made wherever `key` is."""
        one, two = self._looked.get(key), self._looked.get(other)
        return one is not None and two is not None and one.ways == two.ways

    def at_least(
        self, key: Key, goal: float, most: float, *, sign: int = 1, everywhere: bool = False
    ) -> Found:
        """Settle whether sign times a number is `goal` or more wherever it is made, and, with
        `everywhere`, that it is made all over the box; with at most that effort."""
        seen = self._looked.get(key)
        if seen is not None and (seen.always or not everywhere):
            bound = seen.low if sign > 0 else -seen.high
            if bound >= goal:
                return Found(True, bound=bound)
        return self._ask(Question(key, sign, goal, everywhere), most)

    def least(self, key: Key, ends: tuple[float, float], most: float, *, sign: int = 1) -> Found:
        """Find the least of sign times a number, to `SHARE` of its width, with at most that
        effort. `ends` are the least and greatest of it that are known already."""
        question = Question(key, sign, None, False)
        question.value, question.top = ends
        return self._ask(question, most)

    def _ask(self, question: Question, most: float) -> Found:
        rest = self._allow(most)
        try:
            self._settle(question)
        except (OutOfEffort, NotProvable):
            return question.found(question.failed)
        finally:
            self.effort = rest + max(self.effort, 0.0)
        return question.found(True)

    def _settle(self, asked: Question) -> None:
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
        self, asked: Question, part: Part, known: Mapping[Key, Enclosure]
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
        slopes = scaled(one.slopes or one.leaning, asked.sign, asked.sign)
        corner, fixed = _worst_corner(part, slopes, certain=one.slopes is not None)
        reached = self._point(asked, part, corner)
        # A choice that the number doesn't hang on needs no look.
        left = [
            name
            for name in part.open()
            if name not in fixed
            and (name not in self.choices or name in slopes or name in one.blame)
        ]
        if asked.failed or not left or (not asked.everywhere and asked.passes(bound)):
            return
        if fixed:
            yield bound, part.held(fixed)
            return
        if one.slopes is not None:
            value = self._point(asked, part, part.middle())
            if asked.failed:
                return
            reach = sum(_reach(slopes.get(name), part.away(name)) for name in left)
            if value is not None and asked.passes(value - reach):
                return
            if value is not None:
                bound = max(bound, value - reach)
        lost = [name for name in left if slopes.get(name) == ANY_SLOPE]
        if lost and one.slopes is None:  # no slope tells which corner is worst
            self._probe(asked, part, corner, lost)
            if asked.failed:
                return
        across = self._widest(part, left, slopes)
        blamed = [] if one.slopes is not None else self._blamed(part, one.blame)
        # Where the worst corner doesn't make the number, what decides on that comes first.
        if blamed and (reached is None or not self._slopes_explain(asked, part, one, slopes)):
            across = blamed[0]
            self._probe(asked, part, corner, blamed)
            if asked.failed:
                return
        for half in part.halves(across):
            yield bound, half

    def _slopes_explain(self, asked: Question, part: Part, one: Enclosure, slopes: Slopes) -> bool:
        """Whether what the number changes along its ways may be why it isn't settled.

        If not, it is that some way is taken, or that one doesn't make the number.
        """
        if asked.everywhere and not one.always:
            return False
        reach = sum(_reach(slopes.get(name), part.away(name)) for name in part.open())
        return 2.0 * reach >= SHARE * (one.high - one.low)

    def _probe(
        self, asked: Question, part: Part, corner: Mapping[str, float], names: Sequence[str]
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

    def _point(self, asked: Question, part: Part, values: Mapping[str, float]) -> float | None:
        point = part.point(values)
        self._spend(1)
        value = self.at(point, asked.key)
        asked.meet(value, point)
        return None if value is None else asked.sign * value

    def _widest(self, part: Part, left: Sequence[str], slopes: Slopes) -> str:
        """The input across which to cut: where the number changes most over its range."""

        def weight(name: str) -> tuple[float, float]:
            low, high = part.ranges[name]
            share = (high - low) / self._width[name]
            reach = _reach(slopes.get(name), part.away(name))
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


def _reach(slope: tuple[float, float] | None, away: float) -> float:
    """How far a number may fall between the middle of a range and ends so far away."""
    least, greatest = slope or (0.0, 0.0)
    return max(-least, greatest, 0.0) * away


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
            corner[name] = low if lean > 0.0 else high if lean < 0.0 else part.middle_of(name)
    return corner, fixed
