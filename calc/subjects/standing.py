"""The tractor as it stands: its bare mass and split, and each part that is on it, at its place.

A scale ticket has the driver, the loader and the liquid in it; a specification has none of
them, and they are added where they sit. Liquid and wheel weights stand on the rear axle: they
take nothing off the front one, and add nothing to it.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc import arith, model

DRIVER_AHEAD = 0.15  # of the wheelbase ahead of the rear axle; common practice, no source


MASS_FIELDS = (
    "mass_as",
    "loader",
    "cab",
    "driver_mass",
    "loader_mass",
    "loader_payload",
    "tire_liquid",
    "rear_tire",
    "liquid_mass",
    "wheel_weights",
    "front_ballast",
)
"""What `mass_of` reads beside the tractor's mass, or what is usual hangs on."""


@dataclass(frozen=True, slots=True)
class Part:
    """Something on the tractor: its mass [kg] and how far ahead of the rear axle it sits [m]."""

    name: str
    mass: float
    ahead: float


@dataclass(frozen=True, slots=True)
class Stand:
    """A tractor as it stands on the level, nothing behind. Masses in kg, lengths in m.

    `own` counts all but the front weights, which the rules count apart; `mass`, `front` and
    `rear` are with them. `payload` is what is in the loader, None where there is no load to ask
    about.
    """

    base: float
    bare: float
    parts: tuple[Part, ...]
    own: float
    own_front: float
    weights: float
    mass: float
    front: float
    rear: float
    loader: bool
    payload: float | None

    def with_(self, mass: float, ahead: float) -> tuple[float, float]:
        """Return the loads on the front and the rear axle with a mass added at a place."""
        front = self.front + mass * ahead / self.base
        return front, self.rear + mass * (1.0 - ahead / self.base)


def front_axle_of(v: model.Inputs) -> float:
    """Return the load on the front axle of the tractor as its mass was given."""
    weighed: float | None = v.front_axle_mass
    mass: float = v.tractor_mass
    return arith.min(weighed, mass) if weighed is not None else arith.number(v.front_share) * mass


def front_share_of(v: model.Inputs) -> float:
    """Return the share of that mass on the front axle."""
    weighed: float | None = v.front_axle_mass
    return arith.number(v.front_share) if weighed is None else front_axle_of(v) / v.tractor_mass


def has_loader(v: model.Inputs) -> bool:
    """Return whether the loader is on; a load in it says so too."""
    return bool(v.loader == "on" or (v.loader_payload is not None and v.loader_payload > 0.0))


def added(v: model.Inputs) -> dict[str, float]:
    """Return the mass of each thing on a tractor beyond its own, front weights apart. [kg]"""
    if v.mass_as == "scale":
        return {}
    found = {"driver": arith.number(v.driver_mass)}
    if has_loader(v) and v.loader_mass is not None:
        found["loader"] = arith.number(v.loader_mass)
    if v.tire_liquid != "none" and v.liquid_mass is not None:
        found["liquid"] = arith.number(v.liquid_mass)
    if v.wheel_weights is not None:
        found["wheel weights"] = arith.number(v.wheel_weights)
    return found


def mass_of(v: model.Inputs) -> float:
    """Return the mass of the tractor as it stands, front weights included. [kg]

    For a calculator that doesn't ask where things sit: `stand` gives the same mass.
    """
    own = arith.number(v.tractor_mass) + sum(added(v).values())
    return own + arith.number(v.front_ballast)


def parts_of(v: model.Inputs) -> tuple[Part, ...]:
    """Return what is on a tractor beyond the mass that was given for it, front weights apart."""
    base = arith.number(v.wheelbase)
    ahead = {"driver": DRIVER_AHEAD * base, "loader": base + arith.or_zero(v.loader_ahead)}
    return tuple(Part(name, mass, ahead.get(name, 0.0)) for name, mass in added(v).items())


def _on_front(v: model.Inputs, base: float) -> float:
    """Return what those parts put on the front axle, with the wheelbase once where it counts."""
    share = {"driver": DRIVER_AHEAD, "loader": 1.0 + arith.or_zero(v.loader_ahead) / base}
    return sum(mass * share.get(name, 0.0) for name, mass in added(v).items())


def stand(v: model.Inputs) -> Stand:
    """Return the tractor as it stands."""
    base, bare = arith.number(v.wheelbase), arith.number(v.tractor_mass)
    parts = parts_of(v)
    own = bare + sum(part.mass for part in parts)
    on_front = sum(part.mass * part.ahead for part in parts) / base
    own_front = front_axle_of(v) + arith.same(on_front, lambda: _on_front(v, base))
    weights, loader = arith.number(v.front_ballast), has_loader(v)
    front = own_front + weights * (1.0 + v.front_ballast_distance / base)
    return Stand(
        base,
        bare,
        parts,
        own,
        own_front,
        weights,
        own + weights,
        front,
        own - own_front - weights * v.front_ballast_distance / base,
        loader,
        v.loader_payload if loader else None,
    )
