"""PTO driveline: length over the lift, joint angles, how even it turns, what lets go first."""

import math
from functools import cache

from calc import tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import driveline, pto
from calc.picture import Chart, Dimension, Disc, Label, Line, Picture, Scene, Series, Shape
from calc.worksheets._shear_bolt import STUB, fields, inches, options

RPM = math.pi / 30.0
USUAL = "value/DIGGER-memory"
DISTANCES, SHAFT, POWER, RULES = "Tractor and implement", "Driveline", "Power", "Rules"
RAISED_LIMIT = 35.0  # value/P3c: stop the PTO beyond this


def _usual(low: float, high: float, of: str = "mounted implements") -> ws.Typical:
    return ws.Typical(low, high, USUAL, of)


def _default(table: str) -> str:
    return next(row["key"] for row in tables.rows(table) if row["default"] == "yes")


JOINTS = (
    ws.Option("standard", "Standard joints, up to 35 degrees running"),
    ws.Option("advised", "Standard joints, kept to the 15 degrees advised for steady work"),
    ws.Option("wide", "Wide-angle joint, up to 70 degrees"),
)

FIELDS: tuple[ws.AnyField, ...] = (
    ws.Field(
        "lowered_distance", "Shaft to shaft, lowered", "length", "10 in", "150 in",
        "With the driveline off: from the groove of the tractor's stub to the groove of the "
        "implement's shaft, implement on the ground.",
        default="35-1/2 in", typical=_usual(0.70, 1.10), essential=True, group=DISTANCES,
    ),
    ws.Field(
        "working_distance", "Shaft to shaft, at work", "length", "10 in", "150 in",
        "The same, at working height. At its shortest the two shafts are level with each other.",
        default="35-1/4 in", typical=_usual(0.70, 1.10), essential=True, group=DISTANCES,
    ),
    ws.Field(
        "raised_distance", "Shaft to shaft, raised", "length", "10 in", "150 in",
        "The same, fully raised. Raised is not always the longest or the shortest: measure all "
        "three.",
        default="39 in", typical=_usual(0.75, 1.20), essential=True, group=DISTANCES,
    ),
    ws.Field(
        "working_rise", "Implement's shaft above the stub, at work", "length", "-60 in", "60 in",
        "The same, at working height.",
        default="-4 in", typical=_usual(-0.20, 0.10), essential=True, group=DISTANCES,
    ),
    ws.Field(
        "raised_rise", "Implement's shaft above the stub, raised", "length", "-60 in", "60 in",
        "The same, fully raised.",
        default="16 in", typical=_usual(0.20, 0.60), essential=True, group=DISTANCES,
    ),
    ws.Field(
        "working_tilt", "Implement's shaft tilted, at work", "angle", "-45 deg", "45 deg",
        "With a level on the gearbox: plus when its rear is higher, 0 when level like the stub.",
        default="-3 deg", typical=_usual(-5.0, 5.0), group=DISTANCES,
    ),
    ws.Field(
        "setback", "Set back by a quick coupler", "length", "0 in", "12 in",
        "If you measured without the coupler: how far it moves the implement back.",
        default="0 in", typical=ws.Typical(0.0, 0.1016, "hitch/PRACTICE", "Category 1 couplers"),
        group=DISTANCES,
    ),
    ws.Field(
        "added_length", "Length of an over-running clutch on the stub", "length",
        "0 in", "12 in",
        "It fills part of the distance. 0 when there is none.",
        default="0 in", typical=ws.Typical(0.0, 0.11, "value/PRACTICE", "over-running clutches"),
        group=DISTANCES,
    ),
    ws.Field(
        "closed_length", "Driveline pushed together", "length", "10 in", "150 in",
        "Groove to groove, telescoped until it stops.",
        default="33-1/2 in", typical=_usual(0.65, 0.95, "drivelines of compact implements"),
        essential=True, group=SHAFT,
    ),
    ws.Field(
        "tube_length", "Length of one tube", "length", "4 in", "120 in",
        "The sliding profile of one half, from its joint to its end. Take the shorter half.",
        default="22 in", typical=_usual(0.40, 0.60, "drivelines of compact implements"),
        essential=True, group=SHAFT,
    ),
    ws.Choice(
        "joint", "Joints", JOINTS,
        "A wide-angle joint is a double one with a center ball or disc.",
        default="standard", group=SHAFT,
    ),
    ws.Choice(
        "yokes", "Inner yokes",
        (
            ws.Option("in_line", "In line: both ears in one plane"),
            ws.Option("turned", "A quarter turn out"),
        ),
        "Look along the shaft. Put together wrongly, the two joints add up instead of canceling.",
        default="in_line", group=SHAFT,
    ),
    ws.Choice(
        "pto_raised", "When raised, the PTO is",
        (ws.Option("stopped", "Stopped before raising"), ws.Option("running", "Left running")),
        "At headlands, and each time the implement is lifted.",
        default="stopped", essential=True, group=SHAFT,
    ),
    ws.Choice(
        "overlap_rule", "Rule for the overlap", options("driveline_overlap_rules"),
        "The implement's manual comes first; makers differ.",
        default=_default("driveline_overlap_rules"), group=RULES,
    ),
    ws.Choice(
        "closing_rule", "Rule for the gap when shortest", options("driveline_closing_rules"),
        "The implement's manual comes first; makers differ.",
        default=_default("driveline_closing_rules"), group=RULES,
    ),
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", default="20 hp"),
    ws.Field(
        "pto_speed", "PTO speed", "rotation", "300 rpm", "1,300 rpm",
        "540 rpm on nearly every compact tractor.",
        default="540 rpm", typical=ws.Typical(540.0, 540.0, "hitch/S5", "Type 1 stubs"),
        group=POWER,
    ),
    ws.Choice(
        "overload", "Protected by",
        (
            ws.Option("bolt", "Shear bolt through a shaft"),
            ws.Option("flange_bolt", "Shear bolt in a flange"),
            ws.Option("clutch", "Friction clutch"),
            ws.Option("none", "Nothing"),
        ),
        "At the implement's end of the driveline.",
        default="bolt", essential=True, group=POWER,
    ),
    *fields(POWER, "5/16"),
    ws.Field(
        "bolt_circle", "Shaft diameter, or bolt circle of the flange", "length",
        "0.5 in", "12 in",
        "Through a shaft: the shaft's diameter. In a flange: twice the distance from the shaft's "
        "center to the bolt.",
        default="1-3/8 in",
        typical=ws.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=POWER,
    ),
    ws.Field(
        "clutch_times", "Clutch slips at, times the tractor's torque", "count", "0.5", "6",
        "From the spring setting in the manual, if it gives one.",
        default="2.5", typical=ws.Typical(2.0, 3.0, "value/PRACTICE", "set friction clutches"),
        group=POWER,
    ),
)  # fmt: skip


