"""Across the tracks before a train comes."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import findings, output

SHEET = worksheets.load("rail-crossing")


def answer(**typed):
    return search.answer(SHEET, typed, example=True)


def test_signals_give_as_little_as_20_seconds():
    found = answer(signals="flashing", combination_length="60 ft")
    assert output(found, "time") == pytest.approx(18.6, abs=0.05)
    assert findings(found)["signals"] in (model.WITHIN, model.CLOSE)
    assert "signals" not in findings(answer())
    longer = answer(signals="flashing", combination_length="72 ft")
    assert findings(longer)["signals"] == model.OVER
    assert longer.finding == model.OVER


def test_signals_that_nobody_named_are_not_assumed_away():
    typed = {
        "combination_length": "80 ft",
        "crossing_speed": "5 mph",
        "start_acceleration": "1 ft/s2",
        "tracks": "1",
        "train_speed": "20 mph",
        "track_sight": "2,000 ft",
    }
    found = search.answer(SHEET, typed)
    assert found.finding == model.UNKNOWN


def test_without_a_view_it_says_what_view_is_needed():
    typed = {"combination_length": "40 ft", "crossing_speed": "5 mph", "signals": "none"}
    found = search.answer(SHEET, {**typed, "train_speed": "45 mph"})
    assert found.finding == model.UNKNOWN
    assert "How far do you see?" in leading.lead(found, "us")
    assert found.pictures


@pytest.mark.parametrize(
    "typed", [{}, {"signals": "flashing", "combination_length": "90 ft"}, {"track_sight": "300 ft"}]
)
def test_every_broken_check_has_a_remedy_that_meets_it(typed):
    found = answer(**typed)
    over = {name for name, finding in findings(found).items() if finding == model.OVER}
    assert over
    met = set()
    for remedy in found.advice.remedies:
        after = findings(answer(**{**typed, **remedy.set}))
        assert all(after.get(name) != model.OVER for name in remedy.mends)
        met |= set(remedy.mends)
    assert met == over


def test_the_page_is_its_own():
    assert SHEET.page == "road/rail-crossing"


def test_the_view_is_told_for_every_train():
    """A 65 ft truck from a stop at 8.8 ft/s: 240, 480 and 721 ft (road/RAIL-memory)."""
    given = {
        "combination_length": "65 ft",
        "crossing_speed": "6 mph",  # 8.8 ft/s
        "start_acceleration": "1.47 ft/s2",
        "tracks": "1",
    }
    answer = search.answer(worksheets.load("rail-crossing"), given)
    (table,) = [t for t in answer.advice.tables if t.title.startswith("How far you must see")]
    told = {round(speed[0] / 0.44704): sight[0] / 0.3048 for speed, _, sight in table.rows}
    # The source takes 1.47 ft/s for each mph, where 1.4667 is meant.
    assert [told[mph] for mph in (10, 20, 30)] == pytest.approx([240, 480, 721], rel=0.0025)


def test_where_nobody_spoke_of_signals_the_view_is_told_too():
    typed = {"combination_length": "50 ft", "train_speed": "60 mph", "crossing_speed": "3 mph"}
    found = search.answer(worksheets.load("rail-crossing"), typed)
    told = leading.lead(found, "us")
    assert "20 s before the train" in told and "you need to see 1,990 to 2,370 ft" in told
    assert len(told) < leading.LONGEST_LEAD


def test_signals_that_are_dark_tell_of_a_train_where_nobody_can_see_it():
    """They run for 20 s or more before a train (road/RAIL-1): a view is wanted without any."""
    typed = {"combination_length": "14 ft", "crossing_speed": "10 mph", "tracks": "1"}
    found = search.answer(SHEET, {**typed, "signals": "flashing"})
    assert found.finding == model.WITHIN
    assert leading.lead(found, "us").startswith("Yes, while the signals are dark")
    assert search.answer(SHEET, {**typed, "signals": "none"}).finding == model.UNKNOWN
    assert search.answer(SHEET, typed).finding == model.UNKNOWN
