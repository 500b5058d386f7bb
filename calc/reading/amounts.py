"""Quantities in a message: how much, in which unit if one is said, and of what kind it can be."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from calc import quantities, tables
from calc.reading.spelled import spelled
from calc.reading.words import MARK, NUMBER, WORD, Token

_GOING = frozenset(["go", "goes", "went", "turn", "turns", "turned"])  # "went around 14 times"
_HEDGES = frozenset(tables.small_words("hedges"))
_TO = frozenset(["to", "-", "through"])
# A number may be told from its unit by a word that says of what it is: "20 pto hp".
BETWEEN = frozenset(["pto", "engine", "eng", "motor", "gross", "net", "rated"])
# "6 in auger" is six inches, "6 in the bucket" is not.
_YEAR = re.compile(r"(?:19|20)\d\d")
_NOT_INCHES = frozenset(tables.small_words("not inches"))
# "1100 in bucket" is a load, "72 in bucket" a width.
_LOADED = frozenset(["bucket", "loader", "forks"])
_POUNDS = frozenset(["lb", "lbs", "pounds", "#", "kg", "center"])
_SIZES = frozenset(["wide", "long", "high", "tall", "deep", "across"])
_NOT_COUNTED = frozenset(tables.small_words("not counted"))
# Marks and single letters are units only close behind the number.
_CLOSE = frozenset(["'", '"', "#", "$", "k", "m", "f", "c", "a", "v", "w", "h", "s", "t", "d", "g"])
_ALWAYS_WORD = frozenset(["x", "ch", "times", "thousand", "k", "grand"])
_PARTS = {"\u00bd": "1/2", "\u00bc": "1/4", "\u00be": "3/4", "\u215c": "3/8", "\u215e": "7/8"}
_PARTS_OF_ONE = frozenset([2, 3, 4, 5, 8, 10, 16, 32, 64])
_COLD = frozenset(["freeze", "freezes", "cold", "coldest", "winter", "winters", "gets", "frost"])
_MINUS = ("minus", "negative")
NO_SLOPE = 60  # degrees; so many without more are how hot it is, and in the United States
# Where one of these is said, "1:5" and "1 in 5" are slopes and no gear's ratio or time of day.
_STEEP = frozenset(tables.small_words("slopes"))
MOST = 60  # a message that has more is a table
# Kinds in which nobody writes a message, or whose units are those of commoner kinds.
_LEFT_OUT = frozenset(["resistance_per_length", "transmittance", "energy", "spring_rate"])


@dataclass(frozen=True, slots=True)
class Amount:
    """A number or a range in a message: tokens `first` up to `last`, exclusive.

    `kinds` maps each kind of quantity that its unit allows to the unit's symbol; it is empty for
    a bare number. `number` is its text without the unit, and without "about" when `hedged`.
    """

    first: int
    last: int
    number: str
    kinds: dict[str, str]
    hedged: bool = False
    value: float = 0.0  # of its first number, in the unit that stands behind it
    whose: str = ""  # the word between number and unit
    spelled: bool = False  # in words: a bare one is a number only beside what is counted

    def text(self, symbol: str) -> str:
        """Return it with a unit, as a field takes it."""
        about = "about " if self.hedged and " to " not in self.number else ""
        said = f"${self.number}" if symbol == "$" else f"{self.number} {symbol}"
        return f"{about}{said}".strip()


@dataclass(frozen=True, slots=True)
class _Numeral:
    last: int
    text: str
    value: float
    spelled: bool


@cache
def units() -> dict[tuple[str, ...], dict[str, str]]:
    """Return every unit that may stand behind a number: its words, and its symbol by kind."""
    found: dict[tuple[str, ...], dict[str, str]] = {}
    own = [(row["kind"], row["unit"], row["phrase"]) for row in tables.rows("words/spoken_units")]
    for kind in quantities.kinds().values():
        if kind.name not in _LEFT_OUT and not kind.like:
            for unit in kind.units:
                own += [(kind.name, unit.symbol, name) for name in (unit.symbol, *unit.aliases)]
    for kind_name, symbol, name in own:
        words = tuple(_split(name.lower()))
        if words and name not in _ALWAYS_WORD:
            found.setdefault(words, {}).setdefault(kind_name, symbol)
    return found


def _split(name: str) -> list[str]:
    return re.findall(r"[^\W\d_]+|\d+|\S", name)


@cache
def _longest() -> int:
    return max(len(words) for words in units())


def amounts_of(tokens: list[Token], taken: set[int]) -> list[Amount]:
    """Return the quantities of a message, in order; tokens in `taken` are no part of one."""
    found: list[Amount] = []
    place = 0
    while place < len(tokens) and len(found) < MOST:
        amount = None if place in taken else _amount(tokens, place, taken)
        if amount and not amount.kinds and _is_of_a_size(tokens, place):
            amount = None
        if amount:
            found.append(amount)
            place = amount.last
        else:
            place += 1
    return found


def _is_of_a_size(tokens: list[Token], place: int) -> bool:
    """Whether a bare number hangs on an "x" behind another: the 16 of "7x16"."""
    before = tokens[max(0, place - 2) : place]
    touches = len(before) == 2 and before[1].end == tokens[place].start
    return touches and before[0].kind == NUMBER and before[1].text == "x"


def _amount(tokens: list[Token], place: int, taken: set[int]) -> Amount | None:
    start = place
    if [token.text for token in tokens[place : place + 2]] in (["3", "pt"], ["3", "point"]):
        return None  # the hitch, and no three pints
    dollar = tokens[place].text == "$" and place + 1 < len(tokens)
    spoken = tokens[place].text in _MINUS  # "minus 25 F", and no "weight minus 200 lb"
    sign = "-" if spoken or (tokens[place].text == "-" and _touches(tokens, place)) else ""
    if dollar or sign:
        place += 1
    if (end := _ratio_end(tokens, place)) and taken.isdisjoint(range(place, end)):
        run = tokens[end - 1].text
        return Amount(start, end, f"{tokens[place].text}:{run}", {"slope": ""}, value=1.0)
    read = _numeral(tokens, place, taken)
    if read is None:
        return None
    kinds, last, whose = _unit(tokens, read, taken)
    if whose and _labels_the_next(tokens, start, last):
        kinds, last, whose = {}, read.last, ""
    cold = not _COLD.isdisjoint(token.text for token in tokens)
    if kinds.get("slope") == "deg" and (read.value >= NO_SLOPE or cold):
        kinds = {"temperature": "F"}
    if spoken and not ("temperature" in kinds or (cold and not kinds)):
        return None
    if dollar:
        kinds = {k: unit for k, unit in kinds.items() if k.startswith("money")} or {"money": "$"}
    if kinds and not whose:
        read, last = _and_a_half(tokens, read, last)
    below = "temperature" in kinds and any(t.text == "below" for t in tokens[read.last : last])
    text = f"{'-' if below else sign}{read.text}"
    if kinds:
        text, kinds, last = _compound(tokens, text, kinds, last, taken)
    upper = _upper_end(tokens, last, kinds, taken)
    if upper:
        text, kinds, last = f"{text} to {upper[0]}", upper[1], upper[2]
    if not kinds and start and tokens[start - 1].text == "psi":
        kinds = {"pressure": "psi"}  # "front psi 12"
    hedged = _is_hedged(tokens, start)
    return Amount(start, last, text, kinds, hedged, read.value, whose, read.spelled and not kinds)


def _and_a_half(tokens: list[Token], read: _Numeral, last: int) -> tuple[_Numeral, int]:
    """Return "an inch and a half", "two tons and a quarter" whole, and where it ends."""
    texts = [token.text for token in tokens[last : last + 3]]
    part = {"half": 0.5, "quarter": 0.25}.get(texts[2] if len(texts) == 3 else "", 0.0)
    if texts[:2] != ["and", "a"] or not part or not read.value.is_integer():
        return read, last
    value = read.value + part
    return _Numeral(read.last, f"{value:g}", value, read.spelled), last + 3


def _labels_the_next(tokens: list[Token], start: int, last: int) -> bool:
    """Whether a unit is of the number behind it: the "pto hp" of "hp 28 pto hp 22"."""
    before = tokens[start - 1].text if start else ""
    behind = tokens[last : last + 1]
    return before in ("hp", "horsepower") and any(token.kind == NUMBER for token in behind)


def _ratio_end(tokens: list[Token], place: int) -> int:
    """Return where "1:5", "1 in 5" or "1-in-5" ends, said of a slope; 0 where there is none."""
    texts = [token.text for token in tokens[place : place + 5]]
    for between in ([":"], ["in"], ["-", "in", "-"]):
        ratio = texts[:1] == ["1"] and texts[1 : len(between) + 1] == between
        if ratio and len(texts) > len(between) + 1:
            run = tokens[place + len(between) + 1]
            behind = tokens[place + len(between) + 2 : place + len(between) + 3]
            is_run = run.kind == NUMBER and not any(tuple([t.text]) in units() for t in behind)
            if is_run and float(run.text.replace(",", "")) > 1:
                goes = {t.text for t in tokens[max(0, place - 2) : place]} & {"up", "down"}
                steep = goes or _STEEP & {t.text for t in tokens}
                return place + len(between) + 2 if steep else 0
    return 0


def _touches(tokens: list[Token], place: int) -> bool:
    """Whether a minus sign belongs to the number behind it, and not to a word before it."""
    after = place + 1 < len(tokens) and tokens[place + 1].start == tokens[place].end
    before = place > 0 and tokens[place - 1].end == tokens[place].start
    return after and tokens[place + 1].kind == NUMBER and not before


def _numeral(tokens: list[Token], place: int, taken: set[int]) -> _Numeral | None:
    """Return the number that begins at `place`: digits, a fraction, or words."""
    if place >= len(tokens) or place in taken:
        return None
    token = tokens[place]
    if token.kind == NUMBER:
        return _fraction(tokens, place) or _digits(tokens, place)
    return _spelled(tokens, place) if token.kind == WORD else None


def _digits(tokens: list[Token], place: int) -> _Numeral:
    token = tokens[place]
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    number = float(token.text.replace(",", ""))
    close = after is not None and after.start == token.end
    factor = quantities.TIMES.get(after.text, 1) if after else 1
    if close and after and after.text == "k":
        factor = 1000
    if factor > 1:
        return _Numeral(place + 2, f"{number * factor:.10g}", number * factor, False)
    return _Numeral(place + 1, token.text, number, False)


def _fraction(tokens: list[Token], place: int) -> _Numeral | None:
    """Return "7/8", "1-1/8", "5 1/2" or "13 and 3/4"."""
    texts = [token.text for token in tokens[place : place + 5]]
    if len(texts) > 1 and texts[1] in _PARTS:
        top, bottom = _PARTS[texts[1]].split("/")
        value = float(texts[0]) + float(top) / float(bottom)
        return _Numeral(place + 2, f"{texts[0]}-{top}/{bottom}", value, False)
    if len(texts) >= 3 and texts[1] == "/" and _whole(texts[0]) and _whole(texts[2]):
        value = float(texts[0]) / float(texts[2])
        real = value < 1 and int(texts[2]) in _PARTS_OF_ONE  # 11/14 is a day
        return _Numeral(place + 3, f"{texts[0]}/{texts[2]}", value, False) if real else None
    skip = 2 if len(texts) >= 2 and texts[1] in ("-", "and") else 1
    if len(texts) >= skip + 3 and texts[skip + 1] == "/":
        top, bottom = texts[skip], texts[skip + 2]
        parts = (texts[0], top, bottom)
        if all(_whole(part) for part in parts) and int(top) < int(bottom) in (2, 4, 8, 16, 32):
            value = float(texts[0]) + float(top) / float(bottom)
            return _Numeral(place + skip + 3, f"{texts[0]}-{top}/{bottom}", value, False)
    return None


def _whole(text: str) -> bool:
    return text.isdigit() and int(text) > 0


def _spelled(tokens: list[Token], place: int) -> _Numeral | None:
    said = spelled([token.text for token in tokens[place : place + 6]])
    return _Numeral(place + said[2], said[0], said[1], True) if said else None


def _unit(tokens: list[Token], read: _Numeral, taken: set[int]) -> tuple[dict[str, str], int, str]:
    """Return the kinds that the unit behind a number allows, where it ends, and whose it is."""
    place, whose = read.last, ""
    if place + 1 < len(tokens) and tokens[place].text in BETWEEN:
        inner = _unit_at(tokens, place + 1, taken, read.last - 1)
        if inner and "power" in inner[0]:
            return {"power": inner[0]["power"]}, inner[1], tokens[place].text
    if place < len(tokens) and tokens[place].text == "ptohp":
        whose = "pto"
    if place < len(tokens) and tokens[place].text == "-" and place + 1 < len(tokens):
        hyphened = _unit_at(tokens, place + 1, taken, read.last - 1)
        if hyphened and tokens[place].start == tokens[place - 1].end:
            return hyphened[0], hyphened[1], ""
    found = _unit_at(tokens, place, taken, read.last - 1)
    return (found[0], found[1], whose) if found else ({}, place, "")


def _unit_at(
    tokens: list[Token], place: int, taken: set[int], number: int
) -> tuple[dict[str, str], int] | None:
    """Return the unit that begins at `place`, behind the number at `number`."""
    for length in range(min(_longest(), len(tokens) - place), 0, -1):
        reach = range(place, place + length)
        words = tuple(token.text for token in tokens[place : place + length])
        kinds = units().get(words)
        if not kinds or not taken.isdisjoint(reach):
            continue
        close = tokens[place].start - tokens[number].end <= (0 if words[0] in ("k", "d") else 1)
        if length == 1 and words[0] in _CLOSE and not close:
            continue
        if not _exponents_touch(tokens, reach):
            continue
        if words == ("in",) and not _are_inches(tokens, place, number):
            continue
        apart = tokens[place].start > tokens[number].end
        if words == ("w",) and apart and any(t.kind == NUMBER for t in tokens[place + 1 :][:1]):
            continue  # "a 2012 w 900 hours"
        if words == ("a",) and apart and _article(tokens, place):
            continue
        return kinds, _past_point(tokens, place + length)
    return None


def _exponents_touch(tokens: list[Token], reach: range) -> bool:
    """Whether every number of a unit is written to it: "5 ft2" is an area, "5 ft 2 in" is not."""
    return all(
        tokens[place].kind != NUMBER or tokens[place].start == tokens[place - 1].end
        for place in reach
    )


def _article(tokens: list[Token], place: int) -> bool:
    """Whether "a" stands before a word as its article: "95 a day", and not "40 A alternator"."""
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    return bool(after and after.text in _COUNTED_BY)


_COUNTED_BY = frozenset(tables.small_words("counted by"))


def _past_point(tokens: list[Token], place: int) -> int:
    """Return the place behind the point of an abbreviation: "60 in. wide"."""
    if place + 1 >= len(tokens) or tokens[place].text != "." or tokens[place - 1].text != "in":
        return place
    close = tokens[place].start == tokens[place - 1].end
    behind = tokens[place + 1]
    return place + 1 if close and behind.kind == WORD and behind.text not in _BEGINS else place


# "It adds 5 in. The shaft ...": with these a sentence begins.
_BEGINS = frozenset(tables.small_words("begins"))


def _are_inches(tokens: list[Token], place: int, number: int) -> bool:
    after = tokens[place + 1] if place + 1 < len(tokens) else None
    if after is None or tokens[place].start == tokens[number].end:
        return True
    large = tokens[number].kind == NUMBER and len(tokens[number].text.replace(",", "")) > 3
    if after.text in _LOADED and large:
        return False
    if after.text == "back" and number and tokens[number - 1].text in _POUNDS:
        return True  # "2,200 lb 24 in back"
    # "1 in 10", "for 26,500 in 2016"
    number_behind = after.kind == NUMBER and (after.text == "10" or _YEAR.fullmatch(after.text))
    return after.text not in _NOT_INCHES and not number_behind


def _compound(
    tokens: list[Token], text: str, kinds: dict[str, str], last: int, taken: set[int]
) -> tuple[str, dict[str, str], int]:
    """Return "5 ft 2 in" whole; its unit is then part of the number's text."""
    if kinds.get("length") == "ft" and last not in taken:
        read = _numeral(tokens, last, taken)
        if read and not read.spelled and read.value < 12:
            inner = _unit_at(tokens, read.last, taken, read.last - 1)
            marked = tokens[last - 1].text == "'" and tokens[last].start == tokens[last - 1].end
            # "8 foot 6 wide"
            marked |= bool(tokens[read.last : read.last + 1]) and tokens[read.last].text in _SIZES
            if inner and inner[0].get("length") == "in":
                return f"{text} ft {read.text}", _INCHES, inner[1]
            if marked or _stands_alone(tokens, read.last):
                return f"{text} ft {read.text}", _INCHES, read.last
    return text, kinds, last


