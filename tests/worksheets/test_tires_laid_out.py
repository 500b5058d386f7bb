"""New tires of the size, or of a pair, that a front drive was laid out for, and other names."""

import math

import pytest

from calc import model
from calc.mechanics import front_drive, tires
from calc.mechanics.tire_size import decode
from calc.model import leading
from tests.worksheets.asking import given, output


def _lead(found: model.Answer) -> str:
    return leading.lead(found, "us")


@pytest.mark.parametrize(
    ("new", "said"),
    [
        ("11.2-24 R-1", "The same tire by its marks, but the old one is worn"),
        ("11.2-24 R-1 8PR", "It may be the same tire"),
        ("11.2-24 R-4", "Not the same by its marks"),
    ],
)
def test_new_lugs_for_worn_ones_are_the_same_tire_by_its_marks(new: str, said: str) -> None:
    typed = {"rear_tire": "11.2-24 R-1", "rear_worn": "60 %"}
    assert _lead(given("tires", "same", **typed, new_rear_tire=new)).startswith(said)
    fronts = {"front_tire": "7-16 R-1", "new_front_tire": "7-16 R-1", "front_lug": "0.2 in"}
    assert _lead(given("tires", "same", **fronts)).startswith("The same tire")


@pytest.mark.parametrize(
    ("new", "said"),
    [
        ("10.5/80-18 R-4", "Not the same"),
        ("10.5/80-18", "It may be the same"),
        ("10.5/80-18 MPT", "By what was typed it is the same"),
    ],
)
def test_a_multi_purpose_tread_is_neither_bars_nor_industrial(new: str, said: str) -> None:
    typed = {"rear_tire": "10.5/80-18 MPT", "new_rear_tire": new}
    assert _lead(given("tires", "same", **typed)).startswith(said)


ONE_DRIVE = {"front_tire": "9.5-16 R-1", "rear_tire": "13.6-24 R-1"}


def test_a_pair_that_its_maker_sells_on_the_same_drive_keeps_the_lead() -> None:
    # tires/PR-1: three sets of one model, their ratios 3.6 % apart.
    pair = {"new_front_tire": "12-16.5 R-4", "new_rear_tire": "17.5L-24 R-4"}
    found = given("tires", "lead", **ONE_DRIVE, **pair)
    assert found.finding == model.WITHIN and "1.5 to 4 %" in _lead(found)
    one = given("tires", "lead", **ONE_DRIVE, new_front_tire="12-16.5 R-4")
    assert one.finding != model.WITHIN
    # Sets of one model that are 14.9 % apart are on another gear ratio.
    compact = {"front_tire": "7-14 R-1", "rear_tire": "11.2-24 R-1"}
    other = {"new_front_tire": "25x8.50-14 R-4", "new_rear_tire": "43x16.00-20 R-4"}
    assert given("tires", "lead", **compact, **other).finding == model.OVER
    assert given("tires", "lead", **compact, **other, pair_listed="yes").finding == model.WITHIN
    # What was counted comes first.
    counted = given("tires", "lead", **ONE_DRIVE, **pair, front_turns="12")
    assert counted.finding == model.OVER


@pytest.mark.parametrize(
    ("more", "finding"),
    [
        ({"new_rear_tire": "18.4-30 R-1W"}, model.WITHIN),  # tires/TG-6: as tall by design
        ({"new_rear_tire": "18.4-30 8PR"}, model.WITHIN),
        ({"new_rear_tire": "18.4-30 R-4"}, model.UNKNOWN),
        ({"new_rear_tire": "18.4-30 8PR", "lead_now": "1.2 %"}, model.UNKNOWN),
        ({"new_rear_tire": "18.4-30 8PR", "front_worn": "70 %"}, model.OVER),
        ({"new_front_tire": "12.4-24 8PR", "front_worn": "70 %"}, model.WITHIN),
    ],
)
def test_the_size_it_was_made_with_keeps_the_lead(more: dict[str, str], finding: str) -> None:
    typed = {"front_tire": "12.4-24 R-1", "rear_tire": "18.4-30 R-1"}
    assert given("tires", "lead", **typed, **more).finding == finding


