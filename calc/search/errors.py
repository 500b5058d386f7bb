"""What each number's error does: one realistic slip of the tape or scale, and the margin after it.

A number off a plate has no error of its own; a kind of quantity that nobody measures on a machine
(money, a share) has no row in the table and is left out.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc import model, quantities, tables
from calc.model import Worksheet
from calc.search.box import Box

SILENT = model.Work(on=False)


@dataclass(frozen=True, slots=True)
class ErrorEffect:
    """One input, how it is measured, how far that may be off, and what it does.

    `error` is in the base unit of the field's kind. `change` is what the error takes from the
    deciding check's margin, on the side where it takes most: 0 or less. `turns` says whether that
    alone turns a check that is met into one that isn't.
    """

    field: model.Field
    how: str  # "tape", "scale", "plate"
    error: float
    change: float
    turns: bool
    source: str


def error_of(item: model.Field, value: float) -> tuple[str, float, str] | None:
    """Return how a field's number is measured, how far that may be off, and who says so.

    The error is in the base unit of the field's kind; None where the kind isn't measured.
    """
    for row in tables.rows("machines/measuring_errors"):
        ends = tuple(row["names"].split())
        if row["kind"] == item.kind and (not ends or item.name.endswith(ends)):
            if row["error"]:
                return row["how"], quantities.base(row["error"], item.kind), row["source"]
            return row["how"], float(row["share"]) * abs(value), row["source"]
    return None


def error_effects(sheet: Worksheet, box: Box, check: str) -> tuple[ErrorEffect, ...]:
    """Return what an error of each number that was given does to the margin of a check.

    Parameters
    ----------
    sheet
        The worksheet.
    box
        What was given (`calc.search.read_box`). What is uncertain stands at its middle; a number
        that was given as a range says its own error and has no row.
    check
        The name of the check, as a rule the deciding one.

    Returns
    -------
    tuple of ErrorEffect
        What takes most first. Empty where the check isn't made.
    """
    before = sheet.compute(box.point({}), SILENT).check(check)
    if before is None:
        return ()
    uncertain = {dim.name for dim in box.dimensions}
    found = []
    for item in sheet.fields:
        value = box.base.get(item.name)
        if not isinstance(item, model.Field) or not isinstance(value, float | int):
            continue
        measured = error_of(item, value)
        if item.name in uncertain or measured is None:
            continue
        how, error, source = measured
        margins = [before.margin, *_margins(sheet, box, item, value, error, check)]
        change = min(margins) - before.margin
        turns = before.margin >= 0.0 > min(margins)
        found.append(ErrorEffect(item, how, error, change, turns, source))
    return tuple(sorted(found, key=lambda one: one.change))


def _margins(
    sheet: Worksheet, box: Box, item: model.Field, value: float, error: float, check: str
) -> list[float]:
    """The check's margins with the number off by its error, as far as the field allows."""
    low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
    found = []
    for off in (value - error, value + error):
        moved = min(max(off, low), high)
        try:
            after = sheet.compute(box.point({item.name: moved}), SILENT).check(check)
        except ValueError:  # the sums refuse it beside the other numbers
            continue
        if after is not None:
            found.append(after.margin)
    return found
