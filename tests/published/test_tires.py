"""Tires and duals against published numbers; the source stands beside each."""

import math

import pytest

from calc import tables
from calc.mechanics import (
    bolts,
    duals,
    front_drive,
    ground,
    tire_load,
    tire_rolling,
    tires,
)
from calc.mechanics.tire_size import decode
from tests.published.rows import published
from tests.tire_rows import size

IN = 0.0254
LB = 0.45359237
PSI = 6894.757
FT_LB = 1.3558179
LBF = 4.4482216


# --- load index and speed symbols -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("index", "load_kg", "source"),
    [
        (142, 2650, "tires/OM-5"),
        (165, 5150, "tires/OM-5"),
        (122, 1500, "tires/S2"),
        (116, 1250, "tires/S2"),
        (100, 800, "tires/S2"),
        (100, 800, "tires/WEB-3"),
        (80, 450, "tires/WEB-3"),
    ],
)
def test_load_index(index: int, load_kg: float, source: str) -> None:
    of, ours = tire_load.load_of_index, tire_load.load_of_index(index)
    why = "a step of the series, in whole kg"
    published(of, f"load index {index}", load_kg, ours, 0.5, why, source, unit="kg")


def test_load_index_144_in_pounds() -> None:
    of, ours = tire_load.load_of_index, tire_load.load_of_index(144) / LB
    why = "the sheet rounds each of its loads to a pound or two"
    published(of, "load index 144", 6174, ours, 2, why, "tires/TD-1", "144 A3", unit="lb")


@pytest.mark.parametrize(("symbol", "km_h"), [("A8", 40), ("B", 50)])  # OM-5
def test_speed_symbol(symbol: str, km_h: float) -> None:
    of, ours = tire_load.speed_of_symbol, tire_load.speed_of_symbol(symbol) * 3.6
    given, why = f"speed symbol {symbol}", "a step of the series, in whole km/h"
    published(of, given, km_h, ours, 0.5, why, "tires/OM-5", unit="km/h")


SYMBOLS = {"A1": 5, "A2": 10, "A3": 15, "A4": 20, "A5": 25, "A6": 30, "A7": 35, "A8": 40}
SYMBOLS |= {"B": 50, "C": 60, "D": 65, "E": 70, "F": 80, "G": 90, "J": 100}


@pytest.mark.parametrize(("symbol", "km_h"), list(SYMBOLS.items()))
def test_every_speed_symbol(symbol: str, km_h: float) -> None:
    of, ours = tire_load.speed_of_symbol, tire_load.speed_of_symbol(symbol) * 3.6
    given, why = f"speed symbol {symbol}", "a step of the series, in whole km/h"
    published(of, given, km_h, ours, 0.5, why, "tires/WEB-11", unit="km/h")


# --- overall diameters, from more than one source -------------------------------------------------


@pytest.mark.parametrize(
    ("text", "published_in", "source"),
    [
        ("14.9R28", 53.8, "tires/WEB-1"),
        ("14.9R30", 55.8, "tires/WEB-1"),
        ("16.9R28", 56.5, "tires/WEB-1"),
        ("18.4R26", 57.1, "tires/WEB-1"),
        ("11.2-24", 43.4, "tires/WEB-4"),
    ],
)
def test_inch_rule_holds_the_published_diameter(
    text: str, published_in: float, source: str
) -> None:
    diameter, error = tires.estimated_diameter(decode(text))
    of, given = tires.estimated_diameter, f"diameter of {text} by the rule"
    off, why = error * published_in, "the error that we state for the rule"
    published(of, given, published_in, diameter / IN, off, why, source, unit="in")
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
    off = error * diameter * 1000 + 0.5
    why = "the error that we state for the rule, and whole millimeters"
    of, given = tires.estimated_diameter, f"diameter of {text} by the rule"
    published(of, given, published_mm, diameter * 1000, off, why, "tires/TD-2", unit="mm")


