"""Cab cooling: can this cab take it, how much is needed, and what that takes from the engine."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from calc import tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import cab, psychrometrics, pto_power, sun
from calc.picture import Bar, Bars, Chart, Mark, Picture, Series
from calc.vocabulary import field

TEST_RADIATION = 950.0  # value/ISO14269-memory
UPRIGHT = math.pi / 2.0
SURFACE_COEFFICIENT = 20.0
VOLTAGE = 13.5
PULL_DOWN_MARGIN = 1.3  # least capacity over steady load; value/PRACTICE
FRESH_AIR_LEAST = 43.0 / 3600.0  # each person; value/ISO14269-memory
CAB_PRESSURE = 50.0  # Pa; value/ISO14269-memory
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December")  # fmt: skip


def _row(table: str, column: str, key: str) -> tables.Row:
    return tables.by_key(table, column)[key]


def _leak_range(known: ws.KnownSoFar) -> ws.Typical:
    row = _row("cab_kinds", "kind", known.get("cab_kind") or "bolted")
    return ws.Typical(float(row["leak_low_cm2"]) * 1e-4, float(row["leak_high_cm2"]) * 1e-4,
                      "value/PRACTICE", f"“{row['name'].lower()}”")  # fmt: skip


def _celsius(low: float, high: float, source: str, of: str) -> ws.Typical:
    return ws.Typical(low + 273.15, high + 273.15, source, of)


def _engine_range(known: ws.KnownSoFar) -> ws.Typical:
    return ws.Typical(20 * 745.7, 50 * 745.7, "hitch/PRACTICE", "compact tractors with a cab")


CAB_KINDS = tuple(ws.Option(row["kind"], row["name"]) for row in tables.rows("cab_kinds"))
GLASS_KINDS = tuple(ws.Option(row["kind"], row["name"]) for row in tables.rows("glass_kinds"))
ROOF_COLORS = tuple(ws.Option(row["color"], row["name"]) for row in tables.rows("roof_colors"))
GLASS, WEATHER, AIR, ENGINE = "Glass and roof", "Day and place", "Air and people", "Engine"

FIELDS: tuple[ws.AnyField, ...] = (
    ws.Choice(
        "cab_kind", "Kind of cab", CAB_KINDS,
        "Look for a maker's plate, door seals all round and a sealed floor.",
        default="factory-heater", unsure=("factory-heater", "bolted"), essential=True, group="Cab",
    ),
    field(
        "engine_power", default="40 hp", essential=True, optional=False, typical=_engine_range,
        group="Engine",
    ),
    field(
        "power_needed", label="PTO power that must be left for the implement", default="25 hp",
        essential=True, group="Engine",
        help="What the implement needs at the shaft; blank leaves this check out.",
    ),
    ws.Field(
        "cooling_capacity", "Cooling power of the unit", "power", "1,000 Btu/h", "60,000 Btu/h",
        "On the unit's plate or in its leaflet, in Btu/h or kW. Window units are rated in kinder "
        "weather.",
        default="16,000 Btu/h",
        typical=ws.Typical(2900.0, 5900.0, "value/PRACTICE", "cooling units for small cabs"),
        essential=True, group="Cab", unit_us="Btu/h", unit_metric="kW",
    ),
    ws.Field(
        "outside_temperature", "Outside temperature", "temperature", "50 F", "130 F",
        "The hottest afternoon you mean to work in, in the shade.",
        default="95 F", typical=_celsius(32.0, 38.0, "value/PRACTICE", "summer afternoons"),
        essential=True, group=WEATHER,
    ),
    ws.Field(
        "outside_humidity", "Outside relative humidity", "fraction", "5 %", "100 %",
        "At that hour, not in the morning. Weather services print it beside the temperature.",
        default="45 %", typical=ws.Typical(0.25, 0.60, "value/PRACTICE", "hot afternoons"),
        essential=True, group=WEATHER,
    ),
    ws.Field(
        "latitude", "Latitude", "angle", "-60 deg", "65 deg",
        "From any map; south of the equator is below zero.",
        default="38 deg", typical=ws.Typical(28.0, 48.0, "value/PRACTICE", "farmed land in the US"),
        essential=True, group=WEATHER,
    ),
    ws.Choice(
        "month", "Month", tuple(ws.Option(str(i), name) for i, name in enumerate(MONTHS, 1)),
        "The sun is taken on the 21st.", default="7", essential=True, group=WEATHER,
    ),
    ws.Field(
        "solar_hour", "Hour by the sun", "count", "5", "19",
        "12 is when the sun stands highest; by the clock that is often 13 to 14 in summer. Blank "
        "takes the worst hour of the day.",
        optional=True, group=WEATHER,
    ),
    ws.Choice(
        "sun_rule", "Sun",
        (
            ws.Option("computed", "From latitude, month and hour, clear sky"),
            ws.Option("test", "Test climate of ISO 14269, from memory"),
        ),
        "The test climate takes the same sun everywhere.", default="computed", group=WEATHER,
    ),
    field("altitude", default="500 ft", group=WEATHER),
    ws.Field(
        "inside_temperature", "Temperature wanted inside", "temperature", "60 F", "100 F",
        "A cab is usually held 15 to 20 F under the outside; more is felt as a draft.",
        default="80 F", typical=_celsius(24.0, 28.0, "value/C2", "cooled cabs"), group=WEATHER,
    ),
    ws.Field(
        "inside_humidity", "Humidity inside", "fraction", "20 %", "90 %",
        "A cooler dries the air; half is usual.",
        default="50 %", typical=ws.Typical(0.45, 0.55, "value/C2", "cooled cabs"), group=WEATHER,
    ),
    ws.Field(
        "glass_front", "Glass in front", "area", "0 ft2", "40 ft2",
        "Height times width of the panes, doors not counted.",
        default="11 ft2", typical=ws.Typical(0.8, 1.4, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Field(
        "glass_rear", "Glass behind", "area", "0 ft2", "40 ft2", "Height times width.",
        default="10 ft2", typical=ws.Typical(0.7, 1.2, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Field(
        "glass_side", "Glass on each side", "area", "0 ft2", "40 ft2",
        "The door with its quarter panes, one side.",
        default="13 ft2", typical=ws.Typical(0.9, 1.5, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Field(
        "glass_roof", "Glass in the roof", "area", "0 ft2", "20 ft2", "A loader window counts.",
        default="0 ft2", typical=ws.Typical(0.0, 0.4, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Choice(
        "glass_kind", "Glass", GLASS_KINDS, "Green glass looks green at its edge.",
        default="clear", unsure=("clear", "green"), group=GLASS,
    ),
    ws.Field(
        "roof_area", "Roof", "area", "0 ft2", "60 ft2", "Length times width, glass left out.",
        default="14 ft2", typical=ws.Typical(1.1, 1.8, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Choice(
        "roof_color", "Roof color", ROOF_COLORS, "The outside of the roof.",
        default="colored", unsure=("white", "colored", "black"), group=GLASS,
    ),
    ws.Field(
        "roof_transmittance", "Heat through the roof (U)", "transmittance", "0.3 W/(m2 K)",
        "8 W/(m2 K)", "3 for a lined roof, 6 for bare steel.",
        default="3 W/(m2 K)", typical=ws.Typical(2.0, 6.0, "value/CAB-memory", "cab roofs"),
        group=GLASS, unit_us="W/(m2 K)",
    ),
    ws.Field(
        "floor_area", "Floor and firewall", "area", "0 ft2", "60 ft2",
        "What faces the engine and the transmission.",
        default="17 ft2", typical=ws.Typical(1.3, 2.0, "value/PRACTICE", "small cabs"), group=GLASS,
    ),
    ws.Field(
        "floor_temperature", "Temperature behind floor and firewall", "temperature", "60 F",
        "250 F", "With a kitchen thermometer after an hour's work.",
        default="122 F", typical=_celsius(45.0, 60.0, "value/CAB-memory", "cabs over the drive"),
        group=GLASS,
    ),
    ws.Field(
        "persons", "People", "count", "1", "3", "Usually one.", default="1",
        typical=ws.Typical(1.0, 1.0, "value/PRACTICE", "tractor cabs"), group=AIR,
    ),
    ws.Field(
        "activity", "Heat of a person at the wheel, met", "count", "1", "4",
        "1.2 for easy driving, 3.2 for heavy work.",
        default="2", typical=ws.Typical(1.2, 3.2, "value/CAB-memory", "driving"), group=AIR,
    ),
    ws.Field(
        "fresh_air", "Fresh air that the fan draws in", "air_flow", "0 cfm", "400 cfm",
        "In the cab's manual. Air that is only blown round again doesn't count.",
        default="30 cfm",
        typical=ws.Typical(43.0 / 3600.0, 68.0 / 3600.0, "value/C5", "small cabs"), group=AIR,
    ),
    ws.Field(
        "fan_power", "Fan power", "power", "0 W", "600 W",
        "Its current times 13.5; all of it ends as heat in the cab.",
        default="150 W", typical=ws.Typical(100.0, 200.0, "value/CAB-memory", "cab fans"),
        group=AIR, unit_us="W", unit_metric="W",
    ),
    ws.Field(
        "leak_area", "Gaps that let air through", "area_small", "0 in2", "400 in2",
        "Length times width of every gap you can see light or feel air through: pedals, levers, "
        "door edges. Blank takes what is usual for the cab.",
        typical=_leak_range, group=AIR,
    ),
    ws.Field(
        "wind", "Wind on the cab", "speed", "0 mph", "40 mph",
        "Wind and driving together; a walking tractor in a light wind feels 7 mph.",
        default="7 mph", typical=ws.Typical(1.5, 5.0, "value/PRACTICE", "field work"), group=AIR,
    ),
    ws.Field(
        "alternator_current", "Alternator", "current", "5 A", "300 A",
        "Stamped on the alternator, or in the manual.",
        default="60 A", typical=ws.Typical(35.0, 75.0, "value/PRACTICE", "compact tractors"),
        group=ENGINE,
    ),
    ws.Field(
        "other_current", "Current of everything else", "current", "0 A", "200 A",
        "Lights, ignition and glow control, radio, battery charging: add their fuses' loads.",
        default="20 A", typical=ws.Typical(12.0, 30.0, "value/PRACTICE", "compact tractors"),
        group=ENGINE,
    ),
    ws.Field(
        "cooling_current", "Current of blower, condenser fan and clutch", "current", "1 A",
        "100 A", "In the unit's leaflet.",
        default="28 A",
        typical=ws.Typical(
            sum(float(row["low_a"]) for row in tables.rows("cab_currents")) + 1.0,
            sum(float(row["high_a"]) for row in tables.rows("cab_currents")),
            "value/CAB-memory", "12 V cab cooling",
        ),
        group=ENGINE,
    ),
)  # fmt: skip


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
            self.glass_sun + self.roof + self.panes + self.floor + self.people + self.fan
            + self.air
        )  # fmt: skip

    @property
    def sun_share(self) -> float:
        """The sun's share of the parts that bring heat in. [-]"""
        parts = (
            self.glass_sun, self.roof, self.panes, self.floor, self.people, self.fan, self.air
        )  # fmt: skip
        entering = sum(part for part in parts if part > 0.0)
        return (self.glass_sun + max(0.0, self.roof)) / entering if entering > 0.0 else 0.0


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


