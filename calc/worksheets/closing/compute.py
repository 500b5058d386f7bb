"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import sight

MPH, FOOT = sight.MPH, sight.FOOT
CAR_LENGTH = 19 * FOOT  # road/DOT-3


def _braking(v: model.Inputs) -> float:
    """The deceleration on the slope, never quite zero so that a steep one reads as very long."""
    return arith.number(arith.max(v.deceleration + sight.GRAVITY * v.grade, 0.05))


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks of being seen in time and of pulling out."""
    braking = _braking(v)
    closing = sight.closing_speed(v.car_speed, v.road_speed)
    gap = sight.slow_down_gap(v.car_speed, v.road_speed, v.reaction_time, braking) + v.spare_gap
    stop = sight.stopping_sight_distance(v.car_speed, 0.0, v.reaction_time, braking)
    checks = [
        model.at_least(
            "slow",
            "Traffic sees you in time to slow behind you",
            v.sight_distance,
            gap,
            "distance",
            "road/DOT-1; road/CALC-1",
            why="A driver who sees you later can't slow to your speed before reaching you.",
        ),
        model.at_least(
            "stop",
            "Traffic sees you in time to stop",
            v.sight_distance,
            stop,
            "distance",
            "road/DOT-1; road/WEB-5",
            why="If you have to stop, or slow for a turn, a driver behind can't stop in time.",
        ),
    ]
    outputs = [
        model.Output("closing_speed", "Speed at which traffic closes", closing, "speed"),
    ]
    if closing > 0:
        outputs.append(
            model.Output(
                "closing_time",
                "Time until it reaches you",
                v.sight_distance / closing,
                "seconds",
                "if the driver does nothing",
            )
        )
    outputs += [
        model.Output("gap", "Distance to slow behind you", gap, "distance"),
        model.Output("stopping", "Distance to stop", stop, "distance"),
    ]
    if work.on:
        _steps(v, work, braking, gap, stop)
    pulled, numbers = _pulling_out(v, braking, work)
    passed = _passing(v) if closing > 0.2 else []
    return model.Outcome([*checks, *pulled], [*outputs, *numbers, *passed])


def _steps(v: model.Inputs, work: model.Work, braking: float, gap: float, stop: float) -> None:
    closing = sight.closing_speed(v.car_speed, v.road_speed)
    if closing > 0:
        work.step(
            "Time until contact",
            "t",
            "d / (V − v)",
            (
                ("d", v.sight_distance, "distance"),
                ("V", v.car_speed, "speed"),
                ("v", v.road_speed, "speed"),
            ),
            v.sight_distance / closing,
            "seconds",
            "road/CALC-1",
        )
    work.step(
        "Braking on this slope",
        "a",
        "a₀ + g G",
        (("a₀", v.deceleration, "acceleration"), ("G", v.grade, "slope")),
        braking,
        "acceleration",
        "road/DOT-1; road/WEB-5",
    )
    work.step(
        "Distance to slow behind you",
        "G",
        "Δv tᵣ + Δv² / (2 a) + spare",
        (
            ("Δv", closing, "speed"),
            ("tᵣ", v.reaction_time, "seconds"),
            ("a", braking, "acceleration"),
            ("spare", v.spare_gap, "distance"),
        ),
        gap,
        "distance",
        "road/DOT-1; road/CALC-1",
    )
    work.step(
        "Distance to stop (exact units; guides print 1.47 and 1.075)",
        "s",
        "V tᵣ + V² / (2 a)",
        (
            ("V", v.car_speed, "speed"),
            ("tᵣ", v.reaction_time, "seconds"),
            ("a", braking, "acceleration"),
        ),
        stop,
        "distance",
        "road/DOT-1",
    )


def _clear_distance(v: model.Inputs) -> float:
    """How far the machine moves until its rear leaves the lanes that it crosses."""
    lanes = v.lanes if v.maneuver == "cross" else v.lanes / 2
    return arith.number(v.set_back + lanes * v.lane_width + v.combination_length)


def _pulling_out(
    v: model.Inputs, braking: float, work: model.Work
) -> tuple[list[model.Check], list[model.Output]]:
    checks: list[model.Check] = []
    outputs: list[model.Output] = []
    if v.maneuver in ("cross", "left"):
        distance = _clear_distance(v)
        time = sight.time_to_clear(distance, v.crossing_speed, v.start_acceleration)
        needed = sight.intersection_sight_distance(v.car_speed, time)
        words = "the road" if v.maneuver == "cross" else "the near lanes"
        checks.append(
            model.at_least(
                "clear",
                f"You are clear of {words} before traffic arrives",
                v.entrance_sight,
                needed,
                "distance",
                "road/RAIL-memory; road/CALC-1",
                why="Somebody who comes into view as you start has to brake for you.",
            )
        )
        outputs += [
            model.Output(
                "clear_time",
                f"Time to clear {words}",
                time,
                "seconds",
                "two seconds to look included",
            ),
            model.Output("clear_sight", "View along the road needed for that", needed, "distance"),
        ]
        work.step(
            "Time to clear",
            "T",
            "J + v/a + (S − v²/(2a)) / v, or J + √(2S/a)",
            (
                ("J", sight.START_DELAY, "seconds"),
                ("v", v.crossing_speed, "speed"),
                ("a", v.start_acceleration, "acceleration"),
                ("S", distance, "distance"),
            ),
            time,
            "seconds",
            "road/RAIL-memory; road/CALC-1",
        )
        work.step(
            "View needed",
            "D",
            "V T",
            (("V", v.car_speed, "speed"), ("T", time, "seconds")),
            needed,
            "distance",
            "road/DOT-2",
        )
    if v.maneuver in ("right", "left"):
        gap = v.spare_gap + sight.joining_gap(
            v.car_speed, v.road_speed, v.start_acceleration, v.reaction_time, braking
        )
        checks.append(
            model.at_least(
                "join",
                "Traffic can slow behind you as you pull in",
                v.entrance_sight,
                gap,
                "distance",
                "road/DOT-1; road/CALC-1",
                why="A driver who comes into view as you pull out runs into you before both go "
                "equally fast.",
            )
        )
        outputs.append(
            model.Output("join_gap", "View needed to pull in ahead of traffic", gap, "distance")
        )
        work.step(
            "View needed to pull in",
            "D",
            "car's way − your way until both go equally fast",
            (
                ("V", v.car_speed, "speed"),
                ("v", v.road_speed, "speed"),
                ("a", v.start_acceleration, "acceleration"),
            ),
            gap,
            "distance",
            "road/CALC-1",
        )
    return checks, outputs


def _passing(v: model.Inputs) -> list[model.Output]:
    each = 80 * FOOT
    time, _, clear = sight.passing(
        v.car_speed, v.road_speed, v.combination_length, CAR_LENGTH, each, each, v.oncoming_speed
    )
    return [
        model.Output(
            "passing_time",
            "Time in the other lane to pass you",
            time,
            "seconds",
            "at steady speed, the best case",
        ),
        model.Output(
            "passing_sight",
            "Clear road that a passing driver needs",
            clear,
            "distance",
            "with oncoming traffic",
        ),
    ]
