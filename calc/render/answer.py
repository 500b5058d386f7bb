"""An answer as HTML."""

from __future__ import annotations

import htpy as h

from calc import links, model, sources
from calc.model import Answer, sentences, words
from calc.render import svg

_SHAPES = {
    model.WITHIN: "M3 10l4.5 4.5L17 5",
    model.CLOSE: "M10 2L18.5 17H1.5ZM10 7.5v4.5M10 14v1.2",
    model.OVER: "M4 4l12 12M16 4L4 16",
    model.UNKNOWN: "M6.5 7a3.5 3.5 0 1 1 4.8 3.2c-1 .5-1.3 1-1.3 2.3M10 15.5v1.2",
    model.COMPARED: "M2 7h16M2 13h16",
}

_path = h.Element("path")


def shape(finding: str) -> h.Element:
    """The mark that goes with a finding, so that it never rests on colour."""
    return h.svg({"class": "ys-mark", "viewBox": "0 0 20 20", "aria-hidden": "true"})[
        _path({"d": _SHAPES[finding]})
    ]


def answer_html(answer: Answer, system: str = "us") -> str:
    """Return the whole answer as HTML. The same inputs give the same bytes everywhere."""
    return str(_answer(answer, system))


def _answer(answer: Answer, system: str) -> h.Element:
    return h.div(".ys-body", data_finding=answer.finding)[
        _finding(answer, system),
        _remedies(answer, system),
        [svg.draw(picture, system, i) for i, picture in enumerate(answer.pictures)],
        _checks(answer, system),
        _outputs(answer, system),
        [_table(table, system) for table in answer.advice.tables],
        _notes(answer, system),
        _assumed(answer, system),
        _cautions(answer),
        _working(answer, system),
        _sources(answer),
    ]


def _finding(answer: Answer, system: str) -> h.Element:
    said = sentences.lead(answer, system)
    why = answer.deciding.check.why if answer.deciding and answer.finding != model.WITHIN else ""
    settle = sentences.settle_sentence(answer, system)
    return h.div(".ys-finding", data_finding=answer.finding)[
        h.p(".ys-finding-word")[
            shape(answer.finding), h.strong[model.FINDING_WORDS[answer.finding]]
        ],
        h.p(".ys-deciding")[said, (f" {why}" if why else "")] if said else None,
        h.p(".ys-settle")[settle] if settle else None,
        h.p(".ys-passing")["A first look at the middle values; the ranges are being searched."]
        if not answer.final
        else None,
    ]


def _remedies(answer: Answer, system: str) -> h.Element | None:
    if not answer.advice.remedies:
        return None
    many = answer.searched > 1
    return h.div(".ys-remedies")[
        h.h3["What would help" + (" if the ranges turn out at their worst" if many else "")],
        h.ul[[_remedy(remedy, system) for remedy in answer.advice.remedies]],
    ]


def _remedy(remedy: model.Remedy, system: str) -> h.Element:
    return h.li[
        words(remedy.text, system),
        [" ", h.a(".ys-try", href=f"#{links.encoded(remedy.set)}")["Try it"]]
        if remedy.set
        else None,
        [" ", h.span(".ys-source")[_cite(remedy.source)]] if remedy.source else None,
    ]


def _checks(answer: Answer, system: str) -> h.Element | None:
    if not answer.verdicts:
        return None
    rows = []
    for verdict in answer.verdicts:
        check = verdict.check
        if check.sense == "fits":
            cells = [h.td(colspan="2")[sentences.check_sentence(verdict, system)], h.td["\u2014"]]
        else:
            said = f" {words(check.sentence, system)}" if check.sentence else ""
            cells = [
                h.td[sentences.value_text(verdict, system)],
                h.td[sentences.limit_text(verdict, system), said],
                h.td[sentences.margin_text(verdict)],
            ]
        rows.append(
            h.tr(data_finding=verdict.finding)[
                h.th(scope="row")[check.title],
                h.td(".ys-found")[
                    shape(verdict.finding), " ", model.FINDING_WORDS[verdict.finding]
                ],
                cells,
                h.td(".ys-source")[_cite(check.source)],
            ]
        )
    return h.div(".ys-checks", tabindex="0", role="region", aria_label="Checks")[
        h.h3["Every check"],
        h.table[
            h.thead[
                h.tr[
                    [
                        h.th(scope="col")[name]
                        for name in ("Check", "Finding", "Here", "Limit", "Margin", "Source")
                    ]
                ]
            ],
            h.tbody[rows],
        ],
    ]


