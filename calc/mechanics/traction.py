"""Pull and slip of a driven tire on soil, after Brixius."""

from calc import arith, tables

USUAL_SLIP_MOST = 0.15
"""Top of the band of slip that suits the user, 8 to 15 %; power/D497-memory [-]."""


def mobility_number(
    cone_index: float,
    section_width: float,
    overall_diameter: float,
    wheel_load: float,
    deflection_ratio: float = 0.20,
) -> float:
    """Return the mobility number of a tire on a soil.

    Bn = (CI b d / W) (1 + 5 delta/h) / (1 + 3 b/d)

    Parameters
    ----------
    cone_index : float
        Soil strength by cone penetrometer, above 0. [Pa]
    section_width : float
        Tire section width. [m]
    overall_diameter : float
        Tire overall diameter; width over diameter 0.1 to 0.7. [m]
    wheel_load : float
        Dynamic load on the wheel, above 0. [N]
    deflection_ratio : float
        Tire deflection over section height, 0.10 to 0.30. [-]

    Returns
    -------
    float
        Mobility number. [-]

    Raises
    ------
    ValueError
        Outside the range that the equation was fitted on.

    Examples
    --------
    >>> round(mobility_number(1e6, 0.345, 1.31, 6865.0), 1)
    73.6

    References
    ----------
    .. [1] power/D497-memory.
    .. [2] power/S37: range of validity.
    """
    shape = section_width / overall_diameter
    if not 0.1 <= shape <= 0.7:
        raise ValueError("Tire width over diameter must be 0.1 to 0.7.")
    if not 0.10 <= deflection_ratio <= 0.30:
        raise ValueError("Tire deflection over section height must be 0.10 to 0.30.")
    if cone_index <= 0.0 or wheel_load <= 0.0:
        raise ValueError("Cone index and wheel load must be above 0.")
    area = cone_index * section_width * overall_diameter / wheel_load
    return area * (1.0 + 5.0 * deflection_ratio) / (1.0 + 3.0 * shape)


def motion_resistance_ratio(mobility: float, slip: float, radial: bool = False) -> float:
    """Return motion resistance over wheel load.

    Bias ply: 1/Bn + 0.04 + 0.5 s / sqrt(Bn). Radial: 0.9/Bn + 0.0325 + 0.5 s / sqrt(Bn).

    Parameters
    ----------
    mobility : float
        Mobility number, above 0. [-]
    slip : float
        Slip, 0 to 1. [-]
    radial : bool
        Whether the tire is a radial.

    Returns
    -------
    float
        Motion resistance ratio. [-]

    References
    ----------
    .. [1] power/D497-memory.
    """
    share, floor = (0.9, 0.0325) if radial else (1.0, 0.04)
    return share / mobility + floor + 0.5 * slip / arith.sqrt(mobility)


def gross_traction_ratio(mobility: float, slip: float, radial: bool = False) -> float:
    """Return axle torque over rolling radius and wheel load.

    0.88 (1 - e^(-0.1 Bn)) (1 - e^(-7.5 s)) + 0.04; for a radial 9.5 and 0.0325.

    Parameters
    ----------
    mobility : float
        Mobility number, above 0. [-]
    slip : float
        Slip, 0 to 1. [-]
    radial : bool
        Whether the tire is a radial.

    Returns
    -------
    float
        Gross traction ratio. [-]

    References
    ----------
    .. [1] power/D497-memory.
    """
    rise, floor = (9.5, 0.0325) if radial else (7.5, 0.04)
    return 0.88 * -arith.expm1(-0.1 * mobility) * -arith.expm1(-rise * slip) + floor


def net_traction_ratio(mobility: float, slip: float, radial: bool = False) -> float:
    """Return pull over wheel load: the gross ratio less the motion resistance ratio. [-]

    Examples
    --------
    >>> round(net_traction_ratio(55.0, 0.15), 3)
    0.564
    """
    return gross_traction_ratio(mobility, slip, radial) - motion_resistance_ratio(
        mobility, slip, radial
    )


def tractive_efficiency(mobility: float, slip: float, radial: bool = False) -> float:
    """Return drawbar power over axle power: (1 - s) times net over gross ratio. [-]"""
    return (
        (1.0 - slip)
        * net_traction_ratio(mobility, slip, radial)
        / gross_traction_ratio(mobility, slip, radial)
    )


@arith.falling
def best_slip(mobility: float, radial: bool = False) -> float:
    """Return the slip at which the tractive efficiency is highest, by golden section.

    Parameters
    ----------
    mobility : float
        Mobility number, 5 or more. [-]
    radial : bool
        Whether the tire is a radial.

    Returns
    -------
    float
        Slip. [-]
    """
    if mobility < 5.0:
        raise ValueError("Below a mobility number of 5 the tire hardly moves itself.")
    ratio = (arith.sqrt(5.0) - 1.0) / 2.0
    low, high = 0.005, 0.5
    for _ in range(32):
        left, right = high - ratio * (high - low), low + ratio * (high - low)
        if tractive_efficiency(mobility, left, radial) > tractive_efficiency(
            mobility, right, radial
        ):
            high = right
        else:
            low = left
    return (low + high) / 2.0


def soil_mobility_number(soil: str) -> float:
    """Return the usual mobility number of a soil from the table soil_mobility.

    Parameters
    ----------
    soil : str
        "hard", "firm", "tilled" or "soft".

    Returns
    -------
    float
        Mobility number. [-]
    """
    return float(tables.by_key("power/soil_mobility", "soil")[soil]["mobility_number"])


def pull_limit(driven_load: float, net_ratio: float) -> float:
    """Return the pull that the load on the driven wheels can hold.

    Parameters
    ----------
    driven_load : float
        Dynamic load on the driven wheels. [N]
    net_ratio : float
        Net traction ratio at the slip accepted. [-]

    Returns
    -------
    float
        Pull. [N]
    """
    return arith.max(0.0, driven_load * net_ratio)


ON_CONCRETE = 0.93  # tractive efficiency of the two tests on a concrete track; power/S33
_SURFACES = {"hard": "concrete", "firm": "firm", "tilled": "tilled", "soft": "soft"}
_TRACTORS = {"two": "Two-wheel drive", "four": "Front-wheel assist"}


def ground_share(soil: str, driven: str) -> float:
    """Return the share of the axle's power that reaches the drawbar, by ground and drive.

    On concrete it is what the tests there gave; elsewhere it falls as the published ratios of
    drawbar to PTO power do, which differ for two and four driven wheels.

    .. math:: 0.93\\, r_{soil} / r_{concrete}

    Parameters
    ----------
    soil : str
        "hard" (concrete), "firm", "tilled" or "soft".
    driven : str
        "two" or "four" wheels.

    Returns
    -------
    float
        Share. [-]

    Examples
    --------
    >>> ground_share("hard", "two"), round(ground_share("soft", "two"), 2)
    (0.93, 0.59)

    References
    ----------
    .. [1] power/S8: drawbar ratios. power/S33: two tests on concrete.
    """
    row = tables.by_key("power/drawbar_ratios", "tractor")[_TRACTORS[driven]]
    return ON_CONCRETE * float(row[_SURFACES[soil]]) / float(row["concrete"])
