"""What a question turns into by what else its message gives, which no pattern of words can say.

A row of `words/instead`: a question that is asked, what must be given or (`!`) not, and what is
then asked in its place. The first row that fits counts. Given may be a field, the kind of an
implement, a word among those that ask, and what `_given` adds to these.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from calc import tables
from calc.mechanics import implement_power
from calc.reading.asked import Asked
from calc.reading.given import Given
from calc.reading.words import Token

_MACHINES = frozenset(["tractor", "power", "hp", "horsepower", "machine", "horse"])


@cache
def _rows() -> dict[str, list[tuple[list[str], str, str]]]:
    found: dict[str, list[tuple[list[str], str, str]]] = {}
    for row in tables.rows("words/instead"):
        turned = (row["given"].split(), row["worksheet"], row["ask"])
        found.setdefault(row["asked"], []).append(turned)
    return found


def suited(found: Asked, tokens: list[Token], given: Given) -> Asked:
    """Return a question as the one that its facts leave."""
    rows = _rows().get(f"{found.worksheet}/{found.ask}")
    if not rows:
        return found
    there = _given(found, tokens, given)
    for terms, worksheet, ask in rows:
        if all(_is_met(term, there) for term in terms):
            return replace(found, worksheet=worksheet, ask=ask)
    return found


def _is_met(term: str, there: set[str]) -> bool:
    return there.isdisjoint(term.lstrip("!").split("/")) == term.startswith("!")


def _given(found: Asked, tokens: list[Token], given: Given) -> set[str]:
    """Return what a message gives, as the rows name it."""
    there = {name for fact in given.facts for name in fact.fields}
    there |= {tokens[place].text for place in found.places}
    kinds = {fact.text for fact in given.facts if fact.fields == ("implement_kind",)}
    there |= kinds
    if kinds and not any(implement_power.kind_row(kind) is not None for kind in kinds):
        # Of what no shaft drives the weight and the pull decide, which the pairing judges.
        there.add("undriven")
    if found.named:
        there.add("named")
    if _is_implement_much(tokens, given):
        there.add("implement_much")
    return there


def _is_implement_much(tokens: list[Token], given: Given) -> bool:
    """Whether the implement is what may be too much: it stands before that, and no tractor."""
    tools = [f.first for f in given.facts if f.fields == ("implement_kind",)]
    much = next((p for p, token in enumerate(tokens) if token.text == "much"), -1)
    machine = {token.text for token in tokens[much + 1 : much + 2]} & _MACHINES
    return bool(tools) and max(tools) < much and not machine
