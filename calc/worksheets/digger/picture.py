"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import digger
from calc.model.pictures import Dimension, Disc, Label, Line, Scene, Shape
from calc.worksheets.digger.compute import boom


def _diameter(v: model.Inputs) -> float:
    """The auger's diameter; one of 9 in is drawn where nobody gave it. [m]"""
    return 0.2286 if v.auger_diameter is None else float(v.auger_diameter)


def _auger(x: float, top: float, v: model.Inputs, style: str) -> list[Line | Shape]:
    """Auger hanging below the gearbox, with a few flights."""
    half, tip = 0.5 * _diameter(v), top - v.auger_length
    flights = min(0.75 * v.auger_length, v.auger_length - 0.12)
    base = tip + 0.06
    points = []
    for k in range(9):
        side = half if k % 2 else -half
        points.append((x + side, base + flights * k / 8.0))
    return [
        Line([(x, top), (x, tip)], f"{style} thick"),
        Line(points, style),
        Line([(x - half, base), (x, tip), (x + half, base)], style),
    ]


def picture(v: model.Inputs, outcome: model.Outcome) -> Scene | None:
    """Side view, to scale: boom lowered and raised, auger, hole, driveline."""
    low, high = boom(v, v.link_low), boom(v, v.link_high)
    if low is None or high is None or v.link_high <= v.link_low:
        return None
    depth, clearance = outcome.output("depth"), outcome.output("tip_clearance")
    deep_height = min(max(low.gearbox_height, v.housing_clearance), high.gearbox_height)
    link = digger.link_height_for(
        deep_height, v.bracket_height, v.boom_length, v.yoke_distance, v.yoke_rise
    )
    deep = boom(v, link) or low
    pin = (0.0, v.bracket_height)
    wheel = 0.62 * v.bracket_height
    back, half = v.boom_length + 0.9, 0.5 * _diameter(v)
    left = -1.5 * wheel - 0.2
    items: list[Line | Shape | Disc | Label | Dimension] = [
        Shape(
            [
                (deep.gearbox_distance - half, 0),
                (deep.gearbox_distance - half, -depth),
                (deep.gearbox_distance + half, -depth),
                (deep.gearbox_distance + half, 0),
            ],
            "soft",
        ),
        Line([(left, 0), (back, 0)], "ground"),
        Disc((left + wheel + 0.1, wheel), wheel, "soft", hole=True),
        Disc((left + wheel + 0.1, wheel), 0.05, "soft"),
        Line([(left + wheel + 0.1, wheel), (0, v.bracket_height - 0.25), pin], "soft thick"),
    ]
    for point, style in ((deep, "soft"), (high, "ink")):
        share = v.yoke_distance / v.boom_length
        yoke = (
            point.gearbox_distance * share,
            v.bracket_height + (point.gearbox_height - v.bracket_height) * share,
        )
        gearbox = (point.gearbox_distance, point.gearbox_height)
        items += [
            Line([pin, gearbox], f"{style} thick"),
            Line([yoke, (yoke[0], point.link_height)], style),
            Line([(-0.1, 0.6 * v.bracket_height), (yoke[0], point.link_height)], style),
            Line(
                [(v.stub_behind, v.stub_height), (gearbox[0] - v.gearbox_input, gearbox[1])],
                "accent dashed",
            ),
            *_auger(gearbox[0], gearbox[1], v, style),
            Disc(gearbox, 0.08, style),
        ]
    items += [
        Disc(pin, 0.04, "accent"),
        Label(pin, "boom pin", dy=-1.2),
        Label((high.gearbox_distance, high.gearbox_height), "raised", dy=-1.2),
        Dimension(
            (deep.gearbox_distance + half, 0),
            (deep.gearbox_distance + half, -depth),
            model.phrase("{d} deep", d=(depth, "length")),
            0.15,
        ),
    ]
    if clearance > 0.02:
        side = max(deep.gearbox_distance, high.gearbox_distance) + half
        items.append(
            Dimension(
                (side, clearance),
                (side, 0),
                model.phrase("{c} clear", c=(clearance, "length")),
                0.15,
            )
        )
    return Scene(
        "Digger through its lift",
        model.phrase(
            "Side view to scale: the gearbox travels from {low} to {high} above the ground, the "
            "hole is {depth} deep, and the raised point stands {clear} above the ground. The "
            "dashed line is the driveline; the wheel is not from your numbers.",
            low=(deep.gearbox_height, "length"),
            high=(high.gearbox_height, "length"),
            depth=(depth, "length"),
            clear=(clearance, "length"),
        ),
        items,
    )
