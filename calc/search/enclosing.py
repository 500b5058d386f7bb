"""Ends for every number that formulae make, by one run on intervals for each way through them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from calc import arith
from calc.search import functions, intervals
from calc.search.forks import Forks, NotProvable, begin
from calc.search.intervals import Interval
from calc.search.slopes import NONE, Slopes, spanned

Key = tuple[str, str]  # what of a check or output, and its name: ("margin", "front_axle")
Ranges = Mapping[str, tuple[float, float]]
Numbers = Mapping[Key, Any]


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
        self.leaning = spanned(self.leaning, slopes)
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
    begin(forks)
    with arith.using(functions.FUNCTIONS):
        while forks.next():
            values = dict(given)
            for name, (low, high) in ranges.items():
                values[name] = low if low == high else intervals.variable(name, low, high)
            try:
                numbers = run(values)
            except (ValueError, ZeroDivisionError) as error:
                refusal = error
                continue
            except (TypeError, AttributeError, KeyError, IndexError, OverflowError) as error:
                raise NotProvable(str(error)) from error
            done += 1
            for key, value in numbers.items():
                if key in found:
                    found[key].take(value)
                elif value.__class__ is Interval:
                    slopes = value.slopes
                    found[key] = Enclosure(value.low, value.high, slopes, slopes, value.number)
                else:
                    found[key] = Enclosure(value, value, NONE, NONE, ("=", value))
    if refusal is not None and not done:
        raise refusal
    for one in found.values():
        one.always, one.blame = one.ways == done, forks.blame
        if refusal is not None or not one.always:
            one.slopes = None
    return found
