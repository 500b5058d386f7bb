"""Lawn work: spring tines, ground pressure, depth against sprinkler heads, aerator holes."""

from calc import arith, si, tables

STEEL_MODULUS = 207e9


def torsion_rate(
    wire: float,
    coil: float,
    turns: float,
    modulus: float = STEEL_MODULUS,
    friction: bool = False,
) -> float:
    """Return the rate of a coiled spring tine: k = E d^4 / (64 D N).

    Spring makers often print E d^4 / (10.8 D N) for each whole turn, which allows for
    friction between the coils; 64 / (2 pi) is 10.19.

    Parameters
    ----------
    wire : float
        Wire diameter, less than the coil. [m]
    coil : float
        Mean coil diameter. [m]
    turns : float
        Active turns. [-]
    modulus : float
        Modulus of elasticity. [Pa]
    friction : bool
        Whether to use the makers' 10.8.

    Returns
    -------
    float
        Torque for each radian. [N m/rad]

    Raises
    ------
    ValueError
        When a size is not above 0 or the wire is thicker than the coil.

    Examples
    --------
    >>> round(torsion_rate(0.004, 0.025, 5), 2)
    6.62

    References
    ----------
    .. [1] value/SPRING-memory.
    .. [2] value/T1: the makers' form.
    """
    if arith.min(wire, coil, turns, modulus) <= 0.0 or wire >= coil:
        raise ValueError("Sizes must be above 0, and the wire thinner than the coil.")
    divisor = 10.8 * 2.0 * arith.pi if friction else 64.0
    return modulus * wire**4 / (divisor * coil * turns)


def tine_force(rate: float, tip_deflection: float, leg: float) -> float:
    """Return the force at the tip of a tine that is pushed back: k x / L^2.

    Parameters
    ----------
    rate : float
        Spring rate of the coil. [N m/rad]
    tip_deflection : float
        How far the tip is pushed back, up to about a third of the leg. [m]
    leg : float
        Length from coil to tip. [m]

    Returns
    -------
    float
        Force. [N]

    Examples
    --------
    >>> round(tine_force(6.62, 0.020, 0.150), 1)
    5.9

    References
    ----------
    .. [1] value/SPRING-memory.
    """
    if leg <= 0.0:
        raise ValueError("The leg must be longer than 0.")
    return rate * tip_deflection / leg**2


def tine_deflection(rate: float, force: float, leg: float) -> float:
    """Return how far a force pushes back the tip of a tine, the inverse of `tine_force`. [m]"""
    return force * leg**2 / rate


def mean_pressure(inflation: float, rule: str) -> float:
    """Return the mean pressure under a tire on soft ground.

    Parameters
    ----------
    inflation : float
        Inflation pressure. [Pa]
    rule : str
        A key of the table contact_pressure_rules: "equal", "carcass" or "tenth".

    Returns
    -------
    float
        Mean contact pressure. [Pa]

    Examples
    --------
    >>> round(mean_pressure(82737.0, "tenth") / 1000)  # 12 psi, in kPa
    91

    References
    ----------
    .. [1] value/L7a, value/L7b, tires/S9.
    """
    row = tables.by_key("lawn/contact_pressure_rules", "key")[rule]
    return inflation * float(row["times"]) + float(row["plus_kpa"]) * 1000.0


def inflation_for(pressure: float, rule: str) -> float:
    """Return the inflation that gives a mean pressure, the inverse of `mean_pressure`. [Pa]

    Parameters
    ----------
    pressure : float
        Mean pressure under the tire. [Pa]
    rule : str
        A key of the table contact_pressure_rules.
    """
    row = tables.by_key("lawn/contact_pressure_rules", "key")[rule]
    return (pressure - float(row["plus_kpa"]) * 1000.0) / float(row["times"])


