"""The worksheet on hitch categories."""

import itertools
import math

import pytest

from calc import model, search, worksheets
from calc.mechanics import hitch, hitch_fit
from calc.model import check_text, leading, sentences
from calc.model.pictures import Dimension, Disc, Scene
from tests.worksheets.asking import output, verdict

SHEET = worksheets.load("hitch")
COUPLED = {"quick_coupler": "u_frame", "hitch_category": "1", "implement_category": "1"}


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def tried(remedy: model.Remedy, **typed: str) -> model.Answer:
    return search.answer(SHEET, {**typed, **remedy.set}, example=True)


def test_default_example_wants_sleeves_and_a_look_at_the_span() -> None:
    found = answer()
    assert found.finding == model.CLOSE
    assert verdict(found, "lower_pins").check.margin == 0.0
    assert verdict(found, "top_pin").check.margin == 0.0
    assert verdict(found, "span").check.margin == 0.0
    assert output(found, "slack") == pytest.approx(6.7e-3)


@pytest.mark.parametrize("category", ["0", "1", "2", "3", "4", "2N", "3N", "4N"])
def test_a_category_fits_itself(category: str) -> None:
    found = answer(hitch_category=category, implement_category=category)
    assert found.finding == model.WITHIN


@pytest.mark.parametrize(
    ("tractor", "implement"), list(itertools.product(["0", "1", "2", "2N", "3", "3N"], repeat=2))
)
def test_pins_and_span_agree_with_the_mechanics(tractor: str, implement: str) -> None:
    found = answer(hitch_category=tractor, implement_category=implement)
    pins = verdict(found, "lower_pins").check.margin
    expected = {"fits": 1.0, "sleeve": 0.0, "too big": -1.0}[hitch_fit.pins_fit(tractor, implement)]
    if expected == 0.0 and not hitch_fit.ball_sleeves(tractor, implement):
        expected = -1.0  # two numbers apart: no stock sleeve
    assert pins == expected
    span = {"same": 1.0, "adjust": 0.0, "no": -1.0}[hitch_fit.spans_fit(tractor, implement)]
    assert verdict(found, "span").check.margin == span


def test_sleeve_remedy_fits_the_pins() -> None:
    remedy = answer().advice.remedies[0]
    said = model.words(remedy.text, "us")
    assert "7/8 in inside, 1-1/8 in outside" in said
    assert "3/4 in inside, 1 in outside" in said
    after = tried(remedy)
    assert verdict(after, "lower_pins").finding == model.WITHIN
    assert verdict(after, "top_pin").finding == model.WITHIN


def test_known_links_settle_the_span() -> None:
    inside = answer(links_narrowest="24 in", links_widest="34 in", sleeves="fitted")
    assert inside.finding == model.WITHIN
    outside = answer(links_narrowest="29 in", links_widest="34 in", sleeves="fitted")
    assert outside.finding == model.OVER
    assert outside.deciding is not None and outside.deciding.check.name == "span"
    said = model.words(outside.advice.remedies[0].text, "us")
    assert "close" in said and "26.9 in" in said
    needed = hitch_fit.reach_gap(29 * 0.0254, 34 * 0.0254, hitch.size("shoulder_span", "1"))
    assert f"{abs(needed) / 0.0254:.2f} in" in said


def test_wrong_category_names_what_would_go_on() -> None:
    typed = {"hitch_category": "1", "implement_category": "3"}
    found = answer(**typed)
    assert found.finding == model.OVER
    remedy = next(r for r in found.advice.remedies if "implement_category" in r.set)
    after = tried(remedy, **typed)
    assert after.finding in (model.WITHIN, model.CLOSE)


def test_measured_pin_overrules_the_category_picked() -> None:
    found = answer(hitch_category="2", implement_category="1", lower_pin="1-1/8 in")
    assert verdict(found, "lower_pins").finding == model.WITHIN
    assert verdict(found, "span").finding == model.WITHIN


def test_measured_sizes_name_the_category() -> None:
    found = answer(lower_pin="1-7/16 in", upper_pin="1-1/4 in", implement_span="32.5 in")
    assert "is Category 3N" in check_text.check_sentence(verdict(found, "measured"), "us")
    assert [row[2] for row in found.advice.tables[0].rows] == [
        "Category 3",
        "Category 3",
        "Category 2",
    ]


