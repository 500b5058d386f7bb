"""The worksheet on what the road asks for."""

import itertools
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, tables, worksheets
from calc.mechanics import road_rules
from calc.model import leading
from calc.model.pictures import Disc, Label, Line, Scene, Shape
from calc.render.answer import answer_html
from calc.render.reply import reply
from calc.subjects import road_list as rl
from calc.subjects import road_tables
from calc.worksheets.road import view
from tests.worksheets.asking import answer

PLACES = [row["place"] for row in tables.rows("road/road_places")]


def check(found, name):
    return next((v for v in found.verdicts if v.check.name == name), None)


def broken(found):
    return {v.check.name for v in found.verdicts if v.margin_low < 0}


def inputs(sheet, **typed):
    box = search.read_box(worksheets.load(sheet), typed, example=True)
    return box.point({})


# --- what the road asks for ------------------------------------------------------------------


def test_default_example_hides_its_lamps():
    found = answer("road")
    assert found.finding == model.OVER
    assert found.deciding.check.name == "behind"
    assert check(found, "tail_seen").finding == model.OVER
    assert check(found, "amber_seen").finding == model.WITHIN
    assert "an emblem" in model.words(found.deciding.check.sentence, "us")
    assert not broken(answer("road", implement_marking="full"))


def test_nothing_behind_is_within():
    found = answer("road", behind_kind="none")
    assert found.finding == model.WITHIN
    assert check(found, "behind") is None


def test_open_implement_hides_nothing():
    found = answer("road", see_through="open", implement_marking="reflectors")
    assert check(found, "tail_seen") is None
    assert not broken(found)


def test_unknown_lamps_are_not_taken_as_there():
    found = answer("road", tail_lamps="", implement_marking="full")
    assert found.finding == model.UNKNOWN
    assert found.settle.field.name == "tail_lamps"


def test_range_of_top_heights_that_straddles_the_line_of_sight():
    found = answer("road", implement_top="36 to 48 in", implement_marking="emblem")
    assert check(found, "tail_seen").finding == model.UNKNOWN
    assert check(answer("road", implement_top="30 to 34 in"), "tail_seen") is None or (
        check(answer("road", implement_top="30 to 34 in"), "tail_seen").finding == model.WITHIN
    )


def test_by_day_the_lamps_of_the_dark_are_left_out():
    by_day = answer("road", hours="day")
    assert check(by_day, "head_lamps") is None
    assert check(answer("road", place="KS", hours="day"), "amber_flashers") is not None
    # Reflectors: the law of the dark asks for them, the standard always.
    none = {"place": "KS", "rear_reflectors": "0", "behind_kind": "none"}
    assert check(answer("road", **none), "rear_reflectors").finding == model.OVER
    assert check(answer("road", **none, hours="day"), "rear_reflectors") is None


def test_standard_alone_breaks_nothing():
    # Older than the year from which hazard lamps are asked for: by the standard only.
    old = {"amber_flashers": "0", "behind_kind": "none", "tractor_made": "1965"}
    found = answer("road", place="TX", **old)
    assert check(found, "amber_flashers") is None
    assert check(found, "amber_flashers_standard").finding == model.CLOSE
    # For a tractor made under the federal rule its maker owed them.
    newer = answer("road", place="TX", amber_flashers="0", behind_kind="none", tractor_made="2019")
    assert check(newer, "amber_flashers").finding == model.OVER
    signals = {"place": "TX", "turn_signals": "0", "behind_kind": "none", "tractor_made": "2019"}
    assert check(answer("road", **signals), "turn_signals").finding == model.OVER
    assert check(answer("road", **signals, use="lawn"), "turn_signals") is None


def test_one_tail_lamp_in_ohio_needs_two_reflectors():
    # Older than 2002, from which Ohio holds machines to the whole standard.
    old = {"rear_reflectors": "0", "behind_kind": "none", "tractor_made": "1995"}
    one = answer("road", tail_lamps="1", **old)
    assert check(one, "rear_reflectors").finding == model.OVER
    two = answer("road", tail_lamps="2", **old)
    assert check(two, "rear_reflectors") is None


def test_emblem_comes_off_above_its_speed_where_the_law_says_so():
    fast = {"top_speed": "35 mph", "behind_kind": "none", "place": "CO"}
    assert check(answer("road", **fast, road_speed="30 mph"), "emblem_off").finding == model.OVER
    assert check(answer("road", **fast, road_speed="20 mph"), "emblem").finding == model.WITHIN
    symbol = answer("road", place="OH", top_speed="30 mph", behind_kind="none")
    rows = symbol.advice.tables[0].rows
    assert any("Speed identification symbol" in str(row[1]) for row in rows)


def test_yellow_strip_for_an_offset_cutter():
    def listed(**typed):
        v = inputs("road", transport_width="84 in", behind_hitch="72 in", place="TX", **typed)
        return {(n.unit, n.item) for n in rl.situation(v).needs}

    assert ("towed", "left_front_strip") not in listed()
    assert ("towed", "left_front_strip") in listed(offset_left="12 in")
    assert ("towed", "rear_reflectors") in listed()


