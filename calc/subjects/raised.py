"""What hangs behind a tractor, and what that leaves on each axle, with the loader and without.

Shared by every worksheet that hangs something on the hitch, so that they say the same. The
tractor is taken as its parts (`calc.subjects.standing`). Values are in base units; the inputs
have the vocabulary's names, the checks and numbers the words of `calc/subjects/words.toml`.
"""

from calc import arith, model, tables
from calc.machines import reviews
from calc.mechanics import ballast, carried_mass, lift, loader_counterweight, typical
from calc.subjects import both_ends, load_steps, loader, plates, shaft_power, tipping
from calc.subjects.hung import (
    PARALLEL,
    SEEN_LIFT,
    behind_axle,
    capacity_of,
    check_loaded,
    hangs,
    hung_at,
    hung_mass,
    pivot_of,
    rated_at_of,
    refuse,
)
from calc.subjects.plates import SEEN_LOADS
from calc.subjects.standing import Stand, stand

LOADS = (
    model.Shown("front", "load"),
    model.Shown("front_share_left", "load_share"),
    model.Shown("rear", "load"),
    model.Shown("rise", "load"),
    model.Shown("capacity", "mass"),
    model.Shown("felt", "mass"),
    model.Shown("ballast", "load"),
    model.Shown("greatest", "load"),
    model.Shown("gross", "mass"),
    model.Shown("standing", "mass"),
    model.Shown("down_front", "load"),
    model.Shown("down_rear", "load"),
    model.Shown("loader_front", "load"),
    model.Shown("loader_rear", "load"),
    model.Shown("alone_front", "load"),
    model.Shown("alone_rear", "load"),
    model.Shown("both_front", "load"),
    model.Shown("both_rear", "load"),
    model.Shown("both", "mass", hidden=True),
    model.Shown("loader_lifts", "mass"),
    model.Shown("counterweight", "mass"),
    model.Shown("overhang", "length"),
    model.Shown("side", "angle"),
    model.Shown("side_up", "angle"),
    model.Shown("back", "angle"),
    model.Shown("back_up", "angle"),
    model.Shown("side_raised", "angle"),
    model.Shown("wanted", "mass", hidden=True),
    model.Shown("pivot", "length", hidden=True),
    model.Shown("own_front", "load", hidden=True),
    model.Shown("rear_mass", "mass", hidden=True),
    model.Shown("weights", "mass", hidden=True),
    model.Shown("own", "mass", hidden=True),
)
LOAD_FIELDS = (
    "load_carried",
    "front_implement_mass",
    "cg_ahead",
    "front_lift_capacity",
    "mass_as",
    "cab",
    "front_axle_mass",
    "front_share",
    "driver_mass",
    "loader_mass",
    "loader_ahead",
    "tire_liquid",
    "rear_tire",
    "liquid_mass",
    "wheel_weights",
    "front_ballast",
    "front_ballast_distance",
    "wheelbase",
    "hitch_distance",
    "link_length",
    "lift_at_ball_ends",
    "lift_ratio",
    "quick_coupler",
    "track_width",
    "cg_height",
    "axle_pin_height",
    "raised_height",
    "tongue_load",
    "front_axle_limit",
    "rear_axle_limit",
    "total_limit",
    "rear_tire_load",
    "rear_tire_pressure",
    "front_tire",
    "front_tire_load",
    "front_tire_pressure",
    "loader_payload",
    "loader_tool",
    "loader_rating",
    "loader_rating_at",
    "loader_reach",
    "loader_height",
    "counterweight_asked",
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found = reviews.review(known)
    payload = known.get("loader_payload")
    if payload is not None and payload.high > 0 and known.get("loader") in ("off", "none"):
        found["loader_payload"] = (
            "There is a load in the loader, and the loader is said to be off: say that it is on, "
            "or clear the load."
        )
    in_front = known.get("front_implement_mass") is not None
    if in_front and typical.mount(known.get("implement_kind") or "") in ("front", "mid"):
        found["front_implement_mass"] = (
            "What was picked doesn't hang behind: pick the implement behind, and say here what "
            "the one in front weighs."
        )
    return found


# --- loads and checks ---------------------------------------------------------------------------


def load(v: model.Inputs, at: model.At) -> Stand:
    """Name every load and check it: behind, in front, with the loader and without."""
    found = stand(v)
    base = found.base
    at.rear_mass, at.overhang = behind_axle(v)
    at.own, at.weights = found.own, found.weights
    at.own_front = found.own_front
    at.standing, at.down_front, at.down_rear = found.mass, found.front, found.rear
    at.front, at.rear = found.with_(at.rear_mass, -at.overhang)
    at.gross = found.mass + at.rear_mass
    at.front_share_left = at.front / found.own
    at.wanted = ballast.front_load_required(
        found.own, found.own_front, at.rear_mass + found.weights, v.front_rule
    )
    rule = tables.by_key("hitch/twenty_percent_rules", "key")[v.front_rule]
    how = hangs(v)
    if how in ("hitch", "towed"):
        at.rise = at.rear_mass * (1.0 + at.overhang / base)
    if how == "front":
        _in_front(v, at, found)
    if how == "hitch":
        at.group(("lift",), _lift, v, at)
        check_loaded(v, at)
    if how == "subframe":
        refuse(at)
    if how in ("hitch", "towed"):
        at.at_least("steering", "front", "wanted", rule["source"])
    if how == "none":
        at.at_least("front_alone", "down_front", "wanted", rule["source"])
    if how == "towed":
        _towed(v, at, found)
    lifts = found.payload is not None and not loader.nothing(found.payload)
    plates.check(v, at, full=lifts)
    _rear_in_every_state(v, at, found)
    both_ends.check(v, at, found)
    if found.payload is not None:
        loader.check(v, at, found)
    elif v.loader != "none":
        # What hangs behind a loader goes by what it lifts: who asks for that has to say it.
        at.not_checked("loader_rear", "loader_payload", if_asked=True)
    if model.wants():  # no check hangs on these
        if not lifts and v.loader != "none" and v.loader_rating is not None:
            at.loader_lifts = loader.loader_lifts(v)
        tipping.name(v, at, found)
        _ballast_asked(v, at, found)
    if at.showing:
        load_steps.write(v, at, found, rule)
    return found


def _lift(v: model.Inputs, at: model.At) -> None:
    """Check what hangs behind against what the hitch lifts there."""
    at.capacity = capacity_of(v)
    at.pivot = arith.min(pivot_of(v)[0], PARALLEL)
    at.at_most("lift", arith.number(hung_mass(v)), at.capacity, SEEN_LIFT, kind="mass")


def _in_front(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Check what an implement in front leaves behind, and what carries it."""
    least = ballast.REAR_SHARE * found.own
    at.at_least("rear_front", "rear", least, SEEN_LOADS, grade=model.DANGER)
    if v.front_axle_limit is None:
        at.not_checked("front_axle", "front_axle_limit")
    both_ends.carried_in_front(v, at, found, arith.number(hung_mass(v)))


def _towed(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Check a towed machine's mass against the tractor's: no more than it, on small tractors."""
    shaft_power.check_towed(at, found.mass, hung_mass(v), v.tractor_kind)
    check_loaded(v, at)


def _ballast_asked(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Name what the rule asks for in front, and the most that it allows behind."""
    if hangs(v) not in ("hitch", "towed"):
        return
    at.ballast = ballast.front_ballast_needed(
        found.own,
        found.own_front,
        found.base,
        at.overhang,
        0.0,
        at.rear_mass,
        v.front_ballast_distance,
        v.front_rule,
    )
    at.greatest = carried_mass.greatest_rear_mass(
        found.own,
        found.own_front,
        found.base,
        at.overhang,
        0.0,
        found.weights,
        v.front_ballast_distance,
        v.front_rule,
    )
    if hangs(v) == "hitch":
        at.group(("felt",), _felt, v, at)


def _felt(v: model.Inputs, at: model.At) -> None:
    """Name what the hitch feels, as if it hung where the lift figure holds."""
    pivot, credit = pivot_of(v)
    at.felt = lift.effective_mass(hung_mass(v), hung_at(v), rated_at_of(v), pivot, credit)


def _rear_in_every_state(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Check what the rear wheels keep with nothing behind: weights and the loader in front."""
    if found.loader:
        at.at_least(
            "rear_loader",
            "down_rear",
            loader_counterweight.LOADER_REAR_SHARE * found.mass,
            "hitch/H7; hitch/EP562",
            strict=loader.STANDARD_SHARE * found.mass,
            grade=model.DANGER,
        )
    else:
        at.at_least(
            "rear_alone",
            "down_rear",
            ballast.REAR_SHARE * found.own,
            SEEN_LOADS,
            grade=model.DANGER,
        )
