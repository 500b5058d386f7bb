"""A tractor, an implement and a job: every check at once.

Each group of checks is a function of its own, so that a worksheet on one subject and the
pairing say the same. All values are in base units; names are those of the vocabulary.
"""

from __future__ import annotations

import math

from calc import arith, model, tables
from calc.mechanics import ballast, hitch, pto_power, typical
from calc.model import At, Check, Inputs
from calc.subjects import raised

OFF_ROAD = "none"
NOT_SURE = "unsure"
HP = 745.6998715822702
OVERLOAD = 1.2  # a driveline with a working clutch bears about a fifth more; common practice
SLOPE_BEHIND, SLOPE_MOST = math.tan(math.radians(10.0)), math.tan(math.radians(15.0))  # hitch/M14


def power_key(kind: str) -> str:
    """Return the row of power_density for a kind of implement; empty when it needs no shaft."""
    row = pto_power.kind_row(kind)
    return row["power_key"] if row else ""


def hitch_checks(v: Inputs) -> list[Check]:
    """Return whether pins and span go together, with what between them."""
    theirs, ours = v.implement_category, v.hitch_category
    if v.quick_coupler == "u_frame":
        return _coupler_checks(v)
    pins = hitch.pins_fit(ours, theirs)
    span = hitch.spans_fit(ours, theirs)
    pin_words = {
        "fits": ("The pins are the size of the balls.", 1.0),
        "sleeve": (
            "The implement's pins are smaller than the tractor's balls: fit sleeves, never run "
            "them loose.",
            0.0,
        ),
        "too big": ("The implement's pins are too large for the tractor's balls.", -1.0),
    }[pins]
    span_words = {
        "same": ("Both are built to the same span.", 1.0),
        "adjust": (
            "The spans differ by a hand's width; the stabilizers may take it up: measure both.",
            0.0,
        ),
        "no": ("The spans are too far apart for the stabilizers to bridge.", -1.0),
    }[span]
    return [
        model.fits("pins", "Lower hitch pins", pin_words[1], pin_words[0], "hitch/W1; hitch/H19"),
        model.fits("span", "Lower hitch span", span_words[1], span_words[0], "hitch/W1; hitch/H1"),
    ]


def _hitching(v: Inputs, at: At) -> None:
    """Check pins and span; where a category is open say so, gravely if the implement's is known."""
    theirs, ours = v.implement_category, v.hitch_category
    if NOT_SURE in (theirs, ours):
        open_ = "hitch_category" if ours == NOT_SURE else "implement_category"
        at.not_checked("pins", open_, governs=theirs != NOT_SURE)
        conflict = hitch.coupler_conflict(v.implement_kind)
        if v.quick_coupler == "u_frame" and conflict:
            at.add(_conflict_check(conflict))
        return
    for check in hitch_checks(v):
        at.add(check)


def _conflict_check(conflict: dict[str, str]) -> Check:
    margin = {"no": -1.0, "adapter": 0.0, "measure": 0.0, "check": 0.0}[conflict["verdict"]]
    return model.fits("coupler", "Quick coupler", margin, conflict["why"], conflict["source"])


def _coupler_checks(v: Inputs) -> list[Check]:
    coupler = v.hitch_category if v.hitch_category in ("1", "2", "3", "3N") else ""
    checks = []
    conflict = hitch.coupler_conflict(v.implement_kind)
    if conflict:
        checks.append(_conflict_check(conflict))
    if not coupler:
        said = f"No U-frame coupler of Category {v.hitch_category} is in the tables."
        return [*checks, model.fits("pins", "Pins in the coupler", -1.0, said, "hitch/S3")]
    pins = hitch.coupler_pins_fit(coupler, v.implement_category)
    said, margin = {
        "fits": ("The pins fill the coupler's slots.", 1.0),
        "sleeve": (
            "The coupler's slots are cut for one size of pin: fit a sleeve on each lower pin and "
            "on the top pin, which also keeps them centered and takes the wear.",
            0.0,
        ),
        "no stock sleeve": ("No stock sleeve brings pins this small up to the slots.", -1.0),
        "too big": ("The implement's pins are larger than the coupler's slots.", -1.0),
    }[pins]
    gap = abs(hitch.coupler_span_difference(coupler, v.implement_category))
    reaches = gap <= 2 * hitch.SPAN_TOLERANCE
    span_words = (
        "The hooks stand as far apart as the implement's pins."
        if reaches
        else "The coupler's hooks can't be moved, and the implement's pins stand elsewhere."
    )
    return [
        *checks,
        model.fits("pins", "Pins in the coupler", margin, said, "hitch/COUPLER-memory"),
        model.fits("span", "Span of the coupler", 1.0 if reaches else -1.0, span_words, "hitch/W1"),
    ]


def demand(v: Inputs) -> float | None:
    """Return the shaft power that the implement takes, or None when it takes none. [W]"""
    if v.power_needed is not None:
        return arith.number(v.power_needed)
    key = power_key(v.implement_kind)
    if not key:
        return None
    return pto_power.demand(key, v.working_width, v.material)


