"""How a few answers are said at the counter, where the plain number would mislead."""

from __future__ import annotations

import json

import pytest

from calc import search, worksheets
from calc.model import leading, sentences, words
from calc.render import live


def lead(name: str, ask: str, **typed: str) -> str:
    """Return the first sentence of an answer."""
    return leading.lead(search.answer(worksheets.load(name), typed, ask=ask), "us")


def test_what_may_not_be_reached_is_said_to_be_less() -> None:
    """The rule is "less than one and a half times": reaching it breaks it (road/EU-2)."""
    typed = {"tractor_mass": "3,000 lb", "ratio_rule": "unbraked-32", "trailer_brakes": "none"}
    reached = lead("road-towing", "stops", **typed, towed_mass="4,500 lb")
    assert "tows less than 4,500 lb" in reached
    passed = lead("road-towing", "stops", **typed, towed_mass="4,600 lb")
    assert "tows at most 4,500 lb" in passed


def test_a_year_is_no_number_with_a_comma() -> None:
    found = search.answer(worksheets.load("road"), {"place": "OH"})
    [made] = [item for item in found.assumed if item.field.name == "tractor_made"]
    assert sentences.field_text(found, made.field.name, "us") == "1990 to 2024"


def test_a_machine_is_no_slower_than_it_is_driven() -> None:
    fast = lead("road", "symbol", place="OH", road_speed="26 mph")
    assert fast.startswith("Yes: built for 26 mph")


@pytest.mark.parametrize(("offer", "covered"), [("$27,999", False), ("$28,001", True)])
def test_no_payments_where_the_trade_in_covers_it(offer: str, covered: bool) -> None:
    typed = {"new_price": "$28,000", "loan_rate": "5 %", "loan_months": "60", "sales_tax": "0 %"}
    said = lead("resale", "payments", **typed, trade_offer=offer)
    assert said.startswith("No payments: ") == covered


def test_a_gain_that_may_be_a_loss_is_said_as_both() -> None:
    typed = {"as_is_price": "$9,000", "parts": "$400", "hours": "4 h", "uplift_likely": "$900"}
    said = lead("resale", "repair", **typed)
    assert " less to $" in said and " more than selling as it stands" in said
    assert "-$" not in said


@pytest.mark.parametrize(
    ("ask", "typed", "words"),
    [
        ("generator_tractor", {"generator_rating": "15 kW"}, "30 hp at the PTO"),
        ("takes", {"auger_diameter": "12 in"}, "It runs from "),
    ],
)
def test_what_only_one_kind_has_tells_the_kind(ask: str, typed: dict[str, str], words: str) -> None:
    assert words in lead("pto", ask, **typed)


def test_a_chipper_is_not_helped_by_grass() -> None:
    typed = {"pto_power": "30 hp", "implement_kind": "chipper", "working_width": "5 in"}
    found = search.answer(worksheets.load("pto"), typed)
    said = [words(remedy.text, "us") for remedy in found.advice.remedies]
    assert any(each.startswith("Chip softer or thinner wood") for each in said)
    assert not any("grass" in each for each in said)


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("lawn", {"tine_deflection": "0 to 3.25 cm"}),
        ("resale", {"like_new_price": "$100 to $500,000", "age": "20 years", "hour_meter": "0 h"}),
    ],
)
def test_what_may_be_nothing_divides_nothing(name: str, typed: dict[str, str]) -> None:
    """Both broke off once: a spring not pushed back, a price far below a cent."""
    said = live.respond(json.dumps({"worksheet": name, "inputs": typed, "stage": "full"}))
    assert json.loads(said)["ok"]


def test_a_new_machine_has_a_price() -> None:
    with pytest.raises(search.BadInputs):
        lead("resale", "worth", like_new_price="1e-311 $", age="5 years", hour_meter="500 h")
