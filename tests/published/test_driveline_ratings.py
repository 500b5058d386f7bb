"""What drivelines are rated for against printed numbers; the source stands beside each."""

import math

import pytest

from calc import model, search, worksheets
from calc.mechanics import driveline, joint_ratings, overload, pto, universal_joint
from tests.published.rows import published
from tests.worksheets.asking import findings, margins

INCH = 0.0254
HP = 745.6998715822702
LB_FT = 1.3558179483314004
SHEET = worksheets.load("driveline")

# value/SU-1, a supplier's chart of 21 Nov 2014: rated hp at the PTO by series.
SERIES = [
    (1, 16, 24),
    (2, 21, 32),
    (3, 30, 47),
    (4, 35, 54),
    (5, 47, 72),
    (6, 62, 98),
    (7, 74, 114),
    (8, 91, 145),
    (9, 141, 225),
]


@pytest.mark.parametrize(("number", "at_540", "at_1000"), SERIES)
def test_power_of_a_series(number: int, at_540: int, at_1000: int) -> None:
    for speed, printed in ((540.0, at_540), (1000.0, at_1000)):
        ours = joint_ratings.series_power(speed, f"na{number}") / HP
        given, why = f"series {number} at {speed:.0f} rpm", "kept as read"
        published(
            joint_ratings.series_power, given, printed, ours, 1e-6, why, "value/SU-1", unit="hp"
        )


@pytest.mark.parametrize(("number", "at_540", "at_1000"), SERIES[:7])
def test_a_series_decides_just_inside_and_just_outside(
    number: int, at_540: int, at_1000: int
) -> None:
    for speed, power in (("540 rpm", at_540), ("1000 rpm", at_1000)):
        typed = {"series": f"na{number}", "pto_speed": speed}
        inside = search.answer(SHEET, {**typed, "pto_power": f"{power - 0.1} hp"}, ask="joints")
        outside = search.answer(SHEET, {**typed, "pto_power": f"{power + 0.1} hp"}, ask="joints")
        assert findings(inside)["joints"] == model.WITHIN
        assert findings(outside)["joints"] == model.CLOSE


@pytest.mark.parametrize(("number", "at_540", "at_1000"), SERIES)
def test_faster_a_series_carries_less_torque(number: int, at_540: int, at_1000: int) -> None:
    # value/SU-1: the ratings grow 1.50 to 1.60 times from 540 to 1 000, where speed grows 1.85.
    slow = pto.torque(joint_ratings.series_power(540.0, f"na{number}"), 540.0)
    fast = pto.torque(joint_ratings.series_power(1000.0, f"na{number}"), 1000.0)
    assert 1.49 / 1.852 < fast / slow < 1.61 / 1.851


@pytest.mark.parametrize(
    ("kilowatts", "torque"), [(13, 228), (18, 317), (31, 547), (42, 748), (51, 900)]
)
def test_torque_of_a_category(kilowatts: int, torque: int) -> None:
    # value/SU-2 prints whole kW and N m at 540 rpm: half a kW is 8.8 N m.
    assert pto.torque(kilowatts * 1000.0, 540.0) == pytest.approx(torque, abs=8.8)


@pytest.mark.parametrize(
    ("closed", "longest"),
    # value/SU-1, series 1 to 4, joint to joint.
    [(28, 35), (31, 41), (35, 47), (39, 53), (43, 59), (47, 64), (51, 71), (55, 77), (59, 83)],
)
def test_longest_by_closed_length(closed: int, longest: int) -> None:
    assert joint_ratings.longest_by_chart(closed * INCH) / INCH == pytest.approx(longest)
    # The same page: not to extend by half of the closed length.
    assert longest <= 1.5 * closed


@pytest.mark.parametrize(
    ("rpm", "degrees"), [(1000, 12), (1500, 11), (2000, 8), (3000, 5), (3500, 5)]
)
def test_angle_by_speed_of_a_drive_line(rpm: int, degrees: int) -> None:
    # value/NV-1: power take-off drive lines of trucks.
    assert joint_ratings.angle_at_speed(float(rpm)) == pytest.approx(degrees)


def test_compound_angle_of_plan_and_side_view() -> None:
    # value/NV-1: the true angle is the root of the squares of both views; ours is exact, and the
    # rule is within a twentieth of a degree for the angles of its own table.
    for plan, side in ((3.0, 4.0), (5.0, 5.0), (2.0, 7.0)):
        along = 1.0
        rise = along * math.tan(math.radians(side))
        offset = along * math.tan(math.radians(plan))
        length = math.sqrt(along**2 + rise**2 + offset**2)
        front, rear = driveline.joint_angles(length, rise, offset, 0.0)
        assert math.degrees(front) == pytest.approx(math.hypot(plan, side), abs=0.05)
        assert rear == pytest.approx(front)


def test_intermediate_shaft_of_a_double_joint() -> None:
    # value/QA-1: 500 rpm at 20 degrees; 469.85 and 532.1 rpm between the joints.
    least, most = universal_joint.ratio_extremes(math.radians(20.0))
    assert 500 * least == pytest.approx(469.85, abs=0.005)
    assert 500 * most == pytest.approx(532.1, abs=0.05)


def test_driven_shaft_of_a_double_joint_put_together_wrongly() -> None:
    # value/QA-1: with the forks a quarter turn out, 441.5 and 566.25 rpm at the driven shaft.
    # 566.25 is cut from 566.24 by the page's own rounding of 532.1 / cos 20.
    angle = math.radians(20.0)
    swing = universal_joint.two_joint_swing(angle, angle, False)
    assert 500 * swing == pytest.approx(566.25 - 441.5, abs=0.06)
    assert universal_joint.two_joint_swing(angle, angle, True) == 0.0


@pytest.mark.parametrize(
    ("joint", "inside", "outside"),
    # value/JT-1: standard joints run at 25 degrees, wide-angle ones at 25 in steady work.
    [("standard", 24.9, 25.1), ("wide_both", 24.9, 25.1)],
)
def test_steady_limits(joint: str, inside: float, outside: float) -> None:
    for degrees, met in ((inside, True), (outside, False)):
        rise = 36.0 * math.sin(math.radians(degrees))
        typed = {
            "working_distance": "36 in",
            "working_rise": f"{rise:.4f} in",
            "working_tilt": "0 deg",
            "joint": joint,
        }
        found = search.answer(SHEET, typed, ask="angles")
        assert (margins(found)["angle"] >= 0) is met


def test_a_half_inch_bolt_stalls_a_small_tractor_before_it_shears() -> None:
    # value/FO-4: owners find that a 1/2 in grade 2 bolt stalls the tractor of a 4 ft cutter before
    # it shears; 25 PTO hp at 540 rpm is 243 lb ft.
    bolt = overload.shear_bolt("1/2", "grade_2", False, 2, 0.6875 * INCH)
    assert bolt.torque / LB_FT > 243


def test_a_slip_clutch_is_asked_for_over_75_hp_through_six_splines() -> None:
    # value/OM-24: implements of more than 75 hp on the 540 rpm, 6-spline stub.
    for power, met in (("74.9 hp", True), ("75.1 hp", False)):
        typed = {"pto_power": power, "pto_speed": "540 rpm", "overload": "bolt"}
        found = search.answer(SHEET, typed)
        assert (margins(found)["splines"] >= 0) is met
    clutch = search.answer(SHEET, {"pto_power": "90 hp", "overload": "clutch"})
    assert "splines" not in margins(clutch)
