"""The sums."""

from __future__ import annotations

from calc import arith, model, si
from calc.mechanics import road_gaps, sight

CAR_LENGTH = 19 * si.FOOT  # road/DOT-3
PASSING_GAP = 80 * si.FOOT  # before and after, road/GAP-practice
PULLING = ("right", "left", "cross")
TRUCK = "combination truck"  # whose gap a tractor gets at least: it is no quicker


def braking(v: model.Inputs) -> float:
    """The deceleration on the slope, never quite zero so that a steep one reads as very long."""
    return arith.number(arith.max(v.deceleration + sight.GRAVITY * v.grade, 0.05))


def compute(v: model.Inputs, at: model.At) -> None:
    """Check being seen in time, and pulling out where that is meant."""
    at.braking = braking(v)
    _caught_up(v, at)
    if v.maneuver in PULLING:
        _pull_out(v, at)
    _passing(v, at)


def _caught_up(v: model.Inputs, at: model.At) -> None:
    at.closing_speed = sight.closing_speed(v.car_speed, v.road_speed)
    slowing = sight.slow_down_gap(v.car_speed, v.road_speed, v.reaction_time, at.braking)
    at.gap = slowing + v.spare_gap
    at.stopping = sight.stopping_sight_distance(v.car_speed, 0.0, v.reaction_time, at.braking)
    if v.sight_distance is None:
        if at.closing_speed > 0:  # a car that is no faster may come in sight where it likes
            at.not_checked("slow", "sight_distance")
            at.not_checked("stop", "sight_distance")
    else:
        sources = "road/DOT-1; road/CALC-1"
        at.at_least("slow", "sight_distance", "gap", sources, grade=model.DANGER)
        at.at_least("stop", "sight_distance", "stopping", "road/DOT-1; road/WEB-5")
        if at.closing_speed > 0:
            at.closing_time = v.sight_distance / at.closing_speed
            at.step(
                "closing_time",
                "t = d / (V − v)",
                "road/CALC-1",
                d="sight_distance",
                V="car_speed",
                v="road_speed",
            )
    at.step(
        "braking", "a = a₀ + g G", "road/DOT-1; road/WEB-5", **{"a₀": "deceleration"}, G="grade"
    )
    driver = {"tᵣ": "reaction_time", "a": "braking"}
    at.step(
        "gap",
        "G = Δv tᵣ + Δv² / (2 a) + spare",
        "road/DOT-1; road/CALC-1",
        **{"Δv": "closing_speed"},
        **driver,
        spare="spare_gap",
    )
    at.step("stopping", "s = V tᵣ + V² / (2 a)", "road/DOT-1", V="car_speed", **driver)


def _pull_out(v: model.Inputs, at: model.At) -> None:
    """At least the gap of a truck, longer where it takes you longer; and what a turn asks for."""
    crossed = v.lanes if v.maneuver == "cross" else v.lanes / 2
    extra = arith.max(crossed - (2 if v.maneuver == "cross" else 1), 0.0)
    kind = "left" if v.maneuver == "left" else "right or cross"
    per_lane = road_gaps.gap_time(TRUCK, kind, 1) - road_gaps.gap_time(TRUCK, kind)
    at.gap_time = road_gaps.gap_time(TRUCK, kind) + per_lane * extra
    at.truck_sight = road_gaps.intersection_sight_distance(v.car_speed, at.gap_time)
    at.view = at.truck_sight
    if v.entrance_sight is None:
        at.not_checked("truck", "entrance_sight")  # the others wait for the same number
    _seen(v, at, "truck", "truck_sight", "road/DOT-2; road/GAP-1")
    if v.maneuver in ("cross", "left"):
        at.across = arith.number(v.set_back + crossed * v.lane_width + v.combination_length)
        at.clear_time = road_gaps.time_to_clear(at.across, v.crossing_speed, v.start_acceleration)
        at.clear_sight = road_gaps.intersection_sight_distance(v.car_speed, at.clear_time)
        at.view = arith.max(at.view, at.clear_sight)
        _seen(v, at, "clear", "clear_sight", "road/RAIL-memory; road/CALC-1")
        _clear_steps(at)
    if v.maneuver in ("right", "left"):
        at.join_gap = v.spare_gap + road_gaps.joining_gap(
            v.car_speed, v.road_speed, v.start_acceleration, v.reaction_time, at.braking
        )
        at.view = arith.max(at.view, at.join_gap)
        _seen(v, at, "join", "join_gap", "road/DOT-1; road/CALC-1")
        at.step(
            "join_gap",
            "D = car's way − your way until both go equally fast",
            "road/CALC-1",
            V="car_speed",
            v="road_speed",
            a="start_acceleration",
        )


def _seen(v: model.Inputs, at: model.At, name: str, needed: str, source: str) -> None:
    if v.entrance_sight is not None:
        at.at_least(name, "entrance_sight", needed, source, grade=model.DANGER)


def _clear_steps(at: model.At) -> None:
    at.step(
        "clear_time",
        "T = J + v/a + (S − v²/(2a)) / v, or J + √(2S/a)",
        "road/RAIL-memory; road/CALC-1",
        J=(road_gaps.START_DELAY, "seconds"),
        v="crossing_speed",
        a="start_acceleration",
        S="across",
    )
    at.step("clear_sight", "D = V T", "road/DOT-2", V="car_speed", T="clear_time")


def _passing(v: model.Inputs, at: model.At) -> None:
    if at.closing_speed <= 0.2:
        return
    at.passing_time, _, at.passing_sight = road_gaps.passing(
        v.car_speed,
        v.road_speed,
        v.combination_length,
        CAR_LENGTH,
        PASSING_GAP,
        PASSING_GAP,
        v.oncoming_speed,
    )
