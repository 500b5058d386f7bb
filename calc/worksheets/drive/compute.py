"""The sums."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc import arith, model, tables
from calc.mechanics import finance, fuel, ownership, pto_power, traction, transmission
from calc.subjects import shaft_power, slopes

GRAVITY = 9.80665
HIGHEST_SLIP = traction.USUAL_SLIP_MOST
REAR_SHARE = 0.60  # load on the rear axle of a two-wheel drive; hitch/PRACTICE
GEAR_DRAG_SHARE = 0.61  # of the whole loss; power/S14
CARRIED_MOST = 0.5  # of the tractor's mass; what is heavier is towed; power/PRACTICE
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
def _mobility(soil: str) -> float:
    return traction.soil_mobility_number(soil)


def towed_share(v: model.Inputs) -> Any:
    """Return 1 for a load on its own wheels, 0 for one that the tractor carries. [-]

    Where nobody said, what weighs more than half the tractor rides on its own wheels.
    """
    if v.load_rides != "unsaid":
        return 1.0 if v.load_rides == "towed" else 0.0
    return arith.where(arith.below(CARRIED_MOST * v.tractor_mass, v.load_mass), 1.0, 0.0)


def _weights(v: model.Inputs) -> tuple[float, float, float]:
    """Weight on the tractor's wheels, on those that drive, and on the load's own. [N]"""
    towed = v.load_mass * towed_share(v) * GRAVITY
    own = (v.tractor_mass + v.load_mass) * GRAVITY - towed
    return own, own if v.driven == "four" else REAR_SHARE * own, towed


_RATIO = pto_power.pto_ratio()[1]


def drive(kind: str, v: model.Inputs) -> Drive:
    """Return one drive behind the engine of the inputs."""
    full = v.engine_power * _RATIO
    efficiency = _efficiency(kind, v.basis)
    drag = GEAR_DRAG_SHARE * (1.0 - _efficiency("gear", v.basis))  # of the full power
    shaft = full
    if kind == "hydrostatic":
        # A pump sized for a bigger tractor can't lose more than the drive loses in all; the
        # range gears and the final drive behind it drag as those of a gear drive do.
        most = 0.9 * (1.0 - efficiency)
        drag = arith.max(arith.min(v.pump_drag / full, most), drag)
        shaft = arith.max(full - v.pump_drag, (1.0 - most) * full)
    return Drive(kind, transmission.drive_line(efficiency, drag, 1.0), drag * full, shaft)


@dataclass(frozen=True, slots=True)
class Job:
    """What the job asks of the wheels."""

    slip: float
    axle_power: float
    wanted: float  # net pull as a share of the weight on the driven wheels

    @property
    def grips(self) -> bool:
        """Whether the slip is one that suits the user."""
        return self.slip <= HIGHEST_SLIP


def pull_share(v: model.Inputs) -> float:
    """Return the net pull that the job wants, over the weight on the driven wheels. [-]

    What is towed has to be pulled up the slope and rolled, and puts no weight on those wheels.
    """
    if v.load_rides != "unsaid":
        return _pull_share(v, v.load_rides == "towed")
    heavy = arith.below(CARRIED_MOST * v.tractor_mass, v.load_mass)
    return arith.where(heavy, _pull_share(v, True), _pull_share(v, False))


def _pull_share(v: model.Inputs, towed: bool) -> float:
    """((1 + t) tan a + pull / (W cos a) + (1 - d + t) r) / d, in which each input rises or falls.

    t is the towed weight over the tractor's W, d the share of W on the driven wheels, r what a
    wheel takes to roll. It is the pull over the driven wheels' share of W cos a.
    """
    slope = arith.or_zero(v.slope)
    share = 1.0 if v.driven == "four" else REAR_SHARE
    rolls = traction.motion_resistance_ratio(_mobility(v.soil), 0.0)
    behind = v.load_mass / v.tractor_mass if towed else 0.0
    own = (v.tractor_mass if towed else v.tractor_mass + v.load_mass) * GRAVITY
    pulled = arith.or_zero(v.pull) * arith.sqrt(1.0 + slope * slope) / own
    wanted = ((1.0 + behind) * slope + pulled + (1.0 - share + behind) * rolls) / share
    return arith.number(wanted)


def job(v: model.Inputs, speed: float) -> Job:
    """Return slip and axle power of the job, from the load on the driven wheels and the soil."""
    mobility = _mobility(v.soil)
    driven = _weights(v)[1] * arith.cos(arith.atan(arith.or_zero(v.slope)))
    wanted = pull_share(v)
    slip = _slip(wanted, mobility)
    gross = traction.gross_traction_ratio(mobility, slip)
    return Job(slip, gross * driven * speed / (1.0 - slip), wanted)


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
    mobility = _mobility(v.soil)
    own, driven, towed = _weights(v)
    dragged = (own - driven + towed) * traction.motion_resistance_ratio(mobility, 0.0)
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
    rolling = traction.motion_resistance_ratio(_mobility(v.soil), 0.0)
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
    """Return everything that is compared, by name, and when the extra price has come back."""
    found = _compare(v)
    extra, saving = found["extra"], found["saving"]
    per_hour = saving / (v.hours_per_year / 3600.0)
    found["pay_back"] = ownership.hours_to_pay_back(extra, per_hour) * 3600.0
    found["pay_back_years"] = ownership.years_to_pay_back(extra, saving, v.interest)
    return found


def _compare(v: model.Inputs) -> dict[str, Any]:
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
    return {
        "job": asked,
        "drives": (gear, hydro),
        "years": years,
        "cycles": (gear_cycle, cycle_time("hydrostatic", v)),
        "time_saved": time_saved,
        "more_fuel": more_fuel,
        "saving": saving,
        "extra": extra,
    }


def _pay_back(v: model.Inputs, at: model.At, extra: float) -> None:
    """Name the hours and the years until an extra price has come back, within the tractor's life.

    The least yearly saving with which it does decides, in one comparison; a saving held at no
    less than that leaves the number as it is.
    """
    if extra <= 0.0:
        at.pay_back = at.years = 0.0
        return
    years = LIFE / v.hours_per_year
    if at.saving >= extra / years:
        per_hour = arith.max(at.saving, extra / years) / (v.hours_per_year / 3600.0)
        at.pay_back = extra * 3600.0 / per_hour
    least = extra * finance.capital_recovery_factor(v.interest, years)
    if at.saving >= least:
        at.years = ownership.years_to_pay_back(extra, arith.max(at.saving, least), v.interest)


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
    return into, axle, axle * traction.ground_share(v.soil, v.driven)


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the numbers of the comparison, and check that the wheels hold at all."""
    at.full = v.engine_power * _RATIO
    _grip(v, at)
    _towed(v, at)
    _steep(v, at)
    found = _compare(v)
    at.slip = found["job"].slip
    pairs: dict[str, tuple[float, ...]] = {
        "line": tuple(one.slope for one in found["drives"]),
        "ground_power": tuple(to_ground(one, v)[2] for one in found["drives"]),
        "at_shaft": tuple(one.shaft for one in found["drives"]),
        "fastest": tuple(fastest(one, v) for one in found["drives"]),
        "load": tuple(spent.share for spent in found["years"]),
        "fuel_rate": tuple(spent.rate for spent in found["years"]),
        "cycles": tuple(3600.0 / cycle for cycle in found["cycles"]),
        "year_fuel": tuple(spent.fuel for spent in found["years"]),
    }
    for name, (gear, hydro) in pairs.items():
        setattr(at, f"gear_{name}", gear)
        setattr(at, f"hydrostatic_{name}", hydro)
    at.ground_lost = at.gear_ground_power - at.hydrostatic_ground_power
    at.shaft_lost = at.gear_at_shaft - at.hydrostatic_at_shaft
    at.time_saved, at.more_fuel, at.saving = (
        found[name] for name in ("time_saved", "more_fuel", "saving")
    )
    _pay_back(v, at, found["extra"])
    at.most_pull = most_pull(v)
    if at.showing:
        _show_working(v, found, at)


