"""What stands folded below a verdict: every check, number, table, step, input and source."""

from __future__ import annotations

import htpy as h

from calc import model, quantities, search
from calc.model import Answer, check_text, figures, sentences, words
from calc.render.marks import shape
from calc.render.notes import Notes

LEAST_EFFECT = 0.0005  # of the margin: less is no row


def depth_html(
    answer: Answer, system: str, notes: Notes, pictures: list[h.Element]
) -> h.Element | None:
    """Return the folded part; nothing while nothing was computed."""
    parts = [
        _checks(answer, system, notes),
        _outputs(answer, system),
        _fold("More pictures", f"{len(pictures)}", pictures) if pictures else None,
        *[_table(table, system, notes) for table in answer.advice.tables],
        _remarks(answer, system),
        _working(answer, system, notes),
        _whose(answer, system, notes),
        _effects_place(answer),
        _cautions(answer, notes),
    ]
    if notes:
        parts.append(_fold("Sources of this answer", str(len(notes)), notes.listed(), "ys-sources"))
    return h.div(".ys-depth")[parts] if any(parts) else None


def _fold(title: str, count: str, inside: h.Node, name: str = "") -> h.Element:
    return h.details(class_=name or None)[
        h.summary[title, h.small[f" {count}"] if count else None], inside
    ]


def _count(answer: Answer) -> str:
    found = [v.finding for v in answer.verdicts]
    of_money = answer.worksheet.compares_money  # which breaks and meets nothing
    said = (
        (found.count(model.OVER), "against" if of_money else "broken"),
        (found.count(model.UNKNOWN), "open"),
        (found.count(model.CLOSE), "close"),
        (found.count(model.WITHIN), "in favor" if of_money else "met"),
        (len(answer.unchecked), "not checked"),
    )
    return ", ".join(f"{number} {word}" for number, word in said if number)


def _box(table: h.Element, label: str) -> h.Element:
    """A table that is moved sideways where it is too wide."""
    return h.div(".ys-checks", tabindex="0", role="group", aria_label=label)[table]


def _checks(answer: Answer, system: str, notes: Notes) -> h.Element | None:
    if not answer.verdicts and not answer.unchecked:
        return None
    rows = [_check(answer, verdict, system, notes) for verdict in answer.verdicts]
    left = [
        h.tr[h.th(scope="row")[item.title], h.td(colspan="2")[_why_not(answer, item)]]
        for item in answer.unchecked
    ]
    head = [h.th(scope="col")[name] for name in ("Check", "Here", "Limit")]
    table = h.table[h.thead[h.tr[head]], h.tbody[rows, left]]
    return _fold("All checks", _count(answer), _box(table, "Checks"))


def _why_not(answer: Answer, item: model.Unchecked) -> str:
    label = model.in_sentence(answer.worksheet.field(item.field).label).rstrip("?")
    return f"not checked: {label} is blank"


def _check(answer: Answer, verdict: model.Verdict, system: str, notes: Notes) -> h.Element:
    check = verdict.check
    if check.sense == "fits":
        cells = [h.td(colspan="2")[check_text.check_sentence(verdict, system)]]
    else:
        said = f" {words(check.sentence, system)}" if check.sentence else ""
        cells = [
            h.td[check_text.value_text(verdict, system)],
            h.td[check_text.limit_text(verdict, system), said],
        ]
    grade = {model.DANGER: "danger", model.ADVICE: "advice"}.get(check.grade, "")
    name = answer.worksheet.finding_words(verdict.finding)
    return h.tr(data_finding=verdict.finding)[
        h.th(scope="row")[
            h.span(".ys-found", title=name)[
                shape(verdict.finding), h.span(".ys-hidden")[f"{name}: "]
            ],
            f" {check.heading(verdict.finding)}",
            notes.mark(check.source),
            h.small[f" {grade}"] if grade else None,
        ],
        cells,
    ]


def _outputs(answer: Answer, system: str) -> h.Element | None:
    shown = [output for output in answer.outputs if not output.hidden]
    if not shown:
        return None
    numbers = h.dl(".ys-numbers")[
        [
            h.div[
                h.dt[output.label],
                h.dd[
                    figures.output_text(output, system),
                    h.small[f" {words(output.note, system)}"] if output.note else None,
                ],
            ]
            for output in shown
        ]
    ]
    return _fold("Numbers", str(len(shown)), numbers, "ys-outputs")


def _table(table: model.Table, system: str, notes: Notes) -> h.Element:
    head: list[h.Element] = [h.th(scope="col")[name] for name in table.columns]
    rows = []
    for row in table.rows:
        cells: list[h.Element] = [h.td[figures.cell_text(cell, system)] for cell in row]
        if table.checklist:
            cells.insert(0, h.td(".ys-cross")["\u2610"])
        rows.append(h.tr[cells])
    if table.checklist:
        head.insert(0, h.th(scope="col")["Done"])
    inside = [
        h.div(".ys-table", tabindex="0", role="group", aria_label=table.title)[
            h.table[h.thead[h.tr[head]], h.tbody[rows]]
        ],
        h.p(".ys-note")[words(table.note, system)] if table.note else None,
        h.p(".ys-note")["Sources ", notes.mark(table.source)] if table.source else None,
    ]
    return _fold(table.title, f"{len(rows)}", inside, "ys-listed" if table.checklist else "")


