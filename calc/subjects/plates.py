"""The limits of axles, tires and the whole tractor, in the state that loads them most.

A limit that nobody gave is left out; with a load in the loader it stays open.
"""

from __future__ import annotations

from calc import arith, model
from calc.subjects.carrying import TRAVEL, Carried, carried

SEEN_LOADS = "hitch/H4; hitch/H6"


def check(v: model.Inputs, at: model.At, *, full: bool) -> None:
    """Check whichever limits are known; with the loader full the front tires wait for it."""
    rear_most = arith.max(at.rear, at.down_rear)
    front_most = arith.max(at.front, at.down_front)
    if v.rear_axle_limit is not None:
        at.at_most("rear_axle", rear_most, "rear_axle_limit", SEEN_LOADS, kind="load")
    _tires(at, "rear", tire_of(v, "rear"), rear_most, governs=False)
    if v.front_axle_limit is not None:
        at.at_most("front_axle", front_most, "front_axle_limit", SEEN_LOADS, kind="load")
    if not full:
        _tires(at, "front", tire_of(v, "front"), front_most, governs=False)
    if v.total_limit is not None:
        at.at_most("total", "gross", "total_limit", "hitch/H8")


def front_tires(v: model.Inputs, at: model.At, most: float, *, governs: bool) -> None:
    """Check the front tires under the most that the front axle carries; open where unknown."""
    _tires(at, "front", tire_of(v, "front"), most, governs=governs)


def tire_of(v: model.Inputs, axle: str) -> Carried | None:
    """Return what one tire of an axle carries, as read off it or from its size at its pressure.

    None where nobody said anything of it. A load that was read off is that at the pressure in it.
    """
    size, typed = getattr(v, f"{axle}_tire"), getattr(v, f"{axle}_tire_load")
    if size is None and typed is None:
        return None
    pressure = None if typed is not None else getattr(v, f"{axle}_tire_pressure")
    return carried(size, typed, pressure, speed=TRAVEL)


def _tires(at: model.At, axle: str, tire: Carried | None, most: float, *, governs: bool) -> None:
    name = f"{axle}_tires"
    tire = None if tire is None else tire.against(most, 2)
    if tire is None or tire.load is None:
        if governs or tire is not None:
            given = tire is not None
            at.not_checked(name, f"{axle}_tire_load", governs=governs, meant=given)
        return
    if tire.too_fast and most <= 2.0 * tire.load:
        at.not_checked(name, f"{axle}_tire_load", governs=governs)
        return
    source = f"{SEEN_LOADS}; {tire.source}"
    at.at_most(name, most, 2.0 * tire.load, source, kind="load")
