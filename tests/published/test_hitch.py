"""Hitch, coupler and shaft numbers against published ones.

The tolerance of each check is half a unit of the last place that the source prints, or the
rounding that the source states.
"""

import pytest

from calc import tables
from calc.mechanics import hitch, hitch_fit, pto, quick_coupler
from tests.published.rows import published

INCH = 25.4  # mm
KW_PER_PS = 0.73549875
KW_PER_HP = 0.7456998715822702


def size_of(
    what: str,
    category: str,
    printed: float,
    ours: float,
    tolerance: float,
    why: str,
    source: str,
    unit: str = "mm",
) -> None:
    """Hold one size of a category against a printed one."""
    given = f"{what}, category {category}"
    published(hitch.size, given, printed, ours, tolerance, why, source, unit=unit)


def mm(item: str, category: str) -> float:
    return hitch.size(item, category) * 1000


# Charts that print the span between shoulders: hitch/W2 prints whole inches and doesn't always
# round (26.9 is printed 26, 45.9 is printed 46), so the tolerance is an inch.
@pytest.mark.parametrize(("category", "printed"), [("1", 26), ("2", 32), ("3", 38), ("4", 46)])
def test_shoulder_spans_of_a_us_chart(category: str, printed: int) -> None:
    ours = mm("shoulder_span", category) / INCH
    why = "whole inches, cut at times"
    size_of("shoulder span", category, printed, ours, 1.0, why, "hitch/W2", "in")


@pytest.mark.parametrize(("category", "printed"), [("1", 28), ("2", 34), ("3", 40), ("4", 48)])
def test_ball_center_spans_of_other_charts(category: str, printed: int) -> None:
    """hitch/W1 in millimeters against whole inches of charts of the other kind."""
    assert mm("ball_spacing", category) / INCH == pytest.approx(printed, abs=0.5)


def test_span_of_category_1_on_a_garden_tractor_hitch() -> None:
    """It is the span that hitch/W1 gives as 718 less a ball."""
    ours, off = mm("shoulder_span", "1") / INCH, 0.05 + 1.5 / INCH
    why = "half of 0.1 in and the 1.5 mm of the spans themselves"
    size_of("shoulder span", "1", 26.8, ours, off, why, "hitch/H14", "in")


def test_categories_1_and_2_differ_by_152_mm_between_ball_centers() -> None:
    ours = mm("ball_spacing", "2") - mm("ball_spacing", "1")
    why = "printed to the millimeter"
    size_of("ball centers less those of category 1", "2", 152, ours, 0.5, why, "hitch/W1")


@pytest.mark.parametrize(("category", "printed"), [("2", 44.96), ("3", 45)])
def test_ball_center_spacing_less_shoulder_span_is_a_ball_width(
    category: str, printed: float
) -> None:
    """Two sources against a third: hitch/W1 less hitch/H1 is the ball width of hitch/W4."""
    difference = mm("ball_spacing", category) - mm("shoulder_span", category)
    why = "spans in whole millimeters"
    size_of("ball centers less shoulders", category, printed, difference, 0.5, why, "hitch/W4")


# Pins in inches (hitch/W2, hitch/W3) against pins in millimeters (hitch/H1). A metric pin is
# rounded to 0.1 mm or to 1 mm below 30, and the inch pins to 1/16.
@pytest.mark.parametrize(
    ("category", "inches"), [("1", "7/8"), ("2", "1-1/8"), ("3", "1-7/16"), ("4", "2")]
)
def test_lower_pins_in_inches(category: str, inches: str) -> None:
    pin_in_inches("lower", category, inches)


def pin_in_inches(which: str, category: str, inches: str) -> None:
    """Hold a pin against its size in inches."""
    ours, printed = mm(f"{which}_pin", category) / INCH, hitch_fit.inches(inches) * 1000 / INCH
    why = "metric sizes are those in inches rounded to 1 mm or finer"
    for source in ("hitch/W2", "hitch/W3"):
        size_of(f"{which} pin", category, printed, ours, 0.6 / INCH, why, source, "in")


@pytest.mark.parametrize(
    ("category", "inches"), [("1", "3/4"), ("2", "1"), ("3", "1-1/4"), ("4", "1-3/4")]
)
def test_upper_pins_in_inches(category: str, inches: str) -> None:
    pin_in_inches("upper", category, inches)


def test_category_0_pins_are_five_eighths() -> None:
    for which in ("lower", "upper"):
        ours, off, why = mm(f"{which}_pin", "0") / INCH, 0.05 / INCH, "kept to 0.1 mm"
        size_of(f"{which} pin", "0", 5 / 8, ours, off, why, "hitch/W3", "in")


