"""Tires and duals against published numbers; the source stands beside each."""

import math

import pytest

from calc import tables
from calc.mechanics import bolts, duals, front_drive, ground, liquid_ballast, tire_load, tires
from calc.mechanics.tire_size import decode

IN = 0.0254
LB = 0.45359237
GAL = 0.003785411784
PSI = 6894.757
FT_LB = 1.3558179
LBF = 4.4482216


def size(text: str) -> tires.Dimensions:
    return tires.dimensions(decode(text))


# --- load index and speed symbols ------------------------------------------------------------


@pytest.mark.parametrize(
    ("index", "load_kg"),
    [
        (142, 2650),  # OM-5
        (165, 5150),  # OM-5
        (122, 1500),  # S2
        (116, 1250),  # S2
        (100, 800),  # S2 and WEB-3
        (80, 450),  # WEB-3
    ],
)
def test_load_index(index: int, load_kg: float) -> None:
    assert tire_load.load_of_index(index) == load_kg


def test_load_index_144_in_pounds() -> None:
    # TD-1 prints 6174 lb for 144 A3; the sheet rounds each of its loads to a pound or two.
    assert tire_load.load_of_index(144) / LB == pytest.approx(6174, abs=2)


@pytest.mark.parametrize(("symbol", "km_h"), [("A8", 40), ("B", 50)])  # OM-5
def test_speed_symbol(symbol: str, km_h: float) -> None:
    assert tire_load.speed_of_symbol(symbol) * 3.6 == pytest.approx(km_h)


# --- overall diameters, from more than one source --------------------------------------------


@pytest.mark.parametrize(
    ("text", "published_in"),
    [
        ("14.9R28", 53.8),  # WEB-1
        ("14.9R30", 55.8),  # WEB-1
        ("16.9R28", 56.5),  # WEB-1
        ("18.4R26", 57.1),  # WEB-1
        ("11.2-24", 43.4),  # WEB-4
    ],
)
def test_inch_rule_holds_the_published_diameter(text: str, published_in: float) -> None:
    diameter, error = tires.estimated_diameter(decode(text))
    assert diameter / IN == pytest.approx(published_in, rel=error)
    assert error < 0.02


@pytest.mark.parametrize(
    ("text", "published_mm"),
    [
        ("15x6.00-6", 358),  # TD-2, 2PR
        ("15x6.00-6", 365),  # TD-2, 4PR
        ("18x7.00-8", 457),  # TD-2
        ("18x8.50-8", 455),  # TD-2, 4PR
        ("18x8.50-8", 450),  # TD-2, 6PR
        ("20x8.00-8", 480),  # TD-2
        ("20x10.00-10", 500),  # TD-2
        ("23x10.50-12", 570),  # TD-2, 4PR
        ("23x10.50-12", 580),  # TD-2, 6PR
    ],
)
def test_flotation_rule_holds_the_published_diameter(text: str, published_mm: float) -> None:
    diameter, error = tires.estimated_diameter(decode(text))
    assert abs(diameter * 1000 - published_mm) <= error * diameter * 1000 + 0.5


@pytest.mark.parametrize(
    ("text", "field", "published_in", "rounding"),
    [
        ("12-16.5 12PR", "overall_diameter", 32.9, 0.05),  # TD-1
        ("12-16.5 12PR", "section_width", 12.0, 0.05),  # TD-1
        ("12-16.5 12PR", "static_loaded_radius", 15.1, 0.05),  # TD-1
        ("12-16.5 12PR", "rolling_circumference", 97.0, 0.5),  # TD-1
        ("14.9R28", "overall_diameter", 53.8, 0.05),  # WEB-1
        ("14.9R28", "section_width", 14.9, 0.05),  # WEB-1
    ],
)
def test_table_row(text: str, field: str, published_in: float, rounding: float) -> None:
    assert getattr(size(text), field) / IN == pytest.approx(published_in, abs=rounding)


def test_loaded_radius_rule() -> None:
    # TD-1 prints 15.1 in for a 12-16.5 of 32.9 in.
    radius = tires.loaded_radius(32.9 * IN, 16.5 * IN)
    assert radius / IN == pytest.approx(15.1, rel=tires.LOADED_RADIUS_ERROR)


@pytest.mark.parametrize(
    ("diameter_mm", "tread", "published_mm"),
    [
        (1265, "R-1", 3795),  # OM-6, 14.9-24
        (1750, "R-1", 5203),  # OM-6, 18.4-38
        (835.7, "R-4", 2464),  # TD-1, 12-16.5: 97 in
    ],
)
def test_rolling_rule_holds_the_published_circumference(
    diameter_mm: float, tread: str, published_mm: float
) -> None:
    factor, error = tires.rolling_factor(tread)
    assert tires.rolling_circumference(diameter_mm, tread) == pytest.approx(
        published_mm, rel=error / factor
    )


