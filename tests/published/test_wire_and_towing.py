"""Wire, fuse, braking and gaps against values that were printed elsewhere."""

import pytest

from calc import tables
from calc.mechanics import braking, electrical_load, road_gaps, wiring
from tests.published.rows import published

LB, MPH, FOOT = 0.45359237, 0.44704, 0.3048
WIRES = tables.by_key("road/wire_fuses", "gauge")
SIZES = tables.by_key("road/wire_sizes", "gauge")


@pytest.mark.parametrize(
    ("gauge", "amps"),
    [
        # 33 CFR 183.425 table 5: 60, 80, 105, 125 degC
        (18, (10, 15, 20, 25)),
        (16, (15, 20, 25, 30)),
        (14, (20, 25, 35, 40)),
        (12, (25, 35, 45, 50)),
        (10, (40, 50, 60, 70)),
        (8, (55, 70, 80, 90)),
        (6, (80, 100, 120, 125)),
    ],
)
def test_what_a_wire_carries(gauge, amps):
    row = WIRES[str(gauge)]
    for celsius, printed in zip((60, 80, 105, 125), amps, strict=True):
        of, ours = "road/wire_fuses", float(row[f"amps_{celsius}c"])
        given, why = f"{gauge} AWG, insulation of {celsius} °C", "kept as read, in 5 A"
        published(of, given, printed, ours, 0, why, "road/CFR-425", "table 5", unit="A")
    # Half of the 105 degC column is what a bundle of 7 to 24 carries (UL 1426: 0.50): the largest
    # fuse stays within a blade's step of that.
    assert wiring.largest_fuse(gauge) <= amps[2] * 0.5


@pytest.mark.parametrize(
    ("gauge", "fuse"),
    # FAA AC 43.13-1B table 11-3 (1998), the column of fuses
    [(20, 5), (18, 10), (16, 10), (14, 15), (12, 20), (10, 30)],
)
def test_largest_fuse_is_that_of_the_chart(gauge, fuse):
    of, ours, why = wiring.largest_fuse, wiring.largest_fuse(gauge), "kept as read, exact"
    place = "table 11-3, fuses"
    published(of, f"{gauge} AWG", fuse, ours, 0, why, "road/FAA-43", place, unit="A")


@pytest.mark.parametrize(
    ("gauge", "breaker", "fuse"),
    # The same table: breakers beside fuses; a fuse of 50 A stands beside 8 gauge.
    [
        (20, 7.5, 5),
        (18, 10, 10),
        (16, 15, 10),
        (14, 20, 15),
        (12, 30, 20),
        (10, 40, 30),
        (8, 50, 50),
    ],
)
def test_chart_of_breakers_and_fuses_is_kept_as_read(gauge, breaker, fuse):
    of, row, why = "road/wire_fuses", WIRES[str(gauge)], "kept as read, exact"
    for column, printed in (("breaker", breaker), ("fuse", fuse)):
        given, place = f"{gauge} AWG, {column}", f"table 11-3, {column}s"
        ours = float(row[f"faa_{column}"])
        published(of, given, printed, ours, 0, why, "road/FAA-43", place, unit="A")
    # Ours are never larger than what the chart allows the wire with a breaker.
    assert wiring.largest_fuse(gauge, alone=True) <= breaker


@pytest.mark.parametrize("gauge", [18, 16, 14, 12, 10, 8, 6])
def test_no_fuse_reaches_the_cap_of_the_boat_rule(gauge):
    # 33 CFR 183.455: at most 150 % of the allowable current, here of the 80 degC column.
    carried = {18: 15, 16: 20, 14: 25, 12: 35, 10: 50, 8: 70, 6: 100}[gauge]
    assert wiring.largest_fuse(gauge, alone=True) < 1.5 * carried


@pytest.mark.parametrize(
    ("gauge", "mils"),
    # Marine wire catalogs of 2022 and 2023, SAE areas in circular mils
    [
        (18, 1537),
        (16, 2336),
        (14, 3702),
        (12, 5833),
        (10, 9343),
        (8, 14810),
        (6, 24538),
        (4, 37360),
    ],
)
def test_areas_of_automotive_wire(gauge, mils):
    of, ours = "road/wire_sizes", float(SIZES[str(gauge)]["sae_circular_mils"])
    given, why = f"SAE area of {gauge} gauge", "kept as read, to the circular mil"
    published(of, given, mils, ours, 0, why, "road/WEB-12", unit="circular mil")
    assert wiring.smallest_gauge(mils, "SAE") == gauge
    assert wiring.smallest_gauge(mils + 1, "SAE") != gauge


def test_least_size_of_a_separate_wire():
    ours = wiring.gauge_for(1, 10)
    assert ours is not None
    of, given = wiring.gauge_for, "the least of a separate wire"
    published(of, given, 16, ours, 0, "a whole gauge", "road/CFR-425", unit="AWG")


def test_idle_gives_a_third_of_the_alternator():
    row = tables.by_key("road/charging_outputs", "kind")["alternator"]
    of, ours = "road/charging_outputs", float(row["idle_share"]) * 48
    given, why = "at idle, of 48 A", "printed to the ampere; the share is kept to 0.01"
    place = "1300 and 5000 alternator rpm"
    published(of, given, 16, ours, 0.5, why, "road/ALT-1", place, unit="A")


@pytest.mark.parametrize(
    ("watts", "amps"),
    # Two filaments of 55 and 60 W; and a 35 and 45 W lamp by the same W / 12
    [(35, 2.92), (45, 3.75), (55, 4.58), (60, 5.0)],
)
def test_current_of_filament_lamps(watts, amps):
    assert electrical_load.lamp_current(watts) == pytest.approx(amps, abs=0.005)


