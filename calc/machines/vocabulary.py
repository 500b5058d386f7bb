"""The fields that describe a tractor, an implement and a job, each under one name everywhere.

A worksheet takes its machine fields from here (`field("tractor_mass", example="1,550 lb")`),
so that a machine kept on a device, a row of a dealer's list and a link fill every worksheet.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from calc import tables
from calc.errors import InputError
from calc.mechanics import typical
from calc.model import AnyField, Choice, Entry, Field, KnownSoFar, Option, Typical, worded
from calc.model.wording import read_words
from calc.quantities import Reading

ANY = "any"
PARTS, LOADER_WORK = "The tractor as it stands", "Loader"
ROAD, ROAD_SIZE = "On the road", "road/SIZE-practice"

Span = tuple[float, float]


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
    ranges = typical.narrowed(kind, mass if bare else None, power, base, known.get("cab") == "cab")
    source = "hitch/B1; hitch/PRACTICE"
    of = f"a tractor of the kind \u201c{labels[kind].lower()}\u201d" if kind else "tractors"
    said = [label for span, label in ((mass, "mass"), (power, "PTO power")) if span]
    if said:
        return ranges, source, f"{of} of this {' and '.join(said)}"
    return ranges, source, of if kind else "compact and utility tractors of any size"


def _of_tractor(name: str) -> Any:
    def find(known: KnownSoFar) -> Typical:
        ranges, source, of = _tractor_ranges(known)
        return Typical(*ranges[name], source, of)

    return find


def _if_loader(name: str) -> Any:
    """Return the usual range of a part of the loader; nothing where there is no loader."""

    def find(known: KnownSoFar) -> Typical | None:
        if known.get("loader") in ("off", "none"):
            return None
        ranges, source, of = _tractor_ranges(known)
        return Typical(*ranges[name], source, f"the loader of {of}")

    return find


def _loader_mass(known: KnownSoFar) -> Typical | None:
    return None if known.get("mass_as") == "scale" else _if_loader("loader_mass")(known)


def _loader_ahead(known: KnownSoFar) -> Typical | None:
    if known.get("mass_as") == "scale" or known.get("loader") in ("off", "none"):
        return None
    return Typical(0.0, 0.4, "hitch/DERIVED", "loaders with the arms down")


def _driver(known: KnownSoFar) -> Typical | None:
    if known.get("mass_as") == "scale":
        return None
    return Typical(75.0, 75.0, "hitch/ISO7131", "operating masses")


def _liquid(known: KnownSoFar) -> Typical | None:
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


def _lift(known: KnownSoFar) -> Typical:
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


def _of_implement(name: str) -> Callable[[KnownSoFar], Typical]:
    def find(known: KnownSoFar) -> Typical:
        key = known.get("implement_kind") or "other"
        labels = dict(typical.implement_kinds())
        width = known.get("working_width")
        widths = [width.low, width.high] if isinstance(width, Reading) else [None]
        spans = [typical.implement(key, w)[name] for w in widths]
        low, high = min(s[0] for s in spans), max(s[1] for s in spans)
        return Typical(low, high, typical.implement_source(key), f"“{labels[key].lower()}”")

    return find


def _cg_distance(known: KnownSoFar) -> Typical | None:
    """Return how far behind the balls an implement usually has its weight; None elsewhere."""
    if typical.mount(known.get("implement_kind") or "") in ("front", "mid"):
        return None
    return _of_implement("cg_distance")(known)


def _balls_highest(known: KnownSoFar) -> Typical | None:
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


def _raised(known: KnownSoFar) -> Typical:
    """Return how high a raised implement carries its weight, from the hitch's travel if given."""
    balls, pins = known.get("balls_highest"), known.get("pins_on_ground")
    if isinstance(balls, Reading):
        of = "what hangs on balls of this height"
        return Typical(0.85 * balls.low, 1.15 * balls.high, "hitch/PRACTICE", of)
    low = 0.5 if not isinstance(pins, Reading) else max(0.5, pins.low)
    return Typical(low, max(0.9, low + 0.2), "hitch/PRACTICE", "mounted implements")


BLADE_AHEAD = (0.7, 1.0)
"""Front axle to the center of gravity of a front blade of any width [m]."""


def _cg_ahead(known: KnownSoFar) -> Typical | None:
    """Return how far ahead of the front axle an implement in front usually has its weight."""
    if typical.mount(known.get("implement_kind") or "") == "front":
        return _of_implement("cg_distance")(known)
    if known.get("front_implement_mass") is None:
        return None
    return Typical(*BLADE_AHEAD, "hitch/TYPICAL-memory", "blades in front")


