"""Text that holds quantities, written out in the reader's units only when it is shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc import quantities

# (value, kind), (value, kind, unit) or (value, kind, US unit, metric unit) in base units; or text.
Number = tuple[float, str] | tuple[float, str, str] | tuple[float, str, str, str] | str


def shown(number: Number, system: str = "us") -> str:
    """Return a number of a phrase as text in the reader's units."""
    if isinstance(number, str):
        return number
    unit = ""
    if len(number) == 3:
        unit = number[2]
    elif len(number) == 4:
        unit = number[2] if system == "us" else number[3]
    return quantities.show(number[0], number[1], system, unit=unit)


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence with quantities in it, such as "{width} is the widest".

    `numbers` maps each name in braces to a `Number`.
    """

    template: str
    numbers: Mapping[str, Number] = field(default_factory=dict)

    def text(self, system: str = "us") -> str:
        """Return the sentence in the reader's units."""
        return self.template.format_map(_Shown(self.numbers, system))


class _Shown(dict[str, str]):
    """Looks a name up only when the template asks for it."""

    def __init__(self, numbers: Mapping[str, Number], system: str) -> None:
        super().__init__()
        self.numbers, self.system = numbers, system

    def __missing__(self, name: str) -> str:
        return shown(self.numbers[name], self.system)


def phrase(template: str, **numbers: Number) -> Phrase:
    """Return a `Phrase`: `phrase("{width} is the widest", width=(1.2, "length"))`."""
    return Phrase(template, numbers)


Words = str | Phrase


def words(text: Words, system: str) -> str:
    """Return a string or a phrase as text in the reader's units."""
    return text if isinstance(text, str) else text.text(system)


def in_sentence(label: str) -> str:
    """Return a label as it stands within a sentence: "PTO power" stays, "Wheelbase" doesn't."""
    first = label.split()[0]
    return label if len(first) > 1 and first.isupper() else label[:1].lower() + label[1:]
