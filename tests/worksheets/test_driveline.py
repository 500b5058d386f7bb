"""The driveline worksheet: its example, what is unknown, its asks, its remedies."""

import pytest

from calc import model, search, tables, worksheets
from calc.model import leading
from tests.worksheets.asking import assert_refused, findings, margins, output, remedy

SHEET = worksheets.load("driveline")
# The worked example: tubes of 560 mm, closed 850, from 900 to 1 150 mm.
WORKED = {
    "tube_length": "560 mm",
    "closed_length": "850 mm",
    "lowered_distance": "900 mm",
    "working_distance": "950 mm",
    "raised_distance": "1150 mm",
}
MEASURED = {
    "closed_length": "33.5 in",
    "tube_length": "22 in",
    "lowered_distance": "35.5 in",
    "working_distance": "35.25 in",
    "raised_distance": "39 in",
}


def answer(ask: str = "", **typed: str) -> model.Answer:
    return search.answer(SHEET, typed, ask=ask)


def said(found: model.Answer) -> str:
    return leading.lead(found, "us")


def test_the_example_is_within_limits() -> None:
    found = search.answer(SHEET, {}, example=True)
    assert found.finding == model.WITHIN
    assert not found.advice.remedies
    assert len(found.pictures) == 2


@pytest.mark.parametrize("ask", [ask.key for ask in SHEET.asks])
def test_nothing_given_is_nothing_known(ask: str) -> None:
    found = answer(ask)
    assert found.finding == model.UNKNOWN
    assert said(found)
    assert not found.advice.remedies


def test_worked_length_passes_and_fails_with_a_coupler() -> None:
    plain = answer(**WORKED)
    assert output(plain, "overlap_longest") == pytest.approx(0.260)
    assert output(plain, "gap") == pytest.approx(0.050)
    assert plain.finding == model.WITHIN
    coupled = answer(**WORKED, setback="100 mm")
    assert output(coupled, "overlap_longest") == pytest.approx(0.160)
    assert findings(coupled)["overlap"] == model.OVER
    by_six_inches = answer(**WORKED, setback="100 mm", overlap_rule="six_inches")
    assert margins(by_six_inches)["overlap"] >= 0


def test_the_rules_are_shown_side_by_side() -> None:
    rows = answer(**WORKED, setback="100 mm").advice.tables[0].rows
    assert {row[3] for row in rows} == {"met", "not met"}


def test_trap_the_shortest_need_not_be_raised() -> None:
    found = answer(**{**MEASURED, "lowered_distance": "33 in"})
    assert findings(found)["closing"] == model.OVER


@pytest.mark.parametrize("given", ["tube_length", "closed_length"])
def test_a_48_in_shaft_leaves_16_in(given: str) -> None:
    # hitch/H18a: a third of the tube; a third of the whole closed length is never less.
    found = answer("leave", **{given: "48 in"})
    assert said(found).startswith("Leave 16 in")
    assert found.finding == model.COMPARED


def test_a_cut_makes_a_long_shaft_fit() -> None:
    typed = {**MEASURED, "closed_length": "36 in", "tube_length": "24.5 in"}
    found = answer("cut", **typed)
    assert findings(found)["closing"] == model.OVER
    item = remedy(found, "closed_length")
    assert "Cut 2.5 in" in model.words(item.text, "us")
    assert said(found).startswith("2.5 in off both tubes")
    assert answer("cut", **{**typed, **item.set}).finding in (model.WITHIN, model.CLOSE)


@pytest.mark.parametrize("unknown", MEASURED)
def test_an_unknown_length_makes_no_cut(unknown: str) -> None:
    typed = {**MEASURED, "closed_length": "36 in", "tube_length": "24.5 in"}
    del typed[unknown]
    found = answer("cut", **typed)
    assert not any("closed_length" in item.set for item in found.advice.remedies)
    if unknown != "tube_length":
        assert not any(o.name == "cut" for o in found.outputs)


def test_one_known_position_is_enough_to_be_too_long() -> None:
    found = answer(closed_length="36 in", lowered_distance="35 in")
    assert found.finding == model.OVER
    assert any(item.name == "positions" for item in found.unchecked)


