"""Lift at a distance: own examples, properties, and the traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import lift, typical

distances = st.floats(0.0, 1.8)
pivots = st.floats(0.3, 5.0)
masses = st.floats(1.0, 5000.0)


@pytest.mark.parametrize(
    ("pivot", "factors"),
    [
        (0.800, (1.28, 0.88, 0.78, 0.71, 0.61)),
        (0.940, (1.25, 0.89, 0.80, 0.72, 0.64)),
        (1.500, (1.17, 0.92, 0.84, 0.78, 0.70)),
        (2.000, (1.13, 0.93, 0.87, 0.82, 0.75)),
    ],
)
def test_factors_by_distance(pivot, factors):
    for distance, factor in zip((0.3, 0.8, 1.0, 1.2, 1.5), factors, strict=True):
        found = lift.capacity_at(1.0, 0.610, distance, pivot, inside_credit=True)
        assert found == pytest.approx(factor, abs=0.005)


@given(masses, distances, distances, pivots)
def test_felt_mass_and_capacity_are_two_sides(mass, distance, rated, pivot):
    felt = lift.effective_mass(mass, distance, rated, pivot)
    assert lift.capacity_at(felt, rated, distance, pivot) == pytest.approx(mass)


@given(masses, distances, distances, distances, pivots)
def test_capacity_never_rises_with_distance(capacity, rated, near, far, pivot):
    near, far = sorted((near, far))
    assert lift.capacity_at(capacity, rated, far, pivot) <= lift.capacity_at(
        capacity, rated, near, pivot
    ) * (1 + 1e-12)


@given(masses, masses)
def test_two_ratings_are_reproduced(a, b):
    far, ball = sorted((a, b))
    if ball - far < 1e-6 * ball:
        return
    pivot = lift.pivot_from_two_ratings(ball, far)
    assert lift.capacity_at(ball, 0.0, 0.610, pivot) == pytest.approx(far)
    assert lift.capacity_at(far, 0.610, 0.0, pivot, inside_credit=True) == pytest.approx(ball)


@given(masses, masses, distances, pivots)
def test_greatest_distance_is_where_the_capacity_is_used_up(rated_mass, mass, rated, pivot):
    reach = lift.greatest_distance(rated_mass, rated, mass, pivot)
    if mass > rated_mass:
        assert reach == 0.0
    elif reach < lift.GREATEST_DISTANCE:
        assert lift.capacity_at(rated_mass, rated, reach, pivot) == pytest.approx(mass)
    else:
        assert lift.capacity_at(rated_mass, rated, reach, pivot) >= mass * (1 - 1e-12)


def test_parallel_links_keep_their_capacity():
    assert lift.pivot_from_two_ratings(500.0, 500.0) == math.inf
    assert lift.capacity_at(500.0, 0.610, 1.5, math.inf) == 500.0
    assert lift.greatest_distance(500.0, 0.610, 400.0, math.inf) == lift.GREATEST_DISTANCE


def test_coupler_example():
    # A 100 mm setback takes 6 % before the coupler's own mass is counted.
    bare = lift.capacity_with_coupler(1000.0, 0.610, 0.610, 0.940, 0.100, 0.0)
    assert bare / 1000.0 == pytest.approx(1550 / 1650, abs=1e-9)
    with_mass = lift.capacity_with_coupler(1000.0, 0.610, 0.610, 0.940, 0.100, 40.0)
    assert bare - with_mass == pytest.approx(40.0 * (0.940 + 0.050) / (0.940 + 0.710))
    assert lift.capacity_with_coupler(40.0, 0.610, 0.610, 0.940, 0.100, 80.0) == 0.0


def test_trap_a_rating_without_its_distance_is_refused():
    with pytest.raises(ValueError, match="without its distance"):
        lift.rating_distance("")
    with pytest.raises(ValueError, match="without its distance"):
        lift.rating_distance("unstated")


def test_trap_ratings_at_different_distances_are_not_compared():
    # 450 lb rated at 12 in lifts far less at 24 in, and at the ball ends still less than it says.
    capacity = 450.0
    at_24 = lift.capacity_at(capacity, lift.rating_distance("305"), 0.610, 0.75)
    assert at_24 < 0.85 * capacity
    from_ball_ends = lift.capacity_at(capacity, lift.rating_distance("0"), 0.610, 0.75)
    assert from_ball_ends < at_24


def test_trap_no_credit_inside_the_rating_point():
    assert lift.capacity_at(500.0, 0.610, 0.300, 0.800) == 500.0
    assert lift.effective_mass(400.0, 0.300, 0.610, 0.800) == 400.0


def test_trap_plan_view_convergence_is_not_the_pivot():
    # The plan-view distance (1.7 to 2.4 m for Category 1) would promise a tenth more at 1 m
    # than the length of the lower links, which is what a hitch without two ratings gets.
    low, high = typical.tractor("compact_light")["link_length"]
    assert high < 1.0
    honest = lift.capacity_at(500.0, 0.610, 1.0, (low + high) / 2)
    assert lift.capacity_at(500.0, 0.610, 1.0, 2.0) > 1.09 * honest


def test_trap_swapped_ratings_are_refused():
    with pytest.raises(ValueError, match="swapped"):
        lift.pivot_from_two_ratings(400.0, 500.0)


def test_trap_drawbar_power_is_in_the_least_lift_rule():
    # 25 kW at the drawbar asks for 7.75 kN; the same tractor's engine power would ask for more.
    assert lift.minimum_lift_force(25000.0) == pytest.approx(7750.0)
    assert lift.minimum_lift_force(25000.0 / 0.72) > 10000.0


def test_trap_loader_ratings_are_four_numbers():
    arm = lift.loader_arm_length(2330.0, 1705.0, 0.5)
    assert arm == pytest.approx(1.364, abs=0.0005)
    found = [lift.loader_capacity_at(2330.0, arm, x) for x in (0.610, 1.000, 1.220)]
    assert found == pytest.approx([1610, 1344, 1230], abs=0.5)


@pytest.mark.parametrize(
    "call",
    [
        lambda: lift.capacity_at(0.0, 0.610, 0.5, 0.8),
        lambda: lift.capacity_at(500.0, -0.1, 0.5, 0.8),
        lambda: lift.capacity_at(500.0, 0.610, -0.5, 0.8),
        lambda: lift.capacity_at(500.0, 0.610, 0.5, 0.0),
        lambda: lift.effective_mass(-1.0, 0.5, 0.610, 0.8),
        lambda: lift.greatest_distance(500.0, 0.610, 0.0, 0.8),
        lambda: lift.pivot_from_two_ratings(500.0, 0.0),
        lambda: lift.minimum_lift_force(0.0),
        lambda: lift.loader_arm_length(500.0, 600.0, 0.5),
        lambda: lift.loader_capacity_at(500.0, 0.0, 0.5),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()


def test_typical_implement_widths():
    exact = typical.implement("rotary_cutter", 1.5)
    assert exact["mass"] == (230.0, 330.0)
    between = typical.implement("rotary_cutter", 1.35)
    assert between["mass"] == pytest.approx((205.0, 290.0))
    wide = typical.implement("rotary_cutter", 3.6)
    assert wide["mass"] == pytest.approx((600.0, 900.0))
    assert typical.implement("rotary_cutter")["mass"] == (180.0, 450.0)
    assert typical.implement("chipper", 5.0)["mass"] == (200.0, 350.0)
    with pytest.raises(LookupError):
        typical.implement("hovercraft")


def test_typical_ranges_run_upward():
    for kind, _ in typical.implement_kinds():
        if typical.mount(kind) == "none":
            continue
        mass, distance = typical.implement(kind)["mass"], typical.implement(kind)["cg_distance"]
        assert 0 < mass[0] < mass[1]
        if typical.mount(kind) not in ("towed", "mid"):
            assert 0 < distance[0] < distance[1]
        assert typical.implement_source(kind).startswith("hitch/")
    for key, _ in typical.tractor_kinds():
        for low, high in typical.tractor(key).values():
            assert 0 < low < high
    with pytest.raises(LookupError):
        typical.tractor("dragster")


def test_trap_a_spreader_or_sprayer_counts_full():
    # Empty masses are 50 to 110 kg and 60 to 120 kg.
    assert typical.implement("spreader")["mass"][0] > 110
    assert typical.implement("sprayer")["mass"][0] > 120
