"""What every worksheet of road travel must do: the list, closing, railroad, wiring, towing."""

import pytest

from calc import model, search, sources, worksheets
from calc.errors import InputError
from calc.render.answer import answer_html
from tests.worksheets.asking import answer

NAMES = ("road", "closing", "rail-crossing", "lamp-wiring", "road-towing")


def check(found, name):
    return next((v for v in found.verdicts if v.check.name == name), None)


def broken(found):
    return {v.check.name for v in found.verdicts if v.margin_low < 0}


def wanting(found):
    """What is broken, and what is only asked for by the standard."""
    return broken(found) | {
        v.check.name for v in found.verdicts if v.check.sense == "fits" and not v.margin_low
    }


@pytest.mark.parametrize("name", NAMES)
def test_a_blank_form_still_answers(name):
    sheet = worksheets.load(name)
    found = search.answer(sheet, {item.name: "" for item in sheet.fields})
    assert found.finding in (model.UNKNOWN, model.OVER)
    assert found.assumed
    if found.finding == model.UNKNOWN:
        assert found.settle is not None or found.missing or found.unchecked
    assert answer_html(found, "us") and answer_html(found, "metric")


@pytest.mark.parametrize("name", NAMES)
def test_every_citation_of_the_default_answer_is_on_a_shelf(name):
    found = answer(name)
    cited = [v.check.source for v in found.verdicts] + [s.source for s in found.working]
    cited += [r.source for r in found.advice.remedies] + [c.source for c in found.advice.cautions]
    cited += [t.source for t in found.advice.tables]
    for citation in "; ".join(filter(None, cited)).split(";"):
        sources.find(citation)
    assert found.advice.cautions


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("bad", ["-5 ft", "lots", "1e99", "<script>", "nan", "12 to 3 kg", "0/0"])
def test_bad_input_gets_a_sentence(name, bad):
    sheet = worksheets.load(name)
    for item in sheet.fields:
        if item.name == "offset_left" and bad == "-5 ft":
            continue  # an offset to the right is typed as a negative length
        with pytest.raises(InputError) as caught:
            search.answer(sheet, {item.name: bad}, example=True)
        assert str(caught.value).strip().endswith(".")


CASES = [
    ("road", {}),
    ("road", {"place": "MO"}),
    ("road", {"place": "CA", "emblem_height": "70 in", "behind_kind": "none"}),
    ("road", {"place": "PA", "top_speed": "30 mph", "behind_kind": "none"}),
    ("road", {"place": "KS", "amber_flashers": "0", "head_lamps": "0", "behind_kind": "none"}),
    ("road", {"place": "NY", "transport_width": "13 ft", "implement_marking": "full"}),
    ("road", {"place": "NY", "transport_width": "18 ft", "implement_marking": "full"}),
    (
        "road",
        {
            "place": "OH",
            "behind_kind": "carried",
            "transport_width": "9 ft",
            "implement_marking": "full",
        },
    ),
    (
        "road",
        {
            "place": "UK",
            "transport_width": "2.9 m",
            "road_speed": "24 mph",
            "implement_marking": "full",
            "top_speed": "24 mph",
        },
    ),
    (
        "road",
        {
            "place": "UK",
            "transport_width": "4.5 m",
            "implement_marking": "full",
            "tail_height": "1.2 m",
        },
    ),
    ("road", {"place": "UK", "behind_kind": "none", "tail_height": "1.6 m"}),
    (
        "road",
        {
            "place": "NE",
            "transport_width": "100 in",
            "implement_top": "90 in",
            "implement_marking": "full",
        },
    ),
    (
        "road",
        {
            "place": "NE",
            "transport_width": "100 in",
            "implement_top": "90 in",
            "implement_marking": "full",
            "mirror_reach": "40 in",
        },
    ),
    ("road", {"place": "CANADA-AB", "behind_kind": "none"}),
    ("road", {"place": "IL", "emblem": "no", "implement_marking": "full"}),
    ("road", {"place": "UK", "behind_kind": "none", "tractor_width": "2.2 m"}),
    (
        "road",
        {"place": "TX", "behind_kind": "none", "tractor_width": "13 ft", "tractor_made": "2020"},
    ),
    ("road", {"behind_kind": "trailed", "rated_speed": "10 mph", "implement_marking": "full"}),
]


@pytest.mark.parametrize(("name", "typed"), CASES)
def test_every_broken_check_has_a_remedy_that_meets_it(name, typed):
    found = answer(name, **typed)
    before = broken(found)
    assert before
    met = set()
    for remedy in found.advice.remedies:
        if remedy.set:
            met |= before - broken(answer(name, **{**typed, **remedy.set}))
    assert met == before


@pytest.mark.parametrize(("name", "typed"), CASES)
def test_no_remedy_is_idle(name, typed):
    found = answer(name, **typed)
    before = wanting(found)
    for remedy in found.advice.remedies:
        if remedy.set:
            assert before - wanting(answer(name, **{**typed, **remedy.set})), remedy