def test_a_longer_driveline_is_sized_when_the_tubes_part() -> None:
    typed = {**MEASURED, "setback": "8 in", "tube_length": "14 in", "closed_length": "26 in"}
    found = answer(**typed)
    assert findings(found)["overlap"] == model.OVER
    tried = answer(**{**typed, **remedy(found, "closed_length").set})
    assert tried.finding in (model.WITHIN, model.CLOSE)


def test_no_driveline_suits_too_long_a_lift() -> None:
    found = answer(
        **{
            **MEASURED,
            "lowered_distance": "24 in",
            "raised_distance": "44 in",
            "closed_length": "30 in",
        }
    )
    texts = [model.words(item.text, "us") for item in found.advice.remedies]
    assert any("No driveline" in text for text in texts)


def test_trap_an_over_running_clutch_takes_length() -> None:
    found = answer(**MEASURED, added_length="4 in")
    assert findings(found)["closing"] == model.OVER
    tried = answer(**{**MEASURED, "added_length": "4 in", **remedy(found, "closed_length").set})
    assert margins(tried)["closing"] >= 0


def test_halves_that_part_are_a_danger_whatever_was_asked() -> None:
    found = answer("angles", **{**MEASURED, "raised_distance": "60 in"})
    assert found.finding == model.OVER
    assert found.deciding is not None and found.deciding.check.grade == model.DANGER
    came = answer("apart", **{**MEASURED, "raised_distance": "60 in"})
    assert "out of each other" in said(came)


def test_without_a_tube_a_chart_says_when_it_is_pulled_out_too_far() -> None:
    # value/SU-1: a shaft that closes to 35 in may be pulled out to 47 in.
    typed = {**MEASURED, "closed_length": "35 in"}
    del typed["tube_length"]
    assert margins(answer(**{**typed, "raised_distance": "46.9 in"}))["stretch"] >= 0
    assert findings(answer(**{**typed, "raised_distance": "47.1 in"}))["stretch"] == model.OVER


RAISED = {"raised_distance": "39 in", "raised_tilt": "0 deg"}


@pytest.mark.parametrize(
    ("joint", "rise", "finding"),
    [
        # value/P3c: stop the PTO beyond 35 degrees; 39 in x sin 35 is 22.37 in.
        ("standard", "22.3 in", model.CLOSE),
        ("standard", "22.5 in", model.OVER),
        # hitch/H18b and value/JT-1: 70 and 80 degrees; 39 in x sin is 36.65 and 38.41 in.
        ("wide_both", "22.5 in", model.WITHIN),
        ("wide_both", "37.5 in", model.CLOSE),
    ],
)
def test_raised_joints_by_kind(joint: str, rise: str, finding: str) -> None:
    found = answer("raised", **RAISED, pto_raised="running", joint=joint, raised_rise=rise)
    assert found.finding == finding


def test_one_wide_angle_joint_leaves_the_other_a_standard_one() -> None:
    found = answer("raised", **RAISED, pto_raised="running", joint="wide", raised_rise="30 in")
    assert findings(found)["raised"] == model.WITHIN
    assert findings(found)["raised_rear"] == model.OVER


def test_raised_angle_counts_only_while_the_pto_turns() -> None:
    typed = {**RAISED, "raised_rise": "26 in", "joint": "standard"}
    stopped = answer("raised", **typed, pto_raised="stopped")
    assert stopped.finding == model.COMPARED and "41.8" in said(stopped)
    running = answer("raised", **typed, pto_raised="running")
    assert running.finding == model.OVER
    lower = answer(
        "raised", **{**typed, "pto_raised": "running", **remedy(running, "raised_rise").set}
    )
    assert lower.finding == model.CLOSE


