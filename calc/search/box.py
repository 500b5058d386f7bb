"""What was given, as the box of everything that the inputs may be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
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
class Known:
    """What was read of the inputs: a value by field name, None where nothing is known.

    `given` holds the text of each input that somebody gave, `errors` a sentence for each that
    can't be used. The rest is what stands in `example`, if anything; otherwise it is unknown.
    """

    values: Mapping[str, Any]
    given: Mapping[str, str]
    errors: Mapping[str, str]
    example: Mapping[str, str] = field(default_factory=dict)
    system: str = "us"  # the units that the reader sees


@dataclass(frozen=True, slots=True)
class Box:
    """Everything the inputs may be."""

    base: Mapping[str, Any]  # every input, uncertain ones at their middle
    dimensions: tuple[Dimension, ...]
    assumed: tuple[model.Assumed, ...]
    given: Mapping[str, str]
    missing: tuple[model.AnyField, ...] = ()  # needed fields that are blank
    example: Mapping[str, str] = field(default_factory=dict)
    system: str = "us"

    def point(self, values: Mapping[str, Any]) -> Inputs:
        """Return the inputs with those values of the uncertain ones."""
        return Inputs({**self.base, **values})


def read(
    sheet: Worksheet,
    typed: Mapping[str, str],
    system: str = "us",
    *,
    example: bool | Mapping[str, str] = False,
) -> Known:
    """Read every field once. What isn't in `typed` is unknown.

    With `example` the page's example stands in for it instead, or the texts of another one; that
    is for the untouched page and for who asks for it by name, never for a reader's own numbers.
    """
    errors: dict[str, str] = {}
    values: dict[str, Any] = {}
    names = {item.name for item in sheet.fields}
    for name in typed:
        if name not in names:
            errors[name] = f"{sheet.title} has no field called “{quantities.shorten(name)}”."
    stands = sheet.examples() if example is True else dict(example or {})
    texts = {**stands, **typed}
    given: dict[str, str] = {}
    for item in sheet.fields:
        text = texts.get(item.name, "")
        if not text:  # most fields of most answers
            values[item.name] = None
            continue
        try:
            values[item.name] = item.read(text, system)
        except InputError as error:
            errors[item.name] = str(error)
            values[item.name] = None
        if values[item.name] is not None and item.name in typed:
            given[item.name] = text.strip()
    if not errors:
        errors.update(sheet.review(values))
    return Known(values, given, errors, stands, system)


def read_box(
    sheet: Worksheet,
    typed: Mapping[str, str],
    system: str = "us",
    *,
    example: bool | Mapping[str, str] = False,
) -> Box:
    """Turn what was given into the box of possible values.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used, and for each unknown name.
    """
    return box_of(sheet, read(sheet, typed, system, example=example))


def box_of(sheet: Worksheet, known: Known) -> Box:
    """Return the box of what was read.

    Raises
    ------
    BadInputs
        With the sentences of what can't be used.
    """
    if known.errors:
        raise BadInputs(known.errors)
    base: dict[str, Any] = {}
    dimensions: list[Dimension] = []
    assumed: list[model.Assumed] = []
    missing: list[model.AnyField] = []
    for item in sheet.fields:
        value = known.values[item.name]
        base[item.name] = value
        options = item.open_to(known.values) if isinstance(item, model.Choice) else ()
        if value is None and item.needed and not options:
            missing.append(item)
        elif isinstance(item, model.Field):
            typed = value is not None
            if not typed:
                typical = item.typical_for(known.values)
                if typical is None:
                    continue
                assumed.append(model.Assumed(item, typical))
                value = Reading(typical.low, typical.high)
            base[item.name] = value.middle
            if not value.exact:
                dimensions.append(
                    Dimension(item.name, value.low, value.high, value.middle, typed=typed)
                )
        elif isinstance(item, model.Choice) and value is None:
            base[item.name] = options[0]
            assumed.append(model.Assumed(item, None, options))
            if len(options) > 1:
                dimensions.append(
                    Dimension(item.name, options[0], options[-1], options[0], options)
                )
    return Box(
        base,
        tuple(dimensions),
        tuple(assumed),
        known.given,
        tuple(missing),
        known.example,
        known.system,
    )
