"""Limits as sidewalls and gauges print them, and a front drive that its tires tell."""

import pytest

from calc import model, tables
from calc.model import leading
from calc.render import fitting_caution
from tests.worksheets.asking import findings, given, margin, remedy


def test_whole_psi_of_a_row_in_kpa_is_no_overinflation() -> None:
    # tires/TY-A: 1225 kg at 240 kPa, which is 34.8 psi and stands on a sidewall as 35 psi.
    typed = {"tire": "11.2-24 8PR R-1", "tire_mass": "2500 lb"}
    assert margin(given("tire-size", "load", **typed, pressure="35 psi"), "inflation") == 0
    over = given("tire-size", "load", **typed, pressure="36 psi")
    assert findings(over)["inflation"] == model.OVER
    # A line that was typed is as it stands.
    line = {"rated_load": "2,700 lb", "rated_pressure": "36 psi"}
    assert margin(given("tire-size", "load", **typed, **line, pressure="36 psi"), "inflation") == 0


def test_a_symbol_in_kmh_is_kept_at_the_whole_mph_that_is_printed() -> None:
    # A8 is 40 km/h, printed as 25 mph; 1360 kg of load index 119 is printed as 3,000 lb.
    assert tables.by_key("tires/speed_symbols", "symbol")["A8"]["speed_km_h"] == "40"
    typed = {"tire": "320/85R24 122A8/119B", "tire_mass": "3,000 lb"}
    slow = given("tire-size", "load", **typed, road_speed="25 mph")
    assert slow.finding == model.CLOSE and margin(slow, "load") == pytest.approx(0.09, abs=0.005)
    fast = given("tire-size", "load", **typed, road_speed="30 mph")
    assert margin(fast, "load") == pytest.approx(0, abs=1e-9)
    heavier = given("tire-size", "load", **{**typed, "tire_mass": "3,010 lb"}, road_speed="30 mph")
    assert heavier.finding == model.OVER
    one = {"tire": "320/85R24 122A8"}
    assert given("tire-size", **one, road_speed="25 mph").finding == model.CLOSE
    assert given("tire-size", **one, road_speed="25.4 mph").finding == model.OVER


@pytest.mark.parametrize(
    ("front", "finding"),
    [("7-16", model.OVER), ("25x8.50-14 R-4", model.OVER), ("16x6.50-8", model.UNKNOWN)],
)
def test_bars_and_industrial_treads_in_front_tell_that_they_drive(front: str, finding: str) -> None:
    typed = {"front_tire": front, "rear_tire": "11.2-24", "new_rear_tire": "16.9-30"}
    assert given("tires", "lead", **typed).finding == finding


def test_ribs_in_front_steer_and_turns_that_were_counted_drive() -> None:
    typed = {"rear_tire": "12.4-28", "new_rear_tire": "16.9-30"}
    steered = given("tires", "lead", **typed, front_tire="6.00-16 F-2")
    assert "lead" not in findings(steered)
    assert given("tires", "lead", **typed, front_tire="9.5-16").finding == model.OVER
    counted = given("tires", "lead", **typed, front_tire="16x6.50-8", front_turns="14.6")
    assert findings(counted)["lead"] == model.OVER
    said = given("tires", "lead", **typed, front_tire="9.5-16", front_drive="no")
    assert "lead" not in findings(said)


R4 = {"rear_tire": "16.9-28 R-4 12PR", "rear_axle_load": "14,000 lb"}


@pytest.mark.parametrize(
    ("speeds", "finding"),
    [("", model.UNKNOWN), ("20 mph", model.UNKNOWN), ("6.2 mph", model.CLOSE)],
)
def test_a_loader_tires_load_holds_at_a_loaders_speed(speeds: str, finding: str) -> None:
    # tires/TY-A: 3450 kg, twice what the R-1 of that size carries; tires/TD-1: a loader tire
    # loses 27 % from 10 to 30 km/h.
    assert given("tires", "load", **R4, gear_speeds=speeds).finding == finding
    heavier = {**R4, "rear_axle_load": "15,300 lb"}
    assert given("tires", "load", **heavier, gear_speeds=speeds).finding == model.OVER


