"""How wide a machine may be on the road by place, and the speed that its kind is held to."""

from dataclasses import dataclass
from functools import cache

from calc import arith, tables
from calc.mechanics import road_rules


@dataclass(frozen=True, slots=True)
class WidthRule:
    """One row of road_widths, read. None means that no limit was read."""

    free_day: float | None
    free_night: float | None
    maximum: float | None
    note: str
    source: str


@cache
def width_rule(place: str) -> WidthRule | None:
    """Return the width rule of a machine on its own wheels, None when none was read.

    Parameters
    ----------
    place : str
        A place of road_places.
    """
    row = tables.by_key("road/road_widths", "place").get(place)
    if row is None:
        return None
    return WidthRule(
        road_rules.measure(row["free_day"]),
        road_rules.measure(row["free_night"]),
        road_rules.measure(row["maximum"]),
        row["note"],
        row["source"],
    )


@cache
def carried_width(place: str) -> tuple[float, str, str] | None:
    """Return the width limit, its text and source when the machine rides on a trailer.

    Parameters
    ----------
    place : str
        A place; without a row of its own the general limit of its country is used, and None
        where none was read. [m]
    """
    rows = tables.by_key("road/carried_widths", "place")
    row = rows.get(place) or rows.get(road_rules.place_row(place)["country"])
    if row is None:
        return None
    limit = road_rules.measure(row["limit"])
    assert limit is not None
    return limit, row["text"], row["source"]


def road_speed_limit(place: str, width: float) -> tuple[float, str, str] | None:
    """Return the speed limit of a farm machine on the road, its text and source.

    Parameters
    ----------
    place : str
        A place of road_places.
    width : float
        Widest part. [m]

    Returns
    -------
    tuple or None
        Limit [m/s], text, source; a limit of 0 where the machine may not travel without a
        special order; None where no limit of its own was read.

    Examples
    --------
    >>> from calc import si
    >>> round(road_speed_limit("UK", 2.9)[0] / si.MPH)
    20
    >>> round(road_speed_limit("UK", 3.5)[0] / si.MPH)
    12
    """
    found = False
    for row in _speed_rows(place):
        found = True
        over, start, to, below, limit, text, source = row
        if over is not None and width <= over + 1e-9:
            continue
        if start is not None and width < start - 1e-9:
            continue
        if to is not None and width > to + 1e-9:
            continue
        if below is not None and width >= below - 1e-9:
            continue
        return limit, text, source
    if found:
        return 0.0, "Wider than the order allows: only under a special order", "road/UK-3"
    return None


_SpeedRow = tuple[float | None, float | None, float | None, float | None, float, str, str]


@cache
def _speed_rows(place: str) -> tuple[_SpeedRow, ...]:
    return tuple(
        (
            road_rules.measure(row["width_over"]),
            road_rules.measure(row["width_from"]),
            road_rules.measure(row["width_to"]),
            road_rules.measure(row["width_below"]),
            road_rules.measure(row["limit"]) or 0.0,
            row["text"],
            row["source"],
        )
        for row in tables.rows("road/road_speed_limits")
        if row["place"] == place
    )


def over_center_line(width: float, lane_width: float, shoulder_used: float = 0.0) -> float:
    """Return how far a machine reaches over the center line when its right side keeps to the
    edge, 0 when it stays inside. [m]

    Parameters
    ----------
    width, lane_width, shoulder_used : float
        [m]
    """
    return arith.max(width - lane_width - shoulder_used, 0.0)
