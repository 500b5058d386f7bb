"""Solving for the values of inputs that meet their checks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from calc import model
from calc.model import Inputs, Outcome, Worksheet
from calc.search.bisection import last_met


class Solver:
    """Solves for remedies at one point: the middle, or where the deciding check is worst."""

    def __init__(
        self,
        sheet: Worksheet,
        point: Inputs,
        assumed: frozenset[str] = frozenset(),
        *,
        ranged: bool = False,
    ) -> None:
        self.sheet = sheet
        self.point = point
        self.assumed = assumed  # names of the fields whose typical range stands in
        self.ranged = ranged  # whether any input is a range or unknown
        self._silent = model.Work(on=False)

    def run(self, **changes: Any) -> Outcome:
        """Return the outcome with some inputs replaced."""
        return self.sheet.compute(self.point.but(**changes), self._silent)

    def largest(
        self, name: str, low: float, high: float, checks: Sequence[str] = (), **also: Any
    ) -> float | None:
        """Return the largest value of an input, from `low` to `high`, that meets the checks.

        `checks` names them (all when empty). An item of `also` replaces another input: a value,
        or a function of the value tried, for inputs that go with it (a wider cutter is heavier).
        None when even `low` doesn't meet them; it assumes that more is worse.
        """
        return self._edge(name, low, high, checks, also)

    def smallest(
        self, name: str, low: float, high: float, checks: Sequence[str] = (), **also: Any
    ) -> float | None:
        """Return the smallest value that meets the checks; None when even `high` doesn't."""
        return self._edge(name, high, low, checks, also)

    def _edge(
        self,
        name: str,
        easy: float,
        hard: float,
        checks: Sequence[str],
        also: Mapping[str, Any],
    ) -> float | None:
        def met(value: float) -> bool:
            others = {key: item(value) if callable(item) else item for key, item in also.items()}
            return self.run(**{name: value}, **others).margin(checks) >= 0

        if met(hard):
            return hard
        return last_met(met, easy, hard) if met(easy) else None
