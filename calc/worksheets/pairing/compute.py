"""The sums."""

from __future__ import annotations

from calc import model
from calc.worksheets.pairing import checks as pairing


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return every check of the pairing."""
    return pairing.check_all(v, work)
