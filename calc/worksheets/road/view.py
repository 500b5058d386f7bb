"""The machine from behind and from the side, to scale, with every item in its place.

Rear view: x to the right as a driver behind sees it, so the machine's left is at the left.
Side view: the rear axle stands at x = 0 and the tractor faces right.
"""

from __future__ import annotations

from calc import model, si
from calc.mechanics import mirrors, smv_emblem
from calc.model.pictures import Dimension, Disc, Item, Label, Line, Point, Scene, Shape
from calc.subjects import road_list as rl
from calc.subjects import road_tables

# The smallest room that a picture has, and a line of text, in drawing units.
_VIEW_PX, _TALL_PX, _LINE_PX = 380.0, 420.0, 17.0
EMBLEM_WIDTH = 16 * si.INCH  # m, road/LAW-NE
_COLORS = {"red": "bad", "amber": "warn", "orange": "warn", "white": "accent", "gray": "soft"}


def numbers(v: model.Inputs, found: rl.Situation) -> dict[tuple[str, str], int]:
    """The number of each item, as in the lists."""
    order: list[tuple[str, str]] = []
    order += [("tractor", item) for item, _, _ in road_tables.emblem_rows(v, found)]
    order += [("tractor", need.item) for need in rl.listed(found, "tractor")]
    if found.emblem_behind:
        order.append(("towed", "emblem"))
    order += [("towed", need.item) for need in rl.listed(found, "towed")]
    return {key: i + 1 for i, key in enumerate(order)}


def _box(left: float, right: float, bottom: float, top: float) -> list[Point]:
    return [(left, bottom), (right, bottom), (right, top), (left, top)]


def _emblem(x: float, low: float) -> list[Point]:
    """The truncated triangle, point up, its lower edge at `low`."""
    half, cut = EMBLEM_WIDTH / 2, 0.03
    high = low + rl.EMBLEM_HEIGHT
    return [
        (x - half + cut, low),
        (x + half - cut, low),
        (x + half, low + 2 * cut),
        (x + cut, high),
        (x - cut, high),
        (x - half, low + 2 * cut),
    ]


# --- from behind -----------------------------------------------------------------------------


def rear(v: model.Inputs, found: rl.Situation) -> Scene:
    """Return the rear view, to scale."""
    width = found.facts["width"]
    left, right = found.facts["left"], found.facts["right"]
    half = v.tractor_width / 2
    tall = max(v.overall_height, found.facts["height"])
    items: list[Item] = [
        Line([(-0.65 * width, 0), (0.65 * width, 0)], "ground"),
        *_tractor_from_behind(half, v.overall_height),
    ]
    if found.facts["behind"]:
        items.append(
            Shape(_box(-left, right, v.implement_bottom, max(v.implement_top, 0.1)), "implement")
        )
    points = _rear_points(v, found, left, right)
    names = numbers(v, found)
    scale = min(_VIEW_PX / (1.3 * width), _TALL_PX / tall)
    marks: list[_Mark] = []
    for key, places in points.items():
        if key in names:
            items += _drawn(key[1], places, _hidden(key, found))
            marks.append((names[key], _style(key[1]), places))
    wide = max(left, half), max(right, half)
    items += _callouts(marks, *wide, tall, _LINE_PX / scale)
    items.append(
        Dimension(
            (-wide[0], -0.06 * tall),
            (wide[1], -0.06 * tall),
            model.phrase("{w}", w=(width, "length")),
        )
    )
    legend = _legend(v, found, names)
    return Scene(
        "From behind",
        model.Phrase(
            "To scale, {w} wide and {h} high. Numbers as in the lists: " + legend.template + ". A "
            "dashed item is hidden by what is behind the tractor.",
            {**legend.numbers, "w": (width, "length"), "h": (tall, "length")},
        ),
        items,
    )


_HIDES = {
    "tail_lamps": "hides_tail",
    "amber_flashers": "hides_amber",
    "turn_signals": "hides_turn",
    "emblem": "hides_emblem",
    "rear_reflectors": "hides_tail",
    "stop_lamps": "hides_tail",
}


