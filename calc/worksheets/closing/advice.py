"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.mechanics import sight
from calc.search import Solver
from calc.search.rounding import solved
from calc.worksheets.closing.compute import MPH, _braking


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for the speed, road, view and length that would do."""
    broken = {check.name for check in outcome.checks if check.margin < 0}
    remedies = _seen_remedies(v, outcome, broken, solve) + _pull_remedies(v, outcome, broken, solve)
    cautions = [
        model.Caution(
            "These distances take a driver who is looking, dry level road and good brakes. Many "
            "aren't. Turn the flashers on, keep the emblem clean, and let traffic by where there "
            "is room.",
            "road/ROAD-practice",
        ),
        model.Caution(
            "Before a left turn look behind as well as ahead: being passed while turning left is "
            "one of the two commonest crashes.",
            "road/NC-1",
        ),
        model.Caution(
            "Rules of the road and the operator's manual come first. Nobody rides along without a "
            "seat and belt.",
            "road/US-ALL-caution",
        ),
    ]
    notes: list[model.Words] = []
    if v.maneuver != "along":
        notes.append(
            model.phrase(
                "Highway design lets a car turn left into a gap of {car} and a large truck of "
                "{truck}. Those gaps are for vehicles that speed up to the traffic; a tractor "
                "doesn't, so they aren't used here.",
                car=(sight.gap_time("car", "left"), "seconds"),
                truck=(sight.gap_time("combination truck", "left"), "seconds"),
            )
        )
    return model.Advice(remedies, cautions, [_difference_table(v)], notes)


def _seen_remedies(
    v: model.Inputs, outcome: model.Outcome, broken: set[str], solve: Solver
) -> list[model.Remedy]:
    remedies = []
    names = tuple(broken & {"slow", "stop"})
    if not names:
        return []
    needed = solve.smallest("sight_distance", v.sight_distance, 2500.0, names)
    if needed is not None:
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Be seen from {needed}: clear the verge, stop short of the crest, or post "
                    "somebody with a flag there.",
                    needed=(needed, "distance"),
                ),
                solved(solve, "sight_distance", needed, names, up=True),
                "road/CALC-1",
            )
        )
    traffic = solve.largest("car_speed", 4.5, v.car_speed, names)
    if traffic is not None:
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Take a road, or an hour, where traffic goes {speed} or less.",
                    speed=(traffic, "speed"),
                ),
                solved(solve, "car_speed", traffic, names, up=False),
                "road/CALC-1",
            )
        )
    if "slow" in names:
        own = solve.smallest("road_speed", v.road_speed, 25 * MPH, ("slow",))
        if own is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "At {speed} traffic closes slowly enough, if your machine may go that "
                        "fast with this load.",
                        speed=(own, "speed"),
                    ),
                    solved(solve, "road_speed", own, ("slow",), up=True),
                    "road/CALC-1",
                )
            )
    return remedies


def _pull_remedies(
    v: model.Inputs, outcome: model.Outcome, broken: set[str], solve: Solver
) -> list[model.Remedy]:
    names = tuple(broken & {"clear", "join"})
    if not names:
        return []
    remedies = []
    needed = solve.smallest("entrance_sight", v.entrance_sight, 2500.0, names)
    if needed is not None:
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Pull out where you see {needed} each way, or have somebody watch from where "
                    "that much can be seen.",
                    needed=(needed, "distance"),
                ),
                solved(solve, "entrance_sight", needed, names, up=True),
                "road/CALC-1",
            )
        )
    if "clear" in names:
        length = solve.largest("combination_length", 2.0, v.combination_length, ("clear",))
        if length is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "A combination of {length} or less is across in time.",
                        length=(length, "length", "ft"),
                    ),
                    solved(solve, "combination_length", length, ("clear",), up=False),
                    "road/CALC-1",
                )
            )
        quicker = solve.smallest("crossing_speed", v.crossing_speed, 6.7, ("clear",))
        if quicker is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Crossing at {speed} is quick enough, if it pulls away like that in one "
                        "gear.",
                        speed=(quicker, "speed"),
                    ),
                    solved(solve, "crossing_speed", quicker, ("clear",), up=True),
                    "road/CALC-1",
                )
            )
    return remedies


def _difference_table(v: model.Inputs) -> model.Table:
    """What more speed difference costs, at the sight distance given."""
    rows = []
    braking = _braking(v)
    for own in sorted({10 * MPH, 15 * MPH, 20 * MPH, 25 * MPH, v.road_speed}):
        closing = v.car_speed - own
        if closing <= 0.2:
            continue
        gap = sight.slow_down_gap(v.car_speed, own, v.reaction_time, braking) + v.spare_gap
        rows.append(
            (
                (own, "speed"),
                (closing, "speed"),
                (v.sight_distance / closing, "seconds"),
                (gap, "distance"),
                "yes" if gap <= v.sight_distance else "no",
            )
        )
    return model.Table(
        "What more speed difference costs",
        ("Your speed", "Traffic closes at", "Time to contact", "Distance to slow", "Seen in time"),
        tuple(rows),
        "road/CALC-1",
        model.phrase(
            "Traffic at {car}, seen from {sight}.",
            car=(v.car_speed, "speed"),
            sight=(v.sight_distance, "distance"),
        ),
    )
