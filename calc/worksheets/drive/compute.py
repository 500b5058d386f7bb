"""The sums."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc import arith, model, tables
from calc.mechanics import fuel, ownership, pto_power, traction, transmission

GRAVITY = 9.80665
HIGHEST_SLIP = 0.15  # top of the band that suits the user, 8 to 15 %; power/D497-memory
REAR_SHARE = 0.60  # load on the rear axle of a two-wheel drive; hitch/PRACTICE
GEAR_DRAG_SHARE = 0.61  # of the whole loss; power/S14
DRIVES = ("gear", "hydrostatic")
LIFE = 3600.0 * float(tables.by_key("power/repair_factors", "machine")["tractor"]["life_h"])


@dataclass(frozen=True, slots=True)
class Drive:
    """One of the two drives behind one engine. Powers in W."""

    kind: str
    slope: float
    drag: float
    shaft: float  # at the PTO, standing still


@cache
def _efficiency(kind: str, basis: str) -> float:
    return transmission.full_load_efficiency(kind, basis)


@cache
def _ground(soil: str) -> tuple[float, float]:
    """Mobility number and the tractive efficiency at best slip."""
    mobility = traction.soil_mobility_number(soil)
    return mobility, traction.tractive_efficiency(mobility, traction.best_slip(mobility))


_RATIO = pto_power.pto_ratio()[1]


def drive(kind: str, v: model.Inputs) -> Drive:
    """Return one drive behind the engine of the inputs."""
    full = v.engine_power * _RATIO
    efficiency = _efficiency(kind, v.basis)
    loss = (1.0 - efficiency) * full
    drag = GEAR_DRAG_SHARE * (1.0 - _efficiency("gear", v.basis)) * full
    pump = 0.0
    if kind == "hydrostatic":
        # A pump sized for a bigger tractor can't lose more than the drive loses in all; the
        # range gears and the final drive behind it drag as those of a gear drive do.
        pump = arith.min(v.pump_drag, 0.9 * loss)
        drag = arith.max(pump, drag)
    return Drive(kind, transmission.drive_line(efficiency, drag, full), drag, full - pump)


@dataclass(frozen=True, slots=True)
class Job:
    """What the job asks of the wheels."""

    slip: float
    axle_power: float
    grips: bool


def job(v: model.Inputs, speed: float) -> Job:
    """Return slip and axle power of the job, from the load on the driven wheels and the soil."""
    mobility, _ = _ground(v.soil)
    angle = arith.atan(v.slope)
    weight = (v.tractor_mass + v.load_mass) * GRAVITY
    level = weight * arith.cos(angle)
    driven = level if v.driven == "four" else REAR_SHARE * level
    dragged = (level - driven) * traction.motion_resistance_ratio(mobility, 0.0)
    wanted = (weight * arith.sin(angle) + v.pull + dragged) / driven
    slip = _slip(wanted, mobility)
    gross = traction.gross_traction_ratio(mobility, slip)
    return Job(slip, gross * driven * speed / (1.0 - slip), slip <= HIGHEST_SLIP)


MOST_SLIP = 0.30  # where more slip hardly pulls more


@arith.rising
def _slip(wanted: float, mobility: float) -> float:
    """The slip at which the wheels pull what is wanted, `MOST_SLIP` where none does. [-]"""
    low, high = 0.0, MOST_SLIP
    if traction.net_traction_ratio(mobility, high) < wanted:
        return high
    for _ in range(14):
        half = (low + high) / 2.0
        if traction.net_traction_ratio(mobility, half) < wanted:
            low = half
        else:
            high = half
    return high


def most_pull(v: model.Inputs) -> float:
    """The pull at the highest slip accepted, on the level. [N]"""
    mobility, _ = _ground(v.soil)
    weight = (v.tractor_mass + v.load_mass) * GRAVITY
    driven = weight if v.driven == "four" else REAR_SHARE * weight
    dragged = (weight - driven) * traction.motion_resistance_ratio(mobility, 0.0)
    held = traction.pull_limit(driven, traction.net_traction_ratio(mobility, HIGHEST_SLIP))
    return arith.number(arith.max(0.0, held - dragged))


def engine_share(found: Drive, v: model.Inputs, axle: float) -> float:
    """The load on the engine as a share of what it can give at the shaft."""
    asked = transmission.input_power(axle, found.slope, found.drag) + v.shaft_power
    return arith.number(asked / (v.engine_power * _RATIO))


def cycle_time(kind: str, v: model.Inputs) -> float:
    """The time of one loader cycle. [s]"""
    reversal = v.gear_reversal_time if kind == "gear" else v.hydrostatic_reversal_time
    return transmission.loader_cycle_time(
        v.haul, v.back_off, v.loader_speed, v.acceleration, reversal, v.bucket_time
    )


RATES: dict[str, Callable[[float, float], float]] = {
    "later": fuel.diesel_rate,
    "older": fuel.older_diesel_rate,
    "gasoline": fuel.gasoline_rate,
    "propane": fuel.propane_rate,
}
EQUATIONS = {
    "later": ("(0.22 X + 0.096) P", "power/S9"),
    "older": ("(2.64 X + 3.91 − 0.203 √(738 X + 173)) X P", "power/S9"),
    "gasoline": ("(2.74 X + 3.15 − 0.203 √(697 X)) X P", "power/D497-memory"),
    "propane": ("(2.69 X + 3.41 − 0.203 √(646 X)) X P", "power/D497-memory"),
}


def fuel_rate(v: model.Inputs, share: float) -> float:
    """Fuel at a share of full load, held to the range of the equation. [m3/s]"""
    load = arith.min(1.0, arith.max(fuel.LOWEST_LOAD, share))
    full = v.engine_power * _RATIO
    return RATES[v.fuel_equation](full, load)


@dataclass(frozen=True, slots=True)
class Year:
    """One drive over a year of the same work."""

    share: float  # engine load at the job
    rate: float  # fuel at the job, m3/s
    hours: float  # s
    fuel: float  # m3


def year(found: Drive, v: model.Inputs, axle: float, cycles: float, travel: float) -> Year:
    """Return the hours and the fuel of a year.

    `cycles` is the loader work and `travel` the distance of the other work. A drive that lacks
    the power for the speed given does the same work at full load and takes longer.
    """
    share = engine_share(found, v, axle)
    rate = fuel_rate(v, share)
    rolling = traction.motion_resistance_ratio(_ground(v.soil)[0], 0.0)
    loader_axle = (v.tractor_mass + v.load_mass) * GRAVITY * rolling * v.loader_speed
    loader_input = transmission.input_power(loader_axle, found.slope, found.drag)
    loader_rate = fuel_rate(v, loader_input / (v.engine_power * _RATIO))
    loader_time = cycles * cycle_time(found.kind, v)
    other_time = travel / speed_reached(found, v)
    return Year(
        share, rate, loader_time + other_time, loader_rate * loader_time + rate * other_time
    )


def speed_reached(found: Drive, v: model.Inputs) -> float:
    """The speed given, or what the power allows, but no less than a tenth of it. [m/s]"""
    return arith.number(
        arith.max(arith.min(v.ground_speed, fastest(found, v)), 0.1 * v.ground_speed)
    )


def compare(v: model.Inputs) -> dict[str, Any]:
    """Return everything that is compared, by name."""
    asked = job(v, v.ground_speed)
    gear, hydro = drive("gear", v), drive("hydrostatic", v)
    gear_cycle = cycle_time("gear", v)
    cycles = v.hours_per_year * v.loader_share / gear_cycle
    travel = v.hours_per_year * (1.0 - v.loader_share) * speed_reached(gear, v)
    years = [year(found, v, asked.axle_power, cycles, travel) for found in (gear, hydro)]
    time_saved = years[0].hours - years[1].hours
    more_fuel = years[1].fuel - years[0].fuel
    saving = time_saved / 3600.0 * v.time_value - more_fuel * v.fuel_price
    extra = v.price_difference * (1.0 - v.kept_at_sale)
    per_hour = saving / (v.hours_per_year / 3600.0)
    return {
        "job": asked,
        "drives": (gear, hydro),
        "years": years,
        "cycles": (gear_cycle, cycle_time("hydrostatic", v)),
        "time_saved": time_saved,
        "more_fuel": more_fuel,
        "saving": saving,
        "extra": extra,
        "pay_back": ownership.hours_to_pay_back(extra, per_hour) * 3600.0,
        "pay_back_years": ownership.years_to_pay_back(extra, saving, v.interest),
    }


def fastest(found: Drive, v: model.Inputs) -> float:
    """The speed at which a drive uses the whole engine on this job. [m/s]"""
    left = v.engine_power * _RATIO - v.shaft_power
    axle = transmission.axle_power(left, found.slope, found.drag)
    at_one = job(v, 1.0).axle_power
    return axle / at_one if at_one > 0.0 else 0.0


def to_ground(found: Drive, v: model.Inputs) -> tuple[float, float, float]:
    """Input, axle and drawbar power with the whole engine behind it, the shaft's share off."""
    into = arith.max(0.0, v.engine_power * _RATIO - v.shaft_power)
    axle = transmission.axle_power(into, found.slope, found.drag)
    return into, axle, axle * _ground(v.soil)[1]


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the numbers of the comparison; there is no limit to check."""
    found = compare(v)
    gear, hydro = found["drives"]
    gear_year, hydro_year = found["years"]
    gear_cycle, hydro_cycle = found["cycles"]
    pairs: tuple[tuple[str, str, float, float, str], ...] = (
        (
            "ground_power",
            "Full power that reaches the ground",
            to_ground(gear, v)[2],
            to_ground(hydro, v)[2],
            "power",
        ),
        ("shaft_power", "PTO power standing still", gear.shaft, hydro.shaft, "power"),
        (
            "fastest",
            "Speed that the power allows here",
            fastest(gear, v),
            fastest(hydro, v),
            "speed",
        ),
        ("load", "Engine load on this job", gear_year.share, hydro_year.share, "fraction"),
        ("fuel_rate", "Fuel on this job", gear_year.rate, hydro_year.rate, "fuel_rate"),
        ("cycles", "Loader cycles in an hour", 3600.0 / gear_cycle, 3600.0 / hydro_cycle, "count"),
        ("year_fuel", "Fuel in a year", gear_year.fuel, hydro_year.fuel, "volume"),
    )
    outputs = [
        model.Output(f"{kind}_{name}", f"{label}, {kind}", value, quantity)
        for name, label, with_gear, with_pump, quantity in pairs
        for kind, value in (("gear", with_gear), ("hydrostatic", with_pump))
    ]
    outputs += [
        model.Output("slip", "Wheel slip on this job, either drive", found["job"].slip, "fraction"),
        model.Output(
            "time_saved",
            "Hours that the hydrostatic saves in a year",
            found["time_saved"],
            "duration",
        ),
        model.Output(
            "more_fuel", "Fuel that it burns more in a year", found["more_fuel"], "volume"
        ),
        model.Output(
            "saving", "What it saves in a year, fuel against your time", found["saving"], "money"
        ),
    ]
    if found["pay_back"] <= LIFE:
        outputs.append(
            model.Output(
                "pay_back",
                "Hours until the dearer drive has paid for itself",
                found["pay_back"],
                "duration",
            )
        )
    if found["pay_back_years"] * v.hours_per_year <= LIFE:
        outputs.append(
            model.Output(
                "years", "Years until then, interest counted", found["pay_back_years"], "count"
            )
        )
    outputs.append(
        model.Output(
            "most_pull",
            "Most pull that the wheels hold on the level, either drive",
            most_pull(v),
            "force",
        )
    )
    if work.on:
        _show_working(v, found, work)
    return model.Outcome([], outputs)


def _show_working(v: model.Inputs, found: dict[str, Any], work: model.Work) -> None:
    gear, hydro = found["drives"]
    full = v.engine_power * _RATIO
    tests = "power/S33; power/DERIVED" if v.basis == "drawbar tests" else "power/D497-memory"
    work.step(
        "Power that the engine can give at the shaft",
        "P",
        "r P_engine",
        (("r", _RATIO, "fraction"), ("P_engine", v.engine_power, "power")),
        full,
        "power",
        "power/S10",
    )
    for one, symbol in ((gear, "g"), (hydro, "h")):
        efficiency = _efficiency(one.kind, v.basis)
        own = "power/S14" if symbol == "g" else "power/GENERAL-memory"
        work.step(
            f"Slope of the {one.kind} drive's line",
            f"k_{symbol}",
            "η + P_drag / P",
            (("η", efficiency, "fraction"), ("P_drag", one.drag, "power"), ("P", full, "power")),
            one.slope,
            "fraction",
            f"{tests}; {own}",
        )
    asked = found["job"]
    work.step(
        "Wheel slip that pulls this",
        "s",
        "from net traction = pull / driven load",
        (
            ("slope", v.slope, "slope"),
            ("pull", v.pull, "force"),
            ("m", v.tractor_mass + v.load_mass, "mass"),
        ),
        asked.slip,
        "fraction",
        "power/D497-memory",
    )
    work.step(
        "Power at the axle for the job",
        "P_axle",
        "gross traction × load × v / (1 − s)",
        (("v", v.ground_speed, "speed"), ("s", asked.slip, "fraction")),
        asked.axle_power,
        "power",
        "power/D497-memory",
    )
    for one, spent in zip((gear, hydro), found["years"], strict=True):
        work.step(
            f"Engine load, {one.kind}",
            "X",
            "((P_axle + P_drag) / k + P_shaft) / P",
            (
                ("P_axle", asked.axle_power, "power"),
                ("P_drag", one.drag, "power"),
                ("k", one.slope, "fraction"),
                ("P_shaft", v.shaft_power, "power"),
                ("P", full, "power"),
            ),
            spent.share,
            "fraction",
            "power/DERIVED",
        )
        equation, source = EQUATIONS[v.fuel_equation]
        work.step(
            f"Fuel, {one.kind}",
            "Q",
            equation + ", liters an hour from kW",
            (
                ("X", arith.min(1.0, arith.max(fuel.LOWEST_LOAD, spent.share)), "fraction"),
                ("P", full, "power"),
            ),
            spent.rate,
            "fuel_rate",
            source,
        )
    for kind, cycle in zip(DRIVES, found["cycles"], strict=True):
        reversal = v.gear_reversal_time if kind == "gear" else v.hydrostatic_reversal_time
        work.step(
            f"Loader cycle, {kind}",
            "t",
            "four legs of d / v + v / a + 4 reversals + bucket",
            (
                ("haul", v.haul, "distance"),
                ("back off", v.back_off, "distance"),
                ("v", v.loader_speed, "speed"),
                ("a", v.acceleration, "acceleration"),
                ("reversal", reversal, "seconds"),
                ("bucket", v.bucket_time, "seconds"),
            ),
            cycle,
            "seconds",
            "power/DERIVED",
        )
    work.step(
        "Saving in a year",
        "S",
        "time saved × its value − more fuel × its price",
        (
            ("time", found["time_saved"], "duration"),
            ("value", v.time_value, "money_per_hour"),
            ("fuel", found["more_fuel"], "volume"),
            ("price", v.fuel_price, "money_per_volume"),
        ),
        found["saving"],
        "money",
        "power/DERIVED",
    )
    if found["pay_back"] <= LIFE:
        work.step(
            "Hours to pay back",
            "H",
            "difference × (1 − kept at sale) × hours a year / S",
            (
                ("difference", v.price_difference, "money"),
                ("kept", v.kept_at_sale, "fraction"),
                ("hours", v.hours_per_year, "duration"),
                ("S", found["saving"], "money"),
            ),
            found["pay_back"],
            "duration",
            "power/DERIVED",
        )
