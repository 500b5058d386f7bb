"""The sums."""

from __future__ import annotations

from calc import arith, model, si, tables
from calc.mechanics import braking
from calc.worksheets.road_towing.fields import GRIP, RULES, TESTED

REAR_SHARE = 0.5  # of the tractor's weight, for grip: with a loader on there is no more
TONGUE_SHARE = 0.10  # of the gross weight, with 60 % of the load in the front half
ROUNDED = 0.25 * si.KMH  # the rules round between 20 mph and 32 km/h
WET_GRASS = "wet_grass"
# A tractor heavier than any compact; the rules of large tractors are meant for it.
HEAVIEST_COMPACT = float(
    tables.by_key("machines/typical_tractors", "key")["compact_large"]["mass_high_kg"]
)
WALKING = 5 * si.MPH  # m/s; what is usual to go with a load on wet grass
MARGIN = 1.5  # the brakes reach this many times the pull of the slope, or there is none left


def own_braking(v: model.Inputs) -> float:
    """Braking of the tractor alone on the level, on the surface of the trip. [m/s²]"""
    if v.surface == "dry_pavement":
        return arith.number(v.own_deceleration)
    friction = arith.number(GRIP[v.surface]["friction"])
    grip = braking.grip_deceleration(friction, REAR_SHARE, all_wheels=v.braked_wheels == "all")
    return arith.number(arith.min(v.own_deceleration, grip))


def trailer_braking(v: model.Inputs) -> float:
    """What the load's own brakes do, as a share of its weight, no more than its tires hold."""
    if v.trailer_brakes == "none" or v.trailer_braking is None:
        return 0.0
    grip = arith.number(GRIP[v.surface]["friction"])
    return arith.number(arith.min(v.trailer_braking, grip))


def rule_of(v: model.Inputs) -> str:
    """The printed rule of the mass: as chosen, or by speed for a load with brakes that work.

    Brakes that no test found to reach what they must count as none.
    """
    if v.trailer_brakes == "none" or v.trailer_braking is None or v.trailer_braking < TESTED:
        return str(v.ratio_rule)
    return "braked-40" if braking.rule_covers("braked-40", v.road_speed) else "braked-50"


def compute(v: model.Inputs, at: model.At) -> None:
    """Check stopping first, then the mass, its speed, the tongue and the chain."""
    rule = RULES[rule_of(v)]
    at.limit = braking.mass_limit(rule_of(v), v.tractor_mass)
    at.top = arith.number(rule["speed_to_kmh"]) * si.KMH + ROUNDED
    at.own = own_braking(v)
    at.downgrade = 0.0 - v.grade
    at.pull = 0.0 - braking.slope_pull(v.grade)
    if v.towed_mass is None:
        at.not_checked("load", "towed_mass")
        _any_load(v, at)
    else:
        _stopping(v, at)
        if at.limit > 0:
            at.at_most("ratio", "towed_mass", "limit", rule["source"])
        else:
            at.fits("unbraked", -1.0, rule["source"], "none")
    _compact(v, at)
    at.at_most("rule_speed", "road_speed", "top", rule["source"])
    if v.surface == WET_GRASS:
        at.walking = WALKING
        at.at_most("grass", "road_speed", "walking", PRACTICE, grade=model.ADVICE, close_band=0.0)
    if v.towed_mass is not None:
        _hitched(v, at)
    elif v.tongue_weight is not None and v.drawbar_limit is not None:
        at.tongue = v.tongue_weight  # whatever the load weighs
        _drawbar(at)
    _shown(v, at)
    if at.showing:
        _steps(v, at, rule["source"])


PRACTICE = "road/ROAD-practice"
SHARED = "road/EU2-memory; road/CALC-1"


def _any_load(v: model.Inputs, at: model.At) -> None:
    """Check what no load changes: what the better brakes of the two do alone."""
    best = arith.max(at.own, trailer_braking(v) * braking.GRAVITY)
    at.slope_share = at.pull / best
    at.at_most("holds", "slope_share", 1.0, SHARED, strict=1 / MARGIN, grade=model.DANGER)
    left = best - at.pull
    if v.room is not None and left > 0:
        at.least_stop = braking.stopping_distance(v.road_speed, left, v.reaction_time)
        at.at_most("room", "least_stop", "room", "road/EU-2; road/EU2-memory", grade=model.DANGER)


def _stopping(v: model.Inputs, at: model.At) -> None:
    at.shared = braking.shared_deceleration(
        at.own, v.tractor_mass, v.towed_mass, trailer_braking(v)
    )
    at.slope_share = at.pull / at.shared
    at.at_most("holds", "slope_share", 1.0, SHARED, strict=1 / MARGIN, grade=model.DANGER)
    at.left = at.shared - at.pull
    if at.left > 0:
        at.stop = braking.stopping_distance(v.road_speed, at.left, v.reaction_time)
        if v.room is not None:
            at.at_most("room", "stop", "room", "road/EU-2; road/EU2-memory", grade=model.DANGER)
    if v.room is None:
        at.not_checked("room", "room", governs=False)