def _tractor_from_behind(half: float, height: float) -> list[Item]:
    tread = 0.42 * half
    tire = min(0.52 * height, 1.5 * half)
    return [
        Shape(_box(-0.22 * half, 0.22 * half, 0.5 * tire, 1.15 * tire), "fill"),
        Line(
            [
                (-0.62 * half, tire),
                (-0.62 * half, height),
                (0.62 * half, height),
                (0.62 * half, tire),
            ],
            "ink",
        ),
        Shape(_box(-half, -half + tread, 0, tire), "tire"),
        Shape(_box(half - tread, half, 0, tire), "tire"),
        Shape(_box(-half + 0.1 * tread, -0.3 * half, tire, 1.06 * tire), "fill"),
        Shape(_box(0.3 * half, half - 0.1 * tread, tire, 1.06 * tire), "fill"),
        Line([(-half + tread, 0.5 * tire), (half - tread, 0.5 * tire)], "ink"),
        Shape(_box(-0.2 * half, 0.2 * half, 1.15 * tire, 1.45 * tire), "soft"),
    ]


_Points = dict[tuple[str, str], list[Point]]


def _rear_points(v: model.Inputs, found: rl.Situation, left: float, right: float) -> _Points:
    """Where each item sits, first the place that its label points at."""
    half, spread = v.tractor_width / 2, v.lamp_spread / 2
    top, bottom = v.implement_top, v.implement_bottom
    inset = min(0.08, 0.2 * max(left + right, 0.1))
    middle = (right - left) / 2
    low, high = bottom + 0.25 * (top - bottom), top - 0.2 * (top - bottom)

    def pair(y: float, x: float = spread) -> list[Point]:
        return [(-x, y), (x, y)]

    def edges(y: float) -> list[Point]:
        return [(-left + inset, y), (right - inset, y)]

    mirror = v.mirror_reach if v.mirror_reach is not None else half
    return {
        ("tractor", "emblem"): [(0.0, v.emblem_height)],
        ("tractor", "speed_symbol"): [(0.32, v.emblem_height + 0.15)],
        ("tractor", "tail_lamps"): pair(v.tail_height),
        ("tractor", "stop_lamps"): pair(v.tail_height, spread - 0.09),
        ("tractor", "amber_flashers"): pair(v.flasher_height),
        ("tractor", "turn_signals"): pair(v.flasher_height, spread - 0.11),
        ("tractor", "rear_reflectors"): pair(max(v.tail_height - 0.14, 0.2)),
        ("tractor", "left_marker"): pair(0.9, half),
        ("tractor", "rear_strips"): pair(0.75, half - 0.05),
        ("tractor", "beacon"): [(0.0, v.overall_height)],
        ("tractor", "mirrors"): [(-mirror, 0.62 * v.overall_height)],
        ("tractor", "receptacle"): [(0.18, 0.55)],
        ("tractor", "flags"): pair(0.7 * v.overall_height, max(half, left)),
        ("towed", "emblem"): [
            (middle - 0.2 * (left + right), min(max(v.emblem_height, bottom), max(top - 0.05, 0.1)))
        ],
        ("towed", "tail_lamps"): edges(high),
        ("towed", "stop_lamps"): edges(high - 0.1 * (top - bottom)),
        ("towed", "turn_signals"): edges(high + 0.1 * (top - bottom)),
        ("towed", "amber_flashers"): edges(top),
        ("towed", "rear_reflectors"): edges(low),
        ("towed", "rear_strips"): edges((low + high) / 2),
        ("towed", "left_marker"): [(-left, (low + high) / 2)],
        ("towed", "left_front_strip"): [(-left, low)],
        ("towed", "flags"): edges(top),
    }


def _style(item: str) -> str:
    return _COLORS.get(rl.item_row(item)["color"], "soft")


def _drawn(item: str, places: list[Point], hidden: bool) -> list[Item]:
    style = _style(item)
    if item == "emblem":
        shape = _emblem(*places[0])
        if hidden:
            return [Line([*shape, shape[0]], f"{style} dashed")]
        return [Shape(shape, style)]
    drawn: list[Item] = []
    for x, y in places:
        if item in ("rear_reflectors", "rear_strips", "left_front_strip", "flags"):
            outline = _box(x - 0.03, x + 0.03, y - 0.055, y + 0.055)
            drawn.append(
                Line([*outline, outline[0]], f"{style} dashed") if hidden else Shape(outline, style)
            )
        else:
            drawn.append(Disc((x, y), 0.045, f"{style} dashed" if hidden else style, hidden))
    return drawn


