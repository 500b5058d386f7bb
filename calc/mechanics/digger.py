"""Post hole digger: where the boom goes through the lift, and how deep it reaches.

The boom pins to the tractor's top-link bracket and carries the gearbox at its far end. A yoke on
the lower links lifts it part way along. Heights are above the ground, distances behind the boom
pin.
"""

from typing import NamedTuple

from calc import arith


class BoomPoint(NamedTuple):
    """One position of the boom.

    Attributes
    ----------
    link_height, gearbox_height, gearbox_distance : float
        Heights above the ground and the distance behind the boom pin. [m]
    angle : float
        Of the boom above level. [rad]
    """

    link_height: float
    angle: float
    gearbox_height: float
    gearbox_distance: float


def boom_at(
    link_height: float,
    pivot_height: float,
    boom_length: float,
    yoke_distance: float,
    yoke_rise: float = 0.0,
) -> BoomPoint:
    r"""Position of the boom for one height of the lower link ends.

    .. math:: \sin\varphi = \frac{z_l + y - z_A}{a}, \quad
              z = z_A + L \sin\varphi, \quad x = L \cos\varphi

    Parameters
    ----------
    link_height : float
        Height of the lower link ends. [m]
    pivot_height : float
        Height of the boom pin on the top-link bracket. [m]
    boom_length : float
        Boom pin to gearbox center, above 0. [m]
    yoke_distance : float
        Boom pin to the yoke's pin, along the boom, above 0 up to the boom length. [m]
    yoke_rise : float
        Height of the yoke's pin above the link ends. [m]

    Returns
    -------
    BoomPoint
        Link height [m], angle above level [rad], gearbox height [m], gearbox distance [m].

    Raises
    ------
    ValueError
        If a length is out of range, or the yoke can't reach that height.

    Notes
    -----
    The yoke is taken as upright. Plane geometry, worked out on this site [1]_.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> low = boom_at(0.25, 0.75, 1.60, 0.75)
    >>> round(arith.degrees(low.angle), 1), round(low.gearbox_height, 3)
    (-41.8, -0.317)
    >>> round(low.gearbox_distance, 3)
    1.193
    """
    if boom_length <= 0.0:
        raise ValueError("The boom must be longer than zero.")
    if not 0.0 < yoke_distance <= boom_length:
        raise ValueError("The yoke must pin to the boom between its two ends.")
    sine = (link_height + yoke_rise - pivot_height) / yoke_distance
    if not -1.0 < sine < 1.0:
        raise ValueError("The yoke can't reach that height: the boom would pass the upright.")
    return BoomPoint(
        link_height,
        arith.asin(sine),
        pivot_height + boom_length * sine,
        boom_length * arith.sqrt(1.0 - sine * sine),
    )


def link_height_for(
    gearbox_height: float,
    pivot_height: float,
    boom_length: float,
    yoke_distance: float,
    yoke_rise: float = 0.0,
) -> float:
    """Height of the lower link ends that puts the gearbox at a height: `boom_at` backward.

    Parameters
    ----------
    gearbox_height : float
        Wanted height of the gearbox center, within one boom length of the pin. [m]
    pivot_height, boom_length, yoke_distance, yoke_rise : float
        As in `boom_at`. [m]

    Returns
    -------
    float
        Height of the lower link ends. [m]

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> round(link_height_for(boom_at(0.4, 0.75, 1.6, 0.75).gearbox_height, 0.75, 1.6, 0.75), 6)
    0.4
    """
    sine = (gearbox_height - pivot_height) / boom_length
    return pivot_height - yoke_rise + yoke_distance * sine


class Reach(NamedTuple):
    """What the auger can do between the lowest and the highest position."""

    depth: float
    tip_clearance: float
    drift: float
    lean: float


def reach(
    low: BoomPoint,
    high: BoomPoint,
    pivot_height: float,
    boom_length: float,
    auger_length: float,
    housing_clearance: float,
) -> Reach:
    r"""Depth, clearance when raised, and how far the top of the auger walks while it digs.

    Depth is the least of the auger length below the housing and what the links let the
    point go below ground. The drift is the change of gearbox distance from the moment when
    the point touches the ground to full depth:

    .. math:: D = |x_{touch} - x_{deep}|, \quad \tan\lambda = D / L_a

    Parameters
    ----------
    low, high : BoomPoint
        Lowest and highest position, from `boom_at`.
    pivot_height, boom_length : float
        As in `boom_at`. [m]
    auger_length : float
        Gearbox center to the point of the auger, above 0. [m]
    housing_clearance : float
        Least height of the gearbox center above ground: housing and spoil, 0 or more. [m]

    Returns
    -------
    Reach
        Depth of hole [m], height of the point when raised (below zero: it drags) [m],
        drift [m], lean of the auger that the drift would cause with the tractor
        standing still [rad].

    Raises
    ------
    ValueError
        If a length is out of range.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> low, high = boom_at(0.25, 0.75, 1.6, 0.75, 0.2), boom_at(0.8, 0.75, 1.6, 0.75, 0.2)
    >>> found = reach(low, high, 0.75, 1.6, 1.0, 0.2)
    >>> round(found.depth, 3), round(found.tip_clearance, 3)
    (0.8, 0.283)
    """
    if auger_length <= 0.0 or housing_clearance < 0.0:
        raise ValueError("The auger must be longer than zero and the clearance not below zero.")
    deepest = arith.max(low.gearbox_height, housing_clearance)
    depth = arith.max(0.0, arith.min(high.gearbox_height, auger_length) - deepest)
    touch = arith.min(auger_length, high.gearbox_height)
    drift = abs(
        _distance(touch, pivot_height, boom_length)
        - _distance(arith.min(deepest, touch), pivot_height, boom_length)
    )
    return Reach(
        depth,
        high.gearbox_height - auger_length,
        drift,
        arith.atan2(drift, auger_length),
    )


def _distance(height: float, pivot_height: float, boom_length: float) -> float:
    sine = arith.max(-1.0, arith.min(1.0, (height - pivot_height) / boom_length))
    return boom_length * arith.sqrt(1.0 - sine * sine)
