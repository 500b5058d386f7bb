"""Both ends carried, slopes across, and what was measured on the implement, in a pairing."""

from __future__ import annotations

import math

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.search import BadInputs
from tests.worksheets.asking import findings, output

SHEET = worksheets.load("pairing")
TRACTOR = {
    "tractor_kind": "compact_heavy",
    "tractor_mass": "2600 lb",
    "front_share": "44 %",
    "wheelbase": "66 in",
    "driver_mass": "180 lb",
    "loader": "off",
}
BEHIND = {"implement_kind": "rear_blade", "implement_mass": "300 lb", "working_width": "60 in"}


def given(ask: str = "", **typed: str) -> model.Answer:
    return search.answer(SHEET, typed, ask=ask)


# --- one in front and one behind -----------------------------------------------------------------


def test_the_one_in_front_weighs_on_the_axles_with_the_one_behind_on_the_ground() -> None:
    """m (b + a) / b on the front axle, m a / b off the rear one (moments about the axles)."""
    alone = given(**TRACTOR, **BEHIND)
    both = given(**TRACTOR, **BEHIND, front_implement_mass="400 lb", cg_ahead="33 in")
    pound = 0.45359237
    added = (output(both, "both_front") - output(alone, "down_front")) / pound
    taken = (output(alone, "down_rear") - output(both, "both_rear")) / pound
    assert added == pytest.approx(600, abs=0.5) and taken == pytest.approx(200, abs=0.5)


def test_the_one_in_front_is_no_ballast_for_the_one_behind() -> None:
    alone = given(**TRACTOR, **BEHIND)
    both = given(**TRACTOR, **BEHIND, front_implement_mass="400 lb")
    assert output(both, "front") == pytest.approx(output(alone, "front"))


def test_the_axles_limit_in_front_is_held_or_asked_for() -> None:
    typed = {**TRACTOR, **BEHIND, "front_implement_mass": "400 lb", "cg_ahead": "33 in"}
    assert given("both", **typed).finding == model.UNKNOWN
    low = given("both", **typed, front_axle_limit="1700 lb")
    high = given("both", **typed, front_axle_limit="3000 lb")
    assert findings(low)["both_front"] == model.OVER and low.finding == model.OVER
    assert findings(high)["both_front"] == model.WITHIN


def test_a_light_tractor_is_told_to_take_one_off() -> None:
    small = {"tractor_kind": "subcompact", "tractor_mass": "1400 lb", "loader": "off"}
    found = given("both", **small, **BEHIND, front_implement_mass="800 lb")
    assert findings(found)["both_rear"] == model.OVER
    assert any(remedy.key.endswith("one_off") for remedy in found.advice.remedies)


def test_two_in_front_are_a_question() -> None:
    with pytest.raises(BadInputs, match="doesn't hang behind"):
        given(**TRACTOR, implement_kind="front_blade", front_implement_mass="400 lb")


# --- across a slope ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("across", "wanted"),
    [
        ("4.9 deg", model.WITHIN),
        ("5.1 deg", model.CLOSE),
        ("9.9 deg", "close"),
        ("10.1 deg", model.OVER),
    ],
)
def test_slopes_across_end_below_what_manuals_print_for_up_and_down(
    across: str, wanted: str
) -> None:
    found = findings(given(**TRACTOR, **BEHIND, cross_slope=across))["cross"]
    assert found == wanted or {found, wanted} <= {model.CLOSE, model.UNKNOWN}


def test_with_a_load_in_the_loader_hardly_any_slope_is_crossed() -> None:
    loaded = {**TRACTOR, "loader": "on", "loader_payload": "400 lb"}
    assert findings(given(**loaded, **BEHIND, cross_slope="6 deg"))["cross"] == model.OVER
    assert findings(given(**loaded, **BEHIND, cross_slope="3 deg"))["cross"] != model.WITHIN


def test_a_loader_that_may_go_up_brings_its_caution() -> None:
    loaded = given(**{**TRACTOR, "loader": "on"}, **BEHIND)
    said = " ".join(str(c.text) for c in loaded.advice.cautions)
    assert "cross a slope with the loader up" in said


# --- measured on the implement --------------------------------------------------------------------


def test_a_measured_pin_counts_before_the_category_that_was_picked() -> None:
    typed = {**TRACTOR, **BEHIND, "hitch_category": "1", "implement_category": "1"}
    assert findings(given("hitching", **typed))["pins"] == model.WITHIN
    thick = given("hitching", **typed, lower_pin="1-1/8 in")
    assert thick.finding == model.OVER and "28.6 mm" in leading.lead(thick, "us")


