"""A tractor, an implement and a job: every check at once.

Each group of checks is a function of its own, so that a worksheet on one subject and the
pairing say the same. All values are in base units; names are those of the vocabulary.
"""

from __future__ import annotations

import math

from calc import arith, model, si, tables
from calc.mechanics import (
    ballast,
    implement_class,
    implement_power,
    pto_power,
    typical,
)
from calc.model import At, Check, Inputs
from calc.subjects import (
    ground_tools,
    hung,
    pulling,
    raised,
    shaft_power,
    slopes,
    tipping,
)
from calc.subjects.standing import Stand, mass_of, stand
from calc.worksheets.pairing import hooking, oil
from calc.worksheets.pairing.hooking import NOT_SURE

OFF_ROAD = "none"
# Under what is carried on the hitch, common practice, no source: at least 6 in, right from 12 in.
CLEAR_LEAST, CLEAR_RIGHT = 0.1524, si.FOOT
# Across, common practice, no source: less than manuals print for up and down, and with a load in
# the loader next to none.
ACROSS = (math.tan(math.radians(5.0)), math.tan(math.radians(10.0)))
SHARE_OF_TIP = (0.25, 0.5)  # of the static tip angle sideways, common practice, no source
LOADED_ACROSS = (math.tan(math.radians(1.0)), math.tan(math.radians(5.0)))


def power_key(kind: str) -> str:
    """Return the row of power_density for a kind of implement; empty when it needs no shaft."""
    row = implement_power.kind_row(kind)
    return row["power_key"] if row else ""


SIZES = {"width": "working_width", "opening": "working_width", "auger": "auger_diameter"}


def size_of(v: Inputs) -> float | None:
    """Return the size that the demand goes with [m], 0 where it goes with none.

    None where nothing here asks for it, such as the crop that passes through a baler.
    """
    row = implement_power.kind_row(v.implement_kind)
    if row is None or row["size"] == "total":
        return 0.0
    return getattr(v, SIZES[row["size"]]) if row["size"] in SIZES else None


def demand(v: Inputs, load: str = "", size: float | None = None) -> shaft_power.Band | None:
    """Return what the implement asks of the shaft, or None where that isn't known. [W]"""
    if v.power_needed is not None:
        return shaft_power.as_made(v.power_needed)
    size = size_of(v) if size is None else size
    if size is None or load:
        return None if size is None else shaft_power.demand(v.implement_kind, size, load)
    found: shaft_power.Band | None = v.each(
        "material", lambda work: shaft_power.demand(v.implement_kind, size, work)
    )
    return found


def takes_power(v: Inputs) -> bool:
    """Return whether it is driven from the shaft, or is pulled through the ground."""
    driven = implement_power.kind_row(v.implement_kind) is not None
    return driven or v.power_needed is not None or ground_tools.pulled(v.implement_kind)


def power_checks(v: Inputs, at: At) -> None:
    """Check power at the shaft against what the implement takes and what its driveline bears."""
    pulling.check_pull(v, at, _standing(v, at))
    pulling.check_grip(v, at, _standing(v, at))
    # A rating names a driveline, whatever the implement is; what is pulled has none.
    if v.power_limit is not None and not ground_tools.pulled(v.implement_kind):
        shaft_power.check_driveline(at, "pto_power", kind=v.implement_kind)
    if implement_power.kind_row(v.implement_kind) is None and v.power_needed is None:
        return
    at.group(("power",), _power, v, at)
    at.group(("class", "duty"), _class, v, at)


def _here(v: Inputs, at: At) -> None:
    """Name what is left of the power at the place where it works."""
    at.altitude_share = shaft_power.altitude_share_of(v)
    at.here = v.pto_power * at.altitude_share
    if v.altitude is None:
        at.not_checked("altitude", "altitude", governs=False)


def _standing(v: Inputs, at: At) -> float:
    """The tractor as it stands, which the loads may have named already. [kg]"""
    return at.standing if "standing" in at else mass_of(v)


def _power(v: Inputs, at: At) -> None:
    """Check what is left of the power against what the implement asks for."""
    at.climb_power = slow = 0.0
    if v.slope is not None and shaft_power.moves(v.implement_kind):
        at.climb_power, slow = (
            shaft_power.climb_power(one, _standing(v, at), v.slope)
            for one in (v, shaft_power.at_a_walk(v))
        )
    _here(v, at)
    at.power_left = pto_power.power_left(v.pto_power, at.altitude_share, 1.0, at.climb_power)
    at.power_walking = pto_power.power_left(v.pto_power, at.altitude_share, 1.0, slow)
    _demand(v, at)
    _power_steps(v, at)


