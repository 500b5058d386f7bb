"""Stopping a tractor and what it tows.

References
----------
.. [1] road/EU-2, annex II: least braking of a tractor at type approval, no driver reaction in it.
.. [2] road/EU2-memory and road/CALC-1: an unbraked load shares the tractor's braking force.
.. [3] road/MAN-2, road/MAN-4, road/MAN-5, road/WEB-15, road/S365-memory: mass ratios in print.
.. [4] road/STD-4 and road/MAN-2: safety chain.
.. [5] road/GRIP-1: grip of the tires, and of brakes on the rear wheels alone.
.. [6] road/CALC-1: heat of holding a speed downhill.
"""

from calc import arith, si, tables

GRAVITY = 9.80665
CG_HEIGHT_SHARE = 0.36  # height of the center of gravity over the wheelbase, compacts [5]
ROLLING = 0.03  # rolling resistance on a farm road, as a share of the weight [6]
SHORT_OF = 1 - 1e-6  # of a ratio that may be neared and not reached
DELAY_PER_SPEED = 0.15 * 3.6  # s: the 0.15 m per km/h of the type-approval formula [1]


def approval_class(top_speed: float) -> tables.Row:
    """Return the row of type-approval minimums for a tractor of this top speed.

    Parameters
    ----------
    top_speed : float
        Design speed, more than 0. [m/s]

    References
    ----------
    [1]_
    """
    kmh = top_speed / si.KMH
    for row in tables.rows("road/brake_minimums"):
        if not row["top_speed_to_kmh"] or kmh <= float(row["top_speed_to_kmh"]) + 1e-9:
            return row
    raise LookupError("No class holds this speed.")


def approval_stopping_distance(speed: float, top_speed: float) -> float:
    """Return the longest stop that type approval accepts, without driver reaction.

    ``s = 0.15 v + v² / 92`` up to 30 km/h, ``s = 0.15 v + v² / 130`` above (v in km/h).

    Parameters
    ----------
    speed : float
        Speed at which the brakes are applied. [m/s]
    top_speed : float
        Design speed, which picks the class. [m/s]

    Returns
    -------
    float
        Distance. [m]

    References
    ----------
    [1]_

    Examples
    --------
    >>> round(approval_stopping_distance(30 / 3.6, 30 / 3.6), 2)
    14.28
    """
    row = approval_class(top_speed)
    kmh = speed / si.KMH
    return float(row["delay_m_per_kmh"]) * kmh + kmh**2 / float(row["divisor_kmh2_per_m"])


def slope_pull(grade: float) -> float:
    """Return what gravity adds or takes on a slope: ``g sin(atan G)``, downhill negative.

    Parameters
    ----------
    grade : float
        Rise over run. [-]

    Returns
    -------
    float
        [m/s²]
    """
    return GRAVITY * grade / arith.sqrt(1 + grade**2)


def grip_deceleration(
    friction: float, rear_share: float, *, all_wheels: bool, height: float = CG_HEIGHT_SHARE
) -> float:
    """Return the most braking that the tires hold on the level.

    ``μ g f_r / (1 + μ h/L)`` with the rear wheels braked alone, ``μ g`` with all four.

    Parameters
    ----------
    friction : float
        Of tire on ground, more than 0. [-]
    rear_share : float
        Share of the standing weight on the rear axle, 0 to 1. [-]
    all_wheels : bool
        Whether the front wheels are braked too, or tied to the rear by an engaged front drive.
    height : float
        Height of the center of gravity over the wheelbase. [-]

    Returns
    -------
    float
        [m/s²]

    References
    ----------
    [5]_

    Examples
    --------
    >>> round(grip_deceleration(0.7, 0.65, all_wheels=False), 2)
    3.56
    """
    if all_wheels:
        return friction * GRAVITY
    return friction * GRAVITY * rear_share / (1 + friction * height)


def shared_deceleration(
    deceleration: float, tractor_mass: float, towed_mass: float, trailer_braking: float = 0.0
) -> float:
    """Return the braking of tractor and load together on the level.

    ``d = d_t m_t / (m_t + m_r) + z g m_r / (m_t + m_r)``

    Parameters
    ----------
    deceleration : float
        Of the tractor alone on the level. [m/s²]
    tractor_mass : float
        Ballasted, with operator, more than 0. [kg]
    towed_mass : float
        0 or more. [kg]
    trailer_braking : float
        What the load's own brakes do, as a share of its weight; 0 without brakes. [-]

    Returns
    -------
    float
        [m/s²]

    Raises
    ------
    ValueError
        When a mass is out of range.

    References
    ----------
    [2]_
    """
    if not tractor_mass > 0:
        raise ValueError("The tractor's mass must be more than zero.")
    if towed_mass < 0:
        raise ValueError("A towed mass can't be negative.")
    own = trailer_braking * GRAVITY
    # The same sum with each mass once, so that ranges stay narrow.
    return own + (deceleration - own) / (1 + towed_mass / tractor_mass)


def towing_deceleration(
    deceleration: float,
    tractor_mass: float,
    towed_mass: float,
    grade: float = 0.0,
    trailer_braking: float = 0.0,
) -> float:
    """Return the braking of tractor and load that is left on a slope.

    ``shared_deceleration + slope_pull``; the parameters are theirs.

    Returns
    -------
    float
        Zero or less: it does not stop. [m/s²]

    Raises
    ------
    ValueError
        When a mass is out of range.

    References
    ----------
    [2]_
    """
    shared = shared_deceleration(deceleration, tractor_mass, towed_mass, trailer_braking)
    return shared + slope_pull(grade)


