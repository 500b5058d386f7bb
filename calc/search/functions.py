"""The functions of `calc.arith` on intervals: `FUNCTIONS` is what stands there during a proof.

Each takes plain numbers too and then gives what `calc.arith` gives. A function of one number
that rises or falls throughout has its ends at the ends; its slopes are its derivative's range
times the number's own slopes.
"""

from __future__ import annotations

import builtins
import math
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from calc import arith
from calc.search.forks import NotProvable, choose, number_of
from calc.search.intervals import Interval, interval, parts
from calc.search.slopes import INF, added, product, scaled, spanned, turned, unbounded

_along = arith.along  # on plain numbers; while a proof runs another function stands there
_MISSING = object()
_LARGEST_EXPONENT = 709.0  # exp of more than this is no binary number


def _ranged(values: Iterable[Any]) -> bool:
    return any(value.__class__ is Interval for value in values)


def _image(name: Any, value: Interval, ends: tuple[float, float], rates: Iterable[float]) -> Any:
    """Return a function's interval from its values at the ends and the ends of its derivative."""
    rates = list(rates)
    slopes = scaled(value.slopes, builtins.min(rates), builtins.max(rates))
    low, high = ends if ends[0] <= ends[1] else ends[::-1]
    return interval(low, high, slopes, number_of(name, value.number))


def _through_zero(value: Interval, rate: float) -> list[float]:
    """The derivative's turning value, for functions that change fastest or slowest at 0."""
    return [rate] if value.low < 0.0 < value.high else []


# --- powers and logarithms ----------------------------------------------------------------------


def _raised(base: float, exponent: float) -> float:
    """base to the exponent, with infinity where it has no number."""
    try:
        return math.pow(base, exponent)
    except OverflowError:
        return -INF if base < 0.0 and exponent % 2 else INF
    except ValueError:  # 0 to a negative exponent
        return INF


def power(base: Any, exponent: Any) -> Any:
    """base ** exponent. A negative base has only whole exponents."""
    if exponent.__class__ is Interval:
        return exp(exponent * log(base))
    if base.__class__ is not Interval:
        return base**exponent
    if exponent == 1:
        return base
    if exponent == 0:
        return 1.0
    whole = float(exponent).is_integer()
    if whole and exponent < 0:
        return 1.0 / power(base, -exponent)
    low, high = base.low, base.high
    if not whole:
        if high < 0.0:
            raise ValueError("A negative number has only whole powers.")
        low = builtins.max(low, 0.0)
    ends = [_raised(low, exponent), _raised(high, exponent)]
    rates = [exponent * _raised(low, exponent - 1), exponent * _raised(high, exponent - 1)]
    if low < 0.0 < high:
        (rates if exponent % 2 else ends).append(0.0)
    least = builtins.min(ends)
    name = f"power {exponent!r}"
    return _image(name, base, (least, builtins.max(ends)), rates)


def pow(base: Any, exponent: Any) -> Any:
    """math.pow."""
    if base.__class__ is Interval or exponent.__class__ is Interval:
        return power(base, exponent)
    return math.pow(base, exponent)


def sqrt(value: Any) -> Any:
    """The square root; what lies below 0 of an open end is cut off, as it has none."""
    if value.__class__ is not Interval:
        return math.sqrt(value)
    if value.high < 0.0:
        raise ValueError("A negative number has no square root.")
    low, high = math.sqrt(builtins.max(value.low, 0.0)), math.sqrt(value.high)
    rates = [0.5 / end if end else INF for end in (low, high)]
    return _image("sqrt", value, (low, high), rates)


def hypot(*values: Any) -> Any:
    """The root of the sum of squares."""
    if not _ranged(values):
        return math.hypot(*values)
    return sqrt(sum((value * value for value in values), 0.0))


def _exp(value: float) -> float:
    return math.exp(value) if value <= _LARGEST_EXPONENT else INF


def exp(value: Any) -> Any:
    """e to the value."""
    if value.__class__ is not Interval:
        return math.exp(value)
    ends = _exp(value.low), _exp(value.high)
    return _image("exp", value, ends, ends)


