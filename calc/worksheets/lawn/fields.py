"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model, tables
from calc.machines.vocabulary import field

IN_SOIL = ("rigid-blade", "core", "landscape-rake")


def _tool(key: str) -> tables.Row:
    return tables.by_key("lawn/lawn_tools", "key")[key]


def _depth_range(known: model.KnownSoFar) -> model.Typical:
    row = _tool(known.get("tool") or "core")
    return model.Typical(
        float(row["shallow_mm"]) / 1000.0,
        float(row["deep_mm"]) / 1000.0,
        row["source"],
        f"“{row['name'].lower()}”",
    )


def _mass_range(known: model.KnownSoFar) -> model.Typical:
    row = _tool(known.get("tool") or "core")
    return model.Typical(
        float(row["mass_low_kg"]),
        float(row["mass_high_kg"]),
        row["mass_source"],
        f"“{row['name'].lower()}”",
    )


def _speed_range(known: model.KnownSoFar) -> model.Typical:
    row = _tool(known.get("tool") or "core")
    return model.Typical(
        0.44704 * float(row["speed_low_mph"]),
        0.44704 * float(row["speed_high_mph"]),
        "value/PRACTICE",
        f"“{row['name'].lower()}”",
    )


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
TOOL, BURIED, GROUND, LAWN, TINES = "Tool", "In the ground", "Wheels", "Lawn", "Spring tines"

