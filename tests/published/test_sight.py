"""Sight distances and gaps in traffic against published numbers, the source beside each check.

Sources are named as in calc/tables/sources/road.csv. A source marked memory there was not read
again; the check then says that we agree with the value as it is widely known.
"""

import pytest

from calc import search, tables, worksheets
from calc.mechanics import (
    road_gaps,
    sight,
)
from calc.worksheets.rail_crossing import compute as rail_crossing
from tests.published.rows import published
from tests.worksheets.asking import output

FOOT = 0.3048
MPH = 0.44704


# --- closing speed --------------------------------------------------------------------------------


def test_closing_speed_55_onto_15_mph():
    speed = sight.closing_speed(55 * MPH, 15 * MPH) / FOOT
    time = sight.closing_time(300 * FOOT, 55 * MPH, 15 * MPH)
    for source in ("road/WEB-16", "road/WEB-17"):
        of, why = sight.closing_speed, "printed to the foot"
        published(of, "55 mph onto 15 mph", 59, speed, 0.5, why, source, unit="ft/s")
        of, why = sight.closing_time, "printed to the second"
        published(of, "300 ft, 55 mph onto 15 mph", 5, time, 0.5, why, source, unit="s")


# --- stopping sight distance ----------------------------------------------------------------------


@pytest.mark.parametrize(("mph", "feet"), [(15, 80), (20, 115), (25, 155), (30, 200)])
def test_stopping_sight_distance_design_values_read(mph, feet):
    of, ours = sight.printed_stopping_us_ft, sight.design_value(sight.printed_stopping_us_ft(mph))
    why = "both rounded up to 5 ft"
    published(of, f"{mph} mph, level", feet, ours, 0, why, "road/WEB-6", "2018", unit="ft")


@pytest.mark.parametrize(
    ("mph", "react", "brake", "calculated", "design"),
    [
        (35, 128.6, 117.6, 246.2, 250),
        (40, 147.0, 153.6, 300.6, 305),
        (45, 165.4, 194.4, 359.8, 360),
        (50, 183.8, 240.0, 423.8, 425),
        (55, 202.1, 290.3, 492.4, 495),
        (60, 220.5, 345.5, 566.0, 570),
        (65, 238.9, 405.5, 644.4, 645),
        (70, 257.3, 470.3, 727.6, 730),
        (75, 275.6, 539.9, 815.5, 820),
        (80, 294.0, 614.3, 908.3, 910),
    ],
)
def test_stopping_sight_distance_us(mph, react, brake, calculated, design):
    found, given = sight.printed_stopping_us_ft(mph), f"{mph} mph, level"
    assert 1.47 * mph * 2.5 == pytest.approx(react, abs=0.06)
    assert 1.075 * mph**2 / 11.2 == pytest.approx(brake, abs=0.06)
    of, why = sight.printed_stopping_us_ft, "the sum of two parts, each printed to a tenth"
    published(of, given, calculated, found, 0.11, why, "road/SSD-3", "calculated", unit="ft")
    of, why, ours = sight.design_value, "a step of 5 ft, so equal", sight.design_value(found)
    published(of, given, design, ours, 0.01, why, "road/SSD-3", "design", unit="ft")
    if 20 <= mph <= 65:  # as far as the page was read
        published(of, given, design, ours, 0.01, why, "road/HEH-2", "table 2.2", unit="ft")


@pytest.mark.parametrize(
    ("kmh", "calculated", "design"),
    [
        (20, 18.5, 20),
        (30, 31.2, 35),
        (40, 46.2, 50),
        (50, 63.5, 65),
        (60, 83.0, 85),
        (70, 104.9, 105),
        (80, 129.0, 130),
        (90, 155.5, 160),
        (100, 184.2, 185),
        (110, 215.3, 220),
        (120, 248.6, 250),
        (130, 284.2, 285),
    ],
)
def test_stopping_sight_distance_metric(kmh, calculated, design):
    # road/GREENBOOK-memory. The print adds rounded parts, so a tenth either way is rounding.
    found = sight.printed_stopping_metric_m(kmh)
    assert found == pytest.approx(calculated, abs=0.11)
    assert sight.design_value(found) == design


