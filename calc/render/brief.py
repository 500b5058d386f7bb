"""An answer in a few lines, for where several stand on one page."""

from __future__ import annotations

from collections.abc import Mapping

import htpy as h

from calc import model
from calc.model import Answer, check_text, leading, sentences
from calc.render.marks import shape

CHECKS_SHOWN = 2


def brief_html(answer: Answer, system: str = "us") -> str:
    """Return the verdict, the numbers behind it, what to find next, and the first caution.

    Nothing in it has an id, so that one worksheet may answer several questions of a page.
    """
    verdicts = behind(answer)[:CHECKS_SHOWN]
    cautions = answer.advice.cautions[:1]
    return str(
        h.fragment[
            h.div(".ys-finding", data_finding=answer.finding)[
                h.p(".ys-finding-word")[
                    shape(answer.finding),
                    h.strong[answer.worksheet.finding_words(answer.finding)],
                ],
                h.p(".ys-lead")[leading.lead(answer, system)],
                h.ul[[h.li[check_text.check_sentence(each, system)] for each in verdicts]]
                if verdicts
                else None,
            ],
            _next(answer, system),
            [h.p(".ys-care")[h.strong["Take care: "], each.text] for each in cautions],
        ]
    )


def behind(answer: Answer) -> list[model.Verdict]:
    """Return the checks behind an answer: what broke, then what was asked, then the others.

    A check that can't be told yet has no number, and is left out.
    """
    if answer.missing:
        return []
    deciding, ask = answer.deciding, answer.ask
    asked = [ask.lead, *ask.checks]

    def place(verdict: model.Verdict) -> int:
        if verdict is deciding and answer.finding == model.OVER:
            return -1
        name = verdict.check.name
        return asked.index(name) if name in asked else len(asked)

    told = [
        each for each in answer.verdicts if any(map(str.isdigit, check_text.check_said(each, "us")))
    ]
    return sorted(told, key=place)


def given_sentence(sheet: model.Worksheet, given: Mapping[str, str]) -> str:
    """Return what an answer is worked out for; of the page's example where nothing was given."""
    if not given:
        return f"An example: {sheet.example}" if sheet.example else "An example."
    said = [
        f"{item.label.rstrip('?')}: {item.shown(text) if isinstance(item, model.Choice) else text}"
        for name, text in given.items()
        for item in [sheet.field(name)]
    ]
    return f"For: {'; '.join(said)}."


def outline(answer: Answer, given: Mapping[str, str], system: str = "us") -> list[str]:
    """Return what somebody says who speaks of it.

    The answer in a sentence, the number behind it, what it is worked out for, and what to show on
    the machine: the number that would settle it, or else the first one that the question rests on.
    """
    sheet = answer.worksheet
    number = [check_text.check_sentence(each, system) for each in behind(answer)[:1]]
    asked = [sheet.field(name) for name in answer.ask.fields]
    named = [
        *answer.missing,
        *(each.field for each in answer.settles if answer.finding == model.UNKNOWN),
        *(item for item in asked if item.name in given and not isinstance(item, model.Choice)),
        *(item for item in asked if not isinstance(item, model.Choice)),
    ]
    show = [f"Show: {item.label.rstrip('?')}. {item.help}" for item in named if item.help]
    return [leading.lead(answer, system), *number, given_sentence(sheet, given), *show[:1]]


def _next(answer: Answer, system: str) -> h.Element | None:
    """What is still to be said, or would settle it."""
    if answer.missing:
        return h.p[sentences.missing_of(answer)]
    if answer.finding != model.UNKNOWN or not answer.settles:
        return None
    return h.p[sentences.settle_sentence(answer, system)]
