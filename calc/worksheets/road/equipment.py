"""Lamps and reflectors of the tractor: how many, how high, how near to the edge."""

from __future__ import annotations

from calc import arith, model, si
from calc.mechanics import road_rules
from calc.subjects import road_list as rl

COUNTED = (
    "head_lamps",
    "tail_lamps",
    "stop_lamps",
    "amber_flashers",
    "turn_signals",
    "rear_reflectors",
)
PLACED = (("tail_lamps", "tail_height"), ("amber_flashers", "flasher_height"))
HIGHEST = 10 * si.FOOT  # where a rule has no upper limit: the standard's, road/EXT-1
_NOTHING = 1e-9


def count(v: model.Inputs, at: model.At, found: rl.Situation, item: str) -> None:
    """What is there against what binding rules ask for; more by the standard is told apart."""
    need = found.need("tractor", item)
    if need is None:
        return
    federal = found.federal["tractor"]
    has = getattr(v, item)
    bound = rl.count_of(need, rl.BINDING, federal)
    asked = rl.count_of(need, road_rules.BASES, federal)
    source = rl.cited(need)
    if bound:
        at.at_least(item, item, arith.number(bound), source, close_band=0.0)
    if asked > bound and has >= bound:
        enough = 1.0 - arith.below(has, asked)
        at.fits(f"{item}_standard", enough, source, "asks", asked=(float(asked), "count"))


def _binding(need: road_rules.Need, attribute: str, found: rl.Situation) -> bool:
    return any(
        getattr(rule, attribute) is not None
        and (rule.basis in rl.BINDING or found.federal["tractor"])
        for rule in need.rules
    )


def height(v: model.Inputs, at: model.At, found: rl.Situation, item: str, field: str) -> None:
    """Height of tail or warning lamps, where a rule gives it and there are lamps."""
    need = found.need("tractor", item)
    if need is None or need.height_low is None or getattr(v, item) <= 0:
        return
    name = f"{item}_height"
    low, high = need.height_low, need.height_high or HIGHEST
    source = rl.cited(need)
    if _binding(need, "height_low", found):
        at.between(name, field, low, high, source, close_band=0.0)
        return
    value = getattr(v, field)
    outside = arith.max(arith.below(value, low - _NOTHING), arith.below(high + _NOTHING, value))
    ends = {"low": (low, "length"), "high": (high, "length")}
    at.fits(f"{name}_standard", 1.0 - outside, source, "wants", **ends)


def edge(v: model.Inputs, at: model.At, found: rl.Situation, item: str) -> None:
    """Lamps near enough to the widest part of the tractor, where a rule says how near."""
    need = found.need("tractor", item)
    if need is None or need.edge is None or getattr(v, item) <= 0:
        return
    name = f"{item}_edge"
    source = rl.cited(need)
    if _binding(need, "edge", found):
        at.at_most(name, "inward", need.edge, source, close_band=0.0)
    else:
        near = 1.0 - arith.below(need.edge + _NOTHING, at.inward)
        at.fits(f"{name}_standard", near, source, "wants", edge=(need.edge, "length"))


def head_lamps_seen(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """A lamp behind a bucket displays nothing: the duty is on what is seen."""
    if v.bucket != "front":
        return
    need = found.need("tractor", "head_lamps")
    if need is not None:
        at.fits("head_lamps_seen", -1.0, rl.cited(need), "hidden")
