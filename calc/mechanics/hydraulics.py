"""Hydraulic power and force at a tractor's remotes."""

from calc import arith


def fluid_power(flow: float, pressure: float) -> float:
    r"""Return the power that a flow of oil carries.

    .. math:: P = Q\,p

    In trade units: hp = gpm x psi / 1714.3, kW = L/min x bar / 600.

    Parameters
    ----------
    flow : float
        Flow, 0 or more: what reaches the remotes, steering flow left out. [m3/s]
    pressure : float
        Pressure, 0 or more. [Pa]

    Returns
    -------
    float
        Hydraulic power, before any loss. [W]

    Raises
    ------
    ValueError
        When an input is negative.

    References
    ----------
    .. [1] hitch/X8.

    Examples
    --------
    >>> fluid_power(0.001, 15e6)
    15000.0
    """
    if flow < 0.0 or pressure < 0.0:
        raise ValueError("Flow and pressure must be 0 or more.")
    return flow * pressure


def pump_shaft_power(flow: float, pressure: float, efficiency: float) -> float:
    """Return the shaft power that drives a pump: the power of its oil over the efficiency.

    Parameters
    ----------
    flow : float
        Flow delivered, 0 or more. [m3/s]
    pressure : float
        Pressure, 0 or more. [Pa]
    efficiency : float
        Overall efficiency of the pump, more than 0, at most 1. [fraction]

    Returns
    -------
    float
        Shaft power in. [W]

    Raises
    ------
    ValueError
        When the efficiency isn't a fraction.

    Examples
    --------
    >>> round(pump_shaft_power(0.001, 15e6, 0.8))
    18750
    """
    return fluid_power(flow, pressure) / _fraction(efficiency)


def motor_shaft_power(flow: float, pressure: float, efficiency: float) -> float:
    """Return the shaft power that a motor gives: the power of its oil times the efficiency.

    Parameters
    ----------
    flow : float
        Flow taken, 0 or more. [m3/s]
    pressure : float
        Pressure, 0 or more. [Pa]
    efficiency : float
        Overall efficiency of the motor, more than 0, at most 1. [fraction]

    Returns
    -------
    float
        Shaft power out. [W]

    Raises
    ------
    ValueError
        When the efficiency isn't a fraction.

    Examples
    --------
    >>> round(motor_shaft_power(0.001, 15e6, 0.8))
    12000
    """
    return fluid_power(flow, pressure) * _fraction(efficiency)


def _fraction(efficiency: float) -> float:
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("An efficiency lies between 0 and 1.")
    return efficiency


def cylinder_force(pressure: float, bore: float, rod: float = 0.0) -> float:
    r"""Return the force of a cylinder.

    .. math:: F = p \frac{\pi}{4} (D^2 - d^2)

    Parameters
    ----------
    pressure : float
        Pressure, 0 or more. [Pa]
    bore : float
        Bore, more than 0. [m]
    rod : float
        Rod diameter when the cylinder pulls, 0 when it pushes; less than the bore. [m]

    Returns
    -------
    float
        Force. [N]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/X3.

    Examples
    --------
    >>> round(cylinder_force(15e6, 0.100))
    117810
    """
    if pressure < 0.0 or not 0.0 <= rod < bore:
        raise ValueError("Pressure must be 0 or more, and the bore larger than the rod.")
    return pressure * arith.pi / 4.0 * (bore**2 - rod**2)


def cylinder_time(flow: float, bore: float, stroke: float, rod: float = 0.0) -> float:
    """Return how long a cylinder takes for its stroke.

    Parameters
    ----------
    flow : float
        Flow at the remotes, more than 0. [m3/s]
    bore : float
        Bore, more than 0. [m]
    stroke : float
        Stroke, 0 or more. [m]
    rod : float
        Rod diameter on the way in, 0 on the way out; less than the bore. [m]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    ValueError
        When an input is out of its range.

    Examples
    --------
    >>> round(cylinder_time(0.0005, 0.100, 0.5), 2)
    7.85
    """
    if flow <= 0.0 or stroke < 0.0 or not 0.0 <= rod < bore:
        raise ValueError("Flow must be more than 0, and the bore larger than the rod.")
    return arith.pi / 4.0 * (bore**2 - rod**2) * stroke / flow


def remote_flow(pump_flow: float, steering_flow: float) -> float:
    """Return the flow that can reach the remotes.

    A published total counts the steering pump too; only the implement pump's share
    reaches the remotes.

    Parameters
    ----------
    pump_flow : float
        Total flow as published, 0 or more. [m3/s]
    steering_flow : float
        What the steering pump takes of it, from 0 to the total. [m3/s]

    Returns
    -------
    float
        Flow at the remotes. [m3/s]

    Raises
    ------
    ValueError
        When steering takes more than the total.

    Examples
    --------
    >>> round(remote_flow(0.0006, 0.0002), 6)
    0.0004
    """
    if not 0.0 <= steering_flow <= pump_flow:
        raise ValueError("Steering can't take more than the total flow.")
    return pump_flow - steering_flow
