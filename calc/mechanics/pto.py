"""The power take-off: shaft types, torque and power, speed, distance to the drawbar.

References
----------
.. [1] hitch/S4: ISO 500-1:2014, clauses 4.1 and 4.2.
.. [2] hitch/S5: PAES 118, Table 3, shaft types 1 to 3.
.. [3] hitch/H16: drawbar positions for each shaft.
.. [4] power/S26: power at 540 rpm against power at rated engine speed.
"""

from calc import arith, tables

REVOLUTION = 2.0 * arith.pi


def torque(power: float, shaft_rpm: float) -> float:
    """Return the torque of a shaft that carries a power.

    .. math:: T = \\frac{60 P}{2 \\pi n}

    Parameters
    ----------
    power : float
        Power, 0 or more. [W]
    shaft_rpm : float
        Speed of the shaft, above 0. [rev/min]

    Returns
    -------
    float
        Torque. [N m]

    Raises
    ------
    ValueError
        When the power is below 0 or the speed isn't above 0.

    Examples
    --------
    >>> round(torque(30e3, 540), 1)
    530.5
    """
    if not shaft_rpm > 0.0:
        raise ValueError("A shaft that carries power turns: its speed is above 0.")
    if power < 0.0:
        raise ValueError("A power is 0 or more.")
    return power * 60.0 / (REVOLUTION * shaft_rpm)


def power(shaft_torque: float, shaft_rpm: float) -> float:
    """Return the power that a torque carries at a speed.

    .. math:: P = \\frac{2 \\pi n T}{60}

    Parameters
    ----------
    shaft_torque : float
        Torque. [N m]
    shaft_rpm : float
        Speed of the shaft. [rev/min]

    Returns
    -------
    float
        Power. [W]

    Examples
    --------
    >>> round(power(530.516, 540))
    30000
    """
    return shaft_torque * REVOLUTION * shaft_rpm / 60.0


def types() -> tuple[dict[str, str], ...]:
    """Return the rows of the four shaft types, smallest first."""
    return tables.rows("power/pto_types")


def type_row(kind: str) -> dict[str, str]:
    """Return the row of one shaft type, "1" to "4".

    Raises
    ------
    LookupError
        When there is no such type.
    """
    try:
        return tables.by_key("power/pto_types", "type")[kind]
    except KeyError:
        raise LookupError(f"No power take-off type is called {kind!r}.") from None


def identify(splines: int, diameter: float | None = None) -> str | None:
    """Return the shaft type with this many splines, or None.

    The count of splines names the type: 6 and 21 are both 35 mm shafts. The speed is
    another question, since some tractors turn a 6-spline shaft at 1000.

    Parameters
    ----------
    splines : int
        Number of splines counted on the shaft's end.
    diameter : float, optional
        Diameter over the splines; more than 4 mm off the type's gives None. [m]

    Examples
    --------
    >>> identify(6), identify(21, 0.035), identify(8)
    ('1', '2', None)
    """
    for row in types():
        if int(row["splines"]) == splines:
            nominal = float(row["diameter_mm"]) / 1000.0
            if diameter is None or abs(diameter - nominal) <= 4.0e-3:
                return row["type"]
    return None


def power_guide(kind: str, shaft_rpm: float) -> float:
    """Return the power that a shaft type is meant for at a speed.

    Parameters
    ----------
    kind : str
        Shaft type, "1" to "4".
    shaft_rpm : float
        Rated speed; type 1 has one guide up to 540 and another above. [rev/min]

    Returns
    -------
    float
        Upper end of the guide, from memory. [W]

    Examples
    --------
    >>> power_guide("1", 540), power_guide("1", 1000)
    (60000.0, 92000.0)
    """
    row = type_row(kind)
    low = row["power_low_speed_kw"]
    if low and shaft_rpm <= float(row["rpm"]):
        return float(low) * 1000.0
    return float(row["power_kw"]) * 1000.0


def drawbar_distance(kind: str) -> float:
    """Return how far the drawbar's pin hole stands behind the shaft's end.

    Parameters
    ----------
    kind : str
        Shaft type, "1" to "3".

    Returns
    -------
    float
        Distance, level. [m]

    Raises
    ------
    LookupError
        When no distance is known for the type.

    Examples
    --------
    >>> drawbar_distance("1"), drawbar_distance("2")
    (0.356, 0.406)
    """
    value = type_row(kind)["drawbar_mm"]
    if not value:
        raise LookupError(f"No drawbar distance is known for power take-off type {kind}.")
    return float(value) / 1000.0


def shaft_speed(engine_rpm: float, ratio: float) -> float:
    """Return the shaft's speed at an engine speed. [rev/min]

    Parameters
    ----------
    engine_rpm : float
        Engine speed. [rev/min]
    ratio : float
        Engine turns for one turn of the shaft, above 0. [-]

    Examples
    --------
    >>> round(shaft_speed(2600, 2600 / 540))
    540
    """
    if not ratio > 0.0:
        raise ValueError("A ratio is above 0.")
    return engine_rpm / ratio


def engine_speed_ratio(engine_rpm: float, shaft_rpm: float) -> float:
    """Return how many turns the engine makes for one of the shaft. [-]

    Examples
    --------
    >>> round(engine_speed_ratio(1484, 540), 3)
    2.748
    """
    if not (engine_rpm > 0.0 and shaft_rpm > 0.0):
        raise ValueError("Speeds are above 0.")
    return engine_rpm / shaft_rpm


def tip_speed(diameter: float, rpm: float) -> float:
    """Return the speed of a blade's tip. [m/s]

    .. math:: v = \\pi D n / 60

    Parameters
    ----------
    diameter : float
        Circle that the tips draw. [m]
    rpm : float
        Speed of the blade's shaft. [rev/min]

    Examples
    --------
    >>> round(tip_speed(60 * 0.0254, 800), 1)
    63.8
    """
    return arith.pi * diameter * rpm / 60.0
