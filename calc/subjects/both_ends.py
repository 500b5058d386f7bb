"""An implement in front that stays on together with one behind.

Each can be up while the other is down, so neither counts as the other's ballast: the check of
the front wheels has the one in front on the ground, and these have the one behind there. Values
are in base units; the inputs have the vocabulary's names.
"""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import ballast
from calc.subjects.plates import SEEN_LOADS
from calc.subjects.standing import Stand


def check(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Check both axles with the one in front up and the one behind down, and the whole."""
    if v.front_implement_mass is None or v.cg_ahead is None:
        return
    mass = arith.number(v.front_implement_mass)
    at.both_front, at.both_rear = found.with_(mass, found.base + v.cg_ahead)
    least = ballast.REAR_SHARE * found.own
    at.at_least("both_rear", "both_rear", least, SEEN_LOADS, grade=model.DANGER)
    if v.front_axle_limit is None:
        at.not_checked("both_front", "front_axle_limit")
    else:
        at.at_most("both_front", "both_front", "front_axle_limit", SEEN_LOADS)
    if v.total_limit is not None:
        at.both = at.gross + mass
        at.at_most("both", "both", "total_limit", "hitch/H8")
    carried_in_front(v, at, found, mass)


def carried_in_front(v: model.Inputs, at: model.At, found: Stand, mass: float) -> None:
    """Check what is carried in front [kg] against its hitch or subframe, and beside a loader."""
    if v.front_lift_capacity is None:
        at.not_checked("front_lift", "front_lift_capacity", governs=False)
    else:
        at.at_most("front_lift", mass, "front_lift_capacity", "hitch/PRACTICE", kind="mass")
    if found.loader:
        at.fits("front_place", 0.0, "hitch/PRACTICE", "loader", grade=model.ADVICE)
