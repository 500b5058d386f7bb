"""Solving for the values of inputs that meet their checks."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import cached_property
from typing import Any

from calc import model
from calc.model import Inputs, Outcome, Worksheet
from calc.search.bisection import last_met
from calc.search.box import Dimension
from calc.search.looking import Search


class Solver:
    """Solves for remedies at one point: the middle, or where the deciding check is worst."""

    def __init__(
        self,
        sheet: Worksheet,
        point: Inputs,
        assumed: frozenset[str] = frozenset(),
        *,
        ranged: bool = False,
        verdicts: Sequence[model.Verdict] = (),
        worst: Mapping[str, Inputs] | None = None,
        system: str = "us",
        dimensions: Sequence[Dimension] = (),
        told_by: Callable[[], Mapping[str, Collection[str]]] = dict,
        offers: bool = True,
    ) -> None:
        self.sheet = sheet
        self.point = point
        self.assumed = assumed  # names of the fields whose typical range stands in
        self.ranged = ranged  # whether any input is a range or unknown
        self.verdicts = verdicts
        self.system = system  # the units in which sizes are bought
        self._worst = worst or {}
        self._dimensions = dimensions
        self._find_told_by = told_by
        self._offers = offers  # False for a first look: nothing is offered yet
        self._silent = model.Work(on=False)
        self._now: dict[Inputs, Outcome] = {}

    @classmethod
    def after(
        cls,
        search: Search,
        verdicts: Sequence[model.Verdict],
        point: Inputs,
        told_by: Callable[[], Mapping[str, Collection[str]]],
        *,
        offers: bool,
    ) -> Solver:
        """Return the solver of an answer: it knows where in the box each check is worst.

        `told_by` gives, once a remedy asks, the inputs on which it hangs what another may be.
        """
        return cls(
            search.sheet,
            point,
            frozenset(item.field.name for item in search.box.assumed),
            ranged=bool(search.box.dimensions),
            verdicts=verdicts,
            worst=_points(search),
            system=search.box.system,
            dimensions=search.box.dimensions,
            told_by=told_by,
            offers=offers,
        )

    @cached_property
    def _told_by(self) -> Mapping[str, Collection[str]]:
        return self._find_told_by()

    @property
    def broken(self) -> tuple[str, ...]:
        """The checks to mend: broken somewhere in the box, mere advice left out, worst first."""
        if not self._offers:
            return ()
        return tuple(
            v.check.name
            for v in self.verdicts
            if v.margin_low < 0 and v.check.grade != model.ADVICE
        )

    def worst_of(self, check: str) -> Inputs:
        """Return the point of the box at which a check is worst."""
        return self._worst.get(check, self.point)

    def worst_after(self, check: str, changes: Mapping[str, Any]) -> Inputs | None:
        """Return the point at which a check is worst once some inputs are changed, near the old.

        Another material or another end of a range may then be worse than what was worst before:
        one input after another is moved to its ends, and a move that makes it worse is kept. What
        is only usual stays where the changed inputs tell it. None where the check isn't made.
        """
        corner = self.worst_of(check)
        reached = self._margin(check, corner, changes)
        if reached is None:
            return None
        for dim in self._dimensions:
            told = self._told_by.get(dim.name, ())
            if dim.name in changes or any(name in told for name in changes):
                continue
            for end in dim.ends:
                moved = corner.but(**{dim.name: end})
                margin = self._margin(check, moved, changes)
                if margin is not None and margin < reached:
                    corner, reached = moved, margin
        return corner

    def _margin(self, check: str, point: Inputs, changes: Mapping[str, Any]) -> float | None:
        found = self.check(check, point, **changes)
        return None if found is None else found.margin

    def check(self, name: str, point: Inputs, **changes: Any) -> model.Check | None:
        """Return one check at a point with some inputs replaced; what it doesn't need is left out.

        None where it isn't made there.
        """
        moved = point.but(**changes)
        return model.run_for(name, lambda: self.sheet.compute(moved, self._silent))

    def worst_points(self, checks: Iterable[str]) -> list[Inputs]:
        """Return the points at which checks are worst, each once: many share one."""
        return list(dict.fromkeys(self.worst_of(check) for check in checks))

    def at(self, point: Inputs, **changes: Any) -> Outcome:
        """Return the outcome at a point with some inputs replaced."""
        return self.sheet.compute(point.but(**changes), self._silent)

    def now(self, point: Inputs) -> Outcome:
        """Return the outcome at one of the worst points as it is; every remedy asks for it."""
        if point not in self._now:
            self._now[point] = self.at(point)
        return self._now[point]

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


def _points(search: Search) -> dict[str, Inputs]:
    """Return the point at which each check is worst: one and the same where several share it."""
    made: dict[tuple[tuple[str, Any], ...], Inputs] = {}
    worst: dict[str, Inputs] = {}
    for name, (_, values, _) in search.worst.items():
        key = tuple(values.items())
        worst[name] = made.setdefault(key, search.box.point(values))
    return worst
