"""The first sentence answers the very question, and what is asked back is what would settle it."""

import re

import pytest

from calc import model
from calc.model import leading
from calc.render import concerns, reply
from tests.worksheets.asking import finding, findings
from tests.worksheets.asking import given as found


def lead(name: str, ask: str, **typed: str) -> str:
    return leading.lead(found(name, ask, **typed), "us")


def to_find(answer: model.Answer) -> list[str]:
    return [each.field.name for each in answer.settles]


LIFT = {"lift_rated_at": "0", "implement_kind": "rotary_cutter", "implement_mass": "700 lb"}


def test_the_numbers_to_find_are_those_of_what_was_asked() -> None:
    """Whether the hitch lifts it hangs on how far back it is, not on the tractor's mass."""
    open_ = found("ballast", "lift", lift_capacity="1,100 lb", **LIFT)
    assert finding(open_, "lift") == model.UNKNOWN
    assert to_find(open_)[0] == "cg_distance"
    # What was asked is settled: the danger beside it is asked about.
    settled = found("ballast", "lift", lift_capacity="2,000 lb", loader="on", **LIFT)
    assert finding(settled, "lift") in (model.CLOSE, model.WITHIN)
    assert settled.finding == model.UNKNOWN and "cg_distance" not in to_find(settled)[:1]


HOOKS = {"hitch_category": "1", "implement_category": "1", "implement_kind": "box_blade"}


def test_what_was_asked_is_told_beside_what_is_open() -> None:
    assert "go with the tractor's hitch" in lead("pairing", "hitching", **HOOKS)


@pytest.mark.parametrize("ask", ["power", "duty", "lift", "hitching", "hydraulics", "clear"])
def test_a_loader_that_nobody_spoke_of_opens_no_question_of_the_implement(ask: str) -> None:
    typed = {"implement_kind": "box_blade"}
    answer = found("pairing", ask, **typed)
    assert answer.ask.alone or "rear_loader" not in findings(answer)
    assert "rear_loader" not in {v.check.name for v in concerns.in_question(answer)}
    assert "rear_loader" in findings(found("pairing", ask, **typed, loader="on"))


ALONE = {
    "hydraulics": {"flow_needed": "8 gpm", "implement_flow": "9 gpm"},
    "clear": {"balls_highest": "34 in", "pins_on_ground": "18 in"},
    "duty": {"power_limit": "40 hp", "pto_power": "30 hp", "implement_kind": "other"},
    "hitching": HOOKS,
}


@pytest.mark.parametrize("ask", ALONE)
def test_a_danger_that_is_none_of_its_business_leaves_a_question_its_yes(ask: str) -> None:
    """Oil is there or not, whatever the front wheels carry; what they lose for sure is told."""
    light = {**HOOKS, **ALONE[ask], "slope": "15 %", "tractor_mass": "1,700 lb"}
    open_ = found("pairing", ask, **light)
    assert findings(open_)["climb"] == model.UNKNOWN and open_.finding == model.WITHIN
    assert open_.deciding is not None and open_.deciding.check.name in open_.ask.checks
    told = reply.reply(open_)
    assert "front wheels" not in told and "leave the ground" not in told
    over = found("pairing", ask, **light, implement_mass="2,900 lb", loader="off")
    assert findings(over)["climb"] == model.OVER == over.finding


@pytest.mark.parametrize("ask", ALONE)
def test_such_a_question_without_its_numbers_is_open_and_names_no_implement(ask: str) -> None:
    answer = found("pairing", ask)
    assert answer.finding == model.UNKNOWN and not answer.missing
    assert re.match("Say|Read|Can't say", leading.lead(answer, "us"))


def test_a_rating_names_a_driveline_whatever_the_implement_is() -> None:
    typed = {"power_limit": "40 hp", "implement_kind": "other"}
    # A fifth more is what even a good clutch allows (power/S25): 48 hp.
    for power, expected in (("40 hp", "within"), ("48 hp", "close"), ("49 hp", "over")):
        assert found("pairing", "duty", pto_power=power, **typed).finding == expected
    assert "driveline" not in findings(
        found("pairing", "duty", pto_power="45 hp", power_limit="40 hp", implement_kind="box_blade")
    )


def test_a_wrong_bolt_is_told_once() -> None:
    said = lead("driveline", "bolt", overload="bolt", bolt_as_manual="no", bolt_grade="grade_5")
    assert said.startswith("Not this one") and said.count("manual names") == 1


def test_duals_tell_the_axle_s_limit_where_it_is_known() -> None:
    load = {"rear_axle_load": "5,000 lb", "rear_tire_load": "2,800 lb"}
    assert "7,000 lb" in lead("duals", "load", rear_axle_limit="7,000 lb", **load)
    assert lead("duals", "load", **load).startswith("Duals carry more, the axle doesn't")


