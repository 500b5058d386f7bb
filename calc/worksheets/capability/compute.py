"""The sums."""

from __future__ import annotations

from calc import model
from calc.subjects.standing import stand

EVEN, BRAKED = 1.0, 2.0  # towed mass to the tractor: hitch/T26 without brakes, hitch/M8 with


def compute(v: model.Inputs, at: model.At) -> None:
    """Name what the tractor weighs as it stands, and what that lets it tow."""
    found = stand(v.but(loader_payload=None))
    at.standing, at.down_front, at.down_rear = found.mass, found.front, found.rear
    at.trailer, at.trailer_braked = EVEN * found.mass, BRAKED * found.mass
    parts = {f"m{i}": (part.mass, "mass") for i, part in enumerate(found.parts, 1)}
    at.step("standing", "T = bare + Σ m", "hitch/DERIVED", bare="tractor_mass", **parts)
    at.step("trailer", "m = T", "hitch/T26", T="standing")
    at.step("trailer_braked", "m = 2 T", "hitch/M8", T="standing")
