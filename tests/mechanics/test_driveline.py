"""Joints, lengths and overload bolts: identities, worked examples, traps."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import si, tables
from calc.mechanics import driveline, overload, universal_joint

LB_FT = 1.3558179483314004
angles = st.floats(math.radians(-45.0), math.radians(45.0))


@given(angle=angles, rotation=st.floats(-10.0, 10.0))
def test_ratio_is_the_slope_of_the_output_rotation(angle: float, rotation: float) -> None:
    step = 1e-5
    slope = (
        universal_joint.output_rotation(angle, rotation + step)
        - universal_joint.output_rotation(angle, rotation - step)
    ) / (2.0 * step)
    assert slope == pytest.approx(universal_joint.speed_ratio(angle, rotation), rel=1e-4)


@given(angle=angles, rotation=st.floats(-10.0, 10.0))
def test_ratio_stays_between_its_extremes(angle: float, rotation: float) -> None:
    least, most = universal_joint.ratio_extremes(angle)
    ratio = universal_joint.speed_ratio(angle, rotation)
    assert least - 1e-12 <= ratio <= most + 1e-12


@given(angle=angles)
def test_a_full_turn_in_is_a_full_turn_out(angle: float) -> None:
    steps = 720
    mean = math.fsum(
        universal_joint.speed_ratio(angle, 2.0 * math.pi * k / steps) for k in range(steps)
    )
    assert mean / steps == pytest.approx(1.0, abs=1e-6)


@given(angle=st.floats(0.0, math.radians(60.0)))
def test_fluctuation_turns_back_into_its_angle(angle: float) -> None:
    assert universal_joint.angle_for_fluctuation(
        universal_joint.fluctuation(angle)
    ) == pytest.approx(angle, abs=1e-7)


@given(first=angles, second=angles)
def test_two_joints_agree_with_two_rotations_in_a_row(first: float, second: float) -> None:
    ratios = []
    for k in range(721):
        rotation = 2.0 * math.pi * k / 720
        middle = universal_joint.output_rotation(first, rotation)
        # Yokes in line put the second joint a quarter turn from the first one's datum.
        ratios.append(
            universal_joint.speed_ratio(first, rotation)
            * universal_joint.speed_ratio(second, middle + math.pi / 2.0)
        )
    swing = universal_joint.two_joint_swing(first, second)
    assert max(ratios) - min(ratios) == pytest.approx(swing, abs=2e-4)


def test_equal_angles_cancel_only_with_yokes_in_line() -> None:
    angle = math.radians(20.0)
    assert universal_joint.two_joint_swing(angle, angle) == pytest.approx(0.0)
    assert universal_joint.residual_angle(angle, angle) == 0.0
    wrong = universal_joint.two_joint_swing(angle, angle, yokes_in_line=False)
    assert wrong > 1.9 * universal_joint.fluctuation(angle)


def test_worked_residual_angle() -> None:
    twenty, fifteen = math.radians(20.0), math.radians(15.0)
    assert math.degrees(universal_joint.residual_angle(twenty, fifteen)) == pytest.approx(
        13.2, abs=0.05
    )
    assert universal_joint.two_joint_swing(twenty, fifteen) == pytest.approx(0.0551, abs=5e-5)
    rough = universal_joint.fluctuation(universal_joint.residual_angle(twenty, fifteen))
    assert rough == pytest.approx(0.054, abs=5e-4)


@pytest.mark.parametrize(
    ("degrees", "least", "most", "swing", "low", "high"),
    [
        (5, 0.9962, 1.0038, 0.0076, 538, 542),
        (10, 0.9848, 1.0154, 0.0306, 532, 548),
        (15, 0.9659, 1.0353, 0.0694, 522, 559),
        (20, 0.9397, 1.0642, 0.1245, 507, 575),
        (25, 0.9063, 1.1034, 0.1971, 489, 596),
        (30, 0.8660, 1.1547, 0.2887, 468, 624),
        (35, 0.8192, 1.2208, 0.4016, 442, 659),
    ],
)
def test_table_of_joint_angles(
    degrees: int, least: float, most: float, swing: float, low: int, high: int
) -> None:
    angle = math.radians(degrees)
    assert universal_joint.ratio_extremes(angle) == pytest.approx((least, most), abs=5e-5)
    assert universal_joint.fluctuation(angle) == pytest.approx(swing, abs=6e-5)
    assert 540 * least == pytest.approx(low, abs=0.6)
    assert 540 * most == pytest.approx(high, abs=0.6)


@pytest.mark.parametrize(
    ("offset", "degrees"), [(0.10, 6.3), (0.25, 15.5), (0.40, 24.0), (0.50, 29.1)]
)
def test_angles_over_a_run_of_900_mm(offset: float, degrees: float) -> None:
    assert math.degrees(driveline.joint_angle(offset, 0.9)) == pytest.approx(degrees, abs=0.06)


@given(angle=st.floats(math.radians(1.0), math.radians(60.0)))
def test_peak_acceleration_is_the_steepest_change_of_speed(angle: float) -> None:
    steps = 2000
    speeds = [universal_joint.speed_ratio(angle, math.pi * k / steps) for k in range(steps + 1)]
    slopes = [abs(b - a) * steps / math.pi for a, b in itertools.pairwise(speeds)]
    # d omega / dt = omega d omega / d theta, with omega 1 at the input.
    assert max(slopes) == pytest.approx(universal_joint.peak_acceleration(1.0, angle), rel=1e-3)


def test_peak_acceleration_nears_the_square_of_a_small_angle() -> None:
    angle = math.radians(2.0)
    assert universal_joint.peak_acceleration(10.0, angle) == pytest.approx(100 * angle**2, rel=2e-3)
    assert universal_joint.peak_acceleration(10.0, 0.0) == 0.0


def test_pto_speeds_by_the_acceleration_rule() -> None:
    at_540 = math.degrees(universal_joint.angle_for_speed(540 * math.pi / 30))
    at_1000 = math.degrees(universal_joint.angle_for_speed(1000 * math.pi / 30))
    assert at_540 == pytest.approx(30.8, abs=0.05)
    assert at_1000 == pytest.approx(17.2, abs=0.06)


def test_trap_the_printed_acceleration_is_ten_times_too_small() -> None:
    """The manual's text says 100 rad/s2; only 1 000 gives back its own angles."""
    for row in tables.rows("driveline/joint_speed_rule"):
        speed = float(row["rpm"]) * math.pi / 30.0
        printed = float(row["angle_deg"])
        assert math.degrees(universal_joint.angle_for_speed(speed)) == pytest.approx(
            printed, abs=0.084
        )
        wrong = math.degrees(universal_joint.angle_for_speed(speed, 100.0))
        assert wrong < 0.35 * printed


