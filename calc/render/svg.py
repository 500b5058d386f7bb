"""Pictures as SVG. Every colour is a class of the page's style sheet, so dark mode follows."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence

import htpy as h

from calc import quantities as q
from calc.model import pictures as p
from calc.model import words

WIDTH = 460.0
TEXT = 15.0  # height of a line of text in the drawing's units
LETTER = 7.6  # average width of a letter at that size

_path = h.Element("path")
_circle = h.Element("circle")
_text = h.Element("text")
_rect = h.Element("rect")
_group = h.Element("g")
_title = h.Element("title")
_desc = h.Element("desc")


def draw(picture: p.Picture, system: str, number: int = 0) -> h.Element:
    """Return a picture as a figure with inline SVG and a caption."""
    if isinstance(picture, p.Scene):
        items, height = _scene(picture, system)
    elif isinstance(picture, p.Chart):
        items, height = _chart(picture, system)
    else:
        items, height = _bars(picture, system)
    said = words(picture.description, system)
    caption = f"{picture.title}. {said}" + ("" if said.endswith(".") else ".")
    return h.figure(".ys-picture")[
        h.svg(
            {
                "viewBox": f"0 0 {WIDTH:.0f} {_n(height)}",
                "role": "img",
                "aria-label": caption,
            }
        )[items],
        h.figcaption[caption],
    ]


def _n(value: float) -> str:
    """A coordinate, short."""
    shown = f"{value:.1f}"
    return shown[:-2] if shown.endswith(".0") else shown


def _classes(style: str) -> str:
    return " ".join(f"ys-{word}" for word in style.split())


def _line(points: Iterable[p.Point], style: str) -> h.Element:
    path = "L".join(f"{_n(x)} {_n(y)}" for x, y in points)
    return _path({"class": f"ys-line {_classes(style)}", "d": f"M{path}"})


def _shape(points: Iterable[p.Point], style: str) -> h.Element:
    path = "L".join(f"{_n(x)} {_n(y)}" for x, y in points)
    return _path({"class": f"ys-shape {_classes(style)}", "d": f"M{path}Z"})


def _label(x: float, y: float, text: str, anchor: str = "middle", style: str = "ink") -> h.Element:
    """Text that stays inside the picture: it is moved in from either edge when it would leave."""
    width = len(text) * LETTER
    start = {"start": x, "middle": x - width / 2, "end": x - width}[anchor]
    move = max(0.0, 3 - start) - max(0.0, start + width - (WIDTH - 3))
    return _text(
        {
            "x": _n(x + move),
            "y": _n(y),
            "text-anchor": anchor,
            "class": f"ys-text {_classes(style)}",
        }
    )[text]


def _head(tail: p.Point, tip: p.Point, style: str, size: float = 9.0) -> h.Element:
    """An arrow head at `tip`, in drawing units."""
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    sides = [
        (tip[0] - size * math.cos(angle + turn), tip[1] - size * math.sin(angle + turn))
        for turn in (0.4, -0.4)
    ]
    return _shape([tip, *sides], style)


# --- scenes ----------------------------------------------------------------------------------


def _extent(scene: p.Scene) -> tuple[float, float, float, float]:
    xs: list[float] = []
    ys: list[float] = []
    for item in scene.items:
        if isinstance(item, (p.Line, p.Shape)):
            xs += [point[0] for point in item.points]
            ys += [point[1] for point in item.points]
        elif isinstance(item, p.Disc):
            xs += [item.center[0] - item.radius, item.center[0] + item.radius]
            ys += [item.center[1] - item.radius, item.center[1] + item.radius]
        elif isinstance(item, p.Label):
            xs.append(item.at[0])
            ys.append(item.at[1])
        elif isinstance(item, p.Arrow):
            xs += [item.tail[0], item.head[0]]
            ys += [item.tail[1], item.head[1]]
        else:
            for x, y in _dimension_ends(item):
                xs.append(x)
                ys.append(y)
    return min(xs), max(xs), min(ys), max(ys)


def _dimension_ends(item: p.Dimension) -> tuple[p.Point, p.Point]:
    """The ends of the dimension line itself, set off to the left of its direction."""
    (x1, y1), (x2, y2) = item.start, item.end
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    across, up = -(y2 - y1) / length * item.offset, (x2 - x1) / length * item.offset
    return (x1 + across, y1 + up), (x2 + across, y2 + up)


def _scene(scene: p.Scene, system: str) -> tuple[list[h.Element], float]:
    left, right, bottom, top = _extent(scene)
    side, above = 40.0, 2.2 * TEXT
    wide, tall = max(right - left, 1e-6), max(top - bottom, 1e-6)
    x_scale = (WIDTH - 2 * side) / wide
    y_scale = min(x_scale, 420.0 / tall) if scene.to_scale else 220.0 / tall
    if scene.to_scale:
        x_scale = y_scale
    height = tall * y_scale + 2 * above
    margin = (WIDTH - wide * x_scale) / 2

    def place(point: p.Point) -> p.Point:
        return margin + (point[0] - left) * x_scale, above + (top - point[1]) * y_scale

    drawn: list[h.Element] = []
    for item in scene.items:
        drawn += _item(item, place, x_scale, system)
    return drawn, height


def _item(item: p.Item, place: object, scale: float, system: str) -> list[h.Element]:
    assert callable(place)
    if isinstance(item, p.Line):
        return [_line([place(point) for point in item.points], item.style)]
    if isinstance(item, p.Shape):
        return [_shape([place(point) for point in item.points], item.style)]
    if isinstance(item, p.Disc):
        x, y = place(item.center)
        kind = "ys-line" if item.hole else "ys-shape"
        return [
            _circle(
                {
                    "cx": _n(x),
                    "cy": _n(y),
                    "r": _n(item.radius * scale),
                    "class": f"{kind} {_classes(item.style)}",
                }
            )
        ]
    if isinstance(item, p.Label):
        x, y = place(item.at)
        text = words(item.text, system)
        return [_label(x, y + TEXT * (0.33 + item.dy), text, item.anchor, item.style)]
    if isinstance(item, p.Arrow):
        return _arrow(item, place(item.tail), place(item.head), system)
    return _dimension(item, place, system)


def _arrow(item: p.Arrow, tail: p.Point, head: p.Point, system: str) -> list[h.Element]:
    drawn = [_line([tail, head], item.style), _head(tail, head, item.style)]
    if item.text:
        below = tail[1] > head[1]
        drawn.append(
            _label(
                tail[0],
                tail[1] + (TEXT if below else -0.35 * TEXT),
                words(item.text, system),
                "middle",
                item.style,
            )
        )
    return drawn


def _dimension(item: p.Dimension, place: object, system: str) -> list[h.Element]:
    assert callable(place)
    first, second = (place(end) for end in _dimension_ends(item))
    drawn = [_line([first, second], "soft"), _head(second, first, "soft", 7)]
    drawn.append(_head(first, second, "soft", 7))
    if item.offset:
        for start, end in ((item.start, first), (item.end, second)):
            drawn.append(_line([place(start), end], "soft dashed"))
    x, y = (first[0] + second[0]) / 2, (first[1] + second[1]) / 2
    text = words(item.text, system)
    if abs(first[0] - second[0]) >= abs(first[1] - second[1]):
        drawn.append(_label(x, y - 0.35 * TEXT, text))
    else:
        drawn.append(_label(x + 6, y + 0.33 * TEXT, text, "start"))
    return drawn


# --- charts ----------------------------------------------------------------------------------


def ticks(low: float, high: float, most: int = 6) -> list[float]:
    """Return round numbers that divide a range."""
    span = high - low
    if span <= 0 or not math.isfinite(span):
        return [low]
    step = 10.0 ** math.floor(math.log10(span / most))
    for factor in (1, 2, 5, 10):
        if span / (step * factor) <= most:
            step *= factor
            break
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [i * step for i in range(first, last + 1)]


def _chart(chart: p.Chart, system: str) -> tuple[list[h.Element], float]:
    x_unit = q.kind(chart.x_kind).unit(
        (chart.x_unit_us if system == "us" else chart.x_unit_metric)
        or q.unit_for(chart.x_kind, system).symbol
    )
    y_unit = q.kind(chart.y_kind).unit(
        (chart.y_unit_us if system == "us" else chart.y_unit_metric)
        or q.unit_for(chart.y_kind, system).symbol
    )
    every_x = [x_unit.from_base(x) for s in chart.series for x in s.x]
    every_x += [x_unit.from_base(mark.x) for mark in chart.marks]
    every_y = [y_unit.from_base(y) for s in chart.series for y in (*s.y, *s.upper)]
    every_y += [y_unit.from_base(mark.y) for mark in chart.marks]
    x_low, x_high = min(every_x), max(every_x)
    y_low, y_high = min(every_y), max(every_y)
    if chart.y_from_zero:
        y_low = min(0.0, y_low)
    y_high = y_high + 0.08 * (y_high - y_low or 1.0)
    x_high = x_high if x_high > x_low else x_low + 1.0
    legend = [series for series in chart.series if series.label]
    left, right, top = 56.0, WIDTH - 16.0, 20.0 + 1.4 * TEXT * len(legend)
    bottom, height = top + 230.0, top + 230.0 + 3.2 * TEXT

    def place(x: float, y: float) -> p.Point:
        return (
            left + (x - x_low) / (x_high - x_low) * (right - left),
            bottom - (y - y_low) / (y_high - y_low) * (bottom - top),
        )

    drawn: list[h.Element] = []
    for y in ticks(y_low, y_high):
        at = place(x_low, y)
        drawn.append(_line([at, (right, at[1])], "grid"))
        drawn.append(_label(left - 8, at[1] + 0.33 * TEXT, q.number(y), "end", "soft"))
    for x in ticks(x_low, x_high):
        at = place(x, y_low)
        drawn.append(_line([at, (at[0], bottom + 5)], "soft"))
        drawn.append(_label(at[0], bottom + 1.3 * TEXT, q.number(x), "middle", "soft"))
    drawn.append(_line([(left, top), (left, bottom), (right, bottom)], "soft"))
    for series in chart.series:
        points = [
            place(x_unit.from_base(x), y_unit.from_base(y))
            for x, y in zip(series.x, series.y, strict=True)
        ]
        if series.upper:
            upper = [
                place(x_unit.from_base(x), y_unit.from_base(y))
                for x, y in zip(series.x, series.upper, strict=True)
            ]
            drawn.append(_shape([*points, *reversed(upper)], f"{series.style} band"))
        else:
            drawn.append(_line(points, series.style))
    for mark in chart.marks:
        x, y = place(x_unit.from_base(mark.x), y_unit.from_base(mark.y))
        drawn.append(
            _circle(
                {"cx": _n(x), "cy": _n(y), "r": "6", "class": f"ys-shape {_classes(mark.style)}"}
            )
        )
        drawn.append(_label(x, y - 0.8 * TEXT, words(mark.label, system)))
    drawn += _legend(legend, system)
    x_name = f"{chart.x_label}, {x_unit.symbol}" if x_unit.symbol else chart.x_label
    y_name = f"{chart.y_label}, {y_unit.symbol}" if y_unit.symbol else chart.y_label
    drawn.append(_label((left + right) / 2, height - 0.4 * TEXT, x_name))
    drawn.append(_label(4, top - 0.5 * TEXT, y_name, "start"))
    return drawn, height


def _legend(legend: Sequence[p.Series], system: str) -> list[h.Element]:
    drawn: list[h.Element] = []
    for index, series in enumerate(legend):
        y = 0.9 * TEXT + 1.3 * TEXT * index
        if series.upper:
            drawn.append(_shape([(6, y - 9), (34, y - 9), (34, y), (6, y)], f"{series.style} band"))
        else:
            drawn.append(_line([(6, y - 5), (34, y - 5)], series.style))
        drawn.append(_label(42, y, words(series.label, system), "start"))
    return drawn


# --- bars ------------------------------------------------------------------------------------


def _bars(picture: p.Bars, system: str) -> tuple[list[h.Element], float]:
    own = picture.unit_us if system == "us" else picture.unit_metric
    unit = q.kind(picture.kind).unit(own or q.unit_for(picture.kind, system).symbol)
    low = min([0.0 if picture.middle is None else picture.middle, *[b.low for b in picture.bars]])
    high = max([0.0 if picture.middle is None else picture.middle, *[b.high for b in picture.bars]])
    span = (high - low) or 1.0
    left, right, row = 8.0, WIDTH - 24.0, 3.2 * TEXT
    height = row * len(picture.bars) + 2.4 * TEXT

    def place(value: float) -> float:
        return left + (value - low) / span * (right - left)

    drawn: list[h.Element] = []
    for index, bar in enumerate(picture.bars):
        y = row * index + 1.2 * TEXT
        start, end = place(bar.low), place(bar.high)
        shown = words(bar.text, system) or (
            q.show_range(bar.low, bar.high, picture.kind, system, unit=own)
            if picture.middle is not None
            else q.show(bar.high - bar.low, picture.kind, system, unit=own)
        )
        drawn.append(_label(left, y, f"{words(bar.label, system)}: {shown}", "start"))
        drawn.append(
            _rect(
                {
                    "x": _n(min(start, end)),
                    "y": _n(y + 0.5 * TEXT),
                    "width": _n(max(abs(end - start), 1.5)),
                    "height": _n(1.1 * TEXT),
                    "class": f"ys-shape {_classes(bar.style)}",
                }
            )
        )
    if picture.middle is not None:
        x = place(picture.middle)
        # In pieces, each as high as a bar: a label stands above every bar.
        for index in range(len(picture.bars)):
            top = row * index + 1.5 * TEXT
            drawn.append(_line([(x, top), (x, top + 1.5 * TEXT)], "ink dashed"))
    for at, text in _apart(unit, low, high, place):
        drawn.append(_label(at, height - 0.4 * TEXT, text, style="soft"))
    return drawn, height


def _apart(
    unit: q.Unit, low: float, high: float, place: Callable[[float], float]
) -> list[tuple[float, str]]:
    """As many round numbers under an axis as stand beside each other, each with its unit."""
    labels: list[tuple[float, str]] = []
    for most in range(5, 0, -1):
        values = ticks(unit.from_base(low), unit.from_base(high), most)
        labels = [
            (place(unit.to_base(value)), q.with_unit(q.number(value), unit.symbol))
            for value in values
        ]
        if all(
            second[0] - first[0] >= LETTER * (1.5 + (len(first[1]) + len(second[1])) / 2)
            for first, second in itertools.pairwise(labels)
        ):
            break
    return labels
