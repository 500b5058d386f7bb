"""The worksheets of road travel: what the road asks for, closing, railroad, wiring, towing."""

import itertools
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, sources, tables, worksheets
from calc.errors import InputError
from calc.mechanics import lamps, sight
from calc.model.pictures import Disc, Label, Line, Scene, Shape
from calc.render.answer import answer_html
from calc.subjects import road_list as rl
from calc.worksheets.road import view

NAMES = ("road", "closing", "rail-crossing", "lamp-wiring", "road-towing")
PLACES = [row["place"] for row in tables.rows("road/road_places")]


def answer(sheet, **typed):
    return search.answer(worksheets.load(sheet), typed, example=True)


def check(found, name):
    return next((v for v in found.verdicts if v.check.name == name), None)


def broken(found):
    return {v.check.name for v in found.verdicts if v.margin_low < 0}


def wanting(found):
    """What is broken, and what is only asked for by the standard."""
    return broken(found) | {
        v.check.name for v in found.verdicts if v.check.sense == "fits" and not v.margin_low
    }


def output(found, name):
    return next(o for o in found.outputs if o.name == name).value


def inputs(sheet, **typed):
    box = search.read_box(worksheets.load(sheet), typed, example=True)
    return box.point({})


# --- all of them -----------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_a_blank_form_still_answers(name):
    sheet = worksheets.load(name)
    found = search.answer(sheet, {item.name: "" for item in sheet.fields})
    assert found.finding in (model.UNKNOWN, model.OVER)
    assert found.assumed
    if found.finding == model.UNKNOWN:
        assert found.settle is not None or found.missing
    assert answer_html(found, "us") and answer_html(found, "metric")


@pytest.mark.parametrize("name", NAMES)
def test_every_citation_of_the_default_answer_is_on_a_shelf(name):
    found = answer(name)
    cited = [v.check.source for v in found.verdicts] + [s.source for s in found.working]
    cited += [r.source for r in found.advice.remedies] + [c.source for c in found.advice.cautions]
    cited += [t.source for t in found.advice.tables]
    for citation in "; ".join(filter(None, cited)).split(";"):
        sources.find(citation)
    assert found.advice.cautions


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("bad", ["-5 ft", "lots", "1e99", "<script>", "nan", "12 to 3 kg", "0/0"])
def test_bad_input_gets_a_sentence(name, bad):
    sheet = worksheets.load(name)
    for item in sheet.fields:
        if item.name == "offset_left" and bad == "-5 ft":
            continue  # an offset to the right is typed as a negative length
        with pytest.raises(InputError) as caught:
            search.answer(sheet, {item.name: bad}, example=True)
        assert str(caught.value).strip().endswith(".")


CASES = [
    ("road", {}),
    ("road", {"place": "MO"}),
    ("road", {"place": "CA", "emblem_height": "70 in", "behind_kind": "none"}),
    ("road", {"place": "PA", "top_speed": "30 mph", "behind_kind": "none"}),
    ("road", {"place": "KS", "amber_flashers": "0", "head_lamps": "0", "behind_kind": "none"}),
    ("road", {"place": "NY", "transport_width": "13 ft", "implement_marking": "full"}),
    ("road", {"place": "NY", "transport_width": "18 ft", "implement_marking": "full"}),
    (
        "road",
        {
            "place": "OH",
            "behind_kind": "carried",
            "transport_width": "9 ft",
            "implement_marking": "full",
        },
    ),
    (
        "road",
        {
            "place": "UK",
            "transport_width": "2.9 m",
            "road_speed": "24 mph",
            "implement_marking": "full",
            "top_speed": "24 mph",
        },
    ),
    (
        "road",
        {
            "place": "UK",
            "transport_width": "4.5 m",
            "implement_marking": "full",
            "tail_height": "1.2 m",
        },
    ),
    ("road", {"place": "UK", "behind_kind": "none", "tail_height": "1.6 m"}),
    (
        "road",
        {
            "place": "NE",
            "transport_width": "100 in",
            "implement_top": "90 in",
            "implement_marking": "full",
        },
    ),
    (
        "road",
        {
            "place": "NE",
            "transport_width": "100 in",
            "implement_top": "90 in",
            "implement_marking": "full",
            "mirror_reach": "40 in",
        },
    ),
    ("road", {"place": "CANADA-AB", "behind_kind": "none"}),
    ("road", {"place": "IL", "emblem": "no", "implement_marking": "full"}),
    ("road", {"place": "UK", "behind_kind": "none", "tractor_width": "2.2 m"}),
    (
        "road",
        {"place": "TX", "behind_kind": "none", "tractor_width": "13 ft", "tractor_made": "2020"},
    ),
    ("road", {"behind_kind": "trailed", "rated_speed": "10 mph", "implement_marking": "full"}),
    ("closing", {}),
    ("closing", {"sight_distance": "200 ft", "maneuver": "along"}),
    ("closing", {"sight_distance": "450 ft", "maneuver": "left", "entrance_sight": "300 ft"}),
    ("closing", {"maneuver": "right", "entrance_sight": "200 ft"}),
    ("closing", {"sight_distance": "500 ft", "grade": "-8 %"}),
    ("rail-crossing", {}),
    ("rail-crossing", {"signals": "flashing", "combination_length": "60 ft"}),
]


