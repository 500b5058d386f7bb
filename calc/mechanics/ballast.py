"""Axle loads of a tractor with mounted equipment, and the ballast that it takes.

Level ground, at rest, implement raised: braking, bumps, slopes and a loader take more.
The same letters everywhere:

==========  ======  ===================================================================
parameter   symbol  meaning
==========  ======  ===================================================================
tractor_mass  T_E   tractor as it stands, with driver, fluids and fixed ballast [kg]
front_axle    T_F   its front axle load [kg]
rear_mass     I_R   rear implement or ballast [kg]
front_mass    I_F   front implement or ballast [kg]
front_ahead   a     front axle to the center of gravity of the front mass [m]
wheelbase     b     front axle to rear axle [m]
hitch_distance c    rear axle to the lower hitch points, rearward [m]
cg_distance   d     lower hitch points to the rear mass's center of gravity, rearward [m]
==========  ======  ===================================================================

Loads are in kg: the mass that would weigh as much.
"""

from calc import arith, tables

FRONT_SHARE = 0.20
"""Least front axle load, as a share (hitch/H4, hitch/H6)."""

REAR_SHARE = 0.45
"""Least rear axle load with a front implement, as a share (hitch/H4, hitch/H6)."""

LOADER_REAR_SHARE = 0.20
"""Least rear axle load in loader work, as a share of everything (hitch/H7)."""


def default_rule() -> str:
    """Return the key of the front axle rule that is used unless another is chosen.

    Examples
    --------
    >>> default_rule()
    'tractor'
    """
    return next(row["key"] for row in tables.rows("hitch/twenty_percent_rules") if row["default"])


def _terms(rule: str, tractor_mass: float, front_axle: float) -> tuple[float, float]:
    """Return the load a rule wants on the front axle: a fixed part and a share of what is added."""
    row = tables.by_key("hitch/twenty_percent_rules", "key").get(rule)
    if row is None or not row["front_share"] or row["base"] == "implement":
        raise ValueError(f"{rule!r} is not a rule for the load on the front axle.")
    share = float(row["front_share"])
    if row["base"] == "front_axle":
        return share * front_axle, 0.0
    return share * tractor_mass, share if row["base"] == "combined" else 0.0


def _check_geometry(wheelbase: float, *rest: float) -> None:
    if wheelbase <= 0.0:
        raise ValueError("The wheelbase must be more than 0.")
    if arith.min(rest, default=0.0) < 0.0:
        raise ValueError("Masses and distances must be 0 or more.")


def front_axle_load(
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    rear_mass: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
) -> float:
    r"""Return the front axle load with a rear implement raised.

    .. math:: T_{F,act} = \frac{I_F (a + b) + T_F b - I_R (c + d)}{b}

    Parameters
    ----------
    front_axle, wheelbase, hitch_distance, cg_distance : float
        See the head of this module. [kg, m, m, m]
    rear_mass, front_mass, front_ahead : float
        See the head of this module. [kg, kg, m]

    Returns
    -------
    float
        Front axle load; negative when the front would leave the ground. [kg]

    Raises
    ------
    ValueError
        When the wheelbase isn't positive or a mass or distance is negative.

    References
    ----------
    .. [1] hitch/H4, hitch/H5, hitch/H6. One manual (hitch/H3) prints a minus before
       the tractor's own term, which makes every result negative: a misprint.

    Examples
    --------
    >>> round(front_axle_load(600.0, 1.75, 0.80, 0.70, 450.0), 1)
    214.3
    """
    _check_geometry(wheelbase, front_axle, hitch_distance, cg_distance, rear_mass, front_mass)
    _check_geometry(wheelbase, front_ahead)
    moment = front_mass * front_ahead - rear_mass * (hitch_distance + cg_distance)
    return front_mass + front_axle + moment / wheelbase


def gross_mass(tractor_mass: float, rear_mass: float, front_mass: float = 0.0) -> float:
    """Return the mass on all wheels: front mass, tractor and rear mass.

    Parameters
    ----------
    tractor_mass, rear_mass, front_mass : float
        See the head of this module. [kg]

    Returns
    -------
    float
        Gross mass. [kg]

    References
    ----------
    .. [1] hitch/H4, hitch/H6.

    Examples
    --------
    >>> gross_mass(1500.0, 450.0, 60.0)
    2010.0
    """
    _check_geometry(1.0, tractor_mass, rear_mass, front_mass)
    return front_mass + tractor_mass + rear_mass


