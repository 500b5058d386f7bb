"""What computing gives at one set of values: checks, outputs, the working, and what to do."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc import arith
from calc.errors import UnknownName
from calc.model.text import Phrase, Words

WITHIN, CLOSE, OVER, UNKNOWN, COMPARED = "within", "close", "over", "unknown", "compared"
FINDING_WORDS = {
    WITHIN: "Within limits",
    CLOSE: "Close to a limit",
    OVER: "Over a limit",
    UNKNOWN: "Can't tell yet",
    COMPARED: "Compared, no limit applies",
}

CLOSE_BAND = 0.10  # a margin smaller than this share of the limit is "close"; our own choice


@dataclass(frozen=True, slots=True)
class Check:
    """One limit, at one set of values.

    `sense` is "at most", "at least", "between" or "fits". The `margin` is what is left, as a
    share of the limit; below zero the limit is broken. For "fits" the margin is 1 (fits),
    0 (fits with something to do) or -1 (doesn't fit), and `sentence` says which.
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
    upper: float = 0.0  # the other limit of "between"
    unit_us: str = ""
    unit_metric: str = ""
    close_band: float = CLOSE_BAND


class _Made(BaseException):
    """Ends a run that is for one check alone: it was made."""

    def __init__(self, check: Check) -> None:
        self.check = check


_wanted = ""  # the name of the check that a run is for; empty when it is for all


def run_for(name: str, run: Callable[[], Outcome]) -> Check | None:
    """Return the check called `name`, from a run that ends as soon as it is made.

    None when the whole run doesn't make it.
    """
    global _wanted
    _wanted = name
    try:
        return run().check(name)
    except _Made as made:
        return made.check
    finally:
        _wanted = ""


def wants(*names: str) -> bool:
    """Return whether a run is for all checks, or for one of these.

    What only some checks need, and what costs much or compares much, asks before it is worked
    out: a proof of one check then follows that check's comparisons alone.
    """
    return not _wanted or _wanted in names


def _made(check: Check) -> Check:
    if check.name == _wanted:
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
    return _made(Check(name, title, kind, value, limit, "at most", margin, source, **more))


def at_least(
    name: str, title: str, value: float, limit: float, kind: str, source: str, **more: Any
) -> Check:
    """Return a check that `value` is no less than `limit`."""
    margin = _past_rounding(_beyond(value, limit))
    return _made(Check(name, title, kind, value, limit, "at least", margin, source, **more))


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
    return _made(Check(name, title, kind, value, low, "between", margin, source, **more))


def fits(name: str, title: str, margin: float, sentence: Words, source: str, **more: Any) -> Check:
    """Return a check without a number: margin 1 fits, 0 fits with a remedy, -1 doesn't fit."""
    check = Check(name, title, "count", margin, 0.0, "fits", margin, source, sentence, **more)
    return _made(check)


@dataclass(frozen=True, slots=True)
class Output:
    """One number of the answer. `low` and `high` are set when inputs are ranges; `about` says
    that they may be a little further out."""

    name: str
    label: str
    value: float
    kind: str
    note: Words = ""
    unit_us: str = ""
    unit_metric: str = ""
    low: float | None = None
    high: float | None = None
    about: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the working: symbol = formula, with the numbers put in, and its source."""

    label: str
    symbol: str
    formula: str
    numbers: tuple[tuple[str, float, str], ...]
    value: float
    kind: str
    source: str
    unit_us: str = ""
    unit_metric: str = ""


class Work:
    """Collects the working while an answer is computed once; silent while a box is searched."""

    __slots__ = ("on", "steps")

    def __init__(self, on: bool = True) -> None:
        self.on = on
        self.steps: list[Step] = []

    def step(
        self,
        label: str,
        symbol: str,
        formula: str,
        numbers: tuple[tuple[str, float, str], ...],
        value: float,
        kind: str,
        source: str,
        unit_us: str = "",
        unit_metric: str = "",
    ) -> None:
        """Add a line: each number is (symbol, value, kind) in base units."""
        if self.on:
            self.steps.append(
                Step(label, symbol, formula, numbers, value, kind, source, unit_us, unit_metric)
            )


@dataclass(frozen=True, slots=True)
class Outcome:
    """What `compute` gives: the checks that apply and the outputs, at one set of values."""

    checks: Sequence[Check]
    outputs: Sequence[Output] = ()

    def check(self, name: str) -> Check | None:
        """Return the check called `name`, if it applies."""
        return next((check for check in self.checks if check.name == name), None)

    def output(self, name: str) -> float:
        """Return the value of the output called `name`."""
        for output in self.outputs:
            if output.name == name:
                return output.value
        raise UnknownName(f"There is no output called {name!r}.")

    def margin(self, names: Sequence[str] = ()) -> float:
        """Return the smallest margin, over the checks named or over all of them."""
        return min(
            (check.margin for check in self.checks if not names or check.name in names),
            default=1.0,
        )


@dataclass(frozen=True, slots=True)
class Remedy:
    """Something to do, solved from the limits. `set` holds field texts that try it out."""

    text: Words
    set: Mapping[str, str] = field(default_factory=dict)
    source: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning that belongs with the answer."""

    text: str
    source: str = ""


Cell = str | Phrase | tuple[float, str] | tuple[float, str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """An extra table of an answer. A `checklist` gets a box to cross in front of each row."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    source: str = ""
    note: Words = ""
    checklist: bool = False


@dataclass(frozen=True, slots=True)
class Advice:
    """What `advise` gives, once for an answer."""

    remedies: Sequence[Remedy] = ()
    cautions: Sequence[Caution] = ()
    tables: Sequence[Table] = ()
    notes: Sequence[Words] = ()
    headline: Words = ""  # replaces the sentence about the deciding check