@pytest.mark.parametrize(("category", "printed"), [("1", 18), ("2", 19)])
def test_older_masts_in_inches(category: str, printed: float) -> None:
    ours, why = mm("mast_height_old", category) / INCH, "kept in whole millimeters"
    size_of("older mast height", category, printed, ours, 0.5 / INCH, why, "hitch/H10", "in")


@pytest.mark.parametrize("category", ["2", "3"])
def test_older_masts_are_about_125_mm_shorter(category: str) -> None:
    gap = hitch_fit.mast_gap(
        hitch.size("mast_height", category), hitch.size("mast_height_old", category)
    )
    given, why = f"older less present mast height, category {category}", '"about", to 5 mm'
    published(hitch_fit.mast_gap, given, -125, gap * 1000, 5, why, "hitch/S1", unit="mm")


def test_category_1_mast_did_not_change() -> None:
    """hitch/S1: category 1 is unchanged; the two figures are rounded to 10 mm and to 1 in."""
    assert mm("mast_height", "1") == pytest.approx(mm("mast_height_old", "1"), abs=5)


def test_linch_pin_goes_through_its_hole() -> None:
    """A 15/32 in pin goes through a hole of at least 12 mm."""
    ours, why = mm("linchpin_hole_min", "1") / INCH, "kept in whole millimeters"
    size_of("linch pin", "1", 15 / 32, ours, 0.5 / INCH, why, "hitch/H10", "in")


@pytest.mark.parametrize(("kilowatts", "printed"), [(92, 125), (80, 109), (185, 251), (350, 476)])
def test_power_ranges_in_metric_horsepower(kilowatts: float, printed: int) -> None:
    """The source prints these as HP; they are metric. It cuts 251.5 to 251."""
    ends = {
        float(row[end]) for row in tables.rows("hitch/hitch_power") for end in ("low_kw", "high_kw")
    }
    assert kilowatts in ends
    of, ours = "hitch/hitch_power", kilowatts / KW_PER_PS
    given, why = f"an end of a range, {kilowatts:g} kW", "whole metric horsepower, cut at times"
    published(of, given, printed, ours, 1, why, "hitch/H1", unit="metric hp")


@pytest.mark.parametrize(
    ("category", "end", "printed"),
    [("1", "high_kw", 45), ("2", "high_kw", 100), ("3", "high_kw", 225), ("4", "high_kw", 400)],
)
def test_us_chart_power_is_the_older_drawbar_row(category: str, end: str, printed: int) -> None:
    """The chart in horsepower against hitch/S5 in kW."""
    row = next(
        row
        for row in tables.rows("hitch/hitch_power")
        if row["basis"] == "older_drawbar" and row["category"] == category
    )
    of, ours = "hitch/hitch_power", float(row[end]) / KW_PER_HP
    given, why = f"most drawbar power, category {category}, kept in kW", "rounded to 5 hp"
    published(of, given, printed, ours, 2.5, why, "hitch/W2", unit="hp")


@pytest.mark.parametrize(("number", "printed"), [("1", "26.9"), ("2", "32.5"), ("3", "38.0")])
def test_coupler_hook_spacing(number: str, printed: str) -> None:
    """A U-frame coupler has the dimensions of ISO 730, whose spans these are."""
    of, ours = (
        quick_coupler.coupler_hook_span,
        quick_coupler.coupler_hook_span(number) * 1000 / INCH,
    )
    given, why = f"coupler of category {number}", "printed to a tenth"
    published(of, given, float(printed), ours, 0.05, why, "hitch/S3", unit="in")


@pytest.mark.parametrize(("coupler", "printed"), [("1", 15), ("2", 15), ("3N", 19), ("3", 19)])
def test_coupler_hook_height(coupler: str, printed: float) -> None:
    """Its mast column starts at the hook heights."""
    of, ours = (
        quick_coupler.coupler_hook_height,
        quick_coupler.coupler_hook_height(coupler) * 1000 / INCH,
    )
    given, why = f"coupler {coupler}", "printed to the inch"
    published(of, given, printed, ours, 0.5, why, "hitch/W2", unit="in")


