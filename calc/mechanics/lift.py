"""Lift of a three-point hitch, and of a loader, away from the point where it is rated.

Masses stand for the weights they exert: a capacity of 400 kg lifts a mass of 400 kg.
Distances are level and run rearward from the lower hitch points (the ball ends).
"""

from calc import arith, tables

RATING_DISTANCE = 0.610
"""Where the standard lift test puts the load, behind the ball ends. [m]"""

GREATEST_DISTANCE = 1.8
"""How far behind the ball ends the effective-pivot form is used. [m]"""


def rating_distance(key: str) -> float:
    """Return how far behind the ball ends a lift rating was taken.

    Parameters
    ----------
    key : str
        A `key` of the table lift_rating_distances: "0", "305" or "610".

    Returns
    -------
    float
        Distance behind the ball ends. [m]

    Raises
    ------
    ValueError
        When the rating comes without a distance: such a figure can't be used.

    Examples
    --------
    >>> rating_distance("610")
    0.61
    """
    for row in tables.rows("hitch/lift_rating_distances"):
        if row["key"] == key:
            return float(row["distance_m"])
    raise ValueError(
        "A lift rating says nothing without its distance: "
        "look for “at the ball ends”, “12 in” or “24 in behind” beside the figure."
    )


def capacity_at(
    rated_capacity: float,
    rated_distance: float,
    distance: float,
    pivot_distance: float,
    inside_credit: bool = False,
) -> float:
    r"""Return the mass that the hitch lifts with its center of gravity at a distance.

    .. math:: C(d) = C_{ref} \frac{r + d_{ref}}{r + d}

    Nearer than the rating point the rating itself is returned, unless a figure for
    the ball ends bears out the larger one [1]_.

    Parameters
    ----------
    rated_capacity : float
        Rated lift capacity, more than 0. [kg]
    rated_distance : float
        Distance of the rating point behind the ball ends, 0 or more. [m]
    distance : float
        Distance of the load's center of gravity behind the ball ends, 0 or more. [m]
    pivot_distance : float
        Distance forward from the ball ends to the point where upper and lower links
        meet in side view, more than 0; infinite where the links run parallel. The
        length of the lower links is the safe choice on a small tractor. It isn't the
        point where the lower links would meet in plan view. [m]
    inside_credit : bool
        Whether to return more than the rating when the load is nearer than it.

    Returns
    -------
    float
        Lift capacity at that distance. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/H13 (the form with its pivot at 37 in), hitch/DERIVED (any pivot).

    Examples
    --------
    >>> round(capacity_at(450.0, 0.610, 1.000, 0.800), 1)
    352.5
    """
    if rated_capacity <= 0.0 or rated_distance < 0.0 or distance < 0.0:
        raise ValueError("Capacity must be more than 0, distances 0 or more.")
    return rated_capacity / _felt(distance, rated_distance, pivot_distance, inside_credit)


def effective_mass(
    mass: float,
    distance: float,
    rated_distance: float,
    pivot_distance: float,
    inside_credit: bool = False,
) -> float:
    r"""Return the mass that a load is felt as at the rating point.

    .. math:: m_e = m \frac{r + d}{r + d_{ref}}

    It is also the rating, at that point, that a tractor needs to lift the load.

    Parameters
    ----------
    mass : float
        Mass of the load, 0 or more. [kg]
    distance : float
        Distance of its center of gravity behind the ball ends, 0 or more. [m]
    rated_distance : float
        Distance of the rating point behind the ball ends, 0 or more. [m]
    pivot_distance : float
        As for `capacity_at`. [m]
    inside_credit : bool
        As for `capacity_at`.

    Returns
    -------
    float
        Mass as felt at the rating point. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/H13, "effective weight".

    Examples
    --------
    >>> round(effective_mass(100.0, 1.219, 0.610, 0.940), 1)
    139.3
    """
    if mass < 0.0 or distance < 0.0 or rated_distance < 0.0:
        raise ValueError("Mass and distances must be 0 or more.")
    return mass * _felt(distance, rated_distance, pivot_distance, inside_credit)


