"""Repair before selling: sell as is, repair and sell, or trade in.

Money in dollars, time in days, rates and chances as fractions.
"""

from typing import NamedTuple

from calc import arith, tables

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


class Triangle(NamedTuple):
    """A number known as low, likely and high: the triangular distribution.

    Attributes
    ----------
    low, likely, high : float
        Its ends and its mode, here amounts of money. [$]
    """

    low: float
    likely: float
    high: float

    @property
    def mean(self) -> float:
        """Mean: (a + b + c) / 3."""
        return (self.low + self.likely + self.high) / 3.0

    @property
    def deviation(self) -> float:
        """Standard deviation, value/V31: root of (a2 + b2 + c2 - ab - ac - bc) / 18."""
        left, right = self.likely - self.low, self.high - self.likely
        return arith.sqrt((left * left + left * right + right * right) / 18.0)

    def chance_above(self, value: float) -> float:
        """Chance that the number is above a value.

        Examples
        --------
        >>> round(Triangle(200, 800, 1500).chance_above(450), 4)
        0.9199
        """
        if value < self.low:
            return 1.0
        if value >= self.high:
            return 0.0
        width = self.high - self.low
        if value <= self.likely and self.likely > self.low:
            return 1.0 - (value - self.low) ** 2 / (width * (self.likely - self.low))
        return (self.high - value) ** 2 / (width * (self.high - self.likely))

    def quantile(self, share: float) -> float:
        """Value below which a share of the outcomes lies.

        Examples
        --------
        >>> Triangle(0.0, 1.0, 2.0).quantile(0.5)
        1.0
        """
        width = self.high - self.low
        if width == 0.0:
            return self.low
        if share <= (self.likely - self.low) / width:
            return self.low + arith.sqrt(share * width * (self.likely - self.low))
        return self.high - arith.sqrt((1.0 - share) * width * (self.high - self.likely))


def triangle(low: float, likely: float, high: float) -> Triangle:
    """Return the triangular distribution of three estimates.

    Raises
    ------
    ValueError
        If they aren't in order.

    Examples
    --------
    >>> round(triangle(200, 800, 1500).deviation, 2)
    265.62
    """
    if not low <= likely <= high:
        raise ValueError("Give low, likely and high in that order.")
    return Triangle(low, likely, high)


def random_shares(seed: int, count: int) -> list[float]:
    r"""Evenly spread pseudo-random numbers between 0 and 1, the same on every machine.

    .. math:: x_{k+1} = 16807 x_k \bmod (2^{31} - 1)

    Parameters
    ----------
    seed : int
        From 1 to 2147483646. [-]
    count : int
        How many. [-]

    Returns
    -------
    list of float
        Numbers above 0 and below 1. [-]

    Raises
    ------
    ValueError
        If the seed is out of range.

    References
    ----------
    [1] value/V29.

    Examples
    --------
    >>> round(random_shares(1, 10_000)[-1] * 2147483647)
    1043618065
    """
    modulus = 2147483647
    if not 0 < seed < modulus:
        raise ValueError("The seed must be from 1 to 2147483646.")
    state = seed
    shares = []
    for _ in range(count):
        state = 16807 * state % modulus
        shares.append(state / modulus)
    return shares


class Spread(NamedTuple):
    """Outcomes of a simulation of the gain from repairing, in order."""

    gains: tuple[float, ...]
    mean: float
    deviation: float
    chance_of_gain: float

    def at(self, share: float) -> float:
        """Gain below which a share of the outcomes lies. [$]"""
        return self.gains[arith.min(len(self.gains) - 1, int(share * len(self.gains)))]