def test_span_between_ball_centers_is_brought_to_shoulders() -> None:
    shoulders = answer(implement_span="683 mm")
    centers = answer(implement_span="718 mm", span_between="ball centers")
    assert output(centers, "span") == pytest.approx(output(shoulders, "span"))


def test_power_suggests_and_decides_nothing() -> None:
    found = answer(pto_power="45 kW")
    notes = " ".join(model.words(note, "us") for note in found.advice.notes)
    assert "Category 1 or 2" in notes
    assert [v.check.margin for v in found.verdicts] == [v.check.margin for v in answer().verdicts]


def test_tape_error_is_not_a_misfit() -> None:
    """A worn tape that reads 0.91 in for a 7/8 in pin asks for a caliper, not another tractor."""
    found = answer(hitch_category="1", lower_pin="0.91 in")
    assert verdict(found, "lower_pins").check.margin == 0.0
    assert "caliper" in check_text.check_sentence(verdict(found, "lower_pins"), "us")


def test_unknown_hitch_can_not_be_told_and_says_what_to_measure() -> None:
    found = answer(hitch_category="", implement_category="2")
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "hitch_category"
    assert "hole" in sentences.settle_sentence(found, "us")


def test_a_measured_hole_settles_an_unknown_hitch() -> None:
    found = answer(hitch_category="", ball_hole="28.7 mm", implement_category="2")
    assert verdict(found, "lower_pins").finding == model.WITHIN
    assert found.finding == model.CLOSE  # the hole doesn't tell 2 from 2N


def test_blank_form_still_answers() -> None:
    found = search.answer(SHEET, {item.name: "" for item in SHEET.fields})
    assert found.finding == model.UNKNOWN
    assert found.settle is not None


def test_range_of_a_pin_covers_both_findings() -> None:
    found = answer(hitch_category="1", implement_category="1", lower_pin="21 mm to 28 mm")
    assert found.finding == model.UNKNOWN


# --- traps ---------------------------------------------------------------------------------


def test_trap_old_mast_is_named() -> None:
    found = answer(hitch_category="2", implement_category="2", mast_height="19 in")
    told = verdict(found, "mast")
    assert told.finding == model.CLOSE
    assert "older" in check_text.check_sentence(told, "us")


def test_trap_category_4_has_two_masts() -> None:
    typed = {"hitch_category": "4", "implement_category": "4"}
    for height in ("685 mm", "1100 mm"):
        assert verdict(answer(**typed, mast_height=height), "mast").finding == model.WITHIN
    assert verdict(answer(**typed, mast_height="890 mm"), "mast").finding == model.CLOSE


def test_trap_limited_hitch_is_named_by_its_travel() -> None:
    found = answer(hitch_category="1", implement_category="1", lift_travel="13 in")
    told = verdict(found, "travel")
    assert told.finding == model.CLOSE
    assert "limited" in check_text.check_sentence(told, "us")
    assert verdict(answer(lift_travel="26 in"), "travel").finding == model.WITHIN


def test_trap_3n_on_category_2() -> None:
    found = answer(hitch_category="2", implement_category="3N")
    assert verdict(found, "span").finding == model.WITHIN
    assert verdict(found, "lower_pins").finding == model.OVER


# --- pictures, limits and speed ------------------------------------------------------------------


def test_pictures_are_to_scale_of_the_inputs() -> None:
    spans, pins = answer().pictures
    assert isinstance(spans, Scene) and isinstance(pins, Scene)
    widths = [
        math.dist(item.start, item.end) for item in spans.items if isinstance(item, Dimension)
    ]
    assert widths[0] == pytest.approx(hitch.size("shoulder_span", "1"))
    assert widths[1] == pytest.approx(hitch.size("shoulder_span", "2"))
    discs = [item.radius * 2 for item in pins.items if isinstance(item, Disc)]
    assert discs[:2] == pytest.approx([hitch.size("lower_pin", "1"), hitch.size("lower_bore", "2")])


@pytest.mark.parametrize(
    ("field", "typed"),
    [
        ("lower_pin", "0 in"),
        ("lower_pin", "-1 in"),
        ("lower_pin", "9 ft"),
        ("lower_pin", "7/8 lb"),
        ("lower_pin", "seven"),
        ("implement_span", "32 lb"),
        ("links_widest", "30 in to 20 in"),
        ("hitch_category", "7"),
        ("implement_span", "<script>"),
    ],
)
def test_bad_input_gets_a_sentence(field: str, typed: str) -> None:
    with pytest.raises(search.BadInputs) as caught:
        answer(**{field: typed})
    assert caught.value.errors[field].endswith(".")


