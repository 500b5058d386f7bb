"""The sums."""

from __future__ import annotations

from calc import model
from calc.mechanics import sight

MPH, FOOT = sight.MPH, sight.FOOT
SIGNAL_WARNING = 20.0  # s, the least that flashing signals give: road/WEB-8
STOP_LINE, TRACK = 15 * FOOT, 5 * FOOT  # road/RAIL-memory, road/WEB-7

TRACK_SPACING = 15 * FOOT  # between the middles of neighboring tracks, road/RAIL-memory


def _time(v: model.Inputs) -> float:
    width = TRACK + (v.tracks - 1) * TRACK_SPACING
    return sight.rail_crossing_time(
        v.combination_length, v.crossing_speed, v.start_acceleration, STOP_LINE, width
    )


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks of the view along the track and of the warning time."""
    time = _time(v)
    needed = v.train_speed * time
    checks = [
        model.at_least(
            "view",
            "View along the track",
            v.track_sight,
            needed,
            "distance",
            "road/RAIL-memory; road/CALC-1",
            why="A train that comes into view as you start reaches you on the track.",
        )
    ]
    if v.signals == "flashing":
        checks.append(
            model.at_most(
                "signals",
                "Clear within the shortest warning",
                time,
                SIGNAL_WARNING,
                "seconds",
                "road/WEB-8",
                why="If the signals start as you move off, the train is there first.",
            )
        )
    work.step(
        "Time to clear",
        "T",
        "J + V/a + (L + 2D + W − V²/(2a)) / V",
        (
            ("J", sight.START_DELAY, "seconds"),
            ("V", v.crossing_speed, "speed"),
            ("a", v.start_acceleration, "acceleration"),
            ("L", v.combination_length, "length"),
            ("D", STOP_LINE, "length"),
            ("W", TRACK + (v.tracks - 1) * TRACK_SPACING, "length"),
        ),
        time,
        "seconds",
        "road/RAIL-memory",
    )
    work.step(
        "View needed",
        "d",
        "train speed × T",
        (("train", v.train_speed, "speed"), ("T", time, "seconds")),
        needed,
        "distance",
        "road/CALC-1",
    )
    return model.Outcome(
        checks,
        [
            model.Output("time", "Time from deciding to clear", time, "seconds"),
            model.Output("view", "View along the track needed", needed, "distance"),
            model.Output(
                "train", "A train covers what you see in", v.track_sight / v.train_speed, "seconds"
            ),
        ],
    )
