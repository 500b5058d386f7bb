"""Slopes against what manuals print, wherever a slope is asked for."""

from __future__ import annotations

import math

from calc import model

BEHIND = math.tan(math.radians(10.0))
"""With something behind, one manual's most, straight up and down; hitch/M14 [-]."""
MOST = math.tan(math.radians(15.0))
"""The most that manuals print, straight up and down; hitch/M14 [-]."""


def check(at: model.At, *, behind: bool = True, grade: str = model.LIMIT) -> None:
    """Check the field `slope`: to `BEHIND` with something behind it is met, past `MOST` broken."""
    if behind:
        at.at_most("slope", "slope", MOST, "hitch/M14", strict=BEHIND, grade=grade)
    else:
        at.at_most("slope", "slope", MOST, "hitch/M14", grade=grade)
