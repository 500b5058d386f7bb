"""What is asked."""

from __future__ import annotations

from calc import model
from calc.machines.vocabulary import field
from calc.subjects import raised

IMPLEMENT_FIELDS = ("raised_height", "tongue_load", "loader_payload", "loader_tool")
EXAMPLES = {
    "mass_as": "bare",
    "front_share": "42 %",
    "wheelbase": "68 in",
    "hitch_distance": "31 in",
    "link_length": "31 in",
    "cg_height": "25 in",
    "track_width": "48 in",
    "axle_pin_height": "15 in",
    "loader_mass": "950 lb",
    "loader_ahead": "8 in",
    "loader_rating": "1,350 lb",
    "loader_reach": "56 in",
    "loader_height": "94 in",
    "front_ballast_distance": "28 in",
    "front_axle_limit": "3,300 lb",
    "rear_axle_limit": "4,800 lb",
}

FIELDS: tuple[model.AnyField, ...] = (
    field("loader", example="on"),
    field("tractor_kind", example="compact_heavy"),
    field("pto_power", example="29 hp"),
    field("tractor_mass", example="2,850 lb"),
    field("lift_capacity", example="1,900 lb"),
    field("lift_rated_at", example="610"),
    *(
        field(name, **({"example": EXAMPLES[name]} if name in EXAMPLES else {}))
        for name in raised.LOAD_FIELDS
        if name not in IMPLEMENT_FIELDS
    ),
    field("transmission"),
    field("driven"),
    field("tractor_width"),
    field("slope", example="5 %"),
    field("altitude", example="500 ft"),
)

OUTPUTS = (
    model.Shown("standing", "mass"),
    model.Shown("down_front", "load"),
    model.Shown("down_rear", "load"),
    model.Shown("trailer", "mass"),
    model.Shown("trailer_braked", "mass"),
)

review = raised.review
