"""Road travel: properties, own examples, and one test for each known trap."""

import inspect
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc import sources, tables
from calc.mechanics import (
    braking,
    electrical_load,
    mirrors,
    road_gaps,
    road_limits,
    road_rules,
    sight,
    smv_emblem,
    wiring,
)

FOOT, INCH, MPH, KMH = 0.3048, 0.0254, 0.44704, 1 / 3.6

speeds = st.floats(1, 40)
distances = st.floats(0, 600)

PLAIN = {
    "tractor_width": 1.5,
    "implement_width": 1.6,
    "width": 1.6,
    "left": 0.8,
    "right": 0.8,
    "reach": 0.8,
    "behind": 1.0,
    "length": 5.0,
    "speed": 8.0,
    "made": 2015.0,
}


def wanted(place, **changes):
    return {(need.unit, need.item): need for need in road_rules.needs(place, {**PLAIN, **changes})}


# --- sight -----------------------------------------------------------------------------------


@given(distances, speeds, speeds)
def test_closing_time_grows_with_distance_and_falls_with_difference(distance, car, tractor):
    assume(car > tractor + 0.5)
    time = sight.closing_time(distance, car, tractor)
    assert sight.closing_time(distance + 10, car, tractor) > time
    assert sight.closing_time(distance, car + 1, tractor) <= time
    assert sight.closing_time(distance, car, tractor, head_on=True) <= time


def test_closing_time_is_infinite_when_the_gap_does_not_close():
    assert sight.closing_time(100, 5, 5) == math.inf
    assert sight.closing_time(100, 4, 5) == math.inf


@given(st.floats(0, 500), speeds)
def test_fastest_that_can_slow_is_the_inverse_of_the_gap(gap, tractor):
    fastest = sight.fastest_that_can_slow(gap, tractor)
    assert sight.slow_down_gap(fastest, tractor) == pytest.approx(gap, abs=1e-6)


@given(speeds, speeds)
def test_slowing_needs_no_more_than_stopping(car, tractor):
    assume(car > tractor)
    assert sight.slow_down_gap(car, tractor) < sight.stopping_sight_distance(car)


@given(speeds, st.floats(-0.2, 0.2))
def test_a_downgrade_lengthens_a_stop(speed, grade):
    level = sight.stopping_sight_distance(speed)
    on_grade = sight.stopping_sight_distance(speed, grade)
    assert on_grade >= level if grade <= 0 else on_grade <= level


def test_a_hill_steeper_than_the_brakes_is_refused():
    with pytest.raises(ValueError, match="Braking left"):
        sight.stopping_sight_distance(20, -0.5)


@given(st.floats(0.5, 100), st.floats(0.5, 15), st.floats(0.1, 3))
def test_time_to_clear_is_continuous_and_inverted(distance, speed, acceleration):
    time = road_gaps.time_to_clear(distance, speed, acceleration)
    assert time >= 2 + distance / speed - 1e-9
    back = road_gaps.longest_that_clears(time, 0.0, speed, acceleration)
    assert back == pytest.approx(distance, rel=1e-6)


@given(st.floats(2, 20))
def test_a_longer_combination_takes_longer_to_cross(length):
    assert road_gaps.time_to_clear(10 + length, 4, 0.4) < road_gaps.time_to_clear(
        11 + length, 4, 0.4
    )


def test_passing_example():
    time, road, clear = road_gaps.passing(
        55 * MPH, 18 * MPH, 40 * FOOT, 19 * FOOT, 80 * FOOT, 80 * FOOT, 55 * MPH
    )
    assert time == pytest.approx(4.0, abs=0.05)
    assert road / FOOT == pytest.approx(326, abs=0.6)
    assert clear / FOOT == pytest.approx(651, abs=0.6)
    with pytest.raises(ValueError, match="Speed difference"):
        road_gaps.passing(5, 6, 10, 5, 20, 20, 20)