def _felt(distance: float, rated_distance: float, pivot_distance: float, credit: bool) -> float:
    if pivot_distance <= 0.0:
        raise ValueError("The pivot must be more than 0 ahead of the ball ends.")
    if arith.isinf(pivot_distance):
        return 1.0
    factor = 1.0 + (distance - rated_distance) / (pivot_distance + rated_distance)
    return factor if credit else arith.max(factor, 1.0)


def greatest_distance(
    rated_capacity: float, rated_distance: float, mass: float, pivot_distance: float
) -> float:
    """Return how far back a load's center of gravity may lie and still be lifted.

    Parameters
    ----------
    rated_capacity : float
        Rated lift capacity, more than 0. [kg]
    rated_distance : float
        Distance of the rating point behind the ball ends, 0 or more. [m]
    mass : float
        Mass of the load, more than 0. [kg]
    pivot_distance : float
        As for `capacity_at`. [m]

    Returns
    -------
    float
        Distance behind the ball ends, at most `GREATEST_DISTANCE`; 0 when the load is
        more than the rating itself. [m]

    Raises
    ------
    ValueError
        When an input is out of its range.

    Examples
    --------
    >>> round(greatest_distance(450.0, 0.610, 400.0, 0.800), 3)
    0.786
    """
    if rated_capacity <= 0.0 or mass <= 0.0 or pivot_distance <= 0.0 or rated_distance < 0.0:
        raise ValueError("Capacity, mass and pivot must be more than 0, the distance 0 or more.")
    if mass > rated_capacity:
        return 0.0
    if arith.isinf(pivot_distance):
        return GREATEST_DISTANCE
    reach = rated_capacity / mass * (pivot_distance + rated_distance) - pivot_distance
    return arith.min(reach, GREATEST_DISTANCE)


def pivot_from_two_ratings(
    ball_end_capacity: float, far_capacity: float, far_distance: float = RATING_DISTANCE
) -> float:
    r"""Return the effective pivot of a hitch that is rated at two points.

    .. math:: r = d \frac{C_d}{C_0 - C_d}

    Parameters
    ----------
    ball_end_capacity : float
        Lift capacity at the ball ends. [kg]
    far_capacity : float
        Lift capacity farther back, at most that at the ball ends. [kg]
    far_distance : float
        Distance of the second point behind the ball ends, more than 0. [m]

    Returns
    -------
    float
        Distance of the pivot ahead of the ball ends; infinite when both ratings are
        the same, for then the links run parallel. [m]

    Raises
    ------
    ValueError
        When the rating farther back is the larger one, or an input isn't positive.

    References
    ----------
    .. [1] hitch/DERIVED, from the effective-pivot form.

    Examples
    --------
    >>> round(pivot_from_two_ratings(600.0, 400.0), 2)
    1.22
    """
    if far_capacity <= 0.0 or far_distance <= 0.0:
        raise ValueError("Capacities and the distance must be more than 0.")
    if far_capacity > ball_end_capacity:
        raise ValueError(
            "A hitch lifts at least as much at the ball ends as farther back: "
            "the two ratings may be swapped."
        )
    if far_capacity == ball_end_capacity:
        return arith.inf
    return far_distance * far_capacity / (ball_end_capacity - far_capacity)


