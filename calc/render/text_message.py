"""A reply as a text message: the answer, and as much of the rest as there is room for."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator

from calc.model import Answer
from calc.render import fitting_caution, reply_sentences

SHORT = 320  # a short text has fewer characters than this

# A message in plain characters costs half as much to send as one with any other in it.
_PLAIN = str.maketrans(
    {
        "“": '"',
        "”": '"',
        "\u2018": "'",
        "’": "'",
        "–": "-",
        "—": "-",
        "\u2212": "-",
        "×": "x",
        "·": "-",
        "…": "...",
        "°": " deg",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "²": "2",
        "³": "3",
        "±": "+/-",
        "≤": "<=",
        "≥": ">=",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
    }
)
_NUMBERS = re.compile(r": (?=[\d$\u2212-]|nothing|more than)")  # what a heading is followed by
EXAMPLE_MARK = "(An example.)"


def shop_name(sender: str) -> str:
    """The shop's name out of the line that closes a reply."""
    return sender.partition(" · ")[0]


def plain(text: str) -> str:
    """Return a text in the characters that a message carries cheaply."""
    text = text.replace("°F", "F").replace("°C", "C")
    return " ".join(text.translate(_PLAIN).encode("ascii", "ignore").decode().split())


def _finding(answer: Answer) -> str:
    return f"{answer.worksheet.finding_words(answer.finding)}."


def fits_short(answer: Answer, link: str, sender: str = "") -> bool:
    """Whether a link leaves room for the finding and the shop's name in a short text."""
    mark = EXAMPLE_MARK if answer.is_example else ""
    least = plain(f"{_finding(answer)} {mark} {shop_name(sender)}")
    return len(f"{least} {link}") < SHORT


def short(answer: Answer, system: str = "us", link: str = "", sender: str = "") -> str:
    """Return the reply as text for a message, always under 320 characters, the link included.

    A link that is too long for any message is left out, and the text says so. What is left of
    the room goes to the leading sentence first, then to a caution, what to do and what else is
    broken, each in its longest form that fits.
    """
    name = plain(shop_name(sender))
    linked = bool(link) and fits_short(answer, link, sender)
    tail = ["(The link is too long for a message.)"] if link and not linked else []
    mark = [EXAMPLE_MARK] if answer.is_example else []
    closing = [*mark, *tail, *filter(None, [name]), *([link] if linked else [])]
    best, best_worth = "", (-1, 0, 0, False, False, False, False, 0, 0)
    leads, *others = _forms(answer, system)
    for lead, *forms in itertools.product(leads, *others):
        said = " ".join([plain(" ".join(filter(None, [lead, *forms]))), *closing])
        broken, todo = (bool(form) for form in forms[1:])
        # The caution that fits comes before what would fill the room better.
        own = forms[0] not in ("", fitting_caution.LEAST_CAUTION)
        caution, uncut = bool(forms[0]) + own, own and not _is_cut(forms[0])
        whole = 0 if _is_cut(lead) or lead == _finding(answer) else 1
        # A caution that lacks its end still warns; who is told no wants to know what to do.
        helped = todo and not _is_cut(forms[2])
        room = sum(map(len, forms)), len(said)
        worth = (whole, len(lead), caution, helped, uncut, broken, todo, *room)
        if len(said) < SHORT and worth > best_worth:
            best, best_worth = said, worth
    return best


def _forms(answer: Answer, system: str) -> Iterator[list[str]]:
    """Return lead, caution, broken and what to do, each in forms from the longest to none."""
    said = reply_sentences.said_of(answer, system)
    yield [*([said.lead, *_cut(said.lead)] if said.lead else []), _finding(answer)]
    yield [said.caution, *_cut(said.caution), fitting_caution.LEAST_CAUTION, ""]
    headings = [_NUMBERS.split(item)[0].rstrip(".") for item in said.broken]
    headings = [text for text in headings if text.casefold() not in said.lead.casefold()]
    counts = range(len(headings), 0, -1)
    yield [*(_also(headings, count) for count in counts), ""]
    settle = f"Find out first: {answer.settle.field.label.rstrip('?')}." if answer.settle else ""
    todo = [form for item in said.todo[:1] for form in (item, *_cut(item))]
    yield [*(f"{settle} {form}".strip() for form in todo), settle, ""]


def _also(headings: list[str], count: int) -> str:
    """The first headings of what else is broken, and how many more there are."""
    more = len(headings) - count
    rest = f"; {more} more" if more else ""
    return f"Also: {'; '.join(headings[:count])}{rest}."


def _is_cut(form: str) -> bool:
    return form.endswith("...")


def _cut(text: str) -> Iterator[str]:
    """Return shorter forms of a text: its first sentence, and that one up to a break in it.

    What is cut in the middle of a list or a thought ends with dots, so that nobody takes it for
    the whole.
    """
    first = text.partition(". ")[0].rstrip(".")
    if f"{first}." != text:
        yield f"{first}."
    clause, found, _ = first.partition("; ")
    if found:
        yield f"{clause}..."
    head, found, _ = first.rpartition(", ")
    while found:
        if len(head) > 24 and "; " not in head[-24:]:  # a word or two of a clause say nothing
            yield f"{head}..."
        head, found, _ = head.rpartition(", ")
