"""Values between the points that a table gives, along straight lines."""

from collections.abc import Sequence
from itertools import pairwise

Points = Sequence[tuple[float, float]]
"""An abscissa and a value each, sorted by the abscissa."""


def held(points: Points, x: float) -> float:
    """Read points along straight lines; beyond their ends the end's value holds.

    Parameters
    ----------
    points : sequence of tuple
        An abscissa and a value each, sorted by the abscissa.
    x : float
        Where to read. [any]

    Returns
    -------
    float
        The value there. [any]

    Examples
    --------
    >>> [held([(1.0, 10.0), (3.0, 30.0)], x) for x in (0.0, 2.0, 4.0)]
    [10.0, 20.0, 30.0]
    """
    if x <= points[0][0]:
        return points[0][1]
    return _along(points, x)


def inside(points: Points, x: float) -> float | None:
    """Read points along straight lines; None beyond their ends.

    Parameters
    ----------
    points : sequence of tuple
        An abscissa and a value each, sorted by the abscissa.
    x : float
        Where to read; a millionth beyond an end is what rounding left. [any]

    Returns
    -------
    float or None
        The value there. [any]

    Examples
    --------
    >>> [inside([(1.0, 10.0), (3.0, 30.0)], x) for x in (0.0, 2.0, 4.0)]
    [None, 20.0, None]
    """
    if not points or not points[0][0] * (1 - 1e-6) <= x <= points[-1][0] * (1 + 1e-6):
        return None
    return _along(points, x)


def _along(points: Points, x: float) -> float:
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (x - x0) / (x1 - x0) * (y1 - y0)
    return points[-1][1]