@pytest.mark.parametrize(
    ("text", "field", "published_in", "rounding", "source"),
    [
        ("12-16.5 12PR", "overall_diameter", 32.9, 0.05, "tires/TD-1"),
        ("12-16.5 12PR", "section_width", 12.0, 0.05, "tires/TD-1"),
        ("12-16.5 12PR", "static_loaded_radius", 15.1, 0.05, "tires/TD-1"),
        ("12-16.5 12PR", "rolling_circumference", 97.0, 0.5, "tires/TD-1"),
        ("14.9R28", "overall_diameter", 53.8, 0.05, "tires/WEB-1"),
        ("14.9R28", "section_width", 14.9, 0.05, "tires/WEB-1"),
    ],
)
def test_table_row(
    text: str, field: str, published_in: float, rounding: float, source: str
) -> None:
    ours = getattr(size(text), field) / IN
    given = f"{field.replace('_', ' ')} of {text}"
    why = f"kept as read, printed to {2 * rounding:g} in"
    published(tires.dimensions, given, published_in, ours, rounding, why, source, unit="in")


def test_loaded_radius_rule() -> None:
    ours = tire_rolling.loaded_radius(32.9 * IN, 16.5 * IN) / IN
    of, given = tire_rolling.loaded_radius, "12-16.5 of 32.9 in"
    off, why = tire_rolling.LOADED_RADIUS_ERROR * 15.1, "the error that we state for the rule"
    published(of, given, 15.1, ours, off, why, "tires/TD-1", unit="in")


@pytest.mark.parametrize(
    ("diameter_mm", "tread", "published_mm", "source"),
    [
        (1265, "R-1", 3795, "tires/OM-6, 14.9-24"),
        (1750, "R-1", 5203, "tires/OM-6, 18.4-38"),
        (835.7, "R-4", 2464, "tires/TD-1, 12-16.5: 97 in"),
    ],
)
def test_rolling_rule_holds_the_published_circumference(
    diameter_mm: float, tread: str, published_mm: float, source: str
) -> None:
    factor, error = tire_rolling.rolling_factor(tread)
    ours = tire_rolling.rolling_circumference(diameter_mm, tread)
    of, given = tire_rolling.rolling_circumference, f"{tread} of {diameter_mm} mm"
    off, why = published_mm * error / factor, "the error that we state for the rule"
    published(of, given, published_mm, ours, off, why, source, unit="mm")


def test_metric_formula() -> None:
    # The standard's definition: 24 x 25.4 + 2 x 320 x 0.85.
    assert size("320/85R24 122A8").overall_diameter * 1000 == pytest.approx(1154, abs=0.5)
    assert tires.estimated_diameter(decode("320/85R24"))[0] * 1000 == pytest.approx(1153.6)


# --- rolling circumference index ------------------------------------------------------------------


def test_rolling_index_groups_42_and_47() -> None:
    # Group 47 is where our series starts; S4 gives its step.
    of, source = front_drive.index_circumference, "tires/WEB-5"
    ours = of(42) * 1000
    why = "five steps of the series, each known within 0.2 %, agree to 0.3 %"
    published(of, "group 42", 4505, ours, 0.003 * 4505, why, source, unit="mm")
    ours = of(47) * 1000
    published(of, "group 47", 5850, ours, 0.5, "printed to the millimeter", source, unit="mm")


@pytest.mark.parametrize(
    ("group", "diameter_in"),
    [(42, 59), (43, 63), (44, 66), (46, 73), (47, 77), (48, 81), (49, 85.5)],  # OM-7, S5
)
def test_rolling_index_diameters(group: int, diameter_in: float) -> None:
    # The manual calls them approximate and rounds to an inch, 0.8 % of the smallest.
    factor, error = tire_rolling.rolling_factor("R-1")
    ours = front_drive.index_circumference(group) / (factor * math.pi) / IN
    of, given = front_drive.index_circumference, f"diameter of an R-1 of group {group}"
    off = max(0.5, diameter_in * error / factor)
    why = "printed to the inch as approximate; the error that we state for the rule"
    published(of, given, diameter_in, ours, off, why, "tires/OM-7", unit="in")