@lru_cache(maxsize=512)
def _sky(latitude: float, month: str, hour: float, pressure: float) -> Sky:
    """Where the sun stands and what a clear sky brings."""
    day = sun.DAY_OF_21ST[int(month) - 1]
    altitude, azimuth = sun.altitude_and_azimuth(math.radians(latitude), day, hour)
    sky = sun.clear_sky(altitude, pressure=pressure)
    return Sky(
        altitude,
        azimuth,
        sky[1],
        sun.pane_radiation(sky, altitude, 0.0, 0.0, 0.0),
        tuple(
            sun.pane_radiation(sky, altitude, 0.0, UPRIGHT, 2.0 * math.pi * step / TURNS)
            for step in range(TURNS)
        ),
    )


def _turned(v: ws.Inputs, sky: Sky) -> list[float]:
    """Sun on all the upright glass times its area, by the bearing of the nose from the sun. [W]"""
    front, side, rear, quarter = v.glass_front, v.glass_side, v.glass_rear, TURNS // 4
    seen = sky.upright
    return [
        front * seen[step]
        + side * (seen[(step + quarter) % TURNS] + seen[step - quarter])
        + rear * seen[step - 2 * quarter]
        for step in range(TURNS)
    ]


def _worst_sky(v: ws.Inputs, hour: float | None, pressure: float) -> tuple[float, Sky]:
    """The hour given, or else the hour at which the sun heats this cab most."""
    latitude, pressure = round(v.latitude, 6), round(pressure, 3)
    if hour is not None:
        return hour, _sky(latitude, v.month, round(hour, 6), pressure)
    gain = float(_row("glass_kinds", "kind", v.glass_kind)["heat_gain"])
    absorbs = float(_row("roof_colors", "color", v.roof_color)["absorptance"])
    roof = v.roof_transmittance * v.roof_area * absorbs / SURFACE_COEFFICIENT

    def heat(sky: Sky) -> float:
        through = max(_turned(v, sky)) + v.glass_roof * sky.roof
        return float(gain * through + roof * sky.level)

    skies = [(one, _sky(latitude, v.month, one, pressure)) for one in HOURS_SEARCHED]
    return max(skies, key=lambda pair: heat(pair[1]))


