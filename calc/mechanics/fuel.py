"""Fuel burnt by a tractor engine at full and part load."""

from calc import arith, si

CUBIC_METERS_PER_GALLON = 3.785411784e-3
# 1 L/h per kW is 1e-3 m3 / 3600 s / 1000 W.
_LITER_PER_KILOWATT_HOUR = 1e-3 / 3.6e6

LOWEST_LOAD = 0.2


def _check_load(load: float) -> None:
    if not LOWEST_LOAD <= load <= 1.0:
        raise ValueError(
            f"The load is {load:.3g} of rated power; the fuel equations hold from 0.2 to 1."
        )


def diesel_rate(rated_pto_power: float, load: float, engine_speed_ratio: float = 1.0) -> float:
    """Return the diesel burnt per second by the later (2011) ASAE D497 equation.

    L/h = (0.22 X + 0.096) P [1 - (N - 1)(0.45 X - 0.877)], P in kW. The equation is per
    kilowatt of *rated* power: it is not to be multiplied by the load again.

    Parameters
    ----------
    rated_pto_power : float
        Rated power at the power take-off, above 0. [W]
    load : float
        X, the power take-off equivalent power demanded as a share of the rated power,
        0.2 to 1. [-]
    engine_speed_ratio : float
        N, engine speed at part throttle over full-throttle speed, 0.5 to 1. [-]

    Returns
    -------
    float
        Fuel flow. [m3/s]

    Raises
    ------
    ValueError
        When the load or the speed ratio is outside the range of the equation.

    Examples
    --------
    >>> round(diesel_rate(35 * 745.699872, 0.5) / 3.785411784e-3 * 3600, 2)  # gal/h
    1.42

    References
    ----------
    .. [1] power/S9: both diesel equations, as compared with logged data.
    .. [2] power/S41: the same part-throttle form.
    """
    _check_load(load)
    if not 0.5 <= engine_speed_ratio <= 1.0:
        raise ValueError("The throttled engine speed must be 0.5 to 1 of full-throttle speed.")
    throttled = 1.0 - (engine_speed_ratio - 1.0) * (0.45 * load - 0.877)
    return (0.22 * load + 0.096) * rated_pto_power * throttled * _LITER_PER_KILOWATT_HOUR


def _rate(rated_pto_power: float, load: float, liters_per_kilowatt_hour: float) -> float:
    return liters_per_kilowatt_hour * load * rated_pto_power * _LITER_PER_KILOWATT_HOUR


def older_diesel_rate(rated_pto_power: float, load: float) -> float:
    """Return the diesel burnt per second by ASAE D497.4 and earlier.

    L/kWh = 2.64 X + 3.91 - 0.203 sqrt(738 X + 173), per kilowatt-hour *delivered*.

    Parameters
    ----------
    rated_pto_power : float
        Rated power at the power take-off. [W]
    load : float
        Power demanded as a share of rated power, 0.2 to 1. [-]

    Returns
    -------
    float
        Fuel flow, 17 to 25 % above `diesel_rate`. [m3/s]

    References
    ----------
    .. [1] power/S9.
    """
    _check_load(load)
    specific = 2.64 * load + 3.91 - 0.203 * arith.sqrt(738.0 * load + 173.0)
    return _rate(rated_pto_power, load, specific)


def gasoline_rate(rated_pto_power: float, load: float) -> float:
    """Return the gasoline burnt per second: L/kWh = 2.74 X + 3.15 - 0.203 sqrt(697 X).

    Parameters and range as in `older_diesel_rate`. [m3/s]

    References
    ----------
    .. [1] power/D497-memory.
    """
    _check_load(load)
    specific = 2.74 * load + 3.15 - 0.203 * arith.sqrt(697.0 * load)
    return _rate(rated_pto_power, load, specific)


def propane_rate(rated_pto_power: float, load: float) -> float:
    """Return the propane burnt per second: L/kWh = 2.69 X + 3.41 - 0.203 sqrt(646 X).

    Parameters and range as in `older_diesel_rate`. [m3/s]

    References
    ----------
    .. [1] power/D497-memory.
    """
    _check_load(load)
    specific = 2.69 * load + 3.41 - 0.203 * arith.sqrt(646.0 * load)
    return _rate(rated_pto_power, load, specific)


def average_diesel_rate(rated_pto_power: float) -> float:
    """Return the mean diesel flow over a year of mixed work.

    gal/h = 0.06 x 0.73 x maximum PTO horsepower.

    Parameters
    ----------
    rated_pto_power : float
        Rated power at the power take-off. [W]

    Returns
    -------
    float
        Fuel flow. [m3/s]

    References
    ----------
    .. [1] power/S42.
    """
    gallons_per_hour = 0.06 * 0.73 * rated_pto_power / si.HP
    return gallons_per_hour * CUBIC_METERS_PER_GALLON / 3600.0


def rate_from_output(power: float, energy_per_volume: float) -> float:
    """Return the fuel flow of an engine whose work per volume of fuel is known.

    Parameters
    ----------
    power : float
        Power delivered. [W]
    energy_per_volume : float
        Work delivered per volume of fuel, above 0; 1 hp.h/gal is 709.2 MJ/m3. [J/m3]

    Returns
    -------
    float
        Fuel flow. [m3/s]
    """
    if energy_per_volume <= 0.0:
        raise ValueError("Work per volume of fuel must be above 0.")
    return power / energy_per_volume


def engine_oil_rate(rated_engine_power: float) -> float:
    """Return the oil a diesel engine needs, changes included: L/h = 0.00059 P + 0.02169.

    Parameters
    ----------
    rated_engine_power : float
        Rated engine power. [W]

    Returns
    -------
    float
        Oil flow. [m3/s]

    References
    ----------
    .. [1] power/D497-memory.
    """
    return (0.00059 * rated_engine_power / 1000.0 + 0.02169) * 1e-3 / 3600.0
