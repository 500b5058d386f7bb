"""The worksheet of the contributors' guide is real: built from its blocks, it answers."""

import re
import sys
from pathlib import Path

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.render import data
from calc.render.answer import answer_html
from calc.render.form import form_html
from calc.render.reply import reply
from calc.render.text_message import short

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"
FILES = ("fields.py", "compute.py", "advice.py", "picture.py", "words.toml")
# Half of gravity times the square of the half second that the guide gives for stepping away.
LEAST_HEIGHT = 9.80665 / 2 * 0.25


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    folder = tmp_path_factory.mktemp("guide") / "guide_fall"
    folder.mkdir()
    (folder / "__init__.py").write_text('"""A worked example."""\n')
    guide = GUIDE.read_text(encoding="utf-8")
    for name in FILES:
        text = re.search(rf"```\w+ {re.escape(name)}\n(.*?)```", guide, re.S)[1]
        (folder / name).write_text(text, encoding="utf-8")
    sys.path.insert(0, str(folder.parent))
    yield worksheets.assemble("fall", folder.name)
    sys.path.remove(str(folder.parent))


def test_the_example_answers(sheet):
    answer = search.answer(sheet, {}, example=True)
    assert answer.is_example and answer.finding == "within"
    assert answer.outputs[0].value == pytest.approx(0.5575, abs=1e-3)
    assert leading.lead(answer, "us") == "You have 0.558 s to step away; 0.5 s is enough."
    assert "5 ft" in str(form_html(sheet, {}))
    assert "Within limits" in answer_html(answer)
    assert reply(answer).startswith("You have 0.558 s to step away") and "0.558 s" in short(answer)
    assert data.data(answer)["outputs"][0]["unit"] == "s"


def test_an_example_never_mixes_with_what_was_given(sheet):
    answer = search.answer(sheet, {"load": "300 lb"})
    assert answer.given == {"load": "300 lb"} and not answer.is_example
    assert [item.field.name for item in answer.assumed] == ["height"]
    assert answer.finding == "unknown"
    assert [item.field for item in answer.unchecked] == ["chain_rating"]


def test_a_needed_field_is_asked_for_first(sheet):
    answer = search.answer(sheet, {"height": "5 ft"})
    assert answer.finding == "unknown" and [item.name for item in answer.missing] == ["load"]
    assert leading.lead(answer, "us") == "Say first: “Load”."
    assert "Say first: “Load”." in answer_html(answer)


def test_an_unknown_number_is_named_with_where_it_settles(sheet):
    unsure = search.answer(sheet, {"height": "3 ft to 6 ft", "load": "300 lb"})
    assert unsure.finding == "unknown"
    assert unsure.settle is not None and unsure.settle.field.name == "height"
    assert unsure.settle.low == pytest.approx(LEAST_HEIGHT, rel=1e-4)
    assert unsure.odds is not None and 0 < unsure.odds.pass_all < unsure.odds.tried


def test_what_is_broken_is_told_by_harm_and_each_remedy_mends_what_it_says(sheet):
    given = {"height": "3 ft", "load": "1,000 lb", "chain_rating": "900 lb"}
    over = search.answer(sheet, given)
    assert [v.check.name for v in over.verdicts] == ["time", "chain"]  # the danger before the limit
    assert over.verdicts[0].check.heading(over.finding) == "No time to step away"
    assert leading.lead(over, "us").startswith("No: it is down in 0.432 s")
    assert {remedy.mends for remedy in over.advice.remedies} == {("time",), ("chain",)}
    for remedy in over.advice.remedies:
        tried = search.answer(sheet, {**given, **remedy.set})
        assert {v.check.name for v in tried.verdicts if v.margin_low < 0}.isdisjoint(remedy.mends)
    by_field = {name: text for r in over.advice.remedies for name, text in r.set.items()}
    assert by_field == {"height": "48.3 in", "load": "900 lb"}


def test_a_remedy_that_mends_everything_is_offered_as_whole(sheet):
    only = search.answer(sheet, {"height": "3 ft", "load": "100 lb", "chain_rating": "900 lb"})
    assert [remedy.whole for remedy in only.advice.remedies] == [True]
    assert search.answer(sheet, {"height": "9 ft", "load": "100 lb"}).advice.remedies == []


@pytest.mark.parametrize(
    ("grade", "finding"), [(model.DANGER, "over"), (model.LIMIT, "over"), (model.ADVICE, "close")]
)
def test_advice_alone_never_makes_an_answer_over(grade, finding):
    check = model.at_most("a", "A", 11.0, 10.0, "count", "hitch/DERIVED", grade=grade)
    verdict = model.Verdict(check, "over", 11.0, 11.0, -0.1, -0.1, 10.0, 10.0)
    assert model.finding_of([verdict], []) == finding


@pytest.mark.parametrize(
    ("value", "finding"), [(17.9, "over"), (18.1, "close"), (23.9, "close"), (24.1, "within")]
)
def test_a_band_is_over_only_beyond_it_and_close_inside(value, finding):
    check = model.within_band("a", "A", value, 24.0, 18.0, "power", "hitch/DERIVED")
    assert model.finding_over(check.margin, check.margin, check.close_band) == finding


def test_a_governing_check_that_is_open_leaves_it_untold():
    check = model.at_most("a", "A", 1.0, 10.0, "count", "hitch/DERIVED")
    verdict = model.Verdict(check, "within", 1.0, 1.0, 0.9, 0.9, 10.0, 10.0)
    open_ = model.Unchecked("b", "B", "field")
    assert model.finding_of([verdict], [open_]) == "unknown"
    assert model.finding_of([verdict], [model.Unchecked("b", "B", "field", False)]) == "within"
