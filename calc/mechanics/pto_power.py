"""Power at the power take-off: what the tractor has left for a shaft.

Power runs from the engine to the shaft; altitude and heat take from the engine, and
driving uphill takes from the same engine as the shaft.

References
----------
.. [1] power/S8 and power/S10: engine to PTO.
.. [2] power/S27 to power/S31: altitude and heat.
"""

from calc import arith, si, tables
from calc.mechanics import bounds

G = 9.80665
DEFAULT_RATIO = "unstated"
DEFAULT_ALTITUDE_RULE = "na_500"

# Averages hide peaks: one cutter peaked at 1.9 times its mean (power/S18), and the
# trade keeps 15 to 25 % in hand (power/PRACTICE).
RESERVE_LOW, RESERVE, RESERVE_HIGH = 0.15, 0.20, 0.25


def find_row(table: str, key: str) -> dict[str, str]:
    """Return the row of a table that has a key.

    Raises
    ------
    LookupError
        When the table has no such row.
    """
    try:
        return tables.by_key(table, "key")[key]
    except KeyError:
        raise LookupError(f"The table {table} has no row called {key!r}.") from None


def pto_ratio(key: str = DEFAULT_RATIO) -> tuple[float, float, float]:
    """Return the share of an engine rating that reaches the PTO, (low, usual, high).

    Parameters
    ----------
    key : str
        A row of the table engine_to_pto; "unstated" is the 86 % rule with the figures
        for gross and net power as its band.

    Examples
    --------
    >>> pto_ratio(), pto_ratio("net")
    ((0.83, 0.86, 0.9), (0.9, 0.9, 0.9))
    """
    row = find_row("power/engine_to_pto", key)
    return float(row["low"]), float(row["ratio"]), float(row["high"])


def engine_to_pto(engine_power: float, ratio: float) -> float:
    """Return the power at the PTO of an engine rating. [W]

    Parameters
    ----------
    engine_power : float
        Engine power as rated, 0 or more. [W]
    ratio : float
        Share that reaches the shaft, 0 to 1. [-]

    Raises
    ------
    ValueError
        When the power is below 0 or the ratio outside 0 to 1.

    Examples
    --------
    >>> engine_to_pto(125.0, 0.86)
    107.5
    """
    bounds.check_amount(engine_power=engine_power)
    if not 0.0 <= ratio <= 1.0:
        raise ValueError("The share of engine power that reaches the shaft is 0 to 1.")
    return engine_power * ratio


def altitude_factor(altitude: float, rule: str = DEFAULT_ALTITUDE_RULE) -> float:
    """Return the share of an engine's power that is left at an altitude.

    .. math:: f = \\max(0, 1 - r (h - h_0))

    Parameters
    ----------
    altitude : float
        Height above the sea, -500 to 6000. [m]
    rule : str
        A row of the table altitude_rules.

    Returns
    -------
    float
        0 to 1. [-]

    Examples
    --------
    >>> round(225 * altitude_factor(4500 * 0.3048), 1)
    198.0
    >>> round(225 * altitude_factor(4500 * 0.3048, "na_2500"), 1)
    211.5
    """
    row = find_row("power/altitude_rules", rule)
    above = arith.max(0.0, altitude / si.FOOT - float(row["from_ft"])) / 1000.0
    return arith.max(0.0, 1.0 - float(row["percent_per_1000_ft"]) / 100.0 * above)


def temperature_factor(temperature: float, rule: str = "diesel") -> float:
    """Return the share of an engine's power that is left in hot air.

    Parameters
    ----------
    temperature : float
        Air temperature. [K]
    rule : str
        A row of the table temperature_rules.

    Returns
    -------
    float
        0 to 1; cold air gains nothing here. [-]

    Examples
    --------
    >>> round(temperature_factor(308.15, "diesel"), 2)
    0.98
    """
    row = find_row("power/temperature_rules", rule)
    fahrenheit = (temperature - 273.15) * 1.8 + 32.0
    above = arith.max(0.0, fahrenheit - float(row["from_f"])) / float(row["step_f"])
    return arith.max(0.0, 1.0 - float(row["percent_per_step"]) / 100.0 * above)


def grade_power(mass: float, grade: float, speed: float) -> float:
    """Return the power at the wheels that it takes to climb.

    .. math:: P = m g \\sin(\\arctan i) v

    Parameters
    ----------
    mass : float
        Tractor, implement and driver. [kg]
    grade : float
        Rise over run, 0.15 for 15 %; below 0 downhill. [-]
    speed : float
        Ground speed. [m/s]

    Returns
    -------
    float
        Power; below 0 downhill. [W]

    Examples
    --------
    >>> round(grade_power(2000, 0.15, 6 / 3.6) / 1000, 2)
    4.85
    """
    bounds.check_amount(mass=mass, speed=speed)
    return mass * G * arith.sin(arith.atan(grade)) * speed


def rolling_power(mass: float, coefficient: float, speed: float) -> float:
    """Return the power at the wheels that rolling takes on the level. [W]

    .. math:: P = f m g v

    Parameters
    ----------
    mass : float
        Mass on the wheels. [kg]
    coefficient : float
        Rolling resistance as a share of weight, 0 to 1. [-]
    speed : float
        Ground speed. [m/s]

    Examples
    --------
    >>> round(rolling_power(2000, 0.08, 6 / 3.6) / 1000, 2)
    2.62
    """
    bounds.check_amount(mass=mass, coefficient=coefficient, speed=speed)
    return coefficient * mass * G * speed


