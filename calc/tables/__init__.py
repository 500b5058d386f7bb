"""Published tables, one CSV file each, with a source column."""

import csv
import io
import pkgutil
from functools import cache

Row = dict[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of a table ("road/wire_sizes": calc/tables/road/wire_sizes.csv), read once.

    Raises
    ------
    LookupError
        When there is no such table.
    """
    try:
        # The browser's Python imports from a zip, which holds no files to open.
        data = pkgutil.get_data(__name__, f"{name}.csv")
    except OSError:
        data = None
    if data is None:
        raise LookupError(f"There is no table called {name!r} in calc/tables.")
    return tuple(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))


def small_words(name: str) -> tuple[str, ...]:
    """Return one of the lists of small words, in its order."""
    return tuple(by_key("words/small_words", "list")[name]["words"].split())


@cache
def by_key(name: str, column: str) -> dict[str, Row]:
    """Return the rows of the table `name` as a mapping from the value in `column` to the row."""
    return {row[column]: row for row in rows(name)}
