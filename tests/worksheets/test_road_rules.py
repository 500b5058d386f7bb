"""What is asked of a machine on the road, in the words of the counter."""

import pytest

from calc import model, search, worksheets
from calc.errors import InputError
from calc.model import leading
from calc.render import reply
from tests.worksheets.asking import findings

SHEET = worksheets.load("road")


def ask(key="", **typed):
    return search.answer(SHEET, typed, ask=key)


def example(**typed):
    return search.answer(SHEET, {"behind_kind": "none", **typed}, example=True)


def lead(found):
    return leading.lead(found, "us")


def test_where_no_rule_was_read_the_pattern_stands_in_for_the_emblem():
    found = ask(place="TN", behind_kind="none", emblem="no")
    assert found.finding == model.OVER
    assert findings(found)["emblem"] == model.OVER
    assert "no good emblem" in lead(found)
    first = found.advice.remedies[0]
    assert first.set["emblem"] == "yes"
    assert "emblem" in first.mends
    again = ask(place="TN", behind_kind="none", **first.set)
    assert findings(again)["emblem"] == model.WITHIN


@pytest.mark.parametrize(
    ("top", "driven", "answer"),
    [("18 mph", "18 mph", "No"), ("25 mph", "20 mph", "No"), ("26 mph", "20 mph", "Yes")],
)
def test_the_speed_sign_is_needed_or_not(top, driven, answer):
    found = ask("symbol", place="OH", top_speed=top, road_speed=driven, speed_symbol="no")
    assert lead(found).startswith(answer)
    assert (found.finding == model.OVER) is (answer == "Yes")


def test_a_sign_states_the_speed_that_is_kept():
    typed = {"place": "OH", "top_speed": "30 mph", "speed_symbol": "yes", "symbol_speed": "27 mph"}
    assert ask("symbol", **typed, road_speed="28 mph").finding == model.OVER
    assert lead(ask("symbol", **typed, road_speed="26 mph")).startswith("Yes, and it is there")


def test_a_machine_travels_no_faster_than_it_can():
    with pytest.raises(InputError, match="top speed"):
        ask(place="OH", top_speed="18 mph", road_speed="25 mph")


def test_an_emblem_counts_when_all_of_it_is_seen():
    # Its lower edge at 30 in, its point at 44: what is 34 in high covers the lower part alone.
    typed = {"behind_kind": "mounted", "behind_hitch": "3 ft", "see_through": "solid"}
    typed |= {"transport_width": "4 ft", "emblem_height": "30 in", "implement_bottom": "10 in"}
    marked = {"implement_marking": "reflectors", "place": "IL"}
    low = example(**typed, **marked, implement_top="26 in")
    high = example(**typed, **marked, implement_top="36 in")
    assert "an emblem" not in str(low.verdicts)
    assert findings(high)["behind"] == model.OVER


def test_a_bucket_in_front_of_the_head_lamps():
    found = example(place="OH", bucket="front")
    assert findings(found)["head_lamps_seen"] == model.OVER
    assert any(remedy.set.get("bucket") == "none" for remedy in found.advice.remedies)
    assert "head_lamps_seen" not in findings(example(place="OH", bucket="front", hours="day"))


def test_stop_lamps_where_the_law_asks_for_them():
    assert findings(example(place="UK", stop_lamps="0"))["stop_lamps"] == model.OVER
    assert "stop_lamps" not in findings(example(place="ME", stop_lamps="0"))


@pytest.mark.parametrize("kind", ["carried", "trailer"])
def test_a_load_keeps_its_width_limit_wherever_it_rides(kind):
    typed = {"place": "TN", "implement_marking": "full", "behind_kind": kind}
    over = example(**typed, transport_width="103 in")
    assert findings(over)["carried"] == model.OVER
    assert findings(example(**typed, transport_width="102 in"))["carried"] != model.OVER


def test_hazard_lamps_by_day_belong_to_the_pattern():
    typed = {"place": "TN", "hours": "day", "amber_flashers": "0"}
    assert findings(example(**typed, tractor_made="1970"))["amber_flashers"] == model.OVER
    assert "amber_flashers" not in findings(example(**typed, tractor_made="1969"))


@pytest.mark.parametrize("place", ["OH", "TN", "WY", "NV", "ID", "KS", "UK"])
def test_what_is_there_is_never_listed_as_missing(place):
    plenty = dict.fromkeys(("head_lamps", "tail_lamps", "amber_flashers", "stop_lamps"), "4")
    plenty |= {"turn_signals": "2", "rear_reflectors": "4"}
    found = example(place=place, emblem="no", **plenty)
    said = lead(found).partition("Missing or wrong:")[2]
    assert "too few" not in said
    bare = example(place=place, **dict.fromkeys(plenty, "0"))
    # What a sentence hasn't room for, the reply lists.
    missing = reply.reply(bare).partition("Missing or wrong:")[2].partition("What to do")[0]
    for verdict in bare.verdicts:
        if verdict.finding == model.OVER and verdict.check.sense == "at least":
            assert verdict.check.broken.lower() in missing.lower()


def test_all_that_is_missing_can_be_tried_at_once():
    typed = {"place": "KS", "tail_lamps": "0", "head_lamps": "0", "rear_reflectors": "0"}
    found = example(**typed)
    whole = [remedy for remedy in found.advice.remedies if remedy.whole]
    assert whole
    assert example(**{**typed, **whole[0].set}).finding != model.OVER


