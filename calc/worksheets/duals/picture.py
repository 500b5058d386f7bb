"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import tires
from calc.model.pictures import Bar, Bars, Dimension, Item, Label, Line, Picture, Scene, Shape
from calc.worksheets.duals.compute import _sizes

# --- pictures --------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Return the rear view to scale, and the bending against singles."""
    drawn: list[Picture] = []
    if v.rear_tire is not None:
        drawn.append(_rear_view(v, outcome))
    shared, outer = outcome.output("bending_shared"), outcome.output("bending_outer")
    drawn.append(
        Bars(
            "Axle bending against single wheels",
            model.phrase(
                "Singles count as 1: {a} with the load shared, {b} when the outer tire carries all",
                a=f"{shared:.2g}",
                b=f"{outer:.2g}",
            ),
            "count",
            [
                Bar("singles", 1.0, style="soft"),
                Bar("duals, load shared", shared),
                Bar("duals, outer tire alone", outer, style="accent"),
            ],
        )
    )
    return drawn


def _tread(x: float, tire: tires.Dimensions, style: str) -> list[Item]:
    half, top = tire.section_width / 2, tire.overall_diameter
    round_ = min(half * 0.5, 0.1)
    outline = [
        (x - half, round_),
        (x - half + round_, 0.0),
        (x + half - round_, 0.0),
        (x + half, round_),
        (x + half, top - round_),
        (x + half - round_, top),
        (x - half + round_, top),
        (x - half, top - round_),
    ]
    return [Shape(outline, style), Line([*outline, outline[0]], "ink")]


def _rear_view(v: model.Inputs, outcome: model.Outcome) -> Scene:
    inner, outer = _sizes(v)
    assert inner is not None and outer is not None
    apart, half = outcome.output("spacing"), v.track_width / 2
    gap = outcome.output("gap")
    edge = half + apart + outer.section_width / 2
    hub = inner.static_loaded_radius
    top = max(inner.overall_diameter, outer.overall_diameter)
    bearing = max(half - v.axle_overhang, 0.0)
    items: list[Item] = [
        Line([(-edge - 0.1, 0), (edge + 0.1, 0)], "ground"),
        Line([(-half - apart, hub), (half + apart, hub)], "ink thick"),
        Shape(
            [
                (-bearing, hub - 0.09),
                (bearing, hub - 0.09),
                (bearing, hub + 0.09),
                (-bearing, hub + 0.09),
            ],
            "soft",
        ),
    ]
    for side in (-1, 1):
        items += _tread(side * half, inner, "fill")
        items += _tread(side * (half + apart), outer, "accent band")
    items += [
        Label((0, hub), "axle housing", dy=-1.2, style="soft"),
        Dimension(
            (half, top + 0.07), (half + apart, top + 0.07), model.phrase("{s}", s=(apart, "length"))
        ),
        Dimension(
            (-half, top + 0.07),
            (half, top + 0.07),
            model.phrase("track {t}", t=(v.track_width, "length")),
        ),
        Dimension(
            (-edge, top + 0.3),
            (edge, top + 0.3),
            model.phrase("{w} overall", w=(outcome.output("width"), "length")),
        ),
        Dimension(
            (-half, -0.22), (-bearing, -0.22), model.phrase("{e}", e=(v.axle_overhang, "length"))
        ),
        Label((-(half + bearing) / 2, -0.22), "to the bearing", dy=0.9, style="soft"),
    ]
    return Scene(
        "Rear view, to scale",
        model.phrase(
            "{inner} inside and {outer} outside, middles {s} apart; "
            + ("the sidewalls overlap by {gap}" if gap < 0 else "{gap} between the sidewalls"),
            inner=inner.designation.size,
            outer=outer.designation.size,
            s=(apart, "length"),
            gap=(abs(gap), "length"),
        ),
        items,
    )
