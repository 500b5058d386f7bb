"""What is asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from calc import model, tables
from calc.machines.vocabulary import field
from calc.quantities import Reading
from calc.subjects import hitching, raised
from calc.worksheets.pairing import checks as pairing
from calc.worksheets.pairing.hooking import NOT_SURE

FRONT_RULES = tuple(
    model.Option(row["key"], row["label"])
    for row in tables.rows("hitch/twenty_percent_rules")
    if row["key"] in ("tractor", "combined", "front_half")
)

ROAD = "On the road"

EXAMPLES = {
    "mass_as": "bare",
    "front_share": "45 %",
    "wheelbase": "62 in",
    "hitch_distance": "28 in",
    "link_length": "28 in",
    "cg_height": "22 in",
    "front_ballast_distance": "26 in",
    "track_width": "42 in",
    "axle_pin_height": "13 in",
    "raised_height": "28 in",
}


# Each of these is of an implement, of whichever kind; what one asks for settles a question by
# itself. A width is not among them: it says nothing until it is known of what.
OF_AN_IMPLEMENT = (
    "implement_mass",
    "cg_distance",
    "implement_category",
    "power_needed",
    "flow_needed",
    "remotes_needed",
    "pins_on_ground",
)


def _category(name: str) -> model.AnyField:
    """Return a hitch category that may be left open: the pairing then says it wasn't checked."""
    item = field(name)
    assert isinstance(item, model.Choice)
    options = (*item.options, model.Option(NOT_SURE, "Not sure"))
    return replace(item, options=options, unsure=(), usual=NOT_SURE)


FIELDS = (
    field("loader"),
    field("tractor_kind", example="compact_light"),
    field("pto_power", example="20 hp"),
    field("tractor_mass", example="1,650 lb"),
    field("lift_capacity", example="900 lb"),
    field("lift_rated_at", example="610"),
    field(
        "implement_kind",
        example="rotary_cutter_light",
        needed=True,
        told_by=tuple((name, "other") for name in OF_AN_IMPLEMENT),
    ),
    field("working_width", example="60 in"),
    field("implement_mass"),
    field("auger_diameter", example="9 in"),
    field("material", example="light"),
    *(
        field(name, **({"example": EXAMPLES[name]} if name in EXAMPLES else {}))
        for name in raised.LOAD_FIELDS
    ),
    field("transmission"),
    field("breathing"),
    field("driven"),
    _category("hitch_category"),
    field("tractor_width"),
    field("remotes"),
    field("implement_flow"),
    field("cg_distance"),
    _category("implement_category"),
    *(hitching.measured(name, "Implement") for name in hitching.MEASURED),
    field("shaft"),
    field("implement_shaft"),
    field("mid_pto"),
    field("power_needed"),
    field("power_limit"),
    field("remotes_needed"),
    field("flow_needed"),
    field("pins_on_ground"),
    field("balls_highest"),
    field("slope", typical=None, optional=True),
    field("cross_slope"),
    field("ground_speed"),
    field("altitude"),
    model.Choice(
        "place",
        (
            model.Option(pairing.OFF_ROAD, "It stays off the road"),
            *(model.Option(row["place"], row["name"]) for row in tables.rows("road/road_places")),
        ),
        example=pairing.OFF_ROAD,
        group=ROAD,
        usual="none",
    ),
    field("transport_width", group=ROAD),
    field("tail_height", example="40 in", group=ROAD),
    field("lamp_spread", example="44 in", group=ROAD),
    field("lamps_to_implement", example="60 in", group=ROAD),
    field("implement_top", example="44 in", group=ROAD),
    model.Choice("front_rule", FRONT_RULES, example="tractor", group="Job", usual="tractor"),
)

OUTPUTS = (
    *raised.LOADS,
    model.Shown("clearance", "length", hidden=True),
    model.Shown("clear_right", "length", hidden=True),
    model.Shown("across_right", "slope", hidden=True),
    model.Shown("power_left", "power"),
    model.Shown("power_walking", "power", hidden=True),
    model.Shown("power_least", "power", hidden=True),
    model.Shown("power_demand", "power"),
    model.Shown("here", "power", hidden=True),
    model.Shown("engine", "power", hidden=True),
    model.Shown("held", "force", hidden=True),
    model.Shown("climb_power", "power", hidden=True),
    model.Shown("altitude_share", "fraction", hidden=True),
    model.Shown("climb_share", "load_share", hidden=True),
    # As a phone's level shows them.
    model.Shown("across_here", "slope", "deg", "deg", hidden=True),
    model.Shown("up_here", "slope", "deg", "deg", hidden=True),
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
