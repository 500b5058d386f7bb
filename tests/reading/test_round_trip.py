"""A message made from any set of fields is read back to them."""

import random

import pytest

from calc import model, reading, worksheets
from calc.errors import InputError
from calc.quantities import Reading, base, show

FORMS = ("{label}: {text}", "{label} is {text}", "{label} {text}", "{label} = {text}")
JOINS = ("\n", ". ", "; ", ", ")


def some_text(item, rng):
    """A text that a field takes, in a unit that people use."""
    if isinstance(item, model.Choice):
        option = rng.choice(item.options)
        return rng.choice([option.label, option.value])
    if isinstance(item, model.Entry):
        return item.example or item.such_as
    low, high = base(item.low, item.kind), base(item.high, item.kind)
    unit = rng.choice([item.unit("us"), item.unit("metric")])
    system = rng.choice(["us", "metric"])
    for _ in range(20):
        text = show(rng.uniform(low, high), item.kind, system, unit=unit)
        if rng.random() < 0.15:
            other = show(rng.uniform(low, high), item.kind, system, unit=unit)
            text = f"{text} to {other}"
        try:
            if item.read(text) is not None:
                return text
        except InputError:
            pass
    return show((low + high) / 2, item.kind, "us", unit=item.unit("us"), figures=4)


def same(item, one, other):
    a, b = item.read(one), item.read(other)
    if isinstance(a, Reading):
        near = 1e-9 * max(1, abs(a.low), abs(a.high))
        return abs(a.low - b.low) <= near and abs(a.high - b.high) <= near
    return a == b


def made(seed):
    """A message of some fields of some worksheet, and what it gives."""
    rng = random.Random(seed)
    sheet = worksheets.load(rng.choice(worksheets.names()))
    items = rng.sample(sheet.fields, min(len(sheet.fields), rng.randint(1, 8)))
    given, parts = {}, []
    form, join = rng.choice(FORMS), rng.choice(JOINS)
    for item in items:
        try:
            text = some_text(item, rng)
            if not text or item.read(text) is None:
                continue
        except InputError:
            continue
        given[item.name] = text
        parts.append(form.format(label=item.label.rstrip("?"), text=text))
    question = sheet.ask().question or sheet.question
    return sheet, f"{question}\n{join.join(parts)}", given


@pytest.mark.parametrize("start", [0, 1000, 2000])
def test_read_back(start):
    """At least 98 of 100 give every field as it was written, and none that wasn't."""
    failures = []
    for seed in range(start, start + 100):
        sheet, text, given = made(seed)
        found = reading.read(text).questions
        inputs = found[0].inputs if found and found[0].worksheet == sheet.name else {}
        whole = set(inputs) == set(given)
        if not (whole and all(same(sheet.field(n), given[n], t) for n, t in inputs.items())):
            failures.append((text, given, inputs))
    assert len(failures) <= 2, failures[:5]
