"""Halving between a value that is met and one that is not."""

from __future__ import annotations

from collections.abc import Callable

BISECTIONS = 24


def last_met(
    met: Callable[[float], bool],
    good: float,
    bad: float,
    made_of: Callable[[float], float | None] | None = None,
) -> float:
    """Return the value nearest to `bad` that is still met, by halving from `good`.

    With `made_of`, what the value is wanted for, it is only as near as makes no difference to that.
    """
    for _ in range(BISECTIONS):
        half = (good + bad) / 2
        if met(half):
            good = half
        else:
            bad = half
        if made_of and made_of(good) == made_of(bad):
            break
    return good