def test_worked_length_with_and_without_a_coupler() -> None:
    plain = driveline.fit(0.560, 0.850, 0.900, 1.150)
    assert plain.overlap == pytest.approx(0.260)
    assert plain.overlap_share == pytest.approx(0.46, abs=0.005)
    assert plain.closed_clearance == pytest.approx(0.050)
    set_back = driveline.fit(0.560, 0.850, 1.000, 1.250)
    assert set_back.overlap == pytest.approx(0.160)
    assert set_back.overlap_share == pytest.approx(0.29, abs=0.005)


def test_trap_overlap_rules_disagree_about_the_same_shaft() -> None:
    rules = {rule.key: rule for rule in driveline.overlap_rules()}
    overlap = driveline.fit(0.560, 0.850, 1.000, 1.250).overlap
    assert overlap >= rules["six_inches"].needed(0.560)
    assert overlap < rules["third"].needed(0.560)
    assert overlap < rules["third_or_150"].needed(0.560)


def test_trap_only_one_position_hides_the_fault() -> None:
    """Raised is not always the shortest: both ends of the range must be looked at."""
    at_longest_only = driveline.fit(0.560, 0.850, 1.150, 1.150)
    assert at_longest_only.closed_clearance > 0.0
    whole_range = driveline.fit(0.560, 0.850, 0.830, 1.150)
    assert whole_range.closed_clearance < 0.0
    assert whole_range.overlap == at_longest_only.overlap


