"""What is asked."""

from __future__ import annotations

import re

from calc import model, quantities, tables
from calc.errors import InputError
from calc.machines import vocabulary
from calc.mechanics import front_drive
from calc.subjects import tires as common

NOW, NEW, DRIVE = "Tires it has now", "New tires", "Front drive"
GAPS, LOADS, LIQUID, SPEED = "Gaps and width", "Loads", "Liquid", "Speed"
BALANCE = "Balance"
FASTEST_GEAR = 20.0


def read_speeds(text: str) -> tuple[float, ...]:
    """Return the speeds of a list such as "2, 4, 7, 12 mph" in m/s, slowest first.

    Raises
    ------
    InputError
        When one of them isn't a speed.
    """
    parts = [part.strip() for part in re.split(r"[,;]", text) if part.strip()]
    unit = re.search(r"[a-zA-Z/]+\s*$", parts[-1]) if parts else None
    found = []
    for part in parts[:24]:
        whole = part if re.search("[a-zA-Z]", part) or unit is None else f"{part} {unit[0]}"
        reading = quantities.parse(whole, "speed")
        if reading is None or not reading.exact or not 0.02 <= reading.low <= FASTEST_GEAR:
            raise InputError(
                f"“{quantities.shorten(part)}” in the list of speeds isn't a speed between "
                "0.05 and 45 mph. Write them like “2, 4, 7, 12 mph”."
            )
        found.append(reading.low)
    if not found:
        raise InputError("Write the speeds like “2, 4, 7, 12 mph”.")
    return tuple(sorted(found))


def _windows() -> tuple[model.Option, ...]:
    return tuple(model.Option(w.key, w.label, w.source) for w in front_drive.windows())


def _liquids() -> tuple[model.Option, ...]:
    rows = tables.rows("tires/ballast_liquids")
    options = [model.Option(row["key"], row["label"], row["note"]) for row in rows]
    return (model.Option("none", "none: air only"), *options)


def _ten_turns(name: str, label: str, help: str, **more: object) -> model.Field:
    return model.Field(
        name,
        label,
        "length",
        "18 ft",
        "230 ft",
        help,
        group=DRIVE,
        unit_us="ft",
        unit_metric="m",
        **more,  # type: ignore[arg-type]
    )


_ROLL = (
    "From the roll-out sheet: mark tire and ground, roll straight for ten turns at work load and "
    "pressure, measure. A data sheet's rolling circumference times ten does as well."
)

FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field("front_tire", default="7-16 R-1", essential=True, group=NOW),
    vocabulary.field("rear_tire", default="11.2-24 R-1", essential=True, group=NOW),
    model.Entry(
        "new_front_tire",
        "New front tires",
        "Leave blank when the front tires stay.",
        vocabulary.read_tire_size,
        essential=True,
        group=NEW,
        example="blank: the fronts stay",
    ),
    model.Entry(
        "new_rear_tire",
        "New rear tires",
        "Leave blank when the rear tires stay.",
        vocabulary.read_tire_size,
        default="12.4-24 R-1",
        essential=True,
        group=NEW,
        example="blank: the rears stay",
    ),
    model.Choice(
        "front_drive",
        "Front-wheel drive",
        (model.Option("yes", "Yes"), model.Option("no", "No: two-wheel drive")),
        "A tractor with a driven front axle (four-wheel drive) has bar lugs or drive treads at "
        "the front.",
        default="yes",
        essential=True,
        group=DRIVE,
    ),
    model.Choice(
        "lead_window",
        "Window of lead",
        _windows(),
        "Use your tractor manual's own window where it prints one.",
        default=front_drive.DEFAULT_WINDOW,
        group=DRIVE,
    ),
    vocabulary.field("front_turns", group=DRIVE),
    model.Field(
        "lead_now",
        "Front-drive lead with the tires it has now",
        "fraction",
        "-20 %",
        "25 %",
        "If it was measured by counting turns; a lag is below zero. Otherwise leave it blank.",
        optional=True,
        group=DRIVE,
    ),
    model.Field(
        "factory_lead",
        "Lead the tractor was laid out for",
        "fraction",
        "-5 %",
        "12 %",
        "Used when neither the gear ratio nor the lead it has now is known, and right only if the "
        "tires it has now are of a size its maker approved.",
        typical=common.factory_lead(),
        group=DRIVE,
    ),
    vocabulary.field("old_front_ten_turns", typical=common.old_rolled("front"), group=DRIVE),
    vocabulary.field("old_rear_ten_turns", typical=common.old_rolled("rear"), group=DRIVE),
    _ten_turns(
        "new_front_ten_turns",
        "Ten turns of the new front tires",
        _ROLL,
        typical=common.new_rolled("front"),
    ),
    _ten_turns(
        "new_rear_ten_turns",
        "Ten turns of the new rear tires",
        _ROLL,
        typical=common.new_rolled("rear"),
    ),
    model.Entry(
        "gear_speeds",
        "Speed in each gear or range, tires it has now",
        "From the decal or the specification, with commas; the last one is the top speed.",
        read_speeds,
        default="1.5, 3, 5, 8, 12 mph",
        group=SPEED,
        example="1.5, 3, 5, 8, 12 mph",
    ),
    vocabulary.field("wheelbase", default="62 in"),
    vocabulary.field("hitch_distance", default="28 in"),
    model.Field(
        "deck_ahead",
        "Middle of a mower deck ahead of the rear axle",
        "length",
        "5 in",
        "100 in",
        "Level distance; leave blank without a mid-mount deck.",
        optional=True,
        default="30 in",
        group=GAPS,
    ),
    model.Field(
        "fender_gap",
        "Gap between rear tread and fender now",
        "length",
        "0 in",
        "30 in",
        "The least gap above the tread, tires up to pressure.",
        optional=True,
        group=GAPS,
    ),
    model.Field(
        "side_gap",
        "Gap between rear sidewall and fender now",
        "length",
        "0 in",
        "30 in",
        "The least gap beside the tire, toward the fender or the lift arm.",
        optional=True,
        group=GAPS,
    ),
    model.Field(
        "front_gap",
        "Gap at the front tire, wheel turned fully, now",
        "length",
        "0 in",
        "30 in",
        "From the tread to whatever it comes nearest to: axle, frame, loader bracket.",
        optional=True,
        group=GAPS,
    ),
    model.Field(
        "deck_gap",
        "Gap between mower deck and rear tread now",
        "length",
        "0 in",
        "40 in",
        "The least gap with the deck at any height.",
        optional=True,
        group=GAPS,
    ),
    vocabulary.field("track_width", default="42 in", group=GAPS),
    model.Field(
        "width_limit",
        "Narrowest gate, trailer or row",
        "length",
        "24 in",
        "200 in",
        "What the tractor must go through or onto.",
        optional=True,
        group=GAPS,
    ),
    model.Field(
        "rear_axle_load",
        "Largest load on the rear axle",
        "mass",
        "200 lb",
        "20,000 lb",
        "Rear wheels on the scale with the heaviest implement raised; or from the lift and "
        "ballast page.",
        optional=True,
        group=LOADS,
    ),
    vocabulary.field("rear_tire_load", group=LOADS),
    vocabulary.field("rear_axle_limit", group=LOADS),
    model.Field(
        "front_axle_load",
        "Largest load on the front axle",
        "mass",
        "100 lb",
        "15,000 lb",
        "Front wheels on the scale with a full bucket.",
        optional=True,
        group=LOADS,
    ),
    model.Field(
        "front_tire_load",
        "Load one front tire may carry",
        "mass",
        "100 lb",
        "8,000 lb",
        "From the load index or the load table at the pressure you use.",
        optional=True,
        group=LOADS,
    ),
    vocabulary.field("front_axle_limit", group=LOADS),
    model.Field(
        "rear_pressure",
        "Pressure you run in the new rear tires",
        "pressure",
        "5 psi",
        "90 psi",
        "Cold, from a gauge made for low pressure.",
        optional=True,
        group=LOADS,
    ),
    model.Field(
        "rear_rated_pressure",
        "Pressure at which the rear rating holds",
        "pressure",
        "5 psi",
        "90 psi",
        "On the sidewall beside the largest load, or in the tire's load table.",
        optional=True,
        group=LOADS,
    ),
    model.Field(
        "front_pressure",
        "Pressure you run in the new front tires",
        "pressure",
        "5 psi",
        "90 psi",
        "Cold, from a gauge made for low pressure.",
        optional=True,
        group=LOADS,
    ),
    model.Field(
        "front_rated_pressure",
        "Pressure at which the front rating holds",
        "pressure",
        "5 psi",
        "90 psi",
        "On the sidewall beside the largest load, or in the tire's load table.",
        optional=True,
        group=LOADS,
    ),
    vocabulary.field("cg_height", default="22 in", group=BALANCE),
    vocabulary.field("front_share", default="42 %", group=BALANCE),
    vocabulary.field("axle_pin_height", default="13 in", group=BALANCE),
    model.Choice(
        "liquid",
        "Liquid in the rear tires",
        _liquids(),
        "Pumped in through the valve; see what each weighs and when it freezes in the table below.",
        default="none",
        group=LIQUID,
    ),
    model.Field(
        "fill",
        "Share of the tire filled",
        "fraction",
        "10 %",
        "90 %",
        "With the valve at the top, liquid level with it is 75 %.",
        default="75 %",
        typical=model.Typical(0.4, 0.75, "tires/OM-1", "liquid in rear tires"),
        group=LIQUID,
    ),
    model.Field(
        "coldest",
        "Coldest it gets",
        "temperature",
        "-60 F",
        "60 F",
        "Where the tractor stands in winter.",
        optional=True,
        group=LIQUID,
    ),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found: dict[str, str] = {}
    for axle in ("front", "rear"):
        if known.get(f"new_{axle}_tire") is not None and known.get(f"{axle}_tire") is None:
            found[f"{axle}_tire"] = (
                f"Give the size of the {axle} tires it has now: old and new are compared."
            )
    for axle in ("front", "rear"):
        used, rated = known.get(f"{axle}_pressure"), known.get(f"{axle}_rated_pressure")
        if used is not None and rated is not None and used.high > rated.low:
            found[f"{axle}_pressure"] = (
                "The pressure is above the one at which the rating holds: a sidewall's maximum is "
                "never passed."
            )
    return found
