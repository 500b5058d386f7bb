"""Lawn implements: will it mark the turf, what must be flagged, and how long it takes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc import tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import field_work, fuel, ground, tires, turf
from calc.mechanics.tire_size import Designation
from calc.picture import Item, Label, Line, Picture, Scene, Shape
from calc.vocabulary import field

GRAVITY = 9.80665
FLATTENING = 0.20  # normal tire deflection over section height; power/D497-memory
RIDE_ON_LIMIT = math.tan(math.radians(10.0))  # with an attachment; value/L9
IN_SOIL = ("rigid-blade", "core", "landscape-rake")


def _tool(key: str) -> tables.Row:
    return tables.by_key("lawn_tools", "key")[key]


def _depth_range(known: ws.KnownSoFar) -> ws.Typical:
    row = _tool(known.get("tool") or "core")
    return ws.Typical(float(row["shallow_mm"]) / 1000.0, float(row["deep_mm"]) / 1000.0,
                      row["source"], f"“{row['name'].lower()}”")  # fmt: skip


def _mass_range(known: ws.KnownSoFar) -> ws.Typical:
    row = _tool(known.get("tool") or "core")
    return ws.Typical(float(row["mass_low_kg"]), float(row["mass_high_kg"]), row["mass_source"],
                      f"“{row['name'].lower()}”")  # fmt: skip


def _speed_range(known: ws.KnownSoFar) -> ws.Typical:
    row = _tool(known.get("tool") or "core")
    return ws.Typical(0.44704 * float(row["speed_low_mph"]), 0.44704 * float(row["speed_high_mph"]),
                      "value/PRACTICE", f"“{row['name'].lower()}”")  # fmt: skip


_HEADS = [
    (float(row["low_mm"]) / 1000.0, float(row["high_mm"]) / 1000.0)
    for row in tables.rows("head_heights")
]
_HEAD_SOURCES = "; ".join(row["source"] for row in tables.rows("head_heights"))
HEAD_RANGE = ws.Typical(
    min(low for low, _ in _HEADS), max(high for _, high in _HEADS), _HEAD_SOURCES,
    "published head heights, which disagree",
)  # fmt: skip

TOOLS = tuple(ws.Option(row["key"], row["name"]) for row in tables.rows("lawn_tools"))
STATES = tuple(ws.Option(row["state"], row["name"]) for row in tables.rows("turf_limits"))
RULES = tuple(ws.Option(row["key"], row["name"]) for row in tables.rows("contact_pressure_rules"))
TOOL, BURIED, GROUND, LAWN, TINES = "Tool", "In the ground", "Wheels", "Lawn", "Spring tines"

FIELDS: tuple[ws.AnyField, ...] = (
    ws.Choice(
        "tool", "Tool", TOOLS, "What you pull or carry over the lawn.",
        default="spring-tine", essential=True, group=TOOL,
    ),
    ws.Field(
        "tool_depth", "How deep it works", "length", "0 in", "8 in",
        "Zero for spring tines set to touch; for an aerator the length of a core. Blank takes what "
        "is usual for the tool.",
        typical=_depth_range, essential=True, group=TOOL,
    ),
    field("working_width", default="60 in", group=TOOL),
    field(
        "implement_mass", label="Mass of the tool", default="170 lb", essential=False, group=TOOL,
        help="With any weight on its tray; in its manual or on a scale.",
        typical=_mass_range,
    ),
    ws.Choice(
        "sprinklers", "Sprinklers, valve boxes or wire in this lawn",
        (ws.Option("yes", "Yes"), ws.Option("no", "No")),
        "Look for a controller in the garage and a shut-off box near the meter.",
        default="yes", unsure=("yes", "no"), essential=True, group=BURIED,
    ),
    ws.Field(
        "head_depth", "Top of the sprinkler heads below the soil", "length", "-3 in", "4 in",
        "Measure the highest one as it stands today, to bare soil, not to the grass; below zero "
        "when it stands proud.",
        default="0.6 in", typical=HEAD_RANGE, essential=True, group=BURIED,
    ),
    ws.Field(
        "box_depth", "Top of the valve boxes below the soil", "length", "-3 in", "6 in",
        "The highest lid or rim.",
        default="0.75 in", typical=ws.Typical(-0.013, 0.025, "value/PRACTICE", "valve boxes"),
        group=BURIED,
    ),
    ws.Choice(
        "soil_state", "The soil today", STATES,
        "Push a screwdriver in and press a heel down before you drive on it.",
        default="moist", unsure=("dry", "moist", "wet"), essential=True, group=GROUND,
    ),
    ws.Field(
        "front_inflation", "Front tire pressure", "pressure", "2 psi", "80 psi",
        "With a low-pressure gauge, tires cold.",
        default="10 psi", typical=ws.Typical(83e3, 193e3, "tires/OM-12", "compact tractors"),
        essential=True, group=GROUND,
    ),
    ws.Field(
        "rear_inflation", "Rear tire pressure", "pressure", "2 psi", "80 psi",
        "With a low-pressure gauge, tires cold.",
        default="10 psi", typical=ws.Typical(83e3, 138e3, "tires/OM-12", "turf and drive tires"),
        essential=True, group=GROUND,
    ),
    ws.Choice(
        "pressure_rule", "Pressure on the ground is taken as", RULES,
        "Sources differ a little; on soft ground all of them are near the inflation.",
        default="tenth", group=GROUND,
    ),
    field("tractor_mass", default="1,650 lb", group=GROUND, typical=ws.Typical(
        550.0, 1300.0, "hitch/PRACTICE", "subcompact and compact tractors")),
    field("front_share", default="42 %", group=GROUND, typical=ws.Typical(
        0.38, 0.46, "hitch/PRACTICE", "subcompact and compact tractors")),
    field("wheelbase", default="58 in", group=GROUND, typical=ws.Typical(
        1.35, 1.75, "hitch/PRACTICE", "subcompact and compact tractors")),
    ws.Field(
        "reach", "Rear axle back to the middle of the tool", "length", "10 in", "150 in",
        "Level distance with the tool lifted.",
        default="50 in", typical=ws.Typical(1.0, 1.7, "value/PRACTICE", "three-point lawn tools"),
        group=GROUND,
    ),
    field("front_tire", default="18x8.50-8", group=GROUND),
    field("rear_tire", default="26x12.00-12", group=GROUND),
    ws.Field(
        "front_print", "Measured print of a front tire", "area_small", "2 in2", "500 in2",
        "Drive onto cardboard on the lawn with flour on the tread; length times width times 0.8. "
        "With it the pressure follows from the load.",
        optional=True, group=GROUND,
    ),
    ws.Field(
        "rear_print", "Measured print of a rear tire", "area_small", "2 in2", "1,000 in2",
        "The same, with the tool lifted.", optional=True, group=GROUND,
    ),
    ws.Field(
        "lawn_area", "Lawn", "land", "0.01 acre", "500 acre",
        "From a map, house and beds left out.",
        default="1 acre", typical=ws.Typical(1000.0, 12000.0, "value/PRACTICE", "acreages"),
        essential=True, group=LAWN,
    ),
    field("ground_speed", default="3 mph", group=LAWN, typical=_speed_range),
    ws.Field(
        "efficiency", "Share of the time that works new ground", "fraction", "30 %", "100 %",
        "Turns, obstacles and overlap take the rest; small lawns run lower.",
        default="80 %", typical=ws.Typical(0.7, 0.9, "power/D497-memory", "rakes"), group=LAWN,
    ),
    ws.Field(
        "thatch", "Thatch", "length", "0 in", "4 in",
        "Cut a wedge and measure the brown layer between soil and green grass.",
        default="0.7 in", typical=ws.Typical(0.006, 0.025, "value/PRACTICE", "lawns"), group=LAWN,
    ),
    ws.Field(
        "holes_wanted", "Aerator holes wanted in a square foot", "count", "1", "100",
        "Twelve to twenty is thorough.",
        default="12", typical=ws.Typical(9.0, 20.0, "value/PRACTICE", "lawns"), group=LAWN,
    ),
    ws.Field(
        "hole_spacing_along", "Holes apart, along the travel", "length", "0.5 in", "24 in",
        "Roll it over cardboard.", default="4 in",
        typical=ws.Typical(0.05, 0.15, "value/L5a", "core aerators"), group=LAWN,
    ),
    ws.Field(
        "hole_spacing_across", "Holes apart, across", "length", "0.5 in", "24 in",
        "From spoon to spoon.", default="6 in",
        typical=ws.Typical(0.05, 0.15, "value/L5a", "core aerators"), group=LAWN,
    ),
    field("pto_power", default="18 hp", essential=False, group=LAWN),
    ws.Field(
        "engine_load", "Share of its power that the tractor works at", "fraction", "20 %", "100 %",
        "Pulling a rake takes little: a quarter to a third.",
        default="30 %", typical=ws.Typical(0.2, 0.5, "value/PRACTICE", "lawn work"), group=LAWN,
    ),
    field("slope", default="8 %", group=LAWN, label="Steepest slope"),
    ws.Choice(
        "machine", "What pulls it",
        (ws.Option("tractor", "Compact tractor"), ws.Option("ride-on", "Ride-on mower")),
        "Makers of ride-on mowers print a slope limit; most tractor makers don't.",
        default="tractor", group=LAWN,
    ),
    ws.Field(
        "tine_count", "Spring tines", "count", "1", "200", "Count the tips.",
        default="24", typical=ws.Typical(14.0, 48.0, "value/PRACTICE", "spring-tine rakes"),
        group=TINES,
    ),
    ws.Field(
        "tine_wire", "Tine wire", "length", "1 mm", "15 mm", "Diameter, with a caliper.",
        default="4 mm", typical=ws.Typical(0.0035, 0.006, "value/SPRING-memory", "spring tines"),
        group=TINES, unit_us="mm", unit_metric="mm",
    ),
    ws.Field(
        "tine_coil", "Coil, outside", "length", "8 mm", "100 mm", "Across the coil, wire included.",
        default="29 mm", typical=ws.Typical(0.028, 0.040, "value/SPRING-memory", "spring tines"),
        group=TINES, unit_us="mm", unit_metric="mm",
    ),
    ws.Field(
        "tine_turns", "Turns in the coil", "count", "0.5", "30", "Count them for one tip.",
        default="5", typical=ws.Typical(3.0, 7.0, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    ws.Field(
        "tine_leg", "Coil to tip", "length", "1 in", "24 in", "Straight from coil to tip.",
        default="6 in", typical=ws.Typical(0.12, 0.25, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
    ws.Field(
        "tine_deflection", "How far the tips are pushed back", "length", "0 in", "6 in",
        "At work, seen from the side.",
        default="0.75 in", typical=ws.Typical(0.010, 0.030, "value/SPRING-memory", "spring tines"),
        group=TINES,
    ),
)  # fmt: skip


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


@dataclass(frozen=True, slots=True)
class Wheel:
    """One wheel on the lawn."""

    axle: str
    load: float  # N
    pressure: float  # Pa, on the ground
    print_area: float  # m2
    largest_print: float | None  # m2, at normal flattening
    tire: tires.Dimensions | None
    measured: bool


def wheel(axle: str, v: ws.Inputs) -> Wheel:
    """Return a front wheel with the tool down, or a rear wheel with the tool lifted."""
    weight = v.tractor_mass * GRAVITY
    if axle == "front":
        load, inflation, size, measured = (
            weight * v.front_share / 2.0, v.front_inflation, v.front_tire, v.front_print
        )  # fmt: skip
    else:
        lifted = v.implement_mass * GRAVITY * (v.wheelbase + v.reach) / v.wheelbase
        load = (weight * (1.0 - v.front_share) + lifted) / 2.0
        inflation, size, measured = v.rear_inflation, v.rear_tire, v.rear_print
    tire = tires.dimensions(size) if isinstance(size, Designation) else None
    largest = None
    if tire is not None:
        largest = turf.print_area(
            tire.section_width, tire.overall_diameter, tire.rim_diameter, FLATTENING
        )
    if measured is not None:
        return Wheel(axle, load, load / measured, measured, largest, tire, True)
    pressure = turf.mean_pressure(inflation, v.pressure_rule)
    return Wheel(axle, load, pressure, load / pressure, largest, tire, False)


def passes(v: ws.Inputs) -> int:
    """How often the lawn is gone over."""
    if v.tool in ("spring-tine", "rigid-blade"):
        return max(1, turf.thatch_passes(v.thatch))
    if v.tool == "core":
        each = turf.holes_per_area(v.hole_spacing_along, v.hole_spacing_across)
        return turf.passes_for(v.holes_wanted / 0.09290304, each)
    return 1


def _tine(v: ws.Inputs) -> tuple[float, float]:
    """Rate of a tine and the force at its tip."""
    rate = turf.torsion_rate(v.tine_wire, v.tine_coil - v.tine_wire, v.tine_turns)
    return rate, turf.tine_force(rate, v.tine_deflection, v.tine_leg)


def _reach_down(v: ws.Inputs) -> float:
    """Depth that the tool may reach, with its allowance."""
    return float(v.tool_depth + float(_tool(v.tool)["allowance_mm"]) / 1000.0)


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks on turf, buried things and tines, and the time and fuel."""
    limit = turf.turf_limit(v.soil_state)
    limit_source = tables.by_key("turf_limits", "state")[v.soil_state]["source"]
    wheels = [wheel("front", v), wheel("rear", v)]
    checks: list[ws.Check] = []
    for one in wheels:
        source = "value/DERIVED" if one.measured else _rule_source(v.pressure_rule)
        checks.append(
            ws.at_most(
                f"{one.axle}_ground",
                f"Pressure under the {one.axle} tires",
                one.pressure,
                limit,
                "pressure",
                f"{source}; {limit_source}",
                why="The soil packs and the tracks stay.",
            )
        )
        if one.largest_print is not None and not one.measured:
            checks.append(
                ws.at_most(
                    f"{one.axle}_print",
                    f"Print that a {one.axle} tire needs for its load",
                    one.print_area,
                    one.largest_print,
                    "area_small",
                    "value/DERIVED; power/D497-memory",
                    why="So soft, the tire would be flattened too far for its load.",
                )
            )
    checks += _buried_checks(v)
    time = field_work.work_time(
        v.lawn_area, v.working_width, v.ground_speed, v.efficiency, passes(v)
    )
    burnt = fuel.diesel_rate(v.pto_power, min(1.0, max(fuel.LOWEST_LOAD, v.engine_load)))
    unit = "min" if time < 7200.0 else "h"
    outputs = [
        ws.Output("front_pressure", "Pressure under the front tires", wheels[0].pressure,
                  "pressure"),
        ws.Output("rear_pressure", "Pressure under the rear tires, tool lifted",
                  wheels[1].pressure, "pressure"),
        ws.Output("deep", "Largest stress a hand deep (4 in, 10 cm)", ground.peak_stress(
            max(v.front_inflation, v.rear_inflation)), "pressure"),
        ws.Output("passes", "Passes over the whole lawn", float(passes(v)), "count"),
        ws.Output("time", "Time", time, "duration", unit_us=unit, unit_metric=unit),
        ws.Output("rate", "Lawn in an hour, all passes", v.lawn_area / time, "area_rate"),
        ws.Output("fuel", "Fuel", burnt * time, "volume"),
    ]  # fmt: skip
    if v.tool == "spring-tine":
        checks += _tine_checks(v, outputs)
    if v.tool == "core":
        made = passes(v) * turf.holes_per_area(v.hole_spacing_along, v.hole_spacing_across)
        outputs.append(ws.Output("holes", "Holes in a square foot", made * 0.09290304, "count"))
    if v.machine == "ride-on":
        checks.append(
            ws.at_most(
                "slope",
                "Slope, by the makers of ride-on mowers with an attachment",
                v.slope,
                RIDE_ON_LIMIT,
                "slope",
                "value/L9",
                why="Beyond it their makers say not to drive.",
            )
        )
    if work.on:
        _show_working(v, wheels, time, burnt, work)
    return ws.Outcome(checks, outputs)


