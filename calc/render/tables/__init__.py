"""Tables for the pages. Each module here holds `TABLES`: a function for each table's name."""

from __future__ import annotations

import re
from dataclasses import dataclass

import htpy as h

from calc import quantities, sources
from calc.render._found import make
from calc.render.notes import Notes

_CITED = re.compile("\N{LEFT WHITE SQUARE BRACKET}(.*?)\N{RIGHT WHITE SQUARE BRACKET}")


PROSE = 60  # characters in a cell that make its column one of sentences


def cite(citations: str) -> str:
    """Return what stands in a table's text for its sources ("hitch/H4; hitch/H6").

    On the page it becomes the numbers of notes, and the table lists the notes with their names.
    """
    return f"\N{LEFT WHITE SQUARE BRACKET}{citations}\N{RIGHT WHITE SQUARE BRACKET}"


def percent(low: str, high: str) -> str:
    """Return a range of shares in percent."""
    return quantities.show_range(float(low), float(high), "fraction")


@dataclass(frozen=True, slots=True)
class TableView:
    """A table as text, ready to be written."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def source_rows(shelf: str, starts: tuple[str, ...], others: tuple[str, ...]) -> TableView:
    """Return the sources of a subject: those of a shelf by the start of their key, and others."""
    found = [s for key, s in sources.shelf(shelf).items() if key.startswith(starts)]
    found += [sources.find(citation)[0] for citation in others]
    return TableView(
        "What this page rests on",
        ("Source", "Year", "Note"),
        tuple(
            (
                f"{source.author}: {source.title}" if source.author else source.title,
                source.year,
                ". ".join(part for part in (source.caveat.capitalize(), source.note) if part),
            )
            for source in found
        ),
    )


def html(view: TableView, name: str) -> h.Element:
    """Return a table as HTML, with `name` in the addresses of its notes."""
    notes = Notes(f"table-{name}")

    def written(text: str) -> list[h.Node]:
        parts = _CITED.split(text)
        return [notes.mark(part) if at % 2 else part for at, part in enumerate(parts)]

    longest = [
        max(len(_CITED.sub("", cell)) for cell in cells) for cells in zip(*view.rows, strict=True)
    ]
    prose = [at for at, length in enumerate(longest) if length > PROSE]
    table = h.table[
        h.caption[view.caption],
        h.thead[
            h.tr[
                [
                    h.th(scope="col", class_={"ys-prose": prose == [at]})[written(column)]
                    for at, column in enumerate(view.columns)
                ]
            ]
        ],
        h.tbody[[h.tr[[h.td[written(cell)] for cell in row]] for row in view.rows]],
    ]
    said = written(view.note)
    return h.div(".ys-table", tabindex="0", role="group", aria_label=view.caption)[
        table,
        h.p(".ys-note")[said] if view.note else None,
        h.details(".ys-fold.ys-table-sources")[
            h.summary[f"Sources of this table: {len(notes)}"], notes.listed()
        ]
        if notes
        else None,
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
