"""Gear and hydrostatic drives: what reaches the axle, what the engine must give, loader cycles."""

from calc import arith, tables


def hydrostatic_efficiency(pump: float, motor: float, final_drive: float = 1.0) -> float:
    """Return the efficiency of a pump, a motor and a final drive in a row.

    Parameters
    ----------
    pump, motor : float
        Overall efficiency (volumetric times mechanical) of each, above 0 to 1. [-]
    final_drive : float
        Efficiency of the gears behind the motor, above 0 to 1. [-]

    Returns
    -------
    float
        Axle power over pump shaft power. [-]

    Raises
    ------
    ValueError
        When an efficiency is not above 0 and at most 1.

    Examples
    --------
    >>> round(hydrostatic_efficiency(0.88, 0.88, 0.96), 3)
    0.743

    References
    ----------
    .. [1] power/GENERAL-memory.
    """
    for part in (pump, motor, final_drive):
        if not 0.0 < part <= 1.0:
            raise ValueError("An efficiency must be above 0 and at most 1.")
    return pump * motor * final_drive


def efficiency_from_test(
    drawbar_power: float, pto_power: float, tractive_efficiency: float
) -> float:
    """Return the transmission efficiency behind a drawbar test on concrete.

    eta = (P_drawbar / P_pto) / TE

    Parameters
    ----------
    drawbar_power, pto_power : float
        Maximum power of the same tractor at the drawbar and at the power take-off. [W]
    tractive_efficiency : float
        Drawbar power over axle power on the test track, above 0 to 1. [-]

    Returns
    -------
    float
        Axle power over power take-off equivalent power. [-]

    Examples
    --------
    >>> round(efficiency_from_test(90.0, 105.0, 0.93), 2)
    0.92

    References
    ----------
    .. [1] power/S33: one engine tested with a gear and with a hydrostatic drive.
    """
    if not 0.0 < tractive_efficiency <= 1.0:
        raise ValueError("Tractive efficiency must be above 0 and at most 1.")
    return drawbar_power / pto_power / tractive_efficiency


def drive_line(full_load_efficiency: float, drag_power: float, full_power: float) -> float:
    """Return the slope of the straight line P_axle = slope P_in - P_drag through full load.

    A drive loses a share of what it carries and a drag that is there whatever it carries, so
    a constant efficiency flatters it at part load.

    Parameters
    ----------
    full_load_efficiency : float
        Axle power over input power at full power, above 0 to 1. [-]
    drag_power : float
        Power lost at no load, 0 or more. [W]
    full_power : float
        Input power at which the efficiency was found, above 0. [W]

    Returns
    -------
    float
        The slope, at most 1. [-]

    Raises
    ------
    ValueError
        When the drag is more than the whole loss at full power.

    References
    ----------
    .. [1] power/S14: field study that finds a load-independent drag.
    """
    slope = full_load_efficiency + drag_power / full_power
    if slope > 1.0 + 1e-12:
        raise ValueError("The drag is more than the whole loss at full power.")
    return slope


def axle_power(input_power: float, slope: float, drag_power: float) -> float:
    """Return the power at the axle, never below 0: slope P_in - P_drag.

    Parameters
    ----------
    input_power : float
        Power into the transmission. [W]
    slope : float
        From `drive_line`. [-]
    drag_power : float
        Power lost at no load. [W]

    Returns
    -------
    float
        Axle power. [W]
    """
    return arith.max(0.0, slope * input_power - drag_power)


def input_power(axle: float, slope: float, drag_power: float) -> float:
    """Return the power that must enter the transmission for a given axle power.

    The inverse of `axle_power`; at no axle power the drag is still paid.

    Parameters
    ----------
    axle : float
        Axle power wanted, 0 or more. [W]
    slope : float
        From `drive_line`. [-]
    drag_power : float
        Power lost at no load. [W]

    Returns
    -------
    float
        Input power. [W]
    """
    return (axle + drag_power) / slope


def leg_time(distance: float, speed: float, acceleration: float) -> float:
    """Return the time to cover a leg from rest to rest.

    d/v + v/a where the speed is reached, else 2 sqrt(d/a).

    Parameters
    ----------
    distance : float
        Length of the leg, 0 or more. [m]
    speed : float
        Travel speed, above 0. [m/s]
    acceleration : float
        Rate of speeding up and slowing down, above 0. [m/s2]

    Returns
    -------
    float
        Time. [s]

    Examples
    --------
    >>> leg_time(10.0, 2.0, 1.0)
    7.0

    References
    ----------
    .. [1] power/DERIVED: kinematics.
    """
    if distance < 0.0 or speed <= 0.0 or acceleration <= 0.0:
        raise ValueError("Distance must not be negative; speed and acceleration must be above 0.")
    run_up = arith.min(distance, speed * speed / acceleration)  # speeding up and slowing down
    return 2.0 * arith.sqrt(run_up / acceleration) + (distance - run_up) / speed


def loader_cycle_time(
    haul: float,
    back_off: float,
    speed: float,
    acceleration: float,
    reversal_time: float,
    bucket_time: float,
) -> float:
    """Return the time of one loader cycle: dig, back off, haul, dump, back off, return.

    Four legs (two of the back-off length, two of the haul length) and four changes of
    direction.

    Parameters
    ----------
    haul : float
        Distance driven forward to the place of dumping, and forward again to the pile. [m]
    back_off : float
        Distance backed away from the pile, and from the place of dumping. [m]
    speed : float
        Travel speed. [m/s]
    acceleration : float
        Rate of speeding up and slowing down. [m/s2]
    reversal_time : float
        Time the drive takes for one change of direction, the tractor standing. [s]
    bucket_time : float
        Filling, raising, dumping and lowering that isn't done while moving. [s]

    Returns
    -------
    float
        Time of a cycle. [s]

    References
    ----------
    .. [1] power/DERIVED: kinematics. No measured comparison of drives was found.
    """
    legs = 2.0 * leg_time(haul, speed, acceleration) + 2.0 * leg_time(back_off, speed, acceleration)
    return legs + 4.0 * reversal_time + bucket_time


def full_load_efficiency(kind: str, basis: str) -> float:
    """Return the full-load efficiency of a drive, from the table drive_efficiency.

    Parameters
    ----------
    kind : str
        "gear" or "hydrostatic".
    basis : str
        Which published figures: "drawbar tests" or "component figures".

    Returns
    -------
    float
        Axle power over power take-off equivalent power. [-]
    """
    for row in tables.rows("power/drive_efficiency"):
        if row["drive"] == kind and row["basis"] == basis:
            return float(row["efficiency"])
    raise LookupError(f"No efficiency is kept for {kind!r} by {basis!r}.")
