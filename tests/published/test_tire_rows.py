"""Tires read row by row: loads at pressure, diameters by tread, radials, liquids, pairs.

Each value is written again from its source, which stands beside it; the tolerance is the
source's rounding, or the error that the package itself states where a rule is held to a row.
"""

import math

import pytest

from calc import search, si, tables, worksheets
from calc.mechanics import tire_load, tire_rating, tire_rolling, tires
from calc.mechanics.tire_size import decode
from tests.published.rows import published
from tests.tire_rows import size

MM, KPA = 1e-3, 1000.0


# --- loads at pressure, from the row of the ply rating (TY-A: a tire maker's data file) --------


@pytest.mark.parametrize(
    ("text", "kpa", "load_kg"),
    [
        ("5.00-12 6PR R-1", 210, 320),
        ("6.00-12 8PR R-1", 300, 450),
        ("8-16 8PR R-1", 250, 800),
        ("8-18 8PR R-1", 250, 900),
        ("8.3-20 8PR R-1", 300, 785),
        ("9.5-24 8PR R-1", 280, 1090),
        ("11.2-24 8PR R-1", 240, 1225),
        ("11.2-28 8PR R-1", 240, 1305),
        ("12.4-24 12PR R-1", 230, 1415),
        ("13.6-28 8PR R-1", 210, 1645),
        ("14.9-28 12PR R-1", 230, 2120),
        ("14.9-30 10PR R-1", 230, 2190),
        ("16.9-28 10PR R-1", 200, 2380),
        ("16.9-34 10PR R-1", 200, 2605),
        ("18.4-30 12PR R-1", 230, 3150),
        ("18.4-34 12PR R-1", 230, 3350),
        ("16.9-24 16PR R-4", 350, 3550),
        ("16.9-28 12PR R-4", 260, 3450),
        ("17.5L-24 12PR R-4", 260, 3000),
        ("18.4-26 12PR R-4", 250, 3875),
        ("21L-24 12PR R-4", 220, 3875),
    ],
)
def test_load_in_the_row(text: str, kpa: float, load_kg: float) -> None:
    found = tire_rating.load_in_row(decode(text), kpa * KPA)
    given = f"{text} at {kpa} kPa"
    of, why = tire_rating.load_in_row, "kept as read, printed to 5 kg"
    published(of, given, load_kg, found, 2.5, why, "tires/TY-A", unit="kg")
    rated = tire_rating.rating(decode(text))
    assert rated is not None and rated.load == pytest.approx(load_kg)


@pytest.mark.parametrize(
    ("text", "kpa", "load_kg", "source"),
    [
        ("18x6.50-8 6PR", 345, 569, "tires/TD-3"),
        ("205/65-10 4PR R-3", 241, 413, "tires/TD-3"),
        ("215/50-12 4PR R-3", 241, 431, "tires/TD-3"),
        ("23x10.50-12 6PR", 221, 798, "tires/TD-2, 1760 lb at 32 psi"),
        ("20x10.00-10 4PR", 152, 526, "tires/TD-2, 1160 lb at 22 psi"),
    ],
)
def test_load_of_a_turf_tire(text: str, kpa: float, load_kg: float, source: str) -> None:
    found = tire_rating.load_in_row(decode(text), kpa * KPA)
    given = f"{text} at {kpa} kPa"
    why = "printed in whole lb and psi, converted to whole kg and kPa: 0.3 %"
    published(
        tire_rating.load_in_row, given, load_kg, found, 0.003 * load_kg, why, source, unit="kg"
    )


def test_two_rows_of_one_ply_are_not_stretched() -> None:
    # TY-A: 10-16.5 12PR of two patterns, 2170 kg at 520 kPa and 2375 kg at 620 kPa.
    tire = decode("10-16.5 12PR R-4")
    for kpa, load_kg in ((520, 2170), (620, 2375)):
        found = tire_rating.load_in_row(tire, kpa * KPA)
        given = f"10-16.5 12PR R-4 at {kpa} kPa"
        of, why = tire_rating.load_in_row, "kept as read, printed to 5 kg"
        published(of, given, load_kg, found, 2.5, why, "tires/TY-A", unit="kg")
    assert 2170 < tire_rating.load_in_row(tire, 570 * KPA) < 2375
    assert tire_rating.load_in_row(tire, 700 * KPA) == pytest.approx(2375)