@pytest.mark.parametrize(
    ("rise", "finding"),
    # hitch/H18d 15 degrees advised, value/JT-1 25 the limit; 36 in x sin is 9.32 and 15.21 in.
    [
        ("-9.2 in", model.WITHIN),
        ("-9.4 in", model.CLOSE),
        ("15.1 in", model.CLOSE),
        ("15.3 in", model.OVER),
    ],
)
def test_steady_angles_over_the_advice_are_close(rise: str, finding: str) -> None:
    found = answer(
        "angles",
        working_distance="36 in",
        working_rise=rise,
        working_tilt="0 deg",
        joint="standard",
    )
    assert found.finding == finding


def test_a_wide_angle_joint_has_the_same_limit_in_steady_work() -> None:
    # value/JT-1: 25 degrees for a wide-angle joint that runs steadily.
    typed = {"working_distance": "36 in", "working_tilt": "0 deg", "joint": "wide_both"}
    assert margins(answer("angles", **typed, working_rise="15.1 in"))["angle"] >= 0
    assert findings(answer("angles", **typed, working_rise="15.3 in"))["angle"] == model.OVER


def test_a_tilted_gearbox_is_leveled() -> None:
    typed = {"working_distance": "36 in", "working_rise": "-14 in", "working_tilt": "10 deg"}
    found = answer("angles", **typed, joint="standard")
    assert findings(found)["rear"] == model.OVER
    tried = answer("angles", **{**typed, "joint": "standard", **remedy(found, "working_tilt").set})
    assert tried.finding in (model.WITHIN, model.CLOSE)


def test_an_offset_bends_both_joints() -> None:
    typed = {"working_distance": "36 in", "working_rise": "0 in", "working_tilt": "0 deg"}
    found = answer("angles", **typed, side_offset="18 in", joint="standard")
    assert output(found, "front_angle") == pytest.approx(30.0)
    assert output(found, "rear_angle") == pytest.approx(30.0)
    assert output(found, "swing") == pytest.approx(0.0, abs=1e-12)


def test_trap_turned_yokes_double_the_swing() -> None:
    typed = {"working_distance": "35 in", "working_rise": "-4 in", "working_tilt": "0 deg"}
    in_line, turned = answer(**typed, yokes="in_line"), answer("shakes", **typed, yokes="turned")
    assert output(in_line, "swing") == pytest.approx(0.0, abs=1e-12)
    assert output(turned, "swing") > 0.02
    assert findings(turned)["yokes"] == model.OVER
    tried = answer("shakes", **{**typed, **remedy(turned, "yokes").set})
    assert output(tried, "swing") < 1e-12


def test_trap_the_speed_rule_is_not_used_below_its_table() -> None:
    # value/NV-1 starts at 1 000 rpm with 12 degrees and gives 8 at 2 000.
    typed = {
        "working_distance": "36 in",
        "working_rise": "-8 in",
        "working_tilt": "0 deg",
        "joint": "standard",
    }
    assert "shaking" not in findings(answer("angles", **typed, pto_speed="990 rpm"))
    at_1000 = answer("angles", **typed, pto_speed="1000 rpm")
    assert findings(at_1000)["shaking"] == model.OVER
    assert at_1000.finding == model.CLOSE  # advice
    straighter = {**typed, "working_rise": "-4.9 in"}
    assert findings(answer("angles", **straighter, pto_speed="2000 rpm"))["shaking"] == model.CLOSE


@pytest.mark.parametrize(
    ("series", "speed", "power"),
    [
        ("na1", "540 rpm", 16),
        ("na3", "540 rpm", 30),
        ("na3", "1000 rpm", 47),
        ("na7", "1000", 114),
        ("eu4", "540 rpm", 42),
    ],
)
def test_series_carry_what_is_printed(series: str, speed: str, power: int) -> None:
    # value/SU-1 and value/SU-2.
    typed = {"series": series, "pto_speed": speed}
    assert answer("joints", **typed, pto_power=f"{power - 0.1} hp").finding == model.WITHIN
    assert answer("joints", **typed, pto_power=f"{power + 0.1} hp").finding == model.CLOSE
    # A fifth over its rating, as on every page that knows a driveline's (power/S25).
    assert answer("joints", **typed, pto_power=f"{1.2 * power - 0.1} hp").finding == model.CLOSE
    over = answer("joints", **typed, pto_power=f"{1.2 * power + 0.1} hp")
    assert over.finding == model.OVER
    for item in over.advice.remedies:
        if "series" in item.set:
            assert answer("joints", **{**typed, **item.set}, pto_power="16.1 hp").finding


