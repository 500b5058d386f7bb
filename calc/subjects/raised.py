"""What hangs behind a tractor, what its loader lifts, and what that leaves on each axle.

Shared by every worksheet that hangs something on the hitch, so that they say the same. The
tractor is taken as its parts (`calc.subjects.standing`). Values are in base units; the inputs
have the vocabulary's names, the checks and numbers the words of `calc/subjects/words.toml`.
"""

from calc import arith, model, tables
from calc.machines import reviews
from calc.mechanics import ballast, carried_mass, lift, loader_counterweight, stability, typical
from calc.subjects import both_ends, plates, shaft_power
from calc.subjects.hung import (
    behind_axle,
    capacity_of,
    check_loaded,
    hangs,
    hung_at,
    hung_mass,
    pivot_of,
    rated_at_of,
)
from calc.subjects.plates import SEEN_LOADS
from calc.subjects.standing import Stand, front_share_of, stand

SEEN_LIFT = "hitch/H13; hitch/B1; hitch/DERIVED"
MANUAL_RATIO = 170.0 / 190.0  # weight behind to rated load, hitch/M4L
PARALLEL = 100.0  # links that meet this far ahead of the balls or farther run parallel [m]
SIDE_LEAST = 15.0  # degrees, hitch/EP562
STANDARD_SHARE = 0.25  # on the rear axle, hitch/EP562 and hitch/M3L

