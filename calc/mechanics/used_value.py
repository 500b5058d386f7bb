"""What a used machine is worth by its age and hours."""

from calc import arith, tables


def hours_a_year(hours: float, years: float) -> float:
    """Mean use of a machine.

    Parameters
    ----------
    hours : float
        Hour meter. [h]
    years : float
        Age, above 0. [year]

    Returns
    -------
    float
        Use. [h/year]

    Raises
    ------
    ValueError
        If the age is not above zero.

    References
    ----------
    [1] value/V6b.

    Examples
    --------
    >>> hours_a_year(500, 4)
    125.0
    """
    if years <= 0.0:
        raise ValueError("The age must be above zero.")
    return hours / years


def remaining_value(machine: str, years: float, hours_per_year: float) -> float:
    r"""Average auction value as a share of today's price of an equivalent new machine.

    .. math:: R = (C_1 - C_2 \sqrt{n} - C_3 \sqrt{h})^2

    Parameters
    ----------
    machine : str
        Key of the table `remaining_value`.
    years : float
        Age, 1 or more; taken as 1 below that. [year]
    hours_per_year : float
        Mean use, 0 or more. [h/year]

    Returns
    -------
    float
        Share of the new price, as is, in average condition. [-]

    Raises
    ------
    ValueError
        If the use is below zero.

    Notes
    -----
    The new price is today's, even if the machine was bought for less [2]_. Fitted to farm
    tractors: compacts of hobby owners usually hold more.

    References
    ----------
    [1] value/V1T and power/D497-memory. [2] value/V1.

    Examples
    --------
    >>> round(100 * remaining_value("tractor_small", 15, 50), 1)
    33.6
    >>> round(100 * remaining_value("tractor_small", 15, 400), 1)
    25.5
    """
    if hours_per_year < 0.0:
        raise ValueError("The hours a year can't be below zero.")
    row = tables.by_key("power/remaining_value", "key")[machine]
    root = (
        float(row["c1"])
        - float(row["c2"]) * arith.sqrt(arith.max(1.0, years))
        - float(row["c3"]) * arith.sqrt(hours_per_year)
    )
    return arith.max(0.0, root) ** 2
