"""A solved value as the text that tries it out, rounded to the side that still meets the check."""

import math

from calc import quantities

# A solved edge is found by halving, so it may be short of a round number by this share of a step.
_SLACK = 5e-4


def solved(value: float, kind: str, unit: str, step: float, *, up: bool) -> str:
    """Return a value as text in a unit, rounded up or down to a step.

    >>> solved(1.1201, "length", "in", 0.1, up=True)
    '44.1 in'
    """
    steps = quantities.kind(kind).unit(unit).from_base(value) / step
    whole = math.ceil(steps - _SLACK) if up else math.floor(steps + _SLACK)
    return f"{round(whole * step, 6):g} {unit}"
