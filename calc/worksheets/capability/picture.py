"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Bar, Bars
from calc.worksheets.capability import able


def picture(v: model.Inputs, outcome: model.Outcome) -> Bars | None:
    """Draw the widest stock size of each kind in usual work."""
    widest = {label: able.widest(v, kind, "typical")[0] for kind, label in able.kinds()}
    bars = [Bar(label, width) for label, width in widest.items() if width > 0.0]
    if not bars:
        return None
    return Bars(
        "Widest stock size in usual work",
        "With what isn't known of the tractor taken in the middle of what is usual; a kind that no "
        "size of passes has no bar.",
        "length",
        bars,
    )
