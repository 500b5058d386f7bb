"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Arrow, Item, Label, Line, Scene, Shape
from calc.worksheets.drive.compute import _RATIO, Drive, drive, to_ground

# --- picture --------------------------------------------------------------------------------

WIDEST = 1.15  # of a band at full power, in hundredths of the drawing
ACROSS = 2.72  # from one chain to the next
HEIGHTS = (4.0, 3.05, 1.75, 0.45)


def picture(v: model.Inputs, outcome: model.Outcome) -> Scene:
    """Two chains side by side, the width of each band in proportion to the power."""
    gear, hydro = drive("gear", v), drive("hydrostatic", v)
    items = [*_chain(v, gear, 0.0, "Gears"), *_chain(v, hydro, ACROSS, "Pump, motor")]
    ends = [to_ground(one, v)[2] for one in (gear, hydro)]
    return Scene(
        "Power from the engine to the ground",
        model.phrase(
            "With the whole engine in use and {shaft} taken by the PTO shaft, the gear drive "
            "brings {gear} to the drawbar and the hydrostatic drive {hydro}; the width of a band "
            "is its power",
            shaft=(v.shaft_power, "power"),
            gear=(ends[0], "power"),
            hydro=(ends[1], "power"),
        ),
        items,
    )


def _chain(v: model.Inputs, one: Drive, left: float, name: str) -> list[Item]:
    """One chain: a band that narrows from stage to stage, what leaves it going off sideways."""
    full = v.engine_power * _RATIO
    powers = (full, *to_ground(one, v))
    widths = [WIDEST * power / full for power in powers]
    beside = left + WIDEST + 0.2
    items: list[Item] = [
        Label((left, 4.62), f"{one.kind.capitalize()} drive", "start", "ink thick"),
        Label((left, 4.22), model.phrase("Engine, at PTO: {p}", p=(full, "power")), "start"),
    ]
    losses = ("PTO shaft", name, "Slip, rolling")
    for index, loss in enumerate(losses):
        y1, y2 = HEIGHTS[index], HEIGHTS[index + 1]
        items.append(
            Shape(
                [
                    (left, y1),
                    (left + widths[index], y1),
                    (left + widths[index + 1], y2),
                    (left, y2),
                ],
                "soft" if index == 1 else "fill",
            )
        )
        middle = (y1 + y2) / 2.0
        gone = powers[index] - powers[index + 1]
        if gone > 0.004 * full:
            edge = left + (widths[index] + widths[index + 1]) / 2.0
            items.append(Arrow((edge + 0.03, middle), (beside - 0.05, middle), "", "accent"))
        items.append(Label((beside, middle), loss, "start", dy=-0.55))
        took = "takes {p}" if index == 0 else "{p} lost"
        items.append(
            Label((beside, middle), model.phrase(took, p=(gone, "power")), "start", dy=0.55)
        )
    items += [
        Line([(left, HEIGHTS[2]), (left + WIDEST + 1.2, HEIGHTS[2])], "soft dashed"),
        Label(
            (beside, HEIGHTS[2]),
            model.phrase("Axle: {p}", p=(powers[2], "power")),
            "start",
            dy=-0.6,
        ),
        Line([(left, HEIGHTS[3]), (left + WIDEST + 1.2, HEIGHTS[3])], "ground"),
        Label(
            (left, 0.12), model.phrase("Drawbar: {p}", p=(powers[3], "power")), "start", "ink thick"
        ),
    ]
    return items
