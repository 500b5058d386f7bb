"""What of a message may be one thing or another, to be asked and never guessed."""

from __future__ import annotations

from collections.abc import Mapping

from calc import model
from calc.reading import leftover
from calc.reading.amounts import Amount
from calc.reading.found import Filled, Unclear
from calc.reading.given import Fact, Given
from calc.reading.taking import takes, text_for
from calc.reading.words import Token, place_of


def unclear(
    sheet: model.Worksheet,
    ask: str,
    given: Given,
    filled: Mapping[str, Filled],
    tokens: list[Token],
    system: str,
) -> tuple[Unclear, ...]:
    """Return what may be one thing or another for a worksheet, to be asked."""
    found = []
    groups: dict[tuple[str, ...], list[Fact]] = {}
    for fact in given.doubtful:
        groups.setdefault(fact.fields, []).append(fact)
    for names, facts in groups.items():
        name = next((n for n in names if n in sheet.examples() and n not in filled), "")
        texts = [text for fact in facts for text in _texts(sheet, name, fact, system)]
        if texts:
            spans = tuple(dict.fromkeys(place_of(tokens, f.first, f.last) for f in facts))
            found.append(Unclear(spans, tuple((name, text) for text in dict.fromkeys(texts))))
    for amount in given.loose:
        options = tuple(_fields_for(sheet, ask, amount, filled, system))
        if options:
            found.append(Unclear((place_of(tokens, amount.first, amount.last),), options))
    return tuple({each.options: each for each in found}.values())


def _texts(sheet: model.Worksheet, name: str, fact: Fact, system: str) -> list[str]:
    """Return what a field of that name may take of a doubtful fact."""
    if not name:
        return []
    said = text_for(sheet.field(name), fact, system) if fact.text or fact.amount else None
    others = [text for text in fact.others if takes(sheet.field(name), text, system)]
    return [*([said] if said else []), *others]


MOST_OPTIONS = 4


def _fields_for(
    sheet: model.Worksheet, ask: str, amount: Amount, filled: Mapping[str, Filled], system: str
) -> list[tuple[str, str]]:
    """Return the few fields that a loose amount may be of: those of the ask, then the essential."""
    found = []
    asked_for = sheet.ask(ask).fields

    def order(item: model.AnyField) -> tuple[bool, bool]:
        return item.name not in asked_for, not item.essential

    for item in sorted(sheet.fields, key=order):
        if isinstance(item, model.Field) and item.name not in filled and _can_be(item, amount):
            fact = Fact((item.name,), amount.first, amount.last, amount=amount)
            text = text_for(item, fact, system)
            if text is not None:
                found.append((item.name, text))
    return found[:MOST_OPTIONS]


def _can_be(item: model.Field, amount: Amount) -> bool:
    """Whether a loose amount may be offered for a field: a year is no price, 5 ft no altitude."""
    if item.name == "altitude":
        return not amount.kinds or leftover.may_be_altitude(amount)
    if leftover.may_be_year(amount) and amount.value % 50:
        return item.kind == "year"
    return amount.kinds.get("power") != "W" or item.kind != "power"
