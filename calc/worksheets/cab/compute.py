"""The sums: a function for each check, which works out what that check needs and no more."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from calc import arith, model
from calc.mechanics import air_conditioner, cab, pto_power
from calc.subjects import shaft_power
from calc.worksheets.cab.fields import row
from calc.worksheets.cab.heat import Load, heat_load, heat_loads

VOLTAGE = 13.5
PULL_DOWN_MARGIN = 1.3  # least capacity over steady load; value/PRACTICE
FRESH_AIR_LEAST = 43.0 / 3600.0  # each person; value/ISO14269-memory
IDLE = 1300.0  # of the alternator, at an engine's low idle; value/EM-3
# The numbers of what is left at the shaft, and those that no check needs.
SHAFT = ("site_power", "compressor", "compressor_pull_down", "alternator", "left", "left_pull_down")
SHOWN = (
    *("size", "idle_output", "sun", "hour", "sun_height"),
    *("glass_sun", "roof", "panes", "floor", "people", "air"),
)
VERDICT_MARGIN = {"yes": 1.0, "parts list first": 0.0, "rarely": -1.0, "no": -1.0}

__all__ = ["Load", "compute", "heat_load", "heat_loads"]


class Taken(NamedTuple):
    """What the cooling takes from the engine. Powers in W."""

    steady: float
    pull_down: float
    alternator: float


def performance(key: str) -> float:
    """Return a coefficient of performance of the table."""
    return float(row("cab/cooling_performance", "key", key)["performance"])


def cab_row(v: model.Inputs) -> dict[str, str]:
    """Return the row of this kind of cab."""
    return dict(row("cab/cab_kinds", "kind", v.cab_kind))


def told_no(v: model.Inputs) -> bool:
    """Whether this kind of cab is told no: then nothing is offered to buy."""
    return VERDICT_MARGIN[cab_row(v)["verdict"]] < 0.0


def _worst_load(v: model.Inputs) -> float:
    """Heat at the hour when it is most. [W]"""
    return arith.max(load.total for load in heat_loads(v))


def unit_power(v: model.Inputs, load: float) -> float:
    """Return the cooling power of the unit; what to look for, while nobody named one. [W]

    No more than the largest that is sold: what doesn't hold cooled air has no unit that is enough.
    """
    if v.cooling_capacity is not None:
        return arith.number(v.cooling_capacity)
    largest = air_conditioner.unit_sizes()[-1]
    return arith.min(PULL_DOWN_MARGIN * arith.max(0.0, load), largest)


def cooling_current(v: model.Inputs, unit: float) -> float:
    """Return what the unit draws at full cooling: fans and clutch, or the compressor too. [A]"""
    fans = arith.number(v.cooling_current)
    if v.unit_drive == "belt":
        return fans
    return fans + air_conditioner.electric_current(unit, v.unit_performance, VOLTAGE)


def taken(v: model.Inputs, load: float) -> Taken:
    """Return what the cooling takes, holding the cab cool and cooling it down."""
    unit = unit_power(v, load)
    electric = air_conditioner.alternator_power(cooling_current(v, unit), VOLTAGE)
    if v.unit_drive == "electric":
        return Taken(0.0, 0.0, electric)
    held = arith.min(arith.max(0.0, load), unit)  # a unit that is too small runs flat out
    return Taken(
        air_conditioner.compressor_power(held, performance("steady")),
        air_conditioner.compressor_power(unit, performance("pull-down")),
        electric,
    )


def _cab(v: model.Inputs, at: model.At) -> None:
    kind = cab_row(v)
    said = {"yes": "yes", "parts list first": "parts", "rarely": "rarely", "no": kind["kind"]}
    margin = VERDICT_MARGIN[kind["verdict"]]
    at.fits("cab", margin, kind["source"], said[kind["verdict"]], why=kind["why"] + ".")


def _capacity(v: model.Inputs, at: model.At) -> None:
    if v.cooling_capacity is None:
        at.not_checked("capacity", "cooling_capacity", governs=False)
    else:
        at.at_least("capacity", "cooling_capacity", "need", "value/DERIVED; value/PRACTICE")


def _current(v: model.Inputs, at: model.At) -> None:
    unit = 0.0
    if v.unit_drive == "electric":
        unit = unit_power(v, 0.0 if v.cooling_capacity is not None else _worst_load(v))
    at.amperes = cooling_current(v, unit)
    at.hot_output = v.alternator_current * air_conditioner.alternator_share(v.alternator_speed)
    at.spare = arith.max(0.0, at.hot_output - v.other_current)
    at.all_loads = at.amperes + v.other_current
    at.at_most("current", "all_loads", "hot_output", "value/EM-3; value/CAB-memory")


def _fresh_air(v: model.Inputs, at: model.At) -> None:
    flow = cab.leak_flow(v.leak_area, cab.wind_pressure(v.wind))
    at.outside_air = arith.max(v.fresh_air, flow)
    at.air_needed = FRESH_AIR_LEAST * v.persons
    at.at_least("fresh_air", "outside_air", "air_needed", "value/ISO14269-memory; value/C5")


def _shaft(v: model.Inputs, at: model.At) -> None:
    takes, ratio = taken(v, at.load), pto_power.pto_ratio()[1]
    # Thin air takes its share of the engine first; the compressor's share doesn't shrink with it.
    at.site_power = v.engine_power * shaft_power.altitude_share_of(v)
    at.compressor, at.compressor_pull_down = takes.steady, takes.pull_down
    at.alternator = takes.alternator
    at.left = air_conditioner.shaft_power_left(at.site_power, takes.steady, takes.alternator, ratio)
    at.left_pull_down = air_conditioner.shaft_power_left(
        at.site_power, takes.pull_down, takes.alternator, ratio
    )
    if v.power_needed is None:
        at.not_checked("shaft", "power_needed", governs=False)
    else:
        at.at_least("shaft", "left", "power_needed", "value/DERIVED; power/S10; power/S27")


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the numbers and check them, each check for itself."""
    at.group(("cab",), _cab, v, at)
    at.group(("current", "amperes", "hot_output", "spare", "all_loads"), _current, v, at)
    at.group(("fresh_air", "outside_air", "air_needed"), _fresh_air, v, at)
    if not model.wants("capacity", "shaft", "load", "need", *SHAFT, *SHOWN):
        return
    loads = heat_loads(v)
    at.load = arith.max(load.total for load in loads)
    at.need = PULL_DOWN_MARGIN * arith.max(0.0, at.load)  # on a cool day it needs none
    at.group(("capacity",), _capacity, v, at)
    at.group(("shaft", *SHAFT), _shaft, v, at)
    at.group(SHOWN, _shown, v, at, loads)
    if at.showing:
        _heat_steps(v, at, _worst(loads))
        _engine_steps(v, at)