def _compact(v: model.Inputs, at: model.At) -> None:
    """Check a braked load by what a compact's own manual says: no light tractor tows 4.5 times."""
    if RULES[rule_of(v)]["brakes"] == "own" and v.tractor_mass <= HEAVIEST_COMPACT:
        at.compact_most = braking.mass_limit("braked-compact", v.tractor_mass)
        if v.towed_mass is None:
            return
        source, advice = "road/MAN-8", model.ADVICE
        at.at_most("compact", "towed_mass", "compact_most", source, grade=advice, close_band=0.0)


def _drawbar(at: model.At) -> None:
    at.at_most("drawbar", "tongue", "drawbar_limit", "road/MAN-8")


def _hitched(v: model.Inputs, at: model.At) -> None:
    """The limits of the hitch, each only where somebody gave it."""
    if v.manual_limit is None:
        at.not_checked("manual", "manual_limit", governs=False)
    else:
        at.at_most("manual", "towed_mass", "manual_limit", "road/MAN-2")
    at.least_tongue = TONGUE_SHARE * v.towed_mass
    at.tongue = at.least_tongue if v.tongue_weight is None else v.tongue_weight
    if v.drawbar_limit is None:
        at.not_checked("drawbar", "drawbar_limit", governs=False)
    else:
        _drawbar(at)
    if v.tongue_weight is not None:
        source, advice = "road/MAN-9", model.ADVICE  # a tenth of the load is enough: no band
        if v.tongue_weight < at.least_tongue:
            at.little = v.tongue_weight
        at.at_least(
            "tongue_least", "tongue_weight", "least_tongue", source, grade=advice, close_band=0.0
        )
    at.chain_needed = v.towed_mass
    if v.chain_rating is None:
        at.not_checked("chain", "chain_rating", governs=False)
    else:
        source = "road/MAN-2; road/STD-4"
        at.at_least("chain", "chain_rating", "towed_mass", source, close_band=0.0)


def _shown(v: model.Inputs, at: model.At) -> None:
    """What is told and not checked: how heavy, how fast, how hot."""
    alone_left = at.own - at.pull
    if alone_left > 0:
        at.alone = braking.stopping_distance(v.road_speed, alone_left, v.reaction_time)
        if "stop" in at:
            at.longer = arith.max(at.stop - at.alone, 0.0)
    at.heaviest = arith.min(at.limit, stops_with(v))
    if "compact_most" in at:
        at.heaviest = arith.min(at.heaviest, at.compact_most)
    if v.manual_limit is not None:
        at.heaviest = arith.min(at.heaviest, v.manual_limit)
    if v.towed_mass is None:
        return
    at.ratio_now = v.towed_mass / v.tractor_mass
    at.heat = braking.holding_heat(v.tractor_mass + v.towed_mass, v.road_speed, v.grade)
    at.fastest = arith.min(at.top, WALKING) if v.surface == WET_GRASS else at.top
    if v.room is not None:
        stops_from = braking.speed_that_stops_within(v.room, at.left, v.reaction_time)
        at.fastest = arith.min(at.fastest, stops_from)
    if at.left <= 0:
        at.fastest = 0.0
        return
    at.stop_fastest = braking.stopping_distance(at.fastest, at.left, v.reaction_time)


def stops_with(v: model.Inputs) -> float:
    """The heaviest load with which it holds on the slope and stops in the room. [kg]"""
    pull = 0.0 - braking.slope_pull(v.grade)
    needed = MARGIN * pull
    if v.room is not None:
        stops = braking.needed_deceleration(v.road_speed, v.room, v.reaction_time)
        needed = arith.max(needed, stops + pull)
    return braking.heaviest_towed(own_braking(v), v.tractor_mass, needed, trailer_braking(v))


def _steps(v: model.Inputs, at: model.At, source: str) -> None:
    at.step("limit", "m = ratio × tractor", source, tractor="tractor_mass")
    if v.towed_mass is None:
        return
    shared = "d = z g + (d₀ - z g) / (1 + m_r / m_t)"
    braked = {"d₀": "own", "z": (trailer_braking(v), "fraction")}
    masses = {"m_r": "towed_mass", "m_t": "tractor_mass"}
    at.step("shared", shared, "road/EU2-memory; road/CALC-1", **braked, **masses)
    at.step("left", "d_l = d + g sin(atan G)", "road/CALC-1", d="shared", G="grade")
    if at.left > 0:
        at.step(
            "stop",
            "s = v (tᵣ + 0.54 s) + v² / (2 d_l)",
            "road/EU-2; road/CALC-1",
            v="road_speed",
            tᵣ="reaction_time",
            d_l="left",
        )
