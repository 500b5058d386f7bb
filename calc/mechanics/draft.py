"""Draft of tillage and seeding implements after ASAE D497, and what it takes to pull.

References
----------
.. [1] power/S15, power/S38 and power/S54 for the rows they repeat, power/D497-memory else.
.. [2] power/S40: Iowa State A3-26, PTO power from draft and a soil factor.
"""

from calc import arith, tables

SOILS = ("fine", "medium", "coarse")


def _row(key: str) -> dict[str, str]:
    try:
        return tables.by_key("power/draft", "key")[key]
    except KeyError:
        raise LookupError(f"The table draft has no row called {key!r}.") from None


def draft(key: str, width: float, speed: float, depth: float = 0.0, soil: str = "medium") -> float:
    """Return the pull that an implement takes in level ground.

    .. math:: D = F_i (A + B S + C S^2) W T

    with S in km/h and T in cm, as the coefficients are printed; rows of minor tillage
    and seeding leave T out. F is the soil's factor, not its number 1, 2 or 3.

    Parameters
    ----------
    key : str
        A row of the table draft.
    width : float
        Working width in meters, or tools or rows where the row's width_unit says so.
    speed : float
        Ground speed. [m/s]
    depth : float
        Working depth. [m]
    soil : str
        "fine", "medium" or "coarse".

    Returns
    -------
    float
        Draft. [N]

    Raises
    ------
    ValueError
        When a size is below 0 or the soil has another name.

    Examples
    --------
    >>> round(draft("moldboard_plow", 0.711, 5 / 3.6, 0.178, "medium"))
    6906
    """
    if soil not in SOILS:
        raise ValueError(f"The soil is one of {', '.join(SOILS)}; {soil!r} isn't.")
    if arith.min(width, speed, depth) < 0.0:
        raise ValueError("Width, speed and depth are 0 or more.")
    row = _row(key)
    kmh = speed * 3.6
    force = float(row["a"]) + float(row["b"]) * kmh + float(row["c"]) * kmh * kmh
    thickness = depth * 100.0 if row["uses_depth"] == "yes" else 1.0
    return float(row[f"f_{soil}"]) * force * width * thickness


def draft_spread(key: str) -> float:
    """Return the share by which machines of a row lie above or below it. [-]

    Examples
    --------
    >>> draft_spread("disk_tandem_secondary")
    0.3
    """
    return float(_row(key)["plus_minus_percent"]) / 100.0


def drawbar_power(pull: float, speed: float) -> float:
    """Return the power of a pull at a speed. [W]

    Parameters
    ----------
    pull : float
        Pull along the ground. [N]
    speed : float
        Ground speed. [m/s]

    Examples
    --------
    >>> round(drawbar_power(1500 * 4.4482216, 5.5 * 0.44704) / 745.69987, 1)
    22.0
    """
    return pull * speed


def pto_power_for(drawbar: float, soil_factor: float) -> float:
    """Return the PTO power that a drawbar power asks for, by a soil factor. [W]

    Parameters
    ----------
    drawbar : float
        Drawbar power. [W]
    soil_factor : float
        1.5 on firm, 1.8 on tilled, 2.1 on soft soil; at least 1. [-]

    Raises
    ------
    ValueError
        When the factor is below 1.

    Examples
    --------
    >>> pto_power_for(10.0, 1.5)
    15.0
    """
    if soil_factor < 1.0:
        raise ValueError("The soil factor is 1 or more.")
    return drawbar * soil_factor


def soil_factor(key: str) -> float:
    """Return PTO power over drawbar power on "firm", "tilled" or "soft" soil. [-]"""
    return float(tables.by_key("power/soil_factors", "key")[key]["factor"])
