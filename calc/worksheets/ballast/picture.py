"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import ballast, lift
from calc.model.pictures import Chart, Mark, Picture, Scene, Series
from calc.subjects.loads_view import inputs_view
from calc.subjects.raised import behind_axle, capacity_of, coupler_mass, front_axle_of

# --- pictures --------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Return the side view with the loads on it, bucket empty and full, and lift by distance."""
    front = _met(outcome, "steering")
    rear = _met(outcome, "rear_axle", "rear_tires")
    load = ("front", front), ("rear", rear)
    views: list[Picture] = [_side_view(v, outcome, *load)]
    if v.loader_payload is not None:
        front, rear = _met(outcome, "loader_front"), _met(outcome, "loader_rear")
        full = ("loader_front", front), ("loader_rear", rear)
        views.append(_side_view(v, outcome, *full, payload=v.loader_payload))
    return [*views, _distance_chart(v)]


def _met(outcome: model.Outcome, *names: str) -> bool:
    return all(check.margin >= 0 for check in outcome.checks if check.name in names)


def _side_view(
    v: model.Inputs,
    outcome: model.Outcome,
    front: tuple[str, bool],
    rear: tuple[str, bool],
    payload: float | None = None,
) -> Scene:
    """Return the side view with the loads of two outputs, each with whether it is in limits."""
    return inputs_view(
        v,
        front_load=outcome.output(front[0]),
        rear_load=outcome.output(rear[0]),
        front_ok=front[1],
        rear_ok=rear[1],
        payload=payload,
        payload_ahead=v.loader_reach,
        title="Side view, bucket full" if payload else "Side view with the loads",
    )


def _distance_chart(v: model.Inputs) -> Chart:
    """Return what the hitch lifts and what steering allows against the distance."""
    far = max(lift.GREATEST_DISTANCE, float(v.cg_distance) * 1.1)
    xs = [far * i / 36 for i in range(2, 37)]
    lifts = [capacity_of(v.but(cg_distance=x)) for x in xs]
    front_axle, weights = front_axle_of(v), v.front_ballast or 0.0
    allowed = [_steering_limit(v.but(cg_distance=x), front_axle, weights) for x in xs]
    return Chart(
        "Lift and steering against distance",
        model.phrase(
            "What the hitch lifts, and what the front axle rule allows, by the distance of the "
            "implement's center of gravity behind the balls. Yours is {mass} at {d}.",
            mass=(v.implement_mass, "mass"),
            d=(v.cg_distance, "length"),
        ),
        "Center of gravity behind the hitch balls",
        "length",
        "Mass of the implement",
        "mass",
        [
            Series("what the hitch lifts", xs, lifts, "accent thick"),
            Series("what the front axle rule allows", xs, allowed, "ink dashed"),
        ],
        [Mark("your implement", v.cg_distance, v.implement_mass, "ink")],
    )


def _steering_limit(v: model.Inputs, front_axle: float, weights: float) -> float:
    coupler = 0.0 if v.quick_coupler == "none" else coupler_mass()
    _, reach = behind_axle(v)
    total = ballast.greatest_rear_mass(
        v.tractor_mass,
        front_axle,
        v.wheelbase,
        reach,
        0.0,
        weights,
        v.front_ballast_distance,
        v.front_rule,
    )
    return max(total - coupler, 0.0)
