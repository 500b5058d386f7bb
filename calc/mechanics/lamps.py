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
.. [3] road/STD-1, road/STD-2, road/EXT-2, emblem and speed symbol.
.. [4] The law of each place: the table state_road_rules.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc import arith, tables

Facts = Mapping[str, float]

FEDERAL_DATE = 2017 + (31 + 28 + 31 + 30 + 31 + 21) / 365  # 2017-06-22 as a decimal year [1]
EMBLEM_ON_ALL_TOWED_FROM = 2019.75  # S279.18 of October 2019 (road/ASABE-1)
LAST_UNIT_DISTANCE = 16.4 * 0.3048  # m behind the hitch (road/LAW-WI2)
MPH = 0.44704

_UNITS = {"ft": 0.3048, "in": 0.0254, "mm": 0.001, "m": 1.0, "mph": MPH, "km/h": 1 / 3.6}
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
            slack = 1e-9 * arith.max(abs(limit), 1.0)
            if sign == ">=" and value < limit - slack:
                return False
            if sign == "<=" and value > limit + slack:
                return False
            if sign == ">" and value <= limit + slack:
                return False
            if sign == "<" and value >= limit - slack:
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
    found = []
    for part in filter(None, (clause.strip() for clause in text.split(";"))):
        for sign in _SIGNS:
            fact, at, limit = part.partition(sign)
            if at:
                value = measure(limit)
                assert value is not None
                found.append((fact, sign, value))
                break
        else:
            found.append((part, ">=", 1.0))
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


def federal_rule_applies(made: float, field_equipment: bool) -> bool:
    """Return whether the federal lighting rule bound the maker of a machine.

    It binds makers of field equipment made for sale from 2017-06-22. It makes no older machine
    unlawful, and it excuses nobody from the lamp law of a state.

    Parameters
    ----------
    made : float
        Date made as a decimal year. A plain 2017 counts as its first day. [year]
    field_equipment : bool
        False for lawn and garden machines of homeowners.

    References
    ----------
    [1]_

    Examples
    --------
    >>> federal_rule_applies(2018, True), federal_rule_applies(2016, True)
    (True, False)
    """
    return field_equipment and made >= FEDERAL_DATE


def standard_binds(place: str, made: float) -> bool:
    """Return whether a state holds a machine of this age to the whole standard.

    Parameters
    ----------
    place : str
        A place of road_places.
    made : float
        Date made as a decimal year. [year]

    References
    ----------
    [4]_

    Examples
    --------
    >>> standard_binds("OH", 2003), standard_binds("OH", 2001), standard_binds("TX", 2016)
    (True, False, False)
    """
    start = place_row(place)["standard_from"]
    return bool(start) and made >= float(start)


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
        For "tractor" and "towed", whether the federal rule bound the maker.
    by_day : bool
        True leaves out the rules for the hours when lamps are required.
    only : (str, str), optional
        A unit and an item: nothing else is looked at.

    Returns
    -------
    list of Need

    References
    ----------
    [2]_, [4]_
    """
    grouped: dict[tuple[str, str], list[Rule]] = {}
    for rule in rules_of(place):
        if rule.unit == "towed" and not facts.get("behind"):
            continue
        if by_day and rule.hours == "dark":
            continue
        if only is not None and only != (rule.unit, rule.item):
            continue
        if rule.applies(facts):
            grouped.setdefault((rule.unit, rule.item), []).append(rule)
    federal = federal or {}
    return [_merge(rules, federal.get(unit, False)) for (unit, _), rules in grouped.items()]


# --- emblem and speed symbol -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class EmblemRule:
    """One row of emblem_rules, read.

    `below`: a machine of just that speed is outside. `amber_instead`: a flashing amber light may
    stand in for the emblem, in that state alone.
    """

    place: str
    required: str
    speed_to: float
    below: bool
    amber_instead: bool
    over_to: float | None
    above: str
    height_low: float | None
    height_high: float | None
    seen: float | None
    towed: str
    text: str
    source: str


@cache
def emblem_rule(place: str) -> EmblemRule | None:
    """Return the emblem rule of a place itself, None when the table has none.

    Parameters
    ----------
    place : str
        A place, "US-STD" for the standard as it stands or "US-STD-old" for older editions.
    """
    row = tables.by_key("road/emblem_rules", "place").get(place)
    if row is None:
        return None
    speed = measure(row["speed_to"])
    assert speed is not None
    return EmblemRule(
        place,
        row["required"],
        speed,
        row["below"] == "yes",
        row["instead"] == "amber",
        measure(row["over_to"]),
        row["above"],
        measure(row["height_low"]),
        measure(row["height_high"]),
        measure(row["seen"]),
        row["towed"],
        row["text"],
        row["source"],
    )


def emblem_rule_of_standard() -> EmblemRule:
    """Return the standard's rule as it stands.

    References
    ----------
    [3]_
    """
    rule = emblem_rule("US-STD")
    assert rule is not None
    return rule


def emblem_rule_for(place: str) -> EmblemRule | None:
    """Return the emblem rule that governs in a place: its own, else the standard where the
    standard is used there, else None.

    References
    ----------
    [3]_
    """
    own = emblem_rule(place)
    if own is not None:
        return own
    return emblem_rule("US-STD") if "US-STD" in place_row(place)["rule_sets"].split() else None


def emblem_window(place: str) -> tuple[float, float]:
    """Return the heights between which the emblem's lower edge may be, in one place.

    A law without a height leaves it to the standard as it stands.

    Parameters
    ----------
    place : str
        A place with an emblem rule, or "US-STD-old".

    Returns
    -------
    low, high : float
        [m]

    Raises
    ------
    LookupError
        When no emblem rule is used there.
    """
    rule = emblem_rule(place) if place.startswith("US-STD") else emblem_rule_for(place)
    standard = emblem_rule("US-STD")
    if rule is None or standard is None:
        raise LookupError(f"No emblem rule is used in {place!r}.")
    if rule.height_low is None and rule.height_high is None:
        rule = standard
    low = rule.height_low if rule.height_low is not None else standard.height_low
    high = rule.height_high if rule.height_high is not None else standard.height_high
    assert low is not None
    assert high is not None
    return low, high


@cache
def emblem_height_places() -> tuple[str, ...]:
    """Return the places whose own rule gives a height, and the standard's two editions."""
    return tuple(
        row["place"]
        for row in tables.rows("road/emblem_rules")
        if row["height_low"] or row["height_high"]
    )


