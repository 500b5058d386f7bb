"""Where the sun stands, how strong a clear sky is, and what falls on a pane."""

from collections.abc import Sequence

from calc import arith

SOLAR_CONSTANT = 1361.0
STANDARD_PRESSURE = 101325.0

# Day of the year of the 21st of each month, the usual design day.
DAY_OF_21ST = (21, 52, 80, 111, 141, 172, 202, 233, 264, 294, 325, 355)


def declination(day_of_year: float) -> float:
    """Return the sun's declination by Spencer's series.

    Parameters
    ----------
    day_of_year : float
        1 to 366. [day]

    Returns
    -------
    float
        Declination, north positive. [rad]

    Examples
    --------
    >>> round(arith.degrees(declination(172)), 1)
    23.5

    References
    ----------
    .. [1] value/SPENCER.
    """
    g = 2.0 * arith.pi * (day_of_year - 1.0) / 365.0
    return (
        0.006918
        - 0.399912 * arith.cos(g)
        + 0.070257 * arith.sin(g)
        - 0.006758 * arith.cos(2.0 * g)
        + 0.000907 * arith.sin(2.0 * g)
        - 0.002697 * arith.cos(3.0 * g)
        + 0.00148 * arith.sin(3.0 * g)
    )


def hour_angle(solar_time: float) -> float:
    """Return the hour angle: 15 degrees an hour from solar noon.

    Parameters
    ----------
    solar_time : float
        Hour by the sun, 0 to 24. [h]

    Returns
    -------
    float
        Hour angle, afternoon positive. [rad]
    """
    return arith.radians(15.0 * (solar_time - 12.0))


def altitude_and_azimuth(
    latitude: float, day_of_year: float, solar_time: float
) -> tuple[float, float]:
    """Return the sun's height above the horizon and its compass bearing.

    sin h = sin L sin d + cos L cos d cos H

    Parameters
    ----------
    latitude : float
        North positive, -pi/2 to pi/2. [rad]
    day_of_year : float
        1 to 366. [day]
    solar_time : float
        Hour by the sun, 0 to 24. [h]

    Returns
    -------
    tuple of float
        Altitude, below 0 at night, and azimuth clockwise from north. [rad]

    References
    ----------
    .. [1] value/SPENCER for the declination; the rest is spherical geometry.
    """
    if abs(latitude) > arith.pi / 2.0:
        raise ValueError("Latitude must be from -90 to 90 degrees.")
    dec, hour = declination(day_of_year), hour_angle(solar_time)
    up = arith.sin(latitude) * arith.sin(dec) + arith.cos(latitude) * arith.cos(dec) * arith.cos(
        hour
    )
    east = -arith.cos(dec) * arith.sin(hour)
    north = arith.cos(latitude) * arith.sin(dec) - arith.sin(latitude) * arith.cos(dec) * arith.cos(
        hour
    )
    return arith.asin(arith.max(-1.0, arith.min(1.0, up))), arith.atan2(east, north) % (
        2.0 * arith.pi
    )


def clear_sky(
    altitude: float,
    precipitable_water: float = 1.5,
    aerosol_depth: float = 0.1,
    pressure: float = STANDARD_PRESSURE,
) -> tuple[float, float, float]:
    """Return beam, whole and scattered radiation of a clear sky (broadband model of Ineichen).

    Parameters
    ----------
    altitude : float
        Sun's height above the horizon. [rad]
    precipitable_water : float
        Depth of the water vapor in the air column, 0.2 to 10. [cm]
    aerosol_depth : float
        Aerosol optical depth at 700 nm, 0.05 to 0.45. [-]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    tuple of float
        Beam on a plane facing the sun, whole and scattered radiation on level ground, all 0
        when the sun is down. [W/m2]

    References
    ----------
    .. [1] value/INEICHEN.
    """
    if altitude <= 0.0:
        return 0.0, 0.0, 0.0
    water, depth = arith.max(0.2, precipitable_water), aerosol_depth
    log_water, log_pressure = arith.log(water), arith.log(pressure / STANDARD_PRESSURE)
    strength = SOLAR_CONSTANT * (
        0.12 * water**0.56 * depth**2
        + 0.97 * water**0.032 * depth
        + 1.08 * water**0.0051
        + 0.071 * log_pressure
    )
    sine = arith.sin(altitude)
    beam_depth, beam_power = _beam_terms(water, log_water, depth, log_pressure)
    whole_depth, whole_power = _whole_terms(water, log_water, depth, log_pressure)
    sky_depth, sky_power = _sky_terms(water, depth, log_pressure)
    beam = strength * arith.exp(-beam_depth / arith.pow(sine, beam_power))
    whole = strength * arith.exp(-whole_depth / arith.pow(sine, whole_power)) * sine
    scattered = strength * arith.exp(-sky_depth / arith.pow(sine, sky_power))
    return beam, whole, scattered


def _beam_terms(
    water: float, log_water: float, depth: float, log_pressure: float
) -> tuple[float, float]:
    thickness = (
        (1.82 + 0.056 * log_water + 0.0071 * log_water**2) * depth
        + 0.33
        + 0.045 * log_water
        + 0.0096 * log_water**2
        + (0.0089 * water + 0.13) * log_pressure
    )
    power = (0.00925 * depth**2 + 0.0148 * depth - 0.0172) * log_water + (
        -0.7565 * depth**2 + 0.5057 * depth + 0.4557
    )
    return thickness, power


