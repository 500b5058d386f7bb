"""Two amounts with "or" or "vs" between them, of which a message leaves open which it is."""

from __future__ import annotations

from itertools import pairwise

from calc.reading.amounts import Amount
from calc.reading.words import Token

_CHOICES = (["or"], ["vs"], ["versus"])
MOST_BETWEEN = 4  # words: "a 5 ft bush cutter or 6 ft"


def alternatives(tokens: list[Token], amounts: list[Amount]) -> dict[int, Amount]:
    """Return, by the place of each of two amounts with "or" or "vs" between them, the other."""
    found: dict[int, Amount] = {}
    for one, other in pairwise(amounts):
        between = [token.text for token in tokens[one.last : other.first]]
        joined = between[-1:] in _CHOICES and len(between) <= MOST_BETWEEN and "," not in between
        if joined and (one.kinds == other.kinds or not one.kinds):
            found[one.first] = other
            found[other.first] = one
    return found
