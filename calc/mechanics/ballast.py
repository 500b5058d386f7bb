"""Ballast: how much weight the axles ask for, by the rules for the front and for pulling.

The letters are those of `axle_loads`.
"""

from calc import arith, tables
from calc.mechanics import bounds

FRONT_SHARE = 0.20
"""Least front axle load, as a share (hitch/H4, hitch/H6)."""
REAR_SHARE = 0.45
"""Least rear axle load with a front implement, as a share (hitch/H4, hitch/H6)."""


def default_rule() -> str:
    """Return the key of the front axle rule that is used unless another is chosen.

    Examples
    --------
    >>> default_rule()
    'tractor'
    """
    return next(row["key"] for row in tables.rows("hitch/twenty_percent_rules") if row["default"])


def front_terms(rule: str, tractor_mass: float, front_axle: float) -> tuple[float, float]:
    """Return the load a rule wants on the front axle: a fixed part and a share of what is added.

    Parameters
    ----------
    rule : str
        Row of the table twenty_percent_rules.
    tractor_mass, front_axle : float
        [kg]

    Returns
    -------
    tuple of float
        The fixed part [kg], and the share of every mass added [-].

    Raises
    ------
    ValueError
        If the rule isn't one for the load on the front axle.
    """
    row = tables.by_key("hitch/twenty_percent_rules", "key").get(rule)
    if row is None or not row["front_share"] or row["base"] == "implement":
        raise ValueError(f"{rule!r} is not a rule for the load on the front axle.")
    share = float(row["front_share"])
    if row["base"] == "front_axle":
        return share * front_axle, 0.0
    return share * tractor_mass, share if row["base"] == "combined" else 0.0


def front_load_required(
    tractor_mass: float, front_axle: float, added_mass: float, rule: str = "tractor"
) -> float:
    """Return the load that a rule wants left on the front axle.

    Parameters
    ----------
    tractor_mass, front_axle : float
        See the head of this module. [kg]
    added_mass : float
        Everything mounted on the tractor, front and rear, 0 or more. [kg]
    rule : str
        A `key` of the table twenty_percent_rules that speaks of the front axle.

    Returns
    -------
    float
        Least front axle load. [kg]

    Raises
    ------
    ValueError
        When the rule isn't one for the front axle.

    References
    ----------
    .. [1] The source column of the table twenty_percent_rules.

    Examples
    --------
    >>> front_load_required(1500.0, 600.0, 600.0)
    300.0
    >>> front_load_required(1500.0, 600.0, 600.0, "combined")
    420.0
    """
    fixed, each = front_terms(rule, tractor_mass, front_axle)
    return fixed + each * added_mass


def front_ballast_needed(
    tractor_mass: float,
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    rear_mass: float,
    front_ahead: float,
    rule: str = "tractor",
) -> float:
    r"""Return the front ballast that keeps enough load on the front axle.

    .. math::
        I_{F,min} = \frac{I_R (c + d) - T_F b + 0.2\,T_E b}{a + b}

    and for a share of tractor and equipment together, s:

    .. math::
        I_F = \frac{I_R (c + d) - T_F b + s\,(T_E + I_R)\,b}{a + b - s\,b}

    Parameters
    ----------
    tractor_mass, front_axle, wheelbase, hitch_distance, cg_distance : float
        See the head of this module. [kg, kg, m, m, m]
    rear_mass, front_ahead : float
        See the head of this module; the ballast goes at `front_ahead`. [kg, m]
    rule : str
        As for `front_load_required`.

    Returns
    -------
    float
        Front ballast, 0 when none is needed. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range or the rule isn't one for the front axle.

    References
    ----------
    .. [1] hitch/H4, hitch/H5, hitch/H6; the second form hitch/DERIVED.

    Examples
    --------
    >>> round(front_ballast_needed(1500.0, 600.0, 1.75, 0.80, 0.70, 450.0, 0.75), 1)
    60.0
    >>> round(front_ballast_needed(1500.0, 600.0, 1.75, 0.80, 0.70, 600.0, 0.75, "combined"))
    272
    """
    bounds.check_geometry(
        wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, rear_mass
    )
    bounds.check_geometry(wheelbase, front_ahead)
    fixed, each = front_terms(rule, tractor_mass, front_axle)
    short = (
        rear_mass * (hitch_distance + cg_distance)
        - front_axle * wheelbase
        + (fixed + each * rear_mass) * wheelbase
    )
    return arith.max(short / (front_ahead + wheelbase - each * wheelbase), 0.0)


def rear_ballast_needed(
    tractor_mass: float,
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    front_mass: float,
    front_ahead: float,
    rear_share: float = REAR_SHARE,
) -> float:
    r"""Return the rear ballast that a front implement asks for.

    .. math:: I_{R,min} = \frac{I_F a - T_R b + 0.45\,T_E b}{b + c + d}

    Parameters
    ----------
    tractor_mass, front_axle, wheelbase, hitch_distance, cg_distance : float
        See the head of this module; the ballast goes at `cg_distance`. [kg, kg, m, m, m]
    front_mass, front_ahead : float
        See the head of this module. [kg, m]
    rear_share : float
        Least share of the tractor's own mass on the rear axle; some manuals leave it
        to a table. [fraction]

    Returns
    -------
    float
        Rear ballast, 0 when none is needed. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/H4, hitch/H5, hitch/H6.

    Examples
    --------
    >>> round(rear_ballast_needed(1500.0, 600.0, 1.75, 0.80, 0.70, 600.0, 1.10), 1)
    81.9
    """
    bounds.check_geometry(
        wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, front_mass
    )
    bounds.check_geometry(wheelbase, front_ahead, tractor_mass - front_axle)
    short = (
        front_mass * front_ahead
        - (tractor_mass - front_axle) * wheelbase
        + rear_share * tractor_mass * wheelbase
    )
    return arith.max(short / (wheelbase + hitch_distance + cg_distance), 0.0)


def target_mass(power_hp: float, pounds_per_hp: float) -> float:
    """Return the tractor mass that a weight target asks for.

    Parameters
    ----------
    power_hp : float
        Power in the target's own terms (PTO or engine), more than 0. [hp]
    pounds_per_hp : float
        Target from the table weight_targets. [lb/hp]

    Returns
    -------
    float
        Mass. [lb]

    Raises
    ------
    ValueError
        When an input isn't positive.

    References
    ----------
    .. [1] hitch/W8. Meant for draft work with row-crop tractors, not for mowing.

    Examples
    --------
    >>> target_mass(180.0, 130.0)
    23400.0
    """
    if power_hp <= 0.0 or pounds_per_hp <= 0.0:
        raise ValueError("Power and target must be more than 0.")
    return power_hp * pounds_per_hp


def wheel_slip(turns_free: float, turns_loaded: float) -> float:
    r"""Return the slip of driven wheels over one distance.

    .. math:: s = (n_{loaded} - n_{free}) / n_{loaded}

    Parameters
    ----------
    turns_free : float
        Turns of a driven wheel without load, more than 0. [-]
    turns_loaded : float
        Turns under load over the same distance, at least as many. [-]

    Returns
    -------
    float
        Slip. [fraction]

    Raises
    ------
    ValueError
        When the loaded wheel makes fewer turns.

    References
    ----------
    .. [1] hitch/H12. Dividing by the free turns, as some pages do, gives too much.

    Examples
    --------
    >>> round(wheel_slip(8.5, 10.0), 3)
    0.15
    """
    if not 0.0 < turns_free <= turns_loaded:
        raise ValueError("Under load a wheel makes at least as many turns as without.")
    return (turns_loaded - turns_free) / turns_loaded
