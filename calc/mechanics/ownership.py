"""What a dearer machine costs each year, and when it pays for itself."""

from calc import arith, tables


def repair_cost(machine: str, list_price: float, hours: float) -> float:
    """Return the repair and maintenance cost from new to some hours: RF1 P (h/1000)^RF2.

    Parameters
    ----------
    machine : str
        A key of the table repair_factors, such as "tractor".
    list_price : float
        Price today of an equivalent new machine, not the price paid. [money]
    hours : float
        Hours in all, 0 or more. [h]

    Returns
    -------
    float
        Cost. [money]

    Examples
    --------
    >>> round(repair_cost("tractor", 30000.0, 1500.0), 1)
    472.5

    References
    ----------
    .. [1] power/S53.
    """
    if hours < 0.0:
        raise ValueError("Hours can't be less than 0.")
    row = tables.by_key("power/repair_factors", "machine")[machine]
    return float(row["rf1"]) * list_price * arith.pow(hours / 1000.0, float(row["rf2"]))


def repair_cost_between(machine: str, list_price: float, start: float, end: float) -> float:
    """Return the repair cost from some hours to more: the difference, not the mean rate.

    Parameters
    ----------
    machine, list_price : str, float
        As in `repair_cost`.
    start, end : float
        Hours on the machine when bought and when sold. [h]

    Returns
    -------
    float
        Cost. [money]
    """
    if end < start:
        raise ValueError("The end can't come before the start.")
    return repair_cost(machine, list_price, end) - repair_cost(machine, list_price, start)


def hours_to_pay_back(extra_cost: float, saving_per_hour: float) -> float:
    """Return the hours after which a dearer machine has earned its extra cost.

    Parameters
    ----------
    extra_cost : float
        Extra price less what of it comes back at sale. [money]
    saving_per_hour : float
        What each hour saves; negative when it costs more to run. [money/h]

    Returns
    -------
    float
        Hours: 0 when there is no extra cost, infinite when no hour saves anything. [h]

    References
    ----------
    .. [1] power/DERIVED.
    """
    if extra_cost <= 0.0:
        return 0.0
    return extra_cost / saving_per_hour if saving_per_hour > 0.0 else arith.inf


def years_to_pay_back(extra_cost: float, saving_per_year: float, rate: float) -> float:
    """Return the years to pay back an extra cost with interest: -ln(1 - P i / A) / ln(1 + i).

    Parameters
    ----------
    extra_cost : float
        Extra cost today. [money]
    saving_per_year : float
        Saving at the end of each year. [money]
    rate : float
        Yearly interest, 0 or more. [-]

    Returns
    -------
    float
        Years, infinite when the saving never overtakes the interest. [years]

    Examples
    --------
    >>> round(years_to_pay_back(1000.0, 250.0, 0.06), 2)
    4.71

    References
    ----------
    .. [1] power/S49: the capital recovery factor, solved for the years.
    """
    if rate < 0.0:
        raise ValueError("The interest rate can't be less than 0.")
    if extra_cost <= 0.0:
        return 0.0
    if saving_per_year <= 0.0 or extra_cost * rate >= saving_per_year:
        return arith.inf
    if rate == 0.0:
        return extra_cost / saving_per_year
    return -arith.log1p(-extra_cost * rate / saving_per_year) / arith.log1p(rate)


def labor_cost_per_hour(wage: float) -> float:
    """Return the labor behind an hour of tractor work: 1.1 hours of wage.

    Parameters
    ----------
    wage : float
        Wage. [money/h]

    Returns
    -------
    float
        Cost. [money/h]

    Examples
    --------
    >>> round(labor_cost_per_hour(13.50), 2)
    14.85

    References
    ----------
    .. [1] power/S42, power/S47.
    """
    return 1.1 * wage
