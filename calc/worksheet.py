"""The small model that everything speaks: fields, worksheets, checks, answers.

A `Worksheet` is data (its fields) and three functions of the values:

* `compute(v, work)` gives the checks and outputs; it is called hundreds of times when some
  inputs are ranges, so it does arithmetic and nothing else;
* `advise(v, outcome, solve)` gives the remedies, cautions and extra tables, once;
* `picture(v, outcome)` gives what is drawn, once.

Everything here is plain data in base units (SI). Text that holds quantities is a `Phrase`,
written out in the reader's units only when it is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from calc import quantities
from calc.errors import InputError, UnknownName
from calc.quantities import Reading

if TYPE_CHECKING:
    from calc.explore import Solver
    from calc.picture import Picture

WITHIN, CLOSE, OVER, UNKNOWN, COMPARED = "within", "close", "over", "unknown", "compared"
FINDING_WORDS = {
    WITHIN: "Within limits",
    CLOSE: "Close to a limit",
    OVER: "Over a limit",
    UNKNOWN: "Can't tell yet",
    COMPARED: "Compared, no limit applies",
}

CLOSE_BAND = 0.10  # a margin smaller than this share of the limit is "close"; our own choice


# --- text with quantities -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence with quantities in it, such as "{width} is the widest".

    `numbers` maps each name in braces to (value, kind) or (value, kind, unit) in base units,
    or to a plain string.
    """

    template: str
    numbers: Mapping[str, tuple[float, str] | tuple[float, str, str] | str] = field(
        default_factory=dict
    )

    def text(self, system: str = "us") -> str:
        """Return the sentence in the reader's units."""
        shown = {}
        for name, item in self.numbers.items():
            if isinstance(item, str):
                shown[name] = item
            else:
                unit = item[2] if len(item) > 2 else ""
                shown[name] = quantities.show(item[0], item[1], system, unit=unit)
        return self.template.format(**shown)


def phrase(template: str, **numbers: tuple[float, str] | tuple[float, str, str] | str) -> Phrase:
    """Return a `Phrase`: `phrase("{width} is the widest", width=(1.2, "length"))`."""
    return Phrase(template, numbers)


Words = str | Phrase


def words(text: Words, system: str) -> str:
    """Return a string or a phrase as text in the reader's units."""
    return text if isinstance(text, str) else text.text(system)


def in_sentence(label: str) -> str:
    """Return a label as it stands within a sentence: "PTO power" stays, "Wheelbase" doesn't."""
    first = label.split()[0]
    return label if len(first) > 1 and first.isupper() else label[:1].lower() + label[1:]


# --- fields -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Typical:
    """The range used when an input isn't known, and where that range comes from."""

    low: float
    high: float
    source: str
    of: str = ""  # what kind of machine it is typical of, in words


