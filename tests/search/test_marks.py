"""What is marked as rising or falling rises or falls: proofs take its ends for all of it."""

import math
from itertools import pairwise

import pytest

from calc import tables
from calc.mechanics import auger, joint_ratings, traction, universal_joint
from calc.worksheets.drive import compute as drive

SOILS = sorted(tables.by_key("power/soil_mobility", "soil"))


def steps(low, high, count=400):
    return [low + (high - low) * step / count for step in range(count + 1)]


def never_rises(values):
    return all(one >= other for one, other in pairwise(values))


def test_angle_for_speed_falls():
    assert never_rises([universal_joint.angle_for_speed(speed) for speed in steps(1.0, 300.0)])
    assert universal_joint.angle_for_speed(1.0) > universal_joint.angle_for_speed(300.0)


def test_angle_at_speed_falls():
    assert never_rises([joint_ratings.angle_at_speed(speed) for speed in steps(900.0, 4000.0)])


@pytest.mark.parametrize("row", tables.rows("driveline/driveline_series"), ids=lambda r: r["key"])
def test_series_power_rises(row):
    speeds = steps(100.0, 1300.0)
    assert never_rises([-joint_ratings.series_power(speed, row["key"]) for speed in speeds])


def test_longest_by_chart_rises():
    assert never_rises([-joint_ratings.longest_by_chart(closed) for closed in steps(0.2, 4.0)])


def test_class_least_rises():
    found = [auger.class_least(diameter) for diameter in steps(0.05, 1.0)]
    assert never_rises([-power for power in found])
    assert found[0] < found[-1]


@pytest.mark.parametrize("radial", [True, False])
def test_best_slip_falls(radial):
    found = [traction.best_slip(mobility, radial) for mobility in steps(5.0, 120.0)]
    # Golden section leaves some 1e-7 of noise.
    assert never_rises([round(slip, 6) for slip in found])
    assert found[0] > found[-1]


@pytest.mark.parametrize("soil", SOILS)
def test_slip_of_a_pull_rises(soil):
    mobility = traction.soil_mobility_number(soil)
    found = [-drive._slip(wanted, mobility) for wanted in steps(-0.5, 1.0)]
    assert never_rises(found)
    assert math.isclose(-found[-1], drive.MOST_SLIP)