def heaviest_towed(
    deceleration: float, tractor_mass: float, needed: float, trailer_braking: float = 0.0
) -> float:
    """Return the towed mass with which a braking on the level is still reached.

    ``m_r = m_t (d_t - d) / (d - z g)``: `shared_deceleration` solved for the towed mass.

    Parameters
    ----------
    deceleration, tractor_mass, trailer_braking : float
        As in `shared_deceleration`.
    needed : float
        The braking that is needed on the level. [m/s²]

    Returns
    -------
    float
        0 where the tractor alone doesn't reach it, infinite where the load's brakes do. [kg]

    References
    ----------
    [2]_
    """
    own = trailer_braking * GRAVITY
    if deceleration <= needed:
        return 0.0
    if needed <= own:
        return arith.inf
    return tractor_mass * (deceleration - needed) / (needed - own)


def needed_deceleration(
    speed: float, distance: float, reaction_time: float, brake_delay: float = DELAY_PER_SPEED
) -> float:
    """Return the braking that stops within a distance: ``v² / (2 (s - v t))``.

    Parameters
    ----------
    speed : float
        [m/s]
    distance : float
        [m]
    reaction_time, brake_delay : float
        [s]

    Returns
    -------
    float
        Infinite when the distance is gone before the brakes act. [m/s²]

    References
    ----------
    [1]_
    """
    left = distance - speed * (reaction_time + brake_delay)
    return speed**2 / (2 * left) if left > 0 else arith.inf


def holding_heat(mass: float, speed: float, grade: float) -> float:
    """Return the heat that brakes or engine take while a speed is held downhill.

    ``P = m g v (sin(slope) - C_rr)``, 0 where rolling resistance holds it alone.

    Parameters
    ----------
    mass : float
        Of everything that rolls. [kg]
    speed : float
        [m/s]
    grade : float
        Rise over run, downhill negative. [-]

    Returns
    -------
    float
        [W]

    References
    ----------
    [6]_
    """
    return arith.max(0.0, mass * speed * (0.0 - slope_pull(grade) - ROLLING * GRAVITY))


def stopping_distance(
    speed: float,
    deceleration: float,
    reaction_time: float = 0.0,
    brake_delay: float = DELAY_PER_SPEED,
) -> float:
    """Return the distance to stop: ``v (t_r + t_b) + v² / (2 d)``; infinite without braking.

    Parameters
    ----------
    speed : float
        [m/s]
    deceleration : float
        [m/s²]
    reaction_time : float
        Of the driver; the type-approval formula has none. [s]
    brake_delay : float
        Of the brakes; 0.15 m per km/h is 0.54 s. [s]

    Returns
    -------
    float
        Distance. [m]

    References
    ----------
    [1]_, [2]_
    """
    if deceleration <= 0:
        return arith.inf
    return speed * (reaction_time + brake_delay) + speed**2 / (2 * deceleration)


def speed_that_stops_within(
    distance: float, deceleration: float, reaction_time: float, brake_delay: float = DELAY_PER_SPEED
) -> float:
    """Return the highest speed that stops within `distance`; the inverse of `stopping_distance`.

    Parameters
    ----------
    distance : float
        0 or more. [m]
    deceleration : float
        More than 0, else the answer is 0. [m/s²]
    reaction_time, brake_delay : float
        [s]

    Returns
    -------
    float
        Speed. [m/s]
    """
    if deceleration <= 0 or distance <= 0:
        return 0.0
    delay = reaction_time + brake_delay
    return deceleration * (arith.sqrt(delay**2 + 2 * distance / deceleration) - delay)


def mass_limit(rule: str, tractor_mass: float) -> float:
    """Return the towed mass that a printed rule allows.

    Where a rule says "below" its ratio, the mass is short of the ratio by a millionth.

    Parameters
    ----------
    rule : str
        A rule of the table towed_mass_rules.
    tractor_mass : float
        Ballasted, with operator. [kg]

    Returns
    -------
    float
        [kg]

    References
    ----------
    [3]_

    Examples
    --------
    >>> mass_limit("unbraked-small", 1000)
    1000.0
    >>> round(mass_limit("unbraked-32", 1000), 2)
    1500.0
    """
    row = tables.by_key("road/towed_mass_rules", "rule").get(rule)
    if row is None:
        raise ValueError(f"There is no towed-mass rule {rule!r}.")
    most = float(row["mass_kg"]) if row["mass_kg"] else arith.inf
    if not row["ratio"]:
        return most
    ratio = float(row["ratio"]) * (SHORT_OF if row["ratio_reached_is_over"] == "yes" else 1.0)
    by_ratio = ratio * tractor_mass
    return by_ratio if most == arith.inf else arith.min(most, by_ratio)


def rule_covers(rule: str, speed: float) -> bool:
    """Return whether a towed-mass rule covers travel at this speed.

    Parameters
    ----------
    rule : str
        A rule of the table towed_mass_rules.
    speed : float
        Travel speed. [m/s]
    """
    row = tables.by_key("road/towed_mass_rules", "rule")[rule]
    kmh = speed / si.KMH
    # The rules that give km/h and mph round one to the other: 32 km/h is 20 mph (32.19).
    top = float(row["speed_to_kmh"]) + 0.25 if row["speed_to_kmh"] else arith.inf
    return kmh <= top


def chain_is_enough(chain_rating: float, gross_towed_mass: float) -> bool:
    """Return whether a safety chain's rating reaches the loaded mass of what is towed.

    Parameters
    ----------
    chain_rating, gross_towed_mass : float
        [kg]

    References
    ----------
    [4]_
    """
    return chain_rating >= gross_towed_mass