def test_a_load_between_printed_speeds_takes_the_faster_and_none_past_the_last() -> None:
    typed = {"tire": "12-16.5 12PR", "tire_mass": "4,800 lb"}
    at_30 = {"road_speed": "18.6 mph"}  # 30 km/h: 4,895 lb at 80 psi, tires/TD-1
    assert given("tire-size", "load", **typed, **at_30).finding == model.CLOSE
    assert given("tire-size", "load", **typed, road_speed="19.5 mph").finding == model.UNKNOWN
    assert given("tire-size", "load", **typed).finding == model.UNKNOWN
    more = {"tire": "12-16.5 12PR", "tire_mass": "4,950 lb"}
    assert given("tire-size", "load", **more, **at_30).finding == model.OVER


def test_a_slow_speed_symbol_leads_where_the_tractor_is_faster() -> None:
    typed = {"rear_tire": "12-16.5 144A3", "rear_axle_load": "9,000 lb"}
    fast = given("tires", "load", **typed, gear_speeds="20 mph")
    assert fast.finding == model.OVER and fast.deciding is not None
    assert fast.deciding.check.name == "rear_speed"
    assert given("tires", "load", **typed).finding == model.UNKNOWN


def test_two_patterns_of_one_ply_rating_have_two_loads() -> None:
    # tires/TD-2: 946 lb at 28 psi; tires/TD-3: 1,050 lb at 34 psi, of one maker.
    typed = {"tire": "18x8.50-8 6PR", "tire_mass": "900 lb"}
    assert given("tire-size", "load", **typed).finding == model.UNKNOWN
    alike = {"tire": "18x8.50-8 4PR", "tire_mass": "700 lb"}  # 815 lb at 22 psi in both
    assert given("tire-size", "load", **alike).finding == model.WITHIN


@pytest.mark.parametrize(
    ("liquid", "coldest", "finding"),
    [
        ("water", "33 F", model.CLOSE),
        ("water", "31.9 F", model.OVER),
        ("water", "40 F", model.WITHIN),
        ("washer-0", "0 F", model.CLOSE),
        ("washer-20", "-10 F", model.WITHIN),
    ],
)
def test_a_liquid_near_its_freezing_is_close(liquid: str, coldest: str, finding: str) -> None:
    typed = {"rear_tire": "14.9-28", "liquid": liquid, "coldest": coldest}
    assert given("tires", "liquid", **typed).finding == finding


@pytest.mark.parametrize(
    ("liquid", "says"),
    [("washer-20", "burns"), ("ethylene-glycol", "poison"), ("calcium-5", "rusts")],
)
def test_a_short_reply_on_filling_says_what_the_liquid_does(liquid: str, says: str) -> None:
    typed = {"rear_tire": "14.9-28", "liquid": liquid, "coldest": "20 F"}
    found = given("tires", "liquid", **typed)
    assert says in fitting_caution.choose(found, leading.lead(found, "us"))


def test_the_pressure_that_a_sidewall_prints_is_that_of_its_row() -> None:
    # tires/TY-A: 1645 kg at 210 kPa, which is printed as 30 psi, not 30.5.
    typed = {"tire": "13.6-28 8PR", "tire_mass": "3,600 lb"}
    assert given("tire-size", "load", **typed, pressure="30 psi").finding == model.CLOSE
    assert given("tire-size", "load", **typed, pressure="29.9 psi").finding == model.OVER
    heavier = {**typed, "tire_mass": "3,650 lb"}
    assert given("tire-size", "load", **heavier, pressure="30 psi").finding == model.OVER


@pytest.mark.parametrize(
    ("load", "pressure", "finding"),
    [
        ("4,700 lb", "", model.CLOSE),  # 2170 kg, 4,784 lb, of the weaker
        ("4,900 lb", "", model.UNKNOWN),
        ("5,200 lb", "", model.UNKNOWN),
        ("5,300 lb", "", model.OVER),  # 2375 kg, 5,236 lb, of the stronger
        ("5,200 lb", "90 psi", model.CLOSE),
        ("4,900 lb", "75 psi", model.OVER),
    ],
)
def test_of_two_patterns_the_weaker_counts_until_the_pressure_tells(
    load: str, pressure: str, finding: str
) -> None:
    # tires/TY-A: 10-16.5 12PR of one pattern carries 2170 kg at 520 kPa, of another 2375 at 620.
    typed = {"tire": "10-16.5 12PR", "tire_mass": load, "road_speed": "5 mph"}
    found = given("tire-size", "load", **typed, pressure=pressure)
    assert found.finding == finding
    if finding == model.UNKNOWN:
        assert "another pattern" in leading.lead(found, "us")
        assert [item.field for item in found.unchecked] == ["rated_load", "rated_load"]