@pytest.mark.parametrize(("grade", "feet"), [(-0.03, 598), (-0.06, 638), (-0.09, 686)])
def test_stopping_sight_distance_on_a_grade(grade, feet):
    # road/GREENBOOK-memory, 60 mph, printed to the foot.
    assert sight.printed_stopping_on_grade_ft(60, grade) == pytest.approx(feet, abs=1.0)


@pytest.mark.parametrize("row", tables.rows("road/road_stopping_sight"), ids=lambda r: r["speed"])
def test_the_table_on_the_page_agrees_with_the_formula(row):
    speed = float(row["speed"])
    if row["system"] == "US":
        assert sight.design_value(sight.printed_stopping_us_ft(speed)) == float(row["design"])
    else:
        assert sight.design_value(sight.printed_stopping_metric_m(speed)) == float(row["design"])


# --- decision, intersection and passing -----------------------------------------------------------


@pytest.mark.parametrize(
    ("mph", "rural", "urban"), [(40, 330, 690), (50, 465, 910), (60, 610, 1150)]
)
def test_decision_sight_distance_for_a_stop(mph, rural, urban):
    of, why = sight.decision_sight_distance, "rounded up to 5 ft, but 610.1 prints 610"
    for case, feet in (("rural stop", rural), ("urban stop", urban)):
        ours, given = of(mph, case) / FOOT, f"{case} from {mph} mph"
        published(of, given, feet, ours, 5, why, "road/HB-1", unit="ft")


@pytest.mark.parametrize(("mph", "feet"), [(30, 450), (45, 675), (55, 865), (70, 1105)])
def test_decision_sight_distance_for_a_path_change(mph, feet):
    # road/HB-1; the time behind it lies between 10.2 and 11.2 s.
    found = sight.decision_sight_distance(mph, "rural path change") / FOOT
    of, given = sight.decision_sight_distance, f"rural path change at {mph} mph"
    published(of, given, feet, found, 2.5, "kept as read, in 5 ft", "road/HB-1", unit="ft")
    assert 10.2 - 0.1 < found / (1.47 * mph) < 11.2 + 0.1


@pytest.mark.parametrize(
    ("mph", "left", "right"),
    [
        (15, 170, 145),
        (20, 225, 195),
        (25, 280, 240),
        (30, 335, 290),
        (35, 390, 335),
        (40, 445, 385),
        (45, 500, 430),
        (50, 555, 480),
        (55, 610, 530),
        (60, 665, 575),
        (65, 720, 625),
        (70, 775, 670),
    ],
)
def test_intersection_sight_distance_of_a_car(mph, left, right):
    for maneuver, feet in (("left", left), ("right or cross", right)):
        gap, given = road_gaps.gap_time("car", maneuver), f"a car, {maneuver}, {mph} mph traffic"
        of = road_gaps.printed_intersection_us_ft
        ours, why = sight.design_value(of(mph, gap)), "both rounded up to 5 ft"
        published(of, given, feet, ours, 0, why, "road/HB-2", unit="ft")
        of, ours = (
            road_gaps.intersection_sight_distance,
            road_gaps.intersection_sight_distance(mph * MPH, gap) / FOOT,
        )
        why = "printed rounded up to 5 ft, with 1.47 for the feet a second of 1 mph"
        published(of, given, feet, ours, 5 + 0.003 * feet, why, "road/HB-2", unit="ft")
        assert ours <= feet


def test_what_lanes_and_a_climb_add_to_a_gap():
    of, place = road_gaps.gap_time, "p. 84, notes"
    for vehicle, second in (("car", 0.5), ("combination truck", 0.7)):
        for maneuver in ("left", "right or cross"):
            ours = of(vehicle, maneuver, 1) - of(vehicle, maneuver)
            given, why = f"one lane more, {vehicle}, {maneuver}", "kept as read"
            published(of, given, second, ours, 0, why, "road/HB-2", place, unit="s")
    ours = of("car", "left", upgrade=0.04) - of("car", "left")
    given, why = "an upgrade of 4 %, 0.2 s for each percent, left", "exact"
    published(of, given, 0.8, ours, 0, why, "road/HB-2", place, unit="s")
    assert of("car", "left", upgrade=0.03) == of("car", "left")


