"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model, si, tables
from calc.machines.vocabulary import field

LEAST_COIL = 2.0  # times its wire: the wire of a coil can't reach past its middle
IN_SOIL = ("rigid-blade", "core", "landscape-rake", "tiller")
TEARS = ("landscape-rake", "tiller")  # what is made for bare ground


def tool_row(key: str) -> tables.Row:
    return tables.by_key("lawn/lawn_tools", "key")[key]


def _rows(known: model.KnownSoFar) -> list[tables.Row]:
    """The tool that is known, or every tool."""
    tool = known.get("tool")
    return [tool_row(tool)] if tool else list(tables.rows("lawn/lawn_tools"))


def _range(
    known: model.KnownSoFar, low: str, high: str, factor: float, source: str
) -> model.Typical:
    """The range of two columns of the tools, over every tool that it may be."""
    rows = _rows(known)
    of = f"“{rows[0]['name'].lower()}”" if len(rows) == 1 else "lawn tools of every kind"
    return model.Typical(
        factor * min(float(row[low]) for row in rows),
        factor * max(float(row[high]) for row in rows),
        "; ".join(dict.fromkeys(row.get(source, source) for row in rows)),
        of,
    )


def _depth_range(known: model.KnownSoFar) -> model.Typical:
    return _range(known, "shallow_mm", "deep_mm", 0.001, "source")


def _mass_range(known: model.KnownSoFar) -> model.Typical:
    return _range(known, "mass_low_kg", "mass_high_kg", 1.0, "mass_source")


def _wire(known: model.KnownSoFar) -> model.Typical:
    """Usual wire of a spring tine: no thicker than a coil that is known can hold."""
    coil = known.get("tine_coil")
    most = 0.006 if coil is None else min(0.006, 0.98 * coil.low / LEAST_COIL)
    return model.Typical(0.0035, most, "value/SPRING-memory", "spring tines")


def _coil(known: model.KnownSoFar) -> model.Typical:
    """Usual coil of a spring tine: no narrower than a wire that is known needs."""
    wire = known.get("tine_wire")
    least = 0.028 if wire is None else max(0.028, 1.02 * LEAST_COIL * wire.high)
    return model.Typical(least, 0.040, "value/SPRING-memory", "spring tines")


def _speed_range(known: model.KnownSoFar) -> model.Typical:
    return _range(known, "speed_low_mph", "speed_high_mph", si.MPH, "value/PRACTICE")


_HEADS = [
    (float(row["low_mm"]) / 1000.0, float(row["high_mm"]) / 1000.0)
    for row in tables.rows("lawn/head_heights")
]
_HEAD_SOURCES = "; ".join(row["source"] for row in tables.rows("lawn/head_heights"))
HEAD_RANGE = model.Typical(
    min(low for low, _ in _HEADS),
    max(high for _, high in _HEADS),
    _HEAD_SOURCES,
    "published head heights, which disagree",
)

TOOLS = tuple(model.Option(row["key"], row["name"]) for row in tables.rows("lawn/lawn_tools"))
STATES = tuple(model.Option(row["state"], row["name"]) for row in tables.rows("lawn/turf_limits"))
RULES = tuple(
    model.Option(row["key"], row["name"]) for row in tables.rows("lawn/contact_pressure_rules")
)
GRASSES = tuple(model.Option(row["grass"], row["name"]) for row in tables.rows("lawn/seasons"))
TOOL, BURIED, GROUND, LAWN, TINES = "Tool", "In the ground", "Wheels", "Lawn", "Spring tines"