@pytest.mark.parametrize(
    ("front", "rear", "new", "finding"),
    [
        ("8-16", "13.6-24", "14.9-24", model.OVER),  # 5 % up at one end
        ("7-16", "11.2-24", "9.5-24", model.OVER),
        ("12.4-24", "18.4-30", "16.9-34", model.UNKNOWN),  # 2 % up
        ("8.3-20", "12.4-28", "13.6-28", model.UNKNOWN),
    ],
)
def test_the_lead_laid_out_and_the_sizes_are_not_off_together(
    front: str, rear: str, new: str, finding: str
) -> None:
    typed = {"front_tire": front, "rear_tire": rear, "front_drive": "yes"}
    found = given("tires", "lead", **typed, new_rear_tire=new)
    assert found.finding == finding
    change = tires.change_error(*(tires.dimensions(decode(size)) for size in (rear, new)))
    low, high = (next(o for o in found.outputs if o.name == "lead_new"),) * 2
    middle = 1 + front_drive.window("limits").middle
    ratio = middle / (1 + output(given("tires", **typed, new_rear_tire=new), "speed_change"))
    assert low.low is not None and high.high is not None
    # Two halves that have nothing to do with each other: the root of the sum of squares.
    assert (high.high - low.low) / 2 == pytest.approx(math.hypot(0.0125, change) * ratio, rel=0.06)


@pytest.mark.parametrize(("typed", "lead"), [("4 %", "−5.0"), ("3.99 %", "−5.0"), ("", "−6.2")])
def test_a_lead_that_is_given_is_used_where_it_is_an_end_of_what_is_usual(
    typed: str, lead: str
) -> None:
    # tires/TG-3: a lead given as 4 % is 4 %, whatever stands in where nobody gives it.
    tires = {"front_tire": "7-16 R1", "rear_tire": "11.2-24 R1", "new_rear_tire": "13.6-24 R1"}
    found = given("tires", "partner", **tires, factory_lead=typed)
    windows = found.advice.tables[-1]
    assert windows.columns[1] == f"Lead of {lead} %"


@pytest.mark.parametrize(
    ("pair", "said"),
    [
        # tires/PR-1: with radials of R-14 tread the 75 hp class has 320/85R24 and 460/85R30
        (("11.2-24", "16.9-30", {"new_front_tire": "320/85R24 R14"}), "a pair that makers sell"),
        (("11.2-24", "16.9-30", {"new_front_tire": "320/85R24 R4"}), "Roll both out before"),
        # 25x8.50-14 is sold with 43x16.00-20 as R-4, and with 41x14.00-20 as turf
        (("7-14", "11.2-24", {"new_front_tire": "25x8.5-14 R4"}), "with 43x16.00-20, on"),
        (("7-14", "11.2-24", {"new_front_tire": "25x8.5-14 turf"}), "with 41x14.00-20, on"),
        (("7-14", "11.2-24", {"new_rear_tire": "43x16-20 turf"}), "No size of the table"),
        # tires/PR-3
        (("280/70R16", "360/70R24", {"new_rear_tire": "380/85R24"}), "Makers sell 280/70R16 with"),
    ],
)
def test_a_pair_is_offered_in_the_tread_it_is_sold_with(
    pair: tuple[str, str, dict[str, str]], said: str
) -> None:
    front, rear, new = pair
    assert said in _lead(given("tires", "partner", front_tire=front, rear_tire=rear, **new))


def test_a_sold_pair_far_outside_the_window_is_one_of_another_ratio() -> None:
    # tires/PR-1: the maker of 29x12.50-15 / 44x18.00-20 changes the ratio with the tires. The
    # table's 4.6 % of a flotation size don't reach from 10 % into the window.
    typed = {"front_tire": "27x8.50-15 R-3", "rear_tire": "44x18.00-20 R-3"}
    far = given("tires", "partner", **typed, new_front_tire="29x12.50-15 R-3")
    assert "on another gear ratio" in _lead(far)
    near = given(
        "tires",
        "partner",
        front_tire="9.5-16",
        rear_tire="13.6-24",
        new_front_tire="12-16.5 R4",
        new_rear_tire="17.5L-24 R4",
    )
    assert "a pair that makers sell" in _lead(near)


def test_the_other_name_of_the_tire_that_is_there_is_not_offered() -> None:
    # tires/WEB-2: 16.9R30 is 420/85R30.
    typed = {"front_tire": "280/85R24", "rear_tire": "420/85R30", "new_rear_tire": "460/85R30"}
    offered = given("tires", "partner", **typed).advice.remedies
    assert all("16.9R30" not in item.set.get("new_rear_tire", "") for item in offered)