def test_a_series_without_a_rating_at_the_speed_is_not_checked() -> None:
    found = answer("joints", series="eu4", pto_speed="1000 rpm", pto_power="30 hp")
    assert found.finding == model.UNKNOWN


def test_no_bolt_is_picked_from_the_power() -> None:
    found = answer(pto_power="20 hp", bolt_size="1/2")
    assert found.finding != model.OVER
    asked = answer("bolt", pto_power="20 hp", bolt_size="1/2", overload="bolt")
    assert asked.finding == model.UNKNOWN
    for each in (found, asked):
        assert not any("bolt_size" in item.set for item in each.advice.remedies)


@pytest.mark.parametrize("size", ["1/4", "5/16", "3/8", "7/16", "1/2"])
@pytest.mark.parametrize("overload", ["bolt", "flange_bolt", "clutch", "none", "unstated"])
def test_never_another_bolt_than_the_manuals(overload: str, size: str) -> None:
    for manual in ("yes", "no", "unstated"):
        found = answer(
            "bolt",
            overload=overload,
            bolt_size=size,
            bolt_grade="grade_5",
            bolt_as_manual=manual,
            pto_power="25 hp",
            power_limit="40 hp",
            series="na3",
        )
        touched = {name for item in found.advice.remedies for name in item.set}
        assert not touched & {"bolt_size", "bolt_grade", "bolt_plane", "overload"}


def test_the_manuals_bolt_is_right_whatever_is_worked_out() -> None:
    found = answer(
        "bolt",
        overload="bolt",
        bolt_as_manual="yes",
        bolt_size="1/2",
        bolt_grade="grade_2",
        series="na1",
    )
    assert found.finding == model.WITHIN


def test_without_a_hub_no_bolt_is_offered() -> None:
    found = answer("bolt", overload="none", bolt_as_manual="no")
    assert found.finding == model.OVER
    assert not any(item.set for item in found.advice.remedies)
    assert "yoke" in model.words(found.advice.remedies[0].text, "us")


def test_a_clutch_is_held_against_gearbox_and_series_not_the_tractor() -> None:
    # value/P4a: it slips at three times the nominal torque; value/SU-1: series 3 carries 30 hp
    # at 540 rpm, 396 N m, so 1 187 N m is the most.
    typed = {"overload": "clutch", "series": "na3"}
    for power in ("10 hp", "60 hp"):
        inside = answer("bolt", **typed, pto_power=power, clutch_torque="1186 N m")
        assert findings(inside)["release"] == model.WITHIN
        outside = answer("bolt", **typed, pto_power=power, clutch_torque="1188 N m")
        assert findings(outside)["release"] == model.OVER
        tried = answer("bolt", **{**typed, **remedy(outside, "clutch_torque").set})
        assert margins(tried)["release"] >= 0
    weak = answer("bolt", **typed, power_limit="20 hp", clutch_torque="1000 N m")
    assert findings(weak)["release"] == model.OVER


def test_sizes_that_cannot_be_are_refused() -> None:
    for field, typed in (
        ("tube_length", {"tube_length": "40 in"}),
        ("working_rise", {"working_rise": "38 in"}),
        ("added_length", {"added_length": "10 in", "lowered_distance": "11 in"}),
    ):
        with pytest.raises(search.BadInputs) as caught:
            answer(**{**MEASURED, **typed})
        assert field in caught.value.errors


