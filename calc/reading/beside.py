"""What the words right beside an amount settle, whatever else the sentence speaks of.

A row of `words/beside`: an amount of `kind` (behind `bare`: a number without a unit, which is of
it; or a range of lengths, or a price with its sign or without), in `unit` and between `least` and
`most` where they are told, with one of the words `before`, `behind` (or the end of the sentence),
or so many words before it (`near`), in a message that has one of the words `among` and none of
those with `!`. Without a field no page asks for such an amount.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from calc import tables
from calc.reading import pieces
from calc.reading.amounts import Amount
from calc.reading.words import MARK, Token, words_at

_ROADS = frozenset(["road", "rd", "highway", "hwy", "zone"])
_SIGNS = frozenset(["road", "highway", "car", "cars", "traffic"])
_SIGNED = frozenset(range(25, 85, 5))  # [mph]; bare before "road" it is the speed on its signs
_WAYS = frozenset(["road", "highway", "street", "bridge", "driveway", "pavement"])
_OVERLAPS = (["overlap", "is"], ["overlap", "of"], ["overlap", "only"])


def word_before(tokens: Sequence[Token], amount: Amount) -> str:
    """Return the word right before an amount."""
    return tokens[amount.first - 1].text if amount.first else ""


def is_overlap(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether an amount is that of an overlap: "overlap 8 in", "8 in of overlap"."""
    texts = [token.text for token in tokens]
    before = texts[max(0, amount.first - 2) : amount.first]
    behind = texts[amount.last : amount.last + 2]
    said = before[-1:] == ["overlap"] or behind[:1] == ["overlap"]
    return said or before in _OVERLAPS or behind == ["of", "overlap"]


Row = dict[str, str]


@cache
def _rows() -> tuple[tuple[Row, float, float], ...]:
    """Return the rows, each with the least and the most that its amount may be."""
    rows = tables.rows("words/beside")
    return tuple((row, float(row["least"] or 0), float(row["most"] or "inf")) for row in rows)


