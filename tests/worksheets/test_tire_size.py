"""Tire size: what the sidewall says, load at speed and pressure, sizes as people type them."""

import pytest

from calc import model
from calc.model import leading
from calc.search import BadInputs
from tests.tire_rows import TABLE_SIZES
from tests.worksheets.asking import (
    answer,
    finding,
    given,
    output,
    remedy,
    table,
)


def test_size_example() -> None:
    found = answer("tire-size")
    assert found.finding == model.WITHIN
    assert output(found, "rated") == 1500
    assert output(found, "overall_diameter") == pytest.approx(1.154, abs=0.001)


@pytest.mark.parametrize("size", TABLE_SIZES[::7])
def test_any_size_of_the_table_answers(size: str) -> None:
    found = answer("tire-size", tire=size, tire_mass="", road_speed="")
    assert found.finding == model.COMPARED and "across" in leading.lead(found, "us")
    for o in found.outputs:
        if o.low is not None and o.high is not None:
            assert o.low < o.value < o.high


def test_size_overload_and_overspeed_remedies() -> None:
    typed = {"tire_mass": "5,000 lb", "road_speed": "30 mph"}
    found = answer("tire-size", **typed)
    assert finding(found, "load") == finding(found, "speed") == model.OVER
    for field, check in (("tire_mass", "load"), ("road_speed", "speed")):
        tried = answer("tire-size", **{**typed, **remedy(found, field).set})
        assert finding(tried, check) != model.OVER
    assert remedy(found, "tire_mass").set["tire_mass"] == "3300 lb"  # 1500 kg, tires/S2


def test_size_pressure_lowers_the_load() -> None:
    found = answer("tire-size", pressure="10 psi", rated_pressure="23 psi")
    assert output(found, "carries") == pytest.approx(1500 * (10 / 23) ** 0.585)
    with pytest.raises(BadInputs, match="maximum"):
        answer("tire-size", pressure="30 psi", rated_pressure="23 psi")


def test_trap_low_speed_bonus_is_not_counted_on() -> None:
    slow = answer("tire-size", road_speed="6 mph")
    fast = answer("tire-size", road_speed="20 mph")
    limits = [
        next(v.check.limit for v in found.verdicts if v.check.name == "load")
        for found in (slow, fast)
    ]
    assert limits[0] == limits[1] == 1500


def test_a_size_needs_no_load_to_be_read() -> None:
    found = given("tire-size", tire="15x19.5 R4")
    assert found.finding == model.COMPARED
    assert "15-19.5 R-4" in leading.lead(found, "us")


def test_without_a_rating_the_sidewalls_line_is_asked_for() -> None:
    for size in ("9.5-16", "320/85R24", "12.4-24 6PR"):
        found = given("tire-size", tire=size, tire_mass="900 lb")
        assert found.finding == model.UNKNOWN
        assert [item.field for item in found.unchecked if item.name == "load"] == ["rated_load"]
        assert "max load" in leading.lead(found, "us")


def test_a_load_index_at_a_pressure_needs_the_pressure_it_holds_at() -> None:
    typed = {"tire": "320/85R24 122A8", "tire_mass": "2500 lb", "pressure": "10 psi"}
    found = given("tire-size", **typed)
    assert [item.field for item in found.unchecked if item.name == "load"] == ["rated_pressure"]
    found = given("tire-size", **typed, rated_pressure="23 psi")
    assert finding(found, "load") == model.OVER


def test_a_row_carries_less_at_less_pressure() -> None:
    # tires/TY-A: 16.9-28 10PR R-1 carries 2380 kg at 200 kPa.
    at_row = given("tire-size", tire="16.9-28 10PR R-1", pressure="200 kPa", ask="load")
    assert output(at_row, "carries") == pytest.approx(2380)
    less = given("tire-size", tire="16.9-28 10PR R-1", pressure="138 kPa", ask="load")
    assert 1700 < output(less, "carries") < 2380
    more = given("tire-size", tire="16.9-28 10PR R-1", pressure="300 kPa", ask="load")
    assert output(more, "carries") == pytest.approx(2380)


