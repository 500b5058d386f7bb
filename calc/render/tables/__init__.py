"""Tables for the pages. Each module here holds `TABLES`: a function for each table's name."""

from __future__ import annotations

from dataclasses import dataclass

import htpy as h

from calc.render._found import make


@dataclass(frozen=True, slots=True)
class TableView:
    """A table as text, ready to be written."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def html(view: TableView) -> h.Element:
    """Return a table as HTML."""
    return h.div(".ys-table", tabindex="0", role="group", aria_label=view.caption)[
        h.table[
            h.caption[view.caption],
            h.thead[h.tr[[h.th(scope="col")[name] for name in view.columns]]],
            h.tbody[[h.tr[[h.td[cell] for cell in row]] for row in view.rows]],
        ],
        h.p(".ys-note")[view.note] if view.note else None,
    ]


def table(name: str) -> TableView:
    """Return the table called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    found: TableView = make(__name__, "TABLES", "table", name)
    return found