def _outputs(answer: Answer, system: str) -> h.Element | None:
    if not answer.outputs:
        return None
    return h.div(".ys-outputs")[
        h.h3["Numbers"],
        h.dl[
            [
                h.div[
                    h.dt[output.label],
                    h.dd[
                        sentences.output_text(output, system),
                        h.small[f" {words(output.note, system)}"] if output.note else None,
                    ],
                ]
                for output in answer.outputs
            ]
        ],
    ]


def _table(table: model.Table, system: str) -> h.Element:
    head: list[h.Element] = [h.th(scope="col")[name] for name in table.columns]
    rows = []
    for row in table.rows:
        cells: list[h.Element] = [h.td[sentences.cell_text(cell, system)] for cell in row]
        if table.checklist:
            cells.insert(0, h.td(".ys-cross")["\u2610"])
        rows.append(h.tr[cells])
    if table.checklist:
        head.insert(0, h.th(scope="col")["Done"])
    return h.div(".ys-table", tabindex="0", role="region", aria_label=table.title)[
        h.h3[table.title],
        h.table[h.thead[h.tr[head]], h.tbody[rows]],
        h.p(".ys-note")[words(table.note, system)] if table.note else None,
        h.p(".ys-source")["Source: ", _cite(table.source)] if table.source else None,
    ]


def _notes(answer: Answer, system: str) -> h.Element | None:
    if not answer.advice.notes:
        return None
    return h.div(".ys-notes")[[h.p[words(note, system)] for note in answer.advice.notes]]


def _assumed(answer: Answer, system: str) -> h.Element | None:
    if not answer.assumed:
        return None
    many = answer.searched > 1
    return h.div(".ys-assumed")[
        h.h3["Not known, so a range stands in"],
        h.ul[
            [
                h.li[
                    sentences.assumed_sentence(item, system),
                    [" ", h.span(".ys-source")[_cite(item.typical.source)]]
                    if item.typical
                    else None,
                ]
                for item in answer.assumed
            ]
        ],
        h.p[
            f"The finding holds for every one of {answer.searched:,} sets of values tried over "
            "these ranges, or it says that it can't tell."
        ]
        if many
        else None,
    ]


def _cautions(answer: Answer) -> h.Element | None:
    if not answer.advice.cautions:
        return None
    return h.div(".ys-cautions")[
        h.h3["Take care"],
        h.ul[
            [
                h.li[
                    caution.text,
                    [" ", h.span(".ys-source")[_cite(caution.source)]] if caution.source else None,
                ]
                for caution in answer.advice.cautions
            ]
        ],
    ]


def _working(answer: Answer, system: str) -> h.Element | None:
    if not answer.working:
        return None
    note = (
        "Worked with the middle of every range; the checks above cover the whole ranges."
        if answer.searched > 1 or not answer.final
        else ""
    )
    return h.details(".ys-working")[
        h.summary["Working"],
        h.p(".ys-note")[note] if note else None,
        h.ol[
            [
                h.li[
                    h.span(".ys-step")[step.label],
                    h.code[f"{step.symbol} = {step.formula}"],
                    h.span(".ys-put-in")[sentences.step_numbers(step, system)],
                    h.strong[f"{step.symbol} = {sentences.step_value(step, system)}"],
                    h.span(".ys-source")[_cite(step.source)],
                ]
                for step in answer.working
            ]
        ],
    ]


def _cite(citation: str) -> list[h.Node]:
    """A citation as short links to the list of sources below."""
    parts: list[h.Node] = []
    for one in (part.strip() for part in citation.split(";") if part.strip()):
        source, place = sources.find(one)
        shown = source_label(source) + (f", {place}" if place else "")
        if parts:
            parts.append("; ")
        parts.append(h.span(title=f"{source.title}, {source.year}".rstrip(", "))[shown])
    return parts


def source_label(source: sources.Source) -> str:
    """The short name of a source, with its caveat."""
    if source.status == "practice":
        return "common practice, no source"
    if source.status == "derived":
        return "derived"
    return f"{source.key} ({source.caveat})" if source.caveat else source.key


def source_line(source: sources.Source) -> h.Element:
    """One source in a list."""
    who = f"{source.author}: " if source.author else ""
    year = f", {source.year}" if source.year else ""
    return h.li[
        h.span(".ys-key")[source.key],
        f" {who}{source.title}{year}.",
        h.em[f" {source.caveat}."] if source.caveat else None,
        f" {source.note}" if source.note else "",
    ]


def _sources(answer: Answer) -> h.Element | None:
    cited = [sources.find(citation)[0] for citation in sentences.citations(answer)]
    if not cited:
        return None
    return h.details(".ys-sources")[
        h.summary["Sources of this answer"],
        h.ul[[source_line(source) for source in cited]],
    ]