def _demand(v: Inputs, at: At) -> None:
    """Check what is left against what it asks for, as the page on PTO power does."""
    band = demand(v)
    if band is None:
        # What goes through a machine that no width measures is told by the tractors of its class.
        classed = implement_class.class_by(v.implement_kind)
        at.not_checked("power", "power_needed", governs=not classed)
        return
    at.power_least, at.power_demand = band.low, band.high
    shaft_power.check_power(
        at,
        band,
        left="power_left",
        walking="power_walking",
        least="power_least",
        need="power_demand",
    )


def _power_steps(v: Inputs, at: At) -> None:
    if not at.showing:
        return
    efficiency = pto_power.axle_efficiency(v.transmission)[1]
    if v.altitude is not None:
        key = shaft_power.altitude_rule(pto_power.DEFAULT_ALTITUDE_RULE, v.breathing)
        rule = tables.by_key("power/altitude_rules", "key")[key]
        at.step("altitude_share", f"f = 1 \u2212 {rule['label']}", rule["source"], h="altitude")
    if v.slope is not None and shaft_power.moves(v.implement_kind):
        at.step(
            "climb_power",
            "P_c = m g sin(atan s) v / \u03b7",
            "power/S29",
            s="slope",
            v="ground_speed",
            η=(efficiency, "fraction"),
        )
    at.step(
        "power_left",
        "P = max(0, f P_pto \u2212 P_c)",
        "power/DERIVED",
        f="altitude_share",
        P_pto="pto_power",
        P_c="climb_power",
    )
    row = implement_power.kind_row(v.implement_kind)
    band = demand(v)
    if v.power_needed is None and row is not None and band is not None:
        named = {"w": SIZES[row["size"]]} if row["size"] in SIZES else {}
        formula = {"width": "power for each width × w", "opening": "power for each width × w"}
        right = formula.get(row["size"], "from the table for w" if named else "from the table")
        at.step("power_demand", f"P_i = {right}", band.source, **named)


def shaft_check(v: Inputs, at: At) -> None:
    """Check the tractor's PTO shaft and speed against what the implement is made for."""
    if implement_power.kind_row(v.implement_kind) is None:
        return
    if shaft_power.mid_driven(v.implement_kind) and v.implement_shaft in (NOT_SURE, "mid"):
        shaft_power.check_mid(at, v.mid_pto, shaft_power.SHAFT_OF[v.shaft])
        return
    if v.implement_shaft == NOT_SURE:
        return
    ours, theirs = (shaft_power.SHAFT_OF[key] for key in (v.shaft, v.implement_shaft))
    shaft_power.check_shafts(at, ours, theirs, "shaft")


def _class(v: Inputs, at: At) -> None:
    """Check the tractor's power against its class of implement."""
    size = shaft_power.class_size(v.implement_kind, v.working_width, v.implement_mass)
    if v.power_needed is None:
        _here(v, at)
        plate = v.power_limit is not None
        shaft_power.check_class(at, v.implement_kind, size, full="pto_power", plate=plate)
        if not plate and (size is None or not implement_class.has_most(v.implement_kind)):
            at.not_checked("stout", "power_limit", if_asked=True)


def climb_check(v: Inputs, at: At, found: Stand) -> None:
    """Check the front axle load on the steepest climb; at zero the wheels leave the ground.

    The line of weight moves back by height times slope; the height of the whole is taken as
    the tractor's. The margin counts zero as the limit and the common 20 % as one.
    """
    left = at.front - at.gross * v.cg_height * v.slope / v.wheelbase
    at.climb_share = arith.same(left / at.own, lambda: _climb_share(v, at, found))
    said = at.said("checks", "climb")
    at.add(
        Check(
            "climb",
            said["title"],
            "load_share",
            at.climb_share,
            0.0,
            "at least",
            at.climb_share / ballast.FRONT_SHARE,
            "hitch/DERIVED",
            why=said["why"],
            broken=said["broken"],
            close_band=0.5,
            grade=model.DANGER,
        )
    )


def _climb_share(v: Inputs, at: At, found: Stand) -> float:
    """Return the same load as a share of the tractor's mass, which stands once in each part."""
    share: float = tipping.share_ahead(v, found)
    behind, ahead = at.rear_mass / at.own, found.weights / at.own
    share += ahead * (1.0 + v.front_ballast_distance / found.base)
    leans = (1.0 + ahead + behind) * v.cg_height * v.slope
    left: float = share - (behind * at.overhang + leans) / found.base
    return left