def heat_load(v: ws.Inputs, hour: float | None = None) -> Load:
    """Return the heat load, at the hour given or at that of the inputs."""
    pressure = psychrometrics.pressure_at_altitude(v.altitude)
    outside, inside = v.outside_temperature - 273.15, v.inside_temperature - 273.15
    gain = float(_row("glass_kinds", "kind", v.glass_kind)["heat_gain"])
    absorbs = float(_row("roof_colors", "color", v.roof_color)["absorptance"])
    glass_u = float(_row("cab_kinds", "kind", v.cab_kind)["glass_u"])
    if v.sun_rule == "test":
        # The test climate knows no hour: the sun stands as at noon.
        taken_hour, sky = _worst_sky(v, 12.0, pressure)
        height = max(0.0, sky.altitude)
        widest = max(v.glass_front, v.glass_rear, v.glass_side)
        seen = cab.projected_glass_area(v.glass_roof, widest, height)
        worst, best = TEST_RADIATION * seen, TEST_RADIATION * v.glass_roof * math.sin(height)
        level = TEST_RADIATION
    else:
        taken_hour, sky = _worst_sky(v, v.solar_hour if hour is None else hour, pressure)
        turned, roof_glass = _turned(v, sky), v.glass_roof * sky.roof
        worst, best, level = max(turned) + roof_glass, min(turned) + roof_glass, sky.level
    wind_leak = cab.leak_flow(v.leak_area, cab.wind_pressure(v.wind))
    outside_air = max(v.fresh_air, wind_leak)
    whole, _ = cab.fresh_air_load(
        outside_air, outside, v.outside_humidity, inside, v.inside_humidity, pressure
    )
    roof_at = cab.sol_air_temperature(outside, absorbs, level, SURFACE_COEFFICIENT)
    all_glass = v.glass_front + v.glass_rear + 2.0 * v.glass_side + v.glass_roof
    return Load(
        cab.sun_through_glass(gain, worst, 1.0),
        cab.conduction(v.roof_transmittance, v.roof_area, roof_at, inside),
        cab.conduction(glass_u, all_glass, outside, inside),
        cab.conduction(3.0, v.floor_area, v.floor_temperature - 273.15, inside),
        cab.person_heat(v.activity, v.persons),
        v.fan_power,
        whole,
        cab.sun_through_glass(gain, best, 1.0),
        outside_air,
        sky.altitude,
        level,
        taken_hour,
    )


