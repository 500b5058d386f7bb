"""Published checks as rows: each compares one number of ours with one that somebody printed.

A test calls `published`, which asserts, and notes the row. `python3 scripts/checks.py` runs all of
them and writes the rows beside this file, from which the page about checks is drawn.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from calc import sources

FIGURES = 7  # with which our number is noted


@dataclass(frozen=True)
class Row:
    """One comparison, as text."""

    of: str  # "mechanics.lift.capacity_at", a table ("road/wire_sizes") or a worksheet
    inputs: str
    published: str
    ours: str
    difference: str
    tolerance: str
    why: str
    source: str
    place: str
    test: str


ROWS: list[Row] = []


def published(
    of: Callable[..., Any] | str,
    inputs: str | Mapping[str, object],
    printed: float | str,
    ours: float | str,
    tolerance: float,
    why: str,
    source: str,
    place: str = "",
    *,
    unit: str = "",
) -> None:
    """Hold a number of ours against a printed one, and note the row.

    Parameters
    ----------
    of
        The function that makes the number; or the table that holds it, or the worksheet.
    inputs
        What it is made from, as the source says it, in the source's units.
    printed, ours
        The number in the source and ours, both in `unit`; or two words that must be equal.
    tolerance
        How far apart the two may be, in the same unit: what the source's rounding allows.
    why
        Where the tolerance comes from ("printed to a tenth").
    source, place
        A citation such as "hitch/H13", and where in it.
    unit
        The unit of both.
    """
    named = f"{of.__module__.removeprefix('calc.')}.{of.__name__}" if callable(of) else of
    cited, within = sources.find(source)
    given = inputs if isinstance(inputs, str) else _joined(inputs)
    assert source and why and given, "A row says from what, why, and where it is printed."
    if isinstance(printed, str) or isinstance(ours, str):
        off = ""
        agrees = printed == ours and not tolerance
    else:
        off = f"{_plain(ours - printed)}"
        agrees = abs(ours - printed) <= tolerance + 1e-12 * abs(printed)
    row = Row(
        named,
        given,
        _with_unit(printed, unit),
        _with_unit(ours, unit),
        off,
        _plain(tolerance),
        why,
        cited.name,
        place or within,
        os.environ.get("PYTEST_CURRENT_TEST", "").partition("[")[0].partition(" ")[0],
    )
    assert agrees, f"{row.of} of {row.inputs}: {row.ours}, printed {row.published}. {row.why}"
    ROWS.append(row)


def _joined(inputs: Mapping[str, object]) -> str:
    return ", ".join(f"{name} {value}" for name, value in inputs.items())


def _plain(value: float) -> str:
    """A number without the dust of binary arithmetic."""
    return f"{0.0 if abs(value) < 1e-9 else value:.3g}"


def _with_unit(value: float | str, unit: str) -> str:
    shown = value if isinstance(value, str) else f"{value:.{FIGURES}g}"
    return f"{shown} {unit}".strip()


def noted() -> list[dict[str, str]]:
    """Return the rows of this run, each once, as they go into the file."""
    return [asdict(row) for row in dict.fromkeys(ROWS)]
