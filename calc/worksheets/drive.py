"""Hydrostatic or gear: what each brings to the ground, and what it costs over a year."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc import quantities, tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import fuel, ownership, pto_power, traction, transmission
from calc.picture import Arrow, Item, Label, Line, Scene, Shape
from calc.vocabulary import field

GRAVITY = 9.80665
HIGHEST_SLIP = 0.15  # top of the band that suits the user, 8 to 15 %; power/D497-memory
REAR_SHARE = 0.60  # load on the rear axle of a two-wheel drive; hitch/PRACTICE
GEAR_DRAG_SHARE = 0.61  # of the whole loss; power/S14
DRIVES = ("gear", "hydrostatic")
LIFE = 3600.0 * float(tables.by_key("repair_factors", "machine")["tractor"]["life_h"])


def _engine_range(known: ws.KnownSoFar) -> ws.Typical:
    rows = tables.by_key("typical_tractors", "key")
    picked = [rows[key]] if (key := known.get("tractor_kind")) in rows else list(rows.values())
    low = min(float(row["engine_low_hp"]) for row in picked)
    high = max(float(row["engine_high_hp"]) for row in picked)
    of = f"“{picked[0]['label'].lower()}” tractors" if len(picked) == 1 else "tractors of any size"
    return ws.Typical(low * fuel.WATTS_PER_HORSEPOWER, high * fuel.WATTS_PER_HORSEPOWER,
                      picked[0]["source"], of)  # fmt: skip


def _reversal_range(key: str) -> ws.Typical:
    row = tables.by_key("reversal_times", "key")[key]
    return ws.Typical(
        float(row["low_s"]), float(row["high_s"]), row["source"], f"“{row['name'].lower()}”"
    )


def _gear_reversal_range(known: ws.KnownSoFar) -> ws.Typical:
    return _reversal_range(known.get("gear_shift") or "shuttle")


GEAR_SHIFTS = tuple(
    ws.Option(row["key"], row["name"])
    for row in tables.rows("reversal_times")
    if row["drive"] == "gear"
)

SOILS = tuple(ws.Option(row["soil"], row["name"]) for row in tables.rows("soil_mobility"))

BASES = (
    ws.Option("drawbar tests", "Two drawbar tests with the same engine"),
    ws.Option("component figures", "Figures of pumps, motors and gears, from memory"),
)

FUEL_EQUATIONS = (
    ws.Option("later", "Diesel, ASAE D497.7 (2011)"),
    ws.Option("older", "Diesel, ASAE D497.4 and earlier"),
    ws.Option("gasoline", "Gasoline, ASAE D497, from memory"),
    ws.Option("propane", "Propane, ASAE D497, from memory"),
)

FIELDS: tuple[ws.AnyField, ...] = (
    field("tractor_kind", default="compact_heavy"),
    field(
        "engine_power",
        default="25 hp",
        essential=True,
        optional=False,
        typical=_engine_range,
        help="On the hood decal or the first line of the specification; take the same engine "
        "for both drives.",
    ),
    field("tractor_mass", default="2,000 lb"),
    ws.Field(
        "load_mass",
        "Mass of the implement and what it carries",
        "mass",
        "0 lb",
        "10,000 lb",
        "From its manual or a scale. A trailer counts whole.",
        default="500 lb",
        typical=ws.Typical(100.0, 500.0, "hitch/PRACTICE", "implements"),
        essential=True,
        group="Job",
    ),
    field("ground_speed", default="4 mph", essential=True),
    field("slope", default="10 %", essential=True),
    ws.Field(
        "pull",
        "Pull of the implement",
        "force",
        "0 lbf",
        "10,000 lbf",
        "Zero for a mower. For a box blade or a plow, a tractor of this size seldom holds more "
        "than half its own weight.",
        default="0 lbf",
        typical=ws.Typical(0.0, 3000.0, "power/PRACTICE", "blades, plows"),
        group="Job",
    ),
    ws.Field(
        "shaft_power",
        "PTO power that the job takes",
        "power",
        "0 hp",
        "200 hp",
        "Zero for loader and blade work. For a mower see the PTO power page.",
        default="8 hp",
        typical=ws.Typical(0.0, 12e3, "power/PRACTICE", "mowers on small tractors"),
        essential=True,
        group="Job",
    ),
    ws.Choice(
        "soil",
        "Ground",
        SOILS,
        "Sod that carries a car without ruts counts as firm.",
        default="firm",
        unsure=("firm", "tilled", "soft"),
        group="Job",
    ),
    ws.Choice(
        "driven",
        "Wheels that drive",
        (ws.Option("four", "Front and rear"), ws.Option("two", "Rear only")),
        "With the front drive lever in.",
        default="four",
        group="Job",
    ),
    ws.Field(
        "hours_per_year",
        "Hours in a year",
        "duration",
        "1 h",
        "3,000 h",
        "Read the hour meter twice, a year apart.",
        default="100 h",
        typical=ws.Typical(100 * 3600.0, 200 * 3600.0, "value/V6", "homeowners"),
        essential=True,
        group="Year",
    ),
    ws.Field(
        "loader_share",
        "Share of those hours with the loader",
        "fraction",
        "0 %",
        "100 %",
        "Your own guess; a quarter is common on an acreage.",
        default="30 %",
        typical=ws.Typical(0.1, 0.5, "power/PRACTICE", "acreages"),
        essential=True,
        group="Year",
    ),
    ws.Choice(
        "gear_shift",
        "The gear drive changes direction by",
        GEAR_SHIFTS,
        "A synchronized shuttle has a forward and reverse lever that needs the clutch; a power "
        "shuttle doesn't.",
        default="shuttle",
        unsure=("clutch", "shuttle"),
        essential=True,
        group="Loader",
    ),
    ws.Field(
        "gear_reversal_time",
        "Time the gear drive takes to change direction",
        "seconds",
        "0 s",
        "15 s",
        "From the wheels stopping to the wheels turning. Time ten of them in the yard; blank takes "
        "what is usual.",
        typical=_gear_reversal_range,
        group="Loader",
    ),
    ws.Field(
        "hydrostatic_reversal_time",
        "Time the hydrostatic drive takes",
        "seconds",
        "0 s",
        "15 s",
        "The same, from pedal to pedal.",
        typical=_reversal_range("hydrostatic"),
        group="Loader",
    ),
    ws.Field(
        "haul",
        "Drive from pile to dumping place",
        "distance",
        "3 ft",
        "3,000 ft",
        "Pace it out, one way.",
        default="60 ft",
        typical=ws.Typical(10.0, 60.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    ws.Field(
        "back_off",
        "Backing away from the pile, and from the dumping place",
        "distance",
        "3 ft",
        "300 ft",
        "Usually one to two tractor lengths.",
        default="20 ft",
        typical=ws.Typical(4.0, 10.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    ws.Field(
        "loader_speed",
        "Speed with the bucket loaded",
        "speed",
        "0.5 mph",
        "10 mph",
        "A slow run; the same is used for both drives.",
        default="3 mph",
        typical=ws.Typical(0.9, 2.2, "power/PRACTICE", "loader work"),
        group="Loader",
    ),
    ws.Field(
        "acceleration",
        "Speeding up and slowing down",
        "acceleration",
        "0.5 ft/s2",
        "10 ft/s2",
        "Leave it unless you have timed it.",
        default="2.5 ft/s2",
        typical=ws.Typical(0.5, 1.2, "power/PRACTICE", "a loaded tractor"),
        group="Loader",
    ),
    ws.Field(
        "bucket_time",
        "Filling, raising, dumping and lowering",
        "seconds",
        "2 s",
        "120 s",
        "Only the part that isn't done while driving.",
        default="20 s",
        typical=ws.Typical(10.0, 30.0, "power/PRACTICE", "compact loaders"),
        group="Loader",
    ),
    ws.Field(
        "price_difference",
        "The hydrostatic costs more by",
        "money",
        "$0",
        "$50,000",
        "Ask for both prices on the same size and equipment.",
        default="$1,500",
        typical=ws.Typical(700.0, 2500.0, "power/PRACTICE", "compact tractors"),
        essential=True,
        group="Money",
    ),
    ws.Field(
        "kept_at_sale",
        "Share of that which comes back when you sell",
        "fraction",
        "0 %",
        "100 %",
        "Compare asking prices of used ones with either drive.",
        default="50 %",
        typical=ws.Typical(0.3, 0.8, "power/PRACTICE", "used compacts"),
        group="Money",
    ),
    ws.Field(
        "fuel_price",
        "Fuel price",
        "money_per_volume",
        "0 $/gal",
        "30 $/gal",
        "What you pay, with or without road tax.",
        default="4 $/gal",
        typical=ws.Typical(3.0 * 264.172, 5.0 * 264.172, "power/PRACTICE", "diesel"),
        group="Money",
    ),
    ws.Field(
        "time_value",
        "What an hour of your time is worth to you",
        "money_per_hour",
        "0 $/h",
        "500 $/h",
        "Zero if you enjoy it. A hired hand's wage if you would hire one.",
        default="15 $/h",
        typical=ws.Typical(0.0, 30.0, "power/PRACTICE", "owners"),
        group="Money",
    ),
    ws.Field(
        "interest",
        "Yearly interest on the difference",
        "fraction",
        "0 %",
        "40 %",
        "What a loan costs you, or what the money would earn.",
        default="6 %",
        typical=ws.Typical(0.03, 0.09, "power/PRACTICE", "equipment loans"),
        group="Money",
    ),
    ws.Field(
        "pump_drag",
        "Drag of the hydrostatic pump at rest",
        "power",
        "0 hp",
        "6 hp",
        "Not printed anywhere; leave it.",
        default="1.5 hp",
        typical=ws.Typical(
            *pto_power.pump_drag("hydrostatic"), "power/GENERAL-memory", "a hydrostatic compact"
        ),
        group="Losses",
    ),
    ws.Choice(
        "basis",
        "Losses of the drives are taken from",
        BASES,
        "The tests are measured but few, and on larger tractors; the component figures are rules "
        "of thumb.",
        default="drawbar tests",
        group="Losses",
    ),
    ws.Choice(
        "fuel_equation",
        "Fuel by",
        FUEL_EQUATIONS,
        "The older equation reads a sixth to a quarter higher.",
        default="later",
        group="Losses",
    ),
)


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


def drive(kind: str, v: ws.Inputs) -> Drive:
    """Return one drive behind the engine of the inputs."""
    full = v.engine_power * _RATIO
    efficiency = _efficiency(kind, v.basis)
    loss = (1.0 - efficiency) * full
    drag = GEAR_DRAG_SHARE * (1.0 - _efficiency("gear", v.basis)) * full
    pump = 0.0
    if kind == "hydrostatic":
        # A pump sized for a bigger tractor can't lose more than the drive loses in all; the
        # range gears and the final drive behind it drag as those of a gear drive do.
        pump = min(v.pump_drag, 0.9 * loss)
        drag = max(pump, drag)
    return Drive(kind, transmission.drive_line(efficiency, drag, full), drag, full - pump)


@dataclass(frozen=True, slots=True)
class Job:
    """What the job asks of the wheels."""

    slip: float
    axle_power: float
    grips: bool


def job(v: ws.Inputs, speed: float) -> Job:
    """Return slip and axle power of the job, from the load on the driven wheels and the soil."""
    mobility, _ = _ground(v.soil)
    angle = math.atan(v.slope)
    weight = (v.tractor_mass + v.load_mass) * GRAVITY
    level = weight * math.cos(angle)
    driven = level if v.driven == "four" else REAR_SHARE * level
    dragged = (level - driven) * traction.motion_resistance_ratio(mobility, 0.0)
    wanted = (weight * math.sin(angle) + v.pull + dragged) / driven
    slip, grips = _slip(mobility, wanted)
    gross = traction.gross_traction_ratio(mobility, slip)
    return Job(slip, gross * driven * speed / (1.0 - slip), grips)


def _slip(mobility: float, wanted: float) -> tuple[float, bool]:
    """The slip at which the wheels pull what is wanted, and whether it is an acceptable one."""
    low, high = 0.0, 0.30
    if traction.net_traction_ratio(mobility, high) < wanted:
        return high, False
    for _ in range(14):
        half = (low + high) / 2.0
        if traction.net_traction_ratio(mobility, half) < wanted:
            low = half
        else:
            high = half
    return high, high <= HIGHEST_SLIP


def most_pull(v: ws.Inputs) -> float:
    """The pull at the highest slip accepted, on the level. [N]"""
    mobility, _ = _ground(v.soil)
    weight = (v.tractor_mass + v.load_mass) * GRAVITY
    driven = weight if v.driven == "four" else REAR_SHARE * weight
    dragged = (weight - driven) * traction.motion_resistance_ratio(mobility, 0.0)
    held = traction.pull_limit(driven, traction.net_traction_ratio(mobility, HIGHEST_SLIP))
    return float(max(0.0, held - dragged))


def engine_share(found: Drive, v: ws.Inputs, axle: float) -> float:
    """The load on the engine as a share of what it can give at the shaft."""
    asked = transmission.input_power(axle, found.slope, found.drag) + v.shaft_power
    return float(asked / (v.engine_power * _RATIO))


def cycle_time(kind: str, v: ws.Inputs) -> float:
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


def fuel_rate(v: ws.Inputs, share: float) -> float:
    """Fuel at a share of full load, held to the range of the equation. [m3/s]"""
    load = min(1.0, max(fuel.LOWEST_LOAD, share))
    full = v.engine_power * _RATIO
    return RATES[v.fuel_equation](full, load)


@dataclass(frozen=True, slots=True)
class Year:
    """One drive over a year of the same work."""

    share: float  # engine load at the job
    rate: float  # fuel at the job, m3/s
    hours: float  # s
    fuel: float  # m3


def year(found: Drive, v: ws.Inputs, axle: float, cycles: float, travel: float) -> Year:
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


def speed_reached(found: Drive, v: ws.Inputs) -> float:
    """The speed given, or what the power allows, but no less than a tenth of it. [m/s]"""
    return float(max(min(v.ground_speed, fastest(found, v)), 0.1 * v.ground_speed))


def compare(v: ws.Inputs) -> dict[str, Any]:
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


def fastest(found: Drive, v: ws.Inputs) -> float:
    """The speed at which a drive uses the whole engine on this job. [m/s]"""
    left = v.engine_power * _RATIO - v.shaft_power
    axle = transmission.axle_power(left, found.slope, found.drag)
    at_one = job(v, 1.0).axle_power
    return axle / at_one if at_one > 0.0 else 0.0


def to_ground(found: Drive, v: ws.Inputs) -> tuple[float, float, float]:
    """Input, axle and drawbar power with the whole engine behind it, the shaft's share off."""
    into = max(0.0, v.engine_power * _RATIO - v.shaft_power)
    axle = transmission.axle_power(into, found.slope, found.drag)
    return into, axle, axle * _ground(v.soil)[1]


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the numbers of the comparison; there is no limit to check."""
    found = compare(v)
    gear, hydro = found["drives"]
    gear_year, hydro_year = found["years"]
    gear_cycle, hydro_cycle = found["cycles"]
    pairs: tuple[tuple[str, str, float, float, str], ...] = (
        ("ground_power", "Full power that reaches the ground", to_ground(gear, v)[2],
         to_ground(hydro, v)[2], "power"),
        ("shaft_power", "PTO power standing still", gear.shaft, hydro.shaft, "power"),
        ("fastest", "Speed that the power allows here", fastest(gear, v), fastest(hydro, v),
         "speed"),
        ("load", "Engine load on this job", gear_year.share, hydro_year.share, "fraction"),
        ("fuel_rate", "Fuel on this job", gear_year.rate, hydro_year.rate, "fuel_rate"),
        ("cycles", "Loader cycles in an hour", 3600.0 / gear_cycle, 3600.0 / hydro_cycle, "count"),
        ("year_fuel", "Fuel in a year", gear_year.fuel, hydro_year.fuel, "volume"),
    )  # fmt: skip
    outputs = [
        ws.Output(f"{kind}_{name}", f"{label}, {kind}", value, quantity)
        for name, label, with_gear, with_pump, quantity in pairs
        for kind, value in (("gear", with_gear), ("hydrostatic", with_pump))
    ]
    outputs += [
        ws.Output("slip", "Wheel slip on this job, either drive", found["job"].slip, "fraction"),
        ws.Output("time_saved", "Hours that the hydrostatic saves in a year",
                  found["time_saved"], "duration"),
        ws.Output("more_fuel", "Fuel that it burns more in a year", found["more_fuel"], "volume"),
        ws.Output("saving", "What it saves in a year, fuel against your time",
                  found["saving"], "money"),
    ]  # fmt: skip
    if found["pay_back"] <= LIFE:
        outputs.append(
            ws.Output(
                "pay_back",
                "Hours until the dearer drive has paid for itself",
                found["pay_back"],
                "duration",
            )
        )
    if found["pay_back_years"] * v.hours_per_year <= LIFE:
        outputs.append(
            ws.Output(
                "years", "Years until then, interest counted", found["pay_back_years"], "count"
            )
        )
    outputs.append(
        ws.Output("most_pull", "Most pull that the wheels hold on the level, either drive",
                  most_pull(v), "force")
    )  # fmt: skip
    if work.on:
        _show_working(v, found, work)
    return ws.Outcome([], outputs)


def _show_working(v: ws.Inputs, found: dict[str, Any], work: ws.Work) -> None:
    gear, hydro = found["drives"]
    full = v.engine_power * _RATIO
    tests = "power/S33; power/DERIVED" if v.basis == "drawbar tests" else "power/D497-memory"
    work.step("Power that the engine can give at the shaft", "P", "r P_engine",
              (("r", _RATIO, "fraction"), ("P_engine", v.engine_power, "power")), full, "power",
              "power/S10")  # fmt: skip
    for one, symbol in ((gear, "g"), (hydro, "h")):
        efficiency = _efficiency(one.kind, v.basis)
        own = "power/S14" if symbol == "g" else "power/GENERAL-memory"
        work.step(f"Slope of the {one.kind} drive's line", f"k_{symbol}", "η + P_drag / P",
                  (("η", efficiency, "fraction"), ("P_drag", one.drag, "power"),
                   ("P", full, "power")), one.slope, "fraction",
                  f"{tests}; {own}")  # fmt: skip
    asked = found["job"]
    work.step("Wheel slip that pulls this", "s", "from net traction = pull / driven load",
              (("slope", v.slope, "slope"), ("pull", v.pull, "force"),
               ("m", v.tractor_mass + v.load_mass, "mass")), asked.slip, "fraction",
              "power/D497-memory")  # fmt: skip
    work.step("Power at the axle for the job", "P_axle", "gross traction × load × v / (1 − s)",
              (("v", v.ground_speed, "speed"), ("s", asked.slip, "fraction")), asked.axle_power,
              "power", "power/D497-memory")  # fmt: skip
    for one, spent in zip((gear, hydro), found["years"], strict=True):
        work.step(f"Engine load, {one.kind}", "X", "((P_axle + P_drag) / k + P_shaft) / P",
                  (("P_axle", asked.axle_power, "power"), ("P_drag", one.drag, "power"),
                   ("k", one.slope, "fraction"), ("P_shaft", v.shaft_power, "power"),
                   ("P", full, "power")), spent.share, "fraction", "power/DERIVED")  # fmt: skip
        equation, source = EQUATIONS[v.fuel_equation]
        work.step(f"Fuel, {one.kind}", "Q", equation + ", liters an hour from kW",
                  (("X", min(1.0, max(fuel.LOWEST_LOAD, spent.share)), "fraction"),
                   ("P", full, "power")), spent.rate, "fuel_rate", source)  # fmt: skip
    for kind, cycle in zip(DRIVES, found["cycles"], strict=True):
        reversal = v.gear_reversal_time if kind == "gear" else v.hydrostatic_reversal_time
        work.step(f"Loader cycle, {kind}", "t", "four legs of d / v + v / a + 4 reversals + bucket",
                  (("haul", v.haul, "distance"), ("back off", v.back_off, "distance"),
                   ("v", v.loader_speed, "speed"), ("a", v.acceleration, "acceleration"),
                   ("reversal", reversal, "seconds"), ("bucket", v.bucket_time, "seconds")),
                  cycle, "seconds", "power/DERIVED")  # fmt: skip
    work.step("Saving in a year", "S", "time saved × its value − more fuel × its price",
              (("time", found["time_saved"], "duration"),
               ("value", v.time_value, "money_per_hour"),
               ("fuel", found["more_fuel"], "volume"),
               ("price", v.fuel_price, "money_per_volume")), found["saving"], "money",
              "power/DERIVED")  # fmt: skip
    if found["pay_back"] <= LIFE:
        work.step("Hours to pay back", "H", "difference × (1 − kept at sale) × hours a year / S",
                  (("difference", v.price_difference, "money"),
                   ("kept", v.kept_at_sale, "fraction"),
                   ("hours", v.hours_per_year, "duration"), ("S", found["saving"], "money")),
                  found["pay_back"], "duration", "power/DERIVED")  # fmt: skip


# --- advice ---------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Say the result in a sentence, and what would make either drive do the job."""
    found = compare(v)
    return ws.Advice(
        _remedies(v, found),
        CAUTIONS,
        tables=(_side_by_side(v, found), _other_basis(v)),
        notes=_notes(v, found),
        headline=_headline(v, found),
    )


