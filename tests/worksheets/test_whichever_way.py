"""A lead holds whichever way it turns out to be, and asks for what is missing alone."""

import pytest

from calc import model
from calc.model import leading
from tests.worksheets.asking import findings
from tests.worksheets.asking import given as found


def lead(name: str, ask: str, **typed: str) -> str:
    return leading.lead(found(name, ask, **typed), "us")


@pytest.mark.parametrize(("sight", "expected"), [("846 ft", model.OVER), ("848 ft", model.UNKNOWN)])
def test_sight_that_is_too_short_for_every_way_out_needs_no_way(sight: str, expected: str) -> None:
    """A loaded truck takes 10.5 s to turn right or cross (road/GAP-1): 847 ft at 55 mph."""
    typed = {"car_speed": "55 mph", "entrance_sight": sight}
    assert found("closing", "pull", **typed).finding == expected
    for maneuver in ("right", "left", "cross") if expected == model.OVER else ():
        said = findings(found("closing", "pull", **typed, maneuver=maneuver))
        assert said["truck"] == model.OVER


def test_a_lead_is_asked_for_what_nobody_measured_alone() -> None:
    turns = {"old_front_ten_turns": "64 ft", "old_rear_ten_turns": "103 ft"}
    assert lead("rollout", "lead", **turns).endswith("yet: measure the gear ratio (C).")
    said = lead("rollout", "wear", front_turns="16.3")
    assert "(A)" in said and "(B)" in said and "(C)" not in said
    assert found("rollout", "lead", **turns, front_turns="16.3").finding == model.WITHIN


def test_what_was_said_already_is_not_asked_again() -> None:
    """A price without its loan, a year without its hours, an implement that no shaft turns."""
    assert lead("resale", "payments", new_price="$30,000") == (
        "Say the loan's interest and the loan's months: the payment follows."
    )
    said = lead("resale", "worth", age="8 years")
    assert "costs new" in said and "its hours" in said and "its age" not in said
    # Of a baler the hours tell nothing.
    baler = lead("resale", "worth", age="8 years", machine="baler", like_new_price="$9,000")
    assert baler.startswith("About $")
    blade = lead("pto", "enough", implement_kind="box_blade", pto_power="40 hp")
    assert blade.startswith("Box blade: nothing on it is driven from the PTO")
    assert lead("pto", "enough", pto_power="40 hp").startswith("Say which kind")


def test_a_share_is_left_at_a_height_whatever_the_power_is() -> None:
    typed = {"altitude": "9,000 ft", "breathing": "natural"}
    assert lead("pto", "left", **typed).endswith("the height leaves 74.5 %.")
    said = lead("pto", "left", **typed, pto_power="40 hp")
    assert said.startswith("29.8 hp of 40 hp") and said.endswith("leaves 74.5 %.")


@pytest.mark.parametrize(("power", "sold"), [("8 hp", False), ("20 hp", True)])
def test_no_width_is_told_that_nobody_sells(power: str, sold: bool) -> None:
    """The narrowest tiller sold is 36 in."""
    said = lead("pto", "widest", implement_kind="rotary_tiller", pto_power=power, material="light")
    assert said.startswith("None that is sold: the narrowest is 36 in") != sold


def test_an_offer_saves_its_tax_on_anything_dearer() -> None:
    offer = {"trade_offer": "$12,000"}
    said = lead("resale", "tax", **offer, sales_tax="7 %")
    assert said.startswith("$12,000 alone, and $840 more where only the difference is taxed")
    for untaxed in ({"sales_tax": "0 %"}, {"sales_tax": "7 %", "tax_rule": "full"}):
        answer = found("resale", "tax", **offer, **untaxed)
        assert answer.finding == model.COMPARED and not answer.settles
        assert leading.lead(answer, "us").startswith("The trade-in is worth $12,000, the offer")


def test_a_sheet_begins_with_the_tractor_and_not_with_its_loader() -> None:
    assert found("capability", "sheet", loader="on").missing
    assert not found("capability", "sheet", loader="on", pto_power="30 hp").missing


def test_what_a_loader_lifts_is_told_of_an_empty_one() -> None:
    said = lead("ballast", "loader", loader_payload="0 lb", loader_rating="1,100 lb")
    assert said.startswith("By its rating the loader lifts 792 lb")


def test_no_loader_asks_for_no_load_in_it() -> None:
    for ask in ("behind", "loader"):
        none = found("ballast", ask, loader="none")
        assert leading.lead(none, "us").startswith("Without a loader") and not none.settles
    assert lead("ballast", "behind", loader="on").startswith("Say first what the loader will lift")


def test_a_change_of_speed_is_told_as_more_or_less() -> None:
    old = {"rear_tire": "12.4-24"}
    assert "2.72 to 6.76 % less in every gear" in lead(
        "tires", "speed", **old, new_rear_tire="11.2-24"
    )
    said = lead("tires", "speed", **old, new_rear_tire="13.6-24")
    assert "6.76 % more in every gear" in said and said.count("more") == 1


@pytest.mark.parametrize(("coldest", "freezes"), [("31 °F", True), ("33 °F", False)])
def test_what_freezes_is_told_beside_the_coldest_day(coldest: str, freezes: bool) -> None:
    said = lead("tires", "liquid", rear_tire="14.9-28", liquid="water", coldest=coldest)
    assert (f"from 32 °F, where {coldest} is the coldest" in said) == freezes


def test_both_ends_tell_what_must_stay_behind_while_it_is_open() -> None:
    typed = {"front_implement_mass": "500 lb", "implement_kind": "rear_blade"}
    known = {"implement_mass": "400 lb", "tractor_mass": "3,500 lb", "front_axle_limit": "3,000 lb"}
    said = lead("pairing", "both", **typed, **known)
    assert said.startswith("It depends") and "must stay" in said and "read the front" not in said


def test_a_level_crossing_is_told_with_its_number() -> None:
    said = lead("pairing", "across", cross_slope="0 deg")
    assert said.startswith("0 % (0 deg) across is in order")
