"""The first sentence answers the question that was asked, and not one beside it."""

import pytest

from calc import model, search, worksheets
from calc.model import leading


def lead(name: str, ask: str, **typed: str) -> str:
    """The sentence at the counter."""
    return leading.lead(search.answer(worksheets.load(name), typed, ask=ask), "us")


@pytest.mark.parametrize(
    ("pin", "start"),
    # ISO 730, lower pins: 22 mm (7/8 in) of Category 1, 28 mm (1-1/8 in) of Category 2.
    [
        ("7/8 in", "Yes, with bushings: 7/8 in inside, 1-1/8 in outside on each lower pin"),
        ("1-1/8 in", "None: 1-1/8 in"),
        ("1-7/16 in", "No: a 1-7/16 in"),
    ],
)
def test_a_question_about_bushings_is_answered_by_pin_and_ball(pin: str, start: str) -> None:
    """Whatever the span of the links is: that is another question."""
    assert lead("hitch", "sleeves", hitch_category="2", lower_pin=pin).startswith(start)


def test_bushings_that_are_on_are_not_none() -> None:
    typed = {"hitch_category": "2", "implement_category": "1", "sleeves": "fitted"}
    assert not lead("hitch", "sleeves", **typed).startswith("None")


def test_without_the_hitch_both_sizes_are_said() -> None:
    said = lead("hitch", "sleeves", lower_pin="7/8 in")
    assert said.startswith("It depends") and "1-1/8 in" in said


def test_a_unit_that_was_named_stands_beside_what_is_needed() -> None:
    found = search.answer(worksheets.load("cab"), {"cooling_capacity": "12,000 Btu/h"}, ask="size")
    assert found.finding == model.UNKNOWN
    assert "this unit has 12,000 Btu/h" in leading.lead(found, "us")
    assert "this unit" not in lead("cab", "size", outside_temperature="95 F")


@pytest.mark.parametrize(
    ("mass", "start"),
    [
        ("1,210 lb", "No: the driven wheels hold 37.5 %"),
        ("", "Whether the wheels hold this pull isn't known yet."),
        ("4,000 lb", "Over a year of the same work the hydrostatic"),
    ],
    ids=str,
)
def test_wheels_slip_too_much_only_where_they_do(mass: str, start: str) -> None:
    """What nobody weighed isn't said of every tractor that it may be."""
    typed = {"engine_power": "30 hp", "load_mass": "800 lb", "slope": "10 %", "soil": "soft"}
    typed |= {"driven": "two", **({"tractor_mass": mass} if mass else {})}
    said = lead("drive", "worth", **typed)
    assert "slip too much" not in said
    assert said.startswith(start)


def test_a_question_about_the_ground_is_answered_whatever_the_grip() -> None:
    typed = {"engine_power": "30 hp", "load_mass": "800 lb", "slope": "10 %"}
    assert lead("drive", "ground", **typed).startswith("The gear drive: ")
