"""What a field takes of a fact: its text in the field's own unit, or nothing."""

from __future__ import annotations

from dataclasses import replace

from calc import model, quantities
from calc.errors import InputError
from calc.reading.amounts import Amount
from calc.reading.given import Fact


def text_for(item: model.AnyField, fact: Fact, system: str = "us") -> str | None:
    """Return what a field takes of a fact; None when it takes nothing of it.

    A slope that a field wants downhill is one downhill.
    """
    if fact.amount is None:
        return fact.text if takes(item, fact.text, system) else None
    if not isinstance(item, model.Field):
        written = (fact.amount.number, _fraction(fact.amount))
        return next((text for text in written if text and takes(item, text, system)), None)
    symbol = _unit(fact.amount, item, system)
    if symbol is None:
        return None
    amount = fact.amount
    if item.below_nothing and not amount.number.startswith("-"):
        amount = _downhill(amount)
    text = amount.text(symbol)
    return text if takes(item, text, system) else None


def _fraction(amount: Amount) -> str:
    """Return inches as a list of sizes has them: "1/2" of a half; nothing of what is between."""
    whole = (16.0 * amount.value).is_integer() and amount.kinds.get("length") == "in"
    return quantities.sixteenths(amount.value) if whole else ""


def _downhill(amount: Amount) -> Amount:
    """Return a slope as one downhill: of a range the steeper end comes first."""
    ends = [f"-{end}" for end in amount.number.split(" to ")]
    return replace(amount, number=" to ".join(reversed(ends)))


def _unit(amount: Amount, item: model.Field, system: str) -> str | None:
    if not amount.kinds:
        return item.unit(system) or quantities.unit_for(item.kind, system).symbol
    if item.kind == "length" and "distance" in amount.kinds:
        return amount.kinds["distance"]
    if item.kind == "distance" and "length" in amount.kinds:
        return amount.kinds["length"]
    return amount.kinds.get(item.kind)


def takes(item: model.AnyField, text: str, system: str) -> bool:
    """Whether a field reads a text."""
    try:
        return item.read(text, system) is not None
    except InputError:
        return False
