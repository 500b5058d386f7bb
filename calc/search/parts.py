"""Parts of a box: halved across an input, held at a value, or with an open choice made.

A run that reads an open choice says which one, so that only what hangs on it is gone through.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc.model import OpenChoice
from calc.search.enclosing import Ranges


class OutOfEffort(Exception):
    """The effort that was allowed is spent."""


class Choosing(dict[str, Any]):
    """The values of a run, without the choices that are still open."""

    def __init__(self, values: Mapping[str, Any], left: Sequence[str]) -> None:
        super().__init__(values)
        self.left = left

    def __missing__(self, name: str) -> Any:
        if name in self.left:
            raise OpenChoice(name)
        raise KeyError(name)


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