def test_two_service_descriptions_are_two_speeds() -> None:
    typed = {"tire": "320/85R24 122A8/119B", "tire_mass": "1400 kg"}
    assert finding(given("tire-size", **typed, road_speed="24 mph"), "load") == model.CLOSE
    assert finding(given("tire-size", **typed, road_speed="30 mph"), "load") == model.OVER
    assert finding(given("tire-size", **typed, road_speed="33 mph"), "speed") == model.OVER


def test_size_parts_are_explained() -> None:
    found = answer("tire-size", tire="VF380/85R34 153/150D 8PR R-1W NHS")
    parts = [row[0] for row in table(found, "part").rows]
    assert parts == ["VF", "380", "/85", "R", "34", "153/150D", "/150", "8PR", "R-1W", "NHS"]


def test_size_pressure_for_the_load_and_the_work() -> None:
    typed = {"tire": "23x10.50-12 6PR", "tire_mass": "900 lb", "rated_pressure": "32 psi"}
    plain = output(answer("tire-size", **typed, road_speed=""), "pressure_needed")
    loader = output(answer("tire-size", **typed, road_speed="", work="loader"), "pressure_needed")
    assert loader - plain == pytest.approx(30_000)
    found = answer("tire-size", **typed, road_speed="", pressure=f"{plain / 6894.757:.4f} psi")
    assert output(found, "carries") == pytest.approx(900 * 0.45359237, rel=1e-3)
    assert output(found, "contact_area") == pytest.approx(900 * 0.45359237 * 9.80665 / plain, 1e-3)


@pytest.mark.parametrize("typed", ["24-11.2", "28-14.9", "16-7", "24-24", "20-8.3"])
def test_width_and_rim_the_wrong_way_round_are_a_question(typed: str) -> None:
    with pytest.raises(BadInputs, match="swapped"):
        given("tire-size", tire=typed)


@pytest.mark.parametrize(
    "typed", ["18.4-16.1", "12.5/80-15.3", "18-15.5", "31x15.50-15", "21.5L-16.1"]
)
def test_wide_tires_on_small_rims_are_read(typed: str) -> None:
    assert given("tire-size", tire=typed).finding == model.COMPARED


@pytest.mark.parametrize(("load", "expected"), [("3,500 lb", model.OVER), ("3,200 lb", "unknown")])
def test_no_pressure_carries_more_than_the_rating(load: str, expected: str) -> None:
    # Load index 122 is 1500 kg, 3,307 lb (tires/S4), at its own pressure, which isn't known here.
    typed = {"tire": "320/85R24 122A8", "pressure": "15 psi", "road_speed": "20 mph"}
    assert given("tire-size", "load", **typed, tire_mass=load).finding == expected
    axle = {"3,500 lb": "7,000 lb", "3,200 lb": "6,400 lb"}[load]
    both = {"rear_tire": "320/85R24 122A8", "rear_pressure": "15 psi", "gear_speeds": "20 mph"}
    assert given("tires", "load", **both, rear_axle_load=axle).finding == expected


def test_the_pressure_of_a_slow_rating_says_up_to_what_speed() -> None:
    # tires/TY-A: 16.9-28 R-4 12PR carries 3450 kg at 260 kPa; loader loads hold to 10 km/h.
    typed = {"tire": "16.9-28 R-4 12PR", "tire_mass": "6,000 lb"}
    said = leading.lead(given("tire-size", "pressure", **typed), "us")
    assert "up to 6.21 mph" in said and said.startswith("25.1 psi")
    slow = given("tire-size", "pressure", **typed, road_speed="5 mph")
    assert leading.lead(slow, "us").startswith("Set 25.1 psi")
