"""What the reader gets: a finding over everything that the inputs may be."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from calc.model.checks import COMPARED, WITHIN, Check, Unchecked, counts
from calc.model.fields import AnyField, Typical
from calc.model.outcome import Advice, Output, Remedy, Step
from calc.model.pictures import Picture
from calc.model.worksheet import Ask, Worksheet

# What stands behind a finding over ranges: it holds for every machine in them; two machines in
# them differ, both computed; or so it was at every point that was computed.
STANDINGS = PROVED, SHOWN, SAMPLED = "proved", "shown", "sampled"


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
    standing: str = PROVED
    about: bool = False  # whether the value's ends may be a little further out


@dataclass(frozen=True, slots=True)
class Settle:
    """A number that would do much to settle an answer."""

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
class Odds:
    """How the machines that fit what was given divide: of `tried`, `pass_all` meet every check."""

    pass_all: int
    tried: int


@dataclass(frozen=True, slots=True)
class Answer:
    """The whole answer, in base units; rendered elsewhere.

    `given` holds the text of every input that the reader gave, `example` what stood in for the
    others while an example is shown. `missing` are needed fields that nobody filled in: then
    nothing was computed.
    """

    worksheet: Worksheet
    ask: Ask
    given: Mapping[str, str]
    example: Mapping[str, str]
    finding: str
    deciding: Verdict | None
    verdicts: Sequence[Verdict]
    unchecked: Sequence[Unchecked]
    outputs: Sequence[Output]
    working: Sequence[Step]
    advice: Advice
    assumed: Sequence[Assumed]
    settles: Sequence[Settle]
    pictures: Sequence[Picture]
    searched: int  # how many sets of values were computed
    final: bool = True  # False for the first pass, before ranges were searched
    missing: Sequence[AnyField] = ()
    standing: str = PROVED  # what stands behind the finding
    # Both take long, and are worked out when somebody wants to know: how the machines that fit
    # divide, and which inputs move what was asked.
    find_odds: Callable[[], Odds | None] = field(default=lambda: None, compare=False, repr=False)
    bearing: Callable[[], frozenset[str]] = field(default=frozenset, compare=False, repr=False)

    @property
    def is_example(self) -> bool:
        """Whether an example is shown, the page's or a question's."""
        return bool(self.example)

    @property
    def odds(self) -> Odds | None:
        """How the machines that fit what was given divide, where the finding is open."""
        return self.find_odds()

    @property
    def margin(self) -> float:
        """The deciding check's smallest margin."""
        return self.deciding.margin_low if self.deciding else 0.0

    @property
    def settle(self) -> Settle | None:
        """The single number that would do most to settle it."""
        return self.settles[0] if self.settles else None

    def verdict(self, name: str) -> Verdict | None:
        """Return the verdict of the check called `name`, if it applies."""
        return next((v for v in self.verdicts if v.check.name == name), None)

    def output(self, name: str) -> Output | None:
        """Return the output called `name`, if there is one."""
        return next((o for o in self.outputs if o.name == name), None)

    def asks_for(self, name: str) -> bool:
        """Whether the check called `name` counts for the question."""
        return not self.ask.checks or name in self.ask.checks

    def concerns(self, remedy: Remedy) -> bool:
        """Whether a remedy mends something that was asked about, or a danger."""
        if not self.ask.checks:
            return True
        if not remedy.mends:
            fits = not remedy.set or bool(set(remedy.set) & set(self.ask.fields))
            return fits and self.finding not in (WITHIN, COMPARED)
        return any(
            v.check.name in remedy.mends
            for v in self.verdicts
            if v.check.name in self.ask.checks
            or counts(v.finding, v.check.grade, alone=self.ask.alone)
        )