LOADS = (
    model.Shown("front", "load"),
    model.Shown("front_share_left", "load_share"),
    model.Shown("rear", "load"),
    model.Shown("rise", "load"),
    model.Shown("capacity", "mass"),
    model.Shown("felt", "mass"),
    model.Shown("ballast", "mass"),
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
        at.fits("subframe", -1.0, "hitch/B1", "refused", grade=model.DANGER)
    if how in ("hitch", "towed"):
        at.at_least("steering", "front", "wanted", rule["source"])
    if how == "towed":
        _towed(v, at, found)
    lifts = found.payload is not None and not _nothing(found.payload)
    plates.check(v, at, full=lifts)
    _rear_in_every_state(v, at, found)
    both_ends.check(v, at, found)
    if found.payload is not None:
        _loader(v, at, found)
    if model.wants():  # no check hangs on these
        _angles(v, at, found)
        _ballast_asked(v, at, found)
    if at.showing:
        _steps(v, at, found, rule)
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
            strict=STANDARD_SHARE * found.mass,
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


def _loader(v: model.Inputs, at: model.At, found: Stand) -> None:
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
    at.counterweight = counterweight(found, v.hitch_distance, payload, v.loader_reach)
    if v.counterweight_asked is not None:
        at.at_least(
            "asked",
            "rear_mass",
            "counterweight_asked",
            "hitch/H21",
            grade=model.DANGER,
            close_band=0.0,
        )
    if payload is not None and not _nothing(payload):
        _loader_ratings(v, at, payload)
        _raised_tip(v, at, found, payload)


def counterweight(found: Stand, hitch_distance: float, payload: float, reach: float) -> float:
    """Return what is right behind for a load in the loader: the standard's least, or a manual's.

    `reach` is how far ahead of the front axle the load is. [kg, m]
    """
    by_standard = loader_counterweight.loader_counterweight(
        found.front, found.rear, found.base, hitch_distance, payload, reach
    )
    least: float = arith.max(by_standard, MANUAL_RATIO * payload)
    return least


def _nothing(mass: float) -> bool:
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


def _loader_ratings(v: model.Inputs, at: model.At, payload: float) -> None:
    """Check the loader's rating, the front axle and its tires; a blank one stays open."""
    if v.loader_rating is None:
        at.not_checked("loader_lift", "loader_rating")
    else:
        at.group(("loader_lift",), _loader_lift, v, at, payload)
    most = arith.max(at.loader_front, at.alone_front)
    if v.front_axle_limit is None:
        at.not_checked("loader_front", "front_axle_limit")
    else:
        at.at_most("loader_front", most, "front_axle_limit", "hitch/H7", kind="load")
    plates.front_tires(v, at, most, governs=True)


def _loader_lift(v: model.Inputs, at: model.At, payload: float) -> None:
    at.loader_lifts = loader_lifts(v)
    at.at_most("loader_lift", payload, "loader_lifts", "hitch/T6L; hitch/DERIVED")


def _raised_tip(v: model.Inputs, at: model.At, found: Stand, payload: float) -> None:
    """Check how far the tractor stands from going over sideways, load raised."""
    added = [(payload, found.base + v.loader_reach, arith.number(v.loader_height))]
    if hangs(v) != "none":
        added.append((at.rear_mass, -at.overhang, arith.number(v.raised_height)))
    at.side_raised = tip_angles(v, found, added)[0]
    at.at_least(
        "side_raised", "side_raised", SIDE_LEAST, "hitch/EP562", grade=model.DANGER, close_band=0.2
    )


def tip_angles(
    v: model.Inputs, found: Stand, added: list[tuple[float, float, float]]
) -> tuple[float, float]:
    """Return the static tip angles sideways (pivoting axle) and rearward, in degrees.

    `added` holds masses on the tractor: mass, distance ahead of the rear axle, height. What
    stands on it already (driver, loader, liquid) is taken at the tractor's own height.
    """
    base = found.base
    ahead = arith.same(found.own_front / found.own, lambda: share_ahead(v, found))
    parts = [(found.own, ahead, arith.number(v.cg_height))]
    parts += [(mass, x / base, z) for mass, x, z in added]
    # In shares of the wheelbase, which then stands once.
    share = stability.common_cg([(m, x) for m, x, _ in parts])
    z = stability.common_cg([(m, z) for m, _, z in parts])
    rear = arith.max(stability.rear_tip_angle(share * base, z), 0.0)
    share = arith.min(arith.max(share, 0.0), 0.999)
    side = stability.side_tip_angle_pivoting(v.track_width, z, 1.0, share, v.axle_pin_height)
    return arith.degrees(side), arith.degrees(rear)


def share_ahead(v: model.Inputs, found: Stand) -> float:
    """Return the share of the wheelbase at which the tractor's own center of gravity lies."""
    parts = [(part.mass, part.ahead / found.base) for part in found.parts]
    return stability.common_cg([(found.bare, front_share_of(v)), *parts])


def _angles(v: model.Inputs, at: model.At, found: Stand) -> None:
    hung = [(at.rear_mass, -at.overhang, arith.number(v.raised_height))]
    hung.append((found.weights, found.base + v.front_ballast_distance, arith.number(v.cg_height)))
    at.side, at.back = tip_angles(v, found, [])
    at.side_up, at.back_up = tip_angles(v, found, hung)


def _steps(v: model.Inputs, at: model.At, found: Stand, rule: dict[str, str]) -> None:
    """Write down the working."""
    if hangs(v) == "hitch":
        rated = (rated_at_of(v), "length")
        if at.pivot < PARALLEL:
            at.step("pivot", "r = s / (C₀ / C₁ − 1)", SEEN_LIFT, s=(0.61, "length"))
        at.step(
            "capacity",
            "C = C_r (r + d_r) / (r + d), at most C_r",
            SEEN_LIFT,
            C_r="lift_capacity",
            d_r=rated,
            r="pivot",
            d=(hung_at(v), "length"),
        )
    at.step(
        "own_front",
        "T_F = front of the tractor + Σ m x / b",
        "hitch/DERIVED",
        T="tractor_mass",
        b="wheelbase",
        **{f"m{i}": (part.mass, "mass") for i, part in enumerate(found.parts, 1)},
        **{f"x{i}": (part.ahead, "length") for i, part in enumerate(found.parts, 1)},
    )
    at.step(
        "front",
        "F = [T_F b + I_F (a + b) − I_R (c + d)] / b",
        "hitch/H4; hitch/H5; hitch/H6",
        T_F="own_front",
        b="wheelbase",
        I_F="weights",
        a="front_ballast_distance",
        I_R="rear_mass",
        **{"c + d": "overhang"},
    )
    at.step(
        "rear",
        "R = T + I_F + I_R − F",
        SEEN_LOADS,
        T="own",
        I_F="weights",
        I_R="rear_mass",
        F="front",
    )
    at.step("wanted", f"F_min = {rule['label']}", rule["source"], T="own", T_F="own_front")
    if found.payload is not None:
        at.step(
            "loader_rear",
            "R_N = R − N B / b",
            "hitch/H7; hitch/DERIVED",
            R="rear",
            N=(found.payload, "mass"),
            B="loader_reach",
            b="wheelbase",
        )
        at.step(
            "counterweight",
            "M = [5 N B + b (P + N − 5 G)] / [5 (c + b) − b], at least 0.89 N",
            "hitch/H7; hitch/M4L",
            N=(found.payload, "mass"),
            B="loader_reach",
            b="wheelbase",
            P="standing",
            G="down_rear",
            c="hitch_distance",
        )
    at.step(
        "side",
        "θ = atan[(t/2)(b − x) / (b h − x p)]",
        "hitch/DERIVED; hitch/X15",
        t="track_width",
        b="wheelbase",
        x=(found.base * found.own_front / found.own, "length"),
        h="cg_height",
        p="axle_pin_height",
    )
    at.step(
        "back",
        "φ = atan(x / h)",
        "hitch/X5",
        x=(found.base * found.own_front / found.own, "length"),
        h="cg_height",
    )
