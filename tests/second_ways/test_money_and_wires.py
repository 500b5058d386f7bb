"""Loans by living through every month; voltage by a ladder of resistors."""

import random

import numpy as np
import pytest
from scipy.optimize import brentq

from calc.mechanics import finance, wiring

CASES = 100


def owed(principal: float, rate: float, paid: float, periods: int) -> float:
    """What is left after paying so much at the end of every period."""
    for _ in range(periods):
        principal += principal * rate
        principal -= paid
    return principal


@pytest.mark.parametrize("seed", range(CASES))
def test_loans(seed: int) -> None:
    rng = random.Random(f"loan {seed}")
    principal, rate = rng.uniform(500.0, 90_000.0), rng.uniform(0.0005, 0.02)
    periods = rng.randint(1, 120)
    balloon = rng.choice((0.0, rng.uniform(0.0, 0.4) * principal))
    paid = brentq(
        lambda level: owed(principal, rate, level, periods) - balloon,
        0.0,
        principal * (1 + rate) + 1,
    )
    assert finance.payment(principal, rate, periods, balloon) == pytest.approx(paid, rel=1e-6)
    part = rng.randint(0, periods)
    found = finance.balance_after(principal, rate, paid, part)
    assert found == pytest.approx(owed(principal, rate, paid, part), abs=1e-4)


@pytest.mark.parametrize("seed", range(CASES))
def test_present_value(seed: int) -> None:
    """So much put into the bank today must pay out every flow and leave nothing."""
    rng = random.Random(f"value {seed}")
    rate = rng.uniform(0.0, 0.2)
    flows = [rng.uniform(-5000.0, 5000.0) for _ in range(rng.randint(1, 15))]
    account = finance.net_present_value(rate, flows)
    for flow in flows[:-1]:
        account = (account - flow) * (1 + rate)
    assert account == pytest.approx(flows[-1], rel=1e-9, abs=1e-5)


@pytest.mark.parametrize("seed", range(CASES))
def test_voltage_of_a_run(seed: int) -> None:
    """The run out and back as a ladder of 30 pieces, every node's currents added up."""
    rng = random.Random(f"wire {seed}")
    gauge, length = rng.choice((18, 16, 14, 12, 10, 8)), rng.uniform(1.0, 30.0)
    current, pieces = rng.uniform(0.5, 30.0), 30
    whole = wiring.wire_resistance(gauge, length)
    each = 1.0 / wiring.wire_resistance(gauge, length / pieces)
    # Nodes 1 to `pieces` behind the source at node 0; the load draws its current at the last.
    matrix = np.zeros((pieces, pieces))
    for node in range(pieces):
        matrix[node, node] = each if node == pieces - 1 else 2 * each
        if node:
            matrix[node, node - 1] = matrix[node - 1, node] = -each
    drawn = np.zeros(pieces)
    drawn[-1] = -current
    lost = -float(np.linalg.solve(matrix, drawn)[-1])
    assert wiring.voltage_drop(current, whole) == pytest.approx(lost, rel=1e-9)
