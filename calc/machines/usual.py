"""What is usual of a tractor and an implement, for what is known of it so far."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from calc import si, tables
from calc.mechanics import typical
from calc.model import KnownSoFar, Typical
from calc.quantities import Reading

ANY = "any"
ROAD_SIZE = "road/SIZE-practice"


Span = tuple[float, float]
OF_ENGINE = (0.69, 0.88)
"""The least and the most of an engine's rating that makers' brochures give at the PTO: utility
tractors, and compacts with a gear drive (hitch/B1) [-]."""


def _span(known: KnownSoFar, name: str) -> Span | None:
    value = known.get(name)
    return (value.low, value.high) if isinstance(value, Reading) else None


def _tractor_ranges(known: KnownSoFar) -> tuple[dict[str, Span], str, str]:
    """Return what is usual of a tractor for what is known of it, the source, and what it is of.

    A mass from a scale has the loader and all the rest in it, so it says less of the rest.
    """
    key = known.get("tractor_kind") or ANY
    labels = dict(typical.tractor_kinds())
    kind = key if key in labels else ""
    bare = known.get("mass_as") != "scale"
    mass, power, base = (_span(known, n) for n in ("tractor_mass", "pto_power", "wheelbase"))
    engine = _span(known, "engine_power")
    by_engine = power is None
    if power is None and engine is not None:
        power = (OF_ENGINE[0] * engine[0], OF_ENGINE[1] * engine[1])
    ranges = typical.narrowed(kind, mass if bare else None, power, base, known.get("cab") == "cab")
    source = "hitch/B1; hitch/PRACTICE"
    of = f"a tractor of the kind \u201c{labels[kind].lower()}\u201d" if kind else "tractors"
    named = "engine power" if by_engine else "PTO power"
    said = [label for span, label in ((mass, "mass"), (power, named)) if span]
    if said:
        return ranges, source, f"{of} of this {' and '.join(said)}"
    return ranges, source, of if kind else "compact and utility tractors of any size"


def of_tractor(name: str) -> Any:
    def find(known: KnownSoFar) -> Typical:
        ranges, source, of = _tractor_ranges(known)
        return Typical(*ranges[name], source, of)

    return find


def if_loader(name: str) -> Any:
    """Return the usual range of a part of the loader; nothing where there is no loader."""

    def find(known: KnownSoFar) -> Typical | None:
        if known.get("loader") in ("off", "none"):
            return None
        ranges, source, of = _tractor_ranges(known)
        return Typical(*ranges[name], source, f"the loader of {of}")

    return find


def loader_mass(known: KnownSoFar) -> Typical | None:
    return None if known.get("mass_as") == "scale" else if_loader("loader_mass")(known)


def loader_ahead(known: KnownSoFar) -> Typical | None:
    if known.get("mass_as") == "scale" or known.get("loader") in ("off", "none"):
        return None
    return Typical(0.0, 0.4, "hitch/DERIVED", "loaders with the arms down")


def driver_mass(known: KnownSoFar) -> Typical | None:
    if known.get("mass_as") == "scale":
        return None
    return Typical(75.0, 75.0, "hitch/ISO7131", "operating masses")


def liquid_mass(known: KnownSoFar) -> Typical | None:
    """Return the usual mass of the liquid, from the tires' size where it is known."""
    kind = known.get("tire_liquid") or "none"
    if kind == "none" or known.get("mass_as") == "scale":
        return None
    size = known.get("rear_tire")
    row = tables.by_key("tires/ballast_liquids", "key")[kind]
    density = float(row["density_kg_l"]) * 1000.0
    if size is not None:
        from calc.mechanics import liquid_ballast, tires

        volume = liquid_ballast.fill_volume(tires.dimensions(size)).value
        both = 2.0 * liquid_ballast.liquid_mass(volume, density)
        return Typical(0.95 * both, 1.05 * both, row["source"], "tires of this size, 3/4 full")
    ranges, source, of = _tractor_ranges(known)
    low, high = ranges["liquid"]
    usual = 1130.0  # the strength that the table's masses are of [kg/m3]
    return Typical(low * density / usual, high * density / usual, source, f"both tires of {of}")


def lift_rated_at(given: Mapping[str, Any]) -> str:
    """Where a lift figure holds: what is usual, and the one beside that of the ball ends, at 24 in.

    Empty where somebody gave one figure, which may hold anywhere.
    """
    alone = given.get("lift_capacity") is not None and given.get("lift_at_ball_ends") is None
    return "" if alone else "610"


def lift_capacity(known: KnownSoFar) -> Typical:
    """Return the usual lift at the distance that is chosen; the table's is at 610 mm."""
    ranges, source, of = _tractor_ranges(known)
    rated_at = known.get("lift_rated_at") or "610"
    distance = 0.61 if rated_at == "unstated" else float(rated_at) / 1000.0
    pivot = [0.61 * share / (1.0 - share) for share in typical.lift_ratio()]
    low, high = ranges["lift_610"]
    ball = known.get("lift_at_ball_ends")
    if isinstance(ball, Reading):  # what the same hitch lifts nearer says what it lifts here
        return Typical(
            ball.low * pivot[0] / (pivot[0] + distance),
            ball.high * pivot[1] / (pivot[1] + distance),
            "hitch/B1; hitch/B2",
            "this lift at the ball ends",
        )
    return Typical(
        low * (pivot[1] + 0.61) / (pivot[1] + distance),
        high * (pivot[0] + 0.61) / (pivot[0] + distance),
        source,
        of,
    )


