"""Messages as people write them, and what is found in them."""

from pathlib import Path

import pytest

from calc import reading, tables, worksheets
from calc.machines import demo
from calc.reading import asked, given, taking
from calc.reading.words import mended, slips, stem
from scripts import score_messages, sections
from tests.reading.questions import only

DATA = Path(__file__).parents[1] / "data"
FIRST = (
    "got a 1650 lb tractor 20 pto hp, want to pull a 5 ft bush cutter, balance point maybe 3 ft "
    "back, some hills"
)


def test_learned_messages_stay_read():
    total = score_messages.score(DATA / "messages_learn.csv")
    assert total.right >= 50 * total.wrong and total.right >= 0.95 * (total.right + total.missed)
    assert total.questions_wrong <= 1 and total.questions_missed <= 3


def test_both_files_are_whole():
    learn, kept = ((DATA / f"messages_{name}.csv").read_text() for name in ("learn", "kept"))
    assert len(learn.splitlines()) == 121 and len(kept.splitlines()) == 81
    assert not set(learn.splitlines()[1:]) & set(kept.splitlines())


def test_each_field_is_linked_to_its_words():
    question = only(FIRST)
    assert question.worksheet == "pairing"
    words = {f.name: " ".join(FIRST[a:b] for a, b in f.spans) for f in question.filled}
    assert words == {
        "tractor_mass": "1650 lb",
        "pto_power": "20 pto hp",
        "working_width": "5 ft",
        "implement_kind": "bush cutter",
        "cg_distance": "3 ft",
    }
    assert question.inputs["cg_distance"] == "about 3 ft"
    assert all(each.why for each in question.filled)


def test_a_mass_is_of_the_noun_beside_it():
    given = only("Will my 2600 lb tractor lift a 610 lb flail mower?").inputs
    assert given["tractor_mass"] == "2600 lb" and given["implement_mass"] == "610 lb"


def test_what_is_lifted_is_no_capacity():
    given = only("can my 2600 lb tractor lift a 560 lb 5 ft or 6 ft bush cutter?").inputs
    assert given["implement_mass"] == "560 lb" and "lift_capacity" not in given
    assert "lift_capacity" not in only("can it lift a 700 lb thing with a tiller?").inputs


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (
            "do I need a category 2 quick hitch bushing set for cat 1 implements",
            {"hitch_category": "2", "implement_category": "1"},
        ),
        (
            "my generator is 20kw pto, have 38 hp pto will it run",
            {"generator_rating": "20 kW", "pto_power": "38 hp"},
        ),
        (
            "my loader is rated at 900 lb, what do I need on the back",
            {"loader_rating": "900 lb"},
        ),
        ("slope of my lawn is 15 degrees can i mow it", {"slope": "15 deg"}),
        (
            "trade offer 8500 on my old one, new one is 24000, tax 7%",
            {"trade_offer": "$8500", "new_price": "$24000", "sales_tax": "7 %"},
        ),
        (
            "front suitcase weights 6 of 42 lb, do i need more for a 900 lb tiller",
            {"front_ballast": "252 lb", "implement_mass": "900 lb"},
        ),
        (
            "can i pull a 2 bottom plow 14 in with 35 pto hp",
            {"implement_kind": "plow", "working_width": "28 in"},
        ),
        (
            "backhoe removed, 1500 lb on forks, what counterweight do I need",
            {"loader_payload": "1500 lb", "implement_kind": None},
        ),
        (
            "how much weight do i need on back to lift 1000 lb with the loader",
            {"loader_payload": "1000 lb", "lift_capacity": None},
        ),
        (
            "is a 6' box blade too much for a 2,200 lb machine w/ 24 pto hp?",
            {"tractor_mass": "2,200 lb", "implement_mass": None},
        ),
        ("7x16 front and 12.4x24 rear, what is my lead", {"front_pressure": None}),
        ("is cat 1 or cat 2 what i need for 45 pto hp", {"hitch_category": None}),
        ("trailer brakes needed for a 7000 lb wagon?", {"trailer_brakes": None}),
        (
            "what lights for my 2015 tractor on the road after dark in Ohio",
            {"tractor_made": "2015", "place": "OH"},
        ),
        (
            "2 head lights and 2 work lamps 35w, 20 amp dynamo, enough?",
            {"head_count": "2", "work_count": "2", "output": "20 A"},
        ),
        (
            "car doing 65 comes over a hill 500 ft away when i go 18 mph, enough time?",
            {"sight_distance": "500 ft", "road_speed": "18 mph", "car_speed": "65 mph"},
        ),
        (
            "cross the tracks with a 45 ft rig at 5 mph, train goes 60",
            {"combination_length": "45 ft", "crossing_speed": "5 mph", "train_speed": "60 mph"},
        ),
        ("what gauge wire for 2 lights at 12 feet", {"work_count": "2", "run": "12 ft"}),
        ("what fuse for 4 led light bars 120 watts", {"work_lamp": "led-120", "work_count": "4"}),
        (
            "2 head lights and 2 work lamps 35w, 20 amp dynamo, enough?",
            {"work_lamp": "halogen-35", "head_lamp": None},
        ),
        ("will 4 led lights of 41 watts hurt my 20 amp dynamo", {"work_lamp": None}),
        (
            "chipper says 20-50 hp, mine is 24 at pto",
            {"power_needed": "20 to 50 hp", "pto_power": "24 hp"},
        ),
        (
            "will my hitch pick up a 1,000 lb bale, lift says 1250 lb @ ball ends",
            {"lift_capacity": "1250 lb", "lift_rated_at": "0", "implement_mass": "1,000 lb"},
        ),
        (
            "4 work lights 3 amps each 16 feet from battery, fuse and wire?",
            {"fuse": None, "work_count": "4"},
        ),
        (
            "mower sticks out 3 ft left of the tractor on the road in Indiana",
            {"transport_width": None, "tractor_width": None, "place": "IN"},
        ),
        (
            "my arms spread 26 to 33 inches, pins 1-1/8, will it fit",
            {"implement_span": None, "lower_pin": "1-1/8 in"},
        ),
        (
            "6 ft back blade, will it hurt a subcompact with 18 pto hp",
            {"working_width": "6 ft", "cg_distance": None},
        ),
        (
            "9500 lb backhoe trailer behind my tractor, surge brakes, hills 6%, will it stop",
            {"towed_mass": "9500 lb", "trailer_brakes": "own"},
        ),
        (
            "trailer tongue 600 lb, drawbar rated 1100, will it stop",
            {"tongue_weight": "600 lb", "drawbar_limit": "1100 lb", "towed_mass": None},
        ),
        ("sprinkler heads 1 in below, core aerator goes 3 in", {"tool_depth": "3 in"}),
        (
            "loader lifts 1700 lb to full height, what ballast box weight do I need",
            {"loader_rating": "1700 lb", "loader_payload": None},
        ),
        ("cab with ac, will ac take 5 hp?", {"engine_power": None}),
        (
            "monthly on $31,000, 4.99% 84 months",
            {"new_price": "$31,000", "loan_rate": "4.99 %", "loan_months": "84 months"},
        ),
        (
            "sidewall says max load 2910 lb at 30 psi, what will it carry",
            {"rated_load": "2910 lb", "rated_pressure": "30 psi"},
        ),
    ],
)
def test_a_number_goes_where_its_words_say(text, wanted):
    given = only(text).inputs
    assert {name: given.get(name) for name in wanted} == wanted
    amounts = {"implement_mass", "lawn_area", "lift_capacity"} - set(wanted)
    assert not amounts & set(given)


