"""Values that stand behind the label of their field, as an ask-back and its return write them.

Tractor mass: 1,650 lb
Hitch lift capacity 900 lb, That lift figure is measured: At the ball ends
"""

from __future__ import annotations

import re
from functools import cache

from calc import model, worksheets
from calc.errors import InputError
from calc.reading.amounts import units
from calc.reading.given import Fact, Given
from calc.reading.words import Token, span

_BETWEEN = re.compile(r"\s*(?:[:=]|[-\u2013\u2014](?=\s)|\bis\b|\bof\b|\bare\b)?\s*", re.I)
_BEGINS = re.compile(r"[-$~.\d]|(?:about|around|between|roughly)\b", re.I)
_ANYTHING = re.compile(r"\S")
_UNIT = re.compile(r"\s*([a-z°%]+)", re.I)
MOST = 90  # characters behind a label that may be its value
_CUTS = re.compile(r",(?!\d)")  # not within "3,400"
_STOPS = re.compile(r"[;\n?]|\.\s|\.$")


@cache
def _labels(worksheet: str) -> tuple[tuple[re.Pattern[str], model.AnyField], ...]:
    """Return the labels of a worksheet's fields, the longest first."""
    fields = sorted(worksheets.load(worksheet).fields, key=lambda item: -len(item.label))
    return tuple(
        (
            re.compile(rf"(?<!\w){re.escape(item.label.rstrip('?'))}{_asking(item)}(?!\w)", re.I),
            item,
        )
        for item in fields
    )


def _asking(item: model.AnyField) -> str:
    """Return the mark that may end a label: "ruts in the lawn? 3400 lb" has none of "Lawn"."""
    return r"\??" if item.label.endswith("?") else r"(?:\?(?=\s*:))?"


Named = tuple[str, str, int, int]


def named_in(text: str) -> list[Named]:
    """Return each worksheet and ask whose question is a line, and where that stands."""
    place = 0
    found: dict[str, Named] = {}
    for line in text.split("\n"):
        # Behind the question an ask-back says what it needs, which a mail program may break.
        said = line.partition("? ")[0].strip(" .:?*-\r").lower()
        if asked := _questions().get(said):
            # Two worksheets may ask it in the same words: the labels tell them apart.
            name, key = max(asked, key=lambda each: _count_labels(text, each[0]))
            found.setdefault(name, (name, key, place, place + len(line)))
        place += len(line) + 1
    return list(found.values())


SHORTEST_QUESTION = 8  # characters


@cache
def _questions() -> dict[str, list[tuple[str, str]]]:
    """Return every worksheet and ask by its question, as `named_in` compares them."""
    found: dict[str, list[tuple[str, str]]] = {}
    for name in worksheets.names():
        sheet = worksheets.load(name)
        own = {ask.key: ask.question for ask in sheet.asks}
        own.setdefault("", sheet.question)
        for key, question in own.items():
            said = question.strip(" .?").lower()
            if len(said) > SHORTEST_QUESTION and all(n != name for n, _ in found.get(said, ())):
                found.setdefault(said, []).append((name, key))
    return found


def section(text: str, named: list[Named], which: int) -> str:
    """Return a text of the same length with one of its questions alone, and what stands before."""
    first = named[0][2]
    begin = named[which][2]
    end = named[which + 1][2] if which + 1 < len(named) else len(text)
    blank = re.compile(r"\S")
    return (
        text[:first] + blank.sub(" ", text[first:begin]) + text[begin:end] + " " * (len(text) - end)
    )


_QUOTED = re.compile(r"^[ \t]*(?:>[ \t]?)+", re.M)


def unquoted(text: str) -> str:
    """Return a text of the same length without the marks of a quoted mail."""
    return _QUOTED.sub(lambda found: " " * len(found[0]), text)


def _count_labels(text: str, name: str) -> int:
    lines = [line.partition(":") for line in text.splitlines()]
    said = [begin.strip(" -*").lower().rstrip("?") for begin, colon, _ in lines if colon]
    return sum(each in _all_labels(name) for each in said)


