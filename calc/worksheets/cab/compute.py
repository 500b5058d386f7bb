"""The sums."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calc import arith, model
from calc.mechanics import cab, psychrometrics, pto_power, sun
from calc.worksheets.cab.fields import _row

TEST_RADIATION = 950.0  # value/ISO14269-memory
UPRIGHT = arith.pi / 2.0
SURFACE_COEFFICIENT = 20.0
VOLTAGE = 13.5
PULL_DOWN_MARGIN = 1.3  # least capacity over steady load; value/PRACTICE
FRESH_AIR_LEAST = 43.0 / 3600.0  # each person; value/ISO14269-memory


@dataclass(frozen=True, slots=True)
class Load:
    """The heat that enters, part by part. [W]"""

    glass_sun: float
    roof: float
    panes: float
    floor: float
    people: float
    fan: float
    air: float
    best_turned: float  # sun through the glass with the cab turned the best way
    outside_air: float  # m3/s
    altitude: float  # of the sun, rad
    level_sun: float  # on a level surface, W/m2
    hour: float  # by the sun

    @property
    def total(self) -> float:
        """All of it. [W]"""
        return (
            self.glass_sun + self.roof + self.panes + self.floor + self.people + self.fan + self.air
        )

    @property
    def sun_share(self) -> float:
        """The sun's share of the parts that bring heat in. [-]"""
        parts = (self.glass_sun, self.roof, self.panes, self.floor, self.people, self.fan, self.air)
        entering = sum(arith.max(0.0, part) for part in parts)
        return (self.glass_sun + arith.max(0.0, self.roof)) / entering if entering > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class Sky:
    """The sun at one hour, and what panes that face it or turn from it get."""

    altitude: float  # rad
    azimuth: float  # rad
    level: float  # W/m2, on level ground
    roof: float  # W/m2, on a level pane
    upright: tuple[float, ...]  # W/m2, on upright panes at TURNS bearings from the sun round


TURNS = 16
# The sun of the afternoon mirrors that of the morning, and so does the cab.
HOURS_SEARCHED = (12.0, 13.0, 14.0, 15.0, 16.0, 17.0, 18.0)


@arith.cache
def _sky(latitude: float, month: str, hour: float, pressure: float) -> Sky:
    """Where the sun stands and what a clear sky brings."""
    day = sun.DAY_OF_21ST[int(month) - 1]
    altitude, azimuth = sun.altitude_and_azimuth(arith.radians(latitude), day, hour)
    sky = sun.clear_sky(altitude, pressure=pressure)
    return Sky(
        altitude,
        azimuth,
        sky[1],
        sun.pane_radiation(sky, altitude, 0.0, 0.0, 0.0),
        tuple(
            _mirrored(
                lambda step: sun.pane_radiation(
                    sky, altitude, 0.0, UPRIGHT, 2.0 * arith.pi * step / TURNS
                )
            )
        ),
    )