def _distances(v: ws.Inputs) -> tuple[float, float, float]:
    """Groove to groove, lowered, at work and raised, with coupler and clutch. [m]"""
    change = v.setback - v.added_length
    return (
        v.lowered_distance + change,
        v.working_distance + change,
        v.raised_distance + change,
    )


def _angle(rise: float, distance: float) -> float:
    """Angle of the shaft above level. [rad]"""
    return math.asin(max(-1.0, min(1.0, rise / distance)))


@cache
def _overlap_rule(key: str) -> driveline.OverlapRule:
    return next(rule for rule in driveline.overlap_rules() if rule.key == key)


@cache
def _closing(key: str) -> tuple[float, str]:
    row = tables.by_key("driveline_closing_rules", "key")[key]
    return float(row["clearance_m"]), row["source"]


@cache
def _joint_limit(key: str) -> tuple[float, str]:
    row = tables.by_key("driveline_joint_limits", "key")[key]
    return float(row["running_deg"]), row["source"]


def _source(citations: str) -> str:
    """A citation for a check: the first of a list."""
    return citations.split("; ")[0]


def _fit_at(v: ws.Inputs, rule: driveline.OverlapRule) -> float:
    """Overlap where a rule looks: at the longest distance, or at work. [m]"""
    low, work, high = _distances(v)
    longest = work if rule.applies == "normal work" else max(low, work, high)
    return float(v.tube_length - (longest - v.closed_length))


def _overload(v: ws.Inputs, torque: float) -> float | None:
    """Torque at which the protection lets go. [N m]"""
    if v.overload == "none":
        return None
    if v.overload == "clutch":
        return float(v.clutch_times) * torque
    planes = 2 if v.overload == "bolt" else 1
    return driveline.shear_bolt(
        v.bolt_size, v.bolt_grade, v.bolt_plane == "thread", planes, 0.5 * v.bolt_circle
    ).torque


