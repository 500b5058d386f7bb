"""The emblem of slow machines, and the sign that states a speed."""

from __future__ import annotations

from calc import model
from calc.mechanics import smv_emblem
from calc.subjects import road_list as rl

SHOWN = ("show", "with symbol")


def shown(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether the emblem is there where it must be, and off where it must come off."""
    rule = smv_emblem.emblem_rule_for(v.place)
    if rule is None:
        return
    has = v.emblem == "yes"
    if found.emblem_use in SHOWN:
        duty = smv_emblem.emblem_by_law(v.place, v.top_speed, v.road_speed)
        instead = not has and rule.amber_instead and v.amber_flashers >= 1
        margin = 1.0 if has else (-1.0 if duty and not instead else 0.0)
        says = "there" if has else ("instead" if instead else "missing")
        at.fits("emblem", margin, rule.source, says)
    elif has:
        at.fits("emblem_off", -1.0, rule.source, found.emblem_use.replace(" ", "_"))


def height(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether its lower edge is as high as the rule of the place has it."""
    rule = smv_emblem.emblem_rule_for(v.place)
    if rule is None:
        return
    if found.emblem_use in SHOWN and v.emblem == "yes":
        low, high = smv_emblem.emblem_window(v.place)
        source = rule.source if rule.height_low else "road/EXT-2"
        at.between("emblem_height", "emblem_height", low, high, source, close_band=0.0)


def symbol(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether the speed sign is there where it belongs."""
    source = "road/STD-1; road/STD-2"
    if found.symbol:
        has = v.speed_symbol == "yes"
        binding = found.symbol_law or found.federal["tractor"]
        margin = 1.0 if has else (-1.0 if binding else 0.0)
        at.fits("speed_symbol", margin, source, "there" if has else "missing")
    elif found.emblem_use in SHOWN:
        # Where the speed driven counts, a faster machine shows the emblem alone.
        rule = smv_emblem.emblem_rule_for(v.place)
        faster = rule is not None and v.top_speed > rule.speed_to * (1 + 1e-9)
        at.fits("symbol_driven" if faster else "no_symbol", 1.0, source, "none")
    else:
        # Where the emblem itself comes off, nothing stands beside it.
        at.fits("no_emblem", 1.0, source, "none")


def symbol_speed(v: model.Inputs, at: model.At, _found: rl.Situation) -> None:
    """No faster than the sign says."""
    if v.symbol_speed is not None:
        at.at_most("symbol_speed", "road_speed", "symbol_speed", "road/STD-2", close_band=0.0)
