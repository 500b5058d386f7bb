"""What to do where the shaft gives too little power: each remedy put back in."""

import pytest

from calc import model, quantities, search, worksheets
from tests.worksheets.asking import verdict

SHEET = worksheets.load("pto")
PTO_20 = {"engine_power": "", "pto_power": "20 hp", "slope": "0 %"}


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def tried(remedy: model.Remedy, **typed: str) -> model.Answer:
    return search.answer(SHEET, {**typed, **remedy.set}, example=True)


OVER = {**PTO_20, "material": "heavy"}


def test_widest_just_meets_the_power() -> None:
    found = answer(**OVER)
    assert found.finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "working_width" in r.set)
    after = tried(remedy, **OVER)
    assert verdict(after, "power").margin_low >= 0
    # The next stock size is too wide.
    inches = float(remedy.set["working_width"].split()[0])
    assert inches in (36, 42, 48, 54)
    wider = answer(**{**OVER, "working_width": f"{inches + 6} in"})
    assert verdict(wider, "power").margin_low < 0


@pytest.mark.parametrize(
    "typed",
    [
        OVER,
        {**PTO_20, "working_width": "84 in", "material": "light"},
        {**PTO_20, "slope": "30 %", "material": "light", "working_width": "60 in"},
        {**PTO_20, "implement_kind": "chipper", "working_width": "6 in", "material": "heavy"},
        {**PTO_20, "implement_kind": "round_baler_fixed", "throughput": "12 t/h"},
        {**PTO_20, "implement_kind": "generator", "generator_rating": "15 kW"},
        {"material": "typical"},
    ],
)
def test_each_remedy_put_in_meets_its_check(typed: dict[str, str]) -> None:
    found = answer(**typed)
    assert found.finding in (model.OVER, model.UNKNOWN)
    assert found.advice.remedies
    for remedy in found.advice.remedies:
        assert remedy.set and remedy.mends
        after = tried(remedy, **typed)
        for name in remedy.mends:
            mended = [v for v in after.verdicts if v.check.name == name]
            assert all(v.margin_low >= 0 for v in mended), model.words(remedy.text, "us")


def test_remedy_for_a_slope_is_a_gentler_one() -> None:
    typed = {
        "engine_power": "",
        "pto_power": "20 hp",
        "slope": "30 %",
        "working_width": "60 in",
        "material": "light",
    }
    found = answer(**typed)
    assert found.finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "slope" in r.set)
    assert 0.0 < quantities.base(remedy.set["slope"], "slope") < 0.30
