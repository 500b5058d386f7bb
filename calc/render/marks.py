"""The mark that goes with a finding, so that it never rests on colour."""

from __future__ import annotations

import htpy as h

from calc import model

_SHAPES = {
    model.WITHIN: "M3 10l4.5 4.5L17 5",
    model.CLOSE: "M10 2L18.5 17H1.5ZM10 7.5v4.5M10 14v1.2",
    model.OVER: "M4 4l12 12M16 4L4 16",
    model.UNKNOWN: "M6.5 7a3.5 3.5 0 1 1 4.8 3.2c-1 .5-1.3 1-1.3 2.3M10 15.5v1.2",
    model.COMPARED: "M2 7h16M2 13h16",
}

_path = h.Element("path")


def shape(finding: str) -> h.Element:
    """Return the mark of a finding."""
    return h.svg({"class": "ys-mark", "viewBox": "0 0 20 20", "aria-hidden": "true"})[
        _path({"d": _SHAPES[finding]})
    ]
