"""The sums."""

from __future__ import annotations

from dataclasses import dataclass

from calc import arith, model, tables
from calc.mechanics import field_work, fuel, ground, tires, turf
from calc.mechanics.tire_size import Designation
from calc.worksheets.lawn.fields import _tool

GRAVITY = 9.80665
FLATTENING = 0.20  # normal tire deflection over section height; power/D497-memory
RIDE_ON_LIMIT = arith.tan(arith.radians(10.0))  # with an attachment; value/L9


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


def wheel(axle: str, v: model.Inputs) -> Wheel:
    """Return a front wheel with the tool down, or a rear wheel with the tool lifted."""
    weight = v.tractor_mass * GRAVITY
    if axle == "front":
        load, inflation, size, measured = (
            weight * v.front_share / 2.0,
            v.front_inflation,
            v.front_tire,
            v.front_print,
        )
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


def passes(v: model.Inputs) -> int:
    """How often the lawn is gone over."""
    if v.tool in ("spring-tine", "rigid-blade"):
        return arith.max(1, turf.thatch_passes(v.thatch))
    if v.tool == "core":
        each = turf.holes_per_area(v.hole_spacing_along, v.hole_spacing_across)
        return turf.passes_for(v.holes_wanted / 0.09290304, each)
    return 1


def _tine(v: model.Inputs) -> tuple[float, float]:
    """Rate of a tine and the force at its tip."""
    rate = turf.torsion_rate(v.tine_wire, v.tine_coil - v.tine_wire, v.tine_turns)
    return rate, turf.tine_force(rate, v.tine_deflection, v.tine_leg)


