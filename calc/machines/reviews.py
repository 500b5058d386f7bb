"""Figures of a tractor that can't stand beside each other."""

from __future__ import annotations

from collections.abc import Mapping

from calc.model import KnownSoFar


def review_lift(known: KnownSoFar) -> dict[str, str]:
    """Refuse a lift rating that doesn't say where it was measured."""
    if known.get("lift_capacity") is not None and known.get("lift_rated_at") == "unstated":
        return {
            "lift_rated_at": "A lift figure without its distance can't be used: the same hitch is "
            "sold with a figure at the ball ends, at 12 in and at 24 in behind them. Look in the "
            "specification for the distance, or clear the lift figure and let the typical range "
            "stand in."
        }
    return {}


def review(known: KnownSoFar) -> dict[str, str]:
    """Return a sentence for each figure of a tractor that can't stand beside the others."""
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
    engine, shaft = known.get("engine_power"), known.get("pto_power")
    if engine is not None and shaft is not None and shaft.low > engine.high:
        found["pto_power"] = (
            "No PTO gives more power than the engine that turns it: the two figures may be swapped."
        )
    front, mass = known.get("front_axle_mass"), known.get("tractor_mass")
    if front is not None and mass is not None and front.low >= mass.high:
        found["front_axle_mass"] = (
            "The front axle can't carry the whole tractor: it is a part of the tractor's mass, "
            "usually two fifths."
        )
    return found


# What is left out of a list's row with a figure that can't stand beside others: which of them is
# wrong, nobody can tell there.
TOGETHER: Mapping[str, tuple[str, ...]] = {
    "lift_rated_at": ("lift_capacity", "lift_rated_at"),
    "lift_at_ball_ends": ("lift_capacity", "lift_rated_at", "lift_at_ball_ends"),
    "pto_power": ("engine_power", "pto_power"),
    "front_axle_mass": ("front_axle_mass", "tractor_mass"),
}