def _mass(known: KnownSoFar) -> Typical:
    """Return the usual mass of an implement: of its own where what it carries is given."""
    row = typical.carrier(known.get("implement_kind") or "")
    if row is None or known.get("load_carried") is None:
        return _of_implement("mass")(known)
    own = (float(row["own_low_kg"]), float(row["own_high_kg"]))
    return Typical(*own, row["source"], "one that is empty")


def _tongue(known: KnownSoFar) -> Typical | None:
    """Return the usual load on the drawbar of a towed machine; nothing for a mounted one."""
    kind = known.get("implement_kind") or ""
    if typical.mount(kind) != "towed":
        return None
    mass = _span(known, "implement_mass") or typical.implement(kind)["mass"]
    load = _span(known, "load_carried") or (0.0, 0.0)
    mass = (mass[0] + load[0], mass[1] + load[1])
    low, high = typical.tongue_share(kind)
    return Typical(low * mass[0], high * mass[1], "hitch/PRACTICE", "what is towed")


def _ground_speed(known: KnownSoFar) -> Typical:
    """Return the usual speed at work; a tiller crawls."""
    if known.get("implement_kind") == "rotary_tiller":
        row = tables.by_key("power/field_efficiency", "implement")["rotary tiller"]
        low, high = (float(row[f"speed_{end}_km_h"]) / 3.6 for end in ("low", "typical"))
        return Typical(low, high, row["source"], "tilling")
    return Typical(0.9, 2.2, "hitch/PRACTICE", "mowing and tilling")


WORKS_SOIL = ("rotary_tiller", "disk_harrow", "plow", "post_hole_digger")


def _slope(known: KnownSoFar) -> Typical:
    """Return the usual slopes; soil that is worked would wash off steeper ones."""
    if known.get("implement_kind") in WORKS_SOIL:
        return Typical(0.0, 0.08, "hitch/PRACTICE", "soil that is worked")
    return Typical(0.0, 0.15, "hitch/PRACTICE", "mowed land")


def tractor_kind(example: str = "compact_light") -> Choice:
    """The class of tractor, which gives the typical ranges."""
    options = [Option(key, label) for key, label in typical.tractor_kinds()]
    return Choice(
        "tractor_kind",
        (*options, Option(ANY, "Not sure")),
        example=example,
        essential=True,
        group="Tractor",
        usual="any",
    )


def _usual_width(known: KnownSoFar) -> Typical:
    if known.get("implement_kind") == "chipper":
        return Typical(0.0762, 0.127, "hitch/TYPICAL-memory", "the opening of a small chipper")
    return Typical(1.2, 1.8, "hitch/PRACTICE", "implements for compact tractors")


def _usual_auger(known: KnownSoFar) -> Typical | None:
    """Return the augers that diggers for compacts carry; nothing for another implement."""
    if known.get("implement_kind") != "post_hole_digger":
        return None
    return Typical(0.1524, 0.3048, "power/CLASS-memory", "diggers for compact tractors")


def implement_kind(example: str = "rotary_cutter") -> Choice:
    """The kind of implement, which gives the typical ranges and the demand for power."""
    options = tuple(Option(key, label) for key, label in typical.implement_kinds())
    return Choice("implement_kind", options, example=example, essential=True, group="Implement")


HITCH_CATEGORIES = ("0", "1", "1N", "2", "2N", "3", "3N", "4", "4N")


def hitch_category(name: str, label: str, help: str, example: str, group: str) -> Choice:
    """A hitch category, of the tractor or of the implement."""
    options = tuple(Option(key, f"Category {key}") for key in HITCH_CATEGORIES)
    return Choice(
        name, options, label=label, help=help, example=example, unsure=("0", "1", "2"), group=group
    )


SHAFTS = (
    Option("540-6", "540 rpm, 6 splines, 1-3/8 in"),
    Option("1000-21", "1000 rpm, 21 splines, 1-3/8 in"),
    Option("1000-20", "1000 rpm, 20 splines, 1-3/4 in"),
    Option("mid", "Mid PTO, about 2000 rpm"),
    Option("unsure", "Not sure"),
)


def read_tire_size(text: str) -> Any:
    """Return a tire size as a `tire_size.Designation`, for a field.

    Raises
    ------
    InputError
        When a part of it can't be read.
    """
    # Imported here: most worksheets have no tire in them, and the first answer shouldn't wait.
    from calc.mechanics import tire_size

    try:
        return tire_size.decode(text)
    except tire_size.SizeError as error:
        raise InputError(str(error)) from None


