"""What `advise` is told: what was found over the whole box, and the words to say it with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from calc.model.answers import Verdict
from calc.model.at import Named
from calc.model.checks import OVER
from calc.model.outcome import Caution, Outcome, said_of
from calc.model.text import Number, Phrase
from calc.model.worksheet import Inputs, Worksheet


class Found:
    """The outcome where the deciding check is worst, and every verdict over the box."""

    def __init__(
        self,
        sheet: Worksheet,
        v: Inputs,
        outcome: Outcome,
        verdicts: Sequence[Verdict],
        assumed: frozenset[str] = frozenset(),
    ) -> None:
        self._sheet, self._v = sheet, v
        self.outcome = outcome
        self.verdicts = verdicts
        self.assumed = assumed
        """The fields that nobody gave, for which what is usual stands in."""
        self.over = frozenset(x.check.name for x in verdicts if x.finding == OVER)
        """The checks that are broken whatever the unknown numbers are."""
        self.broken = frozenset(x.check.name for x in verdicts if x.margin_low < 0)
        """The checks that are broken somewhere in the box."""
        self.unchecked = frozenset(x.name for x in outcome.unchecked)

    def __getattr__(self, name: str) -> Any:
        """A number that `compute` named, where the deciding check is worst."""
        return self.outcome.output(name)

    def __contains__(self, name: str) -> bool:
        return any(output.name == name for output in self.outcome.outputs)

    def finding(self, check: str) -> str:
        """The finding of one check; empty where it doesn't apply."""
        return next((x.finding for x in self.verdicts if x.check.name == check), "")

    def phrase(self, template: str, **numbers: Number) -> Phrase:
        """Return a phrase in which {name} is a field, a number of `compute`, or in `numbers`."""
        values = {output.name: output.value for output in self.outcome.outputs}
        return Phrase(template, Named(self._sheet, self._v, values, numbers))

    def note(self, key: str, **numbers: Number) -> Phrase:
        """Return a note of the words, filled in."""
        return self.worded("notes", key, **numbers)

    def worded(self, section: str, key: str, **numbers: Number) -> Phrase:
        """Return a sentence of a section of the words, filled in."""
        return self.phrase(said_of(self._sheet.words, section, key)["label"], **numbers)

    def cautions(self, *keys: str) -> list[Caution]:
        """Return cautions of the words by name."""
        found = [said_of(self._sheet.words, "cautions", key) for key in keys]
        return [
            Caution(said.get("text") or said["label"], said.get("source", "")) for said in found
        ]
