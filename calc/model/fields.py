"""What a reader fills in: quantities, choices and entries, each read and refused in one place.

A field's label and help are words of the worksheet, put in when it is loaded (`worded`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
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
    reaches `compute` and whatever needs it is left out or listed as not checked. Nothing can be
    said while a `needed` field is blank. `example` is its text in the page's untouched example.
    `essential` fields are asked first; the others under the heading `group`.
    """

    name: str
    kind: str
    low: str
    high: str
    label: str = ""
    help: str = ""
    example: str = ""
    typical: Typical | Callable[[KnownSoFar], Typical | None] | None = None
    optional: bool = False
    needed: bool = False
    essential: bool = False
    group: str = "More numbers"
    unit_us: str = ""
    unit_metric: str = ""
    whose: str = ""  # "pto" or "engine", which may stand before its unit: "25 PTO hp"

    def __post_init__(self) -> None:
        if self.typical is None and not self.optional and not self.needed:
            raise ValueError(
                f"Field {self.name} needs a typical range, or must be optional or needed."
            )

    def typical_for(self, known: KnownSoFar) -> Typical | None:
        """Return the typical range for what is known of the machine."""
        return self.typical(known) if callable(self.typical) else self.typical

    def unit(self, system: str) -> str:
        """The unit in which this field is shown; empty for the system's own."""
        return self.unit_us if system == "us" else self.unit_metric

    @property
    def below_nothing(self) -> bool:
        """Whether it is only ever below nothing, such as a way down."""
        return quantities.base(self.high, self.kind) <= 0.0

    def shown_in(self, system: str) -> str:
        """The unit of a number typed without one."""
        return self.unit(system) or quantities.unit_for(self.kind, system).symbol

    def limits_text(self, system: str = "us") -> str:
        """The limits as a phrase."""
        ends = [quantities.base(end, self.kind) for end in (self.low, self.high)]
        return quantities.show_range(ends[0], ends[1], self.kind, system, unit=self.unit(system))

    def read(self, text: str, system: str = "us") -> Reading | None:
        """Return what was typed, or None when it is unknown.

        "Up to 1500 lb" is all that this may be, from its lower limit on.

        Raises
        ------
        InputError
            When it can't be read or lies outside the limits.
        """
        low, high = quantities.base(self.low, self.kind), quantities.base(self.high, self.kind)
        end, plain = quantities.one_end(self._without_whose(text))
        if end == "least" and self.kind == "duration" and _MINUTES.search(text):
            end, plain = "", text
        reading = quantities.parse(plain, self.kind, self.shown_in(system))
        if reading is None:
            return None
        if end and not reading.exact:
            raise InputError(
                f"“{quantities.shorten(text)}” can't be read: write the most, the least, or a "
                "range such as “12 to 14”."
            )
        if end:
            reading = self._one_ended(reading, end, low, high)
        reading = replace(reading, text=text.strip())
        if self.below_nothing and reading.low >= 0.0:
            # People say it without its minus too.
            reading = replace(reading, low=-reading.high, high=-reading.low)
        if reading.about and low <= reading.middle <= high:
            # "about 0 in" of what is never less than nothing: rounding doesn't pass a limit.
            ends = max(reading.low, low), min(reading.high, high)
            reading = replace(reading, low=ends[0], high=ends[1])
        slack = 1e-9 * max(abs(low), abs(high))
        if reading.low < low - slack or reading.high > high + slack:
            low, high = self._ends_as_shown(low, high, system)
        if reading.low < low - slack or reading.high > high + slack:
            if reading.high <= 0 < low:
                problem = "must be more than zero"
            else:
                problem = f"must lie between {self.limits_text(system).replace(' to ', ' and ')}"
            raise InputError(f"“{quantities.shorten(text)}”: {in_sentence(self.label)} {problem}.")
        return reading

    def _ends_as_shown(self, low: float, high: float, system: str) -> tuple[float, float]:
        """Return the limits, each as far out as it is shown: 4,499 lb is shown as 4,500."""
        shown = quantities.parse(self.limits_text(system), self.kind, self.unit(system))
        return (min(low, shown.low), max(high, shown.high)) if shown else (low, high)

    def _without_whose(self, text: str) -> str:
        """Return a text without the word that says of what this field's quantity is."""
        found = _WHOSE.search(text) if self.whose else None
        if found is None:
            return text
        said = "pto" if found[1].lower() == "pto" else "engine"
        if said != self.whose:
            name = {"pto": "power at the PTO", "engine": "the engine's power"}
            raise InputError(
                f"“{quantities.shorten(text)}” is {name[said]}, and {name[self.whose]} is needed "
                "here."
            )
        return text[: found.start()] + " " + text[found.end() :]

    def _one_ended(self, reading: Reading, end: str, low: float, high: float) -> Reading:
        """Return all that a field may be of which the most or the least is given."""
        value = reading.low
        if self.below_nothing:
            value = -abs(value)
            end = {"most": "least", "least": "most"}[end]
        ends = (min(low, value), value) if end == "most" else (value, max(high, value))
        return replace(reading, low=ends[0], high=ends[1])


