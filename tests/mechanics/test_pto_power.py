"""Power at the shaft, demand, and draft."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import quantities, sources, tables
from calc.mechanics import draft, implement_power, pto_power

HP = 745.6998715822702
FOOT = 0.3048

altitude_rules = st.sampled_from([row["key"] for row in tables.rows("power/altitude_rules")])
heat_rules = st.sampled_from([row["key"] for row in tables.rows("power/temperature_rules")])
rotary_rows = st.sampled_from([row["key"] for row in tables.rows("power/rotary_power")])


def test_every_citation_of_the_power_tables_is_on_a_shelf() -> None:
    for name in (
        "power/engine_to_pto",
        "power/altitude_rules",
        "power/temperature_rules",
        "power/pto_drag",
        "power/rotary_power",
        "power/power_density",
        "power/draft",
        "power/soil_factors",
    ):
        for row in tables.rows(name):
            for column, value in row.items():
                if (column.endswith("source") or column == "also") and value:
                    sources.find(value)


def test_ratios_are_ordered_shares() -> None:
    for row in tables.rows("power/engine_to_pto"):
        low, usual, high = pto_power.pto_ratio(row["key"])
        assert 0.5 < low <= usual <= high < 1.0


def test_the_default_band_runs_from_the_gross_to_the_net_figure() -> None:
    low, _, high = pto_power.pto_ratio()
    assert (low, high) == (pto_power.pto_ratio("gross")[1], pto_power.pto_ratio("net")[1])


@given(altitude_rules, st.floats(-100.0, 4000.0), st.floats(0.0, 1000.0))
def test_power_never_rises_with_altitude(rule: str, height: float, more: float) -> None:
    here = pto_power.altitude_factor(height, rule)
    assert 0.0 <= pto_power.altitude_factor(height + more, rule) <= here <= 1.0


@given(heat_rules, st.floats(230.0, 330.0), st.floats(0.0, 30.0))
def test_power_never_rises_with_heat(rule: str, kelvin: float, more: float) -> None:
    here = pto_power.temperature_factor(kelvin, rule)
    assert 0.0 <= pto_power.temperature_factor(kelvin + more, rule) <= here <= 1.0


def test_rules_never_go_below_nothing() -> None:
    assert pto_power.altitude_factor(50_000.0) == 0.0
    assert pto_power.temperature_factor(1000.0) == 0.0


@given(st.floats(100, 5000), st.floats(-0.4, 0.4), st.floats(0.1, 5.0))
def test_climbing_and_descending_mirror(mass: float, grade: float, speed: float) -> None:
    up = pto_power.grade_power(mass, grade, speed)
    assert up == pytest.approx(-pto_power.grade_power(mass, -grade, speed))


def test_downhill_is_never_a_gain() -> None:
    assert pto_power.travel_power(2000, -0.3, 2.0, 0.05, 0.8) == 0.0


@pytest.mark.parametrize("efficiency", [0.0, -0.1, 1.1])
def test_impossible_efficiencies_are_refused(efficiency: float) -> None:
    with pytest.raises(ValueError):
        pto_power.travel_power(1000, 0.1, 1.0, 0.05, efficiency)
    with pytest.raises(ValueError):
        implement_power.generator_shaft_power(1000, efficiency)


@pytest.mark.parametrize("ratio", [-0.1, 1.2])
def test_impossible_ratios_are_refused(ratio: float) -> None:
    with pytest.raises(ValueError):
        pto_power.engine_to_pto(1000.0, ratio)


@given(rotary_rows, st.floats(0.0, 6.0), st.floats(0.0, 10.0))
def test_demand_rises_with_width_and_flow(key: str, width: float, flow: float) -> None:
    here = implement_power.rotary_power(key, width, flow)
    assert here >= 0.0
    assert implement_power.rotary_power(key, width + 1.0, flow + 1.0) >= here


def test_densities_are_ordered() -> None:
    for row in tables.rows("power/power_density"):
        values = [float(row[load]) for load in implement_power.LOADS if row[load]]
        assert values == sorted(values), row["key"]


def test_a_missing_figure_is_said_so() -> None:
    with pytest.raises(LookupError, match="no figure"):
        implement_power.density("rotary_cutter_measured", "light")
    with pytest.raises(LookupError, match="load"):
        implement_power.density("rotary_cutter", "medium")
    with pytest.raises(LookupError):
        implement_power.demand("nothing", 1.0)


@given(st.floats(1e3, 100e3), st.floats(2e3, 30e3), st.floats(0.0, 900.0), st.floats(0.0, 0.5))
def test_the_widest_just_uses_what_is_available(
    available: float, per_width: float, fixed: float, reserve: float
) -> None:
    width = implement_power.widest(available, per_width, fixed, reserve)
    if width > 0.0:
        assert (fixed + per_width * width) * (1 + reserve) == pytest.approx(available)
    else:
        assert fixed * (1 + reserve) >= available


def test_total_rows_ignore_the_width() -> None:
    assert implement_power.is_total("post_hole_digger")
    assert implement_power.demand("post_hole_digger", 0.3) == implement_power.demand(
        "post_hole_digger", 0.9
    )


def test_examples_of_rotary_power() -> None:
    """Worked from the formula: balers at 6 t/h and a flail of 1.5 m."""
    assert implement_power.rotary_power("mower_flail", 1.5) / HP == pytest.approx(20.1, abs=0.05)
    variable = implement_power.rotary_power("baler_round_variable", throughput=6 / 3.6)
    fixed = implement_power.rotary_power("baler_round_fixed", throughput=6 / 3.6)
    assert variable == pytest.approx(10600)
    assert fixed == pytest.approx(13300)


def test_a_2000_kg_outfit_on_15_percent() -> None:
    """Worked from the formulas: 4.85 kW of grade, 2.62 kW of rolling, 9.3 kW at the engine."""
    grade = pto_power.grade_power(2000, 0.15, 6 / 3.6)
    rolling = pto_power.rolling_power(2000, 0.08, 6 / 3.6)
    assert grade == pytest.approx(4850, abs=5)
    assert rolling == pytest.approx(2615, abs=5)
    travel = pto_power.travel_power(2000, 0.15, 6 / 3.6, 0.08, 0.80)
    assert travel == pytest.approx((grade + rolling) / 0.80)


def test_alternator_share_of_the_generator_rule() -> None:
    assert implement_power.generator_shaft_power(1000.0) / HP == pytest.approx(1.58, abs=0.005)
    assert implement_power.generator_engine_power(1000.0) > implement_power.generator_shaft_power(
        1000.0
    )


@pytest.mark.parametrize("value", [-1.0, math.inf, math.nan])
def test_impossible_sizes_are_refused(value: float) -> None:
    with pytest.raises(ValueError):
        implement_power.rotary_power("mower_flail", value)
    with pytest.raises(ValueError):
        implement_power.demand("rotary_cutter", value)


# --- draft ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "width", "depth", "speed", "soil", "newton"),
    [
        ("moldboard_plow", 0.711, 0.178, 5, "medium", 6908),
        ("cultivator_primary", 9, 0.10, 8, "medium", 5233),
        ("disk_tandem_secondary", 1.8288, 0.08, 8, "medium", 3937),
    ],
)
def test_draft_examples(
    key: str, width: float, depth: float, speed: float, soil: str, newton: float
) -> None:
    pull = draft.draft(key, width, speed / 3.6, depth, soil)
    assert pull == pytest.approx(newton, abs=3)
    assert draft.drawbar_power(pull, speed / 3.6) == pytest.approx(pull * speed / 3.6)


@given(
    st.sampled_from([row["key"] for row in tables.rows("power/draft")]),
    st.floats(0.1, 4.0),
    st.floats(0.0, 4.0),
    st.floats(0.0, 0.4),
)
def test_coarse_soil_never_pulls_harder_than_fine(
    key: str, width: float, speed: float, depth: float
) -> None:
    fine, medium, coarse = (draft.draft(key, width, speed, depth, soil) for soil in draft.SOILS)
    assert fine >= medium >= coarse >= 0.0


def test_draft_refuses_nonsense() -> None:
    with pytest.raises(ValueError):
        draft.draft("moldboard_plow", 1.0, 1.0, 0.1, "2")
    with pytest.raises(ValueError):
        draft.draft("moldboard_plow", -1.0, 1.0, 0.1)
    with pytest.raises(LookupError):
        draft.draft("box_blade", 1.0, 1.0)
    with pytest.raises(ValueError):
        draft.pto_power_for(1.0, 0.9)


# --- traps ---------------------------------------------------------------------------------


def test_trap_engine_power_taken_for_pto_power() -> None:
    """25 engine hp is 20.8 to 22.5 at the shaft: a 5 ft cutter's 25 hp are not there."""
    low, _, high = pto_power.pto_ratio()
    need = implement_power.demand("rotary_cutter", 5 * FOOT) / HP
    assert need == pytest.approx(25.0)
    assert 25.0 * low < 25.0 * high < need