CAUTIONS = (
    ws.Caution(
        "A hydrostatic drive rolls on when the oil is lost and may creep when hot; a gear drive "
        "rolls when the clutch is down. Set the parking brake before you leave the seat, and come "
        "down a hill in the range or gear you would climb it in.",
        "power/PRACTICE",
    ),
    ws.Caution(
        "Nothing here says that a slope is safe to drive. The operator's manual comes first.",
        "power/PRACTICE",
    ),
)


def _able(v: ws.Inputs, found: dict[str, Any]) -> list[str]:
    return [
        one.kind
        for one, spent in zip(found["drives"], found["years"], strict=True)
        if spent.share <= 1.0
    ]


def _headline(v: ws.Inputs, found: dict[str, Any]) -> ws.Words:
    if v.shaft_power >= v.engine_power * _RATIO:
        return ws.phrase(
            "The shaft alone asks for more than the {power} that this engine gives there, "
            "whichever drive turns the wheels.",
            power=(v.engine_power * _RATIO, "power"),
        )
    able = _able(v, found)
    if not found["job"].grips:
        first = "The wheels slip too much for this job, whichever drive turns them."
    elif len(able) == 2:
        first = "Either drive has the power for this job."
    elif able:
        first = "At this speed only the gear drive has the power for this job."
    else:
        first = "At this speed neither drive has the power for this job."
    saved, more = found["time_saved"], found["more_fuel"]
    numbers: dict[str, Any] = {
        "hours": (abs(saved), "duration"),
        "fuel": (abs(more), "volume"),
        "cost": (abs(more) * v.fuel_price, "money"),
    }
    if abs(saved) < 60.0:
        time = "takes the same time"
    else:
        time = "saves about {hours}" if saved > 0 else "takes about {hours} longer"
    burn = "burns about {fuel} more fuel" if more >= 0 else "burns about {fuel} less fuel"
    second = f"Over a year of the same work the hydrostatic {time} and {burn} ({{cost}})."
    if found["extra"] <= 0.0:
        third = "There is no price difference to earn back."
    elif found["pay_back"] <= LIFE:
        numbers["back"] = (found["pay_back"], "duration")
        third = "At that rate it has paid back its price after about {back}."
    elif found["saving"] > 0.0:
        numbers["life"] = (LIFE, "duration")
        third = "At that rate it doesn't pay back within a tractor's life of {life}."
    else:
        third = "In money it never pays back its price."
    fourth = "Which one you like to drive is yours to say."
    return ws.phrase(f"{first} {second} {third} {fourth}", **numbers)


