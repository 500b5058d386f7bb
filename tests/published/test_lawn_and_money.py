"""Loans, prices, work rates and slopes against printed numbers; the source stands beside each."""

import math

import pytest

from calc import quantities, search, tables, worksheets
from calc.mechanics import chances, field_work, finance, trade_in
from tests.published.rows import published
from tests.worksheets.asking import findings, output

FOOT, INCH, MPH, ACRE = 0.3048, 0.0254, 0.44704, 4046.8564224
RESALE, LAWN = worksheets.load("resale"), worksheets.load("lawn")


def test_monthly_payment_of_a_long_loan() -> None:
    of, given = finance.payment, "300,000 over 360 months at 4.8 %"
    published(of, given, 1_574, of(300_000, 0.048 / 12, 360), 0.5, "whole dollars", "value/V35")


# value/V35: the balance left after so many payments of $1,574, in whole dollars.
@pytest.mark.parametrize(
    ("payments", "printed"),
    [
        (1, 299_626),
        (99, 254_681),
        (100, 254_126),
        (199, 186_572),
        (200, 185_744),
        (299, 85_045),
        (300, 83_811),
        (359, 1_565),
    ],
)
def test_balance_after_payments(payments: int, printed: float) -> None:
    of, given = finance.balance_after, f"300,000 at 4.8 % after {payments} payments of 1,574"
    found = of(300_000, 0.048 / 12, 1_574, payments)
    off = 0.5 + 0.005 * math.sqrt(payments) * 2
    why = "whole dollars, and the interest of each month rounded to a cent"
    published(of, given, printed, found, off, why, "value/V35", "table of balances")


def test_monthly_payment_on_a_tractor() -> None:
    of, given = finance.payment, "60,000 over 96 months at 6.996 %"
    ours = of(60_000, 0.06996 / 12, 96)
    published(of, given, 817.90, ours, 0.05, "from a factor of five places", "value/V36")


def test_the_worksheet_gives_that_payment() -> None:
    # Through the page: no trade-in, no tax.
    typed = {"new_price": "$60,000", "loan_rate": "6.996 %", "loan_months": "96 months"}
    found = search.answer(RESALE, {**typed, "tax_rule": "exempt"}, ask="payments")
    ours, why = output(found, "payment_plain"), "from a factor of five places"
    published("resale", typed, 817.90, ours, 0.05, why, "value/V36")


def test_an_old_tire_taken_in_stays_taxable() -> None:
    # Usual price $16, $14 with the old tire, which is worth $2: the tax is on $16.
    of, given = trade_in.tax_on_purchase, "a tire for 16, 2 allowed for the old one: taxed on"
    why, place = "exact", "annotation 140.0040"
    published(of, given, 16.0, of(16.0, 2.0, 1.0, credit=False), 1e-9, why, "value/V13", place)
    assert of(16.0, 2.0, 0.05, credit=True) == pytest.approx(0.05 * 14.0)


# value/V37: with the mode at an end, a third of the way from the other; symmetric, w / root of 6.
def test_mean_of_a_triangle_with_its_mode_at_the_bottom() -> None:
    of, given = chances.triangle, "from 2 to 8 with its mode at 2: the mean"
    published(of, given, 4.0, of(2.0, 2.0, 8.0).mean, 1e-9, "exact", "value/V37")


def test_mean_of_a_triangle_with_its_mode_at_the_top() -> None:
    of, given = chances.triangle, "from 2 to 8 with its mode at 8: the mean"
    published(of, given, 6.0, of(2.0, 8.0, 8.0).mean, 1e-9, "exact", "value/V37")


def test_spread_of_a_symmetric_triangle() -> None:
    assert chances.triangle(700.0, 1000.0, 1300.0).deviation == pytest.approx(300 / math.sqrt(6))


@pytest.mark.parametrize("printed", [125.0, 134.0, 145.0, 150.0, 155.0])
def test_printed_shop_rates_lie_in_the_range_that_stands_in(printed: float) -> None:
    # value/V34: 125 to 150; value/V32: 134 on average; value/V33: 145 and 155.
    row = tables.by_key("money/resale_evidence", "key")["shop_rate"]
    assert float(row["low"]) <= printed <= float(row["high"])


