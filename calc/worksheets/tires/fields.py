"""What is asked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from calc import model, quantities, tables
from calc.errors import InputError
from calc.machines import tire_entry, vocabulary
from calc.mechanics import front_drive
from calc.subjects import tire_partners
from calc.subjects import tires as common

NOW, NEW, DRIVE = "Tires it has now", "New tires", "Front drive"
GAPS, LOADS, LIQUID, SPEED = "Gaps and width", "Loads", "Liquid", "Speed"
BALANCE, WEAR = "Balance", "Wear of the tires it has now"
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


def _ten_turns(name: str, axle: str) -> model.Field:
    return model.Field(
        name,
        "length",
        "18 ft",
        "230 ft",
        typical=common.new_rolled(axle),
        group=DRIVE,
        unit_us="ft",
        unit_metric="m",
    )


def _worn(name: str) -> model.Field:
    return model.Field(name, "fraction", "0 %", "100 %", optional=True, group=WEAR)


def _lug(name: str) -> model.Field:
    return model.Field(
        name, "length", "0 in", "4 in", optional=True, group=WEAR, unit_us="in", unit_metric="mm"
    )


def _driven(known: Mapping[str, Any]) -> str:
    """Whether the front is driven, by its tires: ribs steer, bars and industrial treads drive.

    Turf tires are on driven and on plain front axles.
    """
    tire = common.dimensions(known.get("front_tire"))
    return (
        ""
        if tire is None
        else {"steer": "no", "lug": "yes", "R-4": "yes"}.get(tire.tread_class, "")
    )


AXLES = ("front", "rear")
MEASURED = (
    *("front_turns", "lead_now"),
    *(f"{when}_{axle}_ten_turns" for when in ("old", "new") for axle in AXLES),
)


def _measured(known: Mapping[str, Any]) -> bool:
    """Whether turns or distances were, which come before any list or size."""
    return any(known.get(name) is not None for name in MEASURED)


def _listed(known: Mapping[str, Any]) -> str:
    """Whether the drive was laid out for the new pair, by its sizes; "" where that isn't so."""
    front, rear = (known.get(f"{axle}_tire") for axle in AXLES)
    new_front, new_rear = (known.get(f"new_{axle}_tire") for axle in AXLES)
    if not front or not rear or not (new_front or new_rear) or _measured(known):
        return ""
    pair = (new_front or front, new_rear or rear)
    return "yes" if tire_partners.laid_out(front, rear, pair) else ""


def _factory_lead(known: Mapping[str, Any]) -> model.Typical:
    if _measured(known) or "yes" in (_listed(known), known.get("pair_listed")):
        return common.factory_lead()
    return common.factory_lead(common.size_errors(known.get))


FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field("front_tire", example="7-16 R-1", essential=True, group=NOW),
    vocabulary.field("rear_tire", example="11.2-24 R-1", essential=True, group=NOW),
    model.Entry(
        "new_front_tire",
        tire_entry.read_size,
        essential=True,
        group=NEW,
        such_as="8-16 R-1",
        blank="the fronts stay",
    ),
    model.Entry(
        "new_rear_tire",
        tire_entry.read_size,
        example="13.6-24 R-1",
        essential=True,
        group=NEW,
        such_as="12.4-24 R-1",
        blank="the rears stay",
    ),
    model.Choice(
        "front_drive",
        (model.Option("yes", "Yes"), model.Option("no", "No: two-wheel drive")),
        example="yes",
        told_by=(("front_turns", "yes"), ("lead_now", "yes")),
        told=_driven,
        essential=True,
        group=DRIVE,
    ),
    model.Choice(
        "lead_window", _windows(), example=front_drive.DEFAULT_WINDOW, group=DRIVE, usual="guide"
    ),
    model.Choice(
        "pair_listed",
        (model.Option("unsaid", "Not said"), model.Option("yes", "Yes, with this front axle")),
        told=_listed,
        usual="unsaid",
        group=DRIVE,
    ),
    vocabulary.field("front_turns", group=DRIVE),
    model.Field("lead_now", "fraction", "-20 %", "25 %", optional=True, group=DRIVE),
    model.Field("factory_lead", "fraction", "-5 %", "12 %", typical=_factory_lead, group=DRIVE),
    vocabulary.field("old_front_ten_turns", typical=common.old_rolled("front"), group=DRIVE),
    vocabulary.field("old_rear_ten_turns", typical=common.old_rolled("rear"), group=DRIVE),
    _ten_turns("new_front_ten_turns", "front"),
    _ten_turns("new_rear_ten_turns", "rear"),
    model.Entry(
        "gear_speeds",
        read_speeds,
        example="1.5, 3, 5, 8, 12 mph",
        group=SPEED,
        such_as="1.5, 3, 5, 8, 12 mph",
    ),
    _worn("front_worn"),
    _worn("rear_worn"),
    _lug("front_lug"),
    _lug("rear_lug"),
    vocabulary.field("wheelbase", example="62 in"),
    vocabulary.field("hitch_distance", example="28 in"),
    model.Field(
        "deck_ahead", "length", "5 in", "100 in", optional=True, example="30 in", group=GAPS
    ),
    model.Field("fender_gap", "length", "0 in", "30 in", optional=True, group=GAPS),
    model.Field("side_gap", "length", "0 in", "30 in", optional=True, group=GAPS),
    model.Field("front_gap", "length", "0 in", "30 in", optional=True, group=GAPS),
    model.Field("deck_gap", "length", "0 in", "40 in", optional=True, group=GAPS),
    vocabulary.field("track_width", example="42 in", group=GAPS),
    model.Field("width_limit", "length", "24 in", "200 in", optional=True, group=GAPS),
    model.Field("rear_axle_load", "mass", "200 lb", "20,000 lb", optional=True, group=LOADS),
    vocabulary.field("rear_tire_load", group=LOADS),
    vocabulary.field("rear_axle_limit", group=LOADS),
    model.Field("front_axle_load", "mass", "100 lb", "15,000 lb", optional=True, group=LOADS),
    model.Field("front_tire_load", "mass", "100 lb", "8,000 lb", optional=True, group=LOADS),
    vocabulary.field("front_axle_limit", group=LOADS),
    model.Field("rear_pressure", "pressure", "5 psi", "90 psi", optional=True, group=LOADS),
    model.Field("rear_rated_pressure", "pressure", "5 psi", "90 psi", optional=True, group=LOADS),
    model.Field("front_pressure", "pressure", "5 psi", "90 psi", optional=True, group=LOADS),
    model.Field("front_rated_pressure", "pressure", "5 psi", "90 psi", optional=True, group=LOADS),
    vocabulary.field("cg_height", example="22 in", group=BALANCE),
    vocabulary.field("front_share", example="42 %", group=BALANCE),
    vocabulary.field("axle_pin_height", example="13 in", group=BALANCE),
    model.Choice("liquid", _liquids(), example="none", group=LIQUID, usual="none"),
    model.Field(
        "fill",
        "fraction",
        "10 %",
        "90 %",
        example="75 %",
        typical=model.Typical(0.4, 0.75, "tires/OM-1", "liquid in rear tires"),
        group=LIQUID,
    ),
    model.Field("coldest", "temperature", "-60 F", "60 F", optional=True, group=LIQUID),
)


