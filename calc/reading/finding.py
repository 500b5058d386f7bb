"""What the front page's box knows: every question of the site, and the words that lead to it.

The box works at once, without Python: it reduces what is typed to the same words as this module
reduces the questions to (stems, synonyms, slips mended), tries the same patterns, and puts first
what a pattern names, then what shares the rarest words.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc import worksheets
from calc.reading import asked
from calc.reading.words import Said, lexicon, phrases_of, shorts, stem, stems_of, tokens_of

# Words that stand in nearly every question and lead to none.
_COMMONEST = 0.2
MOST = 8


@dataclass(frozen=True, slots=True)
class Entry:
    """A question of the site, or a page: its text, what answers it, and where that stands.

    `kept`: it is one of a shop's round-up, which has its answer, and opens there.
    """

    text: str
    worksheet: str
    ask: str
    page: str
    fragment: str
    subject: str
    kept: bool = False


def words_of(text: str) -> set[str]:
    """Return the words that a text is reduced to."""
    tokens = tokens_of(text)
    stems = stems_of(tokens)
    said = phrases_of(tokens, stems, set(), lexicon())
    found = {each for each in stems if len(each) > 1 and not each.isdigit()}
    for each in said:
        found |= asked.meanings(each)
    return found


def weights(entries: Iterable[Entry]) -> dict[str, float]:
    """Return how much each word tells: the fewer entries have it, the more.

    It is the logarithm of how many times rarer than all entries the word is; a word of over a
    fifth of them tells nothing.
    """
    entries = list(entries)
    counts = Counter(word for entry in entries for word in words_of(entry.text))
    total = len(entries)
    return {
        word: round(math.log(total / count), 1)
        for word, count in counts.items()
        if count < _COMMONEST * total
    }


@cache
def _labels(worksheet: str) -> frozenset[str]:
    sheet = worksheets.load(worksheet)
    return frozenset(words_of(f"{sheet.title} {sheet.question}"))


def data(entries: list[Entry], href: Callable[[str], str]) -> dict[str, Any]:
    """Return what the box needs, as JSON takes it; `href` gives the address of a page."""
    phrases = {
        " ".join(words): sorted(asked.meanings(Said(0, 1, senses, "")))
        for words, senses in lexicon().items()
    } | {stem(word): [stem(full)] for word, full in shorts().items() if word.isalpha()}
    return {
        "entries": [
            {
                "text": entry.text,
                "worksheet": entry.worksheet,
                "ask": entry.ask,
                "href": href(entry.page),
                "fragment": entry.fragment,
                "subject": entry.subject,
                "kept": entry.kept,
                "words": " ".join(sorted(words_of(entry.text) | _labels(entry.worksheet))),
            }
            for entry in entries
        ],
        "weights": weights(entries),
        "phrases": {phrase: " ".join(words) for phrase, words in phrases.items()},
        "common": " ".join(sorted(asked.right_words())),
        "patterns": [
            [
                " ".join("/".join(each) for each in pattern.needs),
                " ".join(sorted(pattern.without)),
                pattern.worksheet,
                asked.ask_of(pattern.worksheet, pattern.asks),
                int(pattern.strong),
            ]
            for pattern in asked.patterns()
        ],
    }
