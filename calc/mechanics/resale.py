"""Repair before selling: sell as is, repair and sell, or trade in.

Money in dollars, time in days, rates and chances as fractions.
"""

from typing import NamedTuple

DAYS_A_YEAR = 365.0


def holding_cost(
    price: float, yearly_rate: float, daily_storage: float, days_in_year: float = DAYS_A_YEAR
) -> float:
    r"""Cost of keeping a machine for sale one more day.

    .. math:: h = V r / 365 + s

    Parameters
    ----------
    price : float
        Value of the machine, 0 or more. [$]
    yearly_rate : float
        Finance or opportunity rate a year, 0 or more. [-]
    daily_storage : float
        Storage and insurance a day, 0 or more. [$/day]
    days_in_year : float
        365; lenders also use 360. [day]

    Returns
    -------
    float
        Holding cost. [$/day]

    Raises
    ------
    ValueError
        If a value is below zero.

    References
    ----------
    [1] value/DERIVED. [2] value/V26 for the parts.

    Examples
    --------
    >>> round(holding_cost(14_000, 0.09, 1.0), 4)
    4.4521
    """
    if price < 0.0 or yearly_rate < 0.0 or daily_storage < 0.0:
        raise ValueError("Price, rate and storage can't be below zero.")
    return price * yearly_rate / days_in_year + daily_storage


class Sale(NamedTuple):
    """One way to sell: asked price, chance and days to get it, and what is spent before.

    Attributes
    ----------
    price, cost : float
        What is asked, and what is spent before. [$]
    chance : float
        Of selling at that price, 0 to 1. [-]
    days : float
        Until it sells. [day]
    """

    price: float
    chance: float
    days: float
    cost: float = 0.0


def expected_net(sale: Sale, fallback: float, fee: float, daily: float) -> float:
    r"""Expected money in hand from one way to sell.

    .. math:: N = p P (1 - f) + (1 - p) F - C - h t

    Interest is in the holding cost: do not discount the result as well.

    Parameters
    ----------
    sale : Sale
        Price [$], chance of selling at it [-], days to sell [day], cost before [$].
    fallback : float
        Net price if it does not sell. [$]
    fee : float
        Selling fee as a share of the price, 0 up to 1. [-]
    daily : float
        Holding cost. [$/day]

    Returns
    -------
    float
        Expected net. [$]

    Raises
    ------
    ValueError
        If a chance or fee is out of range.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> daily = holding_cost(14_000, 0.09, 1.0)
    >>> round(expected_net(Sale(14_000, 0.80, 60), 12_500, 0.0, daily), 2)
    13432.88
    """
    if not 0.0 <= sale.chance <= 1.0 or not 0.0 <= fee < 1.0:
        raise ValueError("A chance must be from 0 to 1 and a fee from 0 to below 1.")
    return (
        sale.chance * sale.price * (1.0 - fee)
        + (1.0 - sale.chance) * fallback
        - sale.cost
        - daily * sale.days
    )


def repair_cost(parts: float, hours: float, hourly_rate: float, parts_tax: float = 0.0) -> float:
    """Cost of a repair: parts with their sales tax, and labor.

    Parameters
    ----------
    parts : float
        Price of the parts. [$]
    hours : float
        Labor. [h]
    hourly_rate : float
        Rate of labor. [$/h]
    parts_tax : float
        Sales tax on parts as a fraction. [-]

    Returns
    -------
    float
        Cost. [$]

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> repair_cost(380, 3.5, 95)
    712.5
    """
    return parts * (1.0 + parts_tax) + hours * hourly_rate


def break_even_uplift(
    as_is: Sale, repaired: Sale, fallback: float, fee: float, daily: float
) -> float:
    r"""Added price at which repairing and selling as is come to the same.

    .. math:: U^* = \frac{C + h (t_1 - t_0) - (p_1 - p_0)(V (1 - f) - F)}{p_1 (1 - f)}

    Parameters
    ----------
    as_is, repaired : Sale
        The two ways; the price of `repaired` is not used.
    fallback, fee, daily : float
        As in `expected_net`.

    Returns
    -------
    float
        Break-even uplift; below zero when the repair pays without any. [$]

    Raises
    ------
    ValueError
        If the repaired machine has no chance to sell.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> daily = holding_cost(14_000, 0.09, 1.0)
    >>> as_is, repaired = Sale(14_000, 0.80, 60), Sale(14_900, 0.88, 50, 712.50)
    >>> round(break_even_uplift(as_is, repaired, 12_500, 0.0, daily), 2)
    622.7
    """
    if repaired.chance <= 0.0:
        raise ValueError("A repaired machine that can't sell has no break-even price.")
    gained = (repaired.chance - as_is.chance) * (as_is.price * (1.0 - fee) - fallback)
    spent = repaired.cost - as_is.cost + daily * (repaired.days - as_is.days)
    return (spent - gained) / (repaired.chance * (1.0 - fee))
