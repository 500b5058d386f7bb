"""Tire swap: old and new outlines overlaid, and the lead against its window."""

from __future__ import annotations

from calc import model
from calc.mechanics import front_drive
from calc.model.pictures import Bar, Bars, Dimension, Disc, Item, Label, Line, Picture, Scene
from calc.subjects import tires as common


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Return the outlines overlaid, and the lead against its window."""
    pair = common.Pair(v)
    drawn: list[Picture] = []
    scene = _outlines(v, pair)
    if scene is not None:
        drawn.append(scene)
    if any(output.name == "lead_new" for output in outcome.outputs):
        drawn.append(_lead_bars(v, outcome))
    return drawn


def _outlines(v: model.Inputs, pair: common.Pair) -> Scene | None:
    if pair.rear is None and pair.front is None:
        return None
    base = float(v.wheelbase)
    items: list[Item] = []
    tallest = 0.0
    for x, old, new, stays in (
        (0.0, pair.rear, pair.rear_new, pair.rear_stays),
        (base, pair.front, pair.front_new, pair.front_stays),
    ):
        if old is None or new is None:
            continue
        items.append(common.outline(x, new, "fill"))
        items.append(Line(common.outline_points(x, new), "ink"))
        items.append(Disc((x, new.static_loaded_radius), new.rim_diameter / 2, "soft", hole=True))
        if not stays:
            items.append(Line(common.outline_points(x, old), "accent dashed"))
        top = new.static_loaded_radius + new.overall_diameter / 2
        tallest = max(tallest, top, old.static_loaded_radius + old.overall_diameter / 2)
        items.append(Disc((x, new.static_loaded_radius), 0.02, "ink"))
    reach = max((t.overall_diameter for t in (pair.rear, pair.rear_new) if t), default=1.0) / 2
    ahead = max((t.overall_diameter for t in (pair.front, pair.front_new) if t), default=0.6) / 2
    items.insert(0, Line([(-reach - 0.1, 0), (base + ahead + 0.1, 0)], "ground"))
    for x, old, new, stays in (
        (0.0, pair.rear, pair.rear_new, pair.rear_stays),
        (base, pair.front, pair.front_new, pair.front_stays),
    ):
        if old is None or new is None:
            continue
        below = "stays" if stays else f"now {old.designation.size}, dashed"
        style = "soft" if stays else "accent"
        items.append(Label((x, -0.05), new.designation.size, dy=0.4))
        items.append(Label((x, -0.05), below, style=style, dy=1.5))
        half = new.overall_diameter / 2
        items.append(
            Dimension(
                (x - half, tallest + 0.05),
                (x + half, tallest + 0.05),
                model.phrase("{d}", d=(new.overall_diameter, "length")),
            )
        )
    return Scene(
        "Old and new tires, to scale",
        _outline_words(pair),
        items,
    )


def _outline_words(pair: common.Pair) -> model.Words:
    said, numbers = [], {}
    for axle, old, new in (
        ("front", pair.front, pair.front_new),
        ("rear", pair.rear, pair.rear_new),
    ):
        if old is None or new is None:
            continue
        numbers[f"{axle}_old"] = (old.overall_diameter, "length")
        numbers[f"{axle}_new"] = (new.overall_diameter, "length")
        stays = old.overall_diameter == new.overall_diameter
        said.append(f"{axle} {{{axle}_new}} across" + ("" if stays else f", {{{axle}_old}} before"))
    return model.Phrase("Standing under load: " + "; ".join(said), numbers)


def _lead_bars(v: model.Inputs, outcome: model.Outcome) -> Bars:
    window = front_drive.window(v.lead_window)
    now, new = outcome.output("lead_now"), outcome.output("lead_new")
    inside = window.low <= new <= window.high
    return Bars(
        "Front-drive lead",
        model.phrase(
            "The window is {low} to {high} %; the lead goes from {now} to {new} %",
            low=f"{100 * window.low:.3g}",
            high=f"{100 * window.high:.3g}",
            now=common.signed(now),
            new=common.signed(new),
        ),
        "fraction",
        [
            Bar("Window", window.high, window.low, "soft"),
            Bar("Now", max(now, 0.0), min(now, 0.0), "fill", f"{common.signed(now)} %"),
            Bar(
                "New",
                max(new, 0.0),
                min(new, 0.0),
                "good" if inside else "bad",
                f"{common.signed(new)} %, {'inside' if inside else 'outside'} the window",
            ),
        ],
        middle=0.0,
    )
