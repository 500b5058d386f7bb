"""A calculator: its fields, the questions it answers, and three functions of its values.

* `compute(v, work)` gives the checks and outputs; it is called hundreds of times when some
  inputs are ranges, so it does arithmetic and nothing else;
* `advise(v, outcome, solve)` gives the remedies, cautions and extra tables, once;
* `picture(v, outcome)` gives what is drawn, once.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from calc.errors import UnknownName
from calc.model.checks import CLOSE, COMPARED, FINDING_WORDS, OVER, UNKNOWN, WITHIN
from calc.model.fields import AnyField, Choice, Field
from calc.model.outcome import Advice, Outcome, Shown, Work
from calc.model.pictures import Picture
from calc.model.text import Number


class Inputs:
    """The values of one point, one attribute for each field: float, str, decoded value or None."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.__dict__.update(values)

    def __getattr__(self, name: str) -> Any:
        raise UnknownName(f"There is no field called {name!r}.")

    def values(self) -> dict[str, Any]:
        """Return the values by field name."""
        return dict(self.__dict__)

    def each(self, name: str, made_of: Callable[[Any], Any]) -> Any:
        """Return what `made_of` makes of the choice called `name`: numbers, or a tuple of them.

        A proof in which the choice is open then has the numbers of all options in one run, where
        reading the choice takes a run for each. A text that is made is for showing alone.
        """
        return made_of(getattr(self, name))

    def but(self, **changes: Any) -> Inputs:
        """Return the same values with some replaced."""
        return Inputs({**self.__dict__, **changes})


def _no_review(known: Mapping[str, Any]) -> Mapping[str, str]:
    return {}


@dataclass(frozen=True, slots=True)
class Ask:
    """One question that a worksheet answers.

    `fields` are the few that matter for it, in the order in which they are asked. `lead` names
    the check or the output that leads the answer. `checks` names those that decide it; empty
    means all of them. A broken danger always counts. `says` maps a finding ("within", "close",
    "over", "unknown", "compared") or "value" (whatever the finding) to the sentence at the
    counter. In it {name} is a field or a number, {check.value} and {check.limit} those of a check.
    `broken`, `doubtful` and `met` map the check that decides to the sentence for "over",
    "unknown" and "within" where it needs one of its own. Those of the words' own sections
    `broken` and `doubtful` hold for every question: what doesn't stop is said whatever was asked.
    Of several checks that can't be told yet the first of `until_told` decides; else `lead`.
    `given` maps a field to the checks that the question is about as well once somebody gives it:
    who says which wire is fitted also asks whether it will do. Nothing is said of a question while
    none of its fields `first` is given, nor one of `given` (with no checks where it only starts
    the question): from what is usual alone it would get no answer that anybody can use. `taken`
    maps a choice that must be picked elsewhere to what is taken here when nobody did: who asks
    about a side slope may have nothing on the hitch. `alone` says that what isn't told of a
    danger, or comes near one, is none of its business unless its `checks` name it: oil is there or
    not, whatever the front wheels carry. A broken one counts.
    """

    key: str
    question: str
    fields: tuple[str, ...] = ()
    lead: str = ""
    checks: tuple[str, ...] = ()
    says: Mapping[str, str] = field(default_factory=dict)
    broken: Mapping[str, str] = field(default_factory=dict)
    doubtful: Mapping[str, str] = field(default_factory=dict)
    met: Mapping[str, str] = field(default_factory=dict)
    near: Mapping[str, str] = field(default_factory=dict)
    until_told: tuple[str, ...] = ()
    given: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    first: tuple[str, ...] = ()
    taken: Mapping[str, str] = field(default_factory=dict)
    alone: bool = False

    def starts_with(self, names: Collection[str]) -> bool:
        """Whether something can be said of it to somebody who gave the fields `names`."""
        return not self.first or any(name in names for name in (*self.first, *self.given))

    def about(self, names: Collection[str]) -> Ask:
        """Return the question as it is asked by somebody who gave the fields `names`."""
        if not self.checks:  # it is about all of them
            return self
        more = [c for name, checks in self.given.items() if name in names for c in checks]
        return replace(self, checks=(*self.checks, *more)) if more else self

    def sentence(self, finding: str, deciding: str = "") -> str:
        """The template for a finding that the check `deciding` brought about.

        Empty when the ask has none: that a danger of another kind is broken is never said with
        the sentence of this question.
        """
        by_check = {
            OVER: self.broken,
            UNKNOWN: self.doubtful,
            CLOSE: self.near,
            WITHIN: self.met,
        }.get(finding, {})
        if deciding in by_check:
            return by_check[deciding]
        if finding in (OVER, UNKNOWN) and self.checks and deciding not in ("", *self.checks):
            return ""
        return self.says.get(finding) or self.says.get("value", "")


