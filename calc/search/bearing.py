"""Which of the inputs that nobody gave move what was asked about.

Each is put in at its ends, or as each of its choices, with the others held at the middle of the
box and once more where the deciding check is worst. What then leaves every number of the question
alone bears on nothing that its answer says. It is found at points and not proved, so it only
says what a reply names: the page has them all.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from typing import Any

from calc import model
from calc.search.box import Known
from calc.search.giving import leading
from calc.search.looking import Search

_Numbers = dict[str, tuple[float, ...]]


def bearing(
    search: Search, asked: model.Ask, deciding: model.Verdict | None, known: Known
) -> frozenset[str]:
    """Return the names of the inputs that nobody gave and that move the question's numbers."""
    assumed = search.box.assumed
    if not asked.checks:  # it is about all that is checked
        return frozenset(item.field.name for item in assumed)
    told = {*asked.checks, asked.lead, *_named(asked)}
    points = [search.middle]
    if deciding is not None:
        told.add(deciding.check.name)
        points.append(search.worst[deciding.check.name][1])
    others = leading(search.sheet, known)
    choices = {item.field.name for item in assumed if item.typical is None}
    found = others & choices & set(asked.fields)  # what is usual of others goes with these
    for point in points:
        start = _numbers(search, {}, point, told)
        for item in assumed:
            if item.field.name in found:
                continue
            if any(
                _moved(start, _numbers(search, {item.field.name: value}, point, told))
                for value in _others(item, item.field.name in others)
            ):
                found.add(item.field.name)
    return frozenset(found)


def _others(item: model.Assumed, leads: bool) -> Iterator[Any]:
    """What an input might be instead: the ends of what is usual, or any of its choices.

    Where it `leads`, what others may be hangs on it, and only what the box holds goes with them.
    """
    known = item.typical
    if known is not None:
        # Where the same is usual everywhere, it is put in a little less.
        yield known.low if known.low < known.high else 0.9 * known.low
        yield known.high
    elif leads:
        yield from item.options
    elif isinstance(item.field, model.Choice):
        yield from (option.value for option in item.field.options)


def _moved(one: _Numbers, other: _Numbers) -> bool:
    """Whether a number is another one, by more than what arithmetic loses on some machine."""
    if one.keys() != other.keys():
        return True
    pairs = (pair for name in one for pair in zip(one[name], other[name], strict=True))
    return any(not math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12) for a, b in pairs)


def _named(asked: model.Ask) -> set[str]:
    """The numbers that the sentences of a question name."""
    said = (asked.says, asked.broken, asked.doubtful, asked.met, asked.near)
    texts = " ".join(text for sentences in said for text in sentences.values())
    return set(re.findall(r"\{(\w+)", texts))


def _numbers(
    search: Search, moved: Mapping[str, Any], point: Mapping[str, Any], told: set[str]
) -> _Numbers:
    """The numbers of the question at one point, with an input moved."""
    values = {**point, **moved}
    outcome = search.sheet.compute(search.box.point(values), search.silent)
    numbers: _Numbers = {name: (value,) for name, value in outcome.amounts() if name in told}
    numbers.update((c.name, (c.value, c.limit)) for c in outcome.checks if c.name in told)
    return numbers