@cache
def _all_labels(name: str) -> frozenset[str]:
    return frozenset(item.label.rstrip("?").lower() for item in worksheets.load(name).fields)


def most_labels(text: str, names: tuple[str, ...]) -> str:
    """Return the worksheet with most labels before a colon; nothing when under two."""
    best, most = "", 1
    for name in names:
        count = _count_labels(text, name)
        if count > most:
            best, most = name, count
    return best


@cache
def _helps(worksheet: str) -> tuple[re.Pattern[str], ...]:
    """Return what an ask-back says of each field, as a mail program may have broken its lines."""
    helps = sorted({item.help for item in worksheets.load(worksheet).fields}, key=len)
    behind = r"(?:\s+(?:One of|The unit|Such as)\b.*?\.(?=\s|$))?"
    return tuple(
        re.compile(r"\s+".join(map(re.escape, said.split())) + behind, re.S)
        for said in helps[::-1]
        if said
    )


def without_helps(text: str, worksheet: str) -> str:
    """Return a text of the same length without what our own ask-back says of where to look."""
    for pattern in _helps(worksheet):
        text = pattern.sub(lambda found: re.sub(r"\S", " ", found[0]), text)
    return text


def place_labelled(text: str, tokens: list[Token], worksheet: str, given: Given) -> set[int]:
    """Take each value behind a label of `worksheet`; return the tokens that they stand in."""
    taken: set[int] = set()
    left = text
    for pattern, item in _labels(worksheet):
        for match in pattern.finditer(left):
            gap = _BETWEEN.match(text, match.end())
            start = gap.end() if gap else match.end()
            value = _value(text, start, item)
            if value is None:
                if text[match.end() : match.end() + 1] == ":":  # asked, and not answered
                    taken.update(range(*span(tokens, match.start(), match.end())))
                continue
            said, end = value
            first, last = span(tokens, match.start(), end)
            given.facts.append(
                Fact((item.name,), first, last, said, why="its label stands before it", cost=-1)
            )
            taken.update(range(first, last))
            left = left[: match.start()] + " " * (end - match.start()) + left[end:]
            break
    return taken


def _value(text: str, start: int, item: model.AnyField) -> tuple[str, int] | None:
    """Return what a field takes from `start` on, and where that ends."""
    if isinstance(item, model.Choice):
        return _option(text, start, item)
    return _longest(text, start, item)


def _takes(item: model.AnyField, text: str) -> bool:
    try:
        return item.read(text) is not None
    except InputError:
        return False


def _option(text: str, start: int, item: model.Choice) -> tuple[str, int] | None:
    behind = text[start:].lower()
    named = [(said.lower(), o.value) for o in item.options for said in (o.label, o.value)]
    for said, option in sorted(named, key=lambda each: -len(each[0])):
        if behind.startswith(said) and not behind[len(said) : len(said) + 1].isalnum():
            return option, start + len(said)
    return None


def _longest(text: str, start: int, item: model.AnyField) -> tuple[str, int] | None:
    """Return the longest text from `start` on that a field takes."""
    stop = _STOPS.search(text, start)
    rest = text[start : stop.start() if stop else len(text)][:MOST]
    begins = _BEGINS if isinstance(item, model.Field) else _ANYTHING
    if not begins.match(rest):
        return None
    while rest.strip():
        rest = rest.rstrip(" ,\t")
        if _takes(item, rest.strip()):
            end = start + len(rest)
            return None if _has_another_unit(item, rest, text[end:]) else (rest.strip(), end)
        cut = max(rest.rfind(" "), *(found.start() for found in _CUTS.finditer(rest)), -1)
        if cut <= 0:
            return None
        rest = rest[:cut]
    return None


def _has_another_unit(item: model.AnyField, taken: str, behind: str) -> bool:
    """Whether a bare number is of another quantity: "the lawn is 15 degrees" is no area."""
    unit = _UNIT.match(behind)
    if not (isinstance(item, model.Field) and unit and taken.rstrip()[-1:].isdigit()):
        return False
    kinds = units().get((unit[1].lower(),))
    return kinds is not None and item.kind not in kinds
