"""What hangs in front of a tractor and between its axles."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import findings, margins, output
from tests.worksheets.compact import BALLAST, LB, PAIRING

FRONT = {
    "tractor_kind": "compact_heavy",
    "tractor_mass": "2,600 lb",
    "front_share": "42 %",
    "wheelbase": "66 in",
    "driver_mass": "165 lb",
    "loader": "off",
    "implement_mass": "400 lb",
    "slope": "5 %",
}


def test_a_blade_in_front_loads_the_front_axle_and_lifts_the_rear():
    found = search.answer(PAIRING, {**FRONT, "implement_kind": "front_blade", "cg_ahead": "33 in"})
    # By hand: 400 lb at 66 + 33 in ahead of the rear axle puts 600 on the front, takes 200 off.
    bare_front, driver = 0.42 * 2600, 165 * 0.15
    assert output(found, "front") / LB == pytest.approx(bare_front + driver + 600, abs=0.5)
    assert output(found, "rear") / LB == pytest.approx(
        2600 + 165 - bare_front - driver - 200, abs=0.5
    )
    names = {v.check.name for v in found.verdicts}
    assert not names & {"lift", "steering", "climb", "pins", "power"}


def test_a_blade_in_front_waits_for_the_front_axle_limit():
    given = {**FRONT, "implement_kind": "front_blade", "cg_ahead": "33 in"}
    blank = search.answer(PAIRING, given)
    assert blank.finding == model.UNKNOWN
    assert any(u.field == "front_axle_limit" and u.governs for u in blank.unchecked)
    load = output(blank, "front") / LB
    inside, outside = (
        search.answer(PAIRING, {**given, "front_axle_limit": f"{load + step:.0f} lb"})
        for step in (20, -20)
    )
    assert findings(inside)["front_axle"] == model.CLOSE
    assert findings(outside)["front_axle"] == model.OVER


def test_trap_too_much_in_front_leaves_the_rear_wheels_light():
    """The rear keeps 45 % of the tractor's own mass, as manuals' formulas ask (hitch/H4)."""
    given = {**FRONT, "implement_kind": "front_blower", "cg_ahead": "40 in", "mid_pto": "yes"}
    given |= {"front_axle_limit": "4,000 lb", "pto_power": "30 hp", "working_width": "60 in"}
    found = search.answer(PAIRING, {**given, "implement_mass": "800 lb"})
    rear = next(v for v in found.verdicts if v.check.name == "rear_front")
    assert rear.limit_low / LB == pytest.approx(0.45 * (2600 + 165), abs=1)
    assert rear.finding == model.OVER and rear.check.grade == model.DANGER
    remedy = next(r for r in found.advice.remedies if "wheel_weights" in r.set)
    after = search.answer(PAIRING, {**given, "implement_mass": "800 lb", **remedy.set})
    assert margins(after)["rear_front"] >= 0


def test_a_deck_stands_half_way_between_the_axles():
    given = {**FRONT, "implement_kind": "mid_mower", "mid_pto": "yes", "working_width": "60 in"}
    found = search.answer(PAIRING, {**given, "pto_power": "25 hp", "material": "light"})
    none = search.answer(PAIRING, {**FRONT, "implement_kind": "none"})
    assert output(found, "front") - output(none, "front") == pytest.approx(200 * LB)
    assert output(found, "rear") - output(none, "down_rear") == pytest.approx(200 * LB)
    assert found.finding == model.WITHIN
    assert leading.lead(found, "us").startswith("Yes: with it on, ")


@pytest.mark.parametrize("kind", ["mid_mower", "front_blower"])
def test_what_the_mid_pto_drives_needs_one(kind):
    pto = worksheets.load("pto")
    job = {"implement_kind": kind, "working_width": "60 in", "pto_power": "40 hp"}
    for sheet in (PAIRING, pto):
        blank, none, there = (
            search.answer(sheet, {**job, **more})
            for more in ({}, {"mid_pto": "none"}, {"mid_pto": "yes"})
        )
        assert any(u.name == "shaft" and u.governs for u in blank.unchecked)
        assert blank.finding != model.WITHIN
        assert findings(none)["shaft"] == model.OVER and none.finding == model.OVER
        assert findings(there)["shaft"] == model.WITHIN
    at_mid = search.answer(pto, {**job, "mid_pto": "yes", "material": "light"})
    # Torque is power over speed: at 2,000 rpm, not at 540.
    need = output(at_mid, "need")
    assert output(at_mid, "torque") == pytest.approx(need / (2000 * 2 * 3.141592653589793 / 60))


def test_a_loader_beside_something_in_front_is_said():
    given = {**FRONT, "implement_kind": "front_blade", "loader": "on"}
    assert findings(search.answer(PAIRING, given))["front_place"] == model.CLOSE
    assert "front_place" not in findings(search.answer(PAIRING, {**given, "loader": "off"}))


@pytest.mark.parametrize("kind", ["front_blade", "front_blower", "mid_mower"])
def test_what_is_not_behind_is_drawn_and_answered_everywhere(kind):
    for sheet in (BALLAST, PAIRING):
        given = {name: text for name, text in FRONT.items() if name != "slope"}
        found = search.answer(sheet, {**given, "implement_kind": kind})
        assert found.pictures and leading.lead(found, "us")
