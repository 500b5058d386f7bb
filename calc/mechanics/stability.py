"""Static tip angles of a tractor, alone and with a raised implement.

A static angle is an absolute upper limit on smooth, hard ground at rest. It is never
a slope to work on: bumps, turns, soft ground and speed take most of it away.
"""

from collections.abc import Sequence

from calc import arith

GRAVITY = 9.80665
"""Standard gravity. [m/s2]"""


def cg_ahead_of_rear_axle(front_axle: float, mass: float, wheelbase: float) -> float:
    r"""Return how far the center of gravity lies ahead of the rear axle.

    .. math:: x = b \frac{T_F}{T_E}

    Parameters
    ----------
    front_axle : float
        Front axle load on the level; negative when the front would be lifted. [kg]
    mass : float
        Mass on both axles, more than 0. [kg]
    wheelbase : float
        Wheelbase, more than 0. [m]

    Returns
    -------
    float
        Distance ahead of the rear axle; negative when behind it. [m]

    Raises
    ------
    ValueError
        When mass or wheelbase isn't positive.

    Examples
    --------
    >>> cg_ahead_of_rear_axle(600.0, 1500.0, 1.75)
    0.7
    """
    if mass <= 0.0 or wheelbase <= 0.0:
        raise ValueError("Mass and wheelbase must be more than 0.")
    return wheelbase * front_axle / mass


def common_cg(parts: list[tuple[float, float]]) -> float:
    r"""Return where the common center of gravity of several masses lies.

    .. math:: z = \sum m_i z_i / \sum m_i

    Parameters
    ----------
    parts : list of (float, float)
        Mass [kg] and position, all along one axis from one origin. [m]

    Returns
    -------
    float
        Position of the common center of gravity. [m]

    Raises
    ------
    ValueError
        When the masses don't add up to more than 0.

    References
    ----------
    .. [1] hitch/H24 (distances behind the hitch points of tools that are combined).

    Examples
    --------
    >>> round(common_cg([(1200.0, 0.70), (400.0, 2.0)]), 3)
    1.025
    """
    total = sum(mass for mass, _ in parts)
    if total <= 0.0:
        raise ValueError("The masses must add up to more than 0.")
    if len(parts) == 1:
        return parts[0][1]
    mean = sum(mass * position for mass, position in parts) / total
    return arith.same(mean, lambda: _by_weights(parts))


def _by_weights(parts: Sequence[tuple[float, float]]) -> float:
    """The common center of gravity by each mass's share of the whole, where each stands once."""
    first = parts[0][1]
    found = first
    for place, (mass, position) in enumerate(parts[1:], 1):
        if mass > 0.0:
            rest = sum(other for at, (other, _) in enumerate(parts) if at != place)
            found += (position - first) / (1.0 + rest / mass)
    return found


def cg_ahead_with_implement(
    tractor_mass: float,
    cg_ahead: float,
    implement_mass: float,
    hitch_distance: float,
    cg_distance: float,
) -> float:
    r"""Return how far ahead of the rear axle the CG lies with a raised rear implement.

    .. math:: x' = \frac{T_E x - I_R (c + d)}{T_E + I_R}

    Parameters
    ----------
    tractor_mass : float
        Mass of the tractor as it stands, more than 0. [kg]
    cg_ahead : float
        Distance of its center of gravity ahead of the rear axle. [m]
    implement_mass : float
        Mass of the implement, 0 or more. [kg]
    hitch_distance : float
        Distance of the lower hitch points behind the rear axle. [m]
    cg_distance : float
        Distance of the implement's center of gravity behind the hitch points. [m]

    Returns
    -------
    float
        Distance ahead of the rear axle; negative when the front would be lifted. [m]

    References
    ----------
    .. [1] hitch/DERIVED, from the balance of moments.

    Examples
    --------
    >>> round(cg_ahead_with_implement(1500.0, 0.70, 450.0, 0.80, 0.70), 4)
    0.1923
    """
    return common_cg([(tractor_mass, cg_ahead), (implement_mass, -(hitch_distance + cg_distance))])


def side_tip_angle(track: float, cg_height: float) -> float:
    r"""Return the angle at which a machine on four fixed wheels tips sideways.

    .. math:: \tan\theta = t / (2 h)

    An upper bound: a tractor's front axle pivots, see `side_tip_angle_pivoting`.

    Parameters
    ----------
    track : float
        Distance between the middles of the tires' contact, more than 0. Measuring to
        the lower tire's outer edge is optimistic. [m]
    cg_height : float
        Height of the center of gravity, more than 0. [m]

    Returns
    -------
    float
        Static tip angle. [rad]

    Raises
    ------
    ValueError
        When an input isn't positive.

    References
    ----------
    .. [1] hitch/X5.

    Examples
    --------
    >>> round(arith.degrees(side_tip_angle(1.2, 0.75)), 1)
    38.7
    """
    if track <= 0.0 or cg_height <= 0.0:
        raise ValueError("Track and height must be more than 0.")
    return arith.atan2(track / 2.0, cg_height)


