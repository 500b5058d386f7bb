"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines.vocabulary import field

_RULES = tables.by_key("road/towed_mass_rules", "rule")
RULES = tuple(model.Option(key, row["text"]) for key, row in _RULES.items())

FIELDS = (
    field("tractor_kind", default="compact_heavy"),
    field("tractor_mass", default="2,800 lb"),
    model.Field(
        "towed_mass",
        "Loaded mass of what you tow",
        "mass",
        "50 lb",
        "60,000 lb",
        "Machine and load together. The plate gives the gross weight; a scale is best.",
        default="4,000 lb",
        essential=True,
        group="Behind the tractor",
        typical=model.Typical(
            450.0, 2700.0, "road/SIZE-practice", "trailers behind compact tractors"
        ),
    ),
    model.Choice(
        "trailer_brakes",
        "Brakes on what you tow",
        (
            model.Option("none", "None"),
            model.Option("own", "Its own, working from the tractor"),
        ),
        "A parking brake doesn't count.",
        default="none",
        essential=True,
        group="Behind the tractor",
    ),
    model.Field(
        "road_speed",
        "Your speed on the road",
        "speed",
        "1 mph",
        "45 mph",
        "With this load.",
        default="15 mph",
        essential=True,
        group="On the road",
        typical=model.Typical(4.5, 11.2, "road/SIZE-practice", "tractors on the road"),
    ),
    model.Field(
        "grade",
        "Steepest slope of the trip",
        "slope",
        "-25 %",
        "0 %",
        "Downhill is negative.",
        default="-5 %",
        essential=True,
        group="On the road",
        typical=model.Typical(-0.08, 0.0, "road/SIZE-practice", "country roads"),
    ),
    model.Field(
        "room",
        "Room in which you want to stop",
        "distance",
        "10 ft",
        "1,500 ft",
        "What you can see ahead on the worst bend or crest, or the gap you keep.",
        default="150 ft",
        essential=True,
        group="On the road",
        typical=model.Typical(30.0, 90.0, "road/SIZE-practice", "lanes and country roads"),
    ),
    model.Choice(
        "ratio_rule",
        "Rule for an unbraked load",
        tuple(option for option in RULES if option.value.startswith("unbraked")),
        "Printed rules differ. For a compact tractor the default takes the load no heavier than "
        "the tractor; the answer lists what the others give.",
        default="unbraked-small",
        group="Rules",
    ),
    model.Field(
        "manual_limit",
        "Towing limit in the manual or on a decal",
        "mass",
        "50 lb",
        "60,000 lb",
        "The tractor's manual, the drawbar decal or the implement's decal: the lowest of them.",
        optional=True,
        group="Rules",
    ),
    model.Field(
        "chain_rating",
        "Rating of the safety chain",
        "mass",
        "50 lb",
        "100,000 lb",
        "On the tag or the hooks. Ask whether it is the working load or the breaking load: the "
        "working load counts.",
        optional=True,
        group="Behind the tractor",
    ),
    model.Field(
        "top_speed",
        "Top speed of the tractor",
        "speed",
        "5 mph",
        "45 mph",
        "In its highest gear; it picks the class of brakes.",
        default="17 mph",
        group="Brakes",
        typical=model.Typical(5.4, 11.2, "road/SIZE-practice", "compact and utility tractors"),
    ),
    model.Field(
        "own_deceleration",
        "Braking of the tractor alone",
        "acceleration",
        "1 ft/s2",
        "30 ft/s2",
        "From a brake test: speed squared divided by twice the stopping distance. Blank takes "
        "the least that type approval asks of a tractor of this speed.",
        optional=True,
        group="Brakes",
    ),
    model.Field(
        "reaction_time",
        "Time until you brake",
        "seconds",
        "0.3 s",
        "6 s",
        "Highway design uses 2.5 s. The type-approval formula has no driver in it.",
        default="1.5 s",
        group="Brakes",
        typical=model.Typical(1.0, 2.5, "road/DOT-1", "drivers, surprised or not"),
    ),
)
