"""What a reader fills in: quantities, choices and entries, each read and refused in one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from calc import quantities
from calc.errors import InputError
from calc.model.text import in_sentence
from calc.quantities import Reading


@dataclass(frozen=True, slots=True)
class Typical:
    """The range used when an input isn't known, and where that range comes from."""

    low: float
    high: float
    source: str
    of: str = ""  # what kind of machine it is typical of, in words


KnownSoFar = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Field:
    """A quantity that a reader fills in.

    `low` and `high` are the limits of what can be a real value, as text with a unit.
    Blank means unknown: the `typical` range is used, or, for an `optional` field, None
    reaches `compute` and whatever needs it is left out. `essential` fields are asked first;
    the others sit behind one more step, under the heading `group`.
    """

    name: str
    label: str
    kind: str
    low: str
    high: str
    help: str
    default: str = ""
    typical: Typical | Callable[[KnownSoFar], Typical] | None = None
    optional: bool = False
    essential: bool = False
    group: str = "More numbers"
    unit_us: str = ""
    unit_metric: str = ""

    def __post_init__(self) -> None:
        if self.typical is None and not self.optional:
            raise ValueError(f"Field {self.name} needs a typical range or must be optional.")

    def typical_for(self, known: KnownSoFar) -> Typical | None:
        """Return the typical range for what is known of the machine."""
        return self.typical(known) if callable(self.typical) else self.typical

    def unit(self, system: str) -> str:
        """The unit in which this field is shown; empty for the system's own."""
        return self.unit_us if system == "us" else self.unit_metric

    def limits_text(self, system: str = "us") -> str:
        """The limits as a phrase."""
        ends = [quantities.base(end, self.kind) for end in (self.low, self.high)]
        return quantities.show_range(ends[0], ends[1], self.kind, system, unit=self.unit(system))

    def read(self, text: str, system: str = "us") -> Reading | None:
        """Return what was typed, or None when it is unknown.

        Raises
        ------
        InputError
            When it can't be read or lies outside the limits.
        """
        reading = quantities.parse(text, self.kind)
        if reading is None:
            return None
        low, high = quantities.base(self.low, self.kind), quantities.base(self.high, self.kind)
        slack = 1e-9 * max(abs(low), abs(high))
        if reading.low < low - slack or reading.high > high + slack:
            if reading.high <= 0 < low:
                problem = "must be more than zero"
            else:
                problem = f"must lie between {self.limits_text(system).replace(' to ', ' and ')}"
            raise InputError(f"“{quantities.shorten(text)}”: {in_sentence(self.label)} {problem}.")
        return reading


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a choice."""

    value: str
    label: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few options. When `unsure` holds values, "not sure" may be picked as well,
    and the finding must then hold for each of those values."""

    name: str
    label: str
    options: tuple[Option, ...]
    help: str
    default: str = ""
    unsure: tuple[str, ...] = ()
    essential: bool = False
    group: str = "More numbers"

    def __post_init__(self) -> None:
        values = {option.value for option in self.options}
        if not set(self.unsure) <= values or (self.default and self.default not in values):
            raise ValueError(f"Choice {self.name} names a value that is not among its options.")
        if not self.default and not self.unsure:
            raise ValueError(f"Choice {self.name} needs a default or values to be unsure between.")

    def read(self, text: str, system: str = "us") -> str | None:
        """Return the value picked, or None for "not sure"."""
        picked = text.strip()
        if picked.lower() in quantities.UNKNOWN_WORDS:
            return None if self.unsure else self.default
        for option in self.options:
            if picked.lower() in (option.value.lower(), option.label.lower()):
                return option.value
        accepted = quantities.joined([option.value for option in self.options], "or")
        raise InputError(
            f"“{quantities.shorten(picked)}” is not one of the options for "
            f"{in_sentence(self.label)}: {accepted}."
        )


@dataclass(frozen=True, slots=True)
class Entry:
    """A field for text that is neither a quantity nor a choice, such as a tire size.

    `decode` turns the text into the value and raises InputError with a sentence; blank gives
    None.
    """

    name: str
    label: str
    help: str
    decode: Callable[[str], Any]
    default: str = ""
    essential: bool = False
    group: str = "More numbers"
    example: str = ""

    def read(self, text: str, system: str = "us") -> Any:
        """Return the decoded value, or None when blank."""
        plain = text.strip()
        if plain.lower() in quantities.UNKNOWN_WORDS:
            return None
        if len(plain) > quantities.LONGEST_TEXT:
            raise InputError(
                f"That is {len(plain):,} characters long; write something like {self.example}."
            )
        return self.decode(plain)


AnyField = Field | Choice | Entry