def expm1(value: Any) -> Any:
    """e to the value, less 1."""
    if value.__class__ is not Interval:
        return math.expm1(value)
    ends = [math.expm1(end) if end <= _LARGEST_EXPONENT else INF for end in (value.low, value.high)]
    return _image("expm1", value, (ends[0], ends[1]), (_exp(value.low), _exp(value.high)))


def log(value: Any, base: float | None = None) -> Any:
    """The logarithm."""
    if base is not None:
        return log(value) / log(base)
    if value.__class__ is not Interval:
        return math.log(value)
    if value.high <= 0.0:
        raise ValueError("Only what is more than 0 has a logarithm.")
    low = math.log(value.low) if value.low > 0.0 else -INF
    rates = 1.0 / value.high, 1.0 / value.low if value.low > 0.0 else INF
    return _image("log", value, (low, math.log(value.high)), rates)


def log1p(value: Any) -> Any:
    """The logarithm of 1 more than the value."""
    if value.__class__ is not Interval:
        return math.log1p(value)
    if value.high <= -1.0:
        raise ValueError("Only what is more than -1 has this logarithm.")
    low = math.log1p(value.low) if value.low > -1.0 else -INF
    rates = 1.0 / (1.0 + value.high), 1.0 / (1.0 + value.low) if value.low > -1.0 else INF
    return _image("log1p", value, (low, math.log1p(value.high)), rates)


# --- angles -------------------------------------------------------------------------------------


def _wave(
    wave: Callable[[float], float], low: float, high: float, crest: float
) -> tuple[float, float]:
    """The range of a wave that is 1 at its crest and at every whole turn from there."""
    if not high - low < 2.0 * math.pi:
        return -1.0, 1.0
    ends = wave(low), wave(high)
    turns_low, turns_high = ((end - crest) / (2.0 * math.pi) for end in (low, high))
    top = math.floor(turns_high) > math.floor(turns_low)
    bottom = math.floor(turns_high - 0.5) > math.floor(turns_low - 0.5)
    return -1.0 if bottom else builtins.min(ends), 1.0 if top else builtins.max(ends)


def sin(value: Any) -> Any:
    """The sine of an angle in radians."""
    if value.__class__ is not Interval:
        return math.sin(value)
    ends = _wave(math.sin, value.low, value.high, math.pi / 2.0)
    return _image("sin", value, ends, _wave(math.cos, value.low, value.high, 0.0))


def cos(value: Any) -> Any:
    """The cosine of an angle in radians."""
    if value.__class__ is not Interval:
        return math.cos(value)
    ends = _wave(math.cos, value.low, value.high, 0.0)
    low, high = _wave(math.sin, value.low, value.high, math.pi / 2.0)
    return _image("cos", value, ends, (-high, -low))


def tan(value: Any) -> Any:
    """The tangent; within a quarter turn of 0 either way it rises throughout."""
    if value.__class__ is not Interval:
        return math.tan(value)
    if not -math.pi / 2.0 < value.low <= value.high < math.pi / 2.0:
        return sin(value) / cos(value)
    ends = math.tan(value.low), math.tan(value.high)
    rates = [1.0 + end * end for end in ends] + _through_zero(value, 1.0)
    return _image("tan", value, ends, rates)


def atan(value: Any) -> Any:
    """The angle of a tangent."""
    if value.__class__ is not Interval:
        return math.atan(value)
    rates = [1.0 / (1.0 + end * end) for end in (value.low, value.high)]
    ends = math.atan(value.low), math.atan(value.high)
    return _image("atan", value, ends, rates + _through_zero(value, 1.0))


def asin(value: Any) -> Any:
    """The angle of a sine; what lies outside -1 to 1 of an open end is cut off."""
    if value.__class__ is not Interval:
        return math.asin(value)
    low, high = builtins.max(value.low, -1.0), builtins.min(value.high, 1.0)
    if low > high:
        raise ValueError("Only -1 to 1 is a sine.")
    rates = [1.0 / math.sqrt(1.0 - end * end) if abs(end) < 1.0 else INF for end in (low, high)]
    ends = math.asin(low), math.asin(high)
    return _image("asin", value, ends, rates + _through_zero(value, 1.0))