class Plan(NamedTuple):
    """Everything that the choice between repairing and selling as is rests on.

    Attributes
    ----------
    value, fallback, selling_costs : float
        The price as is, what it brings if it doesn't sell, and what selling costs. [$]
    uplift, cost : Triangle
        What the repair adds to the price, and what it costs.
    days_as_is, days_repaired : float
        Until it sells. [day]
    chance_as_is, chance_repaired, fee : float
        Chances of selling, and the share of the price that goes as a fee. [-]
    daily : float
        Holding cost. [$/day]
    """

    value: float
    uplift: Triangle
    cost: Triangle
    days_as_is: float
    days_repaired: float
    chance_as_is: float
    chance_repaired: float
    fallback: float
    fee: float
    daily: float
    selling_costs: float = 0.0

    def as_is(self) -> Sale:
        """Return the sale without the repair."""
        return Sale(self.value, self.chance_as_is, self.days_as_is, self.selling_costs)

    def repaired(self) -> Sale:
        """Return the sale after the repair, at the mean uplift and cost."""
        return Sale(
            self.value + self.uplift.mean,
            self.chance_repaired,
            self.days_repaired,
            self.cost.mean + self.selling_costs,
        )

    def gain(self) -> float:
        """Expected gain of the repair over selling as is. [$]"""
        return expected_net(self.repaired(), self.fallback, self.fee, self.daily) - expected_net(
            self.as_is(), self.fallback, self.fee, self.daily
        )

    def break_even(self) -> float:
        """Break-even uplift at the mean cost. [$]"""
        return break_even_uplift(self.as_is(), self.repaired(), self.fallback, self.fee, self.daily)


def simulate(plan: Plan, seed: int = 1988, count: int = 2000) -> Spread:
    """Play the choice many times with the luck of the buyer the same both ways.

    Each round draws an uplift, a repair cost and one buyer's luck. The machine sells as is if
    the luck is below that chance, and sells repaired if it is below the other; what does not
    sell goes for the fallback price.

    Parameters
    ----------
    plan : Plan
        The choice.
    seed : int
        As in `random_shares`. [-]
    count : int
        Rounds, 1 or more. [-]

    Returns
    -------
    Spread
        Gains in order [$], their mean and standard deviation [$], share above zero [-].

    References
    ----------
    [1] value/DERIVED. [2] value/V29.

    Examples
    --------
    >>> daily = holding_cost(14_000, 0.09, 1.0)
    >>> plan = Plan(14_000, triangle(200, 800, 1500), triangle(600, 712.5, 900),
    ...             60, 50, 0.80, 0.88, 12_500, 0.0, daily)
    >>> spread = simulate(plan)
    >>> abs(spread.mean - plan.gain()) < 3 * spread.deviation / 2000**0.5
    True
    """
    if count < 1:
        raise ValueError("The simulation needs at least one round.")
    shares = random_shares(seed, 3 * count)
    keep = 1.0 - plan.fee
    sold_as_is = plan.value * keep
    earlier = plan.daily * (plan.days_repaired - plan.days_as_is)
    gains = []
    for turn in range(0, 3 * count, 3):
        luck = shares[turn]
        before = sold_as_is if luck < plan.chance_as_is else plan.fallback
        if luck < plan.chance_repaired:
            after = (plan.value + plan.uplift.quantile(shares[turn + 1])) * keep
        else:
            after = plan.fallback
        gains.append(after - plan.cost.quantile(shares[turn + 2]) - earlier - before)
    mean = arith.fsum(gains) / count
    variance = arith.fsum((gain - mean) ** 2 for gain in gains) / arith.max(1, count - 1)
    above = sum(1 for gain in gains if gain > 0.0) / count
    return Spread(tuple(sorted(gains)), mean, arith.sqrt(variance), above)


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
    >>> daily = holding_cost(14_000, 0.09, 1.0)
    >>> round(private_price_that_equals_trade(12_000, 720, 300, 0.0, daily, 45), 2)
    13220.34
    >>> round(private_price_that_equals_trade(12_000, 0, 300, 0.0, daily, 45), 2)
    12500.34
    """
    if not 0.0 <= fee < 1.0:
        raise ValueError("A fee must be from 0 to below 1.")
    return (trade_in + tax_value + selling_costs + daily * days) / (1.0 - fee)


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
    [1] power/D497-memory. [2] value/V1.

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
