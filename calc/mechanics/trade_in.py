"""A trade-in against a private sale: what the sales tax makes of the difference."""

from calc import arith


def tax_on_purchase(price: float, trade_in: float, rate: float, credit: bool) -> float:
    r"""Sales tax on a machine bought with a trade-in.

    .. math:: \tau \max(0, P - T) \text{ with credit, else } \tau P

    Parameters
    ----------
    price : float
        Price of the machine bought, 0 or more. [$]
    trade_in : float
        Trade-in allowed, 0 or more. [$]
    rate : float
        Sales tax as a fraction. [-]
    credit : bool
        Whether the state taxes only the difference.

    Returns
    -------
    float
        Tax. [$]

    Raises
    ------
    ValueError
        If a value is below zero.

    References
    ----------
    [1] value/V12. [2] value/V13.

    Examples
    --------
    >>> tax_on_purchase(40_000, 15_000, 0.06, credit=True)
    1500.0
    """
    if price < 0.0 or trade_in < 0.0 or rate < 0.0:
        raise ValueError("Prices and the tax rate can't be below zero.")
    return rate * (arith.max(0.0, price - trade_in) if credit else price)


def trade_tax_value(price: float, trade_in: float, rate: float, credit: bool) -> float:
    """Tax that trading in saves: at most the tax on the price of the machine bought.

    Parameters
    ----------
    price, trade_in, rate, credit
        As in `tax_on_purchase`.

    Returns
    -------
    float
        Tax saved. [$]

    References
    ----------
    [1] value/V12.

    Examples
    --------
    >>> trade_tax_value(40_000, 15_000, 0.06, credit=True)
    900.0
    >>> trade_tax_value(10_000, 15_000, 0.06, credit=True)
    600.0
    """
    return tax_on_purchase(price, 0.0, rate, credit) - tax_on_purchase(
        price, trade_in, rate, credit
    )


def private_price_that_equals_trade(
    trade_in: float, tax_value: float, selling_costs: float, fee: float, daily: float, days: float
) -> float:
    r"""Private price that leaves as much as a trade-in.

    .. math:: S^* = \frac{T + \text{tax} + \text{costs} + h t}{1 - f}

    Parameters
    ----------
    trade_in : float
        Trade-in allowed. [$]
    tax_value : float
        From `trade_tax_value`. [$]
    selling_costs : float
        Fixed costs of the private sale. [$]
    fee : float
        Selling fee as a share of the price, 0 up to 1. [-]
    daily : float
        Holding cost. [$/day]
    days : float
        Days to sell. [day]

    Returns
    -------
    float
        Price. [$]

    Raises
    ------
    ValueError
        If the fee is out of range.

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> from calc.mechanics import resale
    >>> daily = resale.holding_cost(14_000, 0.09, 1.0)
    >>> round(private_price_that_equals_trade(12_000, 720, 300, 0.0, daily, 45), 2)
    13220.34
    >>> round(private_price_that_equals_trade(12_000, 0, 300, 0.0, daily, 45), 2)
    12500.34
    """
    if not 0.0 <= fee < 1.0:
        raise ValueError("A fee must be from 0 to below 1.")
    return (trade_in + tax_value + selling_costs + daily * days) / (1.0 - fee)


def offer_that_equals(private: float, price: float, credited: float) -> float:
    r"""Trade-in that leaves as much as a private sale, with the tax that it saves.

    .. math:: T = \max\left(\frac{N}{1 + r}, N - r P\right)

    which is :math:`N = T + r \min(T, P)` turned round.

    Parameters
    ----------
    private : float
        What the private sale leaves. [$]
    price : float
        Price of the machine bought. [$]
    credited : float
        Tax rate where the difference alone is taxed, else 0. [-]

    Returns
    -------
    float
        Trade-in. [$]
    """
    return arith.max(private / (1.0 + credited), private - credited * price)
