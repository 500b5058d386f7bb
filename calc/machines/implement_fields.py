"""The fields that describe an implement."""

from __future__ import annotations

from calc.machines import choices, usual
from calc.machines.usual import ROAD_SIZE
from calc.mechanics import typical
from calc.model import AnyField, Choice, Field, Option, Typical

IMPLEMENT = "Implement"


def implement_kind(example: str = "rotary_cutter") -> Choice:
    """The kind of implement, which gives the typical ranges and the demand for power."""
    options = tuple(Option(key, label) for key, label in typical.implement_kinds())
    return Choice("implement_kind", options, example=example, essential=True, group=IMPLEMENT)


def fields() -> list[AnyField]:
    """Return the fields of an implement, without their words."""
    return [
        Field(
            "tongue_load", "mass", "0 lb", "6,000 lb", typical=usual.tongue_load, group=IMPLEMENT
        ),
        Choice("implement_shaft", choices.SHAFTS, example="540-6", group=IMPLEMENT, usual="unsure"),
        implement_kind(),
        Field(
            "working_width",
            "length",
            "2 in",
            "300 in",
            typical=usual.working_width,
            essential=True,
            group=IMPLEMENT,
        ),
        Field(
            "auger_diameter",
            "length",
            "4 in",
            "30 in",
            typical=usual.auger_diameter,
            group=IMPLEMENT,
        ),
        Field(
            "implement_mass",
            "mass",
            "20 lb",
            "30,000 lb",
            typical=usual.implement_mass,
            essential=True,
            group=IMPLEMENT,
        ),
        Field("load_carried", "mass", "0 lb", "6,000 lb", optional=True, group=IMPLEMENT),
        Field("front_implement_mass", "mass", "20 lb", "4,000 lb", optional=True, group=IMPLEMENT),
        Field("cg_ahead", "length", "0 in", "80 in", typical=usual.cg_ahead, group=IMPLEMENT),
        Field(
            "cg_distance",
            "length",
            "2 in",
            "140 in",
            typical=usual.cg_distance,
            group=IMPLEMENT,
        ),
        Field(
            "raised_height",
            "length",
            "6 in",
            "80 in",
            typical=usual.raised_height,
            group=IMPLEMENT,
        ),
        choices.hitch_category(
            "implement_category",
            "Hitch category of the implement",
            "Measure a lower pin: 7/8 in is Category 1, 1-1/8 in is Category 2.",
            "1",
            IMPLEMENT,
        ),
        Field(
            "power_needed", "power", "1 hp", "200 hp", optional=True, group=IMPLEMENT, whose="pto"
        ),
        Field("power_limit", "power", "5 hp", "300 hp", optional=True, group=IMPLEMENT),
        Field("flow_needed", "flow", "1 gpm", "60 gpm", optional=True, group=IMPLEMENT),
        Field("pins_on_ground", "length", "2 in", "50 in", optional=True, group=IMPLEMENT),
        Field("transport_width", "length", "10 in", "250 in", optional=True, group=IMPLEMENT),
        Field("remotes_needed", "count", "0", "6", example="0", optional=True, group=IMPLEMENT),
        Field(
            "lamps_to_implement",
            "length",
            "4 in",
            "40 ft",
            group=IMPLEMENT,
            typical=Typical(0.8, 2.0, ROAD_SIZE, "compact tractors"),
        ),
        Field(
            "implement_top",
            "length",
            "4 in",
            "15 ft",
            group=IMPLEMENT,
            typical=Typical(0.7, 1.6, ROAD_SIZE, "implements for compact tractors"),
        ),
    ]
