"""What is drawn with an answer, as data in real-world units; render.svg draws it.

Three shapes of picture:

* `Scene`: things drawn to scale (metres, y upward), with arrows and dimensions;
* `Chart`: lines and bands over an axis, such as demand against width;
* `Bars`: labelled bars, each a value or a low-to-high range, such as heat load by parts.

`style` is one of ink, soft, fill, good, warn, bad, accent, ground: names that the page's
style sheet gives a colour for light and dark. A style may carry "dashed" or "thick" after it,
as in "soft dashed". Meaning never rests on the style alone: say it in a label too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.model.text import Words

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points."""

    points: Sequence[Point]
    style: str = "ink"


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed, filled outline."""

    points: Sequence[Point]
    style: str = "fill"


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle; `hole` draws only its outline."""

    center: Point
    radius: float
    style: str = "fill"
    hole: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """Text at a point. `anchor` is start, middle or end; the size is fixed on the page.

    `dy` moves it by so many lines of text (positive is down), whatever the scale.
    """

    at: Point
    text: Words
    anchor: str = "middle"
    style: str = "ink"
    dy: float = 0.0


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow from tail to head, such as a load."""

    tail: Point
    head: Point
    text: Words = ""
    style: str = "accent"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension line between two points, set off sideways by `offset` metres, with its text."""

    start: Point
    end: Point
    text: Words
    offset: float = 0.0


Item = Line | Shape | Disc | Label | Arrow | Dimension


@dataclass(frozen=True, slots=True)
class Scene:
    """Things drawn to scale. The view is fitted to the items, with room for their text."""

    title: str
    description: Words  # the same in words, for those who can't see it
    items: Sequence[Item]
    to_scale: bool = True  # False stretches x and y apart


@dataclass(frozen=True, slots=True)
class Series:
    """One line of a chart, or a band where `upper` is given."""

    label: Words
    x: Sequence[float]
    y: Sequence[float]
    style: str = "ink"
    upper: Sequence[float] = ()


@dataclass(frozen=True, slots=True)
class Mark:
    """A point of a chart with a label, such as the reader's own machine."""

    label: Words
    x: float
    y: float
    style: str = "accent"


@dataclass(frozen=True, slots=True)
class Chart:
    """Lines and bands over axes whose kinds say how the ticks are written."""

    title: str
    description: Words
    x_label: str
    x_kind: str
    y_label: str
    y_kind: str
    series: Sequence[Series]
    marks: Sequence[Mark] = ()
    y_from_zero: bool = True
    x_unit_us: str = ""
    x_unit_metric: str = ""
    y_unit_us: str = ""
    y_unit_metric: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: from `low` to `high` (low is zero for a plain amount)."""

    label: Words
    high: float
    low: float = 0.0
    style: str = "fill"
    text: Words = ""  # what stands beside it; the amount when empty


@dataclass(frozen=True, slots=True)
class Bars:
    """Labelled bars on one axis. `middle` draws a line there, as in a tornado picture."""

    title: str
    description: Words
    kind: str
    bars: Sequence[Bar]
    middle: float | None = None
    unit_us: str = ""
    unit_metric: str = ""


Picture = Scene | Chart | Bars