def rolling_coefficient(surface: str) -> tuple[float, float, float]:
    """Return rolling resistance as a share of weight, (low, usual, high), for a surface.

    Examples
    --------
    >>> rolling_coefficient("turf")
    (0.05, 0.065, 0.08)
    """
    for row in tables.rows("power/rolling_resistance"):
        if row["surface"] == surface:
            return float(row["low"]), float(row["value"]), float(row["high"])
    raise LookupError(f"No surface is called {surface!r}.")


def axle_efficiency(drive: str) -> tuple[float, float, float]:
    """Return the share of power that a drive brings to the axle, (low, usual, high).

    Parameters
    ----------
    drive : str
        "gear" or "hydrostatic", from test sheets.

    Examples
    --------
    >>> axle_efficiency("hydrostatic")[1]
    0.82
    """
    for row in tables.rows("power/drive_efficiency"):
        if row["basis"] == "drawbar tests" and row["drive"] == drive:
            return float(row["low"]), float(row["efficiency"]), float(row["high"])
    raise LookupError(f"No drive is called {drive!r}.")


def pump_drag(drive: str) -> tuple[float, float]:
    """Return what a drive takes from the engine when standing still, (low, high). [W]

    Examples
    --------
    >>> pump_drag("gear")
    (0.0, 0.0)
    """
    row = find_row("power/pto_drag", drive)
    return float(row["low_hp"]) * si.HP, float(row["high_hp"]) * si.HP


def at_pto(engine_power: float, drag: float) -> tuple[float, float]:
    """Return the least and the most power at the PTO of an engine of which little is known. [W]

    Parameters
    ----------
    engine_power : float
        Engine power as rated, 0 or more. [W]
    drag : float
        What the drive takes at rest, at the most, 0 or more. [W]

    Examples
    --------
    >>> low, high = at_pto(35 * si.HP, 2 * si.HP)
    >>> round(low / si.HP, 1), round(high / si.HP, 1)
    (27.1, 31.5)
    """
    low, _, high = pto_ratio()
    least = engine_to_pto(engine_power, low) - drag
    return arith.max(0.0, least), engine_to_pto(engine_power, high)


def travel_power(
    mass: float, grade: float, speed: float, coefficient: float, efficiency: float
) -> float:
    """Return what driving takes from the engine beside the shaft.

    .. math:: P = \\max(0, P_{grade} + P_{rolling}) / \\eta

    Parameters
    ----------
    mass : float
        Tractor, implement and driver. [kg]
    grade : float
        Rise over run. [-]
    speed : float
        Ground speed. [m/s]
    coefficient : float
        Rolling resistance as a share of weight. [-]
    efficiency : float
        Engine to axle, above 0 to 1. [-]

    Returns
    -------
    float
        Power at the engine; downhill it is 0, never a gain. [W]

    Raises
    ------
    ValueError
        When the efficiency isn't above 0 and at most 1.

    Examples
    --------
    >>> round(travel_power(2000, 0.15, 6 / 3.6, 0.08, 0.80) / 1000, 1)
    9.3
    """
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("The efficiency is above 0 and at most 1.")
    wheels = grade_power(mass, grade, speed) + rolling_power(mass, coefficient, speed)
    return arith.max(0.0, wheels) / efficiency


def power_left(
    pto_power: float, altitude_share: float = 1.0, heat_share: float = 1.0, travel: float = 0.0
) -> float:
    """Return the power that is left for the shaft at the job. [W]

    .. math:: P = \\max(0, P_{pto} f_h f_t - P_{travel})

    Altitude and heat cut the engine's power and so the shaft's in the same share;
    driving takes from the same engine.

    Parameters
    ----------
    pto_power : float
        Power at the PTO as rated. [W]
    altitude_share, heat_share : float
        Shares left at altitude and in heat, 0 to 1. [-]
    travel : float
        What driving takes. [W]

    Examples
    --------
    >>> power_left(20e3, 0.88, 1.0, 5e3)
    12600.0
    """
    bounds.check_amount(pto_power=pto_power, travel=travel)
    return arith.max(0.0, pto_power * altitude_share * heat_share - travel)


def speed_loss(speed_share: float) -> tuple[float, float]:
    """Return the share of the rated power lost at a lower engine speed, (low, high).

    A diesel's torque rises as it slows, so just below its rated speed hardly any power is lost;
    far below, speed counts for more than torque. Between the rows of torque_curve a straight
    line is drawn.

    Parameters
    ----------
    speed_share : float
        Engine speed as a share of its rated speed, above 0; at 1 and more nothing is lost. [-]

    Examples
    --------
    >>> [round(loss, 2) for loss in speed_loss(0.65)], speed_loss(1.02)
    ([0.25, 0.3], (0.0, 0.0))
    """
    rows = tables.rows("power/torque_curve")
    speeds = [float(row["speed_share"]) for row in rows]
    low, high = ([float(row[loss]) for row in rows] for loss in ("loss_low", "loss_high"))
    return arith.along(speed_share, speeds, low), arith.along(speed_share, speeds, high)
