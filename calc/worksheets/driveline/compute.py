"""The sums."""

from __future__ import annotations

from typing import NamedTuple

from calc import arith, model, tables
from calc.mechanics import driveline, joint_ratings, pto, universal_joint
from calc.subjects import driveline as shared
from calc.subjects import shaft_power
from calc.subjects.shear_bolt import UNSTATED, bolt_torque, check_as_manual
from calc.worksheets.driveline.fields import POSITIONS

SMALLEST = 0.05  # no driveline is shorter between its grooves


class Angles(NamedTuple):
    """Joint angles of one position, at the tractor's end and at the implement's. [rad]"""

    front: float
    rear: float


def distance(v: model.Inputs, position: str) -> float | None:
    """Groove to groove with coupler and clutch; None where nobody measured. [m]"""
    measured = getattr(v, f"{position}_distance")
    if measured is None:
        return None
    return arith.number(arith.max(SMALLEST, measured + v.setback - v.added_length))


def known_distances(v: model.Inputs) -> list[float]:
    """The distances of the positions that were measured. [m]"""
    found = [distance(v, position) for position in POSITIONS]
    return [length for length in found if length is not None]


def angles(v: model.Inputs, position: str) -> Angles | None:
    """Joint angles of a position; None where its distance or its height is unknown."""
    length, rise = distance(v, position), getattr(v, f"{position}_rise")
    if length is None or rise is None:
        return None
    tilt = arith.radians(getattr(v, f"{position}_tilt"))
    return Angles(*driveline.joint_angles(length, rise, v.side_offset, tilt))


def overlap_rule(key: str) -> driveline.OverlapRule:
    """Return a rule for the overlap."""
    return next(rule for rule in driveline.overlap_rules() if rule.key == key)


def overlap_at(v: model.Inputs, rule: driveline.OverlapRule) -> float | None:
    """Overlap where a rule looks: at work, or at the longest distance known. [m]"""
    known = known_distances(v)
    at_work = distance(v, "working")
    longest = at_work if rule.applies == "normal work" else arith.max(known) if known else None
    if longest is None or v.tube_length is None or v.closed_length is None:
        return None
    return arith.number(arith.min(v.tube_length, v.tube_length - (longest - v.closed_length)))


def closing_rule(key: str) -> tables.Row:
    """Return a rule for the gap when shortest."""
    return tables.by_key("driveline/driveline_closing_rules", "key")[key]


def _lengths(v: model.Inputs, at: model.At) -> None:
    rule = overlap_rule(v.overlap_rule)
    closing = closing_rule(v.closing_rule)
    at.gap_needed = float(closing["clearance_m"])
    known = known_distances(v)
    whole = v.closed_length if v.tube_length is None else v.tube_length
    if whole is None:
        at.not_checked("leave", TUBE)
    else:
        # A third of the whole closed length is never less than a third of its tube.
        at.leave = rule.needed(whole)
    if known:
        at.shortest, at.longest = arith.min(known), arith.max(known)
    missing = [p for p in POSITIONS if getattr(v, f"{p}_distance") is None]
    if missing:
        at.not_checked("positions", f"{missing[-1]}_distance")
    if v.closed_length is None:
        at.not_checked("closing", "closed_length")
        return
    if known:
        at.gap = at.shortest - v.closed_length
        at.step("gap", "C = L₂ − L_c", "hitch/DERIVED", **{"L₂": "shortest", "L_c": CLOSED})
        at.at_least("closing", "gap", "gap_needed", closing["source"].split("; ")[0])
    _overlap(v, at, rule, known)


CLOSED, TUBE = "closed_length", "tube_length"


def _overlap(
    v: model.Inputs, at: model.At, rule: driveline.OverlapRule, known: list[float]
) -> None:
    if v.tube_length is None:
        at.not_checked("overlap", TUBE)
        if known:
            at.longest_by_chart = joint_ratings.longest_by_chart(v.closed_length)
            at.at_most("stretch", "longest", "longest_by_chart", "value/SU-1")
        return
    if known:
        at.overlap_longest = arith.min(
            v.tube_length, v.tube_length - (at.longest - v.closed_length)
        )
        at.overlap_share = at.overlap_longest / v.tube_length
        if at.overlap_longest <= 0.0:
            at.fits("parting", -1.0, "value/DERIVED", "apart", grade=model.DANGER)
    here = overlap_at(v, rule)
    if here is None:
        return
    at.overlap_here, at.overlap_needed = here, rule.needed(v.tube_length)
    at.step(
        "overlap_here",
        "X = t − (L₁ − L_c)",
        "hitch/DERIVED",
        **{"t": TUBE, "L₁": "longest", "L_c": CLOSED},
    )
    at.at_least("overlap", "overlap_here", "overlap_needed", rule.source.split("; ")[0])


def _at_work(v: model.Inputs, at: model.At) -> None:
    found = angles(v, "working")
    if found is None:
        field = "working_rise" if v.working_rise is None else "working_distance"
        at.not_checked("angle_known", field)
        return
    at.front_angle, at.rear_angle = arith.degrees(found.front), arith.degrees(found.rear)
    at.larger_angle = arith.max(at.front_angle, at.rear_angle)
    shared.check_angle(at, "angle", "front_angle", wide=v.joint != "standard")
    shared.check_angle(at, "rear", "rear_angle", wide=v.joint == "wide_both")
    if v.pto_speed >= joint_ratings.slowest_ruled():
        at.angle_at_speed = joint_ratings.angle_at_speed(v.pto_speed)
        at.at_most("shaking", "larger_angle", "angle_at_speed", "value/NV-1", grade=model.ADVICE)
    if model.wants():
        _evenness(v, at, found)


