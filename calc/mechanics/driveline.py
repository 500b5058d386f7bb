"""A PTO driveline between tractor and implement: its joint angles, and how long it must be."""

from typing import NamedTuple

from calc import arith, tables


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