@pytest.mark.parametrize(
    ("car", "tractor", "fps", "times"),
    [
        (45, 10, 51.3, (5.8, 9.7, 11.7, 19.5, 25.7)),
        (55, 25, 44.0, (6.8, 11.4, 13.6, 22.7, 30.0)),
        (65, 15, 73.3, (4.1, 6.8, 8.2, 13.6, 18.0)),
    ],
)
def test_closing_table(car, tractor, fps, times):
    assert sight.closing_speed(car * MPH, tractor * MPH) / FOOT == pytest.approx(fps, abs=0.05)
    for feet, seconds in zip((300, 500, 600, 1000, 1320), times, strict=True):
        found = sight.closing_time(feet * FOOT, car * MPH, tractor * MPH)
        assert found == pytest.approx(seconds, abs=0.05)


@pytest.mark.parametrize(
    ("mph", "grade", "feet"), [(30, -0.06, 214.5), (40, 0.03, 288.2), (50, 0.09, 374.1)]
)
def test_grade_table(mph, grade, feet):
    assert sight.printed_stopping_on_grade_ft(mph, grade) == pytest.approx(feet, abs=0.05)


def test_tractor_at_a_rail_crossing():
    time = road_gaps.rail_crossing_time(40 * FOOT, 5 * MPH, 1.0 * FOOT)
    assert time == pytest.approx(15.9, abs=0.05)
    assert 1.47 * 45 * time == pytest.approx(1052, abs=3)
    assert road_gaps.rail_crossing_time(60 * FOOT, 5 * MPH, 1.0 * FOOT) == pytest.approx(
        18.6, abs=0.05
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda: sight.closing_time(-1, 10, 5),
        lambda: sight.closing_speed(-1, 5),
        lambda: road_gaps.time_to_clear(10, 0, 1),
        lambda: road_gaps.gap_time("tractor", "left"),
        lambda: sight.decision_sight_distance(40, "dreaming"),
        lambda: sight.decision_sight_distance(42, "rural path change"),
        lambda: road_gaps.passing_sight_distance(25, "to 2004"),
        lambda: road_gaps.passing_sight_distance(40, "newest"),
        lambda: mirrors.sight_line_crossing(1, 0, 50, 40),
        lambda: mirrors.mirror_offset_needed(1, 100),
        lambda: mirrors.flat_mirror_field(0.1, 0, 60),
        lambda: electrical_load.lamp_current(-1),
        lambda: electrical_load.lamp_current(5, "glow worm"),
        lambda: electrical_load.lamp_current(5, "filament", 0),
        lambda: wiring.wire_resistance(13, 1),
        lambda: wiring.wire_resistance(20, 1, "AWG stranded 75 C"),
        lambda: wiring.area_needed(1, 1, 0),
        lambda: wiring.smallest_gauge(1, "BWG"),
        lambda: wiring.fuse_size(-1),
        lambda: electrical_load.light_left(2),
        lambda: wiring.longest_run(0, 12, 0.3),
        lambda: braking.towing_deceleration(3, 0, 100),
        lambda: braking.towing_deceleration(3, 100, -1),
        lambda: braking.mass_limit("by eye", 100),
    ],
)
def test_values_out_of_range_are_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()


# --- lines of sight --------------------------------------------------------------------------


def test_a_low_implement_hides_nothing():
    assert not mirrors.hidden(1.2, 0.5, 1.5, 0.3, 0.9, 1.0, 1.0)
    assert mirrors.hidden(0.8, 0.5, 1.5, 0.3, 1.2, 1.0, 1.0)


def test_a_narrow_implement_leaves_wide_lamps_in_sight():
    assert not mirrors.hidden(0.8, 0.9, 1.5, 0.3, 2.0, 0.7, 0.7)
    assert mirrors.hidden(0.8, 0.5, 1.5, 0.3, 2.0, 0.7, 0.7)
    # Offset to the right it hides the right lamp and clears the left one.
    assert not mirrors.hidden(0.8, 0.6, 1.5, 0.3, 2.0, 0.4, 1.0)
    assert mirrors.hidden(0.8, -0.6, 1.5, 0.3, 2.0, 0.4, 1.0)


@given(
    st.floats(-1.2, 1.2), st.floats(0.3, 6), st.floats(0.6, 4), st.floats(0.3, 2), st.floats(0.3, 2)
)
def test_a_lamp_at_the_clear_height_is_seen(offset, behind, top, left, right):
    needed = mirrors.lowest_clear_height(offset, behind, top, left, right)
    assert not mirrors.hidden(needed + 1e-6, offset, behind, 0.0, top, left, right)
    if needed > 0.2:
        assert mirrors.hidden(needed - 0.01, offset, behind, 0.0, top, left, right)


