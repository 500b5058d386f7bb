"""Tires known by two distances alone, wear at one end, and limits that keep their own side."""

import math

import pytest

from calc import model, search, si, worksheets
from calc.mechanics import tire_size
from calc.model import leading
from tests.worksheets.asking import finding, given, output, remedy

NOW = {"front_tire": "7-16", "rear_tire": "11.2-24"}
FOOT = 12 * si.INCH


def lead(found: model.Answer, system: str = "us") -> str:
    """The sentence that leads the answer."""
    return leading.lead(found, system)


# 2 % times 76 ft to 78.2 ft is 4.95 % of lead, to 78.3 ft 5.09 %; the guide's window ends at 5 %.
@pytest.mark.parametrize(("feet", "over"), [(76, False), (78.2, False), (78.3, True), (80, True)])
def test_two_distances_of_one_axle_are_two_tires(feet: float, over: bool) -> None:
    rolled = {"old_front_ten_turns": "76 ft", "new_front_ten_turns": f"{feet} ft"}
    found = given("tires", "lead", **NOW, **rolled, lead_now="2 %")
    assert output(found, "lead_new") == pytest.approx(1.02 * feet / 76 - 1)
    assert (finding(found, "lead") == model.OVER) is over


def test_two_distances_of_the_rear_move_speed_and_height() -> None:
    rolled = {"old_rear_ten_turns": "108 ft", "new_rear_ten_turns": "114 ft"}
    found = given("tires", "speed", **NOW, **rolled, gear_speeds="3, 8, 16 mph")
    assert output(found, "top_speed") / si.MPH == pytest.approx(16 * 114 / 108)
    assert output(found, "rear_rise") == pytest.approx(0.6 * FOOT / (2 * math.pi))
    gap = given("tires", "height", **NOW, **rolled, fender_gap="2.1 in")
    # 0.6 ft a turn is 1.15 in of radius, and 25 mm is kept: tires/OM-16.
    assert finding(gap, "fender_gap") == model.OVER
    gap = given("tires", "height", **NOW, **rolled, fender_gap="2.2 in")
    assert finding(gap, "fender_gap") != model.OVER


def test_one_distance_is_of_the_tires_it_has() -> None:
    for when in ("old", "new"):
        rolled = {f"{when}_front_ten_turns": "76 ft", f"{when}_rear_ten_turns": "108 ft"}
        found = given("tires", "lead", **NOW, **rolled, front_turns="14.6")
        assert output(found, "lead_now") == output(found, "lead_new")
        assert output(found, "lead_new") == pytest.approx(76 * 1.46 / 108 - 1)


@pytest.mark.parametrize("sheet", ["tires", "rollout"])
def test_a_front_tire_that_rolls_farther_than_the_rear_is_asked_about(sheet: str) -> None:
    rolled = {"old_rear_ten_turns": "76 ft", "front_turns": "14.6"}
    with pytest.raises(search.BadInputs) as caught:
        given(sheet, "lead", **NOW, **rolled, old_front_ten_turns="108 ft")
    assert list(caught.value.errors) == ["old_front_ten_turns"]
    found = given(sheet, "lead", **NOW, **rolled, old_front_ten_turns="76 ft")
    assert finding(found, "lead") in (model.OVER, "")


def test_a_lead_from_the_table_is_not_said_to_a_percent() -> None:
    counted = given("tires", "lead", **NOW, front_turns="14 to 15")
    assert lead(counted).startswith("Can't tell from the sizes")
    rolled = {"old_front_ten_turns": "76 ft", "old_rear_ten_turns": "112 ft"}
    measured = given("tires", "lead", **NOW, **rolled, front_turns="14.6")
    assert lead(measured).startswith("By these numbers the lead is -0.929 %")


@pytest.mark.parametrize("axle", ["front", "rear"])
def test_wear_at_one_end_alone_is_mended_there(axle: str) -> None:
    typed = {**NOW, f"{axle}_worn": "90 %"}
    found = given("tires", "lead", **typed)
    mended = remedy(found, f"new_{axle}_tire")
    assert mended.set[f"new_{axle}_tire"] == NOW[f"{axle}_tire"]
    assert finding(found, "lead") == model.OVER
    assert finding(given("tires", "lead", **{**typed, **mended.set}), "lead") == model.WITHIN


def test_half_a_lug_is_not_half_a_percent() -> None:
    with pytest.raises(search.BadInputs) as caught:
        given("tires", "lead", **NOW, front_worn="0.5")
    assert list(caught.value.errors) == ["front_worn"]
    for worn in ("0", "1", "0.5 to 20 %"):
        given("tires", "lead", **NOW, front_worn=worn)


