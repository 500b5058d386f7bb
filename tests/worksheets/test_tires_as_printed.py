"""Limits as sidewalls and gauges print them, and a front drive that its tires tell."""

import pytest

from calc import model, tables
from tests.worksheets.asking import findings, given, margin


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
    assert margin(fast, "load") == 0
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