@given(st.floats(0.95, 2.5), st.floats(0.5, 20))
def test_a_mirror_at_the_offset_needed_shows_the_car_at_200_ft(edge, behind):
    offset = mirrors.mirror_offset_needed(edge, behind)
    assert offset > edge
    seen = mirrors.hidden_road_behind(offset, edge, behind)
    assert seen == pytest.approx(mirrors.MIRROR_VIEW, rel=1e-6)
    assert mirrors.hidden_road_behind(edge, edge, behind) == math.inf


def test_a_narrow_load_needs_no_wide_mirror():
    assert mirrors.hidden_road_behind(0.5, 0.7, 3) == 3


# --- wiring ----------------------------------------------------------------------------------


@given(st.floats(0.1, 40), st.floats(0.5, 20))
def test_the_gauge_picked_keeps_within_the_drop(current, loop):
    area = wiring.area_needed(current, loop, 0.36)
    gauge = wiring.smallest_gauge(area)
    if gauge is None:
        assert area > 37360
    else:
        drop = wiring.voltage_drop(current, wiring.wire_resistance(gauge, loop, "SAE"))
        assert drop <= 0.36
        assert wiring.longest_run(current, gauge, 0.36) >= loop - 1e-9


@given(st.floats(0, 32))
def test_a_fuse_carries_its_load_at_80_percent(current):
    fuse = wiring.fuse_size(current)
    assert fuse is not None
    assert current <= 0.8 * fuse + 1e-6


def test_no_fuse_beyond_the_largest_blade():
    assert wiring.fuse_size(33) is None


def test_road_load_example():
    one = electrical_load.lamp_current
    lit = [(2, one(55), 1), (2, 0.59, 1), (4, one(21), 0.5), (2, one(55), 1), (1, 3.0, 1)]
    assert electrical_load.load_current(lit) == pytest.approx(26.1, abs=0.1)
    assert electrical_load.charging_margin(20, electrical_load.load_current(lit)) < 0
    assert electrical_load.charging_margin(40, electrical_load.load_current(lit)) > 0
    road = [lit[0], lit[1], lit[2], lit[4]]
    assert electrical_load.load_current(road) == pytest.approx(16.9, abs=0.1)


@pytest.mark.parametrize(("gauge", "volts"), [(18, 1.02), (14, 0.40), (12, 0.25)])
def test_drop_example(gauge, volts):
    loop = wiring.loop_length(20 * FOOT)
    drop = wiring.voltage_drop(4, wiring.wire_resistance(gauge, loop, "AWG"))
    assert drop == pytest.approx(volts, abs=0.006)


def test_chassis_return_counts_the_wire_once():
    assert wiring.loop_length(6.0, return_wire=False, ground_allowance=1.0) == 7.0


def test_wire_areas_follow_the_gauge_formula():
    # Diameter 0.005 in x 92^((36 - n) / 39); tables round the diameter first.
    for row in tables.rows("road/wire_sizes"):
        area = (5 * 92 ** ((36 - int(row["gauge"])) / 39)) ** 2
        assert float(row["awg_circular_mils"]) == pytest.approx(area, rel=6e-4)
        assert float(row["sae_circular_mils"]) < 1.06 * area


def test_battery_hours():
    assert electrical_load.battery_hours(70, 5) == pytest.approx(7)
    assert electrical_load.battery_hours(70, 0) == math.inf


# --- braking ---------------------------------------------------------------------------------


@given(st.floats(1, 12), st.floats(500, 5000), st.floats(0, 8000), st.floats(-0.1, 0.1))
def test_an_unbraked_load_never_shortens_a_stop(speed, tractor, towed, grade):
    alone = braking.towing_deceleration(3.55, tractor, 0, grade)
    loaded = braking.towing_deceleration(3.55, tractor, towed, grade)
    assert loaded <= alone
    assert braking.stopping_distance(speed, loaded) >= braking.stopping_distance(speed, alone)


