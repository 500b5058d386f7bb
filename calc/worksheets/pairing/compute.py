"""The sums."""

from __future__ import annotations

from calc import model
from calc.worksheets.pairing import checks as pairing


def compute(v: model.Inputs, at: model.At) -> None:
    """Make every check of the pairing."""
    pairing.check_all(v, at)