@pytest.mark.parametrize("place", PLACES)
def test_every_place_answers_and_draws(place):
    sheet = worksheets.load("road")
    for typed in (
        {"behind_kind": "none"},
        {"behind_kind": "trailed", "behind_hitch": "20 ft"},
        {"behind_kind": "carried", "transport_width": "13 ft", "hours": "day"},
    ):
        found = search.answer(sheet, {"place": place, **typed}, example=True)
        html = answer_html(found, "us")
        assert "check the current text" in html.lower()
        assert "nan" not in re.sub(r"[a-z]nan|nan[a-z]", "", html.lower())


def test_places_without_rules_say_so():
    found = answer("road", place="OTHER")
    assert any("No rule was read for your place" in str(note) for note in found.advice.notes)
    assert not any("No rule was read" in str(note) for note in answer("road").advice.notes)


def test_widths_come_back_in_feet_as_the_law_has_them():
    def said(**typed):
        found = search.answer(worksheets.load("road"), typed, ask="width")
        return leading.lead(found, "us")

    assert "9 ft" in said(place="WI", tractor_width="9 ft")
    ridden = said(place="CO", behind_kind="carried", transport_width="9 ft")
    assert "9 ft is more than 8.5 ft" in ridden


def test_hours_that_the_law_takes_away_are_said_while_lamps_are_open():
    ban = "not from sunset to sunrise"
    dark = search.answer(worksheets.load("road"), {"place": "NJ", "hours": "dark"})
    assert dark.finding == model.UNKNOWN and ban in leading.lead(dark, "us")
    day = search.answer(worksheets.load("road"), {"place": "NJ", "hours": "day"})
    assert ban not in leading.lead(day, "us")


def test_the_law_is_shown_with_citation_year_and_confidence():
    tables = answer("road", place="KS").advice.tables
    [table] = [each for each in tables if str(each.title).startswith("What was read")]
    assert any("K.S.A. 8-1717, undated copy, confidence high" in row[1] for row in table.rows)
    assert "not legal advice" in table.note


@pytest.mark.parametrize("place", ["OH", "UK", "WI", "NY", "EU"])
def test_numbers_in_the_drawing_are_those_of_the_lists(place):
    v = inputs("road", place=place, behind_kind="trailed", transport_width="16 ft")
    found = rl.situation(v)
    names = view.numbers(v, found)
    rows = [
        row
        for unit in ("tractor", "towed")
        if (table := road_tables.checklist(v, found, unit))
        for row in table.rows
    ]
    assert [row[0] for row in rows] == [str(i + 1) for i in range(len(rows))]
    assert len(rows) == len(names) == rl.item_count(v, found)
    drawn = {
        item.text.strip()
        for item in view.rear(v, found).items
        if isinstance(item, Label) and isinstance(item.text, str)
    }
    assert drawn <= {str(i) for i in names.values()}
    for (unit, item), number in names.items():
        if (unit, item) in (("tractor", "tail_lamps"), ("towed", "rear_reflectors")):
            assert str(number) in drawn


@settings(max_examples=30)
@given(
    st.sampled_from(PLACES),
    st.sampled_from(["none", "mounted", "trailed", "trailer", "carried"]),
    st.floats(0.6, 5.5),
    st.floats(0.2, 8.0),
    st.floats(0.2, 4.0),
)
def test_labels_of_the_rear_view_never_overlap(place, kind, width, behind, top):
    v = inputs("road", place=place, behind_kind=kind).but(
        transport_width=width, behind_hitch=behind, implement_top=top
    )
    found = rl.situation(v)
    scene = view.rear(v, found)
    points = [p for item in scene.items if isinstance(item, (Line, Shape)) for p in item.points]
    points += [item.center for item in scene.items if isinstance(item, Disc)]
    assert all(math.isfinite(x) and math.isfinite(y) for x, y in points)
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    tall = max(y for _, y in points) - min(y for _, y in points)
    scale = min(380 / wide, 520 / tall)
    for anchor in ("start", "end"):
        heights = sorted(
            item.at[1] for item in scene.items if isinstance(item, Label) and item.anchor == anchor
        )
        gaps = [b - a for a, b in itertools.pairwise(heights)]
        assert all(gap * scale > 12 for gap in gaps)


def test_side_view_says_whether_the_lamps_are_hidden():
    found = answer("road")
    assert isinstance(found.pictures[1], Scene)
    assert "hides" in found.pictures[1].description.template
    assert "can be seen" in answer("road", see_through="open").pictures[1].description.template


def test_place_names_are_accepted_as_written():
    assert inputs("road", place="United States: Ohio").place == "OH"
    assert road_rules.has_own_rules("OH")
    assert not road_rules.has_own_rules("OTHER")


