"""What is asked."""

from __future__ import annotations

from typing import Any

from calc import model, tables
from calc.machines import vocabulary
from calc.machines.vocabulary import field
from calc.quantities import Reading
from calc.subjects import raised
from calc.worksheets.pairing import checks as pairing

FRONT_RULES = tuple(
    model.Option(row["key"], row["label"])
    for row in tables.rows("hitch/twenty_percent_rules")
    if row["key"] in ("tractor", "combined", "front_half")
)

FIELDS = (
    field("tractor_kind", example="compact_light"),
    field("pto_power", example="20 hp"),
    field("tractor_mass", example="1,650 lb"),
    field("lift_capacity", example="900 lb"),
    field("lift_rated_at", example="610"),
    field("implement_kind", example="rotary_cutter_light", needed=True),
    field("working_width", example="60 in"),
    field("implement_mass"),
    field("material", example="light"),
    field("front_share", example="45 %"),
    field("front_axle_mass"),
    field("wheelbase", example="62 in"),
    field("hitch_distance", example="28 in"),
    field("link_length", example="28 in"),
    field("cg_height", example="22 in"),
    field("transmission"),
    field("hitch_category"),
    field("quick_coupler"),
    field("front_ballast"),
    field("front_ballast_distance", example="26 in"),
    field("track_width", example="42 in"),
    field("axle_pin_height", example="13 in"),
    field("tractor_width"),
    field("front_axle_limit"),
    field("rear_axle_limit"),
    field("total_limit"),
    field("rear_tire"),
    field("rear_tire_load"),
    field("remotes"),
    field("lift_at_ball_ends"),
    field("cg_distance"),
    field("raised_height", example="28 in"),
    field("implement_category"),
    field("power_needed"),
    field("power_limit"),
    field("remotes_needed"),
    field("slope"),
    field("ground_speed"),
    field("altitude"),
    model.Choice(
        "place",
        (
            model.Option(pairing.OFF_ROAD, "It stays off the road"),
            *(model.Option(row["place"], row["name"]) for row in tables.rows("road/road_places")),
        ),
        example=pairing.OFF_ROAD,
        group=vocabulary.ROAD,
        usual="none",
    ),
    field("transport_width", group=vocabulary.ROAD),
    field("tail_height", example="40 in", group=vocabulary.ROAD),
    field("lamp_spread", example="44 in", group=vocabulary.ROAD),
    field("lamps_to_implement", example="60 in", group=vocabulary.ROAD),
    field("implement_top", example="44 in", group=vocabulary.ROAD),
    model.Choice("front_rule", FRONT_RULES, example="tractor", group="Job", usual="tractor"),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Refuse a lift without its distance, and a chipper without its opening."""
    errors = raised.review(known)
    width: Any = known["working_width"]
    if known["implement_kind"] == "chipper" and isinstance(width, Reading) and width.high > 0.3:
        errors["working_width"] = (
            "For a chipper, type the opening that a log goes into, such as 4 in."
        )
    return errors
