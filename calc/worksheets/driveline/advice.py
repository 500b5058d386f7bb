"""What to do about it."""

from __future__ import annotations

import math

from calc import model, quantities, tables
from calc.mechanics import driveline, joint_ratings
from calc.search import Remedies
from calc.subjects import driveline as shared
from calc.subjects.blank import called
from calc.subjects.shear_bolt import UNSTATED
from calc.worksheets.driveline.compute import (
    closing_rule,
    known_distances,
    overlap_at,
    overlap_rule,
    protected_torque,
)
from calc.worksheets.driveline.fields import POSITIONS

LENGTH = ("closing", "overlap", "parting")
CUT_STEP = 0.25  # in; what one cuts or orders to
CAUTIONS = ("guards", "off", "by_hand", "bolt")


def _measured(v: model.Inputs) -> bool:
    """Whether every length is known: without one of them nothing is cut and nothing ordered."""
    names = ("closed_length", "tube_length", *(f"{p}_distance" for p in POSITIONS))
    return all(getattr(v, name) is not None for name in names)


def _lengths(v: model.Inputs, found: model.Found, remedies: Remedies) -> float | None:
    """Offer what mends the length; return what comes off each half where a cut does. [m]"""
    if not found.broken & set(LENGTH):
        return None
    gap = float(closing_rule(v.closing_rule)["clearance_m"])
    shortest = min(known_distances(v))
    cut = remedies.whole(
        "closed_length",
        driveline.cut_for(v.closed_length, shortest, gap),
        step=CUT_STEP,
        up=True,
    )
    if not _measured(v):
        if "closing" in found.over:  # nothing is cut while a tube or a position isn't measured
            less = (cut, "length")
            remedies.do("cut_least", ("closing",), source="hitch/DERIVED", less=less)
        return None
    if 0.0 < cut < v.tube_length - 0.05 and _shaft(v, remedies, "cut", cut, gap):
        return cut
    closed = remedies.whole("closed_length", shortest - gap, step=CUT_STEP)
    if closed > v.closed_length - v.tube_length + 0.1 and _shaft(
        v, remedies, "another", v.closed_length - closed, gap
    ):
        return None
    remedies.do("three_part", LENGTH)
    return None


def _shaft(v: model.Inputs, remedies: Remedies, key: str, less: float, gap: float) -> bool:
    """Offer the same joints with tubes shorter by `less`; longer where it is below zero."""
    closed, tube = v.closed_length - less, v.tube_length - less
    changes = {"closed_length": closed, "tube_length": tube}
    left = overlap_at(v.but(**changes), overlap_rule(v.overlap_rule))
    if left is None or left < overlap_rule(v.overlap_rule).needed(tube):
        return False
    named: dict[str, model.Number] = {
        "less": (less, "length"),
        "left": (left, "length"),
        "gap": (min(known_distances(v)) - closed, "length"),
    }
    source = closing_rule(v.closing_rule)["source"].split("; ")[0]
    return remedies.change(
        key, changes, mends=("closing",), source=source, **named
    ) is not None or (
        remedies.change(key, changes, mends=("overlap",), source=source, **named) is not None
    )