# value/L10: 60 in at 8.5 mph: 224,400 ft2 an hour, 179,520 at 80 %, which is 4.12 acres.
@pytest.mark.parametrize(("efficiency", "printed"), [(1.0, 224_400), (0.8, 179_520)])
def test_square_feet_an_hour(efficiency: float, printed: float) -> None:
    of, given = field_work.field_capacity, f"60 in at 8.5 mph, {efficiency:.0%}"
    found = of(60 * INCH, 8.5 * MPH, efficiency) * 3600 / FOOT**2
    published(of, given, printed, found, 0.5, "whole number", "value/L10", unit="ft²/h")


def test_acres_an_hour_of_a_sixty_inch_mower() -> None:
    of = field_work.field_capacity
    found, given = of(60 * INCH, 8.5 * MPH, 0.8) * 3600 / ACRE, "60 in at 8.5 mph, 80 %"
    published(of, given, 4.12, found, 0.005, "two places", "value/L10", unit="acre/h")


def test_the_worksheet_gives_that_rate() -> None:
    # Through the page, with one pass: 4.12 acres an hour.
    typed = {
        "tool": "roller",
        "working_width": "60 in",
        "ground_speed": "8.5 mph",
        "efficiency": "80 %",
        "lawn_area": "4.12 acre",
    }
    found = search.answer(LAWN, typed, ask="time")
    ours, why = output(found, "time") / 3600, "acres to two places"
    published("lawn", typed, 1.0, ours, 0.002, why, "value/L10", unit="h")


@pytest.mark.parametrize(("inches", "mph"), [(48, 3.0), (60, 4.0), (72, 6.0)])
def test_the_rule_of_thumb_for_acres_an_hour(inches: float, mph: float) -> None:
    # Inches times mph over 100, all new ground; exactly it is over 99.
    of, given = field_work.field_capacity, f"{inches} in at {mph:g} mph: inches × mph / 100"
    found, rule = of(inches * INCH, mph * MPH, 1.0) * 3600 / ACRE, inches * mph / 100
    why = "100 for 99 in the rule of thumb"
    published(of, given, rule, found, 0.0102 * rule, why, "value/L11", unit="acre/h")


# value/L12: degrees and percent, to the last printed digit.
@pytest.mark.parametrize(
    ("degrees", "percent", "digits"),
    [(5, 8.75, 2), (10, 17.63, 2), (15, 26.79, 2), (20, 36.40, 2), (25, 46.6, 1), (30, 57.7, 1)],
)
def test_degrees_as_percent(degrees: float, percent: float, digits: int) -> None:
    found = 100 * quantities.base(f"{degrees} deg", "slope")
    of, why = "lawn", f"{digits} places"
    off = 0.51 * 10.0**-digits
    published(of, f"a slope of {degrees}°", percent, found, off, why, "value/L12", unit="%")


@pytest.mark.parametrize(
    ("percent", "degrees", "digits"), [(43, 23.27, 2), (10, 5.7, 1), (25, 14, 0)]
)
def test_percent_as_degrees(percent: float, degrees: float, digits: int) -> None:
    unit = quantities.kind("slope").unit("deg")
    found = unit.from_base(quantities.base(f"{percent} %", "slope"))
    of, why = "lawn", f"{digits} places"
    off = 0.51 * 10.0**-digits
    published(of, f"a slope of {percent} %", degrees, found, off, why, "value/L12", unit="°")


# value/L9: 15 degrees bare, 10 degrees with an attachment; value/L12 prints the latter as 17.63 %.
@pytest.mark.parametrize(("slope", "expected"), [("17.62 %", "close"), ("17.64 %", "over")])
def test_the_slope_of_the_manuals_just_inside_and_just_outside(slope: str, expected: str) -> None:
    assert findings(search.answer(LAWN, {"slope": slope}, example=True))["slope"] == expected
