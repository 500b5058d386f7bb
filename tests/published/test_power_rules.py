"""Grip, speed, demand and hitch sizes against published figures, each with its source.

The tolerance is the rounding of the source.
"""

import pytest

from calc import search, worksheets
from calc.mechanics import hitch, hitch_fit, implement_class, pto, pto_power, traction
from calc.subjects import hitching, shaft_power
from tests.published.rows import published

HP = 745.6998715822702
FOOT = 0.3048


@pytest.mark.parametrize(
    ("driven", "soil", "printed", "concrete"),
    [
        # power/S8: drawbar power as a share of PTO power, by tractor and ground
        ("two", "firm", 0.72, 0.87),
        ("two", "tilled", 0.67, 0.87),
        ("two", "soft", 0.55, 0.87),
        ("four", "firm", 0.77, 0.87),
        ("four", "tilled", 0.73, 0.87),
        ("four", "soft", 0.65, 0.87),
    ],
)
def test_ground_takes_what_the_published_ratios_say(
    driven: str, soil: str, printed: float, concrete: float
) -> None:
    share = traction.ground_share(soil, driven) / traction.ground_share("hard", driven)
    given, why = f"{driven} driven wheels on {soil} ground", "both printed to a hundredth"
    ratio = printed / concrete
    published(traction.ground_share, given, ratio, share, 0.006, why, "power/S8")


@pytest.mark.parametrize(
    ("drive", "drawbar"),
    [("gear", 90.0), ("hydrostatic", 80.0)],  # of 105 PTO hp on concrete, power/S33
)
def test_a_surface_called_concrete_gives_what_tests_on_concrete_gave(
    drive: str, drawbar: float
) -> None:
    typed = {"engine_power": f"{105 / 0.86:.3f} hp", "shaft_power": "0 hp", "soil": "hard"}
    found = search.answer(worksheets.load("drive"), typed, example=True)
    ground = next(o.value for o in found.outputs if o.name == f"{drive}_ground_power")
    given, why = f"{drive}, 105 hp at the PTO, concrete", "whole horsepower, efficiency to 0.01"
    published("drive", given, drawbar, ground / HP, 0.7, why, "power/S33", unit="hp")


def test_power_at_the_speed_for_540_of_a_tested_tractor() -> None:
    # power/S26: 31 hp at 1900 rpm, 26 hp at 1484 rpm.
    low, high = pto_power.speed_loss(1484 / 1900)
    assert 31 * (1 - high) <= 26 <= 31 * (1 - low)


@pytest.mark.parametrize(
    ("rated", "at_540", "printed"),
    [
        # makers' brochures, as transcribed in public records: shaft speed at rated speed
        (2200, 2105, 564),
        (2700, 2430, 600),
        (2700, 2470, 590),
        (2600, 2475, 567),
        (2600, 2640, 532),
    ],
)
def test_shaft_speed_at_rated_engine_speed(rated: float, at_540: float, printed: float) -> None:
    ratio = pto.engine_speed_ratio(at_540, 540)
    assert pto.shaft_speed(rated, ratio) == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize(
    ("kind", "feet", "low", "high"),
    [
        ("rotary_cutter", 5, 20, 25),  # power/CUT-F10: 4 to 5 PTO hp for each foot
        ("rotary_cutter", 6, 24, 30),
        ("finish_mower", 5, 15, 25),  # power/CUT-F10: 3 to 5
    ],
)
def test_demand_of_mowers_lies_in_the_printed_range(
    kind: str, feet: int, low: float, high: float
) -> None:
    band = shaft_power.demand(kind, feet * FOOT)
    assert band is not None
    assert low - 0.05 <= band.low / HP and band.high / HP <= high + 0.05


@pytest.mark.parametrize(
    ("kind", "size", "printed"),
    [
        ("rotary_cutter_light", 5 * FOOT, 20),  # power/CUT-F10: at least 20 PTO hp for 60 in
        ("round_baler", 1600.0, 45),  # power/BALE-B1: 4 by 5 utility, 45 PTO hp
        ("small_square_baler", 0.0, 35),  # power/BALE-T13: 35 PTO hp
        ("chipper", 6 * 0.0254, 40),  # power/CHIP-T12: 6 in logs may want at least 40 hp
        ("disk_mower", 6.7 * FOOT, 40),  # power/MOW-T14: two sizes, 40 and 50 PTO hp
        ("disk_mower", 8 * FOOT, 50),
    ],
)
def test_a_printed_minimum_lies_in_the_band_of_its_class(
    kind: str, size: float, printed: float
) -> None:
    low, high, _ = implement_class.class_power(kind, size)
    assert low / HP - 0.05 <= printed <= high / HP + 0.05


def test_a_gearbox_that_owners_run_above_its_rating() -> None:
    # power/GEAR-F11: a 45 hp gearbox behind 52 PTO hp in grass; it is close, not over.
    typed = {"pto_power": "52 hp", "power_limit": "45 hp", "implement_kind": "rotary_cutter"}
    found = search.answer(worksheets.load("pto"), typed)
    assert next(v for v in found.verdicts if v.check.name == "driveline").finding == "close"


def test_a_generator_asks_two_horsepower_a_kilowatt() -> None:
    # power/GEN-T16 and power/S23.
    of, ours = shaft_power.generator_start, shaft_power.generator_start(12e3) / HP
    why = "printed as two for one"
    published(of, "12 kW", 24.0, ours, 0.05, why, "power/GEN-T16", unit="hp")


@pytest.mark.parametrize(
    ("pin_mm", "hole_mm", "number"),
    [
        # hitch/W3, hitch/H1: pins of the lower links; hitch/W4: holes of their balls
        (22.0, 22.4, "1"),
        (28.0, 28.7, "2"),
        (36.6, 37.4, "3"),
        (50.8, 51.0, "4"),
    ],
)
def test_pins_and_holes_are_of_one_category(pin_mm: float, hole_mm: float, number: str) -> None:
    why = "the name of a category"
    pin, hole = f"lower pin of {pin_mm} mm", f"hole of {hole_mm} mm in a lower ball"
    ours = hitching.nearest("lower_pin", pin_mm / 1000)
    printed_by = "hitch/W3" if number == "1" else "hitch/H1"
    published(hitching.nearest, pin, number, ours, 0.0, why, printed_by)
    ours = hitch.bore_category(hole_mm / 1000)
    published(hitch.bore_category, hole, number, ours, 0.0, why, "hitch/W4")


@pytest.mark.parametrize(
    ("millimeters", "number"),
    [(718.0, "1"), (870.0, "2"), (1010.0, "3")],  # hitch/W1: between ball centers
)
def test_printed_ball_centers_are_read_as_such(millimeters: float, number: str) -> None:
    assert hitching.printed_between(millimeters / 1000) == "ball centers"
    given, why = f"{millimeters:g} mm between ball centers", "the name of a category"
    ours = hitch_fit.span_category(millimeters / 1000).number
    published(hitch_fit.span_category, given, number, ours, 0.0, why, "hitch/W1")


def test_a_web_page_s_category_2_hitch_is_found() -> None:
    # hitch/W4, printed in inches: pin centerline 24.02 in high, span 32.48 in.
    found = hitching.candidates(0.028, None, 32.48 * 0.0254, 24.02 * 0.0254)
    assert found == ("2",)
