"""What a sale may bring when cost, price and time aren't sure: draws by chance, counted."""

from typing import NamedTuple

from calc import arith
from calc.mechanics import resale


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

    def as_is(self) -> resale.Sale:
        """Return the sale without the repair."""
        return resale.Sale(self.value, self.chance_as_is, self.days_as_is, self.selling_costs)

    def repaired(self) -> resale.Sale:
        """Return the sale after the repair, at the mean uplift and cost."""
        return resale.Sale(
            self.value + self.uplift.mean,
            self.chance_repaired,
            self.days_repaired,
            self.cost.mean + self.selling_costs,
        )

    def gain(self) -> float:
        """Expected gain of the repair over selling as is. [$]"""
        return resale.expected_net(
            self.repaired(), self.fallback, self.fee, self.daily
        ) - resale.expected_net(self.as_is(), self.fallback, self.fee, self.daily)

    def break_even(self) -> float:
        """Break-even uplift at the mean cost. [$]"""
        return resale.break_even_uplift(
            self.as_is(), self.repaired(), self.fallback, self.fee, self.daily
        )


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
    >>> daily = resale.holding_cost(14_000, 0.09, 1.0)
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
