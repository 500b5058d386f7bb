"""The kinds of quantities, and the units that each may be written in."""

import math
from dataclasses import dataclass
from functools import cache

from calc import tables
from calc.errors import UnknownName
from calc.quantities.phrases import joined

SYSTEMS = ("us", "metric")


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of a kind: base value = curve(number x factor + offset)."""

    symbol: str
    factor: float
    offset: float
    curve: str
    aliases: tuple[str, ...]

    def to_base(self, number: float) -> float:
        """Return `number` of this unit in the base unit of its kind."""
        if self.curve == "tan":
            return math.tan(math.radians(number)) if abs(number) < 90 else math.inf
        return number * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """Return a value in the base unit as a number of this unit."""
        if self.curve == "tan":
            return math.degrees(math.atan(value))
        return (value - self.offset) / self.factor


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its base unit and the units it may be written in."""

    name: str
    noun: str
    base: str
    us: str
    metric: str
    bare: bool
    example: str
    units: tuple[Unit, ...]
    stands_for: str = ""  # the unit that a bare number is in
    like: str = ""  # the kind whose units it has, where it is only shown and never typed
    never_below_zero: bool = False  # whether less than nothing is said as nothing

    def unit(self, symbol: str) -> Unit:
        """Return the unit with that symbol."""
        for unit in self.units:
            if unit.symbol == symbol:
                return unit
        raise UnknownName(f"{symbol!r} is not a unit of {self.noun}.")

    @property
    def accepted(self) -> str:
        """The units a reader may use, as a phrase."""
        return joined([unit.symbol for unit in self.units if unit.symbol], "or")


@cache
def kinds() -> dict[str, Kind]:
    """Return every kind of quantity by name."""
    units: dict[str, list[Unit]] = {}
    for row in tables.rows("words/units"):
        aliases = tuple(word for word in row["aliases"].split("|") if word)
        units.setdefault(row["kind"], []).append(
            Unit(
                row["unit"], float(row["factor"]), float(row["offset"] or 0), row["curve"], aliases
            )
        )
    return {
        row["kind"]: Kind(
            row["kind"],
            row["noun"],
            row["base"],
            row["us"],
            row["metric"],
            row["bare"] == "yes",
            row["example"],
            tuple(units[row["like"] or row["kind"]]),
            like=row["like"],
            never_below_zero=row["never_below"] == "0",
        )
        for row in tables.rows("words/kinds")
    }


def kind(name: str) -> Kind:
    """Return the kind of quantity called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    try:
        return kinds()[name]
    except KeyError:
        raise UnknownName(f"There is no kind of quantity called {name!r}.") from None


def summed(kind_name: str) -> str:
    """Return the kind in which sums are written out: a load may come out below zero there.

    >>> summed("load"), summed("length")
    ('mass', 'length')
    """
    return kind(kind_name).like or kind_name


def unit_for(kind_name: str, system: str) -> Unit:
    """Return the unit in which a kind is shown in a system ("us" or "metric")."""
    shown = kind(kind_name)
    return shown.unit(shown.us if system == "us" else shown.metric)
