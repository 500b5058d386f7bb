"""What is asked."""

from __future__ import annotations

from calc import model, si, tables
from calc.machines.vocabulary import field

RULES = tables.by_key("road/towed_mass_rules", "rule")
GRIP = tables.by_key("road/grip", "surface")
USUAL = "road/SIZE-practice"
BEHIND, ROAD, BRAKES = "Behind the tractor", "On the road", "Brakes"
TESTED = 0.25  # what working trailers had to reach in the survey, and what "tested" means here


def _trailer_braking(known: model.KnownSoFar) -> model.Typical | None:
    if known.get("trailer_brakes") == "none":
        return None
    return model.Typical(0.05, 0.20, "road/HSE-697; road/BRAKE-7", "brakes that nobody tested")


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
        group=BEHIND,
        optional=True,
    ),
    model.Choice(
        "trailer_brakes",
        (model.Option("none", "None"), model.Option("own", "Its own, working from the tractor")),
        example="none",
        essential=True,
        group=BEHIND,
    ),
    model.Field(
        "road_speed",
        "speed",
        "1 mph",
        "45 mph",
        example="15 mph",
        essential=True,
        group=ROAD,
        typical=model.Typical(10 * si.MPH, 25 * si.MPH, USUAL, "tractors on the road"),
    ),
    model.Field(
        "grade",
        "slope",
        "-25 %",
        "0 %",
        example="-5 %",
        essential=True,
        group=ROAD,
        typical=model.Typical(-0.08, 0.0, USUAL, "country roads"),
    ),
    model.Field(
        "room",
        "distance",
        "10 ft",
        "1,500 ft",
        example="150 ft",
        essential=True,
        group=ROAD,
        optional=True,
    ),
    model.Choice(
        "surface",
        tuple(model.Option(key, row["label"]) for key, row in GRIP.items()),
        example="dry_pavement",
        usual="dry_pavement",
        group=ROAD,
    ),
    model.Choice(
        "ratio_rule",
        tuple(
            model.Option(key, row["text"]) for key, row in RULES.items() if row["brakes"] == "none"
        ),
        example="unbraked-small",
        group="Rules",
        usual="unbraked-small",
    ),
    model.Field("manual_limit", "mass", "50 lb", "60,000 lb", optional=True, group="Rules"),
    model.Field("chain_rating", "mass", "50 lb", "100,000 lb", optional=True, group=BEHIND),
    model.Field("tongue_weight", "mass", "1 lb", "10,000 lb", optional=True, group=BEHIND),
    model.Field("drawbar_limit", "mass", "50 lb", "20,000 lb", optional=True, group="Rules"),
    model.Field(
        "trailer_braking",
        "fraction",
        "0 %",
        "60 %",
        group=BRAKES,
        typical=_trailer_braking,
    ),
    model.Choice(
        "braked_wheels",
        (
            model.Option("rear", "The rear wheels alone"),
            model.Option("all", "All four, or the front drive is engaged for the descent"),
        ),
        example="rear",
        usual="rear",
        group=BRAKES,
    ),
    model.Field(
        "own_deceleration",
        "acceleration",
        "1 ft/s2",
        "30 ft/s2",
        example="3.55 m/s2",
        group=BRAKES,
        typical=model.Typical(2.7, 3.55, "road/GRIP-1; road/EU-2", "compact tractors, dry road"),
    ),
    model.Field(
        "reaction_time",
        "seconds",
        "0.3 s",
        "6 s",
        example="1.5 s",
        group=BRAKES,
        typical=model.Typical(1.0, 2.5, "road/DOT-1", "drivers, surprised or not"),
    ),
)

OUTPUTS = (
    model.Shown("stop", "distance"),
    model.Shown("alone", "distance"),
    model.Shown("longer", "distance"),
    model.Shown("heaviest", "mass"),
    model.Shown("fastest", "speed"),
    model.Shown("stop_fastest", "distance"),
    model.Shown("limit", "mass"),
    model.Shown("ratio_now", "count"),
    model.Shown("left", "acceleration"),
    model.Shown("slope_share", "fraction"),
    model.Shown("heat", "power"),
    model.Shown("tongue", "mass"),
    model.Shown("downgrade", "slope", hidden=True),
    model.Shown("own", "acceleration", hidden=True),
    model.Shown("shared", "acceleration", hidden=True),
    model.Shown("pull", "acceleration", hidden=True),
    model.Shown("top", "speed", hidden=True),
    model.Shown("least_tongue", "mass", hidden=True),
    model.Shown("little", "mass", hidden=True),
    model.Shown("least_stop", "distance", hidden=True),
    model.Shown("walking", "speed", hidden=True),
    model.Shown("chain_needed", "mass", hidden=True),
    model.Shown("compact_most", "mass", hidden=True),
)
