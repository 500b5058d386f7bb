"""A calculator: its fields, and three functions of their values.

* `compute(v, work)` gives the checks and outputs; it is called hundreds of times when some
  inputs are ranges, so it does arithmetic and nothing else;
* `advise(v, outcome, solve)` gives the remedies, cautions and extra tables, once;
* `picture(v, outcome)` gives what is drawn, once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.errors import UnknownName
from calc.model.fields import AnyField
from calc.model.outcome import Advice, Outcome, Work
from calc.model.pictures import Picture


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
    advise: Callable[[Inputs, Outcome, Any], Advice]
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
