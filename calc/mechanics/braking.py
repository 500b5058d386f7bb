"""Stopping a tractor and what it tows.

References
----------
.. [1] road/EU-2, annex II: least braking of a tractor at type approval, no driver reaction in it.
.. [2] road/EU2-memory and road/CALC-1: an unbraked load shares the tractor's braking force.
.. [3] road/MAN-2, road/MAN-4, road/MAN-5, road/WEB-15, road/S365-memory: mass ratios in print.
.. [4] road/STD-4 and road/MAN-2: safety chain.
"""

from calc import arith, tables

GRAVITY = 9.80665
KMH = 1 / 3.6
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
    kmh = top_speed / KMH
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
    kmh = speed / KMH
    return float(row["delay_m_per_kmh"]) * kmh + kmh**2 / float(row["divisor_kmh2_per_m"])


def towing_deceleration(
    deceleration: float, tractor_mass: float, unbraked_mass: float, grade: float = 0.0
) -> float:
    """Return what is left of the tractor's braking with an unbraked load behind it.

    ``d = d_t m_t / (m_t + m_r) + g sin(atan G)``

    Parameters
    ----------
    deceleration : float
        Of the tractor alone on the level. [m/s²]
    tractor_mass : float
        Ballasted, with operator, more than 0. [kg]
    unbraked_mass : float
        Towed mass that does not brake, 0 or more. [kg]
    grade : float
        Rise over run, downhill negative. [-]

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
    if not tractor_mass > 0:
        raise ValueError("The tractor's mass must be more than zero.")
    if unbraked_mass < 0:
        raise ValueError("A towed mass can't be negative.")
    level = deceleration * tractor_mass / (tractor_mass + unbraked_mass)
    return level + GRAVITY * grade / arith.sqrt(1 + grade**2)


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
    >>> mass_limit("unbraked-32", 1000)
    1500.0
    """
    row = tables.by_key("road/towed_mass_rules", "rule").get(rule)
    if row is None:
        raise ValueError(f"There is no towed-mass rule {rule!r}.")
    if row["mass_kg"]:
        return float(row["mass_kg"])
    return float(row["ratio"]) * tractor_mass


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
    kmh = speed / KMH
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