@pytest.mark.parametrize(
    ("km_h", "load_lb"), [(10, 6527), (15, 6042), (20, 5424), (30, 4774)]
)  # TD-1 at 76 psi
def test_load_of_a_loader_tire_falls_with_speed(km_h: float, load_lb: float) -> None:
    tire = decode("12-16.5 12PR")
    found = tire_rating.load_in_row(tire, 76 * si.PSI, km_h / 3.6)
    given = f"12-16.5 12PR at 76 psi and {km_h} km/h"
    of, ours = tire_rating.load_in_row, found / si.POUND
    published(of, given, load_lb, ours, 0.5, "printed to the pound", "tires/TD-1", unit="lb")


def test_load_index_134_is_the_ply_rows_load() -> None:
    # TY-A prints 2120 kg for 14.9-28 12PR, which is load index 134 of S2.
    of, ours = tire_load.load_of_index, tire_load.load_of_index(134)
    why = "a step of the series, printed to 5 kg"
    place = "14.9-28 12PR"
    published(of, "load index 134", 2120, ours, 2.5, why, "tires/TY-A", place, unit="kg")


# --- diameters by tread --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "diameter_mm", "width_mm"),
    [
        ("5.00-12 R-1", 590, 145),
        ("6.00-12 R-1", 640, 165),
        ("8.3-22 R-1", 970, 210),
        ("9.5-22 R-1", 970, 240),
        ("13.6-38 R-1", 1575, 330),
        ("18.4-34 R-1", 1655, 467),
        ("11-32 R-1", 1460, 305),
        ("8.3-20 R-2", 950, 210),
        ("8.3-24 R-2", 1050, 210),
        ("11.2-24 R-2", 1205, 285),
        ("7.50-16 R-2", 890, 195),
        ("18.4-26 R-4", 1426, 467),
        ("21L-24 R-4", 1402, 533),
        ("19.5L-24 R-4", 1314, 495),
        ("18x6.50-8 R-3", 470, 165),
        ("205/50-10 R-3", 460, 198),
    ],
)  # TY-A, and TD-3 for R-3
def test_row_by_tread(text: str, diameter_mm: float, width_mm: float) -> None:
    found = size(text)
    source = "tires/TD-3" if text.endswith("R-3") else "tires/TY-A"
    of, why = tires.dimensions, "kept as read, printed to the millimeter"
    over, across = found.overall_diameter / MM, found.section_width / MM
    published(of, f"diameter of {text}", diameter_mm, over, 0.5, why, source, unit="mm")
    published(of, f"width of {text}", width_mm, across, 0.5, why, source, unit="mm")


@pytest.mark.parametrize(
    ("text", "printed_mm"),
    [("8-16", 824), ("8-16", 828), ("10-16.5", 779), ("10-16.5", 773), ("12-16.5", 831)],
)  # TY-A, two patterns of one size; 12-16.5 against TD-1's 836
def test_makers_and_patterns_stay_within_the_stated_error(text: str, printed_mm: float) -> None:
    found = size(text)
    published(
        tires.dimensions,
        f"diameter of {text}, another maker or pattern",
        printed_mm,
        found.overall_diameter / MM,
        found.diameter_error * printed_mm,
        "the error that we state for this size",
        "tires/TY-A",
        unit="mm",
    )


@pytest.mark.parametrize(
    ("width_text", "least_mm", "most_mm"),
    [("5.00-12", 14, 22), ("8.3-20", 25, 26), ("11.2-24", 30, 32), ("16.9-28", 32, 40)],
)  # TY-A, lug depth of an R-1; the rule may miss a single size by 7 mm
def test_lug_depth(width_text: str, least_mm: float, most_mm: float) -> None:
    depth = tires.lug_depth(decode(width_text)) / MM
    assert least_mm - 7 <= depth <= most_mm + 7


