"""Power at the shaft, demand and draft against published numbers."""

import pytest

from calc import tables
from calc.mechanics import draft, implement_power, pto_power
from tests.published.rows import published

HP = 745.6998715822702
FOOT = 0.3048
MPH = 0.44704
POUND_FORCE = 4.4482216152605
POUND = 0.45359237


def test_86_percent_rule() -> None:
    """power/S10: 125.0 engine hp is 107.5 PTO hp and 92.45 drawbar hp; exact."""
    pto = pto_power.engine_to_pto(125.0, pto_power.pto_ratio("unstated")[1])
    of, given = pto_power.engine_to_pto, "125.0 engine hp, 86 %"
    published(of, given, 107.5, pto, 1e-9, "exact", "power/S10", "PTO", unit="hp")
    ours = pto_power.engine_to_pto(pto, 0.86)
    published(of, given, 92.45, ours, 1e-9, "exact", "power/S10", "drawbar", unit="hp")


def test_textbook_band() -> None:
    """hitch/X3: 50 engine hp is 40 to 42.5 PTO hp; exact."""
    low, _, high = pto_power.pto_ratio("textbook")
    of = pto_power.engine_to_pto
    for share, printed in ((low, 40.0), (high, 42.5)):
        given, ours = f"50 engine hp, {share:g}", of(50.0, share)
        published(of, given, printed, ours, 1e-9, "exact", "hitch/X3", unit="hp")


def test_net_ratio_of_two_sources() -> None:
    """power/S8 and power/S9 both print 0.90."""
    ours, why = pto_power.pto_ratio("net")[1], "printed to 0.01"
    for source in ("power/S8", "power/S9"):
        published(pto_power.pto_ratio, "net flywheel power", 0.90, ours, 0.005, why, source)


def test_gross_figure_is_the_product_of_its_two_steps() -> None:
    """power/D497-memory: 0.92 gross to net and power/S8 0.90 net to PTO; printed to 0.01."""
    assert pto_power.pto_ratio("gross")[1] == pytest.approx(0.92 * 0.90, abs=0.005)


@pytest.mark.parametrize(
    ("rule", "printed"), [("na_500", 198.0), ("na_0", 194.6), ("na_2500", 211.5)]
)
def test_altitude_example(rule: str, printed: float) -> None:
    """power/S27: 225 hp at 4,500 ft above 500 ft is 198 hp; the others by their own rule
    (power/S28, power/S29), to 0.1 hp."""
    of, given = pto_power.altitude_factor, f"225 hp at 4,500 ft, rule {rule}"
    power, why = 225.0 * of(4500 * FOOT, rule), "printed to a tenth, or by the printed rule"
    source = {"na_500": "power/S27", "na_0": "power/S28", "na_2500": "power/S29"}[rule]
    published(of, given, printed, power, 0.05, why, source, unit="hp")


def test_fueling_rule_at_1305_m() -> None:
    """power/S30: 1 % for each 100 m above 305 m, so 10 % at 1,305 m."""
    of, ours = pto_power.altitude_factor, pto_power.altitude_factor(1305.0, "na_msha")
    given = "1 % for each 100 m above 305 m, at 1,305 m"
    published(of, given, 0.90, ours, 0.0005, "exact by the printed rule", "power/S30")


def test_turbo_keeps_its_power_to_1000_m() -> None:
    """power/S27: none until about 1,000 m."""
    assert pto_power.altitude_factor(999.0, "turbo") == 1.0
    assert pto_power.altitude_factor(2000.0, "turbo") == pytest.approx(0.90, abs=0.0005)


@pytest.mark.parametrize(("rule", "printed"), [("diesel", 0.98), ("gasoline", 0.99)])
def test_heat_at_95_fahrenheit(rule: str, printed: float) -> None:
    """power/S31: 1 % for each 5 or 10 degF above 85 degF; 10 degF above."""
    kelvin = (95.0 - 32.0) / 1.8 + 273.15
    of, given = pto_power.temperature_factor, f"{rule}, 95 °F: 10 °F above 85"
    ours = of(kelvin, rule)
    published(of, given, printed, ours, 1e-9, "exact by the printed rule", "power/S31")


def test_grade_takes_20_pounds_for_each_ton_and_percent() -> None:
    """power/S29: 20 lb per US ton per 1 % grade, a whole number, at 1 to 10 % (small angles)."""
    for percent in (1, 5, 10):
        force = pto_power.grade_power(2000 * POUND, percent / 100, 1.0) / POUND_FORCE
        given, why = f"1 US ton on {percent} %", "small angles: sin for tan, 0.5 % at 10 %"
        of, near = pto_power.grade_power, 0.005 * 20 * percent
        published(of, given, 20 * percent, force, near, why, "power/S29", unit="lbf")


def test_rolling_on_hard_road_and_gravel() -> None:
    """power/S32, figures to 0.001: 0.008 and 0.012 of the weight."""
    of = pto_power.rolling_coefficient
    for ground, printed in (("hard road", 0.008), ("gravel", 0.012)):
        published(of, ground, printed, of(ground)[0], 0.0005, "printed to 0.001", "power/S32")


