"""Replies: what each kind holds, and how long it may be."""

import json
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import links, model, search, worksheets
from calc.model import check_text, leading, sentences
from calc.render import parts
from calc.render.asking_back import ask_back, wanted
from calc.render.live import respond
from calc.render.reply import reply, reply_html
from calc.render.text_message import EXAMPLE_MARK, SHORT, fits_short, short

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


def listed(lines, title):
    """The lines of a list of a plain reply."""
    starts = [at for at, line in enumerate(lines) if line.startswith(title) and line[-1] == ":"]
    if not starts:
        return []
    rest = lines[starts[0] + 1 :]
    return rest[: next((n for n, line in enumerate(rest) if not line.startswith("- ")), len(rest))]


def test_plain_text_starts_with_the_answer_and_ends_with_link_and_sender(answer):
    lines = reply(answer, link=LINK, sender="Example Yard · 555-0142").split("\n")
    assert lines[0] == leading.lead(answer, "us")
    assert f"{answer.worksheet.title}: " not in lines[0]
    assert sum(line.startswith("Take care: ") for line in lines) == 1
    assert lines[-2:] == [LINK, "Example Yard · 555-0142"]


def test_an_example_says_that_it_is_one(answer):
    assert "This is an example, not your machine: " in reply(answer)
    assert "This is an example" in reply_html(answer)
    assert EXAMPLE_MARK in short(answer)
    own = blank(answer.worksheet.name)
    assert "example" not in reply(own) and EXAMPLE_MARK not in short(own)


def test_all_that_is_broken_is_told_under_the_heading_of_the_state_found(answer):
    lines = reply(answer).split("\n")
    for verdict in answer.verdicts:
        if verdict.finding != model.OVER:
            continue
        heading = verdict.check.heading(model.OVER)
        value = check_text.value_text(verdict, "us")
        said = [*listed(lines, "Also found"), lines[0]]
        sentence = check_text.check_sentence(verdict, "us").rstrip(".")
        assert any(heading in line or value in line or sentence in line for line in said), heading


@pytest.mark.parametrize("name", NAMES)
def test_what_could_not_be_checked_is_told_with_where_to_read_it(name):
    answer = blank(name)
    open_ = [u for u in answer.unchecked if u.governs]
    if answer.ask.checks:
        open_ = [u for u in open_ if u.name in answer.ask.checks]
    said = reply(answer)
    lines = listed(said.split("\n"), "Not checked")
    settling = answer.settle.field.name if answer.settle else ""
    for item in open_:
        help_text = answer.worksheet.field(item.field).help
        line = next(line for line in lines if item.title in line)
        assert (help_text in line) == (item.field != settling)  # what would settle it stands above
        assert help_text in said


@pytest.mark.parametrize("name", NAMES)
def test_what_to_do_mends_all_of_it_or_says_what_it_leaves(name):
    """Put in together or one for another, nothing that a remedy is for goes untold."""
    sheet = worksheets.load(name)
    answer = search.answer(sheet, {}, example=True)
    broken = {
        v.check.name
        for v in answer.verdicts
        if v.finding == model.OVER and v.check.grade != model.ADVICE
    }
    if not broken or not any(remedy.mends for remedy in answer.advice.remedies):
        return
    lines = listed(reply(answer).split("\n"), "What to do")
    if any(remedy.whole for remedy in answer.advice.remedies):
        wholes = [model.words(r.text, "us") for r in answer.advice.remedies if r.whole]
        assert all(any(line[2:].startswith(text) for text in wholes) for line in lines)
        return
    said = [r for r in answer.advice.remedies if any(model.words(r.text, "us") in x for x in lines)]
    left = broken - {name for remedy in said for name in remedy.mends}
    for check in left:
        assert "Nothing here mends" in lines[-1]
        assert answer.verdict(check).check.heading(model.OVER) in lines[-1]


def told(name, ask="", **given):
    return reply(search.answer(worksheets.load(name), given, ask=ask)).splitlines()


def test_what_nobody_looked_at_is_not_said_to_be_broken():
    """What is broken is mended first; for what isn't known, a remedy says so."""
    given = {"charging": "dynamo", "output": "15 A", "work_count": "4", "work_lamp": "halogen-55"}
    given["flash_lamp"] = "led-turn"  # what they flash with, nobody looked at
    todo = listed(told("lamp-wiring", "carry", **given), "What to do")
    assert todo[0].endswith("Mends load in the field and load on the road.")
    assert todo[1].startswith("- An electronic flasher")
    assert todo[1].endswith("Unless in order already: flasher for LED lamps.")


