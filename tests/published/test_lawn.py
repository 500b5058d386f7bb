"""Tines, ground pressure, holes, slopes and work rate on a lawn against published numbers."""

import math

import pytest

from calc import quantities, tables
from calc.mechanics import field_work, ground, turf
from tests.published.rows import published

PSI = 6894.757293168361
INCH = 0.0254
FOOT = 0.3048
MPH = 0.44704
ACRE = 4046.8564224
POUND_FORCE = 4.4482216152605
METRIC = "207,000 MPa, wire 2 mm, coil 20 mm, 5 turns"
INCHES = "30e6 psi, wire 0.035 in, coil 0.465 in, 3 turns"


def test_torsion_rate_of_a_metric_spring() -> None:
    # value/T1: 207 000 MPa, wire 2 mm, coil 20 mm, 5 turns: 3 066.67 N mm for each turn.
    rate = turf.torsion_rate(0.002, 0.020, 5.0, 207e9, friction=True)
    of, ours = turf.torsion_rate, rate * 2.0 * math.pi * 1000.0
    published(of, METRIC, 3066.67, ours, 0.005, "printed to 0.01", "value/T1", unit="N·mm a turn")


def test_torsion_rate_of_a_metric_spring_by_the_degree() -> None:
    # value/T1: the same spring, 8.52 N mm for each degree.
    rate = turf.torsion_rate(0.002, 0.020, 5.0, 207e9, friction=True)
    of, ours = turf.torsion_rate, math.radians(rate) * 1000.0
    published(of, METRIC, 8.52, ours, 0.005, "printed to 0.01", "value/T1", unit="N·mm/°")


def test_torsion_rate_of_an_inch_spring() -> None:
    # value/T1: 30e6 psi, wire 0.035 in, coil 0.465 in, 3 turns: 2.988 in-lb for each turn.
    rate = turf.torsion_rate(0.035 * INCH, 0.465 * INCH, 3.0, 30e6 * PSI, friction=True)
    of, ours = turf.torsion_rate, rate * 2.0 * math.pi / (POUND_FORCE * INCH)
    published(of, INCHES, 2.988, ours, 0.0005, "printed to 0.001", "value/T1", unit="in-lb a turn")


def test_torsion_rate_of_an_inch_spring_by_the_degree() -> None:
    # value/T1: the same spring, 0.0083 in-lb for each degree.
    rate = turf.torsion_rate(0.035 * INCH, 0.465 * INCH, 3.0, 30e6 * PSI, friction=True)
    of, ours = turf.torsion_rate, math.radians(rate) / (POUND_FORCE * INCH)
    published(of, INCHES, 0.0083, ours, 0.00005, "printed to 0.0001", "value/T1", unit="in-lb/°")


def test_theoretical_divisor_against_the_makers() -> None:
    # value/T1 names 10.2 as the theoretical divisor for a turn, beside 10.8.
    theory = turf.torsion_rate(0.002, 0.020, 5.0)
    makers = turf.torsion_rate(0.002, 0.020, 5.0, friction=True)
    of, given = turf.torsion_rate, "theoretical divisor for a turn, beside 10.8"
    published(of, given, 10.2, 10.8 * makers / theory, 0.05, "printed to a tenth", "value/T1")


def test_fifteen_psi_is_just_over_the_compaction_threshold() -> None:
    # value/L7c, L7b: 15 psi is 103 kPa, against the 100 kPa threshold.
    read = quantities.base("15 psi", "pressure")
    why = "printed to a kilopascal"
    published(quantities.base, "15 psi", 103.0, read / 1000.0, 0.5, why, "value/L7b", unit="kPa")
    limit = turf.turf_limit("moist")
    of, why = turf.turf_limit, "printed to a tenth beside 100 kPa"
    published(of, "moist turf", 14.5, limit / PSI, 0.05, why, "value/L7c", unit="psi")
    assert 1.0 < read / limit < 1.05


@pytest.mark.parametrize(("inflation_psi", "ground_psi"), [(10.0, 11.0), (20.0, 22.0)])
def test_ground_pressure_by_the_tire_maker(inflation_psi: float, ground_psi: float) -> None:
    # value/L7b: the ground feels a tenth more than the inflation.
    found = turf.mean_pressure(inflation_psi * PSI, "tenth")
    of, given, why = turf.mean_pressure, f"{inflation_psi:g} psi, a tenth more", "exact"
    published(of, given, ground_psi, found / PSI, 0.005, why, "value/L7b", unit="psi")


