"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.search import Remedies


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for length, gear and view."""
    if remedies.broken:
        remedies.less("combination_length", step=1.0)
        remedies.more("crossing_speed")
    if "view" in remedies.broken:
        remedies.more("track_sight", mends=("view",), most=6.0, step=10.0)
    return model.Advice(
        cautions=found.cautions("stop", "stalled", "humped"), notes=[found.note("measured")]
    )