def _reach_down(v: model.Inputs) -> float:
    """Depth that the tool may reach, with its allowance."""
    return arith.number(v.tool_depth + float(_tool(v.tool)["allowance_mm"]) / 1000.0)


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks on turf, buried things and tines, and the time and fuel."""
    limit = turf.turf_limit(v.soil_state)
    limit_source = tables.by_key("lawn/turf_limits", "state")[v.soil_state]["source"]
    wheels = [wheel("front", v), wheel("rear", v)]
    checks: list[model.Check] = []
    for one in wheels:
        source = "value/DERIVED" if one.measured else _rule_source(v.pressure_rule)
        checks.append(
            model.at_most(
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
                model.at_most(
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
    burnt = fuel.diesel_rate(
        v.pto_power, arith.min(1.0, arith.max(fuel.LOWEST_LOAD, v.engine_load))
    )
    unit = "min" if time < 7200.0 else "h"
    outputs = [
        model.Output(
            "front_pressure", "Pressure under the front tires", wheels[0].pressure, "pressure"
        ),
        model.Output(
            "rear_pressure",
            "Pressure under the rear tires, tool lifted",
            wheels[1].pressure,
            "pressure",
        ),
        model.Output(
            "deep",
            "Largest stress a hand deep (4 in, 10 cm)",
            ground.peak_stress(arith.max(v.front_inflation, v.rear_inflation)),
            "pressure",
        ),
        model.Output("passes", "Passes over the whole lawn", arith.number(passes(v)), "count"),
        model.Output("time", "Time", time, "duration", unit_us=unit, unit_metric=unit),
        model.Output("rate", "Lawn in an hour, all passes", v.lawn_area / time, "area_rate"),
        model.Output("fuel", "Fuel", burnt * time, "volume"),
    ]
    if v.tool == "spring-tine":
        checks += _tine_checks(v, outputs)
    if v.tool == "core":
        made = passes(v) * turf.holes_per_area(v.hole_spacing_along, v.hole_spacing_across)
        outputs.append(model.Output("holes", "Holes in a square foot", made * 0.09290304, "count"))
    if v.machine == "ride-on":
        checks.append(
            model.at_most(
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
    return model.Outcome(checks, outputs)


def _rule_source(rule: str) -> str:
    return tables.by_key("lawn/contact_pressure_rules", "key")[rule]["source"]


def _buried_checks(v: model.Inputs) -> list[model.Check]:
    if v.sprinklers == "no":
        return []
    down = _reach_down(v)
    source = f"value/DERIVED; {_tool(v.tool)['source']}"
    return [
        model.at_least(
            "heads",
            "Sprinkler heads below the tool",
            v.head_depth,
            down,
            "length",
            source,
            why="Flag every head, or the tool can strike it.",
        ),
        model.at_least(
            "boxes",
            "Valve boxes below the tool",
            v.box_depth,
            down,
            "length",
            source,
            why="Flag the boxes, or the tool can catch a lid.",
        ),
    ]


def _tine_checks(v: model.Inputs, outputs: list[model.Output]) -> list[model.Check]:
    _, force = _tine(v)
    outputs.append(model.Output("tine_force", "Force at the tip of one tine", force, "force"))
    return [
        model.at_most(
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
    v: model.Inputs, wheels: list[Wheel], time: float, burnt: float, work: model.Work
) -> None:
    for one in wheels:
        if one.measured:
            work.step(
                f"Pressure under a {one.axle} tire",
                "p",
                "load / print",
                (("load", one.load, "force"), ("print", one.print_area, "area_small")),
                one.pressure,
                "pressure",
                "value/DERIVED",
            )
            continue
        inflation = v.front_inflation if one.axle == "front" else v.rear_inflation
        row = tables.by_key("lawn/contact_pressure_rules", "key")[v.pressure_rule]
        work.step(
            f"Pressure under a {one.axle} tire",
            "p",
            f"{row['times']} p_i + {row['plus_kpa']} kPa",
            (("p_i", inflation, "pressure"),),
            one.pressure,
            "pressure",
            row["source"],
        )
        work.step(
            f"Print it needs, {one.axle}",
            "A",
            "load / p",
            (("load", one.load, "force"), ("p", one.pressure, "pressure")),
            one.print_area,
            "area_small",
            "value/DERIVED; tires/S9",
        )
        if one.tire is not None and one.largest_print is not None:
            work.step(
                f"Print at normal flattening, {one.axle}",
                "A_max",
                "(π/4) b × 2 √(δ (D − δ)), δ = 0.2 h",
                (
                    ("b", one.tire.section_width, "length"),
                    ("D", one.tire.overall_diameter, "length"),
                    ("h", one.tire.section_height, "length"),
                ),
                one.largest_print,
                "area_small",
                f"value/DERIVED; {one.tire.source}",
            )
    if v.sprinklers != "no":
        row = _tool(v.tool)
        allowance = float(row["allowance_mm"]) / 1000.0
        work.step(
            "Depth to stay clear of",
            "z + b",
            "tool depth + bounce and settling",
            (("z", v.tool_depth, "length"), ("b", allowance, "length")),
            _reach_down(v),
            "length",
            f"value/DERIVED; {row['source']}",
        )
    if v.tool == "spring-tine":
        rate, force = _tine(v)
        work.step(
            "Force at a tine's tip",
            "F",
            "k x / L², k = E d⁴ / (64 D N)",
            (
                ("k", rate, "torque"),
                ("x", v.tine_deflection, "length"),
                ("L", v.tine_leg, "length"),
            ),
            force,
            "force",
            "value/SPRING-memory",
        )
    work.step(
        "Time",
        "t",
        "passes × area / (w v E)",
        (
            ("passes", arith.number(passes(v)), "count"),
            ("area", v.lawn_area, "land"),
            ("w", v.working_width, "length"),
            ("v", v.ground_speed, "speed"),
            ("E", v.efficiency, "fraction"),
        ),
        time,
        "duration",
        "power/S6; value/V24",
    )
    work.step(
        "Fuel in an hour",
        "Q",
        "(0.22 X + 0.096) P, liters an hour from kW",
        (("X", v.engine_load, "fraction"), ("P", v.pto_power, "power")),
        burnt,
        "fuel_rate",
        "power/S9",
    )
