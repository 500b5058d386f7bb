"""Every published source once, and how far each can be trusted.

A citation is a string: the shelf, the key, and where it helps the place, as in
"hitch/H13" or "hitch/S5, clause 6.3". A shelf is one CSV file in calc/tables/sources.
"""

from dataclasses import dataclass
from functools import cache

from calc import tables

STATUS_WORDS = {
    "read": "",
    "memory": "from memory, text not seen",
    "practice": "common practice, no source",
    "derived": "worked out here from the sources named",
}


@dataclass(frozen=True, slots=True)
class Source:
    """One source: where it is kept, what it is, and its status."""

    shelf: str
    key: str
    title: str
    author: str
    year: str
    status: str
    note: str

    @property
    def name(self) -> str:
        """The citation without a place, such as "hitch/H13"."""
        return f"{self.shelf}/{self.key}"

    @property
    def caveat(self) -> str:
        """What a reader must be told about it: empty for a text that was read."""
        return STATUS_WORDS[self.status]


def unique(citations: str) -> str:
    """Return citations ("hitch/H13; hitch/S5, clause 6.3") with each named once."""
    return "; ".join(dict.fromkeys(part.strip() for part in citations.split(";") if part.strip()))


@cache
def shelf(name: str) -> dict[str, Source]:
    """Return the sources of one shelf by key, in the order of the file."""
    found = {}
    for row in tables.rows(f"sources/{name}"):
        if row["status"] not in STATUS_WORDS:
            raise ValueError(
                f"Source {name}/{row['key']} has the unknown status {row['status']!r}."
            )
        found[row["key"]] = Source(
            name,
            row["key"],
            row["title"],
            row["author"],
            row["year"],
            row["status"],
            row["note"] or "",
        )
    return found


def find(citation: str) -> tuple[Source, str]:
    """Return the source that a citation names and the place within it.

    Raises
    ------
    LookupError
        When no shelf has that source.
    """
    name, _, place = citation.partition(",")
    shelf_name, _, key = name.strip().partition("/")
    try:
        return shelf(shelf_name)[key], place.strip()
    except KeyError:
        raise LookupError(f"No source is called {citation!r}.") from None