def _performance(key: str) -> float:
    return float(_row("cooling_performance", "key", key)["performance"])


@dataclass(frozen=True, slots=True)
class Taken:
    """What the cooling takes from the engine. Powers in W."""

    steady: float
    pull_down: float
    alternator: float
    left: float  # at the shaft, holding
    left_pull_down: float


def taken(v: ws.Inputs, load: float) -> Taken:
    """Return what the cooling takes, holding the cab cool and cooling it down."""
    steady = cab.compressor_power(max(0.0, load), _performance("steady"))
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


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and the parts of the heat load."""
    kind = _row("cab_kinds", "kind", v.cab_kind)
    load = heat_load(v)
    need = PULL_DOWN_MARGIN * load.total
    takes = taken(v, load.total)
    spare = v.alternator_current - v.other_current
    checks = [
        ws.fits(
            "cab", "This cab can take cooling", _VERDICT_MARGIN[kind["verdict"]],
            f"{kind['name']}: {kind['verdict']}. {kind['why']}.", kind["source"],
        ),
        ws.at_least(
            "capacity", "Cooling power of the unit", v.cooling_capacity, need, "power",
            "value/DERIVED; value/PRACTICE", unit_us="Btu/h", unit_metric="kW",
            why="It would never catch up after standing in the sun.",
        ),
        ws.at_most(
            "current", "Current for the cooling", v.cooling_current, max(spare, 0.01), "current",
            "value/CAB-memory", why="The battery would run down while you work.",
        ),
        ws.at_least(
            "fresh_air", "Fresh air", load.outside_air, FRESH_AIR_LEAST * v.persons, "air_flow",
            "value/ISO14269-memory; value/C5",
            why="A closed cab gets stuffy and its glass fogs.",
        ),
    ]  # fmt: skip
    if v.power_needed is not None:
        checks.append(
            ws.at_least(
                "shaft",
                "PTO power left, holding the cab cool",
                takes.left,
                v.power_needed,
                "power",
                "value/DERIVED; power/S10",
                why="The implement bogs the engine down.",
            )
        )
    outputs = [
        ws.Output("load", "Heat to be removed", load.total, "power", unit_us="Btu/h",
                  unit_metric="kW"),
        ws.Output("sun", "Share of the sun, through glass and roof, in the heat that enters",
                  load.sun_share, "fraction"),
        ws.Output("need", "Cooling power to look for", need, "power",
                  note="a third more than the load, to cool a hot cab down", unit_us="Btu/h",
                  unit_metric="kW"),
        ws.Output("compressor", "Engine power for the compressor, holding", takes.steady, "power"),
        ws.Output("compressor_pull_down", "The same, cooling a hot cab down", takes.pull_down,
                  "power"),
        ws.Output("alternator", "Engine power for fans and clutch", takes.alternator, "power"),
        ws.Output("left", "PTO power left, holding", takes.left, "power"),
        ws.Output("left_pull_down", "PTO power left, cooling down", takes.left_pull_down, "power"),
        ws.Output("outside_air", "Outside air that comes in", load.outside_air, "air_flow"),
        ws.Output("hour", "Hour by the sun that was taken", load.hour, "count"),
        ws.Output("sun_height", "Sun above the horizon", math.degrees(load.altitude), "angle"),
    ]  # fmt: skip
    if work.on:
        _show_working(v, load, takes, work)
    return ws.Outcome(checks, outputs)


def _show_working(v: ws.Inputs, load: Load, takes: Taken, work: ws.Work) -> None:
    sun_source = (
        "value/ISO14269-memory"
        if v.sun_rule == "test"
        else "value/SPENCER; value/INEICHEN; value/IAM"
    )
    gain = float(_row("glass_kinds", "kind", v.glass_kind)["heat_gain"])
    outside, inside = v.outside_temperature, v.inside_temperature
    steps: tuple[tuple[str, str, str, tuple[tuple[str, float, str], ...], float, str], ...] = (
        ("Sun through the glass, cab turned the worst way", "Q_sg", "SHGC Σ A I",
         (("SHGC", gain, "count"), ("sun height", math.degrees(load.altitude), "angle"),
          ("A each side", v.glass_side, "area")), load.glass_sun, f"{sun_source}; value/C9"),
        ("Roof in the sun", "Q_so", "U A (T_o + a I / h − T_i)",
         (("U", v.roof_transmittance, "transmittance"), ("A", v.roof_area, "area"),
          ("a", float(_row("roof_colors", "color", v.roof_color)["absorptance"]), "count"),
          ("I", load.level_sun, "irradiance"), ("T_o", outside, "temperature"),
          ("T_i", inside, "temperature")), load.roof, "value/CAB-memory"),
        ("Through the glass by warmth", "Q_c", "U A (T_o − T_i)",
         (("T_o", outside, "temperature"), ("T_i", inside, "temperature")), load.panes,
         "value/C9"),
        ("Floor and firewall", "Q_f", "3 W/(m² K) × A (T_f − T_i)",
         (("A", v.floor_area, "area"), ("T_f", v.floor_temperature, "temperature")), load.floor,
         "value/CAB-memory"),
        ("People", "Q_p", "met × 58.15 W/m² × 1.8 m²",
         (("met", v.activity, "count"), ("people", v.persons, "count")), load.people,
         "value/C12; value/CAB-memory"),
        ("Outside air, with its moisture", "Q_v", "m (h_o − h_i)",
         (("V", load.outside_air, "air_flow"), ("RH_o", v.outside_humidity, "fraction"),
          ("RH_i", v.inside_humidity, "fraction")), load.air, "value/ASHRAE-memory; value/C10"),
    )  # fmt: skip
    for label, symbol, formula, numbers, value, source in steps:
        work.step(label, symbol, formula, numbers, value, "power", source, "W", "W")
    work.step("Heat to be removed", "Q", "sum of the parts and the fan",
              (("fan", v.fan_power, "power"),), load.total, "power", "value/DERIVED; value/C6",
              "W", "W")  # fmt: skip
    work.step("Compressor, holding", "P_c", "Q / (0.95 COP)",
              (("Q", load.total, "power"), ("COP", _performance("steady"), "count")),
              takes.steady, "power", "value/CAB-memory")  # fmt: skip
    work.step("Alternator", "P_a", "V I / 0.55",
              (("V", VOLTAGE, "voltage"), ("I", v.cooling_current, "current")),
              takes.alternator, "power", "value/CAB-memory")  # fmt: skip
    work.step("PTO power left", "P", "r (P_engine − P_c − P_a)",
              (("r", pto_power.pto_ratio()[1], "fraction"),
               ("P_engine", v.engine_power, "power")), takes.left, "power",
              "power/S10")  # fmt: skip


# --- advice ---------------------------------------------------------------------------------

CAUTIONS = (
    ws.Caution(
        "Never weld, drill, cut or bend a rollover structure, and hang nothing on it: it was "
        "tested as it left the works. Bent or altered, it has to be replaced. A roof unit or a "
        "condenser on a folding structure also stops it folding.",
        "value/C16d; value/C16a; value/C16b; value/C16c",
    ),
    ws.Caution(
        "Refrigerant is under pressure, freezes skin, and in the United States may only be "
        "handled by certified people with recovery equipment. Filling and opening a circuit is "
        "their work.",
        "value/PRACTICE",
    ),
    ws.Caution(
        "Not every cab is a rollover structure: look for its label. With one, wear the seat belt.",
        "value/C16e",
    ),
    ws.Caution(
        "A cooled cab is no protection against spray or dust: that takes a cab built and tested "
        "for it, or a respirator.",
        "value/C15",
    ),
    ws.Caution(
        "An air thermometer doesn't show the sun on your body, which feels several degrees "
        "warmer. Take breaks and drink.",
        "value/PRACTICE",
    ),
)


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for the unit, the glass and roof, the alternator and the hottest day."""
    remedies: list[ws.Remedy] = []
    if _VERDICT_MARGIN[_row("cab_kinds", "kind", v.cab_kind)["verdict"]] < 0.0:
        remedies.append(
            ws.Remedy(
                "For this cab the trade fits fans, a white roof and shade instead of cooling. The "
                "numbers below say what a cooling unit would face in it.",
                source="value/CAB-practice",
            )
        )
    if outcome.margin(["capacity"]) < 0.0:
        remedies += _cooler(v, solve)
    if outcome.margin(["current"]) < 0.0:
        remedies += _alternator(v)
    if outcome.margin(["fresh_air"]) < 0.0:
        remedies.append(_more_air(v))
    if outcome.margin(["shaft"]) < 0.0:
        left = outcome.output("left")
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "With the cooling on, an implement that needs {power} or less runs.",
                    power=(left, "power"),
                ),
                {"power_needed": f"{math.floor(left / 745.6998716 * 10) / 10:.1f} hp"},
                "value/DERIVED",
            )
        )
    return ws.Advice(remedies, CAUTIONS, tables=(_sunny_panes(v), _parts(v)), notes=_notes(v))