@pytest.mark.parametrize("number", ["1", "2"])
@pytest.mark.parametrize("place", ["lower", "upper"])
def test_coupler_sleeves_bring_a_pin_up_to_a_category_3_pin(number: str, place: str) -> None:
    """Sleeve sizes of the trade in 1/16 in against the metric pins of hitch/H1 and hitch/W3."""
    row = hitch_fit.sleeve("coupler", place, number)
    assert row is not None
    outside = hitch_fit.inches(row["outside_in"]) * 1000
    inside = hitch_fit.inches(row["inside_in"]) * 1000
    sixteenth = INCH / 32
    assert outside == pytest.approx(mm(f"{place}_pin", "3"), abs=sixteenth)
    assert inside == pytest.approx(mm(f"{place}_pin", number), abs=sixteenth)


@pytest.mark.parametrize(("category", "printed"), [("0", 17), ("1", 22.4), ("2", 28.7)])
def test_pin_slack_in_its_own_ball(category: str, printed: float) -> None:
    """Bores of hitch/W1 and hitch/W4 over the pins of hitch/H1: a pin is never over its bore."""
    ours, why = mm("lower_bore", category), "kept as read, to 0.1 mm"
    size_of("bore of a lower ball", category, printed, ours, 0.05, why, "hitch/W4")
    pin, bore = hitch.size("lower_pin", category), hitch.size("lower_bore", category)
    assert hitch_fit.pin_fit(pin, bore) == "fits"


@pytest.mark.parametrize(("kind", "inches", "printed"), [("1", 14, 356), ("2", 16, 406)])
def test_drawbar_distance(kind: str, inches: float, printed: float) -> None:
    ours = pto.drawbar_distance(kind) * 1000
    of, given, source = pto.drawbar_distance, f"shaft type {kind}", "hitch/H16"
    published(of, given, printed, ours, 0.5, "printed to the millimeter", source, unit="mm")
    why = "kept in whole millimeters"
    published(of, given, inches, ours / INCH, 1.0 / INCH, why, source, unit="in")


@pytest.mark.parametrize(
    ("kind", "diameter", "splines", "rpm"),
    [("1", "1-3/8", 6, 540), ("2", "1-3/8", 21, 1000), ("3", "1-3/4", 20, 1000)],
)
def test_shaft_types(kind: str, diameter: str, splines: int, rpm: int) -> None:
    """What hitch/S5 prints, and the diameters in inches of hitch/W3."""
    row = pto.type_row(kind)
    of, given, source, place = pto.type_row, f"type {kind}", "hitch/S5", "PAES 118, Table 3"
    for name, printed in (("splines", splines), ("rpm", rpm)):
        published(of, given, printed, int(row[name]), 0, "exact", source, place, unit=name)
    ours, inches = float(row["diameter_mm"]) / INCH, hitch_fit.inches(diameter) * 1000 / INCH
    why = "kept to the millimeter"
    published(of, given, inches, ours, 0.6 / INCH, why, "hitch/W3", unit="in")
    assert pto.identify(splines) == kind


def test_shaft_type_4_is_57_millimeters() -> None:
    """The source misprints centimeters; 2-1/4 in settles it."""
    ours, why = float(pto.type_row("4")["diameter_mm"]) / INCH, "kept to the millimeter"
    published(pto.type_row, "type 4", 2.25, ours, 0.5 / INCH, why, "hitch/W3", unit="in")


def test_published_torque_at_540() -> None:
    ours, why = pto.torque(30e3, 540), "printed to 1 N·m, a little high"
    published(pto.torque, "30 kW at 540 rpm", 531, ours, 0.6, why, "hitch/X3", unit="N·m")


def test_published_torque_of_an_engine() -> None:
    pound_foot = 1.3558179483314004
    ours = int(pto.torque(45 * KW_PER_HP * 1000, 2400) / pound_foot)
    of, given, why = pto.torque, "45 hp at 2400 rpm", "the fraction cut off both"
    published(of, given, 98, ours, 0, why, "power/S50", unit="lb-ft")


def test_horsepower_constant() -> None:
    """Horsepower is lb-ft times rpm, over this."""
    pound_foot = 1.3558179483314004
    constant = pto.torque(KW_PER_HP * 1000, 1.0) / pound_foot
    given, why = "lb-ft × rpm in a horsepower", "printed as a whole number"
    published(pto.torque, given, 5252, constant, 0.5, why, "power/S5")


def test_speed_of_the_engine_at_540() -> None:
    """power/S26: an owner's test sheet has 540 rpm at 1484 engine rpm and rated speed 1900.

    At rated speed the shaft then turns 691 rpm, which is why the two powers differ.
    """
    ratio = pto.engine_speed_ratio(1484, 540)
    assert pto.shaft_speed(1484, ratio) == pytest.approx(540, abs=0.5)
    assert pto.shaft_speed(1900, ratio) / 540 > 31 / 26
