"""The options of what is chosen about a tractor and an implement."""

from __future__ import annotations

from calc import tables
from calc.model import Choice, Option

SHAFTS = (
    Option("540-6", "540 rpm, 6 splines, 1-3/8 in"),
    Option("1000-21", "1000 rpm, 21 splines, 1-3/8 in"),
    Option("1000-20", "1000 rpm, 20 splines, 1-3/4 in"),
    Option("mid", "Mid PTO, about 2000 rpm"),
    Option("unsure", "Not sure"),
)
BREATHING = (
    Option("natural", "No turbocharger"),
    Option("turbo", "Turbocharged"),
)
DRIVEN = (
    Option("four", "Front and rear"),
    Option("two", "Rear only"),
)
TRANSMISSIONS = (
    Option("gear", "Gear or shuttle"),
    Option("hydrostatic", "Hydrostatic"),
)

HITCH_CATEGORIES = ("0", "1", "1N", "2", "2N", "3", "3N", "4", "4N")
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


def hitch_category(name: str, label: str, help: str, example: str, group: str) -> Choice:
    """A hitch category, of the tractor or of the implement."""
    options = tuple(Option(key, f"Category {key}") for key in HITCH_CATEGORIES)
    return Choice(
        name, options, label=label, help=help, example=example, unsure=("0", "1", "2"), group=group
    )


def liquids() -> tuple[Option, ...]:
    """The liquids that tires are filled with."""
    rows = tables.rows("tires/ballast_liquids")
    return (Option("none", "None, air only"), *(Option(r["key"], r["label"]) for r in rows))


def tools() -> tuple[Option, ...]:
    """What hangs on a loader."""
    return tuple(Option(r["tool"], r["label"]) for r in tables.rows("machines/loader_tools"))