def _whole_terms(
    water: float, log_water: float, depth: float, log_pressure: float
) -> tuple[float, float]:
    thickness = (
        (1.24 + 0.047 * log_water + 0.0061 * log_water**2) * depth
        + 0.27
        + 0.043 * log_water
        + 0.0090 * log_water**2
        + (0.0079 * water + 0.1) * log_pressure
    )
    power = -0.0147 * log_water - 0.3079 * depth**2 + 0.2846 * depth + 0.3798
    return thickness, power


def _sky_terms(water: float, depth: float, log_pressure: float) -> tuple[float, float]:
    if depth < 0.05:
        terms = (
            0.0042 * water + 3.12,
            0.092 * water - 8.86,
            -0.23 * water + 74.8,
            -3.11 * water + 79.4,
            86.0 * water - 13800.0,
        )
        by_pressure = -0.83 * arith.pow(1.0 + depth, -17.2)
    else:
        terms = (
            0.0057 * water + 2.94,
            0.0554 * water - 5.71,
            -0.134 * water + 15.5,
            0.27 * water - 20.7,
            -0.21 * water + 11.6,
        )
        by_pressure = -0.71 * arith.pow(1.0 + depth, -15.0)
    thickness = by_pressure * log_pressure
    for power, term in enumerate(terms):
        thickness += term * depth**power
    exponent = -0.337 * depth**2 + 0.63 * depth + 0.116 + log_pressure / (18.0 + 152.0 * depth)
    return thickness, exponent


def incidence_cosine(altitude: float, azimuth: float, tilt: float, facing: float) -> float:
    """Return the cosine of the angle between the sun and a pane's outward normal.

    cos i = cos t sin h + sin t cos h cos(A - facing); below 0 the sun is behind the pane.

    Parameters
    ----------
    altitude, azimuth : float
        Where the sun stands. [rad]
    tilt : float
        Pane from level: 0 is a roof pane, pi/2 an upright one. [rad]
    facing : float
        Compass bearing of the outward normal. [rad]

    Returns
    -------
    float
        Cosine of the angle of incidence. [-]
    """
    return arith.cos(tilt) * arith.sin(altitude) + arith.sin(tilt) * arith.cos(
        altitude
    ) * arith.cos(azimuth - facing)


PANE_CONSTANT = 0.05  # b0 of common glass, value/IAM


def angle_modifier(cosine: float, constant: float = PANE_CONSTANT) -> float:
    """Return how much of the head-on gain of a pane is left at an angle: 1 - b0 (1/cos i - 1).

    Parameters
    ----------
    cosine : float
        Cosine of the angle of incidence. [-]
    constant : float
        b0 of the pane. [-]

    Returns
    -------
    float
        0 to 1; 0 when the sun is behind the pane. [-]

    References
    ----------
    .. [1] value/IAM.
    """
    if cosine <= 0.0:
        return 0.0
    return arith.max(0.0, 1.0 - constant * (1.0 / cosine - 1.0))


def pane_radiation(
    sky: tuple[float, float, float],
    altitude: float,
    azimuth: float,
    tilt: float,
    facing: float,
    ground_reflectance: float = 0.2,
) -> float:
    """Return the radiation that counts for a pane: beam after the angle loss, sky and ground.

    Parameters
    ----------
    sky : tuple of float
        From `clear_sky`. [W/m2]
    altitude, azimuth : float
        Where the sun stands. [rad]
    tilt, facing : float
        The pane, as in `incidence_cosine`. [rad]
    ground_reflectance : float
        0 to 1; grass and bare soil about 0.2. [-]

    Returns
    -------
    float
        To be multiplied by the pane's solar heat gain coefficient and area. [W/m2]

    References
    ----------
    .. [1] value/DERIVED: an even sky and an even ground.
    """
    beam, whole, scattered = sky
    cosine = incidence_cosine(altitude, azimuth, tilt, facing)
    # The cosine times its angle modifier, which ends where the modifier does.
    direct = beam * arith.max(0.0, cosine - PANE_CONSTANT * (1.0 - cosine))
    from_sky = scattered * (1.0 + arith.cos(tilt)) / 2.0
    from_ground = whole * ground_reflectance * (1.0 - arith.cos(tilt)) / 2.0
    return direct + from_sky + from_ground


def upright_shares(altitude: float, bearings: Sequence[float]) -> list[float]:
    """Return the share of the beam that counts for upright panes, by bearing from the sun.

    What `pane_radiation` takes of the beam for them, written so that each pane costs little: the
    incidence cosine, its angle modifier in it, 0 where either is.

    Parameters
    ----------
    altitude : float
        Sun's height above the horizon. [rad]
    bearings : sequence of float
        Bearing of each pane's outward normal from the sun's. [rad]

    Returns
    -------
    list of float
        Shares, 0 to 1. [-]

    References
    ----------
    .. [1] value/IAM.

    Examples
    --------
    >>> [round(share, 4) for share in upright_shares(arith.radians(60), (0.0, arith.pi / 2))]
    [0.475, 0.0]
    """
    reach = (1.0 + PANE_CONSTANT) * arith.cos(altitude)
    return [arith.max(0.0, reach * arith.cos(one) - PANE_CONSTANT) for one in bearings]


def upright_diffuse(sky: tuple[float, float, float], ground_reflectance: float = 0.2) -> float:
    """Return what an upright pane gets of an even sky and an even ground, whichever way it faces.

    Parameters
    ----------
    sky : tuple of float
        From `clear_sky`. [W/m2]
    ground_reflectance : float
        0 to 1. [-]

    Returns
    -------
    float
        Radiation. [W/m2]

    References
    ----------
    .. [1] value/DERIVED.

    Examples
    --------
    >>> upright_diffuse((900.0, 800.0, 100.0))
    130.0
    """
    _, whole, scattered = sky
    return 0.5 * (scattered + ground_reflectance * whole)