def test_misspelled():
    given = only("can a 24hp tracter run a 4 foot tiler").inputs
    assert given["implement_kind"] == "rotary_tiller" and given["working_width"] == "4 ft"


@pytest.mark.parametrize(
    ("text", "worksheet"),
    [
        ("12 ft wide", "road"),
        ("does my triangle have to come off", "road"),
        ("front feels light with the loader full", "ballast"),
        ("48 in shaft how much overlap", "driveline"),
        ("PTO shaft hits the drawbar when i raise it", "driveline"),
        ("front tires 23x8.5-12 rear 33x12.5-15 is the lead right", "tires"),
        ("540 pto generator 20 kw on a 45 hp tractor?", "pto"),
        ("whats the biggest box blade for 38 pto hp", "pairing"),
        ("hill is 20%, can I go across with the loader bucket full", "pairing"),
        ("tractor does 28 mph, do I need the speed sticker", "road"),
    ],
)
def test_asked_at_the_counter(text, worksheet):
    assert only(text).worksheet == worksheet


def test_two_questions_in_the_order_asked():
    found = reading.read("Can my tractor lift a 500 lb tiller? And what lights do I need at night?")
    assert [q.worksheet for q in found.questions] == ["ballast", "road"]


def test_one_of_two_is_asked_not_guessed():
    question = only("5' or 6' bush cutter on 22 pto hp, will my tractor run it?")
    assert "working_width" not in question.inputs
    options = [option for each in question.unclear for option in each.options]
    assert options == [("working_width", "5 ft"), ("working_width", "6 ft")]


def test_a_word_for_two_kinds_is_asked():
    question = only("will my 25 hp tractor run a 6 ft blade?")
    assert "implement_kind" not in question.inputs
    assert {("implement_kind", "rear_blade"), ("implement_kind", "box_blade")} <= set(
        question.unclear[0].options
    )


def test_numbers_of_other_things_fill_nothing():
    question = only("call me at 555 0142. will a 6 ft finish mower run on 35 pto hp?")
    assert question.inputs.keys() == {"pto_power", "implement_kind", "working_width"}


def test_nothing_of_ours():
    found = reading.read("do you have seat covers in stock? open saturday?")
    assert found.questions == ()


def test_an_amount_that_no_question_takes_is_shown():
    text = "what lights do I need on the road with 3 gal of paint"
    found = reading.read(text)
    assert [text[a:b] for a, b in found.lost] == ["3 gal"]


