"""Messages in which a word near a number decides whose it is, or which question is asked."""

from __future__ import annotations

import pytest

from calc import reading


def first(message: str) -> tuple[str, str, dict[str, str]]:
    question = reading.data(reading.read(message))["questions"][0]
    filled = {each["name"]: each["text"] for each in question["filled"]}
    return question["worksheet"], question["ask"], filled


@pytest.mark.parametrize(
    ("message", "worksheet", "ask", "filled"),
    [
        (
            "my 3,400 lb compact, can I cross a 13 degree side slope with the loader down?",
            "pairing",
            "across",
            {"tractor_mass": "3,400 lb", "cross_slope": "13 deg"},
        ),
        (
            "is an 11 degree bank too steep for my subcompact?",
            "pairing",
            "across",
            {"tractor_kind": "subcompact", "cross_slope": "11 deg"},
        ),
        # What is mowed is the lawn page's, and what is pulled is the trailer's.
        ("is an 11 degree bank too steep to mow", "lawn", "slope", {"slope": "11 deg"}),
        (
            "is a 14 % hill too steep to pull a 4000 lb trailer down",
            "road-towing",
            "stops",
            {"grade": "-14 %", "towed_mass": "4000 lb"},
        ),
        (
            "2800 lb tractor, wheels 54 inches apart, how steep a side hill can I go across",
            "pairing",
            "across",
            {"tractor_mass": "2800 lb", "track_width": "54 in"},
        ),
        (
            "my pto shaft is 40 inches closed 58 open, how much overlap do I need",
            "driveline",
            "leave",
            {"closed_length": "40 in"},
        ),
        ("chain size for a 6500 lb wagon", "road-towing", "chain", {"towed_mass": "6500 lb"}),
        (
            "car coming at 45 mph, I do 12, how long before he is on me",
            "closing",
            "caught",
            {"car_speed": "45 mph", "road_speed": "12 mph"},
        ),
        (
            "repair costs 1800, worth 7000 as is and 10000 fixed",
            "resale",
            "repair",
            {"parts": "$1800", "as_is_price": "$7000", "uplift_likely": "$3000"},
        ),
        (
            "what shear bolt for my digger half inch grade 8 ok?",
            "digger",
            "bolt",
            {"bolt_size": "1/2", "bolt_grade": "grade_8"},
        ),
    ],
)
def test_a_word_decides(message: str, worksheet: str, ask: str, filled: dict[str, str]) -> None:
    assert first(message) == (worksheet, ask, filled)


def test_pins_that_stand_apart_are_no_wheels() -> None:
    _, _, filled = first("pins measure 7/8 and stand 26 in apart, what category is my hitch?")
    assert filled["implement_span"] == "26 in"


@pytest.mark.parametrize(
    ("message", "worksheet", "ask", "filled"),
    [
        (
            "should I replace the clutch for 2400 before I sell, its worth 10500",
            "resale",
            "repair",
            {"parts": "$2400", "as_is_price": "$10500"},
        ),
        # What it is worth mended is no price as it stands.
        (
            "parts 1200, worth 11000 fixed and 9000 as is",
            "resale",
            "repair",
            {"parts": "1200", "as_is_price": "$9000", "uplift_likely": "$2000"},
        ),
        ("can I dethatch at 12 degrees slope", "lawn", "slope", {"slope": "12 deg"}),
        ("a/c in a bolted cab?", "cab", "can", {"cab_kind": "bolted"}),
        (
            "hitch rated 1400 lb at the balls, implement 800 lb 28 inches back",
            "ballast",
            "lift",
            {
                "lift_capacity": "1400 lb",
                "lift_rated_at": "0",
                "implement_mass": "800 lb",
                "cg_distance": "28 in",
            },
        ),
        (
            "top speed down a 10% grade with 3500 lb trailer, 3600 lb tractor",
            "road-towing",
            "fastest",
            {"towed_mass": "3500 lb", "tractor_mass": "3600 lb", "grade": "-10 %"},
        ),
        (
            "rear 11.2-24 to 13.6-24 how much faster will it go",
            "tires",
            "speed",
            {"rear_tire": "11.2-24", "new_rear_tire": "13.6-24"},
        ),
        (
            "ball spread 32.5 and pin 1 1/8, what cat",
            "hitch",
            "category",
            {"implement_span": "32.5 in", "lower_pin": "1-1/8 in"},
        ),
        ("digger in wet clay stuck", "digger", "stuck", {"soil": "clay"}),
        ("shaft shakes after lifting my mower", "driveline", "shakes", {}),
        (
            "how much does my 38 hp diesel with a hydro really put to the pto",
            "pto",
            "reaches",
            {"transmission": "hydrostatic", "engine_power": "38 hp"},
        ),
    ],
)
def test_a_word_asks(message: str, worksheet: str, ask: str, filled: dict[str, str]) -> None:
    assert first(message) == (worksheet, ask, filled)
