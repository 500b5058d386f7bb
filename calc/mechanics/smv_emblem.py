"""The slow-moving vehicle emblem: how high it may hang, who may or must show it, where.

References
----------
.. [1] road/EXT-1, road/WEB-1, road/LAW-WI2, S279 in several editions.
.. [2] road/STD-1, road/STD-2, road/EXT-2, emblem and speed symbol.
"""

from dataclasses import dataclass
from functools import cache

from calc import arith, si, tables
from calc.mechanics import road_rules

EMBLEM_ON_ALL_TOWED_FROM = 2019.75  # S279.18 of October 2019 (road/ASABE-1)
LAST_UNIT_DISTANCE = 16.4 * si.FOOT  # m behind the hitch (road/LAW-WI2)


@dataclass(frozen=True, slots=True)
class EmblemRule:
    """One row of emblem_rules, read.

    `counts`: which speed the rule looks at: "" what the machine is designed for, "usual" what it is
    moved at, "every" none. `below`: a machine of just that speed is outside. `amber_instead`: a
    flashing amber light may stand in for the emblem, in that state alone.
    """

    place: str
    required: str
    speed_to: float
    counts: str
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
    speed = road_rules.measure(row["speed_to"])
    assert speed is not None
    return EmblemRule(
        place,
        row["required"],
        speed,
        row["counts"],
        row["below"] == "yes",
        row["instead"] == "amber",
        road_rules.measure(row["over_to"]),
        row["above"],
        road_rules.measure(row["height_low"]),
        road_rules.measure(row["height_high"]),
        road_rules.measure(row["seen"]),
        row["towed"],
        row["text"],
        row["source"],
    )


def emblem_rule_of_standard() -> EmblemRule:
    """Return the standard's rule as it stands.

    References
    ----------
    [2]_
    """
    rule = emblem_rule("US-STD")
    assert rule is not None
    return rule


def emblem_rule_for(place: str) -> EmblemRule | None:
    """Return the emblem rule that governs in a place: its own, else the standard where the
    standard is used there, else None.

    References
    ----------
    [2]_
    """
    own = emblem_rule(place)
    if own is not None:
        return own
    return (
        emblem_rule("US-STD")
        if "US-STD" in road_rules.place_row(place)["rule_sets"].split()
        else None
    )


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
    [2]_

    Examples
    --------
    >>> emblem_use("OH", 25 * si.MPH)
    ('show', False)
    >>> emblem_use("OH", 30 * si.MPH)
    ('with symbol', True)
    >>> emblem_use("PA", 30 * si.MPH)
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


def emblem_by_law(place: str, design_speed: float, travel_speed: float) -> bool:
    """Return whether a law, or where none was read the pattern of the others, wants an emblem.

    What the standard alone asks for is left out: above its speed most laws are silent, and the
    standard has emblem and speed symbol together.

    Parameters
    ----------
    place : str
        A place of road_places.
    design_speed, travel_speed : float
        What the machine is designed for, and what it is driven at. [m/s]

    References
    ----------
    The law of each place in emblem_rules; road/STD-1 for the pattern.

    Examples
    --------
    Designed for 26 mph and driven at 20: Wisconsin looks at what is usual, Texas at the design.

    >>> fast, slow = 26 * si.MPH, 20 * si.MPH
    >>> emblem_by_law("WI", fast, slow), emblem_by_law("TX", fast, slow)
    (True, False)
    >>> emblem_by_law("OH", fast, fast), emblem_by_law("TX", 25 * si.MPH, slow)
    (True, True)
    """
    rule = emblem_rule_for(place)
    if rule is None:
        return False
    if rule.required not in ("law", "memory") and road_rules.place_row(place)["country"] != "US":
        return False
    moved = rule.counts == "usual" or rule.above == "covered"
    speed = arith.min(travel_speed, design_speed) if moved else design_speed
    if rule.counts == "every":
        return True
    inside = 1 - 1e-9 if rule.below else 1 + 1e-9
    if speed < rule.speed_to * inside:
        return True
    top = rule.over_to if rule.above == "with symbol" and rule.required == "law" else None
    return top is not None and design_speed < top * (1 - 1e-9)


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
    [1]_, [2]_
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
    if "US-STD" not in road_rules.place_row(place)["rule_sets"].split():
        return None
    if on_wheels and implement_made >= EMBLEM_ON_ALL_TOWED_FROM:
        return "S279.18: on every towed machine made under it", "road/ASABE-1", "standard"
    if behind_hitch > LAST_UNIT_DISTANCE * (1 + 1e-9):
        return "It reaches more than 16.4 ft (5 m) behind the hitch", "road/LAW-WI2", "standard"
    return None