def test_a_machine_of_the_list_fills_its_fields():
    tractor = demo("tractor")[0]
    question = only(f"Will my {tractor.name} run a 4 ft tiller?", machines=[tractor])
    assert question.inputs["tractor_mass"] == tractor.inputs["tractor_mass"]


@pytest.mark.parametrize(
    "text", ["", "?", "1 " * 2000, "x" * 5000, "5 ft cutter " * 300, "-/\"'#$"]
)
def test_anything_can_be_read(text):
    reading.data(reading.read(text))


def test_slips():
    assert slips("tiler", "tiller", 1) == 1 and slips("dark", "bark", 0) == 1
    assert mended(stem("tracter")) == stem("tractor")
    assert mended("floor") == "floor"


def test_words_that_are_right_are_taken_for_no_others():
    """What the lexicon grows by may lie a slip from a common word, which the table then needs."""
    path = Path(__file__).parents[1] / "data" / "right_words.txt"
    common = [stem(word) for word in path.read_text(encoding="utf-8").split()]
    assert len(common) > 500
    assert [word for word in common if mended(word) != word] == []


def test_every_worksheet_can_be_asked_for():
    assert {p.worksheet for p in asked.patterns()} == set(worksheets.names())


def test_the_patterns_name_asks_that_there_are():
    """Of the asks that a pattern names, its worksheet has one, once it has any."""
    for pattern in asked.patterns():
        own = {ask.key for ask in worksheets.load(pattern.worksheet).asks}
        if own and pattern.asks:
            assert own & set(pattern.asks), pattern


def test_a_pattern_leads_to_its_ask():
    assert only("Is it worth fixing the dents before I sell?").ask == "repair"
    assert only("does this 20 A fuse protect the wire?").ask == "fuse"


def test_the_tables_name_fields_that_there_are():
    names = {item.name for name in worksheets.names() for item in worksheets.load(name).fields}
    said = {name for rows in given.cues().values() for cue in rows for name in cue.fields}
    said |= {row["sense"] for row in tables.rows("words/lexicon")} - given.NOT_FIELDS
    assert said <= names


def test_the_lexicon_names_options_that_there_are():
    fields = [item for name in worksheets.names() for item in worksheets.load(name).fields]
    for row in tables.rows("words/lexicon"):
        if row["sense"] not in given.NOT_FIELDS:
            choices = [f for f in fields if f.name == row["sense"] and hasattr(f, "options")]
            values = {option.value for choice in choices for option in choice.options}
            counts = [f for f in fields if f.name == row["sense"] and not hasattr(f, "options")]
            read = any(taking.takes(f, row["value"], "us") for f in counts)  # "no taillights"
            assert row["value"] in values or read, row


def test_a_section_of_figures_leaves_the_others(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("# Top\n\n## One\n\nold\n\n## Two\n\nkept\n")
    sections.put(page, "## One", "## One\n\nnew\n")
    sections.put(page, "## Three", "## Three\n\nlast")
    assert page.read_text() == "# Top\n\n## One\n\nnew\n\n## Two\n\nkept\n\n## Three\n\nlast\n"


@pytest.mark.parametrize(
    ("text", "worksheet", "wanted"),
    [
        ("traffic does 55, can I pull out left? see 600 ft", "closing", {"car_speed": "55 mph"}),
        ("pulling out with traffic at 55, I can see 500 ft", "closing", {"car_speed": "55 mph"}),
        (
            "what would 28500 be a month for 60 months",
            "resale",
            {"new_price": "$28500", "loan_months": "60 months"},
        ),
        (
            "payments on a 35000 tractor, 72 months",
            "resale",
            {"new_price": "$35000", "loan_months": "72 months"},
        ),
        ("my LED blinkers flash too fast", "lamp-wiring", {"flash_lamp": "led-turn"}),
        (
            "how many acres an hour with a 6 ft mower at 5 mph",
            "lawn",
            {"working_width": "6 ft", "ground_speed": "5 mph"},
        ),
        ("cutter is 5 ft, lane is 10 ft wide: too wide for the road?", "road", {}),
    ],
)
def test_what_the_question_is_about_takes_its_numbers(text, worksheet, wanted):
    found = only(text)
    assert found.worksheet == worksheet
    assert {name: found.inputs.get(name) for name in wanted} == wanted


def test_what_one_pays_a_month_is_no_price():
    found = only("what are payments on it? I can do 450 a month")
    assert "new_price" not in found.inputs


def test_a_road_is_as_wide_as_no_machine():
    text = "my cutter is 5 ft and the road is 20 ft wide, is it too wide for the road?"
    message = reading.read(text)
    (found,) = message.questions
    assert "20 ft" not in found.inputs.values()
    assert [text[start:end] for start, end in message.lost] == ["20 ft"]
    lane = only("cutter is 5 ft, the lane is 10 ft wide: too wide for the road?")
    assert lane.inputs["lane_width"] == "10 ft"