@given(st.floats(1, 12), st.floats(0.3, 5), st.floats(0, 2.5))
def test_the_speed_that_stops_within_a_distance_does(speed, deceleration, reaction):
    distance = braking.stopping_distance(speed, deceleration, reaction)
    back = braking.speed_that_stops_within(distance, deceleration, reaction)
    assert back == pytest.approx(speed, rel=1e-9)


def test_equal_masses_example():
    deceleration = braking.towing_deceleration(3.55, 1000, 1000)
    assert deceleration == pytest.approx(1.775)
    assert braking.stopping_distance(25 * KMH, deceleration) == pytest.approx(17.3, abs=0.06)


def test_no_braking_left_on_a_steep_hill():
    assert braking.towing_deceleration(3.55, 1000, 3000, -0.12) < 0
    assert braking.stopping_distance(5, -0.1) == math.inf
    assert braking.speed_that_stops_within(20, -0.1, 1.0) == 0.0


def test_safety_chain():
    assert braking.chain_is_enough(2000, 2000)
    assert not braking.chain_is_enough(1999, 2000)


# --- the rules -------------------------------------------------------------------------------


def test_every_row_of_the_rule_tables_can_be_read_and_cites_a_source():
    items = {row["item"] for row in tables.rows("road/road_items")}
    facts = set(inspect.getdoc(road_rules).replace(",", " ").split())
    for row in tables.rows("road/road_requirements"):
        assert row["item"] in items
        sources.find(row["source"])
        for fact, _, _ in road_rules._clauses(row["when"]):
            assert fact in facts or fact.startswith("hides_"), row
    known = {row["place"] for row in tables.rows("road/road_places")}
    known |= {"US-STD", "US-FED", "US-UVC"}
    assert {row["place"] for row in tables.rows("road/road_requirements")} <= known
    for name in (
        "road/emblem_rules",
        "road/road_widths",
        "road/road_speed_limits",
        "road/lamp_hours",
    ):
        for row in tables.rows(name):
            sources.find(row["source"])


def test_every_state_rule_keeps_year_citation_and_confidence():
    for row in tables.rows("road/state_road_rules"):
        assert row["citation"]
        assert row["year"]
        assert row["confidence"] in ("high", "medium", "low")
        sources.find(row["source"])


@pytest.mark.parametrize("row", tables.rows("road/road_places"), ids=lambda row: row["place"])
def test_every_place_has_an_answer(row):
    assert road_rules.needs(row["place"], PLAIN)
    use, _ = smv_emblem.emblem_use(row["place"], 8.0)
    assert use in ("show", "none")


@given(
    st.sampled_from([row["place"] for row in tables.rows("road/road_places")]),
    st.floats(1, 5),
    st.floats(1, 5),
    st.floats(0.1, 2),
)
def test_a_wider_machine_never_needs_less(place, narrow, behind, more):
    def items(width):
        found = wanted(
            place,
            tractor_width=width,
            implement_width=width,
            width=width,
            left=width / 2,
            right=width / 2,
            reach=width / 2,
            behind=behind,
        )
        return {key: need.count for key, need in found.items()}

    before, after = items(narrow), items(narrow + more)
    assert all(after.get(key, 0) >= count for key, count in before.items())


def test_nothing_behind_asks_for_nothing_behind():
    assert not [unit for unit, _ in wanted("KS", behind=0.0) if unit == "towed"]


def test_rotary_cutter_example():
    feet = {"implement_width": 7 * FOOT, "left": 3.5 * FOOT, "right": 3.5 * FOOT}
    found = wanted("TX", **feet, reach=3.5 * FOOT, behind=6 * FOOT)
    assert ("towed", "rear_reflectors") in found
    assert ("towed", "left_front_strip") not in found
    assert ("towed", "amber_flashers") not in found
    found = wanted("TX", left=4.5 * FOOT, right=2.5 * FOOT, reach=4.5 * FOOT, behind=6 * FOOT)
    assert ("towed", "left_front_strip") in found


def test_repeating_what_is_hidden():
    found = wanted("TX", hides_tail=1.0, hides_amber=1.0, hides_turn=1.0)
    for item in ("tail_lamps", "amber_flashers", "turn_signals"):
        assert ("towed", item) in found
    assert smv_emblem.emblem_on_towed("IL", True, 1.0, 2000) is not None
    assert smv_emblem.emblem_on_towed("IL", False, 1.0, 2000) is None
    assert smv_emblem.emblem_on_towed("NY", False, 1.0, 2000) is not None
    assert smv_emblem.emblem_on_towed("UK", True, 1.0, 2022) is None


