"""Tires, front drive, duals: units, properties, and the traps that a tire swap holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources, tables
from calc.mechanics import (
    bolts,
    duals,
    front_drive,
    ground,
    tire_load,
    tire_rolling,
    tires,
    travel,
)
from calc.mechanics.tire_size import decode
from tests.tire_rows import TABLE_SIZES, size

# --- dimensions -----------------------------------------------------------------------------------


@given(st.sampled_from(TABLE_SIZES))
def test_estimate_agrees_with_the_row_within_its_error(text: str) -> None:
    found, (estimate, error) = size(text), tires.estimated_diameter(decode(text))
    room = error + found.diameter_error
    assert estimate == pytest.approx(found.overall_diameter, rel=room)


@given(st.sampled_from(TABLE_SIZES))
def test_lengths_of_a_tire_are_in_order(text: str) -> None:
    found = size(text)
    assert found.rim_diameter < found.overall_diameter
    radius = found.overall_diameter / 2
    assert found.static_loaded_radius < found.effective_radius < radius
    assert 0 < found.circumference_error < 0.06


def test_basis_is_said() -> None:
    assert size("12-16.5").basis == "data sheet"
    assert size("12.4-24").basis == "data sheet"
    assert size("9.5-16").basis == "design value"
    assert size("320/85R24").basis == "standard's formula"
    assert size("26x12.00-12").basis == "estimate"
    assert size("7.00-16").basis == "estimate"


def test_sources_of_every_table_exist() -> None:
    names = [
        "tires/tire_dimensions",
        "tires/tire_load_at_pressure",
        "tires/tire_road_limits",
        "tires/tire_designations",
        "tires/tire_recommended_pressures",
        "tires/load_index",
        "tires/speed_symbols",
        "tires/tread_codes",
        "tires/tire_suffixes",
        "tires/tire_estimates",
        "tires/rolling_factors",
        "tires/treads",
        "tires/tire_loads",
        "tires/load_ranges",
        "tires/inch_metric_pairs",
        "tires/lead_windows",
        "tires/rolling_index_groups",
        "tires/tire_rims",
        "tires/tire_speed_factors",
        "tires/pressure_additions",
        "tires/tire_liquid_fill",
        "tires/ballast_liquids",
        "tires/calcium_chloride_density",
        "tires/liquid_fill_rules",
        "lawn/ground_pressure_rules",
        "tires/dual_spacing",
        "tires/dual_load_factors",
        "tires/bolt_grades",
        "tires/bolt_threads",
        "tires/retorque_steps",
    ]
    for name in names:
        for row in tables.rows(name):
            for column, value in row.items():
                if column.endswith("source") and value:
                    assert sources.find(value), (name, row)


# --- properties -----------------------------------------------------------------------------------


@given(st.floats(0.1, 12), st.floats(1, 6), st.floats(0, 1))
def test_a_bigger_circumference_never_lowers_speed(v: float, rc: float, more: float) -> None:
    assert travel.speed_after(v, rc, rc + more) >= v * (1 - 1e-12)


@given(st.sampled_from(TABLE_SIZES), st.sampled_from(TABLE_SIZES))
def test_a_bigger_tire_never_lowers_speed(first: str, second: str) -> None:
    now, new = sorted((size(first), size(second)), key=lambda tire: tire.rolling_circumference)
    assert travel.speed_after(2.0, now.rolling_circumference, new.rolling_circumference) >= 2.0


@given(st.floats(-0.1, 0.1), st.floats(0.7, 1.4))
def test_equal_change_on_both_axles_keeps_the_lead(lead: float, factor: float) -> None:
    assert front_drive.lead_after_change(lead, factor, factor) == pytest.approx(lead, abs=1e-12)


@given(st.floats(1, 4), st.floats(2, 6), st.floats(1, 2))
def test_lead_and_ratio_undo_each_other(front: float, rear: float, ratio: float) -> None:
    lead = front_drive.lead(front, rear, ratio)
    assert front_drive.gear_ratio_from_tires(front, rear, lead) == pytest.approx(ratio)
    assert front_drive.front_circumference_for(rear, ratio, lead) == pytest.approx(front)
    assert front_drive.rear_circumference_for(front, ratio, lead) == pytest.approx(rear)


@given(st.floats(50, 5000), st.floats(40e3, 400e3), st.floats(0.1, 1))
def test_less_pressure_never_carries_more(load: float, pressure: float, share: float) -> None:
    carried = tire_load.load_at_pressure(load, pressure * share, pressure)
    assert carried <= load * (1 + 1e-12)
    assert tire_load.pressure_for_load(carried, load, pressure) == pytest.approx(pressure * share)


@given(st.floats(0.05, 0.5), st.floats(0, 1))
def test_duals_never_bend_the_axle_less(overhang: float, spacing: float) -> None:
    shared = duals.moment_ratio_shared(overhang, spacing)
    assert 1 <= shared <= duals.moment_ratio_outer(overhang, spacing)


@given(st.floats(1e3, 5e4), st.floats(-0.1, 0.6), st.floats(0.1, 0.6))
def test_bearing_reactions_balance(load: float, overhang: float, spread: float) -> None:
    outer, inner = duals.bearing_reactions(load, overhang, spread)
    assert outer + inner == pytest.approx(load)
    # Moments about the inner bearing.
    assert outer * spread == pytest.approx(load * (spread + overhang))


# --- worked examples of our own -------------------------------------------------------------------


def test_worked_dual_example() -> None:
    assert duals.axle_moment(9000, 0.15) == pytest.approx(1350)
    assert 1350 * duals.moment_ratio_shared(0.15, 0.42) == pytest.approx(3240)
    assert 1350 * duals.moment_ratio_outer(0.15, 0.42) == pytest.approx(5130)
    assert duals.moment_ratio_outer(0.15, 0.1) == pytest.approx(1.667, abs=0.001)


def test_load_for_equal_bending() -> None:
    allowed = duals.load_for_equal_bending(1000, 0.15, 0.42)
    assert allowed * duals.moment_ratio_outer(0.15, 0.42) == pytest.approx(1000)


def test_adapter_and_offset_undo_each_other() -> None:
    spacing = duals.spacing_with_adapter(0.3, 0.06, -0.06)
    assert duals.outer_offset_for(spacing, 0.3, 0.06) == pytest.approx(-0.06)


def test_gap_closes_under_load() -> None:
    assert duals.sidewall_gap(0.48, 0.378, 0.378) == pytest.approx(0.102)
    assert duals.loaded_gap(0.48, 0.378, 0.378) == pytest.approx(0.0642)
    assert duals.overall_width(1.2, 0.48, 0.378) == pytest.approx(2.538)


def test_contact_area() -> None:
    assert ground.contact_area(900, 83000) == pytest.approx(0.106, abs=0.001)
    assert ground.mean_pressure(900, ground.contact_area(900, 83000)) == pytest.approx(83000)
    assert ground.contact_pressure_band(100e3) == (100e3, 114e3)
    for bad in ((900, 0.0), (-1.0, 1e5)):
        with pytest.raises(ValueError, match=r"pressure|mass"):
            ground.contact_area(*bad)


def test_speed_ratio_squares_in_braking() -> None:
    assert travel.braking_ratio(1.1, 0.5, 0.5) == pytest.approx(1.21)
    assert travel.braking_ratio(1.1, 0.5, 0.55) == pytest.approx(1.331)


def test_a_rating_is_never_stretched() -> None:
    with pytest.raises(ValueError, match="above the one"):
        tire_load.load_at_pressure(500, 2e5, 1.5e5)
    with pytest.raises(ValueError, match="outside the data sheet"):
        tire_load.sheet_load("12-16.5", 12, 90 * 6894.757, 4.0)
    with pytest.raises(ValueError, match="outside the data sheet"):
        tire_load.sheet_load("12-16.5", 12, 75 * 6894.757, 12.0)
    with pytest.raises(ValueError, match="No data sheet"):
        tire_load.sheet_load("12.4-24", 6, 1e5, 1.0)
    with pytest.raises(ValueError, match="above the table"):
        tire_load.speed_factor("A8", 70 / 3.6)
    with pytest.raises(ValueError, match="No pressure"):
        tire_load.pressure_for_load(600, 500, 1e5)


def test_additions_stop_at_the_sidewall() -> None:
    assert tire_load.pressure_with_additions(1e5, ("loader",), 2e5) == pytest.approx(1.3e5)
    assert tire_load.pressure_with_additions(1.9e5, ("loader", "liquid"), 2e5) == 2e5


def test_unknown_names_are_refused() -> None:
    with pytest.raises(ValueError, match="thread"):
        bolts.thread("1/3-99")
    with pytest.raises(ValueError, match="grade"):
        bolts.proof_stress("99", 0.01)
    with pytest.raises(ValueError, match="Grade 2"):
        bolts.proof_stress("2", 0.0254)
    with pytest.raises(LookupError):
        front_drive.window("nobody")
    with pytest.raises(ValueError, match="groups"):
        front_drive.index_circumference(99)
    with pytest.raises(ValueError, match="above zero"):
        front_drive.lead(0.0, 1.0, 1.0)


def test_bolt_grades_change_with_size() -> None:
    assert bolts.proof_stress("5", 0.0254) > bolts.proof_stress("5", 0.03)
    assert bolts.proof_stress("8.8", 0.016) < bolts.proof_stress("8.8", 0.020)


# --- traps ----------------------------------------------------------------------------------------


def test_trap_lead_formula_upside_down() -> None:
    # 1.30 / 1.27 - 1 is +2.36 %; by definition it is a lag.
    assert 100 * front_drive.lead(4.505, 5.850, 1.27) == pytest.approx(-2.2, abs=0.05)


@pytest.mark.parametrize(
    ("inch", "metric", "change_pct"),
    [
        ("11.2R24", "280/85R24", -1.8),
        ("13.6R28", "340/85R28", -1.6),
        ("12.4R24", "320/85R24", -0.6),
        ("14.9R28", "380/85R28", -0.7),
    ],
)
def test_trap_inch_and_metric_equivalents_differ(inch: str, metric: str, change_pct: float) -> None:
    change = size(metric).overall_diameter / size(inch).overall_diameter - 1
    assert 100 * change == pytest.approx(change_pct, abs=0.1)  # whole mm
    lead = front_drive.lead_after_change(0.03, 1 + change, 1.0)
    assert 100 * (lead - 0.03) == pytest.approx(1.03 * 100 * change)


def test_trap_bias_height_is_not_085_at_every_width() -> None:
    plain = 24 * 25.4 + 2 * 0.85 * 9.5 * 25.4
    assert plain / (size("9.5-24").overall_diameter * 1000) - 1 < -0.025
    estimate, _ = tires.estimated_diameter(decode("9.5-24"))
    assert estimate == pytest.approx(size("9.5-24").overall_diameter, rel=0.01)


def test_trap_the_least_rating_counts() -> None:
    assert tire_load.axle_capacity(2, 595, 1040) == 1040
    assert tire_load.axle_capacity(2, 595, 2000) == 1190
    assert tire_load.axle_capacity(2, 595, 2000, rim_load=500) == 1000
    assert tire_load.axle_capacity(4, 1000, 9000) == pytest.approx(4 * 880)


def test_trap_speed_bonus_differs_by_kind() -> None:
    slow = 10 / 3.6
    assert tire_load.speed_factor("A8", slow) > tire_load.speed_factor("A3", slow) + 0.3
    with pytest.raises(ValueError, match="No table"):
        tire_load.speed_factor("6PR", slow)


def test_trap_clearance_is_half_the_diameter_change_at_most() -> None:
    now, new = size("11.2-24"), size("12.4-24")
    rise = travel.clearance_change(
        0.0, new.static_loaded_radius - now.static_loaded_radius, 0.0, 1.6
    )
    assert 0 < rise < (new.overall_diameter - now.overall_diameter) / 2
    assert travel.pitch_change(0.0, rise, 1.6) < 0, "the nose goes down"


def test_trap_worn_front_tires_lose_lead() -> None:
    front = size("14.9-24").rolling_circumference
    worn = tire_rolling.worn_circumference(front, 0.0275)
    assert 1 - worn / front == pytest.approx(0.045, abs=0.005)
    assert front_drive.lead_after_change(0.03, worn / front, 1.0) < 0.0


def test_trap_sizes_that_look_alike_stay_apart() -> None:
    for group in (
        ("7-16", "7.00-16", "7.50-16"),
        ("8-16", "8.00-16", "8.3-16"),
        ("6-12", "6.00-12"),
    ):
        keys = {tires.lookup_key(decode(text)) for text in group}
        assert len(keys) == len(group)


def test_index_group_round_trip() -> None:
    for group in range(36, 51):
        assert front_drive.index_group(front_drive.index_circumference(group)) == group


def test_with_error_is_root_sum_square() -> None:
    low, high = front_drive.with_error(0.0, 0.03, 0.04)
    assert (low, high) == (pytest.approx(-0.05), pytest.approx(0.05))


def test_speed_symbols_rise() -> None:
    speeds = [tire_load.speed_of_symbol(r["symbol"]) for r in tables.rows("tires/speed_symbols")]
    assert speeds == sorted(speeds)
    with pytest.raises(ValueError, match="no speed symbol"):
        tire_load.speed_of_symbol("Z")