def asks_of(words: Mapping[str, Any]) -> tuple[Ask, ...]:
    """Return the asks of a worksheet's words, in the order in which they stand there."""
    return tuple(
        Ask(
            key,
            said["question"],
            tuple(said.get("fields", ())),
            said.get("lead", ""),
            tuple(said.get("checks", ())),
            {name: said[name] for name in (*FINDING_WORDS, "value") if name in said},
            {**words.get("broken", {}), **said.get("broken", {})},
            {**words.get("doubtful", {}), **said.get("doubtful", {})},
            said.get("met", {}),
            said.get("near", {}),
            tuple(said.get("until_told", (said.get("lead", ""),))),
            {name: tuple(checks) for name, checks in said.get("given", {}).items()},
            tuple(said.get("first", ())),
            said.get("taken", {}),
            said.get("alone", False),
        )
        for key, said in words.get("asks", {}).items()
    )


@dataclass(frozen=True, slots=True)
class Worksheet:
    """One calculator.

    `review` sees every value read (Reading, str, decoded value or None) and returns a sentence
    for each field that can't stand beside the others. `words` are the texts beside the sums.
    """

    name: str
    title: str
    question: str
    fields: tuple[AnyField, ...]
    compute: Callable[[Inputs, Work], Outcome]
    advise: Callable[[Inputs, Outcome, Any], Advice]
    picture: Callable[[Inputs, Outcome], Picture | Sequence[Picture] | None]
    review: Callable[[Mapping[str, Any]], Mapping[str, str]] = _no_review
    outputs: tuple[Shown, ...] = ()
    asks: tuple[Ask, ...] = ()
    words: Mapping[str, Any] = field(default_factory=dict)
    page: str = ""  # where it stands in the site, such as "lift/lift-and-ballast"
    example: str = ""  # one sentence that says what the example is
    kinds: Mapping[str, tuple[str, str, str]] = field(default_factory=dict)  # see `kinds_of`
    # What `At` found in the words for each check once: as many entries as the sums name.
    said: dict[tuple[Any, ...], Any] = field(default_factory=dict, compare=False, repr=False)

    def field(self, name: str) -> AnyField:
        """Return the field called `name`."""
        for item in self.fields:
            if item.name == name:
                return item
        raise UnknownName(f"{self.title} has no field called {name!r}.")

    def examples(self) -> dict[str, str]:
        """Return the text of the page's example for each field."""
        return {item.name: item.example for item in self.fields}

    def ask(self, key: str = "") -> Ask:
        """Return the ask called `key`; the first one, or the page's whole question, for none.

        Raises
        ------
        UnknownName
            When the worksheet has no such ask.
        """
        for item in self.asks:
            if not key or item.key == key:
                return item
        if key:
            raise UnknownName(f"{self.title} has no question called {key!r}.")
        essential = tuple(item.name for item in self.fields if item.essential)
        return Ask("", self.question, essential)

    def asked(self, ask: Ask, given: Collection[str]) -> Worksheet:
        """Return the worksheet as `ask` needs it of somebody who gave the fields `given`.

        What it takes for a choice doesn't stand beside more that was said of the same thing: a
        working width is of an implement, whichever that is.
        """
        if not ask.taken:
            return self
        more = {item.group for item in self.fields if item.name in {*given} - {*ask.fields}}
        taken = {
            item.name: replace(item, usual=ask.taken[item.name], needed=False)
            for item in self.fields
            if isinstance(item, Choice) and item.name in ask.taken and item.group not in more
        }
        return replace(self, fields=tuple(taken.get(item.name, item) for item in self.fields))

    @property
    def compares_money(self) -> bool:
        """Whether it has words of its own for what it finds: “It pays”, never a limit."""
        return "findings" in self.words

    def finding_words(self, finding: str) -> str:
        """Return a finding in words; a page that compares never speaks of limits."""
        own: Mapping[str, str] = self.words.get("findings", {})
        return own.get(finding, FINDING_WORDS.get(finding, FINDING_WORDS[COMPARED]))


def kinds_of(
    fields: Sequence[AnyField], outputs: Sequence[Shown]
) -> dict[str, tuple[str, str, str]]:
    """Return kind, US unit and metric unit of every quantity that has a name."""
    named: list[Field | Shown] = [item for item in fields if isinstance(item, Field)]
    named += outputs
    return {item.name: (item.kind, item.unit_us, item.unit_metric) for item in named}


def number_of(sheet: Worksheet, name: str, value: Any) -> Number:
    """Return a named value as a phrase shows it.

    Raises
    ------
    UnknownName
        When the worksheet has no quantity or choice of that name.
    """
    if name in sheet.kinds:
        kind, unit_us, unit_metric = sheet.kinds[name]
        return (float(value), kind, unit_us, unit_metric)
    item = sheet.field(name)
    return item.shown(str(value)) if isinstance(item, Choice) else str(value)
