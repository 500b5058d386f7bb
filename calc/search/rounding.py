"""A solved value as a number that people type, rounded to the side that still meets the checks."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc import model, quantities
from calc.quantities import Unit
from calc.search.solver import Solver

# A solved edge is found by halving, so it may be short of a round number by this share of a step.
_SLACK = 5e-4
FIGURES = 3  # of a number in a sentence, as quantities.show writes it
_COARSE = ("distance", "mass")  # kinds rounded to whole units; the others to tenths


def step_of(item: model.Field) -> tuple[Unit, float]:
    """Return the unit in which a field's values are typed, and the step between two of them."""
    kind = quantities.kind(item.kind)
    return kind.unit(item.unit_us or kind.us), 1.0 if item.kind in _COARSE else 0.1


def step_said(amount: float, unit: Unit, step: float) -> float:
    """Return the step at an amount: what is put in has no more figures than are said.

    An edge of 4,499 lb is said as 4,500 lb, which may be the very value that is too much.
    """
    if unit.symbol == "$" or not amount or not math.isfinite(amount):
        return step
    return max(step, 10.0 ** (math.floor(math.log10(abs(amount)) + 1e-9) + 1 - FIGURES))


def steps_to(value: float, unit: Unit, step: float, *, up: bool) -> int:
    """Return how many steps make the nearest round number at or beyond a solved value."""
    steps = unit.from_base(value) / step
    return math.ceil(steps - _SLACK) if up else math.floor(steps + _SLACK)


def typed(number: float, unit: Unit) -> str:
    """Return a number of a unit as the text of a field."""
    return f"{round(number, 6):g} {unit.symbol}".strip()


def solved(
    solve: Solver, name: str, value: float, checks: Sequence[str] = (), *, up: bool
) -> dict[str, str]:
    """Return what to set: the field `name` to the value, rounded up or down in its US unit.

    A rounded value that just misses the checks named (all when empty) is moved one step on.
    """
    item = solve.sheet.field(name)
    assert isinstance(item, model.Field)
    unit, step = step_of(item)
    step = step_said(unit.from_base(value), unit, step)
    whole = steps_to(value, unit, step, up=up)
    if solve.run(**{name: unit.to_base(whole * step)}).margin(checks) < 0:
        whole += 1 if up else -1
    return {name: typed(whole * step, unit)}
