"""Numbers about lift, ballast and stability for prose."""

import math
from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, worksheets
from calc.mechanics import ballast, lift, loader_counterweight, stability
from calc.model import Answer


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("ballast"), {}, example=True)


def _output(name: str, kind: str = "mass", metric: bool = True) -> Callable[[], str]:
    def text() -> str:
        value = next(o.value for o in _example().outputs if o.name == name)
        us = quantities.show(value, kind, "us")
        other = quantities.show(value, kind, "metric")
        return f"{us} ({other})" if metric and other != us else us

    return text


def _typed(name: str) -> Callable[[], str]:
    return lambda: worksheets.load("ballast").field(name).example


def _limit(name: str) -> Callable[[], str]:
    def text() -> str:
        check = next(v.check for v in _example().verdicts if v.check.name == name)
        us = quantities.show(check.limit, check.kind, "us")
        return f"{us} ({quantities.show(check.limit, check.kind, 'metric')})"

    return text


def _ballast_to_add() -> str:
    value = next(o.value for o in _example().outputs if o.name == "ballast")
    return f"{quantities.show(value, 'mass')} ({quantities.show(value, 'mass', 'metric')})"


def _combined() -> str:
    answer = search.answer(worksheets.load("ballast"), {"front_rule": "combined"}, example=True)
    value = next(o.value for o in answer.outputs if o.name == "ballast")
    return f"{quantities.show(value, 'mass')} ({quantities.show(value, 'mass', 'metric')})"


PLANTER_LB, PLANTER_INCHES, RATED_INCHES, PIVOT_INCHES = 10000.0, 48, 24, 37  # hitch/H13


def _planter() -> str:
    felt = lift.effective_mass(
        PLANTER_LB, PLANTER_INCHES * si.INCH, RATED_INCHES * si.INCH, PIVOT_INCHES * si.INCH
    )
    return f"{felt:,.0f} lb"


FAR, LINKS = 40 * si.INCH, 0.8  # an implement that reaches far back; lower links of a compact


def _share_left() -> str:
    return f"{100 * lift.capacity_at(1.0, lift.RATING_DISTANCE, FAR, LINKS):.0f} %"


TRACK, HEIGHT, WHEELBASE, AHEAD, PIN = 1.20, 0.65, 1.70, 0.75, 0.35


def _box_angle() -> str:
    return f"{math.degrees(stability.side_tip_angle(TRACK, HEIGHT)):.0f} degrees"


def _pivot_angle() -> str:
    angle = stability.side_tip_angle_pivoting(TRACK, HEIGHT, WHEELBASE, AHEAD, PIN)
    return f"{math.degrees(angle):.0f}"


def _rated_at(key: str) -> Callable[[], str]:
    return lambda: quantities.show(lift.rating_distance(key), "length", figures=2)


FACTS: dict[str, Callable[[], str]] = {
    "lift-example-tractor": _typed("tractor_mass"),
    "lift-example-share": _typed("front_share"),
    "lift-example-rating": _typed("lift_capacity"),
    "lift-example-implement": _typed("implement_mass"),
    "lift-example-distance": _typed("cg_distance"),
    "lift-example-width": _typed("working_width"),
    "lift-example-capacity": _output("capacity"),
    "lift-example-front": _output("front"),
    "lift-example-front-share": _output("front_share_left", "fraction"),
    "lift-example-wanted": _limit("steering"),
    "lift-example-rear-rise": _output("rise"),
    "lift-example-ballast": _ballast_to_add,
    "lift-example-ballast-combined": _combined,
    "lift-example-back": _output("back", "angle"),
    "lift-example-back-up": _output("back_up", "angle"),
    "lift-planter-felt": _planter,
    "lift-planter-mass": lambda: f"{PLANTER_LB:,.0f} lb",
    "lift-planter-distance": lambda: f"{PLANTER_INCHES} in",
    "lift-near": _rated_at("305"),
    "lift-far": _rated_at("610"),
    "lift-reach": lambda: quantities.show(FAR, "length"),
    "lift-left-at-reach": _share_left,
    "lift-front-share": lambda: f"{100 * ballast.FRONT_SHARE:.0f} %",
    "lift-rear-share": lambda: f"{100 * ballast.REAR_SHARE:.0f} %",
    "lift-loader-share": lambda: f"{100 * loader_counterweight.LOADER_REAR_SHARE:.0f} %",
    "lift-greatest-distance": lambda: quantities.show(lift.GREATEST_DISTANCE, "length"),
    "lift-tip-track": lambda: quantities.show(TRACK, "length"),
    "lift-tip-box": _box_angle,
    "lift-tip-pivot": _pivot_angle,
    "lift-fifteen-degrees": lambda: f"{stability.slope_percent(math.radians(15.0)):.0f} %",
}
