"""The sums."""

from __future__ import annotations

from functools import cache

from calc import arith, model, tables
from calc.mechanics import driveline, pto

RPM = arith.pi / 30.0
RAISED_LIMIT = 35.0  # value/P3c: stop the PTO beyond this


def _distances(v: model.Inputs) -> tuple[float, float, float]:
    """Groove to groove, lowered, at work and raised, with coupler and clutch. [m]"""
    change = v.setback - v.added_length
    return (
        v.lowered_distance + change,
        v.working_distance + change,
        v.raised_distance + change,
    )


def _angle(rise: float, distance: float) -> float:
    """Angle of the shaft above level. [rad]"""
    return arith.asin(arith.max(-1.0, arith.min(1.0, rise / distance)))


@cache
def _overlap_rule(key: str) -> driveline.OverlapRule:
    return next(rule for rule in driveline.overlap_rules() if rule.key == key)


@cache
def _closing(key: str) -> tuple[float, str]:
    row = tables.by_key("driveline/driveline_closing_rules", "key")[key]
    return float(row["clearance_m"]), row["source"]


@cache
def _joint_limit(key: str) -> tuple[float, str]:
    row = tables.by_key("driveline/driveline_joint_limits", "key")[key]
    return float(row["running_deg"]), row["source"]


def _source(citations: str) -> str:
    """A citation for a check: the first of a list."""
    return citations.split("; ")[0]


def _fit_at(v: model.Inputs, rule: driveline.OverlapRule) -> float:
    """Overlap where a rule looks: at the longest distance, or at work. [m]"""
    low, work, high = _distances(v)
    longest = work if rule.applies == "normal work" else arith.max(low, work, high)
    return arith.number(v.tube_length - (longest - v.closed_length))


def _overload(v: model.Inputs, torque: float) -> float | None:
    """Torque at which the protection lets go. [N m]"""
    if v.overload == "none":
        return None
    if v.overload == "clutch":
        return arith.number(v.clutch_times) * torque
    planes = 2 if v.overload == "bolt" else 1
    return driveline.shear_bolt(
        v.bolt_size, v.bolt_grade, v.bolt_plane == "thread", planes, 0.5 * v.bolt_circle
    ).torque


def _overload_checks(v: model.Inputs, torque: float) -> list[model.Check]:
    released = _overload(v, torque)
    if released is None:
        return [
            model.fits(
                "overload",
                "Protection against a jam",
                -1.0,
                "Nothing lets go before the gearbox, the joints or the tractor do.",
                "value/PRACTICE",
            )
        ]
    return [
        model.at_most(
            "overload",
            "Torque at which the protection lets go",
            released,
            3.0 * torque,
            "torque",
            "value/P4a",
            why="Beyond three times the working torque something dearer breaks first.",
            close_band=0.0,
        ),
        model.at_least(
            "overload_work",
            "The same, in ordinary work",
            released,
            torque,
            "torque",
            "value/DERIVED",
            why="It lets go in ordinary work.",
        ),
    ]


def _length_checks(v: model.Inputs, work: model.Work) -> list[model.Check]:
    shortest, longest = arith.min(_distances(v)), arith.max(_distances(v))
    gap, gap_source = _closing(v.closing_rule)
    rule = _overlap_rule(v.overlap_rule)
    overlap, needed = _fit_at(v, rule), rule.needed(v.tube_length)
    if work.on:
        work.step(
            "Overlap where the rule looks",
            "X",
            "t − (L₁ − L_c)",
            (
                ("t", v.tube_length, "length"),
                ("L₁", longest, "length"),
                ("L_c", v.closed_length, "length"),
            ),
            overlap,
            "length",
            "hitch/DERIVED",
        )
        work.step(
            "Gap when shortest",
            "C",
            "L₂ − L_c",
            (("L₂", shortest, "length"), ("L_c", v.closed_length, "length")),
            shortest - v.closed_length,
            "length",
            "hitch/DERIVED",
        )
    return [
        model.at_least(
            "closing",
            "Gap left when shortest",
            shortest - v.closed_length,
            gap,
            "length",
            _source(gap_source),
            why="The shaft bottoms out and pushes on the gearbox and the PTO bearing.",
            close_band=0.0,
        ),
        model.at_least(
            "overlap",
            "Overlap of the tubes",
            overlap,
            needed,
            "length",
            _source(rule.source),
            why="The tubes bend, bind or part, and a parted shaft flails.",
        ),
    ]


def _angles(v: model.Inputs) -> tuple[float, float, float]:
    """Joint angles [rad]: tractor's end at work, implement's end at work, larger when raised."""
    _, at_work, raised = _distances(v)
    front = _angle(v.working_rise, at_work)
    return (
        abs(front),
        abs(front - arith.radians(v.working_tilt)),
        abs(_angle(v.raised_rise, raised)),
    )


