"""Replies: what each kind holds, and how long it may be."""

import json
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.model import sentences
from calc.render.live import respond
from calc.render.reply import LEAST_CAUTION, SHORT, reply, reply_html, short

NAMES = worksheets.names()
LINK = "https://yard.example/pairing/#tractor_mass=2%2C000+lb"


@pytest.fixture(scope="module", params=NAMES)
def answer(request):
    return search.answer(worksheets.load(request.param), {}, example=True)


def blank(name):
    sheet = worksheets.load(name)
    return search.answer(sheet, {item.name: "" for item in sheet.fields})


class Words(HTMLParser):
    """Collects the words of some HTML, and its links."""

    def __init__(self, content):
        super().__init__()
        self.words, self.links, self.tags = [], [], set()
        self.feed(content)

    def handle_data(self, data):
        self.words.append(data)

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.links += [value for name, value in attrs if name == "href"]


def test_plain_text_has_finding_reason_two_numbers_remedy_caution_link_and_sender(answer):
    lines = reply(answer, link=LINK, sender="Example Yard · 555-0142").split("\n")
    assert model.FINDING_WORDS[answer.finding].lower() in lines[0]
    if sentences.lead(answer, "us"):
        assert lines[1] == sentences.lead(answer, "us")
    assert sum(line.startswith("- ") for line in lines) == 2
    assert sum(line.startswith("What would help: ") for line in lines) == bool(
        answer.advice.remedies
    )
    assert sum(line.startswith("Take care: ") for line in lines) == 1
    assert lines[-2:] == [LINK, "Example Yard · 555-0142"]


def test_the_machines_are_named_first_where_they_have_names(answer):
    about = "Tractor: <b>Old</b> one. Implement: 60 in cutter."
    assert reply(answer, about=about).startswith(f"{about}\n{answer.worksheet.title}: ")
    rich = Words(reply_html(answer, about=about))
    assert "".join(rich.words).startswith(about) and "b" not in rich.tags


def test_rich_text_says_what_plain_text_says(answer):
    rich = Words(reply_html(answer, link=LINK, sender="Example Yard"))
    plain = reply(answer, sender="Example Yard").replace("\n- ", " ").replace("\n", " ")
    assert (
        " ".join("".join(rich.words).split())
        .replace(" ", "")
        .startswith(plain.split(" Take care")[0].replace(" ", "")[:80])
    )
    assert rich.links == [LINK]
    assert rich.tags <= {"div", "p", "ul", "li", "strong", "a"}


def test_rich_text_runs_nothing():
    answer = search.answer(worksheets.load("pairing"), {}, example=True)
    hostile = '"><script>alert(1)</script>'
    rich = Words(reply_html(answer, link=f"https://e.example/#{hostile}", sender=hostile))
    assert "script" not in rich.tags
    assert rich.links == [f"https://e.example/#{hostile}"]


@pytest.mark.parametrize("name", NAMES)
def test_short_text_keeps_its_parts_while_there_is_room(name):
    answer = search.answer(worksheets.load(name), {}, example=True)
    said = short(answer, link="https://e.example/p/")
    assert said.startswith(f"{model.FINDING_WORDS[answer.finding]}. ".replace("’", "'"))
    assert said.endswith(" https://e.example/p/")
    caution = answer.advice.cautions[0].text.split(".")[0][:12]
    assert LEAST_CAUTION in said or caution.replace("’", "'") in said
    assert sum(letter.isdigit() for letter in said) >= 2


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_short_text_is_always_short_and_plain(name, system):
    for answer in (search.answer(worksheets.load(name), {}, system, example=True), blank(name)):
        for length in (0, 20, 60, 120, 200, 250, 280, 300, 310, 319, 320, 500, 5000):
            link = "https://e.example/#".ljust(length, "x") if length else ""
            said = short(answer, system, link)
            assert len(said) < SHORT
            assert said.isascii(), said
            fits = length < SHORT - 2 - len(model.FINDING_WORDS[answer.finding])
            assert (link in said) if fits else ("too long for a message" in said)


@given(
    st.integers(20, 400),
    st.fixed_dictionaries(
        {
            "tractor_mass": st.sampled_from(["", "900 lb", "1,650 lb", "3,000 to 4,000 lb"]),
            "working_width": st.sampled_from(["", "42 in", "60 in", "72 in"]),
            "implement_mass": st.sampled_from(["", "300 lb", "about 900 lb"]),
            "pto_power": st.sampled_from(["", "12 hp", "40 hp"]),
        }
    ),
)
@settings(max_examples=40, deadline=None)
def test_short_text_of_any_pairing(length, typed):
    answer = search.answer(worksheets.load("pairing"), typed, example=True)
    said = short(answer, link="https://e.example/#".ljust(length, "y"))
    assert len(said) < SHORT and said.startswith(model.FINDING_WORDS[answer.finding])


def test_an_unknown_says_what_to_find_out():
    said = short(search.answer(worksheets.load("pairing"), {"implement_kind": "rotary_cutter"}))
    assert said.startswith("Can't tell yet.") and "Find out first: " in said
    assert "kind of implement first" in short(blank("pairing"))


def test_trap_a_list_that_is_cut_is_not_taken_for_the_whole():
    """Cutting “an emblem, red lamps and reflectors” to “an emblem.” would be a false answer."""
    sheet = worksheets.load("road")
    answer = search.answer(sheet, {}, example=True)
    whole = sentences.headline(answer, "us")
    listed = whole.partition(", ")[0]
    assert listed != whole, "the example has a list in its headline"
    cut = 0
    for length in range(20, 319):
        said = short(answer, link="https://e.example/#".ljust(length, "z"))
        if whole.rstrip(".") not in said and listed in said:
            cut += 1
            assert f"{listed}." not in said or f"{listed}..." in said
    assert cut, "some link leaves room for a part of the list alone"


def test_the_browser_gets_every_kind_with_the_whole_answer_alone():
    asked = {
        "worksheet": "pairing",
        "inputs": {},
        "example": True,
        "link": LINK,
        "sender": "Example Yard",
    }
    whole = json.loads(respond(json.dumps({**asked, "stage": "full"})))
    assert whole["reply"].endswith(f"{LINK}\nExample Yard")
    assert LINK in whole["reply_html"].replace("&amp;", "&") and whole["short"].endswith(LINK)
    assert whole["short_has_link"] is True
    first = json.loads(respond(json.dumps({**asked, "stage": "exact"})))
    assert not first["final"] and "reply" not in first and "short" not in first
