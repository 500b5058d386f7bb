"""Interest, loans and present value. Money in dollars, rates as fractions a period."""

from collections.abc import Sequence

from calc import arith


def _check_periods(periods: int) -> None:
    if periods < 1:
        raise ValueError("The number of payments must be 1 or more.")


def _check_rate(rate: float) -> None:
    if rate <= -1.0:
        raise ValueError("An interest rate must be above -100 % a period.")


def capital_recovery_factor(rate: float, periods: int) -> float:
    r"""Level payment a period that repays one dollar with interest.

    .. math:: F = \frac{i (1+i)^n}{(1+i)^n - 1}, \quad F = 1/n \text{ at } i = 0

    Parameters
    ----------
    rate : float
        Interest rate a period, above -1. [-]
    periods : int
        Number of payments, 1 or more. [-]

    Returns
    -------
    float
        Payment for each dollar borrowed. [1/period]

    Raises
    ------
    ValueError
        If the rate or the number of payments is out of range.

    References
    ----------
    [1] value/V20.

    Examples
    --------
    >>> round(capital_recovery_factor(0.05, 4), 4)
    0.282
    >>> capital_recovery_factor(0.0, 4)
    0.25
    """
    _check_periods(periods)
    _check_rate(rate)
    if rate == 0.0:
        return 1.0 / periods
    # expm1 and log1p keep the digits where the rate is close to zero.
    return -rate / arith.expm1(-periods * arith.log1p(rate))


def annuity_present_value(rate: float, periods: int) -> float:
    """Present value of one dollar at the end of each period: 1 / capital recovery factor.

    Parameters
    ----------
    rate : float
        Interest rate a period, above -1. [-]
    periods : int
        Number of payments, 1 or more. [-]

    Returns
    -------
    float
        Present value for each dollar of payment. [period]

    References
    ----------
    [1] value/V20.

    Examples
    --------
    >>> round(annuity_present_value(0.05, 4), 4)
    3.546
    """
    return 1.0 / capital_recovery_factor(rate, periods)


def payment(principal: float, rate: float, periods: int, balloon: float = 0.0) -> float:
    r"""Level payment a period on a loan, with an optional balloon due with the last one.

    .. math:: A = (P - S) F + S i

    Parameters
    ----------
    principal : float
        Amount borrowed, 0 or more. [$]
    rate : float
        Interest rate a period, above -1. [-]
    periods : int
        Number of payments, 1 or more. [-]
    balloon : float
        Amount left to pay at the end, 0 to the principal. [$]

    Returns
    -------
    float
        Payment a period. [$]

    Raises
    ------
    ValueError
        If an amount is out of range.

    References
    ----------
    [1] value/V20. [2] value/V23.

    Examples
    --------
    >>> round(payment(25_000, 0.06 / 12, 60), 2)
    483.32
    >>> round(payment(25_000, 0.0, 60), 2)
    416.67
    """
    if principal < 0.0:
        raise ValueError("The amount borrowed can't be below zero.")
    if not 0.0 <= balloon <= principal:
        raise ValueError("The balloon must be between zero and the amount borrowed.")
    return (principal - balloon) * capital_recovery_factor(rate, periods) + balloon * rate


def balance_after(principal: float, rate: float, level_payment: float, periods: int) -> float:
    r"""Amount still owed after a number of payments.

    .. math:: B_k = P (1+i)^k - A \frac{(1+i)^k - 1}{i}

    Parameters
    ----------
    principal : float
        Amount borrowed. [$]
    rate : float
        Interest rate a period, above -1. [-]
    level_payment : float
        Payment a period. [$]
    periods : int
        Payments made, 0 or more. [-]

    Returns
    -------
    float
        Amount owed. [$]

    References
    ----------
    [1] value/V20.

    Examples
    --------
    >>> abs(balance_after(25_000, 0.005, payment(25_000, 0.005, 60), 60)) < 1e-6
    True
    """
    _check_rate(rate)
    if periods < 0:
        raise ValueError("The number of payments made can't be below zero.")
    if rate == 0.0:
        return principal - level_payment * periods
    growth = arith.expm1(periods * arith.log1p(rate))
    return principal * (1.0 + growth) - level_payment * growth / rate


def net_present_value(rate: float, cash_flows: Sequence[float]) -> float:
    r"""Value today of a row of cash flows, the first of them today.

    .. math:: N = \sum_k C_k (1+i)^{-k}

    Parameters
    ----------
    rate : float
        Interest rate a period, above -1. [-]
    cash_flows : sequence of float
        Money in (positive) or out (negative) at the end of period 0, 1, 2 and on. [$]

    Returns
    -------
    float
        Present value. [$]

    References
    ----------
    [1] value/V22a.

    Examples
    --------
    >>> round(net_present_value(0.14, [-400_000] + [100_000] * 8))
    63886
    """
    _check_rate(rate)
    total = 0.0
    for flow in reversed(cash_flows):
        total = total / (1.0 + rate) + flow
    return total


def real_rate(nominal: float, inflation: float) -> float:
    r"""Interest rate with the rise in prices taken out.

    .. math:: i_{real} = \frac{1 + i}{1 + g} - 1

    Parameters
    ----------
    nominal : float
        Interest rate a period. [-]
    inflation : float
        Rise in prices a period, above -1. [-]

    Returns
    -------
    float
        Real rate a period. [-]

    Notes
    -----
    Iowa State University uses the short form `nominal - inflation` [1]_; it is
    a little higher.

    References
    ----------
    [1] value/V1. [2] value/DERIVED.

    Examples
    --------
    >>> round(real_rate(0.08, 0.03), 5)
    0.04854
    """
    _check_rate(inflation)
    return (1.0 + nominal) / (1.0 + inflation) - 1.0
