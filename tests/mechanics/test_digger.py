"""Boom geometry and auger power: limits, identities and the traps of the subject."""

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from calc import si, tables
from calc.mechanics import auger, digger, pto

# The worked geometry: link ends from 0.25 to 0.80 m, no yoke rise.
WORKED = {"pivot_height": 0.75, "boom_length": 1.60, "yoke_distance": 0.75}


def test_worked_geometry_lowered_and_raised() -> None:
    low = digger.boom_at(0.25, **WORKED)
    high = digger.boom_at(0.80, **WORKED)
    assert math.degrees(low.angle) == pytest.approx(-41.8, abs=0.05)
    assert low.gearbox_height == pytest.approx(-0.317, abs=0.0005)
    assert low.gearbox_distance == pytest.approx(1.193, abs=0.0005)
    assert math.degrees(high.angle) == pytest.approx(3.8, abs=0.05)
    assert high.gearbox_height == pytest.approx(0.857, abs=0.0005)
    assert high.gearbox_distance == pytest.approx(1.596, abs=0.0005)
    # 0.55 m of lift gives 1.17 m of travel and 0.40 m of drift.
    assert high.gearbox_height - low.gearbox_height == pytest.approx(1.17, abs=0.005)
    assert high.gearbox_distance - low.gearbox_distance == pytest.approx(0.40, abs=0.005)


@given(
    height=st.floats(0.1, 1.2),
    pivot=st.floats(0.5, 1.0),
    length=st.floats(1.0, 2.0),
    share=st.floats(0.35, 1.0),
    rise=st.floats(0.0, 0.4),
)
def test_gearbox_stays_one_boom_length_from_the_pin(
    height: float, pivot: float, length: float, share: float, rise: float
) -> None:
    yoke = length * share
    if abs(height + rise - pivot) >= yoke:
        with pytest.raises(ValueError, match="can't reach"):
            digger.boom_at(height, pivot, length, yoke, rise)
        return
    point = digger.boom_at(height, pivot, length, yoke, rise)
    reached = math.hypot(point.gearbox_distance, point.gearbox_height - pivot)
    assert reached == pytest.approx(length)
    back = digger.link_height_for(point.gearbox_height, pivot, length, yoke, rise)
    assert back == pytest.approx(height, abs=1e-12)


@given(height=st.floats(0.15, 1.0), rise=st.floats(0.0, 0.3))
def test_boom_agrees_with_a_general_solver(height: float, rise: float) -> None:
    """The yoke's pin lies on the boom and stands the rise above the links: solved as equations."""
    pivot, length, yoke = 0.75, 1.6, 0.85

    def gaps(unknown: Sequence[float]) -> list[float]:
        along, up = unknown
        return [math.hypot(along, up - pivot) - yoke, up - (height + rise)]

    along, up = optimize.fsolve(gaps, [yoke, pivot])
    gearbox = (along * length / yoke, pivot + (up - pivot) * length / yoke)
    point = digger.boom_at(height, pivot, length, yoke, rise)
    assert (point.gearbox_distance, point.gearbox_height) == pytest.approx(gearbox, abs=1e-6)


@given(lift=st.floats(0.01, 0.6))
def test_travel_ratio_is_boom_over_yoke(lift: float) -> None:
    low = digger.boom_at(0.2, 0.75, 1.6, 0.8, 0.2)
    high = digger.boom_at(0.2 + lift, 0.75, 1.6, 0.8, 0.2)
    assert high.gearbox_height - low.gearbox_height == pytest.approx(lift * 1.6 / 0.8)


def test_depth_is_the_least_of_its_three_limits() -> None:
    low = digger.boom_at(0.25, 0.75, 1.6, 0.75, 0.2)
    high = digger.boom_at(0.85, 0.75, 1.6, 0.75, 0.2)
    # The links stop first: the gearbox can't come down to the clearance asked for.
    by_links = digger.reach(low, high, 0.75, 1.6, 1.0, 0.05)
    assert by_links.depth == pytest.approx(1.0 - low.gearbox_height)
    # The housing stops first.
    by_housing = digger.reach(low, high, 0.75, 1.6, 1.0, 0.30)
    assert by_housing.depth == pytest.approx(0.70)
    # The auger is longer than the links can raise it: the travel counts.
    by_travel = digger.reach(low, high, 0.75, 1.6, 1.8, 0.30)
    assert by_travel.depth == pytest.approx(high.gearbox_height - 0.30)
    assert by_travel.tip_clearance < 0.0


