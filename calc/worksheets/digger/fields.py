"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary
from calc.subjects.shear_bolt import STUB, fields

USUAL = "value/DIGGER-memory"
TRACTOR, DIGGER, BOLT, JOB = "Tractor", "Digger", "Shear bolt", "Job"


def _soils() -> tuple[model.Option, ...]:
    return tuple(
        model.Option(r["key"], r["name"], r["note"]) for r in tables.rows("digger/digger_soils")
    )


HEADROOM = 0.3  # of a long auger above the hole it is sold for, common practice, no source [m]


def _compact(low: float, high: float) -> model.Typical:
    return model.Typical(low, high, USUAL, "compact tractors and their diggers")


def _auger(known: model.KnownSoFar) -> model.Typical:
    """An auger that nobody measured is no reason against a hole: longer ones are sold for it."""
    wanted = known.get("depth_wanted")
    return _compact(1.05, max(1.35, 0.0 if wanted is None else wanted.high + HEADROOM))


FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", example="19 hp"),
    model.Field(
        "pto_speed",
        "rotation",
        "100 rpm",
        "1,100 rpm",
        example="540 rpm",
        typical=model.Typical(250.0, 540.0, "value/P6d", "digging"),
        group=TRACTOR,
    ),
    model.Field(
        "bracket_height",
        "length",
        "12 in",
        "60 in",
        example="30 in",
        typical=_compact(0.60, 0.90),
        essential=True,
        group=TRACTOR,
    ),
    model.Field(
        "link_low",
        "length",
        "2 in",
        "40 in",
        example="9 in",
        typical=_compact(0.18, 0.30),
        essential=True,
        group=TRACTOR,
    ),
    model.Field(
        "link_high",
        "length",
        "12 in",
        "70 in",
        example="33 in",
        typical=_compact(0.70, 0.90),
        essential=True,
        group=TRACTOR,
    ),
    model.Field(
        "link_spread", "length", "14 in", "44 in", example="28 in", optional=True, group=TRACTOR
    ),
    vocabulary.field("quick_coupler"),
    model.Field(
        "stub_height",
        "length",
        "8 in",
        "40 in",
        example="21 in",
        typical=_compact(0.45, 0.65),
        group=TRACTOR,
    ),
    model.Field(
        "stub_behind",
        "length",
        "-20 in",
        "20 in",
        example="0 in",
        typical=_compact(-0.10, 0.10),
        group=TRACTOR,
    ),
    model.Field(
        "boom_length",
        "length",
        "24 in",
        "120 in",
        example="62 in",
        typical=_compact(1.40, 1.75),
        essential=True,
        group=DIGGER,
    ),
    model.Field(
        "yoke_distance",
        "length",
        "10 in",
        "100 in",
        example="30 in",
        typical=_compact(0.65, 0.90),
        essential=True,
        group=DIGGER,
    ),
    model.Field(
        "yoke_rise",
        "length",
        "0 in",
        "40 in",
        example="8 in",
        typical=_compact(0.10, 0.25),
        group=DIGGER,
    ),
    vocabulary.field(
        "auger_diameter",
        example="9 in",
        typical=None,
        optional=True,
        essential=True,
        group=DIGGER,
    ),
    model.Field(
        "auger_length",
        "length",
        "18 in",
        "90 in",
        example="48 in",
        typical=_auger,
        essential=True,
        group=DIGGER,
    ),
    model.Field(
        "housing_clearance",
        "length",
        "0 in",
        "30 in",
        example="8 in",
        typical=_compact(0.15, 0.25),
        group=DIGGER,
    ),
    model.Field(
        "gearbox_input",
        "length",
        "0 in",
        "24 in",
        example="6 in",
        typical=_compact(0.10, 0.20),
        group=DIGGER,
    ),
    model.Field(
        "gear_ratio",
        "count",
        "1",
        "8",
        example="3",
        typical=model.Typical(2.8, 3.2, "value/AUGER-memory", "PTO diggers"),
        group=DIGGER,
    ),
    model.Field(
        "auger_limit",
        "length",
        "4 in",
        "48 in",
        example="12 in",
        optional=True,
        essential=True,
        group=DIGGER,
    ),
    model.Field(
        "power_least",
        "power",
        "5 hp",
        "150 hp",
        example="14 hp",
        optional=True,
        essential=True,
        group=DIGGER,
    ),
    vocabulary.field("power_limit", example="24 hp", essential=True, group=DIGGER),
    *fields(BOLT, "3/8"),
    model.Field(
        "shaft_diameter",
        "length",
        "0.5 in",
        "4 in",
        example="1-3/8 in",
        typical=model.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=BOLT,
    ),
    model.Choice(
        "soil", _soils(), example="loam", unsure=("sand", "loam", "clay"), essential=True, group=JOB
    ),
    model.Choice(
        "feed",
        tuple(model.Option(row["key"], row["name"]) for row in tables.rows("digger/digger_feeds")),
        example="any",
        group=JOB,
        usual="any",
    ),
    model.Field(
        "depth_wanted",
        "length",
        "6 in",
        "84 in",
        example="36 in",
        optional=True,
        essential=True,
        group=JOB,
    ),
)

OUTPUTS = (
    model.Shown("depth", "length"),
    model.Shown("tip_clearance", "clearance"),
    model.Shown("power_low", "power"),
    model.Shown("power_full", "power"),
    model.Shown("widest", "length"),
    model.Shown("widest_full", "length"),
    model.Shown("sold", "length"),
    model.Shown("sold_full", "length"),
    model.Shown("power_left", "power"),
    model.Shown("torque", "torque"),
    model.Shown("auger_torque", "torque"),
    model.Shown("auger_speed", "rotation"),
    model.Shown("bolt_torque", "torque"),
    model.Shown("gearbox_low", "length"),
    model.Shown("gearbox_high", "length"),
    model.Shown("travel_ratio", "count"),
    model.Shown("drift", "length"),
    model.Shown("lean", "angle"),
    model.Shown("digging_angle", "angle"),
    model.Shown("raised_angle", "angle"),
    model.Shown("shaft_shortest", "length"),
    model.Shown("shaft_longest", "length"),
    model.Shown("spoil", "volume"),
    model.Shown("clearance_needed", "length", hidden=True),
    model.Shown("swing", "fraction", hidden=True),
    model.Shown("angle_most", "angle", hidden=True),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    low, high = known.get("link_low"), known.get("link_high")
    found = {}
    if low and high and low.low >= high.high:
        found["link_high"] = "The links can't be lower raised than lowered: measure both again."
    least, most = known.get("power_least"), known.get("power_limit")
    if least and most and least.low > most.high:
        found["power_limit"] = "The most can't be less than the least: look at the manual again."
    return found
