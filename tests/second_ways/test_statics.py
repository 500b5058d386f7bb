"""Axle loads by a general solve of the statics, tip angles by turning the ground."""

import math
import random
from collections.abc import Callable

import numpy as np
import pytest
from scipy.optimize import brentq

from calc.mechanics import axle_loads, ballast, stability

MACHINES = 120


def tractor(rng: random.Random) -> dict[str, float]:
    mass = rng.uniform(500.0, 6000.0)
    return {
        "mass": mass,
        "front": mass * rng.uniform(0.3, 0.5),
        "wheelbase": rng.uniform(1.2, 2.6),
        "hitch": rng.uniform(0.5, 1.1),
        "cg": rng.uniform(0.3, 1.2),
        "rear": rng.uniform(0.0, 0.5) * mass,
        "ahead": rng.uniform(0.4, 1.5),
        "weights": rng.uniform(0.0, 0.2) * mass,
    }


def solved(loads: list[tuple[float, float]], wheelbase: float) -> tuple[float, float]:
    """Front and rear reaction: forces add up, and so do moments about any point."""
    forces = np.array([[1.0, 1.0], [wheelbase - 0.37, -0.37]])  # moments about 0.37 m ahead
    weights = [
        sum(mass for mass, _ in loads),
        sum(mass * (place - 0.37) for mass, place in loads),
    ]
    front, rear = np.linalg.solve(forces, np.array(weights))
    return float(front), float(rear)


def all_loads(m: dict[str, float], weights: float) -> list[tuple[float, float]]:
    """Every mass and how far ahead of the rear axle it is."""
    own = m["wheelbase"] * m["front"] / m["mass"]
    front = m["wheelbase"] + m["ahead"]
    return [(m["mass"], own), (m["rear"], -m["hitch"] - m["cg"]), (weights, front)]


@pytest.mark.parametrize("seed", range(MACHINES))
def test_axle_loads(seed: int) -> None:
    m = tractor(random.Random(f"axles {seed}"))
    front, rear = solved(all_loads(m, m["weights"]), m["wheelbase"])
    place = m["wheelbase"], m["hitch"], m["cg"], m["rear"], m["weights"], m["ahead"]
    assert axle_loads.front_axle_load(m["front"], *place) == pytest.approx(
        front, rel=1e-9, abs=1e-6
    )
    found = axle_loads.rear_axle_load(m["mass"], m["front"], *place)
    assert found == pytest.approx(rear, rel=1e-9)


@pytest.mark.parametrize("seed", range(MACHINES))
def test_least_front_ballast(seed: int) -> None:
    """The weights that bring the front reaction to a fifth of the tractor, by bisection."""
    m = tractor(random.Random(f"front {seed}"))

    def short(weights: float) -> float:
        return solved(all_loads(m, weights), m["wheelbase"])[0] - 0.2 * m["mass"]

    needed = 0.0 if short(0.0) >= 0.0 else brentq(short, 0.0, 10 * m["mass"])
    place = m["wheelbase"], m["hitch"], m["cg"], m["rear"], m["ahead"]
    found = ballast.front_ballast_needed(m["mass"], m["front"], *place)
    assert found == pytest.approx(needed, rel=1e-6, abs=1e-6)


def turned(overturns: Callable[[float], float]) -> float:
    """The slope at which the weight's moment about the line of tipping vanishes."""
    return float(brentq(overturns, 0.0, math.pi / 2 - 1e-9))


@pytest.mark.parametrize("seed", range(MACHINES))
def test_tip_angles(seed: int) -> None:
    rng = random.Random(f"tip {seed}")
    track, wheelbase = rng.uniform(0.8, 2.2), rng.uniform(1.2, 2.6)
    ahead, height = rng.uniform(0.25, 0.55) * wheelbase, rng.uniform(0.4, 1.1)
    pivot = rng.uniform(0.0, 0.8) * height

    def weight(slope: float, along: bool = False) -> np.ndarray:
        down = (-math.sin(slope), 0.0) if along else (0.0, math.sin(slope))
        return np.array([*down, -math.cos(slope)])

    def moment(start: np.ndarray, end: np.ndarray, force: np.ndarray) -> float:
        arm = np.array([ahead, 0.0, height]) - start
        return float(np.dot(np.cross(arm, force), end - start))

    wheel = np.array([0.0, track / 2, 0.0])
    before = wheel + np.array([1.0, 0.0, 0.0])
    four = turned(lambda s: moment(wheel, before, weight(s)))
    assert stability.side_tip_angle(track, height) == pytest.approx(four, abs=1e-9)
    axle = np.array([wheelbase, 0.0, pivot])
    three = turned(lambda s: moment(wheel, axle, weight(s)))
    found = stability.side_tip_angle_pivoting(track, height, wheelbase, ahead, pivot)
    assert found == pytest.approx(three, abs=1e-9)
    ground = np.array([0.0, 1.0, 0.0])
    back = turned(lambda s: moment(0 * ground, ground, weight(s, along=True)))
    assert stability.rear_tip_angle(ahead, height) == pytest.approx(back, abs=1e-9)
