"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.search import Solver
from calc.search.rounding import solved


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for length, gear and view."""
    remedies = []
    if outcome.margin() < 0:
        length = solve.largest("combination_length", 2.0, v.combination_length)
        if length is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Up to {length} long it is across in time: take one load less.",
                        length=(length, "length", "ft"),
                    ),
                    solved(solve, "combination_length", length, up=False),
                    "road/CALC-1",
                )
            )
        speed = solve.smallest("crossing_speed", v.crossing_speed, 6.7)
        if speed is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "In a gear that reaches {speed} it is across in time.",
                        speed=(speed, "speed"),
                    ),
                    solved(solve, "crossing_speed", speed, up=True),
                    "road/CALC-1",
                )
            )
        view = solve.smallest("track_sight", v.track_sight, 1800.0, ("view",))
        if view is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Cross where you see {view} along the track, or have somebody watch from "
                        "where that much can be seen.",
                        view=(view, "distance"),
                    ),
                    solved(solve, "track_sight", view, ("view",), up=True),
                    "road/CALC-1",
                )
            )
    cautions = [
        model.Caution(
            "Stop, open the cab door, look both ways and listen. Two trains may follow one "
            "another. If you stall on the track, get off, run toward the train and away from the "
            "track, and call the number on the sign.",
            "road/RAIL-practice",
        ),
        model.Caution(
            "Low trailers and long drawbars hang up on humped crossings. If you can't clear the "
            "far side at once, don't start.",
            "road/RAIL-practice",
        ),
    ]
    return model.Advice(remedies, cautions)