def _remarks(answer: Answer, system: str) -> h.Element | None:
    if not answer.advice.notes:
        return None
    said = [h.p[words(note, system)] for note in answer.advice.notes]
    return _fold("To know as well", str(len(said)), said, "ys-notes")


def _working(answer: Answer, system: str, notes: Notes) -> h.Element | None:
    if not answer.working:
        return None
    note = (
        "Worked with the middle of every range; the checks above cover the whole ranges."
        if answer.searched > 1 or not answer.final
        else ""
    )
    steps = h.ol[
        [
            h.li[
                h.span(".ys-step")[step.label, notes.mark(step.source)],
                h.code[f"{step.symbol} = {step.formula}"],
                h.span(".ys-put-in")[figures.step_numbers(step, system)],
                h.strong[f"{step.symbol} = {figures.step_value(step, system)}"],
            ]
            for step in answer.working
        ]
    ]
    inside = [h.p(".ys-note")[note] if note else None, steps]
    return _fold("The working, step by step", str(len(answer.working)), inside, "ys-working")


def _whose(answer: Answer, system: str, notes: Notes) -> h.Element | None:
    """Whose number each input is: given, or a usual range that stands in."""
    if not answer.given and not answer.assumed:
        return None
    given = [
        h.div[
            h.dt[answer.worksheet.field(name).label.rstrip("?")],
            h.dd[sentences.given_text(answer, name, system)],
        ]
        for name in answer.given
    ]
    usual = [
        h.li[
            sentences.assumed_sentence(item, system),
            notes.mark(item.typical.source) if item.typical else None,
        ]
        for item in answer.assumed
    ]
    inside = [
        [h.h3["Given"], h.dl(".ys-numbers")[given]] if given else None,
        [h.h3["Not given, so what is usual stands in"], h.ul[usual]] if usual else None,
    ]
    said = ", ".join(
        f"{len(each)} {word}" for each, word in ((given, "yours"), (usual, "usual")) if each
    )
    return _fold("Given and usual", said, inside, "ys-assumed")


def _measured(answer: Answer) -> model.Check | None:
    """The check that decides, if a number does."""
    check = answer.deciding.check if answer.deciding else None
    return None if check is None or check.sense == "fits" else check


def _effects_place(answer: Answer) -> h.Element | None:
    """The fold for what errors of measuring do; worked out and shown when a reader opens it.

    It costs up to three answers, and few ask; without the client script it stays hidden.
    """
    if not answer.final or _measured(answer) is None:
        return None
    return h.details(".ys-effects", hidden=True)[h.summary["If a measurement is off"], h.div]


def effects_html(answer: Answer, box: search.Box, system: str) -> str:
    """Return what one error of measuring, of each number given, takes from the deciding margin."""
    check = _measured(answer)
    if check is None:
        return ""
    effects = search.error_effects(answer.worksheet, box, check.name)
    rows = [_effect(one, system) for one in effects if one.change <= -LEAST_EFFECT]
    if not rows:
        return str(h.p["No number that was given and is measured moves what decides."])
    exact = sum(one.error == 0.0 for one in effects)
    plates = f" Numbers read off a plate count as exact: {exact} here." if exact else ""
    # Inside a band the margin counts from the lenient end to the strict one.
    whole = "the band" if check.band else "the limit"
    head = [h.th(scope="col")[name] for name in ("Number", "May be off by", f"Takes, of {whole}")]
    table = h.table[h.thead[h.tr[head]], h.tbody[rows]]
    said = f"For “{check.title}”: each number alone, off to the side that takes most.{plates}"
    return str(h.fragment[h.p[said], _box(table, "Errors")])


def _effect(effect: search.ErrorEffect, system: str) -> h.Element:
    item = effect.field
    takes = f"{quantities.number(-100.0 * effect.change, 2)} %"
    off = quantities.show(effect.error, item.kind, system)
    turns = h.strong[" and breaks it"] if effect.turns else None
    return h.tr[
        h.th(scope="row")[item.label.rstrip("?")],
        h.td[f"{off} ({effect.how})"],
        h.td[takes, turns],
    ]


def _cautions(answer: Answer, notes: Notes) -> h.Element | None:
    rest = answer.advice.cautions[1:]
    if not rest:
        return None
    said = [
        h.li[caution.text, notes.mark(caution.source) if caution.source else None]
        for caution in rest
    ]
    return _fold("More to take care of", str(len(rest)), h.ul[said], "ys-cautions")
