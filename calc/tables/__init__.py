"""Published tables, one CSV file each, with a source column."""

import csv
from functools import cache
from pathlib import Path

_FOLDER = Path(__file__).parent

Row = dict[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of the table `name` (the file calc/tables/<name>.csv), read once.

    Raises
    ------
    LookupError
        When there is no such table.
    """
    path = _FOLDER / f"{name}.csv"
    if not path.is_file():
        raise LookupError(f"There is no table called {name!r} in calc/tables.")
    with path.open(encoding="utf-8", newline="") as handle:
        return tuple(csv.DictReader(handle))


@cache
def by_key(name: str, column: str) -> dict[str, Row]:
    """Return the rows of the table `name` as a mapping from the value in `column` to the row."""
    return {row[column]: row for row in rows(name)}