def rear_axle_load(
    tractor_mass: float,
    front_axle: float,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    rear_mass: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
) -> float:
    r"""Return the rear axle load with the equipment raised.

    .. math:: T_{R,act} = I_F + T_E + I_R - T_{F,act}

    Parameters
    ----------
    tractor_mass, front_axle, wheelbase, hitch_distance, cg_distance : float
        See the head of this module. [kg, kg, m, m, m]
    rear_mass, front_mass, front_ahead : float
        See the head of this module. [kg, kg, m]

    Returns
    -------
    float
        Rear axle load; negative when the rear would leave the ground. [kg]

    References
    ----------
    .. [1] hitch/H4, hitch/H5, hitch/H6.

    Examples
    --------
    >>> round(rear_axle_load(1500.0, 600.0, 1.75, 0.80, 0.70, 450.0), 1)
    1735.7
    """
    rise = rear_axle_rise(
        wheelbase, hitch_distance, cg_distance, rear_mass, front_mass, front_ahead
    )
    _check_geometry(wheelbase, front_axle, tractor_mass)
    return tractor_mass - front_axle + rise


def rear_axle_rise(
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    rear_mass: float,
    front_mass: float = 0.0,
    front_ahead: float = 0.0,
) -> float:
    r"""Return by how much the equipment raises the rear axle load.

    .. math:: \Delta T_R = I_R + \frac{I_R (c + d) - I_F a}{b}

    Parameters
    ----------
    wheelbase, hitch_distance, cg_distance : float
        See the head of this module. [m]
    rear_mass, front_mass, front_ahead : float
        See the head of this module. [kg, kg, m]

    Returns
    -------
    float
        Rise of the rear axle load: more than the implement's own mass. [kg]

    References
    ----------
    .. [1] hitch/H5.

    Examples
    --------
    >>> round(rear_axle_rise(1.75, 0.80, 0.70, 450.0), 1)
    835.7
    """
    _check_geometry(wheelbase, hitch_distance, cg_distance, rear_mass, front_mass, front_ahead)
    moment = rear_mass * (hitch_distance + cg_distance) - front_mass * front_ahead
    return rear_mass + moment / wheelbase


def axle_loads(
    front_axle: float, rear_axle: float, wheelbase: float, added: list[tuple[float, float]]
) -> tuple[float, float]:
    r"""Return both axle loads after masses are added anywhere along the tractor.

    .. math:: F = T_F + \sum m_i x_i / b, \quad R = T_R + \sum m_i (1 - x_i / b)

    A load in a loader's bucket, weights on a bracket, a box on the hitch: each is a
    mass and a distance ahead of the rear axle, negative behind it. To move a mass,
    add it at the new place and add its negative at the old one.

    Parameters
    ----------
    front_axle : float
        Front axle load before. [kg]
    rear_axle : float
        Rear axle load before. [kg]
    wheelbase : float
        Wheelbase, more than 0. [m]
    added : list of (float, float)
        Mass [kg] and distance ahead of the rear axle [m].

    Returns
    -------
    (float, float)
        Front and rear axle load. [kg]

    Raises
    ------
    ValueError
        When the wheelbase isn't positive.

    References
    ----------
    .. [1] hitch/DERIVED, from the balance of moments.

    Examples
    --------
    >>> [round(load, 1) for load in axle_loads(0.0, 0.0, 1.75, [(45.0, 0.75 + 1.75)])]
    [64.3, -19.3]
    """
    _check_geometry(wheelbase)
    front = front_axle
    rear = rear_axle
    for mass, ahead in added:
        front += mass * ahead / wheelbase
        rear += mass * (1.0 - ahead / wheelbase)
    return front, rear


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
    fixed, each = _terms(rule, tractor_mass, front_axle)
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
    _check_geometry(wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, rear_mass)
    _check_geometry(wheelbase, front_ahead)
    fixed, each = _terms(rule, tractor_mass, front_axle)
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
    _check_geometry(wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, front_mass)
    _check_geometry(wheelbase, front_ahead, tractor_mass - front_axle)
    short = (
        front_mass * front_ahead
        - (tractor_mass - front_axle) * wheelbase
        + rear_share * tractor_mass * wheelbase
    )
    return arith.max(short / (wheelbase + hitch_distance + cg_distance), 0.0)


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
    _check_geometry(wheelbase, tractor_mass, front_axle, hitch_distance, cg_distance, front_mass)
    _check_geometry(wheelbase, front_ahead)
    fixed, each = _terms(rule, tractor_mass, front_axle)
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
    _check_geometry(wheelbase, tractor_mass, front_axle, hitch_distance, front_mass, front_ahead)
    if rear_mass <= 0.0:
        raise ValueError("The mass of the implement must be more than 0.")
    fixed, each = _terms(rule, tractor_mass, front_axle)
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
    _check_geometry(wheelbase, front_share, hitch_distance, cg_distance, rear_mass, front_mass)
    _check_geometry(wheelbase, front_ahead)
    per_kg, each = _terms(rule, 1.0, front_share)
    moment = rear_mass * (hitch_distance + cg_distance) - front_mass * (front_ahead + wheelbase)
    wanted = moment / wheelbase + each * (rear_mass + front_mass)
    if wanted <= 0.0:
        return 0.0
    return wanted / (front_share - per_kg) if front_share > per_kg else float("inf")


