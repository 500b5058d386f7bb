"""How fast a number changes with each input: the ends between which its secants lie.

Secants, not derivatives, so they hold for steps, kinks, `min` and `max` too.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

INF = math.inf
Slopes = Mapping[str, tuple[float, float]]
ANY_SLOPE = (-INF, INF)
NONE: dict[str, tuple[float, float]] = {}


def product(a: float, b: float, c: float, d: float) -> tuple[float, float]:
    """Return the ends of [a, b] times [c, d]; 0 times anything is 0."""
    if a >= 0.0 and c >= 0.0:
        low, high = a * c, b * d
        if low == low and high == high:
            return low, high
    ends = [0.0 if end != end else end for end in (a * c, a * d, b * c, b * d)]
    return min(ends), max(ends)


def scaled(slopes: Slopes, low: float, high: float) -> Slopes:
    """Return slopes times what lies between `low` and `high`."""
    if low > 0.0 and high < INF:
        # What `product` gives, without its care for 0 times infinity: most calls are of this kind.
        return {
            name: (u * low if u >= 0.0 else u * high, v * high if v >= 0.0 else v * low)
            for name, (u, v) in slopes.items()
        }
    if high < 0.0 and low > -INF:
        return {
            name: (v * low if v >= 0.0 else v * high, u * high if u >= 0.0 else u * low)
            for name, (u, v) in slopes.items()
        }
    return {name: product(u, v, low, high) for name, (u, v) in slopes.items()}


def added(one: Slopes, other: Slopes) -> Slopes:
    """Return the slopes of a sum."""
    if not one:
        return other
    if not other:
        return one
    found = dict(one)
    for name, (u, v) in other.items():
        own = found.get(name)
        found[name] = (u, v) if own is None else (own[0] + u, own[1] + v)
    return found


def turned(slopes: Slopes) -> Slopes:
    """Return the slopes of the negative."""
    return {name: (-v, -u) for name, (u, v) in slopes.items()}


def spanned(one: Slopes, other: Slopes) -> Slopes:
    """Return the slopes of what is one or the other."""
    found = {}
    for name in one.keys() | other.keys():
        u, v = one.get(name, (0.0, 0.0))
        w, x = other.get(name, (0.0, 0.0))
        found[name] = (u if u < w else w, v if v > x else x)
    return found


def unbounded(*slopes: Slopes) -> Slopes:
    """Return slopes that say nothing, for every input named in any of these."""
    return {name: ANY_SLOPE for some in slopes for name in some}