OUTPUTS = (
    model.Shown("lead_now", "fraction"),
    model.Shown("lead_new", "fraction"),
    model.Shown("speed_change", "fraction"),
    model.Shown("top_speed", "speed"),
    model.Shown("rear_rise", "length"),
    model.Shown("hitch_rise", "length"),
    model.Shown("front_rise", "length"),
    model.Shown("deck_rise", "length"),
    model.Shown("pitch", "angle"),
    model.Shown("cg_rise", "length"),
    model.Shown("side_now", "angle"),
    model.Shown("side_new", "angle"),
    model.Shown("width_now", "length"),
    model.Shown("width", "length"),
    model.Shown("pull_change", "fraction"),
    model.Shown("braking_change", "fraction"),
    model.Shown("liquid_volume", "volume"),
    model.Shown("liquid_mass", "mass"),
    model.Shown("liquid_gained", "mass"),
    model.Shown("freezes", "temperature"),
    model.Shown("rear_carries", "mass"),
    model.Shown("front_carries", "mass"),
    model.Shown("other_change", "fraction", hidden=True),
    model.Shown("new_speed", "fraction", hidden=True),
    model.Shown("lugs_change", "fraction", hidden=True),
    model.Shown("rear_inflation_most", "pressure", hidden=True),
    model.Shown("front_inflation_most", "pressure", hidden=True),
    model.Shown("rear_allowed", "mass", hidden=True),
    model.Shown("front_allowed", "mass", hidden=True),
    model.Shown("front_ratio", "count", hidden=True),
    model.Shown("rear_ratio", "count", hidden=True),
    model.Shown("pull_ratio", "count", hidden=True),
    model.Shown("rear_on_axle", "mass", hidden=True),
    model.Shown("front_on_axle", "mass", hidden=True),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found = {**common.review_turns(known), **common.review_pair(known)}
    for axle in ("front", "rear"):
        if known.get(f"new_{axle}_tire") is not None and known.get(f"{axle}_tire") is None:
            found[f"{axle}_tire"] = (
                f"Give the size of the {axle} tires it has now: old and new are compared."
            )
    for axle in ("front", "rear"):
        worn = known.get(f"{axle}_worn")
        if worn is not None and 0.0 < worn.high < 0.01:  # nobody measures a lug so closely
            found[f"{axle}_worn"] = "Less than 1 % is gone? Half of the lug is 50 %."
        if worn is not None and known.get(f"{axle}_lug") is not None:
            found[f"{axle}_lug"] = (
                "Say either the share of the lug that is gone or what is left of it, not both."
            )
    for axle in ("front", "rear"):
        used, rated = known.get(f"{axle}_pressure"), known.get(f"{axle}_rated_pressure")
        if used is not None and rated is not None and used.high > rated.low:
            found[f"{axle}_pressure"] = (
                "The pressure is above the one at which the rating holds: a sidewall's maximum is "
                "never passed."
            )
    return found
