"""The tire sizes of a message: which end each is of, and whether it is there or wanted."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise

from calc.mechanics import tire_size, tires
from calc.reading.given import Fact, Given
from calc.reading.words import Token, span

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
        certain = match["rest"] or "l" in match[0].lower() or match[0].endswith(".5")
        if match["whole"] and not speaks_of_tires and not certain:
            continue
        try:
            tire_size.decode(match[0])
        except tire_size.SizeError:
            continue
        found.append(match)
    return found


_ALL = re.compile(r"\ball (?:around|round|four|4)\b|\b(?:in|on) all\b|\b(?:tires|tyres|turfs)\b")
_ENDS = re.compile(r"\b(?:fronts?|rears?|backs?)\b")
_NEAR_ALL, _PAST_SIZE = 4, 9  # words between a pressure and the tires that it is in


def place_inflation(tokens: list[Token], given: Given) -> None:
    """Take the one pressure of a message that tells no end apart for that of all its tires."""
    told = [f.amount for f in given.facts if f.amount and "pressure" in f.amount.kinds]
    told += [a for a in given.loose if "pressure" in a.kinds]
    texts = [token.text for token in tokens]
    if len(told) != 1 or _ENDS.search(" ".join(texts)):
        return
    first, last = told[0].first, told[0].last
    near = texts[max(0, first - _PAST_SIZE) : first], texts[last : last + _NEAR_ALL]
    if any(_ALL.search(" ".join(each)) for each in near):
        given.loose = [each for each in given.loose if each is not told[0]]
        why = "no end is named, so that it is all of them"
        given.facts += [
            Fact((f"{end}_inflation",), first, last, "", told[0], why) for end in ("front", "rear")
        ]


_MARK = re.compile(r"(?<![\w.])\d{2,3}A\d(?!\w)", re.I)


def marks_apart(text: str, found: list[re.Match[str]]) -> list[re.Match[str]]:
    """Return the load and speed marks that stand apart from any size: "a 121A8 tire"."""
    inside = [range(*each.span()) for each in found]
    return [m for m in _MARK.finditer(text) if not any(m.start() in each for each in inside)]


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
        elif re.fullmatch(
            r"\s*(?:to|with|->|=>|,? ?now|,? ?new)\s*(?:(?:a|the|ag|turf|bar|r-?\d) )*\s*", between
        ) or (
            re.search(r"^[a-z ]*\bfor\s*(?:a |the |new )*$", between)
            and _EXCHANGED.search(text[: one.match.start()])
        ):
            one.new, other.new = False, True
        if None not in (one.new, other.new) and one.new != other.new:  # both are of one end
            one.end = other.end = one.end or other.end
    _two_pairs(text.lower(), places)
    _pair_duals(text, places)
    unsaid = _unsaid_duals(text.lower(), places)
    exchanged = any(each.new for each in places)
    for each in places:
        if each.new is None:  # beside an exchange at one end what the other has stays
            each.new = not exchanged and each.seems_new()
        if not each.end and each.size.rim > _LARGEST_FRONT_RIM:
            each.end = "front" if each.goes_before(places) else "rear"
    for each in places:  # "7-16 and 12.4-24": the small one is in front
        small = each.size.rim <= _LARGEST_FRONT_RIM
        if not each.end and small and any(other.end == "rear" for other in places):
            each.end = "front"
    if any(each.new for each in places) and len(places) > 1 and not exchanged:
        for each in places:  # "mix 9.5-16 fronts with 14.9-24 rears": both are wanted
            before = text[: each.match.start()].lower()
            each.new = each.new or bool(re.search(r"\b(?:mix|switch|change)\b", before))
    for one, other in combinations(places, 2):
        differ = tire_size.decode(one.match[0]) != tire_size.decode(other.match[0])
        alike = one.end == other.end in ("front", "rear") and one.new == other.new
        if alike and differ and not _DUAL.search(text.lower()):
            # "does 15 on 12.4-24, how fast on 14.9-24"; "they have 420/70R24, mine is 14.9-24"
            mine = _MINE.search(text[: other.match.start()].lower())
            one.new, other.new = bool(mine), not mine
    apart = marks_apart(text, found)
    only = len(places) == 1 and len(apart) == 1 and not found[0]["rest"]
    for each in places:
        fact = each.fact(tokens, alone=len(places) == 1)
        (given.doubtful if unsaid else given.facts).append(
            replace(fact, text=f"{fact.text} {apart[0][0]}") if only else fact
        )


# "the 9.5-16 in my shed" is there, "want 14.9-24 in back" is wanted
_THERE = re.compile(
    r"\b(?:have|has|now|my|current\w*|old|the fluid|in(?! (?:the )?(?:back|rear|front)))\b"
)

# "which rear goes with" the one that is there
_GOES_WITH = re.compile(r"\b(?:wh?[au]t|which)\b.{0,30}\b(?:go|goes|fit|fits|match|matches)\b")

# "fill the rears with beet juice, 13.6-28" speaks of the tires that are there
_MINE = re.compile(
    r"\b(?:my|mine|current|old|existing|now(?: with| w/| on)?|have|had)"
    r"(?: (?:rear|front|back|tire)s?)*(?: (?:is|are|r|say|says))? $"
)
_FILLING = re.compile(r"\b(?:fill|filled|filling|load|loaded|loading)\b[^.;?]*$")


# Of two that are compared the first is measured by the second, which is there.
_INSTEAD = (
    r"in place of|instead of|replac|rather than|over my|for my|\b(?:same|as)\b.*\bas\b|er than\b"
    r"|^\s*(?:vs\.?|versus|compared? (?:to|with))\s*$"
)
_DUAL = re.compile(r"\b(inner|outer|inside|outside)s?\b")


# A rear tire is at least so many times as tall as its front, tires/PR-1: 1.29 at the least.
_REAR_TALLER = 1.15


def _two_pairs(text: str, places: list[_Tire]) -> None:
    """Tell two pairs of front and rear apart: "swap 9.5-16/13.6-24 for 12-16.5 and 17.5L-24"."""
    if len(places) != 4 or not (_EXCHANGED.search(text) or _NEW.search(text)):
        return
    pairs = [
        sorted(pair, key=lambda each: tires.dimensions(each.size).overall_diameter)
        for pair in (places[:2], places[2:])
    ]
    for low, high in pairs:
        front, rear = (tires.dimensions(each.size).overall_diameter for each in (low, high))
        if rear < _REAR_TALLER * front:
            return
    between = text[places[1].match.end() : places[2].match.start()]
    second_is_new = not re.search(rf"{_INSTEAD}|\bmine\b|\bmy\b", between)
    for pair, new in zip(pairs, (not second_is_new, second_is_new), strict=True):
        for each, end in zip(pair, ("front", "rear"), strict=True):
            each.end, each.new = end, new


def _pair_duals(text: str, places: list[_Tire]) -> None:
    """Tell the outer tire of duals from the inner one, where the message says which is which."""
    used = 0  # up to here the words are of the sizes before: "14.9-38 inside 13.6-38 outside"
    for each in places:
        before = text[max(used, each.match.start() - 24) : each.match.start()].lower()
        after = text[each.match.end() : each.match.end() + 20].lower()
        behind = re.match(r"\s*(inner|outer|inside|outside)s?\b( and| &)?", after)
        if behind and behind[2]:
            continue  # "16.9-30 inner and outer"
        # "12.4-38 outers with 15.5-38 inners", not "outer 12.4-38 inner 15.5-38"
        beside = re.search(rf"{_DUAL.pattern}(?: is| are|:)?\s*$", before)
        words = [behind[1]] if behind and not beside else []
        used = each.match.end() + (behind.end() if behind and words else 0)
        words = words or _DUAL.findall(re.split(r"[;?]|\d", before)[-1])
        words = words or _DUAL.findall(re.split(r"[,.;?]|\d", after)[0])
        if words:
            each.end = "outer" if words[-1].startswith("out") else "rear"
            each.new = False


def _unsaid_duals(text: str, places: list[_Tire]) -> bool:
    """Whether two sizes are those of duals, and nothing says which one is the inner."""
    sizes = {str(tire_size.decode(each.match[0])) for each in places}
    told = any(each.end in ("outer", "front") for each in places)
    return len(places) == len(sizes) == 2 and bool(re.search(r"\bduals?\b", text)) and not told


_FOURWHEEL = re.compile(r"\b4 ?(?:wd|x4)\b")  # "the fronts on my 4wd are 7-14"


class _Tire:
    """One size in a message: at which end, and whether it is there or wanted."""

    def __init__(self, text: str, match: re.Match[str]) -> None:
        self.text, self.match = text.lower(), match
        self.size = tire_size.decode(match[0])
        self.new: bool | None = None
        self.end = self._nearest_end()

    def _nearest_end(self) -> str:
        before = _FOURWHEEL.sub("it", self.text[: self.match.start()])[-24:]
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
        beside = re.search(
            r"\b(front|rear|back)s?(?: tires?)?(?: on (?:my|the) \w+)?(?: is| are| r|:)?\s*$",
            before,
        )
        if beside:
            return "front" if beside[1] == "front" else "rear"
        ahead = re.search(r"\b(front|rear|back)s?\b", after)
        behind = [*re.finditer(r"\b(front|rear|back)s?\b", before)]
        word = ahead[1] if ahead else behind[-1][1] if behind else ""
        return "front" if word == "front" else "rear" if word else ""

    def goes_before(self, places: list[_Tire]) -> bool:
        """Whether another is called the rear one, and stands so much taller."""
        own = tires.dimensions(self.size).overall_diameter
        rears = [tires.dimensions(each.size) for each in places if each.end == "rear"]
        return any(each.overall_diameter > _REAR_TALLER * own for each in rears)

    def seems_new(self) -> bool:
        """Whether the words around it say that it is wanted, and not that it is there."""
        start, end = self.match.span()
        ahead = re.split(r"[.;?]", self.text[max(0, start - 12) : start])[-1]
        behind = re.split(r"[.;?]", self.text[end : end + 10])[0]
        around = f"{ahead} {behind}"
        if re.search(
            r"\b(?:have|has|now|my|current\w*|old|the fluid|in(?! (?:the )?(?:back|rear|front)))\b",
            around,
        ):
            return False
        if _GOES_WITH.search(self.text[:start]) or _FILLING.search(self.text[:start]):
            return False
        before = self.text[max(0, self.match.start() - 28) : self.match.start()]
        # "a lead of 1 to 5% right for 9.5-16" goes to no new one
        return bool(_NEW.search(re.split(r"[.;?]|\d ?(?:%|mph|psi|lb|hp|pct)", before)[-1]))

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
