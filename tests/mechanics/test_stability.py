"""Tip angles: the worked sets, properties, and the traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import stability

tracks = st.floats(0.8, 2.2)
heights = st.floats(0.4, 1.3)


def degrees(angle):
    return math.degrees(angle)


@pytest.mark.parametrize(
    ("track", "height", "wheelbase", "ahead", "pin", "fixed", "pivoting"),
    [(1.2, 0.75, 1.6, 0.6, 0.4, 38.7, 32.0), (1.2, 0.65, 1.7, 0.75, 0.35, 42.7, 34.1)],
)
def test_worked_sets(track, height, wheelbase, ahead, pin, fixed, pivoting):
    assert degrees(stability.side_tip_angle(track, height)) == pytest.approx(fixed, abs=0.05)
    found = stability.side_tip_angle_pivoting(track, height, wheelbase, ahead, pin)
    assert degrees(found) == pytest.approx(pivoting, abs=0.05)


@given(tracks, heights, st.floats(1.2, 3.0), st.floats(0.05, 0.6), st.floats(0.0, 0.99))
def test_a_pivoting_axle_never_helps(track, height, wheelbase, share, pin_share):
    # As long as the pin is lower than the center of gravity.
    pin = pin_share * height
    pivoting = stability.side_tip_angle_pivoting(track, height, wheelbase, share * wheelbase, pin)
    assert pivoting <= stability.side_tip_angle(track, height) + 1e-12


@given(tracks, heights, st.floats(1.2, 3.0), st.floats(0.05, 0.6))
def test_moment_balance_about_the_tipping_line(track, height, wheelbase, share):
    # Turn the slope to the angle found: gravity through the center of gravity must then meet
    # the line from the lower rear contact to the pin.
    pin, ahead = 0.6 * height, share * wheelbase
    angle = stability.side_tip_angle_pivoting(track, height, wheelbase, ahead, pin)
    contact, pivot, cg = (0.0, track / 2, 0.0), (wheelbase, 0.0, pin), (ahead, 0.0, height)
    line = [p - q for p, q in zip(pivot, contact, strict=True)]
    arm = [p - q for p, q in zip(cg, contact, strict=True)]
    pull = (0.0, math.sin(angle), -math.cos(angle))
    moment = (
        arm[1] * pull[2] - arm[2] * pull[1],
        arm[2] * pull[0] - arm[0] * pull[2],
        arm[0] * pull[1] - arm[1] * pull[0],
    )
    about_line = sum(m * c for m, c in zip(moment, line, strict=True))
    assert about_line == pytest.approx(0.0, abs=1e-9)


@given(tracks, heights, heights)
def test_higher_is_never_steadier(track, one, other):
    low, high = sorted((one, other))
    assert stability.side_tip_angle(track, high) <= stability.side_tip_angle(track, low)


@given(st.floats(300, 4000), st.floats(0.3, 1.2), st.floats(0, 1500), st.floats(0.5, 2.5))
def test_a_rear_implement_moves_the_center_back(mass, ahead, implement, reach):
    moved = stability.cg_ahead_with_implement(mass, ahead, implement, reach / 2, reach / 2)
    assert moved <= ahead + 1e-12
    assert moved * (mass + implement) == pytest.approx(mass * ahead - implement * reach, abs=1e-6)


def test_front_axle_load_and_center_agree():
    # 214.3 kg on the front axle of 1,950 kg, wheelbase 1.75 m.
    moved = stability.cg_ahead_with_implement(1500.0, 0.70, 450.0, 0.80, 0.70)
    assert stability.cg_ahead_of_rear_axle(214.2857, 1950.0, 1.75) == pytest.approx(moved, abs=1e-4)


def test_rear_tip_goes_to_zero_where_the_front_lifts():
    moved = stability.cg_ahead_with_implement(1500.0, 0.70, 700.0, 0.80, 0.70)
    assert stability.rear_tip_angle(moved, 0.8) == pytest.approx(0.0, abs=1e-12)
    assert stability.rear_tip_angle(-0.1, 0.8) < 0


def test_common_center_of_combined_tools():
    assert stability.common_cg([(200.0, 0.5), (100.0, 1.1)]) == pytest.approx(0.7)
    with pytest.raises(ValueError, match="more than 0"):
        stability.common_cg([])


@given(st.floats(0.01, 80.0))
def test_slope_round_trip(angle):
    back = stability.slope_angle(stability.slope_percent(math.radians(angle)))
    assert degrees(back) == pytest.approx(angle)


def test_trap_degrees_and_percent_are_different_numbers():
    assert degrees(stability.slope_angle(17.0)) == pytest.approx(9.6, abs=0.05)
    assert stability.slope_percent(math.radians(15.0)) == pytest.approx(26.8, abs=0.05)
    # 15 degrees as a rise: 1.6 m in 6.1 m is right; 5.25 ft in 20 ft, also printed, is short.
    rise = stability.slope_percent(math.radians(15.0)) / 100
    assert 6.1 * rise == pytest.approx(1.63, abs=0.005)
    assert 20 * rise == pytest.approx(5.36, abs=0.005)


def test_trap_the_simple_formula_overstates():
    fixed = stability.side_tip_angle(1.2, 0.65)
    pivoting = stability.side_tip_angle_pivoting(1.2, 0.65, 1.70, 0.75, 0.35)
    assert degrees(fixed - pivoting) == pytest.approx(8.6, abs=0.05)


def test_trap_outer_tire_edge_is_optimistic():
    assert stability.side_tip_angle(1.2 + 0.3, 0.75) > stability.side_tip_angle(1.2, 0.75)


def test_trap_a_raised_load_raises_the_center():
    raised = stability.common_cg([(1200.0, 0.70), (400.0, 2.0)])
    assert raised == pytest.approx(1.025)
    assert stability.side_tip_angle(1.2, raised) < stability.side_tip_angle(1.2, 0.70)


@pytest.mark.parametrize(
    "call",
    [
        lambda: stability.side_tip_angle(0.0, 0.7),
        lambda: stability.side_tip_angle_pivoting(1.2, 0.7, 1.6, 1.7, 0.4),
        lambda: stability.side_tip_angle_pivoting(1.2, 0.7, 1.6, -0.1, 0.4),
        lambda: stability.side_tip_angle_pivoting(1.2, 0.0, 1.6, 0.6, 0.4),
        lambda: stability.rear_tip_angle(0.5, 0.0),
        lambda: stability.cg_ahead_of_rear_axle(500, 0.0, 1.6),
        lambda: stability.tip_speed_in_turn(0.0, 5.0),
        lambda: stability.tip_speed_in_turn(0.5, 0.0),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()
