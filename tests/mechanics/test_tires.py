"""Tires, front drive, duals: units, properties, and the traps that a tire swap holds."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources, tables
from calc.mechanics import (
    bolts,
    duals,
    front_drive,
    ground,
    liquid_ballast,
    tire_load,
    tire_rolling,
    tire_size,
    tires,
    travel,
)
from calc.mechanics.tire_size import SizeError, decode

GAL = 0.003785411784
LB = 0.45359237
TABLE_SIZES = [row["size"] for row in tables.rows("tires/tire_dimensions")]


def size(text: str) -> tires.Dimensions:
    return tires.dimensions(decode(text))


# --- decoding --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("26X12.00-12 NHS", "26x12.00-12 NHS"),
        ("320/85 R 24 122A8", "320/85R24 122A8"),
        ("12.4 x 24", "12.4-24"),
        ("23 x 8.5 - 12", "23x8.50-12"),
        ("18x8.50x8", "18x8.50-8"),
        ("12,4–24", "12.4-24"),
        ("26×12,00-12nhs", "26x12.00-12 NHS"),
        ("IF 380/85R34", "IF380/85R34"),
        ("VF380/85R34 153D", "VF380/85R34 153D"),
        ("12.4/11-28", "12.4/11-28"),
        ("7.5-16", "7.50-16"),
        ("750-16", "7.50-16"),
        ("9.5-24", "9.5-24"),
        ("9.5L-15SL 8 ply", "9.5L-15 8PR SL"),
        ("12-16.5 12PR 144A3", "12-16.5 144A3 12PR"),
        ("11.2-24 6PR r1", "11.2-24 6PR R-1"),
        ("22.5LL-16.1", "22.5LL-16.1"),
        ("27x12LL-15", "27x12LL-15"),
        ("28LR26", "28LR26"),
        ("320/85R24 122A8/119B TL", "320/85R24 122A8/119B TL"),
        ("480/80R42 156/153A8 R-1W", "480/80R42 156/153A8 R-1W"),
        ("33x12.50R16.5", "33x12.50R16.5"),
        ("212/80D15", "212/80D15"),
        ("14.9R-28 **", "14.9R28"),
    ],
)
def test_sizes_as_people_type_them(typed: str, printed: str) -> None:
    assert decode(typed).text == printed


def test_service_description() -> None:
    service = decode("320/85R24 122A8/119B").services
    assert [(s.load_index, s.speed_symbol) for s in service] == [(122, "A8"), (119, "B")]
    assert tire_load.load_of_index(service[0].load_index) == 1500


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ("16x4", "16x4"),
        ("27/12LLx15", "LLX"),
        ("12.4", "12.4"),
        ("foo", "foo"),
        ("", ""),
        ("12.4Q24", "Q"),
        ("12.4-240", "240"),
        ("320/25R24", "25"),
        ("320/85/24", "/"),
        ("320/85R24 122Q", "Q"),
        ("320/85R24 300A8", "300"),
        ("12.4-24 BANANA", "BANANA"),
        ("XX12.4-24", "XX"),
        ("12x6.00-12", "12"),
        ("9999/85R24", "9999"),
        ("9" * 200, "9" * 20 + "..."),
    ],
)
def test_a_size_that_cant_be_read_names_the_part(typed: str, part: str) -> None:
    with pytest.raises(SizeError) as caught:
        decode(typed)
    assert caught.value.part == part
    assert part in str(caught.value)
    assert "12.4-24" in str(caught.value), "the accepted forms are shown"


@pytest.mark.parametrize("text", TABLE_SIZES)
def test_every_size_of_the_table_reads_and_prints_as_itself(text: str) -> None:
    assert decode(text).size == text
    assert tires.table_row(decode(text)) is not None


def test_every_example_form_reads() -> None:
    for row in tables.rows("tires/tire_designations"):
        assert decode(row["example"]).size == row["example"]


@given(
    st.sampled_from(TABLE_SIZES),
    st.sampled_from(["", " 6PR", " 122A8", " 122A8/119B", " 112/110A8", " NHS", " TL", " 8 ply"]),
    st.sampled_from(["", " R-1", " R4", " F-2"]),
    st.sampled_from(["", " ", "  "]),
)
def test_decoding_then_printing_is_stable(base: str, marks: str, tread: str, gap: str) -> None:
    found = decode(gap + base.replace("-", gap + "-" + gap) + marks + tread)
    assert decode(found.text) == found
    assert decode(found.text).text == found.text


@given(st.text(max_size=90))
def test_any_text_either_reads_or_is_refused_with_a_sentence(text: str) -> None:
    try:
        found = decode(text)
    except SizeError as error:
        assert "Sizes look like" in str(error)
    else:
        assert decode(found.text) == found
        assert tires.dimensions(found).rolling_circumference > 0


# --- dimensions ------------------------------------------------------------------------------


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


# --- properties ------------------------------------------------------------------------------


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


@given(st.sampled_from(TABLE_SIZES), st.floats(0, 0.9), st.floats(0, 0.9), st.floats(900, 1300))
def test_more_liquid_never_lowers_axle_load(
    text: str, share: float, more: float, density: float
) -> None:
    less, most = sorted((share, more))
    tire = size(text)
    masses = [
        liquid_ballast.liquid_mass(liquid_ballast.fill_volume(tire, s).value, density)
        for s in (less, most)
    ]
    assert 0 <= masses[0] <= masses[1]


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


# --- worked examples of our own --------------------------------------------------------------


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


# --- traps -----------------------------------------------------------------------------------


def test_trap_flotation_diameter_is_a_name() -> None:
    found = size("20x8.00-8")
    assert found.overall_diameter * 1000 == pytest.approx(480)
    estimated, error = tires.estimated_diameter(decode("22x11.00-10"))
    assert estimated < 22 * 0.0254
    assert estimated * (1 - error) / (22 * 0.0254) == pytest.approx(0.94, abs=0.001)


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


def test_trap_brine_past_the_eutectic_is_refused() -> None:
    strongest = liquid_ballast.brine_density(0.30) * GAL / LB
    assert strongest < 11.0, "11.3 lb/gal can't hold with the 5 lb recipe"
    with pytest.raises(ValueError, match="30 %"):
        liquid_ballast.brine_density(0.40)
    with pytest.raises(ValueError, match="30 %"):
        liquid_ballast.brine_recipe(0.1, 9 * LB / GAL)


def test_trap_flake_is_not_pure_salt() -> None:
    masses = [liquid_ballast.brine_recipe(0.1, 3.5 * LB / GAL, q)[2] for q in (0.77, 1.0)]
    assert masses[1] / masses[0] - 1 == pytest.approx(0.06, abs=0.005)


def test_trap_the_manuals_two_pound_row_is_water() -> None:
    volume = liquid_ballast.fill_volume(size("18.4R34")).value
    water = liquid_ballast.liquid_mass(volume, 1000)
    brine = liquid_ballast.brine_recipe(volume, 2 * LB / GAL)[2]
    assert water == pytest.approx(378, abs=1)
    assert brine == pytest.approx(430, abs=5)


def test_trap_imperial_gallons() -> None:
    # The same 3.5 lb in an imperial gallon is a weaker brine; ours is the US gallon.
    us, imperial = 3.5 * LB / GAL, 3.5 * LB / 0.00454609
    assert pytest.approx(1000, abs=1) == liquid_ballast.WATER_LB_PER_GALLON * LB / GAL
    densities = [
        liquid_ballast.brine_density(liquid_ballast.brine_mass_fraction(salt))
        for salt in (us, imperial)
    ]
    assert densities[0] - densities[1] > 20


def test_trap_a_full_tire_is_refused() -> None:
    with pytest.raises(ValueError, match="90 %"):
        liquid_ballast.fill_volume(size("14.9-28"), 1.0)


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


def test_trap_freezing_points_keep_their_minus_sign() -> None:
    for row in tables.rows("tires/ballast_liquids"):
        if row["key"] not in ("water", "washer-32"):
            assert all(float(row[c]) < 0 for c in ("slush_c", "solid_c") if row[c]), row["key"]


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


def test_general_volume_agrees_with_the_chart_within_its_error() -> None:
    low, high = liquid_ballast.GENERAL_ERROR
    seen = 0
    for row in tables.rows("tires/tire_liquid_fill"):
        designation = decode(row["size"])
        if designation.form != "decimal" or tires.table_row(designation) is None:
            continue
        tire = tires.dimensions(designation)
        found = liquid_ballast.general_volume(
            tire.section_width, tire.overall_diameter, tire.rim_diameter
        )
        printed = float(row["fill_75_us_gal"])
        assert printed * (1 + low) - 0.5 <= found / GAL <= printed * (1 + high) + 0.5, row["size"]
        seen += 1
    assert seen > 15


def test_speed_symbols_rise() -> None:
    speeds = [tire_load.speed_of_symbol(r["symbol"]) for r in tables.rows("tires/speed_symbols")]
    assert speeds == sorted(speeds)
    with pytest.raises(ValueError, match="no speed symbol"):
        tire_load.speed_of_symbol("Z")


def test_size_error_is_a_value_error_with_a_part() -> None:
    assert issubclass(tire_size.SizeError, ValueError)
    assert not math.isnan(size("7-16").rolling_circumference)


# --- sizes as people write them --------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("15x19.5 R4", "15-19.5 R-4"),
        ("15x19.5R4", "15-19.5 R-4"),
        ("12.4/24", "12.4-24"),
        ("11.2 24 bar", "11.2-24 R-1"),
        ("10.0-16.5", "10-16.5"),
        ("7.0-14", "7-14"),
        ("R1 12.4-24", "12.4-24 R-1"),
        ("turf 26x12-12", "26x12.00-12 R-3"),
        ("LR-C 23x10.50-12 TL", "23x10.50-12 6PR TL"),
        ("320/85 R24 R1W 122A8/119B", "320/85R24 122A8/119B R-1W"),
        ('12.4"-24"', "12.4-24"),
        ("13.6 - 28 (tube type)", "13.6-28 TT"),
        ("16.9 x 24 R4 12 ply TL IND NRO", "16.9-24 12PR R-4 TL IND NRO"),
        ("9.5L15 SL", "9.5L-15 SL"),
        ("12.5/80x18", "12.5/80-18"),
        ("23-8.50-12", "23x8.50-12"),
        ("9.50-24", "9.5-24"),
        ("7.50-16", "7.50-16"),
        ("6.00-16 3 rib T/T", "6.00-16 F-2 TT"),
        ("12.4-24.", "12.4-24"),
        ("147A8 (147B) 400/70R18", "400/70R18 147A8/147B"),
    ],
)
def test_sizes_with_what_stands_on_the_sidewall(typed: str, printed: str) -> None:
    assert decode(typed).text == printed


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("17.5-24", "17.5L-24"),
        ("12x26-12", "larger than the width"),
        ("15x19.5-12", "larger than the width"),
        ("12.4-24 radial", "R is a radial"),
        ("9.5-16 banana", "BANANA"),
        ("23x10.50-12 LR Q", "load range Q"),
    ],
)
def test_what_could_be_another_tire_is_asked_about(typed: str, asked: str) -> None:
    with pytest.raises(SizeError, match=asked):
        decode(typed)
