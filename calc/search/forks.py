"""The ways through the comparisons that a run on intervals leaves open, and its expressions.

A comparison that the ends of two intervals leave open is followed both ways: the run is repeated,
and each way takes its own side of it.
"""

from __future__ import annotations

import math
from typing import Any

from calc import model


class NotProvable(Exception):
    """What was asked of an interval has no interval for an answer."""


class TooManyWays(NotProvable):
    """More comparisons were open than are worth following."""


class Forks:
    """The ways through the comparisons that a box leaves open, depth first.

    `most` ways are followed, at a `cost` of no more than `room`, and `deepest` open comparisons
    on one way. `blame` counts, for each input, how often it left a comparison open.
    """

    __slots__ = ("blame", "count", "deepest", "most", "place", "plan", "room", "todo")

    def __init__(self, most: int = 96, room: float = math.inf, deepest: int = 24) -> None:
        self.most, self.room, self.deepest = most, room, deepest
        self.todo: list[tuple[bool, ...]] = [()]
        self.plan: tuple[bool, ...] = ()
        self.place = self.count = 0
        self.blame: dict[str, int] = {}

    def next(self) -> bool:
        """Take the next way; False when all were taken."""
        if not self.todo:
            return False
        if self.count >= self.most or self.cost() > self.room:
            raise TooManyWays
        self.count += 1
        self.plan, self.place = self.todo.pop(), 0
        return True

    def cost(self) -> float:
        """What the ways so far were worth, in points: half a point for each way and a fifteenth
        for each expression, as measured."""
        return self.count * (0.5 + len(_numbers) / 15.0)

    def choose(self, *compared: Any) -> bool:
        """Return which way an open comparison goes this time."""
        if self.place == len(self.plan):
            if model.apart():
                raise model.OpenWay
            for number in compared:
                for name in getattr(number, "slopes", ()):
                    self.blame[name] = self.blame.get(name, 0) + 1
            if len(self.plan) >= self.deepest:
                raise TooManyWays
            self.todo.append((*self.plan, False))
            self.plan = (*self.plan, True)
        self.place += 1
        return self.plan[self.place - 1]


_forks = Forks(0)
_numbers: dict[Any, int] = {}


def begin(forks: Forks) -> None:
    """Start afresh: comparisons ask these forks, and expressions are numbered anew."""
    global _forks
    _forks = forks
    _numbers.clear()


def choose(*compared: Any) -> bool:
    """Return which way an open comparison goes this time."""
    return _forks.choose(*compared)


def number_of(*key: Any) -> int:
    """Return the number of an expression: the same operation on the same operands, the same
    number, so that x - x is 0 and what two ways compute can be told to be the same formula."""
    return _numbers.setdefault(key, len(_numbers))
