"""The sums."""

from __future__ import annotations

from calc import arith, model, si
from calc.mechanics import road_gaps

SIGNAL_WARNING = 20.0  # s, the least that flashing signals give: road/WEB-8
STOP_LINE, TRACK = 15 * si.FOOT, 5 * si.FOOT  # road/RAIL-memory, road/WEB-7
TRACK_SPACING = 15 * si.FOOT  # between the middles of neighboring tracks, road/RAIL-memory


def track_width(v: model.Inputs) -> float:
    """From the near rail of the first track to the far rail of the last. [m]"""
    return arith.number(TRACK + (v.tracks - 1) * TRACK_SPACING)


def crossing_time(v: model.Inputs) -> float:
    """From deciding to go until the tail is past the far stop line. [s]"""
    return road_gaps.rail_crossing_time(
        v.combination_length, v.crossing_speed, v.start_acceleration, STOP_LINE, track_width(v)
    )


def compute(v: model.Inputs, at: model.At) -> None:
    """Check the view along the track, and the warning of signals."""
    at.time = crossing_time(v)
    at.needed = v.train_speed * at.time
    if v.track_sight is None:
        # Signals that run tell of a train before the eye does; without any the view is the warning.
        at.not_checked("view", "track_sight", governs=v.signals != "flashing")
    else:
        sources = "road/RAIL-memory; road/CALC-1"
        at.at_least("view", "track_sight", "needed", sources, grade=model.DANGER)
        at.train = v.track_sight / v.train_speed
    at.warning = SIGNAL_WARNING
    if v.signals == "flashing":
        at.at_most("signals", "time", "warning", "road/WEB-8", grade=model.DANGER)
    if at.showing:
        _steps(v, at)


def _steps(v: model.Inputs, at: model.At) -> None:
    """Write down the working."""
    reached = v.crossing_speed**2 / (2 * v.start_acceleration)
    way = v.combination_length + 2 * STOP_LINE + track_width(v)
    slow = "T = J + √(2 (L + 2D + W) / a)"  # across before the speed is reached
    at.step(
        "time",
        "T = J + V/a + (L + 2D + W − V²/(2a)) / V" if way >= reached else slow,
        "road/RAIL-memory",
        J=(road_gaps.START_DELAY, "seconds"),
        V="crossing_speed",
        a="start_acceleration",
        L="combination_length",
        D=(STOP_LINE, "length"),
        W=(track_width(v), "length"),
    )
    at.step("needed", "d = train speed × T", "road/CALC-1", train="train_speed", T="time")
