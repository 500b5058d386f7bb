"""What is drawn."""

from __future__ import annotations

import math

from calc import model
from calc.model.pictures import Arrow, Dimension, Disc, Item, Label, Line, Scene
from calc.subjects.tires import TURNS


def picture(v: model.Inputs, outcome: model.Outcome) -> Scene | None:
    """Return the two tires rolled out along the ground, to scale, a tick for each turn."""
    a, b = v.old_front_ten_turns, v.old_rear_ten_turns
    if a is None or b is None:
        return None
    front, rear = a / TURNS / (2 * math.pi), b / TURNS / (2 * math.pi)
    longest = max(a, b)
    items: list[Item] = []
    lanes = ((0.22 * longest, a, front, "A: front"), (0.0, b, rear, "B: rear"))
    for ground, length, radius, name in lanes:
        items.append(Line([(-rear, ground), (longest + rear, ground)], "ground"))
        for x in (0.0, length):
            items.append(Disc((x, ground + radius), radius, "fill"))
            items.append(Disc((x, ground + radius), radius, "ink", hole=True))
        for turn in range(TURNS + 1):
            x = length * turn / TURNS
            items.append(Line([(x, ground), (x, ground - 0.015 * longest)], "accent"))
        items.append(
            Arrow((0.25 * length, ground + radius), (0.75 * length, ground + radius), style="soft")
        )
        items.append(Label((length / 2, ground + radius), name, dy=-1.0))
        below = ground - 0.075 * longest
        items.append(
            Dimension((0, below), (length, below), model.phrase("{d}", d=(length, "length", "ft")))
        )
    return Scene(
        "Ten turns of each tire",
        model.phrase(
            "Rolled along the ground: {a} at the front, {b} at the rear",
            a=(a, "length", "ft"),
            b=(b, "length", "ft"),
        ),
        items,
    )
