"""Tables for the pages. Each module here holds `TABLES`: a function for each table's name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pathlib import Path

import htpy as h

from calc.errors import UnknownName


@dataclass(frozen=True, slots=True)
class TableView:
    """A table as text, ready to be written."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def html(view: TableView) -> h.Element:
    """Return a table as HTML."""
    return h.div(".ys-table", tabindex="0", role="region", aria_label=view.caption)[
        h.table[
            h.caption[view.caption],
            h.thead[h.tr[[h.th(scope="col")[name] for name in view.columns]]],
            h.tbody[[h.tr[[h.td[cell] for cell in row]] for row in view.rows]],
        ],
        h.p(".ys-note")[view.note] if view.note else None,
    ]


@cache
def _makers() -> dict[str, Callable[[], TableView]]:
    found: dict[str, Callable[[], TableView]] = {}
    for path in sorted(Path(__file__).parent.glob("*.py*")):
        if path.stem[0] != "_":
            found.update(import_module(f"calc.render.tables.{path.stem}").TABLES)
    return found


def table(name: str) -> TableView:
    """Return the table called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    try:
        return _makers()[name]()
    except KeyError:
        raise UnknownName(f"There is no table called {name!r}.") from None
