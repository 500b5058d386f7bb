"""What a tire, digger, hay and cab man at the parts counter would sign, at the edges of rules."""

import pytest

from calc import model, si
from calc.mechanics import auger, implement_class
from calc.model import leading
from tests.worksheets.asking import finding, given


def lead(found: model.Answer) -> str:
    """The sentence that leads the answer."""
    return leading.lead(found, "us")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("10x16.5", "10-16.5 R4", "It may be the same tire"),
        ("320/85R24 122A8", "320/85R24", "It may be the same tire"),
        ("11.2R24", "280/85R24 115A8", "It may be the same tire"),
        ("11.2R24 R-1", "280/85R24 R-3", "Not the same by its marks"),
        ("10x16.5 R1", "10-16.5 R4", "Not the same by its marks"),
        ("11.2-24 R1", "12.4-24", "Not the same by its marks"),
        ("10x16.5 R4", "10-16.5 R4", "By what was typed it is the same"),
    ],
)
def test_a_mark_that_one_tire_is_not_named_with_tells_nothing(
    old: str, new: str, says: str
) -> None:
    for axle in ("front", "rear"):
        found = given("tires", "same", **{f"{axle}_tire": old, f"new_{axle}_tire": new})
        assert lead(found).startswith(says)


@pytest.mark.parametrize(("inches", "hp"), [(12, 35.0), (16, 62.2), (18, 65.0), (24, 100.0)])
def test_a_full_auger_takes_no_more_than_the_gearbox_of_its_class_bears(
    inches: float, hp: float
) -> None:
    # 35 hp at 12 in and the square of the diameter, to the gearboxes of the classes: 30 to 40 hp
    # for 12 in, 50 to 65 for 18 in, 80 to 100 for 24 in.
    low, full = auger.auger_power_range(inches * si.INCH, "clay")
    assert full / si.HP == pytest.approx(hp, abs=0.05) and low < full


@pytest.mark.parametrize(("hp", "finds"), [(99, model.CLOSE), (101, model.WITHIN)])
def test_a_tractor_of_the_largest_class_turns_its_auger_with_ease(hp: float, finds: str) -> None:
    typed = {"implement_kind": "post_hole_digger", "auger_diameter": "24 in", "material": "heavy"}
    assert finding(given("pto", pto_power=f"{hp} hp", **typed), "power") == finds


@pytest.mark.parametrize(("hp", "finds"), [(22, model.OVER), (23, model.CLOSE), (29, model.WITHIN)])
def test_a_blower_of_72_in_is_asked_for_what_is_recalled(hp: float, finds: str) -> None:
    # 28 hp, recalled for 66 to 72 in: from 0.8 of it on, 22.4 hp, it isn't told no.
    assert implement_class.class_power("snow_blower", 72 * si.INCH)[1] / si.HP == pytest.approx(28)
    typed = {"implement_kind": "snow_blower", "working_width": "72 in"}
    assert finding(given("pto", pto_power=f"{hp} hp", **typed), "class") == finds


@pytest.mark.parametrize(("hp", "finds"), [(31, model.OVER), (33, model.CLOSE), (41, model.WITHIN)])
def test_one_maker_of_disk_mowers_does_not_speak_for_all(hp: float, finds: str) -> None:
    # 40 hp for 6.7 ft of one line, power/MOW-T14: others ask for 0.8 of it, 32 hp.
    typed = {"implement_kind": "disk_mower", "working_width": "6.7 ft"}
    assert finding(given("pto", pto_power=f"{hp} hp", **typed), "class") == finds


@pytest.mark.parametrize("sheet", ["pairing", "pto"])
def test_an_altitude_that_nobody_named_is_not_counted(sheet: str) -> None:
    typed = {"implement_kind": "small_square_baler", "implement_mass": "2,800 lb", "slope": "0 %"}
    typed |= {"tractor_mass": "4,500 lb", "pto_power": "41 hp"}
    found = given(sheet, "power" if sheet == "pairing" else "", **typed)
    assert finding(found, "class") == model.WITHIN
    assert "altitude" in {item.name for item in found.unchecked}
    # 3 % for each 1,000 ft above 500 ft: 40 hp are left at 1,313 ft, power/S27.
    for feet, finds in (("1,200 ft", model.WITHIN), ("1,400 ft", model.CLOSE)):
        found = given(sheet, "power" if sheet == "pairing" else "", altitude=feet, **typed)
        assert finding(found, "class") == finds
        assert "altitude" not in {item.name for item in found.unchecked}


