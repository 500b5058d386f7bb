"""Lawn work: identities, limits and traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import field_work, turf

PSI = 6894.757293168361
INCH = 0.0254
ACRE = 4046.8564224


def test_worked_tine() -> None:
    rate = turf.torsion_rate(0.004, 0.025, 5.0)
    assert rate == pytest.approx(6.62, abs=0.005)
    assert rate / 0.150**2 / 1000.0 == pytest.approx(0.294, abs=0.0005)  # N/mm at the tip
    assert turf.tine_force(rate, 0.020, 0.150) == pytest.approx(5.9, abs=0.05)


@given(
    wire=st.floats(0.002, 0.010),
    ratio=st.floats(3.0, 12.0),
    turns=st.floats(1.0, 12.0),
    leg=st.floats(0.05, 0.4),
    force=st.floats(0.5, 100.0),
)
def test_force_and_deflection_are_inverse(
    wire: float, ratio: float, turns: float, leg: float, force: float
) -> None:
    rate = turf.torsion_rate(wire, ratio * wire, turns)
    assert turf.tine_force(rate, turf.tine_deflection(rate, force, leg), leg) == pytest.approx(
        force
    )


def test_wire_counts_with_its_fourth_power() -> None:
    assert turf.torsion_rate(0.008, 0.025, 5.0) / turf.torsion_rate(0.004, 0.025, 5.0) == (
        pytest.approx(16.0)
    )


def test_springs_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="thinner"):
        turf.torsion_rate(0.03, 0.025, 5.0)
    with pytest.raises(ValueError, match="longer"):
        turf.tine_force(6.0, 0.02, 0.0)


@given(pressure=st.floats(20e3, 400e3))
def test_pressure_rules_and_their_inverse(pressure: float) -> None:
    for row in tables.rows("lawn/contact_pressure_rules"):
        inflation = turf.inflation_for(pressure, row["key"])
        assert turf.mean_pressure(inflation, row["key"]) == pytest.approx(pressure)


@pytest.mark.parametrize(
    ("psi", "within"),
    [(12.0, True), (20.0, False)],
)
def test_common_pressures_against_moist_turf(psi: float, within: bool) -> None:
    for row in tables.rows("lawn/contact_pressure_rules"):
        found = turf.mean_pressure(psi * PSI, row["key"])
        assert (found <= turf.turf_limit("moist")) is within


def test_turf_limits_fall_as_the_soil_gets_wetter() -> None:
    limits = [turf.turf_limit(state) for state in ("dry", "moist", "wet")]
    assert limits == sorted(limits, reverse=True)


@given(
    width=st.floats(0.1, 0.6),
    diameter=st.floats(0.5, 1.6),
    share=st.floats(0.3, 0.7),
    a=st.floats(0.05, 0.30),
    b=st.floats(0.05, 0.30),
)
def test_a_flatter_tire_never_has_a_smaller_print(
    width: float, diameter: float, share: float, a: float, b: float
) -> None:
    low, high = sorted((a, b))
    rim = share * diameter
    assert turf.print_area(width, diameter, rim, low) <= turf.print_area(width, diameter, rim, high)


def test_prints_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="rim"):
        turf.print_area(0.2, 0.5, 0.6)
    with pytest.raises(ValueError, match="Flattening"):
        turf.print_area(0.2, 0.5, 0.3, 0.5)
    with pytest.raises(ValueError, match="spacing"):
        turf.holes_per_area(0.0, 0.1)
    with pytest.raises(ValueError, match="above 0"):
        turf.passes_for(0.0, 1.0)


@given(target=st.floats(1.0, 400.0), each=st.floats(5.0, 200.0))
def test_passes_reach_the_target_and_one_less_does_not(target: float, each: float) -> None:
    passes = turf.passes_for(target, each)
    assert passes * each >= target * (1.0 - 1e-6)
    assert passes == 1 or (passes - 1) * each < target


def test_worked_time() -> None:
    time = field_work.work_time(ACRE, 48 * INCH, 3.0 * 0.44704, 0.80, passes=2.0)
    assert time / 3600.0 == pytest.approx(1.72, abs=0.005)


def test_trap_percent_and_degrees() -> None:
    assert math.tan(math.radians(15.0)) == pytest.approx(0.268, abs=0.0005)
    assert math.tan(math.radians(10.0)) == pytest.approx(0.176, abs=0.0005)


def test_trap_heads_count_where_they_stand_today() -> None:
    # A head set flush that has heaved by half an inch is struck by springs set to touch;
    # one that has sunk by three quarters of an inch clears them, but not an aerator.
    springs = tables.by_key("lawn/lawn_tools", "key")["spring-tine"]
    core = tables.by_key("lawn/lawn_tools", "key")["core"]
    bounce = float(springs["allowance_mm"]) / 1000.0
    assert turf.head_clearance(-0.5 * INCH, 0.0, bounce) < 0.0
    assert turf.head_clearance(0.75 * INCH, 0.0, bounce) > 0.0
    deep = float(core["deep_mm"]) / 1000.0
    assert turf.head_clearance(0.75 * INCH, deep, float(core["allowance_mm"]) / 1000.0) < 0.0


def test_trap_published_head_heights_leave_it_open() -> None:
    # The published heights run from proud to sunk, so an unknown head is a flagged head.
    rows = tables.rows("lawn/head_heights")
    bounce = float(tables.by_key("lawn/lawn_tools", "key")["spring-tine"]["allowance_mm"]) / 1000.0
    low = min(float(row["low_mm"]) for row in rows) / 1000.0
    high = max(float(row["high_mm"]) for row in rows) / 1000.0
    assert turf.head_clearance(low, 0.0, bounce) < 0.0 <= turf.head_clearance(high, 0.0, bounce)


def test_trap_thatch_is_the_brown_layer() -> None:
    # 3 in of grass over a thin brown layer needs no raking at all.
    assert turf.thatch_passes(0.006) == 0
    with pytest.raises(ValueError, match="less than 0"):
        turf.thatch_passes(-0.001)
