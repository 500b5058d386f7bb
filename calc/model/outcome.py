"""What computing gives at one set of values: checks, outputs, the working, and what to do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc.errors import UnknownName
from calc.model.checks import ADVICE, Check, Unchecked
from calc.model.text import Number, Phrase, Words


@dataclass(frozen=True, slots=True)
class Shown:
    """A quantity that `compute` names: its kind and units are said here and nowhere else.

    A `hidden` one is for steps, checks and sentences alone; the others are listed among the
    numbers of the answer, in the order in which they are declared.
    """

    name: str
    kind: str
    unit_us: str = ""
    unit_metric: str = ""
    hidden: bool = False


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
    hidden: bool = False
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


class Unworded(Sequence[Output]):
    """Outputs whose words are put to them when somebody looks: a search only asks the amounts."""

    __slots__ = ("_made", "_word", "amounts")

    def __init__(
        self,
        amounts: Sequence[tuple[str, float]],
        word: Callable[[], Sequence[Output]],
    ) -> None:
        self.amounts, self._word = amounts, word
        self._made: Sequence[Output] | None = None

    def _all(self) -> Sequence[Output]:
        if self._made is None:
            self._made = self._word()
        return self._made

    def __getitem__(self, place: Any) -> Any:
        return self._all()[place]

    def __len__(self) -> int:
        return len(self.amounts)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What `compute` gives at one set of values.

    `checks` are those that apply, `unchecked` those that lack a number, `outputs` the numbers.
    """

    checks: Sequence[Check]
    outputs: Sequence[Output] = ()
    unchecked: Sequence[Unchecked] = ()

    def amounts(self) -> Iterable[tuple[str, float]]:
        """Return name and value of each output."""
        if isinstance(self.outputs, Unworded):
            return self.outputs.amounts
        return [(output.name, output.value) for output in self.outputs]

    def check(self, name: str) -> Check | None:
        """Return the check called `name`, if it applies."""
        return next((check for check in self.checks if check.name == name), None)

    def output(self, name: str) -> float:
        """Return the value of the output called `name`."""
        for known, value in self.amounts():
            if known == name:
                return value
        raise UnknownName(f"There is no output called {name!r}.")

    def margin(self, names: Sequence[str] = ()) -> float:
        """Return the smallest margin, over the checks named, or over all that are not advice."""
        return min(
            (
                check.margin
                for check in self.checks
                if (check.name in names if names else check.grade != ADVICE)
            ),
            default=1.0,
        )


@dataclass(frozen=True, slots=True)
class Remedy:
    """Something to buy or do, solved from the limits and proven by putting it in.

    `set` holds field texts that try it out, `mends` the names of the broken checks that it meets,
    and `whole` is true when nothing is broken after it. `key` is the name under which a dealer's
    list may say more of it: "worksheet.key".
    """

    text: Words
    set: Mapping[str, str] = field(default_factory=dict)
    source: str = ""
    mends: tuple[str, ...] = ()
    whole: bool = False
    key: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning that belongs with the answer."""

    text: str
    source: str = ""


Cell = Number | Phrase


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
    """What `advise` gives, once for an answer.

    `says` holds the leading sentence of an ask, by its key, where which one it is hangs on more
    than the finding; a sentence of the ask's own words for the finding stands before it.
    """

    remedies: Sequence[Remedy] = ()
    cautions: Sequence[Caution] = ()
    tables: Sequence[Table] = ()
    notes: Sequence[Words] = ()
    headline: Words = ""  # replaces the sentence about the deciding check
    says: Mapping[str, Words] = field(default_factory=dict)


def said_of(words: Mapping[str, Any], section: str, name: str) -> Mapping[str, Any]:
    """Return what a worksheet's words say of one thing: a text alone is its label."""
    found = words.get(section, {}).get(name, {})
    return {"label": found} if isinstance(found, str) else found