FIELDS: tuple[model.AnyField, ...] = (
    model.Choice(
        "tool",
        "Tool",
        TOOLS,
        "What you pull or carry over the lawn.",
        default="spring-tine",
        essential=True,
        group=TOOL,
    ),
    model.Field(
        "tool_depth",
        "How deep it works",
        "length",
        "0 in",
        "8 in",
        "Zero for spring tines set to touch; for an aerator the length of a core. Blank takes what "
        "is usual for the tool.",
        typical=_depth_range,
        essential=True,
        group=TOOL,
    ),
    field("working_width", default="60 in", group=TOOL),
    field(
        "implement_mass",
        label="Mass of the tool",
        default="170 lb",
        essential=False,
        group=TOOL,
        help="With any weight on its tray; in its manual or on a scale.",
        typical=_mass_range,
    ),
    model.Choice(
        "sprinklers",
        "Sprinklers, valve boxes or wire in this lawn",
        (model.Option("yes", "Yes"), model.Option("no", "No")),
        "Look for a controller in the garage and a shut-off box near the meter.",
        default="yes",
        unsure=("yes", "no"),
        essential=True,
        group=BURIED,
    ),
    model.Field(
        "head_depth",
        "Top of the sprinkler heads below the soil",
        "length",
        "-3 in",
        "4 in",
        "Measure the highest one as it stands today, to bare soil, not to the grass; below zero "
        "when it stands proud.",
        default="0.6 in",
        typical=HEAD_RANGE,
        essential=True,
        group=BURIED,
    ),
    model.Field(
        "box_depth",
        "Top of the valve boxes below the soil",
        "length",
        "-3 in",
        "6 in",
        "The highest lid or rim.",
        default="0.75 in",
        typical=model.Typical(-0.013, 0.025, "value/PRACTICE", "valve boxes"),
        group=BURIED,
    ),
    model.Choice(
        "soil_state",
        "The soil today",
        STATES,
        "Push a screwdriver in and press a heel down before you drive on it.",
        default="moist",
        unsure=("dry", "moist", "wet"),
        essential=True,
        group=GROUND,
    ),
    model.Field(
        "front_inflation",
        "Front tire pressure",
        "pressure",
        "2 psi",
        "80 psi",
        "With a low-pressure gauge, tires cold.",
        default="10 psi",
        typical=model.Typical(83e3, 193e3, "tires/OM-12", "compact tractors"),
        essential=True,
        group=GROUND,
    ),
    model.Field(
        "rear_inflation",
        "Rear tire pressure",
        "pressure",
        "2 psi",
        "80 psi",
        "With a low-pressure gauge, tires cold.",
        default="10 psi",
        typical=model.Typical(83e3, 138e3, "tires/OM-12", "turf and drive tires"),
        essential=True,
        group=GROUND,
    ),
    model.Choice(
        "pressure_rule",
        "Pressure on the ground is taken as",
        RULES,
        "Sources differ a little; on soft ground all of them are near the inflation.",
        default="tenth",
        group=GROUND,
    ),
    field(
        "tractor_mass",
        default="1,650 lb",
        group=GROUND,
        typical=model.Typical(550.0, 1300.0, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    field(
        "front_share",
        default="42 %",
        group=GROUND,
        typical=model.Typical(0.38, 0.46, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    field(
        "wheelbase",
        default="58 in",
        group=GROUND,
        typical=model.Typical(1.35, 1.75, "hitch/PRACTICE", "subcompact and compact tractors"),
    ),
    model.Field(
        "reach",
        "Rear axle back to the middle of the tool",
        "length",
        "10 in",
        "150 in",
        "Level distance with the tool lifted.",
        default="50 in",
        typical=model.Typical(1.0, 1.7, "value/PRACTICE", "three-point lawn tools"),
        group=GROUND,
    ),
    field("front_tire", default="18x8.50-8", group=GROUND),
    field("rear_tire", default="26x12.00-12", group=GROUND),
    model.Field(
        "front_print",
        "Measured print of a front tire",
        "area_small",
        "2 in2",
        "500 in2",
        "Drive onto cardboard on the lawn with flour on the tread; length times width times 0.8. "
        "With it the pressure follows from the load.",
        optional=True,
        group=GROUND,
    ),
    model.Field(
        "rear_print",
        "Measured print of a rear tire",
        "area_small",
        "2 in2",
        "1,000 in2",
        "The same, with the tool lifted.",
        optional=True,
        group=GROUND,
    ),
    model.Field(
        "lawn_area",
        "Lawn",
        "land",
        "0.01 acre",
        "500 acre",
        "From a map, house and beds left out.",
        default="1 acre",
        typical=model.Typical(1000.0, 12000.0, "value/PRACTICE", "acreages"),
        essential=True,
        group=LAWN,
    ),
    field("ground_speed", default="3 mph", group=LAWN, typical=_speed_range),
    model.Field(
        "efficiency",
        "Share of the time that works new ground",
        "fraction",
        "30 %",
        "100 %",
        "Turns, obstacles and overlap take the rest; small lawns run lower.",
        default="80 %",
        typical=model.Typical(0.7, 0.9, "power/D497-memory", "rakes"),
        group=LAWN,
    ),
    model.Field(
        "thatch",
        "Thatch",
        "length",
        "0 in",
        "4 in",
        "Cut a wedge and measure the brown layer between soil and green grass.",
        default="0.7 in",
        typical=model.Typical(0.006, 0.025, "value/PRACTICE", "lawns"),
        group=LAWN,
    ),
    model.Field(
        "holes_wanted",
        "Aerator holes wanted in a square foot",
        "count",
        "1",
        "100",
        "Twelve to twenty is thorough.",
        default="12",
        typical=model.Typical(9.0, 20.0, "value/PRACTICE", "lawns"),
        group=LAWN,
    ),
    model.Field(
        "hole_spacing_along",
        "Holes apart, along the travel",
        "length",
        "0.5 in",
        "24 in",
        "Roll it over cardboard.",
        default="4 in",
        typical=model.Typical(0.05, 0.15, "value/L5a", "core aerators"),
        group=LAWN,
    ),
    model.Field(
        "hole_spacing_across",
        "Holes apart, across",
        "length",
        "0.5 in",
        "24 in",
        "From spoon to spoon.",
        default="6 in",
        typical=model.Typical(0.05, 0.15, "value/L5a", "core aerators"),
        group=LAWN,
    ),
    field("pto_power", default="18 hp", essential=False, group=LAWN),
    model.Field(
        "engine_load",
        "Share of its power that the tractor works at",
        "fraction",
        "20 %",
        "100 %",
        "Pulling a rake takes little: a quarter to a third.",
        default="30 %",
        typical=model.Typical(0.2, 0.5, "value/PRACTICE", "lawn work"),
        group=LAWN,
    ),
    field("slope", default="8 %", group=LAWN, label="Steepest slope"),
    model.Choice(
        "machine",
        "What pulls it",
        (model.Option("tractor", "Compact tractor"), model.Option("ride-on", "Ride-on mower")),
        "Makers of ride-on mowers print a slope limit; most tractor makers don't.",
        default="tractor",
        group=LAWN,
    ),
    model.Field(
        "tine_count",
        "Spring tines",
        "count",
        "1",
        "200",
        "Count the tips.",
        default="24",
        typical=model.Typical(14.0, 48.0, "value/PRACTICE", "spring-tine rakes"),
        group=TINES,
    ),
    model.Field(
        "tine_wire",
        "Tine wire",
        "length",
        "1 mm",
        "15 mm",
        "Diameter, with a caliper.",
        default="4 mm",
        typical=model.Typical(0.0035, 0.006, "value/SPRING-memory", "spring tines"),
        group=TINES,
        unit_us="mm",
        unit_metric="mm",
    ),
    model.Field(
        "tine_coil",
        "Coil, outside",
        "length",
        "8 mm",
        "100 mm",
        "Across the coil, wire included.",
        default="29 mm",
        typical=model.Typical(0.028, 0.040, "value/SPRING-memory", "spring tines"),
        group=TINES,
        unit_us="mm",
        unit_metric="mm",
    ),
    model.Field(
        "tine_turns",
        "Turns in the coil",
        "count",
        "0.5",
        "30",
        "Count them for one tip.",
        default="5",
        typical=model.Typical(3.0, 7.0, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    model.Field(
        "tine_leg",
        "Coil to tip",
        "length",
        "1 in",
        "24 in",
        "Straight from coil to tip.",
        default="6 in",
        typical=model.Typical(0.12, 0.25, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    model.Field(
        "tine_deflection",
        "How far the tips are pushed back",
        "length",
        "0 in",
        "6 in",
        "At work, seen from the side.",
        default="0.75 in",
        typical=model.Typical(0.010, 0.030, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
)


def review(known: Mapping[str, Any]) -> Mapping[str, str]:
    """Refuse a coil that can't hold its wire, and a tool in the soil that isn't in it."""
    found = {}
    wire, coil = known.get("tine_wire"), known.get("tine_coil")
    if wire is not None and coil is not None and coil.low <= 2.0 * wire.high:
        found["tine_coil"] = "The coil must be more than twice as wide as its wire is thick."
    depth, tool = known.get("tool_depth"), known.get("tool")
    if depth is not None and tool in IN_SOIL and depth.high <= 0.0:
        found["tool_depth"] = (
            f"{_tool(tool)['name']}: this works in the soil, so its depth is more than zero. "
            "Leave it blank if you don't know."
        )
    return found