def _remedies(v: ws.Inputs, found: dict[str, Any]) -> list[ws.Remedy]:
    remedies = []
    for one, spent in zip(found["drives"], found["years"], strict=True):
        speed = fastest(one, v)
        if spent.share > 1.0 and speed > 0.2:
            slower = math.floor(speed / 0.44704 * 20.0) / 20.0
            if slower * 0.44704 < 0.22:
                continue
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        f"With the {one.kind} drive this job goes at {{speed}} and no faster.",
                        speed=(speed, "speed"),
                    ),
                    {"ground_speed": f"{slower:.2f} mph"},
                    "power/DERIVED",
                )
            )
    if not found["job"].grips:
        remedies += _grip(v)
    if 0.0 < found["pay_back"] <= LIFE:
        years = found["pay_back"] / v.hours_per_year
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "To break even in ten years of your hours, the difference in price may be "
                    "{price} at most.",
                    price=(v.price_difference * 10.0 / years, "money"),
                ),
                {
                    "price_difference": quantities.show(
                        min(50000.0, v.price_difference * 10.0 / years), "money"
                    )
                },
                "power/DERIVED",
            )
        )
    return remedies


def _grip(v: ws.Inputs) -> list[ws.Remedy]:
    """The tractor mass at which the wheels hold the pull at an acceptable slip."""
    low, high = v.tractor_mass, 6.0 * v.tractor_mass

    def grips(mass: float) -> bool:
        return job(v.but(tractor_mass=mass), v.ground_speed).grips

    if grips(low) or not grips(high):
        return []
    for _ in range(24):
        half = (low + high) / 2.0
        low, high = (low, half) if grips(half) else (half, high)
    return [
        ws.Remedy(
            ws.phrase(
                "For this pull the tractor would have to weigh {mass}: weight on the driven "
                "wheels, not the drive, is what limits it.",
                mass=(high, "mass"),
            ),
            {"tractor_mass": f"{math.ceil(high / 0.45359237)} lb"},
            "power/D497-memory",
        )
    ]