def test_the_weaker_of_two_patterns_is_told_of_an_axle_too() -> None:
    typed = {"front_tire": "10-16.5 12PR", "gear_speeds": "3, 6 mph"}
    found = given("tires", "load", **typed, front_axle_load="9,500 lb")
    assert leading.lead(found, "us").startswith("Just: 9,500 lb on the front axle, and 9,570 lb")
    assert given("tires", "load", **typed, front_axle_load="9,700 lb").finding == model.UNKNOWN


@pytest.mark.parametrize(
    ("tire", "most"),
    [
        ("18.4-30 12PR", "6940 lb"),  # 3150 kg is 6,944 lb
        ("13.6-28 8PR", "3620 lb"),  # 1645 kg is 3,627 lb
        ("320/85R24 119A8", "3000 lb"),  # 1360 kg is printed as 3,000 lb
    ],
)
def test_no_remedy_is_above_what_a_tire_carries(tire: str, most: str) -> None:
    # tires/TY-A and tires/S2, in kilograms.
    found = given("tire-size", "load", tire=tire, tire_mass="7,000 lb")
    assert remedy(found, "tire_mass").set["tire_mass"] == most


@pytest.mark.parametrize(("limit", "offered"), [("6,600 lb", False), ("7,100 lb", True)])
def test_tires_mend_no_axle_that_is_loaded_past_its_own_limit(limit: str, offered: bool) -> None:
    # tires/OM-10: of axle and tires the least counts. 2 x 1360 kg is less than both limits.
    typed = {"rear_tire": "12.4-24 119A8", "rear_axle_load": "7,000 lb", "rear_axle_limit": limit}
    found = given("tires", "load", **typed)
    assert found.finding == model.OVER
    said = [model.words(item.text, "us") for item in found.advice.remedies]
    assert any("3,500 lb each" in text for text in said) is offered


@pytest.mark.parametrize(("top", "finding"), [("20 mph", model.CLOSE), ("21 mph", model.OVER)])
def test_the_speed_with_liquid_is_taken_as_it_is_printed(top: str, finding: str) -> None:
    # tires/OM-1: 32 km/h, printed as 20 mph.
    typed = {"rear_tire": "13.6-28", "liquid": "beet", "gear_speeds": f"4, 9, {top}"}
    found = given("tires", "speed", **typed)
    assert found.finding == finding
    assert ("with liquid in the tires" in leading.lead(found, "us")) == (finding == model.OVER)


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ("12.4-24 TL", "12.4-24 TT", model.COMPARED),
        ("25x8.5-14", "25x8.50-14", model.COMPARED),
        ("11.2-24", "11.2-24 R1", model.UNKNOWN),
        ("11.2-24", "", model.UNKNOWN),
    ],
)
def test_two_tires_are_compared_without_those_of_the_other_axle(
    old: str, new: str, finding: str
) -> None:
    found = given("tires", "same", rear_tire=old, new_rear_tire=new)
    assert found.finding == finding
    assert "front_tire" not in [item.field for item in found.unchecked if found.asks_for(item.name)]


@pytest.mark.parametrize(
    ("speed", "pressure", "finding"),
    [
        ("6 mph", "70 psi", model.WITHIN),  # 6,119 lb at 69 psi, up to 10 km/h
        ("12 mph", "", model.WITHIN),  # 5,557 lb at 20 km/h
        ("18 mph", "", model.OVER),  # 4,895 lb at 30 km/h
        ("25 mph", "", model.OVER),  # past the sheet
    ],
)
def test_a_sheet_with_loads_by_speed_says_more_than_the_marks(
    speed: str, pressure: str, finding: str
) -> None:
    # tires/TD-1: loads of 12-16.5 12PR 144A3 from 10 to 30 km/h; 144A3 alone ends at 15.
    typed = {"tire": "12-16.5 12PR 144A3", "tire_mass": "5,000 lb", "road_speed": speed}
    assert given("tire-size", "load", **typed, pressure=pressure).finding == finding
    marks = given("tire-size", "load", **{**typed, "tire": "12-16.5 144A3", "road_speed": "12 mph"})
    assert marks.finding == model.OVER
    alone = given("tire-size", "load", tire=typed["tire"])
    assert leading.lead(alone, "us").startswith("One tire carries 6,670 lb up to 6.21 mph")
