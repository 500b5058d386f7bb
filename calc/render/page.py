"""What the Markdown extension puts into pages: worksheets, tables, values, sources."""

from __future__ import annotations

import json
from collections.abc import Callable

import htpy as h
from markupsafe import Markup

from calc import links, search, sources, worksheets
from calc.model import Worksheet
from calc.render import facts, tables
from calc.render.answer import answer_html
from calc.render.form import asks_data, form_html
from calc.render.notes import source_line
from calc.tables import Row, rows


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
            h.div(".ys-example")[h.p[example]],
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
    return str(tables.html(tables.table(name)))


def value_inline(name: str) -> str:
    """Return a number for prose."""
    return facts.fact(name)


GROUP_WORDS = {
    "buy": "Before you buy",
    "fit": "Before you fit it",
    "drive": "Before you drive it",
    "fix": "Before you fix or change it",
    "sell": "Before you sell",
}


def question_link(sheet: Worksheet, row: Row) -> str:
    """Return what a question's address has after the `#`: its ask, and all that it gives.

    A question without inputs of its own opens the page's example.
    """
    inputs = links.read(row["inputs"]).inputs
    if inputs and not row["ask"]:  # inputs that stand beside the example's: all are written
        inputs = {**sheet.examples(), **inputs}
    return links.write(inputs, ask=row["ask"], example=not inputs)


def index_block(href: Callable[[str], str]) -> str:
    """Return the questions, grouped by what the person is about to do.

    `href` gives the address of a page of the site ("lift/lift-and-ballast").
    """
    groups: dict[str, list[h.Element]] = {name: [] for name in GROUP_WORDS}
    for row in rows("words/questions"):
        sheet = worksheets.load(row["worksheet"])
        fragment = question_link(sheet, row)
        groups[row["group"]].append(
            h.li[h.a(href=f"{href(row['page'] or sheet.page)}#{fragment}")[row["question"]]]
        )
    return str(
        h.div(".ys-questions")[
            [
                h.section(".ys-questions-group")[h.h3[GROUP_WORDS[name]], h.ul[items]]
                for name, items in groups.items()
                if items
            ]
        ]
    )


def sources_block(shelf: str) -> str:
    """Return every source of a shelf as a list."""
    return str(
        h.ul(".ys-sources")[[source_line(source) for source in sources.shelf(shelf).values()]]
    )
