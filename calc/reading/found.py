"""What is found in a message: questions, the fields that they fill, and what is unclear."""

from __future__ import annotations

from dataclasses import dataclass, field

from calc import worksheets
from calc.reading.given import Fact

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Filled:
    """A field of a question, the text that it takes, and the words that it came from."""

    name: str
    text: str
    spans: tuple[Span, ...]
    why: str
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unclear:
    """Words that may mean several things; `options` are pairs of a field and a text."""

    spans: tuple[Span, ...]
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a message: the worksheet and ask that answer it, and what it gives them."""

    worksheet: str
    ask: str
    spans: tuple[Span, ...]
    filled: tuple[Filled, ...]
    unclear: tuple[Unclear, ...] = ()

    @property
    def inputs(self) -> dict[str, str]:
        """The texts given, by field."""
        return {each.name: each.text for each in self.filled}

    @property
    def missing(self) -> tuple[str, ...]:
        """The fields that the ask wants and the message doesn't give."""
        ask = worksheets.load(self.worksheet).ask(self.ask)
        return tuple(name for name in ask.fields if name not in self.inputs)


@dataclass(frozen=True, slots=True)
class Message:
    """A message, read. `lost` are the amounts that no question takes."""

    text: str
    questions: tuple[Question, ...]
    lost: tuple[Span, ...] = ()
    facts: tuple[Fact, ...] = field(default=(), repr=False)
