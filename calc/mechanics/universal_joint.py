"""How even a shaft with universal joints turns, by the angles of its joints."""

from functools import cache

from calc import arith


def _check_angle(angle: float) -> None:
    if not -arith.pi / 2.0 < angle < arith.pi / 2.0:
        raise ValueError("A joint angle must be between -90 and 90 degrees.")


def speed_ratio(angle: float, rotation: float) -> float:
    r"""Output over input speed of one cross joint.

    .. math:: \frac{\omega_2}{\omega_1} = \frac{\cos\beta}{1 - \sin^2\beta \cos^2\theta}

    Parameters
    ----------
    angle : float
        Joint angle, within a right angle; meant for up to 45 degrees. [rad]
    rotation : float
        Turn of the input from the position of the largest ratio. [rad]

    Returns
    -------
    float
        Speed ratio. [-]

    Raises
    ------
    ValueError
        If the angle is a right angle or more.

    References
    ----------
    [1] value/P0.

    Examples
    --------
    >>> round(speed_ratio(arith.radians(20.0), 0.0), 4)
    1.0642
    >>> round(speed_ratio(arith.radians(20.0), arith.pi / 2), 4)
    0.9397
    """
    _check_angle(angle)
    return arith.cos(angle) / (1.0 - (arith.sin(angle) * arith.cos(rotation)) ** 2)


def output_rotation(angle: float, rotation: float) -> float:
    r"""Turn of the output of one cross joint.

    .. math:: \tan\theta_2 = \tan\theta_1 / \cos\beta

    Parameters
    ----------
    angle : float
        Joint angle, within a right angle. [rad]
    rotation : float
        Turn of the input from the position of the largest ratio. [rad]

    Returns
    -------
    float
        Turn of the output, on the same revolution as the input. [rad]

    References
    ----------
    [1] value/UJ-memory. [2] value/P0.

    Examples
    --------
    >>> round(arith.degrees(output_rotation(arith.radians(30), arith.radians(45))), 2)
    49.11
    """
    _check_angle(angle)
    turned = arith.atan2(arith.sin(rotation), arith.cos(rotation) * arith.cos(angle))
    return turned + 2.0 * arith.pi * arith.round((rotation - turned) / (2.0 * arith.pi))


def ratio_extremes(angle: float) -> tuple[float, float]:
    r"""Least and largest speed ratio of one cross joint, each met twice a turn.

    .. math:: \cos\beta \quad \text{and} \quad 1/\cos\beta

    Parameters
    ----------
    angle : float
        Joint angle, within a right angle. [rad]

    Returns
    -------
    tuple of float
        Least and largest ratio. [-]

    References
    ----------
    [1] value/P1. [2] value/P0b.

    Examples
    --------
    >>> [round(ratio, 4) for ratio in ratio_extremes(arith.radians(35.0))]
    [0.8192, 1.2208]
    """
    _check_angle(angle)
    cosine = arith.cos(angle)
    return cosine, 1.0 / cosine


def fluctuation(angle: float) -> float:
    r"""Swing of the speed ratio of one joint: largest less least.

    .. math:: U = 1/\cos\beta - \cos\beta = \tan\beta \sin\beta

    Parameters
    ----------
    angle : float
        Joint angle, within a right angle. [rad]

    Returns
    -------
    float
        Fluctuation. [-]

    References
    ----------
    [1] value/P1, which keeps smooth machines to 0.0027.

    Examples
    --------
    >>> round(fluctuation(arith.radians(15.0)), 4)
    0.0694
    """
    _check_angle(angle)
    return arith.tan(angle) * arith.sin(angle)


def angle_for_fluctuation(swing: float) -> float:
    r"""Joint angle that gives a fluctuation: `fluctuation` backward.

    .. math:: \cos\beta = \frac{-U + \sqrt{U^2 + 4}}{2}

    Parameters
    ----------
    swing : float
        Fluctuation, 0 or more. [-]

    Returns
    -------
    float
        Joint angle. [rad]

    Raises
    ------
    ValueError
        If the fluctuation is below zero.

    References
    ----------
    [1] value/P1.

    Examples
    --------
    >>> round(arith.degrees(angle_for_fluctuation(0.0027)), 2)
    2.98
    """
    if swing < 0.0:
        raise ValueError("A fluctuation can't be below zero.")
    # sin^2 = U cos loses no digits where cos is close to 1.
    cosine = 0.5 * (arith.sqrt(swing * swing + 4.0) - swing)
    return arith.atan2(arith.sqrt(swing * cosine), cosine)