def _cooler(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    need = PULL_DOWN_MARGIN * heat_load(v).total
    found = [
        ws.Remedy(
            ws.phrase("A unit of {power} or more.", power=(need, "power", "Btu/h")),
            {"cooling_capacity": f"{math.ceil(need / 0.29307107 / 100) * 100} Btu/h"},
            "value/DERIVED",
        )
    ]
    for glass in sorted(tables.rows("glass_kinds"), key=lambda row: -float(row["heat_gain"])):
        for color in ("colored", "white"):
            tried = {"glass_kind": glass["kind"], "roof_color": color}
            if tried == {"glass_kind": v.glass_kind, "roof_color": v.roof_color}:
                continue
            if solve.run(**tried).margin(["capacity"]) >= 0.0:
                named = f"{glass['name'].lower()} and a {color} roof"
                found.append(ws.Remedy(f"This unit is enough with {named}.", tried,
                                       glass["source"]))  # fmt: skip
                break
        else:
            continue
        break
    hottest = solve.largest("outside_temperature", 283.15, v.outside_temperature, ["capacity"])
    if hottest is not None:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "As it is, this unit holds the cab up to {t} outside.",
                    t=(hottest, "temperature"),
                ),
                {"outside_temperature": f"{math.floor((hottest - 273.15) * 18 + 320) / 10:.1f} F"},
                "value/DERIVED",
            )
        )
    return found


