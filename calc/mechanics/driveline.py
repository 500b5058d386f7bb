"""PTO driveline: how even it turns, how long it must be, and what breaks first."""

from functools import cache
from typing import NamedTuple

from calc import arith, tables

INCH = 0.0254
PSI = 6894.757293168361


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


def joint_angle(rise: float, run: float) -> float:
    r"""Angle of the shaft to a level stub.

    .. math:: \beta = \arctan(\text{rise} / \text{run})

    Parameters
    ----------
    rise : float
        Height of the implement's shaft above the tractor's. [m]
    run : float
        Level distance between the two, above 0. [m]

    Returns
    -------
    float
        Angle, positive when the implement is higher. [rad]

    Raises
    ------
    ValueError
        If the distance is not above zero.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> round(arith.degrees(joint_angle(0.25, 0.9)), 1)
    15.5
    """
    if run <= 0.0:
        raise ValueError("The distance between the two shafts must be above zero.")
    return arith.atan2(rise, run)


def joint_angles(distance: float, rise: float, offset: float, tilt: float) -> tuple[float, float]:
    r"""Angles of the joints at the tractor's end and at the implement's end.

    .. math:: \tan\beta_1 = \frac{\sqrt{y^2 + z^2}}{x}, \quad
              \tan\beta_2 = \frac{\sqrt{y^2 + (z \cos t - x \sin t)^2}}{x \cos t + z \sin t}

    with z the rise, y the offset, and x what they leave of the distance.

    Parameters
    ----------
    distance : float
        Along the shaft, from joint to joint, above 0. [m]
    rise : float
        Height of the implement's shaft above the stub. [m]
    offset : float
        Implement's shaft to one side of the stub. [m]
    tilt : float
        Implement's shaft against level, plus when its rear is higher. [rad]

    Returns
    -------
    tuple of float
        Both angles, 0 or more. [rad]

    Notes
    -----
    A rise and an offset that are more than the distance count as a joint at a right angle.

    References
    ----------
    [1] value/DERIVED; for small angles :math:`\sqrt{A^2 + B^2}` of plan and side view [2].
    [2] value/NV-1.

    Examples
    --------
    >>> [round(arith.degrees(a), 1) for a in joint_angles(0.9, 0.25, 0.0, arith.radians(16.1))]
    [16.1, 0.0]
    >>> [round(arith.degrees(a), 1) for a in joint_angles(1.0, 0.15, 0.20, 0.0)]
    [14.5, 14.5]
    """
    aside = arith.hypot(rise, offset)
    along = arith.sqrt(arith.max(0.0, distance * distance - aside * aside))
    sine, cosine = arith.sin(tilt), arith.cos(tilt)
    across = arith.hypot(offset, rise * cosine - along * sine)
    return arith.atan2(aside, along), arith.atan2(across, along * cosine + rise * sine)


class Fit(NamedTuple):
    """How a telescoping shaft sits between its shortest and longest distance.

    Attributes
    ----------
    overlap, closed_clearance : float
        At the longest distance and at the shortest. [m]
    overlap_share : float
        Of the tube. [-]
    """

    overlap: float
    overlap_share: float
    closed_clearance: float


def fit(tube: float, closed_length: float, shortest: float, longest: float) -> Fit:
    r"""Overlap at the longest distance and clearance at the shortest.

    .. math:: X = t - (L_1 - L_c), \quad C = L_2 - L_c

    Parameters
    ----------
    tube : float
        Length of each telescoping tube, above 0. [m]
    closed_length : float
        Shaft pushed fully together, groove to groove, more than the tube. [m]
    shortest, longest : float
        Distances between the two locking grooves, above 0. [m]

    Returns
    -------
    Fit
        Overlap [m], overlap over tube length [-], clearance [m]. Below zero means that the
        halves part, or that the shaft bottoms out.

    Raises
    ------
    ValueError
        If a length is out of range, or the shortest is more than the longest.

    References
    ----------
    [1] hitch/DERIVED, from hitch/H18a and hitch/H18d.

    Examples
    --------
    >>> found = fit(0.560, 0.850, 0.900, 1.150)
    >>> [round(value, 3) for value in found]
    [0.26, 0.464, 0.05]
    """
    if tube <= 0.0 or closed_length < tube:
        raise ValueError("The tube must be longer than zero and shorter than the closed shaft.")
    if not 0.0 < shortest <= longest:
        raise ValueError("The shortest distance must be above zero and no more than the longest.")
    # A shaft longer than the shortest distance can't overlap more than its own tube.
    overlap = arith.min(tube, tube - (longest - closed_length))
    return Fit(overlap, overlap / tube, shortest - closed_length)