def acos(value: Any) -> Any:
    """The angle of a cosine."""
    return math.acos(value) if value.__class__ is not Interval else math.pi / 2.0 - asin(value)


def atan2(rise: Any, run: Any) -> Any:
    """The direction of a point. Across the half turn, where it jumps, it may be anything."""
    if not _ranged((rise, run)):
        return math.atan2(rise + 0.0, run + 0.0)
    rise_low, rise_high, by_rise, rise_number = parts(rise)
    run_low, run_high, by_run, run_number = parts(run)
    number = number_of("atan2", rise_number, run_number)
    if run_low <= 0.0 and rise_low <= 0.0 <= rise_high:
        return interval(-math.pi, math.pi, unbounded(by_rise, by_run), number)
    corners = [math.atan2(y, x) for y in (rise_low, rise_high) for x in (run_low, run_high)]
    squares = [_square(rise_low, rise_high), _square(run_low, run_high)]
    nearest, farthest = (sum(ends) for ends in zip(*squares, strict=True))
    inverse = (1.0 / farthest, 1.0 / nearest if nearest else INF)
    slopes = added(
        scaled(by_rise, *product(run_low, run_high, *inverse)),
        scaled(by_run, *product(-rise_high, -rise_low, *inverse)),
    )
    return interval(builtins.min(corners), builtins.max(corners), slopes, number)


def _square(low: float, high: float) -> tuple[float, float]:
    ends = low * low, high * high
    return 0.0 if low <= 0.0 <= high else builtins.min(ends), builtins.max(ends)


def degrees(value: Any) -> Any:
    """Radians to degrees."""
    return value * (180.0 / math.pi) if value.__class__ is Interval else math.degrees(value)


def radians(value: Any) -> Any:
    """Degrees to radians."""
    return value * (math.pi / 180.0) if value.__class__ is Interval else math.radians(value)


# --- the smaller, the larger, one or the other ------------------------------------------------


def _smaller(one: Any, other: Any) -> Any:
    low, high, by_one, number = parts(one)
    other_low, other_high, by_other, other_number = parts(other)
    if high <= other_low:
        return one
    if other_high <= low:
        return other
    ends = builtins.min(low, other_low), builtins.min(high, other_high)
    return interval(*ends, spanned(by_one, by_other), number_of("min", number, other_number))


def _larger(one: Any, other: Any) -> Any:
    low, high, by_one, number = parts(one)
    other_low, other_high, by_other, other_number = parts(other)
    if low >= other_high:
        return one
    if other_low >= high:
        return other
    ends = builtins.max(low, other_low), builtins.max(high, other_high)
    return interval(*ends, spanned(by_one, by_other), number_of("max", number, other_number))


def _of_many(plain: Callable[..., Any], pair: Callable[[Any, Any], Any]) -> Callable[..., Any]:
    def pick(*values: Any, key: Any = None, default: Any = _MISSING) -> Any:
        items = list(values[0]) if len(values) == 1 else list(values)
        if not items and default is not _MISSING:
            return default
        if key is not None or not _ranged(items):
            return plain(items, key=key)
        found = items[0]
        for item in items[1:]:
            found = pair(found, item)
        return found

    return pick


min = _of_many(builtins.min, _smaller)
max = _of_many(builtins.max, _larger)


def below(value: Any, limit: Any) -> Any:
    """1 where value is less than limit, else 0: a step along what the limit is more by."""
    if not _ranged((value, limit)):
        return 1.0 if value < limit else 0.0
    low, high, by_value, number = parts(value)
    limit_low, limit_high, by_limit, limit_number = parts(limit)
    if high < limit_low:
        return 1.0
    if low >= limit_high or number == limit_number:
        return 0.0
    slopes = scaled(added(by_limit, turned(by_value)), 0.0, INF)
    return interval(0.0, 1.0, slopes, number_of("below", number, limit_number))


