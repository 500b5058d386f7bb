"""A check in words: its value, its limit, its margin, and what it found."""

from __future__ import annotations

from collections.abc import Iterator

from calc import model
from calc import quantities as q
from calc.model import Verdict, figures, words

_ALIKE = 0.02  # two numbers farther apart than this share differ in three figures as well


def value_text(verdict: Verdict, system: str) -> str:
    """The value of a check, or its range."""
    return _range(verdict, verdict.value_low, verdict.value_high, system)


def telling(verdict: Verdict, system: str) -> int:
    """How many figures tell a value from its limit, where three may not: "1,000" from "1,004"."""
    if verdict.check.sense == "fits" or verdict.finding not in (model.OVER, model.UNKNOWN):
        return q.FIGURES
    for value, limit in _deciding_ends(verdict):
        if abs(value - limit) > _ALIKE * abs(limit):
            continue
        shown, told = (
            [_range(verdict, end, end, system, count) for end in (value, limit)]
            for count in (q.FIGURES, q.FIGURES + 1)
        )
        if shown[0] == shown[1] and told[0] != told[1]:
            return q.FIGURES + 1
    return q.FIGURES


def _deciding_ends(verdict: Verdict) -> Iterator[tuple[float, float]]:
    """Give the value and the limit that are compared: where it is best, or worst while open."""
    values = verdict.value_low, verdict.value_high
    limits = verdict.limit_low, verdict.limit_high
    if verdict.check.sense == "between":
        yield from ((value, limit) for value in values for limit in limits)
        return
    high = (verdict.check.sense == "at least") == (verdict.finding == model.OVER)
    yield values[high], limits[not high]


def _range(verdict: Verdict, low: float, high: float, system: str, count: int = 0) -> str:
    check = verdict.check
    unit = figures.unit_of(check, system)
    count = count or telling(verdict, system)
    return q.show_range(low, high, check.kind, system, unit=unit, figures=count)


def limit_text(verdict: Verdict, system: str) -> str:
    """The limit of a check as a phrase, such as "at most 620 lb".

    A sum of money is no limit on another: it is what the other is held against.
    """
    check = verdict.check
    if check.kind == MONEY:
        return f"against {_range(verdict, verdict.limit_low, verdict.limit_high, system)}"
    if check.sense == "between":
        shown = _range(verdict, check.limit, check.upper, system)
        return f"between {shown.replace(' to ', ' and ')}"
    if check.sense == "at least" and verdict.limit_high <= 0.0 and _ends_at_nothing(check):
        return f"more than {q.NOTHING}"
    shown = bare_limit(verdict, system)
    if verdict.finding == model.OVER and shown == value_text(verdict, system):
        # What is broken by less than is shown, or by being reached.
        return f"{PAST[check.sense]} {shown}"
    return f"{check.sense} {shown}"


MONEY = "money"
PAST = {"at most": "less than", "at least": "more than"}


def _ends_at_nothing(check: model.Check) -> bool:
    return q.kind(check.kind).never_below_zero


def margin_text(verdict: Verdict) -> str:
    """What is left below or above the limit, as a share of it."""
    if verdict.check.sense == "fits":
        return ""
    low, high = _percent(verdict.margin_low), _percent(verdict.margin_high)
    return low if low == high else f"{low} to {high}"


def _percent(margin: float) -> str:
    shown = round(margin * 100)
    if abs(shown) > 999:
        return "over 999 %" if shown > 0 else "under -999 %"
    return f"{shown} %".replace("-", "\u2212")


def check_sentence(verdict: Verdict, system: str, heading: str = "") -> str:
    """One sentence that says what a check found, under its title or another heading."""
    check = verdict.check
    if check.sentence:
        said = words(check.sentence, system)
        if check.sense == "fits" and verdict.finding == model.UNKNOWN:
            said = f"{check.title}: it depends on what isn't known yet."
        return said
    return f"{heading or check.title}: {_held(verdict, system, ', and ')}."


def _held(verdict: Verdict, system: str, joint: str) -> str:
    """What a check compares: the value, and the limit as the end of a sentence."""
    joint = ", " if verdict.check.kind == MONEY else joint
    return f"{value_text(verdict, system)}{joint}{needed(verdict, system)}"


def needed(verdict: Verdict, system: str) -> str:
    """The limit as the end of a sentence: "at most 620 lb is allowed"."""
    shown = limit_text(verdict, system)
    if verdict.check.kind == MONEY:
        return shown
    if verdict.check.sense == "at most":
        return f"{shown} is allowed"
    if verdict.check.sense == "at least":
        return f"{shown} is needed"
    return f"it should lie {shown}"


def check_said(verdict: Verdict, system: str) -> str:
    """What a check found, without its title."""
    check = verdict.check
    if check.sentence:
        return check_sentence(verdict, system)
    return f"{_held(verdict, system, '; ')}."


def bare_limit(verdict: Verdict, system: str) -> str:
    """The limit of a check without words: rounded to its own side, as a remedy for it is."""
    check = verdict.check
    if check.band or check.sense == "between":
        low, high = sorted((check.limit, check.upper))
        return _range(verdict, low, high, system)
    ends = verdict.limit_low, verdict.limit_high
    return _range(verdict, *_kept(verdict, ends, system), system)


def _kept(verdict: Verdict, ends: tuple[float, float], system: str) -> tuple[float, float]:
    """Round the ends of a limit to its side, unless what meets it would then seem to pass it."""
    check, up = verdict.check, verdict.check.sense == "at least"
    if check.sense == "fits":
        return ends
    unit, count = figures.unit_of(check, system), telling(verdict, system)
    low, high = (
        q.kept_to(end, check.kind, system, unit=unit, figures=count, up=up) for end in ends
    )
    meets = verdict.finding not in (model.OVER, model.UNKNOWN)
    if meets and (verdict.value_low < high if up else verdict.value_high > low):
        return ends
    return low, high
