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


POWER = {
    "implement_kind": "rotary_cutter",
    "working_width": "60 in",
    "tractor_kind": "compact_heavy",
}


def pto_remedies(power: str, **typed: str) -> set[str]:
    found = search.answer(worksheets.load("pto"), {**POWER, "pto_power": power, **typed})
    return {name for remedy in found.advice.remedies for name in remedy.set}


def test_nobody_is_told_to_buy_a_tractor_for_what_may_run() -> None:
    # Nobody said what it cuts: from 16 hp in short grass to 26 hp in brush.
    found = search.answer(worksheets.load("pto"), {**POWER, "pto_power": "24 hp"})
    assert found.finding == model.UNKNOWN
    assert "pto_power" not in pto_remedies("24 hp")
    # In brush it surely doesn't.
    assert "pto_power" in pto_remedies("20 hp", material="heavy", altitude="0 ft")


def test_what_may_be_in_order_is_cut_by_a_third_at_most() -> None:
    # Of 600 lb, 260 lb is no advice while nobody knows what lifts it; nor are front weights.
    sheet = worksheets.load("ballast")
    found = search.answer(sheet, {"implement_mass": "600 lb"})
    assert found.finding == model.UNKNOWN and not found.advice.remedies
    known = {"tractor_mass": "4000 lb", "implement_mass": "700 lb"}
    remedies = search.answer(sheet, known).advice.remedies
    texts = [r.set["implement_mass"] for r in remedies if "implement_mass" in r.set]
    lighter = [float(text.split()[0]) for text in texts]
    assert lighter and min(lighter) >= 700 / 1.5
    sure = search.answer(
        sheet, {"implement_mass": "600 lb", "lift_capacity": "300 lb", "lift_rated_at": "0"}
    )
    assert any("implement_mass" in remedy.set for remedy in sure.advice.remedies)


@pytest.mark.parametrize(
    ("name", "given", "check"),
    [
        # Before, light ground is worst, for it is dug with the widest auger; after, clay is.
        (
            "pto",
            {
                "implement_kind": "post_hole_digger",
                "auger_diameter": "24 in",
                "pto_power": "18 hp",
                "altitude": "0 ft",
            },
            "power",
        ),
        (
            "pto",
            {
                "implement_kind": "manure_spreader",
                "pto_power": "45 hp",
                "implement_mass": "1,800 lb",
                "load_carried": "3,000 lb",
                "tractor_mass": "5,600 lb",
                "tractor_kind": "utility",
                "altitude": "0 ft",
            },
            "power",
        ),
        (
            "ballast",
            {
                "loader": "on",
                "tractor_kind": "subcompact",
                "tractor_mass": "2,150 lb",
                "loader_payload": "1,100 lb",
            },
            "side_raised",
        ),
    ],
)
def test_a_remedy_holds_where_a_check_is_worst_once_it_is_put_in(name, given, check):
    sheet = worksheets.load(name)
    found = search.answer(sheet, given)
    meant = [one for one in found.advice.remedies if check in one.mends and one.set]
    assert meant and found.verdict(check).margin_low < 0
    for one in meant:
        assert search.answer(sheet, {**given, **one.set}).verdict(check).margin_low >= -1e-6