def is_apart(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether no page has a field for an amount: a road's width, a heater's power, one piece."""
    return is_roads(tokens, amount) or any(not row["field"] for row in _settling(tokens, amount))


def told(tokens: Sequence[Token], amount: Amount) -> tuple[str, str, str] | None:
    """Return the field, kind and reason of an amount that the words beside it settle."""
    if is_gearbox_rating(tokens, amount):
        return "power_limit", "power", "what the gearbox is rated for"
    if road_behind(tokens, amount):
        return "car_speed", "speed", "the road is known by it"
    for row in _settling(tokens, amount):
        kind = {"range": "length", _PRICE: "money"}.get(row["kind"], row["kind"])
        return row["field"], kind.removeprefix(_BARE), row["why"]
    if any(t.text in ("suitcase", "suitcases") for t in tokens[amount.first : amount.last]):
        return "front_ballast", "mass", "such weights hang in front"  # "4 suitcase 55 lb"
    if not pieces.WHEELED.isdisjoint(words_at(tokens, amount.first, amount.last)):
        return "towed_mass", "mass", "so many are towed"  # "2 wagons of 4000 lb each"
    return None


_PRICE = "price"  # in a row of the table: money, or a number without a unit
_BARE = "bare "  # in a row of the table: a number without a unit, which is of the kind behind it


def _settling(tokens: Sequence[Token], amount: Amount) -> list[Row]:
    return [
        row
        for row, least, most in _rows()
        if least <= amount.value <= most and _fits(row, amount) and _says(row, tokens, amount)
    ]


def _fits(row: Row, amount: Amount) -> bool:
    """Whether an amount is of a row's kind and unit."""
    kind, unit = row["kind"], row["unit"]
    if kind == "range":
        return "length" in amount.kinds and " to " in amount.number
    if kind == _PRICE and "money" in amount.kinds:
        return True
    if kind.startswith(_BARE) or kind == _PRICE:
        return not amount.kinds and not amount.spelled
    return kind in amount.kinds and unit in ("", amount.kinds[kind])


def _says(row: Row, tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether the words that a row wants stand around an amount."""
    before, behind, among = row["before"].split("/"), row["behind"].split("/"), row["among"]
    if before != [""] and word_before(tokens, amount) not in before:
        return False
    after = " ".join(token.text for token in tokens[amount.last : amount.last + 2])
    ends = all(token.kind == MARK for token in tokens[amount.last : amount.last + 1])
    if behind == ["end"] and not ends:
        return False
    if behind not in ([""], ["end"]) and not any(_begins(after, said) for said in behind):
        return False
    if row["near"]:
        reach, _, said = row["near"].partition(" ")
        near = " ".join(t.text for t in tokens[max(0, amount.first - int(reach)) : amount.first])
        if not _has(near, said):
            return False
    words = " ".join(token.text for token in tokens) if among else ""
    return all(_has(words, term) for term in among.split())


def _begins(text: str, said: str) -> bool:
    return f"{text} ".startswith(f"{said} ")


def _has(text: str, said: str) -> bool:
    """Whether a text has one of some phrases, or, behind "!", none of them."""
    there = any(f" {each.lstrip('!')} " in f" {text} " for each in said.split("/"))
    return there != said.startswith("!")


def is_wanted(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is what somebody asks about: "a blade for my subcompact, is 54 in ok"."""
    behind = set(words_at(tokens, amount.last, amount.last + 1))
    asks = word_before(tokens, amount) in ("is", "would", "will")
    return "length" in amount.kinds and asks and bool(behind & _GOOD)


_GOOD = frozenset(["ok", "okay", "enough", "right", "too", "fine", "do", "work"])


def is_told_of(tokens: Sequence[Token], last: int, own: Amount, other: Amount) -> bool:
    """Whether a verb tells of the amount behind it, and not of the one before.

    "The tractor is 1700 lb, hitch lifts 800 lb": `last` is the place behind "lifts".
    """
    alike = bool(set(own.kinds) & set(other.kinds)) or not own.kinds
    return tokens[last - 1].text == "lifts" and alike


def is_gearbox_rating(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a power or a bare number is the gearbox's: "gearbox on the cutter is rated 40"."""
    if amount.spelled or (amount.kinds and "power" not in amount.kinds):
        return False
    behind = [text for text in words_at(tokens, amount.last, amount.last + 2) if text != "rated"]
    if amount.kinds and _GEARBOX & set(behind[:1]):
        return True  # "a 40 hp rated gearbox"
    before = words_at(tokens, amount.first - _NEAR_GEARBOX, amount.first)
    ends = [place for place, text in enumerate(before) if text in ",;?!." or text.isdigit()]
    before = before[ends[-1] + 1 :] if ends else before
    boxes = [place for place, text in enumerate(before) if text in _GEARBOX]
    rated = boxes and _RATED & set(before[boxes[0] :])
    return bool(rated) and before[-1] in {*_RATED, "for", "at", "to"}


_GEARBOX = frozenset(["gearbox", "driveline"])
_RATED = frozenset(["rated", "rating", "good", "say", "says", "max"])
_NEAR_GEARBOX = 8  # words


def road_behind(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a speed is that of a road: "a 55 mph road", "on a 45 road", "road 55"."""
    if not amount.kinds and word_before(tokens, amount) in _SIGNS:
        return amount.value in _SIGNED
    if _ROADS.isdisjoint(words_at(tokens, amount.last, amount.last + 1)):
        return False
    return "speed" in amount.kinds or amount.value in _SIGNED


def is_roads(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is the width of a road or a bridge: "the road is 20 ft wide"."""
    if "length" not in amount.kinds:
        return False
    before = words_at(tokens, amount.first - 3, amount.first)
    behind = words_at(tokens, amount.last, amount.last + 2)
    if before[-1:] == ["at"] or "lane" in before or behind[:1] == ["lane"] or "wide" not in behind:
        return False
    return bool(_WAYS & {*before, *behind[1:]})
