"""A slope that nobody named, and a loader that is asked what it lifts."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import finding, given

SUBCOMPACT = {
    "loader": "on",
    "tractor_kind": "subcompact",
    "pto_power": "17 hp",
    "tractor_mass": "1,404 lb",
    "lift_capacity": "680 lb",
    "lift_rated_at": "610",
}
CUTTER = {"implement_kind": "rotary_cutter_light", "working_width": "48 in"}
LOADED = {"tractor_kind": "compact_heavy", "tractor_mass": "2,900 lb", "loader_payload": "1,000 lb"}
BOX = {"implement_kind": "ballast_box", "implement_mass": "1,000 lb", "wheelbase": "66 in"}


def lead(found: model.Answer) -> str:
    return leading.lead(found, "us")


@pytest.mark.parametrize("material", ["typical", "light"])
def test_a_slope_that_nobody_named_takes_nothing_and_the_answer_says_so(material: str) -> None:
    # 4 to 5 hp for each foot of a light cutter in usual growth, 16 to 20 hp for 4 ft; 17 hp run it.
    found = given("pairing", **SUBCOMPACT, **CUTTER, material=material)
    assert found.finding in (model.CLOSE, model.WITHIN)
    assert not finding(found, "slope") and not finding(found, "climb")
    assert "slope" in {item.name for item in found.unchecked}
    assert any("on the level" in str(item.text) for item in found.advice.cautions)


def test_a_slope_that_is_named_takes_from_the_power_and_is_held_to_what_manuals_print() -> None:
    # 1,404 lb and what is on it, up 15 % at a walk, take some 2 hp off 17: less than 16 hp is left.
    steep = given("pairing", "power", **SUBCOMPACT, **CUTTER, material="typical", slope="15 %")
    level = given("pairing", "power", **SUBCOMPACT, **CUTTER, material="typical", slope="0 %")
    assert finding(steep, "power") == model.OVER and finding(level, "power") == model.CLOSE
    for slope, says in (
        ("10 deg", model.WITHIN),
        ("10.5 deg", model.CLOSE),
        ("16 deg", model.OVER),
    ):
        found = given("pairing", **SUBCOMPACT, **CUTTER, material="light", slope=slope)
        assert finding(found, "slope") == says
        assert not any("on the level" in str(item.text) for item in found.advice.cautions)


def test_a_plain_yes_is_one_for_the_level() -> None:
    found = given("pairing", **SUBCOMPACT, **CUTTER, material="light", power_needed="12 hp")
    assert found.finding == model.WITHIN and "on the level" in lead(found)


def test_what_a_loader_lifts_begins_with_its_rating() -> None:
    found = given("ballast", "loader", **LOADED)
    assert found.finding == model.UNKNOWN
    assert lead(found).startswith("First read the loader's rating")
    assert "behind" in lead(found)
    assert "loader_rating" in {item.field for item in found.unchecked}


@pytest.mark.parametrize(
    ("rating", "says"),
    # A bucket's load half a meter ahead of the pins: 0.72 of their rating, hitch/T6L.
    [("1,350 lb", "No: by its rating the loader lifts 972 lb"), ("1,400 lb", "lifts 1,010 lb")],
)
def test_a_rating_is_taken_to_where_the_load_is(rating: str, says: str) -> None:
    found = given(
        "ballast", "loader", **LOADED, **BOX, loader_rating=rating, loader_rating_at="pins"
    )
    assert says in lead(found)


def test_a_load_that_nobody_named_leaves_what_the_rating_tells() -> None:
    asked = given("ballast", "loader", loader_rating="1,100 lb", loader_rating_at="pins")
    assert lead(asked).startswith("By its rating the loader lifts 792 lb")
    assert lead(given("ballast", "loader")).startswith("Read its rating first")


STANDS = {**LOADED, "loader": "on", "loader_payload": "", "pto_power": "30 hp"}
RAKE = {"implement_kind": "landscape_rake", "working_width": "60 in", "implement_mass": "350 lb"}


@pytest.mark.parametrize("ask", ["front", "power"])
@pytest.mark.parametrize(
    ("slope", "says"),
    [("9.9 deg", model.WITHIN), ("10.1 deg", model.CLOSE), ("16 deg", model.OVER)],
)
def test_no_question_that_a_slope_bears_on_has_a_plain_yes_past_ten_degrees(
    ask: str, slope: str, says: str
) -> None:
    # 10 degrees with something behind, 15 at the most; hitch/M14.
    found = given("pairing", ask, **STANDS, **RAKE, slope=slope)
    assert found.finding == says
    assert ("steep" in lead(found)) == (says != model.WITHIN)


def test_no_weight_in_front_is_never_told_as_so_many_pounds() -> None:
    # 0.20 of 2,900 lb and a driver is 613 lb, and 614 lb is the least that stays.
    typed = {"loader": "none", "tractor_kind": "compact_heavy", "tractor_mass": "2,900 lb"}
    tiller = {"implement_kind": "rotary_tiller", "implement_mass": "600 lb"}
    for name, ask in (("pairing", "weight"), ("ballast", "front_weight")):
        found = given(name, ask, **typed, **tiller)
        assert found.finding == model.CLOSE
        assert lead(found).startswith("Nothing more by the rule") and " 0 lb" not in lead(found)


@pytest.mark.parametrize("known", [{}, {"hitch_category": "1", "implement_category": "1"}])
@pytest.mark.parametrize(
    ("kind", "says"),
    [("rotary_cutter", model.CLOSE), ("post_hole_digger", model.OVER), ("box_blade", "")],
)
def test_a_coupler_is_judged_alike_whether_categories_are_known_or_not(
    known: dict[str, str], kind: str, says: str
) -> None:
    # A hook needs a fixed pin: with a swinging top link there is an adapter at best; hitch/H19.
    typed = {"implement_kind": kind, "working_width": "60 in", "quick_coupler": "u_frame"}
    if kind == "post_hole_digger":
        typed |= {"auger_diameter": "12 in", "working_width": ""}
    assert finding(given("pairing", **typed, **known), "coupler") == says


@pytest.mark.parametrize(
    ("ask", "typed"),
    [
        ("hitching", {"hitch_category": "1", "implement_category": "1"}),
        ("hydraulics", {"flow_needed": "5 gpm", "implement_flow": "6 gpm"}),
        ("clear", {"balls_highest": "30 in", "pins_on_ground": "17 in", "implement_kind": "plow"}),
        ("duty", {"pto_power": "30 hp", **CUTTER, "working_width": "60 in"}),
        ("power", {"pto_power": "30 hp", **CUTTER, "material": "light"}),
    ],
)
def test_a_loader_that_nobody_named_leaves_open_no_question_that_is_not_about_it(
    ask: str, typed: dict[str, str]
) -> None:
    # What the rear wheels keep with a loader on was told in place of each of these.
    assert given("pairing", ask, **typed).finding == model.WITHIN
    with_one = given("pairing", ask, **typed, loader="on")
    assert finding(with_one, "rear_loader")  # where one is said to be on, it is looked at


def test_a_rating_of_a_loader_that_is_not_there_lifts_nothing():
    """Nothing is worked out for it, and that is no fault."""
    sheet = worksheets.load("ballast")
    for state, begins in (("none", "Without a loader"), ("on", "By its rating")):
        answer = search.answer(sheet, {"loader": state, "loader_rating": "3000 lb"}, ask="loader")
        assert leading.lead(answer, "us").startswith(begins)
