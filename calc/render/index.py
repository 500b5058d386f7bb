"""The front page: the box that finds, the pictures of the subjects, and the index of questions."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence

import htpy as h
from markupsafe import Markup

from calc import links, worksheets
from calc.model import Worksheet
from calc.reading import finding
from calc.render.round_up import Kept, slugs
from calc.tables import Row, rows

ROUND_UP = "round-up"  # the page of the questions that a shop keeps
GROUP_WORDS = {
    "buy": "Before you buy",
    "fit": "Before you fit it",
    "drive": "Before you drive it",
    "fix": "Before you fix or change it",
    "sell": "Before you sell",
}
Href = Callable[[str], str]


def numbers_of(row: Row) -> tuple[Mapping[str, str], bool | Mapping[str, str]]:
    """Return what a question's own words say, and whose example stands in for the rest.

    That is its own, the page's (True) where it has no numbers at all, or nobody's (False).
    """
    said, example = links.read(row["inputs"]).inputs, links.read(row["example"]).inputs
    return said, example or not said


def question_link(sheet: Worksheet, row: Row) -> str:
    """Return what a question's address has after the `#`: its ask, what it says, its example."""
    said, example = numbers_of(row)
    own = sheet.name if len(worksheets.on_page(sheet.page)) > 1 else ""
    if isinstance(example, bool):
        return links.write(said, ask=row["ask"], example=example, sheet=own)
    inputs = {**said, **example}
    return links.write(inputs, ask=row["ask"], examples=tuple(example), sheet=own)


