"""Moist air: the water it holds, its heat and its volume."""

from calc import arith

STANDARD_PRESSURE = 101325.0
_WATER_TO_AIR = 0.621945
_DRY_AIR_GAS_CONSTANT = 287.042


def saturation_pressure(temperature: float) -> float:
    """Return the saturation pressure of water vapor, over ice below 0 deg C.

    Parameters
    ----------
    temperature : float
        Dry-bulb temperature, -100 to 200. [deg C]

    Returns
    -------
    float
        Pressure. [Pa]

    Raises
    ------
    ValueError
        Outside -100 to 200 deg C.

    Examples
    --------
    >>> round(saturation_pressure(25.0), 1)
    3169.2

    References
    ----------
    .. [1] value/ASHRAE-memory; printed values by value/C10.
    """
    if not -100.0 <= temperature <= 200.0:
        raise ValueError("The vapor pressure equation holds from -100 to 200 degrees Celsius.")
    t = temperature + 273.15
    if temperature < 0.0:
        return arith.exp(
            -5674.5359 / t
            + 6.3925247
            - 0.009677843 * t
            + 6.2215701e-7 * t**2
            + 2.0747825e-9 * t**3
            - 9.484024e-13 * t**4
            + 4.1635019 * arith.log(t)
        )
    return arith.exp(
        -5800.2206 / t
        + 1.3914993
        - 0.048640239 * t
        + 4.1764768e-5 * t**2
        - 1.4452093e-8 * t**3
        + 6.5459673 * arith.log(t)
    )


def humidity_ratio(
    temperature: float, relative_humidity: float, pressure: float = STANDARD_PRESSURE
) -> float:
    """Return the mass of water per mass of dry air: 0.621945 p_w / (P - p_w).

    Parameters
    ----------
    temperature : float
        Dry-bulb temperature. [deg C]
    relative_humidity : float
        0 to 1. [-]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    float
        Humidity ratio. [kg/kg]

    Raises
    ------
    ValueError
        When the relative humidity is outside 0 to 1 or the vapor alone exceeds the pressure.
    """
    if not 0.0 <= relative_humidity <= 1.0:
        raise ValueError("Relative humidity must be from 0 to 1.")
    vapor = relative_humidity * saturation_pressure(temperature)
    if vapor >= pressure:
        raise ValueError("The vapor pressure is above the air pressure.")
    return _WATER_TO_AIR * vapor / (pressure - vapor)


def enthalpy(temperature: float, ratio: float) -> float:
    """Return the heat held by moist air: 1.006 t + W (2501 + 1.86 t), kJ/kg, times 1000.

    Parameters
    ----------
    temperature : float
        Dry-bulb temperature. [deg C]
    ratio : float
        Humidity ratio. [kg/kg]

    Returns
    -------
    float
        Enthalpy per mass of dry air, zero at 0 deg C dry. [J/kg]

    Examples
    --------
    >>> round(enthalpy(30.0, 0.02))
    81316
    """
    return 1000.0 * (1.006 * temperature + ratio * (2501.0 + 1.86 * temperature))


def specific_volume(temperature: float, ratio: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Return the volume of moist air: 287.042 T (1 + 1.607858 W) / P.

    Parameters
    ----------
    temperature : float
        Dry-bulb temperature. [deg C]
    ratio : float
        Humidity ratio. [kg/kg]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    float
        Volume per mass of dry air. [m3/kg]
    """
    return _DRY_AIR_GAS_CONSTANT * (temperature + 273.15) * (1.0 + 1.607858 * ratio) / pressure


def humidity_ratio_from_wet_bulb(
    temperature: float, wet_bulb: float, pressure: float = STANDARD_PRESSURE
) -> float:
    """Return the humidity ratio from dry-bulb and wet-bulb temperatures.

    Parameters
    ----------
    temperature : float
        Dry-bulb temperature. [deg C]
    wet_bulb : float
        Wet-bulb temperature, at most the dry-bulb one. [deg C]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    float
        Humidity ratio, never below 0. [kg/kg]

    Raises
    ------
    ValueError
        When the wet bulb is above the dry bulb.

    References
    ----------
    .. [1] value/ASHRAE-memory.
    """
    if wet_bulb > temperature:
        raise ValueError("The wet-bulb temperature can't be above the dry-bulb temperature.")
    saturated = humidity_ratio(wet_bulb, 1.0, pressure)
    if wet_bulb >= 0.0:
        above = (2501.0 - 2.326 * wet_bulb) * saturated - 1.006 * (temperature - wet_bulb)
        below = 2501.0 + 1.86 * temperature - 4.186 * wet_bulb
    else:
        above = (2830.0 - 0.24 * wet_bulb) * saturated - 1.006 * (temperature - wet_bulb)
        below = 2830.0 + 1.86 * temperature - 2.1 * wet_bulb
    return arith.max(0.0, above / below)


def pressure_at_altitude(altitude: float) -> float:
    """Return the standard air pressure: 101325 (1 - 2.25577e-5 z)^5.2559.

    Parameters
    ----------
    altitude : float
        Height above sea level, -500 to 11000. [m]

    Returns
    -------
    float
        Pressure. [Pa]

    Examples
    --------
    >>> round(pressure_at_altitude(500.0))
    95461

    References
    ----------
    .. [1] value/C10, table 1.
    """
    if not -500.0 <= altitude <= 11000.0:
        raise ValueError("The standard pressure equation holds from -500 to 11000 m.")
    base: float = 1.0 - 2.25577e-5 * altitude
    return STANDARD_PRESSURE * arith.pow(base, 5.2559)
