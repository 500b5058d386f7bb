"""What to do about it."""

from __future__ import annotations

from calc import model, si
from calc.search import Remedies
from calc.worksheets.rail_crossing.compute import crossing_time

TRAIN_SPEEDS = (10, 20, 30, 40, 50, 60, 70, 79)  # mph


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for length, gear and view."""
    if remedies.broken:
        remedies.less("combination_length", step=1.0)
        remedies.more("crossing_speed")
    if "view" in remedies.broken:
        remedies.more("track_sight", mends=("view",), most=6.0, step=10.0)
    return model.Advice(
        cautions=found.cautions("stop", "stalled", "humped"),
        tables=[_by_train(v)],
        notes=[found.note("measured")],
    )


def _by_train(v: model.Inputs) -> model.Table:
    """How far one must see along the track, by the train's speed: nobody knows which one comes."""
    time = crossing_time(v)
    rows = [
        ((mph * si.MPH, "speed"), (time, "seconds"), (mph * si.MPH * time, "distance"))
        for mph in TRAIN_SPEEDS
    ]
    return model.Table(
        "How far you must see along the track",
        ("Train's speed", "You take to clear", "You must see at least"),
        tuple(rows),
        "road/RAIL-memory; road/CALC-1",
        "Ask the railroad how fast its trains run there: its number stands at the crossing.",
    )
