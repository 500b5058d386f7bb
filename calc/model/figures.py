"""Outputs, steps and cells of tables as text, each in its unit."""

from __future__ import annotations

from calc import model
from calc import quantities as q
from calc.model import shown, words


def unit_of(item: model.Check | model.Output | model.Step, system: str) -> str:
    """The unit that an item is said in, where it isn't the one of its kind."""
    return item.unit_us if system == "us" else item.unit_metric


def output_text(output: model.Output, system: str, count: int = q.FIGURES) -> str:
    """An output's value, or its range."""
    unit = unit_of(output, system)
    if output.low is not None and output.high is not None:
        return q.show_range(output.low, output.high, output.kind, system, unit=unit, figures=count)
    return q.show(output.value, output.kind, system, unit=unit, figures=count)


def most(output: model.Output, system: str) -> str:
    """An output that is the most one may do: over a range the end that is safe comes first."""
    unit = unit_of(output, system)
    ends = [end for end in (output.low, output.high) if end is not None]
    said = [q.show(end, output.kind, system, unit=unit) for end in ends or [output.value]]
    least = "Nothing" if said[0].startswith("0 ") else f"{said[0]} at most"
    return least if len(set(said)) == 1 else f"{least} to be sure ({said[-1]} at best)"


def sides(output: model.Output, system: str) -> str:
    """A difference that may be a loss as well as a gain."""
    ends = [end for end in (output.low, output.high) if end is not None] or [output.value]
    unit = unit_of(output, system)
    words = ["less" if end < 0 else "more" for end in ends]
    if len(set(words)) == 1:
        low, high = min(map(abs, ends)), max(map(abs, ends))
        return f"{q.show_range(low, high, output.kind, system, unit=unit)} {words[0]}"
    said = [q.show(abs(end), output.kind, system, unit=unit) for end in ends]
    return q.joined([f"{one} {word}" for one, word in zip(said, words, strict=True)], "to")


def step_numbers(step: model.Step, system: str) -> str:
    """The numbers put into a formula."""
    return ", ".join(
        f"{symbol} = {q.show(value, q.summed(kind), system, figures=4)}"
        for symbol, value, kind in step.numbers
    )


def step_value(step: model.Step, system: str) -> str:
    """The result of a step."""
    return q.show(step.value, q.summed(step.kind), system, unit=unit_of(step, system), figures=4)


def cell_text(cell: model.Cell, system: str) -> str:
    """A cell of a table in the reader's units."""
    return shown(cell, system) if isinstance(cell, tuple) else words(cell, system)
