"""What a load in the loader does to each axle, and whether the loader lifts it.

Values are in base units; the inputs have the vocabulary's names.
"""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import loader_counterweight
from calc.subjects import plates, tipping
from calc.subjects.standing import Stand

MANUAL_RATIO = 170.0 / 190.0  # weight behind to rated load, hitch/M4L
STANDARD_SHARE = 0.25  # on the rear axle, hitch/EP562 and hitch/M3L


def check(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Check what a load in the loader does, with what hangs behind and with nothing there."""
    payload, base = arith.or_zero(found.payload), found.base
    out = base + v.loader_reach
    at.loader_front = at.front + payload * out / base
    at.loader_rear = at.rear - payload * v.loader_reach / base
    at.alone_front = at.down_front + payload * out / base
    at.alone_rear = at.down_rear - payload * v.loader_reach / base
    whole = at.gross + payload
    at.at_least(
        "loader_rear",
        "loader_rear",
        loader_counterweight.LOADER_REAR_SHARE * whole,
        "hitch/H7; hitch/EP562",
        strict=STANDARD_SHARE * whole,
        grade=model.DANGER,
    )
    least = counterweight(found, v.hitch_distance, payload, v.loader_reach)
    if v.counterweight_asked is not None:
        least = arith.max(least, v.counterweight_asked)
    if not nothing(least):
        at.counterweight = least
    if v.counterweight_asked is not None:
        at.at_least(
            "asked",
            "rear_mass",
            "counterweight_asked",
            "hitch/H21",
            grade=model.DANGER,
            close_band=0.0,
        )
    if payload is not None and not nothing(payload):
        _ratings(v, at, payload)
        tipping.check_raised(v, at, found, payload)


def counterweight(found: Stand, hitch_distance: float, payload: float, reach: float) -> float:
    """Return what is right behind for a load in the loader: the standard's least, or a manual's.

    `reach` is how far ahead of the front axle the load is. [kg, m]
    """
    by_standard = loader_counterweight.loader_counterweight(
        found.front, found.rear, found.base, hitch_distance, payload, reach
    )
    least: float = arith.max(by_standard, MANUAL_RATIO * payload)
    return least


def nothing(mass: float) -> bool:
    """Tell whether a mass [kg] is known to be nothing; a range never is."""
    return isinstance(mass, float) and mass <= 0.0


def loader_lifts(v: model.Inputs) -> float:
    """Return what the loader lifts in its bucket or on its forks: its rating, taken farther out."""
    tool = tables.by_key("machines/loader_tools", "tool")[v.loader_tool]
    bucket = tables.by_key("machines/loader_tools", "tool")["bucket"]
    share = float(tool["share_of_pins"])
    if v.loader_rating_at == "500":
        share /= float(bucket["share_of_pins"])
    lifts: float = arith.max(v.loader_rating * share - float(tool["mass_kg"]), 1.0)
    return lifts


def _ratings(v: model.Inputs, at: model.At, payload: float) -> None:
    """Check the loader's rating, the front axle and its tires; a blank one stays open."""
    if v.loader_rating is None:
        at.not_checked("loader_lift", "loader_rating")
    else:
        at.group(("loader_lift",), _lift, v, at, payload)
    most = arith.max(at.loader_front, at.alone_front)
    if v.front_axle_limit is None:
        at.not_checked("loader_front", "front_axle_limit")
    else:
        at.at_most("loader_front", most, "front_axle_limit", "hitch/H7", kind="load")
    plates.front_tires(v, at, most, governs=True)


def _lift(v: model.Inputs, at: model.At, payload: float) -> None:
    at.loader_lifts = loader_lifts(v)
    at.at_most("loader_lift", payload, "loader_lifts", "hitch/T6L; hitch/DERIVED")
