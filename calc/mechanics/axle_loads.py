"""What the axles of a tractor carry with what is mounted, carried or pulled.

Level ground, at rest, implement raised: braking, bumps, slopes and a loader take more.
The same letters everywhere, here as in `ballast` and `carried_mass`:

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

from calc.mechanics import bounds


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
    bounds.check_geometry(wheelbase, front_axle, hitch_distance, cg_distance, rear_mass, front_mass)
    bounds.check_geometry(wheelbase, front_ahead)
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
    bounds.check_geometry(1.0, tractor_mass, rear_mass, front_mass)
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
    bounds.check_geometry(wheelbase, front_axle, tractor_mass)
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
    bounds.check_geometry(
        wheelbase, hitch_distance, cg_distance, rear_mass, front_mass, front_ahead
    )
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
    bounds.check_geometry(wheelbase)
    front = front_axle
    rear = rear_axle
    for mass, ahead in added:
        front += mass * ahead / wheelbase
        rear += mass * (1.0 - ahead / wheelbase)
    return front, rear


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
    bounds.check_geometry(wheelbase, pull, height)
    return pull * height / wheelbase