def _alternator(v: ws.Inputs) -> list[ws.Remedy]:
    needed = v.cooling_current + v.other_current
    return [
        ws.Remedy(
            ws.phrase("An alternator of {a} or more carries it.", a=(needed, "current")),
            {"alternator_current": f"{math.ceil(needed)} A"},
            "value/CAB-memory",
        )
    ]


def _more_air(v: ws.Inputs) -> ws.Remedy:
    needed = FRESH_AIR_LEAST * v.persons
    return ws.Remedy(
        ws.phrase("Let the fan draw in {air} of fresh air.", air=(needed, "air_flow")),
        {"fresh_air": f"{math.ceil(needed * 3600.0)} m3/h"},
        "value/ISO14269-memory",
    )


def _sunny_panes(v: ws.Inputs) -> ws.Table:
    """The sun through each pane with the cab turned the worst way."""
    hour, sky = _worst_sky(v, v.solar_hour, psychrometrics.pressure_at_altitude(v.altitude))
    gain = float(_row("glass_kinds", "kind", v.glass_kind)["heat_gain"])
    turned = _turned(v, sky)
    nose, quarter = turned.index(max(turned)), TURNS // 4
    panes = (
        ("In front", v.glass_front, sky.upright[nose]),
        ("Right side", v.glass_side, sky.upright[(nose + quarter) % TURNS]),
        ("Behind", v.glass_rear, sky.upright[nose - 2 * quarter]),
        ("Left side", v.glass_side, sky.upright[nose - quarter]),
        ("Roof glass", v.glass_roof, sky.roof),
    )
    bearing = math.degrees(sky.azimuth + 2.0 * math.pi * nose / TURNS) % 360.0
    return ws.Table(
        "The sun through each pane",
        ("Pane", "Glass", "Sun on it", "Heat let in"),
        tuple(
            (name, (area, "area"), (falls, "irradiance"), (gain * area * falls, "power", "W"))
            for name, area, falls in panes
        ),
        "value/SPENCER; value/INEICHEN; value/IAM; value/C9",
        ws.phrase(
            "Clear sky at your place and month, {hour} by the sun, the nose of the tractor at "
            "{nose} from north; sky and ground light included.",
            hour=(hour, "count"),
            nose=(bearing, "angle"),
        ),
    )