def residual_angle(first: float, second: float, yokes_in_line: bool = True) -> float:
    r"""Angle of the one joint that would be as uneven as two in a row.

    .. math:: \beta_r = \sqrt{|\beta_1^2 \mp \beta_2^2|}

    Minus with the inner yokes in line, plus with one of them a quarter turn out.

    Parameters
    ----------
    first, second : float
        Angles of the two joints, in one plane. [rad]
    yokes_in_line : bool
        Whether the yokes at both ends of the shaft lie in one plane.

    Returns
    -------
    float
        Equivalent angle. [rad]

    References
    ----------
    [1] value/UJ-memory.

    Examples
    --------
    >>> twenty, fifteen = arith.radians(20.0), arith.radians(15.0)
    >>> round(arith.degrees(residual_angle(twenty, fifteen)), 1)
    13.2
    >>> residual_angle(twenty, -twenty)
    0.0
    """
    square = first * first + (-1.0 if yokes_in_line else 1.0) * second * second
    return arith.sqrt(abs(square))


def two_joint_swing(first: float, second: float, yokes_in_line: bool = True) -> float:
    r"""Exact swing of the speed ratio through two joints in one plane: largest less least.

    The output of two joints with yokes in line turns by
    :math:`\tan\theta_3 = \tan\theta_1 \cos\beta_2 / \cos\beta_1`, which is one joint with
    :math:`\cos\beta_r` equal to the ratio of the two cosines.

    Parameters
    ----------
    first, second : float
        Joint angles, each within a right angle. [rad]
    yokes_in_line : bool
        As in `residual_angle`.

    Returns
    -------
    float
        Fluctuation. [-]

    References
    ----------
    [1] value/DERIVED, from value/UJ-memory.

    Examples
    --------
    >>> round(two_joint_swing(arith.radians(20.0), arith.radians(15.0)), 4)
    0.0551
    """
    _check_angle(first)
    _check_angle(second)
    one, other = arith.cos(first), arith.cos(second)
    ratio = one / other if yokes_in_line else one * other
    return abs(1.0 / ratio - ratio)


def peak_acceleration(speed: float, angle: float) -> float:
    r"""Largest angular acceleration behind one joint.

    .. math:: \dot\omega = \omega^2 \frac{\cos\beta \sin^2\beta \sin 2\theta}
              {(1 - \sin^2\beta \cos^2\theta)^2}

    at the turn where it is largest; close to :math:`\omega^2 \beta^2` for small angles.

    Parameters
    ----------
    speed : float
        Input speed. [rad/s]
    angle : float
        Joint angle, within a right angle. [rad]

    Returns
    -------
    float
        Angular acceleration. [rad/s2]

    References
    ----------
    [1] value/DERIVED, from value/P0. [2] value/P2 for the use.

    Examples
    --------
    >>> round(peak_acceleration(3000 * arith.pi / 30, arith.radians(5.7623)))
    1000
    """
    _check_angle(angle)
    square = arith.sin(angle) ** 2
    if square == 0.0:
        return 0.0
    outer, inner = 1.0 - 0.5 * square, 0.5 * square
    # The slope is nil where inner c^2 + outer c - 2 inner = 0, c being cos 2 theta; this form
    # of its root keeps the digits at small angles.
    cosine = 4.0 * inner / (outer + arith.sqrt(outer * outer + 8.0 * inner * inner))
    swing = arith.sqrt(1.0 - cosine * cosine) / (outer - inner * cosine) ** 2
    return speed * speed * arith.cos(angle) * square * swing


# Peak acceleration behind the angles that value/P2 prints; its text says 100, a misprint.
SMOOTH_ACCELERATION = 1000.0


@arith.falling
@cache
def angle_for_speed(speed: float, acceleration: float = SMOOTH_ACCELERATION) -> float:
    """Joint angle that keeps the peak angular acceleration to a limit.

    Parameters
    ----------
    speed : float
        Shaft speed, above 0. [rad/s]
    acceleration : float
        Limit of the angular acceleration. [rad/s2]

    Returns
    -------
    float
        Joint angle, below a right angle. [rad]

    Raises
    ------
    ValueError
        If the speed is not above zero.

    References
    ----------
    [1] value/P2.

    Examples
    --------
    >>> round(arith.degrees(angle_for_speed(540 * arith.pi / 30)), 1)
    30.8
    """
    if speed <= 0.0:
        raise ValueError("The shaft speed must be above zero.")
    low, high = 0.0, 0.5 * arith.pi - 1e-9
    for _ in range(50):
        half = 0.5 * (low + high)
        if peak_acceleration(speed, half) > acceleration:
            high = half
        else:
            low = half
    return low
