"""What stands in a message in a form of its own: tire sizes, categories, grades, places."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

from calc import si, tables
from calc.reading.given import Fact, Given
from calc.reading.words import NUMBER, Said, Token, span

_CATEGORY = re.compile(r"\bcat(?:[ae]g[aeo]ry)?\.?\s*([0-4]N?|zero|one|two|three|i{1,3})\b", re.I)
_SPELLED = {"ZERO": "0", "ONE": "1", "TWO": "2", "THREE": "3", "I": "1", "II": "2", "III": "3"}
_POWERED = re.compile(r",?\s*\d+\s?(?:pto |engine )?(?:hp|horse)", re.I)  # "cat 0, 16 hp"
_OR_CATEGORY = re.compile(r"\s*(?:or|/)\s*[0-4]\b", re.I)  # "cat 0 or 1" is neither
_NARROW = re.compile(r"\b([1-4]N)\b")
_ASKED = re.compile(r"(?:\b(?:is (?:that|it|this)(?: an?)?|what|which)\s*)$", re.I)
_GRADE = re.compile(r"\bgr(?:ade|\.)?\s*(2|5|8|two|five|eight)\b", re.I)
_DIGIT = {"two": "2", "five": "5", "eight": "8"}
_OR_GRADE = re.compile(r"\s*or\s+(?:a\s+)?(?:grade\s*)?(2|5|8)\b", re.I)
_AFTER_GRADE = re.compile(r"\bgrade\s*[258]\s*or\s+(?:a\s+)?$", re.I)
_NOT_THIS = re.compile(r"(?:instead of|in place of|rather than|not|than)\s*(?:a\s*)?$", re.I)
_PUT_IN = re.compile(
    r"\b(?:can|could|should|may|ok to|to)(?: i| we)? (?:use|go|run|put|try|step|sub|swap)"
    r"(?: up| in| to| with| a| an)*\s*$",
    re.I,
)
_BOLT = re.compile(r"(?<![\d-])(?<!\d )\b(1/4|5/16|3/8|7/16|1/2)\b")
_SHEARING = frozenset(["shear", "snap", "break", "broke", "shaft", "driveline", "pto", "digger"])
# Telephone numbers, dates, times of day, addresses, and numbers of orders and parts.
_NOTHINGS = re.compile(
    r"(?<![\w.])(?:\+?1[-. ])?\(?\d{3}\)?[-. ]{1,2}\d{3}[-. ]\d{4}(?!\w)"
    r"|(?<![\w.-])\d{3}-\d{4}(?![\w.-])"
    r"|(?<![\w/])\d{1,2}/\d{1,2}/\d{2,4}(?![\w/])|(?<![\w:])\d{1,2}:\d{2}(?:\s?[ap]m)?(?!\w)"
    r"|^\s*(?:fwd?|re)\s?:|\b\d{1,2}\s?[ap]\.?m\b|\S+@\S+\.\w+|\bhttps?://\S+"
    r"|\b(?:invoice|sku|serial|po box)\s?(?:number|no\.?)?\s?[#:]?\s?\d{3,}\b"
    r"|\b\d{1,5} (?!(?:mph|mi|ft|foot|in|yd|m|km|hp|lb|w)\b)[a-z]+ (?:[a-z]+ )?(?:rd|ave|ln|blvd)\b"
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


# "category 1 hitch", "category 2 quick hitch": what is on the tractor has its category.
_OF_THE_IMPLEMENT = ("pin", "pins", "implement", "implements")
_HITCH = frozenset(tables.small_words("on the tractor"))
_LIFTING = frozenset(["lift", "lower"])  # "category 1 lift arms"
_OF_THE_TRACTOR = ("hitch", "quick", "coupler", "quickhitch", "arm", "arms")


def place_categories(
    text: str, tokens: list[Token], subjects: list[tuple[Said, str]], given: Given
) -> None:
    """Take each hitch category for the machine that is named beside it."""
    found: dict[str, list[Fact]] = {}
    places = [span(tokens, m.start(), m.end()) for m in _CATEGORY.finditer(text)][-1:]
    # "tractor cat1, implement cat2", and not "cat 1 tractor cat 2 blade"
    noun_first = any(said.last == first for said, _ in subjects for first, _ in places)
    noun_first &= not any(said.first == last for said, _ in subjects for _, last in places)
    for match in (*_CATEGORY.finditer(text), *_NARROW.finditer(text)):
        first, last = span(tokens, match.start(), match.end())
        if (
            _OR_CATEGORY.match(text, match.end())
            or _ASKED.search(text[: match.start()])
            or any(f.first < last and f.last > first for f in given.facts)
        ):
            continue
        behind = [s for said, s in subjects if said.first == last]
        before = [s for said, s in subjects if said.last <= first]
        if not (before or behind) and text.upper().count(match[1].upper()) > 1:
            continue  # "what is category 1N? the blade is 1N"
        whose = ((before[-1:] if noun_first else behind) or behind or before[-1:] or [""])[0]
        if whose not in ("tractor", "implement"):
            others = [s for _, s in subjects]
            whose = "implement" if others and set(others) == {"implement"} else "tractor"
        after = [token.text for token in tokens[last : last + 2] if token.text not in _LIFTING]
        beside = after[0] if after and not behind else ""
        said = {token.text for token in tokens[max(0, first - 2) : first]}
        said |= {"hitch"} if said & {"mine"} else set()
        powered = _POWERED.match(text, match.end())
        if (
            beside in _OF_THE_TRACTOR or (_HITCH & said and not behind) or powered
        ):  # "hitch is cat 1"
            whose = "tractor"
        elif beside in _OF_THE_IMPLEMENT:
            whose = "implement"
        name = "implement_category" if whose == "implement" else "hitch_category"
        why = f"the {whose} is named beside it"
        said_as = match[1].upper()
        text_of = _SPELLED.get(said_as, said_as)
        found.setdefault(name, []).append(Fact((name,), first, last, text_of, why=why))
    _part_categories(text, tokens, found)
    for facts in found.values():
        certain = len({fact.text for fact in facts}) == 1  # "cat 1 or cat 2" is neither
        (given.facts if certain else given.doubtful).extend(facts)


_ONTO = re.compile(r"\b(?:fit|fits|on|onto|to|with|work|works|hook|hooks)\b", re.I)


def _part_categories(text: str, tokens: list[Token], found: dict[str, list[Fact]]) -> None:
    """Give the second of "a cat 2 implement on a cat 1" to the other machine, if none is its."""
    if len(found) != 1:
        return
    [(name, facts)] = found.items()
    if len(facts) != 2 or facts[0].text == facts[1].text:
        return
    one, other = facts
    between = text[tokens[one.last - 1].end : tokens[other.first].start]
    if _ONTO.search(between) and not re.search(r"\bor\b", between):
        rest = "hitch_category" if name == "implement_category" else "implement_category"
        found[name] = [one]
        found[rest] = [replace(other, fields=(rest,), why="the other machine's")]


def place_bolts(text: str, tokens: list[Token], said: set[str], given: Given) -> set[int]:
    """Take the grade and the size of a bolt; return the tokens that they stand in."""
    taken: set[int] = set()
    if not said & {"bolt", "shearbolt", "dual", "pin"}:
        return taken
    found = list(_GRADE.finditer(text))
    asked = [match for match in found if _PUT_IN.search(text[: match.start()])]
    for match in asked or found:  # "it has a grade 2, can I use a grade 8"
        first, last = span(tokens, match.start(), match.end())
        taken.update(range(first, last))
        other = _OR_GRADE.match(text, match.end())
        grades = [_DIGIT.get(match[1].lower(), match[1]), *([other[1]] if other else [])]
        before = text[: match.start()]
        if not _NOT_THIS.search(before) and not _AFTER_GRADE.search(before):
            facts = given.doubtful if other else given.facts  # "grade 5 or 2" is neither
            for grade in grades:
                bolt = Fact(("bolt_grade",), first, last, f"grade_{grade}", why="“grade” says it")
                facts += [bolt, Fact(("grade",), first, last, grade, why=bolt.why)]
    if "shearbolt" in said or ("bolt" in said and said & _SHEARING):
        bare = _GRADE.sub(lambda grade: "-" + "." * (len(grade[0]) - 1), text)  # "grade 5 3/8"
        for match in _BOLT.finditer(bare):
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
    short = [(r["place"].removeprefix("CANADA-"), r["place"]) for r in rows]
    codes = [(re.compile(_code(code)), place) for code, place in short if len(code) == 2]
    return (*names, *codes)


# Codes that are words too, or stand for something else, in small letters behind "in".
_WORDS_TOO = frozenset(tables.small_words("codes that are words"))


def _code(place: str) -> str:
    small = "" if place.lower() in _WORDS_TOO else rf"|(?<=\bin ){place.lower()}\b(?!\s*\.)"
    # "Millbrook VT": behind a name two capitals are a state, if they are no word
    named = "" if place.lower() in _WORDS_TOO else rf"|\b[A-Z][a-z]{{2,}} {place}\b"
    # "legal in daytime NC?"
    ends = "" if place.lower() in _WORDS_TOO else rf"|(?<=[a-z] ){place}(?=\s*(?:[?.!,;]|$))"
    return rf"(?<=\b[io]n ){place}\b{ends}|(?<=, ){place}\b(?! (?:in|to|if)\b){small}{named}"


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
    if "lift_capacity" in named or not words & _LIFTERS or "loader" in words:
        return
    for amount in [a for a in given.loose if "mass" in a.kinds or not a.kinds]:
        behind = [token.text for token in tokens[amount.last : amount.last + 2]]
        if behind in (["at", "24"], ["@", "24"]) and amount.value >= LEAST_LIFT:
            given.loose.remove(amount)
            why = "“at 24 in” stands behind it"
            fact = Fact(("lift_capacity",), amount.first, amount.last, "", amount, why)
            given.facts.append(fact)
            place = amount.last + 1
            placed = [f.amount for f in given.facts if f.amount]
            if not any(each.first == place for each in (*given.loose, *placed)):  # without a unit
                given.facts.append(Fact(("lift_rated_at",), place, place + 1, "610", why=why))
            return


_LIFTERS = frozenset(["lift", "lifts", "hitch", "pt", "3pt"])
LEAST_LIFT = 200.0  # [lb] or kg, of a number without a unit
_CAPACITY = frozenset(
    ["lift", "cap", "capacity", "rating", "rated", "on", "the", "spec", "sheet", ","]
)
_TAPE = {"in": si.INCH, "mm": 0.001, "cm": 0.01}  # [m] of a tape behind the ball ends
_FAR = {24: "610", 12: "305", 0: "0"}


def place_lift_distance(tokens: list[Token], given: Given) -> None:
    """Take "at 24 in" behind a lift figure for where it is measured."""
    _place_lift(tokens, given)
    lifts = [fact for fact in given.facts if fact.fields == ("lift_capacity",)]
    for lift in lifts:
        behind = [token.text for token in tokens[lift.last : lift.last + 3]]
        if behind[:2] in (["at", "24"], ["@", "24"]) and behind[2:3] in ([], [","], ["."], ["?"]):
            place = lift.last + 1
            given.loose = [each for each in given.loose if each.first != place]
            why = "“at” behind a lift figure"
            given.facts.append(Fact(("lift_rated_at",), place, place + 1, _FAR[24], why=why))
            return
        for amount in [*given.loose, *(f.amount for f in given.facts if f.amount)]:
            far = amount.value * _TAPE.get(amount.kinds.get("length", ""), 0) / si.INCH
            if "length" not in amount.kinds or round(far) not in _FAR:
                continue
            between = [t.text for t in tokens[amount.last : lift.first]]
            ahead = between in (["at"], ["@"])  # "24 inches at 1,540 lb lift"
            near = ahead or lift.last <= amount.first <= lift.last + 4
            said_at = any(
                t.text in ("at", "@") for t in tokens[max(0, amount.first - 2) : amount.first]
            )
            # "lifts 1500 lb 24 in back", "2200 lb lift cap 24 in back"
            words = {t.text for t in tokens[lift.last : amount.first]}
            back = [t.text for t in tokens[amount.last : amount.last + 1]]
            right_behind = lift.last <= amount.first and words <= _CAPACITY
            near |= right_behind
            said_at |= ahead or (right_behind and back in (["back"], ["behind"]))
            if (
                near
                and said_at
                and not any(t.kind == NUMBER for t in tokens[lift.last : amount.first])
            ):
                given.loose = [each for each in given.loose if each != amount]
                given.facts = [f for f in given.facts if f.amount != amount]
                text = _FAR[round(far)]
                why = "“at” behind a lift figure"
                given.facts.append(
                    Fact(("lift_rated_at",), amount.first, amount.last, text, why=why)
                )
                return