@pytest.mark.parametrize(("name", "typed"), CASES)
def test_every_broken_check_has_a_remedy_that_meets_it(name, typed):
    found = answer(name, **typed)
    before = broken(found)
    assert before
    met = set()
    for remedy in found.advice.remedies:
        if remedy.set:
            met |= before - broken(answer(name, **{**typed, **remedy.set}))
    assert met == before


@pytest.mark.parametrize(("name", "typed"), CASES)
def test_no_remedy_is_idle(name, typed):
    found = answer(name, **typed)
    before = wanting(found)
    for remedy in found.advice.remedies:
        if remedy.set:
            assert before - wanting(answer(name, **{**typed, **remedy.set})), remedy


# --- what the road asks for ------------------------------------------------------------------


def test_default_example_hides_its_lamps():
    found = answer("road")
    assert found.finding == model.OVER
    assert found.deciding.check.name == "behind"
    assert check(found, "tail_seen").finding == model.OVER
    assert check(found, "amber_seen").finding == model.WITHIN
    assert "an emblem" in found.deciding.check.sentence
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
    # Texas: no lamp law of its own was read; the flashers are asked for by the standard only.
    found = answer("road", place="TX", amber_flashers="0", behind_kind="none")
    assert check(found, "amber_flashers") is None
    assert check(found, "amber_flashers_standard").finding == model.CLOSE
    # For a tractor made under the federal rule its maker owed them.
    newer = answer("road", place="TX", amber_flashers="0", behind_kind="none", tractor_made="2019")
    assert check(newer, "amber_flashers").finding == model.OVER
    lawn = answer(
        "road", place="TX", amber_flashers="0", behind_kind="none", tractor_made="2019", use="lawn"
    )
    assert check(lawn, "amber_flashers") is None


def test_one_tail_lamp_in_ohio_needs_two_reflectors():
    one = answer("road", tail_lamps="1", rear_reflectors="0", behind_kind="none")
    assert check(one, "rear_reflectors").finding == model.OVER
    two = answer("road", tail_lamps="2", rear_reflectors="0", behind_kind="none")
    assert check(two, "rear_reflectors") is None


def test_emblem_comes_off_above_its_speed_where_the_law_says_so():
    fast = {"top_speed": "35 mph", "behind_kind": "none", "place": "CO"}
    assert check(answer("road", **fast, road_speed="30 mph"), "emblem").finding == model.OVER
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
    found = answer("road", place="ID")
    assert any("No rule of Idaho" in str(note) for note in found.advice.notes)
    assert not any("No rule of" in str(note) for note in answer("road").advice.notes)


def test_the_law_is_shown_with_citation_year_and_confidence():
    table = answer("road", place="KS").advice.tables[-1]
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
        if (table := rl.checklist(v, found, unit))
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


# --- closing ---------------------------------------------------------------------------------


def test_closing_numbers_are_those_of_the_mechanics():
    found = answer("closing", grade="0 %", spare_gap="0 ft")
    assert output(found, "gap") == pytest.approx(sight.slow_down_gap(55 * 0.44704, 18 * 0.44704))
    assert output(found, "stopping") == pytest.approx(sight.stopping_sight_distance(55 * 0.44704))
    assert output(found, "closing_time") == pytest.approx(600 * 0.3048 / (37 * 0.44704))


