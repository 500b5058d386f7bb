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
    vocabulary.tractor_kind("compact_light"),
    vocabulary.field("tractor_mass", default="1,650 lb"),
    vocabulary.field("lift_capacity", default="900 lb"),
    vocabulary.field("lift_rated_at"),
    vocabulary.implement_kind("rotary_cutter_light"),
    vocabulary.field("working_width", default="60 in"),
    vocabulary.field("implement_mass", default="480 lb"),
    vocabulary.field("cg_distance", default="34 in", essential=True),
    vocabulary.field("front_ballast", essential=True),
    vocabulary.field("front_ballast_distance", default="26 in"),
    model.Choice(
        "front_rule",
        "Front axle rule",
        _rules(),
        "Manuals give the same 20 % of different things. Use the tractor manual's own rule where "
        "it has one.",
        default=ballast.default_rule(),
        essential=True,
        group="Rule",
    ),
    vocabulary.field("front_axle_mass"),
    vocabulary.field("front_share", default="45 %"),
    vocabulary.field("wheelbase", default="62 in"),
    vocabulary.field("hitch_distance", default="28 in"),
    vocabulary.field("link_length", default="28 in"),
    vocabulary.field("lift_at_ball_ends"),
    vocabulary.field("quick_coupler"),
    vocabulary.field("track_width", default="42 in"),
    vocabulary.field("cg_height", default="22 in"),
    vocabulary.field("axle_pin_height", default="13 in"),
    vocabulary.field("raised_height", default="28 in"),
    vocabulary.field("rear_axle_limit", group=LIMITS),
    vocabulary.field("front_axle_limit", group=LIMITS),
    vocabulary.field("total_limit", group=LIMITS),
    vocabulary.field("rear_tire_load", group=LIMITS),
    model.Field(
        "loader_payload",
        "Load in the loader bucket",
        "mass",
        "10 lb",
        "6,000 lb",
        "Only when you lift with the loader: what is in the bucket. The loader itself belongs to "
        "the tractor's mass.",
        optional=True,
        group=LOADER,
    ),
    model.Field(
        "loader_reach",
        "Front axle to the middle of the bucket",
        "length",
        "12 in",
        "120 in",
        "Level distance with the arms level, where the bucket is farthest out.",
        default="56 in",
        typical=model.Typical(1.1, 1.6, "hitch/PRACTICE", "loaders on compacts"),
        group=LOADER,
    ),
    model.Field(
        "loader_height",
        "Height of the load in the bucket",
        "length",
        "6 in",
        "160 in",
        "From the ground to the middle of the load as you carry it.",
        default="16 in",
        typical=model.Typical(0.3, 0.5, "hitch/PRACTICE", "a bucket carried low"),
        group=LOADER,
    ),
)

review = raised.review