FIELDS: tuple[model.AnyField, ...] = (
    model.Choice("tool", TOOLS, example="spring-tine", essential=True, group=TOOL),
    model.Field(
        "tool_depth", "length", "0 in", "8 in", typical=_depth_range, essential=True, group=TOOL
    ),
    field("working_width", example="60 in", group=TOOL),
    field("implement_mass", example="170 lb", essential=False, group=TOOL, typical=_mass_range),
    model.Choice(
        "sprinklers",
        (model.Option("yes", "Yes"), model.Option("no", "No")),
        example="yes",
        unsure=("yes", "no"),
        # Who measured a head or a lid has them.
        told_by=(("head_depth", "yes"), ("box_depth", "yes")),
        essential=True,
        group=BURIED,
    ),
    model.Field(
        "head_depth",
        "length",
        "-3 in",
        "4 in",
        example="0.6 in",
        typical=HEAD_RANGE,
        essential=True,
        group=BURIED,
    ),
    model.Field(
        "box_depth",
        "length",
        "-3 in",
        "6 in",
        example="0.75 in",
        typical=model.Typical(-0.013, 0.025, "value/PRACTICE", "valve boxes"),
        group=BURIED,
    ),
    model.Choice(
        "soil_state",
        STATES,
        example="moist",
        unsure=("dry", "moist", "wet"),
        essential=True,
        group=GROUND,
    ),
    model.Field(
        "front_inflation",
        "pressure",
        "2 psi",
        "80 psi",
        example="10 psi",
        typical=model.Typical(83e3, 193e3, "tires/OM-12", "compact tractors"),
        essential=True,
        group=GROUND,
    ),
    model.Field(
        "rear_inflation",
        "pressure",
        "2 psi",
        "80 psi",
        example="10 psi",
        typical=model.Typical(83e3, 138e3, "tires/OM-12", "turf and drive tires"),
        essential=True,
        group=GROUND,
    ),
    model.Choice(
        "loader",
        (model.Option("off", "Off, or none"), model.Option("on", "On the tractor")),
        example="off",
        unsure=("off", "on"),
        group=GROUND,
    ),
    model.Choice("pressure_rule", RULES, example="tenth", group=GROUND, usual="tenth"),
    field(
        "tractor_mass",
        example="1,650 lb",
        group=GROUND,
        typical=model.Typical(550.0, 1300.0, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    field(
        "front_share",
        example="42 %",
        group=GROUND,
        typical=model.Typical(0.38, 0.46, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    field(
        "wheelbase",
        example="58 in",
        group=GROUND,
        typical=model.Typical(1.35, 1.75, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    model.Field(
        "reach",
        "length",
        "10 in",
        "150 in",
        example="50 in",
        typical=model.Typical(1.0, 1.7, "value/PRACTICE", "three-point lawn tools"),
        group=GROUND,
    ),
    field("front_tire", example="18x8.50-8", group=GROUND),
    field("rear_tire", example="26x12.00-12", group=GROUND),
    model.Field("front_print", "area_small", "2 in2", "500 in2", optional=True, group=GROUND),
    model.Field("rear_print", "area_small", "2 in2", "1,000 in2", optional=True, group=GROUND),
    model.Field(
        "lawn_area",
        "land",
        "0.01 acre",
        "500 acre",
        example="1 acre",
        typical=model.Typical(1000.0, 12000.0, "value/PRACTICE", "acreages"),
        essential=True,
        group=LAWN,
    ),
    field("ground_speed", example="3 mph", group=LAWN, typical=_speed_range),
    model.Field(
        "efficiency",
        "fraction",
        "30 %",
        "100 %",
        example="80 %",
        typical=model.Typical(0.7, 0.9, "power/S53", "rakes"),
        group=LAWN,
    ),
    model.Field(
        "thatch",
        "length",
        "0 in",
        "4 in",
        example="0.7 in",
        typical=model.Typical(0.006, 0.025, "value/PRACTICE", "lawns"),
        group=LAWN,
    ),
    model.Choice("grass", GRASSES, example="cool", unsure=("cool", "warm"), group=LAWN),
    model.Field(
        "holes_wanted",
        "count",
        "1",
        "100",
        example="12",
        typical=model.Typical(9.0, 20.0, "value/PRACTICE", "lawns"),
        group=LAWN,
    ),
    model.Field(
        "hole_spacing_along",
        "length",
        "0.5 in",
        "24 in",
        example="4 in",
        typical=model.Typical(0.05, 0.15, "value/L5a", "core aerators"),
        group=LAWN,
    ),
    model.Field(
        "hole_spacing_across",
        "length",
        "0.5 in",
        "24 in",
        example="6 in",
        typical=model.Typical(0.05, 0.15, "value/L5a", "core aerators"),
        group=LAWN,
    ),
    field("pto_power", example="18 hp", essential=False, group=LAWN),
    model.Field(
        "engine_load",
        "fraction",
        "20 %",
        "100 %",
        example="30 %",
        typical=model.Typical(0.2, 0.5, "value/PRACTICE", "lawn work"),
        group=LAWN,
    ),
    field(
        "slope",
        high="100 %",
        example="0 %",
        group=LAWN,
        typical=None,
        optional=True,
        essential=True,
    ),
    model.Choice(
        "machine",
        (model.Option("tractor", "Compact tractor"), model.Option("ride-on", "Ride-on mower")),
        example="tractor",
        group=LAWN,
        usual="tractor",
    ),
    model.Field(
        "tine_count",
        "count",
        "1",
        "200",
        example="24",
        typical=model.Typical(14.0, 48.0, "value/PRACTICE", "spring-tine rakes"),
        group=TINES,
    ),
    model.Field(
        "tine_wire",
        "length",
        "1 mm",
        "15 mm",
        example="4 mm",
        typical=_wire,
        group=TINES,
        unit_us="mm",
        unit_metric="mm",
    ),
    model.Field(
        "tine_coil",
        "length",
        "8 mm",
        "100 mm",
        example="29 mm",
        typical=_coil,
        group=TINES,
        unit_us="mm",
        unit_metric="mm",
    ),
    model.Field(
        "tine_turns",
        "count",
        "0.5",
        "30",
        example="5",
        typical=model.Typical(3.0, 7.0, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    model.Field(
        "tine_leg",
        "length",
        "1 in",
        "24 in",
        example="6 in",
        typical=model.Typical(0.12, 0.25, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    model.Field(
        "tine_deflection",
        "length",
        "0 in",
        "6 in",
        example="0.75 in",
        typical=model.Typical(0.010, 0.030, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
)

OUTPUTS = (
    model.Shown("front_pressure", "pressure"),
    model.Shown("rear_pressure", "pressure"),
    model.Shown("inflation_limit", "pressure"),
    model.Shown("deep", "pressure"),
    model.Shown("slope_limit", "slope"),
    model.Shown("passes", "count"),
    model.Shown("time", "duration"),
    model.Shown("pass_time", "duration", hidden=True),
    model.Shown("rate", "area_rate"),
    model.Shown("pass_rate", "area_rate"),
    model.Shown("fuel", "volume"),
    model.Shown("tine_force", "force"),
    model.Shown("holes", "count"),
    model.Shown("reach_down", "length", hidden=True),
    model.Shown("digs", "length", hidden=True),
    model.Shown("soil_limit", "pressure", hidden=True),
    model.Shown("slope_degrees", "slope", "deg", "deg", hidden=True),
    model.Shown("steepness", "slope", "deg", "deg", hidden=True),
    *(
        model.Shown(f"{axle}_{what}", "area_small", hidden=True)
        for axle in ("front", "rear")
        for what in ("needs", "largest")
    ),
    model.Shown("push", "force", hidden=True),
    model.Shown("weight", "force", hidden=True),
    model.Shown("burnt", "fuel_rate", hidden=True),
)


def review(known: Mapping[str, Any]) -> Mapping[str, str]:
    """Refuse a coil that can't hold its wire, and a tool in the soil that isn't in it."""
    found = {}
    wire, coil = known.get("tine_wire"), known.get("tine_coil")
    if wire is not None and coil is not None and coil.low <= LEAST_COIL * wire.high:
        found["tine_coil"] = "The coil must be more than twice as wide as its wire is thick."
    depth, tool = known.get("tool_depth"), known.get("tool")
    if depth is not None and tool in IN_SOIL and depth.high <= 0.0:
        found["tool_depth"] = (
            f"{tool_row(tool)['name']}: this works in the soil, so its depth is more than zero. "
            "Leave it blank if you don't know."
        )
    return found