KnownSoFar = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Field:
    """A quantity that a reader fills in.

    `low` and `high` are the limits of what can be a real value, as text with a unit.
    Blank means unknown: the `typical` range is used, or, for an `optional` field, None
    reaches `compute` and whatever needs it is left out. `essential` fields are asked first;
    the others sit behind one more step, under the heading `group`.
    """

    name: str
    label: str
    kind: str
    low: str
    high: str
    help: str
    default: str = ""
    typical: Typical | Callable[[KnownSoFar], Typical] | None = None
    optional: bool = False
    essential: bool = False
    group: str = "More numbers"
    unit_us: str = ""
    unit_metric: str = ""

    def __post_init__(self) -> None:
        if self.typical is None and not self.optional:
            raise ValueError(f"Field {self.name} needs a typical range or must be optional.")

    def typical_for(self, known: KnownSoFar) -> Typical | None:
        """Return the typical range for what is known of the machine."""
        return self.typical(known) if callable(self.typical) else self.typical

    def unit(self, system: str) -> str:
        """The unit in which this field is shown; empty for the system's own."""
        return self.unit_us if system == "us" else self.unit_metric

    def limits_text(self, system: str = "us") -> str:
        """The limits as a phrase."""
        ends = [quantities.base(end, self.kind) for end in (self.low, self.high)]
        return quantities.show_range(ends[0], ends[1], self.kind, system, unit=self.unit(system))

    def read(self, text: str, system: str = "us") -> Reading | None:
        """Return what was typed, or None when it is unknown.

        Raises
        ------
        InputError
            When it can't be read or lies outside the limits.
        """
        reading = quantities.parse(text, self.kind)
        if reading is None:
            return None
        low, high = quantities.base(self.low, self.kind), quantities.base(self.high, self.kind)
        slack = 1e-9 * max(abs(low), abs(high))
        if reading.low < low - slack or reading.high > high + slack:
            if reading.high <= 0 < low:
                problem = "must be more than zero"
            else:
                problem = f"must lie between {self.limits_text(system).replace(' to ', ' and ')}"
            raise InputError(f"“{quantities.shorten(text)}”: {in_sentence(self.label)} {problem}.")
        return reading


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a choice."""

    value: str
    label: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few options. When `unsure` holds values, "not sure" may be picked as well,
    and the finding must then hold for each of those values."""

    name: str
    label: str
    options: tuple[Option, ...]
    help: str
    default: str = ""
    unsure: tuple[str, ...] = ()
    essential: bool = False
    group: str = "More numbers"

    def __post_init__(self) -> None:
        values = {option.value for option in self.options}
        if not set(self.unsure) <= values or (self.default and self.default not in values):
            raise ValueError(f"Choice {self.name} names a value that is not among its options.")
        if not self.default and not self.unsure:
            raise ValueError(f"Choice {self.name} needs a default or values to be unsure between.")

    def read(self, text: str, system: str = "us") -> str | None:
        """Return the value picked, or None for "not sure"."""
        picked = text.strip()
        if picked.lower() in quantities.UNKNOWN_WORDS:
            return None if self.unsure else self.default
        for option in self.options:
            if picked.lower() in (option.value.lower(), option.label.lower()):
                return option.value
        accepted = quantities.joined([option.value for option in self.options], "or")
        raise InputError(
            f"“{quantities.shorten(picked)}” is not one of the options for "
            f"{in_sentence(self.label)}: {accepted}."
        )


@dataclass(frozen=True, slots=True)
class Entry:
    """A field for text that is neither a quantity nor a choice, such as a tire size.

    `decode` turns the text into the value and raises InputError with a sentence; blank gives
    None.
    """

    name: str
    label: str
    help: str
    decode: Callable[[str], Any]
    default: str = ""
    essential: bool = False
    group: str = "More numbers"
    example: str = ""

    def read(self, text: str, system: str = "us") -> Any:
        """Return the decoded value, or None when blank."""
        plain = text.strip()
        if plain.lower() in quantities.UNKNOWN_WORDS:
            return None
        if len(plain) > quantities.LONGEST_TEXT:
            raise InputError(
                f"That is {len(plain):,} characters long; write something like {self.example}."
            )
        return self.decode(plain)


AnyField = Field | Choice | Entry


# --- what compute gives back --------------------------------------------------------------


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


def _past_rounding(margin: float) -> float:
    """A limit in feet met by a value in inches may be missed by rounding alone: that is no miss."""
    return 0.0 if -1e-9 < margin < 0 else margin


def at_most(
    name: str, title: str, value: float, limit: float, kind: str, source: str, **more: Any
) -> Check:
    """Return a check that `value` is no more than `limit`."""
    margin = (limit - value) / abs(limit) if limit else (-1.0 if value > 0 else 0.0)
    margin = _past_rounding(margin)
    return Check(name, title, kind, value, limit, "at most", margin, source, **more)


