"""The fields that describe a tractor, an implement and a job, each under one name everywhere.

A worksheet takes its machine fields from here (`field("tractor_mass", default="1,550 lb")`),
so that a machine kept on a device, a row of a dealer's list and a link fill every worksheet.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from calc import tables
from calc.errors import InputError
from calc.mechanics import typical
from calc.model import AnyField, Choice, Entry, Field, KnownSoFar, Option, Typical
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


def tractor_kind(default: str = "compact_light") -> Choice:
    """The class of tractor, which gives the typical ranges."""
    options = [Option(key, label) for key, label in typical.tractor_kinds()]
    return Choice(
        "tractor_kind",
        "Kind of tractor",
        (*options, Option(ANY, "Not sure")),
        "Only used for numbers that you leave blank. Pick by weight when in doubt: a subcompact "
        "weighs 1,200 to 1,900 lb, a utility tractor 5,000 lb or more.",
        default=default,
        essential=True,
        group="Tractor",
    )


def _usual_width(known: KnownSoFar) -> Typical:
    if known.get("implement_kind") == "chipper":
        return Typical(0.0762, 0.127, "hitch/TYPICAL-memory", "the opening of a small chipper")
    return Typical(1.2, 1.8, "hitch/PRACTICE", "implements for compact tractors")


def implement_kind(default: str = "rotary_cutter") -> Choice:
    """The kind of implement, which gives the typical ranges and the demand for power."""
    options = tuple(Option(key, label) for key, label in typical.implement_kinds())
    return Choice(
        "implement_kind",
        "Kind of implement",
        options,
        "What hangs on the three-point hitch.",
        default=default,
        essential=True,
        group="Implement",
    )


HITCH_CATEGORIES = ("0", "1", "1N", "2", "2N", "3", "3N", "4", "4N")


def hitch_category(name: str, label: str, help: str, default: str, group: str) -> Choice:
    """A hitch category, of the tractor or of the implement."""
    options = tuple(Option(key, f"Category {key}") for key in HITCH_CATEGORIES)
    return Choice(name, label, options, help, default=default, unsure=("0", "1", "2"), group=group)


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
        Field(
            "engine_power",
            "Engine power",
            "power",
            "5 hp",
            "250 hp",
            "On the hood decal or the first line of the specification.",
            optional=True,
            group=tractor,
        ),
        Field(
            "pto_power",
            "PTO power",
            "power",
            "3 hp",
            "220 hp",
            "In the specification as “PTO power”. It is less than the engine power.",
            typical=_of_tractor("pto_power"),
            essential=True,
            group=tractor,
        ),
        Choice(
            "transmission",
            "Transmission",
            TRANSMISSIONS,
            "A hydrostatic drive has a pedal for speed and direction and no shift on the move.",
            default="hydrostatic",
            group=tractor,
        ),
        Field(
            "tractor_mass",
            "Tractor mass",
            "mass",
            "300 lb",
            "20,000 lb",
            "As it works: fluids, driver, loader if it stays on, and ballast fixed to it. Best "
            "from a scale; otherwise the specification's weight and the driver's.",
            typical=_of_tractor("mass"),
            essential=True,
            group=tractor,
        ),
        Field(
            "front_axle_mass",
            "Mass on the front axle",
            "mass",
            "50 lb",
            "10,000 lb",
            "Only if you have weighed it: front wheels on the scale, rear wheels off, implement "
            "off.",
            optional=True,
            group=tractor,
        ),
        Field(
            "front_share",
            "Share of the mass on the front axle",
            "fraction",
            "20 %",
            "65 %",
            "Used when the front axle wasn't weighed. The specification may print front and rear "
            "weights.",
            typical=_of_tractor("front_share"),
            group=tractor,
        ),
        Field(
            "wheelbase",
            "Wheelbase",
            "length",
            "40 in",
            "130 in",
            "From the center of the front hub to the center of the rear hub, or in the "
            "specification.",
            typical=_of_tractor("wheelbase"),
            group=tractor,
        ),
        Field(
            "hitch_distance",
            "Rear axle to hitch balls",
            "length",
            "12 in",
            "60 in",
            "Level distance from the center of the rear axle back to the balls of the lower "
            "links, links level.",
            typical=_of_tractor("hitch_distance"),
            group=tractor,
        ),
        Field(
            "link_length",
            "Length of the lower links",
            "length",
            "16 in",
            "50 in",
            "From the front pin of a lower link to its ball.",
            typical=_of_tractor("link_length"),
            group=tractor,
        ),
        Field(
            "lift_capacity",
            "Hitch lift capacity",
            "mass",
            "50 lb",
            "15,000 lb",
            "In the specification, always with a distance: use the figure 24 in behind the balls "
            "if there is one.",
            typical=_lift,
            essential=True,
            group=tractor,
        ),
        Field(
            "lift_at_ball_ends",
            "Second lift figure, at the ball ends",
            "mass",
            "50 lb",
            "20,000 lb",
            "Some specifications print two figures. With both, the fall with distance is your "
            "hitch's own and not an estimate.",
            optional=True,
            group=tractor,
        ),
        Choice(
            "lift_rated_at",
            "That lift figure is measured",
            LIFT_RATED_AT,
            "The specification says it beside the figure. Left blank, the typical lift at 24 in is "
            "used.",
            default="610",
            essential=True,
            group=tractor,
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
            "Quick coupler",
            (Option("none", "None"), Option("u_frame", "U-frame coupler")),
            "A U-frame coupler hangs on all three points and hooks the implement's pins.",
            default="none",
            group=tractor,
        ),
        Field(
            "front_ballast",
            "Ballast at the front",
            "mass",
            "0 lb",
            "3,000 lb",
            "Suitcase weights or a front implement. Leave out what is already in the tractor's "
            "mass.",
            default="0 lb",
            optional=True,
            group=tractor,
        ),
        Field(
            "front_ballast_distance",
            "Front axle to that ballast",
            "length",
            "0 in",
            "100 in",
            "From the center of the front axle forward to the middle of the weights.",
            typical=Typical(0.5, 0.9, "hitch/PRACTICE", "front weights on a bracket"),
            group=tractor,
        ),
        Field(
            "track_width",
            "Rear track width",
            "length",
            "30 in",
            "100 in",
            "From the middle of one rear tire's contact patch to the middle of the other's.",
            typical=_of_tractor("track"),
            group=tractor,
        ),
        Field(
            "cg_height",
            "Height of the tractor's center of gravity",
            "length",
            "12 in",
            "60 in",
            "Rarely printed; leave it blank.",
            typical=_of_tractor("cg_height"),
            group=tractor,
        ),
        Field(
            "tractor_width",
            "Overall width of the tractor",
            "length",
            "30 in",
            "120 in",
            "Outside of one rear tire to the outside of the other.",
            optional=True,
            group=tractor,
        ),
        Field(
            "front_axle_limit",
            "Front axle limit",
            "mass",
            "150 lb",
            "15,000 lb",
            "On the plate or in the manual.",
            optional=True,
            group=tractor,
        ),
        Field(
            "rear_axle_limit",
            "Rear axle limit",
            "mass",
            "300 lb",
            "20,000 lb",
            "On the plate or in the manual; each axle and the whole tractor have their own limit.",
            optional=True,
            group=tractor,
        ),
        Field(
            "total_limit",
            "Limit for the whole tractor",
            "mass",
            "500 lb",
            "30,000 lb",
            "On the plate or in the manual as permitted total mass.",
            optional=True,
            group=tractor,
        ),
        Field(
            "rear_tire_load",
            "Load one rear tire may carry",
            "mass",
            "100 lb",
            "10,000 lb",
            "From the load index or the load table at the pressure you use.",
            optional=True,
            group=tractor,
        ),
        Entry(
            "front_tire",
            "Front tires it has now",
            "The size on the sidewall, with everything beside it: “7-16 6PR R-1”.",
            read_tire_size,
            example="7-16 6PR R-1",
            group=tractor,
        ),
        Entry(
            "rear_tire",
            "Rear tires it has now",
            "The size on the sidewall, with everything beside it: “320/85R24 122A8”.",
            read_tire_size,
            example="11.2-24 6PR R-1",
            group=tractor,
        ),
        Field(
            "old_front_ten_turns",
            "Ten turns of the front tires it has now (A)",
            "length",
            "18 ft",
            "230 ft",
            _ROLL,
            optional=True,
            group=tractor,
            unit_us="ft",
            unit_metric="m",
        ),
        Field(
            "old_rear_ten_turns",
            "Ten turns of the rear tires it has now (B)",
            "length",
            "18 ft",
            "230 ft",
            _ROLL,
            optional=True,
            group=tractor,
            unit_us="ft",
            unit_metric="m",
        ),
        Field(
            "front_turns",
            "Front-wheel turns for ten rear-wheel turns (C)",
            "count",
            "8",
            "25",
            "From the roll-out sheet, wheels off the ground and front drive engaged; a printed "
            "gear ratio of 1.35 is 13.5 turns.",
            optional=True,
            group=tractor,
        ),
        Field(
            "remotes",
            "Rear hydraulic outlets (pairs)",
            "count",
            "0",
            "6",
            "Count the pairs of hydraulic couplers at the rear.",
            optional=True,
            group=tractor,
        ),
        Field(
            "implement_flow",
            "Hydraulic flow for implements",
            "flow",
            "1 gpm",
            "60 gpm",
            "The implement pump's flow, not the total that includes steering.",
            optional=True,
            group=tractor,
        ),
        implement_kind(),
        Field(
            "working_width",
            "Working width",
            "length",
            "2 in",
            "200 in",
            "The width of the cut or of the blade, not of the frame; for a chipper, its opening.",
            typical=_usual_width,
            essential=True,
            group=implement,
        ),
        Field(
            "implement_mass",
            "Implement mass",
            "mass",
            "20 lb",
            "10,000 lb",
            "In its manual, or on a scale. Count what it carries: a full spreader, a bale.",
            typical=_of_implement("mass"),
            essential=True,
            group=implement,
        ),
        Field(
            "cg_distance",
            "Hitch balls to the implement's center of gravity",
            "length",
            "2 in",
            "140 in",
            "Balance it on a pipe, or take half its length from the lower pins back.",
            typical=_of_implement("cg_distance"),
            group=implement,
        ),
        Field(
            "raised_height",
            "Height of the implement's center of gravity, raised",
            "length",
            "6 in",
            "80 in",
            "Raise it as you would to carry it and measure to the middle of its bulk.",
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
        Field(
            "power_needed",
            "PTO power its maker asks for",
            "power",
            "1 hp",
            "200 hp",
            "In the implement's manual, often a range: type it as “25 to 40 hp”. It replaces the "
            "estimate from width and material.",
            optional=True,
            group=implement,
        ),
        Field(
            "power_limit",
            "PTO power its driveline may take",
            "power",
            "5 hp",
            "300 hp",
            "The gearbox or driveline rating: an upper limit on the tractor, not a need.",
            optional=True,
            group=implement,
        ),
        Field(
            "transport_width",
            "Width on the road",
            "length",
            "10 in",
            "250 in",
            "The widest part of tractor and implement when it travels.",
            optional=True,
            group=implement,
        ),
        Field(
            "remotes_needed",
            "Hydraulic outlets it needs (pairs)",
            "count",
            "0",
            "6",
            "None for most cutters; one for an angle cylinder or a hydraulic top link.",
            default="0",
            optional=True,
            group=implement,
        ),
        Field(
            "tail_height",
            "Height of the tail lamps",
            "length",
            "10 in",
            "130 in",
            "From the road to the middle of the lamp.",
            group=tractor,
            typical=Typical(0.9, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "lamp_spread",
            "Distance between left and right lamps",
            "length",
            "8 in",
            "130 in",
            "Middle of the left lamp to middle of the right one.",
            group=tractor,
            typical=Typical(0.8, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "lamps_to_implement",
            "Tail lamps to its tallest solid part",
            "length",
            "4 in",
            "40 ft",
            "Level distance, front to back.",
            group=implement,
            typical=Typical(0.8, 2.0, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "implement_top",
            "Height of its top, as it travels",
            "length",
            "4 in",
            "15 ft",
            "Raised for the road. Count solid parts: deck, tank, bale; leave out a thin mast.",
            group=implement,
            typical=Typical(0.7, 1.6, ROAD_SIZE, "implements for compact tractors"),
        ),
        Field(
            "axle_pin_height",
            "Height of the front axle's pivot pin",
            "length",
            "4 in",
            "40 in",
            "From the ground to the middle of the pin that the front axle swings on.",
            typical=Typical(0.25, 0.5, "hitch/PRACTICE", "tractors"),
            group=tractor,
        ),
        Choice(
            "material",
            "Material",
            (
                Option("light", "Light: short grass, dry leaves, loose ground"),
                Option("typical", "Typical: tall grass, a season's growth"),
                Option("heavy", "Heavy: brush, wet and dense growth, sod"),
            ),
            "The worst you mean to work in.",
            default="typical",
            unsure=("light", "typical", "heavy"),
            essential=True,
            group=job,
        ),
        Field(
            "slope",
            "Slope up and down",
            "slope",
            "0 %",
            "40 %",
            "The steepest climb: rise over run. A phone's level app shows degrees; type “8 deg”.",
            default="5 %",
            typical=Typical(0.0, 0.15, "hitch/PRACTICE", "mowed land"),
            group=job,
        ),
        Field(
            "ground_speed",
            "Ground speed",
            "speed",
            "0.5 mph",
            "15 mph",
            "At work, not on the road.",
            default="3 mph",
            typical=Typical(0.9, 2.2, "hitch/PRACTICE", "mowing and tilling"),
            group=job,
        ),
        Field(
            "altitude",
            "Altitude",
            "distance",
            "-500 ft",
            "14,000 ft",
            "Where the work is. An engine without a turbocharger loses power with height.",
            default="500 ft",
            typical=Typical(0.0, 1500.0, "power/PRACTICE", "farmed land"),
            group=job,
        ),
    ]
    return {item.name: item for item in found}


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


def absent(name: str) -> str:
    """Return the text that a field gets from a machine that doesn't give it.

    Blank is unknown. A choice that can't be unknown gets what claims least; ballast and
    hydraulic outlets that nobody mentions aren't there.
    """
    item = field(name)
    if isinstance(item, Choice):
        if item.unsure:
            return ""
        values = [option.value for option in item.options]
        return next((value for value in (ANY, "other") if value in values), item.default)
    return item.default
