"""What tests of messages ask of them: the first question, the only one, all that is given."""

from __future__ import annotations

from typing import Any

from calc import reading
from calc.reading.found import Question


def first(text: str) -> Question:
    """Return the first question of a message."""
    return reading.read(text).questions[0]


def only(text: str, **rest: Any) -> Question:
    """Return the one question of a message."""
    (question,) = reading.read(text, **rest).questions
    return question


def asks(text: str) -> list[str]:
    """Return the questions of a message, as worksheet and ask."""
    return [f"{each.worksheet}/{each.ask}" for each in reading.read(text).questions]


def given(text: str) -> dict[str, str]:
    """Return what the questions of a message take, by field."""
    found = reading.read(text).questions
    return {name: value for question in found for name, value in question.inputs.items()}
