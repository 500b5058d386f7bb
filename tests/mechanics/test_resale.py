"""Sell as is, repair or trade: worked sums, identities, the spread, and the traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calc import tables
from calc.mechanics import chances, finance, resale, trade_in, used_value

DAILY = resale.holding_cost(14_000, 0.09, 1.0)
AS_IS = resale.Sale(14_000, 0.80, 60)
REPAIRED = resale.Sale(14_900, 0.88, 50, 712.50)


def plan(**changes: object) -> chances.Plan:
    worked = chances.Plan(
        14_000,
        chances.triangle(900, 900, 900),
        chances.triangle(712.5, 712.5, 712.5),
        60,
        50,
        0.80,
        0.88,
        12_500,
        0.0,
        DAILY,
    )
    return worked._replace(**changes)


def test_worked_sale() -> None:
    assert pytest.approx(4.4521, abs=5e-5) == DAILY
    assert resale.repair_cost(380, 3.5, 95) == pytest.approx(712.50)
    before = resale.expected_net(AS_IS, 12_500, 0.0, DAILY)
    after = resale.expected_net(REPAIRED, 12_500, 0.0, DAILY)
    assert before == pytest.approx(13_432.88, abs=0.005)
    assert after == pytest.approx(13_676.90, abs=0.005)
    assert plan().gain() == pytest.approx(244.02, abs=0.01)
    assert plan().break_even() == pytest.approx(622.70, abs=0.005)


def test_simple_form_of_the_break_even() -> None:
    certain_as_is, certain = resale.Sale(14_000, 1.0, 60), resale.Sale(0, 1.0, 50, 712.50)
    simple = resale.break_even_uplift(certain_as_is, certain, 12_500, 0.0, DAILY)
    assert simple == pytest.approx(667.98, abs=0.005)


sales = st.builds(
    resale.Sale, st.floats(1e3, 1e5), st.floats(0.05, 1.0), st.floats(0, 365), st.floats(0, 5e3)
)


@given(as_is=sales, repaired=sales, fallback=st.floats(0, 5e4), fee=st.floats(0, 0.3))
def test_no_gain_at_the_break_even(
    as_is: resale.Sale, repaired: resale.Sale, fallback: float, fee: float
) -> None:
    uplift = resale.break_even_uplift(as_is, repaired, fallback, fee, 5.0)
    even = repaired._replace(price=as_is.price + uplift)
    gain = resale.expected_net(even, fallback, fee, 5.0) - resale.expected_net(
        as_is, fallback, fee, 5.0
    )
    assert gain == pytest.approx(0.0, abs=1e-6 * max(1.0, as_is.price, abs(uplift)))


@given(
    points=st.tuples(st.floats(-1e4, 1e4), st.floats(1.0, 1e4), st.floats(0.0, 1.0)),
    at=st.floats(-0.2, 1.2),
)
def test_triangle_equals_the_reference_library(
    points: tuple[float, float, float], at: float
) -> None:
    low, width, share = points
    known = chances.triangle(low, low + share * width, low + width)
    reference = stats.triang(
        min((known.likely - low) / width, 1.0), loc=low, scale=known.high - low
    )
    value = low + at * width
    assert known.chance_above(value) == pytest.approx(reference.sf(value), abs=1e-9)
    assert known.mean == pytest.approx(reference.mean(), abs=1e-6)
    assert known.deviation == pytest.approx(reference.std(), rel=1e-6, abs=1e-6)
    if 0.0 < at < 1.0:
        assert known.quantile(at) == pytest.approx(reference.ppf(at), abs=1e-6 * (width + 1))


def test_worked_triangle() -> None:
    known = chances.triangle(200, 800, 1500)
    assert known.mean == pytest.approx(833.33, abs=0.005)
    assert known.deviation == pytest.approx(265.62, abs=0.005)
    assert known.chance_above(450) == pytest.approx(0.9199, abs=5e-5)
    assert chances.triangle(5, 5, 5).quantile(0.3) == 5
    assert chances.triangle(5, 5, 5).chance_above(4.9) == 1.0
    assert chances.triangle(5, 5, 5).chance_above(5) == 0.0


@pytest.mark.parametrize("seed", [1, 1988, 123_456_789])
@pytest.mark.parametrize("fee", [0.0, 0.15])
def test_simulated_mean_meets_the_expected_gain(seed: int, fee: float) -> None:
    known = plan(
        uplift=chances.triangle(200, 800, 1500), cost=chances.triangle(500, 700, 1100), fee=fee
    )
    spread = chances.simulate(known, seed, 6000)
    error = spread.deviation / math.sqrt(6000)
    assert spread.mean == pytest.approx(known.gain(), abs=3.5 * error)


def test_spread_from_the_uplift_alone() -> None:
    uplift = chances.triangle(200, 800, 1500)
    known = plan(uplift=uplift, chance_as_is=1.0, chance_repaired=1.0)
    spread = chances.simulate(known, 7, 6000)
    assert spread.deviation == pytest.approx(uplift.deviation, rel=0.03)
    assert spread.chance_of_gain == pytest.approx(uplift.chance_above(known.break_even()), abs=0.02)
    assert spread.at(0.1) == pytest.approx(uplift.quantile(0.1) - known.break_even(), abs=20)


def test_same_seed_same_figures() -> None:
    known = plan(uplift=chances.triangle(200, 800, 1500))
    assert chances.simulate(known) == chances.simulate(known)
    assert chances.simulate(known, 2) != chances.simulate(known, 3)


def test_generator_covers_the_interval_evenly() -> None:
    shares = chances.random_shares(1988, 20_000)
    assert min(shares) > 0.0
    assert max(shares) < 1.0
    assert stats.kstest(shares, "uniform").pvalue > 0.01


def test_trap_interest_and_discount_count_time_twice() -> None:
    """Interest in the holding cost alone already charges the sixty days."""
    once = resale.expected_net(resale.Sale(14_000, 1.0, 60), 0.0, 0.0, 14_000 * 0.09 / 365)
    discounted = finance.net_present_value(0.09 * 60 / 365, [0.0, 14_000])
    assert once == pytest.approx(discounted, abs=5.0)
    twice = finance.net_present_value(0.09 * 60 / 365, [0.0, once])
    assert discounted - twice > 200.0


def test_trap_a_faster_sale_is_worth_only_its_days() -> None:
    faster = plan(days_repaired=30).gain() - plan().gain()
    assert faster == pytest.approx(20 * DAILY)
    likelier = plan(chance_repaired=0.96).gain() - plan().gain()
    assert likelier > 1.5 * faster


def test_worked_trade_and_the_tax_alone() -> None:
    with_credit = trade_in.trade_tax_value(30_000, 12_000, 0.06, credit=True)
    without = trade_in.trade_tax_value(30_000, 12_000, 0.06, credit=False)
    high = trade_in.private_price_that_equals_trade(12_000, with_credit, 300, 0.0, DAILY, 45)
    low = trade_in.private_price_that_equals_trade(12_000, without, 300, 0.0, DAILY, 45)
    assert high == pytest.approx(13_220.34, abs=0.005)
    assert low == pytest.approx(12_500.34, abs=0.005)
    assert high - low == pytest.approx(720.0)


@given(
    price=st.floats(0, 1e5), trade=st.floats(0, 1e5), rate=st.floats(0, 0.12), credit=st.booleans()
)
def test_trap_the_credit_never_exceeds_the_tax_on_the_new_machine(
    price: float, trade: float, rate: float, credit: bool
) -> None:
    saved = trade_in.trade_tax_value(price, trade, rate, credit)
    assert 0.0 <= saved <= rate * price + 1e-9
    assert trade_in.tax_on_purchase(price, trade, rate, credit) >= 0.0
    if not credit:
        assert saved == 0.0


def test_trap_car_tables_do_not_carry_over_to_tractors() -> None:
    rules = tables.by_key("money/trade_tax_rules", "key")
    assert rules["ohio"]["credit"] == "no"
    assert rules["california"]["credit"] == "no"


def test_trap_the_south_dakota_rate_has_a_sunset() -> None:
    rows = [row for row in tables.rows("money/trade_tax_rules") if row["place"] == "South Dakota"]

    def rate_on(day: str) -> float:
        (found,) = [
            row for row in rows if row["from"] <= day and (not row["to"] or day <= row["to"])
        ]
        return float(found["rate_percent"])

    assert rate_on("2010-01-01") == 4.0
    assert rate_on("2020-01-01") == 4.5
    assert rate_on("2025-01-01") == 4.2
    assert rate_on("2027-07-01") == 4.5


@given(years=st.floats(1, 30), hours=st.floats(0, 1500), more=st.floats(0.1, 10))
def test_remaining_value_falls_with_age_and_use(years: float, hours: float, more: float) -> None:
    here = used_value.remaining_value("tractor_small", years, hours)
    assert 0.0 <= here <= 1.0
    assert used_value.remaining_value("tractor_small", years + more, hours) <= here
    assert used_value.remaining_value("tractor_small", years, hours + 100 * more) <= here


def test_mowers_lose_by_age_alone() -> None:
    assert used_value.remaining_value("mower", 5, 10) == used_value.remaining_value("mower", 5, 900)


def test_trap_mean_hours_stand_above_typical_hours() -> None:
    evidence = tables.by_key("money/resale_evidence", "key")
    assert float(evidence["mean_hours"]["low"]) > 10.0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: resale.holding_cost(-1.0, 0.1, 1.0), "below zero"),
        (lambda: resale.expected_net(resale.Sale(1.0, 1.1, 1.0), 0, 0, 0), "from 0 to 1"),
        (lambda: resale.break_even_uplift(AS_IS, resale.Sale(1, 0.0, 1), 0, 0, 0), "can't sell"),
        (lambda: chances.triangle(2, 1, 3), "in that order"),
        (lambda: chances.random_shares(0, 1), "seed"),
        (lambda: chances.simulate(plan(), 1, 0), "at least one"),
        (lambda: trade_in.tax_on_purchase(-1, 0, 0.06, True), "below zero"),
        (lambda: trade_in.private_price_that_equals_trade(1, 0, 0, 1.0, 0, 0), "fee"),
        (lambda: used_value.hours_a_year(100, 0), "age"),
        (lambda: used_value.remaining_value("mower", 5, -1), "hours a year"),
    ],
)
def test_bad_values_say_what_is_wrong(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
