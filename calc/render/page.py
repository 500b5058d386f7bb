"""What the Markdown extension puts into pages: worksheets, tables, values, sources."""

from __future__ import annotations

import json

import htpy as h
from markupsafe import Markup

from calc import search, sources, worksheets
from calc.render import facts, tables
from calc.render.answer import answer_html
from calc.render.form import asks_data, form_html
from calc.render.notes import source_line


def worksheet_block(name: str, system: str = "us") -> str:
    """Return the form of a worksheet with the whole answer to its default example."""
    sheet = worksheets.load(name)
    found = search.answer(sheet, {}, system, example=True)
    example = f"An example: {sheet.example}" if sheet.example else "An example."
    return str(
        h.section(
            ".ys",
            id=f"ys-{name}",
            data_worksheet=name,
            data_asks=json.dumps(asks_data(sheet)),
            aria_label=sheet.title,
        )[
            h.div(".ys-example")[
                h.p[example], h.button(".ys-button", type="button")["Start with my numbers"]
            ],
            form_html(sheet, {}, system),
            h.div(".ys-out")[
                h.div(".ys-tools"),
                h.div(".ys-status", role="status", aria_live="polite"),
                h.div(".ys-answer")[Markup(answer_html(found, system))],
            ],
        ]
    )


def table_block(name: str) -> str:
    """Return a table drawn from the package's data."""
    return str(tables.html(tables.table(name), name))


def value_inline(name: str) -> str:
    """Return a number for prose."""
    return facts.fact(name)


def sources_block(shelf: str) -> str:
    """Return every source of a shelf as a list."""
    return str(
        h.ul(".ys-sources")[[source_line(source) for source in sources.shelf(shelf).values()]]
    )