def test_every_row_of_the_index_leads_with_its_number() -> None:
    for row in tables.rows("words/questions"):
        if row["worksheet"] != "driveline" or not row["inputs"]:
            continue
        inputs = dict(part.split("=", 1) for part in row["inputs"].split("&"))
        typed = {name: text.replace("+", " ") for name, text in inputs.items()}
        found = answer(row["ask"], **typed)
        text = said(found)
        assert found.ask.key == row["ask"]
        assert len(text) <= 170
        assert any(c.isdigit() for c in text) or row["ask"] in ("bolt", "shakes"), text


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("tube_length", "1 in", "between"),
        ("working_tilt", "90 deg", "between"),
        ("raised_distance", "39 lb", "mass"),
        ("overload", "hope", "not one of the options"),
    ],
)
def test_bad_input_gets_its_own_sentence(field: str, text: str, says: str) -> None:
    assert_refused("driveline", field, text, says)


@pytest.mark.parametrize(
    ("ask", "typed", "asked", "unasked"),
    [
        ("cut", {"closed_length": "48 in"}, "one tube", "pushed together"),
        ("length", {"tube_length": "20 in", "lowered_distance": "52 in"}, "raised", "lowered"),
        ("angles", {"working_distance": "50 in"}, "at work", "groove to groove"),
        ("raised", {"raised_rise": "8 in"}, "groove to groove raised", "how much higher"),
    ],
)
def test_a_question_partly_given_asks_for_the_rest_alone(
    ask: str, typed: dict[str, str], asked: str, unasked: str
) -> None:
    sheet = SHEET
    lead = leading.lead(search.answer(sheet, typed, ask=ask), "us")
    assert asked in lead and unasked not in lead


@pytest.mark.parametrize(
    ("overload", "grade", "finding"),
    [  # value/MM-5, FO-4: grade 2 shears; the same hole takes grade 8 behind a slip clutch
        ("bolt", "grade_2", model.UNKNOWN),
        ("bolt", "grade_8", model.OVER),
        ("clutch", "grade_2", model.OVER),
        ("clutch", "grade_8", model.UNKNOWN),
    ],
)
def test_a_bolt_that_shears_and_one_that_holds(overload: str, grade: str, finding: str) -> None:
    typed = {"pto_power": "30 hp", "bolt_size": "1/2", "overload": overload, "bolt_grade": grade}
    assert search.answer(SHEET, typed, ask="bolt").finding == finding


@pytest.mark.parametrize(
    ("overload", "says"),
    [("clutch", "only holds the yoke"), ("none", "Nothing lets go"), ("bolt", "manual names")],
)
def test_which_bolt_hangs_on_what_protects_it(overload: str, says: str) -> None:
    # value/FO-4, value/MM-5: behind a slip clutch the same hole takes a hard retaining bolt.
    found = answer("bolt", overload=overload)
    assert found.finding == model.UNKNOWN
    assert says in said(found)


def test_a_series_is_not_asked_for_again_past_its_chart() -> None:
    # value/SU-1 ends at 1000 rpm, value/SU-2 gives 540 rpm alone.
    assert "ends at 1,000 rpm" in said(answer("joints", series="na1", pto_speed="2000 rpm"))
    assert "ends at 540 rpm" in said(answer("joints", series="eu4", pto_speed="1000 rpm"))
    assert "measure its cross" in said(answer("joints"))


LONG_LIFT = {
    "closed_length": "40 in",
    "tube_length": "26 in",
    "lowered_distance": "40.5 in",
    "working_distance": "42 in",
}


def test_nothing_is_cut_where_the_rest_would_be_too_short() -> None:
    # 1.25 in comes off at 40.5 in; what is left overlaps by 26 - (L - 40) - 2.5 in, and a third
    # of 24.75 in, 8.25 in, has to stay: up to L = 55.25 in.
    cut = answer("cut", **LONG_LIFT, raised_distance="55.2 in")
    assert said(cut).startswith("1.25 in off both tubes")
    short = answer("cut", **LONG_LIFT, raised_distance="55.3 in")
    assert said(short).startswith("Cut nothing: cut for its shortest place")


def test_a_tube_that_nobody_measured_is_measured_before_the_cut() -> None:
    typed = {**LONG_LIFT, "lowered_distance": "39 in", "raised_distance": "47 in"}
    del typed["tube_length"]
    found = answer("cut", **typed)
    assert found.finding == model.OVER
    assert said(found).startswith("Cut nothing yet")