def test_trap_metric_horsepower() -> None:
    """92 kW is 125 PS and 123 hp: a brochure's "HP" may be either."""
    power = quantities.base("125 PS", "power")
    assert power == pytest.approx(92e3, abs=0.5e3)
    assert power / HP == pytest.approx(123, abs=0.5)
    assert quantities.base("125 hp", "power") > 1.013 * power


def test_trap_tangent_for_sine() -> None:
    """Grade in per cent times weight is 1.1 % too much at 15 % and 4.4 % at 30 %."""
    for grade, excess in ((0.15, 0.011), (0.30, 0.044)):
        right = pto_power.grade_power(1000, grade, 1.0)
        wrong = 1000 * 9.80665 * grade
        assert wrong / right - 1 == pytest.approx(excess, abs=0.0005)


def test_trap_slope_and_shaft_share_one_engine() -> None:
    """Half of a 25 hp tractor's engine goes into the climb before a blade turns."""
    travel = pto_power.travel_power(2000, 0.15, 6 / 3.6, 0.08, 0.80)
    assert travel / (25 * HP) == pytest.approx(0.5, abs=0.01)
    assert pto_power.power_left(21.5 * HP, 1.0, 1.0, travel) < 0.5 * 21.5 * HP


def test_trap_hydrostatic_loss_lands_on_the_wheels() -> None:
    """The shaft loses a little pump drag, not the drive's whole loss."""
    low, high = pto_power.pump_drag("hydrostatic")
    assert (low / HP, high / HP) == pytest.approx((1.0, 2.0))
    loss = 1 - pto_power.axle_efficiency("hydrostatic")[1]
    assert high < loss * 25 * HP


