"""What an answer says while something is open: it asks for what is missing and no more."""

import pytest

from calc import model
from calc.model import leading
from tests.worksheets.asking import finding, given, remedy

BLADE = {"implement_kind": "front_blade", "working_width": "60 in", "loader": "off"}
COMPACT = {"tractor_kind": "compact_heavy", "tractor_mass": "3,200 lb"}


def lead(found: model.Answer) -> str:
    return leading.lead(found, "us")


@pytest.mark.parametrize(("limit", "asked"), [("", True), ("3,000 lb", False)])
def test_an_axle_limit_that_was_read_is_not_asked_for(limit: str, asked: bool) -> None:
    typed = {**COMPACT, **BLADE, "implement_mass": "600 lb" if limit else "250 lb"}
    found = given("pairing", "in_front", front_axle_limit=limit, **typed)
    assert found.finding == model.UNKNOWN
    assert ("Front axle limit" in lead(found)) == asked


def test_a_front_blower_hangs_on_the_mid_shaft() -> None:
    typed = {**COMPACT, "implement_kind": "front_blower", "implement_mass": "400 lb"}
    typed |= {"loader": "off", "working_width": "60 in", "front_axle_limit": "3,000 lb"}
    none = given("pairing", "in_front", mid_pto="none", **typed)
    assert none.finding == model.OVER and "mid PTO" in lead(none)
    unseen = given("pairing", "in_front", **typed)
    assert unseen.finding == model.UNKNOWN and "Mid PTO" in lead(unseen)


def test_two_categories_that_were_given_are_not_asked_for() -> None:
    typed = {"implement_category": "1", "implement_kind": "box_blade"}
    found = given("pairing", "hitching", hitch_category="2", **typed)
    assert finding(found, "pins") == model.CLOSE
    assert "measure a lower pin" not in lead(found)
    one = given("pairing", "hitching", **typed)
    assert "measure a lower pin" in lead(one)


def test_who_names_the_category_of_a_coupler_has_one() -> None:
    found = given("hitch", "sleeves", coupler_category="2", lower_pin="7/8 in")
    assert "7/8 in inside" in lead(found)
    alone = lead(given("hitch", "sleeves", lower_pin="7/8 in"))
    assert alone.startswith("It depends") and "coupler" not in alone


def test_a_ply_rating_that_was_typed_is_not_asked_for() -> None:
    typed = {"tire_mass": "2,600 lb", "pressure": "14 psi"}
    assert "ply rating" in lead(given("tire-size", "load", tire="12.4-24 R-1", **typed))
    said = lead(given("tire-size", "load", tire="12.4-24 8PR R-1", **typed))
    assert "type" not in said and "sidewall" in said


def test_a_speed_that_was_typed_is_not_asked_for() -> None:
    # tires/TY-A: 3,450 kg at 260 kPa, a loader's figure, held for slow work only.
    typed = {"tire": "16.9-28 12PR R-4", "tire_mass": "6,000 lb", "pressure": "38 psi"}
    assert "Say the speed" in lead(given("tire-size", "load", **typed))
    assert "at 20 mph" in lead(given("tire-size", "load", road_speed="20 mph", **typed))


def test_ballast_behind_goes_by_the_load_in_front() -> None:
    typed = {"loader": "on", "tractor_kind": "compact_light", "implement_kind": "none"}
    assert "what the loader will lift" in lead(given("ballast", "behind", **typed))
    assert "A box" in lead(given("ballast", "behind", loader_payload="400 lb", **typed))


@pytest.mark.parametrize(("allows", "asked"), [("yes", False), ("", True)])
def test_a_manual_that_was_read_is_not_asked_for(allows: str, asked: bool) -> None:
    typed = {"rear_tire": "14.9-28", "track_width": "60 in", "adapter_length": "16 in"}
    found = given("duals", "steadier", manual_allows=allows, **typed)
    assert ("if the manual allows" in lead(found)) == asked


def test_what_is_left_is_told_of_the_whole_power() -> None:
    typed = {"pto_power": "40 hp", "rated_rpm": "2600 rpm", "pto_engine_rpm": "1820 rpm"}
    assert "of 40 hp" in lead(given("pto", "left", altitude="0 ft", **typed))
    assert "of 40 hp" in lead(given("pto", "speed", **typed))


def test_fronts_worn_far_down_are_bought_with_the_rears() -> None:
    typed = {"front_tire": "7-16 R-1", "rear_tire": "11.2-24 R-1"}
    worn = {"new_rear_tire": "11.2-24 R-1", "front_worn": "90 %", "rear_worn": "80 %"}
    found = given("tires", "lead", **typed, **worn)
    assert finding(found, "lead") == model.OVER
    both = remedy(found, "new_front_tire")
    assert both.set["new_front_tire"].startswith("7-16")
    assert finding(given("tires", "lead", **typed, **worn, **both.set), "lead") != model.OVER
    unworn = given("tires", "lead", **typed, new_rear_tire="11.2-24 R-2")
    assert all("on the front as well" not in str(item.text) for item in unworn.advice.remedies)


def test_an_alternator_at_idle_is_run_faster() -> None:
    # value/EM-3: 50 A give 16 A hot at 1,300 rpm and 48 A at 5,000.
    typed = {"alternator_current": "72 A", "lamps": "day", "cab_kind": "factory-option"}
    found = given("cab", "current", alternator_speed="1,300 rpm", **typed)
    assert finding(found, "current") == model.OVER
    faster = remedy(found, "alternator_speed")
    tried = given("cab", "current", **{**typed, **faster.set})
    assert finding(tried, "current") in (model.WITHIN, model.CLOSE, model.UNKNOWN)
    assert finding(tried, "current") != model.OVER
