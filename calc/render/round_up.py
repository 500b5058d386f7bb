"""The round-up of a shop: questions that its customers ask, with the answer under each.

A file of it has a row for each question: the question in the shop's words, the worksheet and the
ask that answer it, the inputs as they stand in a link, and a note.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import htpy as h
from markupsafe import Markup

from calc import links, model, search, worksheets
from calc.errors import YardstickError
from calc.machines import lists
from calc.render.brief import brief_html, given_sentence
from calc.render.form import row_html

COLUMNS = ("question", "worksheet", "ask", "inputs", "note")
MOST, LONGEST = 200, 400
# A page of more questions than these begins with a list of them.
LISTED_FROM = 5
SLUG_WORDS = 9
INTRO = (
    "Each answer is worked out for the machine that is named under it. Yours differs: try your own "
    "numbers, and the answer follows. It is for planning; the operator's manual and the plate on "
    "the machine come first."
)


@dataclass(frozen=True, slots=True)
class Kept:
    """One question of a round-up."""

    question: str
    worksheet: str
    ask: str
    inputs: dict[str, str]
    note: str

    @property
    def answer(self) -> model.Answer:
        """What the worksheet answers; without inputs, to the page's example."""
        sheet = worksheets.load(self.worksheet)
        return search.answer(sheet, self.inputs, ask=self.ask, example=not self.inputs)

    @property
    def fragment(self) -> str:
        """The part of an address that opens it."""
        return links.write(self.inputs, ask=self.ask, sheet=self.sheet, example=not self.inputs)

    @property
    def sheet(self) -> str:
        """The worksheet's name as a link gives it: where its page holds several, else ""."""
        own = worksheets.on_page(worksheets.load(self.worksheet).page)
        return self.worksheet if len(own) > 1 else ""


def read(text: str, where: str) -> tuple[tuple[Kept, ...], tuple[str, ...]]:
    """Return the questions of a file, and a sentence for each row that can't be used."""
    found: list[Kept] = []
    problems: list[str] = []
    rows = lists.read_lines(csv.reader(io.StringIO(text, newline="")), where, problems)
    _, columns = next(rows, (1, []))
    if not set(COLUMNS[:2]) <= set(columns):
        wanted = f"{where}: the first line names the columns {', '.join(COLUMNS)}."
        return (), (*problems, wanted)
    for line, cells in rows:
        if not cells:
            continue
        row = dict(zip(columns, cells, strict=False))
        place = f"{where}, line {line}"
        if len(found) >= MOST:
            problems.append(f"{where}: only the first {MOST} questions are used.")
            break
        given = {name: " ".join(lists.from_text(row.get(name, "")).split()) for name in COLUMNS}
        if not given["question"] or max(map(len, given.values())) > 10 * LONGEST:
            problems.append(f"{place}: a question of up to {LONGEST} characters is expected.")
            continue
        inputs = dict(links.read(given["inputs"]).inputs)
        kept = Kept(given["question"], given["worksheet"], given["ask"], inputs, given["note"])
        try:
            _ = kept.answer
        except search.BadInputs as bad:
            problems += [f"{place}, {name}: {said}" for name, said in bad.errors.items()]
        except YardstickError as error:
            problems.append(f"{place}: {error}")
        else:
            found.append(kept)
    return tuple(found), tuple(problems)


def block(entries: Sequence[Kept], href: Callable[[str], str], system: str = "us") -> str:
    """Return a page's questions, each with its answer and a form for one's own numbers."""
    if not entries:
        return str(
            h.fragment[
                h.p["No shop has put its questions here yet."],
                h.p[
                    "A dealer keeps answers on the page that reads ",
                    h.a(href=href("messages"))["customers' messages"],
                    ", saves them as a file, and builds the site with it: then they stand here, ",
                    "each with its answer. ",
                    h.a(href=href("about/your-own-machines"))["How to build it"],
                    " says the rest.",
                ],
                h.p["Until then the first page finds an answer to a question in your own words."],
            ]
        )
    places = slugs(entries)
    return str(
        h.fragment[
            h.p[INTRO],
            h.nav(".ys-entries", aria_label="The questions")[
                h.ol[
                    [
                        h.li[h.a(href=f"#{slug}")[kept.question]]
                        for slug, kept in zip(places, entries, strict=True)
                    ]
                ]
            ]
            if len(entries) > LISTED_FROM
            else None,
            h.div(".ys-round-up-page")[
                [
                    _entry(kept, slug, href, system)
                    for slug, kept in zip(places, entries, strict=True)
                ]
            ],
        ]
    )


def slugs(entries: Sequence[Kept]) -> list[str]:
    """Return a name for each question's place on the page, from its words."""
    found: list[str] = []
    for kept in entries:
        words = re.findall(r"[a-z0-9]+", kept.question.lower())
        slug = "-".join(["q", *words[:SLUG_WORDS]])
        same = sum(each == slug or each.startswith(f"{slug}--") for each in found)
        found.append(f"{slug}--{same + 1}" if same else slug)
    return found


def _entry(kept: Kept, slug: str, href: Callable[[str], str], system: str) -> h.Element:
    answer = kept.answer
    sheet = answer.worksheet
    page = href(sheet.page)
    return h.section(
        ".ys-entry",
        data_worksheet=kept.worksheet,
        data_ask=kept.ask,
        data_example=not kept.inputs,
        data_sheet=kept.sheet,
        data_page=page,
        aria_labelledby=slug,
    )[
        h.h2(id=slug)[kept.question],
        h.div(".ys-entry-answer")[Markup(brief_html(answer, system))],
        h.p(".ys-entry-note")[kept.note] if kept.note else None,
        h.p(".ys-entry-for")[h.small[given_sentence(sheet, kept.inputs)]],
        _form(kept, sheet, slug, system),
        h.p[h.a(".ys-entry-page", href=f"{page}#{kept.fragment}")["The whole page: ", sheet.title]],
    ]


def _form(kept: Kept, sheet: model.Worksheet, slug: str, system: str) -> h.Element:
    """Return the few fields of the question, and what else was given, folded."""
    asked = sheet.ask(kept.ask).fields
    names = dict.fromkeys([*asked, *kept.inputs])
    # Where the shop gave numbers, nothing of the example stands beside them.
    typed = {**dict.fromkeys(names, ""), **kept.inputs} if kept.inputs else {}
    known = search.read(sheet, kept.inputs, system, example=not kept.inputs).values
    return h.details(".ys-entry-numbers")[
        h.summary["Try your own numbers"],
        h.form(".ys-entry-form", action="#", autocomplete="off", novalidate=True)[
            h.div(".ys-rows")[
                [row_html(sheet, sheet.field(name), typed, known, system, slug) for name in names]
            ]
        ],
    ]