BREATHING = (
    Option("natural", "No turbocharger"),
    Option("turbo", "Turbocharged"),
)
TRANSMISSIONS = (
    Option("gear", "Gear or shuttle"),
    Option("hydrostatic", "Hydrostatic"),
)

LOADER = (
    Option("on", "It is on"),
    Option("off", "Taken off for this"),
    Option("none", "It has none"),
)
MASS_AS = (
    Option("bare", "Bare, as the specification gives it"),
    Option("scale", "From a scale, as it stands"),
)
LOADER_RATED_AT = (
    Option("pins", "At the pivot pins, full height"),
    Option("500", "500 mm (20 in) ahead of the pins, full height"),
)


def _liquids() -> tuple[Option, ...]:
    rows = tables.rows("tires/ballast_liquids")
    return (Option("none", "None, air only"), *(Option(r["key"], r["label"]) for r in rows))


def _tools() -> tuple[Option, ...]:
    return tuple(Option(r["tool"], r["label"]) for r in tables.rows("machines/loader_tools"))


MID_PTO = (
    Option("yes", "It has one, about 2,000 rpm"),
    Option("none", "It has none"),
    Option("unsure", "Not sure"),
)
LIFT_RATED_AT = (
    Option("610", "24 in (610 mm) behind the balls"),
    Option("305", "12 in (305 mm) behind the balls"),
    Option("0", "At the ball ends"),
    Option("unstated", "The figure doesn't say"),
)


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


_ROLL = (
    "From the roll-out sheet: mark tire and ground, roll straight for ten turns at work load and "
    "pressure, measure."
)