@pytest.mark.parametrize(
    ("tractor_lb", "limit_kg"),
    # Manual of a compact in the 40 hp class: never more than 2.0 times, and 1800 kg at most
    [(1500, 2 * 1500 * LB), (1984.2, 1800), (3000, 1800)],
)
def test_compact_manual_has_a_ratio_and_an_absolute_limit(tractor_lb, limit_kg):
    found = braking.mass_limit("unbraked-1800", tractor_lb * LB)
    assert found == pytest.approx(limit_kg, rel=1e-4)
    if tractor_lb == 3000:
        of, given, why = braking.mass_limit, "unbraked, a compact of 3000 lb", "exact"
        published(of, given, 1800, found, 0.2, why, "road/MAN-8", unit="kg")


@pytest.mark.parametrize("rule", ["unbraked-32", "unbraked-small", "unbraked-1800"])
def test_nothing_unbraked_above_20_mph(rule):
    # Trade press, 2016, on S365.9: no provision for towing without brakes above 32 km/h (20 mph).
    assert braking.rule_covers(rule, 20 * MPH)
    assert not braking.rule_covers(rule, 20.5 * MPH)


@pytest.mark.parametrize(
    ("share", "deceleration"),
    # UK trailer braking efficiencies as deceleration, d = z g: 25 % is 2.45, 45 % is 4.41 m/s2
    [(0.25, 2.45), (0.45, 4.41)],
)
def test_braking_efficiency_of_a_trailer(share, deceleration):
    # A tractor that brakes as well changes nothing: all of it brakes alike.
    found = braking.shared_deceleration(deceleration, 1000, 3000, share)
    assert found == pytest.approx(deceleration, abs=0.005)


@pytest.mark.parametrize(
    ("ratio", "grade", "metres"),
    # From 32.2 km/h, tractor 3.55 m/s2, 4.8 m of delay, no driver: worked out from EU 2015/68's
    # formula in the reference beside it, to a tenth of a metre
    [
        (0, 0, 16.1),
        (0.5, 0, 21.7),
        (1, 0, 27.3),
        (1.5, 0, 33.0),
        (2, 0, 38.6),
        (0, -0.05, 17.9),
        (0.5, -0.05, 26.1),
        (1, -0.05, 35.9),
        (1, -0.10, 54.9),
        (1.5, -0.05, 47.8),
    ],
)
def test_stop_with_an_unbraked_load_on_a_slope(ratio, grade, metres):
    left = braking.towing_deceleration(3.55, 1000, 1000 * ratio, grade)
    assert braking.stopping_distance(32.2 / 3.6, left) == pytest.approx(metres, abs=0.15)


@pytest.mark.parametrize("ratio", [1.5, 2.0])
def test_it_cannot_stop_on_15_percent(ratio):
    assert braking.towing_deceleration(3.55, 1000, 1000 * ratio, -0.15) < 0


@pytest.mark.parametrize(
    ("vehicle", "maneuver", "seconds"),
    # TxDOT Roadway Design Manual 13.5.2; the observed 85 % of trucks on a busy road took 10.0 s
    # (Fitzpatrick, TRR 1303, 1991), which lies between the two trucks turning left
    [
        ("single-unit truck", "left", 9.5),
        ("combination truck", "left", 11.5),
        ("combination truck", "right or cross", 10.5),
    ],
)
def test_gaps_of_trucks(vehicle, maneuver, seconds):
    of, ours, why = road_gaps.gap_time, road_gaps.gap_time(vehicle, maneuver), "kept as read, exact"
    place = "13.5.2"
    published(of, f"{vehicle}, {maneuver}", seconds, ours, 0, why, "road/DOT-2", place, unit="s")
    if maneuver == "left":
        assert abs(seconds - 10.0) <= 1.5


@pytest.mark.parametrize(
    ("length", "mph", "seconds"),
    # a = 1.5 ft/s2, two lanes of 12 ft and 10 ft of set-back, to a tenth of a second
    [(12, 4, 11.8), (12, 8, 9.8), (25, 8, 10.9), (40, 8, 12.2), (40, 12, 11.9), (25, 4, 14.0)],
)
def test_time_to_clear_a_road(length, mph, seconds):
    distance = (10 + 24 + length) * FOOT
    found = road_gaps.time_to_clear(distance, mph * MPH, 1.5 * FOOT)
    assert found == pytest.approx(seconds, abs=0.1)


@pytest.mark.parametrize(
    ("friction", "share", "four", "deceleration"),
    # mu g f / (1 + 0.36 mu), and mu g with all four wheels, m/s2
    [
        (0.3, 0.65, False, 1.73),
        (0.5, 0.50, False, 2.08),
        (0.7, 0.50, False, 2.74),
        (0.3, 0.50, True, 2.94),
        (0.7, 0.50, True, 6.87),
    ],
)
def test_grip_of_rear_brakes(friction, share, four, deceleration):
    found = braking.grip_deceleration(friction, share, all_wheels=four)
    assert found == pytest.approx(deceleration, abs=0.01)


@pytest.mark.parametrize(("grade", "kilowatts"), [(-0.05, 8.2), (-0.10, 16.3), (-0.15, 24.3)])
def test_heat_of_holding_3000_kg_at_20_km_h(grade, kilowatts):
    # less about 4.9 kW of rolling resistance
    found = braking.holding_heat(3000, 20 / 3.6, grade) / 1000
    assert found == pytest.approx(kilowatts - 4.9, abs=0.1)
