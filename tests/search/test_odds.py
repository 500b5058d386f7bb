"""How the machines that fit what was given divide: never said as if it were about this one."""

import pytest

from calc import model, search, worksheets
from calc.model import sentences
from tests.test_explore import field, limit, sheet

PLATE = model.Field("plate", "count", "0", "100", "Plate", "On its plate.", optional=True)
OPEN = model.Unchecked("plate", "Plate", "plate")


def _without(value: float) -> model.Outcome:
    return model.Outcome(limit(value).checks, unchecked=[OPEN])


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0 to 9", "All of "),
        ("8 to 12", "About 5 in 10 of "),
        # What rounds to all or to none isn't all or none.
        ("0 to 10.2", "Nearly all of "),
        ("9.7 to 20", "Fewer than 1 in 10 of "),
    ],
)
def test_the_share_that_passes(typed: str, said: str) -> None:
    answer = search.answer(sheet(lambda v, w: _without(v.a), field("a"), PLATE), {"a": typed})
    assert answer.finding == model.UNKNOWN
    assert sentences.odds_sentence(answer).startswith(said)


def test_a_check_that_was_not_made_is_not_passed() -> None:
    """A blank plate: of all the machines that fit, none is said to pass every check."""
    toy = sheet(lambda v, w: _without(v.a), field("a"), PLATE)
    said = sentences.odds_sentence(search.answer(toy, {"a": "0 to 9"}))
    assert "pass every check but the 1 that a blank number kept from being made" in said
    assert "nothing about yours" in said


def test_where_nothing_is_spread_there_is_no_share() -> None:
    """One exact machine with a blank plate is one machine, not two hundred that pass."""
    answer = search.answer(sheet(lambda v, w: _without(v.a), field("a"), PLATE), {"a": "9"})
    assert answer.finding == model.UNKNOWN and answer.odds is None
    assert sentences.odds_sentence(answer) == ""


def test_where_no_check_was_made_there_is_no_share() -> None:
    bare = model.Outcome([], unchecked=[OPEN])
    answer = search.answer(sheet(lambda v, w: bare, field("a"), PLATE), {"a": "0 to 9"})
    assert answer.finding == model.UNKNOWN and answer.odds is None


def test_where_money_is_compared_the_odds_are_of_what_was_asked() -> None:
    """A trade-in isn't judged by a repair that nobody asked about, nor by passing a check."""
    sheet = worksheets.load("resale")
    typed = {"trade_offer": "$8,500", "as_is_price": "$9,500"}
    answer = search.answer(sheet, typed, ask="trade")
    assert answer.finding == model.UNKNOWN and answer.odds is not None
    assert 0 < answer.odds.pass_all < answer.odds.tried
    said = sentences.odds_sentence(answer)
    assert said.startswith("For about ") and "it pays" in said and "check" not in said
    dearer = search.answer(sheet, {**typed, "trade_offer": "$8,900"}, ask="trade")
    assert dearer.odds is None or dearer.odds.pass_all > answer.odds.pass_all
    waiting = search.answer(sheet, {"as_is_price": "$9,500 to $12,000"}, ask="payments")
    assert waiting.odds is None  # nothing was asked that pays or doesn't
