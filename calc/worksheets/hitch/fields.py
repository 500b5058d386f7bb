"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model
from calc.machines.choices import HITCH_CATEGORIES
from calc.machines.vocabulary import field
from calc.subjects import hitching

MEASURED = "Implement, measured"
LINKS = "Tractor, measured"
COUPLER = "Quick coupler"
COUPLERS = ("1", "2", "3N", "3")


def _measured(name: str, low: str, high: str, group: str, unit_us: str = "") -> model.Field:
    return model.Field(name, "length", low, high, optional=True, group=group, unit_us=unit_us)


def _has_coupler(given: Mapping[str, Any]) -> str:
    """Whoever says which category the coupler has, has one."""
    return "u_frame" if given.get("coupler_category") not in (None, "tractor") else ""


FIELDS = (
    # Nothing that is sold is ruled out for a machine that nobody measured.
    field("hitch_category", example="2", essential=True, unsure=HITCH_CATEGORIES),
    field("implement_category", example="1", essential=True, unsure=HITCH_CATEGORIES),
    field("implement_kind", example="rotary_cutter", usual="other"),
    model.Choice(
        "sleeves",
        (model.Option("none", "None fitted"), model.Option("fitted", "Fitted, the right size")),
        example="none",
        essential=True,
        group="Implement",
        usual="none",
    ),
    field("quick_coupler", essential=True, group=COUPLER, told=_has_coupler),
    hitching.measured("lower_pin", MEASURED),
    hitching.measured("upper_pin", MEASURED),
    hitching.measured("implement_span", MEASURED),
    model.Choice(
        "span_between",
        (
            model.Option("either", "Not sure: see which figure it is"),
            model.Option("shoulders", "The shoulders of the pins"),
            model.Option("ball centers", "The middles of the balls"),
        ),
        example="shoulders",
        group=MEASURED,
        usual="either",
    ),
    hitching.measured("mast_height", MEASURED),
    _measured("ball_hole", "0.4 in", "2.5 in", LINKS, "in"),
    field("pto_power", typical=None, optional=True, essential=False, group=LINKS),
    _measured("links_narrowest", "6 in", "60 in", LINKS),
    _measured("links_widest", "6 in", "70 in", LINKS),
    _measured("lift_travel", "4 in", "60 in", LINKS),
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
            model.Option("unseen", "Not looked yet"),
            model.Option("fixed", "A pin through a fixed mast"),
            model.Option("swinging", "A swinging or floating link"),
        ),
        example="fixed",
        usual="unseen",
        group=COUPLER,
    ),
)

OUTPUTS = (
    model.Shown("lower_pin_size", "pin"),
    model.Shown("hole", "pin"),
    model.Shown("slack", "length"),
    model.Shown("span", "length"),
    model.Shown("tractor_span", "length"),
    model.Shown("upper_pin_size", "pin", hidden=True),
    model.Shown("ball", "pin", hidden=True),
    model.Shown("gap", "length", hidden=True),
    model.Shown("apart", "length", hidden=True),
    model.Shown("mast", "length", hidden=True),
    model.Shown("mast_gap", "length", hidden=True),
    model.Shown("hook", "length", hidden=True),
    model.Shown("least_travel", "length", hidden=True),
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