def _rule_source(rule: str) -> str:
    return tables.by_key("contact_pressure_rules", "key")[rule]["source"]


def _buried_checks(v: ws.Inputs) -> list[ws.Check]:
    if v.sprinklers == "no":
        return []
    down = _reach_down(v)
    source = f"value/DERIVED; {_tool(v.tool)['source']}"
    return [
        ws.at_least(
            "heads", "Sprinkler heads below the tool", v.head_depth, down, "length", source,
            why="Flag every head, or the tool can strike it.",
        ),
        ws.at_least(
            "boxes", "Valve boxes below the tool", v.box_depth, down, "length", source,
            why="Flag the boxes, or the tool can catch a lid.",
        ),
    ]  # fmt: skip


def _tine_checks(v: ws.Inputs, outputs: list[ws.Output]) -> list[ws.Check]:
    _, force = _tine(v)
    outputs.append(ws.Output("tine_force", "Force at the tip of one tine", force, "force"))
    return [
        ws.at_most(
            "tines",
            "Push of all the tines together",
            v.tine_count * force,
            v.implement_mass * GRAVITY,
            "force",
            "value/SPRING-memory; value/L3a",
            why="The tool is lighter than its springs push, so it jumps.",
        )
    ]


def _show_working(
    v: ws.Inputs, wheels: list[Wheel], time: float, burnt: float, work: ws.Work
) -> None:
    for one in wheels:
        if one.measured:
            work.step(f"Pressure under a {one.axle} tire", "p", "load / print",
                      (("load", one.load, "force"), ("print", one.print_area, "area_small")),
                      one.pressure, "pressure", "value/DERIVED")  # fmt: skip
            continue
        inflation = v.front_inflation if one.axle == "front" else v.rear_inflation
        row = tables.by_key("contact_pressure_rules", "key")[v.pressure_rule]
        work.step(f"Pressure under a {one.axle} tire", "p",
                  f"{row['times']} p_i + {row['plus_kpa']} kPa",
                  (("p_i", inflation, "pressure"),), one.pressure, "pressure",
                  row["source"])  # fmt: skip
        work.step(f"Print it needs, {one.axle}", "A", "load / p",
                  (("load", one.load, "force"), ("p", one.pressure, "pressure")),
                  one.print_area, "area_small", "value/DERIVED; tires/S9")  # fmt: skip
        if one.tire is not None and one.largest_print is not None:
            work.step(f"Print at normal flattening, {one.axle}", "A_max",
                      "(π/4) b × 2 √(δ (D − δ)), δ = 0.2 h",
                      (("b", one.tire.section_width, "length"),
                       ("D", one.tire.overall_diameter, "length"),
                       ("h", one.tire.section_height, "length")), one.largest_print, "area_small",
                      f"value/DERIVED; {one.tire.source}")  # fmt: skip
    if v.sprinklers != "no":
        row = _tool(v.tool)
        allowance = float(row["allowance_mm"]) / 1000.0
        work.step("Depth to stay clear of", "z + b", "tool depth + bounce and settling",
                  (("z", v.tool_depth, "length"), ("b", allowance, "length")), _reach_down(v),
                  "length", f"value/DERIVED; {row['source']}")  # fmt: skip
    if v.tool == "spring-tine":
        rate, force = _tine(v)
        work.step("Force at a tine's tip", "F", "k x / L², k = E d⁴ / (64 D N)",
                  (("k", rate, "torque"), ("x", v.tine_deflection, "length"),
                   ("L", v.tine_leg, "length")), force, "force",
                  "value/SPRING-memory")  # fmt: skip
    work.step("Time", "t", "passes × area / (w v E)",
              (("passes", float(passes(v)), "count"), ("area", v.lawn_area, "land"),
               ("w", v.working_width, "length"), ("v", v.ground_speed, "speed"),
               ("E", v.efficiency, "fraction")), time, "duration",
              "power/S6; value/V24")  # fmt: skip
    work.step("Fuel in an hour", "Q", "(0.22 X + 0.096) P, liters an hour from kW",
              (("X", v.engine_load, "fraction"), ("P", v.pto_power, "power")), burnt, "fuel_rate",
              "power/S9")  # fmt: skip


