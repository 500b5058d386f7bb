"""What of an answer concerns the question that was asked."""

from __future__ import annotations

from calc import model
from calc.model import Answer


def is_broken(verdict: model.Verdict) -> bool:
    """Whether a check is broken for sure."""
    return verdict.finding == model.OVER


def counting(answer: Answer) -> list[model.Unchecked]:
    """What could not be checked and bears on the question."""
    asked = answer.ask.checks
    return [u for u in answer.unchecked if u.governs and (not asked or u.name in asked)]


def told(answer: Answer, verdict: model.Verdict) -> bool:
    """Whether a broken check is told: of money what was asked about, all for the main question."""
    aside = answer.worksheet.compares_money and answer.ask.key != answer.worksheet.asks[0].key
    return not (aside and answer.ask.checks) or verdict.check.name in answer.ask.checks


def in_question(answer: Answer) -> list[model.Verdict]:
    """The checks that a reply says what to do about: the question's own, dangers, and what is
    broken beside it. What another question leaves open is not what was asked."""
    own = model.counting(answer.verdicts, answer.ask.checks, alone=answer.ask.alone)
    return [v for v in answer.verdicts if v in own or (is_broken(v) and told(answer, v))]


def helping(answer: Answer) -> list[model.Remedy]:
    """The remedies of what was asked about and of what is broken beside it: who asks for a wire
    isn't offered a flasher because nobody knows which one is fitted."""
    # Where all that was asked about is well, what would help elsewhere is no part of it.
    well = answer.finding in (model.WITHIN, model.CLOSE)
    remedies = [r for r in answer.advice.remedies if not well or answer.concerns(r)]
    counted = {verdict.check.name for verdict in in_question(answer)}
    return [r for r in remedies if not r.mends or counted & set(r.mends)]
