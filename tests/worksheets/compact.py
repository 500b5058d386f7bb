"""A compact tractor and a cutter that several tests put together, asked of the ballast page."""

from calc import search, worksheets

BALLAST, PAIRING = worksheets.load("ballast"), worksheets.load("pairing")
LB = 0.45359237

COMPACT = {
    "tractor_kind": "compact_light",
    "tractor_mass": "1,650 lb",
    "front_share": "45 %",
    "wheelbase": "62 in",
    "hitch_distance": "28 in",
    "lift_capacity": "900 lb",
    "lift_rated_at": "610",
    "loader": "none",
}
CUTTER = {"implement_kind": "rotary_cutter", "implement_mass": "412 lb", "cg_distance": "34.3 in"}


def ask(**typed):
    """What the ballast page says of what was given."""
    return search.answer(BALLAST, typed)
