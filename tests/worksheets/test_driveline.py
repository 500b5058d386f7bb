"""The driveline worksheet: its example, what is unknown, its asks, its remedies."""

import pytest

from calc import model, search, worksheets
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


def test_sizes_that_cannot_be_are_refused() -> None:
    for field, typed in (
        ("tube_length", {"tube_length": "40 in"}),
        ("working_rise", {"working_rise": "38 in"}),
        ("added_length", {"added_length": "10 in", "lowered_distance": "11 in"}),
    ):
        with pytest.raises(search.BadInputs) as caught:
            answer(**{**MEASURED, **typed})
        assert field in caught.value.errors


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


def test_a_shaft_that_keeps_enough_so_far_is_not_called_too_short() -> None:
    # Tubes of 22 in, closed 35: at 46 in 11 in are left, and a third of the tube is 7.3 in.
    typed = {"closed_length": "35 in", "tube_length": "22 in"}
    kept = answer("apart", **typed, raised_distance="46 in")
    assert leading.lead(kept, "us").startswith("At 46 in it keeps 11 in of overlap. Still measure")
    short = answer("apart", **typed, raised_distance="51 in")
    assert leading.lead(short, "us").startswith("Too short")
    assert leading.lead(answer("apart"), "us").startswith("Most likely too short")