def test_a_base_at_4_to_5_ft_satisfies_every_rule():
    low, high = smv_emblem.emblem_height_for_all()
    assert (low, high) == pytest.approx((4 * FOOT, 5 * FOOT))
    assert smv_emblem.emblem_fails(low) == smv_emblem.emblem_fails(high) == []


def test_center_line():
    assert road_limits.over_center_line(10 * FOOT, 10 * FOOT) == 0
    assert road_limits.over_center_line(12 * FOOT, 10 * FOOT, 1 * FOOT) == pytest.approx(1 * FOOT)


def test_an_unknown_place_is_refused():
    with pytest.raises(LookupError):
        road_rules.needs("ATLANTIS", PLAIN)
    with pytest.raises(LookupError):
        smv_emblem.emblem_window("UK")


# --- traps -----------------------------------------------------------------------------------


def test_trap_federal_rule_binds_makers_of_new_machines_only():
    assert not road_rules.federal_rule_applies(2010, True)
    assert not road_rules.federal_rule_applies(2017.3, True)
    assert road_rules.federal_rule_applies(2017.5, True)
    assert not road_rules.federal_rule_applies(2020, False)
    # An old tractor still owes the lamps that its state asks for.
    old = wanted("KS", made=1980.0)
    assert old["tractor", "amber_flashers"].basis == "law"


def test_trap_night_is_not_one_thing():
    texts = {row["text"] for row in tables.rows("road/lamp_hours")}
    assert len(texts) >= 4
    assert wanted("KS")["tractor", "amber_flashers"].hours == "any"
    # Ontario starts half an hour before sunset, New York half an hour after.
    rows = tables.by_key("road/lamp_hours", "place")
    assert "before sunset" in rows["CANADA-ON"]["text"]
    assert "after sunset" in rows["NY"]["text"]


def test_trap_old_emblem_height_is_still_law():
    height = 7 * FOOT
    assert "US-STD" not in smv_emblem.emblem_fails(height)
    assert {"NE", "WA", "CO", "NY"} <= set(smv_emblem.emblem_fails(height))


def test_trap_the_same_machine_carried_on_a_trailer():
    assert road_limits.width_rule("OH").maximum is None
    assert road_limits.carried_width("OH")[0] == pytest.approx(8.5 * FOOT)
    assert ("towed", "daylight") in wanted("IA", carried=1.0)
    assert ("towed", "daylight") not in wanted("IA", on_wheels=1.0)


def test_trap_editions():
    assert road_limits.width_rule("PA").maximum == pytest.approx(18 * FOOT)
    assert "16 ft in an older text" in road_limits.width_rule("PA").note
    assert smv_emblem.emblem_use("IA", 33 * MPH)[0] == "show"
    assert smv_emblem.emblem_on_towed("TX", False, 1.0, 2018) is None
    assert smv_emblem.emblem_on_towed("TX", False, 1.0, 2020) is not None


def test_trap_printed_closing_times_for_60_onto_15_mph():
    # A printed column has 52 s and 26 s; those fit a machine at 25 mph.
    half_mile, quarter = 804.672, 402.336
    assert sight.closing_time(half_mile, 60 * MPH, 15 * MPH) == pytest.approx(40.0, abs=0.05)
    assert sight.closing_time(quarter, 60 * MPH, 15 * MPH) == pytest.approx(20.0, abs=0.05)
    assert sight.closing_time(half_mile, 60 * MPH, 25 * MPH) == pytest.approx(51.4, abs=0.05)


def test_trap_three_forms_of_stopping_distance():
    printed = sight.printed_stopping_us_ft(65)
    exact = sight.stopping_sight_distance(65 * MPH) / FOOT
    textbook = 1.47 * 65 * 2.5 + 65**2 / (30 * 0.35)
    assert abs(printed - exact) < 3
    assert 1 < abs(printed - textbook) < 4
    assert sight.printed_stopping_metric_m(50) == pytest.approx(63.4, abs=0.05)


