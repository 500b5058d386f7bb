"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary
from calc.mechanics import ballast
from calc.subjects import raised

RULE_CHOICES = ("tractor", "combined", "front_half")


def _rules() -> tuple[model.Option, ...]:
    rows = tables.by_key("hitch/twenty_percent_rules", "key")
    return tuple(model.Option(key, rows[key]["label"], rows[key]["note"]) for key in RULE_CHOICES)


LOADER, LIMITS = "Loader", "Limits on the plate"

FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field("tractor_kind", example="compact_light"),
    vocabulary.field("tractor_mass", example="1,650 lb"),
    vocabulary.field("lift_capacity", example="900 lb"),
    vocabulary.field("lift_rated_at"),
    vocabulary.field("implement_kind", example="rotary_cutter_light"),
    vocabulary.field("working_width", example="60 in"),
    vocabulary.field("implement_mass", example="480 lb"),
    vocabulary.field("cg_distance", example="34 in", essential=True),
    vocabulary.field("front_ballast", essential=True),
    vocabulary.field("front_ballast_distance", example="26 in"),
    model.Choice(
        "front_rule",
        _rules(),
        example=ballast.default_rule(),
        essential=True,
        group="Rule",
        usual="tractor",
    ),
    vocabulary.field("front_axle_mass"),
    vocabulary.field("front_share", example="45 %"),
    vocabulary.field("wheelbase", example="62 in"),
    vocabulary.field("hitch_distance", example="28 in"),
    vocabulary.field("link_length", example="28 in"),
    vocabulary.field("lift_at_ball_ends"),
    vocabulary.field("quick_coupler"),
    vocabulary.field("track_width", example="42 in"),
    vocabulary.field("cg_height", example="22 in"),
    vocabulary.field("axle_pin_height", example="13 in"),
    vocabulary.field("raised_height", example="28 in"),
    vocabulary.field("rear_axle_limit", group=LIMITS),
    vocabulary.field("front_axle_limit", group=LIMITS),
    vocabulary.field("total_limit", group=LIMITS),
    vocabulary.field("rear_tire_load", group=LIMITS),
    model.Field("loader_payload", "mass", "10 lb", "6,000 lb", optional=True, group=LOADER),
    model.Field(
        "loader_reach",
        "length",
        "12 in",
        "120 in",
        example="56 in",
        typical=model.Typical(1.1, 1.6, "hitch/PRACTICE", "loaders on compacts"),
        group=LOADER,
    ),
    model.Field(
        "loader_height",
        "length",
        "6 in",
        "160 in",
        example="16 in",
        typical=model.Typical(0.3, 0.5, "hitch/PRACTICE", "a bucket carried low"),
        group=LOADER,
    ),
)

review = raised.review
