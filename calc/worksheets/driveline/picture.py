"""What is drawn."""

from __future__ import annotations

import math

from calc import model
from calc.mechanics import universal_joint
from calc.model.pictures import Chart, Dimension, Disc, Label, Line, Picture, Scene, Series, Shape
from calc.worksheets.driveline.compute import angles


def _drawn(
    v: model.Inputs, length: float, y: float, name: str
) -> list[Line | Shape | Disc | Label | Dimension]:
    """One driveline, straight, at a length: joints, two tubes and their overlap."""
    ends = 0.5 * (v.closed_length - v.tube_length)
    half = 0.028
    overlap = max(0.0, min(v.tube_length, v.tube_length - (length - v.closed_length)))
    outer = (ends, ends + v.tube_length)
    inner = (length - ends - v.tube_length, length - ends)
    items: list[Line | Shape | Disc | Label | Dimension] = []
    for (start, end), size, style in ((outer, half, "soft"), (inner, 0.7 * half, "fill")):
        items.append(
            Shape([(start, y - size), (end, y - size), (end, y + size), (start, y + size)], style)
        )
    if overlap > 0:
        low, high = max(outer[0], inner[0]), min(outer[1], inner[1])
        items.append(
            Shape([(low, y - half), (high, y - half), (high, y + half), (low, y + half)], "accent")
        )
    for x in (0.0, length):
        items.append(Disc((x, y), 1.7 * half, "ink", hole=True))
    items += [
        Line([(0, y), (ends, y)], "ink thick"),
        Line([(length - ends, y), (length, y)], "ink thick"),
        Label(
            (0.5 * length, y),
            model.phrase(f"{name}: {{overlap}} overlap", overlap=(overlap, "length"))
            if overlap > 0
            else f"{name}: the halves part",
            dy=1.7,
        ),
    ]
    return items


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture] | None:
    """The shaft at its shortest and longest, to scale, and its speed through one turn."""
    both: tuple[Picture | None, ...] = (_lengths(v, outcome), _turn(v, outcome))
    drawn = [each for each in both if each is not None]
    return drawn or None


def _lengths(v: model.Inputs, outcome: model.Outcome) -> Scene | None:
    named = {output.name: output.value for output in outcome.outputs}
    if "overlap_longest" not in named:
        return None
    shortest, longest = named["shortest"], named["longest"]
    gap, apart = named["gap"], 0.36
    return Scene(
        "Driveline at its shortest and longest",
        model.phrase(
            "To scale: at {shortest} the closed driveline leaves a gap of {gap}; at {longest} the "
            "tubes overlap by {overlap}. The overlap is the filled part.",
            shortest=(shortest, "length"),
            longest=(longest, "length"),
            gap=(gap, "length"),
            overlap=(named["overlap_longest"], "length"),
        ),
        [
            *_drawn(v, shortest, apart, "shortest"),
            Dimension(
                (0, apart), (shortest, apart), model.phrase("{d}", d=(shortest, "length")), 0.11
            ),
            *_drawn(v, longest, 0.0, "longest"),
            Dimension((0, 0), (longest, 0), model.phrase("{d}", d=(longest, "length")), 0.11),
        ],
    )


def _turn(v: model.Inputs, outcome: model.Outcome) -> Chart | None:
    found = angles(v, "working")
    if found is None or not any(output.name == "swing" for output in outcome.outputs):
        return None
    front, rear = found
    quarter = 0.0 if v.yokes == "turned" else 0.5 * math.pi
    turns = [7.5 * k for k in range(49)]
    middle, end = [], []
    for degrees in turns:
        turn = math.radians(degrees)
        one = universal_joint.speed_ratio(front, turn)
        between = universal_joint.output_rotation(front, turn)
        middle.append(v.pto_speed * (one - 1.0))
        end.append(v.pto_speed * (one * universal_joint.speed_ratio(rear, between + quarter) - 1.0))
    return Chart(
        "Speed through one turn, at work",
        model.phrase(
            "The middle shaft swings between {low} and {high} twice a turn; at the implement a "
            "swing of {swing} is left.",
            low=(outcome.output("ripple_low"), "rotation"),
            high=(outcome.output("ripple_high"), "rotation"),
            swing=(outcome.output("swing"), "fraction"),
        ),
        "Turn of the PTO stub",
        "angle",
        "Faster or slower than the PTO",
        "rotation",
        [
            Series("middle shaft", turns, middle, "soft dashed"),
            Series("implement", turns, end, "accent thick"),
        ],
        y_from_zero=False,
    )
