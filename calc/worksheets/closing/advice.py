"""What to do about it."""

from __future__ import annotations

from calc import model, si
from calc.mechanics import road_gaps, sight
from calc.search import Remedies
from calc.worksheets.closing.compute import PULLING, braking

SEEN, PULL = ("slow", "stop"), ("truck", "clear", "join")
FASTEST = 25 * si.MPH  # that a machine with an emblem goes


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for the view, the road, the speed and the length that would do."""
    broken = set(remedies.broken)
    seen = broken & set(SEEN)
    if seen:
        remedies.more("sight_distance", mends=seen, most=6.0, step=10.0)
        remedies.less("car_speed", mends=seen, step=5.0)
        if "slow" in seen:
            remedies.more("road_speed", mends=("slow",), end=FASTEST)
    pull = broken & set(PULL)
    if pull:
        remedies.more("entrance_sight", mends=pull, most=6.0, step=10.0)
        if v.maneuver in ("left", "cross"):
            remedies.choose("maneuver", "right", mends=pull)
        if "clear" in pull:
            remedies.less("combination_length", mends=("clear",), step=1.0)
            remedies.more("crossing_speed", mends=("clear",))
    notes: list[model.Words] = []
    if v.maneuver in PULLING:
        car = (road_gaps.gap_time("car", "left"), "seconds")
        notes.append(found.note("gaps", car=car))
        notes.append(found.note("shift"))
    tables = [] if v.sight_distance is None else [_difference_table(v)]
    return model.Advice(
        cautions=found.cautions("drivers", "left", "rules"),
        tables=tables,
        notes=notes,
        says=_says(v, found),
    )


def _says(v: model.Inputs, found: model.Found) -> dict[str, model.Words]:
    """What is said where nobody pulls out, and of a car that doesn't catch up."""
    said: dict[str, model.Words] = {}
    if v.maneuver == "along":
        said["pull"] = said["view"] = found.note("along")
    if found.closing_speed <= 0.0 and "stop" not in found.broken:
        said["caught"] = found.note("slower")
    return said


def _difference_table(v: model.Inputs) -> model.Table:
    """What more speed difference costs, at the sight distance given."""
    rows = []
    for own in sorted({10 * si.MPH, 15 * si.MPH, 20 * si.MPH, 25 * si.MPH, v.road_speed}):
        closing = v.car_speed - own
        if closing <= 0.2:
            continue
        slowing = sight.slow_down_gap(v.car_speed, own, v.reaction_time, braking(v))
        gap = slowing + v.spare_gap
        rows.append(
            (
                (own, "speed"),
                (closing, "speed"),
                (v.sight_distance / closing, "seconds"),
                (gap, "distance"),
                "yes" if gap <= v.sight_distance else "no",
            )
        )
    seen = {"car": (v.car_speed, "speed"), "sight": (v.sight_distance, "distance")}
    return model.Table(
        "What more speed difference costs",
        ("Your speed", "Traffic closes at", "Time to contact", "Distance to slow", "Seen in time"),
        tuple(rows),
        "road/CALC-1",
        model.phrase("Traffic at {car}, seen from {sight}.", **seen),
    )
