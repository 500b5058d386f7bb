"""Wire size, voltage drop and fuse of a 12 V machine.

References
----------
.. [1] road/PHY-1 and road/WEB-13, resistance of copper wire.
.. [2] road/WEB-12 and road/WEB-14, conductor areas and the constant of copper.
.. [3] road/FUSE-practice and road/BLADE-practice, fuses.
.. [4] road/CALC-1, Ohm's law.
.. [5] road/FAA-43, road/CFR-425 and road/UL-1426, the largest fuse for a wire.
"""

from calc import arith, si, tables

COPPER_TEMPERATURE_COEFFICIENT = 0.00393  # per °C
OHM_CIRCULAR_MIL_PER_FOOT_20C = 10.371  # [2]
SIZING_CONSTANT = 10.75  # ohm circular mil per foot, as the marine sizing formula has it [2]
SAFETY_LAMP_DROP = 0.03
OTHER_DROP = 0.10
FUSE_MARGIN = 1.25
LEAST_GAUGE = 16  # for a wire of its own, road/CFR-425


def wire_resistance(
    gauge: int, length: float, standard: str = "SAE", temperature: float = 20.0
) -> float:
    """Return the resistance of a length of copper wire.

    SAE (automotive) wire has less copper than AWG of the same number: ``R20 = 10.371 / CM`` ohm
    per foot. ``R = R20 (1 + 0.00393 (T - 20))``.

    Parameters
    ----------
    gauge : int
        Even gauge 4 to 20. [-]
    length : float
        Wire, out and back where there is a return wire. [m]
    standard : str
        "SAE", "AWG", or "AWG stranded 75 C" (tabled at 75 °C).
    temperature : float
        Of the copper; not used by "AWG stranded 75 C". [°C]

    Returns
    -------
    float
        Resistance. [ohm]

    Raises
    ------
    ValueError
        For a gauge or standard that the table does not hold.

    References
    ----------
    [1]_, [2]_
    """
    row = tables.by_key("road/wire_sizes", "gauge").get(str(gauge))
    if row is None:
        raise ValueError(f"The table holds even gauges 4 to 20, not {gauge}.")
    feet = length / si.FOOT
    heating = 1 + COPPER_TEMPERATURE_COEFFICIENT * (temperature - 20)
    if standard == "SAE":
        return OHM_CIRCULAR_MIL_PER_FOOT_20C / float(row["sae_circular_mils"]) * feet * heating
    if standard == "AWG":
        return float(row["ohm_per_1000ft_20c"]) / 1000 * feet * heating
    if standard == "AWG stranded 75 C" and row["ohm_per_1000ft_75c_stranded"]:
        return float(row["ohm_per_1000ft_75c_stranded"]) / 1000 * feet
    raise ValueError(f"The table has no {standard!r} value for gauge {gauge}.")


def voltage_drop(current: float, resistance: float) -> float:
    """Return ``V = I R``.

    Parameters
    ----------
    current : float
        [A]
    resistance : float
        Of the whole loop. [ohm]

    Returns
    -------
    float
        [V]

    References
    ----------
    [4]_
    """
    return current * resistance


def loop_length(one_way: float, return_wire: bool = True, ground_allowance: float = 0.0) -> float:
    """Return the length of copper that the current runs through.

    Parameters
    ----------
    one_way : float
        Along the wire from battery or switch to lamp. [m]
    return_wire : bool
        True for a ground wire back; False when the chassis is the return.
    ground_allowance : float
        Wire length that stands for a poor chassis ground. [m]

    Returns
    -------
    float
        Twice the one-way length, or once plus the allowance. [m]
    """
    return 2 * one_way if return_wire else one_way + ground_allowance


def area_needed(current: float, loop: float, drop: float, temperature: float = 20.0) -> float:
    """Return the conductor area that keeps within a voltage drop: ``CM = 10.75 I L / V``.

    Copper that is warmer than that constant is for, about 30 °C, needs more.

    Parameters
    ----------
    current : float
        [A]
    loop : float
        Out and back. [m]
    drop : float
        Voltage that may be lost, more than 0. [V]
    temperature : float
        Of the copper. [°C]

    Returns
    -------
    float
        Area. [circular mils]

    References
    ----------
    [2]_
    """
    if not drop > 0:
        raise ValueError("The drop allowed must be more than zero.")
    heating = 1 + COPPER_TEMPERATURE_COEFFICIENT * (temperature - 20)
    constant = arith.max(SIZING_CONSTANT, OHM_CIRCULAR_MIL_PER_FOOT_20C * heating)
    return arith.number(constant * current * (loop / si.FOOT) / drop)