def _grip(v: model.Inputs, at: model.At) -> None:
    """Check the pull of the driven wheels; a load that they don't hold slides back."""
    at.share_wanted = pull_share(v)
    at.share_held = traction.net_traction_ratio(_mobility(v.soil), HIGHEST_SLIP)
    # A comparison of prices stays one while the wheels hold; a load that slides back is told first.
    grade = model.DANGER if at.share_wanted > at.share_held else model.LIMIT
    at.at_most("grip", "share_wanted", "share_held", "power/D497-memory", grade=grade)


def _towed(v: model.Inputs, at: model.At) -> None:
    """Check what pushes the tractor on the way down, where it goes up a slope with it."""
    if (v.slope or 0.0) > 0.0 and towed_share(v) > 0.5:
        shaft_power.check_towed(at, v.tractor_mass, v.load_mass, v.tractor_kind)


def _steep(v: model.Inputs, at: model.At) -> None:
    """Check the slope against what manuals print, where one is named."""
    if v.slope is None:
        # What the wheels hold on the level is no answer to "up my hill?".
        at.not_checked("slope", "slope", if_asked=True)
        return
    behind = towed_share(v) > 0.5
    # A comparison of prices stays one; what is steeper than any manual's most is told first.
    grade = model.DANGER if v.slope > slopes.MOST else model.LIMIT
    slopes.check(at, behind=behind, grade=grade)


