"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import usual
from calc.machines.vocabulary import field

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def row(table: str, column: str, key: str) -> tables.Row:
    """Return a row of a table."""
    return tables.by_key(table, column)[key]


def _leak_range(known: model.KnownSoFar) -> model.Typical:
    found = row("cab/cab_kinds", "kind", known.get("cab_kind") or "bolted")
    return model.Typical(
        float(found["leak_low_cm2"]) * 1e-4,
        float(found["leak_high_cm2"]) * 1e-4,
        "value/PRACTICE",
        f"“{found['name'].lower()}”",
    )


def _celsius(low: float, high: float, source: str, of: str) -> model.Typical:
    return model.Typical(low + 273.15, high + 273.15, source, of)


def _cooling_current(known: model.KnownSoFar) -> model.Typical:
    """Blower and condenser fan, and the clutch of a compressor on the engine's belt."""
    parts = list(tables.rows("cab/cab_currents"))
    if known.get("unit_drive") == "electric":
        parts = [part for part in parts if "clutch" not in part["part"]]
    low, high = (sum(float(part[end]) for part in parts) for end in ("low_a", "high_a"))
    return model.Typical(low + 1.0, high, "value/CAB-memory", "12 V cab cooling")


ENGINES = model.Typical(25 * 745.7, 45 * 745.7, "hitch/PRACTICE", "compact tractors with a cab")


def _other_loads(known: model.KnownSoFar) -> model.Typical:
    """What else is on, by the lamps that are lit."""
    found = row("cab/other_loads", "key", known.get("lamps") or "any")
    of = found["name"][0].lower() + found["name"][1:]
    return model.Typical(float(found["low_a"]), float(found["high_a"]), found["source"], of)


CAB_KINDS = tuple(model.Option(row["kind"], row["name"]) for row in tables.rows("cab/cab_kinds"))
GLASS_KINDS = tuple(
    model.Option(row["kind"], row["name"]) for row in tables.rows("cab/glass_kinds")
)
ROOF_COLORS = tuple(
    model.Option(row["color"], row["name"]) for row in tables.rows("cab/roof_colors")
)
GLASS, WEATHER, AIR, ENGINE = "Glass and roof", "Day and place", "Air and people", "Engine"