def _side_by_side(v: ws.Inputs, found: dict[str, Any]) -> ws.Table:
    (gear, hydro), (g, h) = found["drives"], found["years"]
    gear_path, hydro_path = to_ground(gear, v), to_ground(hydro, v)
    rows: tuple[tuple[ws.Cell, ...], ...] = (
        ("Full engine power into the drive", (gear_path[0], "power"), (hydro_path[0], "power")),
        ("At the axle", (gear_path[1], "power"), (hydro_path[1], "power")),
        ("Loader cycle", (found["cycles"][0], "seconds"), (found["cycles"][1], "seconds")),
        ("Hours in a year", (g.hours, "duration"), (h.hours, "duration")),
        ("Fuel cost in a year", (g.fuel * v.fuel_price, "money"),
         (h.fuel * v.fuel_price, "money")),
    )  # fmt: skip
    return ws.Table("Side by side", ("", "Gear", "Hydrostatic"), rows, "power/DERIVED")


def _other_basis(v: ws.Inputs) -> ws.Table:
    rows = []
    for option in BASES:
        other = v.but(basis=option.value)
        found = compare(other)
        rows.append(
            (
                option.label,
                (_efficiency("gear", option.value), "fraction"),
                (_efficiency("hydrostatic", option.value), "fraction"),
                (found["more_fuel"], "volume"),
            )
        )
    return ws.Table(
        "What the other figures for the losses give",
        ("Losses from", "Gear to axle", "Hydrostatic to axle", "More fuel in a year"),
        tuple(rows),
        "power/S33; power/D497-memory; power/GENERAL-memory",
    )


