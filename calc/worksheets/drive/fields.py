"""What is asked."""

from __future__ import annotations

from calc import model, si, tables
from calc.machines.vocabulary import field
from calc.mechanics import pto_power


def _engine_range(known: model.KnownSoFar) -> model.Typical:
    rows = tables.by_key("machines/typical_tractors", "key")
    picked = [rows[key]] if (key := known.get("tractor_kind")) in rows else list(rows.values())
    low = min(float(row["engine_low_hp"]) for row in picked)
    high = max(float(row["engine_high_hp"]) for row in picked)
    of = f"“{picked[0]['label'].lower()}” tractors" if len(picked) == 1 else "tractors of any size"
    return model.Typical(low * si.HP, high * si.HP, picked[0]["source"], of)


def _reversal_range(key: str) -> model.Typical:
    row = tables.by_key("power/reversal_times", "key")[key]
    return model.Typical(
        float(row["low_s"]), float(row["high_s"]), row["source"], f"“{row['name'].lower()}”"
    )


def _gear_reversal_range(known: model.KnownSoFar) -> model.Typical:
    return _reversal_range(known.get("gear_shift") or "shuttle")


GEAR_SHIFTS = tuple(
    model.Option(row["key"], row["name"])
    for row in tables.rows("power/reversal_times")
    if row["drive"] == "gear"
)

SOILS = tuple(model.Option(row["soil"], row["name"]) for row in tables.rows("power/soil_mobility"))

BASES = (
    model.Option("drawbar tests", "Two drawbar tests with the same engine"),
    model.Option("component figures", "Figures of pumps, motors and gears, from memory"),
)

FUEL_EQUATIONS = (
    model.Option("later", "Diesel, ASAE D497.7 (2011)"),
    model.Option("older", "Diesel, ASAE D497.4 and earlier"),
    model.Option("gasoline", "Gasoline, ASAE D497, from memory"),
    model.Option("propane", "Propane, ASAE D497, from memory"),
)

