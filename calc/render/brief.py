"""An answer in a few lines, for where several stand on one page."""

from __future__ import annotations

import htpy as h

from calc import model
from calc.model import Answer, sentences
from calc.render.marks import shape

CHECKS_SHOWN = 2


def brief_html(answer: Answer, system: str = "us") -> str:
    """Return the verdict, the numbers behind it, what to find next, and the first caution.

    Nothing in it has an id, so that one worksheet may answer several questions of a page.
    """
    verdicts = answer.verdicts[:CHECKS_SHOWN] if not answer.missing else ()
    cautions = answer.advice.cautions[:1]
    return str(
        h.fragment[
            h.div(".ys-finding", data_finding=answer.finding)[
                h.p(".ys-finding-word")[
                    shape(answer.finding),
                    h.strong[answer.worksheet.finding_words(answer.finding)],
                ],
                h.p(".ys-lead")[sentences.lead(answer, system)],
                h.ul[[h.li[sentences.check_sentence(each, system)] for each in verdicts]]
                if verdicts
                else None,
            ],
            _next(answer, system),
            [h.p(".ys-care")[h.strong["Take care: "], each.text] for each in cautions],
        ]
    )


def _next(answer: Answer, system: str) -> h.Element | None:
    """What is still to be said, or would settle it."""
    if answer.missing:
        return h.p[sentences.missing_sentence(answer.missing)]
    if answer.finding != model.UNKNOWN or not answer.settles:
        return None
    return h.p[sentences.settle_sentence(answer, system)]
