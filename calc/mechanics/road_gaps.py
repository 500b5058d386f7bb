"""How long a slow machine needs to pull out, cross, pass or clear the rails, and the gap for it.

Highway design guides print their formulas with rounded constants (1.47, 0.278). The functions here
use exact units; `printed_*` keep the printed constants, because only those reproduce the published
tables to the last digit.

References
----------
.. [1] road/DOT-1, stopping sight distance: 2.5 s reaction, 11.2 ft/s².
.. [2] road/DOT-2, road/UKY-1 and road/HB-2, gap times at intersections.
.. [3] road/UKY-2 and road/HB-3, passing sight distance, newer and older books.
.. [4] road/RAIL-memory, sight distance at rail crossings.
.. [5] road/CALC-1, plain kinematics.
"""

from calc import arith, si, tables
from calc.mechanics import bounds, sight

START_DELAY = 2.0  # s, look and engage [4]
TRUCK_START_ACCELERATION = 1.47 * si.FOOT  # m/s², loaded truck at a rail crossing [4]


def gap_time(vehicle: str, maneuver: str, extra_lanes: float = 0, upgrade: float = 0.0) -> float:
    """Return the gap in main-road traffic that a vehicle accepts when it pulls out.

    These gaps are for vehicles that then speed up to road speed. A tractor does not.

    Parameters
    ----------
    vehicle : str
        "car", "single-unit truck" or "combination truck".
    maneuver : str
        "left" or "right or cross", from a stop.
    extra_lanes : float
        Lanes beyond two that a left turn crosses, wider ones as parts. [-]
    upgrade : float
        Upgrade of the side road as a decimal; above 3 percent it adds time. [-]

    Returns
    -------
    float
        Gap. [s]

    References
    ----------
    [2]_

    Examples
    --------
    >>> gap_time("car", "left")
    7.5
    """
    row = tables.by_key("road/road_gap_times", "vehicle").get(vehicle)
    if row is None or maneuver not in ("left", "right or cross"):
        raise ValueError(f"There is no gap time for {vehicle!r}, {maneuver!r}.")
    left = maneuver == "left"
    base = float(row["left" if left else "right_or_cross"])
    lanes = float(row["extra_lane"]) * extra_lanes
    hill = (0.2 if left else 0.1) * upgrade * 100 if upgrade > 0.03 else 0.0
    return base + lanes + hill


def intersection_sight_distance(main_road_speed: float, gap: float) -> float:
    """Return how far along the main road one must see to pull out: ``ISD = V t_g``.

    Parameters
    ----------
    main_road_speed : float
        Speed on the main road. [m/s]
    gap : float
        Gap time, or the time to clear. [s]

    Returns
    -------
    float
        Distance. [m]

    References
    ----------
    [2]_
    """
    bounds.check_not_negative(speed=main_road_speed, gap=gap)
    return main_road_speed * gap


def printed_intersection_us_ft(speed_mph: float, gap: float) -> float:
    """Return intersection sight distance in feet with the printed constant 1.47.

    Parameters
    ----------
    speed_mph : float
        Main-road speed. [mph]
    gap : float
        Gap time. [s]

    References
    ----------
    [2]_
    """
    return 1.47 * speed_mph * gap


def time_to_clear(
    distance: float, top_speed: float, acceleration: float, delay: float = START_DELAY
) -> float:
    """Return the time from deciding to go until the whole combination is across.

    ``T = J + v/a + (S - v²/(2a)) / v``, or ``J + sqrt(2 S / a)`` when top speed is not reached.

    Parameters
    ----------
    distance : float
        Set-back, lanes crossed and the whole length of the combination, 0 or more. [m]
    top_speed : float
        Speed held while crossing, more than 0. [m/s]
    acceleration : float
        Acceleration from rest, more than 0. [m/s²]
    delay : float
        Time to look and engage. [s]

    Returns
    -------
    float
        Time. [s]

    References
    ----------
    [4]_, [5]_

    Examples
    --------
    10 ft set-back, 24 ft of road, 40 ft of combination at 10 mph:

    >>> round(time_to_clear(74 * si.FOOT, 10 * si.MPH, 1.5 * si.FOOT), 1)
    11.9
    """
    bounds.check_not_negative(distance=distance)
    bounds.check_above_zero(top_speed=top_speed, acceleration=acceleration)
    run_up = top_speed**2 / (2 * acceleration)
    start = arith.min(distance, run_up)
    return delay + arith.sqrt(2 * start / acceleration) + (distance - start) / top_speed


def passing(
    passing_speed: float,
    passed_speed: float,
    combination_length: float,
    car_length: float,
    gap_before: float,
    gap_after: float,
    oncoming_speed: float,
) -> tuple[float, float, float]:
    """Return time, road used and sight needed to pass at steady speed.

    ``t = (g1 + L + l + g2) / (V - v)``. Steady speed is the best case; a car that first slowed
    behind the machine takes longer.

    Parameters
    ----------
    passing_speed, passed_speed, oncoming_speed : float
        Speeds of the car, the machine and oncoming traffic. [m/s]
    combination_length, car_length : float
        Lengths. [m]
    gap_before, gap_after : float
        Distance kept behind before, and in front after, passing. [m]

    Returns
    -------
    time : float
        [s]
    road : float
        Road the car uses. [m]
    sight : float
        Clear road needed with oncoming traffic. [m]

    Raises
    ------
    ValueError
        When the car is not faster than the machine.

    References
    ----------
    [5]_
    """
    bounds.check_above_zero(speed_difference=passing_speed - passed_speed)
    time = (gap_before + combination_length + car_length + gap_after) / (
        passing_speed - passed_speed
    )
    return time, passing_speed * time, (passing_speed + oncoming_speed) * time