def where(share: Any, yes: Any, no: Any) -> Any:
    """yes where share is not 0, else no; while share is open, either."""
    if share.__class__ is not Interval:
        return yes if share else no
    low, high, by_yes, number = parts(yes)
    no_low, no_high, by_no, no_number = parts(no)
    jump = parts(yes - no)
    slopes = added(spanned(by_yes, by_no), scaled(share.slopes, jump[0], jump[1]))
    ends = builtins.min(low, no_low), builtins.max(high, no_high)
    return interval(*ends, slopes, number_of("where", share.number, number, no_number))


def perhaps(share: Any) -> bool:
    """Whether share may be other than 0: neither way is followed."""
    return share.__class__ is Interval or bool(share)


def along(x: Any, xs: Sequence[float], ys: Sequence[float]) -> Any:
    """A table read along straight lines: its ends and its steepest pieces are those of the lines
    that the range touches."""
    if x.__class__ is not Interval:
        return _along(x, xs, ys)
    low, high = x.low, x.high
    reached = [_along(low, xs, ys), _along(high, xs, ys)]
    reached += [y for place, y in zip(xs, ys, strict=True) if low < place < high]
    rates = [0.0] if low < xs[0] or high > xs[-1] else []
    for i in range(1, len(xs)):
        if low < xs[i] and high > xs[i - 1]:
            rates.append((ys[i] - ys[i - 1]) / (xs[i] - xs[i - 1]))
    ends = builtins.min(reached), builtins.max(reached)
    return _image(("along", *xs, *ys), x, ends, rates or [0.0])


def or_zero(value: Any) -> Any:
    """The value, or 0 where nobody gave one."""
    return 0.0 if value is None else value


def same(value: Any, other: Callable[[], Any]) -> Any:
    """What two formulae of one number leave of it: it lies, and changes, as both allow."""
    if value.__class__ is not Interval:
        return value
    low, high, slopes, _ = parts(other())
    found = {}
    for name in value.slopes.keys() & slopes.keys():  # it changes with no other input
        (u, v), (w, x) = value.slopes[name], slopes[name]
        found[name] = builtins.max(u, w), builtins.min(v, x)
    return interval(
        builtins.max(value.low, low), builtins.min(value.high, high), found, value.number
    )


# --- what has no closed form, and what is only asked -------------------------------------------


def _straight(function: Callable[..., Any], sign: int, value: Any, rest: tuple[Any, ...]) -> Any:
    """A function marked as rising or falling in its first argument: its ends are enough."""
    if _ranged(rest):
        raise NotProvable(f"{function.__name__} is known to be ordered in its first argument only.")
    if value.__class__ is not Interval:
        return function(value, *rest)
    ends = function(value.low, *rest), function(value.high, *rest)
    slopes = scaled(value.slopes, *((0.0, INF) if sign > 0 else (-INF, 0.0)))
    number = number_of(function.__qualname__, value.number, *rest)
    return interval(builtins.min(ends), builtins.max(ends), slopes, number)


def _recalled(kept: Callable[..., Any], function: Callable[..., Any], given: Any) -> Any:
    return function(*given) if _ranged(given) else kept(*given)


def isinf(value: Any) -> bool:
    """Whether a value is infinite; open where only an end is."""
    if value.__class__ is not Interval:
        return math.isinf(value)
    return (value.low == -INF or value.high == INF) and choose(value)


def isfinite(value: Any) -> bool:
    """Whether a value is finite."""
    return not isinf(value) if value.__class__ is Interval else math.isfinite(value)


def number(value: Any) -> Any:
    """The value as a number."""
    return value if value.__class__ is Interval else float(value)


def fsum(values: Iterable[Any]) -> Any:
    """The sum."""
    items = list(values)
    return sum(items, 0.0) if _ranged(items) else math.fsum(items)


FUNCTIONS: dict[str, Callable[..., Any]] = {
    name: function
    for name, function in list(globals().items())
    if name in (*arith.__all__, "_straight", "_recalled") and callable(function)
}