def raises_a_load(v: Inputs) -> bool:
    """Whether a load in the loader is said or may be there."""
    payload = v.loader_payload
    return payload is not None and not (isinstance(payload, float) and payload <= 0.0)


def cross_check(v: Inputs, at: At) -> None:
    """Check the slope across; with a load in the loader hardly any is right."""
    if v.cross_slope is None:
        at.not_checked("cross", "cross_slope", governs=False, if_asked=True)
        return
    loaded = raises_a_load(v)
    # A tall or narrow tractor ends sooner: half its tip angle is the most, a quarter is right.
    tips = (
        at.side_raised if loaded and "side_raised" in at else tipping.tip_angles(v, stand(v), [])[0]
    )
    right, most = (
        arith.min(flat, arith.tan(arith.radians(tips * share)))
        for flat, share in zip(LOADED_ACROSS if loaded else ACROSS, SHARE_OF_TIP, strict=True)
    )
    at.across_here, at.across_right = v.cross_slope, right
    source = "hitch/M14; hitch/PRACTICE"
    at.at_most("cross", "cross_slope", most, source, strict=right, grade=model.DANGER)


def other_checks(v: Inputs, at: At) -> None:
    """Check how high the implement is carried, and how it covers the tractor."""
    if v.pins_on_ground is not None and hung.hangs(v) == "hitch":
        at.clearance = arith.max(0.0, v.balls_highest - v.pins_on_ground)
        at.clear_right = CLEAR_RIGHT
        source = "hitch/PRACTICE"
        at.at_least("clearance", "clearance", CLEAR_LEAST, source, strict="clear_right")
    if v.tractor_width is not None and typical.grows(v.implement_kind):
        covers = arith.below(v.tractor_width, v.working_width + 1e-9)
        # What works the soil has to wipe out the wheels' own tracks; a mower may be offset.
        short = -1.0 if ground_tools.works_soil(v.implement_kind) else 0.0
        margin = arith.where(covers, 1.0, short)
        says = "covers" if not isinstance(margin, float) or margin > 0 else "narrower"
        at.fits("covers", margin, "hitch/PRACTICE", says, grade=model.ADVICE)


def road_checks(v: Inputs) -> list[Check]:
    """Return width and hidden lamps on the road, when the job goes there."""
    if v.place == OFF_ROAD:
        return []
    from calc.mechanics import mirrors
    from calc.subjects import road_list

    wide = v.working_width if power_key(v.implement_kind) != "chipper_opening" else 0.0
    behind = v.transport_width if v.transport_width is not None else wide
    width = arith.max(behind, arith.or_zero(v.tractor_width))
    clear = arith.max(
        mirrors.lowest_clear_height(
            side, v.lamps_to_implement, v.implement_top, behind / 2, behind / 2
        )
        for side in (v.lamp_spread / 2, -v.lamp_spread / 2)
    )
    seen = model.at_least(
        "tail_seen",
        "Tail lamps seen over the implement",
        v.tail_height,
        clear,
        "length",
        "road/CALC-1; road/DOT-1",
        close_band=0.0,
        why="Hidden lamps are no lamps.",
    )
    return [*road_list.width_checks(v.place, "dark", width), *([seen] if clear > 0 else [])]


POWER = ("driveline", "power", "class", "duty", "pull", "grip", "stout")


def check_all(v: Inputs, at: At) -> None:
    """Make every check of a pairing."""
    if not model.only(*POWER):
        _all_but_power(v, at)
    power_checks(v, at)


def _all_but_power(v: Inputs, at: At) -> None:
    how = hung.hangs(v)
    if how == "hitch":
        hooking.check(v, at)
    found = raised.load(v, at)
    # A slope that nobody named is none: on land that is mowed flat the whole power is there.
    if v.slope is None:
        at.not_checked("slope", "slope", governs=False)
    elif how in ("hitch", "towed"):
        climb_check(v, at, found)
    if how != "subframe":
        if v.slope is not None:
            at.up_here = v.slope
            slopes.check(at, behind=how != "none")
        cross_check(v, at)
        oil.check(v, at)
    if how not in ("subframe", "none"):
        other_checks(v, at)
    shaft_check(v, at)
    for check in road_checks(v):
        at.add(check)