def _parts(v: ws.Inputs) -> ws.Table:
    rows = tuple((row["name"], row["verdict"], row["why"]) for row in tables.rows("cab_kinds"))
    return ws.Table(
        "Which cabs can take cooling", ("Cab", "Cooling", "Why"), rows, "value/CAB-practice"
    )


def _notes(v: ws.Inputs) -> list[ws.Words]:
    load = heat_load(v)
    other = heat_load(v.but(sun_rule="test" if v.sun_rule == "computed" else "computed"))
    held = cab.leak_area(max(v.fresh_air, 1e-6), CAB_PRESSURE)
    named = "the test climate's sun" if v.sun_rule == "computed" else "the sun of your place"
    notes: list[ws.Words] = [
        ws.phrase(
            f"With {named} the heat to be removed would be {{other}} instead of {{here}}.",
            other=(other.total, "power", "Btu/h"),
            here=(load.total, "power", "Btu/h"),
        ),
        ws.phrase(
            "This fan could hold the pressure that keeps dust out ({p}) only if all the gaps "
            "together were {area} or less.",
            p=(CAB_PRESSURE, "pressure", "Pa"),
            area=(held, "area_small"),
        ),
        ws.phrase(
            "Three to four times the fresh air is usually blown round inside: {low} to {high}. "
            "That costs no cooling.",
            low=(cab.recirculation_range(v.fresh_air)[0], "air_flow"),
            high=(cab.recirculation_range(v.fresh_air)[1], "air_flow"),
        ),
        ws.phrase(
            "You ask for {here} under the outside. One tractor cab study counted {study} under "
            "the outside as meeting ISO 14269-2.",
            here=(v.outside_temperature - v.inside_temperature, "temperature_difference"),
            study=(11.0, "temperature_difference"),
        ),
        ws.phrase(
            "Cars are said to give {low} to {high} to their compressor: a worst case, flat out. A "
            "small cab needs far less once it is cool.",
            low=(5 * 745.6998716, "power"),
            high=(10 * 745.6998716, "power"),
        ),
        "Glass areas and the sun's angle are rough: take the load as good to about a quarter.",
    ]
    takes = taken(v, load.total)
    if v.power_needed is not None and takes.left_pull_down < v.power_needed <= takes.left:
        notes.insert(
            0,
            ws.phrase(
                "While it cools a hot cab down only {left} is left at the shaft: cool down first, "
                "then engage the implement.",
                left=(takes.left_pull_down, "power"),
            ),
        )
    if v.sun_rule == "computed" and load.glass_sun > 1.0:
        notes.insert(
            1,
            ws.phrase(
                "Turned the best way instead of the worst, the sun through the glass falls from "
                "{worst} to {best}.",
                worst=(load.glass_sun, "power", "W"),
                best=(load.best_turned, "power", "W"),
            ),
        )
    return notes