@given(
    tube=st.floats(0.3, 1.0),
    ends=st.floats(0.2, 0.5),
    shortest=st.floats(0.5, 1.5),
    travel=st.floats(0.0, 0.5),
)
def test_a_cut_shaft_has_its_clearance(
    tube: float, ends: float, shortest: float, travel: float
) -> None:
    closed = tube + ends
    cut = driveline.cut_for(closed, shortest, 0.04)
    if cut >= tube:
        return
    after = driveline.fit(tube - cut, closed - cut, shortest, shortest + travel)
    assert after.closed_clearance >= 0.04 - 1e-12
    if cut > 0.0:
        assert after.closed_clearance == pytest.approx(0.04)


@given(tube=st.floats(0.3, 1.0), ends=st.floats(0.2, 0.5), keep=st.floats(0.0, 0.3))
def test_longest_allowed_keeps_the_overlap(tube: float, ends: float, keep: float) -> None:
    longest = driveline.longest_allowed(tube, tube + ends, keep)
    assert driveline.fit(tube, tube + ends, 0.1, longest).overlap == pytest.approx(keep)


SHAFT = 0.5 * 1.375 * si.INCH


@pytest.mark.parametrize(
    ("grade", "size", "shank", "thread"),
    [
        ("grade_2", "1/4", 250, 162),
        ("grade_2", "5/16", 390, 267),
        ("grade_2", "3/8", 562, 394),
        ("grade_2", "7/16", 765, 541),
        ("grade_2", "1/2", 999, 722),
        ("grade_5", "1/4", 405, 262),
        ("grade_5", "5/16", 633, 432),
        ("grade_5", "3/8", 911, 639),
        ("grade_5", "7/16", 1240, 877),
        ("grade_5", "1/2", 1620, 1171),
    ],
)
def test_shear_torque_through_a_small_shaft(grade: str, size: str, shank: int, thread: int) -> None:
    full = overload.shear_bolt(size, grade, False, 2, SHAFT)
    cut = overload.shear_bolt(size, grade, True, 2, SHAFT)
    assert full.torque / LB_FT == pytest.approx(shank, abs=1.0)
    assert cut.torque / LB_FT == pytest.approx(thread, abs=1.0)


def test_trap_threads_in_the_shear_plane_weaken_the_bolt() -> None:
    for row in tables.rows("driveline/shear_bolt_sizes"):
        full = overload.shear_bolt(row["key"], "grade_2", False, 2, SHAFT).torque
        cut = overload.shear_bolt(row["key"], "grade_2", True, 2, SHAFT).torque
        assert 0.27 <= 1.0 - cut / full <= 0.36


def test_trap_a_bolt_through_a_shaft_has_two_planes() -> None:
    through = overload.shear_bolt("3/8", "grade_2", False, 2, SHAFT).torque
    flange = overload.shear_bolt("3/8", "grade_2", False, 1, SHAFT).torque
    assert through == pytest.approx(2.0 * flange)


def test_bolts_are_within_their_bounds_and_in_order() -> None:
    bolts = overload.bolts_between(400.0, 1200.0, 2, SHAFT, ("grade_2", "grade_5"))
    torques = [bolt.torque for bolt in bolts]
    assert bolts
    assert torques == sorted(torques)
    assert all(400.0 <= torque <= 1200.0 for torque in torques)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: universal_joint.speed_ratio(math.radians(90.0), 0.0), "between -90 and 90"),
        (lambda: universal_joint.angle_for_fluctuation(-0.1), "below zero"),
        (lambda: universal_joint.angle_for_speed(0.0), "above zero"),
        (lambda: driveline.joint_angle(0.1, 0.0), "above zero"),
        (lambda: driveline.fit(0.0, 0.8, 0.9, 1.0), "tube"),
        (lambda: driveline.fit(0.5, 0.8, 1.1, 1.0), "shortest"),
        (lambda: overload.shank_area(0.0), "diameter"),
        (lambda: overload.shear_torque(1.0, 1.0, 0, 0.1), "shear plane"),
        (lambda: overload.friction_clutch_torque(0.3, 1.0, 0, 0.1), "face"),
    ],
)
def test_bad_values_say_what_is_wrong(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
