"""What stands in a message in a form of its own: tire sizes, categories, grades, places."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

from calc import tables
from calc.mechanics import tire_size
from calc.reading.amounts import Amount
from calc.reading.given import Fact, Given
from calc.reading.words import NUMBER, Said, Token

# A size as people type it; what looks like a range ("12-14") is one only beside a word for tires.
_TIRE = re.compile(
    r"(?<![\w.])(?:\d{2}(?:\.\d+)?\s?[xX]\s?\d{1,2}(?:\.\d+|[05]0)?\s?(?:LL)?\s?[-RrBbDdxX]\s?\d{1,2}(?:\.\d)?"
    r"|(?:\d{3}|\d{1,2}\.\d{1,2})\s?/\s?\d{2}\s?[-RrBbDd]\s?\d{2}(?:\.\d)?"
    r"|\d{1,2}\.\d{1,2}L?\s?[-xXRr]\s?\d{1,2}(?:\.\d)?"
    r"|(?P<whole>\d{1,2}L?-\d{1,2}(?:\.\d)?"
    r"(?!\s*(?:ft|lbs?|hp|\"|'|psi|mph|%|inch|inches|feet|pounds|kg|in(?! place))\b)))"
    r"(?![\d.]*\d)"
    r"(?P<rest>(?:\s+(?:\d{2,3}(?:A\d|[BD])(?:/(?:\d{2,3})?(?:A\d|[BD]))?|\d{1,2}\s?PR|\d{1,2}\s?ply|[RFI]-?\d[WM]?|NHS)(?!\w))*)",
    re.I,
)
_TIRE_WORDS = re.compile(
    r"\b(?:tires?|tyres?|fronts?|rears?|rims?|wheels?|R-?[1-4]W?|turfs?)\b", re.I
)
_CATEGORY = re.compile(r"\bcat(?:egory)?\.?\s*([0-4]N?)\b", re.I)
_NARROW = re.compile(r"\b([1-4]N)\b")
_ASKED = re.compile(r"(?:\b(?:is (?:that|it|this)(?: an?)?|what|which)\s*)$", re.I)
_GRADE = re.compile(r"\bgrade\s*(2|5|8)\b", re.I)
_OR_GRADE = re.compile(r"\s*or\s+(?:a\s+)?(?:grade\s*)?(2|5|8)\b", re.I)
_NOT_THIS = re.compile(r"(?:instead of|in place of|rather than|not|than)\s*(?:a\s*)?$", re.I)
_BOLT = re.compile(r"\b(1/4|5/16|3/8|7/16|1/2)\b")
_LARGEST_FRONT_RIM = 16.5  # [in]; what is made for a larger one goes on the rear
_NEW = re.compile(
    r"\b(?:to|go|going|put\w*|with|switch\w*|gain\w*|bigger|larger|taller|new|use|fit|mix|change\w*|want)\b"
)
# "swap 11.2-24 for 12.4-24": the second is the new one.
_EXCHANGED = re.compile(r"\b(?:swap|change|exchange|trade|replace)\w*\b", re.I)


def tires_in(text: str) -> list[re.Match[str]]:
    """Return the tire sizes that stand in a message."""
    speaks_of_tires = bool(_TIRE_WORDS.search(text))
    found = []
    for match in _TIRE.finditer(text):
        if match["whole"] and not speaks_of_tires:
            continue
        try:
            tire_size.decode(match[0])
        except tire_size.SizeError:
            continue
        found.append(match)
    return found


def place_tires(text: str, found: list[re.Match[str]], tokens: list[Token], given: Given) -> None:
    """Tell front from rear, and new from old."""
    places = [_Tire(text, match) for match in found]
    for one, other in pairwise(places):
        between = text[one.match.end() : other.match.start()].lower()
        if re.fullmatch(r"\s*(?:chang|switch|swapp)\w* (?:over )?to\s*(?:a |the )?", between):
            one.new, other.new = False, True
        elif re.search(_INSTEAD, between):
            one.new, other.new = True, False
        elif re.fullmatch(r"\s*from\s*(?:my |the |a )?", between):
            one.new, other.new = True, False
            other.end = one.end or other.end
        elif re.fullmatch(r"\s*(?:to|with|->|=>)\s*(?:a |the )?\s*", between) or (
            between.strip() == "for" and _EXCHANGED.search(text[: one.match.start()])
        ):
            one.new, other.new = False, True
        if None not in (one.new, other.new) and one.new != other.new:  # both are of one end
            one.end = other.end = one.end or other.end
    _pair_duals(text, places)
    exchanged = any(each.new for each in places)
    for each in places:
        if each.new is None:  # beside an exchange at one end what the other has stays
            each.new = not exchanged and each.seems_new()
        size = tire_size.decode(each.match[0])
        if not each.end and size.rim > _LARGEST_FRONT_RIM:
            each.end = "rear"
    if any(each.new for each in places) and len(places) > 1 and not exchanged:
        for each in places:  # "mix 9.5-16 fronts with 14.9-24 rears": both are wanted
            each.new = each.new or bool(re.search(r"\b(?:mix|switch|change)\b", text.lower()))
    for each in places:
        given.facts.append(each.fact(tokens, alone=len(places) == 1))


# "which rear goes with" the one that is there
_GOES_WITH = re.compile(r"\b(?:what|which)\b.{0,30}\b(?:go|goes|fit|fits|match|matches)\b")

# "fill the rears with beet juice, 13.6-28" speaks of the tires that are there
_FILLING = re.compile(r"\b(?:fill|filled|filling|load|loaded|loading)\b[^.;?]*$")


# Of two that are compared the first is measured by the second, which is there.
_INSTEAD = (
    r"in place of|instead of|replac|rather than|over my|for my|\b(?:same|as)\b.*\bas\b|er than\b"
    r"|^\s*(?:vs\.?|versus)\s*$"
)
_DUAL = re.compile(r"\b(inner|outer|inside|outside)s?\b")


def _pair_duals(text: str, places: list[_Tire]) -> None:
    """Tell the outer tire of duals from the inner one, where the message says which is which."""
    for each in places:
        before = text[max(0, each.match.start() - 24) : each.match.start()].lower()
        after = text[each.match.end() : each.match.end() + 20].lower()
        words = _DUAL.findall(re.split(r"[;?]|\d", before)[-1])
        words = words or _DUAL.findall(re.split(r"[,.;?]|\d", after)[0])
        if words:
            each.end = "outer" if words[-1].startswith("out") else "rear"
            each.new = False


class _Tire:
    """One size in a message: at which end, and whether it is there or wanted."""

    def __init__(self, text: str, match: re.Match[str]) -> None:
        self.text, self.match = text.lower(), match
        self.new: bool | None = None
        self.end = self._nearest_end()

    def _nearest_end(self) -> str:
        before = self.text[max(0, self.match.start() - 24) : self.match.start()]
        after = self.text[self.match.end() : self.match.end() + 20]
        after = re.split(r"[,.;?]|\d", after)[0]
        ahead_of = before[:-1]
        before = re.split(r"[;?]|\d", before)[-1]
        if len(before) <= len(ahead_of):
            # "14.9-24 on the back 9.5-16 front": the back is that of the size before it
            before = re.sub(r"^\s*(?:on|for|at|in) (?:the |my )?\w+", "", before)
            if re.match(r"\s*(?:front|rear|back)s?\b", after):  # "8.3-24 rear 5-12 front"
                before = re.sub(r"^\s*(?:front|rear|back)s?\b", "", before)
            before = re.sub(r"^.*\b(?:if|when|will|should|can)\b", "", before)
        beside = re.search(r"\b(front|rear|back)s?(?: tires?| is| are|:)?\s*$", before)
        if beside:
            return "front" if beside[1] == "front" else "rear"
        ahead = re.search(r"\b(front|rear|back)s?\b", after)
        behind = [*re.finditer(r"\b(front|rear|back)s?\b", before)]
        word = ahead[1] if ahead else behind[-1][1] if behind else ""
        return "front" if word == "front" else "rear" if word else ""

    def seems_new(self) -> bool:
        """Whether the words around it say that it is wanted, and not that it is there."""
        start, end = self.match.span()
        ahead = re.split(r"[.;?]", self.text[max(0, start - 12) : start])[-1]
        behind = re.split(r"[.;?]", self.text[end : end + 10])[0]
        around = f"{ahead} {behind}"
        if re.search(r"\b(?:have|has|now|my|current\w*|old|the fluid|in)\b", around):
            return False
        if _GOES_WITH.search(self.text[:start]) or _FILLING.search(self.text[:start]):
            return False
        before = self.text[max(0, self.match.start() - 28) : self.match.start()]
        return bool(_NEW.search(re.split(r"[.;?]", before)[-1]))

    def fact(self, tokens: list[Token], *, alone: bool) -> Fact:
        """Return it as what the tire fields take."""
        first, last = span(tokens, self.match.start(), self.match.end())
        name = f"{self.end}_tire" if self.end else ""
        fields = [f"new_{name}" if self.new else name] if name else []
        if alone:
            fields += ["tire", *([name] if self.new and name else [])]
        text = " ".join(self.match[0].split())
        why = f"it is at the {self.end}" if self.end else "it is the only tire"
        return Fact(tuple(fields) or ("tire",), first, last, text, why=why)


# Telephone numbers, dates, times of day, addresses, and numbers of orders and parts.
_NOTHINGS = re.compile(
    r"(?<![\w.])(?:\+?1[-. ])?\(?\d{3}\)?[-. ]{1,2}\d{3}[-. ]\d{4}(?!\w)"
    r"|(?<![\w.-])\d{3}-\d{4}(?![\w.-])"
    r"|(?<![\w/])\d{1,2}/\d{1,2}/\d{2,4}(?![\w/])|(?<![\w:])\d{1,2}:\d{2}(?:\s?[ap]m)?(?!\w)"
    r"|\b\d{1,2}\s?[ap]\.?m\b|\S+@\S+\.\w+|\bhttps?://\S+"
    r"|\b(?:invoice|sku|serial|po box)\s?(?:number|no\.?)?\s?[#:]?\s?\d{3,}\b"
    r"|\b(?:order|part|stock|model|account|ticket|quote)\s?(?:number|no\.?|#)\s?[#:]?\s?\d{3,}\b",
    re.I,
)


def place_nothings(text: str, tokens: list[Token]) -> set[int]:
    """Return the tokens of numbers that measure nothing: "call 555-867-5309", "sku 7713"."""
    return {
        place
        for match in _NOTHINGS.finditer(text)
        for place in range(*span(tokens, match.start(), match.end()))
    }


def span(tokens: list[Token], start: int, end: int) -> tuple[int, int]:
    """Return the tokens between two places of the text."""
    inside = [i for i, token in enumerate(tokens) if token.start < end and token.end > start]
    return (inside[0], inside[-1] + 1) if inside else (0, 0)


# "category 1 hitch", "category 2 quick hitch": what is on the tractor has its category.
_OF_THE_IMPLEMENT = ("pin", "pins", "implement", "implements")
_OF_THE_TRACTOR = ("hitch", "quick", "coupler", "quickhitch", "arm", "arms")


def place_categories(
    text: str, tokens: list[Token], subjects: list[tuple[Said, str]], given: Given
) -> None:
    """Take each hitch category for the machine that is named beside it."""
    found: dict[str, list[Fact]] = {}
    for match in (*_CATEGORY.finditer(text), *_NARROW.finditer(text)):
        first, last = span(tokens, match.start(), match.end())
        if _ASKED.search(text[: match.start()]) or any(
            f.first < last and f.last > first for f in given.facts
        ):
            continue
        behind = [s for said, s in subjects if said.first == last]
        before = [s for said, s in subjects if said.last <= first]
        whose = (behind or before[-1:] or [""])[0]
        if whose not in ("tractor", "implement"):
            others = [s for _, s in subjects]
            whose = "implement" if others and set(others) == {"implement"} else "tractor"
        beside = tokens[last].text if last < len(tokens) and not behind else ""
        said = {token.text for token in tokens[max(0, first - 2) : first]}
        if beside in _OF_THE_TRACTOR or "hitch" in said:  # "hitch is cat 1"
            whose = "tractor"
        elif beside in _OF_THE_IMPLEMENT:
            whose = "implement"
        name = "implement_category" if whose == "implement" else "hitch_category"
        why = f"the {whose} is named beside it"
        found.setdefault(name, []).append(Fact((name,), first, last, match[1].upper(), why=why))
    for facts in found.values():
        certain = len({fact.text for fact in facts}) == 1  # "cat 1 or cat 2" is neither
        (given.facts if certain else given.doubtful).extend(facts)


def place_bolts(text: str, tokens: list[Token], said: set[str], given: Given) -> set[int]:
    """Take the grade and the size of a bolt; return the tokens that they stand in."""
    taken: set[int] = set()
    if not said & {"bolt", "shearbolt", "dual", "pin"}:
        return taken
    for match in _GRADE.finditer(text):
        first, last = span(tokens, match.start(), match.end())
        taken.update(range(first, last))
        other = _OR_GRADE.match(text, match.end())
        grades = [match[1], *([other[1]] if other else [])]
        if not _NOT_THIS.search(text[: match.start()]):
            facts = given.doubtful if other else given.facts  # "grade 5 or 2" is neither
            for grade in grades:
                bolt = Fact(("bolt_grade",), first, last, f"grade_{grade}", why="“grade” says it")
                facts += [bolt, Fact(("grade",), first, last, grade, why=bolt.why)]
    if "shearbolt" in said:
        for match in _BOLT.finditer(text):
            first, last = span(tokens, match.start(), match.end())
            taken.update(range(first, last))
            given.facts.append(Fact(("bolt_size",), first, last, match[1], why="a bolt's size"))
    return taken


@cache
def _places() -> tuple[tuple[re.Pattern[str], str], ...]:
    rows = [r for r in tables.rows("road/road_places") if r["name"][:1].isupper()]
    rows.sort(key=lambda row: -len(row["name"]))
    names = [(re.compile(rf"\b{re.escape(r['name'])}\b", re.I), r["place"]) for r in rows]
    # Two capitals are a state only behind "in" or a comma: "OK" and "IN" are words too.
    codes = [(re.compile(_code(r["place"])), r["place"]) for r in rows if len(r["place"]) == 2]
    return (*names, *codes)


# Codes that are words too, or stand for something else, in small letters behind "in".
_WORDS_TOO = frozenset(tables.small_words("codes that are words"))


def _code(place: str) -> str:
    small = "" if place.lower() in _WORDS_TOO else rf"|(?<=\bin ){place.lower()}\b(?!\s*\.)"
    return rf"(?<=\bin ){place}\b|(?<=, ){place}\b{small}"


def place_place(text: str, tokens: list[Token], given: Given) -> None:
    """Take the state or country that is named, if it is one."""
    found: dict[str, Fact] = {}
    left = text
    for pattern, place in _places():
        match = pattern.search(left)
        if match:
            left = left[: match.start()] + " " * len(match[0]) + left[match.end() :]
            first, last = span(tokens, match.start(), match.end())
            found[place] = Fact(("place",), first, last, place, why="the name of the place")
    (given.facts if len(found) == 1 else given.doubtful).extend(found.values())


def _place_lift(tokens: list[Token], given: Given) -> None:
    """Take a number or a mass right before "at 24 in" for the lift figure, if the hitch lifts."""
    named = {name for fact in given.facts for name in fact.fields}
    words = {token.text for token in tokens}
    if "lift_capacity" in named or not words & {"lift", "lifts"} or "loader" in words:
        return
    for amount in [a for a in given.loose if "mass" in a.kinds or not a.kinds]:
        behind = [token.text for token in tokens[amount.last : amount.last + 2]]
        if behind in (["at", "24"], ["@", "24"]) and amount.value >= LEAST_LIFT:
            given.loose.remove(amount)
            why = "“at 24 in” stands behind it"
            fact = Fact(("lift_capacity",), amount.first, amount.last, "", amount, why)
            given.facts.append(fact)
            return


LEAST_LIFT = 200.0  # [lb] or kg, of a number without a unit
_FAR = {24: "610", 12: "305", 0: "0"}


def place_lift_distance(tokens: list[Token], given: Given) -> None:
    """Take "at 24 in" behind a lift figure for where it is measured."""
    _place_lift(tokens, given)
    lifts = [fact for fact in given.facts if fact.fields == ("lift_capacity",)]
    for lift in lifts:
        for amount in [*given.loose, *(f.amount for f in given.facts if f.amount)]:
            if amount.kinds.get("length") != "in" or amount.value not in _FAR:
                continue
            near = lift.last <= amount.first <= lift.last + 4
            said_at = any(
                t.text in ("at", "@") for t in tokens[max(0, amount.first - 2) : amount.first]
            )
            if (
                near
                and said_at
                and not any(t.kind == NUMBER for t in tokens[lift.last : amount.first])
            ):
                given.loose = [each for each in given.loose if each != amount]
                given.facts = [f for f in given.facts if f.amount != amount]
                text = _FAR[int(amount.value)]
                why = "“at” behind a lift figure"
                given.facts.append(
                    Fact(("lift_rated_at",), amount.first, amount.last, text, why=why)
                )
                return


_TIMES = frozenset(["of", "x", "@", "at"])
_WEIGHTS = frozenset(["weight", "weights", "suitcase", "suitcases"])
_MOST_PIECES = 30  # weights on a bracket, or bottoms of a plow
_WIDEST_BOTTOM = 20.0  # [in]


def multiplied(tokens: list[Token], amounts: list[Amount]) -> list[Amount]:
    """Return the amounts with "6 of 42 lb" of weights as 252 lb, and "2 bottom 14 in" as 28 in."""
    bottoms = next((place for place, token in enumerate(tokens) if token.text in _BOTTOMS), -1)
    count = next((a for a in amounts if a.last == bottoms and _are_pieces(a)), None)
    found: list[Amount] = []
    for amount in amounts:
        if _each_of(tokens, amount):
            mass = float(_each_of(tokens, amount))
            each = replace(amount, last=amount.last + 2, number=f"{mass:g}", value=mass)
            found.append(_product(amount, each, amount.first))
        elif found and _weigh_together(tokens, found[-1], amount):
            found[-1] = _product(found[-1], amount, found[-1].first)
        elif count and _is_of_a_bottom(tokens, amount):
            across = replace(amount, kinds={"length": "in"})
            found.append(_product(count, across, amount.first))
        else:
            found.append(amount)
    return found


_BOTTOMS = frozenset(["bottom", "bottoms", "furrow", "furrows"])


def _are_pieces(amount: Amount) -> bool:
    return not amount.kinds and amount.value.is_integer() and 2 <= amount.value <= _MOST_PIECES


def _weigh_together(tokens: list[Token], count: Amount, each: Amount) -> bool:
    """Whether so many pieces and a mass are those of weights: "6 of 42 lb", "six 42 lb weights"."""
    between = {token.text for token in tokens[count.last : each.first]}
    beside = {token.text for token in (*tokens[: each.first], *tokens[each.last :][:2])}
    pieces = _are_pieces(count) and "mass" in each.kinds
    return pieces and between <= _TIMES | _WEIGHTS and bool(beside & _WEIGHTS)


def _each_of(tokens: list[Token], count: Amount) -> str:
    """Return the 70 of "suitcase 4x70": what each of so many weights weighs, without a unit."""
    behind = tokens[count.last : count.last + 2]
    beside = {t.text for t in (*tokens[: count.first][-3:], *tokens[count.last + 2 :][:2])}
    pieces = _are_pieces(count) and len(behind) == 2 and bool(beside & _WEIGHTS)
    return behind[1].text if pieces and behind[0].text == "x" and behind[1].kind == NUMBER else ""


def _is_of_a_bottom(tokens: list[Token], amount: Amount) -> bool:
    """Whether a size is that of a bottom: "2 bottom 14 in", "3 bottom plow, 14s", "2 bottom 14"."""
    inches = amount.kinds.get("length") == "in" or amount.kinds.get("seconds") == "s"
    before = tokens[amount.first - 1].text if amount.first else ""
    inches |= not amount.kinds and before in _BOTTOMS
    return inches and amount.number.isdigit() and amount.value <= _WIDEST_BOTTOM


def _product(count: Amount, each: Amount, first: int) -> Amount:
    value = count.value * each.value
    return replace(each, first=first, number=f"{value:g}", value=value)


_LAMPS = frozenset(["led", "leds", "lamp", "lamps", "light", "lights", "headlight", "headlights", "bar", "bars"])
_HEAD = frozenset(["head", "headlight", "headlights", "headlamp", "headlamps"])


def place_lamps(tokens: list[Token], begin: int, end: int, given: Given) -> None:
    """Take the watts of the lamps of a sentence for their kind.

    Where the table has no such lamp, what the words alone say of the kind is dropped.
    """
    for amount in [a for a in given.loose if a.kinds.get("power") == "W"]:
        if begin <= amount.first < end:
            _place_lamp(_lamps_beside(tokens[begin:end], amount, begin), amount, begin, end, given)


def _place_lamp(beside: set[str], amount: Amount, begin: int, end: int, given: Given) -> None:
    if not beside & _LAMPS:
        return
    name = "head_lamp" if beside & _HEAD else "work_lamp"
    make = "led" if beside & {"led", "leds"} else "halogen"
    fitting = [
        row["lamp"]
        for row in tables.rows("road/lamp_loads")
        if row["watts"] == amount.number and row["lamp"].startswith(make)
    ]
    given.facts = [
        f
        for f in given.facts
        if f.fields != (name,) or f.text in fitting or not begin <= f.first < end
    ]
    if len(fitting) == 1:
        why = "its watts and its kind"
        given.loose.remove(amount)
        given.facts.append(Fact((name,), amount.first, amount.last, fitting[0], why=why))


_NEAR_LAMP = 4  # words between an amount of watts and the lamps that it is of


def _lamps_beside(sentence: list[Token], amount: Amount, begin: int) -> set[str]:
    """Return the words from an amount up to the lamps behind it, or else before it."""
    behind = [token.text for token in sentence[amount.last - begin :][:_NEAR_LAMP]]
    before = [token.text for token in sentence[: amount.first - begin]][-_NEAR_LAMP:]
    for words in (behind, before[::-1]):
        places = [place for place, word in enumerate(words) if word in _LAMPS]
        if places:
            reach = places[0] + (1 if words is behind else 3)
            return set(words[:reach])
    return set()
