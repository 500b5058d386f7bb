"""What was typed, as the box of everything that the inputs may be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc import model, quantities
from calc.errors import InputError
from calc.model import Inputs, Worksheet
from calc.quantities import Reading


class BadInputs(InputError):
    """Some fields can't be used; `errors` holds a sentence for each."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = dict(errors)


@dataclass(frozen=True, slots=True)
class Dimension:
    """An input that isn't exact: its ends, or the options it may be."""

    name: str
    low: Any
    high: Any
    middle: Any
    options: tuple[Any, ...] = ()
    typed: bool = False

    @property
    def ends(self) -> tuple[Any, ...]:
        """The values that a corner may take."""
        return self.options or (self.low, self.high)

    def at(self, share: float) -> Any:
        """The value a share of the way from one end to the other."""
        if self.options:
            return self.options[min(int(share * len(self.options)), len(self.options) - 1)]
        return self.low + share * (self.high - self.low)


@dataclass(frozen=True, slots=True)
class Box:
    """Everything the inputs may be."""

    base: Mapping[str, Any]  # every input, uncertain ones at their middle
    dimensions: tuple[Dimension, ...]
    assumed: tuple[model.Assumed, ...]

    def point(self, values: Mapping[str, Any]) -> Inputs:
        """Return the inputs with those values of the uncertain ones."""
        return Inputs({**self.base, **values})


def read_box(sheet: Worksheet, typed: Mapping[str, str], system: str = "us") -> Box:
    """Turn what was typed into the box of possible values. A field that isn't given has its
    default; one that is blank is unknown.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used, and for each unknown name.
    """
    errors: dict[str, str] = {}
    known: dict[str, Any] = {}
    names = {item.name for item in sheet.fields}
    for name in typed:
        if name not in names:
            errors[name] = f"{sheet.title} has no field called “{quantities.shorten(name)}”."
    for item in sheet.fields:
        try:
            known[item.name] = item.read(typed.get(item.name, item.default), system)
        except InputError as error:
            errors[item.name] = str(error)
            known[item.name] = None
    if not errors:
        errors.update(sheet.review(known))
    if errors:
        raise BadInputs(errors)
    return _box(sheet, known)


def _box(sheet: Worksheet, known: dict[str, Any]) -> Box:
    base: dict[str, Any] = {}
    dimensions: list[Dimension] = []
    assumed: list[model.Assumed] = []
    for item in sheet.fields:
        value = known[item.name]
        if isinstance(item, model.Field):
            if value is None:
                typical = item.typical_for(known)
                if typical is None:
                    base[item.name] = None
                    continue
                assumed.append(model.Assumed(item, typical))
                value = Reading(typical.low, typical.high)
                typed = False
            else:
                typed = True
            base[item.name] = value.middle
            if not value.exact:
                dimensions.append(
                    Dimension(item.name, value.low, value.high, value.middle, typed=typed)
                )
        elif isinstance(item, model.Choice) and value is None:
            base[item.name] = item.unsure[0]
            assumed.append(model.Assumed(item, None, item.unsure))
            if len(item.unsure) > 1:
                dimensions.append(
                    Dimension(
                        item.name, item.unsure[0], item.unsure[-1], item.unsure[0], item.unsure
                    )
                )
        else:
            base[item.name] = value
    return Box(base, tuple(dimensions), tuple(assumed))


def known_of(sheet: Worksheet, typed: Mapping[str, str]) -> dict[str, Any]:
    """Return what can be read of the inputs, leaving None where a field can't be used."""
    known: dict[str, Any] = {}
    for item in sheet.fields:
        try:
            known[item.name] = item.read(typed.get(item.name, item.default))
        except InputError:
            known[item.name] = None
    return known