def _show_working(v: model.Inputs, found: dict[str, Any], at: model.At) -> None:
    tests = "power/S33; power/DERIVED" if v.basis == "drawbar tests" else "power/D497-memory"
    at.step("full", "P = r P_engine", "power/S10", r=(_RATIO, "fraction"), P_engine="engine_power")
    at.step(
        "slip",
        "s = from net traction, pull / driven load",
        "power/D497-memory",
        slope=(arith.or_zero(v.slope), "slope"),
        pull=(arith.or_zero(v.pull), "force"),
        m="tractor_mass",
        load="load_mass",
    )
    for one, spent in zip(found["drives"], found["years"], strict=True):
        own = "power/S14" if one.kind == "gear" else "power/GENERAL-memory"
        at.step(
            f"{one.kind}_line",
            "k = η + P_drag / P",
            f"{tests}; {own}",
            η=(_efficiency(one.kind, v.basis), "fraction"),
            P_drag=(one.drag, "power"),
            P="full",
        )
        at.step(
            f"{one.kind}_load",
            "X = ((P_axle + P_drag) / k + P_shaft) / P",
            "power/DERIVED",
            P_axle=(found["job"].axle_power, "power"),
            P_drag=(one.drag, "power"),
            k=(one.slope, "fraction"),
            P_shaft="shaft_power",
            P="full",
        )
        equation, source = EQUATIONS[v.fuel_equation]
        held = arith.min(1.0, arith.max(fuel.LOWEST_LOAD, spent.share))
        formula = f"Q = {equation}, liters an hour from kW"
        at.step(f"{one.kind}_fuel_rate", formula, source, X=(held, "fraction"), P="full")
    for kind in DRIVES:
        at.step(
            f"{kind}_cycles",
            "n = 1 h / (four legs of d / v + v / a + 4 reversals + bucket)",
            "power/DERIVED",
            haul="haul",
            back="back_off",
            v="loader_speed",
            a="acceleration",
            reversal=f"{kind}_reversal_time",
            bucket="bucket_time",
        )
    at.step(
        "saving",
        "S = time saved × its value − more fuel × its price",
        "power/DERIVED",
        time="time_saved",
        value="time_value",
        fuel="more_fuel",
        price="fuel_price",
    )
    if "pay_back" in at:
        at.step(
            "pay_back",
            "H = difference × (1 − kept at sale) × hours a year / S",
            "power/DERIVED",
            difference="price_difference",
            kept="kept_at_sale",
            hours="hours_per_year",
            S="saving",
        )
