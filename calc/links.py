"""Links: the one place in Python that writes and reads the part of an address after the `#`.

A link holds every input that somebody gave, as it was typed, the question that was asked, the
units in which bare numbers are meant, and the version of the data, so that it opens the same
question for good. The client writes and reads the same; both are held to the same vectors
(tests/data/links.json).

    v=2&ask=stop&towed_mass=6%2C000+lb&grade=-5+%25
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

VERSION = "2"
LONGEST = 100_000
# Words of a link that are not fields.
VERSION_WORD, ASK_WORD, UNITS_WORD, SHEET_WORD, EXAMPLE_WORD = "v", "ask", "units", "on", "example"
WANTED_WORD = "wanted"
PAGES = "1"  # in the example's place: the page's own
WORDS = (VERSION_WORD, SHEET_WORD, ASK_WORD, EXAMPLE_WORD, WANTED_WORD, UNITS_WORD)
# Names that fields had in older links, by what they are called now.
ALIASES: Mapping[str, str] = {"chipper_opening": "working_width"}
# Options that a choice had in older links, by what stands for them now.
OPTION_ALIASES: Mapping[tuple[str, str], str] = {("joint", "advised"): "standard"}


@dataclass(frozen=True, slots=True)
class Link:
    """What a link says."""

    inputs: Mapping[str, str] = field(default_factory=dict)
    ask: str = ""
    units: str = ""
    sheet: str = ""  # the worksheet it is for, where a page holds several
    example: bool = False  # whether it opens the page's example
    examples: tuple[str, ...] = ()  # which of the inputs are an example's, and nobody's own
    version: str = ""
    wanted: tuple[str, ...] = ()  # the only fields that whoever opens it is asked for


def write(
    inputs: Mapping[str, str],
    *,
    ask: str = "",
    units: str = "us",
    sheet: str = "",
    example: bool = False,
    examples: Sequence[str] = (),
    wanted: Sequence[str] = (),
) -> str:
    """Return the part of an address after the `#`; inputs that are blank are left out.

    >>> write({"towed_mass": "6,000 lb", "grade": ""}, ask="stop")
    'v=2&ask=stop&towed_mass=6%2C000+lb'
    """
    words = {
        VERSION_WORD: VERSION,
        SHEET_WORD: sheet,
        ASK_WORD: ask,
        EXAMPLE_WORD: PAGES if example else ",".join(examples),
        WANTED_WORD: ",".join(wanted),
        UNITS_WORD: units if units != "us" else "",
    }
    parts = {**words, **{name: text.strip() for name, text in inputs.items()}}
    return encoded({name: text for name, text in parts.items() if text})


def encoded(parts: Mapping[str, str]) -> str:
    """Return names and texts as they stand in an address, blank ones too."""
    # Imported here: an answer that has no link to write shouldn't wait for it.
    from urllib.parse import quote_plus

    def quoted(text: str) -> str:
        # As a form's fields are sent (application/x-www-form-urlencoded): what browsers write.
        return quote_plus(text, safe="*").replace("~", "%7E")

    return "&".join(f"{quoted(name)}={quoted(text)}" for name, text in parts.items())


def read(fragment: str) -> Link:
    """Return what the part of an address after the `#` says.

    >>> read("#v=2&ask=stop&towed_mass=6%2C000+lb").inputs
    {'towed_mass': '6,000 lb'}
    """
    from urllib.parse import parse_qsl

    found = dict(parse_qsl(fragment.lstrip("#")[:LONGEST], keep_blank_values=True))
    words = {word: found.pop(word, "") for word in WORDS}
    inputs = {
        ALIASES.get(name, name): OPTION_ALIASES.get((name, text), text)
        for name, text in found.items()
    }
    return Link(
        inputs,
        words[ASK_WORD],
        "metric" if words[UNITS_WORD] == "metric" else "us" if words[UNITS_WORD] else "",
        words[SHEET_WORD],
        words[EXAMPLE_WORD] == PAGES,
        _names(words[EXAMPLE_WORD].removeprefix(PAGES)),
        words[VERSION_WORD],
        _names(words[WANTED_WORD]),
    )


def _names(listed: str) -> tuple[str, ...]:
    return tuple(filter(None, listed.split(",")))