def test_five_step_tractor() -> None:
    rear = front_drive.index_circumference(48)
    ours = front_drive.index_group(rear / front_drive.INDEX_STEP**5)
    of, given = front_drive.index_group, "front group for rear group 48, five steps"
    published(of, given, 43, ours, 0, "a whole group", "tires/OM-4")


# --- front-drive lead -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ratio", "lead_pct"),
    [(1.392, 1.5), (1.347, -1.75)],  # ratios OM-2, circumferences OM-6
)
def test_lead_of_published_tires(ratio: float, lead_pct: float) -> None:
    front, rear = size("14.9-24"), size("18.4-38")
    found = front_drive.lead(front.rolling_circumference, rear.rolling_circumference, ratio)
    # The lead is worked out here from the two printed tables: no published number.
    assert 100 * found == pytest.approx(lead_pct, abs=0.05)


def test_manual_design_center_lies_in_its_own_window_and_the_guides() -> None:
    # OM-6 divides by 102.75; OM-2 accepts 100 to 105 %.
    for key in ("limits", "manual", "guide"):
        window = front_drive.window(key)
        assert window.low < 0.0275 < window.high
    assert front_drive.window("limits").middle == pytest.approx(0.0275)


def test_counted_ratio() -> None:
    of, ours = front_drive.gear_ratio_from_turns, front_drive.gear_ratio_from_turns(10, 13.5)
    given, why = "10 turns behind, 13.5 in front", "printed to 0.01"
    published(of, given, 1.35, ours, 0.005, why, "tires/WEB-7")


def test_one_bar_in_twenty_turns() -> None:
    of, ours = front_drive.lead_from_turns, 100 * front_drive.lead_from_turns(20, 20 + 1 / 20)
    given, why = "one bar of a 20-bar tire more in 20 turns", "printed as a quarter"
    published(of, given, 0.25, ours, 0.005, why, "tires/S7", unit="%")


# --- load, pressure, speed ------------------------------------------------------------------------


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
    of, given = tire_load.sheet_load, f"12-16.5 12PR at {psi} psi and {mph_km_h} km/h"
    why = "kept as read, printed to the pound"
    published(of, given, load_lb, load / LB, 0.5, why, "tires/TD-1", unit="lb")


@pytest.mark.parametrize(
    ("load_lb", "psi", "to_psi", "published_lb", "source"),
    [
        (1760, 32, 20, 1340, "tires/TD-2, 23x10.50-12 6PR down to the pressure of the 4PR"),
        (6174, 80, 69, 5667, "tires/TD-1, 15 km/h"),
        (6174, 80, 76, 6042, "tires/TD-1, 15 km/h"),
        (6670, 80, 69, 6119, "tires/TD-1, 10 km/h"),
        (4895, 80, 69, 4487, "tires/TD-1, 30 km/h"),
    ],
)
def test_pressure_law(
    load_lb: float, psi: float, to_psi: float, published_lb: float, source: str
) -> None:
    ours = tire_load.load_at_pressure(load_lb, to_psi, psi)
    of, given = tire_load.load_at_pressure, f"{load_lb} lb at {psi} psi, down to {to_psi} psi"
    off, why = 0.01 * published_lb, "the law follows the sheets within 1 %"
    published(of, given, published_lb, ours, off, why, source, unit="lb")


@pytest.mark.parametrize(("km_h", "factor"), [(10, 1.08), (15, 1.0), (20, 0.90), (30, 0.79)])
def test_loader_tire_speed_factor(km_h: float, factor: float) -> None:
    # TD-1, against the load of its index; the quotient is worked out here.
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
    of, ours = tire_load.axle_capacity, tire_load.axle_capacity(2, limit, rating)
    given, why = f"two {text} on an axle rated {rating} kg", "printed to 10 kg"
    published(of, given, allowed, ours, 5, why, "tires/OM-10", unit="kg")


