"""A solved value as the text that tries it out, rounded to the side that still meets the checks."""

import math
from collections.abc import Sequence

from calc import model, quantities
from calc.search import Solver

# A solved edge is found by halving, so it may be short of a round number by this share of a step.
_SLACK = 5e-4
_COARSE = ("distance", "mass")  # kinds rounded to whole units; the others to tenths


def solved(
    solve: Solver, name: str, value: float, checks: Sequence[str] = (), *, up: bool
) -> dict[str, str]:
    """Return what to set: the field `name` to the value, rounded up or down in its US unit.

    A rounded value that just misses the checks named (all when empty) is moved one step on.
    """
    item = solve.sheet.field(name)
    assert isinstance(item, model.Field)
    kind = quantities.kind(item.kind)
    unit = kind.unit(item.unit_us or kind.us)
    step = 1.0 if item.kind in _COARSE else 0.1
    steps = unit.from_base(value) / step
    whole = math.ceil(steps - _SLACK) if up else math.floor(steps + _SLACK)
    if solve.run(**{name: unit.to_base(whole * step)}).margin(checks) < 0:
        whole += 1 if up else -1
    return {name: f"{round(whole * step, 6):g} {unit.symbol}"}