def test_intersection_sight_distance_over_a_wide_road():
    # Two lanes' worth and a fifth more to cross, at 50 mph: 7.5 + 1.1 s, and 1.47 x 50 x 8.6.
    gap = road_gaps.gap_time("car", "left", 2.2)
    of, why, source = road_gaps.gap_time, "printed to a tenth", "road/MDT-1"
    published(of, "a car turning left, 2.2 lanes more", 8.6, gap, 0.05, why, source, unit="s")
    of = road_gaps.intersection_sight_distance
    ours, given = of(50 * MPH, gap) / FOOT, "50 mph traffic, a gap of 8.6 s"
    why = "printed to the foot, with 1.47 for 1.4667"
    published(of, given, 632, ours, 0.5 + 0.0023 * 632, why, source, unit="ft")


@pytest.mark.parametrize(
    ("vehicle", "left", "right"),
    [("car", 7.5, 6.5), ("single-unit truck", 9.5, 8.5), ("combination truck", 11.5, 10.5)],
)
def test_gap_times(vehicle, left, right):
    of, why = road_gaps.gap_time, "kept as read, printed to half a second"
    for maneuver, printed in (("left", left), ("right or cross", right)):
        for source in ("road/DOT-2", "road/UKY-1"):
            given, ours = f"{vehicle}, {maneuver}", road_gaps.gap_time(vehicle, maneuver)
            published(of, given, printed, ours, 0, why, source, unit="s")


@pytest.mark.parametrize(("mph", "feet"), [(20, 400), (40, 600), (60, 1000), (80, 1400)])
def test_passing_sight_distance(mph, feet):
    of, ours = road_gaps.passing_sight_distance, road_gaps.passing_sight_distance(mph) / FOOT
    why = "kept as read, in 5 ft"
    published(of, f"{mph} mph", feet, ours, 2.5, why, "road/UKY-2", unit="ft")


@pytest.mark.parametrize(("mph", "feet"), [(20, 710), (40, 1470), (60, 2135), (70, 2480)])
def test_older_passing_sight_distance(mph, feet):
    of, ours = (
        road_gaps.passing_sight_distance,
        road_gaps.passing_sight_distance(mph, "to 2004") / FOOT,
    )
    given, why = f"{mph} mph, the rule to 2004", "kept as read, in 5 ft"
    published(of, given, feet, ours, 2.5, why, "road/HB-3", unit="ft")


@pytest.mark.parametrize(("train_mph", "feet"), [(10, 240), (20, 480), (30, 721)])
def test_rail_crossing_from_a_stop(train_mph, feet):
    # road/RAIL-memory: a 65 ft truck, 8.8 ft/s in first gear, distance along the track.
    time = road_gaps.rail_crossing_time(65 * FOOT, 8.8 * FOOT)
    assert time == pytest.approx(16.36, abs=0.01)
    assert 1.47 * train_mph * time == pytest.approx(feet, abs=1)


@pytest.mark.parametrize("source", ["road/RAIL-1", "road/WEB-8"])
def test_warning_of_signals_at_a_crossing(source):
    of, ours = "rail-crossing", rail_crossing.SIGNAL_WARNING
    given, why = "flashing signals, the least before a train", "exact"
    published(of, given, 20, ours, 0, why, source, unit="s")


@pytest.mark.parametrize("source", ["road/WEB-7", "road/RAIL-2", "road/RAIL-3"])
def test_where_to_stop_before_the_rails(source):
    of, ours = "rail-crossing", rail_crossing.STOP_LINE / FOOT
    given, why = "from the nearest rail, the nearest place to stop", "exact"
    published(of, given, 15, ours, 0, why, source, unit="ft")


def test_a_train_that_comes_into_view():
    typed = {"train_speed": "41 mph", "track_sight": "660 ft"}
    found = search.answer(worksheets.load("rail-crossing"), typed)
    ours, why = output(found, "train"), "printed to the second"
    published("rail-crossing", typed, 11, ours, 0.5, why, "road/RAIL-4", unit="s")


def test_a_loaded_truck_needs_longer_than_the_least_that_is_printed():
    # road/RAIL-3: an 80,000 lb truck with a 53 ft trailer, on the level, clears one track in 14 s
    # at the least, and two in more than 15 s. Trailer and tractor together are some 70 ft.
    one = road_gaps.rail_crossing_time(70 * FOOT, 8.8 * FOOT)
    two = road_gaps.rail_crossing_time(
        70 * FOOT, 8.8 * FOOT, track_width=rail_crossing.TRACK + rail_crossing.TRACK_SPACING
    )
    assert one >= 14 and two > 15
