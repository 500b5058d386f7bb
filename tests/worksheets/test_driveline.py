"""The driveline worksheet: its example, ranges, unknowns, bad input, remedies."""

import pytest

from calc import model, search, worksheets
from tests.worksheets.asking import blank, findings, margins, output, remedy

SHEET = worksheets.load("driveline")
# The worked example: tubes of 560 mm, closed 850, from 900 to 1 150 mm.
WORKED = {
    "tube_length": "560 mm",
    "closed_length": "850 mm",
    "lowered_distance": "900 mm",
    "working_distance": "950 mm",
    "raised_distance": "1150 mm",
}


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def test_the_example_is_within_limits() -> None:
    found = answer()
    assert found.finding == model.WITHIN
    assert not found.advice.remedies
    assert len(found.pictures) == 2


def test_worked_length_passes_and_fails_with_a_coupler() -> None:
    plain = answer(**WORKED)
    assert output(plain, "overlap_longest") == pytest.approx(0.260)
    assert output(plain, "gap") == pytest.approx(0.050)
    assert margins(plain)["overlap"] >= 0 and margins(plain)["closing"] >= 0
    coupled = answer(**WORKED, setback="100 mm")
    assert output(coupled, "overlap_longest") == pytest.approx(0.160)
    assert findings(coupled)["overlap"] == model.OVER
    by_six_inches = answer(**WORKED, setback="100 mm", overlap_rule="six_inches")
    assert margins(by_six_inches)["overlap"] >= 0


def test_the_rules_are_shown_side_by_side() -> None:
    rows = answer(**WORKED, setback="100 mm").advice.tables[0].rows
    found = {row[3] for row in rows}
    assert found == {"met", "not met"}


def test_trap_the_shortest_need_not_be_raised() -> None:
    found = answer(lowered_distance="33 in")
    assert findings(found)["closing"] == model.OVER


def test_a_cut_makes_a_long_shaft_fit() -> None:
    found = answer(closed_length="36 in")
    assert findings(found)["closing"] == model.OVER
    item = remedy(found, "closed_length")
    assert "Cut" in model.words(item.text, "us")
    tried = answer(**item.set)
    assert margins(tried)["closing"] >= 0 and margins(tried)["overlap"] >= 0


def test_a_longer_driveline_is_sized_when_the_tubes_part() -> None:
    typed = {"setback": "8 in", "tube_length": "14 in", "closed_length": "26 in"}
    found = answer(**typed)
    assert findings(found)["overlap"] == model.OVER
    tried = answer(**{**typed, **remedy(found, "closed_length").set})
    assert margins(tried)["closing"] >= 0 and margins(tried)["overlap"] >= 0


def test_no_driveline_suits_too_long_a_lift() -> None:
    found = answer(lowered_distance="24 in", raised_distance="44 in", closed_length="30 in")
    said = [model.words(item.text, "us") for item in found.advice.remedies]
    assert any("No driveline" in text for text in said)


def test_trap_an_over_running_clutch_takes_length() -> None:
    found = answer(added_length="4 in")
    assert findings(found)["closing"] == model.OVER
    tried = answer(added_length="4 in", **remedy(found, "closed_length").set)
    assert margins(tried)["closing"] >= 0


def test_raised_angle_counts_only_while_the_pto_turns() -> None:
    high = {"raised_rise": "26 in"}
    assert "raised" not in findings(answer(**high))
    running = answer(**high, pto_raised="running")
    assert findings(running)["raised"] == model.OVER
    stopped = answer(**{**high, **remedy(running, "pto_raised").set})
    assert stopped.finding == model.WITHIN
    lower = answer(**{**high, "pto_raised": "running", **remedy(running, "raised_rise").set})
    assert 0 <= margins(lower)["raised"] < 0.02


def test_a_tilted_gearbox_is_leveled() -> None:
    typed = {"joint": "advised", "working_rise": "-14 in", "working_tilt": "10 deg"}
    found = answer(**typed)
    assert findings(found)["angle"] == model.OVER
    tried = answer(**{**typed, **remedy(found, "working_tilt").set})
    assert margins(tried)["angle"] >= 0


def test_trap_turned_yokes_double_the_swing() -> None:
    in_line, turned = answer(working_tilt="0 deg"), answer(working_tilt="0 deg", yokes="turned")
    assert output(in_line, "swing") == pytest.approx(0.0, abs=1e-12)
    assert output(turned, "swing") > 0.02
    assert findings(turned)["yokes"] == model.OVER
    assert output(answer(working_tilt="0 deg", **remedy(turned, "yokes").set), "swing") < 1e-12


def test_trap_faster_shafts_run_straighter() -> None:
    typed = {"working_rise": "-14 in", "working_tilt": "0 deg"}
    assert margins(answer(**typed))["shaking"] >= 0
    assert findings(answer(**typed, pto_speed="1000 rpm"))["shaking"] == model.OVER


@pytest.mark.parametrize(
    "typed",
    [
        {"bolt_size": "1/2", "bolt_grade": "grade_5"},
        {"bolt_size": "1/4", "bolt_plane": "thread"},
        {"overload": "none"},
        {"overload": "clutch", "clutch_times": "5"},
        {"overload": "clutch", "clutch_times": "0.8"},
    ],
)
def test_overload_protection_is_sized(typed: dict[str, str]) -> None:
    found = answer(**typed)
    assert found.finding == model.OVER
    (item,) = [r for r in found.advice.remedies if {"bolt_size", "clutch_times"} & set(r.set)]
    tried = answer(**{**typed, **item.set})
    assert margins(tried)["overload"] >= 0 and margins(tried)["overload_work"] >= 0


def test_sizes_that_cannot_be_are_said() -> None:
    for typed in (
        {"tube_length": "40 in"},
        {"working_rise": "38 in"},
        {"added_length": "10 in", "lowered_distance": "11 in"},
        {"working_rise": "33 in", "working_tilt": "-40 deg"},
    ):
        found = answer(**typed)
        assert findings(found) == {"sizes": model.OVER}
        assert not found.pictures


def test_an_unknown_length_asks_for_the_number_that_settles() -> None:
    found = answer(closed_length="")
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "closed_length"


def test_blank_form_cannot_tell_yet() -> None:
    found = search.answer(SHEET, blank(SHEET))
    assert found.finding == model.UNKNOWN
    assert len(found.assumed) >= 10


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
    with pytest.raises(search.BadInputs) as caught:
        answer(**{field: text})
    assert says in caught.value.errors[field]
    assert list(caught.value.errors) == [field]
