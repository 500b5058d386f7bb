"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Dimension, Disc, Item, Label, Line, Scene, Shape
from calc.subjects import tires as common


def picture(v: model.Inputs, outcome: model.Outcome) -> Scene | None:
    """Return the tire from the side and from the front, to scale."""
    tire = common.dimensions(v.tire)
    if tire is None:
        return None
    radius, height = tire.overall_diameter / 2, tire.static_loaded_radius
    top, half = height + radius, tire.section_width / 2
    x = radius + 0.25 * tire.overall_diameter + half
    lip = (radius - tire.rim_diameter / 2) * 0.35
    front = [
        (x - half + lip, top),
        (x + half - lip, top),
        (x + half, top - lip),
        (x + half, lip),
        (x + half - lip, 0.0),
        (x - half + lip, 0.0),
        (x - half, lip),
        (x - half, top - lip),
    ]
    items: list[Item] = [
        Line([(-radius - 0.1, 0.0), (x + half + 0.1, 0.0)], "ground"),
        common.outline(0.0, tire, "fill"),
        Line(common.outline_points(0.0, tire), "ink"),
        Disc((0.0, height), tire.rim_diameter / 2, "soft", hole=True),
        Disc((0.0, height), 0.015, "ink"),
        Shape(front, "fill"),
        Line([*front, front[0]], "ink"),
        Dimension(
            (-radius, top + 0.06),
            (radius, top + 0.06),
            model.phrase("{d}", d=(tire.overall_diameter, "length")),
        ),
        Dimension((0.0, 0.0), (0.0, height), model.phrase("{r} loaded", r=(height, "length"))),
        Dimension(
            (x - half, top + 0.06),
            (x + half, top + 0.06),
            model.phrase("{w}", w=(tire.section_width, "length")),
        ),
        Label((0.0, height), f"rim {tire.designation.rim:g} in", style="soft", dy=-1.0),
    ]
    return Scene(
        f"{tire.designation.size}, to scale",
        model.phrase(
            "Standing under load: {d} across, {w} wide, axle {r} above the ground",
            d=(tire.overall_diameter, "length"),
            w=(tire.section_width, "length"),
            r=(height, "length"),
        ),
        items,
    )