_MINUTES = re.compile(r"\d\s+min\.?\s*$", re.I)  # of a time, no minimum
# "25 PTO hp", "35 engine horsepower"
_WHOSE = re.compile(r"(?<=[\d\s])(pto|engine|gross)(?=\s*(?:hp|horse(?:power)?s?|kw|ps)\b)", re.I)


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a choice."""

    value: str
    label: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few options.

    When nobody picked one, one of three things stands in: `usual`, a single option that is taken
    and said to be taken (a method, "nothing there"); or all of `unsure`, and the finding must
    then hold for each of them (every option, when neither is given); or nothing can be said
    until it is picked, because it is `needed`. Where another field tells it, `told_by` names that
    field and the option that then stands in; `told` does so by what was given, and returns "" where
    that tells nothing. `usual` doesn't stand in where one of the fields in
    `unless` is given, which it would leave without a meaning: any other option may be true then.
    `example` is the pick in the page's untouched example.
    """

    name: str
    options: tuple[Option, ...]
    label: str = ""
    help: str = ""
    example: str = ""
    usual: str = ""
    unless: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    needed: bool = False
    told_by: tuple[tuple[str, str], ...] = ()
    told: Callable[[Mapping[str, Any]], str] | None = None
    essential: bool = False
    group: str = "More numbers"

    def __post_init__(self) -> None:
        values = {option.value for option in self.options}
        told = (option for _, option in self.told_by)
        named = {*self.unsure, *told, *filter(None, (self.usual, self.example))}
        if not named <= values:
            raise ValueError(f"Choice {self.name} names a value that is not among its options.")

    def open_to(self, given: Mapping[str, Any]) -> tuple[str, ...]:
        """The options that stand in when nobody picked one; none where one must be picked."""
        for other, option in self.told_by:
            if given.get(other) is not None:
                return (option,)
        found = "" if self.told is None else self.told(given)
        if found:
            return (found,)
        if self.needed:
            return ()
        if self.usual and any(given.get(name) is not None for name in self.unless):
            return tuple(o.value for o in self.options if o.value != self.usual)
        if self.usual:
            return (self.usual,)
        return self.unsure or tuple(option.value for option in self.options)

    def read(self, text: str, system: str = "us") -> str | None:
        """Return the value picked, or None for "not sure"."""
        picked = text.strip()
        if picked.lower() in quantities.UNKNOWN_WORDS:
            return None
        for option in self.options:
            if picked.lower() in (option.value.lower(), option.label.lower()):
                return option.value
        accepted = quantities.joined([option.value for option in self.options], "or")
        raise InputError(
            f"“{quantities.shorten(picked)}” is not one of the options for "
            f"{in_sentence(self.label)}: {accepted}."
        )

    def shown(self, value: str) -> str:
        """The label of one of the options."""
        return next((o.label for o in self.options if o.value == value), value)


@dataclass(frozen=True, slots=True)
class Entry:
    """A field for text that is neither a quantity nor a choice, such as a tire size.

    `decode` turns the text into the value and raises InputError with a sentence; blank gives
    None. `such_as` shows how it may be written, `example` is its text in the page's example,
    `blank` says what a blank means.
    """

    name: str
    decode: Callable[[str], Any]
    label: str = ""
    help: str = ""
    example: str = ""
    needed: bool = False
    essential: bool = False
    group: str = "More numbers"
    such_as: str = ""
    blank: str = ""

    def read(self, text: str, system: str = "us") -> Any:
        """Return the decoded value, or None when blank."""
        plain = text.strip()
        if plain.lower() in quantities.UNKNOWN_WORDS:
            return None
        if len(plain) > quantities.LONGEST_TEXT:
            raise InputError(
                f"That is {len(plain):,} characters long"
                + (f"; write something like {self.such_as}." if self.such_as else ": too much.")
            )
        return self.decode(plain)


AnyField = Field | Choice | Entry


def worded(
    fields: Iterable[AnyField], said: Mapping[str, Mapping[str, Any]]
) -> tuple[AnyField, ...]:
    """Return the fields with their words: `said` maps a name to "label", "help", "options".

    What a field was made with stays where nothing is said; "options" maps a value to its label.
    """
    found = []
    for item in fields:
        mine = said.get(item.name, {})
        changes: dict[str, Any] = {key: mine[key] for key in ("label", "help") if key in mine}
        labels = mine.get("options", {})
        if isinstance(item, Choice) and labels:
            changes["options"] = tuple(
                replace(option, label=labels.get(option.value, option.label))
                for option in item.options
            )
        found.append(replace(item, **changes) if changes else item)
    return tuple(found)