@cache
def _fields() -> dict[str, AnyField]:
    tractor, implement, job = "Tractor", "Implement", "Job"
    parts, loader = PARTS, LOADER_WORK
    found: list[AnyField] = [
        tractor_kind(),
        Field("engine_power", "power", "5 hp", "250 hp", optional=True, group=tractor),
        Field(
            "pto_power",
            "power",
            "3 hp",
            "220 hp",
            typical=_of_tractor("pto_power"),
            essential=True,
            group=tractor,
        ),
        Choice("transmission", TRANSMISSIONS, example="hydrostatic", group=tractor),
        Choice("breathing", BREATHING, example="natural", group=tractor),
        Field(
            "tractor_mass",
            "mass",
            "300 lb",
            "20,000 lb",
            typical=_of_tractor("mass"),
            essential=True,
            group=tractor,
        ),
        Choice("mass_as", MASS_AS, example="scale", group=parts, usual="bare"),
        Choice(
            "loader", LOADER, example="off", essential=True, group=tractor, unsure=("off", "on")
        ),
        Choice(
            "cab",
            (Option("open", "Open, with a roll bar"), Option("cab", "Cab")),
            example="open",
            group=parts,
            usual="open",
        ),
        Field("driver_mass", "mass", "0 lb", "500 lb", typical=_driver, group=parts),
        Field("loader_mass", "mass", "50 lb", "4,000 lb", typical=_loader_mass, group=parts),
        Field("loader_ahead", "length", "-20 in", "60 in", typical=_loader_ahead, group=parts),
        Choice("tire_liquid", _liquids(), example="none", group=parts, usual="none"),
        Field("liquid_mass", "mass", "0 lb", "6,000 lb", typical=_liquid, group=parts),
        Field("wheel_weights", "mass", "0 lb", "4,000 lb", optional=True, group=parts),
        Field("loader_payload", "mass", "0 lb", "6,000 lb", optional=True, group=loader),
        Choice("loader_tool", _tools(), example="bucket", group=loader, usual="bucket"),
        Field("loader_rating", "mass", "100 lb", "9,000 lb", optional=True, group=loader),
        Choice(
            "loader_rating_at",
            LOADER_RATED_AT,
            example="pins",
            group=loader,
            unsure=("pins", "500"),
        ),
        Field(
            "loader_reach",
            "length",
            "12 in",
            "120 in",
            typical=_if_loader("loader_reach"),
            group=loader,
        ),
        Field(
            "loader_height",
            "length",
            "6 in",
            "180 in",
            typical=_if_loader("full_height"),
            group=loader,
        ),
        Field("counterweight_asked", "mass", "50 lb", "6,000 lb", optional=True, group=loader),
        Field("front_tire_load", "mass", "100 lb", "10,000 lb", optional=True, group=tractor),
        Field("tongue_load", "mass", "0 lb", "6,000 lb", typical=_tongue, group=implement),
        Field(
            "lift_ratio",
            "fraction",
            "40 %",
            "100 %",
            typical=Typical(*typical.lift_ratio(), "hitch/B1; hitch/B2", "published pairs"),
            group=tractor,
        ),
        Field("front_axle_mass", "mass", "50 lb", "10,000 lb", optional=True, group=tractor),
        Field(
            "front_share",
            "fraction",
            "20 %",
            "65 %",
            typical=_of_tractor("front_share"),
            group=tractor,
        ),
        Field(
            "wheelbase",
            "length",
            "40 in",
            "130 in",
            typical=_of_tractor("wheelbase"),
            group=tractor,
        ),
        Field(
            "hitch_distance",
            "length",
            "12 in",
            "60 in",
            typical=_of_tractor("hitch_distance"),
            group=tractor,
        ),
        Field(
            "link_length",
            "length",
            "16 in",
            "50 in",
            typical=_of_tractor("link_length"),
            group=tractor,
        ),
        Field(
            "lift_capacity",
            "mass",
            "50 lb",
            "15,000 lb",
            typical=_lift,
            essential=True,
            group=tractor,
        ),
        Field("lift_at_ball_ends", "mass", "50 lb", "20,000 lb", optional=True, group=tractor),
        Choice(
            "lift_rated_at",
            LIFT_RATED_AT,
            example="610",
            essential=True,
            group=tractor,
            unsure=("610", "0"),
        ),
        hitch_category(
            "hitch_category",
            "Hitch category of the tractor",
            "Measure a lower ball's hole: 7/8 in pins are Category 1, 1-1/8 in are Category 2.",
            "1",
            tractor,
        ),
        Choice(
            "quick_coupler",
            (Option("none", "None"), Option("u_frame", "U-frame coupler")),
            example="none",
            group=tractor,
            usual="none",
        ),
        Field(
            "front_ballast",
            "mass",
            "0 lb",
            "3,000 lb",
            example="0 lb",
            typical=Typical(0.0, 0.0, "hitch/PRACTICE", "tractors without front weights"),
            group=tractor,
        ),
        Field(
            "front_ballast_distance",
            "length",
            "0 in",
            "100 in",
            typical=Typical(0.5, 0.9, "hitch/PRACTICE", "front weights on a bracket"),
            group=tractor,
        ),
        Field(
            "track_width", "length", "30 in", "100 in", typical=_of_tractor("track"), group=tractor
        ),
        Field(
            "cg_height", "length", "12 in", "60 in", typical=_of_tractor("cg_height"), group=tractor
        ),
        Field("tractor_width", "length", "30 in", "120 in", optional=True, group=tractor),
        Field("front_axle_limit", "mass", "150 lb", "15,000 lb", optional=True, group=tractor),
        Field("rear_axle_limit", "mass", "300 lb", "20,000 lb", optional=True, group=tractor),
        Field("total_limit", "mass", "500 lb", "30,000 lb", optional=True, group=tractor),
        Field("rear_tire_load", "mass", "100 lb", "10,000 lb", optional=True, group=tractor),
        Field("rear_tire_pressure", "pressure", "5 psi", "90 psi", optional=True, group=tractor),
        Field("front_tire_pressure", "pressure", "5 psi", "90 psi", optional=True, group=tractor),
        Entry("front_tire", read_tire_size, such_as="7-16 6PR R-1", group=tractor),
        Entry("rear_tire", read_tire_size, such_as="11.2-24 6PR R-1", group=tractor),
        Field(
            "old_front_ten_turns",
            "length",
            "18 ft",
            "230 ft",
            help=_ROLL,
            optional=True,
            group=tractor,
            unit_us="ft",
            unit_metric="m",
        ),
        Field(
            "old_rear_ten_turns",
            "length",
            "18 ft",
            "230 ft",
            help=_ROLL,
            optional=True,
            group=tractor,
            unit_us="ft",
            unit_metric="m",
        ),
        Choice("shaft", SHAFTS, example="540-6", group=tractor, usual="unsure"),
        Choice("implement_shaft", SHAFTS, example="540-6", group=implement, usual="unsure"),
        Choice("mid_pto", MID_PTO, example="unsure", group=tractor, usual="unsure"),
        Field("front_lift_capacity", "mass", "50 lb", "6,000 lb", optional=True, group=tractor),
        Field("front_turns", "count", "0.8", "25", optional=True, group=tractor),
        Field("remotes", "count", "0", "6", optional=True, group=tractor),
        Field("balls_highest", "length", "12 in", "70 in", typical=_balls_highest, group=tractor),
        Field("implement_flow", "flow", "1 gpm", "60 gpm", optional=True, group=tractor),
        implement_kind(),
        Field(
            "working_width",
            "length",
            "2 in",
            "200 in",
            typical=_usual_width,
            essential=True,
            group=implement,
        ),
        Field("auger_diameter", "length", "4 in", "30 in", typical=_usual_auger, group=implement),
        Field(
            "implement_mass",
            "mass",
            "20 lb",
            "30,000 lb",
            typical=_mass,
            essential=True,
            group=implement,
        ),
        Field("load_carried", "mass", "0 lb", "6,000 lb", optional=True, group=implement),
        Field("front_implement_mass", "mass", "20 lb", "4,000 lb", optional=True, group=implement),
        Field("cg_ahead", "length", "0 in", "80 in", typical=_cg_ahead, group=implement),
        Field(
            "cg_distance",
            "length",
            "2 in",
            "140 in",
            typical=_cg_distance,
            group=implement,
        ),
        Field(
            "raised_height",
            "length",
            "6 in",
            "80 in",
            typical=_raised,
            group=implement,
        ),
        hitch_category(
            "implement_category",
            "Hitch category of the implement",
            "Measure a lower pin: 7/8 in is Category 1, 1-1/8 in is Category 2.",
            "1",
            implement,
        ),
        Field("power_needed", "power", "1 hp", "200 hp", optional=True, group=implement),
        Field("power_limit", "power", "5 hp", "300 hp", optional=True, group=implement),
        Field("flow_needed", "flow", "1 gpm", "60 gpm", optional=True, group=implement),
        Field("pins_on_ground", "length", "2 in", "50 in", optional=True, group=implement),
        Field("transport_width", "length", "10 in", "250 in", optional=True, group=implement),
        Field("remotes_needed", "count", "0", "6", example="0", optional=True, group=implement),
        Field(
            "tail_height",
            "length",
            "10 in",
            "130 in",
            group=tractor,
            typical=Typical(0.9, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "lamp_spread",
            "length",
            "8 in",
            "130 in",
            group=tractor,
            typical=Typical(0.8, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "lamps_to_implement",
            "length",
            "4 in",
            "40 ft",
            group=implement,
            typical=Typical(0.8, 2.0, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "implement_top",
            "length",
            "4 in",
            "15 ft",
            group=implement,
            typical=Typical(0.7, 1.6, ROAD_SIZE, "implements for compact tractors"),
        ),
        Field(
            "axle_pin_height",
            "length",
            "4 in",
            "40 in",
            typical=Typical(0.25, 0.5, "hitch/PRACTICE", "tractors"),
            group=tractor,
        ),
        Choice(
            "material",
            (
                Option("light", "Light: short grass, dry leaves, loose ground"),
                Option("typical", "Typical: tall grass, a season's growth"),
                Option("heavy", "Heavy: brush, wet and dense growth, sod"),
            ),
            example="typical",
            unsure=("light", "typical", "heavy"),
            essential=True,
            group=job,
        ),
        Field(
            "slope",
            "slope",
            "0 %",
            "40 %",
            example="5 %",
            typical=_slope,
            group=job,
        ),
        Field("cross_slope", "slope", "0 %", "60 %", optional=True, group=job),
        Field(
            "ground_speed",
            "speed",
            "0.5 mph",
            "15 mph",
            example="3 mph",
            typical=_ground_speed,
            group=job,
        ),
        Field(
            "altitude",
            "distance",
            "-500 ft",
            "14,000 ft",
            example="500 ft",
            typical=Typical(0.0, 1500.0, "power/PRACTICE", "farmed land"),
            group=job,
        ),
    ]
    said = read_words("calc.machines")["fields"]
    return {item.name: item for item in worded(found, said)}


def field(name: str, **changes: Any) -> AnyField:
    """Return a field of the vocabulary, with some of its properties replaced.

    Raises
    ------
    LookupError
        When the vocabulary has no such field.
    """
    try:
        found = _fields()[name]
    except KeyError:
        raise LookupError(f"The vocabulary has no field {name!r}.") from None
    return replace(found, **changes) if changes else found


def names() -> tuple[str, ...]:
    """Return the name of every field of the vocabulary."""
    return tuple(_fields())


ROLES = {
    "Tractor": "tractor",
    PARTS: "tractor",
    LOADER_WORK: "tractor",
    "Implement": "implement",
    "Job": "job",
}


def role(name: str) -> str:
    """Return "tractor", "implement" or "job" for a field of the vocabulary, else ""."""
    found = _fields().get(name)
    return ROLES.get(found.group, "") if found else ""
