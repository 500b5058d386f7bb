"""The sums."""

from __future__ import annotations

from dataclasses import dataclass

from calc import arith, model, tables
from calc.mechanics import field_work, fuel, ground, tires, turf
from calc.mechanics.tire_size import Designation
from calc.worksheets.lawn.fields import TEARS, tool_row

GRAVITY = 9.80665
FLATTENING = 0.20  # normal tire deflection over section height; power/D497-memory
ATTACHED = tables.by_key("lawn/slope_limits", "key")["attached"]
SLOPE_LIMIT = arith.tan(arith.radians(float(ATTACHED["degrees"])))
SOFT = "wet"


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


def reach_down(v: model.Inputs) -> float:
    """Depth that the tool may reach, with its allowance."""
    return arith.number(v.tool_depth + float(tool_row(v.tool)["allowance_mm"]) / 1000.0)


def yields(v: model.Inputs) -> bool:
    """Whether the tool bends back from a sunk head, or has nothing in the ground."""
    return bool(tool_row(v.tool)["yields"] == "yes")


def compute(v: model.Inputs, at: model.At) -> None:
    """Name pressures, depths, time and fuel, and check turf, buried things, tines and slope."""
    _ground(v, at)
    _buried(v, at)
    if v.tool in TEARS:
        at.fits("turf", -1.0, tool_row(v.tool)["source"])
    if v.tool == "spring-tine":
        rate, at.tine_force = _tine(v)
        at.push, at.weight = v.tine_count * at.tine_force, v.implement_mass * GRAVITY
        at.at_most("tines", "push", "weight", "value/SPRING-memory; value/L3a", grade=model.ADVICE)
        turns = {"k": (rate, "torque"), "x": "tine_deflection", "L": "tine_leg"}
        at.step("tine_force", "F = k x / L², k = E d⁴ / (64 D N)", "value/SPRING-memory", **turns)
    _slope(v, at)
    _work(v, at)


def _ground(v: model.Inputs, at: model.At) -> None:
    at.soil_limit = turf.turf_limit(v.soil_state)
    at.inflation_limit = arith.max(0.0, turf.inflation_for(at.soil_limit, v.pressure_rule))
    at.deep = ground.peak_stress(arith.max(v.front_inflation, v.rear_inflation))
    turf_source = tables.by_key("lawn/turf_limits", "state")[v.soil_state]["source"]
    row = tables.by_key("lawn/contact_pressure_rules", "key")[v.pressure_rule]
    wheels = [wheel("front", v), wheel("rear", v)]
    at.front_pressure, at.rear_pressure = (one.pressure for one in wheels)
    at.front_needs, at.rear_needs = (one.print_area for one in wheels)
    for one in wheels:
        axle, source = one.axle, "value/DERIVED" if one.measured else row["source"]
        # Usual pressures pack a lawn a little: a warning. Ruts are the soft soil's own check.
        at.at_most(
            f"{axle}_ground",
            f"{axle}_pressure",
            "soil_limit",
            f"{source}; {turf_source}",
            grade=model.ADVICE,
        )
        _pressed(at, one, row)
        if one.largest_print is not None and not one.measured:
            _print(at, one)
    soft = v.soil_state == SOFT
    pressed = arith.max(at.front_pressure, at.rear_pressure)
    ruts = arith.where(arith.below(at.soil_limit, pressed), -1.0, 1.0) if soft else 1.0
    at.fits("soil", ruts, turf_source, "soft" if soft else "firm")


def _pressed(at: model.At, one: Wheel, row: tables.Row) -> None:
    """The line of the working for the pressure under a tire."""
    name = f"{one.axle}_pressure"
    if one.measured:
        load = (one.load, "force")
        at.step(name, "p = load / print", "value/DERIVED", load=load, print=f"{one.axle}_needs")
        return
    formula = f"p = {row['times']} p_i + {row['plus_kpa']} kPa"
    at.step(name, formula, row["source"], p_i=f"{one.axle}_inflation")


def _print(at: model.At, one: Wheel) -> None:
    """Whether a tire this soft still carries its load without being flattened too far."""
    axle = one.axle
    setattr(at, f"{axle}_largest", one.largest_print)
    source = "value/DERIVED; power/D497-memory"
    at.at_most(f"{axle}_print", f"{axle}_needs", f"{axle}_largest", source)
    needs = {"load": (one.load, "force"), "p": f"{axle}_pressure"}
    at.step(f"{axle}_needs", "A = load / p", "value/DERIVED; tires/S9", **needs)
    if one.tire is not None:
        size = {
            "b": (one.tire.section_width, "length"),
            "D": (one.tire.overall_diameter, "length"),
            "h": (one.tire.section_height, "length"),
        }
        formula = "A_max = (π/4) b × 2 √(δ (D − δ)), δ = 0.2 h"
        at.step(f"{axle}_largest", formula, f"value/DERIVED; {one.tire.source}", **size)


def _buried(v: model.Inputs, at: model.At) -> None:
    at.reach_down = reach_down(v)
    if v.sprinklers == "no":
        return
    row = tool_row(v.tool)
    source = f"value/DERIVED; {row['source']}"
    for name, depth in (("heads", "head_depth"), ("boxes", "box_depth")):
        if not yields(v):
            at.digs = at.reach_down
            at.at_least(name, depth, "reach_down", source)
        else:
            # A sunk head is passed over; only what stands proud is caught.
            at.at_least(name, depth, 0.0, source, strict="reach_down", close_band=0.0)
    allowance = (float(row["allowance_mm"]) / 1000.0, "length")
    formula = "z + b = tool depth + bounce and settling"
    at.step("reach_down", formula, source, z="tool_depth", b=allowance)


def _slope(v: model.Inputs, at: model.At) -> None:
    """No slope is within: below the manuals' figure it is close, above it over."""
    at.slope_limit = at.slope_degrees = SLOPE_LIMIT
    if v.slope is None:
        at.not_checked("slope", "slope", governs=True)
        return
    source = ATTACHED["source"]
    at.steepness = v.slope
    at.at_most("slope", "slope", "slope_limit", source, strict=0.0, grade=model.DANGER)


def _work(v: model.Inputs, at: model.At) -> None:
    at.passes = arith.number(passes(v))
    at.time = field_work.work_time(
        v.lawn_area, v.working_width, v.ground_speed, v.efficiency, at.passes
    )
    at.pass_time = field_work.work_time(
        v.lawn_area, v.working_width, v.ground_speed, v.efficiency, 1.0
    )
    at.rate = v.lawn_area / at.time
    at.pass_rate = field_work.field_capacity(v.working_width, v.ground_speed, v.efficiency)
    load = arith.min(1.0, arith.max(fuel.LOWEST_LOAD, v.engine_load))
    at.burnt = fuel.diesel_rate(v.pto_power, load)
    at.fuel = at.burnt * at.time
    if v.tool == "core":
        each = turf.holes_per_area(v.hole_spacing_along, v.hole_spacing_across)
        at.holes = at.passes * each * 0.09290304
    at.step(
        "time",
        "t = passes × area / (w v E)",
        "power/S6; value/V24",
        passes="passes",
        area="lawn_area",
        w="working_width",
        v="ground_speed",
        E="efficiency",
    )
    at.step(
        "burnt",
        "Q = (0.22 X + 0.096) P, liters an hour from kW",
        "power/S9",
        X="engine_load",
        P="pto_power",
    )