def test_ground_pressure_by_the_tire_engineer() -> None:
    # value/L7a: inflation and 1 to 2 psi.
    found = turf.mean_pressure(12.0 * PSI, "carcass") / PSI
    assert 13.0 <= found <= 14.0


def test_stress_ten_centimeters_down() -> None:
    # tires/S9: on average 39 % above the inflation.
    of, why = ground.peak_stress, "printed to a whole percent"
    published(of, "100 kPa, 39 % more", 139, of(100e3) / 1000, 0.5, why, "tires/S9", unit="kPa")


def test_fifteen_degrees_over_twenty_feet() -> None:
    # value/L9 prints 1.6 m in 6.1 m for 15 deg (and 5.25 ft in 20 ft, cut a little short).
    slope = quantities.base("15 deg", "slope")
    given, why = "15° over 6.1 m", "printed to a tenth"
    published(quantities.base, given, 1.6, slope * 6.1, 0.05, why, "value/L9", unit="m")
    assert slope * 20.0 == pytest.approx(5.25, abs=0.15)


def test_aerator_spacing_gives_six_holes_a_square_foot() -> None:
    # value/L5a, L5d: spoons 4 in apart and cores 6 in apart: 144 / 24 holes in a square foot.
    found = turf.holes_per_area(4.0 * INCH, 6.0 * INCH) * FOOT**2
    of, given = turf.holes_per_area, "spoons 4 in apart, cores 6 in apart"
    published(of, given, 6.0, found, 1e-9, "exact: 144 / 24", "value/L5a", unit="a square foot")


@pytest.mark.parametrize(
    ("inches", "passes"),
    [
        (0.5, 0),  # value/L1: act when the thatch is more than half an inch
        (0.55, 1),
        (0.78, 1),  # value/L3c: two treatments once it is over 2 cm
        (0.80, 2),
    ],
)
def test_rakings_by_thatch(inches: float, passes: int) -> None:
    assert turf.thatch_passes(inches * INCH) == passes


@pytest.mark.parametrize(
    ("width_ft", "mph", "efficiency", "acres_per_hour"),
    [
        (40.0, 6.0, 0.70, 20.4),  # power/S45, a spreader, the same sum as for a lawn
        (10.0, 5.0, 0.63, 3.8),  # power/S45
    ],
)
def test_work_rate(width_ft: float, mph: float, efficiency: float, acres_per_hour: float) -> None:
    of, given = field_work.field_capacity, f"{width_ft:g} ft, {mph:g} mph, {efficiency:.0%}"
    ours = of(width_ft * FOOT, mph * MPH, efficiency) * 3600.0 / ACRE
    why = "printed to a tenth, from 8.25 or 825"
    published(of, given, acres_per_hour, ours, 0.055, why, "power/S45", unit="ac/h")


def test_work_rate_constant() -> None:
    # value/V24: ft x mph x percent / 825 gives acres an hour.
    rate = field_work.field_capacity(825.0 * FOOT / 100.0, MPH, 1.0) * 3600.0 / ACRE
    of, given = field_work.field_capacity, "8.25 ft, 1 mph, 100 %: ft × mph × percent / 825"
    published(of, given, 1.0, rate, 1e-9, "exact", "value/V24", unit="ac/h")


def test_known_light_machines_stay_under_the_limit_of_soft_turf() -> None:
    # value/T2: a greens roller presses at 4 to 5 psi, under the 6 psi of value/L7d.
    assert turf.turf_limit("wet") > 5.0 * PSI


def test_core_depth_of_the_tool_table() -> None:
    # value/L1: cores 2 to 3 in deep; the table keeps them in millimeters, rounded to 5.
    row = tables.by_key("lawn/lawn_tools", "key")["core"]
    assert float(row["shallow_mm"]) == pytest.approx(2.0 * 25.4, abs=2.5)
    assert float(row["deep_mm"]) == pytest.approx(3.0 * 25.4, abs=2.5)
