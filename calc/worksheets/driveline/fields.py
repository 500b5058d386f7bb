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
        "length",
        "10 in",
        "150 in",
        example="35-1/2 in",
        typical=_usual(0.70, 1.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_distance",
        "length",
        "10 in",
        "150 in",
        example="35-1/4 in",
        typical=_usual(0.70, 1.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "raised_distance",
        "length",
        "10 in",
        "150 in",
        example="39 in",
        typical=_usual(0.75, 1.20),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_rise",
        "length",
        "-60 in",
        "60 in",
        example="-4 in",
        typical=_usual(-0.20, 0.10),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "raised_rise",
        "length",
        "-60 in",
        "60 in",
        example="16 in",
        typical=_usual(0.20, 0.60),
        essential=True,
        group=DISTANCES,
    ),
    model.Field(
        "working_tilt",
        "angle",
        "-45 deg",
        "45 deg",
        example="-3 deg",
        typical=_usual(-5.0, 5.0),
        group=DISTANCES,
    ),
    model.Field(
        "setback",
        "length",
        "0 in",
        "12 in",
        example="0 in",
        typical=model.Typical(0.0, 0.1016, "hitch/PRACTICE", "Category 1 couplers"),
        group=DISTANCES,
    ),
    model.Field(
        "added_length",
        "length",
        "0 in",
        "12 in",
        example="0 in",
        typical=model.Typical(0.0, 0.11, "value/PRACTICE", "over-running clutches"),
        group=DISTANCES,
    ),
    model.Field(
        "closed_length",
        "length",
        "10 in",
        "150 in",
        example="33-1/2 in",
        typical=_usual(0.65, 0.95, "drivelines of compact implements"),
        essential=True,
        group=SHAFT,
    ),
    model.Field(
        "tube_length",
        "length",
        "4 in",
        "120 in",
        example="22 in",
        typical=_usual(0.40, 0.60, "drivelines of compact implements"),
        essential=True,
        group=SHAFT,
    ),
    model.Choice("joint", JOINTS, example="standard", group=SHAFT, usual="standard"),
    model.Choice(
        "yokes",
        (
            model.Option("in_line", "In line: both ears in one plane"),
            model.Option("turned", "A quarter turn out"),
        ),
        example="in_line",
        group=SHAFT,
        usual="in_line",
    ),
    model.Choice(
        "pto_raised",
        (
            model.Option("stopped", "Stopped before raising"),
            model.Option("running", "Left running"),
        ),
        example="stopped",
        essential=True,
        group=SHAFT,
        usual="stopped",
    ),
    model.Choice(
        "overlap_rule",
        options("driveline/driveline_overlap_rules"),
        example=_default("driveline/driveline_overlap_rules"),
        group=RULES,
        usual=_default("driveline/driveline_overlap_rules"),
    ),
    model.Choice(
        "closing_rule",
        options("driveline/driveline_closing_rules"),
        example=_default("driveline/driveline_closing_rules"),
        group=RULES,
        usual=_default("driveline/driveline_closing_rules"),
    ),
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", example="20 hp"),
    model.Field(
        "pto_speed",
        "rotation",
        "300 rpm",
        "1,300 rpm",
        example="540 rpm",
        typical=model.Typical(540.0, 540.0, "hitch/S5", "Type 1 stubs"),
        group=POWER,
    ),
    model.Choice(
        "overload",
        (
            model.Option("bolt", "Shear bolt through a shaft"),
            model.Option("flange_bolt", "Shear bolt in a flange"),
            model.Option("clutch", "Friction clutch"),
            model.Option("none", "Nothing"),
        ),
        example="bolt",
        essential=True,
        group=POWER,
    ),
    *fields(POWER, "5/16"),
    model.Field(
        "bolt_circle",
        "length",
        "0.5 in",
        "12 in",
        example="1-3/8 in",
        typical=model.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=POWER,
    ),
    model.Field(
        "clutch_times",
        "count",
        "0.5",
        "6",
        example="2.5",
        typical=model.Typical(2.0, 3.0, "value/PRACTICE", "set friction clutches"),
        group=POWER,
    ),
)
