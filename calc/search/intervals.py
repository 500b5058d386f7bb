"""Intervals that know how fast they change: arithmetic on everything a number may be.

An `Interval` holds the ends between which a value lies while the inputs range over a box, and
for each input its slopes: the least and greatest secant, that is the change of the value over
the change of that input between any two points of the box that differ in it alone. Secants, not
derivatives, so they hold for steps, kinks, `min` and `max` too. Where an input's slopes have one
sign over a whole box, the value is least and greatest at that input's ends.

A comparison that the ends leave open is followed both ways (`Forks`): the run is repeated, and
on each way the number compared is narrowed to what that way leaves of it, in place, so that
everything that holds the same number sees it.

Ends are not rounded outward. What binary arithmetic loses is some 1e-15 of a value, and a check
is met or missed only past 1e-9 of its limit, so that is room enough.
"""

from __future__ import annotations

import math
from typing import Any

from calc.search.forks import NotProvable, choose, number_of
from calc.search.slopes import (
    ANY_SLOPE,
    INF,
    NONE,
    Slopes,
    added,
    product,
    scaled,
    turned,
    unbounded,
)


def interval(low: float, high: float, slopes: Slopes, number: int) -> Any:
    """Return an `Interval`, or the plain number where it can be no other."""
    if low != low or high != high:
        low, high = -INF, INF
    return low if low == high and not slopes else Interval(low, high, slopes, number)


def variable(name: str, low: float, high: float) -> Any:
    """Return an input that lies between two ends."""
    if low == high:
        return low
    return Interval(low, high, {name: (1.0, 1.0)}, number_of("input", name))


def parts(value: Any) -> tuple[float, float, Slopes, Any]:
    """Return the ends, slopes and number of an interval or a plain number."""
    if value.__class__ is Interval:
        return value.low, value.high, value.slopes, value.number
    return value, value, NONE, ("=", value)


class Interval:
    """What a value may be, with its slopes; see the head of this module.

    `number` tells expressions apart: two intervals of one number are the same formula of the
    same inputs. `multiple` is (number, factor) of what is another expression times a constant:
    two multiples of one expression differ by a multiple of it too, however wide it is.
    """

    __slots__ = ("high", "low", "multiple", "number", "slopes")

    def __init__(self, low: float, high: float, slopes: Slopes, number: int) -> None:
        self.low, self.high, self.slopes, self.number = low, high, slopes, number
        self.multiple: tuple[int, float] | None = None

    def __repr__(self) -> str:
        return f"Interval({self.low:.6g}, {self.high:.6g})"

    def __format__(self, spec: str) -> str:
        return "…"

    __hash__ = object.__hash__

    def __float__(self) -> float:
        raise NotProvable("An interval is no float: call arithmetic by name, from calc.arith.")

    __int__ = __index__ = __complex__ = __float__

    def __add__(self, other: Any) -> Any:
        if other.__class__ is Interval:
            share = _share(self, other)
            if share is not None:
                return self * (1.0 + share)
            number = number_of("+", self.number, other.number)
            slopes = added(self.slopes, other.slopes)
            return interval(self.low + other.low, self.high + other.high, slopes, number)
        number = number_of("+=", self.number, other)
        return interval(self.low + other, self.high + other, self.slopes, number)

    __radd__ = __add__

    def __sub__(self, other: Any) -> Any:
        if other.__class__ is Interval:
            if self.number == other.number:
                return 0.0
            share = _share(self, other)
            if share is not None:
                return self * (1.0 - share)
            number = number_of("-", self.number, other.number)
            slopes = added(self.slopes, turned(other.slopes))
            return interval(self.low - other.high, self.high - other.low, slopes, number)
        number = number_of("-=", self.number, other)
        return interval(self.low - other, self.high - other, self.slopes, number)

    def __rsub__(self, other: float) -> Any:
        number = number_of("=-", self.number, other)
        return interval(other - self.high, other - self.low, turned(self.slopes), number)

    def __neg__(self) -> Any:
        return 0.0 - self

    def __pos__(self) -> Any:
        return self

    def __abs__(self) -> Any:
        if self.low >= 0.0:
            return self
        if self.high <= 0.0:
            return -self
        slopes = scaled(self.slopes, -1.0, 1.0)
        return interval(0.0, max(-self.low, self.high), slopes, number_of("abs", self.number))

    def __mul__(self, other: Any) -> Any:
        if other.__class__ is Interval:
            if self.number == other.number:
                return self**2
            low, high = product(self.low, self.high, other.low, other.high)
            by_self = scaled(self.slopes, other.low, other.high)
            by_other = scaled(other.slopes, self.low, self.high)
            number = number_of("*", self.number, other.number)
            return interval(low, high, added(by_self, by_other), number)
        if other == 0.0:
            return 0.0
        low, high = self.low * other, self.high * other
        if low > high:
            low, high = high, low
        slopes = scaled(self.slopes, other, other)
        found = interval(low, high, slopes, number_of("*=", self.number, other))
        return _multiple(found, self, other)

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Any:
        if other.__class__ is not Interval:
            low, high = self.low / other, self.high / other
            if low > high:
                low, high = high, low
            slopes = scaled(self.slopes, 1.0 / other, 1.0 / other)
            found = interval(low, high, slopes, number_of("/=", self.number, other))
            return _multiple(found, self, 1.0 / other)
        if self.number == other.number:
            return 1.0
        share = _share(other, self)
        if share is not None:
            return share
        return _quotient(self, other, number_of("/", self.number, other.number))

    def __rtruediv__(self, other: float) -> Any:
        return 0.0 if other == 0.0 else _quotient(other, self, number_of("=/", self.number, other))

    def __floor__(self) -> Any:
        return stepped(math.floor, self, "floor")

    def __ceil__(self) -> Any:
        return stepped(math.ceil, self, "ceil")

    def __trunc__(self) -> Any:
        return stepped(math.trunc, self, "trunc")

    def __round__(self, digits: int | None = None) -> Any:
        return stepped(lambda end: round(end, digits), self, f"round {digits}")

    def __floordiv__(self, other: Any) -> Any:
        return math.floor(self / other)

    def __rfloordiv__(self, other: float) -> Any:
        return math.floor(other / self)

    def __mod__(self, other: Any) -> Any:
        return self - math.floor(self / other) * other

    def __rmod__(self, other: float) -> Any:
        return other - math.floor(other / self) * self

    def __divmod__(self, other: Any) -> tuple[Any, Any]:
        return self // other, self % other

    def __pow__(self, exponent: Any) -> Any:
        from calc.search import functions

        return functions.power(self, exponent)

    def __rpow__(self, base: float) -> Any:
        from calc.search import functions

        return functions.power(base, self)

    # Comparisons: a bool, or, where the ends leave it open, one way at a time.

    def __bool__(self) -> bool:
        return self != 0.0

    def __lt__(self, other: Any) -> bool:
        low, high, _, number = parts(other)
        if number == self.number or self.low >= high:
            return False
        return self.high < low or _narrowed(choose(self, other), self, other)

    def __gt__(self, other: Any) -> bool:
        low, high, _, number = parts(other)
        if number == self.number or self.high <= low:
            return False
        return self.low > high or not _narrowed(not choose(self, other), self, other)

    def __ge__(self, other: Any) -> bool:
        return not self < other

    def __le__(self, other: Any) -> bool:
        return not self > other

    def __eq__(self, other: object) -> bool:
        if other.__class__ is not Interval and not isinstance(other, int | float):
            return False
        low, high, _, number = parts(other)
        if number == self.number or self.low == self.high == low == high:
            return True
        if self.high < low or high < self.low or not choose(self, other):
            return False
        self.low, self.high = max(self.low, low), min(self.high, high)
        return True