def _notes(v: ws.Inputs, found: dict[str, Any]) -> Sequence[ws.Words]:
    full = v.engine_power * _RATIO
    notes: list[ws.Words] = [
        "The loss of a hydrostatic drive lands on the wheels. The PTO is geared from the engine "
        "either way, so standing still the shaft loses only the pump's drag.",
        "No measured comparison of loader cycles was found: the cycle is worked out from "
        "distances, speed and the time you give for changing direction.",
    ]
    if v.fuel_equation in ("later", "older"):
        notes.append(
            ws.phrase(
                "As a check on the fuel: an Extension rule for a year of mixed work gives {rate} "
                "for this engine (source S42).",
                rate=(fuel.average_diesel_rate(full), "fuel_rate"),
            )
        )
    if v.time_value > 0.0:
        notes.append(
            ws.phrase(
                "If you pay somebody, count {cost} for an hour on the meter: a tenth more goes to "
                "fueling and walking (source S47).",
                cost=(ownership.labor_cost_per_hour(v.time_value), "money_per_hour"),
            )
        )
    if v.loader_share > 0.0:
        notes.append(
            "Loader work is counted at the power of driving loaded, and at no less than a fifth "
            "of the engine, below which the fuel equation doesn't hold."
        )
    if min(spent.share for spent in found["years"]) < fuel.LOWEST_LOAD:
        notes.append(
            "On this job the engine runs below a fifth of its power, where the fuel equation no "
            "longer holds: its value at a fifth is used, which reads high."
        )
    if max(spent.share for spent in found["years"]) > 1.0:
        notes.append(
            "A drive that lacks the power for the speed given is counted at full load and at the "
            "speed that its power allows, so the same work takes it longer."
        )
    return notes