@pytest.mark.parametrize(
    ("tire", "load", "carries"),
    [
        ("13.6-28 8PR", "5,000 lb", "3,620 lb"),  # 1645 kg, tires/TY-A, is 3,627 lb
        (
            "320/85R24 119A8",
            "4,000 lb",
            "3,000 lb",
        ),  # 1360 kg, tires/S2, is 2,998 lb, and printed as 3,000
        ("440/80R24 161A8", "14,000 lb", "10,200 lb"),  # 4625 kg is 10,196 lb
        ("18x8.50-8 4PR", "1,000 lb", "815 lb"),  # 370 kg, tires/TD-3
    ],
)
def test_what_a_tire_carries_is_the_remedy_as_well(tire: str, load: str, carries: str) -> None:
    found = given("tire-size", "load", tire=tire, tire_mass=load)
    assert lead(found).endswith(f"that carries {carries}.")
    kept = remedy(found, "tire_mass").set["tire_mass"]
    assert kept == carries.replace(",", "")
    assert finding(given("tire-size", "load", tire=tire, tire_mass=kept), "load") == model.CLOSE


@pytest.mark.parametrize(("load", "finds"), [("6,000 lb", model.CLOSE), ("6,010 lb", model.OVER)])
def test_two_tires_carry_what_is_printed_twice(load: str, finds: str) -> None:
    typed = {"rear_tire": "320/85R24 119A8", "gear_speeds": "5, 12 mph"}
    found = given("tires", "load", **typed, rear_axle_load=load)
    assert finding(found, "rear_load") == finds
    texts = [model.words(item.text, "us") for item in found.advice.remedies]
    assert any("3,010 lb each" in text for text in texts) is (finds == model.OVER)


def test_new_tires_carry_the_worst_of_what_the_liquid_may_weigh() -> None:
    typed = {"rear_tire": "13.6-28", "liquid": "beet", "rear_tire_load": "3,600 lb"}
    found = given("tires", "load", **typed, rear_axle_load="7,000 lb")
    worst = next(x.value_high for x in found.verdicts if x.check.name == "rear_load")
    each = 10 * math.ceil(worst / 2 / si.POUND / 10)
    assert any(f"{each:,} lb each" in model.words(r.text, "us") for r in found.advice.remedies)


def test_a_load_that_was_typed_stands_as_typed() -> None:
    typed = {"tire": "26x12.00-12", "rated_load": "1,612 lb"}
    assert finding(given("tire-size", "load", **typed, tire_mass="1,612 lb"), "load") == model.CLOSE
    assert finding(given("tire-size", "load", **typed, tire_mass="1,614 lb"), "load") == model.OVER


def test_what_must_be_reached_is_rounded_up() -> None:
    # 1.2 times 367 mm, tires/OM-16: 440.4 mm.
    sheet = worksheets.load("duals")
    found = search.answer(sheet, {"rear_tire": "340/85R28"}, "metric", ask="gap")
    assert lead(found, "metric").startswith("At least 441 mm")


@pytest.mark.parametrize(("load", "psi"), [("200 lb", 6), ("900 lb", 6), ("1,300 lb", 9.97)])
def test_no_chart_begins_below_what_makers_recommend(load: str, psi: float) -> None:
    # 41 kPa, tires/AB-3; 1,300 lb of 2,700 at 240 kPa by the power of 1 / 0.585.
    found = given("tire-size", "pressure", tire="11.2-24 8PR", tire_mass=load)
    assert output(found, "pressure_needed") / si.PSI == pytest.approx(psi, abs=0.05)
    assert any("12 psi" in item.text for item in found.advice.cautions)
    more = given("tire-size", "pressure", tire="11.2-24 8PR", tire_mass="1,500 lb")
    assert not any("12 psi" in item.text for item in more.advice.cautions)


def test_a_pressure_asks_for_the_load_where_the_rating_is_known() -> None:
    found = given("tire-size", "pressure", tire="11.2-24 8PR")
    assert lead(found).startswith("Say what it bears")
    assert lead(given("tire-size", "pressure", tire="11.2-24")).startswith("Read the sidewall's")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("14.9R24 1 star", "14.9R24"),
        ("14.9R24 two-star 142A8", "14.9R24 142A8"),
        ("my rears are 11.2-24 R1", "11.2-24 R-1"),
        ("new 11.2-24 tyres R1", "11.2-24 R-1"),
        ("25x8.50-14 R-4 HF-1", "25x8.50-14 R-4 HF"),
    ],
)
def test_stars_and_words_beside_a_size(typed: str, read: str) -> None:
    assert tire_size.decode(typed).text == read
    with pytest.raises(tire_size.SizeError):
        tire_size.decode("14.9R24 4 star")  # a radial has three at most


@pytest.mark.parametrize("wanted", ["48 in", "5 ft"])
def test_an_auger_that_nobody_measured_may_be_a_long_one(wanted: str) -> None:
    found = given("digger", "depth", depth_wanted=wanted)
    assert finding(found, "depth") == model.UNKNOWN
    found = given("digger", "depth", depth_wanted=wanted, auger_length="42 in")
    assert finding(found, "depth") == model.OVER
