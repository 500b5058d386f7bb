"""What a cab's air conditioner takes: its sizes, the compressor's power and the alternator's."""

from calc import arith, tables

BELT_EFFICIENCY = 0.95
ALTERNATOR_EFFICIENCY = 0.55
BTU_PER_HOUR = 0.29307107017222


def compressor_power(cooling: float, performance: float) -> float:
    """Return the shaft power that the engine gives the compressor: Q / (0.95 COP).

    Parameters
    ----------
    cooling : float
        Cooling power. [W]
    performance : float
        Coefficient of performance, above 0. [-]

    Returns
    -------
    float
        Power at the engine, belt loss included. [W]

    Examples
    --------
    >>> round(compressor_power(2334.0, 2.0))
    1228

    References
    ----------
    .. [1] value/CAB-memory.
    """
    if performance <= 0.0:
        raise ValueError("The coefficient of performance must be above 0.")
    return cooling / (BELT_EFFICIENCY * performance)


def alternator_power(current: float, voltage: float = 13.5) -> float:
    """Return the engine power behind an electric load: V I / 0.55.

    Parameters
    ----------
    current : float
        Current. [A]
    voltage : float
        Charging voltage. [V]

    Returns
    -------
    float
        Power at the engine. [W]

    References
    ----------
    .. [1] value/CAB-memory.
    """
    return voltage * current / ALTERNATOR_EFFICIENCY


@arith.rising
def alternator_share(speed: float) -> float:
    """Return the share of its rating that a hot alternator gives at a speed.

    Straight between the two hot outputs that were read [1]_, level beyond them. A real curve
    bends over that line, so between them the share errs low.

    Parameters
    ----------
    speed : float
        Speed of the alternator, not of the engine. [rpm]

    Returns
    -------
    float
        Share of the rated current. [-]

    References
    ----------
    .. [1] value/EM-3, a 50 A unit: 16 A at 1 300 rpm, 48 A at 5 000.

    Examples
    --------
    >>> 50 * alternator_share(1300.0), 50 * alternator_share(5000.0)
    (16.0, 48.0)
    """
    low, high = tables.rows("cab/alternator_hot")
    start, end = float(low["alternator_rpm"]), float(high["alternator_rpm"])
    least, most = float(low["hot_share"]), float(high["hot_share"])
    along = arith.max(0.0, arith.min(1.0, (speed - start) / (end - start)))
    return least + (most - least) * along


def electric_current(cooling: float, performance: float, voltage: float = 13.5) -> float:
    """Return the current of an electrically driven compressor: Q / (COP V).

    Parameters
    ----------
    cooling : float
        Cooling power. [W]
    performance : float
        Cooling power over electric power, above 0. [-]
    voltage : float
        Voltage at the unit. [V]

    Returns
    -------
    float
        Current. [A]

    Raises
    ------
    ValueError
        When the performance is not above 0.

    References
    ----------
    .. [1] value/DERIVED.

    Examples
    --------
    >>> round(electric_current(7000 * 0.29307107, 2.5), 1)
    60.8
    """
    if performance <= 0.0:
        raise ValueError("The coefficient of performance must be above 0.")
    return cooling / (performance * voltage)


@arith.rising
def next_unit(cooling: float) -> float:
    """Return the next cooling unit that is sold, by the table `cab_units`; the largest beyond. [W]

    Examples
    --------
    >>> round(next_unit(11_000 * 0.29307107) / 0.29307107)
    12000
    """
    sizes = unit_sizes()
    for size in sizes:
        if cooling <= size * (1.0 + 1e-9):
            return size
    return sizes[-1]


def unit_sizes() -> tuple[float, ...]:
    """Return the cooling powers that units are sold with, the smallest first. [W]

    References
    ----------
    .. [1] value/TP-1, value/TI-1, value/EM-2, value/C13; the others value/PRACTICE.

    Examples
    --------
    >>> round(unit_sizes()[0])
    1465
    """
    return tuple(
        float(row["capacity_btu_h"]) * BTU_PER_HOUR for row in tables.rows("cab/cab_units")
    )


def shaft_power_left(
    engine_power: float, compressor: float, alternator: float, engine_to_pto: float
) -> float:
    """Return the PTO power with the cooling running: (P_engine - P_comp - P_alt) eta.

    The cooling is taken off the engine before the loss on the way to the shaft.

    Parameters
    ----------
    engine_power, compressor, alternator : float
        Powers at the engine. [W]
    engine_to_pto : float
        PTO power over engine power, above 0 to 1. [-]

    Returns
    -------
    float
        Power left at the shaft, 0 or more. [W]
    """
    return arith.max(0.0, engine_power - compressor - alternator) * engine_to_pto