def test_depth_and_years_of_what_was_read_are_said():
    notes = [model.words(note, "us") for note in example(place="WY").advice.notes]
    assert any("Read of Wyoming" in note and "2022" in note for note in notes)


def test_width_is_answered_without_an_emblem():
    typed = {"behind_kind": "mounted", "transport_width": "110 in", "offset_left": "0 in"}
    found = ask("width", place="PA", tractor_width="60 in", hours="day", **typed)
    assert found.finding == model.WITHIN
    wide = ask(
        "width",
        place="NY",
        tractor_width="60 in",
        hours="dark",
        behind_kind="trailed",
        transport_width="13 ft",
        offset_left="0 in",
    )
    assert "daylight only" in lead(wide)


@pytest.mark.parametrize(
    ("place", "top", "driven", "start"),
    [
        # Wis. Stat. 347.245 (2019), "usually travels": less than 25 mph; MCA 61-9-415 alike
        ("WI", "24 mph", "24 mph", "Yes, and it is missing: yours, built for 24 mph"),
        ("WI", "25 mph", "25 mph", "Not by the law here, which says less than 25 mph"),
        ("WI", "30 mph", "24 mph", "Yes, and it is missing: yours, built for 30 mph"),
        ("WI", "26 mph", "26 mph", "Not by the law here, which says less than 25 mph; by the st"),
        ("MT", "25 mph", "25 mph", "Not by the law here, which says less than 25 mph"),
        ("MT", "24.9 mph", "24.9 mph", "Yes, and it is missing"),
        # 205 IAC 1-3-1, "ordinarily"; W.S. 31-5-921 and Tex. Transp. Code 547.001(7), "designed
        # for": 25 mph or less
        ("IN", "25 mph", "25 mph", "Yes, and it is missing: yours, built for 25 mph"),
        ("IN", "26 mph", "26 mph", "Not by the law here, which says 25 mph or less"),
        ("TX", "26 mph", "20 mph", "Not by the law here, which says 25 mph or less"),
        ("TX", "25 mph", "20 mph", "Yes, and it is missing"),
        ("WY", "25 mph", "20 mph", "Yes, and it is missing"),
        (
            "WY",
            "26 mph",
            "20 mph",
            "No: it is for machines of 25 mph or less, and yours is built for 26",
        ),
        # 625 ILCS 5/12-709 (2012): every farm tractor; ORC 4513.112: with the sign to 40 mph
        ("IL", "30 mph", "28 mph", "Yes, and it is missing"),
        ("OH", "39 mph", "28 mph", "Yes, and it is missing"),
        ("OH", "40 mph", "28 mph", "No: it is for machines"),
        ("TN", "26 mph", "26 mph", "By the standard yes, with a speed sign"),
        ("TN", "25 mph", "25 mph", "Yes, and it is missing"),
        ("UK", "20 mph", "20 mph", "No: the rules read for this place know no such emblem"),
        ("CANADA", "20 mph", "20 mph", "By the standard yes: no law was read"),
    ],
)
def test_the_emblem_is_asked_for_by_the_law_or_by_the_standard(place, top, driven, start):
    typed = {"top_speed": top, "road_speed": driven, "behind_kind": "none"}
    found = ask("emblem", place=place, emblem="no", amber_flashers="0", **typed)
    assert lead(found).startswith(start)


@pytest.mark.parametrize(("lit", "start"), [("2", "Not with a flashing"), ("0", "Yes, and it is")])
def test_an_amber_light_is_said_to_stand_in_for_the_emblem(lit, start):
    typed = {"top_speed": "20 mph", "behind_kind": "none", "emblem": "no"}
    assert lead(ask("emblem", place="ND", amber_flashers=lit, **typed)).startswith(start)
    unsaid = lead(ask("emblem", place="ND", **typed))
    assert unsaid.startswith("Yes, or a flashing amber light instead: machines for 25 mph or less")


def test_whether_the_emblem_is_there_is_asked_in_the_words_of_the_law():
    typed = {"top_speed": "20 mph", "road_speed": "18 mph", "behind_kind": "none"}
    assert "for less than 25 mph show it. Is yours" in lead(ask("emblem", place="WI", **typed))
    assert "for 25 mph or less show it. Is yours" in lead(ask("emblem", place="IN", **typed))
    typed |= {"emblem": "yes", "emblem_height": "42 in"}
    assert lead(ask("emblem", place="IN", **typed)).endswith("and yours is there.")


@pytest.mark.parametrize(
    ("place", "top", "start"),
    [
        # MT: less than 25 mph; AL: 25 mph or less.
        ("MT", "24.5 mph", "Yes: machines for less than 25 mph show it."),
        ("MT", "25 mph", "It depends on how fast it is used"),
        # NE: machinery built for less than 25 mph, however fast it is driven.
        ("NE", "24.5 mph", "Yes: machines for less than 25 mph show it."),
        ("NE", "25 mph", "Not by the law here, which says less than 25 mph"),
        ("AL", "25 mph", "Yes: machines for 25 mph or less show it."),
    ],
)
def test_a_machine_built_for_just_the_speed_of_the_law(place, top, start):
    assert lead(ask("emblem", place=place, top_speed=top)).startswith(start)