def test_trap_older_passing_tables_are_twice_as_long():
    new = road_gaps.passing_sight_distance(60)
    assert road_gaps.passing_sight_distance(60, "to 2004") / new > 1.9


def test_trap_wire_table_contradicts_itself():
    area = wiring.area_needed(20, 10 * FOOT, 0.36)
    assert area == pytest.approx(wiring.area_needed(10, 20 * FOOT, 0.36))
    assert area == pytest.approx(5972, abs=1)
    assert wiring.smallest_gauge(area, "AWG") == 12
    assert wiring.smallest_gauge(area, "SAE") == 10


def test_trap_loop_or_one_way():
    one_way = 20 * FOOT
    assert wiring.loop_length(one_way) == pytest.approx(2 * one_way)
    drop = wiring.voltage_drop(4, wiring.wire_resistance(14, wiring.loop_length(one_way), "AWG"))
    assert drop == pytest.approx(0.404, abs=0.001)  # not 0.20


def test_trap_temperature_of_the_resistance_table():
    at_20 = wiring.wire_resistance(10, 1000 * FOOT, "AWG")
    assert at_20 == pytest.approx(0.9989)
    assert wiring.wire_resistance(10, 1000 * FOOT, "AWG", 25) == pytest.approx(1.0185, abs=5e-4)


def test_trap_open_air_current_is_not_a_fuse_size():
    # 12 gauge in open air is put at 41 A in physics tables; a 9.2 A load is fused at 15 A.
    assert (
        wiring.fuse_size(electrical_load.load_current([(2, electrical_load.lamp_current(55), 1)]))
        == 15
    )
    assert not [column for column in tables.rows("road/wire_sizes")[0] if "current" in column]


def test_trap_connector_pins_differ():
    pins = tables.by_key("road/connector_pins", "pin")
    assert "power" in pins["4"]["north_america"]
    assert "power" in pins["7"]["north_america"]
    grounds = [
        next(pin for pin, row in pins.items() if row[side] == "ground")
        for side in ("north_america", "iso_1724")
    ]
    assert grounds == ["1", "3"]


def test_trap_unbraked_load_of_one_and_a_half_more_than_doubles_the_stop():
    speed = 20 * MPH
    alone = braking.stopping_distance(speed, 3.55, brake_delay=0)
    loaded = braking.stopping_distance(
        speed, braking.towing_deceleration(3.55, 1000, 1500), brake_delay=0
    )
    assert loaded / alone == pytest.approx(2.5)
    assert not braking.rule_covers("unbraked-32", 25 * MPH)
    assert braking.rule_covers("unbraked-32", 20 * MPH)


def test_trap_no_driver_reaction_in_the_approval_formula():
    speed = 30 * KMH
    bare = braking.approval_stopping_distance(speed, speed)
    with_driver = braking.stopping_distance(speed, 3.55, reaction_time=2.5)
    assert with_driver - bare == pytest.approx(speed * 2.5, abs=0.05)


def test_trap_gap_times_are_not_for_tractors():
    tractor = road_gaps.time_to_clear(74 * FOOT, 10 * MPH, 1.5 * FOOT)
    assert tractor > road_gaps.gap_time("combination truck", "left")


def test_trap_half_a_filament_lamps_current_is_not_watts_over_charging_voltage():
    assert electrical_load.lamp_current(55) > 55 / 13.8
    assert electrical_load.lamp_current(55, voltage=13.8) > electrical_load.lamp_current(55)
    assert electrical_load.lamp_current(20, "constant power", 13.8) == pytest.approx(20 / 13.8)


def test_trap_uk_12_mph_starts_at_three_and_a_half_meters_exactly():
    assert road_limits.road_speed_limit("UK", 3.5)[0] == pytest.approx(12 * MPH)
    assert road_limits.road_speed_limit("UK", 3.4999)[0] == pytest.approx(20 * MPH)
    assert road_limits.road_speed_limit("UK", 2.55)[0] == pytest.approx(25 * MPH)


def test_trap_exactly_12_ft_wide_carries_the_lamps():
    assert wanted("TX", tractor_width=12 * FOOT)["tractor", "amber_flashers"].edge is not None
    assert wanted("TX", implement_width=144 * INCH)["towed", "amber_flashers"].count == 2