# --- advice ---------------------------------------------------------------------------------

CAUTIONS = (
    ws.Caution(
        "Keep people and animals well away: tines break and throw wire and stones.",
        "value/PRACTICE",
    ),
    ws.Caution(
        "On a slope go up and down, not across, and turn slowly. Tight turns mark turf more than "
        "the tread does.",
        "value/L3f; value/L8; value/L9",
    ),
    ws.Caution(
        "No slope is called safe here. Makers of ride-on mowers allow 15 degrees bare and 10 "
        "degrees (18 %) with anything attached; a compact tractor has no such blanket figure, so "
        "ask its manual.",
        "value/L9",
    ),
    ws.Caution(
        "Have gas, power and telephone lines located before anything works deeper than the grass "
        "roots; the call is free in the United States.",
        "value/PRACTICE",
    ),
)


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for tire pressures, depth, tool mass and slope; list what to flag."""
    remedies: list[ws.Remedy] = []
    for axle in ("front", "rear"):
        if outcome.margin([f"{axle}_ground"]) < 0.0:
            remedies += _softer(v, axle, solve)
        if outcome.margin([f"{axle}_print"]) < 0.0:
            remedies += _firmer(v, axle)
    if v.soil_state == "wet" and outcome.margin(["front_ground", "rear_ground"]) < 0.0:
        dried = solve.run(soil_state="moist").margin(["front_ground", "rear_ground"])
        said = "and these tires are within limits" if dried >= 0.0 else "and try again"
        remedies.insert(
            0,
            ws.Remedy(
                f"Wait until a heel no longer leaves a mark: the soil then stands more, {said}.",
                {"soil_state": "moist"} if dried >= 0.0 else {},
                "value/L7d",
            ),
        )
    if outcome.margin(["heads", "boxes"]) < 0.0:
        remedies += _clear(v, solve)
    if outcome.margin(["tines"]) < 0.0:
        needed = v.tine_count * _tine(v)[1] / GRAVITY
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Weight on the tray until the tool weighs {m}, if its tray limit allows it.",
                    m=(needed, "mass"),
                ),
                {"implement_mass": f"{math.ceil(needed / 0.45359237)} lb"},
                "value/L3a; value/L3d",
            )
        )
    if outcome.margin(["slope"]) < 0.0:
        remedies.append(
            ws.Remedy(
                ws.phrase("Leave out what is steeper than {s}.", s=(RIDE_ON_LIMIT, "slope")),
                {"slope": f"{math.floor(RIDE_ON_LIMIT * 1000) / 10:.1f} %"},
                "value/L9",
            )
        )
    lists = () if v.sprinklers == "no" and v.tool not in IN_SOIL else (_flag_list(v),)
    return ws.Advice(remedies, CAUTIONS, tables=lists, notes=_notes(v))


def _softer(v: ws.Inputs, axle: str, solve: Solver) -> list[ws.Remedy]:
    """The inflation that meets the limit, if the tire then still carries its load."""
    limit = turf.turf_limit(v.soil_state)
    one = wheel(axle, v)
    if one.measured:
        return [
            ws.Remedy(
                ws.phrase(
                    f"The {axle} tires would need a print of {{a}} each: softer or wider tires, "
                    "or less load.",
                    a=(one.load / limit, "area_small"),
                ),
                {f"{axle}_print": f"{math.ceil(one.load / limit / 0.00064516 * 10) / 10:.1f} in2"},
                "value/DERIVED",
            )
        ]
    target = turf.inflation_for(limit, v.pressure_rule)
    shown = math.floor(target / 6894.757 * 10.0) / 10.0
    fits = shown >= 2.0
    if fits and one.largest_print is not None:
        fits = solve.run(**{f"{axle}_inflation": shown * 6894.757}).margin([f"{axle}_print"]) >= 0.0
    if fits:
        return [
            ws.Remedy(
                ws.phrase(
                    f"Let the {axle} tires down to {{p}}, if their load table allows it and the "
                    "manual doesn't ask for more; pump them up again for the road and the loader.",
                    p=(shown * 6894.757, "pressure", "psi"),
                ),
                {f"{axle}_inflation": f"{shown:.1f} psi"},
                "value/L7d; value/DERIVED",
            )
        ]
    return [
        ws.Remedy(
            ws.phrase(
                f"No pressure suits these {axle} tires here: each would need a print of {{a}}. "
                "Wider tires or a lighter machine would do it.",
                a=(one.load / limit, "area_small"),
            ),
            source="value/DERIVED",
        )
    ]


def _firmer(v: ws.Inputs, axle: str) -> list[ws.Remedy]:
    one = wheel(axle, v)
    if one.largest_print is None:
        return []
    pressure = turf.inflation_for(one.load / one.largest_print, v.pressure_rule)
    psi = math.ceil(max(2.0, pressure / 6894.757) * 10.0) / 10.0
    return [
        ws.Remedy(
            ws.phrase(
                f"The {axle} tires need {{p}} or more for their load.",
                p=(psi * 6894.757, "pressure", "psi"),
            ),
            {f"{axle}_inflation": f"{psi:.1f} psi"},
            "value/DERIVED",
        )
    ]


def _clear(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    found = [
        ws.Remedy(
            ws.phrase(
                "Flag every head and box and work round them: they would have to be {d} below "
                "the soil to be clear of this tool.",
                d=(_reach_down(v), "length"),
            ),
            source="value/DERIVED",
        )
    ]
    if v.tool_depth > 0.0:
        shallow = solve.largest("tool_depth", 0.0, v.tool_depth, ["heads", "boxes"])
        if shallow is not None:
            found.append(
                ws.Remedy(
                    ws.phrase("No deeper than {d} it stays clear.", d=(shallow, "length")),
                    {"tool_depth": f"{math.floor(shallow * 1e4) / 10.0:.1f} mm"},
                    "value/DERIVED",
                )
            )
    if v.tool != "spring-tine":
        gentle = {"tool": "spring-tine", "tool_depth": 0.0}
        if solve.run(**gentle).margin(["heads", "boxes"]) >= 0.0:
            found.append(
                ws.Remedy(
                    "A spring-tine rake, tips set to touch, stays clear of them.",
                    {"tool": "spring-tine", "tool_depth": "0 in"},
                    "value/L3d",
                )
            )
    return found


def _flag_list(v: ws.Inputs) -> ws.Table:
    wanted = [row for row in tables.rows("flag_list") if row["tools"] == "all" or v.tool in IN_SOIL]
    return ws.Table(
        "Flag before you start",
        ("What", "Why"),
        tuple((row["item"], row["why"]) for row in wanted),
        "; ".join(dict.fromkeys(row["source"] for row in wanted)),
        checklist=True,
    )


def _notes(v: ws.Inputs) -> list[ws.Words]:
    notes: list[ws.Words] = [f"{_tool(v.tool)['name']}: {_tool(v.tool)['boxes'].lower()}."]
    if v.tool in ("spring-tine", "rigid-blade"):
        if turf.thatch_passes(v.thatch) == 0:
            notes.append(
                ws.phrase(
                    "Up to {h}, thatch helps the lawn and needs no raking. The time is for one "
                    "pass all the same.",
                    h=(0.5 * turf.INCH, "length"),
                )
            )
        elif turf.thatch_passes(v.thatch) == 2:
            notes.append(
                "So much thatch takes two treatments, spring and fall, the second crosswise; "
                "rake it up and aerate after."
            )
        notes.append(
            ws.phrase(
                "Mow {h} lower than usual first and work on dry grass, cool-season grass in early "
                "fall or spring, warm-season grass in late spring.",
                h=(0.5 * turf.INCH, "length"),
            )
        )
    if v.tool == "core":
        notes.append(
            ws.phrase(
                "Cores come out best when the soil had {h} of water two days before.",
                h=(turf.INCH, "length"),
            )
        )
    others = [
        ws.phrase(
            f"Taken as “{row['name'].split(' (')[0].lower()}” the front tires press {{p}}.",
            p=(turf.mean_pressure(v.front_inflation, row["key"]), "pressure"),
        )
        for row in tables.rows("contact_pressure_rules")
        if row["key"] != v.pressure_rule
    ]
    if v.front_print is None:
        notes += others
    notes.append(
        "Bar lugs press harder than the mean under each bar until they have sunk in, and leave "
        "their pattern; turf tires don't."
    )
    return notes


# --- pictures -------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """A cut through the soil at a sprinkler head, and the prints of the tires."""
    drawn: list[Picture] = []
    if v.sprinklers != "no":
        drawn.append(_cut(v))
    drawn.append(_prints(v))
    return drawn


def _cut(v: ws.Inputs) -> Scene:
    down = _reach_down(v)
    deepest = max(0.07, down + 0.03, v.head_depth + 0.04, v.box_depth + 0.04)
    head, box = -v.head_depth, -v.box_depth
    left, right = -0.20, 0.22
    clear = min(v.head_depth, v.box_depth) >= down
    style = "good" if clear else "bad"
    items: list[Item] = [
        Shape([(left, 0.0), (right, 0.0), (right, -deepest), (left, -deepest)], "ground"),
        Shape([(-0.025, head), (0.025, head), (0.025, -deepest), (-0.025, -deepest)], "fill"),
        Shape([(0.07, box), (0.20, box), (0.20, -deepest), (0.07, -deepest)], "fill"),
        Line([(left, 0.0), (right, 0.0)], "ink thick"),
        *_tips(v),
        Line([(left, -down), (right, -down)], f"{style} dashed"),
        Label((0.0, max(head, 0.0)), "Sprinkler head", dy=-0.8),
        Label((0.135, max(box, 0.0)), "Valve box", dy=-0.8),
        Label((left, -deepest), _reach_words(v, clear), "start", style, dy=0.8),
    ]
    return Scene(
        "A cut through the lawn",
        ws.phrase(
            "The tool works {z} deep and may reach {d} with bounce and settling; the highest head "
            "is {s} below the soil and the highest box {b}, where below zero means proud",
            z=(v.tool_depth, "length"),
            d=(down, "length"),
            s=(v.head_depth, "length"),
            b=(v.box_depth, "length"),
        ),
        items,
    )


def _reach_words(v: ws.Inputs, clear: bool) -> ws.Phrase:
    said = "clear of it" if clear else "flag what stands above"
    return ws.phrase(f"Dashed: {{d}}, the tool's reach; {said}", d=(_reach_down(v), "length"))


def _tips(v: ws.Inputs) -> list[Item]:
    """The working tips of the tool, drawn at their depth."""
    z = v.tool_depth
    if v.tool == "spring-tine":
        return [
            Line([(x + 0.022, 0.06), (x + 0.010, 0.014), (x - 0.010, -z)], "accent thick")
            for x in (-0.175, -0.135)
        ]
    if v.tool == "roller":
        return []
    return [
        Shape([(x - 0.008, 0.06), (x + 0.008, 0.06), (x + 0.006, -z), (x - 0.006, -z)], "accent")
        for x in (-0.175, -0.125)
    ]


def _oval(center: tuple[float, float], width: float, length: float) -> list[tuple[float, float]]:
    return [
        (
            center[0] + width / 2.0 * math.cos(math.pi * step / 16.0),
            center[1] + length / 2.0 * math.sin(math.pi * step / 16.0),
        )
        for step in range(32)
    ]


def _prints(v: ws.Inputs) -> Scene:
    limit = turf.turf_limit(v.soil_state)
    items: list[Item] = []
    across = 0.0
    wheels = [wheel("front", v), wheel("rear", v)]
    for one in wheels:
        round_width = math.sqrt(4.0 * one.print_area / math.pi)
        width = one.tire.section_width if one.tire is not None else round_width
        length = 4.0 * one.print_area / (math.pi * width)
        full = 4.0 * (one.largest_print or 0.0) / (math.pi * width)
        half = max(length, full) / 2.0
        middle = (across + max(width, 0.16) / 2.0, 0.0)
        items.append(
            Shape(_oval(middle, width, length), "good" if one.pressure <= limit else "bad")
        )
        if full:
            items.append(
                Line([*_oval(middle, width, full), (middle[0] + width / 2, 0.0)], "soft dashed")
            )
        items += [
            Label((middle[0], half), f"{one.axle.capitalize()} tire", dy=-0.8),
            Label(
                (middle[0], -half),
                ws.phrase("{p} over {a}", p=(one.pressure, "pressure"),
                          a=(one.print_area, "area_small")),
                dy=0.9,
            ),
        ]  # fmt: skip
        across += max(width, 0.16) + 0.30
    return Scene(
        "Prints of one front and one rear tire",
        ws.phrase(
            "{front} under the front tire and {rear} under the rear one, against {limit} for this "
            "soil; a dashed line is the print at normal flattening",
            front=(wheels[0].pressure, "pressure"),
            rear=(wheels[1].pressure, "pressure"),
            limit=(limit, "pressure"),
        ),
        items,
    )


WORKSHEET = ws.Worksheet(
    name="lawn",
    title="Lawn implements",
    question="Will this tool hurt my lawn or hit my sprinklers?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="lawn/lawn-implements",
    example="a compact tractor on turf tires with a 60 in spring-tine rake, an acre of lawn and "
    "sprinklers.",
)
