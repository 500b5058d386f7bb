"""The capability sheets of a list of tractors, one to a printed page."""

from __future__ import annotations

from collections.abc import Sequence

import htpy as h

from calc import capability, model
from calc.machines import Machine
from calc.model import figures, leading


def block(tractors: Sequence[Machine], page_href: str, system: str = "us") -> str:
    """Return the sheet of every tractor, whole without JavaScript.

    `page_href` is the address of the page that opens one filled in.
    """
    if not tractors:
        return str(h.p(".ys-note")["There is no sheet to show: the list of tractors is empty."])
    sheets = capability.build(tractors, system=system)
    return str(h.div(".ys-sheets")[[_sheet(sheet, page_href, system) for sheet in sheets]])


def _sheet(sheet: capability.Sheet, page_href: str, system: str) -> h.Element:
    """One tractor: folded on the screen, whole on paper."""
    name = h.summary[h.strong[sheet.name]]
    opened = h.p[h.a(href=f"{page_href}#{capability.link(sheet)}")["Open it filled in"]]
    if sheet.answer is None:
        return h.details(".ys-sheet")[name, h.p(".ys-note")[sheet.trouble], opened]
    return h.details(".ys-sheet")[
        name,
        h.p[leading.lead(sheet.answer, system)],
        [_table(table, system) for table in sheet.answer.advice.tables],
        h.ul[[h.li[caution.text] for caution in sheet.answer.advice.cautions]],
        opened,
    ]


def _table(table: model.Table, system: str) -> h.Element:
    return h.div(".ys-table", tabindex="0", role="group", aria_label=table.title)[
        h.table[
            h.caption[table.title],
            h.thead[h.tr[[h.th(scope="col")[column] for column in table.columns]]],
            h.tbody[
                [
                    h.tr[
                        h.th(scope="row")[figures.cell_text(row[0], system)],
                        [h.td[figures.cell_text(cell, system)] for cell in row[1:]],
                    ]
                    for row in table.rows
                ]
            ],
        ],
        h.p(".ys-note")[model.words(table.note, system)] if table.note else "",
    ]