def test_axle_efficiency_of_two_test_sheets() -> None:
    """power/S33: 90 and 80 of 105 hp at the drawbar on concrete, divided by 0.93; to 0.01."""
    gear, hydro = (pto_power.axle_efficiency(d)[1] for d in ("gear", "hydrostatic"))
    assert gear == pytest.approx(90 / 105 / 0.93, abs=0.005)
    assert hydro == pytest.approx(80 / 105 / 0.93, abs=0.005)


# The rows that a public model (power/S15) prints with the same a, b, c as were recalled of
# ASAE D497: (row, width m, throughput t/h, kW), from its printed coefficients.
@pytest.mark.parametrize(
    ("key", "width", "flow", "a", "b", "c"),
    [
        ("mower_disk", 2.4, 0.0, 0.0, 5.0, 0.0),
        ("baler_small_square", 0.0, 8.0, 2.0, 0.0, 1.0),
        ("baler_large_square", 0.0, 20.0, 4.0, 0.0, 1.3),
        ("baler_round_variable", 0.0, 6.0, 4.0, 0.0, 1.1),
        ("manure_spreader", 0.0, 60.0, 0.0, 0.0, 0.2),
        ("forage_alfalfa", 0.0, 10.0, 6.0, 0.0, 4.0),
        ("forage_corn", 0.0, 10.0, 6.0, 0.0, 3.3),
        ("combine_corn", 0.0, 10.0, 35.0, 0.0, 1.6),
        ("conditioner_disk_model", 2.4, 0.0, 0.0, 5.0, 0.0),
        ("rake_side_model", 2.4, 0.0, 0.0, 1.0, 0.0),
        ("slurry_injector", 3.0, 50.0, 0.0, 16.0, 0.2),
    ],
)
def test_rotary_rows_of_a_public_model(
    key: str, width: float, flow: float, a: float, b: float, c: float
) -> None:
    """power/S15: coefficients printed to 0.1."""
    expected = (a + b * width + c * flow) * 1000
    assert implement_power.rotary_power(key, width, flow / 3.6) == pytest.approx(expected, rel=1e-9)


def test_disk_mower_against_the_textbook_form() -> None:
    """power/MOWER-memory at 8 km/h with sharp blades against the D497 row of power/S15.

    Tolerance: the textbook's idle loss is printed to 0.5 kW/m.
    """
    textbook = implement_power.mower_power(1.0, 8 / 3.6, 1500, 1500)
    assert textbook == pytest.approx(implement_power.rotary_power("mower_disk", 1.0), abs=250)


def test_measured_mulcher() -> None:
    """power/S18: 76 kW mean and 145 kW peak over 6 m, so 12.7 kW/m, 5.2 hp/ft and 24.2, 9.9."""
    typical = implement_power.density("rotary_cutter_measured")
    peak = implement_power.density("rotary_cutter_measured", "heavy")
    of, why = implement_power.density, "the printed total over 6 m, to a tenth"
    for given, printed, ours, unit in (
        ("76 kW mean over 6 m", 12.7, typical / 1000, "kW/m"),
        ("76 kW mean over 6 m", 5.2, typical * FOOT / HP, "hp/ft"),
        ("145 kW peak over 6 m", 24.2, peak / 1000, "kW/m"),
        ("145 kW peak over 6 m", 9.9, peak * FOOT / HP, "hp/ft"),
    ):
        published(of, given, printed, ours, 0.05, why, "power/S18", unit=unit)


def test_measured_mulcher_total() -> None:
    """power/S18: its totals over its own 6 m, in whole kilowatts."""
    of, ours = implement_power.demand, implement_power.demand("rotary_cutter_measured", 6.0)
    published(of, "6 m", 76.0, ours / 1000, 0.5, "whole kilowatts", "power/S18", unit="kW")


def test_rotary_cutter_table_of_a_web_article() -> None:
    """power/S17: 4 ft 16-25, 5 ft 20-30, 6 ft 25-40 hp; its extremes for a foot, to 0.05."""
    article = ((4, 16, 25), (5, 20, 30), (6, 25, 40))
    low = implement_power.density("rotary_cutter_article", "light") * FOOT / HP
    high = implement_power.density("rotary_cutter_article", "heavy") * FOOT / HP
    least = min(p / feet for feet, p, _ in article)
    most = max(p / feet for feet, _, p in article)
    of, why = implement_power.density, "our figure is kept to a tenth"
    published(of, "16 hp for 4 ft", least, low, 0.05, why, "power/S17", unit="hp/ft")
    published(of, "40 hp for 6 ft", most, high, 0.05, why, "power/S17", unit="hp/ft")


@pytest.mark.parametrize(("feet", "low", "high"), [(4, 16, 25), (5, 20, 30), (6, 25, 40)])
def test_rule_of_thumb_lies_in_the_article_s_ranges(feet: int, low: float, high: float) -> None:
    """power/S16, 5 hp for each foot, against power/S17."""
    assert low <= implement_power.demand("rotary_cutter", feet * FOOT) / HP <= high