def test_pulling_out_is_checked_by_what_is_done():
    assert check(answer("closing", maneuver="along"), "clear") is None
    assert check(answer("closing", maneuver="right"), "clear") is None
    assert check(answer("closing", maneuver="right"), "join") is not None
    assert check(answer("closing", maneuver="left"), "join") is not None
    left, cross = (answer("closing", maneuver=m) for m in ("left", "cross"))
    assert output(left, "clear_time") < output(cross, "clear_time")


@given(st.floats(5, 30), st.floats(1, 11))
def test_more_speed_difference_never_helps(car, own):
    sheet = worksheets.load("closing")
    v = inputs("closing").but(car_speed=car, road_speed=own)
    silent = model.Work(on=False)
    now = sheet.compute(v, silent).check("slow").margin
    faster = sheet.compute(v.but(car_speed=car + 1), silent).check("slow").margin
    assert faster <= now + 1e-12


def test_the_joining_gap_is_what_a_simulation_finds():
    # Step by step: the car reacts, brakes, and the smallest distance is compared.
    for car, own, start in ((55, 18, 0.45), (45, 25, 0.3), (65, 10, 0.6), (35, 30, 0.2)):
        v, top, dt = car * 0.44704, own * 0.44704, 0.001
        brake = sight.BRAKING_DECELERATION
        x_car = x_own = worst = 0.0
        for step in range(200_000):
            t = step * dt
            speed = max(v - brake * max(t - 2.5, 0.0), top if t > top / start else 0.0)
            mine = min(start * t, top)
            x_car += speed * dt
            x_own += mine * dt
            worst = max(worst, x_car - x_own)
            if t > 2.5 and speed <= mine:
                break
        found = sight.joining_gap(v, top, start)
        assert found == pytest.approx(worst, abs=0.2)


def test_contact_is_drawn_when_the_driver_sees_too_late():
    found = answer("closing", sight_distance="150 ft", maneuver="along")
    labels = [item.text for item in found.pictures[0].items if isinstance(item, Label)]
    assert any("contact" in label.template for label in labels)
    slower = answer("closing", car_speed="15 mph", maneuver="along")
    assert len(slower.pictures) == 1  # nothing closes, so no timeline


def test_range_of_speeds_is_searched():
    found = answer("closing", car_speed="45 to 65 mph", maneuver="along")
    assert found.searched > 1
    assert check(found, "stop").finding == model.UNKNOWN
    assert found.settle.field.name == "car_speed"


# --- railroad --------------------------------------------------------------------------------


def test_signals_give_as_little_as_20_seconds():
    found = answer("rail-crossing", signals="flashing", combination_length="60 ft")
    assert output(found, "time") == pytest.approx(18.6, abs=0.05)
    assert check(found, "signals").finding in (model.WITHIN, model.CLOSE)
    assert check(answer("rail-crossing"), "signals") is None


def test_place_names_are_accepted_as_written():
    assert inputs("road", place="United States: Ohio").place == "OH"
    assert lamps.has_own_rules("OH")
    assert not lamps.has_own_rules("ID")


def test_a_limit_in_feet_is_met_by_the_same_length_in_inches():
    # 48 x 0.0254 and 4 x 0.3048 differ in the last digit.
    assert check(answer("road", place="MO", emblem_height="48 in"), "emblem_height").margin_low == 0


def test_a_check_that_applies_only_in_part_of_the_box_is_not_over_everywhere():
    # A tractor of unknown year may or may not fall under the federal rule.
    found = answer("road", place="TX", tractor_made="", amber_flashers="1", behind_kind="none")
    assert check(found, "amber_flashers").finding == model.UNKNOWN
    newer = answer("road", place="TX", tractor_made="2019", amber_flashers="1", behind_kind="none")
    assert check(newer, "amber_flashers").finding == model.OVER
    blank = answer("road", **{item.name: "" for item in worksheets.load("road").fields})
    assert blank.finding == model.UNKNOWN


def test_the_standard_is_worth_a_remedy_though_nothing_is_broken():
    typed = {"place": "TX", "amber_flashers": "0", "see_through": "open", "hours": "day"}
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
