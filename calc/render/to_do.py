"""What a reply says to do about what is broken."""

from __future__ import annotations

from dataclasses import replace

from calc import model
from calc.model import Answer, sentences, words
from calc.render import concerns, parts

IF_NEEDED = "What would help, if it isn't in order already"


def what_to_do(answer: Answer, system: str) -> tuple[str, list[str]]:
    """What to do: ways that each mend all of it, else a list that together mends what it can."""
    remedies = concerns.helping(answer)
    if not remedies:
        return "", []
    whole = [remedy for remedy in remedies if remedy.whole]
    if whole and answer.finding == model.UNKNOWN:
        return IF_NEEDED, [_remedy(remedy, system) for remedy in whole[:3]]
    if whole:
        title = "What to do" if len(whole) == 1 else "What to do, any one of these"
        return title, [_remedy(remedy, system) for remedy in whole[:3]]
    chosen, left = _cover(answer)
    if not chosen:
        # What is worth having in any case is no help with a question of its own.
        own = [r for r in remedies if r.mends or not answer.ask.checks]
        return "What would help" if own else "", [_remedy(remedy, system) for remedy in own[:3]]
    same = _instead(answer, chosen[0], remedies) if len(chosen) == 1 and not left else []
    if len(same) > 1:
        return "What to do, any one of these", [_remedy(remedy, system) for remedy in same[:3]]
    sure = any(concerns.is_broken(v) for remedy in chosen for v in _mended(answer, remedy))
    chosen.sort(
        key=lambda remedy: (
            not answer.concerns(remedy),
            not any(map(concerns.is_broken, _mended(answer, remedy))),
        )
    )
    broken = {v.check.name for v in concerns.in_question(answer) if concerns.is_broken(v)}
    told, mended = [], set[str]()
    for remedy in chosen:
        if len(broken) == 1 and broken == set(remedy.mends):
            # What the only broken thing is has been said.
            told.append(_remedy(remedy, system))
            mended |= broken
            continue
        # What an earlier one mends already is no reason for this one.
        new = tuple(name for name in remedy.mends if name not in mended)
        why = _what_for(answer, replace(remedy, mends=new), sure=sure)
        told.append(f"{_remedy(remedy, system)} {why}".strip())
        mended |= set(remedy.mends)
    if left and not answer.worksheet.compares_money:  # which way pays is no fault to be mended
        sure = True
        titles = [verdict.check.heading(model.OVER) for verdict in left]
        told.append(f"Nothing here mends: {'; '.join(titles)}.")
    if not sure:
        return IF_NEEDED, told
    return "What to do, all of it" if len(chosen) > 1 else "What to do", told


def _mended(answer: Answer, remedy: model.Remedy) -> list[model.Verdict]:
    return [verdict for verdict in answer.verdicts if verdict.check.name in remedy.mends]


def _what_for(answer: Answer, remedy: model.Remedy, *, sure: bool) -> str:
    """What a remedy mends; or what it is for where nobody knows whether that is in order.

    `sure` is whether anything of the list is broken: else its title says that none may be needed.
    """
    mended = _mended(answer, remedy)
    if not mended or any(map(concerns.is_broken, mended)):
        return sentences.mends(answer, remedy)
    titles = [model.in_sentence(verdict.check.title) for verdict in mended]
    named = sentences.listed(titles)
    return f"Unless in order already: {named}." if sure else f"That is for: {named}."


def _cover(answer: Answer) -> tuple[list[model.Remedy], list[model.Verdict]]:
    """Choose remedies until each check that one of them mends is mended; and say what is left.

    What was asked about and is broken for certain comes first, mended by what is made for it: who
    asks of a chain is told of a stronger one, and of a lighter load for what else is open.
    """
    limits = [
        v
        for v in concerns.in_question(answer)
        if v.margin_low < 0 and v.check.grade != model.ADVICE
    ]
    if any(concerns.is_broken(v) and v.check.name in answer.ask.checks for v in limits):
        # Who is told no to what was asked isn't sold a help for what may be in order beside it.
        limits = [v for v in limits if concerns.is_broken(v) or v.check.name in answer.ask.checks]
    open_ = {verdict.check.name for verdict in limits}
    rest, chosen = list(answer.advice.remedies), []
    own = _made_for(answer, limits)
    if own:
        chosen.append(own)
        rest.remove(own)
        open_ -= set(own.mends)
    while open_ and rest:
        best = max(rest, key=lambda remedy: len(open_ & set(remedy.mends)))
        if not open_ & set(best.mends):
            break
        chosen.append(best)
        rest.remove(best)
        open_ -= set(best.mends)
    return chosen, [v for v in limits if v.check.name in open_ and concerns.is_broken(v)]


def _instead(
    answer: Answer, chosen: model.Remedy, remedies: list[model.Remedy]
) -> list[model.Remedy]:
    """What mends all that the chosen remedy mends of what is broken for certain, and of dangers;
    that one first: who is too wide for the dark folds it, or goes by day.

    More of the same, for what may be in order besides, is no other way: "310 lb is the heaviest"
    beside "320 lb".
    """
    mended = _mended(answer, chosen)
    must = {v.check.name for v in mended if concerns.is_broken(v) or v.check.grade == model.DANGER}
    others = [
        r
        for r in remedies
        if r is not chosen
        and must <= set(r.mends)
        and not (r.key == chosen.key and set(chosen.mends) < set(r.mends))
    ]
    return [chosen, *others] if any(map(concerns.is_broken, mended)) else [chosen]


def _made_for(answer: Answer, limits: list[model.Verdict]) -> model.Remedy | None:
    """The remedy of what was asked about and is broken for certain, with the least beside it."""
    sure = {verdict.check.name for verdict in limits if concerns.is_broken(verdict)}
    asked = sure & set(answer.ask.checks)

    def fitting(remedy: model.Remedy) -> tuple[int, int, int]:
        mended = set(remedy.mends)
        return len(asked & mended), len(sure & mended), -len(mended - sure)

    best = max(answer.advice.remedies, key=fitting, default=None)
    return best if best and asked & set(best.mends) else None


def _remedy(remedy: model.Remedy, system: str) -> str:
    return " ".join(filter(None, [words(remedy.text, system), parts.said(remedy)]))
