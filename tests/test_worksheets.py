"""What every worksheet must do, whatever its subject."""

import json
import random
import re
from html import unescape

import pytest

from calc import model, quantities, search, sources, worksheets
from calc.errors import InputError
from calc.model import cited, leading
from calc.render import data
from calc.render.answer import answer_html
from calc.render.live import respond
from calc.render.page import worksheet_block
from calc.render.reply import reply
from calc.render.text_message import SHORT, short

NAMES = worksheets.names()


@pytest.fixture(params=NAMES)
def sheet(request):
    return worksheets.load(request.param)


def blank(sheet):
    return {item.name: "" for item in sheet.fields}


def test_default_example_answers_in_both_systems(sheet):
    answer = search.answer(sheet, {}, example=True)
    assert answer.finding in model.FINDING_WORDS
    assert answer.verdicts or answer.advice.headline
    assert answer.outputs and answer.working and answer.advice.cautions
    assert answer.pictures
    for system in quantities.SYSTEMS:
        html = answer_html(answer, system)
        assert sheet.finding_words(answer.finding) in unescape(html)
        assert not re.search(r"\bnan\b", html, re.I) and "Infinity" not in html


def test_every_citation_is_on_a_shelf(sheet):
    for citation in cited.citations(search.answer(sheet, {}, example=True)):
        sources.find(citation)
    for citation in cited.citations(search.answer(sheet, blank(sheet))):
        sources.find(citation)


def test_blank_form_still_answers(sheet):
    answer = search.answer(sheet, blank(sheet))
    assert answer.finding in model.FINDING_WORDS
    if answer.finding == model.UNKNOWN:
        assert answer.settle is not None or all(
            len(item.field.options) > 1 if isinstance(item.field, model.Choice) else True
            for item in answer.assumed
        )
    assert answer_html(answer)


def test_same_inputs_same_bytes(sheet):
    one, two = (answer_html(search.answer(sheet, {}, example=True)) for _ in range(2))
    assert one == two


@pytest.mark.parametrize("bad", ["zero", "-5", "1e300", "nan", "12 lb ft", "14 to 12 in", "<b>"])
def test_bad_text_gets_a_sentence_in_every_quantity(sheet, bad):
    for item in sheet.fields:
        if not isinstance(item, model.Field):
            continue
        try:
            item.read(bad)
        except InputError as error:
            assert str(error).endswith((".", "%.")) and len(str(error)) > 15


def test_a_bare_number_may_be_given_the_unit_that_the_form_shows(sheet):
    """As the page does before it is sent, saved, or shown in other units."""
    block = worksheet_block(sheet.name)
    for item in sheet.fields:
        if not isinstance(item, model.Field):
            continue
        units = {system: item.shown_in(system) for system in ("us", "metric")}
        differ = len({*units.values()}) > 1
        row = re.search(rf'<input [^>]*name="{item.name}"[^>]*>', block)[0]
        assert (f'data-units="{"|".join(units.values())}"' in row) == differ
        for system, unit in units.items() if differ else ():
            low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
            middle = quantities.kind(item.kind).unit(unit).from_base((low + high) / 2)
            ends = sorted((middle, 0.98 * middle))
            for bare in (f"{middle:.3f}", " to ".join(f"{end:.3f}" for end in ends)):
                told, meant = item.read(f"{bare} {unit}", system), item.read(bare, system)
                assert (told.low, told.high) == (meant.low, meant.high)


def test_answers_over_all_that_its_limits_allow(sheet):
    """No set of values within the limits may end in an error."""
    pick = random.Random(7)
    for _ in range(120):
        typed = {}
        for item in sheet.fields:
            if isinstance(item, model.Choice):
                typed[item.name] = pick.choice(item.options).value
            elif isinstance(item, model.Field):
                low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
                share = pick.choice([0.0, 1.0, pick.random(), pick.random() ** 3])
                unit = quantities.unit_for(item.kind, "metric")
                value = low + share * (high - low)
                if pick.random() < 0.1 and item.optional:
                    typed[item.name] = ""
                else:
                    typed[item.name] = f"{unit.from_base(value)!r} {unit.symbol}"
        try:
            answer = search.answer(sheet, typed, example=True)
        except search.BadInputs as bad:
            assert all(sentence.endswith((".", "?")) for sentence in bad.errors.values())
            continue
        assert answer_html(answer, "metric")
        json.dumps(data.data(answer), allow_nan=False)


def test_never_within_where_a_point_of_the_box_is_over(sheet):
    """A finding that holds must hold at points that the search did not choose."""
    pick = random.Random(11)
    for trial in range(4):
        typed = {
            item.name: ""
            for item in sheet.fields
            if isinstance(item, model.Field) and pick.random() < 0.25 + 0.1 * trial
        }
        try:
            box = search.read_box(sheet, typed, example=True)
        except search.BadInputs:
            continue
        seen = search.Search(sheet, box)
        verdicts = search.verdicts(seen, search.prove(seen))
        low = {v.check.name: v.margin_low for v in verdicts}
        high = {v.check.name: v.margin_high for v in verdicts}
        for _ in range(60):
            values = {dim.name: dim.at(pick.random()) for dim in box.dimensions}
            for check in sheet.compute(box.point(values), model.Work(on=False)).checks:
                if low[check.name] >= 0:
                    assert check.margin >= 0, (check.name, values)
                if high[check.name] < 0:
                    assert check.margin < 0, (check.name, values)


def test_replies(sheet):
    answer = search.answer(sheet, {}, example=True)
    said = reply(answer, link="https://example.invalid/p/#a=1")
    assert said.startswith(leading.lead(answer, "us"))
    assert said.endswith("#a=1")
    assert len(short(answer, link="https://example.invalid/p/#a=1")) <= SHORT


def test_respond_never_raises(sheet):
    inputs = {item.name: "<script>alert(1)</script>" for item in sheet.fields}
    response = json.loads(respond(json.dumps({"worksheet": sheet.name, "inputs": inputs})))
    assert response["ok"] is False
    assert set(response["errors"]) <= {*inputs, ""}
    assert "fault" not in response
    strange = {"worksheet": sheet.name, "inputs": {"no_such": "1"}, "units": "metric"}
    response = json.loads(respond(json.dumps(strange)))
    assert response["ok"] and "no_such" in response["errors"][""]


def test_page_block_is_whole(sheet):
    block = worksheet_block(sheet.name)
    for item in sheet.fields:
        assert f'name="{item.name}"' in block
    assert "ys-finding" in block