@pytest.mark.parametrize(
    ("tread", "factor", "source"),
    [
        ("R-1W", 1.225, "tires/TG-7"),
        ("R-2", 2.0, "tires/AT-1"),
        ("R-3", 0.5, "tires/AT-1"),
        ("R-4", 0.7, "tires/FO-1"),
    ],
)
def test_tread_depth_against_r_1(tread: str, factor: float, source: str) -> None:
    tire = decode("11.2-24")
    times = tires.lug_depth(tire, tread) / tires.lug_depth(tire)
    given = f"depth of {tread} against R-1"
    why = "said in round shares, to 5 %"
    published(tires.lug_depth, given, factor, times, 0.03, why, source, unit="times")


# --- industrial radials (TY-C: a dealer's table of loaded radius and rolling circumference) ------

RADIALS = [
    ("11LR16", 850, 370, 2530),
    ("340/80R18", 994, 440, 3020),
    ("400/70R18", 1010, 450, 3040),
    ("400/70R20", 1065, 475, 3200),
    ("400/70R24", 1165, 520, 3520),
    ("440/80R24", 1312, 585, 3975),
    ("460/70R24", 1250, 555, 3790),
    ("480/80R26", 1425, 630, 4315),
]


@pytest.mark.parametrize(("text", "diameter_mm", "radius_mm", "rolled_mm"), RADIALS)
def test_radial_row(text: str, diameter_mm: float, radius_mm: float, rolled_mm: float) -> None:
    found = size(f"{text} R-4")
    assert found.static_loaded_radius and found.rolling_circumference
    for what, printed, ours in (
        ("diameter", diameter_mm, found.overall_diameter),
        ("loaded radius", radius_mm, found.static_loaded_radius),
        ("rolling circumference", rolled_mm, found.rolling_circumference),
    ):
        of, why = tires.dimensions, "kept as read, printed to the millimeter"
        given = f"{what} of {text} R-4"
        published(of, given, printed, ours / MM, 0.5, why, "tires/TY-C", unit="mm")


@pytest.mark.parametrize(("text", "diameter_mm", "radius_mm", "rolled_mm"), RADIALS)
def test_radial_rules(text: str, diameter_mm: float, radius_mm: float, rolled_mm: float) -> None:
    rim = decode(text).rim * 0.0254
    radius = tire_rolling.loaded_radius(diameter_mm * MM, rim, radial=True)
    published(
        tire_rolling.loaded_radius,
        f"radial of {diameter_mm} mm on a {decode(text).rim:g} in rim",
        radius_mm,
        radius / MM,
        tire_rolling.RADIAL_RADIUS_ERROR * radius_mm,
        "the error that we state for the rule",
        "tires/TY-C",
        text,
        unit="mm",
    )
    factor, error = tire_rolling.rolling_factor("R-4", radial=True)
    published(
        tire_rolling.rolling_factor,
        f"radial R-4 of {diameter_mm} mm",
        rolled_mm,
        factor * math.pi * diameter_mm,
        error * math.pi * diameter_mm,
        "the error that we state for the rule",
        "tires/TY-C",
        text,
        unit="mm",
    )
    # A bias tire's constant would miss six of the eight.
    assert tire_rolling.rolling_factor("R-1")[0] < factor


@pytest.mark.parametrize(
    ("text", "metric_mm"),
    [("460/70R24", 1250), ("440/80R24", 1312), ("480/80R26", 1425), ("400/70R24", 1165)],
)  # TY-C: the read diameter runs 0.1 to 0.7 % under the designation's formula
def test_metric_formula_is_a_slight_overestimate(text: str, metric_mm: float) -> None:
    formula, error = tires.estimated_diameter(decode(text))
    of, given = tires.estimated_diameter, f"diameter of {text} by the formula"
    why, off = "the error that we state for the formula", error * metric_mm
    published(of, given, metric_mm, formula / MM, off, why, "tires/TY-C", unit="mm")
    assert 0.0005 <= formula / MM / metric_mm - 1 <= 0.0085
    assert error >= 0.0085