FIELDS: tuple[model.AnyField, ...] = (
    model.Choice(
        "cab_kind",
        CAB_KINDS,
        example="factory-heater",
        unsure=("factory-heater", "bolted"),
        essential=True,
        group="Cab",
    ),
    field(
        "engine_power",
        example="40 hp",
        essential=True,
        optional=False,
        typical=ENGINES,
        group="Engine",
    ),
    field("power_needed", example="25 hp", essential=True, group="Engine"),
    model.Field(
        "cooling_capacity",
        "power",
        "1,000 Btu/h",
        "60,000 Btu/h",
        example="16,000 Btu/h",
        optional=True,
        essential=True,
        group="Cab",
        unit_us="Btu/h",
        unit_metric="kW",
    ),
    model.Field(
        "outside_temperature",
        "temperature",
        "50 F",
        "130 F",
        example="95 F",
        typical=_celsius(32.0, 38.0, "value/PRACTICE", "summer afternoons"),
        essential=True,
        group=WEATHER,
    ),
    model.Field(
        "outside_humidity",
        "fraction",
        "5 %",
        "100 %",
        example="45 %",
        typical=model.Typical(0.25, 0.60, "value/PRACTICE", "hot afternoons"),
        essential=True,
        group=WEATHER,
    ),
    model.Field(
        "latitude",
        "angle",
        "-60 deg",
        "65 deg",
        example="38 deg",
        typical=model.Typical(28.0, 48.0, "value/PRACTICE", "farmed land in the US"),
        essential=True,
        group=WEATHER,
    ),
    model.Choice(
        "month",
        tuple(model.Option(str(i), name) for i, name in enumerate(MONTHS, 1)),
        example="7",
        essential=True,
        group=WEATHER,
        usual="7",
    ),
    model.Field("solar_hour", "count", "5", "19", optional=True, group=WEATHER),
    model.Choice(
        "sun_rule",
        (
            model.Option("computed", "From latitude, month and hour, clear sky"),
            model.Option("test", "Test climate of ISO 14269, from memory"),
        ),
        example="computed",
        group=WEATHER,
        usual="computed",
    ),
    field(
        "altitude",
        example="500 ft",
        optional=False,
        typical=model.Typical(0.0, usual.FARMED_HIGHEST, "power/PRACTICE", "farmed land"),
        group=WEATHER,
    ),
    # Without a turbocharger thin air takes more: what is left is never called too much.
    field("breathing", example="natural", usual="natural", group=ENGINE),
    model.Field(
        "inside_temperature",
        "temperature",
        "60 F",
        "100 F",
        example="80 F",
        typical=_celsius(24.0, 28.0, "value/C2", "cooled cabs"),
        group=WEATHER,
    ),
    model.Field(
        "inside_humidity",
        "fraction",
        "20 %",
        "90 %",
        example="50 %",
        typical=model.Typical(0.45, 0.55, "value/C2", "cooled cabs"),
        group=WEATHER,
    ),
    model.Field(
        "glass_front",
        "area",
        "0 ft2",
        "40 ft2",
        example="11 ft2",
        typical=model.Typical(0.8, 1.4, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Field(
        "glass_rear",
        "area",
        "0 ft2",
        "40 ft2",
        example="10 ft2",
        typical=model.Typical(0.7, 1.2, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Field(
        "glass_side",
        "area",
        "0 ft2",
        "40 ft2",
        example="13 ft2",
        typical=model.Typical(0.9, 1.5, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Field(
        "glass_roof",
        "area",
        "0 ft2",
        "20 ft2",
        example="0 ft2",
        typical=model.Typical(0.0, 0.4, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Choice(
        "glass_kind", GLASS_KINDS, example="clear", unsure=("clear", "green"), group=GLASS
    ),
    model.Field(
        "roof_area",
        "area",
        "0 ft2",
        "60 ft2",
        example="14 ft2",
        typical=model.Typical(1.1, 1.8, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Choice(
        "roof_color",
        ROOF_COLORS,
        example="colored",
        unsure=("white", "colored", "black"),
        group=GLASS,
    ),
    model.Field(
        "roof_transmittance",
        "transmittance",
        "0.3 W/(m2 K)",
        "8 W/(m2 K)",
        example="3 W/(m2 K)",
        typical=model.Typical(2.0, 6.0, "value/CAB-memory", "cab roofs"),
        group=GLASS,
        unit_us="W/(m2 K)",
    ),
    model.Field(
        "floor_area",
        "area",
        "0 ft2",
        "60 ft2",
        example="17 ft2",
        typical=model.Typical(1.3, 2.0, "value/PRACTICE", "small cabs"),
        group=GLASS,
    ),
    model.Field(
        "floor_temperature",
        "temperature",
        "60 F",
        "250 F",
        example="122 F",
        typical=_celsius(45.0, 60.0, "value/CAB-memory", "cabs over the drive"),
        group=GLASS,
    ),
    model.Field(
        "persons",
        "count",
        "1",
        "3",
        example="1",
        typical=model.Typical(1.0, 1.0, "value/PRACTICE", "tractor cabs"),
        group=AIR,
    ),
    model.Field(
        "activity",
        "count",
        "1",
        "4",
        example="2",
        typical=model.Typical(1.2, 3.2, "value/CAB-memory", "driving"),
        group=AIR,
    ),
    model.Field(
        "fresh_air",
        "air_flow",
        "0 cfm",
        "400 cfm",
        example="30 cfm",
        typical=model.Typical(43.0 / 3600.0, 68.0 / 3600.0, "value/C5", "small cabs"),
        group=AIR,
    ),
    model.Field(
        "fan_power",
        "power",
        "0 W",
        "600 W",
        example="150 W",
        typical=model.Typical(100.0, 200.0, "value/CAB-memory", "cab fans"),
        group=AIR,
        unit_us="W",
        unit_metric="W",
    ),
    model.Field("leak_area", "area_small", "0 in2", "400 in2", typical=_leak_range, group=AIR),
    model.Field(
        "wind",
        "speed",
        "0 mph",
        "40 mph",
        example="7 mph",
        typical=model.Typical(1.5, 5.0, "value/PRACTICE", "field work"),
        group=AIR,
    ),
    model.Field(
        "alternator_current",
        "current",
        "5 A",
        "300 A",
        example="60 A",
        typical=model.Typical(35.0, 75.0, "value/PRACTICE", "compact tractors"),
        group=ENGINE,
    ),
    model.Field(
        "other_current",
        "current",
        "0 A",
        "200 A",
        example="15 A",
        typical=_other_loads,
        group=ENGINE,
    ),
    model.Choice(
        "lamps",
        tuple(model.Option(r["key"], r["name"]) for r in tables.rows("cab/other_loads")),
        example="day",
        group=ENGINE,
        usual="any",
    ),
    model.Field(
        "alternator_speed",
        "rotation",
        "500 rpm",
        "15,000 rpm",
        example="4,500 rpm",
        typical=model.Typical(3600.0, 5000.0, "value/PRACTICE", "working engine speeds"),
        group=ENGINE,
    ),
    model.Choice(
        "unit_drive",
        (
            model.Option("belt", "Compressor on the engine's belt"),
            model.Option("electric", "Electric, from the battery"),
        ),
        example="belt",
        group=ENGINE,
        usual="belt",
    ),
    model.Field(
        "unit_performance",
        "count",
        "1",
        "5",
        example="2.5",
        typical=model.Typical(2.0, 3.0, "value/CAB-memory", "small electric units"),
        group=ENGINE,
    ),
    model.Field(
        "cooling_current",
        "current",
        "1 A",
        "100 A",
        example="28 A",
        typical=_cooling_current,
        group=ENGINE,
    ),
)

_POWER = ("power", "Btu/h", "kW")

OUTPUTS = (
    model.Shown("load", *_POWER),
    model.Shown("sun", "fraction"),
    model.Shown("need", *_POWER),
    model.Shown("size", *_POWER),
    model.Shown("amperes", "current"),
    model.Shown("hot_output", "current"),
    model.Shown("spare", "current"),
    model.Shown("site_power", "power"),
    model.Shown("compressor", "power"),
    model.Shown("compressor_pull_down", "power"),
    model.Shown("alternator", "power"),
    model.Shown("left", "power"),
    model.Shown("left_pull_down", "power"),
    model.Shown("outside_air", "air_flow"),
    model.Shown("hour", "count"),
    model.Shown("sun_height", "angle"),
    model.Shown("all_loads", "current", hidden=True),
    model.Shown("idle_output", "current", hidden=True),
    model.Shown("air_needed", "air_flow", hidden=True),
    model.Shown("glass_sun", "power", "Btu/h", "W", hidden=True),
    model.Shown("roof", "power", "Btu/h", "W", hidden=True),
    model.Shown("panes", "power", "Btu/h", "W", hidden=True),
    model.Shown("floor", "power", "Btu/h", "W", hidden=True),
    model.Shown("people", "power", "Btu/h", "W", hidden=True),
    model.Shown("air", "power", "Btu/h", "W", hidden=True),
)