def _angle_checks(
    v: model.Inputs, work: model.Work
) -> tuple[list[model.Check], list[model.Output]]:
    front, rear, raised = _angles(v)
    limit, source = _joint_limit(v.joint)
    larger = arith.degrees(arith.max(front, rear))
    at_speed = arith.degrees(driveline.angle_for_speed(v.pto_speed * RPM))
    in_line = v.yokes == "in_line"
    swing = driveline.two_joint_swing(front, rear, in_line)
    if work.on:
        _, at_work, _ = _distances(v)
        signed = arith.degrees(_angle(v.working_rise, at_work))
        work.step(
            "Joint angle at the tractor, at work",
            "β₁",
            "asin(rise / L)",
            (("rise", v.working_rise, "length"), ("L", at_work, "length")),
            signed,
            "angle",
            "value/DERIVED",
        )
        work.step(
            "Joint angle at the implement, at work",
            "β₂",
            "|β₁ − tilt|",
            (("β₁", signed, "angle"), ("tilt", v.working_tilt, "angle")),
            arith.degrees(rear),
            "angle",
            "value/DERIVED",
        )
        work.step(
            "Swing of the speed behind one joint",
            "U",
            "1/cos β − cos β",
            (("β₁", arith.degrees(front), "angle"),),
            driveline.fluctuation(front),
            "fraction",
            "value/P1",
        )
        work.step(
            "Swing left at the implement",
            "U₂",
            "1/r − r, r = cos β₁ / cos β₂",
            (("β₁", arith.degrees(front), "angle"), ("β₂", arith.degrees(rear), "angle")),
            swing,
            "fraction",
            "value/DERIVED",
        )
    checks = [
        model.at_most(
            "angle",
            "Larger joint angle at work",
            larger,
            limit,
            "angle",
            _source(source),
            why="Joints knock, heat and wear out.",
        ),
        model.at_most(
            "shaking",
            "Joint angle at this speed",
            larger,
            at_speed,
            "angle",
            "value/P2",
            why="The middle shaft speeds up and slows down too hard twice a turn.",
        ),
    ]
    checks.append(
        model.fits(
            "yokes",
            "Inner yokes in line",
            1.0 if in_line else -1.0,
            "The second joint takes back what the first one does."
            if in_line
            else "A quarter turn out, the two joints add up instead of canceling.",
            "value/UJ-memory",
            why="" if in_line else "The driveline shakes, and gearbox and joints wear.",
        )
    )
    if v.pto_raised == "running" and v.joint != "wide":
        checks.append(
            model.at_most(
                "raised",
                "Joint angle raised, PTO running",
                arith.degrees(raised),
                RAISED_LIMIT,
                "angle",
                "value/P3c",
                why="The joint hits its own ears and breaks.",
            )
        )
    least, most = driveline.ratio_extremes(arith.max(front, rear))
    outputs = [
        model.Output(
            "front_angle", "Joint angle at the tractor, at work", arith.degrees(front), "angle"
        ),
        model.Output(
            "rear_angle", "Joint angle at the implement, at work", arith.degrees(rear), "angle"
        ),
        model.Output(
            "raised_angle",
            "Joint angle, raised",
            arith.degrees(raised),
            "angle",
            "stop the PTO before raising this far" if arith.degrees(raised) > RAISED_LIMIT else "",
        ),
        model.Output(
            "ripple_low", "Slowest turn of the middle shaft", least * v.pto_speed, "rotation"
        ),
        model.Output(
            "ripple_high", "Fastest turn of the middle shaft", most * v.pto_speed, "rotation"
        ),
        model.Output(
            "swing",
            "Swing of speed at the implement",
            swing,
            "fraction",
            "nothing is left when both angles are equal and the yokes are in line",
        ),
        model.Output(
            "residual",
            "Equivalent single joint angle",
            arith.degrees(driveline.residual_angle(front, rear, in_line)),
            "angle",
        ),
    ]
    return checks, outputs


STEEPEST = arith.radians(85.0)


def _problem(v: model.Inputs) -> str:
    """What rules the measured sizes out, as a sentence; empty when they can be."""
    low, at_work, high = _distances(v)
    if arith.min(low, at_work, high) <= 0.05:
        return "With that clutch on the stub no distance is left for a driveline."
    if v.closed_length <= v.tube_length:
        return "One tube can't be as long as the whole closed driveline: measure again."
    if abs(v.working_rise) >= 0.99 * at_work or abs(v.raised_rise) >= 0.99 * high:
        return "A height can't be more than the distance from shaft to shaft: measure again."
    if arith.max(_angles(v)) >= STEEPEST:
        return "A joint would stand at a right angle: measure heights and tilt again."
    return ""


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Give the checks and numbers at one set of values."""
    low, at_work, high = _distances(v)
    problem = _problem(v)
    sizes = model.fits(
        "sizes",
        "Sizes that go together",
        -1.0 if problem else 1.0,
        problem or "The sizes can be those of one driveline.",
        "hitch/DERIVED",
    )
    if problem:
        return model.Outcome([sizes])
    torque = pto.torque(v.pto_power, v.pto_speed)
    if work.on:
        work.step(
            "Torque of the tractor at the shaft",
            "T",
            "P / ω",
            (("P", v.pto_power, "power"), ("n", v.pto_speed, "rotation")),
            torque,
            "torque",
            "power/S5",
        )
    angle_checks, angle_outputs = _angle_checks(v, work)
    checks = [*_length_checks(v, work), *angle_checks, *_overload_checks(v, torque), sizes]
    shortest, longest = arith.min(low, at_work, high), arith.max(low, at_work, high)
    overlap = arith.min(v.tube_length, v.tube_length - (longest - v.closed_length))
    released = _overload(v, torque)
    outputs = [
        model.Output("shortest", "Shortest distance", shortest, "length"),
        model.Output("longest", "Longest distance", longest, "length"),
        model.Output("gap", "Gap left when shortest", shortest - v.closed_length, "length"),
        model.Output("overlap_longest", "Overlap when longest", overlap, "length"),
        model.Output(
            "overlap_share", "Overlap as a share of the tube", overlap / v.tube_length, "fraction"
        ),
        *angle_outputs,
        model.Output("torque", "Torque of the tractor at the shaft", torque, "torque"),
    ]
    if released is not None:
        outputs.append(
            model.Output(
                "released",
                "Protection lets go at",
                released,
                "torque",
                "new and static; real bolts scatter by about a fifth",
            )
        )
    return model.Outcome(checks, outputs)
