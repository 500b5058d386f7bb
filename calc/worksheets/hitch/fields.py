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
    field("hitch_category", default="2", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_category", default="1", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_kind", default="rotary_cutter"),
    model.Choice(
        "sleeves",
        "Sleeves on the implement's pins",
        (model.Option("none", "None fitted"), model.Option("fitted", "Fitted, the right size")),
        "Steel tubes that slide over a pin and bring it up to a larger hole or slot.",
        default="none",
        essential=True,
        group="Implement",
    ),
    field("quick_coupler", essential=True, group=COUPLER),
    model.Field(
        "lower_pin",
        "Diameter of a lower pin",
        "length",
        "0.4 in",
        "2.5 in",
        "With a caliper where the ball runs, not over paint or a sleeve. A tape will do.",
        optional=True,
        group=MEASURED,
        unit_us="in",
    ),
    model.Field(
        "upper_pin",
        "Diameter of the top pin",
        "length",
        "0.4 in",
        "2.5 in",
        "The loose pin through the mast, or the hole it came out of.",
        optional=True,
        group=MEASURED,
        unit_us="in",
    ),
    model.Field(
        "implement_span",
        "Distance between the lower pins",
        "length",
        "10 in",
        "60 in",
        "From one pin's shoulder to the other's, where the balls stop.",
        optional=True,
        group=MEASURED,
    ),
    model.Choice(
        "span_between",
        "That distance is measured between",
        (
            model.Option("shoulders", "The shoulders of the pins"),
            model.Option("ball centers", "The middles of the balls"),
        ),
        "Charts print either; they differ by the width of one ball.",
        default="shoulders",
        group=MEASURED,
    ),
    model.Field(
        "mast_height",
        "Height of the top pin above the lower pins",
        "length",
        "6 in",
        "50 in",
        "Straight up from the line of the lower pins to the hole in use.",
        optional=True,
        group=MEASURED,
    ),
    model.Field(
        "ball_hole",
        "Hole in a lower ball",
        "length",
        "0.4 in",
        "2.5 in",
        "Across the hole of the ball at the end of a lower link.",
        optional=True,
        group=LINKS,
        unit_us="in",
    ),
    field("pto_power", typical=None, optional=True, essential=False, group=LINKS),
    model.Field(
        "links_narrowest",
        "Lower links, narrowest setting",
        "length",
        "6 in",
        "60 in",
        "Between the inner faces of the two balls, stabilizers turned all the way in.",
        optional=True,
        group=LINKS,
    ),
    model.Field(
        "links_widest",
        "Lower links, widest setting",
        "length",
        "6 in",
        "70 in",
        "Between the inner faces of the two balls, stabilizers turned all the way out.",
        optional=True,
        group=LINKS,
    ),
    model.Field(
        "lift_travel",
        "Travel of the balls from lowest to highest",
        "length",
        "4 in",
        "60 in",
        "Height of a ball above level ground, hitch up, less the same with the hitch down.",
        optional=True,
        group=LINKS,
    ),
    model.Choice(
        "coupler_category",
        "Category of the coupler",
        (
            model.Option("tractor", "The same as the tractor's"),
            *(model.Option(key, f"Category {key}") for key in COUPLERS),
        ),
        "By its hooks: about 27 in apart is Category 1, 32 in is 2, 38 in is 3.",
        default="tractor",
        group=COUPLER,
    ),
    model.Choice(
        "coupler_slots",
        "Its slots are cut for",
        (
            model.Option("wide", "Category 3 pins, as most are"),
            model.Option("own", "Pins of its own category"),
        ),
        "Most take a 1-7/16 in pin below and a 1-1/4 in pin on top; some Category 1 couplers are "
        "cut small.",
        default="wide",
        unsure=("wide", "own"),
        group=COUPLER,
    ),
    model.Choice(
        "mast_hole",
        "Hole in the mast at the coupler's top hook",
        (
            model.Option("unseen", "Not looked yet"),
            model.Option("yes", "Yes"),
            model.Option("no", "No"),
        ),
        "The hook stands about 15 in above the lower hooks in Category 1 and 2, 19 in in "
        "Category 3. Many masts have a second hole for it.",
        default="unseen",
        group=COUPLER,
    ),
    model.Choice(
        "top_link",
        "At the top the implement has",
        (
            model.Option("fixed", "A pin through a fixed mast"),
            model.Option("swinging", "A swinging or floating link"),
        ),
        "Many rotary cutters and flail mowers have a link that swings, so that they follow the "
        "ground.",
        default="fixed",
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
