"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines.vocabulary import field
from calc.mechanics import ballast
from calc.subjects import raised

RULE_CHOICES = ("tractor", "combined", "front_half")


def _rules() -> tuple[model.Option, ...]:
    rows = tables.by_key("hitch/twenty_percent_rules", "key")
    return tuple(model.Option(key, rows[key]["label"], rows[key]["note"]) for key in RULE_CHOICES)


EXAMPLES = {
    "front_share": "45 %",
    "wheelbase": "62 in",
    "hitch_distance": "28 in",
    "link_length": "28 in",
    "track_width": "42 in",
    "cg_height": "22 in",
    "axle_pin_height": "13 in",
    "raised_height": "28 in",
    "front_ballast_distance": "26 in",
    "loader_reach": "56 in",
    "loader_height": "80 in",
}

FIELDS: tuple[model.AnyField, ...] = (
    field("loader"),
    field("tractor_kind", example="compact_light"),
    field("tractor_mass", example="1,650 lb"),
    field("pto_power", example="20 hp", essential=False),
    field("lift_capacity", example="900 lb"),
    field("lift_rated_at"),
    # What a scale and a tape say of it is enough here; who asks about the loader may have none.
    field(
        "implement_kind",
        example="rotary_cutter_light",
        needed=True,
        told_by=(
            ("implement_mass", "other"),
            ("cg_distance", "other"),
            ("loader_payload", "none"),
        ),
    ),
    field("working_width", example="60 in"),
    field("implement_mass", example="480 lb"),
    field("cg_distance", example="34 in", essential=True),
    model.Choice(
        "front_rule",
        _rules(),
        example=ballast.default_rule(),
        group="Rule",
        usual="tractor",
    ),
    *(
        field(name, **({"example": EXAMPLES[name]} if name in EXAMPLES else {}))
        for name in raised.LOAD_FIELDS
    ),
)

OUTPUTS = raised.LOADS
review = raised.review
