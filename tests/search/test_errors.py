"""What an error of each number does to the deciding margin."""

import json

import pytest

from calc import model, quantities, search, worksheets
from calc.render import live

INCH, POUND = 0.0254, 0.45359237


def effects_of(name: str) -> tuple[model.Worksheet, search.Box, str, dict[str, search.ErrorEffect]]:
    sheet = worksheets.load(name)
    box = search.read_box(sheet, {}, example=True)
    deciding = search.answer(sheet, {}, example=True).deciding
    assert deciding is not None
    check = deciding.check.name
    return sheet, box, check, {e.field.name: e for e in search.error_effects(sheet, box, check)}


def test_a_tape_is_off_by_half_an_inch_a_scale_by_a_twentieth_and_a_plate_by_nothing() -> None:
    _, box, _, effects = effects_of("pairing")
    assert effects["wheelbase"].error == pytest.approx(0.5 * INCH)
    assert effects["wheelbase"].how == "tape"
    mass = box.base["tractor_mass"]
    assert effects["tractor_mass"].error == pytest.approx(0.05 * mass)
    plated = [e for e in effects.values() if e.how == "plate"]
    assert plated
    assert all(e.error == 0.0 and e.change == 0.0 for e in plated)


@pytest.mark.parametrize("name", ["pairing", "ballast", "tires", "digger", "driveline"])
def test_each_change_is_that_of_the_sums(name: str) -> None:
    """The change is what computing with the number off by its error, either way, loses at most."""
    sheet, box, check, effects = effects_of(name)
    silent = model.Work(on=False)
    before = sheet.compute(box.point({}), silent).check(check)
    assert before is not None
    assert effects
    for key, effect in effects.items():
        margins = [before.margin]
        for sign in (1, -1):
            item = sheet.field(key)
            low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
            moved = min(max(box.base[key] + sign * effect.error, low), high)
            after = sheet.compute(box.point({key: moved}), silent).check(check)
            assert after is not None
            margins.append(after.margin)
        assert effect.change == pytest.approx(min(margins) - before.margin, abs=1e-9)
        assert effect.turns == (before.margin >= 0 > min(margins))


def test_what_takes_most_stands_first() -> None:
    sheet, box, check, _ = effects_of("pairing")
    changes = [effect.change for effect in search.error_effects(sheet, box, check)]
    assert changes == sorted(changes)
    assert changes[0] < 0.0
    assert max(changes) <= 0.0


def test_a_range_and_a_check_that_there_is_not_have_no_row() -> None:
    sheet = worksheets.load("pairing")
    box = search.read_box(sheet, {"wheelbase": "60 to 70 in"}, example=True)
    check = search.answer(sheet, {}, example=True).deciding.check.name
    assert "wheelbase" not in {e.field.name for e in search.error_effects(sheet, box, check)}
    assert search.error_effects(sheet, box, "no such check") == ()


def asked(**more: object) -> dict[str, object]:
    request = {"worksheet": "pairing", "inputs": {}, "example": True, **more}
    found: dict[str, object] = json.loads(live.respond(json.dumps(request)))
    return found


def test_the_table_is_asked_for_apart_and_has_a_row_for_what_moves_the_margin() -> None:
    whole = str(asked(stage="full")["html"])
    assert '<details class="ys-effects" hidden>' in whole
    assert "May be off by" not in whole
    table = str(asked(stage="effects")["effects"])
    _, _, _, effects = effects_of("pairing")
    moving = [one for one in effects.values() if one.change <= -0.0005]
    assert table.count("<tr>") == 1 + len(moving) > 1
    assert "82.5 lb (scale)" in table  # a twentieth of the example's 1,650 lb
    assert "0.5 in (tape)" in table
    metric = str(asked(stage="effects", units="metric")["effects"])
    assert "37.4 kg (scale)" in metric


def test_where_nothing_was_measured_the_table_says_so() -> None:
    found = asked(worksheet="rail-crossing", stage="effects", inputs={"signals": "none"})
    assert found["ok"]
    nothing = asked(inputs={"tractor_mass": "1,500 to 1,600 lb"}, example=False, stage="effects")
    assert nothing["ok"]
    assert "<tr>" not in str(nothing["effects"])
