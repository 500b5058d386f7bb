"""Arithmetic by name, which takes numbers or, while a finding is proved, intervals.

Every function here is `math`'s or Python's own, or nearly, so it costs what that one costs. While a
finding over a range is proved, `using` puts functions in their place that take intervals as
well (`calc.search.intervals`), and the same formulae then give enclosures. Whatever computes on
the values of inputs therefore calls these by name, `arith.sqrt(x)`, and never
`from calc.arith import sqrt`, which would keep the function that stood here at import.

Operators, comparisons, `abs` and `sum` need no name: intervals have them. A comparison that the
ranges leave open is followed both ways, which doubles the work; `below`, `where`, `min` and
`max` say the same without.
"""

import functools
import math
from builtins import max, min, round  # noqa: UP029
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from math import (
    acos,
    asin,
    atan,
    ceil,
    cos,
    degrees,
    exp,
    expm1,
    floor,
    fsum,
    hypot,
    isfinite,
    isinf,
    log,
    log1p,
    pow,
    radians,
    sin,
    sqrt,
    tan,
    trunc,
)
from typing import Any

inf = math.inf
pi = math.pi

__all__ = [
    "acos",
    "along",
    "asin",
    "atan",
    "atan2",
    "below",
    "cache",
    "ceil",
    "cos",
    "degrees",
    "exp",
    "expm1",
    "falling",
    "floor",
    "fsum",
    "hypot",
    "inf",
    "isfinite",
    "isinf",
    "log",
    "log1p",
    "max",
    "min",
    "number",
    "or_zero",
    "perhaps",
    "pi",
    "pow",
    "radians",
    "rising",
    "round",
    "same",
    "sin",
    "sqrt",
    "tan",
    "trunc",
    "using",
    "where",
]


def atan2(rise: float, run: float) -> float:
    """Return the direction of a point [rad]; that of a zero is the same whatever its sign.

    >>> atan2(0.0, -0.0), atan2(1.0, 1.0) == pi / 4.0
    (0.0, True)
    """
    return math.atan2(rise + 0.0, run + 0.0)


def below(value: float, limit: float) -> float:
    """Return 1 where `value` is less than `limit`, else 0, without following both ways.

    >>> below(1.0, 2.0), below(2.0, 2.0)
    (1.0, 0.0)
    """
    return 1.0 if value < limit else 0.0


def along(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Read a table along straight lines: `ys` at rising `xs`; outside its ends the end holds.

    >>> along(1.5, [1.0, 2.0], [10.0, 30.0]), along(9.0, [1.0, 2.0], [10.0, 30.0])
    (20.0, 30.0)
    """
    if x <= xs[0]:
        return ys[0]
    for i in range(1, len(xs)):
        if x <= xs[i]:
            share = (x - xs[i - 1]) / (xs[i] - xs[i - 1])
            return ys[i - 1] + share * (ys[i] - ys[i - 1])
    return ys[-1]


def or_zero(value: float | None) -> float:
    """Return a number, or 0 where nobody gave one: `value or 0.0` asks whether it is 0 too.

    >>> or_zero(2.5), or_zero(None)
    (2.5, 0.0)
    """
    return 0.0 if value is None else value


def same(value: float, other: Callable[[], float]) -> float:
    """Return a number that two formulae give: the first one's, and while it is proved what both
    leave of it. The second is then asked for: it is tight where the first one isn't.

    >>> same(1.0, lambda: 2.0 - 1.0)
    1.0
    """
    return value


def where(share: float, yes: float, no: float) -> float:
    """Return `yes` where `share` is not 0, else `no`; both are worked out first.

    >>> where(below(1.0, 2.0), 5.0, 7.0)
    5.0
    """
    return yes if share else no


def perhaps(share: float) -> bool:
    """Return whether `share` may be other than 0: for words alone, which no number hangs on.

    >>> perhaps(below(1.0, 2.0)), perhaps(below(2.0, 1.0))
    (True, False)
    """
    return bool(share)


def number(value: float | str) -> float:
    """Return `float(value)`, or an interval as it is.

    >>> number("2.5")
    2.5
    """
    return float(value)


def _straight[R](function: Callable[..., R], sign: int, value: float, rest: tuple[Any, ...]) -> R:
    return function(value, *rest)


def _recalled[R](kept: Callable[..., R], function: Callable[..., R], given: tuple[Any, ...]) -> R:
    return kept(*given)


def rising[R](function: Callable[..., R]) -> Callable[..., R]:
    """Mark a function that never falls in its first argument, the others being fixed.

    For what is found by search or by halving: over a range its ends are then enough. Whoever
    marks a function shows by a test that it is so.
    """
    return _ordered(function, 1)


def falling[R](function: Callable[..., R]) -> Callable[..., R]:
    """Mark a function that never rises in its first argument, the others being fixed."""
    return _ordered(function, -1)


def _ordered[R](function: Callable[..., R], sign: int) -> Callable[..., R]:
    @functools.wraps(function)
    def call(value: float, *rest: Any) -> R:
        return _straight(function, sign, value, rest)

    return call


def cache[R](function: Callable[..., R]) -> Callable[..., R]:
    """Keep what a function of numbers gave, but nothing of intervals.

    The latest 1,024 are kept.
    """
    kept = functools.lru_cache(maxsize=1024)(function)

    @functools.wraps(function)
    def call(*given: Any) -> R:
        return _recalled(kept, function, given)

    return call


@contextmanager
def using(others: Mapping[str, Callable[..., Any]]) -> Iterator[None]:
    """Put other functions in the place of those of this module, and these back at the end."""
    here = globals()
    own = {name: here[name] for name in others}
    here.update(others)
    try:
        yield
    finally:
        here.update(own)
