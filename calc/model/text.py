"""Text that holds quantities, written out in the reader's units only when it is shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc import quantities


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence with quantities in it, such as "{width} is the widest".

    `numbers` maps each name in braces to (value, kind) or (value, kind, unit) in base units,
    or to a plain string.
    """

    template: str
    numbers: Mapping[str, tuple[float, str] | tuple[float, str, str] | str] = field(
        default_factory=dict
    )

    def text(self, system: str = "us") -> str:
        """Return the sentence in the reader's units."""
        shown = {}
        for name, item in self.numbers.items():
            if isinstance(item, str):
                shown[name] = item
            else:
                unit = item[2] if len(item) > 2 else ""
                shown[name] = quantities.show(item[0], item[1], system, unit=unit)
        return self.template.format(**shown)


def phrase(template: str, **numbers: tuple[float, str] | tuple[float, str, str] | str) -> Phrase:
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
