"""A raised implement: what the hitch lifts and what it leaves on each axle.

Shared by every worksheet that hangs something on the three-point hitch, so that they say the
same. Values are in base units; the inputs have the vocabulary's names.
"""

from calc import arith, model, tables
from calc.machines.vocabulary import review_lift
from calc.mechanics import hitch, lift, stability

SEEN_LIFT = "hitch/H13; hitch/DERIVED"
SEEN_LOADS = "hitch/H4; hitch/H6"
NOT_A_SLOPE = "limit at rest on smooth, hard ground; never a slope to work on"


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found = review_lift(known)
    ball, lifted = known.get("lift_at_ball_ends"), known.get("lift_capacity")
    if ball is not None and known.get("lift_rated_at") == "0":
        found["lift_at_ball_ends"] = (
            "Both lift figures are at the ball ends now. Put the figure for 24 in behind the balls "
            "in the first field, or clear this one."
        )
    elif ball is not None and lifted is not None and ball.high < lifted.low:
        found["lift_at_ball_ends"] = (
            "A hitch lifts at least as much at the ball ends as farther back: the two lift figures "
            "may be swapped."
        )
    front, mass = known.get("front_axle_mass"), known.get("tractor_mass")
    if front is not None and mass is not None and front.low >= mass.high:
        found["front_axle_mass"] = (
            "The front axle can't carry the whole tractor: it is a part of the tractor's mass, "
            "usually two fifths."
        )
    return found


def front_axle_of(v: model.Inputs) -> float:
    """Return the load on the front axle without the implement, weighed or from its share."""
    weighed: float | None = v.front_axle_mass
    mass: float = v.tractor_mass
    return arith.min(weighed, mass) if weighed is not None else arith.number(v.front_share) * mass


def rated_at_of(v: model.Inputs) -> float:
    """Return where the lift figure holds. Without a figure it is the usual one, at 24 in."""
    return (
        lift.RATING_DISTANCE
        if v.lift_rated_at == "unstated"
        else lift.rating_distance(v.lift_rated_at)
    )


def pivot_of(v: model.Inputs) -> tuple[float, bool]:
    """Return the hitch's effective pivot, and whether two ratings bear it out."""
    ball: float | None = v.lift_at_ball_ends
    rated_at = rated_at_of(v)
    if ball is None or rated_at <= 0.0:
        return arith.number(v.link_length), False
    far = arith.min(arith.number(v.lift_capacity), ball)
    return lift.pivot_from_two_ratings(ball, far, rated_at), True


def capacity_of(v: model.Inputs) -> float:
    """Return what the hitch lifts at the implement's center of gravity."""
    pivot, credit = pivot_of(v)
    rated_at = rated_at_of(v)
    if v.quick_coupler == "none":
        return lift.capacity_at(v.lift_capacity, rated_at, v.cg_distance, pivot, credit)
    return lift.capacity_with_coupler(
        v.lift_capacity, rated_at, v.cg_distance, pivot, hitch.coupler_setback(), coupler_mass()
    )


def coupler_mass() -> float:
    """Return the middle of what a U-frame coupler usually weighs. [kg]"""
    return sum(hitch.coupler_mass()) / 2.0


def behind_axle(v: model.Inputs) -> tuple[float, float]:
    """Return the rear mass (implement and coupler) and its distance behind the rear axle."""
    hang: float = v.hitch_distance
    if v.quick_coupler == "none":
        return arith.number(v.implement_mass), hang + v.cg_distance
    setback, coupler = hitch.coupler_setback(), coupler_mass()
    mass = v.implement_mass + coupler
    moment = v.implement_mass * (hang + setback + v.cg_distance) + coupler * (hang + setback / 2.0)
    return mass, moment / mass


def tip_angles(v: model.Inputs, added: list[tuple[float, float, float]]) -> tuple[float, float]:
    """Return the static tip angles sideways (pivoting axle) and rearward, in degrees.

    `added` holds masses on the tractor: mass, distance ahead of the rear axle, height.
    """
    mass, base = arith.number(v.tractor_mass), arith.number(v.wheelbase)
    ahead = base * front_axle_of(v) / mass
    parts = [(mass, ahead, arith.number(v.cg_height)), *added]
    x = stability.common_cg([(m, x) for m, x, _ in parts])
    z = stability.common_cg([(m, z) for m, _, z in parts])
    rear = arith.max(stability.rear_tip_angle(x, z), 0.0)
    x = arith.min(arith.max(x, 0.0), 0.999 * base)
    side = stability.side_tip_angle_pivoting(v.track_width, z, base, x, v.axle_pin_height)
    return arith.degrees(side), arith.degrees(rear)


def lift_check(v: model.Inputs, capacity: float) -> model.Check:
    """Return the check of the implement's mass against the lift where its mass is."""
    return model.at_most(
        "lift",
        "Implement's mass against the lift where its mass is",
        v.implement_mass,
        capacity,
        "mass",
        SEEN_LIFT,
        why="Past its limit the hitch stops short, or sinks with the implement in the air.",
    )


def steering_check(v: model.Inputs, front: float, wanted: float) -> model.Check:
    """Return the check of the front axle load against the rule that was chosen."""
    return model.at_least(
        "steering",
        "Load on the front axle, implement raised",
        front,
        wanted,
        "mass",
        tables.by_key("hitch/twenty_percent_rules", "key")[v.front_rule]["source"],
        why="With too little on the front axle the tractor won't steer, and on a climb or a "
        "bump it can go over backward.",
    )


def plate_checks(v: model.Inputs, front: float, rear: float, gross: float) -> list[model.Check]:
    """Return checks against whichever limits are known."""
    found = []
    if v.rear_axle_limit is not None:
        found.append(
            model.at_most(
                "rear_axle",
                "Rear axle load, implement raised",
                rear,
                v.rear_axle_limit,
                "mass",
                SEEN_LOADS,
                why="An overloaded axle wears its bearings and seals, then fails.",
            )
        )
    if v.rear_tire_load is not None:
        found.append(
            model.at_most(
                "rear_tires",
                "Rear axle load on its two tires",
                rear,
                2.0 * v.rear_tire_load,
                "mass",
                SEEN_LOADS,
                why="An overloaded tire runs hot and can burst.",
            )
        )
    if v.front_axle_limit is not None:
        found.append(
            model.at_most(
                "front_axle",
                "Front axle load, implement off",
                front_axle_of(v)
                + (v.front_ballast or 0.0) * (1.0 + v.front_ballast_distance / v.wheelbase),
                v.front_axle_limit,
                "mass",
                SEEN_LOADS,
                why="Ballast that is right with the implement up can be too much with it off.",
            )
        )
    if v.total_limit is not None:
        found.append(
            model.at_most(
                "total",
                "Mass of everything",
                gross,
                v.total_limit,
                "mass",
                "hitch/H8",
                why="The axle limits add up to more than the whole tractor may weigh.",
            )
        )
    return found
