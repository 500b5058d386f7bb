"""What is drawn."""

from __future__ import annotations

import math

from calc import model
from calc.mechanics import turf
from calc.model.pictures import Item, Label, Line, Picture, Scene, Shape
from calc.worksheets.lawn.compute import reach_down, wheel, yields

# --- pictures -------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """A cut through the soil at a sprinkler head, and the prints of the tires."""
    drawn: list[Picture] = []
    if v.sprinklers != "no":
        drawn.append(_cut(v))
    drawn.append(_prints(v))
    return drawn


def _cut(v: model.Inputs) -> Scene:
    down = reach_down(v)
    deepest = max(0.07, down + 0.03, v.head_depth + 0.04, v.box_depth + 0.04)
    head, box = -v.head_depth, -v.box_depth
    left, right = -0.20, 0.22
    clear = min(v.head_depth, v.box_depth) >= (0.0 if yields(v) else down)
    style = "good" if clear else "bad"
    items: list[Item] = [
        Shape([(left, 0.0), (right, 0.0), (right, -deepest), (left, -deepest)], "ground"),
        Shape([(-0.025, head), (0.025, head), (0.025, -deepest), (-0.025, -deepest)], "fill"),
        Shape([(0.07, box), (0.20, box), (0.20, -deepest), (0.07, -deepest)], "fill"),
        Line([(left, 0.0), (right, 0.0)], "ink thick"),
        *_tips(v),
        Line([(left, -down), (right, -down)], f"{style} dashed"),
        Label((0.0, max(head, 0.0)), "Sprinkler head", dy=-0.8),
        Label((0.135, max(box, 0.0)), "Valve box", dy=-0.8),
        Label((left, -deepest), _reach_words(v, clear), "start", style, dy=0.8),
    ]
    works = "{z} deep" if v.tool_depth else "on the surface"
    return Scene(
        "A cut through the lawn",
        model.phrase(
            f"The tool works {works} and may reach {{d}} with bounce and settling; the highest "
            f"head {_stands('s', v.head_depth)} and the highest box {_stands('b', v.box_depth)}.",
            z=(v.tool_depth, "length"),
            d=(down, "length"),
            s=(abs(v.head_depth), "length"),
            b=(abs(v.box_depth), "length"),
        ),
        items,
    )


def _stands(name: str, depth: float) -> str:
    """How something buried `depth` m deep stands in the soil, its number by `name`."""
    if depth == 0:
        return "is flush with the soil"
    return f"is {{{name}}} below the soil" if depth > 0 else f"stands {{{name}}} proud of it"


def _reach_words(v: model.Inputs, clear: bool) -> model.Phrase:
    said = "clear of it" if clear else "flag what stands above"
    return model.phrase(f"Dashed: {{d}}, the tool's reach; {said}", d=(reach_down(v), "length"))


def _tips(v: model.Inputs) -> list[Item]:
    """The working tips of the tool, drawn at their depth."""
    z = v.tool_depth
    if v.tool == "spring-tine":
        return [
            Line([(x + 0.022, 0.06), (x + 0.010, 0.014), (x - 0.010, -z)], "accent thick")
            for x in (-0.175, -0.135)
        ]
    if v.tool == "roller":
        return []
    return [
        Shape([(x - 0.008, 0.06), (x + 0.008, 0.06), (x + 0.006, -z), (x - 0.006, -z)], "accent")
        for x in (-0.175, -0.125)
    ]


def _oval(center: tuple[float, float], width: float, length: float) -> list[tuple[float, float]]:
    return [
        (
            center[0] + width / 2.0 * math.cos(math.pi * step / 16.0),
            center[1] + length / 2.0 * math.sin(math.pi * step / 16.0),
        )
        for step in range(32)
    ]


def _prints(v: model.Inputs) -> Scene:
    limit = turf.turf_limit(v.soil_state)
    items: list[Item] = []
    across = 0.0
    wheels = [wheel("front", v), wheel("rear", v)]
    for one in wheels:
        round_width = math.sqrt(4.0 * one.print_area / math.pi)
        width = one.tire.section_width if one.tire is not None else round_width
        length = 4.0 * one.print_area / (math.pi * width)
        full = 4.0 * (one.largest_print or 0.0) / (math.pi * width)
        half = max(length, full) / 2.0
        middle = (across + max(width, 0.16) / 2.0, 0.0)
        items.append(
            Shape(_oval(middle, width, length), "good" if one.pressure <= limit else "bad")
        )
        if full:
            items.append(
                Line([*_oval(middle, width, full), (middle[0] + width / 2, 0.0)], "soft dashed")
            )
        items += [
            Label((middle[0], half), f"{one.axle.capitalize()} tire", dy=-0.8),
            Label(
                (middle[0], -half),
                model.phrase(
                    "{p} over {a}", p=(one.pressure, "pressure"), a=(one.print_area, "area_small")
                ),
                dy=0.9,
            ),
        ]
        across += max(width, 0.16) + 0.30
    return Scene(
        "Prints of one front and one rear tire",
        model.phrase(
            "{front} under the front tire and {rear} under the rear one, against {limit} for this "
            "soil; a dashed line is the print at normal flattening",
            front=(wheels[0].pressure, "pressure"),
            rear=(wheels[1].pressure, "pressure"),
            limit=(limit, "pressure"),
        ),
        items,
    )
