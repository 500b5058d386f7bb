"""What an open choice may give: one number for all of its options, which knows their order.

To go through the options one by one takes a run for each, and for each combination of several
choices. Where all that is asked of a choice is a number looked up by it, one run holds them all:
the number lies between the least and the greatest of them, and its slope in the choice is how
much it changes from one option to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from calc.model import OpenChoice
from calc.search import intervals
from calc.search.forks import number_of
from calc.search.intervals import Interval
from calc.search.slopes import ANY_SLOPE, spanned


def across(name: str, made: Sequence[Any]) -> Any:
    """Return what holds for whatever was made of each option of the choice `name`, in order.

    Numbers become an interval, tuples are taken part by part. A text is only shown: where the
    options differ it is empty.

    Raises
    ------
    OpenChoice
        When the options have nothing in common that would be a number.
    """
    first = made[0]
    if all(isinstance(one, tuple) and len(one) == len(first) for one in made):
        parts = [across(name, column) for column in zip(*made, strict=True)]
        return type(first)(*parts) if hasattr(first, "_fields") else tuple(parts)
    if all(_same(one, first) for one in made):
        return first
    if all(isinstance(one, str) for one in made):
        return ""
    if all(_is_number(one) for one in made):
        return _spanned(name, made)
    raise OpenChoice(name)


def _same(one: Any, other: Any) -> bool:
    """Whether two options gave the same, without asking a range whether it may be."""
    if one.__class__ is Interval or other.__class__ is Interval:
        return one.__class__ is other.__class__ and one.number == other.number
    return bool(one.__class__ is other.__class__ and one == other)


def _is_number(value: Any) -> bool:
    return value.__class__ is Interval or (
        isinstance(value, int | float) and not isinstance(value, bool)
    )


def _spanned(name: str, made: Sequence[Any]) -> Any:
    """Return one interval for the numbers of all options."""
    low, high, slopes, _ = intervals.parts(made[0])
    for one in made[1:]:
        other_low, other_high, other, _ = intervals.parts(one)
        low, high = min(low, other_low), max(high, other_high)
        slopes = spanned(slopes, other)
    # From any option to any other is a sum of steps to the next one: its mean lies among theirs.
    steps = [intervals.parts(after - before)[:2] for before, after in pairwise(made)]
    own = min(step[0] for step in steps), max(step[1] for step in steps)
    if any(end != end for step in steps for end in step):  # infinite both times
        own = ANY_SLOPE
    numbers = [intervals.parts(one)[3] for one in made]
    number = number_of("options", name, *numbers)
    return intervals.interval(low, high, {**slopes, name: own}, number)