def test_pressure_additions() -> None:
    # OM-13: 30 kPa with a loader, 28 kPa on a side slope, both printed as 4 psi; OM-14: 2 psi.
    rows = tables.by_key("tires/pressure_additions", "key")
    of, why = "tires/pressure_additions", "kept in whole kPa"
    for key, psi, source in (("slope", 4, "tires/OM-13"), ("liquid", 2, "tires/OM-14")):
        given, ours = f"added for {key}", float(rows[key]["add_kpa"]) * 1000 / PSI
        published(of, given, psi, ours, 500 / PSI, why, source, unit="psi")
    limit, why = tire_load.BEAD_SEATING_LIMIT / PSI, "printed to the psi"
    of = "mechanics.tire_load.BEAD_SEATING_LIMIT"
    published(of, "seating beads, at most", 35, limit, 0.35, why, "tires/OM-15", unit="psi")


# --- ground ---------------------------------------------------------------------------------------


def test_peak_stress() -> None:
    # S9: on average 39 % above tire pressure at 10 cm, at 70, 100 and 150 kPa.
    for kpa in (70, 100, 150):
        more = 100 * (ground.peak_stress(kpa * 1000.0) / (kpa * 1000.0) - 1)
        of, given = ground.peak_stress, f"10 cm down, tire at {kpa} kPa"
        published(of, given, 39, more, 0.5, "printed to the percent", "tires/S9", unit="% more")


# --- duals and bolts ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("width_text", "section_mm", "spacing_mm"),
    [("14.9", 378, 480), ("16.9", 429, 536), ("18.4", 467, 578), ("320", 320, 416)],  # OM-16
)
def test_dual_spacing(width_text: str, section_mm: float, spacing_mm: float) -> None:
    kept = duals.published_spacing(width_text)
    assert kept is not None
    of, source = duals.published_spacing, "tires/OM-16"
    why = "kept as read, printed to the millimeter"
    published(of, width_text, spacing_mm, kept * 1000, 0.5, why, source, unit="mm")
    of, rule = duals.least_spacing, duals.least_spacing(section_mm / 1000) * 1000
    why = "the rule follows the table within 3.1 mm"
    published(of, f"{section_mm} mm wide", spacing_mm, rule, 3.1, why, source, unit="mm")


@pytest.mark.parametrize(
    ("thread", "grade", "clamp_lbf", "torque_ft_lb"),
    [("3/8-16", "2", 3197, 20), ("1/2-13", "2", 5853, 48.8), ("3/4-10", "2", 13778, 172)],  # FS-1
)
def test_grade_2_bolt(thread: str, grade: str, clamp_lbf: float, torque_ft_lb: float) -> None:
    diameter, area = bolts.thread(thread)
    clamp = bolts.clamp_load(bolts.proof_stress(grade, diameter), area)
    given, source = f"{thread}, grade {grade}, dry", "tires/FS-1"
    of, why = bolts.clamp_load, "printed to the pound"
    published(of, given, clamp_lbf, clamp / LBF, 1, why, source, unit="lbf")
    torque = bolts.tightening_torque(clamp, diameter, bolts.NUT_FACTOR["dry"]) / FT_LB
    of, why = bolts.tightening_torque, "printed to the foot-pound"
    published(of, given, torque_ft_lb, torque, 0.5, why, source, unit="lb-ft")


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
        of, given = bolts.tightening_torque, f"{thread}, grade {grade}, {state}"
        why = "printed to the foot-pound, from a rounded clamp load"
        published(of, given, printed, torque / FT_LB, 1, why, "tires/FS-4", unit="lb-ft")


@pytest.mark.parametrize(
    ("thread", "proof_n", "clamp_n"),
    [("M8", 21200, 15900), ("M10", 33700, 25300)],  # FS-5
)
def test_metric_bolt(thread: str, proof_n: float, clamp_n: float) -> None:
    diameter, area = bolts.thread(thread)
    proof = bolts.proof_stress("8.8", diameter)
    why = "rounded to 100 N, from a stress area of more digits than ours"
    of, given, source = bolts.proof_stress, f"proof load of {thread}, class 8.8", "tires/FS-5"
    published(of, given, proof_n, proof * area, 100, why, source, unit="N")
    of, given, ours = bolts.clamp_load, f"{thread}, class 8.8", bolts.clamp_load(proof, area)
    published(of, given, clamp_n, ours, 100, why, source, unit="N")
