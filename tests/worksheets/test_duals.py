"""Duals: the manual, bending, spacing, bolts and the stance."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.search import BadInputs
from calc.worksheets.duals import compute as duals_sheet
from tests.worksheets.asking import answer, finding, given, margin, output, remedy, table


def test_duals_need_the_manual() -> None:
    assert finding(answer("duals"), "manual") == model.UNKNOWN
    assert finding(answer("duals", manual_allows="no"), "manual") == model.OVER
    assert finding(answer("duals", manual_allows="yes"), "manual") == model.WITHIN
    assert answer("duals", manual_allows="no", rear_axle_load="500 lb").finding == model.OVER


def test_bending_by_the_outer_tire_alone_is_a_caution() -> None:
    typed = {"manual_allows": "yes", "width_limit": "", "rear_tire_load": "3,000 lb"}
    found = answer("duals", **typed, adapter_length="20 in")
    assert finding(found, "bending") == model.OVER and found.finding == model.CLOSE
    assert output(found, "bending_outer") > output(found, "bending_shared") > 1


@pytest.mark.parametrize(
    ("typed", "check", "field"),
    [
        ({"adapter_length": "10 in", "width_limit": ""}, "spacing", "adapter_length"),
        ({"adapter_length": "10 in", "width_limit": ""}, "spacing", "outer_offset"),
        (
            {"adapter_length": "8 in", "outer_wheel": "same", "width_limit": ""},
            "spacing",
            "adapter_length",
        ),
        ({"rear_axle_load": "7,000 lb"}, "axle", "rear_axle_load"),
        ({}, "width", "track_width"),
        ({"rear_tire_load": "900 lb"}, "tires", "rear_tire_load"),
    ],
)
def test_dual_remedies_meet_their_checks(typed: dict[str, str], check: str, field: str) -> None:
    typed = {"manual_allows": "yes", **typed}
    found = answer("duals", **typed)
    assert finding(found, check) == model.OVER
    tried = answer("duals", **{**typed, **remedy(found, field).set})
    assert margin(tried, check) >= 0


def test_the_axle_is_measured_against_its_widest_single_track() -> None:
    # Singles 8 in farther out bend it as much as they may: (7 + 8) / (7 + 19) of 6,600 lb.
    found = answer("duals", manual_allows="yes")
    assert output(found, "equal_bending") / 0.45359237 == pytest.approx(6600 * 15 / 26, rel=1e-3)
    wide = answer(
        "duals",
        manual_allows="yes",
        widest_track="120 in",
        width_limit="",
        rear_tire_load="3,000 lb",
        adapter_length="20 in",
    )
    assert wide.finding == model.WITHIN


def test_an_axle_that_nobody_gave_is_not_checked() -> None:
    found = given("duals", manual_allows="yes", rear_axle_load="2500 lb", width_limit="")
    assert found.finding != model.OVER
    assert {"axle", "spacing"} <= {item.name for item in found.unchecked}
    assert {v.check.name for v in found.verdicts}.isdisjoint({"axle", "bending", "tires"})


@pytest.mark.parametrize("manual", ["yes", "no", ""])
def test_special_rims_do_not_depend_on_the_manual(manual: str) -> None:
    typed = {"rear_tire": "14.9-28", "inner_offset": "1.5 in", "manual_allows": manual}
    found = given("duals", ask="rims", **typed, adapter_length="10 in")
    assert found.finding == model.OVER and "13 in" in leading.lead(found, "us")
    found = given("duals", ask="rims", **typed, adapter_length="17 in")
    assert found.finding == model.CLOSE


def test_radial_and_bias_make_no_pair() -> None:
    found = answer("duals", outer_tire="14.9R28 R-1")
    assert finding(found, "pair") == model.OVER


def test_wheels_made_for_duals_reach_the_least_spacing() -> None:
    found = answer("duals", outer_wheel="dual", adapter_length="0 in")
    check = next(v.check for v in found.verdicts if v.check.name == "spacing")
    assert check.value == pytest.approx(check.limit)


def test_ways_table_agrees_with_the_arithmetic() -> None:
    found = answer("duals")
    rows = table(found, "least spacing").rows
    length = rows[0][1]
    assert isinstance(length, tuple)
    tried = answer("duals", outer_wheel="reversed", adapter_length=f"{length[0]:.5f} m")
    check = next(v.check for v in tried.verdicts if v.check.name == "spacing")
    assert check.value == pytest.approx(check.limit, abs=1e-4)


def test_unequal_tires_are_refused() -> None:
    assert finding(answer("duals", outer_tire="13.6-28"), "pair") == model.OVER
    assert finding(answer("duals", outer_tire="14.9-28 R-1"), "pair") == model.WITHIN


def test_wider_stance_raises_the_static_angle() -> None:
    found = answer("duals")
    assert output(found, "side_gain") > 0
    notes = [str(o.note) for o in found.outputs if o.name.startswith("side_")][:2]
    assert all("never a slope" in note for note in notes)
    assert any("never a safe slope" in c.text for c in found.advice.cautions)


def test_bolt_grade_and_thread_must_go_together() -> None:
    with pytest.raises(BadInputs, match="metric"):
        answer("duals", thread="M12", grade="5")
    assert output(answer("duals", thread="M12", grade="10.9"), "torque") > 0


def test_retorque_is_a_checklist() -> None:
    assert table(answer("duals"), "Tighten").checklist


def test_least_spacing_takes_the_wider_tire() -> None:
    sheet = worksheets.load("duals")
    box = search.read_box(sheet, {"outer_tire": "18.4-28"}, example=True)
    least, _ = duals_sheet.least_spacing(box.point({}))
    assert least == pytest.approx(0.578)


def test_no_adapter_is_bought_for_a_spacing_that_may_do() -> None:
    typed = {"manual_allows": "yes", "rear_tire": "13.6-28"}
    found = given("duals", ask="rims", **typed)
    assert found.finding == model.UNKNOWN
    assert not {"adapter_length", "outer_offset"} & {
        n for r in found.advice.remedies for n in r.set
    }
    known = {"outer_wheel": "reversed", "adapter_length": "4 in", "inner_offset": "2 in"}
    found = given("duals", ask="gap", **typed, **known)
    lengths = [r.set["adapter_length"] for r in found.advice.remedies if "adapter_length" in r.set]
    assert found.finding == model.OVER and lengths == ["14 in"]


@pytest.mark.parametrize("outer", ["12.4-24", "14.9R28"])
def test_how_far_apart_is_no_question_for_two_tires_that_make_no_pair(outer: str) -> None:
    typed = {"manual_allows": "yes", "rear_tire": "14.9-28 R-1", "outer_tire": outer}
    found = given("duals", "gap", **typed)
    assert found.finding == model.OVER
    assert "don't make a pair" in leading.lead(found, "us")


def test_least_spacing_and_width_are_told_while_the_rest_is_open() -> None:
    # tires/OM-16: a 14.9 tire stands at least 18.9 in from its twin.
    found = given("duals", "gap", manual_allows="yes", rear_tire="14.9-28")
    assert leading.lead(found, "us").startswith("At least 18.9 in")
    typed = {"rear_tire": "14.9-28", "track_width": "60 in", "adapter_length": "16 in"}
    assert "with the duals on" in leading.lead(given("duals", "width", **typed), "us")
    assert "say those three" in leading.lead(given("duals", "width"), "us")


def test_a_loader_tires_load_is_none_for_duals_on_the_road() -> None:
    typed = {"rear_tire": "16.9-28 R-4 12PR", "rear_axle_load": "9,000 lb", "manual_allows": "yes"}
    found = given("duals", "load", **typed, rear_axle_limit="12,000 lb")
    assert any(item.name == "tires" for item in found.unchecked)


def test_a_manual_that_says_no_makes_no_tractor_steadier() -> None:
    refused = given("duals", "steadier", manual_allows="no", track_width="52 in")
    assert refused.finding == model.OVER
    assert leading.lead(refused, "us").startswith("Not on this one")
    allowed = given("duals", "steadier", manual_allows="yes", track_width="52 in")
    assert leading.lead(allowed, "us").startswith("Steadier by")


def test_what_is_too_wide_says_so_before_anything_else() -> None:
    # 72 in of track, 2 x 24 in and 18.4 in of tire are 138 in.
    typed = {"rear_tire": "18.4-38", "track_width": "72 in", "adapter_length": "24 in"}
    typed |= {"inner_offset": "0 in", "manual_allows": "yes"}
    wide = given("duals", "width", **typed, width_limit="102 in")
    assert leading.lead(wide, "us").startswith("No: 138 in wide")
    assert given("duals", "width", **typed, width_limit="140 in").finding != model.OVER


def test_a_spacing_is_never_below_nothing() -> None:
    found = given("duals", "rims", rear_tire="14.9-28", adapter_length="0 in")
    spacing = next(o for o in found.outputs if o.name == "spacing")
    assert spacing.low == 0 < spacing.high
    assert "stand 0 to" in leading.lead(found, "us")


@pytest.mark.parametrize("told", [{"thread": "M20"}, {"thread": "3/4-10"}, {"grade": "8.8"}])
def test_half_of_a_bolt_is_no_fault(told: dict[str, str]) -> None:
    """The other half is then each that there is: an M20 bolt of grade 2 is none."""
    found = search.answer(worksheets.load("duals"), {"rear_tire": "14.9-24", **told}, ask="rims")
    assert all(each.value > 0 for each in found.outputs if each.name == "torque")
