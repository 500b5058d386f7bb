"""The words of a message, where each stands in it, and what the lexicon says of them.

Everything here is a table look-up that can be explained: a phrase of the lexicon, one of its
inflections, or a word that is one slip away from it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from calc import tables

NUMBER, WORD, MARK = "number", "word", "mark"
# A word shorter than this is never taken for a misspelled one; one of the second length or more
# may have two slips.
SHORTEST_SLIP, LONG = 5, 9
SHORTEST_ASKING = 7  # of the words of patterns: "heavest", not "their" for "there"
_TOKEN = re.compile(
    r"(?P<number>(?:\d{1,3}(?:,\d{3})+(?!\d)|\d+)(?:\.\d+)?|\.\d+)"
    r"|(?P<word>(?<![^\W_])w/(?:o(?:ut)?)?(?![^\W_]*/)|[^\W\d_]+(?:['’][^\W\d_]+)*)"
    r"|(?P<mark>\S)"
)


@cache
def shorts() -> dict[str, str]:
    """Return the words that stand for longer ones: "w/" for "with", "lite" for "light"."""
    return dict(pair.split("=") for pair in tables.small_words("short"))


_SPELLED = re.compile(r"['’]")


@dataclass(frozen=True, slots=True)
class Token:
    """One word, number or mark, and its place in the message."""

    kind: str
    text: str  # in lower case
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Sense:
    """What a phrase of the lexicon may mean: a value of a field, a subject, a word for a word."""

    sense: str
    value: str


@dataclass(frozen=True, slots=True)
class Said:
    """A phrase of the lexicon as it stands in a message: tokens `first` up to `last`, exclusive."""

    first: int
    last: int
    senses: tuple[Sense, ...]
    phrase: str
    exact: bool = True

    def value_of(self, sense: str) -> str:
        """The value of one of its senses; empty when it has no such sense."""
        return next((each.value for each in self.senses if each.sense == sense), "")


def tokens_of(text: str) -> list[Token]:
    """Return the words, numbers and marks of a message, in order."""
    found: list[Token] = []
    # Behind a number "w" is watts.
    for match in _TOKEN.finditer(text):
        kind = match.lastgroup or MARK
        plain = _SPELLED.sub("", match[0].lower()) if kind == WORD else match[0].lower()
        if plain in shorts() and not (found and found[-1].kind == NUMBER and len(plain) == 1):
            plain = shorts()[plain]
        found.append(Token(kind, plain, match.start(), match.end()))
    return found


def place_of(tokens: list[Token], first: int, last: int) -> tuple[int, int]:
    """Return where the tokens `first` up to `last` stand in the text, in characters."""
    return tokens[first].start, tokens[last - 1].end


def span(tokens: list[Token], start: int, end: int) -> tuple[int, int]:
    """Return the tokens between two places of the text."""
    inside = [i for i, token in enumerate(tokens) if token.start < end and token.end > start]
    return (inside[0], inside[-1] + 1) if inside else (0, 0)


def words_at(tokens: Sequence[Token], first: int, last: int) -> list[str]:
    """Return the words from `first` up to `last`; before a message there are none."""
    return [token.text for token in tokens[max(0, first) : last]]


def stem(word: str) -> str:
    """Return a word without the endings that change nothing here.

    >>> stem("lights"), stem("hopping"), stem("raised"), stem("raise"), stem("grass")
    ('light', 'hop', 'rais', 'rais', 'grass')
    """
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-2] if word.endswith(("ches", "shes", "sses", "xes")) else word[:-1]
    for ending in ("ing", "ed"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            bare = word[: -len(ending)]
            return bare[:-1] if bare[-1] == bare[-2] and bare[-1] not in "lsz" else bare
    return word[:-1] if len(word) > 4 and word.endswith("e") else word


def slips(one: str, other: str, most: int) -> int:
    """Return how many letters one must change, add, drop or swap to get from one to the other.

    More than `most` is given back as `most + 1`.

    >>> slips("tiler", "tiller", 1), slips("tracter", "tractor", 1), slips("rake", "brake", 0)
    (1, 1, 1)
    """
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        before, last, row = row, before, [i]
        for j, b in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == other[j - 2] and one[i - 2] == b:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            return most + 1
    return row[-1]


Phrases = dict[tuple[str, ...], tuple[Sense, ...]]


def stems_in(phrase: str) -> tuple[str, ...]:
    """Return the stems of the words of a phrase of ours."""
    return tuple(stem(token.text) for token in tokens_of(phrase))


@cache
def lexicon() -> Phrases:
    """Return every phrase, as the stems of its words, with its senses."""
    found: Phrases = {}
    for row in tables.rows("words/lexicon"):
        words = stems_in(row["phrase"])
        found[words] = (*found.get(words, ()), Sense(row["sense"], row["value"]))
    return found


@cache
def cue_phrases() -> Phrases:
    """Return the phrases that tell which field an amount beside them is of."""
    phrases = sorted({row["phrase"] for row in tables.rows("words/cues") if row["phrase"]})
    said = {stems_in(phrase): (Sense("cue", phrase),) for phrase in phrases}
    digits = {tuple("10" if w == "ten" else w for w in words): it for words, it in said.items()}
    return {**digits, **said}


@cache
def _known() -> dict[str, tuple[str, ...]]:
    """Return the words that may be misspelled, by their first letter."""
    found: dict[str, set[str]] = {}
    asking = [word for word in _asking() if len(word) >= SHORTEST_ASKING]
    for words in (*lexicon(), *cue_phrases(), asking):
        for word in words:
            if len(word) >= SHORTEST_SLIP - 1 and word.isalpha():
                found.setdefault(word[0], set()).add(word)
    return {letter: tuple(sorted(words)) for letter, words in found.items()}


@cache
def common() -> frozenset[str]:
    """Return the words that are right as they stand: they are never taken for another."""
    own = {word for words in (*lexicon(), *cue_phrases()) for word in words}
    others = {stem(row["word"]) for row in tables.rows("words/common_words")}
    return frozenset(own | others | _asking())


@cache
def _asking() -> frozenset[str]:
    """Return the words of the patterns, as stems."""
    rows = [row["words"].replace("/", " ") for row in tables.rows("words/asked")]
    return frozenset(stem(word.lstrip("!")) for row in rows for word in row.split())


@cache
def mended(word: str) -> str:
    """Return the lexicon's word that this one is a slip away from, else the word itself."""
    if len(word) < SHORTEST_SLIP or word in common():
        return word
    if word.endswith("in") and stem(f"{word}g") in common():
        return stem(f"{word}g")  # "haulin"
    most = 2 if len(word) >= LONG else 1
    best, distance = word, most + 1
    for known in _known().get(word[0], ()):
        apart = slips(word, known, most)
        if apart < distance:
            best, distance = known, apart
        elif apart == distance and best != known:
            best = best if distance > most else min(best, known)
    return best