# --- pairs that makers sell (PR-1): the ratio that one drive needs --------------------------------


@pytest.mark.parametrize(
    ("front", "rear", "ratio"),
    [
        ("11.2-24 R-1", "16.9-30 R-1", 1.344),
        ("13.6-24 R-1", "18.4-34 R-1", 1.368),
        ("9.5-16 R-1", "13.6-24 R-1", 1.432),
        ("12-16.5 R-4", "17.5L-24 R-4", 1.484),
        ("7-14 R-1", "11.2-24 R-1", 1.497),
        ("9.5-24 R-1", "16.9-28 R-1", 1.367),
    ],
)
def test_pair_ratio(front: str, rear: str, ratio: float) -> None:
    # The ratios are worked out here from the pairs: no published numbers.
    found = size(rear).overall_diameter / size(front).overall_diameter
    assert found == pytest.approx(ratio, rel=0.02)


# --- liquids by strength --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "celsius", "density", "source"),
    [
        ("propylene-glycol-20", -6.7, 1.017, "tires/S8"),
        ("propylene-glycol-30", -12.8, 1.024, "tires/S8"),
        ("propylene-glycol", -33.3, 1.040, "tires/S8"),  # 50 %
        ("methanol-20", -11.7, 0.974, "tires/S8"),
        ("methanol-30", -20.0, 0.963, "tires/S8"),
        ("ethylene-glycol-28", -10.0, 1.034, "tires/EM-1"),
        ("ethylene-glycol-38", -20.0, 1.051, "tires/EM-1"),
        ("ethylene-glycol", -35.0, 1.067, "tires/EM-1"),  # 50 %
        ("ethylene-glycol-100", -13.0, 1.113, "tires/EM-1"),
        ("magnesium-21", -30.6, 1.190, "tires/S8"),
        ("magnesium-30", -16.7, 1.283, "tires/S8"),
    ],
)
def test_liquid_by_strength(key: str, celsius: float, density: float, source: str) -> None:
    row = tables.by_key("tires/ballast_liquids", "key")[key]
    solid, heavy = float(row["solid_c"]), float(row["density_kg_l"])
    of, name = "tires/ballast_liquids", row["label"]
    why = "kept as read, printed to a tenth"
    published(of, f"{name}: solid at", celsius, solid, 0.05, why, source, unit="°C")
    why = "kept as read, printed to 0.001"
    published(of, f"{name}: density", density, heavy, 0.0005, why, source, unit="kg/L")


@pytest.mark.parametrize(("key", "fahrenheit"), [("washer-32", 32), ("washer-0", 0)])
def test_washer_fluid_freezes_where_its_jug_says(key: str, fahrenheit: float) -> None:
    # The grade is the label's own number, in whole degrees.
    typed = {"rear_tire": "12.4-24 R-1", "liquid": key, "fill": "75 %"}
    sheet = worksheets.load("tires")
    for coldest, finding in (
        (fahrenheit + 5, "within"),
        (fahrenheit + 1, "close"),
        (fahrenheit - 1, "over"),
    ):
        found = search.answer(sheet, {**typed, "coldest": f"{coldest} F"}, ask="liquid")
        assert found.finding == finding


@pytest.mark.parametrize(
    ("size", "bars", "rice"),
    [("8.3-20", 895, 950), ("11.2-24", 1105, 1205)],
)
def test_rice_treads_by_the_rule_for_sizes_that_no_row_has(size: str, bars: int, rice: int) -> None:
    # A maker's file prints both treads of these two sizes; the rule lies between them.
    of, given = tires.tread_change, f"{size}: R-1 of {bars} mm, as an R-2"
    factor, band = of("R-1", "R-2")
    why = "two sizes of one maker, 6.1 and 9.0 % taller"
    published(of, given, rice, bars * factor, band * bars + 0.5, why, "tires/TY-A", unit="mm")
