"""How far off a driver must see a slow machine to slow down or stop behind it.

Highway design guides print their formulas with rounded constants (1.47, 1.075, 0.278, 0.039).
The functions here use exact units; `printed_*` keep the printed constants, because only those
reproduce the published tables to the last digit.

References
----------
.. [1] road/DOT-1, stopping sight distance: 2.5 s reaction, 11.2 ft/s².
.. [2] road/WEB-5, stopping on a grade.
.. [3] road/HB-1, decision sight distance.
.. [4] road/CALC-1, plain kinematics.
"""

from calc import arith, si, tables
from calc.mechanics import bounds

GRAVITY = 9.80665
REACTION_TIME = 2.5  # s [1]
BRAKING_DECELERATION = 11.2 * si.FOOT  # m/s² [1]; about nine drivers in ten brake harder


def closing_speed(faster: float, slower: float, head_on: bool = False) -> float:
    """Return the speed at which two vehicles close.

    Parameters
    ----------
    faster, slower : float
        Speeds of the two vehicles, 0 or more. [m/s]
    head_on : bool
        True when they meet; False when one follows the other.

    Returns
    -------
    float
        The sum when they meet, else the difference, never below zero. [m/s]

    Raises
    ------
    ValueError
        When a speed is negative.
    """
    bounds.check_not_negative(faster_speed=faster, slower_speed=slower)
    return faster + slower if head_on else arith.max(faster - slower, 0.0)


def closing_time(distance: float, faster: float, slower: float, head_on: bool = False) -> float:
    """Return the time until the faster vehicle reaches the slower one.

    ``t = d / (V_f - V_s)``; infinite when the gap does not close.

    Parameters
    ----------
    distance : float
        Distance at which the slower vehicle is noticed, 0 or more. [m]
    faster, slower : float
        Speeds. [m/s]
    head_on : bool
        True when they meet.

    Returns
    -------
    float
        Time. [s]

    References
    ----------
    [4]_

    Examples
    --------
    A car at 55 mph, a tractor at 20 mph, 600 ft apart:

    >>> round(closing_time(600 * si.FOOT, 55 * si.MPH, 20 * si.MPH), 1)
    11.7
    """
    bounds.check_not_negative(distance=distance)
    speed = closing_speed(faster, slower, head_on)
    return distance / speed if speed > 0 else arith.inf


def slow_down_gap(
    faster: float,
    slower: float,
    reaction_time: float = REACTION_TIME,
    deceleration: float = BRAKING_DECELERATION,
) -> float:
    """Return the gap that a following driver needs to slow to the speed of the one ahead.

    ``G = dv t_r + dv² / (2 a)``, with dv the difference of speeds. At this gap the two just
    touch at equal speed, so there is no margin in it.

    Parameters
    ----------
    faster, slower : float
        Speeds. [m/s]
    reaction_time : float
        Time before the brakes act. [s]
    deceleration : float
        Braking, more than 0. [m/s²]

    Returns
    -------
    float
        Gap; 0 when the follower is not faster. [m]

    References
    ----------
    [1]_ for the constants, [4]_

    Examples
    --------
    >>> round(slow_down_gap(50 * si.MPH, 18 * si.MPH) / si.FOOT)
    216
    """
    bounds.check_above_zero(deceleration=deceleration)
    bounds.check_not_negative(reaction_time=reaction_time)
    difference = closing_speed(faster, slower)
    return difference * reaction_time + difference**2 / (2 * deceleration)


def fastest_that_can_slow(
    gap: float,
    slower: float,
    reaction_time: float = REACTION_TIME,
    deceleration: float = BRAKING_DECELERATION,
) -> float:
    """Return the highest speed from which a driver can slow to `slower` within `gap`.

    The inverse of `slow_down_gap`: ``dv = a (sqrt(t_r² + 2 G / a) - t_r)``.

    Parameters
    ----------
    gap : float
        Distance at which the slower vehicle is noticed, 0 or more. [m]
    slower : float
        Its speed. [m/s]
    reaction_time, deceleration : float
        As for `slow_down_gap`. [s, m/s²]

    Returns
    -------
    float
        Speed. [m/s]
    """
    bounds.check_not_negative(gap=gap)
    bounds.check_above_zero(deceleration=deceleration)
    root = arith.sqrt(reaction_time**2 + 2 * gap / deceleration)
    return slower + deceleration * (root - reaction_time)


