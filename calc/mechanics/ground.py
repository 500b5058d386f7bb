"""Contact area and ground pressure of a tire.

References
----------
.. [1] tires/S9, Arvidsson and Keller (2007): mean contact pressure is about the tire pressure at
   the recommended pressure; the largest stress at 10 cm depth was 39 % above it on average.
.. [2] tires/practice: mean contact pressure is 7 to 14 kPa above tire pressure.
"""

GRAVITY = 9.80665
PEAK_AT_10_CM = 1.39
"""Largest stress 10 cm down over tire pressure [-], tires/S9."""
CARCASS_PRESSURE = (7000.0, 14000.0)
"""Pressure that the carcass adds to the tire pressure [Pa], tires/practice."""


def contact_area(wheel_mass: float, pressure: float, carcass_pressure: float = 0.0) -> float:
    """Return the contact area on soft soil at rated deflection.

    Parameters
    ----------
    wheel_mass
        Mass carried by one tire [kg], 0 or more.
    pressure
        Tire pressure [Pa], above 0.
    carcass_pressure
        Pressure that the carcass adds, 0 to 14000 [Pa].

    Returns
    -------
    float
        A = m g / p [m2].

    Raises
    ------
    ValueError
        When the pressure isn't above zero or the mass is negative.

    Examples
    --------
    >>> round(contact_area(900.0, 83000.0), 3)
    0.106
    """
    if pressure <= 0.0:
        raise ValueError("A tire carries load only with pressure above zero.")
    if wheel_mass < 0.0:
        raise ValueError("The mass on a tire can't be negative.")
    return wheel_mass * GRAVITY / (pressure + carcass_pressure)


def mean_pressure(wheel_mass: float, area: float) -> float:
    """Return the mean pressure on the ground.

    Parameters
    ----------
    wheel_mass
        Mass carried by one tire [kg].
    area
        Contact area, above 0 [m2].

    Returns
    -------
    float
        p = m g / A [Pa].
    """
    return wheel_mass * GRAVITY / area


def contact_pressure_band(pressure: float) -> tuple[float, float]:
    """Return the lowest and highest mean contact pressure for a tire pressure.

    Parameters
    ----------
    pressure
        Tire pressure [Pa].

    Returns
    -------
    tuple of float
        The tire pressure itself, and that plus 14 kPa [Pa].
    """
    return pressure, pressure + CARCASS_PRESSURE[1]


def peak_stress(pressure: float) -> float:
    """Return the largest stress 10 cm below a tire on soft soil.

    Parameters
    ----------
    pressure
        Tire pressure [Pa].

    Returns
    -------
    float
        1.39 times the tire pressure [Pa].

    Examples
    --------
    >>> round(peak_stress(83000.0))
    115370
    """
    return PEAK_AT_10_CM * pressure
