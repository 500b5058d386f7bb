"""What hangs behind a tractor: how it is carried, its mass, its place, and what the hitch lifts.

Values are in base units; the inputs have the vocabulary's names.
"""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import lift, quick_coupler, typical

SEEN_LIFT = "hitch/H13; hitch/B1; hitch/DERIVED"
PARALLEL = 100.0  # links that meet this far ahead of the balls or farther run parallel [m]


def hangs(v: model.Inputs) -> str:
    """Return how it is carried: "hitch", "front", "mid", "towed", "subframe" or "none"."""
    return typical.mount(v.implement_kind)


def rated_at_of(v: model.Inputs) -> float:
    """Return where the lift figure holds. Without a figure it is the usual one, at 24 in."""
    found: float = v.each("lift_rated_at", _rated_at)
    return found


def _rated_at(where: str) -> float:
    return lift.RATING_DISTANCE if where == "unstated" else lift.rating_distance(where)


def pivot_of(v: model.Inputs) -> tuple[float, bool]:
    """Return the hitch's effective pivot, and whether two ratings of its own bear it out."""
    ball: float | None = v.lift_at_ball_ends
    rated_at = rated_at_of(v)
    if ball is None or rated_at <= 0.0:
        share = arith.min(v.lift_ratio, 0.99)
        return lift.RATING_DISTANCE / (1.0 / share - 1.0), False
    far = arith.min(arith.number(v.lift_capacity), ball)
    return lift.pivot_from_two_ratings(ball, far, rated_at), True


def capacity_of(v: model.Inputs) -> float:
    """Return what the hitch lifts at the implement's center of gravity."""
    pivot, credit = pivot_of(v)
    rated_at = rated_at_of(v)
    if v.quick_coupler == "none":
        return lift.capacity_at(v.lift_capacity, rated_at, hung_at(v), pivot, credit)
    return lift.capacity_with_coupler(
        v.lift_capacity,
        rated_at,
        hung_at(v),
        pivot,
        quick_coupler.coupler_setback(),
        coupler_mass(),
    )


def coupler_mass() -> float:
    """Return the middle of what a U-frame coupler usually weighs. [kg]"""
    return sum(quick_coupler.coupler_mass()) / 2.0


# --- what it weighs ---------------------------------------------------------------------------


def hung_mass(v: model.Inputs) -> float:
    """Return the mass of the implement with what it carries. [kg]"""
    return arith.or_zero(v.implement_mass) + arith.or_zero(v.load_carried)


def hung_at(v: model.Inputs) -> float:
    """Return how far behind the balls it has its center of gravity, its load counted. [m]

    A pallet stands at its own place on the forks; what fills a box is where the box is.
    """
    own = arith.or_zero(v.cg_distance)
    row = typical.carrier(v.implement_kind)
    if v.load_carried is None or row is None or not row["load_at_m"]:
        return own
    share = v.load_carried / hung_mass(v)
    there: float = arith.max(own, float(row["load_at_m"]))
    found: float = own + share * (there - own)
    return found


def refuse(at: model.At) -> None:
    """Refuse a backhoe on the three-point hitch."""
    at.fits("subframe", -1.0, "hitch/B1", "refused", grade=model.DANGER)


def check_loaded(v: model.Inputs, at: model.At) -> None:
    """Say that the load isn't counted where the mass is that of an empty spear, box or fork.

    Forks have no usual load: they are open until one is given, or a mass beyond their own.
    """
    row = typical.carrier(v.implement_kind)
    if row is None or v.load_carried is not None:
        return
    if v.implement_mass <= float(row["own_high_kg"]):
        at.not_checked("loaded", "load_carried")


def behind_axle(v: model.Inputs) -> tuple[float, float]:
    """Return the mass that hangs there and its distance behind the rear axle, minus if ahead.

    Of a towed machine it is the load on the drawbar, at the balls; of none it is nothing. What
    is in front stands ahead of the front axle, a mower deck half way between the axles.
    """
    how, hang = hangs(v), arith.number(v.hitch_distance)
    if how == "front":
        return arith.number(hung_mass(v)), -(v.wheelbase + v.cg_ahead)
    if how == "mid":
        return arith.number(hung_mass(v)), -0.5 * v.wheelbase
    if how == "towed":
        return arith.number(arith.or_zero(v.tongue_load)), hang
    mass = 0.0 if how == "none" else arith.number(hung_mass(v))
    if v.quick_coupler == "none":
        return mass, hang + hung_at(v)
    setback, coupler = quick_coupler.coupler_setback(), coupler_mass()
    moment = mass * (hang + setback + hung_at(v)) + coupler * (hang + setback / 2.0)
    return mass + coupler, moment / (mass + coupler)
