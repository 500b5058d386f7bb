"""Numbers in words, and words around a number that leave one end of it open."""

import re
from collections.abc import Sequence
from functools import cache

from calc import tables

# "14 thousand" and "fifteen hundred": what such a word makes of the number before it.
TIMES = {"hundred": 100, "thousand": 1000, "grand": 1000}
# What stands before or behind a number of which it is the most or the least that may be.
_MOST = r"up to|no more than|not more than|at most|maximum|max\.?|less than|under"
_LEAST = r"at least|no less than|not less than|minimum|min\.?|more than|over"
_MOST_BEHIND = r"max\.?|maximum|at most|or less"
_LEAST_BEHIND = r"min\.?|minimum|at least|or more"
_ENDS = {
    end: re.compile(rf"(?:{before})\s+(.*\S)|(.*\S)\s+(?:{behind})", re.I)
    for end, before, behind in (("most", _MOST, _MOST_BEHIND), ("least", _LEAST, _LEAST_BEHIND))
}


@cache
def _digits() -> dict[str, int]:
    return {word: value for value, word in enumerate(tables.small_words("digits"))}


@cache
def _tens() -> dict[str, int]:
    return {word: 10 * place for place, word in enumerate(tables.small_words("tens"), 2)}


def spelled(words: Sequence[str]) -> tuple[int, int] | None:
    """Return the number that begins with the first of some words, and how many it takes.

    A hyphen is a word of its own. None where they begin with no number.

    >>> spelled(["twenty", "-", "five", "hp"]), spelled(["seven", "hundred"]), spelled(["hp"])
    ((25, 3), (700, 2), None)
    """
    total, at = 0, 0
    if words and words[0] in _tens():
        total = _tens()[words[0]]
        at = 1 + (words[1:2] == ["-"])
    digit = _digits().get(words[at]) if at < len(words) else None
    if digit is not None and (not total or digit < 10):
        total += digit
        at += 1
    if not at:
        return None
    for word, factor in TIMES.items():
        if at < len(words) and words[at] == word:
            total *= factor
            at += 1
    return total, at


@cache
def _some_number() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join((*_digits(), *_tens()))})\b", re.I)


def in_digits(text: str) -> str:
    """Return a text with its numbers in digits: "six feet" is "6 feet"."""
    if not _some_number().search(text):
        return text
    pieces = re.findall(r"[^\W\d_]+|\d+|\s+|.", text)
    places = [place for place, piece in enumerate(pieces) if not piece.isspace()]
    words = [pieces[place].lower() for place in places]
    found, at = "", 0
    while at < len(words):
        number = spelled(words[at:])
        found += str(number[0]) if number else pieces[places[at]]
        at += number[1] if number else 1
        end = places[at] if at < len(places) else len(pieces)
        found += "".join(pieces[places[at - 1] + 1 : end])
    return found


def one_end(text: str) -> tuple[str, str]:
    """Return which end a text gives ("most", "least" or ""), and the text without those words.

    >>> one_end("up to 1500 lb"), one_end("6 ft or more"), one_end("6 ft")
    (('most', '1500 lb'), ('least', '6 ft'), ('', '6 ft'))
    """
    for end, pattern in _ENDS.items():
        match = pattern.fullmatch(text.strip())
        if match:
            return end, match[1] or match[2]
    return "", text
