"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import braking
from calc.search import Solver
from calc.search.rounding import solved
from calc.worksheets.road_towing.fields import _RULES


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for the load, the speed and the tractor that would do."""
    broken = tuple(check.name for check in outcome.checks if check.margin < 0)
    remedies = []
    if broken:
        mass = solve.largest("towed_mass", 10.0, v.towed_mass)
        if mass is not None and mass < v.towed_mass:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "{mass} behind you stays within every check.", mass=(mass, "mass")
                    ),
                    solved(solve, "towed_mass", mass, up=False),
                    "road/CALC-1",
                )
            )
        if set(broken) & {"room", "rule_speed"}:
            remedies += _slower(v, solve)
        remedies += _heavier(v, broken, solve)
        if v.trailer_brakes == "none" and solve.run(trailer_brakes="own").margin() >= 0:
            remedies.append(
                model.Remedy(
                    "With brakes of its own that work from the tractor this load stays within "
                    "every check.",
                    {"trailer_brakes": "own"},
                    "road/MAN-2",
                )
            )
        if "chain" in broken:
            remedies.append(
                model.Remedy(
                    model.phrase("Fit a chain rated {mass} or more.", mass=(v.towed_mass, "mass")),
                    solved(solve, "chain_rating", v.towed_mass, ("chain",), up=True),
                    "road/MAN-2",
                )
            )
    return model.Advice(remedies, _cautions(), [_rule_table(v)], [_approval_note(v)])


def _slower(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    speed = solve.largest("road_speed", 0.5, v.road_speed, ("room", "rule_speed"))
    if speed is None:
        return []
    return [
        model.Remedy(
            model.phrase("At {speed} it stops within the room you have.", speed=(speed, "speed")),
            solved(solve, "road_speed", speed, ("room", "rule_speed"), up=False),
            "road/CALC-1",
        )
    ]


def _heavier(v: model.Inputs, broken: tuple[str, ...], solve: Solver) -> list[model.Remedy]:
    names = tuple(name for name in broken if name in ("ratio", "holds", "room"))
    if not names:
        return []
    needed = solve.smallest("tractor_mass", v.tractor_mass, v.tractor_mass * 6, names)
    if needed is None:
        return []
    return [
        model.Remedy(
            model.phrase(
                "A tractor of {mass}, ballast and operator included, may pull this load.",
                mass=(needed, "mass"),
            ),
            solved(solve, "tractor_mass", needed, names, up=True),
            "road/CALC-1",
        )
    ]


def _allows(row: tables.Row, mass: float, limit: float) -> bool:
    """Some rules say "below", others "no more than"."""
    return mass < limit if row["ratio_reached_is_over"] == "yes" else mass <= limit


def _rule_table(v: model.Inputs) -> model.Table:
    rows = []
    for key, row in _RULES.items():
        if (row["brakes"] == "none") != (v.trailer_brakes == "none"):
            continue
        limit = braking.mass_limit(key, v.tractor_mass)
        rows.append(
            (
                row["text"],
                (limit, "mass"),
                "yes" if braking.rule_covers(key, v.road_speed) else "no, you go faster",
                "yes" if _allows(row, v.towed_mass, limit) else "no",
            )
        )
    return model.Table(
        "What the printed rules allow",
        ("Rule", "Most for this tractor", "Meant for your speed", "This load"),
        tuple(rows),
        "; ".join(dict.fromkeys(row["source"] for row in _RULES.values())),
        "The lowest of the implement's decal, the tractor's manual, this table and the law counts.",
    )


def _approval_note(v: model.Inputs) -> model.Words:
    return model.phrase(
        "At {speed} type approval accepts a stop in {bare} with no driver reaction in it. Don't "
        "set that beside road-design distances, which count 2.5 s of reaction.",
        speed=(v.road_speed, "speed"),
        bare=(braking.approval_stopping_distance(v.road_speed, v.top_speed), "distance"),
    )


def _cautions() -> list[model.Caution]:
    return [
        model.Caution(
            "Lock the brake pedals together on the road. Go down hills in the gear you would climb "
            "them in; never coast.",
            "road/ROAD-practice",
        ),
        model.Caution(
            "A load pulled from above the drawbar can tip the tractor over backward. Tow from the "
            "drawbar only.",
            "road/ROAD-practice",
        ),
        model.Caution(
            "These distances take dry, level pavement side to side, even brakes and tires that "
            "grip. On gravel or in the wet they are much longer. The manuals of both machines and "
            "local rules come first.",
            "road/ROAD-practice",
        ),
    ]