def _angles(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    if found.broken & {"raised", "raised_rear"}:
        remedies.choose("pto_raised", "stopped", source="value/P3c")
        if v.raised_rise is not None and v.raised_rise > 0.0:
            remedies.less("raised_rise", end=0.0, step=0.5, source="value/P3c")
    if found.broken & {"angle", "rear"} and v.working_rise is not None:
        limit = math.radians(shared.joint_limit("advised")[0])
        reach = math.sin(limit) * (v.working_distance + v.setback - v.added_length)
        rise = remedies.whole("working_rise", min(abs(v.working_rise), reach), step=CUT_STEP)
        changes = {"working_tilt": 0.0, "working_rise": math.copysign(rise, v.working_rise)}
        remedies.change("level", changes, mends=("angle", "rear"), most_rise=(rise, "length"))
    if "yokes" in found.over:
        remedies.choose("yokes", "in_line", mends=("yokes",))


def _strength(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    if "joints" in found.broken and "pto_power" not in remedies.assumed:
        scale = tables.by_key("driveline/driveline_series", "key")[v.series]["scale"]
        needed = joint_ratings.smallest_series(v.pto_power, v.pto_speed, scale)
        if needed:
            power = joint_ratings.series_power(v.pto_speed, needed)
            remedies.choose("series", needed, mends=("joints",), carries=(power, "power"))
    if "protection" in found.broken:
        if v.overload == "none":  # without a hub for it no bolt helps
            remedies.do("hub", ("protection",), source="value/MM-4")
        else:
            key = "manual_clutch" if v.overload == "clutch" else "manual_bolt"
            remedies.choose("bolt_as_manual", "yes", key=key, mends=("protection",))
    elif "release" in found.broken and v.overload == "clutch":
        remedies.less("clutch_torque", mends=("release",), step=5.0, most=10.0)


def _rules_table(v: model.Inputs) -> model.Table | None:
    """What each maker's rule says, where all lengths are known."""
    if not _measured(v):
        return None
    rows: list[tuple[model.Cell, ...]] = []
    for rule in driveline.overlap_rules():
        needed, have = rule.needed(v.tube_length), overlap_at(v, rule)
        assert have is not None
        name = f"Overlap, {rule.applies}: {rule.name}"
        rows.append((name, (needed, "length"), (have, "length"), _met(have >= needed)))
    known = known_distances(v)
    most = joint_ratings.longest_by_chart(v.closed_length)
    longest = max(known)
    name = "Longest, by a supplier's chart"
    rows.append((name, (most, "length"), (longest, "length"), _met(longest <= most)))
    have = min(known) - v.closed_length
    for row in tables.rows("driveline/driveline_closing_rules"):
        gap = float(row["clearance_m"])
        rows.append((f"Gap: {row['name']}", (gap, "length"), (have, "length"), _met(have >= gap)))
    return model.Table(
        "What each maker's rule says of this driveline",
        ("Rule", "Asks for", "You have", "Finding"),
        tuple(rows),
        "hitch/H18a; value/SU-1",
        "Makers differ; the implement's own manual comes first. Each rule's source stands in the "
        "table on this page.",
    )


def _met(met: bool) -> str:
    return "met" if met else "not met"


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = []
    turning = shared.joint_limit("raised_tiller")[0]
    stands = "front_raised" in found and v.pto_raised == "stopped"
    if stands and max(found.front_raised, found.rear_raised) > turning:
        notes.append(found.note("standing"))
    if v.joint == "wide":
        notes.append(found.note("one_wide"))
    if "angle_at_speed" in found:
        notes.append(found.note("fast"))
    if "released" in found:
        notes.append(found.note("released"))
        rated = protected_torque(v)
        if rated is not None:
            times = (found.released / rated, "count")
            notes.append(found.note("times", times=times, rated=(rated, "torque")))
    if v.series == UNSTATED:
        notes.append(found.note("series"))
    return notes


LENGTHS = ("closed_length", "tube_length", *(f"{p}_distance" for p in POSITIONS))
# What each question needs measured before it can be answered.
NEEDS = {
    "length": LENGTHS,
    "cut": LENGTHS,
    "apart": LENGTHS,
    "angles": ("working_distance", "working_rise"),
    "raised": ("raised_distance", "raised_rise"),
}


def _still_to_measure(
    v: model.Inputs, found: model.Found, cut: float | None
) -> dict[str, model.Words]:
    """For each question what it needs and nobody gave, and nothing else; else the cut."""
    said: dict[str, model.Words] = {}
    for ask, names in NEEDS.items():
        blank = [name for name in names if getattr(v, name) is None]
        at = [p for p in POSITIONS if f"{p}_distance" in blank]
        parts = [called(found, name) for name in blank if not name.endswith("_distance")]
        if at:
            positions = quantities.joined([called(found, position) for position in at])
            parts.append(called(found, "distances", positions=positions))
        if ask == "cut" and not parts:
            key = "tell_no_cut" if cut is None else "tell_cut"
            said[ask] = found.note(key, less=(cut or 0.0, "length"))
        if parts:
            # What it was pulled out to so far leaves enough: then its length isn't likely.
            kept = ask == "apart" and found.finding("overlap") in (model.WITHIN, model.CLOSE)
            key = "ask_kept" if kept else f"ask_{ask}"
            said[ask] = found.note(key, missing=quantities.joined(parts))
    return said


def _of_strength(v: model.Inputs, found: model.Found) -> dict[str, model.Words]:
    """What is said of joints and bolt while nothing that was given tells it."""
    joints = found.note("tell_joints")
    if v.series != UNSTATED:
        rated = joint_ratings.rated_to(v.series)
        joints = found.note(
            "tell_fast", rated=(rated, "rotation"), pto_speed=(v.pto_speed, "rotation")
        )
    bolt = {"clutch": "tell_clutch", "none": "tell_none"}.get(v.overload, "tell_bolt")
    return {"joints": joints, "bolt": found.note(bolt)}


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what helps, and say what the other rules give."""
    cut = _lengths(v, found, remedies)
    _angles(v, found, remedies)
    _strength(v, found, remedies)
    table = _rules_table(v)
    tables_ = [table] if table else []
    return model.Advice(
        (),
        found.cautions(*CAUTIONS),
        tables_,
        _notes(v, found),
        says={**_still_to_measure(v, found, cut), **_of_strength(v, found)},
    )