def smallest_gauge(area: float, standard: str = "SAE") -> int | None:
    """Return the thinnest gauge with at least this area, or None beyond 4 gauge.

    Parameters
    ----------
    area : float
        [circular mils]
    standard : str
        "SAE" (default for automotive cable) or "AWG".

    References
    ----------
    [2]_

    Examples
    --------
    10 A over a 20 ft loop at 0.36 V asks for 5972 circular mils, between the two 12-gauge areas:

    >>> smallest_gauge(5972, "SAE"), smallest_gauge(5972, "AWG")
    (10, 12)
    """
    column = {"SAE": "sae_circular_mils", "AWG": "awg_circular_mils"}.get(standard)
    if column is None:
        raise ValueError(f"There is no wire standard {standard!r}.")
    for row in tables.rows("road/wire_sizes"):
        if float(row[column]) >= area:
            return int(row["gauge"])
    return None


def longest_run(current: float, gauge: int, drop: float, standard: str = "SAE") -> float:
    """Return the longest loop that a gauge serves; the inverse of `area_needed`.

    Parameters
    ----------
    current : float
        More than 0. [A]
    gauge : int
        Even gauge 4 to 20. [-]
    drop : float
        [V]
    standard : str
        "SAE" or "AWG".

    Returns
    -------
    float
        Loop, out and back. [m]
    """
    if not current > 0:
        raise ValueError("Current must be more than zero.")
    column = "sae_circular_mils" if standard == "SAE" else "awg_circular_mils"
    area = float(tables.by_key("road/wire_sizes", "gauge")[str(gauge)][column])
    return area * drop / (SIZING_CONSTANT * current) * si.FOOT


def fuse_size(current: float) -> float | None:
    """Return the next fuse at or above 1.25 times the lasting current, None beyond 40 A.

    Parameters
    ----------
    current : float
        0 or more. [A]

    Returns
    -------
    float or None
        Rating. [A]

    References
    ----------
    [3]_

    Examples
    --------
    >>> fuse_size(2 * 55 / 12)
    15.0
    """
    if current < 0:
        raise ValueError("Current can't be negative.")
    for row in tables.rows("road/fuse_sizes"):
        if float(row["amps"]) >= FUSE_MARGIN * current - 1e-9:
            return float(row["amps"])
    return None


def largest_fuse(gauge: int, *, alone: bool = False) -> float:
    """Return the largest fuse that still protects a wire.

    The fuse protects the wire, not the lamp: past this a short burns the insulation before the
    fuse opens. The figure for a harness holds in a bundle of many wires; `alone` is for at most
    three loaded wires of AWG size.

    Parameters
    ----------
    gauge : int
        Even gauge 4 to 20. [-]
    alone : bool
        Whether at most three loaded wires lie together.

    Returns
    -------
    float
        Rating. [A]

    Raises
    ------
    ValueError
        For a gauge that the table does not hold.

    References
    ----------
    [5]_

    Examples
    --------
    >>> largest_fuse(14), largest_fuse(14, alone=True)
    (15.0, 20.0)
    """
    row = tables.by_key("road/wire_fuses", "gauge").get(str(gauge))
    if row is None:
        raise ValueError(f"The table holds even gauges 4 to 20, not {gauge}.")
    return float(row["alone_fuse" if alone else "harness_fuse"])


def gauge_for(
    fuse: float,
    area: float,
    standard: str = "SAE",
    *,
    alone: bool = False,
    thinnest: int = LEAST_GAUGE,
) -> int | None:
    """Return the thinnest gauge that a fuse protects and that has an area, or None beyond 4.

    No thinner than `thinnest`; 16 gauge is the least for a wire of its own.

    Parameters
    ----------
    fuse : float
        Rating. [A]
    area : float
        As `area_needed` gives it. [circular mils]
    standard : str
        "SAE" or "AWG".
    alone : bool
        As for `largest_fuse`.
    thinnest : int
        Gauge. [-]

    References
    ----------
    [2]_, [5]_

    Examples
    --------
    >>> gauge_for(15, 1000), gauge_for(5, 0), gauge_for(5, 0, thinnest=20)
    (14, 16, 20)
    """
    by_area = smallest_gauge(area, standard)
    if by_area is None:
        return None
    for row in tables.rows("road/wire_sizes"):
        gauge = int(row["gauge"])
        if gauge <= min(by_area, thinnest) and largest_fuse(gauge, alone=alone) >= fuse:
            return gauge
    return None