def test_what_waits_for_one_number_is_one_line():
    lines = told("closing", "caught", maneuver="left", entrance_sight="600 ft", car_speed="55 mph")
    (line,) = listed(lines, "Not checked")
    assert line.startswith("- Traffic sees you in time to slow behind you and traffic sees you in")
    assert line.count("is blank") == 1


def test_what_is_open_besides_the_question_is_one_line():
    lines = told("driveline", "joints", pto_power="45 hp", series="na4")
    (line,) = listed(lines, "Not checked")
    assert line.startswith("- Besides what was asked: ") and line.endswith(" more.")
    lines = told("closing", "pull", maneuver="left", entrance_sight="600 ft", car_speed="55 mph")
    (line,) = listed(lines, "Not checked")
    assert line.startswith("- Besides what was asked: ") and " more" not in line


def test_given_and_usual_are_told_apart():
    sheet = worksheets.load("lawn")
    said = reply(search.answer(sheet, {"tool": "core", "head_depth": "0.6 in"})).split("\n")
    gave = next(line for line in said if line.startswith("You gave: "))
    usual = next(line for line in said if line.startswith("Nobody gave these"))
    assert "Top of the sprinkler heads below the soil: 0.6 in" in gave and "tire" not in gave
    assert "Front tire pressure" in usual and "sprinkler heads" not in usual


def test_the_machines_are_named_where_they_have_names(answer):
    about = "Tractor: <b>Old</b> one. Implement: 60 in cutter."
    assert reply(answer, about=about).split("\n")[1] == about
    rich = Words(reply_html(answer, about=about))
    assert about in "".join(rich.words) and "b" not in rich.tags


def test_rich_text_says_what_plain_text_says(answer):
    rich = Words(reply_html(answer, link=LINK, sender="Example Yard"))
    told = "".join("".join(rich.words).split())
    for line in reply(answer, sender="Example Yard").split("\n"):
        assert "".join(line.removeprefix("- ").split()) in told
    assert rich.links == [LINK]
    assert rich.tags <= {"div", "p", "ul", "li", "strong", "a"}


def test_rich_text_runs_nothing():
    answer = search.answer(worksheets.load("pairing"), {}, example=True)
    hostile = '"><script>alert(1)</script>'
    rich = Words(reply_html(answer, link=f"https://e.example/#{hostile}", sender=hostile))
    assert "script" not in rich.tags
    assert rich.links == [f"https://e.example/#{hostile}"]


@pytest.mark.parametrize("name", NAMES)
def test_short_text_starts_with_the_answer_and_names_the_shop(name):
    answer = search.answer(worksheets.load(name), {}, example=True)
    said = short(answer, link="https://e.example/p/", sender="Example Yard · 555-0142")
    first = leading.lead(answer, "us").translate({0x2019: "'", 0x201C: '"'})
    assert said.isascii()
    assert said[:30] == first.encode("ascii", "replace").decode()[:30] or "?" in first
    assert said.endswith(" Example Yard https://e.example/p/") and "555" not in said
    assert reply(answer, sender="Example Yard · 1").endswith("Example Yard · 1")
    assert "Example Yard" in reply_html(answer, sender="Example Yard · 1")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_short_text_is_always_short_and_plain(name, system):
    for answer in (search.answer(worksheets.load(name), {}, system, example=True), blank(name)):
        for length in (0, 20, 120, 200, 250, 280, 300, 310, 319, 320, 5000):
            link = "https://e.example/#".ljust(length, "x") if length else ""
            said = short(answer, system, link, "Example Yard")
            assert len(said) < SHORT
            assert said.isascii(), said
            fits = fits_short(answer, link, "Example Yard")
            assert fits == (length < 250) or 250 <= length < 320
            assert (link in said) if fits else ("too long for a message" in said)
            assert "Example Yard" in said


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
@settings(max_examples=25, deadline=None)
def test_short_text_of_any_pairing(length, typed):
    answer = search.answer(worksheets.load("pairing"), typed, example=True)
    said = short(answer, link="https://e.example/#".ljust(length, "y"))
    assert 0 < len(said) < SHORT and said.isascii()