def _mirrored(of_turn: Callable[[int], float]) -> list[float]:
    """What each of the turns from the sun gives: turned left it is as turned right."""
    half = [of_turn(step) for step in range(TURNS // 2 + 1)]
    return half + half[-2:0:-1]


def _turned(v: model.Inputs, sky: Sky) -> list[float]:
    """Sun on all the upright glass times its area, by the bearing of the nose from the sun. [W]"""
    front, side, rear, quarter = v.glass_front, v.glass_side, v.glass_rear, TURNS // 4
    seen = sky.upright
    return _mirrored(
        lambda step: (
            front * seen[step]
            + side * (seen[(step + quarter) % TURNS] + seen[step - quarter])
            + rear * seen[step - 2 * quarter]
        )
    )


def _skies(v: model.Inputs, hour: float | None, pressure: float) -> list[tuple[float, Sky]]:
    """The hours at which the sun may heat this cab most, with their skies."""
    if v.sun_rule == "test":
        hour = 12.0  # the test climate knows no hour: the sun stands as at noon
    hours = HOURS_SEARCHED if hour is None else (hour,)
    return [(one, _sky(v.latitude, v.month, one, pressure)) for one in hours]


def _sun(v: model.Inputs, sky: Sky) -> tuple[float, float, float]:
    """Sun through the glass with the cab turned the worst and the best way [W before the glass's
    own gain], and on level ground [W/m2]."""
    if v.sun_rule == "test":
        height = arith.max(0.0, sky.altitude)
        widest = arith.max(v.glass_front, v.glass_rear, v.glass_side)
        seen = cab.projected_glass_area(v.glass_roof, widest, height)
        best = TEST_RADIATION * v.glass_roof * arith.sin(height)
        return TEST_RADIATION * seen, best, TEST_RADIATION
    turned, roof_glass = _turned(v, sky), v.glass_roof * sky.roof
    return arith.max(turned) + roof_glass, arith.min(turned) + roof_glass, sky.level


def heat_loads(v: model.Inputs, hour: float | None = None) -> list[Load]:
    """Return the heat load at the hour given, or at each that may be the worst."""
    pressure = psychrometrics.pressure_at_altitude(v.altitude)
    outside, inside = v.outside_temperature - 273.15, v.inside_temperature - 273.15
    gain = float(_row("cab/glass_kinds", "kind", v.glass_kind)["heat_gain"])
    absorbs = float(_row("cab/roof_colors", "color", v.roof_color)["absorptance"])
    glass_u = float(_row("cab/cab_kinds", "kind", v.cab_kind)["glass_u"])
    wind_leak = cab.leak_flow(v.leak_area, cab.wind_pressure(v.wind))
    outside_air = arith.max(v.fresh_air, wind_leak)
    whole, _ = cab.fresh_air_load(
        outside_air, outside, v.outside_humidity, inside, v.inside_humidity, pressure
    )
    all_glass = v.glass_front + v.glass_rear + 2.0 * v.glass_side + v.glass_roof
    panes = cab.conduction(glass_u, all_glass, outside, inside)
    floor = cab.conduction(3.0, v.floor_area, v.floor_temperature - 273.15, inside)
    people = cab.person_heat(v.activity, v.persons)
    loads = []
    for taken_hour, sky in _skies(v, v.solar_hour if hour is None else hour, pressure):
        worst, best, level = _sun(v, sky)
        roof_at = cab.sol_air_temperature(outside, absorbs, level, SURFACE_COEFFICIENT)
        load = Load(
            cab.sun_through_glass(gain, worst, 1.0),
            cab.conduction(v.roof_transmittance, v.roof_area, roof_at, inside),
            panes,
            floor,
            people,
            v.fan_power,
            whole,
            cab.sun_through_glass(gain, best, 1.0),
            outside_air,
            sky.altitude,
            level,
            taken_hour,
        )
        loads.append(load)
    return loads


def heat_load(v: model.Inputs, hour: float | None = None) -> Load:
    """Return the heat load, at the hour given or at the worst."""
    return max(heat_loads(v, hour), key=lambda load: load.total)


def _performance(key: str) -> float:
    return float(_row("cab/cooling_performance", "key", key)["performance"])


@dataclass(frozen=True, slots=True)
class Taken:
    """What the cooling takes from the engine. Powers in W."""

    steady: float
    pull_down: float
    alternator: float
    left: float  # at the shaft, holding
    left_pull_down: float


def taken(v: model.Inputs, load: float) -> Taken:
    """Return what the cooling takes, holding the cab cool and cooling it down."""
    steady = cab.compressor_power(arith.max(0.0, load), _performance("steady"))
    pull_down = cab.compressor_power(v.cooling_capacity, _performance("pull-down"))
    electric = cab.alternator_power(v.cooling_current, VOLTAGE)
    ratio = pto_power.pto_ratio()[1]
    return Taken(
        steady,
        pull_down,
        electric,
        cab.shaft_power_left(v.engine_power, steady, electric, ratio),
        cab.shaft_power_left(v.engine_power, pull_down, electric, ratio),
    )


_VERDICT_MARGIN = {"yes": 1.0, "parts list first": 0.0, "rarely": -1.0, "no": -1.0}


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and the parts of the heat load."""
    kind = _row("cab/cab_kinds", "kind", v.cab_kind)
    loads = heat_loads(v)
    total, outside_air = arith.max(load.total for load in loads), loads[0].outside_air
    need = PULL_DOWN_MARGIN * total
    takes = taken(v, total)
    spare = v.alternator_current - v.other_current
    checks = [
        model.fits(
            "cab",
            "This cab can take cooling",
            _VERDICT_MARGIN[kind["verdict"]],
            f"{kind['name']}: {kind['verdict']}. {kind['why']}.",
            kind["source"],
        ),
        model.at_least(
            "capacity",
            "Cooling power of the unit",
            v.cooling_capacity,
            need,
            "power",
            "value/DERIVED; value/PRACTICE",
            unit_us="Btu/h",
            unit_metric="kW",
            why="It would never catch up after standing in the sun.",
        ),
        model.at_most(
            "current",
            "Current for the cooling",
            v.cooling_current,
            arith.max(spare, 0.01),
            "current",
            "value/CAB-memory",
            why="The battery would run down while you work.",
        ),
        model.at_least(
            "fresh_air",
            "Fresh air",
            outside_air,
            FRESH_AIR_LEAST * v.persons,
            "air_flow",
            "value/ISO14269-memory; value/C5",
            why="A closed cab gets stuffy and its glass fogs.",
        ),
    ]
    if v.power_needed is not None:
        checks.append(
            model.at_least(
                "shaft",
                "PTO power left, holding the cab cool",
                takes.left,
                v.power_needed,
                "power",
                "value/DERIVED; power/S10",
                why="The implement bogs the engine down.",
            )
        )
    load = max(loads, key=lambda one: one.total)  # its hour is shown
    outputs = [
        model.Output(
            "load", "Heat to be removed", total, "power", unit_us="Btu/h", unit_metric="kW"
        ),
        model.Output(
            "sun",
            "Share of the sun, through glass and roof, in the heat that enters",
            load.sun_share,
            "fraction",
        ),
        model.Output(
            "need",
            "Cooling power to look for",
            need,
            "power",
            note="a third more than the load, to cool a hot cab down",
            unit_us="Btu/h",
            unit_metric="kW",
        ),
        model.Output(
            "compressor", "Engine power for the compressor, holding", takes.steady, "power"
        ),
        model.Output(
            "compressor_pull_down", "The same, cooling a hot cab down", takes.pull_down, "power"
        ),
        model.Output("alternator", "Engine power for fans and clutch", takes.alternator, "power"),
        model.Output("left", "PTO power left, holding", takes.left, "power"),
        model.Output(
            "left_pull_down", "PTO power left, cooling down", takes.left_pull_down, "power"
        ),
        model.Output("outside_air", "Outside air that comes in", outside_air, "air_flow"),
        model.Output("hour", "Hour by the sun that was taken", load.hour, "count"),
        model.Output("sun_height", "Sun above the horizon", arith.degrees(load.altitude), "angle"),
    ]
    if work.on:
        _show_working(v, load, takes, work)
    return model.Outcome(checks, outputs)


def _show_working(v: model.Inputs, load: Load, takes: Taken, work: model.Work) -> None:
    sun_source = (
        "value/ISO14269-memory"
        if v.sun_rule == "test"
        else "value/SPENCER; value/INEICHEN; value/IAM"
    )
    gain = float(_row("cab/glass_kinds", "kind", v.glass_kind)["heat_gain"])
    outside, inside = v.outside_temperature, v.inside_temperature
    steps: tuple[tuple[str, str, str, tuple[tuple[str, float, str], ...], float, str], ...] = (
        (
            "Sun through the glass, cab turned the worst way",
            "Q_sg",
            "SHGC Σ A I",
            (
                ("SHGC", gain, "count"),
                ("sun height", arith.degrees(load.altitude), "angle"),
                ("A each side", v.glass_side, "area"),
            ),
            load.glass_sun,
            f"{sun_source}; value/C9",
        ),
        (
            "Roof in the sun",
            "Q_so",
            "U A (T_o + a I / h − T_i)",
            (
                ("U", v.roof_transmittance, "transmittance"),
                ("A", v.roof_area, "area"),
                (
                    "a",
                    float(_row("cab/roof_colors", "color", v.roof_color)["absorptance"]),
                    "count",
                ),
                ("I", load.level_sun, "irradiance"),
                ("T_o", outside, "temperature"),
                ("T_i", inside, "temperature"),
            ),
            load.roof,
            "value/CAB-memory",
        ),
        (
            "Through the glass by warmth",
            "Q_c",
            "U A (T_o − T_i)",
            (("T_o", outside, "temperature"), ("T_i", inside, "temperature")),
            load.panes,
            "value/C9",
        ),
        (
            "Floor and firewall",
            "Q_f",
            "3 W/(m² K) × A (T_f − T_i)",
            (("A", v.floor_area, "area"), ("T_f", v.floor_temperature, "temperature")),
            load.floor,
            "value/CAB-memory",
        ),
        (
            "People",
            "Q_p",
            "met × 58.15 W/m² × 1.8 m²",
            (("met", v.activity, "count"), ("people", v.persons, "count")),
            load.people,
            "value/C12; value/CAB-memory",
        ),
        (
            "Outside air, with its moisture",
            "Q_v",
            "m (h_o − h_i)",
            (
                ("V", load.outside_air, "air_flow"),
                ("RH_o", v.outside_humidity, "fraction"),
                ("RH_i", v.inside_humidity, "fraction"),
            ),
            load.air,
            "value/ASHRAE-memory; value/C10",
        ),
    )
    for label, symbol, formula, numbers, value, source in steps:
        work.step(label, symbol, formula, numbers, value, "power", source, "W", "W")
    work.step(
        "Heat to be removed",
        "Q",
        "sum of the parts and the fan",
        (("fan", v.fan_power, "power"),),
        load.total,
        "power",
        "value/DERIVED; value/C6",
        "W",
        "W",
    )
    work.step(
        "Compressor, holding",
        "P_c",
        "Q / (0.95 COP)",
        (("Q", load.total, "power"), ("COP", _performance("steady"), "count")),
        takes.steady,
        "power",
        "value/CAB-memory",
    )
    work.step(
        "Alternator",
        "P_a",
        "V I / 0.55",
        (("V", VOLTAGE, "voltage"), ("I", v.cooling_current, "current")),
        takes.alternator,
        "power",
        "value/CAB-memory",
    )
    work.step(
        "PTO power left",
        "P",
        "r (P_engine − P_c − P_a)",
        (("r", pto_power.pto_ratio()[1], "fraction"), ("P_engine", v.engine_power, "power")),
        takes.left,
        "power",
        "power/S10",
    )
