"""A solved value as a number that people type, rounded to the side that still meets the checks."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc import model, quantities
from calc.quantities import Unit

FIGURES = 3  # of a number in a sentence, as quantities.show writes it
_COARSE = ("distance", "mass")  # kinds rounded to whole units; the others to tenths


def step_of(item: model.Field, system: str = "us", step: float = 0.0) -> tuple[Unit, float]:
    """Return the unit in which a field's values are typed, and the step between two of them.

    `step` is the one wanted, in the field's US unit; by kind when zero. In metric units it is the
    whole one of theirs that is nearest: 50 lb are 50 kg, 1 ft is half a meter.
    """
    kind = quantities.kind(item.kind)
    us = kind.unit(item.unit_us or kind.us)
    usual = step or (1.0 if item.kind in _COARSE else 0.1)
    if system == "us":
        return us, usual
    metric = kind.unit(item.unit_metric or kind.metric)
    if metric.symbol == us.symbol or "tan" in (metric.curve, us.curve):
        return metric, usual
    return metric, whole_step(usual * us.factor / metric.factor)


def whole_step(step: float) -> float:
    """Return the nearest 1 or 5 with zeros to a step between two sizes, by ratio."""
    tens = 10.0 ** math.floor(math.log10(step))
    return float(tens * min((1, 5, 10), key=lambda whole: abs(math.log(step / tens / whole))))


def sold(sizes: Sequence[float], item: model.Field, system: str) -> list[float]:
    """Return sizes that can be bought as a shop of these units sells them: two figures of its own.

    A 60 in cutter is one of 1.5 m where they are sold by the meter.
    """
    unit, _ = step_of(item, system)
    if system == "us" or unit.symbol == step_of(item)[0].symbol:
        return list(sizes)
    return [unit.to_base(float(f"{unit.from_base(size):.2g}")) for size in sizes]


def step_said(amount: float, unit: Unit, step: float) -> float:
    """Return the step at an amount: what is put in has no more figures than are said.

    An edge of 4,499 lb is said as 4,500 lb, which may be the very value that is too much.
    """
    if unit.symbol == "$" or not amount or not math.isfinite(amount):
        return step
    return max(step, 10.0 ** (math.floor(math.log10(abs(amount)) + 1e-9) + 1 - FIGURES))


def steps_to(value: float, unit: Unit, step: float, *, up: bool) -> int:
    """Return how many steps make the nearest round number at or beyond a solved value."""
    return quantities.whole_steps(unit.from_base(value) / step, up=up)


def typed(number: float, unit: Unit) -> str:
    """Return a number of a unit as the text of a field."""
    return f"{round(number, 6):g} {unit.symbol}".strip()
