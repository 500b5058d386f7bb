"""What is drawn."""

from __future__ import annotations

from calc import model, si
from calc.mechanics import sight
from calc.model.pictures import Chart, Label, Line, Mark, Picture, Scene, Series, Shape
from calc.worksheets.closing.compute import CAR_LENGTH, braking


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the car closing, moment by moment, and the distance to slow against difference."""
    views: list[Picture] = []
    if v.sight_distance is not None and v.car_speed > v.road_speed + 0.3:
        views.append(_timeline(v))
    views.append(_gap_chart(v))
    return views


def _timeline(v: model.Inputs) -> Scene:
    """Rows of the same road, each a moment later; lengths along the road are to scale."""
    slows = braking(v)
    closing = v.car_speed - v.road_speed
    slowed = v.reaction_time + closing / slows
    contact = v.sight_distance / closing
    gap = sight.slow_down_gap(v.car_speed, v.road_speed, v.reaction_time, slows)
    met = gap > v.sight_distance
    moments: list[tuple[float, model.Words, bool]] = [
        (0.0, "comes into view", True),
        (v.reaction_time, "brakes go on", True),
    ]
    if met:
        # The gap closes while braking: closing t - a (t - tr)²/2 = d.
        root = closing**2 + 2 * slows * (closing * v.reaction_time - v.sight_distance)
        hit = v.reaction_time + (closing - max(root, 0.0) ** 0.5) / slows
        if v.sight_distance <= closing * v.reaction_time:
            hit = contact
            moments = moments[:1]
        moments.append((hit, "contact, braking or not" if hit == contact else "contact", True))
    else:
        moments.append((slowed, "as slow as you", True))
        moments.append((contact, "contact without braking", False))
    span = max(time for time, _, _ in moments)
    items: list[Line | Shape | Label] = []
    end = v.sight_distance + v.road_speed * span + v.combination_length
    for row, (time, said, brakes) in enumerate(moments):
        y = -float(row) * 1.6
        rear = v.sight_distance + v.road_speed * time
        braked = max(time - v.reaction_time, 0.0) if brakes else 0.0
        car = v.car_speed * time - slows * braked**2 / 2
        items += [
            Line([(-CAR_LENGTH, y), (end, y)], "ground"),
            Shape(_box(car - CAR_LENGTH, car, y, 0.30), "accent"),
            Shape(
                _box(rear, rear + v.combination_length, y, 0.42),
                "bad" if rear - car < 0.5 else "fill",
            ),
            Label(
                (-CAR_LENGTH, y),
                model.phrase("{t}: " + str(said), t=(time, "seconds")),
                "start",
                dy=-2.1,
            ),
            Label(
                (end, y),
                model.phrase("gap {gap}", gap=(max(rear - car, 0.0), "distance")),
                "end",
                "soft",
                dy=-2.1,
            ),
        ]
    items.append(Line([(0.0, 1.2), (0.0, 1.2)], "soft"))
    return Scene(
        "A car closing on you",
        model.phrase(
            "Each row is a later moment. The car comes from the left at {car}, you drive at "
            "{own}; lengths along the road are to scale.",
            car=(v.car_speed, "speed"),
            own=(v.road_speed, "speed"),
        ),
        items,
        to_scale=False,
    )


def _box(left: float, right: float, y: float, height: float) -> list[tuple[float, float]]:
    return [(left, y), (right, y), (right, y + height), (left, y + height)]


def _gap_chart(v: model.Inputs) -> Chart:
    slows = braking(v)
    most = max(v.car_speed - v.road_speed, 20 * si.MPH) * 1.25
    steps = [most * i / 20 for i in range(21)]
    gaps = [sight.slow_down_gap(dv, 0.0, v.reaction_time, slows) + v.spare_gap for dv in steps]
    here = max(v.car_speed - v.road_speed, 0.0)
    seen = []
    said: model.Words = "The distance grows faster than the difference."
    if v.sight_distance is not None:
        seen.append(Series("seen from", [0.0, most], [v.sight_distance] * 2, "good dashed"))
        said = model.phrase(f"{said} You are seen from {{x}}.", x=(v.sight_distance, "distance"))
    return Chart(
        "Distance to slow against speed difference",
        said,
        "Traffic faster than you by",
        "speed",
        "Distance",
        "distance",
        [
            Series("distance to slow behind you", steps, gaps, "ink"),
            *seen,
        ],
        [Mark("you", here, sight.slow_down_gap(here, 0.0, v.reaction_time, slows) + v.spare_gap)],
    )
