"""The questions that a shop keeps, and the page that is made of them."""

import json
import re

from calc import worksheets
from calc.machines import lists
from calc.model import leading
from calc.render import brief, index, live, round_up
from scripts import _setup, shop

EXAMPLE = _setup.ROOT / "scripts" / "example-shop"
HEAD = "question,worksheet,ask,inputs,note\n"


def test_a_row_becomes_an_answer():
    text = f"{HEAD}Will it lift?,ballast,,implement_mass=480+lb&lift_capacity=900+lb,Ask us.\n"
    (kept,), problems = round_up.read(text, "round_up.csv")
    assert problems == () and kept.inputs["lift_capacity"] == "900 lb"
    html = round_up.block([kept], lambda page: f"{page}/")
    assert "Will it lift?" in html and "Ask us." in html and "Hitch lift capacity: 900 lb" in html
    assert 'href="lift/lift-and-ballast/#v=2&amp;implement_mass=480+lb' in html


def test_bad_rows_are_named_and_left_out():
    rows = "Q?,no-such,,,\nQ?,ballast,,no_such=1,\nQ?,ballast,nobody,,\n,ballast,,,\n"
    kept, problems = round_up.read(HEAD + rows, "round_up.csv")
    assert kept == ()
    assert [problem.partition(",")[2].split(":")[0].split(",")[0] for problem in problems] == [
        " line 2",
        " line 3",
        " line 4",
        " line 5",
    ]


def test_a_file_without_the_columns_is_refused():
    assert round_up.read("a,b\n1,2\n", "round_up.csv")[1]


def test_no_markup_of_a_note_reaches_the_page():
    text = f"{HEAD}<b>Q?</b>,ballast,,,<script>x</script>\n"
    (kept,), _ = round_up.read(text, "round_up.csv")
    html = round_up.block([kept], str)
    assert "<script>" not in html and "<b>Q" not in html


def test_the_example_shop_has_one_and_the_box_finds_it():
    kept = shop.read(EXAMPLE).round_up
    assert len(kept) == 2 and shop.read(EXAMPLE).problems == ()
    assert kept[0].question in {entry.text for entry in index.entries(kept)}
    # It opens in its own place, where the shop's note stands; a calculator's entry stays one's own.
    found = [entry for entry in index.entries(kept) if entry.kept]
    page = round_up.block(kept, str)
    assert [entry.text for entry in found] == [each.question for each in kept]
    assert all(entry.page == "round-up" and f'id="{entry.fragment}"' in page for entry in found)


def test_a_site_without_one_says_so():
    html = round_up.block((), str)
    assert "No shop" in html and round_up.INTRO.split(":")[0] not in html
    assert 'href="messages"' in html and "about/your-own-machines" in html


def two(first: str, second: str) -> str:
    kept, problems = round_up.read(f"{HEAD}{first}\n{second}\n", "round_up.csv")
    assert problems == ()
    return round_up.block(kept, lambda page: f"{page}/")


def test_two_questions_of_one_calculator_share_no_id():
    html = two("Will it lift?,ballast,,lift_capacity=900+lb,", "Will it lift?,ballast,,,")
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids)) > 8
    for name in re.findall(r' for="([^"]+)"', html):
        assert name in ids


def test_a_form_holds_what_was_given_and_nothing_of_the_example():
    html = two("A?,ballast,,lift_capacity=900+lb&wheelbase=62+in,", "B?,ballast,,,")
    first, second = html.split("</section>")[:2]
    filled = dict(re.findall(r'name="(\w+)" type="text" value="([^"]+)"', first))
    assert filled == {"lift_capacity": "900 lb", "wheelbase": "62 in"}
    assert "data-example" not in first and "data-example" in second
    assert len(re.findall(r'name="(\w+)" type="text" value="([^"]+)"', second)) > 1


def test_a_link_says_whose_numbers_it_has_where_a_page_holds_two(monkeypatch):
    assert "&amp;on=" not in two("A?,tires,,,", "B?,ballast,,,")
    monkeypatch.setattr(worksheets, "on_page", lambda page: ("ballast", "tires"))
    first, second = two("A?,tires,,,", "B?,ballast,,,").split("</section>")[:2]
    assert "on=tires" in first and 'data-sheet="tires"' in first
    assert "on=ballast" in second and 'data-sheet="ballast"' in second


def test_what_the_page_says_live_is_what_the_build_wrote():
    (kept, _), _ = round_up.read(
        f"{HEAD}A?,ballast,,lift_capacity=900+lb,\nB?,ballast,,,\n", "round_up.csv"
    )
    asked = {"worksheet": "ballast", "inputs": kept.inputs, "stage": "full", "entry": "q-a"}
    answer = json.loads(live.respond(json.dumps(asked)))
    assert answer["html"] in round_up.block([kept], str)
    assert "reply" not in answer and " id=" not in answer["html"]


def test_a_question_that_looks_like_a_formula_comes_back_as_it_was():
    header = "question,worksheet,ask,inputs,note"
    text = f"{header}\n'=1+1 and then?,tires,,,'-2 in is low\n"
    [kept], problems = round_up.read(text, "a.csv")
    assert (kept.question, kept.note, problems) == ("=1+1 and then?", "-2 in is low", ())
    for cell in ("=1", "+1", "-1", "@a", "\t1", "'=1", "'", "plain", ""):
        assert not lists.as_text(cell).startswith(lists.FORMULA)
    for cell in ("=1", "+1", "-1", "@a", "plain", "'tis"):
        assert lists.from_text(lists.as_text(cell)) == cell


def test_an_outline_has_the_answer_its_number_what_for_and_what_to_show():
    text = f"{HEAD}A?,ballast,,lift_capacity=900+lb&implement_mass=480+lb,\n"
    (kept,), _ = round_up.read(text, "round_up.csv")
    lead, number, given, show = brief.outline(kept.answer, kept.inputs)
    assert lead == leading.lead(kept.answer, "us")
    assert re.search(r"\d", number) and number != lead
    assert given == "For: Hitch lift capacity: 900 lb; Implement mass: 480 lb."
    settling = kept.answer.settles[0].field
    assert kept.answer.finding == "unknown" and show.startswith(f"Show: {settling.label}")
    asked = {"worksheet": "ballast", "inputs": kept.inputs, "stage": "full", "entry": "1"}
    said = json.loads(live.respond(json.dumps(asked)))["outline"]
    assert said == [lead, number, given, show]
    assert brief.outline(kept.answer, {})[2].startswith("An example")


def test_the_number_behind_an_answer_is_the_one_that_was_asked_for():
    inputs = "lift_capacity=1400+lb&lift_rated_at=610&implement_mass=560+lb&tractor_mass=2600+lb"
    (kept,), _ = round_up.read(f"{HEAD}A?,ballast,lift,{inputs},\n", "round_up.csv")
    assert kept.answer.ask.checks == ("lift",)
    assert brief.behind(kept.answer)[0].check.name == "lift"
    assert "560 lb" in brief.outline(kept.answer, kept.inputs)[1]


def test_a_check_that_cannot_be_told_yet_is_no_number_behind_an_answer():
    (kept,), _ = round_up.read(f"{HEAD}A?,road,,place=OH,\n", "round_up.csv")
    assert kept.answer.finding == "unknown"
    assert all(re.search(r"\d", text) for text in brief.outline(kept.answer, kept.inputs)[1:-2])