FIELDS: tuple[model.AnyField, ...] = (
    field("tractor_kind", example="compact_heavy"),
    field("engine_power", example="25 hp", essential=True, optional=False, typical=_engine_range),
    field("tractor_mass", example="2,000 lb"),
    model.Field(
        "load_mass",
        "mass",
        "0 lb",
        "10,000 lb",
        example="500 lb",
        typical=model.Typical(100.0, 500.0, "hitch/PRACTICE", "implements"),
        essential=True,
        group="Job",
    ),
    model.Choice(
        "load_rides",
        (
            model.Option("unsaid", "Not said: towed if heavier than half the tractor"),
            model.Option("carried", "On the tractor"),
            model.Option("towed", "On its own wheels, behind it"),
        ),
        example="carried",
        usual="unsaid",
        group="Job",
    ),
    field("ground_speed", example="4 mph", essential=True),
    field("slope", example="10 %", essential=True, typical=None, optional=True),
    model.Field(
        "pull",
        "force",
        "0 lbf",
        "10,000 lbf",
        example="0 lbf",
        optional=True,
        group="Job",
    ),
    model.Field(
        "shaft_power",
        "power",
        "0 hp",
        "200 hp",
        example="8 hp",
        typical=model.Typical(0.0, 12e3, "power/PRACTICE", "mowers on small tractors"),
        essential=True,
        group="Job",
    ),
    model.Choice("soil", SOILS, example="firm", unsure=("firm", "tilled", "soft"), group="Job"),
    field("driven", group="Job"),
    model.Field(
        "hours_per_year",
        "duration",
        "1 h",
        "3,000 h",
        example="100 h",
        typical=model.Typical(100 * 3600.0, 200 * 3600.0, "value/V6", "homeowners"),
        essential=True,
        group="Year",
    ),
    model.Field(
        "loader_share",
        "fraction",
        "0 %",
        "100 %",
        example="30 %",
        typical=model.Typical(0.1, 0.5, "power/PRACTICE", "acreages"),
        essential=True,
        group="Year",
    ),
    model.Choice(
        "gear_shift",
        GEAR_SHIFTS,
        example="shuttle",
        unsure=("clutch", "shuttle"),
        essential=True,
        group="Loader",
    ),
    model.Field(
        "gear_reversal_time", "seconds", "0 s", "15 s", typical=_gear_reversal_range, group="Loader"
    ),
    model.Field(
        "hydrostatic_reversal_time",
        "seconds",
        "0 s",
        "15 s",
        typical=_reversal_range("hydrostatic"),
        group="Loader",
    ),
    model.Field(
        "haul",
        "distance",
        "3 ft",
        "3,000 ft",
        example="60 ft",
        typical=model.Typical(10.0, 60.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    model.Field(
        "back_off",
        "distance",
        "3 ft",
        "300 ft",
        example="20 ft",
        typical=model.Typical(4.0, 10.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    model.Field(
        "loader_speed",
        "speed",
        "0.5 mph",
        "10 mph",
        example="3 mph",
        typical=model.Typical(0.9, 2.2, "power/PRACTICE", "loader work"),
        group="Loader",
    ),
    model.Field(
        "acceleration",
        "acceleration",
        "0.5 ft/s2",
        "10 ft/s2",
        example="2.5 ft/s2",
        typical=model.Typical(0.5, 1.2, "power/PRACTICE", "a loaded tractor"),
        group="Loader",
    ),
    model.Field(
        "bucket_time",
        "seconds",
        "2 s",
        "120 s",
        example="20 s",
        typical=model.Typical(10.0, 30.0, "power/PRACTICE", "compact loaders"),
        group="Loader",
    ),
    model.Field(
        "price_difference",
        "money",
        "$0",
        "$50,000",
        example="$1,500",
        typical=model.Typical(700.0, 2500.0, "power/PRACTICE", "compact tractors"),
        essential=True,
        group="Money",
    ),
    model.Field(
        "kept_at_sale",
        "fraction",
        "0 %",
        "100 %",
        example="50 %",
        typical=model.Typical(0.3, 0.8, "power/PRACTICE", "used compacts"),
        group="Money",
    ),
    model.Field(
        "fuel_price",
        "money_per_volume",
        "0 $/gal",
        "30 $/gal",
        example="4 $/gal",
        typical=model.Typical(3.0 * 264.172, 5.0 * 264.172, "power/PRACTICE", "diesel"),
        group="Money",
    ),
    model.Field(
        "time_value",
        "money_per_hour",
        "0 $/h",
        "500 $/h",
        example="15 $/h",
        typical=model.Typical(0.0, 30.0, "power/PRACTICE", "owners"),
        group="Money",
    ),
    model.Field(
        "interest",
        "fraction",
        "0 %",
        "40 %",
        example="6 %",
        typical=model.Typical(0.03, 0.09, "power/PRACTICE", "equipment loans"),
        group="Money",
    ),
    model.Field(
        "pump_drag",
        "power",
        "0 hp",
        "6 hp",
        example="1.5 hp",
        typical=model.Typical(
            *pto_power.pump_drag("hydrostatic"), "power/GENERAL-memory", "a hydrostatic compact"
        ),
        group="Losses",
    ),
    model.Choice("basis", BASES, example="drawbar tests", group="Losses", usual="drawbar tests"),
    model.Choice("fuel_equation", FUEL_EQUATIONS, example="later", group="Losses", usual="later"),
)

OUTPUTS = (
    model.Shown("gear_ground_power", "power"),
    model.Shown("hydrostatic_ground_power", "power"),
    model.Shown("gear_at_shaft", "power"),
    model.Shown("hydrostatic_at_shaft", "power"),
    model.Shown("gear_fastest", "speed"),
    model.Shown("hydrostatic_fastest", "speed"),
    model.Shown("gear_load", "fraction"),
    model.Shown("hydrostatic_load", "fraction"),
    model.Shown("gear_fuel_rate", "fuel_rate"),
    model.Shown("hydrostatic_fuel_rate", "fuel_rate"),
    model.Shown("gear_cycles", "count"),
    model.Shown("hydrostatic_cycles", "count"),
    model.Shown("gear_year_fuel", "volume"),
    model.Shown("hydrostatic_year_fuel", "volume"),
    model.Shown("slip", "fraction"),
    model.Shown("time_saved", "duration"),
    model.Shown("more_fuel", "volume"),
    model.Shown("saving", "money"),
    model.Shown("pay_back", "duration"),
    model.Shown("years", "count"),
    model.Shown("most_pull", "force"),
    model.Shown("full", "power", hidden=True),
    model.Shown("gear_line", "fraction", hidden=True),
    model.Shown("hydrostatic_line", "fraction", hidden=True),
    model.Shown("share_wanted", "fraction", hidden=True),
    model.Shown("share_held", "fraction", hidden=True),
    model.Shown("ground_lost", "power", hidden=True),
    model.Shown("shaft_lost", "power", hidden=True),
)
