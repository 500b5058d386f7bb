"""The limits of axles, tires and the whole tractor, in the state that loads them most.

A limit that nobody gave is left out; with a load in the loader it stays open.
"""

from __future__ import annotations

from calc import arith, model

SEEN_LOADS = "hitch/H4; hitch/H6"


def check(v: model.Inputs, at: model.At) -> None:
    """Check whichever limits are known, in the state that loads them most."""
    rear_most = arith.max(at.rear, at.down_rear)
    if v.rear_axle_limit is not None:
        at.at_most("rear_axle", rear_most, "rear_axle_limit", SEEN_LOADS, kind="load")
    tire = rear_tire_load(v)
    if tire is not None:
        at.at_most("rear_tires", rear_most, 2.0 * tire, SEEN_LOADS, kind="load")
    if v.front_axle_limit is not None:
        front_most = arith.max(at.front, at.down_front)
        at.at_most("front_axle", front_most, "front_axle_limit", SEEN_LOADS, kind="load")
    if v.total_limit is not None:
        at.at_most("total", "gross", "total_limit", "hitch/H8")


def rear_tire_load(v: model.Inputs) -> float | None:
    """Return the load of one rear tire: as said, or from its size's marking."""
    if v.rear_tire_load is not None:
        return arith.number(v.rear_tire_load)
    if v.rear_tire is None:
        return None
    from calc.mechanics import tire_load

    found = tire_load.rating(v.rear_tire)
    return None if found is None else arith.number(found.load)
