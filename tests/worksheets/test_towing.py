"""Stopping with a load: what doesn't stop comes first, and every rule ends where it ends."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.model import leading
from calc.render.answer import answer_html
from calc.render.reply import reply
from calc.render.text_message import short
from tests.worksheets.asking import findings, output

SHEET = worksheets.load("road-towing")
SILENT = model.Work(on=False)
LB, MPH = 0.45359237, 0.44704
LEVEL = {
    "tractor_mass": "2,800 lb",
    "towed_mass": "2,000 lb",
    "trailer_brakes": "none",
    "road_speed": "15 mph",
    "grade": "0 %",
    "own_deceleration": "3.55 m/s2",
    "reaction_time": "1.5 s",
}


def answer(ask="", **typed):
    return search.answer(SHEET, {**LEVEL, **typed}, ask=ask)


def lead(found):
    return leading.lead(found, "us")


def point(**typed):
    return search.read_box(SHEET, {**LEVEL, **typed}).point({})


# --- what does not stop ----------------------------------------------------------------------


@pytest.mark.parametrize("ask", [item.key for item in SHEET.asks])
def test_what_does_not_stop_is_said_first_whatever_is_asked(ask):
    found = answer(ask, towed_mass="6000 lb", grade="-20 %")
    assert found.finding == model.OVER
    assert found.deciding.check.name == "holds"
    assert "not stop" in lead(found)
    plain = reply(found).splitlines()
    assert "not stop" in " ".join(plain[:2])
    assert "not stop" in short(found)


def test_it_comes_before_a_mass_rule_broken_by_more():
    found = answer(towed_mass="12,000 lb", grade="-15 %")
    margins = {v.check.name: v.margin_high for v in found.verdicts}
    assert margins["ratio"] < 0
    assert found.verdicts[0].check.name == "holds"


def test_of_an_unknown_tractor_it_is_said_that_it_may_not_stop():
    found = search.answer(SHEET, {"towed_mass": "6000 lb", "grade": "-20 %"})
    assert found.finding == model.UNKNOWN
    assert "may not stop" in lead(found)


@pytest.mark.parametrize(("pull", "finding"), [(0.66, "within"), (0.68, "close"), (1.001, "over")])
def test_the_brakes_reach_one_and_a_half_times_the_pull_of_the_slope(pull, finding):
    # The least that is left: one and a half times, so two thirds of the braking.
    level = 3.55 * 2800 / (2800 + 2000)
    sine = pull * level / 9.80665
    grade = -100 * sine / math.sqrt(1 - sine**2)
    found = answer(grade=f"{grade} %", road_speed="5 mph")
    assert findings(found)["holds"] == finding


@pytest.mark.parametrize("grade", ["-22 %", "-25 %", "-10 %"])
@pytest.mark.parametrize("brake", ["1 ft/s2", "3.9 ft/s2"])
def test_what_runs_away_is_drawn_without_it(grade, brake):
    for more in ({}, {"room": "150 ft"}):
        found = answer(own_deceleration=brake, grade=grade, **more)
        for system in ("us", "metric"):
            html = answer_html(found, system).lower()
            assert "nan" not in re.sub(r"[a-z]nan|nan[a-z]", "", html)
            assert "inf" not in re.sub(r"[a-z]inf|inf[a-z]", "", html)


# --- one machine, one braking ----------------------------------------------------------------


@given(st.floats(8, 30))
def test_no_cliff_at_a_speed(mph):
    """A little faster never stops much sooner."""
    v = point().but(road_speed=mph * MPH)
    now = SHEET.compute(v, SILENT).output("stop")
    faster = SHEET.compute(v.but(road_speed=(mph + 0.1) * MPH), SILENT).output("stop")
    assert now < faster < now * 1.03


@given(st.floats(50, 4000), st.floats(0, 2000))
def test_more_load_never_stops_sooner(mass, more):
    v = point().but(towed_mass=mass)
    now = SHEET.compute(v, SILENT).output("stop")
    assert SHEET.compute(v.but(towed_mass=mass + more), SILENT).output("stop") >= now - 1e-9


def test_an_engaged_front_drive_brakes_four_wheels_on_grass():
    rear = answer(surface="wet_grass")
    four = answer(surface="wet_grass", braked_wheels="all")
    assert output(four, "stop") < output(rear, "stop") < output(rear, "stop") * 2
    steep = answer(surface="wet_grass", grade="-9 %", towed_mass="1,500 lb")
    assert findings(steep)["holds"] == model.OVER
    assert any("braked_wheels" in remedy.set for remedy in steep.advice.remedies)


# --- the rules -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rule", "pounds", "finding"),
    [
        ("unbraked-32", 4200, "over"),  # "below" one and a half times: reached is over
        ("unbraked-32", 4199, "close"),
        ("unbraked-small", 2800, "close"),  # "no heavier than": reached is not
        ("unbraked-small", 2801, "over"),
        ("unbraked-1800", 3968, "close"),  # 1800 kg is 3968.3 lb
        ("unbraked-1800", 3969, "over"),
    ],
)
def test_a_ratio_reached_is_over_where_its_rule_says_below(rule, pounds, finding):
    found = answer(ratio_rule=rule, towed_mass=f"{pounds} lb")
    assert findings(found)["ratio"] == finding


@pytest.mark.parametrize(
    ("rule", "mph", "over"),
    [
        ("unbraked-small", 20, False),  # 20 mph: the withdrawn S365.9 had nothing above it
        ("unbraked-small", 20.5, True),
        ("unbraked-32", 20, False),
        ("unbraked-32", 20.5, True),
        ("unbraked-25", 15.5, False),
        ("unbraked-25", 16, True),
    ],
)
def test_unbraked_rules_end_at_their_speed(rule, mph, over):
    found = answer(ratio_rule=rule, road_speed=f"{mph} mph", towed_mass="1000 lb")
    assert (findings(found)["rule_speed"] == model.OVER) is over


def test_trailer_brakes_are_not_perfect():
    braked = answer(trailer_brakes="own", trailer_braking="25 %")
    assert output(braked, "stop") > output(braked, "alone")
    assert output(braked, "limit") == pytest.approx(4.5 * 2800 * LB, rel=1e-5)
    # As most working trailers were found: it counts as one without brakes.
    old = answer(trailer_brakes="own", trailer_braking="24 %", towed_mass="4000 lb")
    assert findings(old)["ratio"] == model.OVER
    untested = answer(trailer_brakes="own", towed_mass="4000 lb")
    assert findings(untested)["ratio"] == model.OVER
    assert any("trailer_braking" in remedy.set for remedy in untested.advice.remedies)


# A compact's manual allows 3600 kg behind it with brakes, and never over twice the tractor.
@pytest.mark.parametrize(
    ("tractor", "load", "finding"),
    [
        ("2,800 lb", "5,600 lb", "within"),
        ("2,800 lb", "5,601 lb", "close"),
        ("4,400 lb", "7,930 lb", "within"),
        ("4,400 lb", "7,940 lb", "close"),
        ("4,420 lb", "8,900 lb", "within"),  # heavier than any compact: the large tractors' ratio
    ],
)
def test_a_compact_tows_no_braked_load_of_a_large_tractor(tractor, load, finding):
    braked = {"trailer_brakes": "own", "trailer_braking": "30 %", "towed_mass": load}
    found = answer(tractor_mass=tractor, **braked)
    assert found.finding == finding
    assert ("much behind a compact" in lead(found)) is (finding == "close")


def test_the_heaviest_braked_load_of_a_compact_is_its_own_manuals():
    braked = {"trailer_brakes": "own", "trailer_braking": "30 %"}
    assert output(answer("heaviest", **braked), "heaviest") == pytest.approx(2 * 2800 * LB)


@pytest.mark.parametrize(("grade", "close"), [("-12.7 %", False), ("-13 %", True)])
def test_who_only_just_holds_on_a_slope_is_told_of_the_slope(grade, close):
    """Two thirds of 3.55 x 2800 / 5300 is 1.25 m/s2, the pull of a downgrade of 12.9 %."""
    found = answer(grade=grade, towed_mass="2,500 lb")
    assert (findings(found)["holds"] == model.CLOSE) is close
    assert lead(found).startswith("Only just: the slope takes") is close


def test_printed_rules_are_compared():
    table = answer(towed_mass="4000 lb").advice.tables[0]
    assert {row[3] for row in table.rows} == {"yes", "no"}


# --- hitch -----------------------------------------------------------------------------------


def test_what_nobody_gave_is_listed_and_not_assumed():
    found = answer()
    assert {item.name for item in found.unchecked} == {"room", "manual", "drawbar", "chain"}
    assert found.finding == model.WITHIN


@pytest.mark.parametrize(
    ("typed", "broken"),
    [
        ({"chain_rating": "1,999 lb"}, {"chain"}),
        ({"chain_rating": "2,000 lb"}, set()),
        ({"manual_limit": "1,999 lb"}, {"manual"}),
        ({"drawbar_limit": "199 lb"}, {"drawbar"}),  # a tenth of 2,000 lb rests on it
        ({"drawbar_limit": "201 lb"}, set()),
        ({"drawbar_limit": "350 lb", "tongue_weight": "400 lb"}, {"drawbar"}),
        ({"room": "70 ft"}, {"room"}),
        ({"room": "90 ft"}, set()),
    ],
)
def test_limits_of_the_hitch_and_of_the_room(typed, broken):
    found = answer(**typed)
    over = {name for name, finding in findings(found).items() if finding == model.OVER}
    assert over == broken


def test_little_weight_on_the_drawbar_is_advice():
    found = answer(tongue_weight="100 lb")
    assert findings(found)["tongue_least"] == model.OVER
    assert found.finding == model.CLOSE


@pytest.mark.parametrize(
    "typed",
    [
        {"towed_mass": "4,000 lb", "room": "150 ft", "grade": "-5 %"},
        {"towed_mass": "2,500 lb", "grade": "-12 %", "room": "60 ft"},
        {"ratio_rule": "unbraked-32", "road_speed": "24 mph", "room": "400 ft"},
        {"chain_rating": "1,500 lb"},
        {"manual_limit": "1,800 lb"},
        {"towed_mass": "6,000 lb", "grade": "-20 %"},
        {"towed_mass": "6,000 lb", "grade": "-20 %", "room": "150 ft"},
        {"drawbar_limit": "350 lb", "tongue_weight": "400 lb"},
    ],
)
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


# --- what is asked ---------------------------------------------------------------------------


def test_the_heaviest_load_meets_the_checks_and_a_little_more_does_not():
    typed = {"grade": "-8 %", "room": "80 ft"}
    most = output(answer(**typed), "heaviest") / LB
    fits = answer(**typed, towed_mass=f"{most - 1} lb")
    assert model.OVER not in findings(fits).values()
    more = answer(**typed, towed_mass=f"{most + 5} lb")
    assert model.OVER in findings(more).values()
    assert f"{most:,.0f} lb at most" in lead(answer("heaviest", **typed))


def test_the_fastest_speed_stops_in_the_room_and_a_little_more_does_not():
    typed = {"grade": "-8 %", "room": "80 ft"}
    top = output(answer(**typed), "fastest") / MPH
    assert findings(answer(**typed, road_speed=f"{top - 0.01} mph"))["room"] != model.OVER
    assert findings(answer(**typed, road_speed=f"{top + 0.05} mph"))["room"] == model.OVER
    assert lead(answer("fastest", **typed)).startswith(f"{top:.1f} mph at most")


def test_the_chain_is_told_without_a_chain():
    assert "2,000 lb or more" in lead(answer("chain"))


def test_how_heavy_needs_no_load():
    typed = {**LEVEL, "grade": "-8 %"}
    del typed["towed_mass"]
    found = search.answer(SHEET, typed, ask="heaviest")
    assert lead(found).startswith("2,800 lb at most")
    assert found.finding == model.WITHIN
    assert found.pictures
    stops = search.answer(SHEET, typed)
    assert stops.finding == model.UNKNOWN
    assert "What does the load weigh?" in lead(stops)


def test_a_weak_chain_wants_a_stronger_one_first():
    given = {"towed_mass": "4567 lb", "chain_rating": "3000 lb", "tractor_mass": "9000 lb"}
    answer = search.answer(worksheets.load("road-towing"), given, ask="chain")
    first = answer.advice.remedies[0]
    assert first.set == {"chain_rating": "4570 lb"}


MAY_RUN_AWAY = {
    "towed_mass": "6000 lb",
    "tractor_mass": "4000 lb",
    "grade": "-18 %",
    "trailer_brakes": "own",
    "trailer_braking": "10 %",
}


def test_what_may_not_stop_at_all_is_said_before_a_limit_that_is_broken():
    """It was too heavy by the rule, "and would stop in 145 to 18,500 ft"."""
    answer = search.answer(worksheets.load("road-towing"), MAY_RUN_AWAY)
    assert answer.finding == model.OVER and answer.deciding.check.name == "ratio"
    for text in (reply(answer), short(answer)):
        assert text.startswith("It may not stop at all: a downgrade of 18 % pulls")
    assert "- Too heavy for this tractor by the rule: 6,000 lb" in reply(answer)
    surely = search.answer(worksheets.load("road-towing"), {**MAY_RUN_AWAY, "grade": "-4 %"})
    assert reply(surely).startswith("No: 6,000 lb is too heavy")


def test_a_danger_that_is_met_only_just_is_told_beside_what_is_broken():
    given = {
        **{"towed_mass": "3500 lb", "tractor_mass": "4000 lb", "grade": "-14 %"},
        **{"manual_limit": "3000 lb", "trailer_brakes": "none", "road_speed": "12 mph"},
    }
    text = reply(search.answer(worksheets.load("road-towing"), given))
    assert "- Only just met: brakes against the downgrade, 71.8 to 94.4 % where" in text


def test_the_most_that_may_be_is_said_from_its_safe_end():
    """126 to 1,270 lb "at most" is read as 1,270 lb."""
    given = {"tractor_mass": "3500 lb", "grade": "-18 %", "road_speed": "12 mph"}
    found = search.answer(
        worksheets.load("road-towing"), {**given, "trailer_brakes": "none"}, ask="heaviest"
    )
    said = leading.lead(found, "us")
    assert said.startswith("126 lb at most to be sure (1,270 lb at best) behind this tractor")


def test_a_slope_that_no_brakes_hold_is_said_without_the_load():
    """road/CALC-1: g sin(atan 0.22) is 6.9 ft/s2, more than brakes of 3.9 ft/s2 ever do."""
    sheet = worksheets.load("road-towing")
    given = {"trailer_brakes": "none", "own_deceleration": "3.9 ft/s2"}
    for grade, finding in (("-11 %", "unknown"), ("-13 %", "over")):  # 3.9 of 32.17: 12.2 %
        answer = search.answer(sheet, {**given, "grade": grade})
        assert answer.finding == finding
    assert "does not stop" in leading.lead(answer, "us")


@pytest.mark.parametrize(
    ("given", "finding", "words"),
    [
        # A tenth of the loaded mass or more: 60 % of the load ahead of the axle (road/MAN-9).
        ({"towed_mass": "2,000 lb", "tongue_weight": "190 lb"}, model.CLOSE, "Little: 190 lb"),
        ({"towed_mass": "2,000 lb", "tongue_weight": "210 lb"}, model.WITHIN, "Yes: 210 lb"),
        (
            {"towed_mass": "2,000 lb", "tongue_weight": "210 lb", "drawbar_limit": "200 lb"},
            model.OVER,
            "No: the drawbar carries 210 lb and may carry 200 lb.",
        ),
        ({"towed_mass": "2,000 lb"}, None, "200 lb or more"),
        ({"towed_mass": ""}, None, "What does it weigh?"),
    ],
)
def test_the_weight_on_the_drawbar_is_a_question_of_its_own(given, finding, words):
    found = answer("tongue", **given)
    assert words in lead(found)
    assert finding in (None, found.finding)


@pytest.mark.parametrize(
    ("speed", "finding"), [("4.9 mph", model.WITHIN), ("5.1 mph", model.CLOSE)]
)
def test_a_load_on_wet_grass_is_no_yes_above_a_walk(speed, finding):
    found = answer(surface="wet_grass", road_speed=speed, towed_mass="1,000 lb", room="300 ft")
    assert found.finding == finding
    assert any("On wet grass" in str(caution.text) for caution in found.advice.cautions)
    if finding == model.CLOSE:
        assert lead(found).startswith("Not a yes") and "Go 5 mph or slower" in lead(found)


def test_the_heaviest_load_is_not_told_at_speeds_that_its_rule_doesnt_reach():
    typed = {"tractor_mass": "3000 lb", "trailer_brakes": "none", "grade": "-8 %"}
    open_ = lead(search.answer(SHEET, {**typed, "road_speed": "15 to 24 mph"}, ask="heaviest"))
    assert "20 mph or slower" in open_ and "24 mph" not in open_
    slow = lead(search.answer(SHEET, {**typed, "road_speed": "15 to 19 mph"}, ask="heaviest"))
    assert "slower" not in slow


def test_how_heavy_a_trailer_hangs_on_a_tractor_that_somebody_named():
    found = search.answer(SHEET, {"trailer_brakes": "none"}, ask="heaviest")
    assert [item.name for item in found.missing] == ["tractor_mass"]
    for typed in ({"tractor_kind": "compact_heavy"}, {"tractor_mass": "3,000 lb"}):
        assert not search.answer(SHEET, typed, ask="heaviest").missing


@pytest.mark.parametrize("ask", ["stops", "heaviest", "fastest"])
def test_a_manual_that_allows_no_unbraked_trailer_is_told_without_a_number(ask):
    found = answer(ask, ratio_rule="unbraked-none", towed_mass="100 lb")
    assert findings(found)["unbraked"] == model.OVER
    assert "nothing without brakes" in lead(found).lower()
    braked = {"trailer_brakes": "own", "trailer_braking": "25 %"}
    assert "unbraked" not in findings(answer(ask, ratio_rule="unbraked-none", **braked))


@pytest.mark.parametrize("ask", ["tongue", "stops"])
@pytest.mark.parametrize(("tongue", "broken"), [("450 lb", False), ("451 lb", True)])
def test_too_much_on_the_drawbar_is_too_much_whatever_the_load_weighs(ask, tongue, broken):
    typed = {"tongue_weight": tongue, "drawbar_limit": "450 lb"}
    found = search.answer(SHEET, typed, ask=ask)
    assert (found.finding == model.OVER) == broken
    assert lead(found).startswith("No: the drawbar carries 451 lb") == broken
