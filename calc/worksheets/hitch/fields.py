"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model
from calc.machines.vocabulary import field

MEASURED = "Implement, measured"
LINKS = "Tractor, measured"
COUPLER = "Quick coupler"
COUPLERS = ("1", "2", "3N", "3")

FIELDS = (
    field("hitch_category", example="2", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_category", example="1", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_kind", example="rotary_cutter"),
    model.Choice(
        "sleeves",
        (model.Option("none", "None fitted"), model.Option("fitted", "Fitted, the right size")),
        example="none",
        essential=True,
        group="Implement",
        usual="none",
    ),
    field("quick_coupler", essential=True, group=COUPLER),
    model.Field(
        "lower_pin", "length", "0.4 in", "2.5 in", optional=True, group=MEASURED, unit_us="in"
    ),
    model.Field(
        "upper_pin", "length", "0.4 in", "2.5 in", optional=True, group=MEASURED, unit_us="in"
    ),
    model.Field("implement_span", "length", "10 in", "60 in", optional=True, group=MEASURED),
    model.Choice(
        "span_between",
        (
            model.Option("shoulders", "The shoulders of the pins"),
            model.Option("ball centers", "The middles of the balls"),
        ),
        example="shoulders",
        group=MEASURED,
        usual="shoulders",
    ),
    model.Field("mast_height", "length", "6 in", "50 in", optional=True, group=MEASURED),
    model.Field(
        "ball_hole", "length", "0.4 in", "2.5 in", optional=True, group=LINKS, unit_us="in"
    ),
    field("pto_power", typical=None, optional=True, essential=False, group=LINKS),
    model.Field("links_narrowest", "length", "6 in", "60 in", optional=True, group=LINKS),
    model.Field("links_widest", "length", "6 in", "70 in", optional=True, group=LINKS),
    model.Field("lift_travel", "length", "4 in", "60 in", optional=True, group=LINKS),
    model.Choice(
        "coupler_category",
        (
            model.Option("tractor", "The same as the tractor's"),
            *(model.Option(key, f"Category {key}") for key in COUPLERS),
        ),
        example="tractor",
        group=COUPLER,
        usual="tractor",
    ),
    model.Choice(
        "coupler_slots",
        (
            model.Option("wide", "Category 3 pins, as most are"),
            model.Option("own", "Pins of its own category"),
        ),
        example="wide",
        unsure=("wide", "own"),
        group=COUPLER,
    ),
    model.Choice(
        "mast_hole",
        (
            model.Option("unseen", "Not looked yet"),
            model.Option("yes", "Yes"),
            model.Option("no", "No"),
        ),
        example="unseen",
        group=COUPLER,
        usual="unseen",
    ),
    model.Choice(
        "top_link",
        (
            model.Option("fixed", "A pin through a fixed mast"),
            model.Option("swinging", "A swinging or floating link"),
        ),
        example="fixed",
        unsure=("fixed", "swinging"),
        group=COUPLER,
    ),
)


def review(known: Mapping[str, Any]) -> dict[str, str]:
    """Refuse link settings that stand the wrong way round."""
    narrowest, widest = known.get("links_narrowest"), known.get("links_widest")
    if narrowest is not None and widest is not None and narrowest.high > widest.low:
        return {
            "links_widest": "The widest setting of the links is less than the narrowest one: "
            "measure both between the inner faces of the balls."
        }
    return {}
