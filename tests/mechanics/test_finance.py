"""Interest and loans: limits, identities, and a reference library as judge."""

import numpy_financial as npf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import finance

rates = st.floats(min_value=0.0001, max_value=0.5)
counts = st.integers(min_value=1, max_value=480)
amounts = st.floats(min_value=1.0, max_value=1e6)


@given(rate=rates, periods=counts, amount=amounts)
def test_payment_equals_the_reference_library(rate: float, periods: int, amount: float) -> None:
    expected = -float(npf.pmt(rate, periods, amount))
    assert finance.payment(amount, rate, periods) == pytest.approx(expected, rel=1e-9)


@given(rate=rates, periods=counts, amount=amounts, share=st.floats(0.0, 1.0))
def test_balloon_equals_the_reference_library(
    rate: float, periods: int, amount: float, share: float
) -> None:
    balloon = amount * share
    expected = -float(npf.pmt(rate, periods, amount, -balloon))
    assert finance.payment(amount, rate, periods, balloon) == pytest.approx(
        expected, rel=1e-8, abs=1e-8 * amount
    )


@given(rate=st.floats(-0.3, 0.6), flows=st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=40))
def test_present_value_equals_the_reference_library(rate: float, flows: list[float]) -> None:
    expected = float(npf.npv(rate, flows))
    scale = sum(abs(flow) for flow in flows) * (1.0 + rate) ** -40.0 if rate < 0 else 1e6
    assert finance.net_present_value(rate, flows) == pytest.approx(
        expected, rel=1e-9, abs=1e-9 * max(scale, 1e6)
    )


@given(rate=rates, periods=counts, amount=amounts)
def test_last_payment_clears_the_loan(rate: float, periods: int, amount: float) -> None:
    level = finance.payment(amount, rate, periods)
    left = finance.balance_after(amount, rate, level, periods)
    assert abs(left) <= 1e-9 * amount * (1.0 + rate) ** periods


@given(periods=counts, amount=amounts)
def test_trap_a_zero_rate_divides_by_the_count(periods: int, amount: float) -> None:
    assert finance.payment(amount, 0.0, periods) == pytest.approx(amount / periods)


@given(periods=st.integers(1, 360))
def test_a_rate_near_zero_joins_the_zero_rate(periods: int) -> None:
    assert finance.capital_recovery_factor(1e-13, periods) == pytest.approx(1.0 / periods, rel=1e-9)


def test_balance_falls_evenly_without_interest() -> None:
    assert finance.balance_after(1200.0, 0.0, 100.0, 5) == pytest.approx(700.0)


def test_the_whole_amount_as_balloon_pays_interest_only() -> None:
    assert finance.payment(10_000.0, 0.01, 24, 10_000.0) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: finance.payment(-1.0, 0.01, 12), "can't be below zero"),
        (lambda: finance.payment(100.0, 0.01, 0), "1 or more"),
        (lambda: finance.payment(100.0, 0.01, 12, 101.0), "balloon"),
        (lambda: finance.payment(100.0, -1.0, 12), "above -100"),
        (lambda: finance.balance_after(100.0, 0.01, 1.0, -1), "below zero"),
    ],
)
def test_bad_values_say_what_is_wrong(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
