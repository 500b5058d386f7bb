"""What a remedy says is what was tried: no number in it is rounded past what meets the check."""

import pytest

from calc import model, quantities, search, worksheets

CASES = {
    # A ratio that must not be reached: 4,499.99 lb is what halving finds, and 4,500 lb what was
    # found over.
    "a ratio that is reached": (
        "road-towing",
        {
            "towed_mass": "4500 lb",
            "tractor_mass": "3000 lb",
            "ratio_rule": "unbraked-32",
            "road_speed": "15 mph",
            "grade": "0 %",
            "trailer_brakes": "none",
        },
    ),
    "a load of five figures": (
        "road-towing",
        {
            "towed_mass": "15000 lb",
            "tractor_mass": "9123 lb",
            "ratio_rule": "unbraked-32",
            "road_speed": "15 mph",
            "grade": "0 %",
            "trailer_brakes": "none",
        },
    ),
    "a chain": (
        "road-towing",
        {"towed_mass": "4567 lb", "chain_rating": "3000 lb", "tractor_mass": "9000 lb"},
    ),
    "a narrower load": (
        "road",
        {"place": "MS", "behind_kind": "mounted", "transport_width": "131.7 in"},
    ),
}


def changed(answer):
    """Each quantity that a remedy puts in, with its field and the text."""
    for remedy in answer.advice.remedies:
        for name, text in remedy.set.items():
            item = answer.worksheet.field(name)
            if isinstance(item, model.Field):
                yield remedy, item, text


@pytest.mark.parametrize(("name", "given"), CASES.values(), ids=CASES)
def test_a_remedy_puts_in_the_number_that_it_says(name, given):
    answer = search.answer(worksheets.load(name), given)
    seen = 0
    for remedy, item, text in changed(answer):
        # What is set to the middle of a window is no edge.
        if item.name not in given or item.name not in remedy.text.numbers:
            continue
        amount, unit = text.split(" ", 1)
        said = quantities.with_unit(quantities.number(float(amount)), unit)
        assert said.replace(",", "") == text and said in model.words(remedy.text, "us")
        seen += 1
    assert seen


def test_no_remedy_offers_what_was_found_over():
    name, given = CASES["a ratio that is reached"]
    answer = search.answer(worksheets.load(name), given)
    assert answer.finding == model.OVER
    told = [model.words(remedy.text, "us") for remedy in answer.advice.remedies]
    assert "4,490 lb behind you, and no more." in told
    for remedy in answer.advice.remedies:
        tried = search.answer(worksheets.load(name), {**given, **remedy.set})
        assert tried.finding != model.OVER, remedy
        for field, text in remedy.set.items():
            assert given.get(field) != text