_Mark = tuple[int, str, list[Point]]


def _callouts(
    marks: list[_Mark], left: float, right: float, tall: float, line: float
) -> list[Item]:
    """Numbers in a column on each side, spread so that no two overlap, with leader lines."""
    columns: tuple[list[_Mark], list[_Mark]] = ([], [])
    for mark in sorted(marks, key=lambda mark: -mark[2][0][1]):
        side = 0 if mark[2][0][0] < -0.01 else 1
        if len(columns[side]) > len(columns[1 - side]):
            side = 1 - side
        columns[side].append(mark)
    items: list[Item] = []
    gap = 0.08 * (left + right)
    for side, column in enumerate(columns):
        edge = -left - gap if side == 0 else right + gap
        free, heights = tall, []
        for _, _, places in column:
            heights.append(min(places[0][1], free))
            free = heights[-1] - line
        lift = max(-free - line, 0.0)  # the lowest number stays above the road
        for (number, style, places), y in zip(column, heights, strict=True):
            x, height = places[-side]  # of a pair the one on this side
            items.append(Line([(x, height), (edge, y + lift)], "soft"))
            items.append(
                Label((edge, y + lift), f" {number} ", "end" if side == 0 else "start", style)
            )
    return items


def _legend(
    v: model.Inputs, found: rl.Situation, names: dict[tuple[str, str], int]
) -> model.Phrase:
    """What the numbers stand for, with the heights allowed."""
    numbers_in: dict[str, tuple[float, str] | tuple[float, str, str] | str] = {}
    parts = []
    for key, number in names.items():
        item = key[1]
        notes = []
        low = high = None
        need = found.need(*key)
        if item == "emblem" and found.emblem_use in ("show", "with symbol"):
            low, high = smv_emblem.emblem_window(v.place)
        elif need is not None:
            low, high = need.height_low, need.height_high
        if low is not None:
            numbers_in[f"a{number}"] = (low, "length")
            notes.append(f"from {{a{number}}} up" if high is None else f"{{a{number}}} ")
        if low is not None and high is not None:
            numbers_in[f"b{number}"] = (high, "length")
            notes[-1] = f"{{a{number}}} to {{b{number}}} up"
        if _hidden(key, found):
            notes.append("hidden")
        said = f" ({', '.join(notes)})" if notes else ""
        parts.append(f"{number} {rl.item_row(item)['short']}{said}")
    return model.Phrase("; ".join(parts), numbers_in)


def _hidden(key: tuple[str, str], found: rl.Situation) -> bool:
    return key[0] == "tractor" and bool(found.facts.get(_HIDES.get(key[1], ""), 0.0))


# --- from the side ---------------------------------------------------------------------------


def side(v: model.Inputs, found: rl.Situation) -> Scene:
    """Return the side view, to scale, with the line of sight to the tail lamps."""
    rear_radius = min(0.26 * v.overall_height, 0.9)
    base = 2.7 * rear_radius
    hitch, lamp_x = -1.35 * rear_radius, -0.55 * rear_radius
    behind = found.facts["behind"]
    tail = hitch - behind
    start = tail - max(0.35, 0.12 * (base - tail))
    end = base + 0.9 * rear_radius
    room = 0.08 * (end - start)
    items: list[Item] = [
        Line([(start, 0), (end + room, 0)], "ground"),
        *_tractor_from_side(base, rear_radius, v.overall_height),
    ]
    if behind:
        items += _behind_from_side(v, hitch, tail)
    items += _lamps_from_side(v, found, base, rear_radius, lamp_x, 0.022 * (end - start))
    if behind:
        items += _sight(v, found, lamp_x, start)
        items.append(
            Dimension(
                (tail, -0.16 * v.overall_height),
                (hitch, -0.16 * v.overall_height),
                model.phrase("{r} behind the hitch", r=(behind, "length")),
            )
        )
    if v.emblem == "yes" and found.emblem_use != "none":
        x = -0.95 * rear_radius
        items += [
            Shape(
                _box(x - 0.02, x + 0.02, v.emblem_height, v.emblem_height + rl.EMBLEM_HEIGHT),
                "warn",
            ),
            Dimension(
                (end, 0), (end, v.emblem_height), model.phrase("{h}", h=(v.emblem_height, "length"))
            ),
            Line([(x, v.emblem_height), (end, v.emblem_height)], "soft dashed"),
        ]
    covered = found.facts["hides_tail"]
    said = (
        "What is behind hides the tail lamps from a driver close behind."
        if covered
        else "The tail lamps can be seen over or beside what is behind."
    )
    return Scene(
        "From the side",
        model.phrase(
            (said if behind else "Nothing is behind the tractor.")
            + " The tail lamps are {h} up"
            + (", the lower edge of the emblem {e}." if found.emblem_use != "none" else "."),
            h=(v.tail_height, "length"),
            e=(v.emblem_height, "length"),
        ),
        items,
    )


