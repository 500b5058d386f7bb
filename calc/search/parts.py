"""Parts of a box: halved across an input, held at a value, or with an open choice made.

A run that reads an open choice says which one, so that only what hangs on it is gone through. What
only looks a number up by it (`Inputs.each`) leaves it open: its options have an order then.
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
    """The values of a run, without the choices that are still open; `left` has their options."""

    def __init__(self, values: Mapping[str, Any], left: Mapping[str, Sequence[Any]]) -> None:
        super().__init__(values)
        self.left = left

    def __missing__(self, name: str) -> Any:
        if name in self.left:
            raise OpenChoice(name)
        raise KeyError(name)


@dataclass(slots=True)
class Part:
    """A part of the box: what is exact in it, the ranges of the rest, and the choices made.

    Of an open choice the range is that of the places among its `choices`: (0, 2) is any of the
    first three options. It stands in `given` with one that it may be.
    """

    given: Mapping[str, Any]
    ranges: Ranges
    picks: Mapping[str, Any] = field(default_factory=dict)
    choices: Mapping[str, Sequence[Any]] = field(default_factory=dict)

    def place(self) -> tuple[Any, ...]:
        """Which part this is."""
        return tuple(self.picks.items()), *self.ranges.values()

    def numbers(self) -> Ranges:
        """The ranges of what is a number."""
        return {name: span for name, span in self.ranges.items() if name not in self.choices}

    def left(self) -> dict[str, Sequence[Any]]:
        """The choices that are still open, each with the options that it may be."""
        return {
            name: self.choices[name][int(low) : int(high) + 1]
            for name, (low, high) in self.ranges.items()
            if name in self.choices
        }

    def picked(self, name: str) -> list[Part]:
        """This part for each option that a choice may be; itself where it is made."""
        if name not in self.ranges:
            return [self]
        low, high = self.ranges[name]
        return [self.held({name: place}) for place in range(int(low), int(high) + 1)]

    def open(self) -> list[str]:
        """The inputs that still have a range."""
        return [name for name, (low, high) in self.ranges.items() if low < high]

    def middle_of(self, name: str) -> float:
        """The middle of one range; of options the one at or before it."""
        low, high = self.ranges[name]
        return (low + high) // 2 if name in self.choices else (low + high) / 2.0

    def middle(self) -> dict[str, float]:
        """The middle of each range."""
        return {name: self.middle_of(name) for name in self.ranges}

    def away(self, name: str) -> float:
        """How far the ends of a range lie from its middle."""
        return self.ranges[name][1] - self.middle_of(name)

    def point(self, values: Mapping[str, float]) -> dict[str, Any]:
        """Return every input, with the places of options turned into them."""
        options = {
            name: self.choices[name][int(values[name])] for name in self.choices if name in values
        }
        return {**self.given, **values, **options}

    def held(self, fixed: Mapping[str, float]) -> Part:
        """This part with some inputs held."""
        exact = {name: (value, value) for name, value in fixed.items() if name not in self.choices}
        picks = {n: self.choices[n][int(place)] for n, place in fixed.items() if n in self.choices}
        if not picks:
            return Part(self.given, {**self.ranges, **exact}, self.picks, self.choices)
        ranges = {name: span for name, span in self.ranges.items() if name not in picks}
        given, picked = {**self.given, **picks}, {**self.picks, **picks}
        return Part(given, {**ranges, **exact}, picked, self.choices)

    def halves(self, name: str) -> tuple[Part, Part]:
        """The two halves of this part."""
        low, high = self.ranges[name]
        middle = self.middle_of(name)
        if name in self.choices:
            return self._among(name, low, middle), self._among(name, middle + 1, high)
        if not low < middle < high:
            raise OutOfEffort
        return (
            Part(self.given, {**self.ranges, name: (low, middle)}, self.picks, self.choices),
            Part(self.given, {**self.ranges, name: (middle, high)}, self.picks, self.choices),
        )

    def _among(self, name: str, low: float, high: float) -> Part:
        """This part with a choice between two places."""
        if low == high:
            return self.held({name: low})
        given = {**self.given, name: self.choices[name][int(low)]}
        return Part(given, {**self.ranges, name: (low, high)}, self.picks, self.choices)
