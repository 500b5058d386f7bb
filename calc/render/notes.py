"""Sources as numbered notes: a small number beside what rests on them, the full name once."""

from __future__ import annotations

import htpy as h

from calc import sources

MEMORY_MARK = "†"
MEMORY_WORDS = f"{MEMORY_MARK} from memory: the text itself was not seen."


class Notes:
    """The notes of one answer, numbered in the order in which they are first needed."""

    def __init__(self, prefix: str) -> None:
        self._prefix = prefix
        self._numbers: dict[str, int] = {}

    def __bool__(self) -> bool:
        return bool(self._numbers)

    def __len__(self) -> int:
        return len(self._numbers)

    def mark(self, citation: str) -> h.Element | None:
        """Return the numbers of a citation's sources, each a link to its note."""
        parts: list[h.Node] = []
        for one in (part.strip() for part in citation.split(";") if part.strip()):
            source, place = sources.find(one)
            number = self._numbers.setdefault(one.partition(",")[0].strip(), len(self) + 1)
            title = f"{short_name(source)}{', ' + place if place else ''}"
            memory = MEMORY_MARK if source.status == "memory" else ""
            parts.append(
                h.a(".ys-note-mark", href=f"#{self._id(number)}", title=title)[f"{number}{memory}"]
            )
        return h.sup(".ys-noted")[parts] if parts else None

    def listed(self) -> list[h.Element]:
        """Return every note, and what the mark of memory means where one has it."""
        found = [(number, sources.find(key)[0]) for key, number in self._numbers.items()]
        notes: list[h.Element] = [
            h.ol(".ys-note-list")[
                [h.li(id=self._id(number), tabindex="-1")[source_words(s)] for number, s in found]
            ]
        ]
        if any(source.status == "memory" for _, source in found):
            notes.append(h.p(".ys-note")[MEMORY_WORDS])
        return notes

    def _id(self, number: int) -> str:
        return f"{self._prefix}-note-{number}"


def short_name(source: sources.Source) -> str:
    """The name of a source in a few words, with its caveat."""
    if source.status == "practice":
        return "common practice, no source"
    if source.status == "derived":
        return "derived here from other sources"
    return f"{source.title}, {source.year}".rstrip(", ")


def source_words(source: sources.Source) -> list[h.Node]:
    """One source with all that is known of it."""
    repeated = source.title.lower().startswith(source.author.lower())
    who = "" if repeated else f"{source.author[0].upper()}{source.author[1:]}: "
    year = f", {source.year}" if source.year else ""
    memory = MEMORY_MARK if source.status == "memory" else ""
    caveat = "" if memory else source.caveat
    return [
        f"{who}{source.title}{year}".rstrip(".") + f".{memory}",
        h.em[f" {caveat}."] if caveat else None,
        f" {source.note}" if source.note else "",
    ]


def source_line(source: sources.Source) -> h.Element:
    """One source in a list of a shelf."""
    return h.li[h.span(".ys-key")[source.key], " ", source_words(source)]
