"""How many cells of the tables rest on memory or on common practice, by shelf of their sources."""

from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

from calc import sources, tables
from calc.render.tables import TableView

SHELVES = {
    "hitch": "Hitch, couplers and ballast",
    "power": "Power and drivetrain",
    "tires": "Tires and wheels",
    "road": "The road",
    "value": "Value, cab, turf, digger and driveline",
}
NO_VALUES = ("sources", "words")  # shelves of tables without published values


def _citations() -> Iterator[str]:
    """The first source of every row and source column; only where files lie open (a build)."""
    root = Path(tables.__file__).parent
    for path in sorted(root.glob("*/*.csv")):
        if path.parent.name in NO_VALUES:
            continue
        for row in tables.rows(f"{path.parent.name}/{path.stem}"):
            for column, cell in row.items():
                if "source" in (column or "") and cell:
                    yield cell.partition(";")[0].strip()


def statuses() -> dict[str, Counter[str]]:
    """Return how many sourced entries of the tables have each status, by shelf of the source."""
    found: dict[str, Counter[str]] = {shelf: Counter() for shelf in SHELVES}
    for citation in _citations():
        shelf = citation.partition("/")[0]
        if shelf in SHELVES:  # the demo machines are invented, and say so
            found[shelf][sources.find(citation)[0].status] += 1
    return found


def counted() -> TableView:
    """Return the count, for the page of sources."""
    kinds = ("read", "derived", "practice", "memory")
    rows = [
        (SHELVES[shelf], *(f"{count[kind]:,}" for kind in kinds))
        for shelf, count in statuses().items()
    ]
    return TableView(
        "What the entries of the tables rest on",
        ("Subject", "Read", "Worked out", "Common practice", "From memory"),
        tuple(rows),
        "Each entry of a table counts once for each source column, by the first named there.",
    )


TABLES: dict[str, Callable[[], TableView]] = {"memory-count": counted}