def stems_of(tokens: list[Token]) -> list[str]:
    """Return each token's stem, with slips mended."""
    return [mended(stem(t.text)) if t.kind == WORD else t.text for t in tokens]


def phrases_of(
    tokens: list[Token], stems: list[str], taken: set[int], phrases: Phrases
) -> list[Said]:
    """Return those of `phrases` that a message holds, the longest at each place.

    Tokens in `taken` (a tire size, a labelled value) belong to no phrase.
    """
    found = []
    longest = max(map(len, phrases), default=0)
    place = 0
    while place < len(tokens):
        said = None
        for length in range(min(longest, len(tokens) - place), 0, -1):
            reach = range(place, place + length)
            if taken.isdisjoint(reach):
                words = tuple(stems[place : place + length])
                senses = phrases.get(words)
                if senses:
                    exact = all(stem(tokens[i].text) == stems[i] for i in reach)
                    said = Said(place, place + length, senses, " ".join(words), exact)
                    break
        if said:
            found.append(said)
        place = said.last if said else place + 1
    return found


def sentence_ends(tokens: list[Token]) -> list[int]:
    """Return the place behind each sentence's last token."""
    ends = []
    for place, token in enumerate(tokens):
        if token.text in "?!;" or (token.text == "." and place + 1 < len(tokens)):
            ends.append(place + 1)
    return [*[end for end in ends if end < len(tokens)], len(tokens)]


# One character for one, so that every place in the message stays where it was.
_MARKS = {"\u2033": '"', "\u201d": '"', "\u201c": '"', "\u2032": "'", "\u2019": "'", "\u2018": "'"}
_PLAIN = str.maketrans(
    {**_MARKS, **dict.fromkeys("\u2212\u2013\u2014", "-"), "\u00d7": "x", "\r": " ", "\n": ";"}
)


_LISTED = re.compile(r"(?:(?<![\w.(/$])[1-9]\)|(?:^|(?<=;))\s*[1-9]\.(?=\s))")
_THREE_POINT = re.compile(r"\b3-(?=p(?:oin)?t\b)", re.I)
# "1,2 bar", as it is written where the point is a comma.
_DECIMAL = re.compile(r"(?<![\w,.])(\d{1,2}),(\d{1,2})(?=\s?(?:bar|m|ha|t|kg|kW|km|tonnes?)\b)")


def plain(text: str) -> str:
    """Return a message of the same length in plain marks.

    Every line break ends a sentence, and so does the number of a list: "1) ... 2) ...".
    """
    text = _THREE_POINT.sub("3 ", text)
    text = _DECIMAL.sub(r"\1.\2", text.translate(_PLAIN))
    return _LISTED.sub(lambda found: ";" * len(found[0]), text)
