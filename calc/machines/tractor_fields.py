"""The fields that describe a tractor: its engine, axles, hitch, tires, loader and lamps."""

from __future__ import annotations

from calc.machines import choices, tire_entry, usual
from calc.machines.usual import ROAD_SIZE
from calc.mechanics import typical
from calc.model import AnyField, Choice, Entry, Field, Option, Typical

TRACTOR, PARTS, LOADER = "Tractor", "The tractor as it stands", "Loader"

_ROLL = (
    "From the roll-out sheet: mark tire and ground, roll straight for ten turns at work load and "
    "pressure, measure."
)


def tractor_kind(example: str = "compact_light") -> Choice:
    """The class of tractor, which gives the typical ranges."""
    options = [Option(key, label) for key, label in typical.tractor_kinds()]
    return Choice(
        "tractor_kind",
        (*options, Option(usual.ANY, "Not sure")),
        example=example,
        essential=True,
        group=TRACTOR,
        usual=usual.ANY,
    )


def fields() -> list[AnyField]:
    """Return the fields of a tractor, without their words."""
    return [
        tractor_kind(),
        Field(
            "engine_power", "power", "5 hp", "250 hp", optional=True, group=TRACTOR, whose="engine"
        ),
        Field(
            "pto_power",
            "power",
            "3 hp",
            "220 hp",
            typical=usual.of_tractor("pto_power"),
            essential=True,
            group=TRACTOR,
            whose="pto",
        ),
        Choice("transmission", choices.TRANSMISSIONS, example="hydrostatic", group=TRACTOR),
        Choice("breathing", choices.BREATHING, example="natural", group=TRACTOR),
        Choice("driven", choices.DRIVEN, example="four", group=TRACTOR),
        Field(
            "tractor_mass",
            "mass",
            "300 lb",
            "20,000 lb",
            typical=usual.of_tractor("mass"),
            essential=True,
            group=TRACTOR,
        ),
        Choice("mass_as", choices.MASS_AS, example="scale", group=PARTS, usual="bare"),
        Choice(
            "loader",
            choices.LOADER,
            example="off",
            essential=True,
            group=TRACTOR,
            unsure=("off", "on"),
            told_by=(("loader_payload", "on"),),
        ),
        Choice(
            "cab",
            (Option("open", "Open, with a roll bar"), Option("cab", "Cab")),
            example="open",
            group=PARTS,
            usual="open",
        ),
        Field("driver_mass", "mass", "0 lb", "500 lb", typical=usual.driver_mass, group=PARTS),
        Field("loader_mass", "mass", "50 lb", "4,000 lb", typical=usual.loader_mass, group=PARTS),
        Field("loader_ahead", "length", "-20 in", "60 in", typical=usual.loader_ahead, group=PARTS),
        Choice("tire_liquid", choices.liquids(), example="none", group=PARTS, usual="none"),
        Field("liquid_mass", "mass", "0 lb", "6,000 lb", typical=usual.liquid_mass, group=PARTS),
        Field("wheel_weights", "mass", "0 lb", "4,000 lb", optional=True, group=PARTS),
        Field("loader_payload", "mass", "0 lb", "6,000 lb", optional=True, group=LOADER),
        Choice("loader_tool", choices.tools(), example="bucket", group=LOADER, usual="bucket"),
        Field("loader_rating", "mass", "100 lb", "9,000 lb", optional=True, group=LOADER),
        Choice(
            "loader_rating_at",
            choices.LOADER_RATED_AT,
            example="pins",
            group=LOADER,
            unsure=("pins", "500"),
        ),
        Field(
            "loader_reach",
            "length",
            "12 in",
            "120 in",
            typical=usual.if_loader("loader_reach"),
            group=LOADER,
        ),
        Field(
            "loader_height",
            "length",
            "6 in",
            "180 in",
            typical=usual.if_loader("full_height"),
            group=LOADER,
        ),
        Field("counterweight_asked", "mass", "50 lb", "6,000 lb", optional=True, group=LOADER),
        Field("front_tire_load", "mass", "100 lb", "10,000 lb", optional=True, group=TRACTOR),
        Field(
            "lift_ratio",
            "fraction",
            "40 %",
            "100 %",
            typical=Typical(*typical.lift_ratio(), "hitch/B1; hitch/B2", "published pairs"),
            group=TRACTOR,
        ),
        Field("front_axle_mass", "mass", "50 lb", "10,000 lb", optional=True, group=TRACTOR),
        Field(
            "front_share",
            "fraction",
            "20 %",
            "65 %",
            typical=usual.of_tractor("front_share"),
            group=TRACTOR,
        ),
        Field(
            "wheelbase",
            "length",
            "40 in",
            "130 in",
            typical=usual.of_tractor("wheelbase"),
            group=TRACTOR,
        ),
        Field(
            "hitch_distance",
            "length",
            "12 in",
            "60 in",
            typical=usual.of_tractor("hitch_distance"),
            group=TRACTOR,
        ),
        Field(
            "link_length",
            "length",
            "16 in",
            "50 in",
            typical=usual.of_tractor("link_length"),
            group=TRACTOR,
        ),
        Field(
            "lift_capacity",
            "mass",
            "50 lb",
            "15,000 lb",
            typical=usual.lift_capacity,
            essential=True,
            group=TRACTOR,
        ),
        Field("lift_at_ball_ends", "mass", "50 lb", "20,000 lb", optional=True, group=TRACTOR),
        Choice(
            "lift_rated_at",
            choices.LIFT_RATED_AT,
            example="610",
            essential=True,
            group=TRACTOR,
            unsure=("610", "0"),
            told=usual.lift_rated_at,
        ),
        choices.hitch_category(
            "hitch_category",
            "Hitch category of the tractor",
            "Measure a lower ball's hole: 7/8 in pins are Category 1, 1-1/8 in are Category 2.",
            "1",
            TRACTOR,
        ),
        Choice(
            "quick_coupler",
            (Option("none", "None"), Option("u_frame", "U-frame coupler")),
            example="none",
            group=TRACTOR,
            usual="none",
        ),
        Field(
            "front_ballast",
            "mass",
            "0 lb",
            "3,000 lb",
            example="0 lb",
            typical=Typical(0.0, 0.0, "hitch/PRACTICE", "tractors without front weights"),
            group=TRACTOR,
        ),
        Field(
            "front_ballast_distance",
            "length",
            "0 in",
            "100 in",
            typical=Typical(0.5, 0.9, "hitch/PRACTICE", "front weights on a bracket"),
            group=TRACTOR,
        ),
        Field(
            "track_width",
            "length",
            "30 in",
            "100 in",
            typical=usual.of_tractor("track"),
            group=TRACTOR,
        ),
        Field(
            "cg_height",
            "length",
            "12 in",
            "60 in",
            typical=usual.of_tractor("cg_height"),
            group=TRACTOR,
        ),
        Field("tractor_width", "length", "30 in", "120 in", optional=True, group=TRACTOR),
        Field("front_axle_limit", "mass", "150 lb", "15,000 lb", optional=True, group=TRACTOR),
        Field("rear_axle_limit", "mass", "300 lb", "20,000 lb", optional=True, group=TRACTOR),
        Field("total_limit", "mass", "500 lb", "30,000 lb", optional=True, group=TRACTOR),
        Field("rear_tire_load", "mass", "100 lb", "10,000 lb", optional=True, group=TRACTOR),
        Field("rear_tire_pressure", "pressure", "5 psi", "90 psi", optional=True, group=TRACTOR),
        Field("front_tire_pressure", "pressure", "5 psi", "90 psi", optional=True, group=TRACTOR),
        Entry("front_tire", tire_entry.read_size, such_as="7-16 6PR", group=TRACTOR),
        Entry("rear_tire", tire_entry.read_size, such_as="11.2-24 6PR", group=TRACTOR),
        Field(
            "old_front_ten_turns",
            "length",
            "18 ft",
            "230 ft",
            help=_ROLL,
            optional=True,
            group=TRACTOR,
            unit_us="ft",
            unit_metric="m",
        ),
        Field(
            "old_rear_ten_turns",
            "length",
            "18 ft",
            "230 ft",
            help=_ROLL,
            optional=True,
            group=TRACTOR,
            unit_us="ft",
            unit_metric="m",
        ),
        Choice("shaft", choices.SHAFTS, example="540-6", group=TRACTOR, usual="unsure"),
        Choice("mid_pto", choices.MID_PTO, example="unsure", group=TRACTOR, usual="unsure"),
        Field("front_lift_capacity", "mass", "50 lb", "6,000 lb", optional=True, group=TRACTOR),
        Field("front_turns", "count", "0.8", "25", optional=True, group=TRACTOR),
        Field("remotes", "count", "0", "6", optional=True, group=TRACTOR),
        Field(
            "balls_highest", "length", "12 in", "70 in", typical=usual.balls_highest, group=TRACTOR
        ),
        Field("implement_flow", "flow", "1 gpm", "60 gpm", optional=True, group=TRACTOR),
        Field(
            "tail_height",
            "length",
            "10 in",
            "130 in",
            group=TRACTOR,
            typical=Typical(0.9, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "lamp_spread",
            "length",
            "8 in",
            "130 in",
            group=TRACTOR,
            typical=Typical(0.8, 1.4, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "axle_pin_height",
            "length",
            "4 in",
            "40 in",
            typical=Typical(0.25, 0.5, "hitch/PRACTICE", "tractors"),
            group=TRACTOR,
        ),
    ]