def _tractor_from_side(base: float, radius: float, height: float) -> list[Item]:
    front = 0.62 * radius
    deck, hood = 1.2 * radius, 2.05 * radius
    return [
        Shape(_box(-0.5 * radius, 0.5 * base, 0.8 * radius, deck), "fill"),
        Shape(
            [
                (0.42 * base, 0.8 * radius),
                (1.2 * base, 0.95 * radius),
                (1.2 * base, 0.9 * hood),
                (0.42 * base, hood),
            ],
            "fill",
        ),
        Line([(-0.45 * radius, deck), (-0.45 * radius, height)], "ink thick"),
        Line([(0.42 * base, hood), (0.33 * base, 1.15 * hood)], "ink"),
        Shape(_box(-0.2 * radius, 0.35 * radius, 1.6 * radius, 1.8 * radius), "soft"),
        Disc((0, radius), radius, "tire"),
        Disc((0, radius), 0.5 * radius, "fill"),
        Disc((base, front), front, "tire"),
        Disc((base, front), 0.5 * front, "fill"),
    ]


def _behind_from_side(v: model.Inputs, hitch: float, tail: float) -> list[Item]:
    bottom, top = v.implement_bottom, max(v.implement_top, 0.1)
    length = hitch - tail
    items: list[Item] = [Line([(hitch, 0.5), (hitch + 0.5, 0.55)], "ink")]
    if v.behind_kind in ("trailed", "trailer", "carried"):
        wheel = max(min(0.35, 0.25 * length), 0.1)
        bar = hitch - 0.2 * length
        items += [
            Line([(hitch, 0.5), (bar, max(bottom, wheel))], "ink thick"),
            Shape(_box(tail, bar, min(bottom, top - 0.05), top), "implement"),
            Disc((tail + 0.35 * length, wheel), wheel, "tire"),
        ]
    else:
        items.append(
            Shape(_box(tail, hitch - 0.08 * length, min(bottom, top - 0.05), top), "implement")
        )
    return items


def _lamps_from_side(
    v: model.Inputs,
    found: rl.Situation,
    base: float,
    radius: float,
    lamp_x: float,
    beside: float,
) -> list[Item]:
    items: list[Item] = []
    names = numbers(v, found)
    for item, place in (
        ("tail_lamps", (lamp_x, v.tail_height)),
        ("amber_flashers", (lamp_x, v.flasher_height)),
        ("head_lamps", (1.2 * base, 1.7 * radius)),
        ("beacon", (-0.45 * radius, v.overall_height)),
    ):
        if found.need("tractor", item) is not None or item in ("tail_lamps", "head_lamps"):
            items.append(Disc(place, 0.05, _style(item)))
            number = names.get(("tractor", item))
            if number:
                at = (place[0] + beside, place[1])
                items.append(Label(at, str(number), "start", _style(item)))
    if v.mirror_reach is not None:
        items.append(Shape(_box(0.4 * base, 0.43 * base, 1.5, 1.75), "soft"))
    return items


def _sight(v: model.Inputs, found: rl.Situation, lamp_x: float, start: float) -> list[Item]:
    """The line from the lamp toward the eye of a driver 100 ft behind."""
    away = 100 * si.FOOT
    drop = (mirrors.EYE_HEIGHT - v.tail_height) / away
    style = "bad dashed" if found.facts["hides_tail"] else "good dashed"
    return [
        Line([(lamp_x, v.tail_height), (start, v.tail_height + drop * (lamp_x - start))], style),
        Label(
            (start, v.tail_height + drop * (lamp_x - start)),
            "to a driver’s eye",
            "start",
            style.split()[0],
            dy=-0.7,
        ),
    ]