def _overload_checks(v: ws.Inputs, torque: float) -> list[ws.Check]:
    released = _overload(v, torque)
    if released is None:
        return [
            ws.fits(
                "overload", "Protection against a jam", -1.0,
                "Nothing lets go before the gearbox, the joints or the tractor do.",
                "value/PRACTICE",
            )
        ]  # fmt: skip
    return [
        ws.at_most(
            "overload", "Torque at which the protection lets go", released, 3.0 * torque, "torque",
            "value/P4a", why="Beyond three times the working torque something dearer breaks first.",
            close_band=0.0,
        ),
        ws.at_least(
            "overload_work", "The same, in ordinary work", released, torque, "torque",
            "value/DERIVED", why="It lets go in ordinary work.",
        ),
    ]  # fmt: skip


def _length_checks(v: ws.Inputs, work: ws.Work) -> list[ws.Check]:
    shortest, longest = min(_distances(v)), max(_distances(v))
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
            "Gap when shortest", "C", "L₂ − L_c",
            (("L₂", shortest, "length"), ("L_c", v.closed_length, "length")),
            shortest - v.closed_length, "length", "hitch/DERIVED",
        )  # fmt: skip
    return [
        ws.at_least(
            "closing", "Gap left when shortest", shortest - v.closed_length, gap, "length",
            _source(gap_source),
            why="The shaft bottoms out and pushes on the gearbox and the PTO bearing.",
            close_band=0.0,
        ),
        ws.at_least(
            "overlap", "Overlap of the tubes", overlap, needed, "length", _source(rule.source),
            why="The tubes bend, bind or part, and a parted shaft flails.",
        ),
    ]  # fmt: skip


def _angles(v: ws.Inputs) -> tuple[float, float, float]:
    """Joint angles [rad]: tractor's end at work, implement's end at work, larger when raised."""
    _, at_work, raised = _distances(v)
    front = _angle(v.working_rise, at_work)
    return (
        abs(front),
        abs(front - math.radians(v.working_tilt)),
        abs(_angle(v.raised_rise, raised)),
    )


