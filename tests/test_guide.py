"""The example in the contributors' guide is real: it runs and answers."""

import re
from pathlib import Path

import pytest

from calc import search
from calc.render import data
from calc.render.answer import answer_html
from calc.render.form import form_html
from calc.render.reply import reply

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"


@pytest.fixture(scope="module")
def sheet():
    code = re.search(r"```python\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.S)[1]
    names: dict = {}
    exec(compile(code, "guide", "exec"), names)
    return names["WORKSHEET"]


def test_example_answers(sheet):
    answer = search.answer(sheet, {"height": "5 ft"})
    assert answer.finding == "within"
    assert answer.outputs[0].value == pytest.approx(0.5575, abs=1e-3)
    assert "5 ft" in str(form_html(sheet, {}))
    assert "Within limits" in answer_html(answer)
    assert reply(answer).startswith("Fall: within limits.")
    assert data.data(answer)["outputs"][0]["unit"] == "s"


def test_example_range_and_remedy(sheet):
    unsure = search.answer(sheet, {"height": "3 ft to 6 ft"})
    assert unsure.finding == "unknown"
    assert unsure.settle is not None and unsure.settle.field.name == "height"
    assert unsure.settle.low == pytest.approx(9.80665 / 2 * 0.25, rel=1e-4)
    over = search.answer(sheet, {"height": "3 ft"})
    assert over.finding == "over"
    tried = search.answer(sheet, over.advice.remedies[0].set)
    assert tried.verdicts[0].margin_low >= -1e-2