def test_a_limit_in_feet_is_met_by_the_same_length_in_inches():
    # 48 x 0.0254 and 4 x 0.3048 differ in the last digit.
    assert check(answer("road", place="MO", emblem_height="48 in"), "emblem_height").margin_low == 0


def test_a_check_that_applies_only_in_part_of_the_box_is_not_over_everywhere():
    # A tractor of unknown year may or may not fall under the federal rule.
    typed = {"place": "TX", "turn_signals": "1", "behind_kind": "none"}
    assert check(answer("road", **typed, tractor_made=""), "turn_signals").finding == model.UNKNOWN
    newer = answer("road", **typed, tractor_made="2019")
    assert check(newer, "turn_signals").finding == model.OVER
    blank = answer("road", **{item.name: "" for item in worksheets.load("road").fields})
    assert blank.finding == model.UNKNOWN


def test_the_standard_is_worth_a_remedy_though_nothing_is_broken():
    typed = {"place": "TX", "amber_flashers": "0", "see_through": "open", "hours": "day"}
    typed["tractor_made"] = "1965"
    found = answer("road", **typed)
    assert found.finding == model.CLOSE
    assert not broken(found)
    tried = dict(typed)
    for remedy in found.advice.remedies:
        tried |= remedy.set
    assert answer("road", **tried).finding == model.WITHIN


def test_a_mounted_implement_is_no_unit_of_the_combination():
    def emblem_behind(**typed):
        return rl.situation(inputs("road", see_through="open", **typed)).emblem_behind

    assert emblem_behind(place="NY") is None
    assert emblem_behind(place="NY", behind_kind="trailed") is not None
    assert emblem_behind(place="TX", implement_made="2021") is None
    assert emblem_behind(place="TX", implement_made="2021", behind_kind="trailer")[2] == "standard"


def test_lamps_far_inside_a_wide_tractor_are_only_a_matter_of_the_standard_when_it_is_old():
    wide = {"place": "TX", "behind_kind": "none", "tractor_width": "13 ft"}
    old = answer("road", **wide)
    assert check(old, "amber_flashers_edge_standard").finding == model.CLOSE
    remedy = next(r for r in old.advice.remedies if "lamp_spread" in r.set)
    after = answer("road", **wide, **remedy.set)
    assert check(after, "amber_flashers_edge_standard").finding == model.WITHIN


def test_the_limit_of_speed_is_named_in_the_list():
    table = next(t for t in answer("road", place="UK").advice.tables if t.title == "Before you go")
    limits = [row[0] for row in table.rows if not isinstance(row[0], str)]
    assert limits[0].numbers["limit"][0] == pytest.approx(25 * 0.44704)


@pytest.mark.parametrize(
    ("given", "item"),
    [
        ({"place": "SD", "amber_flashers": "0", "behind_kind": "trailed"}, "amber_flashers"),
        ({"place": "OH", "tail_lamps": "0", "behind_kind": "mounted"}, "tail_lamps"),
    ],
)
def test_lamps_where_there_were_none_show_over_what_is_behind(given, item):
    """At a usual height they would be hidden: so they are offered with the height that shows."""
    sheet = worksheets.load("road")
    given = {**given, "hours": "dark", "emblem": "yes", "implement_top": "60 in"}
    answer = search.answer(sheet, given)
    (offered,) = [r for r in answer.advice.remedies if list(r.set)[:1] == [item]]
    assert "up, where they show over what is behind" in model.words(offered.text, "us")
    tried = search.answer(sheet, {**given, **offered.set})
    found = {v.check.name: v.finding for v in tried.verdicts}
    seen = {"amber_flashers": "amber_seen", "tail_lamps": "tail_seen"}[item]
    assert found[item] == model.WITHIN
    assert found[seen] != model.OVER


@pytest.mark.parametrize(
    ("sign", "finding", "said"),
    [
        ("", model.UNKNOWN, "Yes, with a speed sign beside it: yours is built for 30 mph"),
        ("no", model.OVER, "Yes, with a speed sign beside it, which is missing"),
    ],
)
def test_the_emblem_of_a_fast_machine_comes_with_its_sign(sign, finding, said):
    """Ohio: above 25 mph the emblem goes with a speed sign."""
    given = {
        **{"place": "OH", "top_speed": "30 mph", "road_speed": "30 mph"},
        **{"emblem": "yes", "emblem_height": "4 ft", "speed_symbol": sign},
    }
    answer = search.answer(worksheets.load("road"), given, ask="emblem")
    assert answer.finding == finding
    assert leading.lead(answer, "us").startswith(said)


def test_what_the_standard_would_have_is_no_advice_on_the_width():
    answer = search.answer(worksheets.load("road"), {"place": "NJ", "hours": "dark"}, ask="width")
    assert "worth fitting" not in reply(answer)
    lights = search.answer(worksheets.load("road"), {"place": "NJ", "hours": "dark"})
    assert lights.finding != model.WITHIN