def power_checks(v: Inputs, at: At) -> None:
    """Check power at the shaft against what the implement takes and what its driveline bears."""
    needed = demand(v)
    if needed is None:
        if pto_power.kind_row(v.implement_kind) is not None:
            at.not_checked("power", "power_needed")
        return
    drive = "gear" if v.transmission == "gear" else "hydrostatic"
    efficiency = pto_power.axle_efficiency(drive)[1]
    mass = at.standing + (v.implement_mass or 0.0)
    at.climb_power = pto_power.grade_power(mass, v.slope, v.ground_speed) / efficiency
    at.altitude_share = pto_power.altitude_factor(v.altitude)
    at.power_left = pto_power.power_left(v.pto_power, at.altitude_share, 1.0, at.climb_power)
    at.power_demand = needed
    _power_steps(v, at, efficiency)
    source = "power/S16; power/PRACTICE" if v.power_needed is None else "power/DERIVED"
    at.at_least("power", "power_left", "power_demand", source, close_band=pto_power.RESERVE)
    _driveline(v, at)


def _power_steps(v: Inputs, at: At, efficiency: float) -> None:
    if not at.showing:
        return
    rule = tables.by_key("power/altitude_rules", "key")[pto_power.DEFAULT_ALTITUDE_RULE]
    at.step("altitude_share", f"f = 1 \u2212 {rule['label']}", rule["source"], h="altitude")
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
        "P = f P_pto \u2212 P_c",
        "power/DERIVED",
        f="altitude_share",
        P_pto="pto_power",
        P_c="climb_power",
    )
    if v.power_needed is None:
        key = power_key(v.implement_kind)
        row = tables.by_key("power/power_density", "key")[key]
        named = {} if pto_power.is_total(key) else {"w": "working_width"}
        formula = "for each unit" if pto_power.is_total(key) else "power for each width \u00d7 w"
        at.step("power_demand", f"P_i = {formula}", row["source"], **named)


def shaft_check(v: Inputs, at: At) -> None:
    """Check the tractor's PTO shaft and speed against what the implement is made for."""
    if pto_power.kind_row(v.implement_kind) is None or v.implement_shaft == NOT_SURE:
        return
    if v.shaft == NOT_SURE:
        at.not_checked("shaft", "shaft")
        return
    says = _shaft_words(v.shaft, v.implement_shaft)
    at.fits(
        "shaft", 1.0 if says == "same" else -1.0, "hitch/S5; hitch/S4", says, grade=model.DANGER
    )


def _shaft_words(ours: str, theirs: str) -> str:
    """Return which sentence says how two shafts go together."""
    if ours == theirs:
        return "same"
    if "mid" in (ours, theirs):
        return "mid"
    return "speed" if ours.partition("-")[0] != theirs.partition("-")[0] else "splines"


def _driveline(v: Inputs, at: At) -> None:
    """Check the tractor's power against what the implement's driveline bears."""
    if v.power_limit is not None:
        at.at_most(
            "driveline",
            "pto_power",
            OVERLOAD * v.power_limit,
            "power/S25; power/PRACTICE",
            strict="power_limit",
        )
        return
    light = tables.by_key("machines/light_duty", "kind").get(v.implement_kind)
    if light is not None:
        at.at_most(
            "duty",
            "pto_power",
            float(light["gearbox_high_hp"]) * HP,
            light["source"],
            strict=float(light["gearbox_low_hp"]) * HP,
        )


def climb_check(v: Inputs, at: At) -> None:
    """Check the front axle load on the steepest climb; at zero the wheels leave the ground.

    The line of weight moves back by height times slope; the height of the whole is taken as
    the tractor's. The margin counts zero as the limit and the common 20 % as one.
    """
    left = at.front - at.gross * v.cg_height * v.slope / v.wheelbase
    at.climb_share = left / at.own
    said = at.said("checks", "climb")
    at.add(
        Check(
            "climb",
            said["title"],
            "fraction",
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


def slope_check(v: Inputs, at: At) -> None:
    """Check the slope against what manuals print: 10 degrees with something behind, 15 at most."""
    at.at_most(
        "slope",
        "slope",
        SLOPE_MOST,
        "hitch/M14",
        strict=SLOPE_BEHIND,
    )


def other_checks(v: Inputs, at: At) -> None:
    """Check hydraulics, and how the implement covers the tractor."""
    needed = v.remotes_needed or 0.0
    if v.remotes_needed is not None and not (isinstance(needed, float) and needed <= 0.0):
        if v.remotes is None:
            at.not_checked("remotes", "remotes")
        else:
            at.at_least("remotes", "remotes", "remotes_needed", "hitch/PRACTICE", close_band=0.0)
    if v.tractor_width is not None and typical.grows(v.implement_kind):
        covers = arith.below(v.tractor_width, v.working_width + 1e-9)
        margin = arith.where(covers, 1.0, 0.0)
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
    width = arith.max(behind, v.tractor_width or 0.0)
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


def check_all(v: Inputs, at: At) -> None:
    """Make every check of a pairing."""
    how = raised.hangs(v)
    if how == "hitch":
        _hitching(v, at)
    raised.load(v, at)
    power_checks(v, at)
    shaft_check(v, at)
    if how in ("hitch", "towed"):
        climb_check(v, at)
        slope_check(v, at)
        other_checks(v, at)
    for check in road_checks(v):
        at.add(check)