@pytest.mark.parametrize("ask", ["left", "current"])
@pytest.mark.parametrize(
    ("kind", "no"),
    [("open", True), ("soft", True), ("factory-heater", False), ("factory-option", False)],
)
def test_no_share_is_told_of_a_cooling_that_does_not_go_in(ask: str, kind: str, no: bool) -> None:
    found = given("cab", ask, cab_kind=kind, alternator_current="120 A", engine_power="40 hp")
    assert (found.finding == model.OVER) == no
    assert ("leave cooling out" in lead(found)) == no


@pytest.mark.parametrize(
    ("ours", "theirs", "says"),
    [("1-540", "2-1000", "1.85 times the torque"), ("2-1000", "1-540", "3.43 times here")],
)
def test_a_shaft_too_slow_and_one_too_fast_break_things_in_ways_of_their_own(
    ours: str, theirs: str, says: str
) -> None:
    # The same power at 540 of 1000 rpm is 1000 / 540 of the torque; blades pull with the square.
    for ask in ("shafts", "enough"):
        typed = {"tractor_shaft": ours, "implement_shaft": theirs, "pto_power": "60 hp"}
        found = given("pto", ask, implement_kind="rotary_cutter", working_width="60 in", **typed)
        assert lead(found).startswith("No.") and says in lead(found)


def test_no_mid_shaft_is_told_as_that_and_not_as_another_speed() -> None:
    typed = {"implement_kind": "mid_mower", "working_width": "60 in", "pto_power": "17 hp"}
    found = given("pto", "enough", mid_pto="none", **typed)
    assert "from a mid PTO" in lead(found) and "adapter" not in lead(found)


@pytest.mark.parametrize(("rating", "finds"), [("", model.COMPARED), ("13 kW", model.WITHIN)])
def test_the_largest_generator_is_told_without_the_rating_of_one(rating: str, finds: str) -> None:
    # 2 PTO hp for each kW, power/S23: 27 hp carry 13.5 kW.
    typed = {"generator_rating": rating} if rating else {}
    found = given("pto", "generator", implement_kind="generator", pto_power="27 hp", **typed)
    assert found.finding == finds and ("13.5 kW at the most" in lead(found)) == (not rating)


@pytest.mark.parametrize(("hp", "finds"), [(17.5, model.OVER), (17.7, model.CLOSE)])
def test_no_chipper_is_refused_to_a_tractor_that_its_makers_may_ask_for(
    hp: float, finds: str
) -> None:
    # 22 hp are recalled for 5 in, and 0.8 of it is 17.6; 4 hp an inch, power/S22, are of logs as
    # thick as the opening.
    typed = {"implement_kind": "chipper", "working_width": "5 in", "material": "typical"}
    found = given("pto", pto_power=f"{hp} hp", **typed)
    assert {finding(found, "power"), finding(found, "class")} == {finds}


@pytest.mark.parametrize(("front", "sold"), [("R-3", True), ("", True), ("R-4", False)])
def test_a_pair_is_sold_with_its_tread_at_both_ends(front: str, sold: bool) -> None:
    # tires/PR-1: 25x8.5-14 goes with 41x14-20 in turf, and with 43x16-20 in R-4.
    now = {"front_tire": f"25x8.50-14 {front}".strip(), "rear_tire": "43x16.00-20 R-4"}
    found = given("tires", "partner", **now, new_rear_tire="41x14.00-20 R-3")
    assert ("a pair that makers sell" in lead(found)) == sold


@pytest.mark.parametrize(("hp", "finds"), [(64, model.OVER), (65, model.CLOSE)])
def test_a_large_auger_kept_full_takes_what_its_gearbox_is_made_for(hp: float, finds: str) -> None:
    # 15 / 35 to all of it by practice: steadily 0.643 of 100 hp, 64.3 hp.
    typed = {"auger_diameter": "24 in", "soil": "clay", "feed": "steady", "pto_power": f"{hp} hp"}
    assert finding(given("digger", **typed), "power") == finds