def at_least(
    name: str, title: str, value: float, limit: float, kind: str, source: str, **more: Any
) -> Check:
    """Return a check that `value` is no less than `limit`."""
    margin = (value - limit) / abs(limit) if limit else (1.0 if value > 0 else 0.0)
    margin = _past_rounding(margin)
    return Check(name, title, kind, value, limit, "at least", margin, source, **more)


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
    margin = min(value - low, high - value) / half if half > 0 else -1.0
    margin = _past_rounding(margin)
    return Check(name, title, kind, value, low, "between", margin, source, upper=high, **more)


def fits(name: str, title: str, margin: float, sentence: Words, source: str, **more: Any) -> Check:
    """Return a check without a number: margin 1 fits, 0 fits with a remedy, -1 doesn't fit."""
    return Check(name, title, "count", margin, 0.0, "fits", margin, source, sentence, **more)


@dataclass(frozen=True, slots=True)
class Output:
    """One number of the answer. `low` and `high` are set when inputs are ranges."""

    name: str
    label: str
    value: float
    kind: str
    note: Words = ""
    unit_us: str = ""
    unit_metric: str = ""
    low: float | None = None
    high: float | None = None


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


class Inputs:
    """The values of one point, one attribute for each field: float, str, decoded value or None."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.__dict__.update(values)

    def __getattr__(self, name: str) -> Any:
        raise UnknownName(f"There is no field called {name!r}.")

    def values(self) -> dict[str, Any]:
        """Return the values by field name."""
        return dict(self.__dict__)

    def but(self, **changes: Any) -> Inputs:
        """Return the same values with some replaced."""
        return Inputs({**self.__dict__, **changes})


def _no_review(known: Mapping[str, Any]) -> Mapping[str, str]:
    return {}


@dataclass(frozen=True, slots=True)
class Worksheet:
    """One calculator.

    `review` sees every value read (Reading, str, decoded value or None) and returns a sentence
    for each field that can't stand beside the others.
    """

    name: str
    title: str
    question: str
    fields: tuple[AnyField, ...]
    compute: Callable[[Inputs, Work], Outcome]
    advise: Callable[[Inputs, Outcome, Solver], Advice]
    picture: Callable[[Inputs, Outcome], Picture | Sequence[Picture] | None]
    review: Callable[[Mapping[str, Any]], Mapping[str, str]] = _no_review
    page: str = ""  # where it stands in the site, such as "lift/lift-and-ballast"
    example: str = ""  # one sentence that says what the default example is

    def field(self, name: str) -> AnyField:
        """Return the field called `name`."""
        for item in self.fields:
            if item.name == name:
                return item
        raise UnknownName(f"{self.title} has no field called {name!r}.")

    def defaults(self) -> dict[str, str]:
        """Return the text of the default example for each field."""
        return {item.name: item.default for item in self.fields}


# --- what the reader gets -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Verdict:
    """A check over everything the inputs may be: its range, and the finding that holds."""

    check: Check  # at the middle values
    finding: str
    value_low: float
    value_high: float
    margin_low: float
    margin_high: float
    limit_low: float
    limit_high: float


@dataclass(frozen=True, slots=True)
class Settle:
    """The single number that would do most to settle an answer."""

    field: AnyField
    low: float | None  # at this or more the deciding check is met whatever the others are
    high: float | None  # at this or less it is met
    narrows: float  # share of the deciding margin's width that goes once it is known


@dataclass(frozen=True, slots=True)
class Assumed:
    """An input that wasn't known, and what was used for it."""

    field: AnyField
    typical: Typical | None
    options: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """The whole answer, in base units; rendered elsewhere."""

    worksheet: Worksheet
    typed: Mapping[str, str]
    finding: str
    deciding: Verdict | None
    verdicts: Sequence[Verdict]
    outputs: Sequence[Output]
    working: Sequence[Step]
    advice: Advice
    assumed: Sequence[Assumed]
    settle: Settle | None
    pictures: Sequence[Picture]
    searched: int  # how many sets of values were computed
    final: bool = True  # False for the first pass, before ranges were searched

    @property
    def margin(self) -> float:
        """The deciding check's smallest margin."""
        return self.deciding.margin_low if self.deciding else 0.0
