"""The sums: what the rules of the place ask for, against what is there."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import smv_emblem
from calc.subjects import road_list as rl
from calc.worksheets.road import behind, emblem, equipment, size


def compute(v: model.Inputs, at: model.At) -> None:
    """Check emblem, lamps, what is hidden, width, speed and view, each in a function."""
    found = rl.situation(v)
    rule = smv_emblem.emblem_rule_for(v.place)
    at.emblem_speed = rule.speed_to if rule else smv_emblem.emblem_rule_of_standard().speed_to
    at.width, at.reach = found.facts["width"], found.facts["reach"]
    at.left = found.facts["left"]
    if model.wants("clear_tail"):
        at.clear_tail = found.clear_tail
    emblem.shown(v, at, found)
    emblem.height(v, at, found)
    emblem.symbol(v, at, found)
    equipment.counts(v, at, found)
    equipment.heights(v, at, found)
    equipment.edges(v, at, found)
    equipment.head_lamps_seen(v, at, found)
    behind.seen(v, at, found)
    behind.marking(v, at, found)
    behind.mirror(v, at, found)
    size.width(v, at, found)
    size.carried(v, at, found)
    size.conditions(v, at, found)
    size.speed(v, at, found)
    size.height(v, at, found)
    size.lane(v, at, found)
    if model.wants():
        at.items = arith.number(rl.item_count(v, found))
    if v.behind_kind != "none":
        at.step(
            "left", "l = w / 2 + offset", "road/CALC-1", w="transport_width", offset="offset_left"
        )
    if model.wants() and found.clear_tail > 0:
        at.step(
            "clear_tail",
            "h = (top − eye × x/D) / (1 − x/D), the largest",
            "road/DOT-1; road/CALC-1",
            top="implement_top",
            x="lamps_to_implement",
        )
