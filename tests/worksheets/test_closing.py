"""Being seen in time, and pulling out: never into less than the gap that a truck gets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.mechanics import road_gaps, sight
from calc.model import leading
from calc.model.pictures import Label
from tests.worksheets.asking import findings, output

SHEET = worksheets.load("closing")
CASES = [
    {},
    {"sight_distance": "200 ft", "maneuver": "along"},
    {"sight_distance": "450 ft", "maneuver": "left", "entrance_sight": "300 ft"},
    {"maneuver": "right", "entrance_sight": "200 ft"},
    {"sight_distance": "500 ft", "grade": "-8 %"},
]


def answer(ask="", **typed):
    return search.answer(SHEET, typed, example=True, ask=ask)


def lead(found):
    return leading.lead(found, "us")


# Gap times of a combination truck, left 11.5 s, right or across 10.5 s: TxDOT Roadway Design
# Manual 13.5.2, times 22/15 ft/s for each mph of traffic.
@pytest.mark.parametrize(
    ("maneuver", "mph", "feet"),
    [
        ("right", 55, 10.5 * 55 * 22 / 15),
        ("left", 55, 11.5 * 55 * 22 / 15),
        ("cross", 45, 10.5 * 45 * 22 / 15),
    ],
)
def test_no_less_than_the_gap_that_a_truck_gets(maneuver, mph, feet):
    quick = {
        "combination_length": "8 ft",
        "crossing_speed": "20 mph",
        "start_acceleration": "5 ft/s2",
    }
    for entrance, finding in ((feet - 2, model.OVER), (feet + 2, model.CLOSE)):
        found = answer(
            maneuver=maneuver, car_speed=f"{mph} mph", entrance_sight=f"{entrance} ft", **quick
        )
        assert findings(found)["truck"] == finding
        assert (found.finding == model.OVER) is (finding == model.OVER)


def test_530_ft_at_55_mph_is_not_enough_to_turn_right():
    for found in (
        answer(maneuver="right", entrance_sight="530 ft"),
        search.answer(SHEET, {"maneuver": "right", "entrance_sight": "530 ft"}),
    ):
        assert found.finding == model.OVER
        assert "530 ft" in lead(found)


def test_braking_hard_for_you_is_another_check_and_is_called_that():
    found = answer(maneuver="right", entrance_sight="530 ft")
    join = next(v.check for v in found.verdicts if v.check.name == "join")
    assert "They brake hard for you" in join.title
    assert findings(found)["join"] == model.WITHIN


def test_an_extra_lane_takes_seven_tenths_of_a_second():
    two, four = (answer(maneuver="cross", lanes=f"{n}") for n in (2, 4))
    assert output(four, "gap_time") - output(two, "gap_time") == pytest.approx(1.4)


def test_what_is_meant_is_never_assumed():
    """To the right 847 ft are enough at 55 mph, to the left 928 ft are wanted (road/DOT-2)."""
    typed = {"car_speed": "55 mph", "combination_length": "12 ft", "road_speed": "18 mph"}
    typed |= {"crossing_speed": "10 mph", "start_acceleration": "1.5 ft/s2", "set_back": "5 ft"}

    def seen(sight):
        return search.answer(SHEET, {**typed, "entrance_sight": sight})

    found = seen("900 ft")
    assert found.finding == model.UNKNOWN
    assert lead(found).startswith("It depends: you see 900 ft, and you need 847 to 928 ft")
    assert found.settle.field.name == "maneuver"
    # What is too little, or enough, whichever way it goes needs no question back.
    assert seen("840 ft").finding == model.OVER
    assert seen("1,030 ft").finding == model.WITHIN


def test_how_far_must_i_see_is_answered_without_a_view():
    found = search.answer(SHEET, {"maneuver": "right", "car_speed": "55 mph"}, ask="view")
    assert found.finding == model.COMPARED
    assert lead(found).startswith("847 ft each way")


@pytest.mark.parametrize("typed", CASES)
def test_every_broken_check_has_a_remedy_that_meets_it(typed):
    def broken(found):
        return {v.check.name for v in found.verdicts if v.margin_low < 0}

    found = answer(**typed)
    before = broken(found)
    assert before
    met = set()
    for remedy in found.advice.remedies:
        after = broken(answer(**{**typed, **remedy.set}))
        assert set(remedy.mends) <= before - after, remedy
        met |= before - after
    assert met == before


def test_being_caught_up_tells_the_seconds():
    found = answer(
        "caught", maneuver="along", sight_distance="600 ft", car_speed="55 mph", road_speed="18 mph"
    )
    # 600 ft at 37 mph: 600 / (37 x 22/15) = 11.06 s
    assert "11.1 s" in lead(found)


def test_without_a_view_behind_the_answer_asks_for_it():
    found = search.answer(SHEET, {"car_speed": "55 mph", "road_speed": "18 mph"}, ask="caught")
    assert found.finding == model.UNKNOWN
    assert "From how far off" in lead(found)
    assert found.pictures


def test_closing_numbers_are_those_of_the_mechanics():
    found = answer(grade="0 %", spare_gap="0 ft")
    assert output(found, "gap") == pytest.approx(sight.slow_down_gap(55 * 0.44704, 18 * 0.44704))
    assert output(found, "stopping") == pytest.approx(sight.stopping_sight_distance(55 * 0.44704))
    assert output(found, "closing_time") == pytest.approx(600 * 0.3048 / (37 * 0.44704))


def test_pulling_out_is_checked_by_what_is_done():
    assert "clear" not in findings(answer(maneuver="along"))
    assert "clear" not in findings(answer(maneuver="right"))
    assert "join" in findings(answer(maneuver="right"))
    assert "join" in findings(answer(maneuver="left"))
    left, cross = (answer(maneuver=m) for m in ("left", "cross"))
    assert output(left, "clear_time") < output(cross, "clear_time")


@given(st.floats(5, 30), st.floats(1, 11))
def test_more_speed_difference_never_helps(car, own):
    sheet = SHEET
    v = search.read_box(SHEET, {}, example=True).point({}).but(car_speed=car, road_speed=own)
    silent = model.Work(on=False)
    now = sheet.compute(v, silent).check("slow").margin
    faster = sheet.compute(v.but(car_speed=car + 1), silent).check("slow").margin
    assert faster <= now + 1e-12


def test_the_joining_gap_is_what_a_simulation_finds():
    # Step by step: the car reacts, brakes, and the smallest distance is compared.
    for car, own, start in ((55, 18, 0.45), (45, 25, 0.3), (65, 10, 0.6), (35, 30, 0.2)):
        v, top, dt = car * 0.44704, own * 0.44704, 0.001
        brake = sight.BRAKING_DECELERATION
        x_car = x_own = worst = 0.0
        for step in range(200_000):
            t = step * dt
            speed = max(v - brake * max(t - 2.5, 0.0), top if t > top / start else 0.0)
            mine = min(start * t, top)
            x_car += speed * dt
            x_own += mine * dt
            worst = max(worst, x_car - x_own)
            if t > 2.5 and speed <= mine:
                break
        found = road_gaps.joining_gap(v, top, start)
        assert found == pytest.approx(worst, abs=0.2)


def test_contact_is_drawn_when_the_driver_sees_too_late():
    found = answer(sight_distance="150 ft", maneuver="along")
    labels = [item.text for item in found.pictures[0].items if isinstance(item, Label)]
    assert any("contact" in label.template for label in labels)
    slower = answer(car_speed="15 mph", maneuver="along")
    assert len(slower.pictures) == 1  # nothing closes, so no timeline


def test_range_of_speeds_is_searched():
    found = answer(ask="caught", car_speed="45 to 65 mph", maneuver="along")
    assert found.searched > 1
    assert findings(found)["stop"] == model.UNKNOWN
    assert found.settle.field.name == "car_speed"


def test_who_only_drives_along_is_asked_for_no_gap():
    typed = {"maneuver": "along", "car_speed": "55 mph", "road_speed": "15 mph"}
    seen = search.answer(SHEET, {**typed, "sight_distance": "600 ft"}, ask="pull")
    assert seen.finding == model.WITHIN
    assert lead(seen).startswith("Driving along you need no gap")
    late = search.answer(SHEET, {**typed, "sight_distance": "200 ft"}, ask="pull")
    assert late.finding == model.OVER
    assert "too late" in lead(late)
    # Who hasn't said what is meant is still asked.
    open_ = search.answer(SHEET, {"car_speed": "55 mph", "sight_distance": "600 ft"}, ask="pull")
    assert open_.finding == model.UNKNOWN
    assert {item.field for item in open_.unchecked if item.name == "truck"} == {"entrance_sight"}


@pytest.mark.parametrize("sight_distance", ["250 ft", ""])
@pytest.mark.parametrize(("own", "caught"), [("24 mph", True), ("25 mph", False)])
def test_a_car_that_is_no_faster_does_not_catch_up(own, caught, sight_distance):
    typed = {"car_speed": "25 mph", "sight_distance": sight_distance, "road_speed": own}
    found = search.answer(SHEET, typed, ask="caught")
    assert ("doesn't catch up" in lead(found)) is not caught
