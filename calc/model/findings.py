"""From checks over a box to one finding: what counts, and in which order it is told."""

from __future__ import annotations

from collections.abc import Sequence

from calc.model.answers import Verdict
from calc.model.checks import (
    ADVICE,
    CLOSE,
    COMPARED,
    GRADES,
    OVER,
    UNKNOWN,
    WITHIN,
    Unchecked,
    counts,
)

Rank = tuple[int, int, float]
_ORDER = {OVER: 0, UNKNOWN: 1, CLOSE: 2, WITHIN: 3}


def finding_over(margin_low: float, margin_high: float, band: float) -> str:
    """Return the finding of one check whose margin runs from low to high over the box."""
    if margin_high < 0:
        return OVER
    if margin_low < 0:
        return UNKNOWN
    return CLOSE if margin_low < band else WITHIN


def makes(verdict: Verdict) -> str:
    """Return the finding that a verdict alone gives an answer: advice not followed is close."""
    return _made_by(verdict.finding, verdict.check.grade)


def _made_by(finding: str, grade: str) -> str:
    return CLOSE if grade == ADVICE and finding in (OVER, UNKNOWN) else finding


def rank(verdict: Verdict) -> Rank:
    """Return where a verdict stands among the others: what is broken by harm, then by margin."""
    ends = verdict.margin_low, verdict.margin_high
    return rank_of(verdict.finding, verdict.check.grade, *ends)


def rank_of(finding: str, grade: str, margin_low: float, margin_high: float) -> Rank:
    """Return the rank of what a check of a grade finds over margins from low to high."""
    margin = margin_high if finding == OVER else margin_low
    return _ORDER[_made_by(finding, grade)], GRADES.index(grade), margin


def counting(
    verdicts: Sequence[Verdict], names: Sequence[str], *, alone: bool = False
) -> list[Verdict]:
    """Return the verdicts that count for a question: those named (all for none), and dangers."""
    return [
        v
        for v in verdicts
        if not names or v.check.name in names or counts(v.finding, v.check.grade, alone=alone)
    ]


def finding_of(
    verdicts: Sequence[Verdict],
    unchecked: Sequence[Unchecked],
    names: Sequence[str] = (),
    *,
    alone: bool = False,
) -> str:
    """Return the one finding of an answer.

    Advice alone never makes it "over": advice that is not followed, or may not be, is close. A
    governing check that could not be made leaves it at "can't tell yet" at best; one that is told
    only `if_asked` needs a question that names it.
    """
    counted = counting(verdicts, names, alone=alone)
    hard = {v.finding for v in counted if v.check.grade != ADVICE}
    if OVER in hard:
        return OVER
    open_ = [u for u in unchecked if u.governs and (u.name in names if names else not u.if_asked)]
    if UNKNOWN in hard or open_ or _passed_over(counted, unchecked, names):
        return UNKNOWN
    if CLOSE in hard or any(v.finding in (OVER, UNKNOWN) for v in counted):
        return CLOSE
    if not counted:
        return UNKNOWN if alone else COMPARED  # nothing that it asks about could be looked at
    return WITHIN


def _passed_over(
    counted: Sequence[Verdict], unchecked: Sequence[Unchecked], names: Sequence[str]
) -> bool:
    """Whether dangers alone were looked at, and what a question asks about was left open."""
    asked = any(v.check.name in names for v in counted)
    return bool(counted and names) and not asked and any(u.name in names for u in unchecked)


def deciding_of(
    verdicts: Sequence[Verdict],
    names: Sequence[str] = (),
    until_told: Sequence[str] = (),
    *,
    alone: bool = False,
) -> Verdict | None:
    """Return the verdict that an answer turns on: the first that counts, in order of harm.

    Of several that can't be told yet it is the first that `until_told` names.
    """
    first = min(counting(verdicts, names, alone=alone), key=rank, default=None)
    if first is None or first.finding != UNKNOWN:
        return first
    open_ = {verdict.check.name: verdict for verdict in verdicts if verdict.finding == UNKNOWN}
    return next((open_[name] for name in until_told if name in open_), first)
