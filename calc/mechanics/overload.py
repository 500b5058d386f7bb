"""What gives way first when a PTO driveline is overloaded: shear bolts and friction clutches."""

from typing import NamedTuple

from calc import arith, si, tables


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
    >>> round(shank_area(0.5 * si.INCH) / si.INCH**2, 4)
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
    >>> round(shear_force(44_400 * si.PSI, 0.141 * si.INCH**2) / 4.4482216152605)
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
    >>> torque = shear_torque(44_400 * si.PSI, 0.0775 * si.INCH**2, 2, 0.6875 * si.INCH)
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
    >>> bolt = shear_bolt("3/8", "grade_2", False, 2, 0.6875 * si.INCH)
    >>> round(bolt.torque / 1.3558179483314004)
    562
    """
    row = tables.by_key("driveline/shear_bolt_sizes", "key")[size]
    strength = (
        float(tables.by_key("driveline/shear_bolt_grades", "key")[grade]["shear_psi"]) * si.PSI
    )
    if threads_in_plane:
        area = float(row["stress_area_in2"]) * si.INCH**2
    else:
        area = shank_area(float(row["diameter_in"]) * si.INCH)
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
    >>> [bolt.size for bolt in bolts_between(500.0, 800.0, 2, 0.6875 * si.INCH)]
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