# --- picture --------------------------------------------------------------------------------

WIDEST = 1.15  # of a band at full power, in hundredths of the drawing
ACROSS = 2.72  # from one chain to the next
HEIGHTS = (4.0, 3.05, 1.75, 0.45)


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Scene:
    """Two chains side by side, the width of each band in proportion to the power."""
    gear, hydro = drive("gear", v), drive("hydrostatic", v)
    items = [*_chain(v, gear, 0.0, "Gears"), *_chain(v, hydro, ACROSS, "Pump, motor")]
    ends = [to_ground(one, v)[2] for one in (gear, hydro)]
    return Scene(
        "Power from the engine to the ground",
        ws.phrase(
            "With the whole engine in use and {shaft} taken by the PTO shaft, the gear drive "
            "brings {gear} to the drawbar and the hydrostatic drive {hydro}; the width of a band "
            "is its power",
            shaft=(v.shaft_power, "power"),
            gear=(ends[0], "power"),
            hydro=(ends[1], "power"),
        ),
        items,
    )


def _chain(v: ws.Inputs, one: Drive, left: float, name: str) -> list[Item]:
    """One chain: a band that narrows from stage to stage, what leaves it going off sideways."""
    full = v.engine_power * _RATIO
    powers = (full, *to_ground(one, v))
    widths = [WIDEST * power / full for power in powers]
    beside = left + WIDEST + 0.2
    items: list[Item] = [
        Label((left, 4.62), f"{one.kind.capitalize()} drive", "start", "ink thick"),
        Label((left, 4.22), ws.phrase("Engine, at PTO: {p}", p=(full, "power")), "start"),
    ]
    losses = ("PTO shaft", name, "Slip, rolling")
    for index, loss in enumerate(losses):
        y1, y2 = HEIGHTS[index], HEIGHTS[index + 1]
        items.append(
            Shape(
                [(left, y1), (left + widths[index], y1), (left + widths[index + 1], y2),
                 (left, y2)],
                "soft" if index == 1 else "fill",
            )
        )  # fmt: skip
        middle = (y1 + y2) / 2.0
        gone = powers[index] - powers[index + 1]
        if gone > 0.004 * full:
            edge = left + (widths[index] + widths[index + 1]) / 2.0
            items.append(Arrow((edge + 0.03, middle), (beside - 0.05, middle), "", "accent"))
        items.append(Label((beside, middle), loss, "start", dy=-0.55))
        took = "takes {p}" if index == 0 else "{p} lost"
        items.append(Label((beside, middle), ws.phrase(took, p=(gone, "power")), "start", dy=0.55))
    items += [
        Line([(left, HEIGHTS[2]), (left + WIDEST + 1.2, HEIGHTS[2])], "soft dashed"),
        Label((beside, HEIGHTS[2]), ws.phrase("Axle: {p}", p=(powers[2], "power")), "start",
              dy=-0.6),
        Line([(left, HEIGHTS[3]), (left + WIDEST + 1.2, HEIGHTS[3])], "ground"),
        Label((left, 0.12), ws.phrase("Drawbar: {p}", p=(powers[3], "power")), "start",
              "ink thick"),
    ]  # fmt: skip
    return items


WORKSHEET = ws.Worksheet(
    name="drive",
    title="Hydrostatic or gear",
    question="Should I buy the hydrostatic or the gear drive?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="buy/hydrostatic-or-gear",
    example="a compact tractor of 25 hp that mows a slope and runs a loader a third of its hours.",
)
