"""What to do about it."""

from __future__ import annotations

import math

from calc import model, tables
from calc.mechanics import driveline
from calc.search import Solver
from calc.subjects.shear_bolt import inches
from calc.worksheets.driveline.compute import (
    RAISED_LIMIT,
    RPM,
    _closing,
    _distances,
    _fit_at,
    _overlap_rule,
    _source,
)

LENGTH = ("closing", "overlap")


def _length_remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    if outcome.margin(LENGTH) >= 0:
        return []
    shortest, longest = min(_distances(v)), max(_distances(v))
    gap, source = _closing(v.closing_rule)
    cut = driveline.cut_for(v.closed_length, shortest, gap)
    remedies = []
    if 0.0 < cut < v.tube_length - 0.05:
        cut = math.ceil(cut * 1000.0 - 1e-6) / 1000.0
        closed, tube = v.closed_length - cut, v.tube_length - cut
        tried = solve.run(closed_length=closed, tube_length=tube)
        if tried.margin(LENGTH) >= 0:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Cut {cut} off both tubes and both guards alike, file and clean the ends: "
                        "the overlap when longest is then {overlap}.",
                        cut=(cut, "length"),
                        overlap=(tried.output("overlap_longest"), "length"),
                    ),
                    {"closed_length": f"{closed:.4f} m", "tube_length": f"{tube:.4f} m"},
                    _source(source),
                )
            )
    ends = v.closed_length - v.tube_length
    closed = math.floor((shortest - gap) * 1000.0) / 1000.0
    tube = closed - ends
    if not remedies and tube > 0.1:
        tried = solve.run(closed_length=closed, tube_length=tube)
        if tried.margin(LENGTH) >= 0:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "A driveline {closed} long when closed, with tubes of {tube}, suits: gap "
                        "{gap}, overlap {overlap}.",
                        closed=(closed, "length"),
                        tube=(tube, "length"),
                        gap=(tried.output("gap"), "length"),
                        overlap=(tried.output("overlap_longest"), "length"),
                    ),
                    {"closed_length": f"{closed:.4f} m", "tube_length": f"{tube:.4f} m"},
                )
            )
        else:
            needed = _overlap_rule(v.overlap_rule).needed(tube)
            most = driveline.longest_allowed(tube, closed, needed)
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "No driveline with joints as long as these suits the whole lift. Even the "
                        "longest that closes at {shortest} may be pulled out to {most} at most, "
                        "and your longest is {longest}: limit the lift, or ask for a "
                        "three-part telescoping driveline.",
                        shortest=(shortest, "length"),
                        most=(most, "length"),
                        longest=(longest, "length"),
                    )
                )
            )
    return remedies


def _angle_remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies = []
    if outcome.check("raised") and outcome.margin(("raised",)) < 0:
        remedies.append(
            model.Remedy("Stop the PTO before raising.", {"pto_raised": "stopped"}, "value/P3c")
        )
        most = solve.largest("raised_rise", 0.0, v.raised_rise, ("raised",))
        if most is not None and v.raised_rise > 0:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Or set the lift stop so that the implement's shaft rises no more than "
                        "{rise} above the stub.",
                        rise=(most, "length"),
                    ),
                    {"raised_rise": inches(most, 100)},
                )
            )
    names = ("angle", "shaking")
    if outcome.margin(names) < 0:
        tried = solve.run(working_rise=0.0, working_tilt=0.0)
        if tried.margin(names) >= 0:
            side = 1.0 if v.working_rise >= 0 else -1.0

            def level(rise: float) -> float:
                return float(solve.run(working_rise=side * rise, working_tilt=0.0).margin(names))

            low, high = 0.0, abs(v.working_rise)
            if level(high) < 0:
                for _ in range(24):
                    half = 0.5 * (low + high)
                    low, high = (half, high) if level(half) >= 0 else (low, half)
            else:
                low = high
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Level the gearbox with the top link and work where the two shafts stand "
                        "within {rise} of each other in height.",
                        rise=(low, "length"),
                    ),
                    {
                        "working_tilt": "0 deg",
                        "working_rise": f"{side * math.floor(low * 10000) / 10000:.4f} m",
                    },
                )
            )
    return remedies


