"""The fields that describe a tractor, an implement and a job, each under one name everywhere.

A worksheet takes its machine fields from here (`field("tractor_mass", example="1,550 lb")`),
so that a machine kept on a device, a row of a dealer's list and a link fill every worksheet.
"""

from __future__ import annotations

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
ROAD, ROAD_SIZE = "On the road", "road/SIZE-practice"

Span = tuple[float, float]


def _tractor_ranges(known: KnownSoFar) -> tuple[dict[str, Span], str, str]:
    """Return the usual ranges of the tractor's class, their source, and the class in words."""
    key = known.get("tractor_kind") or ANY
    labels = dict(typical.tractor_kinds())
    source = {row["key"]: row["source"] for row in tables.rows("machines/typical_tractors")}
    if key in labels:
        return typical.tractor(key), source[key], f"a tractor of the kind “{labels[key].lower()}”"
    ranges = [typical.tractor(name) for name in labels]
    merged = {
        name: (min(r[name][0] for r in ranges), max(r[name][1] for r in ranges))
        for name in ranges[0]
    }
    return merged, next(iter(source.values())), "compact and utility tractors of any size"


def _of_tractor(name: str) -> Any:
    def find(known: KnownSoFar) -> Typical:
        ranges, source, of = _tractor_ranges(known)
        return Typical(*ranges[name], source, of)

    return find


def _lift(known: KnownSoFar) -> Typical:
    """Return the usual lift at the distance that is chosen; the table's is at 610 mm."""
    ranges, source, of = _tractor_ranges(known)
    rated_at = known.get("lift_rated_at") or "610"
    distance = 0.61 if rated_at == "unstated" else float(rated_at) / 1000.0
    pivot = ranges["link_length"]
    low, high = ranges["lift_610"]
    return Typical(
        low * (pivot[1] + 0.61) / (pivot[1] + distance),
        high * (pivot[0] + 0.61) / (pivot[0] + distance),
        source,
        of,
    )


def _of_implement(name: str) -> Any:
    def find(known: KnownSoFar) -> Typical:
        key = known.get("implement_kind") or "other"
        labels = dict(typical.implement_kinds())
        width = known.get("working_width")
        widths = [width.low, width.high] if isinstance(width, Reading) else [None]
        spans = [typical.implement(key, w)[name] for w in widths]
        low, high = min(s[0] for s in spans), max(s[1] for s in spans)
        return Typical(low, high, typical.implement_source(key), f"“{labels[key].lower()}”")

    return find


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


TRANSMISSIONS = (
    Option("gear", "Gear or shuttle"),
    Option("hydrostatic", "Hydrostatic"),
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


_ROLL = (
    "From the roll-out sheet: mark tire and ground, roll straight for ten turns at work load and "
    "pressure, measure."
)


@cache
def _fields() -> dict[str, AnyField]:
    tractor, implement, job = "Tractor", "Implement", "Job"
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
        Field(
            "tractor_mass",
            "mass",
            "300 lb",
            "20,000 lb",
            typical=_of_tractor("mass"),
            essential=True,
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
            optional=True,
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
        Field("front_turns", "count", "0.8", "25", optional=True, group=tractor),
        Field("remotes", "count", "0", "6", optional=True, group=tractor),
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
        Field(
            "implement_mass",
            "mass",
            "20 lb",
            "10,000 lb",
            typical=_of_implement("mass"),
            essential=True,
            group=implement,
        ),
        Field(
            "cg_distance",
            "length",
            "2 in",
            "140 in",
            typical=_of_implement("cg_distance"),
            group=implement,
        ),
        Field(
            "raised_height",
            "length",
            "6 in",
            "80 in",
            typical=Typical(0.5, 0.9, "hitch/PRACTICE", "mounted implements"),
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
            typical=Typical(0.0, 0.15, "hitch/PRACTICE", "mowed land"),
            group=job,
        ),
        Field(
            "ground_speed",
            "speed",
            "0.5 mph",
            "15 mph",
            example="3 mph",
            typical=Typical(0.9, 2.2, "hitch/PRACTICE", "mowing and tilling"),
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


ROLES = {"Tractor": "tractor", "Implement": "implement", "Job": "job"}


def role(name: str) -> str:
    """Return "tractor", "implement" or "job" for a field of the vocabulary, else ""."""
    found = _fields().get(name)
    return ROLES.get(found.group, "") if found else ""