def test_an_unknown_says_what_to_find_out():
    said = short(search.answer(worksheets.load("resale"), {"as_is_price": "$14,000"}))
    assert said.startswith("It depends: ") and "Find out first: " in said
    assert "“Kind of implement”" in sentences.missing_sentence(
        [worksheets.load("pairing").field("implement_kind")]
    )


def test_trap_a_list_that_is_cut_is_not_taken_for_the_whole():
    """Cutting “an emblem, red lamps and reflectors” to “an emblem.” would be a false answer."""
    from calc.render.text_message import _cut

    whole = "Missing: an emblem, red tail lamps and red reflectors at the rear; a lamp, a horn."
    for form in _cut(whole):
        assert form.endswith("...") and whole.startswith(form[:-3])


# --- ask back -----------------------------------------------------------------------------------


def test_nothing_is_asked_back_when_it_is_settled():
    answer = search.answer(worksheets.load("lawn"), {}, example=True)
    assert answer.finding == model.WITHIN and ask_back(answer) == ""


def test_ask_back_names_the_few_numbers_where_to_read_them_and_links_to_just_those():
    sheet = worksheets.load("lawn")
    answer = search.answer(sheet, {"tool": "core"}, ask="flags")
    page = "https://yard.example/lawn/lawn-implements/"
    said = ask_back(answer, "us", f"{page}#v=2&ask=flags&tool=core", "Example Yard · 555")
    fields = wanted(answer)
    assert 1 <= len(fields) <= 3
    for item in fields:
        assert item.label.rstrip("?") in said and item.help in said
    lines = said.split("\n")
    assert lines[0].startswith("Must I flag the sprinkler heads? ")
    assert lines[-1] == "Example Yard · 555"
    address, _, fragment = lines[-2].partition("here: ")[2].partition("#")
    read = links.read(fragment)
    assert address == page and read.ask == "flags" and read.inputs == {"tool": "core"}
    assert list(read.wanted) == [item.name for item in fields]


def test_ask_back_asks_first_for_what_is_needed_and_for_governing_numbers():
    needed = blank("pairing")
    if needed.missing:
        assert wanted(needed)[0] is needed.missing[0]
    money = search.answer(worksheets.load("resale"), {}, ask="worth")
    assert [item.name for item in wanted(money)] == ["like_new_price", "age", "hour_meter"]


@pytest.mark.parametrize("name", NAMES)
def test_filling_in_what_was_asked_back_opens_the_same_question(name):
    answer = blank(name)
    said = ask_back(answer, "us", "https://yard.example/p/")
    assert bool(said) == bool(wanted(answer))
    if answer.finding == model.UNKNOWN and (answer.settles or answer.missing):
        assert "https://yard.example/p/#v=" in said and "wanted=" in said


# --- parts --------------------------------------------------------------------------------------


@pytest.fixture
def shelf():
    yield parts.stock
    parts.stock([])


WEIGHTS = {
    "for": ["lawn.flag"],
    "number": "F-100",
    "name": "bundle of wire flags",
    "price": "$9",
    "stock": "in stock",
}


def test_a_part_stands_with_the_remedy_it_is_for_and_nowhere_else(shelf):
    answer = search.answer(worksheets.load("lawn"), {"tool": "core", "sprinklers": "yes"})
    line = "Part F-100, bundle of wire flags: $9, in stock."
    assert line not in reply(answer)
    shelf([WEIGHTS])
    said = reply(answer).split("\n")
    assert [line in text for text in said].count(True) == 1
    assert line in next(text for text in said if text.startswith("- Flag every head"))
    assert line in "".join(Words(reply_html(answer)).words)
    shelf([{**WEIGHTS, "for": "flag"}])
    assert line in reply(answer)
    shelf([{**WEIGHTS, "for": "pairing.flag"}])
    assert line not in reply(answer)


@pytest.mark.parametrize(
    "bad", [None, 7, "x", [7], [{}], [{"for": 7}], [{"for": [7]}], {"for": "a"}]
)
def test_what_is_no_part_is_left_out(shelf, bad):
    shelf(bad)
    answer = search.answer(worksheets.load("lawn"), {"tool": "core", "sprinklers": "yes"})
    assert "Part " not in reply(answer)


def test_a_price_without_a_number_and_a_number_without_a_price(shelf):
    assert parts.read({"for": "a", "price": "$9"}).sentence() == "$9."
    assert parts.read({"for": "a", "number": "7"}).sentence() == "Part 7."
    assert parts.read({"for": "a", "name": "sleeve", "stock": "2 left"}).sentence() == (
        "Sleeve: 2 left."
    )