def test_metric_formula() -> None:
    # The standard's definition: 24 x 25.4 + 2 x 320 x 0.85.
    assert size("320/85R24 122A8").overall_diameter * 1000 == pytest.approx(1154, abs=0.5)
    assert tires.estimated_diameter(decode("320/85R24"))[0] * 1000 == pytest.approx(1153.6)


# --- rolling circumference index -------------------------------------------------------------


def test_rolling_index_groups_42_and_47() -> None:
    # WEB-5: 4505 and 5850 mm; S4 gives the step within 0.2 %.
    assert front_drive.index_circumference(42) * 1000 == pytest.approx(4505, rel=0.003)
    assert front_drive.index_circumference(47) * 1000 == pytest.approx(5850, abs=0.5)


@pytest.mark.parametrize(
    ("group", "diameter_in"),
    [(42, 59), (43, 63), (44, 66), (46, 73), (47, 77), (48, 81), (49, 85.5)],  # OM-7, S5
)
def test_rolling_index_diameters(group: int, diameter_in: float) -> None:
    # The manual calls them approximate and rounds to an inch, 0.8 % of the smallest.
    factor, error = tires.rolling_factor("R-1")
    diameter = front_drive.index_circumference(group) / (factor * math.pi)
    assert diameter / IN == pytest.approx(diameter_in, rel=error / factor, abs=0.5)


def test_five_step_tractor() -> None:
    # OM-4: rear group 48 goes with front group 43 on a five-step tractor.
    rear = front_drive.index_circumference(48)
    assert front_drive.index_group(rear / front_drive.INDEX_STEP**5) == 43


# --- front-drive lead ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ratio", "lead_pct"),
    [(1.392, 1.5), (1.347, -1.75)],  # ratios OM-2, circumferences OM-6
)
def test_lead_of_published_tires(ratio: float, lead_pct: float) -> None:
    front, rear = size("14.9-24"), size("18.4-38")
    found = front_drive.lead(front.rolling_circumference, rear.rolling_circumference, ratio)
    assert 100 * found == pytest.approx(lead_pct, abs=0.05)


def test_manual_design_center_lies_in_its_own_window_and_the_guides() -> None:
    # OM-6 divides by 102.75; OM-2 accepts 100 to 105 %.
    for key in ("limits", "manual", "guide"):
        window = front_drive.window(key)
        assert window.low < 0.0275 < window.high
    assert front_drive.window("limits").middle == pytest.approx(0.0275)


def test_counted_ratio() -> None:
    # WEB-7: ten rear turns, 13.5 front turns.
    assert front_drive.gear_ratio_from_turns(10, 13.5) == 1.35


def test_one_bar_in_twenty_turns() -> None:
    # S7: one bar of a 20-bar tire in 20 turns is a quarter of a percent.
    assert front_drive.lead_from_turns(20, 20 + 1 / 20) == pytest.approx(0.0025)


# --- load, pressure, speed -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mph_km_h", "psi", "load_lb"),
    [
        (10, 69, 6119),
        (10, 76, 6527),
        (10, 80, 6670),
        (15, 69, 5667),
        (15, 76, 6042),
        (15, 80, 6174),
        (20, 69, 5094),
        (20, 76, 5424),
        (20, 80, 5557),
        (30, 69, 4487),
        (30, 76, 4774),
        (30, 80, 4895),
    ],  # TD-1
)
def test_data_sheet_load(mph_km_h: float, psi: float, load_lb: float) -> None:
    load = tire_load.sheet_load("12-16.5", 12, psi * PSI, mph_km_h / 3.6)
    assert load / LB == pytest.approx(load_lb, abs=0.5)


@pytest.mark.parametrize(
    ("load_lb", "psi", "to_psi", "published_lb"),
    [
        (1760, 32, 20, 1340),  # TD-2, 23x10.50-12 6PR down to the 4PR's pressure
        (6174, 80, 69, 5667),  # TD-1, 15 km/h
        (6174, 80, 76, 6042),  # TD-1, 15 km/h
        (6670, 80, 69, 6119),  # TD-1, 10 km/h
        (4895, 80, 69, 4487),  # TD-1, 30 km/h
    ],
)
def test_pressure_law(load_lb: float, psi: float, to_psi: float, published_lb: float) -> None:
    assert tire_load.load_at_pressure(load_lb, to_psi, psi) == pytest.approx(published_lb, rel=0.01)


