"""Sale, trade and loan against printed numbers; the source stands beside each."""

import pytest

from calc import tables
from calc.mechanics import chances, finance, resale, trade_in, used_value
from tests.published.rows import published


@pytest.mark.parametrize(
    ("rate", "printed"),
    [
        (0.04, [1.04, 0.5302, 0.3603, 0.2755, 0.2246, 0.1908, 0.1666]),
        (0.05, [1.05, 0.5378, 0.3672, 0.2820, 0.2310, 0.1970, 0.1728]),
    ],
)
def test_capital_recovery_table(rate: float, printed: list[float]) -> None:
    of, why = finance.capital_recovery_factor, "four places, at times one unit off in the last"
    for years, factor in enumerate(printed, 1):
        given, ours = f"{rate:.0%} over {years} years", of(rate, years)
        published(of, given, factor, ours, 0.0001, why, "value/V20", "table of factors")


def test_yearly_payment_on_50_000() -> None:
    of, given, why = finance.payment, "50,000 at 4 % over 5 years", "from a factor of four places"
    published(of, given, 11_230, of(50_000, 0.04, 5), 2, why, "value/V20", "worked example")


def test_present_value_of_eight_years() -> None:
    of, given = finance.net_present_value, "-400,000, then 100,000 for 8 years, at 14 %"
    ours = of(0.14, [-400_000] + [100_000] * 8)
    published(of, given, 63_886, ours, 1, "whole number, from rounded factors", "value/V22a")


@pytest.mark.parametrize(
    ("percent", "printed"),
    [
        (5.0, 18.88),
        (6.0, 19.34),
        (7.0, 19.81),
        (8.0, 20.28),
        (9.0, 20.76),
        (10.0, 21.25),
        (12.0, 22.25),
        (15.0, 23.79),
    ],
)
def test_monthly_payment_for_each_1_000_over_5_years(percent: float, printed: float) -> None:
    found, given = finance.payment(1000, percent / 1200, 60), f"1,000 over 60 months at {percent} %"
    of, why = finance.payment, "cents, rounded up in most rows"
    published(of, given, printed, found, 0.0101, why, "value/V27", "table of payments")


@pytest.mark.parametrize(
    ("percent", "printed"),
    [
        (5.0, 1272.79),
        (5.5, 1302.32),
        (6.0, 1332.25),
        (6.5, 1362.58),
        (7.0, 1393.30),
        (7.5, 1424.42),
        (8.0, 1455.93),
        (8.5, 1487.83),
    ],
)
def test_monthly_payment_on_120_000_over_10_years(percent: float, printed: float) -> None:
    of, given = finance.payment, f"120,000 over 120 months at {percent} %"
    ours = of(120_000, percent / 1200, 120)
    published(of, given, printed, ours, 0.00501, "printed to the cent", "value/V28", "table")


def test_tax_with_a_trade_in() -> None:
    given, why = "40,000 with a trade-in of 15,000 at 6 %", "exact"
    deal = 40_000, 15_000, 0.06
    of = trade_in.tax_on_purchase
    ours = of(*deal, credit=True)
    published(of, given, 1500, ours, 0.005, why, "value/V12", "with the credit")
    ours = of(*deal, credit=False)
    published(of, given, 2400, ours, 0.005, why, "value/V12", "without it")
    saved = trade_in.trade_tax_value(*deal, credit=True)
    published(trade_in.trade_tax_value, given, 900, saved, 0.005, why, "value/V12", "the saving")


def test_california_taxes_the_trade_in_too() -> None:
    credit = tables.by_key("money/trade_tax_rules", "key")["california"]["credit"] == "yes"
    tax = trade_in.tax_on_purchase(25_200 + 5_000, 5_000, 0.10, credit)
    of, given = trade_in.tax_on_purchase, "25,200 in cash and an old unit of 5,000"
    place = "annotation 140.0026: taxable amount"
    published(of, given, 30_200, tax / 0.10, 0.005, "exact", "value/V13", place)


def test_hours_a_year() -> None:
    ours = used_value.hours_a_year(500, 4)
    of, given = used_value.hours_a_year, "500 h in 4 years"
    published(of, given, 125, ours, 0, "exact", "value/V6b", unit="h")
    assert 2.0 < ours / 52 < 3.0  # "2 to 3 h a week"


def test_days_in_stock_from_turns() -> None:
    rows = tables.by_key("money/resale_evidence", "key")
    turns, days = rows["turns"], rows["days"]
    of, why = "money/resale_evidence", "whole days"
    for many, printed in ((12, 30), (8, 46)):
        given = f"{many} turns a year"
        published(of, given, printed, 365 / many, 0.5, why, "value/V10", unit="days")
    assert (float(turns["low"]), float(turns["high"])) == (8, 12)
    assert (float(days["low"]), float(days["high"])) == (30, 46)


def test_generator_after_ten_thousand_steps() -> None:
    ours = round(chances.random_shares(1, 10_000)[-1] * 2147483647)
    of, given = chances.random_shares, "seed 1, the ten thousandth number"
    published(of, given, 1_043_618_065, ours, 0, "exact", "value/V29")


def test_expected_value_of_a_new_machine() -> None:
    # The last two, taken together, are a fallback of -4 000.
    ours = resale.expected_net(resale.Sale(20_000, 0.95, 0), 0.04 * -5000 / 0.05, 0.0, 0.0)
    of, given = resale.expected_net, "95 % of 20,000, 1 % of nothing, 4 % of -5,000"
    published(of, given, 18_800, ours, 1e-6, "exact", "value/V30")


# value/V1T: percent of the new price left after 1, 2, ... 20 years, by size and hours a year.
LEFT = {
    ("tractor_small", 200): "65 59 54 51 48 45 42 40 38 36 35 33 32 30 29 28 26 25 24 23",
    ("tractor_small", 400): "60 54 49 46 43 40 38 36 34 32 31 29 28 27 25 24 23 22 21 20",
    ("tractor_small", 600): "56 50 46 43 40 37 35 33 31 30 28 27 25 24 23 22 21 20 19 18",
    ("tractor_middle", 200): "69 62 57 53 50 47 44 42 40 38 36 34 33 31 30 28 27 26 25 24",
    ("tractor_middle", 400): "68 62 57 53 49 46 44 41 39 37 35 34 32 31 29 28 27 25 24 23",
}
SIZES = {"tractor_small": "30 to 79 hp", "tractor_middle": "80 to 149 hp"}


@pytest.mark.parametrize(("machine", "hours"), LEFT)
def test_remaining_value_of_a_tractor(machine: str, hours: int) -> None:
    # Half a percent is the print's rounding. The coefficients have three digits: half of each
    # last one moves the value by up to 0.3 %.
    of, place = used_value.remaining_value, "table 1a"
    why = "printed to the percent; the coefficients' last digits move it by 0.3"
    for years, printed in enumerate(map(float, LEFT[machine, hours].split()), 1):
        found = 100 * used_value.remaining_value(machine, years, hours)
        assert abs(found - printed) <= 0.8
        if years in (1, 5, 10, 20):
            given = f"{SIZES[machine]}, {years} years, {hours} h a year"
            published(of, given, printed, found, 0.8, why, "value/V1T", place, unit="%")


def test_remaining_value_beside_another_university() -> None:
    # power/S47: 36 % at 10 years and 300 h a year for tractors of every size. The three sizes here
    # must stand on both sides of it.
    found = [
        100 * used_value.remaining_value(f"tractor_{size}", 10, 300)
        for size in ("small", "middle", "large")
    ]
    assert min(found) < 36 < max(found)
    assert all(abs(value - 36) < 4 for value in found)