class OverlapRule(NamedTuple):
    """One rule for the overlap of the tubes."""

    key: str
    name: str
    length: float
    share: float
    applies: str
    source: str

    def needed(self, tube: float) -> float:
        """Overlap that the rule asks of a tube length [m]. [m]"""
        return arith.max(self.length, self.share * tube)


def overlap_rules() -> tuple[OverlapRule, ...]:
    """Return the rules of the table `driveline_overlap_rules`, the default first.

    Examples
    --------
    >>> overlap_rules()[0].key
    'third_or_150'
    """
    return tuple(
        OverlapRule(
            row["key"],
            row["name"],
            float(row["overlap_m"]),
            float(row["overlap_of_tube"]),
            row["applies"],
            row["source"],
        )
        for row in tables.rows("driveline/driveline_overlap_rules")
    )


def cut_for(closed_length: float, shortest: float, clearance: float) -> float:
    r"""Length to take off each half so that the closed shaft leaves a clearance.

    .. math:: c = \max(0, L_c + C - L_2)

    Parameters
    ----------
    closed_length : float
        Shaft pushed fully together, groove to groove. [m]
    shortest : float
        Shortest distance between the grooves. [m]
    clearance : float
        Clearance to leave. [m]

    Returns
    -------
    float
        Cut, the same from both tubes and both guards. [m]

    References
    ----------
    [1] hitch/H18e.

    Examples
    --------
    >>> round(cut_for(0.900, 0.850, 0.025), 3)
    0.075
    """
    return arith.max(0.0, closed_length + clearance - shortest)


def longest_allowed(tube: float, closed_length: float, overlap: float) -> float:
    """Longest distance at which the tubes still overlap by a length.

    Parameters
    ----------
    tube, closed_length : float
        As in `fit`. [m]
    overlap : float
        Overlap to keep. [m]

    Returns
    -------
    float
        Distance between the grooves. [m]

    References
    ----------
    [1] hitch/DERIVED.

    Examples
    --------
    >>> round(longest_allowed(0.560, 0.850, 0.260), 3)
    1.15
    """
    return closed_length + tube - overlap


def shank_area(diameter: float) -> float:
    r"""Full area of a round bolt: :math:`\pi d^2/4`.

    Parameters
    ----------
    diameter : float
        Bolt diameter, above 0. [m]

    Returns
    -------
    float
        Area. [m2]

    Examples
    --------
    >>> round(shank_area(0.5 * INCH) / INCH**2, 4)
    0.1963
    """
    if diameter <= 0.0:
        raise ValueError("A bolt's diameter must be above zero.")
    return arith.pi / 4.0 * diameter * diameter


def shear_force(shear_strength: float, area: float) -> float:
    r"""Force that shears one plane: :math:`F = \tau A`.

    Parameters
    ----------
    shear_strength : float
        Shear strength of the bolt. [Pa]
    area : float
        Area in the shear plane: shank, or stress area if threads lie in it. [m2]

    Returns
    -------
    float
        Force. [N]

    References
    ----------
    [1] value/P5.

    Examples
    --------
    >>> round(shear_force(44_400 * PSI, 0.141 * INCH**2) / 4.4482216152605)
    6260
    """
    return shear_strength * area