def emblem_fails(height: float) -> list[str]:
    """Return the places where an emblem whose lower edge is at this height is wrong.

    Parameters
    ----------
    height : float
        Lower edge above the road. [m]

    Examples
    --------
    >>> sorted(emblem_fails(0.762))
    ['AL', 'CA', 'GA', 'KY', 'MD', 'MI', 'MO', 'MT']
    """
    failing = []
    for place in emblem_height_places():
        low, high = emblem_window(place)
        if not low - 1e-9 <= height <= high + 1e-9:
            failing.append(place)
    return failing


def emblem_height_for_all() -> tuple[float, float]:
    """Return the heights that satisfy every rule in the table at once. [m]

    Returns
    -------
    low, high : float
        [m]
    """
    windows = [emblem_window(place) for place in emblem_height_places()]
    return arith.max(low for low, _ in windows), arith.min(high for _, high in windows)


def emblem_use(
    place: str, design_speed: float, travel_speed: float | None = None
) -> tuple[str, bool]:
    """Return what to do with the emblem, and whether the speed symbol goes with it.

    Parameters
    ----------
    place : str
        A place of road_places.
    design_speed : float
        The speed that the machine is designed for, or limited to. [m/s]
    travel_speed : float, optional
        The speed driven: where the emblem comes off only while it is exceeded, this counts.
        [m/s]

    Returns
    -------
    use : str
        "show", "with symbol" (emblem and speed symbol), "covered" (remove or cover it),
        "not shown", or "none" where no emblem rule is used.
    symbol : bool
        Whether a speed identification symbol is shown.

    References
    ----------
    [3]_

    Examples
    --------
    >>> emblem_use("OH", 18 * MPH)
    ('show', False)
    >>> emblem_use("OH", 30 * MPH)
    ('with symbol', True)
    >>> emblem_use("PA", 30 * MPH)
    ('not shown', False)
    """
    rule = emblem_rule_for(place)
    if rule is None:
        return "none", False
    counted = design_speed
    if rule.above == "covered" and travel_speed is not None:
        counted = arith.min(travel_speed, design_speed)
    if counted <= rule.speed_to * (1 + 1e-9):
        return "show", False
    standard = emblem_rule("US-STD")
    assert standard is not None
    if rule.above in ("covered", "not shown"):
        return rule.above, False
    top = rule.over_to or standard.over_to
    # Designed for less than 40 mph: at 40 mph and above there is neither.
    if top is not None and design_speed < top * (1 - 1e-9):
        return "with symbol", True
    return "not shown", False