def test_links_upside_down_are_refused() -> None:
    with pytest.raises(search.BadInputs) as caught:
        answer(links_narrowest="34 in", links_widest="26 in")
    assert "widest" in caught.value.errors["links_widest"]


# --- rules of the counter ----------------------------------------------------------------------


@pytest.mark.parametrize("implement", hitch.CATEGORIES)
def test_an_unknown_tractor_is_never_a_definite_no(implement: str) -> None:
    found = search.answer(SHEET, {"implement_category": implement})
    assert found.finding != model.OVER


@pytest.mark.parametrize(("tractor", "implement"), [("1", "0"), ("2", "1"), ("3", "2")])
def test_stock_bushings_color_nothing(tractor: str, implement: str) -> None:
    found = search.answer(SHEET, {"hitch_category": tractor, "implement_category": implement})
    for name in ("lower_pins", "top_pin"):
        assert verdict(found, name).finding == model.CLOSE
        assert verdict(found, name).check.grade == model.ADVICE
    fit = next(r for r in found.advice.remedies if r.set == {"sleeves": "fitted"})
    after = search.answer(
        SHEET, {"hitch_category": tractor, "implement_category": implement, **fit.set}
    )
    assert verdict(after, "lower_pins").finding == model.WITHIN


def test_two_sizes_apart_have_no_stock_bushing() -> None:
    found = search.answer(SHEET, {"hitch_category": "3", "implement_category": "1"})
    assert verdict(found, "lower_pins").finding == model.OVER


def test_the_wrong_top_pin_has_a_remedy() -> None:
    typed = {"hitch_category": "1", "implement_category": "1", "upper_pin": "1 in"}
    found = search.answer(SHEET, typed)
    assert found.finding == model.OVER
    assert found.deciding is not None and found.deciding.check.name == "top_pin"
    remedy = found.advice.remedies[0]
    assert "3/4 in" in model.words(remedy.text, "us")
    assert search.answer(SHEET, {**typed, **remedy.set}).finding == model.WITHIN


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ({"lower_pin": "7/8 in", "implement_span": "26.9 in"}, "Category 1,"),
        ({"lower_pin": "7/8 in", "implement_span": "15.7 in"}, "Category 1N,"),
        # A category without a top pin of its own never matches a measured one.
        ({"lower_pin": "7/8 in", "upper_pin": "3/4 in"}, "Category 1,"),
        ({"lower_pin": "1-1/8 in"}, "Category 2N or 2"),
        ({"lower_pin": "1-1/8 in", "mast_height": "24 in"}, "Category 2,"),
        ({"lower_pin": "1-1/8 in", "mast_height": "18 in"}, "Category 2N"),
        ({"implement_span": "32.5 in", "mast_height": "24 in"}, "Category"),
        ({"lower_pin": "1-1/8 in", "implement_span": "20 in"}, "No single category"),
    ],
)
def test_the_category_comes_from_all_that_was_measured(typed: dict[str, str], names: str) -> None:
    found = search.answer(SHEET, typed, ask="category")
    assert leading.lead(found, "us").startswith(names)


@pytest.mark.parametrize(("chart", "shoulders"), [("28.3 in", 0.683), ("34.25 in", 0.825)])
def test_a_figure_between_ball_centers_is_recognized(chart: str, shoulders: float) -> None:
    number = "1" if shoulders < 0.7 else "2"
    typed = {"hitch_category": number, "implement_category": number, "implement_span": chart}
    found = search.answer(SHEET, typed)
    assert output(found, "span") == pytest.approx(shoulders, abs=1.5e-3)
    notes = " ".join(model.words(note, "us") for note in found.advice.notes)
    assert "between ball centers" in notes
    assert found.finding == model.WITHIN


def test_a_top_link_that_nobody_looked_at_keeps_a_cutter_open() -> None:
    typed = {**COUPLED, "implement_kind": "rotary_cutter", "mast_hole": "yes"}
    assert search.answer(SHEET, typed).finding == model.UNKNOWN
    assert search.answer(SHEET, {**typed, "top_link": "fixed"}).finding == model.WITHIN
    assert search.answer(SHEET, {**typed, "top_link": "swinging"}).finding == model.OVER