def _stands_alone(tokens: list[Token], place: int) -> bool:
    """Whether nothing that is counted stands behind a number: "9 ft 6 with the disk folded"."""
    return place >= len(tokens) or tokens[place].kind == MARK or tokens[place].text in _NOT_COUNTED


_INCHES = {"length": "in", "distance": "in"}


def _upper_end(
    tokens: list[Token], last: int, kinds: dict[str, str], taken: set[int]
) -> tuple[str, dict[str, str], int] | None:
    """Return the upper end of a range: "to 700 lb", "- 14 in", "and 2600 lb" after "between"."""
    if last + 1 >= len(tokens) or last in taken:
        return None
    joins = tokens[last].text in _TO
    between = tokens[last].text == "and" and any(
        token.text == "between" for token in tokens[max(0, last - 4) : last]
    )
    if not (joins or between):
        return None
    read = _numeral(tokens, last + 1, taken)
    if read is None or read.spelled:
        return None
    upper, end, _ = _unit(tokens, read, taken)
    if not upper or (kinds and kinds != upper):
        return None
    return read.text, upper, end


def _is_hedged(tokens: list[Token], start: int) -> bool:
    before = tokens[start - 1] if start else None
    if before is None or (before.text == "around" and tokens[start - 2].text in _GOING):
        return False
    return before.text in _HEDGES or (before.kind == MARK and before.text == "~")
