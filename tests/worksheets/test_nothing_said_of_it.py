"""What a question takes where nobody said what hangs on the hitch, and what tells it."""

from __future__ import annotations

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.render import live, reply


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


def said(ask: str, **typed: str) -> str:
    return leading.lead(found("pairing", ask, **typed), "us")


def test_a_side_slope_is_told_in_degrees_too() -> None:
    """A phone's level shows degrees, and the sentence sends the reader to one."""
    assert said("across", cross_slope="12 deg").startswith("No: 21.3 % (12 deg) across")
    assert "phone's level" in said("across")  # and not what else is open


def test_no_slope_that_nobody_tells_from_level_is_offered() -> None:
    """5 % is the least: of a machine that nobody described, no slope is for certain right."""
    unknown = found("pairing", "across", cross_slope="12 deg", implement_kind="rotary_cutter")
    assert "cross_slope" not in {name for r in unknown.advice.remedies for name in r.set}
    known = found(
        "pairing", "across", cross_slope="12 deg", tractor_mass="2,600 lb", track_width="54 in"
    )
    [kept] = [r.set["cross_slope"] for r in known.advice.remedies if "cross_slope" in r.set]
    assert kept.endswith("%") and float(kept.removesuffix("%")).is_integer()
    assert float(kept.removesuffix("%")) >= 5


def test_one_mass_that_a_hitch_lifts_is_told() -> None:
    """320 lb mends what is broken; 310 lb would mend what may be in order besides."""
    answer = found(
        "pairing",
        "lift",
        tractor_kind="subcompact",
        pto_power="17.5 hp",
        lift_capacity="408 lb",
        hitch_distance="20.8 in",
        cg_height="33.6 in",
        implement_kind="box_blade",
        implement_mass="416 lb",
        cg_distance="16 in",
        axle_pin_height="13 in",
    )
    told = reply.reply(answer, "us")
    assert told.count("is the heaviest that does") == 1
    assert "320 lb is the heaviest that does" in told


def test_what_was_asked_is_told_beside_a_long_name_of_what_is_open() -> None:
    told = said(
        "power",
        pto_power="28.8 hp",
        tractor_mass="1500 lb",
        implement_kind="mid_mower",
        working_width="48 in",
        mid_pto="yes",
        slope="5 %",
        altitude="300 ft",
    )
    assert told.startswith("Can't tell yet: ") and "What was asked: yes" in told
    assert len(told) < leading.LONGEST_LEAD


def offered(answer: model.Answer, name: str) -> list[str]:
    return [r.set[name] for r in answer.advice.remedies if name in r.set]


def test_how_little_to_tow_is_not_told_by_a_tractor_that_nobody_named() -> None:
    """What is cut stays within 2.5 times; a tractor that was named tells how much is right."""
    typed = {"towed_mass": "7,000 lb", "chain_rating": "6,000 lb"}
    for text in offered(found("road-towing", "chain", **typed), "towed_mass"):
        assert float(text.removesuffix(" lb").replace(",", "")) >= 7000 / 2.5
    named = found("road-towing", "chain", **typed, tractor_mass="1,500 lb")
    assert offered(named, "towed_mass") == ["1500 lb"]


def test_a_lighter_machine_is_offered_once_one_of_the_two_is_known() -> None:
    unnamed = found("pto", "takes", implement_kind="small_square_baler")
    assert not offered(unnamed, "implement_mass")
    named = found("pto", "takes", implement_kind="small_square_baler", tractor_mass="2,000 lb")
    assert offered(named, "implement_mass")
