"""How far a tractor stands from going over, sideways and backward.

Values are in base units; the inputs have the vocabulary's names.
"""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import stability
from calc.subjects.hung import hangs
from calc.subjects.standing import Stand, front_share_of

SIDE_LEAST = 15.0  # degrees, hitch/EP562


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


def check_raised(v: model.Inputs, at: model.At, found: Stand, payload: float) -> None:
    """Check how far it stands from going over sideways with a load [kg] raised in the loader."""
    added = [(payload, found.base + v.loader_reach, arith.number(v.loader_height))]
    if hangs(v) != "none":
        added.append((at.rear_mass, -at.overhang, arith.number(v.raised_height)))
    at.side_raised = tip_angles(v, found, added)[0]
    at.at_least(
        "side_raised", "side_raised", SIDE_LEAST, "hitch/EP562", grade=model.DANGER, close_band=0.2
    )


def name(v: model.Inputs, at: model.At, found: Stand) -> None:
    """Name the angles at which it goes over as it stands, and with what hangs on it raised."""
    hung = [(at.rear_mass, -at.overhang, arith.number(v.raised_height))]
    hung.append((found.weights, found.base + v.front_ballast_distance, arith.number(v.cg_height)))
    at.side, at.back = tip_angles(v, found, [])
    at.side_up, at.back_up = tip_angles(v, found, hung)
