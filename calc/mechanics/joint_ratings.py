"""What a PTO driveline is rated for: power by series, angle by speed, length by closed length."""

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from calc import arith, si, tables

RATED = (540.0, 1000.0)


def _line(points: Sequence[tuple[float, float]], at: float) -> float:
    """Straight lines between points, level beyond the ends."""
    if at <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return points[-1][1]


@cache
def _series(key: str) -> tuple[float, float | None]:
    row = tables.by_key("driveline/driveline_series", "key")[key]
    fast = row["power_1000_hp"]
    return float(row["power_540_hp"]) * si.HP, float(fast) * si.HP if fast else None


def rated_to(series: str) -> float:
    """Return the speed up to which a series has a rating: 1000 rpm, or 540. [rpm]

    Examples
    --------
    >>> rated_to("na3"), rated_to("eu4")
    (1000.0, 540.0)
    """
    return RATED[0] if _series(series)[1] is None else RATED[1]


@arith.rising
def series_power(speed: float, series: str) -> float:
    """Return the power that a driveline series carries at a speed. [W]

    At 540 and 1000 rpm as printed [1]_ [2]_; between them on the line through both, below 540
    rpm at the torque of 540, above the last printed speed no more than there.

    Parameters
    ----------
    speed : float
        Shaft speed, above 0. [rpm]
    series : str
        A row of the table `driveline_series`.

    Returns
    -------
    float
        Power. [W]

    References
    ----------
    [1] value/SU-1. [2] value/SU-2.

    Examples
    --------
    >>> round(series_power(540.0, "na3") / si.HP), round(series_power(1000.0, "na3") / si.HP)
    (30, 47)
    """
    slow, fast = _series(series)
    if speed <= RATED[0]:
        return slow * speed / RATED[0]
    if fast is None:
        return slow
    return _line(((RATED[0], slow), (RATED[1], fast)), speed)


def series_torque(series: str) -> float:
    """Return the torque that a series carries at 540 rpm. [N m]

    Examples
    --------
    >>> [round(series_torque(key)) for key in ("na1", "na3", "na7")]
    [211, 396, 976]
    """
    return _series(series)[0] / (RATED[0] * arith.pi / 30.0)


def smallest_series(power: float, speed: float, scale: str = "North American") -> str | None:
    """Return the smallest series of a scale that carries a power [W] at a speed [rpm].

    None when the largest carries less, or has no rating at that speed.

    Examples
    --------
    >>> smallest_series(25 * si.HP, 540.0), smallest_series(25 * si.HP, 1000.0)
    ('na3', 'na2')
    """
    for row in tables.rows("driveline/driveline_series"):
        key = row["key"]
        if row["scale"] == scale and speed <= rated_to(key) and series_power(speed, key) >= power:
            return key
    return None


@cache
def _angles() -> tuple[tuple[float, float], ...]:
    return tuple(
        (float(row["rpm"]), float(row["angle_deg"]))
        for row in tables.rows("driveline/joint_speed_angles")
    )


def slowest_ruled() -> float:
    """Return the speed at which the table of angles by speed starts. [rpm]

    Examples
    --------
    >>> slowest_ruled()
    1000.0
    """
    return _angles()[0][0]


@arith.falling
def angle_at_speed(speed: float) -> float:
    """Return the largest joint angle for a fast shaft by the table of a drive line's speeds. [deg]

    Straight lines between the printed speeds [1]_; the table starts at 1000 rpm and says nothing
    of slower shafts.

    References
    ----------
    [1] value/NV-1.

    Examples
    --------
    >>> angle_at_speed(1500.0), angle_at_speed(2000.0)
    (11.0, 8.0)
    """
    return _line(_angles(), speed)


@cache
def _stretch() -> tuple[tuple[float, float], ...]:
    return tuple(
        (float(row["closed_in"]) * si.INCH, float(row["longest_in"]) * si.INCH)
        for row in tables.rows("driveline/driveline_stretch")
    )


@arith.rising
def longest_by_chart(closed_length: float) -> float:
    """Return how long a closed length may be pulled out, by a supplier's chart. [m]

    Series 1 to 4 [1]_; straight lines between its rows. Beyond them the rows' own line: one and
    a half times the closed length less 5.5 in [2]_.

    Parameters
    ----------
    closed_length : float
        Closed length, above 0. [m]

    References
    ----------
    [1] value/SU-1. [2] value/DERIVED, within 1.5 in of every row.

    Examples
    --------
    >>> [round(longest_by_chart(closed * si.INCH) / si.INCH, 6) for closed in (35, 61)]
    [47.0, 86.0]
    """
    points = _stretch()
    if closed_length < points[0][0]:
        # Short of the chart, its line, which meets the first row from below.
        return arith.max(closed_length, points[0][1] - 1.5 * (points[0][0] - closed_length))
    if closed_length > points[-1][0]:
        return points[-1][1] + 1.5 * (closed_length - points[-1][0])
    return _line(points, closed_length)
