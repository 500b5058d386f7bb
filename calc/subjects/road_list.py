"""What a machine on the road needs, gathered from its rules: facts, lists and their wording."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from calc import arith, model, si, tables
from calc.mechanics import mirrors, road_limits, road_rules, smv_emblem

EMBLEM_HEIGHT = 14 * si.INCH  # m, road/LAW-NE
SEATED_EYE = 1.68  # m above the road, road/SIZE-practice
HOOD_HEIGHT = 0.9  # m, the part of a following car that one must see, road/SIZE-practice

# What each state of the implement's marking carries.
_REFLECTIVE = frozenset({"rear_reflectors", "rear_strips", "front_strips", "left_front_strip"})
_LAMPS = frozenset(
    {"tail_lamps", "amber_flashers", "turn_signals", "left_marker", "side_markers", "stop_lamps"}
)
CARRIES: dict[str, frozenset[str]] = {
    "none": frozenset(),
    "reflectors": _REFLECTIVE,
    "emblem": _REFLECTIVE | {"emblem"},
    "full": _REFLECTIVE | _LAMPS | {"emblem"},
}
BINDING = ("law", "maker", "pattern", "memory")


class Later[T](dict[str, T]):
    """What is known, and what costs more, which is worked out when somebody asks for it."""

    def __init__(self, known: Mapping[str, T], later: Mapping[str, Callable[[], T]]) -> None:
        super().__init__(known)
        self._later = later

    def __missing__(self, name: str) -> T:
        self[name] = found = self._later[name]()
        return found

    def get(self, name: str, default: Any = None) -> Any:
        """Return what is or can be known under a name."""
        return self[name] if name in self or name in self._later else default


@dataclass(frozen=True)
class Situation:
    """The facts of one trip and what follows from them, worked out when it is asked for."""

    v: model.Inputs
    facts: Later[float]
    _clear: Callable[[], float]

    @cached_property
    def clear_tail(self) -> float:
        """The lowest height at which the tail lamps show over what is behind."""
        return self._clear()

    @cached_property
    def federal(self) -> Later[bool]:
        """Whether the standard binds each unit: by the federal rule, or the state's own year."""
        v = self.v

        def binds(made: float) -> bool:
            return road_rules.standard_binds(v.place, made, v.use == "field")

        return Later(
            {}, {"tractor": lambda: binds(v.tractor_made), "towed": lambda: binds(v.implement_made)}
        )

    @property
    def american(self) -> bool:
        """Whether the place is in the United States."""
        return road_rules.place_row(self.v.place)["country"] == "US"

    @cached_property
    def _emblem(self) -> tuple[str, bool]:
        return smv_emblem.emblem_use(self.v.place, self.v.top_speed, self.v.road_speed)

    @property
    def emblem_use(self) -> str:
        """What becomes of the emblem."""
        return self._emblem[0]

    @property
    def symbol(self) -> bool:
        """Whether a speed symbol goes with it."""
        return self._emblem[1]

    @property
    def symbol_law(self) -> bool:
        """Whether the law of the place itself asks for the speed symbol."""
        rule = smv_emblem.emblem_rule(self.v.place)
        return rule is not None and rule.required == "law" and rule.above == "with symbol"

    @cached_property
    def emblem_behind(self) -> tuple[str, str, str] | None:
        """Why the unit behind needs its own emblem, the source and the basis."""
        v, facts = self.v, self.facts
        if not facts["behind"] or self.emblem_use not in ("show", "with symbol"):
            return None
        on_wheels, hidden = bool(facts["on_wheels"]), bool(facts["hides_emblem"])
        return smv_emblem.emblem_on_towed(
            v.place, hidden, facts["behind"], v.implement_made, on_wheels
        )

    @cached_property
    def needs(self) -> list[road_rules.Need]:
        """Everything that the rules ask for."""
        return road_rules.needs(self.v.place, self.facts, self.federal, self.v.hours == "day")

    @cached_property
    def _by_item(self) -> dict[tuple[str, str], road_rules.Need]:
        return {(need.unit, need.item): need for need in self.needs}

    @property
    def daylight(self) -> road_rules.Need | None:
        """The need to travel by day, whichever unit asks for it."""
        return self.need("tractor", "daylight") or self.need("towed", "daylight")

    def need(self, unit: str, item: str) -> road_rules.Need | None:
        """The need of one item, if there is one; a proof of one check looks at no other rules."""
        if not model.apart() and model.wants():
            return self._by_item.get((unit, item))
        found = road_rules.needs(
            self.v.place, self.facts, self.federal, self.v.hours == "day", (unit, item)
        )
        return found[0] if found else None


def extents(v: model.Inputs) -> tuple[float, float]:
    """How far what is behind reaches left and right of the tractor's center line."""
    if v.behind_kind == "none":
        return 0.0, 0.0
    half = v.transport_width / 2
    return arith.max(half + v.offset_left, 0.0), arith.max(half - v.offset_left, 0.0)