@pytest.mark.parametrize(("km_h", "factor"), [(10, 1.08), (15, 1.0), (20, 0.90), (30, 0.79)])
def test_loader_tire_speed_factor(km_h: float, factor: float) -> None:
    # TD-1, against the load of its index.
    index_load = tire_load.load_of_index(144)
    printed = tire_load.sheet_load("12-16.5", 12, 80 * PSI, km_h / 3.6)
    assert printed / index_load == pytest.approx(factor, abs=0.005)
    assert tire_load.speed_factor("A3", km_h / 3.6) == pytest.approx(factor, abs=0.005)


@pytest.mark.parametrize(
    ("text", "rating", "allowed"),
    [("9.5-16", 1040, 1040), ("20x8.00-10", 700, 700)],  # OM-10
)
def test_axle_of_a_compact(text: str, rating: float, allowed: float) -> None:
    limit = tire_load.road_limit(decode(text))
    assert limit is not None
    assert tire_load.axle_capacity(2, limit, rating) == allowed


def test_pressure_additions() -> None:
    # OM-13: 30 kPa with a loader, 28 kPa on a side slope, both printed as 4 psi; OM-14: 2 psi.
    rows = tables.by_key("tires/pressure_additions", "key")
    assert float(rows["slope"]["add_kpa"]) == pytest.approx(4 * 6.894757, abs=0.5)
    assert float(rows["liquid"]["add_kpa"]) == pytest.approx(2 * 6.894757, abs=0.5)
    assert pytest.approx(35 * PSI, rel=0.01) == tire_load.BEAD_SEATING_LIMIT  # OM-15


# --- liquid ballast --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "gallons"),
    [
        ("11.2-24", 24),
        ("12.4-24", 30),
        ("14.9-24", 47),
        ("16.9-30", 73),
        ("18.4-38", 110),
        ("17.5L-24", 55),
        ("7.50-16", 9),
        ("10-16.5", 12),
    ],  # DL-1
)
def test_chart_volume(text: str, gallons: float) -> None:
    assert liquid_ballast.fill_volume(size(text)).value / GAL == pytest.approx(gallons)


@pytest.mark.parametrize(
    ("width", "rim", "gallons"),
    [
        (11.2, 28, 27),
        (12.4, 28, 35),
        (12.4, 38, 46),
        (13.6, 24, 38),
        (13.6, 28, 43),
        (14.9, 26, 48),
        (14.9, 28, 53),
        (14.9, 30, 57),
        (16.9, 28, 69),
        (16.9, 38, 90),
        (18.4, 26, 79),
        (18.4, 34, 100),
        (20.8, 38, 140),
    ],  # DL-1
)
def test_volume_rule_against_the_chart(width: float, rim: float, gallons: float) -> None:
    low, high = liquid_ballast.DECIMAL_ERROR
    found = liquid_ballast.decimal_volume(width, rim) / GAL
    # The chart prints whole gallons.
    assert gallons * (1 + low) - 0.5 <= found <= gallons * (1 + high) + 0.5


@pytest.mark.parametrize(
    ("text", "full_litres"),
    [("13.6-28", 216), ("14.9-28", 265), ("12.4-28", 169), ("18.4-34", 481)],  # OM-3
)
def test_volume_against_a_second_source(text: str, full_litres: float) -> None:
    volume = liquid_ballast.fill_volume(size(text))
    assert volume.low <= full_litres * 0.75 / 1000 <= volume.high


def test_water_in_an_11_2_24() -> None:
    # DL-1: 24 gal, 200 lb.
    volume = liquid_ballast.fill_volume(size("11.2-24")).value
    density = liquid_ballast.WATER_LB_PER_GALLON * LB / GAL
    assert liquid_ballast.liquid_mass(volume, density) / LB == pytest.approx(200, abs=1)


@pytest.mark.parametrize(("pounds", "more_pct"), [(3.5, 20), (5, 28)])  # TG-5
def test_brine_against_water(pounds: float, more_pct: float) -> None:
    fraction = liquid_ballast.brine_mass_fraction(pounds * LB / GAL)
    more = liquid_ballast.brine_density(fraction) / liquid_ballast.brine_density(0.0) - 1
    assert 100 * more == pytest.approx(more_pct, abs=1)


@pytest.mark.parametrize(("pounds", "grams_per_litre"), [(3.5, 420), (5, 600)])  # OM-1
def test_salt_per_water(pounds: float, grams_per_litre: float) -> None:
    assert pounds * LB / GAL == pytest.approx(grams_per_litre, rel=0.01)


