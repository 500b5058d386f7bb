"""How far off a driver must see a slow machine, and how long it needs to pull out or cross.

Highway design guides print their formulas with rounded constants (1.47, 1.075, 0.278, 0.039).
The functions here use exact units; `printed_*` keep the printed constants, because only those
reproduce the published tables to the last digit.

References
----------
.. [1] road/DOT-1, stopping sight distance: 2.5 s reaction, 11.2 ft/s².
.. [2] road/WEB-5, stopping on a grade.
.. [3] road/DOT-2, road/UKY-1 and road/HB-2, gap times at intersections.
.. [4] road/HB-1, decision sight distance.
.. [5] road/UKY-2 and road/HB-3, passing sight distance, newer and older books.
.. [6] road/RAIL-memory, sight distance at rail crossings.
.. [7] road/CALC-1, plain kinematics.
"""

from calc import arith, tables

GRAVITY = 9.80665
FOOT = 0.3048
MPH = 0.44704
REACTION_TIME = 2.5  # s [1]
BRAKING_DECELERATION = 11.2 * FOOT  # m/s² [1]; about nine drivers in ten brake harder
START_DELAY = 2.0  # s, look and engage [6]
TRUCK_START_ACCELERATION = 1.47 * FOOT  # m/s², loaded truck at a rail crossing [6]


def _positive(name: str, value: float) -> None:
    if not value > 0:
        raise ValueError(f"{name} must be more than zero, not {value}.")


def _not_negative(name: str, value: float) -> None:
    if not value >= 0:
        raise ValueError(f"{name} can't be negative, not {value}.")


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
    _not_negative("A speed", faster)
    _not_negative("A speed", slower)
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
    [7]_

    Examples
    --------
    A car at 55 mph, a tractor at 20 mph, 600 ft apart:

    >>> round(closing_time(600 * FOOT, 55 * MPH, 20 * MPH), 1)
    11.7
    """
    _not_negative("Distance", distance)
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
    [1]_ for the constants, [7]_

    Examples
    --------
    >>> round(slow_down_gap(50 * MPH, 18 * MPH) / FOOT)
    216
    """
    _positive("Deceleration", deceleration)
    _not_negative("Reaction time", reaction_time)
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
    _not_negative("Gap", gap)
    _positive("Deceleration", deceleration)
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
    _not_negative("Speed", speed)
    braking = deceleration + GRAVITY * grade
    _positive("Braking left on this grade", braking)
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
    [4]_
    """
    reaction = {"rural stop": 3.0, "urban stop": 9.1}.get(maneuver)
    if reaction is not None:
        return (1.47 * speed_mph * reaction + 1.075 * speed_mph**2 / 11.2) * FOOT
    if maneuver == "rural path change":
        for row in tables.rows("road/road_decision_sight"):
            if float(row["speed_mph"]) == speed_mph:
                return float(row["rural_path_change_ft"]) * FOOT
        raise ValueError("The table holds 30 to 70 mph in steps of 5.")
    raise ValueError(f"There is no maneuver {maneuver!r}.")


def gap_time(vehicle: str, maneuver: str, extra_lanes: int = 0, upgrade: float = 0.0) -> float:
    """Return the gap in main-road traffic that a vehicle accepts when it pulls out.

    These gaps are for vehicles that then speed up to road speed. A tractor does not.

    Parameters
    ----------
    vehicle : str
        "car", "single-unit truck" or "combination truck".
    maneuver : str
        "left" or "right or cross", from a stop.
    extra_lanes : int
        Lanes beyond two that a left turn crosses. [-]
    upgrade : float
        Upgrade of the side road as a decimal; above 3 percent it adds time. [-]

    Returns
    -------
    float
        Gap. [s]

    References
    ----------
    [3]_

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
    [3]_
    """
    _not_negative("Speed", main_road_speed)
    _not_negative("Gap", gap)
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
    [3]_
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
    [6]_, [7]_

    Examples
    --------
    10 ft set-back, 24 ft of road, 40 ft of combination at 10 mph:

    >>> round(time_to_clear(74 * FOOT, 10 * MPH, 1.5 * FOOT), 1)
    11.9
    """
    _not_negative("Distance", distance)
    _positive("Top speed", top_speed)
    _positive("Acceleration", acceleration)
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
    [7]_
    """
    _positive("Speed difference", passing_speed - passed_speed)
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
    [5]_
    """
    column = {"since 2011": "since_2011_ft", "to 2004": "to_2004_ft"}.get(edition)
    if column is None:
        raise ValueError(f"There is no edition {edition!r}.")
    for row in tables.rows("road/road_passing_sight"):
        if float(row["speed_mph"]) == speed_mph and row[column]:
            return float(row[column]) * FOOT
    raise ValueError(f"No passing sight distance at {speed_mph} mph in that edition.")


def rail_crossing_time(
    length: float,
    gear_speed: float,
    acceleration: float = TRUCK_START_ACCELERATION,
    stop_line: float = 15 * FOOT,
    track_width: float = 5 * FOOT,
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
    [6]_
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
    _positive("Top speed", top_speed)
    _positive("Acceleration", acceleration)
    moving = arith.max(time - delay, 0.0)
    speeding_up = arith.min(moving, top_speed / acceleration)
    run = acceleration * speeding_up**2 / 2 + top_speed * (moving - speeding_up)
    return arith.max(run - other_distance, 0.0)


def joining_gap(
    main_road_speed: float,
    own_speed: float,
    acceleration: float,
    reaction_time: float = REACTION_TIME,
    deceleration: float = BRAKING_DECELERATION,
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
    [1]_ for the constants, [7]_
    """
    _positive("Acceleration", acceleration)
    _positive("Deceleration", deceleration)
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
