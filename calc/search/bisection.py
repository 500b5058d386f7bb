"""Halving between a value that is met and one that is not."""

from __future__ import annotations

from collections.abc import Callable

BISECTIONS = 24


def last_met(met: Callable[[float], bool], good: float, bad: float) -> float:
    """Return the value nearest to `bad` that is still met, by halving from `good`."""
    for _ in range(BISECTIONS):
        half = (good + bad) / 2
        if met(half):
            good = half
        else:
            bad = half
    return good