def stopping_sight_distance(
    speed: float,
    grade: float = 0.0,
    reaction_time: float = REACTION_TIME,
    deceleration: float = BRAKING_DECELERATION,
) -> float:
    """Return the distance in which a driver can see, react and stop, in exact units.

    ``SSD = v t + v² / (2 (a + g G))``

    Parameters
    ----------
    speed : float
        Speed, 0 or more. [m/s]
    grade : float
        Rise over run as a decimal, uphill positive, -0.3 to 0.3. [-]
    reaction_time, deceleration : float
        Reaction and level braking. [s, m/s²]

    Returns
    -------
    float
        Distance. [m]

    Raises
    ------
    ValueError
        When the hill is steeper than the brakes can hold.

    References
    ----------
    [1]_, [2]_
    """
    bounds.check_not_negative(speed=speed)
    braking = deceleration + GRAVITY * grade
    bounds.check_above_zero(braking_left_on_this_grade=braking)
    return speed * reaction_time + speed**2 / (2 * braking)


def printed_stopping_us_ft(speed_mph: float) -> float:
    """Return stopping sight distance in feet as US guides print it: ``1.47 V t + 1.075 V² / a``.

    Parameters
    ----------
    speed_mph : float
        Design speed. [mph]

    References
    ----------
    [1]_

    Examples
    --------
    >>> round(printed_stopping_us_ft(60), 1)
    566.0
    """
    return 1.47 * speed_mph * 2.5 + 1.075 * speed_mph**2 / 11.2


def printed_stopping_metric_m(speed_kmh: float) -> float:
    """Return stopping sight distance in meters: ``0.278 V t + 0.039 V² / a``, a = 3.4 m/s².

    Parameters
    ----------
    speed_kmh : float
        Design speed. [km/h]

    References
    ----------
    road/SSD-1 and road/SSD-2
    """
    return 0.278 * speed_kmh * 2.5 + 0.039 * speed_kmh**2 / 3.4


def printed_stopping_on_grade_ft(speed_mph: float, grade: float) -> float:
    """Return stopping sight distance on a grade in feet as printed.

    ``1.47 V t + V² / (30 (a / 32.2 + G))``. The guides round it to the next foot, not to five.

    Parameters
    ----------
    speed_mph : float
        Design speed. [mph]
    grade : float
        Decimal, downhill negative. [-]

    References
    ----------
    [2]_
    """
    return 1.47 * speed_mph * 2.5 + speed_mph**2 / (30 * (11.2 / 32.2 + grade))


def design_value(distance: float, step: float = 5.0) -> float:
    """Return a distance rounded up to the next `step`, as design tables do.

    Parameters
    ----------
    distance, step : float
        In the same unit. [any]

    Examples
    --------
    >>> design_value(300.6)
    305.0
    """
    return arith.ceil(arith.round(distance / step, 6)) * step


def decision_sight_distance(speed_mph: float, maneuver: str) -> float:
    """Return decision sight distance in meters, from the table or its formula.

    Parameters
    ----------
    speed_mph : float
        Design speed, 30 to 70 in steps of 5 for a path change, any for a stop. [mph]
    maneuver : str
        "rural stop" (3.0 s), "urban stop" (9.1 s) or "rural path change" (table).

    Returns
    -------
    float
        Distance before rounding. [m]

    Raises
    ------
    ValueError
        For another maneuver, or a path-change speed that the table does not hold.

    References
    ----------
    [3]_
    """
    reaction = {"rural stop": 3.0, "urban stop": 9.1}.get(maneuver)
    if reaction is not None:
        return (1.47 * speed_mph * reaction + 1.075 * speed_mph**2 / 11.2) * si.FOOT
    if maneuver == "rural path change":
        for row in tables.rows("road/road_decision_sight"):
            if float(row["speed_mph"]) == speed_mph:
                return float(row["rural_path_change_ft"]) * si.FOOT
        raise ValueError("The table holds 30 to 70 mph in steps of 5.")
    raise ValueError(f"There is no maneuver {maneuver!r}.")