def side_tip_angle_pivoting(
    track: float, cg_height: float, wheelbase: float, cg_ahead: float, pivot_height: float
) -> float:
    r"""Return the angle at which a tractor starts to tip over its pivoting front axle.

    .. math:: \tan\theta = \frac{t}{2} \cdot \frac{b - x}{b h - x h_p}

    Moments about the line from the lower rear wheel's contact to the front axle's
    pivot pin: the tractor turns about that line until the axle meets its stop.

    Parameters
    ----------
    track : float
        Rear track, between the middles of the tires' contact, more than 0. [m]
    cg_height : float
        Height of the center of gravity, more than 0. [m]
    wheelbase : float
        Wheelbase, more than 0. [m]
    cg_ahead : float
        Distance of the center of gravity ahead of the rear axle, from 0 to less than
        the wheelbase. [m]
    pivot_height : float
        Height of the front axle's pivot pin, 0 or more. [m]

    Returns
    -------
    float
        Static angle at which it starts to tip. [rad]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/DERIVED; a machine that stands on three points: hitch/X15.

    Examples
    --------
    >>> round(arith.degrees(side_tip_angle_pivoting(1.2, 0.75, 1.6, 0.6, 0.4)), 1)
    32.0
    """
    if track <= 0.0 or cg_height <= 0.0 or wheelbase <= 0.0 or pivot_height < 0.0:
        raise ValueError("Track, heights and wheelbase must be more than 0.")
    if not 0.0 <= cg_ahead < wheelbase:
        raise ValueError("The center of gravity must lie between the axles.")
    lean = wheelbase * cg_height - cg_ahead * pivot_height
    return arith.atan2(track / 2.0 * (wheelbase - cg_ahead), lean)


def rear_tip_angle(cg_ahead: float, cg_height: float) -> float:
    r"""Return the climb at which the front wheels leave the ground, at rest.

    .. math:: \tan\theta = x / h

    Parameters
    ----------
    cg_ahead : float
        Distance of the center of gravity ahead of the rear axle. [m]
    cg_height : float
        Height of the center of gravity, more than 0. [m]

    Returns
    -------
    float
        Static tip angle; 0 or less when the front is off the ground on the level. [rad]

    Raises
    ------
    ValueError
        When the height isn't positive.

    References
    ----------
    .. [1] hitch/X5.

    Examples
    --------
    >>> round(arith.degrees(rear_tip_angle(0.7, 0.7)), 1)
    45.0
    """
    if cg_height <= 0.0:
        raise ValueError("The height must be more than 0.")
    return arith.atan(cg_ahead / cg_height)


def tip_speed_in_turn(tip_angle: float, radius: float) -> float:
    r"""Return the speed in a turn on the level at which a machine is about to tip.

    .. math:: v = \sqrt{g R \tan\theta}

    Parameters
    ----------
    tip_angle : float
        Static side tip angle, more than 0 and less than a right angle. [rad]
    radius : float
        Radius of the turn, more than 0. [m]

    Returns
    -------
    float
        Speed. [m/s]

    Raises
    ------
    ValueError
        When an input is out of its range.

    Examples
    --------
    >>> round(tip_speed_in_turn(side_tip_angle(1.2, 0.75), 5.0), 2)
    6.26
    """
    if not 0.0 < tip_angle < arith.pi / 2.0 or radius <= 0.0:
        raise ValueError("The angle must lie between 0 and a right angle, the radius above 0.")
    return arith.sqrt(GRAVITY * radius * arith.tan(tip_angle))


def slope_percent(angle: float) -> float:
    """Return a slope in percent (rise over level run) from its angle.

    Parameters
    ----------
    angle : float
        Angle of the slope, less than a right angle. [rad]

    Returns
    -------
    float
        Slope. [percent]

    Examples
    --------
    >>> round(slope_percent(arith.radians(15.0)), 1)
    26.8
    """
    return 100.0 * arith.tan(angle)


def slope_angle(percent: float) -> float:
    """Return the angle of a slope from its percent (rise over level run).

    Parameters
    ----------
    percent : float
        Slope. [percent]

    Returns
    -------
    float
        Angle. [rad]

    Examples
    --------
    >>> round(arith.degrees(slope_angle(17.0)), 1)
    9.6
    """
    return arith.atan(percent / 100.0)
