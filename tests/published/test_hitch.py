"""Hitch, coupler and shaft numbers against published ones.

The tolerance of each check is half a unit of the last place that the source prints, or the
rounding that the source states.
"""

import pytest

from calc import tables
from calc.mechanics import hitch, pto

INCH = 25.4  # mm
KW_PER_PS = 0.73549875
KW_PER_HP = 0.7456998715822702


def mm(item: str, category: str) -> float:
    return hitch.size(item, category) * 1000


# Charts that print the span between shoulders: hitch/W2 prints whole inches and doesn't always
# round (26.9 is printed 26, 45.9 is printed 46), so the tolerance is an inch.
@pytest.mark.parametrize(("category", "printed"), [("1", 26), ("2", 32), ("3", 38), ("4", 46)])
def test_shoulder_spans_of_a_us_chart(category: str, printed: int) -> None:
    """hitch/W2."""
    assert mm("shoulder_span", category) / INCH == pytest.approx(printed, abs=1.0)


@pytest.mark.parametrize(("category", "printed"), [("1", 28), ("2", 34), ("3", 40), ("4", 48)])
def test_ball_center_spans_of_other_charts(category: str, printed: int) -> None:
    """hitch/W1 in millimeters against whole inches of charts of the other kind."""
    assert mm("ball_spacing", category) / INCH == pytest.approx(printed, abs=0.5)


def test_span_of_category_1_on_a_garden_tractor_hitch() -> None:
    """hitch/H14 prints 26.8 in, for the span that hitch/W1 gives as 718 less a ball.

    Tolerance: half of 0.1 in and the 1.5 mm of the spans themselves.
    """
    assert mm("shoulder_span", "1") == pytest.approx(26.8 * INCH, abs=0.05 * INCH + 1.5)


def test_categories_1_and_2_differ_by_152_mm_between_ball_centers() -> None:
    """hitch/W1 prints 152 mm."""
    assert mm("ball_spacing", "2") - mm("ball_spacing", "1") == pytest.approx(152, abs=0.5)


@pytest.mark.parametrize(("category", "printed"), [("2", 44.96), ("3", 45)])
def test_ball_center_spacing_less_shoulder_span_is_a_ball_width(
    category: str, printed: float
) -> None:
    """Two sources against a third: hitch/W1 less hitch/H1 is the ball width of hitch/W4."""
    difference = mm("ball_spacing", category) - mm("shoulder_span", category)
    assert difference == pytest.approx(printed, abs=0.5)


# Pins in inches (hitch/W2, hitch/W3) against pins in millimeters (hitch/H1). A metric pin is
# rounded to 0.1 mm or to 1 mm below 30, and the inch pins to 1/16.
@pytest.mark.parametrize(
    ("category", "inches"), [("1", "7/8"), ("2", "1-1/8"), ("3", "1-7/16"), ("4", "2")]
)
def test_lower_pins_in_inches(category: str, inches: str) -> None:
    """hitch/W2 and hitch/W3; the metric sizes are the inch sizes rounded to 1 mm or finer."""
    assert mm("lower_pin", category) == pytest.approx(hitch.inches(inches) * 1000, abs=0.6)


@pytest.mark.parametrize(
    ("category", "inches"), [("1", "3/4"), ("2", "1"), ("3", "1-1/4"), ("4", "1-3/4")]
)
def test_upper_pins_in_inches(category: str, inches: str) -> None:
    """hitch/W2 and hitch/W3; same rounding."""
    assert mm("upper_pin", category) == pytest.approx(hitch.inches(inches) * 1000, abs=0.6)


def test_category_0_pins_are_five_eighths() -> None:
    """hitch/W3: 5/8 in for all three, printed in millimeters to 0.1."""
    assert mm("lower_pin", "0") == pytest.approx(5 / 8 * INCH, abs=0.05)
    assert mm("upper_pin", "0") == pytest.approx(5 / 8 * INCH, abs=0.05)


@pytest.mark.parametrize(("category", "printed"), [("1", 18), ("2", 19)])
def test_older_masts_in_inches(category: str, printed: float) -> None:
    """hitch/H10 prints 18 in and 19 in."""
    assert mm("mast_height_old", category) == pytest.approx(printed * INCH, abs=0.5)


@pytest.mark.parametrize("category", ["2", "3"])
def test_older_masts_are_about_125_mm_shorter(category: str) -> None:
    """hitch/S1: about 125 mm shorter in category 2 and 3; "about" to 5 mm."""
    gap = hitch.mast_gap(
        hitch.size("mast_height", category), hitch.size("mast_height_old", category)
    )
    assert gap * 1000 == pytest.approx(-125, abs=5)


def test_category_1_mast_did_not_change() -> None:
    """hitch/S1: category 1 is unchanged; the two figures are rounded to 10 mm and to 1 in."""
    assert mm("mast_height", "1") == pytest.approx(mm("mast_height_old", "1"), abs=5)


def test_linch_pin_goes_through_its_hole() -> None:
    """hitch/H10: a 15/32 in pin in a hole of at least 12 mm."""
    assert hitch.inches("15/32") * 1000 == pytest.approx(mm("linchpin_hole_min", "1"), abs=0.5)


@pytest.mark.parametrize(("kilowatts", "printed"), [(92, 125), (80, 109), (185, 251), (350, 476)])
def test_power_ranges_in_metric_horsepower(kilowatts: float, printed: int) -> None:
    """hitch/H1 prints these as HP; they are metric. It cuts 251.5 to 251: tolerance 1."""
    ends = {
        float(row[end]) for row in tables.rows("hitch/hitch_power") for end in ("low_kw", "high_kw")
    }
    assert kilowatts in ends
    assert kilowatts / KW_PER_PS == pytest.approx(printed, abs=1)