# --- pictures -------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """The heat load by parts, and through the day against the unit."""
    load = heat_load(v)
    parts = (
        ("Sun through the glass", load.glass_sun, "warn"),
        ("Roof in the sun", load.roof, "warn"),
        ("Glass, by warmth", load.panes, "fill"),
        ("Floor and firewall", load.floor, "fill"),
        ("People", load.people, "fill"),
        ("Fan", load.fan, "fill"),
        ("Outside air, moisture included", load.air, "accent"),
    )
    hours = [5.0 + 0.5 * step for step in range(29)]
    loads = [heat_load(v, hour).total for hour in hours]
    enough = v.cooling_capacity / PULL_DOWN_MARGIN
    return [
        Bars(
            "Heat that enters the cab",
            ws.phrase(
                "{us} ({metric}) in all, of which the sun brings {share}",
                us=(load.total, "power", "Btu/h"),
                metric=(load.total, "power", "W"),
                share=(load.sun_share, "fraction"),
            ),
            "power",
            [Bar(label, max(0.0, watts), 0.0, style) for label, watts, style in parts],
            unit_us="Btu/h",
            unit_metric="W",
        ),
        Chart(
            "The load through the day",
            ws.phrase(
                "Heat to be removed hour by hour at the outside temperature given, against the "
                "{us} ({metric}) that this unit holds with a third in reserve",
                us=(enough, "power", "Btu/h"),
                metric=(enough, "power", "W"),
            ),
            "Hour by the sun",
            "count",
            "Heat",
            "power",
            [
                Series("Heat to be removed, cab turned the worst way", hours, loads, "ink thick"),
                Series("What the unit holds, a third in reserve", [5.0, 19.0], [enough, enough],
                       "accent dashed"),
            ],
            [Mark("The hour taken", load.hour, load.total)],
            y_unit_us="Btu/h",
            y_unit_metric="W",
        ),
    ]  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="cab",
    title="Cab cooling",
    question="Can I put air conditioning in this cab?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="fit/cab-cooling",
    example="a 40 hp tractor with a sealed factory cab that has a heater only, on a July "
    "afternoon.",
)
