"""What is drawn."""

from __future__ import annotations

from collections.abc import Sequence

from calc import model
from calc.mechanics import hitch, quick_coupler
from calc.model.pictures import Dimension, Disc, Item, Label, Line, Picture, Scene, Shape
from calc.subjects.hitching import cut_for, pin_words
from calc.worksheets.hitch.compute import (
    coupled,
    coupler,
    has_top_link,
    implement_category,
    slot,
    top_hole,
    tractor_category,
)

# --- picture -----------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> Sequence[Picture]:
    """Draw the spans from behind, and pins in their holes enlarged, both to scale."""
    return [_spans_scene(v, outcome), _pins_scene(v, outcome)]


def _box(x: float, y: float, wide: float, tall: float, style: str) -> Shape:
    left, right, low, high = x - wide / 2, x + wide / 2, y - tall / 2, y + tall / 2
    return Shape([(left, low), (right, low), (right, high), (left, high)], style)


def _spans_scene(v: model.Inputs, outcome: model.Outcome) -> Scene:
    on_coupler = coupled(v)
    span, ours = outcome.output("span"), outcome.output("tractor_span")
    pin, hole = outcome.output("lower_pin_size"), outcome.output("hole")
    number = hitch.pin_number(coupler(v) if on_coupler else tractor_category(v))
    ball = hitch.size("ball_width", number) if hitch.has_size("ball_width", number) else 0.03
    if on_coupler:
        mast = quick_coupler.coupler_hook_height(coupler(v))
    else:
        mast = float(v.mast_height or hitch.size("mast_height", implement_category(v)))
    drop = 0.3 * mast + 0.12
    items: list[Item] = []
    # The implement seen from behind: a beam between the shoulders, pins outward, the mast.
    items.append(_box(0, 0, span, 1.6 * pin, "fill"))
    items.append(
        Shape(
            [
                (-0.20 * span, 0.8 * pin),
                (0.20 * span, 0.8 * pin),
                (0.045, mast + 0.03),
                (-0.045, mast + 0.03),
            ],
            "fill",
        )
    )
    for side in (-1, 1):
        items.append(_box(side * (span / 2 + 0.045), 0, 0.09, pin, "accent"))
        # The dashed line is the inner face of the ball or hook, carried up to the implement.
        edge = side * ours / 2
        items.append(Line([(edge, -drop - 0.05), (edge, 0.10)], "soft dashed"))
        items.append(_box(side * (ours / 2 + ball / 2), -drop, ball, 1.9 * hole, "ink"))
    items.append(Disc((0, mast), outcome.output("upper_pin_size") / 2, "accent"))
    items.append(Line([(-ours / 2, -drop), (ours / 2, -drop)], "soft"))
    items += [
        Dimension(
            (-span / 2, 0), (span / 2, 0), model.phrase("{s}", s=(span, "length")), -0.06 - pin
        ),
        Dimension(
            (-ours / 2, -drop), (ours / 2, -drop), model.phrase("{s}", s=(ours, "length")), -0.07
        ),
        Dimension(
            (span / 2 + 0.13, 0), (span / 2 + 0.13, mast), model.phrase("{m}", m=(mast, "length"))
        ),
        Label((0, 0.35 * mast), "implement"),
        Label((0, -drop + 0.03), "coupler hooks" if on_coupler else "balls of the lower links"),
    ]
    said = (
        "From behind, to scale: the implement's pins stand {span} apart between shoulders; the "
        "{what} below are drawn {ours} apart."
    )
    return Scene(
        "Span and mast",
        model.phrase(
            said,
            span=(span, "length"),
            ours=(ours, "length"),
            what="coupler's hooks" if on_coupler else "tractor's balls",
        ),
        items,
    )


def _pins_scene(v: model.Inputs, outcome: model.Outcome) -> Scene:
    on_coupler = coupled(v)
    lower, upper = outcome.output("lower_pin_size"), outcome.output("upper_pin_size")
    lower_hole = outcome.output("hole")
    upper_hole = slot(v, "upper") if on_coupler else top_hole(v)
    largest = max(lower, upper, lower_hole, upper_hole)
    items: list[Item] = []
    pairs: list[tuple[str, float, float]] = [("lower pin", lower, lower_hole)]
    if has_top_link(v):
        pairs.append(("top pin", upper, upper_hole))
    for index, (name, pin, hole) in enumerate(pairs):
        x, below = index * 2.4 * largest, -0.62 * largest
        found = cut_for(pin, hole)
        state = {"fits": "fits", "sleeve": "loose", "too big": "doesn't go in"}[found]
        word = "slot" if on_coupler else "hole"
        items += [
            Disc((x, 0), pin / 2, "bad" if found == "too big" else "accent"),
            Disc((x, 0), hole / 2, "ink thick", hole=True),
            Label((x, 0.62 * largest), f"{name}: {state}"),
            Label((x, below), f"pin {pin_words(pin)}"),
            Label((x, below), f"{word} {pin_words(hole)}", dy=1.2),
        ]
    # Points without ink on either side keep the labels inside the picture.
    for x in (-1.0 * largest, (len(pairs) - 1) * 2.4 * largest + 1.0 * largest):
        items.append(Line([(x, 0), (x, 0)], "soft"))
    what = "slot of the coupler" if on_coupler else "hole of the ball or top link"
    return Scene(
        "Pins and holes",
        f"End on and to one scale: each filled circle is a pin, the ring around it the {what}.",
        items,
    )
