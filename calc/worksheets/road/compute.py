"""The sums: what the rules of the place ask for, against what is there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from calc import arith, model
from calc.mechanics import smv_emblem
from calc.subjects import road_list as rl
from calc.worksheets.road import behind, emblem, equipment, size

# The checks that one thing makes, how, and what it is of. Each is a group of its own, since none
# needs another, and all ask what the others don't.
_GROUPS: tuple[tuple[tuple[str, ...], Callable[..., None], tuple[Any, ...]], ...] = (
    (("emblem", "emblem_off"), emblem.shown, ()),
    (("emblem_height",), emblem.height, ()),
    (("speed_symbol", "no_symbol", "symbol_driven", "no_emblem"), emblem.symbol, ()),
    (("symbol_speed",), emblem.symbol_speed, ()),
    *(((item, f"{item}_standard"), equipment.count, (item,)) for item in equipment.COUNTED),
    *(
        ((f"{item}_height", f"{item}_height_standard"), equipment.height, (item, field))
        for item, field in equipment.PLACED
    ),
    *(
        ((f"{item}_edge", f"{item}_edge_standard"), equipment.edge, (item,))
        for item, _ in equipment.PLACED
    ),
    (("head_lamps_seen",), equipment.head_lamps_seen, ()),
    *(((name,), behind.seen, (name, *placed)) for name, placed in behind.SEEN.items()),
    (("behind",), behind.marking, ()),
    (("emblem_seen",), behind.emblem_seen, ()),
    (("mirror",), behind.mirror, ()),
    (("width_limit", "width"), size.width, ()),
    (("carried",), size.carried, ()),
    (("daylight",), size.daylight, ()),
    *(((name,), size.condition, (name, items)) for name, items in size.CONDITIONS.items()),
    (("rated_speed",), size.rated_speed, ()),
    (("special_order", "speed"), size.speed, ()),
)


def compute(v: model.Inputs, at: model.At) -> None:
    """Check emblem, lamps, what is hidden, width, speed and view, each in a function."""
    found = rl.situation(v)
    rule = smv_emblem.emblem_rule_for(v.place)
    at.emblem_speed = rule.speed_to if rule else smv_emblem.emblem_rule_of_standard().speed_to
    at.width, at.reach = found.facts["width"], found.facts["reach"]
    at.left = found.facts["left"]
    if model.wants("clear_tail"):
        at.clear_tail = found.clear_tail
    at.inward = arith.max((v.tractor_width - v.lamp_spread) / 2, 0.0)
    for names, make, more in _GROUPS:
        at.group(names, make, v, at, found, *more)
    size.height(v, at, found)
    at.group(("lane",), size.lane, v, at, found)
    at.group(("items",), _items, v, at, found)
    if v.behind_kind != "none":
        at.step(
            "left", "l = w / 2 + offset", "road/CALC-1", w="transport_width", offset="offset_left"
        )
    if at.showing and found.clear_tail > 0:
        at.step(
            "clear_tail",
            "h = (top − eye × x/D) / (1 − x/D), the largest",
            "road/DOT-1; road/CALC-1",
            top="implement_top",
            x="lamps_to_implement",
        )


def _items(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """How many things the lists hold, which no check needs."""
    if model.shows():
        at.items = arith.number(rl.item_count(v, found))
