"""Pages for the yard: the reader's machines, and the matrix of two lists."""

from __future__ import annotations

import json
from collections.abc import Sequence

import htpy as h

from calc import machines, matrix, model, worksheets
from calc.machines import Machine, vocabulary
from calc.render.marks import shape

# More would make a page that no phone can open; the command line has no such limit.
MOST_CELLS = 5000


def machines_block(pairing_href: str) -> str:
    """Return the place where the reader's machines are listed, with what the script must know.

    `pairing_href` is the address of the pairing from the page.
    """
    fields = {
        name: _described(vocabulary.field(name))
        for role in machines.ROLES
        for name in machines.fields(role)
    }
    sheet = worksheets.load("pairing")
    absent = {
        role: {item.name: "" for item in sheet.fields if vocabulary.role(item.name) == role}
        for role in machines.ROLES
    }
    return str(
        h.div(
            "#ys-machines",
            data_fields=json.dumps(fields),
            data_absent=json.dumps(absent),
            data_pairing=pairing_href,
        )[
            h.p(".ys-note")[
                "This list needs JavaScript, because it is kept in your browser and nowhere else."
            ]
        ]
    )


def _described(item: model.AnyField) -> dict[str, object]:
    """Return what a field is called, and the options of a choice."""
    if isinstance(item, model.Choice):
        return {
            "label": item.label,
            "options": {option.value: option.label for option in item.options},
        }
    return {"label": item.label}


def matrix_block(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    pairing_href: str,
    system: str = "us",
) -> str:
    """Return every pairing of two lists as a table whose cells open the filled-in pairing."""
    if not tractors or not implements:
        return str(h.p(".ys-note")["There is no pairing to show: one of the two lists is empty."])
    rows = max(1, MOST_CELLS // len(implements))
    built = matrix.build(tractors[:rows], implements[:MOST_CELLS], system, matrix.JOB)
    left_out = len(tractors) - len(built.tractors) + len(implements) - len(built.implements)
    return str(
        h.div(".ys-matrix", tabindex="0", role="group", aria_label="Every pairing")[
            h.table(".ys-matrix-table")[
                h.thead[
                    h.tr[
                        h.td,
                        [h.th(scope="col")[_named(implement)] for implement in built.implements],
                    ]
                ],
                h.tbody[
                    [
                        h.tr[
                            h.th(scope="row")[_named(tractor)],
                            [_cell(cell, pairing_href) for cell in cells],
                        ]
                        for tractor, cells in zip(built.tractors, built.cells, strict=True)
                    ]
                ],
            ]
        ]
    ) + str(
        h.p(".ys-note")[
            f"{left_out:,} machines are left out, because a page can't show more than "
            f"{MOST_CELLS:,} pairings; the command line shows them all."
        ]
        if left_out
        else ""
    )


def _named(machine: Machine) -> list[h.Node]:
    """A machine's name, with the stock number and the price where the list has them."""
    return [machine.name, h.small[machine.told] if machine.told else None]


def _cell(cell: matrix.Cell, pairing_href: str) -> h.Element:
    """One pairing: its finding in a shape and a word, and the check that decides.

    Where the loader makes a difference both findings stand there, each with its own link.
    """
    found = [cell, cell.other] if cell.other else [cell]
    return h.td(data_finding=cell.finding)[
        [
            h.a(href=f"{pairing_href}#{matrix.link(one)}", title=one.sentence)[
                h.span(".ys-found")[
                    shape(one.finding),
                    " ",
                    model.FINDING_WORDS[one.finding],
                    f", loader {one.loader}" if one.loader and cell.other else "",
                ],
                h.small[one.title or one.sentence],
            ]
            for one in found
        ]
    ]
