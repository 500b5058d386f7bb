"""What is cut, bought and read off in whole steps, and what is asked for by what was begun."""

import pytest

from calc import model, search, worksheets
from calc.mechanics import auger
from calc.model import leading
from tests.worksheets.asking import finding, given, output, remedy

SHAFT = {
    "closed_length": "1235 mm",
    "tube_length": "900 mm",
    "lowered_distance": "1300 mm",
    "raised_distance": "1290 mm",
}


def said(found: model.Answer, system: str = "us") -> str:
    return leading.lead(found, system)


@pytest.mark.parametrize(
    ("working", "cut"),
    # 40 mm have to stay free: 13 mm too long is cut by 15, 15 by 15, 16 by 20.
    [("1262 mm", "15 mm"), ("1260 mm", "15 mm"), ("1259 mm", "20 mm")],
)
def test_a_metric_shaft_is_cut_in_fives(working: str, cut: str) -> None:
    typed = {**SHAFT, "working_distance": working}
    found = search.answer(worksheets.load("driveline"), typed, "metric", ask="cut")
    assert said(found, "metric").startswith(f"{cut} off both tubes")
    item = remedy(found, "closed_length")
    assert f"Cut {cut} off" in model.words(item.text, "metric")
    again = search.answer(worksheets.load("driveline"), {**typed, **item.set}, "metric", ask="cut")
    assert again.finding != model.OVER


def test_a_us_shaft_is_cut_in_quarters() -> None:
    found = given("driveline", "cut", **SHAFT, working_distance="1262 mm")
    assert said(found).startswith("0.75 in off both tubes")  # 13 mm are 0.51 in


def test_no_series_is_offered_for_a_power_that_nobody_gave() -> None:
    assert not given("driveline", "joints", series="na4").advice.remedies
    known = given("driveline", "joints", series="na4", pto_power="50 hp")
    assert remedy(known, "series").set == {"series": "na6"}  # value/SU-1: 62 hp, the 5 has 47


@pytest.mark.parametrize(
    ("power", "says"),
    [
        ("8 hp", "6 in fed slowly and lifted often, on 8 hp; none that is sold with full flights"),
        ("9 hp", "6 in with full flights"),  # value/P7: 35 hp (6 / 12)² = 8.75 hp in clay
    ],
)
def test_no_auger_is_named_that_nobody_sells(power: str, says: str) -> None:
    assert said(given("digger", "size", pto_power=power, soil="clay")).startswith(says)
    assert min(auger.sold_augers()) == pytest.approx(6 * 0.0254)


def test_a_digger_for_less_than_the_smallest_auger_is_told_so() -> None:
    found = given("digger", "size", pto_power="20 hp", soil="loam", auger_limit="5 in")
    assert said(found) == "None that is sold: the smallest auger is 6 in."
    six = given("digger", "size", pto_power="20 hp", soil="loam", auger_limit="6 in")
    assert said(six).startswith("6 in with full flights")


@pytest.mark.parametrize(
    ("tire", "carries"),
    # tires/TY-A: 3450 kg for the R-4 of 12 plies, 2380 for an R-1 of 10; 1135 for the R-2.
    [
        ("16.9-28 12PR", model.UNKNOWN),
        ("16.9-28 12PR R-4", model.WITHIN),
        ("16.9-28 10PR", model.CLOSE),
        ("8.3-24 10PR", model.UNKNOWN),
        ("17.5L-24 12PR", model.WITHIN),  # made as an industrial tire alone
    ],
)
def test_a_load_of_another_tread_is_no_load_of_a_size(tire: str, carries: str) -> None:
    mass = "2,000 lb" if tire.startswith("8") else "5,000 lb"
    found = given("tire-size", "load", tire=tire, tire_mass=mass, road_speed="6 mph")
    assert found.finding == carries


@pytest.mark.parametrize(
    ("new_front", "lead", "verdict"),
    # A × C / (10 × B) - 1, tires/TG-3
    [("71 ft", 0.0053, model.OVER), ("73.5 ft", 0.0407, model.WITHIN)],
)
def test_distances_rolled_tell_the_lead_without_a_size(
    new_front: str, lead: float, verdict: str
) -> None:
    rolled = {"old_front_ten_turns": "73 ft", "old_rear_ten_turns": "113 ft", "front_turns": "16"}
    found = given("tires", "lead", **rolled, new_front_ten_turns=new_front)
    assert finding(found, "lead") == found.finding == verdict
    assert output(found, "lead_new") == pytest.approx(lead, abs=1e-4)
    swap = given("tires", "swap", **rolled, new_front_ten_turns=new_front)
    assert swap.finding == verdict and "Say first" not in said(swap)


def test_without_a_new_tire_nothing_is_said_of_its_speed() -> None:
    for ask in ("swap", "speed"):
        assert said(given("tires", ask, rear_tire="14.9-28")).startswith("Say the new one too")
    both = given("tires", "speed", rear_tire="14.9-28", new_rear_tire="16.9-28")
    assert "more in every gear" in said(both)


@pytest.mark.parametrize(
    ("new", "says"),
    [("122A8/119B", "It may be the same tire"), ("125A8/122B", "Not the same by its marks")],
)
def test_a_second_speed_left_out_is_no_other_tire(new: str, says: str) -> None:
    typed = {"rear_tire": "320/85R24 122A8", "new_rear_tire": f"320/85R24 {new}"}
    assert said(given("tires", "same", **typed)).startswith(says)


def test_fronts_counted_on_loose_ground_take_the_rears_alone() -> None:
    counted = {"front_turns_free": "20", "front_turns_engaged": "20.6"}
    loose = said(given("rollout", "lead", **counted, course="loose"))
    assert "the rear's turns" in loose and "(A)" not in loose
    assert given("rollout", "lead", **counted, course="hard").finding == model.WITHIN


def test_a_cool_day_takes_no_cooling_below_none() -> None:
    found = given("cab", "size", outside_temperature="60 F")
    assert next(item.low for item in found.outputs if item.name == "need") == 0


def test_nobody_is_told_a_width_of_a_track_that_nobody_gave() -> None:
    typed = {"rear_tire": "13.6-28", "new_rear_tire": "16.9-28", "side_gap": "1 in"}
    unknown = given("tires", "swap", **typed)
    assert finding(unknown, "side_gap") == model.OVER
    assert not any("track_width" in item.set for item in unknown.advice.remedies)
    known = given("tires", "swap", **typed, track_width="60 in")
    assert float(remedy(known, "track_width").set["track_width"].split()[0]) > 60


def test_the_speed_of_a_digger_is_told_before_any_yes() -> None:
    assert said(given("digger", "speed")).startswith("540 rpm is the most")
    assert said(given("digger", "speed", pto_speed="1000 rpm")).startswith("No")
