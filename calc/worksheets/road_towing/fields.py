"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines.vocabulary import field

_RULES = tables.by_key("road/towed_mass_rules", "rule")
RULES = tuple(model.Option(key, row["text"]) for key, row in _RULES.items())

FIELDS = (
    field("tractor_kind", example="compact_heavy"),
    field("tractor_mass", example="2,800 lb"),
    model.Field(
        "towed_mass",
        "mass",
        "50 lb",
        "60,000 lb",
        example="4,000 lb",
        essential=True,
        group="Behind the tractor",
        typical=model.Typical(
            450.0, 2700.0, "road/SIZE-practice", "trailers behind compact tractors"
        ),
    ),
    model.Choice(
        "trailer_brakes",
        (
            model.Option("none", "None"),
            model.Option("own", "Its own, working from the tractor"),
        ),
        example="none",
        essential=True,
        group="Behind the tractor",
    ),
    model.Field(
        "road_speed",
        "speed",
        "1 mph",
        "45 mph",
        example="15 mph",
        essential=True,
        group="On the road",
        typical=model.Typical(4.5, 11.2, "road/SIZE-practice", "tractors on the road"),
    ),
    model.Field(
        "grade",
        "slope",
        "-25 %",
        "0 %",
        example="-5 %",
        essential=True,
        group="On the road",
        typical=model.Typical(-0.08, 0.0, "road/SIZE-practice", "country roads"),
    ),
    model.Field(
        "room",
        "distance",
        "10 ft",
        "1,500 ft",
        example="150 ft",
        essential=True,
        group="On the road",
        typical=model.Typical(30.0, 90.0, "road/SIZE-practice", "lanes and country roads"),
    ),
    model.Choice(
        "ratio_rule",
        tuple(option for option in RULES if option.value.startswith("unbraked")),
        example="unbraked-small",
        group="Rules",
        usual="unbraked-small",
    ),
    model.Field("manual_limit", "mass", "50 lb", "60,000 lb", optional=True, group="Rules"),
    model.Field(
        "chain_rating", "mass", "50 lb", "100,000 lb", optional=True, group="Behind the tractor"
    ),
    model.Field(
        "top_speed",
        "speed",
        "5 mph",
        "45 mph",
        example="17 mph",
        group="Brakes",
        typical=model.Typical(5.4, 11.2, "road/SIZE-practice", "compact and utility tractors"),
    ),
    model.Field(
        "own_deceleration", "acceleration", "1 ft/s2", "30 ft/s2", optional=True, group="Brakes"
    ),
    model.Field(
        "reaction_time",
        "seconds",
        "0.3 s",
        "6 s",
        example="1.5 s",
        group="Brakes",
        typical=model.Typical(1.0, 2.5, "road/DOT-1", "drivers, surprised or not"),
    ),
)
