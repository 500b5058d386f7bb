"""What a machine must carry and do on the road, by place: rules held as tables.

A rule of the table road_requirements applies when every clause of its `when` holds, such as
"width>12 ft; made>=2007". The clauses speak of these facts:

======================  ==================================================================
tractor_width           overall width of the tractor [m]
implement_width         width of what is behind, as it travels [m]
load_width              width of what is carried on a trailer, else 0 [m]
width                   widest part of the whole combination [m]
left, right, reach      how far what is behind reaches from the tractor's center line to the
                        left, to the right, and the larger of the two [m]
behind                  how far it reaches behind the hitch [m]
length, height          of the whole combination [m]
speed                   design top speed of the tractor [m/s]
made, implement_made    year made, as a decimal where the month counts [year]
hides_*                 1 when what is behind hides the emblem, tail, amber or turn lamps, or
                        the driver's view to the rear, else 0
on_wheels, carried      1 when a unit on wheels is towed; when a machine rides on it
road_trailer, duals     1 for a farm trailer designed for the road; for dual wheels
tail_lamps              red tail lamps that the tractor has
======================  ==================================================================

References
----------
.. [1] road/FR-1, road/FR-3, the federal rule on new machines and its scope.
.. [2] road/EXT-1, road/WEB-1, road/LAW-WI2, S279 in several editions.
.. [3] The law of each place: the table state_road_rules.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc import arith, si, tables

Facts = Mapping[str, float]
FEDERAL_DATE = 2017 + (31 + 28 + 31 + 30 + 31 + 21) / 365  # 2017-06-22 as a decimal year [1]
_UNITS = {"ft": si.FOOT, "in": si.INCH, "mm": 0.001, "m": 1.0, "mph": si.MPH, "km/h": 1 / 3.6}

# How strongly a rule binds, strongest first.
BASES = ("law", "maker", "pattern", "memory", "standard", "practice")
BASIS_WORDS = {
    "law": "law that was read",
    "maker": "binding on machines of this age",
    "pattern": "common pattern of state law (Uniform Vehicle Code)",
    "memory": "law, from memory",
    "standard": "standard",
    "practice": "good practice",
}
_SIGNS = (">=", "<=", ">", "<")


def measure(text: str) -> float | None:
    """Return a table's "16 in" or "25 mph" in base units, None when the cell is empty.

    Parameters
    ----------
    text : str
        A number, or a number with a unit.

    Examples
    --------
    >>> measure("16 in")
    0.4064
    """
    if not text:
        return None
    number, _, unit = text.partition(" ")
    return float(number) * (_UNITS[unit] if unit else 1.0)


@dataclass(frozen=True, slots=True)
class Rule:
    """One row of road_requirements, read."""

    rule: str
    unit: str
    item: str
    count: int
    hours: str
    clauses: tuple[tuple[str, str, float], ...]
    height_low: float | None
    height_high: float | None
    edge: float | None
    seen: float | None
    basis: str
    text: str
    source: str

    def applies(self, facts: Facts) -> bool:
        """Return whether every clause holds. Limits are met at the limit itself."""
        for fact, sign, limit in self.clauses:
            value = facts.get(fact, 0.0)
            if sign == ">=" and value < limit:
                return False
            if sign == "<=" and value > limit:
                return False
            if sign == ">" and value <= limit:
                return False
            if sign == "<" and value >= limit:
                return False
        return True


@dataclass(frozen=True, slots=True)
class Need:
    """One item that a unit needs: every rule that asks for it, and what satisfies them all."""

    item: str
    unit: str
    count: int
    hours: str
    basis: str
    height_low: float | None
    height_high: float | None
    edge: float | None
    seen: float | None
    rules: tuple[Rule, ...]


def _clauses(text: str) -> tuple[tuple[str, str, float], ...]:
    """Read what a rule asks of facts; each limit with what rounding may be off by."""
    found = []
    for part in filter(None, (clause.strip() for clause in text.split(";"))):
        for sign in _SIGNS:
            fact, at, limit = part.partition(sign)
            if at:
                value = measure(limit)
                assert value is not None
                slack = 1e-9 * arith.max(abs(value), 1.0)
                found.append((fact, sign, value + (slack if sign in ("<=", ">") else -slack)))
                break
        else:
            found.append((part, ">=", 0.5))  # a fact that is 1 or 0
    return tuple(found)


def _rule(row: tables.Row) -> Rule:
    return Rule(
        row["rule"],
        row["unit"],
        row["item"],
        int(row["count"] or 0),
        row["hours"],
        _clauses(row["when"]),
        measure(row["height_low"]),
        measure(row["height_high"]),
        measure(row["edge"]),
        measure(row["seen"]),
        row["basis"],
        row["text"],
        row["source"],
    )


def place_row(place: str) -> tables.Row:
    """Return the row of road_places.

    Raises
    ------
    LookupError
        When the table has no such place.
    """
    row = tables.by_key("road/road_places", "place").get(place)
    if row is None:
        raise LookupError(f"There is no place {place!r}.")
    return row


@cache
def rules_of(place: str) -> tuple[Rule, ...]:
    """Return every rule that may apply in a place. The general pattern of state law stands in
    only where no lamp law of the state itself is in the table."""
    sets = place_row(place)["rule_sets"].split()
    found = [_rule(row) for row in tables.rows("road/road_requirements") if row["place"] in sets]
    own = {rule.item for rule in found if rule.basis == "law"}
    if own & {"head_lamps", "tail_lamps"}:
        found = [rule for rule in found if rule.basis != "pattern"]
    return tuple(found)


def has_own_rules(place: str) -> bool:
    """Return whether any rule of the place itself is in the tables.

    Parameters
    ----------
    place : str
        A place of road_places.
    """
    return any(row["place"] == place for row in tables.rows("road/state_road_rules"))


def standard_binds(place: str, made: float, field_equipment: bool) -> bool:
    """Return whether a machine of this age is held to the whole standard at a place.

    In the United States a federal rule binds makers of field equipment made for sale from
    2017-06-22. It makes no older machine unlawful, and it excuses nobody from the lamp law of a
    state. Some states hold machines to the standard from a model year of their own.

    Parameters
    ----------
    place : str
        A place of road_places.
    made : float
        Date made as a decimal year. A plain 2017 counts as its first day. [year]
    field_equipment : bool
        False for lawn and garden machines of homeowners.

    References
    ----------
    [1]_, [3]_

    Examples
    --------
    >>> standard_binds("TX", 2018, True), standard_binds("TX", 2016, True)
    (True, False)
    >>> standard_binds("OH", 2003, True), standard_binds("OH", 2001, True)
    (True, False)
    """
    if not field_equipment:
        return False
    row = place_row(place)
    starts = [FEDERAL_DATE] if row["country"] == "US" else []
    if row["standard_from"]:
        starts.append(float(row["standard_from"]))
    return bool(starts) and made >= min(starts)


@cache
def _rules_by_item(place: str) -> dict[tuple[str, str], list[Rule]]:
    found: dict[tuple[str, str], list[Rule]] = {}
    for rule in rules_of(place):
        found.setdefault((rule.unit, rule.item), []).append(rule)
    return found


def _tightest(values: list[float | None], *, low: bool) -> float | None:
    known = [value for value in values if value is not None]
    if not known:
        return None
    return arith.max(known) if low else arith.min(known)


def _merge(rules: list[Rule], maker: bool) -> Need:
    bases = ["maker" if maker and rule.basis == "standard" else rule.basis for rule in rules]
    seen = [rule.seen for rule in rules if rule.seen is not None]
    return Need(
        rules[0].item,
        rules[0].unit,
        arith.max(rule.count for rule in rules),
        "any" if any(rule.hours == "any" for rule in rules) else "dark",
        min(bases, key=BASES.index),
        _tightest([rule.height_low for rule in rules], low=True),
        _tightest([rule.height_high for rule in rules], low=False),
        _tightest([rule.edge for rule in rules], low=False),
        arith.max(seen) if seen else None,
        tuple(rules),
    )


def needs(
    place: str,
    facts: Facts,
    federal: Mapping[str, bool] | None = None,
    by_day: bool = False,
    only: tuple[str, str] | None = None,
) -> list[Need]:
    """Return everything that the rules of a place ask for, one entry for each unit and item.

    Rules that ask for the same item are merged: the largest count, the tightest position.

    Parameters
    ----------
    place : str
        A place of road_places.
    facts : mapping
        The facts that the module describes, in base units.
    federal : mapping, optional
        For "tractor" and "towed", whether the standard binds it.
    by_day : bool
        True leaves out the rules for the hours when lamps are required.
    only : (str, str), optional
        A unit and an item: nothing else is looked at.

    Returns
    -------
    list of Need

    References
    ----------
    [2]_, [3]_
    """
    grouped: dict[tuple[str, str], list[Rule]] = {}
    for rule in rules_of(place) if only is None else _rules_by_item(place).get(only, ()):
        if rule.unit == "towed" and not facts.get("behind"):
            continue
        if by_day and rule.hours == "dark":
            continue
        if rule.applies(facts):
            grouped.setdefault((rule.unit, rule.item), []).append(rule)
    federal = federal or {}
    return [_merge(rules, federal.get(unit, False)) for (unit, _), rules in grouped.items()]