@pytest.mark.parametrize(
    ("category", "end", "printed"),
    [("1", "high_kw", 45), ("2", "high_kw", 100), ("3", "high_kw", 225), ("4", "high_kw", 400)],
)
def test_us_chart_power_is_the_older_drawbar_row(category: str, end: str, printed: int) -> None:
    """hitch/W2 in horsepower against hitch/S5 in kW; the chart rounds to 5 hp."""
    row = next(
        row
        for row in tables.rows("hitch/hitch_power")
        if row["basis"] == "older_drawbar" and row["category"] == category
    )
    assert float(row[end]) / KW_PER_HP == pytest.approx(printed, abs=2.5)


@pytest.mark.parametrize(("number", "printed"), [("1", "26.9"), ("2", "32.5"), ("3", "38.0")])
def test_coupler_hook_spacing(number: str, printed: str) -> None:
    """hitch/S3: a U-frame coupler has the dimensions of ISO 730, whose spans these are."""
    assert hitch.coupler_hook_span(number) * 1000 / INCH == pytest.approx(float(printed), abs=0.05)


@pytest.mark.parametrize(("coupler", "printed"), [("1", 15), ("2", 15), ("3N", 19), ("3", 19)])
def test_coupler_hook_height(coupler: str, printed: float) -> None:
    """hitch/W2: its mast column starts at 15 in and at 19 in, the hook heights; whole inches."""
    assert hitch.coupler_hook_height(coupler) * 1000 / INCH == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize("number", ["1", "2"])
@pytest.mark.parametrize("place", ["lower", "upper"])
def test_coupler_sleeves_bring_a_pin_up_to_a_category_3_pin(number: str, place: str) -> None:
    """Sleeve sizes of the trade in 1/16 in against the metric pins of hitch/H1 and hitch/W3."""
    row = hitch.sleeve("coupler", place, number)
    assert row is not None
    outside = hitch.inches(row["outside_in"]) * 1000
    inside = hitch.inches(row["inside_in"]) * 1000
    sixteenth = INCH / 32
    assert outside == pytest.approx(mm(f"{place}_pin", "3"), abs=sixteenth)
    assert inside == pytest.approx(mm(f"{place}_pin", number), abs=sixteenth)


@pytest.mark.parametrize(("category", "printed"), [("0", 17), ("1", 22.4), ("2", 28.7)])
def test_pin_slack_in_its_own_ball(category: str, printed: float) -> None:
    """Bores of hitch/W1 and hitch/W4 over the pins of hitch/H1: a pin is never over its bore."""
    assert mm("lower_bore", category) == pytest.approx(printed, abs=0.05)
    pin, bore = hitch.size("lower_pin", category), hitch.size("lower_bore", category)
    assert hitch.pin_fit(pin, bore) == "fits"


@pytest.mark.parametrize(("kind", "inches", "printed"), [("1", 14, 356), ("2", 16, 406)])
def test_drawbar_distance(kind: str, inches: float, printed: float) -> None:
    """hitch/H16 prints inches and millimeters."""
    assert pto.drawbar_distance(kind) * 1000 == pytest.approx(printed, abs=0.5)
    assert pto.drawbar_distance(kind) * 1000 == pytest.approx(inches * INCH, abs=1.0)


@pytest.mark.parametrize(
    ("kind", "diameter", "splines", "rpm"),
    [("1", "1-3/8", 6, 540), ("2", "1-3/8", 21, 1000), ("3", "1-3/4", 20, 1000)],
)
def test_shaft_types(kind: str, diameter: str, splines: int, rpm: int) -> None:
    """hitch/S5, PAES 118 Table 3, against the diameters in inches of hitch/W3."""
    row = pto.type_row(kind)
    assert (int(row["splines"]), int(row["rpm"])) == (splines, rpm)
    assert float(row["diameter_mm"]) == pytest.approx(hitch.inches(diameter) * 1000, abs=0.6)
    assert pto.identify(splines) == kind


def test_shaft_type_4_is_57_millimeters() -> None:
    """hitch/W3 misprints centimeters; 2-1/4 in settles it, to 1/64 in and 0.5 mm."""
    row = pto.type_row("4")
    assert float(row["diameter_mm"]) == pytest.approx(hitch.inches("2-1/4") * 1000, abs=0.5)


def test_published_torque_at_540() -> None:
    """hitch/X3: 30 kW at 540 rpm is 531 N m."""
    assert pto.torque(30e3, 540) == pytest.approx(531, abs=0.6)


def test_published_torque_of_an_engine() -> None:
    """power/S50: 45 hp at 2400 rpm is 98 lb-ft, the fraction cut off."""
    pound_foot = 1.3558179483314004
    assert int(pto.torque(45 * KW_PER_HP * 1000, 2400) / pound_foot) == 98


def test_horsepower_constant() -> None:
    """power/S5: hp = lb-ft x rpm / 5252, rounded to a whole number."""
    pound_foot = 1.3558179483314004
    constant = pto.torque(KW_PER_HP * 1000, 1.0) / pound_foot
    assert constant == pytest.approx(5252, abs=0.5)


def test_speed_of_the_engine_at_540() -> None:
    """power/S26: an owner's test sheet has 540 rpm at 1484 engine rpm and rated speed 1900.

    At rated speed the shaft then turns 691 rpm, which is why the two powers differ.
    """
    ratio = pto.engine_speed_ratio(1484, 540)
    assert pto.shaft_speed(1484, ratio) == pytest.approx(540, abs=0.5)
    assert pto.shaft_speed(1900, ratio) / 540 > 31 / 26
