"""What is drawn."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import braking
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.road_towing.compute import own_braking, trailer_braking

STEPS = 20


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the stopping distances as bars and against speed; what doesn't stop has no bar."""
    views: list[Picture] = [_bars(v)]
    chart = _chart(v)
    return [*views, chart] if chart else views


def _left(v: model.Inputs, towed: float, grade: float) -> float:
    return braking.towing_deceleration(
        own_braking(v), v.tractor_mass, towed, grade, trailer_braking(v)
    )


def _bars(v: model.Inputs) -> Bars:
    before = v.road_speed * (v.reaction_time + braking.DELAY_PER_SPEED)
    level = braking.stopping_distance(v.road_speed, own_braking(v), v.reaction_time)
    bars = [
        Bar("Reaction and brake delay alone", before, style="soft"),
        Bar("Tractor alone, level", level),
    ]
    runs_away = ""
    for label, towed in (("Tractor alone", 0.0), ("With this load", v.towed_mass or 0.0)):
        stop = braking.stopping_distance(v.road_speed, _left(v, towed, v.grade), v.reaction_time)
        if label != "Tractor alone" and not towed:
            continue
        if stop == arith.inf:
            runs_away = f"{label}, it does not stop on this slope."
            continue
        bad = v.room is not None and stop > v.room
        style = "fill" if not towed else ("bad" if bad else "accent")
        bars.append(Bar(f"{label}, on this slope", stop, style=style))
    if v.room is not None:
        bars.append(Bar("Room that you have", v.room, style="good"))
    said = model.phrase(f"From {{speed}}. {runs_away}".strip(), speed=(v.road_speed, "speed"))
    return Bars("Stopping distance", said, "distance", bars)


def _chart(v: model.Inputs) -> Chart | None:
    speeds = [v.road_speed * 1.5 * i / STEPS for i in range(STEPS + 1)]
    series, marks = [], []
    for label, towed, style in (
        ("tractor alone, on this slope", 0.0, "soft"),
        ("with this load", v.towed_mass or 0.0, "ink"),
    ):
        left = _left(v, towed, v.grade)
        if left <= 0:
            continue
        stops = [braking.stopping_distance(s, left, v.reaction_time) for s in speeds]
        series.append(Series(label, speeds, stops, style))
        if towed:
            stop = braking.stopping_distance(v.road_speed, left, v.reaction_time)
            marks.append(Mark("you", v.road_speed, stop))
    if not marks:
        return None
    if v.room is not None:
        series.append(Series("room", [0.0, speeds[-1]], [v.room, v.room], "good dashed"))
    return Chart(
        "Stopping distance against speed",
        "Braking distance grows with the square of speed.",
        "Speed",
        "speed",
        "Distance",
        "distance",
        series,
        marks,
    )
