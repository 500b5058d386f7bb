"""PTO driveline against printed numbers; the source stands beside each."""

import math

import pytest

from calc import tables
from calc.mechanics import driveline, pto

INCH = 0.0254
PSI = 6894.757293168361
LBF = 4.4482216152605


def rpm(value: float) -> float:
    return value * math.pi / 30.0


@pytest.mark.parametrize(
    ("speed", "printed"), [(1500, 11.5), (2000, 8 + 40 / 60), (3000, 5 + 50 / 60)]
)
def test_angle_by_speed(speed: float, printed: float) -> None:
    # value/P2: 11 deg 30, 8 deg 40, 5 deg 50, printed to 10 minutes of arc.
    found = math.degrees(driveline.angle_for_speed(rpm(speed)))
    assert found == pytest.approx(printed, abs=5 / 60)


def test_residual_angle_of_a_smooth_machine() -> None:
    # value/P1: fluctuation at most 0.0027, that is a residual angle of 2.98 degrees.
    assert math.degrees(driveline.angle_for_fluctuation(0.0027)) == pytest.approx(2.98, abs=0.01)


def test_joint_at_1500_rpm_within_200_rpm() -> None:
    # value/P8: 20.67 degrees, 1 603.25 and 1 403.39 rpm. The speeds are cut, not rounded, from
    # an angle that was itself rounded: half a unit of its last digit moves them by 0.05 rpm.
    angle = driveline.angle_for_fluctuation(200 / 1500)
    assert math.degrees(angle) == pytest.approx(20.67, abs=0.05)
    least, most = driveline.ratio_extremes(math.radians(20.67))
    assert 1500 * most == pytest.approx(1603.25, abs=0.1)
    assert 1500 * least == pytest.approx(1403.39, abs=0.1)


def test_joint_at_1200_rpm_within_100_rpm() -> None:
    # value/P9: cosine 0.9592, 1 251 and 1 151 rpm, to the whole number. Its angle of 16.2
    # degrees has a cosine of 0.9603, so the cosine is the number to compare with.
    angle = driveline.angle_for_fluctuation(100 / 1200)
    least, most = driveline.ratio_extremes(angle)
    assert least == pytest.approx(0.9592, abs=0.00005)
    assert 1200 * most == pytest.approx(1251, abs=0.5)
    assert 1200 * least == pytest.approx(1151, abs=0.5)


def test_force_of_a_half_inch_grade_2_bolt() -> None:
    # value/P5: 0.141 in2 at 44 400 psi; the product, 6 260 lbf, to its three figures.
    force = driveline.shear_force(44_400 * PSI, 0.141 * INCH**2)
    assert force / LBF == pytest.approx(6260, abs=10)


@pytest.mark.parametrize(
    ("grade", "tensile"), [("grade_2", 74), ("grade_5", 120), ("grade_8", 150)]
)
def test_bolt_strengths(grade: str, tensile: float) -> None:
    # value/P11: least tensile strength in ksi; shear is 0.6 of it, value/P5.
    row = tables.by_key("driveline/shear_bolt_grades", "key")[grade]
    assert float(row["tensile_psi"]) == tensile * 1000
    assert float(row["shear_psi"]) == pytest.approx(0.6 * tensile * 1000)


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
    # value/P10: printed areas; the standard's own formula with the thread count is the judge.
    row = tables.by_key("driveline/shear_bolt_sizes", "key")[size]
    assert float(row["stress_area_in2"]) == printed
    formula = math.pi / 4 * (float(row["diameter_in"]) - 0.9743 / threads) ** 2
    assert formula == pytest.approx(printed, abs=0.00006)


def test_torque_at_540() -> None:
    # hitch/X3: 30 kW at 540 rpm is 531 N m.
    assert pto.torque(30_000.0, 540) == pytest.approx(531, abs=0.6)


@pytest.mark.parametrize(
    ("key", "tube", "needed"),
    [
        ("third", 0.60, 0.20),  # hitch/H18a: one third of the tube
        ("half_work", 0.60, 0.30),  # hitch/H18a: one half in normal work
        ("half", 0.60, 0.30),  # hitch/H18b: one half
        ("six_inches", 0.60, 0.150),  # hitch/H18d and hitch/H18f: 150 mm
        ("ten_inches", 0.60, 0.250),  # hitch/H18c: 250 mm
    ],
)
def test_overlap_rules_as_printed(key: str, tube: float, needed: float) -> None:
    rules = {rule.key: rule for rule in driveline.overlap_rules()}
    assert rules[key].needed(tube) == pytest.approx(needed)


def test_cut_of_a_shaft_that_is_too_long() -> None:
    # hitch/H18e: cut = closed length less shortest distance plus 25 mm, the same off both halves.
    assert driveline.cut_for(0.900, 0.850, 0.025) == pytest.approx(0.900 - 0.850 + 0.025)


def test_a_friction_clutch_slips_at_three_times_its_torque() -> None:
    # value/P4a: a tiller's clutch slips at 3 x nominal.
    row = tables.by_key("driveline/overload_settings", "key")["clutch_tiller"]
    assert float(row["times_torque"]) == 3.0