def _evenness(v: model.Inputs, at: model.At, found: Angles) -> None:
    in_line = v.yokes != "turned"
    larger = arith.max(found.front, found.rear)
    if not larger < 0.5 * arith.pi:
        return
    least, most = universal_joint.ratio_extremes(larger)
    at.ripple_low, at.ripple_high = least * v.pto_speed, most * v.pto_speed
    at.one_swing = universal_joint.fluctuation(found.front)
    at.swing = universal_joint.two_joint_swing(found.front, found.rear, in_line)
    at.residual = arith.degrees(universal_joint.residual_angle(found.front, found.rear, in_line))
    at.step(
        "front_angle",
        "β₁ = asin(|rise| / L)",
        "value/DERIVED",
        rise="working_rise",
        L=(distance(v, "working"), "length"),
    )
    at.step("rear_angle", "β₂ = |β₁ − tilt|", "value/DERIVED", tilt="working_tilt")
    at.step("one_swing", "U = 1/cos β − cos β", "value/P1", **{"β₁": "front_angle"})
    at.step(
        "swing",
        "U₂ = 1/r − r, r = cos β₁ / cos β₂",
        "value/DERIVED",
        **{"β₁": "front_angle", "β₂": "rear_angle"},
    )


def _raised(v: model.Inputs, at: model.At) -> None:
    found = angles(v, "raised")
    if found is None:
        field = "raised_rise" if v.raised_rise is None else "raised_distance"
        at.not_checked("raised_known", field)
        return
    at.front_raised, at.rear_raised = arith.degrees(found.front), arith.degrees(found.rear)
    if v.pto_raised == "running":
        front, rear = v.joint != "standard", v.joint == "wide_both"
        shared.check_angle(at, "raised", "front_raised", wide=front, raised=True)
        shared.check_angle(at, "raised_rear", "rear_raised", wide=rear, raised=True)


def _power(v: model.Inputs, at: model.At) -> None:
    at.torque = pto.torque(v.pto_power, v.pto_speed)
    at.step("torque", "T = P / ω", "power/S5", P="pto_power", n="pto_speed")
    if v.series == UNSTATED or v.pto_speed > joint_ratings.rated_to(v.series):
        at.not_checked("joints_known", "series")
    else:
        at.series_power = joint_ratings.series_power(v.pto_speed, v.series)
        row = tables.by_key("driveline/driveline_series", "key")[v.series]
        shaft_power.check_driveline(
            at, "pto_power", "series_power", name="joints", source=row["source"]
        )
    if v.power_limit is not None:
        shaft_power.check_driveline(at, "pto_power", name="gearbox")


def protected_torque(v: model.Inputs) -> float | None:
    """Return the rated torque of the weaker of gearbox and driveline, as far as known. [N m]"""
    rated = []
    if v.power_limit is not None:
        rated.append(pto.torque(v.power_limit, 540.0))  # ratings are for 540 rpm
    if v.series != UNSTATED:
        rated.append(joint_ratings.series_torque(v.series))
    return arith.min(rated) if rated else None


def released_torque(v: model.Inputs) -> float | None:
    """Return the torque at which the protection lets go, where its numbers are known. [N m]"""
    if v.overload == "clutch":
        slips: float | None = v.clutch_torque
        return slips
    if v.overload in ("bolt", "flange_bolt"):
        return bolt_torque(v, 2 if v.overload == "bolt" else 1, v.bolt_circle)
    return None


def _overload(v: model.Inputs, at: model.At) -> None:
    bolt = v.overload in ("bolt", "flange_bolt")
    check_as_manual(at, v, bolt=bolt, clutch=v.overload == "clutch")
    rated, released = protected_torque(v), released_torque(v)
    if rated is not None:
        at.protected = rated
    if released is not None:
        at.released = released
    if rated is not None and released is not None and v.bolt_as_manual != "yes":
        at.release_most = shared.most_times() * rated
        at.at_most("release", "released", "release_most", "value/P4a", close_band=0.0)
    if v.overload not in ("clutch", UNSTATED) and v.pto_speed <= 540.0:
        at.bolt_power = shared.bolt_power()
        at.at_most("splines", "pto_power", "bolt_power", "value/OM-24", grade=model.ADVICE)


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the numbers and check them."""
    if model.wants("closing", "overlap", "parting", "stretch"):
        _lengths(v, at)
    if model.wants("angle", "rear", "shaking"):
        _at_work(v, at)
    if v.yokes == UNSTATED:
        at.not_checked("yokes_known", "yokes")
    else:
        in_line = v.yokes == "in_line"
        at.fits("yokes", 1.0 if in_line else -1.0, "value/UJ-memory", v.yokes)
    if model.wants("raised", "raised_rear"):
        _raised(v, at)
    _power(v, at)
    _overload(v, at)