def _multiple(found: Any, one: Interval, factor: float) -> Any:
    """Note that `found` is `factor` times another expression."""
    if found.__class__ is Interval and -INF < factor < INF:
        number, own = one.multiple or (one.number, 1.0)
        found.multiple = number, own * factor
    return found


def _share(one: Interval, other: Interval) -> float | None:
    """How many times one expression the other is, where both are multiples of the same."""
    if one.multiple is None and other.multiple is None:
        return None
    number, factor = one.multiple or (one.number, 1.0)
    other_number, other_factor = other.multiple or (other.number, 1.0)
    return other_factor / factor if number == other_number and factor else None


def _narrowed(less: bool, one: Interval, other: Any) -> bool:
    """Leave of two numbers what they can be when the first is less, or is not less."""
    low, high, _, _ = parts(other)
    ranged = other.__class__ is Interval
    if less:
        if ranged:
            other.low = max(one.low, low)
        one.high = min(one.high, high)
    else:
        if ranged:
            other.high = min(one.high, high)
        one.low = max(one.low, low)
    return less


def _quotient(above: Any, below: Interval, number: int) -> Any:
    low, high, slopes, _ = parts(above)
    if below.low == below.high == 0.0:
        raise ZeroDivisionError
    if below.low < 0.0 < below.high:
        return interval(-INF, INF, unbounded(slopes, below.slopes), number)
    inverse = (1.0 / below.high if below.high else -INF, 1.0 / below.low if below.low else INF)
    if 0.0 in (below.low, below.high):  # what is divided by may be as near to 0 as one likes
        low, high = product(low, high, *inverse)
    else:
        ends = (low / below.low, low / below.high, high / below.low, high / below.high)
        low, high = min(ends), max(ends)
        if any(end != end for end in ends):
            low, high = ANY_SLOPE
    # (a/b)(y) - (a/b)(x) = (a(y) - a(x) - (a/b)(x) (b(y) - b(x))) / b(y)
    change = added(slopes, turned(scaled(below.slopes, low, high)))
    return interval(low, high, scaled(change, *inverse), number)


def stepped(step: Any, value: Interval, name: str) -> Any:
    """Return a rising step function of an interval, such as rounding."""
    low = step(value.low) if math.isfinite(value.low) else value.low
    high = step(value.high) if math.isfinite(value.high) else value.high
    if low == high:
        return low
    return interval(low, high, scaled(value.slopes, 0.0, INF), number_of(name, value.number))