def emblem_on_towed(
    place: str,
    hidden: bool,
    behind_hitch: float,
    implement_made: float,
    on_wheels: bool = True,
) -> tuple[str, str, str] | None:
    """Return why the unit behind needs its own emblem, the source and the basis, or None.

    Parameters
    ----------
    place : str
        A place of road_places.
    hidden : bool
        Whether it hides the tractor's emblem.
    behind_hitch : float
        How far it reaches behind the hitch, more than 0. [m]
    implement_made : float
        Year made. [year]
    on_wheels : bool
        False for an implement on the three-point hitch: it is no unit of the combination, and
        needs an emblem only when it hides the tractor's or reaches far back.

    Examples
    --------
    >>> emblem_on_towed("TX", False, 4.8, 2018), emblem_on_towed("TX", False, 5.1, 2018)[1]
    (None, 'road/LAW-WI2')

    References
    ----------
    [2]_, [3]_
    """
    rule = emblem_rule_for(place)
    if rule is None:
        return None
    if on_wheels and rule.towed in ("each", "rearmost"):
        which = "every unit shows its own" if rule.towed == "each" else "it goes on the last unit"
        return f"The law here: {which}", rule.source, "law"
    if hidden:
        source = rule.source if rule.towed or rule.seen else "road/WEB-1"
        return "The tractor’s emblem is hidden", source, rule.required
    if "US-STD" not in place_row(place)["rule_sets"].split():
        return None
    if on_wheels and implement_made >= EMBLEM_ON_ALL_TOWED_FROM:
        return "S279.18: on every towed machine made under it", "road/ASABE-1", "standard"
    if behind_hitch > LAST_UNIT_DISTANCE * (1 + 1e-9):
        return "It reaches more than 16.4 ft (5 m) behind the hitch", "road/LAW-WI2", "standard"
    return None


# --- width and speed -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class WidthRule:
    """One row of road_widths, read. None means that no limit was read."""

    free_day: float | None
    free_night: float | None
    maximum: float | None
    note: str
    source: str


@cache
def width_rule(place: str) -> WidthRule | None:
    """Return the width rule of a machine on its own wheels, None when none was read.

    Parameters
    ----------
    place : str
        A place of road_places.
    """
    row = tables.by_key("road/road_widths", "place").get(place)
    if row is None:
        return None
    return WidthRule(
        measure(row["free_day"]),
        measure(row["free_night"]),
        measure(row["maximum"]),
        row["note"],
        row["source"],
    )


@cache
def carried_width(place: str) -> tuple[float, str, str] | None:
    """Return the width limit, its text and source when the machine rides on a trailer.

    Parameters
    ----------
    place : str
        A place; without a row of its own the general limit of its country is used, and None
        where none was read. [m]
    """
    rows = tables.by_key("road/carried_widths", "place")
    row = rows.get(place) or rows.get(place_row(place)["country"])
    if row is None:
        return None
    limit = measure(row["limit"])
    assert limit is not None
    return limit, row["text"], row["source"]


def road_speed_limit(place: str, width: float) -> tuple[float, str, str] | None:
    """Return the speed limit of a farm machine on the road, its text and source.

    Parameters
    ----------
    place : str
        A place of road_places.
    width : float
        Widest part. [m]

    Returns
    -------
    tuple or None
        Limit [m/s], text, source; a limit of 0 where the machine may not travel without a
        special order; None where no limit of its own was read.

    Examples
    --------
    >>> round(road_speed_limit("UK", 2.9)[0] / MPH)
    20
    >>> round(road_speed_limit("UK", 3.5)[0] / MPH)
    12
    """
    found = False
    for row in _speed_rows(place):
        found = True
        over, start, to, below, limit, text, source = row
        if over is not None and width <= over + 1e-9:
            continue
        if start is not None and width < start - 1e-9:
            continue
        if to is not None and width > to + 1e-9:
            continue
        if below is not None and width >= below - 1e-9:
            continue
        return limit, text, source
    if found:
        return 0.0, "Wider than the order allows: only under a special order", "road/UK-3"
    return None


_SpeedRow = tuple[float | None, float | None, float | None, float | None, float, str, str]


@cache
def _speed_rows(place: str) -> tuple[_SpeedRow, ...]:
    return tuple(
        (
            measure(row["width_over"]),
            measure(row["width_from"]),
            measure(row["width_to"]),
            measure(row["width_below"]),
            measure(row["limit"]) or 0.0,
            row["text"],
            row["source"],
        )
        for row in tables.rows("road/road_speed_limits")
        if row["place"] == place
    )


def over_center_line(width: float, lane_width: float, shoulder_used: float = 0.0) -> float:
    """Return how far a machine reaches over the center line when its right side keeps to the
    edge, 0 when it stays inside. [m]

    Parameters
    ----------
    width, lane_width, shoulder_used : float
        [m]
    """
    return arith.max(width - lane_width - shoulder_used, 0.0)
