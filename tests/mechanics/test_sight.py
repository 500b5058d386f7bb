"""How far one must see, what hides it, and stopping: properties, own examples and traps."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.mechanics import (
    braking,
    electrical_load,
    mirrors,
    road_gaps,
    sight,
    wiring,
)

FOOT, MPH, KMH = 0.3048, 0.44704, 1 / 3.6
speeds = st.floats(1, 40)
distances = st.floats(0, 600)


# --- sight ----------------------------------------------------------------------------------------


@given(distances, speeds, speeds)
def test_closing_time_grows_with_distance_and_falls_with_difference(distance, car, tractor):
    assume(car > tractor + 0.5)
    time = sight.closing_time(distance, car, tractor)
    assert sight.closing_time(distance + 10, car, tractor) > time
    assert sight.closing_time(distance, car + 1, tractor) <= time
    assert sight.closing_time(distance, car, tractor, head_on=True) <= time


def test_closing_time_is_infinite_when_the_gap_does_not_close():
    assert sight.closing_time(100, 5, 5) == math.inf
    assert sight.closing_time(100, 4, 5) == math.inf


@given(st.floats(0, 500), speeds)
def test_fastest_that_can_slow_is_the_inverse_of_the_gap(gap, tractor):
    fastest = sight.fastest_that_can_slow(gap, tractor)
    assert sight.slow_down_gap(fastest, tractor) == pytest.approx(gap, abs=1e-6)


@given(speeds, speeds)
def test_slowing_needs_no_more_than_stopping(car, tractor):
    assume(car > tractor)
    assert sight.slow_down_gap(car, tractor) < sight.stopping_sight_distance(car)


@given(speeds, st.floats(-0.2, 0.2))
def test_a_downgrade_lengthens_a_stop(speed, grade):
    level = sight.stopping_sight_distance(speed)
    on_grade = sight.stopping_sight_distance(speed, grade)
    assert on_grade >= level if grade <= 0 else on_grade <= level


def test_a_hill_steeper_than_the_brakes_is_refused():
    with pytest.raises(ValueError, match="braking left"):
        sight.stopping_sight_distance(20, -0.5)


@given(st.floats(0.5, 100), st.floats(0.5, 15), st.floats(0.1, 3))
def test_time_to_clear_is_continuous_and_inverted(distance, speed, acceleration):
    time = road_gaps.time_to_clear(distance, speed, acceleration)
    assert time >= 2 + distance / speed - 1e-9
    back = road_gaps.longest_that_clears(time, 0.0, speed, acceleration)
    assert back == pytest.approx(distance, rel=1e-6)


@given(st.floats(2, 20))
def test_a_longer_combination_takes_longer_to_cross(length):
    assert road_gaps.time_to_clear(10 + length, 4, 0.4) < road_gaps.time_to_clear(
        11 + length, 4, 0.4
    )


def test_passing_example():
    time, road, clear = road_gaps.passing(
        55 * MPH, 18 * MPH, 40 * FOOT, 19 * FOOT, 80 * FOOT, 80 * FOOT, 55 * MPH
    )
    assert time == pytest.approx(4.0, abs=0.05)
    assert road / FOOT == pytest.approx(326, abs=0.6)
    assert clear / FOOT == pytest.approx(651, abs=0.6)
    with pytest.raises(ValueError, match="speed difference"):
        road_gaps.passing(5, 6, 10, 5, 20, 20, 20)


@pytest.mark.parametrize(
    ("car", "tractor", "fps", "times"),
    [
        (45, 10, 51.3, (5.8, 9.7, 11.7, 19.5, 25.7)),
        (55, 25, 44.0, (6.8, 11.4, 13.6, 22.7, 30.0)),
        (65, 15, 73.3, (4.1, 6.8, 8.2, 13.6, 18.0)),
    ],
)
def test_closing_table(car, tractor, fps, times):
    assert sight.closing_speed(car * MPH, tractor * MPH) / FOOT == pytest.approx(fps, abs=0.05)
    for feet, seconds in zip((300, 500, 600, 1000, 1320), times, strict=True):
        found = sight.closing_time(feet * FOOT, car * MPH, tractor * MPH)
        assert found == pytest.approx(seconds, abs=0.05)


@pytest.mark.parametrize(
    ("mph", "grade", "feet"), [(30, -0.06, 214.5), (40, 0.03, 288.2), (50, 0.09, 374.1)]
)
def test_grade_table(mph, grade, feet):
    assert sight.printed_stopping_on_grade_ft(mph, grade) == pytest.approx(feet, abs=0.05)


def test_tractor_at_a_rail_crossing():
    time = road_gaps.rail_crossing_time(40 * FOOT, 5 * MPH, 1.0 * FOOT)
    assert time == pytest.approx(15.9, abs=0.05)
    assert 1.47 * 45 * time == pytest.approx(1052, abs=3)
    assert road_gaps.rail_crossing_time(60 * FOOT, 5 * MPH, 1.0 * FOOT) == pytest.approx(
        18.6, abs=0.05
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda: sight.closing_time(-1, 10, 5),
        lambda: sight.closing_speed(-1, 5),
        lambda: road_gaps.time_to_clear(10, 0, 1),
        lambda: road_gaps.gap_time("tractor", "left"),
        lambda: sight.decision_sight_distance(40, "dreaming"),
        lambda: sight.decision_sight_distance(42, "rural path change"),
        lambda: road_gaps.passing_sight_distance(25, "to 2004"),
        lambda: road_gaps.passing_sight_distance(40, "newest"),
        lambda: mirrors.sight_line_crossing(1, 0, 50, 40),
        lambda: mirrors.mirror_offset_needed(1, 100),
        lambda: mirrors.flat_mirror_field(0.1, 0, 60),
        lambda: electrical_load.lamp_current(-1),
        lambda: electrical_load.lamp_current(5, "glow worm"),
        lambda: electrical_load.lamp_current(5, "filament", 0),
        lambda: wiring.wire_resistance(13, 1),
        lambda: wiring.wire_resistance(20, 1, "AWG stranded 75 C"),
        lambda: wiring.area_needed(1, 1, 0),
        lambda: wiring.smallest_gauge(1, "BWG"),
        lambda: wiring.fuse_size(-1),
        lambda: electrical_load.light_left(2),
        lambda: wiring.longest_run(0, 12, 0.3),
        lambda: braking.towing_deceleration(3, 0, 100),
        lambda: braking.towing_deceleration(3, 100, -1),
        lambda: braking.mass_limit("by eye", 100),
    ],
)
def test_values_out_of_range_are_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()


# --- lines of sight -------------------------------------------------------------------------------


def test_a_low_implement_hides_nothing():
    assert not mirrors.hidden(1.2, 0.5, 1.5, 0.3, 0.9, 1.0, 1.0)
    assert mirrors.hidden(0.8, 0.5, 1.5, 0.3, 1.2, 1.0, 1.0)


def test_a_narrow_implement_leaves_wide_lamps_in_sight():
    assert not mirrors.hidden(0.8, 0.9, 1.5, 0.3, 2.0, 0.7, 0.7)
    assert mirrors.hidden(0.8, 0.5, 1.5, 0.3, 2.0, 0.7, 0.7)
    # Offset to the right it hides the right lamp and clears the left one.
    assert not mirrors.hidden(0.8, 0.6, 1.5, 0.3, 2.0, 0.4, 1.0)
    assert mirrors.hidden(0.8, -0.6, 1.5, 0.3, 2.0, 0.4, 1.0)


@given(
    st.floats(-1.2, 1.2), st.floats(0.3, 6), st.floats(0.6, 4), st.floats(0.3, 2), st.floats(0.3, 2)
)
def test_a_lamp_at_the_clear_height_is_seen(offset, behind, top, left, right):
    needed = mirrors.lowest_clear_height(offset, behind, top, left, right)
    assert not mirrors.hidden(needed + 1e-6, offset, behind, 0.0, top, left, right)
    if needed > 0.2:
        assert mirrors.hidden(needed - 0.01, offset, behind, 0.0, top, left, right)


@given(st.floats(0.95, 2.5), st.floats(0.5, 20))
def test_a_mirror_at_the_offset_needed_shows_the_car_at_200_ft(edge, behind):
    offset = mirrors.mirror_offset_needed(edge, behind)
    assert offset > edge
    seen = mirrors.hidden_road_behind(offset, edge, behind)
    assert seen == pytest.approx(mirrors.MIRROR_VIEW, rel=1e-6)
    assert mirrors.hidden_road_behind(edge, edge, behind) == math.inf


def test_a_narrow_load_needs_no_wide_mirror():
    assert mirrors.hidden_road_behind(0.5, 0.7, 3) == 3


# --- braking --------------------------------------------------------------------------------------


@given(st.floats(1, 12), st.floats(500, 5000), st.floats(0, 8000), st.floats(-0.1, 0.1))
def test_an_unbraked_load_never_shortens_a_stop(speed, tractor, towed, grade):
    alone = braking.towing_deceleration(3.55, tractor, 0, grade)
    loaded = braking.towing_deceleration(3.55, tractor, towed, grade)
    assert loaded <= alone
    assert braking.stopping_distance(speed, loaded) >= braking.stopping_distance(speed, alone)


@given(st.floats(1, 12), st.floats(0.3, 5), st.floats(0, 2.5))
def test_the_speed_that_stops_within_a_distance_does(speed, deceleration, reaction):
    distance = braking.stopping_distance(speed, deceleration, reaction)
    back = braking.speed_that_stops_within(distance, deceleration, reaction)
    assert back == pytest.approx(speed, rel=1e-9)


def test_equal_masses_example():
    deceleration = braking.towing_deceleration(3.55, 1000, 1000)
    assert deceleration == pytest.approx(1.775)
    assert braking.stopping_distance(25 * KMH, deceleration) == pytest.approx(17.3, abs=0.06)


def test_no_braking_left_on_a_steep_hill():
    assert braking.towing_deceleration(3.55, 1000, 3000, -0.12) < 0
    assert braking.stopping_distance(5, -0.1) == math.inf
    assert braking.speed_that_stops_within(20, -0.1, 1.0) == 0.0


def test_safety_chain():
    assert braking.chain_is_enough(2000, 2000)
    assert not braking.chain_is_enough(1999, 2000)


# --- traps ----------------------------------------------------------------------------------------


def test_trap_printed_closing_times_for_60_onto_15_mph():
    # A printed column has 52 s and 26 s; those fit a machine at 25 mph.
    half_mile, quarter = 804.672, 402.336
    assert sight.closing_time(half_mile, 60 * MPH, 15 * MPH) == pytest.approx(40.0, abs=0.05)
    assert sight.closing_time(quarter, 60 * MPH, 15 * MPH) == pytest.approx(20.0, abs=0.05)
    assert sight.closing_time(half_mile, 60 * MPH, 25 * MPH) == pytest.approx(51.4, abs=0.05)


def test_trap_three_forms_of_stopping_distance():
    printed = sight.printed_stopping_us_ft(65)
    exact = sight.stopping_sight_distance(65 * MPH) / FOOT
    textbook = 1.47 * 65 * 2.5 + 65**2 / (30 * 0.35)
    assert abs(printed - exact) < 3
    assert 1 < abs(printed - textbook) < 4
    assert sight.printed_stopping_metric_m(50) == pytest.approx(63.4, abs=0.05)


def test_trap_older_passing_tables_are_twice_as_long():
    new = road_gaps.passing_sight_distance(60)
    assert road_gaps.passing_sight_distance(60, "to 2004") / new > 1.9


def test_trap_unbraked_load_of_one_and_a_half_more_than_doubles_the_stop():
    speed = 20 * MPH
    alone = braking.stopping_distance(speed, 3.55, brake_delay=0)
    loaded = braking.stopping_distance(
        speed, braking.towing_deceleration(3.55, 1000, 1500), brake_delay=0
    )
    assert loaded / alone == pytest.approx(2.5)
    assert not braking.rule_covers("unbraked-32", 25 * MPH)
    assert braking.rule_covers("unbraked-32", 20 * MPH)


def test_trap_no_driver_reaction_in_the_approval_formula():
    speed = 30 * KMH
    bare = braking.approval_stopping_distance(speed, speed)
    with_driver = braking.stopping_distance(speed, 3.55, reaction_time=2.5)
    assert with_driver - bare == pytest.approx(speed * 2.5, abs=0.05)


def test_trap_gap_times_are_not_for_tractors():
    tractor = road_gaps.time_to_clear(74 * FOOT, 10 * MPH, 1.5 * FOOT)
    assert tractor > road_gaps.gap_time("combination truck", "left")