def test_brine_in_a_12_4_16() -> None:
    # OM-8: 85 kg at 2 lb of flake for each gallon of water; the manual rounds to 5 kg.
    volume = liquid_ballast.fill_volume(size("12.4-16"))
    least, most = (
        liquid_ballast.brine_recipe(part, 2 * LB / GAL)[2] for part in (volume.low, volume.high)
    )
    assert least - 2.5 <= 85 <= most + 2.5


@pytest.mark.parametrize(
    ("key", "degrees_c"),
    [("propylene-glycol-40", -20.6), ("propylene-glycol-30", -12.8), ("methanol-40", -30.0)],  # S8
)
def test_freezing_point(key: str, degrees_c: float) -> None:
    row = tables.by_key("tires/ballast_liquids", "key")[key]
    assert float(row["solid_c"]) == degrees_c


@pytest.mark.parametrize(
    ("key", "slush_f", "solid_f"),
    [("calcium-2", 14, -22), ("calcium-3.5", -11, -52), ("calcium-5", -52, -62)],  # OM-8
)
def test_brine_freezing(key: str, slush_f: float, solid_f: float) -> None:
    row = tables.by_key("tires/ballast_liquids", "key")[key]
    assert float(row["slush_c"]) * 1.8 + 32 == pytest.approx(slush_f, abs=1)
    # The manual pairs whole degrees of both scales, at most 1.3 F apart.
    assert float(row["solid_c"]) * 1.8 + 32 == pytest.approx(solid_f, abs=1.3)


# --- ground ----------------------------------------------------------------------------------


def test_peak_stress() -> None:
    # S9: on average 39 % above tire pressure at 10 cm, at 70, 100 and 150 kPa.
    for kpa in (70, 100, 150):
        assert ground.peak_stress(kpa * 1000.0) == pytest.approx(1.39 * kpa * 1000)


# --- duals and bolts -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("width_text", "section_mm", "spacing_mm"),
    [("14.9", 378, 480), ("16.9", 429, 536), ("18.4", 467, 578), ("320", 320, 416)],  # OM-16
)
def test_dual_spacing(width_text: str, section_mm: float, spacing_mm: float) -> None:
    assert duals.published_spacing(width_text) == pytest.approx(spacing_mm / 1000)
    rule = duals.least_spacing(section_mm / 1000) * 1000
    assert rule == pytest.approx(spacing_mm, abs=3.1)


@pytest.mark.parametrize(
    ("thread", "grade", "clamp_lbf", "torque_ft_lb"),
    [("3/8-16", "2", 3197, 20), ("1/2-13", "2", 5853, 48.8), ("3/4-10", "2", 13778, 172)],  # FS-1
)
def test_grade_2_bolt(thread: str, grade: str, clamp_lbf: float, torque_ft_lb: float) -> None:
    diameter, area = bolts.thread(thread)
    clamp = bolts.clamp_load(bolts.proof_stress(grade, diameter), area)
    assert clamp / LBF == pytest.approx(clamp_lbf, abs=1)
    torque = bolts.tightening_torque(clamp, diameter, bolts.NUT_FACTOR["dry"])
    assert torque / FT_LB == pytest.approx(torque_ft_lb, abs=0.5)


@pytest.mark.parametrize(
    ("thread", "grade", "dry", "lubricated"),
    [
        ("1/2-13", "5", 75, 57),
        ("1/2-13", "8", 106, 80),
        ("3/4-10", "5", 267, 200),
        ("3/4-10", "8", 376, 282),
        ("3/8-16", "8", 44, 33),
    ],  # FS-4
)
def test_bolt_torque(thread: str, grade: str, dry: float, lubricated: float) -> None:
    diameter, area = bolts.thread(thread)
    clamp = bolts.clamp_load(bolts.proof_stress(grade, diameter), area)
    for state, printed in (("dry", dry), ("lubricated", lubricated)):
        torque = bolts.tightening_torque(clamp, diameter, bolts.NUT_FACTOR[state])
        assert torque / FT_LB == pytest.approx(printed, abs=1)


@pytest.mark.parametrize(
    ("thread", "proof_n", "clamp_n"),
    [("M8", 21200, 15900), ("M10", 33700, 25300)],  # FS-5
)
def test_metric_bolt(thread: str, proof_n: float, clamp_n: float) -> None:
    diameter, area = bolts.thread(thread)
    proof = bolts.proof_stress("8.8", diameter)
    # The sheet rounds to 100 N, from a stress area of more digits than ours.
    assert proof * area == pytest.approx(proof_n, abs=100)
    assert bolts.clamp_load(proof, area) == pytest.approx(clamp_n, abs=100)
