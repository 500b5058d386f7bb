"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import braking
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.road_towing.compute import _combined, _own


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the stopping distances as bars and against speed."""
    own, delay = _own(v), v.reaction_time
    left = _combined(v)
    bars = [
        Bar(
            "Reaction and brake delay alone",
            v.road_speed * (delay + braking.DELAY_PER_SPEED),
            style="soft",
        ),
        Bar("Tractor alone, level", braking.stopping_distance(v.road_speed, own, delay)),
        Bar("Tractor alone, on this slope", outcome.output("alone")),
    ]
    if left > 0:
        bars.append(
            Bar(
                "With this load, on this slope",
                outcome.output("stop"),
                style="bad" if outcome.output("stop") > v.room else "accent",
            )
        )
    bars.append(Bar("Room that you have", v.room, style="good"))
    said = "" if left > 0 else " With this load it does not stop on this slope."
    views: list[Picture] = [
        Bars(
            "Stopping distance",
            model.phrase("From {speed}." + said, speed=(v.road_speed, "speed")),
            "distance",
            bars,
        )
    ]
    speeds = [v.road_speed * 1.5 * i / 20 for i in range(21)]
    series = (
        [
            Series(
                "tractor alone, on this slope",
                speeds,
                [
                    braking.stopping_distance(
                        s, braking.towing_deceleration(own, v.tractor_mass, 0.0, v.grade), delay
                    )
                    for s in speeds
                ],
                "soft",
            )
        ]
        if braking.towing_deceleration(own, v.tractor_mass, 0.0, v.grade) > 0
        else []
    )
    if left > 0:
        series.append(
            Series(
                "with this load",
                speeds,
                [braking.stopping_distance(s, left, delay) for s in speeds],
                "ink",
            )
        )
        series.append(Series("room", [0.0, speeds[-1]], [v.room, v.room], "good dashed"))
        views.append(
            Chart(
                "Stopping distance against speed",
                "Braking distance grows with the square of speed.",
                "Speed",
                "speed",
                "Distance",
                "distance",
                series,
                [Mark("you", v.road_speed, outcome.output("stop"))],
            )
        )
    return views