def test_pin_span_and_mast_find_the_category_that_nobody_knew() -> None:
    """Category 1 by ISO 730: 22 mm pins, 683 mm between shoulders, 460 mm of mast."""
    measured = {"lower_pin": "22 mm", "implement_span": "683 mm", "mast_height": "460 mm"}
    found = given("hitching", **TRACTOR, **BEHIND, hitch_category="1", **measured)
    assert found.finding == model.WITHIN and "go with the tractor's hitch" in leading.lead(
        found, "us"
    )
    wide = {**measured, "lower_pin": "28 mm", "implement_span": "825 mm", "mast_height": "610 mm"}
    assert given("hitching", **TRACTOR, **BEHIND, hitch_category="1", **wide).finding == model.OVER


def test_the_angle_is_the_slope_of_its_tangent() -> None:
    found = given(**TRACTOR, **BEHIND, cross_slope="12 deg")
    check = next(v.check for v in found.verdicts if v.check.name == "cross")
    assert check.value == pytest.approx(math.tan(math.radians(12)))


def test_a_bare_tractor_is_held_to_a_slope_too() -> None:
    bare = {**TRACTOR, "implement_kind": "none"}
    assert findings(given(**bare, cross_slope="15 deg"))["cross"] == model.OVER
    assert findings(given(**bare, slope="20 deg"))["slope"] == model.OVER
    assert findings(given(**bare, slope="12 deg"))["slope"] != model.OVER


def test_an_implement_that_nobody_measured_never_hooks_up_for_sure() -> None:
    typed = {**TRACTOR, **BEHIND, "hitch_category": "1"}
    assert given("hitching", **typed).finding == model.UNKNOWN
    assert given("hitching", **typed, mast_height="24 in").finding == model.UNKNOWN
    # The top pin alone names no category, and a 1 in pin still doesn't enter a 3/4 in hole.
    assert given("hitching", **typed, upper_pin="1 in").finding == model.OVER


def test_a_slope_across_that_nobody_gave_is_never_within() -> None:
    found = given("across", **TRACTOR, **BEHIND)
    assert found.finding == model.UNKNOWN and "up and down only" in leading.lead(found, "us")


def test_a_slope_across_that_nobody_asked_about_is_a_caution_and_no_open_check() -> None:
    found = given("run", **TRACTOR, **BEHIND)
    assert "cross" not in {item.name for item in found.unchecked}
    assert "Crossing a slope wasn't looked at" in " ".join(
        str(c.text) for c in found.advice.cautions
    )
    asked = given("across", **TRACTOR, **BEHIND)
    assert "cross" in {item.name for item in asked.unchecked}


def test_a_tall_narrow_tractor_ends_at_half_its_tip_angle() -> None:
    """Tip over a pivoting front axle: tan = (t/2)(b - x) / (b h - x p); half of it is the most."""
    tall = {**TRACTOR, "mass_as": "scale", "track_width": "30 in", "cg_height": "36 in"}
    tall |= {"axle_pin_height": "13 in"}
    base, ahead = 66.0, 0.44 * 66.0
    tips = math.degrees(math.atan(15 * (base - ahead) / (base * 36 - ahead * 13)))
    assert tips < 20.0  # else the plain 10 degrees would be the limit
    for off, wanted in ((-0.1, {model.CLOSE}), (0.1, {model.OVER})):
        found = given("across", **tall, **BEHIND, cross_slope=f"{tips / 2 + off:.3f} deg")
        assert findings(found)["cross"] in wanted
    right = findings(given("across", **tall, **BEHIND, cross_slope=f"{tips / 4 - 0.1:.3f} deg"))
    assert right["cross"] == model.WITHIN


# --- the mast -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mast", "wanted"),
    [
        ("610 mm", model.WITHIN),  # 610 mm in Category 2, ISO 730
        ("634 mm", model.WITHIN),
        ("636 mm", model.CLOSE),
        ("460 mm", model.CLOSE),
    ],
)
def test_a_measured_mast_is_a_check_of_its_own(mast: str, wanted: str) -> None:
    typed = {**TRACTOR, **BEHIND, "hitch_category": "2", "implement_category": "2"}
    found = given("hitching", **typed, mast_height=mast)
    assert findings(found)["mast"] == wanted
    assert findings(found)["pins"] == model.WITHIN
    hitch = search.answer(
        worksheets.load("hitch"),
        {"hitch_category": "2", "implement_category": "2", "mast_height": mast},
    )
    assert findings(hitch)["mast"] == wanted


def test_a_mast_at_the_hooks_height_goes_on_a_coupler_and_another_is_looked_at() -> None:
    typed = {**TRACTOR, **BEHIND, "hitch_category": "1", "implement_category": "1"}
    typed["quick_coupler"] = "u_frame"
    assert "hook_height" not in findings(given("hitching", **typed))
    near, far = (given("hitching", **typed, mast_height=h) for h in ("15 in", "18 in"))
    assert findings(near)["hook_height"] == model.WITHIN
    assert findings(far)["hook_height"] == model.CLOSE
    assert "15" in leading.lead(far, "us")