def test_trap_averages_hide_peaks() -> None:
    """A measured cutter peaked at 1.9 times its mean, above the trade's reserve."""
    mean = implement_power.density("rotary_cutter_measured")
    peak = implement_power.density("rotary_cutter_measured", "heavy")
    assert peak / mean == pytest.approx(1.9, abs=0.05)
    assert peak > mean * (1 + pto_power.RESERVE_HIGH)


def test_trap_disk_and_flail_rows_are_no_brush_cutter() -> None:
    """D497 has no rotary cutter: no such row may be found there."""
    keys = {row["key"] for row in tables.rows("power/rotary_power")}
    for missing in ("rotary_cutter", "finish_mower", "rotary_tiller", "snow_blower", "chipper"):
        assert missing not in keys
        with pytest.raises(LookupError):
            implement_power.rotary_power(missing, 1.5)
    disk = implement_power.rotary_power("mower_disk", 1.524)
    assert implement_power.demand("rotary_cutter", 1.524) > 2 * disk


def test_trap_soil_number_taken_for_its_factor() -> None:
    """Soil 1, 2, 3 selects a factor that falls; multiplying by 2 for medium soil is wrong."""
    fine = draft.draft("moldboard_plow", 1.0, 2.0, 0.2, "fine")
    assert draft.draft("moldboard_plow", 1.0, 2.0, 0.2, "medium") == pytest.approx(0.70 * fine)
    assert draft.draft("moldboard_plow", 1.0, 2.0, 0.2, "coarse") == pytest.approx(0.45 * fine)


def test_trap_depth_left_out_of_minor_tillage() -> None:
    """Rows of harrows and planters have no depth: it must change nothing."""
    shallow = draft.draft("rotary_hoe", 3.0, 3.0, 0.02)
    assert shallow == draft.draft("rotary_hoe", 3.0, 3.0, 0.20) == pytest.approx(1800)


def test_trap_width_in_tools_or_rows() -> None:
    """Nine tines are 9, not their width in meters."""
    units = {row["key"]: row["width_unit"] for row in tables.rows("power/draft")}
    assert units["cultivator_secondary"] == "tools"
    assert units["planter_mounted"] == "rows"
    assert units["moldboard_plow"] == "m"


def test_trap_soil_factor_is_not_the_texture_factor() -> None:
    """The factor of the extension form is above 1, that of the draft equation at most 1."""
    assert all(float(row["factor"]) >= 1.5 for row in tables.rows("power/soil_factors"))
    assert all(float(row["f_fine"]) <= 1.0 for row in tables.rows("power/draft"))


def test_trap_slower_ground_speed_saves_only_the_cutting_part() -> None:
    """Half the speed doesn't halve a mower's power."""
    fast = implement_power.mower_power(1.5, 2.2, 2500, 1800)
    slow = implement_power.mower_power(1.5, 1.1, 2500, 1800)
    assert fast / 2 < slow < fast


def test_half_speed_saving_never_reaches_half() -> None:
    for speed in (0.3, 1.0, 3.0, 6.0):
        low, high = implement_power.saving_at_half_speed(speed)
        assert 0.0 < low <= high < 0.5


def test_trap_conflicting_rules_stay_apart() -> None:
    """Four altitude rules give four figures at 1,372 m; none is silently averaged."""
    keys = ("na_500", "na_0", "na_2500", "na_msha")
    values = {round(pto_power.altitude_factor(1372.0, key), 4) for key in keys}
    assert len(values) == 4
