"""What a question needs and nobody gave, by the names that the worksheet's words give it."""

from __future__ import annotations

from collections.abc import Iterable

from calc import model, quantities


def called(found: model.Found, key: str, **words: str) -> str:
    """Return what is to be measured or said, as it stands inside a sentence."""
    return found.worded("measure", key, **words).text()


def still(v: model.Inputs, found: model.Found, names: Iterable[str]) -> str:
    """Return those of the fields that are blank: "the gear ratio and ten turns of a tire"."""
    return quantities.joined([called(found, name) for name in names if getattr(v, name) is None])
