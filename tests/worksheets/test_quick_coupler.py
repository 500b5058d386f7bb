"""Quick couplers on the worksheet of hitches."""

import pytest

from calc import model, search, worksheets
from tests.worksheets.asking import given, verdict

SHEET = worksheets.load("hitch")
COUPLED = {"quick_coupler": "u_frame", "hitch_category": "1", "implement_category": "1"}


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def tried(remedy: model.Remedy, **typed: str) -> model.Answer:
    return search.answer(SHEET, {**typed, **remedy.set}, example=True)


def test_coupler_wants_sleeves_on_category_1() -> None:
    found = answer(**COUPLED, mast_hole="yes", implement_kind="box_blade")
    assert found.finding == model.WITHIN  # a stock bushing is routine
    assert verdict(found, "slot_lower").finding == model.CLOSE
    remedy = found.advice.remedies[0]
    assert "1-7/16 in outside" in model.words(remedy.text, "us")
    after = tried(remedy, **COUPLED, mast_hole="yes", implement_kind="box_blade")
    assert after.finding == model.WITHIN


@pytest.mark.parametrize(
    ("hitch_category", "finding"),
    [
        ("2", model.WITHIN),
        ("3", model.WITHIN),
        ("2N", model.CLOSE),
        ("4N", model.CLOSE),
        ("0", model.OVER),
        ("4", model.OVER),
    ],
)
def test_coupler_of_the_tractor_s_own_category(hitch_category: str, finding: str) -> None:
    found = answer(quick_coupler="u_frame", hitch_category=hitch_category)
    assert verdict(found, "coupler_on_tractor").finding == finding


def test_small_slots_need_no_sleeves() -> None:
    found = answer(**COUPLED, mast_hole="yes", implement_kind="box_blade", coupler_slots="own")
    assert found.finding == model.WITHIN


def test_digger_does_not_go_on_a_coupler_and_does_without() -> None:
    typed = {**COUPLED, "implement_kind": "post_hole_digger"}
    found = answer(**typed)
    assert found.finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "quick_coupler" in r.set)
    assert tried(remedy, **typed).finding == model.WITHIN


def test_swinging_top_link_is_over_until_the_coupler_comes_off() -> None:
    typed = {**COUPLED, "top_link": "swinging", "mast_hole": "yes"}
    found = answer(**typed)
    assert verdict(found, "conflict").finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "quick_coupler" in r.set)
    assert remedy is found.advice.remedies[0]
    assert tried(remedy, **typed).finding == model.WITHIN
    adapter = next(r for r in found.advice.remedies if "top_link" in r.set)
    assert tried(adapter, **typed).finding == model.WITHIN


def test_hooks_that_stand_elsewhere_name_the_coupler_that_fits() -> None:
    typed = {
        "quick_coupler": "u_frame",
        "hitch_category": "2",
        "implement_category": "2",
        "coupler_category": "1",
        "mast_hole": "yes",
        "implement_kind": "box_blade",
    }
    found = answer(**typed)
    assert verdict(found, "hook_span").finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "coupler_category" in r.set)
    assert remedy.set["coupler_category"] == "2"
    assert verdict(tried(remedy, **typed), "hook_span").finding == model.WITHIN


@pytest.mark.parametrize(
    ("typed", "finding"),
    [
        ({"mast_hole": "unseen"}, model.CLOSE),
        ({"mast_hole": "yes"}, model.WITHIN),
        ({"mast_hole": "no"}, model.OVER),
        ({"mast_height": "15 in"}, model.WITHIN),
    ],
)
def test_hole_for_the_top_hook(typed: dict[str, str], finding: str) -> None:
    assert verdict(answer(**COUPLED, **typed), "hook_height").finding == finding


def test_missing_hole_remedy() -> None:
    typed = {**COUPLED, "mast_hole": "no", "sleeves": "fitted", "implement_kind": "box_blade"}
    found = answer(**typed)
    for remedy in found.advice.remedies:
        assert tried(remedy, **typed).finding != model.OVER
    assert len(found.advice.remedies) >= 2


def test_drive_shaft_behind_a_coupler_is_named() -> None:
    found = answer(**COUPLED)
    assert verdict(found, "driveline").finding == model.CLOSE
    assert any("drive shaft" in caution.text for caution in found.advice.cautions)
    dragged = answer(**COUPLED, implement_kind="box_blade")
    assert all(v.check.name != "driveline" for v in dragged.verdicts)


@pytest.mark.parametrize(("span", "finding"), [("26.5 in", model.WITHIN), ("30 in", model.OVER)])
def test_a_measured_span_is_held_against_the_hooks(span: str, finding: str) -> None:
    typed = {**COUPLED, "implement_kind": "box_blade", "implement_span": span}
    answer = given("pairing", "hitching", **typed)
    found = answer.verdict("span")
    assert found is not None and found.finding == finding == answer.finding
    # Nobody measured the mast: the hole for the top hook is named as not looked at.
    assert "hook_height" in {item.name for item in answer.unchecked}


def test_a_garden_tractors_frame_takes_no_other_pins() -> None:
    blade = {"implement_kind": "rear_blade", "hitch_category": "1"}
    for theirs, offered in (("0", False), ("2", True)):
        found = given("pairing", "hitching", **blade, implement_category=theirs)
        assert found.finding == model.OVER
        assert ("pairing.other_pins" in {item.key for item in found.advice.remedies}) == offered


def test_a_top_pin_alone_does_not_hook_it_up() -> None:
    typed = {"implement_kind": "rear_blade", "hitch_category": "1", "upper_pin": "3/4 in"}
    assert given("pairing", "hitching", **typed).finding == model.UNKNOWN
