"""What a question takes where nobody said what hangs on the hitch, and what tells it."""

from __future__ import annotations

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.render import live


def found(name: str, ask: str, **typed: str) -> model.Answer:
    return search.answer(worksheets.load(name), typed, ask=ask)


def kind_taken(answer: model.Answer) -> tuple[str, ...]:
    return next((one.options for one in answer.assumed if one.field.name == "implement_kind"), ())


@pytest.mark.parametrize(
    ("name", "ask", "typed"),
    [
        ("pairing", "across", {"cross_slope": "12 deg", "tractor_mass": "2,600 lb"}),
        ("ballast", "behind", {"tractor_mass": "2,600 lb", "loader": "on"}),
    ],
)
def test_a_side_slope_and_a_loader_need_no_implement(
    name: str, ask: str, typed: dict[str, str]
) -> None:
    answer = found(name, ask, **typed)
    assert not answer.missing
    assert kind_taken(answer) == ("none",)
    other = next(one.key for one in worksheets.load(name).asks if not one.taken)
    assert [item.name for item in found(name, other, **typed).missing] == ["implement_kind"]


@pytest.mark.parametrize("name, ask", [("pairing", "across"), ("ballast", "behind")])
def test_a_width_is_of_an_implement_that_must_be_named(name: str, ask: str) -> None:
    answer = found(name, ask, tractor_mass="2,600 lb", working_width="60 in")
    assert [item.name for item in answer.missing] == ["implement_kind"]


def test_what_was_named_stands_before_what_is_taken() -> None:
    answer = found("pairing", "across", cross_slope="12 deg", implement_kind="rotary_cutter")
    assert not kind_taken(answer)
    weighed = found("pairing", "across", cross_slope="12 deg", implement_mass="500 lb")
    assert kind_taken(weighed) == ("other",)


@pytest.mark.parametrize(
    ("ask", "typed", "said"),
    [
        ("hydraulics", {"implement_flow": "6 gpm", "flow_needed": "8 gpm"}, "8 gpm, and 6 gpm"),
        ("hitching", {"hitch_category": "1", "implement_category": "2"}, "1-1/8 in"),
        ("power", {"pto_power": "25 hp", "power_needed": "30 hp"}, "at least 30 hp"),
        ("clear", {"balls_highest": "30 in", "pins_on_ground": "18 in"}, "12 in"),
    ],
)
def test_what_it_asks_for_settles_the_question_without_its_kind(
    ask: str, typed: dict[str, str], said: str
) -> None:
    answer = found("pairing", ask, **typed)
    assert kind_taken(answer) == ("other",)
    assert said in leading.lead(answer, "us")


def test_the_page_works_out_what_an_error_does_where_something_is_taken() -> None:
    import json

    asked = {
        "worksheet": "pairing",
        "ask": "across",
        "inputs": {"cross_slope": "5 deg", "tractor_mass": "2,600 lb", "track_width": "50 in"},
        "stage": "effects",
    }
    assert json.loads(live.respond(json.dumps(asked)))["ok"]
