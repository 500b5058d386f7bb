"""Width and height, what they bring with them, and speed."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import road_limits, road_rules
from calc.sources import unique
from calc.subjects import road_list as rl

RIDES = ("carried", "trailer")  # kinds of what is behind whose load may be wide
# Each condition of a wide or special trip, the items of the list that ask for it, and whether
# the answer is that it is arranged.
CONDITIONS = {"escort": ("pilot", "attendant"), "permit": ("special_order", "notice")}


def width(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """The width on its own wheels."""
    if v.behind_kind != "carried":
        for check in rl.width_checks(v.place, v.hours, found.facts["width"]):
            at.add(check)


def carried(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """A machine or load that rides keeps the limit of loads, wherever it is carried."""
    limit = road_limits.carried_width(v.place) if v.behind_kind in RIDES else None
    if limit is not None:
        most, text, source = limit
        why = f"{text}."
        at.at_most(
            "carried", "transport_width", most, source, close_band=0.0, unit_us="ft", why=why
        )


def daylight(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Daylight, where the width asks for it."""
    day = found.daylight
    if day is not None:
        dark = v.hours == "dark"
        broken = -1.0 if day.basis in rl.BINDING else 0.0
        texts = "; ".join(rule.text for rule in day.rules)
        says = "dark" if dark else "day"
        at.fits("daylight", broken if dark else 1.0, rl.cited(day), says, text=texts)


def condition(
    v: model.Inputs, at: model.At, found: rl.Situation, name: str, items: tuple[str, ...]
) -> None:
    """An escort or a permit, where the width or the trip asks for it."""
    needs = [need for item in items if (need := found.need("tractor", item)) is not None]
    if not needs:
        return
    source = unique("; ".join(rl.cited(need) for need in needs))
    texts = "; ".join(rule.text for need in needs for rule in need.rules)
    binding = any(rl.count_of(need, rl.BINDING, False) for need in needs)
    margin = 1.0 if getattr(v, name) == "yes" else (-1.0 if binding else 0.0)
    at.fits(name, margin, source, "there" if margin > 0 else "asked", text=texts)


def rated_speed(v: model.Inputs, at: model.At, _found: rl.Situation) -> None:
    """No faster than the slowest-rated unit."""
    if v.rated_speed is not None and v.behind_kind != "none":
        at.at_most("rated_speed", "road_speed", "rated_speed", "road/STD-2", close_band=0.0)


def speed(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """No faster than the law has it for the width."""
    limit = road_limits.road_speed_limit(v.place, found.facts["width"])
    if limit is None:
        return
    most, text, source = limit
    if most:
        at.at_most("speed", "road_speed", most, source, close_band=0.0, why=f"{text}.")
    else:
        at.fits("special_order", -1.0, source, "only", text=text)


def height(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Overall height under wires and bridges."""
    heights = tables.by_key("road/road_heights", "place")
    row = heights.get(v.place) or (heights["US"] if found.american else None)
    at.tallest = v.overall_height
    if v.behind_kind != "none":
        at.tallest = arith.max(v.overall_height, v.implement_top)
    if row is not None:
        limit = road_rules.measure(row["limit"])
        assert limit is not None
        at.at_most("height", "tallest", limit, row["source"])


def lane(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether it stays in its lane when its right side keeps to the edge."""
    over = road_limits.over_center_line(found.facts["width"], v.lane_width)
    margin, says = (0.0, "over") if over > 0 else (1.0, "inside")
    at.fits("lane", margin, "road/CALC-1", says, over=(over, "length"))