def test_measured_lawn_deck() -> None:
    """power/S19: 8 to 10 kW on a 1.8 m deck; 1.8 to 2.3 hp/ft."""
    low = implement_power.density("finish_mower_measured", "light") * FOOT / HP
    high = implement_power.density("finish_mower_measured", "heavy") * FOOT / HP
    of, given, why = implement_power.density, "8 to 10 kW on a 1.8 m deck", "printed to a tenth"
    for printed, ours in ((1.8, low), (2.3, high)):
        published(of, given, printed, ours, 0.05, why, "power/S19", unit="hp/ft")
    assert implement_power.demand("finish_mower_measured", 1.8, "heavy") == pytest.approx(
        10e3, abs=50
    )


def test_measured_chipper() -> None:
    """power/S22: 12.2 to 15.4 kW for 70 to 120 mm logs, which is 16 to 21 hp.

    4 hp for each inch lies among them at the larger log; tolerance from 1 hp rounding.
    """
    custom = implement_power.demand("chipper", 0.120) / HP
    assert 16 - 0.5 <= custom <= 21 + 0.5


def test_generator_rule() -> None:
    """power/S23: at least two engine hp for each kW rated."""
    of, ours = (
        implement_power.generator_engine_power,
        implement_power.generator_engine_power(15e3) / HP,
    )
    published(
        of, "15 kW, 2 hp for each kW", 30, ours, 0.05, "a whole factor", "power/S23", unit="hp"
    )


def test_forms_of_the_flail_row_agree() -> None:
    """power/D497-memory: 10 kW/m is printed as 4.09 hp/ft."""
    assert implement_power.rotary_power("mower_flail", FOOT) / HP == pytest.approx(4.09, abs=0.005)


def test_drawbar_power_examples() -> None:
    """power/S3: 1,500 lbf at 5.5 mph is 22.0 hp, and 375 lbf at 1 mph is 1 hp; exact."""
    of, given = draft.drawbar_power, "1,500 lbf at 5.5 mph"
    ours = of(1500 * POUND_FORCE, 5.5 * MPH) / HP
    published(of, given, 22.0, ours, 0.05, "printed to a tenth", "power/S3", unit="hp")
    assert draft.drawbar_power(375 * POUND_FORCE, MPH) / HP == pytest.approx(1.0, abs=1e-9)


def test_drawbar_power_metric() -> None:
    """power/S4: kW = kN x km/h / 3.6; exact."""
    assert draft.drawbar_power(3.6e3, 1 / 3.6) == pytest.approx(1000.0, abs=1e-9)


def test_moldboard_plow() -> None:
    """power/S38: 1 m, 15 cm, 8 km/h, fine soil is 14,676 N; to 1 N."""
    of, given = draft.draft, "moldboard plow, 1 m, 15 cm, 8 km/h, fine soil"
    ours = of("moldboard_plow", 1.0, 8 / 3.6, 0.15, "fine")
    published(of, given, 14676, ours, 1, "printed to a newton", "power/S38", unit="N")


def test_extension_example() -> None:
    """power/S40: 24 ft, 6.0 mph, 200 lb/ft, firm soil 1.5 is 115 PTO hp; whole number."""
    drawbar = draft.drawbar_power(24 * 200 * POUND_FORCE, 6.0 * MPH)
    power = draft.pto_power_for(drawbar, draft.soil_factor("firm"))
    of, given = draft.pto_power_for, "24 ft, 6.0 mph, 200 lb/ft, soil factor 1.5"
    published(of, given, 115, power / HP, 0.5, "a whole number", "power/S40", unit="hp")


def test_disk_plow_examination_problem() -> None:
    """power/S51: four 30 cm disks, 15 cm deep, 10 N/cm2, 5 km/h is 25 kW drawbar."""
    pull = 4 * 30 * 15 * 10.0
    of, given = draft.drawbar_power, "4 disks of 30 cm, 15 cm deep, 10 N/cm², 5 km/h"
    ours, why = of(pull, 5 / 3.6) / 1000, "printed to a kilowatt, exact"
    published(of, given, 25.0, ours, 0.05, why, "power/S51", unit="kW")


@pytest.mark.parametrize(
    ("key", "a", "b", "c"),
    [
        ("moldboard_plow", 652, 0, 5.1),
        ("subsoiler_narrow", 226, 0, 1.8),
        ("disk_tandem_primary", 309, 16.0, 0),
        ("cultivator_primary", 46, 2.8, 0),
    ],
)
def test_draft_rows_of_two_public_models(key: str, a: float, b: float, c: float) -> None:
    """power/S15 and power/S38 print the same coefficients for these rows."""
    row = tables.by_key("power/draft", "key")[key]
    assert (float(row["a"]), float(row["b"]), float(row["c"])) == (a, b, c)
    speed = 8.0
    expected = (a + b * speed + c * speed * speed) * 2.0 * 10.0
    assert draft.draft(key, 2.0, speed / 3.6, 0.10, "fine") == pytest.approx(expected, rel=1e-12)
