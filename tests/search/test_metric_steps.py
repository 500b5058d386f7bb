"""Remedies in the units of the shop: whole steps and sizes of its own, each still proven."""

import pytest

from calc import model, quantities, search, worksheets
from calc.search import rounding

CASES = [
    ("road-towing", {"towed_mass": "3000 kg", "tractor_mass": "1200 kg", "room": "40 m"}),
    ("road-towing", {"towed_mass": "5000 kg", "tractor_mass": "2000 kg", "grade": "-15 %"}),
    ("closing", {"maneuver": "left", "entrance_sight": "100 m", "car_speed": "90 km/h"}),
    ("rail-crossing", {"track_sight": "200 m", "train_speed": "60 km/h"}),
    ("road", {"place": "NY", "emblem": "no", "head_lamps": "0", "mirror_reach": "0.3 m"}),
    ("pto", {"implement_kind": "rotary_cutter", "working_width": "2.4 m", "pto_power": "18 kW"}),
]


@pytest.mark.parametrize(
    ("step", "whole"), [(22.7, 50), (4.5, 5), (0.305, 0.5), (3.05, 5), (25.4, 50), (1.6, 1), (1, 1)]
)
def test_the_nearest_whole_step(step: float, whole: float) -> None:
    assert rounding.whole_step(step) == pytest.approx(whole)


@pytest.mark.parametrize(("name", "typed"), CASES)
def test_a_metric_remedy_is_typed_in_metric_units_and_holds(
    name: str, typed: dict[str, str]
) -> None:
    sheet = worksheets.load(name)
    found = search.answer(sheet, typed, "metric")
    remedies = [r for r in found.advice.remedies if r.set and r.mends]
    assert remedies
    us = {"lb", "in", "ft", "mph", "psi", "hp"}
    for remedy in remedies:
        assert not us & {text.split(" ")[-1] for text in remedy.set.values()}
        again = search.answer(sheet, {**typed, **remedy.set}, "metric")
        left = {v.check.name: v for v in again.verdicts if v.check.name in remedy.mends}
        over = {v.check.name for v in again.verdicts if v.finding == model.OVER}
        assert all(v.margin_low > -1e-6 or v.finding != model.OVER for v in left.values()), over


def test_a_load_is_said_in_whole_steps_of_either_system() -> None:
    sheet = worksheets.load("road-towing")
    typed = {"towed_mass": "3000 kg", "tractor_mass": "1200 kg", "room": "40 m"}
    for system, unit, step in (("us", "lb", 10), ("metric", "kg", 5)):
        found = search.answer(sheet, typed, system)
        texts = [r.set["towed_mass"] for r in found.advice.remedies if "towed_mass" in r.set]
        assert texts
        for text in texts:
            number, said = text.split(" ")
            assert said == unit
            assert float(number) % step == 0


def test_sizes_sold_have_two_figures_in_metric_units() -> None:
    sheet = worksheets.load("pairing")
    width = sheet.field("working_width")
    assert isinstance(width, model.Field)
    stock = [inches * 0.0254 for inches in (48, 60, 72, 84)]
    assert rounding.sold(stock, width, "us") == stock
    metric = rounding.sold(stock, width, "metric")
    assert metric == pytest.approx([1.2, 1.5, 1.8, 2.1])
    assert all(quantities.base(f"{m * 1000:.0f} mm", "length") == pytest.approx(m) for m in metric)
