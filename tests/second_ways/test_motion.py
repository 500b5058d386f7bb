"""Stops and starts by integrating the motion; a joint's ripple by differentiating its angle."""

import math
import random
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.mechanics import braking, road_gaps, universal_joint

MACHINES = 100


def moved(
    state: list[float], push: float, most: float, *ends: Callable[[float, list[float]], float]
) -> tuple[float, list[float]]:
    """Integrate place and speed under a constant push until the first of the ends is met."""
    for end in ends:
        end.terminal = True  # type: ignore[attr-defined]
    motion = lambda time, now: [now[1], push]  # noqa: E731
    run = solve_ivp(motion, (0.0, most), state, events=list(ends) or None, rtol=1e-9, atol=1e-9)
    return float(run.t[-1]), [float(one) for one in run.y[:, -1]]


@pytest.mark.parametrize("seed", range(MACHINES))
def test_stopping_distance(seed: int) -> None:
    rng = random.Random(f"stop {seed}")
    speed, brakes = rng.uniform(1.0, 15.0), rng.uniform(0.5, 5.0)
    react, delay = rng.uniform(0.0, 2.5), rng.uniform(0.1, 0.6)

    state = moved([0.0, speed], 0.0, react + delay)[1]
    _, state = moved(state, -brakes, 60.0, lambda t, now: now[1])
    found = braking.stopping_distance(speed, brakes, react, delay)
    assert found == pytest.approx(state[0], rel=1e-6)


@pytest.mark.parametrize("seed", range(MACHINES))
def test_time_to_clear(seed: int) -> None:
    """Both with and without reaching the top speed."""
    rng = random.Random(f"clear {seed}")
    distance, top = rng.uniform(1.0, 60.0), rng.uniform(1.0, 12.0)
    acceleration, delay = rng.uniform(0.2, 1.5), rng.uniform(0.0, 3.0)
    left = lambda t, now: now[0] - distance  # noqa: E731
    spent, state = moved([0.0, 0.0], acceleration, 200.0, left, lambda t, now: now[1] - top)
    if state[0] < distance - 1e-9:
        spent += moved(state, 0.0, 200.0, left)[0]
    found = road_gaps.time_to_clear(distance, top, acceleration, delay)
    assert found == pytest.approx(delay + spent, rel=1e-6)


def output_angles(joint: float, turns: np.ndarray) -> np.ndarray:
    """The output's turn, from the cross: its arm is square to the other arm and to its shaft."""
    arm = np.stack([np.cos(turns), np.sin(turns), np.zeros_like(turns)], axis=1)
    shaft = np.array([math.sin(joint), 0.0, math.cos(joint)])
    other = np.cross(shaft, arm)
    across = np.array([math.cos(joint), 0.0, -math.sin(joint)])
    return np.unwrap(np.arctan2(other[:, 1], other @ across))


@pytest.mark.parametrize("seed", range(MACHINES))
def test_ripple_of_a_joint(seed: int) -> None:
    rng = random.Random(f"joint {seed}")
    joint, speed = math.radians(rng.uniform(1.0, 45.0)), rng.uniform(20.0, 110.0)
    turns = np.linspace(0.0, 2 * math.pi, 40_001)
    ratio = np.gradient(output_angles(joint, turns), turns)[2:-2]
    least, most = universal_joint.ratio_extremes(joint)
    assert (float(ratio.min()), float(ratio.max())) == pytest.approx((least, most), rel=1e-5)
    assert universal_joint.fluctuation(joint) == pytest.approx(
        float(np.ptp(ratio)), rel=1e-3, abs=1e-6
    )
    change = np.gradient(ratio, turns[2:-2])[2:-2]
    peak = speed**2 * float(np.abs(change).max())
    assert universal_joint.peak_acceleration(speed, joint) == pytest.approx(peak, rel=1e-3)