def _sides(offset: float) -> tuple[float, ...]:
    """Where the lamps of a pair are, or the one thing in the middle."""
    return (offset, -offset) if offset.__class__ is not float or offset else (offset,)


def situation(v: model.Inputs) -> Situation:
    """Work out what the rules of the place ask for."""
    left, right = extents(v)
    behind = v.behind_hitch if v.behind_kind != "none" else 0.0
    screened = behind > 0 and v.see_through == "solid"
    top = v.implement_top if screened else 0.0
    bottom = arith.min(v.implement_bottom, top)
    away = v.lamps_to_implement

    def hides(height: float, offset: float) -> float:
        if not screened:
            return 0.0
        return arith.max(
            mirrors.hidden(height, side, away, bottom, top, left, right) for side in _sides(offset)
        )

    def clear(offset: float) -> float:
        if not screened:
            return 0.0
        return arith.max(
            mirrors.lowest_clear_height(side, away, top, left, right) for side in _sides(offset)
        )

    spread = v.lamp_spread / 2

    def hides_emblem() -> float:
        # An emblem counts when all of it is seen: a covered corner changes its shape at night.
        return arith.max(
            hides(v.emblem_height + share * EMBLEM_HEIGHT, 0.0) for share in (0.0, 0.5, 1.0)
        )

    view = SEATED_EYE + (HOOD_HEIGHT - SEATED_EYE) * away / mirrors.MIRROR_VIEW
    half = v.tractor_width / 2
    carried = v.behind_kind == "carried"
    on_wheels = v.behind_kind in ("trailed", "trailer", "carried")
    known = {
        "tractor_width": v.tractor_width,
        "implement_width": v.transport_width if behind else 0.0,
        "load_width": v.transport_width if carried else 0.0,
        "width": arith.max(left, half) + arith.max(right, half),
        "left": left,
        "right": right,
        "reach": arith.max(left, right),
        "behind": behind,
        "length": v.combination_length,
        "height": arith.max(v.overall_height, top),
        "speed": v.top_speed,
        "made": v.tractor_made,
        "implement_made": v.implement_made,
        "hides_rear": arith.below(view, top) if screened else 0.0,
        "on_wheels": arith.number(on_wheels),
        "carried": arith.number(carried),
        "road_trailer": arith.number(v.behind_kind == "trailer"),
        "duals": arith.number(v.duals == "yes"),
        "tail_lamps": v.tail_lamps,
    }
    facts: Later[float] = Later(
        known,
        {
            "hides_tail": lambda: hides(v.tail_height, spread),
            "hides_amber": lambda: hides(v.flasher_height, spread),
            "hides_turn": lambda: facts["hides_amber"],
            "hides_emblem": hides_emblem,
        },
    )
    return Situation(v, facts, lambda: clear(spread))


def width_checks(place: str, hours: str, width: float) -> list[model.Check]:
    """Return the checks of a width on its own wheels against the rule of a place, if any."""
    rule = road_limits.width_rule(place)
    if rule is None:
        return []
    checks = []
    free = rule.free_night if hours == "dark" else rule.free_day
    if rule.maximum is not None:
        checks.append(
            model.at_most(
                "width_limit",
                "Widest that may travel",
                width,
                rule.maximum,
                "length",
                rule.source,
                close_band=0.0,
                unit_us="ft",
                why="Beyond this it needs a permit of its own.",
                broken="Wider than may travel",
            )
        )
    if free is not None and (rule.maximum is None or width <= rule.maximum):
        wide = width > free + 1e-9
        checks.append(
            model.fits(
                "width",
                "Width without more conditions",
                0.0 if wide else 1.0,
                model.phrase(
                    "Wider than {free}. " + rule.note + "." if wide else "Within {free}.",
                    free=(free, "length"),
                ),
                rule.source,
            )
        )
    return checks


def count_of(need: road_rules.Need, bases: tuple[str, ...], federal: bool) -> int:
    """The largest count asked for by rules of these bases; a federal duty makes the standard
    binding on the maker."""
    return arith.max(
        (
            rule.count
            for rule in need.rules
            if rule.basis in bases or (federal and rule.basis == "standard" and "maker" in bases)
        ),
        default=0,
    )


def cited(need: road_rules.Need) -> str:
    """The sources of a need."""
    return "; ".join(dict.fromkeys(rule.source for rule in need.rules))


# --- the lists -------------------------------------------------------------------------------


def item_row(item: str) -> tables.Row:
    """The row of road_items."""
    return tables.by_key("road/road_items", "item")[item]


def listed(found: Situation, unit: str) -> list[road_rules.Need]:
    """The things that a unit carries, in the order of the drawing."""
    return sorted(
        (n for n in found.needs if n.unit == unit and item_row(n.item)["group"] == "fit"),
        key=lambda need: int(item_row(need.item)["order"]),
    )


def item_count(v: model.Inputs, found: Situation) -> int:
    """How many items the lists hold."""
    fit = sum(item_row(need.item)["group"] == "fit" for need in found.needs)
    shown = found.emblem_use in ("show", "with symbol")
    return fit + shown + found.symbol + bool(found.emblem_behind)