def test_the_browser_sends_the_parts_with_its_question(shelf):
    asked = {
        "worksheet": "lawn",
        "inputs": {"tool": "core", "sprinklers": "yes"},
        "parts": [WEIGHTS],
    }
    for part, stage in (("html", "full"), ("reply", "replies")):
        with_parts = json.loads(respond(json.dumps({**asked, "stage": stage})))
        assert "Part F-100" in with_parts[part]
        without = json.loads(respond(json.dumps({**asked, "stage": stage, "parts": None})))
        assert "Part F-100" not in without[part]


def _asked(stage, **more):
    return json.loads(respond(json.dumps({"worksheet": "pairing", "stage": stage, **more})))


def test_the_browser_gets_every_kind_of_reply_when_it_asks_for_them():
    sent = _asked("replies", example=True, link=LINK, sender="Example Yard")
    assert "ask_back" in sent and "html" not in sent
    assert sent["reply"].endswith(f"{LINK}\nExample Yard")
    assert LINK in sent["reply_html"].replace("&amp;", "&")
    assert sent["short"].endswith(f"Example Yard {LINK}")
    assert sent["short_has_link"] is True
    for stage in ("exact", "full"):
        shown = _asked(stage, example=True)
        assert not {"reply", "reply_html", "short", "ask_back"} & set(shown), stage


def test_the_whole_answer_says_whether_there_is_something_to_ask_back():
    open_ = {"inputs": {"implement_kind": "rotary_cutter", "tractor_mass": "2000 lb"}}
    assert _asked("full", **open_)["asks_back"] is True
    assert _asked("replies", **open_)["ask_back"]
    assert _asked("full", example=True)["asks_back"] is False
    assert _asked("replies", example=True)["ask_back"] == ""


def test_a_first_look_says_how_it_stands_and_no_more():
    first = _asked("exact", inputs={"implement_kind": "rotary_cutter", "tractor_mass": "2000 lb"})
    assert not first["final"] and first["lead"] and first["sight"]
    assert "ys-passing" in first["html"] and first["html"].startswith('<div class="ys-finding"')
    assert "ys-depth" not in first["html"] and "ys-remedies" not in first["html"]


def test_of_money_only_what_was_asked_about_is_open():
    sheet = worksheets.load("resale")
    typed = {"new_price": "$25,000", "loan_months": "60 months"}
    said = reply(search.answer(sheet, typed, ask="payments"))
    assert "Chance that the repair pays" not in said
    assert "Monthly payments: not checked while" in said
    repair = reply(search.answer(sheet, {"new_price": "$25,000"}, ask="repair"))
    assert "Not settled either" in repair
    assert "Added price on average" in repair


def test_payments_say_nothing_of_a_machine_that_nobody_has_to_sell():
    sheet = worksheets.load("resale")
    typed = {"new_price": "$25,000", "loan_months": "60 months", "loan_rate": "6.9 %"}
    found = search.answer(sheet, {**typed, "sales_tax": "6 %"}, ask="payments")
    said = leading.lead(found, "us")
    # 26,500 at 0.575 % a month over 60 months
    assert said.startswith("About $523 a month for 60 months with nothing traded in")
    assert said.count("$") == 1


def test_tax_is_a_word_that_a_caution_may_share():
    given = {"trade_offer": "$9,000", "new_price": "$28,000", "sales_tax": "7 %"}
    lines = told("resale", "tax", **given, tax_rule="difference")
    assert any(line.startswith("Take care: Tax rules") for line in lines)


def test_nobody_is_asked_back_how_hard_a_tractor_brakes():
    given = {
        "tractor_mass": "4,200 lb",
        "towed_mass": "3,000 lb",
        "trailer_brakes": "none",
        "road_speed": "15 mph",
        "grade": "0 %",
        "room": "105 ft",
        "tractor_kind": "utility",
        "surface": "dry_pavement",
    }
    answer = search.answer(worksheets.load("road-towing"), given, ask="stops")
    assert {"own_deceleration", "reaction_time"} & {item.field.name for item in answer.settles}
    asked = ask_back(answer)
    assert "Braking of the tractor" not in asked and "Time until you brake" not in asked
    assert {item.name for item in wanted(answer)}.isdisjoint({"own_deceleration", "reaction_time"})
