"""What a tractor may carry behind before its front gets too light.

The letters are those of `axle_loads`; the rules for the front those of `ballast`.
"""

from calc import arith
from calc.mechanics import ballast, bounds


def greatest_rear_mass(
    tractor_mass: float,
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
    rule: str = "tractor",
) -> float:
    r"""Return the heaviest rear implement that leaves enough load on the front axle.

    .. math:: I_R = \frac{T_F b + I_F (a + b) - 0.2\,T_E b}{c + d}

    Parameters
    ----------
    tractor_mass, front_axle, wheelbase, hitch_distance, cg_distance : float
        See the head of this module. [kg, kg, m, m, m]
    front_mass, front_ahead : float
        See the head of this module. [kg, m]
    rule : str
        As for `front_load_required`.

    Returns
    -------
    float
        Greatest rear mass, 0 when even the bare tractor is short. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range or the rule isn't one for the front axle.

    References
    ----------
    .. [1] hitch/DERIVED, the ballast formula of hitch/H4 solved for the implement.

    Examples
    --------
    >>> round(greatest_rear_mass(1500.0, 600.0, 1.75, 0.80, 0.70), 1)
    350.0
    """
    bounds.check_geometry(
        wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, front_mass
    )
    bounds.check_geometry(wheelbase, front_ahead)
    fixed, each = ballast.front_terms(rule, tractor_mass, front_axle)
    spare = _front_spare(front_axle, wheelbase, front_mass, front_ahead, fixed, each)
    arm = hitch_distance + cg_distance + each * wheelbase
    if arm <= 0.0:
        raise ValueError("The implement must lie behind the rear axle.")
    return arith.max(spare / arm, 0.0)


def _front_spare(
    front_axle: float,
    wheelbase: float,
    front_mass: float,
    front_ahead: float,
    fixed: float,
    each: float,
) -> float:
    """Return the moment about the rear axle left above a rule, before the implement. [kg m]"""
    return (
        front_axle * wheelbase
        + front_mass * (front_ahead + wheelbase)
        - (fixed + each * front_mass) * wheelbase
    )


def greatest_cg_distance(
    tractor_mass: float,
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    rear_mass: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
    rule: str = "tractor",
) -> float:
    """Return how far behind the hitch points an implement of some mass may balance.

    Parameters
    ----------
    tractor_mass, front_axle, wheelbase, hitch_distance : float
        See the head of this module. [kg, kg, m, m]
    rear_mass : float
        See the head of this module; more than 0. [kg]
    front_mass, front_ahead : float
        See the head of this module. [kg, m]
    rule : str
        As for `front_load_required`.

    Returns
    -------
    float
        Greatest distance; 0 when the implement is too heavy even at the hitch. [m]

    Raises
    ------
    ValueError
        When an input is out of its range or the rule isn't one for the front axle.

    References
    ----------
    .. [1] hitch/DERIVED, the ballast formula of hitch/H4 solved for the distance.

    Examples
    --------
    >>> round(greatest_cg_distance(1500.0, 600.0, 1.75, 0.80, 350.0), 3)
    0.7
    """
    bounds.check_geometry(
        wheelbase, tractor_mass, front_axle, hitch_distance, front_mass, front_ahead
    )
    if rear_mass <= 0.0:
        raise ValueError("The mass of the implement must be more than 0.")
    fixed, each = ballast.front_terms(rule, tractor_mass, front_axle)
    spare = _front_spare(front_axle, wheelbase, front_mass, front_ahead, fixed, each)
    return arith.max(spare / rear_mass - each * wheelbase - hitch_distance, 0.0)


def tractor_mass_needed(
    front_share: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    rear_mass: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
    rule: str = "tractor",
) -> float:
    """Return the tractor mass that would carry an implement with its front axle loaded enough.

    Parameters
    ----------
    front_share : float
        Share of the tractor's mass on its front axle, implement off. [fraction]
    wheelbase, hitch_distance, cg_distance, rear_mass : float
        See the head of this module. [m, m, m, kg]
    front_mass, front_ahead : float
        See the head of this module. [kg, m]
    rule : str
        As for `front_load_required`.

    Returns
    -------
    float
        Least tractor mass with the same share and wheelbase; infinite when the share
        itself is too small; 0 when any mass would do. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range or the rule isn't one for the front axle.

    References
    ----------
    .. [1] hitch/DERIVED, the ballast formula of hitch/H4 solved for the tractor.

    Examples
    --------
    >>> round(tractor_mass_needed(0.40, 1.75, 0.80, 0.70, 450.0), 1)
    1928.6
    """
    bounds.check_geometry(
        wheelbase, front_share, hitch_distance, cg_distance, rear_mass, front_mass
    )
    bounds.check_geometry(wheelbase, front_ahead)
    per_kg, each = ballast.front_terms(rule, 1.0, front_share)
    moment = rear_mass * (hitch_distance + cg_distance) - front_mass * (front_ahead + wheelbase)
    wanted = moment / wheelbase + each * (rear_mass + front_mass)
    if wanted <= 0.0:
        return 0.0
    return wanted / (front_share - per_kg) if front_share > per_kg else float("inf")
