"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines.vocabulary import field
from calc.mechanics import fuel, pto_power


def _engine_range(known: model.KnownSoFar) -> model.Typical:
    rows = tables.by_key("machines/typical_tractors", "key")
    picked = [rows[key]] if (key := known.get("tractor_kind")) in rows else list(rows.values())
    low = min(float(row["engine_low_hp"]) for row in picked)
    high = max(float(row["engine_high_hp"]) for row in picked)
    of = f"“{picked[0]['label'].lower()}” tractors" if len(picked) == 1 else "tractors of any size"
    return model.Typical(
        low * fuel.WATTS_PER_HORSEPOWER, high * fuel.WATTS_PER_HORSEPOWER, picked[0]["source"], of
    )


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
    model.Field(
        "load_mass",
        "Mass of the implement and what it carries",
        "mass",
        "0 lb",
        "10,000 lb",
        "From its manual or a scale. A trailer counts whole.",
        default="500 lb",
        typical=model.Typical(100.0, 500.0, "hitch/PRACTICE", "implements"),
        essential=True,
        group="Job",
    ),
    field("ground_speed", default="4 mph", essential=True),
    field("slope", default="10 %", essential=True),
    model.Field(
        "pull",
        "Pull of the implement",
        "force",
        "0 lbf",
        "10,000 lbf",
        "Zero for a mower. For a box blade or a plow, a tractor of this size seldom holds more "
        "than half its own weight.",
        default="0 lbf",
        typical=model.Typical(0.0, 3000.0, "power/PRACTICE", "blades, plows"),
        group="Job",
    ),
    model.Field(
        "shaft_power",
        "PTO power that the job takes",
        "power",
        "0 hp",
        "200 hp",
        "Zero for loader and blade work. For a mower see the PTO power page.",
        default="8 hp",
        typical=model.Typical(0.0, 12e3, "power/PRACTICE", "mowers on small tractors"),
        essential=True,
        group="Job",
    ),
    model.Choice(
        "soil",
        "Ground",
        SOILS,
        "Sod that carries a car without ruts counts as firm.",
        default="firm",
        unsure=("firm", "tilled", "soft"),
        group="Job",
    ),
    model.Choice(
        "driven",
        "Wheels that drive",
        (model.Option("four", "Front and rear"), model.Option("two", "Rear only")),
        "With the front drive lever in.",
        default="four",
        group="Job",
    ),
    model.Field(
        "hours_per_year",
        "Hours in a year",
        "duration",
        "1 h",
        "3,000 h",
        "Read the hour meter twice, a year apart.",
        default="100 h",
        typical=model.Typical(100 * 3600.0, 200 * 3600.0, "value/V6", "homeowners"),
        essential=True,
        group="Year",
    ),
    model.Field(
        "loader_share",
        "Share of those hours with the loader",
        "fraction",
        "0 %",
        "100 %",
        "Your own guess; a quarter is common on an acreage.",
        default="30 %",
        typical=model.Typical(0.1, 0.5, "power/PRACTICE", "acreages"),
        essential=True,
        group="Year",
    ),
    model.Choice(
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
    model.Field(
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
    model.Field(
        "hydrostatic_reversal_time",
        "Time the hydrostatic drive takes",
        "seconds",
        "0 s",
        "15 s",
        "The same, from pedal to pedal.",
        typical=_reversal_range("hydrostatic"),
        group="Loader",
    ),
    model.Field(
        "haul",
        "Drive from pile to dumping place",
        "distance",
        "3 ft",
        "3,000 ft",
        "Pace it out, one way.",
        default="60 ft",
        typical=model.Typical(10.0, 60.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    model.Field(
        "back_off",
        "Backing away from the pile, and from the dumping place",
        "distance",
        "3 ft",
        "300 ft",
        "Usually one to two tractor lengths.",
        default="20 ft",
        typical=model.Typical(4.0, 10.0, "power/PRACTICE", "yard work"),
        group="Loader",
    ),
    model.Field(
        "loader_speed",
        "Speed with the bucket loaded",
        "speed",
        "0.5 mph",
        "10 mph",
        "A slow run; the same is used for both drives.",
        default="3 mph",
        typical=model.Typical(0.9, 2.2, "power/PRACTICE", "loader work"),
        group="Loader",
    ),
    model.Field(
        "acceleration",
        "Speeding up and slowing down",
        "acceleration",
        "0.5 ft/s2",
        "10 ft/s2",
        "Leave it unless you have timed it.",
        default="2.5 ft/s2",
        typical=model.Typical(0.5, 1.2, "power/PRACTICE", "a loaded tractor"),
        group="Loader",
    ),
    model.Field(
        "bucket_time",
        "Filling, raising, dumping and lowering",
        "seconds",
        "2 s",
        "120 s",
        "Only the part that isn't done while driving.",
        default="20 s",
        typical=model.Typical(10.0, 30.0, "power/PRACTICE", "compact loaders"),
        group="Loader",
    ),
    model.Field(
        "price_difference",
        "The hydrostatic costs more by",
        "money",
        "$0",
        "$50,000",
        "Ask for both prices on the same size and equipment.",
        default="$1,500",
        typical=model.Typical(700.0, 2500.0, "power/PRACTICE", "compact tractors"),
        essential=True,
        group="Money",
    ),
    model.Field(
        "kept_at_sale",
        "Share of that which comes back when you sell",
        "fraction",
        "0 %",
        "100 %",
        "Compare asking prices of used ones with either drive.",
        default="50 %",
        typical=model.Typical(0.3, 0.8, "power/PRACTICE", "used compacts"),
        group="Money",
    ),
    model.Field(
        "fuel_price",
        "Fuel price",
        "money_per_volume",
        "0 $/gal",
        "30 $/gal",
        "What you pay, with or without road tax.",
        default="4 $/gal",
        typical=model.Typical(3.0 * 264.172, 5.0 * 264.172, "power/PRACTICE", "diesel"),
        group="Money",
    ),
    model.Field(
        "time_value",
        "What an hour of your time is worth to you",
        "money_per_hour",
        "0 $/h",
        "500 $/h",
        "Zero if you enjoy it. A hired hand's wage if you would hire one.",
        default="15 $/h",
        typical=model.Typical(0.0, 30.0, "power/PRACTICE", "owners"),
        group="Money",
    ),
    model.Field(
        "interest",
        "Yearly interest on the difference",
        "fraction",
        "0 %",
        "40 %",
        "What a loan costs you, or what the money would earn.",
        default="6 %",
        typical=model.Typical(0.03, 0.09, "power/PRACTICE", "equipment loans"),
        group="Money",
    ),
    model.Field(
        "pump_drag",
        "Drag of the hydrostatic pump at rest",
        "power",
        "0 hp",
        "6 hp",
        "Not printed anywhere; leave it.",
        default="1.5 hp",
        typical=model.Typical(
            *pto_power.pump_drag("hydrostatic"), "power/GENERAL-memory", "a hydrostatic compact"
        ),
        group="Losses",
    ),
    model.Choice(
        "basis",
        "Losses of the drives are taken from",
        BASES,
        "The tests are measured but few, and on larger tractors; the component figures are rules "
        "of thumb.",
        default="drawbar tests",
        group="Losses",
    ),
    model.Choice(
        "fuel_equation",
        "Fuel by",
        FUEL_EQUATIONS,
        "The older equation reads a sixth to a quarter higher.",
        default="later",
        group="Losses",
    ),
)
