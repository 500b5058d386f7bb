"""Drives, fuel, traction, work rate and pay-back: identities, limits and traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import field_work, fuel, ownership, pto_power, traction, transmission

HP = 745.699872
GALLON = 3.785411784e-3
HOUR = 3600.0

loads = st.floats(0.2, 1.0)
powers = st.floats(5e3, 80e3)
slips = st.floats(0.0, 0.6)
mobilities = st.floats(8.0, 120.0)


# --- drives ---------------------------------------------------------------------------------


@given(full=powers, share=st.floats(0.05, 1.0), efficiency=st.floats(0.5, 0.95))
def test_axle_power_and_its_inverse_agree(full: float, share: float, efficiency: float) -> None:
    drag = 0.3 * (1.0 - efficiency) * full
    slope = transmission.drive_line(efficiency, drag, full)
    axle = transmission.axle_power(share * full, slope, drag)
    if axle > 0.0:
        assert transmission.input_power(axle, slope, drag) == pytest.approx(share * full)


@given(full=powers, efficiency=st.floats(0.5, 0.95))
def test_drive_line_passes_through_full_load(full: float, efficiency: float) -> None:
    drag = 0.5 * (1.0 - efficiency) * full
    slope = transmission.drive_line(efficiency, drag, full)
    assert transmission.axle_power(full, slope, drag) == pytest.approx(efficiency * full)


def test_drag_beyond_the_whole_loss_is_refused() -> None:
    with pytest.raises(ValueError, match="whole loss"):
        transmission.drive_line(0.92, 2000.0, 20e3)


def test_efficiencies_must_be_real() -> None:
    with pytest.raises(ValueError, match="above 0"):
        transmission.hydrostatic_efficiency(0.0, 0.9)
    with pytest.raises(ValueError, match="Tractive"):
        transmission.efficiency_from_test(1.0, 1.0, 1.2)
    with pytest.raises(LookupError):
        transmission.full_load_efficiency("belt", "drawbar tests")


def test_pump_and_motor_reach_the_kept_component_figure() -> None:
    found = transmission.hydrostatic_efficiency(0.88, 0.88, 0.96)
    kept = transmission.full_load_efficiency("hydrostatic", "component figures")
    assert kept == pytest.approx(found, abs=0.005)


def test_hydrostatic_pulls_a_tenth_less_at_full_load() -> None:
    # 0.76 / 0.86 = 0.89 by the paired tests.
    ratio = transmission.full_load_efficiency(
        "hydrostatic", "drawbar tests"
    ) / transmission.full_load_efficiency("gear", "drawbar tests")
    assert ratio == pytest.approx(0.89, abs=0.005)


def test_part_load_efficiency_falls_into_the_remembered_band() -> None:
    # A hydrostatic drive falls to 0.5 to 0.6 when it carries little.
    full, drag = 18.6e3, 1.1e3
    slope = transmission.drive_line(0.82, drag, full)
    share = transmission.axle_power(0.2 * full, slope, drag) / (0.2 * full)
    assert 0.5 <= share <= 0.62


def test_trap_hydrostatic_loss_lands_on_the_wheels_not_on_the_shaft() -> None:
    # Standing at neutral the shaft loses only the pump's drag, not the drive's 18 %.
    low, high = pto_power.pump_drag("hydrostatic")
    engine = 25.0 * HP
    lost_at_wheels = (1.0 - transmission.full_load_efficiency("hydrostatic", "drawbar tests")) * (
        engine
    )
    assert 0.0 < low < high < 0.5 * lost_at_wheels


@given(distance=st.floats(0.0, 200.0), speed=st.floats(0.3, 8.0), acceleration=st.floats(0.2, 3.0))
def test_leg_time_never_beats_steady_speed(
    distance: float, speed: float, acceleration: float
) -> None:
    time = transmission.leg_time(distance, speed, acceleration)
    assert time >= distance / speed - 1e-9


def test_leg_time_is_continuous_where_the_speed_is_just_reached() -> None:
    before = transmission.leg_time(4.0 - 1e-9, 2.0, 1.0)
    after = transmission.leg_time(4.0, 2.0, 1.0)
    assert before == pytest.approx(after, abs=1e-6)


def test_loader_cycle_counts_four_legs_and_four_reversals() -> None:
    time = transmission.loader_cycle_time(10.0, 5.0, 2.0, 1.0, 3.0, 15.0)
    assert time == pytest.approx(2 * 7.0 + 2 * 4.5 + 4 * 3.0 + 15.0)
    with pytest.raises(ValueError, match="above 0"):
        transmission.leg_time(10.0, 0.0, 1.0)


def test_reversal_times_are_ordered() -> None:
    for row in tables.rows("power/reversal_times"):
        assert float(row["low_s"]) < float(row["typical_s"]) < float(row["high_s"])


# --- fuel -----------------------------------------------------------------------------------


def test_fuel_table_of_both_equations() -> None:
    # Worked from the two equations by hand: X, L/kWh delivered, L/h per rated kW.
    for load, older, later in (
        (0.25, 0.7317, 0.151),
        (0.50, 0.5040, 0.206),
        (0.75, 0.4184, 0.261),
        (1.00, 0.4229, 0.316),
    ):
        found_older = fuel.older_diesel_rate(1000.0, load) / load * 1000.0 * HOUR
        found_later = fuel.diesel_rate(1000.0, load) * 1000.0 * HOUR
        assert found_older == pytest.approx(older, abs=0.00005)
        assert found_later == pytest.approx(later, abs=0.0005)


def test_throttled_back() -> None:
    # 35 PTO hp at half load: 1.42 gal/h, and 1.24 at 80 % of the engine speed.
    full = fuel.diesel_rate(35.0 * HP, 0.5)
    throttled = fuel.diesel_rate(35.0 * HP, 0.5, 0.8)
    assert full / GALLON * HOUR == pytest.approx(1.42, abs=0.005)
    assert throttled / full == pytest.approx(0.870, abs=0.0005)
    assert throttled / GALLON * HOUR == pytest.approx(1.24, abs=0.005)


@given(load=loads, power=powers)
def test_later_equation_is_below_the_older(load: float, power: float) -> None:
    later, older = fuel.diesel_rate(power, load), fuel.older_diesel_rate(power, load)
    assert 0.70 < later / older < 0.90


@given(a=loads, b=loads)
def test_more_load_never_burns_less(a: float, b: float) -> None:
    low, high = sorted((a, b))
    for rate in (fuel.diesel_rate, fuel.older_diesel_rate, fuel.gasoline_rate, fuel.propane_rate):
        assert rate(20e3, low) <= rate(20e3, high) * (1.0 + 1e-12)


def test_gasoline_and_propane_burn_more_than_diesel() -> None:
    diesel = fuel.older_diesel_rate(20e3, 0.7)
    assert diesel < fuel.gasoline_rate(20e3, 0.7) < fuel.propane_rate(20e3, 0.7)


def test_engine_oil_is_a_trickle() -> None:
    assert fuel.engine_oil_rate(25e3) * 1000.0 * HOUR == pytest.approx(0.0364, abs=0.0001)


@pytest.mark.parametrize("load", [0.1, 1.01, float("nan")])
def test_trap_no_extrapolation_beyond_rated_load(load: float) -> None:
    with pytest.raises(ValueError, match=r"0\.2 to 1"):
        fuel.diesel_rate(20e3, load)


def test_trap_later_equation_is_per_rated_power() -> None:
    # Multiplying by the load again would halve the fuel at half load.
    half, full = fuel.diesel_rate(20e3, 0.5), fuel.diesel_rate(20e3, 1.0)
    assert half / full == pytest.approx(0.206 / 0.316, abs=0.001)


def test_trap_us_coefficients_nearly_cancel() -> None:
    # The two-figure US form is most of a percent off at full load: compute with the SI form.
    us = 0.52 + 0.77 - 0.04 * math.sqrt(738.0 + 173.0)
    ours = fuel.older_diesel_rate(HP, 1.0) / GALLON * HOUR
    assert abs(us / ours - 1.0) > 0.005
    assert ours == pytest.approx(0.4229 * 0.745699872 / 3.785411784, rel=1e-4)


def test_half_throttle_is_the_lowest() -> None:
    with pytest.raises(ValueError, match=r"0\.5 to 1"):
        fuel.diesel_rate(20e3, 0.5, 0.4)
    with pytest.raises(ValueError, match="above 0"):
        fuel.rate_from_output(1.0, 0.0)


# --- traction -------------------------------------------------------------------------------


def test_mobility_and_pull_of_a_rear_axle() -> None:
    mobility = traction.mobility_number(1e6, 0.345, 1.31, 6865.0)
    net = traction.net_traction_ratio(mobility, 0.10)
    assert mobility == pytest.approx(73.6, abs=0.05)
    assert net == pytest.approx(0.4446, abs=0.00005)
    assert traction.tractive_efficiency(mobility, 0.10) == pytest.approx(0.794, abs=0.0005)
    assert traction.pull_limit(2 * 6865.0, net) == pytest.approx(6100.0, abs=10.0)


@pytest.mark.parametrize(
    ("soil", "efficiency", "slip", "at_10", "at_15"),
    [
        ("hard", 0.800, 0.080, 0.446, 0.573),
        ("firm", 0.786, 0.085, 0.437, 0.564),
        ("tilled", 0.726, 0.103, 0.376, 0.491),
        ("soft", 0.639, 0.129, 0.281, 0.376),
    ],
)
def test_traction_by_soil(
    soil: str, efficiency: float, slip: float, at_10: float, at_15: float
) -> None:
    mobility = traction.soil_mobility_number(soil)
    best = traction.best_slip(mobility)
    assert best == pytest.approx(slip, abs=0.001)
    assert traction.tractive_efficiency(mobility, best) == pytest.approx(efficiency, abs=0.0005)
    assert traction.net_traction_ratio(mobility, 0.10) == pytest.approx(at_10, abs=0.0006)
    assert traction.net_traction_ratio(mobility, 0.15) == pytest.approx(at_15, abs=0.0006)


@pytest.mark.parametrize("soil", ["tilled", "soft"])
def test_equations_sit_a_little_below_the_published_best_slip(soil: str) -> None:
    row = tables.by_key("power/soil_mobility", "soil")[soil]
    best = traction.best_slip(float(row["mobility_number"]))
    assert 0.0 < float(row["best_slip_low"]) - best < 0.02


@given(a=slips, b=slips, mobility=mobilities)
def test_more_slip_never_lowers_the_gross_ratio(a: float, b: float, mobility: float) -> None:
    low, high = sorted((a, b))
    assert traction.gross_traction_ratio(mobility, low) <= traction.gross_traction_ratio(
        mobility, high
    )


@given(slip=st.floats(0.02, 0.6), a=mobilities, b=mobilities)
def test_firmer_ground_never_pulls_less(slip: float, a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert traction.net_traction_ratio(low, slip) <= traction.net_traction_ratio(high, slip) + 1e-12


@given(mobility=mobilities)
def test_best_slip_is_a_maximum(mobility: float) -> None:
    best = traction.best_slip(mobility)
    top = traction.tractive_efficiency(mobility, best)
    for slip in (0.8 * best, 1.25 * best):
        assert traction.tractive_efficiency(mobility, slip) <= top + 1e-9


def test_radial_pulls_more_at_the_same_slip() -> None:
    assert traction.net_traction_ratio(55.0, 0.10, radial=True) > traction.net_traction_ratio(
        55.0, 0.10
    )


def test_tires_outside_the_fit_are_refused() -> None:
    with pytest.raises(ValueError, match="width"):
        traction.mobility_number(1e6, 0.9, 1.0, 5000.0)
    with pytest.raises(ValueError, match="deflection"):
        traction.mobility_number(1e6, 0.3, 1.0, 5000.0, 0.5)
    with pytest.raises(ValueError, match="Cone"):
        traction.mobility_number(0.0, 0.3, 1.0, 5000.0)
    with pytest.raises(ValueError, match="mobility"):
        traction.best_slip(2.0)


# --- field work -----------------------------------------------------------------------------


def test_trap_capacity_counts_the_cut_less_the_overlap() -> None:
    whole = field_work.field_capacity(1.8, 2.0, 0.8)
    less = field_work.field_capacity(1.8, 2.0, 0.8, overlap=0.18)
    assert less == pytest.approx(0.9 * whole)


@given(width=st.floats(0.5, 10.0), speed=st.floats(0.3, 5.0), efficiency=st.floats(0.2, 1.0))
def test_time_is_area_over_capacity(width: float, speed: float, efficiency: float) -> None:
    rate = field_work.field_capacity(width, speed, efficiency)
    assert field_work.work_time(4000.0, width, speed, efficiency, passes=2.0) * rate == (
        pytest.approx(8000.0)
    )


def test_strips_cover_the_field() -> None:
    assert field_work.strips(10.0, 2.0) == 5
    assert field_work.strips(10.1, 2.0) == 6
    assert field_work.strips(1.0, 2.0) == 1
    assert field_work.strips(10.0, 2.0, 0.4) == 6


def test_bad_widths_are_refused() -> None:
    with pytest.raises(ValueError, match="overlap"):
        field_work.field_capacity(1.0, 1.0, 0.8, 1.0)
    with pytest.raises(ValueError, match="efficiency"):
        field_work.field_capacity(1.0, 1.0, 1.2)
    with pytest.raises(ValueError, match="Speed"):
        field_work.field_capacity(1.0, 0.0, 0.8)
    with pytest.raises(ValueError, match="negative"):
        field_work.work_time(-1.0, 1.0, 1.0, 0.8)
    with pytest.raises(ValueError, match="overlap"):
        field_work.strips(5.0, 1.0, 1.0)


def test_field_efficiency_rows_are_in_order() -> None:
    for row in tables.rows("power/field_efficiency"):
        low, typical, high = field_work.efficiency_range(row["implement"])
        assert 0.0 < low <= typical <= high <= 1.0


# --- cost -----------------------------------------------------------------------------------


def test_trap_repairs_of_a_used_machine_are_a_difference() -> None:
    # Charging the mean rate of a used machine from new would count its cheap first years.
    between = ownership.repair_cost_between("tractor", 30e3, 2000.0, 3000.0)
    mean = ownership.repair_cost("tractor", 30e3, 3000.0) / 3.0
    assert between == pytest.approx(0.007 * 30e3 * (9.0 - 4.0))
    assert between > 1.5 * mean
    with pytest.raises(ValueError, match="before the start"):
        ownership.repair_cost_between("tractor", 30e3, 3000.0, 2000.0)


def test_life_totals_of_the_repair_factors() -> None:
    for row in tables.rows("power/repair_factors"):
        total = ownership.repair_cost(row["machine"], 100.0, float(row["life_h"]))
        assert total == pytest.approx(float(row["life_percent"]), abs=4.0)


def test_pay_back_without_saving_never_comes() -> None:
    assert ownership.hours_to_pay_back(1000.0, 0.0) == math.inf
    assert ownership.hours_to_pay_back(1000.0, -1.0) == math.inf
    assert ownership.hours_to_pay_back(0.0, -1.0) == 0.0
    assert ownership.years_to_pay_back(1000.0, 50.0, 0.06) == math.inf
    assert ownership.years_to_pay_back(0.0, 50.0, 0.06) == 0.0


def test_trap_pay_back_at_no_interest_divides() -> None:
    assert ownership.years_to_pay_back(1000.0, 250.0, 0.0) == pytest.approx(4.0)
    near = ownership.years_to_pay_back(1000.0, 250.0, 1e-9)
    assert near == pytest.approx(4.0, abs=1e-6)


def test_bad_cost_inputs_are_refused() -> None:
    with pytest.raises(ValueError, match="less than 0"):
        ownership.repair_cost("tractor", 1.0, -1.0)
    with pytest.raises(ValueError, match="interest"):
        ownership.years_to_pay_back(1.0, 1.0, -0.1)
