"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary
from calc.subjects.shear_bolt import STUB, UNSTATED, fields, options

USUAL = "value/DIGGER-memory"
DISTANCES, SHAFT, POWER, RULES = "Tractor and implement", "Driveline", "Power", "Rules"
POSITIONS = ("lowered", "working", "raised")


def _default(table: str) -> str:
    return next(row["key"] for row in tables.rows(table) if row["default"] == "yes")


def _rule(name: str, table: str) -> model.Choice:
    usual = _default(table)
    return model.Choice(name, options(table), example=usual, group=RULES, usual=usual)


def _length(
    name: str,
    example: str,
    *,
    low: str = "10 in",
    high: str = "150 in",
    group: str = DISTANCES,
    typical: model.Typical | None = None,
    essential: bool = True,
) -> model.Field:
    return model.Field(
        name,
        "length",
        low,
        high,
        example=example,
        optional=typical is None,
        typical=typical,
        essential=essential,
        group=group,
    )


def _nothing(of: str) -> model.Typical:
    return model.Typical(0.0, 0.0, "value/PRACTICE", of)


def _tilt(name: str, example: str, low: float, high: float) -> model.Field:
    return model.Field(
        name,
        "angle",
        "-45 deg",
        "45 deg",
        example=example,
        typical=model.Typical(low, high, USUAL, "mounted implements"),
        group=DISTANCES,
    )


FIELDS: tuple[model.AnyField, ...] = (
    _length("closed_length", "33-1/2 in", group=SHAFT),
    _length("tube_length", "22 in", low="4 in", high="120 in", group=SHAFT),
    _length("lowered_distance", "35-1/2 in"),
    _length("working_distance", "35-1/4 in"),
    _length("raised_distance", "39 in"),
    _length("working_rise", "-4 in", low="-60 in", high="60 in"),
    _length("raised_rise", "16 in", low="-60 in", high="60 in"),
    _tilt("working_tilt", "-3 deg", -5.0, 5.0),
    _tilt("raised_tilt", "4 deg", -5.0, 10.0),
    _length(
        "side_offset",
        "0 in",
        low="0 in",
        high="40 in",
        typical=_nothing("implements that hang in line"),
        essential=False,
    ),
    _length(
        "setback",
        "0 in",
        low="0 in",
        high="12 in",
        typical=_nothing("hitches without a coupler"),
        essential=False,
    ),
    _length(
        "added_length",
        "0 in",
        low="0 in",
        high="12 in",
        typical=_nothing("stubs without a clutch"),
        essential=False,
    ),
    model.Choice(
        "joint",
        (
            model.Option("standard", "Standard joints at both ends"),
            model.Option("wide", "Wide-angle joint at the tractor, standard at the implement"),
            model.Option("wide_both", "Wide-angle joints at both ends"),
        ),
        example="standard",
        unsure=("standard", "wide"),
        essential=True,
        group=SHAFT,
    ),
    model.Choice(
        "yokes",
        (
            model.Option("in_line", "In line: both ears in one plane"),
            model.Option("turned", "A quarter turn out"),
            model.Option(UNSTATED, "Not looked at"),
        ),
        example="in_line",
        essential=True,
        group=SHAFT,
        usual=UNSTATED,
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
    _rule("overlap_rule", "driveline/driveline_overlap_rules"),
    _rule("closing_rule", "driveline/driveline_closing_rules"),
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", example="20 hp"),
    model.Field(
        "pto_speed",
        "rotation",
        "300 rpm",
        "2,600 rpm",
        example="540 rpm",
        typical=model.Typical(540.0, 540.0, "hitch/S5", "Type 1 stubs"),
        group=POWER,
    ),
    model.Choice(
        "series",
        (*options("driveline/driveline_series"), model.Option(UNSTATED, "Not known")),
        example="na3",
        essential=True,
        group=POWER,
        usual=UNSTATED,
    ),
    vocabulary.field("power_limit", example="40 hp", group=POWER),
    model.Choice(
        "overload",
        (
            model.Option("bolt", "Shear bolt through a shaft"),
            model.Option("flange_bolt", "Shear bolt in a flange"),
            model.Option("clutch", "Friction clutch"),
            model.Option("none", "Nothing"),
            model.Option(UNSTATED, "Not known"),
        ),
        example="bolt",
        essential=True,
        group=POWER,
        usual=UNSTATED,
    ),
    *fields(POWER, "3/8"),
    model.Field(
        "bolt_circle",
        "length",
        "0.5 in",
        "12 in",
        example="1-3/8 in",
        typical=model.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=POWER,
    ),
    model.Field("clutch_torque", "torque", "20 lb-ft", "5,000 lb-ft", optional=True, group=POWER),
)

OUTPUTS = (
    model.Shown("shortest", "length"),
    model.Shown("longest", "length"),
    model.Shown("gap", "clearance"),
    model.Shown("overlap_longest", "length"),
    model.Shown("overlap_share", "fraction"),
    model.Shown("leave", "length"),
    model.Shown("front_angle", "angle"),
    model.Shown("rear_angle", "angle"),
    model.Shown("front_raised", "angle"),
    model.Shown("rear_raised", "angle"),
    model.Shown("ripple_low", "rotation"),
    model.Shown("ripple_high", "rotation"),
    model.Shown("swing", "fraction"),
    model.Shown("residual", "angle"),
    model.Shown("torque", "torque"),
    model.Shown("series_power", "power"),
    model.Shown("protected", "torque"),
    model.Shown("released", "torque"),
    model.Shown("overlap_here", "length", hidden=True),
    model.Shown("overlap_needed", "length", hidden=True),
    model.Shown("gap_needed", "length", hidden=True),
    model.Shown("longest_by_chart", "length", hidden=True),
    model.Shown("larger_angle", "angle", hidden=True),
    model.Shown("angle_most", "angle", hidden=True),
    model.Shown("rear_most", "angle", hidden=True),
    model.Shown("raised_most", "angle", hidden=True),
    model.Shown("raised_rear_most", "angle", hidden=True),
    model.Shown("angle_at_speed", "angle", hidden=True),
    model.Shown("one_swing", "fraction", hidden=True),
    model.Shown("release_most", "torque", hidden=True),
    model.Shown("bolt_power", "power", hidden=True),
)


def _distances(known: model.KnownSoFar) -> dict[str, float]:
    """The distances given, at their longest, by field name. [m]"""
    names = (f"{position}_distance" for position in POSITIONS)
    return {name: known[name].high for name in names if known.get(name) is not None}


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found = {}
    closed, tube = known.get("closed_length"), known.get("tube_length")
    if closed and tube and tube.high >= closed.low and not tube.low < closed.high:
        found["tube_length"] = (
            "One tube can't be as long as the whole closed driveline: measure from the joint to "
            "the end of the sliding profile."
        )
    setback, added = (
        known[name].high if known.get(name) else 0.0 for name in ("setback", "added_length")
    )
    for name, distance in _distances(known).items():
        left = distance + setback - added
        if left <= 0.05:
            found["added_length"] = (
                "With that clutch on the stub no distance is left for a driveline."
            )
        rise = known.get(name.replace("distance", "rise"))
        if rise is not None and min(abs(rise.low), abs(rise.high)) >= 0.995 * max(left, 0.05):
            found[name.replace("distance", "rise")] = (
                "A height can't be as much as the distance from shaft to shaft: measure both again."
            )
    return found
