"""What is asked of one number over a box, the worst that was met, and how it went."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc.search.enclosing import Key
from calc.search.slopes import INF

SHARE = 0.005  # of its width, as near as a shown end comes to the true one
ROUNDING = 1e-9


@dataclass(slots=True)
class Found:
    """How a question about the box went: settled or left open, and where it was worst.

    `failed` says that it isn't so, as `point` shows. `value` is the least (or greatest) of the
    points computed, None when there was none; `bound` is what sign times the number is at least
    all over the box, when it is settled.
    """

    settled: bool
    failed: bool = False
    value: float | None = None
    bound: float = -INF
    point: Mapping[str, Any] | None = None


class Question:
    """What is asked of one number, and the worst that was met."""

    __slots__ = ("bound", "everywhere", "failed", "goal", "key", "point", "sign", "top", "value")

    def __init__(self, key: Key, sign: int, goal: float | None, everywhere: bool) -> None:
        self.key, self.sign, self.goal, self.everywhere = key, sign, goal, everywhere
        self.value, self.top, self.bound = INF, -INF, INF
        self.point: Mapping[str, Any] | None = None
        self.failed = False

    @property
    def enough(self) -> float:
        """A part on which the number is at least this needs no closer look."""
        if self.goal is not None:
            return self.goal
        if not -INF < self.value < INF:
            return self.value
        width = self.top - self.value
        near = SHARE * width if 0.0 < width < INF else 0.0
        return self.value - near - ROUNDING * abs(self.value)

    def passes(self, bound: float) -> bool:
        """Whether a part on which the number is at least that needs no closer look."""
        if not bound >= self.enough:
            return False
        self.bound = min(self.bound, bound)
        return True

    def meet(self, value: float | None, point: Mapping[str, Any]) -> None:
        """Take note of a point."""
        if value is None:
            if self.everywhere:
                self.failed, self.point = True, point
            return
        signed = self.sign * value
        self.top = max(self.top, signed)
        if signed < self.value:
            self.value, self.point = signed, point
            self.failed = self.goal is not None and signed < self.goal

    def found(self, settled: bool) -> Found:
        """The outcome."""
        value = None if self.value == INF else self.sign * self.value
        return Found(settled, self.failed, value, min(self.value, self.bound), self.point)