@pytest.mark.parametrize(
    ("power", "start"),
    [
        ("29 hp", "No: 29 hp is inside"),
        ("31 hp", "Nearly, as its driveline is rated 30 hp"),
        ("35.9 hp", "Nearly, as its driveline is rated 30 hp"),
        ("36.1 hp", "Yes: its driveline is rated 30 hp"),
    ],
)
def test_a_driveline_is_told_by_the_rating_that_was_given(power: str, start: str) -> None:
    typed = {"implement_kind": "rotary_tiller", "power_limit": "30 hp", "pto_power": power}
    assert lead("pairing", "duty", **typed).startswith(start)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"thatch": "0.5 in"}, "No need to rake yet"),
        ({"thatch": "0.51 in"}, "Rake then: yours has 0.51 in"),
        ({"tool": "core", "thatch": "0.75 in"}, "Aerate while it grows"),
        ({"tool": "spring-tine"}, "Rake once the thatch is over 0.5 in"),
    ],
    ids=str,
)
def test_the_season_is_that_of_what_was_said(given: dict[str, str], told: str) -> None:
    assert told in lead("lawn", "season", **given)


LOAN = {"new_price": "$35,000", "loan_rate": "5.9 %", "loan_months": "60", "sales_tax": "7 %"}


@pytest.mark.parametrize(("offer", "traded"), [("$0", False), ("$1", True)])
def test_an_offer_of_nothing_is_no_trade_in(offer: str, traded: bool) -> None:
    said = lead("resale", "payments", trade_offer=offer, **LOAN)
    assert ("with the trade-in" in said) == traded
    assert "$722 a month" in said


@pytest.mark.parametrize(("rests", "little"), [("599 lb", True), ("600 lb", False)])
def test_a_light_tongue_is_called_little(rests: str, little: bool) -> None:
    said = lead("road-towing", "tongue", towed_mass="6,000 lb", tongue_weight=rests)
    assert said.startswith("Little: 599 lb") == little


MONEY = {"hours_per_year": "80 h", "loader_share": "40 %", "price_difference": "$2,000"}


def test_a_saving_by_the_middle_is_called_that() -> None:
    middle = "by the middle of what nobody said"
    assert middle in lead("drive", "worth", **MONEY)
    assert middle not in lead("drive", "worth", **MONEY, time_value="20 $/h")


def test_a_tractor_that_carries_little_says_so_whether_the_loader_is_on_or_off() -> None:
    typed = {"tractor_kind": "subcompact", "lift_rated_at": "0", "front_axle_limit": "3,300 lb"}
    little = lead("capability", "sheet", **typed, tractor_mass="2,850 lb", lift_capacity="950 lb")
    assert little.startswith("Loader on or off, little passes")
    some = lead("capability", "sheet", pto_power="45 hp", tractor_mass="4,200 lb")
    assert some.startswith("Say whether the loader is on. Cutter and box blade")


BOOM = {"boom_length": "62 in", "bracket_height": "60 in", "yoke_distance": "15 in"}


def test_a_depth_that_the_boom_can_t_reach_is_no_depth() -> None:
    assert lead("digger", "depth", **BOOM, auger_length="24 in").startswith("Can't be with these")
    assert lead("digger", "depth", auger_length="48 in").startswith("17.1 to 42.1 in deep")


def test_power_for_something_that_nobody_named_asks_what_it_is() -> None:
    assert lead("pto", "enough", pto_power="30 hp").startswith("Say which kind of implement")
    assert lead("pto", "enough", implement_kind="rotary_cutter").startswith("It depends: 12.1")


def test_a_grade_that_protects_nothing_is_told_as_that() -> None:
    said = lead("driveline", "bolt", overload="flange_bolt", bolt_grade="grade_5")
    assert said.startswith("Not this one. A bolt of this grade holds a yoke")


def test_a_lift_that_is_enough_is_told() -> None:
    said = lead("pairing", "lift", implement_kind="flail_mower", lift_capacity="1,260 lb")
    assert said.startswith("Yes: the hitch lifts 958 to 1,260 lb")


def test_one_shaft_alone_asks_for_the_other() -> None:
    assert lead("pto", "shafts", implement_shaft="2-1000").startswith("Count the splines on both")
    both = {"implement_shaft": "2-1000", "tractor_shaft": "2-1000"}
    assert lead("pto", "shafts", **both).startswith("Yes: the speeds and the splines")


def test_half_of_a_height_asks_for_the_other_half() -> None:
    balls = {"implement_kind": "landscape_rake", "balls_highest": "30 in"}
    assert lead("pairing", "clear", **balls).startswith("Say how high the lower balls lift")
    assert "16 in clear" in lead("pairing", "clear", **balls, pins_on_ground="14 in")
