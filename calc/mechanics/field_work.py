"""Area per hour, passes and time of field and lawn work."""

from calc import arith, tables


def field_capacity(width: float, speed: float, efficiency: float, overlap: float = 0.0) -> float:
    """Return the area worked per second: (w - overlap) v E.

    Parameters
    ----------
    width : float
        Working width. [m]
    speed : float
        Ground speed. [m/s]
    efficiency : float
        Field efficiency, above 0 to 1: the share of the time that cuts new ground. [-]
    overlap : float
        Width worked twice at each pass, less than the width. [m]

    Returns
    -------
    float
        Area rate. [m2/s]

    Raises
    ------
    ValueError
        When an input is outside its range.

    Examples
    --------
    >>> acre = 4046.8564224
    >>> round(field_capacity(40 * 0.3048, 6 * 0.44704, 0.70) * 3600 / acre, 1)  # ac/h
    20.4

    References
    ----------
    .. [1] power/S6, power/S7.
    """
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("Field efficiency must be above 0 and at most 1.")
    if not 0.0 <= overlap < width:
        raise ValueError("The overlap must be less than the width.")
    if speed <= 0.0:
        raise ValueError("Speed must be above 0.")
    return (width - overlap) * speed * efficiency


def work_time(
    area: float,
    width: float,
    speed: float,
    efficiency: float,
    passes: float = 1.0,
    overlap: float = 0.0,
) -> float:
    """Return the time to work an area, passes included.

    Parameters
    ----------
    area : float
        Area, 0 or more. [m2]
    width, speed, efficiency, overlap : float
        As in `field_capacity`.
    passes : float
        How often the whole area is worked, 0 or more. [-]

    Returns
    -------
    float
        Time. [s]

    Examples
    --------
    >>> acre = 4046.8564224
    >>> round(work_time(acre, 1.2192, 3 * 0.44704, 0.80, passes=2) / 3600, 2)  # h
    1.72
    """
    if area < 0.0 or passes < 0.0:
        raise ValueError("Area and passes must not be negative.")
    return passes * area / field_capacity(width, speed, efficiency, overlap)


def strips(field_width: float, width: float, overlap: float = 0.0) -> int:
    """Return how many strips cover a field of a given breadth.

    Parameters
    ----------
    field_width : float
        Breadth of the field across the direction of travel. [m]
    width, overlap : float
        As in `field_capacity`. [m]

    Returns
    -------
    int
        Strips, at least 1.
    """
    if not 0.0 <= overlap < width:
        raise ValueError("The overlap must be less than the width.")
    rest = arith.max(0.0, field_width - width)
    return 1 + arith.ceil(rest / (width - overlap) - 1e-9)


def efficiency_range(implement: str) -> tuple[float, float, float]:
    """Return the low, typical and high field efficiency of a kind of implement.

    Parameters
    ----------
    implement : str
        A key of the table field_efficiency, such as "rotary mower".

    Returns
    -------
    tuple of float
        Low, typical and high field efficiency. [-]
    """
    row = tables.by_key("power/field_efficiency", "implement")[implement]
    return float(row["low"]), float(row["typical"]), float(row["high"])