def _overload_remedies(
    v: model.Inputs, outcome: model.Outcome, solve: Solver
) -> list[model.Remedy]:
    names = ("overload", "overload_work")
    if outcome.margin(names) >= 0:
        return []
    torque = outcome.output("torque")
    if v.overload == "clutch":
        times = 3.0 if v.clutch_times > 3.0 else 2.0
        return [
            model.Remedy(
                model.phrase(
                    f"Set the clutch to slip at {times:g} times the tractor's torque, {{torque}}: "
                    "springs all alike, never screwed solid.",
                    torque=(times * torque, "torque"),
                ),
                {"clutch_times": f"{times:g}"},
                "value/PRACTICE",
            )
        ]
    planes = 1 if v.overload == "flange_bolt" else 2
    found = driveline.bolts_between(
        2.0 * torque, 3.0 * torque, planes, 0.5 * v.bolt_circle
    ) or driveline.bolts_between(torque, 3.0 * torque, planes, 0.5 * v.bolt_circle)
    if not found:
        return [
            model.Remedy(
                "No listed grade 2 bolt at this radius lets go between one and three times the "
                "torque: use the bolt that the manual names, or a friction clutch."
            )
        ]
    bolt = found[0]
    changes = {
        "bolt_size": bolt.size,
        "bolt_grade": bolt.grade,
        "bolt_plane": "thread" if bolt.threads_in_plane else "shank",
    }
    if v.overload == "none":
        changes["overload"] = "bolt"
    plane = "threads" if bolt.threads_in_plane else "its smooth shank"
    return [
        model.Remedy(
            model.phrase(
                f"A {bolt.size} in grade 2 bolt with {plane} in the shear plane lets go at "
                f"{{torque}}, {bolt.torque / torque:.1f} times the tractor's torque. The "
                "manual's own bolt comes first.",
                torque=(bolt.torque, "torque"),
            ),
            changes,
            "value/P5",
        )
    ]


CAUTIONS = (
    model.Caution(
        "A turning driveline winds up a sleeve or a shoelace in less than a second. Keep "
        "every guard on and its chains hooked; replace a broken guard before you start.",
        "hitch/S5, clause 7.7.1",
    ),
    model.Caution(
        "PTO off, engine off, key out and everything stopped before you touch, cut, grease "
        "or step over a driveline.",
        "value/P6d",
    ),
    model.Caution(
        "Check by hand over the whole lift, engine off, that nothing bottoms, parts or "
        "touches before the first start. The implement's manual comes before this page.",
        "value/P6a",
    ),
    model.Caution(
        "Only the bolt that the manual names: same size, same grade. A softer one can smear "
        "and lock the yoke.",
        "value/P5",
    ),
)


def _rules_table(v: model.Inputs) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    for rule in driveline.overlap_rules():
        needed, have = rule.needed(v.tube_length), _fit_at(v, rule)
        name = f"Overlap, {rule.applies}: {rule.name}"
        rows.append((name, (needed, "length"), (have, "length"), _met(have >= needed)))
    have = min(_distances(v)) - v.closed_length
    for row in tables.rows("driveline/driveline_closing_rules"):
        gap = float(row["clearance_m"])
        rows.append((f"Gap: {row['name']}", (gap, "length"), (have, "length"), _met(have >= gap)))
    return model.Table(
        "What each maker's rule says of this driveline",
        ("Rule", "Asks for", "You have", "Finding"),
        tuple(rows),
        "hitch/H18a",
        "Makers differ; the implement's own manual comes first. Each rule's source stands in the "
        "table on this page.",
    )


def _met(met: bool) -> str:
    return "met" if met else "not met"


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Give remedies, cautions and what the other rules say."""
    if outcome.margin(("sizes",)) < 0:
        return model.Advice(cautions=CAUTIONS)
    remedies = []
    if v.yokes == "turned":
        remedies.append(
            model.Remedy(
                "Pull the shaft apart and put it together with the inner yokes in line.",
                {"yokes": "in_line"},
            )
        )
    remedies += _length_remedies(v, outcome, solve)
    remedies += _angle_remedies(v, outcome, solve)
    remedies += _overload_remedies(v, outcome, solve)
    notes: list[model.Words] = []
    if v.joint != "wide" and outcome.output("front_angle") > 15.0:
        notes.append(
            "One maker advises 15 degrees at most for steady work; up to 35 degrees the joint "
            "lives, but not as long."
        )
    if outcome.output("raised_angle") > RAISED_LIMIT and v.pto_raised == "stopped":
        notes.append(
            model.phrase(
                "Raised, the joint stands at {angle}: fine standing still, never running.",
                angle=(outcome.output("raised_angle"), "angle"),
            )
        )
    at_speed = driveline.angle_for_speed(v.pto_speed * RPM)
    notes.append(
        model.phrase(
            "By the rule of an auxiliary shaft's manual a joint may bend {angle} at {speed}: the "
            "faster the shaft, the straighter it must run.",
            angle=(math.degrees(at_speed), "angle"),
            speed=(v.pto_speed, "rotation"),
        )
    )
    return model.Advice(remedies, CAUTIONS, [_rules_table(v)], notes)