def loader_counterweight(
    front_axle: float,
    rear_axle: float,
    wheelbase: float,
    hitch_distance: float,
    payload: float,
    payload_ahead: float,
    share: float = LOADER_REAR_SHARE,
) -> float:
    r"""Return the counterweight on the hitch that a loader's payload asks for.

    .. math:: M = \frac{5 N B + I_2 (P + N - 5 G)}{5 (I_1 + I_2) - I_2}

    which leaves a fifth of everything on the rear axle. Weights in or on the rear
    wheels load the rear axle too, but only a weight behind it relieves the front.

    Parameters
    ----------
    front_axle : float
        Front axle load with loader and empty tool, no counterweight. [kg]
    rear_axle : float
        Rear axle load in the same state; G in the formula. [kg]
    wheelbase : float
        Wheelbase, more than 0; I2 in the formula. [m]
    hitch_distance : float
        Rear axle to the counterweight's center of gravity, 0 or more; the formula
        takes the linkage pins, I1, which is the safe side. [m]
    payload : float
        Load in the tool, pivots level; N. [kg]
    payload_ahead : float
        Front axle to the tool's center of gravity, arms level; B. [m]
    share : float
        Least share of everything on the rear axle. [fraction]

    Returns
    -------
    float
        Counterweight, 0 when none is needed. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/H7, after EN 12525:2000+A2:2010.

    Examples
    --------
    >>> round(loader_counterweight(850.0, 850.0, 1.7, 0.8, 500.0, 1.45), 1)
    13.0
    """
    _check_geometry(wheelbase, hitch_distance, payload, payload_ahead)
    everything = front_axle + rear_axle + payload
    short = payload * payload_ahead + wheelbase * (share * everything - rear_axle)
    return arith.max(short / (hitch_distance + wheelbase * (1.0 - share)), 0.0)


def greatest_payload(
    front_axle: float,
    rear_axle: float,
    wheelbase: float,
    payload_ahead: float,
    share: float = LOADER_REAR_SHARE,
) -> float:
    """Return the largest payload in a loader that leaves enough load on the rear axle.

    Parameters
    ----------
    front_axle, rear_axle : float
        Axle loads with loader, empty tool and whatever hangs on the hitch. [kg]
    wheelbase, payload_ahead : float
        As for `loader_counterweight`. [m]
    share : float
        Least share of everything on the rear axle. [fraction]

    Returns
    -------
    float
        Payload, 0 at least. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/DERIVED, the formula of hitch/H7 solved for the payload.

    Examples
    --------
    >>> round(greatest_payload(850.0, 850.0, 1.7, 1.45))
    484
    """
    _check_geometry(wheelbase, payload_ahead)
    spare = wheelbase * (rear_axle - share * (front_axle + rear_axle))
    return arith.max(spare / (payload_ahead + share * wheelbase), 0.0)


def pull_transfer(pull: float, height: float, wheelbase: float) -> float:
    r"""Return the load that a level pull moves from the front axle to the rear.

    .. math:: \Delta = P\,y / b

    Parameters
    ----------
    pull : float
        Level pull, 0 or more. [N]
    height : float
        Height of the pull above the ground, 0 or more. [m]
    wheelbase : float
        Wheelbase, more than 0. [m]

    Returns
    -------
    float
        Load moved. [N]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/X4.

    Examples
    --------
    >>> pull_transfer(6000.0, 0.39, 1.8)
    1300.0
    """
    _check_geometry(wheelbase, pull, height)
    return pull * height / wheelbase


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
