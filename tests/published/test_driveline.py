"""PTO driveline against printed numbers; the source stands beside each."""

import math

import pytest

from calc import tables
from calc.mechanics import driveline, overload, pto, universal_joint
from tests.published.rows import published

INCH = 0.0254
PSI = 6894.757293168361
LBF = 4.4482216152605


def rpm(value: float) -> float:
    return value * math.pi / 30.0


@pytest.mark.parametrize(
    ("speed", "printed"), [(1500, 11.5), (2000, 8 + 40 / 60), (3000, 5 + 50 / 60)]
)
def test_angle_by_speed(speed: float, printed: float) -> None:
    found = math.degrees(universal_joint.angle_for_speed(rpm(speed)))
    why = "printed to 10 minutes of arc"
    of = universal_joint.angle_for_speed
    published(of, f"{speed} rpm", printed, found, 5 / 60, why, "value/P2", unit="°")


def test_residual_angle_of_a_smooth_machine() -> None:
    found = math.degrees(universal_joint.angle_for_fluctuation(0.0027))
    given, why = "a fluctuation of 0.0027", "the fluctuation has two figures"
    of = universal_joint.angle_for_fluctuation
    published(of, given, 2.98, found, 0.01, why, "value/P1", "residual angle", unit="°")


def test_joint_at_1500_rpm_within_200_rpm() -> None:
    angle = math.degrees(universal_joint.angle_for_fluctuation(200 / 1500))
    of, given = universal_joint.angle_for_fluctuation, "1,500 rpm within 200 rpm"
    published(of, given, 20.67, angle, 0.05, "worked by hand to two places", "value/P8", unit="°")
    # The speeds are cut, not rounded, from an angle that was itself rounded.
    least, most = universal_joint.ratio_extremes(math.radians(20.67))
    of, given = universal_joint.ratio_extremes, "1,500 rpm at 20.67°"
    why = "cut, from an angle rounded to 0.01°"
    published(of, given, 1603.25, 1500 * most, 0.1, why, "value/P8", "fastest", unit="rpm")
    published(of, given, 1403.39, 1500 * least, 0.1, why, "value/P8", "slowest", unit="rpm")


def test_joint_at_1200_rpm_within_100_rpm() -> None:
    # Its angle of 16.2 degrees has a cosine of 0.9603, so the cosine is what to compare with.
    angle = universal_joint.angle_for_fluctuation(100 / 1200)
    least, most = universal_joint.ratio_extremes(angle)
    of, given = universal_joint.ratio_extremes, "1,200 rpm within 100 rpm"
    why = "printed to four places"
    published(of, given, 0.9592, least, 0.00005, why, "value/P9", "cosine of the angle")
    why = "printed to the whole number"
    published(of, given, 1251, 1200 * most, 0.5, why, "value/P9", "fastest", unit="rpm")
    published(of, given, 1151, 1200 * least, 0.5, why, "value/P9", "slowest", unit="rpm")


def test_force_of_a_half_inch_grade_2_bolt() -> None:
    force = overload.shear_force(44_400 * PSI, 0.141 * INCH**2) / LBF
    of, given, why = overload.shear_force, "0.141 in² at 44,400 psi", "three figures"
    published(of, given, 6260, force, 10, why, "value/P5", "1/2 in bolt of grade 2", unit="lbf")


@pytest.mark.parametrize(
    ("grade", "tensile"), [("grade_2", 74), ("grade_5", 120), ("grade_8", 150)]
)
def test_bolt_strengths(grade: str, tensile: float) -> None:
    row = tables.by_key("driveline/shear_bolt_grades", "key")[grade]
    of, given, why = "driveline/shear_bolt_grades", grade, "the printed number itself"
    ours = float(row["tensile_psi"]) / 1000
    published(of, given, tensile, ours, 0, why, "value/P11", "least tensile strength", unit="ksi")
    share = float(row["shear_psi"]) / float(row["tensile_psi"])
    published(of, given, 0.6, share, 0.0005, why, "value/P5", "shear over tensile strength")


@pytest.mark.parametrize(
    ("size", "threads", "printed"),
    [
        ("1/4", 20, 0.0318),
        ("5/16", 18, 0.0524),
        ("3/8", 16, 0.0775),
        ("7/16", 14, 0.1063),
        ("1/2", 13, 0.1419),
    ],
)
def test_stress_areas(size: str, threads: int, printed: float) -> None:
    row = tables.by_key("driveline/shear_bolt_sizes", "key")[size]
    of, ours, why = "driveline/shear_bolt_sizes", float(row["stress_area_in2"]), "as printed"
    published(of, f"{size} in bolt", printed, ours, 0, why, "value/P10", "stress area", unit="in²")
    # The standard's own formula with the thread count is the judge.
    formula = math.pi / 4 * (float(row["diameter_in"]) - 0.9743 / threads) ** 2
    assert formula == pytest.approx(printed, abs=0.00006)


def test_torque_at_540() -> None:
    found, why = pto.torque(30_000.0, 540), "whole number, from 9550 for 9549.3"
    published(pto.torque, "30 kW at 540 rpm", 531, found, 0.6, why, "hitch/X3", unit="N m")


@pytest.mark.parametrize(
    ("key", "needed", "source", "place"),
    [
        ("third", 200, "hitch/H18a", "one third of the tube"),
        ("half_work", 300, "hitch/H18a", "one half in normal work"),
        ("half", 300, "hitch/H18b", "one half"),
        ("six_inches", 150, "hitch/H18d", "150 mm"),
        ("six_inches", 150, "hitch/H18f", "150 mm"),
        ("ten_inches", 250, "hitch/H18c", "250 mm"),
    ],
)
def test_overlap_rules_as_printed(key: str, needed: float, source: str, place: str) -> None:
    ours = {rule.key: rule for rule in driveline.overlap_rules()}[key].needed(0.60) * 1000
    of, given, why = driveline.overlap_rules, f"a tube of 600 mm, {place}", "the printed rule"
    published(of, given, needed, ours, 0.01, why, source, place, unit="mm")


def test_cut_of_a_shaft_that_is_too_long() -> None:
    found = driveline.cut_for(0.900, 0.850, 0.025) * 1000
    place = "cut = closed length less shortest distance plus 25 mm, off both halves"
    given, why = "900 mm closed, 850 mm at its shortest", "the printed rule"
    published(driveline.cut_for, given, 75, found, 1e-6, why, "hitch/H18e", place, unit="mm")


def test_a_friction_clutch_slips_at_three_times_its_torque() -> None:
    row = tables.by_key("driveline/overload_settings", "key")["clutch_tiller"]
    of, ours, why = "driveline/overload_settings", float(row["times_torque"]), "as printed"
    published(of, "a tiller's clutch", 3.0, ours, 0, why, "value/P4a", unit="× nominal")