def _worst(loads: Sequence[Load]) -> Load:
    """The hour when it is most."""
    return max(loads, key=lambda load: load.total)


def _shown(v: model.Inputs, at: model.At, loads: Sequence[Load]) -> None:
    """What is only shown: the parts at the worst hour, and the next size that is sold."""
    if not model.shows():
        return
    load = _worst(loads)
    at.size = air_conditioner.next_unit(at.need)
    at.idle_output = v.alternator_current * air_conditioner.alternator_share(IDLE)
    at.sun, at.hour = load.sun_share, load.hour
    at.sun_height = arith.degrees(load.altitude)
    at.glass_sun, at.roof, at.panes = load.glass_sun, load.roof, load.panes
    at.floor, at.people, at.air = load.floor, load.people, load.air


def _heat_steps(v: model.Inputs, at: model.At, load: Load) -> None:
    memory, computed = "value/ISO14269-memory", "value/SPENCER; value/INEICHEN; value/IAM"
    sun_source = memory if v.sun_rule == "test" else computed
    gain = float(row("cab/glass_kinds", "kind", v.glass_kind)["heat_gain"])
    absorbs = float(row("cab/roof_colors", "color", v.roof_color)["absorptance"])
    warm = {"T_o": "outside_temperature", "T_i": "inside_temperature"}
    at.step(
        "glass_sun",
        "Q_sg = SHGC Σ A I",
        f"{sun_source}; value/C9",
        **{"SHGC": (gain, "count"), "sun height": "sun_height", "A each side": "glass_side"},
    )
    at.step(
        "roof",
        "Q_so = U A (T_o + a I / h − T_i)",
        "value/CAB-memory",
        U="roof_transmittance",
        A="roof_area",
        a=(absorbs, "count"),
        I=(load.level_sun, "irradiance"),
        **warm,
    )
    at.step("panes", "Q_c = U A (T_o − T_i)", "value/C9", **warm)
    at.step(
        "floor",
        "Q_f = 3 W/(m² K) × A (T_f − T_i)",
        "value/CAB-memory",
        A="floor_area",
        T_f="floor_temperature",
    )
    at.step(
        "people",
        "Q_p = met × 58.15 W/m² × 1.8 m²",
        "value/C12; value/CAB-memory",
        met="activity",
        people="persons",
    )
    at.step(
        "air",
        "Q_v = m (h_o − h_i)",
        "value/ASHRAE-memory; value/C10",
        V="outside_air",
        RH_o="outside_humidity",
        RH_i="inside_humidity",
    )
    parts = "Q = sum of the parts and the fan"
    at.step("load", parts, "value/DERIVED; value/C6", fan="fan_power")


def _engine_steps(v: model.Inputs, at: model.At) -> None:
    if v.unit_drive == "belt":
        at.step(
            "compressor",
            "P_c = min(max(Q, 0), Q_unit) / (0.95 COP)",
            "value/CAB-memory",
            Q="load",
            Q_unit=(unit_power(v, at.load), "power"),
            COP=(performance("steady"), "count"),
        )
    at.step("amperes", "I = I_fans + P_e / V", "value/DERIVED", I_fans="cooling_current")
    at.step(
        "alternator",
        "P_a = V I / 0.55",
        "value/CAB-memory",
        V=(VOLTAGE, "voltage"),
        I="amperes",
    )
    share = (air_conditioner.alternator_share(v.alternator_speed), "fraction")
    at.step("hot_output", "I_hot = s I_rated", "value/EM-3", s=share, I_rated="alternator_current")
    key = shaft_power.altitude_rule(pto_power.DEFAULT_ALTITUDE_RULE, v.breathing)
    rule = row("power/altitude_rules", "key", key)
    at.step(
        "site_power",
        f"P_site = P f; f = 1 − {rule['label']}",
        rule["source"],
        P="engine_power",
        h="altitude",
    )
    at.step(
        "left",
        "P_left = r (P_site − P_c − P_a)",
        "power/S10",
        r=(pto_power.pto_ratio()[1], "fraction"),
        P_site="site_power",
        P_c="compressor",
        P_a="alternator",
    )