def passing_sight_distance(speed_mph: float, edition: str = "since 2011") -> float:
    """Return the tabled passing sight distance for a two-lane road.

    Parameters
    ----------
    speed_mph : float
        Design speed, 20 to 80 in steps of 5. [mph]
    edition : str
        "since 2011" or "to 2004" (about double, still in circulation).

    Returns
    -------
    float
        Distance. [m]

    Raises
    ------
    ValueError
        When the table has no such row.

    References
    ----------
    [3]_
    """
    column = {"since 2011": "since_2011_ft", "to 2004": "to_2004_ft"}.get(edition)
    if column is None:
        raise ValueError(f"There is no edition {edition!r}.")
    for row in tables.rows("road/road_passing_sight"):
        if float(row["speed_mph"]) == speed_mph and row[column]:
            return float(row[column]) * si.FOOT
    raise ValueError(f"No passing sight distance at {speed_mph} mph in that edition.")


def rail_crossing_time(
    length: float,
    gear_speed: float,
    acceleration: float = TRUCK_START_ACCELERATION,
    stop_line: float = 15 * si.FOOT,
    track_width: float = 5 * si.FOOT,
    delay: float = START_DELAY,
) -> float:
    """Return the time to clear a single track from a stop.

    ``V_G / a + (L + 2 D + W - V_G²/(2 a)) / V_G + J``: the distance is the length of the
    combination, the stop line's distance on both sides, and the track.

    Parameters
    ----------
    length : float
        Length of the whole combination. [m]
    gear_speed : float
        Top speed in the gear used; don't shift on the track. [m/s]
    acceleration : float
        From rest. [m/s²]
    stop_line, track_width : float
        Stop line to the near rail, and the track. [m]
    delay : float
        Time to look and engage. [s]

    Returns
    -------
    float
        Time. [s]

    References
    ----------
    [4]_
    """
    return time_to_clear(length + 2 * stop_line + track_width, gear_speed, acceleration, delay)


def longest_that_clears(
    time: float,
    other_distance: float,
    top_speed: float,
    acceleration: float,
    delay: float = START_DELAY,
) -> float:
    """Return the longest combination that clears in `time`; the inverse of `time_to_clear`.

    Parameters
    ----------
    time : float
        Time available. [s]
    other_distance : float
        Set-back and lanes or track, without the combination. [m]
    top_speed, acceleration, delay : float
        As for `time_to_clear`. [m/s, m/s², s]

    Returns
    -------
    float
        Length, 0 when nothing clears. [m]
    """
    bounds.check_above_zero(top_speed=top_speed, acceleration=acceleration)
    moving = arith.max(time - delay, 0.0)
    speeding_up = arith.min(moving, top_speed / acceleration)
    run = acceleration * speeding_up**2 / 2 + top_speed * (moving - speeding_up)
    return arith.max(run - other_distance, 0.0)


def joining_gap(
    main_road_speed: float,
    own_speed: float,
    acceleration: float,
    reaction_time: float = sight.REACTION_TIME,
    deceleration: float = sight.BRAKING_DECELERATION,
) -> float:
    """Return how far off traffic must be when a slow machine moves out into its lane.

    The driver reacts when the machine starts to move and brakes until both go equally fast;
    the gap is what the car gains on the machine until then. With the car at
    ``V - a_c (t - t_r)`` and the machine at ``a t``, up to its own speed, the speeds meet at
    ``t = (V + a_c t_r) / (a_c + a)``, or at ``t_r + (V - v) / a_c`` when it is already up to speed.

    Parameters
    ----------
    main_road_speed : float
        Speed of the traffic. [m/s]
    own_speed : float
        Speed that the machine reaches on the road. [m/s]
    acceleration : float
        Of the machine from rest, more than 0. [m/s²]
    reaction_time, deceleration : float
        Of the driver who comes up. [s, m/s²]

    Returns
    -------
    float
        Gap with no margin in it. [m]

    References
    ----------
    [1]_ for the constants, [5]_
    """
    bounds.check_above_zero(acceleration=acceleration, deceleration=deceleration)
    if main_road_speed <= own_speed:
        return 0.0
    up_to_speed = own_speed / acceleration
    time = (main_road_speed + deceleration * reaction_time) / (deceleration + acceleration)
    if time > up_to_speed:
        time = reaction_time + (main_road_speed - own_speed) / deceleration
        time = arith.max(time, up_to_speed)
    braked = arith.max(time - reaction_time, 0.0)
    car = main_road_speed * time - deceleration * braked**2 / 2
    pulling = arith.min(time, up_to_speed)
    machine = acceleration * pulling**2 / 2 + own_speed * (time - pulling)
    return arith.max(car - machine, 0.0)