def print_area(width: float, diameter: float, rim: float, deflection_ratio: float = 0.20) -> float:
    """Return the largest print of a tire that is flattened by its normal share.

    An ellipse as wide as the tire and as long as the chord that the flattening cuts off:
    A = (pi/4) b 2 sqrt(delta (D - delta)).

    Parameters
    ----------
    width : float
        Section width. [m]
    diameter : float
        Overall diameter. [m]
    rim : float
        Rim diameter, less than the overall diameter. [m]
    deflection_ratio : float
        Flattening over section height, 0.05 to 0.30. [-]

    Returns
    -------
    float
        Print area on soft ground. [m2]

    References
    ----------
    .. [1] value/DERIVED: geometry; the normal flattening by power/D497-memory.
    """
    if not 0.05 <= deflection_ratio <= 0.30:
        raise ValueError("Flattening over section height must be 0.05 to 0.30.")
    if rim >= diameter or width <= 0.0:
        raise ValueError("The rim must be smaller than the tire.")
    flattening = deflection_ratio * (diameter - rim) / 2.0
    length = 2.0 * arith.sqrt(flattening * (diameter - flattening))
    return arith.pi / 4.0 * width * length


def turf_limit(state: str) -> float:
    """Return the pressure that turf stands in a state of the soil, from turf_limits. [Pa]

    Examples
    --------
    >>> turf_limit("moist")
    100000.0
    """
    return float(tables.by_key("lawn/turf_limits", "state")[state]["limit_kpa"]) * 1000.0


def head_clearance(head_depth: float, tool_depth: float, allowance: float) -> float:
    """Return what is left between a tool and the top of a sprinkler head: s - (z + b).

    Parameters
    ----------
    head_depth : float
        Top of the head below the soil today; negative when it stands proud. [m]
    tool_depth : float
        How deep the tool works. [m]
    allowance : float
        Bounce, sinkage and settling. [m]

    Returns
    -------
    float
        Clearance; below 0 the tool can strike. [m]

    References
    ----------
    .. [1] value/DERIVED.
    """
    return head_depth - (tool_depth + allowance)


def holes_per_area(spacing_along: float, spacing_across: float) -> float:
    """Return the aerator holes of one pass: 1 / (a b).

    Parameters
    ----------
    spacing_along, spacing_across : float
        Distances between holes, above 0. [m]

    Returns
    -------
    float
        Holes. [1/m2]

    Examples
    --------
    >>> round(holes_per_area(4 * 0.0254, 6 * 0.0254) * 0.3048**2, 1)  # a square foot
    6.0
    """
    if spacing_along <= 0.0 or spacing_across <= 0.0:
        raise ValueError("The spacing must be above 0.")
    return 1.0 / (spacing_along * spacing_across)


def passes_for(target: float, each_pass: float) -> int:
    """Return the whole passes that reach a target, at least 1.

    Parameters
    ----------
    target, each_pass : float
        Holes wanted and holes of one pass, in one unit. [1/m2]

    Returns
    -------
    int
        Passes.
    """
    if target <= 0.0 or each_pass <= 0.0:
        raise ValueError("Target and yield of a pass must be above 0.")
    return arith.max(1, arith.ceil(target / each_pass - 1e-9))


def thatch_passes(thatch: float) -> int:
    """Return how often to rake a lawn by the depth of its brown layer.

    None up to 1/2 in, one pass up to 2 cm, two beyond (spring and fall, or crosswise).

    Parameters
    ----------
    thatch : float
        Depth of the brown layer between soil and grass, not the height of the grass. [m]

    Returns
    -------
    int
        Passes.

    Examples
    --------
    >>> thatch_passes(0.010), thatch_passes(0.016), thatch_passes(0.025)
    (0, 1, 2)

    References
    ----------
    .. [1] value/L1, value/L3c.
    """
    if thatch < 0.0:
        raise ValueError("The thatch can't be less than 0.")
    if thatch <= 0.5 * si.INCH:
        return 0
    return 1 if thatch <= 0.020 else 2