@pytest.mark.parametrize("ask", [item.key for item in SHEET.asks])
def test_every_ask_leads_with_a_sentence(ask: str) -> None:
    for typed in ({}, {"hitch_category": "2", "implement_category": "1"}):
        said = leading.lead(search.answer(SHEET, typed, ask=ask), "us")
        assert said.endswith(".") and len(said) < 260


def test_no_top_pin_is_named_for_a_hitch_that_nobody_measured():
    """Which pin its top link takes hangs on its category: none, and no pin is the smallest."""
    typed = {"lower_pin": "1-1/8 in", "upper_pin": "3/4 in", "implement_span": "32.5 in"}
    sheet = worksheets.load("hitch")
    unknown = search.answer(sheet, typed)
    assert not any("upper_pin" in r.set for r in unknown.advice.remedies)
    known = search.answer(sheet, {**typed, "upper_pin": "1 in", "hitch_category": "1"})
    assert any("upper_pin" in r.set for r in known.advice.remedies)


def test_bushings_alone_are_the_answer_and_not_what_fits_anyway() -> None:
    typed = {"hitch_category": "2", "implement_category": "2", "upper_pin": "3/4 in"}
    typed |= {"lower_pin": "1-1/8 in", "implement_span": "32.5 in"}
    lead = leading.lead(search.answer(worksheets.load("hitch"), typed), "us")
    assert lead.startswith("Yes, with bushings") and "3/4 in" in lead


def test_a_span_that_may_be_another_is_said_as_the_one_that_needs_setting() -> None:
    typed = {"lower_pin": "1-1/8 in", "upper_pin": "3/4 in", "hitch_category": "2"}
    lead = leading.lead(search.answer(worksheets.load("hitch"), typed), "us")
    assert "narrower" in lead or "wider" in lead


@pytest.mark.parametrize(
    ("pin", "top_of", "lower"),
    # ISO 730, table of pins: upper 19, 25.5 and 31.75 mm beside lower 22, 28 and 36.6 mm.
    [
        ("19 mm", "Category 1", "22 mm"),
        ("25.5 mm", "2N or 2", "28 mm"),
        ("31.75 mm", "3", "36.6 mm"),
    ],
)
def test_a_lower_pin_that_is_a_top_pin_is_said_to_be_one(pin: str, top_of: str, lower: str) -> None:
    found = search.answer(SHEET, {"lower_pin": pin}, ask="category")
    said = leading.lead(found, "us")
    assert "size of the top pin" in said
    assert top_of in said and lower in said
    assert found.finding == model.CLOSE


@pytest.mark.parametrize("slots", ["own", "wide"])
def test_a_slot_takes_the_bushing_of_its_size(slots: str) -> None:
    typed = {"quick_coupler": "u_frame", "hitch_category": "2", "implement_category": "1"}
    found = search.answer(SHEET, {**typed, "coupler_slots": slots}, ask="sleeves")
    # Bushings as a parts counter has them: 7/8 in inside, 1-1/8 or 1-7/16 in outside.
    outside = {"own": "1-1/8 in outside", "wide": "1-7/16 in outside"}[slots]
    said = leading.lead(found, "us")
    assert said.startswith("Yes, with bushings: 7/8 in inside") and outside in said


def test_what_does_not_hang_on_the_hitch_is_not_said_to_fit() -> None:
    """A backhoe of Category 1 goes on a subframe all the same; a trailer has no pins to measure."""
    for ask in ("fits", "coupler", "sleeves"):
        typed = {"hitch_category": "1", "implement_category": "1", "quick_coupler": "u_frame"}
        refused = search.answer(SHEET, {**typed, "implement_kind": "backhoe"}, ask=ask)
        assert refused.finding == model.OVER and "subframe" in leading.lead(refused, "us")
    towed = search.answer(SHEET, {"hitch_category": "1", "implement_kind": "trailer"}, ask="fits")
    assert "drawbar" in leading.lead(towed, "us") and not towed.verdicts


def test_what_was_measured_is_not_asked_for_again() -> None:
    """Pin and hole fit: the span is what is open. A hole of no category is said to be none."""
    fitting = {"lower_pin": "22 mm", "ball_hole": "22.4 mm", "implement_span": "683 mm"}
    said = leading.lead(search.answer(SHEET, fitting, "metric", ask="fits"), "metric")
    assert said.startswith("Whether the links reach 683 mm")
    hole = search.answer(SHEET, {"ball_hole": "1 in"}, ask="category")
    assert leading.lead(hole, "us").startswith("No category has that hole")
