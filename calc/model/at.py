"""What `compute` and `advise` write into: values, checks and steps that know each other by name.

A name stands for a number whose kind and unit were said once, at the field or in OUTPUTS, and
for the words beside it in `words.toml`. So a line of `compute` reads as its formula::

    at.stop = braking.stopping_distance(v.road_speed, at.left, v.reaction_time)
    at.at_most("room", "stop", "room", source="road/EU-2")
    at.step("stop", "s = v (tᵣ + 0.54 s) + v² / (2 d)", "road/EU-2", v="road_speed", d="left")
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from calc.errors import UnknownName
from calc.model import checks
from calc.model.checks import Check, Unchecked
from calc.model.outcome import Outcome, Output, Step, Unworded, Work, said_of
from calc.model.text import Number, Phrase
from calc.model.worksheet import Inputs, Worksheet, number_of

Value = str | float


class Named(Mapping[str, Number]):
    """The numbers of one computing by name, for a phrase; looked up when the phrase is shown."""

    def __init__(
        self, sheet: Worksheet, v: Inputs, values: Mapping[str, Any], more: Mapping[str, Number]
    ) -> None:
        self._sheet, self._v, self._values, self._more = sheet, v, values, more

    def __getitem__(self, name: str) -> Number:
        if name in self._more:
            return self._more[name]
        value = self._values[name] if name in self._values else getattr(self._v, name)
        return number_of(self._sheet, name, value)

    def __iter__(self) -> Iterator[str]:
        return iter({*self._more, *self._values, *self._v.values()})

    def __len__(self) -> int:
        return len(list(iter(self)))


class At:
    """One computing: set `at.name` to a number to name it, read it back the same way."""

    def __init__(self, sheet: Worksheet, v: Inputs, work: Work) -> None:
        put = object.__setattr__
        put(self, "_sheet", sheet)
        put(self, "_v", v)
        put(self, "_work", work)
        put(self, "_values", {})
        put(self, "_bands", {})
        put(self, "_checks", [])
        put(self, "_unchecked", [])

    def __setattr__(self, name: str, value: Any) -> None:
        self._values[name] = value

    def __getattr__(self, name: str) -> Any:
        try:
            return self._values[name]
        except KeyError:
            raise UnknownName(f"Nothing is called {name!r} yet.") from None

    def __contains__(self, name: str) -> bool:
        return name in self._values

    @property
    def showing(self) -> bool:
        """Whether the working is wanted: skip what only the working needs otherwise."""
        return bool(self._work.on)

    def said(self, section: str, name: str) -> Mapping[str, Any]:
        """Return what the worksheet's words say of one thing."""
        return said_of(self._sheet.words, section, name)

    def number(self, value: Value) -> Any:
        """Return the number that a name stands for; a number is itself."""
        if not isinstance(value, str):
            return value
        return self._values[value] if value in self._values else getattr(self._v, value)

    def band(self, name: str, low: float, high: float) -> None:
        """Say how far a number may be off by itself, whatever the inputs are."""
        self._bands[name] = (low, high)

    def phrase(self, template: str, **numbers: Number) -> Phrase:
        """Return a phrase in which {name} is any number known by name here, or in `numbers`."""
        return Phrase(template, Named(self._sheet, self._v, self._values, numbers))

    def group(self, names: tuple[str, ...], make: Callable[..., object], *args: Any) -> None:
        """Call `make(*args)`, which makes the checks and numbers named and nothing else reads.

        A proof then goes through the options of a choice, and both ways of a comparison, for this
        group alone, and leaves the group out where it is about another check.
        """
        if not checks.wants(*names):
            return
        if not checks.leaving():
            make(*args)
            return
        before = dict(self._values), dict(self._bands), len(self._checks), len(self._unchecked)
        try:
            with checks.grouped():
                make(*args)
        except (checks.OpenChoice, checks.OpenWay) as need:
            checks.leave(names, need.name)
            put = object.__setattr__
            put(self, "_values", before[0])
            put(self, "_bands", before[1])
            del self._checks[before[2] :], self._unchecked[before[3] :]

    # --- checks ---------------------------------------------------------------------------------

    def at_most(
        self, name: str, value: Value, limit: Value, source: str, *, strict: Value = "", **more: Any
    ) -> None:
        """Check that a value is no more than a limit.

        Where the trade gives a band, `limit` is its lenient end and `strict` the other one.
        """
        self._limited(name, "at most", value, limit, source, strict, more)

    def at_least(
        self, name: str, value: Value, limit: Value, source: str, *, strict: Value = "", **more: Any
    ) -> None:
        """Check that a value is no less than a limit, or than a band's lenient end."""
        self._limited(name, "at least", value, limit, source, strict, more)

    def _limited(
        self,
        name: str,
        sense: str,
        value: Value,
        limit: Value,
        source: str,
        strict: Value,
        more: dict[str, Any],
    ) -> None:
        title, more = self._words(name, (value, limit), more)
        kind, here, there = more.pop("kind"), self.number(value), self.number(limit)
        if strict != "":
            found = checks.within_band(
                name, title, here, self.number(strict), there, kind, source, sense=sense, **more
            )
        else:
            make = checks.at_most if sense == "at most" else checks.at_least
            found = make(name, title, here, there, kind, source, **more)
        self._checks.append(found)

    def between(
        self, name: str, value: Value, low: Value, high: Value, source: str, **more: Any
    ) -> None:
        """Check that a value lies in a window."""
        title, more = self._words(name, (value, low, high), more)
        kind = more.pop("kind")
        ends = (self.number(value), self.number(low), self.number(high))
        self._checks.append(checks.between(name, title, *ends, kind, source, **more))

    def fits(
        self, name: str, margin: float, source: str, says: str = "", **numbers: Number
    ) -> None:
        """Check without a number: margin 1 fits, 0 fits with something to do, -1 doesn't.

        `says` picks the sentence under the check's `says` in the words.
        """
        more: dict[str, Any] = {
            key: numbers.pop(key) for key in ("grade", "why", "title") if key in numbers
        }
        said = said_of(self._sheet.words, "checks", name)
        template = said.get("says", {}).get(says, "")
        sentence = self.phrase(template, **numbers) if template else ""
        title, kept = self._words(name, (), {"kind": "count", **more})
        kept.pop("kind")
        self._checks.append(checks.fits(name, title, margin, sentence, source, **kept))

    def title(self, name: str) -> str:
        """Return the title that the words give a check."""
        said = said_of(self._sheet.words, "checks", name)
        return str(said.get("title") or said["label"])

    def not_checked(
        self,
        name: str,
        field: str,
        *,
        governs: bool = True,
        if_asked: bool = False,
        meant: bool = False,
    ) -> None:
        """Say that a check can't be made while `field` is blank.

        While one that governs is open the answer is "can't tell yet" at best. With `if_asked`
        only a question that names the check says so; what somebody `meant` to check is told
        wherever it is left open.
        """
        said = said_of(self._sheet.words, "checks", name)
        title = said.get("label") or said["title"]
        self._unchecked.append(Unchecked(name, title, field, governs, if_asked, meant))

    def add(self, check: Check) -> None:
        """Add a check that was made elsewhere."""
        self._checks.append(checks.made(check))

    def _words(
        self, name: str, values: tuple[Value, ...], more: dict[str, Any]
    ) -> tuple[str, dict[str, Any]]:
        """Return a check's title, and what else is said of it: kind and units by name."""
        said, title = more.pop("said", name), more.pop("title", "")
        names = () if "kind" in more else tuple(v for v in values if isinstance(v, str))
        known = self._sheet.said.get((name, said, "kind" in more, names))
        if known is None:
            known = self._found_words(name, said, None if "kind" in more else names)
            self._sheet.said[name, said, "kind" in more, names] = known
        return title or known[0], {**known[1], **more}

    def _found_words(
        self, name: str, section: str, names: tuple[str, ...] | None
    ) -> tuple[str, dict[str, Any]]:
        """Find what the words say of a check, and the kind of the first quantity among `names`."""
        said = said_of(self._sheet.words, "checks", section)
        found = {key: said[key] for key in ("why", "broken") if key in said}
        if names is not None:
            kinds = self._sheet.kinds
            quantity = next((known for known in names if known in kinds), None)
            if quantity is None:
                raise UnknownName(f"The check {name!r} names no quantity: say its kind.")
            found["kind"], found["unit_us"], found["unit_metric"] = kinds[quantity]
        return said.get("title") or said.get("label") or name, found

    # --- the working ----------------------------------------------------------------------------

    def step(self, name: str, formula: str, source: str, **numbers: Any) -> None:
        """Add a line of the working: "s = v t", and what each symbol stands for.

        A number is given by its name, or as (value, kind). The line's value is what `name` holds
        and its label what the words say under `steps` or `outputs`.
        """
        if not self._work.on:
            return
        words, kinds = self._sheet.words, self._sheet.kinds
        symbol, _, right = formula.partition(" = ")
        said = said_of(words, "steps", name) or said_of(words, "outputs", name)
        put_in = tuple(
            (key, self.number(item), kinds[item][0])
            if isinstance(item, str)
            else (key, item[0], item[1])
            for key, item in numbers.items()
        )
        kind, unit_us, unit_metric = kinds[name]
        value = self.number(name)
        self._work.steps.append(
            Step(said["label"], symbol, right, put_in, value, kind, source, unit_us, unit_metric)
        )

    def outcome(self) -> Outcome:
        """Return what was computed."""
        values = self._values
        amounts = [(i.name, values[i.name]) for i in self._sheet.outputs if i.name in values]
        return Outcome(self._checks, Unworded(amounts, self._outputs), self._unchecked)

    def _outputs(self) -> list[Output]:
        """Return the outputs with their words."""
        outputs = []
        for item in self._sheet.outputs:
            if item.name not in self._values:
                continue
            said = said_of(self._sheet.words, "outputs", item.name)
            note = said.get("note", "")
            low, high = self._bands.get(item.name, (None, None))
            outputs.append(
                Output(
                    item.name,
                    said.get("label", item.name),
                    self._values[item.name],
                    item.kind,
                    self.phrase(note) if "{" in note else note,
                    item.unit_us,
                    item.unit_metric,
                    low,
                    high,
                    hidden=item.hidden,
                )
            )
        return outputs