def capacity_with_coupler(
    rated_capacity: float,
    rated_distance: float,
    distance: float,
    pivot_distance: float,
    setback: float,
    coupler_mass: float,
) -> float:
    """Return the mass that the hitch lifts through a quick coupler.

    The coupler sets the implement back and weighs something itself, at about half
    the setback.

    Parameters
    ----------
    rated_capacity : float
        Rated lift capacity, more than 0. [kg]
    rated_distance : float
        Distance of the rating point behind the ball ends, 0 or more. [m]
    distance : float
        Distance of the implement's center of gravity behind its own hitch pins. [m]
    pivot_distance : float
        As for `capacity_at`. [m]
    setback : float
        How far the coupler moves the implement back, 0 or more. [m]
    coupler_mass : float
        Mass of the coupler, 0 or more. [kg]

    Returns
    -------
    float
        Greatest mass of the implement, 0 at least. [kg]

    References
    ----------
    .. [1] hitch/DERIVED; setback hitch/PRACTICE, mass hitch/COUPLER-memory.

    Examples
    --------
    >>> round(capacity_with_coupler(500.0, 0.610, 0.610, 0.940, 0.100, 0.0), 1)
    469.7
    """
    gross = capacity_at(rated_capacity, rated_distance, distance + setback, pivot_distance)
    felt = _felt(setback / 2.0, distance + setback, pivot_distance, credit=True)
    return arith.max(gross - coupler_mass * felt, 0.0)


def minimum_lift_force(drawbar_power: float) -> float:
    r"""Return the least lift that the standard asks of a tractor of some power.

    .. math:: F = 0.31\,P \;(P \le 65), \quad F = 20.15 + 0.155\,(P - 65)

    in kN and kW, at 610 mm behind the lower hitch points, over the whole lift range.

    Parameters
    ----------
    drawbar_power : float
        Greatest drawbar power, more than 0. Not engine or PTO power. [W]

    Returns
    -------
    float
        Least lift force. [N]

    Raises
    ------
    ValueError
        When the power isn't positive.

    References
    ----------
    .. [1] hitch/S5, PAES 118:2001 clause 6.3, Table 5.

    Examples
    --------
    >>> round(minimum_lift_force(25000.0))
    7750
    """
    if drawbar_power <= 0.0:
        raise ValueError("Drawbar power must be more than 0.")
    power = drawbar_power / 1000.0
    force = 0.31 * power if power <= 65.0 else 20.15 + 0.155 * (power - 65.0)
    return force * 1000.0


def loader_arm_length(pin_capacity: float, far_capacity: float, far_distance: float) -> float:
    r"""Return the effective arm length of a loader that is rated at two points.

    .. math:: L = \frac{x}{F_{pin}/F_x - 1}

    Parameters
    ----------
    pin_capacity : float
        Lift capacity at the pivot pins. [kg]
    far_capacity : float
        Lift capacity ahead of them, less than at the pins. [kg]
    far_distance : float
        How far ahead of the pins, more than 0. [m]

    Returns
    -------
    float
        Distance from the arm's pivot to the pins, as the ratings have it. [m]

    Raises
    ------
    ValueError
        When the rating ahead of the pins isn't the smaller one.

    References
    ----------
    .. [1] hitch/DERIVED, from the balance of moments about the arm's pivot.

    Examples
    --------
    >>> round(loader_arm_length(2330.0, 1705.0, 0.5), 3)
    1.364
    """
    if far_distance <= 0.0 or not 0.0 < far_capacity < pin_capacity:
        raise ValueError("A loader lifts less ahead of its pins than at them.")
    return far_distance / (pin_capacity / far_capacity - 1.0)


def loader_capacity_at(pin_capacity: float, arm_length: float, distance: float) -> float:
    r"""Return what a loader's cylinders lift ahead of the pivot pins.

    .. math:: F(x) = F_{pin} \frac{L}{L + x}

    The tractor may tip long before: see `calc.mechanics.loader_counterweight.loader_counterweight`.

    Parameters
    ----------
    pin_capacity : float
        Lift capacity at the pivot pins, more than 0. [kg]
    arm_length : float
        Effective arm length, more than 0. [m]
    distance : float
        Distance of the load ahead of the pins, 0 or more. [m]

    Returns
    -------
    float
        Lift capacity there, the tool's own mass included. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    Examples
    --------
    >>> round(loader_capacity_at(2330.0, 1.364, 1.0))
    1344
    """
    if pin_capacity <= 0.0 or arm_length <= 0.0 or distance < 0.0:
        raise ValueError("Capacity and arm length must be more than 0, the distance 0 or more.")
    return pin_capacity * arm_length / (arm_length + distance)