def of_implement(name: str) -> Callable[[KnownSoFar], Typical]:
    def find(known: KnownSoFar) -> Typical:
        key = known.get("implement_kind") or "other"
        labels = dict(typical.implement_kinds())
        width = known.get("working_width")
        widths = [width.low, width.high] if isinstance(width, Reading) else [None]
        spans = [typical.implement(key, w)[name] for w in widths]
        low, high = min(s[0] for s in spans), max(s[1] for s in spans)
        return Typical(low, high, typical.implement_source(key), f"“{labels[key].lower()}”")

    return find


def cg_distance(known: KnownSoFar) -> Typical | None:
    """Return how far behind the balls an implement usually has its weight; None elsewhere."""
    if typical.mount(known.get("implement_kind") or "") in ("front", "mid"):
        return None
    return of_implement("cg_distance")(known)


def balls_highest(known: KnownSoFar) -> Typical | None:
    """Return how high a hitch lifts its balls, where an implement's pins are to be carried."""
    if known.get("pins_on_ground") is None:
        return None
    from calc.mechanics import hitch

    number = (known.get("hitch_category") or "1")[0]
    number = number if number in "1234" else "1"
    least = hitch.size("transport_height_min", number)
    small = known.get("tractor_kind") in ("subcompact", ANY, None) and number == "1"
    low = hitch.size("transport_height_min", "1L") if small else least
    source = "hitch/H14; hitch/ISO730-memory"
    return Typical(low, least + 0.15, source, f"a Category {number} hitch all the way up")


def raised_height(known: KnownSoFar) -> Typical:
    """Return how high a raised implement carries its weight, from the hitch's travel if given."""
    balls, pins = known.get("balls_highest"), known.get("pins_on_ground")
    if isinstance(balls, Reading):
        of = "what hangs on balls of this height"
        return Typical(0.85 * balls.low, 1.15 * balls.high, "hitch/PRACTICE", of)
    low = 0.5 if not isinstance(pins, Reading) else max(0.5, pins.low)
    return Typical(low, max(0.9, low + 0.2), "hitch/PRACTICE", "mounted implements")


BLADE_AHEAD = (0.7, 1.0)
"""Front axle to the center of gravity of a front blade of any width [m]."""


def cg_ahead(known: KnownSoFar) -> Typical | None:
    """Return how far ahead of the front axle an implement in front usually has its weight."""
    if typical.mount(known.get("implement_kind") or "") == "front":
        return of_implement("cg_distance")(known)
    if known.get("front_implement_mass") is None:
        return None
    return Typical(*BLADE_AHEAD, "hitch/TYPICAL-memory", "blades in front")


def implement_mass(known: KnownSoFar) -> Typical:
    """Return the usual mass of an implement: of its own where what it carries is given."""
    row = typical.carrier(known.get("implement_kind") or "")
    if row is None or known.get("load_carried") is None:
        return of_implement("mass")(known)
    own = (float(row["own_low_kg"]), float(row["own_high_kg"]))
    return Typical(*own, row["source"], "one that is empty")


def tongue_load(known: KnownSoFar) -> Typical | None:
    """Return the usual load on the drawbar of a towed machine; nothing for a mounted one."""
    kind = known.get("implement_kind") or ""
    if typical.mount(kind) != "towed":
        return None
    mass = _span(known, "implement_mass") or typical.implement(kind)["mass"]
    load = _span(known, "load_carried") or (0.0, 0.0)
    mass = (mass[0] + load[0], mass[1] + load[1])
    low, high = typical.tongue_share(kind)
    return Typical(low * mass[0], high * mass[1], "hitch/PRACTICE", "what is towed")


def working_width(known: KnownSoFar) -> Typical:
    if known.get("implement_kind") == "chipper":
        return Typical(0.0762, 0.127, "hitch/TYPICAL-memory", "the opening of a small chipper")
    if known.get("implement_kind") == "plow":
        return Typical(si.FOOT, 0.7112, "hitch/PRACTICE", "one or two bottoms of 12 or 14 in")
    return Typical(1.2, 1.8, "hitch/PRACTICE", "implements for compact tractors")


def auger_diameter(known: KnownSoFar) -> Typical | None:
    """Return the augers that diggers for compacts carry; nothing for another implement."""
    if known.get("implement_kind") != "post_hole_digger":
        return None
    return Typical(0.1524, si.FOOT, "power/CLASS-memory", "diggers for compact tractors")


FARMED_HIGHEST = 1500.0
"""As high as land is usually farmed, common practice, no source [m]."""
STEEPEST = 0.15
"""As steep as land usually is that is mowed or graded, common practice, no source [-]."""


def ground_speed(known: KnownSoFar) -> Typical:
    """Return the usual speed at work; a tiller crawls."""
    if known.get("implement_kind") == "rotary_tiller":
        row = tables.by_key("power/field_efficiency", "implement")["rotary tiller"]
        low, high = (float(row[f"speed_{end}_km_h"]) / 3.6 for end in ("low", "typical"))
        return Typical(low, high, row["source"], "tilling")
    return Typical(0.9, 2.2, "hitch/PRACTICE", "mowing")
