"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import carried_mass, lift
from calc.model.pictures import Chart, Mark, Picture, Series
from calc.subjects import hung
from calc.subjects.loads_view import states
from calc.subjects.standing import stand


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Return the tractor in every state with its loads, and lift by distance."""
    views: list[Picture] = [*states(v, outcome)]
    if hung.hangs(v) == "hitch":
        views.append(_distance_chart(v))
    return views


def _distance_chart(v: model.Inputs) -> Chart:
    """Return what the hitch lifts and what steering allows against the distance."""
    far = max(lift.GREATEST_DISTANCE, float(hung.hung_at(v)) * 1.1)
    xs = [far * i / 36 for i in range(2, 37)]
    lifts = [
        hung.capacity_of(v.but(cg_distance=x, implement_mass=hung.hung_mass(v), load_carried=None))
        for x in xs
    ]
    allowed = [
        _steering_limit(v.but(cg_distance=x, implement_mass=hung.hung_mass(v), load_carried=None))
        for x in xs
    ]
    return Chart(
        "Lift and steering against distance",
        model.phrase(
            "What the hitch lifts, and what the front axle rule allows, by the distance of the "
            "implement's center of gravity behind the balls. Yours is {mass} at {d}.",
            mass=(hung.hung_mass(v), "mass"),
            d=(hung.hung_at(v), "length"),
        ),
        "Center of gravity behind the hitch balls",
        "length",
        "Mass of the implement",
        "mass",
        [
            Series("what the hitch lifts", xs, lifts, "accent thick"),
            Series("what the front axle rule allows", xs, allowed, "ink dashed"),
        ],
        [Mark("your implement", hung.hung_at(v), hung.hung_mass(v), "ink")],
    )


def _steering_limit(v: model.Inputs) -> float:
    coupler = 0.0 if v.quick_coupler == "none" else hung.coupler_mass()
    stands = stand(v)
    total = carried_mass.greatest_rear_mass(
        stands.own,
        stands.own_front,
        stands.base,
        hung.behind_axle(v)[1],
        0.0,
        stands.weights,
        v.front_ballast_distance,
        v.front_rule,
    )
    return max(total - coupler, 0.0)
