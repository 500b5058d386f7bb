"""What mends a tractor that is too light in front or behind: each a thing to buy or to do."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from calc import model, si
from calc.mechanics import typical
from calc.search import Remedies
from calc.subjects import hung, loader
from calc.subjects.standing import stand

BRACKET_SHARE = 0.20  # front weights beyond this share of the tractor are out of proportion
LESS = 3.0  # what one loads as one likes may be cut by this much while nobody knows
PULLED_FROM = 5 * si.FOOT  # cutters on wheels of their own are sold from here on; practice
FLAT = 0.05  # nobody keeps off climbs gentler than this; common practice, no source
FRONT_CHECKS = {"steering", "front_alone", "climb"}
STANDING_CHECKS = ("steering", "lift", "rear_axle", "rear_tires", "total", "climb")
LOADER_CHECKS = ("loader_rear", "loader_front", "front_tires", "loader_lift", "side_raised")


def offer(v: model.Inputs, remedies: Remedies) -> None:
    """Offer weights, a narrower or lighter implement, less in the loader, a box behind."""
    front_weights(v, remedies)
    if hung.hangs(v) == "hitch":
        narrower(v, remedies)
        lighter(v, remedies)
        wide = v.working_width is not None and v.working_width >= PULLED_FROM
        if v.implement_kind == "rotary_cutter" and wide and "steering" in remedies.over:
            remedies.do("pull_type", ("steering", "lift", "climb"), source="hitch/PRACTICE")
        remedies.more(
            "lift_capacity",
            mends=("lift",),
            step=50.0,
            another=True,
            also={"lift_at_ball_ends": None},
        )
    elif hung.hangs(v) == "towed":
        lighter_behind(v, remedies)
    elif hung.hangs(v) in ("front", "mid"):
        narrower(v, remedies)
        lighter(v, remedies)
        weights_behind(v, remedies)
    if v.loader == "off" and hung.hangs(v) != "front":
        loader_on(v, remedies)
    if v.loader_payload is not None:
        box_behind(v, remedies)
        remedies.less("loader_payload", mends=LOADER_CHECKS, step=10.0, most=20.0, unsure=LESS)
    elif v.loader == "on":
        limits = ("front_axle", "front_tires", "total")
        overloaded = [check for check in limits if check in remedies.broken]
        if overloaded:
            remedies.choose("loader", "off", mends=overloaded, key="loader_off")
    remedies.do("subframe", ("subframe",))
    if "front_axle" in remedies.broken and v.front_ballast > 0:
        remedies.less(
            "front_ballast", mends=("front_axle",), key="front_axle_less", end=0.0, step=5.0
        )
    if {"rear_alone", "rear_loader"} & set(remedies.broken) and v.front_ballast > 0:
        remedies.less(
            "front_ballast",
            mends=("rear_alone", "rear_loader"),
            key="less_front",
            end=0.0,
            step=5.0,
        )


def front_weights(v: model.Inputs, remedies: Remedies) -> None:
    """Offer suitcase weights in front, in whole weights of the usual size."""
    sure = FRONT_CHECKS & remedies.over
    share = BRACKET_SHARE if sure else BRACKET_SHARE / 2  # half for what may be in order already
    end = share * v.tractor_mass + v.front_ballast
    stock = tuple(size for size in typical.stock("front_weights") if size <= end)
    if not stock or not FRONT_CHECKS & set(remedies.broken):
        return
    remedies.more("front_ballast", mends=(*FRONT_CHECKS,), stock=stock, end=max(stock[-1], end))


def lighter(v: model.Inputs, remedies: Remedies) -> None:
    """Offer less on it, or an implement as light as its kind is sold in this width."""
    if v.load_carried:
        remedies.less("load_carried", step=10.0, most=5.0, unsure=5.0)
        return
    row = typical.carrier(v.implement_kind)
    least = typical.implement(v.implement_kind, v.working_width)["mass"][0]
    least = float(row["own_high_kg"]) if row else least
    if v.implement_mass > least:
        key = "implement_mass" if hung.hangs(v) == "hitch" else "lighter"
        if "lift" in remedies.over:
            remedies.less("implement_mass", mends=("lift",), step=10.0, end=least, key=key)
            if "tractor_mass" in remedies.assumed and "steering" not in remedies.over:
                return  # what any tractor there is carries is no load to name
        remedies.less("implement_mass", step=10.0, end=least, key=key)


def neither_told(remedies: Remedies) -> bool:
    """Whether nobody told the mass of the tractor or of what it tows: no other is then right."""
    return {"implement_mass", "tractor_mass"} <= set(remedies.assumed)


def lighter_behind(v: model.Inputs, remedies: Remedies) -> None:
    """Offer less on what is towed, or a lighter one; none where nobody told either machine."""
    if neither_told(remedies):
        return
    if v.load_carried:
        remedies.less("load_carried", mends=("towed",), step=50.0, end=0.0, key="towed_load")
    else:
        remedies.less("implement_mass", key="towed_mass", mends=("towed",), step=50.0)
    if "towed" in remedies.over:
        remedies.do("brakes", ("towed",), source="power/TOW-M10")


def narrower(v: model.Inputs, remedies: Remedies) -> None:
    """Offer the widest stock width of this kind, its mass and reach in proportion to the usual."""
    if v.working_width is None or v.implement_kind == "chipper":
        return
    if not typical.grows(v.implement_kind):
        return

    def along(name: str, field: str) -> Callable[[float], float]:
        """In the same place of what is usual for the width; in proportion where it is outside."""
        here, width = getattr(v, field), v.working_width
        low, high = typical.implement(v.implement_kind, width)[name]
        share = (here - low) / (high - low) if high > low else 0.5

        def at(tried: float) -> float:
            low, high = typical.implement(v.implement_kind, tried)[name]
            if -1e-9 <= share <= 1 + 1e-9:
                return float(low + share * (high - low))
            return float(
                here * (low + high) / sum(typical.implement(v.implement_kind, width)[name])
            )

        return at

    place = {"front": "cg_ahead", "mid": ""}.get(hung.hangs(v), "cg_distance")
    moved = {place: along("cg_distance", place)} if place else {}
    remedies.less(
        "working_width",
        key="working_width" if hung.hangs(v) == "hitch" else "narrower",
        stock=typical.stock_widths(v.implement_kind),
        also={
            "implement_mass": along("mass", "implement_mass"),
            **moved,
        },
    )


def weights_behind(v: model.Inputs, remedies: Remedies) -> None:
    """Offer weights on the rear wheels for an implement in front, and a box on the hitch."""
    sizes = typical.stock("wheel_weights") if v.mass_as == "bare" else ()
    for size in sizes:
        more = {"wheel_weights": size}
        heavier = size > (v.wheel_weights or 0.0)
        if heavier and remedies.change("wheel_weights", more, mends=("rear_front",)):
            break
    remedies.do("box_for_front", ("rear_front",))


def loader_on(v: model.Inputs, remedies: Remedies) -> None:
    """Offer to leave the loader on, taken as the lightest usual one of this tractor."""
    if v.mass_as != "bare":
        return
    ranges = typical.narrowed("" if v.tractor_kind == "any" else v.tractor_kind)
    also = {
        "loader_mass": ranges["loader_mass"][0],
        "loader_ahead": 0.0,
        "loader_payload": 0.0,
        "loader_reach": ranges["loader_reach"][1],
        "loader_height": ranges["full_height"][1],
    }
    remedies.choose("loader", "on", also=also, mends=("steering",))


def box_behind(v: model.Inputs, remedies: Remedies) -> None:
    """Offer a ballast box behind, in the sizes that are sold, no lighter than the load asks for.

    Where it doesn't mend all that the loader breaks, the box goes with less in the loader. A lift
    that nobody gave is no reason against it: the words tell the reader to look.
    """
    how = hung.hangs(v)
    # One in front would have to come off in the sums; `weights_behind` has a box for that.
    if how == "front" or not {"loader_rear", "loader_front", "asked"} & set(remedies.broken):
        return
    least = v.counterweight_asked
    if least is None:
        least = loader.counterweight(stand(v), v.hitch_distance, v.loader_payload, v.loader_reach)
    assumed = "lift_capacity" in remedies.assumed
    leaves = ("lift",) if assumed else ()
    kind = "" if v.tractor_kind == "any" else v.tractor_kind
    lifts = typical.narrowed(kind)["lift_610"][1] if assumed else v.lift_capacity
    there = hung.hung_mass(v) if how in ("hitch", "towed") else 0.0
    sizes = [size for size in typical.stock("ballast_boxes") if there < size <= lifts]
    enough = [size for size in sizes if size >= least]
    key = "box_instead" if there else "box"
    for size in enough:
        found = remedies.change_plainly(key, _box(size), ("loader_rear",), leaves)
        if found is None:
            continue
        if not found.whole:
            _box_and_less(v, remedies, f"{key}_and_less", size, leaves)
        return
    if sizes and not enough:
        _box_and_less(v, remedies, f"{key}_and_less", sizes[-1], leaves)


def _box(size: float) -> dict[str, Any]:
    """Return the inputs of a ballast box on the hitch in place of what is there."""
    low, high = typical.implement("ballast_box")["cg_distance"]
    return {
        "implement_kind": "ballast_box",
        "implement_mass": size,
        "cg_distance": (low + high) / 2.0,
        "load_carried": None,
    }


def _box_and_less(
    v: model.Inputs, remedies: Remedies, key: str, size: float, leaves: tuple[str, ...]
) -> None:
    """Offer a box and as much in the loader as it is right for and as mends all, in tenths."""
    aimed = [check for check in LOADER_CHECKS if check in remedies.broken]
    most = min(v.loader_payload, size / loader.MANUAL_RATIO)
    for tenths in range(10, 3, -1):
        payload = remedies.whole("loader_payload", most * tenths / 10.0, step=10.0)
        if payload * LESS < v.loader_payload:
            return
        values = {**_box(size), "loader_payload": payload}
        if remedies.change_plainly(key, values, aimed, leaves):
            return