def test_trap_a_small_tractor_may_not_lift_the_point_off_the_ground() -> None:
    low, high = digger.boom_at(0.25, **WORKED), digger.boom_at(0.80, **WORKED)
    assert digger.reach(low, high, 0.75, 1.60, 0.95, 0.2).tip_clearance < 0.0


def test_drift_is_nil_about_a_level_boom() -> None:
    low = digger.boom_at(0.45, 0.75, 1.6, 0.75, 0.0)
    high = digger.boom_at(1.05, 0.75, 1.6, 0.75, 0.0)
    found = digger.reach(low, high, 0.75, 1.6, 1.39, 0.11)
    assert found.drift == pytest.approx(0.0, abs=1e-9)
    assert found.lean == pytest.approx(0.0, abs=1e-9)


@given(power=st.floats(500.0, 40_000.0), soil=st.sampled_from(["sand", "loam", "clay"]))
def test_widest_auger_uses_just_the_power(power: float, soil: str) -> None:
    factor = auger.soil_factor(soil)
    widest = auger.widest_auger(power, factor)
    assert auger.auger_power(widest, factor) == pytest.approx(power)


def test_trap_power_grows_with_the_square_of_the_diameter() -> None:
    six = auger.auger_power(6 * si.INCH, 1.3)
    twelve = auger.auger_power(12 * si.INCH, 1.3)
    assert twelve / six == pytest.approx(4.0)
    assert twelve / six > 3.9  # not the 2.0 of a straight rule


def test_common_jobs_need_the_customary_power() -> None:
    powers = tables.by_key("digger/digger_power", "key")
    loam = auger.auger_power(12 * si.INCH, auger.soil_factor("loam")) / si.HP
    low, high = float(powers["typical_low"]["hp"]), float(powers["typical_high"]["hp"])
    assert low <= loam <= high
    small = auger.auger_power(9 * si.INCH, auger.soil_factor("loam")) / si.HP
    assert small <= float(powers["light"]["hp"])


def test_trap_low_engine_speed_leaves_less_than_full_power() -> None:
    assert auger.power_at_speed(25.0, 1200.0, 2550.0) == pytest.approx(11.76, abs=0.005)
    assert auger.power_at_speed(25.0, 3000.0, 2550.0) == 25.0


def test_worked_auger_torque() -> None:
    shaft = pto.torque(25 * si.HP, 540)
    assert shaft / 1.3558179483314004 == pytest.approx(243, abs=0.5)
    assert auger.auger_torque(shaft, 3.0) / 1.3558179483314004 == pytest.approx(693, abs=0.5)


def test_trap_hydraulic_torque_and_speed_hang_together() -> None:
    flow, pressure, displacement = 8e-4, 140e5, 4e-4
    speed, torque = auger.hydraulic_motor(flow, pressure, displacement, 0.95, 0.9)
    output = 2.0 * math.pi * speed * torque
    assert output == pytest.approx(flow * pressure * 0.95 * 0.9)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: digger.boom_at(0.3, 0.75, 0.0, 0.75), "longer than zero"),
        (lambda: digger.boom_at(0.3, 0.75, 1.6, 1.7), "between its two ends"),
        (lambda: auger.power_scaled(1.0, 0.0, 0.3), "above zero"),
        (lambda: auger.auger_torque(1.0, 0.0), "gear ratio"),
        (lambda: auger.hydraulic_motor(1.0, 1.0, 0.0), "displacement"),
        (lambda: auger.hole_volume(-0.1, 1.0), "below zero"),
        (lambda: auger.power_at_speed(1.0, 1.0, 0.0), "rated speed"),
    ],
)
def test_bad_values_say_what_is_wrong(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