def index_block(href: Href) -> str:
    """Return the questions, folded by what the person is about to do.

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
                h.details(".ys-questions-group")[
                    h.summary[GROUP_WORDS[name], " ", h.small[f"{len(items)} questions"]],
                    h.ul[items],
                ]
                for name, items in groups.items()
                if items
            ]
        ]
    )


def entries(kept: Sequence[Kept] = ()) -> list[finding.Entry]:
    """Return what the box finds: every question of the index, of every page, and of a round-up."""
    found = [
        finding.Entry(each.question, each.worksheet, each.ask, ROUND_UP, slug, "", True)
        for each, slug in zip(kept, slugs(kept), strict=True)
    ]
    for row in rows("words/questions"):
        sheet = worksheets.load(row["worksheet"])
        page = row["page"] or sheet.page
        fragment = question_link(sheet, row)
        subject = _subject_of(sheet.page)
        found.append(
            finding.Entry(row["question"], sheet.name, row["ask"], page, fragment, subject)
        )
    asked = {entry.text for entry in found}
    for name in worksheets.names():
        sheet = worksheets.load(name)
        if sheet.question not in asked:
            subject = _subject_of(sheet.page)
            found.append(finding.Entry(sheet.question, name, "", sheet.page, "", subject))
    return found


def finding_block(href: Href, kept: Sequence[Kept] = ()) -> str:
    """Return the box: hidden until the client script runs, with all that it finds."""
    known = finding.data(entries(kept), href)
    known["messages"] = href("messages")
    known["machines"] = href("pairing")
    text = json.dumps(known, ensure_ascii=False, separators=(",", ":"))
    return str(
        h.div(".ys-find", id="ys-find", hidden=True)[
            h.label(for_="ys-find-text")["Ask it in your own words"],
            h.input(
                id="ys-find-text",
                type="search",
                autocomplete="off",
                enterkeyhint="go",
                placeholder="60 in cutter, 1650 lb tractor",
                aria_describedby="ys-find-said",
            ),
            h.p("#ys-find-said.ys-find-said", role="status", aria_live="polite"),
            h.div("#ys-found.ys-found"),
            # No script: the theme makes scripts anew on its way from page to page.
            h.template(id="ys-find-data", data_search_exclude=True)[text],
        ]
    )


# The subjects, in the order of the front page: what a tile says, its first page, the pages that
# belong to it, and its picture in a box of 120 by 52.
_GROUND = '<path class="ground" d="M0 49h120"/>'
_TRACTOR = (
    '<circle cx="26" cy="41" r="7"/><circle cx="56" cy="37" r="11"/>'
    '<path d="M21 33h24l6-11h12v14"/>'
)
SUBJECTS: tuple[tuple[str, str, str, tuple[str, ...], str], ...] = (
    (
        "run",
        "Will it run it?",
        "pairing",
        ("pairing", "lift/lift-and-ballast"),
        f'{_GROUND}{_TRACTOR}<path d="M67 34h9l6 4h26l4 8H80z"/><circle cx="111" cy="45" r="3"/>',
    ),
    (
        "hitch",
        "Will it hitch?",
        "fit/hitch-categories",
        ("fit/hitch-categories", "fit/driveline", "fit/post-hole-digger"),
        '<circle cx="32" cy="27" r="17"/><circle cx="32" cy="27" r="9"/>'
        '<path d="M41 18h62M41 36h62"/><circle class="brass" cx="74" cy="27" r="7"/>'
        '<path d="M74 20V8M74 34v12"/>',
    ),
    (
        "tires",
        "Tires and wheels",
        "tires/swap",
        ("tires/swap", "tires/size", "tires/rollout", "tires/duals"),
        f'{_GROUND}<circle cx="34" cy="32" r="17"/><circle cx="34" cy="32" r="7"/>'
        '<circle class="brass" cx="84" cy="27" r="22"/><circle cx="84" cy="32" r="17" '
        'stroke-dasharray="3 3"/>',
    ),
    (
        "road",
        "On the road",
        "road/lighting",
        ("road/lighting", "road/closing", "road/towing", "road/lamp-wiring", "road/rules"),
        '<path d="M60 4l28 44H32z"/><path class="fill" d="M60 17l15 24H45z"/>',
    ),
    (
        "power",
        "Power and drive",
        "buy/pto-power",
        ("buy/pto-power", "buy/hydrostatic-or-gear", "fit/cab-cooling"),
        '<path d="M8 47V6M8 47h106M12 42C44 40 66 30 110 8"/>'
        '<path class="bad" d="M12 27h98" stroke-dasharray="4 3"/>',
    ),
    (
        "lawn",
        "On the lawn",
        "lawn/lawn-implements",
        ("lawn/lawn-implements",),
        '<path class="good" d="M0 30h120"/><path d="M24 6c0 20 10 20 8 36M44 6c0 20 10 20 8 36'
        'M64 6c0 20 10 20 8 36"/><path d="M90 30v-6h12v6M96 30v16"/>',
    ),
    (
        "money",
        "Buy, mend or sell",
        "sell/repair-before-selling",
        ("sell/repair-before-selling",),
        '<path d="M20 46V26h18v20zM51 46V12h18v34zM82 46V32h18v14z"/>'
        '<path class="brass" d="M18 20 44 8"/>',
    ),
    (
        "list",
        "All that my tractor can run",
        "matrix",
        ("matrix", "machines"),
        '<path d="M22 5h76v42H22zM22 19h76M22 33h76M47 5v42"/>'
        '<path class="good" d="M56 12l3 3 6-7M56 26l3 3 6-7"/>'
        '<path class="bad" d="M57 37l7 7m0-7l-7 7"/>',
    ),
)


def _subject_of(page: str) -> str:
    return next((key for key, _, _, pages, _ in SUBJECTS if page in pages), "")


def subjects_block(href: Href) -> str:
    """Return the subjects as pictures, each a link to its first page."""
    return str(
        h.div(".ys-subjects")[
            [
                h.a(".ys-subject", href=href(first), data_subject=key)[
                    h.svg(viewBox="0 0 120 52", aria_hidden="true")[Markup(drawn)],
                    h.span[said],
                ]
                for key, said, first, _, drawn in SUBJECTS
            ]
        ]
    )


def messages_block() -> str:
    """Return the place of the page that reads messages; the client script fills it."""
    return str(
        h.div(id="ys-messages")[
            h.noscript[h.p["This page works with a script, which this browser doesn't run."]]
        ]
    )
