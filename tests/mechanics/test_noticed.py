"""Values and bounds that a small change of the code once passed every other test with.

Each value is got another way: by stepping through the motion, by vectors, by the definition.
"""

import math

import numpy as np
import pytest

from calc import si
from calc.mechanics import (
    axle_loads,
    ballast,
    braking,
    carried_mass,
    digger,
    driveline,
    electrical_load,
    hitch_fit,
    hydraulics,
    lift,
    overload,
    road_gaps,
    sight,
)

INF = math.inf


def stepped_gap(traffic, own, acceleration, reaction, deceleration, step=1e-4):
    """The most that a car gains on a machine that moves out, by small steps of time."""
    time = gained = most = 0.0
    car, machine = traffic, 0.0
    while car > machine:
        gained += (car - machine) * step
        most = max(most, gained)
        time += step
        machine = min(own, acceleration * time)
        car = traffic - deceleration * max(time - reaction, 0.0)
    return most


@pytest.mark.parametrize(
    "given",
    [
        (25.0, 8.0, 0.5, 2.5, 3.4),  # the speeds meet while the machine still speeds up
        (25.0, 4.0, 1.5, 2.5, 3.4),  # they meet when it has its own speed
        (12.0, 6.0, 3.0, 2.0, 3.0),
        (6.0, 5.0, 6.0, 2.5, 3.4),  # up to speed before the driver reacts
    ],
)
def test_joining_gap_by_steps(given):
    assert road_gaps.joining_gap(*given) == pytest.approx(stepped_gap(*given), rel=2e-3)


def test_no_gap_to_traffic_that_is_no_faster():
    assert road_gaps.joining_gap(8.0, 8.0, 0.5) == 0.0
    assert road_gaps.joining_gap(8.1, 8.0, 0.5) > 0.0


def test_needed_deceleration_stops_in_the_distance():
    speed, distance, reaction, delay = 9.0, 30.0, 1.5, 0.5
    found = braking.needed_deceleration(speed, distance, reaction, delay)
    assert speed * (reaction + delay) + speed**2 / (2 * found) == pytest.approx(distance)
    assert braking.needed_deceleration(2.0, 4.5, 1.5, 0.5) == pytest.approx(4.0)  # half a meter
    for gone in (18.0, 17.9):
        assert braking.needed_deceleration(speed, gone, reaction, delay) == INF


def test_the_falling_gearbox_drifts_by_its_arc():
    pivot, boom, auger = 0.75, 1.6, 1.0
    low = digger.BoomPoint(0.25, 0.0, 0.3, 0.0)
    high = digger.BoomPoint(1.4, 0.0, 0.8, 0.0)
    found = digger.reach(low, high, pivot, boom, auger, 0.2)
    ends = [boom * math.cos(math.asin((height - pivot) / boom)) for height in (0.8, 0.3)]
    assert found.drift == pytest.approx(abs(ends[0] - ends[1]))
    # A pin higher than the boom is long: at the bottom the boom hangs straight down.
    deep = digger.reach(digger.BoomPoint(0.0, 0.0, 0.0, 0.0), high, 2.0, boom, auger, 0.2)
    assert deep.drift == pytest.approx(boom * math.cos(math.asin((0.8 - 2.0) / boom)))


@pytest.mark.parametrize(("length", "clearance"), [(0.0, 0.1), (1.0, -0.01)])
def test_reach_refuses_each_bound_alone(length, clearance):
    low, high = digger.BoomPoint(0.2, 0.0, 0.3, 0.0), digger.BoomPoint(1.4, 0.0, 0.8, 0.0)
    with pytest.raises(ValueError):
        digger.reach(low, high, 0.75, 1.6, length, clearance)
    assert digger.reach(low, high, 0.75, 1.6, 1.0, 0.0).depth > 0.0


@pytest.mark.parametrize("tilt", [-20.0, 0.0, 12.0, 40.0])
@pytest.mark.parametrize(("offset", "rise"), [(0.0, 0.2), (0.3, -0.1), (0.25, 0.35)])
def test_joint_angles_by_vectors(tilt, offset, rise):
    length = 1.1
    along = math.sqrt(length**2 - offset**2 - rise**2)
    shaft = np.array([along, offset, rise]) / length
    turned = math.radians(tilt)
    behind = np.array([math.cos(turned), 0.0, math.sin(turned)])
    expected = [math.acos(shaft @ np.array([1.0, 0.0, 0.0])), math.acos(shaft @ behind)]
    assert driveline.joint_angles(length, rise, offset, turned) == pytest.approx(expected)


def test_lamps_by_their_rule():
    """12 V for the stated power; with voltage to the power 0.55; flashers on half the time."""
    assert electrical_load.lamp_current(24.0, "filament", 6.0) == pytest.approx(2.0 * 0.5**0.55)
    assert electrical_load.lamp_current(24.0, "constant power", 0.5) == 48.0
    assert electrical_load.CHARGING_VOLTAGE == 13.8
    assert electrical_load.FLASHER_DUTY == 0.5
    assert [electrical_load.light_left(share) for share in (0.0, 1.0)] == [1.0, 0.0]
    for behavior in ("filaments", "a lamp", ""):
        with pytest.raises(ValueError):
            electrical_load.lamp_current(24.0, behavior)