def shear_torque(shear_strength: float, area: float, planes: int, radius: float) -> float:
    r"""Torque at which a shear bolt lets go.

    .. math:: T = n \tau A R

    Parameters
    ----------
    shear_strength : float
        Shear strength of the bolt. [Pa]
    area : float
        Area in each shear plane. [m2]
    planes : int
        Shear planes: 2 for a bolt through a shaft, 1 for a bolt in a flange. [-]
    radius : float
        Shaft radius, or bolt circle radius of a flange, above 0. [m]

    Returns
    -------
    float
        Torque. [N m]

    Raises
    ------
    ValueError
        If a value is out of range.

    Notes
    -----
    Static and new. Real bolts scatter by about a fifth, and fatigue lowers them.

    References
    ----------
    [1] value/P5. [2] value/DERIVED.

    Examples
    --------
    >>> torque = shear_torque(44_400 * PSI, 0.0775 * INCH**2, 2, 0.6875 * INCH)
    >>> round(torque / 1.3558179483314004)
    394
    """
    if planes < 1 or radius <= 0.0:
        raise ValueError("There must be a shear plane, at a radius above zero.")
    return planes * shear_strength * area * radius


class ShearBolt(NamedTuple):
    """A bolt of the tables and the torque it lets go at."""

    size: str
    grade: str
    threads_in_plane: bool
    torque: float


def shear_bolt(
    size: str, grade: str, threads_in_plane: bool, planes: int, radius: float
) -> ShearBolt:
    """Torque at which a bolt of a listed size and grade lets go.

    Parameters
    ----------
    size, grade : str
        Keys of the tables `shear_bolt_sizes` and `shear_bolt_grades`.
    threads_in_plane : bool
        Whether the threads lie in the shear plane.
    planes : int
        As in `shear_torque`. [-]
    radius : float
        As in `shear_torque`. [m]

    Returns
    -------
    ShearBolt
        The bolt and its torque [N m].

    Examples
    --------
    >>> bolt = shear_bolt("3/8", "grade_2", False, 2, 0.6875 * INCH)
    >>> round(bolt.torque / 1.3558179483314004)
    562
    """
    row = tables.by_key("driveline/shear_bolt_sizes", "key")[size]
    strength = float(tables.by_key("driveline/shear_bolt_grades", "key")[grade]["shear_psi"]) * PSI
    if threads_in_plane:
        area = float(row["stress_area_in2"]) * INCH**2
    else:
        area = shank_area(float(row["diameter_in"]) * INCH)
    return ShearBolt(size, grade, threads_in_plane, shear_torque(strength, area, planes, radius))


def bolts_between(
    least: float, most: float, planes: int, radius: float, grades: tuple[str, ...] = ("grade_2",)
) -> tuple[ShearBolt, ...]:
    """Listed bolts that let go between two torques, the weakest first.

    Parameters
    ----------
    least, most : float
        Bounds of the torque. [N m]
    planes : int
        As in `shear_torque`. [-]
    radius : float
        As in `shear_torque`. [m]
    grades : tuple of str
        Grades to choose from.

    Returns
    -------
    tuple of ShearBolt
        Bolts within the bounds, in order of torque.

    Examples
    --------
    >>> [bolt.size for bolt in bolts_between(500.0, 800.0, 2, 0.6875 * INCH)]
    ['5/16', '3/8', '7/16', '3/8']
    """
    found = [
        shear_bolt(row["key"], grade, threads, planes, radius)
        for row in tables.rows("driveline/shear_bolt_sizes")
        for grade in grades
        for threads in (True, False)
    ]
    return tuple(
        sorted(
            (bolt for bolt in found if least <= bolt.torque <= most),
            key=lambda bolt: bolt.torque,
        )
    )


def friction_clutch_torque(
    friction: float, spring_force: float, faces: int, mean_radius: float
) -> float:
    r"""Torque at which a friction clutch slips.

    .. math:: T = \mu N F r_m

    Parameters
    ----------
    friction : float
        Coefficient of friction, above 0. [-]
    spring_force : float
        Force of all springs together. [N]
    faces : int
        Rubbing faces, 1 or more. [-]
    mean_radius : float
        Mean radius of the lining, above 0. [m]

    Returns
    -------
    float
        Torque. [N m]

    Raises
    ------
    ValueError
        If a value is out of range.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> round(friction_clutch_torque(0.35, 5000.0, 4, 0.075))
    525
    """
    if friction <= 0.0 or faces < 1 or mean_radius <= 0.0:
        raise ValueError("A clutch needs friction, at least one face and a radius above zero.")
    return friction * spring_force * faces * mean_radius
