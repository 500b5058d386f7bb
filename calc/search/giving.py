"""The box that is left once one of its uncertain inputs is known, and where a point lies in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from calc import model
from calc.model import Worksheet
from calc.quantities import Reading
from calc.search.box import Box, Dimension, Known, box_of


class _Noted(dict[str, Any]):
    """What is known, noting which of it is read."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        super().__init__(values)
        self.read: set[str] = set()

    def __getitem__(self, name: str) -> Any:
        self.read.add(name)
        return super().__getitem__(name)

    def get(self, name: str, default: Any = None) -> Any:
        """Return what is known under a name."""
        self.read.add(name)
        return super().get(name, default)


def told_by(sheet: Worksheet, known: Known) -> dict[str, set[str]]:
    """Return, for each input that isn't known, the others on which it hangs what it may be."""
    found: dict[str, set[str]] = {}
    for item in sheet.fields:
        noted = _Noted(known.values)
        if isinstance(item, model.Choice):
            item.open_to(noted)
        elif isinstance(item, model.Field) and known.values[item.name] is None:
            item.typical_for(noted)
        found[item.name] = noted.read
    return found


def leading(sheet: Worksheet, known: Known) -> set[str]:
    """Return the inputs on whose value it hangs what others may be while those aren't known."""
    return set[str]().union(*told_by(sheet, known).values())


class Giving:
    """One box, with one input after another put in as somebody would give it."""

    def __init__(self, sheet: Worksheet, box: Box, known: Known) -> None:
        self.sheet, self.box, self.known = sheet, box, known
        self.dimensions = {dim.name: dim for dim in box.dimensions}
        self.leading = leading(sheet, known)

    def given(self, dim: Dimension, places: Sequence[float]) -> Iterator[Box]:
        """Give the box with an input known, for one value of its range after another.

        Where what others may be hangs on it, they narrow with it. What nobody could say beside
        the rest that was given is left out.
        """
        for value in dim.options or [dim.at(place) for place in places]:
            if dim.name in self.leading:
                known = value if dim.options else Reading(value, value)
                values = {**self.known.values, dim.name: known}
                if self.sheet.review(values):
                    continue
                yield box_of(self.sheet, replace(self.known, values=values))
            else:
                left = tuple(one for one in self.box.dimensions if one is not dim)
                yield replace(self.box, base={**self.box.base, dim.name: value}, dimensions=left)

    def point(self, box: Box, values: Mapping[str, Any], **changed: Any) -> model.Inputs:
        """Return the point of a narrowed box that lies where another lay in the whole one."""
        placed = {dim.name: self._placed(dim, values) for dim in box.dimensions}
        return box.point({**placed, **changed})

    def _placed(self, dim: Dimension, values: Mapping[str, Any]) -> Any:
        was = self.dimensions.get(dim.name)
        if dim.options:
            return values[dim.name] if was and values[dim.name] in dim.options else dim.middle
        if was is None or was.options or was.low == was.high:
            return dim.middle
        return dim.at((values[dim.name] - was.low) / (was.high - was.low))