def _angle_checks(v: ws.Inputs, work: ws.Work) -> tuple[list[ws.Check], list[ws.Output]]:
    front, rear, raised = _angles(v)
    limit, source = _joint_limit(v.joint)
    larger = math.degrees(max(front, rear))
    at_speed = math.degrees(driveline.angle_for_speed(v.pto_speed * RPM))
    in_line = v.yokes == "in_line"
    swing = driveline.two_joint_swing(front, rear, in_line)
    if work.on:
        _, at_work, _ = _distances(v)
        signed = math.degrees(_angle(v.working_rise, at_work))
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
            math.degrees(rear),
            "angle",
            "value/DERIVED",
        )
        work.step(
            "Swing of the speed behind one joint",
            "U",
            "1/cos β − cos β",
            (("β₁", math.degrees(front), "angle"),),
            driveline.fluctuation(front),
            "fraction",
            "value/P1",
        )
        work.step(
            "Swing left at the implement", "U₂", "1/r − r, r = cos β₁ / cos β₂",
            (("β₁", math.degrees(front), "angle"), ("β₂", math.degrees(rear), "angle")),
            swing, "fraction", "value/DERIVED",
        )  # fmt: skip
    checks = [
        ws.at_most(
            "angle", "Larger joint angle at work", larger, limit, "angle", _source(source),
            why="Joints knock, heat and wear out.",
        ),
        ws.at_most(
            "shaking", "Joint angle at this speed", larger, at_speed, "angle",
            "value/P2", why="The middle shaft speeds up and slows down too hard twice a turn.",
        ),
    ]  # fmt: skip
    checks.append(
        ws.fits(
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
            ws.at_most(
                "raised", "Joint angle raised, PTO running", math.degrees(raised), RAISED_LIMIT,
                "angle", "value/P3c", why="The joint hits its own ears and breaks.",
            )
        )  # fmt: skip
    least, most = driveline.ratio_extremes(max(front, rear))
    outputs = [
        ws.Output("front_angle", "Joint angle at the tractor, at work", math.degrees(front),
                  "angle"),
        ws.Output("rear_angle", "Joint angle at the implement, at work", math.degrees(rear),
                  "angle"),
        ws.Output("raised_angle", "Joint angle, raised", math.degrees(raised), "angle",
                  "stop the PTO before raising this far"
                  if math.degrees(raised) > RAISED_LIMIT else ""),
        ws.Output("ripple_low", "Slowest turn of the middle shaft", least * v.pto_speed,
                  "rotation"),
        ws.Output("ripple_high", "Fastest turn of the middle shaft", most * v.pto_speed,
                  "rotation"),
        ws.Output("swing", "Swing of speed at the implement", swing, "fraction",
                  "nothing is left when both angles are equal and the yokes are in line"),
        ws.Output("residual", "Equivalent single joint angle",
                  math.degrees(driveline.residual_angle(front, rear, in_line)), "angle"),
    ]  # fmt: skip
    return checks, outputs


STEEPEST = math.radians(85.0)


def _problem(v: ws.Inputs) -> str:
    """What rules the measured sizes out, as a sentence; empty when they can be."""
    low, at_work, high = _distances(v)
    if min(low, at_work, high) <= 0.05:
        return "With that clutch on the stub no distance is left for a driveline."
    if v.closed_length <= v.tube_length:
        return "One tube can't be as long as the whole closed driveline: measure again."
    if abs(v.working_rise) >= 0.99 * at_work or abs(v.raised_rise) >= 0.99 * high:
        return "A height can't be more than the distance from shaft to shaft: measure again."
    if max(_angles(v)) >= STEEPEST:
        return "A joint would stand at a right angle: measure heights and tilt again."
    return ""


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Give the checks and numbers at one set of values."""
    low, at_work, high = _distances(v)
    problem = _problem(v)
    sizes = ws.fits(
        "sizes",
        "Sizes that go together",
        -1.0 if problem else 1.0,
        problem or "The sizes can be those of one driveline.",
        "hitch/DERIVED",
    )
    if problem:
        return ws.Outcome([sizes])
    torque = pto.torque(v.pto_power, v.pto_speed)
    if work.on:
        work.step(
            "Torque of the tractor at the shaft", "T", "P / ω",
            (("P", v.pto_power, "power"), ("n", v.pto_speed, "rotation")), torque, "torque",
            "power/S5",
        )  # fmt: skip
    angle_checks, angle_outputs = _angle_checks(v, work)
    checks = [*_length_checks(v, work), *angle_checks, *_overload_checks(v, torque), sizes]
    shortest, longest = min(low, at_work, high), max(low, at_work, high)
    overlap = min(v.tube_length, v.tube_length - (longest - v.closed_length))
    released = _overload(v, torque)
    outputs = [
        ws.Output("shortest", "Shortest distance", shortest, "length"),
        ws.Output("longest", "Longest distance", longest, "length"),
        ws.Output("gap", "Gap left when shortest", shortest - v.closed_length, "length"),
        ws.Output("overlap_longest", "Overlap when longest", overlap, "length"),
        ws.Output("overlap_share", "Overlap as a share of the tube", overlap / v.tube_length,
                  "fraction"),
        *angle_outputs,
        ws.Output("torque", "Torque of the tractor at the shaft", torque, "torque"),
    ]  # fmt: skip
    if released is not None:
        outputs.append(
            ws.Output(
                "released", "Protection lets go at", released, "torque",
                "new and static; real bolts scatter by about a fifth",
            )
        )  # fmt: skip
    return ws.Outcome(checks, outputs)


LENGTH = ("closing", "overlap")


def _length_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
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
                ws.Remedy(
                    ws.phrase(
                        "Cut {cut} off both tubes and both guards alike, file and clean the ends: "
                        "the overlap when longest is then {overlap}.",
                        cut=(cut, "length"), overlap=(tried.output("overlap_longest"), "length"),
                    ),
                    {"closed_length": f"{closed:.4f} m", "tube_length": f"{tube:.4f} m"},
                    _source(source),
                )
            )  # fmt: skip
    ends = v.closed_length - v.tube_length
    closed = math.floor((shortest - gap) * 1000.0) / 1000.0
    tube = closed - ends
    if not remedies and tube > 0.1:
        tried = solve.run(closed_length=closed, tube_length=tube)
        if tried.margin(LENGTH) >= 0:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "A driveline {closed} long when closed, with tubes of {tube}, suits: gap "
                        "{gap}, overlap {overlap}.",
                        closed=(closed, "length"), tube=(tube, "length"),
                        gap=(tried.output("gap"), "length"),
                        overlap=(tried.output("overlap_longest"), "length"),
                    ),
                    {"closed_length": f"{closed:.4f} m", "tube_length": f"{tube:.4f} m"},
                )
            )  # fmt: skip
        else:
            needed = _overlap_rule(v.overlap_rule).needed(tube)
            most = driveline.longest_allowed(tube, closed, needed)
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "No driveline with joints as long as these suits the whole lift. Even the "
                        "longest that closes at {shortest} may be pulled out to {most} at most, "
                        "and your longest is {longest}: limit the lift, or ask for a "
                        "three-part telescoping driveline.",
                        shortest=(shortest, "length"), most=(most, "length"),
                        longest=(longest, "length"),
                    )
                )
            )  # fmt: skip
    return remedies


def _angle_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    if outcome.check("raised") and outcome.margin(("raised",)) < 0:
        remedies.append(
            ws.Remedy("Stop the PTO before raising.", {"pto_raised": "stopped"}, "value/P3c")
        )
        most = solve.largest("raised_rise", 0.0, v.raised_rise, ("raised",))
        if most is not None and v.raised_rise > 0:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
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
                ws.Remedy(
                    ws.phrase(
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


def _overload_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    names = ("overload", "overload_work")
    if outcome.margin(names) >= 0:
        return []
    torque = outcome.output("torque")
    if v.overload == "clutch":
        times = 3.0 if v.clutch_times > 3.0 else 2.0
        return [
            ws.Remedy(
                ws.phrase(
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
            ws.Remedy(
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
        ws.Remedy(
            ws.phrase(
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
    ws.Caution("A turning driveline winds up a sleeve or a shoelace in less than a second. Keep "
               "every guard on and its chains hooked; replace a broken guard before you start.",
               "hitch/S5, clause 7.7.1"),
    ws.Caution("PTO off, engine off, key out and everything stopped before you touch, cut, grease "
               "or step over a driveline.", "value/P6d"),
    ws.Caution("Check by hand over the whole lift, engine off, that nothing bottoms, parts or "
               "touches before the first start. The implement's manual comes before this page.",
               "value/P6a"),
    ws.Caution("Only the bolt that the manual names: same size, same grade. A softer one can smear "
               "and lock the yoke.", "value/P5"),
)  # fmt: skip


def _rules_table(v: ws.Inputs) -> ws.Table:
    rows: list[tuple[ws.Cell, ...]] = []
    for rule in driveline.overlap_rules():
        needed, have = rule.needed(v.tube_length), _fit_at(v, rule)
        name = f"Overlap, {rule.applies}: {rule.name}"
        rows.append((name, (needed, "length"), (have, "length"), _met(have >= needed)))
    have = min(_distances(v)) - v.closed_length
    for row in tables.rows("driveline_closing_rules"):
        gap = float(row["clearance_m"])
        rows.append((f"Gap: {row['name']}", (gap, "length"), (have, "length"), _met(have >= gap)))
    return ws.Table(
        "What each maker's rule says of this driveline",
        ("Rule", "Asks for", "You have", "Finding"),
        tuple(rows),
        "hitch/H18a",
        "Makers differ; the implement's own manual comes first. Each rule's source stands in the "
        "table on this page.",
    )


def _met(met: bool) -> str:
    return "met" if met else "not met"


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Give remedies, cautions and what the other rules say."""
    if outcome.margin(("sizes",)) < 0:
        return ws.Advice(cautions=CAUTIONS)
    remedies = []
    if v.yokes == "turned":
        remedies.append(
            ws.Remedy("Pull the shaft apart and put it together with the inner yokes in line.",
                      {"yokes": "in_line"})
        )  # fmt: skip
    remedies += _length_remedies(v, outcome, solve)
    remedies += _angle_remedies(v, outcome, solve)
    remedies += _overload_remedies(v, outcome, solve)
    notes: list[ws.Words] = []
    if v.joint != "wide" and outcome.output("front_angle") > 15.0:
        notes.append(
            "One maker advises 15 degrees at most for steady work; up to 35 degrees the joint "
            "lives, but not as long."
        )
    if outcome.output("raised_angle") > RAISED_LIMIT and v.pto_raised == "stopped":
        notes.append(
            ws.phrase(
                "Raised, the joint stands at {angle}: fine standing still, never running.",
                angle=(outcome.output("raised_angle"), "angle"),
            )
        )
    at_speed = driveline.angle_for_speed(v.pto_speed * RPM)
    notes.append(
        ws.phrase(
            "By the rule of an auxiliary shaft's manual a joint may bend {angle} at {speed}: the "
            "faster the shaft, the straighter it must run.",
            angle=(math.degrees(at_speed), "angle"),
            speed=(v.pto_speed, "rotation"),
        )
    )
    return ws.Advice(remedies, CAUTIONS, [_rules_table(v)], notes)


def _drawn(
    v: ws.Inputs, length: float, y: float, name: str
) -> list[Line | Shape | Disc | Label | Dimension]:
    """One driveline, straight, at a length: joints, two tubes and their overlap."""
    ends = 0.5 * (v.closed_length - v.tube_length)
    half = 0.028
    overlap = max(0.0, min(v.tube_length, v.tube_length - (length - v.closed_length)))
    outer = (ends, ends + v.tube_length)
    inner = (length - ends - v.tube_length, length - ends)
    items: list[Line | Shape | Disc | Label | Dimension] = []
    for (start, end), size, style in ((outer, half, "soft"), (inner, 0.7 * half, "fill")):
        items.append(
            Shape([(start, y - size), (end, y - size), (end, y + size), (start, y + size)], style)
        )
    if overlap > 0:
        low, high = max(outer[0], inner[0]), min(outer[1], inner[1])
        items.append(
            Shape([(low, y - half), (high, y - half), (high, y + half), (low, y + half)], "accent")
        )
    for x in (0.0, length):
        items.append(Disc((x, y), 1.7 * half, "ink", hole=True))
    items += [
        Line([(0, y), (ends, y)], "ink thick"),
        Line([(length - ends, y), (length, y)], "ink thick"),
        Label(
            (0.5 * length, y),
            ws.phrase(f"{name}: {{overlap}} overlap", overlap=(overlap, "length"))
            if overlap > 0
            else f"{name}: the halves part",
            dy=1.7,
        ),
    ]
    return items


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture] | None:
    """The shaft at its shortest and longest, to scale, and its speed through one turn."""
    if outcome.margin(("sizes",)) < 0:
        return None
    shortest, longest = outcome.output("shortest"), outcome.output("longest")
    gap, apart = outcome.output("gap"), 0.36
    scene = Scene(
        "Driveline at its shortest and longest",
        ws.phrase(
            "To scale: at {shortest} the closed driveline leaves a gap of {gap}; at {longest} the "
            "tubes overlap by {overlap}. The overlap is the filled part.",
            shortest=(shortest, "length"), longest=(longest, "length"),
            gap=(gap, "length"), overlap=(outcome.output("overlap_longest"), "length"),
        ),
        [
            *_drawn(v, shortest, apart, "shortest"),
            Dimension(
                (0, apart), (shortest, apart), ws.phrase("{d}", d=(shortest, "length")), 0.11
            ),
            *_drawn(v, longest, 0.0, "longest"),
            Dimension((0, 0), (longest, 0), ws.phrase("{d}", d=(longest, "length")), 0.11),
        ],
    )  # fmt: skip
    front, rear, _ = _angles(v)
    quarter = 0.0 if v.yokes == "turned" else 0.5 * math.pi
    turns = [7.5 * k for k in range(49)]
    middle, end = [], []
    for degrees in turns:
        turn = math.radians(degrees)
        one = driveline.speed_ratio(front, turn)
        between = driveline.output_rotation(front, turn)
        middle.append(v.pto_speed * (one - 1.0))
        end.append(v.pto_speed * (one * driveline.speed_ratio(rear, between + quarter) - 1.0))
    chart = Chart(
        "Speed through one turn, at work",
        ws.phrase(
            "The middle shaft swings between {low} and {high} twice a turn; at the implement a "
            "swing of {swing} is left.",
            low=(outcome.output("ripple_low"), "rotation"),
            high=(outcome.output("ripple_high"), "rotation"),
            swing=(outcome.output("swing"), "fraction"),
        ),
        "Turn of the PTO stub", "angle", "Faster or slower than the PTO", "rotation",
        [
            Series("middle shaft", turns, middle, "soft dashed"),
            Series("implement", turns, end, "accent thick"),
        ],
        y_from_zero=False,
    )  # fmt: skip
    return [scene, chart]


WORKSHEET = ws.Worksheet(
    name="driveline",
    title="PTO driveline",
    question="Is my PTO driveline the right length, and will it run smoothly?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="fit/driveline",
    example="A rotary cutter on a compact tractor, measured lowered, at work and raised.",
)