def test_constants_by_definition():
    assert pytest.approx(0.45359237 * 9.80665 / 0.0254**2, rel=1e-12) == si.PSI
    assert sight.GRAVITY == 9.80665
    assert lift.GREATEST_DISTANCE == 1.8


def test_nothing_in_front_is_nothing():
    assert axle_loads.gross_mass(1000.0, 200.0) == 1200.0
    given = (400.0, 1.75, 0.8, 0.7, 300.0)
    assert axle_loads.front_axle_load(*given) == axle_loads.front_axle_load(*given, 0.0, 0.0)
    assert axle_loads.front_axle_load(*given, 0.0, 9.0) == axle_loads.front_axle_load(*given)
    # 100 kg on the front axle itself is 100 kg more on it.
    more = axle_loads.front_axle_load(*given, 100.0) - axle_loads.front_axle_load(*given)
    assert more == pytest.approx(100.0)
    rise = axle_loads.rear_axle_rise(1.75, 0.8, 0.7, 300.0, 100.0)
    assert rise == pytest.approx(axle_loads.rear_axle_rise(1.75, 0.8, 0.7, 300.0))
    bare = axle_loads.rear_axle_rise(1.75, 0.8, 0.7, 300.0, front_ahead=0.5)
    assert bare == axle_loads.rear_axle_rise(1.75, 0.8, 0.7, 300.0)


def test_an_implement_too_heavy_at_the_hitch_has_no_distance():
    assert carried_mass.greatest_cg_distance(1500.0, 400.0, 1.75, 0.8, 5000.0) == 0.0
    with pytest.raises(ValueError):
        carried_mass.greatest_cg_distance(1500.0, 400.0, 1.75, 0.8, -1.0)
    # 0.875 kg 1.4 m behind an axle 1.75 m back lifts 0.7 kg, of two tenths to spare a kilogram.
    found = carried_mass.tractor_mass_needed(0.40, 1.75, 0.8, 0.6, 0.875)
    assert found == pytest.approx(0.7 / (0.40 - 0.20))


BAD = [
    (ballast.wheel_slip, (0.0, 1.0)),
    (ballast.wheel_slip, (-0.5, 1.0)),
    (ballast.target_mass, (0.0, 100.0)),
    (braking.shared_deceleration, (3.0, -1.0, 10.0)),
    (driveline.fit, (-0.1, 0.85, 0.9, 1.15)),
    (driveline.fit, (0.56, 0.85, -0.5, 1.15)),
    (electrical_load.lamp_current, (55.0, "filament", 0.0)),
    (electrical_load.light_left, (-0.01,)),
    (electrical_load.light_left, (-1.0,)),
    (hitch_fit.mast_gap, (0.0, 0.5)),
    (hitch_fit.mast_gap, (0.5, 0.0)),
    (hitch_fit.mast_gap, (INF, 0.5)),
    (hitch_fit.mast_gap, (-INF, 0.5)),
    (hydraulics.fluid_power, (1.0, -1.0)),
    (lift.minimum_lift_force, (0.0,)),
    (hydraulics.fluid_power, (-1.0, 1.0)),
    (hydraulics.cylinder_force, (-1.0, 0.1)),
    (lift.greatest_distance, (450.0, -0.5, 400.0, 0.8)),
    (lift.greatest_distance, (450.0, 0.6, 400.0, 0.0)),
    (lift.loader_capacity_at, (0.0, 1.0, 1.0)),
    (lift.loader_capacity_at, (1.0, 0.0, 1.0)),
    (overload.shank_area, (-0.01,)),
    (overload.shank_area, (0.0,)),
    (overload.friction_clutch_torque, (0.0, 5000.0, 4, 0.075)),
    (overload.friction_clutch_torque, (-0.5, 5000.0, 4, 0.075)),
    (overload.friction_clutch_torque, (0.3, 5000.0, 4, 0.0)),
    (overload.friction_clutch_torque, (0.3, 5000.0, 4, -0.5)),
]
FINE = [
    (ballast.target_mass, (0.5, 100.0), 50.0),
    (hydraulics.fluid_power, (1.0, 0.0), 0.0),
    (hydraulics.cylinder_force, (0.0, 0.1), 0.0),
    (lift.loader_capacity_at, (0.5, 0.5, 0.0), 0.5),
    (overload.friction_clutch_torque, (0.5, 10.0, 1, 0.5), 2.5),
    (electrical_load.lamp_current, (6.0, "constant power", 1.0), 6.0),
]


@pytest.mark.parametrize(("function", "given"), BAD)
def test_what_cannot_be_is_refused(function, given):
    with pytest.raises(ValueError):
        function(*given)


@pytest.mark.parametrize(("function", "given", "expected"), FINE)
def test_little_is_not_nothing(function, given, expected):
    assert function(*given) == pytest.approx(expected)


def test_a_small_tractor_must_lift_something():
    assert lift.minimum_lift_force(0.5) > 0.0


def test_bolts_at_both_bounds_are_within_them():
    found = overload.bolts_between(500.0, 800.0, 2, 0.0174625)
    least, most = found[0].torque, found[-1].torque
    again = overload.bolts_between(least, most, 2, 0.0174625)
    assert [bolt.torque for bolt in again] == [bolt.torque for bolt in found]
