"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary
from calc.subjects.shear_bolt import STUB, fields, options

USUAL = "value/DIGGER-memory"
DISTANCES, SHAFT, POWER, RULES = "Tractor and implement", "Driveline", "Power", "Rules"


def _usual(low: float, high: float, of: str = "mounted implements") -> model.Typical:
    return model.Typical(low, high, USUAL, of)


def _default(table: str) -> str:
    return next(row["key"] for row in tables.rows(table) if row["default"] == "yes")


JOINTS = (
    model.Option("standard", "Standard joints, up to 35 degrees running"),
    model.Option("advised", "Standard joints, kept to the 15 degrees advised for steady work"),
    model.Option("wide", "Wide-angle joint, up to 70 degrees"),
)

FIELDS: tuple[model.AnyField, ...] = (
    model.Field(
        "lowered_distance",
        "Shaft to shaft, lowered",
        "length",
        "10 in",
        "150 in",
        "With the driveline off: from the groove of the tractor's stub to the groove of the "
        "implement's shaft, implement on the ground.",
        default="35-1/2 in",
        typical=_usual(0.70, 1.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_distance",
        "Shaft to shaft, at work",
        "length",
        "10 in",
        "150 in",
        "The same, at working height. At its shortest the two shafts are level with each other.",
        default="35-1/4 in",
        typical=_usual(0.70, 1.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "raised_distance",
        "Shaft to shaft, raised",
        "length",
        "10 in",
        "150 in",
        "The same, fully raised. Raised is not always the longest or the shortest: measure all "
        "three.",
        default="39 in",
        typical=_usual(0.75, 1.20),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_rise",
        "Implement's shaft above the stub, at work",
        "length",
        "-60 in",
        "60 in",
        "The same, at working height.",
        default="-4 in",
        typical=_usual(-0.20, 0.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "raised_rise",
        "Implement's shaft above the stub, raised",
        "length",
        "-60 in",
        "60 in",
        "The same, fully raised.",
        default="16 in",
        typical=_usual(0.20, 0.60),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_tilt",
        "Implement's shaft tilted, at work",
        "angle",
        "-45 deg",
        "45 deg",
        "With a level on the gearbox: plus when its rear is higher, 0 when level like the stub.",
        default="-3 deg",
        typical=_usual(-5.0, 5.0),
        group=DISTANCES,
    ),
    model.Field(
        "setback",
        "Set back by a quick coupler",
        "length",
        "0 in",
        "12 in",
        "If you measured without the coupler: how far it moves the implement back.",
        default="0 in",
        typical=model.Typical(0.0, 0.1016, "hitch/PRACTICE", "Category 1 couplers"),
        group=DISTANCES,
    ),
    model.Field(
        "added_length",
        "Length of an over-running clutch on the stub",
        "length",
        "0 in",
        "12 in",
        "It fills part of the distance. 0 when there is none.",
        default="0 in",
        typical=model.Typical(0.0, 0.11, "value/PRACTICE", "over-running clutches"),
        group=DISTANCES,
    ),
    model.Field(
        "closed_length",
        "Driveline pushed together",
        "length",
        "10 in",
        "150 in",
        "Groove to groove, telescoped until it stops.",
        default="33-1/2 in",
        typical=_usual(0.65, 0.95, "drivelines of compact implements"),
        essential=True,
        group=SHAFT,
    ),
    model.Field(
        "tube_length",
        "Length of one tube",
        "length",
        "4 in",
        "120 in",
        "The sliding profile of one half, from its joint to its end. Take the shorter half.",
        default="22 in",
        typical=_usual(0.40, 0.60, "drivelines of compact implements"),
        essential=True,
        group=SHAFT,
    ),
    model.Choice(
        "joint",
        "Joints",
        JOINTS,
        "A wide-angle joint is a double one with a center ball or disc.",
        default="standard",
        group=SHAFT,
    ),
    model.Choice(
        "yokes",
        "Inner yokes",
        (
            model.Option("in_line", "In line: both ears in one plane"),
            model.Option("turned", "A quarter turn out"),
        ),
        "Look along the shaft. Put together wrongly, the two joints add up instead of canceling.",
        default="in_line",
        group=SHAFT,
    ),
    model.Choice(
        "pto_raised",
        "When raised, the PTO is",
        (
            model.Option("stopped", "Stopped before raising"),
            model.Option("running", "Left running"),
        ),
        "At headlands, and each time the implement is lifted.",
        default="stopped",
        essential=True,
        group=SHAFT,
    ),
    model.Choice(
        "overlap_rule",
        "Rule for the overlap",
        options("driveline/driveline_overlap_rules"),
        "The implement's manual comes first; makers differ.",
        default=_default("driveline/driveline_overlap_rules"),
        group=RULES,
    ),
    model.Choice(
        "closing_rule",
        "Rule for the gap when shortest",
        options("driveline/driveline_closing_rules"),
        "The implement's manual comes first; makers differ.",
        default=_default("driveline/driveline_closing_rules"),
        group=RULES,
    ),
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", default="20 hp"),
    model.Field(
        "pto_speed",
        "PTO speed",
        "rotation",
        "300 rpm",
        "1,300 rpm",
        "540 rpm on nearly every compact tractor.",
        default="540 rpm",
        typical=model.Typical(540.0, 540.0, "hitch/S5", "Type 1 stubs"),
        group=POWER,
    ),
    model.Choice(
        "overload",
        "Protected by",
        (
            model.Option("bolt", "Shear bolt through a shaft"),
            model.Option("flange_bolt", "Shear bolt in a flange"),
            model.Option("clutch", "Friction clutch"),
            model.Option("none", "Nothing"),
        ),
        "At the implement's end of the driveline.",
        default="bolt",
        essential=True,
        group=POWER,
    ),
    *fields(POWER, "5/16"),
    model.Field(
        "bolt_circle",
        "Shaft diameter, or bolt circle of the flange",
        "length",
        "0.5 in",
        "12 in",
        "Through a shaft: the shaft's diameter. In a flange: twice the distance from the shaft's "
        "center to the bolt.",
        default="1-3/8 in",
        typical=model.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=POWER,
    ),
    model.Field(
        "clutch_times",
        "Clutch slips at, times the tractor's torque",
        "count",
        "0.5",
        "6",
        "From the spring setting in the manual, if it gives one.",
        default="2.5",
        typical=model.Typical(2.0, 3.0, "value/PRACTICE", "set friction clutches"),
        group=POWER,
    ),
)
