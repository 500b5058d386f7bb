"""The sums."""

from __future__ import annotations

from calc import model
from calc.subjects import raised


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the loads in every state, and check them."""
    raised.load(v, at)
