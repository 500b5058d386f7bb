"""A check: one limit, at one set of values, and how grave it is to break it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from calc import arith
from calc.model.text import Words

WITHIN, CLOSE, OVER, UNKNOWN, COMPARED = "within", "close", "over", "unknown", "compared"
FINDING_WORDS = {
    WITHIN: "Within limits",
    CLOSE: "Close to a limit",
    OVER: "Over a limit",
    UNKNOWN: "Can't tell yet",
    COMPARED: "Compared, no limit applies",
}

# How grave: somebody is hurt or the law is broken; a rating or a rule of sound work; mere advice.
DANGER, LIMIT, ADVICE = "danger", "limit", "advice"
GRADES = (DANGER, LIMIT, ADVICE)

CLOSE_BAND = 0.10  # a margin smaller than this share of the limit is "close"; our own choice
INSIDE_BAND = 1.0  # the margin at the strict end of a band, whose lenient end is at zero


@dataclass(frozen=True, slots=True)
class Check:
    """One limit, at one set of values.

    `sense` is "at most", "at least", "between" or "fits". The `margin` is what is left, as a
    share of the limit; below zero the limit is broken. For "fits" the margin is 1 (fits),
    0 (fits with something to do) or -1 (doesn't fit), and `sentence` says which. Where the limit
    is a band, `limit` is its lenient end and `upper` its strict one; the margin is 0 at the one
    and 1 at the other, so that all inside the band is close.

    `broken` is the heading once the limit is broken: the state found, not its opposite.
    """

    name: str
    title: str
    kind: str
    value: float
    limit: float
    sense: str
    margin: float
    source: str
    sentence: Words = ""
    why: str = ""  # what happens when it is broken, one short sentence
    upper: float = 0.0  # the other limit of "between", or the strict end of a band
    unit_us: str = ""
    unit_metric: str = ""
    close_band: float = CLOSE_BAND
    grade: str = LIMIT
    broken: str = ""
    band: bool = False
    # Of a band: how far the value is on the good side of its lenient end, and of its strict one.
    beyond: tuple[float, float] | None = None

    def heading(self, finding: str) -> str:
        """The title, as the state that was found."""
        return self.broken if finding == OVER and self.broken else self.title


def counts(finding: str, grade: str, *, alone: bool) -> bool:
    """Whether what a check beside the question finds counts for it: a danger.

    `alone`: only one that is broken, since the question has nothing to do with the others.
    """
    return grade == DANGER and (finding == OVER or not alone)


class _Made(BaseException):
    """Ends a run that is for one check alone: it was made."""

    def __init__(self, check: Check) -> None:
        self.check = check


class OpenChoice(Exception):
    """A run reads a choice that is open: the proof goes on for each of its options."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


class OpenWay(Exception):
    """A group of checks leaves a comparison open: a look at everything leaves the group out."""

    name = ""  # of no choice


_wanted: tuple[str, ...] = ()  # the names that a run is for; empty when it is for all
_ends_at = ""  # the check with which a run ends
_alone = False  # whether nothing but checks is asked for
# The groups that a look over everything leaves out, and the choice that each of them reads first;
# "" where it is a comparison that keeps a group out.
_left: dict[tuple[str, ...], str] | None = None
_grouped = 0  # how many groups the run is inside of


def run_for(name: str, run: Callable[[], Any]) -> Check | None:
    """Return the check called `name`, from a run that ends as soon as it is made.

    None when the whole run doesn't make it.
    """
    global _wanted, _ends_at
    _wanted, _ends_at = (name,), name
    try:
        found: Check | None = run().check(name)
        return found
    except _Made as made:
        return made.check
    finally:
        _wanted, _ends_at = (), ""


def run_group[R](names: tuple[str, ...], run: Callable[[], R]) -> R:
    """Return what a run gives that is for a group of checks and numbers alone."""
    global _wanted
    _wanted = names
    try:
        return run()
    finally:
        _wanted = ()


@contextmanager
def checks_alone() -> Iterator[None]:
    """Leave out what no check hangs on: for a list of many answers, of which one line is shown."""
    global _alone
    _alone = True
    try:
        yield
    finally:
        _alone = False


@contextmanager
def looking() -> Iterator[Mapping[tuple[str, ...], str]]:
    """Leave out the groups that read an open choice or leave a comparison open.

    What is given holds that choice of each, "" for a comparison. What stands outside such a group
    then needs one run, however many options or ways there are in it.
    """
    global _left
    _left = {}
    try:
        yield _left
    finally:
        _left = None


def leaving() -> bool:
    """Return whether a run leaves groups out."""
    return _left is not None


def leave(names: tuple[str, ...], choice: str) -> None:
    """Note that a run leaves out a group, and the open choice that it reads."""
    assert _left is not None
    _left.setdefault(names, choice)


@contextmanager
def grouped() -> Iterator[None]:
    """Say that what is called makes the checks of one group, which a look may leave out."""
    global _grouped
    _grouped += 1
    try:
        yield
    finally:
        _grouped -= 1


def apart() -> bool:
    """Return whether a comparison that is open is none of this run's: it keeps its group out."""
    return _grouped > 0


def wants(*names: str) -> bool:
    """Return whether a run is for all checks, or for one of these.

    What only some checks need, and what costs much or compares much, asks before it is worked
    out: a proof of one check then follows that check's comparisons alone. What no check needs asks
    without a name.
    """
    if not names and _alone:
        return False
    return not _wanted or any(name in _wanted for name in names)


def shows() -> bool:
    """Return whether what no check hangs on is asked for."""
    return not _alone


def only(*names: str) -> bool:
    """Return whether a run is for nothing but these: what they don't need may be left out."""
    return bool(_wanted) and all(name in names for name in _wanted)


def made(check: Check) -> Check:
    """Return a check; a run for this one ends here."""
    if check.name == _ends_at:
        raise _Made(check)
    return check


def _past_rounding(margin: float) -> float:
    """A limit in feet met by a value in inches may be missed by rounding alone: that is no miss.

    An interval stays as it is: what is proved leaves the same room (`calc.search.proof`).
    """
    return 0.0 if margin.__class__ is float and -1e-9 < margin < 0 else margin


def _beyond(value: float, limit: float) -> float:
    """How far a value is beyond a limit, as a share of the limit; of a limit of 0, all or none."""
    if limit.__class__ in (float, int) or not limit > 0:
        return (value - limit) / abs(limit) if limit else (1.0 if value > 0 else 0.0)
    return value / limit - 1.0  # a limit with a range stands once


def at_most(
    name: str, title: str, value: float, limit: float, kind: str, source: str, **more: Any
) -> Check:
    """Return a check that `value` is no more than `limit`."""
    margin = _past_rounding(0.0 - _beyond(value, limit))
    return made(Check(name, title, kind, value, limit, "at most", margin, source, **more))


def at_least(
    name: str, title: str, value: float, limit: float, kind: str, source: str, **more: Any
) -> Check:
    """Return a check that `value` is no less than `limit`."""
    margin = _past_rounding(_beyond(value, limit))
    return made(Check(name, title, kind, value, limit, "at least", margin, source, **more))


def within_band(
    name: str,
    title: str,
    value: float,
    strict: float,
    lenient: float,
    kind: str,
    source: str,
    *,
    tight: tuple[Callable[[], float], Callable[[], float]] | None = None,
    **more: Any,
) -> Check:
    """Return a check against a limit that the trade gives as a band.

    Past `lenient` it is broken, short of `strict` it is met, between them it is close. With
    `lenient` above `strict` it is a limit that a value may not pass, else one it must reach.
    `tight` gives the width of the band, and what a value that must be reached has beyond the
    strict end, by formulae that are narrower over ranges where the ends hang on the same inputs.
    """
    width = abs(lenient - strict)
    if tight is not None:
        width = arith.same(width, tight[0])
    if not width:
        plain = at_most if more.pop("sense", "at most") == "at most" else at_least
        return plain(name, title, value, strict, kind, source, **more)
    sense = more.pop("sense", "") or ("at most" if lenient > strict else "at least")
    left = lenient - value if sense == "at most" else value - lenient
    inside = strict - value if sense == "at most" else value - strict
    if tight is not None:
        inside = arith.same(inside, tight[1])
    margin = _past_rounding(arith.same(left / width, lambda: 1.0 + inside / width))
    more.setdefault("close_band", INSIDE_BAND)
    more["upper"] = strict
    more["beyond"] = (left, inside)
    return made(Check(name, title, kind, value, lenient, sense, margin, source, band=True, **more))


def between(
    name: str,
    title: str,
    value: float,
    low: float,
    high: float,
    kind: str,
    source: str,
    **more: Any,
) -> Check:
    """Return a check that `value` lies in a window; the margin is a share of half its width."""
    half = (high - low) / 2
    margin = arith.min(value - low, high - value) / half if half > 0 else -1.0
    margin = _past_rounding(margin)
    more["upper"] = high
    return made(Check(name, title, kind, value, low, "between", margin, source, **more))


def fits(name: str, title: str, margin: float, sentence: Words, source: str, **more: Any) -> Check:
    """Return a check without a number: margin 1 fits, 0 fits with a remedy, -1 doesn't fit."""
    check = Check(name, title, "count", margin, 0.0, "fits", margin, source, sentence, **more)
    return made(check)


@dataclass(frozen=True, slots=True)
class Unchecked:
    """A check that could not be made because nobody gave what it needs.

    `field` is the name of the input that is missing and `title` what would be checked. While a
    `governs` one is open the answer is never better than "can't tell yet". One that is said
    `if_asked` alone belongs to a job that few do: a question that doesn't name it leaves it out.
    What somebody `meant` to have checked, and gave something for, is told though it doesn't govern.
    """

    name: str
    title: str
    field: str
    governs: bool = True
    if_asked: bool = False
    meant: bool = False
