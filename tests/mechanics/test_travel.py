"""What a change of tires does to travel, against numbers worked by hand."""

import math

import pytest

from calc.mechanics import travel


def test_larger_radius_pulls_less():
    assert travel.pull_ratio(0.50, 0.55) == pytest.approx(0.909091, rel=1e-6)
    assert travel.pull_ratio(0.55, 0.50) == pytest.approx(1.1)


def test_speed_goes_with_the_circumference():
    assert travel.speed_after(2.0, 3.0, 3.6) == pytest.approx(2.4)
    assert travel.speed_after(6.0, 3.6, 3.0) == pytest.approx(5.0)


def test_higher_front_raises_the_nose_by_the_slope_over_the_wheelbase():
    assert math.tan(travel.pitch_change(0.05, 0.02, 1.5)) == pytest.approx(0.02)
    assert math.tan(travel.pitch_change(0.02, 0.05, 1.5)) == pytest.approx(-0.02)
    assert travel.pitch_change(0.03, 0.03, 1.5) == 0.0


def test_clearance_rises_in_line_between_the_axles():
    # Over the rear axle it rises as the rear does, over the front axle as the front does.
    assert travel.clearance_change(0.05, 0.02, 0.0, 1.5) == pytest.approx(0.02)
    assert travel.clearance_change(0.05, 0.02, 1.5, 1.5) == pytest.approx(0.05)
    assert travel.clearance_change(0.05, 0.02, 0.5, 1.5) == pytest.approx(0.03)
    assert travel.clearance_change(0.05, 0.02, -0.75, 1.5) == pytest.approx(0.005)


def test_width_over_the_tires():
    assert travel.overall_width(1.2, 0.35) == pytest.approx(1.55)


def test_brakes_work_against_speed_squared_and_radius():
    assert travel.braking_ratio(1.2, 0.5, 0.6) == pytest.approx(1.44 * 1.2)
    assert travel.braking_ratio(0.9, 0.6, 0.5) == pytest.approx(0.675)
