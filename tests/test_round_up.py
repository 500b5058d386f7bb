"""The questions that a shop keeps, and the page that is made of them."""

from calc.machines import lists
from calc.render import index, round_up
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


def test_a_site_without_one_says_so():
    assert "no round-up" in round_up.block((), str)


def test_a_question_that_looks_like_a_formula_comes_back_as_it_was():
    header = "question,worksheet,ask,inputs,note"
    text = f"{header}\n'=1+1 and then?,tires,,,'-2 in is low\n"
    [kept], problems = round_up.read(text, "a.csv")
    assert (kept.question, kept.note, problems) == ("=1+1 and then?", "-2 in is low", ())
    for cell in ("=1", "+1", "-1", "@a", "\t1", "'=1", "'", "plain", ""):
        assert not lists.as_text(cell).startswith(lists.FORMULA)
    for cell in ("=1", "+1", "-1", "@a", "plain", "'tis"):
        assert lists.from_text(lists.as_text(cell)) == cell
